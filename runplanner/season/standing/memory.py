"""Days of mixing or spinning kept in mind: a try changes one day or two, the rest recur.

Keys name only what a try can change.  All else a day hangs on (the outfit, the time it is, what
was mixed and spun by then, what stands ready) is the same for as long as a ``House`` lives: each
``Keeper`` makes its own.
"""

from typing import Any

REMEMBERED = 20_000
"""Days kept in mind, of each kind."""


def forget(memory: dict[Any, Any]) -> None:
    """Empty a memory that is full; what it held is worked out again when asked for."""
    if len(memory) >= REMEMBERED:
        memory.clear()
