"""Strips that fall due out on the day of a stop at their yard, to be told to who is there.

No trip is planned for fetching them, and no time at a stop: papers say what is due and how long
it takes.  Those that come out where the yard is fed are told by ``before_feed``.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Call, Job
from runplanner.days import day_of
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Strips
from runplanner.paperwork.escape import message_text
from runplanner.paperwork.lists.before_feed import (
    OutFirst,
    due_days,
    feed_after,
    may_hang,
    out_min,
)
from runplanner.paperwork.lists.second_application import again_pieces
from runplanner.paperwork.speech.say import date_words, duration
from runplanner.paperwork.speech.substances import kind_at, strips_named
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.speech.trip_state import call_over
from runplanner.paperwork.stop.events import actions_at
from runplanner.trade.strips import given_twice


@dataclass(frozen=True, slots=True)
class DueHere:
    """Strips of one application due out at a stop; ``again``: those that go in as they come out."""

    strips: str
    by: str
    minutes: int
    again: str

    def words(self) -> str:
        """Return what a driver's paper says of them."""
        words = mark(
            "{strips} are due out by {date}: take them out unless that is done, about {time} for "
            "one person, for which the plan keeps no time."
        )
        if self.again:
            words = mark(
                "{strips} are due out by {date}: unless that is done take them out and put "
                "in {again} for the second application, about {time} for one person, for which "
                "the plan keeps no time."
            )
        time = duration(self.minutes)
        return tr(words, strips=self.strips, date=self.by, again=self.again, time=time)

    def in_short(self) -> str:
        """Return the same for a phone."""
        words = mark("{strips} due out by {date}, unless done: about {time} more")
        if self.again:
            words = mark("{strips} due out, {again} in by {date}, unless done: {time} more")
        strips, again = message_text(self.strips), message_text(self.again)
        return tr(words, strips=strips, date=self.by, again=again, time=duration(self.minutes))


def out_here(plan: Plan, call: Call) -> Iterator[OutFirst | DueHere]:
    """Yield the strips that come out before a call feeds, else those due out at a stop to come.

    Those of a second application come last.
    """
    if call_over(plan, call):
        return
    if before_feed := feed_after(plan, call):
        yield before_feed
        return
    kind = kind_at(plan.outfit, call.yard)
    twice = given_twice(kind.substance, typed=kind.twice)
    for time in (1, 2) if twice else (1,):
        for stop, action in actions_at(plan, call.yard, Job.STRIPS):
            days = due_days(kind, day_of(stop.call.start_min), time)
            if may_hang(plan, call.yard, call.start_min, days):
                again = again_pieces(plan, stop, action) if time == 1 else 0
                yield _due(plan.outfit, kind, action, days[1], again)


def _due(outfit: Outfit, kind: Strips, action: Action, last: int, again: int) -> DueHere:
    """Return strips due out by the day ``last``, with ``again`` that go in for them."""
    return DueHere(
        strips=strips_named(outfit, action.pieces, kind.substance),
        by=date_words(outfit, last),
        minutes=out_min(outfit, action) * (2 if again else 1),
        again=strips_named(outfit, again, kind.substance) if again else "",
    )
