"""The table of defaults against the readers that use it."""

from pathlib import Path

from runplanner.scenario.defaults import DEFAULTS
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
