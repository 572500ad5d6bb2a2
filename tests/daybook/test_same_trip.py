"""A trip has its name of before by its weightiest work, while truck and day are the same."""

from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.daybook.same_trip import main_works, named_as_before
from tests.running import running_plan

FIRST, SECOND = "0304-truck2-0716", "0305-truck2-0715"


def with_trips(*names: str, **changes: object) -> Plan:
    """The running plan, its first day's trip cut in so many as have a name, a yard each."""
    plan = running_plan()
    shift, *others = plan.shifts
    (trip,) = shift.trips
    yards = trip.yards()
    parts = [*(yards[k : k + 1] for k in range(len(names) - 1)), yards[len(names) - 1 :]]
    trips = tuple(
        replace(trip, id=name, calls=(trip.calls[0], *calls))
        for name, calls in zip(names, parts, strict=True)
    )
    changed = replace(shift, trips=trips, **changes)  # type: ignore[arg-type]
    return replace(plan, shifts=(changed, *others))


def at_another_minute(plan: Plan, minutes: int) -> Plan:
    """The plan, its first trip loading so much later."""
    shift, *others = plan.shifts
    trip = shift.trips[0]
    load, *rest = trip.calls
    calls = (replace(load, start_min=load.start_min + minutes), *rest)
    changed = replace(shift, trips=(replace(trip, calls=calls),))
    return replace(plan, shifts=(changed, *others))


def names(plan: Plan) -> list[str]:
    """All trips of a plan by name."""
    return [trip.id for shift in plan.shifts for trip in shift.trips]


def test_the_same_trip_has_its_name_of_before() -> None:
    """Found by its work, in whatever order trips are driven, up to an hour from where it was."""
    for minutes, name in ((0, FIRST), (60, FIRST), (-60, FIRST), (61, "x"), (-61, "x")):
        new = at_another_minute(with_trips("x"), minutes)
        assert [name, SECOND] == names(named_as_before(new, running_plan()))
    old, new = with_trips("a", "b"), with_trips("c", "d")
    swapped = replace(new.shifts[0], trips=new.shifts[0].trips[::-1])
    new = replace(new, shifts=(swapped, *new.shifts[1:]))
    assert ["b", "a", SECOND] == names(named_as_before(new, old))


def test_on_another_day_or_truck_it_is_called_anew() -> None:
    """Its name tells date and truck, which whoever reads it goes by."""
    for new in (with_trips("x", day=4), with_trips("x", truck="truck1")):
        assert ["x", SECOND] == names(named_as_before(new, running_plan()))


def test_no_two_trips_come_to_have_one_name() -> None:
    """Another trip of that day loads at the minute that the name tells: both as they are."""
    old, new = with_trips("a"), with_trips("a", "b")

    assert ["a", "b", SECOND] == names(named_as_before(new, old))


def test_a_trip_without_stops_has_no_work_to_know_it_by() -> None:
    """What a truck called home before its first stop leaves behind keeps the name it has."""
    plan = running_plan()
    shift, *others = plan.shifts
    bare = replace(shift, trips=(replace(shift.trips[0], calls=shift.trips[0].calls[:1]),))
    plan = replace(plan, shifts=(bare, *others))

    assert [SECOND] == list(main_works(plan))
    assert [FIRST, SECOND] == names(named_as_before(plan, plan))
