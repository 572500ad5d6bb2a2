"""How long a large network takes: half a million nodes, 200 places."""

import sys

import pytest

from tests.roads.bench import main, measure


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="memory is not measured here: NOT tried")
def test_two_hundred_places_on_half_a_million_nodes() -> None:
    """Snapping and the 200 x 200 matrix take less than 30 s of this processor, and 4 GB."""
    made = measure()

    assert made.nodes > 500_000
    assert made.roads
    assert made.snap_s + made.matrix_s < 30
    assert 0 < made.peak_kb < 4_000_000
    # On any machine: well ahead of networkx, in whose place it stands.
    assert made.ratio > 4


def test_a_small_run_measures_what_it_says(capsys: pytest.CaptureFixture[str]) -> None:
    """30 x 30 crossings and seven places: 900 nodes, 2 * 2 * 30 * 29 = 3,480 arcs."""
    main(["--side", "30", "--places", "7"])

    told = capsys.readouterr().out.splitlines()
    assert told[0].startswith("900 nodes, 3,480 arcs drawn in ")
    assert "7 x 7 times and lengths in " in told[2]
    assert 5 == len(told)
