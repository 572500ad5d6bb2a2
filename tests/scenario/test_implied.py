from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.days import Span
from runplanner.outfit.bases import HoneyHouse
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import Safety, safe
from runplanner.outfit.trucks import Axles
from runplanner.outfit.yards import Access, Clearing, Health
from runplanner.scenario import implied
from runplanner.trade.feeding import stores_g_per_l
from tests.outfits import a_truck, a_yard, an_outfit, daily
from tests.scenario.folders import faults, only, read


def values(outfit: Outfit) -> dict[str, str]:
    """The lines by label; warnings left out."""
    return {label: value for label, value in implied(outfit) if label != "warning"}


def warned(outfit: Outfit) -> str:
    """All warnings in one text."""
    return "\n".join(value for label, value in implied(outfit) if label == "warning")


def test_masses_litres_and_loads() -> None:
    """Two yards of ten colonies and fifteen boxes of 16 kg, worked by hand."""
    lines = values(an_outfit())

    # 2 x 15 boxes x 16 kg = 480 kg; empty boxes 4.5 kg: honey 30 x 11.5 = 345 kg
    assert "30, 0.48 t with boxes" == lines["honey boxes to bring home"]
    # at 17 % water 1.4211 kg/L: 242.8 L
    assert "about 0.35 t, 243 L at 17 % water" == lines["honey in them"]
    # 8 kg at floor(1327 x 667 x 1120 / 1e6) = 991 g a litre: 8.073 L, to 8.5 L; x 20 = 170 L
    assert lines["syrup"].startswith("170 L of 2:1, rounds: 1")
    # 170 L x 1.327 x 0.667 = 150.5 kg
    assert "151 kg" == lines["sugar"]
    assert "at most 20 at take-off, 42 kg" == lines["fondant blocks"]
    assert "40 of amitraz" == lines["strips"]
    # load: 3500 - 2100 - 60 - 70 - 2 x 85 = 1100 kg, 68 boxes of 16 kg; deck 6 x 5 columns
    # (3100 // 508 = 6, 2100 // 413 = 5) of 5: 150
    assert (
        "1 by weight (68 boxes a load), 1 by deck (150 boxes); weight binds"
        == lines["truckloads of honey, Truck 1, 2 people"]
    )
    assert "none" == lines["yards too big for one load"]
    # 30 boxes / 12 an hour = 2.5 h of one person; 2 people at 20 take 3 person-hours
    assert "3 person-hours at the best rate" == lines["spinning"]
    # take-off 20 x 240 + 30 x 120 s = 2.33 h, feed 20 x 120 s, strips and fondant 20 x 60 s each
    assert lines["work on the colonies"].startswith(
        "3 h take-off, 1 h feed, 1 h strips, 1 h fondant"
    )
    assert "6" == lines["days fit for take-off"]
    # 30 boxes over 6 days: some day has 5
    assert lines["busiest day"].startswith("at least 5 boxes")
    assert "test grid" == lines["travel"]


def test_the_busiest_day_has_all_take_offs_where_one_day_is_fit_for_them() -> None:
    """20 x 240 + 30 x 120 s, fondant 20 x 60 s and unloading 30 x 30 s on one day: 2.9 h."""
    yards = [replace(a_yard(i), open_spans=daily(0, 1440, [2])) for i in (1, 2)]
    lines = values(an_outfit(yards=yards))

    assert "1" == lines["days fit for take-off"]
    assert lines["busiest day"].startswith("at least 30 boxes come off, and at least 3 person")


def test_syrup_that_stands_ready_wants_no_sugar() -> None:
    """Of 170 L 100 L are there: 70 x 1.327 x 0.667 = 61.96 kg; with 200 L none is wanted."""
    outfit = an_outfit()

    assert ["62 kg, beside 100 L that stand ready", "0 kg, beside 200 L that stand ready"] == [
        values(replace(outfit, feed=replace(outfit.feed, ready_ml=ml)))["sugar"]
        for ml in (100_000, 200_000)
    ]


