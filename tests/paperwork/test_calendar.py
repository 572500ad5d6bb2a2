"""Tests of the calendar: read back by its library, zones judged by dateutil, lines by hand."""

import re
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from io import StringIO
from zoneinfo import ZoneInfo

import pytest
from dateutil.tz import tzical
from icalendar import Calendar, Event
from icalendar.cal.component import Component

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Shift
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.calendars.before import CALLED_OFF, LARGEST_CHARS
from runplanner.paperwork.calendars.file import OFF_FILE, TRIPS_FILE, calendar_files
from runplanner.paperwork.calendars.zone import zone_part
from runplanner.paperwork.escape import shown
from runplanner.paperwork.speech.tongue import speaking
from tests.outfits import an_outfit
from tests.paperwork.plans import (
    HOSTILE,
    IBC,
    Round,
    Stop,
    a_shift,
    block,
    boards,
    eight_stop_plan,
    feed,
    hostile_plan,
    small_plan,
    strips,
    take_off,
)


def trips(plan: Plan, *earlier: str) -> str:
    """The text of the calendar of trips."""
    return calendar_files(plan, earlier)[TRIPS_FILE]


def events(text: str) -> list[Event]:
    """The events of a file in its order."""
    read = Calendar.from_ical(text)
    assert isinstance(read, Component)
    found = [one for one in read.walk("VEVENT") if isinstance(one, Event)]
    assert [] == [one.errors for one in found if one.errors]
    return found


def by_uid(text: str) -> dict[str, Event]:
    """The events of a file by UID; each stands once."""
    found = events(text)
    assert len(found) == len({str(one["UID"]) for one in found})
    return {str(one["UID"]): one for one in found}


def with_shifts(plan: Plan, *shifts: Shift) -> Plan:
    """The same plan with other shifts."""
    return replace(plan, shifts=shifts)


def test_there_is_an_event_for_each_trip() -> None:
    """Four trips; from leaving home or coming back, to the next trip or home."""
    found = events(trips(eight_stop_plan()))

    assert [("06:00", "08:23"), ("08:23", "13:18"), ("05:00", "12:48"), ("06:00", "09:35")] == [
        (f"{one.DTSTART:%H:%M}", f"{one.DTEND:%H:%M}") for one in found
    ]
    assert ["01", "01", "02", "03"] == [f"{one.DTSTART:%d}" for one in found]


def test_an_event_says_who_where_and_what() -> None:
    """Summary, crew, every call with its jobs, where to load; neither gate nor phone."""
    event = events(trips(eight_stop_plan()))[2]

    assert (
        "Blue flat-deck: Kauri Flat, Old Woolshed, Pukatea Bend and 5 more yards (42 boxes back)"
        == str(event["SUMMARY"])
    )
    lines = str(event["DESCRIPTION"]).split("\n")
    assert "Anahera drives, with Bo" == lines[0]
    assert 12 == len(lines)
    assert lines[2].startswith("1 Kauri Flat: 05:40, leave 06:15, latest 06:50. Take off all 13")
    assert "Depot at Kaeo Road" == str(event["LOCATION"])
    assert "GEO:-35.3;174.1\r\n" in trips(eight_stop_plan())
    assert "4417" not in str(event["DESCRIPTION"])
    assert "555" not in str(event["DESCRIPTION"])


def test_times_are_in_the_zone_and_the_zone_is_written_out() -> None:
    """Each time names the zone; an outside reader finds the same instant by the file alone."""
    text = trips(small_plan())
    zone = tzical(StringIO(text)).get()

    assert zone is not None
    start = events(text)[0].DTSTART
    assert isinstance(start, datetime)
    assert "DTSTART;TZID=Pacific/Auckland:20270301T060000\r\n" in text
    # Summer time in New Zealand on 1 March, 13 hours ahead of UTC.
    assert datetime(2027, 2, 28, 17, tzinfo=UTC) == start
    assert start == start.replace(tzinfo=zone)


