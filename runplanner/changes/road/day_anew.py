"""The day of a truck that is out, told anew: other stops to come, or a stop left at another minute.

What was begun stays as it is written; the clock of the rest is set anew.  A truck between two
places is reckoned to come back to the last one first, the longest it can take.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import product
from typing import Final, NamedTuple

from runplanner.changes.cargo.aboard import aboard
from runplanner.changes.cargo.loads import loaded, overloads
from runplanner.changes.draft import Draft
from runplanner.changes.road.calls import given_min, unloads
from runplanner.changes.road.clock import Rest
from runplanner.changes.road.day_limits import see_day
from runplanner.changes.road.lags import ripe_from
from runplanner.changes.road.later_trips import Later, as_told, with_later
from runplanner.changes.road.out import Out
from runplanner.daybook.trip import Action, Call, CallKind, Job, Shift, Spare, Trip
from runplanner.days import clock
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.own_bases import base_name
from runplanner.outfit.people import Hours
from runplanner.phrase import Part, Phrase, joined, phrase
from runplanner.scenario.faults import Refusal
from runplanner.visits.hands import hands_s

_TELL: Final = "tell {truck}: {way}"


def told_anew(
    draft: Draft, out: Out, rest: Sequence[Call], *, onward: bool, strict: bool | None = None
) -> Draft:
    """Return the draft with the rest of a truck's day as it is told to drive it.

    Args:
        draft: The campaign.
        out: The truck.
        rest: The stops that it still makes, in order.
        onward: Its later trips are driven as well.
        strict: Refuse what does not fit hours or load; as ``onward`` where it is not told.
    """
    strict = onward if strict is None else strict
    trip, left = out.trip, [call for call in out.to_come() if call not in rest]
    done = list(trip.calls[: out.begun])
    if not rest and not any(call.kind is CallKind.YARD for call in done):
        rest = [replace(left[0], actions=(), planned=(), counted=None)]
    new, shift, _ = _holding(draft, out, rest, onward=onward, strict=strict)
    gone = tuple((trip.id, call.yard) for call in left)
    gone += tuple(
        (one.id, call.yard)
        for one in out.shift.trips[out.at + 1 :] if not onward
        for call in one.yards()
    )  # fmt: skip
    told = _with_shift(draft, out, shift, gone)
    loads = (one.calls[0] for one in shift.trips[out.at + 1 :])
    return _noted(told, shift, (*new.calls[out.begun :], *loads), gone)


def without_job(draft: Draft, out: Out, call: Call, job: Job) -> Draft:
    """Return the draft with a stop to come without one of its jobs, and so much shorter.

    Its goods stay aboard; where nothing else is done there the whole stop is left out.
    """
    kept, gone = _parted(call.actions, job)
    if not kept:
        return told_anew(draft, out, [c for c in out.to_come() if c is not call], onward=True)
    planned, due = _parted(call.planned, job)
    spared = replace(call, actions=due or gone, planned=())
    spared_min = hands_s(draft.outfit, call, {job}) // (60 * len(out.shift.crew))
    work = max(0, given_min(out.shift, call) - spared_min)
    ends = (replace(call, end_min=minute) for minute in range(call.start_min, call.end_min + 1))
    shorter = next(one for one in ends if given_min(out.shift, one) == work)
    new = replace(shorter, actions=kept, planned=planned)
    trip = replace(
        out.trip, calls=tuple(new if one is call else one for one in out.trip.calls),
        left=loaded(draft.outfit, out.shift, out.trip),
        left_strips=(*out.trip.left_strips, *strips_for(draft, [spared])),
    )  # fmt: skip
    told = draft.with_trip(trip)
    rest = Out(shift_of(told, trip.id)[0], out.at, out.begun)
    return told_anew(told, rest, rest.to_come(), onward=True)


def _parted(actions: Sequence[Action], job: Job) -> tuple[tuple[Action, ...], tuple[Action, ...]]:
    """Return actions without those of a job, and those."""
    return (
        tuple(one for one in actions if one.job is not job),
        tuple(one for one in actions if one.job is job),
    )


def called_off(draft: Draft, out: Out, yard: str) -> Draft:
    """Return the draft without the first later trip of a truck that goes to a yard.

    The rest of its day is told anew: it does not wait for that trip's load any more.

    Raises:
        Refusal: When the day does not hold without it.
    """
    gone = next(
        trip for trip in out.later_trips() if any(call.yard == yard for call in trip.yards())
    )
    stops = tuple((gone.id, call.yard) for call in gone.yards())
    kept = replace(out.shift, trips=tuple(one for one in out.shift.trips if one is not gone))
    without = _noted(_with_shift(draft, out, kept, stops), kept, (), stops)
    rest = Out(kept, out.at, out.begun)
    told = told_anew(without, rest, rest.to_come(), onward=True, strict=False)
    see_rest(told, out.trip.id, draft)
    return told


def gone_on(draft: Draft, out: Out, minute: int) -> Draft:
    """Return the draft with the last call begun over at a minute, and the rest from there.

    Breaks in it may be longer than duty asks, and one begun may be taken whole, where the day
    holds only so, or is sooner over.
    """
    ways = [
        _gone_by(draft, out, minute, laws, whole=whole)
        for whole, laws in product((False, True), draft.outfit.hours.ways_to_rest())
    ]

    def too_late(told: Draft) -> tuple[bool, int]:
        shift, _ = shift_of(told, out.trip.id)
        try:
            see_rest(told, out.trip.id, draft)
        except Refusal:
            return True, shift.end_min
        return False, shift.end_min

    return min(ways, key=too_late)


def _gone_by(draft: Draft, out: Out, minute: int, laws: Hours, *, whole: bool) -> Draft:
    clockwork = Rest(draft.outfit, _alone(out), out.at, out.begun, draft.now_min, laws=laws)
    calls = list(out.trip.calls)
    calls[out.begun - 1] = clockwork.over_at(minute, whole=whole)
    # Breaks in stops to come are no work there, and fall due anew.
    calls[out.begun :] = [
        replace(one, end_min=one.start_min + given_min(out.shift, one))
        for one in calls[out.begun :]
    ]
    shift = _with_trips(out, replace(out.trip, calls=tuple(calls)), out.later_trips())
    shift = replace(shift, breaks=tuple(clockwork.breaks))
    told = _with_shift(draft, out, shift, ())
    rest = Out(shift, out.at, out.begun)
    return told_anew(told, rest, rest.to_come(), onward=True, strict=False)


def shift_of(draft: Draft, trip: str) -> tuple[Shift, int]:
    """Return the truck's day that has a trip, by its id, and the trip's number in it."""
    return next(
        (shift, at)
        for shift in draft.plan.shifts
        for at, one in enumerate(shift.trips) if one.id == trip
    )  # fmt: skip


def see_rest(draft: Draft, trip: str, begun: Draft) -> None:
    """See that a day holds from a trip on, or is no longer than it had been.

    Raises:
        Refusal: When it does not.
    """
    shift, at = shift_of(draft, trip)
    out = Out(shift, at, 0)
    alone, printed = _alone(out), _later(draft, out)
    clockwork = Rest(draft.outfit, alone, at, 0, draft.now_min)
    breaks = tuple(one for one in shift.breaks if one not in alone.breaks)
    told = Later(out.later_trips(), breaks, printed.was)
    if as_told(clockwork, out.trip.calls, told) is None:
        with_later(clockwork, out.trip.calls, printed)
    before, _ = shift_of(begun, trip)
    see_day(draft.outfit, shift, before)
    clockwork.see_drives(shift)


def _later(draft: Draft, out: Out) -> Later:
    """Return the trips that a truck has not loaded for, as its driver has them."""
    key = (out.shift.day, out.shift.truck)
    was = next((one for one in draft.printed if (one.day, one.truck) == key), out.shift)
    printed = {trip.id: trip for trip in was.trips}
    trips = [
        replace(trip, calls=tuple(map(_at_times, trip.calls, printed[trip.id].calls)))
        for trip in out.later_trips()
    ]
    breaks = tuple(
        one for one in was.breaks
        if any(t.calls[0].arrive_min <= one.start_min < t.calls[-1].leave_min for t in trips)
    )  # fmt: skip
    return Later(trips, breaks, was.breaks)


def _at_times(call: Call, of: Call) -> Call:
    return replace(
        call, arrive_min=of.arrive_min, start_min=of.start_min, end_min=of.end_min,
        leave_min=of.leave_min, latest_leave_min=of.latest_leave_min,
    )  # fmt: skip


def _alone(out: Out) -> Shift:
    """Return a truck's day with no breaks of trips that it has not loaded for."""
    ends = max(call.leave_min for call in out.trip.calls)
    return replace(out.shift, breaks=tuple(b for b in out.shift.breaks if b.start_min < ends))


