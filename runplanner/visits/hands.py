"""What a job at a yard takes of a crew's hands."""

from collections.abc import Container

from runplanner.daybook.trip import Action, Call, Job
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard


def hand_s(outfit: Outfit, yard: Yard, action: Action) -> int:
    """Return the person-seconds of ``action`` at ``yard``, set-up not counted."""
    pace = outfit.pace
    match action.job:
        case Job.BOARDS:
            return action.colonies * pace.board_s
        case Job.TAKE_OFF:
            way = action.way or yard.clearing
            return pace.take_off_s(action.colonies, action.boxes, action.brood_boxes, way)
        case Job.BLOCK:
            return action.pieces * pace.block_s
        case Job.FEED:
            return action.colonies * pace.feed_s
        case Job.STRIPS:
            return action.colonies * pace.strips_s
        case Job.WET_UP | Job.WET_DOWN | Job.FEEDERS:
            return action.wet * pace.wet_box_s + action.feeders_off * pace.feeder_s


def hands_s(outfit: Outfit, call: Call, jobs: Container[Job] = frozenset(Job)) -> int:
    """Return the person-seconds of the jobs at a call, or of some of them."""
    yard = outfit.yard(call.yard)
    return sum(hand_s(outfit, yard, one) for one in call.actions if one.job in jobs)
