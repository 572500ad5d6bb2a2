"""What one stop means for a truck."""

from dataclasses import replace

import pytest

from runplanner.days import Span
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Health, Yard
from runplanner.trips.task import Goods, Task, task_of
from runplanner.visits.due import due
from runplanner.visits.stop import Stop
from runplanner.visits.windows import windows
from tests.outfits import a_yard, an_outfit, daily

YARD = a_yard(1)
OUTFIT = an_outfit([(10, 0)], [YARD])
OFF = Stop(0, off=10, boxes=15, blocks=10)


def task(stop: Stop, yard: Yard = YARD, outfit: Outfit = OUTFIT) -> Task:
    """The task of a stop at one yard."""
    facts = replace(outfit, yards=(yard,))
    return task_of(facts, due(facts, yard), windows(facts, yard), stop)


@pytest.mark.parametrize(
    ("stop", "seconds"),
    [
        # (pace of tests.outfits: boards 60, inspect 240, box 120, block 60, feed 120, strips 60)
        (Stop(0, boards=10), 600),
        # 10 x 240 + 15 x 120 + 10 x 60
        (OFF, 4_800),
        (Stop(0, blocks=10), 600),
        (Stop(0, round=1, fed=10), 1_200),
        (Stop(0, strips=True), 600),
        # 2 brood boxes are lifted like honey boxes: 10 x 240 + 17 x 120
        (OFF._replace(brood=2, blocks=0), 4_440),
        (OFF._replace(strips=True), 5_400),
    ],
)
def test_person_seconds(stop: Stop, seconds: int) -> None:
    """Each job by the colonies, boxes or pieces it takes."""
    assert seconds == task(stop).work_s


@pytest.mark.parametrize("clearing", [Clearing.BOARDS, Clearing.WARM_BOARD])
def test_bees_that_stay_want_brushing(clearing: Clearing) -> None:
    """5 % of 15 boxes, rounded up, are brushed as well: 1 x 120 s more."""
    assert 4_920 == task(OFF, replace(YARD, clearing=clearing)).work_s
    # 21 boxes: 1.05 of them, 2: 10 x 240 + 21 x 120 + 10 x 60 + 2 x 120
    many = OFF._replace(boxes=21)
    assert 5_760 == task(many, replace(YARD, clearing=clearing, boxes=21)).work_s


@pytest.mark.parametrize("clearing", [Clearing.BRUSH, Clearing.BLOWER])
def test_brushed_boxes_are_brushed_once(clearing: Clearing) -> None:
    """Brush and blower leave no bees in."""
    assert 4_800 == task(OFF, replace(YARD, clearing=clearing)).work_s


def test_goods_used_up() -> None:
    """8.5 L a colony, two strips a colony, blocks as given; no feeders of the outfit's own."""
    assert Goods(85_000, 0, 0, 0, 0, 0) == task(Stop(0, round=1, fed=10)).used
    assert Goods(0, 10, 0, 0, 0, 0) == task(OFF).used
    assert Goods(0, 0, 0, 0, 20, 0) == task(Stop(0, strips=True)).used


def test_boards_out_and_back() -> None:
    """Ten go out before the take-off, ten come back with it."""
    yard = replace(YARD, clearing=Clearing.BOARDS)

    assert Goods(0, 0, 10, 0, 0, 0) == task(Stop(0, boards=10), yard).used
    assert Goods(0, 10, 0, 10, 0, 0) == task(OFF, yard).used


def test_feeders_of_the_outfit_go_out_with_the_first_round() -> None:
    """One for each colony, once; they stay until the strips come out."""
    outfit = replace(OUTFIT, kit=replace(OUTFIT.kit, feeders_owned=40))

    assert 10 == task(Stop(0, round=1, fed=10), outfit=outfit).used.feeders
    assert 0 == task(Stop(0, round=2, fed=10), outfit=outfit).used.feeders


def test_mass_gained() -> None:
    """15 boxes of 16 kg come on, 10 blocks of 2.1 kg go off."""
    assert 240_000 - 21_000 == task(OFF).gain_g
    # two brood boxes with comb count 2 x 4.5 kg each
    assert 240_000 - 21_000 + 18_000 == task(OFF._replace(brood=2)).gain_g
    # 20 strips of 10 g; syrup is not counted here
    assert -200 == task(Stop(0, strips=True)).gain_g
    assert 0 == task(Stop(0, round=1, fed=10)).gain_g


def test_boards_and_feeders_have_mass() -> None:
    """10 boards of 1.5 kg go off and come on again; 10 feeders of 1.2 kg go off."""
    yard = replace(YARD, clearing=Clearing.BOARDS)
    outfit = replace(OUTFIT, kit=replace(OUTFIT.kit, feeders_owned=40))

    assert -15_000 == task(Stop(0, boards=10), yard).gain_g
    assert 240_000 - 21_000 + 15_000 == task(OFF, yard).gain_g
    assert -12_000 == task(Stop(0, round=1, fed=10), outfit=outfit).gain_g


def test_hours_of_a_stop() -> None:
    """Open-fit for boards and take-off, feed-fit for syrup, either for strips, else daylight."""
    yard = replace(YARD, open_spans=daily(480, 900, [0]), feed_spans=daily(720, 1_140, [0]))

    def first(stop: Stop) -> tuple[Span, ...]:
        return task(stop, yard).spans[0]

    assert daily(480, 900, [0]) == first(OFF) == first(Stop(0, boards=10))
    assert daily(720, 1_140, [0]) == first(Stop(0, round=1, fed=10))
    assert daily(720, 900, [0]) == first(OFF._replace(round=1, fed=10))
    assert (*daily(480, 900, [0]), *daily(720, 1_140, [0])) == first(Stop(0, strips=True))
    assert daily(360, 1_200, [0]) == first(Stop(0, blocks=10))


def test_wet_boxes_and_feeders_want_hours_for_hives_or_for_syrup() -> None:
    """Fit for hives from 8 to 15, for syrup from 12 to 19; wet boxes go up from 16 on."""
    yard = replace(YARD, open_spans=daily(480, 900, [0]), feed_spans=daily(720, 1_140, [0]))
    either = (Span(480, 900), Span(720, 1_140))

    assert either == task(Stop(0, wet_down=15), yard).spans[0]
    assert either == task(Stop(0, feeders_off=10), yard).spans[0]
    assert (Span(960, 1_140),) == task(Stop(0, wet_up=15), yard).spans[0]
    assert (Span(720, 1_140),) == task(Stop(0, round=1, fed=10, wet_down=15), yard).spans[0]
    assert (Span(360, 1_200),) == task(Stop(0, blocks=10), yard).spans[0]


def test_a_day_unfit_for_strips() -> None:
    """Day 1 has no hours for strips, even along with a take-off."""
    yard = replace(YARD, strips_shut_days=(1,))

    assert () == task(Stop(0, strips=True), yard).spans[1]
    assert () == task(OFF._replace(strips=True), yard).spans[1]
    assert () != task(OFF, yard).spans[1]


def test_only_a_take_off_must_let_the_bees_settle() -> None:
    """A storm until 10 o'clock holds up the end of a take-off, not of strips."""
    yard = replace(YARD, unsettled_spans=(Span(540, 600),))

    assert 600 == task(OFF, yard).settled[0]
    assert 0 == task(Stop(0, strips=True), yard).settled[0]


def test_a_held_yard_is_due_no_boards_back() -> None:
    """Where nothing may leave, no boards are reckoned with."""
    yard = replace(YARD, clearing=Clearing.BOARDS, health=Health.STANDSTILL)

    assert 0 == task(OFF, yard).used.boards_back
