"""Another process of this program, which is handed facts and sends back what it finds.

Facts go in at its standard input, findings come out at its standard output, both pickled by
ourselves.  Closing its input tells it that enough is found.
"""

import math
import os
import pickle
import subprocess
import sys
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any

Process = subprocess.Popen[bytes]
GLANCE_S = 0.2
"""Seconds of one wait."""


def begun(module: str, facts: object) -> Process | None:
    """Run a module with facts, or return None where no process can be started.

    None either within another program, which would be started again in place of Python.
    """
    if not Path(sys.executable or "").name.lower().startswith(("python", "pypy")):
        return None
    home = str(Path(__file__).parents[2])
    paths = [home, *filter(None, [os.environ.get("PYTHONPATH")])]
    try:
        process = subprocess.Popen(  # noqa: S603 - a module of ours
            # -P: what lies about in the folder we were called from is none of our modules.
            [sys.executable, "-P", "-m", module],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(paths)},
            **_deaf(),
        )
    except OSError:
        return None
    with suppress(OSError):
        pickle.dump(facts, process.stdin)  # type: ignore[arg-type]
        process.stdin.flush()  # type: ignore[union-attr]
    return process


def heard(process: Process | None) -> object:
    """Return the next thing that a process found; None where it came to grief or has no more."""
    if process is None:
        return None
    with suppress(EOFError, OSError, ValueError, pickle.UnpicklingError):
        found: object = pickle.load(process.stdout)  # type: ignore[arg-type]  # noqa: S301 - ours
        return found
    return None


def listening(listen: Callable[[], None]) -> threading.Event:
    """Let another thread listen to a process; return what is set once it has heard all.

    Not the thread itself: up to Python 3.12 one whose ``join`` Ctrl-C broke off counts as over.
    """
    over = threading.Event()

    def to_the_end() -> None:
        try:
            listen()
        finally:
            over.set()

    threading.Thread(target=to_the_end, daemon=True).start()
    return over


def awaited(over: threading.Event, seconds: float = math.inf) -> None:
    """Wait until a process has been heard, at most so long; Ctrl-C is heard meanwhile.

    Windows hears it only between one wait and the next.
    """
    until = time.monotonic() + seconds
    while not over.is_set() and (left := until - time.monotonic()) > 0:
        over.wait(min(left, GLANCE_S))


def told_enough(process: Process | None) -> None:
    """Close a process's input: it sends what it has."""
    if process is not None:
        with suppress(OSError):
            process.stdin.close()  # type: ignore[union-attr]


def ended(process: Process | None) -> None:
    """End a process without waiting for what it would find."""
    if process is None:
        return
    process.kill()
    told_enough(process)
    process.stdout.close()  # type: ignore[union-attr]
    process.wait()


def killed(process: Process | None, over: threading.Event) -> None:
    """End a process whatever it still works on, and who listens to it, which is then ``over``."""
    if process is not None:
        process.kill()
    over.wait()
    ended(process)


def _deaf() -> dict[str, Any]:
    """Keep Ctrl-C from the process: the first one hears it, and tells it."""
    if sys.platform == "win32":
        return {"creationflags": subprocess.CREATE_NEW_PROCESS_GROUP}
    return {"start_new_session": True}
