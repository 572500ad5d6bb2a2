from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.errors import ScenarioError
from runplanner.outfit.outfit import Deadline
from runplanner.outfit.stores import Counted
from runplanner.outfit.yards import Clearing, Health
from runplanner.phrase import phrase
from runplanner.scenario import read_scenario
from runplanner.scenario.parts.stores_part import OPEN_END
from tests.scenario.folders import (
    BASE,
    HEAD,
    SEASON,
    TRUCK,
    a_folder,
    faults,
    faults_of,
    only,
    read,
)

RAIN = "area,what,state,from_day,to_day\nall,open,shut,2027-03-02,2027-03-02\n"


def test_first_plan_needs_only_the_notebook(tmp_path: Path) -> None:
    """Five columns a yard, base, truck, people and dates are enough; the rest is defaulted."""
    outfit = read(tmp_path)

    assert ["mill-lane", "gate"] == [yard.id for yard in outfit.yards]
    assert (24, 41) == (outfit.yards[0].colonies, outfit.yards[0].boxes)
    assert 10 == outfit.season.n_days
    assert "Pacific/Auckland" == outfit.season.zone
    assert Deadline(9, hard=True) == outfit.season.strips_by
    assert (2_100_000, 3_500_000) == (outfit.trucks[0].empty_g, outfit.trucks[0].max_g)
    assert ("person-1", "person-2") == tuple(person.id for person in outfit.people)
    assert outfit.trucks[0].drivers == ("person-1", "person-2")
    assert Clearing.BRUSH is outfit.yards[0].clearing
    assert Health.SOUND is outfit.yards[0].health
    assert 11 == len(outfit.yards[0].sun_spans)


def test_every_default_has_value_and_source(tmp_path: Path) -> None:
    """Each default used is told with its value, and its source names a class of evidence."""
    outfit = read(tmp_path)

    assert len(outfit.assumed) > 60
    for assumed in outfit.assumed:
        assert assumed.value
        assert any(f"[{grade}" in assumed.source for grade in "ABCDM"), assumed
    by_field = {assumed.field: assumed for assumed in outfit.assumed}
    assert "fair from sunrise to sunset" in by_field[phrase("weather")].value
    assert "2 times" in by_field[phrase("yards.feeder")].value
    assert "Curth" in by_field[phrase("feed.stores_per_kg_sugar")].source


def test_typed_facts_are_not_assumed(tmp_path: Path) -> None:
    """What was typed is no default any more."""
    extra = '[kit]\nblocks = 100\nboard = "1.6 kg"\n[yards]\nfeeder = "12 L"\n'
    outfit = read(tmp_path, extra)

    fields = {assumed.field for assumed in outfit.assumed}
    assert not {"kit.blocks", "kit.board", "yards.feeder"} & fields
    assert (100, 1_600, 12_000) == (
        outfit.kit.blocks_owned,
        outfit.kit.board_g,
        outfit.yards[1].feeder_ml,
    )


@pytest.mark.parametrize(("grams", "each"), [(2_000, 1 + 3), (500, 1 + 12), (10, 1 + 12)])
def test_where_no_blocks_are_typed_there_are_all_that_colonies_can_take(
    tmp_path: Path, grams: int, each: int
) -> None:
    """One at the take-off, and 500 g a day for ten days and two beyond, at most a block a day."""
    outfit = read(tmp_path, f'[kit]\nblock = "{grams} g"\n')

    assert outfit.open_end("blocks")
    assert 36 * each == outfit.kit.blocks_owned


def test_same_files_same_outfit(tmp_path: Path) -> None:
    """Reading twice gives the same outfit, to the last digit."""
    folder = a_folder(tmp_path)

    assert read_scenario(folder) == read_scenario(folder)


