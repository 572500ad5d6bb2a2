"""Boxes that are spun after their time: those that spoil, and those later than they were."""

from collections.abc import Iterator

from runplanner.daybook.plan import Plan
from runplanner.paperwork.speech.say import count, moment, yard_named
from runplanner.paperwork.speech.tongue import tr
from runplanner.paperwork.stop.honey import Lot, lots


def _late(plan: Plan, now_min: int) -> Iterator[Lot]:
    """Yield each lot, still to be spun, whose last box is spun after its spin-by."""
    for lot in lots(plan):
        if lot.starts and lot.starts[-1] > max(lot.spin_by_min, now_min):
            yield lot


def spoilt(plan: Plan) -> Iterator[str]:
    """Yield a sentence for each lot still to be spun that spoils before its last box is."""
    for lot in (one for one in _late(plan, plan.now_min) if one.hard):
        yield tr(
            "{yard}: {late} of {boxes} spun after {due}, when they spoil; the last {when}. Nobody "
            "who is free can spin them in time.",
            **_lot_words(plan, lot),
            when=moment(plan.outfit, lot.starts[-1]),
        )


def spun_late(before: Plan, after: Plan) -> Iterator[str]:
    """Yield a sentence for each lot of priced spin-by, not held, more of which is late than was."""
    was = {(lot.code, lot.trip): _late_boxes(lot) for lot in _late(before, after.now_min)}
    for lot in _late(after, after.now_min):
        late = _late_boxes(lot)
        if not lot.hard and not lot.held and late > was.get((lot.code, lot.trip), 0):
            yield tr(
                "{yard}: {late} of {boxes} spun after {due}; the last {when}",
                **_lot_words(after, lot),
                when=moment(after.outfit, lot.starts[-1]),
            )


def _late_boxes(lot: Lot) -> int:
    return sum(start > lot.spin_by_min for start in lot.starts)


def _lot_words(plan: Plan, lot: Lot) -> dict[str, str | int]:
    return {
        "yard": yard_named(plan.outfit, lot.yard),
        "late": _late_boxes(lot),
        "boxes": count(lot.boxes, "box", "boxes"),
        "due": moment(plan.outfit, lot.spin_by_min),
    }
