"""Hours of a visit: gate, daylight, weather for the job, settling; one visit at a time."""

from dataclasses import replace
from typing import Final

from runplanner.audit.book import Book, Stop
from runplanner.audit.findings import Breach, Breaches, on_day, when, word
from runplanner.audit.whole import minutes_in, within
from runplanner.daybook.trip import Job
from runplanner.days import DAY_MIN, NEVER, Span, without
from runplanner.outfit.shut import Work
from runplanner.outfit.yards import Yard
from runplanner.phrase import Phrase, phrase

SUN_ALL_NIGHT_MIN: Final = 360
"""Where the sun does not set, or is up before 03:00, bees have settled by 06:00."""
SUN_UP_EARLY_MIN: Final = 180


def reasons(book: Book) -> Breaches:
    """Hours that are told as shut are not hours in which a plan may work."""
    for yard in book.yards.values():
        for one in yard.shut:
            told = Span(one.start_min, one.end_min)
            free = {
                Work.OPEN: yard.open_spans,
                Work.FEED: yard.feed_spans,
                Work.SETTLE: without((told,), yard.unsettled_spans),
            }[one.work]
            if minutes_in(free, told.start_min, told.end_min):
                hours = phrase(
                    "{start} to {end}", start=when(told.start_min), end=when(told.end_min)
                )
                said = phrase(
                    "told as shut for {value}: {hours}", value=word(one.work), hours=hours
                )
                yield Breach(said, phrase("hours shut in the facts"), yard=yard.id)


def gates(book: Book) -> Breaches:
    """A visit lies within the hours the gate is open, rests after its work too."""
    for yard, stop in book.yard_stops():
        yield from gate(yard, stop)


def gate(yard: Yard, stop: Stop) -> Breaches:
    """Check one visit against the gate: who rests behind one that has shut is locked in."""
    opens, call = stop.shift.day * DAY_MIN + yard.access.opens_min, stop.call
    hours = Span(opens, gate_shuts(stop))
    gone = replace(stop, call=replace(call, end_min=max(call.end_min, call.leave_min)))
    yield from _outside(gone, (hours,), phrase("the gate's hours"))


def gate_shuts(stop: Stop) -> int:
    """Return when the gate of a call's yard shuts; at a base nobody is locked in."""
    if stop.yard is None:
        return NEVER
    return stop.shift.day * DAY_MIN + stop.yard.access.closes_min


def daylights(book: Book) -> Breaches:
    """A visit lies between sunrise and sunset."""
    for yard, stop in book.yard_stops():
        yield from daylight(yard, stop)


def daylight(yard: Yard, stop: Stop) -> Breaches:
    """Check one visit against the sun of its day."""
    yield from _outside(
        stop, yard.sun_spans[stop.shift.day : stop.shift.day + 1], phrase("daylight")
    )


def open_hours(book: Book) -> Breaches:
    """Boards go on and boxes come off only in hours fit for opening hives."""
    for yard, stop in book.yard_stops():
        yield from opening(yard, stop)


def opening(yard: Yard, stop: Stop) -> Breaches:
    """Check one visit with boards or take-off against the weather."""
    if stop.did(Job.BOARDS) or stop.did(Job.TAKE_OFF):
        yield from _outside(stop, yard.open_spans, phrase("hours fit for opening hives"))


def feed_hours(book: Book) -> Breaches:
    """Syrup is poured only in hours fit for it."""
    for yard, stop in book.yard_stops():
        yield from pouring(yard, stop)


def pouring(yard: Yard, stop: Stop) -> Breaches:
    """Check one visit with feed against the weather."""
    if stop.did(Job.FEED):
        yield from _outside(stop, yard.feed_spans, phrase("hours fit for syrup"))


def strips_hours(book: Book) -> Breaches:
    """Strips go in only in hours fit for opening hives or for syrup."""
    for yard, stop in book.yard_stops():
        yield from hanging(yard, stop)


