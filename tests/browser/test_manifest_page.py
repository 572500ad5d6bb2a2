"""A driver's paper as a browser lays it out."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

pytest.importorskip("playwright", reason="no playwright here: no page was tried in a browser")

from playwright.sync_api import Browser

from runplanner.paperwork.driver.manifest_page import manifest_page
from runplanner.paperwork.sheet.look import Look, dressed
from runplanner.paperwork.speech.tongue import languages, speaking
from tests.browser.visits import DESK, PHONE, a_browser, visit
from tests.paperwork.test_manifest_fit import sheet_of, sheet_with_boxes

pytestmark = pytest.mark.browser
_BOXES = """rule => [...document.querySelectorAll(rule)].map(e => e.getBoundingClientRect())
  .map(r => [Math.round(r.left), Math.round(r.right), Math.round(r.top)])"""

# The words of stops' names that lie on more than one line.
_TORN = """() => [...document.querySelectorAll('.stop h3')].map(e => e.firstChild).flatMap(n =>
  [...n.textContent.matchAll(/\\S+/g)].filter(m => {
    const word = document.createRange();
    word.setStart(n, m.index); word.setEnd(n, m.index + m[0].length);
    return new Set([...word.getClientRects()].map(r => Math.round(r.top))).size > 1;
  }).map(m => m[0]))"""

# Words that lie over another one, leave the part of the sheet they stand in, or the sheet.
_ASTRAY = """() => {
  const parts = '.who, .which, .when, .rail, .what, .limits, .deck, .cautions';
  const lines = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const words = [], bad = [];
  for (let n = lines.nextNode(); n; n = lines.nextNode()) {
    const part = n.parentElement.closest('.stopat, ' + parts)?.getBoundingClientRect();
    for (const m of n.textContent.matchAll(/\\S+/g)) {
      const word = document.createRange();
      word.setStart(n, m.index); word.setEnd(n, m.index + m[0].length);
      for (const r of word.getClientRects()) {
        if (!part || r.right > Math.min(part.right, innerWidth) + 1 || r.left < part.left - 1)
          bad.push(m[0]);
        for (const [other, o] of words)
          if (Math.min(r.right, o.right) - Math.max(r.left, o.left) > 1
              && Math.min(r.bottom, o.bottom) - Math.max(r.top, o.top)
                 > Math.min(r.height, o.height) / 3)
            bad.push(other + ' ' + m[0]);
        words.push([m[0], r]);
      }
    }
  }
  return words.length > 50 ? bad : ['no words'];
}"""


@pytest.fixture(scope="module")
def browser(chromium: str) -> Iterator[Browser]:
    """One browser for all tests here: starting one takes a second."""
    with a_browser(chromium) as started:
        yield started


@pytest.fixture(scope="module")
def paper(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The paper of a trip of three stops."""
    made = tmp_path_factory.mktemp("manifests") / "three.html"
    made.write_text(manifest_page(sheet_of(3)), encoding="utf-8")
    return made


def test_times_jobs_and_limits_stand_in_three_columns(browser: Browser, paper: Path) -> None:
    """Loading, three stops and unloading: each part begins and ends where the others do."""
    with visit(browser, paper, DESK) as seen:
        rails, whats, limits = (
            seen.page.evaluate(_BOXES, rule) for rule in (".rail", ".what", ".limits")
        )

        for column in (rails, whats, limits):
            assert 5 == len(column)
            assert 1 == len({(left, right) for left, right, _ in column})
        assert rails[0][1] <= whats[0][0] < whats[0][1] <= limits[0][0]
        assert [top for *_, top in rails] == [top for *_, top in limits]


def test_a_wait_keeps_to_the_column_of_times(browser: Browser, tmp_path: Path) -> None:
    """However large the type, "start 13:00" never lies over the ticks of the jobs."""
    sheet = sheet_of(2)
    waits = replace(sheet, steps=tuple(replace(one, begin="13:00") for one in sheet.steps))
    made = tmp_path / "waits.html"
    for look in (Look(), Look(large=True), Look(paper="letter")):
        with speaking("de"):
            made.write_text(dressed(manifest_page(waits), look), encoding="utf-8")
        with visit(browser, made, DESK) as seen:
            begins, whats = (seen.page.evaluate(_BOXES, rule) for rule in (".begin", ".what"))
            assert len(waits.steps) == len(begins)
            assert max(right for _, right, _ in begins) <= min(left for left, *_ in whats)


@pytest.mark.parametrize("look", [Look(), Look(large=True), Look(paper="letter", large=True)])
@pytest.mark.parametrize("language", languages())
def test_every_word_has_its_own_place_on_the_sheet(
    browser: Browser, tmp_path: Path, language: str, look: Look
) -> None:
    """As printed and on a screen: none lies over another, or leaves its column.

    On one stop's sheet normal type is as large as it gets.
    """
    made = tmp_path / "boxes.html"
    for stops in (1, 3):
        with speaking(language):
            made.write_text(dressed(manifest_page(sheet_with_boxes(stops)), look), encoding="utf-8")
        with visit(browser, made, (725, 900)) as seen:
            assert [] == seen.page.evaluate(_ASTRAY)
            seen.page.emulate_media(media="print")
            assert [] == seen.page.evaluate(_ASTRAY)


def test_no_name_is_torn_for_its_lot_in_large_type(browser: Browser, tmp_path: Path) -> None:
    """The lot, or the time at home, goes below; a word longer than a line still breaks.

    Paper is 725 pixels wide between its margins.
    """
    sheet = sheet_of(2)
    load, first, second, unload = sheet.steps
    long = "Rinderkennzeichnungsfleischetikettierungsueberwachungsaufgaben"
    steps = (
        load,
        replace(first, name="Brickworks", lot="L20270728-brickworks"),
        replace(second, name="Old Schoolhouse", lot="L20270728-old-schoolhouse"),
        replace(unload, name="Entladen im Schleuderraum", home="16:39"),
        replace(first, name=long, lot=f"L20270728-{long}"),
    )
    made = tmp_path / "lots.html"
    page = manifest_page(replace(sheet, steps=steps))
    made.write_text(dressed(page, Look(large=True)), encoding="utf-8")
    with visit(browser, made, (725, 900)) as seen:
        seen.page.emulate_media(media="print")
        torn = seen.page.evaluate(_TORN)
        assert [long] == torn
        assert seen.page.evaluate("document.documentElement.scrollWidth") <= 725


def test_nothing_sticks_out_on_a_phone(browser: Browser, paper: Path) -> None:
    """On a phone all stands in one column, as wide as the screen."""
    with visit(browser, paper, PHONE) as seen:
        assert PHONE[0] >= seen.page.evaluate("document.documentElement.scrollWidth")
        tops = [top for *_, top in seen.page.evaluate(_BOXES, ".rail, .what, .limits, .deck")]
        assert tops == sorted(tops)
        assert len(tops) == len(set(tops))
