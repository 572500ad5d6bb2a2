"""Reasons in brackets: what stands behind them counts as well."""

import pytest

from runplanner.errors import ScenarioError
from tests.running import put_in

NOON = "Wed 3 Mar 12:00"
ON_THURSDAY = "Thu 4 Mar 7:30"


@pytest.mark.parametrize(
    ("typed", "read", "now"),
    [
        ("shut Fernbank Fri (rain) from 14:00", "shut Fernbank Fri from 14:00 (rain)", NOON),
        ("shut Fernbank (rain (heavy)), Mill Fri", "shut Fernbank, Mill Fri (rain (heavy))", NOON),
        ("Fernbank shut Fri (rain) from 14:00", "shut Fernbank Fri from 14:00 (rain)", NOON),
        ("Ann off Thu (flu) and Fri: cough", "Ann off Thu and Fri: cough (flu)", NOON),
        ("Ann sick (flu) (cough) until Fri", "Ann sick until Fri (flu) (cough)", NOON),
        ("honey house full Thu (hall) until Sat", "honey house full Thu until Sat (hall)", NOON),
        ("standstill Fernbank (AFB), feed agreed", "standstill Fernbank, feed agreed (AFB)", NOON),
        ("skip Creek Mouth (mud), Fernbank", "skip Creek Mouth, Fernbank (mud)", ON_THURSDAY),
    ],
)
def test_a_line_goes_on_behind_brackets(typed: str, read: str, now: str) -> None:
    """As if the reason stood at its end, and that is said; the rest had been dropped unsaid."""
    told, plain = put_in(typed, now=now), put_in(read, now=now)

    assert (plain.plan, plain.outfit) == (told.plan, told.outfit)
    assert f"{typed!r} is read as {read!r}" in told.notes


@pytest.mark.parametrize(
    "typed",
    [
        "shut Fernbank Fri (until 14:00) Sat",
        "skip Creek Mouth (not Mill), Fernbank",
        "skip Creek Mouth (syrup), Fernbank",
        "suspect Fernbank (AFB) or so",
        "home Blue (rain) Sat",
    ],
)
def test_brackets_that_are_no_reason_are_refused(typed: str) -> None:
    """Days, limits, jobs and names in them tell more than why; nor is the rest ever dropped."""
    with pytest.raises(ScenarioError):
        put_in(typed, now=ON_THURSDAY)


@pytest.mark.parametrize("typed", ["shut Fernbank (no key) Fri", "shut all (storm) Fri from 12:00"])
def test_what_to_do_about_brackets_is_said_where_a_line_is_refused_behind_them(typed: str) -> None:
    """The day behind them had been said to be wrong."""
    with pytest.raises(ScenarioError, match="write it at the end of the line"):
        put_in(typed, now=ON_THURSDAY)


@pytest.mark.parametrize("reason", ["(rain)", "(rain) (hail)", "(rain): hail", "(rain", "(a (b))"])
def test_brackets_at_the_end_are_a_reason(reason: str) -> None:
    """One, several, or one that is never closed."""
    told, plain = put_in(f"Ann off Fri {reason}"), put_in("Ann off Fri")

    assert (plain.outfit, plain.notes) == (told.outfit, told.notes)


@pytest.mark.parametrize(
    "reason", ["(rain).", "(rain), (hail)", "(rain (heavy) again)", "(rain): x"]
)
def test_a_line_refused_for_its_day_is_told_nothing_of_brackets_at_its_end(reason: str) -> None:
    """A full stop, a comma between brackets or brackets inside had counted as more behind them."""
    with pytest.raises(ScenarioError) as no:
        put_in(f"shut Fernbank 40 Mar {reason}")

    assert not [fault for fault in no.value.faults if "brackets" in fault.cure]
