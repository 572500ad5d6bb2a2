"""One day as a short plain text, to send by phone.

Plain Latin letters as far as names allow, and short: when a day is long, names are cut
first, then latest times, then the last lines give way to a pointer to the day sheet.
"""

from collections.abc import Iterator

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Call, Job, Shift
from runplanner.days import clock, day_of
from runplanner.paperwork.cover_list import cover_lines
from runplanner.paperwork.day_sheet import load_words, shifts_on
from runplanner.paperwork.escape import cut, message_text
from runplanner.paperwork.events import boxes_brought
from runplanner.paperwork.say import date_words, litres_up, people_names, vehicle_name, yard_named

LONGEST = 999
LEVELS = ((24, False), (16, False), (10, False), (10, True), (6, True))
MORE = "More: see the day sheet."


def phone_text(plan: Plan, day: int) -> str:
    """Return ``day`` in fewer than 1000 characters, ending in a line end."""
    lines: list[str] = []
    for most, brief in LEVELS:
        lines = list(_lines(plan, day, most, brief=brief))
        if len("\n".join(lines)) < LONGEST:
            return "\n".join(lines) + "\n"
    return _shortened(lines)


def _shortened(lines: list[str]) -> str:
    while lines and len("\n".join([*lines, MORE])) + 1 > LONGEST:
        lines.pop()
    return "\n".join([*lines, MORE]) + "\n"


def _lines(plan: Plan, day: int, most: int, *, brief: bool) -> Iterator[str]:
    yield date_words(plan.outfit, day)
    for shift in shifts_on(plan, day):
        yield from _shift(plan, shift, most, brief=brief)
    for spin in plan.spinning:
        if day_of(spin.start_min) == day:
            who = _short(people_names(plan.outfit, spin.people), 2 * most)
            yield f"Spin {_span(spin.start_min, spin.end_min)}: {who}, {spin.boxes} boxes"
    for mix in plan.mixing:
        if day_of(mix.start_min) == day:
            who = _short(people_names(plan.outfit, (mix.person,)), most)
            yield f"Mix {_span(mix.start_min, mix.end_min)}: {who}, {litres_up(mix.ml)}"
    for line in cover_lines(plan):
        if line.day == day:
            yield f"Runs out {line.ends[-5:]}: {_short(line.yard, most)}, {line.colonies} col"


def _short(words: str, most: int) -> str:
    """Return a name in plain letters; the ellipsis of a cut name becomes a full stop."""
    return message_text(cut(message_text(words), most)).replace("...", ".")


def _span(start: int, end: int) -> str:
    return f"{clock(start)}-{clock(end)}"


def _shift(plan: Plan, shift: Shift, most: int, *, brief: bool) -> Iterator[str]:
    truck = _short(vehicle_name(plan.outfit, shift.truck), most)
    pulls = f"+{_short(vehicle_name(plan.outfit, shift.trailer), most)}" if shift.trailer else ""
    crew = _short(people_names(plan.outfit, shift.crew), 2 * most)
    yield f"{truck}{pulls} {_span(shift.start_min, shift.end_min)} {crew}"
    for trip in shift.trips:
        yield f"Load {clock(trip.calls[0].start_min)}: {load_words(trip)}"
        for number, call in enumerate(trip.yards(), start=1):
            yield _stop(plan, call, number, most, brief=brief)
        boxes = boxes_brought(trip)
        yield f"Back {clock(trip.calls[-1].arrive_min)}" + (f": {boxes} boxes" if boxes else "")
    for span in shift.breaks:
        yield f"Break {_span(*span)}"


def _stop(plan: Plan, call: Call, number: int, most: int, *, brief: bool) -> str:
    jobs = ", ".join(_job(action) for action in call.actions)
    limit = f", max {call.boxes_limit}" if any(action.boxes for action in call.actions) else ""
    yard = _short(yard_named(plan.outfit, call.yard), most)
    if brief:
        return f"{number} {yard} {clock(call.start_min)}: {jobs}{limit}"
    at = f"{_span(call.start_min, call.leave_min)} (latest {clock(call.latest_leave_min)})"
    return f"{number} {yard} {at}: {jobs}{limit}"


def _job(action: Action) -> str:
    match action.job:
        case Job.BOARDS:
            return f"boards {action.pieces}"
        case Job.TAKE_OFF:
            return f"off {action.colonies} col {action.boxes} bx"
        case Job.BLOCK:
            return f"block {action.pieces}"
        case Job.FEED:
            return f"feed {action.colonies} col {litres_up(action.ml)}"
        case Job.STRIPS:
            return f"strips {action.pieces}"
