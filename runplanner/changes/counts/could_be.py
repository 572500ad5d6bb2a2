"""What all driven stops at a yard can have done, by what was counted at some of them."""

import sys
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from runplanner.changes.counts.driven import boxes_off, off_by, with_calls
from runplanner.changes.draft import Draft
from runplanner.daybook.trip import Action, Call, Job, Trip
from runplanner.outfit.yards import Yard
from runplanner.phrase import phrase

_WET: Final = -1


def as_could_be(draft: Draft, yard: Yard) -> Draft:
    """Return the draft with no colony of a counted yard fed that still had its honey on.

    Syrup and strips that nobody counted are not presumed in while any colony had honey on, for
    so the papers tell drivers; nor are more wet boxes presumed collected than were put up, nor is
    anybody fed a later round without those before.
    Of wet boxes that nobody counted no more go up than came off, and none while honey is on.
    A yard that had no honey on, such as one at a standstill, is fed as it stands.
    """
    reached = {} if _bore_honey(draft, yard) else {0: sys.maxsize}
    for trip in draft.driven_trips():
        told = [_before_cuts(call) if call.yard == yard.id else call for call in trip.calls]
        calls = tuple(
            _could_be(draft, trip, call, reached) if call.yard == yard.id else call for call in told
        )
        if calls == trip.calls:
            continue
        draft = with_calls(draft, trip, calls)
        was, up = _wet_of(told, yard, Job.WET_UP), _wet_of(calls, yard, Job.WET_UP)
        if was != up and (up or reached.get(0, 0) >= yard.colonies):
            draft = draft.noted(
                phrase(
                    "{name}: no more wet boxes go up than came off: {up}, not {was} ({id})",
                    name=yard.name,
                    up=up,
                    was=was,
                    id=trip.id,
                )
            )
            continue
        if _wet_of(told, yard, Job.WET_DOWN) != _wet_of(calls, yard, Job.WET_DOWN):
            cause = phrase("of wet boxes that were not put up")
        elif reached.get(0, 0) < yard.colonies:
            cause = phrase("with honey still on")
        else:
            cause = phrase("without the syrup before it")
        if [one.actions for one in told] != [one.actions for one in calls]:
            draft = draft.noted(
                phrase(
                    "{name}: what {id} was to do there {cause} does not count",
                    name=yard.name,
                    id=trip.id,
                    cause=cause,
                )
            )
    return draft


def at_most_off(draft: Draft, yard: Yard, most: int, but: str = "") -> Draft:
    """Return the draft with no colony presumed off by one trip that a count has off by another.

    What such a count had cut comes back where it is put right.

    Args:
        draft: The campaign.
        yard: Where.
        most: The colonies that may be off, the dead as well.
        but: The trip whose count is not known yet, though another line may have told one.
    """

    def known(trip: Trip, call: Call) -> bool:
        return trip.id != but and draft.known(trip.id, call)

    trips = draft.driven_trips()
    room = most - sum(
        _off_of([call], yard) for trip in trips for call in trip.calls if known(trip, call)
    )
    for trip in trips:
        calls = list(trip.calls)
        for at, call in enumerate(trip.calls):
            due = _take_off(call.planned or call.actions)
            if call.yard == yard.id and due is not None and not known(trip, call):
                off = max(0, min(room, due.colonies))
                room -= off
                calls[at] = _with_off(call, _fewer_off(due, off))
        if tuple(calls) != trip.calls:
            draft = with_calls(draft, trip, tuple(calls))
    return draft


def said_at_most_off(draft: Draft, before: Draft, yard: Yard) -> Draft:
    """Note which trips are presumed to have taken fewer off than ``before``."""
    for trip in draft.driven_trips():
        was, now = (_off_of(one.calls, yard) for one in (before.driven_trip(trip.id), trip))
        if now < was:
            draft = draft.noted(
                phrase(
                    "{name}: {id} is presumed to have taken {now} off, not {was}: the others were "
                    "counted at other stops",
                    name=yard.name, id=trip.id, now=now, was=was,
                )
            )  # fmt: skip
    return draft


def _take_off(actions: Sequence[Action]) -> Action | None:
    return next((one for one in actions if one.job is Job.TAKE_OFF), None)


def _off_of(calls: Sequence[Call], yard: Yard) -> int:
    here = (call for call in calls if call.yard == yard.id)
    return sum(one.colonies for call in here for one in call.actions if one.job is Job.TAKE_OFF)


