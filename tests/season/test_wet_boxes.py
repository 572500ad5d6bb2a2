"""Wet boxes go back up and come home again, in whole plans."""

from dataclasses import replace

import pytest
from hypothesis import given, settings

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.daybook.trip import Call, Job
from runplanner.outfit.outfit import Outfit
from runplanner.season.plan_season import plan_season
from tests.outfits import a_yard, an_outfit, daily
from tests.season.any_outfit import outfits
from tests.season.shapes import DONE
from tests.season.test_any_outfit import ANY, brief_reasons, planned

__all__ = ["brief_reasons"]


def wet_outfit(days: int = 9, stores_g: int | None = 4_000) -> Outfit:
    """Two yards with stores for 8 days beside the block, one of them with wet boxes back."""
    one = replace(a_yard(1, days=days), stores_g=stores_g, wet_back=True)
    two = replace(a_yard(2, days=days), stores_g=4_000)
    return an_outfit([(10, 0), (14, 0)], [one, two], days=days)


def calls(plan: Plan, job: Job) -> list[Call]:
    """The calls at which a job is done, in order."""
    every = (c for s in plan.shifts for t in s.trips for c in t.calls)
    return [call for call in every if any(action.job is job for action in call.actions)]


def test_boxes_go_up_at_dusk_and_come_down_before_feed() -> None:
    """Up once, from 16:00; down at least four days later; syrup and strips not before."""
    plan = plan_season(wet_outfit(), rounds=10)
    (up,), (down,) = calls(plan, Job.WET_UP), calls(plan, Job.WET_DOWN)
    strips = [call for call in calls(plan, Job.STRIPS) if call.yard == "yard1"]

    assert (DONE, (), ()) == (plan.tally, plan.undone, audit(plan))
    assert up.start_min % 1440 >= 16 * 60
    assert down.start_min // 1440 - up.start_min // 1440 >= 4
    assert ("yard1", "yard1", 15) == (up.yard, down.yard, down.after.wet)
    assert strips[0].start_min >= down.start_min
    assert plan == plan_from_text(plan_text(plan))


def test_wet_boxes_ride_on_from_a_honey_house_apart() -> None:
    """Honey and wet boxes of one trip: 4 cans of 1.5 kg and 15 boxes of 9 kg go on to the store.

    They take 4 places and, 5 in a stack, 3.
    """
    one = replace(a_yard(1, days=9), stores_g=4_000, wet_back=True)
    two = replace(a_yard(2, days=9), stores_g=4_000, ready_from_day=5)
    outfit = an_outfit([(10, 0), (14, 0), (3, 0)], [one, two], days=9)
    base = replace(outfit.honey_house.base, place=3)
    apart = replace(outfit, honey_house=replace(outfit.honey_house, base=base))
    plan = plan_season(apart, rounds=3)
    (trip,) = (t for s in plan.shifts for t in s.trips if len({c.place for c in t.calls[-2:]}) > 1
               if Job.WET_DOWN in {a.job for c in t.calls for a in c.actions})  # fmt: skip
    house, store = (call.after for call in trip.calls[-2:])

    assert (DONE, ()) == (plan.tally, audit(plan))
    assert (0, 15, 141_000, 7) == (house.boxes, house.wet, house.load_g, house.places)
    assert (0, 6_000, 4) == (store.wet, store.load_g, store.places)


def test_wet_boxes_wait_for_a_dry_evening() -> None:
    """Up from 16:00: until day 2 neither hives nor syrup bear hours so late, then syrup does."""
    outfit = wet_outfit()
    one, two = outfit.yards
    late = (*daily(480, 900, range(3)), *daily(480, 1140, range(3, 9)))
    one = replace(one, open_spans=daily(480, 900, range(9)), feed_spans=late)
    plan = plan_season(replace(outfit, yards=(one, two)), rounds=3)
    (up,) = calls(plan, Job.WET_UP)

    assert () == audit(plan)
    assert up.start_min >= 3 * 1440 + 960


def test_a_campaign_too_short_leaves_them_and_says_so() -> None:
    """In five days there is no room for four nights after spinning; all else is done."""
    plan = plan_season(wet_outfit(days=5), rounds=3)

    assert (DONE, ()) == (plan.tally, audit(plan))
    assert [("yard1", Job.WET_UP, 10)] == [(u.yard, u.job, u.colonies) for u in plan.undone]
    assert all(undone.why for undone in plan.undone)


def test_cover_too_short_takes_a_second_block() -> None:
    """Without stores a block lasts 4.2 days: a further one bridges the wait."""
    plan = plan_season(wet_outfit(stores_g=None), rounds=10)

    assert (DONE, (), ()) == (plan.tally, plan.undone, audit(plan))
    blocks = [c for c in calls(plan, Job.BLOCK) if c.yard == "yard1"]
    assert 2 == len(blocks)


@pytest.mark.no_cover  # as in test_any_outfit.py
@settings(ANY, max_examples=10)
@given(outfits())
def test_any_outfit_with_wet_boxes_passes_the_audit(outfit: Outfit) -> None:
    """Every yard's boxes back for a night or two, on whatever else is drawn."""
    plan = planned(
        replace(
            outfit,
            yards=tuple(replace(yard, wet_back=True) for yard in outfit.yards),
            rules=replace(outfit.rules, wet_least_days=1, wet_best_days=2, wet_from_min=900),
        ),
        rounds=2,
    )

    assert plan is None or () == tuple(finding.sentence() for finding in audit(plan))
