"""The campaign's shopping list: what this plan uses, rounded the way people buy it."""

from collections import Counter
from dataclasses import dataclass

from runplanner.daybook.plan import Mixing, Plan
from runplanner.daybook.riding import BLOCKS, SYRUP, strips_of
from runplanner.daybook.stops import Stop
from runplanner.daybook.trip import Job, Shift, Trip
from runplanner.days import DAY_MIN, day_of
from runplanner.outfit.stores import BoxKind, Strips
from runplanner.outfit.trucks import Deck
from runplanner.outfit.yards import CLOSED, Health
from runplanner.paperwork.escape import shown
from runplanner.paperwork.lists.mixing_sheet import BAG_G
from runplanner.paperwork.lists.stock_now import Gone, beside_words, gone_now
from runplanner.paperwork.lists.strips_out import StripsOut, strips_out
from runplanner.paperwork.sheet.frame import box, office_page, whole
from runplanner.paperwork.sheet.page import Part, el, table
from runplanner.paperwork.speech.say import (
    count,
    date_words,
    kg_down,
    kg_up,
    litres_down,
    litres_up,
)
from runplanner.paperwork.speech.substances import called, kind_at
from runplanner.paperwork.speech.tongue import said, tr
from runplanner.paperwork.speech.trip_state import TripState, trip_state
from runplanner.paperwork.stop.cover import covers_at
from runplanner.paperwork.stop.decks import pulled
from runplanner.paperwork.stop.events import actions
from runplanner.trade.feeding import sugar_for_g, water_for_ml
from runplanner.trade.strips import given_twice
from runplanner.visits.due import due


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
    found = (*_syrup(plan), _blocks(plan), *_strips(plan), _lids(plan))
    return tuple(item for item in found if item is not None)


def poured_ml(plan: Plan) -> int:
    """Return the syrup the plan pours."""
    return sum(action.ml for _, action in actions(plan, Job.FEED))


def _first(plan: Plan, *jobs: Job) -> str:
    days = [day_of(stop.call.start_min) for job in jobs for stop, _ in actions(plan, job)]
    return date_words(plan.outfit, min(days)) if days else ""


def left_ml(plan: Plan) -> int:
    """Return the syrup that feed left undone would still take; none where health forbids it."""
    fed: dict[str, int] = {}
    for stop, action in actions(plan, Job.FEED):
        fed[stop.call.yard] = fed.get(stop.call.yard, 0) + action.ml
    yards = {one.yard for one in plan.undone if one.job is Job.FEED}
    total = 0
    for yard in (one for one in plan.outfit.yards if one.id in yards):
        todo = due(plan.outfit, yard)
        total += max(0, yard.colonies * todo.rounds * todo.round_ml - fed.get(yard.id, 0))
    return total


def _syrup(plan: Plan) -> list[Item]:
    feed, poured = plan.outfit.feed, poured_ml(plan)
    if not poured and not _syrup_short(plan):
        return _sugar(plan)
    name = shown(said(feed.name), 40)
    ready = _standing(plan)
    lacking = max(0, poured - feed.ready_ml)
    if feed.bought:
        buy = tr("{litres} more", litres=litres_up(lacking)) if lacking else tr("nothing more")
        if plan.outfit.open_end(SYRUP) and poured > (gone := gone_now(plan, SYRUP).all):
            buy = litres_up(poured - gone)
        buy = _with_short(buy, litres_up(short) if (short := _syrup_short(plan)) else "")
        what = tr("Syrup {name}", name=name)
        if "ready" not in feed.name.lower():
            what = tr("Syrup {name}, ready made", name=name)
        return [Item(what, litres_up(poured), buy, _first(plan, Job.FEED), ready)]
    buy = tr("mix {litres}", litres=litres_up(sum(one.ml for one in plan.mixing)))
    what = tr("Syrup {name}", name=name)
    syrup = Item(what, litres_up(poured), buy, _first(plan, Job.FEED), ready)
    return [syrup, *_sugar(plan)]


def _standing(plan: Plan) -> str:
    """Return what syrup stands ready in store now, beside what is aboard and used; "" without any.

    Nor is anything said of bought syrup of which nobody told how much there is.
    """
    feed, now, gone = plan.outfit.feed, plan.now_min, gone_now(plan, SYRUP)
    if plan.outfit.open_end(SYRUP):
        return ""
    mixed = plan.mixed_ml(now)
    there = litres_down(max(0, feed.ready_ml + mixed - gone.all))
    if gone.all:
        beside = beside_words(*(litres_up(one) if one else "" for one in gone))
        return tr("{litres} stand ready, {beside}", litres=there, beside=beside)
    return tr("{litres} stand ready", litres=there) if feed.ready_ml or mixed else ""


def _mixed(plan: Plan) -> list[Mixing]:
    """Return the mixing that has begun by now."""
    return [one for one in plan.mixing if 0 < plan.now_min and one.start_min <= plan.now_min]


