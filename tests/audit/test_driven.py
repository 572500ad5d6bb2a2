"""What was driven is past judging; it is not rewritten, and nothing new is in the past."""

from dataclasses import replace

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Mixing, Plan, Spinning
from runplanner.days import Span
from tests.audit.plans import left_undone, plain, with_trailer
from tests.audit.planted import edited

NOON_OF_DAY_0 = 719


def under_way(**more: object) -> Plan:
    """The plain plan at noon of day 0: the take-off trip is driven, spinning is still to come."""
    edits: dict[str, object] = {"now_min": NOON_OF_DAY_0, "shifts.0.trips.0.driven": True}
    return edited(plain(), edits | {name.replace("__", "."): new for name, new in more.items()})


def rules(plan: Plan, before: Plan | None = None) -> set[str]:
    """The rules a plan breaks."""
    return {finding.rule for finding in audit(plan, before)}


def test_a_plan_under_way_is_still_good() -> None:
    """Marking what was driven breaks no rule, and the plan rewrites nothing of itself."""
    assert () == audit(under_way())
    assert () == audit(under_way(), plain())


def test_driven_trips_are_not_judged_by_what_is_known_since() -> None:
    """A window that shut over a driven visit is no finding; over one to come it is."""
    shut = {"outfit.yards.0.open_spans": ()}

    assert () == audit(edited(under_way(), shut))
    assert {"open hours"} == rules(edited(plain(), shut)) - {"latest leaving"}


def test_driven_trips_still_happened_on_one_clock() -> None:
    """What was driven can still be told wrongly: the order of its times is judged."""
    assert "clock" in rules(edited(under_way(), {"shifts.0.trips.0.calls.1.arrive_min": 476}))
    assert "driving figures" in rules(edited(under_way(), {"shifts.0.metres": 28_001}))


def test_somebody_away_since_is_past_judging() -> None:
    """Bob away on day 0: his trip and his mixing are over, his spinning is to come."""
    plan = edited(under_way(), {"outfit.people.1.off_days": (-1, 0)})

    found = audit(plan)

    assert ["day off"] == [finding.rule for finding in found]
    assert "spinning" in found[0].said


def test_a_changed_shift_is_rewritten_history() -> None:
    """Another crew on the driven shift is told apart, with the trip it is about."""
    plan = edited(under_way(), {"shifts.0.crew": ("ann",)})

    found = [finding for finding in audit(plan, plain()) if finding.rule == "driven"]

    assert ["off"] == [finding.trip for finding in found]


def test_a_dropped_shift_is_rewritten_history() -> None:
    """The driven shift left out of the new plan is missed."""
    plan = under_way()

    assert "driven" in rules(replace(plan, shifts=plan.shifts[1:]), plain())
    no_trips = replace(plain(), shifts=(replace(plain().shifts[0], trips=()),))
    assert "driven" in rules(replace(plan, shifts=plan.shifts[1:]), no_trips)


def test_a_shift_added_to_the_past_is_found() -> None:
    """The plan before had no shift on day 0."""
    before = replace(plain(), shifts=plain().shifts[1:])

    assert "driven" in rules(under_way(), before)


def test_spinning_and_mixing_begun_are_not_rewritten() -> None:
    """Mixing on the day before is done; spinning at noon is not yet begun at 11:59."""
    mixed = (Mixing(-960, -909, "bob", 169_000),)
    spun = (Spinning(725, 875, ("bob",), 30),)

    assert "driven" in rules(edited(under_way(), {"mixing": mixed}), plain())
    assert "driven" not in rules(edited(under_way(), {"spinning": spun}), plain())
    begun = edited(under_way(), {"spinning": spun, "now_min": 730})
    assert "driven" in rules(begun, plain())


def test_a_first_plan_has_no_past() -> None:
    """With now at nought nothing has begun, whatever the plan before."""
    assert () == audit(plain(), left_undone())


def test_the_rest_of_a_split_yard_is_worth_a_visit() -> None:
    """Fourteen of twenty-four are driven off: the ten left may be fewer than the least lot."""
    late = {"outfit.rules.smallest_lot": 11}
    driven = {"now_min": 500, "shifts.0.trips.0.driven": True}

    assert "smallest lot" in rules(edited(with_trailer(), late))
    assert "smallest lot" not in rules(edited(with_trailer(), late | driven))


def test_work_on_colonies_that_are_no_more_does_not_count() -> None:
    """Two of ten have died since the take-off: eight are left, all off, eight to feed.

    Feed of 8 x 8,500 and 16 strips are 17 l and 4 strips less; the driven take-off of ten
    counts for eight.
    """
    fewer = edited(
        under_way(),
        {
            "outfit.yards.0.colonies": 8,
            "shifts.1.trips.0.calls.1.actions.0.colonies": 8,
            "shifts.1.trips.0.calls.1.actions.0.ml": 68_000,
            "shifts.1.trips.0.calls.1.actions.1.colonies": 8,
            "shifts.1.trips.0.calls.1.actions.1.pieces": 16,
        },
    )

    # The loads and the bill are those of ten colonies still; all that is about colonies holds.
    assert {"aboard", "bill"} == rules(fewer)


def test_hours_the_plant_stands_still() -> None:
    """A breakdown from 13:00 to 13:30 is in the spinning of day 0, unless that has begun."""
    down = {"outfit.honey_house.stopped": (Span(780, 810),)}
    later = {"outfit.honey_house.stopped": (Span(870, 900),)}

    assert {"spinning hours"} == rules(edited(plain(), down))
    assert set() == rules(edited(plain(), later))
    assert set() == rules(edited(under_way(), down | {"now_min": 725}))


def test_days_the_honey_house_takes_nothing() -> None:
    """Full from 616 on the honey is in just in time; full from 615 it is not.

    Syrup for day 1 is loaded and cans are brought back there all the same.
    """
    in_time = {"outfit.honey_house.full": (Span(616, 9_000),)}
    too_late = {"outfit.honey_house.full": (Span(615, 9_000),)}

    assert "base hours" not in rules(edited(plain(), in_time))
    assert "base hours" in rules(edited(plain(), too_late))
