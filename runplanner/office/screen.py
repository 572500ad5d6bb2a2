"""The screen: lines that can neither steer a terminal nor flood it."""

import io
import os
import re
import sys
from collections.abc import Iterable
from typing import TextIO

from runplanner.paperwork.escape import cut, one_line
from runplanner.paperwork.tongue import said

LONGEST_LINE = 600
_TURNS = re.compile(r"[\u061c\u200e\u200f\u202a-\u202e\u2066\u2067]")


def drop_output() -> None:
    """Nobody reads any more: let what is still unwritten go nowhere, without a complaint."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def ready_terminal() -> None:
    """A sign that the terminal cannot show becomes a question mark, not a failure."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


def say(lines: Iterable[str]) -> None:
    """Print ``lines`` as results."""
    _print(lines, sys.stdout)


def tell(lines: Iterable[str]) -> None:
    """Print ``lines`` as news about the work."""
    _print(lines, sys.stderr)


def _print(lines: Iterable[str], stream: TextIO) -> None:
    for line in lines:
        print(plain(said(line)), file=stream, flush=True)


def plain(text: str) -> str:
    """Return ``text`` as one line that can neither steer a terminal nor flood it."""
    return cut(_TURNS.sub("", one_line(text)), LONGEST_LINE)
