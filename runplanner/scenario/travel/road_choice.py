"""The road keys of [travel]: which roads, which speeds, which hours."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

from runplanner.days import date_of, day_of
from runplanner.outfit.outfit import Season
from runplanner.outfit.people import Hours
from runplanner.outfit.trucks import Trailer, Truck
from runplanner.phrase import phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values import measures
from runplanner.scenario.values.quantities import Measure, speed_factor
from runplanner.scenario.values.words import note

if TYPE_CHECKING:
    from runplanner.roads.speeds import Speeds
    from runplanner.roads.vehicle import Vehicle

_HEIGHT: Final = Measure(phrase("a height"), "mm", "1 m", "5 m", "3.2 m")
_FAR: Final = Measure(phrase("a distance"), "m", "10 m", "5 km", "300 m")
_WAIT: Final = Measure(phrase("a time"), "s", "0 s", "2 h", "1 min")
_SPEED: Final = measures.SPEED
_ROAD_FILES: Final = (".osm.pbf", ".pbf", ".geojson", ".json", ".graphml")


@dataclass(frozen=True, slots=True)
class RoadChoice:
    """What was typed.

    Args:
        key: The key that chose the roads: "roads", "service", or "" for straight lines.
        path: The road file.
        address: The matrix service.
        speeds: Road classes typed, metres an hour; 0 is not driven on.
        caps: Upper limits typed, likewise.
        waits: Gates typed, in seconds.
        by_hour: Factors by hour, per mille.
        height_mm: Height of the largest truck, or None.
        far_m: Places further from a road than this are warned about.
        credit: Whose data the roads are; "" where nobody has to be named.
    """

    key: str
    path: Path | None
    address: str
    speeds: Mapping[str, int]
    caps: Mapping[str, int]
    waits: Mapping[str, int]
    by_hour: Mapping[int, int]
    height_mm: int | None
    far_m: int
    credit: str

    def table(self) -> "Speeds":
        """Return the table of speeds with what was typed in it."""
        from runplanner.roads.speeds import changed

        return changed(self.speeds, self.caps, self.waits)

    def tells_truck(self) -> bool:
        """Tell whether the truck's size is looked at: by road, or by a service that is told it."""
        from runplanner.roads.service import told_truck

        return self.path is not None or told_truck(self.address)


def read_choice(file: OutfitFile, folder: Path) -> RoadChoice:
    """Return the road keys of outfit.toml."""
    fields = file.section("travel")
    path = fields.optional("roads", lambda said: _road_file(said, folder))
    address = fields.optional("service", _address) or ""
    if fields.has("roads") and fields.has("service"):
        fields.fault("service", phrase("either roads or service"), phrase("Leave one of them out."))
    key = "roads" if path else "service" if address else ""
    speeds, caps, waits = _speeds(file.inner(fields, "speeds", "travel.speeds"))
    by_hour = _hours(file.inner(fields, "hours", "travel.hours"))
    height, far = fields.optional("height", _HEIGHT), fields.optional("off_road_warn", _FAR)
    credit = fields.optional("credit", note) or ""
    far_m = 300 if far is None else far
    return RoadChoice(key, path, address, speeds, caps, waits, by_hour, height, far_m, credit[:120])


def _road_file(said: object, folder: Path) -> Path:
    """Return the path of a road file, as seen from the scenario's folder.

    Raises:
        Refusal: When there is no such file, or it is of another kind.
    """
    text = said.strip() if isinstance(said, str) else ""
    allowed = phrase("a road file ending in {ends}", ends=", ".join(_ROAD_FILES))
    if not text.isprintable() or not text.lower().endswith(_ROAD_FILES):
        raise Refusal(allowed, phrase("Write its name in quotes."))
    path = folder / text
    if not path.is_file():
        raise Refusal(allowed, phrase("It is not there: check the name."))
    return path


def _address(said: object) -> str:
    """Return the address of a matrix service.

    Raises:
        Refusal: When it is none.
    """
    from runplanner.roads.errors import RoadsError
    from runplanner.roads.service import checked_address

    try:
        return checked_address(str(said).strip())
    except RoadsError as error:
        raise Refusal(error.allowed, error.cure) from None


Tables = tuple[dict[str, int], dict[str, int], dict[str, int]]


def _speeds(fields: Fields | None) -> Tables:
    from runplanner.roads.speeds import CAP_KM_H, ROAD_KM_H, WAIT_S

    if fields is None:
        return {}, {}, {}
    road = {key: fields.optional(key, _speed_or_no) for key in ROAD_KM_H}
    caps = {key: fields.optional(key, _SPEED) for key in CAP_KM_H}
    waits = {key: fields.optional(key, _WAIT) for key in WAIT_S}
    return _typed(road), _typed(caps), _typed(waits)


def _typed(found: Mapping[str, int | None]) -> dict[str, int]:
    return {key: value for key, value in found.items() if value is not None}


def _speed_or_no(said: object) -> int:
    """Return a speed, 0 for "no" or false.

    Raises:
        Refusal: When it is neither.
    """
    if said is False or str(said).strip().casefold() == "no":
        return 0
    try:
        return _SPEED(said)
    except Refusal as refusal:
        raise Refusal(phrase("{allowed}, or no", allowed=refusal.allowed), refusal.cure) from None


def _hours(fields: Fields | None) -> dict[int, int]:
    """Return factors by hour from keys such as "07-09"; hours named twice are a fault."""
    found: dict[int, int] = {}
    for key in [] if fields is None else list(fields.raw):
        assert fields is not None  # noqa: S101 - for the type checker
        hours = _span(key)
        factor = fields.read(key, speed_factor, 1000)
        if not hours:
            allowed = phrase("hours from and to, such as 07-09 or, over midnight, 22-06")
            cure = phrase("Write the earlier hour first, two digits each.")
            fields.fault(key, allowed, cure, said=key)
        elif set(hours) & set(found):
            fields.fault(
                key, phrase("each hour once"), phrase("Let the spans not overlap."), said=key
            )
        found |= dict.fromkeys(hours, factor)
    return found


def _span(key: str) -> tuple[int, ...]:
    """Return the hours from "07-09", which are 7 and 8; none when it is no such key.

    Those from "22-06" go over midnight, from after noon to before it.
    """
    start, dash, end = key.partition("-")
    digits = all(part.isascii() and part.isdecimal() and len(part) == 2 for part in (start, end))
    if not dash or not digits or int(start) > 23 or int(end) > 24:
        return ()
    first, last = int(start), int(end)
    if last < 12 <= first:
        last += 24
    return tuple(hour % 24 for hour in range(first, last))


def largest(
    trucks: tuple[Truck, ...], trailers: tuple[Trailer, ...], hours: Hours, season: Season,
    height: int | None,
) -> "Vehicle":  # fmt: skip
    """Return the largest vehicle of an outfit: where that one passes, all do."""
    from runplanner.roads.vehicle import Vehicle

    masses = [truck.max_g for truck in trucks]
    if trailers:
        masses += [truck.train_max_g for truck in trucks if truck.train_max_g]
    widths = [truck.width_mm for truck in trucks] + [trailer.width_mm for trailer in trailers]
    first = date.fromisoformat(season.first_date)
    days = first, date_of(first, season.n_days - 1 + day_of(hours.end_min - 1))
    return Vehicle(
        max(masses), max(widths), height, (hours.start_min, hours.end_min), days,
        four_wheel=all(truck.four_wheel for truck in trucks),
    )  # fmt: skip
