"""Strips that forbid feed while they are in: they come out where their yard is next fed.

Whoever feeds is there anyway, so no trip of its own is proposed for fetching them.  The plan keeps
no time for it, so papers tell the minutes.
"""

from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import Stop, stops_at
from runplanner.daybook.trip import Action, Call, Job
from runplanner.days import day_of
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Strips
from runplanner.paperwork.escape import message_text
from runplanner.paperwork.speech.say import duration
from runplanner.paperwork.speech.substances import called, kind_at
from runplanner.paperwork.speech.tongue import tr
from runplanner.paperwork.speech.trip_state import call_over
from runplanner.paperwork.stop.events import actions_at
from runplanner.trade.strips import given_twice, unfed_days


@dataclass(frozen=True, slots=True)
class OutFirst:
    """Strips to take out before a call feeds: of which substance, how long it takes one person."""

    substance: str
    minutes: int

    def words(self) -> str:
        """Return what a driver's paper says of it."""
        return tr(
            "Take all {substance} strips out before any feed: about {time} for one person, for "
            "which the plan keeps no time.",
            substance=called(self.substance), time=duration(self.minutes),
        )  # fmt: skip

    def in_short(self) -> str:
        """Return the same for a phone and for a wet day."""
        return tr(
            "all {substance} strips out before any feed, about {time} more",
            substance=message_text(called(self.substance)), time=duration(self.minutes),
        )  # fmt: skip


def feeding_stop(plan: Plan, yard: str, first_day: int, last_day: int) -> Stop | None:
    """Return where strips due out from one day to another come out, as they forbid feed.

    That is the first stop on these days at which the yard gets syrup or fondant; None where there
    is none, and where feed may be beside its strips.
    """
    if not kind_at(plan.outfit, yard).no_feed_days:
        return None
    fed = (stop for stop in stops_at(plan, yard) if feeds(stop.call))
    return next(
        (stop for stop in fed if first_day <= day_of(stop.call.start_min) <= last_day), None
    )


def feeds(call: Call) -> bool:
    """Tell whether a call gives syrup or fondant."""
    return any(one.job in {Job.FEED, Job.BLOCK} for one in call.actions)


def feed_after(plan: Plan, call: Call) -> OutFirst | None:
    """Return which strips come out before a call feeds, as feed is banned beside them.

    None where none can be in, or where they may not come out yet, and once the call is over.
    """
    if call_over(plan, call) or not feeds(call):
        return None
    return out_first(plan, call.yard, call.start_min)


def out_first(plan: Plan, yard: str, minute: int) -> OutFirst | None:
    """Return which strips come out before a yard is fed at a minute; None where none can be in.

    Where it was fed before, since they fell due out, they came out then.
    """
    kind = kind_at(plan.outfit, yard)
    if not kind.no_feed_days:
        return None
    times = 2 if given_twice(kind.substance, typed=kind.twice) else 1
    due = [
        action
        for stop, action in actions_at(plan, yard, Job.STRIPS)
        if any(
            may_hang(plan, yard, minute, due_days(kind, day_of(stop.call.start_min), time))
            for time in range(1, times + 1)
        )
    ]
    return OutFirst(kind.substance, sum(out_min(plan.outfit, one) for one in due)) if due else None


def due_days(kind: Strips, in_day: int, time: int) -> tuple[int, int]:
    """Return the first and last day on which strips fall due out, counted from their first day.

    ``time`` is 1 of those that go in then, 2 of the second application.
    """
    return in_day + time * kind.out_after_days, in_day + time * kind.out_before_days


def may_hang(plan: Plan, yard: str, minute: int, days: tuple[int, int]) -> bool:
    """Tell whether strips due out from the first of ``days`` to the last may be in at a minute."""
    first, last = days
    fed = feeding_stop(plan, yard, first, last)
    gone = fed is not None and fed.call.start_min < minute
    return first <= day_of(minute) <= last and not gone


def feed_again_day(plan: Plan, yard: str, by_day: int) -> int:
    """Return the first day on which strips in by a day forbid feed no more, 0 without such."""
    ban = unfed_days(kind_at(plan.outfit, yard))
    went_in = (one.shift.day for one, _ in actions_at(plan, yard, Job.STRIPS))
    return max((day + ban for day in went_in if ban and day <= by_day), default=0)


def out_min(outfit: Outfit, action: Action) -> int:
    """Return in how many minutes one person takes strips out, at the pace at which they went in."""
    return -(-action.colonies * outfit.pace.strips_s // 60)
