"""The base days: syrup mixed before it is loaded, honey spun after it is brought.

People who are not on a truck in a half-day mix (where syrup is wanted) or spin, as long as
their day's duty and its breaks allow.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache
from typing import Any, NamedTuple

from runplanner.daybook.honey_line import Came, honey_line
from runplanner.days import DAY_MIN, NEVER, Span, day_of, without
from runplanner.outfit.outfit import Outfit
from runplanner.season.standing.duty import Duty, PeoplesDay, Piece
from runplanner.season.standing.floor import NO_HARM, Floor, Harm, Honey, Lot, Spin
from runplanner.season.standing.roster import Need, Roster
from runplanner.season.standing.stores import lacking
from runplanner.season.standing.tempo import Team, Tempo
from runplanner.trips.clock import Run
from runplanner.trips.ground import Ground

__all__ = ["BaseWork", "House", "Lot", "Mix", "Spin"]

AFTER_DAYS = 60
FREED = 1_000_000
"""The order of boxes that were held, from here on: behind all that come in at that minute."""
REMEMBERED = 20_000
"""Days of mixing or spinning kept in mind: a try changes one day or two, the rest recur.

Keys name only what a try can change.  All else a day hangs on (the outfit, the time it is, what
was mixed and spun by then, what stands ready) is the same for as long as a ``House`` lives: each
``Keeper`` makes its own.
"""

Halves = tuple[tuple[int, int], tuple[int, int]]
"""Minutes from when until when, before noon and after it."""

People = tuple[tuple[object, ...], ...]
"""What is out on a day: each shift's need, first and last minute and breaks."""


class Mix(NamedTuple):
    """One person mixing."""

    start_min: int
    end_min: int
    person: int
    ml: int


class BaseWork(NamedTuple):
    """Mixing and spinning that keep up with the trips, their cost, and what of it is lateness."""

    mixing: tuple[Mix, ...]
    spinning: tuple[Spin, ...]
    milli_cents: int
    late_milli_cents: int = 0

    def inside(self) -> dict[tuple[int, int], list[Piece]]:
        """Return what is mixed and spun, by day and person."""
        found: dict[tuple[int, int], list[Piece]] = {}
        for mix in self.mixing:
            found.setdefault((day_of(mix.start_min), mix.person), []).append(mix[:2])
        for spin in self.spinning:
            for person in spin.people:
                done = spin.start_min, spin.end_min
                found.setdefault((day_of(spin.start_min), person), []).append(done)
        return found


NO_WORK = BaseWork((), (), 0)


class Spun(NamedTuple):
    """What one way to choose teams comes to; ``late`` is in milli-cents."""

    spinning: tuple[Spin, ...]
    late: int
    harm: Harm


class Calls(NamedTuple):
    """What trips ask of the people at the bases.

    Args:
        needs: Shifts by day.
        runs: When they are out and rest, by day and truck.
        lots: Boxes coming in, in any order.
        loads: ``(minute, ml)`` of syrup loaded.
        back: When syrup that trucks have aboard for no stop is in store, and its ml.
    """

    needs: Mapping[int, tuple[Need, ...]]
    runs: Mapping[tuple[int, int], Run]
    lots: Sequence[Lot]
    loads: Sequence[tuple[int, int]]
    back: Sequence[tuple[int, int]] = ()


