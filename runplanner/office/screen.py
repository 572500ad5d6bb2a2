"""The screen: lines that can neither steer a terminal nor flood it."""

import io
import os
import re
import shlex
import subprocess
import sys
from collections.abc import Iterable
from typing import TextIO

from runplanner.errors import RunplannerError, system_said
from runplanner.paperwork.escape import cut, one_line
from runplanner.paperwork.speech.tongue import said
from runplanner.phrase import phrase

LONGEST_LINE = 600
_TURNS = re.compile(r"[\u061c\u200e\u200f\u202a-\u202e\u2066\u2067]")


class ScreenError(RunplannerError):
    """Results could not be shown; whatever was done before that is done."""


def ready_terminal() -> None:
    """A sign that the terminal cannot show becomes a question mark, not a failure."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


def to_copy(*words: object) -> str:
    """Return a command of ours as a line to copy into a shell, quoted where that is needed."""
    line = ["runplanner", *map(str, words)]
    return subprocess.list2cmdline(line) if sys.platform == "win32" else shlex.join(line)


def say(lines: Iterable[str]) -> None:
    """Print ``lines`` as results.  Where nobody reads them any more the work goes on.

    Raises:
        ScreenError: When they cannot be written where they were to go, as on a full disk.
    """
    failed = _print(lines, sys.stdout)
    if failed is not None and not isinstance(failed, BrokenPipeError):
        raise ScreenError(
            phrase(
                "Not all could be shown: {error}. Files that were written are in place.",
                error=system_said(failed),
            )
        )


def tell(lines: Iterable[str]) -> None:
    """Print ``lines`` as news about the work, which goes on where they cannot be printed."""
    _print(lines, sys.stderr)


def _print(lines: Iterable[str], stream: TextIO | None) -> OSError | None:
    """Print ``lines``, as far as there is a stream (a desktop may give none) that takes them."""
    failed = None
    for line in lines:
        text = plain(said(line))
        if stream is None or failed is not None:
            continue
        try:
            print(text, file=stream, flush=True)
        except OSError as error:
            failed = error
            _drop(stream)
    return failed


def _drop(stream: TextIO) -> None:
    """Let what is still unwritten, and all that follows, go nowhere without a complaint."""
    if isinstance(stream, io.TextIOWrapper):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)


def plain(text: str) -> str:
    """Return ``text`` as one line that can neither steer a terminal nor flood it."""
    return cut(_TURNS.sub("", one_line(text)), LONGEST_LINE)