def moved(outfit: Outfit, *spots: tuple[float, float]) -> Outfit:
    """The outfit with its places, base first, at these latitudes and longitudes."""
    places = zip(outfit.places, spots, strict=True)
    return replace(
        outfit, places=tuple(replace(one, lat=lat, lon=lon) for one, (lat, lon) in places)
    )


def test_the_country_of_all_places() -> None:
    """One country is named; nothing is warned of on a coast, an island, or in a lake."""
    coast = moved(an_outfit(), (-38.0, 174.83), (-36.1, 175.4), (-38.8, 175.9))

    assert "New Zealand" == values(coast)["places lie in"]
    assert "open sea" not in warned(coast)


def test_one_slip_that_all_places_share() -> None:
    """Without their minus all lie in the sea, which is said once; swapped, in another country."""
    north = moved(an_outfit(), (35.53, 173.78), (35.52, 173.72), (35.58, 173.8))
    swapped = moved(an_outfit(), (16.37, 48.2), (16.32, 48.2), (16.5, 48.3))

    assert "the open sea" == values(north)["places lie in"]
    assert 1 == warned(north).count("In the open sea: base and all yards. Is a minus missing")
    assert "Yemen" == values(swapped)["places lie in"]
    assert "open sea" not in warned(swapped)


def test_places_in_several_countries_and_one_at_sea() -> None:
    """Countries by how many lie there, and the yard at sea by its name."""
    outfit = moved(an_outfit(), (46.05, 14.51), (45.95, 13.62), (45.0, 13.0))
    two = moved(an_outfit(), (46.05, 14.51), (46.06, 14.5), (45.0, 13.0))

    assert "Slovenia (1), Italy (1), the open sea (1)" == values(outfit)["places lie in"]
    assert "Slovenia (2), the open sea (1)" == values(two)["places lie in"]
    assert "In the open sea: Place 2. Is a minus" in warned(outfit)


def test_deck_binds_with_light_boxes() -> None:
    """Empty-ish boxes fill the deck before they weigh too much."""
    yard = replace(a_yard(1, colonies=100, boxes=200), box_g=5_000)
    lines = values(an_outfit(yards=[yard], spots=[(5, 0)]))

    # 1100 kg / 5 kg = 220 boxes by weight, 150 on deck
    assert "the deck binds" in lines["truckloads of honey, Truck 1, 2 people"]
    assert "Yard 1" == lines["yards too big for one load"]


def test_axles_bind_where_they_bear_less_than_the_truck_may_carry() -> None:
    """Two people, fuel and kit: 300 kg, half on the rear, so (1,400 - 800 - 150) / 0.9 = 500 kg."""
    # 500 / 16 kg = 31 boxes; 40 boxes in a yard weigh 640 kg
    axles = Axles(1_300_000, 800_000, 700_000, 1_750_000, 1_400_000, 900)
    many = a_yard(1, boxes=40)
    outfit = an_outfit(trucks=(replace(a_truck(), axles=axles),), yards=(many, a_yard(2)))
    lines = values(outfit)

    assert (
        "2 by weight (31 boxes a load), 1 by deck (150 boxes); the axles bind"
        == lines["truckloads of honey, Truck 1, 2 people"]
    )
    assert "Yard 1" == lines["yards too big for one load"]
    # an IBC of 60 kg, full of 1,327 kg
    assert "more than any truck may load" in warned(outfit)


def test_yard_too_big_for_its_bridge() -> None:
    """What a bridge lets in counts for the yard behind it."""
    yard = replace(a_yard(1), access=Access(max_vehicle_g=2_500_000))
    lines = values(an_outfit(yards=[yard], spots=[(5, 0)]))

    # 2500 - 2400 kg rolling = 100 kg, and the yard has 240 kg
    assert "Yard 1" == lines["yards too big for one load"]


