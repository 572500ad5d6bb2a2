"""Two slips of one row or table are told in one go; only what hangs on the first waits for it."""

from pathlib import Path

import pytest

from tests.scenario.folders import faults, only
from tests.scenario.roads import faults_with_roads

WEATHER = "area,what,state,from_day,to_day,from_hour,to_hour,min_temp,max_temp,note\n"
YARD = "name,lat,lon,colonies,boxes,target"
HERE = "-38.01,175.06"
AXLES = """\
[trucks.axles]
front_empty = "0.5 t"
rear_empty = "0.9 t"
front_max = "1.7 t"
rear_max = "x"
load_on_rear = "80 %"
"""
MOVE = '[[moves]]\nyard = "Gate"\nlat = -38.1\nlon = 175.1\n'
BOX = '[[boxes]]\nname = "Own"\nwidth = "400 mm"\nheight = "200 mm"\n'
TRUCK = """\
[[trucks]]
empty = "2.1 t"
max = "3.5 t"
deck_length = "3.1 m"
deck_width = "2.1 m"
"""


@pytest.mark.parametrize(
    ("weather", "fields"),
    [
        ("moon,feed,shut,2027-03-08,2027-03-01,,,,,rain", ["area", "to_day"]),
        ("all,open,,2027-03-08,2027-03-01,,,,,", ["state", "to_day"]),
        ("all,open,shut,2027-03-08,2027-03-01,25:00,,,,", ["from_hour", "to_day"]),
        ("all,open,shut,2027-05-08,2027-05-09,25:00,,,,", ["from_hour", "from_day"]),
        ("moon,temperature,,2027-03-02,2027-03-03,,,20 degC,10 degC,", ["area", "max_temp"]),
        ("all,open,shut,soon,2027-03-01,,,,,", ["from_day"]),
        # A row of which nobody knows what it tells lacks nothing, and has nothing too much.
        ("all,temperatur,,2027-03-02,2027-03-03,,,10 degC,20 degC,", ["what"]),
    ],
)
def test_of_weather(tmp_path: Path, weather: str, fields: list[str]) -> None:
    """Dates and temperatures are compared whatever else is wrong."""
    found = faults(tmp_path, weather=WEATHER + weather + "\n")

    assert fields == [fault.field for fault in found]


@pytest.mark.parametrize(
    ("columns", "cells", "fields"),
    [
        ("", f"Bend,{HERE},2,30,15", ["target", "boxes"]),
        (",boxes_per_colony", f"Bend,{HERE},2,30,15,3", ["target", "boxes_per_colony"]),
        ("", f"Bend,{HERE},two,30,15 kg", ["colonies"]),
        (",box_mass", f"Bend,{HERE},2,3,15,2.5 kg", ["target", "box_mass"]),
        (",box_mass,fill", f"Bend,{HERE},2,3,15 kg,2.5 kg,x", ["fill"]),
        (",boards_on", f"Bend,{HERE},2,3,15,2027-02-27", ["target", "boards_on"]),
        (",boards_on,clearing", f"Bend,{HERE},2,3,15 kg,2027-02-27,x", ["clearing"]),
        (",boards_on,clearing", f"Bend,{HERE},2,x,15 kg,2027-02-27,boards", ["boxes"]),
        (",licence", f"Bend,{HERE},2,3,15,7 of 2027-01-01", ["target", "licence"]),
        (",licence,health", f"Bend,{HERE},2,3,15 kg,7 of 2027-01-01,x", ["health"]),
    ],
)
def test_of_a_yard(tmp_path: Path, columns: str, cells: str, fields: list[str]) -> None:
    """Boxes are counted against colonies though the target's unit is missing."""
    found = faults(tmp_path, "[kit]\nboards = 50\n", yards=f"{YARD}{columns}\n{cells}\n")

    assert fields == [fault.field for fault in found]


@pytest.mark.parametrize(
    ("slips", "fields"),
    [
        ({"2.1 t": "4.1 t"}, ["max", "seats"]),
        ({"3.5 t": "3.5"}, ["max", "seats"]),
        ({'"2.1 t"': '"2.1 t"\ntrain_max = "3 t"'}, ["train_max", "seats"]),
        ({'"2.1 t"': '"2.1 t"\ndrivers = []'}, ["drivers", "seats"]),
        ({'seats = "x"': AXLES}, ["axles", "rear_max"]),
    ],
)
def test_of_a_truck(tmp_path: Path, slips: dict[str, str], fields: list[str]) -> None:
    """Masses are compared though nobody knows how many seats there are."""
    truck = TRUCK + 'seats = "x"\n'
    for right, slip in slips.items():
        truck = truck.replace(right, slip)

    assert fields == [fault.field for fault in faults(tmp_path, truck=truck)]


@pytest.mark.parametrize(
    ("rows", "fields"),
    [
        ("base,base,soon,3", ["minutes", "to"]),
        ("moon,Gate,1,300", ["from", "minutes"]),
        ("base,Gate,soon,3\nbase,Gate,20,far", ["minutes", "km", "to"]),
        ("base,moon,0,0", ["to"]),
    ],
)
def test_of_a_leg(tmp_path: Path, rows: str, fields: list[str]) -> None:
    """Its ends are compared without its minutes, its minutes and km without its ends."""
    found = faults(tmp_path, travel=f"from,to,minutes,km\n{rows}\n")

    assert fields == [fault.field for fault in found]


@pytest.mark.parametrize(
    ("row", "fields"),
    [("base,base,soon", ["minutes", "to"]), ("moon,Gate,0", ["from", "minutes"])],
)
def test_of_a_timed_drive(tmp_path: Path, row: str, fields: list[str]) -> None:
    """As of a leg."""
    found = faults_with_roads(tmp_path, 'timed = "legs.csv"\n', f"from,to,minutes\n{row}\n")

    assert fields == [fault.field for fault in found if fault.file == "legs.csv"]


@pytest.mark.parametrize(
    ("extra", "fields"),
    [
        (
            f'{MOVE}day = 2027-03-01\ntruck = "Moon"\n',
            ["day", "truck"],
        ),
        ("[[areas]]\nname = 5\ncorners = [[-38, 175], [-38, 175.1]]\n", ["name", "corners"]),
        (
            f'{BOX}length = "1 kg"\nempty = "9 kg"\nfull = "8 kg"\n',
            ["length", "full"],
        ),
        ('[safety]\nload = "x"\nspare_days = 20\n', ["load", "spare_days"]),
        ('[hours]\nnormal = "x"\nnoon = "05:00"\n', ["normal", "noon"]),
    ],
)
def test_of_other_tables(tmp_path: Path, extra: str, fields: list[str]) -> None:
    """The same rule for all."""
    assert fields == [fault.field for fault in faults(tmp_path, extra)]


def test_a_move_is_not_out_of_order_where_the_season_is_at_fault(tmp_path: Path) -> None:
    """Its day is none that anybody could judge."""
    move = f"{MOVE}day = 2027-03-05\n"
    season = "[season]\nfirst_day = 2027-03-01\nlast_day = 2026-03-10\n"

    assert "last_day" == only(faults(tmp_path, move, season=season)).field
