"""Roads in parts: the one home lies in, and what keeps a truck from the others."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from runplanner.roads.network import Network, Nodes, as_links, lines_of, parts
from runplanner.roads.snap import Foot, Point, Stretches, stops, stretches_of
from runplanner.roads.tags import LIMIT

FAR_M: Final = 300
"""A home nearer to the largest part than this is taken to drive out into it: common practice."""
_LEAST_DM: Final = 20_000
"""A kilometre both ways: less, joined to nothing, is a drive that the map forgot to join."""
_BAR: Final = 1_000_000
"""Steps that a stretch which may not be driven counts for."""


@dataclass(frozen=True, slots=True)
class Bar:
    """What stands between a place and the roads a truck can reach.

    Args:
        tag: The tag as it stands in the file, key and value.
        off_m: How far the place lies from the road behind it.
        own: Whether the sign stands on that road itself, which whoever lives there may drive.
    """

    tag: str
    off_m: int
    own: bool = False

    @property
    def limit(self) -> bool:
        """Whether it is a limit on mass, width or height; else the road is shut."""
        return self.tag.startswith(LIMIT)


class Beyond:
    """All roads of a file, of which a truck can reach those between the nodes ``reached``."""

    def __init__(self, whole: Network, reached: Nodes) -> None:
        tails = whole.tails()
        bars = whole.barred.reshape(-1, 3)
        self._whole = whole
        self._reached = np.zeros(whole.size, dtype=bool)
        self._reached[whole.place[np.flatnonzero(reached)]] = True
        open_ = reached[tails] & reached[whole.head]
        self._usable = np.concatenate((open_, np.zeros(len(bars), dtype=bool)))
        self._cause = np.concatenate((np.full(len(tails), -1, dtype=np.int32), bars[:, 2]))
        tail = np.concatenate((whole.place[tails], whole.place[bars[:, 0]]))
        head = np.concatenate((whole.place[whole.head], whole.place[bars[:, 1]]))
        self._stretches = Stretches(whole, tail, head)
        served = np.concatenate((stops(whole), np.ones(len(bars), dtype=bool)))
        self._served = np.flatnonzero(served)
        self._near = Stretches(whole, tail[served], head[served])

    def bar(self, point: Point) -> Bar | None:
        """Return what keeps the truck from the road nearest to ``point``.

        None where it can drive there, or where that road hangs together with the others
        by no bar alone: it leads one way only, or the map does not join it at all.
        """
        found = self.bars(point)
        if not found:
            return None
        tags, foot = found
        limits = [tag for tag in tags if tag.startswith(LIMIT)]
        own = int(self._cause[self._served[foot.stretch]]) >= 0
        return Bar((*limits, *tags)[0], foot.off_m, own) if tags else None

    def bars(self, point: Point) -> tuple[list[str], Foot] | None:
        """Return every bar on the way to the nearest road, and where that is.

        The way is the one with the fewest bars; None where there is none at all.
        """
        foot = self._near.nearest(point)
        at = self._served[foot.stretch]
        if self._usable[at]:
            return [], foot
        words = lines_of(self._whole.causes)
        own = int(self._cause[at])
        if own >= 0:
            return [words[own]], foot
        way = self._way(foot.a)
        return None if way is None else ([words[cause] for cause in way], foot)

    def _way(self, node: int) -> list[int] | None:
        """Return the bars between the roads reached and ``node``, the first of them first."""
        from scipy.sparse.csgraph import dijkstra

        ends = self._stretches
        cause = self._cause[ends.first]
        steps = np.where(cause < 0, 1, _BAR)
        graph = as_links(self._whole.size, (ends.a, ends.b), steps)
        far, before = dijkstra(graph, directed=False, indices=node, return_predecessors=True)
        far[~self._reached] = np.inf
        here = int(np.argmin(far))
        if not np.isfinite(far[here]):
            return None
        barred = np.flatnonzero(cause >= 0).tolist()
        between = {(int(ends.a[at]), int(ends.b[at])): int(cause[at]) for at in barred}
        found = []
        while here != node:
            there = int(before[here])
            why = between.get((min(here, there), max(here, there)))
            found += [] if why is None else [why]
            here = there
        return found


def reached_from(whole: Network, home: Point) -> Nodes:
    """Return the nodes of the part of ``whole`` that a truck at ``home`` drives in.

    It is the largest, unless home lies far from that and near another one, to which no
    road leads or only one with a limit: on an island, behind a weak bridge.  A road that
    is merely shut does not keep anybody in who lives there.
    """
    part = parts(whole)
    if not len(part):
        return np.zeros(0, dtype=bool)
    largest = int(np.argmax(np.bincount(part)))
    most = np.asarray(part == largest)
    of_arc = part[whole.tails()]
    within = np.asarray(stops(whole) & (of_arc == part[whole.head]))
    near = _nearest(whole, within & (of_arc == largest), home)
    foot = near if near and near.off_m <= FAR_M else _nearest(whole, within, home)
    if foot is near or foot is None or foot.off_m > FAR_M:
        return most
    own = int(of_arc[within][foot.stretch])
    found = Beyond(whole, most).bars(home)
    if found is None:
        kept_in = int(whole.dm[within & (of_arc == own)].sum()) >= _LEAST_DM
    else:
        kept_in = any(tag.startswith(LIMIT) for tag in found[0])
    return np.asarray(part == own) if kept_in else most


def _nearest(whole: Network, arcs: Nodes, point: Point) -> Foot | None:
    """Return where ``point`` meets the nearest of ``arcs``, None where there are none."""
    return stretches_of(whole, arcs).nearest(point) if arcs.any() else None


def with_lanes(whole: Network, reached: Nodes) -> Nodes:
    """Return the nodes ``reached``, and copies at their spots that lead only to or from them.

    Signs against turning round leave some roads open one way on alone, for who drives by.
    Whoever stops at a place along them may come by either lane, and leave by either.
    """
    spots = np.zeros(whole.size, dtype=bool)
    spots[whole.place[reached]] = True
    also = spots[whole.place] & ~reached
    if not also.any():
        return reached
    from scipy.sparse.csgraph import breadth_first_order

    kept, tails = reached.copy(), whole.tails()
    for ends in ((tails, whole.head), (whole.head, tails)):
        links = as_links(whole.size, ends, whole.cs)
        found = breadth_first_order(links, int(np.argmax(reached)), return_predecessors=False)
        kept[found] |= also[found]
    return kept
