"""Feed late in the day: what feeding earlier costs, and that plans wait for the evening."""

from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.days import DAY_MIN, Span, clock
from runplanner.outfit.outfit import Outfit
from runplanner.season.replan_season import replan_season
from tests.season.shapes import calls_with, planned
from tests.season.tiny import four, tiny


def robbed(cents: int, days: int = 1, **changes: object) -> Outfit:
    """One yard of four colonies, at so much a colony fed before four in the afternoon."""
    outfit = tiny([(10, 0)], [four(1, days, **changes)], days)
    return replace(outfit, prices=replace(outfit.prices, feed_early_cents=cents))


def fed_at(plan: Plan) -> list[str]:
    """The times of day at which feed stops begin."""
    return [clock(call.start_min % DAY_MIN) for call in calls_with(plan, Job.FEED)]


def test_the_truck_waits_for_the_evening_where_that_is_paid_for() -> None:
    """Nothing else differs, so the whole visit is begun at four, and no colony is charged."""
    free, paid = planned(robbed(0), rounds=5), planned(robbed(35), rounds=5)

    assert fed_at(free) < ["16:00"]
    assert ["16:00"] == fed_at(paid)
    assert 0 == paid.bill.feed_early
    assert free.bill.total() == paid.bill.total()


def test_feed_that_cannot_be_late_is_billed() -> None:
    """Fit to be fed until one o'clock only: 4 colonies x 35 cents, on the bill and no more."""
    morning = (Span(8 * 60, 13 * 60),)
    free = planned(robbed(0, feed_spans=morning), rounds=5)
    paid = planned(robbed(35, feed_spans=morning), rounds=5)

    assert 4 * 35 == paid.bill.feed_early
    assert free.bill.total() + 140 == paid.bill.total()
    assert free.bound.cents == paid.bound.cents


def test_the_evening_is_worth_a_day_of_its_own_only_at_its_price() -> None:
    """Honey must be off in the morning, so an evening's feed is another day's.

    That day costs 40.00 for the truck, 20 km at 0.60, four blocks at 4.00 and about an hour and
    a half of somebody at 30.00: 4 colonies are worth that at 50.00 each, but not at 0.35.
    """
    morning = (Span(6 * 60, 12 * 60),)
    cheap = planned(robbed(35, days=2, open_spans=morning), rounds=10)
    dear = planned(robbed(5_000, days=2, open_spans=morning), rounds=10)

    assert 4 * 35 == cheap.bill.feed_early
    assert ["16:00"] == fed_at(dear)
    assert 0 == dear.bill.feed_early


def test_planned_again_feed_stays_in_the_evening() -> None:
    """With nothing changed, at six in the morning, the truck still leaves for four o'clock."""
    old = planned(robbed(35), rounds=5)
    new = replan_season(old, old.outfit, 6 * 60, rounds=0)

    assert ["16:00"] == fed_at(new)
    assert (old.shifts, old.bill) == (new.shifts, new.bill)
