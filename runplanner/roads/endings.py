"""Keys with endings: for one direction, ``maxweight:forward = 2``, or under a condition.

Their meaning is that of the OpenStreetMap wiki's "Forward & backward, left & right": what is
said for one direction stands before what is said for both.
"""

from collections.abc import Iterable, Mapping
from typing import Final

Tags = Mapping[str, str]
CONDITIONAL: Final = ":conditional"
"""How keys end whose tags hold under a condition."""
_BOTH: Final = "both_ways"
_WAYS: Final = ("forward", "backward")
_MOST_SHOWN: Final = 40
_SIDES: Final = frozenset((_BOTH, *_WAYS))


def headed(tags: Tags) -> tuple[Tags, Tags]:
    """Return the tags as they hold for who drives ahead, and for who drives back."""
    sided = [key for key in tags if not _SIDES.isdisjoint(key.split(":"))]
    if not sided:
        return tags, tags
    ahead, back = (
        dict(tags) | {_plain(key): tags[key] for side in (_BOTH, way) for key in sided
                      if side in key.split(":")}
        for way in _WAYS
    )  # fmt: skip
    return ahead, back


def _plain(key: str) -> str:
    return ":".join(part for part in key.split(":") if part not in _SIDES)


def spelled(keys: Iterable[str]) -> dict[str, list[str]]:
    """Return for each key which of ``keys`` say something about it, itself the first."""
    found: dict[str, list[str]] = {}
    for one in sorted(keys, key=len):
        found.setdefault(_plain(one).removesuffix(CONDITIONAL), []).append(one)
    return found


def shown(key: str, text: str) -> str:
    """Return a tag as people are told of it, not too long."""
    return f"{key} {text[:_MOST_SHOWN]!r}"


def spellings(key: str) -> list[str]:
    """Return every key that may say something about ``key``."""
    sides = ("", *(f":{side}" for side in (_BOTH, *_WAYS)))
    return [f"{key}{side}{last}" for side in sides for last in ("", CONDITIONAL)]
