"""Results appear under their final name whole, or not at all."""

import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path

from runplanner.errors import RunplannerError
from runplanner.phrase import phrase

PLAN_FILE = "plan.json"


class PublishError(RunplannerError):
    """Results could not be put where they were asked for."""


def publish(out: Path, name: str, fill: Callable[[Path], object]) -> Path:
    """Let ``fill`` write into a side folder, then put that in place as ``out/name``.

    A folder of earlier results is replaced as a whole; any other folder is left alone.

    Raises:
        PublishError: When something that is not earlier results stands in the way.
    """
    target = out / name
    _refuse_foreign(target)
    out.mkdir(parents=True, exist_ok=True)
    side = Path(tempfile.mkdtemp(prefix=f".{name[:40]}-", dir=out))
    try:
        fill(side)
        side.chmod(0o755)
        _swap(side, target)
    finally:
        shutil.rmtree(side, ignore_errors=True)
    return target


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
    return (folder / PLAN_FILE).is_file() and not any(folder.glob("*.toml"))


def _swap(side: Path, target: Path) -> None:
    if not target.exists():
        side.replace(target)
        return
    old = Path(tempfile.mkdtemp(prefix=f".{target.name[:40]}-old-", dir=target.parent))
    try:
        target.replace(old / "old")
        try:
            side.replace(target)
        except BaseException:  # Ctrl-C as well must not cost the old results
            (old / "old").replace(target)
            raise
    finally:
        shutil.rmtree(old, ignore_errors=True)
