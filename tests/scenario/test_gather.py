"""Tests of gathering: what is merged, what is added, what is doubted, what is written."""

import csv
import io
import os
import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from runplanner.errors import ScenarioError
from runplanner.scenario import new_scenario, read_scenario
from runplanner.scenario.faults import FaultBook
from runplanner.scenario.gather.far import apart_km
from runplanner.scenario.gather.gathered import gather
from runplanner.scenario.yards.yards_sheet import STARTER_NAMES, new_sheet, read_sheet
from tests.scenario.folders import a_folder, only
from tests.scenario.gathering import HERE, file, gathered, gpx, into, kml, mark, refused, wpt

# A hundredth of a degree of latitude is 1.11 km, a thousandth 111 m.


def table(*rows: str, head: str = "name,lat,lon,colonies,boxes") -> str:
    """A CSV table."""
    return "\n".join((head, *rows)) + "\n"


# ------------------------------------------------------------ merging


def test_several_kinds_at_once_are_read_by_the_scenario(tmp_path: Path) -> None:
    """Places of GPX and KML with the counts of a table: the scenario then reads."""
    folder = into(tmp_path)
    files = [
        file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "Pump House"))),
        file(tmp_path, "b.kml", kml(mark("Quarry", "175.15,-38.06,0"))),
        file(tmp_path, "c.csv", table("pump house,14,21", "QUARRY,9,10", head="yard,hives,supers")),
    ]
    told, _ = gathered(files, folder)
    yards = read_scenario(folder).yards

    assert (("Pump House", "Quarry"), (), 0, ()) == (
        told.added, told.filled, told.same, told.lacking,
    )  # fmt: skip
    assert [("Mill Lane", 24), ("Gate", 12), ("Pump House", 14), ("Quarry", 9)] == [
        (yard.name, yard.colonies) for yard in yards
    ]


def test_the_order_of_files_does_not_matter(tmp_path: Path) -> None:
    """Counts first, places after: a row waits for its place."""
    files = [
        file(tmp_path, "c.csv", table("Pump House,14,21", head="name,colonies,boxes")),
        file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "Pump House"))),
    ]

    assert "Pump House,-38.05,175.1,14,21" == gathered(files, into(tmp_path))[1][3]


def kept(path: Path) -> tuple[object, ...]:
    """Whatever writing a file anew would change; when it was read last is no part of that."""
    status = path.stat()
    return status.st_ino, status.st_mtime_ns, status.st_mode, path.read_bytes()


def test_gathering_twice_adds_nothing(tmp_path: Path) -> None:
    """The second time every place is known, and the file is not touched."""
    folder = into(tmp_path)
    path = file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "Pump", "<desc>Dog</desc>")))
    gather([path], folder)
    (folder / "yards.csv").chmod(0o600)
    before = kept(folder / "yards.csv")
    told = gather([path, path], folder)

    assert ((), (), 2) == (told.added, told.filled, told.same)
    assert before == kept(folder / "yards.csv")


def test_empty_cells_are_filled_and_full_ones_kept(tmp_path: Path) -> None:
    """Notes are added to Gate, its 12 colonies stay; what differs is said."""
    text = table("gate,-38.1201,175.2001,13,20,Shut it", head="name,lat,lon,colonies,boxes,notes")
    told, lines = gathered([file(tmp_path, "c.csv", text)], into(tmp_path))

    assert [
        "name,lat,lon,colonies,boxes,notes",
        "Mill Lane,-38.01,175.06,24,41,",
        "Gate,-38.12,175.20,12,20,Shut it",
    ] == lines
    assert ("Gate",) == told.filled
    assert ("yards.csv row 3, gate: '12' kept; c.csv row 2 has colonies '13'.",) == told.notes


def test_a_row_without_a_place_gets_one(tmp_path: Path) -> None:
    """A table that had names and counts only is filled in by name."""
    yards = "name,colonies,boxes\nMill Lane,24,41\n"
    path = file(tmp_path, "a.gpx", gpx(wpt("-38.01", "175.06", "mill  lane")))
    told, lines = gathered([path], into(tmp_path, yards))

    assert ["name,colonies,boxes,lat,lon", "Mill Lane,24,41,-38.01,175.06"] == lines
    assert ("Mill Lane",) == told.filled


