"""How many boxes sooner to stop where what a stop was to be given stays aboard.

The number of boxes to stop at takes for granted that syrup is poured, and all else given, as
planned.  Where not all colonies come off, no syrup may be poured and no strips go in, so they
ride home beside the honey.
"""

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Job, Trip
from runplanner.haulage.lots import comb_box_g
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.speech.say import count
from runplanner.paperwork.speech.tongue import tr


def boxes_sooner(outfit: Outfit, trip: Trip, call: Call) -> int:
    """Return how many boxes fewer, there and at later stops, make up for what a stop was to get.

    Counted by the lightest box that the trip may still fetch, and by mass alone: so many boxes
    fewer bear upon no leg more than those the stops' own numbers allow.  0 where no boxes come
    aboard from there on, or the stop gets nothing.
    """
    later = trip.calls[trip.calls.index(call) :]
    boxes_g = [outfit.yard(one.yard).box_g for one in later if one.takes_boxes()]
    return -(-_given_g(outfit, call) // min(boxes_g)) if boxes_g else 0


def sooner_words(plan: Plan, trip: Trip, call: Call) -> str:
    """Return that number for the driver, with when it counts; empty where there is none.

    Where not all boxes can come off that is said instead: the number to stop at counts on it.
    """
    withheld = withheld_words(call)
    if trip.takes_too_many(call, plan.now_min):
        many = tr("More is planned than the truck bears: not all can come off.")
        so = tr("So {withheld}, and the rest stays on.", withheld=withheld) if withheld else ""
        return " ".join(filter(None, (many, so)))
    fewer = boxes_sooner(plan.outfit, trip, call)
    if not fewer:
        return ""
    boxes = count(fewer, "box", "boxes")
    if call.takes_boxes() and withheld:
        return tr(
            "Not all off, or left out: {withheld}, and {boxes} fewer, here and at later stops.",
            withheld=withheld, boxes=boxes,
        )  # fmt: skip
    if call.takes_boxes():
        return tr("Not all off, or left out: {boxes} fewer, here and at later stops.", boxes=boxes)
    return tr("Left out: {boxes} fewer at later stops.", boxes=boxes)


def withheld_words(call: Call) -> str:
    """Return what does not go into a yard where honey stays on; empty where nothing was to."""
    jobs = {one.job for one in call.actions}
    withheld = ((Job.FEED, tr("no syrup")), (Job.STRIPS, tr("no strips")))
    return ", ".join(words for job, words in withheld if job in jobs)


def _given_g(outfit: Outfit, call: Call) -> int:
    """Return the mass of what a stop leaves in its yard."""
    kit, given = outfit.kit, 0
    for one in call.actions:
        given += one.feeders * kit.feeder_g - (-one.ml * outfit.feed.density_g_per_l // 1000)
        yard = outfit.yard(call.yard)
        if one.job is Job.BLOCK:
            given += one.pieces * kit.block_g
        elif one.job is Job.BOARDS:
            given += one.pieces * kit.board_g
        elif one.job is Job.STRIPS:
            given += one.pieces * outfit.strip_g(yard)
        elif one.job is Job.WET_UP:
            given += one.wet * comb_box_g(outfit, yard)
    return given
