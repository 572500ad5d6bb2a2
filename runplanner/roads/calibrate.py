"""Detour and speed fitted to the drives somebody has timed, and how well they fit.

The fit is the weighted median of the ratios, which makes the sum of all misses least and is
not thrown by one drive with a puncture in it (Edgeworth 1888, from memory).  The error shown
is honest: each drive is foretold from the others alone.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate
from statistics import median
from typing import Final

from runplanner.phrase import Phrase, phrase

LEAST: Final = 3
"""Fewer timed drives than this say more about that day than about the roads."""


@dataclass(frozen=True, slots=True)
class Timed:
    """One drive: what it is called, what is known of it in metres, what it took.

    ``known`` is what the fit starts from: the straight line, or the table's own time.
    ``road_m`` is the road driven, where it was written down.
    """

    name: str
    known: int
    minutes: int
    road_m: int | None = None


@dataclass(frozen=True, slots=True)
class Fit:
    """A ratio fitted to drives.

    Args:
        ratio: What the known figure is multiplied with.
        drives: How many it rests on.
        miss_percent: The middle miss of a drive foretold from the others.
        worst_percent: The worst of them.
        worst: Which that is.
    """

    ratio: Fraction
    drives: int
    miss_percent: int
    worst_percent: int
    worst: str

    def words(self) -> Phrase:
        """Return the fit's error in words."""
        return phrase(
            "fitted to {drives} timed drives; each foretold from the others is missed by {miss} % "
            "as a rule, {most} % at worst ({worst})",
            drives=self.drives,
            miss=self.miss_percent,
            most=self.worst_percent,
            worst=self.worst,
        )


def usable(drives: Sequence[Timed], told: Callable[[Timed], int]) -> list[Timed]:
    """Return the drives that something can be fitted to."""
    return [drive for drive in drives if drive.known > 0 and told(drive) > 0]


def fitted(drives: Sequence[Timed], told: Callable[[Timed], int]) -> Fit | None:
    """Return the ratio of what was ``told`` to what was known; None for too few drives."""
    fit = usable(drives, told)
    if len(fit) < LEAST:
        return None
    ratio = _middle([(drive.known, told(drive)) for drive in fit])
    misses = [_miss(fit, at, told) for at in range(len(fit))]
    worst = max(range(len(fit)), key=lambda at: (misses[at], -at))
    return Fit(
        ratio, len(fit), round(median(misses) * 100), round(misses[worst] * 100), fit[worst].name
    )


def _miss(drives: Sequence[Timed], at: int, told: Callable[[Timed], int]) -> Fraction:
    """Return by which share of it a drive is missed when it is foretold from the others."""
    others = [(one.known, told(one)) for number, one in enumerate(drives) if number != at]
    guess = _middle(others) * drives[at].known
    return abs(guess - told(drives[at])) / told(drives[at])


def _middle(pairs: Sequence[tuple[int, int]]) -> Fraction:
    """Return the median of told / known, each pair weighted by what is known."""
    row = sorted((Fraction(told, known), known) for known, told in pairs)
    sums = accumulate(2 * known for _, known in row)
    half = sum(known for _, known in row)
    return next(ratio for (ratio, _), sum_ in zip(row, sums, strict=True) if sum_ >= half)
