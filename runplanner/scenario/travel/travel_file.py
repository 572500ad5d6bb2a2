"""travel.csv: legs that were timed or looked up, in place of straight lines."""

from collections.abc import Sequence
from pathlib import Path
from typing import Final

from runplanner.haulage.travel import Leg, geodesic_m
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Place, Yard
from runplanner.phrase import Number, Phrase, phrase
from runplanner.scenario.cells.fields import Fields, at_row
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.cells.tables import Table, bare, check_columns, read_table
from runplanner.scenario.faults import Refusal
from runplanner.scenario.files import table_path
from runplanner.scenario.parts.bases_part import Bases
from runplanner.scenario.values import measures
from runplanner.scenario.values.quantities import Measure
from runplanner.scenario.values.words import Known, key_of

COLUMNS: Final = ("from", "to", "minutes", "km")
NEAR_M: Final = 500
"""Two places of one name nearer than this may share their legs: common practice."""
_FASTEST_KM_H: Final = 130
"""As for speeds that are typed; whole minutes may be one too few."""
_SLOWEST_KM_H, _SLOW_MIN = 5, 30
"""A longer drive at less than this is worth a look: common practice."""
Facts = Bases | Outfit
Names = Known[tuple[int, ...]]
"""The places that each word means; one, unless it is in doubt."""
NO_ROAD: Final = "no road"


def place_names(facts: Facts, yards: Sequence[Yard], places: Sequence[Place]) -> Names:
    """Return the place each word means; a yard that moves has "NAME moved" for later sites.

    ``facts`` tell where the bases are.  A word of a base means that base, also where a yard near
    by is called so.  One that could mean several places that lie apart has them all.
    """
    words = [
        ("home", facts.home.place),
        ("base", facts.home.place),
        ("feed store", facts.feed_store.place),
        ("honey house", facts.honey_house.base.place),
    ]
    words += [(places[index].name, index) for index in sorted({at for _, at in words})]
    shown = [word for word, _ in words]
    for yard in yards:
        for number, (_, place) in enumerate(yard.sites):
            moved = "" if number == 0 else " moved" if number == 1 else f" moved {number}"
            words += [(f"{called}{moved}", place) for called in (yard.name, yard.id)]
            shown.append(f"{yard.name}{moved}")
    names: dict[str, tuple[int, ...]] = {}
    for word, place in words:
        known = names.get(key_of(word), ())
        if all(_apart(places[place], places[other]) for other in known):
            names[key_of(word)] = (*known, place)
    return Known(names, shown)


def _apart(one: Place, other: Place) -> bool:
    return _straight_m(one, other) > NEAR_M


def _straight_m(one: Place, other: Place) -> float:
    return geodesic_m((one.lat, one.lon), (other.lat, other.lon))


def typed_pairs(file: OutfitFile, folder: Path, outfit: Outfit) -> set[tuple[int, int]]:
    """Return the drives of an outfit, from place to place, that its folder's table tells."""
    path = table_path(folder, "travel", file.section("files"))
    table = None if path is None else read_table(path, file.book)
    names = place_names(outfit, outfit.yards, outfit.places)
    legs = {} if table is None else read_legs(file, table, names, outfit.places)
    return {*legs, *((there, here) for here, there in legs)}


def read_legs(
    file: OutfitFile, table: Table, names: Names, places: Sequence[Place]
) -> dict[tuple[int, int], Leg]:
    """Return every typed leg; faults and doubts are written down."""
    check_columns(table, COLUMNS, COLUMNS, file.book)
    legs: dict[tuple[int, int], Leg] = {}
    muted = frozenset(COLUMNS) - frozenset(table.columns)
    seen: set[tuple[int, int]] = set()
    for row in table.rows:
        fields = Fields(file.desk, table.file, dict(row.cells), "legs", at_row(row))
        fields.mute(muted, row)
        here, there = leg_end(fields, "from", names), leg_end(fields, "to", names)
        leg = _leg(fields)
        if fields.clean:
            legs[here, there] = leg
        ends = fields.right("from", "to")
        if ends and here == there:
            fields.fault("to", phrase("another place than from"), phrase("Delete the row."))
        elif ends and (here, there) in seen:
            fields.fault("to", phrase("each leg once"), phrase("Delete one of the two rows."))
        elif leg is not None and fields.right("minutes", "km"):
            _check(fields, leg, _known_m(places[here], places[there]) if ends else 0)
        seen.update([(here, there)] if ends else [])
    return legs


