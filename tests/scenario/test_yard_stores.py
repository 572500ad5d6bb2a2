"""Tests of stores and targets in the way the user knows them."""

from pathlib import Path

import pytest

from runplanner.scenario import read_scenario
from runplanner.scenario.forecast.part import Heard
from tests.scenario.folders import a_folder, faults, only, read

POUND_G = 453.59237


def yard(tmp_path: Path, columns: str, cells: str, extra: str = "") -> tuple[int | None, int]:
    """Stores and target of one yard with more columns."""
    table = f"name,lat,lon,colonies,boxes,{columns}\nA,-38.0,175.1,5,8,{cells}\n"
    made = read(tmp_path, extra, yards=table).yards[0]
    return made.stores_g, made.target_g


def test_a_hefted_hive(tmp_path: Path) -> None:
    """Hefted 30 kg: less floor, lids and one body as weighed in pounds, less 4 kg of bees.

    13.69 + 8.5 + 1.75 + 4.06 lb = 28.00 lb, 12.70 kg; 30 - 12.702 - 4 = 13.298 kg.
    """
    stores, _ = yard(tmp_path, "hefted", "30 kg")

    assert stores is not None
    assert 30_000 - 28 * POUND_G - 4_000 == pytest.approx(stores, abs=3)


def test_a_second_box_is_taken_off_the_heft(tmp_path: Path) -> None:
    """Two bodies: 13.69 lb more of wood and wax."""
    stores, _ = yard(tmp_path, "hefted,winter_boxes", "42 kg,2")

    assert stores is not None
    assert 42_000 - (28 + 13.69) * POUND_G - 4_000 == pytest.approx(stores, abs=5)


def test_typed_parts_and_a_light_hive(tmp_path: Path) -> None:
    """30 - 14 - 4 = 12 kg; a hive lighter than parts and bees holds nothing, and never less."""
    assert 12_000 == yard(tmp_path, "hefted,hive_parts", "30 kg,14 kg")[0]
    (tmp_path / "light").mkdir()
    assert 0 == yard(tmp_path / "light", "hefted,hive_parts", "15 kg,14 kg")[0]


@pytest.mark.parametrize(
    ("columns", "cells", "stores"),
    [
        # 4.5 x 2.2 kg, the careful deep frame.
        ("frames_of_stores", "4.5", 9_900),
        # 4 x 2.3 kg typed.
        ("frames_of_stores,frame_stores", "4,2.3 kg", 9_200),
        # 341 x 203 mm at 350 g per square decimetre: 2422 g a frame (published 2.3 kg).
        ("frames_of_stores,frame_stores", "4,national brood", 9_688),
        ("frames_of_stores", "0", 0),
    ],
)
def test_frames_of_stores(tmp_path: Path, columns: str, cells: str, stores: int) -> None:
    """Full frames times what one holds: the default, typed, or by the box they hang in."""
    assert stores == yard(tmp_path, columns, cells)[0]


def test_only_one_way_to_tell_the_stores(tmp_path: Path) -> None:
    """Typed and hefted in one row contradict each other."""
    table = "name,lat,lon,colonies,boxes,stores,hefted\nA,-38.0,175.1,5,8,3 kg,30 kg\n"
    fault = only(faults(tmp_path, yards=table))

    assert ("hefted", "one of stores, hefted, frames_of_stores") == (fault.field, fault.allowed)


def test_a_row_goes_before_what_holds_for_all(tmp_path: Path) -> None:
    """[yards] says 3 kg and a target; a row that is counted and has its climate has its own."""
    extra = '[yards]\nstores = "3 kg"\ntarget = "17 kg"\n'
    table = (
        "name,lat,lon,colonies,boxes,frames_of_stores,climate\n"
        "A,-38.0,175.1,5,8,2,cold\nB,-38.1,175.1,5,8,,\n"
    )
    first, second = read(tmp_path, extra, yards=table).yards

    # 2 x 2.2 kg; 60 lb = 27.216 kg (antherapiary).
    assert (4_400, round(60 * POUND_G)) == (first.stores_g, first.target_g)
    assert (3_000, 17_000) == (second.stores_g, second.target_g)


@pytest.mark.parametrize(
    ("columns", "cells", "target"),
    [
        ("climate", "temperate", 20_000),  # BBKA News 216
        ("climate,winter_boxes", "temperate,2", 25_000),  # BBKA News 216; NBU 2017
        ("climate", "mild", 14_000),  # 30 lb Georgia
        ("climate,target", "cold,19 kg", 19_000),
        ("winter_boxes", "2", 15_000),  # no climate: the plain default
    ],
)
def test_the_target_by_climate(tmp_path: Path, columns: str, cells: str, target: int) -> None:
    """Climate and boxes give the published target; a typed one stands."""
    assert target == yard(tmp_path, columns, cells)[1]


def test_climate_for_all_yards_is_shown_with_its_source(tmp_path: Path) -> None:
    """The target that followed is among the defaults that check shows."""
    outfit = read(tmp_path, '[yards]\nclimate = "temperate"\n')

    assert {20_000} == {one.target_g for one in outfit.yards}
    (shown,) = [one for one in outfit.assumed if one.field == "yards.target"]
    assert ("20 kg (2 times)", True) == (shown.value, "BBKA News 216" in shown.source)


