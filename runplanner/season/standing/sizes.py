"""What promised visits come to now: as many colonies, boxes and feeders as their yards have left.

Colonies die, boxes are counted anew, and a driver may have done more or less than the paper said.
A visit of 32 colonies at a yard of 30 would break every chain, and with it whatever waits for
what it brings home; of 30 it stays where it was.
"""

from collections import Counter
from dataclasses import dataclass, field

from runplanner.trips.ground import Ground
from runplanner.visits.due import taken
from runplanner.visits.stop import Stop


@dataclass(slots=True)
class _Done:
    """What has been done at a yard so far; ``lie`` boards are still on, ``wet`` boxes still up.

    ``other`` of those ``off`` were cleared by another way than the usual one.
    """

    off: int = 0
    boxes: int = 0
    other: int = 0
    laid: int = 0
    lie: int = 0
    feeders: int = 0
    wet: int = 0
    fed: Counter[int] = field(default_factory=Counter)

    def add(self, stop: Stop) -> None:
        lifted = 0 if stop.other else stop.off + stop.over
        self.off += stop.off
        self.boxes += stop.boxes
        self.other += stop.off if stop.other else 0
        self.laid += stop.boards
        self.lie = max(0, self.lie + stop.boards - lifted)
        self.fed[stop.round] += stop.fed
        left = stop.fed if stop.round == 1 else stop.feeders
        self.feeders = max(0, self.feeders + left - stop.feeders_off)
        self.wet = max(0, self.wet + stop.wet_up - stop.wet_down)


class Sizes:
    """Reads the stops of a plan in the order of their time; counts as in :class:`Stop`."""

    def __init__(self, ground: Ground) -> None:
        self._outfit, self._dues = ground.outfit, ground.dues
        self._done = [_Done(laid=due.boards_on, lie=due.boards_on) for due in ground.dues]

    def driven(self, stop: Stop) -> None:
        """Take note of a stop that is fact."""
        self._done[stop.yard].add(stop)

    def promised(self, stop: Stop) -> Stop:
        """Return a stop to come with what is there to do of it; idle where that is nothing.

        Nothing is added to what was promised but what belongs to it: the boxes of its colonies,
        all feeders and wet boxes that stand there.
        """
        yard, done = self._outfit.yards[stop.yard], self._done[stop.yard]
        colonies, before = yard.colonies, min(done.off, yard.colonies)
        bare = colonies - before - (min(done.lie, colonies - before) if stop.other else 0)
        after = before + min(stop.off, bare)
        still_on = taken(yard.boxes, colonies, before, colonies)
        fed = min(stop.fed, max(0, colonies - done.fed[stop.round]))
        sized = stop._replace(
            boards=min(stop.boards, max(0, colonies - done.other - done.laid)),
            off=after - before,
            boxes=taken(yard.boxes, colonies, before, after),
            brood=taken(yard.brood_boxes_off, colonies, before, after),
            round=stop.round if fed else 0,
            fed=fed,
            wet_up=done.boxes + still_on if stop.wet_up else 0,
            wet_down=done.wet if stop.wet_down else 0,
            feeders_off=done.feeders if stop.feeders_off else 0,
            other=stop.other and after > before,
            feeders=min(stop.feeders, fed),
        )
        sized = sized._replace(blocks=self._blocks(stop, sized), over=self._over(sized))
        done.add(sized)
        return sized

    def _blocks(self, stop: Stop, sized: Stop) -> int:
        """Return the blocks of those taken off and not fed, or further ones for each at most."""
        done, colonies = self._done[stop.yard], self._outfit.yards[stop.yard].colonies
        if not stop.off:
            wait = max(0, min(done.off, colonies) - done.fed[1])
            return min(stop.blocks // stop.each, wait) * stop.each
        fed = done.fed[1] + (sized.fed if sized.round == 1 else 0)
        bare = max(0, min(done.off + sized.off - fed, sized.off))
        return bare * self._outfit.rules.blocks if stop.blocks else 0

    def _over(self, sized: Stop) -> int:
        """Return the boards that a yard's last take-off lifts where colonies died."""
        done = self._done[sized.yard]
        last = done.off + sized.off >= self._outfit.yards[sized.yard].colonies
        boarded = sized.off and last and self._dues[sized.yard].boards and not sized.other
        return max(0, done.lie - sized.off) if boarded else 0
