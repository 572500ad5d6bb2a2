"""The margins printed for the driver: latest time to leave, boxes to stop at.

They are asked of calls to come, and of one that is at work and not counted.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import chain, islice, pairwise

from runplanner.audit.book import Book, Run, Stop
from runplanner.audit.cargo import Cargo
from runplanner.audit.findings import Breach, Breaches, when
from runplanner.audit.hours import open_at
from runplanner.audit.kit import short_when
from runplanner.audit.late import Going, driven, leaving, onward
from runplanner.audit.load import load_g, over_axles, over_deck, over_mass, too_heavy
from runplanner.audit.share import not_shared, strained, with_unused
from runplanner.audit.store import AtStore, Late
from runplanner.audit.windows import gate_shuts, shut
from runplanner.audit.work import work_min
from runplanner.daybook.trip import Against, CallKind
from runplanner.days import DAY_MIN
from runplanner.phrase import Phrase, counted, phrase


def latest_leaves(book: Book) -> Breaches:
    """Leaving a call at its latest minute still lets the rest of the day hold.

    It is no later than the call's own hours end, for until then there may be work.  The rest
    of the whole shift is driven through again, each call as long as its work takes, breaks
    wherever duty and driving then want them: the windows of the yards, the hours of the bases,
    the end of the working day and the longest duty must hold in some way of doing it; slack
    kept in hand in the evening is there for this.  Where the truck has not left, boards and
    feeders that another one loads that day must be back.  What other days hang on (cover, boards,
    feed rounds, the honey house) is not judged again.

    Where a truck has left, a latest minute is not blamed for what leaving on time breaks as well.
    """
    for run in book.runs:
        stops = run.stops()
        for number, stop in enumerate(stops):
            call = stop.call
            said = phrase("latest leaving {latest}", latest=when(call.latest_leave_min))
            if call.latest_leave_min < call.leave_min:
                yield _breach(stop, said, phrase("{start} or later", start=when(call.leave_min)))
                continue
            rest = stops[number + 1 :]
            trouble = _over_hours(book, stop) or _late(book, run, stop, rest)
            trouble = trouble or _short(book, run, stop, rest)
            if trouble is not None:
                breach = _breach(stop, said, trouble)
                yield breach._replace(ahead=breach.ahead and _on_time(book, run, stop, rest))


def _breach(stop: Stop, said: Phrase, allowed: Phrase) -> Breach:
    return stop.breach(said, allowed)._replace(ahead=stop.still_on)


def _on_time(book: Book, run: Run, stop: Stop, rest: tuple[Stop, ...]) -> bool:
    """Tell whether a call and the rest of the day hold when it is left as planned."""
    call = stop.call
    planned = replace(stop, call=replace(call, latest_leave_min=call.leave_min))
    open_still = not _closed(book, stop, call.start_min, call.leave_min)
    return open_still and _late(book, run, planned, rest) is None


def _over_hours(book: Book, stop: Stop) -> Phrase | None:
    """Return what is wrong where a call may be left later than planned, past its own hours."""
    call = stop.call
    latest = call.latest_leave_min
    if latest == call.leave_min or not _closed(book, stop, call.start_min, latest):
        return None
    return phrase("no later than the hours of this call end")


def _late(book: Book, run: Run, stop: Stop, rest: tuple[Stop, ...]) -> Phrase | None:
    """Drive on from the latest minute and return what then fails, or nothing."""
    hours = book.outfit.hours
    ways = leaving(run, stop, hours)
    for later, after in _onward(book, ways, (stop, *rest)):
        ways = after
        if not ways:
            return phrase(
                "in time for the call {start} to fit its hours", start=when(later.call.start_min)
            )
    last = _last_minute(book, run)
    gone_by = gate_shuts((stop, *rest)[-1])
    back = [way.now for way in driven(ways, run.home, hours, gone_by)]
    return (
        None
        if back and min(back) <= last
        else phrase("in time to end the day {last}", last=when(last))
    )


def _onward(
    book: Book, ways: list[Going], stops: tuple[Stop, ...]
) -> Iterator[tuple[Stop, list[Going]]]:
    """Yield each call after the first, and how the crew may stand once its work there is done.

    That is in its hours, and after rests behind no gate that has shut.
    """
    for here, later in pairwise(stops):
        after = onward(book, ways, later, gate_shuts(here))
        ways = [way for way in after if not _misses(book, later, way.now)]
        yield later, ways


def _short(book: Book, run: Run, stop: Stop, rest: tuple[Stop, ...]) -> Phrase | None:
    """Return what is wrong where another truck then loads boards or feeders not yet back.

    Trips are back as soon as they can be, and load no sooner than that.
    """
    here = next(trip for trip in run.trips if stop in trip)
    loads = (s.call.start_min for s in book.stops() if s.call.kind is CallKind.LOAD
             and s.shift.day == run.shift.day and s.shift is not run.shift)  # fmt: skip
    if stop.trip.driven or not any(start >= here[-1].call.end_min for start in loads):
        return None
    late = _late_at_store(book, run, stop, rest)
    return phrase("in time for what other trucks load") if short_when(book, late) else None


def _late_at_store(book: Book, run: Run, stop: Stop, rest: tuple[Stop, ...]) -> Late:
    """Return when the trips of a day that goes on from a latest minute are at the store.

    A last call left late may have ended before a break, the longest at most.
    """
    hours, call = book.outfit.hours, stop.call
    longest = max(0, hours.duty_break_min, hours.drive_break_min)
    ends = {id(stop): max(call.end_min, call.latest_leave_min - longest)}
    for later, ways in _onward(book, leaving(run, stop, hours), (stop, *rest)):
        ends[id(later)] = min(way.now for way in ways)
    found, before = dict[str, AtStore](), 0
    for trip in run.trips:
        load_min, end = trip[0].call.start_min, ends.get(id(trip[-1]))
        if end is not None:
            put_off = id(trip[0]) in ends and trip[0] is not stop
            in_min = max(load_min, before)
            found[trip[0].trip.id] = AtStore(in_min, end if put_off else load_min, end)
            before = end
    return found


def _misses(book: Book, stop: Stop, end: int) -> bool:
    """Tell whether a call's work that ends at ``end`` falls out of its hours."""
    return _closed(book, stop, max(stop.call.start_min, end - work_min(book.outfit, stop)), end)


