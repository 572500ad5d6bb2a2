"""One stop at one yard, as the planner writes it."""

from collections.abc import Sequence
from typing import NamedTuple

from runplanner.days import DAY_MIN


class Stop(NamedTuple):
    """One visit of one yard; counts are colonies unless said otherwise.

    Args:
        yard: Index of the yard.
        boards: Boards put on.
        off: Colonies taken off and condensed.
        boxes: Honey boxes that brings aboard.
        brood: Brood boxes that brings aboard.
        blocks: Fondant blocks placed.
        round: Feed round given, 0 for none.
        fed: Colonies fed.
        strips: Whole yard's strips go in.
        from_min: Not begun before this minute, 0 for any; how it is planned, not a promise.
        wet_up: Emptied boxes put above the cover boards, the whole yard's.
        wet_down: The same boxes collected.
        feeders_off: Emptied feeders collected, all that stand there.
        other: The take-off clears the boxes by the yard's other way, not by its usual one.
        over: Boards lifted besides those of its colonies: they lie where colonies died.
        feeders: Feeders left with a later round, where those of the first have been fetched.
        to_min: Over by this minute, 0 for any; how it is planned, not a promise.
        each: Further blocks for each colony that gets some.
    """

    yard: int
    boards: int = 0
    off: int = 0
    boxes: int = 0
    brood: int = 0
    blocks: int = 0
    round: int = 0
    fed: int = 0
    strips: bool = False
    from_min: int = 0
    wet_up: int = 0
    wet_down: int = 0
    feeders_off: int = 0
    other: bool = False
    over: int = 0
    feeders: int = 0
    to_min: int = 0
    each: int = 1

    def on(self, day: int) -> "Stop":
        """Return the stop as it is on ``day``: what it waits for by then counts no more."""
        return self._replace(from_min=0) if self.from_min <= day * DAY_MIN else self

    def keeps(self, promised: "Stop") -> bool:
        """Tell whether all that was promised of a visit is done here, if not more.

        Blocks follow from who is taken off and fed, boxes from who came off before.
        """
        enough = (
            self.boards >= promised.boards,
            self.off >= promised.off,
            promised.off or self.blocks >= promised.blocks,
            not promised.round or (self.round == promised.round and self.fed >= promised.fed),
            self.strips >= promised.strips,
            self.wet_up >= promised.wet_up,
            self.wet_down >= promised.wet_down,
            self.feeders_off >= promised.feeders_off,
            not promised.off or self.other == promised.other,
        )
        return all(enough)

    @property
    def further(self) -> bool:
        """Tell whether blocks are for colonies taken off before."""
        return bool(self.blocks and not self.off)

    @property
    def idle(self) -> bool:
        """Tell whether nothing is done at the stop."""
        return self == Stop(self.yard, from_min=self.from_min, to_min=self.to_min, each=self.each)


def unkept(promised: Sequence[Stop], stops: Sequence[Stop]) -> int:
    """Count the promised visits that are not kept where every stop keeps one of them at most.

    As many as can be are matched, by augmenting paths (Kuhn 1955, bipartite matching).
    """
    if len(promised) == len(stops) == 1:  # nearly always, and asked at every try
        return 0 if stops[0].keeps(promised[0]) else 1
    keeps: dict[int, int] = {}
    return sum(not _is_kept(promised, stops, keeps, one, set()) for one in range(len(promised)))


def _is_kept(
    promised: Sequence[Stop],
    stops: Sequence[Stop],
    keeps: dict[int, int],
    one: int,
    asked: set[int],
) -> bool:
    """Tell whether a promised visit is kept as well, others by other stops if need be.

    No inner function: one that calls itself is a circle, which stays in memory while a search
    runs.
    """
    for at, stop in enumerate(stops):
        if at in asked or not stop.keeps(promised[one]):
            continue
        asked.add(at)
        if at not in keeps or _is_kept(promised, stops, keeps, keeps[at], asked):
            keeps[at] = one
            return True
    return False


def first_at_last_yard(yards: Sequence[object]) -> int:
    """Return the number, from 0, of the first of a trip's stops that no other yard follows.

    ``yards`` are those of its stops in order; one yard may be served by several on end.
    """
    at = max(0, len(yards) - 1)
    while at and yards[at - 1] == yards[-1]:
        at -= 1
    return at


class Visit(NamedTuple):
    """A stop with its times; a ``fact`` has been driven and is not judged again.

    It ``goes_on`` where its truck came from no drive, but from another visit of the same yard.
    """

    start_min: int
    end_min: int
    leave_min: int
    stop: Stop
    day: int
    truck: int
    fact: bool = False
    goes_on: bool = False


def at_one_stop(visits: Sequence[Visit], at: int) -> Sequence[Visit]:
    """Return the visits with no drive between them, of a yard's in order, round number ``at``."""
    first, end = at, at + 1
    while _goes_on(visits, first):
        first -= 1
    while _goes_on(visits, end):
        end += 1
    return visits[first:end]


def _goes_on(visits: Sequence[Visit], at: int) -> bool:
    if not 0 < at < len(visits) or not visits[at].goes_on:
        return False
    before, one = visits[at - 1 : at + 1]
    return (before.day, before.truck) == (one.day, one.truck)


def merged(one: Stop, other: Stop, to_feed: int) -> Stop | None:
    """Return both stops of a yard as one visit, or None where their work clashes.

    Syrup in the take-off's own visit spares the blocks; that is done for whole yards only, or all
    ``to_feed`` of its colonies that nothing driven has fed.
    A visit for further blocks, or to put wet boxes up, stays by itself.
    """
    off, fed = one.off + other.off, one.fed + other.fed
    if _clash(one, other) or (off and fed and fed < to_feed):
        return None
    return Stop(
        one.yard,
        one.boards + other.boards,
        off,
        one.boxes + other.boxes,
        one.brood + other.brood,
        0 if off and fed else one.blocks + other.blocks,
        one.round + other.round,
        fed,
        one.strips or other.strips,
        max(one.from_min, other.from_min),
        one.wet_up + other.wet_up,
        one.wet_down + other.wet_down,
        one.feeders_off + other.feeders_off,
        one.other or other.other,
        one.over + other.over,
        one.feeders + other.feeders,
    )


def _clash(one: Stop, other: Stop) -> bool:
    """Tell whether both do the same job, or their jobs do not go into one visit."""
    if any(stop.further or stop.wet_up for stop in (one, other)):
        return True
    return bool(
        (one.round and other.round)
        or (one.off and other.off)
        or (one.strips and other.strips)
        or (one.boards and (other.boards or other.off))
        or (one.off and other.boards)
        or (one.wet_down and (other.wet_down or other.off or other.boards))
        or (other.wet_down and (one.off or one.boards))
        or (one.feeders_off and (other.feeders_off or other.fed))
        or (other.feeders_off and one.fed)
    )
