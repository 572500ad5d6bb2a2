"""Tests of the door that other people's words pass through."""

import csv
import io
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.paperwork.escape import (
    LONGEST_FILE_NAME,
    csv_cell,
    cut,
    cut_name,
    file_name,
    html_text,
    message_text,
    one_line,
    shown,
    shown_name,
)

HOSTILE = (
    "{{7*7}}",
    "{% raw %}",
    "<img src=x onerror=alert(1)>",
    "</style></script><script>alert(1)</script>",
    "${alert(1)} `x` \\u0041",
    "\"quoted\" and 'quoted' &amp; &#123;",
    "line\none\r\ntwo\u2028three\u2029four",
    "\u202eright to left\u202c \u05d0\u05d1",
    '=HYPERLINK("x")',
    "long " * 2_000,
    "\x00\x07\ud800",
)  # fmt: skip


class Reader(HTMLParser):
    """Collects what a browser would show, and every element it would make."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.text = ""
        self.tags: list[tuple[str, list[tuple[str, str | None]]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element."""
        self.tags.append((tag, attrs))

    def handle_data(self, data: str) -> None:
        """Note its words."""
        self.text += data


def read(page: str) -> Reader:
    """Return ``page`` as read."""
    reader = Reader()
    reader.feed(page)
    reader.close()
    return reader


@pytest.mark.parametrize("said", HOSTILE)
def test_html_shows_the_same_words(said: str) -> None:
    """What a browser shows is the input on one line, and no element comes of it."""
    page = read(f'<p title="{html_text(said)}">{html_text(said)}</p>')

    assert page.text == one_line(said)
    assert page.tags == [("p", [("title", one_line(said))])]


@given(st.text())
def test_html_leaves_nothing_live(said: str) -> None:
    """No sign that a template, a script literal or HTML could read is left bare."""
    made = html_text(said)

    assert not set("`${}\\<>\"'\n\r\u2028\u2029") & set(made)
    assert one_line(said) == read(made).text
    made.encode("utf-8")


@pytest.mark.parametrize(
    ("said", "cell"),
    [
        ("=HYPERLINK(1)", "'=HYPERLINK(1)"),
        ("+64 21 000", "'+64 21 000"),
        ("-1", "'-1"),
        ("@SUM", "'@SUM"),
        ("\t=1", "'\t=1"),
        (" \n=1", "'  =1"),
        ("\x1e=1", "' =1"),
        ("\u2003=1", "'\u2003=1"),
        ("\tx", "'\tx"),
        ("\uff1d1", "'\uff1d1"),
        ("Mill Lane = best", "Mill Lane = best"),
        ("", ""),
    ],
)
def test_csv_cell_is_no_formula(said: str, cell: str) -> None:
    """A cell that could start a formula gets an apostrophe; others stay as they are."""
    assert cell == csv_cell(said)


@given(st.text())
def test_csv_cell_is_one_safe_line(said: str) -> None:
    """Whatever the text, the cell is one row of CSV and starts no formula."""
    sheet = io.StringIO()
    csv.writer(sheet).writerow([csv_cell(said), "end"])

    (row,) = csv.reader(io.StringIO(sheet.getvalue()))
    assert row[1] == "end"
    assert not row[0].lstrip().startswith(("=", "+", "-", "@"))


@pytest.mark.parametrize(
    ("said", "sent"),
    [
        # Letters of the GSM alphabet stay, other accents go, other scripts stay.
        ("Größe", "Größe"),
        ("Gro\u0308ße", "Größe"),
        ("Bläser", "Bläser"),
        ("Peña é Café", "Peña é Café"),
        ("Whang\u0101rei\n\u00e1\t\u202ea \u05d0", "Whangarei a a \u05d0"),
        ("\u0439\u304c", "\u0439\u304c"),
        # Nothing that means something is run into its neighbour.
        ("Mile 2½", "Mile 2 1/2"),
        ("¼ acre", "1/4 acre"),
        ("5 m²", "5 m²"),
        ("O´Brien", "O'Brien"),
        ("O\u2019Brien \u2013 \u201eNord\u201c\u2026", 'O\'Brien - "Nord"...'),
    ],
)
def test_message_text_is_plain_latin_where_it_can_be(said: str, sent: str) -> None:
    """Names read as they were typed, in letters that do not make a text shorter."""
    assert sent == message_text(said)


@pytest.mark.parametrize(
    "said", [*HOSTILE, "", "..", "con", "CON", "nul.txt", "Mill Lane", "a/b\\c"]
)
def test_file_name_is_safe(said: str) -> None:
    """A file name holds only plain signs, is not too long and is no device's name."""
    made = file_name(said)

    assert set(made) <= set("abcdefghijklmnopqrstuvwxyz0123456789._-")
    assert 0 < len(made) <= LONGEST_FILE_NAME
    assert made[0] not in ".-"
    assert made.split(".")[0] not in {"con", "nul"}


def test_file_name_keeps_a_safe_name() -> None:
    """A name that is safe already is not touched."""
    assert "d03-blue-2" == file_name("d03-blue-2")


@given(st.text(), st.text())
def test_file_names_do_not_meet(one: str, other: str) -> None:
    """Two different texts never share a file name, whatever the case of their letters."""
    assert (one == other) == (file_name(one).lower() == file_name(other).lower())


def test_cut_says_that_it_cut() -> None:
    """A long text ends in an ellipsis and keeps to the length; a short one is whole."""
    assert "abcd\u2026" == cut("abcd efgh", 6)
    assert "abcdef" == cut("abcdef", 6)


def test_cut_ends_between_words() -> None:
    """As names do that keep their end; one long word is cut all the same."""
    assert "Orchard behind the\u2026" == cut("Orchard behind the brickworks", 24)
    assert "Orchardbehindthebrickwo\u2026" == cut("Orchardbehindthebrickworks", 24)
    assert "A behindthebrickworksan\u2026" == cut("A behindthebrickworksandmore", 24)


@pytest.mark.parametrize(
    ("name", "most", "told"),
    [
        (
            "Streuobstwiese hinter der alten Ziegelei am Waldrand Nord", 48,
            "Streuobstwiese hinter der \u2026 am Waldrand Nord",
        ),
        ("Maximilian-Alexander von Hohenfels junior", 32, "Maximilian-Alexander \u2026 junior"),
        # One word, and one at the end: room 29, of which 14 for the end.
        ("Streuobstwiesenhinteraltenziegelei", 32, "Streuobstwiesen \u2026 raltenziegelei"),
        ("Hang an der Donaudampfschifffahrt", 32, "Hang an der \u2026 mpfschifffahrt"),
        ("Mill Lane", 9, "Mill Lane"),
    ],
)  # fmt: skip
def test_a_long_name_keeps_its_end(name: str, most: int, told: str) -> None:
    """What tells names apart stands last as often as first."""
    assert told == shown_name(name, most)
    assert len(told) <= most


@given(st.text(), st.integers(8, 60))
def test_a_name_is_never_longer_than_its_room(name: str, most: int) -> None:
    """Whatever is typed keeps to the length, and a short name is whole."""
    made = cut_name(name, most)

    assert len(made) <= most
    assert len(name) > most or made == name


def test_shown_keeps_its_direction_to_itself() -> None:
    """Marks that turn the text go; right-to-left words are set apart; the rest is kept."""
    assert "Mill Lane" == shown(" Mill \n Lane\u202e")
    assert "\u2068\u05d0\u05d1\u2069" == shown("\u202b\u05d0\u05d1")
