"""The change sheet: what moved, from when to when, why, what it costs, what to reprint."""

from collections.abc import Sequence
from dataclasses import dataclass

from runplanner.daybook.differences import Differences, Shifted, Spot, differences
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Shift, Trip
from runplanner.daybook.why_moved import why_moved
from runplanner.paperwork.escape import file_name, shown
from runplanner.paperwork.frame import office_page, section, whole
from runplanner.paperwork.manifest import manifest
from runplanner.paperwork.manifest_page import manifest_page
from runplanner.paperwork.page import Html, Part, bullets, el, link, put, table
from runplanner.paperwork.say import count, moment, money, vehicle_name, yard_named
from runplanner.paperwork.sums import HEADS, tally_words
from runplanner.paperwork.undone_list import job_name, undone_part


@dataclass(frozen=True, slots=True)
class Move:
    """One visit that is not where it was, in words."""

    yard: str
    what: str
    was: str
    now: str
    why: str


@dataclass(frozen=True, slots=True)
class ChangeSheet:
    """The sheet: changes as typed, what was taken from them, and what became of the plan."""

    typed: tuple[str, ...]
    notes: tuple[str, ...]
    presumed: tuple[str, ...]
    moves: tuple[Move, ...]
    later: tuple[Move, ...]
    reprint: tuple[str, ...]
    called_off: tuple[str, ...]
    fresh: tuple[str, ...]
    untouched: tuple[str, ...]
    promised: int
    visits_moved: int
    extra_cents: int


def change_sheet(
    before: Plan,
    after: Plan,
    typed: Sequence[str] = (),
    notes: Sequence[str] = (),
    presumed: Sequence[tuple[str, str]] = (),
) -> ChangeSheet:
    """Return what changed from ``before``, driven trips as counted, to ``after``.

    Args:
        before: The plan that was being driven.
        after: The plan from now on.
        typed: The changes as they were typed.
        notes: What was taken from them.
        presumed: Trip and yard of driven stops that nobody has counted.
    """
    found = differences(before, after)
    same, other = _papers(before, after, found)
    return ChangeSheet(
        typed=tuple(shown(line, 240) for line in typed),
        notes=tuple(shown(line, 240) for line in notes),
        presumed=tuple(f"{yard_named(after.outfit, yard)} ({trip})" for trip, yard in presumed),
        moves=tuple(_move(before, after, one) for one in found.moved),
        later=tuple(_move(before, after, one) for one in found.later),
        reprint=other,
        called_off=found.called_off,
        fresh=found.fresh,
        untouched=same,
        promised=found.promised,
        visits_moved=found.visits_moved(),
        extra_cents=found.extra_cents(),
    )


def _papers(
    before: Plan, after: Plan, found: Differences
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return trips whose driver's paper is the same to the last sign, and those to reprint."""
    old, new = _trips(before), _trips(after)
    same: list[str] = []
    other: list[str] = []
    for trip in (*found.untouched, *found.changed):
        alike = manifest_text(before, *old[trip]) == manifest_text(after, *new[trip])
        (same if alike else other).append(trip)
    return tuple(sorted(same)), tuple(sorted(other))


def manifest_text(plan: Plan, shift: Shift, trip: Trip) -> str:
    """Return a driver's paper."""
    return manifest_page(manifest(plan, shift, trip))


def _trips(plan: Plan) -> dict[str, tuple[Shift, Trip]]:
    return {trip.id: (shift, trip) for shift in plan.shifts for trip in shift.trips}


def _move(before: Plan, after: Plan, one: Shifted) -> Move:
    return Move(
        yard=yard_named(after.outfit, one.spot.yard),
        what=_jobs(one.spot),
        was=_spot(after, one.was),
        now=_spot(after, one.now),
        why=shown(why_moved(before.outfit, after.outfit, one.was), 200) if one.was else "new",
    )


def _jobs(spot: Spot) -> str:
    return ", ".join(f"{job_name(one.job)} {one.colonies}" for one in spot.actions)


def _spot(plan: Plan, spot: Spot | None) -> str:
    if spot is None:
        return "\u2013"
    return f"{moment(plan.outfit, spot.start_min)}, {vehicle_name(plan.outfit, spot.truck)}"


def change_page(before: Plan, after: Plan, sheet: ChangeSheet) -> str:
    """Return the change sheet as a page."""
    moved = f"{sheet.visits_moved} of {count(sheet.promised, 'promised visit')} moved"
    return office_page(
        after,
        f"Changes as of {moment(after.outfit, after.now_min)}",
        moved,
        section("What was typed", bullets(sheet.typed) or "Nothing: only time has passed."),
        section("Taken from it", bullets(sheet.notes)) if sheet.notes else "",
        _presumed(sheet),
        section("Visits that moved", _moves(sheet.moves) if sheet.moves else "None."),
        section("Same day, another hour", _moves(sheet.later)) if sheet.later else "",
        section("Drivers' papers", *_reprints(sheet)),
        section("What it costs", _cost(before, after)),
        _undone(before, after),
    )


def _presumed(sheet: ChangeSheet) -> Part:
    if not sheet.presumed:
        return ""
    head = "Presumed done as planned, not counted"
    return section(head, bullets(sheet.presumed), el("p", "Count them, and plan again."))


def _moves(moves: Sequence[Move]) -> Html:
    lines: list[tuple[Part, ...]] = [
        (el("b", one.yard), one.what, whole(one.was), el("b", whole(one.now)), one.why)
        for one in moves
    ]
    return table(("Yard", "Work", "Was", "Now", "Why"), lines)


def _reprints(sheet: ChangeSheet) -> list[Part]:
    groups = (
        ("Print again", sheet.reprint, True),
        ("New", sheet.fresh, True),
        ("Called off", sheet.called_off, False),
        ("Unchanged, keep the paper", sheet.untouched, False),
    )
    return [
        el("p", el("b", f"{head}: "), *_names(trips, linked=linked))
        for head, trips, linked in groups
        if trips
    ] or ["There are none."]


def _names(trips: Sequence[str], *, linked: bool) -> list[Part]:
    names: list[Part] = []
    for trip in trips:
        words = shown(trip, 80)
        names.append(link(words, f"manifests/{file_name(trip)}.html") if linked else words)
        names.append(" \u00b7 ")
    return names[:-1]


def _cost(before: Plan, after: Plan) -> Html:
    currency = after.outfit.prices.currency
    lines: list[tuple[Part, ...]] = []
    for head, words in HEADS.items():
        was, now = getattr(before.bill, head), getattr(after.bill, head)
        if was != now:
            lines.append((words, money(was, currency), money(now, currency), _more(was, now)))
    was, now = before.bill.total(), after.bill.total()
    total = (
        el("b", "in all"),
        money(was, currency),
        money(now, currency),
        el("b", _more(was, now)),
    )
    return table(("For", "Was", "Now", "More"), [*lines, total], cls="sums")


def _more(was: int, now: int) -> str:
    return f"{(now - was) / 100:+,.2f}"


def _undone(before: Plan, after: Plan) -> Part:
    was, now = tally_words(before.tally), tally_words(after.tally)
    if was == now == "nothing":
        return ""
    return put(
        el("p", "Left undone before: ", el("b", was), "; now: ", el("b", now), "."),
        undone_part(after, now, priced=True),
    )