@pytest.mark.parametrize(
    ("stands", "text", "kept"),
    [
        ("07:00", "7:00", False),
        ("7:00", "07:00", False),
        ("2027-03-05", "2027-3-5", False),
        ("Creek  Road", "creek road", False),
        ("07:00", "07:10", True),
        ("10:00", "1:00", True),
        ("0.5", "5", True),
        ("1.05 t", "1.5 t", True),
        ("0", "", False),
    ],
)
def test_what_is_written_otherwise_is_no_difference(
    tmp_path: Path, stands: str, text: str, *, kept: bool
) -> None:
    """A spreadsheet drops the nought of an hour; of a decimal it means something."""
    yards = f"name,lat,lon,colonies,boxes,opens\nGate,-38.12,175.20,12,20,{stands}\n"
    path = file(tmp_path, "c.csv", table(f"Gate,{text}", head="name,opens"))
    told, lines = gathered([path], into(tmp_path, yards))

    assert yards.splitlines() == lines
    assert kept == bool(told.notes)


def test_a_nought_that_is_dialled_is_a_difference(tmp_path: Path) -> None:
    """A spreadsheet took it from the phone: the note says what the other file has."""
    yards = "name,lat,lon,colonies,boxes,phone\nGate,-38.12,175.20,12,20,215550001\n"
    path = file(tmp_path, "c.csv", table("Gate,0215550001", head="name,phone"))
    told, _ = gathered([path], into(tmp_path, yards))

    assert "'215550001' kept; c.csv row 2 has phone '0215550001'" in told.notes[0]


def test_boxes_per_colony_and_boxes_do_not_meet(tmp_path: Path) -> None:
    """A row has one or the other: the one that stands is kept."""
    text = table("Gate,1.5", head="name,boxes_per_colony")
    told, lines = gathered([file(tmp_path, "c.csv", text)], into(tmp_path))

    assert "Gate,-38.12,175.20,12,20" == lines[2]
    assert ("yards.csv row 3, Gate: '20' kept; c.csv row 2 has boxes_per_colony '1.5'.",) == (
        told.notes
    )


def test_boxes_per_colony_are_not_known_by_a_total_of_the_same_digits(tmp_path: Path) -> None:
    """Two boxes of the yard and two on each hive are no one count."""
    yards = "name,lat,lon,colonies,boxes\nGate,-38.12,175.20,12,2\n"
    text = table("Gate,2", head="name,boxes_per_colony")
    told, _ = gathered([file(tmp_path, "c.csv", text)], into(tmp_path, yards))

    assert ("yards.csv row 2, Gate: '2' kept; c.csv row 2 has boxes_per_colony '2'.",) == told.notes


def test_what_is_still_lacking_is_told(tmp_path: Path) -> None:
    """Two new rows, one with boxes per colony."""
    text = table(
        "A,-38.05,175.1,,2", "B,-38.07,175.1,9,", head="name,lat,lon,colonies,boxes_per_colony"
    )
    told, _ = gathered([file(tmp_path, "c.csv", text)], into(tmp_path))

    assert (("colonies", ("A",)), ("boxes", ("B",))) == told.lacking


def test_what_is_said_of_a_file_is_said_once(tmp_path: Path) -> None:
    """The same file twice: one note."""
    path = file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "Pump"), "<trk/>"))

    assert 1 == len(gathered([path, path], into(tmp_path))[0].notes)


# ------------------------------------------------------------ what stands stays


def test_the_table_keeps_its_looks(tmp_path: Path) -> None:
    """Byte order mark, comments, semicolons, CR LF, units, blank rows, quoted cells: all stay."""
    yards = (
        '\ufeff# mine; "all mine"\r\n;;\r\nName;Lat;Lon;Hives;boxes;box mass [kg];Notes\r\n'
        'Mill Lane;-38.01;175.06;24;41;16;"Turn; then ""left""\r\nand stop"\r\n\r\n'
        "Gate;-38.12;175.20;12;20\r\n"
    )
    folder = into(tmp_path, yards)
    gather(
        [file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "Pump", "<desc>a;b</desc>")))], folder
    )

    made = (folder / "yards.csv").read_bytes().decode("utf-8")
    assert yards.replace("12;20\r\n", "12;20;;\r\n") + 'Pump;-38.05;175.1;;;;"a;b"\r\n' == made


def test_a_table_by_another_name_is_the_one_added_to(tmp_path: Path) -> None:
    """[files] yards says which table it is."""
    folder = into(tmp_path)
    (folder / "yards.csv").rename(folder / "mine.csv")
    with (folder / "outfit.toml").open("a", encoding="utf-8") as stream:
        stream.write('[files]\nyards = "mine.csv"\n')
    told, lines = gathered([file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "Pump")))], folder)

    assert folder / "mine.csv" == told.path
    assert 4 == len(lines)


