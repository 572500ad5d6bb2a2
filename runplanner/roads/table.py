"""A matrix as the minutes and metres of the travel table."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from runplanner.roads.hours import at_best
from runplanner.roads.matrix import NO_ROAD, Matrix

_CS_PER_MIN = 6000
Rows = tuple[tuple[int | None, ...], ...]


@dataclass(frozen=True, slots=True)
class Stretch:
    """The way from the road to a place: minutes and metres."""

    minutes: int
    metres: int


def rows(
    found: Matrix, ends: Sequence[Stretch], scale: Fraction, factors: Mapping[int, int]
) -> tuple[Rows, Rows]:
    """Return minutes and metres from place to place, rounded up, None where no road leads.

    Times are multiplied with ``scale``; the last stretches at both ``ends`` are not.  Minutes
    are those of the best hour by ``factors``.
    """
    by, part = scale.numerator, scale.denominator * _CS_PER_MIN
    minutes, metres = [], []
    for i, (times, lengths) in enumerate(zip(found.cs.tolist(), found.dm.tolist(), strict=True)):
        both = [Stretch(0, 0) if i == j else _sum(ends[i], end) for j, end in enumerate(ends)]
        minutes.append(
            tuple(
                None if cs == NO_ROAD else at_best(Fraction(cs * by, part) + aside.minutes, factors)
                for cs, aside in zip(times, both, strict=True)
            )
        )
        metres.append(
            tuple(
                None if dm == NO_ROAD else -(-dm // 10) + aside.metres
                for dm, aside in zip(lengths, both, strict=True)
            )
        )
    return tuple(minutes), tuple(metres)


def _sum(one: Stretch, other: Stretch) -> Stretch:
    return Stretch(one.minutes + other.minutes, one.metres + other.metres)
