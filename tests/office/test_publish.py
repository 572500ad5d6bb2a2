"""Results come whole or not at all, and never over somebody's own files."""

import stat
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from runplanner.office.publish import PublishError, publish
from runplanner.paperwork.files import write_whole


def fill(text: str) -> Callable[[Path], None]:
    def write(folder: Path) -> None:
        (folder / "plan.json").write_text(text, encoding="utf-8")

    return write


def test_results_appear_under_their_name(tmp_path: Path) -> None:
    """What the filler wrote stands in out/name, and nothing else is left in out."""
    folder = publish(tmp_path / "out", "small", fill("one"))

    assert tmp_path / "out" / "small" == folder
    assert "one" == (folder / "plan.json").read_text(encoding="utf-8")
    assert [folder] == list((tmp_path / "out").iterdir())


def test_new_results_replace_old_ones_whole(tmp_path: Path) -> None:
    """A paper of an earlier plan does not survive beside the papers of a newer one."""
    publish(tmp_path, "small", fill("one"))
    (tmp_path / "small" / "old-trip.html").write_text("old", encoding="utf-8")

    publish(tmp_path, "small", fill("two"))

    assert ["plan.json"] == [path.name for path in (tmp_path / "small").iterdir()]
    assert "two" == (tmp_path / "small" / "plan.json").read_text(encoding="utf-8")
    assert ["small"] == [path.name for path in tmp_path.iterdir()]


def test_a_failed_writer_leaves_the_old_results(tmp_path: Path) -> None:
    """When papers cannot be written, the last good ones stay as they were."""
    publish(tmp_path, "small", fill("one"))

    def fail(folder: Path) -> None:
        (folder / "half.html").write_text("half", encoding="utf-8")
        raise OSError(28, "No space left on device")

    with pytest.raises(OSError, match="No space left"):
        publish(tmp_path, "small", fail)
    assert "one" == (tmp_path / "small" / "plan.json").read_text(encoding="utf-8")
    assert ["small"] == [path.name for path in tmp_path.iterdir()]


@pytest.mark.parametrize("files", [["notes.txt"], ["plan.json", "outfit.toml"]])
def test_a_folder_of_other_things_is_left_alone(tmp_path: Path, files: list[str]) -> None:
    """A folder without a plan, or with a scenario in it, is not results: it stays."""
    theirs = tmp_path / "small"
    theirs.mkdir()
    for name in files:
        (theirs / name).write_text("mine", encoding="utf-8")

    with pytest.raises(PublishError, match="left alone"):
        publish(tmp_path, "small", fill("one"))
    assert sorted(files) == sorted(path.name for path in theirs.iterdir())


def test_an_empty_folder_is_filled(tmp_path: Path) -> None:
    """An empty folder in the way is nobody's loss."""
    (tmp_path / "small").mkdir()

    assert (publish(tmp_path, "small", fill("one")) / "plan.json").exists()


def test_a_file_in_the_way_is_named(tmp_path: Path) -> None:
    """A file where the folder should go is an error that names it and the cure."""
    (tmp_path / "small").write_text("mine", encoding="utf-8")

    with pytest.raises(PublishError, match=r"small is not a folder\. Move it"):
        publish(tmp_path, "small", fill("one"))


@pytest.mark.skipif(sys.platform == "win32", reason="modes are a Unix matter")
def test_others_may_read_what_is_written(tmp_path: Path) -> None:
    """Results can be served to others: folder 755, files 644."""
    folder = publish(tmp_path, "small", lambda side: write_whole(side / "plan.json", "one"))

    assert "drwxr-xr-x" == stat.filemode(folder.stat().st_mode)
    assert "-rw-r--r--" == stat.filemode((folder / "plan.json").stat().st_mode)


@pytest.mark.parametrize("trouble", [OSError(13, "Permission denied"), KeyboardInterrupt()])
def test_a_swap_that_fails_puts_the_old_results_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, trouble: BaseException
) -> None:
    """If the new folder cannot take the name, or Ctrl-C comes, the old one gets it back."""
    publish(tmp_path, "small", fill("one"))
    true_replace = Path.replace

    def replace(self: Path, target: Path) -> Path:
        if (self / "plan.json").exists() and (self / "plan.json").read_text() == "two":
            raise trouble
        return true_replace(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    with pytest.raises(type(trouble)):
        publish(tmp_path, "small", fill("two"))
    assert "one" == (tmp_path / "small" / "plan.json").read_text(encoding="utf-8")
    assert ["small"] == [path.name for path in tmp_path.iterdir()]