def hanging(yard: Yard, stop: Stop) -> Breaches:
    """Check one visit with strips: it lies in one stretch fit for the one or the other."""
    if stop.did(Job.STRIPS):
        fit = (*yard.open_spans, *yard.feed_spans)
        yield from _outside(stop, fit, phrase("hours fit for opening hives or for syrup"))


def dry_hours(book: Book) -> Breaches:
    """Wet boxes and feeders come and go only in hours fit for opening hives or for syrup."""
    for yard, stop in book.yard_stops():
        yield from robbing(yard, stop)


def robbing(yard: Yard, stop: Stop) -> Breaches:
    """Check one visit with wet boxes or feeders: it lies in one stretch fit for either work."""
    if any(stop.did(job) for job in (Job.WET_UP, Job.WET_DOWN, Job.FEEDERS)):
        fit = (*yard.open_spans, *yard.feed_spans)
        yield from _outside(stop, fit, phrase("hours fit for opening hives or for syrup"))


def _outside(stop: Stop, spans: tuple[Span, ...], allowed: Phrase) -> Breaches:
    call = stop.call
    if not within(call.start_min, call.end_min, spans):
        said = phrase(
            "a visit from {start} to {end}", start=when(call.start_min), end=when(call.end_min)
        )
        yield stop.breach(said, phrase("within {allowed}", allowed=allowed))


def strips_weather(book: Book) -> Breaches:
    """Strips go in only on days fit for them."""
    for yard, stop in book.yard_stops():
        if stop.did(Job.STRIPS) and stop.shift.day in yard.strips_shut_days:
            said = phrase("strips on {day}", day=on_day(stop.shift.day))
            yield stop.breach(said, phrase("a day fit for these strips"))


def settlings(book: Book) -> Breaches:
    """From the end of a take-off until the next sunrise no unsettled weather falls.

    Until 06:00 where the sun is up before 03:00.
    """
    for yard, stop in book.yard_stops():
        yield from settling(yard, stop)


def settling(yard: Yard, stop: Stop) -> Breaches:
    """Check one visit with a take-off; without a known sunrise it cannot be allowed."""
    if not stop.did(Job.TAKE_OFF):
        return
    call = stop.call
    said = phrase("a take-off that ends {end}", end=when(call.end_min))
    sunrise = yard.sun_spans[stop.shift.day + 1 : stop.shift.day + 2]
    if not sunrise:
        yield stop.breach(said, phrase("a day whose next sunrise is known"))
        return
    midnight, until = (stop.shift.day + 1) * DAY_MIN, sunrise[0].start_min
    if until < midnight + SUN_UP_EARLY_MIN:
        until = midnight + SUN_ALL_NIGHT_MIN
    if minutes_in(yard.unsettled_spans, call.end_min, until):
        allowed = phrase("settled weather until {start}", start=when(until))
        yield stop.breach(said, allowed)


def shut(yard: Yard, stop: Stop) -> Breaches:
    """Check one visit against all of its hours."""
    for check in (gate, daylight, opening, pouring, hanging, robbing, settling):
        yield from check(yard, stop)


def one_visit(book: Book) -> Breaches:
    """No two visits of one yard overlap.

    Of two trucks that are out either may be told late: that they meet there is past judging.
    """
    for yard_id, stops in book.visits.items():
        stop = None  # of those so far the one that is over last
        for after in stops:
            if stop is not None and after.call.start_min < stop.call.end_min:
                said = phrase("a visit starts {start}", start=when(after.call.start_min))
                allowed = phrase("when the one before is over, {end}", end=when(stop.call.end_min))
                out = stop.trip.driven and after.trip.driven
                met = out and stop.shift is not after.shift
                yield Breach(said, allowed, after.trip.id, yard_id, ahead=not met)
            if stop is None or after.call.end_min >= stop.call.end_min:
                stop = after
