"""What the change sheet says: what moved, from when to when, why, what to print anew."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from runplanner.daybook.differences import Differences, Duty, Shifted, Spot, differences
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job, Shift, Trip
from runplanner.days import clock, day_of
from runplanner.outfit.safety import eased
from runplanner.paperwork.changed.why_moved import (
    counted_there,
    leaves_less,
    unforced,
    why_moved,
    why_new,
)
from runplanner.paperwork.days.day_sheet import duties, house_lines
from runplanner.paperwork.driver.manifest import Step, manifest
from runplanner.paperwork.driver.manifest_page import manifest_page
from runplanner.paperwork.escape import shown
from runplanner.paperwork.lists.cover_list import at_risk
from runplanner.paperwork.lists.held import strips_told, told_of
from runplanner.paperwork.lists.undone_list import job_name
from runplanner.paperwork.speech.living import for_people
from runplanner.paperwork.speech.say import (
    count,
    crew_words,
    date_words,
    duration,
    km_up,
    litres_up,
    moment,
    person_name,
    stretch,
    vehicle_name,
    yard_named,
)
from runplanner.paperwork.speech.sums import tally_words
from runplanner.paperwork.speech.tongue import said, tr
from runplanner.paperwork.stop.honey import Lot, lots
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
        presumed=tuple(f"{yard_named(after.outfit, yard)} ({trip})" for trip, yard in presumed),
        moves=tuple(move(one) for one in found.moved if one.was),
        added=tuple(move(one) for one in found.moved if not one.was),
        reworked=tuple(move(one) for one in found.reworked),
        later=tuple(move(one) for one in found.later),
        duties=tuple(_turn(after, one) for one in found.duties),
        house=tuple(_house(before, after)),
        ring=tuple(_ring(printed, before, after)),
        spoils=tuple(_spoilt(after, lot) for lot in _late(after, after.now_min) if lot.hard),
        spun_late=tuple(_spun_late(before, after)),
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
        alike = manifest_text(before, *old[trip]) == manifest_text(after, *new[trip])
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
        why = why_moved(before.outfit, after.outfit, one, counts or otherwise)
    else:
        why = why_new(before, after, one.spot, otherwise, counts)
    return Move(
        yard=yard_named(after.outfit, one.spot.yard),
        what=work_words(one),
        was=_spot(after, one.was),
        now=_spot(after, one.now),
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


def _ring(printed: Plan, before: Plan, after: Plan) -> Iterator[str]:
    """Yield whose rest of today is otherwise, the first to begin first; nobody who is away."""
    now_min, told = after.now_min, []
    for person in after.outfit.people:
        if now_min <= 0 or day_of(now_min) in person.off_days:
            continue
        was, now = (_rest_of_day(plan, person.id, now_min) for plan in (before, after))
        stops_was, stops = (_stops_to_come(plan, person.id, now_min) for plan in (before, after))
        if was != now:
            paper = _rest_of_day(printed, person.id, now_min)
            words = tr("{now} (was: {before})", now=_hours(now), before=_hours(paper))
        elif stops_was != stops or _has_less_to_do(printed, after, person.id):
            words = tr("{now}, but with other stops or other work", now=_hours(now))
        else:
            continue
        begins = min(start for start, _, _ in (*was, *now))
        told.append((begins, f"{person_name(after.outfit, person.id)}: {words}"))
    yield from (words for _, words in sorted(told))


def _stops_to_come(plan: Plan, person: str, now_min: int) -> list[tuple[str, tuple[Action, ...]]]:
    """Return what somebody is to do at yards with a truck that leaves home later today."""
    return [
        (call.yard, call.actions)
        for shift in plan.shifts
        if shift.day == day_of(now_min) and shift.start_min > now_min and person in shift.crew
        for trip in shift.trips
        for call in trip.yards()
    ]


def _has_less_to_do(printed: Plan, after: Plan, person: str) -> bool:
    """Tell whether counts have taken work from stops to come of a truck somebody is out with."""
    was = {
        (trip.id, call.yard, call.start_min): call.actions
        for shift in printed.shifts
        for trip in shift.trips
        for call in trip.yards()
    }
    return any(
        call.planned and call.counted is None
        and call.actions != was.get((trip.id, call.yard, call.start_min))
        for shift in after.shifts
        if shift.start_min <= after.now_min and person in shift.crew
        for trip in shift.trips
        for call in trip.yards()
        if call.start_min > after.now_min
    )  # fmt: skip


def _rest_of_day(plan: Plan, person: str, now_min: int) -> list[tuple[int, int, str]]:
    """Return what somebody does from now to the end of the day; what follows on is one."""
    found: list[tuple[int, int, str]] = []
    for start, end, words in duties(plan, person, day_of(now_min)):
        if end <= now_min:
            continue
        if found and found[-1][1:] == (start, words):
            found[-1] = (found[-1][0], end, words)
        else:
            found.append((start, end, words))
    return found


def _hours(found: Sequence[tuple[int, int, str]]) -> str:
    lines = (f"{words} {stretch(start, end)}" for start, end, words in found)
    return ", ".join(lines) or tr("free")


def _late(plan: Plan, now_min: int) -> Iterator[Lot]:
    """Yield each lot, still to be spun, whose last box is spun after its spin-by."""
    for lot in lots(plan):
        if lot.starts and lot.starts[-1] > max(lot.spin_by_min, now_min):
            yield lot


def _spoilt(plan: Plan, lot: Lot) -> str:
    return tr(
        "{yard}: {late} of {boxes} spun after {due}, when they spoil; the last {when}. Nobody who "
        "is free can spin them in time.",
        **_lot_words(plan, lot),
        when=moment(plan.outfit, lot.starts[-1]),
    )


def _spun_late(before: Plan, after: Plan) -> Iterator[str]:
    """Yield a sentence for each lot of priced spin-by, not held, more of which is late than was."""
    was = {(lot.code, lot.trip): _late_boxes(lot) for lot in _late(before, after.now_min)}
    for lot in _late(after, after.now_min):
        late = _late_boxes(lot)
        if not lot.hard and not lot.held and late > was.get((lot.code, lot.trip), 0):
            yield tr(
                "{yard}: {late} of {boxes} spun after {due}; the last {when}",
                **_lot_words(after, lot),
                when=moment(after.outfit, lot.starts[-1]),
            )


def _late_boxes(lot: Lot) -> int:
    return sum(start > lot.spin_by_min for start in lot.starts)


def _lot_words(plan: Plan, lot: Lot) -> dict[str, str | int]:
    return {
        "yard": yard_named(plan.outfit, lot.yard),
        "late": _late_boxes(lot),
        "boxes": count(lot.boxes, "box", "boxes"),
        "due": moment(plan.outfit, lot.spin_by_min),
    }


def _only(these: list[str], those: list[str]) -> tuple[str, ...]:
    return tuple(line for line in these if line not in those)


def _jobs(spot: Spot) -> list[str]:
    return [f"{job_name(one.job)} {one.colonies}" for one in spot.actions]


def _figures(spot: Spot) -> list[str]:
    """Return what is done at a visit with all that is put up, taken, poured, laid and left."""
    found = []
    for words, one in zip(_jobs(spot), spot.actions, strict=True):
        boxes = one.boxes + one.brood_boxes + one.wet
        blocks, strips, laid = (
            one.pieces if one.job is job else 0 for job in (Job.BLOCK, Job.STRIPS, Job.BOARDS)
        )
        boards, feeders = laid + one.boards_off, one.feeders + one.feeders_off
        told = (
            count(boxes, "box", "boxes") if boxes else "",
            litres_up(one.ml) if one.ml else "",
            count(blocks, "block", "blocks") if blocks else "",
            count(strips, "strip", "strips") if strips else "",
            count(boards, "board", "boards") if boards else "",
            count(feeders, "feeder", "feeders") if feeders else "",
        )
        more = ", ".join(filter(None, told))
        found.append(f"{words} ({more})" if more else words)
    return found


def work_words(one: Shifted) -> str:
    """Return what is done at a visit, and what was to be where that is other work.

    Another order of it is not.  Where as many colonies have the same done, how much of it is told
    as well.
    """
    if one.was is None or one.now is None:
        return ", ".join(_jobs(one.spot))
    was, now = _jobs(one.was), _jobs(one.now)
    if sorted(was) == sorted(now):
        was, now = _figures(one.was), _figures(one.now)
    if sorted(was) == sorted(now):
        return ", ".join(_jobs(one.now))
    return tr("{now} (was: {before})", now=", ".join(now), before=", ".join(was))


def _spot(plan: Plan, spot: Spot | None) -> str:
    if spot is None:
        return "\u2013"
    return f"{moment(plan.outfit, spot.start_min)}, {vehicle_name(plan.outfit, spot.truck)}"
