"""Small hand-made road networks, and extracts written for the test that reads them."""

from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np

from runplanner.roads.network import Network, of_arcs, only, parts
from runplanner.roads.speeds import KINDS, Speeds
from runplanner.roads.vehicle import Vehicle

LIGHT = Vehicle(3_500_000, 2_200)
HEAVY = Vehicle(7_500_000, 2_400, 3_300)
SPEEDS = Speeds()
# A degree of latitude at the equator of WGS 84 is 110.574 km, of longitude 111.320 km.
Arc = tuple[int, int, int, int]
"""From, to, decimetres, hundredths of a second."""


def town(arcs: Sequence[Arc], spots: Sequence[tuple[float, float]] = ()) -> Network:
    """A network of arcs; nodes lie where ``spots`` says, else in a row along the equator."""
    size = 1 + max(max(arc[:2]) for arc in arcs) if not spots else len(spots)
    lat = np.array([spot[0] for spot in spots] or [0.0] * size)
    lon = np.array([spot[1] for spot in spots] or [0.01 * n for n in range(size)])
    tail, head, dm, cs = (np.array(column, dtype=np.int32) for column in zip(*arcs, strict=True))
    place = np.arange(size, dtype=np.int32)
    kind = np.full(len(arcs), KINDS.index("unclassified"), dtype=np.int32)
    return of_arcs((lat, lon, place), tail, head, dm, cs, kind)


def both(*ways: Arc) -> list[Arc]:
    """Each way there and back."""
    return [arc for a, b, dm, cs in ways for arc in ((a, b, dm, cs), (b, a, dm, cs))]


def arcs_of(network: Network) -> set[Arc]:
    """The arcs of a network as plain values."""
    columns = (network.tails(), network.head, network.dm, network.cs)
    return set(zip(*(column.tolist() for column in columns), strict=True))


Way = tuple[Sequence[int], dict[str, str]]
Sign = tuple[str, int, int, int]


def write_extract(
    path: Path,
    nodes: Mapping[int, tuple[float, float]],
    ways: Sequence[Way],
    signs: Sequence[tuple[dict[str, str], Sequence[tuple[str, int, str]]]] = (),
    points: Mapping[int, dict[str, str]] | None = None,
) -> Path:
    """Write an extract: nodes by id as (lat, lon), ways numbered from 1, relations."""
    import osmium

    with osmium.SimpleWriter(str(path), overwrite=True) as writer:
        for key, (lat, lon) in sorted(nodes.items()):
            tags = (points or {}).get(key, {})
            writer.add_node(osmium.osm.mutable.Node(id=key, location=(lon, lat), tags=tags))
        for number, (refs, tags) in enumerate(ways, start=1):
            writer.add_way(osmium.osm.mutable.Way(id=number, nodes=list(refs), tags=tags))
        for number, (tags, members) in enumerate(signs, start=1):
            parts = [(kind, ref, role) for kind, ref, role in members]
            writer.add_relation(osmium.osm.mutable.Relation(id=number, members=parts, tags=tags))
    return path


def largest_part(network: Network) -> Network:
    """Return the largest part in which every node can be reached from every other."""
    if network.size == 0:
        return network
    part = parts(network)
    return only(network, part == np.argmax(np.bincount(part)))
