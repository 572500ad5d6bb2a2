"""The words of true counts, as a driver texts them: how many of what, and by which way."""

import re
from collections.abc import Mapping
from typing import Final

from runplanner.changes.said.line import Line
from runplanner.outfit.yards import BY_HAND, Clearing, Yard
from runplanner.phrase import Phrase, counted, phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values.quantities import by_size

COUNTS: Final = phrase(
    "counts such as '20 colonies 37 boxes', with brood boxes, wet boxes, blocks, boards, fed, "
    "litres, strips or no strips, by brush or by blower as need be; or 'nothing'"
)
COLONIES: Final = ("colonies", "colony", "hives", "hive", "col", "cols")
BOXES: Final = ("boxes", "box", "bx", "supers", "super")
_WORDS: Final = {
    **dict.fromkeys((*COLONIES, "off"), "colonies"), **dict.fromkeys(BOXES, "boxes"),
    "blocks": "blocks", "block": "blocks", "boards": "boards", "board": "boards",
    "fed": "fed", "litres": "ml", "litre": "ml", "liters": "ml", "l": "ml", "strips": "strips",
    "wet": "wet", "feeders": "feeders", "feeder": "feeders",
}  # fmt: skip
NOTHING: Final = dict.fromkeys(
    ("colonies", "boxes", "blocks", "boards", "fed", "strips", "wet", "feeders"), 0
)
"""What is counted at a stop that was not reached."""
ALL_STRIPS: Final = -1
"""Strips told without a number: each colony of the yard has its own."""
Counts = Mapping[str, int]
"""How many of what, by word, syrup in millilitres; of ``way`` which one (`BY_HAND`)."""
_AFTER: Final = re.compile(r"(boards?|blocks?) ([0-9]{1,6})(?=$|[,;(])", re.IGNORECASE)
"""A word before its number, as phone texts have it."""
_NUMBER: Final = re.compile(
    r"([0-9]{1,6})(?:[.,]([0-9]{1,2}))?\s*(?:(brood|wet)\s+)?([A-Za-z]+)", re.IGNORECASE
)
"""A number with its word.  Of a thousand with a mark between, three figures stand behind that."""


def read_counts(line: Line) -> Counts:
    """Read what was counted at a stop, by word.

    Raises:
        Refusal: When something else stands there.
    """
    if line.take("nothing", "not done", "not"):
        return NOTHING
    counts: dict[str, int] = {}
    line.rewrite(_AFTER, r"\2 \1")
    while not line.done() and not line.rest().startswith(("(", "#")):
        if line.take("no strips"):
            counts["strips"] = 0
        elif line.take("strips in", "strips"):
            counts["strips"] = ALL_STRIPS
        elif line.take("by brush"):
            counts["way"] = BY_HAND.index(Clearing.BRUSH)
        elif line.take("by blower"):
            counts["way"] = BY_HAND.index(Clearing.BLOWER)
        else:
            fed = line.take("feed", "fed")
            line.take("off")
            if not counts and not line.rest()[:1].isdigit():
                break
            word, number = _one(line)
            counts["fed" if fed and word == "colonies" else word] = number
        line.take("and", ",")
    if not counts:
        cure = phrase("Write what was counted; what went as planned counts as done without a line.")
        raise Refusal(COUNTS, cure)
    return counts


def _one(line: Line) -> tuple[str, int]:
    rest = line.rest()[:40]
    found = line.match(_NUMBER)
    word = _WORDS.get(found[4].casefold()) if found else None
    if found and ((found[3] and word != "boxes") or (found[2] and word != "ml")):
        word = None
    if found is None or word is None:
        raise Refusal(COUNTS, phrase("Not understood from {rest} on.", rest=repr(rest)))
    if word == "ml":
        return word, int(found[1]) * 1000 + int((found[2] or "").ljust(3, "0"))
    return (found[3].casefold() if found[3] else word), int(found[1])


def see_pieces(line: Line, allowed: Phrase) -> None:
    """See that a number that was read is one of pieces: no unit or pack stands behind it.

    A reason that is such a word alone is none: "20: packs" are no 20 strips.

    Raises:
        Refusal: When one does.
    """
    reason = line.reason().partition(" of ")[0]
    words = [reason] if line.over() else Line(line.rest()).amount().split()
    for word in (one.strip(",;") for one in words):
        if by_size(word):
            raise Refusal(allowed, phrase("Count them one by one, not in {word}.", word=repr(word)))


def at_most_all(yard: Yard, planned: int = 0) -> Phrase:
    """Return what is allowed where more colonies are told than a yard has, or than were planned.

    Colonies may have died since, so that more were planned than there are now.
    """
    if planned > yard.colonies:
        return counted(
            "at most the {number} colony planned there",
            "at most the {number} colonies planned there",
            planned,
        )
    return counted(
        "at most the {number} colony of the yard",
        "at most the {number} colonies of the yard",
        yard.colonies,
    )