def test_a_scenario_without_a_table_gets_one(tmp_path: Path) -> None:
    """The needed columns and the gathered rows."""
    folder = into(tmp_path)
    (folder / "yards.csv").unlink()
    _told, lines = gathered([file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "Pump")))], folder)

    assert ["name,lat,lon,colonies,boxes", "Pump,-38.05,175.1,,"] == lines


def test_the_starters_examples_are_kept_and_named(tmp_path: Path) -> None:
    """Invented yards of an untouched starter stand for no place, but no row is lost."""
    folder = tmp_path / "bees"
    new_scenario(folder, "Bees")
    told, lines = gathered([file(tmp_path, "a.gpx", gpx(wpt("46.7", "16.3", "Pump")))], folder)

    assert 3 == len(STARTER_NAMES)
    assert STARTER_NAMES == set(told.examples)
    assert "Pump,46.7,16.3,," == lines[-1]
    assert 3 == sum(line.startswith("Invented") for line in lines)


SPOT = st.tuples(st.floats(-40, -39, width=32), st.floats(175, 176, width=32))
CELLS = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), max_size=9)


@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    st.lists(st.lists(CELLS, min_size=3, max_size=3), max_size=5),
    st.lists(SPOT, min_size=1, max_size=4),
    st.sampled_from(",;\t"),
)
def test_no_row_is_ever_lost(
    tmp_path_factory: pytest.TempPathFactory,
    rows: list[list[str]],
    spots: list[tuple[float, float]],
    separator: str,
) -> None:
    """Whatever stands in the table stands there afterwards, in its order, cell by cell."""
    tmp_path = tmp_path_factory.mktemp("g")
    body = io.StringIO(newline="")
    csv.writer(body, delimiter=separator).writerows([["name", "notes", "phone"], *rows])
    folder = into(tmp_path, body.getvalue())
    text = table(*(f"new yard {i},{lat},{lon},," for i, (lat, lon) in enumerate(spots)))

    def cells() -> list[list[str]]:
        raw = (folder / "yards.csv").read_bytes().decode("utf-8")
        return list(csv.reader(io.StringIO(raw, newline=""), delimiter=separator))

    before = cells()
    try:
        gather([file(tmp_path, "n.csv", text)], folder, near_m=0)
    except ScenarioError:
        assert before == cells()
        return
    after = cells()
    assert len(before) + len(spots) == len(after)
    for was, now in zip(before, after, strict=False):
        assert was == now[: len(was)]
        assert now[len(was) :] in (
            [],
            ["lat", "lon"],
            ["lat", "lon", "colonies"],
            [""] * 2,
            [""] * 4,
        )


# ------------------------------------------------------------ doubts


def test_two_names_on_one_spot_are_doubted(tmp_path: Path) -> None:
    """111 m apart: one yard or two? Both cures are named, and --near 0 takes both."""
    path = file(tmp_path, "a.gpx", gpx(wpt("-38.011", "175.06", "Mill Lane hives")))
    folder = into(tmp_path)
    fault = only(refused([path], folder))

    assert "'Mill Lane hives', 111 m from 'Mill Lane' (yards.csv row 2)" == fault.said
    assert ("a.gpx", "waypoint 1", "200 m or more between two yards") == (
        fault.file, fault.where, fault.allowed,
    )  # fmt: skip
    assert "call both alike" in fault.cure
    assert ("Mill Lane hives",) == gathered([path], folder, near_m=0)[0].added


def test_near_is_measured_by_the_nearest(tmp_path: Path) -> None:
    """Between two yards the nearer is named; beyond the limit nothing is said."""
    yards = table("A,-38.01,175.06,1,1", "B,-38.013,175.06,1,1")
    folder = into(tmp_path, yards)
    path = file(tmp_path, "a.gpx", gpx(wpt("-38.012", "175.06", "C")))

    # 222 m from A and 111 m from B.
    assert "'C', 111 m from 'B' (yards.csv row 3)" == only(refused([path], folder, near_m=300)).said
    assert ("C",) == gathered([path], folder, near_m=100)[0].added


def test_near_ones_among_the_new_are_doubted(tmp_path: Path) -> None:
    """Two files with the same yard under two names."""
    files = [
        file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "Pump"))),
        file(tmp_path, "b.kml", kml(mark("Pump House", "175.1005,-38.05"))),
    ]

    assert (
        "'Pump House', 44 m from 'Pump' (a.gpx waypoint 1)"
        == only(refused(files, into(tmp_path))).said
    )


