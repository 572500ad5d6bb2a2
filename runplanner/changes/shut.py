"""The reasons kept with a yard while hours are shut and opened by hand."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from runplanner.days import Span, without
from runplanner.outfit.shut import Shut, Work
from runplanner.outfit.yards import Yard

_WORKS = {
    "": (Work.OPEN, Work.FEED),
    "open": (Work.OPEN,),
    "feed": (Work.FEED,),
    "settle": (Work.SETTLE,),
}


def shut_by_hand(yard: Yard, spans: Sequence[Span], kind: str, note: str) -> Yard:
    """Return a yard that remembers who said why: hours shut for ``kind``, "" for both."""
    mine = [Shut(work, *span, note=note, by_line=True) for span in spans for work in _WORKS[kind]]
    return _with(yard, (*yard.shut, *mine))


def reopened(yard: Yard, spans: tuple[Span, ...], kind: str) -> Yard:
    """Return a yard that forgets why it was shut in hours that are open after all."""
    works = set(_WORKS[kind]) | (set() if kind == "feed" else {Work.SETTLE})
    return _with(yard, _left(yard.shut, spans, works))


def _left(shut: Sequence[Shut], spans: tuple[Span, ...], works: set[Work]) -> Iterator[Shut]:
    for one in shut:
        gone = spans if one.work in works else ()
        for span in without((Span(one.start_min, one.end_min),), gone):
            yield replace(one, start_min=span.start_min, end_min=span.end_min)


def _with(yard: Yard, shut: Sequence[Shut] | Iterator[Shut]) -> Yard:
    known = dict.fromkeys(shut)
    return replace(yard, shut=tuple(sorted(known, key=lambda one: (one.start_min, one.work))))
