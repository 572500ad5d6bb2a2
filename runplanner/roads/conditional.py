"""Tags that hold at times only: ``hgv:conditional = no @ (Mo-Fr 07:00-09:00)``.

A plan is not known yet when roads are read, so the cautious reading counts: what shuts or
limits a road on a date of the campaign and at an hour at which the outfit may drive holds,
and likewise under a condition that cannot be judged (holidays, wet weather); what opens one,
or lets some in, does not.  What depends on the truck itself (``weight > 7.5``) is judged.
What has not even the form of a condition is told (``unread_conditions``).  The form is the
OpenStreetMap wiki's "Conditional restrictions" (from memory); days of the week are not told
apart.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from runplanner.roads.dates import MONTH, dated, falls_in
from runplanner.roads.endings import CONDITIONAL, Tags, shown
from runplanner.roads.figures import LENGTH_MM, MASS_G, figure
from runplanner.roads.vehicle import AXLE_LIMITS, FREE, NOBODY, Vehicle

_SPAN: Final = re.compile(r"([0-9]{1,2}):([0-9]{2})\s*-\s*([0-9]{1,2}):([0-9]{2})")
_DAY: Final = r"\b(?:mon?|tue?|wed?|thu?|fri?|sat?|sun?|ph|sh)\b"
_DAYS_AND_HOURS: Final = re.compile(
    rf"(?:{_DAY}(?:[\s,-]+{_DAY})*)?\s*(?:{_SPAN.pattern}[, ]*)*", re.IGNORECASE
)
"""Days of the week and holidays, then hours; a comma and days once more may be a new rule."""
_KINDS: Final = (MONTH, re.compile(_DAY, re.IGNORECASE), re.compile("[0-9]:[0-9]"))
_SIZE: Final = re.compile(
    r"(weight|maxweight|weightrating|width|height)\s*(<=|>=|<|>|=)\s*([0-9].*)"
)
_LIMITS: Final = (
    "maxwidth", "maxwidth:physical", "maxheight", "maxheight:physical", *AXLE_LIMITS,
)  # fmt: skip
AHEAD: Final = frozenset(("yes", "1", "true"))
BACK: Final = frozenset(("-1", "reverse"))
SHUT_WAYS: Final = "reversible"
"""What ``oneway`` says where one may drive ahead alone, back alone, or as a signal has it."""
_EITHER: Final = re.compile(r"\bOR\b", re.IGNORECASE)
_LONGEST: Final = 200
_DAY_MIN: Final = 1440


def settled(tags: Tags, vehicle: Vehicle) -> Tags:
    """Return ``tags`` with what holds, or may hold, under conditions put into them."""
    if not any(key.endswith(CONDITIONAL) for key in tags):
        return tags
    made = dict(tags)
    keys = vehicle.access_keys
    for number, key in reversed(list(enumerate(keys))):
        for value, sure in _holding(tags.get(key + CONDITIONAL, ""), vehicle):
            if sure or _strictness(value) > _strictness(first_of(made, keys[number:]) or "yes"):
                made[key] = value
    keys = vehicle.one_way_keys
    for number, key in reversed(list(enumerate(keys))):
        for value, sure in _holding(tags.get(key + CONDITIONAL, ""), vehicle):
            made[key] = value if sure else _fewer_ways(first_of(made, keys[number:]), value)
    for key in (*vehicle.mass_keys, *vehicle.speed_keys, *_LIMITS):
        limits = [value for value, _ in _holding(tags.get(key + CONDITIONAL, ""), vehicle)]
        made[key] = ";".join([one for one in (tags.get(key, ""), *limits) if one])
    return made


def first_of(tags: Tags, keys: Sequence[str]) -> str:
    """Return the value of the first of ``keys`` that is there, "" where none is."""
    return next((tags[key] for key in keys if tags.get(key)), "")


def _strictness(access: str) -> int:
    """Return how few may drive: all, some by leave, nobody of ours."""
    return 0 if access in FREE else 2 if access in NOBODY else 1


def _fewer_ways(base: str, value: str) -> str:
    """Return the one-way sign that leaves open what both leave open."""
    if value not in AHEAD | BACK | {SHUT_WAYS} or base == SHUT_WAYS:
        return base
    same = base not in AHEAD | BACK or (base in AHEAD) == (value in AHEAD)
    return value if same else SHUT_WAYS


def unread_conditions(tags: Tags, spelled: Mapping[str, list[str]], vehicle: Vehicle) -> list[str]:
    """Return the conditions of a road that have not the form of one, and so do not count.

    ``spelled`` has the keys of ``tags`` by what they say something about.
    """
    keys = (
        *vehicle.access_keys,
        *vehicle.one_way_keys,
        *vehicle.mass_keys,
        *vehicle.speed_keys,
        *_LIMITS,
    )
    return [
        shown(said, part)
        for key in keys
        for said in spelled.get(key, ())
        for part in _parts(tags[said] if CONDITIONAL in said else "")
        if _split(part) is None
    ]


def sign_of(tags: Tags, key: str, vehicle: Vehicle) -> str:
    """Return the turn that ``key`` of a relation forbids or prescribes, or ""."""
    held = [value for value, _ in _holding(tags.get(key + CONDITIONAL, ""), vehicle)]
    return tags.get(key, "") or (held[0] if held else "")


def _holding(text: str, vehicle: Vehicle) -> Iterator[tuple[str, bool]]:
    """Yield each value that holds (True), or may hold (False)."""
    for value, condition in filter(None, map(_split, _parts(text))):
        verdicts = [_verdict(one, vehicle) for one in _clauses(condition)]
        if False not in verdicts:
            yield value, all(verdicts)


def _parts(text: str) -> list[str]:
    """Return the parts between semicolons that stand outside brackets."""
    found, deep = [""], 0
    for letter in text:
        deep = max(0, deep + (letter == "(") - (letter == ")"))
        if letter == ";" and not deep:
            found.append("")
        else:
            found[-1] += letter
    return [part.strip() for part in found if part.strip()]


def _split(part: str) -> tuple[str, str] | None:
    """Return value and condition, None where one of them lacks."""
    value, _, condition = (side.strip() for side in part.partition("@"))
    return (value, condition) if value and condition.strip("() @") else None


def _clauses(condition: str) -> list[str]:
    """Return what must hold together; where either of two may do, the whole as one.

    Dates *and* dates (``Mar and Jul``) are mostly meant as either, and so are days and hours.
    """
    found = [one.strip("() \t\n") for one in re.split(r"\s+AND\s+", condition, flags=re.IGNORECASE)]
    alike = any(len(list(filter(kind.search, found))) > 1 for kind in _KINDS)
    return [condition] if alike or _EITHER.search(condition) else found


def _verdict(clause: str, vehicle: Vehicle) -> bool | None:
    """Tell whether a clause holds; None when it may."""
    if len(clause) > _LONGEST or _EITHER.search(clause):
        return None
    size = _SIZE.fullmatch(clause)
    if size is not None:
        return _compared(size, vehicle)
    rules = [rule.strip() for rule in clause.split(";")]
    return None if any(rule and _may_hold(rule, vehicle) for rule in rules) else False


def _may_hold(rule: str, vehicle: Vehicle) -> bool:
    """Tell whether a rule of dates and hours may hold while the outfit drives."""
    ranges, rest = dated(rule)
    if not _DAYS_AND_HOURS.fullmatch(rest):
        return True
    if ranges and vehicle.days and not any(falls_in(one, vehicle.days) for one in ranges):
        return False
    # Behind a comma another rule may begin, so that hours hold for the last range alone.
    spans = list(_SPAN.finditer(rest))
    return len(ranges) > 1 or not spans or any(_meets(span, vehicle) for span in spans)


def _compared(size: re.Match[str], vehicle: Vehicle) -> bool | None:
    long = {"width": vehicle.width_mm, "height": vehicle.height_mm}
    own = long.get(size[1], vehicle.mass_g)
    limit = figure(size[3].strip(), LENGTH_MM if size[1] in long else MASS_G)
    if own is None or limit is None:
        return None
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