class House:
    """Works out the base days for a set of trips.

    Args:
        ground: The campaign.
        roster: Who is free.
        past: What has been mixed and spun.
        ready_ml: Tells the syrup that stands ready, by what comes back; None for what the outfit
            says.
        promised: Spinning still to come as people were told it: of equal teams theirs goes first.
    """

    def __init__(
        self,
        ground: Ground,
        roster: Roster,
        past: BaseWork | None = None,
        ready_ml: Callable[[Sequence[tuple[int, int]]], int] | None = None,
        promised: Sequence[Spin] = (),
    ) -> None:
        self._outfit = ground.outfit
        self._ready_ml = ready_ml or (lambda _: ground.outfit.feed.ready_ml)
        self._from_min = ground.earliest_min
        self._past = past or NO_WORK
        self._begun = [(mix.end_min, mix.ml) for mix in self._past.mixing]
        self._now_min = ground.now_min
        begun = (spin.end_min for spin in self._past.spinning)
        self._spin_from_min = max([0, self._from_min, *begun])
        people = ground.outfit.people
        mixers = (i for i, person in enumerate(people) if person.mixes)
        self._by_mixing = sorted(mixers, key=lambda i: (people[i].spins, i))
        self._halves = cache(self._halves_of)
        self._mixing_hours = mixing_hours(ground.outfit)
        self._spinning_hours = cache(self._spinning_hours_of)
        days = ground.outfit.season.n_days + AFTER_DAYS
        self._tempo = Tempo(ground.outfit, self._spinning_hours, days)
        self._roster = roster
        self._duty = Duty(ground.outfit.hours)
        self._mixed: dict[tuple[int, int, People], list[Mix]] = {}
        self._spun_days: dict[object, tuple[Spin, ...]] = {}
        self._inside = self._past.inside()
        self._has_spun = self._by_halves(self._past.spinning)
        self._promised = self._by_halves(promised)
        rates = ground.outfit.honey_house.boxes_per_h
        spinners = (i for i, person in enumerate(people) if person.spins)
        self._spinners = frozenset(spinners if any(rates) else ())
        yards = ground.outfit.yards
        self._begun_line = cache(self._begun_line_of)
        self._any_held = any(yard.held_spans(ground.now_min, NEVER) for yard in yards)

    def work(self, calls: Calls) -> BaseWork | None:
        """Return the base work, or None where honey or syrup cannot keep up."""
        days = _Days(self._duty, self._roster, calls, self._inside)
        mixing = self._mix(days, calls)
        if mixing is None:
            return None
        honey = Honey(sorted(calls.lots), self.in_line(calls.lots))
        spun = self._spun(days, honey, mixing)
        if spun is None:
            return None
        minutes = sum(mix.end_min - mix.start_min for mix in mixing)
        cents = minutes * self._outfit.prices.hour_cents * 1000 // 60
        return BaseWork(mixing, spun.spinning, cents + self._spin_cost(spun), spun.late)

    def in_line(self, lots: Sequence[Lot]) -> Sequence[Lot]:
        """Return lots as they are spun: those that were held anew, without those that are."""
        came = sorted(lots)
        if not self._any_held:
            return came
        begun = self._begun_line(tuple(lot for lot in came if lot.fact))
        rest = (lot for lot in came if not lot.fact)
        free = (lot for lot in rest if all(s.end_min <= lot.arrive_min for s in self._held(lot)))
        return sorted([*begun, *free])

    def _begun_line_of(self, came: tuple[Lot, ...]) -> list[Lot]:
        """Return the lots of trips that have left as they stand in line, those freed at its end."""
        turns = honey_line(
            [Came(lot.arrive_min, lot.boxes, self._held(lot)) for lot in came],
            [(spin.start_min, spin.boxes) for spin in self._past.spinning],
            self._outfit.honey_house.waiting_boxes,
        )
        line = list[Lot]()
        for number, from_min, boxes in turns:
            lot = came[number]._replace(boxes=boxes)
            if from_min > lot.arrive_min:
                lot = lot._replace(arrive_min=from_min, order=FREED + len(line))
            if from_min < NEVER:
                line.append(lot)
        return line

    def _held(self, lot: Lot) -> tuple[Span, ...]:
        return self._outfit.yards[lot.yard].held_spans(self._now_min, lot.off_min)

    def _spun(self, days: "_Days", honey: Honey, mixing: Sequence[Mix]) -> Spun | None:
        """Return the cheapest spinning by the best team, by such as keep up, or by the largest.

        The best team costs least a box, and larger ones more and more, so where nothing is
        late no larger one is tried.  Boxes whose truck has left home come in whatever is
        planned: the less they are harmed the better, at any cost.
        """
        best: Spun | None = None
        mixed: dict[int, tuple[Mix, ...]] = {}
        for mix in mixing:
            day = mix.start_min // DAY_MIN
            mixed[day] = (*mixed.get(day, ()), mix)
        for team in self._teams(honey):
            one = self._spin(days, honey, mixed, team)
            if one is not None and (best is None or self._rank(one) < self._rank(best)):
                best = one
            if best is not None and best.late == 0 and best.harm == NO_HARM:
                break
        return best

    def _rank(self, spun: Spun) -> tuple[Harm, int]:
        return spun.harm, self._spin_cost(spun)

    def _teams(self, honey: Honey) -> Iterator[Team]:
        """Yield ways to choose how many spin on a day, from the cheapest a box on."""
        most, best = len(self._outfit.honey_house.boxes_per_h) - 1, self._tempo.cheapest
        yield lambda _floor, _day: best
        if best < most:
            if most - best > 1:
                yield self._tempo.keeping_up(honey)
            yield lambda _floor, _day: most

    def _spin_cost(self, spun: Spun) -> int:
        minutes = sum((spin.end_min - spin.start_min) * len(spin.people) for spin in spun.spinning)
        return minutes * self._outfit.prices.hour_cents * 1000 // 60 + spun.late

    def _halves_of(self, day: int) -> Halves:
        house = self._outfit.honey_house
        return self._parted(day, Span(house.spin_from_min, house.spin_to_min))

    def _parted(self, day: int, hours: Span) -> Halves:
        """Return hours of a day before noon and from noon on."""
        start, noon = day * DAY_MIN, self._outfit.hours.noon_min
        first, last = hours
        return (
            (start + first, start + max(first, min(noon, last))),
            (start + max(first, noon), start + max(last, noon, first)),
        )

    def _spinning_hours_of(self, day: int) -> tuple[tuple[int, int, int], ...]:
        """Return ``(half, start, end)`` of the hours in which the plant can run on a day."""
        stopped = self._outfit.honey_house.stopped
        return tuple(
            (half, span.start_min, span.end_min)
            for half, hours in enumerate(self._halves(day))
            for span in without((Span(*hours),), stopped)
        )

    def _half_of(self, minute: int) -> tuple[int, bool]:
        """Return the day and half-day in which ``minute`` falls."""
        return minute // DAY_MIN, minute % DAY_MIN >= self._outfit.hours.noon_min

    def _by_halves(self, spins: Sequence[Spin]) -> frozenset[tuple[tuple[int, bool], int]]:
        """Return who spins in which half-day."""
        return frozenset(
            (self._half_of(spin.start_min), who) for spin in spins for who in spin.people
        )

    # Mixing: as late as it may be, never on the day it is loaded.

    def _mix(self, days: "_Days", calls: Calls) -> tuple[Mix, ...] | None:
        wanted = self._wanted(calls)
        if not any(wanted):
            return self._past.mixing
        if self._outfit.feed.bought:
            return None
        mixing: list[Mix] = []
        owed = 0
        for day in range(len(wanted) - 1, -2, -1):
            done = self._mixed_on(days, day, owed) if owed else []
            mixing += done
            owed -= sum(mix.ml for mix in done)
            owed += wanted[day] if day >= 0 else 0
        return (*self._past.mixing, *sorted(mixing)) if owed == 0 else None

    def _wanted(self, calls: Calls) -> list[int]:
        """Return the ml to be mixed before each day; syrup that stands ready goes first.

        What is being mixed is ready once that is done.
        """
        wanted = [0] * (self._outfit.season.n_days)
        mixed = (*self._begun, *calls.back)
        ready_ml = self._ready_ml(calls.back)
        for minute, ml in lacking(calls.loads, ready_ml, mixed, self._now_min):
            wanted[minute // DAY_MIN] += ml
        return wanted

    def _mixed_on(self, days: "_Days", day: int, owed: int) -> list[Mix]:
        """Return the mixing of a day, from memory where the same was asked before."""
        asked = (day, owed, days.people(day))
        done = self._mixed.get(asked)
        if done is None:
            _forget(self._mixed)
            done = self._mixed[asked] = self._mix_day(days, day, owed)
        days.mixed[day] = done
        return done

    def _mix_day(self, days: "_Days", day: int, owed: int) -> list[Mix]:
        mixed = sum(mix.ml for mix in self._past.mixing if mix.start_min // DAY_MIN == day)
        left = min(owed, max(0, self._outfit.feed.mix_ml_per_day - mixed))
        rate = self._outfit.feed.mix_ml_per_h
        done: list[Mix] = []
        here = days.on(day).copy()
        for half in (1, 0):
            now, end = self._parted(day, self._mixing_hours)[half]
            now = max(now, self._from_min)
            if now >= end:
                continue
            for person in self._mixers(days.free(day)[half]) if left else ():
                if (self._half_of(now), person) in self._has_spun:
                    continue
                for start, stop in here.hours(person, now, end):
                    ml = min(left, rate * (stop - start) // 60)
                    if ml > 0:
                        mix = Mix(start, start - (-ml * 60 // rate), person, ml)
                        here.works(person, mix.start_min, mix.end_min)
                        done.append(mix)
                        left -= ml
        return done

    def _mixers(self, free: tuple[int, ...]) -> list[int]:
        return [i for i in self._by_mixing if i in free]

    # Spinning: first in, first spun, by whoever is left; those who stand there stay for the
    # half-day, then come those it was promised for, and those who stood there in the morning go
    # last in the afternoon.

    def _spin(
        self,
        days: "_Days",
        honey: Honey,
        mixed: Mapping[int, tuple[Mix, ...]],
        team: Team,
    ) -> Spun | None:
        floor = Floor(self._outfit, honey, self._past.spinning)
        if not (floor.empty() or self._spinners):
            return None
        day = max(0, self._from_min // DAY_MIN)
        while not floor.empty():
            floor.take_in(day * DAY_MIN)
            day = max(day, floor.from_min() // DAY_MIN)
            if day >= self._outfit.season.n_days + AFTER_DAYS:
                break
            mixing, most = mixed.get(day, ()), team(floor, day)
            coming = floor.coming((day + 1) * DAY_MIN)
            asked = (day, most, coming, days.people(day), mixing)
            known = self._spun_days.get(asked)
            if known is None:
                _forget(self._spun_days)
                before = len(floor.spins)
                self._spin_day(days, floor, day, mixing, most)
                self._spun_days[asked] = tuple(floor.spins[before:])
            else:
                floor.repeat(known)
            day += 1
        if not floor.empty() or not floor.fits():
            return None
        late = floor.late_milli_cents()
        return None if late is None else Spun(tuple(floor.spins), late, floor.harm())

    def _spin_day(
        self, days: "_Days", floor: Floor, day: int, mixing: Sequence[Mix], most: int
    ) -> None:
        """Spin on one day: it hangs on what waits, what comes in and who is out or mixes."""
        busy = {(self._half_of(mix.start_min), mix.person) for mix in mixing}
        here: PeoplesDay | None = None
        for half, start, end in self._spinning_hours(day):
            if not floor.wants(end):
                continue
            here = days.on(day).copy() if here is None else here
            begin, now = max(start, self._spin_from_min), (day, half == 1)
            there, stood = self._stood(floor.spins, now)
            team = [
                i
                for i in days.free(day)[half]
                if i in self._spinners
                and (self._half_of(start), i) not in busy
                and (i in there or here.again(i, begin, end) is not None)
            ]
            if len(team) > most:
                told = [i for i in team if (now, i) in self._promised]
                team.sort(key=lambda i: (i not in there, i not in told, i in stood, i))
            floor.run(begin, end, tuple(sorted(team[:most])), here)

    def _stood(self, spins: Sequence[Spin], now: tuple[int, bool]) -> tuple[set[int], set[int]]:
        """Return who spins in this half-day already, and who has in the day's other one."""
        halves: tuple[set[int], set[int]] = (set(), set())
        for spin in reversed(spins):
            half = self._half_of(spin.start_min)
            if half[0] < now[0]:
                break
            halves[half != now].update(spin.people)
        return halves


class _Days:
    """What everybody does on each day, as far as it is known yet: trucks, mixing, the past."""

    def __init__(
        self,
        duty: Duty,
        roster: Roster,
        calls: Calls,
        inside: Mapping[tuple[int, int], Sequence[Piece]],
    ) -> None:
        self._duty = duty
        self._roster = roster
        self._calls = calls
        self._inside = inside
        self._known: dict[int, PeoplesDay] = {}
        self._people: dict[int, People] = {}
        self.mixed: dict[int, list[Mix]] = {}

    def free(self, day: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """Return who is off the trucks in each half of a day."""
        return self._roster.free(day, self._calls.needs.get(day, ()))

    def people(self, day: int) -> People:
        """Return who is wanted out on a day, and when."""
        known = self._people.get(day)
        if known is None:
            runs = self._calls.runs
            needs = self._calls.needs.get(day, ())
            out = ((need, runs[day, need.truck]) for need in needs)
            known = tuple((need, run.start_min, run.end_min, run.breaks) for need, run in out)
            self._people[day] = known
        return known

    def on(self, day: int) -> PeoplesDay:
        """Return what people do on a day, as far as it is told by now."""
        if day not in self._known or day in self.mixed:
            here = self._known.get(day) or PeoplesDay(self._duty, self._pieces(day))
            for mix in self.mixed.pop(day, ()):
                here.works(mix.person, mix.start_min, mix.end_min)
            self._known[day] = here
        return self._known[day]

    def _pieces(self, day: int) -> dict[int, list[Piece]]:
        found: dict[int, list[Piece]] = {}
        needs = self._calls.needs.get(day, ())
        crews = self._roster.crews(day, needs) or ()
        for need, crew in zip(needs, crews, strict=False):
            pieces = self._duty.pieces(self._calls.runs[day, need.truck])
            for person in crew:
                found.setdefault(person, []).extend(pieces)
        for (when, person), done in self._inside.items():
            if when == day:
                found.setdefault(person, []).extend(done)
        return {person: sorted(pieces) for person, pieces in found.items()}


def mixing_hours(outfit: Outfit) -> Span:
    """Return the minutes of a day in which syrup is mixed, at the feed store.

    Those are the honey house's hours as far as the store is open in them, else all that it is.
    """
    house, store = outfit.honey_house, outfit.feed_store
    hours = Span(
        max(house.spin_from_min, store.opens_min), min(house.spin_to_min, store.closes_min)
    )
    return hours if hours.start_min < hours.end_min else Span(store.opens_min, store.closes_min)


def _forget(memory: dict[Any, Any]) -> None:
    """Empty a memory that is full; what it held is worked out again when asked for."""
    if len(memory) >= REMEMBERED:
        memory.clear()
