"""travel.csv: legs that were timed or looked up, in place of straight lines."""

import re
from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from runplanner.haulage.travel import Leg, geodesic_travel, with_legs
from runplanner.outfit.bases import Travel
from runplanner.scenario import measures
from runplanner.scenario.bases_part import Bases, PlaceBook
from runplanner.scenario.faults import Refusal, did_you_mean
from runplanner.scenario.fields import Fields, at_row
from runplanner.scenario.figures import Figure
from runplanner.scenario.outfit_file import OutfitFile
from runplanner.scenario.quantities import Measure
from runplanner.scenario.tables import Table, check_columns
from runplanner.scenario.yard_row import Draft

COLUMNS: Final = ("from", "to", "minutes", "km")
NO_ROAD: Final = "no road"
_BARE: Final = re.compile(r"[+-]?[0-9]+(?:\.[0-9]+)?")


def read_travel(
    file: OutfitFile, table: Table | None, bases: Bases, drafts: Sequence[Draft], book: PlaceBook
) -> Travel:
    """Return the travel table: straight lines, and typed legs where there are any."""
    fields = file.section("travel")
    detour = fields.read("detour", Figure("a factor", 1, 5), Fraction(1))
    speed = fields.read("speed", measures.SPEED, 1)
    legs = {} if table is None else _legs(file, table, _names(bases, drafts, book))
    if file.book:
        return Travel((), (), "")
    points = [(place.lat, place.lon) for place in book.places]
    travel = geodesic_travel(points, round(detour * 1000), speed)
    return travel if table is None else with_legs(travel, legs, table.file)


def _names(bases: Bases, drafts: Sequence[Draft], book: PlaceBook) -> dict[str, int]:
    """Return the place each word means; a yard that moves has "NAME moved" for later sites."""
    names = {
        "home": bases.home.place,
        "base": bases.home.place,
        "feed store": bases.feed_store.place,
        "honey house": bases.honey_house.base.place,
    }
    for index in sorted(set(names.values())):
        names.setdefault(book.places[index].name.casefold(), index)
    for draft in drafts:
        for number, (_, place) in enumerate(draft.yard.sites):
            moved = "" if number == 0 else " moved" if number == 1 else f" moved {number}"
            names.setdefault(f"{draft.yard.name.casefold()}{moved}", place)
            names.setdefault(f"{draft.yard.id}{moved}", place)
    return names


def _legs(file: OutfitFile, table: Table, names: dict[str, int]) -> dict[tuple[int, int], Leg]:
    check_columns(table, COLUMNS, COLUMNS, file.book)
    legs: dict[tuple[int, int], Leg] = {}
    muted = frozenset(COLUMNS) - frozenset(table.columns)
    for row in table.rows:
        fields = Fields(file.desk, table.file, dict(row.cells), "legs", at_row(row))
        fields.muted = muted
        here, there = _end(fields, "from", names), _end(fields, "to", names)
        leg = _leg(fields)
        if not fields.clean:
            continue
        if here == there:
            fields.fault("to", "another place than from", "Delete the row.")
        elif (here, there) in legs:
            fields.fault("to", "each leg once", "Delete one of the two rows.")
        legs[here, there] = leg
    return legs


def _end(fields: Fields, key: str, names: dict[str, int]) -> int:
    return fields.read(key, lambda said: _place(names, said), -1)


def _place(names: dict[str, int], said: object) -> int:
    typed = " ".join(str(said).replace("_", " ").split()).casefold()
    if typed in names:
        return names[typed]
    raise Refusal("home, feed store, honey house, or a yard", did_you_mean(typed, names))


def _leg(fields: Fields) -> Leg:
    """Return minutes and metres, rounded up; None where there is no road."""
    if str(fields.said("minutes") or "").strip().casefold() == NO_ROAD:
        return None
    minutes = fields.read("minutes", _minutes, 0)
    return minutes, fields.read("km", _metres, 0)


def _minutes(said: object) -> int:
    """Return minutes; a bare number is minutes, as the column says.

    Raises:
        Refusal: When it is neither, nor "no road".
    """
    return _with_unit(said, "min", measures.DRIVE)


def _metres(said: object) -> int:
    """Return metres; a bare number is kilometres, as the column says.

    Raises:
        Refusal: When it is no distance.
    """
    return _with_unit(said, "km", measures.ROAD)


def _with_unit(said: object, unit: str, measure: Measure) -> int:
    text = str(said).strip()
    return measure(f"{text} {unit}" if _BARE.fullmatch(text) else text)
