from pathlib import Path

import pytest

from runplanner.scenario import read_scenario
from runplanner.scenario.forecast.part import Heard
from tests.scenario.folders import BASE, a_folder, faults, only, read


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
        ("home,Mil Lane,12,9", "to", "Did you mean 'Mill Lane'?"),
        ("home,home,12,9", "to", "Delete the row"),
        ("home,gate,,9", "minutes", "no default"),
        ("home,gate,12,", "km", "no default"),
        ("home,gate,12 km,9", "minutes", "does not measure a time"),
        ("home,gate,-12,9", "minutes", "cannot be negative"),
        ("home,gate,nan,9", "minutes", "Write a number"),
        ('home,gate,12,"9,5"', "km", "No commas"),
        ("home,gate,12,99999", "km", "Check number and unit"),
        ("home,gate,0,0", "minutes", "Type what it takes, or delete the row"),
        ("home,gate,0,12", "minutes", "Type what it takes, or delete the row"),
        ("home,gate,1,300", "minutes", "minutes and km swapped"),
        # 130 km/h are 13 km in 6 min, which may be 5 written down short.
        ("home,gate,5,13.1", "minutes", "minutes and km swapped"),
        ("home,gate,12,9\nhome,gate,13,9", "to", "Delete one of the two"),
    ],
)
def test_one_slip_one_fault(tmp_path: Path, line: str, field: str, cure: str) -> None:
    """A single slip in a leg is named by row and column, with a cure."""
    found = only(faults(tmp_path, travel=f"from,to,minutes,km\n{line}\n"))

    assert ("travel.csv", field) == (found.file, found.field)
    assert cure in found.cure


def test_what_is_known_is_listed_once_and_as_typed(tmp_path: Path) -> None:
    """Without ids; a base named as its own word is one word, and a later site is named."""
    move = '[[moves]]\nyard = "Gate"\nday = 2027-03-05\nlat = -38.2\nlon = 175.2\n'
    travel = "from,to,minutes,km\nhome,Xyzzy,12,9\n"
    found = only(faults(tmp_path, move, travel=travel))

    assert "Known here: home, base, feed store, honey house, Mill Lane, Gate, Gate moved." == (
        found.cure
    )


def test_what_cannot_be_driven_is_said(tmp_path: Path) -> None:
    """Both figures of the row, as they were read."""
    travel = "from,to,minutes,km\nhome,gate,1,300\n"
    found = only(faults(tmp_path, travel=travel))

    assert ("300 km in 1 min", "a drive at 130 km/h or less") == (found.said, found.allowed)


@pytest.mark.parametrize(
    ("leg", "doubt"),
    [
        ("home,gate,5,13.0", ""),
        ("home,gate,30,12", ""),
        ("home,gate,180,15", ""),
        ("home,gate,181,15", "minutes: 15 km in 181 min, slower than 5 km/h, if that is right"),
        ("home,gate,30,10.6", ""),
        ("home,gate,30,10.5", "km: 10.5 km, less than the 11.1 km of the straight line: right "),
        ("home,gate,30,0", "km: 0 km, less than the 11.1 km of the straight line: right places?"),
    ],
)
def test_a_strange_leg_is_told_and_taken(tmp_path: Path, leg: str, doubt: str) -> None:
    """Base to Gate are 11,062 m straight; a yard's spot may be 500 m off."""
    heard = Heard()
    folder = a_folder(tmp_path, travel=f"from,to,minutes,km\n{leg}\n")
    made = read_scenario(folder, heard).travel

    assert int(leg.split(",")[2]) == made.minutes[0][2]
    assert bool(doubt) == len(heard.doubts)
    assert all(text.startswith(f"travel.csv, row 2, {doubt}") for text in heard.doubts)


