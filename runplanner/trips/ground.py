"""Everything about an outfit that trips need again and again, worked out once."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import combinations

from runplanner.days import DAY_MIN, Span, meet, without
from runplanner.haulage.axles import HUGE_G
from runplanner.haulage.deck import Cell, cell_of, places_under
from runplanner.haulage.hauler import Hauler, haulers
from runplanner.haulage.lots import comb_box_g
from runplanner.haulage.rush import Rush
from runplanner.haulage.stow import Tank, Train
from runplanner.haulage.tanks import Counts, Tanks, choices, parted, sized
from runplanner.haulage.travel import slowed_min
from runplanner.outfit.bases import Base
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Container
from runplanner.outfit.yards import CLOSED, Health
from runplanner.trips.day import Trip
from runplanner.trips.task import Task, task_of
from runplanner.visits.due import Due, due
from runplanner.visits.stop import Stop
from runplanner.visits.windows import Days, Windows, windows

Legs = tuple[tuple[int | None, ...], ...]
"""Minutes from place to place; None where no road is."""
TankChoice = Callable[[int], tuple[Tanks, ...]]
"""Sets of containers worth trying for so many ml."""
TankSets = tuple[TankChoice, ...]
"""The same by the floor that makes the places."""
Written = Mapping[tuple[int, int, tuple[int, ...]], bool]
"""Whether trips with honey and kit call at the feed store last, by day, truck and yards."""


@dataclass
class Ground:
    """Tables over yards (by index), haulers and days; built once for a planning call.

    Nothing is planned to start before ``now_min``.  Trips that were ``written`` down before are
    laid out as they were.
    """

    outfit: Outfit
    now_min: int = 0
    written: Written = field(default_factory=dict)
    dues: tuple[Due, ...] = field(init=False)
    hours: tuple[Windows, ...] = field(init=False)
    haulers: tuple[Hauler, ...] = field(init=False)
    _tasks: dict[Stop, Task] = field(init=False, default_factory=dict)
    _cell_of: dict[frozenset[int], int] = field(init=False, default_factory=dict)
    _tanks_of: dict[Counts | None, TankSets] = field(init=False, default_factory=dict)
    _parted_of: dict[tuple[Counts | None, Train, int], TankChoice] = field(
        init=False, default_factory=dict
    )

    def __post_init__(self) -> None:
        """Work out the tables."""
        self.dues = tuple(due(self.outfit, yard) for yard in self.outfit.yards)
        self.hours = tuple(windows(self.outfit, yard) for yard in self.outfit.yards)
        self.haulers = haulers(self.outfit)

    @property
    def earliest_min(self) -> int:
        """The first minute anything new may start: what starts by now is past.

        Before a campaign has begun that is the day before, for mixing.
        """
        return self.now_min + 1 if self.now_min > 0 else -DAY_MIN

    # Strips

    @cached_property
    def strip_g(self) -> tuple[int, ...]:
        """Mass of one of the strips that go into every yard."""
        return tuple(self.outfit.strip_g(yard) for yard in self.outfit.yards)

    @cached_property
    def strip_cents(self) -> tuple[int, ...] | None:
        """Price of one of the strips that go into every yard; None where all cost the same."""
        each = tuple(self.outfit.strip_cents(yard) for yard in self.outfit.yards)
        return each if set(each) - {self.outfit.prices.strip_cents} else None

    @cached_property
    def strip_stocks(self) -> tuple[tuple[int, frozenset[int]], ...]:
        """Strips in stock by substance, and the yards they are for; those bought at need out."""
        kinds = [self.outfit.strips_at(yard) for yard in self.outfit.yards]
        stocks: dict[str, int] = {}
        for kind in (self.outfit.strips, *self.outfit.strips_also):
            if kind.stock is not None:
                stocks[kind.substance] = min(kind.stock, stocks.get(kind.substance, kind.stock))
        return tuple(
            (stock, frozenset(i for i, kind in enumerate(kinds) if kind.substance == substance))
            for substance, stock in stocks.items()
        )

    # Boxes and the deck

    @cached_property
    def kinds(self) -> tuple[int, ...]:
        """Box kind of every yard, as an index into the outfit's boxes."""
        ids = [box.id for box in self.outfit.boxes]
        return tuple(ids.index(yard.box) for yard in self.outfit.yards)

    @cached_property
    def columns(self) -> tuple[int, ...]:
        """Key, for every yard, of the columns its boxes stand in: below 0 for a watched yard.

        ``~key`` is then the yard, for such boxes stand by themselves.
        """
        return tuple(~yard if self.watched[yard] else kind for yard, kind in enumerate(self.kinds))

    @cached_property
    def boards_out(self) -> int:
        """Boards that lie at yards as the campaign begins; the store is short of them."""
        return self.outfit.boards_lain

    @property
    def _kit_wanted(self) -> tuple[bool, bool]:
        """Whether boards, and feeders, that one truck takes to the honey house may lack another."""
        outfit = self.outfit
        apart = outfit.honey_house.base.place != outfit.feed_store.place
        return self.kit_scarce if apart else (False, False)

    @cached_property
    def kit_scarce(self) -> tuple[bool, bool]:
        """Whether boards, and feeders, are fewer than the colonies that several trucks go to."""
        outfit, kit = self.outfit, self.outfit.kit
        if len(outfit.trucks) == 1:
            return False, False
        pairs = list(zip(outfit.yards, self.dues, strict=True))
        boards = self.boards_out + sum(y.colonies for y, due in pairs if due.boards_to_come())
        fed = sum(yard.colonies for yard, due in pairs if due.rounds)
        feeders = kit.feeders_now
        return kit.boards_now < boards, feeders is not None and feeders < fed

    def kit_home(self, day: int, truck: int, trip: Trip) -> bool:
        """Tell whether what a trip brings back goes to the feed store with it."""
        yards = tuple(stop.yard for stop in trip) if self.written else ()
        written = self.written.get((day, truck, yards))
        return any(self._kit_wanted_of(stop) for stop in trip) if written is None else written

    def kit_surely_home(self, day: int, stop: Stop) -> bool:
        """Tell whether what a stop brings back goes to the feed store, whatever its trip."""
        return (day, stop.yard) not in self._kept_aboard and self._kit_wanted_of(stop)

    @cached_property
    def _kept_aboard(self) -> frozenset[tuple[int, int]]:
        """Days and yards of written trips that do not call at the feed store."""
        every = self.written.items()
        return frozenset((day, one) for (day, _, yards), home in every if not home for one in yards)

    def _kit_wanted_of(self, stop: Stop) -> bool:
        """Tell whether another truck may lack what a stop brings back."""
        boards, feeders = self._kit_wanted
        if not (boards or feeders):
            return False
        used = self.task(stop).used
        return bool((boards and used.boards_back) or (feeders and used.feeders_back))

    @cached_property
    def brood_g(self) -> tuple[int, ...]:
        """Mass of one brood box with its comb, by yard."""
        return tuple(comb_box_g(self.outfit, yard) for yard in self.outfit.yards)

    @cached_property
    def cells(self) -> tuple[Cell, ...]:
        """Floors that deck places may have: of every box kind by itself, then of kinds mixed.

        Of however many kinds, one is the longest and one the widest: so two make every mixture.
        """
        outfit, boxes = self.outfit, self.outfit.boxes
        own = [cell_of(outfit, [box]) for box in boxes]
        mixed = dict.fromkeys(cell_of(outfit, pair) for pair in combinations(boxes, 2))
        return (*own, *(cell for cell in mixed if cell not in own))

    def cell(self, kinds: frozenset[int]) -> int:
        """Return which of the ``cells`` takes boxes of these kinds; of all there are for none."""
        if kinds not in self._cell_of:
            boxes = [self.outfit.boxes[kind] for kind in sorted(kinds)]
            self._cell_of[kinds] = self.cells.index(cell_of(self.outfit, boxes))
        return self._cell_of[kinds]

    @cached_property
    def places(self) -> tuple[tuple[int, ...], ...]:
        """Deck places by hauler and cell."""
        return tuple(tuple(h.places(*cell) for cell in self.cells) for h in self.haulers)

    @cached_property
    def high(self) -> tuple[tuple[int, ...], ...]:
        """Stack height in boxes by hauler and box kind."""
        return tuple(tuple(h.high(box) for box in self.outfit.boxes) for h in self.haulers)

    # Containers

    @cached_property
    def tank_places(self) -> tuple[tuple[int, ...], ...]:
        """Places one container covers, by container and cell."""
        return tuple(
            tuple(places_under(tank, *cell) for cell in self.cells)
            for tank in self.outfit.containers
        )

    @cached_property
    def tanks_by_size(self) -> tuple[tuple[tuple[int, Tank], ...], ...]:
        """Each container's kind and what it is, the largest first, by cell."""
        return tuple(
            sized(self.outfit.containers, self._tanks_on(cell)) for cell in range(len(self.cells))
        )

    def _tanks_on(self, cell: int) -> tuple[int, ...]:
        return tuple(under[cell] for under in self.tank_places)

    @cached_property
    def tanks(self) -> TankSets:
        """What may be taken of all containers that are owned."""
        return self.tanks_of(None)

    def tanks_of(self, left: Counts | None) -> TankSets:
        """Return what may be taken where so many of each kind are left; None: all owned."""
        if left not in self._tanks_of:
            there = self._there(left)
            self._tanks_of[left] = tuple(
                choices(there, self._tanks_on(cell)) for cell in range(len(self.cells))
            )
        return self._tanks_of[left]

    def parted_of(self, left: Counts | None, train: Train, cell: int) -> TankChoice:
        """Return what truck and trailer bear as parts, where so many of each kind are left."""
        key = left, train, cell
        if key not in self._parted_of:
            self._parted_of[key] = parted(self._there(left), self._tanks_on(cell), train)
        return self._parted_of[key]

    def _there(self, left: Counts | None) -> tuple[Container, ...]:
        kinds = self.outfit.containers
        if left is None:
            return kinds
        return tuple(replace(kind, owned=n) for kind, n in zip(kinds, left, strict=True))

    # Trucks

    @cached_property
    def load_into(self) -> tuple[tuple[int, ...], ...]:
        """Most load a hauler may carry into or out of a yard, by hauler and yard."""
        return tuple(
            tuple(h.load_for(yard.access) for yard in self.outfit.yards) for h in self.haulers
        )

    @cached_property
    def axle_g(self) -> tuple[tuple[int, int], ...]:
        """Least and most load that the axles bear, by hauler; with a trailer see ``trains``."""
        return tuple((0, HUGE_G) if h.trailer else h.axle_loads() for h in self.haulers)

    @cached_property
    def trains(self) -> tuple[tuple[Train, ...] | None, ...]:
        """What truck and trailer bear each, by hauler and cell; None without a trailer."""
        density = self.outfit.feed.density_g_per_l
        return tuple(
            tuple(h.train(*cell, density) for cell in self.cells) if h.trailer else None
            for h in self.haulers
        )

    @cached_property
    def truck_index(self) -> tuple[int, ...]:
        """Truck of every hauler, as an index into the outfit's trucks."""
        ids = [truck.id for truck in self.outfit.trucks]
        return tuple(ids.index(h.truck.id) for h in self.haulers)

    @cached_property
    def siblings(self) -> tuple[tuple[int, ...], ...]:
        """For every truck, its haulers: without trailer first, then fewest people first."""
        return tuple(
            tuple(
                sorted(
                    (h for h in range(len(self.haulers)) if self.truck_index[h] == t),
                    key=lambda h: (self.haulers[h].trailer is not None, self.haulers[h].crew, h),
                )
            )
            for t in range(len(self.outfit.trucks))
        )

    @cached_property
    def rush(self) -> Rush | None:
        """How long drives take by the hour; None where all hours are alike."""
        by_hour = self.outfit.travel.by_hour
        return Rush(by_hour) if by_hour else None

    @cached_property
    def legs(self) -> tuple[Legs, ...]:
        """Driving minutes by hauler, from place, to place, at the best hour of the day."""
        speeds = {h.speed_permille for h in self.haulers}
        tables = {speed: _slowed(self.outfit.travel.minutes, speed) for speed in sorted(speeds)}
        return tuple(tables[h.speed_permille] for h in self.haulers)

    def leg_min(self, hauler: int, a: int, b: int) -> int | None:
        """Return the driving minutes from place ``a`` to place ``b``; None where no road is."""
        return self.legs[hauler][a][b]

    # Yards

    @cached_property
    def watched(self) -> tuple[bool, ...]:
        """Yards whose boxes are kept apart and which come last on a trip."""
        return tuple(yard.health is Health.WATCH for yard in self.outfit.yards)

    @cached_property
    def last_only(self) -> tuple[bool, ...]:
        """Yards that must be the last stop of their trip."""
        return tuple(yard.health is not Health.SOUND for yard in self.outfit.yards)

    @cached_property
    def fixed_min(self) -> tuple[int, ...]:
        """Minutes a stop takes whatever is done, by yard."""
        pace, yards = self.outfit.pace, self.outfit.yards
        return tuple(pace.fixed_min(closed=yard.health in CLOSED) for yard in yards)

    def place(self, yard: int, day: int) -> int:
        """Return the place index of a yard on a day."""
        return self.outfit.yards[yard].place_on(day)

    def gone_by(self, yard: int, day: int) -> int:
        """Return the minute of a day by which a truck has left a yard."""
        return self.outfit.yards[yard].access.open_on(day).end_min

    # Stops

    def task(self, stop: Stop) -> Task:
        """Return what a stop means for a truck."""
        task = self._tasks.get(stop)
        if task is None:
            task = task_of(self.outfit, self.dues[stop.yard], self.hours[stop.yard], stop)
            self._tasks[stop] = task
        return task

    def work_s(self, stop: Stop) -> int:
        """Return the person-seconds of work at a stop."""
        return self.task(stop).work_s

    def stop_min(self, stop: Stop, crew: int) -> int:
        """Return the minutes a stop takes a crew that has driven there."""
        return self.fixed_min[stop.yard] + self.going_on_min(stop, crew)

    def going_on_min(self, stop: Stop, crew: int) -> int:
        """Return the minutes of its work alone: no set-up after another call of its yard."""
        return -(-self.task(stop).work_s // (60 * crew))

    def stop_spans(self, stop: Stop, day: int) -> tuple[Span, ...]:
        """Return the hours in which a stop may lie on a day."""
        return self.task(stop).spans[day]

    # Bases

    @cached_property
    def store_spans(self) -> Days:
        """Hours of the feed store by day."""
        return self._base_spans(self.outfit.feed_store)

    @cached_property
    def house_spans(self) -> Days:
        """Hours in which the honey house takes deliveries, by day."""
        house = self.outfit.honey_house
        return tuple(without(spans, house.full) for spans in self._base_spans(house.base))

    @cached_property
    def both_spans(self) -> Days:
        """Hours in which honey house and feed store, at one place, are both open."""
        both = zip(self.house_spans, self.store_spans, strict=True)
        return tuple(meet(house, store) for house, store in both)

    def _base_spans(self, base: Base) -> Days:
        starts = (day * DAY_MIN for day in range(self.outfit.season.n_days))
        return tuple((Span(at + base.opens_min, at + base.closes_min),) for at in starts)


def _slowed(minutes: Legs, speed_permille: int) -> Legs:
    """Return a travel table for a speed, every leg rounded up."""
    return tuple(
        tuple(None if cell is None else slowed_min(cell, speed_permille) for cell in row)
        for row in minutes
    )
