"""Looking at plans in tests: what is done where, in short words."""

from collections.abc import Iterable

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Bill, Plan, Tally
from runplanner.daybook.trip import Call, Job, Shift
from runplanner.days import DAY_MIN, clock
from runplanner.outfit.outfit import Outfit
from runplanner.season.plan_season import plan_season

DONE = Tally(0, 0, 0, 0)


def planned(outfit: Outfit, rounds: int = 40) -> Plan:
    """Plan an outfit; the audit must find nothing."""
    plan = plan_season(outfit, rounds=rounds)
    assert () == tuple(finding.sentence() for finding in audit(plan))
    return plan


def visits(plan: Plan) -> list[tuple[Shift, Call]]:
    """All visits, in order of time."""
    calls = [(s, c) for s in plan.shifts for t in s.trips for c in t.yards()]
    return sorted(calls, key=lambda each: each[1].start_min)


def did(plan: Plan) -> list[str]:
    """Say of each visit on what day, where and what: "0 yard1 take-off 4, feed 4"."""
    return [
        f"{s.day} {c.yard} " + ", ".join(f"{a.job} {a.colonies}" for a in c.actions)
        for s, c in visits(plan)
    ]


def trips(plan: Plan) -> list[list[str]]:
    """The yards of every trip, in order."""
    return [[c.yard for c in t.yards()] for s in plan.shifts for t in s.trips]


def when(minute: int) -> str:
    """Day and time of day: "1 08:30"."""
    return f"{minute // DAY_MIN} {clock(minute)}"


def calls_with(plan: Plan, job: Job) -> list[Call]:
    """The visits at which a job is done."""
    return [c for _, c in visits(plan) if any(a.job is job for a in c.actions)]


def a_bill(**heads: int) -> Bill:
    """A bill of some heads, the rest nothing."""
    names = Bill.__slots__
    assert set(heads) <= set(names)
    return Bill(**{name: heads.get(name, 0) for name in names})


def minutes(cents_an_hour: int, *parts: int) -> int:
    """Cents for so many minutes in parts, each part a person's."""
    return sum(parts) * cents_an_hour // 60


def reasons(plan: Plan) -> set[str]:
    """Every reason given for undone work."""
    return {why for entry in plan.undone for why in entry.why}


def names(found: Iterable[Shift]) -> list[tuple[str, ...]]:
    """Who is in each shift."""
    return [shift.crew for shift in found]
