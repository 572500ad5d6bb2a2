"""Yards at a standstill that may be worked all the same, under a licence that was typed."""

import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from datetime import date
from typing import Final

from runplanner.outfit.yards import Health
from runplanner.phrase import Phrase, joined, phrase
from runplanner.scenario.cells.outfit_file import Days
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values.moments import a_date
from runplanner.scenario.values.words import note
from runplanner.scenario.yards.yard_row import Draft

LICENCE_MOST: Final = 120
_NONE: Final = frozenset([
    "no", "none", "nil", "nothing", "not", "never", "without", "cannot", "isn", "wasn", "hasn",
    "is", "was", "are", "were", "has", "have", "had", "been", "can", "don", "doesn", "didn",
    "haven", "won", "might", "if", "said", "says",
    "pending", "applied", "requested", "asked", "awaited", "awaiting", "waiting", "expected",
    "promised", "missing", "lost", "unknown", "tbd", "tba", "tbc", "soon", "yet", "draft",
    "withdrawn", "withdrew", "revoked", "refused", "denied", "declined", "rejected", "expired",
    "lapsed", "cancelled", "canceled", "ended", "over", "off", "gone", "away", "back", "taken",
    "took", "pulled", "turned", "stopped", "suspended", "terminated", "annulled", "rescinded",
    "recalled", "retracted", "surrendered", "overruled", "nullified", "void", "invalid", "ran",
    "finished", "?", "former", "formerly", "longer", "false", "quashed", "dismissed", "forfeited",
    "disallowed", "dropped", "scrapped", "failed", "inactive", "closed", "frozen", "blocked",
    "returned", "application", "apply", "applying", "submitted", "filed", "sent", "process",
    "processing", "processed", "progress", "review", "reviewed", "provisional", "hopefully",
    "probably", "maybe", "perhaps",
    "nein", "kein", "keine", "keinen", "keiner", "keines", "nicht", "nichts", "nie", "ohne",
    "ist", "war", "wurde", "wird", "sind", "hat", "fehlt", "beantragt", "angefragt",
    "ausstehend", "aussteht", "steht", "erwartet", "unbekannt", "offen", "folgt",
    "nachgereicht", "entfällt", "bald", "entzogen", "widerrufen", "zurückgenommen",
    "zurückgezogen", "zurück", "eingezogen", "aufgehoben", "abgelehnt", "verweigert",
    "versagt", "abgelaufen", "erloschen", "ungültig", "nichtig", "verfallen", "ausgesetzt",
    "ruht", "beendet", "vorbei", "weg", "verloren", "annulliert", "storniert", "ehemals",
    "abgesagt", "gestoppt", "gestrichen", "hinfällig", "unwirksam", "eingestellt", "gesperrt",
    "antrag", "eingereicht", "gestellt", "bearbeitung", "prüfung", "vorläufig",
    "voraussichtlich", "vielleicht", "hoffentlich",
])  # fmt: skip
"""Words by which people say that there is no licence, not yet or no longer."""
_NUMBER: Final = re.compile(
    r"(?:(?:n[or]|n°|num(?:ber|mer)|ref|az|aktenzeichen|bescheid|licen[cs]e|permit|lizenz|"
    r"genehmigung)\b[.:]?\s*|[№#]\s*|(?-i:[A-ZÄÖÜ]{2,5})\s+){0,3}"
    r"(?![0-9]{4}-[0-9]{1,2}-[0-9]|[0-9]{1,2}\.[0-9]{1,2}\.)[^\s,;:()?]*[1-9][^\s,;:()?]*"
    r"(?![^\s,;:()])(?=\s*(?:$|[,;(/]|:(?![0-9])|[0-9]|(?:of|from|by|issued|dated|signed|"
    r"until|till|to|valid|for|vom|von|des|der|am|ausgestellt|erteilt|bis|gilt|gültig|für)\b))",
    re.IGNORECASE,
)
"""The number by which a licence begins, and that a new word of it or its end comes then."""
_NUMBER_SIGN: Final = re.compile(r"\bno\b(?=[.:]?\s?\S*[0-9])")
"""Where "no" is short for number."""
_A_DATE: Final = re.compile(
    r"(?<![0-9])(?:([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})"
    r"|([0-9]{1,2})\. ?([0-9]{1,2})\. ?([0-9]{4}))(?![0-9])"
)


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
        if draft.fields.right("health", "lat", "lon"):
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


def a_licence(said: object, without: Phrase | None = None) -> str:
    """Return a licence as it was typed: its number first, and no word that it does not hold.

    A yard is opened by it, so what is not surely a licence is none.  Where ``without`` is given,
    it says what to type of a yard that has none.

    Raises:
        Refusal: When it is too long, begins with no number, or has a word by which people say
            that there is none, not yet or no longer.
    """
    text = note(said)
    without = without or phrase("Leave it empty until there is a licence.")
    if len(text) > LICENCE_MOST:
        allowed = phrase("number, issued by, until: at most {most} characters", most=LICENCE_MOST)
        raise Refusal(allowed, phrase("Shorten it: it has {number} characters.", number=len(text)))
    allowed = phrase("number, issued by, until; or nothing")
    words = re.findall(r"[^\W\d_]+|\?", _NUMBER_SIGN.sub(" ", text.casefold()))
    doubtful = next((word for word in words if word in _NONE), "")
    if doubtful:
        cure = phrase(
            "With {word} it may not hold; where it does, leave that out.", word=repr(doubtful)
        )
        raise Refusal(allowed, joined(" ", without, cure))
    if not _NUMBER.match(text):
        cure = phrase(
            "A licence begins with its number, with a comma behind it: {such_as}.",
            such_as="'No 17, district office, until 2027-03-31'",
        )
        raise Refusal(allowed, joined(" ", without, cure))
    return text


def _dates(text: str) -> Iterator[date]:
    """Yield the dates in a text, written 2027-02-01 or 1.2.2027."""
    for match in _A_DATE.finditer(text):
        year, month, day = match[1] or match[6], match[2] or match[5], match[3] or match[4]
        with suppress(Refusal):
            yield a_date(f"{year}-{month}-{day}")