@pytest.mark.parametrize(
    "name",
    [
        "Pacific/Auckland", "Europe/Ljubljana", "America/Santiago", "Australia/Lord_Howe",
        "Asia/Tokyo", "Africa/Casablanca", "Pacific/Chatham", "America/New_York", "Europe/Dublin",
    ],
)  # fmt: skip
def test_a_zone_holds_hour_by_hour(name: str) -> None:
    """All hours of a year but those doubled or skipped, by a reader that sees only our text."""
    zone = ZoneInfo(name)
    part = zone_part(zone, date(2027, 1, 1), date(2027, 12, 31)).to_ical().decode()
    told = tzical(StringIO(f"BEGIN:VCALENDAR\r\n{part}END:VCALENDAR\r\n")).get()

    assert told is not None
    for hour in range(365 * 24):
        wall = datetime(2027, 1, 1, tzinfo=UTC).replace(tzinfo=None) + timedelta(hours=hour)
        here = wall.replace(tzinfo=zone)
        plain = here.astimezone(UTC).astimezone(zone) == here and (
            here.utcoffset() == here.replace(fold=1).utcoffset()
        )
        if plain:
            assert here.utcoffset() == wall.replace(tzinfo=told).utcoffset(), wall


def test_spring_begins_in_the_offset_before() -> None:
    """RFC 5545 section 3.6.5: 28 March 2027 02:00 in Ljubljana, told in winter time."""
    part = zone_part(ZoneInfo("Europe/Ljubljana"), date(2027, 3, 1), date(2027, 4, 1))

    assert "DTSTART:20270328T020000\r\nTZNAME:CEST\r\n" in part.to_ical().decode()


@pytest.mark.parametrize("zone", ["", "Not/Here", "../etc/passwd", "Pacific", "a\x00b", "x" * 300])
def test_an_unknown_zone_leaves_times_afloat(zone: str) -> None:
    """A plan file with a zone nobody knows: local times without a zone, as they stand."""
    plan = small_plan()
    season = replace(plan.outfit.season, zone=zone)
    text = trips(replace(plan, outfit=replace(plan.outfit, season=season)))

    assert "VTIMEZONE" not in text
    assert "DTSTART:20270301T060000\r\n" in text
    assert "DTSTAMP:20270301T000000Z\r\n" in text


def test_utc_needs_no_zone() -> None:
    """Times in UTC end in Z."""
    plan = small_plan()
    season = replace(plan.outfit.season, zone="Etc/UTC")
    text = trips(replace(plan, outfit=replace(plan.outfit, season=season)))

    assert "DTSTART:20270301T060000Z\r\n" in text


def test_lines_are_as_the_rfc_wants_them() -> None:
    """RFC 5545 section 3.1: CR LF at each end, at most 75 bytes, in UTF-8."""
    raw = trips(hostile_plan()).encode("utf-8")

    lines = raw.split(b"\r\n")
    assert b"" == lines[-1]
    assert all(len(line) <= 75 for line in lines)
    assert not any(b"\n" in line or b"\r" in line for line in lines)


def test_hostile_words_make_no_line_of_their_own() -> None:
    """The same properties as with plain names; the words come back as typed."""

    def shape(text: str) -> list[str]:
        unfolded = re.sub("\r\n ", "", text)
        return [line.split(":")[0].split(";")[0] for line in unfolded.split("\r\n")]

    assert shape(trips(small_plan())) == shape(trips(hostile_plan()))
    event = events(trips(hostile_plan()))[0]
    assert str(event["SUMMARY"]).startswith('=HYPERLINK("x","y"): {{7*7}} {% x %}')
    assert shown(HOSTILE[3], 48) == str(event["LOCATION"])


@pytest.mark.parametrize(
    "said",
    [
        "x\nBEGIN:VEVENT\nUID:evil\nEND:VEVENT", "x\r\nATTENDEE:mailto:a@b", "a;b,c\\n d:e",
        "END:VCALENDAR", "a\ud800b\x00\x0b", "\\", 'x";TZID="y', "^n^'^^",
    ],
)  # fmt: skip
def test_a_name_cannot_leave_its_property(said: str) -> None:
    """Line ends, separators and marks in a title and in a yard's name stay words."""
    plan = small_plan()
    yard = replace(plan.outfit.yards[0], name=said)
    outfit = replace(plan.outfit, title=said, yards=(yard, plan.outfit.yards[1]))
    text = trips(replace(plan, outfit=outfit))
    found = events(text)

    assert 3 == len(found)
    assert f"Truck 1: {shown(said, 48)} (15 boxes back)" == str(found[0]["SUMMARY"])
    assert "evil" not in {str(one["UID"]) for one in found}
    assert "ATTENDEE" not in found[0]