def _with_trips(out: Out, trip: Trip, later: Sequence[Trip]) -> Shift:
    """Return a truck's day with another trip under way, and others after it."""
    return replace(out.shift, trips=(*out.shift.trips[: out.at], trip, *later))


class _Way(NamedTuple):
    """A truck's day as it may be driven on.

    Args:
        trip: The trip under way.
        shift: The day.
        in_time: Its later trips have their loads in time.
    """

    trip: Trip
    shift: Shift
    in_time: bool


def _holding(draft: Draft, out: Out, rest: Sequence[Call], *, onward: bool, strict: bool) -> _Way:
    """Return the day that is soonest over, of all lawful ways to rest.

    Breaks lie before stops or in the work there; those from duty are short, or as long as those
    from driving.  Of days that end alike that counts in which calls move least,
    and then the one with breaks before stops, and short.

    Raises:
        Refusal: Where none is lawful, as the plainest is refused.
    """
    ripe = ripe_from(draft.outfit, draft.plan.shifts, out.shift)
    found, held, refused = list[_Way](), list[_Way](), list[Refusal]()
    for in_work, laws in product((False, True), draft.outfit.hours.ways_to_rest()):
        clockwork = Rest(
            draft.outfit, _alone(out), out.at, out.begun, draft.now_min, ripe, laws, in_work=in_work
        )
        try:
            found.append(_driven(draft, out, rest, clockwork, onward=onward, strict=strict))
            see_day(draft.outfit, found[-1].shift, out.shift)
        except Refusal as no:
            refused.append(no)
        else:
            held.append(found[-1])
    if held:
        was = _times(out.shift)
        return min(held, key=lambda one: (not one.in_time, one.shift.end_min, _moved(one, was)))
    if not found:
        raise refused[0]
    return found[0]