def _loaded(plan: Plan, stop: Stop) -> bool:
    """Tell whether what a stop takes has left the store by now."""
    return trip_state(plan, stop.trip) is not TripState.TO_LOAD


def _in_stock(amount: str, used: str, aboard: str = "") -> str:
    """Return what is in store now; the list counts what is aboard or used by now as well."""
    if not used and not aboard:
        return tr("{amount} in stock or on order", amount=amount)
    beside = beside_words(used, aboard)
    return tr("{amount} in stock or on order, {beside}", amount=amount, beside=beside)


def _pieces_in_stock(owned: int, gone: Gone) -> str:
    return _in_stock(str(max(0, owned - gone.all)), *(str(one) if one else "" for one in gone))


def _with_short(words: str, short: str) -> str:
    """Return what to buy for the plan, or have, with what the work that it leaves is short of."""
    if not short:
        return words
    return tr("{words}; for what is left undone {amount} more", words=words, amount=short)


def _syrup_short(plan: Plan) -> int:
    """Return the bought syrup, in ml, short for the feed left undone beyond what the plan buys."""
    feed = plan.outfit.feed
    if not feed.bought or plan.outfit.open_end(SYRUP):
        return 0
    return max(0, left_ml(plan) - max(0, feed.ready_ml - poured_ml(plan)))


def _sugar_short(plan: Plan) -> int:
    """Return the sugar, in grams, that a stock is short of for the feed left undone."""
    feed = plan.outfit.feed
    if feed.bought or feed.sugar_g is None:
        return 0
    used = sugar_for_g(max(0, poured_ml(plan) - feed.ready_ml), feed)
    return max(0, _sugar_wanted(plan) - max(used, feed.sugar_g))


def _sugar_wanted(plan: Plan) -> int:
    """Return the sugar, in grams, of all feed, also of what is left undone."""
    feed = plan.outfit.feed
    return sugar_for_g(max(0, poured_ml(plan) + left_ml(plan) - feed.ready_ml), feed)


