"""Which forecasts a scenario wants fetched, and from where; nothing is asked here."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from runplanner.phrase import phrase
from runplanner.scenario.cells.fields import Desk
from runplanner.scenario.faults import Refusal
from runplanner.scenario.files import read_folder
from runplanner.scenario.forecast.settings import read_settings
from runplanner.scenario.forecast.sources import Source, read_sources
from runplanner.scenario.parts.bases_part import PlaceBook, read_bases
from runplanner.scenario.parts.boxes_part import read_boxes
from runplanner.scenario.parts.season_part import read_days, read_season
from runplanner.scenario.windows.weather_file import area_named, yard_areas
from runplanner.scenario.yards.yard_row import Draft
from runplanner.scenario.yards.yards_file import read_yards
from runplanner.weather.wall import Wall


@dataclass(frozen=True, slots=True)
class Wanted:
    """One forecast to fetch: from which address, into which file, for which area.

    ``where`` is the line on which the address stands.
    """

    area: str
    url: str
    file: str
    zone: str
    where: str


@dataclass(frozen=True, slots=True)
class Errand:
    """All of them, the clock they are read against, and how to say who asks."""

    wanted: tuple[Wanted, ...]
    wall: Wall
    contact: str


def read_errand(folder: Path) -> Errand:
    """Return what the scenario in ``folder`` wants fetched.

    ``{lat}`` and ``{lon}`` in an address become the middle of the area's yards, to a hundredth
    of a degree: about a kilometre, finer than any forecast and no finer than need be.

    Raises:
        ScenarioError: With every fault found; also when no address is named.
    """
    desk = Desk()
    file, tables = read_folder(folder, desk)
    days, book = read_days(file), PlaceBook()
    season = read_season(file, days, read_bases(file, book).point)
    drafts = read_yards(file, tables["yards"], days, read_boxes(file), book)
    sources = [source for source in read_sources(file, folder) if source.url]
    contact = read_settings(file.section("weather"), used=False).contact
    if not sources and not len(desk.book):
        cure = phrase(
            "Write [[forecasts]] with area, file and url, or save a forecast there by hand."
        )
        file.top.fault("forecasts", phrase("at least one url"), cure, said=phrase("no address"))
    desk.book.close()
    wanted = tuple(_wanted(source, drafts) for source in sources)
    desk.book.close()
    return Errand(wanted, Wall(days.first, season.zone), contact)


def _wanted(source: Source, drafts: Sequence[Draft]) -> Wanted:
    lat, lon = _middle(source, drafts)
    url = source.url.replace("{lat}", f"{lat:.2f}").replace("{lon}", f"{lon:.2f}")
    where = source.fields.where("url") if source.fields is not None else ""
    return Wanted(source.area, url, source.file, source.zone, where)


def _middle(source: Source, drafts: Sequence[Draft]) -> tuple[float, float]:
    try:
        _, yards = area_named(yard_areas(drafts), source.area)
    except Refusal as refusal:
        if source.fields is not None:
            source.fields.fault("area", refusal.allowed, refusal.cure, said=source.area)
        return 0.0, 0.0
    points = [point for index in sorted(yards) if (point := drafts[index].point) is not None]
    west = points[0][1]
    off = [(lon - west + 180) % 360 - 180 for _, lon in points]
    lon = (west + sum(off) / len(off) + 180) % 360 - 180
    return sum(lat for lat, _ in points) / len(points), lon
