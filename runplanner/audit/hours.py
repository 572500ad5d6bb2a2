"""The clock of a shift: legs, calls, work, hours of the day, limits and breaks."""

from runplanner.audit.book import Book, Leg, Run, Stop, to_come
from runplanner.audit.findings import Breach, Breaches, on_day, when, word
from runplanner.audit.whole import minutes_in
from runplanner.audit.work import work_min
from runplanner.daybook.trip import CallKind
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.bases import Base
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import Phrase, phrase


def roads(book: Book) -> Breaches:
    """There is a road for every leg."""
    for run in book.runs:
        for leg, trip in _legs_by_trip(run):
            if leg.minutes is None or leg.metres is None:
                yield Breach(
                    phrase("a leg without a road on {start}", start=when(leg.start_min)),
                    phrase("a road"),
                    trip,
                )


def _legs_by_trip(run: Run) -> list[tuple[Leg, str]]:
    out = [(stop.leg, stop.trip.id) for stop in run.stops()]
    return [*out, (run.home, run.shift.trips[-1].id)]


def clocks(book: Book) -> Breaches:
    """A call is reached when the drive ends, then starts, ends and is left, in this order.

    Strict reading: the truck leaves at the very minute the last call was left and arrives
    exactly a leg later; it stays after the work only for a break.
    """
    for run in book.runs:
        for stop in run.stops():
            yield from _clock(run, stop)
            yield from _turned(book, stop)


def _turned(book: Book, stop: Stop) -> Breaches:
    """Yield that a truck can only have been called back after it came here, by now."""
    call, last = stop.call, min(book.plan.now_min, stop.call.leave_min)
    if call.turned_min and not call.start_min <= call.turned_min <= last:
        yield stop.breach(
            phrase("called back {minute}", minute=when(call.turned_min)),
            phrase("after the work began, and before it was left again or now"),
        )


def _clock(run: Run, stop: Stop) -> Breaches:
    call = stop.call
    if call.arrive_min != stop.leg.end_min:
        yield stop.breach(
            phrase("arrives {arrive}", arrive=when(call.arrive_min)),
            phrase("{end}, a leg on", end=when(stop.leg.end_min)),
        )
    if not call.arrive_min <= call.start_min <= call.end_min <= call.leave_min:
        said = phrase(
            "times {arrive_min}, {start_min}, {end_min}, {leave_min}",
            arrive_min=call.arrive_min,
            start_min=call.start_min,
            end_min=call.end_min,
            leave_min=call.leave_min,
        )
        yield stop.breach(said, phrase("arriving, starting, ending, leaving in this order"))
    pauses = {span.end_min for span in run.shift.breaks if span.start_min >= call.end_min}
    if call.leave_min not in {call.end_min, *pauses}:
        allowed = phrase(
            "leaving when done, {end}, or when a break after it is over", end=when(call.end_min)
        )
        yield stop.breach(phrase("leaves {leave}", leave=when(call.leave_min)), allowed)


def work_times(book: Book) -> Breaches:
    """The minutes at a call, breaks left out, are enough for its work."""
    for run in book.runs:
        for stop in run.stops():
            call = stop.call
            pause = minutes_in(run.shift.breaks, call.start_min, call.end_min)
            given = call.end_min - call.start_min - pause
            needed = work_min(book.outfit, stop)
            if given < needed:
                breach = stop.breach(
                    phrase("{given} min of work {start}", given=given, start=when(call.start_min)),
                    phrase("{least} or more", least=needed),
                )
                told = stop.unloads_as_counted() or (stop.yard is not None and not call.actions)
                yield breach._replace(ahead=breach.ahead and not told)


def _in_day(book: Book, run: Run, until: int, said: Phrase, allowed: Phrase) -> Breach:
    """Return a breach of a truck's day in a stretch that lasts until a minute.

    A drive under way cannot be made otherwise, so what ends with it, or with the wait behind it,
    is past judging as well.
    """
    now = book.plan.now_min
    there = [stop.call.start_min for stop in run.stops() if stop.leg.start_min <= now]
    there += [run.home.end_min] * (run.home.start_min <= now)
    ahead = to_come(book.plan, until) and (now <= 0 or until > max(there, default=now))
    return Breach(said, allowed, run.shift.trips[0].id, ahead=ahead)


def driving_figures(book: Book) -> Breaches:
    """A shift's driving minutes and metres are the sums of its legs."""
    for run in book.runs:
        minutes = sum(leg.minutes or 0 for leg in run.legs())
        metres = sum(leg.metres or 0 for leg in run.legs())
        shift = run.shift
        if (shift.driving_min, shift.metres) != (minutes, metres):
            said = phrase(
                "{day}: {minutes} min and {metres} m driven",
                day=on_day(shift.day),
                minutes=shift.driving_min,
                metres=shift.metres,
            )
            yield Breach(
                said,
                phrase("{minutes} min and {metres} m", minutes=minutes, metres=metres),
                shift.trips[0].id,
            )


def home_again(book: Book) -> Breaches:
    """The shift ends no sooner than the truck is home."""
    for run in book.runs:
        if run.shift.end_min < run.home.end_min:
            said = phrase("the shift ends {end}", end=when(run.shift.end_min))
            yield Breach(
                said, phrase("home {end}", end=when(run.home.end_min)), run.shift.trips[-1].id
            )


