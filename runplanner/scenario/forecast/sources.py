"""The forecasts of a scenario: files in its folder, each for some of its yards.

``forecast.csv`` or ``forecast.json`` is for all yards; ``[[forecasts]]`` names others, for a
district or a yard, and perhaps the address each can be fetched from.  Nothing here asks the
network.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from runplanner.days import DAY_MIN, Span, date_of, day_of
from runplanner.errors import Fault, ScenarioError
from runplanner.haulage.travel import geodesic_m
from runplanner.phrase import Number, Phrase, phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import Days, OutfitFile
from runplanner.scenario.faults import Moot, Refusal, said_text
from runplanner.scenario.files import FORECASTS
from runplanner.scenario.places.sun import zone_name
from runplanner.scenario.values.words import name
from runplanner.scenario.windows.weather_file import (
    AFTER_DAYS,
    Areas,
    Ranked,
    area_named,
    yard_areas,
)
from runplanner.scenario.yards.yard_row import Draft
from runplanner.weather.fetch import is_address
from runplanner.weather.hours import Forecast
from runplanner.weather.read_forecast import MOST_BYTES, read_forecast
from runplanner.weather.wall import Wall

FAR_M: Final = 100_000
"""A forecast for a place this far from all its yards is another place's."""
EARLY_DAYS: Final = 42
"""A forecast that ends so many days before the campaign, or fewer, is early, not old (guessed)."""
_KINDS: Final = (".csv", ".json")


@dataclass(frozen=True, slots=True)
class Ground:
    """What forecasts are read against.

    Args:
        folder: The scenario's.
        days: The campaign's.
        zone: The zone of its wall clock.
        drafts: Its yards.
    """

    folder: Path
    days: Days
    zone: str
    drafts: Sequence[Draft]

    @property
    def wall(self) -> Wall:
        """The campaign's clock."""
        return Wall(self.days.first, self.zone)

    def skipped(self) -> tuple[Span, ...]:
        """Return the stretches that this clock never shows, as clocks go forward."""
        return self.wall.skipped(range(self.days.n_days + AFTER_DAYS))


@dataclass(frozen=True, slots=True)
class Source:
    """One forecast as named: for which area, in which file, from which address.

    ``zone`` is where times of a CSV without an offset were read; "" for the campaign's.
    ``fields`` is None for a file that was found by its name.
    """

    area: str
    file: str
    url: str = ""
    zone: str = ""
    fields: Fields | None = None


@dataclass(frozen=True, slots=True)
class Sky:
    """A forecast and the yards it is for; ``rank`` 0 is the narrowest area."""

    area: str
    rank: int
    yards: frozenset[int]
    file: str
    forecast: Forecast


def read_sources(file: OutfitFile, folder: Path) -> list[Source]:
    """Return the forecasts of a scenario, named or found."""
    named = [
        Source(
            area=fields.optional("area", name) or "all",
            file=fields.read("file", _file_name, ""),
            url=fields.optional("url", _address) or "",
            zone=fields.optional("zone", zone_name) or "",
            fields=fields,
        )
        for fields in file.entries("forecasts")
    ]
    used = [source.file for source in named]
    found = [plain for plain in FORECASTS if (folder / plain).is_file() and plain not in used]
    if len(found) > 1:
        cure = phrase("Delete one, or name each under [[forecasts]] with its area.")
        file.book.add(
            Fault(
                FORECASTS[0],
                "",
                "",
                phrase("{plain} too", plain=FORECASTS[1]),
                phrase("one of them"),
                cure,
            )
        )
    return [*named, *(Source("all", plain) for plain in found[:1])]


def _file_name(said: object) -> str:
    text = said.strip() if isinstance(said, str) else ""
    allowed = phrase("a .csv or .json file in the scenario's folder")
    if not text.isprintable() or Path(text).name != text or "\\" in text or len(text) > 120:
        raise Refusal(allowed, phrase("Write the bare name, without folders."))
    if Path(text).suffix.lower() not in _KINDS or text in {
        "yards.csv",
        "weather.csv",
        "travel.csv",
    }:
        raise Refusal(allowed, phrase("Name it such as forecast-hills.json."))
    return text


def _address(said: object) -> str:
    text = said.strip() if isinstance(said, str) else ""
    if not is_address(text):
        raise Refusal(
            phrase("an http or https address"), phrase("Copy it from the browser, whole.")
        )
    return text


def read_skies(
    file: OutfitFile, sources: Sequence[Source], ground: Ground, waiting: list[Phrase]
) -> list[Sky]:
    """Return every forecast that counts, with faults for what cannot be read.

    What is not fetched yet, or ends shortly before the campaign, goes to ``waiting`` in words.
    """
    areas = yard_areas(ground.drafts)
    skies: list[Sky] = []
    for source in sources:
        if source.url and source.file and not (ground.folder / source.file).is_file():
            waiting.append(
                phrase(
                    "{area}: {file} is not there yet and does not count; get it with "
                    "`runplanner forecast`",
                    area=source.area, file=source.file,
                )
            )  # fmt: skip
            continue
        for area, forecast in _read(file, source, ground).items():
            sky = _sky(file, source, area, forecast, areas)
            if sky is not None and _fits(file, sky, skies, ground):
                skies.append(sky)
    waiting.extend(
        phrase(
            "{area}: {file} ends on {day}, before the campaign begins, and does not count yet",
            area=sky.area,
            file=sky.file,
            day=date_of(ground.days.first, day_of(sky.forecast.reach().end_min - 1)),
        )
        for sky in skies if _early(sky, ground)
    )  # fmt: skip
    return [sky for sky in skies if not _early(sky, ground)]


