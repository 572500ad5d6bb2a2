"""The papers of house and wall as a browser prints them."""

from dataclasses import replace
from pathlib import Path

import pytest

pytest.importorskip("playwright", reason="no playwright here: no page was tried in a browser")

from runplanner.paperwork.driver.manifest_page import manifest_page
from runplanner.paperwork.lists.medicine_record import medicine_page, records
from runplanner.paperwork.lists.strips_page import strips_page
from runplanner.paperwork.lists.take_off_register import loads, register_page
from runplanner.paperwork.sheet.look import Look, dressed
from tests.browser.visits import a_browser, visit
from tests.paperwork.plans import eight_stop_plan
from tests.paperwork.test_manifest_fit import printed_pages, sheet_of

pytestmark = pytest.mark.browser
# The smallest type of all words on a page, in pixels: 15 points are 20.
_SMALLEST = """() => Math.min(...[...document.body.querySelectorAll('*')]
    .filter(e => [...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim()))
    .map(e => parseFloat(getComputedStyle(e).fontSize)))"""
_BREAKS = "[...document.querySelectorAll('section')].map(e => getComputedStyle(e).breakInside)"


@pytest.mark.parametrize("look", [Look(), Look(paper="letter")], ids=["a4", "letter"])
def test_two_yards_of_the_medicine_record_take_one_sheet(
    tmp_path: Path, chromium: str, look: Look
) -> None:
    """Four yards: two sheets, notes and all."""
    plan = eight_stop_plan()
    assert 4 == len(records(plan))
    assert 2 == printed_pages(chromium, tmp_path, dressed(medicine_page(plan), look))


def test_a_load_is_not_torn_over_two_sheets(tmp_path: Path, chromium: str) -> None:
    """Each load of the register is kept whole, so that its truck stands above its lots."""
    plan = eight_stop_plan()
    made = tmp_path / "register.html"
    made.write_text(register_page(plan), encoding="utf-8")
    with a_browser(chromium) as browser, visit(browser, made) as seen:
        found = seen.page.evaluate(_BREAKS)
        assert ["avoid"] * len(loads(plan)) == found


@pytest.mark.parametrize("large", [False, True], ids=["plain", "large"])
def test_one_long_word_makes_no_sheet_wider_than_its_page(
    tmp_path: Path, chromium: str, *, large: bool
) -> None:
    """Else a browser prints all of it smaller. A4 between its margins is 725 pixels wide."""
    plan = eight_stop_plan()
    name = "Rinderkennzeichnungsfleischetikettierungsueberwachungsaufgabenuebertragungsgesetz"
    yards = tuple(replace(yard, name=f"{name}{yard.id}") for yard in plan.outfit.yards)
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards))
    made = tmp_path / "paper.html"
    with a_browser(chromium) as browser:
        for paper in (register_page(plan), medicine_page(plan), strips_page(plan)):
            made.write_text(dressed(paper, Look(large=large)), encoding="utf-8")
            with visit(browser, made, (725, 900)) as seen:
                seen.page.emulate_media(media="print")
                assert seen.page.evaluate("document.documentElement.scrollWidth") <= 725
                if large:
                    assert seen.page.evaluate(_SMALLEST) >= 20


@pytest.mark.parametrize("stops", [1, 8])
def test_all_of_a_large_manifest_has_15_points_and_more(
    tmp_path: Path, chromium: str, stops: int
) -> None:
    """Drives, positions, lots, the loading list and the cautions at the foot among it."""
    made = tmp_path / "paper.html"
    made.write_text(dressed(manifest_page(sheet_of(stops)), Look(large=True)), encoding="utf-8")
    with a_browser(chromium) as browser, visit(browser, made, (725, 900)) as seen:
        seen.page.emulate_media(media="print")
        assert seen.page.evaluate(_SMALLEST) >= 20
        assert seen.page.evaluate("document.documentElement.scrollWidth") <= 725
