"""True counts from a driver's manifest, put into a campaign: what a driven stop really did."""

from collections.abc import Sequence
from dataclasses import replace

from runplanner.changes.counts.could_be import at_most_off, said_at_most_off
from runplanner.changes.counts.count_notes import said_how_fed, said_if_held_up
from runplanner.changes.counts.driven import boards_under, off_by, with_calls
from runplanner.changes.draft import Draft
from runplanner.changes.said.count_words import Counts, at_most_all
from runplanner.changes.said.shared_out import LEFT_OUT, refuse_unplanned, shared_out
from runplanner.changes.said.stop_done import counted_calls
from runplanner.daybook.trip import Action, Job, Trip
from runplanner.outfit.yards import Yard
from runplanner.phrase import phrase
from runplanner.scenario.faults import Refusal


def as_counted(draft: Draft, trip: Trip, yard: Yard, counts: Counts) -> Draft:
    """Return the draft with ``counts`` as what ``trip`` did at ``yard``, notes added.

    Raises:
        Refusal: When something is counted that was not to be done, or more than there was to do.
    """
    most = max(yard.colonies, off_by(draft, yard.id, Job.TAKE_OFF) - _beyond_plan(draft, yard))
    draft = at_most_off(draft, yard, most, but=trip.id)
    trip = next((one for one in draft.driven_trips() if one.id == trip.id), trip)
    here = [call for call in trip.calls if call.yard == yard.id]
    refuse_unplanned(here, counts)
    shared = shared_out(here, counts)
    calls = counted_calls(draft.outfit, trip, yard, shared, draft.now_min)
    done = said_if_held_up(draft, yard, here, counts, shared)
    done = said_how_fed(done, trip, yard, here, shared)
    done = with_calls(done, trip, calls)
    marks = (*draft.counted, (trip.id, yard.id))
    done = replace(done, counted=tuple(dict.fromkeys(marks)))
    told, done = done, at_most_off(done, yard, most)
    done = said_at_most_off(done, told, yard)
    off = off_by(done, yard.id, Job.TAKE_OFF)
    if off > most:
        raise Refusal(at_most_all(yard, most), phrase("Count again."))
    jobs = {one.job for call in trip.calls if call.yard == yard.id for one in call.actions}
    if "way" in counts and Job.TAKE_OFF not in jobs:
        allowed = phrase("a way of clearing at a take-off")
        raise Refusal(allowed, LEFT_OUT)
    if "way" in counts and off + boards_under(done, yard) > most:
        cure = phrase(
            "Where boards had not gone on, count that visit first; else leave the way out."
        )
        raise Refusal(phrase("a way for colonies without boards"), cure)
    return done


def _beyond_plan(draft: Draft, yard: Yard) -> int:
    """Return the colonies that counted stops took off beyond what was planned for them."""
    pairs = (
        (_off(call.actions), _off(call.planned))
        for trip in draft.driven_trips() for call in trip.calls
        if call.yard == yard.id and call.planned
    )  # fmt: skip
    return sum(max(0, done - due) for done, due in pairs)


def _off(actions: Sequence[Action]) -> int:
    return sum(one.colonies for one in actions if one.job is Job.TAKE_OFF)


def uncounted(draft: Draft, trip: Trip, yard: Yard) -> Draft:
    """Return the draft as if a trip's stops at a yard had not been counted before."""
    calls = tuple(
        replace(call, actions=call.planned or call.actions, planned=(), counted=None)
        if call.yard == yard.id and (call.counted is not None or call.planned)
        else call
        for call in trip.calls
    )
    return draft if calls == trip.calls else with_calls(draft, trip, calls)
