"""One day of the campaign: who drives, who spins, who mixes, and the trips by the clock."""

from collections.abc import Iterator
from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, CallKind, Shift, Trip
from runplanner.days import DAY_MIN, clock, day_of
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Person
from runplanner.paperwork.days.strips_due import due_part
from runplanner.paperwork.escape import file_name
from runplanner.paperwork.lists.cover_list import CoverLine, lines_on, short_line
from runplanner.paperwork.lists.held import held_part
from runplanner.paperwork.lists.undone_list import undone_part
from runplanner.paperwork.sheet.frame import office_page, section, whole
from runplanner.paperwork.sheet.page import Html, Part, bullets, el, link, put, table
from runplanner.paperwork.speech.own_way import own_ways
from runplanner.paperwork.speech.say import (
    count,
    crew_words,
    date_words,
    duration,
    km_up,
    listed,
    litres,
    people_names,
    person_name,
    stretch,
    vehicle_name,
    yard_named,
)
from runplanner.paperwork.speech.substances import burns, strips_words
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.speech.trip_state import TripState, trip_state
from runplanner.paperwork.speech.weather_words import day_weather
from runplanner.paperwork.stop.base_breaks import base_breaks
from runplanner.paperwork.stop.hives_carried import carried_in, carrying_days
from runplanner.paperwork.stop.one_stop import shift_as_driven
from runplanner.paperwork.stop.yard_words import stop_words
from runplanner.trade.strips import CORROSIVE

_BREAK = mark("break {times}")


@dataclass(frozen=True, slots=True)
class PersonLine:
    """What one person does in each half of the day, and how long that is, breaks counted."""

    name: str
    morning: str
    afternoon: str
    duty: str = ""


@dataclass(frozen=True, slots=True)
class StopLine:
    """One stop: when, where, what.

    ``at`` is from coming to leaving, as on the driver's paper.  ``begin`` is set where the
    work waits, ``rest`` where a break lies between.
    """

    at: str
    yard: str
    jobs: tuple[str, ...]
    begin: str = ""
    rest: str = ""


@dataclass(frozen=True, slots=True)
class TripLine:
    """One trip with its stops; ``care`` where something aboard burns."""

    trip: str
    at: str
    load: str
    stops: tuple[StopLine, ...]
    state: TripState
    care: str = ""


@dataclass(frozen=True, slots=True)
class ShiftLine:
    """One truck's day."""

    vehicles: str
    crew: str
    at: str
    driving: str
    breaks: str
    trips: tuple[TripLine, ...]


@dataclass(frozen=True, slots=True)
class DaySheet:
    """One day."""

    date: str
    people: tuple[PersonLine, ...]
    shifts: tuple[ShiftLine, ...]
    house: tuple[str, ...]
    runs_out: tuple[CoverLine, ...]
    weather: tuple[str, ...] = ()
    night: tuple[str, ...] = ()


def busy_days(plan: Plan) -> tuple[int, ...]:
    """Return every day on which, or in whose night, anybody does anything."""
    days = {shift.day for shift in plan.shifts}
    days |= {day_of(spin.start_min) for spin in plan.spinning}
    days |= {day_of(mix.start_min) for mix in plan.mixing}
    days |= carrying_days(plan.outfit)
    return tuple(sorted(days))


def day_sheet(plan: Plan, day: int) -> DaySheet:
    """Return the sheet of ``day``; what runs out today or tomorrow is named."""
    return DaySheet(
        date=date_words(plan.outfit, day),
        people=tuple(_person(plan, person, day) for person in plan.outfit.people),
        shifts=tuple(_shift(plan, shift) for shift in shifts_on(plan, day)),
        house=(*(line for _, line in sorted(house_lines(plan, day))), *own_ways(plan, day)),
        runs_out=lines_on(plan, day, day + 1),
        weather=day_weather(plan, day),
        night=tuple(carried_in(plan, day)),
    )


