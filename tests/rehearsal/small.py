"""A small campaign to rehearse: two yards, one truck, hand-made luck."""

from dataclasses import replace
from functools import cache

from runplanner.daybook.plan import Plan
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from runplanner.rehearsal.luck import Fate
from runplanner.season.plan_season import plan_season
from tests.outfits import a_truck, a_yard, an_outfit


def small_outfit() -> Outfit:
    """Two yards of 10 colonies and 15 boxes of 16 kg, four days."""
    return an_outfit([(10, 0), (14, 0)], [a_yard(1, days=4), a_yard(2, days=4)], days=4)


@cache
def small_plan() -> Plan:
    """Its plan."""
    return plan_season(small_outfit(), rounds=30)


@cache
def full_plan() -> Plan:
    """One yard of 10 colonies and 20 boxes of 50 kg, and a truck that carries 1,000 kg.

    Syrup rides out before the boxes are aboard; containers ride home and are empty of mass.
    """
    yard = a_yard(1, colonies=10, boxes=20, days=4)
    return _carrying(an_outfit([(10, 0)], [_heavy(yard)], days=4), 1_000_000)


@cache
def shared_plan() -> Plan:
    """Two yards of 10 colonies and 10 boxes of 50 kg on one trip; a truck that bears 21."""
    yards = [_heavy(a_yard(n, colonies=10, boxes=10, days=4)) for n in (1, 2)]
    return _carrying(an_outfit([(10, 0), (14, 0)], yards, days=4), 1_000_000)


def _heavy(yard: Yard) -> Yard:
    return replace(yard, box_g=50_000, box_spread_permille=100)


def _carrying(outfit: Outfit, load_g: int) -> Plan:
    """Return a plan for these facts and one truck that carries just so much."""
    truck = a_truck()
    crew_g = 2 * outfit.person_g
    tanks = tuple(replace(kind, empty_g=0) for kind in outfit.containers)
    bare = truck.empty_g + truck.fuel_g + truck.kit_g + crew_g
    truck = replace(truck, max_g=bare + load_g, train_max_g=None, axles=None)
    return plan_season(replace(outfit, trucks=(truck,), containers=tanks), rounds=30)


def fate(outfit: Outfit, **changes: object) -> Fate:
    """Everything as guessed, but for ``changes``."""
    days = range(outfit.season.n_days)
    same = Fate(
        tuple(yard.boxes for yard in outfit.yards),
        tuple(yard.box_g for yard in outfit.yards),
        tuple(tuple(1000 for _ in outfit.yards) for _ in days),
        tuple(tuple(False for _ in outfit.yards) for _ in days),
        tuple(tuple(False for _ in outfit.trucks) for _ in days),
    )
    return replace(same, **changes)  # type: ignore[arg-type]
