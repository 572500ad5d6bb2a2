"""Sums over a whole outfit: what the facts amount to before anything is planned."""

from dataclasses import dataclass, replace

from runplanner.days import DAY_MIN
from runplanner.haulage.hauler import haulers
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import typed_box_g
from runplanner.outfit.yards import Clearing, Yard
from runplanner.trade.feeding import emptied_min, stores_g_per_l, sugar_for_g
from runplanner.visits.due import Due, due
from runplanner.visits.windows import windows


@dataclass(frozen=True, slots=True)
class YardSum:
    """One yard with the work it is due, in person-seconds by kind."""

    yard: Yard
    due: Due
    take_off_s: int
    feed_s: int
    strips_s: int

    def busy(self) -> bool:
        """Tell whether anything is to be done there."""
        return self.due.take_off or self.due.rounds > 0 or self.due.strips


def yard_sums(outfit: Outfit) -> tuple[YardSum, ...]:
    """Return every yard with its work; a yard that is held has none."""
    return tuple(_yard_sum(outfit, yard) for yard in outfit.yards)


def _yard_sum(outfit: Outfit, yard: Yard) -> YardSum:
    todo, pace, count = due(outfit, yard), outfit.pace, yard.colonies
    off = _take_off_s(outfit, yard, yard.clearing, boards=todo.boards_to_come())
    if todo.other and yard.clearing_else is not None:
        off = min(off, _take_off_s(outfit, yard, yard.clearing_else, boards=False))
    return YardSum(
        yard=yard,
        due=todo,
        take_off_s=off if todo.take_off else 0,
        feed_s=todo.rounds * count * pace.feed_s,
        strips_s=count * pace.strips_s if todo.strips else 0,
    )


def _take_off_s(outfit: Outfit, yard: Yard, way: Clearing, *, boards: bool) -> int:
    """Return the work of a yard's take-off by one way, with the boards that go on before."""
    pace, count = outfit.pace, yard.colonies
    put_on = count * pace.board_s if boards else 0
    return put_on + pace.take_off_s(count, yard.boxes, yard.brood_boxes_off, way)


def boxes_home(sums: tuple[YardSum, ...]) -> int:
    """Return the honey boxes that come home."""
    return sum(one.yard.boxes for one in sums if one.due.take_off)


def boxes_g(sums: tuple[YardSum, ...]) -> int:
    """Return the gross mass that those boxes count for in loads."""
    return sum(one.yard.boxes * one.yard.box_g for one in sums if one.due.take_off)


def guessed_g(outfit: Outfit, sums: tuple[YardSum, ...]) -> int:
    """Return the gross mass of those boxes as it was guessed."""
    return sum(
        one.yard.boxes * typed_box_g(outfit, one.yard.id) for one in sums if one.due.take_off
    )


def honey_g(outfit: Outfit, sums: tuple[YardSum, ...]) -> int:
    """Return the honey in those boxes, comb and frames taken off."""
    return sum(
        one.yard.boxes * max(0, typed_box_g(outfit, one.yard.id) - outfit.box(one.yard.box).empty_g)
        for one in sums
        if one.due.take_off
    )


def syrup_ml(sums: tuple[YardSum, ...]) -> int:
    """Return the syrup of all feed rounds."""
    return sum(one.yard.colonies * one.due.rounds * one.due.round_ml for one in sums)


def sugar_g(outfit: Outfit, ml: int) -> int:
    """Return the sugar for so much syrup beside what stands ready, rounded up."""
    return sugar_for_g(max(0, ml - outfit.feed.ready_ml), outfit.feed)


def blocks(outfit: Outfit, sums: tuple[YardSum, ...]) -> int:
    """Return the fondant blocks when no colony gets its syrup at take-off."""
    fed = (one for one in sums if one.due.take_off and one.due.rounds)
    return sum(one.yard.colonies for one in fed) * outfit.rules.blocks


def last_feed_day(outfit: Outfit) -> int:
    """Return the last day on which feed may go in."""
    season = outfit.season
    return season.feed_by.day if season.feed_by.hard else season.n_days - 1


def eaten_g(outfit: Outfit, one: YardSum) -> int:
    """Return the most of its known stores that a colony may eat beside a block before its syrup.

    That is from the first day its honey may come off to the last on which feed may go in.
    """
    days = take_off_days(outfit, one.yard) if one.due.take_off and one.due.rounds else []
    if not days or not one.yard.stores_g:
        return 0
    wait = max(0, last_feed_day(outfit) - days[0])
    blocks_g = max(1, outfit.rules.blocks) * outfit.kit.block_g
    return min(one.yard.stores_g, max(0, wait * outfit.feed.day_use_g - blocks_g))


def fuller_target_g(outfit: Outfit, yard: Yard, days: int) -> int | None:
    """Return a target by which more is fed, in full rounds, where not all rounds find a day.

    ``days`` are those from the first take-off to the last for feed.  None where no such
    target, in whole 100 g, feeds more than the rounds that do find one.
    """
    todo = due(outfit, yard)
    gap_min = emptied_min(yard.feeder_ml, outfit.feed.uptake_ml_per_day)
    even, full = (
        0 if not gap else min(todo.rounds, (days * DAY_MIN - 1) // gap + 1)
        for gap in (todo.round_gap_min, gap_min)
    )
    full_g = full * yard.feeder_ml * stores_g_per_l(outfit.feed) // 1000
    target_g = ((yard.stores_g or 0) + full_g) // 100 * 100
    better = full * yard.feeder_ml > even * todo.round_ml
    return target_g if better and target_g < yard.target_g else None


def strips(outfit: Outfit, sums: tuple[YardSum, ...]) -> dict[str, int]:
    """Return the strips that go in, by substance; the usual one comes first."""
    given = {outfit.strips.substance: 0}
    for one in sums:
        kind = outfit.strips_at(one.yard)
        more = one.yard.colonies * kind.per_colony if one.due.strips else 0
        given[kind.substance] = given.get(kind.substance, 0) + more
    return given


def take_off_days(outfit: Outfit, yard: Yard) -> list[int]:
    """Return the days on which boxes may come off: dates, weather, gate and daylight alone.

    One stretch of such hours must do for a visit, which ends no sooner than the weather lets the
    colonies settle.
    """
    last, hours = yard.finish_by_day, windows(outfit, yard)
    if outfit.season.take_off_by.hard:
        last = min(last, outfit.season.take_off_by.day)
    least = _shortest_take_off_min(outfit, yard)
    return [
        day for day in range(yard.ready_from_day, last + 1)
        if any(
            span.end_min - span.start_min >= least and span.end_min >= hours.settled_from_min[day]
            for span in hours.opening[day]
        )
    ]  # fmt: skip


def _shortest_take_off_min(outfit: Outfit, yard: Yard) -> int:
    """Return what the smallest lot takes of as many people as ever go out together."""
    lot = min(outfit.rules.smallest_lot, yard.colonies)
    part = replace(
        yard,
        colonies=lot,
        boxes=yard.boxes * lot // yard.colonies,
        brood_boxes_off=yard.brood_boxes_off * lot // yard.colonies,
    )
    ways = (yard.clearing, yard.clearing_else or yard.clearing)
    work_s = min(_take_off_s(outfit, part, way, boards=False) for way in ways)
    crew = max((way.crew for way in haulers(outfit)), default=1)
    return outfit.pace.setup_min + -(-work_s // (60 * crew))


def let_in(outfit: Outfit, yard: Yard) -> bool:
    """Tell whether the gate of a yard is ever open in daylight."""
    return any(windows(outfit, yard).plain)
