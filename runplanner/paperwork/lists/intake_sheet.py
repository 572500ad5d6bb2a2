"""The honey house's paper for one day: what arrives, what is spun in which order."""

from dataclasses import dataclass
from itertools import groupby
from operator import itemgetter

from runplanner.daybook.plan import Plan, Spinning
from runplanner.days import DAY_MIN, clock, day_of
from runplanner.outfit.safety import typed_box_g
from runplanner.paperwork.lists.held import held_part
from runplanner.paperwork.sheet.frame import blank, box, kept, office_page, section, whole
from runplanner.paperwork.sheet.page import Html, Part, el, table
from runplanner.paperwork.speech.say import (
    count,
    date_words,
    kg_up,
    moment,
    people_names,
    stretch,
    vehicle_name,
    yard_named,
)
from runplanner.paperwork.speech.tongue import tr, trn
from runplanner.paperwork.stop.honey import Lot, all_starts, lots, standing

# A day is three words, such as Thu 4 Mar; an hour may stand below it.
DAY_BLANKS = 2


@dataclass(frozen=True, slots=True)
class Arrival:
    """One lot arriving; ``apart``: it is stacked apart; ``held``: and not to be spun."""

    at: str
    truck: str
    lot: str
    yard: str
    boxes: int
    kg: int
    spin_by: str
    apart: bool
    held: bool


@dataclass(frozen=True, slots=True)
class SpinLine:
    """Boxes of one lot spun one after the other; ``late`` when after their time."""

    start: str
    lot: str
    yard: str
    boxes: int
    left: int
    spin_by: str
    late: bool
    apart: bool


@dataclass(frozen=True, slots=True)
class Intake:
    """One day at the honey house."""

    day: int
    date: str
    standing: int
    room: int
    arrivals: tuple[Arrival, ...]
    crews: tuple[str, ...]
    spins: tuple[SpinLine, ...]


def intake(plan: Plan, day: int) -> Intake:
    """Return the sheet of ``day``."""
    found = lots(plan)
    house = plan.outfit.honey_house
    return Intake(
        day=day,
        date=date_words(plan.outfit, day),
        standing=standing(plan, day * DAY_MIN),
        room=house.room_boxes,
        arrivals=tuple(_arrival(plan, lot) for lot in found if day_of(lot.arrive_min) == day),
        crews=tuple(
            _crew(plan, one)
            for one in sorted(plan.spinning, key=lambda one: one.start_min)
            if day_of(one.start_min) == day
        ),
        spins=(*_from_before(plan, day), *_spins(plan, found, day)),
    )


def _crew(plan: Plan, one: Spinning) -> str:
    who, when = people_names(plan.outfit, one.people), stretch(one.start_min, one.end_min)
    return f"{who} {when}: {count(one.boxes, 'box', 'boxes')}"


def intake_days(plan: Plan) -> tuple[int, ...]:
    """Return the days on which boxes arrive or are spun."""
    arriving = {day_of(lot.arrive_min) for lot in lots(plan)}
    return tuple(sorted(arriving | {day_of(one.start_min) for one in plan.spinning}))


def _arrival(plan: Plan, lot: Lot) -> Arrival:
    return Arrival(
        at=clock(lot.here_min),
        truck=vehicle_name(plan.outfit, lot.truck),
        lot=lot.code,
        yard=yard_named(plan.outfit, lot.yard),
        boxes=lot.boxes,
        kg=kg_up(lot.boxes * typed_box_g(plan.outfit, lot.yard)),
        spin_by=_spin_by(plan, lot),
        apart=lot.apart,
        held=lot.held > 0,
    )


def _spin_by(plan: Plan, lot: Lot) -> str:
    by = moment(plan.outfit, lot.spin_by_min)
    return tr("{when}, spoils after", when=by) if lot.hard else by


