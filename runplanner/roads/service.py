"""Times and lengths from a matrix service that the user runs: the only door for httpx.

Two open requests are spoken: OSRM's ``/table/v1/PROFILE/`` and Valhalla's
``/sources_to_targets``; the address says which.  Nothing is asked unless an address was
typed, and then only that address: no redirects, no proxies.
"""

import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final
from urllib.parse import urlsplit

import numpy as np

from runplanner.phrase import Phrase, phrase, verbatim
from runplanner.roads.errors import RoadsError, missing
from runplanner.roads.matrix import MOST_CS, NO_ROAD, Matrix
from runplanner.roads.snap import Point
from runplanner.roads.vehicle import Vehicle

if TYPE_CHECKING:
    import httpx

CHUNK: Final = 50
"""Fifty from and fifty to: OSRM's servers refuse more than 100 places in a request, Valhalla's
more than 2,500 pairs, unless told otherwise."""
TRIES: Final = 3
LARGEST_BYTES: Final = 20_000_000
_CONNECT_S: Final = 5.0
_READ_S: Final = 60.0
_BY_POST: Final = "/sources_to_targets"
_TABLE: Final = "/table/v1/"
_ALLOWED: Final = phrase("the address of a matrix service, such as http://127.0.0.1:5000")
_BUSY: Final = frozenset((429, 500, 502, 503, 504))


@dataclass(frozen=True, eq=False, slots=True)
class Answer:
    """What a service said: the matrix, and how far it moved each place, 0 where unsaid."""

    matrix: Matrix
    off_m: tuple[int, ...]


def checked_address(text: str) -> str:
    """Return an address fit to be asked.

    Raises:
        RoadsError: When it is none.
    """
    try:
        parts = urlsplit(text)
        host, port = parts.hostname, parts.port
    except ValueError:
        host, port, parts = None, None, urlsplit("")
    plain = text.isascii() and text.isprintable() and " " not in text
    if parts.scheme not in {"http", "https"} or not host or not plain or port == 0:
        raise RoadsError(
            verbatim(text[:80]), _ALLOWED, phrase("Write http:// or https://, host and port.")
        )
    if parts.username or parts.password or parts.query or parts.fragment:
        raise RoadsError(
            phrase("more than an address"), _ALLOWED, phrase("Leave out names, ? and #.")
        )
    return text.rstrip("/")


def service_name(address: str) -> str:
    """Return the host and port of an address, for people."""
    return urlsplit(address).netloc


def told_truck(address: str) -> bool:
    """Tell whether the service at an address is told mass, width and height of the truck."""
    return address.endswith(_BY_POST)


def ask(
    address: str,
    points: Sequence[Point],
    vehicle: Vehicle,
    *,
    sleep: Callable[[float], None] = time.sleep,
) -> Answer:
    """Return times and lengths between all ``points`` from the service at ``address``.

    Raises:
        RoadsError: When it does not answer, or answers something else.
    """
    try:
        import httpx
    except ImportError:
        raise missing("httpx") from None
    size = len(points)
    cs = np.full((size, size), NO_ROAD, dtype=np.int64)
    dm = cs.copy()
    off = [0] * size
    waits = httpx.Timeout(_READ_S, connect=_CONNECT_S)
    with httpx.Client(timeout=waits, follow_redirects=False, trust_env=False) as client:
        talk = _Talk(client, address, vehicle, sleep)
        for rows in _chunks(size):
            for columns in _chunks(size):
                some = talk.chunk([points[i] for i in rows], [points[i] for i in columns])
                block = np.ix_(list(rows), list(columns))
                cs[block], dm[block] = some.matrix.cs, some.matrix.dm
                for row, metres in zip(rows, some.off_m, strict=True):
                    off[row] = metres
    np.fill_diagonal(cs, 0)
    np.fill_diagonal(dm, 0)
    return Answer(Matrix(cs, dm), tuple(off))


def _chunks(size: int) -> Iterator[range]:
    return (range(first, min(first + CHUNK, size)) for first in range(0, size, CHUNK))


class _Talk:
    """One conversation with one service."""

    def __init__(
        self, client: "httpx.Client", address: str, vehicle: Vehicle,
        sleep: Callable[[float], None],
    ) -> None:  # fmt: skip
        self.client = client
        self.address = address
        self.vehicle = vehicle
        self.sleep = sleep

    def chunk(self, here: list[Point], there: list[Point]) -> Answer:
        """Return the part of the matrix from ``here`` to ``there``."""
        if told_truck(self.address):
            body = self.get("POST", self.address, _many_to_many(here, there, self.vehicle))
            return _from_pairs(body, (len(here), len(there)))
        url = self.address if _TABLE in self.address else f"{self.address}{_TABLE}driving"
        body = self.get("GET", f"{url}/{_spots([*here, *there])}?{_halves(here, there)}", None)
        return _from_table(body, (len(here), len(there)))

    def get(self, verb: str, url: str, body: object) -> Mapping[str, Any]:
        """Return the answer as a JSON object; a service that is busy is asked again."""
        import httpx

        said = Phrase("")
        for number in range(TRIES):
            if number:
                self.sleep(0.5 * 2**number)
            try:
                status, raw = self._once(verb, url, body)
            except httpx.TimeoutException:
                said = phrase("no answer in time")
            except httpx.HTTPError as error:
                said = phrase("no answer ({name})", name=type(error).__name__)
            else:
                if status not in _BUSY:
                    return _object(status, raw)
                said = phrase("status {status}", status=status)
        cure = phrase("Is the service running? It was asked {tries} times.", tries=TRIES)
        raise RoadsError(said, _ALLOWED, cure)

    def _once(self, verb: str, url: str, body: object) -> tuple[int, bytes]:
        with self.client.stream(verb, url, json=body) as reply:
            parts, size = [], 0
            for part in reply.iter_bytes():
                parts.append(part)
                size += len(part)
                if size > LARGEST_BYTES:
                    raise _strange(phrase("an answer of more than 20 MB"))
            return reply.status_code, b"".join(parts)


