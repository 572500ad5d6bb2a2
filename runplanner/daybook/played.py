"""What one play of a campaign came to: plain counts, to and from a line of text."""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass, fields
from typing import Final, Self

from runplanner.phrase import Phrase

MOST: Final = 10**15
"""Beyond any figure of a play; a line with such a one is none of ours."""
LEAST: Final = {"hindsight_cents": -1, "bound_cents": -1}
"""Figures that may be below nought: not asked for."""


@dataclass(frozen=True, slots=True)
class Played:
    """One play of a rehearsal.

    Args:
        play: Number of the play, from 0; with the seed it fixes all its luck.
        trips: Trips driven.
        over_payload: Trips with more mass aboard than allowed on any leg.
        over_g: The worst of these overloads; 0 where there is none.
        boxes_left: Full boxes that were to come home and found no room, each time.
        past_cover: Colonies whose cover ended before their syrup.
        honey_late: Boxes spun later than their spin-by.
        overtime_min: Minutes of people beyond the normal day.
        late_home_min: Minutes of trucks beyond the working day.
        stops_missed: Stops left out because the crew ran late or the hours were shut.
        no_strips: Colonies without strips in time.
        unfed_g: Winter stores not fed.
        not_off: Colonies with their honey still on at the end.
        no_wet: Colonies that did not get their wet boxes back, or have them up still.
        cents: What the play cost.
        hindsight_cents: Cost of a plan made with the same effort by somebody who knew boxes,
            masses, weather and breakdowns beforehand, job minutes as on paper; -1 where not
            asked for.
        hindsight_done: That plan leaves no work, by the same measure.
        bound_cents: No plan for those facts that gets all work done costs less; -1 where not
            asked for.
        refused: Counts of a trip at a yard that could not be entered, so that it stands as planned.
        plans: Mornings on which the rest was planned again.
        shut_days: Days whose fair hours were shut in at least one area.
        truck_days_lost: Days on which a truck did not start.
    """

    play: int
    trips: int
    over_payload: int
    over_g: int
    boxes_left: int
    past_cover: int
    honey_late: int
    overtime_min: int
    late_home_min: int
    stops_missed: int
    no_strips: int
    unfed_g: int
    not_off: int
    no_wet: int
    cents: int
    hindsight_cents: int
    hindsight_done: bool
    bound_cents: int
    refused: int
    plans: int
    shut_days: int
    truck_days_lost: int

    def all_done(self) -> bool:
        """Tell whether no work was left at the end; cover that ended is a trouble of its own."""
        return not (self.no_strips or self.unfed_g or self.not_off or self.no_wet)

    def line(self, key: str) -> str:
        """Return the play as a line of JSON; ``key`` names what was rehearsed."""
        return json.dumps({"key": key, **asdict(self)}, sort_keys=True)

    @classmethod
    def from_line(cls, text: str, key: str) -> Self | None:
        """Return the play in a line, or None for a line torn off, or of another rehearsal."""
        try:
            body = json.loads(text)
        except (ValueError, RecursionError):
            return None
        if not isinstance(body, dict) or body.pop("key", None) != key:
            return None
        kinds = {field.name: field.type for field in fields(cls)}
        if set(body) != set(kinds) or not all(type(body[n]) is kinds[n] for n in kinds):
            return None
        if not all(LEAST.get(name, 0) <= body[name] <= MOST for name in kinds):
            return None
        return cls(**body)


@dataclass(frozen=True, slots=True)
class Rehearsed:
    """A plan and its plays.

    Args:
        name: What sets this plan apart from others rehearsed beside it; may be empty.
        plan_cents: What the plan says it costs, doubt not counted.
        plan_done: The plan leaves nothing undone.
        plays: Its plays, in order.
        unsure_cents: What the plan says doubt costs, on top of that.
    """

    name: Phrase
    plan_cents: int
    plan_done: bool
    plays: tuple[Played, ...]
    unsure_cents: int = 0


def finished(plays: tuple[Played, ...]) -> tuple[Played, ...]:
    """Return the plays that did all the work: the others are the cheaper for what they leave."""
    return tuple(one for one in plays if one.all_done())


def mean_cents(plays: tuple[Played, ...]) -> int | None:
    """Return the mean cost of the plays that did all the work, to the nearest cent, if any did."""
    cents = [one.cents for one in finished(plays)]
    return nearest_mean(cents) if cents else None


def nearest_mean(numbers: Sequence[int]) -> int:
    """Return the mean of numbers to the nearest whole one, halves up; 0 of none."""
    n = len(numbers)
    return (2 * sum(numbers) + n) // (2 * n) if n else 0


def most_cents(plays: tuple[Played, ...]) -> int | None:
    """Return what nine in ten of the plays that did all the work cost at most, if any did."""
    cents = [one.cents for one in finished(plays)]
    return nine_in_ten(cents) if cents else None


def troubled(plays: tuple[Played, ...]) -> int:
    """Return the plays in which a trip was over payload, or cover ended, or work was left."""
    return sum(bool(p.over_payload or p.past_cover or not p.all_done()) for p in plays)


def nine_in_ten(numbers: list[int]) -> int:
    """Return what nine in ten are at most, nearest rank and no interpolation; 0 of none.

    The p-quantile of n numbers is the ceil(p n)-th smallest (Hyndman and Fan, Sample
    Quantiles in Statistical Packages, 1996, definition 1; from memory).
    """
    ranked = sorted(numbers)
    return ranked[max(0, -(-9 * len(ranked) // 10) - 1)] if ranked else 0
