"""People, their hours and how long their work takes."""

from dataclasses import dataclass, field, replace

from runplanner.outfit.later import LATER
from runplanner.outfit.yards import BEES_STAY, Clearing


@dataclass(frozen=True, slots=True)
class Person:
    """One of the crew; ``off_days`` are day numbers away."""

    id: str
    name: str
    drives: bool
    spins: bool
    mixes: bool
    off_days: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Pace:
    """Person-seconds and minutes each piece of work takes.

    Work at a stop takes ``setup_min`` plus the person-seconds shared by the crew.

    Args:
        setup_min: Minutes for each stop, whatever the crew and its calls (gate, suits, smoker).
        inspect_s: Inspect and condense, each colony.
        box_s: Clear, lift and load one honey box, by clearing method.
        left_in_permille: Boxes in which bees remain under boards and want brushing.
        board_s: Put one board on.
        block_s: Place one fondant block.
        feed_s: Fill one feeder.
        strips_s: Hang one colony's strips.
        wash_min: Wash down after a suspect yard or one at a standstill, each stop.
        load_min: Minutes to load at the feed store, each trip.
        unload_min: Minutes at each unloading call.
        unload_box_s: Person-seconds to unload one box.
        pump_ml_per_min: Filling rate at the feed store.
        wet_box_s: Put up or collect one wet box.
        feeder_s: Take one emptied feeder off.
    """

    setup_min: int
    inspect_s: int
    box_s: tuple[tuple[Clearing, int], ...]
    left_in_permille: int
    board_s: int
    block_s: int
    feed_s: int
    strips_s: int
    wash_min: int
    load_min: int
    unload_min: int
    unload_box_s: int
    pump_ml_per_min: int
    wet_box_s: int = field(default=60, metadata=LATER)
    feeder_s: int = field(default=45, metadata=LATER)

    def clear_box_s(self, clearing: Clearing) -> int:
        """Return the person-seconds to clear and load one box by ``clearing``."""
        return dict(self.box_s)[clearing]

    def take_off_s(self, colonies: int, boxes: int, brood_boxes: int, way: Clearing) -> int:
        """Return the person-seconds to take honey off so many colonies by ``way``.

        Where bees stay in some boxes these are brushed as well.
        """
        seconds = colonies * self.inspect_s + (boxes + brood_boxes) * self.clear_box_s(way)
        if way in BEES_STAY:
            left_in = -(-boxes * self.left_in_permille // 1000)
            seconds += left_in * self.clear_box_s(Clearing.BRUSH)
        return seconds

    def fixed_min(self, *, closed: bool) -> int:
        """Return the minutes a stop takes whatever is done, washing down at a ``closed`` yard."""
        return self.setup_min + (self.wash_min if closed else 0)

    def unloading_min(self, boxes: int, crew: int) -> int:
        """Return the minutes of an unloading call with so many boxes of any kind, by ``crew``."""
        return self.unload_min - (-boxes * self.unload_box_s // (60 * crew))


@dataclass(frozen=True, slots=True)
class Hours:
    """The working day and the limits on it.

    Args:
        start_min: Earliest minute of the day a truck may leave home.
        end_min: Latest minute of the day it must be back.
        noon_min: Where the first half-day ends and the second begins.
        normal_min: Paid minutes before overtime starts.
        duty_max_min: Longest duty in a day.
        driving_max_min: Longest driving in a day.
        drive_break_after_min: Driving after which a break is due.
        drive_break_min: Length of that break.
        duty_break_after_min: Duty after which a break is due.
        duty_break_min: Length of that break.
        rules: Name of the published rules the limits were taken from; empty when typed.
    """

    start_min: int
    end_min: int
    noon_min: int
    normal_min: int
    duty_max_min: int
    driving_max_min: int
    drive_break_after_min: int
    drive_break_min: int
    duty_break_after_min: int
    duty_break_min: int
    rules: str = field(default="", metadata=LATER)

    @property
    def longest_min(self) -> int:
        """The longest that a truck can be out on one day."""
        return min(self.duty_max_min, self.end_min - self.start_min)

    @property
    def duty_pause_min(self) -> int:
        """What a break from duty takes at least; one of no minutes is no break."""
        return max(1, self.duty_break_min)

    @property
    def drive_pause_min(self) -> int:
        """What a break from driving takes at least; one of no minutes is no break."""
        return max(1, self.drive_break_min)

    def ways_to_rest(self) -> tuple["Hours", ...]:
        """Return these hours, and the same with longer breaks from duty where they may do for two.

        A break from duty that lasts as long as one from driving is one from driving as well.
        """
        if self.duty_break_min >= self.drive_break_min:
            return (self,)
        return self, replace(self, duty_break_min=self.drive_break_min)
