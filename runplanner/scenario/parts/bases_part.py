"""Home, feed store and honey house: one place or up to three."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from runplanner.days import DAY_MIN, clock
from runplanner.outfit.bases import USUAL_WATER_PERMILLE, Base, HoneyHouse
from runplanner.outfit.yards import Place
from runplanner.phrase import phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.defaults import DEFAULTS
from runplanner.scenario.faults import Refusal
from runplanner.scenario.places.points import Point, anchor, check_near, read_point
from runplanner.scenario.values import measures
from runplanner.scenario.values.figures import Figure, Whole
from runplanner.scenario.values.moments import clock_min
from runplanner.scenario.values.words import name
from runplanner.trade.honey import moisture_percent

MOST_PEOPLE_SPINNING: Final = 12
_NO_RATES: Final[tuple[int, ...]] = (0, 1)


class PlaceBook:
    """The places of the travel table, each once.

    ``stretches`` are the minutes of the last stretch typed for each, None where none was; and
    ``moves`` the entry of [[moves]] in which it was typed, None for all others.
    """

    def __init__(self) -> None:
        self.places: list[Place] = []
        self.stretches: list[int | None] = []
        self.moves: list[Fields | None] = []

    def add(self, place: Place, stretch_min: int | None = None, move: Fields | None = None) -> int:
        """Return the index of a new place."""
        self.places.append(place)
        self.stretches.append(stretch_min)
        self.moves.append(move)
        return len(self.places) - 1

    def base(self, place: Place, stretch_min: int | None) -> int:
        """Return the index of a base; bases at the very same spot share one place."""
        for index, known in enumerate(self.places):
            if (known.lat, known.lon) == (place.lat, place.lon):
                if self.stretches[index] is None:
                    self.stretches[index] = stretch_min
                return index
        return self.add(place, stretch_min)

    def point(self, index: int) -> Point:
        """Return latitude and longitude of a place."""
        return self.places[index].lat, self.places[index].lon


@dataclass(frozen=True, slots=True)
class Bases:
    """The three bases; ``point`` is home's, or None while that is at fault.

    ``spots`` are where home, feed store and honey house were typed, and what was typed there.
    ``home`` has its own hours, in which trucks may be out; those of [base] are its gates' alone.
    """

    home: Base
    feed_store: Base
    honey_house: HoneyHouse
    point: Point | None
    spots: tuple[tuple[Fields, Point | None], ...]

    def tables(self) -> dict[int, str]:
        """Return the table in which the place of each base was typed, by its index."""
        bases = (self.home, self.feed_store, self.honey_house.base)
        found = [(base.place, spot[0].kind) for base, spot in zip(bases, self.spots, strict=True)]
        return dict(reversed(found))


def read_bases(file: OutfitFile, book: PlaceBook) -> Bases:
    """Return the bases, their places put into ``book``."""
    common = file.section("base")
    home, spot = _base(file, common, "home", "Home", book)
    store, store_spot = _base(file, common, "feed_store", "Feed store", book)
    house, house_spot = _base(file, common, "honey_house", "Honey house", book)
    honey_house = _honey_house(file.section("honey_house"), house)
    home = _by_its_own_hours(file.section("home").alone(), home)
    return Bases(home, store, honey_house, spot[1], (spot, store_spot, house_spot))


def _by_its_own_hours(fields: Fields, base: Base) -> Base:
    """Return a base with the hours that were typed for itself; what was not typed is no limit."""
    opens = base.opens_min if fields.has("opens") else 0
    return Base(base.place, opens, base.closes_min if fields.has("closes") else DAY_MIN)


def check_bases(bases: Bases, yards: Sequence[Point]) -> Point | None:
    """Write down a base that lies far from the rest; return what all places must lie near."""
    (fields, home), *others = bases.spots
    near = anchor(fields, home, yards)
    for other, point in others:
        if point != home:
            check_near(other, near, point)
    return near


def _base(
    file: OutfitFile, common: Fields, key: str, title: str, book: PlaceBook
) -> tuple[Base, tuple[Fields, Point | None]]:
    fields = file.section(key, behind=common)
    typed = [fields.find(axis) for axis in ("lat", "lon")]
    own = any(said is not None and owner is fields for said, owner in typed)
    typed_at = fields.alone() if own else common
    point = read_point(typed_at)
    word = "Base" if not own else title
    called = fields.optional("name", name) or word
    lat, lon = point or (0.0, 0.0)
    # A base with a place of its own has its own way to it; what stands in [base] is asked here,
    # so that it is a known key where all three have.
    common.has("last_stretch")
    fields.has("last_stretch")
    stretch_min = (typed_at if own else fields).optional("last_stretch", measures.DRIVE)
    place = book.base(Place(key.replace("_", "-"), called, lat, lon), stretch_min)
    _see_name(file, fields, called, book.places[place])
    opens = fields.read("opens", clock_min, 0)
    closes = fields.read("closes", clock_min, 1440)
    if fields.right("opens", "closes") and opens >= closes:
        fields.fault("closes", phrase("later than opens"), phrase("Put the two times in order."))
    return Base(place, opens, closes), (typed_at, point)


def _see_name(file: OutfitFile, fields: Fields, called: str, place: Place) -> None:
    """Doubt a base's own name that papers will not say, as its place has another."""
    if fields.alone().has("name") and called != place.name:
        table = place.id.replace("-", "_")
        if not file.section(table).alone().has("name"):
            table = "base"
        told = phrase(
            "{name} is not shown, as one place has one name, that of [{table}]: type a lat and lon "
            "of its own, or leave the name out",
            name=repr(called),
            table=table,
        )
        fields.doubt("name", told)


