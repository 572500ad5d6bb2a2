"""One window shut in a running campaign: how soon there is a repair, and how little moves.

The targets, for 40 yards and 14 days with a window shut on day 3: a first audited repair in
3 s, the best at 10 s, at most 5 % of the other visits moved in the median, and never worse
than just leaving the visit out.
"""

import csv
import time
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from statistics import median

from runplanner.audit.audit import audit
from runplanner.daybook.differences import differences
from runplanner.daybook.plan import Plan, Tally
from runplanner.daybook.trip import Job
from runplanner.days import DAY_MIN, Span, without
from runplanner.outfit.outfit import Outfit
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from runplanner.visits.due import due
from tests.bench.campaigns import Size, campaign
from tests.bench.table import text_table

EVENING = 20 * 60
MOST_WINDOWS = 6


@dataclass(frozen=True, slots=True)
class Shut:
    """One window that shut, and what came of it.

    Args:
        instance: Which campaign.
        yard: Whose window.
        day: On which day, counted from nought.
        first_s: Seconds to the first repair, its audit included.
        first_share: Per cent of the other promised visits moved in it.
        best_s: Seconds to the best answer, its audit included.
        best_share: Per cent of the others moved in that.
        first_more: Cents the first repair costs more than the plan before.
        best_more: The same of the best.
        findings: Breaches in either.
        worse: Whether either leaves more undone than leaving the visit out would, or costs
            more with as much undone.
    """

    instance: str
    yard: str
    day: int
    first_s: float
    first_share: float
    best_s: float
    best_share: float
    first_more: int
    best_more: int
    findings: int
    worse: bool


def upsets(size: Size, seed: int, seconds: float, best_s: float) -> Iterator[Shut]:
    """Yield what became of each window of day 2 (the third) that shuts, a few of them.

    Args:
        size: The campaign's.
        seed: The campaign's.
        seconds: For the plan that is upset.
        best_s: For the best answer, search alone.
    """
    outfit = campaign(size, seed)
    plan = plan_season(outfit, seed=1, seconds=seconds)
    instance = f"{size.name}-{seed}"
    for yard in _opened(plan, 2)[:MOST_WINDOWS]:
        yield _shut(plan, instance, yard, 2, best_s)


def _opened(plan: Plan, day: int) -> list[str]:
    """Return the yards opened or fed on a day, in order of time."""
    calls = sorted(
        (call.start_min, call.yard)
        for shift in plan.shifts if shift.day == day
        for trip in shift.trips for call in trip.yards()
        if any(action.job is not Job.STRIPS for action in call.actions)
    )  # fmt: skip
    return list(dict.fromkeys(yard for _, yard in calls))


def _shut(plan: Plan, instance: str, yard: str, day: int, best_s: float) -> Shut:
    now = (day - 1) * DAY_MIN + EVENING
    facts = _without_day(plan.outfit, yard, day)
    dropped = _dropped(plan, yard, now)
    answers = []
    for seconds, rounds in ((None, 0), (best_s, None)):
        began = time.perf_counter()
        new = replan_season(plan, facts, now, rounds=rounds, seconds=seconds)
        findings = audit(new, replace(plan, outfit=facts))
        took = time.perf_counter() - began
        found = differences(plan, new)
        others = [
            one for one in (*found.moved, *found.reworked)
            if one.was and one.spot.yard != yard
        ]  # fmt: skip
        mine = sum(spot == yard for spot in _to_come(plan, now))
        share = 100 * len(others) / max(1, found.promised - mine)
        worse = _vector(new.tally) > _vector(dropped)
        answers.append((took, share, found.extra_cents(), len(findings), worse))
    first, best = answers
    return Shut(
        instance, yard, day, first[0], first[1], best[0], best[1], first[2], best[2],
        first[3] + best[3], first[4] or best[4],
    )  # fmt: skip


def _without_day(outfit: Outfit, yard: str, day: int) -> Outfit:
    hole = (Span(day * DAY_MIN, (day + 1) * DAY_MIN),)
    yards = tuple(
        replace(
            one,
            open_spans=without(one.open_spans, hole),
            feed_spans=without(one.feed_spans, hole),
        ) if one.id == yard else one
        for one in outfit.yards
    )  # fmt: skip
    return replace(outfit, yards=yards)


def _to_come(plan: Plan, now: int) -> Iterator[str]:
    yield from (
        call.yard
        for shift in plan.shifts if shift.start_min > now
        for trip in shift.trips for call in trip.yards()
    )  # fmt: skip


def _dropped(plan: Plan, yard: str, now: int) -> Tally:
    """Return the least that is undone where the yard is simply not gone to any more.

    Its honey stays on, if it still is; that is the mildest reading, for no colony of it that
    is off already counts as without cover.
    """
    facts, done = plan.outfit.yard(yard), plan.tally
    seen = [
        action
        for shift in plan.shifts if shift.start_min <= now
        for trip in shift.trips for call in trip.yards() if call.yard == yard
        for action in call.actions
    ]  # fmt: skip
    off = sum(action.colonies for action in seen if action.job is Job.TAKE_OFF)
    strips = any(action.job is Job.STRIPS for action in seen)
    owed = due(plan.outfit, facts)
    rounds = {action.round for action in seen if action.job is Job.FEED}
    return Tally(
        done.uncovered,
        done.no_strips + (0 if strips else facts.colonies),
        done.unfed_g + (facts.colonies * owed.lacks_g[len(rounds)] if owed.rounds else 0),
        done.not_off + facts.colonies - off,
    )


def _vector(tally: Tally) -> tuple[int, ...]:
    return tally.uncovered, tally.no_strips, tally.unfed_g, tally.not_off


def table(rows: Sequence[Shut]) -> str:
    """Return the rows in words, and the figures the targets name."""
    lines = [
        (
            one.instance, one.yard, f"{one.first_s:.1f}", f"{one.first_share:.1f}",
            f"{one.first_more / 100:+.0f}", f"{one.best_s:.1f}", f"{one.best_share:.1f}",
            f"{one.best_more / 100:+.0f}", str(one.findings), "worse" if one.worse else "",
        )
        for one in rows
    ]  # fmt: skip
    heads = ("campaign", "shut", "first s", "moved %", "more", "best s", "moved %", "more",
             "breaches", "than dropping")  # fmt: skip
    if not rows:
        return "no window to shut"
    firsts, bests = [one.first_s for one in rows], [one.best_s for one in rows]
    return "\n".join((
        text_table(heads, lines),
        f"first audited repair: median {median(firsts):.1f} s, longest {max(firsts):.1f} s",
        f"best answer: median {median(bests):.1f} s, longest {max(bests):.1f} s",
        (f"other visits moved, median: {median(one.first_share for one in rows):.1f} % at first, "
        f"{median(one.best_share for one in rows):.1f} % at best"),
        f"worse than leaving the visit out: {sum(one.worse for one in rows)} of {len(rows)}",
    ))  # fmt: skip


def write_csv(path: Path, rows: Sequence[Shut]) -> None:
    """Write the rows as a table."""
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(Shut.__slots__))
        writer.writeheader()
        writer.writerows(asdict(one) for one in rows)