def test_a_yard_that_nothing_can_reach_is_warned_of_and_not_called_too_big() -> None:
    """Two gates too narrow for the truck of 2.1 m, one of them of a yard without work."""
    narrow = Access(max_width_mm=2_000)
    yards = [replace(a_yard(i + 1), access=narrow if i < 2 else Access()) for i in range(4)]
    yards[1] = replace(yards[1], health=Health.STANDSTILL)
    outfit = an_outfit([(i + 1, 0) for i in range(4)], yards)

    said = "Yard 1 lets in 2 m of width; the narrowest truck, Truck 1, is 2.1 m, 0.1 m too wide"
    assert f"{said}: nothing can be done there." in warned(outfit)
    assert "none" == values(outfit)["yards too big for one load"]
    assert not [n for n in (2, 3, 4) if f"Yard {n} lets in" in warned(outfit)]


@pytest.mark.parametrize(
    ("yards", "words"),
    [(7, "One more yard cannot be reached."), (8, "2 more yards cannot be reached."), (6, "")],
)
def test_of_many_yards_out_of_reach_six_are_told_and_the_rest_counted(
    yards: int, words: str
) -> None:
    """All behind one gate that wants four-wheel drive."""
    behind = [replace(a_yard(i + 1), access=Access(four_wheel=True)) for i in range(yards)]
    said = warned(an_outfit([(i + 1, 0) for i in range(yards)], behind))

    assert 6 == said.count("lets in four-wheel drive only, and no truck has it")
    assert words in said
    assert bool(words) is ("cannot be reached" in said)


def test_boxes_no_truck_can_lift() -> None:
    """A truck whose payload is less than a box never brings one home."""
    truck = replace(a_truck(), max_g=2_410_000)
    lines = values(an_outfit(trucks=(truck,)))

    assert "never by weight" in lines["truckloads of honey, Truck 1, 2 people"]


def test_held_yards_are_left_out() -> None:
    """Nothing leaves a yard at a standstill, so its boxes are not counted."""
    yards = [a_yard(1), replace(a_yard(2), health=Health.STANDSTILL)]
    lines = values(an_outfit(yards=yards))

    assert lines["honey boxes to bring home"].startswith("15,")
    assert "Yard 2 (standstill)" == lines["yards where nothing may leave"]


def test_no_boxes_at_all() -> None:
    """An outfit without honey still gets its litres."""
    lines = values(an_outfit(yards=[a_yard(1, boxes=0)], spots=[(5, 0)]))

    assert "busiest day" not in lines
    assert not any(label.startswith("truckloads") for label in lines)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"clearing": Clearing.BOARDS, "brood_boxes_off": 10}, "room below"),
        ({"clearing": Clearing.BOARDS, "colonies": 120}, "More colonies than boards (100)"),
        ({"ready_from_day": 5, "open_spans": ()}, "No day is fit"),
        ({"clearing": Clearing.BOARDS, "finish_by_day": 0}, "only the first day is fit"),
        ({"feeder_ml": 1_000, "target_g": 14_000}, "The feed rounds"),
        ({"box_g": 27_000}, "over 25 kg"),
        ({"box_g": 27_000}, "such boxes may go out with one person"),
        ({"health": Health.WATCH}, "Watched yards come last"),
        ({"health": Health.SUSPECT}, "must be reported"),
        ({"health": Health.STANDSTILL}, "nothing leaves without a licence"),
        ({"boxes": 410, "colonies": 100}, "room for 400 boxes"),
    ],
)
def test_warnings_of_yards(change: dict[str, object], words: str) -> None:
    """What will surprise in the field is said beforehand; a plain yard says nothing of it."""
    plain = an_outfit(yards=[a_yard(1)], spots=[(5, 0)])
    odd = an_outfit(yards=[replace(a_yard(1), **change)], spots=[(5, 0)])  # type: ignore[arg-type]

    assert words in warned(odd)
    assert words not in warned(plain)


