"""Two trucks on one day: people, kit and the store are shared."""

from dataclasses import replace

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.days import Span
from runplanner.outfit.people import Person
from tests.audit.plans import plain, two_rounds
from tests.audit.planted import edited
from tests.audit.writing import cans
from tests.outfits import a_truck


def two_trucks() -> Plan:
    """The plain plan with a second truck, crewed by others, doing day 1 a second time."""
    plan = plain()
    more = (Person("cy", "Cy", True, False, False), Person("di", "Di", False, False, False))
    again = edited(
        replace(plan, shifts=plan.shifts[1:]),
        {
            "shifts.0.truck": "truck2",
            "shifts.0.crew": ("cy", "di"),
            "shifts.0.trips.0.id": "again",
        },
    )
    return edited(
        replace(plan, shifts=(*plan.shifts, *again.shifts)),
        {
            "outfit.trucks": lambda trucks: (*trucks, replace(a_truck(2), drivers=("cy",))),
            "outfit.people": lambda people: (*people, *more),
        },
    )


def rules(plan: Plan) -> set[str]:
    """The rules a plan breaks."""
    return {finding.rule for finding in audit(plan)}


def test_trucks_crews_and_trips_of_their_own_are_fine() -> None:
    """Nobody and nothing is in two shifts; but the yards are visited twice at one time."""
    found = rules(two_trucks())

    assert not {"truck twice", "person twice", "two places", "half-day", "trip id"} & found
    assert {"one visit", "strips at once", "colonies"} <= found


def test_containers_out_at_one_time_are_added() -> None:
    """Seven cans on each truck: fourteen must be owned."""
    assert "tanks owned" not in rules(edited(two_trucks(), {"outfit.containers.1.owned": 14}))
    assert "tanks owned" in rules(edited(two_trucks(), {"outfit.containers.1.owned": 13}))


def test_containers_back_in_the_same_minute_are_free_again() -> None:
    """The first trip ends at 588 with two cans, the second starts to load two at 588."""
    plan = edited(two_rounds(), {"shifts.0.trips.0.containers": cans(2)})

    assert "tanks owned" not in rules(edited(plan, {"outfit.containers.1.owned": 2}))
    assert "tanks owned" in rules(edited(plan, {"outfit.containers.1.owned": 1}))


def test_boards_back_in_the_same_minute_may_be_loaded_again() -> None:
    """Ten boards ride along on both trips; the second loads when the first is over, at 588."""
    plan = edited(
        two_rounds(),
        {
            "shifts.0.trips.0.calls.0.after.boards": 10,
            "shifts.0.trips.1.calls.0.after.boards": 10,
        },
    )

    assert "boards owned" not in rules(edited(plan, {"outfit.kit.boards_owned": 10}))
    assert "boards owned" in rules(edited(plan, {"outfit.kit.boards_owned": 9}))


def test_loads_at_one_minute_draw_on_the_store_together() -> None:
    """340 l are loaded at 8:00, 170 l were mixed."""
    assert "syrup in time" in rules(two_trucks())
    assert "syrup in time" not in rules(edited(two_trucks(), {"outfit.feed.ready_ml": 170_000}))


def test_one_person_in_two_trucks_is_in_two_places() -> None:
    """Bob rides in both trucks."""
    found = rules(edited(two_trucks(), {"shifts.2.crew": ("cy", "bob")}))

    assert {"two places", "person twice"} <= found


def test_long_turns_are_remembered_behind_short_ones() -> None:
    """Bob's shift covers two short mixings: both are found, not only the first."""
    plan = edited(
        plain(),
        {"mixing": lambda mixing: (
            *mixing,
            replace(mixing[0], start_min=1_925, end_min=1_930, ml=0),
            replace(mixing[0], start_min=1_940, end_min=1_945, ml=0),
        )},
    )  # fmt: skip

    found = [finding for finding in audit(plan) if finding.rule == "two places"]

    assert 2 == len(found)


def test_a_break_counts_by_itself() -> None:
    """Two breaks of 20 min that touch are no break of 30."""
    plan = edited(
        plain(),
        {
            "outfit.hours.duty_break_after_min": 150,
            "shifts.0.breaks": (Span(480, 500), Span(500, 520)),
        },
    )

    assert "duty break" in rules(plan)
