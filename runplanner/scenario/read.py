"""The gate in: a folder of files people edit by hand becomes one checked outfit."""

from dataclasses import replace
from datetime import date
from pathlib import Path

from runplanner.days import Span
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import safe
from runplanner.outfit.shut import Shut
from runplanner.outfit.yards import Yard
from runplanner.scenario.cells.fields import Desk
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.cells.tables import Table
from runplanner.scenario.files import read_folder
from runplanner.scenario.forecast.part import Heard, read_windows
from runplanner.scenario.forecast.sources import Ground
from runplanner.scenario.parts.bases_part import PlaceBook, check_bases, read_bases
from runplanner.scenario.parts.boxes_part import read_boxes
from runplanner.scenario.parts.people_part import read_people
from runplanner.scenario.parts.safety_part import read_safety
from runplanner.scenario.parts.season_part import (
    read_days,
    read_hours,
    read_pace,
    read_prices,
    read_rules,
    read_season,
)
from runplanner.scenario.parts.sense import check_outfit
from runplanner.scenario.parts.stores_part import (
    OPEN_END,
    read_containers,
    read_feed,
    read_kit,
)
from runplanner.scenario.parts.trucks_part import read_trailers, read_trucks
from runplanner.scenario.places.points import check_near
from runplanner.scenario.places.sun import sun_spans
from runplanner.scenario.travel.travel_part import Setting, read_travel
from runplanner.scenario.values.measures import PERSON
from runplanner.scenario.values.words import name, slug
from runplanner.scenario.windows.unsaid_days import cold_days, unsaid_days
from runplanner.scenario.windows.weather_spans import Limits, read_thresholds, with_weather
from runplanner.scenario.yards.licence_part import licensed
from runplanner.scenario.yards.moves_part import (
    held_by,
    read_areas,
    read_moves,
    see_that_hives_stay,
)
from runplanner.scenario.yards.strips_part import read_strips, with_strips
from runplanner.scenario.yards.yards_file import read_yards
from runplanner.weather.stretches import kept


def read_scenario(folder: Path, heard: Heard | None = None) -> Outfit:
    """Return the outfit described in ``folder``; what is said besides goes to ``heard``.

    Raises:
        ScenarioError: With every fault found.
    """
    desk, heard = Desk(), Heard() if heard is None else heard
    file, tables = read_folder(folder, desk)
    outfit = _outfit(file, tables, folder, heard)
    check_outfit(file, outfit)
    safety = read_safety(file, outfit)
    file.finish()
    desk.book.close()
    heard.doubts.extend(desk.doubts)
    yards = tuple(_told(yard, heard) for yard in _sunlit(outfit))
    return safe(_filled(replace(outfit, yards=yards, assumed=desk.assumed())), safety)


def _outfit(
    file: OutfitFile, tables: dict[str, Table | None], folder: Path, heard: Heard
) -> Outfit:
    """Return the outfit without sun and open stocks; stand-ins where there are faults."""
    title = file.top.optional("title", name) or name_of(folder)
    days, book = read_days(file), PlaceBook()
    bases = read_bases(file, book)
    season = read_season(file, days, bases.point)
    people = read_people(file, days)
    trucks = read_trucks(file, days, people)
    shelf = read_boxes(file)
    drafts = read_yards(file, tables["yards"], days, shelf, book)
    near = check_bases(bases, [draft.point for draft in drafts if draft.point is not None])
    drafts, trucks = read_moves(file, drafts, days, book, trucks)
    feed = read_feed(file)
    drafts, strips = with_strips(drafts, read_strips(file))
    areas = read_areas(file, near)
    ground = Ground(folder, days, season.zone, drafts)
    windows = read_windows(file, tables["weather"], ground, feed, heard)
    least = read_thresholds(file, windows)
    held = [licensed(held_by(areas, one, book), days) for one in drafts]
    see_that_hives_stay(held, book)
    limits = Limits(least, feed, strips.limits)
    ready = with_weather(held, windows, days.n_days, limits, heard.sure)
    for words in (*unsaid_days(windows, days, ready, heard.sure), *cold_days(ready, days, limits)):
        file.desk.doubt(words)
    for draft in ready:
        check_near(draft.fields, near, draft.point)
    out = Span(bases.home.opens_min, bases.home.closes_min)
    trailers, hours = read_trailers(file, days), read_hours(file, out)
    setting = Setting(folder, bases, tuple(ready), book, trucks, trailers, hours, season)
    return Outfit(
        name=slug(folder.resolve().name, word="scenario"),
        title=title,
        places=tuple(book.places),
        travel=read_travel(file, tables["travel"], setting),
        home=bases.home,
        feed_store=bases.feed_store,
        honey_house=bases.honey_house,
        yards=tuple(draft.yard for draft in ready),
        trucks=trucks,
        trailers=trailers,
        boxes=shelf.used(),
        containers=read_containers(file, len(trucks)),
        kit=read_kit(file),
        feed=feed,
        strips=strips.usual,
        people=people,
        person_g=file.top.read("person_mass", PERSON, 1),
        pace=read_pace(file),
        hours=hours,
        season=season,
        rules=read_rules(file),
        prices=read_prices(file),
        strips_also=strips.also,
        areas=areas,
    )


def name_of(folder: Path) -> str:
    """Return a title for a folder without one: its name, as far as it can be printed."""
    plain = "".join(char for char in folder.resolve().name if char.isprintable())
    return plain[:120].strip() or "Campaign"


def _sunlit(outfit: Outfit) -> tuple[Yard, ...]:
    """Return the yards with sunrise and sunset, one day more than is planned."""
    first = date.fromisoformat(outfit.season.first_date)
    lit = []
    for yard in outfit.yards:
        stands = [outfit.places[yard.place_on(day)] for day in range(outfit.season.n_days + 1)]
        points = [(place.lat, place.lon) for place in stands]
        lit.append(replace(yard, sun_spans=sun_spans(points, first, outfit.season.zone)))
    return tuple(lit)


def _told(yard: Yard, heard: Heard) -> Yard:
    """Return a yard with what forecasts say of its weather: why it is shut, how sure that is."""
    mine = [hour for hour in heard.shut if yard.id in hour.yards]
    shut = sorted((*yard.shut, *kept(mine, yard.sun_spans)), key=_order)
    return replace(
        yard,
        shut=tuple(shut),
        sure_permille=heard.sure.get(yard.id, ()),
        forecast_spans=heard.reach.get(yard.id, ()),
    )


def _order(one: Shut) -> tuple[int, str, int]:
    return one.start_min, one.work, one.end_min


def _filled(outfit: Outfit) -> Outfit:
    """Return the outfit with blocks that have no end set to more than the campaign can take.

    Bought syrup keeps its ``OPEN_END``: what is due grows with yards told as sound, or new.
    """
    if outfit.kit.blocks_owned != OPEN_END:
        return outfit
    most = outfit.blocks_for(sum(yard.colonies for yard in outfit.yards))
    return replace(outfit, kit=replace(outfit.kit, blocks_owned=most))
