"""What of an extract is read, and which places that cuts off."""

from pathlib import Path

import pytest

from runplanner.roads.frame import around
from runplanner.roads.open import Roads, open_roads
from runplanner.roads.speeds import changed
from tests.roads.towns import LIGHT, write_extract


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache of the test's own."""
    monkeypatch.setenv("RUNPLANNER_CACHE", str(tmp_path / "kept"))
    return tmp_path / "kept"


def test_the_frame_leaves_room_for_detours() -> None:
    """A quarter of the extent on all sides, at least a quarter degree, in whole tenths."""
    # 2 degrees wide: half a degree of room.  -38.05 - 0.5 = -38.55, so -38.6.
    assert (-38.6, 174.5, -37.5, 177.5) == pytest.approx(around([(-38.05, 175.0), (-38.0, 177.0)]))
    assert (-38.3, 174.7, -37.7, 175.3) == pytest.approx(around([(-38.0, 175.0)]))


def test_the_frame_holds_across_the_date_line() -> None:
    """Places on both sides of 180 degrees make a small frame."""
    south, west, north, east = around([(0.0, 179.9), (0.0, -179.9)])

    assert (-0.3, 0.3) == pytest.approx((south, north))
    assert east - west < 1


def two_shores(
    path: Path, head: float | None, deep: int = 60, lon: float = 0.0405, across: int = 0
) -> Roads:
    """Roads north along both shores of a gulf, and one round its head at that latitude.

    Each point lies a tenth of a degree further, up to ``deep``; home and a yard lie at the mouth,
    which a track leads ``across`` at so many metres an hour.
    """
    lats = [0.1 * step for step in range(deep)]
    nodes = {n: (lat, 0.0) for n, lat in enumerate(lats, 1)}
    nodes |= {len(lats) + n: (lat, 0.04) for n, lat in enumerate(lats, 1)}
    lines = [(n, n + 1) for n in nodes if n + 1 in nodes and n != len(lats)]
    if head is not None:
        lines.append((1 + round(head * 10), 1 + round(head * 10) + len(lats)))
    roads = [(line, {"highway": "primary"}) for line in lines]
    if across:
        roads.append(((1, 1 + len(lats)), {"highway": "track"}))
    speeds = changed({"track": across}, {}, {})
    file = write_extract(path / "a.osm.pbf", nodes, roads)
    return open_roads(file, LIGHT, speeds, [(0.0, 0.0), (0.0, lon)])


@pytest.mark.parametrize(("head", "frames"), [(0.1, 1), (0.3, 1), (0.5, 2), (0.9, 3), (2.0, 4)])
def test_a_road_round_the_head_of_a_gulf_is_found(
    tmp_path: Path, home: Path, head: float, frames: int
) -> None:
    """The usual frame ends at 0.3 degrees, then at 0.5, 1.0 and 2.0; roads into it are whole."""
    roads = two_shores(tmp_path, head)

    assert () == roads.cut
    assert round(2 * head / 0.1) + 2 <= roads.network.size
    assert {0.0, 0.04} == set(roads.network.lon.round(6).tolist())
    assert frames == len(list(home.iterdir()))


def test_a_road_that_never_comes_round_is_told(tmp_path: Path, home: Path) -> None:
    """Both shores lead out of every frame: the narrowest is used, and the place is named."""
    roads = two_shores(tmp_path, head=5.0)

    assert (1,) == roads.cut
    # Home's shore alone, from 0 to the first point beyond 0.3 degrees.
    assert (5, {0.0}) == (roads.network.size, set(roads.network.lon.tolist()))
    assert 4 == len(list(home.iterdir()))


@pytest.mark.parametrize(
    ("deep", "lon"),
    [
        (3, 0.0405),  # both roads end within the frame
        (60, 0.1),  # further than a place may lie from a road
        (60, 0.019),  # nearer to home's road
    ],
)
def test_where_no_wider_frame_would_help_none_is_read(
    tmp_path: Path, home: Path, deep: int, lon: float
) -> None:
    """An island, and places whose own road that is not."""
    roads = two_shores(tmp_path, None, deep, lon)

    assert () == roads.cut
    assert 1 == len(list(home.iterdir()))


@pytest.mark.parametrize(
    ("km_h", "head", "minutes", "frames"),
    [
        # The track across the mouth is 4,453 m long; any way outside the first frame takes at
        # least 2 x 0.3 degrees, 66.6 km, at 90 km/h: 44.4 min.
        (4, 0.5, 66.8, 1),
        # Twice that are 88.8 min, of the next frame 148: 115.0 km by the head, at 70 km/h.
        (2, 0.5, 98.6, 2),
        (1, None, 267.2, 3),
    ],
)
def test_a_faster_road_that_swings_wide_is_found(
    tmp_path: Path, home: Path, km_h: int, head: float | None, minutes: float, frames: int
) -> None:
    """A drive of more than twice what any way outside takes has a wider frame read."""
    roads = two_shores(tmp_path, head, across=km_h * 1000)

    assert minutes == pytest.approx(roads.home_cs / 6000, abs=0.1)
    assert frames == len(list(home.iterdir()))
    # Where nothing is gained the narrowest is used, five points of each shore.
    assert (roads.network.size == 10) == (minutes != 98.6)
