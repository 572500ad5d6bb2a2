"""Every chain of a yard: what is due there, cut into stops and days in every way."""

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from runplanner.daybook.trip import Action, Job
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Health, Yard
from tests.season.hand_bill import left_at
from tests.season.hand_clock import Visit, feed_plan, up
from tests.season.hand_strips import strips_for

Vector = tuple[int, int, int, int]
NOTHING_LEFT = (0, 0, 0, 0)


@dataclass(frozen=True)
class Chain:
    """One way of doing a yard: stops with their days, and what it leaves."""

    stops: tuple[tuple[int, Visit], ...]
    left: Vector


def chains(outfit: Outfit, yard: Yard, most_lots: int = 1) -> list[Chain]:
    """Every way to cut what is due at a yard into stops and days, partly done ones too."""
    found: dict[tuple[tuple[int, Visit], ...], Chain] = {}
    for tasks in _orders(outfit, yard, most_lots):
        for groups in _groups(tasks):
            for stops, days in _dated(outfit, yard, groups):
                dated = tuple(zip(days, stops, strict=True))
                if (
                    _starves(outfit, yard, dated)
                    or _boards_same_day(dated)
                    or _too_soon(outfit, yard, dated)
                ):
                    continue
                found[dated] = Chain(dated, _vector(outfit, yard, stops))
    return list(found.values())


def _lots(outfit: Outfit, yard: Yard, most_lots: int) -> list[tuple[int, ...]]:
    """The whole yard, or parts of it that are not too small."""
    least, n = min(outfit.rules.smallest_lot, yard.colonies), yard.colonies
    parts = [(a, n - a) for a in range(least, n - least + 1)] if most_lots > 1 else []
    return [(n,), *parts]


def _orders(outfit: Outfit, yard: Yard, most_lots: int) -> Iterator[list[Action]]:
    """Every order of the jobs of a yard, as far as it is done."""
    held = yard.health in {Health.SUSPECT, Health.STANDSTILL}
    if held and not (yard.feed_agreed and yard.boxes == 0):
        yield []
        return
    rounds = feed_plan(outfit, yard)[0]
    lots = _lots(outfit, yard, most_lots)
    dose = strips_for(outfit, yard.id).per_colony
    strips = Action(Job.STRIPS, yard.colonies, pieces=yard.colonies * dose)
    for off in [()] if held else lots:
        for taken in _take_offs(yard, off):
            for upto in range(len(taken)):
                yield taken[:upto]
            for parts in lots if rounds else [()]:
                fed = [
                    _feed(outfit, yard, number, n) for number in range(1, rounds + 1) for n in parts
                ]
                for upto in range(len(fed) + 1):
                    yield [*taken, *fed[:upto]]
                    for at in range(upto + 1):
                        yield [*taken, *fed[:at], strips, *fed[at:upto]]


def _take_offs(yard: Yard, off: tuple[int, ...]) -> Iterator[list[Action]]:
    """Take-offs of so many colonies each, every lot by the usual way or the other one."""
    others = (None, yard.clearing_else) if yard.clearing_else and yard.boxes else (None,)
    for ways in itertools.product(others, repeat=len(off)):
        yield from _take_offs_by(yard, off, ways)


def _take_offs_by(
    yard: Yard, off: tuple[int, ...], ways: Sequence[Clearing | None]
) -> Iterator[list[Action]]:
    """Take-offs by these ways; under boards, all put on before, or lot by lot."""
    boards, acts, done = yard.clearing is Clearing.BOARDS and yard.boxes > 0, [], 0
    for n, way in zip(off, ways, strict=True):
        boxes, brood = (
            up((done + n) * whole, yard.colonies) - up(done * whole, yard.colonies)
            for whole in (yard.boxes, yard.brood_boxes_off)
        )
        acts.append(
            Action(
                Job.TAKE_OFF,
                n,
                boxes=boxes,
                brood_boxes=brood,
                boards_off=n if boards and way is None else 0,
                way=way,
            )
        )
        done += n
    usual = [act for act in acts if act.way is None]
    if not boards or yard.boards_on_min is not None or not usual:
        yield acts
        return
    count = sum(act.colonies for act in usual)
    yield [Action(Job.BOARDS, count, pieces=count), *acts]
    if len(off) > 1:
        on = ([Action(Job.BOARDS, act.colonies, pieces=act.colonies)] if act.way is None else []
              for act in acts)  # fmt: skip
        yield [one for lot, act in zip(on, acts, strict=True) for one in (*lot, act)]


def _feed(outfit: Outfit, yard: Yard, number: int, n: int) -> Action:
    feeders = n if outfit.kit.feeders_owned is not None and number == 1 else 0
    return Action(Job.FEED, n, round=number, ml=n * feed_plan(outfit, yard)[1], feeders=feeders)


