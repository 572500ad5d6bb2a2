"""Forecasts that cannot be used: one slip, one fault, with its cure."""

from pathlib import Path

import pytest

from runplanner.errors import ScenarioError
from runplanner.scenario import read_scenario
from runplanner.scenario.forecast.part import Heard
from runplanner.scenario.hear import hear
from tests.scenario.folders import a_folder, faults_of, only
from tests.scenario.skies import ENTRIES, YARDS, scene, steps_text, table


@pytest.mark.parametrize(
    ("extra", "files", "spot", "cure"),
    [
        (
            "",
            {"forecast_csv": table(1).replace("time", "note", 1)},
            ("forecast.csv", "time"),
            "hour",
        ),
        ("", {"forecast_json": "{}"}, ("forecast.json", ""), "own answer"),
        ("", {"forecast_json": steps_text(52.0, 13.0)}, ("forecast.json", ""), "another place"),
        ("", {"forecast_json": steps_text(175.11, -38.05)}, None, ""),
        (
            "",
            {"forecast_csv": table(1).replace("2027", "2026")},
            ("forecast.csv", ""),
            "an old one",
        ),
        (
            "",
            {"forecast_csv": table(1, "moor")},
            ("forecast.csv", "area"),
            "Known here: all, hills, plain, Mill, Gate, Ford.",
        ),
        ('file = "sky.csv"', {}, ("outfit.toml", "file"), "Save it there"),
        ('file = "../sky.csv"', {}, ("outfit.toml", "file"), "bare name"),
        ('file = "sky.xml"', {}, ("outfit.toml", "file"), "Name it such as"),
        ('file = "yards.csv"', {}, ("outfit.toml", "file"), "Name it such as"),
        ('url = "http://x/"', {}, ("outfit.toml", "file"), "no default"),
        (
            'file = "sky.csv"\nurl = "file:///x"',
            {"sky_csv": table()},
            ("outfit.toml", "url"),
            "browser",
        ),
        (
            'file = "sky.csv"\nzone = "Mars/Base"',
            {"sky_csv": table()},
            ("outfit.toml", "zone"),
            "city",
        ),
        ('file = "sky.csv"\narea = "moor"', {"sky_csv": table()}, ("outfit.toml", "area"), "Known"),
        ('file = "sky.csv"\nfiel = 1', {"sky_csv": table()}, ("outfit.toml", "fiel"), "file"),
    ],
)
def test_one_slip_one_fault(
    tmp_path: Path, extra: str, files: dict[str, str], spot: tuple[str, str] | None, cure: str
) -> None:
    """A single slip is named by file and field, with a cure."""
    folder = scene(tmp_path, f"[[forecasts]]\n{extra}\n" if extra else "", **files)
    if spot is None:  # latitude 175 is nowhere: the place is not told, so not compared
        assert read_scenario(folder).yards
        return
    found = only(faults_of(folder))

    assert spot == (found.file, found.field)
    assert cure in found.cure


def test_a_forecast_that_is_to_come_is_no_fault(tmp_path: Path) -> None:
    """Not fetched yet, or ending shortly before the campaign: said, and it does not count.

    Day 0 is 1 March: two days from 19 January on end 39 days before it and wait, those from 16
    January on end 42 days before it and are old.  What another forecast tells counts.
    """
    extra = '[[forecasts]]\nfile = "all.csv"\nurl = "http://x/"\n'
    hills = '[[forecasts]]\narea = "hills"\nfile = "hills.csv"\n'
    early = table(2).replace("2027-03-", "2027-01-").replace("-01 ", "-19 ").replace("-02 ", "-20 ")
    heard = Heard()
    none = read_scenario(scene(tmp_path / "a", extra), heard)
    hear_both = hear(scene(tmp_path / "b", extra + hills, hills_csv=table(2)))

    assert [
        "all: all.csv is not there yet and does not count; get it with `runplanner forecast`"
    ] == heard.waiting
    assert ((), ()) == (none.yards[0].sure_permille, none.yards[0].shut)
    assert "weather" in [one.field for one in none.assumed]
    assert (1, ["mill"]) == (len(hear_both.waiting), list(hear_both.sure))
    waits = hear(scene(tmp_path / "c", forecast_csv=early))
    assert [
        "all: forecast.csv ends on Wed 20 Jan, before the campaign begins, and does not count yet"
    ] == waits.waiting
    assert ([], {}) == (waits.skies, waits.sure)
    old = early.replace("-20 ", "-17 ").replace("-19 ", "-16 ")
    assert "an old one" in only(faults_of(scene(tmp_path / "d", forecast_csv=old))).cure


