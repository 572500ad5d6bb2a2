from datetime import date, datetime, time

import pytest

from runplanner.scenario.faults import Refusal
from runplanner.scenario.moments import a_date, clock_min


@pytest.mark.parametrize(
    "said", [date(2027, 3, 1), "2027-03-01", "2027-3-1", "2027-03-01 00:00:00"]
)
def test_dates(said: object) -> None:
    """A date comes from TOML, from text, or from a spreadsheet's cell."""
    assert date(2027, 3, 1) == a_date(said)


@pytest.mark.parametrize(
    ("said", "cure"),
    [
        ("01/03/2027", "Write the year first"),
        ("2027-02-29", "There is no such day"),
        ("1987-02-01", "Check the year"),
        (datetime(2027, 3, 1, 8), "Write the year first"),  # noqa: DTZ001 - as TOML hands it over
        ("", "Write the year first"),
    ],
)
def test_no_dates(said: object, cure: str) -> None:
    """Other orders, days that do not exist and absurd years are refused."""
    with pytest.raises(Refusal) as caught:
        a_date(said)

    assert cure in caught.value.cure


@pytest.mark.parametrize(
    ("said", "minute"), [("07:30", 450), ("7:30", 450), ("24:00", 1440), (time(7, 30), 450)]
)
def test_clocks(said: object, minute: int) -> None:
    """Times of day are minutes since midnight; a day may end at 24:00."""
    assert minute == clock_min(said)


@pytest.mark.parametrize("said", ["7.30", "24:01", "12:60", "noon", "", 7])
def test_no_clocks(said: object) -> None:
    """What is no time of day is refused."""
    with pytest.raises(Refusal, match="a time of day"):
        clock_min(said)
