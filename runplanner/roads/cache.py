"""Networks kept on disk, each under a mark made from all that it was made from.

A file that changes, another truck, another speed: another mark.  Whatever is wrong with the
cache itself (no room, no right, a damaged file) only means that the roads are read anew.
"""

import os
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from time import time
from typing import Final
from zipfile import BadZipFile

import numpy as np

from runplanner.roads.network import Network, lines_of
from runplanner.whole_file import DAY_S, SPARE, whole

HOME_VARIABLE: Final = "RUNPLANNER_CACHE"
MOST_KEPT: Final = 12
_MAKE: Final = "network 14"
"""Changes with the meaning of the arrays or of the tags, so that old files are not used."""
_CHUNK: Final = 1 << 20
_FLOATS: Final = ("lat", "lon")


def cache_home() -> Path:
    """Return the folder for networks: the system's own place for what can be made again."""
    said = os.environ.get(HOME_VARIABLE)
    if said:
        return Path(said)
    return _system_home() / "runplanner"


def _system_home() -> Path:
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local")
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches"
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")


def mark_of(path: Path, settings: Sequence[str]) -> str:
    """Return the mark of a file's bytes and of ``settings``.

    Raises:
        OSError: When the file cannot be read.
    """
    mark = sha256()
    for part in (_MAKE, *settings):
        mark.update(f"{len(part)}:{part}".encode("utf-8", "surrogatepass"))
    with path.open("rb") as file:
        while chunk := file.read(_CHUNK):
            mark.update(chunk)
    return mark.hexdigest()


def kept(mark: str, make: Callable[[], Network]) -> Network:
    """Return the network under ``mark``, or make it and keep it."""
    try:
        path = cache_home() / f"roads-{mark}.npz"
        found = _read(path)
    except (OSError, RuntimeError):  # no home folder either
        return make()
    if found is None:
        found = make()
        with suppress(OSError):
            # numpy before 2.2 takes any option of savez for one more array.
            with whole(path) as new:
                np.savez(new, **found.arrays())  # type: ignore[arg-type]  # none is called so
            _clear(path.parent)
    return found


def _read(path: Path) -> Network | None:
    if not path.is_file():
        return None
    try:
        with path.open("rb") as raw, np.load(raw, allow_pickle=False) as file:
            network = Network(**{name: file[name] for name in file.files})
    except (OSError, ValueError, TypeError, KeyError, EOFError, BadZipFile, NotImplementedError):
        return None
    if not _sound(network):
        return None
    with suppress(OSError):
        path.touch()
    return network


def _sound(network: Network) -> bool:
    """Tell whether the arrays fit together, so that a damaged file does no harm later."""
    arrays = network.arrays()
    kinds = all(
        array.ndim == 1 and array.dtype == (np.float64 if name in _FLOATS else np.int32)
        for name, array in arrays.items()
    )
    if not kinds or len(network.start) != network.size + 1:
        return False
    arcs, size = len(network.head), network.size
    return (
        all(len(array) == size for array in (network.lon, network.place))
        and all(len(array) == arcs for array in (network.dm, network.cs, network.kind))
        and network.start[0] == 0 and network.start[-1] == arcs
        and bool((np.diff(network.start) >= 0).all())
        and all(_within(array, size) for array in (network.head, network.place))
        and _within(network.unread, sys.maxunicode + 1)
        and _within(network.causes, sys.maxunicode + 1)
        and _bars(network)
        and bool((network.dm > 0).all() and (network.cs > 0).all() and (network.kind >= 0).all())
        and bool(np.isfinite(network.lat).all() and np.isfinite(network.lon).all())
    )  # fmt: skip


def _bars(network: Network) -> bool:
    """Tell whether what is barred has its nodes and its cause."""
    if len(network.barred) % 3:
        return False
    rows = network.barred.reshape(-1, 3)
    known = len(lines_of(network.causes)) if len(rows) else 0
    return _within(rows[:, :2], network.size) and _within(rows[:, 2], known)


def _within(array: "np.ndarray[tuple[int], np.dtype[np.int32]]", size: int) -> bool:
    return bool(((array >= 0) & (array < size)).all())


def _clear(folder: Path) -> None:
    """Delete the networks not used for longest, and what was left half written a day ago."""
    files = sorted(folder.glob("roads-*.npz"), key=lambda path: path.stat().st_mtime, reverse=True)
    half = [path for path in folder.glob(f"{SPARE}*") if time() - path.stat().st_mtime > DAY_S]
    for old in (*files[MOST_KEPT:], *half):
        with suppress(OSError):
            old.unlink()
