"""What lies on a truck after each call, counted from the jobs of the trip."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from runplanner.audit.strips import each_g
from runplanner.daybook.trip import Action, Call, CallKind, Job, Trip
from runplanner.outfit.outfit import Outfit


@dataclass(frozen=True, slots=True)
class Cargo:
    """Goods aboard; boxes, brood boxes and wet boxes by the yard they belong to.

    ``strips_g`` is the mass of all strips, whatever kind they are.
    """

    boxes: Mapping[str, int]
    brood: Mapping[str, int]
    ml: int
    blocks: int
    boards: int
    strips: int
    feeders: int
    wet: Mapping[str, int]
    strips_g: int = 0

    def box_count(self) -> int:
        """Return all honey boxes aboard."""
        return sum(self.boxes.values())

    def wet_count(self) -> int:
        """Return all emptied boxes aboard."""
        return sum(self.wet.values())

    def brood_count(self) -> int:
        """Return all brood boxes aboard."""
        return sum(self.brood.values())


NOTHING = Cargo({}, {}, 0, 0, 0, 0, 0, {})


def work_of(trip: Trip) -> tuple[Action, ...]:
    """Return everything the trip does at its yards, in order."""
    return tuple(action for call in trip.yards() for action in call.actions)


def cargo_after(outfit: Outfit, trip: Trip) -> tuple[Cargo, ...]:
    """Return the goods aboard on leaving each call of ``trip``."""
    aboard = _loaded(outfit, trip)
    left = [aboard]
    for call in trip.calls[1:]:
        if call.kind is CallKind.YARD:
            aboard = _after_yard(aboard, call, outfit)
        else:
            aboard = _after_unloading(aboard, call, outfit, last=call is trip.calls[-1])
        left.append(aboard)
    return tuple(left)


def _loaded(outfit: Outfit, trip: Trip) -> Cargo:
    """Everything the trip needs; boards as the plan says, for more than needed may ride."""
    jobs = work_of(trip)
    return replace(
        NOTHING,
        ml=sum(action.ml for action in jobs),
        blocks=sum(_blocks(action) for action in jobs),
        boards=trip.calls[0].after.boards,
        strips=sum(_strips(action) for action in jobs),
        feeders=sum(action.feeders for action in jobs),
        wet=_wet_out(trip),
        strips_g=sum(_strips_g(outfit, call) for call in trip.yards()),
    )


def _wet_out(trip: Trip) -> Mapping[str, int]:
    """Emptied boxes ride out with the trip that puts them up, each to its own yard."""
    out: Mapping[str, int] = {}
    for call in trip.yards():
        out = _more(out, call.yard, sum(wet_up(action) for action in call.actions))
    return out


def _after_yard(aboard: Cargo, call: Call, outfit: Outfit) -> Cargo:
    jobs = call.actions
    return Cargo(
        boxes=_more(aboard.boxes, call.yard, sum(action.boxes for action in jobs)),
        brood=_more(aboard.brood, call.yard, sum(action.brood_boxes for action in jobs)),
        ml=aboard.ml - sum(action.ml for action in jobs),
        blocks=aboard.blocks - sum(_blocks(action) for action in jobs),
        boards=aboard.boards + sum(action.boards_off - boards_on(action) for action in jobs),
        strips=aboard.strips - sum(_strips(action) for action in jobs),
        feeders=aboard.feeders + sum(action.feeders_off - action.feeders for action in jobs),
        wet=_more(aboard.wet, call.yard, sum(wet_down(a) - wet_up(a) for a in jobs)),
        strips_g=aboard.strips_g - _strips_g(outfit, call),
    )


def _after_unloading(aboard: Cargo, call: Call, outfit: Outfit, *, last: bool) -> Cargo:
    at_honey_house = call.place == outfit.honey_house.base.place
    at_feed_store = call.place == outfit.feed_store.place
    return replace(
        aboard,
        boxes={} if at_honey_house else aboard.boxes,
        brood={} if at_feed_store else aboard.brood,
        boards=0 if last else aboard.boards,
        feeders=0 if last else aboard.feeders,
        wet={} if at_feed_store else aboard.wet,
    )


def _more(goods: Mapping[str, int], yard: str, count: int) -> Mapping[str, int]:
    return {**goods, yard: goods.get(yard, 0) + count} if count else goods


def _blocks(action: Action) -> int:
    return action.pieces if action.job is Job.BLOCK else 0


def _strips(action: Action) -> int:
    return action.pieces if action.job is Job.STRIPS else 0


def _strips_g(outfit: Outfit, call: Call) -> int:
    pieces = sum(_strips(action) for action in call.actions)
    return pieces * each_g(outfit, call.yard) if pieces else 0


def wet_up(action: Action) -> int:
    """Return the emptied boxes this job puts up."""
    return action.wet if action.job is Job.WET_UP else 0


def wet_down(action: Action) -> int:
    """Return the emptied boxes this job collects."""
    return action.wet if action.job is Job.WET_DOWN else 0


def boards_on(action: Action) -> int:
    """Return the boards this job puts out."""
    return action.pieces if action.job is Job.BOARDS else 0
