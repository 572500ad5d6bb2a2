"""Tests of building pages."""

from base64 import b64encode
from hashlib import sha256

import pytest

from runplanner.paperwork.sheet.page import bullets, el, link, page, put, table
from tests.paperwork.pages import Page


def test_an_element_escapes_plain_text_once() -> None:
    """Plain text is escaped wherever it goes in; elements made already are not."""
    assert '<p class="a&quot;b">1 &lt; 2<b>&amp;</b></p>' == el(
        "p", "1 < 2", el("b", "&"), cls='a"b'
    )
    assert "" == bullets([])
    assert "a&lt;" == put("a<")


def test_a_table_names_its_columns() -> None:
    """A table has a head row and a cell for every part."""
    read = Page(table(("A", "B"), [("1", link("two", "two.html"))]))

    assert ["A", "B", "1", "two"] == read.words
    assert 1 == read.tags.count("thead")
    assert ["two.html"] == read.values("href")


def test_a_page_allows_its_own_style_and_nothing_else() -> None:
    """The policy names the digest of the very style that stands in the page."""
    read = Page(page("T", el("p", "words")))

    digest = b64encode(sha256(read.css.encode()).digest()).decode()
    policies = [value for value in read.values("content") if "default-src" in value]
    assert [
        f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
    ] == policies
    assert "script" not in read.tags


def test_the_style_asks_for_nothing() -> None:
    """No font, image or sheet is fetched from anywhere."""
    read = Page(page("T"))

    for word in ("url(", "@import", "http", "//"):
        assert word not in read.css


def test_a_cell_carries_its_head_for_phones() -> None:
    """All but the first, and but empty ones; a head is escaped as any attribute."""
    read = Page(table(("A", 'B"x', "C"), [("1", "2", ""), ("3", "4", "5")]))

    assert ['B"x', 'B"x', "C"] == read.values("data-head")


def test_a_line_that_lacks_a_cell_is_a_fault() -> None:
    """A cell under a wrong head would mislead; nothing is left out without a word."""
    with pytest.raises(ValueError, match="shorter"):
        table(("A", "B"), [("1",)])


def test_a_cell_with_one_long_word_may_break_it() -> None:
    """Eighteen signs without a blank or a hyphen; what marks up a cell does not count."""
    line = ("", el("b", "Bramblewick-upon-Sedgewater"), el("b", "Streuobstwiesenhang"))

    assert (
        '<td data-head="Yard"><b>Bramblewick-upon-Sedgewater</b></td>'
        '<td class="wide" data-head="Lot"><b>Streuobstwiesenhang</b></td>'
    ) in table(("", "Yard", "Lot"), [line])


def test_a_long_first_cell_may_wrap_and_a_day_with_its_hours_not() -> None:
    """Names of yards stand first where visits moved; kept on one line they ran out of the page."""
    lines = [("Waerterhaus am Uebergang zum Moos", "x"), ("Thu 25 Feb 08:00\u201312:00", "x")]
    made = table(("", "What"), lines)

    assert '<td class="wide">Waerterhaus am Uebergang zum Moos</td>' in made
    assert "<td>Thu 25 Feb 08:00\u201312:00</td>" in made
