import io
from datetime import date, time
from pathlib import Path

import openpyxl
import pytest

from runplanner.outfit.safety import plain
from runplanner.outfit.yards import Access, Clearing, Health
from runplanner.scenario import read_scenario
from runplanner.scenario.forecast.part import Heard
from runplanner.scenario.yards.yard_stores import COLUMNS as OTHER_WAYS
from runplanner.scenario.yards.yards_file import COLUMNS
from tests.scenario.folders import YARDS, a_folder, faults, faults_of, only, read, row
from tests.scenario.skies import table as sky

FULL = {
    "name": "Mill Lane", "lat": "-38.01", "lon": "175.06", "colonies": "24", "boxes": "41",
    "id": "mill", "district": "hills", "box": "langstroth deep", "box_mass": "33 kg",
    "box_spread": "12 %", "brood_boxes_off": "24", "clearing": "Boards", "stores": "3.2 kg",
    "target": "18 kg", "feeder": "8 L", "ready_from": "2027-03-02", "finish_by": "2027-03-08",
    "spin_by": "48 h", "spin_by_hard": "yes", "health": "standstill", "feed_agreed": "yes",
    "opens": "07:00", "closes": "19:30", "max_vehicle": "7.5 t", "max_width": "2.4 m",
    "four_wheel": "yes", "trailer": "no", "notes": "Key, dog", "phone": "ring first",
    "last_stretch": "3 min", "wet_boxes": "returned", "licence": "NZ-17",
    "strips": "Amitraz", "clearing_else": "Blower", "boards_on": "2027-02-28 17:00",
}  # fmt: skip


def table(**cells: str) -> str:
    """A table of one row with these cells."""
    quoted = ('"' + value.replace('"', '""') + '"' for value in cells.values())
    return ",".join(cells) + "\n" + ",".join(quoted) + "\n"


def test_row_with_everything(tmp_path: Path) -> None:
    """Every column of a yard can be given."""
    yard = plain(read(tmp_path, "[kit]\nboards = 30\n", yards=table(**FULL))).yards[0]

    assert set(COLUMNS) == {*FULL, "boxes_per_colony", "fill", "frames", *OTHER_WAYS}
    assert ("mill", "hills", "langstroth-deep", 33_000, 120, 24) == (
        yard.id,
        yard.district,
        yard.box,
        yard.box_g,
        yard.box_spread_permille,
        yard.brood_boxes_off,
    )
    assert (Clearing.BOARDS, 3_200, 18_000, 8_000) == (
        yard.clearing,
        yard.stores_g,
        yard.target_g,
        yard.feeder_ml,
    )
    assert (Clearing.BLOWER, -420) == (yard.clearing_else, yard.boards_on_min)
    assert (1, 7, 2880, True) == (
        yard.ready_from_day,
        yard.finish_by_day,
        yard.spin_by_min,
        yard.spin_by_hard,
    )
    assert (Health.WATCH, True) == (yard.health, yard.feed_agreed)
    assert "NZ-17" == yard.licence
    access = Access(420, 1170, 7_500_000, 2400, True, False, "Key, dog", "ring first")
    assert access == yard.access


def test_units_in_the_header(tmp_path: Path) -> None:
    """A header may carry the unit for bare numbers below it."""
    yards = "name,lat,lon,colonies,boxes,Box-Mass [kg],feeder (L)\nA,-38.0,175.1,5,8,16.5,9\n"
    yard = plain(read(tmp_path, yards=yards)).yards[0]

    assert (16_500, 9_000) == (yard.box_g, yard.feeder_ml)


def test_semicolons_bom_and_comments(tmp_path: Path) -> None:
    """A table saved by a spreadsheet elsewhere: byte order mark, semicolons, CRLF, comments."""
    text = "\ufeff# our yards;;;;\r\n" + YARDS.replace(",", ";").replace("\n", "\r\n")
    outfit = read(tmp_path, yards=text.encode())

    assert ["Mill Lane", "Gate"] == [yard.name for yard in outfit.yards]


