"""The table of defaults against the readers that use it."""

from collections.abc import Callable
from pathlib import Path

import pytest

from runplanner.scenario.defaults import DEFAULTS
from runplanner.scenario.values import measures
from runplanner.scenario.values.quantities import temperature
from runplanner.trade.feeding import (
    DAY_USE_G,
    FEED_LEAST_C,
    winter_use_g,
)
from runplanner.trade.honey import SPIN_BY_H
from tests.scenario.folders import HEAD, read

EVERYTHING = """\
[[trailers]]
empty = "0.6 t"
max = "2 t"
deck_length = "3 m"
deck_width = "1.8 m"
"""
WEATHER = (
    "area,what,from_day,to_day,min_temp,max_temp\n"
    "all,temperature,2027-03-01,2027-03-12,12 degC,22 degC\n"
)


def test_every_default_is_used_and_shown(tmp_path: Path) -> None:
    """No default is dead, and none is used without being shown."""
    from tests.scenario.folders import TRUCK

    truck = TRUCK + 'train_max = "6 t"\n'
    outfit = read(tmp_path, EVERYTHING, truck=truck, weather=WEATHER, head=HEAD)

    shown = {assumed.field for assumed in outfit.assumed}
    assert set(DEFAULTS) <= shown, sorted(set(DEFAULTS) - shown)


def test_every_default_has_a_source() -> None:
    """Each default says in words where it comes from, and how well it is known."""
    for field, default in DEFAULTS.items():
        assert default.source.source, field
        assert default.source.evidence.value in "ABCDM", field
        assert "." in field


@pytest.mark.parametrize(
    ("field", "parse", "checked"),
    [
        ("feed.day_use", measures.DAY_USE, DAY_USE_G),
        ("yards.target", measures.TARGET, winter_use_g(4, 3)),
        ("yards.spin_by", measures.LAG_MOST, SPIN_BY_H * 60),
        ("weather.syrup_least", temperature, FEED_LEAST_C * 10),
    ],
)
def test_a_default_is_the_figure_that_is_checked(
    field: str, parse: Callable[[object], int], checked: float
) -> None:
    """What is compared with published figures is what a scenario without the line gets."""
    assert checked == parse(DEFAULTS[field].said)


@pytest.mark.parametrize(
    ("lines", "shown"),
    [
        ("", "0 L"),
        ("ready_made = true\n", "as much as it takes"),
        ('ready_made = true\nready = "600 L"\n', None),
        ('ready = "600 L"\n', None),
    ],
)
def test_bought_syrup_without_an_amount_is_as_much_as_it_takes(
    tmp_path: Path, lines: str, shown: str | None
) -> None:
    """Shown among the defaults, as nothing at all is where syrup is mixed.

    36 colonies of 15 kg: 540 kg of stores, of which a litre of syrup makes less than 1 kg.
    """
    outfit = read(tmp_path, f"[feed]\n{lines}")
    found = {str(one.field): one.value for one in outfit.assumed}

    assert shown == found.get("feed.ready")
    if shown == "as much as it takes":
        assert outfit.feed.ready_ml > 540_000
