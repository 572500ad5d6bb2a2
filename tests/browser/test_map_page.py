"""The map as a browser shows it, with the network off."""

from base64 import b64decode
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path

import pytest

pytest.importorskip("playwright", reason="no playwright here: no page was tried in a browser")

from playwright.sync_api import Browser, Page

from runplanner.paperwork.escape import cut, one_line
from runplanner.paperwork.map.page import map_html
from runplanner.paperwork.speech.tongue import speaking, tr
from tests.browser.visits import DESK, PHONE, a_browser, visit
from tests.paperwork.map_plans import (
    HOSTILE,
    PLAIN,
    a_big_plan,
    a_crowded_plan,
    a_dateline_plan,
    a_moving_plan,
    a_plan,
)

pytestmark = pytest.mark.browser
# A grey PNG of one pixel, standing in for every tile.
_PIXEL = b64decode(
    "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR42mNoAAAAggCBd81ytgAAAABJRU5ErkJggg=="
)
_MARKS = "[...document.querySelectorAll('.mark.cell')].map(m => m.getBoundingClientRect())"
_WORDS = """[...document.querySelectorAll('.word')].filter(w => w.style.display !== 'none'
  && w.style.visibility === 'visible').map(w => w.getBoundingClientRect())
  .map(r => [r.left, r.top, r.right, r.bottom])"""

# The drawn cells: their walls alone, since marks are padded to the width of a finger.
_CELLS = """[...document.querySelectorAll('.mark.cell polygon[stroke-width="2.2"]')]
  .map(p => p.getBoundingClientRect()).map(r => [r.left, r.top, r.right, r.bottom])"""
_BOXES = ".map(one => one.getBoundingClientRect()).map(r => [r.left, r.top, r.right, r.bottom])"
# Every mark by its outline, which is the first shape drawn, or the halo round it.
_MARKED = f"[...document.querySelectorAll('.mark svg > :first-child')]{_BOXES}"
_PANELS = f"[...document.querySelectorAll('nav.days, .leaflet-control, .plate, #key')]{_BOXES}"
# How far apart the outermost yards stand.
_SPREAD = f"(x => Math.max(...x) - Math.min(...x))({_MARKED}.map(box => box[0]))"
_LOADS = _WORDS.replace("'.word'", "'.word.load'")
_SHORT = "getComputedStyle(document.querySelector('#key summary'), '::before').content"
_FLAGGED = """[...document.querySelectorAll('.word.cell')]
  .filter(w => w.textContent.includes('suspect') || w.classList.contains('alarm'))
  .map(w => w.style.visibility)"""

# How far words stand from their own cell, and how far to its side the name among them.
_GAPS = """() => {
  const aside = (a, b) => Math.max(0, a.left - b.right, b.left - a.right);
  const gap = (a, b) =>
    Math.hypot(aside(a, b), Math.max(0, a.top - b.bottom, b.top - a.bottom));
  const words = [...document.querySelectorAll('.word.cell')]
    .filter(w => w.style.display !== 'none' && w.style.visibility === 'visible');
  return [...document.querySelectorAll('.mark.cell')].flatMap(m => {
    const cell = m.querySelector('svg > :first-child');
    return words.filter(w => w.textContent === m.getAttribute('aria-label'))
      .map(w => [gap(w.getBoundingClientRect(), cell.getBoundingClientRect()),
        aside(w.firstChild.getBoundingClientRect(), cell.getBoundingClientRect())]);
  });
}"""


