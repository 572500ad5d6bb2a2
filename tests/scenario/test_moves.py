from pathlib import Path

import pytest

from runplanner.outfit.yards import Health
from runplanner.scenario import implied
from tests.scenario.folders import TRUCK, faults, only, read, row

MOVE = '[[moves]]\nyard = "{}"\nday = {}\nlat = -38.2\nlon = 175.2\n'


def test_a_yard_that_moves(tmp_path: Path) -> None:
    """From its day on the yard stands elsewhere; the truck that moved it rests that day."""
    truck = TRUCK + "out_days = [2027-03-02]\n"
    extra = MOVE.format("gate", "2027-03-05") + 'truck = "blue"\n'
    outfit = read(tmp_path, extra + MOVE.format("Gate", "2027-03-08"), truck=truck)

    yard = outfit.yards[1]
    assert ((0, 2), (4, 3), (7, 4)) == yard.sites
    assert [2, 2, 3, 4] == [yard.place_on(day) for day in (0, 3, 4, 9)]
    assert (1, 4) == outfit.trucks[0].out_days
    assert ((4, "blue"),) == yard.carried_by
    assert "Gate" == outfit.places[3].name


def test_sun_follows_the_yard(tmp_path: Path) -> None:
    """Sunrise is that of the place where the hives stand that day."""
    # Two degrees of longitude west the sun rises 8 minutes later.
    west = '[[moves]]\nyard = "Gate"\nday = 2027-03-05\nlat = -38.12\nlon = 173.2\n'
    outfit = read(tmp_path, west)
    stays, moves = outfit.yards

    before = moves.sun_spans[3].start_min - stays.sun_spans[3].start_min
    after = moves.sun_spans[4].start_min - stays.sun_spans[4].start_min
    assert 7 <= after - before <= 9


def test_moves_in_order(tmp_path: Path) -> None:
    """A second move before the first is a slip."""
    extra = MOVE.format("Gate", "2027-03-05") + MOVE.format("Gate", "2027-03-04")

    assert "day" == only(faults(tmp_path, extra)).field


@pytest.mark.parametrize("state", ["suspect", "standstill"])
def test_hives_of_a_closed_yard_are_not_moved(tmp_path: Path, state: str) -> None:
    """Nothing leaves it, so its row of [[moves]] is a fault; a licence lets it go."""
    head = "name,lat,lon,colonies,boxes,health,licence\n"
    row = f"Mill,-38.0,175.0,3,4,{state},{{}}\nGate,-38.1,175.1,3,4,,\n"
    fault = only(faults(tmp_path, MOVE.format("Mill", "2027-03-05"), yards=head + row.format("")))

    assert ("outfit.toml", "moves 1", "yard") == (
        fault.file, fault.where.split(", ", 1)[-1], fault.field,
    )  # fmt: skip
    assert "a yard that hives may leave" in fault.allowed
    other = tmp_path / "other"
    other.mkdir()
    outfit = read(other, MOVE.format("Gate", "2027-03-05"), yards=head + row.format(""))
    assert 2 == len(outfit.yards[1].sites)
    if state == "standstill":
        released = tmp_path / "released"
        released.mkdir()
        outfit = read(released, MOVE.format("Mill", "2027-03-05"), yards=head + row.format("No 7"))
        assert 2 == len(outfit.yards[0].sites)


@pytest.mark.parametrize("lat", ["-38.12", "-38.2"], ids=["out of it", "into it"])
def test_hives_are_not_moved_out_of_an_area_nor_into_it(tmp_path: Path, lat: str) -> None:
    """A circle of 1 km round the old place, or round the new one."""
    area = f'[[areas]]\nlat = {lat}\nlon = 175.2\nradius = "1 km"\n'
    fault = only(faults(tmp_path, MOVE.format("Gate", "2027-03-05") + area))

    assert "yard" == fault.field
    assert "restricted area" in fault.allowed


@pytest.mark.parametrize(
    ("area", "state"),
    [
        ('lat = -38.0\nlon = 175.0\nradius = "5 km"\n', Health.STANDSTILL),
        ('lat = -38.0\nlon = 175.0\nradius = "3 mile"\n', Health.SOUND),  # 4.83 km
        ("corners = [[-38.1, 175.0], [-38.0, 175.0], [-38.0, 175.1], [-38.1, 175.1]]\n",
         Health.STANDSTILL),
        ("corners = [[-38.1, 175.0], [-38.0, 175.0], [-38.1, 175.1]]\n", Health.SOUND),
    ],
    ids=["in circle", "out of circle", "in square", "out of triangle"],
)  # fmt: skip
def test_restricted_areas(tmp_path: Path, area: str, state: Health) -> None:
    """A yard inside a circle or polygon is at a standstill."""
    # The yard lies at (-38.03, 175.05): 3.33 km south and 4.39 km east of (-38, 175), so 5.5 km
    # away; the circle of the first case is moved onto it by half a kilometre below.
    yards = (
        row("Mill", "-38.03", "175.05") if "corners" in area else row("Mill", "-38.03", "175.04")
    )
    outfit = read(tmp_path, f"[[areas]]\n{area}", yards=yards)

    assert state is outfit.yards[0].health
    assert ["radius" in area] == [bool(one.radius_m) for one in outfit.areas]


