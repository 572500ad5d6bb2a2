"""The map before it is drawn: cells, lines, bases and lists as plain values.

Words here are still raw: whoever puts them into a page passes them through the escaping
door.  Access notes, phone numbers and keys are not read at all.
"""

from dataclasses import dataclass, replace
from math import sqrt

from runplanner.daybook.plan import Plan
from runplanner.days import day_of
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Health, Yard
from runplanner.paperwork.map import notes
from runplanner.paperwork.map.cover import cover_of
from runplanner.paperwork.map.legs import Leg, legs, trips_on
from runplanner.paperwork.map.places import beside, same_spot, unrolled
from runplanner.paperwork.map.words import day_short
from runplanner.paperwork.map.work import Work, by_place, work_left
from runplanner.paperwork.speech.say import date_words
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.roads.sketch import Sketch

LEAST_PX, MOST_PX, DONE_PX, BASE_PX = 11.0, 27.0, 7.0, 17.0


@dataclass(frozen=True, slots=True)
class DaySheet:
    """A day with trips; ``look`` picks its colour and pattern, ``shown`` at the start."""

    day: int
    name: str
    short: str
    trips: str
    look: int
    shown: bool


@dataclass(frozen=True, slots=True)
class Cell:
    """A yard drawn as a comb cell.

    Args:
        name: What the user calls it.
        lat: Latitude.
        lon: Longitude, unrolled across the date line.
        step: Step aside in radii when another thing stands on the same spot.
        radius: Screen radius, area in proportion to the work left.
        fills: ``(day, share)`` of the work, first day first.
        undone: Share of the work that the plan leaves.
        health: State of health.
        site: "" for where the hives stand now, else from when they stand here.
        note: The one short line beside the name.
        alarm: Work is left undone here or cover runs out before syrup comes.
        lines: Sentences for whoever taps the cell.
    """

    name: str
    lat: float
    lon: float
    step: tuple[float, float]
    radius: float
    fills: tuple[tuple[int, float], ...]
    undone: float
    health: Health
    site: str
    note: str
    alarm: bool
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BaseMark:
    """Home, honey house or feed store, or two or all three of them on one spot."""

    name: str
    lat: float
    lon: float
    step: tuple[float, float]
    roles: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """All there is on the map; ``crowded`` where the roads round about are too many to draw."""

    outfit: Outfit
    days: tuple[DaySheet, ...]
    spots: tuple[tuple[float, float], ...]
    cells: tuple[Cell, ...]
    bases: tuple[BaseMark, ...]
    legs: tuple[Leg, ...]
    full_g: int
    most_work_s: int
    runs_out: tuple[str, ...]
    undone: tuple[str, ...]
    roads: Sketch | None = None
    crowded: bool = False


def sheet_of(plan: Plan, roads: Sketch | None = None) -> Sheet:
    """Return what the map of ``plan`` shows; ``roads`` are drawn where there are any."""
    work = work_left(plan)
    parts = {
        yard.id: by_place(yard, work[yard.id], day_of(plan.now_min)) for yard in plan.outfit.yards
    }
    most = max((part.total_s() for places in parts.values() for part in places.values()), default=0)
    spots = unrolled(plan.outfit.places)
    bases = _bases(plan.outfit, spots)
    return Sheet(
        outfit=plan.outfit,
        days=_days(plan),
        spots=spots,
        cells=_stepped(_cells(plan, work, parts, most, spots), bases),
        bases=bases,
        legs=tuple(leg for leg in legs(plan) if not same_spot(spots[leg.start], spots[leg.end])),
        full_g=_full_g(plan),
        most_work_s=most,
        runs_out=notes.runs_out(plan),
        undone=notes.undone(plan),
        roads=roads,
    )


def _days(plan: Plan) -> tuple[DaySheet, ...]:
    """Return the days with trips: all shown when they are few, else the next one alone."""
    numbers = sorted({shift.day for shift in plan.shifts if shift.trips})
    ahead = [day for day in numbers if day >= day_of(plan.now_min)] or numbers[-1:]
    shown = numbers if len(numbers) <= 3 else ahead[:1]
    return tuple(_day(plan, day, look, shown=day in shown) for look, day in enumerate(numbers))


