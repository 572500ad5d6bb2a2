"""Lines on the health of a yard, and the licence under which it may be worked."""

import re
from collections.abc import Callable
from typing import Final

from runplanner.changes.counts.colonies import ailing
from runplanner.changes.draft import Draft
from runplanner.changes.said.a_day import date_on
from runplanner.changes.said.count_words import COLONIES
from runplanner.changes.said.line import Line
from runplanner.changes.said.names import a_yard, names_a_yard
from runplanner.outfit.yards import Health, Yard
from runplanner.phrase import Phrase, joined, phrase
from runplanner.scenario.yards.licence_part import a_licence, ends_before

_LICENCE: Final = re.compile(r"[(:#]?\s?(?:licence|license)\b", re.IGNORECASE)
_QUOTES: Final = " :\"'\u201c\u201d\u201e\u2018\u2019\u201a\u00ab\u00bb"


def told_health(health: Health) -> Callable[[Line, Draft], Draft]:
    """Return what a line does that tells the health of a yard."""

    def ail(line: Line, draft: Draft) -> Draft:
        if line.rest()[:1].isdigit() and not names_a_yard(line, draft):
            line.number(phrase("a number of colonies"))
            line.take(*COLONIES)
        yard = a_yard(line, draft, draft.outfit.yards)
        line.take(",")
        agreed = bool(line.take("feed agreed", "feeding agreed"))
        licence = _a_licence(line, yard) if health is Health.STANDSTILL else ""
        words = f"{health} {yard.name}" + (", feed agreed" if agreed else "")
        words += f", licence {licence}" if licence else ""
        draft = draft.once(f"health {yard.id}", words, words)
        if not licence:
            return ailing(draft, yard, health, feed_agreed=agreed)
        draft = draft.noted(_licensed_words(draft, yard, licence))
        return ailing(draft, yard, Health.WATCH, feed_agreed=agreed, licence=licence)

    return ail


def _a_licence(line: Line, yard: Yard) -> str:
    """Read the licence of a yard at a standstill, all that is left; empty where none is told."""
    line.take(",")
    found = line.match(_LICENCE)
    if found is None:
        return ""
    left = line.everything()
    without = phrase(
        "Write {line} alone where there is none, or no longer; then nothing leaves.",
        line=repr(f"standstill {yard.name}"),
    )
    said = (left.removesuffix(")") if "(" in found.group() else left).strip(_QUOTES)
    return a_licence(said, without)


def _licensed_words(draft: Draft, yard: Yard, licence: str) -> Phrase:
    said = phrase(
        "{name}: at a standstill, worked under the licence typed, {licence}, last on its trip "
        "and its boxes apart",
        name=yard.name, licence=repr(licence),
    )  # fmt: skip
    doubt = ends_before(licence, date_on(draft, draft.outfit.season.n_days - 1))
    return said if doubt is None else joined("; ", said, doubt)