@pytest.mark.parametrize(
    ("days", "words"),
    [(3, "more is fed: Yard 1 13.9 kg."), (4, ""), (6, "")],
)
def test_a_lower_target_feeds_more_where_the_last_round_finds_no_day(days: int, words: str) -> None:
    """Twelve litres of 991 g lack, 10 L fill the feeder, bees take 2 L a day.

    Two rounds of 6 L are three days apart, so within three days there is one: of 6 L, or of 10 L
    where the target is 4,000 g + 10 x 991 g = 13.9 kg.
    """
    yard = replace(
        a_yard(1, days=days), stores_g=4_000, target_g=4_000 + 12 * 991, feeder_ml=10_000
    )
    outfit = an_outfit(yards=[yard], spots=[(5, 0)], days=days)
    feed = replace(outfit.feed, uptake_ml_per_day=2_000)

    assert 991 == stores_g_per_l(feed)
    said = warned(replace(outfit, feed=feed))
    assert words in said
    assert bool(words) == ("more is fed" in said)


@pytest.mark.parametrize(
    ("gate", "days", "words"),
    [
        ((2 * 60, 4 * 60), "0", "The gate is never open in daylight: Yard 1."),
        # 10 min to set up; of ten colonies with fifteen boxes the smallest lot is three with four:
        # 3 x 240 + 4 x 120 s = 20 min, 10 min of two people
        ((600, 619), "0", "No day is fit for taking honey off (dates, weather, gate and daylight)"),
        ((600, 620), "6", ""),
    ],
)
def test_days_fit_for_take_off_know_the_gate(gate: tuple[int, int], days: str, words: str) -> None:
    """Never open by day, too short for the smallest lot, or just long enough; told once."""
    yard = replace(a_yard(1), access=Access(opens_min=gate[0], closes_min=gate[1]))
    outfit = an_outfit(yards=[yard], spots=[(5, 0)])
    said = [line for line in warned(outfit).splitlines() if "Yard 1" in line]

    assert days == values(outfit)["days fit for take-off"]
    assert bool(words) == len(said)
    assert words in warned(outfit)


def test_days_fit_for_take_off_know_the_weather_after_it() -> None:
    """Rain until after dark on every day but the third: colonies would not settle."""
    rain = tuple(Span(day * 1440 + 12 * 60, day * 1440 + 21 * 60) for day in range(6) if day != 2)
    yard = replace(a_yard(1), unsettled_spans=rain)

    assert "1" == values(an_outfit(yards=[yard], spots=[(5, 0)]))["days fit for take-off"]


@pytest.mark.parametrize(
    ("owned", "words"),
    [(0, "No feeders at all (feeders = 0)"), (9, "More colonies than feeders (9)"), (10, "")],
)
def test_warnings_of_feeders(owned: int, words: str) -> None:
    """Ten colonies: none at all, one too few, enough."""
    outfit = an_outfit(yards=[a_yard(1, colonies=10)], spots=[(5, 0)])
    said = warned(replace(outfit, kit=replace(outfit.kit, feeders_owned=owned)))

    assert words in said
    assert bool(words) is ("feeders" in said)


def test_syrup_that_lacks_is_not_rounded_away(tmp_path: Path) -> None:
    """Half a litre short: what is due is rounded up, what comes down."""
    yards = "name,lat,lon,colonies,boxes,target,feeder\nMill,-38.01,175.06,3,2,9 kg,20 L\n"
    ready = '[feed]\nready_made = true\nready = "28.4 L"\n'

    said = warned(read(tmp_path, ready, yards=yards))
    assert "29 L of syrup are due and 28 L are delivered." in said