def _day(plan: Plan, day: int, look: int, *, shown: bool) -> DaySheet:
    name, short = date_words(plan.outfit, day), day_short(plan.outfit, day)
    return DaySheet(day, name, short, trips_on(plan, day), look, shown)


def _full_g(plan: Plan) -> int:
    """Return the largest load limit met in the plan: the widest line on the map."""
    limits = (
        max(call.after.load_max_g, call.after.load_g)
        for shift in plan.shifts
        for trip in shift.trips
        for call in trip.calls
    )
    return max(limits, default=0)


def _bases(outfit: Outfit, spots: tuple[tuple[float, float], ...]) -> tuple[BaseMark, ...]:
    roles: dict[int, list[str]] = {}
    for role, place in (
        (mark("home"), outfit.home.place),
        (mark("honey house"), outfit.honey_house.base.place),
        (mark("feed store"), outfit.feed_store.place),
    ):
        roles.setdefault(place, []).append(role)
    steps = beside([spots[place] for place in roles])
    return tuple(
        BaseMark(outfit.places[place].name, *spots[place], step, tuple(named_roles))
        for (place, named_roles), step in zip(roles.items(), steps, strict=True)
    )


def _cells(
    plan: Plan,
    work: dict[str, Work],
    parts: dict[str, dict[int, Work]],
    most: int,
    spots: tuple[tuple[float, float], ...],
) -> tuple[Cell, ...]:
    """Return a cell where each yard stands today, and one at each place it moves to later."""
    made = []
    for yard in plan.outfit.yards:
        (here, part), *later = parts[yard.id].items()
        cover = cover_of(plan, yard)
        now = replace(
            _cell(yard, part, most, spots[here]),
            note=notes.note(plan, yard, cover),
            alarm=notes.alarm(plan, yard, cover),
            lines=notes.lines(plan, yard, work[yard.id], cover),
        )
        made.append(now)
        made += [
            _later_site(plan, yard, place, _cell(yard, there, most, spots[place]))
            for place, there in later
        ]
    return tuple(made)


def _cell(yard: Yard, work: Work, most: int, spot: tuple[float, float]) -> Cell:
    """Return the cell of what is to do at one place of a yard, without words yet."""
    total = work.total_s()
    return Cell(
        name=yard.name,
        lat=spot[0],
        lon=spot[1],
        step=(0.0, 0.0),
        radius=radius(total, most),
        fills=tuple((day, seconds / total) for day, seconds in work.by_day),
        undone=work.undone_s / total if total else 0.0,
        health=yard.health,
        site="",
        note="",
        alarm=False,
        lines=(),
    )


def radius(seconds: int, most: int) -> float:
    """Return the cell radius whose area is in proportion to the work, within limits."""
    if seconds <= 0:
        return DONE_PX
    return round(max(LEAST_PX, MOST_PX * sqrt(seconds / most)), 1)


def _later_site(plan: Plan, yard: Yard, place: int, cell: Cell) -> Cell:
    """Return a cell as that of a place the hives stand at from a later day on."""
    today = day_of(plan.now_min)
    from_day = min(day for day, there in yard.sites if there == place and day > today)
    since = date_words(plan.outfit, from_day)
    return replace(
        cell,
        radius=max(cell.radius, LEAST_PX),
        site=tr("from {time}", time=since),
        note=tr("here from {day}", day=since),
        lines=(
            tr("The hives stand here from {day}.", day=since),
            *notes.visits(plan, yard, place),
        ),
    )


def _stepped(cells: tuple[Cell, ...], bases: tuple[BaseMark, ...]) -> tuple[Cell, ...]:
    """Return the cells stepped aside from bases and from one another."""
    taken = [(base.lat, base.lon) for base in bases]
    steps = beside([*taken, *((cell.lat, cell.lon) for cell in cells)])[len(taken) :]
    return tuple(replace(cell, step=step) for cell, step in zip(cells, steps, strict=True))
