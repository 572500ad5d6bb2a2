"""A honey house that stops or is full, and what it has spun by the counts."""

from collections.abc import Iterator
from dataclasses import replace

from runplanner.daybook.plan import Spinning
from runplanner.daybook.trip import CallKind
from runplanner.days import Span, join
from runplanner.scenario.changes.draft import Draft


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
