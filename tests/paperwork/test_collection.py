"""Tests of the proposed trips that fetch strips."""

from collections.abc import Sequence
from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.outfit.bases import Travel
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Access, Health
from runplanner.paperwork.lists.collection import Collection, collections
from runplanner.paperwork.lists.strips_page import strips_page
from runplanner.paperwork.speech.tongue import speaking
from runplanner.phrase import phrase
from tests.outfits import a_truck, a_yard, an_outfit
from tests.paperwork.pages import Page
from tests.paperwork.plans import Round, Stop, a_shift, small_plan, strips

Spots = Sequence[tuple[int, int]]


def treated(spots: Spots, days: Sequence[int] | None = None, **changes: object) -> Plan:
    """A plan that puts strips into a yard at each spot, on day 0 or as told."""
    yards = tuple(a_yard(n + 1, days=30) for n in range(len(spots)))
    outfit = an_outfit(spots, yards, days=30, **changes)
    when = days or [0] * len(spots)
    shifts = tuple(
        a_shift(outfit, day, [Round(f"t{n}", (Stop(n + 1, 20, (strips(10),)),))])
        for n, day in enumerate(when)
    )
    return replace(small_plan(), outfit=outfit, shifts=shifts)


def with_health(plan: Plan, *states: Health, access: Access | None = None) -> Plan:
    """The plan with its yards in these states of health, and all behind the same gate."""
    yards = tuple(
        replace(yard, health=health, access=access or yard.access)
        for yard, health in zip(plan.outfit.yards, states, strict=True)
    )
    return replace(plan, outfit=replace(plan.outfit, yards=yards))


def grouped(plan: Plan) -> list[list[str]]:
    """The yards of each trip."""
    return [[one.yard for one in trip.pickups] for trip in collections(plan)]


def no_road(outfit: Outfit, place: int) -> Travel:
    """The travel table with no road to or from one place."""
    n = len(outfit.places)
    cells = [
        [None if place in {i, j} and i != j else outfit.travel.minutes[i][j] for j in range(n)]
        for i in range(n)
    ]
    rows = tuple(tuple(row) for row in cells)
    return Travel(rows, rows, phrase("test"))


def test_neighbours_share_a_trip() -> None:
    """Out to 10, on to 12 and 14, home: 28 km, 28 min; the order is by nearness.

    Ten colonies a minute each and 10 min at each yard: 20 min a yard.
    """
    (trip,) = collections(treated([(10, 0), (14, 0), (12, 0)]))

    assert ["yard1", "yard3", "yard2"] == [one.yard for one in trip.pickups]
    assert (28, 60, 60) == (trip.drive_min, trip.work_min, trip.pieces())


def test_the_slowest_truck_and_hour_count() -> None:
    """Out and home 10 min each by the table: at half the speed 20, at 150 % for that 30."""
    plan = treated([(10, 0)], trucks=(a_truck(1), replace(a_truck(2), speed_permille=500)))
    (trip,) = collections(plan)
    travel = replace(plan.outfit.travel, by_hour=(1500, *(1000,) * 23))
    (busy,) = collections(replace(plan, outfit=replace(plan.outfit, travel=travel)))

    assert (40, 60) == (trip.drive_min, busy.drive_min)


def test_the_dates_are_those_that_all_its_yards_share() -> None:
    """In on days 0 and 5, out after 42 to 70 days: 47 to 70."""
    (trip,) = collections(treated([(10, 0), (12, 0)], [0, 5]))

    assert (47, 70) == (trip.from_day, trip.to_day)


def test_dates_that_do_not_meet_part_the_yards() -> None:
    """Strips due out on one day only, in on two days: two trips though the yards touch."""
    outfit = an_outfit()
    short = replace(outfit.strips, out_after_days=42, out_before_days=42)

    assert [["yard1"], ["yard2"]] == grouped(treated([(10, 0), (10, 1)], [0, 1], strips=short))


def test_a_trip_ends_where_the_day_does() -> None:
    """Each yard is 90 min out, 180 min apart: 180 driving alone, 360 together; 300 are allowed."""
    outfit = an_outfit()
    day = replace(outfit.hours, driving_max_min=300)

    assert [["yard1"], ["yard2"]] == grouped(treated([(90, 0), (-90, 0)], hours=day))
    assert [["yard1", "yard2"]] == grouped(treated([(90, 0), (-90, 0)]))
    # Work counts as well: 180 + 180 driving, 40 of work, against 390 of duty.
    duty = replace(outfit.hours, duty_max_min=390)
    assert [["yard1"], ["yard2"]] == grouped(treated([(90, 0), (-90, 0)], hours=duty))


