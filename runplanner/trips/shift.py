"""A truck's day judged: can it be driven, when is it where, and what does it cost?"""

from typing import NamedTuple

from runplanner.days import DAY_MIN
from runplanner.trips.clock import Run, Step, run_day
from runplanner.trips.ground import Ground
from runplanner.trips.pack import Packed, boards_to_load, fits, goods, pack
from runplanner.trips.stop import Day, Stop, Trip, Visit


class Judged(NamedTuple):
    """A day that can be driven.

    Args:
        day: What was judged.
        run: Its times; ``calls`` says which call each entry belongs to.
        calls: For every call ``(trip, kind, place)``; kind is -2 load, -1 honey house,
            -3 feed store, -4 both, or the index of the stop in its trip.
        packed: How each trip's load rides.
        driving_min: Minutes behind the wheel.
        metres: Metres driven.
        milli_cents: Cost of kilometres, the day, the crew, overtime and goods, in 1/1000 cent.
        visits: Stops with their times.
        boxes_in: ``(minute, trip index)`` of every unloading of honey boxes.
        load_at: Start of every trip's loading.
        back_at: End of every trip's last call.
    """

    day: Day
    run: Run
    calls: tuple[tuple[int, int, int], ...]
    packed: tuple[Packed, ...]
    driving_min: int
    metres: int
    milli_cents: int
    visits: tuple[Visit, ...]
    boxes_in: tuple[tuple[int, int], ...]
    load_at: tuple[int, ...]
    back_at: tuple[int, ...]


LOAD, HONEY, STORE, BOTH = -2, -1, -3, -4
_MEMO_MAX = 400_000


