"""One day as a rival sees it: the jobs open, the trucks, and how each goes out."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from runplanner.season.standing.state import State
from runplanner.trips.ground import Ground
from tests.bench.jobs import Job, Setting

Trips = list[list[Job]]


@dataclass(frozen=True, slots=True)
class Truck:
    """A truck as a rival sees it on one day: its number and the way it goes out."""

    truck: int
    hauler: int


@dataclass(frozen=True, slots=True)
class Today:
    """One day's work to be routed."""

    ground: Ground
    state: State
    day: int
    jobs: list[Job]
    trucks: list[Truck]
    setting: Setting
    seconds: float


Router = Callable[[Today], Sequence[Trips]]
"""Returns the trips of every truck in ``trucks``."""


def trucks_out(ground: Ground, day: int, setting: Setting) -> list[Truck]:
    """Return how every truck goes out: with the crew wanted, trailers to the first that may."""
    outfit, found = ground.outfit, []
    trailers = [t.id for t in outfit.trailers if day not in t.out_days] if setting.trailer else []
    for truck, facts in enumerate(outfit.trucks):
        if day in facts.out_days:
            continue
        ways = [h for h in ground.siblings[truck] if ground.haulers[h].crew <= setting.crew]
        pulled = [h for h in ways if _trailer(ground, h) in trailers]
        plain = [h for h in ways if not _trailer(ground, h)]
        chosen = (pulled or plain or list(ground.siblings[truck]))[-1]
        if _trailer(ground, chosen) in trailers:
            trailers.remove(_trailer(ground, chosen))
        found.append(Truck(truck, chosen))
    return found


def _trailer(ground: Ground, hauler: int) -> str:
    trailer = ground.haulers[hauler].trailer
    return trailer.id if trailer else ""


def ways_out(ground: Ground, truck: Truck) -> list[int]:
    """Return the way chosen, then other crews with the same trailer."""
    same = _trailer(ground, truck.hauler)
    others = [h for h in ground.siblings[truck.truck] if _trailer(ground, h) == same]
    return [truck.hauler, *(h for h in others if h != truck.hauler)]