# ------------------------------------------------------------ planning again


def test_the_same_plan_gives_the_same_file() -> None:
    """No clock: stamps are the hour of planning; following on from itself changes nothing."""
    text = trips(small_plan())

    assert text == trips(small_plan())
    assert {TRIPS_FILE: text} == calendar_files(small_plan(), [text])
    assert [datetime(2027, 2, 28, 11, tzinfo=UTC)] * 3 == [one.DTSTAMP for one in events(text)]


def test_uids_hang_on_no_number() -> None:
    """Other trip ids, shifts in another order: the same UIDs for the same work."""
    plan = eight_stop_plan()
    named = [
        replace(
            shift,
            trips=tuple(
                replace(trip, id=f"other-{i}-{trip.id}") for i, trip in enumerate(shift.trips)
            ),
        )
        for shift in plan.shifts[::-1]
    ]

    wanted = {uid: one.DTSTART for uid, one in by_uid(trips(plan)).items()}
    assert wanted == {
        uid: one.DTSTART for uid, one in by_uid(trips(with_shifts(plan, *named))).items()
    }


def test_uids_stay_when_a_trip_changes() -> None:
    """Later, on another day, with another truck, with a small stop more: still the same trip."""
    plan = small_plan()
    rounds = [Round("x", (Stop(1, 90, (take_off(10, 15), block(10))), Stop(2, 20, (boards(10),))))]
    moved = a_shift(plan.outfit, 2, rounds, start=9 * 60, truck="truck1", crew=("bob",))
    again = with_shifts(plan, plan.shifts[1], moved, plan.shifts[2])

    # Strips of yard 1 and the take-off of yard 2 are in other trips, as before.
    assert set(by_uid(trips(plan))) == set(by_uid(trips(again)))
    before, after = by_uid(trips(plan)), by_uid(trips(again))
    changed = [uid for uid in before if before[uid].DTSTART != after[uid].DTSTART]
    assert 1 == len(changed)
    assert "03-03 09:00" == f"{after[changed[0]].DTSTART:%m-%d %H:%M}"


def test_each_part_of_a_split_yard_has_its_own_uid() -> None:
    """Yard 5 is taken off in two trips, and the eight-stop plan feeds in rounds: no UID twice."""
    assert 4 == len(by_uid(trips(eight_stop_plan())))

    outfit = an_outfit([(10, 0)])
    days = [
        a_shift(outfit, day, [Round(f"t{day}", (Stop(1, 30, (take_off(5, 7),)),))])
        for day in range(2)
    ]
    assert 2 == len(by_uid(trips(replace(small_plan(), outfit=outfit, shifts=tuple(days)))))


def test_a_stop_without_jobs_still_names_a_trip() -> None:
    """A trip of nothing but a look has an event of its own."""
    outfit = an_outfit([(10, 0)])
    days = [a_shift(outfit, day, [Round(f"t{day}", (Stop(1, 30, ()),))]) for day in range(2)]

    assert 2 == len(by_uid(trips(replace(small_plan(), outfit=outfit, shifts=tuple(days)))))


def test_the_weightiest_work_names_a_trip() -> None:
    """A take-off outweighs feed and strips, and many colonies outweigh few."""
    outfit = an_outfit()

    def uid(*stops: Stop) -> str:
        shift = a_shift(outfit, 0, [Round("t", stops, (IBC,))])
        (made,) = by_uid(trips(replace(small_plan(), outfit=outfit, shifts=(shift,))))
        return made

    alone = uid(Stop(1, 30, (take_off(4, 6),)))
    assert alone == uid(Stop(2, 30, (feed(10, 50), strips(10))), Stop(1, 30, (take_off(4, 6),)))
    assert alone != uid(Stop(2, 30, (take_off(9, 6),)), Stop(1, 30, (take_off(4, 6),)))