def _times(shift: Shift) -> Mapping[tuple[str, CallKind, int], tuple[int, int]]:
    """Return when each call of a day is reached and begins, by trip, kind and place."""
    return {
        (trip.id, call.kind, call.place): (call.arrive_min, call.start_min)
        for trip in shift.trips for call in trip.calls
    }  # fmt: skip


def _moved(way: _Way, was: Mapping[tuple[str, CallKind, int], tuple[int, int]]) -> int:
    """Return by how many minutes calls are reached and begin at others than they did."""
    now = _times(way.shift)
    pairs = (zip(now[call], was[call], strict=True) for call in now if call in was)
    return sum(abs(new - old) for pair in pairs for new, old in pair)


def _driven(
    draft: Draft, out: Out, rest: Sequence[Call], clockwork: Rest, *, onward: bool, strict: bool
) -> _Way:
    """Return the day as a clock has it."""
    trip, left = out.trip, [call for call in out.to_come() if call not in rest]
    done = list(trip.calls[: out.begun])
    calls: Sequence[Call] = (*trip.calls[:-1], _unloaded(draft, out))
    if done[-1].kind is not CallKind.UNLOAD:
        crew, stops = len(out.shift.crew), (*done, *rest)
        ways = [*clockwork.worked(done[-1], rest)]
        ways += unloads(draft.outfit, trip, stops, crew)
        calls = clockwork.drive(ways, strict=strict)
    later, in_time = _later(draft, out) if onward else Later(), True
    trips = later.trips
    try:
        calls, trips = with_later(clockwork, calls, later)
    except Refusal:
        if strict:
            raise
        in_time = False
    loads = loaded(draft.outfit, out.shift, trip) if left else trip.left
    new = replace(trip, calls=aboard(draft.outfit, out.shift, trip, calls), left=loads,
                  left_strips=(*trip.left_strips, *strips_for(draft, left)))  # fmt: skip
    if strict:
        _see_load(draft, out, new)
    shift = clockwork.ended(_with_trips(out, new, trips), strict=strict or not onward)
    return _Way(new, shift, in_time)


