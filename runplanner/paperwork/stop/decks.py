"""What truck and trailer bear each on one trip, and how goods stand on their decks."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final, NamedTuple

from runplanner.daybook.trip import Aboard, Action, Call, CallKind, Job, Shift, Stowed, Trip
from runplanner.haulage.deck import Cell, cell_of, places_under
from runplanner.haulage.hauler import Hauler, hauled
from runplanner.haulage.lots import Done, changes
from runplanner.haulage.stow import (
    ORDERS,
    Change,
    Order,
    Stowage,
    Strain,
    Tank,
    Train,
    by_size,
    laid,
    stow,
    strains,
)
from runplanner.haulage.stow import heavier as stow_heavier
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import heavier_g
from runplanner.outfit.stores import Container
from runplanner.outfit.trucks import Deck, Trailer, Truck
from runplanner.trade.loads import rows

NO_MORE: Final[Mapping[str, int]] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Bears:
    """What one vehicle bears: grams of load, and rows of places across its deck."""

    load_g: int
    rows: int
    in_row: int

    @property
    def places(self) -> int:
        """Deck places, as the whole trip counts them."""
        return self.rows * self.in_row

    def rows_of(self, places: int) -> int:
        """Return the rows that so many places take, at most all of them."""
        return -(-min(places, self.places) // self.in_row) if self.places else 0


def pulled(outfit: Outfit, shift: Shift) -> tuple[Truck, Trailer | None]:
    """Return the shift's truck and its trailer, if any."""
    return outfit.truck(shift.truck), outfit.trailer(shift.trailer)


def bears(outfit: Outfit, shift: Shift, trip: Trip) -> tuple[Bears, Bears | None]:
    """Return what the truck bears, and what the trailer bears where one is pulled."""
    way, cell = _way(outfit, shift), _cell(outfit, trip)
    if way.trailer is None:
        return _bears(way.truck_g, way.truck.deck, cell), None
    train = _train(outfit, way, cell)
    own = _bears(train.truck_g, way.truck.deck, cell)
    return own, _bears(train.trailer_g, way.trailer.deck, cell)


def stowed(outfit: Outfit, shift: Shift, trip: Trip) -> Stowage | None:
    """Return how truck and trailer share the load, as the plan has it; None without a trailer.

    Plans made before that was kept are stowed anew; where no way is found all tanks are ahead.
    """
    load = _load(outfit, shift, trip)
    return None if load is None else _told(outfit, trip, load)


def heavier(outfit: Outfit, shift: Shift, trip: Trip) -> list[tuple[int, int]]:
    """Return the grams more on truck and trailer after every call if boxes are one spread heavier.

    They stand where they are told to, as nobody loads by what they do not know; nothing without
    a trailer.
    """
    load = _load(outfit, shift, trip)
    return [] if load is None else stow_heavier(*load, _told(outfit, trip, load))


def strained(
    outfit: Outfit, shift: Shift, trip: Trip, was: Aboard, more_g: Mapping[str, int] = NO_MORE
) -> list[Strain]:
    """Return what is too much on truck and trailer on leaving every call but the unloading.

    Nothing without a trailer.

    Args:
        outfit: The facts.
        shift: The truck's day.
        trip: One of its trips.
        was: What it left with, where that is more than its calls come to: what of it no call
            uses stays where it was put.
        more_g: Grams that a honey box weighs more than it is reckoned with, by yard.
    """
    load = _load(outfit, shift, trip, more_g)
    if load is None:
        return []
    return strains(load.train, load.tanks, _with_unused(outfit, shift, trip, was, load.calls),
                   _told(outfit, trip, load))  # fmt: skip


def _with_unused(
    outfit: Outfit, shift: Shift, trip: Trip, was: Aboard, calls: Sequence[Change]
) -> list[Change]:
    """Return what every call changes with what none uses aboard from the loading on.

    What is not told by number, as strips and boxes of stops left out, rides on the truck.
    """
    planned = tuple(replace(one, actions=one.planned or one.actions) for one in trip.calls)
    start = trip.calls[0].after
    names = ("ml", "blocks", "boards", "feeders")
    most = replace(start, **{name: max(getattr(start, name), getattr(was, name)) for name in names})
    as_planned = replace(trip, calls=(replace(planned[0], after=most), *planned[1:]))
    loading, now = _changes(outfit, _way(outfit, shift), as_planned)[0], calls[0]
    density = outfit.feed.density_g_per_l
    known_g = _mass_g(loading, density) - _mass_g(now, density)
    cab_g = max(0, was.load_g - start.load_g - known_g)
    more_ml = loading.ml - now.ml
    onward = (one._replace(ml=one.ml + more_ml, cab_g=one.cab_g + cab_g) for one in calls[1:])
    return [loading._replace(cab_g=now.cab_g + cab_g), *onward]


