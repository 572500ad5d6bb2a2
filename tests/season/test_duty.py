"""How long somebody may work inside: each answer held against a count minute by minute."""

from dataclasses import replace

from hypothesis import example, given
from hypothesis import strategies as st

from runplanner.days import Span
from runplanner.season.standing.duty import Duty, PeoplesDay, Piece
from runplanner.trips.clock import Run
from tests.outfits import an_outfit

HOURS = replace(
    an_outfit().hours, duty_max_min=60, duty_break_after_min=24, duty_break_min=5
)  # fmt: skip
DAY = 100
"""Minutes of a day small enough to count."""


def lawful(pieces: list[Piece]) -> bool:
    """Whether a day keeps the limits, by minutes: duty to a break, and from first to last."""
    busy = [False] * DAY
    for start, end in pieces:
        for minute in range(start, end):
            if busy[minute]:
                return False
            busy[minute] = True
    if True not in busy:
        return True
    first, last = busy.index(True), DAY - busy[::-1].index(True)
    idle, since = 0, first
    for minute in range(first, last):
        if busy[minute]:
            since = minute if idle >= HOURS.duty_break_min else since
            idle = 0
            if minute + 1 - since > HOURS.duty_break_after_min:
                return False
        else:
            idle += 1
    return last - first <= HOURS.duty_max_min


def some_days() -> st.SearchStrategy[list[Piece]]:
    """Lawful days of up to three pieces."""
    piece = st.tuples(st.integers(0, DAY - 1), st.integers(1, 20)).map(
        lambda one: (one[0], min(DAY, one[0] + one[1]))
    )
    return st.lists(piece, max_size=3).map(sorted).filter(lawful)


@given(some_days(), st.integers(0, DAY - 1))
def test_until_is_the_last_minute_that_is_lawful(day: list[Piece], now: int) -> None:
    """Working until then keeps the limits, and a minute longer does not."""
    last = Duty(HOURS).until(day, now)
    with_it = sorted([*day, (now, min(DAY, last))])

    assert last == now or lawful(with_it)
    assert last >= DAY or not lawful(sorted([*day, (now, last + 1)]))


@given(some_days(), st.integers(0, DAY - 1), st.integers(1, DAY))
def test_whatever_is_filled_in_is_lawful(day: list[Piece], now: int, end: int) -> None:
    """All hours that are offered, worked one after the other, keep the limits."""
    people = PeoplesDay(Duty(HOURS), {7: list(day)})
    filled = list(day)
    for start, stop in people.hours(7, now, min(end, DAY)):
        assert now <= start < stop <= end
        people.works(7, start, stop)
        filled.append((start, stop))

    assert lawful(sorted(filled))


@given(some_days(), st.integers(0, DAY - 1), st.integers(1, DAY))
@example([(5, 25)], 0, 2)  # from minute 1 on a whole stretch is left, till the end of the piece
def test_nobody_waits_longer_than_must_be(day: list[Piece], now: int, end: int) -> None:
    """No minute before the one that is given would have done."""
    at = Duty(HOURS).again(day, now, end)
    tried = range(now, end if at is None else at)

    assert at is None or lawful(sorted([*day, (at, at + 1)]))
    assert not any(Duty(HOURS).until(day, minute) > minute for minute in tried)


@given(some_days(), some_days())
def test_two_parts_of_a_day_are_borne_if_they_are_lawful_together(
    inside: list[Piece], out: list[Piece]
) -> None:
    """The day on a truck is laid behind the one inside, or upon it."""
    day = sorted([*inside, *out])

    assert lawful(day) is (not day or Duty(HOURS).bears(day))


def test_a_short_rest_on_the_road_is_no_break() -> None:
    """Of two rests the one of 5 min parts the day, the one of 4 does not."""
    run = Run(10, 40, (), (Span(15, 19), Span(25, 30)), 0)

    assert [(10, 25), (30, 40)] == Duty(HOURS).pieces(run)
