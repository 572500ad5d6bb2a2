"""What was aboard a driven truck on leaving each call, as the true counts make it."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from runplanner.changes.cargo.deck import Deck, Heap, deck_of
from runplanner.daybook.trip import Aboard, Action, Call, CallKind, Job, Shift, Trip
from runplanner.outfit.outfit import Outfit


@dataclass(slots=True)
class _Goods:
    """Goods on the truck; boxes by the yard they belong to.

    ``honey_g`` is the mass of full boxes, ``comb_g`` that of brood and of wet boxes.
    """

    boxes: dict[str, int] = field(default_factory=dict)
    brood: dict[str, int] = field(default_factory=dict)
    wet: dict[str, int] = field(default_factory=dict)
    honey_g: int = 0
    comb_g: int = 0
    ml: int = 0
    blocks: int = 0
    boards: int = 0
    strips: int = 0
    feeders: int = 0
    strips_g: int = 0

    def small_g(self, outfit: Outfit) -> int:
        """Return the mass of all that is not a box; boards that are short take none off."""
        kit = outfit.kit
        return (
            self.blocks * kit.block_g
            + max(0, self.boards) * kit.board_g
            + self.strips_g
            + self.feeders * kit.feeder_g
            - (-self.ml * outfit.feed.density_g_per_l // 1000)
        )

    def heap(self) -> Heap:
        """Return what takes deck places; boards that are short free none."""
        boards = max(0, self.boards)
        return Heap(self.boxes, self.brood, self.wet, boards, self.blocks, self.feeders)


def aboard(outfit: Outfit, shift: Shift, trip: Trip, calls: Sequence[Call]) -> tuple[Call, ...]:
    """Return ``calls`` with what was aboard on leaving each.

    What was not used counts as not loaded: it went back into the store.
    """
    deck = deck_of(outfit, shift, trip, calls)
    tanks_g = sum(one.count * outfit.container(one.container).empty_g for one in trip.containers)
    goods = _Goods(boards=trip.calls[0].after.boards)
    for call in calls:
        for action in call.actions:
            _use(outfit, goods, call, action, back=True)
    for call in (call for call in calls if call.kind is CallKind.YARD):
        _carry_wet(outfit, goods, call, Job.WET_UP, 1)
    found = []
    for call in calls:
        if call.kind is CallKind.YARD:
            _work(outfit, goods, call)
        elif call.kind is CallKind.UNLOAD:
            _unload(outfit, goods, call, last=call is calls[-1])
        load_g = tanks_g + goods.honey_g + goods.comb_g + goods.small_g(outfit)
        found.append(replace(call, after=_after(call.after, goods, load_g, deck)))
    return tuple(found)


def _use(outfit: Outfit, goods: _Goods, call: Call, action: Action, *, back: bool = False) -> None:
    """Take what a job uses off the truck, or put it back."""
    sign = 1 if back else -1
    goods.ml += sign * action.ml
    goods.feeders += sign * action.feeders
    if action.job is Job.BLOCK:
        goods.blocks += sign * action.pieces
    elif action.job is Job.STRIPS:
        goods.strips += sign * action.pieces
        goods.strips_g += sign * action.pieces * outfit.strip_g(outfit.yard(call.yard))


def _carry_wet(outfit: Outfit, goods: _Goods, call: Call, job: Job, sign: int) -> None:
    """Put the wet boxes of one job aboard, or take them off; comb counts as twice the empty."""
    boxes = sign * sum(action.wet for action in call.actions if action.job is job)
    _pile(goods.wet, call.yard, boxes)
    goods.comb_g += boxes * 2 * outfit.box(outfit.yard(call.yard).box).empty_g


def _pile(boxes: dict[str, int], yard: str, more: int) -> None:
    boxes[yard] = boxes.get(yard, 0) + more


def _work(outfit: Outfit, goods: _Goods, call: Call) -> None:
    yard = outfit.yard(call.yard)
    for action in call.actions:
        _use(outfit, goods, call, action)
        _pile(goods.boxes, yard.id, action.boxes)
        goods.honey_g += action.boxes * yard.box_g
        _pile(goods.brood, yard.id, action.brood_boxes)
        goods.comb_g += action.brood_boxes * 2 * outfit.box(yard.box).empty_g
        goods.boards += action.boards_off
        goods.boards -= action.pieces if action.job is Job.BOARDS else 0
        goods.feeders += action.feeders_off
    _carry_wet(outfit, goods, call, Job.WET_DOWN, 1)
    _carry_wet(outfit, goods, call, Job.WET_UP, -1)


def _unload(outfit: Outfit, goods: _Goods, call: Call, *, last: bool) -> None:
    if call.place == outfit.honey_house.base.place:
        goods.boxes, goods.honey_g = {}, 0
    if call.place == outfit.feed_store.place:
        goods.brood, goods.wet, goods.comb_g = {}, {}, 0
    if last:
        goods.boards = goods.feeders = 0


def _after(was: Aboard, goods: _Goods, load_g: int, deck: Deck | None) -> Aboard:
    return replace(
        was,
        boxes=sum(goods.boxes.values()),
        brood_boxes=sum(goods.brood.values()),
        ml=goods.ml,
        blocks=goods.blocks,
        boards=goods.boards,
        strips=goods.strips,
        feeders=goods.feeders,
        wet=sum(goods.wet.values()),
        load_g=load_g,
        places=deck.taken(goods.heap()) if deck else was.places,
        places_max=deck.places if deck else was.places_max,
    )
