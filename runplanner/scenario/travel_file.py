"""travel.csv: legs that were timed or looked up, in place of straight lines."""

import re
from collections.abc import Mapping, Sequence
from typing import Final

from runplanner.haulage.travel import Leg, geodesic_m
from runplanner.phrase import phrase
from runplanner.scenario import measures
from runplanner.scenario.bases_part import Bases, PlaceBook
from runplanner.scenario.faults import Refusal, did_you_mean
from runplanner.scenario.fields import Fields, at_row
from runplanner.scenario.outfit_file import OutfitFile
from runplanner.scenario.quantities import Measure
from runplanner.scenario.tables import Table, check_columns
from runplanner.scenario.yard_row import Draft

COLUMNS: Final = ("from", "to", "minutes", "km")
NEAR_M: Final = 500
"""Two places of one name nearer than this may share their legs: common practice."""
Names = Mapping[str, tuple[int, ...]]
"""The places that each word means, in lower case; one, unless it is in doubt."""
NO_ROAD: Final = "no road"
_BARE: Final = re.compile(r"[+-]?[0-9]+(?:\.[0-9]+)?")


def place_names(bases: Bases, drafts: Sequence[Draft], book: PlaceBook) -> Names:
    """Return the place each word means; a yard that moves has "NAME moved" for later sites.

    A word of a base means that base, also where a yard near by is called so.  One that could
    mean several places that lie apart has them all.
    """
    words = [
        ("home", bases.home.place),
        ("base", bases.home.place),
        ("feed store", bases.feed_store.place),
        ("honey house", bases.honey_house.base.place),
    ]
    words += [(book.places[index].name, index) for index in sorted({at for _, at in words})]
    for draft in drafts:
        for number, (_, place) in enumerate(draft.yard.sites):
            moved = "" if number == 0 else " moved" if number == 1 else f" moved {number}"
            words += [(f"{called}{moved}", place) for called in (draft.yard.name, draft.yard.id)]
    names: dict[str, tuple[int, ...]] = {}
    for word, place in words:
        known = names.get(word.casefold(), ())
        if all(_apart(book, place, other) for other in known):
            names[word.casefold()] = (*known, place)
    return names


def _apart(book: PlaceBook, place: int, other: int) -> bool:
    return place != other and geodesic_m(book.point(place), book.point(other)) > NEAR_M


def read_legs(file: OutfitFile, table: Table, names: Names) -> dict[tuple[int, int], Leg]:
    """Return every typed leg; faults are written down."""
    check_columns(table, COLUMNS, COLUMNS, file.book)
    legs: dict[tuple[int, int], Leg] = {}
    muted = frozenset(COLUMNS) - frozenset(table.columns)
    for row in table.rows:
        fields = Fields(file.desk, table.file, dict(row.cells), "legs", at_row(row))
        fields.mute(muted, row)
        here, there = leg_end(fields, "from", names), leg_end(fields, "to", names)
        leg = _leg(fields)
        if not fields.clean:
            continue
        if here == there:
            fields.fault("to", phrase("another place than from"), phrase("Delete the row."))
        elif (here, there) in legs:
            fields.fault("to", phrase("each leg once"), phrase("Delete one of the two rows."))
        legs[here, there] = leg
    return legs


def leg_end(fields: Fields, key: str, names: Names) -> int:
    """Return the place that the word under ``key`` means."""
    return fields.read(key, lambda said: _place(names, said), -1)


def _place(names: Names, said: object) -> int:
    typed = " ".join(str(said).replace("_", " ").split()).casefold()
    found = names.get(typed, ())
    if len(found) > 1:
        raise Refusal(
            phrase("a word that means one place"),
            phrase("A yard is called as another place is: give the yard another name."),
        )
    if found:
        return found[0]
    raise Refusal(phrase("home, feed store, honey house, or a yard"), did_you_mean(typed, names))


def _leg(fields: Fields) -> Leg:
    """Return minutes and metres, rounded up; None where there is no road."""
    if str(fields.said("minutes") or "").strip().casefold() == NO_ROAD:
        return None
    minutes = fields.read("minutes", leg_minutes, 0)
    return minutes, fields.read("km", leg_metres, 0)


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
    return measure(f"{text} {unit}" if _BARE.fullmatch(text) else text)
