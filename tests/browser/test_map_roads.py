"""The map on real roads as a browser shows it, with the network off."""

from collections.abc import Iterator
from pathlib import Path

import pytest

pytest.importorskip("playwright", reason="no playwright here: no page was tried in a browser")

from playwright.sync_api import Browser

from runplanner import plan_map
from runplanner.paperwork.map.page import map_html
from tests.browser.visits import DESK, PHONE, a_browser, visit
from tests.paperwork.map_plans import a_dateline_plan, a_plan
from tests.paperwork.test_map_roads import a_sketch

pytestmark = pytest.mark.browser
# How many of the ground's pixels are not clear.
_INKED = """() => {
  const canvas = document.querySelector('.leaflet-ground-pane canvas');
  const data = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height).data;
  let inked = 0;
  for (let i = 3; i < data.length; i += 4) { if (data[i]) { inked += 1; } }
  return inked;
}"""
_ENDS = """() => [...document.querySelectorAll('path.leaflet-interactive')]
  .map(path => path.getPointAtLength(path.getTotalLength() / 2)).map(p => [p.x, p.y])"""


@pytest.fixture(scope="module")
def browser(chromium: str) -> Iterator[Browser]:
    """One browser for all tests here."""
    with a_browser(chromium) as started:
        yield started


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The maps under test, written once."""
    made = tmp_path_factory.mktemp("maps")
    for name, plan in (("small", a_plan()), ("dateline", a_dateline_plan())):
        page = map_html(plan, roads=a_sketch(plan))
        (made / f"{name}.html").write_text(page, encoding="utf-8")
    (made / "bowed.html").write_text(map_html(a_plan()), encoding="utf-8")
    return made


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
@pytest.mark.parametrize("name", ["small", "dateline"])
def test_opens_with_the_network_off(
    browser: Browser, folder: Path, name: str, size: tuple[int, int]
) -> None:
    """Nothing is asked of any network, nothing is complained of, also when zoomed."""
    file = folder / f"{name}.html"
    with visit(browser, file, size) as seen:
        seen.page.click("[data-all]")
        seen.page.click(".leaflet-control-zoom-in")
        seen.page.wait_for_timeout(400)

        assert [file.as_uri()] == seen.asked
        assert [] == seen.complaints
        assert seen.page.locator(".plate .credit").is_visible()


def test_the_ground_is_drawn(browser: Browser, folder: Path) -> None:
    """The roads round about are ink on a canvas under the drives, which let clicks through."""
    with visit(browser, folder / "small.html") as seen:
        assert seen.page.evaluate(_INKED) > 300
        pane = seen.page.locator(".leaflet-ground-pane")
        assert "none" == pane.evaluate("pane => getComputedStyle(pane).pointerEvents")


def test_drives_follow_their_ways(browser: Browser, folder: Path) -> None:
    """The middle of a drive by way of a corner lies elsewhere than that of a bowed line."""
    with visit(browser, folder / "small.html") as seen:
        by_road = seen.page.evaluate(_ENDS)
    with visit(browser, folder / "bowed.html") as seen:
        bowed = seen.page.evaluate(_ENDS)

    assert len(by_road) == len(bowed) > 5
    moved = [abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in zip(by_road, bowed, strict=True)]
    assert sum(far > 15 for far in moved) > len(moved) / 2


def test_across_the_date_line_ways_are_short(browser: Browser, folder: Path) -> None:
    """A way over 180 degrees does not run round the globe."""
    with visit(browser, folder / "dateline.html") as seen:
        longest = seen.page.evaluate(
            "Math.max(...[...document.querySelectorAll('path.leaflet-interactive')]"
            ".map(path => path.getTotalLength()))"
        )

        assert longest < 3 * DESK[0]


def test_a_notebooks_frame_draws_the_map(browser: Browser, tmp_path: Path) -> None:
    """Inside the frame, cut off from everything, the map has its drives; no complaint."""
    file = tmp_path / "notebook.html"
    frame = plan_map(a_plan(), roads=a_sketch())._repr_html_()
    file.write_text(f'<!DOCTYPE html><meta charset="utf-8">{frame}', encoding="utf-8")
    with visit(browser, file) as seen:
        inside = seen.page.frame_locator("iframe")
        inside.locator("path.leaflet-interactive").first.wait_for(state="attached")

        assert [] == seen.complaints
        assert [file.as_uri()] == [one for one in seen.asked if one != "about:srcdoc"]
