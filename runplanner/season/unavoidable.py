"""Work, loads and visits that no plan can do without."""

from functools import cached_property

from runplanner.daybook.plan import Tally
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop


class Unavoidable:
    """What every plan with no more than ``undone`` left must at least do.

    Where something may be left undone, the least that is still to do is taken: loads and
    visits of yards that might be left count nothing.
    """

    def __init__(self, ground: Ground, undone: Tally) -> None:
        self.ground = ground
        self.undone = undone
        self.complete = undone == Tally(0, 0, 0, 0)

    def _may_be_left(self, yard: int) -> bool:
        """Tell whether a plan this good might leave some work of this yard."""
        return not self.complete

    @cached_property
    def most_load_g(self) -> int:
        """The most any way of going out carries."""
        return max((h.load_max_g for h in self.ground.haulers), default=1)

    def off_g(self, yard: int) -> int:
        """Honey and brood boxes that must come off a yard, in grams."""
        facts, due = self.ground.outfit.yards[yard], self.ground.dues[yard]
        if not due.take_off or not self.complete:
            return 0
        return facts.boxes * facts.box_g + facts.brood_boxes_off * self.ground.brood_g[yard]

    def feed_g(self, yard: int) -> int:
        """Syrup that must go to a yard, in grams."""
        facts, due = self.ground.outfit.yards[yard], self.ground.dues[yard]
        if not self.complete:
            return 0
        ml = facts.colonies * due.rounds * due.round_ml
        return ml * self.ground.outfit.feed.density_g_per_l // 1000

    def load_g(self, group: tuple[int, ...]) -> int:
        """The larger of what must come out of a group of yards and what must go in."""
        return max(sum(self.off_g(y) for y in group), sum(self.feed_g(y) for y in group))

    def visits(self, yard: int) -> int:
        """Different days on which a yard must be visited."""
        due = self.ground.dues[yard]
        if not self.complete:
            return 0
        offs = max(1, -(-self.off_g(yard) // self.most_load_g)) if due.take_off else 0
        day_apart = due.round_gap_min > 1440 - (self.ground.outfit.hours.end_min - self.ground.outfit.hours.start_min)
        rounds = due.rounds if due.round_gap_min >= 1440 or day_apart else min(due.rounds, 1)
        feeds = max(0, rounds - 1) if offs else rounds
        banned = self.ground.outfit.strips.no_feed_days > 0 and due.rounds > 0
        own = 1 if due.strips and (banned or not (offs or feeds)) else 0
        return int(due.boards) + offs + feeds + own

    def trips_into(self, group: tuple[int, ...]) -> int:
        """Trips that must enter a group of yards."""
        loads = -(-self.load_g(group) // self.most_load_g)
        return max(loads, max(self.visits(yard) for yard in group))

    @cached_property
    def truck_person_s(self) -> int:
        """Person-seconds that crews must work at yards and at unloading."""
        return sum(self.yard_person_s(yard) for yard in range(len(self.ground.dues)))

    def yard_person_s(self, yard: int) -> int:
        """Person-seconds of work that a yard's colonies and boxes call for."""
        if not self.complete:
            return 0
        facts, due, pace = self.ground.outfit.yards[yard], self.ground.dues[yard], self.ground.outfit.pace
        seconds = facts.colonies * due.rounds * pace.feed_s
        seconds += facts.colonies * pace.strips_s if due.strips else 0
        if due.take_off:
            boards = facts.colonies if due.boards else 0
            bare = Stop(yard, boards=boards, off=facts.colonies, boxes=facts.boxes, brood=facts.brood_boxes_off)
            seconds += self.ground.work_s(bare)
            seconds += (facts.boxes + facts.brood_boxes_off) * pace.unload_box_s
        return seconds

    def visit_person_s(self, yard: int) -> int:
        """Return the most of that work one visit can do: all but boards and further rounds."""
        facts, due, pace = self.ground.outfit.yards[yard], self.ground.dues[yard], self.ground.outfit.pace
        later = max(0, due.rounds - 1) * facts.colonies * pace.feed_s
        later += facts.colonies * pace.board_s if due.boards else 0
        return max(self.yard_person_s(yard) - later, 1)

    @cached_property
    def base_cents(self) -> int:
        """Cost of mixing, spinning and materials that cannot be avoided."""
        if not self.complete:
            return 0
        outfit, prices = self.ground.outfit, self.ground.outfit.prices
        ml = sum(y.colonies * d.rounds * d.round_ml for y, d in zip(outfit.yards, self.ground.dues, strict=True))
        strips = sum(y.colonies for y, d in zip(outfit.yards, self.ground.dues, strict=True) if d.strips)
        cents = -(-ml * prices.syrup_l_cents // 1000) + strips * outfit.strips.per_colony * prices.strip_cents
        cents += max(0, ml - outfit.feed.ready_ml) * prices.hour_cents // max(1, outfit.feed.mix_ml_per_h)
        return cents + self._spin_cents()

    def _spin_cents(self) -> int:
        house = self.ground.outfit.honey_house
        boxes = house.waiting_boxes + sum(
            y.boxes for y, d in zip(self.ground.outfit.yards, self.ground.dues, strict=True) if d.take_off
        )
        rates = [rate * 1000 // people for people, rate in enumerate(house.boxes_per_h) if people and rate]
        if not rates or not boxes:
            return 0
        return boxes * self.ground.outfit.prices.hour_cents * 1000 // max(rates)

    def fixed_cents(self) -> int:
        """Return the cost no plan can avoid: work on the colonies and materials."""
        return self.base_cents + self.truck_person_s * self.ground.outfit.prices.hour_cents // 3600
