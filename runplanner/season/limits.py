"""How late may the driver leave, and how many boxes may be loaded, before the plan breaks?"""

from collections.abc import Callable, Mapping

from runplanner.days import DAY_MIN
from runplanner.haulage.boxes_come import Told, ways_to_come
from runplanner.haulage.stow import Stowage
from runplanner.outfit.people import Hours
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.clock import Late, Run, drive_late
from runplanner.trips.day import Key
from runplanner.trips.judged import Judged, put_off
from runplanner.visits.stop import Stop, Visit

MOST_LATE_MIN = 600
MOST_MORE = 400
"""Boxes more than planned that a stop may be told to go on to."""
LAG_MIN = 60
"""How much sooner after a late call another day's visit may come than lags ask (guessed).

A feeder is not emptied to the minute, nor do bees leave boxes to the minute; without this a
driver at the base would be told to skip a yard for one minute that a visit days later lacks.
"""


def latest_leaves(keeper: Keeper, state: State, judged: Judged) -> list[int]:
    """Return, for every call of a day, the latest minute of leaving that spoils nothing.

    A later visit must still fall into the same opening of its hours, and is not begun before
    its planned minute, though a break before it may fall away: nobody is asked to wait for
    the next opening, or to start sooner than the paper says.  Nor is a call left later than
    its own hours end.  Found by making the call longer until its hours, some later window, the
    end of the day, or a lag of some yard no longer holds, or another truck of that day would
    load boards or feeders before they are back; a visit on a later day may lack up to
    ``LAG_MIN`` of its lag.  Breaks from duty may be long enough to spare those from driving,
    but those begun by then are had as planned.  By when a stop is planned to be over is no rule.
    """
    rests = keeper.ground.outfit.hours.ways_to_rest()
    free = (tuple(stop._replace(to_min=0) for stop in trip) for trip in judged.day.trips)
    judged = judged._replace(day=judged.day._replace(trips=tuple(free)))
    return [
        max(_latest(keeper, state, judged, row, hours) for hours in rests)
        for row in range(len(judged.run.times))
    ]


def _latest(keeper: Keeper, state: State, judged: Judged, row: int, hours: Hours) -> int:
    """Find the most minutes a call may last longer; a break after it may then fall away."""
    latest = judged.run.times[row].leave_min
    low, high = 0, MOST_LATE_MIN
    while low < high:
        middle = (low + high + 1) // 2
        leave = _late_leave(keeper, state, judged, Late(row, middle), hours)
        if leave is None:
            high = middle - 1
        else:
            low, latest = middle, max(latest, leave)
    return latest


def _late_leave(
    keeper: Keeper, state: State, judged: Judged, late: Late, hours: Hours
) -> int | None:
    """Return when a call that lasts so much longer is left, or None where the day then fails."""
    steps, home_min = keeper.judge.steps(judged)
    for i in range(late.row, len(steps)):
        begun = judged.run.times[i].start_min
        kept = tuple(
            s._replace(start_min=begun) for s in steps[i].spans if s.start_min <= begun <= s.end_min
        )
        steps[i] = steps[i]._replace(spans=kept)
    last_home_min = keeper.ground.outfit.last_home_min
    laws = keeper.ground.outfit.hours, hours
    run = drive_late(judged.run, late, steps, home_min, laws, keeper.ground.rush)
    if run is None or run.end_min > judged.day.day * DAY_MIN + last_home_min:
        return None
    if run.end_min - run.start_min > hours.duty_max_min:
        return None
    if run.driving_min > hours.driving_max_min:
        return None
    leave = run.times[late.row].leave_min
    held = leave <= max(span.end_min for span in steps[late.row].spans)
    held = held and _chains_hold(keeper, state, judged, run, late.row)
    return leave if held and _kit_holds(keeper, state, judged, run) else None


