"""Real roads on the map: a way for each drive, and the roads round about as its ground."""

from collections.abc import Sequence
from typing import Final

from runplanner.paperwork.escape import cut, html_text
from runplanner.paperwork.map.places import same_spot
from runplanner.paperwork.speech.tongue import tr
from runplanner.roads.sketch import Sketch, packed

Spot = tuple[float, float]
GROUND_SVG: Final = (
    '<svg width="46" height="16" aria-hidden="true">'
    '<path d="M0,3 H46" stroke="#8d988a" stroke-width="2.4"/>'
    '<path d="M0,8 H46" stroke="#aab2a4" stroke-width="1.2"/>'
    '<path d="M0,13 H46" stroke="#aab2a4" stroke-width="1.1" stroke-dasharray="3 4"/></svg>'
)
"""A sample of the ground for the key: main roads, others, tracks."""
_LONGEST_CREDIT: Final = 160


def ways_of(sketch: Sketch | None, spots: Sequence[Spot]) -> dict[tuple[int, int], list[int]]:
    """Return the packed way of each drive that fits the plan's places.

    A sketch may be older than the plan it lies beside: a way that does not start and end
    where its places are is not theirs, and is left out.
    """
    return {
        (start, end): packed(line)
        for start, end, line in (sketch.drives if sketch else ())
        if len(line) > 1 and max(start, end) < len(spots)
        and _meets(line[0], spots[start]) and _meets(line[-1], spots[end])
    }  # fmt: skip


def credit_html(sketch: Sketch | None) -> str:
    """Return whose data the roads are, for the title plate; "" where nobody has to be named."""
    if sketch is None or not sketch.credit:
        return ""
    owner = html_text(cut(sketch.credit, _LONGEST_CREDIT))
    words = tr("Roads: {owner}", owner=owner)
    return f'<p class="credit">{words}</p>'


def _meets(end: Spot, spot: Spot) -> bool:
    around = round((spot[1] - end[1]) / 360) * 360
    return same_spot((end[0], end[1] + around), spot)


def road_facts(
    sketch: Sketch, spots: Sequence[Spot], ways: Sequence[list[int]]
) -> dict[str, object]:
    """Return what the page's script draws: all ways, and the ground by rank."""
    lons = [lon for _, lon in spots] or [0.0]
    ranks: list[list[list[int]]] = [[], [], []]
    for rank, line in sketch.ground:
        ranks[rank].append(packed(line))
    return {
        "middle": (min(lons) + max(lons)) / 2,
        "ways": list(ways),
        "ground": ranks,
    }
