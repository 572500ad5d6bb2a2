"""Files written whole: a reader sees the old file or the new one, never half of one."""

import os
import shutil
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from secrets import token_hex
from typing import BinaryIO, Final

SPARE: Final = ".new-"
"""What the name of a file begins with that is not written yet."""
DAY_S: Final = 86_400
"""Seconds after which nobody can still be writing: a day, guessed."""
HELD_S: Final = 3.0 if sys.platform == "win32" else 0.0
"""Seconds for which a name is asked for again while another program holds it (guessed): Windows
refuses to move what is open, if only to look for viruses."""
_GLANCE_S: Final = 0.1


def moved(old: Path, new: Path, held_s: float = HELD_S) -> None:
    """Move a file or folder, over a file that stands there.

    Raises:
        OSError: When it cannot be moved, also where it is held for so many seconds.
    """
    until = time.monotonic() + held_s
    while True:
        try:
            old.replace(new)  # the one call that is atomic everywhere
        except PermissionError:
            if time.monotonic() >= until:
                raise
            time.sleep(_GLANCE_S)
        else:
            return


def write_whole(path: Path, body: str | bytes) -> Path:
    """Write ``body`` to ``path`` by way of a temporary name; line ends stay as they are.

    Raises:
        OSError: When it cannot be written; what stood there before still stands.
    """
    with whole(path) as new:
        new.write(body.encode("utf-8") if isinstance(body, str) else body)
    return path


@contextmanager
def whole(path: Path) -> Iterator[BinaryIO]:
    """Open a file in the folder of ``path`` that takes its place once all is written.

    Who may read a new file is the system's to say (umask, rules of the folder); one that takes
    another's place may be read by those who could read that.  A link stays one: what it points
    to is written.

    Raises:
        OSError: When it cannot be written, with the name of ``path``; what stood there before
            still stands.
    """
    asked = path
    path = Path(os.path.realpath(path))  # Path.resolve fails on a link to itself
    path.parent.mkdir(parents=True, exist_ok=True)
    spare = path.with_name(f"{SPARE}{token_hex(6)}")
    try:
        with spare.open("xb") as new:
            with suppress(FileNotFoundError):
                shutil.copymode(path, spare)
            yield new
        moved(spare, path)
    except BaseException as error:  # Ctrl-C as well must leave nothing lying about
        with suppress(OSError):
            spare.unlink()
        passing = {None, spare, str(spare)}
        if isinstance(error, OSError) and error.errno and error.filename in passing:
            raise OSError(error.errno, error.strerror, str(asked)) from error
        raise
