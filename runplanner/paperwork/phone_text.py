"""One day as a short plain text, to send by phone.

Plain Latin letters as far as names allow, and short: when a day is long, names are cut
first, then latest times, then the last lines give way to a pointer to the day sheet.
"""

from collections.abc import Iterator

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Call, Job, Shift, Trip
from runplanner.days import clock, day_of
from runplanner.paperwork.base_breaks import base_breaks
from runplanner.paperwork.cover_list import cover_lines
from runplanner.paperwork.day_sheet import load_words, shifts_on
from runplanner.paperwork.escape import cut, message_text
from runplanner.paperwork.events import boxes_brought
from runplanner.paperwork.one_stop import further_block
from runplanner.paperwork.say import date_words, litres, people_names, vehicle_name, yard_named
from runplanner.paperwork.substances import several, substance_at
from runplanner.paperwork.tongue import mark, tr
from runplanner.paperwork.yard_words import way_words

LONGEST = 999
LEVELS = ((24, False), (16, False), (10, False), (10, True), (6, True))
MORE = mark("More: see the day sheet.")


def phone_text(plan: Plan, day: int) -> str:
    """Return ``day`` in fewer than 1000 characters, ending in a line end."""
    lines: list[str] = []
    for most, brief in LEVELS:
        lines = list(_lines(plan, day, most, brief=brief))
        if len("\n".join(lines)) < LONGEST:
            return "\n".join(lines) + "\n"
    return _shortened(lines)


def _shortened(lines: list[str]) -> str:
    more = tr(MORE)
    while lines and len("\n".join([*lines, more])) + 1 > LONGEST:
        lines.pop()
    return "\n".join([*lines, more]) + "\n"


def _lines(plan: Plan, day: int, most: int, *, brief: bool) -> Iterator[str]:
    yield date_words(plan.outfit, day)
    for shift in shifts_on(plan, day):
        yield from _shift(plan, shift, most, brief=brief)
    for spin in plan.spinning:
        if day_of(spin.start_min) == day:
            who = _short(people_names(plan.outfit, spin.people), 2 * most)
            when = _span(spin.start_min, spin.end_min)
            yield tr("Spin {times}: {who}, {number} boxes", times=when, who=who, number=spin.boxes)
    for mix in plan.mixing:
        if day_of(mix.start_min) == day:
            who = _short(people_names(plan.outfit, (mix.person,)), most)
            when, made = _span(mix.start_min, mix.end_min), litres(mix.ml)
            yield tr("Mix {times}: {who}, {litres}", times=when, who=who, litres=made)
    for span, people in base_breaks(plan, day):
        who = _short(people_names(plan.outfit, people), 2 * most)
        yield tr("Break {times}: {who}", times=_span(*span), who=who)
    for line in cover_lines(plan):
        if line.day == day:
            at, yard = line.ends[-5:], _short(line.yard, most)
            number = line.colonies
            yield tr("Runs out {time}: {yard}, {number} col", time=at, yard=yard, number=number)


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
        at = clock(trip.calls[0].start_min)
        yield tr("Load {time}: {goods}", time=at, goods=_goods(plan, trip))
        for number, call in enumerate(trip.yards(), start=1):
            yield _stop(plan, call, number, most, brief=brief)
        back, boxes = clock(trip.calls[-1].arrive_min), boxes_brought(trip)
        whole = tr("Back {time}: {number} boxes", time=back, number=boxes)
        yield whole if boxes else tr("Back {time}", time=back)
    for span in shift.breaks:
        yield tr("Break {times}", times=_span(*span))


def _goods(plan: Plan, trip: Trip) -> str:
    words = load_words(plan, trip)
    # Substances are as people typed them.
    return message_text(words) if several(plan.outfit) else words


def _stop(plan: Plan, call: Call, number: int, most: int, *, brief: bool) -> str:
    jobs = ", ".join(_job(plan, call, action) for action in call.actions)
    boxes = any(action.boxes for action in call.actions)
    limit = tr(", max {boxes} aboard", boxes=call.boxes_limit) if boxes else ""
    yard = _short(yard_named(plan.outfit, call.yard), most)
    if brief:
        return f"{number} {yard} {clock(call.start_min)}: {jobs}{limit}"
    latest = tr("latest {time}", time=clock(call.latest_leave_min))
    at = f"{_span(call.start_min, call.leave_min)} ({latest})"
    return f"{number} {yard} {at}: {jobs}{limit}"


def _job(plan: Plan, call: Call, action: Action) -> str:
    match action.job:
        case Job.BOARDS:
            return tr("boards {number}", number=action.pieces)
        case Job.TAKE_OFF:
            off = tr("off {colonies} col {boxes} bx", colonies=action.colonies, boxes=action.boxes)
            way = message_text(way_words(plan.outfit.yard(call.yard), action))
            return f"{off} {way}" if way else off
        case Job.BLOCK:
            more = further_block(call, action)
            head = mark("further block {number}") if more else mark("block {number}")
            return tr(head, number=action.pieces)
        case Job.FEED:
            return tr(
                "feed {colonies} col {litres}",
                colonies=action.colonies, litres=litres(action.ml),
            )  # fmt: skip
        case Job.STRIPS:
            words = tr("strips {number}", number=action.pieces)
            substance = message_text(substance_at(plan.outfit, call.yard))
            return f"{words} {substance}" if several(plan.outfit) else words
        case Job.WET_UP | Job.WET_DOWN | Job.FEEDERS:
            return _kit(action)


def _kit(action: Action) -> str:
    if action.job is Job.FEEDERS:
        return tr("feeders off {number}", number=action.feeders_off)
    if action.job is Job.WET_UP:
        return tr("wet boxes up {number}", number=action.wet)
    return tr("wet boxes down {number}", number=action.wet)
