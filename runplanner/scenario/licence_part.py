"""Yards at a standstill that may be worked all the same, under a licence that was typed."""

import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from datetime import date
from typing import Final

from runplanner.outfit.yards import Health
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.moments import a_date
from runplanner.scenario.outfit_file import Days
from runplanner.scenario.words import note
from runplanner.scenario.yard_row import Draft

LICENCE_MOST: Final = 120
_NONE: Final = frozenset([
    "0", "no", "none", "nil", "null", "nothing", "not", "never", "without", "false", "na",
    "pending", "applied", "requested", "awaited", "awaiting", "missing", "unknown", "tbd",
    "tba", "tbc", "nein", "kein", "keine", "keiner", "keines", "nicht", "nichts", "ohne",
    "fehlt", "beantragt", "ausstehend", "unbekannt", "offen", "folgt", "nachgereicht",
    "entfällt",
])  # fmt: skip
"""Words by which people say that there is no licence, or not yet."""
_BESIDE: Final = frozenset([
    "licence", "license", "permit", "lizenz", "genehmigung", "erlaubnis", "yet", "still", "so",
    "far", "for", "is", "it", "any", "needed", "required", "applicable", "noch", "bisher",
    "ist", "wird", "liegt", "vor", "vorhanden", "nötig", "erforderlich",
])  # fmt: skip
"""Words that make a licence of no such word."""
_A_DATE: Final = re.compile(
    r"(?<![0-9])(?:([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})"
    r"|([0-9]{1,2})\. ?([0-9]{1,2})\. ?([0-9]{4}))(?![0-9])"
)
_ABBREVIATED: Final = frozenset(("n a", "k a"))
_MARKS: Final = r"[\s?!.…/\\|_*~#+\-\u2010-\u2015\u2212]+"


def licensed(draft: Draft, days: Days) -> Draft:
    """Return the yard; one at a standstill with a licence is worked as a watched one is.

    Its visit comes last on the trip and its boxes stand apart; the driver has the licence on
    paper.  Whether the licence allows the move is for
    its holder to see; where the last date in it is past before the campaign is, that is said.
    """
    licence = draft.fields.optional("licence", a_licence)
    if licence is None:
        return draft
    yard = draft.yard
    if yard.health is not Health.STANDSTILL:
        if draft.fields.clean:
            cure = phrase("Take it out, or type standstill under health.")
            draft.fields.fault(
                "licence", phrase("nothing: the yard is {value}", value=yard.health.value), cure
            )
        return draft
    doubt = ends_before(licence, days.last) if days.known else None
    if doubt is not None:
        draft.fields.doubt("licence", doubt)
    return replace(draft, yard=replace(yard, health=Health.WATCH, licence=licence))


def ends_before(licence: str, last: date) -> Phrase | None:
    """Return in words that the last date in a licence is before the last day; else None."""
    until = max(_dates(licence), default=None)
    if until is None or until >= last:
        return None
    return phrase(
        "the last date in it is {until}, and the campaign goes on until {last}: "
        "does it still hold?",
        until=until.isoformat(),
        last=last.isoformat(),
    )


def a_licence(said: object) -> str:
    """Return a licence as it was typed.

    Raises:
        Refusal: When it is too long, or nothing, or says that there is none.
    """
    text = note(said)
    if not text or _says_none(text):
        allowed = phrase("number, issued by, until; or nothing")
        raise Refusal(allowed, phrase("Leave it empty until there is a licence."))
    if len(text) > LICENCE_MOST:
        allowed = phrase("number, issued by, until: at most {most} characters", most=LICENCE_MOST)
        raise Refusal(allowed, phrase("Shorten it: it has {number} characters.", number=len(text)))
    return text


def _dates(text: str) -> Iterator[date]:
    """Yield the dates in a text, written 2027-02-01 or 1.2.2027."""
    for match in _A_DATE.finditer(text):
        year, month, day = match[1] or match[6], match[2] or match[5], match[3] or match[4]
        with suppress(Refusal):
            yield a_date(f"{year}-{month}-{day}")


def _says_none(text: str) -> bool:
    """Tell whether a text is a mark or words for nothing: "-", "n/a", "not yet", "keine"."""
    words = re.sub(r"[\W_]+", " ", text.casefold()).split()
    if not words:
        return re.fullmatch(_MARKS, text) is not None
    meant = frozenset(words)
    return " ".join(words) in _ABBREVIATED or bool(meant & _NONE and meant <= _NONE | _BESIDE)
