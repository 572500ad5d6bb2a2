"""Honey that came in before its yard turned suspect: what nobody may spin, and whom to ask."""

from collections.abc import Iterator

from runplanner.daybook.plan import Plan, Spinning
from runplanner.days import day_of
from runplanner.outfit.yards import CLOSED
from runplanner.paperwork.escape import shown
from runplanner.paperwork.frame import section
from runplanner.paperwork.honey import Lot, lots
from runplanner.paperwork.page import Part, bullets
from runplanner.paperwork.say import count, yard_name, yard_named
from runplanner.paperwork.tongue import tr
from runplanner.paperwork.yard_words import HEALTH


def held_lots(plan: Plan) -> tuple[Lot, ...]:
    """Return the lots with boxes that are not spun yet, of yards suspect or at a standstill."""
    return tuple(lot for lot in lots(plan) if lot.held)


def held_on(plan: Plan, day: int) -> tuple[Lot, ...]:
    """Return these lots for the papers of ``day``; none for days that are over."""
    return held_lots(plan) if day >= day_of(plan.now_min) else ()


def held_between(plan: Plan, from_min: int, to_min: int) -> int:
    """Return how many boxes that nobody may spin the plan still has begun between two minutes."""
    starts = (start for lot in held_lots(plan) for start in lot.starts)
    return sum(max(from_min, plan.now_min) <= start < to_min for start in starts)


def may_be_spun(plan: Plan, spin: Spinning) -> int:
    """Return how many boxes of a stretch of spinning are not held."""
    return spin.boxes - held_between(plan, spin.start_min, spin.end_min)


def boxes_to_spin(plan: Plan, spin: Spinning) -> str:
    """Return what a stretch of spinning is for: its boxes, but for those that are held."""
    left = may_be_spun(plan, spin)
    held = count(spin.boxes - left, "box", "boxes")
    if left == spin.boxes:
        return count(left, "box", "boxes")
    if not left:
        return tr("nothing, {boxes} held back", boxes=held)
    return tr("{boxes}, {held} held back", boxes=count(left, "box", "boxes"), held=held)


def held_line(plan: Plan, lot: Lot) -> str:
    """Return in a sentence which boxes of a lot are not to be spun, why, and what to do."""
    return tr(
        "Do not spin {boxes} of lot {lot}, {yard} ({state}): stack them apart, ask the inspector.",
        boxes=count(lot.held, "box", "boxes"),
        lot=lot.code,
        yard=yard_named(plan.outfit, lot.yard),
        state=tr(HEALTH[plan.outfit.yard(lot.yard).health]),
    )


def held_part(plan: Plan, day: int) -> Part:
    """Return a section with these sentences for a paper of ``day``; nothing without such lots."""
    lines = [held_line(plan, lot) for lot in held_on(plan, day)]
    return section(tr("Do not spin"), bullets(lines, cls="marked")) if lines else ""


def told_of(before: Plan, after: Plan) -> Iterator[str]:
    """Yield what a change sheet says of yards now suspect or at a standstill.

    Each lot that is held; and how to trace a yard with such a lot, or one that was sound or
    watched before.
    """
    found = held_lots(after)
    for lot in found:
        yield held_line(after, lot)
    was = {yard.id for yard in before.outfit.yards if yard.health in CLOSED}
    traced = {lot.yard for lot in found}
    for yard in after.outfit.yards:
        if yard.health in CLOSED and (yard.id in traced or yard.id not in was):
            yield tr(
                "{yard} ({state}): \u201crunplanner trace PLAN {id}\u201d lists its visits, its "
                "boxes and every yard seen before and after.",
                yard=yard_name(yard), state=tr(HEALTH[yard.health]), id=shown(yard.id, 80),
            )  # fmt: skip
