"""What the tags of a road or of a point on it mean for one truck.

The meaning of each tag is as the OpenStreetMap wiki describes it (Key:access, Key:oneway,
Key:maxweight, Key:maxheight, Key:barrier and their like; from memory).  A value that cannot
be read counts as not there, but an unknown kind of access counts as private; limits on
mass, width and height that cannot be read are told (``unread``), for `check` to say.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from runplanner.roads.conditional import (
    AHEAD,
    BACK,
    SHUT_WAYS,
    first_of,
    settled,
    unread_conditions,
)
from runplanner.roads.endings import CONDITIONAL, Tags, headed, shown, spelled, spellings
from runplanner.roads.figures import (
    LENGTH_MM,
    MASS_G,
    SPEED_M_PER_H,
    figure,
    measured,
    parts_of,
)
from runplanner.roads.network import metres_apart
from runplanner.roads.speeds import FERRY, KINDS, NO_STOP, ROUGH, UNPAVED, Speeds
from runplanner.roads.vehicle import AXLE_LIMITS, FREE, NOBODY, Vehicle

LIMIT: Final = "max"
"""What the keys of limits begin with."""
SHUT: Final = -1
"""The wait at a point that nobody drives past."""
_SHUT_BARRIERS: Final = frozenset((
    "bar", "block", "bollard", "bus_trap", "chain", "cycle_barrier", "debris", "ditch", "fence",
    "full-height_turnstile", "guard_rail", "hedge", "horse_stile", "jersey_barrier",
    "kissing_gate", "log", "motorcycle_barrier", "planter", "retaining_wall", "rope", "spikes",
    "stile", "sump_buster", "tank_trap", "turnstile", "wall",
))  # fmt: skip
"""Those of the OpenStreetMap wiki's Key:barrier that keep trucks out unless a tag lets them in."""
_GATES: Final = frozenset((
    "gate", "hampshire_gate", "lift_gate", "sliding_gate", "swing_gate", "wicket_gate",
))  # fmt: skip
_NO_LIMIT: Final = frozenset((
    "", "default", "below_default", "no", "no_indications", "no_limit", "no_sign", "none",
    "unknown", "unlimited", "unsigned",
))  # fmt: skip
"""What stands in place of a limit where none is signed."""
_FOUR_WHEEL: Final = frozenset(("yes", "recommended"))
_DURATIONS: Final = (
    re.compile(r"(?P<h>[0-9]{1,2}):(?P<m>[0-9]{2})(?::(?P<s>[0-9]{2}))?"),
    re.compile(r"(?P<h>)(?P<m>[0-9]{1,4})(?P<s>)"),
    re.compile(r"PT(?:(?P<h>[0-9]{1,2})H)?(?:(?P<m>[0-9]{1,3})M)?(?:(?P<s>[0-9]{1,5})S)?"),
)


@dataclass(frozen=True, slots=True)
class Road:
    """A stretch of road: its class, and metres an hour ahead and back, 0 where shut."""

    kind: int
    ahead: int
    back: int


def road_of(tags: Tags, vehicle: Vehicle, speeds: Speeds) -> Road | None:
    """Return the road, or None when ``vehicle`` does not drive on it."""
    ahead, back = _held(tags, vehicle)
    goes, comes = _ways(ahead, vehicle)
    there = _pace(ahead, vehicle, speeds)
    here = there if back is ahead else _pace(back, vehicle, speeds)
    paces = (there if goes else 0, here if comes else 0)
    return Road(KINDS.index(class_of(tags)), *paces) if any(paces) else None


def _held(tags: Tags, vehicle: Vehicle) -> tuple[Tags, Tags]:
    """Return the tags that hold, or may hold, for who drives ahead and for who drives back."""
    ahead, back = headed(tags)
    first = settled(ahead, vehicle)
    return first, first if back is ahead else settled(back, vehicle)


def _pace(tags: Tags, vehicle: Vehicle, speeds: Speeds) -> int:
    """Return metres an hour, 0 where ``vehicle`` does not drive."""
    name = class_of(tags)
    pace = speeds.road.get(name, 0)
    if name == FERRY and not _takes_trucks(tags, vehicle):
        return 0
    access = _access(tags, vehicle)
    if not pace or access in NOBODY or tags.get("area") == "yes" or not _fits(tags, vehicle):
        return 0
    if _too_bad(tags, vehicle):
        return 0
    if name == "track":
        pace = speeds.grade.get(tags.get("tracktype", ""), pace)
    return min(pace, _limit(tags, vehicle), *_caps(tags, access, speeds))