def _fewer_off(due: Action, off: int) -> Action:
    """Return a take-off from so many colonies, with their share of the boxes."""
    if off == due.colonies:
        return due
    return replace(
        due,
        colonies=off,
        boxes=-(-due.boxes * off // due.colonies),
        brood_boxes=-(-due.brood_boxes * off // due.colonies),
        boards_off=max(0, due.boards_off - (due.colonies - off)),
    )


def _with_off(call: Call, off: Action) -> Call:
    """Return a call with another take-off, none where it is from no colony; else as it is."""
    due = call.planned or call.actions
    others = {one.job: one for one in call.actions}
    kept = [off if one.job is Job.TAKE_OFF else one for one in due
            if one.job is Job.TAKE_OFF or one.job in others]  # fmt: skip
    actions = tuple(one for one in kept if one.colonies)
    return replace(call, actions=actions, planned=() if actions == due else due)


def _bore_honey(draft: Draft, yard: Yard) -> bool:
    """Tell whether a yard had honey on, by its boxes or by a driven trip that was to fetch them."""
    calls = [call for trip in draft.driven_trips() for call in trip.calls if call.yard == yard.id]
    due = [action.boxes for call in calls for action in (*call.actions, *call.planned)]
    return yard.boxes > 0 or any(due)


def _before_cuts(call: Call) -> Call:
    """Return a call as it was counted, or else planned, before other counts took from it.

    What it takes off is told by `at_most_off`.
    """
    if call.counted is not None:
        return replace(call, actions=call.counted)
    if not call.planned:
        return call
    off: dict[Job, Action] = {o.job: o for o in call.actions if o.job is Job.TAKE_OFF}
    kept = (one for one in call.planned if one.job is not Job.TAKE_OFF or off)
    due = tuple(off.get(one.job, one) for one in kept)
    return replace(call, actions=due, planned=() if due == call.planned else call.planned)


def _wet_of(calls: Sequence[Call], yard: Yard, job: Job) -> int:
    here = (call for call in calls if call.yard == yard.id)
    return sum(one.wet for call in here for one in call.actions if one.job is job)


def _could_be(draft: Draft, trip: Trip, call: Call, reached: dict[int, int]) -> Call:
    """Return a call with what could be done.

    ``reached`` counts colonies off (0) and fed, and wet boxes that stand (``_WET``).
    """
    yard, kept = draft.outfit.yard(call.yard), []
    known = draft.known(trip.id, call)
    for action in call.actions:
        one = action
        if action.job is Job.TAKE_OFF:
            reached[0] = reached.get(0, 0) + action.colonies
        elif action.job is Job.FEED:
            most = reached.get(action.round - 1, 0) - reached.get(action.round, 0)
            forbidden = not known and 0 < reached.get(0, 0) < yard.colonies
            one = _fewer_fed(action, 0 if forbidden else max(0, min(action.colonies, most)))
            reached[action.round] = reached.get(action.round, 0) + one.colonies
        elif action.job is Job.STRIPS and reached.get(0, 0) < yard.colonies:
            one = action if known else replace(action, colonies=0)
        elif action.job is Job.WET_UP:
            one = action if known else _at_most_wet(action, _to_go_up(draft, yard, call))
            reached[_WET] = reached.get(_WET, 0) + one.wet
        elif action.job is Job.WET_DOWN:
            one = _at_most_wet(action, reached.get(_WET, 0))
            reached[_WET] = reached.get(_WET, 0) - one.wet
        kept += [one] if one.colonies else []
    if tuple(kept) == call.actions:
        return call
    return replace(call, actions=tuple(kept), planned=call.planned or call.actions)


def _to_go_up(draft: Draft, yard: Yard, call: Call) -> int:
    """Return how many wet boxes there are to go up at a call: those of stops before, if all came.

    Of a yard with honey on none do.
    """

    def before(one: Call) -> bool:
        return one.start_min < call.start_min

    all_off = off_by(draft, yard.id, Job.TAKE_OFF, before) >= yard.colonies
    return boxes_off(draft, yard.id, before) if all_off else 0


def _fewer_fed(action: Action, fed: int) -> Action:
    share = min(fed, action.feeders)
    return replace(action, colonies=fed, ml=action.ml * fed // action.colonies, feeders=share)


def _at_most_wet(action: Action, most: int) -> Action:
    wet = min(action.wet, most)
    return replace(action, wet=wet, colonies=action.colonies if wet else 0)
