"""Lots of a yard, and what calls of one stop share."""

from typing import Any, cast

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.audit.book import open_book
from runplanner.audit.hours import work_times
from runplanner.audit.lots import Lot, pairs
from runplanner.phrase import phrase
from tests.audit.plans import plain
from tests.audit.planted import edited


def lot(colonies: int, turn: int) -> Lot:
    """A lot of which only the count and the number matter."""
    return Lot(colonies, turn, cast(Any, None), cast(Any, None))


def test_pairs_match_first_with_first() -> None:
    """Boards on 4 and 6, off 7 and 3: 4 + 3 of the first lot off, then 3; nothing is left."""
    found = [
        (count, source.turn if source else None, target.turn)
        for count, source, target in pairs([lot(4, 0), lot(6, 1)], [lot(7, 2), lot(3, 3)])
    ]

    assert [(4, 0, 2), (3, 1, 2), (3, 1, 3)] == found


def test_pairs_tell_what_has_no_partner() -> None:
    """Two colonies off of which only one had a board."""
    found = [(count, source is None) for count, source, _ in pairs([lot(1, 0)], [lot(2, 1)])]

    assert [(1, False), (1, True)] == found


@given(st.lists(st.integers(0, 9), max_size=6), st.lists(st.integers(0, 9), max_size=6))
def test_pairs_are_the_colonies_one_by_one(first: list[int], then: list[int]) -> None:
    """Matching by lots is matching colony by colony in order."""
    sources: list[int | None] = [n for n, count in enumerate(first) for _ in range(count)]
    targets = [n for n, count in enumerate(then) for _ in range(count)]
    sources += [None] * len(targets)
    one_by_one = list(zip(sources, targets, strict=False))

    found = [
        (source.turn if source else None, target.turn)
        for count, source, target in pairs(
            [lot(count, n) for n, count in enumerate(first)],
            [lot(count, n) for n, count in enumerate(then)],
        )
        for _ in range(count)
    ]

    assert one_by_one == found


@pytest.mark.parametrize(
    ("arrive", "end", "needed"), [(530, 570, ()), (530, 569, (40,)), (534, 574, (50,))]
)
def test_a_stop_is_set_up_for_once(arrive: int, end: int, needed: tuple[int, ...]) -> None:
    """A further call of it wants the 40 minutes of its work; one driven to also 10 to set up."""
    calls, one = "shifts.0.trips.0.calls", plain().shifts[0].trips[0].calls[1]
    told = edited(plain(), {
        f"{calls}.2.yard": one.yard, f"{calls}.2.place": one.place,
        f"{calls}.2.arrive_min": arrive, f"{calls}.2.start_min": arrive,
        f"{calls}.2.end_min": end, f"{calls}.2.leave_min": end,
    })  # fmt: skip

    found = [breach.allowed for breach in work_times(open_book(told)) if breach.yard]
    assert [phrase("{least} or more", least=least) for least in needed] == found
