"""The one door through which other people's words pass on their way into a paper.

Names, notes and phone numbers come from files that somebody borrowed from somebody else.
Every such string passes here, once, at the moment it is put into a page, a table cell, a
calendar line, a text message or a file name.
"""

import html
import re
import unicodedata
from hashlib import sha256

_LINE_ENDS = re.compile(r"\r\n|[\n\r\x0b\x0c\x1c-\x1e\x85\u2028\u2029]")
_UNPRINTABLE = re.compile(r"[\x00-\x08\x0e-\x1b\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff]")
_TURNS = re.compile(r"[\u200e\u200f\u202a-\u202e\u2066-\u2069\u061c]")
_LIVE = {ord(char): f"&#{ord(char)};" for char in "`${}\\"}
_SHEET_CODE = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")
_BESIDE_FIGURE = re.compile(
    r"(?<=[0-9]) (?=(?:kg|L|km|mm|cm|min|h|\u00b0C|%)(?!\w))"
    r"|(?<=[0-9][ \u00a0]h) (?=[0-9]{2}(?!\w))"
    r"| (?=\u2026 )|(?<= \u2026) "
)
"""The blank between a figure and its unit, within hours and minutes, and where a name is cut."""
_FORMULA = re.compile(r"[ \u00a0\ufeff]*\t|[\s\ufeff]*[=+\-@\uff1d\uff0b\uff0d\uff20]")
_NUMBERED = (f"{stem}{digit}" for stem in ("com", "lpt") for digit in range(10))
_WINDOWS_NAMES = frozenset(["con", "prn", "aux", "nul", *_NUMBERED])
_PHONE_LETTERS = frozenset("£¥èéùìòÇØøÅåΔΦΓΛΩΠΨΣΘΞÆæßÉ¤¡ÄÖÑÜ§¿äöñüà€")
"""What a text message says besides ASCII (3GPP TS 23.038, GSM 7 bit default alphabet)."""
_PHONE_MARKS = str.maketrans(
    {
        "\t": " ", "\u00a0": " ", "\u2009": " ", "\u202f": " ", "\u2026": "...", "\u00d7": "x",
        **dict.fromkeys("\u00b4\u0060\u2018\u2019", "'"),
        **dict.fromkeys("\u201c\u201d\u201e\u00ab\u00bb", '"'),
        **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"),
    }
)  # fmt: skip
_FRACTION = re.compile(r"(\d?)([\u00bc-\u00be\u2150-\u215e\u2189])")
_GAP = " \u2026 "
LONGEST_FILE_NAME = 80
LONGEST_SHEET_NAME = 31


def one_line(text: str) -> str:
    """Return ``text`` on one line: each line end a space, each unprintable one U+FFFD."""
    return _UNPRINTABLE.sub("\ufffd", _LINE_ENDS.sub(" ", text))


def html_text(text: str) -> str:
    """Return ``text`` as HTML that shows just those characters, in text or attribute.

    Characters that mean something to a template engine or a script literal become numeric
    entities as well, so that a map library cannot read them as code.
    """
    return html.escape(one_line(text), quote=True).translate(_LIVE)


def words_html(text: str) -> str:
    """Return a sentence as HTML likewise, each figure kept beside its unit: 1,234 kg, 2 h 05.

    So are the words on both sides of where a name is cut.
    """
    return html_text(units_kept(text))


def units_kept(text: str) -> str:
    """Return ``text`` with no line ending between a figure and its unit, nor where it is cut."""
    return _BESIDE_FIGURE.sub("\u00a0", text)


def csv_cell(text: str) -> str:
    """Return ``text`` as a table cell that no spreadsheet takes for a formula.

    An apostrophe goes in front where the first sign that is not a blank could start one.
    Quoting of commas and quotes is the CSV writer's work.
    """
    clean = one_line(text)
    return f"'{clean}" if _FORMULA.match(clean) else clean


def sheet_cell(text: str) -> str:
    """Return ``text`` for a cell of a workbook, to be stored as a string and nothing else.

    Readers of workbooks take ``_x0041_`` for a letter A (ECMA-376 part 1, ST_Xstring), so
    the first line of such a code is written as a code itself.
    """
    return _SHEET_CODE.sub("_x005F_", one_line(text))


