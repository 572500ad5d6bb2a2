"""Strips due out on a day, of the first application and of the second."""

from runplanner.daybook.plan import Plan
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.lists.strips_out import (
    StripsOut,
    at_feed_words,
    bring_words,
    due_inside,
    due_words,
    nobodys,
    unfetched,
)
from runplanner.paperwork.sheet.frame import section
from runplanner.paperwork.sheet.page import Part, bullets, el
from runplanner.paperwork.speech.substances import corrosive, names_substance, strips_named
from runplanner.paperwork.speech.tongue import tr
from runplanner.trade.strips import CORROSIVE


def due_part(plan: Plan, day: int) -> Part:
    """Return a section for a day's sheet on strips due out by then; nothing without such."""
    due = [one for one in due_inside(plan) if one.first_out(day) or one.second_out(day)]
    if not due:
        return ""
    lines = [
        tr("{yard}: {due}", yard=one.yard, due=told(plan.outfit, one))
        for told, out in ((_told, StripsOut.first_out), (_told_again, StripsOut.second_out))
        for one in due if out(one, day)
    ]  # fmt: skip
    burn = any(corrosive(plan.outfit, one.kind.substance) for one in due)
    care = el("p", tr(CORROSIVE)) if burn else ""
    nobody = el("p", el("b", unfetched())) if nobodys(due) else ""
    return section(tr("Strips due out"), nobody, bullets(lines), care)


def _told(outfit: Outfit, one: StripsOut) -> str:
    """Return when strips fall due, which, and what to bring where they are given twice."""
    due, strips = due_words(one.due_from, one.due_to), _which(outfit, one)
    if one.at_feed:
        return f"{due}; {strips}; {at_feed_words()}"
    if one.again:
        return f"{due}; {bring_words(_which(outfit, one.second()))}"
    return f"{due}; {strips}" if names_substance(outfit) else due


def _told_again(outfit: Outfit, one: StripsOut) -> str:
    """Return when those of a second application fall due, and which."""
    strips = tr("{strips}, second application", strips=_which(outfit, one.second()))
    return f"{due_words(one.again_from, one.again_to)}; {strips}"


def _which(outfit: Outfit, one: StripsOut) -> str:
    return strips_named(outfit, one.pieces, one.kind.substance)