def test_near_ones_that_stood_before_are_left_alone(tmp_path: Path) -> None:
    """What the user has in the table already is not doubted again."""
    yards = table("A,-38.01,175.06,1,1", "B,-38.0101,175.06,1,1")
    path = file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "C")))

    assert ("C",) == gathered([path], into(tmp_path, yards))[0].added


@pytest.mark.parametrize(
    ("lat", "said", "cure"),
    [
        ("-38.013", "'mill lane', 334 m from that of yards.csv row 2", "say --near 334"),
        ("-38.31", "'mill lane', 33 km from that of yards.csv row 2", "drop the one that is wrong"),
    ],
)
def test_one_name_in_two_places_is_doubted(tmp_path: Path, lat: str, said: str, cure: str) -> None:
    """Far off it is another yard; some hundred metres off it may be the same."""
    path = file(tmp_path, "a.gpx", gpx(wpt(lat, "175.06", "mill lane")))
    folder = into(tmp_path)
    fault = only(refused([path], folder))

    assert said == fault.said
    assert cure in fault.cure
    if "--near" in cure:
        assert 1 == gathered([path], folder, near_m=334)[0].same


@pytest.mark.parametrize(
    ("lat", "lon", "cure"),
    [
        ("38.05", "175.1", "Lat seems to lack its minus or letter: -38.05, 175.1 lies near"),
        ("-38.05", "-175.1", "Lon seems to lack its minus or letter: -38.05, 175.1 lies near"),
        ("38.05", "-175.1", "have each other's sign: -38.05, 175.1 lies near"),
        ("46.7", "16.3", "or --far 0. It lies in Slovenia, the rest in New Zealand."),
        ("-37.9", "-8.6", "or --far 0. It lies in no country, the rest in New Zealand."),
    ],
)
def test_a_place_in_another_country_is_doubted(
    tmp_path: Path, lat: str, lon: str, cure: str
) -> None:
    """Far from the rest: with the slip that explains it, or with the country."""
    path = file(tmp_path, "c.csv", table(f"Pump,{lat},{lon},1,1"))
    fault = only(refused([path], into(tmp_path)))

    assert cure in fault.cure
    assert re.search(r"\([0-9]+ km away\)", fault.said)
    assert "within 300 km of the rest" == fault.allowed


@pytest.mark.parametrize(
    ("lat", "lon", "words"),
    [
        ("16.3", "46.7", "Lat and lon look swapped: 46.7, 16.3"),
        ("-16.3", "46.7", "swapped, and a sign wrong: 46.7, 16.3"),
        ("16.3", "-46.7", "swapped, and a sign wrong: 46.7, 16.3"),
        ("-16.3", "-46.7", "swapped, and both signs wrong: 46.7, 16.3"),
    ],
)
def test_swapped_places_that_are_places_are_found_by_the_rest(
    tmp_path: Path, lat: str, lon: str, words: str
) -> None:
    """Where lat and lon could be either, the yards in the table tell."""
    yards = table("A,46.71,16.31,1,1", "B,46.75,16.35,1,1")
    path = file(tmp_path, "c.csv", table(f"Pump,{lat},{lon},1,1"))

    assert words in only(refused([path], into(tmp_path, yards))).cure


def test_lat_and_lon_surely_swapped_are_a_fault(tmp_path: Path) -> None:
    """A latitude of 175 is none."""
    fault = only(refused([file(tmp_path, "c.csv", table("P,175.1,-38.05,1,1"))], into(tmp_path)))

    assert ("lat", "Look for lat and lon swapped.") == (fault.field, fault.cure)


def test_letters_put_swapped_columns_right(tmp_path: Path) -> None:
    """With N, S, E and W there is no doubt: taken, and said."""
    path = file(tmp_path, "c.csv", table("P,175.1 E,38.05 S,1,1"))
    told, lines = gathered([path], into(tmp_path))

    assert "P,-38.05,175.1,1,1" == lines[3]
    assert ("c.csv row 2, P: lat and lon were swapped; put right by their letters.",) == told.notes


@pytest.mark.parametrize("row", ["P,175.1 E,-38.05,1,1", "P,-38.05,38.05 S,1,1", "P,3 E,4 W,1,1"])
def test_letters_that_contradict_are_a_fault(tmp_path: Path, row: str) -> None:
    """Two longitudes, or a longitude where the latitude should be."""
    fault = only(refused([file(tmp_path, "c.csv", table(row))], into(tmp_path)))

    assert "one latitude and one longitude" == fault.allowed