def _unloaded(draft: Draft, out: Out) -> Call:
    """Return the last call of a trip; if it has begun, with no wait for a load from now on.

    It is over once all is off and the breaks begun in it are taken.
    """
    last, now = out.trip.calls[-1], draft.now_min
    if out.begun < len(out.trip.calls):
        return last
    ways = unloads(draft.outfit, out.trip, out.trip.yards(), len(out.shift.crew))
    ends = last.start_min + sum(work for one, work in ways if one.place == last.place)
    for one in out.shift.breaks:
        if last.start_min <= one.start_min < max(ends, now):
            ends += one.end_min - one.start_min
    ends = min(last.end_min, max(ends, now))
    return replace(last, end_min=ends, leave_min=min(last.leave_min, ends))


def strips_for(draft: Draft, calls: Sequence[Call]) -> Iterator[Spare]:
    """Yield the strips for stops that are left out."""
    for call in calls:
        substance = draft.outfit.strips_at(draft.outfit.yard(call.yard)).substance
        actions = call.planned or call.actions
        yield from (Spare(substance, one.pieces) for one in actions if one.job is Job.STRIPS)


def _see_load(draft: Draft, out: Out, new: Trip) -> None:
    """See that nothing is too much aboard, with what is not used up still on the truck.

    Raises:
        Refusal: When something would be.
    """
    was = loaded(draft.outfit, out.shift, out.trip)
    for over in overloads(draft.outfit, out.shift, new, out.begun, was).values():
        allowed = phrase("a load within all limits, not {over}", over=over)
        raise Refusal(allowed, phrase("Another order, or call the truck home."))


def _with_shift(draft: Draft, out: Out, shift: Shift, gone: Sequence[tuple[str, str]]) -> Draft:
    """Return the draft with another day for a truck; stops that are gone are counted as such.

    What a count told ahead of such a stop had led to is unsaid.
    """
    shifts = tuple(shift if one is out.shift else one for one in draft.plan.shifts)
    counted = tuple(dict.fromkeys((*draft.counted, *gone)))
    for stop in gone:
        draft = draft.unsaid(stop)
    return replace(draft, plan=replace(draft.plan, shifts=shifts), counted=counted)


def _noted(
    draft: Draft, shift: Shift, calls: Sequence[Call], gone: Sequence[tuple[str, str]]
) -> Draft:
    """Return the draft with what the driver must be told, in place of what it was to be before."""
    name = draft.outfit.truck(shift.truck).name
    before = [one for one in draft.notes if _tells(one, name)]
    kept = tuple(one for one in draft.notes if one not in before)
    left_out = ", ".join(str(one.parts["yards"]) for one in before if "yards" in one.parts)
    for yard in dict.fromkeys(draft.outfit.yard(yard).name for _, yard in gone):
        if f", {yard}, " not in f", {left_out}, ":
            left_out = f"{left_out}, {yard}" if left_out else yard
    words = _words(draft, shift, calls, left_out)
    return replace(draft, notes=kept).noted(words)


def _tells(note: Phrase, truck: str) -> bool:
    told = note.parts.get("told", note)
    return isinstance(told, Phrase) and told.one == _TELL and told.parts["truck"] == truck


def _part_of_way(outfit: Outfit, call: Call) -> Part:
    if call.kind is CallKind.LOAD:
        return phrase("loads again {time}", time=clock(call.start_min))
    where = outfit.yard(call.yard).name if call.yard else base_name(outfit, call.place)
    return joined(" ", where, clock(call.arrive_min))


def _words(draft: Draft, shift: Shift, calls: Sequence[Call], left_out: str) -> Phrase:
    """Return what the driver must be told."""
    outfit = draft.outfit
    name = outfit.truck(shift.truck).name
    way = [_part_of_way(outfit, call) for call in calls]
    way.append(phrase("home {time}", time=clock(shift.end_min)))
    told = phrase("tell {truck}: {way}", truck=name, way=joined(", ", *way))
    return phrase("{told}; left out: {yards}", told=told, yards=left_out) if left_out else told
