import os
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from runplanner.roads import cache
from runplanner.roads.cache import cache_home, kept, mark_of
from runplanner.roads.network import Network, letters
from tests.roads.towns import arcs_of, both, town


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache of the test's own."""
    monkeypatch.setenv("RUNPLANNER_CACHE", str(tmp_path / "kept"))
    return tmp_path / "kept"


class Maker:
    """Makes a town and counts how often it had to."""

    def __init__(self) -> None:
        self.times = 0

    def __call__(self) -> Network:
        """Make it."""
        self.times += 1
        return town(both((0, 1, 10, 20), (1, 2, 30, 40)))


def test_made_once(home: Path) -> None:
    """The second time the network comes from disk, and is the same."""
    make = Maker()
    first, second = kept("a", make), kept("a", make)

    assert 1 == make.times
    assert arcs_of(first) == arcs_of(second)
    assert first.lon.tolist() == second.lon.tolist()
    assert [home / "roads-a.npz"] == list(home.iterdir())


def test_another_mark_is_made_anew(home: Path) -> None:
    """Nothing is served under another mark."""
    make = Maker()
    kept("a", make)
    kept("b", make)

    assert (2, 2) == (make.times, len(list(home.iterdir())))


def _cut(path: Path) -> None:
    path.write_bytes(path.read_bytes()[:200])


def _rewritten(**changes: Callable[[np.ndarray], np.ndarray]) -> Callable[[Path], None]:
    def spoil(path: Path) -> None:
        with np.load(path) as file:
            arrays = {name: file[name] for name in file.files}
        for name, change in changes.items():
            arrays[name] = change(arrays[name])
        np.savez(path, **arrays)

    return spoil


def _without_heads(path: Path) -> None:
    with np.load(path) as file:
        np.savez(path, **{name: file[name] for name in file.files if name != "head"})


SPOILT = [
    _cut,
    lambda path: path.write_bytes(b""),
    lambda path: path.write_bytes(b"PK\x03\x04 no archive"),
    _without_heads,
    _rewritten(head=lambda a: a + 7),
    _rewritten(head=lambda a: a - 7),
    _rewritten(place=lambda a: a + 7),
    _rewritten(start=lambda a: a[:-1]),
    _rewritten(start=lambda a: a + 1),
    _rewritten(start=lambda a: a[::-1]),
    _rewritten(start=lambda a: np.array([0, 4, 1, 4], dtype=np.int32)),
    _rewritten(dm=lambda a: a * 0),
    _rewritten(cs=lambda a: -a),
    _rewritten(kind=lambda a: a - 99),
    _rewritten(unread=lambda _: np.array([0x110000], dtype=np.int32)),
    _rewritten(causes=lambda _: np.array([0x110000], dtype=np.int32)),
    _rewritten(barred=lambda _: np.array([0, 1], dtype=np.int32)),
    _rewritten(barred=lambda _: np.array([0, 1, 0], dtype=np.int32)),
    _rewritten(barred=lambda _: np.array([0, 3, 0], dtype=np.int32), causes=lambda _: letters("a")),
    _rewritten(cs=lambda a: a[:-1]),
    _rewritten(lon=lambda a: a[:-1]),
    _rewritten(lat=lambda a: a * np.nan),
    _rewritten(lat=lambda a: a.astype(np.float32)),
    _rewritten(dm=lambda a: a.reshape(-1, 1)),
    _rewritten(dm=lambda a: np.array([None] * len(a), dtype=object)),
]


@pytest.mark.parametrize("spoil", SPOILT, ids=[str(number) for number in range(len(SPOILT))])
def test_a_damaged_file_is_made_anew(home: Path, spoil: Callable[[Path], object]) -> None:
    """Cut short, of another kind, or with numbers that do not fit: read as not there."""
    make = Maker()
    expected = arcs_of(kept("a", make))
    spoil(home / "roads-a.npz")

    assert expected == arcs_of(kept("a", make))
    assert 2 == make.times


def test_no_room_is_no_fault(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where nothing can be kept the network is made each time."""
    (tmp_path / "file").write_text("in the way")
    monkeypatch.setenv("RUNPLANNER_CACHE", str(tmp_path / "file" / "below"))
    make = Maker()
    kept("a", make)
    kept("a", make)

    assert 2 == make.times


def test_a_disk_that_fills_leaves_nothing_behind(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When writing breaks off the half file goes, and the network is used all the same."""

    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(np, "savez", full)

    assert arcs_of(Maker()()) == arcs_of(kept("a", Maker()))
    assert [] == list(home.iterdir())


def test_without_a_home_nothing_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """An account without a home folder plans as well."""
    monkeypatch.delenv("RUNPLANNER_CACHE", raising=False)

    def homeless() -> Path:
        raise RuntimeError("no home")

    monkeypatch.setattr(cache, "_system_home", homeless)

    assert 3 == kept("a", Maker()).size


def test_only_the_newest_are_kept(home: Path) -> None:
    """The cache does not grow for ever: the networks used last stay."""
    for number in range(cache.MOST_KEPT):
        kept(f"{number:02d}", Maker())
        os.utime(home / f"roads-{number:02d}.npz", (1000 + number, 1000 + number))
    (home / "other.txt").write_text("not ours")
    for name in (".new-dead", ".new-busy"):  # of a run that was killed, and of one under way
        (home / name).touch()
    os.utime(home / ".new-dead", (1000, 1000))
    kept("00", Maker())  # used again, so that 01 is now the oldest
    kept("99", Maker())
    names = {path.name for path in home.iterdir()}

    assert not {"roads-01.npz", ".new-dead"} & names
    assert {".new-busy", "roads-00.npz", "roads-99.npz", "other.txt"} <= names


def test_the_mark_depends_on_bytes_and_settings(tmp_path: Path) -> None:
    """One byte or one setting more is another mark; parts do not run into each other."""
    path = tmp_path / "roads.osm.pbf"
    path.write_bytes(b"x" * 3_000_000)
    first = mark_of(path, ("ab", "c"))

    assert first == mark_of(path, ("ab", "c"))
    assert first != mark_of(path, ("a", "bc"))
    path.write_bytes(b"x" * 2_999_999 + b"y")
    assert first != mark_of(path, ("ab", "c"))
    with pytest.raises(OSError, match="No such file"):
        mark_of(tmp_path / "none", ())


@pytest.mark.parametrize(
    ("system", "variables", "expected"),
    [
        ("linux", {"XDG_CACHE_HOME": "/x"}, "/x/runplanner"),
        ("linux", {"HOME": "/home/ann", "USERPROFILE": "/home/ann"}, "/home/ann/.cache/runplanner"),
        (
            "darwin",
            {"HOME": "/Users/ann", "USERPROFILE": "/Users/ann"},
            "/Users/ann/Library/Caches/runplanner",
        ),
        ("win32", {"LOCALAPPDATA": "/local"}, "/local/runplanner"),
        ("win32", {"HOME": "/u", "USERPROFILE": "/u"}, "/u/AppData/Local/runplanner"),
        ("linux", {"RUNPLANNER_CACHE": "/mine"}, "/mine"),
    ],
)
def test_each_system_has_its_place(
    monkeypatch: pytest.MonkeyPatch, system: str, variables: dict[str, str], expected: str
) -> None:
    """What can be made again goes where the system keeps such things."""
    for name in ("XDG_CACHE_HOME", "LOCALAPPDATA", "RUNPLANNER_CACHE"):
        monkeypatch.delenv(name, raising=False)
    for name, value in variables.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr(sys, "platform", system)

    assert Path(expected) == cache_home()
