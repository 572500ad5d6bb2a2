from pathlib import Path

import pytest

from runplanner.haulage.rush import Rush
from runplanner.haulage.travel import geodesic_m
from runplanner.outfit.outfit import Outfit
from runplanner.scenario import read_scenario
from runplanner.scenario.forecast.part import Heard
from tests.scenario.folders import YARDS, a_folder, faults_of, only, read

BASE, MILL, GATE = (-38.05, 175.11), (-38.01, 175.06), (-38.12, 175.20)


def told(outfit: Outfit, field: str) -> tuple[str, str]:
    """Value and source noted for a field."""
    return next((one.value, one.source) for one in outfit.assumed if one.field == field)


def with_timed(path: Path, timed: str, extra: str = "") -> Path:
    """A scenario whose timed drives stand in legs.csv."""
    folder = a_folder(path, '[travel]\ntimed = "legs.csv"\n' + extra)
    (folder / "legs.csv").write_text(timed, "utf-8")
    return folder


def drives(minutes_per_km: float, detour: float | None) -> str:
    """A table of all three drives at one pace; km where there is a detour."""
    rows = ["from,to,minutes,km"]
    for (name, one), (other, two) in (
        (("home", BASE), ("mill lane", MILL)), (("home", BASE), ("gate", GATE)),
        (("gate", GATE), ("mill lane", MILL)),
    ):  # fmt: skip
        km = geodesic_m(one, two) / 1000 * (detour or 1.3)
        rows.append(f"{name},{other},{round(km * minutes_per_km)},{f'{km:.3f}' if detour else ''}")
    return "\n".join(rows) + "\n"


def test_detour_and_speed_are_fitted(tmp_path: Path) -> None:
    """Roads 1.5 times the straight line, driven at 2 min a km, give 1.5 and 30 km/h."""
    outfit = read_scenario(with_timed(tmp_path, drives(2, 1.5)))

    assert "1.5" == told(outfit, "travel.detour")[0]
    assert "missed by 0 % as a rule" in told(outfit, "travel.detour")[1]
    # Minutes were written in whole ones: 19.1 km in 38 min instead of 38.2 is 30.2 km/h.
    speed = float(told(outfit, "travel.speed")[0].removesuffix(" km/h"))
    assert 30 == pytest.approx(speed, abs=0.5)
    assert outfit.travel.source.endswith("km/h, fitted to timed drives")
    # Base to Gate: 11,062 m straight, 16.6 km, 33 min.
    assert 33 == pytest.approx(outfit.travel.minutes[0][2], abs=1)


def test_without_km_only_the_speed_is_fitted(tmp_path: Path) -> None:
    """The detour stays the default, and the speed makes up for it."""
    outfit = read_scenario(with_timed(tmp_path, drives(1.5, None)))

    assert "1.3" == told(outfit, "travel.detour")[0]
    assert 40 == pytest.approx(float(told(outfit, "travel.speed")[0].split()[0]), abs=1)


def test_what_is_typed_counts_before_the_fit(tmp_path: Path) -> None:
    """A typed speed and detour are taken as they are."""
    typed = 'detour = 1.2\nspeed = "60 km/h"\n'
    outfit = read_scenario(with_timed(tmp_path, drives(2, 1.5), typed))

    assert "straight lines x 1.2 at 60 km/h" == outfit.travel.source


@pytest.mark.parametrize(
    ("typed", "detour", "fit"),
    [
        ('detour = 1.2\nspeed = "60 km/h"\n', 1.5, False),
        ('speed = "60 km/h"\n', 1.5, True),
        ('speed = "60 km/h"\n', None, False),
        ("detour = 1.2\n", None, True),
    ],
)
def test_what_is_not_fitted_is_not_called_so(
    tmp_path: Path, typed: str, detour: float | None, *, fit: bool
) -> None:
    """Both typed, or speed alone where no km were noted, leave nothing to fit; that is said."""
    heard = Heard()
    outfit = read_scenario(with_timed(tmp_path, drives(2, detour), typed), heard)

    assert fit == outfit.travel.source.endswith(", fitted to timed drives")
    told = "nothing is fitted to them: speed is typed, and detour too or no km are known"
    assert ([] if fit else [f"outfit.toml, line 16, travel, timed: {told}"]) == heard.doubts


@pytest.mark.parametrize(("pace", "detour", "field"), [(2, 0.5, "detour"), (60, 1.5, "speed")])
def test_a_fit_no_road_has(tmp_path: Path, pace: float, detour: float, field: str) -> None:
    """Roads shorter than the straight line, or walking pace, are refused."""
    found = faults_of(with_timed(tmp_path, drives(pace, detour)))

    assert field in {fault.field for fault in found}
    assert any("from timed drives" in fault.said for fault in found)


