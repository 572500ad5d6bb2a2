"""Every job of a campaign that leaves nothing, with the days on which it may be done."""

from dataclasses import dataclass

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Deadline
from runplanner.season.proof.owed import Part, for_all_work, most_ahead
from runplanner.trips.ground import Ground
from runplanner.visits.windows import Days

LIFTED = "lots"
"""Take-off and what comes after the first round: syrup waits for all honey to be gone."""
LAID = "rounds"
"""Boards and all rounds, and strips where they forbid syrup on their day."""


@dataclass(frozen=True, slots=True)
class DayJob:
    """One job of a yard, whole; its shares are parts of its work.

    A lot of a take-off may have a little less of something than its share of the work.  Of
    boxes there is as much as ``poorest`` and ``richest`` tell; of all else all there is counts
    as what the poorest lot has, so that no share is too much.

    Args:
        yard: Index of the yard.
        days: Days whose hours, dates and weather let some of it be done.
        person_s: Person-seconds of crews, at the yard and at unloading.
        open_s: Those of them that want hives open.
        ml: Syrup poured.
        out_g: Boxes that come out, grams.
        honey_g: Those of them with honey, grams.
        in_g: Syrup that goes in, grams.
        after: Index of the job that comes first, or -1.
        lag_days: Days by which that one comes first at least.
        late_cents: What all of it costs for being late, by day.
        alone: Names of the sets it is in of a yard's jobs; no visit does two jobs of a set.
        poorest: Least part of the boxes that goes with a part of the work, as a factor.
        richest: The most likewise.
        ahead: How far its share may be ahead of that of the job before it, as a factor.
    """

    yard: int
    days: tuple[int, ...]
    person_s: int
    open_s: int
    ml: int
    out_g: int
    honey_g: int
    in_g: int
    after: int
    lag_days: int
    late_cents: tuple[int, ...]
    alone: tuple[str, ...] = ()
    poorest: float = 1.0
    richest: float = 1.0
    ahead: float = 1.0


def jobs_of(ground: Ground, parts: tuple[Part, ...]) -> tuple[DayJob, ...]:
    """Return every job of a complete plan, each after the one it waits for."""
    jobs: list[DayJob] = []
    at: dict[int, int] = {-1: -1}
    rounds: dict[int, int] = {}
    for index, part in enumerate(parts):
        before = at[part.after]
        if part.not_off:
            due = ground.dues[part.yard]
            if due.boards_to_come() and not due.other:
                jobs.append(_boards(ground, part.yard))
                before = len(jobs) - 1
            job = _take_off(ground, part, before)
        elif part.in_g:
            number = rounds[part.yard] = rounds.get(part.yard, 0) + 1
            job = _feed(ground, part, before, number)
        else:
            job = _strips(ground, part, before)
        at[index] = len(jobs)
        jobs.append(job)
    return tuple(jobs)


def _boards(ground: Ground, yard: int) -> DayJob:
    work_s = ground.outfit.yards[yard].colonies * ground.outfit.pace.board_s
    days = tuple(day for day, spans in enumerate(ground.hours[yard].opening) if spans)
    return DayJob(yard, days, work_s, work_s, 0, 0, 0, 0, -1, 0, (), (LAID,))


def _take_off(ground: Ground, part: Part, before: int) -> DayJob:
    facts, hours = ground.outfit.yards[part.yard], ground.hours[part.yard]
    by, boarded = ground.outfit.season.take_off_by, before >= 0
    # Where boards may go on, they may on any day before: that work is not the take-off's.
    # Figures are rounded down, but the work itself, which is whole seconds.
    least, most = for_all_work(ground, part.yard)
    fit = tuple(
        tuple(span for span in spans if span.end_min >= settled)
        for spans, settled in zip(hours.opening, hours.settled_from_min, strict=True)
    )
    ready = range(facts.ready_from_day, facts.finish_by_day + 1)
    days = tuple(day for day in _days(fit, by) if day in ready)
    # What all are late by is paid for all of them, whatever the lots; the rest by the poorest.
    late = _late(ground, by, facts.colonies)
    sure = min((late[day] for day in days), default=0)
    late = tuple(
        sure + int((cents - sure) * least.colonies / max(1, facts.colonies)) for cents in late
    )
    return DayJob(
        part.yard,
        days,
        round(least.work_s),
        int(least.open_s),
        ml=0,
        out_g=part.out_g,
        honey_g=int(least.honey_g),
        in_g=0,
        after=before,
        lag_days=int(boarded),
        poorest=least.out_g / max(1, part.out_g),
        richest=most.out_g / max(1, part.out_g),
        ahead=most_ahead(ground, part.yard) if boarded else 1.0,
        late_cents=late,
        alone=(LIFTED,),
    )


def _feed(ground: Ground, part: Part, before: int, number: int) -> DayJob:
    due, hours, by = ground.dues[part.yard], ground.outfit.hours, ground.outfit.season.feed_by
    # Two rounds may start at any minute of their days.
    lag = -(-(due.round_gap_min - hours.end_min + hours.start_min) // DAY_MIN) if number > 1 else 0
    last = number == due.rounds
    late = _late(ground, by, ground.outfit.yards[part.yard].colonies) if last else ()
    days = _days(ground.hours[part.yard].feeding, by)
    alone: tuple[str, ...] = (LAID,) if number == 1 else ()
    if number > 1 and part.visits:
        alone = (LAID, LIFTED)
    work_s, ml, in_g = part.person_s, part.ml, part.in_g
    return DayJob(part.yard, days, work_s, 0, ml, 0, 0, in_g, before, max(0, lag), late, alone)


def _strips(ground: Ground, part: Part, before: int) -> DayJob:
    by, hours = ground.outfit.season.strips_by, ground.hours[part.yard]
    days = _days(hours.spans(opening=False, feeding=False, strips=True), by)
    late = _late(ground, by, ground.outfit.yards[part.yard].colonies)
    kind = ground.outfit.strips_at(ground.outfit.yards[part.yard])
    alone = (LAID,) if kind.no_feed_days else ()
    return DayJob(part.yard, days, part.person_s, 0, 0, 0, 0, 0, before, 0, late, alone)


def _days(hours: Days, by: Deadline) -> tuple[int, ...]:
    """Return the days that have hours and are not past a hard deadline."""
    return tuple(day for day, spans in enumerate(hours) if spans and not (by.hard and day > by.day))


def _late(ground: Ground, by: Deadline, colonies: int) -> tuple[int, ...]:
    """Return what being late costs, by day."""
    each = colonies * ground.outfit.prices.late_cents
    return tuple(each * max(0, day - by.day) for day in range(ground.outfit.season.n_days))
