import json
from pathlib import Path

import pytest

from runplanner.outfit.outfit import Outfit
from runplanner.scenario.forecast.part import Heard
from runplanner.scenario.read import read_scenario
from runplanner.scenario.shown.warnings_given import warnings
from tests.roads.test_service import osrm, serving
from tests.roads.towns import write_extract
from tests.scenario.folders import BASE, TRUCK, YARDS, a_folder, faults_of, only
from tests.scenario.roads import (
    faults_with_roads,
    read_roads,
    road_file,
    weak_bridge,
    with_roads,
)


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A cache of the test's own."""
    monkeypatch.setenv("RUNPLANNER_CACHE", str(tmp_path / "kept"))


def said(outfit: Outfit, field: str) -> str:
    """The value noted for a field, "" when nothing was."""
    return next((one.value for one in outfit.assumed if one.field == field), "")


def test_drives_follow_the_roads(tmp_path: Path) -> None:
    """Metres are those of the L-shaped roads, minutes those of a country road at 45 km/h."""
    travel = read_roads(tmp_path).travel

    # By the ellipsoid's radii at 38 degrees: 0.05 deg of longitude 4,390 m, 0.04 of latitude
    # 4,440 m, together 8,829 m; at 45 km/h 11.8 min.  Gate: 7,901 + 7,769 m, 20.9 min.
    assert ((0, 12, 21), (12, 0, 33), (21, 33, 0)) == travel.minutes
    assert 8829 == travel.metres[0][1]
    assert 15_670 == travel.metres[0][2]
    assert "roads of roads.geojson" == travel.source


@pytest.mark.parametrize("name", ["R.GEOJSON", "Roads.Json", "R.OSM.PBF", "r.GraphML"])
def test_an_ending_in_any_letters(tmp_path: Path, name: str) -> None:
    """A road file is of the kind that its ending says, in small letters or capitals."""
    folder = with_roads(tmp_path)
    free = read_scenario(folder).travel.minutes
    (folder / "roads.geojson").rename(folder / name)
    outfit = folder / "outfit.toml"
    outfit.write_text(outfit.read_text("utf-8").replace("roads.geojson", name), "utf-8")

    if "json" in name.lower():
        assert free == read_scenario(folder).travel.minutes
    else:
        assert Path(name).suffix[1:].lower() in str(only(faults_of(folder)).allowed).lower()


def test_lines_that_say_no_class_are_told(tmp_path: Path) -> None:
    """A default like others; where another property looks like the class it is a warning."""
    folder, heard = with_roads(tmp_path), Heard()
    assert "highway '' x 2" == said(read_scenario(folder, heard), "travel.roads")
    assert not heard.doubts
    road_file(folder, highway="unclassified")
    assert "" == said(read_scenario(folder, heard), "travel.roads")
    road_file(folder, fclass="Secondary", name="Track")
    assert "highway '' fclass 'secondary' x 2" == said(read_scenario(folder, heard), "travel.roads")
    (told,) = heard.doubts
    assert "may be their class: fclass 'secondary' x 2. Call it highway." in told


def test_detour_and_speed_do_nothing_by_road(tmp_path: Path) -> None:
    """They are for straight lines: each is named, and nothing else is."""
    heard = Heard()
    folder = with_roads(tmp_path, 'detour = 1.2\nspeed = "40 km/h"\nheight = "3 m"\n')
    read_scenario(folder, heard)

    assert ["detour", "speed"] == [text.split(": ")[0].split(", ")[-1] for text in heard.doubts]


def test_speeds_can_be_typed(tmp_path: Path) -> None:
    """[travel.speeds] changes a class; gates and caps are read as well."""
    extra = '[travel.speeds]\nunclassified = "90 km/h"\ntrack = "no"\ngate = "30 s"\n'

    assert 6 == read_roads(tmp_path, extra).travel.minutes[0][1]


def test_the_largest_vehicle_counts(tmp_path: Path) -> None:
    """Mass and width are those of truck and trailer together; a height is only typed."""
    truck = TRUCK + 'train_max = "6 t"\nwidth = "2.1 m"\n'
    trailer = (
        '\n[[trailers]]\nname = "T"\nempty = "600 kg"\nmax = "2 t"\n'
        'deck_length = "3 m"\ndeck_width = "2.4 m"\n'
    )
    outfit = read_roads(tmp_path, trailer, truck=truck)

    assert said(outfit, "travel.vehicle").startswith("6 t, ")
    assert "no limit" == said(outfit, "travel.height")