def test_every_fault_at_once(tmp_path: Path) -> None:
    """Faults of all files and kinds come together, each with place, field and cure."""
    found = faults(
        tmp_path,
        '[feed]\nrecipe = "2 lb : 1 pint"\nspeed = 3\n[kit]\nboard = "1,5 kg"\n',
        yards="name,lat,lon,colonies,boxes\nA,-38.0,175.0,0,41\nA,-38.0,175.0,5,4x\n",
        weather="area,what,state,from_day,to_day\nB,open,fit,2027-03-01,2027-03-02\n",
        travel="from,to,minutes,km\nhome,A,12,\n",
        truck=TRUCK.replace('"2.1 t"', '"2,1 t"').replace('"3.5 t"', "3.5"),
        head=HEAD.replace("people = 2", "people = 0"),
    )

    spots = {(fault.file, fault.field) for fault in found}
    assert {
        ("outfit.toml", "people"),
        ("outfit.toml", "empty"),
        ("outfit.toml", "max"),
        ("outfit.toml", "recipe"),
        ("outfit.toml", "speed"),
        ("outfit.toml", "board"),
        ("yards.csv", "colonies"),
        ("yards.csv", "boxes"),
        ("yards.csv", "name"),
        ("weather.csv", "area"),
        ("travel.csv", "km"),
    } == spots
    by_field = {fault.field: fault for fault in found}
    assert by_field["empty"].where == "line 11, trucks 1 (Blue)"
    assert "write '2.1 t'" in by_field["empty"].cure
    assert "row 2, A" == by_field["colonies"].where
    assert "a whole number from 1 to 2000" == by_field["colonies"].allowed
    assert "0" == by_field["colonies"].said
    assert "UK pint or US pint" in by_field["recipe"].cure
    assert "Row 2 has it already" in by_field["name"].cure


def test_faults_read_as_sentences(tmp_path: Path) -> None:
    """The error's text counts the faults and says each in a line."""
    folder = a_folder(tmp_path, season=SEASON.replace("2027-03-10", "2027-02-10"))
    with pytest.raises(ScenarioError) as caught:
        read_scenario(folder)

    text = str(caught.value)
    assert text.startswith("1 fault found; nothing was written.")
    assert "outfit.toml, line 5, season, last_day: said '2027-02-10'" in text


def test_unknown_keys_get_a_suggestion(tmp_path: Path) -> None:
    """A misspelled key or table is a fault, never silently ignored."""
    found = faults(tmp_path, "[prices]\nhuor = 30\n[honeyhouse]\nroom = 3\n")

    cures = {fault.field: fault.cure for fault in found}
    assert {"huor": "Did you mean 'hour'?", "honeyhouse": "Did you mean 'honey_house'?"} == cures


def test_a_key_that_is_refused_is_no_known_one(tmp_path: Path) -> None:
    """A truck's keys below [base], its header lost: they are not named there one for another."""
    keys = 'empty = "2.1 t"\nmax = "3.5 t"\ndeck_length = "3.1 m"\ndeck_width = "2.1 m"\n'
    told = [fault for fault in faults(tmp_path, base=BASE + keys) if fault.where.endswith("base")]

    assert ["empty", "max", "deck_length", "deck_width"] == [fault.field for fault in told]
    assert told[3].cure.startswith("Known here: boxes_per_hour, closes, honey_water, ")
    assert 1 == len({fault.cure for fault in told})


def test_every_missing_needed_fact_is_named(tmp_path: Path) -> None:
    """An outfit.toml with nothing in it is told all that a first plan needs."""
    found = faults(tmp_path, head="# nothing yet\n", season="", base="", truck="")

    fields = [fault.field for fault in found]
    assert ["first_day", "last_day", "lat", "lon", "people", "trucks"] == sorted(
        fields, key=["first_day", "last_day", "lat", "lon", "people", "trucks"].index
    )


def test_no_folder(tmp_path: Path) -> None:
    """A folder that is not there, or is a file, is one plain fault."""
    assert "no such folder" == only(faults_of(tmp_path / "nowhere")).said
    (tmp_path / "file").write_text("x")
    assert "a file" == only(faults_of(tmp_path / "file")).said


def test_missing_files(tmp_path: Path) -> None:
    """A missing outfit.toml or yards table is a fault that names the near miss."""
    folder = a_folder(tmp_path)
    (folder / "yards.csv").rename(folder / "yard.csv")

    fault = only(faults_of(folder))
    assert ("yard.csv", "not read") == (fault.file, fault.said)
    (folder / "yard.csv").unlink()
    fault = only(faults_of(folder))
    assert ("yards.csv", "missing") == (fault.file, fault.said)
    (folder / "outfit.toml").rename(folder / "outfits.toml")
    assert "Rename 'outfits.toml'." == only(faults_of(folder)).cure


def test_named_missing_file(tmp_path: Path) -> None:
    """A file that outfit.toml names must be there."""
    found = faults(
        tmp_path, '[files]\nweather = "rain.csv"\ntravel = "../x.csv"\nyards = "y.xls"\n'
    )

    cures = {fault.field: fault.cure for fault in found}
    assert "It is not there" in cures["weather"]
    assert "bare name" in cures["travel"]
    assert ".xlsx or as CSV" in cures["yards"]


