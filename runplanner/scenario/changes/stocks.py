"""What is left in store, and a honey house that stops: facts worked back to day 0."""

from collections.abc import Container, Iterator
from dataclasses import replace

from runplanner.daybook.plan import Mixing, Spinning
from runplanner.daybook.trip import CallKind, Job, Trip
from runplanner.days import Span, join
from runplanner.outfit.stores import Strips
from runplanner.phrase import Phrase, counted, phrase
from runplanner.scenario.changes.draft import Draft
from runplanner.scenario.faults import Refusal

_COUNT_AGAIN = phrase("Count again; what was told lost before is off that already.")


def loaded(draft: Draft) -> list[Trip]:
    """Return the trips that have loaded by now: what others of the day need is still in store."""
    now = draft.now_min
    return [trip for trip in draft.driven_trips() if trip.calls[0].start_min <= now]


def used(draft: Draft, job: Job, yards: Container[str] | None = None) -> int:
    """Return the pieces (such as blocks) loaded by now for a job, at ``yards`` or everywhere."""
    return sum(
        one.pieces
        for trip in loaded(draft)
        for call in trip.yards()
        if yards is None or call.yard in yards
        for one in call.actions
        if one.job is job
    )


def blocks_left(draft: Draft, left: int) -> Draft:
    """Return the draft with so many fondant blocks still in store."""
    gone, known = used(draft, Job.BLOCK), draft.outfit.kit.blocks_owned
    kit = replace(draft.outfit.kit, blocks_owned=gone + left)
    draft = replace(draft, outfit=replace(draft.outfit, kit=kit))
    return _more_than_known(draft, phrase("blocks"), left, known - gone)


def _more_than_known(draft: Draft, what: Phrase, left: int, known: int) -> Draft:
    """Return the draft, with a note where more is left than the plan knew of."""
    if left <= known:
        return draft
    return draft.noted(
        phrase(
            "{what}: {left} left are more than the {known} this plan knew of; taken as bought or "
            "found since",
            what=what,
            left=left,
            known=max(0, known),
        )
    )


def strips_left(draft: Draft, left: int, substance: str) -> Draft:
    """Return the draft with so many strips of a substance still in store."""
    outfit = draft.outfit
    treated = {one.id for one in outfit.yards if outfit.strips_at(one).substance == substance}
    used_up = used(draft, Job.STRIPS, treated)
    stock = left + used_up
    kinds = (outfit.strips, *outfit.strips_also)
    told_before = [
        kind.stock for kind in kinds if kind.substance == substance and kind.stock is not None
    ]

    def told(kind: Strips) -> Strips:
        return replace(kind, stock=stock) if kind.substance == substance else kind

    also = tuple(told(kind) for kind in outfit.strips_also)
    outfit = replace(outfit, strips=told(outfit.strips), strips_also=also)
    known = min(told_before, default=stock)
    draft = replace(draft, outfit=outfit)
    return _more_than_known(draft, phrase("strips"), left, known - used_up)


def boards_lost(draft: Draft, lost: int) -> Draft:
    """Return the draft with so many clearer boards fewer, from now on.

    Raises:
        Refusal: When there are not so many.
    """
    kit = draft.outfit.kit
    if lost > kit.boards_now:
        raise Refusal(
            counted(
                "at most the {number} board there is",
                "at most the {number} boards there are",
                kit.boards_now,
            ),
            _COUNT_AGAIN,
        )
    if draft.now_min <= 0:
        kit = replace(kit, boards_owned=kit.boards_owned - lost)
    else:
        kit = replace(kit, boards_lost=(*kit.boards_lost, (draft.now_min, lost)))
    return replace(draft, outfit=replace(draft.outfit, kit=kit))


def boards_found(draft: Draft, more: int) -> Draft:
    """Return the draft with so many clearer boards more, found again or bought."""
    kit = draft.outfit.kit
    kit = replace(kit, boards_owned=kit.boards_owned + more)
    return replace(draft, outfit=replace(draft.outfit, kit=kit))


def feeders_lost(draft: Draft, lost: int) -> Draft:
    """Return the draft with so many feeders fewer, from now on.

    Raises:
        Refusal: When there are not so many, or each hive has its own.
    """
    kit, there = draft.outfit.kit, _feeders_now(draft)
    if lost > there:
        raise Refusal(
            counted(
                "at most the {number} feeder there is",
                "at most the {number} feeders there are",
                there,
            ),
            _COUNT_AGAIN,
        )
    if draft.now_min <= 0:
        kit = replace(kit, feeders_owned=there - lost)
    else:
        kit = replace(kit, feeders_lost=(*kit.feeders_lost, (draft.now_min, lost)))
    return replace(draft, outfit=replace(draft.outfit, kit=kit))


def feeders_left(draft: Draft, left: int) -> Draft:
    """Return the draft with so many feeders at the feed store now; others stand in yards.

    Raises:
        Refusal: When each hive has its own.
    """
    calls = [trip.calls for trip in draft.driven_trips()]
    out = sum(one[0].after.feeders for one in calls if one[0].start_min <= draft.now_min)
    home = [one for one in calls if len(one) > 1 and one[-1].end_min <= draft.now_min]
    back = sum(one[-2].after.feeders for one in home)
    known = _feeders_now(draft) - out + back
    if left <= known:
        return feeders_lost(draft, known - left)
    kit = draft.outfit.kit
    kit = replace(kit, feeders_owned=(kit.feeders_owned or 0) + left - known)
    draft = replace(draft, outfit=replace(draft.outfit, kit=kit))
    return _more_than_known(draft, phrase("feeders"), left, known)


