"""If a day's window shuts: what falls, who must be fed first, what can still be done.

Boards and take-off fall.  Syrup stands where its own hours are open and every colony of
the yard is off without this day's take-off; strips stand where the same holds, and go in
between showers; so do wet boxes and feeders.  A block stands unless it belongs to a take-off
that falls; further ones beside a take-off are for those that came off before.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import takewhile

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops
from runplanner.daybook.trip import Action, Call, Job, Shift, Trip
from runplanner.days import DAY_MIN, Span, join, meet, whole_day
from runplanner.outfit.yards import CLOSED, Yard
from runplanner.paperwork.days.day_sheet import shifts_on
from runplanner.paperwork.days.wet_roof import Out, from_min, under_roof
from runplanner.paperwork.lists.before_feed import feed_after, feed_again_day, out_first
from runplanner.paperwork.lists.undone_list import job_name
from runplanner.paperwork.sheet.frame import office_page, section, whole
from runplanner.paperwork.sheet.page import Html, Part, bullets, el, table
from runplanner.paperwork.speech.say import (
    count,
    date_words,
    moment,
    vehicle_name,
    yard_named,
)
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.speech.trip_state import TripState, call_over, trip_state
from runplanner.paperwork.speech.weather_words import day_weather
from runplanner.paperwork.stop.cover import Cover, covers, covers_at
from runplanner.paperwork.stop.events import actions_at
from runplanner.paperwork.stop.one_stop import further_block, parts_together
from runplanner.paperwork.stop.way import trip_span


@dataclass(frozen=True, slots=True)
class WetStop:
    """One stop: the jobs that fall and those that stand, and whether strips are among these.

    ``first``: which strips come out before what stands may be given.
    """

    yard: str
    falls: str
    stands: str
    strips: bool = False
    first: str = ""


@dataclass(frozen=True, slots=True)
class WetTrip:
    """One trip of the day with its stops to come, the first of them by its number; out by now?"""

    trip: str
    truck: str
    stops: tuple[WetStop, ...]
    first: int = 1
    out: bool = False

    def goes(self) -> bool:
        """Tell whether it is out, or any of its work stands."""
        return self.out or any(stop.stands for stop in self.stops)

    def verdict(self) -> str:
        """Return whether the trip goes, or that it is out."""
        if self.out:
            return tr(TripState.UNDER_WAY)
        if not self.goes():
            return tr("stays at home")
        return tr("goes in part") if any(stop.falls for stop in self.stops) else tr("goes")


@dataclass(frozen=True, slots=True)
class First:
    """Colonies that run out before the yard's next fair hours."""

    yard: str
    colonies: int
    ends: str
    next_fair: str
    do: str


@dataclass(frozen=True, slots=True)
class WetDay:
    """The sheet of one wet day."""

    date: str
    trips: tuple[WetTrip, ...]
    first: tuple[First, ...]
    indoors: tuple[str, ...]
    weather: tuple[str, ...] = ()


def wet_day(plan: Plan, day: int) -> WetDay:
    """Return what to do if no hive can be opened for long on ``day``."""
    rides = [
        (shift, trip, _trip(plan, shift, trip))
        for shift in shifts_on(plan, day)
        for trip in shift.trips
        if trip_state(plan, trip) is not TripState.DRIVEN
    ]
    return WetDay(
        date=date_words(plan.outfit, day),
        trips=tuple(sheet for _, _, sheet in rides),
        first=tuple(
            _first(plan, cover, day)
            for cover in covers(plan, from_min(plan, day))
            if cover.fed_min is None and _ends_too_soon(plan, cover, day)
        ),
        indoors=under_roof(plan, day, _out(rides)),
        weather=day_weather(plan, day),
    )


def _trip(plan: Plan, shift: Shift, trip: Trip) -> WetTrip:
    yards = tuple(trip.yards())
    found = tuple(_stop(plan, shift.day, call) for call in yards if not call_over(plan, call))
    out = trip_state(plan, trip) is TripState.UNDER_WAY
    truck = vehicle_name(plan.outfit, shift.truck)
    return WetTrip(trip.id, truck, found, 1 + len(yards) - len(found), out)


