"""The tables of outfit.toml, one by one."""

from pathlib import Path

import pytest

from runplanner.audit.audit import audit
from runplanner.days import DAY_MIN, clock
from runplanner.outfit.outfit import Deadline
from runplanner.outfit.people import Person
from runplanner.outfit.safety import plain
from runplanner.outfit.stores import Container
from runplanner.outfit.trucks import Axles, Nose
from runplanner.scenario import read_scenario
from runplanner.scenario.forecast.part import Heard
from runplanner.season.plan_season import plan_season
from tests.scenario.folders import BASE, HEAD, SEASON, TRUCK, YARDS, a_folder, faults, only, read


def test_three_bases(tmp_path: Path) -> None:
    """Home, feed store and honey house may lie apart; what is not given lies at the base."""
    extra = (
        '[feed_store]\nname = "Store"\nlat = -38.06\nlon = 175.12\nopens = "06:00"\n'
        "[honey_house]\nlat = -38.07\nlon = 175.13\nboxes_per_hour = [10, 18]\nroom = 99\n"
        'waiting = 7\nspin_from = "07:00"\nspin_to = "17:00"\n'
    )
    outfit = read(tmp_path, extra, base=BASE + 'closes = "20:00"\n')

    bases = (outfit.home, outfit.feed_store, outfit.honey_house.base)
    assert (0, 1, 2) == tuple(base.place for base in bases)
    assert [0, 360, 300] == [base.opens_min for base in bases]  # 05:00 by default, but at home
    assert [1440, 1200, 1200] == [base.closes_min for base in bases]
    assert ["Base", "Store", "Honey house"] == [place.name for place in outfit.places[:3]]
    assert (0, 10, 18) == outfit.honey_house.boxes_per_h
    assert (99, 7, 420, 1020) == (
        outfit.honey_house.room_boxes,
        outfit.honey_house.waiting_boxes,
        outfit.honey_house.spin_from_min,
        outfit.honey_house.spin_to_min,
    )


@pytest.mark.parametrize(
    ("bases", "lost", "of"),
    [
        ('[home]\nname = "Farm"\n[honey_house]\nname = "Shed"\n', "Shed", "home"),
        ('[honey_house]\nname = "Shed"\n', "Shed", "base"),
        ('[home]\nname = "Farm"\n[honey_house]\nname = "Shed"\nlat = -38.1\nlon = 175.1\n', "", ""),
        ('[home]\nname = "Farm"\n[honey_house]\nname = "Farm"\n', "", ""),
        ('[home]\nname = "Farm"\n[honey_house]\nopens = "09:00"\n', "", ""),
    ],
)
def test_a_bases_name_that_is_not_shown_is_told(
    tmp_path: Path, bases: str, lost: str, of: str
) -> None:
    """Where it lies at another one, whose name counts; not where both have one name, or none."""
    heard = Heard()
    read_scenario(a_folder(tmp_path, bases), heard)

    told = f"honey_house, name: '{lost}' is not shown, as one place has one name, that of [{of}]"
    assert bool(lost) is (len(heard.doubts) == 1)
    assert all(told in one for one in heard.doubts)


@pytest.mark.parametrize(
    ("typed", "hours"),
    [
        ('opens = "10:00"\ncloses = "14:00"\n', (600, 840)),
        ('opens = "07:00"\ncloses = "16:30"\n', (480, 990)),
        ('closes = "14:00"\nspin_to = "18:00"\n', (480, 1080)),
        ('opens = "21:00"\ncloses = "23:00"\n', (480, 1200)),
        ("", (480, 1200)),
    ],
)
def test_nobody_spins_in_a_house_that_is_shut(
    tmp_path: Path, typed: str, hours: tuple[int, int]
) -> None:
    """Unless it is typed; a house open by night alone takes boxes then, and is spun in by day."""
    house = read(tmp_path, f"[honey_house]\n{typed}").honey_house

    assert hours == (house.spin_from_min, house.spin_to_min)