def barred_by(tags: Tags, vehicle: Vehicle, speeds: Speeds) -> str:
    """Return the tag that keeps ``vehicle`` off what is a road for others, "" where none does."""
    name = tags.get("highway", "")
    if name in NO_STOP or not speeds.road.get(name, 0) or tags.get("area") == "yes":
        return ""
    return shut_by(tags, vehicle)


def shut_by(tags: Tags, vehicle: Vehicle) -> str:
    """Return the tag of a road, or of a point on it, that nobody gets past with ``vehicle``.

    A limit comes first; the tag stands as in the file, with a space between key and value.
    """
    key = _stopping(tags, vehicle)
    said_of = spelled(tags).get(key, ())
    alone = (one for one in said_of if _stopping({one: tags[one]}, vehicle))
    said = next(alone, key)
    return shown(said, tags[said]) if said else ""


def _stopping(tags: Tags, vehicle: Vehicle) -> str:
    """Return the key that says that ``vehicle`` does not get past, "" where none does."""
    return next((key for held in _held(tags, vehicle) for key in _against(held, vehicle)), "")


def _against(tags: Tags, vehicle: Vehicle) -> list[str]:
    small = [
        key for key, own, units in _limits(vehicle) if not _fits_in(tags.get(key, ""), own, units)
    ]
    access = next((key for key in vehicle.access_keys if tags.get(key)), "")
    shut = [access] if tags.get(access) in NOBODY else []
    posts = ["barrier"] if tags.get("barrier") in _SHUT_BARRIERS else []
    return [*small, *shut, *_too_bad(tags, vehicle), *posts]


def _too_bad(tags: Tags, vehicle: Vehicle) -> list[str]:
    """Return the keys that say that a road is too bad for the vehicle."""
    return [key for key, words in vehicle.too_bad if tags.get(key) in words]


def class_of(tags: Tags) -> str:
    """Return the class of a road, "" for what is none; a ferry is one for those who take it."""
    return tags.get("highway", "") or (FERRY if tags.get("route") == FERRY else "")


def _takes_trucks(tags: Tags, vehicle: Vehicle) -> bool:
    """Tell whether a ferry says that it takes vehicles: most small ones do not, and are mute."""
    return any(tags.get(key) in FREE for key in (*vehicle.access_keys[:3], "motorcar"))


def crossing_s(tags: Tags) -> int | None:
    """Return the seconds that ``duration`` says a crossing takes, None where it says none.

    Hours and minutes (``1:30``), minutes (``20``), or ISO 8601 (``PT1H30M``).
    """
    text = tags.get("duration", "")[:20]
    for pattern in _DURATIONS:
        found = pattern.fullmatch(text)
        if found:
            hours, minutes, seconds = (int(part or 0) for part in found.group("h", "m", "s"))
            return hours * 3600 + minutes * 60 + seconds or None
    return None


