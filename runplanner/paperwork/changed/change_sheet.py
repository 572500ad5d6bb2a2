"""What the change sheet says: what moved, from when to when, why, what to print anew."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from runplanner.daybook.differences import Differences, Duty, Shifted, Spot, differences
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Shift, Trip
from runplanner.days import clock, day_of
from runplanner.outfit.safety import eased
from runplanner.paperwork.changed.presumed import presumed_words
from runplanner.paperwork.changed.run_short import run_short
from runplanner.paperwork.changed.spun_late import spoilt, spun_late
from runplanner.paperwork.changed.whom_to_ring import to_ring
from runplanner.paperwork.changed.why_moved import (
    counted_there,
    leaves_less,
    unforced,
    why_moved,
    why_new,
)
from runplanner.paperwork.changed.work_words import work_words
from runplanner.paperwork.days.day_sheet import house_lines
from runplanner.paperwork.driver.manifest import Step, manifest
from runplanner.paperwork.driver.manifest_page import manifest_page
from runplanner.paperwork.escape import shown
from runplanner.paperwork.lists.cover_list import at_risk
from runplanner.paperwork.lists.held import strips_told, told_of
from runplanner.paperwork.speech.living import for_people
from runplanner.paperwork.speech.say import (
    crew_words,
    date_words,
    duration,
    km_up,
    moment,
    stretch,
    vehicle_name,
    yard_named,
)
from runplanner.paperwork.speech.sums import tally_words
from runplanner.paperwork.speech.tongue import said, tr
from runplanner.paperwork.stop.honey_on import syrup_told
from runplanner.paperwork.stop.one_stop import trip_as_driven
from runplanner.phrase import Phrase

AFTER_DAYS = 14
"""Spinning may run on after the last day; so far the sheet looks."""
LONGEST_NOTE = 600
"""A note may name several stops, and lines to type that must stay whole."""


@dataclass(frozen=True, slots=True)
class Move:
    """One visit that is not where it was, in words."""

    yard: str
    what: str
    was: str
    now: str
    why: str


@dataclass(frozen=True, slots=True)
class Turn:
    """A truck's day, or a day's work at the bases, that is done otherwise, in words."""

    what: str
    was: tuple[str, ...]
    now: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ChangeSheet:
    """The sheet: changes as typed, what was taken from them, and what became of the plan."""

    typed: tuple[str, ...]
    notes: tuple[str, ...]
    presumed: tuple[str, ...]
    moves: tuple[Move, ...]
    added: tuple[Move, ...]
    reworked: tuple[Move, ...]
    later: tuple[Move, ...]
    duties: tuple[Turn, ...]
    house: tuple[Turn, ...]
    ring: tuple[str, ...]
    spoils: tuple[str, ...]
    spun_late: tuple[str, ...]
    at_risk: tuple[str, ...]
    honey_on: tuple[str, ...]
    held: tuple[str, ...]
    by_hand: tuple[str, ...]
    reprint: tuple[str, ...]
    other_start: tuple[str, ...]
    called_off: tuple[str, ...]
    fresh: tuple[str, ...]
    untouched: tuple[str, ...]
    promised: int
    visits_moved: int
    fall_away: int
    extra_cents: int
    less_left: str


def change_sheet(  # noqa: PLR0913 - what was, what is, and all that was told
    before: Plan,
    after: Plan,
    typed: Sequence[str] = (),
    notes: Sequence[Phrase] = (),
    presumed: Sequence[tuple[str, str]] = (),
    by_hand: Sequence[Phrase] = (),
    *,
    printed: Plan | None = None,
) -> ChangeSheet:
    """Return what changed from ``before``, driven trips as counted, to ``after``.

    Args:
        before: The plan that was being driven.
        after: The plan from now on.
        typed: The changes as they were typed.
        notes: What was taken from them.
        presumed: Trip and yard of driven stops that nobody has counted.
        by_hand: What lies in yards that no visit will fetch.
        printed: The plan that papers were printed from, not counted yet; else ``before``.
    """
    before, after, printed = (for_people(one) for one in (before, after, printed or before))
    found = differences(before, after)
    same, other = _papers(printed, after, found)
    driving = _under_way(printed, after, found)
    other = tuple(sorted({*other, *driving}))
    news = _news(printed, before, after)
    otherwise = unforced(before, after, news=news)

    def move(one: Shifted) -> Move:
        counts = counted_there(printed, before, one.spot.yard)
        return _move(before, after, one, otherwise, counts)

    return ChangeSheet(
        typed=tuple(shown(line, 240) for line in typed),
        notes=tuple(shown(said(line), LONGEST_NOTE) for line in notes),
        presumed=tuple(presumed_words(after, trip, yard) for trip, yard in presumed),
        moves=tuple(move(one) for one in found.moved if one.was),
        added=tuple(move(one) for one in found.moved if not one.was),
        reworked=tuple(move(one) for one in found.reworked),
        later=tuple(move(one) for one in found.later),
        duties=tuple(_turn(after, one) for one in found.duties),
        house=tuple(_house(before, after)),
        ring=tuple(to_ring(printed, before, after)),
        spoils=tuple(spoilt(after)),
        spun_late=tuple(spun_late(before, after)),
        at_risk=at_risk(after),
        honey_on=(*strips_told(after), *syrup_told(after)),
        held=tuple(told_of(before, after)),
        by_hand=tuple(shown(said(line), LONGEST_NOTE) for line in by_hand),
        reprint=other,
        other_start=tuple(_other_start(printed, after, other)),
        called_off=found.called_off,
        fresh=found.fresh,
        untouched=same,
        promised=found.promised,
        visits_moved=found.visits_moved(),
        fall_away=sum(not one.now for one in found.moved),
        extra_cents=found.extra_cents(),
        less_left=_less_left(before, after, news=news),
    )


def _news(printed: Plan, before: Plan, after: Plan) -> bool:
    """Tell whether facts or counts are other than when the plan was made, not the time alone."""
    return before.shifts != printed.shifts or after.outfit not in (
        printed.outfit,
        eased(printed.outfit),
    )


def _less_left(before: Plan, after: Plan, *, news: bool) -> str:
    if not leaves_less(before, after):
        return ""
    was, now = tally_words(before.tally), tally_words(after.tally)
    if news:
        return tr("less is left undone: {now} instead of {before}", now=now, before=was)
    return tr(
        "nothing new was told; less is left undone: {now} instead of {before}", now=now, before=was
    )


def _papers(
    before: Plan, after: Plan, found: Differences
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return trips whose driver's paper is the same to the last sign, and those to reprint."""
    old, new = _trips(before), _trips(after)
    same: list[str] = []
    other: list[str] = []
    for trip in (*found.untouched, *found.changed):
        was, now = manifest(before, *old[trip]), manifest(after, *new[trip])
        alike = was == now or manifest_page(was) == manifest_page(now)
        (same if alike else other).append(trip)
    return tuple(sorted(same)), tuple(sorted(other))


