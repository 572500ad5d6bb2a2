"""A file of a scenario written whole: a reader sees the old one or the new one."""

import os
import tempfile
from pathlib import Path

_MODE = 0o644


def write_whole(path: Path, text: str) -> None:
    """Write under a temporary name in the same folder, then rename; line ends stay as they are."""
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as stream:
            stream.write(text)
        Path(temporary).chmod(_MODE)
        Path(temporary).replace(path)
    except OSError:
        Path(temporary).unlink(missing_ok=True)
        raise
