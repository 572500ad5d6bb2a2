"""Latitudes and longitudes as people write them, as decimal degrees.

Taken: ``-38.01``, ``38.01 S``, ``38 01.2 S``, ``S38°01'12"``, ``38:01:12 S``.  Refused with
a cure: decimal commas, metres of a map grid, degrees and minutes run together, and whatever
could mean two things.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import Refusal

_MARKS: Final = str.maketrans(
    {
        **dict.fromkeys("\u00ba\u02da", "\u00b0"),
        **dict.fromkeys("\u2032\u2019\u2018\u00b4\u02b9`", "'"),
        **dict.fromkeys("\u2033\u201d\u201c\u02ba", '"'),
        **dict.fromkeys("\u2212\u2013", "-"),
        **dict.fromkeys("\u00a0\u2009\u202f", " "),
    }
)
_WORDS: Final = ((r"\bdeg(?:rees?)?\b\.?", "\u00b0"), (r"\bmin\b\.?", "'"), (r"\bsec\b\.?", '"'))
_LETTER: Final = re.compile(r"([NSEW])\s*(.*)|(.*?)\s*([NSEW])", re.IGNORECASE)
_PARTS: Final = re.compile(
    r"""([+-]?)\s*
    ([0-9]+(?:\.[0-9]+)?)
    (?:\s*[\u00b0:\s]\s*([0-9]+(?:\.[0-9]+)?)
      (?:\s*[':\s]\s*([0-9]+(?:\.[0-9]+)?)\s*(?:"|'')?)?
      \s*'?
    )?
    \s*\u00b0?""",
    re.VERBOSE,
)
_TRAILING: Final = re.compile(r"(.+?[NSEW])[\s,;/]*(.+?[NSEW])", re.IGNORECASE)
_LEADING: Final = re.compile(r"([NSEW].+?)[\s,;/]*([NSEW].+)", re.IGNORECASE)
_SIDE: Final = re.compile(r"(?:\u00b0|deg(?:rees?)?\b\.?)?\s*(?:[NSEW]|(?i:north|south|east|west))")
_MOST_SIGNS: Final = 80
"""Longer texts are no angle, and would keep the patterns below busy."""
_TWO_NUMBERS: Final = phrase(
    "Only the last of its numbers may have decimals; lat and lon go in columns of their own."
)
_TWO_COMMAS: Final = re.compile(r"([+-]?[0-9]+,[0-9]+)\s*[\s;/]\s*([+-]?[0-9]+,[0-9]+)")
_COMMA: Final = re.compile(r"[^,.]*[0-9],[0-9]+[^,.]*")
_TWO: Final = re.compile(r"([+-]?[0-9]+\.?[0-9]*)\s*[\s,;/]\s*([+-]?[0-9]+\.?[0-9]*)")


@dataclass(frozen=True, slots=True)
class Angle:
    """Decimal degrees, and the letter that was written with them, or nothing."""

    degrees: float
    letter: str


@dataclass(frozen=True, slots=True)
class Axis:
    """Latitude or longitude: its name, its letters, how far it goes."""

    word: Phrase
    letters: str
    most: int

    def allowed(self) -> Phrase:
        """Return in words what may stand there."""
        return phrase(
            "a {word} in degrees, such as {part}",
            word=self.word,
            part="-38.0125" if self.most == 90 else "175.06",
        )


LATITUDE: Final = Axis(phrase("latitude"), "NS", 90)
LONGITUDE: Final = Axis(phrase("longitude"), "EW", 180)
BY_LETTER: Final = {"N": LATITUDE, "S": LATITUDE, "E": LONGITUDE, "W": LONGITUDE}


def angle(said: str, axis: Axis) -> Angle:
    """Return the angle that was written; a letter of the other axis is the caller's to judge.

    Raises:
        Refusal: When it is none, or could mean two things.
    """
    if len(said) > _MOST_SIGNS:
        raise Refusal(axis.allowed(), _cure(""))
    text, letter = _without_letter(_plain(said))
    parts = _PARTS.fullmatch(text)
    if parts is None:
        raise Refusal(axis.allowed(), _cure(text))
    if letter and parts[1]:
        raise Refusal(axis.allowed(), phrase("Write a minus or a letter, not both."))
    degrees = _sum(parts, axis)
    if parts[1] == "-" or letter in {"S", "W"}:
        degrees = -degrees
    _check_size(degrees, BY_LETTER.get(letter, axis))
    return Angle(float(degrees), letter)


def names_side(text: str) -> bool:
    """Tell whether a text says on which side of the equator or of Greenwich angles lie."""
    return _SIDE.fullmatch(text) is not None


def dotted(said: str) -> str:
    """Return an angle with its decimal comma as a dot.

    Degrees have no thousands, so that one comma between digits can mean nothing else.
    """
    return said.replace(",", ".") if _COMMA.fullmatch(said[: _MOST_SIGNS + 1]) else said


def two_angles(said: str) -> tuple[str, str] | None:
    """Return the two halves of a position written in one cell, or None."""
    if len(said) > 2 * _MOST_SIGNS:
        return None
    text = _plain(said)
    for pattern in (_TRAILING, _LEADING, _TWO, _TWO_COMMAS):
        match = pattern.fullmatch(text)
        if match:
            return match[1], match[2]
    return None


def written(degrees: float) -> str:
    """Return degrees as they go into a table: six decimals at most, a tenth of a metre."""
    text = f"{degrees:.6f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _plain(said: str) -> str:
    text = said.translate(_MARKS).strip()
    for pattern, mark in _WORDS:
        text = re.sub(pattern, mark, text, flags=re.IGNORECASE)
    return text


def _without_letter(text: str) -> tuple[str, str]:
    match = _LETTER.fullmatch(text)
    if match is None:
        return text, ""
    rest = match[2] if match[1] else match[3]
    return rest.strip(), (match[1] or match[4]).upper()


def _sum(parts: re.Match[str], axis: Axis) -> Fraction:
    typed = [part for part in parts.group(2, 3, 4) if part is not None]
    if any("." in part for part in typed[:-1]):
        raise Refusal(axis.allowed(), _TWO_NUMBERS)
    if len(typed) > 1 and any(Fraction(part) >= 60 for part in typed[1:]):
        raise Refusal(axis.allowed(), phrase("Minutes and seconds stay below 60."))
    return sum((Fraction(part) / 60**place for place, part in enumerate(typed)), Fraction(0))


def _check_size(degrees: Fraction, axis: Axis) -> None:
    if abs(degrees) <= axis.most:
        return
    if abs(degrees) <= 180:
        raise Refusal(axis.allowed(), phrase("Look for lat and lon swapped."))
    if abs(degrees) < 20_000:
        cure = phrase("Degrees and minutes seem run together: write 38 01.2 S, not 3801.2 S.")
        raise Refusal(axis.allowed(), cure)
    cure = phrase("These look like metres of a map grid: save the file again with WGS 84 degrees.")
    raise Refusal(axis.allowed(), cure)


def _cure(text: str) -> Phrase:
    if re.fullmatch(r"[+-]?[0-9]{1,3},[0-9]+", text):
        return phrase("Write decimals with a dot: {replace}.", replace=text.replace(",", "."))
    if _TWO.fullmatch(text):
        return _TWO_NUMBERS
    return phrase("Write decimal degrees, or degrees, minutes and seconds with N, S, E or W.")