def _under_way(old: Plan, new: Plan, found: Differences) -> Iterator[str]:
    """Yield trips under way whose paper tells their driver otherwise of calls to come."""
    was, now = _trips(old), _trips(new)
    for trip in found.driven:
        if trip in was and _steps(old, *was[trip], new) != _steps(new, *now[trip], new):
            yield trip


def _other_start(old: Plan, new: Plan, trips: Sequence[str]) -> Iterator[str]:
    """Yield which trips begin at another minute, as their names go on telling the old one."""
    was, now = _trips(old), _trips(new)
    for trip in trips:
        before, after = (found[trip][1].calls[0].start_min for found in (was, now))
        if before != after:
            yield tr(
                "{trip} keeps its name; it loads at {now}, not {before}",
                trip=shown(trip, 80), now=clock(after), before=clock(before),
            )  # fmt: skip


def _steps(plan: Plan, shift: Shift, trip: Trip, now: Plan) -> list[Step]:
    """Return what a driver's paper says of the calls that are to come at the time of a plan."""
    calls = trip_as_driven(plan.outfit, trip).calls
    steps = manifest(plan, shift, trip).steps
    return [step for step, call in zip(steps, calls, strict=True) if call.start_min > now.now_min]


def manifest_text(plan: Plan, shift: Shift, trip: Trip) -> str:
    """Return a driver's paper, as HTML."""
    return manifest_page(manifest(plan, shift, trip))


def _trips(plan: Plan) -> dict[str, tuple[Shift, Trip]]:
    return {trip.id: (shift, trip) for shift in plan.shifts for trip in shift.trips}


def _move(before: Plan, after: Plan, one: Shifted, otherwise: str, counts: str) -> Move:
    if one.was:
        short = "" if one.now else run_short(before, after, one.was)
        why = why_moved(before.outfit, after.outfit, one, counts or short or otherwise)
    else:
        why = why_new(before, after, one.spot, otherwise, counts)
    return Move(
        yard=yard_named(after.outfit, one.spot.yard),
        what=work_words(one),
        was=_spot(after, one.was),
        now=_spot(after, one.now) if one.now else tr("falls away"),
        why=shown(why, 200),
    )


def _turn(plan: Plan, one: Duty) -> Turn:
    shift = one.shift
    what = f"{date_words(plan.outfit, shift.day)}, {vehicle_name(plan.outfit, shift.truck)}"
    return Turn(what, _duty(plan, one.was), _duty(plan, one.now))


def _duty(plan: Plan, shift: Shift | None) -> tuple[str, ...]:
    """Return who is out, from when to when, how long at the wheel, and with which trailer."""
    if shift is None:
        return ()
    trailer = [vehicle_name(plan.outfit, shift.trailer)] if shift.trailer else []
    hours = duration(shift.end_min - shift.start_min)
    return (
        crew_words(plan.outfit, shift.crew),
        f"{stretch(shift.start_min, shift.end_min)} ({hours})",
        tr("driving {time}, {way}", time=duration(shift.driving_min), way=km_up(shift.metres)),
        *trailer,
    )


def _house(before: Plan, after: Plan) -> Iterator[Turn]:
    """Yield the days on which somebody spins or mixes otherwise from now on."""
    for day in range(day_of(after.now_min), after.outfit.season.n_days + AFTER_DAYS):
        was, now = ([words for _, words in sorted(house_lines(p, day))] for p in (before, after))
        if was != now:
            gone, new = _only(was, now), _only(now, was)
            yield Turn(date_words(after.outfit, day), gone, new)


def _only(these: list[str], those: list[str]) -> tuple[str, ...]:
    return tuple(line for line in these if line not in those)


def _spot(plan: Plan, spot: Spot | None) -> str:
    if spot is None:
        return "\u2013"
    return f"{moment(plan.outfit, spot.start_min)}, {vehicle_name(plan.outfit, spot.truck)}"