def _from_before(plan: Plan, day: int) -> list[SpinLine]:
    """Return the boxes that stood in the house before the campaign and are spun today."""
    old = all_starts(plan)[: plan.outfit.honey_house.waiting_boxes]
    today = [start for start in old if day_of(start) == day]
    if not today:
        return []
    left = len(old) - old.index(today[-1]) - 1
    start = clock(today[0])
    here = tr("here before")
    return [SpinLine(start, "", here, len(today), left, "", late=False, apart=False)]


def _spins(plan: Plan, found: tuple[Lot, ...], day: int) -> list[SpinLine]:
    """Return what is spun today in the order of the hours: a lot held meanwhile comes twice."""
    in_turn = sorted((lot for lot in found if lot.starts), key=lambda lot: lot.starts[0])
    boxes = [(start, lot) for lot in in_turn for start in lot.starts if day_of(start) == day]
    lines = []
    for lot, run in groupby(sorted(boxes, key=itemgetter(0)), key=itemgetter(1)):
        today = [start for start, _ in run]
        done = sum(1 for start in lot.starts if start <= today[-1])
        line = SpinLine(
            start=clock(today[0]),
            lot=lot.code,
            yard=yard_named(plan.outfit, lot.yard),
            boxes=len(today),
            left=lot.boxes - done,
            spin_by=_spin_by(plan, lot),
            late=today[-1] > lot.spin_by_min,
            apart=lot.apart,
        )
        lines.append(line)
    return lines


def intake_page(plan: Plan, day: int) -> str:
    """Return the sheet of ``day`` as a page."""
    sheet = intake(plan, day)
    room = trn(
        "One full box stands here when the day begins; room for {room}",
        "{number} full boxes stand here when the day begins; room for {room}",
        sheet.standing, room=sheet.room,
    )  # fmt: skip
    return office_page(
        plan,
        tr("Honey house, {date}", date=sheet.date),
        room,
        held_part(plan, day),
        section(tr("Arrives"), _arrivals(sheet)),
        section(tr("Spin in this order"), _crews(sheet), _spin_table(sheet)),
        home="../index.html",
    )


def _arrivals(sheet: Intake) -> Html:
    if not sheet.arrivals:
        return el("p", tr("Nothing arrives."))
    heads = (
        tr("At"), tr("Truck"), tr("Lot and yard"), tr("Boxes"), tr("Counted"), tr("About"),
        tr("Spin by"),
    )  # fmt: skip
    return table(heads, [_arrival_cells(one) for one in sheet.arrivals])


def _arrival_cells(one: Arrival) -> tuple[Part, ...]:
    return (
        el("b", one.at),
        one.truck,
        _lot_cell(one.lot, one.yard, _mark(one)),
        el("b", str(one.boxes)),
        blank(),
        whole(f"{one.kg} kg"),
        el("b", kept(one.spin_by, DAY_BLANKS)),
    )


def _crews(sheet: Intake) -> Html:
    if not sheet.crews:
        return el("p", tr("Nobody spins."))
    return el("p", el("b", "; ".join(sheet.crews)))


def _spin_table(sheet: Intake) -> Part:
    if not sheet.spins:
        return ""
    heads = (
        tr("From"), tr("Lot and yard"), tr("Boxes"), tr("Left after"), tr("Spin by"), tr("Done"),
    )  # fmt: skip
    return table(heads, [_spin_cells(one) for one in sheet.spins])


def _spin_cells(one: SpinLine) -> tuple[Part, ...]:
    return (
        el("b", one.start),
        _lot_cell(one.lot, one.yard, _mark(one)),
        el("b", str(one.boxes)),
        str(one.left),
        el("b", tr("LATE: {when}", when=one.spin_by), cls="mark")
        if one.late
        else kept(one.spin_by, DAY_BLANKS),
        box(),
    )


def _mark(one: Arrival | SpinLine) -> str:
    if isinstance(one, Arrival) and one.held:
        return tr("do not spin, stack apart")
    return tr("stack and spin apart") if one.apart else ""


def _lot_cell(lot: str, yard: str, words: str) -> Html:
    mark = el("b", words, cls="mark") if words else ""
    return el("span", el("b", lot or yard), f" {yard} " if lot else "", mark)
