"""How fast a loaded truck goes on each class of road: one table, for the user to change.

All figures are common practice for a loaded light truck, none is published; timed legs put
them right as a whole (see calibrate).  Classes are OpenStreetMap's values of ``highway``.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

ROAD_KM_H: Final[Mapping[str, int]] = {
    "motorway": 90,
    "motorway_link": 60,
    "trunk": 80,
    "trunk_link": 50,
    "primary": 70,
    "primary_link": 45,
    "secondary": 60,
    "secondary_link": 40,
    "tertiary": 50,
    "tertiary_link": 35,
    "unclassified": 45,
    "residential": 30,
    "road": 30,
    "living_street": 10,
    "service": 15,
    "track": 15,
    "ferry": 0,
}
"""Average speeds, bends and junctions counted; a class that is missing is not driven on.

Ferries are not taken unless their speed is typed: they have timetables, and cost money.
"""

CAP_KM_H: Final[Mapping[str, int]] = {
    "unpaved": 50,
    "rough": 20,
    "private": 20,
}
"""Upper limits: gravel, bare ground, and roads that are driven by leave only.

The low limit on private roads keeps them from becoming short cuts.
"""

WAIT_S: Final[Mapping[str, int]] = {"gate": 60, "locked_gate": 180, "ferry_wait": 1200}
"""Open, drive through, close; with a lock, three times that; buy, wait, board."""
FERRY: Final = "ferry"

KINDS: Final = tuple(ROAD_KM_H)
NO_STOP: Final = frozenset(("motorway", "motorway_link", FERRY))
"""Nobody gets off or on along these."""
UNPAVED: Final = frozenset((
    "bad", "cobblestone", "compacted", "fine_gravel", "gravel", "pebblestone",
    "unhewn_cobblestone", "unpaved",
))  # fmt: skip
ROUGH: Final = frozenset((
    "clay", "dirt", "earth", "grass", "grass_paver", "ground", "horrible", "mud", "rock", "sand",
    "stone", "very_bad", "woodchips",
))  # fmt: skip
"""Values of ``surface`` and of ``smoothness``; which counts as which is common practice."""
GRADE_KM_H: Final[Mapping[str, int]] = {
    "grade1": 40, "grade2": 25, "grade3": 20, "grade4": 12, "grade5": 8,
}  # fmt: skip
"""Tracks that carry a grade go by it, unless a speed of tracks is typed."""


@dataclass(frozen=True, slots=True)
class Speeds:
    """The tables in metres an hour and seconds; a class at 0 is not driven on."""

    road: Mapping[str, int] = field(default_factory=lambda: _m_per_h(ROAD_KM_H))
    cap: Mapping[str, int] = field(default_factory=lambda: _m_per_h(CAP_KM_H))
    grade: Mapping[str, int] = field(default_factory=lambda: _m_per_h(GRADE_KM_H))
    wait_s: Mapping[str, int] = field(default_factory=lambda: dict(WAIT_S))

    def words(self) -> str:
        """Return all figures on one line, the same line for the same figures."""
        tables = (self.road, self.cap, self.grade, self.wait_s)
        return ";".join(f"{key}={table[key]}" for table in tables for key in sorted(table))


def _m_per_h(table: Mapping[str, int]) -> dict[str, int]:
    return {key: km_h * 1000 for key, km_h in table.items()}


def changed(road: Mapping[str, int], cap: Mapping[str, int], wait_s: Mapping[str, int]) -> Speeds:
    """Return the table with what a user typed (metres an hour, seconds) in place of ours."""
    plain = Speeds()
    grade = dict.fromkeys(plain.grade, road["track"]) if "track" in road else plain.grade
    return Speeds({**plain.road, **road}, {**plain.cap, **cap}, grade, {**plain.wait_s, **wait_s})
