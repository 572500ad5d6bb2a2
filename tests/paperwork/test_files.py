"""Tests of writing files whole."""

import os
from pathlib import Path

import pytest

from runplanner.paperwork.files import write_whole


def test_a_file_is_replaced_whole(tmp_path: Path) -> None:
    """The new text stands in place of the old, readable by all, and nothing else is left."""
    path = tmp_path / "deep" / "page.html"
    write_whole(path, "old " * 1000)
    write_whole(path, "n\u0113w\n")

    assert "n\u0113w\n".encode() == path.read_bytes()
    assert [path] == list(path.parent.iterdir())
    assert 0o644 == path.stat().st_mode & 0o777


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