def test_a_typed_height_is_not_warned_of(tmp_path: Path) -> None:
    """With a height low bridges are looked at, and nothing more is said of it."""
    assert "" == said(read_roads(tmp_path, 'height = "3.2 m"\n'), "travel.height")


def test_a_yard_off_the_road(tmp_path: Path) -> None:
    """The last stretch is driven slowly, added at both ends, and warned of when it is long."""
    # 0.01 degrees of latitude at -38 are 1,110 m: at 10 km/h 6.66 min, so 7.
    yards = YARDS.replace("Mill Lane,-38.01,", "Mill Lane,-38.00,")
    outfit = read_roads(tmp_path, yards=yards)

    assert (19, 19) == (outfit.travel.minutes[0][1], outfit.travel.minutes[1][0])
    assert 0 == outfit.travel.minutes[1][1]
    # The road's metres up to one, and those across the paddock.
    assert 8829 + 1110 == outfit.travel.metres[0][1]
    assert "7 min at Mill Lane, 1110 m off the road" == said(outfit, "yards.last_stretch")
    told = [text for text in warnings(outfit, ()) if "off the road" in text]
    assert ["7 min at Mill Lane, 1110 m off the road: right place, right road file?"] == told


def test_how_far_is_worth_a_warning_can_be_typed(tmp_path: Path) -> None:
    """At 2 km nothing is said of a yard 1,110 m off."""
    yards = YARDS.replace("Mill Lane,-38.01,", "Mill Lane,-38.00,")

    assert "" == said(
        read_roads(tmp_path, 'off_road_warn = "2 km"\n', yards=yards), "yards.last_stretch"
    )


def test_a_typed_last_stretch_counts(tmp_path: Path) -> None:
    """Four minutes typed for one yard come on top at its end, without a warning."""
    yards = (
        "name,lat,lon,colonies,boxes,last_stretch\n"
        "Mill Lane,-38.00,175.06,24,41,4 min\nGate,-38.12,175.20,12,20,\n"
    )
    outfit = read_roads(tmp_path, yards=yards)

    assert (12 + 4, 21, 33 + 4) == (
        outfit.travel.minutes[0][1], outfit.travel.minutes[0][2], outfit.travel.minutes[1][2]
    )  # fmt: skip
    assert "" == said(outfit, "yards.last_stretch")


def test_a_place_without_any_road(tmp_path: Path) -> None:
    """More than five kilometres from any road is a fault of that yard's row."""
    yards = YARDS.replace("Gate,-38.12,", "Gate,-38.22,")
    found = only(faults_with_roads(tmp_path, yards=yards))

    assert ("yards.csv", "row 3, Gate", "lat") == (found.file, found.where, found.field)
    # A tenth of a degree of latitude: 11,100 m.
    assert found.said.startswith("11100 m from the nearest road")


def test_a_new_place_without_any_road_is_told_of_its_move(tmp_path: Path) -> None:
    """The gate's row is right; the slip stands in the entry of the move."""
    move = '[[moves]]\nyard = "Gate"\nday = 2027-03-05\nlat = -38.22\nlon = 175.20\n'
    found = only(faults_with_roads(tmp_path, move))

    assert ("outfit.toml", "moves 1", "lat") == (
        found.file, found.where.split(", ", 1)[-1], found.field,
    )  # fmt: skip
    assert found.said.startswith("11100 m from the nearest road")


def test_a_base_without_any_road(tmp_path: Path) -> None:
    """For a base the road file is at fault."""
    base = "[base]\nlat = -37.9\nlon = 175.11\n"
    found = only(faults_with_roads(tmp_path, base=base))

    assert ("outfit.toml", "roads") == (found.file, found.field)
    assert "Base" in found.said


def test_a_road_file_that_is_none(tmp_path: Path) -> None:
    """What the reader says of it becomes a fault at its key, with the line."""
    folder = with_roads(tmp_path)
    (folder / "roads.geojson").write_text("{")
    found = only(faults_of(folder))

    assert ("outfit.toml", "line 16, travel", "roads", "no JSON") == (
        found.file, found.where, found.field, found.said
    )  # fmt: skip


