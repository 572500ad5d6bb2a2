"""Keys of [travel] that do nothing beside its others: said, so that nobody counts on them."""

from collections.abc import Iterator
from typing import Final

from runplanner.phrase import Phrase, phrase
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.travel.road_choice import RoadChoice

_STRAIGHT: Final = phrase(
    "nothing uses it while drives are straight lines; it goes with roads or a service"
)
_BY_ROAD: Final = phrase("nothing uses it while drives go by road; it goes with straight lines")
_UNTOLD: Final = phrase("this service is not told it: it goes by speeds and limits of its own")
_UNSAID: Final = phrase("this service does not say how far off a road places lie")


def say_idle(file: OutfitFile, choice: RoadChoice) -> None:
    """Doubt each key of [travel] that was typed and that nothing goes by."""
    fields = file.section("travel")
    for key, words in _idle(choice):
        if fields.has(key):
            fields.doubt(key, words)


def _idle(choice: RoadChoice) -> Iterator[tuple[str, Phrase]]:
    if not choice.key:
        yield from ((key, _STRAIGHT) for key in ("height", "off_road_warn", "speeds"))
        return
    yield from ((key, _BY_ROAD) for key in ("detour", "speed"))
    if choice.path is not None:
        return
    yield "speeds", _UNTOLD
    yield ("off_road_warn", _UNSAID) if choice.tells_truck() else ("height", _UNTOLD)
