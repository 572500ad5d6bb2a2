"""Published instances through the core that plans campaigns, and the best known values.

Sources of the values: CVRP sets A, B, P (Augerat et al. 1995), E (Christofides & Eilon 1969)
and X (Uchoa et al. 2017) as their instance files and CVRPLIB give them; Solomon's with 25 and
50 customers from the tables on Solomon's page (Kohl et al. 1999, Cook & Rich 1999, Irnich &
Villeneuve 2006; written down from memory), with 100 from the DIMACS challenge (2021); multi-trip
ones from the solution files of Yang (2023); periodic ones from Taverna & Tilk (2026), read as
driving time alone.  Solomon's and the multi-trip ones are in tenths.
"""

import json
import subprocess
import sys
import time
from collections.abc import Callable, Mapping
from typing import Any

from runplanner.daybook.plan import ALL_DONE
from runplanner.season.plan_season import searched
from runplanner.season.proof.bound import bound_of
from runplanner.season.prover import Prover
from runplanner.season.search.improve import SCOUTS, Improver
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.season.watch import Watch
from tests.bench.archives import SHARED, AbsentError, beside
from tests.bench.checked import BrokenError, length, minutes
from tests.bench.instances import Instance, cvrp, multi_trip, pickup_delivery, solomon
from tests.bench.periodic import improver_of, most_wages, periodic
from tests.bench.released import Released
from tests.bench.results import ROOT
from tests.bench.twin import UNIT_CENTS, ground_of, wages_cents

CVRP = {
    "A-n32-k5": 784, "A-n33-k5": 661, "A-n33-k6": 742, "A-n34-k5": 778, "A-n36-k5": 799,
    "A-n37-k5": 669, "A-n37-k6": 949, "A-n38-k5": 730, "A-n39-k5": 822, "A-n39-k6": 831,
    "A-n44-k6": 937, "A-n45-k6": 944, "A-n45-k7": 1146, "A-n46-k7": 914, "A-n48-k7": 1073,
    "B-n31-k5": 672, "B-n34-k5": 788, "B-n35-k5": 955, "B-n38-k6": 805, "B-n39-k5": 549,
    "B-n41-k6": 829, "B-n43-k6": 742, "B-n44-k7": 909, "B-n45-k5": 751, "B-n45-k6": 678,
    "B-n50-k7": 741, "B-n50-k8": 1312, "E-n22-k4": 375, "E-n23-k3": 569, "E-n30-k3": 534,
    "E-n33-k4": 835, "P-n16-k8": 450, "P-n19-k2": 212, "P-n20-k2": 216, "P-n21-k2": 211,
    "P-n22-k2": 216, "P-n22-k8": 603, "P-n23-k8": 529, "P-n40-k5": 458, "P-n45-k5": 510,
    "P-n50-k7": 554, "P-n50-k8": 631, "P-n50-k10": 696,
}  # fmt: skip
SOLOMON = {
    "R101.25": 6171, "R102.25": 5471, "R103.25": 4546, "R104.25": 4169, "R105.25": 5305,
    "R106.25": 4654, "R107.25": 4243, "R108.25": 3973, "R109.25": 4413, "R110.25": 4441,
    "R111.25": 4288, "R112.25": 3930, "C101.25": 1913, "C102.25": 1903, "C103.25": 1903,
    "C104.25": 1869, "RC101.25": 4611, "RC102.25": 3518, "RC103.25": 3328, "RC104.25": 3066,
    "RC105.25": 4113, "RC106.25": 3455, "RC107.25": 2983, "RC108.25": 2945,
    "R101.50": 10440, "R102.50": 9090, "R103.50": 7729, "R104.50": 6254, "R105.50": 8993,
    "C101.50": 3624, "C102.50": 3614, "C103.50": 3614, "C104.50": 3580, "RC101.50": 9440,
    "RC102.50": 8225, "RC103.50": 7109, "RC104.50": 5458, "RC105.50": 8553, "RC106.50": 7232,
}  # fmt: skip
SINGLE_TRIP = {
    "P-n20-k2": 216, "E-n33-k4": 835, "A-n45-k6": 944, "A-n80-k10": 1763, "E-n101-k14": 1067,
    "X-n101-k25": 27591, "R101.25": 6171, "RC101.50": 9440, "R104.100": 9715,
    "RC104.100": 11323, "C201.100": 5891, "SCA3-0": 63562, "CON8-3": 81106,
}  # fmt: skip
MULTI_TRIP = {"C201R0.25": 15006, "R201R0.5": 14426, "RC201R0.75": 18712}
PERIODIC = {
    "Milano_020_4_0": 562, "Milano_020_4_3": 657, "Milano_020_4_9": 538, "Torino_020_4_4": 557,
    "Torino_020_4_7": 613, "Roma_020_4_2": 545,
}  # fmt: skip
DEALT = {f"{name}~{number}": 0 for name in PERIODIC for number in (1, 2, 3)}
"""Instances like the periodic ones, of which no value is published."""
MANY_ROUNDS = 10**6
PROVEN = 50
"""Up to so many customers a bound is worked out as well."""
HAND_OVER_S = 2.0
"""Kept of the seconds given, for the last round and the end of two processes."""
ONE_ONLY = "one search only, the other was lost"
SMALL_SPD = {"SmallVRPSPD": 0}
"""No value is published; the smoke test tries every order instead."""