def test_other_faults_come_first(tmp_path: Path) -> None:
    """With a fault elsewhere no road is looked at, and the keys of [travel] are still known."""
    extra = 'detour = 1.2\nspeed = "40 km/h"\n[hours]\nnoon = "03:00"\n'

    assert "noon" == only(faults_with_roads(tmp_path, extra)).field


def test_typed_legs_lie_on_top(tmp_path: Path) -> None:
    """travel.csv stands in place of what the roads say."""
    outfit = read_roads(tmp_path, travel="from,to,minutes,km\nhome,gate,33,30\n")

    assert (33, 12) == (outfit.travel.minutes[0][2], outfit.travel.minutes[0][1])
    assert "1 legs from travel.csv, otherwise roads of roads.geojson" == outfit.travel.source


TIMED = "from,to,minutes\nhome,gate,42\nmill lane,gate,66\nhome,mill lane,25\n"


def test_times_by_road_are_fitted_to_the_watch(tmp_path: Path) -> None:
    """Somebody who takes twice as long everywhere gets twice the times."""
    outfit = read_roads(tmp_path, 'timed = "legs.csv"\n', TIMED)

    # By road 20.89, 32.67 and 11.77 min; told 42, 66 and 25: ratios 2.01, 2.02, 2.12; the
    # weighted median is that of the longest drive, 66 / 32.67 = 2.02.
    assert (24, 43, 66) == (
        outfit.travel.minutes[0][1], outfit.travel.minutes[0][2], outfit.travel.minutes[1][2]
    )  # fmt: skip
    assert "2.02" == said(outfit, "travel.scale")
    assert "roads of roads.geojson, fitted to timed drives" == outfit.travel.source


def test_two_timed_drives_are_too_few(tmp_path: Path) -> None:
    """A fit to two drives would say more about them than about the roads."""
    text = "\n".join(TIMED.splitlines()[:3]) + "\n"
    found = only(faults_with_roads(tmp_path, 'timed = "legs.csv"\n', text))

    assert ("legs.csv", "2 drives of use", "at least 3 drives") == (
        found.file, found.said, found.allowed
    )  # fmt: skip


def test_times_that_cannot_be(tmp_path: Path) -> None:
    """Hours typed for minutes are noticed."""
    text = TIMED.replace("42", "420").replace("66", "660").replace("25", "250")
    found = only(faults_with_roads(tmp_path, 'timed = "legs.csv"\n', text))

    assert ("timed", "20 times the time by road") == (found.field, found.said)


def test_busy_hours_go_with_roads(tmp_path: Path) -> None:
    """The table is the best hour's, the others stand beside it, and that is said."""
    hours = '[travel.hours]\n"07-09" = "150 %"\n"22-23" = "200 %"\n'
    outfit = read_roads(tmp_path, hours)

    # 11.77 min.
    assert 12 == outfit.travel.minutes[0][1]
    assert (1000, 1500, 1500, 1000) == outfit.travel.by_hour[6:10]
    assert 2000 == outfit.travel.by_hour[22]
    assert "roads of roads.geojson, times by the hour of driving" == outfit.travel.source


def test_a_matrix_service_is_asked(tmp_path: Path) -> None:
    """The times are the service's, a pair it knows no road for is none, and both are said."""
    with serving(osrm) as seen:
        folder = a_folder(tmp_path, f'[travel]\nservice = "{seen.address}"\n')
        outfit = read_scenario(folder)

    assert 1 == len(seen.asked)
    # The test's service tells a minute and a kilometre for each 0.01 degrees east; it puts
    # places 7 m off the road: another minute at each end, and 7 m.
    assert 9 + 2 == outfit.travel.minutes[0][2]
    assert 9000 + 14 == outfit.travel.metres[0][2]
    assert f"matrix service at 127.0.0.1:{seen.port}" == outfit.travel.source


