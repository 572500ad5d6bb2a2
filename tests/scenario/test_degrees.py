"""Tests of latitudes and longitudes in every writing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.scenario.faults import Refusal
from runplanner.scenario.values.degrees import LATITUDE, LONGITUDE, angle, two_angles, written

# 38 degrees 1 minute 12 seconds: 38 + 1/60 + 12/3600 = 38.02; 38 degrees 1.2 minutes is as much.
SOUTH = -38.02


@pytest.mark.parametrize(
    "said",
    [
        "-38.02", "38.02 S", "38.02s", "S38.02", "S 38.02\u00b0", "\u221238.02", "38.02\u00b0S",
        "38\u00b001'12\"S", "38\u00b0 1\u2032 12\u2033 S", "38\u00ba01\u201912\u201dS",
        "38\u00b001'12''S", "38 01 12 S", "38 01 12.0 S", "S 38 01.2", "38:01:12 S",
        "38\u00b001.2' S", "-38 01 12", "-38\u00b0 1.2'", "38 deg 1 min 12 sec S",
        "38 degrees 1.2 min S", "  38.02\u00a0S  ", "38\u00b0 01' 12\" S",
    ],
)  # fmt: skip
def test_one_latitude_in_many_writings(said: str) -> None:
    """All of these are 38.02 degrees south."""
    assert SOUTH == pytest.approx(angle(said, LATITUDE).degrees, abs=1e-12)


@pytest.mark.parametrize(
    ("said", "degrees", "letter"),
    [
        ("175.06 E", 175.06, "E"), ("W175.06", -175.06, "W"), ("+175.06", 175.06, ""),
        ("180", 180.0, ""), ("-180", -180.0, ""), ("0", 0.0, ""), ("7", 7.0, ""),
        ("175 03 36 e", 175.06, "E"),
    ],
)  # fmt: skip
def test_longitudes(said: str, degrees: float, letter: str) -> None:
    """West is minus; the letter is told."""
    made = angle(said, LONGITUDE)

    assert pytest.approx(degrees, abs=1e-12) == made.degrees
    assert letter == made.letter


@pytest.mark.parametrize(
    ("said", "cure"),
    [
        ("38,01", "Write decimals with a dot: 38.01."),
        ("-38,0125", "Write decimals with a dot: -38.0125."),
        ("38.01 175.06", "lat and lon go in columns of their own"),
        ("-38.01, 175.06", "lat and lon go in columns of their own"),
        ("38.5 30 S", "Only the last of its numbers may have decimals"),
        ("38 01.5 12 S", "Only the last of its numbers may have decimals"),
        ("38 60 S", "Minutes and seconds stay below 60."),
        ("38 01 60 S", "Minutes and seconds stay below 60."),
        ("-38 S", "a minus or a letter, not both"),
        ("+38 N", "a minus or a letter, not both"),
        ("175.06", "Look for lat and lon swapped."),
        ("3801.2 S", "Degrees and minutes seem run together"),
        ("1757000.5", "metres of a map grid"),
        ("5787000", "metres of a map grid"),
        ("38d01", "N, S, E or W"),
        ("", "N, S, E or W"),
        ("S", "N, S, E or W"),
        ("NaN", "N, S, E or W"),
        ("inf", "N, S, E or W"),
        ("1e1", "N, S, E or W"),
        ("0x26", "N, S, E or W"),
        ("\uff13\uff18", "N, S, E or W"),
        ("38 1 2 3", "N, S, E or W"),
        ("9" * 5_000, "N, S, E or W"),
        ("near the mill", "N, S, E or W"),
    ],
)
def test_refused_with_a_cure(said: str, cure: str) -> None:
    """What is none, or could mean two things, is refused in words that help."""
    with pytest.raises(Refusal) as refused:
        angle(said, LATITUDE)

    assert cure in refused.value.cure
    assert "-38.0125" in refused.value.allowed


def test_a_letter_of_the_other_axis_is_the_callers_to_judge() -> None:
    """175 E where a latitude should be: the angle, and its letter."""
    assert (175.06, "E") == (
        angle("175.06 E", LATITUDE).degrees,
        angle("175.06 E", LATITUDE).letter,
    )
    with pytest.raises(Refusal, match=r"lat and lon swapped"):
        angle("175.06 S", LONGITUDE)


@pytest.mark.parametrize(
    ("said", "halves"),
    [
        ("38\u00b001'S 175\u00b003'E", ("38\u00b001'S", "175\u00b003'E")),
        ("38\u00b001'12\"S, 175\u00b003'36\"E", ("38\u00b001'12\"S", "175\u00b003'36\"E")),
        ("S38.01 E175.06", ("S38.01", "E175.06")),
        ("175.06 E / 38.01 S", ("175.06 E", "38.01 S")),
        ("-38.01, 175.06", ("-38.01", "175.06")),
        ("-38.01;175.06", ("-38.01", "175.06")),
        ("-38.01 175.06", ("-38.01", "175.06")),
        ("-38,01 175,06", ("-38,01", "175,06")),
        ("38,01; 175,06", ("38,01", "175,06")),
        ("38,01,175,06", None),
        ("38,01 175,06 12", None),
        ("-38.01", None),
        ("-38.01, 175.06, 12", None),
        ("the mill", None),
        ("1 " * 500, None),
    ],
)
def test_two_in_one_cell(said: str, halves: tuple[str, str] | None) -> None:
    """A position in one cell is parted where that can be done in one way only."""
    assert halves == two_angles(said)


@given(
    st.integers(0, 89), st.integers(0, 59), st.integers(0, 59), st.sampled_from("NS"),
    st.sampled_from(["{0}\u00b0{1}'{2}\"{3}", "{0} {1} {2} {3}", "{3}{0}:{1}:{2}"]),
)  # fmt: skip
def test_any_angle_comes_back(d: int, m: int, s: int, letter: str, shape: str) -> None:
    """Degrees, minutes and seconds are their sum, whatever the writing."""
    made = angle(shape.format(d, m, s, letter), LATITUDE)
    wanted = (d * 3600 + m * 60 + s) / 3600

    assert pytest.approx(wanted if letter == "N" else -wanted, abs=1e-12) == made.degrees


@given(st.text(max_size=80))
def test_any_text_is_an_angle_or_refused(said: str) -> None:
    """Nothing else comes out, and an angle is one on the globe."""
    two_angles(said)
    try:
        made = angle(said, LATITUDE)
    except Refusal:
        return
    assert abs(made.degrees) <= (180 if made.letter in {"E", "W"} else 90)


@pytest.mark.parametrize(
    ("degrees", "text"),
    [
        (-38.02, "-38.02"),
        (175.0, "175"),
        (0.0, "0"),
        (-1e-9, "0"),
        (1 / 3, "0.333333"),
        (100.0, "100"),
    ],
)
def test_degrees_are_written_short(degrees: float, text: str) -> None:
    """Six decimals at most, no minus for nothing."""
    assert text == written(degrees)
