"""Honey that nobody may spin, and whom to ask.

It came in before its yard turned suspect, or was on when strips went in.
"""

from collections.abc import Iterator

from runplanner.daybook.honey_on import HoneyOn, honey_on
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Job
from runplanner.days import day_of
from runplanner.outfit.yards import CLOSED
from runplanner.paperwork.escape import shown
from runplanner.paperwork.sheet.frame import section
from runplanner.paperwork.sheet.page import Part, bullets
from runplanner.paperwork.speech.say import count, date_words, yard_name, yard_named
from runplanner.paperwork.speech.tongue import tr
from runplanner.paperwork.stop.health import state_words
from runplanner.paperwork.stop.honey import Lot, lots
from runplanner.paperwork.stop.honey_on import is_off


def held_lots(plan: Plan) -> tuple[Lot, ...]:
    """Return the lots with boxes not spun yet that nobody may spin."""
    return tuple(lot for lot in lots(plan) if lot.held)


def held_on(plan: Plan, day: int) -> tuple[Lot, ...]:
    """Return these lots that have come by ``day``, for its papers; none for days that are over."""
    if day < day_of(plan.now_min):
        return ()
    return tuple(lot for lot in held_lots(plan) if day_of(lot.arrive_min) <= day)


def is_closed(plan: Plan, lot: Lot) -> bool:
    """Tell whether the yard of a lot is suspect or at a standstill."""
    return plan.outfit.yard(lot.yard).health in CLOSED


def held_lines(plan: Plan, lot: Lot) -> Iterator[str]:
    """Yield in a sentence for each reason which boxes of a lot not to spin, and what to do."""
    which = {
        "boxes": count(lot.held, "box", "boxes"),
        "lot": lot.code,
        "yard": yard_named(plan.outfit, lot.yard),
    }
    if is_closed(plan, lot):
        yield tr(
            "Do not spin {boxes} of lot {lot}, {yard} ({state}): stack them apart, ask the "
            "inspector.",
            state=state_words(plan.outfit.yard(lot.yard)), **which,
        )  # fmt: skip
    if lot.strips_min is not None:
        yield tr(
            "Do not spin {boxes} of lot {lot}, {yard} (on the hives when strips went in, {date}): "
            "not for people until the label and your vet say so; stack them apart.",
            date=date_words(plan.outfit, day_of(lot.strips_min)), **which,
        )  # fmt: skip


def held_part(plan: Plan, day: int) -> Part:
    """Return a section with these sentences for a paper of ``day``; nothing without such lots."""
    lines = [line for lot in held_on(plan, day) for line in held_lines(plan, lot)]
    return section(tr("Do not spin"), bullets(lines, cls="marked")) if lines else ""


def told_of(before: Plan, after: Plan) -> Iterator[str]:
    """Yield what a change sheet says of yards now suspect or at a standstill.

    Each lot that is held; and how to trace a yard with such a lot, or one that was sound or
    watched before.
    """
    found = [lot for lot in held_lots(after) if is_closed(after, lot)]
    for lot in found:
        yield from held_lines(after, lot)
    was = {yard.id for yard in before.outfit.yards if yard.health in CLOSED}
    traced = {lot.yard for lot in found}
    for yard in after.outfit.yards:
        if yard.health in CLOSED and (yard.id in traced or yard.id not in was):
            yield tr(
                "{yard} ({state}): \u201crunplanner trace PLAN {id}\u201d lists its visits, its "
                "boxes and every yard seen before and after.",
                yard=yard_name(yard), state=state_words(yard), id=shown(yard.id, 80),
            )  # fmt: skip


def strips_told(plan: Plan) -> Iterator[str]:
    """Yield what a change sheet says of yards whose honey was on when strips went in.

    As long as any of it is not spun, nor freed; and each of its lots that is to come or stands
    there, but for those of a yard now suspect or at a standstill: ``told_of`` says all of them.
    """
    for one in honey_on(plan, Job.STRIPS).values():
        if plan.outfit.yard(one.yard).freed_min is not None:
            continue
        mine = [lot for lot in lots(plan) if lot.yard == one.yard and lot.strips_min is not None]
        if not is_off(plan, one) or any(lot.held for lot in mine):
            yield _treated(plan, one)
            for lot in mine:
                yield from held_lines(plan, lot) if lot.held and not is_closed(plan, lot) else ()


def _treated(plan: Plan, one: HoneyOn) -> str:
    return tr(
        "{yard}: strips have been in since {date} with honey on {colonies} ({boxes}). It is not "
        "for people until the label and your vet say so; keep these boxes apart.",
        yard=yard_named(plan.outfit, one.yard),
        date=date_words(plan.outfit, day_of(one.since_min)),
        colonies=count(one.colonies, "colony", "colonies"),
        boxes=count(one.boxes, "box", "boxes"),
    )


def strips_in_since(plan: Plan, call: Call) -> str:
    """Return the date since which strips are in a yard whose honey a call takes off, or nothing.

    Nothing either where it had been freed when the call began: what was told before stays.
    """
    one = honey_on(plan, Job.STRIPS).get(call.yard)
    if one is None or not call.takes_boxes() or call.start_min <= one.since_min:
        return ""
    freed_min = plan.outfit.yard(call.yard).freed_min
    if freed_min is not None and freed_min <= call.start_min:
        return ""
    return date_words(plan.outfit, day_of(one.since_min))
