"""Wet boxes as a user sets them: for all yards, for one, and what cannot be."""

from pathlib import Path

from runplanner.phrase import phrase
from tests.scenario.folders import faults, only, read

YARDS = "name,lat,lon,colonies,boxes,wet_boxes\nA,-38.0,175.1,5,8,\nB,-38.1,175.1,5,8,{}\n"


def test_a_row_goes_before_the_general_setting(tmp_path: Path) -> None:
    """[yards] says returned, one row says stored wet."""
    outfit = read(tmp_path, '[yards]\nwet_boxes = "returned"\n', yards=YARDS.format("Stored wet"))

    assert [True, False] == [yard.wet_back for yard in outfit.yards]


def test_defaults_are_shown(tmp_path: Path) -> None:
    """Stored wet; where they go back: from 16:00, four to five days, 60 s a box."""
    outfit = read(tmp_path)
    rules, said = outfit.rules, {one.field: one.value for one in outfit.assumed}

    assert not any(yard.wet_back for yard in outfit.yards)
    assert (960, 4, 5) == (rules.wet_from_min, rules.wet_least_days, rules.wet_best_days)
    assert 60 == outfit.pace.wet_box_s
    assert "stored wet (2 times)" == said[phrase("yards.wet_boxes")]


def test_settings(tmp_path: Path) -> None:
    """All of them typed."""
    text = '[rules]\nwet_from = "17:30"\nwet_least_days = 3\nwet_best_days = 6\n'
    outfit = read(tmp_path, text + '[pace]\nwet_box = "45 s"\n')
    rules = outfit.rules

    assert (1050, 3, 6) == (rules.wet_from_min, rules.wet_least_days, rules.wet_best_days)
    assert 45 == outfit.pace.wet_box_s


def test_slips_are_told(tmp_path: Path) -> None:
    """A word that is none; best below least; a honey house where nothing is loaded."""
    text = "[rules]\nwet_least_days = 4\nwet_best_days = 3\n"
    said = faults(tmp_path, text, yards=YARDS.format("maybe"))

    assert ["wet_best_days", "wet_boxes"] == sorted(fault.field for fault in said)


def test_boxes_are_loaded_where_trips_load(tmp_path: Path) -> None:
    """A honey house away from the feed store has nobody to load them."""
    apart = "[honey_house]\nlat = -38.06\nlon = 175.12\n"
    fault = only(faults(tmp_path, apart, yards=YARDS.format("returned")))

    assert ("wet_boxes", "returned, for B") == (fault.field, fault.said)
