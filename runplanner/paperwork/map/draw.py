"""Shapes of the map as SVG text: comb cells, base marks, swatches, line samples.

Numbers and fixed words only; no foreign word comes through here.
"""

from dataclasses import dataclass
from math import sqrt
from typing import Final

from runplanner.outfit.yards import Health
from runplanner.paperwork.map.sheet import BASE_PX, Cell

INK, PAPER = "#17302c", "#f4f3ea"

TIE_SVG: Final = (
    '<svg width="46" height="16" aria-hidden="true">'
    f'<path d="M8,12 L40,5" stroke="{INK}"/><circle cx="8" cy="12" r="3" fill="{INK}"/></svg>'
)
"""A sample of the line between a word and its place, for the key."""


@dataclass(frozen=True, slots=True)
class Look:
    """How a day is told apart: colour, gap pattern of its lines, hatch of its fills."""

    colour: str
    gaps: tuple[int, ...]
    hatch: str


# The palette of Okabe and Ito (2008), "Color Universal Design", without black, which is the
# ink, and without yellow, which is lost on paper.
_COLOURS = ("#0072B2", "#E69F00", "#009E73", "#D55E00", "#56B4E9", "#CC79A7")
# Pixels of line and of gap, in turn; five against six colours tells thirty days apart.
_GAPS: tuple[tuple[int, ...], ...] = ((), (16, 5), (6, 4), (20, 4, 5, 4), (11, 3, 3, 3, 3, 3))
# Of the light line that tells trucks apart: unbroken, dashed, dotted.
_SPLITS = ("", "none", "9 6", "0.1 5")
_HATCHES = (
    "",
    "M-1,1 l2,-2 M0,6 l6,-6 M5,7 l2,-2",
    "M1.4,1.5 h1.6 M4.4,4.5 h1.6",
    "M0,3 h6",
    "M3,0 v6 M0,3 h6",
)


def look_of(number: int) -> Look:
    """Return the look of the day with this number among the days with trips."""
    return Look(
        _COLOURS[number % len(_COLOURS)],
        _GAPS[number % len(_GAPS)],
        _HATCHES[number % len(_HATCHES)],
    )


def band_px(load_g: int, full_g: int) -> float:
    """Return the width of a line's wide end for a load: 2 px empty, 18 px full."""
    return round(2 + 16 * load_g / full_g, 1) if full_g else 2.0


def split_of(truck: int) -> str:
    """Return the dashes of the light line in lines of the truck with this number; 0 has none.

    From the fourth truck on they are alike.
    """
    return _SPLITS[min(truck, len(_SPLITS) - 1)]


def patterns(looks: int) -> str:
    """Return the hidden definitions of the first ``looks`` day fills and the undone hatch."""
    fills = "".join(_pattern(f"day{number}", look_of(number)) for number in range(looks))
    undone = (
        f'<pattern id="undone" width="5" height="5" patternUnits="userSpaceOnUse">'
        f'<rect width="5" height="5" fill="{PAPER}"/>'
        f'<path d="M-1,1 l2,-2 M0,5 l5,-5 M4,6 l2,-2" stroke="{INK}" stroke-width="1"/></pattern>'
    )
    return (
        f'<svg width="0" height="0" class="unseen" aria-hidden="true"><defs>{fills}{undone}'
        "</defs></svg>"
    )


def _pattern(name: str, look: Look) -> str:
    lines = f'<path d="{look.hatch}" stroke="{PAPER}" stroke-width="1.7" stroke-linecap="round"/>'
    return (
        f'<pattern id="{name}" width="6" height="6" patternUnits="userSpaceOnUse">'
        f'<rect width="6" height="6" fill="{look.colour}"/>{lines if look.hatch else ""}</pattern>'
    )


def cell_svg(cell: Cell, looks: dict[int, int]) -> str:
    """Return a yard's comb cell; ``looks`` gives each day's look number."""
    r = cell.radius
    box = r + 7
    body = _later_site(cell, looks) if cell.site else _filled(cell, looks)
    return (
        f'<svg width="{2 * box:g}" height="{2 * box:g}" '
        f'viewBox="{-box:g} {-box:g} {2 * box:g} {2 * box:g}">{body}</svg>'
    )


