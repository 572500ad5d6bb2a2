"""Files written whole: a reader sees the old file or the new one, never half of one."""

import os
from contextlib import suppress
from pathlib import Path
from tempfile import NamedTemporaryFile

CHANGES_FILE = "changes.html"
"""What became of a plan that was made again; only such a plan has it."""


def write_whole(path: Path, body: str | bytes) -> Path:
    """Write ``body`` to ``path`` by way of a temporary name in the same folder."""
    path.parent.mkdir(parents=True, exist_ok=True)
    data = body.encode("utf-8") if isinstance(body, str) else body
    with NamedTemporaryFile(dir=path.parent, prefix=".new-", delete=False) as new:
        spare = Path(new.name)
        try:
            new.write(data)
            new.close()
            # A temporary file is for its owner alone until told otherwise.
            spare.chmod(0o644)
            os.replace(spare, path)  # noqa: PTH105 - the one call that is atomic everywhere
        except BaseException:  # Ctrl-C as well must leave nothing lying about
            with suppress(OSError):
                spare.unlink()
            raise
    return path
