"""What is known of a truck's day that can be driven: times, loads, cost."""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from runplanner.daybook.riding import BLOCKS, FEEDERS, SYRUP
from runplanner.daybook.trip import Brought
from runplanner.days import DAY_MIN
from runplanner.haulage.day_clock import Step
from runplanner.outfit.outfit import Prices
from runplanner.trips.clock import Run
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.trips.pack import Leg, Packed
from runplanner.trips.ride import HONEY_KINDS, LOAD, Ride
from runplanner.visits.stop import Visit

Moves = tuple[tuple[int, int], ...]
"""``(minute, change)`` of a good at the feed store."""


class Riding(NamedTuple):
    """What a driven trip has aboard for no stop, by stock, and what was brought over since."""

    unused: Mapping[str, int]
    brought: tuple[Brought, ...]


NOTHING_RIDES = Riding({}, ())


class Moved(NamedTuple):
    """What a truck's day does to a good at the feed store.

    What comes home to a honey house that is not the store stays aboard until its truck loads
    at the store again.

    Args:
        moves: ``(minute, change)`` at the feed store, but for what was aboard before; what comes
            in and what goes out are two, as no more goes out than is there.
        load_min: When the truck first loads, and what was aboard before is in the store.
        aboard: What the truck goes home with.
    """

    moves: Moves
    load_min: int
    aboard: int

    def with_aboard(self, before: int) -> Moves:
        """Return all moves, where so many were aboard before."""
        return ((self.load_min, before), *self.moves) if before else self.moves


class Route(NamedTuple):
    """A whole day's way: its trips, every step, and the leg home.

    Drives are told as at the best hour of the day: none takes less.  ``busy_min`` is driving
    and work together, without waiting and breaks.
    """

    rides: tuple[Ride, ...]
    steps: tuple[Step, ...]
    home_min: int
    driving_min: int
    busy_min: int
    metres: int