def sheet_name(text: str) -> str:
    """Return ``text`` as the name of a sheet: plain signs, at most 31, two texts never alike.

    Of a longer one start and end stay: of a trip's name its day and its time.
    """
    safe = file_name(text)
    if len(safe) <= LONGEST_SHEET_NAME and safe != "history":  # a name Excel keeps for itself
        return safe
    mark = sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:8]
    end = safe[-len("-0817") :] if len(safe) > LONGEST_SHEET_NAME else ""
    return f"{safe[: LONGEST_SHEET_NAME - len(mark) - 1 - len(end)]}-{mark}{end}"


def message_text(text: str) -> str:
    """Return ``text`` for a text message: one line, no turns of direction, plain Latin.

    Letters that every phone has stay, and so do other scripts; of others accents are dropped
    where a plain letter is left.  Fractions are written out, marks are those of a typewriter.
    """
    flat = unicodedata.normalize("NFC", _TURNS.sub("", one_line(text))).translate(_PHONE_MARKS)
    return "".join(_plain_letter(char) for char in _FRACTION.sub(_written_out, flat))


def _written_out(found: re.Match[str]) -> str:
    before, fraction = found.groups()
    plain = unicodedata.normalize("NFKD", fraction).replace("\u2044", "/")
    return f"{before} {plain}" if before else plain


def _plain_letter(char: str) -> str:
    if char in _PHONE_LETTERS:
        return char
    parts = unicodedata.normalize("NFD", char)
    plain = "".join(part for part in parts if not unicodedata.combining(part))
    return plain if plain.isascii() and plain else char


def file_name(text: str) -> str:
    """Return ``text`` as a file name without ending, safe on every common system.

    Lower-case letters, digits, dot, dash and underscore stay.  Where anything else had to
    go a short mark made from the whole text is added, so that two texts never share a name.
    """
    safe = re.sub(r"[^a-z0-9._-]+", "-", text.lower()).strip(".-")[: LONGEST_FILE_NAME - 11]
    taken = safe.split(".")[0] in _WINDOWS_NAMES
    if safe and safe == text and not taken:
        return safe
    mark = sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:8]
    return f"x-{safe}-{mark}" if taken or not safe else f"{safe}-{mark}"


def cut(text: str, most: int) -> str:
    """Return ``text`` if it has at most ``most`` characters, else its start and an ellipsis.

    It ends between words, unless that left out most of what there is room for.
    """
    return text if len(text) <= most else f"{_start(text, most - 1)}\u2026"


def cut_name(name: str, most: int) -> str:
    """Return ``name`` if it has at most ``most`` characters, else its start and its end.

    What tells long names apart often stands last.  They part between words, unless that left
    out most of what there is room for.
    """
    if len(name) <= most:
        return name
    room = most - len(_GAP)
    end = _start(name[::-1], room // 2)[::-1]
    return f"{_start(name, room - len(end))}{_GAP}{end}"


def _start(text: str, room: int) -> str:
    words = text[: room + 1].rpartition(" ")[0].rstrip()
    return words if len(words) * 3 >= room else text[:room].rstrip()


def shown(text: str, most: int = 60) -> str:
    """Return ``text`` as it may stand inside a sentence on paper.

    One line, blanks single, at most ``most`` characters, no marks that turn the direction
    of the words after it; right-to-left words are kept apart from their neighbours.
    """
    return _kept_apart(cut(_single(text), most))


def shown_name(name: str, most: int = 60) -> str:
    """Return a name as ``shown`` does, but cut in its middle where it is too long."""
    return _kept_apart(cut_name(_single(name), most))


def _single(text: str) -> str:
    return " ".join(_TURNS.sub("", one_line(text)).split())


def _kept_apart(plain: str) -> str:
    turned = any(unicodedata.bidirectional(char) in {"R", "AL"} for char in plain)
    return f"\u2068{plain}\u2069" if turned else plain
