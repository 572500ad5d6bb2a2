"""[travel]: drives by road, by a matrix service, or by straight lines; typed legs on top."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import Final

from runplanner.haulage.travel import Leg, geodesic_m, geodesic_travel, with_legs
from runplanner.outfit.bases import Travel
from runplanner.outfit.outfit import Season
from runplanner.outfit.people import Hours
from runplanner.outfit.trucks import Trailer, Truck
from runplanner.phrase import Number, Phrase, joined, phrase
from runplanner.roads.calibrate import Fit, Timed, fitted
from runplanner.roads.hours import at_best, by_hour
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.cells.tables import Table
from runplanner.scenario.parts.bases_part import Bases, PlaceBook
from runplanner.scenario.travel.idle_keys import say_idle
from runplanner.scenario.travel.road_choice import read_choice
from runplanner.scenario.travel.road_part import Ends, by_road, with_timed
from runplanner.scenario.travel.timed_file import TimedDrive, read_timed, too_few
from runplanner.scenario.travel.travel_file import place_names, read_legs
from runplanner.scenario.values import measures
from runplanner.scenario.values.figures import Figure
from runplanner.scenario.yards.yard_row import Draft, all_named

_DETOUR: Final = Figure(phrase("a factor"), 1, 5)
_NO_TRAVEL: Final = Travel((), (), Phrase(""))


@dataclass(frozen=True, slots=True)
class Setting:
    """What drives depend on besides [travel] itself."""

    folder: Path
    bases: Bases
    drafts: tuple[Draft, ...]
    book: PlaceBook
    trucks: tuple[Truck, ...]
    trailers: tuple[Trailer, ...]
    hours: Hours
    season: Season


def read_travel(file: OutfitFile, table: Table | None, setting: Setting) -> Travel:
    """Return the travel table; an empty one once there are faults."""
    names = place_names(
        setting.bases, [draft.yard for draft in setting.drafts], setting.book.places
    )
    names = replace(names, whole=all_named(setting.drafts))
    choice = read_choice(file, setting.folder)
    legs = {} if table is None else read_legs(file, table, names, setting.book.places)
    timed = read_timed(file, setting.folder, names)
    legged = frozenset(place for pair, leg in legs.items() if leg is not None for place in pair)
    ends = _ends(setting, choice.far_m, legged)
    fields = file.section("travel")
    for key in ("detour", "speed"):
        fields.has(key)
    say_idle(file, choice)
    if file.book:
        return _NO_TRAVEL
    if choice.key:
        outfit = (setting.trucks, setting.trailers, setting.hours, setting.season)
        travel = by_road(file, choice, outfit, ends, timed)
    else:
        travel = _straight(file, ends, timed, choice.by_hour)
    slower = by_hour(choice.by_hour)
    if slower:
        told = phrase("{source}, times by the hour of driving", source=travel.source)
        travel = replace(travel, by_hour=slower, source=told)
    if table is None or file.book:
        return travel
    typed: dict[tuple[int, int], Leg] = {
        pair: None if leg is None else (at_best(leg[0], choice.by_hour), leg[1])
        for pair, leg in legs.items()
    }
    return with_legs(travel, typed, table.file)


def _ends(setting: Setting, far_m: int, legged: frozenset[int]) -> Ends:
    """Return every place with the last stretch typed for it, and who answers for it."""
    places, bases = setting.book.places, setting.bases.tables()
    typed = list(setting.book.stretches)
    owners = list(setting.book.moves)
    tables = [bases.get(place, "moves") for place in range(len(places))]
    for draft in setting.drafts:
        # A yard that moves has its typed stretch where it stands first.
        first = draft.yard.sites[0][1]
        typed[first] = draft.fields.optional("last_stretch", measures.DRIVE)
        owners[first], tables[first] = draft.fields, "yards"
    return Ends(
        points=tuple((place.lat, place.lon) for place in places),
        called=tuple(place.name for place in places),
        typed=tuple(typed),
        owners=tuple(owners),
        tables=tuple(tables),
        far_m=far_m,
        legged=legged,
    )


def _straight(
    file: OutfitFile, ends: Ends, timed: list[TimedDrive], factors: Mapping[int, int]
) -> Travel:
    """Return the table by straight lines, fitted to what was timed."""
    detour, speed, fit = _detour_and_speed(file, ends, timed)
    if file.book:
        return _NO_TRAVEL
    plain = geodesic_travel(list(ends.points), round(detour * 1000), speed)
    aside = [minutes or 0 for minutes in ends.typed]
    minutes = tuple(
        tuple(
            0 if i == j else at_best((cell or 0) + aside[i] + aside[j], factors)
            for j, cell in enumerate(row)
        )
        for i, row in enumerate(plain.minutes)
    )
    source = with_timed(plain.source) if fit else plain.source
    return replace(plain, minutes=minutes, source=source)


def _detour_and_speed(
    file: OutfitFile, ends: Ends, timed: list[TimedDrive]
) -> tuple[Fraction, int, bool]:
    """Return both: typed, or fitted, or the defaults; and whether any is fitted."""
    fields = file.section("travel")
    straight = [_straight_m(ends, drive) for drive in timed]
    long_ = [
        Timed(one.name, metres, one.minutes, one.metres)
        for one, metres in zip(timed, straight, strict=True)
    ]
    fit = fitted(long_, lambda drive: drive.road_m or 0)
    if fit is None:
        detour = fields.read("detour", _DETOUR, Fraction(1))
    else:
        ratio = Fraction(round(fit.ratio * 1000), 1000)
        detour = fields.derived(
            "detour",
            _DETOUR,
            ratio,
            (f"{float(ratio):g}", _why(fit)),
        )
        _check_fit(file, "detour", detour, (1, 5))
    speed = _speed(file, ends, timed, [round(metres * detour) for metres in straight])
    typed = fields.has("speed") and (fit is None or fields.has("detour"))
    if timed and typed:
        fields.doubt(
            "timed",
            phrase("nothing is fitted to them: speed is typed, and detour too or no km are known"),
        )
    return detour, speed, bool(timed) and not typed


def _speed(file: OutfitFile, ends: Ends, timed: list[TimedDrive], road_m: list[int]) -> int:
    fields = file.section("travel")
    drives = [
        Timed(one.name, one.metres or metres, one.minutes - ends.typed_min(one))
        for one, metres in zip(timed, road_m, strict=True)
    ]
    fit = fitted(drives, lambda drive: drive.minutes)
    if fit is None:
        if timed:
            too_few(file, drives)
        return fields.read("speed", measures.SPEED, 1)
    m_per_h = round(60 / fit.ratio)
    shown = (f"{m_per_h / 1000:g} km/h", _why(fit))
    speed = fields.derived("speed", measures.SPEED, m_per_h, shown)
    _check_fit(file, "speed", Fraction(speed, 1000), (5, 130), " km/h")
    return speed


def _why(fit: Fit) -> Phrase:
    return joined(" ", fit.words(), "[D]")


def _check_fit(
    file: OutfitFile, key: str, value: Fraction, within: tuple[int, int], unit: str = ""
) -> None:
    """Refuse a fit that no road has; the times or the places are then wrong."""
    if not within[0] <= value <= within[1]:
        cure = phrase("Look for minutes and km swapped, or places mixed up, in the timed drives.")
        allowed = phrase(
            "from {least} to {most}{unit}, fitted or typed",
            least=within[0],
            most=within[1],
            unit=unit,
        )
        file.section("travel").fault(
            key,
            allowed,
            cure,
            said=phrase(
                "{figure}{unit} from timed drives", figure=Number(f"{float(value):g}"), unit=unit
            ),
        )


def _straight_m(ends: Ends, drive: TimedDrive) -> int:
    return round(geodesic_m(ends.points[drive.start], ends.points[drive.end]))
