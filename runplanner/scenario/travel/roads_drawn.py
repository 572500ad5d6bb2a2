"""The roads of a scenario as they are drawn, once a plan says which drives there are."""

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Final

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import plain
from runplanner.roads.errors import RoadsError
from runplanner.scenario.cells.fields import Desk
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.travel.road_choice import largest, read_choice
from runplanner.scenario.travel.travel_file import typed_pairs

if TYPE_CHECKING:
    from runplanner.roads.sketch import Sketch

_MOST_SPARE: Final = 2_000
"""Ways drawn besides those of the plan: all between 45 places, or to ten from each of 200."""


def sketch_roads(folder: Path, outfit: Outfit, pairs: Iterable[tuple[int, int]]) -> "Sketch | None":
    """Return the ways between ``pairs`` of the outfit's places, and the roads round about.

    Ways between other places come besides, for plans that are made again from this one.
    Drives typed in travel.csv are left out: which roads those are nobody knows.  None where the
    scenario has no road file, or it cannot be read any more: the plan holds without a drawing.
    """
    desk = Desk()
    file = OutfitFile(folder, desk)
    choice = read_choice(file, folder)
    typed = typed_pairs(file, folder, outfit)
    if desk.book or choice.path is None:
        return None
    from runplanner.roads.ground import sketched
    from runplanner.roads.open import open_roads

    hours = plain(outfit).hours  # as they were when the drives were looked up
    truck = largest(outfit.trucks, outfit.trailers, hours, outfit.season, choice.height_mm)
    points = [(place.lat, place.lon) for place in outfit.places]
    try:
        roads = open_roads(choice.path, truck, choice.table(), points)
    except RoadsError:
        return None
    return sketched(
        roads.on, points, set(pairs) - typed, roads.credit or choice.credit,
        [pair for pair in _likely(outfit) if pair not in typed][:_MOST_SPARE],
    )  # fmt: skip


def _likely(outfit: Outfit) -> list[tuple[int, int]]:
    """Return all drives there are, those to and from bases first, then the shortest."""
    bases = {outfit.home.place, outfit.feed_store.place, outfit.honey_house.base.place}
    found = [
        (not {here, there} & bases, minutes, here, there)
        for here, row in enumerate(outfit.travel.minutes)
        for there, minutes in enumerate(row)
        if minutes is not None and here != there
    ]
    return [(here, there) for _, _, here, there in sorted(found)]
