"""Whoever mixes syrup: sugar and water for each stretch of mixing, in the order of work."""

from dataclasses import dataclass

from runplanner.daybook.plan import Mixing, Plan
from runplanner.days import Span, day_of
from runplanner.outfit.stores import Feed
from runplanner.paperwork.escape import shown
from runplanner.paperwork.sheet.frame import blank, box, office_page, section, whole
from runplanner.paperwork.sheet.page import Html, bullets, el, put, table
from runplanner.paperwork.speech.say import (
    count,
    date_words,
    kg_up,
    listed,
    litres_up,
    nearest_tenth,
    person_name,
    stretch,
)
from runplanner.paperwork.speech.tongue import said, tr
from runplanner.paperwork.stop.alone import alone
from runplanner.trade.feeding import batches, sugar_for_g, water_for_ml
from runplanner.trade.syrup import crystals, water_kg_m3

# Sugar in 25 kg bags: common practice, no source found.
BAG_G = 25_000
HUNDRED_L_ML = 100_000


@dataclass(frozen=True, slots=True)
class Mix:
    """One stretch of mixing; amounts round up, so that no feed falls short.

    ``alone`` says when whoever mixes is alone at the store; empty where somebody is there.
    """

    date: str
    hours: str
    who: str
    litres: str
    sugar: str
    bags: str
    water: str
    fillings: str
    alone: str


def mixes(plan: Plan) -> tuple[Mix, ...]:
    """Return every stretch of mixing in order of time."""
    return tuple(_mix(plan, one) for one in sorted(plan.mixing, key=lambda one: one.start_min))


def _mix(plan: Plan, one: Mixing) -> Mix:
    feed = plan.outfit.feed
    sugar_g = sugar_for_g(one.ml, feed)
    return Mix(
        date=date_words(plan.outfit, day_of(one.start_min)),
        hours=stretch(one.start_min, one.end_min),
        who=person_name(plan.outfit, one.person),
        litres=litres_up(one.ml),
        sugar=f"{kg_up(sugar_g)} kg",
        bags=bags_words(sugar_g),
        water=litres_up(water_for_ml(one.ml, feed)),
        fillings=_fillings(one.ml, feed),
        alone=_alone(plan, one),
    )


def bags_words(grams: int) -> str:
    """Return whole bags and what is weighed besides: ``3 + 12 kg``; the rest rounds up."""
    bags, rest = divmod(grams, BAG_G)
    more = kg_up(rest)
    if more * 1000 >= BAG_G:
        bags, more = bags + 1, 0
    parts = (str(bags) if bags else "", f"{more} kg" if more else "")
    return " + ".join(filter(None, parts))


def _alone(plan: Plan, one: Mixing) -> str:
    spans = alone(plan, one)
    if spans == (Span(one.start_min, one.end_min),):
        return tr("alone")
    times = listed(tuple(stretch(*span) for span in spans))
    return tr("alone {times}", times=times) if times else ""


def _fillings(ml: int, feed: Feed) -> str:
    """Return how often the mixing tank is filled and with what; empty where once will do.

    All fillings are alike, but the last may be a few millilitres smaller.
    """
    each = batches(ml, feed.tank_ml) if feed.tank_ml else ()
    if len(each) < 2:
        return ""
    return tr(
        "{number} fillings, each of {litres}: {water} of water, {sugar} kg of sugar",
        number=len(each), litres=litres_up(each[0]),
        water=litres_up(water_for_ml(each[0], feed)), sugar=kg_up(sugar_for_g(each[0], feed)),
    )  # fmt: skip


def per_bag(feed: Feed) -> str:
    """Return the water that one bag of sugar takes, to the nearest tenth of a litre.

    A ratio is neither feed nor limit: rounding it one way would thin or thicken every batch.
    """
    grams = BAG_G * (1000 - feed.sugar_permille) / feed.sugar_permille
    return f"{nearest_tenth(round(grams / water_kg_m3(20.0) * 1000))} L"


def _order(feed: Feed) -> tuple[str, ...]:
    hundred = kg_up(sugar_for_g(HUNDRED_L_ML, feed))
    water = litres_up(water_for_ml(HUNDRED_L_ML, feed))
    return (
        tr(
            "Water first, hot and fit to drink. Weigh or meter it: no guessing by eye. Hot syrup "
            "scalds and sticks: gloves, and somebody within call."
        ),
        tr(
            "Then sugar, bag by bag, stirring: {water} of water to each bag of 25 kg.",
            water=per_bag(feed),
        ),
        tr("Stir or pump round until it is clear and no grain lies on the bottom."),
        tr(
            "Check: every 100 L of syrup take {sugar} kg of sugar and {water} of water.",
            sugar=hundred,
            water=water,
        ),
        tr(
            "Cover it and wipe up spills: no bee may find it. Write mix, date and litres on the "
            "tank."
        ),
    )


def mixing_page(plan: Plan) -> str:
    """Return the sheet as a page, one row to tick for each stretch."""
    feed, found = plan.outfit.feed, mixes(plan)
    warned = crystals(feed.sugar_permille)
    name = shown(said(feed.name), 60)
    if not found:
        bought = tr("Syrup is bought ready-made.") + " " if feed.bought else ""
        words = bought + tr("Nothing is mixed.")
        return office_page(plan, tr("Mixing sheet"), "", el("p", words))
    steps = [put(box(), line) for line in _order(feed)]
    return office_page(
        plan,
        tr("Mixing sheet"),
        name,
        section(tr("Mix"), _table(found), _if_alone(found), _sums(plan)),
        section(
            tr("Order of work"),
            el("ol", *(el("li", step) for step in steps), cls="steps"),
            bullets((said(warned),) if warned else (), cls="marked"),
            cls="kept",
        ),
    )


def _table(found: tuple[Mix, ...]) -> Html:
    heads = (
        tr("Done"), tr("When"), tr("Who"), tr("Water"), tr("Sugar"), tr("Bags of 25 kg"),
        tr("Makes"), tr("Mixed"),
    )  # fmt: skip
    return table(
        heads,
        [
            (
                box(),
                put(el("b", whole(one.date)), " ", whole(one.hours), _below(one.fillings)),
                put(one.who, _below(one.alone)),
                el("b", whole(one.water), cls="big"),
                el("b", whole(one.sugar), cls="big"),
                whole(one.bags),
                whole(one.litres),
                blank(),
            )
            for one in found
        ],
        cls="mix",
    )


def _if_alone(found: tuple[Mix, ...]) -> Html:
    """Return what whoever is alone at the store needs, or nothing."""
    if not any(one.alone for one in found):
        return Html("")
    words = tr("Alone at the store: have somebody within call, phone in the pocket.")
    return el("p", el("b", words))


def _below(words: str) -> Html:
    """Return words on a line of their own, or nothing."""
    return el("p", el("b", words)) if words else Html("")


def _sums(plan: Plan) -> Html:
    ml = sum(one.ml for one in plan.mixing)
    feed = plan.outfit.feed
    words = tr(
        "In all {stretches}: {litres} from {sugar} kg of sugar and {water} of water; each row is "
        "rounded up by itself.",
        stretches=count(len(plan.mixing), "stretch", "stretches"), litres=litres_up(ml),
        sugar=kg_up(sugar_for_g(ml, feed)), water=litres_up(water_for_ml(ml, feed)),
    )  # fmt: skip
    return el("p", words, cls="last")