def test_a_service_that_knows_no_truck(tmp_path: Path) -> None:
    """It was asked for drives alone, so nothing is claimed of mass and height; keys are named."""
    with serving(osrm) as seen:
        typed = f'[travel]\nservice = "{seen.address}"\n'
        plain = read_scenario(a_folder(tmp_path, typed))
        (tmp_path / "b").mkdir()
        typed += 'height = "3.2 m"\nspeed = "40 km/h"\n[travel.speeds]\ntrack = "no"\n'
        heard = Heard()
        again = read_scenario(a_folder(tmp_path / "b", typed), heard)

    assert "the service's own, not your truck" == said(plain, "travel.vehicle")
    assert "" == said(plain, "travel.height")
    assert plain.travel.minutes == again.travel.minutes
    by_road = "nothing uses it while drives go by road; it goes with straight lines"
    untold = "this service is not told it: it goes by speeds and limits of its own"
    assert [
        f"outfit.toml, line 18, travel, speed: {by_road}",
        f"outfit.toml, line 19, travel, speeds: {untold}",
        f"outfit.toml, line 17, travel, height: {untold}",
    ] == heard.doubts


def test_a_service_that_is_told_the_truck(tmp_path: Path) -> None:
    """Mass and width are told to it, a height where one is typed; speeds are its own."""

    def pairs(*_: object) -> tuple[int, bytes]:
        row = '[{"time":60,"distance":1},{"time":60,"distance":1},{"time":60,"distance":1}]'
        return 200, f'{{"sources_to_targets":[{row},{row},{row}]}}'.encode()

    heard = Heard()
    with serving(pairs) as seen:
        typed = f'[travel]\nservice = "{seen.address}/sources_to_targets"\n'
        typed += 'off_road_warn = "1 km"\n[travel.speeds]\ntrack = "no"\n'
        outfit = read_scenario(a_folder(tmp_path, typed), heard)

    assert "no limit" == said(outfit, "travel.height")
    assert said(outfit, "travel.vehicle").startswith("3.5 t, ")
    assert [
        "speeds: this service is not told it: it goes by speeds and limits of its own",
        "off_road_warn: this service does not say how far off a road places lie",
    ] == [text.split("travel, ")[1] for text in heard.doubts]


def test_a_service_that_fails_is_a_fault(tmp_path: Path) -> None:
    """What it said stands in the fault, at the key."""
    with serving(lambda *_: (400, b'{"message": "no"}')) as seen:
        found = only(faults_of(a_folder(tmp_path, f'[travel]\nservice = "{seen.address}"\n')))

    assert ("service", "status 400 no") == (found.field, found.said)


def test_drives_without_a_road_are_counted(tmp_path: Path) -> None:
    """Where the service knows no road the plan has none, and check says how many."""

    def islands(*_: object) -> tuple[int, bytes]:
        grid = "[[0,60,null],[60,0,null],[null,null,0]]"
        return 200, f'{{"code":"Ok","durations":{grid},"distances":{grid}}}'.encode()

    with serving(islands) as seen:
        outfit = read_scenario(a_folder(tmp_path, f'[travel]\nservice = "{seen.address}"\n'))

    assert outfit.travel.minutes[0][2] is None
    assert "4 drives" == said(outfit, "travel.no_road")


def test_limits_that_cannot_be_read_are_told(tmp_path: Path) -> None:
    """Twice on the L of roads, from the file and again from the cache; the drives stay."""
    folder = with_roads(tmp_path)
    road_file(folder, maxweight="3.5 tons; 7,5")
    for _ in range(2):
        heard = Heard()
        assert 12 == read_scenario(folder, heard).travel.minutes[0][1]
        (told,) = heard.doubts
        assert told.startswith("roads.geojson: limits on roads that cannot be read, and are not")
        assert told.endswith("kept to: maxweight '3.5 tons' x 2")


def test_many_unreadable_limits_are_not_all_named(tmp_path: Path) -> None:
    """Six are, and how many more there are."""
    folder = with_roads(tmp_path)
    road_file(folder, maxweight=";".join(f"w{number}" for number in range(8)))
    heard = Heard()
    read_scenario(folder, heard)

    (told,) = heard.doubts
    assert told.endswith("maxweight 'w5' x 2 and 2 more")


def test_limits_on_axles_are_told_apart(tmp_path: Path) -> None:
    """They can be read, but not judged; both kinds are said."""
    folder = with_roads(tmp_path)
    road_file(folder, maxaxleload="3", maxweight="heavy")
    heard = Heard()
    read_scenario(folder, heard)
    unread, axles = heard.doubts

    assert unread.endswith("kept to: maxweight 'heavy' x 2")
    assert axles.endswith("limits on axle loads are not looked at; some are below what the largest"
                          " truck weighs in all: maxaxleload '3' x 2")  # fmt: skip


