"""Tests of writing files whole."""

import os
import stat
import sys
from collections.abc import Callable
from contextlib import nullcontext
from pathlib import Path

import pytest

from runplanner.whole_file import moved, write_whole


def test_a_file_is_replaced_whole(tmp_path: Path) -> None:
    """The new text stands in place of the old, and nothing else is left."""
    path = tmp_path / "deep" / "page.html"
    write_whole(path, "old " * 1000)
    write_whole(path, "n\u0113w\n")

    assert "n\u0113w\n".encode() == path.read_bytes()
    assert [path] == list(path.parent.iterdir())


@pytest.mark.skipif(sys.platform == "win32", reason="modes are a Unix matter")
@pytest.mark.parametrize(("umask", "mode"), [(0o022, 0o644), (0o077, 0o600)])
def test_who_may_read_is_the_systems_to_say(tmp_path: Path, umask: int, mode: int) -> None:
    """A new file has the rights of any other new file; one that is replaced keeps its own."""
    path = tmp_path / "page.html"
    before = os.umask(umask)
    try:
        write_whole(path, "new")
        assert mode == stat.S_IMODE(path.stat().st_mode)
        path.chmod(0o640)
        write_whole(path, "newer")
    finally:
        os.umask(before)
    assert 0o640 == stat.S_IMODE(path.stat().st_mode)


@pytest.mark.skipif(sys.platform == "win32", reason="links want rights there")
def test_a_link_stays_a_link(tmp_path: Path) -> None:
    """A table kept elsewhere, or in a synchronised folder, is written where it is kept."""
    kept = write_whole(tmp_path / "kept" / "yards.csv", "old")
    link = tmp_path / "yards.csv"
    link.symlink_to(Path("kept", "yards.csv"))
    write_whole(link, "new")

    assert (True, "new") == (link.is_symlink(), kept.read_text(encoding="utf-8"))
    assert [kept] == list(kept.parent.iterdir())


def test_what_cannot_be_written_has_the_name_that_was_asked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nobody knows the passing one; a full disk names none at all."""

    def fail(src: str, dst: str) -> None:
        raise OSError(30, "Read-only file system", src, None, dst)

    monkeypatch.setattr(os, "replace", fail)
    with pytest.raises(OSError, match="Read-only") as caught:
        write_whole(tmp_path / "page.html", "new")
    assert str(caught.value).endswith(f": {str(tmp_path / 'page.html')!r}")

    def full(_src: str, _dst: str) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(OSError, match="No space") as caught:
        write_whole(tmp_path / "page.html", "new")
    assert str(tmp_path / "page.html") == caught.value.filename


@pytest.mark.parametrize("trouble", [OSError("disk full"), KeyboardInterrupt("disk full")])
def test_a_failed_write_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, trouble: BaseException
) -> None:
    """When the last step fails, or ctrl-C comes, the old file stands and nothing else is left."""
    path = write_whole(tmp_path / "page.html", "old")

    def fail(_src: object, _dst: object) -> None:
        raise trouble

    monkeypatch.setattr(os, "replace", fail)
    with pytest.raises(type(trouble), match="disk full"):
        write_whole(path, "new")

    assert "old" == path.read_text(encoding="utf-8")
    assert [path] == list(tmp_path.iterdir())


@pytest.mark.parametrize(("held", "comes"), [(2, True), (10_000, False)])
def test_a_name_that_is_held_is_asked_for_again_for_a_moment(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, held: int, comes: bool,  # noqa: FBT001
) -> None:  # fmt: skip
    """As Windows holds what another program has open; in the end it is refused, nothing lost."""
    old, new = tmp_path / "old", tmp_path / "new"
    old.write_text("old", encoding="utf-8")
    asked = iter(range(10_000))

    def replaced(one: Path, other: Path, real: Callable[[Path, Path], None] = os.replace) -> None:
        if next(asked) < held:
            raise PermissionError(13, "Permission denied", str(one))
        real(one, other)

    monkeypatch.setattr(os, "replace", replaced)
    with nullcontext() if comes else pytest.raises(PermissionError):
        moved(old, new, held_s=30.0 if comes else 0.2)
    assert comes == new.exists()
    assert comes != old.exists()
