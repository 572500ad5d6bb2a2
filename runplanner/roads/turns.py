"""Forbidden turns, by copies of the junctions they hold at.

Whoever comes into a junction by a road that has forbidden turns arrives at a copy of it,
from which only the allowed ways lead on.  So that nobody turns round a few metres further
on and comes back, the road beyond is copied as well, one way only, up to its next junction.
Restrictions by way of a whole road (rather than of one junction) are not looked at.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from runplanner.roads.network import Ints, Network, of_arcs


@dataclass(frozen=True, slots=True)
class Turn:
    """A sign at a junction, for whoever arrives from ``before``.

    With ``only`` the way to ``after`` is the only one allowed, else it is forbidden.
    """

    before: int
    junction: int
    after: int
    only: bool


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
    signs: dict[tuple[int, int], list[Turn]] = defaultdict(list)
    for turn in turns:
        signs[turn.before, turn.junction].append(turn)
    copies = _Copies(network)
    tails = network.tails()
    gates: list[tuple[tuple[int, int], int]] = []
    for (before, junction), here in sorted(signs.items(), key=lambda one: one[0]):
        arriving = [way for way in copies.out(before) if int(network.head[way]) == junction]
        if arriving and _bites(copies, junction, here):
            made = copies.copy(junction)
            copies.head[arriving[0]] = made
            gates.append(((before, junction), made))
    for key, made in gates:
        _lead_on(copies, key[1], made, signs[key])
    return network if not gates else _joined(copies, tails)


def _bites(copies: _Copies, junction: int, signs: list[Turn]) -> bool:
    """Tell whether the signs leave a way on and forbid one; else they are misread."""
    ways = [int(copies.net.head[way]) for way in copies.out(junction)]
    open_ = [there for there in ways if _allowed(there, signs)]
    return 0 < len(open_) < len(ways)


def _allowed(there: int, signs: list[Turn]) -> bool:
    only = [turn.after for turn in signs if turn.only]
    shut = [turn.after for turn in signs if not turn.only]
    return there not in shut and (not only or there in only)


def _lead_on(copies: _Copies, junction: int, made: int, signs: list[Turn]) -> None:
    for way in copies.out(junction):
        there = int(copies.net.head[way])
        if _allowed(there, signs):
            copies.arcs.append((made, copies.beyond(junction, way), way))


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