def test_a_yard_at_home_may_be_no_drive_away(tmp_path: Path) -> None:
    """Some 110 m from the house, a leg of nothing is right."""
    yards = "name,lat,lon,colonies,boxes\nHill,-38.051,175.11,24,41\nGate,-38.12,175.20,12,20\n"
    made = read(tmp_path, yards=yards, travel="from,to,minutes,km\nhome,hill,0,0\n").travel

    assert (0, 0) == (made.minutes[0][1], made.metres[0][1])


def test_a_place_at_fault_makes_no_fault_of_its_legs(tmp_path: Path) -> None:
    """Where the yard stands is not known, so nor is whether it is no drive away."""
    yards = "name,lat,lon,colonies,boxes\nHill,,175.11,24,41\nGate,-38.12,175.20,12,20\n"
    travel = "from,to,minutes,km\nhome,hill,0,0\n"

    assert "lat" == only(faults(tmp_path, yards=yards, travel=travel)).field


def test_columns(tmp_path: Path) -> None:
    """A missing column is said once, an unknown one gets a suggestion."""
    found = faults(tmp_path, travel="from,to,minuts\nhome,gate,3\nhome,mill lane,4\n")

    assert {"minuts": "Did you mean 'minutes'?"} == {
        fault.field: fault.cure for fault in found if fault.field == "minuts"
    }
    assert ["km", "minuts"] == sorted(fault.field for fault in found)


@pytest.mark.parametrize(
    ("called", "leg"),
    [
        ("Home", "home,gate,12,9"),
        ("BASE", "gate,base,12,9"),
        ("Honey house", "gate,honey_house,12,9"),
        ("Feed Store", "feed store,gate,12,9"),
        ("Spinning shed", "spinning shed,gate,12,9"),
    ],
)
def test_a_yard_called_as_another_place(tmp_path: Path, called: str, leg: str) -> None:
    """A leg whose word could mean the yard, or a place far from it, is not guessed."""
    yards = (
        "name,lat,lon,colonies,boxes\nGate,-38.12,175.20,12,20\nGate!,-38.2,175.20,12,20\n"
        f"{called},-38.01,175.06,24,41\n"
    )
    extra = '[home]\nname = "Spinning shed"\n'
    fault = only(faults(tmp_path, extra, yards=yards, travel=f"from,to,minutes,km\n{leg}\n"))

    assert ("travel.csv", "a word that means one place") == (fault.file, fault.allowed)
    assert "give the yard another name" in fault.cure


def test_a_yard_called_as_the_id_of_another_would_be(tmp_path: Path) -> None:
    """Its name is its own: the second yard called Gate, by its words, has another id."""
    yards = (
        "name,lat,lon,colonies,boxes\nGate,-38.12,175.20,12,20\nGate!,-38.2,175.20,12,20\n"
        "gate-2,-38.01,175.06,24,41\n"
    )
    outfit = read(tmp_path, yards=yards, travel="from,to,minutes,km\ngate-2,home,12,9\n")

    assert ["gate", "gate-3", "gate-2"] == [yard.id for yard in outfit.yards]
    assert 12 == outfit.travel.minutes[outfit.yards[2].place_on(0)][0]


def test_a_yard_called_home_that_no_leg_needs(tmp_path: Path) -> None:
    """The name alone does no harm; the base has another word, and the yard its id."""
    yards = "name,lat,lon,colonies,boxes,id\nHome,-38.01,175.06,24,41,mill\n"
    travel = "from,to,minutes,km\nbase,mill,12,9\n"

    assert 12 == read(tmp_path, yards=yards, travel=travel).travel.minutes[0][1]


def test_a_yard_called_home_at_home(tmp_path: Path) -> None:
    """Some 110 m from the house either is meant: the base, as ever."""
    yards = "name,lat,lon,colonies,boxes\nHome,-38.051,175.11,24,41\nGate,-38.12,175.20,12,20\n"
    made = read(tmp_path, yards=yards, travel="from,to,minutes,km\nhome,gate,77,9\n").travel

    assert (77, True) == (made.minutes[0][2], 77 != made.minutes[1][2])