def test_points_of_no_one_road_are_told_apart(tmp_path: Path) -> None:
    """Where two roads only cross, nobody can say on which a low bridge stands."""
    folder = with_roads(tmp_path)
    path = road_file(folder)
    body = json.loads(path.read_text("utf-8"))
    (base, corner, _) = body["features"][0]["geometry"]["coordinates"]
    x, y = (base[0] + corner[0]) / 2, base[1]
    over = {"type": "LineString", "coordinates": [[x, y - 0.001], [x, y + 0.001]]}
    post = {"type": "Point", "coordinates": [x, y]}
    body["features"] += [
        {"properties": {}, "geometry": over},
        {"properties": {"maxwidth": "1"}, "geometry": post},
    ]
    path.write_text(json.dumps(body), "utf-8")
    heard = Heard()
    read_scenario(folder, heard)
    (told,) = heard.doubts

    assert told.startswith("roads.geojson: points that may stand on one of several roads, and are")
    assert told.endswith(f" none: ({y:.5f}, {x:.5f}) maxwidth '1'. Make each a point of its road's"
                         " line.")  # fmt: skip


@pytest.mark.parametrize("limit", ["2,8", "2.8 tonnes"])
def test_a_limit_with_a_comma_or_its_unit_in_full(tmp_path: Path, limit: str) -> None:
    """Both shut the road to a truck of 3.5 t."""
    folder = with_roads(tmp_path)
    road_file(folder, maxweight=limit)

    assert "no road for this truck" == only(faults_of(folder)).said


@pytest.mark.parametrize(
    "sign",
    [
        {"maxweight": "2"},
        {"access": "no"},
        {"access:conditional": "no @ (2027 Mar 10-2027 May 31)"},
        {"4wd_only": "yes"},
    ],
)
def test_a_yard_behind_a_weak_bridge_or_a_shut_road(tmp_path: Path, sign: dict[str, str]) -> None:
    """Its own road is there, and cut off for this truck: the row is refused, the sign named."""
    folder = with_roads(tmp_path, yards=YARDS.replace("175.20", "175.2001"))
    weak_bridge(folder, **sign)
    found = only(faults_of(folder))
    (key, value), *_ = sign.items()

    assert ("yards.csv", "row 3, Gate", "lat") == (found.file, found.where, found.field)
    # 0.0001 degrees of longitude at 38 south are 8.8 m.
    assert found.said.startswith(f"Gate: its road, 9 m off, lies behind {key} '{value}'; the")
    assert found.allowed.endswith("trailer can drive to (3.5 t, 2.2 m wide)")
    assert "type its last_stretch, or its legs in travel.csv" in found.cure


def test_roads_for_four_wheel_drive_want_it_of_every_truck(tmp_path: Path) -> None:
    """One truck without it is enough to keep the roads from the plan: they are for the weakest."""
    four = TRUCK + "four_wheel = true\n"
    for name, trucks in (("all", four), ("one", four + TRUCK.replace("Blue", "Red"))):
        folder = with_roads(_inside(tmp_path, name), truck=trucks)
        road_file(folder, **{"4wd_only": "yes"})
        if name == "one":
            assert "no road for this truck" == only(faults_of(folder)).said
        else:
            # 8,829 m at 20 km/h instead of 45.
            assert 27 == read_scenario(folder).travel.minutes[0][1]


@pytest.mark.parametrize("dates", ["2021 May 03-2021 Dec 20", "Jun-Sep", "2027 Mar 12-31"])
def test_a_road_shut_on_other_dates_is_open(tmp_path: Path, dates: str) -> None:
    """The campaign is from 1 to 10 March 2027."""
    folder = with_roads(tmp_path)
    free = read_scenario(folder).travel.minutes
    road_file(folder, **{"access:conditional": f"no @ ({dates})"})

    assert free == read_scenario(folder).travel.minutes


def test_roads_are_read_anew_for_other_dates(tmp_path: Path) -> None:
    """What is kept on disk for one campaign is not taken for another."""
    folder = with_roads(tmp_path)
    road_file(folder, **{"access:conditional": "no @ (2027 Jun)"})
    read_scenario(folder)
    outfit = folder / "outfit.toml"
    outfit.write_text(outfit.read_text("utf-8").replace("2027-03-", "2027-06-"), "utf-8")

    assert "no road for this truck" == only(faults_of(folder)).said


