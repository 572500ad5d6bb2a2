"""A forecast's hours, what is missing from them, and the air of a day."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from runplanner.days import Span
from runplanner.weather.hours import Hour, in_order
from tests.weather.forecasts import a_forecast, at, fair


def test_gaps_lie_inside_only() -> None:
    """Six to eight and ten to eleven: nothing from eight to ten, nor before or after."""
    forecast = a_forecast(*fair(at(0, 6), 2), *fair(at(0, 10), 1))

    assert (Span(at(0, 8), at(0, 10)),) == forecast.gaps()
    assert Span(at(0, 6), at(0, 11)) == forecast.reach()


def test_an_hour_the_clocks_skip_is_not_missing() -> None:
    """The wall never showed it."""
    forecast = a_forecast(*fair(at(0, 1), 1), *fair(at(0, 3), 1))

    assert () == forecast.gaps((Span(at(0, 2), at(0, 3)),))


def test_the_air_of_a_day_bears_short_silence() -> None:
    """Lowest and highest of the hours told, where five at most lack inside.

    12.4 degrees at 0:00 to 14.7 at 23:00; with its last hour beyond the end the day is not whole.
    """
    day = [replace(hour, temp_dc=100 + hour.start_min // 60) for hour in fair(at(1), 24)]
    mute = [replace(hour, temp_dc=None) for hour in day]

    assert (124, 147) == a_forecast(*day).day_air(1)
    assert a_forecast(*day[:-1]).day_air(1) is None
    assert (124, 147) == a_forecast(*day[:3], *day[4:]).day_air(1)
    assert (125, 147) == a_forecast(mute[0], *day[1:]).day_air(1)
    assert (124, 147) == a_forecast(*day[:3], *mute[3:8], *day[8:]).day_air(1)
    assert a_forecast(*day[:3], *mute[3:9], *day[9:]).day_air(1) is None
    assert a_forecast(*day[:3], *day[9:]).day_air(1) is None
    assert (124, 147) == a_forecast(*day[:3], *day[9:]).day_air(1, (Span(at(1, 5), at(1, 6)),))
    assert a_forecast(*day).day_air(0) is None


def test_days_without_a_temperature_lie_inside_its_reach() -> None:
    """Silent from 20:00 on day 1 to 4:00 on day 2, told again until noon of day 3."""
    hours = [
        replace(hour, temp_dc=None) if at(1, 20) <= hour.start_min < at(2, 4) else hour
        for hour in fair(at(1), 60)
    ]

    assert (1, 2) == a_forecast(*hours).airless_days(range(5))
    assert (1, 2) == a_forecast(*hours[:20], *hours[28:]).airless_days(range(5))
    assert () == a_forecast(*fair(at(1), 60)).airless_days(range(5))


def test_of_two_on_one_hour_the_worse_counts() -> None:
    """Colder, wetter, windier; what one does not tell is not told."""
    one = Hour(0, 120, 0, 60, 3000, 5000, None)
    other = Hour(0, 110, 500, 360, 2000, None, 100)

    assert (Hour(0, 110, 500, 360, 3000, None, None),) == in_order([one, other])
    assert (Hour(0, None, None, 60, None, None, None),) == in_order([Hour(0), replace(one)])


def test_hours_that_do_not_tell() -> None:
    """By figure."""
    forecast = a_forecast(*fair(0, 2), *fair(120, 1, gust_mms=4000))

    assert [0, 60] == [hour.start_min for hour in forecast.silent("gust_mms")]
    assert () == forecast.silent("rain_um")


@given(st.sets(st.integers(0, 60), min_size=1))
def test_hours_and_gaps_make_up_the_reach(numbers: set[int]) -> None:
    """Any set of hours: covered and missing minutes together are all from first to last."""
    forecast = a_forecast(*in_order(Hour(60 * number, 180) for number in numbers))
    spans = (*forecast.covered(), *forecast.gaps())

    reach = forecast.reach()
    assert reach.end_min - reach.start_min == sum(end - start for start, end in spans)