@pytest.mark.parametrize(
    ("typed", "hours"),
    [
        ('opens = "06:30"\ncloses = "16:00"\n', (390, 960)),
        ('opens = "05:00"\ncloses = "22:00"\n', (360, 1200)),
        ('opens = "07:00"\n[hours]\nstart = "05:00"\nend = "19:00"\n', (420, 1140)),
        ('closes = "18:00"\n[hours]\nstart = "08:00"\nend = "19:00"\n', (480, 1080)),
    ],
)
def test_trucks_keep_the_hours_of_home(tmp_path: Path, typed: str, hours: tuple[int, int]) -> None:
    """The working day, 06:00 to 20:00 if not typed, ends where home's own hours do, and is told."""
    outfit = read(tmp_path, f"[home]\n{typed}")
    told = {str(one.value) for one in outfit.assumed if "leave home" in one.source}

    assert hours == (outfit.hours.start_min, outfit.hours.end_min)
    assert told == {clock(one) for one in hours} - {"06:00", "20:00", "08:00", "19:00"}
    assert len(outfit.assumed) == len({str(one.field) for one in outfit.assumed})


def test_hours_of_the_base_are_those_of_its_gates(tmp_path: Path) -> None:
    """Typed under [base] they hold for loading and unloading; trucks may be out before."""
    outfit = read(tmp_path, base=BASE + 'opens = "08:00"\n')

    assert (480, 360) == (outfit.feed_store.opens_min, outfit.hours.start_min)


def test_a_truck_that_stands_apart_leaves_before_the_gates_of_the_base_open(tmp_path: Path) -> None:
    """Only hours of its own would keep it in: the plan passes its audit."""
    gates = BASE + 'opens = "08:00"\ncloses = "18:00"\n'
    outfit = read(tmp_path, "[home]\nlat = -38.10\nlon = 175.30\n", base=gates)
    plan = plan_season(outfit, rounds=1, proof=False)

    assert any(shift.start_min % DAY_MIN < 480 for shift in plan.shifts)
    assert not audit(plan)


def test_one_base_is_one_place(tmp_path: Path) -> None:
    """All three bases share a place when only [base] is given."""
    outfit = read(tmp_path)

    assert {0} == {outfit.home.place, outfit.feed_store.place, outfit.honey_house.base.place}
    assert 3 == len(outfit.places)