def test_a_limit_close_by_is_no_matter(tmp_path: Path) -> None:
    """A yard 88 m along the weak road is served from where that begins; at 106 m it is not."""
    # A thousandth of a degree of longitude at 38.05 south is 87.8 m; 0.0012 are 105.4.
    near = YARDS.replace("Gate,-38.12,175.20", "Gate,-38.05,175.111")
    folder = with_roads(tmp_path, yards=near)
    weak_bridge(folder)
    assert 1 == read_scenario(folder).travel.minutes[0][2]
    (folder / "yards.csv").write_text(near.replace("175.111", "175.1112"), "utf-8")
    assert "lat" == only(faults_of(folder)).field
    # A road that is shut may be a neighbour's: there it is the 300 m of off_road_warn.
    weak_bridge(folder, motor_vehicle="no")
    assert 1 == read_scenario(folder).travel.minutes[0][2]


def _inside(path: Path, name: str) -> Path:
    (path / name).mkdir()
    return path / name


def test_a_last_stretch_or_legs_say_how_to_get_there(tmp_path: Path) -> None:
    """Either of them stands for the road: a stretch on top, legs alone and no other drive."""
    yards = "name,lat,lon,colonies,boxes,last_stretch\n" + YARDS.partition("\n")[2].replace(
        "Gate,-38.12,175.20,12,20", "Gate,-38.06,175.12,12,20,9 min"
    ).replace("24,41", "24,41,")
    folder = with_roads(_inside(tmp_path, "stretch"), yards=yards)
    weak_bridge(folder)
    assert (9, 12 + 9) == read_scenario(folder).travel.minutes[2][:2]

    folder = with_roads(_inside(tmp_path, "legs"), travel="from,to,minutes,km\nhome,gate,33,30\n")
    weak_bridge(folder)
    outfit = read_scenario(folder)
    assert ((0, 12, 33), (12, 0, None), (33, None, 0)) == outfit.travel.minutes
    assert "Gate, behind maxweight '2'" == said(outfit, "travel.cut_off")
    assert "" == said(outfit, "yards.last_stretch")
    # A row that says there is no road tells nobody how to get there.
    (folder / "travel.csv").write_text("from,to,minutes,km\nhome,gate,no road,\n", "utf-8")
    assert "yards.csv" == only(faults_of(folder)).file


def test_a_honey_house_behind_a_weak_bridge(tmp_path: Path) -> None:
    """For a base the road file is at fault."""
    folder = with_roads(tmp_path, "[honey_house]\nlat = -38.12\nlon = 175.20\n")
    weak_bridge(folder)
    found = next(fault for fault in faults_of(folder) if fault.file == "outfit.toml")

    assert "roads" == found.field
    assert "type its last_stretch, or its legs" in found.cure


BASE_OFF = "lat = -38.04\nlon = 175.11\n"
"""A hundredth of a degree of latitude north of the road: 1,110 m, by ours 7 min."""


@pytest.mark.parametrize("table", ["base", "home"])
def test_the_last_stretch_to_a_base_can_be_typed(tmp_path: Path, table: str) -> None:
    """A farm at the end of a lane that the file has not: guessed with a warning, or typed."""
    base = f"[{table}]\n{BASE_OFF}" + (
        BASE.replace("base", "feed_store") if table == "home" else ""
    )
    house = BASE.replace("base", "honey_house") if table == "home" else ""
    guessed = read_roads(_inside(tmp_path, "guessed"), base=base + house)
    assert f"7 min at {'Base' if table == 'base' else 'Home'}, 1110 m off the road" == said(
        guessed, f"{table}.last_stretch"
    )
    assert any("off the road: right place" in text for text in warnings(guessed, ()))

    typed = base.replace("175.11\n", '175.11\nlast_stretch = "3 min"\n', 1)
    outfit = read_roads(_inside(tmp_path, "typed"), base=typed + house)
    assert "" == said(outfit, f"{table}.last_stretch")
    # The base's are the first place's; the feed store's and honey house's come behind.
    assert (guessed.travel.minutes[0][-1] or 0) - 4 == outfit.travel.minutes[0][-1]


