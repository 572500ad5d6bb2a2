"""The roads of a scenario as they are drawn, once a plan says which drives there are."""

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from runplanner.outfit.outfit import Outfit
from runplanner.roads.errors import RoadsError
from runplanner.scenario.fields import Desk
from runplanner.scenario.outfit_file import OutfitFile
from runplanner.scenario.road_choice import largest, read_choice
from runplanner.scenario.travel_file import typed_pairs

if TYPE_CHECKING:
    from runplanner.roads.sketch import Sketch


def sketch_roads(folder: Path, outfit: Outfit, pairs: Iterable[tuple[int, int]]) -> "Sketch | None":
    """Return the ways between ``pairs`` of the outfit's places, and the roads round about.

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
    from runplanner.roads.snap import snapped

    truck = largest(outfit.trucks, outfit.trailers, outfit.hours, choice.height_mm)
    points = [(place.lat, place.lon) for place in outfit.places]
    try:
        roads = open_roads(choice.path, truck, choice.table(), points)
    except RoadsError:
        return None
    by_road = set(pairs) - typed
    return sketched(snapped(roads.network, points), points, by_road, roads.credit or choice.credit)