def _later_site(cell: Cell, looks: dict[int, int]) -> str:
    outline = _hexagon(cell.radius)
    return (
        f'<polygon points="{outline}" fill="{PAPER}" fill-opacity="0.7"/>{_layers(cell, looks)}'
        f'<polygon points="{outline}" fill="none" stroke="{INK}" stroke-width="1.4" '
        'stroke-dasharray="2 3"/>'
    )


def _filled(cell: Cell, looks: dict[int, int]) -> str:
    r = cell.radius
    ground = f'<polygon points="{_hexagon(r)}" fill="{PAPER}"/>'
    return "".join((_halo(r), ground, _layers(cell, looks), _wall(r), _health(cell.health, r)))


def _halo(r: float) -> str:
    return f'<polygon points="{_hexagon(r + 3)}" fill="{PAPER}" fill-opacity="0.85"/>'


def _wall(r: float) -> str:
    return (
        f'<polygon points="{_hexagon(r)}" fill="none" stroke="{INK}" stroke-width="2.2" '
        'stroke-linejoin="round"/>'
    )


def _layers(cell: Cell, looks: dict[int, int]) -> str:
    """Return the fills from the bottom up, area in proportion to each day's work."""
    drawn = []
    below = 0.0
    for day, share in cell.fills:
        shape = _slice(cell.radius, below, below + share)
        drawn.append(f'<polygon points="{shape}" fill="url(#day{looks[day]})" data-day="{day}"/>')
        below += share
    if cell.undone > 0:
        drawn.append(f'<polygon points="{_slice(cell.radius, below, 1.0)}" fill="url(#undone)"/>')
    return "".join(drawn)


def _health(health: Health, r: float) -> str:
    """Return the sign of a yard that is not sound: ring, cross or bars, never colour."""
    stroke = f'fill="none" stroke="{INK}" stroke-width="1.6"'
    match health:
        case Health.SOUND:
            return ""
        case Health.WATCH:
            return f'<polygon points="{_hexagon(r + 4.5)}" {stroke} stroke-dasharray="3 3"/>'
        case Health.SUSPECT:
            d = r * 0.5
            cross = f"M{-d:g},{-d:g} L{d:g},{d:g} M{d:g},{-d:g} L{-d:g},{d:g}"
            return _twice(cross) + f'<polygon points="{_hexagon(r + 4.5)}" {stroke}/>'
        case Health.STANDSTILL:
            d = r * 0.55
            bars = f"M{-d:g},{-d / 2:g} H{d:g} M{-d:g},{d / 2:g} H{d:g}"
            return _twice(bars) + f'<polygon points="{_hexagon(r + 4.5)}" {stroke}/>'


def _twice(path: str) -> str:
    """Return a heavy stroke with a light rim, legible on any fill."""
    return (
        f'<path d="{path}" stroke="{PAPER}" stroke-width="6" stroke-linecap="round"/>'
        f'<path d="{path}" stroke="{INK}" stroke-width="2.8" stroke-linecap="round"/>'
    )


def _half_width(r: float, y: float) -> float:
    """Return half the width of a pointed-up hexagon at height ``y`` from its middle."""
    return min(sqrt(3) / 2 * r, sqrt(3) * (r - abs(y)))


def level(share: float) -> float:
    """Return the height, in radii from the middle, up to which ``share`` of a cell is full."""
    if share <= 1 / 6:
        return sqrt(max(share, 0) * 1.5) - 1
    if share >= 5 / 6:
        return 1 - sqrt(max(1 - share, 0) * 1.5)
    return (share - 1 / 6) * 1.5 - 0.5


def _slice(r: float, low: float, high: float) -> str:
    """Return the corners of a hexagon's part between two shares of its area."""
    bottom, top = level(low), level(min(high, 1.0))
    heights = [bottom, *(y for y in (-0.5, 0.5) if bottom < y < top), top]
    right = [(_half_width(r, y * r), -y * r) for y in heights]
    left = [(-x, y) for x, y in reversed(right)]
    return _points([*right, *left])