def _mass_g(change: Change, density_g_per_l: int) -> int:
    """Return the mass of goods and syrup loaded, what rides in the cab left out."""
    goods = sum(lot.number * lot.each_g for lot in change.on)
    return goods - (-change.ml * density_g_per_l // 1000)


class _Load(NamedTuple):
    """What truck and trailer bear, the containers, and what changes at every call."""

    train: Train
    tanks: list[Tank]
    calls: list[Change]


def _load(
    outfit: Outfit, shift: Shift, trip: Trip, more_g: Mapping[str, int] | None = None
) -> _Load | None:
    """Return a trip's load to be stowed; None where no trailer is pulled.

    Its boxes may weigh one spread more than they are reckoned with, or ``more_g`` by yard.
    """
    way, cell = _way(outfit, shift), _cell(outfit, trip)
    if way.trailer is None:
        return None
    tanks = [
        Tank(kind.empty_g, kind.holds_ml, places_under(kind, *cell))
        for kind in carried(outfit, trip)
    ]
    return _Load(_train(outfit, way, cell), tanks, _changes(outfit, way, trip, more_g))


def _told(outfit: Outfit, trip: Trip, load: _Load) -> Stowage:
    """Return how a load is shared as the plan tells; stowed anew where it does not."""
    told = trip.stowed
    if told is not None:
        behind = _behind(carried(outfit, trip), told)
        return laid(*load, behind, Order(told.trailer_loads, told.trailer_stops))
    ahead = (False,) * len(load.tanks)
    return stow(*load) or laid(*load, ahead, ORDERS[0])


def _behind(taken: Sequence[Container], told: Stowed) -> tuple[bool, ...]:
    """Return which of the containers taken ride on the trailer."""
    left = Counter({one.container: one.count for one in told.behind})
    found = []
    for kind in taken:
        found.append(left[kind.id] > 0)
        left[kind.id] -= 1
    return tuple(found)


def filled(outfit: Outfit, shift: Shift, trip: Trip) -> tuple[Trip, ...]:
    """Return the trip as planned and, for each stop, with all boxes taken there that may be.

    They ride on to the unloading, in stacks of their own, past no later stop's limit and no
    leg's payload: a stop that is past keeps its limit, and what it had in hand may be gone since.
    """
    return (trip, *_filled(outfit, shift, trip))


def _filled(outfit: Outfit, shift: Shift, trip: Trip) -> Iterator[Trip]:
    way = _way(outfit, shift)
    for at, call in enumerate(trip.calls):
        if not call.takes_boxes():
            continue
        yard = outfit.yard(call.yard)
        more = min(_more(one, yard.box_g) for one in trip.calls[at:] if one.kind is CallKind.YARD)
        if more > 0:
            stacks = -(-more // max(1, way.high(outfit.box(yard.box))))
            calls = [
                _with_more(one, more, more * yard.box_g, stacks)
                if one.kind is CallKind.YARD and number >= at else one
                for number, one in enumerate(trip.calls)
            ]  # fmt: skip
            calls[at] = replace(calls[at], actions=_more_off(call.actions, more))
            yield replace(trip, calls=tuple(calls))


def _more(call: Call, box_g: int) -> int:
    """Return for how many boxes more a stop leaves room, by its limit where it takes any."""
    by_mass = (call.after.load_max_g - call.after.load_g) // box_g
    return min(by_mass, call.boxes_limit - call.after.boxes) if call.takes_boxes() else by_mass


def _with_more(call: Call, boxes: int, grams: int, stacks: int) -> Call:
    after = call.after
    places = max(after.places, min(after.places_max, after.places + stacks))
    return replace(call, after=replace(
        after, boxes=after.boxes + boxes, load_g=after.load_g + grams, places=places
    ))  # fmt: skip


def _more_off(actions: tuple[Action, ...], boxes: int) -> tuple[Action, ...]:
    at = next(i for i, action in enumerate(actions) if action.boxes)
    more = replace(actions[at], boxes=actions[at].boxes + boxes)
    return (*actions[:at], more, *actions[at + 1 :])


def carried(outfit: Outfit, trip: Trip) -> tuple[Container, ...]:
    """Return every container of the trip, the largest first."""
    taken = [outfit.container(one.container) for one in trip.containers for _ in range(one.count)]
    return tuple(sorted(taken, key=by_size))


def _way(outfit: Outfit, shift: Shift) -> Hauler:
    truck, trailer = pulled(outfit, shift)
    return hauled(truck, trailer, len(shift.crew), outfit.person_g * len(shift.crew))


def _train(outfit: Outfit, way: Hauler, cell: Cell) -> Train:
    return way.train(*cell, outfit.feed.density_g_per_l)


def _changes(
    outfit: Outfit, way: Hauler, trip: Trip, more_g: Mapping[str, int] | None = None
) -> list[Change]:
    """Return what is loaded and what every stop changes, from the jobs done there."""
    stops = [_done(outfit, way, call) for call in trip.yards()]
    if more_g is not None:
        stops = [one._replace(more_g=more_g.get(one.yard.id, 0)) for one in stops]
    return changes(outfit, stops, [call.after for call in (trip.calls[0], *trip.yards())])


def _done(outfit: Outfit, way: Hauler, call: Call) -> Done:
    yard = outfit.yard(call.yard)
    strips = sum(one.pieces for one in call.actions if one.job is Job.STRIPS)
    return Done(
        yard,
        max(1, way.high(outfit.box(yard.box))),
        call.boxes(),
        sum(one.brood_boxes for one in call.actions),
        _wet(call, Job.WET_UP),
        _wet(call, Job.WET_DOWN),
        strips * outfit.strip_g(yard),
        heavier_g(outfit, yard),
    )


def _wet(call: Call, job: Job) -> int:
    return sum(one.wet for one in call.actions if one.job is job)


def _bears(load_g: int, deck: Deck, cell: Cell) -> Bears:
    return Bears(load_g, *rows(deck, *cell))


def _cell(outfit: Outfit, trip: Trip) -> Cell:
    """Return the floor of the trip's deck places."""
    calls = [call for call in trip.yards() if call.handles_boxes()]
    return cell_of(outfit, (outfit.box(outfit.yard(call.yard).box) for call in calls))