def test_another_year_or_outfit_is_another_campaign() -> None:
    """The same work elsewhere or next year shares no UID; a start moved by days does."""
    plan = small_plan()

    def uids(outfit: Outfit) -> set[str]:
        return set(by_uid(trips(replace(plan, outfit=outfit))))

    season = plan.outfit.season
    other = uids(replace(plan.outfit, name="other"))
    later = uids(replace(plan.outfit, season=replace(season, first_date="2028-03-01")))
    shifted = uids(replace(plan.outfit, season=replace(season, first_date="2027-02-27")))
    assert set() == uids(plan.outfit) & other
    assert set() == uids(plan.outfit) & later
    assert uids(plan.outfit) == shifted


def later_by(plan: Plan, minutes: int, shift: int = 0) -> Plan:
    """The plan with one shift's start and end moved."""
    old = plan.shifts[shift]
    moved = replace(old, start_min=old.start_min + minutes, end_min=old.end_min + minutes)
    return replace(plan, shifts=(*plan.shifts[:shift], moved, *plan.shifts[shift + 1 :]))


def test_what_changed_counts_on_and_what_did_not_stays() -> None:
    """Sequence 0, then 1 for the moved trip alone, then 2; and back at first place 3."""
    first = trips(small_plan())
    second = trips(later_by(small_plan(), 10), first)
    third = trips(later_by(small_plan(), 20), second)
    fourth = trips(small_plan(), third)

    assert [[0, 0, 0], [1, 0, 0], [2, 0, 0], [3, 0, 0]] == [
        [one.sequence for one in events(text)] for text in (first, second, third, fourth)
    ]
    assert ["06:00", "06:10", "06:20", "06:00"] == [
        f"{events(text)[0].DTSTART:%H:%M}" for text in (first, second, third, fourth)
    ]


def test_a_plan_made_later_outranks_one_made_before() -> None:
    """Without the earlier file the hour of planning is the sequence: two days in, 2880."""
    again = replace(later_by(small_plan(), 10), now_min=2 * DAY_MIN)
    found = events(trips(again))

    assert [2880, 2880, 2880] == [one.sequence for one in found]
    assert datetime(2027, 3, 2, 11, tzinfo=UTC) == found[0].DTSTAMP
    # With the earlier file only the one that changed is of today.
    assert [2880, 0, 0] == [one.sequence for one in events(trips(again, trips(small_plan())))]


def test_a_trip_that_falls_away_is_called_off() -> None:
    """It stands in the second file: cancelled, in words as well, one revision on."""
    plan = small_plan()
    first = calendar_files(plan)
    fewer = calendar_files(with_shifts(plan, *plan.shifts[:2]), [first[TRIPS_FILE]])

    assert {TRIPS_FILE} == set(first)
    assert 2 == len(events(fewer[TRIPS_FILE]))
    (gone,) = events(fewer[OFF_FILE])
    was = events(first[TRIPS_FILE])[2]
    assert (str(was["UID"]), "CANCELLED", 1) == (
        str(gone["UID"]), str(gone["STATUS"]), gone.sequence,
    )  # fmt: skip
    assert CALLED_OFF + str(was["SUMMARY"]) == str(gone["SUMMARY"])
    assert was.DTSTART == gone.DTSTART
    assert "BEGIN:VTIMEZONE" in fewer[OFF_FILE]


def test_a_trip_that_has_left_is_never_called_off() -> None:
    """Its weightiest stop is left out on the way: the event it had tells the rest, from then on.

    Still to load, it is called off as another trip.
    """
    plan = eight_stop_plan()
    now = plan.shifts[1].trips[0].calls[0].start_min + 1
    (long_day,) = plan.shifts[1].trips
    most = max(one.colonies for call in long_day.calls for one in call.actions)
    rest = tuple(
        call for call in long_day.calls if all(one.colonies < most for one in call.actions)
    )

    def left(*, driven: bool) -> Plan:
        trip = replace(long_day, calls=rest, driven=driven)
        shift = replace(plan.shifts[1], trips=(trip,))
        return replace(plan, shifts=(plan.shifts[0], shift, *plan.shifts[2:]), now_min=now)

    first = trips(plan)
    under_way = calendar_files(left(driven=True), [first])

    assert 3 < len(rest) < len(long_day.calls)
    assert OFF_FILE not in under_way
    assert set(by_uid(first)) == set(by_uid(under_way[TRIPS_FILE]))
    assert under_way == calendar_files(left(driven=True), [under_way[TRIPS_FILE]])
    with speaking("de"):
        assert OFF_FILE not in calendar_files(left(driven=True), [first])
    assert OFF_FILE in calendar_files(left(driven=False), [first])