def _stop(plan: Plan, day: int, call: Call) -> WetStop:
    call = parts_together(plan, call)
    kept: list[Action] = []
    lost: list[Action] = []
    for action in call.actions:
        (kept if _stands(plan, day, call, action) else lost).append(action)
    strips = any(action.job is Job.STRIPS for action in kept)
    out = feed_after(plan, replace(call, actions=tuple(kept)))
    first = out.in_short() if out else ""
    return WetStop(yard_named(plan.outfit, call.yard), _jobs(lost), _jobs(kept), strips, first)


def _jobs(done: list[Action]) -> str:
    return "; ".join(
        ", ".join((job_name(action.job), count(action.colonies, "colony", "colonies")))
        for action in done
    )


def _stands(plan: Plan, day: int, call: Call, action: Action) -> bool:
    yard = plan.outfit.yard(call.yard)
    match action.job:
        case Job.BOARDS | Job.TAKE_OFF:
            return False
        case Job.BLOCK if any(
            one.job is Job.TAKE_OFF
            for one in takewhile(lambda one: one is not action, call.actions)
        ):
            off = covers_at(plan, yard, call.start_min)
            return further_block(call, action) and any(one.fed_min is None for one in off)
        case Job.BLOCK:
            return True
        case _:
            open_now = any(
                span.start_min <= call.start_min and call.end_min <= span.end_min
                for span in yard.feed_spans
            )
            return open_now and _all_off(plan, yard, day)


def _all_off(plan: Plan, yard: Yard, day: int) -> bool:
    """Return whether every colony is off before ``day`` or by now, or carries no honey."""
    if yard.health in CLOSED and not yard.left_alone:
        return True
    off = sum(
        action.colonies
        for stop, action in actions_at(plan, yard.id, Job.TAKE_OFF)
        if stop.shift.day < day or call_over(plan, stop.call)
    )
    due = any(actions_at(plan, yard.id, Job.TAKE_OFF))
    return off >= yard.colonies or not due


def _fair_hours(plan: Plan, yard: Yard, day: int) -> tuple[Span, ...]:
    """Return the daylight in which the yard could be given syrup.

    Syrup waits for the last take-off, so a yard that still carries honey needs hours fit
    for opening hives as well.
    """
    fair = meet(join(yard.feed_spans), yard.sun_spans)
    return fair if _all_off(plan, yard, day) else meet(fair, join(yard.open_spans))


def _next_fair(plan: Plan, yard: Yard, day: int) -> int | None:
    """Return the first of the yard's fair hours after ``day``; None when there are none."""
    midnight = (day + 1) * DAY_MIN
    later = [
        max(span.start_min, midnight)
        for span in _fair_hours(plan, yard, day)
        if span.end_min > midnight
    ]
    return min(later, default=None)


def _ends_too_soon(plan: Plan, cover: Cover, day: int) -> bool:
    """Return whether cover ends before the next fair hours, or before the campaign does."""
    fair = _next_fair(plan, plan.outfit.yard(cover.yard), day)
    limit = plan.outfit.season.n_days * DAY_MIN if fair is None else fair
    return cover.ends_min <= limit


def _first(plan: Plan, cover: Cover, day: int) -> First:
    yard = plan.outfit.yard(cover.yard)
    fair = _next_fair(plan, yard, day)
    return First(
        yard=yard_named(plan.outfit, cover.yard),
        colonies=cover.colonies,
        ends=moment(plan.outfit, cover.ends_min),
        next_fair=moment(plan.outfit, fair) if fair is not None else tr("none in this plan"),
        do=_do_with_strips(plan, yard, day),
    )


def _do_with_strips(plan: Plan, yard: Yard, day: int) -> str:
    """Return what to give, with what strips that forbid feed ask first."""
    again_day = feed_again_day(plan, yard.id, day - 1)
    if again_day > day and not yard.left_alone:
        date = date_words(plan.outfit, again_day)
        return tr("no feed beside its strips before {date}: ask your vet", date=date)
    first = None if yard.left_alone else out_first(plan, yard.id, day * DAY_MIN)
    give = _do(plan, yard, day)
    return f"{first.in_short()}; {give}" if first else give