@pytest.fixture(scope="module")
def browser(chromium: str) -> Iterator[Browser]:
    """One browser for all tests here: starting one takes a second."""
    with a_browser(chromium) as started:
        yield started


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The maps under test, written once."""
    made = tmp_path_factory.mktemp("maps")
    for name, page in (
        ("small", map_html(a_plan())),
        ("big", map_html(a_big_plan())),
        ("hostile", map_html(a_plan(HOSTILE))),
        ("dateline", map_html(a_dateline_plan())),
        ("moving", map_html(a_moving_plan())),
        ("crowded", map_html(a_crowded_plan())),
    ):
        (made / f"{name}.html").write_text(page, encoding="utf-8")
    return made


def test_the_helper_sees_trouble(browser: Browser, tmp_path: Path) -> None:
    """A page that asks outside, fails and opens a dialog is caught at all three."""
    page = tmp_path / "bad.html"
    page.write_text("<img src='http://example.invalid/a.png'><script>alert(1);no()</script>")
    with visit(browser, page) as seen:
        assert "http://example.invalid/a.png" in seen.asked
        assert "dialog: 1" in seen.complaints
        assert any("no is not defined" in text for text in seen.complaints)


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
@pytest.mark.parametrize("name", ["small", "big", "hostile", "dateline"])
def test_opens_with_the_network_off(
    browser: Browser, folder: Path, name: str, size: tuple[int, int]
) -> None:
    """The page asks for itself and nothing else, and the console stays empty."""
    file = folder / f"{name}.html"
    with visit(browser, file, size) as seen:
        seen.page.click("[data-all]")
        seen.page.locator(".mark.cell").first.dispatch_event("click")
        seen.page.wait_for_selector(".leaflet-popup-content")

        assert [file.as_uri()] == seen.asked
        assert [] == seen.complaints


@pytest.mark.parametrize("size", [DESK, PHONE, (820, 600), (1024, 600), (1180, 600)])
def test_no_panel_lies_on_another(browser: Browser, folder: Path, size: tuple[int, int]) -> None:
    """Scale, days, zoom, title and key: a scale whose end is hidden measures nothing."""
    with visit(browser, folder / "big.html", size) as seen:
        boxes = seen.page.evaluate(
            """() => ['.leaflet-control-scale', 'nav.days', '.leaflet-control-zoom', '.plate',
              '#key'].map(one => document.querySelector(one).getBoundingClientRect())
              .map(r => [r.left, r.top, r.right, r.bottom])"""
        )

    assert 5 == len(boxes)
    assert [] == [(a, b) for a, b in combinations(boxes, 2) if _lie_on_each_other(a, b)]


def _lie_on_each_other(one: list[float], other: list[float]) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def test_popups_show_the_names_as_they_were_typed(browser: Browser, folder: Path) -> None:
    """Every hostile name is read back from its popup character by character."""
    expected = [cut(one_line(name), 200) for name in HOSTILE]
    with visit(browser, folder / "hostile.html") as seen:
        shown = []
        for number in range(len(HOSTILE)):
            seen.page.locator(".mark.cell").nth(number).dispatch_event("click")
            shown.append(seen.page.locator(".leaflet-popup-content h3").last.text_content())

        assert expected == shown
        assert [] == seen.complaints


def test_long_names_are_told_apart_by_their_labels(browser: Browser, tmp_path: Path) -> None:
    """Start and end stand beside the mark, and no style cuts the end off again."""
    file, lane = tmp_path / "long.html", "Summer clearing above the winding lane by the"
    names = (f"{lane} old mill", f"{lane} new bridge", "WIDE WINDMILL MEADOW, WEST")
    file.write_text(map_html(a_plan((*names, *PLAIN[3:]))), encoding="utf-8")
    with visit(browser, file) as seen:
        labels = seen.page.evaluate(
            """() => [...document.querySelectorAll('.word.cell b')]
              .map(b => [b.textContent, b.scrollWidth <= b.clientWidth])"""
        )

    assert [
        ["Summer clearing … old mill", True], ["Summer … new bridge", True], [names[2], True],
    ] == labels[:3]  # fmt: skip


def test_a_script_that_got_in_would_not_run(browser: Browser, folder: Path) -> None:
    """The page's policy stops a script and a handler that are not its own."""
    with visit(browser, folder / "small.html") as seen:
        ran = seen.page.evaluate(
            """() => {
              const s = document.createElement('script');
              s.textContent = 'window.ran = 1';
              document.body.append(s);
              document.body.insertAdjacentHTML('beforeend', '<b onclick="window.ran=2">x</b>');
              document.body.lastChild.click();
              return window.ran ?? 0;
            }"""
        )

        assert 0 == ran
        assert any("Content Security Policy" in text for text in seen.complaints)


def test_online_tiles_ask_one_server_only(browser: Browser, tmp_path: Path) -> None:
    """With online tiles the page asks OpenStreetMap's tile server and nobody else."""
    file = tmp_path / "tiles.html"
    file.write_text(map_html(a_plan(), online_tiles=True), encoding="utf-8")
    with visit(browser, file, answer_with=_PIXEL) as seen:
        outside = [url for url in seen.asked if not url.startswith("file:")]

        assert outside
        assert all(url.startswith("https://tile.openstreetmap.org/") for url in outside)
        assert [] == seen.complaints
        assert seen.page.locator("text=OpenStreetMap contributors").is_visible()


