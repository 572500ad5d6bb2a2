"""Amounts as forecasts write them, in whole units; what no weather has is refused.

Rain and wind round up and temperature to the nearest tenth of a degree, all in exact
fractions.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import ceil, floor
from typing import Final

from runplanner.phrase import Phrase, phrase

Scale = tuple[Fraction, Fraction]
"""What to multiply by, and what to add then."""
_HUGE: Final = 10**7
_NOTHING: Final = Decimal("1e-9")


@dataclass(frozen=True, slots=True)
class Amount:
    """One kind of amount.

    Args:
        word: What it is, for people.
        unit: What the limits are told in.
        least: Least whole units any weather has.
        most: Most whole units.
        one: Whole units that make one of ``unit``.
        scales: How each unit becomes whole units.
        up: Rounded up; else to the nearest.
    """

    word: Phrase
    unit: str
    least: int
    most: int
    one: int
    scales: Mapping[str, Scale]
    up: bool = True

    def whole(self, number: int | Decimal, unit: str) -> int | None:
        """Return ``number`` of a known ``unit`` in whole units; None where no weather has it."""
        size = Decimal(number).copy_abs()
        if size > _HUGE:
            return None
        if size < _NOTHING:
            number = 0
        factor, add = self.scales[unit]
        exact = Fraction(number) * factor + add
        found = ceil(exact) if self.up else floor(exact + Fraction(1, 2))
        return found if self.least <= found <= self.most else None

    def allowed(self) -> Phrase:
        """Return what may stand there, in words."""
        low, high = self.least // self.one, self.most // self.one
        return phrase(
            "a {word} from {low} to {high} {unit}",
            word=self.word, low=low, high=high, unit=self.unit,
        )  # fmt: skip


def _by(*factors: tuple[str, Fraction | int]) -> dict[str, Scale]:
    return {unit: (Fraction(factor), Fraction(0)) for unit, factor in factors}


_FAHRENHEIT: Final[Scale] = (Fraction(50, 9), Fraction(-1600, 9))
TEMPERATURE: Final = Amount(
    phrase("temperature"), "degC", -600, 600, 10,
    {
        **_by(("celsius", 10), ("degC", 10), ("°C", 10), ("C", 10), ("c", 10)),
        **dict.fromkeys(("fahrenheit", "degF", "°F", "F", "f"), _FAHRENHEIT),
    },
    up=False,
)  # fmt: skip
"""Tenths of a degree Celsius."""
RAIN: Final = Amount(
    phrase("rain"), "mm", 0, 1_000_000, 1000, _by(("mm", 1000), ("inch", 25_400), ("in", 25_400))
)
"""Thousandths of a millimetre: one litre on a thousand square metres."""
WIND: Final = Amount(
    phrase("wind"), "m/s", 0, 120_000, 1000,
    _by(
        ("m/s", 1000), ("ms", 1000), ("km/h", Fraction(2500, 9)), ("kmh", Fraction(2500, 9)),
        ("kn", Fraction(4630, 9)), ("mp/h", Fraction(44_704, 100)),
        ("mph", Fraction(44_704, 100)),
    ),
)  # fmt: skip
"""Millimetres a second."""
CHANCE: Final = Amount(phrase("chance"), "%", 0, 1000, 10, _by(("%", 10), ("pct", 10)))
"""Per mille."""


def a_point(lat: object, lon: object) -> tuple[float, float] | None:
    """Return latitude and longitude where two figures can be that, else None."""
    if not isinstance(lat, int | Decimal) or not isinstance(lon, int | Decimal):
        return None
    on_earth = Decimal(lat).copy_abs() <= 90 and Decimal(lon).copy_abs() <= 180
    return (float(lat), float(lon)) if on_earth else None
