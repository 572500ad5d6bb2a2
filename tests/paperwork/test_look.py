"""Tests of paper sizes and large type."""

from base64 import b64encode
from functools import cache
from hashlib import sha256

import pytest

from runplanner.paperwork.data.workbook import manifests_xlsx
from runplanner.paperwork.sheet.look import PAPERS, PLAIN, Look, dressed, style
from runplanner.paperwork.sheet.page import el, page
from runplanner.paperwork.write_all import papers
from tests.paperwork.pages import Page
from tests.paperwork.plans import hostile_plan, small_plan


@cache
def hostile_pages() -> tuple[tuple[str, str], ...]:
    """Every page with hostile words in it, but the map, which is not printed like this."""
    found = papers(hostile_plan())
    return tuple(one for one in found if one[0].endswith(".html") and one[0] != "map.html")


LOOKS = [Look(paper, large) for paper in PAPERS for large in (False, True)]


@pytest.mark.parametrize("look", LOOKS)
def test_a_dressed_page_still_allows_its_own_sheet_alone(look: Look) -> None:
    """The policy names the digest of the sheet that stands in the page, in every look."""
    made = Page(dressed(page("T", el("p", "words")), look))

    digest = b64encode(sha256(made.css.encode()).digest()).decode()
    assert any(f"style-src 'sha256-{digest}'" in value for value in made.values("content"))


@pytest.mark.parametrize("look", LOOKS)
def test_only_the_sheet_changes(look: Look) -> None:
    """Words and elements are the same in every look, whatever people typed."""
    for name, text in hostile_pages():
        plain, made = Page(text), Page(dressed(text, look))
        assert (plain.words, plain.tags) == (made.words, made.tags), name


def test_each_look_has_its_paper_and_type() -> None:
    """A4 or Letter is asked of the printer; large type comes on top of the same sheet."""
    assert "size: A4 portrait" in style()
    assert "size: letter portrait" in style(Look("letter"))
    assert "A4 portrait" not in style(Look("letter", large=True))
    assert style(Look(large=True)).startswith(style())
    assert "Large type" in style(Look(large=True))


def test_nothing_rests_on_colour() -> None:
    """Black on white and nothing else: a printer without colour loses nothing."""
    for look in LOOKS:
        colours = {word for word in style(look).replace(";", " ").split() if word.startswith("#")}
        assert colours <= {"#000", "#fff"}
        assert "rgb" not in style(look)


def test_other_texts_are_left_alone() -> None:
    """A table, or a page that is no paper, has no sheet to change; plain stays plain."""
    assert "a,b\n" == dressed("a,b\n", Look("letter"))
    assert page("T") == dressed(page("T"), PLAIN)


def test_an_unknown_paper_is_refused() -> None:
    """There is no rule for A5."""
    with pytest.raises(ValueError, match="paper must be a4 or letter, not 'a5'"):
        Look("a5")
    with pytest.raises(ValueError, match="language must be one of en, de, not 'xx'"):
        Look(language="xx")


@pytest.mark.parametrize(("paper", "number"), [("a4", "9"), ("letter", "1")])
def test_the_workbook_is_set_for_the_paper(paper: str, number: str) -> None:
    """ECMA-376 numbers A4 9 and Letter 1."""
    from io import BytesIO

    from openpyxl import load_workbook

    book = load_workbook(BytesIO(manifests_xlsx(small_plan(), paper)))
    assert {number} == {str(sheet.page_setup.paperSize) for sheet in book.worksheets}