def test_degrees_minutes_are_read_or_refused(tmp_path: Path) -> None:
    """Two writings taken, two refused with their cures, both at once."""
    good = file(tmp_path, "g.csv", table("P,38 03 S,175 06 E,,", "Q,-38 04.5,175 06,,"))
    bad = file(tmp_path, "b.csv", table("R,3803.0 S,175.1,,", 'S,"38,05,1",175.1,,'))
    folder = into(tmp_path)

    found = refused([good, bad], folder)
    assert ["run together" in found[0].cure, "decimal degrees" in found[1].cure] == [True, True]
    assert ["P,-38.05,175.1,,", "Q,-38.075,175.1,,"] == gathered([good], folder)[1][3:]


def test_half_a_place_and_no_place_are_faults(tmp_path: Path) -> None:
    """Lat without lon; nothing at all; 0, 0."""
    path = file(tmp_path, "c.csv", table("P,-38.05,,,", "Q,,,3,4", "R,0,0,,"))
    found = {(fault.where, fault.field, fault.said) for fault in refused([path], into(tmp_path))}

    assert {
        ("row 2", "lon", "nothing"), ("row 3", "lat", "nothing"), ("row 4", "lat", "0, 0"),
    } == found  # fmt: skip


def test_far_can_be_widened_or_left(tmp_path: Path) -> None:
    """500 km off: --far 600 takes it, with a word; --far 0 has no limit."""
    path = file(tmp_path, "c.csv", table("P,-42.6,175.1,1,1"))
    for far in (600, 0):
        (tmp_path / str(far)).mkdir()
        told, _ = gathered([path], into(tmp_path / str(far)), far_km=far)
        assert ("P",) == told.added
        assert "km from the rest; check it." in told.notes[0]


def test_a_place_that_only_sticks_out_is_worth_a_word(tmp_path: Path) -> None:
    """Five yards within some kilometres and one at 100: taken, and told."""
    rows = [f"Y{i},-38.0{i},175.06,1,1" for i in range(1, 6)]
    path = file(tmp_path, "c.csv", table(*rows, "P,-38.9,175.06,1,1"))
    folder = into(tmp_path)
    (folder / "yards.csv").unlink()
    told, _ = gathered([path], folder)

    assert 6 == len(told.added)
    # Middle at about -38.03: 0.87 degrees x 111.2 km.
    assert "c.csv row 7, P: 96 km from the rest; check it." == told.notes[0]


def test_yards_across_the_date_line_are_near(tmp_path: Path) -> None:
    """179.98 and -179.98 are four kilometres apart at that latitude, not round the world."""
    rows = ["A,-16.8,179.98,1,1", "B,-16.81,-179.98,1,1", "C,-16.82,180,1,1"]
    folder = a_folder(tmp_path, base="[base]\nlat = -16.8\nlon = -179.99\n")
    (folder / "yards.csv").unlink()
    told, _ = gathered([file(tmp_path, "c.csv", table(*rows))], folder)

    assert (3, ()) == (len(told.added), told.notes)


def test_places_all_round_have_a_middle(tmp_path: Path) -> None:
    """Two places on opposite sides of the globe: no middle, no crash, one is far."""
    folder = into(tmp_path)
    (folder / "yards.csv").unlink()
    path = file(tmp_path, "c.csv", table("A,10,0,1,1", "B,-10,180,1,1"))

    assert refused([path], folder)


def test_distances_agree_with_known_ones() -> None:
    """A quarter of a meridian is 10,002 km on the ellipsoid; the sphere is half a per cent off."""
    assert 10_002 == pytest.approx(apart_km((0, 0), (90, 0)), rel=0.005)
    assert 20_004 == pytest.approx(apart_km((0, 0), (0, 180)), rel=0.005)
    assert 0 == apart_km((-38.01, 175.06), (-38.01, 175.06))


def test_a_bare_figure_in_a_column_with_a_unit_is_a_fault(tmp_path: Path) -> None:
    """35 under box_mass [kg] might have been pounds."""
    yards = "name,lat,lon,colonies,boxes,box_mass [kg]\nMill Lane,-38.01,175.06,24,41,16\n"
    folder = into(tmp_path, yards)
    bare = table("P,-38.05,175.1,35", head="name,lat,lon,box_mass")
    fault = only(refused([file(tmp_path, "c.csv", bare)], folder))

    assert ("box_mass", "35") == (fault.field, fault.said)
    assert "is in kg" in fault.cure
    whole = table("P,-38.05,175.1,35 lb", head="name,lat,lon,box_mass")
    assert gathered([file(tmp_path, "c.csv", whole)], folder)[1][-1].endswith(",35 lb")


