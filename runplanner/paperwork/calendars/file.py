"""The campaign for a calendar program (RFC 5545): one event for each trip.

An event keeps its UID when the plan is made again, so that importing the file once more
moves events instead of doubling them.  What an earlier file held and the plan no longer
does goes into a second file, as events called off.

The calendar modules are the only door for icalendar.
"""

from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from runplanner.daybook.plan import Plan
from runplanner.daybook.same_trip import main_works
from runplanner.daybook.trip import Shift, Trip
from runplanner.paperwork.calendars.before import called_off, followed, is_off, read_events
from runplanner.paperwork.calendars.zone import zone_called, zone_part
from runplanner.paperwork.escape import shown
from runplanner.paperwork.speech.say import (
    count,
    crew_words,
    date_on,
    listed,
    place_name,
    vehicle_name,
    yard_named,
)
from runplanner.paperwork.speech.tongue import tr
from runplanner.paperwork.speech.trip_state import TripState, trip_state
from runplanner.paperwork.stop.one_stop import as_driven
from runplanner.paperwork.stop.unloading import take_back
from runplanner.paperwork.stop.way import call_name, call_words, numbered, trip_span

if TYPE_CHECKING:
    from icalendar import Calendar, Event

TRIPS_FILE = "calendar/trips.ics"
OFF_FILE = "calendar/called_off.ics"
CALENDAR_FILES = (TRIPS_FILE, OFF_FILE)
_PRODUCT = "-//runplanner//campaign of trips//EN"
_MOST_NAMED = 3


def calendar_files(plan: Plan, earlier: Sequence[str] = ()) -> dict[str, str]:
    """Return the calendar files of ``plan`` by name.

    Args:
        plan: The plan.
        earlier: Texts of the calendar files of an earlier plan of the same campaign.  Events
            that changed count on from them, and those that are gone are called off.
    """
    before = read_events(earlier, _campaign_key(plan))
    fresh = _events(plan, before)
    events = [followed(event, before.get(str(event["UID"]))) for event in fresh]
    gone = called_off(before, events, _bare(plan, _uid(plan, "")))
    files = {TRIPS_FILE: _text(plan, events)}
    return files | {OFF_FILE: _text(plan, gone)} if gone else files


def _text(plan: Plan, events: "Iterable[Event]") -> str:
    from icalendar import Calendar

    file, made = Calendar(), list(events)
    file.add("version", "2.0")
    file.add("prodid", _PRODUCT)
    file.add("calscale", "GREGORIAN")
    file.add("x-wr-calname", shown(plan.outfit.title, 60))
    _add_zones(file, made)
    for event in made:
        file.add_component(event)
    return bytes(file.to_ical()).decode("utf-8")


def _add_zones(file: "Calendar", events: "Sequence[Event]") -> None:
    """Write out every zone that a time is in; a time afloat is in none."""
    times = [moment for event in events for moment in (event.DTSTART, event.DTEND)]
    known = [moment for moment in times if isinstance(moment, datetime)]
    zones = {one.tzinfo.key: one.tzinfo for one in known if isinstance(one.tzinfo, ZoneInfo)}
    for name in sorted(zones):
        days = [moment.date() for moment in known]
        file.add_component(zone_part(zones[name], min(days), max(days)))


def _events(plan: Plan, before: "Mapping[str, Event]") -> "list[Event]":
    uids = _uids(plan, before)
    trips = [(shift, trip) for shift in as_driven(plan).shifts for trip in shift.trips]
    made = [(trip_span(*pair), uids[pair[1].id], pair) for pair in trips if pair[1].id in uids]
    made.sort(key=lambda one: one[:2])
    return [_event(plan, shift, trip, uid) for _, uid, (shift, trip) in made]