def test_files_by_another_name(tmp_path: Path) -> None:
    """[files] names the table to read."""
    folder = a_folder(tmp_path, '[files]\nyards = "autumn.csv"\n')
    (folder / "yards.csv").rename(folder / "autumn.csv")

    assert 2 == len(read_scenario(folder).yards)


def test_two_tables_for_one(tmp_path: Path) -> None:
    """yards.csv beside yards.xlsx leaves open which one counts."""
    folder = a_folder(tmp_path)
    (folder / "yards.xlsx").write_bytes(b"")

    assert "yards.xlsx too" == faults_of(folder)[0].said


@pytest.mark.parametrize(
    "stray",
    ["wether.csv", "Weather.CSV", "weather.txt", "weather.csv.txt",
     "weather (1).csv", "travel.csv.txt", "yards.csv.txt", "Yards (2).xlsx.txt", "Forecast.csv",
     "forecast (1).csv", "forecast.csv.txt", "forecast.xlsx", "forecasts.json", "forcast.csv",
     "FORECAST.JSON", "forecast (1) (1).json"],
)  # fmt: skip
def test_files_that_were_meant_to_be_read(tmp_path: Path, stray: str) -> None:
    """A table under a slightly wrong name would silently count for nothing."""
    folder = a_folder(tmp_path)
    (folder / stray).write_text("area\n")

    fault = only(faults_of(folder))
    assert (stray, "not read") == (fault.file, fault.said)
    assert ("[[forecasts]]" if "cast" in stray.casefold() else "[files]") in fault.cure


@pytest.mark.parametrize(
    ("stray", "stem"),
    [("yards.ods", "yards"), ("Yards (1).XLS", "yards"), ("weather.ods", "weather")],
)
def test_another_programs_workbook_is_to_be_saved_anew(
    tmp_path: Path, stray: str, stem: str
) -> None:
    """No other name, nor naming it, makes it read; what it should have been is not told missing."""
    folder = a_folder(tmp_path)
    if stem == "yards":
        (folder / "yards.csv").unlink()
    (folder / stray).write_bytes(b"PK")

    fault = only(faults_of(folder))
    assert (stray, "not read") == (fault.file, fault.said)
    assert f"save it as {stem}.xlsx, or as CSV UTF-8 as {stem}.csv" in fault.cure


@pytest.mark.parametrize(
    "lock", ["~$weather.xlsx", ".~lock.weather.csv#", "._yards.csv", "weather.csv~", "~$yards.xlsx"]
)
def test_what_a_spreadsheet_keeps_beside_an_open_table_is_no_table(
    tmp_path: Path, lock: str
) -> None:
    """Whoever checks with the table still open is told nothing of its lock or backup."""
    folder = a_folder(tmp_path)
    (folder / lock).write_text("", "utf-8")

    assert 2 == len(read_scenario(folder).yards)


def test_a_second_weather_is_told_beside_the_first(tmp_path: Path) -> None:
    """Fetched anew, a browser puts a number after it; which of them is meant?"""
    folder = a_folder(tmp_path, weather=RAIN)
    (folder / "weather (1).csv").write_text(RAIN, "utf-8")
    (folder / "weather.txt").write_text("what it was typed from", "utf-8")

    assert "weather (1).csv" == only(faults_of(folder)).file


def test_a_file_that_is_named_is_read(tmp_path: Path) -> None:
    """However near its name is to another's: under [files], [[forecasts]] or [travel]."""
    sky = "time,temp_c,rain_mm,wind_ms\n2027-03-01 06:00,15,0,3\n"
    extra = (
        '[files]\nweather = "Weather (1).csv"\n[[forecasts]]\narea = "Gate"\n'
        'file = "forecast (1).csv"\n[travel]\ntimed = "travels.csv"\n'
    )
    folder = a_folder(tmp_path, extra)
    drives = "from,to,minutes\nhome,mill lane,14\nhome,gate,25\nmill lane,gate,38\n"
    for name, text in (
        ("Weather (1).csv", RAIN), ("forecast (1).csv", sky),
        ("travels.csv", drives), ("forecast.csv", sky), ("forecast.xlsx", "what it was saved from"),
    ):  # fmt: skip
        (folder / name).write_text(text, "utf-8")

    assert 2 == len(read_scenario(folder).yards)