def _closed(book: Book, stop: Stop, start: int, end: int) -> bool:
    """Tell whether some of a stretch lies outside a call's hours."""
    if stop.yard is None:
        return not open_at(book.outfit, stop, start, end)
    moved = replace(stop.call, start_min=start, end_min=end, leave_min=end)
    return any(True for _ in shut(stop.yard, replace(stop, call=moved)))


def _last_minute(book: Book, run: Run) -> int:
    hours = book.outfit.hours
    kept = book.outfit.in_hand
    evening = run.shift.day * DAY_MIN + hours.end_min + (kept.end_min if kept is not None else 0)
    return min(evening, run.shift.start_min + hours.duty_max_min)


def box_limits(book: Book) -> Breaches:
    """A take-off may go on to its boxes limit without a later leg being over a limit.

    The limit counts all honey boxes aboard on leaving.  Strict reading: with boxes of this
    yard up to the limit and everything later as planned, mass, deck, axles and the ways
    into the yards must hold on each leg until the boxes are unloaded.  Where no box is taken
    it is what is aboard.

    What no call uses takes its places on the deck as well where more than planned are allowed.
    It may be fewer than planned, down to those aboard on coming, where the load of a truck that
    has left is known not to hold there or later; then legs up to the next take-off must hold,
    and later ones are judged as if it had stopped there.  The number as planned is told beside it
    for trips that have left, and only where it is another one.

    The same must hold where stops before, still on, were left at their limits, or some of them.
    """
    for planned in book.trips():
        yield from _limits_together(book, planned)
        stops = planned
        for number, as_planned in enumerate(planned):
            takes = any(action.boxes for action in as_planned.call.actions)
            stop = stops[number] if takes else as_planned
            was = stop.call.limit_was
            if was is not None and (was == stop.call.boxes_limit or not stop.trip.driven):
                said = phrase("boxes limit {limit} as planned", limit=was)
                yield _breach(stop, said, phrase("another one than now, of a trip that has left"))
            more = stop.call.boxes_limit - stop.after.box_count()
            least = _least_boxes(stops, number)
            if stop.call.boxes_limit < least:
                allowed = counted(
                    "at least the {number} box aboard",
                    "at least the {number} boxes aboard",
                    least,
                )
                yield _breach(
                    stop, phrase("boxes limit {limit}", limit=stop.call.boxes_limit), allowed
                )
            elif takes:
                if more > 0:
                    yield from _overfull(book, stops, number, more)
                elif stop.call.boxes_limit > least:
                    yield from _still_overfull(book, stops[number:], more)
            elif more:
                yield _breach(
                    stop,
                    phrase("boxes limit {limit}", limit=stop.call.boxes_limit),
                    counted(
                        "{number} box, as no more are taken here",
                        "{number} boxes, as no more are taken here",
                        stop.after.box_count(),
                    ),
                )
            stops = _heeding(stops, number) if takes else stops


