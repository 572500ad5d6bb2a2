"""Whether truck and trailer can share a load so that each bears its own part.

A container goes whole on one of them, and stays there.  All else is put on one of them first,
as much as it bears, and the rest on the other; what is used up comes off that one first, and
nothing is moved over on the way.  Which of the two is first, once as the trip is loaded and
once at its stops, and which containers ride behind, is as the plan tells its driver; plans made
before that was kept are free to do it in any way.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import product
from typing import NamedTuple

from runplanner.audit.book import Book, Rig, Stop
from runplanner.audit.cargo import Cargo, wet_up
from runplanner.audit.deck import columns_each, pile_of, stack_of, under
from runplanner.audit.findings import Breach, Breaches, quoted, when
from runplanner.audit.load import (
    axles_hold,
    bare_g,
    comb_box_g,
    load_g,
    nose_g,
    over_deck,
    over_mass,
    trailer_load_g,
)
from runplanner.audit.whole import ceil_div
from runplanner.daybook.trip import CallKind, Stowed, Trip
from runplanner.outfit.stores import Container
from runplanner.phrase import phrase

Cans = tuple[Container, ...]
Thing = tuple[str, str]
"""A sort of goods and the yard it belongs to, if any."""


class Sort(NamedTuple):
    """One sort of goods: mass of a piece, the pile it goes on, pieces on one place."""

    each_g: int
    pile: tuple[str, ...]
    on_place: int


@dataclass
class Part:
    """One vehicle's part of a load."""

    most_g: int
    places: int
    cans: Cans
    under: int
    fixed_g: int = 0
    ml: int = 0
    goods: Counter[Thing] = field(default_factory=Counter)


def shares(book: Book) -> Breaches:
    """Behind a truck with a trailer, each of the two bears its part, every container whole.

    Where both together cannot bear a load the rules on mass and deck tell so.  So it is of calls
    to come of a trip that has left, by its true counts, with what no call has used still aboard.
    """
    for stops in book.trips():
        yield from _told_wrong(stops)
        if stops[0].rig.trailer is not None:
            for stop in _not_shared(book, stops):
                yield not_shared(book, stop)


def _not_shared(book: Book, stops: Sequence[Stop]) -> Iterator[Stop]:
    """Yield the first leg, under way all to come, that both bear together but not each."""
    over = [_over(book, stop) for stop in stops]
    if stops[0].trip.driven:
        failing = strained(book, stops, with_unused(book, stops))
        yield from (stops[at] for at in failing if stops[at].ahead and not over[at])
    elif not any(over):
        cargos = [stop.after for stop in stops]
        yield from (stops[at] for at in strained(book, stops, cargos)[:1])


def _told_wrong(stops: Sequence[Stop]) -> Breaches:
    """Only containers of the trip ride on a trailer, and only where one is pulled."""
    trip, told = stops[0].trip, stops[0].trip.stowed
    if told is None:
        return
    if stops[0].rig.trailer is None:
        yield Breach(
            phrase("a load shared with a trailer"),
            phrase("none where no trailer is pulled"),
            trip.id,
        )
    left = Counter[str]()
    for one in trip.containers:
        left[one.container] += one.count
    for one in told.behind:
        left[one.container] -= one.count
        if one.count < 1 or left[one.container] < 0:
            said = phrase(
                "{number} of container {container} on the trailer",
                number=one.count, container=quoted(one.container),
            )  # fmt: skip
            yield Breach(said, phrase("1 or more, of those that the trip takes"), trip.id)


def _over(book: Book, stop: Stop) -> bool:
    return any(True for check in (over_mass, over_deck) for _ in check(book, stop, stop.after))


