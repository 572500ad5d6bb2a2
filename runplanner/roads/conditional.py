"""Tags that hold at times only: ``hgv:conditional = no @ (Mo-Fr 07:00-09:00)``.

A plan is not known yet when roads are read, so the cautious reading counts: what shuts or
limits a road at an hour at which the outfit may drive holds, and likewise under a condition
that cannot be judged (a season, wet weather); what opens one does not.  What depends on
the truck itself (``weight > 7.5``) is judged.  The form is the OpenStreetMap wiki's
"Conditional restrictions" (from memory); days of the week are not told apart.
"""

import re
from collections.abc import Iterator, Mapping
from typing import Final

from runplanner.roads.vehicle import FREE, Vehicle

Tags = Mapping[str, str]
_ENDING: Final = ":conditional"
_PART: Final = re.compile(
    r"\s*([^@;]{1,60}?)\s*@\s*(?:\(([^()]{1,200})\)|([^;()]{1,200}))\s*(?:;|$)"
)
_SPAN: Final = re.compile(r"([0-9]{1,2}):([0-9]{2})\s*-\s*([0-9]{1,2}):([0-9]{2})")
_TIMES: Final = re.compile(r"[A-Za-z, -]*(?:[0-9]{1,2}:[0-9]{2}\s*-\s*[0-9]{1,2}:[0-9]{2}[,; ]*)+")
_SIZE: Final = re.compile(
    r"(weight|maxweight|weightrating|width|height)\s*(<=|>=|<|>|=)\s*([0-9]{1,6}(?:\.[0-9]{1,3})?)"
    r"\s*(?:t|m)?"
)
_LIMITS: Final = (
    "maxweight", "maxgcweight", "maxweightrating", "maxwidth", "maxheight", "maxspeed",
)  # fmt: skip
_NO_ONEWAY: Final = frozenset(("no", "0", "false"))
_DAY_MIN: Final = 1440


def settled(tags: Tags, vehicle: Vehicle) -> Tags:
    """Return ``tags`` with what holds, or may hold, under conditions put into them."""
    if not any(key.endswith(_ENDING) for key in tags):
        return tags
    made = dict(tags)
    for key in (*vehicle.access_keys, "oneway"):
        opening = _NO_ONEWAY if key == "oneway" else FREE
        for value, sure in _holding(tags.get(key + _ENDING, ""), vehicle):
            if sure or value not in opening:
                made[key] = value
    for key in _LIMITS:
        limits = [value for value, _ in _holding(tags.get(key + _ENDING, ""), vehicle)]
        made[key] = ";".join([one for one in (tags.get(key, ""), *limits) if one])
    return made


def sign_of(tags: Tags, key: str, vehicle: Vehicle) -> str:
    """Return the turn that ``key`` of a relation forbids or prescribes, or ""."""
    held = [value for value, _ in _holding(tags.get(key + _ENDING, ""), vehicle)]
    return tags.get(key, "") or (held[0] if held else "")


def _holding(text: str, vehicle: Vehicle) -> Iterator[tuple[str, bool]]:
    """Yield each value that holds (True), or may hold (False)."""
    for part in _PART.finditer(text[:500]):
        verdicts = [_verdict(one.strip(), vehicle) for one in _clauses(part[2] or part[3])]
        if False not in verdicts:
            yield part[1], all(verdicts)


def _clauses(condition: str) -> list[str]:
    return re.split(r"\s+AND\s+", condition, flags=re.IGNORECASE)


def _verdict(clause: str, vehicle: Vehicle) -> bool | None:
    """Tell whether a clause holds; None when it may."""
    size = _SIZE.fullmatch(clause)
    if size is not None:
        return _compared(size, vehicle)
    if _TIMES.fullmatch(clause):
        return None if any(_meets(span, vehicle) for span in _SPAN.finditer(clause)) else False
    return None


def _compared(size: re.Match[str], vehicle: Vehicle) -> bool | None:
    own = {"width": vehicle.width_mm, "height": vehicle.height_mm}.get(size[1], vehicle.mass_g)
    if own is None:
        return None
    limit = float(size[3]) * (1000 if size[1] in {"width", "height"} else 1_000_000)
    return {
        "<": own < limit, "<=": own <= limit, ">": own > limit, ">=": own >= limit,
        "=": own == limit,
    }[size[2]]  # fmt: skip


def _meets(span: re.Match[str], vehicle: Vehicle) -> bool:
    """Tell whether a span of the clock meets the hours the truck is out."""
    start, end = (int(span[i]) * 60 + int(span[i + 1]) for i in (1, 3))
    end += _DAY_MIN if end <= start else 0
    out, home = vehicle.hours
    return any(start + day < home and out < end + day for day in (-_DAY_MIN, 0, _DAY_MIN))