def _uids(plan: Plan, before: "Mapping[str, Event]") -> dict[str, str]:
    """Return the UID of each trip with a stop.

    A trip that has left keeps the one it had, though by counts, or by stops left out, other work
    is its weightiest now; unless that work names another trip.
    """
    works = main_works(plan).items()
    uids = {trip: _uid(plan, _digest(*map(str, work))) for trip, work in works}
    taken = set(uids.values())
    free = {
        _last_word(str(event["DESCRIPTION"])): uid for uid, event in sorted(before.items())
        if uid not in taken and "DESCRIPTION" in event and not is_off(event)
    }  # fmt: skip
    for trip in (trip for shift in plan.shifts for trip in shift.trips if trip.id in uids):
        sheet = _last_word(_sheet(trip))
        if sheet in free and trip_state(plan, trip) is not TripState.TO_LOAD:
            uids[trip.id] = free[sheet]
    return uids


def _last_word(text: str) -> str:
    """Return the trip's name at the end of what an event says, in whatever language."""
    return text.rpartition(" ")[2]


def _event(plan: Plan, shift: Shift, trip: Trip, uid: str) -> "Event":
    out, start = trip_span(shift, trip), plan.outfit.places[trip.calls[0].place]
    event = _bare(plan, uid)
    event.add("dtstart", _moment(plan, out.start_min))
    event.add("dtend", _moment(plan, out.end_min))
    event.add("summary", _summary(plan, shift, trip))
    event.add("description", "\n".join(_lines(plan, shift, trip)))
    event.add("location", place_name(plan.outfit, trip.calls[0].place))
    event.add("geo", (round(start.lat, 6), round(start.lon, 6)))
    event.add("status", "CONFIRMED")
    return event


def _campaign_key(plan: Plan) -> str:
    """Return a key for the outfit's campaign of that year."""
    return _digest(plan.outfit.name, plan.outfit.season.first_date[:4])[:12]


def _uid(plan: Plan, key: str) -> str:
    return f"{_campaign_key(plan)}-{key}@runplanner"


def _bare(plan: Plan, uid: str) -> "Event":
    """Return an event with nothing but its name and its revision.

    The hour of planning stands for revision and stamp: the computer's own clock would make
    the same plan give another file each time.
    """
    from icalendar import Event

    event = Event()
    event.add("uid", uid)
    event.add("sequence", max(0, plan.now_min))
    local = _moment(plan, max(0, plan.now_min))
    event.add("dtstamp", local.astimezone(UTC) if local.tzinfo else local.replace(tzinfo=UTC))
    return event


def _moment(plan: Plan, minute: int) -> datetime:
    """Return a minute of the campaign in its zone; afloat where no such zone is known."""
    midnight = datetime.combine(date_on(plan.outfit, 0), datetime.min.time())
    wall = midnight + timedelta(minutes=minute)
    return wall.replace(tzinfo=zone_called(plan.outfit.season.zone))


def _summary(plan: Plan, shift: Shift, trip: Trip) -> str:
    yards = [yard_named(plan.outfit, call.yard) for call in trip.yards()]
    names = yards[:_MOST_NAMED]
    if len(yards) > len(names):
        names.append(count(len(yards) - len(names), "more yard", "more yards"))
    boxes = trip.boxes()
    words = f"{vehicle_name(plan.outfit, shift.truck)}: {listed(tuple(names))}"
    if not boxes:
        return words
    return tr("{trip} ({boxes} back)", trip=words, boxes=count(boxes, "box", "boxes"))


def _lines(plan: Plan, shift: Shift, trip: Trip) -> list[str]:
    calls = [
        f"{call_name(plan, number, call)}: {call_words(plan, call)}"
        for number, call in numbered(trip)
    ]
    return [
        crew_words(plan.outfit, shift.crew),
        *calls,
        *take_back(plan.outfit, trip),
        _sheet(trip),
    ]


def _sheet(trip: Trip) -> str:
    """Return which sheet tells more: the last line of what an event says."""
    return tr("Sheet: {trip}", trip=shown(trip.id, 80))


def _digest(*words: str) -> str:
    """Return a short mark for ``words``, each set off by its length from the next."""
    text = "".join(f"{len(word)}:{word}" for word in words)
    return sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:32]