def _limits_together(book: Book, stops: tuple[Stop, ...]) -> Breaches:
    """Find the first leg over a limit where stops still on are left as planned or at their limits.

    Each with any number between; strict reading: of all such ways none is too heavy.  Deck places
    are asked with every stop at its limit.  Of a stop that may take as many as planned, or more;
    limits below that are judged by themselves.
    """
    full, ways = stops, {0: stops}
    for number, planned in enumerate(stops):
        if not planned.still_on or not any(action.boxes for action in planned.call.actions):
            continue
        limit, due = planned.call.boxes_limit, planned.after.box_count()
        if limit >= due and full is not stops:
            first = next(chain(_beyond(book, full, number), _too_much(book, ways, number)), None)
            if first is not None:
                yield first
                return
        full = _with_taken(full, number, _room(full[number], limit))
        ways = _heaviest(book, ways.values(), number, (min(due, limit), limit))


def _beyond(book: Book, stops: tuple[Stop, ...], number: int) -> Breaches:
    """Find the first leg that a stop spoils which goes on to its limit, come to as told."""
    more = _room(stops[number], stops[number].call.boxes_limit)
    if more > 0:
        yield from _overfull(book, stops, number, more)
    else:
        yield from _still_overfull(book, stops[number:], more)


def _room(here: Stop, limit: int) -> int:
    """Return how many boxes more than it takes a stop may take; who comes with more takes none."""
    took = sum(action.boxes for action in here.call.actions)
    return max(limit - here.after.box_count(), -took)


def _too_much(book: Book, ways: Mapping[int, tuple[Stop, ...]], number: int) -> Breaches:
    """Find the first leg that a stop makes too heavy which goes on to its limit, however come to.

    Whoever comes with more than its limit takes none, which spoils nothing.
    """
    most_g = None
    for came, stops in sorted(ways.items()):
        here = stops[number]
        box_g = book.yards[here.call.yard].box_g
        above_g = load_g(book, here.trip, here.before) - came * box_g
        if came <= here.call.boxes_limit and (most_g is None or above_g > most_g):
            most_g = above_g
            yield from _too_heavy_on(book, stops, number)


def _too_heavy_on(book: Book, stops: tuple[Stop, ...], number: int) -> Breaches:
    """Find legs too heavy from a stop on that goes on to its limit.

    Up to the next take-off where it takes as many as planned, or fewer.
    """
    here = stops[number]
    more = here.call.boxes_limit - here.after.box_count()
    for stop in _with_taken(stops, number, more)[number:]:
        if stop.call.kind is not CallKind.YARD:
            return
        first = stop.call is here.call
        last = more <= 0 and not first and any(action.boxes for action in stop.call.actions)
        came = () if first else too_heavy(book, stop, stop.before)
        checks = () if last else (over_mass, over_axles, too_heavy)
        left = (breach for check in checks for breach in check(book, stop, stop.after))
        yield from (_made(here, breach) for breach in chain(came, left))
        if last:
            return