def _early(sky: Sky, ground: Ground) -> bool:
    return ground.days.known and -EARLY_DAYS * DAY_MIN < sky.forecast.reach().end_min <= 0


def _read(file: OutfitFile, source: Source, ground: Ground) -> dict[str, Forecast]:
    raw = _bytes(file, source, ground.folder)
    if raw is None:
        return {}
    try:
        return read_forecast(raw, source.file, ground.wall, source.zone)
    except ScenarioError as error:
        for fault in error.faults:
            file.book.add(fault)
    return {}


def _bytes(file: OutfitFile, source: Source, folder: Path) -> bytes | None:
    path = folder / source.file
    if not source.file:
        return None
    if not path.is_file():
        allowed, cure = phrase("a file in the scenario's folder"), phrase("Save it there.")
        _fault(file, source, "file", source.file, allowed, cure)
        return None
    if path.stat().st_size > MOST_BYTES:
        said, cure = (
            phrase("{number} bytes", number=path.stat().st_size),
            phrase("Ask for one place, hourly."),
        )
        _fault(
            file,
            source,
            "file",
            said,
            phrase("at most {most} bytes", most=MOST_BYTES),
            cure,
        )
        return None
    return path.read_bytes()


def _fault(
    file: OutfitFile, source: Source, field: str, said: str, allowed: Phrase, cure: Phrase
) -> None:
    if source.fields is None:
        file.book.add(Fault(source.file, "", "", said_text(said), allowed, cure))
    else:
        source.fields.fault(field, allowed, cure, said=said)


def _sky(
    file: OutfitFile, source: Source, area: str, forecast: Forecast, areas: Areas
) -> Sky | None:
    """Return a forecast with its yards; an area named in the file stands before the entry's."""
    called = area or source.area
    ranked = _ranked(file, source, called, areas, inside=bool(area))
    if ranked is None:
        return None
    return Sky(called, *ranked, source.file, forecast)


def _ranked(
    file: OutfitFile, source: Source, called: str, areas: Areas, *, inside: bool
) -> Ranked | None:
    try:
        return area_named(areas, called)
    except Moot:
        return None
    except Refusal as refusal:
        if inside:
            said = said_text(called)
            fault = Fault(source.file, "", "area", said, refusal.allowed, refusal.cure)
            file.book.add(fault)
        else:
            _fault(file, source, "area", called, refusal.allowed, refusal.cure)
    return None


def _fits(file: OutfitFile, sky: Sky, before: Sequence[Sky], ground: Ground) -> bool:
    """Tell whether a forecast is for this time, this place, and the only one for its area."""
    faults = [*_time_faults(sky, ground), *_place_faults(sky, ground)]
    same = [other.file for other in before if (other.rank, other.yards) == (sky.rank, sky.yards)]
    if same:
        said, cure = (
            said_text(sky.area),
            phrase("{same} is for it already: keep one.", same=same[0]),
        )
        faults.append(Fault(sky.file, "", "area", said, phrase("one forecast for each area"), cure))
    for fault in faults:
        file.book.add(fault)
    return not faults


def _time_faults(sky: Sky, ground: Ground) -> list[Fault]:
    reach = sky.forecast.reach()
    days = ground.days
    in_time = reach.end_min > -EARLY_DAYS * DAY_MIN and reach.start_min < days.n_days * DAY_MIN
    if not days.known or in_time:
        return []
    said = phrase(
        "hours from day {start_min} to day {end_min}",
        start_min=reach.start_min // DAY_MIN,
        end_min=reach.end_min // DAY_MIN,
    )
    allowed = phrase(
        "hours of the campaign, day 0 ({first}) to day {n_days}",
        first=days.first,
        n_days=days.n_days - 1,
    )
    return [Fault(sky.file, "", "", said, allowed, phrase("It is an old one, or of another year."))]


def _place_faults(sky: Sky, ground: Ground) -> list[Fault]:
    here = sky.forecast.point
    points = [ground.drafts[index].point for index in sorted(sky.yards)]
    if here is None or not points or None in points:
        return []
    near = min(geodesic_m(here, point) for point in points if point is not None)
    if near <= FAR_M:
        return []
    said, allowed = (
        phrase("{near} km from them", near=Number(f"{near / 1000:.0f}")),
        phrase("within {far} km of its yards", far=FAR_M // 1000),
    )
    cure = phrase("It is for another place, or lat and lon are swapped.")
    return [Fault(sky.file, "", "", said, allowed, cure)]
