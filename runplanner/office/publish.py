"""Results appear under their final name whole, or not at all.

Looked at first, written beside, swapped while no other run does, tidied up after.
"""

import os
import shutil
import tempfile
import time
from collections.abc import Callable, Collection, Iterator, Mapping
from contextlib import contextmanager, suppress
from fnmatch import fnmatchcase
from pathlib import Path
from secrets import token_hex
from typing import Final

from runplanner.daybook.plan import SCHEMA
from runplanner.errors import RunplannerError, system_said
from runplanner.paperwork.calendars.file import CALENDAR_FILES
from runplanner.paperwork.data.tables import TABLE_NAMES
from runplanner.paperwork.index_page import CHANGES_FILE
from runplanner.phrase import phrase
from runplanner.roads.sketch import ROADS_FILE
from runplanner.whole_file import DAY_S, moved

PLAN_FILE = "plan.json"
_DATE: Final = "[0-9]" * 4 + "-[0-9][0-9]" * 2
_TRIP: Final = "[0-9]" * 4 + "-?*-" + "[0-9]" * 4
"""As ``season.finish`` names trips: day, truck and hour."""
PAPERS: Final[Mapping[str, tuple[str, ...]]] = {
    "": (
        PLAN_FILE, ROADS_FILE, CHANGES_FILE, "plan.geojson", "manifests.xlsx", "index.html",
        "map.html", "shopping.html", "mixing.html", "take_off.html", "medicine.html",
        "run_out.html", "strips_out.html",
    ),
    "manifests": (f"{_TRIP}.html", f"{_TRIP}.pdf"), "tracks": (f"{_TRIP}.gpx",),
    "days": (f"{_DATE}.html",), "phone": (f"{_DATE}.txt",), "intake": (f"{_DATE}.html",),
    "wet": (f"{_DATE}.html",), "tables": tuple(f"{name}.csv" for name in TABLE_NAMES),
    "calendar": tuple(file.rpartition("/")[2] for file in CALENDAR_FILES),
}  # fmt: skip
"""What a plan's papers are called, by folder: all else among them is somebody else's."""
_HEAD_BYTES: Final = 200
"""In so many first bytes of a plan file stands its schema."""
LOCK: Final = ".runplanner-lock"
_WORK: Final = ".runplanner-work-"
PATIENCE_S = 30.0
"""Seconds that a run waits while another puts its results in place, which takes a moment
(guessed: ten times a slow disk's)."""
_GLANCE_S: Final = 0.05


class PublishError(RunplannerError):
    """Results could not be put where they were asked for."""


def publish(
    out: Path, name: str, fill: Callable[[Path], object], *, papers: Collection[str] = ()
) -> Path:
    """Let ``fill`` write into a side folder, then put that in place as ``out/name``.

    A folder of earlier results is replaced as a whole, but for what no plan wrote there: that
    is carried over.  Any other folder is left alone.  ``papers`` are names of further papers of
    this run, which earlier ones of the same names give way to.

    Raises:
        PublishError: When something that is not earlier results stands in the way, or neither
            new nor earlier results could be put in place.
    """
    target = out / name
    check_place(out, name)
    out.mkdir(parents=True, exist_ok=True)
    _sweep(out)
    # With the rights that the system gives to a new folder: mkdtemp keeps others out.
    work = out / f"{_WORK}{token_hex(8)}"
    new, old = work / "new", work / "old"
    work.mkdir()
    try:
        new.mkdir()
        with _named_as_in(target, new):
            fill(new)
        with _alone(out):
            _refuse_foreign(target)
            _carry_over(target, new, papers)
            _swap(new, target, old)
    finally:
        if not old.exists():
            shutil.rmtree(work, ignore_errors=True)
    return target


@contextmanager
def _named_as_in(target: Path, side: Path) -> Iterator[None]:
    """Name what the system refuses in ``side`` by its place in ``target``."""
    try:
        yield
    except OSError as error:
        file = Path(str(error.filename))
        if error.errno and file.is_relative_to(side):
            to = str(target / file.relative_to(side))
            raise OSError(error.errno, error.strerror, to) from error
        raise


def check_place(out: Path, name: str) -> None:
    """Refuse a place where results could not be put; nothing is left there.

    Raises:
        PublishError: When something stands in the way, or nothing can be written there.
    """
    with _as_asked(out):
        _refuse_foreign(out / name)
    check_folder(out)


def check_folder(out: Path) -> None:
    """Refuse a folder into which nothing could be written; nothing is left there.

    Raises:
        PublishError: When nothing could.
    """
    with _as_asked(out):
        home = next(one for one in (out, *out.parents) if one.exists())
        Path(tempfile.mkdtemp(prefix=_WORK, dir=home)).rmdir()


