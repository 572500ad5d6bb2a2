"""What every yard is owed, in shares: loads, work, money and visits that go with each part.

A part is the take-off (with its boards), a feed round, or the strips.  A plan that leaves
something undone does less than the whole of some part; the bound lets it choose which.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate
from typing import NamedTuple

from runplanner.outfit.yards import BEES_STAY, CLOSED, Clearing, Yard
from runplanner.trips.ground import Ground
from runplanner.visits.due import Due, taken
from runplanner.visits.stop import Stop


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a yard's work, whole.

    Args:
        yard: Index of the yard.
        after: Index of the part that comes first in the same yard, or -1.
        out_g: Boxes that come out, grams.
        in_g: Syrup that goes in, grams.
        ml: The same in ml.
        person_s: Person-seconds of crews at the yard and at unloading.
        cents: Materials, blocks and spinning that go with it.
        visits: Further days on which the yard must be visited for it; of a take-off that may
            be left in part so many that no share of it wants more than its lots.
        not_off: Colonies left on when the part is left out.
        unfed_g: Stores left out likewise.
        no_strips: Colonies left without strips likewise.
    """

    yard: int
    after: int
    out_g: int = 0
    in_g: int = 0
    ml: int = 0
    person_s: int = 0
    cents: int = 0
    visits: float = 0
    not_off: int = 0
    unfed_g: int = 0
    no_strips: int = 0


def parts_of(ground: Ground, *, complete: bool) -> tuple[Part, ...]:
    """Return the parts of every yard, each after the one it waits for.

    Yards held for their health count for nothing: a plan may leave them.  ``complete``
    says that nothing else may be left.
    """
    parts: list[Part] = []
    for index in range(len(ground.dues)):
        due, yard = ground.dues[index], ground.outfit.yards[index]
        if yard.health in CLOSED or not yard.colonies:
            continue
        before = -1
        if due.take_off:
            before = len(parts)
            parts.append(_take_off(ground, index, complete=complete))
        first = before
        for number in range(1, due.rounds + 1):
            parts.append(_feed(ground, index, number, before))
            before = len(parts) - 1
        if due.strips:
            parts.append(_strips(ground, index, first, complete=complete))
    return tuple(parts)


def most_in(ground: Ground, yard: int) -> int:
    """Return the most load with which any truck may leave a yard, in grams."""
    return max((into[yard] for into in ground.load_into), default=0)


def _take_off(ground: Ground, index: int, *, complete: bool) -> Part:
    """Return the take-off, of which no share is too much where a plan may leave colonies on.

    As no syrup enters while honey is on, all that come off get blocks where others are left.
    """
    yard, due, pace = ground.outfit.yards[index], ground.dues[index], ground.outfit.pace
    out_g = honey_g(yard) + yard.brood_boxes_off * ground.brood_g[index]
    blocks = least_blocks(ground, index, out_g)
    spun, loads = spin_cents(ground, yard), float(least_loads(ground, index, out_g))
    unload_s = (yard.boxes + yard.brood_boxes_off) * pace.unload_box_s
    work_s = least_work_s(ground, index) + unload_s
    if not complete:
        off = _first_off(ground, index)
        out_g, work_s = int(off.out_g), int(off.work_s)
        spun = int(spun * off.honey_g / max(1, honey_g(yard)))
        loads = max(1.0, off.out_g / max(1, most_in(ground, index)))
    return Part(
        index,
        -1,
        out_g=out_g,
        person_s=work_s + blocks * pace.block_s,
        cents=spun + blocks * ground.outfit.prices.block_cents,
        visits=loads + int(due.boards_to_come() and not due.other),
        not_off=yard.colonies,
    )


def least_work_s(ground: Ground, index: int) -> int:
    """Return the least person-seconds for taking a yard off, with putting boards on.

    Where there are two ways of clearing, each colony's share of the boxes counts by the
    cheaper one.  Lots are colonies one after another, so a visit's boxes are the sum of its
    colonies' shares, and no mixture of ways takes less.
    """
    yard, due = ground.outfit.yards[index], ground.dues[index]
    put_on = yard.colonies if due.boards_to_come() else 0
    whole = Stop(
        index, boards=put_on, off=yard.colonies, boxes=yard.boxes, brood=yard.brood_boxes_off
    )
    if not due.other:
        return ground.work_s(whole)
    return sum(_colony_s(ground, index, nth, boards=True) for nth in range(yard.colonies))


