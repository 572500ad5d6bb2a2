"""The one call from facts to plan: what is refused, what is told, how it ends."""

import gc
from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.trip import Job
from runplanner.errors import PlanError
from runplanner.outfit.yards import Clearing
from runplanner.season import plan_season as room
from runplanner.season.plan_season import default_rounds, plan_season
from runplanner.season.watch import Progress
from tests.outfits import a_truck, an_outfit, daily
from tests.season.shapes import DONE, calls_with, planned
from tests.season.tiny import ANN, EVEN_HOUSE, four, one_yard, tiny, trailer_pays, two_yards


def test_no_yard_is_refused_in_words() -> None:
    """There is nothing to plan."""
    with pytest.raises(PlanError, match="no yard"):
        plan_season(replace(one_yard(), yards=()))


@pytest.mark.parametrize("lack", ["trucks", "people"])
def test_nobody_to_drive_or_nothing_to_drive_is_refused(lack: str) -> None:
    """Without a truck or a person nothing moves."""
    with pytest.raises(PlanError, match="No truck can carry anything"):
        plan_season(replace(one_yard(), **{lack: ()}))  # type: ignore[arg-type]


def test_a_truck_that_cannot_even_carry_its_driver_is_refused() -> None:
    """2.1 t empty, 2.2 t at most: with fuel, kit and driver it is too heavy."""
    heavy = replace(a_truck(), max_g=2_200_000)
    with pytest.raises(PlanError, match="maximum mass"):
        plan_season(replace(one_yard(), trucks=(heavy,)))


def test_honey_that_stands_there_and_can_never_be_spun_is_refused() -> None:
    """Boxes waiting, and nobody spins."""
    house = replace(EVEN_HOUSE, waiting_boxes=5)
    with pytest.raises(PlanError, match="spun"):
        plan_season(
            tiny([(10, 0)], [four(1, 1)], 1, honey_house=house, people=(replace(ANN, spins=False),))
        )


def test_progress_tells_cost_bound_and_what_is_left() -> None:
    """From the first plan to the last word; the bound is known before the rounds begin."""
    told: list[Progress] = []
    plan = plan_season(two_yards(), rounds=12, progress=told.append)

    assert "first plan" == told[0].note
    assert (12, 12) == (told[-1].round, told[-1].rounds)
    assert (DONE, plan.bound.cents) == (told[-1].undone, told[-1].bound_cents)
    assert plan.bill.total() - 12 <= told[-1].cost_cents <= plan.bill.total()
    assert ((1, 12), "all rounds done") == (
        (plan.search.seed, plan.search.rounds),
        plan.search.stopped,
    )


def test_no_bound_is_told_while_something_is_left() -> None:
    """The bound holds for plans that leave nothing; so it is not shown beside one that does."""
    told: list[Progress] = []
    plan_season(tiny([(10, 0)], [four(1, 1, open_spans=())], 1), rounds=2, progress=told.append)

    assert {None} == {each.bound_cents for each in told}


def test_a_large_campaign_is_bounded_after_the_search(monkeypatch: pytest.MonkeyPatch) -> None:
    """The first rounds do not wait for the bound; the plan has it all the same."""
    small = plan_season(two_yards(), rounds=2)
    monkeypatch.setattr(room, "QUICK_BOUND_YARDS", 0)

    assert small == plan_season(two_yards(), rounds=2)


def test_ctrl_c_while_the_bound_is_sought_keeps_the_first_plan(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The plan stands without a bound, and says who broke off."""

    def broken_off(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(room, "bound_of", broken_off)
    plan = plan_season(two_yards(), rounds=50)

    assert (0, 0, "broken off by the user") == (
        plan.bound.cents, plan.search.rounds, plan.search.stopped
    )  # fmt: skip
    assert () == audit(plan)


def test_rounds_are_picked_by_size() -> None:
    """18,000 rounds over the yards, between 300 and 1,200; twenty times as many for a clock."""
    outfits = [replace(one_yard(), yards=one_yard().yards * n) for n in (1, 30, 100)]

    assert [1_200, 600, 300] == [default_rounds(outfit) for outfit in outfits]
    assert [24_000, 12_000, 6_000] == [default_rounds(one, clocked=True) for one in outfits]
    assert 1 == plan_season(one_yard(), seconds=0).search.rounds


def test_the_collector_is_left_as_it_was() -> None:
    """The search keeps Python's garbage collector off only if it was on, and only meanwhile."""
    gc.disable()
    try:
        plan_season(one_yard(), rounds=1)
        assert not gc.isenabled()
    finally:
        gc.enable()
    plan_season(one_yard(), rounds=1)
    assert gc.isenabled()


def test_one_trailer_is_behind_one_truck_a_day() -> None:
    """Two trucks, each yard wants the trailer in the same short hours: one must do without."""
    outfit = trailer_pays()
    short = {"boxes": 16, "stores_g": 8_000, "open_spans": daily(480, 600, [0])}
    truck = replace(outfit.trucks[0], drivers=("ann", "cat"))
    cat = replace(ANN, id="cat", spins=False, mixes=False)
    two = replace(
        tiny([(50, 0), (-50, 0)], [four(1, 1, **short), four(2, 1, **short)], 1),
        trucks=(truck, replace(truck, id="truck2")),
        trailers=outfit.trailers,
        people=(*an_outfit().people, cat),
    )
    plan = planned(two, rounds=10)

    # 16 boxes want 6 columns; a truck alone has 4 and there is time for one trip only.
    assert [shift.trailer for shift in plan.shifts] == ["tr"]
    assert 4 == plan.tally.not_off


@pytest.mark.parametrize(("owned", "lots"), [(5, [4, 3]), (4, [4, 3]), (3, [3])])
def test_boards_fewer_than_colonies_make_lots_worth_a_visit(owned: int, lots: list[int]) -> None:
    """Seven colonies, lots of three at least: five boards serve four and then three."""
    yard = replace(four(1, 6, clearing=Clearing.BOARDS), colonies=7, boxes=7)
    outfit = tiny([(10, 0)], [yard], 6, people=(ANN,))
    plan = planned(replace(outfit, kit=replace(outfit.kit, boards_owned=owned)), rounds=10)
    on = [
        a.colonies
        for call in calls_with(plan, Job.BOARDS)
        for a in call.actions
        if a.job is Job.BOARDS
    ]

    # With three boards a lot of four cannot be cleared, and 3 + 3 leaves one colony alone.
    assert (lots if owned > 3 else []) == on
    assert (0 if owned > 3 else 7) == plan.tally.not_off
