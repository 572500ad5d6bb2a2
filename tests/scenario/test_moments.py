from datetime import date, datetime, time

import pytest

from runplanner.scenario.faults import Refusal
from runplanner.scenario.values.moments import a_date, clock_min


@pytest.mark.parametrize(
    "said", [date(2027, 3, 1), "2027-03-01", "2027-3-1", "2027-03-01 00:00:00"]
)
def test_dates(said: object) -> None:
    """A date comes from TOML, from text, or from a spreadsheet's cell."""
    assert date(2027, 3, 1) == a_date(said)


@pytest.mark.parametrize(
    ("said", "cure"),
    [
        ("1/3/2027", "Write the year first: 2027-03-01, or 2027-01-03 if the month stood first."),
        ("14/3/2027", "Write the year first: 2027-03-14."),
        ("3/14/2027", "Write the year first: 2027-03-14."),
        ("4-4-2027", "Write the year first: 2027-04-04."),
        ("1.3.2027", "Write the year first: 2027-03-01."),
        ("2027/3/14", "Write the year first: 2027-03-14."),
        ("14 March 2027", "Write the year first: 2027-03-14."),
        ("Sunday, 14th Mar, 2027", "Write the year first: 2027-03-14."),
        ("14-Mar-2027", "Write the year first: 2027-03-14."),
        ("March 14th, 2027", "Write the year first: 2027-03-14."),
        ("14. M\u00e4rz 2027", "Write the year first: 2027-03-14."),
        ("1. Mai 2027", "Write the year first: 2027-05-01."),
        ("14 Brumaire 2027", "Write year, month and day, in this order."),
        ("1/3/27", "Write the year first: 2027-03-01, or 2027-01-03 if the month stood first."),
        ("14 Mar 27", "Write the year first: 2027-03-14."),
        ("2027 Mar 14", "Write the year first: 2027-03-14."),
        ("0" * 50 + " March " + "9" * 50, "Write year, month and day, in this order."),
        ("1/3", "Write year, month and day, in this order."),
        ("46082", "A spreadsheet counts days so, and means 2026-03-01: have it show the column"),
        ("46082.75", "means 2026-03-01: have it show"),
        ("20270301", "Write year, month and day, in this order."),
        ("31/2/2027", "There is no such day."),
        ("2027-02-29", "There is no such day"),
        ("1987-02-01", "Check the year"),
        (datetime(2027, 3, 1, 8), "first: 2027-03-01."),  # noqa: DTZ001 - as TOML hands it over
        ("", "Write year, month and day"),
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


@pytest.mark.parametrize(("said", "clock"), [("0.75", "18:00"), ("0.3125", "07:30"), (".5", "12")])
def test_a_part_of_a_day_is_told_as_the_time_it_means(said: str, clock: str) -> None:
    """As a spreadsheet writes one that it does not show as a time."""
    with pytest.raises(Refusal) as caught:
        clock_min(said)

    assert f"means {clock}" in caught.value.cure