@contextmanager
def _as_asked(out: Path) -> Iterator[None]:
    """Say what the system refuses of ``out``, as it was asked for."""
    try:
        yield
    except OSError as error:
        raise PublishError(
            phrase(
                "Results cannot be put into {path}: {why}. Choose another --out.",
                path=str(out),
                why=system_said(error),
            )
        ) from None


def _refuse_foreign(target: Path) -> None:
    if target.is_symlink() or (target.exists() and not target.is_dir()):
        raise PublishError(
            phrase("{path} is not a folder. Move it, or choose another --out.", path=str(target))
        )
    if target.is_dir() and any(target.iterdir()) and not _is_results(target):
        raise PublishError(
            phrase(
                "{path} holds something other than a plan's results, so it was left alone. "
                "Move it, or choose another --out.",
                path=str(target),
            )
        )


def _is_results(folder: Path) -> bool:
    plan = folder / PLAN_FILE
    if not plan.is_file() or any(folder.glob("*.toml")):
        return False
    with plan.open("rb") as file:
        return f'"{SCHEMA.partition("/")[0]}/'.encode() in file.read(_HEAD_BYTES)


def _carry_over(target: Path, new: Path, papers: Collection[str]) -> None:
    """Copy into ``new`` what people keep among the papers of ``target``; links stay links.

    What ``papers`` are called is made anew instead.

    Raises:
        PublishError: When a paper has come to be called like something of theirs.
    """
    for theirs in _not_ours(target) if target.is_dir() else ():
        name = theirs.relative_to(target)
        if name.as_posix() in papers:
            continue
        to = new / name
        if os.path.lexists(to):
            raise PublishError(
                phrase(
                    "{path} stands where a paper is to go. Move it, or choose another --out.",
                    path=str(theirs),
                )
            )
        to.parent.mkdir(exist_ok=True)
        if theirs.is_dir() and not theirs.is_symlink():
            shutil.copytree(theirs, to, symlinks=True)
        else:
            shutil.copy2(theirs, to, follow_symlinks=False)


def _not_ours(target: Path, folder: str = "") -> Iterator[Path]:
    """Yield what in a folder of ``target`` goes by the name of no paper."""
    for one in sorted((target / folder).iterdir()):
        is_folder = one.is_dir() and not one.is_symlink()
        if is_folder and not folder and one.name in PAPERS:
            yield from _not_ours(target, one.name)
        elif is_folder or not any(fnmatchcase(one.name, name) for name in PAPERS[folder]):
            yield one


@contextmanager
def _alone(out: Path) -> Iterator[None]:
    """Let no other run put results into ``out`` meanwhile; one that died holds up nobody."""
    lock, until = out / LOCK, time.monotonic() + PATIENCE_S
    while True:
        try:
            lock.mkdir()
            break
        except FileExistsError:
            if time.monotonic() > until:
                break
            time.sleep(_GLANCE_S)
    try:
        yield
    finally:
        with suppress(OSError):
            lock.rmdir()


def _swap(new: Path, target: Path, old: Path) -> None:
    """Put ``new`` in the place of ``target``, which goes only once that is done.

    Raises:
        PublishError: When it could not be done because another program holds something there, or
            what stood there could not be put back.
    """
    try:
        if target.exists():
            shutil.copymode(target, new)
            moved(target, old)
        moved(new, target)
    except BaseException as error:  # Ctrl-C as well must not cost the old results
        if old.exists():
            _put_back(old, target)
        if isinstance(error, PermissionError):
            raise PublishError(
                phrase(
                    "{path} could not be replaced: {why}. Close what shows something in it, such "
                    "as a table or a PDF, and try again; what stood there still stands.",
                    path=str(target),
                    why=system_said(error),
                )
            ) from None
        raise
    shutil.rmtree(old, ignore_errors=True)


def _put_back(old: Path, target: Path) -> None:
    try:
        moved(old, target)
    except OSError:
        raise PublishError(
            phrase(
                "Something else came to stand at {path}. What stood there before is kept in "
                "{kept}: move it back.",
                path=str(target),
                kept=str(old),
            )
        ) from None


def _sweep(out: Path) -> None:
    """Delete what runs that were killed left in ``out``; earlier results among it stay."""
    for work in out.glob(f"{_WORK}*"):
        with suppress(OSError):
            stale = time.time() - work.stat().st_mtime > DAY_S
            if stale and not (work / "old").exists():
                shutil.rmtree(work)
