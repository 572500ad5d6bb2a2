"""How a day goes on when a call is left late."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.audit.book import Leg, open_book
from runplanner.audit.late import Going, driven, leaving, onward
from runplanner.daybook.plan import Plan
from runplanner.days import Span
from tests.audit.plans import far_away, plain
from tests.audit.planted import edited

YARD_1 = "shifts.0.trips.0.calls.1"


def late_findings(plan: Plan) -> list[str]:
    """What the rule says of the latest times."""
    return [finding.said for finding in audit(plan) if finding.rule == "latest leaving"]


@pytest.mark.parametrize(
    ("latest", "good"),
    # Left at 605, then 20 + 110 + 140 + 25 + 10 + 20 + 10 = 335 min to be home by 1,020.
    # 120 min are driven before and 180 after, so 45 min of break must come in between:
    # after leaving (by 640), or in a delay of 45 min or more (650 to 685).
    [(605, True), (640, True), (641, False), (649, False), (650, True), (685, True), (686, False)],
)
def test_a_break_is_had_on_the_way_or_in_the_delay(latest: int, *, good: bool) -> None:
    """A delay long enough to rest in spares the break later."""
    plan = edited(far_away(), {f"{YARD_1}.latest_leave_min": latest})

    assert good is (not late_findings(plan))


def test_waiting_shrinks_when_late() -> None:
    """A wait written down as a break, which nothing requires, need not be kept.

    Loading ends at 465, the yard opens at 480: waiting from 475 is a break of five
    minutes.  Leaving at 964 still lets the day end (see ``plans.plain``).
    """
    plan = edited(plain(), {"shifts.0.breaks": (Span(475, 480),)})

    assert () == audit(plan)


def test_work_takes_its_break_inside_when_duty_is_at_its_limit() -> None:
    """Duty of 40 min, a leg of 10 and 50 of work, with breaks of 30 due after 60.

    10 min of work, the break, 40 min of work: done at 1,000 + 10 + 80 with 40 min of duty.
    Resting before the leg is done no sooner and is more tired then.  A break of 45 min
    there ends 15 later, but driving is forgotten.
    """
    hours = replace(plain().outfit.hours, duty_break_after_min=60)
    book = open_book(edited(plain(), {"outfit.hours": hours}))
    yard_1 = book.runs[0].stops()[1]

    assert [Going(1_090, 40, 10, 10), Going(1_105, 40, 0, 10)] == onward(
        book, [Going(1_000, 40, 0, 0)], yard_1
    )


@pytest.mark.parametrize(
    ("late", "way"),
    [
        # Out from 450, left at 530 with 10 min driven: at work or standing about till then.
        (20, Going(550, 100, 10, 10)),
        # 30 min are a break from duty, 45 from driving as well.
        (30, Going(560, 0, 10, 10)),
        (44, Going(574, 0, 10, 10)),
        (45, Going(575, 0, 0, 10)),
    ],
)
def test_a_delay_long_enough_is_a_break(late: int, way: Going) -> None:
    """How the crew stands that leaves yard 1 so many minutes late."""
    book = open_book(edited(plain(), {"shifts.0.trips.0.calls.1.latest_leave_min": 530 + late}))
    run = book.runs[0]

    assert [way] == leaving(run, run.stops()[1], book.outfit.hours)


def test_breaks_had_before_leaving_count() -> None:
    """Far away, yard 2 is left at 780: the break until 720 leaves 60 min of duty.

    Before the break 10 + 110 + 20 min were driven, after it none yet.
    """
    book = open_book(edited(far_away(), {"shifts.0.trips.0.calls.2.latest_leave_min": 785}))
    run = book.runs[0]

    assert [Going(785, 65, 0, 140)] == leaving(run, run.stops()[2], book.outfit.hours)


@pytest.mark.parametrize(
    ("most", "way"), [(259, Going(3_544, 0, 0, 140)), (258, Going(3_544, 1, 0, 140))]
)
def test_the_break_a_call_ends_with_may_be_put_off(most: int, way: Going) -> None:
    """Far away on day 2, out from 3,240, a break from 3,479 to 3,524, left 20 min late.

    239 min of duty and 20 more may come before the break where 259 are allowed; where 258
    are, 19 min come before the break and 1 after it.
    """
    plan = edited(far_away(), {"shifts.1.trips.0.calls.2.latest_leave_min": 3_544})
    hours = replace(plan.outfit.hours, duty_break_after_min=most)
    run = open_book(plan).runs[1]

    assert [way] == leaving(run, run.stops()[2], hours)


def test_long_work_takes_break_after_break() -> None:
    """50 min of work and breaks of 30 due after 20: 20, 30, 20, 30, 10 from a fresh start.

    The wait until 480 is a rest; it and breaks of 30 are none from driving, of which there
    are 12 min.  Resting 500 min on arrival at 110 is the other way, done later.
    """
    hours = replace(plain().outfit.hours, duty_break_after_min=20, drive_break_min=500)
    book = open_book(edited(plain(), {"outfit.hours": hours}))
    yard_1 = book.runs[0].stops()[1]

    assert [Going(480 + 110, 10, 12, 12), Going(720, 10, 0, 12)] == onward(
        book, [Going(100, 0, 2, 2)], yard_1
    )


def test_breaks_in_work_may_be_breaks_from_driving() -> None:
    """Ten minutes of duty on arriving at 480: 10, 30, 20, 30, 20, driving forgotten.

    Rested on arrival, till 510: 20, 30, 20, 30, 10.
    """
    hours = replace(plain().outfit.hours, duty_break_after_min=20, drive_break_min=30)
    book = open_book(edited(plain(), {"outfit.hours": hours}))
    yard_1 = book.runs[0].stops()[1]

    assert [Going(480 + 110, 20, 0, 12), Going(510 + 110, 10, 0, 12)] == onward(
        book, [Going(470, 0, 2, 2)], yard_1
    )


def test_driving_needs_a_break_before_a_leg_that_would_be_too_much() -> None:
    """250 min driven, 30 to go, 270 allowed: only with 45 min of break."""
    ways = list(driven([Going(0, 100, 250, 250)], Leg(0, 30, 0), plain().outfit.hours))

    assert [Going(75, 30, 30, 280)] == ways


def test_no_duty_at_all_is_never_got_done() -> None:
    """Where no minute may be worked without a break, no late day holds."""
    none = replace(plain().outfit.hours, duty_break_after_min=0)

    assert late_findings(edited(plain(), {"outfit.hours": none}))
