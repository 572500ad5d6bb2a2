"""What a search leaves lying about, put right at its end: blocks, boards, lots and strips.

All of it is judged exactly, and nothing is taken that costs more or leaves more undone.
"""

from collections.abc import Iterator
from itertools import permutations, product

from runplanner.season.search.lots import evened
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.day import Day, Key, thinned, with_stop, with_trip
from runplanner.trips.judged import Judged
from runplanner.visits.stop import Stop, Visit


def tidied(keeper: Keeper, state: State) -> State:
    """Return the state without needless blocks and boards, its lots evened, strips in sooner."""
    yards = range(len(state.visits))
    for yard in yards:
        state = without_needless_blocks(keeper, state, yard)
        state = without_needless_boards(keeper, state, yard)
        state = boards_together(keeper, state, yard)
    state = evened(keeper, state, yards)
    for yard in yards:
        state = strips_sooner(keeper, state, yard)
    return state


def without_needless_blocks(keeper: Keeper, state: State, yard: int) -> State:
    """Leave out further blocks yet to be given, all or some, wherever things stand better without.

    A day may have begun early for one that goes only, so it is tried no later as well.
    """
    while (new := next(_less_blocks(keeper, state, yard), None)) is not None:
        state = new
    return state


def _less_blocks(keeper: Keeper, state: State, yard: int) -> Iterator[State]:
    """Yield better states, in which a stop for further blocks is left out, or else gives fewer."""
    for blocks, key, day, number, at in sorted(_fewer(state, yard), key=lambda one: one[0]):
        stop = day.trips[number][at]._replace(blocks=blocks)
        new = keeper.replace(state, key, with_stop(day, number, at, stop if blocks else None))
        if new is not None and new.score < state.score:
            yield new


def _fewer(state: State, yard: int) -> Iterator[tuple[int, Key, Day, int, int]]:
    """Yield so many blocks and for which stop: a truck's day, as it is or soon, trip and number."""
    again = (one for one in state.visits[yard] if one.stop.further and not one.fact)
    for key in dict.fromkeys((one.day, one.truck) for one in again):
        judged = state.days[key]
        for day, number in product((judged.day, _as_soon(judged)), range(len(judged.day.trips))):
            for at, stop in enumerate(day.trips[number]):
                if stop.yard == yard and stop.further:
                    yield from ((blocks, key, day, number, at) for blocks in range(stop.blocks))


def _as_soon(judged: Judged) -> Day:
    """Return a truck's day on which no stop for further blocks may end later."""
    day, visits = judged.day, iter(judged.visits)
    for number, trip in enumerate(judged.day.trips):
        for at in range(len(trip)):
            one = next(visits)
            if one.stop.further:
                day = with_stop(day, number, at, one.stop._replace(to_min=one.end_min))
    return day


def without_needless_boards(keeper: Keeper, state: State, yard: int) -> State:
    """Leave out boards yet to be put on where no take-off follows: nobody would fetch them.

    Where a later stop of that day must not come sooner, as its blocks would not last, it stays
    when it is.
    """
    mine = state.visits[yard]
    for at, visit in enumerate(mine):
        follows = any(later.stop.off for later in mine[at:])
        if visit.stop.boards and not visit.fact and not follows:
            key, stop = (visit.day, visit.truck), visit.stop._replace(boards=0)
            bare = _with_other(state.days[key].day, visit.stop, stop)
            still = _with_other(_as_late(state, key), visit.stop, stop)
            state = keeper.replace(state, key, bare) or keeper.replace(state, key, still) or state
    return state


def _as_late(state: State, key: Key) -> Day:
    """Return a truck's day on which no stop with other work than boards may begin sooner."""
    judged = state.days[key]
    begins = {visit.stop: visit.start_min for visit in judged.visits}
    late = (
        tuple(one if one.boards else one._replace(from_min=begins[one]) for one in trip)
        for trip in judged.day.trips
    )
    return judged.day._replace(trips=tuple(late))


def boards_together(keeper: Keeper, state: State, yard: int) -> State:
    """Let boards that one trip puts on at a yard go on at one stop, where that costs no more.

    The search puts them on for each take-off by itself, and comes to every stop as to a new one.
    """
    while (new := next(_boards_joined(keeper, state, yard), None)) is not None:
        state = new
    return state


def _boards_joined(keeper: Keeper, state: State, yard: int) -> Iterator[State]:
    """Yield states, none worse, in which a stop puts on another's boards besides its own."""
    keys = dict.fromkeys((one.day, one.truck) for one in state.visits[yard] if one.stop.boards)
    for key in keys:
        day = state.days[key].day
        for number, trip in enumerate(day.trips):
            laying = [at for at, stop in enumerate(trip) if stop.yard == yard and stop.boards]
            for to, off in permutations(laying, 2):
                stops = list(trip)
                stops[to] = trip[to]._replace(boards=trip[to].boards + trip[off].boards)
                stops[off] = trip[off]._replace(boards=0)
                joined = tuple(stop for stop in stops if not stop.idle)
                new = keeper.replace(state, key, with_trip(day, number, joined))
                if new is not None and new.score <= state.score:
                    yield new


def strips_sooner(keeper: Keeper, state: State, yard: int) -> State:
    """Let strips go in at the earliest visit at which they cost no more than where they are."""
    mine = state.visits[yard]
    late = next((visit for visit in mine if visit.stop.strips), None)
    if late is None or late.fact:
        return state
    for visit in mine[: mine.index(late)]:
        if not visit.fact:
            new = _moved(keeper, state, visit, late)
            if new is not None and new.score <= state.score:
                return new
    return state


def _moved(keeper: Keeper, state: State, to: Visit, late: Visit) -> State | None:
    """Return the state with a yard's strips in at another of its visits."""
    days = {(one.day, one.truck): state.days[one.day, one.truck].day for one in (to, late)}
    for visit, strips in ((to, True), (late, False)):
        key = visit.day, visit.truck
        stop = visit.stop._replace(strips=strips)
        days[key] = _with_other(days[key], visit.stop, stop)
    return keeper.replace_all(state, days)


def _with_other(day: Day, old: Stop, new: Stop) -> Day:
    """Return a day with another stop in place of one; without work it goes."""
    return thinned(day, lambda stop: new if stop == old else stop)
