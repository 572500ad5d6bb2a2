"""How much of a stock has been used by now, and how much of it trucks have aboard.

Neither is in store: what a truck has left comes back once its trip is over at the store, or when
it next loads.
"""

from typing import NamedTuple

from runplanner.daybook.plan import Plan
from runplanner.daybook.riding import in_store_min, not_back, takes
from runplanner.daybook.trip import Trip
from runplanner.paperwork.speech.tongue import tr
from runplanner.paperwork.speech.trip_state import TripState, call_over, trip_state


class Gone(NamedTuple):
    """What of a stock is not in store now, in pieces, or ml of syrup."""

    used: int
    aboard: int = 0

    @property
    def all(self) -> int:
        """Return both together."""
        return self.used + self.aboard


def gone_now(plan: Plan, what: str) -> Gone:
    """Return what of a stock, by its name in `daybook.riding`, has been used or is aboard."""
    home = in_store_min(
        (one for one in plan.shifts if any(trip.driven for trip in one.trips)),
        plan.outfit.feed_store.place,
    )
    trips = (trip for shift in plan.shifts for trip in shift.trips)
    loaded = [one for one in trips if trip_state(plan, one) is not TripState.TO_LOAD]
    used = sum(_used(plan, trip, what) for trip in loaded)
    return Gone(used, sum(_aboard(plan, trip, what, home[trip.id]) for trip in loaded))


def _used(plan: Plan, trip: Trip, what: str) -> int:
    over = (call for call in trip.yards() if call_over(plan, call))
    return sum(takes(plan.outfit, call.yard, call.actions)[what] for call in over)


def _aboard(plan: Plan, trip: Trip, what: str, home_min: int) -> int:
    """Return what a trip has aboard for stops to come, and for none until that is in store."""
    ahead = (call for call in trip.yards() if not call_over(plan, call))
    wanted = sum(takes(plan.outfit, call.yard, call.actions)[what] for call in ahead)
    back = home_min <= plan.now_min
    return wanted + (0 if back else max(0, not_back(plan.outfit, trip, what, plan.now_min)))


def beside_words(used: str, aboard: str) -> str:
    """Return, in words, what is not in store; empty amounts are left out, one at most."""
    if used and aboard:
        return tr("beside {aboard} aboard trucks and {gone} used by now", aboard=aboard, gone=used)
    if aboard:
        return tr("beside {aboard} aboard trucks", aboard=aboard)
    return tr("beside {gone} used by now", gone=used)