def working_days(book: Book) -> Breaches:
    """A shift lies within the working day, and within the hours of home."""
    hours, home = book.outfit.hours, book.outfit.home
    start_min = max(hours.start_min, home.opens_min)
    end_min = min(hours.end_min, home.closes_min)
    for run in book.runs:
        shift = run.shift
        first = shift.day * DAY_MIN + start_min
        last = shift.day * DAY_MIN + end_min
        if not first <= shift.start_min <= shift.end_min <= last:
            said = phrase(
                "out from {start} to {end}", start=when(shift.start_min), end=when(shift.end_min)
            )
            allowed = phrase("{first} to {last}", first=when(first), last=when(last))
            yield _in_day(book, run, shift.end_min, said, allowed)


def duties(book: Book) -> Breaches:
    """A shift is no longer than the longest duty."""
    most = book.outfit.hours.duty_max_min
    for run in book.runs:
        length = run.shift.end_min - run.shift.start_min
        if length > most:
            said = phrase("{day}: {length} min on duty", day=on_day(run.shift.day), length=length)
            allowed = phrase("at most {most}", most=most)
            yield _in_day(book, run, run.shift.end_min, said, allowed)


def driving_limits(book: Book) -> Breaches:
    """A shift's driving is no longer than the longest driving."""
    most = book.outfit.hours.driving_max_min
    for run in book.runs:
        driven = sum(leg.minutes or 0 for leg in run.legs())
        if driven > most:
            said = phrase(
                "{day}: {driven} min of driving", day=on_day(run.shift.day), driven=driven
            )
            allowed = phrase("at most {most}", most=most)
            yield _in_day(book, run, run.shift.end_min, said, allowed)


def break_places(book: Book) -> Breaches:
    """Breaks lie inside the shift, one after another, and never while driving."""
    for run in book.runs:
        free_from = run.shift.start_min
        for pause in run.shift.breaks:
            if not free_from <= pause.start_min < pause.end_min <= run.shift.end_min:
                yield _pause(run, pause, phrase("inside the shift, one after another"))
            free_from = max(free_from, pause.end_min)
            if any(minutes_in((pause,), leg.start_min, leg.end_min) for leg in run.legs()):
                yield _pause(run, pause, phrase("no driving in a break"))


def _pause(run: Run, pause: Span, allowed: Phrase) -> Breach:
    said = phrase(
        "a break from {start} to {end}", start=when(pause.start_min), end=when(pause.end_min)
    )
    return Breach(said, allowed, run.shift.trips[0].id)


def duty_breaks(book: Book) -> Breaches:
    """No stretch of duty without a break is too long; each break counts by itself."""
    hours = book.outfit.hours
    for run in book.runs:
        start = run.shift.start_min
        ends = Span(run.shift.end_min, run.shift.end_min)
        for pause in (*_long(run, hours.duty_break_min), ends):
            stretch = pause.start_min - start
            if stretch > hours.duty_break_after_min:
                said = phrase(
                    "{stretch} min on duty without a break from {start}",
                    stretch=stretch,
                    start=when(start),
                )
                allowed = phrase(
                    "at most {most}",
                    most=hours.duty_break_after_min,
                )
                yield _in_day(book, run, pause.start_min, said, allowed)
            start = pause.end_min


def _long(run: Run, least: int) -> list[Span]:
    return sorted(span for span in run.shift.breaks if span.end_min - span.start_min >= least)


def driving_breaks(book: Book) -> Breaches:
    """Driving summed between long enough breaks stays within its limit."""
    hours = book.outfit.hours
    for run in book.runs:
        stops = [span.start_min for span in _long(run, hours.drive_break_min)]
        for first, last in zip([None, *stops], [*stops, None], strict=True):
            legs = [
                leg
                for leg in run.legs()
                if leg.minutes
                and (first is None or leg.start_min >= first)
                and (last is None or leg.start_min < last)
            ]
            driven = sum(leg.minutes or 0 for leg in legs)
            if driven > hours.drive_break_after_min:
                said = phrase(
                    "{day}: {driven} min of driving without a break",
                    day=on_day(run.shift.day),
                    driven=driven,
                )
                allowed = phrase(
                    "at most {most}",
                    most=hours.drive_break_after_min,
                )
                until = max((leg.end_min for leg in legs), default=run.shift.end_min)
                yield _in_day(book, run, until, said, allowed)


def base_hours(book: Book) -> Breaches:
    """Loading and unloading lie within the hours of the base that serves the call.

    Strict reading: a call that unloads honey boxes and brood or wet boxes at one place keeps
    the hours of both the honey house and the feed store.
    """
    for stop in book.stops():
        if not open_at(book.outfit, stop, stop.call.start_min, stop.call.end_min):
            said = phrase(
                "{kind} from {start} to {end}",
                kind=word(stop.call.kind),
                start=when(stop.call.start_min),
                end=when(stop.call.end_min),
            )
            yield stop.breach(said, phrase("the hours of the base"))


def open_at(outfit: Outfit, stop: Stop, start_min: int, end_min: int) -> bool:
    """Tell whether each base that serves ``stop`` is open for the whole stretch."""
    midnight, house = stop.shift.day * DAY_MIN, outfit.honey_house
    bases = _bases(outfit, stop)
    full = house.base in bases and stop.before.boxes and minutes_in(house.full, start_min, end_min)
    return not full and all(
        midnight + base.opens_min <= start_min and end_min <= midnight + base.closes_min
        for base in bases
    )


def _bases(outfit: Outfit, stop: Stop) -> list[Base]:
    if stop.call.kind is CallKind.YARD:
        return []
    if stop.call.kind is CallKind.LOAD:
        return [outfit.feed_store]
    honey = bool(stop.before.boxes) and stop.call.place == outfit.honey_house.base.place
    store = bool(stop.before.brood_count() or stop.before.wet_count()) or not honey
    return [outfit.honey_house.base] * honey + [outfit.feed_store] * store