def _kit_holds(keeper: Keeper, state: State, judged: Judged, run: Run) -> bool:
    """Tell whether other trucks of that day still find the boards and feeders they load."""
    key = _key(keeper, judged)
    if not any(day == key[0] and truck != key[1] for day, truck in state.days):
        return True
    return keeper.holding.kit_holds({**state.days, key: put_off(judged, run)})


def _key(keeper: Keeper, judged: Judged) -> Key:
    return judged.day.day, keeper.ground.truck_index[judged.day.hauler]


def _chains_hold(keeper: Keeper, state: State, judged: Judged, run: Run, row: int) -> bool:
    """Tell whether every yard visited from ``row`` on still has an unbroken chain."""
    key = _key(keeper, judged)
    visits = iter(judged.visits)
    moved: dict[int, list[Visit]] = {}
    for i, (call, times) in enumerate(zip(judged.calls, run.times, strict=True)):
        if call[1] >= 0:
            visit = next(visits)
            if i >= row:
                visit = visit._replace(
                    start_min=times.start_min, end_min=times.end_min, leave_min=times.leave_min
                )
            moved.setdefault(visit.stop.yard, []).append(visit)
    return all(_holds(keeper, state, yard, mine, key) for yard, mine in moved.items())


def _holds(
    keeper: Keeper, state: State, yard: int, mine: list[Visit], key: tuple[int, int]
) -> bool:
    """Tell whether a yard's chain holds with ``mine`` as its visits of a truck's day."""
    others = [visit for visit in state.visits[yard] if (visit.day, visit.truck) != key]
    eased = [_later(visit) if visit.day > key[0] else visit for visit in others]
    return any(
        keeper.chains.read(yard, tuple(sorted([*rest, *mine]))) is not None
        for rest in (others, eased)
    )


def _later(visit: Visit) -> Visit:
    return visit._replace(
        start_min=visit.start_min + LAG_MIN,
        end_min=visit.end_min + LAG_MIN,
        leave_min=visit.leave_min + LAG_MIN,
    )


def boxes_limits(
    keeper: Keeper, judged: Judged, index: int, way: Stowage | None
) -> tuple[int, ...]:
    """Return, for every stop of a trip, the boxes that may be aboard on leaving it.

    Where boxes are taken, as many more are added as the rest of the trip can still carry, truck
    and trailer loaded in the ``way`` told: nobody sets a full tank over at a stop.  So many hold
    whether each stop before is left as planned, at its limit, or between.
    """
    trip, packed = judged.day.trips[index], judged.packed[index]
    yards = keeper.ground.outfit.yards

    def carries(stops: tuple[Stop, ...]) -> bool:
        return keeper.judge.carries(judged.day.hauler, stops, packed.tanks, way)

    found, told = list[int](), dict[int, Told]()
    for at, stop in enumerate(trip):
        limit = packed.legs[at + 1].boxes
        if stop.boxes:
            box_g = yards[stop.yard].box_g
            ways = ways_to_come(tuple(told.values()), box_g)
            come = [_taking(trip, dict(zip(told, taken, strict=True))) for taken in ways]
            limit = min(_most(carries, stops, at, limit) for stops in come)
            told[at] = Told(box_g, stop.boxes, limit)
        found.append(limit)
    return tuple(found)


def _most(
    carries: Callable[[tuple[Stop, ...]], bool], stops: tuple[Stop, ...], at: int, planned: int
) -> int:
    """Return the boxes that may be aboard on leaving a stop, come to as told; those on coming do.

    So do those planned.
    """
    came = sum(one.boxes for one in stops[:at])
    limit, last = max(planned, came), planned + MOST_MORE
    while limit < last and carries(_taking(stops, {at: limit + 1 - came})):
        limit += 1
    return limit


def _taking(trip: tuple[Stop, ...], boxes: Mapping[int, int]) -> tuple[Stop, ...]:
    """Return a trip that takes so many boxes at some stops, by their number from 0."""
    return tuple(
        stop._replace(boxes=boxes[at]) if at in boxes else stop for at, stop in enumerate(trip)
    )
