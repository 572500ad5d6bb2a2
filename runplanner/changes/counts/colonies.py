"""What changes in the colonies of a yard: deaths, disease, honey that is off."""

from dataclasses import replace

from runplanner.changes.counts.boxes import as_borne, still_there, with_the_dead
from runplanner.changes.counts.driven import boards_under, driven_actions, off_by
from runplanner.changes.counts.honey_house import holding
from runplanner.changes.draft import Draft
from runplanner.changes.said.count_words import at_most_all
from runplanner.daybook.trip import Job
from runplanner.days import Span, join
from runplanner.outfit.yards import CLOSED, Health, Yard
from runplanner.phrase import counted, joined, phrase
from runplanner.scenario.faults import Refusal


def fewer(draft: Draft, yard: Yard, gone: int) -> Draft:
    """Return the draft with ``gone`` colonies fewer; boxes still on stay to be taken off.

    Whose they are once all lines are in, `left_with_the_dead` tells.  Boards of the dead stay where
    they lie until the yard's last take-off lifts them too.

    Raises:
        Refusal: When the yard has not so many.
    """
    if gone > yard.colonies:
        raise Refusal(at_most_all(yard), phrase("Count again."))
    yard = as_borne(draft, yard)
    new = replace(
        yard, colonies=yard.colonies - gone, struck=yard.struck + gone,
        borne=yard.borne if yard.struck else None,
    )  # fmt: skip
    if yard.boards_on_min is not None:
        new = replace(new, boards_dead=yard.boards_dead + gone)
    return draft.with_yard(new)


def left_with_the_dead(draft: Draft) -> Draft:
    """Return the draft with what lies in yards where no living colony has honey on any more.

    No visit is planned for it: visits go to colonies.  Where some have, maybe by a count or a
    stop left out since, they take the boxes of the dead with them.
    """
    for known in draft.outfit.yards:
        yard = as_borne(draft, known)
        off = off_by(draft, yard.id, Job.TAKE_OFF)
        if yard.struck and off < yard.colonies:
            draft = draft.with_yard(with_the_dead(draft, yard, off))
        elif yard.struck:
            draft = _abandoned(draft.with_yard(yard), yard, still_there(yard, off))
    return draft


def _abandoned(draft: Draft, yard: Yard, boxes: int) -> Draft:
    done = [] if yard.colonies else driven_actions(draft, yard.id)
    boards = boards_under(draft, yard)
    feeders = sum(one.feeders - one.feeders_off for one in done)
    wet = sum(one.wet if one.job is Job.WET_UP else -one.wet for one in done)
    lying = [
        (boxes, counted("{number} honey box", "{number} honey boxes", boxes)),
        (boards, counted("{number} board", "{number} boards", boards)),
        (feeders, counted("{number} feeder", "{number} feeders", feeders)),
        (wet, counted("{number} wet box", "{number} wet boxes", wet)),
    ]
    there = [said for number, said in lying if number > 0]
    if not there:
        return draft
    what, line = joined(", ", *there), f"'boxes left 0 {yard.name}'"
    if yard.health in CLOSED:
        stays = phrase(
            "{name}: {what}; nothing leaves a yard that is suspect or at a standstill, nor is it "
            "fed while honey is there: shut all bee-tight where it stands, ask the inspector, and "
            "once it is gone, type {line}",
            name=yard.name, what=what, line=line,
        )  # fmt: skip
        return draft.left_there(stays)
    return draft.left_there(
        phrase(
            "{name}: {what}; where no living colony has honey on, fetch by hand what is left; the "
            "plan does not count on boards that lie there; once all is fetched, type {line}",
            name=yard.name, what=what, line=line,
        )
    )  # fmt: skip


def ailing(
    draft: Draft, yard: Yard, health: Health, *, feed_agreed: bool, licence: str = ""
) -> Draft:
    """Return the draft with the yard's health, and whether it may be fed without honey on.

    A licence holds for the standstill it was given for: told otherwise, the yard has none.
    Honey is held from when the yard first closed until it is opened again.
    """
    new = replace(yard, health=health, feed_agreed=feed_agreed, licence=licence)
    if health is yard.health and not licence:
        new = replace(new, licence=yard.licence)
    if (health in CLOSED) is (yard.health in CLOSED):
        return draft.with_yard(new)
    if health in CLOSED:
        return holding(draft, replace(new, held_min=draft.now_min))
    held = Span(draft.now_min if yard.held_min is None else yard.held_min, draft.now_min)
    was_held = join((*yard.was_held, held))
    return draft.with_yard(replace(new, held_min=None, was_held=was_held))


def bared(draft: Draft) -> Draft:
    """Return the draft with whether honey is off of closed yards whose feeding is agreed.

    Only stops that are over tell, so a line that is read later, or another day, may change it.
    Honey left on the dead is on as any other.
    """
    for yard in draft.outfit.yards:
        asked = yard.health in CLOSED and yard.feed_agreed
        off = asked and _is_bare(draft, yard)
        draft = draft if off == yard.honey_off else draft.with_yard(replace(yard, honey_off=off))
    return draft


def _is_bare(draft: Draft, yard: Yard) -> bool:
    done = driven_actions(draft, yard.id, lambda call: call.over(draft.now_min))
    off = sum(one.colonies for one in done if one.job is Job.TAKE_OFF)
    up, down = (
        sum(one.wet for one in done if one.job is job) for job in (Job.WET_UP, Job.WET_DOWN)
    )
    return off >= yard.colonies and not still_there(yard, off) and up <= down