def test_bases_of_their_own_have_their_own_last_stretch(tmp_path: Path) -> None:
    """That of [base] is the way to the base; a honey house elsewhere takes none of it."""
    house = "\n[honey_house]\nlat = -38.05\nlon = 175.06\n"
    base = BASE + 'last_stretch = "3 min"\n' + house
    outfit = read_roads(_inside(tmp_path, "a"), base=base)
    # 4,390 m at 45 km/h: 5.9 min.
    assert 3 + 6 == outfit.travel.minutes[0][1]
    outfit = read_roads(_inside(tmp_path, "b"), base=base + 'last_stretch = "2 min"\n')
    assert 3 + 6 + 2 == outfit.travel.minutes[0][1]


def test_the_last_stretch_of_a_moved_yard_stands_with_its_move(tmp_path: Path) -> None:
    """The column is for where it stands first; its second place is guessed until it is typed."""
    yards = "name,lat,lon,colonies,boxes,last_stretch\n" + YARDS.partition("\n")[2].replace(
        "24,41", "24,41,2 min"
    ).replace("12,20", "12,20,")
    move = '[[moves]]\nyard = "Mill Lane"\nday = 2027-03-05\nlat = -38.00\nlon = 175.06\n'
    guessed = read_roads(_inside(tmp_path, "guessed"), move, yards=yards)
    assert "7 min at Mill Lane, 1110 m off the road" == said(guessed, "moves.last_stretch")
    move += 'last_stretch = "4 min"\n'
    outfit = read_roads(_inside(tmp_path, "typed"), move, yards=yards)

    assert "" == said(outfit, "moves.last_stretch")
    assert (12 + 2, 12 + 4) == (outfit.travel.minutes[0][1], outfit.travel.minutes[0][3])


def test_a_honey_house_in_a_street_with_a_sign(tmp_path: Path) -> None:
    """Whoever has a house there drives in: 263 m at 10 km/h from where the sign stands."""
    house = "[honey_house]\nlat = -38.05\nlon = 175.113\n"
    folder = with_roads(tmp_path, house, yards=YARDS.replace("-38.12,175.20", "-38.05,175.10"))
    weak_bridge(folder)

    # 0.003 degrees of longitude at 38.05 south are 263.4 m: 1.58 minutes, so 2.
    assert 2 == read_scenario(folder).travel.minutes[0][1]


def test_home_on_an_island(tmp_path: Path) -> None:
    """Roads round home are driven though others are larger: yards beside them are near."""
    folder = with_roads(tmp_path, yards=YARDS.replace("-38.12,175.20", "-38.05,175.10"))
    island = [[175.09, -38.05], [175.11, -38.05], [175.06, -38.01]]
    mainland = [[175.0 + 0.01 * number, -38.2] for number in range(9)]
    features = [
        {"geometry": {"type": "LineString", "coordinates": line}} for line in (island, mainland)
    ]
    (folder / "roads.geojson").write_text(json.dumps({"features": features}), "utf-8")

    # 0.01 degrees of longitude are 878 m: at 45 km/h 1.2 min.
    assert 2 == read_scenario(folder).travel.minutes[0][2]


def test_a_road_that_may_come_round_outside_what_was_read(tmp_path: Path) -> None:
    """Two roads that lead 25 degrees apart: Gate is told of, until its leg to home is typed."""
    base, gate = (-38.05, 175.11), (-38.05, 175.15)
    nodes = {
        n: (lat + 0.5 * (n % 50), lon) for n in range(100) for lat, lon in [(base, gate)[n // 50]]
    }
    lines = [(tuple(range(at, at + 50)), {"highway": "primary"}) for at in (0, 50)]
    travel = '[travel]\nroads = "a.osm.pbf"\n'
    folder = a_folder(tmp_path, travel, yards=YARDS.replace("-38.12,175.20", "-38.05,175.15"))
    write_extract(folder / "a.osm.pbf", nodes, lines)
    heard = Heard()
    read_scenario(folder, heard)
    doubt = "Gate: within 220 km round your places its road does not come to home's"
    assert 1 == sum(words.startswith(doubt) for words in heard.doubts)

    (folder / "travel.csv").write_text("from,to,minutes,km\nhome,gate,95,90\n", "utf-8")
    heard = Heard()
    read_scenario(folder, heard)
    assert not any("come to home's" in words for words in heard.doubts)
