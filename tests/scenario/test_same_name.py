"""A name is the same wherever it is typed, however its accents are stored."""

from pathlib import Path
from typing import Literal
from unicodedata import normalize

import pytest

from tests.scenario.folders import HEAD, TRUCK, faults, only, read

Form = Literal["NFC", "NFD"]
PEOPLE = 'title = "Test"\n[[people]]\nname = "Zoë"\n'
DRIVERS = 'drivers = ["Zoë"]\n'
NAMED = """\
[[strips_also]]
substance = "thymol"
name = "Kräuter"
[[boxes]]
name = "Große Höfe"
length = "508 mm"
width = "413 mm"
height = "243 mm"
empty = "5 kg"
full = "20 kg"
"""
NAMES_THEM = """\
[[moves]]
yard = "Südhang"
day = 2027-03-05
truck = "Grün"
lat = -38.02
lon = 175.06
"""
YARDS = """\
name,lat,lon,colonies,boxes,district,strips,box
Südhang,-38.01,175.06,24,41,Höhe,{strips},{box}
Gate,-38.12,175.20,12,20,,,
"""
WEATHER = """\
area,what,state,from_day,to_day
Südhang,open,shut,2027-03-02,2027-03-02
Höhe,open,shut,2027-03-03,2027-03-03
"""
TRAVEL = "from,to,minutes,km\nhome,Südhang,12,9\n"


@pytest.mark.parametrize(("own", "other"), [("NFC", "NFD"), ("NFD", "NFC")])
def test_accents_stored_apart_or_together(tmp_path: Path, own: Form, other: Form) -> None:
    """Yards, districts, trucks, people, boxes and strips are found by either spelling."""
    words = {"strips": normalize(other, "Kräuter"), "box": normalize(other, "Große Höfe")}
    outfit = read(
        tmp_path,
        normalize(own, NAMED) + normalize(other, NAMES_THEM),
        head=normalize(own, PEOPLE),
        truck=normalize(own, TRUCK.replace("Blue", "Grün")) + normalize(other, DRIVERS),
        yards=normalize(own, YARDS).format(**words),
        weather=normalize(other, WEATHER),
        travel=normalize(other, TRAVEL),
    )

    assert ((0, 1), (4, 3)) == outfit.yards[0].sites
    assert "grosse-hofe" == outfit.yards[0].box
    assert 12 == outfit.travel.minutes[0][1]
    assert not any(1 <= span.start_min // 1440 < 3 for span in outfit.yards[0].open_spans)


def test_one_name_with_accents_stored_in_two_ways_stands_there_twice(tmp_path: Path) -> None:
    """Two rows that look alike are two of one name."""
    name = "Südhang"
    yards = f"name,lat,lon,colonies,boxes\n{name},-38.01,175.06,24,41\n"
    yards += f"{normalize('NFD', name)},-38.12,175.20,12,20\n"

    assert "Row 2 has it already" in only(faults(tmp_path, head=HEAD, yards=yards)).cure


def test_a_leg_names_a_yard_as_the_yards_table_does(tmp_path: Path) -> None:
    """With its underscores; where no name or id has them they stand for blanks."""
    yards = (
        "name,id,lat,lon,colonies,boxes\nWP_01,,-38.01,175.06,24,41\n"
        "WP 01,,-38.05,175.06,24,41\nMill Lane,old_mill,-38.12,175.20,12,20\n"
    )
    travel = "from,to,minutes,km\nhome,WP_01,12,9\nhome,wp 01,13,9\n"
    travel += "mill_lane,wp_01,34,26\nold_mill,feed_store,35,26\n"
    made = read(tmp_path, yards=yards, travel=travel).travel

    assert [12, 13, 34, 35] == [
        made.minutes[here][there] for here, there in ((0, 1), (0, 2), (3, 1), (3, 0))
    ]
