"""How many boxes a driver may come with who takes at each stop what is planned, or to its limit."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

Taken = tuple[int, ...]
"""Boxes taken at each of some stops."""


class Told(NamedTuple):
    """A stop that takes boxes: the mass of one, how many are planned, and boxes to stop at.

    ``limit`` counts all boxes aboard on leaving, those of stops before too.
    """

    box_g: int
    boxes: int
    limit: int


class _Load(NamedTuple):
    """A way of having come from some stops: the mass of all boxes taken, in grams, and which."""

    mass_g: int = 0
    taken: Taken = ()


def ways_to_come(told: Sequence[Told], box_g: int, came: int = 0) -> list[Taken]:
    """Return boxes taken at each of some stops, in the ways that bear upon the next one's limit.

    First as planned, then to the limit everywhere.  Each stop may be left with as many as are
    planned up to it, or with more up to its limit: of all these ways one that is returned is as
    heavy as any, to whatever number the next stop fills up.

    Args:
        told: The stops before, with their limits.
        box_g: The mass of a box of the next stop.
        came: Boxes aboard on coming to the first.
    """
    planned, full = [came], [came]
    for one in told:
        planned.append(max(planned[-1], min(planned[-1] + one.boxes, one.limit)))
        full.append(max(full[-1], one.limit))
    heaviest = {came: _Load()}
    # The heaviest way leaves every stop with some stop's number, planned or its limit.
    marks = {*planned, *(one.limit for one in told)}
    for one, least in zip(told, planned[1:], strict=True):
        ends = [mark for mark in marks if least <= mark <= max(least, one.limit)]
        heaviest = _left(heaviest, one.box_g, ends)
    plain = (tuple(b - a for a, b in pairwise(row)) for row in (planned, full))
    return list(dict.fromkeys((*plain, *_binding(heaviest, box_g))))


def _left(heaviest: Mapping[int, _Load], box_g: int, ends: Sequence[int]) -> dict[int, _Load]:
    """Return the heaviest way for each number aboard on leaving a stop with one of some numbers.

    Whoever comes with more takes none.
    """
    found: dict[int, _Load] = {}
    for came, load in heaviest.items():
        for number in {max(came, end) for end in ends}:
            more = number - came
            new = _Load(load.mass_g + more * box_g, (*load.taken, more))
            found[number] = max(new, found.get(number, new))
    return found


def _binding(heaviest: Mapping[int, _Load], box_g: int) -> Iterator[Taken]:
    """Yield the ways that are heavier than any with fewer aboard, filled up to the same number."""
    most_g = None
    for came, load in sorted(heaviest.items()):
        above_g = load.mass_g - came * box_g
        if most_g is None or above_g > most_g:
            most_g = above_g
            yield load.taken