def test_a_fitted_speed_is_refused_in_the_unit_it_is_typed_in(tmp_path: Path) -> None:
    """1 km/h: 60 min for each km."""
    found = only(faults_of(with_timed(tmp_path, drives(60, 1.5))))

    assert "1 km/h from timed drives" == found.said
    assert "from 5 to 130 km/h, fitted or typed" == found.allowed


@pytest.mark.parametrize(
    ("line", "field"),
    [
        ("home,home,5,3", "to"),
        ("home,nowhere,5,3", "to"),
        ("home,gate,fast,3", "minutes"),
        ("home,gate,,3", "minutes"),
        ("home,gate,0,3", "minutes"),
        ("home,gate,5,0", "minutes"),
        ("home,gate,5,far", "km"),
    ],
)
def test_a_timed_drive_that_cannot_be_used(tmp_path: Path, line: str, field: str) -> None:
    """Each row at fault is named with its number."""
    found = only(faults_of(with_timed(tmp_path, drives(2, 1.5) + line + "\n")))

    assert ("legs.csv", "row 5", field) == (found.file, found.where, found.field)


def test_a_timed_table_of_another_kind(tmp_path: Path) -> None:
    """Unknown and missing columns are named."""
    found = faults_of(with_timed(tmp_path, "start,to,minutes\nhome,gate,5\n"))

    assert {"start", "from"} == {fault.field for fault in found}


def test_too_few_timed_drives(tmp_path: Path) -> None:
    """Two are too few to fit a speed to."""
    text = "\n".join(drives(2, 1.5).splitlines()[:3]) + "\n"

    assert "2 drives of use" == only(faults_of(with_timed(tmp_path, text))).said


def test_drives_of_no_use_are_not_counted(tmp_path: Path) -> None:
    """The third is all last stretch: 33 min typed of the 33 it took."""
    yards = YARDS.replace("boxes\n", "boxes,last_stretch\n").replace("41\n", "41,\n")
    yards = yards.replace("12,20\n", "12,20,33 min\n")
    folder = a_folder(tmp_path, '[travel]\ntimed = "legs.csv"\n', yards=yards)
    (folder / "legs.csv").write_text(
        "from,to,minutes\nhome,mill lane,20\nmill lane,home,21\nhome,gate,33\n"
    )

    assert "2 drives of use" == only(faults_of(folder)).said


def test_an_empty_timed_table(tmp_path: Path) -> None:
    """No rows leave the defaults."""
    outfit = read_scenario(with_timed(tmp_path, "from,to,minutes\n"))

    assert "straight lines x 1.3 at 50 km/h" == outfit.travel.source


def test_travel_csv_can_be_the_timed_table(tmp_path: Path) -> None:
    """The legs typed there may be what the others are fitted to."""
    folder = a_folder(tmp_path, '[travel]\ntimed = "travel.csv"\n', travel=drives(2, 1.5))

    assert read_scenario(folder).travel.source.startswith("3 legs from travel.csv, otherwise")


def test_last_stretches_on_straight_lines(tmp_path: Path) -> None:
    """Typed minutes are added at both ends, and taken off timed drives before the fit."""
    yards = (
        "name,lat,lon,colonies,boxes,last_stretch\n"
        "Mill Lane,-38.01,175.06,24,41,4 min\nGate,-38.12,175.20,12,20,3 min\n"
    )
    plain = read(tmp_path, yards=YARDS).travel.minutes
    (tmp_path / "b").mkdir()
    made = read(tmp_path / "b", yards=yards).travel.minutes

    assert plain[0][1] is not None
    assert plain[1][2] is not None
    assert (plain[0][1] + 4, plain[1][2] + 7, 0) == (made[0][1], made[1][2], made[1][1])


def test_the_last_stretch_can_hold_for_all_yards(tmp_path: Path) -> None:
    """[yards] last_stretch stands for every row without one."""
    plain = read(tmp_path).travel.minutes
    (tmp_path / "b").mkdir()
    made = read(tmp_path / "b", '[yards]\nlast_stretch = "5 min"\n').travel.minutes

    assert plain[1][2] is not None
    assert plain[1][2] + 10 == made[1][2]