@pytest.mark.parametrize(
    ("stores", "told"),
    [
        # 9 days at 500 g less a block of 2 kg are 2.5 kg; a tenth of the target is 1 kg.
        ("6 kg", "up to 2.5 kg"),
        ("1.5 kg", "up to 1.5 kg"),
        # Less than a tenth, nothing known, nothing due.
        ("0.9 kg", ""),
        ("", ""),
        ("10 kg", ""),
    ],
)
def test_stores_eaten_before_syrup_are_warned_of(tmp_path: Path, stores: str, told: str) -> None:
    """From the first day of take-off to the last for feed, of stores that are known."""
    yards = f"name,lat,lon,colonies,boxes,target,stores\nMill,-38.01,175.06,3,2,10 kg,{stores}\n"
    lines = [one for one in warned(read(tmp_path, yards=yards)).split("\n") if "eaten" in one]

    assert bool(told) == bool(lines)
    assert told in "".join(lines)


def test_warnings_of_the_outfit() -> None:
    """Too slow a honey house, too little sugar, a tank too heavy when full."""
    outfit = an_outfit()
    house = HoneyHouse(outfit.home, (0, 1), 400, 300, 600, 660)
    slow = replace(outfit, honey_house=house)
    # 30 + 300 boxes at 1 an hour, 1 h a day, 6 days
    assert "cannot spin 330 boxes in 6 days: with all hands 1 a day" in warned(slow)
    short = replace(outfit, feed=replace(outfit.feed, sugar_g=100_000))
    assert "151 kg of sugar are due and 100 kg are in stock" in warned(short)
    bought = replace(outfit, feed=replace(outfit.feed, bought=True, ready_ml=100_000))
    assert "170 L of syrup are due and 100 L are delivered" in warned(bought)
    assert "saturated at 20 \u00b0C" in warned(outfit)
    assert "look for crystals before pumping" in warned(outfit)
    assert "saturated" not in warned(bought)
    three_to_one = replace(outfit, feed=replace(outfit.feed, sugar_permille=750))
    assert "75 % sugar does not dissolve" in warned(three_to_one)
    mixing = replace(outfit, feed=replace(outfit.feed, mix_ml_per_day=10_000))
    assert "170 L of syrup cannot be mixed at 10 L a day" in warned(mixing)
    # IBC: 60 + 1327 = 1387 kg; at most 1185 kg with one person: (1185 - 60) / 1.327 = 847 L
    assert "IBC full of syrup is 1387 kg, more than any truck may load: fill in 847 L" in warned(
        outfit
    )


@pytest.mark.parametrize(("ready", "told"), [(0, True), (3, True), (4, False)])
def test_moves_while_the_campaign_runs_are_warned_of(ready: int, *, told: bool) -> None:
    """Hives that go in the night before day 3 may have been worked by then, or not yet."""
    outfit = an_outfit()
    yard, *others = outfit.yards
    yard = replace(yard, ready_from_day=ready).moved_by(3, 2, "")
    outfit = replace(outfit, yards=(yard, *others))

    assert (f"Hives of {yard.name} are moved" in warned(outfit)) == told
    assert "are moved" not in warned(replace(outfit, yards=tuple(others)))


def test_the_way_to_bases_far_from_home_is_warned_of() -> None:
    """A honey house 20 km off and a feed store 30, a minute a kilometre; at home neither.

    Nobody spins where no box comes, nor mixes where syrup is bought or all of it stands ready.
    """
    outfit = an_outfit([(10, 0), (14, 0), (20, 0), (30, 0)], [a_yard(1), a_yard(2)])
    house = replace(outfit.honey_house, base=replace(outfit.home, place=3))
    far = replace(outfit, honey_house=house, feed_store=replace(outfit.home, place=4))
    said = warned(far)

    assert "The honey house is 20 min by road from home" in said
    assert "Leave room for it in spin_from and spin_to." in said
    assert "The feed store is 30 min by road from home" in said
    assert "by road from home" not in warned(outfit)
    bare = tuple(replace(yard, boxes=0) for yard in far.yards)
    assert "The honey house is" not in warned(replace(far, yards=bare))
    for feed in (replace(far.feed, bought=True), replace(far.feed, ready_ml=170_000)):
        assert "The feed store is" not in warned(replace(far, feed=feed))


