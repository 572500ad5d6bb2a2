"""Sentences for people that can be said in other languages later.

The lower rooms know no language.  They write English, as `Phrase`: a text that remembers the
sentence it was made from and what was put in.  It is stored, compared and sorted as the English
it reads as; the papers and the command line say it in the language asked for
(`paperwork/speech/tongue.py`), from the catalogue, where the sentence stands with its ``{parts}``
in braces.  What people typed goes in as a part, and is neither looked up nor searched for braces.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import Final, Self, Union

_DAYS: Final = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS: Final = (
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
)  # fmt: skip
_BRACES: Final = re.compile(r"\{([a-z_][a-z0-9_]*)\}")


class Number(str):
    """A number as text, digits with a decimal point: other languages may write a comma."""

    __slots__ = ()


class Land(str):
    """A country by its English name; ``code`` are its two letters by ISO 3166, "" of none."""

    __slots__ = ("code",)
    code: str

    def __new__(cls, english: str, code: str = "") -> Self:
        """Return the country."""
        made = super().__new__(cls, english)
        made.code = code
        return made


Part = Union[int, str, Number, Land, date, "Phrase"]
"""What may be put into a sentence: counts, typed words, numbers, countries, days, phrases."""


class Phrase(str):
    """The English text of a sentence, with what it was made of.

    Args:
        one: The sentence, its parts in braces; with ``many``, as it reads for one.
        parts: What is put in.
        many: The sentence for other numbers than one, by the part "number"; or "".
    """

    __slots__ = ("many", "one", "parts")
    one: str
    many: str
    parts: Mapping[str, Part]

    def __new__(cls, one: str, parts: Mapping[str, Part] | None = None, many: str = "") -> Self:
        """Return the phrase as it reads in English."""
        given = dict(parts or {})
        chosen = many if many and given.get("number") != 1 else one
        made = super().__new__(cls, filled(chosen, given, in_english))
        made.one, made.many, made.parts = one, many, given
        return made

    def __reduce__(self) -> tuple[type["Phrase"], tuple[str, Mapping[str, Part], str]]:
        """Say how to make it again, in another process as well."""
        return Phrase, (self.one, self.parts, self.many)


def phrase(english: str, /, **parts: Part) -> Phrase:
    """Return a sentence of the catalogue with its ``{parts}`` put in."""
    return Phrase(english, parts)


def counted(one: str, many: str, number: int, /, **parts: Part) -> Phrase:
    """Return ``one`` or ``many`` as ``number`` asks for; ``{number}`` is put in as well."""
    return Phrase(one, {"number": number, **parts}, many)


def joined(between: str, *parts: Part) -> Phrase:
    """Return parts one after the other, with signs ``between`` that all languages share."""
    put = {f"p{index}": part for index, part in enumerate(parts)}
    return Phrase(between.join(f"{{{name}}}" for name in put), put)


def some_of(names: Sequence[str], most: int) -> str:
    """Return names with commas; past ``most`` of them, how many more there are."""
    first, more = ", ".join(names[:most]), len(names) - most
    return phrase("{names} and {number} more", names=first, number=more) if more > 0 else first


def verbatim(typed: str) -> Phrase:
    """Return what somebody typed, or a file says, as a phrase that is never looked up."""
    return joined("", typed)


def named(sentence: str) -> list[str]:
    """Return the names in braces in a sentence, each as often as it stands there."""
    return _BRACES.findall(sentence)


def filled(sentence: str, parts: Mapping[str, Part], say: Callable[[Part], str]) -> str:
    """Return ``sentence`` with its parts said; braces without a part stay as they are.

    Nothing but names in braces is understood: a sentence may come from a plan file.
    """
    return _BRACES.sub(
        lambda found: say(parts[found[1]]) if found[1] in parts else found[0], sentence
    )


def in_english(part: Part) -> str:
    """Return a part as English writes it."""
    return english_day(part) if isinstance(part, date) else str(part)


def english_day(when: date) -> str:
    """Return a date as ``Thu 4 Mar``."""
    return f"{_DAYS[when.weekday()]} {when.day} {_MONTHS[when.month - 1]}"
