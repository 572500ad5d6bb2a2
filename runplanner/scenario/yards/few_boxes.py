"""Boxes of each hive, typed where those of the whole yard belong."""

from collections.abc import Sequence
from typing import Final

from runplanner.phrase import Phrase, counted, phrase, some_of

MOST_ON_A_HIVE: Final = 6
"""Honey boxes that one hive carries at most in one harvest: common practice."""
_COLONIES_A_BOX: Final = 3
_LEAST_YARDS: Final = 3
"""Yards beside others with more boxes that are no longer poor by chance: guessed."""
_MOST_NAMED: Final = 5


def few_boxes(yards: Sequence[tuple[int, int]]) -> Phrase | None:
    """Return how many boxes these colonies and boxes by yard are, if so few; None for others.

    Fewer boxes than one for three colonies in all, and nowhere more than one hive carries,
    look like boxes of each hive.  A poor year has fewer boxes than colonies too, but hardly so
    few in every yard.  Yards without boxes tell nothing.
    """
    colonies = sum(colonies for colonies, boxes in yards if boxes)
    boxes = sum(boxes for _, boxes in yards)
    each = max((boxes for _, boxes in yards), default=0)
    if each > MOST_ON_A_HIVE or boxes * _COLONIES_A_BOX >= colonies:
        return None
    return counted(
        "{number} box for {colonies} colonies in all",
        "{number} boxes for {colonies} colonies in all",
        boxes,
        colonies=colonies,
    )


def boxes_in_doubt(file: str, yards: Sequence[tuple[str, int, int]]) -> Phrase | None:
    """Return what to ask of a table with these names, colonies and boxes; None for nothing.

    Where others have more, yards with few boxes are asked about once there are three.
    """
    column = "boxes_per_colony"
    few = few_boxes([(colonies, boxes) for _, colonies, boxes in yards])
    if few is not None:
        return phrase(
            "{file}: {few}: is that per colony? Then call the column {column}.",
            file=file,
            few=few,
            column=column,
        )
    some = [one for one in yards if few_boxes([one[1:]]) is not None]
    few = few_boxes([(colonies, boxes) for _, colonies, boxes in some])
    if few is None or len(some) < _LEAST_YARDS:
        return None
    return phrase(
        "{file}: {few} at {yards}: is that per colony? Then move it to a column {column}.",
        file=file,
        few=few,
        yards=some_of([name for name, _, _ in some], _MOST_NAMED),
        column=column,
    )