@pytest.mark.parametrize(
    ("extra", "field", "cure"),
    [
        ("[honey_house]\nboxes_per_hour = [10, 8]\n", "boxes_per_hour", "cannot spin fewer"),
        ("[honey_house]\nboxes_per_hour = []\n", "boxes_per_hour", "One for each number"),
        ("[honey_house]\nroom = 10\nwaiting = 11\n", "waiting", "Check both numbers"),
        ('[honey_house]\nspin_from = "18:00"\nspin_to = "08:00"\n', "spin_to", "in order"),
        ('[feed_store]\nopens = "20:00"\ncloses = "08:00"\n', "closes", "in order"),
        ('[home]\nopens = "05:00"\ncloses = "12:00"\n', "closes", "Or type noon"),
        ('[home]\nopens = "12:00"\n', "opens", "Or type noon"),
        ('[home]\nopens = "18:00"\ncloses = "17:00"\n', "closes", "in order"),
        ("[feed_store]\nlat = -38.1\n", "lon", "no default"),
        ("[feed_store]\nlat = 38.1\nlon = 175.1\n", "lat", "lat lacks its minus sign"),
        ("[honey_house]\nlat = -38.1\nlon = -15.1\n", "lat", "Check lat and lon here"),
        (
            '[[moves]]\nyard = "Gate"\nday = 2027-03-05\nlat = 38.1\nlon = 175.1\n',
            "lat",
            "lat lacks its minus sign",
        ),
        ('[[areas]]\nlat = 38\nlon = 175\nradius = "1 km"\n', "lat", "lacks its minus sign"),
        ("[[areas]]\ncorners = [[38, 175], [38, 176], [37, 175]]\n", "corners", "minus sign"),
        ('[season]\nzone = "Pacific/Aukland"\n', "zone", "Did you mean 'Pacific/Auckland'?"),
        ('[season]\nzone = "Europe/Vienna"\n', "zone", "Check zone, lat and lon"),
        ("[season]\ntake_off_by = 2027-04-01\n", "take_off_by", "Check the date"),
        ('[hours]\nnoon = "05:00"\n', "noon", "Put start, noon and end in order"),
        ('[rules]\nboard_best = "6 h"\n', "board_best", "Make it longer"),
        ('[prices]\ncurrency = "$1"\n', "currency", "letters only"),
        ("[prices]\novertime = 50\n", "overtime", "Write the unit and quotes"),
        ('[feed]\nrecipe = "1:2"\n', "recipe", "Sugar comes first"),
        ('[feed]\nrecipe = "2:0"\n', "recipe", "no water"),
        ('[strips]\nout_after = "60 days"\nout_before = "50 days"\n', "out_before", "Check both"),
        ('[[containers]]\nkind = "bucket"\nowned = 1\n', "kind", "ibc, drum, can"),
        ('[[containers]]\nname = "Vat"\nowned = 1\nholds="1 m3"\nempty="90 kg"\nwidth="1 m"\n',
         "length", "no default"),
        ("[[areas]]\nlat = -38\nlon = 175\n", "radius", "no default"),
        ("[[areas]]\ncorners = [[-38, 175], [-38, 176]]\n", "corners", "each corner in order"),
        ("[[areas]]\ncorners = [[-38, 175], [-38], [-37, 175]]\n", "corners", "two numbers"),
        ('[[areas]]\nradius = "1 km"\ncorners = [[-38, 175], [-38, 176], [-37, 175]]\n', "radius",
         "Leave one kind out"),
        ('[[moves]]\nyard = "Mil Lane"\nday = 2027-03-05\nlat = -38\nlon = 175\n', "yard",
         "Did you mean 'Mill Lane'?"),
        ('[[moves]]\nyard = "Gate"\nday = 2027-03-01\nlat = -38\nlon = 175\n', "day",
         "Check the dates"),
        ('[[moves]]\nyard = "Gate"\nday = 2027-03-05\nlat = -38\nlon = 175\ntruck = "Red"\n',
         "truck", "Known here: Blue"),
        ("[travel]\ndetour = 0.5\n", "detour", "Check the number"),
        ('[travel]\nspeed = "50"\n', "speed", "unit is missing"),
        ("kit = 5\n", "kit", "Write [kit] on a line of its own"),
        (
            '[areas]\nlat = -38.1\nlon = 175.1\nradius = "1 km"\n', "areas",
            "Write [[areas]] before each one",
        ),
    ],
)  # fmt: skip
def test_one_slip_one_fault(tmp_path: Path, extra: str, field: str, cure: str) -> None:
    """A single slip in a table is named by its field, with a cure."""
    if extra.startswith("[season]\n"):
        found = only(faults(tmp_path, season=SEASON + extra.removeprefix("[season]\n")))
    elif extra.startswith("["):
        found = only(faults(tmp_path, extra))
    else:
        found = only(faults(tmp_path, head=HEAD + extra))

    assert field == found.field
    assert cure in found.cure


def test_overlapping_bases_fault_once(tmp_path: Path) -> None:
    """A slip in [base] that three bases share is said once."""
    found = only(faults(tmp_path, base=BASE.replace("-38.05", '"38,05 S"')))

    assert ("lat", "line 7, base") == (found.field, found.where)


def test_campaign_of_absurd_length(tmp_path: Path) -> None:
    """Dates a year apart are a slip."""
    found = only(faults(tmp_path, season=SEASON.replace("2027-03-10", "2028-03-10")))

    assert ("last_day", "2027-03-01 to 61 days later") == (found.field, found.allowed)


def test_deadlines(tmp_path: Path) -> None:
    """Dates become day numbers; the flag says hard or priced."""
    season = SEASON + "take_off_by = 2027-03-08\ntake_off_by_hard = false\nstrips_by = 2027-03-09\n"
    outfit = read(tmp_path, season=season)

    assert Deadline(7, hard=False) == outfit.season.take_off_by
    assert Deadline(8, hard=True) == outfit.season.strips_by


