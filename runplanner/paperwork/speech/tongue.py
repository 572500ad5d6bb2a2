"""The words of the papers in another language: one catalogue, gettext's, read through Babel.

English stands in the code, where a reader of the code needs it; ``words/LANGUAGE.po`` holds
the rest.  Code says ``tr("Load at {place}", place=...)``; what people typed goes in as a part
and is never looked up, nor searched for braces.  The only door for Babel.
"""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from datetime import date
from functools import cache
from gettext import GNUTranslations, NullTranslations
from importlib.resources import files
from io import BytesIO
from typing import TYPE_CHECKING

from runplanner.errors import RunplannerError
from runplanner.phrase import (
    Land,
    Number,
    Part,
    Phrase,
    english_day,
    filled,
    in_english,
    phrase,
)

if TYPE_CHECKING:
    from babel.messages.catalog import Catalog

ENGLISH = "en"
LANGUAGE = "RUNPLANNER_LANGUAGE"
"""The variable of the environment that names the language where nobody asks for one."""
_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_SPOKEN: ContextVar[str] = ContextVar("language", default="")


@cache
def languages() -> tuple[str, ...]:
    """Return the languages there are: English, then those with a catalogue."""
    names = (path.name for path in files("runplanner.paperwork").joinpath("words").iterdir())
    return (ENGLISH, *sorted(name[:-3] for name in names if name.endswith(".po")))


@contextmanager
def speaking(language: str) -> Iterator[None]:
    """Say everything in ``language`` until the end of the block.

    Raises:
        ValueError: When there is no catalogue for it.
    """
    if language not in languages():
        raise ValueError(f"language must be one of {', '.join(languages())}, not {language!r}")
    before = _SPOKEN.set(language)
    try:
        yield
    finally:
        _SPOKEN.reset(before)


def spoken() -> str:
    """Return the language that is spoken now: asked for, or of the environment, or English.

    Raises:
        RunplannerError: When the environment asks for one without a catalogue.
    """
    language = _SPOKEN.get() or os.environ.get(LANGUAGE, "") or ENGLISH
    if language not in languages():
        raise RunplannerError(no_language(language))
    return language


def no_language(typed: str) -> Phrase:
    """Return that the environment asks for a language without a catalogue."""
    known = ", ".join(languages())
    return phrase("{name} is {typed}, not one of {known}",
                  name=LANGUAGE, typed=repr(typed), known=known)  # fmt: skip


def tr(english: str, /, **parts: object) -> str:
    """Return a sentence in the language spoken, its ``{parts}`` put in."""
    words = _catalogue(spoken()).gettext(english)
    return _one_stop(words, words.format(**_said(parts))) if parts else words


def _one_stop(words: str, full: str) -> str:
    """Return a sentence without a second full stop: some parts, such as dates, bring their own."""
    doubled = words.endswith("}.") and full.endswith("..") and not full.endswith("...")
    return full[:-1] if doubled else full


def trn(one: str, many: str, number: int, /, **parts: object) -> str:
    """Return ``one`` or ``many`` as ``number`` asks for; ``{number}`` is put in as well."""
    words = _catalogue(spoken()).ngettext(one, many, number)
    return _one_stop(words, words.format(number=number, **_said(parts)))


def _said(parts: dict[str, object]) -> dict[str, object]:
    return {name: said(part) if isinstance(part, str) else part for name, part in parts.items()}


def said(text: str) -> str:
    """Return a phrase of the lower rooms in the language spoken; any other text as it is."""
    if isinstance(text, Land):
        return _land(spoken(), text)
    if not isinstance(text, Phrase):
        return _pointed(text) if isinstance(text, Number) else text
    if spoken() == ENGLISH or not text.one:
        return str(text)
    number = text.parts.get("number")
    words = _catalogue(spoken())
    if text.many and isinstance(number, int):
        return filled(words.ngettext(text.one, text.many, number), text.parts, _part)
    return filled(words.gettext(text.one), text.parts, _part)


def _part(part: Part) -> str:
    if isinstance(part, str):
        return said(part)
    return day_words(part) if isinstance(part, date) else in_english(part)


def _land(language: str, land: Land) -> str:
    if language == ENGLISH:
        return land
    from babel import Locale

    return str(Locale.parse(language).territories.get(land.code, land))


def _pointed(number: Number) -> str:
    return number.replace(".", decimal_sign())


def mark(english: str) -> str:
    """Return a word as it is; it is a word of the catalogue, and is said later."""
    return english


def day_words(when: date) -> str:
    """Return a date as ``Thu 4 Mar``, or as the language spoken writes it."""
    if spoken() == ENGLISH:
        return english_day(when)
    from babel.dates import format_skeleton

    return format_skeleton("MMMEd", when, locale=spoken())


def short_day(when: date) -> str:
    """Return a date as ``Thu 4``, enough beside a date that is near."""
    if spoken() == ENGLISH:
        return f"{_DAYS[when.weekday()]} {when.day}"
    from babel.dates import format_skeleton

    return format_skeleton("Ed", when, locale=spoken())


@cache
def _decimal_sign(language: str) -> str:
    if language == ENGLISH:
        return "."
    from babel.numbers import get_decimal_symbol

    return get_decimal_symbol(language)


def decimal_sign() -> str:
    """Return the sign between whole and part in the language spoken."""
    return _decimal_sign(spoken())


@cache
def _catalogue(language: str) -> NullTranslations:
    if language == ENGLISH:
        return NullTranslations()
    from babel.messages.mofile import write_mo

    compiled = BytesIO()
    write_mo(compiled, read_catalogue(language))
    compiled.seek(0)
    return GNUTranslations(compiled)


def read_catalogue(language: str) -> "Catalog":
    """Return the catalogue of ``language`` as it stands in its file."""
    from babel.messages.pofile import read_po

    path = files("runplanner.paperwork").joinpath("words", f"{language}.po")
    return read_po(BytesIO(path.read_bytes()), locale=language)
