"""Forbidden turns, by copies of the junctions they hold at.

Whoever comes into a junction by a road that has forbidden turns arrives at a copy of it,
from which only the allowed ways lead on.  So that nobody turns round a few metres further
on and comes back, the road beyond is copied as well, one way only, up to its next junction.
Where a sign holds by way of a whole road, such as no turning round over a link between two
carriageways, that road is copied for whoever came into it from the road the sign names.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

import numpy as np

from runplanner.roads.network import Ints, Network, of_arcs


@dataclass(frozen=True, slots=True)
class Turn:
    """A sign at a junction, for whoever arrives from ``before``.

    With ``only`` the way to ``after`` is the only one allowed, else it is forbidden.  Where
    the sign holds by way of a road, ``between`` are that road's nodes behind the junction,
    and ``after`` lies behind the last of them.
    """

    before: int
    junction: int
    after: int
    only: bool
    between: tuple[int, ...] = ()


MOST_BETWEEN: Final = 200
"""A road between with more nodes than this is no link; its sign is left out."""
_Arc = tuple[int, int, int]
"""Where from, where to, and the arc whose length, time and class it has."""


class _Copies:
    """Adds copies of nodes to a network."""

    def __init__(self, network: Network) -> None:
        self.net = network
        self.head = network.head.tolist()
        self.made: list[int] = []
        self.arcs: list[_Arc] = []
        self.done: dict[tuple[int, int], int] = {}

    def copy(self, node: int) -> int:
        """Return the number of a new copy of ``node``."""
        self.made.append(node)
        return self.net.size + len(self.made) - 1

    def out(self, node: int) -> range:
        """Return the arcs that leave ``node``."""
        return range(int(self.net.start[node]), int(self.net.start[node + 1]))

    def beyond(self, before: int, arc: int) -> int:
        """Return a copy of the end of ``arc`` from which nobody comes back to ``before``.

        Where only one way leads on the road is copied further, up to the next junction or
        the dead end, at which one may turn.
        """
        first, new = self._arrive(before, arc)
        copied = first
        while new:
            node = int(self.net.head[arc])
            out = list(self.out(node))
            ways = [way for way in out if int(self.net.head[way]) != before] or out
            if len(ways) != 1 or int(self.net.head[ways[0]]) == before:
                self.arcs += [(copied, self.head[way], way) for way in ways]
                break
            arc, before = ways[0], node
            following, new = self._arrive(before, arc)
            self.arcs.append((copied, following, arc))
            copied = following
        return first

    def _arrive(self, before: int, arc: int) -> tuple[int, bool]:
        """Return where ``arc`` leads for whoever may not turn back, and whether that is new.

        Where a sign stands at its end, that sign's own copy of the junction it is.
        """
        node = int(self.net.head[arc])
        if self.head[arc] != node:
            return self.head[arc], False
        known = self.done.get((before, node))
        if known is not None:
            return known, False
        self.done[before, node] = self.copy(node)
        return self.done[before, node], True


def with_turns(network: Network, turns: Iterable[Turn]) -> Network:
    """Return the network in which nobody makes a forbidden turn."""
    signs = _Signs(network, turns)
    copies = _Copies(network)
    tails = network.tails()
    gates: list[tuple[_Key, int]] = []
    for before, junction in signs.where():
        arriving = [way for way in copies.out(before) if int(network.head[way]) == junction]
        if arriving and signs.matter(copies, (before, junction)):
            made = copies.copy(junction)
            copies.head[arriving[0]] = made
            gates.append(((before, junction), made))
    for key, made in gates:
        _Along(copies, signs, key).lead_on(made)
    return network if not gates else _joined(copies, tails)


_Key = tuple[int, int]
"""Where one comes from, and the junction one comes to."""


class _Signs:
    """Signs at one junction, and signs by way of a road, by where one comes from."""

    def __init__(self, network: Network, turns: Iterable[Turn]) -> None:
        self.network = network
        self.near: dict[_Key, list[Turn]] = defaultdict(list)
        self.far: dict[_Key, list[Turn]] = defaultdict(list)
        for turn in turns:
            kind = self.far if turn.between else self.near
            kind[turn.before, turn.junction].append(turn)

    def where(self) -> list[_Key]:
        """Return where a sign stands, in order."""
        return sorted(set(self.near) | set(self.far))

    def matter(self, copies: _Copies, key: _Key) -> bool:
        """Tell whether any sign for who comes by ``key`` is to be kept."""
        return bool(self.here(copies, key)) or key in self.far

    def here(self, copies: _Copies, key: _Key) -> list[Turn]:
        """Return the signs at a junction itself; none where they would leave no way on."""
        return _biting(copies, key[1], self.near.get(key, []))


class _Along:
    """The roads on from one junction for whoever came to it by a road with signs."""

    def __init__(self, copies: _Copies, signs: _Signs, key: _Key) -> None:
        self.copies = copies
        self.signs = signs
        self.key = key
        self.far = signs.far.get(key, [])

    def lead_on(self, made: int) -> None:
        """Put in the arcs that lead on from the copy ``made`` of the junction."""
        waiting: list[tuple[tuple[int, ...], int]] = [((), made)]
        while waiting:
            walk, copied = waiting.pop()
            before, node = (*self.key, *walk)[-2:]
            signs = [*self.signs.here(self.copies, (before, node)), *self._ending(walk, node)]
            for way in self._ways(before, node, signs):
                there = int(self.copies.net.head[way])
                further = (*walk, there)
                if any(turn.between[: len(further)] == further for turn in self.far):
                    following = self.copies.copy(there)
                    waiting.append((further, following))
                else:
                    onward = signs or (walk and there == before)
                    following = self.copies.beyond(node, way) if onward else self.copies.head[way]
                self.copies.arcs.append((copied, following, way))

    def _ways(self, before: int, node: int, signs: list[Turn]) -> list[int]:
        """Return the arcs on that are allowed.

        On a road between nobody turns round, unless there is no other way on.
        """
        out = list(self.copies.out(node))
        allowed = [way for way in out if _allowed(int(self.copies.net.head[way]), signs)]
        if node == self.key[1]:
            return allowed
        on = [way for way in allowed if int(self.copies.net.head[way]) != before]
        return on or [way for way in out if int(self.copies.net.head[way]) == before]

    def _ending(self, walk: tuple[int, ...], node: int) -> list[Turn]:
        """Return the signs whose road between ends here."""
        return _biting(self.copies, node, [turn for turn in self.far if turn.between == walk])


def _biting(copies: _Copies, junction: int, signs: list[Turn]) -> list[Turn]:
    """Return signs that leave a way on and forbid one; others are misread."""
    ways = [int(copies.net.head[way]) for way in copies.out(junction)]
    open_ = [there for there in ways if _allowed(there, signs)]
    return signs if 0 < len(open_) < len(ways) else []


def _allowed(there: int, signs: list[Turn]) -> bool:
    only = [turn.after for turn in signs if turn.only]
    shut = [turn.after for turn in signs if not turn.only]
    return there not in shut and (not only or there in only)


def _joined(copies: _Copies, tails: Ints) -> Network:
    net = copies.net
    made = np.array(copies.made, dtype=np.int32)
    new = np.array(copies.arcs, dtype=np.int32).reshape(-1, 3)
    way = new[:, 2]
    points = (
        np.concatenate((net.lat, net.lat[made])),
        np.concatenate((net.lon, net.lon[made])),
        np.concatenate((net.place, net.place[made])),
    )
    return of_arcs(
        points,
        np.concatenate((tails, new[:, 0])),
        np.concatenate((np.array(copies.head, dtype=np.int32), new[:, 1])),
        np.concatenate((net.dm, net.dm[way])),
        np.concatenate((net.cs, net.cs[way])),
        np.concatenate((net.kind, net.kind[way])),
    )
