"""Shut hours as lines for people."""

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from runplanner.days import Span, date_of, join
from runplanner.phrase import english_day
from runplanner.weather.judge import Cause, ShutHour, Why, Work
from runplanner.weather.said import reason_lines, sure_line, yards_words
from runplanner.weather.stretches import (
    by_yards,
    drawn_together,
    shut_lines,
    within,
)
from tests.outfits import a_yard, an_outfit
from tests.weather.forecasts import FIRST, at

LIGHT = tuple(Span(at(day, 7), at(day, 19)) for day in range(5))


def shut(
    start: float, end: float, *whys: Why, work: Work = Work.OPEN, yards: tuple[str, ...] = ()
) -> ShutHour:
    """Hours of day 0, shut."""
    return ShutHour(yards, work, at(0, start), at(0, end), whys or (rain(2100),))


def rain(um: int, over: int = 60) -> Why:
    """So much rain."""
    return Why(Cause.RAIN, um, over)


COLD = Why(Cause.COLD, 90)


def test_as_a_person_says_it() -> None:
    """The brief form: from an hour of the day until the light goes."""
    assert ("Mon 1 Mar shut from 14:00: rain 2.1 mm/h",) == shut_lines([shut(14, 19)], FIRST, LIGHT)


def test_hours_are_drawn_together_with_the_worst_figure() -> None:
    """Three hours of rain are one line; another cause begins another."""
    hours = [
        shut(9, 10, rain(400)),
        shut(10, 11, rain(2100)),
        shut(11, 12, rain(300)),
        shut(12, 13, rain(300), COLD),
        shut(15, 16, COLD),
    ]

    assert (
        "Mon 1 Mar shut from 09:00 to 12:00: rain up to 2.1 mm/h",
        "Mon 1 Mar shut from 12:00 to 13:00: rain 0.3 mm/h, temperature 9.0 degC",
        "Mon 1 Mar shut from 15:00 to 16:00: temperature 9.0 degC",
    ) == shut_lines(hours, FIRST, LIGHT)


def test_figures_over_other_stretches_are_not_mixed() -> None:
    """An hour's rain and rain in six hours are told apart; what is not told stays so."""
    untold = Why(Cause.RAIN, None)
    hours = [shut(9, 10, rain(400)), shut(10, 16, rain(900, 360)), shut(16, 17, untold),
             shut(17, 18, untold)]  # fmt: skip

    assert [(at(0, 9), at(0, 10)), (at(0, 10), at(0, 16)), (at(0, 16), at(0, 18))] == [
        (one.start_min, one.end_min) for one in drawn_together(hours)
    ]
    assert untold == drawn_together(hours)[-1].whys[0]


def test_the_coldest_counts() -> None:
    """Of temperatures the lowest."""
    hours = [shut(9, 10, COLD), shut(10, 11, Why(Cause.COLD, 70))]

    assert ("Mon 1 Mar shut from 09:00 to 11:00: temperature down to 7.0 degC",) == shut_lines(
        hours, FIRST, LIGHT
    )


def test_all_day_and_until() -> None:
    """What is shut from dawn to dark is shut all day; what ends at noon, until then."""
    assert ("Mon 1 Mar shut all day: rain 2.1 mm/h",) == shut_lines([shut(0, 24)], FIRST, LIGHT)
    assert ("Mon 1 Mar shut until 12:00: rain 2.1 mm/h",) == shut_lines([shut(5, 12)], FIRST, LIGHT)
    assert ("Mon 1 Mar shut until 12:00: rain 2.1 mm/h",) == shut_lines([shut(0, 12)], FIRST)


def test_nights_are_told_only_where_bees_must_settle() -> None:
    """Nobody opens hives at three in the morning; bees hang outside then."""
    dark = [shut(2, 4), shut(2, 4, work=Work.SETTLE), shut(2, 4, work=Work.FEED)]

    assert ("Mon 1 Mar no bees outside from 02:00 to 04:00: rain 2.1 mm/h",) == shut_lines(
        dark, FIRST, LIGHT
    )


