"""The honey house's register of boxes taken off: each load's lots, to count and tick.

A lot is one yard's boxes of one day.  Boxes of a watched yard stand in a table of their
own, so that nobody stacks them in with the rest; those not spun yet of a suspect one, and
those that were on when strips went in, in others.
"""

from dataclasses import dataclass
from itertools import groupby

from runplanner.daybook.plan import Plan
from runplanner.days import clock, day_of
from runplanner.outfit.safety import typed_box_g
from runplanner.paperwork.escape import shown
from runplanner.paperwork.lists.held import is_closed
from runplanner.paperwork.sheet.frame import blank, box, office_page, section, whole
from runplanner.paperwork.sheet.page import Html, Part, bullets, el, table
from runplanner.paperwork.speech.say import (
    count,
    date_words,
    kg_down,
    kg_up,
    vehicle_name,
    yard_named,
)
from runplanner.paperwork.speech.tongue import tr
from runplanner.paperwork.stop.honey import Lot, lots
from runplanner.trade.boxes import HAND_LIMIT_G


@dataclass(frozen=True, slots=True)
class LotLine:
    """One yard's boxes of a load."""

    lot: str
    yard: str
    boxes: int
    kg: int


@dataclass(frozen=True, slots=True)
class Load:
    """One truck's arrival; ``apart`` are the lots that are stacked by themselves.

    ``held`` are those that are not to be spun, for their yard turned suspect; ``treated`` those
    for strips were in.
    """

    head: str
    trip: str
    boxes: int
    lots: tuple[LotLine, ...]
    apart: tuple[LotLine, ...]
    held: tuple[LotLine, ...]
    treated: tuple[LotLine, ...]


def loads(plan: Plan) -> tuple[Load, ...]:
    """Return every load in the order in which it arrives."""
    return tuple(
        _load(plan, trip, tuple(group))
        for trip, group in groupby(lots(plan), key=lambda lot: lot.trip)
    )


def _load(plan: Plan, trip: str, found: tuple[Lot, ...]) -> Load:
    first = found[0]
    when = f"{date_words(plan.outfit, day_of(first.here_min))} {clock(first.here_min)}"
    return Load(
        head=f"{when}, {vehicle_name(plan.outfit, first.truck)}",
        trip=shown(trip, 80),
        boxes=sum(lot.boxes for lot in found),
        lots=tuple(_line(plan, lot) for lot in found if not (lot.apart or lot.held)),
        apart=tuple(_line(plan, lot) for lot in found if lot.apart and not lot.held),
        held=tuple(_line(plan, lot) for lot in found if lot.held and is_closed(plan, lot)),
        treated=tuple(_line(plan, lot) for lot in found if lot.held and not is_closed(plan, lot)),
    )


def _line(plan: Plan, lot: Lot) -> LotLine:
    kg = kg_up(lot.boxes * typed_box_g(plan.outfit, lot.yard))
    return LotLine(lot.code, yard_named(plan.outfit, lot.yard), lot.boxes, kg)


def register_page(plan: Plan) -> str:
    """Return the register as a page, a section for each load."""
    found = loads(plan)
    head = tr("Take-off register")
    if not found:
        return office_page(plan, head, "", el("p", tr("No honey boxes are brought in.")))
    notes = bullets((*_notes(), *_heavy(plan)), cls="marked")
    return office_page(plan, head, tr("honey house"), notes, *(_section(one) for one in found))


def _notes() -> tuple[str, ...]:
    return (
        tr("Count at the tail before a box is moved; a lot stays together until it is spun."),
        tr("Write the lot on every drum or bucket its honey goes into."),
        tr("A yard that turns out suspect is traced by this sheet: keep it with the honey."),
    )


def _heavy(plan: Plan) -> tuple[str, ...]:
    """Return a word on lifting where any box that comes in is over the usual guide."""
    most = max((plan.outfit.yard(lot.yard).box_g for lot in lots(plan)), default=0)
    if most <= HAND_LIMIT_G:
        return ()
    limit = kg_down(HAND_LIMIT_G)
    return (
        tr("Some boxes weigh over {limit} kg, a guide and no limit: lift with two.", limit=limit),
    )


def _section(load: Load) -> Html:
    parts: list[Part] = [_table(load.lots)] if load.lots else []
    if load.apart:
        parts += [el("p", el("b", tr("Stack and spin apart"), cls="mark")), _table(load.apart)]
    if load.held:
        words = tr("Do not spin: stack apart, ask the inspector")
        parts += [el("p", el("b", words, cls="mark")), _table(load.held)]
    if load.treated:
        words = tr("Do not spin: strips were in, not for people until label and vet say so")
        parts += [el("p", el("b", words, cls="mark")), _table(load.treated)]
    boxes = count(load.boxes, "box", "boxes")
    foot = (tr("{boxes} in all", boxes=boxes), tr("trip {trip}", trip=load.trip), tr("counted by"))
    signed = el("p", " \u00b7 ".join(foot), " ", blank())
    return section(load.head, *parts, signed, cls="kept")


def _table(lines: tuple[LotLine, ...]) -> Html:
    return table(
        (
            tr("In"),
            tr("Lot"),
            tr("Yard"),
            tr("Boxes"),
            tr("Counted"),
            tr("About"),
            tr("Weighed"),
            tr("Stands at"),
        ),
        [
            (
                box(),
                el("b", one.lot),
                el("b", one.yard),
                el("b", str(one.boxes), cls="big"),
                blank(),
                whole(f"{one.kg} kg"),
                blank(),
                blank(),
            )
            for one in lines
        ],
        cls="register",
    )
