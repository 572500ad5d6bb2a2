"""The two halves of a day: who stands at a base in one of them stays for it."""

from collections.abc import Iterable

from runplanner.days import DAY_MIN, Span, day_of
from runplanner.outfit.people import Hours
from runplanner.season.standing.floor import Spin

Half = tuple[int, bool]
"""A day, and whether it is its second half."""


class Halves:
    """Parts days at the outfit's noon."""

    def __init__(self, hours: Hours) -> None:
        self._noon_min = hours.noon_min

    def of(self, minute: int) -> Half:
        """Return the half-day in which ``minute`` falls."""
        return day_of(minute), minute % DAY_MIN >= self._noon_min

    def who_spins(self, spins: Iterable[Spin]) -> frozenset[tuple[Half, int]]:
        """Return who spins in which half-day."""
        return frozenset((self.of(spin.start_min), who) for spin in spins for who in spin.people)

    def parted(self, day: int, hours: Span) -> tuple[Span, Span]:
        """Return hours of a day before noon and from noon on."""
        start, noon = day * DAY_MIN, self._noon_min
        first, last = hours
        return (
            Span(start + first, start + max(first, min(noon, last))),
            Span(start + max(first, noon), start + max(last, noon, first)),
        )