BEST: Mapping[str, int] = CVRP | SOLOMON | SINGLE_TRIP | MULTI_TRIP | PERIODIC | DEALT | SMALL_SPD
SETS: dict[str, dict[str, float]] = {
    "cvrp": dict.fromkeys(CVRP, 20.0),
    "solomon": dict.fromkeys(SOLOMON, 20.0),
    "spd": dict.fromkeys(SMALL_SPD, 5.0),
    "single": dict.fromkeys(SINGLE_TRIP, 20.0),
    "multi": dict.fromkeys(MULTI_TRIP, 20.0),
    "periodic": dict.fromkeys(PERIODIC, 60.0),
    "dealt": dict.fromkeys(DEALT, 60.0),
}


def instances_of(group: str) -> dict[str, float]:
    """Return a set's instances and their seconds, with periodic ones that lie beside the known."""
    found = dict(SETS[group])
    if group == "periodic":
        found |= dict.fromkeys((name for name in beside("pvrpif") if name not in found), 60.0)
    return found


def why_left_out(name: str) -> str:
    """Return in words why an instance cannot be run, or nothing."""
    if name in {"SCA3-0", "CON8-3"}:
        return f"Dethloff's (2001) files are in no registry package known here, nor in {SHARED}."
    try:
        periodic(name) if _periodic(name) else read(name)
    except AbsentError as why:
        return str(why)
    return ""


def read(name: str) -> Instance:
    """Return a published instance by name."""
    readers: tuple[tuple[Mapping[str, int], Callable[[str], Instance]], ...] = (
        (MULTI_TRIP, multi_trip),
        (SMALL_SPD, pickup_delivery),
    )
    for names, reader in readers:
        if name in names:
            return reader(name)
    return solomon(name) if "." in name else cvrp(name)


def run(name: str, seconds: float, rounds: int | None, began: float) -> dict[str, Any]:
    """Return what our core reaches on an instance, as a campaign: two searches side by side.

    The second has other dice and a process of its own; the bound's time is part of the first's.
    Periodic instances are gone through whole, which a second search would only do once more.
    """
    if _periodic(name):
        return one_search(name, seconds, rounds, began, 1)
    wish = {"what": "published", "instance": name, "seconds": seconds, "rounds": rounds}
    said = json.dumps({**wish, "seed": 2, "began": began})
    words = [sys.executable, "-m", "tests.bench.one_run", said]
    with subprocess.Popen(words, cwd=ROOT, stdout=subprocess.PIPE) as second:
        first = one_search(name, seconds, rounds, began, 1)
        its = second.communicate()[0].splitlines()
    found = better(first, json.loads(its[-1])) if its else {**first, "note": ONE_ONLY}
    proven = found["bound"] == found["cost"] > 0
    return {**found, "proven": proven, "total_s": time.time() - began}


def better(first: dict[str, Any], other: dict[str, Any]) -> dict[str, Any]:
    """Return the first search's row with the outcome of whichever did better."""
    if other["finished"] and (not first["finished"] or other["cost"] < first["cost"]):
        return {**first, **{key: other[key] for key in ("finished", "cost", "note")}}
    return first


def one_search(
    name: str, seconds: float, rounds: int | None, began: float, seed: int
) -> dict[str, Any]:
    """Return what one search reaches; the first of two has the bound worked out beside it.

    What is gone through whole wants its bound first.
    """
    improver, most_wages, measured = _told(name, seed)
    small = seed == 1 and len(improver.rebuild.near) <= PROVEN
    first = bound_of(improver.ground, ALL_DONE).cents if small and _periodic(name) else 0
    until = began + seconds - HAND_OVER_S
    prover = Prover(improver.ground.outfit, 0) if small and not _periodic(name) else None
    try:
        watch = Watch(rounds or MANY_ROUNDS, max(1.0, until - time.time()), None)
        state = searched(improver, improver.construct(), watch, SCOUTS)
        found = prover.bound(max(0.0, until - time.time())) if prover else None
    finally:
        if prover:
            prover.leave()
    said = _said(state, measured)
    bound = _in_units(max(first, found.cents if found else 0, watch.least_cents), most_wages)
    return {
        **said,
        "bound": bound,
        "proven": bound == said["cost"] > 0,
        "rounds": watch.done,
        "best_known": BEST.get(name, 0),
        "total_s": time.time() - began,
    }


def _periodic(name: str) -> bool:
    return name in PERIODIC or name in DEALT or name in beside("pvrpif")


def _told(name: str, seed: int) -> tuple[Improver, int, Callable[[State], int]]:
    """Return the campaign search for an instance, and what measures a plan by the instance alone.

    In between stands the most its drivers' hours can cost.
    """
    if _periodic(name):
        given = periodic(name)
        return improver_of(given, seed), most_wages(given), lambda s: minutes(given, _days(s))
    one = read(name)
    ground = ground_of(one)
    judge = Released(ground, one.released) if one.released else None
    improver = Improver(ground, seed, keeper=Keeper(ground, judge=judge))
    return improver, wages_cents(one), lambda s: length(one, [trips for _, trips in _days(s)])


def _days(state: State) -> list[tuple[int, list[list[int]]]]:
    """Return the day and the trips of every truck that goes out, as customers."""
    return [
        (day, [[stop.yard for stop in trip] for trip in judged.day.trips])
        for (day, _), judged in state.days.items()
    ]


def _in_units(cents: int, wages: int) -> int:
    """Return a bound in the instance's unit; rules that were added only make plans dearer."""
    return max(0, -(-(cents - wages) // UNIT_CENTS))


def _said(state: State, measured: Callable[[State], int]) -> dict[str, Any]:
    left = state.score.undone.not_off + state.score.undone.unfed_g
    if left:
        return {"finished": False, "cost": 0, "note": "customers left out"}
    try:
        return {"finished": True, "cost": measured(state), "note": ""}
    except BrokenError as broken:
        return {"finished": False, "cost": 0, "note": f"breaks the instance: {broken}"}
