"""Gathered places put into the yards table: known yards filled in, new ones added.

What stands in the table stays.  Two yards of one name on one spot are one yard; whatever
might be one yard or two is written down for the user to say.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from runplanner.phrase import Number, counted, joined, phrase
from runplanner.scenario.cells.tables import IN_WORDS, bare
from runplanner.scenario.gather.far import apart_km
from runplanner.scenario.gather.found import Basket, Spot
from runplanner.scenario.gather.places import Place, point_in
from runplanner.scenario.places.points import Point
from runplanner.scenario.values.degrees import written
from runplanner.scenario.values.words import key_of
from runplanner.scenario.yards.yards_file import MOST_YARDS
from runplanner.scenario.yards.yards_sheet import Sheet

NEAR_M: Final = 200
"""Two fixes of one yard, at the gate and at the hives, differ by less: common practice."""
_MAY_BE_ONE_M: Final = 2_000
_METRES_PER_DEGREE: Final = 110_000
_EITHER: Final = {"boxes": "boxes_per_colony", "boxes_per_colony": "boxes"}


@dataclass(frozen=True, slots=True)
class _Standing:
    """A yard in the table, and where it was read."""

    row: int
    name: str
    where: str
    point: Point | None


@dataclass(slots=True)
class Merged:
    """What became of the places: rows added, rows filled in further, rows that said it all."""

    added: list[int] = field(default_factory=list)
    filled: list[int] = field(default_factory=list)
    same: int = 0


class Merger:
    """Puts places into a table one by one.

    Args:
        basket: Takes faults and notes.
        sheet: The table, which is changed.
        near_m: Places of different names nearer than this are a fault; 0: none are.
    """

    def __init__(self, basket: Basket, sheet: Sheet, near_m: int) -> None:
        self.basket = basket
        self.sheet = sheet
        self.near_m = near_m
        self.merged = Merged()
        self.standing = [_standing(sheet, row) for row in sheet.standing()]
        # Of two rows with one name the first counts: it was there before.
        numbered = reversed(list(enumerate(self.standing)))
        self._by_name = {key_of(one.name): number for number, one in numbered}
        self._lacking: dict[int, Place] = {}

    def put_all(self, places: Sequence[Place]) -> Merged:
        """Put every place into the table and say what became of them."""
        # Where the name is a fault already, nothing is said of places that share its lack.
        for place in (place for place in places if place.name):
            self._put(place)
        for row, place in self._lacking.items():
            if not self.sheet.cell(row, "lat"):
                cure = phrase(
                    "Add lat and lon, gather a file that has a place of this name, or leave the "
                    "row out where it is no yard."
                )
                self.basket.fault(place.spot, "lat", phrase("nothing"), phrase("a position"), cure)
        if len(self.standing) > MOST_YARDS:
            said, allowed = (
                counted("{number} yard", "{number} yards", len(self.standing)),
                phrase("at most {most} yards", most=MOST_YARDS),
            )
            self.basket.fault(
                Spot(self.sheet.file, ""), "", said, allowed, phrase("Leave some out.")
            )
        return self.merged

    def _put(self, place: Place) -> None:
        number = self._by_name.get(key_of(place.name))
        if number is not None:
            self._meet(place, number)
            return
        near = self._nearest(place)
        if near is None:
            self._add(place)
            return
        away, one = near
        said = phrase(
            "{name}, {away} m from {name2} ({where})",
            name=repr(place.name),
            away=Number(f"{away:.0f}"),
            name2=repr(one.name),
            where=one.where,
        )
        cure = phrase("If they are one yard call both alike or drop one; if two, say --near 0.")
        allowed = phrase("{near_m} m or more between two yards", near_m=self.near_m)
        self.basket.fault(place.spot, "lat, lon", said, allowed, cure)

    def _meet(self, place: Place, number: int) -> None:
        """Fill in a yard of the same name, unless it stands somewhere else."""
        one, within = self.standing[number], self.near_m or NEAR_M
        if place.point is None or one.point is None:
            self._fill(place, number)
            return
        away = apart_km(place.point, one.point) * 1000
        if away < within:
            self._fill(place, number)
            return
        said = phrase(
            "{name}, {distance} from that of {where}",
            name=repr(place.name),
            distance=_distance(away),
            where=one.where,
        )
        cure = phrase("Rename one, or drop the one that is wrong.")
        if away < _MAY_BE_ONE_M:
            cure = phrase(
                "Rename one; or say --near {int} to take them for one yard.", int=int(away) + 1
            )
        self.basket.fault(
            place.spot, "name", said, phrase("one place within {within} m", within=within), cure
        )

    def _nearest(self, place: Place) -> tuple[float, _Standing] | None:
        if place.point is None:
            return None
        found = [
            (apart_km(place.point, one.point) * 1000, number)
            for number, one in enumerate(self.standing)
            if one.point is not None
            and abs(place.point[0] - one.point[0]) * _METRES_PER_DEGREE < self.near_m
        ]
        away, number = min(found, default=(float("inf"), -1))
        return (away, self.standing[number]) if away < self.near_m else None

    def _add(self, place: Place) -> None:
        row = self.sheet.new_row()
        self.sheet.fill(row, "name", place.name)
        self._write(place, row)
        self.merged.added.append(row)
        if place.point is None:
            self._lacking[row] = place
        self._by_name[key_of(place.name)] = len(self.standing)
        self.standing.append(_Standing(row, place.name, place.spot.words(), place.point))

    def _fill(self, place: Place, number: int) -> None:
        one = self.standing[number]
        if not self._write(place, one.row):
            self.merged.same += 1
        elif one.row not in (*self.merged.filled, *self.merged.added):
            self.merged.filled.append(one.row)
        self.standing[number] = replace(one, point=one.point or place.point)

    def _write(self, place: Place, row: int) -> bool:
        """Write what the row lacks; tell whether there was anything."""
        lacks = place.point is not None and not (
            self.sheet.cell(row, "lat") or self.sheet.cell(row, "lon")
        )
        if lacks and place.point is not None:
            self.sheet.fill(row, "lat", written(place.point[0]))
            self.sheet.fill(row, "lon", written(place.point[1]))
        wrote = [self._write_cell(place, row, key, text) for key, text in place.cells.items()]
        return lacks or any(wrote)

    def _write_cell(self, place: Place, row: int, key: str, text: str) -> bool:
        here = self.sheet.cell(row, key)
        stands = here or self.sheet.cell(row, _EITHER.get(key, key))
        if not text or _plain(key, here) == _plain(key, text):
            return False
        if stands:
            where = joined(", ", joined(" ", self.sheet.file, self.sheet.where(row)), place.name)
            self.basket.note(
                phrase(
                    "{where}: {stands} kept; {spot} has {key} {text}.",
                    where=where,
                    stands=repr(stands),
                    spot=place.spot.words(),
                    key=key,
                    text=repr(text),
                )
            )
            return False
        unit = self.sheet.unit(key)
        if unit and bare(text):
            cure = phrase(
                "Write its unit: the column in {file} is in {unit}.",
                file=self.sheet.file,
                unit=unit,
            )
            self.basket.fault(place.spot, key, text, phrase("a quantity with its unit"), cure)
        self.sheet.fill(row, key, text)
        return True


def _plain(key: str, text: str) -> str:
    """Return a cell as it counts for being the same: leading noughts aside too, as of 07:00.

    Not in words, where a nought may be what is dialled.
    """
    same = key_of(text)
    return same if key in IN_WORDS else re.sub(r"(?<![0-9.,])0+(?=[0-9])", "", same)


def _standing(sheet: Sheet, row: int) -> _Standing:
    where = joined(" ", sheet.file, sheet.where(row))
    point = point_in(sheet.cell(row, "lat"), sheet.cell(row, "lon"))
    return _Standing(row, sheet.cell(row, "name"), where, point)


def _distance(metres: float) -> str:
    return f"{metres:.0f} m" if metres < 10_000 else f"{metres / 1000:.0f} km"