class Judged(NamedTuple):
    """A day that can be driven.

    Args:
        day: What was judged.
        run: Its times; ``calls`` says which call each entry belongs to.
        calls: For every call ``(trip, kind, place)``; for kind see :mod:`.ride`.
        packed: How each trip's load rides.
        driving_min: Minutes behind the wheel.
        metres: Metres driven.
        milli_cents: Cost of kilometres, the day, the crew, overtime and goods, in 1/1000 cent.
        visits: Stops with their times.
        boxes_in: ``(minute, trip index)`` of every unloading of honey boxes.
        load_at: Start of every trip's loading.
        back_at: End of every trip's last call.
        riding: Of a driven day what each trip has aboard beside; empty where nothing is known.
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
    riding: tuple[Riding, ...] = ()


def put_off(judged: Judged, run: Run) -> Judged:
    """Return a day that is driven at other times, as far as the feed store sees it."""
    times = list(zip(judged.calls, run.times, strict=True))
    loads = tuple(at.start_min for (_, kind, _), at in times if kind == LOAD)
    ends = {trip: at.end_min for (trip, _, _), at in times}
    return judged._replace(run=run, load_at=loads, back_at=tuple(ends.values()))


def judged(ground: Ground, day: Day, run: Run, route: Route) -> Judged:
    """Return what is known of a day from its times and its way."""
    calls: list[tuple[int, int, int]] = []
    visits: list[Visit] = []
    boxes_in: list[tuple[int, int]] = []
    load_at, back_at = [], []
    truck, times = ground.truck_index[day.hauler], iter(run.times)
    for number, (trip, ride) in enumerate(zip(day.trips, route.rides, strict=True)):
        for kind, place in ride.stations:
            _, start, end, leave, _ = next(times)
            calls.append((number, kind, place))
            if kind >= 0:
                stop = trip[kind]
                goes_on = kind > 0 and trip[kind - 1].yard == stop.yard
                visits.append(Visit(start, end, leave, stop, day.day, truck, goes_on=goes_on))
            elif kind == LOAD:
                load_at.append(start)
            elif kind in HONEY_KINDS:
                boxes_in.append((end, number))
        back_at.append(end)
    return Judged(
        day,
        run,
        tuple(calls),
        tuple([ride.packed for ride in route.rides]),
        run.driving_min,
        route.metres,
        milli_cents(ground, day, run, route.metres, [ride.packed.legs[0] for ride in route.rides]),
        tuple(visits),
        tuple(boxes_in),
        tuple(load_at),
        tuple(back_at),
    )


def milli_cents(ground: Ground, day: Day, run: Run, metres: int, loaded: Sequence[Leg]) -> int:
    """Return what a day costs, in 1/1000 cent; ``loaded`` is what each trip leaves base with."""
    hauler, outfit = ground.haulers[day.hauler], ground.outfit
    minutes = run.end_min - run.start_min
    over = max(0, minutes - outfit.hours.normal_min)
    crew_cents = hauler.crew * outfit.prices.hour_cents
    return (
        metres * hauler.km_cents
        + hauler.truck.day_cents * 1000
        + minutes * crew_cents * 1000 // 60
        + over * crew_cents * outfit.prices.overtime_permille // 60
        + sum(_goods_milli_cents(outfit.prices, leg) for leg in loaded)
        + (_dearer_strips(ground, day) if ground.strip_cents is not None else 0)
    )


def _goods_milli_cents(prices: Prices, loaded: Leg) -> int:
    """Return what the blocks, syrup and strips of a trip cost."""
    return (
        loaded.blocks * prices.block_cents * 1000
        + loaded.ml * prices.syrup_l_cents
        + loaded.strips * prices.strip_cents * 1000
    )


def strips_given(judged: Judged) -> Iterator[tuple[int, int]]:
    """Return the yards of a day that get strips, and how many; of a driven day as counted."""
    return (given for trip in range(len(judged.packed)) for given in _strips_on(judged, trip))


def _strips_on(judged: Judged, trip: int) -> Iterator[tuple[int, int]]:
    legs = pairwise(judged.packed[trip].legs)
    for stop, (before, after) in zip(judged.day.trips[trip], legs, strict=True):
        if stop.strips:
            yield stop.yard, before.strips - after.strips


def _dearer_strips(ground: Ground, day: Day) -> int:
    """Return what strips with a price of their own cost more than the usual, in 1/1000 cent."""
    each, usual = ground.strip_cents or (), ground.outfit.prices.strip_cents
    return sum(
        ground.task(stop).used.strips * (each[stop.yard] - usual) * 1000
        for trip in day.trips
        for stop in trip
        if stop.strips
    )


def boards_moved(judged: Judged) -> Moved:
    """Return what a day does to the boards at the feed store."""
    return _moved(judged, "boards", _legs(judged, lambda leg: leg.boards))


def feeders_moved(judged: Judged) -> Moved:
    """Return what a day does to the feeders at the feed store."""
    return _moved(judged, FEEDERS, _legs(judged, lambda leg: leg.feeders))


def syrup_moved(judged: Judged) -> Moved:
    """Return what a day does to the syrup at the feed store, in ml."""
    return _moved(judged, SYRUP, _legs(judged, lambda leg: leg.ml))


def blocks_moved(judged: Judged) -> Moved:
    """Return what a day does to the blocks at the feed store."""
    return _moved(judged, BLOCKS, _legs(judged, lambda leg: leg.blocks))


def strips_moved(judged: Judged, what: str, mine: Collection[int]) -> Moved:
    """Return what a day does to the stock ``what`` of the strips for the yards of ``mine``."""
    trips = range(len(judged.packed))
    given = (sum(n for yard, n in _strips_on(judged, trip) if yard in mine) for trip in trips)
    return _moved(judged, what, [(number, 0) for number in given])


def _legs(judged: Judged, goods: Callable[[Leg], int]) -> list[tuple[int, int]]:
    return [(goods(packed.legs[0]), goods(packed.legs[-1])) for packed in judged.packed]


def _moved(judged: Judged, what: str, loads: Sequence[tuple[int, int]]) -> Moved:
    """Return what a day does to a stock; ``loads`` are what its stops leave with and bring."""
    moves, aboard = [], 0
    store, ends = judged.calls[0][2], {trip: place for trip, _, place in judged.calls}
    for trip, (out, left) in enumerate(loads):
        load_min = judged.load_at[trip]
        unused, brought = judged.riding[trip] if judged.riding else NOTHING_RIDES
        moves += [(load_min, aboard), (load_min, -out - unused.get(what, 0))]
        aboard = left + unused.get(what, 0)
        for one in (one for one in brought if one.what == what):
            moves.append((one.minute, min(one.number, aboard)))
            aboard -= min(one.number, aboard)
        if ends[trip] == store:
            moves.append((judged.back_at[trip], aboard))
            aboard = 0
    moves = [(minute, change) for minute, change in moves if change]
    return Moved(tuple(moves), judged.load_at[0], aboard)


def syrup_loaded(judged: Judged) -> Moves:
    """Return ``(minute, ml)`` of syrup that a day loads for its stops."""
    trips = zip(judged.load_at, judged.packed, strict=True)
    return tuple((at, packed.legs[0].ml) for at, packed in trips if packed.legs[0].ml)


def in_halves(judged: Judged, noon_min: int) -> tuple[bool, bool]:
    """Return whether a day's shift touches the first and the second half-day."""
    noon = judged.day.day * DAY_MIN + noon_min
    return judged.run.start_min < noon, judged.run.end_min > noon
