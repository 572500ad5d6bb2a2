"""Drivers' papers as the PDF extra lays them out."""

from itertools import combinations
from typing import Any

import pytest

from runplanner.paperwork.driver.manifest_page import manifest_page
from runplanner.paperwork.sheet.look import Look, dressed
from runplanner.paperwork.speech.tongue import languages, speaking
from tests.paperwork.test_manifest_fit import sheet_with_boxes

# Margins of 9 mm at either side, in the 96ths of an inch that pages are measured in.
SIDE = 9 / 25.4 * 96


@pytest.mark.parametrize("look", [Look(), Look(large=True), Look(paper="letter", large=True)])
@pytest.mark.parametrize("language", languages())
def test_every_word_has_its_own_place_on_the_sheet(language: str, look: Look) -> None:
    """Every word ends before the right margin, and none is printed over another.

    A latest time cut in two, or boxes to stop at under other words, are worse than none.  On one
    stop's sheet normal type is as large as it gets.
    """
    weasyprint = pytest.importorskip("weasyprint", reason="no WeasyPrint here: no PDF was tried")
    for stops in (1, 3):
        with speaking(language):
            made = dressed(manifest_page(sheet_with_boxes(stops)), look)
        pages = weasyprint.HTML(string=made).render().pages
        right = min(page.width for page in pages) - SIDE
        for page in pages:
            boxes = [box for box in page._page_box.descendants() if hasattr(box, "text")]
            assert len(boxes) > 10
            ends = ((box.position_x + box.width, box.text) for box in boxes)
            assert [] == [text for end, text in ends if end > right + 1]
            pairs = combinations(boxes, 2)
            assert [] == [(one.text, two.text) for one, two in pairs if _overlap(one, two)]


def _overlap(one: Any, two: Any) -> bool:
    """Say whether two boxes of text share more than a third of the lower one's height."""
    across = min(one.position_x + one.width, two.position_x + two.width) - max(
        one.position_x, two.position_x
    )
    down = min(one.position_y + one.height, two.position_y + two.height) - max(
        one.position_y, two.position_y
    )
    return bool(across > 1 and down > min(one.height, two.height) / 3)
