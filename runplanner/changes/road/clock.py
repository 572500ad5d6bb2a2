"""The clock of the rest of a truck's day that was told to go otherwise.

It is the clock that plans go by, taken up where the day stands; what differs is said here.
"""

import itertools
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from runplanner.changes.road.calls import (
    brought,
    call_spans,
    gone_by,
    serving,
    set_up_min,
    settled_min,
    went_on,
    work_min,
)
from runplanner.changes.road.day_limits import see_day
from runplanner.daybook.trip import Call, CallKind, Shift
from runplanner.days import DAY_MIN, NEVER, Span, clock
from runplanner.haulage.day_clock import DayClock, Step, Times, rested_by
from runplanner.haulage.hauler import speed_permille
from runplanner.haulage.rush import Rush
from runplanner.haulage.travel import slowed_min
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Hours
from runplanner.phrase import phrase
from runplanner.scenario.faults import Refusal

_ONE_LESS: Final = phrase("Leave out that stop as well, or call the truck home.")


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
    hours: Hours = field(init=False)
    breaks: list[Span] = field(init=False)
    rush: Rush | None = field(init=False)
    astray: list[tuple[int, int]] = field(init=False)
    """Start and minutes of what it drives to where it is called back, and back from there."""

    def __post_init__(self) -> None:
        """Begin with the breaks as they were told; drives go by the hours they lie in."""
        self.breaks = list(self.shift.breaks)
        self.hours = self.laws or self.outfit.hours
        by_hour = self.outfit.travel.by_hour
        self.rush = Rush(by_hour) if by_hour else None
        calls = (call for trip in self.shift.trips for call in trip.calls if call.turned_min)
        self.astray = [one for call in calls for one in self._out_and_back(call)]

    def work_min(self, call: Call) -> int:
        """Return the minutes of a call to come, as `work_min`: breaks by now are none in it."""
        begun = self.shift.trips[self.at].calls[self.begun - 1].leave_min
        breaks = tuple(one for one in self.shift.breaks if one.start_min >= begun)
        return work_min(self.outfit, replace(self.shift, breaks=breaks), call)

    def worked(self, here: Call, rest: Iterable[Call]) -> Iterator[tuple[Call, int]]:
        """Yield stops after the one ``here`` with their minutes, none where nothing is to do.

        One that another was to set up for does it by itself where that has nothing to do, or is
        not the one before it.
        """
        set_up = here.yard
        for call in rest:
            alone = call.yard != set_up and went_on(self.shift, call)
            more = set_up_min(self.outfit, call.yard) if alone else 0
            yield call, self.work_min(call) + more if call.actions else 0
            if call.actions or call.yard != set_up:
                set_up = call.yard if call.actions else ""

    def over_at(self, minute: int, *, whole: bool) -> Call:
        """Return the last call begun, over at a minute; if it runs late, with the breaks then due.

        Only breaks before that stay, and one begun where it would be too late for it, or that is
        to be ``whole``.
        """
        calls = self.shift.trips[self.at].calls
        last, following = calls[self.begun - 1], self._next_place()
        taken = [one for one in self.breaks if one.end_min <= min(minute, last.leave_min)]
        if minute < last.turned_min:
            # Called back on the road since, it is there again no sooner than that allows.
            on_way = [b for b in self.breaks if last.turned_min <= b.start_min < last.leave_min]
            self.breaks = [*taken, *on_way]
            rests = sum(one.end_min - one.start_min for one in on_way)
            back = self._driven(self._gone(minute, last.turned_min), last.turned_min)
            return _left_at(last, last.turned_min + back + rests)
        for one in self.breaks:
            begun = one.start_min < min(minute, last.leave_min) and minute < one.end_min
            too_long = minute - self._on_duty_from(taken) > self.hours.duty_break_after_min
            if begun and (whole or too_long):
                taken.append(one)
                minute = one.end_min
        while last.end_min < minute:
            leg = self.leg(last.place, following, minute)
            due = self._due_by(minute, leg, self._on_duty_from(taken))
            if due is None:
                break
            if taken and due.start_min < taken[-1].end_min:
                # One that is not over, and too short by these laws, is made longer.
                start = min(due.start_min, taken.pop().start_min)
                due = Span(start, start + self.hours.duty_pause_min)
            taken.append(due)
            minute = max(minute, due.end_min)
        self.breaks = taken
        return _left_at(last, minute)

    def _next_place(self) -> int:
        """Return the place of the call after those begun; after the day's last one that is home."""
        calls = [one for trip in self.shift.trips[self.at :] for one in trip.calls]
        following = calls[self.begun : self.begun + 1]
        return following[0].place if following else self.outfit.home.place

    def begun_with(self, last: Call) -> Shift:
        """Take up the day with the last call begun as it now is, and return it."""
        trip, at = self.shift.trips[self.at], self.begun - 1
        trip = replace(trip, calls=(*trip.calls[:at], last, *trip.calls[at + 1 :]))
        trips = (*self.shift.trips[: self.at], trip, *self.shift.trips[self.at + 1 :])
        self.shift = replace(self.shift, trips=trips)
        return self.shift

    def _on_duty_from(self, breaks: Sequence[Span]) -> int:
        return rested_by(breaks, self.hours.duty_pause_min, self.shift.start_min)

    def _due_by(self, minute: int, leg: int, since: int) -> Span | None:
        """Return the break from duty, of that ``since`` a minute, due in a stop left late.

        Or before the drive from it, where there is time; not before now.  None where none is due.
        """
        pause, due = self.hours.duty_pause_min, since + self.hours.duty_break_after_min
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
        trip, first = self.shift.trips[self.at], self.begun - 1
        done = list(trip.calls[: self.begun])
        done[-1] = self._held(done, trip.calls[self.begun], calls[0][0])
        day_clock = self._left(done)
        driving = done[-1].leave_min < self.now_min
        for call, work in calls:
            plain = self._plain(done[-1].place, call.place)
            # Who drives rests no sooner than there.
            if not driving:
                self._rest_before(day_clock, plain, work)
                if strict and day_clock.now > day_clock.gone_by:
                    raise self._locked_in(done[-1], day_clock.now)
            driving = False
            day_clock.drive(day_clock.leg(plain))
            settled, spans = settled_min(self.outfit, call), self._spans(done, call, strict=strict)
            shuts = gone_by(self.outfit, call)
            if not day_clock.call(Step(plain, work, spans, settled, shuts)):
                raise self._too_late(call, day_clock.now)
            done.append(call)
        self.breaks = day_clock.breaks
        return [*done[:first], *map(_timed, done[first:], day_clock.times)]

    def _too_late(self, call: Call, arrive_min: int) -> Refusal:
        where = self.outfit.yard(call.yard).name if call.yard else phrase("the unloading place")
        said = phrase(
            "{where} within its hours; the truck is there at {arrive}",
            where=where,
            arrive=clock(arrive_min),
        )
        return Refusal(said, _ONE_LESS)

    def _locked_in(self, call: Call, leave_min: int) -> Refusal:
        said = phrase(
            "{where} left by {closes}, when its gate shuts; after a break it is {leave}",
            where=self.outfit.yard(call.yard).name,
            closes=clock(gone_by(self.outfit, call)),
            leave=clock(leave_min),
        )
        return Refusal(said, _ONE_LESS)

    def _held(self, done: Sequence[Call], planned: Call, following: Call) -> Call:
        """Return the last call begun, left when the truck could be back there; or as it was.

        Breaks in stops that it does not reach are not taken; those due before it is back are.
        """
        last, now = done[-1], self.now_min
        if now <= last.leave_min or planned.place == following.place:
            return last
        turned = min(now, planned.arrive_min)
        self.breaks = [Span(one.start_min, min(one.end_min, now)) for one in self.breaks
                       if one.start_min < now]  # fmt: skip
        self.astray.append((last.leave_min, turned - last.leave_min))
        day_clock = self._clock(done, now, self.breaks)
        plain = self._gone(last.leave_min, turned)
        back, pause = day_clock.leg(plain), day_clock.due(plain)
        on = min(back, day_clock.until_due())
        if pause:
            self.breaks.append(Span(now + on, now + on + pause))
        self.astray += [(now, on), (now + on + pause, back - on)]
        return replace(_left_at(last, now + back + pause), turned_min=now)

    def _out_and_back(self, call: Call) -> list[tuple[int, int]]:
        """Return start and minutes of what was driven for nothing from a call, as it is told.

        It is reckoned to have come as far as it drove back, breaks on the way left out.
        """
        on_way = [b for b in self.breaks if call.turned_min <= b.start_min < call.leave_min]
        edges = (call.turned_min, *itertools.chain.from_iterable(on_way), call.leave_min)
        back = [(at, until - at) for at, until in zip(edges[::2], edges[1::2], strict=True)]
        out = sum(minutes for _, minutes in back)
        return [(call.turned_min - out, out), *back]

    def _gone(self, left_min: int, until_min: int) -> int:
        """Return how long the way would be at the best hour that was driven between two minutes."""
        gone = until_min - left_min
        if self.rush is None:
            return gone
        return next(n for n in itertools.count() if self._driven(n, left_min) >= gone)

    def _clock(self, done: Sequence[Call], now_min: int, breaks: Sequence[Span]) -> DayClock:
        """Return the clock at a minute, by calls of this trip and on, and the breaks by then."""
        before = (call for trip in self.shift.trips[: self.at] for call in trip.calls)
        drives = (*self.drives([*before, *done]), *self.astray)
        found = DayClock(self.shift.start_min, self.hours, self.rush)
        found.take_up(now_min, [one for one in drives if one[0] < now_min], breaks, self.hours)
        return found

    def rested_enough(self, calls: Sequence[Call], breaks: Sequence[Span]) -> bool:
        """Tell whether duty and driving are short enough between breaks until the last call."""
        stretches = enumerate([*(one.start_min for one in breaks), calls[-1].leave_min])
        clocks = (self._clock(calls, until, breaks[:had]) for had, until in stretches)
        return all(one.in_law() for one in clocks)

    def _left(self, done: Sequence[Call]) -> DayClock:
        """Return the clock where the last of these calls is left, with no breaks after that."""
        last = done[-1]
        self.breaks = [one for one in self.breaks if one.end_min <= last.leave_min]
        found = self._clock(done, last.leave_min, self.breaks)
        found.times = [Times(last.arrive_min, last.start_min, last.end_min, last.leave_min, 0)]
        return found

    def _rest_before(self, day_clock: DayClock, plain: int, work: int) -> None:
        """Rest where the next stretch is too long, until the drive needs no break in it.

        That is when slow hours are over; no longer than a break lasts where they are not in time.
        """
        # Work that is too long for one stretch has its breaks in it.
        whole = day_clock.leg(plain) + work <= self.hours.duty_break_after_min
        least = day_clock.due(plain, work if whole and not self.in_work else 0)
        if day_clock.now + least > day_clock.gone_by:
            least = day_clock.due(plain)
        if not least:
            return
        left = self.shift.day * DAY_MIN + self.hours.end_min - day_clock.now

        def in_one_go(rest: int) -> bool:
            leg = day_clock.leg(plain, rest)
            return leg <= self._most_drive() and rest + leg <= left

        day_clock.rest(next(filter(in_one_go, range(least, left)), least))

    def _most_drive(self) -> int:
        return min(self.hours.duty_break_after_min, self.hours.drive_break_after_min)

    def _spans(self, done: Sequence[Call], call: Call, *, strict: bool) -> tuple[Span, ...]:
        """Return the hours in which a call may lie, after those ``done``, from when it is ripe.

        Where nobody is ``strict`` any later hour will do if these are missed.
        """
        hours = (*self._open(done, call), *(() if strict else (Span(0, NEVER),)))
        ripe = self.ripe(call)
        return tuple(Span(max(one.start_min, ripe), one.end_min) for one in hours)

    def _open(self, done: Sequence[Call], call: Call) -> tuple[Span, ...]:
        if call.kind is CallKind.YARD:
            return call_spans(self.outfit, call, self.shift.day)
        trip = itertools.takewhile(lambda one: one.kind is not CallKind.LOAD, reversed(done))
        bases = serving(self.outfit, call, *brought(trip))
        opens = max(base.opens_min for base in bases)
        closes = min(base.closes_min for base in bases)
        midnight = self.shift.day * DAY_MIN
        return (Span(midnight + opens, midnight + closes),)

    def leg(self, here: int, there: int, start_min: int) -> int:
        """Return the minutes from place to place for who leaves at a minute.

        Raises:
            Refusal: When there is no road.
        """
        return self._driven(self._plain(here, there), start_min)

    def _plain(self, here: int, there: int) -> int:
        minutes = self.outfit.travel.minutes[here][there]
        if minutes is None:
            raise Refusal(phrase("a way by road"), phrase("Choose another order."))
        truck, trailer = (
            self.outfit.truck(self.shift.truck),
            self.outfit.trailer(self.shift.trailer),
        )
        return slowed_min(minutes, speed_permille(truck, trailer))

    def _driven(self, plain_min: int, start_min: int) -> int:
        return plain_min if self.rush is None else self.rush(plain_min, start_min)

    def drives(self, calls: Sequence[Call]) -> Iterator[tuple[int, int]]:
        """Yield start and minutes of the drives from home by all ``calls`` of the day."""
        start, here = self.shift.start_min, self.outfit.home.place
        for call in calls:
            yield start, self.leg(here, call.place, start)
            start, here = call.leave_min, call.place

    def ended(self, shift: Shift, *, strict: bool = True) -> Shift:
        """Return the day with its end, and what is driven in it.

        Raises:
            Refusal: With ``strict``, as `see_day` and `see_drives`.
        """
        before, shift = shift, self._rested_for_home(shift)
        home, calls = self.outfit.home.place, [call for trip in shift.trips for call in trip.calls]
        last = calls[-1]
        back = self.leg(last.place, home, last.leave_min)
        pairs = itertools.pairwise([home, *(call.place for call in calls), home])
        told = replace(
            shift,
            end_min=last.leave_min + back,
            breaks=tuple(sorted(self.breaks)),
            driving_min=sum(minutes for _, minutes in self.drives(calls)) + back,
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
        for start, minutes in itertools.islice(self.drives(calls), gone, None):
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
        day_clock = self._left(calls)
        if calls[-1].place == home:
            return shift
        self._rest_before(day_clock, self._plain(calls[-1].place, home), 0)
        self.breaks = day_clock.breaks
        last = _timed(calls[-1], day_clock.times[-1])
        *trips, trip = shift.trips
        return replace(shift, trips=(*trips, replace(trip, calls=(*trip.calls[:-1], last))))


def _left_at(call: Call, minute: int) -> Call:
    """Return a call that is over, and left, at a minute and no later."""
    return replace(call, end_min=minute, leave_min=minute, latest_leave_min=minute)


def _timed(call: Call, times: Times) -> Call:
    """Return a call at other times, which it may be left no sooner than."""
    return replace(
        call, arrive_min=times.arrive_min, start_min=times.start_min, end_min=times.end_min,
        leave_min=times.leave_min, latest_leave_min=max(times.leave_min, call.latest_leave_min),
    )  # fmt: skip