class TakenOff(NamedTuple):
    """What some colonies, or one, are at a take-off, blocks left out.

    Args:
        colonies: How many they are.
        open_s: Least person-seconds at the yard.
        work_s: The same with unloading.
        out_g: Boxes that come out, grams.
        honey_g: Those of them with honey, grams.
    """

    colonies: float
    open_s: float
    work_s: float
    out_g: float
    honey_g: float


def least_lots(ground: Ground, part: Part) -> tuple[float, float]:
    """Return the least work, in person-seconds, and the fewest colonies for a gram of any lot.

    A lot is some colonies one after another, of a take-off's part.
    """
    lots = [lot for lot in _lots(ground, part.yard) if lot.out_g]
    return min(lot.work_s / lot.out_g for lot in lots), min(
        lot.colonies / lot.out_g for lot in lots
    )


def for_all_work(ground: Ground, index: int) -> tuple[TakenOff, TakenOff]:
    """Return what a yard's work would be at the rates of its poorest lots, and its richest.

    Boxes are counted up colony by colony, so that a lot may have a little less of something
    than its share of the work, or more.  Where nothing is any work, colonies count instead.
    """
    every, lots = _sums(ground, index)[-1], _lots(ground, index)
    by = TakenOff._fields.index("work_s" if every.work_s else "colonies")
    rates = [[figure * every[by] / lot[by] for figure in lot] for lot in lots if lot[by]]
    least, most = (TakenOff(*(pick(r) for r in zip(*rates, strict=True))) for pick in (min, max))
    unlimited = any(lot.out_g and not lot[by] for lot in lots)
    return least, most._replace(out_g=math.inf) if unlimited else most


def most_ahead(ground: Ground, index: int) -> float:
    """Return how far, as a factor, the work of first lots may be ahead of their colonies."""
    sums, least = _sums(ground, index), _least_lot(ground, index)
    every, work_s = sums[-1].colonies, max(1, sums[-1].work_s)
    return max(first.work_s * every / (work_s * first.colonies) for first in sums[least:])


def _first_off(ground: Ground, index: int) -> TakenOff:
    """Return what the whole yard would be at the least rates of its first colonies.

    These come off first.  Boxes are counted up colony by colony, so that they may have less
    than their share; of loads they want those of what they bring.
    """
    yard, sums = ground.outfit.yards[index], enumerate(_sums(ground, index)[1:], 1)
    rates = [[all_of * yard.colonies / n for all_of in first] for n, first in sums]
    return TakenOff(*map(min, zip(*rates, strict=True)))


def _lots(ground: Ground, index: int) -> list[TakenOff]:
    """Return the lots that a yard's take-off may be parted into, the larger ones left out.

    No lot is smaller than worth a visit, and one of twice that size is two, one of which has
    no more than its share of anything.
    """
    sums, most = _sums(ground, index), ground.outfit.yards[index].colonies
    least = _least_lot(ground, index)
    return [
        TakenOff(*(b - a for a, b in zip(sums[first], sums[last], strict=True)))
        for first in range(most)
        for last in range(first + least, min(first + 2 * least, most + 1))
    ]


def _least_lot(ground: Ground, index: int) -> int:
    """Return the fewest colonies that are worth a visit."""
    return max(1, min(ground.outfit.rules.smallest_lot, ground.outfit.yards[index].colonies))


def _sums(ground: Ground, index: int) -> list[TakenOff]:
    """Return what the first colonies of a yard are, from none of them to all."""
    yard, pace = ground.outfit.yards[index], ground.outfit.pace
    sums = [TakenOff(0, 0, 0, 0, 0)]
    for nth, out_g in enumerate(_colonies_g(ground, index)):
        boxes, brood = _brought(yard, nth)
        open_s = _colony_s(ground, index, nth, boards=False)
        work_s = open_s + (boxes + brood) * pace.unload_box_s
        one = TakenOff(1, open_s, work_s, out_g, boxes * yard.box_g)
        sums.append(TakenOff(*(a + b for a, b in zip(sums[-1], one, strict=True))))
    return sums


