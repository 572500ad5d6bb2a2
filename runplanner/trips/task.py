"""What one stop means for a truck: goods, mass, work and the hours it may lie in."""

from typing import NamedTuple

from runplanner.days import DAY_MIN, Span, meet
from runplanner.haulage.lots import comb_box_g
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from runplanner.visits.due import Due
from runplanner.visits.stop import Stop
from runplanner.visits.windows import Days, Windows


class Goods(NamedTuple):
    """What one stop takes off the truck (and, for boards and feeders, brings back)."""

    ml: int
    blocks: int
    boards: int
    boards_back: int
    strips: int
    feeders: int
    feeders_back: int = 0


class Task(NamedTuple):
    """One stop, worked out.

    Args:
        used: Goods that leave the truck here.
        gain_g: Mass the truck gains here, syrup left out; below 0 where it loses.
        work_s: Person-seconds of work.
        spans: Hours it may lie in, by day.
        settled: Earliest minute it may end, by day.
    """

    used: Goods
    gain_g: int
    work_s: int
    spans: Days
    settled: tuple[int, ...]


def task_of(outfit: Outfit, due: Due, hours: Windows, stop: Stop) -> Task:
    """Return what ``stop`` means for a truck."""
    yard = outfit.yards[stop.yard]
    used = _goods(outfit, yard, due, stop)
    spans = hours.spans(
        opening=bool(stop.off or stop.boards),
        feeding=stop.fed > 0,
        strips=stop.strips,
        dry=bool(stop.wet_up or stop.wet_down or stop.feeders_off),
    )
    if stop.wet_up:
        spans = _late_in_day(spans, outfit.rules.wet_from_min)
    if stop.from_min or stop.to_min:
        spans = _clipped(spans, stop.from_min, stop.to_min)
    settled = hours.settled_from_min if stop.off else (0,) * len(spans)
    return Task(used, _gain_g(outfit, yard, used, stop), work_s(outfit, stop), spans, settled)


def _clipped(days: Days, from_min: int, to_min: int = 0) -> Days:
    """Return the hours of every day from a minute on, and up to another, where it is not 0."""
    return tuple(
        meet(spans, (Span(from_min, to_min or spans[-1].end_min),)) if spans else ()
        for spans in days
    )


def _late_in_day(days: Days, clock_min: int) -> Days:
    """Return the hours of every day from a time of day on."""
    return tuple(_clipped((spans,), day * DAY_MIN + clock_min)[0] for day, spans in enumerate(days))


def _goods(outfit: Outfit, yard: Yard, due: Due, stop: Stop) -> Goods:
    carried = stop.round == 1 and outfit.kit.feeders_owned is not None
    return Goods(
        ml=stop.fed * due.round_ml,
        blocks=stop.blocks,
        boards=stop.boards,
        boards_back=stop.off + stop.over if due.boards and not stop.other else 0,
        strips=yard.colonies * outfit.strips_at(yard).per_colony if stop.strips else 0,
        feeders=stop.fed if carried else stop.feeders,
        feeders_back=stop.feeders_off,
    )


def _gain_g(outfit: Outfit, yard: Yard, used: Goods, stop: Stop) -> int:
    kit = outfit.kit
    return (
        stop.boxes * yard.box_g
        + (stop.brood + stop.wet_down - stop.wet_up) * comb_box_g(outfit, yard)
        + (used.boards_back - used.boards) * kit.board_g
        - used.blocks * kit.block_g
        - used.strips * outfit.strip_g(yard)
        + (used.feeders_back - used.feeders) * kit.feeder_g
    )


def work_s(outfit: Outfit, stop: Stop) -> int:
    """Return the person-seconds of work at a stop."""
    yard, pace = outfit.yards[stop.yard], outfit.pace
    seconds = stop.boards * pace.board_s + stop.blocks * pace.block_s + stop.fed * pace.feed_s
    seconds += (stop.wet_up + stop.wet_down) * pace.wet_box_s
    seconds += stop.feeders_off * pace.feeder_s
    if stop.off:
        seconds += _take_off_s(outfit, yard, stop)
    return seconds + (yard.colonies * pace.strips_s if stop.strips else 0)


def _take_off_s(outfit: Outfit, yard: Yard, stop: Stop) -> int:
    way = yard.clearing
    if stop.other and yard.clearing_else is not None:
        way = yard.clearing_else
    return outfit.pace.take_off_s(stop.off, stop.boxes, stop.brood, way)