def _groups(tasks: Sequence[Action]) -> Iterator[list[list[Action]]]:
    """Every way to cut the jobs into stops; none holds one job twice or out of order."""
    rank = list(Job).index
    for cuts in itertools.product((False, True), repeat=max(0, len(tasks) - 1)):
        groups = [[tasks[0]]] if tasks else []
        for cut, task in zip(cuts, tasks[1:], strict=True):
            if cut:
                groups.append([task])
            else:
                groups[-1].append(task)
        ranks = [[rank(a.job) for a in group] for group in groups]
        clash = any(a.job is Job.BOARDS for g in groups for a in g[:-1])
        if not clash and all(r == sorted(set(r)) for r in ranks):
            yield groups


def _dated(
    outfit: Outfit, yard: Yard, groups: list[list[Action]]
) -> Iterator[tuple[list[Visit], tuple[int, ...]]]:
    """Every way to lay stops on days, twice where syrup follows a take-off on its day.

    Where the truck stays between them no blocks are due: the audit tells whether it did.
    """
    apart, at_once = _visits(outfit, yard, groups), _visits(outfit, yard, groups, at_once=True)
    fed = [any(a.job is Job.FEED for a in group) for group in groups]
    for days in itertools.combinations_with_replacement(range(outfit.season.n_days), len(groups)):
        yield apart, days
        follows = any(
            f and a == b for (a, b), f in zip(itertools.pairwise(days), fed[1:], strict=True)
        )
        if at_once != apart and follows:
            yield at_once, days


def _visits(
    outfit: Outfit, yard: Yard, groups: list[list[Action]], *, at_once: bool = False
) -> list[Visit]:
    """Stops with the blocks that colonies not fed in the same stop must get.

    Where all is done ``at_once`` later calls belong to the same stop.
    """
    visits, off = [], 0
    for number, group in enumerate(groups):
        here = sum(a.colonies for a in group if a.job is Job.TAKE_OFF)
        feeds = [a for later in groups[number:] for a in later] if at_once else group
        fed = sum(a.colonies for a in feeds if a.job is Job.FEED and a.round == 1)
        bare = min(here, max(0, off + here - fed)) if feed_plan(outfit, yard)[0] else 0
        off += here
        acts = list(group)
        if bare and outfit.rules.blocks:
            acts.insert(1, Action(Job.BLOCK, bare, pieces=bare * outfit.rules.blocks))
        visits.append(Visit(yard.id, tuple(acts)))
    return visits


def _starves(outfit: Outfit, yard: Yard, dated: Sequence[tuple[int, Visit]]) -> bool:
    """Tell whether colonies that are never fed cannot last to the end, at the very best."""
    if not feed_plan(outfit, yard)[0]:
        return False
    off = [(day, a.colonies) for day, v in dated for a in v.actions if a.job is Job.TAKE_OFF]
    fed = sum(a.colonies for _, v in dated for a in v.actions if a.job is Job.FEED and a.round == 1)
    grams = (yard.stores_g or 0) + outfit.rules.blocks * outfit.kit.block_g
    last = grams * DAY_MIN // outfit.feed.day_use_g
    done = 0
    for day, n in off:
        done += n
        if done > fed and (day + 1) * DAY_MIN + last < outfit.season.n_days * DAY_MIN:
            return True
    return False


def _boards_same_day(dated: Sequence[tuple[int, Visit]]) -> bool:
    """Tell whether a colony would come off on the day its board went on."""
    on = [
        day for day, v in dated for a in v.actions if a.job is Job.BOARDS for _ in range(a.colonies)
    ]  # none where boards lie already
    off = [
        day
        for day, v in dated
        for a in v.actions
        if a.job is Job.TAKE_OFF and a.way is None
        for _ in range(a.colonies)
    ]
    return any(a >= b for a, b in zip(on, off, strict=False))


def _too_soon(outfit: Outfit, yard: Yard, dated: Sequence[tuple[int, Visit]]) -> bool:
    """Tell whether a round's day is too near the day of the round before, at any hour."""
    rounds, ml = feed_plan(outfit, yard)
    gap = up(ml * DAY_MIN, outfit.feed.uptake_ml_per_day)
    first = {a.round: day for day, v in reversed(dated) for a in v.actions if a.job is Job.FEED}
    return any(
        yard.sun_spans[first[n]].end_min - yard.sun_spans[first[n - 1]].start_min < gap
        for n in range(2, rounds + 1)
        if n in first
    )


def _vector(outfit: Outfit, yard: Yard, stops: Sequence[Visit]) -> Vector:
    """What is left, in the order it is compared; of a closed yard, what may be done there."""
    if yard.health in {Health.SUSPECT, Health.STANDSTILL} and not (
        yard.feed_agreed and yard.boxes == 0
    ):
        return NOTHING_LEFT
    left = left_at(outfit, yard, [a for v in stops for a in v.actions])
    by = {entry.job: entry for entry in left}
    strips, feed, off = by.get(Job.STRIPS), by.get(Job.FEED), by.get(Job.TAKE_OFF)
    return (
        0,
        strips.colonies if strips else 0,
        feed.stores_g if feed else 0,
        off.colonies if off else 0,
    )
