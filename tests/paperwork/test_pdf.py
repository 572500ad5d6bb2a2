"""Drivers' papers as the PDF extra lays them out."""

import pytest

from runplanner.paperwork.look import Look, dressed
from runplanner.paperwork.manifest_page import manifest_page
from runplanner.paperwork.tongue import languages, speaking
from tests.paperwork.test_manifest_fit import sheet_of

# Margins of 9 mm at either side, in the 96ths of an inch that pages are measured in.
SIDE = 9 / 25.4 * 96


@pytest.mark.parametrize("look", [Look(), Look(large=True), Look(paper="letter", large=True)])
@pytest.mark.parametrize("language", languages())
def test_no_word_runs_off_the_sheet(language: str, look: Look) -> None:
    """Every word ends before the right margin: a latest time cut in two is worse than none."""
    weasyprint = pytest.importorskip("weasyprint", reason="no WeasyPrint here: no PDF was tried")
    with speaking(language):
        made = dressed(manifest_page(sheet_of(3)), look)
    pages = weasyprint.HTML(string=made).render().pages
    ends = [
        (box.position_x + box.width, box.text)
        for page in pages
        for box in page._page_box.descendants()
        if hasattr(box, "text")
    ]

    assert len(ends) > 100
    right = min(page.width for page in pages) - SIDE
    assert [] == [text for end, text in ends if end > right + 1]