def _colony_s(ground: Ground, index: int, before: int, *, boards: bool) -> int:
    """Return the least work on one colony; what stays under boards is rounded down."""
    yard, due, pace = ground.outfit.yards[index], ground.dues[index], ground.outfit.pace
    boxes, brood = _brought(yard, before)
    stop = Stop(index, off=1, boxes=boxes, brood=brood)
    usual = ground.work_s(stop._replace(boards=int(boards and due.boards_to_come())))
    if yard.clearing in BEES_STAY:
        left_in = -(-boxes * pace.left_in_permille // 1000)
        least = boxes * pace.left_in_permille * pace.clear_box_s(Clearing.BRUSH) // 1000
        usual += least - left_in * pace.clear_box_s(Clearing.BRUSH)
    return min(usual, ground.work_s(stop._replace(other=True)))


def least_loads(ground: Ground, index: int, out_g: int) -> int:
    """Return on how many trips a yard goes off at least."""
    return max(1, -(-out_g // max(1, most_in(ground, index))))


def least_blocks(ground: Ground, index: int, out_g: int) -> int:
    """Return the blocks a yard too big for one load must get: all before its last load."""
    most = most_in(ground, index)
    if out_g <= max(0, most):
        return 0
    first_g = accumulate(_colonies_g(ground, index))
    last = (n for n, grams in enumerate(first_g, 1) if out_g - grams <= most)
    return next(last, ground.outfit.yards[index].colonies) * blocks_each(ground, index)


def blocks_each(ground: Ground, index: int) -> int:
    """Return the blocks that a colony must get which is not in its yard's last lot."""
    rules = ground.outfit.rules
    spared = rules.same_day_second_trip or not ground.dues[index].rounds
    return 0 if spared else rules.blocks


def _colonies_g(ground: Ground, index: int) -> Iterator[int]:
    """Yield what each colony of a yard brings, boxes counted up, in the order they go off."""
    yard = ground.outfit.yards[index]
    for nth in range(yard.colonies):
        boxes, brood = _brought(yard, nth)
        yield boxes * yard.box_g + brood * ground.brood_g[index]


def _brought(yard: Yard, nth: int) -> tuple[int, int]:
    """Return the honey boxes and brood boxes of one colony, counted up as they go off."""
    boxes = taken(yard.boxes, yard.colonies, nth, nth + 1)
    return boxes, taken(yard.brood_boxes_off, yard.colonies, nth, nth + 1)


def honey_g(yard: Yard) -> int:
    """Return the mass of a yard's honey boxes, in grams."""
    return yard.boxes * yard.box_g


def always_honey(yard: Yard) -> bool:
    """Tell whether every lot of a yard brings honey boxes, be it ever so small."""
    return yard.boxes > 0 and (yard.boxes >= yard.colonies or not yard.brood_boxes_off)


def spin_cents(ground: Ground, yard: Yard) -> int:
    """Return the least a yard's boxes cost to spin: nothing where strips hold them."""
    if yard.held_for_strips:
        return 0
    house, prices = ground.outfit.honey_house, ground.outfit.prices
    pace = max(
        (rate * 1000 // n for n, rate in enumerate(house.boxes_per_h) if n and rate), default=0
    )
    return yard.boxes * prices.hour_cents * 1000 // (pace + 1) if pace else 0


def _feed(ground: Ground, index: int, number: int, after: int) -> Part:
    outfit, yard, due = ground.outfit, ground.outfit.yards[index], ground.dues[index]
    ml = yard.colonies * due.round_ml
    left = [due.lacks_g[done] for done in (number - 1, number)]
    return Part(
        index,
        after,
        in_g=ml * outfit.feed.density_g_per_l // 1000,
        ml=ml,
        person_s=yard.colonies * outfit.pace.feed_s,
        cents=ml * outfit.prices.syrup_l_cents // 1000,
        visits=int(_own_day(ground, due, number)),
        unfed_g=yard.colonies * (left[0] - left[1]),
    )


def _own_day(ground: Ground, due: Due, number: int) -> bool:
    """Tell whether a round needs a day of its own: the first rides with the take-off."""
    if number == 1:
        return not due.take_off
    hours = ground.outfit.hours
    return due.round_gap_min > hours.end_min - hours.start_min


def _strips(ground: Ground, index: int, after: int, *, complete: bool) -> Part:
    """Return the strips' part; under a feeding ban they want a day without feed."""
    outfit, yard, due = ground.outfit, ground.outfit.yards[index], ground.dues[index]
    kind = outfit.strips_at(yard)
    banned = complete and kind.no_feed_days > 0 and due.rounds > 0
    return Part(
        index,
        after,
        person_s=yard.colonies * outfit.pace.strips_s,
        cents=yard.colonies * kind.per_colony * outfit.strip_cents(yard),
        visits=int(banned or not (due.take_off or due.rounds)),
        no_strips=yard.colonies,
    )
