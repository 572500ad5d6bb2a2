"""The bound worked out beside the search, in a process of its own, where a clock runs.

A quick bound comes first and a higher one when it is done; whichever there is when time is up
counts.  Searches that go by rounds work out theirs in their own process, so that it always
comes out the same.
"""

import os
import pickle
import sys
import threading

from runplanner.daybook.plan import ALL_DONE, Bound, Tally
from runplanner.outfit.outfit import Outfit
from runplanner.season.beside import awaited, begun, heard, killed, listening
from runplanner.season.proof.bound import PATIENT, bound_of
from runplanner.trips.ground import Ground

ALONE = 3
"""How the process ends when nobody is left to hear it."""


class Prover:
    """Works out what no plan can cost less than that leaves no more undone than it is told."""

    def __init__(self, outfit: Outfit, now_min: int, undone: Tally = ALL_DONE) -> None:
        self._bound: Bound | None = None
        self._process = begun("runplanner.season.prover", (outfit, now_min, undone))
        self._over = listening(self._listen)

    def _listen(self) -> None:
        while isinstance(bound := heard(self._process), Bound):
            if self._bound is None or bound.cents > self._bound.cents:
                self._bound = bound

    def bound(self, wait_s: float = 0.0) -> Bound | None:
        """Return the highest bound so far, waiting at most so long for the last one."""
        awaited(self._over, wait_s)
        return self._bound

    def leave(self) -> None:
        """End the process, whatever it still works on."""
        killed(self._process, self._over)


def main() -> None:
    """Read facts, write bounds, each higher than the last."""
    outfit, now_min, undone = pickle.load(sys.stdin.buffer)  # noqa: S301 - our own process
    threading.Thread(target=_end_with_asker, daemon=True).start()
    ground = Ground(outfit, now_min)
    _send(bound_of(ground, undone, patience=PATIENT, tell=_send))
    os._exit(0)  # the waiting thread still holds the input


def _end_with_asker() -> None:
    """Wait for whoever asked to be gone: nobody would hear the bound."""
    sys.stdin.buffer.read()
    os._exit(ALONE)


def _send(bound: Bound) -> None:
    pickle.dump(bound, sys.stdout.buffer)
    sys.stdout.buffer.flush()


if __name__ == "__main__":
    main()