def test_a_heavy_box_is_warned_of_by_guess_and_by_what_it_counts_for() -> None:
    """24 kg with a spread of 10 % count as 24 x 1.1645 = 27.95 kg, the yard's own guess beside."""
    yards = [a_yard(1), replace(a_yard(2), box_g=24_000)]
    outfit = safe(an_outfit([(10, 0), (14, 0)], yards), Safety(load_permille=950))

    assert "A box guessed at 24 kg may weigh up to 28 kg; over 25 kg" in warned(outfit)
    assert "guessed" not in warned(an_outfit([(10, 0), (14, 0)], yards))


ALL_PRICES = (
    "hour = 2500\nblock = 1800\nsyrup = 350\nstrip = 900\nlate = 3000\nboards_long = 300\n"
    "spin_late = 150\n"
)


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ("", ""),
        (
            "[prices]\ncurrency = 'HUF'\nhour = 2500\n",
            (
                "Money is in HUF, but these prices were not typed and count as round figures of "
                "it: trucks.km_cost = 0.6, prices.block = 5, prices.syrup = 1, "
                "prices.strip = 2.5, prices.late = 10, prices.boards_long = 1, "
                "prices.spin_late = 0.5. A plan"
            ),
        ),
        ("[prices]\ncurrency = 'HUF'\n", "of it: prices.hour = 25, trucks.km_cost = 0.6, "),
        ("[prices]\nhour = 2500\n", "Money is in units, but these"),
        (f"[prices]\ncurrency = 'HUF'\n{ALL_PRICES}", "of it: trucks.km_cost = 0.6. A plan"),
        (f"km_cost = 130\n[prices]\ncurrency = 'HUF'\n{ALL_PRICES}", ""),
    ],
)
def test_prices_left_round_beside_typed_ones(tmp_path: Path, lines: str, words: str) -> None:
    """A currency or a wage says that money is real; round figures beside it steer the plan."""
    said = warned(read(tmp_path, lines))

    assert words in said
    assert bool(words) is ("Money is in" in said)


def test_warnings_of_places() -> None:
    """Hives at home and two yards at one spot may be slips."""
    outfit = an_outfit(spots=[(0, 0), (5, 0), (5, 0)])

    assert "Standing at home itself, if that is right: Yard 1." in warned(outfit)
    assert "Yard 2 and Yard 3 stand at the same spot" in warned(outfit)
    assert "Yard 1 and Yard 2" not in warned(outfit)


def test_many_names_are_shortened() -> None:
    """A warning lists six yards and counts the rest."""
    yards = [replace(a_yard(i + 1), health=Health.WATCH) for i in range(8)]

    assert "Yard 6 and 2 more" in warned(an_outfit([(i + 1, 0) for i in range(8)], yards))


def test_clock_change_is_said(tmp_path: Path) -> None:
    """A campaign over the end of summer time is warned of."""
    season = "[season]\nfirst_day = 2027-03-30\nlast_day = 2027-04-10\n"

    assert "The clocks change on Sun 4 Apr" in warned(read(tmp_path, season=season))


def test_trailer_lines(tmp_path: Path) -> None:
    """Each way of going out has its own line of loads."""
    truck = (
        '[[trucks]]\nname = "Blue"\nempty = "2.1 t"\nmax = "3.5 t"\ndeck_length = "3.1 m"\n'
        'deck_width = "2.1 m"\ntrain_max = "6 t"\n'
    )
    trailer = '[[trailers]]\nempty="0.6 t"\nmax="2 t"\ndeck_length="3 m"\ndeck_width="1.8 m"\n'
    lines = values(read(tmp_path, trailer, truck=truck))

    assert "truckloads of honey, Blue with Trailer 1, 2 people" in lines