def _honey_house(fields: Fields, base: Base) -> HoneyHouse:
    rates = fields.read("boxes_per_hour", _rates, _NO_RATES)
    from_min, to_min = _spinning_hours(fields, base)
    house = HoneyHouse(
        base=base,
        boxes_per_h=rates,
        room_boxes=fields.read("room", Whole(1, 100_000), 1),
        waiting_boxes=fields.read("waiting", Whole(0, 100_000), 0),
        spin_from_min=from_min,
        spin_to_min=to_min,
        water_permille=_water(fields),
    )
    in_order = house.spin_from_min < house.spin_to_min
    if fields.right("spin_from", "spin_to") and not in_order:
        fields.fault(
            "spin_to", phrase("later than spin_from"), phrase("Put the two times in order.")
        )
    if fields.right("waiting", "room") and house.waiting_boxes > house.room_boxes:
        fields.fault(
            "waiting",
            phrase("at most room ({number})", number=house.room_boxes),
            phrase("Check both numbers."),
        )
    return house


def _spinning_hours(fields: Fields, base: Base) -> tuple[int, int]:
    """Return from when until when honey may be spun: as typed, else the usual hours it is open."""
    usual = [clock_min(DEFAULTS[f"honey_house.{key}"].said) for key in ("spin_from", "spin_to")]
    open_from, open_to = max(usual[0], base.opens_min), min(usual[1], base.closes_min)
    if open_from >= open_to:
        open_from, open_to = usual
    found = []
    for key, plain, minute in zip(
        ("spin_from", "spin_to"), usual, (open_from, open_to), strict=True
    ):
        if minute == plain:
            found.append(fields.read(key, clock_min, minute))
        else:
            shown = clock(minute), phrase("while the honey house is open, as typed [C]")
            found.append(fields.derived(key, clock_min, minute, shown))
    return found[0], found[1]


def _water(fields: Fields) -> int:
    """Return the water in the honey, typed or by refractometer."""
    index = fields.optional("refractive_index", _by_index)
    if index is not None and fields.has("honey_water"):
        fields.fault(
            "refractive_index", phrase("honey_water or refractive_index"), phrase("Leave one out.")
        )
    typed = fields.optional("honey_water", measures.HONEY_WATER)
    return index or typed or USUAL_WATER_PERMILLE


def _by_index(said: object) -> int:
    """Return the water in per mille by the refractive index at 20 degrees.

    Raises:
        Refusal: When honey has no such index.
    """
    number = Figure(phrase("a refractive index"), 1, 2)(said)
    try:
        percent = moisture_percent(float(number))
    except ValueError:
        allowed = phrase("a refractive index of honey at 20 degC, from 1.4740 to 1.5044")
        raise Refusal(allowed, phrase("Or type honey_water in per cent.")) from None
    return round(10 * percent)


def _rates(said: object) -> tuple[int, ...]:
    """Return boxes an hour by 0, 1, 2, ... people, from a list for 1, 2, 3, ... people.

    Raises:
        Refusal: When more people would spin less, or a number is no rate.
    """
    entries = (
        said.split(",") if isinstance(said, str) else said if isinstance(said, list) else [said]
    )
    if not 1 <= len(entries) <= MOST_PEOPLE_SPINNING:
        raise Refusal(
            phrase("1 to {most} numbers", most=MOST_PEOPLE_SPINNING),
            phrase("One for each number of people."),
        )
    rates = [Whole(1, 2_000)(entry) for entry in entries]
    if rates != sorted(rates):
        allowed = phrase("boxes an hour for one person, two, three, ..., such as [10, 18, 24]")
        raise Refusal(allowed, phrase("More people cannot spin fewer boxes."))
    return (0, *rates)