def test_people_by_name_and_by_table(tmp_path: Path) -> None:
    """A list of names, or one table each with what they do and when they are away."""
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    names = read(tmp_path / "a", head='people = ["Ann", "Bob O\'Hara"]\n')
    tables = read(
        tmp_path / "b",
        '[[people]]\nname = "Ann"\n[[people]]\nname = "Bob"\ndrives = false\nspins = "no"\n'
        "away = [2027-03-03, 2027-03-02]\n",
        head="",
    )

    assert ["Ann", "Bob O'Hara"] == [person.name for person in names.people]
    assert Person("bob", "Bob", False, False, True, (1, 2)) == tables.people[1]
    assert ("ann",) == tables.trucks[0].drivers


@pytest.mark.parametrize(
    ("head", "extra", "cure"),
    [
        ('people = ["Ann", "ann"]\n', "", "Tell the two apart"),
        ("people = 0\n", "", "Check the number"),
        ("people = []\n", "", "Type how many"),
        ('people = "many"\n', "", "Write digits"),
        ('people = "2.5"\n', "", "without a fraction"),
        ('people = "Sean, Mick and Jo"\n', "", 'names as a list: ["Sean", "Mick", "Jo"].'),
        ("", '[[people]]\nname = "Ann"\ndrives = false\n', "Set drives = true"),
        ("", '[[people]]\nname = "Ann"\naway = [2027-04-01]\n', "Check the date"),
    ],
)
def test_people_at_fault(tmp_path: Path, head: str, extra: str, cure: str) -> None:
    """Nobody, nobody who drives, the same name twice, away in another month."""
    found = faults(tmp_path, extra, head=head)

    assert any(cure in fault.cure for fault in found)


@pytest.mark.parametrize("slip", ["name = 5", 'nam = "Ann"', 'name = "Ann"\ndrives = "often"'])
def test_a_truck_may_name_a_driver_whose_table_is_at_fault(tmp_path: Path, slip: str) -> None:
    """Who that is, or whether she drives, is told there; nothing is wrong with the truck."""
    head = f'title = "T"\n[[people]]\n{slip}\n[[people]]\nname = "Bob"\n'
    found = faults(tmp_path, head=head, truck=TRUCK + 'drivers = ["Ann", "Bob"]\n')

    assert {"people 1"} == {fault.where.split(", ")[1].split(" (")[0] for fault in found}
    assert "drivers" not in {fault.field for fault in found}


def test_nobody_who_drives_is_told_by_names_and_line(tmp_path: Path) -> None:
    """Ann's table is the first; what was typed is not told in the words of Python."""
    people = '[[people]]\nname = "Ann"\ndrives = false\n[[people]]\nname = "Bob"\ndrives = "no"\n'
    fault = only(faults(tmp_path, people, head='title = "Test"\n'))
    line = (tmp_path / "campaign" / "outfit.toml").read_text("utf-8").split("[[people]]")[0]

    assert (f"line {line.count(chr(10)) + 1}", "Ann, Bob") == (fault.where, fault.said)


def test_truck_with_everything(tmp_path: Path) -> None:
    """All facts of a truck can be typed."""
    truck = TRUCK + (
        'train_max = "6 t"\nfuel = "50 kg"\nkit = "40 kg"\nstack_height = "1 m"\nstack_boxes = 4\n'
        'seats = 2\nwidth = "2.0 m"\nfour_wheel = true\nspeed = "95 %"\nkm_cost = 0.7\n'
        'day_cost = 30\ndrivers = ["Person 2"]\nout_days = [2027-03-04]\n'
        '[trucks.axles]\nfront_empty = "1.2 t"\nrear_empty = "0.9 t"\nfront_min = "1 t"\n'
        'front_max = "1.8 t"\nrear_max = "2.4 t"\nload_on_rear = "85 %"\n'
    )
    made = read(tmp_path, truck=truck).trucks[0]

    assert (6_000_000, 50_000, 40_000) == (made.train_max_g, made.fuel_g, made.kit_g)
    assert (3100, 2100, 1000, 4) == (
        made.deck.length_mm,
        made.deck.width_mm,
        made.deck.stack_mm,
        made.deck.stack_boxes,
    )
    assert (2, 2000, True, 950) == (
        made.seats,
        made.width_mm,
        made.four_wheel,
        made.speed_permille,
    )
    assert (70, 3000, ("person-2",), (3,)) == (
        made.km_cents,
        made.day_cents,
        made.drivers,
        made.out_days,
    )
    assert Axles(1_200_000, 900_000, 1_000_000, 1_800_000, 2_400_000, 850) == made.axles


