"""Results come whole or not at all, and never over somebody's own files."""

import os
import stat
import sys
from collections.abc import Callable
from pathlib import Path
from threading import Thread

import pytest

from runplanner.office.campaign import Outcome, publish_plan
from runplanner.office.publish import LOCK, PublishError, publish
from runplanner.roads.sketch import Sketch
from runplanner.whole_file import write_whole
from tests.running import running_plan

OURS = '{\n "schema": "runplanner-plan/1",\n "plan": '


def fill(text: str) -> Callable[[Path], None]:
    def write(folder: Path) -> None:
        (folder / "plan.json").write_text(OURS + text, encoding="utf-8")

    return write


def said_in(folder: Path) -> str:
    """Return what a folder's plan says, but for its schema."""
    return (folder / "plan.json").read_text(encoding="utf-8").removeprefix(OURS)


def test_results_appear_under_their_name(tmp_path: Path) -> None:
    """What the filler wrote stands in out/name, and nothing else is left in out."""
    folder = publish(tmp_path / "out", "small", fill("one"))

    assert tmp_path / "out" / "small" == folder
    assert "one" == said_in(folder)
    assert [folder] == list((tmp_path / "out").iterdir())


def test_new_results_replace_old_ones_whole(tmp_path: Path) -> None:
    """A paper of an earlier plan does not survive beside the papers of a newer one."""
    publish(tmp_path, "small", fill("one"))
    write_whole(tmp_path / "small" / "manifests" / "0304-truck-0716.html", "old")
    write_whole(tmp_path / "small" / "changes.html", "old")

    publish(tmp_path, "small", fill("two"))

    assert ["plan.json"] == [path.name for path in (tmp_path / "small").iterdir()]
    assert "two" == said_in(tmp_path / "small")
    assert ["small"] == [path.name for path in tmp_path.iterdir()]


def test_what_people_keep_among_the_papers_stays(tmp_path: Path) -> None:
    """Files, folders and links that no plan wrote are carried over, links as links."""
    small = publish(tmp_path, "small", fill("one"))
    theirs = (
        "filled in.pdf", "days/notes.txt", "scans/plan.json", "manifests/scan of Saturday.pdf",
        "manifests/0401-scan.pdf", "tables/own_costs.csv", "calendar/family.ics",
        "tracks/mine.gpx", "days/last-we-ek.html", "phone/2027-03-01 sent.txt",
    )  # fmt: skip
    for name in (*theirs, "days/2027-03-01.html"):
        write_whole(small / name, name)
    (small / "empty").mkdir()
    if sys.platform != "win32":
        (small / "up").symlink_to("..", target_is_directory=True)
        (small / "gone").symlink_to("nowhere")

    publish(tmp_path, "small", fill("two"))

    assert "two" == said_in(small)
    for name in theirs:
        assert name == (small / name).read_text(encoding="utf-8")
    assert (small / "empty").is_dir()
    assert not (small / "days" / "2027-03-01.html").exists()
    if sys.platform != "win32":
        assert Path("..") == (small / "up").readlink()
        assert (small / "gone").is_symlink()


def test_what_stands_where_a_paper_is_to_go_is_named(tmp_path: Path) -> None:
    """A folder of theirs called like a paper: nothing is lost, and they are told of it."""
    small = publish(tmp_path, "small", fill("one"))
    write_whole(small / "map.html" / "mine.txt", "mine")

    def with_map(folder: Path) -> None:
        fill("two")(folder)
        write_whole(folder / "map.html", "map")

    with pytest.raises(PublishError, match=r"map\.html stands where a paper is to go"):
        publish(tmp_path, "small", with_map)
    assert ("one", "mine") == (said_in(small), (small / "map.html" / "mine.txt").read_text())


def test_every_paper_is_known_as_ours(tmp_path: Path) -> None:
    """All that a plan wrote goes when the next one is put in its place."""
    roads = Sketch("", (), ())
    outcome = Outcome(running_plan(), ())
    papers = publish_plan(outcome, tmp_path, pdf=True, roads=roads, extra={"changes.html": "x"})
    assert (papers / "roads.json").exists()

    publish(tmp_path, papers.name, fill("two"))

    assert ["plan.json"] == [path.name for path in papers.iterdir()]


def test_further_papers_are_made_anew(tmp_path: Path) -> None:
    """Those of an earlier run give way; without them named, they are somebody's own."""
    outcome = Outcome(running_plan(), ())
    for text in ("one", "two"):
        folder = publish_plan(outcome, tmp_path, extra={"notes.html": text})

    assert "two" == (folder / "notes.html").read_text("utf-8")
    assert "two" == (publish_plan(outcome, tmp_path) / "notes.html").read_text("utf-8")


def test_a_failed_writer_leaves_the_old_results(tmp_path: Path) -> None:
    """When papers cannot be written, the last good ones stay as they were."""
    publish(tmp_path, "small", fill("one"))

    def fail(folder: Path) -> None:
        (folder / "half.html").write_text("half", encoding="utf-8")
        raise OSError(28, "No space left on device")

    with pytest.raises(OSError, match="No space left"):
        publish(tmp_path, "small", fail)
    assert "one" == said_in(tmp_path / "small")
    assert ["small"] == [path.name for path in tmp_path.iterdir()]


