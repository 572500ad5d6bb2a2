"""Yards at a standstill that may be worked all the same, under a licence that was typed."""

from dataclasses import replace
from typing import Final

from runplanner.outfit.yards import Health
from runplanner.phrase import phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.words import note
from runplanner.scenario.yard_row import Draft

LICENCE_MOST: Final = 120
UNDER_LICENCE: Final = "standstill: moved under licence"
"""Stands in front of the notes of such a yard."""


def licensed(draft: Draft) -> Draft:
    """Return the yard; one at a standstill with a licence is worked as a watched one is.

    Its visit comes last on the trip and its boxes stand apart; the licence stands in front of
    the notes, so that the driver has it on paper.  Whether the licence allows the move is for
    its holder to see.
    """
    licence = draft.fields.optional("licence", _licence)
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
    words = f"{UNDER_LICENCE} {licence}"
    notes = f"{words}; {yard.access.notes}" if yard.access.notes else words
    access = replace(yard.access, notes=notes)
    return replace(draft, yard=replace(yard, health=Health.WATCH, access=access))


def _licence(said: object) -> str:
    text = note(said)
    if len(text) > LICENCE_MOST:
        allowed = phrase("number, issued by, until: at most {most} characters", most=LICENCE_MOST)
        raise Refusal(allowed, phrase("Shorten it: it has {number} characters.", number=len(text)))
    return text
