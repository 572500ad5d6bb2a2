"""One trip laid out on one day: which calls, how long each takes, and in what hours."""

from collections.abc import Iterator
from typing import Final, NamedTuple

from runplanner.days import NEVER, Span
from runplanner.haulage.day_clock import Step
from runplanner.haulage.unloading import unloadings
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


class _Stay(NamedTuple):
    """One call: its minutes and hours, before when it may not end, by when the truck is gone."""

    station: Station
    minutes: int
    spans: tuple[Span, ...]
    settled_min: int
    gone_by_min: int = NEVER


def laid_out(ground: Ground, way: Way, trip: Trip, packed: Packed) -> Ride | None:
    """Return a trip's calls in order, or None where there is no road or no fit hour."""
    here, driving, length = ground.outfit.feed_store.place, 0, 0
    stations, steps = [], list[Step]()
    for (kind, place), minutes, spans, *limits in _stays(ground, way, trip, packed):
        leg, metres = road(ground, way.hauler, here, place) if steps else (0, 0)
        if leg is None or metres is None or not spans:
            return None
        stations.append((kind, place))
        steps.append(Step(leg, minutes, spans, *limits))
        driving, length, here = driving + leg, length + metres, place
    work = sum(step.work_min for step in steps)
    return Ride(packed, tuple(stations), tuple(steps), driving, work, length)


def road(ground: Ground, hauler: int, a: int, b: int) -> tuple[int | None, int | None]:
    """Return minutes and metres from place to place; None for either where no road is."""
    return ground.legs[hauler][a][b], ground.outfit.travel.metres[a][b]


def _stays(ground: Ground, way: Way, trip: Trip, packed: Packed) -> Iterator[_Stay]:
    """Yield the calls of one trip: kit that other trucks may lack goes to the feed store too."""
    day, crew = way.day, ground.haulers[way.hauler].crew
    store, house = ground.outfit.feed_store.place, ground.outfit.honey_house.base.place
    yield _Stay((LOAD, store), _load_min(ground, packed, crew), ground.store_spans[day], 0)
    for number, stop in enumerate(trip):
        task, here = ground.task(stop), (number, ground.place(stop.yard, day))
        goes_on = number > 0 and trip[number - 1].yard == stop.yard
        minutes = ground.going_on_min(stop, crew) if goes_on else ground.stop_min(stop, crew)
        gone_by = ground.gone_by(stop.yard, day)
        yield _Stay(here, minutes, task.spans[day], task.settled[day], gone_by)
    last, kit = packed.legs[-1], ground.kit_home(day, ground.truck_index[way.hauler], trip)
    for one in unloadings(last.boxes, last.brood + last.wet, kit=kit, apart=store != house):
        kind = BOTH if one.house and one.store else HONEY if one.house else STORE
        minutes = ground.outfit.pace.unloading_min(one.boxes, crew)
        here = (kind, house if one.house else store)
        yield _Stay(here, minutes, _unload_spans(ground, kind)[day], 0)


def _load_min(ground: Ground, packed: Packed, crew: int) -> int:
    pace, first = ground.outfit.pace, packed.legs[0]
    by_hand = -(-first.wet * pace.unload_box_s // (60 * crew))
    return pace.load_min + by_hand - (-first.ml // pace.pump_ml_per_min)


def _unload_spans(ground: Ground, kind: int) -> tuple[tuple[Span, ...], ...]:
    if kind == HONEY:
        return ground.house_spans
    return ground.store_spans if kind == STORE else ground.both_spans
