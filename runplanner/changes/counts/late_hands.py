"""Who is on a truck that is late has neither spun honey nor mixed syrup meanwhile."""

from collections.abc import Collection, Iterator
from dataclasses import replace

from runplanner.changes.draft import Draft
from runplanner.days import Span, without


def on_the_truck(draft: Draft) -> Draft:
    """Return the draft without work at base that has begun while its people were on a late truck.

    Of such a stretch the parts before and after count, each with its share.
    """
    late = {one.trip for one in draft.late}
    away = {
        person: Span(shift.start_min, shift.end_min)
        for shift in draft.driven()
        if any(trip.id in late for trip in shift.trips)
        for person in shift.crew
    }
    if not away:
        return draft
    spinning = tuple(
        replace(one, start_min=part.start_min, end_min=part.end_min, boxes=boxes)
        for one in draft.plan.spinning
        for part, boxes in _parts(
            draft, Span(one.start_min, one.end_min), one.boxes,
            [away[each] for each in one.people if each in away],
        )
    )  # fmt: skip
    mixing = tuple(
        replace(one, start_min=part.start_min, end_min=part.end_min, ml=ml)
        for one in draft.plan.mixing
        for part, ml in _parts(
            draft, Span(one.start_min, one.end_min), one.ml,
            [away[one.person]] if one.person in away else [],
        )
    )  # fmt: skip
    return replace(draft, plan=replace(draft.plan, spinning=spinning, mixing=mixing))


def _parts(
    draft: Draft, stretch: Span, done: int, away: Collection[Span]
) -> Iterator[tuple[Span, int]]:
    """Yield the parts of a stretch outside some spans, with what was done in each; as it is before.

    One that has not begun is planned anew in any case.
    """
    meets = [one for one in away
             if one.start_min < stretch.end_min and stretch.start_min < one.end_min]  # fmt: skip
    if not meets or stretch.start_min > draft.now_min:
        yield stretch, done
        return
    for part in without((stretch,), tuple(meets)):
        share = done * (part.end_min - part.start_min) // (stretch.end_min - stretch.start_min)
        if share and part.start_min <= draft.now_min:
            yield part, share
