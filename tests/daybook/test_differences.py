"""Two plans compared: what moved, which trips are the same, what it costs, and why."""

from dataclasses import replace

import pytest

from runplanner.daybook.differences import Shifted, differences
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Shift
from runplanner.days import Span
from tests.running import running_plan, with_fewer

FIRST, SECOND = "0304-truck2-0716", "0305-truck2-0715"


def later(shift: Shift, minutes: int) -> Shift:
    """A shift whose yards are begun later."""
    trip = shift.trips[0]
    calls = tuple(
        replace(call, start_min=call.start_min + minutes) if call.yard else call
        for call in trip.calls
    )
    return replace(shift, trips=(replace(trip, calls=calls),))


def with_shift(number: int, **changes: object) -> Plan:
    """The running plan with one shift changed."""
    plan = running_plan()
    shifts = list(plan.shifts)
    shifts[number] = replace(shifts[number], **changes)  # type: ignore[arg-type]
    return replace(plan, shifts=tuple(shifts))


def test_the_same_plan_differs_in_nothing() -> None:
    """4 visits promised, 4 kept; both trips untouched; no cost."""
    found = differences(running_plan(), running_plan())

    assert (4, 4, 0, 0) == (found.promised, found.kept, found.visits_moved(), found.extra_cents())
    assert (FIRST, SECOND) == found.untouched
    assert ((), (), ()) == (found.moved, found.reworked, found.later)
    assert ((), ()) == (found.driven, found.changed)


def test_driven_trips_are_left_out() -> None:
    """An hour into the first trip only the second is compared."""
    plan = replace(running_plan(), now_min=running_plan().shifts[0].start_min + 60)
    found = differences(running_plan(), plan)

    assert ((FIRST,), (SECOND,), 1) == (found.driven, found.untouched, found.promised)


def test_another_day_is_a_move() -> None:
    """Its visit is on another day: moved, from when to when."""
    plan = with_shift(1, day=5)
    found = differences(running_plan(), plan)

    (one,) = found.moved
    assert (4, 5) == (one.was and one.was.day, one.now and one.now.day)
    assert 1 == found.visits_moved()


def test_another_hour_is_no_move() -> None:
    """Same day, same truck, same work: kept, and told that it is later; the paper changes."""
    plan = replace(
        running_plan(), shifts=(running_plan().shifts[0], later(running_plan().shifts[1], 5))
    )
    found = differences(running_plan(), plan)

    assert (0, 1) == (found.visits_moved(), len(found.later))
    assert ((SECOND,), (FIRST,)) == (found.changed, found.untouched)


@pytest.mark.parametrize(
    "changes",
    [{"crew": ("caro",)}, {"trailer": "t"}, {"start_min": 6000}, {"breaks": (Span(6300, 6345),)}],
)
def test_what_a_driver_is_told_changes_the_paper(changes: dict[str, object]) -> None:
    """Crew, trailer, time of leaving and breaks are all on it."""
    found = differences(running_plan(), with_shift(1, **changes))

    assert ((SECOND,), 0) == (found.changed, found.visits_moved())


def test_other_work_on_the_same_day_is_no_move() -> None:
    """Same day, truck and minute with two colonies fewer: told apart from visits that moved."""
    found = differences(running_plan(), with_fewer(running_plan(), 2))

    (one,) = found.reworked
    assert one.was is not None
    assert one.now is not None
    assert one.was.start_min == one.now.start_min
    assert (4, 3, 0) == (found.promised, found.kept, found.visits_moved())
    assert () == found.moved


def test_the_same_work_in_another_order_is_kept() -> None:
    """Syrup before strips or after: nothing moved and nothing reworked, but the paper changes."""
    plan = running_plan()
    shift = plan.shifts[1]
    trip = shift.trips[0]
    calls = tuple(replace(call, actions=call.actions[::-1]) for call in trip.calls)
    turned = with_shift(1, trips=(replace(trip, calls=calls),))
    found = differences(plan, turned)

    assert turned != plan
    assert (4, 4, ()) == (found.promised, found.kept, found.reworked)
    assert (SECOND,) == found.changed


def test_gone_and_new_visits() -> None:
    """A trip called off is two visits gone; the other way round they are new."""
    short = replace(running_plan(), shifts=running_plan().shifts[:1])
    gone, new = differences(running_plan(), short), differences(short, running_plan())

    assert ((SECOND,), (SECOND,)) == (gone.called_off, new.fresh)
    assert (1, 0) == (gone.visits_moved(), new.visits_moved())
    assert [None] == [one.now for one in gone.moved]
    assert [None] == [one.was for one in new.moved]


def test_visits_are_paired_by_what_they_share() -> None:
    """Old Mill's boards and its take-off move: boards are paired with boards."""
    plan = running_plan()
    shifts = tuple(replace(shift, day=shift.day + 1, truck="truck1") for shift in plan.shifts)
    found = differences(plan, replace(plan, shifts=shifts))
    mill = [one for one in found.moved if one.spot.yard == "mill"]

    assert [True, True] == [
        bool(one.was and one.now and one.was.actions == one.now.actions) for one in mill
    ]


def test_the_bill_by_head() -> None:
    """Kilometres 5.00 dearer, strips 1.00 cheaper: 4.00 more."""
    bill = running_plan().bill
    plan = replace(running_plan(), bill=replace(bill, km=bill.km + 500, strips=bill.strips - 100))
    found = differences(running_plan(), plan)

    assert 400 == found.extra_cents()
    assert {"km": 500, "strips": -100} == {head: cents for head, cents in found.cents if cents}


def test_a_visit_that_never_was() -> None:
    """It is no visit."""
    with pytest.raises(ValueError, match="never was"):
        _ = Shifted(None, None).spot
