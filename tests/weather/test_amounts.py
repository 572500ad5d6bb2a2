"""Figures of a forecast in whole units."""

from decimal import Decimal
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.weather.amounts import CHANCE, RAIN, TEMPERATURE, WIND, Amount, a_point


@pytest.mark.parametrize(
    ("kind", "number", "unit", "whole"),
    [
        (TEMPERATURE, "18.25", "celsius", 183),  # nearest tenth, half up
        (TEMPERATURE, "-3.14", "°C", -31),
        (TEMPERATURE, "50", "°F", 100),  # (50 - 32) x 5/9 = 10
        (TEMPERATURE, "-40", "f", -400),  # the two scales meet
        (RAIN, "2.1", "mm", 2100),
        (RAIN, "0.0001", "mm", 1),  # rain rounds up
        (RAIN, "0.1", "inch", 2540),  # 25.4 mm an inch
        (WIND, "10.8", "km/h", 3000),  # 3.6 km/h = 1 m/s
        (WIND, "10", "kn", 5145),  # 1,852 m an hour: 5.1444.. m/s, up
        (WIND, "10", "mp/h", 4471),  # 0.44704 m/s, up
        (CHANCE, "40", "%", 400),
    ],
)
def test_units(kind: Amount, number: str, unit: str, whole: int) -> None:
    """Each unit that a forecast may use."""
    assert whole == kind.whole(Decimal(number), unit)


@pytest.mark.parametrize(
    ("kind", "number"),
    [
        (TEMPERATURE, "61"), (TEMPERATURE, "-61"), (RAIN, "-0.1"), (RAIN, "1001"),
        (WIND, "-1"), (WIND, "121"), (CHANCE, "101"), (CHANCE, "-1"),
        (RAIN, "1e400"), (RAIN, "1e999999999"),
    ],
)  # fmt: skip
def test_what_no_weather_has(kind: Amount, number: str) -> None:
    """Figures beyond all weather are none, however long they are."""
    assert kind.whole(Decimal(number), next(iter(kind.scales))) is None


def test_next_to_nothing_is_nothing() -> None:
    """A figure of a thousand million places is no work."""
    assert 0 == RAIN.whole(Decimal("1e-999999999"), "mm")
    assert 0 == TEMPERATURE.whole(0, "C")


def test_limits_are_told_in_their_unit() -> None:
    """The words name least, most and unit."""
    assert "a temperature from -60 to 60 degC" == TEMPERATURE.allowed()
    assert "a wind from 0 to 120 m/s" == WIND.allowed()


@given(st.integers(0, 120_000))
def test_wind_in_any_unit_is_never_less(mms: int) -> None:
    """Rounding up: km/h written with three places comes back no lower, at most 1 mm/s higher."""
    kmh = Decimal(ceil(mms * 3600 / 1000)) / 1000

    found = WIND.whole(kmh, "km/h")

    assert found is None or mms - 1 <= found <= mms + 2


@pytest.mark.parametrize(
    ("lat", "lon", "point"),
    [
        (Decimal("-38.05"), 175, (-38.05, 175.0)),
        (91, 0, None),
        (0, 181, None),
        ("38", 175, None),
        (None, 1, None),
        (Decimal("1e999"), 0, None),
    ],
)
def test_points(lat: object, lon: object, point: tuple[float, float] | None) -> None:
    """Two figures on the globe are a point; nothing else is."""
    assert point == a_point(lat, lon)
