"""Breaks of whoever spins or mixes: the gaps between pieces of work that a break falls due in.

On the plan a break inside is a gap; the sheet says which gaps must not be worked through.
"""

from collections.abc import Iterator
from itertools import pairwise

from runplanner.daybook.plan import Plan
from runplanner.days import Span, day_of

LONGEST_MIN = 60
Piece = tuple[int, int, bool]
"""From, to, and whether it is inside."""


def base_breaks(plan: Plan, day: int) -> list[tuple[Span, tuple[str, ...]]]:
    """Return the breaks of a day between work inside and other work, with whose they are."""
    found: dict[Span, list[str]] = {}
    for person in plan.outfit.people:
        for span in _due(plan, sorted(_pieces(plan, day, person.id))):
            found.setdefault(span, []).append(person.id)
    return [(span, tuple(who)) for span, who in sorted(found.items())]


def _pieces(plan: Plan, day: int, person: str) -> Iterator[Piece]:
    least = plan.outfit.hours.duty_pause_min
    for shift in plan.shifts:
        if shift.day == day and person in shift.crew:
            start = shift.start_min
            for rest in sorted(shift.breaks):
                if rest.end_min - rest.start_min >= least:
                    yield start, rest.start_min, False
                    start = rest.end_min
            yield start, shift.end_min, False
    for spin in plan.spinning:
        if day_of(spin.start_min) == day and person in spin.people:
            yield spin.start_min, spin.end_min, True
    for mix in plan.mixing:
        if day_of(mix.start_min) == day and person == mix.person:
            yield mix.start_min, mix.end_min, True


def _due(plan: Plan, pieces: list[Piece]) -> Iterator[Span]:
    """Yield the gaps without which a stretch of duty would be too long.

    Breaks between two parts of a truck's day stand with the truck; hours off are no break
    that anybody could forget.
    """
    hours = plan.outfit.hours
    least = hours.duty_pause_min
    stretches: list[list[Piece]] = []
    for piece in pieces:
        if stretches and piece[0] - stretches[-1][-1][1] < least:
            stretches[-1].append(piece)
        else:
            stretches.append([piece])
    for before, after in pairwise(stretches):
        together = after[-1][1] - before[0][0]
        inside = before[-1][2] or after[0][2]
        gap = Span(before[-1][1], after[0][0])
        short = gap.end_min - gap.start_min <= max(LONGEST_MIN, 2 * least)
        if inside and short and together > hours.duty_break_after_min:
            yield gap