def not_shared(book: Book, stop: Stop) -> Breach:
    """Return the breach of a leg on which truck and trailer cannot share the load."""
    truck_g, trailer_g = _bears(book, stop.rig)
    places, behind = columns_each(book, stop)
    leave = when(stop.call.leave_min)
    free = phrase(
        "a load that truck and trailer cannot share, every container whole, on leaving {leave}",
        leave=leave,
    )
    told = phrase(
        "a load that truck and trailer cannot share in the way told, on leaving {leave}",
        leave=leave,
    )
    said = free if stop.trip.stowed is None else told
    allowed = phrase(
        "at most {truck_g} g in {places} places on the truck, {trailer_g} g in {behind} on the "
        "trailer",
        truck_g=truck_g, places=places, trailer_g=trailer_g, behind=behind,
    )  # fmt: skip
    return stop.breach(said, allowed)


def with_unused(book: Book, stops: Sequence[Stop]) -> list[Cargo]:
    """Return what is aboard on leaving each call of a trip, with what none of them uses.

    What is not told by number, as strips and boxes of stops left out, rides on the truck.
    """
    trip = stops[0].trip
    cargos, left, start = [stop.after for stop in stops], trip.left, trip.calls[0].after
    if left is None or left.load_g <= start.load_g:
        return cargos
    more = replace(
        cargos[0],
        ml=cargos[0].ml + max(0, left.ml - start.ml),
        blocks=cargos[0].blocks + max(0, left.blocks - start.blocks),
        boards=cargos[0].boards + max(0, left.boards - start.boards),
        feeders=cargos[0].feeders + max(0, left.feeders - start.feeders),
        wet=_wet_planned(cargos[0], trip),
    )
    known_g = load_g(book, trip, more) - load_g(book, trip, cargos[0])
    rest_g = max(0, left.load_g - start.load_g - known_g)
    return [
        replace(
            cargo,
            ml=cargo.ml + more.ml - cargos[0].ml,
            blocks=cargo.blocks + more.blocks - cargos[0].blocks,
            boards=cargo.boards + more.boards - cargos[0].boards,
            feeders=cargo.feeders + more.feeders - cargos[0].feeders,
            wet={yard: cargo.wet.get(yard, 0) + number - cargos[0].wet.get(yard, 0)
                 for yard, number in more.wet.items()} | _others(cargo.wet, more.wet),
            strips_g=cargo.strips_g + rest_g,
        )
        for cargo in cargos
    ]  # fmt: skip


def _wet_planned(cargo: Cargo, trip: Trip) -> dict[str, int]:
    """Return the emptied boxes that a trip left with, of the stops it still has."""
    wet = dict(cargo.wet)
    for call in trip.yards():
        if call.planned:
            less = sum(map(wet_up, call.planned)) - sum(map(wet_up, call.actions))
            wet[call.yard] = wet.get(call.yard, 0) + max(0, less)
    return wet


def _others(wet: Mapping[str, int], known: Mapping[str, int]) -> dict[str, int]:
    return {yard: number for yard, number in wet.items() if yard not in known}


def strained(book: Book, stops: Sequence[Stop], cargos: Sequence[Cargo]) -> list[int]:
    """Return the legs that the way told does not bear; where none is told, that the best does not.

    Empty where one bears all.

    Args:
        book: The plan opened.
        stops: One trip's calls, pulling a trailer.
        cargos: What is aboard on leaving each.
    """
    way = _Way(book, stops, cargos)
    told = stops[0].trip.stowed
    if told is not None:
        return way.fails(_parted(way.cans, told), (told.trailer_loads, told.trailer_stops))
    best = list[int]()
    for parts in _ways_to_part(way.cans, sum(columns_each(book, stops[0]))):
        for first in product((True, False), (True, False)):
            failing = way.fails(parts, first)
            if not failing:
                return []
            best = max(best, failing, key=lambda legs: legs[:1])
    return best


def _ways_to_part(cans: Cans, most: int) -> Iterator[tuple[Cans, Cans]]:
    """Yield the containers ahead and those behind: the largest so many are on one of them."""
    if len(cans) <= most:
        yield from ((cans[first:], cans[:first]) for first in range(len(cans) + 1))
        yield from ((cans[:first], cans[first:]) for first in range(1, len(cans)))