def _object(status: int, raw: bytes) -> Mapping[str, Any]:
    import json

    try:
        body = json.loads(raw)
    except (ValueError, RecursionError):
        raise _strange(phrase("status {status} and no JSON", status=status)) from None
    if not isinstance(body, dict):
        raise _strange(phrase("JSON of another kind"))
    if status != 200:
        word = str(body.get("message") or body.get("error") or "")
        plain = "".join(char for char in word if char.isascii() and char.isprintable())[:80]
        raise _strange(phrase("status {status} {word}", status=status, word=plain))
    return body


def _strange(said: Phrase) -> RoadsError:
    cure = phrase("Check that this is a table or matrix service, and its map covers your yards.")
    return RoadsError(said, _ALLOWED, cure)


# ---- OSRM: one table of seconds and one of metres


def _spots(points: list[Point]) -> str:
    return ";".join(f"{lon:.6f},{lat:.6f}" for lat, lon in points)


def _halves(here: list[Point], there: list[Point]) -> str:
    sources = ";".join(str(number) for number in range(len(here)))
    ends = ";".join(str(len(here) + number) for number in range(len(there)))
    return f"sources={sources}&destinations={ends}&annotations=duration,distance"


def _from_table(body: Mapping[str, Any], shape: tuple[int, int]) -> Answer:
    if body.get("code") != "Ok":
        raise _strange(phrase("code {code}", code=repr(str(body.get("code"))[:30])))
    seconds, metres = (_grid(body.get(key), shape) for key in ("durations", "distances"))
    sources = body.get("sources")
    rows = sources if isinstance(sources, list) and len(sources) == shape[0] else []
    off = [_figure(row.get("distance"), 1) if isinstance(row, dict) else None for row in rows]
    moved = tuple(metres or 0 for metres in off) or (0,) * shape[0]
    return Answer(_both(seconds, metres), moved)


def _grid(raw: object, shape: tuple[int, int]) -> list[list[object]]:
    fit = isinstance(raw, list) and len(raw) == shape[0]
    if not fit or not all(isinstance(row, list) and len(row) == shape[1] for row in raw):  # type: ignore[attr-defined]
        raise _strange(phrase("a table of another size"))
    return raw  # type: ignore[return-value]


def _both(seconds: list[list[object]], far: list[list[object]], unit_m: int = 1) -> Matrix:
    """Return the matrix; a pair is a road only where both its time and its length are said."""
    cs = np.array([[_figure(cell, 100) for cell in row] for row in seconds], dtype=object)
    dm = np.array([[_figure(cell, 10 * unit_m) for cell in row] for row in far], dtype=object)
    road = np.array(
        [
            [a is not None and b is not None and a <= MOST_CS for a, b in zip(*pair, strict=True)]
            for pair in zip(cs, dm, strict=True)
        ],
        dtype=bool,
    )
    return Matrix(
        np.where(road, cs, NO_ROAD).astype(np.int64), np.where(road, dm, NO_ROAD).astype(np.int64)
    )


def _figure(cell: object, scale: int) -> int | None:
    """Return a number of the answer in whole units, None for null.

    Raises:
        RoadsError: When it is no number that a road could have.
    """
    if cell is None:
        return None
    number = isinstance(cell, int | float) and not isinstance(cell, bool)
    if not number or not 0 <= cell < 1e9:  # type: ignore[operator]
        raise _strange(phrase("{cell} for a number", cell=repr(str(cell)[:30])))
    return round(cell * scale)  # type: ignore[operator]


# ---- Valhalla: rows of pairs, seconds and kilometres


def _many_to_many(here: list[Point], there: list[Point], vehicle: Vehicle) -> object:
    measures = {"weight": vehicle.mass_g / 1e6, "width": vehicle.width_mm / 1000}
    if vehicle.height_mm is not None:
        measures["height"] = vehicle.height_mm / 1000
    return {
        "sources": [{"lat": lat, "lon": lon} for lat, lon in here],
        "targets": [{"lat": lat, "lon": lon} for lat, lon in there],
        "costing": "truck",
        "costing_options": {"truck": measures},
        "units": "kilometers",
    }


def _from_pairs(body: Mapping[str, Any], shape: tuple[int, int]) -> Answer:
    rows = _grid(body.get("sources_to_targets"), shape)
    cells = [[cell if isinstance(cell, dict) else {} for cell in row] for row in rows]
    seconds: list[list[object]] = [[cell.get("time") for cell in row] for row in cells]
    far: list[list[object]] = [[cell.get("distance") for cell in row] for row in cells]
    return Answer(_both(seconds, far, 1000), (0,) * shape[0])