def leg_end(fields: Fields, key: str, names: Names) -> int:
    """Return the place that the word under ``key`` means."""
    return fields.read(key, lambda said: _place(names, said), -1)


def _place(names: Names, said: object) -> int:
    typed = key_of(said)
    blank = key_of(typed.replace("_", " "))
    found = names.meant.get(typed) or names.meant.get(blank, ())
    if len(found) > 1:
        raise Refusal(
            phrase("a word that means one place"),
            phrase("A yard is called as another place is: give the yard another name."),
        )
    if found:
        return found[0]
    raise names.refusal(phrase("home, feed store, honey house, or a yard"), blank)


def _leg(fields: Fields) -> Leg:
    """Return minutes and metres, rounded up; None where there is no road."""
    if str(fields.said("minutes") or "").strip().casefold() == NO_ROAD:
        return None
    minutes = fields.read("minutes", leg_minutes, 0)
    return minutes, fields.read("km", leg_metres, 0)


def _known_m(one: Place, other: Place) -> float:
    """Return the straight line, 0 where the spot of one is at fault and another stands in."""
    return _straight_m(one, other) if all(each.lat or each.lon for each in (one, other)) else 0


def _check(fields: Fields, leg: tuple[int, int], straight_m: float) -> None:
    """Refuse a leg that nobody drives, and doubt one that is strangely slow or short."""
    minutes, metres = leg
    if minutes == 0 and straight_m > NEAR_M:
        allowed = phrase("more than 0 min between places that lie apart")
        fields.fault("minutes", allowed, phrase("Type what it takes, or delete the row."))
    elif metres * 60 > _FASTEST_KM_H * 1000 * (minutes + 1):
        fields.fault(
            "minutes",
            phrase("a drive at {most} km/h or less", most=_FASTEST_KM_H),
            phrase("Look for minutes and km swapped, or another unit."),
            said=_pace(leg),
        )
    elif minutes > _SLOW_MIN and metres * 60 < _SLOWEST_KM_H * 1000 * minutes:
        fields.doubt(
            "minutes",
            phrase(
                "{leg}, slower than {least} km/h, if that is right",
                leg=_pace(leg),
                least=_SLOWEST_KM_H,
            ),
        )
    if metres + NEAR_M < straight_m:
        fields.doubt(
            "km",
            phrase(
                "{km} km, less than the {straight} km of the straight line: right places?",
                km=_km(metres),
                straight=_km(straight_m),
            ),
        )


def _pace(leg: tuple[int, int]) -> Phrase:
    return phrase("{km} km in {minutes} min", km=_km(leg[1]), minutes=leg[0])


def _km(metres: float) -> Number:
    return Number(f"{round(metres / 1000, 1):g}")


def leg_minutes(said: object) -> int:
    """Return minutes; a bare number is minutes, as the column says.

    Raises:
        Refusal: When it is neither, nor "no road".
    """
    return _with_unit(said, "min", measures.DRIVE)


def leg_metres(said: object) -> int:
    """Return metres; a bare number is kilometres, as the column says.

    Raises:
        Refusal: When it is no distance.
    """
    return _with_unit(said, "km", measures.ROAD)


def _with_unit(said: object, unit: str, measure: Measure) -> int:
    text = str(said).strip()
    return measure(f"{text} {unit}" if bare(text) else text)
