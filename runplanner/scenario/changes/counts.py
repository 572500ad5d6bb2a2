"""True counts from a driver's manifest: what a driven stop really did, and what that leaves.

A stop that has not been counted is presumed done as planned.
"""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import accumulate
from operator import or_
from typing import Final

from runplanner.daybook.trip import Action, Call, Job, Shift, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import BY_HAND, CLOSED, Clearing, Yard
from runplanner.phrase import Number, counted, joined, phrase
from runplanner.scenario.changes.aboard import aboard
from runplanner.scenario.changes.draft import Draft
from runplanner.scenario.changes.line import Line
from runplanner.scenario.faults import Refusal

COUNTS: Final = phrase(
    "counts such as '20 colonies 37 boxes', with brood boxes, wet boxes, blocks, boards, fed, "
    "litres, strips or no strips, by brush or by blower as need be; or 'nothing'"
)
_WORDS: Final = {
    "colonies": "colonies", "colony": "colonies", "hives": "colonies", "hive": "colonies",
    "off": "colonies", "boxes": "boxes", "box": "boxes", "blocks": "blocks", "block": "blocks",
    "boards": "boards", "board": "boards", "fed": "fed", "litres": "litres", "litre": "litres",
    "liters": "litres", "l": "litres", "strips": "strips",
    "wet": "wet", "feeders": "feeders", "feeder": "feeders",
}  # fmt: skip
_ORDER: Final = (
    Job.WET_DOWN, Job.BOARDS, Job.TAKE_OFF, Job.BLOCK, Job.FEED, Job.STRIPS, Job.FEEDERS,
    Job.WET_UP,
)  # fmt: skip
NOTHING: Final = dict.fromkeys(
    ("colonies", "boxes", "blocks", "boards", "fed", "strips", "wet", "feeders"), 0
)
"""What is counted at a stop that was not reached."""
WET: Final = -1
ALL_STRIPS: Final = -1
"""Strips told without a number: each colony of the yard has its own."""
_ONCE: Final = {
    "strips": {Job.STRIPS}, "feeders": {Job.FEEDERS}, "wet": {Job.WET_DOWN, Job.WET_UP},
}  # fmt: skip
_LEFT_OUT: Final = phrase("Leave it out at this stop.")
_WET_JOBS: Final = {Job.WET_UP, Job.WET_DOWN}
_OF_JOBS: Final = {
    "colonies": set(Job), "boxes": {Job.TAKE_OFF}, "brood": {Job.TAKE_OFF},
    "boards": {Job.BOARDS}, "fed": {Job.FEED}, "litres": {Job.FEED}, "wet": _WET_JOBS,
    "feeders": {Job.FEEDERS},
}  # fmt: skip
"""The jobs of which a word counts; blocks and strips may be given at any stop."""
_NAMES: Final = {
    "colonies": phrase("colonies"), "boxes": phrase("boxes"), "brood": phrase("brood boxes"),
    "boards": phrase("boards"), "fed": phrase("fed"), "litres": phrase("litres"),
    "wet": phrase("wet boxes"), "feeders": phrase("feeders that come off"),
}  # fmt: skip
_PLANNED: Final = {
    Job.WET_DOWN: phrase("wet boxes down"), Job.BOARDS: phrase("boards on"),
    Job.TAKE_OFF: phrase("take-off"), Job.BLOCK: phrase("blocks"), Job.FEED: phrase("syrup"),
    Job.STRIPS: phrase("strips"), Job.FEEDERS: phrase("feeders off"),
    Job.WET_UP: phrase("wet boxes up"),
}  # fmt: skip
"""What was planned at a stop, in the order it is done."""
Counts = Mapping[str, int]