def shifts_on(plan: Plan, day: int) -> list[Shift]:
    """Return the shifts of one day as they are driven, the earliest first."""
    found = [shift_as_driven(plan.outfit, shift) for shift in plan.shifts if shift.day == day]
    return sorted(found, key=lambda shift: (shift.start_min, shift.truck))


def house_lines(plan: Plan, day: int) -> Iterator[tuple[int, str]]:
    """Yield the day's spinning and mixing and the breaks between, with their starts, in words."""
    for spin in plan.spinning:
        if day_of(spin.start_min) == day:
            who = people_names(plan.outfit, spin.people)
            boxes = count(spin.boxes, "box", "boxes")
            when = stretch(spin.start_min, spin.end_min)
            words = tr("{times} spin: {people}, {boxes}", times=when, people=who, boxes=boxes)
            yield spin.start_min, words
    for mix in plan.mixing:
        if day_of(mix.start_min) == day:
            who = person_name(plan.outfit, mix.person)
            when, amount = stretch(mix.start_min, mix.end_min), litres(mix.ml)
            words = tr("{times} mix: {person}, {litres}", times=when, person=who, litres=amount)
            yield mix.start_min, words
    for span, people in base_breaks(plan, day):
        names = people_names(plan.outfit, people)
        words = tr("{times} break: {people}", times=stretch(*span), people=names)
        yield span.start_min, words


def _person(plan: Plan, person: Person, day: int) -> PersonLine:
    idle = tr("away") if day in person.off_days else tr("free")
    noon = day * DAY_MIN + plan.outfit.hours.noon_min
    found = duties(plan, person.id, day)
    morning = [words for start, _, words in found if start < noon]
    afternoon = [words for _, end, words in found if end > noon]
    return PersonLine(
        person_name(plan.outfit, person.id),
        ", ".join(dict.fromkeys(morning)) or idle,
        ", ".join(dict.fromkeys(afternoon)) or idle,
        duration(max(end for _, end, _ in found) - found[0][0]) if found else "",
    )


def duties(plan: Plan, person: str, day: int) -> list[tuple[int, int, str]]:
    """Return what somebody does on a day, by start: start and end in minutes, and in words."""
    return sorted(_duties(plan, person, day))


def _duties(plan: Plan, person: str, day: int) -> Iterator[tuple[int, int, str]]:
    for shift in shifts_on(plan, day):
        if person in shift.crew:
            truck = vehicle_name(plan.outfit, shift.truck)
            words = mark("drives {truck}") if shift.crew[0] == person else mark("rides on {truck}")
            yield shift.start_min, shift.end_min, tr(words, truck=truck)
    for spin in plan.spinning:
        if day_of(spin.start_min) == day and person in spin.people:
            yield spin.start_min, spin.end_min, tr("spins")
    for mix in plan.mixing:
        if day_of(mix.start_min) == day and person == mix.person:
            yield mix.start_min, mix.end_min, tr("mixes")


def _shift(plan: Plan, shift: Shift) -> ShiftLine:
    outfit = plan.outfit
    trailer = f" + {vehicle_name(outfit, shift.trailer)}" if shift.trailer else ""
    way = km_up(shift.metres)
    return ShiftLine(
        vehicles=vehicle_name(outfit, shift.truck) + trailer,
        crew=crew_words(outfit, shift.crew),
        at=tr("{start} to {end}", start=clock(shift.start_min), end=clock(shift.end_min)),
        driving=tr("driving {time}, {way}", time=duration(shift.driving_min), way=way),
        breaks=", ".join(stretch(*span) for span in shift.breaks),
        trips=tuple(_trip(plan, shift, trip) for trip in shift.trips),
    )


def _trip(plan: Plan, shift: Shift, trip: Trip) -> TripLine:
    outfit = plan.outfit
    return TripLine(
        trip=trip.id,
        at=stretch(trip.calls[0].start_min, trip.calls[-1].end_min),
        load=load_words(outfit, trip),
        stops=tuple(_stop(plan, shift, call) for call in trip.yards()),
        state=trip_state(plan, trip),
        care=tr(CORROSIVE) if burns(outfit, trip) else "",
    )