def _do(plan: Plan, yard: Yard, day: int) -> str:
    """Return what to give; a yard that is closed has no further blocks, by consent or not."""
    if yard.left_alone:
        return tr("ask the inspector: nothing may go in")
    if not _all_off(plan, yard, day):
        return tr("a block: honey is still on in this yard, so no syrup")
    planned = any(
        stop.shift.day == day and _stands(plan, day, stop.call, action)
        for stop, action in actions_at(plan, yard.id, Job.FEED)
    )
    if planned:
        return tr("syrup today, as planned")
    open_today = meet(_fair_hours(plan, yard, day), (whole_day(day),))
    if yard.health in CLOSED:
        return tr("syrup today, no block") if open_today else tr("ask the inspector: no block")
    return tr("syrup today, or a block") if open_today else tr("a block today")


def _out(rides: Iterable[tuple[Shift, Trip, WetTrip]]) -> Out:
    """Return who rides all the same, and when: with each trip of which some work stands."""
    found: Out = {}
    for shift, trip, sheet in rides:
        if sheet.goes():
            for person in shift.crew:
                found[person] = (*found.get(person, ()), trip_span(shift, trip))
    return found


def wet_days(plan: Plan) -> tuple[int, ...]:
    """Return the days on which a shut window would cost something: those with stops to come."""
    return tuple(sorted({one.shift.day for one in stops(plan) if not call_over(plan, one.call)}))


def wet_page(plan: Plan, day: int) -> str:
    """Return the sheet of ``day`` as a page."""
    sheet = wet_day(plan, day)
    after = tr("Ring the crews, then plan again: later days lean on the work that fell.")
    weather = bullets(sheet.weather)
    return office_page(
        plan,
        tr("If {date} is wet", date=sheet.date),
        tr("no honey comes off, no boards go on"),
        el("p", el("b", after)),
        section(tr("What is known of its weather"), weather) if sheet.weather else "",
        section(tr("Feed these first"), _first_table(sheet)),
        section(
            tr("Trips"),
            _lids(sheet),
            *(_trip_part(one, again=n > 0) for n, one in enumerate(sheet.trips)),
        ),
        section(tr("Under a roof"), bullets(sheet.indoors) or tr("Nothing waits there.")),
        home="../index.html",
    )


def _first_table(sheet: WetDay) -> Html:
    if not sheet.first:
        return el("p", tr("No stop-gap ends before the next fair hours."))
    lines: list[tuple[Part, ...]] = [
        (
            el("b", one.yard),
            str(one.colonies),
            el("b", whole(one.ends)),
            whole(one.next_fair),
            el("b", one.do),
        )
        for one in sheet.first
    ]
    heads = (tr("Yard"), tr("Colonies"), tr("Runs out"), tr("Next fair hours"), tr("Give"))
    return table(heads, lines)


def _lids(sheet: WetDay) -> Part:
    """Return how strips that stand go in, and others come out; nothing where none do."""
    stops = [stop for trip in sheet.trips for stop in trip.stops]
    words = []
    if any(stop.strips for stop in stops):
        go_in = mark(
            "Strips go in only in dry moments, with the lid off no longer than that takes."
        )
        words.append(tr(go_in))
    if any(stop.first for stop in stops):
        out = mark("Strips come out only in dry moments; where they cannot, no feed goes in.")
        words.append(tr(out))
    return el("p", el("b", " ".join(words))) if words else ""


def _told(stop: WetStop) -> str:
    """Return what stands at a stop, behind what must come out first."""
    return "; ".join(filter(None, (stop.first, stop.stands)))


def _trip_part(trip: WetTrip, *, again: bool) -> Html:
    lines: list[tuple[Part, ...]] = [
        (str(number), el("b", stop.yard), stop.falls, el("b", _told(stop)) if stop.stands else "")
        for number, stop in enumerate(trip.stops, start=trip.first)
    ]
    return el(
        "div",
        el("h3", f"{trip.truck} {trip.trip}: {trip.verdict()}"),
        table(
            (tr("Stop"), tr("Yard"), tr("Falls"), tr("Still stands")),
            lines,
            cls="falls again" if again else "falls",
        ),
    )
