"""What a search leaves lying about, put right at its end: blocks, boards, lots and strips.

All of it is judged exactly, and nothing is taken that costs more or leaves more undone.
"""

from collections.abc import Callable, Iterator
from itertools import permutations, product

from runplanner.season.search.lots import evened
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.day import Day, Key, thinned, with_stop, with_trip
from runplanner.trips.judged import Judged
from runplanner.visits.stop import Stop, Visit


def tidied(keeper: Keeper, state: State) -> State:
    """Return the state without needless blocks, boards and stops, lots evened, strips sooner."""
    yards = range(len(state.visits))
    for yard in yards:
        state = without_needless_blocks(keeper, state, yard)
        state = without_needless_boards(keeper, state, yard)
        state = boards_together(keeper, state, yard)
        state = blocks_together(keeper, state, yard)
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
    for stop, key, day, number, at in sorted(_fewer(state, yard), key=lambda one: one[0].blocks):
        new = keeper.replace(state, key, with_stop(day, number, at, stop if stop.blocks else None))
        if new is not None and new.score < state.score:
            yield new


def _fewer(state: State, yard: int) -> Iterator[tuple[Stop, Key, Day, int, int]]:
    """Yield stops with fewer blocks, and where: a truck's day, as it is or soon, trip, number."""
    again = (one for one in state.visits[yard] if one.stop.further and not one.fact)
    for key in dict.fromkeys((one.day, one.truck) for one in again):
        judged = state.days[key]
        for day, number in product((judged.day, _as_soon(judged)), range(len(judged.day.trips))):
            for at, stop in enumerate(day.trips[number]):
                if stop.yard == yard and stop.further:
                    yield from ((less, key, day, number, at) for less in _with_less(stop))


def _with_less(stop: Stop) -> Iterator[Stop]:
    """Yield a stop for further blocks with fewer: for fewer colonies, or fewer for each."""
    colonies = stop.blocks // stop.each
    for each, count in product(range(1, stop.each + 1), range(colonies + 1)):
        if count * each < stop.blocks:
            yield stop._replace(blocks=count * each, each=each)


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
    return _together(keeper, state, yard, lambda stop: bool(stop.boards), _with_boards)


def blocks_together(keeper: Keeper, state: State, yard: int) -> State:
    """Let further blocks that one trip gives a yard be given at one stop, where it costs no more.

    The search gives one at a time; three for each colony opened every hive three times.
    """
    return _together(keeper, state, yard, lambda stop: stop.further, _with_blocks)


def _with_boards(to: Stop, off: Stop) -> Iterator[tuple[Stop, Stop]]:
    """Yield a stop with another's boards as well, and what is left of that."""
    yield to._replace(boards=to.boards + off.boards), off._replace(boards=0)


def _with_blocks(to: Stop, off: Stop) -> Iterator[tuple[Stop, Stop]]:
    """Yield a stop with another's further blocks as well: for more colonies, or for the same."""
    both, gone = to.blocks + off.blocks, off._replace(blocks=0)
    if to.each == off.each:
        yield to._replace(blocks=both), gone
    if to.blocks * off.each == off.blocks * to.each:
        yield to._replace(blocks=both, each=to.each + off.each), gone


def _together(
    keeper: Keeper,
    state: State,
    yard: int,
    wanted: Callable[[Stop], bool],
    join: Callable[[Stop, Stop], Iterator[tuple[Stop, Stop]]],
) -> State:
    """Join stops of one trip that are wanted, two by two, as long as nothing is worse by it."""
    while (new := next(_joined(keeper, state, yard, wanted, join), None)) is not None:
        state = new
    return state


def _joined(
    keeper: Keeper,
    state: State,
    yard: int,
    wanted: Callable[[Stop], bool],
    join: Callable[[Stop, Stop], Iterator[tuple[Stop, Stop]]],
) -> Iterator[State]:
    """Yield states, none worse, in which a stop does the work of another besides its own."""
    ahead = (one for one in state.visits[yard] if wanted(one.stop) and not one.fact)
    keys = dict.fromkeys((one.day, one.truck) for one in ahead)
    for key in keys:
        day = state.days[key].day
        for number, trip in enumerate(day.trips):
            mine = [at for at, stop in enumerate(trip) if stop.yard == yard and wanted(stop)]
            for to, off in permutations(mine, 2):
                for more, less in join(trip[to], trip[off]):
                    stops = list(trip)
                    stops[to], stops[off] = more, less
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
