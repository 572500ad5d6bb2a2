"""Shapes: the fill level tells the share, signs tell the health, widths tell the load."""

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.outfit.yards import Health
from runplanner.paperwork.map.draw import (
    _hexagon,
    _slice,
    band_px,
    base_svg,
    cell_svg,
    level,
    look_of,
    patterns,
)
from runplanner.paperwork.map.sheet import Cell


def _area(points: str) -> float:
    """Return a polygon's area by the surveyor's formula."""
    corners = [tuple(map(float, pair.split(","))) for pair in points.split()]
    turned = [*corners[1:], corners[0]]
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, turned, strict=True))) / 2


def _cell(health: Health = Health.SOUND, undone: float = 0.0, site: str = "") -> Cell:
    fills = ((0, 0.5), (3, 0.5 - undone))
    return Cell("", 0, 0, (0, 0), 20, fills, undone, health, site, "", False, ())


@given(st.floats(0, 1), st.floats(0, 1))
def test_a_layers_area_is_its_share(one: float, other: float) -> None:
    """The part of a cell between two shares has the difference of the shares as its area."""
    low, high = min(one, other), max(one, other)
    # Corners are rounded to a tenth of a pixel: on a 1000 px cell that is nothing.
    whole = _area(_hexagon(1_000))

    assert abs(_area(_slice(1_000, low, high)) / whole - (high - low)) < 0.001


@pytest.mark.parametrize(("share", "height"), [(0, -1), (1 / 6, -0.5), (0.5, 0), (1, 1)])
def test_levels_at_the_corners(share: float, height: float) -> None:
    """A pointed-up hexagon holds a sixth of its area in each of its two end triangles."""
    assert height == pytest.approx(level(share))


def test_a_cell_has_a_layer_for_each_day() -> None:
    """Days are named in the picture, with the look of their number."""
    picture = cell_svg(_cell(), {0: 0, 3: 1})

    assert 'fill="url(#day0)" data-day="0"' in picture
    assert 'fill="url(#day1)" data-day="3"' in picture
    assert "url(#undone)" not in picture


def test_undone_work_is_hatched() -> None:
    """A share left undone lies hatched on top."""
    assert "url(#undone)" in cell_svg(_cell(undone=0.25), {0: 0, 3: 1})


def test_states_of_health_differ_in_shape() -> None:
    """Sound, watch, suspect and standstill are four different drawings in one ink."""
    looks = {0: 0, 3: 1}
    drawn = [cell_svg(_cell(health), looks) for health in Health]

    assert 4 == len(set(drawn))
    assert 1 == len({tuple(sorted(set(re.findall(r"#[0-9a-f]{6}", one)))) for one in drawn})


def test_a_later_site_is_a_dotted_cell() -> None:
    """Dotted whether or not there is work: its days are drawn where there is."""
    empty, full = (
        cell_svg(replace(_cell(site="from Wed 3 Mar"), fills=fills), {0: 0, 3: 1})
        for fills in ((), ((0, 0.5), (3, 0.5)))
    )

    assert "stroke-dasharray" in empty
    assert "stroke-dasharray" in full
    assert "data-day" not in empty
    assert 'data-day="0"' in full
    assert 'data-day="3"' in full


def test_thirty_days_look_different() -> None:
    """No two of thirty days share both colour and pattern."""
    looks = {(look.colour, look.gaps, look.hatch) for look in map(look_of, range(30))}

    assert 30 == len(looks)


def test_days_next_to_each_other_differ_in_colour_and_in_pattern() -> None:
    """A reader who sees no colour tells neighbouring days by the pattern alone."""
    for number in range(40):
        one, other = look_of(number), look_of(number + 1)
        assert one.colour != other.colour
        assert one.gaps != other.gaps
        assert one.hatch != other.hatch


def test_every_look_in_use_is_defined() -> None:
    """The hidden definitions hold one pattern for each day and the undone hatch."""
    assert ["day0", "day1", "day2", "undone"] == re.findall(r'pattern id="(\w+)"', patterns(3))


def test_width_is_in_proportion_to_the_load() -> None:
    """Empty 2 px, the largest limit 18 px, half of it half-way."""
    assert 2.0 == band_px(0, 1_000_000)
    assert 10.0 == band_px(500_000, 1_000_000)
    assert 18.0 == band_px(1_000_000, 1_000_000)
    assert 2.0 == band_px(0, 0)


def test_a_base_shows_a_glyph_for_each_role() -> None:
    """Home, honey house and feed store on one spot are three glyphs on one plate."""
    assert 3 == base_svg(("home", "honey house", "feed store")).count("<path")
