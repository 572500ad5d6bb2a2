from pathlib import Path

import pytest

from tests.scenario.folders import BASE, faults, only, read


def test_typed_legs(tmp_path: Path) -> None:
    """Legs by name, by id and by base; one row serves both ways unless the way back has one."""
    travel = (
        "from,to,minutes,km\nhome,Mill Lane,12,9.5\nmill-lane,HOME,14 min,9600 m\n"
        "Gate,mill lane,no road,\nfeed store,gate,0.5 h,20\n"
    )
    made = read(tmp_path, travel=travel).travel

    assert (12, 9_500) == (made.minutes[0][1], made.metres[0][1])
    assert (14, 9_600) == (made.minutes[1][0], made.metres[1][0])
    assert (None, None) == (made.minutes[1][2], made.minutes[2][1])
    assert (30, 20_000) == (made.minutes[0][2], made.metres[2][0])
    assert made.source.startswith("4 legs from travel.csv, otherwise straight lines x 1.3")


def test_a_moved_yard_has_a_second_place(tmp_path: Path) -> None:
    """NAME moved is where the hives stand later."""
    move = '[[moves]]\nyard = "Gate"\nday = 2027-03-05\nlat = -38.2\nlon = 175.2\n'
    travel = "from,to,minutes,km\nhome,gate moved,33,30\n"
    made = read(tmp_path, move, travel=travel).travel

    assert 33 == made.minutes[0][3]
    assert 33 != made.minutes[0][2]


def test_bases_apart(tmp_path: Path) -> None:
    """Each base is a place of its own when it lies apart."""
    extra = '[honey_house]\nname = "Spinning shed"\nlat = -38.0\nlon = 175.0\n'
    travel = "from,to,minutes,km\nhome,honey house,7,5\nspinning shed,gate,40,30\n"
    made = read(tmp_path, extra, base=BASE, travel=travel).travel

    assert (7, 40) == (made.minutes[0][1], made.minutes[1][3])


@pytest.mark.parametrize(
    ("line", "field", "cure"),
    [
        ("home,Mil Lane,12,9", "to", "Did you mean 'mill lane'?"),
        ("home,home,12,9", "to", "Delete the row"),
        ("home,gate,,9", "minutes", "no default"),
        ("home,gate,12,", "km", "no default"),
        ("home,gate,12 km,9", "minutes", "does not measure a time"),
        ("home,gate,-12,9", "minutes", "cannot be negative"),
        ("home,gate,nan,9", "minutes", "Write a number"),
        ('home,gate,12,"9,5"', "km", "No commas"),
        ("home,gate,12,99999", "km", "Check number and unit"),
        ("home,gate,12,9\nhome,gate,13,9", "to", "Delete one of the two"),
    ],
)
def test_one_slip_one_fault(tmp_path: Path, line: str, field: str, cure: str) -> None:
    """A single slip in a leg is named by row and column, with a cure."""
    found = only(faults(tmp_path, travel=f"from,to,minutes,km\n{line}\n"))

    assert ("travel.csv", field) == (found.file, found.field)
    assert cure in found.cure


def test_columns(tmp_path: Path) -> None:
    """A missing column is said once, an unknown one gets a suggestion."""
    found = faults(tmp_path, travel="from,to,minuts\nhome,gate,3\nhome,mill lane,4\n")

    assert {"minuts": "Did you mean 'minutes'?"} == {
        fault.field: fault.cure for fault in found if fault.field == "minuts"
    }
    assert ["km", "minutes", "minuts"] == sorted(fault.field for fault in found)
