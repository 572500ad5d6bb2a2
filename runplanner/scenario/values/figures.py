"""Plain figures: counts, degrees of latitude and longitude, sums of money."""

import re
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import ceil
from typing import Final

from runplanner.errors import no_commas
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import Refusal, takes
from runplanner.scenario.values.degrees import LATITUDE as LATITUDE_AXIS
from runplanner.scenario.values.degrees import LONGITUDE as LONGITUDE_AXIS
from runplanner.scenario.values.degrees import Axis, angle, written

# A spreadsheet hands over sums of decimals with up to seventeen digits.
_FIGURE: Final = re.compile(r"[+-]?[0-9]{1,12}(?:\.[0-9]{1,20})?")
_DOT: Final = phrase("Write digits, with a decimal point.")
_LONGEST: Final = 400
_DIGITS: Final = re.compile(r"[+-]?[0-9.]+")
_GROUPED: Final = re.compile(r"\+?([1-9][0-9]{0,2})((?:[.,][0-9]{3})+)")


@dataclass(frozen=True, slots=True)
class Whole:
    """Reads a whole number from ``least`` to ``most``; one of ``words`` may stand behind it."""

    least: int
    most: int
    words: tuple[str, ...] = ()

    def __call__(self, said: object) -> int:
        """Return the number.

        Raises:
            Refusal: When it is no whole number or outside the limits.
        """
        allowed = phrase("a whole number from {least} to {most}", least=self.least, most=self.most)
        said = self._alone(said)
        if meant := _ungrouped(said):
            raise Refusal(allowed, meant)
        number = _fraction(said, allowed, self, phrase("Write digits alone."))
        if number.denominator != 1:
            raise Refusal(allowed, phrase("Write it without a fraction."))
        if not self.least <= number <= self.most:
            raise Refusal(allowed, phrase("Check the number."))
        return int(number)

    def _alone(self, said: object) -> object:
        """Return what was typed without the word for what is counted: 24 for "24 hives"."""
        figure, blank, word = str(said).strip().rpartition(" ")
        return figure if blank and word.casefold() in self.words else said


@dataclass(frozen=True, slots=True)
class Figure:
    """Reads a number, perhaps with a decimal point, from ``least`` to ``most``."""

    word: Phrase
    least: int
    most: int

    def __call__(self, said: object) -> Fraction:
        """Return the number, exact.

        Raises:
            Refusal: When it is no number or outside the limits.
        """
        allowed = phrase(
            "{word} from {least} to {most}", word=self.word, least=self.least, most=self.most
        )
        number = _fraction(said, allowed, self)
        if not self.least <= number <= self.most:
            raise Refusal(allowed, phrase("Check the number."))
        return number


@dataclass(frozen=True, slots=True)
class Degrees:
    """Reads a latitude or longitude in decimal degrees; ``other`` is the negative side."""

    word: Phrase
    axis: Axis
    other: Phrase

    @property
    def most(self) -> int:
        """How far it goes."""
        return self.axis.most

    def __call__(self, said: object) -> float:
        """Return the degrees.

        Raises:
            Refusal: When it is no such angle.
        """
        allowed = phrase(
            "{word} in decimal degrees from -{most} to {most}", word=self.word, most=self.most
        )
        number = _fraction(said, allowed, self, self._in_decimals(str(said)))
        if not -self.most <= number <= self.most:
            wrapped = float((number + 180) % 360 - 180)
            is_east = self.most == 180 and abs(number) <= 360
            cure = (
                phrase("Write {wrapped}.", wrapped=written(wrapped))
                if is_east
                else phrase("Check for lat and lon swapped.")
            )
            raise Refusal(allowed, cure)
        return float(number)

    def _in_decimals(self, said: str) -> Phrase:
        """Return how to write an angle of degrees, minutes and seconds, or with a letter.

        Bare numbers such as "36 51" may be anything.
        """
        for typed in (said, re.sub(r"^\s*[-\N{MINUS SIGN}](?=.*[SW]\s*$)", "", said)):
            with suppress(Refusal):
                found = angle(typed, self.axis)
                bare = re.fullmatch(r"[-+0-9.\s]*", typed)
                if not bare and found.letter in {"", *self.axis.letters}:
                    return phrase("Write {wrapped}.", wrapped=written(found.degrees))
        return phrase("Write digits. {other} is negative, such as -36.85.", other=self.other)


LATITUDE: Final = Degrees(phrase("a latitude"), LATITUDE_AXIS, phrase("South"))
LONGITUDE: Final = Degrees(phrase("a longitude"), LONGITUDE_AXIS, phrase("West"))


@dataclass(frozen=True, slots=True)
class Money:
    """Reads a sum in units of the currency; ``per`` says for what, for the message."""

    per: Phrase

    def __call__(self, said: object) -> int:
        """Return whole cents, a part of a cent rounded up.

        Raises:
            Refusal: When it is no sum of money.
        """
        allowed = phrase("a sum for {per} from 0 to 1000000, such as 30 or 30.50", per=self.per)
        alone = phrase("Write the number alone; prices.currency names the money.")
        amount = _fraction(said, allowed, self, alone)
        if not 0 <= amount <= 1_000_000:
            raise Refusal(allowed, phrase("Check the number."))
        return ceil(amount * 100)


def _fraction(
    said: object, allowed: Phrase, parse: Callable[[object], object], hint: Phrase = _DOT
) -> Fraction:
    """Return a figure; of what a comma may mean only what ``parse`` takes is told."""
    text = _plain(said, allowed)
    if meant := no_commas(text[:40], takes(parse)):
        raise Refusal(allowed, meant)
    if not _FIGURE.fullmatch(text):
        raise Refusal(allowed, phrase("Check the number.") if _DIGITS.fullmatch(text) else hint)
    return Fraction(text)


def _ungrouped(said: object) -> Phrase | None:
    """Return how to write a count in groups of three digits, such as 1.000; None for others."""
    found = _GROUPED.fullmatch(_text(said).strip())
    if found is None:
        return None
    first, rest = found.groups()
    digits = first + re.sub("[.,]", "", rest)
    if rest[1:] == "000":
        return phrase("Write {thousands} or {ones}, without a mark.", thousands=digits, ones=first)
    return phrase("Write {thousands} if thousands are meant.", thousands=digits)


def _plain(said: object, allowed: Phrase) -> str:
    """Return the figure as text; no true or false."""
    if isinstance(said, bool) or not isinstance(said, int | Decimal | str):
        raise Refusal(allowed, phrase("Write a number."))
    return _text(said).strip().replace("\N{MINUS SIGN}", "-")


def _text(said: object) -> str:
    """Return a figure as text, without an exponent where it is not absurdly long."""
    short = isinstance(said, Decimal) and said.is_finite() and abs(said.adjusted()) <= _LONGEST
    return f"{said:f}" if short else str(said)
