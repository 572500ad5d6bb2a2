"""Wet boxes in the chain of a yard: put up when all is off, collected before strips and feed."""

from dataclasses import dataclass

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from runplanner.visits.due import Due
from runplanner.visits.stop import Visit


@dataclass(slots=True)
class WetBoxes:
    """How far a yard's wet boxes have come.

    Whether they are spun in time is for the honey house to say; whether it is late enough
    in the day, for the visit's hours.  ``came_off`` are the full boxes that visits took off so
    far, ``standing`` those that are up; ``long_cents`` is what it costs that the last of them
    stood too long.
    """

    outfit: Outfit
    yard: Yard
    due: Due
    came_off: int = 0
    standing: int = 0
    long_cents: int = 0
    _since: Visit | None = None

    @property
    def up(self) -> bool:
        """Tell whether boxes stand above the cover boards."""
        return self.standing > 0

    @property
    def fact(self) -> bool:
        """Tell whether the visit that put them up has been driven, or is on its way."""
        return self._since is not None and self._since.fact

    def read(self, visit: Visit, *, all_off: bool) -> str:
        """Take note of a visit; return why it breaks the chain, or nothing."""
        stop = visit.stop
        return self._put_up(visit, all_off=all_off) if stop.wet_up else self._collect(visit)

    def lacking(self) -> int:
        """Return the colonies whose boxes are up with nobody to collect them."""
        return self.yard.colonies if self.up and self.due.wet else 0

    def missing(self) -> int:
        """Return the colonies that do not get their boxes back."""
        return self.yard.colonies if self.due.wet and self._since is None else 0

    def _put_up(self, visit: Visit, *, all_off: bool) -> str:
        first = self._since is None
        self.standing, self._since = self.standing + visit.stop.wet_up, visit
        if not self.due.wet:
            return "no wet boxes go into this yard"
        if not all_off:
            return "wet boxes before the yard is off"
        one_go = first and visit.stop.wet_up == self.came_off
        return "" if one_go else "wet boxes in parts, or twice"

    def _collect(self, visit: Visit) -> str:
        """Collect all that stands; a driven visit may have left some of it behind.

        How long boxes stood is paid whatever has been heard of the yard since.
        """
        up, stood, rules = self._since, self.standing, self.outfit.rules
        self.standing = max(0, stood - visit.stop.wet_down)
        if up is not None and 0 < visit.stop.wet_down == stood:
            over_min = visit.start_min - up.start_min - rules.wet_best_days * DAY_MIN
            days_long = -(-max(0, over_min) // DAY_MIN)
            self.long_cents = self.yard.colonies * days_long * self.outfit.prices.boards_long_cents
        if not self.due.take_off:
            return "nothing leaves this yard"
        if up is None or not stood or visit.stop.wet_down > stood:
            return "wet boxes collected that were not put up"
        if self.standing:
            return "wet boxes collected in parts"
        return "" if visit.day - up.day >= rules.wet_least_days else "wet boxes up too short"
