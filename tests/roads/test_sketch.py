import json

import pytest
from hypothesis import given
from hypothesis import strategies as some

from runplanner.errors import ScenarioError
from runplanner.roads.sketch import SCHEMA, Sketch, packed, sketch_from_text, sketch_text, unpacked

DRAWN = Sketch(
    'Those "who" drew <it> \u05d0',
    ((0, 3, ((-38.05, 175.11), (-38.06, 175.12))), (3, 0, ())),
    ((0, ((-38.0, 175.0), (-38.1, 175.0))), (2, ((1.0, 179.99), (1.0, 180.01)))),
)


def test_there_and_back() -> None:
    """What is written is read again, and the same text comes of it."""
    text = sketch_text(DRAWN)

    assert DRAWN == sketch_from_text(text)
    assert text == sketch_text(sketch_from_text(text))


def test_lines_are_steps() -> None:
    """The first point whole, then the steps, in hundred-thousandths of a degree."""
    assert [-3_805_000, 17_511_000, -1000, 1000] == packed(((-38.05, 175.11), (-38.06, 175.12)))
    assert [] == packed(())


@given(some.lists(some.tuples(some.floats(-90, 90), some.floats(-180, 180)), max_size=8))
def test_points_stay_within_a_metre(line: list[tuple[float, float]]) -> None:
    """Packing moves a point by at most half a hundred-thousandth of a degree, and once only."""
    back = unpacked(packed(tuple(line)))

    assert back == unpacked(packed(back))
    for (lat, lon), (lat2, lon2) in zip(line, back, strict=True):
        assert abs(lat - lat2) <= 0.000_006
        assert abs(lon - lon2) <= 0.000_006


def test_a_drive_is_found_by_its_ends() -> None:
    """There is a line from 0 to 3, and none from 1 to 2."""
    assert 2 == len(DRAWN.drive(0, 3))
    assert () == DRAWN.drive(1, 2)


def _spoilt(**changes: object) -> str:
    return json.dumps({**json.loads(sketch_text(DRAWN)), **changes})


@pytest.mark.parametrize(
    "text",
    [
        "", "{", "[" * 100_000, "[]", "null", "{}",
        _spoilt(schema="runplanner-roads/2"),
        _spoilt(credit=None),
        _spoilt(drives=None),
        _spoilt(drives={}),
        _spoilt(drives=[[0, 1]]),
        _spoilt(drives=[[0, "1", []]]),
        _spoilt(drives=[[0, True, []]]),
        _spoilt(drives=[[0, -1, []]]),
        _spoilt(drives=[[0, 10**9, []]]),
        _spoilt(drives=[[0, 1, "line"]]),
        _spoilt(drives=[[0, 1, [1]]]),
        _spoilt(drives=[[0, 1, [1.5, 2]]]),
        _spoilt(drives=[[0, 1, [10**12, 2]]]),
        _spoilt(drives=[[0, 1, [9_100_000, 0]]]),
        _spoilt(drives=[[0, 1, [0, 36_000_000, 0, 36_000_000]]]),
        _spoilt(ground=[[3, []]]),
        _spoilt(ground=[["0", []]]),
        _spoilt(ground=[[0, [0, 0] * 200_001], [0, [0, 0] * 200_001]]),
    ],
)  # fmt: skip
def test_strange_files_are_refused(text: str) -> None:
    """A file of another kind is refused in words, whatever is in it."""
    with pytest.raises(ScenarioError, match=r"roads\.json"):
        sketch_from_text(text)
    assert SCHEMA == "runplanner-roads/1"