def read_counts(line: Line) -> Counts:
    """Read what was counted at a stop, by word.

    Raises:
        Refusal: When something else stands there.
    """
    if line.take("nothing", "not done"):
        return NOTHING
    counts: dict[str, int] = {}
    while not line.done() and not line.rest().startswith(("(", "#")):
        if line.take("no strips"):
            counts["strips"] = 0
        elif line.take("strips in", "strips"):
            counts["strips"] = ALL_STRIPS
        elif line.take("by brush"):
            counts["way"] = BY_HAND.index(Clearing.BRUSH)
        elif line.take("by blower"):
            counts["way"] = BY_HAND.index(Clearing.BLOWER)
        else:
            word, number = _one(line)
            counts[word] = number
        line.take("and", ",")
    if not counts:
        raise Refusal(COUNTS, phrase("Write what was counted."))
    return counts


def _one(line: Line) -> tuple[str, int]:
    rest = line.rest()[:40]
    found = line.match(re.compile(r"([0-9]{1,6})\s*(?:(brood|wet)\s+)?([A-Za-z]+)", re.IGNORECASE))
    word = _WORDS.get(found[3].casefold()) if found else None
    if found and found[2] and word != "boxes":
        word = None
    if found is None or word is None:
        raise Refusal(COUNTS, phrase("Not understood from {rest} on.", rest=repr(rest)))
    return (found[2].casefold() if found[2] else word), int(found[1])


def as_counted(draft: Draft, trip: Trip, yard: Yard, counts: Counts) -> Draft:
    """Return the draft with ``counts`` as what ``trip`` did at ``yard``.

    Raises:
        Refusal: When more is said to be done than there was to do.
    """
    here = [call for call in trip.calls if call.yard == yard.id]
    _refuse_unplanned(here, counts)
    shared = shared_out(here, counts)
    calls = _counted_calls(draft.outfit, trip, yard, shared)
    done = _said_if_held_up(draft, yard, here, counts, shared)
    done = _said_how_fed(done, trip, yard, here, shared)
    done = _with_calls(done, trip, calls)
    marks = (*draft.counted, (trip.id, yard.id))
    done = replace(done, counted=tuple(dict.fromkeys(marks)))
    off = off_by(done, yard.id, Job.TAKE_OFF)
    if off > yard.colonies:
        raise Refusal(
            counted(
                "at most the {number} colony of the yard",
                "at most the {number} colonies of the yard",
                yard.colonies,
            ),
            phrase("Count again."),
        )
    jobs = {one.job for call in trip.calls if call.yard == yard.id for one in call.actions}
    if "way" in counts and Job.TAKE_OFF not in jobs:
        allowed = phrase("a way of clearing at a take-off")
        raise Refusal(allowed, _LEFT_OUT)
    if "way" in counts and off + boards_under(done, yard) > yard.colonies:
        cure = phrase(
            "Where boards had not gone on, count that visit first; else leave the way out."
        )
        raise Refusal(phrase("a way for colonies without boards"), cure)
    return done


def _counted_calls(
    outfit: Outfit, trip: Trip, yard: Yard, shared: list[dict[str, int]]
) -> tuple[Call, ...]:
    """Return a trip's calls, with what was counted at each of those at a yard as what it did.

    Raises:
        Refusal: When more is said to be done than there was to do.
    """
    here = [call for call in trip.calls if call.yard == yard.id]
    done = iter([
        _told(call, _done(outfit, yard, call, mine, short=short))
        for call, mine, short in zip(here, shared, _held_up(yard, here, shared), strict=True)
    ])  # fmt: skip
    return tuple(next(done) if call.yard == yard.id else call for call in trip.calls)


def _told(call: Call, done: tuple[Action, ...]) -> Call:
    """Return a call with what was counted there, and what had been planned where that differs."""
    if done == call.actions and not call.planned:
        return call
    return replace(call, actions=done, planned=call.planned or call.actions, counted=done)


def uncounted(draft: Draft, trip: Trip, yard: Yard) -> Draft:
    """Return the draft as if a trip's stops at a yard had not been counted before."""
    calls = tuple(
        replace(call, actions=call.planned, planned=(), counted=None)
        if call.yard == yard.id and call.counted is not None
        else call
        for call in trip.calls
    )
    return draft if calls == trip.calls else _with_calls(draft, trip, calls)


