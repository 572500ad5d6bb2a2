"""Whole-number arithmetic: rounding up, minutes in common, and a sum of floors."""

from collections.abc import Iterable

from runplanner.days import Span, join


def ceil_div(number: int, by: int) -> int:
    """Return ``number / by`` rounded up."""
    return -(-number // by)


def minutes_in(spans: Iterable[Span], start_min: int, end_min: int) -> int:
    """Return how many minutes of ``spans`` lie between the two; overlaps count once."""
    return sum(
        max(0, min(span.end_min, end_min) - max(span.start_min, start_min))
        for span in join(tuple(spans))
    )


def within(start_min: int, end_min: int, spans: Iterable[Span]) -> bool:
    """Tell whether the stretch lies wholly in one of ``spans``."""
    return any(span.start_min <= start_min and end_min <= span.end_min for span in spans)


def floor_sum(terms: int, by: int, step: int, first: int) -> int:
    """Return the sum of ``(step * j + first) // by`` for ``j`` in ``0 .. terms - 1``.

    The usual Euclid-like reduction, so that a nonsensical million of boxes costs no time.
    """
    total = 0
    while terms > 0:
        total += terms * (terms - 1) // 2 * (step // by) + terms * (first // by)
        step, first = step % by, first % by
        reach = step * terms + first
        terms, first = divmod(reach, by)
        step, by = by, step
    return total