def test_one_file_under_two_names(tmp_path: Path) -> None:
    """As a disk shows it that does not tell capitals apart: it is read."""
    folder = a_folder(tmp_path, weather=RAIN)
    (folder / "Weather.csv").hardlink_to(folder / "weather.csv")

    assert 2 == len(read_scenario(folder).yards)


def test_other_files_do_no_harm(tmp_path: Path) -> None:
    """Notes and photographs may lie beside the tables."""
    folder = a_folder(tmp_path)
    (folder / "notes.csv").write_text("anything")
    (folder / "README.md").write_text("anything")
    for name in (
        "notes.txt", "yard 3.jpg", "weather", "weather.pdf", "forecast_old.csv", "travel plans.txt",
        "forecast-2.json", "weather 2026.csv", "yards-2026.csv", "roads.osm.pbf",
    ):  # fmt: skip
        (folder / name).write_text("anything")
    for name in ("old", "forecast (2).csv"):
        (folder / name).mkdir()
        (folder / name / "weather (1).csv").write_text("anything")

    assert 2 == len(read_scenario(folder).yards)


CRATE = """\
[[boxes]]
name = "Crate"
length = "2.9 m"
width = "2.9 m"
height = "0.2 m"
empty = "5 kg"
"""
TRAILER = """\
[[trailers]]
empty = "0.6 t"
max = "2 t"
deck_length = "3 m"
deck_width = "1.8 m"
"""


@pytest.mark.parametrize(
    ("extra", "where", "cure"),
    [
        ('[yards]\nclearing = "boards"\n', "kit", "Mill Lane is cleared with them"),
        (CRATE, "Blue", "measures of Crate"),
        (TRAILER, "trucks", "No truck may pull Trailer 1"),
    ],
    ids=["boards", "deck", "trailer"],
)
def test_parts_must_fit_each_other(tmp_path: Path, extra: str, where: str, cure: str) -> None:
    """Boards nobody owns, a box no deck holds, a trailer nobody may pull."""
    found = only(faults(tmp_path, extra))

    assert where == found.where
    assert cure in found.cure


def test_no_boards_are_told_by_line(tmp_path: Path) -> None:
    """Where the file has a line on boards, the fault names it."""
    extra = '[yards]\nclearing = "boards"\n[kit]\nblocks = 4\nboards = 0\n'
    found = only(faults(tmp_path, extra))
    lines = next(tmp_path.rglob("outfit.toml")).read_text("utf-8").splitlines()

    assert f"line {1 + lines.index('boards = 0')}, kit" == found.where


def test_a_fault_has_no_followers(tmp_path: Path) -> None:
    """A deck or a mass that cannot be read is not judged against boxes and trailers as well."""
    truck = TRUCK.replace('"3.1 m"', '"3,1 m"').replace('"2.1 t"', '"2100"')
    found = faults(tmp_path, CRATE.replace("2.9", "1.7") + TRAILER, truck=truck)

    assert ["deck_length", "empty"] == sorted(fault.field for fault in found)


def test_somebody_must_spin_and_mix(tmp_path: Path) -> None:
    """Without hands for it, boxes and sugar would wait for ever."""
    head = 'title = "x"\n'
    ann = '[[people]]\nname = "Ann"\nspins = false\nmixes = false\n'
    found = faults(tmp_path, ann, head=head)

    assert ["mixes", "spins"] == sorted(fault.field for fault in found)


def test_bought_syrup_needs_nobody_to_mix(tmp_path: Path) -> None:
    """Ready-made syrup is delivered; when no delivery is typed, as much as it takes."""
    head = 'title = "x"\n'
    extra = (
        '[[people]]\nname = "Ann"\nmixes = false\n[feed]\nrecipe = "72.4 %"\nready_made = true\n'
    )
    outfit = read(tmp_path, extra, head=head)

    assert (True, True) == (outfit.feed.bought, outfit.open_end("syrup"))
    assert OPEN_END == outfit.feed.ready_ml  # far beyond what any yard told later could take
    typed = replace(outfit.feed, bought=False)
    assert not replace(outfit, feed=typed).open_end("syrup")
    assert not replace(outfit, counted=(Counted("syrup", 0, 0),)).open_end("syrup")


def test_title_comes_from_the_folder_without_one(tmp_path: Path) -> None:
    """A scenario without a title is called like its folder; the name is a safe key."""
    outfit = read(tmp_path, head="people = 1\n", base=BASE)

    assert ("campaign", "campaign") == (outfit.title, outfit.name)
