"""What a stop is to any truck, and what roads cost a hauler, for quick sums over a day."""

from typing import NamedTuple

from runplanner.days import Span
from runplanner.trips.ground import Ground
from runplanner.trips.judge import Judge
from runplanner.visits.stop import Stop

FAR = 1e15
"""Cost of a drive where there is no road."""

AGES = 10**9
"""Minutes of a drive where there is no road: later than any hours."""

Table = list[list[float]]


class Roads(NamedTuple):
    """What a hauler's drives cost, in 1/1000 cent, and how long they take.

    Args:
        cost: By place left and place reached; ``FAR`` where there is no road.
        cost_back: The same by place reached and place left.
        minutes: By place left and place reached; ``AGES`` where there is no road.
        minutes_back: The same by place reached and place left.
    """

    cost: Table
    cost_back: Table
    minutes: list[list[int]]
    minutes_back: list[list[int]]


class Facts(NamedTuple):
    """What one stop is to any truck on the day.

    Args:
        place: Index of its place.
        in_g: Mass that rides out to it.
        out_g: Mass that rides on from it.
        ml: Syrup in ``in_g``.
        boxes: Boxes to unload after it.
        honey: Its trip ends at the honey house.
        store: Its trip ends at the feed store.
        spans: Hours of the visit.
        settled: Earliest minute it may end.
        gone_by: When its gate shuts.
        goods_min: Earliest minute its trip's loading may end.
        last: Must be the last of its trip.
    """

    place: int
    in_g: int
    out_g: int
    ml: int
    boxes: int
    honey: bool
    store: bool
    spans: tuple[Span, ...]
    settled: int
    gone_by: int
    goods_min: int
    last: bool


def facts_of(ground: Ground, judge: Judge, day: int, stop: Stop) -> Facts:
    """Return what a stop is to any truck on a day."""
    task, kit = ground.task(stop), ground.outfit.kit
    syrup_g = -(-task.used.ml * ground.outfit.feed.density_g_per_l // 1000)
    in_g = syrup_g + (
        task.used.blocks * kit.block_g
        + task.used.boards * kit.board_g
        + task.used.strips * ground.strip_g[stop.yard]
        + task.used.feeders * kit.feeder_g
        + stop.wet_up * ground.brood_g[stop.yard]
    )
    return Facts(
        ground.place(stop.yard, day),
        in_g,
        in_g + task.gain_g - syrup_g,
        task.used.ml,
        stop.boxes + stop.brood + stop.wet_down,
        stop.boxes > 0,
        bool(stop.brood or stop.wet_down) or ground.kit_surely_home(day, stop),
        task.spans[day],
        task.settled[day],
        ground.gone_by(stop.yard, day),
        judge.goods_min(stop),
        ground.last_only[stop.yard],
    )


def roads_of(ground: Ground, hauler: int) -> Roads:
    """Return what a hauler's drives from place to place cost, and how long they take."""
    minute, km = minute_cost(ground, hauler), ground.haulers[hauler].km_cents
    rows: Table = [
        [
            FAR if minutes is None or metres is None else metres * km + minutes * minute
            for minutes, metres in zip(times, lengths, strict=True)
        ]
        for times, lengths in zip(ground.legs[hauler], ground.outfit.travel.metres, strict=True)
    ]
    minutes = [[AGES if leg is None else leg for leg in row] for row in ground.legs[hauler]]
    back = [list(column) for column in zip(*rows, strict=True)]
    minutes_back = [list(column) for column in zip(*minutes, strict=True)]
    return Roads(rows, back, minutes, minutes_back)


def minute_cost(ground: Ground, hauler: int) -> float:
    """Return what a minute of a hauler's crew costs, in 1/1000 cent."""
    return ground.haulers[hauler].crew * ground.outfit.prices.hour_cents * 1000 / 60