def test_a_slip_in_one_key_hides_no_order_of_others(tmp_path: Path) -> None:
    """What is wrong in a table or row is told at once, but for what hangs on the slip itself."""
    house = '[honey_house]\nboxes_per_hour = "x"\nspin_from = "20:00"\nspin_to = "08:00"\n'
    rules = '[rules]\nsmallest_lot = 0\nboard_least = "2 days"\nboard_best = "1 day"\n'
    late = "name,lat,lon,colonies,boxes,opens,closes\nMill,-38.01,175.06,x,41,18:00,08:00\n"
    both = "name,lat,lon,colonies,boxes,opens,closes\nMill,-38.01,175.06,24,41,x,08:00\n"
    found = [
        (house, YARDS, {"boxes_per_hour", "spin_to"}),
        (rules, YARDS, {"smallest_lot", "board_best"}),
        ("", late, {"colonies", "closes"}),
        ("", both, {"opens"}),
        (house.replace('"20:00"', "1"), YARDS, {"boxes_per_hour", "spin_from"}),
    ]
    for number, (extra, yards, fields) in enumerate(found):
        (tmp_path / str(number)).mkdir()
        told = faults(tmp_path / str(number), extra, yards=yards)

        assert fields == {fault.field for fault in told}


AXLES = """
[trucks.axles]
front_empty = "1 t"
rear_empty = "2 t"
front_min = "1 t"
front_max = "2 t"
rear_max = "2 t"
load_on_rear = "90 %"
"""


@pytest.mark.parametrize(
    ("old", "new", "field"),
    [
        ('max = "3.5 t"', 'max = "2.2 t"', "max"),
        ('max = "3.5 t"', 'max = "3.5 t"\ntrain_max = "3 t"', "train_max"),
        ('name = "Blue"', 'name = "Blue"\ndrivers = ["Zoe"]', "drivers"),
        ('name = "Blue"', 'name = "Blue"\ndrivers = []', "drivers"),
        ('deck_width = "2.1 m"\n', 'deck_width = "2.1 m"' + AXLES, "axles"),
        ('name = "Blue"', 'name = "Blue"\naxles = 3', "axles"),
    ],
)
def test_trucks_that_cannot_be(tmp_path: Path, old: str, new: str, field: str) -> None:
    """No payload, a train lighter than the truck, strangers at the wheel, axles that do not add."""
    assert field == only(faults(tmp_path, truck=TRUCK.replace(old, new))).field


def test_a_name_typed_twice_is_offered_once(tmp_path: Path) -> None:
    """The doubled person is a fault of its own; who may drive is listed each once."""
    found = faults(
        tmp_path,
        head=HEAD.replace("people = 2", 'people = ["Ann", "Ann", "Caro"]'),
        truck=TRUCK.replace('name = "Blue"', 'name = "Blue"\ndrivers = ["Zoe"]'),
    )

    assert ["each name once", "one of Ann, Caro"] == [fault.allowed for fault in found]


def test_two_trucks_of_one_name(tmp_path: Path) -> None:
    """Names tell trucks apart on paper, so each is used once."""
    assert "name" == only(faults(tmp_path, truck=TRUCK + TRUCK)).field


def test_containers_by_kind_and_by_measure(tmp_path: Path) -> None:
    """A known kind brings its measures; any of them may be typed instead."""
    extra = (
        '[[containers]]\nkind = "ibc"\nowned = 2\nempty = "66 kg"\n'
        '[[containers]]\nname = "Milk can"\nholds = "40 L"\nempty = "7 kg"\nlength = "36 cm"\n'
        'width = "36 cm"\nowned = 9\n'
    )
    outfit = read(tmp_path, extra)

    assert (
        Container("ibc-1000-l", "IBC 1000 L", 1_000_000, 66_000, 1200, 1000, 2),
        Container("milk-can", "Milk can", 40_000, 7_000, 360, 360, 9),
    ) == outfit.containers