@pytest.mark.parametrize(
    ("columns", "cells", "field", "words"),
    [
        ("climate", "arctic", "climate", "mild"),
        ("winter_boxes", "9", "winter_boxes", "from 1 to 4"),
        ("hefted", "3 kg", "hefted", "from 5 kg"),
        ("frames_of_stores,frame_stores", "3,spoon", "frame_stores", "a box of the catalogue"),
        ("frames_of_stores,frame_stores", f"3,{'x' * 70}", "frame_stores", "a mass"),
        ("frames_of_stores", "many", "frames_of_stores", "full frames of stores from 0 to 60"),
    ],
)
def test_what_cannot_be(tmp_path: Path, columns: str, cells: str, field: str, words: str) -> None:
    """Each is said once, with what is allowed."""
    table = f"name,lat,lon,colonies,boxes,{columns}\nA,-38.0,175.1,5,8,{cells}\n"
    fault = only(faults(tmp_path, yards=table))

    assert field == fault.field
    assert words in fault.allowed


def test_a_hive_hefted_side_by_side(tmp_path: Path) -> None:
    """A spring balance at either side: 18 + 17.5 kg are a hive of 35.5; less 14 and 4: 17.5."""
    assert 17_500 == yard(tmp_path, "hefted,hive_parts", "18 kg + 17.5 kg,14 kg")[0]
    (tmp_path / "odd").mkdir()
    table = "name,lat,lon,colonies,boxes,hefted\nA,-38.0,175.1,5,8,18 kg + much\n"
    assert "hefted" == only(faults(tmp_path / "odd", yards=table)).field


@pytest.mark.parametrize(
    ("columns", "cells", "target"),
    [
        ("months_brood,months_still", "4,3", 15_000),  # bienenundnatur.de: 4 x 3 + 3 x 1 kg
        ("months_still", "6", 6_000),
        ("months_brood,months_still,climate", "4,3,cold", 15_000),
        ("months_brood,months_still,target", "4,3,19 kg", 19_000),
    ],
)
def test_the_target_by_months(tmp_path: Path, columns: str, cells: str, target: int) -> None:
    """Months with and without brood give the target; a typed one stands."""
    assert target == yard(tmp_path, columns, cells)[1]


def test_more_months_than_a_year_has(tmp_path: Path) -> None:
    """Told once for all yards; twelve in all are a year."""
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    fault = only(faults(tmp_path / "a", "[yards]\nmonths_brood = 7\nmonths_still = 6\n"))
    year = read(tmp_path / "b", "[yards]\nmonths_brood = 7\nmonths_still = 5\n")

    assert ("months_still", "7 + 6", "at most 12 months in all") == (
        fault.field, fault.said, fault.allowed,
    )  # fmt: skip
    # 7 x 3 + 5 x 1 kg
    assert {26_000} == {yard.target_g for yard in year.yards}


def test_months_of_all_yards_yield_to_a_row(tmp_path: Path) -> None:
    """[yards] counts months; the row that has a climate goes by that."""
    extra = "[yards]\nmonths_brood = 4\nmonths_still = 3\n"
    table = "name,lat,lon,colonies,boxes,climate\nA,-38.0,175.1,5,8,temperate\nB,-38.1,175.1,5,8,\n"
    assert [20_000, 15_000] == [one.target_g for one in read(tmp_path, extra, yards=table).yards]


def test_a_target_is_told_in_frames_where_their_size_is_known(tmp_path: Path) -> None:
    """BBKA News 216: 20 kg are nine full BS deep frames."""
    extra = '[yards]\nclimate = "temperate"\nframe_stores = "national brood"\n'
    (shown,) = [one for one in read(tmp_path, extra).assumed if one.field == "yards.target"]
    assert shown.value.startswith("20 kg, 9 full frames")


@pytest.mark.parametrize(
    ("cells", "cure"),
    [
        ("13.9 kg,14 kg", "Was one side only pulled? Then type both, such as '13.9 kg + 13.9 kg'."),
        ("7 kg + 6.9 kg,14 kg", "Check hefted and hive_parts."),
    ],
)
def test_lighter_than_the_empty_hive(tmp_path: Path, cells: str, cure: str) -> None:
    """Wood alone weighs 14 kg: less was not the whole hive."""
    table = f"name,lat,lon,colonies,boxes,hefted,hive_parts\nA,-38.0,175.1,5,8,{cells}\n"
    fault = only(faults(tmp_path, yards=table))

    assert ("hefted", cells.partition(",")[0], cure) == (fault.field, fault.said, fault.cure)
    assert "at least the empty hive, 14 kg by hive_parts" == fault.allowed


def test_an_unreadable_heft_is_one_fault(tmp_path: Path) -> None:
    """What was not read is not held against the empty hive."""
    table = "name,lat,lon,colonies,boxes,hefted\nA,-38.0,175.1,5,8,light\n"

    assert "such as 38 kg" in only(faults(tmp_path, yards=table)).allowed


@pytest.mark.parametrize(
    ("cells", "told"),
    [
        # 14 + 4 + 3 = 21 kg is the least that is not asked about; 20.9 leaves 2.9.
        ("20.9 kg,14 kg", "20.9 kg leave 2.9 kg of stores beside 14 kg of hive and 4 kg"),
        ("14 kg,14 kg", "14 kg leave 0 kg of stores"),
        ("21 kg,14 kg", ""),
        ("10.4 kg + 10.5 kg,14 kg", ""),
    ],
)
def test_a_heft_as_light_as_one_side(tmp_path: Path, cells: str, told: str) -> None:
    """Read as typed, and asked about by check, unless both sides stand there."""
    table = f"name,lat,lon,colonies,boxes,hefted,hive_parts\nA,-38.0,175.1,5,8,{cells}\n"
    heard = Heard()
    read_scenario(a_folder(tmp_path, yards=table), heard)

    assert bool(told) == len(heard.doubts)
    assert all(words.startswith(f"yards.csv, row 2, A, hefted: {told}") for words in heard.doubts)