def load_words(outfit: Outfit, trip: Trip) -> str:
    """Return what a trip takes from the feed store, in a few words."""
    aboard = next(call.after for call in trip.calls if call.kind is CallKind.LOAD)
    goods = (
        (aboard.ml, litres(aboard.ml)),
        (aboard.blocks, count(aboard.blocks, "block", "blocks")),
        (aboard.wet, count(aboard.wet, "wet box", "wet boxes")),
        (aboard.boards, count(aboard.boards, "board", "boards")),
        (aboard.strips, strips_words(outfit, trip)),
        (aboard.feeders, count(aboard.feeders, "feeder", "feeders")),
    )
    return ", ".join(words for number, words in goods if number) or tr("nothing")


def _stop(plan: Plan, shift: Shift, call: Call) -> StopLine:
    rests = [span for span in shift.breaks if call.arrive_min <= span.start_min < call.leave_min]
    return StopLine(
        at=stretch(call.arrive_min, call.leave_min),
        yard=yard_named(plan.outfit, call.yard),
        jobs=stop_words(plan, call),
        begin=clock(call.start_min) if call.start_min > call.arrive_min else "",
        rest=listed(tuple(stretch(*span) for span in rests)),
    )


def day_page(plan: Plan, day: int) -> str:
    """Return the sheet of ``day`` as a page."""
    sheet = day_sheet(plan, day)
    people: list[tuple[Part, ...]] = [
        (el("b", one.name), one.morning, one.afternoon, whole(one.duty)) for one in sheet.people
    ]
    return office_page(
        plan,
        sheet.date,
        tr("who does what"),
        table(("", tr("Morning"), tr("Afternoon"), tr("On duty")), people, cls="people"),
        *(_shift_part(shift, again=number > 0) for number, shift in enumerate(sheet.shifts)),
        held_part(plan, day),
        due_part(plan, day),
        section(tr("Honey house and feed store"), bullets(sheet.house)) if sheet.house else "",
        section(tr("Night"), bullets(sheet.night)) if sheet.night else "",
        _runs_out(sheet),
        section(tr("Weather"), bullets(sheet.weather)) if sheet.weather else "",
        undone_part(plan, priced=False),
        home="../index.html",
    )


def _shift_part(shift: ShiftLine, *, again: bool) -> Html:
    breaks = f"; {tr(_BREAK, times=shift.breaks)}" if shift.breaks else ""
    return section(
        f"{shift.at} {shift.vehicles}",
        el("p", el("b", shift.crew), f"; {shift.driving}{breaks}"),
        *(_trip_part(trip, again=again or n > 0) for n, trip in enumerate(shift.trips)),
    )


def _trip_part(trip: TripLine, *, again: bool) -> Html:
    lines: list[tuple[Part, ...]] = [
        (_hours(one), el("b", one.yard), "; ".join(one.jobs)) for one in trip.stops
    ]
    head = put(
        tr("Trip {times}, load {goods}", times=trip.at, goods=trip.load),
        " \u00b7 ",
        link(tr("driver's paper"), f"../manifests/{file_name(trip.trip)}.html"),
        "" if trip.state is TripState.TO_LOAD else f" ({tr(trip.state)})",
    )
    heads = (tr("At"), tr("Yard"), tr("Jobs"))
    care = el("p", el("b", trip.care)) if trip.care else ""
    return put(el("h3", head), care, table(heads, lines, cls="calls again" if again else "calls"))


def _hours(stop: StopLine) -> Html:
    """Return when the truck is there, and below when work waits or rests."""
    begin = tr("start {time}", time=stop.begin) if stop.begin else ""
    rest = tr(_BREAK, times=stop.rest) if stop.rest else ""
    below = "; ".join(words for words in (begin, rest) if words)
    return put(el("b", stop.at), el("p", el("small", below)) if below else "")


def _runs_out(sheet: DaySheet) -> Part:
    if not sheet.runs_out:
        return ""
    lines = [short_line(line) for line in sheet.runs_out]
    return section(tr("Runs out today or tomorrow"), bullets(lines, cls="marked"))
