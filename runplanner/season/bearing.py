"""Which rules bear on a yard's work at all: easing them gives it more of what it needs."""

from collections.abc import Callable, Collection, Iterator

from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Outfit
from runplanner.season.job_hours import JOBS, JobHours
from runplanner.trade.feeding import sugar_for_g
from runplanner.trips.ground import Ground

WITHOUT_END = 10**15
LOADED = (Job.TAKE_OFF, Job.FEED, Job.WET_UP, Job.WET_DOWN)
"""Jobs that want room aboard: strips weigh next to nothing."""


class Bearing:
    """Tells of one yard's jobs what bears on them."""

    def __init__(self, ground: Ground, yard: int, jobs: Collection[Job]) -> None:
        self._ground, self._yard, self._jobs = ground, yard, jobs
        self._has = self._means(ground)

    def __call__(self, ease: Callable[[Outfit], Outfit]) -> bool:
        """Tell whether an ease gives the jobs any more than they have.

        Of stocks and kit no more counts than the whole campaign is due.
        """
        eased = Ground(ease(self._ground.outfit), self._ground.now_min)
        return self._means(eased) != self._has

    def _means(self, ground: Ground) -> tuple[object, ...]:
        """Return all that the jobs have: hours, crews, loads, kit and stocks."""
        hours = JobHours(ground, self._yard)
        return (
            ground.outfit.hours,
            len(ground.outfit.people),
            len(ground.outfit.trucks),
            [hours.spans(job) for job in JOBS if job in self._jobs],
            *self._way_in(ground),
            *(self._off(ground) if Job.TAKE_OFF in self._jobs else ()),
            *(self._feed(ground) if Job.FEED in self._jobs else ()),
            *(self._strips(ground) if Job.STRIPS in self._jobs else ()),
        )

    def _way_in(self, ground: Ground) -> Iterator[object]:
        loads = [load[self._yard] for load in ground.load_into]
        if set(LOADED) & set(self._jobs):
            yield loads
            yield [hauler.decks for hauler in ground.haulers]
            yield ground.axle_g
        else:
            yield [load >= 0 for load in loads]

    def _off(self, ground: Ground) -> Iterator[object]:
        outfit, due = ground.outfit, ground.dues[self._yard]
        house, boxes = outfit.honey_house, sum(yard.boxes for yard in outfit.yards)
        yield [min(rate, boxes) for rate in house.boxes_per_h], min(house.room_boxes, boxes)
        yield outfit.yards[self._yard].spin_by_hard
        colonies = sum(yard.colonies for yard in outfit.yards)
        yield min(outfit.kit.boards_owned, colonies) if due.boards else 0
        blocks = colonies * outfit.rules.blocks if due.rounds else 0
        yield min(outfit.kit.blocks_owned, blocks)

    def _feed(self, ground: Ground) -> Iterator[object]:
        outfit, feed, due = ground.outfit, ground.outfit.feed, ground.dues[self._yard]
        wanted = sum(
            yard.colonies * one.rounds * one.round_ml
            for yard, one in zip(outfit.yards, ground.dues, strict=True)
        )
        mixed = max(0, wanted - feed.ready_ml)
        sugar = WITHOUT_END if feed.sugar_g is None else feed.sugar_g
        yield due.round_gap_min if due.rounds > 1 else 0
        yield mixed if feed.bought else min(sugar, sugar_for_g(mixed, feed))
        yield min(feed.mix_ml_per_day, mixed), min(feed.mix_ml_per_h, mixed)
        owned = outfit.kit.feeders_owned
        colonies = sum(yard.colonies for yard in outfit.yards)
        yield colonies if owned is None else min(owned, colonies)
        yield min(wanted, sum(tank.owned * tank.holds_ml for tank in outfit.containers))

    def _strips(self, ground: Ground) -> Iterator[object]:
        outfit = ground.outfit
        for stock, mine in ground.strip_stocks:
            if self._yard in mine:
                yards = [outfit.yards[index] for index in mine]
                wanted = sum(yard.colonies * outfit.strips_at(yard).per_colony for yard in yards)
                if stock < wanted:
                    yield stock
