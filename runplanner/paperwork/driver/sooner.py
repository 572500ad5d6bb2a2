"""How many boxes sooner to stop where what a stop was to be given stays aboard.

The number of boxes to stop at takes for granted that syrup is poured, and all else given, as
planned.  Where not all colonies come off, no syrup may be poured and no strips go in, so they
ride home beside the honey; nor may any that other stops of that day bring to the yard.
"""

from collections.abc import Iterator

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops_at
from runplanner.daybook.trip import Against, Call, Job, Trip
from runplanner.days import day_of
from runplanner.haulage.lots import comb_box_g
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.speech.say import count, sentence
from runplanner.paperwork.speech.tongue import tr
from runplanner.paperwork.speech.trip_state import call_over


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
    withheld = withheld_words(plan, call)
    if trip.takes_too_many(call, plan.now_min):
        many = tr("More is planned than the truck bears: not all can come off.")
        so = tr("So {withheld}, and the rest stays on.", withheld=withheld) if withheld else ""
        return " ".join(filter(None, (many, so)))
    fewer = boxes_sooner(plan.outfit, trip, call)
    boxes = count(fewer, "box", "boxes")
    if not call.takes_boxes():
        left_out = tr("Left out: {boxes} fewer at later stops.", boxes=boxes) if fewer else ""
        return " ".join(filter(None, (sentence(ban_words(plan, trip, call)), left_out)))
    if not fewer:
        return sentence(ban_words(plan, trip, call))
    if withheld:
        return tr(
            "Not all off, or left out: {withheld}, and {boxes} fewer, here and at later stops.",
            withheld=withheld, boxes=boxes,
        )  # fmt: skip
    return tr("Not all off, or left out: {boxes} fewer, here and at later stops.", boxes=boxes)


def unheld_words(plan: Plan, trip: Trip, call: Call) -> str:
    """Return that the load of a stop to come does not hold, in few words; else nothing.

    Nothing either where fewer boxes make it hold, which is said beside the number to stop at.
    """
    holds = Against.LOAD not in call.against or call_over(plan, call)
    if holds or trip.takes_too_many(call, plan.now_min):
        return ""
    return tr("planned load does not hold: ring the office")


def ban_words(plan: Plan, trip: Trip, call: Call) -> str:
    """Return, in few words, what goes into a yard only once all honey is off; may be empty.

    Where not all can come off it is said with that.
    """
    if trip.takes_too_many(call, plan.now_min):
        return ""
    if not call.takes_boxes():
        return _waits_words(plan, call)
    withheld = withheld_words(plan, call)
    return tr("not all off, or left out: {withheld}", withheld=withheld) if withheld else ""


def withheld_words(plan: Plan, call: Call) -> str:
    """Return what does not go into a yard where honey stays on; empty where nothing was to.

    What a later stop was to give it that day is said apart; colonies that have no block until
    then are for the base to settle.
    """
    later = {
        action.job
        for other in _that_day(plan, call)
        if other.start_min >= call.end_min and not other.takes_boxes()
        for action in other.actions
    }
    no_syrup = tr("no syrup later today")
    if all(action.job is not Job.BLOCK for action in call.actions):
        no_syrup = tr("no syrup later today (ring base)")
    to_come = ((Job.FEED, no_syrup), (Job.STRIPS, tr("no strips later today")))
    return ", ".join((*_withheld(call), *(words for job, words in to_come if job in later)))


def _withheld(call: Call) -> Iterator[str]:
    jobs = {action.job for action in call.actions}
    withheld = ((Job.FEED, tr("no syrup")), (Job.STRIPS, tr("no strips")))
    return (words for job, words in withheld if job in jobs)


def _waits_words(plan: Plan, call: Call) -> str:
    """Return what waits for honey that an earlier stop of the day takes off there; may be empty."""
    off = any(
        other.takes_boxes() for other in _that_day(plan, call) if other.end_min <= call.start_min
    )
    withheld = ", ".join(_withheld(call)) if off else ""
    return tr("not all off earlier today: {withheld}", withheld=withheld) if withheld else ""


def _that_day(plan: Plan, call: Call) -> Iterator[Call]:
    """Yield the calls at the yard of a call on its day."""
    calls = (stop.call for stop in stops_at(plan, call.yard))
    return (one for one in calls if day_of(one.start_min) == day_of(call.start_min))


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
