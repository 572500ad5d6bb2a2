"""The margins printed for the driver: latest time to leave, boxes to stop at."""

from dataclasses import replace

from runplanner.audit.book import Book, Run, Stop
from runplanner.audit.cargo import Cargo
from runplanner.audit.findings import Breach, Breaches, when
from runplanner.audit.hours import open_at
from runplanner.audit.load import over_axles, over_deck, over_mass, too_heavy
from runplanner.audit.whole import minutes_in
from runplanner.audit.windows import shut
from runplanner.audit.work import work_min
from runplanner.daybook.trip import CallKind
from runplanner.days import DAY_MIN


def latest_leaves(book: Book) -> Breaches:
    """Leaving a call at its latest minute still lets the rest of the day hold.

    Strict reading: the rest of the whole shift is driven through again, each call as long
    as its work takes, each break kept; every window of a yard, the hours of the bases,
    the end of the working day and the longest duty must hold.  Where breaks must fall
    (after so much duty or driving) is not judged again, nor is the cover of colonies.
    """
    for run in book.runs:
        stops = run.stops()
        for number, stop in enumerate(stops):
            call = stop.call
            if call.latest_leave_min < call.leave_min:
                allowed = f"{when(call.leave_min)} or later"
                yield _at(stop, f"latest leaving {when(call.latest_leave_min)}", allowed)
                continue
            trouble = _late(book, run, stops[number + 1 :], call.latest_leave_min)
            if trouble:
                yield _at(stop, f"latest leaving {when(call.latest_leave_min)}", trouble)


def _at(stop: Stop, said: str, allowed: str) -> Breach:
    return Breach(said, allowed, stop.trip.id, stop.call.yard)


def _late(book: Book, run: Run, rest: tuple[Stop, ...], leave: int) -> str:
    """Drive on from ``leave`` and return what then fails, or nothing."""
    pauses = run.shift.breaks
    for stop in rest:
        call = stop.call
        arrive = leave + (stop.leg.minutes or 0)
        waited = minutes_in(pauses, call.arrive_min, call.start_min)
        start = max(arrive + waited, call.start_min)
        end = start + work_min(book.outfit, stop)
        end += minutes_in(pauses, call.start_min, call.end_min)
        if _misses(book, stop, start, end):
            return f"in time for the call {when(call.start_min)} to fit its hours"
        leave = end + minutes_in(pauses, call.end_min, call.leave_min)
    back = leave + (run.home.minutes or 0)
    back += minutes_in(pauses, run.home.end_min, run.shift.end_min)
    last = _last_minute(book, run)
    return f"in time to end the day {when(last)}" if back > last else ""


def _misses(book: Book, stop: Stop, start: int, end: int) -> bool:
    if stop.yard is None:
        return not open_at(book.outfit, stop, start, end)
    moved = replace(stop, call=replace(stop.call, start_min=start, end_min=end))
    return any(True for _ in shut(stop.yard, moved))


def _last_minute(book: Book, run: Run) -> int:
    hours = book.outfit.hours
    evening = run.shift.day * DAY_MIN + hours.end_min
    return min(evening, run.shift.start_min + hours.duty_max_min)


def box_limits(book: Book) -> Breaches:
    """A take-off may go on to its boxes limit without a later leg being over a limit.

    The limit counts all honey boxes aboard on leaving.  Strict reading: with boxes of this
    yard up to the limit and everything later as planned, mass, deck, axles and the ways
    into the yards must hold on each leg until the boxes are unloaded.
    """
    for stops in book.trips():
        for number, stop in enumerate(stops):
            more = stop.call.boxes_limit - stop.after.box_count()
            if more < 0:
                allowed = f"at least the {stop.after.box_count()} boxes aboard"
                yield _at(stop, f"boxes limit {stop.call.boxes_limit}", allowed)
            elif more and any(action.boxes for action in stop.call.actions):
                yield from _overfull(book, stops[number:], more)


def _overfull(book: Book, stops: tuple[Stop, ...], more: int) -> Breaches:
    """Find the first leg, from the take-off on, that ``more`` boxes would spoil."""
    here = stops[0]
    for stop in stops:
        if stop.call.kind is not CallKind.YARD:
            return
        for breach in _spoilt(book, stop, here, more):
            said = f"boxes limit {here.call.boxes_limit} makes {breach.said}"
            yield _at(here, said, breach.allowed)
            return


def _spoilt(book: Book, stop: Stop, here: Stop, more: int) -> Breaches:
    if stop is not here:
        yield from too_heavy(book, stop, _with(stop.before, here.call.yard, more))
    full = _with(stop.after, here.call.yard, more)
    for check in (over_mass, over_deck, over_axles, too_heavy):
        yield from check(book, stop, full)


def _with(cargo: Cargo, yard: str, more: int) -> Cargo:
    return replace(cargo, boxes={**cargo.boxes, yard: cargo.boxes.get(yard, 0) + more})
