"""Does a trip's load fit, leg by leg?"""

from typing import NamedTuple

from runplanner.trips.ground import Ground
from runplanner.trips.stop import Stop, Trip


class Leg(NamedTuple):
    """What is aboard on leaving a call."""

    boxes: int
    brood: int
    ml: int
    blocks: int
    boards: int
    strips: int
    feeders: int
    load_g: int
    places: int


class Packed(NamedTuple):
    """A trip whose load fits: containers by kind, legs (after loading, after each stop)."""

    tanks: tuple[int, ...]
    legs: tuple[Leg, ...]
    places_max: int


class Goods(NamedTuple):
    """What one stop takes off the truck (and, for boards, brings back)."""

    ml: int
    blocks: int
    boards: int
    boards_back: int
    strips: int
    feeders: int


def goods(ground: Ground, stop: Stop) -> Goods:
    """Return what a stop uses up."""
    outfit, yard = ground.outfit, ground.outfit.yards[stop.yard]
    feeders = stop.fed if stop.round == 1 and outfit.kit.feeders_owned is not None else 0
    return Goods(
        ml=stop.fed * ground.dues[stop.yard].round_ml,
        blocks=stop.blocks,
        boards=stop.boards,
        boards_back=stop.off if ground.dues[stop.yard].boards else 0,
        strips=yard.colonies * outfit.strips.per_colony if stop.strips else 0,
        feeders=feeders,
    )


def pack(ground: Ground, hauler: int, trip: Trip) -> Packed | None:
    """Return how the trip's load rides, or None where some leg is over a limit."""
    used = tuple(goods(ground, stop) for stop in trip)
    for tanks in ground.container_choices(sum(one.ml for one in used)):
        legs = _legs(ground, hauler, trip, used, tanks)
        if legs is not None:
            return Packed(tanks, legs, ground.places[hauler][_footprint(ground, trip)])
    return None


def fits(ground: Ground, hauler: int, trip: Trip, tanks: tuple[int, ...]) -> bool:
    """Tell whether the trip's load rides with just these containers."""
    used = tuple(goods(ground, stop) for stop in trip)
    return _legs(ground, hauler, trip, used, tanks) is not None


def _footprint(ground: Ground, trip: Trip) -> int:
    """Return the box kind whose footprint makes the deck places of this trip."""
    aboard = {ground.kinds[stop.yard] for stop in trip if stop.boxes or stop.brood}
    return next((kind for kind in ground.widest if kind in aboard), ground.widest[0])


def boards_to_load(used: tuple[Goods, ...]) -> int:
    """Return the boards to load so that they never run out, with those that come back."""
    short = have = 0
    for one in used:
        have += one.boards_back
        have -= one.boards
        short = max(short, -have)
    return short


def _legs(
    ground: Ground, hauler: int, trip: Trip, used: tuple[Goods, ...], tanks: tuple[int, ...]
) -> tuple[Leg, ...] | None:
    outfit, kit = ground.outfit, ground.outfit.kit
    foot = _footprint(ground, trip)
    room, high = ground.places[hauler][foot], ground.high[hauler]
    limit, into = ground.haulers[hauler].load_max_g, ground.load_into[hauler]
    tank_g = sum(n * kind.empty_g for n, kind in zip(tanks, outfit.containers, strict=True))
    tank_places = sum(n * places[foot] for n, places in zip(tanks, ground.tank_places, strict=True))
    ml, blocks = sum(u.ml for u in used), sum(u.blocks for u in used)
    strips, feeders = sum(u.strips for u in used), sum(u.feeders for u in used)
    boards, boxes, brood, boxes_g = boards_to_load(used), 0, 0, 0
    columns: dict[tuple[int, bool], int] = {}
    legs = []
    for i in range(len(trip) + 1):
        if i:
            stop, one = trip[i - 1], used[i - 1]
            ml, blocks, strips, feeders = ml - one.ml, blocks - one.blocks, strips - one.strips, feeders - one.feeders
            boards += one.boards_back - one.boards
            if stop.boxes or stop.brood:
                boxes, brood = boxes + stop.boxes, brood + stop.brood
                boxes_g += stop.boxes * outfit.yards[stop.yard].box_g + stop.brood * ground.brood_g[stop.yard]
                key = (ground.kinds[stop.yard], ground.watched[stop.yard])
                columns[key] = columns.get(key, 0) + stop.boxes + stop.brood
        load_g = (
            boxes_g + -(-ml * outfit.feed.density_g_per_l // 1000) + tank_g + blocks * kit.block_g
            + boards * kit.board_g + strips * kit.strip_g + feeders * kit.feeder_g
        )  # fmt: skip
        places = tank_places - (-boards // kit.boards_per_place) - (-blocks // kit.blocks_per_place)
        places -= -feeders // kit.feeders_per_place
        for (kind, _), count in columns.items():
            if not high[kind]:
                return None
            places += -(-count // high[kind])
        lets_in = limit
        if i:
            lets_in = min(lets_in, into[trip[i - 1].yard])
        if i < len(trip):
            lets_in = min(lets_in, into[trip[i].yard])
        if load_g > lets_in or places > room or not ground.haulers[hauler].axles_hold(load_g):
            return None
        legs.append(Leg(boxes, brood, ml, blocks, boards, strips, feeders, load_g, places))
    return tuple(legs)