def _parted(cans: Cans, told: Stowed) -> tuple[Cans, Cans]:
    """Return the containers ahead and those behind as they are told."""
    left = Counter({one.container: one.count for one in told.behind})
    ahead, behind = list[Container](), list[Container]()
    for can in cans:
        (behind if left[can.id] > 0 else ahead).append(can)
        left[can.id] -= 1
    return tuple(ahead), tuple(behind)


def _bears(book: Book, rig: Rig) -> tuple[int, int]:
    """Return the most load of truck and trailer, each for itself, the truck's axles heeded."""
    truck_g = rig.truck.max_g - bare_g(book, rig) - nose_g(rig)
    axles = rig.truck.axles
    if axles is not None:
        extras = bare_g(book, rig) - rig.truck.empty_g
        behind = axles.load_on_rear_permille
        rear = 1000 * (axles.rear_max_g - axles.rear_empty_g - nose_g(rig)) - 500 * extras
        front = 1000 * (axles.front_max_g - axles.front_empty_g) - 500 * extras
        light = 1000 * (axles.front_empty_g - axles.front_min_g) + 500 * extras
        for room, share in ((rear, behind), (front, 1000 - behind), (light, behind - 1000)):
            if share > 0:
                truck_g = min(truck_g, room // share)
    return truck_g, trailer_load_g(rig.trailer) if rig.trailer else 0


class _Way:
    """One trip, to be loaded in one way after another."""

    def __init__(self, book: Book, stops: Sequence[Stop], cargos: Sequence[Cargo]) -> None:
        self.book, self.stops, self.cargos = book, stops, cargos
        cans = (
            book.containers[carried.container]
            for carried in stops[0].trip.containers
            for _ in range(min(carried.count, sum(columns_each(book, stops[0])) + 1))
        )
        self.cans = tuple(sorted(cans, key=lambda can: (-can.holds_ml, can.id)))

    def fails(self, parts: tuple[Cans, Cans], first: tuple[bool, bool]) -> list[int]:
        """Return the legs that this way does not bear.

        What neither bears goes on the one filled last.

        Args:
            parts: The containers ahead and those behind.
            first: Whether the trailer is filled first, as the trip is loaded and at stops.
        """
        trailer_loads, trailer_stops = first
        truck, trailer = self._parts(*parts)
        held: dict[Thing, int] = {}
        failing = list[int]()
        for number, (stop, cargo) in enumerate(zip(self.stops, self.cargos, strict=True)):
            if stop.call.kind is CallKind.UNLOAD:
                break
            first_behind = trailer_stops if number else trailer_loads
            pair = (trailer, truck) if first_behind else (truck, trailer)
            truck.fixed_g = cargo.strips_g
            now = _things(cargo)
            borne = self._syrup(pair, cargo.ml)
            borne = self._goods(pair, held, now) and borne
            held = now
            if not (borne and self._borne(stop, truck, trailer)):
                failing.append(number)
        return failing

    def _parts(self, front: Cans, rear: Cans) -> tuple[Part, Part]:
        """Return truck and trailer with their containers."""
        ahead_g, behind_g = _bears(self.book, self.stops[0].rig)
        ahead_places, behind_places = columns_each(self.book, self.stops[0])
        return self._part(ahead_g, ahead_places, front), self._part(behind_g, behind_places, rear)

    def _part(self, most_g: int, places: int, cans: Cans) -> Part:
        return Part(most_g, places, cans, sum(under(self.book, self.stops[0], c) for c in cans))

    def _mass(self, part: Part) -> int:
        goods = sum(count * self._sort(thing).each_g for thing, count in part.goods.items())
        syrup = ceil_div(part.ml * self.book.outfit.feed.density_g_per_l, 1000)
        return part.fixed_g + goods + syrup + sum(can.empty_g for can in part.cans)

    def _places(self, part: Part) -> int:
        piles: Counter[tuple[tuple[str, ...], int]] = Counter()
        for thing, count in part.goods.items():
            sort = self._sort(thing)
            piles[sort.pile, sort.on_place] += count
        return part.under + sum(ceil_div(count, high) for (_, high), count in piles.items())

    def _sort(self, thing: Thing) -> Sort:
        name, yard_id = thing
        kit = self.book.outfit.kit
        small = {
            "blocks": (kit.block_g, kit.blocks_per_place),
            "boards": (kit.board_g, kit.boards_per_place),
            "feeders": (kit.feeder_g, kit.feeders_per_place),
        }
        if name in small:
            each_g, on_place = small[name]
            return Sort(each_g, (name,), on_place)
        yard = self.book.yards[yard_id]
        high = stack_of(self.stops[0].rig, self.book.boxes[yard.box])
        if name == "honey":
            return Sort(yard.box_g, pile_of(yard), high)
        pile = pile_of(yard) if name == "brood" else ("wet", yard_id)
        return Sort(comb_box_g(self.book, yard_id), pile, high)

    def _holds(self, part: Part) -> bool:
        return self._mass(part) <= part.most_g and self._places(part) <= part.places

    def _syrup(self, pair: tuple[Part, Part], ml: int) -> bool:
        """Pour out of, or fill, the first's containers before the other's."""
        more = ml - pair[0].ml - pair[1].ml
        for part in pair:
            if more < 0:
                less = min(-more, part.ml)
                part.ml -= less
                more += less
                continue
            had, room = part.ml, sum(can.holds_ml for can in part.cans) - part.ml

            def filled(extra: int, part: Part = part, had: int = had) -> bool:
                part.ml = had + extra
                return self._mass(part) <= part.most_g

            part.ml = had + _most(filled, min(more, room))
            more -= part.ml - had
        borne = more == 0
        for part in pair[::-1]:
            extra = max(0, min(more, sum(can.holds_ml for can in part.cans) - part.ml))
            part.ml += extra
            more -= extra
        return borne

    def _goods(
        self, pair: tuple[Part, Part], held: Mapping[Thing, int], now: Mapping[Thing, int]
    ) -> bool:
        """Take off what there is less of, then put on what there is more of."""
        borne = True
        for thing, count in held.items():
            less = count - now.get(thing, 0)
            for part in pair:
                off = max(0, min(less, part.goods[thing]))
                part.goods[thing] -= off
                less -= off
        for thing, count in now.items():
            more = count - held.get(thing, 0)
            for part in pair:
                more -= self._put(part, thing, more)
            if more > 0:
                pair[1].goods[thing] += more
                borne = False
        return borne

    def _put(self, part: Part, thing: Thing, count: int) -> int:
        """Put on as many of ``count`` as the part bears; return how many."""
        had = part.goods[thing]

        def put(extra: int) -> bool:
            part.goods[thing] = had + extra
            return self._holds(part)

        found = _most(put, count)
        part.goods[thing] = had + found
        return found

    def _borne(self, stop: Stop, truck: Part, trailer: Part) -> bool:
        if not (self._holds(truck) and self._holds(trailer)):
            return False
        return axles_hold(self.book, stop.rig, self._mass(truck))


def _things(cargo: Cargo) -> dict[Thing, int]:
    """Return the goods in the order in which they are put on."""
    return {
        **{("honey", yard): count for yard, count in cargo.boxes.items()},
        **{("brood", yard): count for yard, count in cargo.brood.items()},
        ("blocks", ""): cargo.blocks,
        ("boards", ""): cargo.boards,
        ("feeders", ""): cargo.feeders,
        **{("wet", yard): count for yard, count in cargo.wet.items()},
    }


def _most(holds: Callable[[int], bool], count: int) -> int:
    """Return the most of ``count`` that holds, by halving; 0 where not even one does."""
    low, high = 0, max(0, count)
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if holds(middle) else (low, middle - 1)
    return low
