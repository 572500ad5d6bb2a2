"""Tests of what a full box weighs, by how full its frames are."""

from pathlib import Path

import pytest

from runplanner.outfit.safety import plain
from tests.scenario.folders import faults, only, read


def box_g(tmp_path: Path, columns: str, cells: str, extra: str = "") -> int:
    """The mass of a full box of one yard with more columns, as guessed."""
    table = f"name,lat,lon,colonies,boxes,{columns}\nA,-38.0,175.1,5,8,{cells}\n"
    return plain(read(tmp_path, extra, yards=table)).yards[0].box_g


@pytest.mark.parametrize(
    ("columns", "cells", "grams"),
    [
        # National super: 10 frames of 341 x 127 mm at 350 g per square decimetre are 1515 g
        # each; the box with frames is 4.5 kg.
        ("box,fill", "national,100 %", 4_500 + 15_150),
        ("box,fill", "national,80 %", 4_500 + 12_120),
        ("box,fill,frames", "national,80 %,9", 4_500 + 10_908),
        ("box,frames", "national,9", 4_500 + 13_635),
        # A typed mass stands.
        ("box,fill,box_mass", "national,80 %,17 kg", 17_000),
    ],
)
def test_a_box_by_its_fill(tmp_path: Path, columns: str, cells: str, grams: int) -> None:
    """Empty box and frames, and so much of what the combs hold when full."""
    assert grams == box_g(tmp_path, columns, cells)


def test_a_row_that_tells_its_fill_goes_before_a_mass_for_all(tmp_path: Path) -> None:
    """[yards] has a mass; the row knows better, and check shows where it comes from."""
    extra = '[yards]\nbox = "national"\nbox_mass = "17 kg"\n'
    table = "name,lat,lon,colonies,boxes,fill\nA,-38.0,175.1,5,8,80 %\nB,-38.1,175.1,5,8,\n"
    outfit = read(tmp_path, extra, yards=table)

    assert [16_620, 17_000] == [one.box_g for one in plain(outfit).yards]
    (shown,) = [one for one in outfit.assumed if one.field == "yards.box_mass"]
    assert "10 frames 80 % full" in shown.value
    assert "350 g per square decimetre" in shown.source


@pytest.mark.parametrize("column", ["fill", "frames"])
def test_a_box_of_ones_own_has_no_comb_to_go_by(tmp_path: Path, column: str) -> None:
    """Its frames are not in the catalogue: the mass is asked for, once."""
    extra = (
        '[[boxes]]\nname = "Mine"\nlength = "50 cm"\nwidth = "45 cm"\nheight = "18 cm"\n'
        'empty = "5 kg"\nfull = "20 kg"\n'
    )
    cell = "80 %" if column == "fill" else "9"
    table = f"name,lat,lon,colonies,boxes,box,{column}\nA,-38.0,175.1,5,8,Mine,{cell}\n"
    assert column == only(faults(tmp_path, extra, yards=table)).field


@pytest.mark.parametrize(("fill", "words"), [("0.8", "a share"), ("120 %", "a share")])
def test_what_is_no_fill(tmp_path: Path, fill: str, words: str) -> None:
    """Per cent, up to a hundred."""
    table = f"name,lat,lon,colonies,boxes,fill\nA,-38.0,175.1,5,8,{fill}\n"
    fault = only(faults(tmp_path, yards=table))
    assert ("fill", True) == (fault.field, words in fault.allowed)


def test_empty_frames_make_no_full_box(tmp_path: Path) -> None:
    """Nothing in the frames: the fault is at what was typed."""
    table = "name,lat,lon,colonies,boxes,fill\nA,-38.0,175.1,5,8,0 %\n"
    assert "fill" == only(faults(tmp_path, yards=table)).field


@pytest.mark.parametrize(
    ("empty", "full"), [("6 kg", "3 kg"), ("6 kg", "30"), ("6 kg", "5.5 kg"), ("29 kg", "28 kg")]
)
def test_a_slip_in_a_box_is_told_at_the_box_alone(tmp_path: Path, empty: str, full: str) -> None:
    """Neither yards that go by the box's mass nor one with a mass of its own are blamed."""
    extra = (
        '[[boxes]]\nname = "Mine"\nlength = "50 cm"\nwidth = "45 cm"\nheight = "18 cm"\n'
        f'empty = "{empty}"\nfull = "{full}"\n[yards]\nbox = "Mine"\n'
    )
    table = "name,lat,lon,colonies,boxes,box_mass\nA,-38.0,175.1,5,8,\nB,-38.1,175.1,5,8,27 kg\n"
    fault = only(faults(tmp_path, extra, yards=table))

    assert ("outfit.toml", "full") == (fault.file, fault.field)


def test_a_box_without_a_full_mass_still_asks_each_yard_for_one(tmp_path: Path) -> None:
    """Nothing was typed with the box: the yards must tell."""
    extra = (
        '[[boxes]]\nname = "Mine"\nlength = "50 cm"\nwidth = "45 cm"\nheight = "18 cm"\n'
        'empty = "6 kg"\n[yards]\nbox = "Mine"\n'
    )
    table = "name,lat,lon,colonies,boxes,box_mass\nA,-38.0,175.1,5,8,\nB,-38.1,175.1,5,8,27 kg\n"

    assert "box_mass" == only(faults(tmp_path, extra, yards=table)).field
