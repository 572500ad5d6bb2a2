"""The jobs a rival is offered are those that the chain of a yard allows on that day."""

from dataclasses import replace

from runplanner.outfit.yards import Clearing
from runplanner.season.standing.keeper import Keeper
from runplanner.trips.ground import Ground
from tests.bench.jobs import Setting, jobs_on
from tests.bench.rival_hand import by_hand
from tests.bench.today import Today, Truck
from tests.outfits import a_yard, an_outfit


def test_boards_come_a_day_before_boxes() -> None:
    """A yard cleared by boards is offered boards first, and its boxes on the next day."""
    yard = replace(a_yard(1), clearing=Clearing.BOARDS)
    keeper = Keeper(Ground(an_outfit([(10, 0)], [yard])))
    state, setting = keeper.empty(), Setting()
    (boards,) = jobs_on(keeper.ground, state, 0, setting)
    assert ("boards", 10) == (boards.kind, boards.stop.boards)
    truck = Truck(0, keeper.ground.siblings[0][1])
    today = Today(keeper.ground, state, 0, [boards], [truck], setting, 1.0)
    assert [[[boards]]] == by_hand(today)


def test_a_yard_above_a_truckload_is_offered_in_lots() -> None:
    """60 boxes of 25 kg weigh 1,500 kg; a truck with two people takes 1,100 kg of them.

    3,500 - 2,100 - 60 - 70 - 2 * 85 = 1,100 kg; 92 % of it is 1,012 kg, or 26 of 40 colonies
    of 37.5 kg each; syrup waits for the last lot.
    """
    yard = replace(a_yard(1, colonies=40, boxes=60), box_g=25_000)
    keeper = Keeper(Ground(an_outfit([(10, 0)], [yard])))
    (lot,) = jobs_on(keeper.ground, keeper.empty(), 0, Setting())
    assert (26, 39, 0) == (lot.stop.off, lot.stop.boxes, lot.stop.fed)
    assert 26 == lot.stop.blocks


def test_take_off_and_feed_go_together_where_the_setting_says_so() -> None:
    """One visit with syrup and strips, or a block now and the syrup another day."""
    keeper = Keeper(Ground(an_outfit([(10, 0)], [a_yard(1)])))
    (both,) = jobs_on(keeper.ground, keeper.empty(), 0, Setting())
    (alone,) = jobs_on(keeper.ground, keeper.empty(), 0, Setting(together=False))
    assert (10, 10, 0) == (both.stop.off, both.stop.fed, both.stop.blocks)
    assert (10, 0, 10) == (alone.stop.off, alone.stop.fed, alone.stop.blocks)
