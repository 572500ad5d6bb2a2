"""When a yard may be visited: weather, daylight, gate hours and the settling night."""

from dataclasses import dataclass

from runplanner.days import DAY_MIN, Span, join, meet
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard


@dataclass(frozen=True, slots=True)
class Windows:
    """One yard's visiting hours by day; each day's entry is a tuple of spans.

    ``settled_from_min[day]`` is the earliest minute at which a take-off visit may end so
    that the bees outside are safe until sunrise.
    """

    plain: tuple[tuple[Span, ...], ...]
    opening: tuple[tuple[Span, ...], ...]
    feeding: tuple[tuple[Span, ...], ...]
    both: tuple[tuple[Span, ...], ...]
    settled_from_min: tuple[int, ...]
    strips_shut: frozenset[int]


def windows(outfit: Outfit, yard: Yard) -> Windows:
    """Return the visiting hours of ``yard`` for every day of the campaign."""
    days = range(outfit.season.n_days)
    gates = tuple(
        Span(day * DAY_MIN + yard.access.opens_min, day * DAY_MIN + yard.access.closes_min)
        for day in days
    )
    plain = tuple(meet((gates[day],), (yard.sun_spans[day],)) for day in days)
    fit_open, fit_feed = join(yard.open_spans), join(yard.feed_spans)
    opening = tuple(meet(spans, fit_open) for spans in plain)
    feeding = tuple(meet(spans, fit_feed) for spans in plain)
    return Windows(
        plain=plain,
        opening=opening,
        feeding=feeding,
        both=tuple(meet(opening[day], feeding[day]) for day in days),
        settled_from_min=tuple(_settled_from(yard, day) for day in days),
        strips_shut=frozenset(yard.strips_shut_days),
    )


def _settled_from(yard: Yard, day: int) -> int:
    sunrise = yard.sun_spans[day + 1].start_min
    ends = [
        s.end_min
        for s in yard.unsettled_spans
        if s.start_min < sunrise and s.end_min > day * DAY_MIN
    ]
    return max(ends, default=0)
