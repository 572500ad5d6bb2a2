"""When strips fall due out, printed even where that lies past the campaign."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from runplanner.daybook.honey_on import honey_on
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.days import day_of
from runplanner.outfit.stores import Strips
from runplanner.paperwork.lists.before_feed import feeding_stop
from runplanner.paperwork.lists.second_application import again_colonies, again_pieces
from runplanner.paperwork.speech.say import (
    count,
    date_on,
    date_words,
    whole_name,
)
from runplanner.paperwork.speech.substances import (
    air_words,
    called,
    kind_at,
)
from runplanner.paperwork.speech.tongue import tr
from runplanner.paperwork.stop.events import actions
from runplanner.trade.strips import NO_FEED, ban_cut, given_twice, treatment


# Fields: Veterinary Medicines Regulations 2013 (GB), records of keepers; EU law is alike.
def substance_notes(kind: Strips, plain: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Return the cautions of an active substance, and the air it may be used in.

    ``plain`` is said of a substance of which nothing is known.
    """
    known = treatment(kind.substance)
    notes = plain if known is None else tuple(_as_typed(kind, one) for one in known.cautions)
    again = tr("A second application, as many strips again, when these come out.")
    twice = given_twice(kind.substance, typed=kind.twice)
    return tuple(filter(None, (*notes, again if twice else "", air_words(kind))))


def _as_typed(kind: Strips, caution: str) -> str:
    """Return a caution as the plan keeps to it: a shorter ban on feed is told as the user's own."""
    if caution != NO_FEED or not (known_days := ban_cut(kind)):
        return tr(caution)
    return tr(
        "No feed for {typed} (own figure), where {known} are known: the label decides.",
        typed=count(kind.no_feed_days, "day", "days"),
        known=count(known_days, "day", "days"),
    )


def all_notes(kinds: Sequence[Strips], plain: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Return what is known of every kind, each thing once, its substance named beside others.

    ``plain`` is said of a substance of which nothing is known.
    """
    several = len({kind.substance for kind in kinds}) > 1
    lines = (
        f"{called(kind.substance)}: {note}" if several else note
        for kind in kinds
        for note in substance_notes(kind, plain)
    )
    return tuple(dict.fromkeys(lines))


@dataclass(frozen=True, slots=True)
class StripsOut:
    """One yard's strips: how many went in when, and between which dates they come out.

    ``honey_on``: so many colonies had their honey on then.  ``again``: so many strips go in when
    they come out, into as many colonies as live (``again_colonies``), and are due from
    ``again_from`` to ``again_to``.  ``year`` is that in which
    they went in, ``last_year`` that of the last of these dates.  ``at_feed``: whoever
    feeds the yard on the last day takes them out first.
    """

    yard: str
    kind: Strips
    colonies: int
    pieces: int
    went_in: str
    due_from: str
    due_to: str
    due_day: int
    last_day: int
    year: int
    last_year: int
    honey_on: int = 0
    again: int = 0
    again_colonies: int = 0
    again_from: str = ""
    again_to: str = ""
    at_feed: bool = False

    def first_out(self, day: int) -> bool:
        """Tell whether they are due out on a day."""
        return self.due_day <= day <= self.last_day

    def second_out(self, day: int) -> bool:
        """Tell whether those of a second application may be due out on a day."""
        first, last = self.kind.out_after_days, self.kind.out_before_days
        return self.again > 0 and self.due_day + first <= day <= self.last_day + last

    def second(self) -> "StripsOut":
        """Return the same with what goes in again in place of what went in."""
        return replace(self, pieces=self.again, colonies=self.again_colonies)


def strips_out(plan: Plan) -> tuple[StripsOut, ...]:
    """Return every yard's strips by the day on which they first fall due out."""
    found, treated = [], honey_on(plan, Job.STRIPS)
    for stop, action in actions(plan, Job.STRIPS):
        day, kind = day_of(stop.call.start_min), kind_at(plan.outfit, stop.call.yard)
        again = again_pieces(plan, stop, action)
        end_day = day + kind.out_before_days * (2 if again else 1)
        first_day, last_day = day + kind.out_after_days, day + kind.out_before_days
        fed = feeding_stop(plan, stop.call.yard, first_day, last_day)
        last_day = day_of(fed.call.start_min) if fed else last_day
        found.append(
            StripsOut(
                yard=whole_name(plan.outfit.yard(stop.call.yard)),
                kind=kind,
                colonies=action.colonies,
                pieces=action.pieces,
                went_in=date_words(plan.outfit, day),
                due_from=dated(plan, first_day),
                due_to=dated(plan, last_day),
                due_day=first_day,
                last_day=last_day,
                year=date_on(plan.outfit, day).year,
                last_year=date_on(plan.outfit, end_day).year,
                honey_on=treated[stop.call.yard].colonies if stop.call.yard in treated else 0,
                again=again,
                again_colonies=again_colonies(plan, stop, action),
                again_from=dated(plan, day + 2 * kind.out_after_days),
                again_to=dated(plan, day + 2 * kind.out_before_days),
                at_feed=fed is not None,
            )
        )
    return tuple(sorted(found, key=lambda one: (one.due_day, one.yard)))


def due_inside(plan: Plan) -> tuple[StripsOut, ...]:
    """Return those that fall due out while the campaign runs."""
    return tuple(one for one in strips_out(plan) if one.due_day < plan.outfit.season.n_days)


def nobodys(due: Sequence[StripsOut]) -> tuple[StripsOut, ...]:
    """Return those that nobody takes out: not at a stop that feeds, and no trip fetches any."""
    return tuple(one for one in due if not one.at_feed)


def unfetched() -> str:
    """Return that nobody is sent for strips that fall due while the campaign runs."""
    return tr(
        "No trip of this plan fetches them, and neither truck nor person is kept free for it: "
        "say who goes."
    )


def at_feed_words() -> str:
    """Return that strips which forbid feed are taken out by whoever feeds the yard."""
    return tr("by whoever feeds the yard on the last day, before any feed")


def bring_words(strips: str) -> str:
    """Return what to bring when strips are fetched that are given twice."""
    return tr("bring {strips} for the second application", strips=strips)


def due_words(due_from: str, due_to: str) -> str:
    """Return from when to when strips fall due, the year once where it is the same."""
    start = due_from.removesuffix(f" {due_to[-4:]}")
    return tr("{start} to {end}", start=start, end=due_to)


def dated(plan: Plan, day: int) -> str:
    """Return a day with its year."""
    return f"{date_words(plan.outfit, day)} {date_on(plan.outfit, day).year}"


def kinds_out(plan: Plan) -> tuple[Strips, ...]:
    """Return the kinds that go in, soonest due out first; at least the usual."""
    return tuple(dict.fromkeys(one.kind for one in strips_out(plan))) or (plan.outfit.strips,)
