"""The vehicle roads are chosen for, and who may drive where by the words of tags."""

from dataclasses import dataclass
from datetime import date
from typing import Final

FREE: Final = frozenset(("yes", "permissive", "designated", "official", "unknown", "public"))
NOBODY: Final = frozenset(
    ("no", "military", "emergency", "psv", "bus", "foot", "bicycle", "horse", "none")
)
"""A road for none of ours; whatever is in neither set is driven by leave."""
MASS_LIMITS: Final = ("maxweight", "maxgcweight", "maxweightrating")
AXLE_LIMITS: Final = ("maxaxleload", "maxbogieweight")
_HEAVY_G: Final = 3_500_000
_NO_WHEELS: Final = (
    ("impassable", ("yes",)),
    ("disused", ("yes",)),
    ("abandoned", ("yes",)),
    ("smoothness", ("very_horrible", "impassable")),
)
"""Tags of roads that no truck of any kind gets along (OpenStreetMap wiki, Key:smoothness)."""
_FOUR_WHEEL: Final = (("4wd_only", ("yes",)), ("smoothness", ("horrible",)))
"""Those of roads for four-wheel drive alone, likewise."""


@dataclass(frozen=True, slots=True)
class Vehicle:
    """The largest of the outfit: what it weighs and how much room it needs.

    ``height_mm`` is None while nobody has typed it; low bridges are then not looked at.
    ``hours`` are the minutes of the day between which it may be out, ``days`` the first and
    the last date it may be, None where that is not known.  ``four_wheel`` says that every truck
    has four-wheel drive.
    """

    mass_g: int
    width_mm: int
    height_mm: int | None = None
    hours: tuple[int, int] = (0, 1440)
    days: tuple[date, date] | None = None
    four_wheel: bool = False

    @property
    def access_keys(self) -> tuple[str, ...]:
        """The tags that say who may drive, the one that counts most first."""
        return (self.own_key, "motor_vehicle", "vehicle", "access")

    @property
    def one_way_keys(self) -> tuple[str, ...]:
        """The tags that say which way it may drive, the one that counts most first."""
        return (*(f"oneway:{key}" for key in self.access_keys[:-1]), "oneway")

    @property
    def own_key(self) -> str:
        """The word of tags for trucks of this mass."""
        return "hgv" if self.mass_g > _HEAVY_G else "goods"

    @property
    def mass_keys(self) -> tuple[str, ...]:
        """The tags that limit its mass, for all or for trucks like it."""
        return tuple(f"{key}{of}" for key in MASS_LIMITS for of in ("", f":{self.own_key}"))

    @property
    def speed_keys(self) -> tuple[str, str]:
        """The tags that limit its speed, for all or for trucks like it."""
        return ("maxspeed", f"maxspeed:{self.own_key}")

    @property
    def too_bad(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """The tags, each with its words, of roads that are too bad for it."""
        return _NO_WHEELS if self.four_wheel else (*_NO_WHEELS, *_FOUR_WHEEL)