def test_a_day_goes_and_comes_with_its_tab(browser: Browser, folder: Path) -> None:
    """The tab of a day hides its lines and shows them again, and says which it did."""
    # By hand, the drives of day 1 of the small plan: the shed to Long Paddock, to Willow
    # Bend, to Far Hut, to the honey house, home: five lines.
    with visit(browser, folder / "small.html") as seen:
        tab = seen.page.locator('.tab[data-day="1"]')
        lines = seen.page.locator("path.leaflet-interactive")
        before = lines.count()
        tab.click()

        assert before - 5 == lines.count()
        assert "false" == tab.get_attribute("aria-pressed")
        tab.click()
        assert before == lines.count()


def test_all_shows_all_and_hides_none(browser: Browser, folder: Path) -> None:
    """Pressed while every day is on already, the button takes nothing away."""
    with visit(browser, folder / "small.html") as seen:
        pressed = seen.page.locator('.tab[aria-pressed="true"]')
        for _ in range(2):
            seen.page.click("[data-all]")
            assert seen.page.locator(".tab").count() == pressed.count() > 1


def test_the_arrows_show_one_day_alone(browser: Browser, folder: Path) -> None:
    """With many days the first one ahead is shown; the arrow goes on to the next alone."""
    with visit(browser, folder / "big.html") as seen:
        pressed = seen.page.locator('.tab[aria-pressed="true"]')
        assert ["Wed 3 Mar2 trips"] == pressed.all_text_contents()
        seen.page.click('[data-step="1"]')
        assert ["Thu 4 Mar2 trips"] == pressed.all_text_contents()


@pytest.mark.parametrize("name", ["small", "big"])
def test_words_never_lie_on_words(browser: Browser, folder: Path, name: str) -> None:
    """Names and loads that are shown do not overlap, at phone width with all days on."""
    with visit(browser, folder / f"{name}.html", PHONE) as seen:
        seen.page.click("[data-all]")
        words = seen.page.evaluate(_WORDS)
        clashes = [
            (a, b)
            for number, a in enumerate(words)
            for b in words[:number]
            if min(a[2], b[2]) - max(a[0], b[0]) > 1 and min(a[3], b[3]) - max(a[1], b[1]) > 1
        ]

        assert len(words) >= 8
        assert [] == clashes


@pytest.mark.parametrize("name", ["small", "big"])
@pytest.mark.parametrize("size", [PHONE, (820, 1180), (1440, 900)])
def test_the_first_view_fills_the_room_that_panels_leave(
    browser: Browser, folder: Path, name: str, size: tuple[int, int]
) -> None:
    """No yard lies under a panel, and what panels leave is filled one way or the other."""
    with visit(browser, folder / f"{name}.html", size) as seen:
        cells = seen.page.evaluate(_CELLS)
        panels = seen.page.evaluate(
            """() => ['nav.days', '.leaflet-control-zoom', '.plate', '#key']
              .map(one => document.querySelector(one).getBoundingClientRect())
              .map(r => [r.left, r.top, r.right, r.bottom])"""
        )
    days, _, plate, key = panels
    left, top, right, bottom = (
        choose(cell[side] for cell in cells) for side, choose in enumerate((min, min, max, max))
    )
    beside_key = key[3] - key[1] > size[1] / 2
    room = (key[0] if beside_key else size[0]), days[1]

    assert [] == [(c, p) for c in cells for p in panels if _lie_on_each_other(c, p)]
    filled = (
        (right - left) / room[0],
        (bottom - top) / (room[1] - (plate[3] if left < plate[2] else 0)),
    )
    assert max(filled) > 0.7


@pytest.mark.parametrize("size", [(360, 740), PHONE, (768, 1024), DESK], ids=lambda one: one[0])
@pytest.mark.parametrize("name", ["small", "big", "moving", "crowded", "dateline", "hostile"])
def test_at_first_look_all_that_is_drawn_lies_in_the_free_room(
    browser: Browser, folder: Path, name: str, size: tuple[int, int]
) -> None:
    """Yards, later places, bases and words: none half past the edge, none under a panel."""
    with visit(browser, folder / f"{name}.html", size) as seen:
        _see_all_free(seen.page, size)


def test_a_phone_that_is_turned_looks_anew_until_somebody_moves_the_sheet(
    browser: Browser, folder: Path
) -> None:
    """Turned and made narrower all is in the free room again; a closer look stays as it was."""
    with visit(browser, folder / "small.html", (500, 844)) as seen:
        for size in ((844, 390), PHONE):
            seen.page.set_viewport_size({"width": size[0], "height": size[1]})
            seen.page.wait_for_timeout(250)
        _see_all_free(seen.page, PHONE)
        seen.page.click(".leaflet-control-zoom-in")
        seen.page.wait_for_timeout(500)
        before = seen.page.evaluate(_SPREAD)
        seen.page.set_viewport_size({"width": 360, "height": 740})
        seen.page.wait_for_timeout(250)
        assert before == pytest.approx(seen.page.evaluate(_SPREAD), abs=2)