@pytest.mark.parametrize(
    ("line", "field"),
    [
        ('open_rain = "2 mm"', "open_rain"),
        ("open_rain = 2", "open_rain"),
        ('open_wind = "8 m"', "open_wind"),
        ('settle_thunder = "2"', "settle_thunder"),
        ('beyond = "open"', "beyond"),
        ('sure_days = "3"', "sure_days"),
        ('contact = "anna\\u00e9"', "contact"),
        ('open_least = "13"', "open_least"),
        ('open_rian = "2 mm/h"', "open_rian"),
    ],
)
def test_settings_at_fault(tmp_path: Path, line: str, field: str) -> None:
    """Units, words and spelling; with and without a forecast."""
    for name, files in (("a", {"forecast_csv": table(2)}), ("b", {})):
        folder = scene(tmp_path / name, f"[weather]\n{line}\n", **files)
        if name == "a" or field != "open_least":
            assert field == only(faults_of(folder)).field


def test_two_for_one_area(tmp_path: Path) -> None:
    """Which would count?  Both of the plain names, too."""
    both = scene(tmp_path / "a", forecast_csv=table(2), forecast_json=steps_text())
    extra = ENTRIES.replace('area = "ford"', 'area = "plain"')
    files = {"wide_csv": table(2), "plain_csv": table(2), "ford_csv": table(2)}

    assert "forecast.json too" == only(faults_of(both)).said
    assert "keep one" in only(faults_of(scene(tmp_path / "b", extra, **files))).cure


def test_too_large_a_file(tmp_path: Path) -> None:
    """Ten megabytes are refused in words, named or found."""
    folder = scene(tmp_path / "a", forecast_csv="x" * 10_000_000)
    named = scene(tmp_path / "b", '[[forecasts]]\nfile = "big.csv"\n', big_csv="x" * 10_000_000)

    assert "10000000 bytes" == only(faults_of(folder)).said
    assert "10000000 bytes" == only(faults_of(named)).said


def test_a_season_at_fault_hides_no_other_fault(tmp_path: Path) -> None:
    """Without a first day no forecast is too old, but it is still read."""
    folder = a_folder(tmp_path, season='[season]\nfirst_day = 2027-03-01\nlast_day = "soon"\n')
    (folder / "forecast.csv").write_text(table(1).replace("2027", "2026"), "utf-8")

    assert ["last_day"] == [fault.field for fault in faults_of(folder)]


def test_a_yard_at_fault_is_no_place_to_compare(tmp_path: Path) -> None:
    """The yard's own fault is enough."""
    folder = scene(tmp_path, forecast_json=steps_text())
    (folder / "yards.csv").write_text(YARDS.replace("-38.12", "north"), "utf-8")

    assert ["lat"] == [fault.field for fault in faults_of(folder)]


def test_faults_left_out_are_counted_last(tmp_path: Path) -> None:
    """All 73 steps have warm air: twenty are told, then how many more, and all counted."""
    folder = scene(tmp_path, forecast_json=steps_text().replace("16.0", '"warm"'))
    with pytest.raises(ScenarioError) as caught:
        read_scenario(folder)
    found = caught.value.faults

    assert ("step 1", "53 more faults") == (found[0].where, found[-1].said)
    assert "73 faults found; nothing was written." == caught.value.message


def test_days_first_in_every_row_are_one_fault(tmp_path: Path) -> None:
    """Rows 2 to 49 of two days."""
    fault = only(faults_of(scene(tmp_path, forecast_csv=table(2).replace("2027-03-0", "0"))))

    assert ("row 2", "time") == (fault.where, fault.field)
    assert "Write the year first. The same in 47 more rows: 3-49." == fault.cure


def test_a_comma_in_a_figure_has_its_cure(tmp_path: Path) -> None:
    """As in every other table."""
    sky = "time;temp_c;rain_mm;wind_kmh\n2027-03-01 00:00;14,5;0;3\n"
    fault = only(faults_of(scene(tmp_path, forecast_csv=sky)))

    assert ("temp_c", "14,5") == (fault.field, fault.said)
    assert "No commas: write 14.5 if that is meant." == fault.cure
