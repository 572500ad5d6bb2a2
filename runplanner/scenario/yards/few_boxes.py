"""Boxes of each hive, typed where those of the whole yard belong."""

from collections.abc import Sequence
from typing import Final

from runplanner.phrase import Phrase, phrase

MOST_ON_A_HIVE: Final = 6
"""Honey boxes that one hive carries at most in one harvest: common practice."""
_COLONIES_A_BOX: Final = 3


def few_boxes(file: str, yards: Sequence[tuple[int, int]]) -> Phrase | None:
    """Return what to ask of a table with these colonies and boxes by yard; None for nothing.

    Fewer boxes than one for three colonies in all, and nowhere more than one hive carries,
    look like boxes of each hive.  A poor year has fewer boxes than colonies too, but hardly so
    few in every yard.  Yards without boxes tell nothing.
    """
    colonies = sum(colonies for colonies, boxes in yards if boxes)
    boxes = sum(boxes for _, boxes in yards)
    each = max((boxes for _, boxes in yards), default=0)
    if each > MOST_ON_A_HIVE or boxes * _COLONIES_A_BOX >= colonies:
        return None
    return phrase(
        "{file}: {boxes} boxes for {colonies} colonies in all: is that per colony? Then call "
        "the column {column}.",
        file=file,
        boxes=boxes,
        colonies=colonies,
        column="boxes_per_colony",
    )
