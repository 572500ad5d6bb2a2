"""Goods aboard, counted by hand from the jobs of a trip: mass, deck places, containers."""

from collections.abc import Sequence

from runplanner.daybook.trip import Aboard, CallKind, Job
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.trucks import Deck
from runplanner.outfit.yards import Health
from tests.season.hand_clock import Outing, Visit, stations, total, up
from tests.season.hand_strips import strips_g


def columns(deck: Deck, long: int, wide: int) -> int:
    """Footprints that stand on a deck, the better way round."""
    return max(
        (deck.length_mm // a) * (deck.width_mm // b) for a, b in ((long, wide), (wide, long))
    )


def container_sets(outfit: Outfit, ml: int, kinds: int | None = None) -> list[tuple[int, ...]]:
    """Every set of containers that holds ``ml`` without one to spare."""
    number = len(outfit.containers) if kinds is None else kinds
    if number == 0:
        return [()] if ml <= 0 else []
    kind = outfit.containers[number - 1]
    found = []
    for count in range(min(kind.owned, up(max(0, ml), kind.holds_ml)) + 1):
        found += [
            (*rest, count)
            for rest in container_sets(outfit, ml - count * kind.holds_ml, number - 1)
        ]
    return found


def aboard(
    outfit: Outfit, outing: Outing, trip: Sequence[Visit], tanks: Sequence[int], number: int
) -> Aboard:
    """What is on the truck when it leaves call ``number``."""
    calls = stations(outfit, trip, outing.day)
    done = [v for _, _, v in calls[: number + 1] if v is not None]
    todo = [v for _, _, v in calls[number + 1 :] if v is not None]
    emptied = {place for kind, place, _ in calls[: number + 1] if kind is CallKind.UNLOAD}
    over = number == len(calls) - 1
    honey = [] if outfit.honey_house.base.place in emptied else done
    brood = [] if outfit.feed_store.place in emptied else done
    moved = total(done, "boards_off") - total(done, "pieces", Job.BOARDS)
    small = {
        "ml": total(todo, "ml"),
        "blocks": total(todo, "pieces", Job.BLOCK),
        "boards": 0 if over else boards_loaded(trip) + moved,
        "strips": total(todo, "pieces", Job.STRIPS),
        "feeders": total(todo, "feeders"),
    }
    return Aboard(
        boxes=total(honey, "boxes"),
        brood_boxes=total(brood, "brood_boxes"),
        **small,
        load_g=_load_g(outfit, honey, brood, small, tanks) + strips_g(outfit, todo),
        load_max_g=_load_max_g(outfit, outing),
        places=_places(outfit, _decks(outing), _foot(outfit, trip), (honey, brood), small, tanks),
        places_max=sum(columns(d, *_foot(outfit, trip)) for d in _decks(outing)),
    )


def boards_loaded(trip: Sequence[Visit]) -> int:
    """Boards to set out with, so that there are always enough aboard."""
    have = short = 0
    for visit in trip:
        have += total([visit], "boards_off") - total([visit], "pieces", Job.BOARDS)
        short = min(short, have)
    return -short


def _load_g(
    outfit: Outfit,
    honey: Sequence[Visit],
    brood: Sequence[Visit],
    small: dict[str, int],
    tanks: Sequence[int],
) -> int:
    kit = outfit.kit
    grams = sum(total([v], "boxes") * outfit.yard(v.yard).box_g for v in honey)
    grams += sum(
        total([v], "brood_boxes") * 2 * outfit.box(outfit.yard(v.yard).box).empty_g for v in brood
    )
    grams += sum(n * kind.empty_g for n, kind in zip(tanks, outfit.containers, strict=True))
    grams += up(small["ml"] * outfit.feed.density_g_per_l, 1000)
    each = {
        "blocks": kit.block_g,
        "boards": kit.board_g,
        "feeders": kit.feeder_g,
    }
    return grams + sum(small[name] * g for name, g in each.items())


def _load_max_g(outfit: Outfit, outing: Outing) -> int:
    truck, trailer = outing.truck, outing.trailer
    own = truck.empty_g + truck.fuel_g + truck.kit_g + len(outing.crew) * outfit.person_g
    if trailer is None or truck.train_max_g is None:
        return truck.max_g - own
    return min(
        truck.max_g - own + trailer.max_g - trailer.empty_g,
        truck.train_max_g - own - trailer.empty_g,
    )


def _decks(outing: Outing) -> list[Deck]:
    return [outing.truck.deck, *([outing.trailer.deck] if outing.trailer else [])]


def _foot(outfit: Outfit, trip: Sequence[Visit]) -> tuple[int, int]:
    aboard_kinds = [
        outfit.box(outfit.yard(v.yard).box)
        for v in trip
        if total([v], "boxes") + total([v], "brood_boxes")
    ]
    kind = max(aboard_kinds or outfit.boxes, key=lambda k: k.length_mm * k.width_mm)
    return kind.length_mm, kind.width_mm


def _places(
    outfit: Outfit,
    decks: Sequence[Deck],
    foot: tuple[int, int],
    boxes: tuple[Sequence[Visit], Sequence[Visit]],
    small: dict[str, int],
    tanks: Sequence[int],
) -> int:
    """The columns taken by containers, small goods, and boxes (honey, brood)."""
    (long, wide), (honey, brood) = foot, boxes
    kit, places = outfit.kit, 0
    for n, tank in zip(tanks, outfit.containers, strict=True):
        a, b = tank.length_mm, tank.width_mm
        places += n * min(up(a, long) * up(b, wide), up(a, wide) * up(b, long))
    places += up(small["boards"], kit.boards_per_place) + up(small["blocks"], kit.blocks_per_place)
    places += up(small["feeders"], kit.feeders_per_place)
    piles: dict[tuple[str, bool], int] = {}
    for visits, field in ((honey, "boxes"), (brood, "brood_boxes")):
        for v in visits:
            yard = outfit.yard(v.yard)
            key = (yard.box, yard.health is Health.WATCH)
            piles[key] = piles.get(key, 0) + total([v], field)
    for (kind, _), count in piles.items():
        tall = outfit.box(kind).height_mm
        places += up(count, min(min(d.stack_boxes, d.stack_mm // tall) for d in decks))
    return places