def test_counts_may_carry_their_word(tmp_path: Path) -> None:
    """Of colonies and of boxes, in the cell or in the header; no other word."""
    yards = "name,lat,lon,colonies,boxes [supers]\nA,-38.01,175.06,24 hives,41\n"
    more = yards + "B,-38.02,175.07,1 Colony,1 box\n"
    (tmp_path / "other").mkdir()
    read_in = read(tmp_path, yards=more).yards
    found = faults(tmp_path / "other", yards=yards.replace("24 hives", "24 boxes"))

    assert [(24, 41), (1, 1)] == [(yard.colonies, yard.boxes) for yard in read_in]
    assert ("colonies", "24 boxes") == (only(found).field, only(found).said)


def test_boxes_per_colony(tmp_path: Path) -> None:
    """Boxes may be given for each colony; the yard's total is rounded up once."""
    # 24 x 1.7 = 40.8
    yards = "name,lat,lon,colonies,boxes_per_colony\nA,-38.0,175.1,24,1.7\n"

    assert 41 == read(tmp_path, yards=yards).yards[0].boxes


def test_general_facts_and_rows(tmp_path: Path) -> None:
    """[yards] holds for every yard whose row says nothing else."""
    yards = "name,lat,lon,colonies,boxes,target\nA,-38.0,175.1,5,8,\nB,-38.1,175.1,5,8,20 kg\n"
    outfit = read(tmp_path, '[yards]\ntarget = "12 kg"\nclearing = "blower"\n', yards=yards)

    assert [12_000, 20_000] == [yard.target_g for yard in outfit.yards]
    assert {Clearing.BLOWER} == {yard.clearing for yard in outfit.yards}


def test_slip_in_general_facts_is_said_once(tmp_path: Path) -> None:
    """A slip in [yards] counts once, however many yards there are, and names its line."""
    found = only(faults(tmp_path, '[yards]\ntarget = "12"\nlat = 3\n'.replace("lat = 3\n", "")))

    assert ("outfit.toml", "line 16, yards", "target") == (found.file, found.where, found.field)


def test_what_is_told_of_each_yard_by_itself_is_no_general_fact(tmp_path: Path) -> None:
    """A latitude for all yards is a misunderstanding, boards under all of them a slip.

    They are known by name: a new column may stand anywhere among the others.
    """
    own = {"name", "lat", "lon", "colonies", "boxes", "boxes_per_colony", "id", "boards_on"}
    found = faults(tmp_path, "[yards]\n" + "".join(f"{column} = [1]\n" for column in COLUMNS))

    assert own == {one.field for one in found if one.said == one.field}


