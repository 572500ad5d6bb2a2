"""Published routing instances made outfits: one written out, others from a pinned wheel.

The instances are those of P. Augerat et al., "Computational results with a branch and cut
code for the capacitated vehicle routing problem", 1995, set P, with their optima.  The
smallest is written out here.  The others stand in the demo data of the package
VRPSolverEasy 0.1.4 (MIT; https://pypi.org/project/VRPSolverEasy/0.1.4/), which is downloaded
by version and hash, only read, never installed and never kept in this tree.
"""

import hashlib
import itertools
import math
import re
import subprocess
import sys
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from runplanner.outfit.bases import Base, HoneyHouse, Travel
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.trucks import Deck
from runplanner.outfit.yards import Place
from runplanner.phrase import verbatim
from tests.outfits import a_truck, a_yard, an_outfit

P_N16_K8 = """NAME : P-n16-k8
COMMENT : (Augerat et al, No of trucks: 8, Optimal value: 450)
CAPACITY : 35
NODE_COORD_SECTION
1 30 40
2 37 52
3 49 49
4 52 64
5 31 62
6 52 33
7 42 41
8 52 41
9 57 58
10 62 42
11 42 57
12 27 68
13 43 67
14 58 48
15 58 27
16 37 69
DEMAND_SECTION
1 0
2 19
3 30
4 16
5 23
6 11
7 31
8 15
9 28
10 8
11 8
12 7
13 14
14 6
15 19
16 11
DEPOT_SECTION
"""
WHEEL = "VRPSolverEasy==0.1.4"
SHA256 = "ff1881f7ffd404760711842e29f2a7eab19939b47fd6ce02c6ed01158fb63a65"
FOLDER = "VRPSolverEasy/demos/data/CVRP/"
BOX_G = 20_000


@dataclass(frozen=True)
class Instance:
    """A capacitated instance: the first point is the depot."""

    name: str
    optimum: int
    capacity: int
    points: tuple[tuple[int, int], ...]
    demands: tuple[int, ...]

    def metres(self) -> list[list[int]]:
        """Rounded distances, a unit being a kilometre (TSPLIB's EUC_2D rounds to nearest)."""
        return [
            [1000 * math.floor(math.dist(a, b) + 0.5) for b in self.points] for a in self.points
        ]


def wheel(folder: Path) -> Path | None:
    """Download the pinned wheel; None where that cannot be done (no network)."""
    command = [
        sys.executable,
        "-m",
        "pip",
        "download",
        "--no-deps",
        "--quiet",
        "--dest",
        str(folder),
        WHEEL,
    ]
    done = subprocess.run(command, capture_output=True, check=False, timeout=120)
    found = next(iter(folder.glob("*.whl")), None)
    return found if done.returncode == 0 else None


def read(archive: Path, name: str) -> Instance:
    """Read one instance; the archive must be the very one that was looked at."""
    assert hashlib.sha256(archive.read_bytes()).hexdigest() == SHA256
    with zipfile.ZipFile(archive) as files:
        return parsed(files.read(f"{FOLDER}{name}.vrp").decode())


def parsed(text: str) -> Instance:
    """Read the text of an instance (TSPLIB's format for CVRP)."""
    head, rest = text.split("NODE_COORD_SECTION")
    coords, rest = rest.split("DEMAND_SECTION")
    points = [
        (int(x), int(y)) for _, x, y in (line.split() for line in coords.strip().splitlines())
    ]
    demands = [int(line.split()[1]) for line in rest.split("DEPOT_SECTION")[0].strip().splitlines()]
    return Instance(
        name=str(re.search(r"NAME\s*:\s*(\S+)", head)[1]),  # type: ignore[index]
        optimum=int(re.search(r"Optimal value:\s*(\d+)", head)[1]),  # type: ignore[index]
        capacity=int(re.search(r"CAPACITY\s*:\s*(\d+)", head)[1]),  # type: ignore[index]
        points=tuple(points),
        demands=tuple(demands),
    )


def exact(instance: Instance) -> int:
    """The optimum by dynamic programming over sets of customers, any number of routes."""
    metres, size = instance.metres(), len(instance.points) - 1
    routes = {}
    for count in range(1, size + 1):
        for group in itertools.combinations(range(1, size + 1), count):
            if sum(instance.demands[i] for i in group) <= instance.capacity:
                routes[sum(1 << i - 1 for i in group)] = _round(metres, group)
    best = {0: 0}
    for mask in range(1, 1 << size):
        low = mask & -mask
        parts = (part for part in _parts(mask ^ low) if part | low in routes)
        best[mask] = min(routes[part | low] + best[mask ^ low ^ part] for part in parts)
    return best[(1 << size) - 1] // 1000


def _parts(mask: int) -> Iterator[int]:
    """Every subset of a set of customers."""
    part = mask
    while True:
        yield part
        if not part:
            return
        part = (part - 1) & mask


def _round(metres: list[list[int]], group: tuple[int, ...]) -> int:
    return min(
        sum(metres[a][b] for a, b in itertools.pairwise((0, *order, 0)))
        for order in itertools.permutations(group)
    )


def as_outfit(instance: Instance) -> Outfit:
    """Make an outfit of an instance, so that its cost in cents is the distance.

    Every customer is a yard of one colony (the atom that is never split) with as many boxes
    as its demand; the truck carries ``capacity`` boxes of 20 kg.  A kilometre costs a cent,
    everything else nothing; all stores are full, so nothing is fed; strips weigh nothing.
    Legs take a minute, work none, and the day is long enough for every trip.
    """
    size = len(instance.points)
    yards = tuple(
        replace(
            a_yard(i, colonies=1, boxes=instance.demands[i], days=1), box_g=BOX_G, stores_g=8_000
        )
        for i in range(1, size)
    )
    outfit = an_outfit(instance.points[1:], yards, days=1)
    base = Base(0, 0, 1440)
    own_g = 2_100_000 + 60_000 + 70_000 + 85_000
    truck = replace(
        a_truck(),
        max_g=own_g + instance.capacity * BOX_G,
        deck=Deck(20_000, 2_500, 2_000, 8),
        seats=1,
        km_cents=1,
        day_cents=0,
    )
    pace = outfit.pace
    still = replace(
        pace,
        setup_min=0, inspect_s=0, box_s=tuple((way, 0) for way, _ in pace.box_s), strips_s=0,
        load_min=0, unload_min=0, unload_box_s=0,
    )  # fmt: skip
    hours = replace(
        outfit.hours,
        duty_max_min=1440,
        driving_max_min=1440,
        drive_break_after_min=1440,
        duty_break_after_min=1440,
    )
    minutes = tuple(tuple(int(i != j) for j in range(size)) for i in range(size))
    return replace(
        outfit,
        places=tuple(
            Place(f"place{i}", f"Place {i}", x / 100, y / 100)
            for i, (x, y) in enumerate(instance.points)
        ),
        travel=Travel(minutes, tuple(map(tuple, instance.metres())), verbatim(instance.name)),
        honey_house=HoneyHouse(base, (0, 1_000), 10_000, 0, 8 * 60, 18 * 60),
        trucks=(truck,),
        kit=replace(outfit.kit, strip_g=0),
        pace=still,
        hours=hours,
        prices=replace(outfit.prices, hour_cents=0, strip_cents=0),
    )
