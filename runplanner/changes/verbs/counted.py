"""Lines on what was counted in yards: stops done, colonies that died, boxes still on."""

from collections.abc import Sequence
from dataclasses import replace

from runplanner.changes.counts.boxes import boxes_counted, with_counts, without_counts
from runplanner.changes.counts.colonies import fewer
from runplanner.changes.counts.counts import as_counted
from runplanner.changes.counts.driven import driven_actions, off_by
from runplanner.changes.counts.possible import refuse_boxes, refuse_slips
from runplanner.changes.draft import Draft
from runplanner.changes.road.leaving import over
from runplanner.changes.said.count_words import BOXES, COLONIES, Counts, read_counts, see_pieces
from runplanner.changes.said.line import Line
from runplanner.changes.said.names import (
    a_yard,
    names_a_yard,
    trip_named,
    trip_to,
)
from runplanner.changes.store import stocks
from runplanner.daybook.trip import Job
from runplanner.outfit.yards import Yard
from runplanner.phrase import Phrase, counted, phrase
from runplanner.scenario.faults import Refusal


def done(line: Line, draft: Draft) -> Draft:
    """Enter what was counted at a driven stop; a later count of a stop replaces one before.

    The trip may be left out where it can be one only.
    """
    meant = trip_to(line, draft)
    trip = meant or trip_named(line, draft)
    there = {call.yard for call in trip.yards()}
    yard = a_yard(line, draft, [one for one in draft.outfit.yards if one.id in there])
    line.take(":", "=")
    before = draft = draft.unsaid((trip.id, yard.id))
    if meant is not None:
        note = phrase("{name}: counted for trip {trip}", name=yard.name, trip=trip.id)
        draft = draft.noted(note)
    counts = read_counts(line, draft.outfit.strips_at(yard).substance)
    draft = _told_again(draft, trip.id, yard, counts)
    draft = without_counts(draft, trip, yard)
    trip = draft.driven_trip(trip.id)
    yard = draft.outfit.yard(yard.id)
    told = stocks.counted_anew(as_counted(draft, trip, yard, counts))
    refuse_slips(trip, told, yard, counts)
    told = with_counts(told, yard).noted_by((trip.id, yard.id), before)
    return over(told, before, trip.id, yard.id)


def _told_again(draft: Draft, trip: str, yard: Yard, counts: Counts) -> Draft:
    """Return the draft with the count kept, and a note where another line has counted the stop."""
    key, told = f"count {trip} {yard.id}", repr(sorted(counts.items()))
    before = [said for what, said, _ in draft.told if what == key]
    if before and before[-1] != told:
        draft = draft.noted(
            phrase("{name}: counted by two lines; the later one counts ({trip})",
                   name=yard.name, trip=trip)
        )  # fmt: skip
    return replace(draft, told=(*draft.told, (key, told, key)))


def dead(line: Line, draft: Draft) -> Draft:
    """Strike colonies that are dead, or queenless and put to others."""
    count, yard = _so_many_at(line, draft, phrase("a number of colonies"), COLONIES)
    return fewer(draft, yard, count)


def _so_many_at(line: Line, draft: Draft, what: Phrase, things: Sequence[str]) -> tuple[int, Yard]:
    """Read a number of things and the yard they are in, in either order."""
    yard = a_yard(line, draft, draft.outfit.yards) if names_a_yard(line, draft) else None
    count = line.number(what)
    line.take(*things)
    line.take("on")
    yard = yard or a_yard(line, draft, draft.outfit.yards)
    see_pieces(line, what)
    return count, yard


def boxes_left(line: Line, draft: Draft) -> Draft:
    """Set how many full boxes still stand in a yard; what is not begun is still to come off."""
    left, yard = _so_many_at(line, draft, phrase("a number of boxes"), BOXES)
    draft = draft.once(f"boxes left {yard.id}", left, f"boxes left {left} {yard.name}")
    off = off_by(draft, yard.id, Job.TAKE_OFF, draft.begun)
    refuse_boxes(left, max(0, yard.colonies - off) or yard.colonies, yard.boxes)
    if left and off >= yard.colonies:
        raise Refusal(
            phrase("boxes left in a yard with colonies still to come off"),
            _all_off_cure(draft, yard, left),
        )
    told = boxes_counted(draft, yard, left)
    to_come = driven_actions(draft, yard.id, lambda call: not draft.begun(call))
    boxes = sum(one.boxes for one in to_come)
    if boxes in {0, left}:
        return told
    note = counted(
        "{name}: a truck that is out is still to take {number} box off there; that counts as "
        "planned until it is counted",
        "{name}: a truck that is out is still to take {number} boxes off there; that counts as "
        "planned until it is counted",
        boxes,
        name=yard.name,
    )
    return told.noted(note)


def _all_off_cure(draft: Draft, yard: Yard, left: int) -> Phrase:
    """Return what to type where boxes are left though all colonies are off.

    No feed or strips may follow under boxes: the last take-off is counted with fewer colonies,
    at as many boxes each as it had; what boxes came off came off one colony at least.
    """
    taken = [
        (trip.id, sum(one.colonies for one in off), sum(one.boxes for one in off))
        for trip in draft.driven_trips()
        if (off := [one for call in trip.yards() if call.yard == yard.id and draft.begun(call)
                    for one in call.actions if one.job is Job.TAKE_OFF])
    ]  # fmt: skip
    if not taken:
        return phrase("No living colony has them on: fetch them, and leave this line out.")
    trip, colonies, boxes = taken[-1]
    still_on = min(colonies, -(-left * colonies // boxes) if boxes else colonies)
    came_off = max(0, boxes - left)
    bare = max(colonies - still_on, min(1, came_off, colonies - 1))
    counts = f"{bare} colonies {came_off if bare else 0} boxes"
    return phrase(
        "All its colonies are off, so no visit fetches them. Where they are still on, type {line} "
        "as well, with the colonies that came off; where they stand apart, fetch them and leave "
        "this line out.",
        line=f"'done {trip} {yard.name}: {counts}'",
    )
