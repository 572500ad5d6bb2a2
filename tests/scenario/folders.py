"""Scenario folders for tests: the smallest that reads, with pieces added or put in place."""

from pathlib import Path

from runplanner.errors import Fault, ScenarioError
from runplanner.outfit.outfit import Outfit
from runplanner.scenario import read_scenario

HEAD = """\
title = "Test"
people = 2
"""
SEASON = """\
[season]
first_day = 2027-03-01
last_day = 2027-03-10
"""
BASE = """\
[base]
lat = -38.05
lon = 175.11
"""
TRUCK = """\
[[trucks]]
name = "Blue"
empty = "2.1 t"
max = "3.5 t"
deck_length = "3.1 m"
deck_width = "2.1 m"
"""
YARDS = """\
name,lat,lon,colonies,boxes
Mill Lane,-38.01,175.06,24,41
Gate,-38.12,175.20,12,20
"""


def a_folder(
    path: Path,
    extra: str = "",
    *,
    yards: str | bytes = YARDS,
    weather: str = "",
    travel: str = "",
    head: str = HEAD,
    season: str = SEASON,
    base: str = BASE,
    truck: str = TRUCK,
) -> Path:
    """Write a scenario; ``extra`` goes at the end of outfit.toml."""
    folder = path / "campaign"
    folder.mkdir()
    (folder / "outfit.toml").write_text(head + season + base + truck + extra, "utf-8")
    raw = yards.encode() if isinstance(yards, str) else yards
    (folder / "yards.csv").write_bytes(raw)
    for name, text in (("weather.csv", weather), ("travel.csv", travel)):
        if text:
            (folder / name).write_text(text, "utf-8")
    return folder


def read(path: Path, extra: str = "", **pieces: str | bytes) -> Outfit:
    """Write a scenario and read it."""
    return read_scenario(a_folder(path, extra, **pieces))  # type: ignore[arg-type]


def faults(path: Path, extra: str = "", **pieces: str | bytes) -> tuple[Fault, ...]:
    """Write a scenario that must be refused, and return its faults."""
    folder = a_folder(path, extra, **pieces)  # type: ignore[arg-type]
    return faults_of(folder)


def faults_of(folder: Path) -> tuple[Fault, ...]:
    """Return the faults for which ``folder`` is refused; none is a failed test."""
    try:
        read_scenario(folder)
    except ScenarioError as error:
        return error.faults
    raise AssertionError("the scenario was not refused")


def only(found: tuple[Fault, ...]) -> Fault:
    """Return the one fault there is."""
    assert 1 == len(found), "\n".join(fault.sentence() for fault in found)
    return found[0]


def row(
    name: str = "Mill Lane", lat: str = "-38.01", lon: str = "175.06", rest: str = "24,41"
) -> str:
    """Return a yards table of one row with the five needed columns."""
    return f"name,lat,lon,colonies,boxes\n{name},{lat},{lon},{rest}\n"
