"""True counts behind a trailer: truck and trailer bear each their own part of the load."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import Changed, changed, typed_changes
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Against
from runplanner.days import clock
from runplanner.paperwork.driver.manifest import Manifest, manifest
from runplanner.phrase import in_english
from tests.season.test_worked_trailers import with_tank


def counted(boxes: int) -> Changed:
    """850 kg of syrup on a truck that bears 1,100, 60 boxes of 16 kg on the trailer's places."""
    plan = with_tank(45)
    (trip,) = plan.shifts[0].trips
    line = f"done {trip.id} Yard 1: 18 colonies {boxes} boxes"
    return changed(plan, typed_changes([line], f"Mon {clock(trip.calls[1].leave_min + 1)}"))


def driven(told: Changed) -> Plan:
    """The plan with its trip under way."""
    (shift,) = told.plan.shifts
    (trip,) = shift.trips
    shift = replace(shift, trips=(replace(trip, driven=True),))
    return replace(told.plan, shifts=(shift,), now_min=trip.calls[1].leave_min)


def printed(boxes: int) -> Manifest:
    """The driver's paper, printed again."""
    plan = driven(counted(boxes))
    return manifest(plan, plan.shifts[0], plan.shifts[0].trips[0])


def test_a_load_that_the_truck_alone_cannot_bear_is_told() -> None:
    """15 boxes are 240 kg beside 851: 76 are a box, 16 kg, too many, with 10 kg left before."""
    assert () == counted(75).notes
    (ring,) = counted(76).notes
    assert (
        "Truck 1 is out, and its load does not hold (6 kg too much on Truck 1 alone after Yard 2): "
        "ring the driver"
    ) == in_english(ring)


def test_the_paper_says_which_of_both_is_over_its_limit() -> None:
    """Truck and trailer together could bear 2,680 kg: 2,066 are aboard."""
    paper = printed(76)
    limits = [step.aboard.limit for step in paper.steps]

    assert ["", "Over the limit on Truck 1 alone."] == limits[:2]
    sound = printed(75)
    assert not any("alone" in step.aboard.limit for step in sound.steps)


@pytest.mark.parametrize(("boxes", "found"), [(75, False), (76, True)])
def test_the_audit_asks_each_of_both_of_calls_to_come(boxes: int, found: bool) -> None:  # noqa: FBT001
    """Unless its user has been told."""
    plan = driven(counted(boxes))
    (shift,) = plan.shifts
    (trip,) = shift.trips
    silent = replace(trip, calls=tuple(replace(one, against=()) for one in trip.calls))
    unsaid = replace(plan, shifts=(replace(shift, trips=(silent,)),))

    assert found == any(Against.LOAD in one.against for one in trip.calls)
    assert "shared" not in {one.rule for one in audit(plan)}
    assert found == ("shared" in {one.rule for one in audit(unsaid)})


def test_a_count_that_no_truck_could_carry_is_asked_about_once_its_trip_is_over() -> None:
    """Before, a slip of a digit typed in the evening went in without a word."""
    plan = with_tank(45)
    (trip,) = plan.shifts[0].trips

    def notes(boxes: int) -> list[str]:
        line = f"done {trip.id} Yard 1: 18 colonies {boxes} boxes"
        told = changed(plan, typed_changes([line], "Mon 20:00"))
        return [one for one in map(in_english, told.notes) if "its load did not hold" in one]

    assert [] == notes(75)
    (asked,) = notes(76)
    assert asked == (
        f"{trip.id}: by its counts its load did not hold (7 kg too much on Truck 1 alone after "
        "Yard 1): ask the driver, and count again where a number is wrong"
    )
