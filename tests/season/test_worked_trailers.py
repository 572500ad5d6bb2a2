"""Trips behind a trailer worked by hand: where the tank rides, and the boxes to stop at."""

from dataclasses import replace

from runplanner.audit.audit import audit
from runplanner.changes.typed import changed, typed_changes
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.daybook.trip import Carried, Stowed
from runplanner.days import clock
from runplanner.outfit.trucks import Deck, Trailer
from runplanner.paperwork.driver.loading import fills
from runplanner.season.plan_season import plan_season
from tests.outfits import a_truck, a_yard, an_outfit, daily
from tests.season.shapes import planned
from tests.season.tiny import two_yards


def with_tank(*boxes: int) -> Plan:
    """So many boxes come aboard at each yard, then 70 colonies get 595 L out of one tank.

    The truck bears 1,100 kg, the trailer 1,580 on twelve places, of which a tank takes six.
    """
    off = [
        replace(a_yard(number, colonies=18, boxes=many, days=1), stores_g=9_000,
                open_spans=daily(8 * 60, 14 * 60, range(1)))
        for number, many in enumerate(boxes, 1)
    ]  # fmt: skip
    feed = a_yard(len(off) + 1, colonies=70, boxes=0, days=1)
    feed = replace(feed, feed_spans=daily(14 * 60, 18 * 60, range(1)))
    truck = replace(a_truck(), train_max_g=6_000_000)
    deck = Deck(1_700, 1_700, 1_200, 5)
    cart = Trailer("cart", "Cart", 620_000, 2_200_000, deck, 2_000, 1_000, 5)
    outfit = an_outfit(
        [(70 + n, 0) for n in range(len(off) + 1)],
        [*off, feed],
        days=1,
        trucks=(truck,),
        trailers=(cart,),
    )
    syrup = replace(outfit.feed, ready_ml=2_000_000)
    outfit = replace(outfit, containers=outfit.containers[:1], feed=syrup)
    return plan_season(outfit, rounds=1, proof=False)


def test_a_tank_stays_where_it_was_told_whatever_is_left_out() -> None:
    """Two yards of 45 boxes want the truck: 595 L ride behind, also once one yard is left out."""
    plan = with_tank(45, 45)
    (trip,) = plan.shifts[0].trips
    now = trip.calls[1].start_min + 20
    told = changed(plan, typed_changes(["skip Yard 2"], f"Mon {clock(now)}")).plan
    (left,) = told.shifts[0].trips

    behind = Stowed((Carried("ibc", 1),), trailer_loads=True, trailer_stops=True)
    assert [behind, behind] == [trip.stowed, left.stowed]
    assert ["yard1", "yard3"] == [call.yard for call in left.yards()]
    for facts, shift, one in ((plan, plan.shifts[0], trip), (told, told.shifts[0], left)):
        assert [True] == [fill.behind for fill in fills(facts.outfit, shift, one)]


def test_boxes_to_stop_at_hold_with_the_tank_where_it_is_told() -> None:
    """595 L and the tank are 850 kg on the truck: 250 kg more are 15 boxes, and 60 stand behind.

    With the tank behind 98 could ride, but nobody sets it over full.
    """
    plan = with_tank(45)
    (trip,) = plan.shifts[0].trips

    assert "boxes limit" not in {one.rule for one in audit(plan)}
    assert Stowed((), trailer_loads=True, trailer_stops=True) == trip.stowed
    assert [75, 45] == [max(c.boxes_limit, c.after.boxes) for c in trip.yards()][:2]
    more = (trip.calls[0], replace(trip.calls[1], boxes_limit=76), *trip.calls[2:])
    told = replace(trip, calls=more)
    shift = replace(plan.shifts[0], trips=(told,))
    assert "boxes limit" in {one.rule for one in audit(replace(plan, shifts=(shift,)))}


def test_only_a_plan_with_a_trailer_says_where_tanks_ride() -> None:
    """And it is read back as it was written; others are written as they were before."""
    plan, alone = with_tank(45), planned(two_yards())
    behind = Stowed((Carried("ibc", 1),), trailer_loads=True, trailer_stops=False)
    trip = replace(plan.shifts[0].trips[0], stowed=behind)
    told = replace(plan, shifts=(replace(plan.shifts[0], trips=(trip,)),))

    assert told == plan_from_text(plan_text(told))
    assert "stowed" in plan_text(plan)
    assert "stowed" not in plan_text(alone)