def _see_all_free(page: Page, size: tuple[int, int]) -> None:
    marks, words, panels = page.evaluate(_MARKED), page.evaluate(_WORDS), page.evaluate(_PANELS)
    out = [
        box
        for box in (*marks, *words)
        if box[0] < 0 or box[1] < 0 or box[2] > size[0] or box[3] > size[1]
    ]

    assert len(marks) >= 2
    assert [] == out
    assert [] == [(a, b) for a in (*marks, *words) for b in panels if _lie_on_each_other(a, b)]


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_loads_lie_on_no_yard(browser: Browser, folder: Path, size: tuple[int, int]) -> None:
    """A day of forty yards, shown alone: no kilograms that are shown hide any part of a yard."""
    with visit(browser, folder / "big.html", size) as seen:
        seen.page.click('[data-step="1"]')
        loads, cells = seen.page.evaluate(_LOADS), seen.page.evaluate(_CELLS)
        hidden = [
            (a, b)
            for a in loads
            for b in cells
            if min(a[2], b[2]) - max(a[0], b[0]) > 1 and min(a[3], b[3]) - max(a[1], b[1]) > 1
        ]

        assert len(loads) >= 2
        assert len(cells) >= 30
        assert [] == hidden


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_yards_in_trouble_are_named_at_once(
    browser: Browser, folder: Path, size: tuple[int, int]
) -> None:
    """As the map opens, each yard that is suspect, or has work undone, has its name."""
    with visit(browser, folder / "big.html", size) as seen:
        found = seen.page.evaluate(_FLAGGED)

        assert found
        assert {"visible"} == set(found)


@pytest.mark.parametrize("size", [DESK, (768, 1024), PHONE], ids=["desk", "upright", "phone"])
@pytest.mark.parametrize("name", ["big", "crowded"])
def test_a_name_beside_its_yard_stands_at_it(
    browser: Browser, folder: Path, name: str, size: tuple[int, int]
) -> None:
    """However wide the words below: where those are within 14 px of a cell, so is the name."""
    with visit(browser, folder / f"{name}.html", size) as seen:
        seen.page.click("[data-all]")
        gaps = seen.page.evaluate(_GAPS)
        near = [(words, name) for words, name in gaps if words < 14]

        assert len(near) >= 3
        assert [] == [one for one in near if one[1] > 14]


def test_a_phone_can_reach_everything(browser: Browser, folder: Path) -> None:
    """On a phone nothing sticks out sideways and each control is a finger wide (44 px)."""
    # 44 CSS px: WCAG 2.1, success criterion 2.5.5 "Target Size".
    with visit(browser, folder / "big.html", PHONE) as seen:
        small = seen.page.evaluate(
            """() => [...document.querySelectorAll('button, summary, .leaflet-bar a, .mark')]
              .map(e => [e.className, e.offsetWidth, e.offsetHeight])
              .filter(e => e[1] < 44 || e[2] < 44)"""
        )
        assert [] == small
        assert PHONE[0] >= seen.page.evaluate("document.documentElement.scrollWidth")
        assert not seen.page.locator("#key").evaluate("key => key.open")
        seen.page.click("#key summary")
        assert seen.page.locator("text=What this map does not know").is_visible()


def test_neighbours_across_the_date_line_are_drawn_as_neighbours(
    browser: Browser, folder: Path
) -> None:
    """Yards at 179.9 east and 179.9 west stand beside each other on the screen."""
    with visit(browser, folder / "dateline.html", PHONE) as seen:
        west, east = seen.page.evaluate(_MARKS)

        assert 40 < east["x"] - west["x"] < PHONE[0]


def test_a_phone_shows_the_key_in_the_language_spoken(browser: Browser, tmp_path: Path) -> None:
    """The short word beside the title is the catalogue's, not the style sheet's."""
    made = tmp_path / "de.html"
    with speaking("de"):
        made.write_text(map_html(a_plan()), encoding="utf-8")
        short = tr("Key")
    with visit(browser, made, PHONE) as seen:
        shown = seen.page.evaluate(
            "getComputedStyle(document.querySelector('#key summary'), '::before').content"
        )
        assert f'"{short}"' == shown
        assert "Key" != short