def _sugar(plan: Plan) -> list[Item]:
    feed = plan.outfit.feed
    mixed, short = sum(one.ml for one in plan.mixing), _sugar_short(plan)
    if not mixed and not short:
        return []
    sugar_g = sugar_for_g(mixed, feed)
    gone_g = sugar_for_g(sum(one.ml for one in _mixed(plan)), feed)
    bags = -(-max(0, sugar_g - (gone_g if feed.sugar_g is None else feed.sugar_g)) // BAG_G)
    stock = ""
    if feed.sugar_g is not None:
        there, gone = kg_down(max(0, feed.sugar_g - gone_g)), kg_up(gone_g)
        stock = _in_stock(f"{there} kg", f"{gone} kg" if gone_g else "")
        stock = _with_short(stock, f"{kg_up(short)} kg" if short else "")
        if short:
            wanted = kg_up(_sugar_wanted(plan))
            stock = tr("{words}, {mass} kg needed in all", words=stock, mass=wanted)
    need = f"{kg_up(sugar_g)} kg"
    whole_bags, kg = count(bags, "bag", "bags"), kg_up(bags * BAG_G)
    some = tr("{bags} of 25 kg = {mass} kg", bags=whole_bags, mass=kg)
    buy = some if bags else tr("nothing more")
    if not mixed:
        return [Item(tr("Sugar"), need, buy, "", stock)]
    first = date_words(plan.outfit, day_of(min(one.start_min for one in plan.mixing)))
    water, tap = litres_up(water_for_ml(mixed, feed)), tr("from the tap, fit to drink")
    return [
        Item(tr("Sugar"), need, buy, first, stock),
        Item(tr("Water"), water, tap, first, ""),
    ]


def _blocks(plan: Plan) -> Item | None:
    kit, used = plan.outfit.kit, list(actions(plan, Job.BLOCK))
    need = sum(action.pieces for _, action in used)
    gone = sum(action.pieces for stop, action in used if _loaded(plan, stop))
    typed = not plan.outfit.open_end(BLOCKS)
    short = max(0, _left_blocks(plan) - max(0, kit.blocks_owned - need)) if typed else 0
    if not need and not short:
        return None
    weight = f"{kg_up(need * kit.block_g)} kg"
    note = tr("of {number} to be had", number=kit.blocks_owned) if typed else ""
    if typed and (now := gone_now(plan, BLOCKS)).all:
        note = _pieces_in_stock(kit.blocks_owned, now)
    buy = count(need - gone, "block", "blocks") if need > gone else tr("nothing more")
    buy = _with_short(buy, tr("about {number}", number=short) if short else "")
    return Item(tr("Fondant blocks"), f"{need} ({weight})", buy, _first(plan, Job.BLOCK), note)


def _left_blocks(plan: Plan) -> int:
    """Return the blocks for colonies left on their boxes, if none has syrup the same day.

    And one for each whose cover ends while the campaign runs, but at yards that are closed; how
    many each wants until its syrup is not known here.
    """
    fed = [one for one in plan.undone if due(plan.outfit, plan.outfit.yard(one.yard)).rounds]
    on = sum(one.colonies for one in fed if one.job is Job.TAKE_OFF)
    bare = [plan.outfit.yard(one.yard) for one in fed if one.job is Job.BLOCK]
    end_min = plan.outfit.season.n_days * DAY_MIN
    return on * plan.outfit.rules.blocks + sum(
        one.colonies
        for yard in bare if yard.health not in CLOSED
        for one in covers_at(plan, yard) if one.runs_short() and one.ends_min < end_min
    )  # fmt: skip


def _strips(plan: Plan) -> list[Item]:
    """Return the strips of each substance, used or left out; its kinds have one stock."""
    used, left, gone = Counter[str](), Counter[str](), Counter[str]()
    kinds: dict[str, Strips] = {}
    first: dict[str, int] = {}
    for stop, action in actions(plan, Job.STRIPS):
        kind = kind_at(plan.outfit, stop.call.yard)
        kinds.setdefault(kind.substance, kind)
        first.setdefault(kind.substance, day_of(stop.call.start_min))
        used[kind.substance] += action.pieces
        gone[kind.substance] += action.pieces if _loaded(plan, stop) else 0
    for yard in (plan.outfit.yard(one.yard) for one in plan.undone if one.job is Job.STRIPS):
        kind = plan.outfit.strips_at(yard)
        kinds.setdefault(kind.substance, kind)
        pieces = yard.colonies * kind.per_colony if due(plan.outfit, yard).strips else 0
        twice = given_twice(kind.substance, typed=kind.twice)
        left[kind.substance] += 2 * pieces if twice else pieces
    found = (
        _strip(plan, kind, used[name], left[name], gone[name], first.get(name))
        for name, kind in kinds.items()
    )
    return [item for item in found if item is not None]


def _strip(
    plan: Plan, kind: Strips, need: int, left: int, gone: int, first: int | None
) -> Item | None:
    second = [one for one in strips_out(plan) if one.again and one.kind.substance == kind.substance]
    every = need + sum(one.again for one in second)
    buy, short = every - gone, 0
    notes = [_second(plan, need, second)] if second else []
    if kind.stock is not None:
        buy, short = max(0, every - kind.stock), max(0, left - max(0, kind.stock - every))
        notes.append(_pieces_in_stock(kind.stock, gone_now(plan, strips_of(kind.substance))))
    if not need and not short:
        return None
    words = tr("{number} or more", number=buy) if buy else tr("nothing more")
    return Item(
        tr("Strips ({substance})", substance=called(kind.substance)),
        str(need),
        _with_short(words, str(short) if short else ""),
        "" if first is None else date_words(plan.outfit, first),
        "; ".join((*notes, tr("in full packs, as your vet or local law allows"))),
    )


def _second(plan: Plan, need: int, second: list[StripsOut]) -> str:
    """Return how many strips more are for a second application, and when that is."""
    soonest, latest = min(one.due_day for one in second), max(one.last_day for one in second)
    return tr(
        "{number} at first, {again} more for the second application, {first} to {last}, which is "
        "no visit of this plan",
        number=need,
        again=sum(one.again for one in second),
        first=date_words(plan.outfit, soonest),
        last=date_words(plan.outfit, latest),
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
    note = tr("the most stacks aboard at one time; bees must not reach honey")
    buy = tr("{number}, and as many floors", number=most)
    return Item(tr("Lids or covers for stacks"), str(most), buy, first, note)


def _stacks(plan: Plan, trip: Trip, decks: tuple[Deck, ...]) -> int:
    boxes: dict[tuple[str, Health], int] = {}
    for call in trip.yards():
        yard = plan.outfit.yard(call.yard)
        kind = (yard.box, yard.health)
        boxes[kind] = boxes.get(kind, 0) + call.boxes()
    return sum(
        -(-number // _high(plan.outfit.box(kind), decks)) for (kind, _), number in boxes.items()
    )


def _high(kind: BoxKind, decks: tuple[Deck, ...]) -> int:
    """Return how many boxes high a stack may stand on the lowest of the decks."""
    return max(1, min(min(deck.stack_boxes, deck.stack_mm // kind.height_mm) for deck in decks))


def _decks(plan: Plan, shift: Shift) -> tuple[Deck, ...]:
    return tuple(one.deck for one in pulled(plan.outfit, shift) if one is not None)


def shopping_page(plan: Plan) -> str:
    """Return the list as a page with a tick box for each thing."""
    items, head = shopping(plan), tr("Shopping list")
    if not items:
        return office_page(plan, head, "", el("p", tr("This plan uses nothing up.")))
    lines: list[tuple[Part, ...]] = [
        (box(), el("b", one.what), whole(one.need), el("b", one.buy), whole(one.by), one.note)
        for one in items
    ]
    heads = (tr("Got"), tr("What"), tr("The plan uses"), tr("Buy or have"), tr("First used"), "")
    return office_page(plan, head, tr("whole campaign"), table(heads, lines))