def _said_if_held_up(
    draft: Draft, yard: Yard, here: list[Call], counts: Counts, shared: list[dict[str, int]]
) -> Draft:
    """Note that syrup or strips which nobody counted are held up by honey still on."""
    for call, short in zip(here, _held_up(yard, here, shared), strict=True):
        planned = {action.job for action in call.actions}
        feed = Job.FEED in planned and not {"litres", "fed"} & counts.keys()
        strips = Job.STRIPS in planned and "strips" not in counts
        if short and (feed or strips):
            words = phrase(
                "{name}: fewer colonies off than planned, so syrup and strips that were not "
                "counted are taken as not given; count litres and strips too where they were",
                name=yard.name,
            )
            return draft.noted(words)
    return draft


def _refuse_unplanned(calls: list[Call], counts: Counts) -> None:
    """See that what is counted was planned there, where it would count for nothing else.

    Raises:
        Refusal: With each word that was not, and what was planned.
    """
    actions = [action for call in calls for action in call.actions]
    there = {action.job for action in actions}
    fits = {word for word, jobs in _OF_JOBS.items() if jobs & there}
    fits |= {"boards"} if any(action.boards_off for action in actions) else set()
    lost = [word for word, said in counts.items() if said and word in _OF_JOBS and word not in fits]
    if not lost:
        return
    planned = [said for job, said in _PLANNED.items() if job in there] or [phrase("nothing")]
    raise Refusal(
        phrase(
            "counts of what was planned there ({planned}), not {words}",
            planned=joined(", ", *planned),
            words=joined(", ", *(_NAMES[word] for word in lost)),
        ),
        _LEFT_OUT,
    )


def boards_under(draft: Draft, yard: Yard) -> int:
    """Return the boards that lie in a yard once what is driven has been done."""
    done = driven_actions(draft, yard.id)
    on = sum(action.pieces for action in done if action.job is Job.BOARDS)
    return yard.boards_lain + on - sum(action.boards_off for action in done)


def shared_out(calls: list[Call], counts: Counts) -> list[dict[str, int]]:
    """Return the counts of each call of one trip at one yard, which are told in one sum.

    Strips, feeders and wet boxes count where they were planned, else at the first call: strips
    told once are not hung twice. All else goes by what each call was to do, the rest to the last.
    """
    shared = [dict(counts) for _ in calls]
    for word, jobs in _ONCE.items():
        doing = [jobs & {action.job for action in call.actions} for call in calls]
        for number, (mine, does) in enumerate(zip(shared, doing, strict=True)):
            if word in mine and not does and (any(doing) or number):
                del mine[word]
    for word, planned in _PARTED:
        due = [(mine, planned(call)) for mine, call in zip(shared, calls, strict=True)]
        parts = [(mine, count) for mine, count in due if word in mine and count is not None]
        left = counts.get(word, 0)
        for mine, count in parts[:-1]:
            mine[word] = min(count, left)
            left -= mine[word]
        for mine, _ in parts[-1:]:
            mine[word] = left
    return shared


def _sum(call: Call, job: Job, what: Callable[[Action], int]) -> int | None:
    """Return what a call was to do of a job; None where it was not to."""
    found = [what(action) for action in call.actions if action.job is job]
    return sum(found) if found else None


def _fed_alone(call: Call) -> int | None:
    off = _sum(call, Job.TAKE_OFF, lambda one: one.colonies)
    return _sum(call, Job.FEED, lambda one: one.colonies) if off is None else None