def test_xlsx(tmp_path: Path) -> None:
    """A workbook's numbers, dates, times, booleans and formulas are read as typed."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["name", "lat", "lon", "colonies", "boxes", "ready_from", "opens", "four_wheel"])
    sheet.append(["NA", -38.01, 175.06, 24, 41.0, date(2027, 3, 2), time(7, 30), True])
    sheet.append(["=HYPERLINK(1)", -38.02, 175.0, 10, 12, None, None, None])
    sheet["A3"].data_type = "s"
    buffer = io.BytesIO()
    book.save(buffer)
    folder = a_folder(tmp_path)
    (folder / "yards.csv").unlink()
    (folder / "yards.xlsx").write_bytes(buffer.getvalue())

    first, second = read_scenario(folder).yards
    assert ("NA", 24, 41, 1) == (first.name, first.colonies, first.boxes, first.ready_from_day)
    assert (450, True) == (first.access.opens_min, first.access.four_wheel)
    assert "=HYPERLINK(1)" == second.name


@pytest.mark.parametrize("raw", [b"", b"not a workbook", b"PK\x03\x04broken"])
def test_damaged_xlsx(tmp_path: Path, raw: bytes) -> None:
    """A damaged workbook is a plain fault."""
    folder = a_folder(tmp_path)
    (folder / "yards.csv").unlink()
    (folder / "yards.xlsx").write_bytes(raw)

    assert "no workbook" == only(faults_of(folder)).said


@pytest.mark.parametrize(
    ("cells", "field", "cure"),
    [
        ({"colonies": "0"}, "colonies", "Check the number"),
        ({"colonies": ""}, "colonies", "no default"),
        ({"colonies": "24.5"}, "colonies", "without a fraction"),
        ({"colonies": "nan"}, "colonies", "Write digits"),
        ({"boxes": "-1"}, "boxes", "Check the number"),
        ({"boxes": "999"}, "boxes", "boxes is the yard's total"),
        ({"boxes_per_colony": "2"}, "boxes_per_colony", "Leave one empty"),
        ({"lat": "0", "lon": "0"}, "lat", "0, 0 lies in the sea"),
        ({"lat": "175.06", "lon": "-38.01"}, "lat", "lat and lon swapped"),
        ({"lat": "38.01"}, "lat", "lat lacks its minus sign"),
        ({"lat": "-38.01", "lon": "-175.06"}, "lat", "lon lacks its minus sign"),
        ({"lat": "10", "lon": "20"}, "lat", "Check lat and lon here and of the base"),
        ({"lat": "-38,01"}, "lat", "write -38.01"),
        ({"lon": "181"}, "lon", "Write -179."),
        ({"id": "../x"}, "id", "mill-lane"),
        ({"box": "wbc"}, "box", "Or describe it in [[boxes]]"),
        ({"box_mass": "16"}, "box_mass", "unit is missing"),
        ({"box_mass": "4 kg"}, "box_mass", "full box with its honey"),
        ({"clearing": "bords"}, "clearing", "Did you mean 'boards'?"),
        ({"health": "ill"}, "health", "Known here: sound"),
        ({"opens": "20:00", "closes": "08:00"}, "closes", "in order"),
        ({"ready_from": "2027-03-09", "finish_by": "2027-03-08"}, "finish_by", "in order"),
        ({"ready_from": "2026-03-09"}, "ready_from", "Check the date"),
        ({"name": ""}, "name", "no default"),
        ({"name": "x" * 10_000}, "name", "it has 10000 characters"),
        ({"name": "two\nlines"}, "name", "Take out line breaks"),
        ({"notes": "x" * 501}, "notes", "Shorten it"),
        ({"stores": "-1 kg"}, "stores", "cannot be negative"),
        ({"target": "900 kg"}, "target", "Check number and unit"),
        ({"trailer": "perhaps"}, "trailer", "Write yes or no"),
        ({"hives": "3"}, "hives", "It means 'colonies', which is there as well: keep one."),
        ({"feder": "3 L"}, "feder", "Did you mean 'feeder'?"),
    ],
)
def test_one_slip_one_fault(tmp_path: Path, cells: dict[str, str], field: str, cure: str) -> None:
    """A single slip in a row is named by row, yard and column, with a cure."""
    plain = {key: FULL[key] for key in ("name", "lat", "lon", "colonies", "boxes")}
    found = only(faults(tmp_path, yards=table(**{**plain, **cells})))

    assert field == found.field
    assert cure in found.cure
    assert found.where.startswith(("row 2", "header"))
    assert len(found.sentence()) < 400


@pytest.mark.parametrize(
    ("yards", "cure"),
    [
        (row() + "mill  LANE,-38.02,175.06,3,4\n", "Row 2 has it already"),
        ("id," + row().replace("Mill", "a,Mill") + "a,Gate,-38.02,175.06,3,4\n", "Row 2 has it"),
        ("name,lat,lon,colonies,boxes\n", "One row for each yard"),
        ("name,lat,lon,colonies\nA,-38,175,3\n", "Add it: the columns needed are name, lat"),
        ("name,lat,lon,colonies,boxes,boxes\nA,-38,175,3,4,4\n", "Rename or delete one"),
        ("name,lat,lon,colonies,boxes,\nA,-38,175,3,4,5\n", "Give it a name or delete it"),
        (row() + "A,-38,175,3,4,5\n", "double quotes"),
        (row('"Mill'), "stray quotation mark"),
        ("", "Fill it in"),
        ("\n\n", "Fill it in"),
        ("# only a comment\n", "Fill it in"),
        ("\x00\x01\x02", "UTF-8"),
    ],
)
def test_tables_at_fault(tmp_path: Path, yards: str, cure: str) -> None:
    """Doubles, missing columns, ragged rows and empty files each give one clear fault."""
    assert cure in only(faults(tmp_path, yards=yards)).cure


NAMES_YARDS = """\
[[moves]]
yard = "Gate"
day = 2027-03-05
lat = -38.1
lon = 175.2
[[forecasts]]
file = "sky.csv"
area = "Hills"
[[forecasts]]
file = "sky2.csv"
[travel]
timed = "timed.csv"
"""
HILLS = """\
name,lat,lon,colonies,boxes,district
Mill Lane,-38.01,175.06,24,41,Hills
Gate,-38.12,175.20,12,20,Hills
"""


@pytest.mark.parametrize(
    "yards",
    [
        f"Yards 2027\n{HILLS}",
        f"Yards 2027, Lower valley\n{HILLS}",
        "Yards 2027, Lower valley\n" + HILLS.replace(",", ";"),
        HILLS.replace("name", "nmae"),
        HILLS.replace("name", "who"),
        HILLS.replace("district", "distrikt"),
        HILLS.replace("Gate", "#N/A"),
    ],
    ids=["title", "with comma", "semicolons", "name", "no name", "district", "cell"],
)
def test_a_slip_that_hides_names_is_not_told_where_they_are_named(
    tmp_path: Path, yards: str
) -> None:
    """Moves, weather, forecasts, legs and timed drives: one cause is one fault."""
    folder = a_folder(
        tmp_path,
        NAMES_YARDS,
        yards=yards,
        weather="area,what,state,from_day,to_day\n"
        "Gate,open,shut,2027-03-02,2027-03-02\nHills,feed,fit,2027-03-03,2027-03-03\n",
        travel="from,to,minutes,km\nhome,Gate,30,20\nGate,Mill Lane,20,18\n",
    )
    (folder / "timed.csv").write_text("from,to,minutes\nhome,Gate,30\nGate,Mill Lane,20\n")
    (folder / "sky.csv").write_text(sky(2), "utf-8")
    (folder / "sky2.csv").write_text(sky(2, "Gate"), "utf-8")
    found = faults_of(folder)

    assert {"yards.csv"} == {one.file for one in found}
    assert 1 == len({one.where for one in found})


def test_a_title_above_weather_is_one_fault_where_boards_want_warm_days(tmp_path: Path) -> None:
    """Whether temperatures are typed nobody can tell; with none typed the yard is told."""
    yards = HILLS.replace("district", "clearing").replace("Hills", "warm board")
    weather = "area,what,state,from_day,to_day\nGate,open,shut,2027-03-02,2027-03-02\n"
    (tmp_path / "other").mkdir()
    titled = faults(tmp_path, yards=yards, weather=f"Spring, north\n{weather}")
    plain_ones = faults(tmp_path / "other", yards=yards, weather=weather)

    assert ("weather.csv", "row 1") == (only(titled).file, only(titled).where)
    assert ["clearing", "clearing"] == [one.field for one in plain_ones]


@pytest.mark.parametrize("encoding", ["latin-1", "utf-16", "cp1250"])
def test_wrong_encoding(tmp_path: Path, encoding: str) -> None:
    """A table in another encoding is refused with the line and a cure."""
    found = only(faults(tmp_path, yards=row("Kühe").encode(encoding)))

    assert "text in UTF-8" == found.allowed
    assert "CSV UTF-8" in found.cure


@pytest.mark.parametrize(
    "name",
    [
        "None", "NA", "nan", "null", "#3", "O'Brien", "{{7*7}}", "{% x %}",
        "<img onerror=alert(1)>",
        '=HYPERLINK("x")', "+1", "@x", "חצר", "${x}", "a\\b", "養蜂場", "&amp;", "--",
    ],
)  # fmt: skip
def test_hostile_names_are_kept(tmp_path: Path, name: str) -> None:
    """Whatever a yard is called, it stays called so and gets a key safe in file names."""
    plain = {key: FULL[key] for key in ("name", "lat", "lon", "colonies", "boxes")}
    yard = read(tmp_path, yards=table(**{**plain, "name": name})).yards[0]

    assert name == yard.name
    assert yard.id.replace("-", "").isalnum()
    assert yard.id.isascii()


def test_yard_on_the_base(tmp_path: Path) -> None:
    """Hives at home are no slip: the drive to them takes no time."""
    outfit = read(tmp_path, yards=row("Home yard", "-38.05", "175.11"))

    assert 1 == outfit.yards[0].sites[0][1]
    assert (0, 0) == (outfit.travel.minutes[0][1], outfit.travel.metres[0][1])


def test_across_the_date_line(tmp_path: Path) -> None:
    """A yard on the other side of 180 degrees is near."""
    base = "[base]\nlat = -16.8\nlon = 179.95\n"
    outfit = read(tmp_path, base=base, yards=row("East", "-16.8", "-179.95"))

    # 0.1 degrees at 16.8 south: 111,320 x cos 16.8 x 0.1 = 10,657 m; x 1.3 = 13,854 m
    metres = outfit.travel.metres[0][1]
    assert metres is not None
    assert 13_800 < metres < 13_900


def test_ids_are_stable_and_unique(tmp_path: Path) -> None:
    """Typed ids come first; names that look alike get a number."""
    yards = (
        "name,id,lat,lon,colonies,boxes\nGate!,,-38.0,175.0,3,4\nGate?,,-38.1,175.0,3,4\n"
        "Third,gate,-38.2,175.0,3,4\n"
    )
    outfit = read(tmp_path, yards=yards)

    assert ["gate-2", "gate-3", "gate"] == [yard.id for yard in outfit.yards]


def test_no_boxes_is_allowed(tmp_path: Path) -> None:
    """A yard without honey still wants feed and strips."""
    assert 0 == read(tmp_path, yards=row(rest="24,0")).yards[0].boxes


def test_a_comma_too_many_hides_no_other_fault(tmp_path: Path) -> None:
    """A row of six cells is told with its count, and its colonies and boxes are read as well."""
    found = faults(tmp_path, yards=YARDS + "Ford,-38.02,175.07,none,1.5,9\n")

    assert [("row 4", "", "6 cells"), ("row 4, Ford", "colonies", "none")] == [
        (fault.where, fault.field, fault.said) for fault in found[:2]
    ]
    assert "boxes" == found[2].field
    assert "may come from that" in found[0].cure


def test_columns_may_go_by_the_words_that_gather_takes(tmp_path: Path) -> None:
    """As in a sheet that people have; a column by its own name comes before one that means it."""
    yards = "Apiary,Latitude,Long,Hives,Supers\nMill Lane,-38.01,175.06,24,41\n"
    (yard,) = read(tmp_path, yards=yards).yards

    assert ("Mill Lane", 24, 41) == (yard.name, yard.colonies, yard.boxes)
    (tmp_path / "both").mkdir()
    found = faults(tmp_path / "both", yards=yards.replace("Apiary", "Name").replace("Long", "Yard"))
    assert [
        ("yard", "It means 'name', which is there as well: keep one."),
        ("lon", "Add it: the columns needed are name, lat, lon, colonies, boxes."),
    ] == [(fault.field, fault.cure) for fault in found]


def test_a_column_nearly_called_so_is_one_fault(tmp_path: Path) -> None:
    """What its header suggests is not called missing as well; what nobody typed is."""
    yards = "nam,latitud,lon,colony\nMill Lane,-38.01,175.06,24\n"

    assert [
        ("nam", "Did you mean 'name'?"),
        ("latitud", "Did you mean 'lat'?"),
        ("colony", "Did you mean 'colonies'?"),
        ("boxes", "Add it: the columns needed are name, lat, lon, colonies, boxes."),
    ] == [(fault.field, fault.cure) for fault in faults(tmp_path, yards=yards)]


@pytest.mark.parametrize(
    ("base", "cure"),
    [
        (
            "lat = 75.11\nlon = -38.05",
            "It looks as if lat and lon are swapped. Then lat is -38.05 and lon 75.11.",
        ),
        (
            "lat = 38.05\nlon = 75.11",
            (
                "It looks as if lat lacks its minus sign, or has one too many. "
                "Then lat is -38.05 and lon 75.11."
            ),
        ),
        ("lat = 5.5\nlon = 5.5", "Check lat and lon here and of the yards."),
    ],
)
def test_a_slip_of_the_base_is_told_at_the_base(tmp_path: Path, base: str, cure: str) -> None:
    """Two yards lie together and far from the base: one fault, at the base, none at the yards."""
    yards = "name,lat,lon,colonies,boxes\nA,-38.01,75.06,24,41\nB,-38.12,75.20,12,20\n"
    fault = only(faults(tmp_path, base=f"[base]\n{base}\n", yards=yards))

    assert ("outfit.toml", "lat", "within 600 km of the yards") == (
        fault.file, fault.field, fault.allowed,
    )  # fmt: skip
    assert "km from the yards" in fault.said
    assert cure == fault.cure


def test_a_store_far_from_the_rest_is_told_at_the_store(tmp_path: Path) -> None:
    """Home is swapped and so is the feed store: each is told once, at its own place."""
    yards = "name,lat,lon,colonies,boxes\nA,-38.01,75.06,24,41\nB,-38.12,75.20,12,20\n"
    base = (
        "[home]\nlat = 75.11\nlon = -38.05\n[feed_store]\nlat = 38.05\nlon = 75.1\n"
        "[honey_house]\nlat = -38.0\nlon = 75.0\n"
    )
    found = faults(tmp_path, base=base, yards=yards)

    assert ["line 7, home", "line 10, feed_store"] == [fault.where for fault in found]


def test_yards_that_do_not_lie_together_are_told_one_by_one(tmp_path: Path) -> None:
    """Two yards far from the base and from each other do not outvote it."""
    yards = "name,lat,lon,colonies,boxes\nA,-8.01,175.06,24,41\nB,38.12,75.20,12,20\n"

    assert ["row 2, A", "row 3, B"] == [fault.where for fault in faults(tmp_path, yards=yards)]


def test_a_cell_that_could_not_be_worked_out_is_one_fault(tmp_path: Path) -> None:
    """#N/A in a column that is needed is not called missing as well, nor no whole number."""
    fault = only(faults(tmp_path, yards=row(rest="#N/A,41")))

    assert ("row 2", "colonies", "#N/A") == (fault.where, fault.field, fault.said)


