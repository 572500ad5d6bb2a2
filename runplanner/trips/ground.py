"""Everything about an outfit that trips need again and again, worked out once."""

from dataclasses import dataclass, field
from functools import cached_property

from runplanner.days import DAY_MIN, Span, meet
from runplanner.haulage.deck import places_under
from runplanner.haulage.hauler import Hauler, haulers
from runplanner.haulage.tanks import choices
from runplanner.outfit.bases import Base
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Health
from runplanner.trips.stop import Stop
from runplanner.visits.due import Due, due
from runplanner.visits.windows import Windows, windows


@dataclass
class Ground:
    """Tables over yards (by index), haulers and days; built once for a planning call.

    Nothing is planned to start before ``now_min``.
    """

    outfit: Outfit
    now_min: int = 0
    dues: tuple[Due, ...] = field(init=False)
    hours: tuple[Windows, ...] = field(init=False)
    haulers: tuple[Hauler, ...] = field(init=False)

    def __post_init__(self) -> None:
        """Work out the tables."""
        self.dues = tuple(due(self.outfit, yard) for yard in self.outfit.yards)
        self.hours = tuple(windows(self.outfit, yard) for yard in self.outfit.yards)
        self.haulers = haulers(self.outfit)
        self.container_choices = choices(self.outfit.containers)
        self._legs: dict[tuple[int, int, int], int | None] = {}

    @cached_property
    def kinds(self) -> tuple[int, ...]:
        """Box kind of every yard, as an index into the outfit's boxes."""
        ids = [box.id for box in self.outfit.boxes]
        return tuple(ids.index(yard.box) for yard in self.outfit.yards)

    @cached_property
    def brood_g(self) -> tuple[int, ...]:
        """Mass of one brood box with its comb, by yard: twice the empty box."""
        return tuple(2 * self.outfit.box(yard.box).empty_g for yard in self.outfit.yards)

    @cached_property
    def widest(self) -> tuple[int, ...]:
        """Box kinds from the largest footprint to the smallest."""
        boxes = self.outfit.boxes
        return tuple(
            sorted(range(len(boxes)), key=lambda k: (-boxes[k].length_mm * boxes[k].width_mm, k))
        )

    @cached_property
    def places(self) -> tuple[tuple[int, ...], ...]:
        """Deck places by hauler and box kind."""
        return tuple(
            tuple(h.places(box.length_mm, box.width_mm) for box in self.outfit.boxes)
            for h in self.haulers
        )

    @cached_property
    def high(self) -> tuple[tuple[int, ...], ...]:
        """Stack height in boxes by hauler and box kind."""
        return tuple(tuple(h.high(box) for box in self.outfit.boxes) for h in self.haulers)

    @cached_property
    def tank_places(self) -> tuple[tuple[int, ...], ...]:
        """Places one container covers, by container and box kind."""
        return tuple(
            tuple(places_under(tank, box.length_mm, box.width_mm) for box in self.outfit.boxes)
            for tank in self.outfit.containers
        )

    @cached_property
    def load_into(self) -> tuple[tuple[int, ...], ...]:
        """Most load a hauler may carry into or out of a yard, by hauler and yard."""
        return tuple(
            tuple(h.load_for(yard.access) for yard in self.outfit.yards) for h in self.haulers
        )

    @cached_property
    def watched(self) -> tuple[bool, ...]:
        """Yards whose boxes are kept apart and which come last on a trip."""
        return tuple(yard.health is Health.WATCH for yard in self.outfit.yards)

    @cached_property
    def last_only(self) -> tuple[bool, ...]:
        """Yards that must be the last stop of their trip."""
        return tuple(y.health in (Health.WATCH, Health.SUSPECT) for y in self.outfit.yards)

    @cached_property
    def truck_index(self) -> tuple[int, ...]:
        """Truck of every hauler, as an index into the outfit's trucks."""
        ids = [truck.id for truck in self.outfit.trucks]
        return tuple(ids.index(h.truck.id) for h in self.haulers)

    @cached_property
    def siblings(self) -> tuple[tuple[int, ...], ...]:
        """For every truck, its haulers: fewest people first, without trailer first."""
        return tuple(
            tuple(
                sorted(
                    (h for h in range(len(self.haulers)) if self.truck_index[h] == t),
                    key=lambda h: (self.haulers[h].trailer is not None, self.haulers[h].crew, h),
                )
            )
            for t in range(len(self.outfit.trucks))
        )

    def place(self, yard: int, day: int) -> int:
        """Return the place index of a yard on a day."""
        return self.outfit.yards[yard].place_on(day)

    def leg_min(self, hauler: int, a: int, b: int) -> int | None:
        """Return the driving minutes from place ``a`` to ``b``; None where no road is."""
        key = (self.haulers[hauler].speed_permille, a, b)
        if key not in self._legs:
            base = self.outfit.travel.minutes[a][b]
            self._legs[key] = None if base is None else -(-base * 1000 // key[0])
        return self._legs[key]

    def work_s(self, stop: Stop) -> int:
        """Return the person-seconds of work at a stop."""
        yard, pace = self.outfit.yards[stop.yard], self.outfit.pace
        seconds = stop.boards * pace.board_s + stop.blocks * pace.block_s + stop.fed * pace.feed_s
        if stop.off:
            seconds += stop.off * pace.inspect_s
            seconds += (stop.boxes + stop.brood) * pace.clear_box_s(yard.clearing)
            if yard.clearing in (Clearing.BOARDS, Clearing.WARM_BOARD):
                left_in = -(-stop.boxes * pace.left_in_permille // 1000)
                seconds += left_in * pace.clear_box_s(Clearing.BRUSH)
        if stop.strips:
            seconds += yard.colonies * pace.strips_s
        return seconds

    def stop_min(self, stop: Stop, crew: int) -> int:
        """Return the minutes a stop takes a crew."""
        pace = self.outfit.pace
        wash = pace.wash_min if self.outfit.yards[stop.yard].health is Health.SUSPECT else 0
        return pace.setup_min + wash + -(-self.work_s(stop) // (60 * crew))

    def stop_spans(self, stop: Stop, day: int) -> tuple[Span, ...]:
        """Return the hours in which a stop may lie on a day."""
        hours = self.hours[stop.yard]
        if stop.strips and day in hours.strips_shut:
            return ()
        if stop.off or stop.boards:
            return hours.both[day] if stop.fed else hours.opening[day]
        return hours.feeding[day] if stop.fed else hours.plain[day]

    def settled_from(self, stop: Stop, day: int) -> int:
        """Return the earliest minute at which a stop may end."""
        return self.hours[stop.yard].settled_from_min[day] if stop.off else 0

    def base_spans(self, base: Base, day: int) -> tuple[Span, ...]:
        """Return a base's hours on a day."""
        start = day * DAY_MIN
        return (Span(start + base.opens_min, start + base.closes_min),)

    def both_bases(self, day: int) -> tuple[Span, ...]:
        """Return the hours in which honey house and feed store, at one place, both open."""
        return meet(
            self.base_spans(self.outfit.honey_house.base, day),
            self.base_spans(self.outfit.feed_store, day),
        )
