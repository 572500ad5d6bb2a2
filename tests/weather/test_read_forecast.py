"""Bytes of any kind: a forecast, or faults in words."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from runplanner.errors import ScenarioError
from runplanner.weather.read_forecast import MOST_BYTES, read_forecast
from tests.weather.forecasts import (
    AUCKLAND,
    PLAIN,
    a_step,
    columns,
    faults,
    only,
    rain,
    raw,
    read,
    steps,
)

STEPS = steps(*(a_step(hour, next_1_hours=rain(0.1)) for hour in range(6)))


@pytest.mark.parametrize("body", [STEPS, columns(6), PLAIN, b"\xef\xbb\xbf" + PLAIN.encode()])
def test_the_shape_is_known_by_the_content(body: object) -> None:
    """Whatever the file is called; a byte order mark does not matter."""
    assert read(body, AUCKLAND).hours


@pytest.mark.parametrize(
    ("body", "said"),
    [
        (b"", "an empty file"),
        (b" \n", "an empty file"),
        (b"\xff\xfe", "byte 0xff"),
        (b"time\x00", "zero bytes"),
        ("{", "Expecting property name"),
        ("[]", "a list"),
        ("[{}]", "a list"),
        ("{}", "another JSON"),
        ('{"type": "Feature"}', "another JSON"),
        ("[" * 200_000, "recursion"),
        ('{"hourly": NaN}', "NaN is no number"),
        ('{"hourly": -Infinity}', "-Infinity is no number"),
        ('{"x": 1e99999999999999999999}', "is no number"),
        ('{"x": ' + "9" * 5000 + "}", "a number of 5000 digits"),
        ('{"x": 0.' + "1" * 5000 + "}", "a number of 5002 digits"),
        ('{"error": true}', "an error"),
    ],
)
def test_what_is_no_forecast(body: object, said: str) -> None:
    """One fault, with what stood there."""
    assert said in only(faults(body)).said


def test_a_file_of_ten_megabytes_is_refused_in_words() -> None:
    """Nobody waits for it to be read."""
    found = only(faults(b"x" * 10_000_000))

    assert "10000000 bytes" == found.said
    assert f"at most {MOST_BYTES} bytes" == found.allowed


def test_hostile_words_stay_words() -> None:
    """What stood there is told on one line, cut short."""
    found = only(faults({"error": True, "reason": "<img onerror=x>\n\u202e" + "x" * 10_000}))

    assert found.said.startswith("<img onerror=x>\\x0a\\x202e")
    assert "(10017 characters)" in found.said


JSON_BITS = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=5),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3)
    ),
    max_leaves=6,
)


def spoilt(body: object, path: list[int], bit: object) -> object:
    """A copy of ``body`` with one spot, found by ``path``, replaced by ``bit``."""
    if not path or not isinstance(body, dict | list) or not body:
        return bit
    keys = list(body) if isinstance(body, dict) else list(range(len(body)))
    key = keys[path[0] % len(keys)]
    copy = body.copy()
    copy[key] = spoilt(body[key], path[1:], bit)
    return copy


def read_or_refused(body: bytes) -> bool:
    """Whether bytes give forecasts with hours, or faults in words."""
    try:
        found = read_forecast(body, "sky", AUCKLAND)
    except ScenarioError as error:
        return all(fault.sentence() for fault in error.faults)
    return all(forecast.hours for forecast in found.values())


@settings(max_examples=300, deadline=None)
@given(
    st.sampled_from([STEPS, columns(6)]),
    st.lists(st.integers(0, 20), min_size=1, max_size=7),
    JSON_BITS,
)
def test_any_spot_may_be_spoilt(body: object, path: list[int], bit: object) -> None:
    """Anything at any spot gives a forecast or faults in words, never another error."""
    assert read_or_refused(json.dumps(spoilt(body, path, bit)).encode())


@settings(max_examples=200, deadline=None)
@given(st.integers(0, len(PLAIN) - 1), st.text(max_size=4))
def test_any_letter_of_a_table_may_be_spoilt(spot: int, bit: str) -> None:
    """The same for a table."""
    text = PLAIN[:spot] + bit + PLAIN[spot + 1 :]
    assert read_or_refused(text.encode("utf-8", "surrogatepass"))


def test_a_real_size_is_read_at_once() -> None:
    """Sixteen days of hours in each shape."""
    many = 16 * 24
    body = steps(*(a_step(hour, next_1_hours=rain(0.1)) for hour in range(many)))

    assert many == len(read(body).hours)
    assert many - 1 == len(read(columns(many)).hours)
    assert len(raw(body)) < MOST_BYTES