class Judge:
    """Judges days and remembers what it found."""

    def __init__(self, ground: Ground) -> None:
        self.ground = ground
        self._memo: dict[Day, Judged | None] = {}
        self._packs: dict[tuple[int, Trip], Packed | None] = {}
        self._stops: dict[tuple[int, int, Stop], tuple[int, int, tuple[object, ...]]] = {}

    def __call__(self, day: Day) -> Judged | None:
        """Return the judged day, or None when it cannot be driven."""
        if day in self._memo:
            return self._memo[day]
        if len(self._memo) > _MEMO_MAX:
            self._memo.clear()
            self._packs.clear()
        verdict = self._judge(day)
        self._memo[day] = verdict
        return verdict

    def steps(self, judged: Judged) -> tuple[list[Step], int]:
        """Return the steps of a judged day, anew, and its leg home in minutes."""
        route = self._route(judged.day, list(judged.packed))
        if route is None:
            raise ValueError("a judged day has a route")
        return route[1], route[2]

    def carries(self, hauler: int, trip: Trip, tanks: tuple[int, ...]) -> bool:
        """Tell whether a trip's load fits with just these containers."""
        return fits(self.ground, hauler, trip, tanks)

    def _pack(self, hauler: int, trip: Trip) -> Packed | None:
        key = (hauler, trip)
        if key not in self._packs:
            self._packs[key] = pack(self.ground, hauler, trip)
        return self._packs[key]

    def _judge(self, day: Day) -> Judged | None:
        packed = []
        for trip in day.trips:
            if any(self.ground.last_only[stop.yard] for stop in trip[:-1]):
                return None
            load = self._pack(day.hauler, trip)
            if load is None:
                return None
            packed.append(load)
        route = self._route(day, packed)
        if route is None:
            return None
        calls, steps, home_min, driving, metres = route
        hours = self.ground.outfit.hours
        if driving > hours.driving_max_min:
            return None
        run = run_day(steps, home_min, day.day, hours, self.ground.now_min)
        if run is None:
            return None
        return self._verdict(day, run, calls, tuple(packed), driving, metres)

    def _route(
        self, day: Day, packed: list[Packed]
    ) -> tuple[tuple[tuple[int, int, int], ...], list[Step], int, int, int] | None:
        """Return calls and steps in order, the leg home, driving minutes and metres."""
        ground, outfit = self.ground, self.ground.outfit
        metres_table = outfit.travel.metres
        here, driving, metres = outfit.home.place, 0, 0
        calls: list[tuple[int, int, int]] = []
        steps: list[Step] = []
        for index, trip in enumerate(day.trips):
            for kind, place in self._stations(day, trip):
                leg = ground.leg_min(day.hauler, here, place)
                length = metres_table[here][place]
                if leg is None or length is None:
                    return None
                step = self._step(day, trip, packed[index], kind, leg)
                if not step.spans:
                    return None
                driving, metres, here = driving + leg, metres + length, place
                calls.append((index, kind, place))
                steps.append(step)
        leg, length = ground.leg_min(day.hauler, here, outfit.home.place), metres_table[here][outfit.home.place]
        if leg is None or length is None:
            return None
        return tuple(calls), steps, leg, driving + leg, metres + length

    def _stations(self, day: Day, trip: Trip) -> list[tuple[int, int]]:
        """Return the calls of one trip as ``(kind, place)``."""
        outfit = self.ground.outfit
        store, house = outfit.feed_store.place, outfit.honey_house.base.place
        stations = [(LOAD, store)]
        stations += [(i, self.ground.place(stop.yard, day.day)) for i, stop in enumerate(trip)]
        if store == house:
            return [*stations, (BOTH, store)]
        honey = any(stop.boxes for stop in trip)
        if honey:
            stations.append((HONEY, house))
        if not honey or any(stop.brood for stop in trip):
            stations.append((STORE, store))
        return stations

    def _step(self, day: Day, trip: Trip, load: Packed, kind: int, leg: int) -> Step:
        ground, outfit = self.ground, self.ground.outfit
        crew = ground.haulers[day.hauler].crew
        if kind >= 0:
            stop = trip[kind]
            return Step(leg, ground.stop_min(stop, crew), ground.stop_spans(stop, day.day), ground.settled_from(stop, day.day))
        pace = outfit.pace
        base = outfit.honey_house.base if kind == HONEY else outfit.feed_store
        spans = ground.base_spans(base, day.day)
        if kind == BOTH:
            spans = ground.both_bases(day.day)
        if kind == LOAD:
            return Step(leg, pace.load_min - (-load.legs[0].ml // pace.pump_ml_per_min), spans, 0)
        last = load.legs[-1]
        boxes = (last.boxes if kind in (HONEY, BOTH) else 0) + (last.brood if kind in (STORE, BOTH) else 0)
        return Step(leg, pace.unload_min - (-boxes * pace.unload_box_s // (60 * crew)), spans, 0)

    def _verdict(
        self, day: Day, run: Run, calls: tuple[tuple[int, int, int], ...], packed: tuple[Packed, ...], driving: int, metres: int
    ) -> Judged:
        truck = self.ground.truck_index[day.hauler]
        visits, boxes_in, load_at = [], [], []
        back_at = [0] * len(day.trips)
        for (index, kind, _), times in zip(calls, run.times, strict=True):
            back_at[index] = times.end_min
            if kind >= 0:
                stop = day.trips[index][kind]
                visits.append(Visit(times.start_min, times.end_min, times.leave_min, stop, day.day, truck))
            elif kind == LOAD:
                load_at.append(times.start_min)
            elif kind in (HONEY, BOTH) and packed[index].legs[-1].boxes:
                boxes_in.append((times.end_min, index))
        return Judged(
            day, run, calls, packed, driving, metres, self.milli_cents(day, run, metres),
            tuple(visits), tuple(boxes_in), tuple(load_at), tuple(back_at),
        )  # fmt: skip

    def milli_cents(self, day: Day, run: Run, metres: int) -> int:
        """Return what a day costs, in 1/1000 cent."""
        hauler, prices = self.ground.haulers[day.hauler], self.ground.outfit.prices
        minutes = run.end_min - run.start_min
        over = max(0, minutes - self.ground.outfit.hours.normal_min)
        crew_cents = hauler.crew * prices.hour_cents
        return (
            metres * hauler.km_cents
            + hauler.truck.day_cents * 1000
            + minutes * crew_cents * 1000 // 60
            + over * crew_cents * prices.overtime_permille // 60
            + self._goods_cents(day)
        )

    def _goods_cents(self, day: Day) -> int:
        """Return what the blocks, syrup and strips of a day cost, in 1/1000 cent."""
        prices = self.ground.outfit.prices
        used = [goods(self.ground, stop) for trip in day.trips for stop in trip]
        return (
            sum(one.blocks for one in used) * prices.block_cents * 1000
            + sum(one.ml for one in used) * prices.syrup_l_cents
            + sum(one.strips for one in used) * prices.strip_cents * 1000
        )


def boards_moved(ground: Ground, judged: Judged) -> list[tuple[int, int]]:
    """Return ``(minute, change)`` of boards at the feed store over a day."""
    moves = []
    for trip, start, back, load in zip(judged.day.trips, judged.load_at, judged.back_at, judged.packed, strict=True):
        out = boards_to_load(tuple(goods(ground, stop) for stop in trip))
        if out:
            moves.append((start, -out))
        if load.legs[-1].boards:
            moves.append((back, load.legs[-1].boards))
    return moves


def in_halves(judged: Judged, noon_min: int) -> tuple[bool, bool]:
    """Return whether a day's shift touches the first and the second half-day."""
    noon = judged.day.day * DAY_MIN + noon_min
    return judged.run.start_min < noon, judged.run.end_min > noon