def _feeders_now(draft: Draft) -> int:
    there = draft.outfit.kit.feeders_now
    if there is None:
        raise Refusal(
            phrase("feeders only where they go from yard to yard"),
            phrase(
                "This plan takes it that each hive has its own: type {key} in the scenario and "
                "plan anew.",
                key="feeders",
            ),
        )
    return there


def sugar_left(draft: Draft, left_g: int) -> Draft:
    """Return the draft with so much sugar (g) still in store; mixed sugar counts on top."""
    feed = draft.outfit.feed
    mixed = mixed_ml(draft)
    gone_g = -(-mixed * feed.density_g_per_l * feed.sugar_permille // 1_000_000)
    known_g = feed.sugar_g
    feed = replace(feed, sugar_g=gone_g + left_g)
    draft = replace(draft, outfit=replace(draft.outfit, feed=feed))
    if known_g is None:
        return draft
    return _more_than_known(
        draft, phrase("sugar in kg"), left_g // 1000, (known_g - gone_g) // 1000
    )


def syrup_left(draft: Draft, left_ml: int) -> Draft:
    """Return the draft with so much syrup (ml) standing ready now.

    Ready at first + mixed - loaded = left; of what is being mixed so much stands there as its
    minutes so far make.  Where more was to be there than is, the last mixing was less than
    planned.
    """
    gone = sum(
        call.after.ml for trip in loaded(draft) for call in trip.calls if call.kind is CallKind.LOAD
    )
    mixed = sum(_mixed_by(one, draft.now_min) for one in _begun(draft))
    ready = left_ml + gone - mixed
    known = draft.outfit.feed.ready_ml + mixed - gone
    feed = replace(draft.outfit.feed, ready_ml=max(0, ready))
    draft = replace(draft, outfit=replace(draft.outfit, feed=feed))
    draft = _more_than_known(draft, phrase("syrup in litres"), left_ml // 1000, known // 1000)
    return _mixed_less(draft, max(0, -ready))


def mixed_ml(draft: Draft) -> int:
    """Return the syrup whose mixing has begun by now."""
    return sum(one.ml for one in _begun(draft))


def _begun(draft: Draft) -> list[Mixing]:
    if draft.now_min <= 0:
        return []
    return [one for one in draft.plan.mixing if one.start_min <= draft.now_min]


def _mixed_by(mixing: Mixing, minute: int) -> int:
    """Return the ml that are mixed by a minute."""
    whole = max(1, mixing.end_min - mixing.start_min)
    return mixing.ml * min(whole, minute - mixing.start_min) // whole


def _mixed_less(draft: Draft, less: int) -> Draft:
    mixing = []
    for one in sorted(draft.plan.mixing, key=lambda each: -each.start_min):
        if one in _begun(draft):
            cut = min(less, one.ml)
            less -= cut
            mixing.append(replace(one, ml=one.ml - cut))
        else:
            mixing.append(one)
    kept = tuple(sorted((one for one in mixing if one.ml), key=lambda one: one.start_min))
    return replace(draft, plan=replace(draft.plan, mixing=kept))


def stopped(draft: Draft, spans: tuple[Span, ...]) -> Draft:
    """Return the draft with nothing spun in ``spans``; spinning under way breaks off."""
    house = draft.outfit.honey_house
    house = replace(house, stopped=join((*house.stopped, *spans)))
    cut = (
        _cut(one, spans) if one.start_min <= draft.now_min else one for one in draft.plan.spinning
    )
    spinning = tuple(one for one in cut if one.boxes)
    plan = replace(draft.plan, spinning=spinning) if draft.now_min > 0 else draft.plan
    return replace(draft, plan=plan, outfit=replace(draft.outfit, honey_house=house))


def _cut(one: Spinning, spans: tuple[Span, ...]) -> Spinning:
    """Return what was spun before the plant stopped."""
    for span in spans:
        if span.start_min < one.end_min and one.start_min < span.end_min:
            end = max(one.start_min, span.start_min)
            spun = one.boxes * (end - one.start_min) // (one.end_min - one.start_min)
            one = replace(one, end_min=end, boxes=spun)
    return one


def full(draft: Draft, spans: tuple[Span, ...]) -> Draft:
    """Return the draft with no deliveries to the honey house in ``spans``."""
    house = draft.outfit.honey_house
    house = replace(house, full=join((*house.full, *spans)))
    return replace(draft, outfit=replace(draft.outfit, honey_house=house))


def spun_at_most(draft: Draft) -> Draft:
    """Return the draft with no more spun so far than boxes have come in, by the counts."""
    came = sorted(_arrivals(draft))
    spun, kept = 0, []
    for one in sorted(draft.plan.spinning, key=lambda each: each.start_min):
        if one.start_min > draft.now_min:
            kept.append(one)
            continue
        here = sum(boxes for at, boxes in came if at < one.end_min)
        most = draft.outfit.honey_house.waiting_boxes + here - spun
        boxes = max(0, min(one.boxes, most))
        spun += boxes
        took = -(-(one.end_min - one.start_min) * boxes // one.boxes)
        if boxes:
            kept.append(replace(one, end_min=one.start_min + took, boxes=boxes))
    return replace(draft, plan=replace(draft.plan, spinning=tuple(kept)))


def _arrivals(draft: Draft) -> Iterator[tuple[int, int]]:
    """Yield when boxes of driven trips come into the honey house, and how many."""
    house = draft.outfit.honey_house.base.place
    for trip in draft.driven_trips():
        boxes = trip.boxes()
        unloads = (c for c in trip.calls if c.kind is CallKind.UNLOAD and c.place == house)
        yield from ((call.end_min, boxes) for call in list(unloads)[:1])