@pytest.mark.parametrize("at", [0, 2, 3])
def test_a_slip_in_any_corner_is_seen(tmp_path: Path, at: int) -> None:
    """A lost minus leaves the yard outside the area, and free; the fault names the corner."""
    corners = [[-38.1, 175.0], [-38.0, 175.0], [-38.0, 175.1], [-38.1, 175.1]]
    corners[at][0] *= -1
    fault = only(faults(tmp_path, f"[[areas]]\ncorners = {corners}\n"))

    assert "corners" == fault.field
    assert fault.said.startswith(f"corner {at + 1}: 8")  # 76 degrees of latitude, 8,450 km
    assert f"Then lat is {-corners[at][0]:g} and lon {corners[at][1]:g}." in fault.cure


def test_each_slip_of_a_corner_is_told(tmp_path: Path) -> None:
    """Two of four; where all of them are far, the first tells enough."""
    near, far = "[-38.1, 175.0], [-38.0, 175.0]", "[38.0, 175.1], [38.1, 175.1]"
    (tmp_path / "two").mkdir()
    (tmp_path / "all").mkdir()

    assert ["corner 3", "corner 4"] == [
        fault.said.split(":")[0]
        for fault in faults(tmp_path / "two", f"[[areas]]\ncorners = [{near}, {far}]\n")
    ]
    found = only(faults(tmp_path / "all", f"[[areas]]\ncorners = [{far}, [38.1, 175.0]]\n"))
    assert found.said.startswith("corner 1: ")


def test_corners_out_of_order_are_told(tmp_path: Path) -> None:
    """The sides cross: a yard in the rectangle that was meant would lie outside, and be free."""
    corners = [[-38.1, 175.0], [-38.0, 175.1], [-38.0, 175.0], [-38.1, 175.1]]
    fault = only(faults(tmp_path, f"[[areas]]\ncorners = {corners}\n"))

    assert "the side after corner 1 crosses that after corner 3" == fault.said
    assert "List [lat, lon] of each corner in order round the area." == fault.cure


@pytest.mark.parametrize(
    "corners",
    [
        [[-38.1, 175.0], [-38.0, 175.0], [-38.0, 175.1], [-38.1, 175.1], [-38.1, 175.0]],
        [[-38.1, 175.0], [-38.0, 175.0], [-38.05, 175.05], [-38.0, 175.1], [-38.1, 175.1],
         [-38.05, 175.05]],
        [[-38.1, 175.0], [-38.0, 175.0], [-38.0, 175.0], [-38.0, 175.1], [-38.1, 175.1]],
    ],
    ids=["closed", "touching", "twice"],
)  # fmt: skip
def test_sides_that_touch_do_not_cross(tmp_path: Path, corners: list[list[float]]) -> None:
    """Some lists end with their first corner; two parts of an area may meet in a point."""
    yards = row("Mill", "-38.05", "175.01") + "Out,-38.05,175.2,3,4\n"
    outfit = read(tmp_path, f"[[areas]]\ncorners = {corners}\n", yards=yards)

    assert [Health.STANDSTILL, Health.SOUND] == [yard.health for yard in outfit.yards]


def test_area_across_the_date_line(tmp_path: Path) -> None:
    """A polygon may run over 180 degrees."""
    corners = "[[-17, 179.9], [-17, -179.9], [-16, -179.9], [-16, 179.9]]"
    base = "[base]\nlat = -16.8\nlon = 179.95\n"
    yards = row("In", "-16.5", "-179.95") + "Out,-16.5,179.8,3,4\n"
    outfit = read(tmp_path, f"[[areas]]\ncorners = {corners}\n", base=base, yards=yards)

    assert [Health.STANDSTILL, Health.SOUND] == [yard.health for yard in outfit.yards]


def test_suspect_stays_suspect(tmp_path: Path) -> None:
    """Suspicion asks for more than a standstill, so it stays."""
    yards = "name,lat,lon,colonies,boxes,health\nMill,-38.0,175.0,3,4,suspect\n"
    area = '[[areas]]\nlat = -38.0\nlon = 175.0\nradius = "1 km"\n'

    assert Health.SUSPECT is read(tmp_path, area, yards=yards).yards[0].health


def test_check_tells_of_each_move(tmp_path: Path) -> None:
    """Before which day, and with which truck."""
    extra = MOVE.format("Gate", "2027-03-05") + 'truck = "Blue"\n'
    outfit = read(tmp_path, extra + MOVE.format("Mill Lane", "2027-03-08"))

    assert (
        "hives moved at night",
        "Mill Lane (before 2027-03-08, no truck named), Gate (before 2027-03-05, with Blue)",
    ) in implied(outfit)