@pytest.mark.parametrize(
    ("recipe", "permille", "stores"),
    [("2:1", 667, 1124), ("3:2", 600, 1075), ("1:1", 500, 896), ("72.4 %", 724, 1124)],
)
def test_recipes(tmp_path: Path, recipe: str, permille: int, stores: int) -> None:
    """Recipes by mass or by per cent; stores made of them after Curth, Hohenheim 1981."""
    feed = read(tmp_path, f'[feed]\nrecipe = "{recipe}"\n').feed

    assert (permille, stores) == (feed.sugar_permille, feed.stores_g_per_kg_sugar)


def test_density_of_two_to_one(tmp_path: Path) -> None:
    """2:1 by mass weighs 1327 g a litre (CRC handbook table: 1326.8 between 66 and 68 %)."""
    assert 1327 == read(tmp_path).feed.density_g_per_l


def test_strips_by_substance(tmp_path: Path) -> None:
    """Formic acid forbids feed for a week; another substance is typed from its label."""
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    formic = read(tmp_path / "a", '[strips]\nsubstance = "Formic acid"\n').strips
    other = read(
        tmp_path / "b",
        '[strips]\nsubstance = "oxalic acid"\nper_colony = 4\nout_after = "42 days"\n'
        'out_before = "8 weeks"\nno_feed = "0 days"\nstock = 500\n',
    ).strips

    assert ("formic acid", 2, 7) == (formic.substance, formic.per_colony, formic.no_feed_days)
    assert (4, 42, 56, 500) == (
        other.per_colony,
        other.out_after_days,
        other.out_before_days,
        other.stock,
    )


def test_a_ban_on_feed_lasts_as_long_as_the_treatment(tmp_path: Path) -> None:
    """Strips of ten days forbid it for ten, of five still for the leaflet's seven."""
    for after, ban in (("10 days", 10), ("5 days", 7), ('5 days"\nno_feed = "4 days', 4)):
        text = f'[strips]\nsubstance = "formic acid"\nout_after = "{after}"\n'
        folder = tmp_path / str(ban)
        folder.mkdir()
        assert ban == read(folder, text).strips.no_feed_days


def test_containers_at_fault(tmp_path: Path) -> None:
    """Two of one name, or a list with nothing in it."""
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    twice = '[[containers]]\nkind = "ibc"\nowned = 1\n' * 2
    none = HEAD + "containers = []\n"

    assert "each name once" == only(faults(tmp_path / "a", twice)).allowed
    assert "at least one" == only(faults(tmp_path / "b", head=none)).allowed


def test_area_without_a_place(tmp_path: Path) -> None:
    """A circle needs its centre."""
    found = faults(tmp_path, '[[areas]]\nradius = "1 km"\n')

    assert ["lat", "lon"] == [fault.field for fault in found]


def test_driver_who_does_not_drive(tmp_path: Path) -> None:
    """A truck's driver must be one of those who drive."""
    people = '[[people]]\nname = "Ann"\n[[people]]\nname = "Bob"\ndrives = false\n'
    found = only(faults(tmp_path, people, head="", truck=TRUCK + 'drivers = ["Bob"]\n'))

    assert ("drivers", "people with drives = true") == (found.field, found.allowed)


def test_an_unknown_substance_wants_its_label(tmp_path: Path) -> None:
    """No dose, days or ban on feed are known for it: all must be typed, and it is named."""
    found = faults(tmp_path, '[strips]\nsubstance = "another acid"\n')

    assert ["per_colony", "out_after", "out_before", "no_feed"] == [one.field for one in found]
    assert {"Nothing is known here of another acid: type it from the label."} == {
        one.cure for one in found
    }


