from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as some

from runplanner.roads.calibrate import Timed, fitted


def minutes(drive: Timed) -> int:
    """What a drive took."""
    return drive.minutes


def test_drives_at_one_speed_are_fitted_without_a_miss() -> None:
    """Three drives at a minute a kilometre give that ratio and no error."""
    fit = fitted([Timed(f"d{n}", 1000 * n, n) for n in (5, 12, 30)], minutes)

    assert fit is not None
    assert (Fraction(1, 1000), 3, 0, 0) == (
        fit.ratio, fit.drives, fit.miss_percent, fit.worst_percent
    )  # fmt: skip


def test_one_puncture_does_not_throw_the_fit() -> None:
    """Of four drives one took three times as long: the ratio stays, and the worst is named."""
    drives = [Timed("a", 10, 10), Timed("b", 20, 20), Timed("c", 30, 30), Timed("flat", 15, 45)]
    fit = fitted(drives, minutes)

    # Foretold from the others at ratio 1: a, b, c right; flat is told 15 of 45, missed by 67 %.
    assert fit is not None
    assert (Fraction(1), 0, 67, "flat") == (
        fit.ratio, fit.miss_percent, fit.worst_percent, fit.worst
    )  # fmt: skip
    assert (
        "fitted to 4 timed drives; each foretold from the others is missed by 0 % as a rule, "
        "67 % at worst (flat)" == fit.words()
    )


def test_errors_worked_by_hand() -> None:
    """Three drives of equal length at 8, 10 and 14 minutes."""
    drives = [Timed("a", 10, 8), Timed("b", 10, 10), Timed("c", 10, 14)]
    fit = fitted(drives, minutes)

    # Ratio: the middle one, 1.  From the others (lower middle of two): a from b, c: 10 for 8,
    # 25 %; b from a, c: 8 for 10, 20 %; c from a, b: 8 for 14, 43 %.  Median 25 %.
    assert fit is not None
    assert (Fraction(1), 25, 43, "c") == (
        fit.ratio, fit.miss_percent, fit.worst_percent, fit.worst
    )  # fmt: skip


def test_long_drives_weigh_more() -> None:
    """One drive of 100 km outweighs three of 10 km."""
    drives = [Timed("long", 100, 150), *(Timed(f"s{n}", 10, 10) for n in range(3))]
    fit = fitted(drives, minutes)

    assert fit is not None
    assert Fraction(3, 2) == fit.ratio


@pytest.mark.parametrize(
    "drives",
    [
        [],
        [Timed("a", 10, 10), Timed("b", 20, 20)],
        [Timed("a", 10, 10), Timed("b", 20, 20), Timed("nowhere", 0, 5)],
        [Timed("a", 10, 10), Timed("b", 20, 20), Timed("no time", 10, 0)],
    ],
)
def test_too_few_drives_fit_nothing(drives: list[Timed]) -> None:
    """Below three usable drives there is no fit."""
    assert fitted(drives, minutes) is None


@given(some.lists(some.tuples(some.integers(1, 99), some.integers(1, 99)), min_size=3, max_size=9))
def test_no_other_ratio_misses_less_in_all(pairs: list[tuple[int, int]]) -> None:
    """The sum of all misses is least at the fitted ratio, against every drive's own ratio."""
    fit = fitted([Timed("d", known, told) for known, told in pairs], minutes)
    assert fit is not None

    def miss(ratio: Fraction) -> Fraction:
        return sum((abs(ratio * known - told) for known, told in pairs), Fraction(0))

    assert all(miss(fit.ratio) <= miss(Fraction(told, known)) for known, told in pairs)