def _hexagon(r: float) -> str:
    x = sqrt(3) / 2 * r
    return _points([(0, -r), (x, -r / 2), (x, r / 2), (0, r), (-x, r / 2), (-x, -r / 2)])


def _points(corners: list[tuple[float, float]]) -> str:
    return " ".join(f"{x + 0.0:.1f},{y + 0.0:.1f}" for x, y in corners)


_GLYPHS = {
    "home": "M-7,0 L0,-7 L7,0 M-5,-1.5 V6.5 H5 V-1.5",
    "honey house": "M-4,-7 H4 M-3,-7 V-4 C-6,-3 -6,-2 -6,0 V6.5 H6 V0 C6,-2 6,-3 3,-4 V-7",
    "feed store": "M0,-7.5 C4,-2 5.5,0 5.5,2.2 A5.5,5.5 0 0 1 -5.5,2.2 C-5.5,0 -4,-2 0,-7.5 Z",
}


def base_width(roles: tuple[str, ...]) -> float:
    """Return how many pixels wide the plate of a base is."""
    return 20.0 * len(roles) + 6


def base_svg(roles: tuple[str, ...]) -> str:
    """Return the ink plate of a base with one glyph for each of its roles."""
    wide, high = base_width(roles), 2 * BASE_PX - 8
    glyphs = "".join(
        f'<path transform="translate({20 * (n - (len(roles) - 1) / 2):g},0)" d="{_GLYPHS[role]}" '
        f'fill="none" stroke="{PAPER}" stroke-width="1.8" stroke-linejoin="round" '
        'stroke-linecap="round"/>'
        for n, role in enumerate(roles)
    )
    plate = (
        f'<rect x="{-wide / 2 - 2:g}" y="{-high / 2 - 2:g}" width="{wide + 4:g}" '
        f'height="{high + 4:g}" fill="{PAPER}"/><rect x="{-wide / 2:g}" y="{-high / 2:g}" '
        f'width="{wide:g}" height="{high:g}" fill="{INK}"/>'
    )
    return (
        f'<svg width="{wide + 4:g}" height="{high + 4:g}" viewBox="{-wide / 2 - 2:g} '
        f'{-high / 2 - 2:g} {wide + 4:g} {high + 4:g}">{plate}{glyphs}</svg>'
    )


def swatch_svg(number: int) -> str:
    """Return a small piece of a day's line over a piece of its fill."""
    look = look_of(number)
    dashes = f' stroke-dasharray="{" ".join(map(str, look.gaps))}"' if look.gaps else ""
    return (
        '<svg width="30" height="20" viewBox="0 0 30 20" aria-hidden="true">'
        f'<path d="M0,4.5 H30" stroke="{look.colour}" stroke-width="7"{dashes}/>'
        f'<rect x="0" y="10" width="30" height="10" fill="url(#day{number})"/></svg>'
    )


def band_svg(width: float, beads: int = 0, *, split: str = "", hollow: bool = False) -> str:
    """Return a sample of a line ``width`` px wide that carries ``beads`` stop beads."""
    tip = max(1.5, width * 0.28)
    light = f'stroke="{PAPER}" stroke-width="1.6" stroke-linecap="round" stroke-dasharray="{split}"'
    core = f'<path d="M3,11 H70" {light}/>' if split else ""
    dots = "".join(
        f'<circle cx="{68 - 8 * n}" cy="11" r="3.2" fill="{PAPER}" stroke="{INK}"/>'
        for n in range(beads)
    )
    return (
        '<svg width="74" height="22" viewBox="0 0 74 22" aria-hidden="true"><polygon '
        f'points="2,{11 - width / 2:g} 72,{11 - tip / 2:g} 72,{11 + tip / 2:g} '
        f'2,{11 + width / 2:g}" fill="{PAPER if hollow else "#5f746f"}" stroke="{INK}" '
        'stroke-width="0.7"/>'
        f"{core}{dots}</svg>"
    )