# ------------------------------------------------------------ the scenario's own faults


def test_no_scenario_is_a_fault_beside_the_others(tmp_path: Path) -> None:
    """No folder, and a file at fault: both are said."""
    found = refused([tmp_path / "nope.gpx"], tmp_path / "bees")

    assert ["no such folder", "No such file or directory"] == [fault.said for fault in found]
    assert not (tmp_path / "bees").exists()


def test_a_folder_without_outfit_is_a_fault(tmp_path: Path) -> None:
    """Start with `new`, which writes yards.csv as well."""
    (tmp_path / "bees").mkdir()
    path = file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "Pump")))

    assert "runplanner new" in only(refused([path], tmp_path / "bees")).cure


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        (b'name,lat,lon\n"open', "rows of columns"),
        (b"\xff\xfe", "text in UTF-8"),
        (b"name,name\nA,B\n", "once"),
        (b"name\nA,B\n", "1 column"),
    ],
)
def test_a_table_at_fault_is_left_as_it_is(tmp_path: Path, spoil: bytes, words: str) -> None:
    """A yards.csv that cannot be read is not written over."""
    path = file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "Pump")))

    assert words in only(refused([path], into(tmp_path, spoil))).allowed


def test_a_workbook_of_yards_is_not_written_to(tmp_path: Path) -> None:
    """yards.xlsx may hold what we cannot keep: save it as CSV first."""
    folder = into(tmp_path)
    (folder / "yards.csv").rename(folder / "yards.xlsx")
    path = file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "Pump")))

    assert "Save it as yards.csv" in only(refused([path], folder)).cure


def test_two_tables_or_a_broken_outfit_are_faults(tmp_path: Path) -> None:
    """yards.csv beside yards.xlsx; an outfit.toml that is no TOML."""
    folder = into(tmp_path)
    (folder / "yards.xlsx").write_bytes(b"x")
    path = file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "Pump")))
    assert "yards.xlsx too" == only(refused([path], folder)).said

    (folder / "yards.xlsx").unlink()
    (folder / "outfit.toml").write_text("title = ", encoding="utf-8")
    assert "outfit.toml" == only(refused([path], folder)).file


def test_too_many_yards_are_a_fault(tmp_path: Path) -> None:
    """A scenario holds 300; gathered and standing ones count together."""
    rows = [f"Y{i},{-38 - i / 100:.2f},175.06,1,1" for i in range(299)]
    path = file(tmp_path, "c.csv", table(*rows))

    assert ("yards.csv", "301 yards") == (
        (fault := only(refused([path], into(tmp_path), far_km=0, near_m=0))).file, fault.said,
    )  # fmt: skip


def test_a_table_that_stands_too_large_is_a_fault(tmp_path: Path) -> None:
    """Also when nothing new was found."""
    rows = [f"Y{i},{-38 - i / 100:.2f},175.06,1,1" for i in range(301)]
    path = file(tmp_path, "a.gpx", gpx())
    found = refused([path], into(tmp_path, table(*rows)))

    assert ["no place", "301 yards"] == [fault.said for fault in found]


def test_a_file_that_cannot_be_written_is_a_fault(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk is full: the old table stands, no spare file is left."""

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    folder = into(tmp_path)
    path = file(tmp_path, "a.gpx", gpx(wpt("-38.05", "175.1", "Pump")))
    monkeypatch.setattr(os, "replace", full)

    assert "No space left on device" == only(refused([path], folder)).said
    assert HERE == (folder / "yards.csv").read_text(encoding="utf-8")


def test_a_sheet_answers_for_cells_that_are_not_there(tmp_path: Path) -> None:
    """Short rows and missing columns are empty; a missing file is an empty table."""
    sheet = read_sheet(file(tmp_path, "yards.csv", "name,lat\nA\n"), FaultBook())

    assert ("A", "", "", "") == (
        sheet.cell(0, "name"), sheet.cell(0, "lat"), sheet.cell(0, "phone"), sheet.unit("phone"),
    )  # fmt: skip
    assert "name,lat,lon,colonies,boxes\n" == new_sheet("yards.csv").text()