def test_trailers(tmp_path: Path) -> None:
    """A trailer needs a truck that may pull it, and must carry more than itself."""
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    trailer = '[[trailers]]\nempty="0.6 t"\nmax="2 t"\ndeck_length="3 m"\ndeck_width="1.8 m"\n'
    pulls = TRUCK + 'train_max = "6 t"\n'
    made = read(tmp_path / "a", trailer, truck=pulls).trailers[0]
    found = only(faults(tmp_path / "b", trailer.replace('"2 t"', '"0.5 t"'), truck=pulls))

    assert (600_000, 2_000_000, 900) == (made.empty_g, made.max_g, made.speed_permille)
    assert ("max", "Check both masses.") == (found.field, found.cure)


def test_a_nose_is_measured_from_the_coupling(tmp_path: Path) -> None:
    """Three measures; an axle that does not stand under the deck is a slip."""
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    trailer = (
        '[[trailers]]\nempty="0.6 t"\nmax="2 t"\ndeck_length="3 m"\ndeck_width="1.8 m"\n'
        '[trailers.nose]\nempty="40 kg"\ndrawbar="3.2 m"\ndeck_starts="1.6 m"\n'
    )
    pulls = TRUCK + 'train_max = "6 t"\n'
    made = read(tmp_path / "a", trailer, truck=pulls).trailers[0]
    slip = only(faults(tmp_path / "b", trailer.replace('"3.2 m"', '"4.7 m"'), truck=pulls))

    assert Nose(40_000, 3_200, 1_600) == made.nose
    assert ("drawbar", "between 1.6 m and 4.6 m, where the deck is") == (slip.field, slip.allowed)


def test_own_box(tmp_path: Path) -> None:
    """A box of the user's own making, with the mass of a full one."""
    extra = (
        '[yards]\nbox = "my box"\n[[boxes]]\nname = "My box"\nlength = "505 mm"\nwidth = "50 cm"\n'
        'height = "17.5 cm"\nempty = "5.2 kg"\nfull = "16 kg"\n'
    )
    outfit = read(tmp_path, extra)

    assert ("my-box",) == tuple(kind.id for kind in outfit.boxes)
    assert (505, 500, 175) == (
        outfit.boxes[0].length_mm,
        outfit.boxes[0].width_mm,
        outfit.boxes[0].height_mm,
    )
    assert {16_000} == {yard.box_g for yard in plain(outfit).yards}


BOX = """\
name = "B"
length = "50 cm"
width = "50 cm"
height = "17 cm"
empty = "5 kg"
"""


@pytest.mark.parametrize(
    ("box", "field"),
    [
        (BOX + 'full = "4 kg"\n', "full"),
        (BOX + "[[boxes]]\n" + BOX.replace('"B"', '"b"'), "name"),
        (BOX.replace('length = "50 cm"', 'length = "9 m"'), "length"),
        (BOX + '[yards]\nbox = "B"\n', "box_mass"),
    ],
    ids=["full", "twice", "long", "mass unknown"],
)
def test_own_box_at_fault(tmp_path: Path, box: str, field: str) -> None:
    """A full box lighter than an empty one, two of a name, nine metres long."""
    found = faults(tmp_path, "[[boxes]]\n" + box)

    assert {field} == {fault.field for fault in found}


def test_pace_hours_rules_and_prices(tmp_path: Path) -> None:
    """Habits, hours and prices are read into whole seconds, minutes and cents."""
    extra = (
        '[pace]\ninspect = "3 min 30 s"\nbox_warm_board = "2 min"\nleft_in = "7.5 %"\n'
        'pump = "1 m3/h"\n[hours]\nduty_most = "10 h"\n[rules]\nblocks = 2\n'
        "same_day_second_trip = true\n[prices]\nhour = 32.555\nlate = 8\n"
    )
    outfit = read(tmp_path, extra)

    assert 210 == outfit.pace.inspect_s
    assert 120 == dict(outfit.pace.box_s)["warm board"]  # type: ignore[index]
    assert 75 == outfit.pace.left_in_permille
    assert 16_666 == outfit.pace.pump_ml_per_min  # 1,000,000 / 60, down
    assert 600 == outfit.hours.duty_max_min
    assert (2, True) == (outfit.rules.blocks, outfit.rules.same_day_second_trip)
    assert (3256, 800) == (outfit.prices.hour_cents, outfit.prices.late_cents)
