"""What jobs take of a crew's hands, worked by hand."""

from dataclasses import replace

from runplanner.daybook.trip import Action, Job
from runplanner.outfit.yards import Clearing
from runplanner.visits.hands import hand_s
from tests.outfits import an_outfit


def test_each_job_takes_its_pace() -> None:
    """Hand work is colonies and pieces times the pace, set-up left out."""
    # The test outfit: inspect 240 s, box 120 s, board 60, block 60, feed 120, strips 60.
    outfit = an_outfit()
    yard = outfit.yards[0]

    assert 10 * 60 == hand_s(outfit, yard, Action(Job.BOARDS, 10, pieces=10))
    assert 10 * 240 + 17 * 120 == hand_s(
        outfit, yard, Action(Job.TAKE_OFF, 10, boxes=15, brood_boxes=2)
    )
    assert 20 * 60 == hand_s(outfit, yard, Action(Job.BLOCK, 10, pieces=20))
    assert 10 * 120 == hand_s(outfit, yard, Action(Job.FEED, 10, round=1, ml=50_000))
    assert 10 * 60 == hand_s(outfit, yard, Action(Job.STRIPS, 10, pieces=20))


def test_boards_leave_some_boxes_to_brush() -> None:
    """Under boards, a twentieth of the boxes, rounded up, is brushed as well."""
    # 15 boxes x 50 per mille = 0.75 -> 1 box of 120 s more.
    outfit = an_outfit()
    yard = replace(outfit.yards[0], clearing=Clearing.BOARDS)

    assert 10 * 240 + 15 * 120 + 120 == hand_s(outfit, yard, Action(Job.TAKE_OFF, 10, boxes=15))