@pytest.mark.parametrize(
    ("files", "text"),
    [(["notes.txt"], OURS), (["plan.json", "outfit.toml"], OURS), (["plan.json"], '{"my": 1}')],
)
def test_a_folder_of_other_things_is_left_alone(
    tmp_path: Path, files: list[str], text: str
) -> None:
    """A folder without a plan of ours, or with a scenario in it, is not results: it stays."""
    theirs = tmp_path / "small"
    theirs.mkdir()
    for name in files:
        (theirs / name).write_text(text, encoding="utf-8")

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
@pytest.mark.parametrize(
    ("umask", "modes"),
    [(0o022, ("drwxr-xr-x", "-rw-r--r--")), (0o077, ("drwx------", "-rw-------"))],
)
def test_who_may_read_results_is_the_systems_to_say(
    tmp_path: Path, umask: int, modes: tuple[str, str]
) -> None:
    """Farmers' phones and keys are open to no more people than other files of this user."""
    before = os.umask(umask)
    try:
        folder = publish(tmp_path, "small", lambda side: write_whole(side / "plan.json", OURS))
    finally:
        os.umask(before)

    found = folder, folder / "plan.json"
    assert modes == tuple(stat.filemode(path.stat().st_mode) for path in found)


@pytest.mark.skipif(sys.platform == "win32", reason="modes are a Unix matter")
def test_new_results_are_open_to_whom_the_old_were(tmp_path: Path) -> None:
    """A folder that was shut to others stays shut; one shared by a group stays the group's."""
    publish(tmp_path, "small", fill("one")).chmod(0o700)
    assert 0o700 == stat.S_IMODE(publish(tmp_path, "small", fill("two")).stat().st_mode)

    shared = tmp_path / "shared"
    shared.mkdir()
    shared.chmod(0o2775)
    assert publish(shared, "small", fill("one")).stat().st_mode & stat.S_ISGID


def test_a_paper_that_cannot_be_written_is_named_by_its_own_place(tmp_path: Path) -> None:
    """Not by the side folder, of which nobody knows."""

    def fill_badly(side: Path) -> None:
        (side / "days").write_text("in the way", "utf-8")
        (side / "days" / "one.html").read_text("utf-8")

    with pytest.raises(NotADirectoryError) as caught:
        publish(tmp_path, "small", fill_badly)

    assert str(tmp_path / "small" / "days" / "one.html") == caught.value.filename


@pytest.mark.parametrize(
    ("trouble", "told"),
    [
        (OSError(13, "Permission denied"), PublishError),
        (OSError(5, "Input/output error"), OSError),
        (KeyboardInterrupt(), KeyboardInterrupt),
    ],
)
def test_a_swap_that_fails_puts_the_old_results_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, trouble: BaseException,
    told: type[BaseException],
) -> None:  # fmt: skip
    """If the new folder cannot take the name, or Ctrl-C comes, the old one gets it back."""
    publish(tmp_path, "small", fill("one"))
    true_replace = Path.replace

    def replace(self: Path, target: Path) -> Path:
        if (self / "plan.json").exists() and said_in(self) == "two":
            raise trouble
        return true_replace(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    with pytest.raises(told):
        publish(tmp_path, "small", fill("two"))
    assert "one" == said_in(tmp_path / "small")
    assert ["small"] == [path.name for path in tmp_path.iterdir()]


def test_what_another_run_put_there_meanwhile_costs_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Neither can the new results take the name, nor the old get it back: they lie where told."""
    notes = write_whole(publish(tmp_path, "small", fill("one")) / "notes.txt", "mine")
    true_replace = Path.replace

    def replace(self: Path, target: Path) -> Path:
        if target == notes.parent and not target.exists():
            write_whole(target / "plan.json", "theirs")
        return true_replace(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    with pytest.raises(PublishError, match="What stood there before is kept in") as told:
        publish(tmp_path, "small", fill("two"))
    (kept,) = tmp_path.glob(".*/old")
    assert ("one", "mine") == (said_in(kept), (kept / "notes.txt").read_text(encoding="utf-8"))
    assert f"{kept}: move it back" in str(told.value)

    monkeypatch.undo()
    age(kept.parent)
    publish(tmp_path, "other", fill("one"))
    assert "one" == said_in(kept)


def age(path: Path) -> None:
    """Make a file or folder two days old."""
    os.utime(path, (path.stat().st_mtime - 172_800,) * 2)


def test_two_runs_carry_over_what_people_keep(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A run that ends while another has the old results in hand waits for it."""
    notes = write_whole(publish(tmp_path, "small", fill("one")) / "notes.txt", "mine")
    second = Thread(target=publish, args=(tmp_path, "small", fill("three")))
    true_replace = Path.replace

    def replace(self: Path, target: Path) -> Path:
        moved = true_replace(self, target)
        if not second.ident:
            second.start()
            second.join(0.3)
        return moved

    monkeypatch.setattr(Path, "replace", replace)
    publish(tmp_path, "small", fill("two"))
    second.join()

    assert ("three", "mine") == (said_in(notes.parent), notes.read_text(encoding="utf-8"))
    assert ["small"] == [path.name for path in tmp_path.iterdir()]


def test_a_run_that_died_holds_up_nobody(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its lock is waited for a while, and goes; so does, after a day, what it was writing."""
    monkeypatch.setattr("runplanner.office.publish.PATIENCE_S", 0.1)
    (tmp_path / LOCK).mkdir()
    for name in (".runplanner-work-dead", ".runplanner-work-busy"):
        write_whole(tmp_path / name / "new" / "half.html", "half")
    age(tmp_path / ".runplanner-work-dead")
    (tmp_path / ".small-notes").mkdir()
    age(tmp_path / ".small-notes")

    publish(tmp_path, "small", fill("one"))

    found = sorted(path.name for path in tmp_path.iterdir())
    assert [".runplanner-work-busy", ".small-notes", "small"] == found
