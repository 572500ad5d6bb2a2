"""How a yard's boxes are cleared of bees: its usual way, another way, boards that lie already."""

from datetime import timedelta
from typing import Final

from runplanner.days import DAY_MIN
from runplanner.outfit.yards import BY_HAND, Clearing, Yard
from runplanner.phrase import phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import Days
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values.moments import a_date, clock_min
from runplanner.scenario.values.words import one_of

COLUMNS: Final = ("clearing", "clearing_else")
PUT_ON_MIN: Final = 18 * 60
"""Time of day when boards went on where only the date is typed (common practice: evening)."""
LONGEST_ON: Final = 30
NONE: Final = "none"


def read_usual(fields: Fields) -> Clearing:
    """Return the usual way."""
    return Clearing(fields.read("clearing", _any_way, "brush"))


def read_else(fields: Fields, usual: Clearing) -> Clearing | None:
    """Return the way that a take-off may use instead of the usual one, if there is any.

    What stands in the [yards] table for all holds for yards that can have it.
    """
    said = fields.optional("clearing_else", _by_hand)
    if said is None or said == NONE:
        return None
    other = Clearing(said)
    if usual is not Clearing.WARM_BOARD and other is not usual:
        return other
    if fields.find("clearing_else")[1] is not fields:
        return None
    if usual is Clearing.WARM_BOARD:
        cure = phrase(
            "A warm board's days are others: make it brush or blower, or leave this empty."
        )
        fields.fault("clearing_else", phrase("nothing beside a warm board"), cure)
    else:
        allowed = phrase("another way than {usual}", usual=usual.value)
        fields.fault("clearing_else", allowed, phrase("Leave it empty, or change one."))
    return None


def read_boards_on(fields: Fields, days: Days) -> int | None:
    """Return the minute since which boards lie in the whole yard, or None where none do."""
    return fields.optional("boards_on", lambda said: _minute(said, days))


def check_boards_on(fields: Fields, yard: Yard) -> None:
    """Refuse boards under boxes that are not there or are cleared another way."""
    if yard.boards_on_min is None:
        return
    if fields.right("clearing") and yard.clearing is not Clearing.BOARDS:
        cure = phrase("Set clearing to boards, or leave boards_on empty.")
        fields.fault("boards_on", phrase("nothing where boards do not clear the boxes"), cure)
    elif fields.right("boxes", "boxes_per_colony") and not yard.boxes:
        cure = phrase("Type the full boxes above the boards, or leave boards_on empty.")
        fields.fault("boards_on", phrase("nothing where there are no boxes"), cure)


def _any_way(said: object) -> str:
    return one_of(said, [way.value for way in Clearing])


def _by_hand(said: object) -> str:
    return one_of(said, [NONE, *(way.value for way in BY_HAND)])


def _minute(said: object, days: Days) -> int:
    """Return a date, with a time of day or without, as a minute of the campaign's clock."""
    words = str(said).strip().replace("T", " ").split(" ", 1)
    first = days.first - timedelta(days=LONGEST_ON)
    allowed = phrase(
        "a date from {first} to the day before {start}, with or without a time, such as "
        "2027-02-27 17:30",
        first=first.isoformat(),
        start=days.first.isoformat(),
    )
    try:
        number = (a_date(words[0]) - days.first).days
        minute = number * DAY_MIN + (clock_min(words[1].strip()) if words[1:] else PUT_ON_MIN)
    except Refusal as refusal:
        raise Refusal(allowed, refusal.cure) from None
    if days.known and not -LONGEST_ON <= number < 0:
        cure = phrase("Boards put on later are planned: leave it empty.")
        if number < 0:
            cure = phrase("Check the date; boards are not left on that long.")
        raise Refusal(allowed, cure)
    return min(minute, -1)