def _heaviest(
    book: Book, ways: Iterable[tuple[Stop, ...]], number: int, ends: tuple[int, int]
) -> dict[int, tuple[Stop, ...]]:
    """Return, by boxes aboard on leaving a stop with either of two numbers, the heaviest way."""
    found: dict[int, tuple[Stop, ...]] = {}
    for stops in ways:
        for end in ends:
            left = _with_taken(stops, number, _room(stops[number], end))
            here = left[number]
            aboard = here.after.box_count()
            other = found.get(aboard)
            if other is None or _load_g(book, here) > _load_g(book, other[number]):
                found[aboard] = left
    return found


def _load_g(book: Book, stop: Stop) -> int:
    return load_g(book, stop.trip, stop.after)


def _with_taken(stops: tuple[Stop, ...], number: int, more: int) -> tuple[Stop, ...]:
    """Return the stops of a trip with so many more boxes from one, up to the unloading."""
    yard, found = stops[number].call.yard, list(stops)
    for at, stop in enumerate(stops[number:], start=number):
        if stop.call.kind is not CallKind.YARD:
            break
        before = stop.before if at == number else _with(stop.before, yard, more)
        found[at] = replace(stop, before=before, after=_with(stop.after, yard, more))
    return tuple(found)


def _heeding(stops: tuple[Stop, ...], number: int) -> tuple[Stop, ...]:
    """Return the stops of a trip with no more boxes from one still on than its limit allows."""
    here = stops[number]
    more = here.call.boxes_limit - here.after.box_count()
    if more >= 0 or not here.still_on:
        return stops
    return _with_taken(stops, number, more)


def _least_boxes(stops: tuple[Stop, ...], number: int) -> int:
    """Return the fewest boxes that one stop of a trip may be told to stop at."""
    here = stops[number]
    known = here.trip.driven and any(Against.LOAD in stop.call.against for stop in stops)
    takes = any(action.boxes for action in here.call.actions)
    return here.before.box_count() if known and takes else here.after.box_count()


def _overfull(book: Book, stops: tuple[Stop, ...], number: int, more: int) -> Breaches:
    """Find the first leg, from the take-off on, that ``more`` boxes would spoil."""
    here, unused = stops[number], with_unused(book, stops)
    for stop, cargo in zip(stops[number:], unused[number:], strict=True):
        if stop.call.kind is not CallKind.YARD:
            break
        deck = over_deck(book, stop, _with(cargo, here.call.yard, more))
        for breach in chain(_spoilt(book, stop, here, more), deck):
            yield _made(here, breach)
            return
    if here.rig.trailer is not None:
        yard = here.call.yard
        cargos = [*unused[:number], *(_with(cargo, yard, more) for cargo in unused[number:])]
        failing = (at for at in strained(book, stops, cargos) if at >= number)
        for at in islice(failing, 1):
            yield _made(here, not_shared(book, stops[at]))


def _still_overfull(book: Book, stops: tuple[Stop, ...], more: int) -> Breaches:
    """Find the first leg up to the next take-off that ``more`` boxes, 0 or fewer, leave spoilt."""
    here = stops[0]
    for stop in stops:
        if stop.call.kind is not CallKind.YARD:
            return
        takes = stop is not here and any(action.boxes for action in stop.call.actions)
        came, full = (_with(cargo, here.call.yard, more) for cargo in (stop.before, stop.after))
        found = [] if stop is here else list(too_heavy(book, stop, came))
        for check in () if takes else (over_mass, over_deck, too_heavy):
            found += check(book, stop, full)
        for breach in found[:1]:
            yield _made(here, breach)
        if takes or found:
            return


def _made(here: Stop, breach: Breach) -> Breach:
    said = phrase("boxes limit {limit} makes {said}", limit=here.call.boxes_limit, said=breach.said)
    return _breach(here, said, breach.allowed)


def _spoilt(book: Book, stop: Stop, here: Stop, more: int) -> Breaches:
    if stop is not here:
        yield from too_heavy(book, stop, _with(stop.before, here.call.yard, more))
    full = _with(stop.after, here.call.yard, more)
    for check in (over_mass, over_axles, too_heavy):
        yield from check(book, stop, full)


def _with(cargo: Cargo, yard: str, more: int) -> Cargo:
    return replace(cargo, boxes={**cargo.boxes, yard: cargo.boxes.get(yard, 0) + more})
