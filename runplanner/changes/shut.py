"""Hours of a yard shut and opened, and the reasons kept with it while that is done by hand."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from runplanner.days import Span, join, without
from runplanner.outfit.shut import Shut, Work
from runplanner.outfit.yards import Yard

_WORKS = {
    "": (Work.OPEN, Work.FEED),
    "open": (Work.OPEN,),
    "feed": (Work.FEED,),
    "settle": (Work.SETTLE,),
}


def shut_hours(yard: Yard, spans: tuple[Span, ...], kind: str = "") -> Yard:
    """Return a yard whose hours fit for ``kind``, "" for hives and syrup, are gone."""
    if kind == "settle":
        return replace(yard, unsettled_spans=join((*yard.unsettled_spans, *spans)))
    works = _WORKS[kind]
    return replace(
        yard,
        open_spans=without(yard.open_spans, spans) if Work.OPEN in works else yard.open_spans,
        feed_spans=without(yard.feed_spans, spans) if Work.FEED in works else yard.feed_spans,
    )


def shut_by_hand(yard: Yard, spans: tuple[Span, ...], kind: str, note: str) -> Yard:
    """Return a yard with hours shut for ``kind``, "" for both, that remembers who said why."""
    mine = [Shut(work, *span, note=note, by_line=True) for span in spans for work in _WORKS[kind]]
    return _with(shut_hours(yard, spans, kind), (*yard.shut, *mine))


def reopened(yard: Yard, spans: tuple[Span, ...], kind: str) -> Yard:
    """Return a yard that is open, and settled, in hours after all, and forgets why it was shut."""
    works = set(_WORKS[kind])
    if Work.FEED in works:
        yard = replace(yard, feed_spans=join((*yard.feed_spans, *spans)))
    if Work.OPEN in works:
        works.add(Work.SETTLE)
        settled = without(yard.unsettled_spans, spans)
        opened = join((*yard.open_spans, *spans))
        yard = replace(yard, open_spans=opened, unsettled_spans=settled)
    return _with(yard, _left(yard.shut, spans, works))


def _left(shut: Sequence[Shut], spans: tuple[Span, ...], works: set[Work]) -> Iterator[Shut]:
    for one in shut:
        gone = spans if one.work in works else ()
        for span in without((Span(one.start_min, one.end_min),), gone):
            yield replace(one, start_min=span.start_min, end_min=span.end_min)


def _with(yard: Yard, shut: Sequence[Shut] | Iterator[Shut]) -> Yard:
    known = dict.fromkeys(shut)
    return replace(yard, shut=tuple(sorted(known, key=lambda one: (one.start_min, one.work))))
