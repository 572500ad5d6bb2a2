"""Tests of the size of type on a driver's paper."""

import re
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Shift
from runplanner.paperwork.driver.manifest import Manifest, manifest
from runplanner.paperwork.driver.manifest_fit import height_em, type_sizes
from runplanner.paperwork.driver.manifest_page import manifest_page
from runplanner.paperwork.sheet.look import Look, dressed
from tests.paperwork.plans import Round, Stop, a_shift, eight_stop_plan, feed, strips

A4, LETTER, LARGE = Look(), Look("letter"), Look(large=True)


def sheet_of(stops: int) -> Manifest:
    """The sheet of a day with so many stops with long notes, syrup and strips at each."""
    plan = eight_stop_plan()
    work = tuple(Stop(1 + n % 8, 20, (strips(12), feed(12, 60))) for n in range(stops))
    return _first(plan, a_shift(plan.outfit, 1, [Round("t", work)]))


def sheet_with_boxes(stops: int) -> Manifest:
    """The same with boxes to stop at, and two numbers to ring, at each stop."""
    sheet = sheet_of(stops)
    phone = "+49 171 1234567, +49 40 123456"
    told = (replace(one, stop_at="108", phone=phone) if one.number else one for one in sheet.steps)
    return replace(sheet, steps=tuple(told))


def _first(plan: Plan, shift: Shift) -> Manifest:
    return manifest(replace(plan, shifts=(shift,)), shift, shift.trips[0])


def sizes(sheet: Manifest) -> list[int]:
    """Half points on A4, on Letter, and in large type."""
    return [int(number) for number in re.findall(r"\d+", type_sizes(sheet))]


def test_fewer_stops_get_larger_type() -> None:
    """From eight stops to one the type never shrinks, and it ends at 14 points or more."""
    found = [sizes(sheet_of(stops)) for stops in range(8, 0, -1)]

    assert found == sorted(found)
    assert found[-1][0] >= 28
    assert found[0][0] <= 20


def test_letter_is_less_high_than_a4() -> None:
    """Type on Letter is never larger than on A4, and large type is never below 15 points."""
    for stops in (1, 2, 5, 9):
        a4, letter, large = sizes(sheet_of(stops))
        assert letter <= a4
        assert large >= 30


def test_what_takes_two_sheets_fills_them() -> None:
    """Ten stops take two sheets at 8 points, and at more than 10 as well; nine at 11 on Letter."""
    assert sizes(sheet_of(10))[0] >= 20
    assert sizes(sheet_of(9))[1] >= 22
    assert sizes(sheet_of(9))[2] >= 30


def test_narrow_columns_make_a_sheet_higher() -> None:
    """The same words in 36 em are higher than in 64 em: more lines, never fewer."""
    for stops in (1, 4, 8):
        assert height_em(sheet_of(stops), 36) > height_em(sheet_of(stops), 64)


def test_boxes_to_stop_at_take_two_lines_where_narrow() -> None:
    """The line in its frame is told on one line in 64 em, and on a second in 36 em."""
    sheet = sheet_of(1)
    load, stop, unload = sheet.steps
    short = replace(stop, jobs=(), access=(), watch="", blanks=(), sooner="word " * 60)
    heights = [
        [
            height_em(replace(sheet, steps=(load, replace(short, stop_at=boxes), unload)), wide)
            for boxes in ("", "108")
        ]
        for wide in (64, 36)
    ]

    in_one, in_two = (framed - bare for bare, framed in heights)
    assert [in_one, in_two] == pytest.approx([2.1, 3.35])


def test_a_head_of_long_names_makes_a_sheet_higher() -> None:
    """Four people with long names take a line more, of 1.15 em; fewer fit beside day and trip."""
    sheet = sheet_of(3)
    names = " and ".join(["Maximiliana von Hohenstein"] * 4)
    short, long = replace(sheet, crew="Ann drives"), replace(sheet, crew=f"{names} ride along")

    assert 1.15 == pytest.approx(height_em(long, 64.0) - height_em(short, 64.0))
    assert height_em(short, 64.0) == height_em(replace(short, crew="Ann and Bob"), 64.0)


def test_each_size_has_its_rule() -> None:
    """The classes on the page are rules of the style sheets of their looks."""
    made = manifest_page(sheet_of(3))
    a4, letter, large = sizes(sheet_of(3))

    assert f".plain{a4} {{ font-size: {a4 / 2:g}pt; }}" in dressed(made, A4)
    assert f".letter{letter} {{ font-size: {letter / 2:g}pt; }}" in dressed(made, LETTER)
    assert f".large{large} {{ font-size: {large / 2:g}pt; }}" in dressed(made, LARGE)
    assert f".letter{letter} {{" not in dressed(made, A4)


@pytest.mark.browser
@pytest.mark.parametrize(("stops", "look"), [(1, A4), (3, A4), (8, A4), (1, LETTER), (6, LETTER)])
def test_a_trip_fits_one_page(tmp_path: Path, chromium: str, stops: int, look: Look) -> None:
    """Printed by a browser, eight stops with long notes take one A4 page, six one Letter page."""
    assert 1 == printed_pages(chromium, tmp_path, dressed(manifest_page(sheet_of(stops)), look))


@pytest.mark.browser
def test_type_fills_the_page(tmp_path: Path, chromium: str) -> None:
    """At 16 points, more than was chosen, a trip of two stops takes two pages."""
    chosen = sizes(sheet_of(2))[0]
    larger = manifest_page(sheet_of(2)).replace(f'"manifest plain{chosen}', '"manifest plain32')
    assert chosen < 32
    assert 2 == printed_pages(chromium, tmp_path, larger)


@pytest.mark.browser
def test_a_very_long_trip_takes_two(tmp_path: Path, chromium: str) -> None:
    """Ten stops take two pages, at the type chosen, and so do fourteen; thirty take four."""
    for stops, pages in ((10, 2), (14, 2), (30, 4)):
        assert pages == printed_pages(chromium, tmp_path, manifest_page(sheet_of(stops)))


@pytest.mark.browser
@pytest.mark.parametrize("stops", [1, 2, 4])
def test_large_type_takes_no_sheet_more_for_being_larger(
    tmp_path: Path, chromium: str, stops: int
) -> None:
    """As many sheets as at 15 points."""
    made = manifest_page(sheet_of(stops))
    least = re.sub(r"(manifest \S+ \S+) large\d+", r"\1 large30", made)

    assert printed_pages(chromium, tmp_path, dressed(least, LARGE)) == printed_pages(
        chromium, tmp_path, dressed(made, LARGE)
    )


def printed_pages(chromium: str, folder: Path, page: str) -> int:
    """Print ``page`` with the browser and count the sheets."""
    source, made = folder / "page.html", folder / "page.pdf"
    source.write_text(page, encoding="utf-8")
    subprocess.run(
        [
            chromium,
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-background-networking",
            f"--user-data-dir={folder / 'browser'}",
            "--no-pdf-header-footer",
            f"--print-to-pdf={made}",
            source.as_uri(),
        ],
        check=True,
        capture_output=True,
        timeout=60,
    )
    return len(re.findall(rb"/Type\s*/Page\b", made.read_bytes()))