def test_what_is_called_off_stays_so_and_can_come_back() -> None:
    """Planned again without it: no change. With it: live once more, a revision on."""
    plan = small_plan()
    fewer = with_shifts(plan, *plan.shifts[:2])
    off = calendar_files(fewer, [trips(plan)])
    still = calendar_files(fewer, list(off.values()))
    back = calendar_files(plan, list(still.values()))

    assert off == still
    assert {TRIPS_FILE} == set(back)
    assert [("CONFIRMED", 0), ("CONFIRMED", 0), ("CONFIRMED", 2)] == [
        (str(one["STATUS"]), one.sequence) for one in events(back[TRIPS_FILE])
    ]


def test_last_years_calendar_is_left_alone() -> None:
    """Events of another campaign, or of the user, are neither changed nor called off."""
    plan = small_plan()
    season = replace(plan.outfit.season, first_date="2026-03-01")
    last = trips(replace(plan, outfit=replace(plan.outfit, season=season)))
    stamp = "DTSTAMP:20270101T000000Z\r\nDTSTART:20270301T080000\r\nDTEND:20270301T090000\r\n"
    own = f"BEGIN:VEVENT\r\nUID:dentist\r\n{stamp}END:VEVENT\r\n"

    assert calendar_files(plan) == calendar_files(plan, [last, own])


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("DTSTART", "DTSTRAT"),
        ("SEQUENCE:0", "SEQUENCE:many"),
        ("SEQUENCE:0", "SEQUENCE:1\r\nSEQUENCE:2"),
        ("DTSTART;TZID=Pacific/Auckland:2027", "DTSTART;VALUE=TIME:"),
        ("DTSTART;TZID=Pacific/Auckland:20270301T060000", "DTSTART;VALUE=TIME:060000"),
        ("BEGIN:VEVENT", "BEGIN:VEVENT\r\nBEGIN:VALARM\r\nEND:VALARM"),
        ("END:VEVENT", "BEGIN:VEVENT\r\nEND:VEVENT"),
        ("END:VEVENT", ""),
        ("UID:", "UID:\x00"),
        ("UID:", "UID;X=\ud800:"),
        (":", ";"),
        ("BEGIN:VCALENDAR", " " * LARGEST_CHARS),
        ("SUMMARY", "RRULE:FREQ=SECONDLY\r\nSUMMARY"),
        ("TZNAME:NZDT", "TZNAME:NZDT\r\nRRULE:FREQ=SECONDLY"),
    ],
    ids=str,
)
def test_a_damaged_calendar_stops_nobody(old: str, new: str) -> None:
    """Whatever stands where the earlier file was, the new one has the plan's three trips."""
    damaged = trips(small_plan()).replace(old, new)
    found = events(trips(later_by(small_plan(), 10), damaged))

    assert ["06:10", "06:00", "08:00"] == [f"{one.DTSTART:%H:%M}" for one in found]


@pytest.mark.parametrize("text", ["", "nothing of the kind", "END:VEVENT", "BEGIN:VEVENT"])
def test_no_calendar_is_no_trouble(text: str) -> None:
    """Other text in its place is as good as nothing."""
    assert calendar_files(small_plan()) == calendar_files(small_plan(), [text])


def test_of_two_revisions_the_later_counts() -> None:
    """The same event in both earlier files: sequence goes on from the higher."""
    first = trips(small_plan())
    second = trips(later_by(small_plan(), 10), first)
    for order in ((first, second), (second, first)):
        assert [2, 0, 0] == [
            one.sequence for one in events(trips(later_by(small_plan(), 20), *order))
        ]


def test_a_plan_without_trips_is_an_empty_calendar() -> None:
    """No event, no zone, and still a calendar."""
    text = trips(replace(small_plan(), shifts=()))

    assert [] == events(text)
    assert text.startswith("BEGIN:VCALENDAR\r\nVERSION:2.0\r\n")
