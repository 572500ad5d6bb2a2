"""Whom to ring once the plan has changed: people whose rest of today is otherwise."""

from collections.abc import Iterator, Sequence

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action
from runplanner.days import day_of
from runplanner.paperwork.days.day_sheet import duties
from runplanner.paperwork.speech.say import person_name, stretch
from runplanner.paperwork.speech.tongue import tr


def to_ring(printed: Plan, before: Plan, after: Plan) -> Iterator[str]:
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