@pytest.mark.parametrize(
    ("counts", "told"),
    [
        (("24,2", "30,2"), "4 boxes for 54 colonies in all"),
        (("24,2", "30,0"), "2 boxes for 24 colonies in all"),  # nothing there tells nothing
        (("24,7", "60,2"), ""),  # seven are more than a hive carries
        (("24,6", "12,6"), ""),  # 12 x 3 = 36: a poor year
        (("24,6", "13,6"), "12 boxes for 37 colonies in all"),
        (("24,0", "30,0"), ""),
    ],
)
def test_boxes_of_each_hive_in_place_of_the_yards(
    tmp_path: Path, counts: tuple[str, str], told: str
) -> None:
    """Far fewer boxes than colonies, as few as one hive carries, are asked about by check."""
    rows = f"A,-38.01,175.06,{counts[0]}\nB,-38.12,175.20,{counts[1]}\n"
    heard = Heard()
    read_scenario(a_folder(tmp_path, yards=f"name,lat,lon,colonies,boxes\n{rows}"), heard)

    assert bool(told) == len(heard.doubts)
    assert all(words.startswith(f"yards.csv: {told}: is that per colony?")
               for words in heard.doubts)  # fmt: skip


@pytest.mark.parametrize(
    ("few", "told"),
    [
        (("24,2", "20,1", "20,2"), "5 boxes for 64 colonies in all at Y0, Y1, Y2: is that per"),
        (("24,2", "20,1"), ""),
        (("24,2", "20,1", "20,7"), ""),  # 7 x 3 = 21, as many as colonies: a poor year
    ],
)
def test_boxes_of_each_hive_beside_yards_with_their_own(
    tmp_path: Path, few: tuple[str, ...], told: str
) -> None:
    """Three yards so poor among others are asked about by name; one or two may be so."""
    counts = (*few, "24,41", "30,62")
    rows = "".join(f"Y{i},-38.{i}1,175.06,{count}\n" for i, count in enumerate(counts))
    heard = Heard()
    read_scenario(a_folder(tmp_path, yards=f"name,lat,lon,colonies,boxes\n{rows}"), heard)

    assert bool(told) == len(heard.doubts)
    assert all(words.startswith(f"yards.csv: {told}") for words in heard.doubts)


def test_few_boxes_per_colony_are_what_was_typed(tmp_path: Path) -> None:
    """A tenth of a box for each of 24 colonies: three boxes, and nothing to ask."""
    rows = "A,-38.01,175.06,24,0.1\nB,-38.12,175.20,12,0.1\n"
    heard = Heard()
    read_scenario(
        a_folder(tmp_path, yards=f"name,lat,lon,colonies,boxes_per_colony\n{rows}"), heard
    )

    assert not heard.doubts