def test_busy_hours_stand_beside_the_table(tmp_path: Path) -> None:
    """Drives stay those of the best hour, and each hour's factor is told from there."""
    plain = read(tmp_path).travel
    (tmp_path / "b").mkdir()
    extra = '[travel.hours]\n"07-09" = "125 %"\n"02-03" = "190 %"\n'
    made = read(tmp_path / "b", extra).travel

    assert plain.minutes == made.minutes
    busy = {2: 1900, 7: 1250, 8: 1250}
    assert tuple(busy.get(hour, 1000) for hour in range(24)) == made.by_hour
    assert () == plain.by_hour
    assert f"{plain.source}, times by the hour of driving" == made.source


def test_hours_over_midnight(tmp_path: Path) -> None:
    """From 22 to 6 are 22, 23 and 0 to 5; to 00 as to 24 is to midnight."""
    plain = read(tmp_path, '[travel.hours]\n"00-06" = "80 %"\n"22-24" = "80 %"\n').travel
    (tmp_path / "b").mkdir()
    over = read(tmp_path / "b", '[travel.hours]\n"22-06" = "80 %"\n').travel
    (tmp_path / "c").mkdir()
    two = '[travel.hours]\n"22-00" = "80 %"\n"00-06" = "80 %"\n'

    assert plain == over == read(tmp_path / "c", two).travel
    assert 8 == over.by_hour.count(1000)


def test_hours_that_are_faster(tmp_path: Path) -> None:
    """Where nights go at 80 %, the table is the night's, and other hours take 1 / 0.8."""
    plain = read(tmp_path).travel
    (tmp_path / "b").mkdir()
    made = read(tmp_path / "b", '[travel.hours]\n"20-24" = "80 %"\n').travel

    # 18 x 0.8 is 14.4: 14 are 17.5 by day, so 18 again.
    assert (18, 14) == (plain.minutes[0][2], made.minutes[0][2])
    assert 18 == Rush(made.by_hour)(14, 720)
    assert (1250, 1250, 1000, 1000) == made.by_hour[18:22]


@pytest.mark.parametrize(
    ("hours", "stored", "plain", "rush"),
    [
        # 20 x 0.8 = 16 in the night's hours, which take 1 / 0.8 by day: 16 x 1.25 = 20.
        ('"00-06" = "80 %"', 16, 20, 20),
        # 20 x 0.9 = 18, and 18 / 0.9 is 20 again; as 20 x 0.7 = 14 is at 70 %.
        ('"00-06" = "90 %"', 18, 20, 20),
        ('"00-06" = "70 %"', 14, 20, 20),
        # 20 x 1.2 = 24 by day; from 7 to 9 20 x 1.5 = 30.
        ('"00-07" = "120 %"\n"07-09" = "150 %"\n"09-24" = "120 %"', 24, 24, 30),
        ('"00-24" = "150 %"', 30, 30, 30),
        ('"07-09" = "150 %"', 20, 20, 30),
    ],
)
def test_typed_legs_take_as_long_as_their_hours_make_them(
    tmp_path: Path, hours: str, stored: int, plain: int, rush: int
) -> None:
    """20 min at 100 %, whatever the best hour is; begun at noon, and at 7:00."""
    travel = "from,to,minutes,km\nhome,gate,20,10\nmill lane,gate,no road,\n"
    made = read(tmp_path, f"[travel.hours]\n{hours}\n", travel=travel).travel
    rushed = Rush(made.by_hour or (1000,) * 24)

    assert made.minutes[0][2] == made.minutes[2][0] == stored
    assert (plain, rush) == (rushed(stored, 720), rushed(stored, 420))
    assert (None, 10_000) == (made.minutes[1][2], made.metres[0][2])


def test_last_stretches_take_as_long_as_their_hours_make_them(tmp_path: Path) -> None:
    """At 150 % all day the ten minutes of both ends take 15."""
    plain = read(tmp_path).travel.minutes[1][2]
    (tmp_path / "b").mkdir()
    extra = '[yards]\nlast_stretch = "5 min"\n[travel.hours]\n"00-24" = "150 %"\n'
    made = read(tmp_path / "b", extra).travel.minutes[1][2]

    assert plain is not None
    assert -(-plain * 3 // 2) + 15 == made


def test_all_hours_alike_are_no_busy_hours(tmp_path: Path) -> None:
    """One factor for the whole day is on the table itself."""
    plain = read(tmp_path).travel
    (tmp_path / "b").mkdir()
    made = read(tmp_path / "b", '[travel.hours]\n"00-24" = "120 %"\n').travel

    assert plain.minutes[0][2] is not None
    assert (-(-plain.minutes[0][2] * 6 // 5), ()) == (made.minutes[0][2], made.by_hour)
