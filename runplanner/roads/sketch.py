"""The roads of a plan as they are drawn: a line for each drive, and the roads round about.

Kept beside the plan in a file of its own, ``roads.json``; a plan reads and audits without
it.  Lines are whole hundred-thousandths of a degree (about a metre), each point after the
first as the step from the one before: short, and the same on every machine.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

from runplanner.errors import Fault, ScenarioError
from runplanner.phrase import phrase

SCHEMA: Final = "runplanner-roads/1"
ROADS_FILE: Final = "roads.json"
MOST_POINTS: Final = 400_000
_GRAIN: Final = 100_000
_RANKS: Final = 3

Line = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Sketch:
    """What there is to draw.

    Args:
        credit: Whose data the roads are, in words; shown wherever they are drawn.
        drives: ``(from place, to place, line)`` of each drive, places by index.
        ground: ``(rank, line)`` of roads round about; 0 main roads, 1 others, 2 tracks.
    """

    credit: str
    drives: tuple[tuple[int, int, Line], ...]
    ground: tuple[tuple[int, Line], ...]

    def drive(self, start: int, end: int) -> Line:
        """Return the line of a drive, () when there is none."""
        return next((line for a, b, line in self.drives if (a, b) == (start, end)), ())


def sketch_text(sketch: Sketch) -> str:
    """Return ``sketch`` as JSON text, the same text for the same sketch."""
    body = {
        "schema": SCHEMA,
        "credit": sketch.credit,
        "drives": [[a, b, packed(line)] for a, b, line in sketch.drives],
        "ground": [[rank, packed(line)] for rank, line in sketch.ground],
    }
    return json.dumps(body, ensure_ascii=False, separators=(",", ":"), allow_nan=False) + "\n"


def packed(line: Line) -> list[int]:
    """Return a line as whole steps: latitude and longitude by turns."""
    steps: list[int] = []
    lat, lon = 0, 0
    for spot in line:
        here = round(spot[0] * _GRAIN), round(spot[1] * _GRAIN)
        steps += (here[0] - lat, here[1] - lon)
        lat, lon = here
    return steps


def unpacked(steps: list[int]) -> Line:
    """Return the line of which ``steps`` is the packed form."""
    spots, lat, lon = [], 0, 0
    for north, east in zip(steps[::2], steps[1::2], strict=True):
        lat, lon = lat + north, lon + east
        spots.append((lat / _GRAIN, lon / _GRAIN))
    return tuple(spots)


def sketch_from_text(text: str) -> Sketch:
    """Return the sketch in ``text``.

    Raises:
        ScenarioError: When the text is no sketch of this schema.
    """
    try:
        body = json.loads(text)
    except (ValueError, RecursionError):
        raise _refused("", "no JSON") from None
    if not isinstance(body, dict) or body.get("schema") != SCHEMA:
        raise _refused("schema", "another schema")
    if not isinstance(body.get("credit"), str):
        raise _refused("credit", "no text")
    drives = tuple(_rows(body.get("drives"), (0, 0), 100_000, "drives"))
    ground = tuple(_rows(body.get("ground"), (0,), _RANKS - 1, "ground"))
    if sum(len(row[-1]) for row in (*drives, *ground)) > MOST_POINTS:
        raise _refused("", f"more than {MOST_POINTS} points")
    return Sketch(body["credit"], drives, ground)


def _rows(raw: object, least: tuple[int, ...], most: int, name: str) -> Iterator[Any]:
    """Yield rows of small whole numbers with a packed line at the end."""
    if not isinstance(raw, list):
        raise _refused(name, "no list")
    for number, row in enumerate(raw):
        if not (isinstance(row, list) and len(row) == len(least) + 1):
            raise _refused(f"{name}[{number}]", "a row of another kind")
        *heads, steps = row
        if not all(type(head) is int and 0 <= head <= most for head in heads):
            raise _refused(f"{name}[{number}]", "another number")
        yield (*heads, _checked(steps, f"{name}[{number}]"))


def _checked(steps: object, where: str) -> Line:
    fit = (
        isinstance(steps, list) and len(steps) % 2 == 0 and len(steps) <= 2 * MOST_POINTS
        and all(type(step) is int and abs(step) <= 720 * _GRAIN for step in steps)
    )  # fmt: skip
    line = unpacked(steps) if fit and isinstance(steps, list) else ()
    if not fit or any(abs(lat) > 90 or abs(lon) > 540 for lat, lon in line):
        raise _refused(where, "a line of another kind")
    return line


def _refused(where: str, said: str) -> ScenarioError:
    cure = phrase("Use the file as runplanner wrote it, or delete it: the plan holds without it.")
    return ScenarioError(
        (Fault(ROADS_FILE, where, "", said, phrase("roads as {schema}", schema=SCHEMA), cure),)
    )
