"""What a crew that is late may leave, least harm first.

The order is that of the undone work a plan compares: what may be lost first is a colony
not taken off, then feed, then strips in time; cover of a condensed colony is never left, nor
what no later day can make good.
"""

from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Call, Job, Shift, Trip
from runplanner.days import DAY_MIN
from runplanner.paperwork.driver.latest_start import latest_start
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.stop.cover import covers_at
from runplanner.paperwork.stop.yard_words import blocks_each

MOST = 2
NOTHING = mark("Nothing may be skipped: ring base now.")


@dataclass(frozen=True, slots=True)
class _Choice:
    here: bool
    harm: int
    stop: int
    words: str


def if_late(plan: Plan, shift: Shift, trip: Trip, stop: int) -> tuple[str, ...]:
    """Return what to leave, in words, when leaving stop ``stop`` late (0: the load call).

    At most two things, here before elsewhere, the least harmful first; lots of one job are one.
    """
    found = [
        choice
        for number, call in enumerate(trip.yards(), start=1)
        if number >= stop
        for choice in _at_stop(plan, shift, call, number, here=number == stop)
    ]
    found.sort(key=lambda one: (not one.here, one.harm, -one.stop))
    return tuple(dict.fromkeys(choice.words for choice in found))[:MOST] or (tr(NOTHING),)


def then_words(late: tuple[str, ...]) -> str:
    """Return what to leave first, and what next."""
    first, *rest = late
    return " ".join((first, *(tr("Then: {what}", what=one) for one in rest)))


def _at_stop(plan: Plan, shift: Shift, call: Call, number: int, *, here: bool) -> list[_Choice]:
    jobs = {action.job: action for action in call.actions}
    if Job.TAKE_OFF in jobs:
        return _take_off(plan, shift, call, number, here=here)
    spot = tr("here") if here else tr("at stop {number}", number=number)
    return [
        _Choice(here, harm, number, tr("Skip {work} {spot}.", work=words, spot=spot))
        for action in call.actions
        if (found := _single(plan, shift, call, action)) is not None
        for harm, words in (found,)
    ]


def _take_off(plan: Plan, shift: Shift, call: Call, number: int, *, here: bool) -> list[_Choice]:
    """A take-off may stop early unless this stop's syrup or strips wait for its last colony.

    Syrup of a later stop waits for it as well, so none may where colonies want that soon.  A stop
    left out whole leaves its boards, syrup and strips as well, so a later day must do for all.
    """
    left = {Job.TAKE_OFF} if here else {Job.TAKE_OFF, Job.BOARDS, Job.FEED, Job.STRIPS}
    if any(_last(plan, shift, call, action) for action in call.actions if action.job in left):
        return []
    if _waits(plan, shift, call, call.end_min if here else call.start_min):
        return []
    if not here:
        return [_Choice(here, 1, number, tr("Skip stop {number} whole.", number=number))]
    if any(action.job in {Job.FEED, Job.STRIPS} for action in call.actions):
        return []
    words = tr("Open no more colonies.")
    block = next((action for action in call.actions if action.job is Job.BLOCK), None)
    if block is not None and (each := blocks_each(block)) > 1:
        words = tr("Open no more colonies; {number} blocks on each one opened.", number=each)
    elif block is not None:
        words = tr("Open no more colonies; a block on each one opened.")
    return [_Choice(here, 1, number, words)]


def _single(plan: Plan, shift: Shift, call: Call, action: Action) -> tuple[int, str] | None:
    match action.job:
        case Job.BOARDS:
            found = 0, tr("the boards")
        case Job.FEED if action.round > 1:
            found = 2, tr("syrup round {number}", number=action.round)
        case Job.FEED if not _waits(plan, shift, call, call.start_min):
            found = 4, tr("the syrup")
        case Job.STRIPS:
            found = 3, tr("the strips")
        case _:
            return None
    return None if _last(plan, shift, call, action) else found


def _last(plan: Plan, shift: Shift, call: Call, action: Action) -> bool:
    """Return whether no later day can make an action good."""
    return latest_start(plan, call, action) < (shift.day + 1) * DAY_MIN


def _waits(plan: Plan, shift: Shift, call: Call, until_min: int) -> bool:
    """Return whether a colony of the yard, off and not fed by then, runs out by tomorrow's end."""
    soon = (shift.day + 2) * DAY_MIN
    return any(
        one.fed_min is None and one.ends_min < soon
        for one in covers_at(plan, plan.outfit.yard(call.yard), until_min)
    )
