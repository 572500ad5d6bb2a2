"""Names that people typed apart and papers would print alike."""

from collections.abc import Iterator

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.trucks import Trailer, Truck
from runplanner.paperwork.escape import message_text
from runplanner.paperwork.speech.say import person_name, vehicle_name, yard_name
from runplanner.phrase import Phrase, phrase


def names_alike(outfit: Outfit) -> Iterator[Phrase]:
    """Yield a warning for each name of a yard, a vehicle or a person that stands for several.

    Papers cut long names in the middle, and phone texts drop accents no phone has.
    """
    vehicles: list[Truck | Trailer] = [*outfit.trucks, *outfit.trailers]
    for kind in (
        [(one.name, yard_name(one)) for one in outfit.yards],
        [(one.name, vehicle_name(outfit, one.id)) for one in vehicles],
        [(one.name, person_name(outfit, one.id)) for one in outfit.people],
    ):
        alike: dict[str, list[str]] = {}
        for name, told in kind:
            alike.setdefault(message_text(told).casefold(), []).append(name)
        for names in alike.values():
            if len(names) > 1:
                yield phrase(
                    "On papers or the phone {first} and {second} read alike, for long names "
                    "lose their middle and some letters their accents: shorten one or name it "
                    "otherwise.",
                    first=names[0],
                    second=names[1],
                )