def sailed(road: Road, tags: Tags, runs: Sequence[Sequence[tuple[float, float]]]) -> Road:
    """Return a ferry at the speed that its crossing comes to.

    ``runs`` are its lines, as latitudes and longitudes.  The wait for it is no part of it: who
    changes from one line to the next has boarded (see ``Drawing``).
    """
    lines = [np.array(run, dtype=np.float64) for run in runs if len(run) > 1]
    dm = sum(
        int(metres_apart(line[:-1, 0], line[:-1, 1], line[1:, 0], line[1:, 1]).sum() * 10)
        for line in lines
    )
    sails = crossing_s(tags) or dm * 360 // max(road.ahead, road.back)
    pace = max(1, dm * 360 // max(1, sails))
    return Road(road.kind, pace if road.ahead else 0, pace if road.back else 0)


def _access(tags: Tags, vehicle: Vehicle) -> str:
    return first_of(tags, vehicle.access_keys) or "yes"


def _caps(tags: Tags, access: str, speeds: Speeds) -> list[int]:
    """Return every upper limit of what the road is like, and of leave to drive it."""
    says = {tags.get("surface", ""), tags.get("smoothness", "")}
    caps = []
    if says & UNPAVED:
        caps.append(speeds.cap["unpaved"])
    if says & ROUGH or tags.get("4wd_only") in _FOUR_WHEEL:
        caps.append(speeds.cap["rough"])
    if access not in FREE:
        caps.append(speeds.cap["private"])
    return caps


def _limit(tags: Tags, vehicle: Vehicle) -> int:
    """Return the least speed that is signed for all and for trucks like this."""
    return min(_signed(tags.get(key, "")) for key in vehicle.speed_keys)


def _signed(text: str) -> int:
    if text == "walk":
        return 6000
    return max(1000, measured(text, SPEED_M_PER_H) or 1_000_000)


def _ways(tags: Tags, vehicle: Vehicle) -> tuple[bool, bool]:
    """Return whether one may drive ahead and back."""
    says = set(first_of(tags, vehicle.one_way_keys).split(";"))
    ahead, back = not says.isdisjoint(AHEAD), not says.isdisjoint(BACK)
    if SHUT_WAYS in says or (ahead and back):
        return False, False
    if ahead or back:
        return ahead, back
    round_ = tags.get("junction") in {"roundabout", "circular"}
    implied = round_ or tags.get("highway") == "motorway"
    return True, not implied or bool(says & {"no", "0", "false"})


def _fits(tags: Tags, vehicle: Vehicle) -> bool:
    """Tell whether no limit on mass, width or height is in the way."""
    return all(_fits_in(tags.get(key, ""), own, units) for key, own, units in _limits(vehicle))


def _fits_in(text: str, own: int, units: Mapping[str, int]) -> bool:
    limit = measured(text, units)
    return limit is None or own <= limit


def unread(tags: Tags, vehicle: Vehicle) -> list[str]:
    """Return the limits that ``vehicle`` would have to keep to, could they be read or judged."""
    told = [key for key in tags if key.startswith(LIMIT) or CONDITIONAL in key]
    if not told:
        return []
    said_of = spelled(told)
    return [
        *unread_conditions(tags, said_of, vehicle),
        *_not_kept(tags, said_of, vehicle),
        *(
            shown(said, part)
            for key, _, units in _limits(vehicle)
            for said in said_of.get(key, ())
            for part in _alone(tags, said, key, vehicle)
            if part not in _NO_LIMIT and figure(part, units) is None
        ),
    ]


def _alone(tags: Tags, said: str, key: str, vehicle: Vehicle) -> list[str]:
    """Return the limits that ``said`` puts in place of ``key``."""
    ahead, back = _held({said: tags[said]}, vehicle)
    return parts_of(ahead.get(key) or back.get(key, ""))


def _not_kept(tags: Tags, said_of: Mapping[str, list[str]], vehicle: Vehicle) -> list[str]:
    """Return the limits on axles that ``vehicle`` may break: its axles are not known here."""
    return [
        shown(said, tags[said])
        for key in AXLE_LIMITS
        for said in said_of.get(key, ())
        if not all(
            _fits_in(part, vehicle.mass_g, MASS_G) for part in _alone(tags, said, key, vehicle)
        )
    ]


def _limits(vehicle: Vehicle) -> list[tuple[str, int, Mapping[str, int]]]:
    """Return each kind of limit, what the vehicle has, and the units; heights only when known."""
    high = ("maxheight", "maxheight:physical") if vehicle.height_mm is not None else ()
    return [
        *((key, vehicle.mass_g, MASS_G) for key in vehicle.mass_keys),
        *((key, vehicle.width_mm, LENGTH_MM) for key in ("maxwidth", "maxwidth:physical")),
        *((key, vehicle.height_mm or 0, LENGTH_MM) for key in high),
    ]


def point_keys(vehicle: Vehicle) -> list[str]:
    """Return the keys that say of a point on a road what it costs ``vehicle``, or that it stops.

    Who may pass is asked at barriers alone.
    """
    limits = (*(key for key, _, _ in _limits(vehicle)), *AXLE_LIMITS)
    return ["barrier", *(said for key in limits for said in spellings(key))]


def wait_s(tags: Tags, vehicle: Vehicle, speeds: Speeds) -> int:
    """Return the seconds lost at a point of a road, or SHUT where nobody gets past.

    A point has no ahead and back, so what holds for one of them counts for both.
    """
    waits = [_wait_s(held, vehicle, speeds) for held in _held(tags, vehicle)]
    return SHUT if SHUT in waits else max(waits)


def _wait_s(tags: Tags, vehicle: Vehicle, speeds: Speeds) -> int:
    barrier = tags.get("barrier", "")
    if not _fits(tags, vehicle) or (barrier and _access(tags, vehicle) in NOBODY):
        return SHUT
    if barrier in _GATES:
        return speeds.wait_s["locked_gate" if tags.get("locked") == "yes" else "gate"]
    if barrier in _SHUT_BARRIERS:
        said = any(tags.get(key) in FREE for key in vehicle.access_keys)
        return 0 if said else SHUT
    return 0
