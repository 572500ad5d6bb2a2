"""What a driven stop really did, job by job, by what was counted at it."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import accumulate
from operator import or_
from typing import Final

from runplanner.changes.said.count_words import ALL_STRIPS, Counts, at_most_all
from runplanner.daybook.trip import Action, Call, Job, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import BY_HAND, Yard
from runplanner.phrase import Number, Phrase, counted, joined, phrase
from runplanner.scenario.faults import Refusal
from runplanner.visits.blocks import blocks_each

_ORDER: Final = (
    Job.WET_DOWN, Job.BOARDS, Job.TAKE_OFF, Job.BLOCK, Job.FEED, Job.STRIPS, Job.FEEDERS,
    Job.WET_UP,
)  # fmt: skip


def counted_calls(
    outfit: Outfit, trip: Trip, yard: Yard, shared: list[dict[str, int]], now_min: int
) -> tuple[Call, ...]:
    """Return a trip's calls, with what was counted at each of those at a yard as what it did.

    Args:
        outfit: The facts.
        trip: The trip.
        yard: The yard.
        shared: What was counted at each of its calls there, in order.
        now_min: The time it is.

    Raises:
        Refusal: When more is said to be done than there was to do.
    """
    here = [call for call in trip.calls if call.yard == yard.id]
    done = iter([
        _told(call, _done(outfit, yard, call, mine, short=short), now_min)
        for call, mine, short in zip(here, shared, held_up(yard, here, shared), strict=True)
    ])  # fmt: skip
    return tuple(next(done) if call.yard == yard.id else call for call in trip.calls)


def _told(call: Call, done: tuple[Action, ...], now_min: int) -> Call:
    """Return a call with what was counted there, and what had been planned where that differs.

    Where it is over and went as planned, or had nothing to do, no more need be known of it.
    """
    if done == call.actions and not call.planned:
        return replace(call, counted=done) if done and not call.over(now_min) else call
    return replace(call, actions=done, planned=call.planned or call.actions, counted=done)


def held_up(yard: Yard, here: list[Call], shared: list[dict[str, int]]) -> list[bool]:
    """Tell of each call whether fewer colonies were off by it than planned: no syrup, no strips.

    Args:
        yard: The yard.
        here: A trip's calls there, in order.
        shared: What was counted at each.
    """
    off = [{one.job: one for one in call.actions}.get(Job.TAKE_OFF) for call in here]
    short = [_short(yard, a, _take_off(yard, a, mine)) for a, mine in zip(off, shared, strict=True)]
    return list(accumulate(short, or_))


def _done(
    outfit: Outfit, yard: Yard, call: Call, counts: Counts, *, short: bool
) -> tuple[Action, ...]:
    planned = {action.job: action for action in call.actions}
    done = [_take_off(yard, planned.get(Job.TAKE_OFF), counts)]
    done += [
        *_wet(planned, counts),
        _feeders_off(planned, counts),
        _boards(planned, counts),
        _blocks(outfit, yard, planned, counts),
        _fed(outfit, yard, planned, counts, short=short),
        _strips(outfit, yard, planned, counts, short=short),
    ]
    kept = [action for action in done if action is not None and action.colonies]
    return tuple(sorted(kept, key=lambda action: _ORDER.index(action.job)))


def _short(yard: Yard, planned: Action | None, done: Action | None) -> bool:
    """Tell whether fewer colonies came off than planned: no syrup or strips follow then.

    Those that died since are not missed.
    """
    if planned is None:
        return False
    return (done.colonies if done else 0) < min(planned.colonies, yard.colonies)


def _take_off(yard: Yard, planned: Action | None, counts: Counts) -> Action | None:
    if planned is None:
        return None
    off, way = counts.get("colonies", planned.colonies), planned.way
    # Boards stay under those left on; who is off, or died, leaves none behind.
    left_on = max(0, min(planned.colonies, yard.colonies) - off)
    back = planned.boards_off and planned.boards_off - left_on + max(0, off - planned.colonies)
    if "way" in counts:
        said = BY_HAND[counts["way"]]
        way, back = None if said is yard.clearing else said, 0
    return replace(
        planned,
        colonies=off,
        way=way,
        boxes=counts.get("boxes", -(-planned.boxes * off // planned.colonies)),
        brood_boxes=counts.get("brood", -(-planned.brood_boxes * off // planned.colonies)),
        boards_off=max(0, back),
    )


def _boards(planned: Mapping[Job, Action], counts: Counts) -> Action | None:
    action = planned.get(Job.BOARDS)
    if action is None:
        return None
    alone = "colonies" if len(planned) == 1 else ""
    put_on = counts.get("boards", counts.get(alone, action.colonies))
    return replace(action, colonies=put_on, pieces=put_on)


def _several(action: Action, given: int) -> bool:
    """Tell whether so many further blocks went to all colonies planned for, some to each."""
    if action.pieces > action.colonies:
        return given >= action.colonies
    return given > 0 and given % max(1, action.colonies) == 0


def _blocks(
    outfit: Outfit, yard: Yard, planned: Mapping[Job, Action], counts: Counts
) -> Action | None:
    """Return the blocks given; where there were more than one a colony, each got more."""
    action, take_off = planned.get(Job.BLOCK), planned.get(Job.TAKE_OFF)
    if "blocks" in counts:
        given = counts["blocks"]
        off = counts.get("colonies", take_off.colonies) if take_off is not None else 0
        if off:
            got = min(off, given // blocks_each(outfit.rules, off, given))
        elif action is not None and _several(action, given):
            got = action.colonies
        else:
            got = min(given, yard.colonies)
        return Action(Job.BLOCK, got, pieces=given)
    if action is None:
        return None
    colonies = counts.get("colonies", action.colonies)
    given = min(action.colonies, colonies)
    return replace(action, colonies=given, pieces=action.pieces * given // action.colonies)


def _fed(
    outfit: Outfit, yard: Yard, planned: Mapping[Job, Action], counts: Counts, *, short: bool
) -> Action | None:
    action = planned.get(Job.FEED)
    if action is None:
        return None
    each = action.ml // action.colonies if action.colonies else 0
    fed = 0 if short else _found(yard, action, planned, counts)
    if Job.TAKE_OFF not in planned and not short:
        fed = counts.get("colonies", fed)
    if "ml" in counts and each:
        fed = _fed_by(action, counts["ml"])
    fed = counts.get("fed", fed)
    most = max(yard.colonies, action.colonies)
    if fed > most:
        all_fed = phrase(
            "Count again; where each had more than planned, write '{number} fed' beside litres.",
            number=most,
        )
        raise Refusal(
            at_most_all(yard, action.colonies),
            phrase("Count again.") if "fed" in counts else all_fed,
        )
    ml = counts.get("ml", each * fed)
    holds_ml = yard.feeder_ml * (fed if "fed" in counts else most)
    if ml > max(each * fed if "fed" in counts else action.ml, holds_ml):
        holds = phrase(
            "at most {most} litres: feeders here hold {each} litres each",
            most=_litres(holds_ml),
            each=_litres(yard.feeder_ml),
        )
        raise Refusal(holds, phrase("Count again."))
    circulate = outfit.kit.feeders_owned is not None and action.round == 1
    feeders = fed if circulate else min(fed, action.feeders)
    return replace(action, colonies=fed, ml=ml, feeders=feeders)


def _litres(ml: int) -> Number:
    return Number(f"{ml / 1000:g}")


def _fed_by(planned: Action, ml: int) -> int:
    """Return how many colonies so much syrup fed, a scale being read to half a portion in all."""
    each, lacks = planned.ml // planned.colonies, planned.ml - ml
    return planned.colonies if 0 < 2 * lacks < each else ml // each


def _strips(
    outfit: Outfit, yard: Yard, planned: Mapping[Job, Action], counts: Counts, *, short: bool
) -> Action | None:
    action = planned.get(Job.STRIPS)
    if "strips" in counts:
        dose, said = outfit.strips_at(yard).per_colony, counts["strips"]
        _refuse_some(yard, action, dose, said)
        given = yard.colonies if said else 0
        if action and said == ALL_STRIPS:
            given = max(given, _found(yard, action, planned, counts))
        elif action and said == action.pieces:
            given = action.colonies
        return Action(Job.STRIPS, given, pieces=given * dose)
    return None if short else action


def _found(yard: Yard, action: Action, planned: Mapping[Job, Action], counts: Counts) -> int:
    """Return how many of a job's colonies a stop is taken to have found alive.

    As many as planned, for they may have died since; but none that was not counted and lives no
    more.
    """
    lead = planned.get(Job.TAKE_OFF, action)
    missed = lead.colonies - counts.get("colonies", lead.colonies)
    return max(min(action.colonies, yard.colonies), action.colonies - max(0, missed))


def _refuse_some(yard: Yard, planned: Action | None, dose: int, said: int) -> None:
    """See that strips are told as none or as all; colonies may have died since they went in.

    Raises:
        Refusal: When some are told.
    """
    due = dose * yard.colonies
    if said not in {0, ALL_STRIPS, due, planned.pieces if planned else due}:
        allowed = phrase(
            "{due} strips, {dose} for each of {colonies}, or 'no strips'",
            due=due,
            dose=dose,
            colonies=counted("{number} colony", "{number} colonies", yard.colonies),
        )
        cure = phrase(
            "Strips go into a whole yard at one visit: where they ran out, write 'no strips', "
            "and they come again another day, for the colonies that have none yet."
        )
        gone, odd = divmod(due - said, dose)
        if gone > 0 and not odd:
            line = f"'dead {gone} {yard.name}'"
            told = phrase("Where colonies were dead or joined to others, type {line} as well.",
                          line=line)  # fmt: skip
            cure = joined(" ", cure, told)
        raise Refusal(allowed, cure)


def _wet(planned: Mapping[Job, Action], counts: Counts) -> list[Action]:
    """Return the wet boxes put up or collected; none is a job not done."""
    found = []
    for job in (Job.WET_DOWN, Job.WET_UP):
        action = planned.get(job)
        if action is None:
            continue
        wet = counts.get("wet", action.wet)
        found += [replace(action, wet=wet)] if wet else []
    return found


def _feeders_off(planned: Mapping[Job, Action], counts: Counts) -> Action | None:
    action = planned.get(Job.FEEDERS)
    if action is None:
        return None
    off = counts.get("feeders", action.feeders_off)
    most = counted(
        "at most the {number} feeder of this stop",
        "at most the {number} feeders of this stop",
        action.feeders_off,
    )
    _refuse_more(off, action.feeders_off, most)
    return replace(action, feeders_off=off) if off else None


def _refuse_more(told: int, planned: int, at_most: Phrase) -> None:
    """See that no more is told than a stop was to do.

    Raises:
        Refusal: When more is.
    """
    if told > planned:
        raise Refusal(at_most, phrase("Count again."))
