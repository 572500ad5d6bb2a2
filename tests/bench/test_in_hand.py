"""Settings against each other: errors by hand, the grid, and a tiny trial taken up again."""

import csv
from pathlib import Path

import pytest
from scipy import stats

from runplanner.outfit.safety import Safety
from tests.bench.__main__ import main
from tests.bench.in_hand import Tried, grid_of, rows, two_way
from tests.paperwork.test_rehearsal_page import a_play


def test_the_error_of_a_mean_over_plans_and_luck() -> None:
    """By hand, two plans (0 and 4) under two lucks (0 and 4), added: 0, 4, 4, 8; mean 4.

    By plan 2 and 6, variance 8, by 2 gives 4; by luck the same; all four, variance 32/3, by 4
    gives 8/3.  4 + 4 - 8/3 = 16/3.  Plans 0 and 2 instead: 1 + 4 - 5/3 is less than the 4 by
    luck alone, which stands.
    """

    def added(plans: tuple[int, int]) -> dict[tuple[int, tuple[int, int]], float]:
        return {(p, (1, n)): float(p + luck) for p in plans for n, luck in enumerate((0, 4))}

    wide, narrow = two_way(added((0, 4))), two_way(added((0, 2)))
    assert (4, 3) == (wide[0], narrow[0])
    assert pytest.approx((16 / 3) ** 0.5) == wide[1]
    assert pytest.approx(2) == narrow[1]


def test_with_one_plan_it_is_the_plain_standard_error() -> None:
    """As scipy has it; and luck that is the same for all leaves the error between plans."""
    figures = [3.0, 1.0, 4.0, 1.0, 5.0, 9.0]
    one = {(1, (7, number)): figure for number, figure in enumerate(figures)}
    other = {(number, (7, luck)): f for number, f in enumerate(figures) for luck in range(4)}

    assert pytest.approx(stats.sem(figures)) == two_way(one)[1]
    assert pytest.approx(stats.sem(figures)) == two_way(other)[1]


def test_the_error_where_plays_lack() -> None:
    """By hand, plan 1 with 0 and 3 under two lucks, plan 2 with 3 under the first; mean 2.

    By plan -1 and 1 off the mean in sum, (1 + 1) / 9 x 2 = 4/9; by luck -1 and 1, 4/9; each by
    itself -2, 1, 1, 6 / 9 x 3/2 = 1.  4/9 + 4/9 - 1 is less than 4/9, which stands.
    """
    cells = {(1, (1, 0)): 0.0, (1, (1, 1)): 3.0, (2, (1, 0)): 3.0}

    assert pytest.approx((2, 2 / 3)) == two_way(cells)


def test_costs_are_of_plays_that_got_all_done() -> None:
    """Two plays each of 10 and 12 NZD, 11 and 1 in hand; the last leaves work: 1 NZD more, of one.

    Where no play got all done, dashes.
    """
    none = {(1, (1, 0)): a_play(0, cents=1_000), (1, (1, 1)): a_play(1, cents=1_200)}
    some = {(1, (1, 0)): a_play(0, cents=1_100), (1, (1, 1)): a_play(1, cents=100, not_off=9)}
    bad = {key: a_play(0, cents=5, unfed_g=1) for key in none}
    found = [Tried(Safety(load), (1_000,), grid) for load, grid in
             ((500, none), (900, some), (950, bad))]  # fmt: skip

    assert [("11.00", "2/2", "+0.00", "0.00"), ("11.00", "1/2", "+1.00", "0.00"),
            ("-", "0/2", "-", "-")] == [row[-4:] for row in rows(found)]  # fmt: skip


def test_the_grid() -> None:
    """Every load with every slack; half per mille are none."""
    assert (Safety(500), Safety(500, 30), Safety(975), Safety(975, 30)) == grid_of(
        "50,97.5", "0,30", "0"
    )


@pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these
def test_a_tiny_trial_is_taken_up_again(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One play of each of two settings, written down; said again, nothing is played anew."""
    words = ["in-hand", "--loads", "97", "--slacks", "0", "--seeds", "1", "--luck", "5"]
    words += ["--plays", "1", "--rounds", "1", "--out", str(tmp_path)]
    assert 0 == main(words)
    plays = (tmp_path / "in_hand" / "plays.jsonl").read_bytes()
    with (tmp_path / "in_hand.csv").open(encoding="utf-8", newline="") as file:
        lines = list(csv.reader(file))

    assert ["load 50 %, slack 0 min, spare 0 d", "load 97 %, slack 0 min, spare 0 d"] == [
        line[1] for line in lines[1:]
    ]
    assert 2 == len(plays.splitlines())
    assert 0 == main(words)
    assert plays == (tmp_path / "in_hand" / "plays.jsonl").read_bytes()
    assert "ironsand_coast: every setting meets the same luck" in capsys.readouterr().out
