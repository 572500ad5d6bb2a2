"""One trip laid out on one day: which calls, how long each takes, and in what hours."""

from typing import Final, NamedTuple

from runplanner.days import Span
from runplanner.haulage.day_clock import Step
from runplanner.trips.day import Trip
from runplanner.trips.ground import Ground
from runplanner.trips.pack import Packed

LOAD: Final = -2
HONEY: Final = -1
STORE: Final = -3
BOTH: Final = -4
HONEY_KINDS: Final = (HONEY, BOTH)

Station = tuple[int, int]
"""A call's kind and place; kind is one of the above or the index of the stop in its trip."""


class Ride(NamedTuple):
    """A trip's calls and steps; the leg to its loading is left out, for it may start anywhere."""

    packed: Packed
    stations: tuple[Station, ...]
    steps: tuple[Step, ...]
    driving_min: int
    work_min: int
    metres: int


class Way(NamedTuple):
    """Who goes out when: the day's number and the hauler's."""

    day: int
    hauler: int


def laid_out(ground: Ground, way: Way, trip: Trip, packed: Packed) -> Ride | None:
    """Return a trip's calls in order, or None where there is no road or no fit hour."""
    stations = _stations(ground, way, trip)
    here, driving, length = stations[0][1], 0, 0
    steps = []
    for number, (kind, place) in enumerate(stations):
        leg, metres = road(ground, way.hauler, here, place) if number else (0, 0)
        minutes, spans, settled = _call(ground, way, trip, packed, kind)
        if leg is None or metres is None or not spans:
            return None
        steps.append(Step(leg, minutes, spans, settled))
        driving, length, here = driving + leg, length + metres, place
    work = sum(step.work_min for step in steps)
    return Ride(packed, tuple(stations), tuple(steps), driving, work, length)


def road(ground: Ground, hauler: int, a: int, b: int) -> tuple[int | None, int | None]:
    """Return minutes and metres from place to place; None for either where no road is."""
    return ground.legs[hauler][a][b], ground.outfit.travel.metres[a][b]


def _stations(ground: Ground, way: Way, trip: Trip) -> list[Station]:
    """Return the calls of one trip.

    Honey goes to the honey house; brood boxes, emptied boxes, kit that other trucks may lack,
    or a truck without honey, to the feed store.
    """
    store, house = ground.outfit.feed_store.place, ground.outfit.honey_house.base.place
    stations = [(LOAD, store)]
    stations += [(i, ground.place(stop.yard, way.day)) for i, stop in enumerate(trip)]
    honey = any(stop.boxes for stop in trip)
    others = any(stop.brood or stop.wet_down for stop in trip)
    to_store = not honey or others or ground.kit_home(way.day, ground.truck_index[way.hauler], trip)
    if honey and to_store and store == house:
        return [*stations, (BOTH, store)]
    if honey:
        stations.append((HONEY, house))
    if to_store:
        stations.append((STORE, store))
    return stations


def _call(
    ground: Ground, way: Way, trip: Trip, packed: Packed, kind: int
) -> tuple[int, tuple[Span, ...], int]:
    """Return a call's minutes, its hours, and the minute before which it may not end."""
    crew = ground.haulers[way.hauler].crew
    if kind >= 0:
        task = ground.task(trip[kind])
        return ground.stop_min(trip[kind], crew), task.spans[way.day], task.settled[way.day]
    if kind == LOAD:
        return _load_min(ground, packed, crew), ground.store_spans[way.day], 0
    return _unload_min(ground, packed, kind, crew), _unload_spans(ground, kind)[way.day], 0


def _load_min(ground: Ground, packed: Packed, crew: int) -> int:
    pace, first = ground.outfit.pace, packed.legs[0]
    by_hand = -(-first.wet * pace.unload_box_s // (60 * crew))
    return pace.load_min + by_hand - (-first.ml // pace.pump_ml_per_min)


def _unload_min(ground: Ground, packed: Packed, kind: int, crew: int) -> int:
    last = packed.legs[-1]
    boxes = (last.boxes if kind != STORE else 0) + (last.brood + last.wet if kind != HONEY else 0)
    return ground.outfit.pace.unloading_min(boxes, crew)


def _unload_spans(ground: Ground, kind: int) -> tuple[tuple[Span, ...], ...]:
    if kind == HONEY:
        return ground.house_spans
    return ground.store_spans if kind == STORE else ground.both_spans
