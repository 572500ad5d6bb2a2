"""Boards that nobody counted go on as far as there are any aboard."""

from dataclasses import replace

from runplanner.changes.counts.driven import with_calls
from runplanner.changes.draft import Draft
from runplanner.daybook.trip import Call, Job, Trip
from runplanner.phrase import phrase


def with_boards_aboard(draft: Draft) -> Draft:
    """Return the draft with no more boards presumed to go on at a stop than its truck has by then.

    What a count of a stop before had cut comes back where that is counted again.  A trip that has
    not loaded yet may load more.
    """
    for trip in draft.driven_trips():
        calls = _laid(draft, trip)
        if calls == trip.calls or not draft.begun(trip.calls[0]):
            continue
        draft = with_calls(draft, trip, calls)
        for was, call in zip(trip.calls, calls, strict=True):
            if _boards(call) < _boards(was):
                draft = draft.noted(
                    phrase(
                        "{name}: no more boards go on than are aboard: {on}, not {was} ({id})",
                        name=draft.outfit.yard(call.yard).name,
                        on=_boards(call),
                        was=_boards(was),
                        id=trip.id,
                    )
                )
    return draft


def _laid(draft: Draft, trip: Trip) -> tuple[Call, ...]:
    boards, calls = trip.calls[0].after.boards, list[Call]()
    for call in trip.calls:
        boards += sum(one.boards_off for one in call.actions)
        told = call if draft.known(trip.id, call) else _at_most(call, max(0, boards))
        boards -= _boards(told)
        calls.append(told)
    return tuple(calls)


def _boards(call: Call) -> int:
    return sum(one.pieces for one in call.actions if one.job is Job.BOARDS)


def _at_most(call: Call, most: int) -> Call:
    """Return a call with the boards that were to go on there, at most so many."""
    due, kept = call.planned or call.actions, {one.job: one for one in call.actions}
    for one in due:
        if one.job is Job.BOARDS:
            kept[one.job] = replace(one, colonies=min(one.colonies, most),
                                    pieces=min(one.pieces, most))  # fmt: skip
    left = (kept[one.job] for one in due if one.job in kept)
    actions = tuple(one for one in left if one.colonies)
    return replace(call, actions=actions, planned=() if actions == due else due)
