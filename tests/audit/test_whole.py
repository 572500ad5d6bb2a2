from hypothesis import given
from hypothesis import strategies as st

from runplanner.audit.whole import ceil_div, floor_sum, minutes_in, within
from runplanner.days import Span


def test_ceil_div_rounds_up_and_keeps_whole_results() -> None:
    """7 / 2 is 4, 8 / 2 is 4, nothing is nothing."""
    assert (4, 4, 0) == (ceil_div(7, 2), ceil_div(8, 2), ceil_div(0, 2))


@given(st.integers(0, 60), st.integers(1, 50), st.integers(0, 200), st.integers(-200, 200))
def test_floor_sum_is_the_sum_of_floors(terms: int, by: int, step: int, first: int) -> None:
    """The closed form is the sum written out."""
    written_out = sum((step * j + first) // by for j in range(terms))

    assert written_out == floor_sum(terms, by, step, first)


def test_floor_sum_of_a_million_million_terms_is_quick() -> None:
    """The sum of j // 1 for j below n is n (n - 1) / 2."""
    terms = 10**12

    assert terms * (terms - 1) // 2 == floor_sum(terms, 1, 1, 0)


def test_minutes_in_counts_overlapping_spans_once() -> None:
    """10-20 and 15-30 seen from 12 to 25 are 13 minutes."""
    assert 13 == minutes_in((Span(10, 20), Span(15, 30)), 12, 25)


def test_within_wants_one_span_for_the_whole_stretch() -> None:
    """Two spans that only touch do not hold a stretch across both."""
    spans = (Span(0, 10), Span(10, 20))

    assert within(2, 10, spans)
    assert not within(2, 11, spans)