@pytest.mark.parametrize(
    ("lines", "litres", "words"),
    [
        # 345 kg by the survey's densities (White 1975, from memory): 1.4211, 1.3998, 1.3925 kg/L.
        ("", 243, ""),
        ('honey_water = "20 %"', 247, "likely to ferment (over 19 %)"),
        ('honey_water = "21 %"', 248, "at most 20 % may be sold"),
        # The densities' last step goes on: 1.3771 and 1.3618 kg/L.
        ('honey_water = "23 %"', 251, "at most 20 % may be sold"),
        ("refractive_index = 1.4740", 254, "at most 20 % may be sold"),
        # Wedmore's table: 1.4940 is 17 %.
        ("refractive_index = 1.4940", 243, ""),
    ],
)
def test_honey_by_its_water(tmp_path: Path, lines: str, litres: int, words: str) -> None:
    """Litres for the tanks, by per cent or by refractometer, and what the law says of it."""
    table = "name,lat,lon,colonies,boxes,box,box_mass\nA,-38.0,175.1,10,30,national,16 kg\n"
    outfit = read(tmp_path, f"[honey_house]\n{lines}\n", yards=table)
    assert f"about 0.35 t, {litres} L at" in values(outfit)["honey in them"]
    assert words in warned(outfit)
    assert bool(words) is ("Honey of" in warned(outfit))


@pytest.mark.parametrize(
    ("lines", "field"),
    [
        ('honey_water = "26 %"', "honey_water"),
        ("refractive_index = 1.45", "refractive_index"),
        ('honey_water = "18 %"\nrefractive_index = 1.494', "refractive_index"),
    ],
)
def test_water_that_honey_has_not(tmp_path: Path, lines: str, field: str) -> None:
    """Outside what the densities are known for, or said twice."""
    assert field == only(faults(tmp_path, f"[honey_house]\n{lines}\n")).field


def test_a_truck_that_can_carry_nothing() -> None:
    """2315 kg are its own 2100, 60 of fuel, 70 of kit and one person of 85: not a gram more."""
    full, light = (
        an_outfit(trucks=(replace(a_truck(), max_g=grams),)) for grams in (2_315_000, 2_315_001)
    )

    assert "No truck can carry anything with anyone aboard" in warned(full)
    assert "No truck can carry anything" not in warned(light)


def test_a_truck_that_would_carry_too_much() -> None:
    """A 3.5 t truck of 1.6 t empty would carry 1.9 t, half as much again as any published."""
    light = replace(a_truck(), empty_g=1_600_000)
    assert "a 3.5 t truck usually carries 0.9 to 1.2 t" in warned(an_outfit(trucks=(light,)))
    assert "usually carries" not in warned(an_outfit())


def test_the_last_day_warm_enough_for_syrup(tmp_path: Path) -> None:
    """Cold from 6 March: of three days that a 5 L feeder takes, the mean must reach 10 degC.

    4 March: 17, 17 and 8 are 14 in the mean; 5 March: 17, 8, 8 are 11; 6 March: 8, and shut.
    """
    weather = (
        "area,what,from_day,to_day,min_temp,max_temp\n"
        "all,temperature,2027-03-01,2027-03-05,12 degC,22 degC\n"
        "all,temperature,2027-03-06,2027-03-10,4 degC,12 degC\n"
    )
    table = "name,lat,lon,colonies,boxes,feeder\nA,-38.0,175.1,5,8,5 L\nB,-38.1,175.1,5,8,5 L\n"
    lines = values(read(tmp_path, weather=weather, yards=table))
    assert "2027-03-05, all yards" == lines["last day warm enough for syrup"]


def test_warm_to_the_end_has_no_last_day(tmp_path: Path) -> None:
    """Where no cold ends the feeding, nothing is said of it."""
    weather = (
        "area,what,from_day,to_day,min_temp,max_temp\n"
        "all,temperature,2027-03-01,2027-03-10,12 degC,22 degC\n"
    )
    assert "last day warm enough for syrup" not in values(read(tmp_path, weather=weather))