def test_a_nearer_yard_that_no_longer_fits_makes_room_for_a_further_one() -> None:
    """Yard 2 is next door but its dates are over; yard 3 further on is taken along."""
    outfit = an_outfit()
    short = replace(outfit.strips, out_after_days=42, out_before_days=43)
    plan = treated([(10, 0), (11, 0), (20, 0)], [0, 5, 1], strips=short)

    assert [["yard1", "yard3"], ["yard2"]] == grouped(plan)


def test_a_yard_without_a_road_goes_alone() -> None:
    """Where no road is known no time is made up."""
    plan = treated([(10, 0), (12, 0)])
    cut_off = replace(plan, outfit=replace(plan.outfit, travel=no_road(plan.outfit, 1)))

    found = collections(cut_off)
    assert {None, 24} == {trip.drive_min for trip in found}
    assert 2 == len(found)
    assert "no road known" in Page(strips_page(cut_off)).text


def test_every_strip_comes_out_once() -> None:
    """Whatever the grouping, each yard is in one trip, within its own dates."""
    plan = treated([(40 * (n % 5), 30 * (n // 5)) for n in range(12)], [n % 4 for n in range(12)])
    found: tuple[Collection, ...] = collections(plan)

    assert sorted(yard.id for yard in plan.outfit.yards) == sorted(
        one.yard for trip in found for one in trip.pickups
    )
    for trip in found:
        for one in trip.pickups:
            assert one.from_day <= trip.from_day <= trip.to_day <= one.to_day


def test_the_page_calls_it_a_proposal() -> None:
    """The trip with its dates past the campaign, and what binds."""
    text = Page(strips_page(treated([(10, 0), (12, 0)]))).text

    assert "A proposal, past the campaign" in text
    assert "Mon 12 Apr 2027" in text
    assert (
        "1 Yard 1 20 strips out. 2 Yard 2 20 strips out. 40 about 24 min about 40 min about 1 h 04"
        in text
    )


def test_what_is_fetched_and_brought_is_told_yard_by_yard() -> None:
    """Three of ten have died in yard 2: 14 go in there.  A yard alone on its trip has all."""
    plan = treated([(10, 0), (12, 0)])
    kind = replace(plan.outfit.strips, substance="thymol", twice=True)
    first, second = plan.outfit.yards
    outfit = replace(plan.outfit, strips=kind, yards=(first, replace(second, colonies=7)))
    text = Page(strips_page(replace(plan, outfit=outfit))).text

    assert "1 Yard 1 20 strips out, 20 in. 2 Yard 2 20 strips out, 14 in. 40 ; bring 34" in text
    assert "strips out." not in Page(strips_page(small_plan())).text


def test_a_watched_yard_is_the_last_of_its_trip() -> None:
    """Out to 10, then 12 by nearness; yard 1 at 10 is watched, so 12, 14 and back to it.

    12 out, 2 on, 4 back to yard 1 and 10 home: 28 km.
    """
    plan = with_health(
        treated([(10, 0), (12, 0), (14, 0)]), Health.WATCH, Health.SOUND, Health.SOUND
    )
    (trip,) = collections(plan)

    assert ["yard2", "yard3", "yard1"] == [one.yard for one in trip.pickups]
    assert 28 == trip.drive_min
    text = Page(strips_page(plan)).text
    assert "3 Yard 1 20 strips out. watch: own tools, clean hands and kit afterwards." in text
    assert "A watched yard stays the last of its trip" in text


def test_a_second_watched_yard_has_a_trip_of_its_own() -> None:
    """Nothing is visited after a watched yard; the sound yard goes with the first."""
    plan = with_health(
        treated([(10, 0), (12, 0), (14, 0)]), Health.WATCH, Health.WATCH, Health.SOUND
    )

    assert [["yard3", "yard1"], ["yard2"]] == grouped(plan)


def test_what_is_near_is_near_the_last_sound_yard() -> None:
    """Yard 1, watched, is at 10; from yard 2 at 12 the next is 3 at 16, not 4 at 7.

    7 is 3 km from the watched yard and 5 from yard 2, 16 is 4 from yard 2.
    """
    states = (Health.WATCH, Health.SOUND, Health.SOUND, Health.SOUND)
    plan = with_health(treated([(10, 0), (12, 0), (16, 0), (7, 0)]), *states)

    assert [["yard2", "yard3", "yard4", "yard1"]] == grouped(plan)


def test_suspect_yards_and_standstills_are_visited_alone() -> None:
    """Their words stand beside them; 20 min of washing (test outfit) are work: 10 + 10 + 20."""
    states = (Health.SUSPECT, Health.STANDSTILL, Health.SOUND, Health.SOUND)
    plan = with_health(treated([(10, 0), (11, 0), (12, 0), (13, 0)]), *states)
    text = Page(strips_page(plan)).text

    assert [["yard1"], ["yard2"], ["yard3", "yard4"]] == grouped(plan)
    assert [40, 40, 40] == [trip.work_min for trip in collections(plan)]
    ask = "Ask the inspector before strips come out."
    wash = "nothing leaves this yard. Wash down 20 min before leaving."
    clean = "own tools, clean hands and kit afterwards."
    assert f"1 Yard 1 Suspect: {wash} {ask} suspect: {clean}" in text
    assert f"1 Yard 2 Standstill: {wash} {ask} standstill: {clean}" in text


def test_a_standstill_under_licence_is_visited_alone_and_told_as_one() -> None:
    """It was moved as a watched yard; whether its licence still holds is to be seen that day."""
    licence = "No 17, district office, until 2027-03-10"
    plan = with_health(treated([(10, 0), (11, 0)]), Health.WATCH, Health.SOUND)
    one, other = plan.outfit.yards
    yards = (replace(one, licence=licence), other)
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards))
    text = Page(strips_page(plan)).text

    assert [["yard1"], ["yard2"]] == grouped(plan)
    assert (
        f"1 Yard 1 Standstill, moved under licence {licence}: see that it still holds. Ask the "
        "inspector before strips come out. standstill under licence: own tools, clean hands"
    ) in text
    assert "watch:" not in text


def test_sound_yards_are_named_and_no_more() -> None:
    """No word of health where there is nothing to tell."""
    text = Page(strips_page(treated([(10, 0), (12, 0)]))).text

    assert "watched" not in text
    assert "own tools" not in text


def test_how_to_get_in_stands_beside_each_yard() -> None:
    """Gate, limits, notes and whom to ring, as on a driver's paper, in both languages."""
    gate = Access(510, 930, 3_200_000, trailer=False, notes="Turn by the trough", phone="555 01")
    plan = with_health(treated([(10, 0)]), Health.WATCH, access=gate)
    words = (
        "Gate open 08:30\u201315:30. At most 3200 kg laden. No trailer past the gate. "
        "Turn by the trough. Ring 555 01"
    )

    assert words in Page(strips_page(plan)).text
    with speaking("de"):
        text = Page(strips_page(plan)).text
    assert "Tor offen 08:30\u201315:30." in text
    assert "1 Yard 1 unter Beobachtung: eigenes Werkzeug" in text


def test_breaks_count_towards_the_day() -> None:
    """Legs of 90, 180 and 90, 20 of work at each yard, and a break of 45.

    270 may be driven before a break, so it comes before the way home: 360 + 40 + 45 = 445.
    """
    plan = treated([(90, 0), (-90, 0)])
    (trip,) = collections(plan)
    assert (360, 40, 45, 445) == (
        trip.drive_min, trip.work_min, trip.rest_min, trip.duty_min(),
    )  # fmt: skip

    for most, together in ((444, False), (445, True)):
        hours = replace(plan.outfit.hours, duty_max_min=most)
        yards = grouped(treated([(90, 0), (-90, 0)], hours=hours))
        assert together == (yards == [["yard1", "yard2"]])


def test_work_is_broken_off_for_a_break() -> None:
    """10 out, 370 of work, 10 home, a break of 30 after 360 of duty: 420 in all, 1 break.

    With a break after each 100 min there are three: at 100, 200 and 300 of 390 min of duty.
    """
    slow = replace(an_outfit().pace, strips_s=36 * 60)
    for after, rest in ((360, 30), (100, 90)):
        hours = replace(an_outfit().hours, duty_break_after_min=after)
        (trip,) = collections(treated([(10, 0)], pace=slow, hours=hours))
        assert (20, 370, rest, 390 + rest) == (
            trip.drive_min, trip.work_min, trip.rest_min, trip.duty_min(),
        )  # fmt: skip


def test_a_break_for_duty_is_none_for_driving() -> None:
    """20 min of work at each yard; legs of 100, 100 and 200; a break for duty is 30, of driving 45.

    Duty stands at 240 before the way home: 200 more are beyond 360, 400 of driving beyond 270,
    so the longer break is due there. Where 400 may be driven, the shorter does.
    """
    spots = [(100, 0), (200, 0)]
    for after, rest in ((270, 45), (400, 30)):
        hours = replace(an_outfit().hours, drive_break_after_min=after)
        (trip,) = collections(treated(spots, hours=hours))
        assert (400, 40, rest) == (trip.drive_min, trip.work_min, trip.rest_min)


def test_a_leg_longer_than_may_be_driven_at_once_has_its_breaks_on_the_way() -> None:
    """300 out, 20 of work, 300 home, 45 after each 270: after 270, and after 30 and 240 more.

    The one yard is too far for a day (540 of driving), which the page says.
    """
    plan = treated([(300, 0)])
    (trip,) = collections(plan)

    assert (600, 20, 90, 710) == (
        trip.drive_min, trip.work_min, trip.rest_min, trip.duty_min(),
    )  # fmt: skip
    assert "about 11 h 50 Too long for one person's day." in Page(strips_page(plan)).text


def test_short_breaks_for_duty_leave_driving_to_be_counted() -> None:
    """Duty of 100 min at most, breaks of 30; legs of 90, 90 and 180, 20 of work at each yard.

    10 of the first work, break; 10 and 90 make 100, break before the second work; 20 and 80 of
    the way home, break, and the last 100. At that break 260 of 360 are driven: where 270 may be
    driven at once it is one of 45 (30 + 30 + 45), where 400 may, of 30.
    """
    for after, rest in ((270, 105), (400, 90)):
        hours = replace(an_outfit().hours, duty_break_after_min=100, drive_break_after_min=after)
        (trip,) = collections(treated([(90, 0), (90, 90)], hours=hours))
        assert (360, 40, rest) == (trip.drive_min, trip.work_min, trip.rest_min)


def gated(plan: Plan, *gates: tuple[int, int]) -> Plan:
    """The plan with its yards behind gates that are open from minute to minute of a day."""
    yards = tuple(
        replace(yard, access=Access(opens, closes))
        for yard, (opens, closes) in zip(plan.outfit.yards, gates, strict=True)
    )
    return replace(plan, outfit=replace(plan.outfit, yards=yards))


def test_nobody_rests_behind_a_gate_that_has_shut() -> None:
    """40 out, 20 of work, 40 home, breaks of 30 after 60 of duty: one is due before the way home.

    Who leaves at 6:00, the soonest, is done at 7:00 and has rested by 7:30: a gate that shuts then
    does, one that shuts at 7:29 does not.
    """
    hours = replace(an_outfit().hours, duty_break_after_min=60)
    plan = treated([(40, 0)], hours=hours)

    def day(opens: int, closes: int) -> tuple[int | None, int | None, bool]:
        (trip,) = collections(gated(plan, (opens, closes)))
        return trip.rest_min, trip.leave_min, trip.gates_hold

    assert (30, None, True) == day(0, 1440)
    assert (30, 360, True) == day(0, 450)
    assert (30, None, False) == day(0, 449)
    # Left at 6:45, 30 min at a gate that opens at 7:55 are the break, and 20 + 40 are 60.
    assert (30, 405, True) == day(475, 495)
    assert (30, None, False) == day(475, 494)


def test_gates_that_do_not_suit_one_day_part_the_yards() -> None:
    """Ten minutes apart, 20 of work at each: 50 are wanted from the first gate to the last."""
    plan = treated([(10, 0), (20, 0)])

    assert [["yard1", "yard2"]] == grouped(gated(plan, (480, 530), (480, 530)))
    assert [["yard1"], ["yard2"]] == grouped(gated(plan, (480, 510), (480, 510)))


def test_the_page_says_when_home_is_left_and_where_no_hour_suits() -> None:
    """A gate from 8:00 on, 10 min away: at 7:45 there would be five minutes to wait."""
    text = Page(strips_page(gated(treated([(10, 0)]), (480, 600)))).text
    assert "about 40 min Leave home at 08:00." in text
    none = Page(strips_page(gated(treated([(10, 0)]), (480, 499)))).text
    assert "about 40 min No hour of leaving suits the gates." in none
    assert "Leave home" not in Page(strips_page(treated([(10, 0)]))).text