_PARTED: Final[tuple[tuple[str, Callable[[Call], int | None]], ...]] = (
    ("blocks", lambda call: _sum(call, Job.BLOCK, lambda one: one.pieces) or 0),
    ("colonies", lambda call: _sum(call, Job.TAKE_OFF, lambda one: one.colonies)),
    ("colonies", _fed_alone),
    ("boxes", lambda call: _sum(call, Job.TAKE_OFF, lambda one: one.boxes)),
    ("brood", lambda call: _sum(call, Job.TAKE_OFF, lambda one: one.brood_boxes)),
    ("boards", lambda call: _sum(call, Job.BOARDS, lambda one: one.pieces)),
    ("fed", lambda call: _sum(call, Job.FEED, lambda one: one.colonies)),
    ("litres", lambda call: _sum(call, Job.FEED, lambda one: -(-one.ml // 1000))),
)
"""Words of which a trip's calls at a yard each did a part, and what each was to do."""


def _with_calls(draft: Draft, trip: Trip, calls: tuple[Call, ...]) -> Draft:
    def told(shift: Shift, one: Trip) -> Trip:
        if one.id != trip.id:
            return one
        return replace(trip, calls=aboard(draft.outfit, shift, trip, calls))

    plan = replace(
        draft.plan,
        shifts=tuple(
            replace(shift, trips=tuple(told(shift, one) for one in shift.trips))
            for shift in draft.plan.shifts
        ),
    )
    return replace(draft, plan=plan)


def off_by(draft: Draft, yard: str, job: Job) -> int:
    """Return the colonies that driven trips have served with ``job``; of feeds the first round."""
    return sum(
        one.colonies for one in driven_actions(draft, yard) if one.job is job and one.round <= 1
    )


def driven_actions(draft: Draft, yard: str = "") -> list[Action]:
    """Return what driven trips did, in one yard or in all."""
    return [
        action
        for trip in draft.driven_trips()
        for call in trip.yards()
        if not yard or call.yard == yard
        for action in call.actions
    ]


def _held_up(yard: Yard, here: list[Call], shared: list[dict[str, int]]) -> list[bool]:
    """Tell of each call whether fewer colonies were off by it than planned: no syrup, no strips.

    Args:
        yard: The yard.
        here: A trip's calls there, in order.
        shared: What was counted at each.
    """
    off = [{one.job: one for one in call.actions}.get(Job.TAKE_OFF) for call in here]
    short = [_short(a, _take_off(yard, a, mine)) for a, mine in zip(off, shared, strict=True)]
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
        _blocks(outfit, planned, counts),
        _fed(outfit, yard, planned, counts, short=short),
        _strips(outfit, yard, planned, counts, short=short),
    ]
    kept = [action for action in done if action is not None and action.colonies]
    return tuple(sorted(kept, key=lambda action: _ORDER.index(action.job)))


def _short(planned: Action | None, done: Action | None) -> bool:
    """Tell whether fewer colonies came off than planned: no syrup or strips follow then."""
    return planned is not None and (done.colonies if done else 0) < planned.colonies


def _take_off(yard: Yard, planned: Action | None, counts: Counts) -> Action | None:
    if planned is None:
        return None
    off, way, back = counts.get("colonies", planned.colonies), planned.way, planned.boards_off > 0
    if "way" in counts:
        said = BY_HAND[counts["way"]]
        way, back = None if said is yard.clearing else said, False
    return replace(
        planned,
        colonies=off,
        way=way,
        boxes=counts.get("boxes", -(-planned.boxes * off // planned.colonies)),
        brood_boxes=counts.get("brood", -(-planned.brood_boxes * off // planned.colonies)),
        boards_off=off if back else 0,
    )


def _boards(planned: Mapping[Job, Action], counts: Counts) -> Action | None:
    action = planned.get(Job.BOARDS)
    if action is None:
        return None
    alone = "colonies" if len(planned) == 1 else ""
    put_on = counts.get("boards", counts.get(alone, action.colonies))
    return replace(action, colonies=put_on, pieces=put_on)


def _blocks(outfit: Outfit, planned: Mapping[Job, Action], counts: Counts) -> Action | None:
    action, off = planned.get(Job.BLOCK), planned.get(Job.TAKE_OFF)
    each = (outfit.rules.blocks if off is not None else 1) or 1
    if "blocks" in counts:
        return Action(Job.BLOCK, counts["blocks"] // each, pieces=counts["blocks"])
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
    fed = 0 if short else action.colonies
    if Job.TAKE_OFF not in planned and not short:
        fed = counts.get("colonies", fed)
    if "litres" in counts and each:
        fed = _fed_by(action, counts["litres"] * 1000)
    fed = counts.get("fed", fed)
    if fed > yard.colonies:
        all_fed = phrase(
            "Count again; where each had more than planned, write '{number} fed' for the litres.",
            number=yard.colonies,
        )
        raise Refusal(
            counted(
                "at most the {number} colony of the yard",
                "at most the {number} colonies of the yard",
                yard.colonies,
            ),
            phrase("Count again.") if "fed" in counts else all_fed,
        )
    circulate = outfit.kit.feeders_owned is not None and action.round == 1
    return replace(action, colonies=fed, ml=each * fed, feeders=fed if circulate else 0)


def _fed_by(planned: Action, ml: int) -> int:
    """Return how many colonies so much syrup fed, a scale being read to half a portion in all."""
    each, lacks = planned.ml // planned.colonies, planned.ml - ml
    return planned.colonies if 0 < 2 * lacks < each else ml // each


def _said_how_fed(
    draft: Draft, trip: Trip, yard: Yard, here: list[Call], shared: list[dict[str, int]]
) -> Draft:
    """Note how litres were read that are not those planned, as far as so many could be fed."""
    feeds = {
        at: one
        for at, (call, mine) in enumerate(zip(here, shared, strict=True))
        for one in call.actions
        if one.job is Job.FEED and one.ml >= one.colonies > 0
        if mine.get("litres") and "fed" not in mine
    }
    if not feeds:
        return draft
    fed_at = _could_feed(draft, trip, yard, shared)
    all_fed = [
        {**mine, "fed": min(feeds[at].colonies, yard.colonies)} if at in feeds else mine
        for at, mine in enumerate(shared)
    ]
    most_at = _could_feed(draft, trip, yard, all_fed)
    for at, planned in feeds.items():
        fed, most, litres = fed_at[at], most_at[at], shared[at]["litres"]
        read = phrase(
            "{name}: {litres} litres are read as {fed} of {all} colonies fed, at {each} "
            "litres each",
            name=yard.name,
            litres=litres,
            fed=fed,
            all=planned.colonies,
            each=Number(f"{planned.ml // planned.colonies / 1000:g}"),
        )
        if most < planned.colonies:
            words = phrase("{read}; no more than {most} could be", read=read, most=most)
            draft = draft.noted(words)
        elif fed != planned.colonies:
            words = phrase(
                "{read}; write '{all} fed' where all were", read=read, all=planned.colonies
            )
            draft = draft.noted(words)
        elif litres * 1000 < planned.ml:
            words = phrase(
                "{name}: {litres} litres are near enough to the {due} planned: all {all} "
                "colonies count as fed",
                name=yard.name,
                litres=litres,
                due=Number(f"{planned.ml / 1000:g}"),
                all=planned.colonies,
            )
            draft = draft.noted(words)
    return draft


def _could_feed(draft: Draft, trip: Trip, yard: Yard, shared: list[dict[str, int]]) -> list[int]:
    """Return how many colonies each call of a trip at a yard could feed, by such counts."""
    told = _with_calls(draft, trip, _counted_calls(draft.outfit, trip, yard, shared))
    new = next(one for one in as_could_be(told, yard).driven_trips() if one.id == trip.id)
    return [
        _sum(call, Job.FEED, lambda one: one.colonies) or 0
        for call in new.calls
        if call.yard == yard.id
    ]


def _strips(
    outfit: Outfit, yard: Yard, planned: Mapping[Job, Action], counts: Counts, *, short: bool
) -> Action | None:
    action = planned.get(Job.STRIPS)
    if "strips" in counts:
        dose, said = outfit.strips_at(yard).per_colony, counts["strips"]
        _refuse_some(yard, action, dose, said)
        given = yard.colonies if said else 0
        return Action(Job.STRIPS, given, pieces=given * dose)
    return None if short else action


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
        raise Refusal(allowed, cure)


def _wet(planned: Mapping[Job, Action], counts: Counts) -> list[Action]:
    """Return the wet boxes put up or collected; none is a job not done."""
    found = []
    for job in (Job.WET_DOWN, Job.WET_UP):
        action = planned.get(job)
        if action is None:
            continue
        wet = counts.get("wet", action.wet)
        if wet > action.wet:
            raise Refusal(
                counted(
                    "at most the {number} wet box of this stop",
                    "at most the {number} wet boxes of this stop",
                    action.wet,
                ),
                phrase("Count again."),
            )
        found += [replace(action, wet=wet)] if wet else []
    return found


def _feeders_off(planned: Mapping[Job, Action], counts: Counts) -> Action | None:
    action = planned.get(Job.FEEDERS)
    if action is None:
        return None
    off = counts.get("feeders", action.feeders_off)
    if off > action.feeders_off:
        raise Refusal(
            counted(
                "at most the {number} feeder of this stop",
                "at most the {number} feeders of this stop",
                action.feeders_off,
            ),
            phrase("Count again."),
        )
    return replace(action, feeders_off=off) if off else None


def as_could_be(draft: Draft, yard: Yard) -> Draft:
    """Return the draft with no colony of a counted yard fed that still had its honey on.

    Strips that nobody counted are not presumed in while honey was on, nor are more wet boxes
    presumed collected than were put up.  A yard closed for its health keeps what was counted.
    """
    if yard.health in CLOSED:
        return draft
    reached: dict[int, int] = {}
    for trip in draft.driven_trips():
        told = [_before_cuts(call) if call.yard == yard.id else call for call in trip.calls]
        calls = tuple(
            _could_be(draft, trip, call, reached) if call.yard == yard.id else call for call in told
        )
        if calls == trip.calls:
            continue
        draft = _with_calls(draft, trip, calls)
        off = _wet_of(told) - _wet_of(calls)
        cause = (
            phrase("of wet boxes that were not put up") if off else phrase("with honey still on")
        )
        if [one.actions for one in told] != [one.actions for one in calls]:
            draft = draft.noted(
                phrase(
                    "{name}: what {id} was to do there {cause} does not count",
                    name=yard.name,
                    id=trip.id,
                    cause=cause,
                )
            )
    return draft


def _before_cuts(call: Call) -> Call:
    """Return a call as it was counted, or else planned, before other counts took from it."""
    if call.counted is not None:
        return replace(call, actions=call.counted)
    return replace(call, actions=call.planned, planned=()) if call.planned else call


def _wet_of(calls: Sequence[Call]) -> int:
    return sum(action.wet for call in calls for action in call.actions)


def _could_be(draft: Draft, trip: Trip, call: Call, reached: dict[int, int]) -> Call:
    """Return a call with what could be done.

    ``reached`` counts colonies off (0) and fed, and wet boxes that stand (``WET``).
    """
    yard, kept = draft.outfit.yard(call.yard), []
    for action in call.actions:
        one = action
        if action.job is Job.TAKE_OFF:
            reached[0] = reached.get(0, 0) + action.colonies
        elif action.job is Job.FEED:
            most = reached.get(action.round - 1, 0) - reached.get(action.round, 0)
            one = _fewer_fed(action, max(0, min(action.colonies, most)))
            reached[action.round] = reached.get(action.round, 0) + one.colonies
        elif action.job is Job.STRIPS and reached.get(0, 0) < yard.colonies:
            known = call.counted is not None or (trip.id, yard.id) in draft.counted
            one = action if known else replace(action, colonies=0)
        elif action.job is Job.WET_UP:
            reached[WET] = reached.get(WET, 0) + action.wet
        elif action.job is Job.WET_DOWN:
            wet = min(action.wet, reached.get(WET, 0))
            one = replace(action, wet=wet, colonies=action.colonies if wet else 0)
            reached[WET] = reached.get(WET, 0) - wet
        kept += [one] if one.colonies else []
    if tuple(kept) == call.actions:
        return call
    return replace(call, actions=tuple(kept), planned=call.planned or call.actions)


def _fewer_fed(action: Action, fed: int) -> Action:
    share = fed if action.feeders else 0
    return replace(action, colonies=fed, ml=action.ml // action.colonies * fed, feeders=share)
