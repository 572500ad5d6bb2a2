"""What yards still wait for, where it is one kind of work alone, and on which days it may lie."""

from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

from runplanner.days import DAY_MIN
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.visits.stop import Stop, Visit

MOST_ROWS = 5_000
"""Rows of days looked at for one yard."""
TAKE_OFF = 0
"""Stands among the numbers of feed rounds for a yard's take-off."""

Row = tuple[int, ...]


class Waiting(NamedTuple):
    """What one yard waits for, feed rounds by number or its take-off, and on which days."""

    yard: int
    rounds: tuple[int, ...]
    rows: tuple[Row, ...]


def left_of(keeper: Keeper, begun: State) -> list[Waiting]:
    """Return what yards wait for, or nothing where it is not all feed rounds or all take-offs."""
    found: list[Waiting] = []
    for yard, progress in enumerate(begun.progress):
        if not progress.owing():
            continue
        way = _take_off if progress.not_off else _rounds
        one = way(keeper, begun, yard)
        if one is None or not one.rows:
            return []
        found.append(one)
    kinds = {TAKE_OFF in one.rounds for one in found}
    return found if len(kinds) == 1 else []


def _take_off(keeper: Keeper, begun: State, yard: int) -> Waiting | None:
    """Return a yard's take-off, where nothing comes before it and only strips go with it."""
    ground, progress = keeper.ground, begun.progress[yard]
    due, facts = ground.dues[yard], ground.outfit.yards[yard]
    if progress.lacking or due.boards or due.other or due.rounds or due.wet:
        return None
    if progress.not_off != facts.colonies or len(facts.sites) > 1:
        return None
    one = Waiting(yard, (TAKE_OFF,), ())
    rows = _rows(keeper, begun, one)
    return None if rows is None else one._replace(rows=tuple(rows))


def job(keeper: Keeper, yard: int, number: int) -> Stop:
    """Return the stop for a feed round, or for the take-off, of a whole yard."""
    facts = keeper.ground.outfit.yards[yard]
    if number == TAKE_OFF:
        return Stop(yard, off=facts.colonies, boxes=facts.boxes, brood=facts.brood_boxes_off)
    return Stop(yard, round=number, fed=facts.colonies)


def _rounds(keeper: Keeper, begun: State, yard: int) -> Waiting | None:
    ground, progress, visits = keeper.ground, begun.progress[yard], begun.visits[yard]
    due, facts = ground.dues[yard], ground.outfit.yards[yard]
    if progress.lacking or progress.not_wet:
        return None
    # Strips may go in along with a round, where syrup does not have to wait for them.
    if progress.no_strips and (not progress.unfed_g or ground.outfit.strips_at(facts).no_feed_days):
        return None
    fed = [sum(v.stop.fed for v in visits if v.stop.round == r) for r in range(1, due.rounds + 1)]
    if any(count not in {0, facts.colonies} for count in fed) or len(facts.sites) > 1:
        return None
    rounds = tuple(r for r, count in enumerate(fed, 1) if not count)
    # Feeders ride out with the first round alone; cover ends at an hour that no list knows.
    first = rounds[:1] == (1,)
    if first and (due.take_off or ground.outfit.kit.feeders_owned is not None):
        return None
    hours = ground.outfit.hours
    span = max(1, hours.end_min - hours.start_min)
    gap = due.round_gap_min
    # The hour of the day must not decide how many days lie between two rounds.
    lags = len(rounds) > 1 or rounds[:1] > (1,)
    if lags and (gap <= span or (gap - 1) // DAY_MIN != (gap - span - 1) // DAY_MIN):
        return None
    rows = _rows(keeper, begun, Waiting(yard, rounds, ()))
    return None if rows is None else Waiting(yard, rounds, tuple(rows))


def _rows(keeper: Keeper, begun: State, one: Waiting) -> list[Row] | None:
    """Return the rows of days on which a yard's rounds may lie; None where there are too many."""
    ground = keeper.ground
    first = ground.now_min // DAY_MIN
    stop = job(keeper, one.yard, one.rounds[0])
    fit = [d for d in range(first, ground.outfit.season.n_days) if ground.stop_spans(stop, d)]
    rows = []
    for count, row in enumerate(combinations(fit, len(one.rounds))):
        if count >= MOST_ROWS:
            return None
        read = keeper.chains.read(one.yard, (*begun.visits[one.yard], *_visits(keeper, one, row)))
        if read is not None and not read.unfed_g and not read.not_off:
            rows.append(row)
    return rows


def _visits(keeper: Keeper, one: Waiting, row: Row) -> Iterator[Visit]:
    """Yield a yard's visits on their days, all at the last hour."""
    for number, day in zip(one.rounds, row, strict=True):
        at = day * DAY_MIN + keeper.ground.outfit.hours.end_min - 1
        yield Visit(at, at + 1, at + 1, job(keeper, one.yard, number), day, 0)


def undivided(keeper: Keeper, one: Waiting) -> bool:
    """Tell whether a yard cannot be served in parts."""
    colonies = keeper.ground.outfit.yards[one.yard].colonies
    return colonies < 2 * max(1, min(keeper.ground.outfit.rules.smallest_lot, colonies))
