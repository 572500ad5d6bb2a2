"""A real routing engine out of a registry wheel, served on the loopback and asked by us.

The wheel is made for Python 3.12 and later, but its programs need no Python: they are taken
out of it and run as they are, on the machine the wheel is made for.
"""

import os
import platform
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from zipfile import ZipFile

import httpx
import pytest

from runplanner.roads.matrix import NO_ROAD
from runplanner.roads.osm import read_osm
from runplanner.roads.service import ask
from tests.roads.packages import ENGINE, helsinki, wheel
from tests.roads.test_real import places_on
from tests.roads.towns import LIGHT, SPEEDS

pytestmark = pytest.mark.slow
FITS = sys.platform == "linux" and platform.machine() == "x86_64"


@pytest.fixture(scope="module")
def engine(pytestconfig: pytest.Config, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of the engine, with Helsinki's middle read in."""
    if not FITS:
        pytest.skip("the wheel's programs are for Linux on x86-64: the real engine was NOT tried")
    kept = pytestconfig.cache.mkdir("road-wheels")
    folder = tmp_path_factory.mktemp("engine")
    with ZipFile(wheel(ENGINE, kept)) as archive:
        archive.extractall(folder)
    extract = helsinki(kept)
    town = folder / "town.osm.pbf"
    town.write_bytes(extract.read_bytes())
    profile = folder / "osrm" / "share" / "profiles" / "car.lua"
    _run(folder, "extract", "-p", str(profile), str(town))
    _run(folder, "partition", str(folder / "town.osrm"))
    _run(folder, "customize", str(folder / "town.osrm"))
    with _served(folder) as address:
        yield address


def _program(folder: Path, name: str) -> Path:
    path = folder / "osrm" / "bin" / f"osrm-{name}"
    path.chmod(0o755)
    return path


def _run(folder: Path, name: str, *words: str) -> None:
    told = subprocess.run(
        [_program(folder, name), *words], capture_output=True, text=True, check=False, timeout=300
    )
    if told.returncode:
        pytest.skip(f"the engine does not run here ({told.stderr[:80]}): it was NOT tried")


@contextmanager
def _served(folder: Path) -> Iterator[str]:
    with socket.socket() as spare:
        spare.bind(("127.0.0.1", 0))
        port = spare.getsockname()[1]
    words = ["--algorithm", "mld", "--ip", "127.0.0.1", "--port", str(port), "--threads", "1"]
    process = subprocess.Popen(
        [_program(folder, "routed"), *words, str(folder / "town.osrm")],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env={**os.environ, "TZ": "UTC"},
    )  # fmt: skip
    try:
        _wait_for(port)
        yield f"http://127.0.0.1:{port}"
    finally:
        process.terminate()
        process.wait(timeout=30)


def _wait_for(port: int) -> None:
    for _ in range(200):
        with socket.socket() as line:
            if line.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.05)
    raise AssertionError("the engine did not begin to listen")


def routed(address: str, here: tuple[float, float], there: tuple[float, float]) -> tuple[int, int]:
    """One drive as the engine's other request, for a single route, tells it."""
    spots = f"{here[1]:.6f},{here[0]:.6f};{there[1]:.6f},{there[0]:.6f}"
    body = httpx.get(f"{address}/route/v1/driving/{spots}?overview=false", trust_env=False).json()
    if body["code"] != "Ok":
        return NO_ROAD, NO_ROAD
    return round(body["routes"][0]["duration"] * 100), round(body["routes"][0]["distance"] * 10)


def test_the_real_engine_answers(engine: str, pytestconfig: pytest.Config) -> None:
    """120 places in nine pieces: each drive tried is the engine's own single route."""
    network = read_osm(helsinki(pytestconfig.cache.mkdir("road-wheels")), LIGHT, SPEEDS)
    points = places_on(network, 120)
    answer = ask(engine, points, LIGHT)

    cs, dm = answer.matrix.cs, answer.matrix.dm
    assert ((120, 120), True) == (cs.shape, bool((cs.diagonal() == 0).all()))
    assert (cs > 0).sum() > 10_000
    for number in range(0, 120, 7):
        pair = number, (number * 37 + 11) % 120
        time_cs, length_dm = routed(engine, points[pair[0]], points[pair[1]])
        # Tables round a drive's seconds and metres to a tenth, routes sum up their own parts.
        assert time_cs == pytest.approx(int(cs[pair]), abs=100)
        assert length_dm == pytest.approx(int(dm[pair]), abs=20)
    # Places lie up to 0.001 degrees off the road: moved, but by no more than about 130 m.
    assert 0 < max(answer.off_m) < 200


def test_the_real_engine_without_a_road(engine: str) -> None:
    """A place on the far side of the world is moved to the town by the engine, and that is told."""
    answer = ask(engine, [(60.17, 24.94), (-38.0, 175.0)], LIGHT)

    assert answer.off_m[1] > 1_000_000
