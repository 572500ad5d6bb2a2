"""The campaign's shopping list: what this plan uses, rounded the way people buy it."""

from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job, Shift, Trip
from runplanner.days import day_of
from runplanner.outfit.stores import BoxKind
from runplanner.outfit.trucks import Deck
from runplanner.outfit.yards import Health
from runplanner.paperwork.escape import shown
from runplanner.paperwork.events import actions
from runplanner.paperwork.frame import box, office_page, whole
from runplanner.paperwork.mixing_sheet import BAG_G
from runplanner.paperwork.page import Part, el, table
from runplanner.paperwork.say import count, date_words, kg_down, kg_up, litres_down, litres_up
from runplanner.trade.feeding import sugar_for_g, water_for_ml


@dataclass(frozen=True, slots=True)
class Item:
    """One thing to buy or have ready.

    ``need`` is what the plan uses, ``buy`` what to get, ``by`` the first day it is used.
    """

    what: str
    need: str
    buy: str
    by: str
    note: str


def shopping(plan: Plan) -> tuple[Item, ...]:
    """Return the list; things the plan does not use are left out."""
    found = (*_syrup(plan), _blocks(plan), _strips(plan), _lids(plan))
    return tuple(item for item in found if item is not None)


def poured_ml(plan: Plan) -> int:
    """Return the syrup the plan pours."""
    return sum(action.ml for _, action in actions(plan, Job.FEED))


def _first(plan: Plan, *jobs: Job) -> str:
    days = [day_of(stop.call.start_min) for job in jobs for stop, _ in actions(plan, job)]
    return date_words(plan.outfit, min(days)) if days else ""


def _syrup(plan: Plan) -> list[Item]:
    feed, poured = plan.outfit.feed, poured_ml(plan)
    if not poured:
        return []
    name = shown(feed.name, 40)
    ready = f"{litres_down(feed.ready_ml)} stand ready" if feed.ready_ml else ""
    lacking = max(0, poured - feed.ready_ml)
    if feed.bought:
        buy = f"{litres_up(lacking)} more" if lacking else "nothing more"
        made = "" if "ready" in name.lower() else ", ready made"
        return [Item(f"Syrup {name}{made}", litres_up(poured), buy, _first(plan, Job.FEED), ready)]
    buy = f"mix {litres_up(sum(one.ml for one in plan.mixing))}"
    syrup = Item(f"Syrup {name}", litres_up(poured), buy, _first(plan, Job.FEED), ready)
    return [syrup, *_sugar(plan)]


def _sugar(plan: Plan) -> list[Item]:
    feed = plan.outfit.feed
    mixed = sum(one.ml for one in plan.mixing)
    if not mixed:
        return []
    first = date_words(plan.outfit, day_of(min(one.start_min for one in plan.mixing)))
    sugar_g = sugar_for_g(mixed, feed)
    bags = -(-sugar_g // BAG_G)
    stock = f"{kg_down(feed.sugar_g)} kg in stock or on order" if feed.sugar_g is not None else ""
    buy = f"{count(bags, 'bag')} of 25 kg = {kg_up(bags * BAG_G)} kg"
    return [
        Item("Sugar", f"{kg_up(sugar_g)} kg", buy, first, stock),
        Item(
            "Water", litres_up(water_for_ml(mixed, feed)), "from the tap, fit to drink", first, ""
        ),
    ]


def _blocks(plan: Plan) -> Item | None:
    need = sum(action.pieces for _, action in actions(plan, Job.BLOCK))
    if not need:
        return None
    kit = plan.outfit.kit
    weight = f"{kg_up(need * kit.block_g)} kg"
    note = f"of {kit.blocks_owned} to be had"
    return Item(
        "Fondant blocks", f"{need} ({weight})", count(need, "block"), _first(plan, Job.BLOCK), note
    )


def _strips(plan: Plan) -> Item | None:
    need = sum(action.pieces for _, action in actions(plan, Job.STRIPS))
    if not need:
        return None
    kind = plan.outfit.strips
    buy = need if kind.stock is None else max(0, need - kind.stock)
    note = "" if kind.stock is None else f"{kind.stock} in stock or on order"
    note += "; " * bool(note) + "in full packs, as your vet or local law allows"
    return Item(
        f"Strips ({shown(kind.substance, 32)})",
        str(need),
        f"{buy} or more",
        _first(plan, Job.STRIPS),
        note,
    )


def _lids(plan: Plan) -> Item | None:
    """A lid and a floor for every stack of honey boxes that may stand on a deck at once."""
    most, first = 0, ""
    for day in sorted({shift.day for shift in plan.shifts}):
        stacks = sum(
            max((_stacks(plan, trip, _decks(plan, shift)) for trip in shift.trips), default=0)
            for shift in plan.shifts
            if shift.day == day
        )
        first = first or (date_words(plan.outfit, day) if stacks else "")
        most = max(most, stacks)
    if not most:
        return None
    note = "the most stacks aboard at one time; bees must not reach honey"
    return Item("Lids or covers for stacks", str(most), f"{most}, and as many floors", first, note)


def _stacks(plan: Plan, trip: Trip, decks: tuple[Deck, ...]) -> int:
    boxes: dict[tuple[str, Health], int] = {}
    for call in trip.yards():
        yard = plan.outfit.yard(call.yard)
        kind = (yard.box, yard.health)
        boxes[kind] = boxes.get(kind, 0) + sum(action.boxes for action in call.actions)
    return sum(
        -(-number // _high(plan.outfit.box(kind), decks)) for (kind, _), number in boxes.items()
    )


def _high(kind: BoxKind, decks: tuple[Deck, ...]) -> int:
    """Return how many boxes high a stack may stand on the lowest of the decks."""
    return max(1, min(min(deck.stack_boxes, deck.stack_mm // kind.height_mm) for deck in decks))


def _decks(plan: Plan, shift: Shift) -> tuple[Deck, ...]:
    outfit = plan.outfit
    truck = [one.deck for one in outfit.trucks if one.id == shift.truck]
    return (*truck, *(one.deck for one in outfit.trailers if one.id == shift.trailer))


def shopping_page(plan: Plan) -> str:
    """Return the list as a page with a tick box for each thing."""
    items = shopping(plan)
    if not items:
        return office_page(plan, "Shopping list", "", el("p", "This plan uses nothing up."))
    lines: list[tuple[Part, ...]] = [
        (box(), el("b", one.what), one.need, el("b", one.buy), whole(one.by), one.note)
        for one in items
    ]
    heads = ("Got", "What", "The plan uses", "Buy or have", "First used", "")
    return office_page(plan, "Shopping list", "whole campaign", table(heads, lines))