def test_each_day_has_its_line() -> None:
    """A stretch over midnight is told by day."""
    long = ShutHour((), Work.FEED, at(0, 12), at(2, 12), (rain(2100),))

    assert (
        "Mon 1 Mar shut for syrup from 12:00: rain 2.1 mm/h",
        "Tue 2 Mar shut for syrup all day: rain 2.1 mm/h",
        "Wed 3 Mar shut for syrup until 12:00: rain 2.1 mm/h",
    ) == shut_lines([long], FIRST, LIGHT)


def test_days_in_words() -> None:
    """Weekday, day, month, over the end of a month."""
    assert "Fri 5 Mar" == english_day(date_of(FIRST, 4))
    assert "Thu 1 Apr" == english_day(date_of(date(2027, 3, 31), 1))


def test_widest_first() -> None:
    """What holds for most yards comes first."""
    hours = [shut(9, 10, yards=("b",)), shut(9, 10, yards=("a", "b")), shut(11, 12, yards=("b",))]

    assert [(("a", "b"), 1), (("b",), 2)] == [(yards, len(mine)) for yards, mine in by_yards(hours)]


SPANS = st.tuples(st.integers(0, 200), st.integers(1, 60)).map(
    lambda pair: Span(60 * pair[0], 60 * sum(pair))
)


@given(st.lists(SPANS))
def test_no_minute_is_lost_or_won(spans: list[Span]) -> None:
    """Drawn together or cut at midnights, the same minutes are shut."""
    hours = [ShutHour((), Work.OPEN, *span, (COLD,)) for span in spans]
    whole = Span(0, at(20))
    for found in (drawn_together(hours), within(hours, whole)):
        told = tuple(Span(one.start_min, one.end_min) for one in found)
        assert join(tuple(spans)) == join(told)


@given(st.lists(SPANS), SPANS)
def test_within_is_within(spans: list[Span], whole: Span) -> None:
    """Nothing lies outside, and every piece in one day."""
    for one in within([ShutHour((), Work.OPEN, *span, (COLD,)) for span in spans], whole):
        assert whole.start_min <= one.start_min < one.end_min <= whole.end_min
        assert one.start_min // 1440 == (one.end_min - 1) // 1440


def test_yards_by_their_shortest_name() -> None:
    """All, a district, or up to three names."""
    from dataclasses import replace

    yards = [replace(a_yard(n), district="hills" if n < 3 else "") for n in range(1, 7)]
    outfit = an_outfit([(n, 0) for n in range(6)], yards)

    assert "all yards" == yards_words(outfit, tuple(yard.id for yard in yards))
    assert "hills" == yards_words(outfit, ("yard1", "yard2"))
    assert "Yard 1" == yards_words(outfit, ("yard1",))
    assert "Yard 3, Yard 4" == yards_words(outfit, ("yard3", "yard4"))
    assert "Yard 1, Yard 3, Yard 4 and 1 more" == yards_words(
        outfit, ("yard1", "yard3", "yard4", "yard5")
    )


def test_lines_of_an_outfit() -> None:
    """Clipped to its daylight, 06:00 to 20:00, with yards by name."""
    hours = [shut(19, 23, yards=("yard1",)), shut(21, 22, yards=("yard1", "yard2"))]

    assert ["Yard 1: Mon 1 Mar shut from 19:00: rain 2.1 mm/h"] == reason_lines(an_outfit(), hours)


def test_sureness_in_words() -> None:
    """Days with the same figure are drawn together; it is the one that papers say."""
    line = sure_line(an_outfit(), (1000, 1000, 967, 900, 900, 505))

    assert (
        "100 % from Mon 1 Mar, 96.7 % from Wed 3 Mar, 90 % from Thu 4 Mar, 50.5 % from Sat 6 Mar"
        == line
    )
