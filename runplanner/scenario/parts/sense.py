"""Whether the parts of an outfit fit each other, once each part by itself is right."""

from runplanner.errors import Fault
from runplanner.haulage.deck import places_on, stack_high
from runplanner.haulage.hauler import haulers
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.trucks import Trailer, Truck
from runplanner.outfit.yards import Clearing
from runplanner.phrase import Number, Phrase, phrase
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.parts.trucks_part import axles_add_up
from runplanner.trade.axles import axle_loads_g

_NAMES = 5


def check_outfit(file: OutfitFile, outfit: Outfit) -> None:
    """Write down what cannot work together.

    Facts that are at fault already stand at 1 (see the readers' stand-ins) and are left out.
    """
    _check_boards(file, outfit)
    _check_decks(file, outfit)
    _check_axles(file, outfit)
    _check_trailers(file, outfit)
    _check_hands(file, outfit)
    _check_wet(file, outfit)


def _fault(
    file: OutfitFile, where: str, field: str, said: str, allowed: Phrase, cure: Phrase
) -> None:
    file.book.add(Fault(file.file, where, field, said, allowed, cure))


def _check_boards(file: OutfitFile, outfit: Outfit) -> None:
    boarded = [yard for yard in outfit.yards if yard.clearing is Clearing.BOARDS and yard.boxes]
    if boarded and outfit.kit.boards_owned < 1 and file.section("kit").right("boards"):
        cure = phrase(
            "Type how many boards you own: {name} is cleared with them.", name=boarded[0].name
        )
        file.section("kit").fault("boards", phrase("at least 1"), cure)
        return
    lying = [yard for yard in outfit.yards if yard.boards_lain]
    least, owned = outfit.boards_lain, outfit.kit.boards_owned
    if least > owned and file.section("kit").right("boards"):
        cure = phrase(
            "boards counts those that lie at yards too (boards_on: {names}); or check them.",
            names=", ".join(yard.name for yard in lying[:_NAMES]),
        )
        allowed = phrase("at least {number}", number=least)
        _fault(file, _kit_at(file), "boards", str(owned), allowed, cure)


def _kit_at(file: OutfitFile) -> str:
    """Return where boards stand in the file: their line, else that of their table."""
    return file.section("kit").where("boards")


def _check_decks(file: OutfitFile, outfit: Outfit) -> None:
    vehicles: list[Truck | Trailer] = [*outfit.trucks, *outfit.trailers]
    for vehicle in vehicles:
        for box in outfit.boxes:
            if min(vehicle.deck.length_mm, vehicle.deck.width_mm, vehicle.deck.stack_mm) <= 1:
                continue
            fits = places_on(vehicle.deck, box.length_mm, box.width_mm)
            if not fits or not stack_high(vehicle.deck, box):
                said = phrase(
                    "{length_mm} x {width_mm} mm",
                    length_mm=vehicle.deck.length_mm,
                    width_mm=vehicle.deck.width_mm,
                )
                cure = phrase(
                    "Check deck and stack height, and the measures of {name}.", name=box.name
                )
                _fault(
                    file,
                    vehicle.name,
                    "deck",
                    said,
                    phrase("room for one {name}", name=box.name),
                    cure,
                )


def _check_axles(file: OutfitFile, outfit: Outfit) -> None:
    """Write down trucks whose axles bear neither a load nor none, with one person aboard.

    A trailer takes no mass off them.
    """
    ways = {way.truck.id: way for way in reversed(haulers(outfit)) if way.trailer is None}
    for number, truck in enumerate(outfit.trucks):
        way, axles = ways.get(truck.id), truck.axles
        if (
            way is None
            or axles is None
            or outfit.person_g <= 1
            or not axles_add_up(axles, truck.empty_g)
        ):
            continue
        least, most = way.bears()
        if least <= most:
            continue
        fields = file.section(f"trucks.{number}.axles")
        load = max(0, most) if axles.load_on_rear_permille < 1000 else 0
        front, rear = axle_loads_g(axles, load, way.own_g - truck.empty_g)
        for key, ready, limit in (
            ("front_max", front, axles.front_max_g),
            ("rear_max", rear, axles.rear_max_g),
        ):
            if not load and ready > limit:
                allowed = phrase("at least {mass} kg", mass=-(-ready // 1000))
                cure = phrase(
                    "So much rests there before anything is loaded, with half of fuel, kit and "
                    "driver: check the masses of the axles."
                )
                fields.fault(key, allowed, cure)
                break
        else:
            fields.fault(
                "front_min",
                phrase("at most {mass} kg", mass=front // 1000),
                phrase("No load brings more onto the front axle: check the masses of the axles."),
                said=f"{axles.front_min_g / 1000:g} kg",
            )


def _check_trailers(file: OutfitFile, outfit: Outfit) -> None:
    masses = [truck.empty_g for truck in outfit.trucks]
    if min([*masses, *(trailer.empty_g for trailer in outfit.trailers)], default=0) <= 1:
        return
    pulls = [truck.train_max_g for truck in outfit.trucks if truck.train_max_g is not None]
    for trailer in outfit.trailers:
        lightest = min((truck.empty_g for truck in outfit.trucks), default=0)
        if not pulls or lightest + trailer.empty_g >= max(pulls):
            said = (
                phrase("no train_max")
                if not pulls
                else phrase("{number} kg", number=Number(f"{max(pulls) / 1000:g}"))
            )
            cure = phrase(
                "No truck may pull {name}: type train_max of one that may.", name=trailer.name
            )
            _fault(
                file,
                "trucks",
                "train_max",
                said,
                phrase("more than truck and trailer empty"),
                cure,
            )


def _check_hands(file: OutfitFile, outfit: Outfit) -> None:
    if not outfit.people:
        return
    boxes = sum(yard.boxes for yard in outfit.yards) + outfit.honey_house.waiting_boxes
    if boxes and not any(person.spins for person in outfit.people):
        cure = phrase("Boxes come home and nobody may spin: set spins = true for somebody.")
        _fault(file, "people", "spins", phrase("nobody"), phrase("at least one"), cure)
    if not outfit.feed.bought and not any(person.mixes for person in outfit.people):
        cure = phrase("Syrup is mixed at home and nobody may mix: set mixes = true for somebody.")
        _fault(file, "people", "mixes", phrase("nobody"), phrase("at least one"), cure)


def _check_wet(file: OutfitFile, outfit: Outfit) -> None:
    """Wet boxes are loaded where trips load: the honey house must be the feed store."""
    back = [yard for yard in outfit.yards if yard.wet_back]
    if back and outfit.honey_house.base.place != outfit.feed_store.place:
        said = phrase("returned, for {name}", name=back[0].name)
        cure = phrase("Trips load at the feed store: store boxes wet, or put both at one place.")
        allowed = phrase("returned only where honey house and feed store are one place")
        _fault(file, "yards", "wet_boxes", said, allowed, cure)
