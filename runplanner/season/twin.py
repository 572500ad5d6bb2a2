"""A second search beside the first, in a process of its own, with other dice.

Two short searches find a good plan more surely than one of twice the length.  The second
takes no longer where there are two cores.  How many searches there are never depends on the
machine, so the plan does not either.

The process is this module run by itself: facts come in and the days found go out, and it stops
early once its input is closed.
"""

import os
import pickle
import sys
import threading
import time
from collections.abc import Callable

from runplanner.outfit.outfit import Outfit
from runplanner.season.beside import awaited, begun, heard, killed, listening, told_enough
from runplanner.season.search.improve import SCOUTS, Improver
from runplanner.season.standing.state import State
from runplanner.season.watch import Watch, untroubled
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground

OTHER_DICE = 1_000_003
"""Added to the seed for the second search."""


class Twin:
    """The second search: started at once, asked for its outcome at the end.

    ``came`` tells afterwards whether there was one: a process that cannot be started, is killed
    or runs out of memory sends none.  One that nobody waited for to the end was not lost.
    """

    def __init__(self, outfit: Outfit, seed: int, rounds: int, seconds: float | None) -> None:
        self._found: object = None
        self._process = begun(
            "runplanner.season.twin", (outfit, seed + OTHER_DICE, rounds, seconds, time.time())
        )
        self._over = listening(self._listen)

    def _listen(self) -> None:
        self._found = heard(self._process)

    @property
    def came(self) -> bool:
        """Tell whether the second search sent what it found."""
        return isinstance(self._found, tuple)

    @property
    def lost(self) -> bool:
        """Tell whether the second search came to grief."""
        return not self.came and self._over.is_set()

    def best(
        self,
        improver: Improver,
        state: State,
        *,
        hurry: bool,
        has_s: Callable[[float], bool],
    ) -> State:
        """Return the better of ``state`` and what the second search found, or one from both.

        Args:
            improver: Judges what the other found.
            state: The first search's best.
            hurry: Do not let the second search finish its rounds.
            has_s: Tells whether so many seconds are left, for putting one together.
        """
        days = self._days(hurry=hurry)
        keeper, trucks = improver.keeper, improver.ground.truck_index
        judged = {(day.day, trucks[day.hauler]): keeper.judge(day) for day in days}
        real = {key: one for key, one in judged.items() if one is not None}
        other = keeper.settled(real) if real else state
        return improver.together(state, other, has_s)

    def _days(self, *, hurry: bool) -> tuple[Day, ...]:
        """Return what the second search found; nothing where its process came to grief."""
        if hurry:
            told_enough(self._process)
        awaited(self._over)
        return self._found if isinstance(self._found, tuple) else ()

    def leave(self) -> None:
        """End the second search without waiting for its outcome."""
        killed(self._process, self._over)


class _Told(Watch):
    """A watch that also stops when the first search says so."""

    def __init__(self, rounds: int, seconds: float | None, enough: threading.Event) -> None:
        super().__init__(rounds, seconds, None)
        self._enough = enough

    def __call__(self, done: int, best: State) -> bool:
        """Take note of a round; False when time is up or the other search was broken off."""
        return super().__call__(done, best) and not self._enough.is_set()


def found(
    outfit: Outfit, seed: int, rounds: int, seconds: float | None, enough: threading.Event
) -> tuple[Day, ...]:
    """Search until the rounds are done, time is up or ``enough`` is set; return the days."""
    improver = Improver(Ground(outfit), seed)
    state = improver.construct()
    with untroubled():
        state = improver.rounds(state, rounds, _Told(rounds, seconds, enough), SCOUTS)
    return tuple(judged.day for _, judged in sorted(state.days.items()))


def main() -> None:
    """Read facts, search, write days; stop early once the input is closed."""
    outfit, seed, rounds, seconds, began = pickle.load(sys.stdin.buffer)  # noqa: S301 - our own
    if seconds is not None:
        seconds = max(0.0, seconds - max(0.0, time.time() - began))
    enough = threading.Event()

    def listen() -> None:
        sys.stdin.buffer.read()
        enough.set()

    threading.Thread(target=listen, daemon=True).start()
    pickle.dump(found(outfit, seed, rounds, seconds, enough), sys.stdout.buffer)
    sys.stdout.buffer.flush()
    os._exit(0)  # the listening thread still holds the input


if __name__ == "__main__":
    main()
