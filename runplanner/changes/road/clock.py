"""The clock of the rest of a truck's day that was told to go otherwise."""

import itertools
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Final, NamedTuple

from runplanner.daybook.trip import Call, CallKind, Job, Shift, Trip
from runplanner.days import DAY_MIN, Span, clock
from runplanner.haulage.rush import Rush
from runplanner.outfit.bases import Base
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Hours
from runplanner.outfit.yards import CLOSED
from runplanner.phrase import phrase
from runplanner.scenario.faults import Refusal
from runplanner.visits.windows import windows

_SHORTER: Final = phrase("Leave out a stop, or call the truck home.")


class Later(NamedTuple):
    """Trips that a truck has not loaded for, as its driver has them.

    Args:
        trips: The trips.
        breaks: Those in them.
        was: All breaks of the day, as the driver has them.
    """

    trips: Sequence[Trip] = ()
    breaks: tuple[Span, ...] = ()
    was: tuple[Span, ...] = ()


@dataclass(slots=True)
class Rest:
    """What a truck still drives of its day.

    Args:
        outfit: The facts.
        shift: Its day as it was told before, with no breaks of later trips.
        at: Number of the trip it is on.
        begun: How many calls of that trip have begun.
        now_min: The time it is.
        ripe: The minute before which a call may not begin.
        laws: Of breaks; those of the outfit where none are told.
        in_work: A break that falls due in the work at a stop is taken there, not before it.
    """

    outfit: Outfit
    shift: Shift
    at: int
    begun: int
    now_min: int
    ripe: Callable[[Call], int] = lambda _: 0
    laws: Hours | None = None
    in_work: bool = False
    breaks: list[Span] = field(default_factory=list)
    rush: Rush | None = field(default=None, init=False)
    astray: list[tuple[int, int]] = field(default_factory=list, init=False)
    """Start and minutes of what it drives to where it is called back, and back from there."""

    def __post_init__(self) -> None:
        """Begin with the breaks as they were told; drives go by the hours they lie in."""
        self.breaks = list(self.shift.breaks)
        hours = self.laws or self.outfit.hours
        # A break of no minutes is no break.
        hours = replace(
            hours,
            duty_break_min=hours.duty_pause_min,
            drive_break_min=hours.drive_pause_min,
        )
        self.outfit = replace(self.outfit, hours=hours)
        by_hour = self.outfit.travel.by_hour
        self.rush = Rush(by_hour) if by_hour else None

    def work_min(self, call: Call) -> int:
        """Return the minutes of a call to come, as `work_min`: breaks by now are none in it."""
        begun = self.shift.trips[self.at].calls[self.begun - 1].leave_min
        breaks = tuple(one for one in self.shift.breaks if one.start_min >= begun)
        return work_min(self.outfit, replace(self.shift, breaks=breaks), call)

    def over_at(self, minute: int, *, whole: bool) -> Call:
        """Return the last call begun, over at a minute; if it runs late, with the breaks then due.

        Only breaks before that stay, and one begun where it would be too late for it, or that is
        to be ``whole``.
        """
        calls = self.shift.trips[self.at].calls
        last, following = calls[self.begun - 1 : self.begun + 1]
        taken = [one for one in self.breaks if one.end_min <= min(minute, last.leave_min)]
        if minute < last.turned_min:
            # Called back on the road since, it is there again no sooner than that allows.
            on_way = [b for b in self.breaks if last.turned_min <= b.start_min < last.leave_min]
            self.breaks = [*taken, *on_way]
            rests = sum(one.end_min - one.start_min for one in on_way)
            back = self._back(minute, last.turned_min, last.turned_min)
            return _left_at(last, last.turned_min + back + rests)
        for one in self.breaks:
            begun = one.start_min < min(minute, last.leave_min) and minute < one.end_min
            if begun and (whole or minute - self._on_duty_from(taken) > self._most_duty()):
                taken.append(one)
                minute = one.end_min
        while last.end_min < minute:
            leg = self._leg(last.place, following.place, minute)
            due = self._due_by(minute, leg, self._on_duty_from(taken))
            if due is None:
                break
            taken.append(due)
            minute = max(minute, due.end_min)
        self.breaks = taken
        return _left_at(last, minute)

    def _due_by(self, minute: int, leg: int, since: int) -> Span | None:
        """Return the break from duty, of that ``since`` a minute, due in a stop left late.

        Or before the drive from it, where there is time; not before now.  None where none is due.
        """
        pause, due = self.outfit.hours.duty_break_min, since + self._most_duty()
        rests = max(self.now_min, since, min(due, minute - pause))
        in_time = rests + pause <= minute
        if not (due < minute and rests < minute) and not (due < minute + leg and in_time):
            return None
        return Span(rests, rests + pause)

    def drive(self, calls: Sequence[tuple[Call, int]], *, strict: bool) -> list[Call]:
        """Return all calls of the trip, those in ``calls``, each with its minutes, set anew.

        Raises:
            Refusal: When a stop does not fit its hours, or with ``strict`` the day its limit.
        """
        trip = self.shift.trips[self.at]
        done = list(trip.calls[: self.begun])
        done[-1] = self._held(done, trip.calls[self.begun], calls[0][0])
        self.breaks = [one for one in self.breaks if one.end_min <= done[-1].leave_min]
        driving = done[-1].leave_min < self.now_min
        for call, work in calls:
            # Who drives rests no sooner than there.
            done[-1] = done[-1] if driving else self._rested(done, call.place, work)
            driving = False
            done.append(self._reached(done, call, work, strict=strict))
        return done

    def _held(self, done: Sequence[Call], planned: Call, following: Call) -> Call:
        """Return the last call begun, left when the truck could be back there; or as it was.

        Breaks in stops that it does not reach are not taken; those due before it is back are.
        """
        last, now = done[-1], self.now_min
        if now <= last.leave_min or planned.place == following.place:
            return last
        turned = min(now, planned.arrive_min)
        leave = now + self._back(last.leave_min, turned, now)
        self.breaks = [Span(one.start_min, min(one.end_min, now)) for one in self.breaks
                       if one.start_min < now]  # fmt: skip
        self.astray = [(last.leave_min, turned - last.leave_min)]
        hours = self.outfit.hours
        duty_by = self._on_duty_from(self.breaks) + self._most_duty()
        drive_by = now + hours.drive_break_after_min - self._drove(done)
        pause = hours.drive_break_min if drive_by < leave else 0
        pause = max(pause, hours.duty_break_min if duty_by < leave + pause else 0)
        rests = min(leave, max(now, min(duty_by, drive_by)))
        if pause:
            self.breaks.append(Span(rests, rests + pause))
        self.astray += [(now, rests - now), (rests + pause, leave - rests)]
        return replace(_left_at(last, leave + pause), turned_min=now)

    def _back(self, left_min: int, turned_min: int, from_min: int) -> int:
        """Return the minutes back to a place left at ``left_min``, begun at ``from_min``."""
        gone = turned_min - left_min
        if self.rush is None:
            return gone
        plain = next(n for n in itertools.count() if self._driven(n, left_min) >= gone)
        return self._driven(plain, from_min)

    def _rested(self, done: Sequence[Call], there: int, work: int) -> Call:
        """Return the last call, with a break after it where the next stretch is too long."""
        hours, last = self.outfit.hours, done[-1]
        duty_from = self._on_duty_from(self.breaks)
        # Work that is too long for one stretch has its breaks in it.
        leg = self._leg(last.place, there, last.leave_min)
        on_duty = last.leave_min - duty_from
        before = not self.in_work and leg + work <= hours.duty_break_after_min
        on_duty += work if before else 0
        drove = self._drove(done)

        def due(rest: int) -> int:
            leg = self._leg(last.place, there, last.leave_min + rest)
            # A break from driving that is too short for one from duty is duty.
            duty = on_duty + rest + leg
            return max(
                hours.duty_break_min if duty > hours.duty_break_after_min else 0,
                hours.drive_break_min if drove + leg > hours.drive_break_after_min else 0,
            )

        rest = due(0)
        if not rest:
            return last
        # After a rest the leg may have come into a slower hour and need a longer one.
        leave = self._in_one_go(last.place, there, last.leave_min + max(rest, due(rest)))
        self.breaks.append(Span(last.leave_min, leave))
        return replace(last, leave_min=leave, latest_leave_min=max(leave, last.latest_leave_min))

    def _in_one_go(self, here: int, there: int, minute: int) -> int:
        """Return the first minute from one on when the drive needs no break in it.

        That is when slow hours are over; the minute itself where they are not in time.
        """
        ends = self.shift.day * DAY_MIN + self.outfit.hours.end_min
        drives = ((n, self._leg(here, there, n)) for n in range(minute, ends))
        return next((n for n, leg in drives if leg <= self._most_drive() and n + leg <= ends),
                    minute)  # fmt: skip

    def _most_drive(self) -> int:
        return min(self._most_duty(), self.outfit.hours.drive_break_after_min)

    def _drove(self, done: Sequence[Call]) -> int:
        """Return the minutes driven since the last break that ends a stretch of driving."""
        least = self.outfit.hours.drive_break_min
        ends = [one.end_min for one in self.breaks if _lasts(one, least)]
        since = max(ends, default=self.shift.start_min)
        legs = (*self._legs(done), *self.astray)
        return sum(minutes for start, minutes in legs if start >= since)

    def _on_duty_from(self, breaks: Sequence[Span]) -> int:
        """Return the end of the last of some breaks that ends a stretch of duty, or the start."""
        least = self.outfit.hours.duty_break_min
        ends = [one.end_min for one in breaks if _lasts(one, least)]
        return max(ends, default=self.shift.start_min)

    def _breaks_in(self, work: int, before: Sequence[Span], start_min: int) -> list[Span]:
        """Return the breaks in work of so many minutes, after those ``before``."""
        hours, found = self.outfit.hours, list[Span]()
        now, duty_from = start_min, self._on_duty_from(before)
        while 0 < hours.duty_break_after_min < now + work - duty_from:
            rests = max(now, duty_from + hours.duty_break_after_min)
            work -= rests - now
            now = duty_from = rests + hours.duty_break_min
            found.append(Span(rests, now))
        return found

    def _legs(self, done: Sequence[Call]) -> Iterator[tuple[int, int]]:
        """Yield start and minutes of the legs driven so far."""
        before = (call for trip in self.shift.trips[: self.at] for call in trip.calls)
        return self._drives([*before, *done])

    def _drives(self, calls: Sequence[Call]) -> Iterator[tuple[int, int]]:
        """Yield start and minutes of the drives from home by all ``calls``."""
        start, here = self.shift.start_min, self.outfit.home.place
        for call in calls:
            yield start, self._leg(here, call.place, start)
            start, here = call.leave_min, call.place

    def _reached(self, done: Sequence[Call], call: Call, work: int, *, strict: bool) -> Call:
        last = done[-1]
        arrive = last.leave_min + self._leg(last.place, call.place, last.leave_min)
        ready = max(arrive, settled_min(self.outfit, call) - work, self.ripe(call))
        fit = [
            found
            for span in self._spans(done, call)
            for found in (self._worked(arrive, max(ready, span.start_min), work),)
            if found[2] <= span.end_min
        ]
        if not fit and strict:
            where = self.outfit.yard(call.yard).name if call.yard else phrase("the unloading place")
            said = phrase(
                "{where} within its hours; the truck is there at {arrive}",
                where=where,
                arrive=clock(arrive),
            )
            raise Refusal(said, phrase("Leave out that stop as well, or call the truck home."))
        start, breaks, end = min(fit, default=self._worked(arrive, ready, work))
        self.breaks += breaks
        return replace(call, arrive_min=arrive, start_min=start, end_min=end, leave_min=end,
                       latest_leave_min=max(end, call.latest_leave_min))  # fmt: skip

    def _worked(self, arrive: int, start: int, work: int) -> tuple[int, list[Span], int]:
        """Return when work begins, the breaks from arriving to its end, and that end.

        A wait as long as a break is one; one for which duty would be too long is drawn out to one.
        """
        hours = self.outfit.hours
        if arrive < start and start - self._on_duty_from(self.breaks) > self._most_duty():
            start = max(start, arrive + hours.duty_break_min)
        waited = [Span(arrive, start)] if start - arrive >= hours.duty_break_min else []
        breaks = self._breaks_in(work, [*self.breaks, *waited], start)
        return (
            start,
            [*waited, *breaks],
            start + work + sum(b.end_min - b.start_min for b in breaks),
        )

    def _most_duty(self) -> int:
        return self.outfit.hours.duty_break_after_min or DAY_MIN

    def _spans(self, done: Sequence[Call], call: Call) -> Sequence[Span]:
        """Return the hours of the day in which a call may lie, after those ``done``."""
        if call.kind is CallKind.YARD:
            return call_spans(self.outfit, call, self.shift.day)
        trip = itertools.takewhile(lambda one: one.kind is not CallKind.LOAD, reversed(done))
        bases = serving(self.outfit, call, *_brought(trip))
        opens = max(base.opens_min for base in bases)
        closes = min(base.closes_min for base in bases)
        midnight = self.shift.day * DAY_MIN
        return (Span(midnight + opens, midnight + closes),)

    def _leg(self, here: int, there: int, start_min: int) -> int:
        minutes = self.outfit.travel.minutes[here][there]
        if minutes is None:
            raise Refusal(phrase("a way by road"), phrase("Choose another order."))
        return self._driven(-(-minutes * 1000 // _speed(self.outfit, self.shift)), start_min)

    def _driven(self, plain_min: int, start_min: int) -> int:
        return plain_min if self.rush is None else self.rush(plain_min, start_min)

    def onward(self, calls: Sequence[Call], later: Later) -> tuple[Sequence[Call], Sequence[Trip]]:
        """Return the calls of the trip and the trips after it, put off where they must be.

        Those stay as they are where their loads are reached in time and breaks suffice.

        Raises:
            Refusal: When they may not be so late.
        """
        return self.as_told(calls, later) or self._put_off(calls, later)

    def as_told(
        self, calls: Sequence[Call], later: Later
    ) -> tuple[Sequence[Call], Sequence[Trip]] | None:
        """Return the calls and the trips after them at their times; None where that cannot be."""
        if not later.trips:
            return calls, later.trips
        told = [replace(self.shift.trips[self.at], calls=tuple(calls)), *later.trips]
        for at, trip in enumerate(later.trips):
            waiting = self.waits(told[at].calls, trip)
            if waiting is None:
                return None
            told[at], told[at + 1] = replace(told[at], calls=waiting[0]), waiting[1]
        breaks = sorted([*self.breaks, *later.breaks])
        every = [call for trip in told for call in trip.calls]
        if tuple(breaks) != later.was and not self.rested_enough(every, breaks):
            return None
        self.breaks = breaks
        return told[0].calls, told[1:]

    def rested_enough(self, calls: Sequence[Call], breaks: Sequence[Span]) -> bool:
        """Tell whether duty and driving are short enough between breaks until the last call."""
        hours = self.outfit.hours
        before = [call for trip in self.shift.trips[: self.at] for call in trip.calls]
        legs = [*self._drives([*before, *calls]), *self.astray]
        on_duty = self.shift.start_min
        for one in [*breaks, Span(calls[-1].leave_min, calls[-1].leave_min)]:
            if one.start_min - on_duty > self._most_duty():
                return False
            on_duty = one.end_min if _lasts(one, hours.duty_break_min) else on_duty
        rests = [one.end_min for one in breaks if _lasts(one, hours.drive_break_min)]
        stretches = itertools.pairwise([self.shift.start_min, *rests, calls[-1].leave_min])
        return all(
            sum(took for start, took in legs if since <= start < until)
            <= hours.drive_break_after_min
            for since, until in stretches
        )

    def _put_off(
        self, calls: Sequence[Call], later: Later
    ) -> tuple[Sequence[Call], Sequence[Trip]]:
        """Return the calls, and the later trips as soon after them as may be, none sooner.

        Raises:
            Refusal: When a call would be left later than it may be.
        """
        was = replace(self.shift, breaks=later.breaks)
        steps = [
            (call, work_min(self.outfit, was, call)) for trip in later.trips for call in trip.calls
        ]
        trips = self.shift.trips[: self.at]
        late = replace(self.shift.trips[self.at], calls=(*calls, *(call for call, _ in steps)))
        day = replace(self.shift, trips=(*trips, late), breaks=tuple(self.breaks))
        rest = Rest(self.outfit, day, self.at, len(calls), -DAY_MIN, lambda one: one.start_min,
                    in_work=self.in_work)  # fmt: skip
        rest.astray = self.astray
        told = rest.drive(steps, strict=False)
        put_off = told[len(calls) :]
        pairs = zip(put_off, steps, strict=True)
        if any(new.leave_min > old.latest_leave_min for new, (old, _) in pairs):
            load = later.trips[0].calls[0]
            said = phrase(
                "a day that holds: the next trip loads at {start_min} and must leave by {latest}",
                start_min=clock(load.start_min),
                latest=clock(load.latest_leave_min),
            )
            raise Refusal(said, phrase("Leave out more stops, or call the truck home."))
        self.breaks, new = rest.breaks, iter(put_off)
        return told[: len(calls)], [
            replace(trip, calls=tuple(itertools.islice(new, len(trip.calls))))
            for trip in later.trips
        ]

    def waits(self, calls: Sequence[Call], following: Trip) -> tuple[tuple[Call, ...], Trip] | None:
        """Return the calls, the last one left in time for the load of the next trip, and that.

        None where it is too late.
        """
        last, load = calls[-1], following.calls[0]
        leave = load.arrive_min
        if last.leave_min + self._leg(last.place, load.place, last.leave_min) == leave:
            return tuple(calls), following
        while leave + self._leg(last.place, load.place, leave) > load.arrive_min:
            leave -= 1
        if leave < last.leave_min:
            return None
        if leave > last.leave_min:
            latest = max(leave, last.latest_leave_min)
            last = replace(last, end_min=leave, leave_min=leave, latest_leave_min=latest)
        # A minute later it could be too late already: then it is there a little sooner.
        arrive = leave + self._leg(last.place, load.place, leave)
        load = replace(load, arrive_min=arrive)
        return (*calls[:-1], last), replace(following, calls=(load, *following.calls[1:]))

    def ended(self, shift: Shift, *, strict: bool = True) -> Shift:
        """Return the day with its end, and what is driven in it.

        Raises:
            Refusal: With ``strict``, as `see_day` and `see_drives`.
        """
        before, shift = shift, self._rested_for_home(shift)
        home, calls = self.outfit.home.place, [call for trip in shift.trips for call in trip.calls]
        last = calls[-1]
        back = self._leg(last.place, home, last.leave_min)
        pairs = itertools.pairwise([home, *(call.place for call in calls), home])
        told = replace(
            shift,
            end_min=last.leave_min + back,
            breaks=tuple(sorted(self.breaks)),
            driving_min=sum(minutes for _, minutes in self._drives(calls)) + back,
            metres=sum(self.outfit.travel.metres[one][other] or 0 for one, other in pairs),
        )
        if strict:
            see_day(self.outfit, told, before)
            self.see_drives(told)
        return told

    def see_drives(self, shift: Shift) -> None:
        """See that no drive of a day from now on is too long to be driven in one go.

        Raises:
            Refusal: When one is.
        """
        calls = [call for trip in shift.trips for call in trip.calls]
        calls.append(replace(calls[-1], place=self.outfit.home.place))
        gone = sum(len(trip.calls) for trip in shift.trips[: self.at]) + self.begun
        for start, minutes in itertools.islice(self._drives(calls), gone, None):
            if start >= self.now_min and minutes > self._most_drive():
                said = phrase(
                    "a drive of at most {most} min without a break, not {minutes}",
                    most=self._most_drive(),
                    minutes=minutes,
                )
                raise Refusal(said, phrase("Keep a stop that lies on the way."))

    def _rested_for_home(self, shift: Shift) -> Shift:
        """Return the day with no break in the way home, and one before it where it is due."""
        home = self.outfit.home.place
        calls = [call for trip in shift.trips[self.at :] for call in trip.calls]
        self.breaks = [one for one in self.breaks if one.end_min <= calls[-1].leave_min]
        if calls[-1].place == home:
            return shift
        last = self._rested(calls, home, 0)
        *trips, trip = shift.trips
        return replace(shift, trips=(*trips, replace(trip, calls=(*trip.calls[:-1], last))))


def _left_at(call: Call, minute: int) -> Call:
    """Return a call that is over, and left, at a minute and no later."""
    return replace(call, end_min=minute, leave_min=minute, latest_leave_min=minute)


def _lasts(one: Span, least_min: int) -> bool:
    return one.end_min - one.start_min >= least_min


def see_day(outfit: Outfit, shift: Shift, before: Shift) -> None:
    """See that a truck's day is no longer than may be, or than it was ``before``.

    Raises:
        Refusal: When it ends later, or drives longer.
    """
    hours = outfit.hours
    most = min(shift.day * DAY_MIN + hours.end_min, shift.start_min + hours.duty_max_min)
    if shift.end_min > max(most, before.end_min):
        said = phrase(
            "a day that ends by {most}, not at {end}", most=clock(most), end=clock(shift.end_min)
        )
        raise Refusal(said, _SHORTER)
    if shift.driving_min > max(hours.driving_max_min, before.driving_min):
        said = phrase(
            "a day with at most {most} min of driving, not {driving}",
            most=hours.driving_max_min,
            driving=shift.driving_min,
        )
        raise Refusal(said, _SHORTER)


def _speed(outfit: Outfit, shift: Shift) -> int:
    truck, trailer = outfit.truck(shift.truck), outfit.trailer(shift.trailer)
    return min(one.speed_permille for one in (truck, trailer) if one is not None)


def call_spans(outfit: Outfit, call: Call, day: int) -> tuple[Span, ...]:
    """Return the hours of a day in which a call at a yard may lie."""
    jobs = {action.job for action in call.actions}
    return windows(outfit, outfit.yard(call.yard)).spans(
        opening=bool(jobs & {Job.BOARDS, Job.TAKE_OFF}),
        feeding=Job.FEED in jobs,
        strips=Job.STRIPS in jobs,
        dry=bool(jobs & {Job.WET_UP, Job.WET_DOWN, Job.FEEDERS}),
    )[day]


def _brought(stops: Iterable[Call]) -> tuple[int, int]:
    """Return the boxes that stops bring for the honey house, and those for the feed store."""
    actions = [action for call in stops for action in call.actions]
    wet = sum(action.wet for action in actions if action.job is Job.WET_DOWN)
    brood = sum(action.brood_boxes for action in actions)
    return sum(action.boxes for action in actions), brood + wet


def serving(outfit: Outfit, call: Call, boxes: int, others: int) -> list[Base]:
    """Return the bases that serve a call to load or unload, by the boxes aboard before.

    Args:
        outfit: The facts.
        call: The call.
        boxes: Honey boxes.
        others: Brood boxes and wet boxes.
    """
    house, store = outfit.honey_house.base, outfit.feed_store
    honey = boxes > 0 and call.kind is CallKind.UNLOAD and call.place == house.place
    return [house] * honey + [store] * (others > 0 or not honey)


def settled_min(outfit: Outfit, call: Call) -> int:
    """Return the minute from which a call may end so that the night after a take-off is settled."""
    if all(action.job is not Job.TAKE_OFF for action in call.actions):
        return 0
    return windows(outfit, outfit.yard(call.yard)).settled_from_min[call.start_min // DAY_MIN]


def given_min(shift: Shift, call: Call) -> int:
    """Return the minutes that a plan gives a call, the breaks in it left out."""
    breaks = sum(
        max(0, min(one.end_min, call.end_min) - max(one.start_min, call.start_min))
        for one in shift.breaks
    )
    return call.end_min - call.start_min - breaks


def washed_min(outfit: Outfit, shift: Shift, call: Call) -> int:
    """Return the minutes that a call takes at a closed yard that is fed; 0 at all others."""
    if not call.actions or not call.yard or outfit.yard(call.yard).health not in CLOSED:
        return 0
    pace = outfit.pace
    each = {Job.FEED: pace.feed_s, Job.STRIPS: pace.strips_s, Job.BLOCK: pace.block_s}
    seconds = sum(
        (one.pieces if one.job is Job.BLOCK else one.colonies) * each.get(one.job, 0)
        for one in call.actions
    )
    return pace.setup_min - (-seconds // (60 * len(shift.crew))) + pace.wash_min


def work_min(outfit: Outfit, shift: Shift, call: Call) -> int:
    """Return the minutes of a call, as planned but for the breaks in it; time to wash down."""
    return max(given_min(shift, call), washed_min(outfit, shift, call))


def unloads(
    outfit: Outfit, trip: Trip, stops: Sequence[Call], crew: int
) -> tuple[tuple[Call, int], ...]:
    """Return the unloading of a trip that made ``stops``, and its minutes: honey comes first."""
    house, store = outfit.honey_house.base.place, outfit.feed_store.place
    honey, others = _brought(stops)
    boxes = {house: honey}
    boxes[store] = others + boxes.get(store, 0)
    places = [house] if honey else []
    planned = {call.place: call for call in trip.calls if call.kind is CallKind.UNLOAD}
    kit = any(one.boards_off or one.feeders_off for call in stops for one in call.actions)
    to_store = others or not honey or (kit and store in planned)
    places += [store] if to_store and store not in places else []
    any_one = next(iter(planned.values()))
    return tuple(
        (
            replace(planned.get(place, any_one), place=place),
            outfit.pace.unloading_min(boxes[place], crew),
        )
        for place in places
    )
