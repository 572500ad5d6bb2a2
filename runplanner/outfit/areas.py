"""Restricted areas, in which nothing may leave a yard."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Area:
    """A restricted area: a circle, or a polygon.

    Args:
        corners: Latitude and longitude of each corner, in order; of a circle of its middle.
        radius_m: Of a circle; 0 for a polygon.
    """

    corners: tuple[tuple[float, float], ...]
    radius_m: int = 0
