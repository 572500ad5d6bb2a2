"""The words of true counts, as a driver texts them: how many of what, and by which way."""

import re
from collections.abc import Mapping, Sequence
from typing import Final

from runplanner.changes.said.line import Line
from runplanner.outfit.yards import BY_HAND, Clearing, Yard
from runplanner.paperwork.stop.yard_words import WAYS
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
_FIRST: Final = r"(?:further )?(boards?|blocks?|strips|feeders off|wet boxes (?:up|down))[:=]? "
"""A word before its number, as phone texts have it."""
_ABOARD: Final = re.compile(r"max [0-9]{1,6} full aboard", re.IGNORECASE)
_BROOD: Final = re.compile(r"\s*([0-9]{1,6}) brood box(?:es)?\s*", re.IGNORECASE)


def _told_by(way: Clearing) -> tuple[str, ...]:
    """Return how a take-off in a way may be told, as papers have it and else, the longest first."""
    tool = way.value
    if way not in BY_HAND:
        return (WAYS[way],)
    tools = (f"the {tool}", f"a {tool}", tool)
    return (
        *(f"with {one}, no boards" for one in tools),
        *(f"{how} {one}" for how in ("with", "by") for one in tools),
    )


_WAYS: Final[Sequence[tuple[Sequence[str], Counts]]] = tuple(
    (_told_by(way), {"way": BY_HAND.index(way)} if way in BY_HAND else {}) for way in Clearing
)
_AS_SAID: Final[Sequence[tuple[Sequence[str], Counts]]] = (
    (("no strips",), {"strips": 0}),
    (("no syrup", "no feed", "not fed"), {"fed": 0}),
    (("strips in", "strips"), {"strips": ALL_STRIPS}),
    *_WAYS,
)
_MORE: Final = re.compile(
    rf"[: ]*(?:(?:{_FIRST})?[0-9]|(?:no )?strips\b|(?:fed|feed|off|condense)\b:? [0-9]|"
    rf"(?:{'|'.join(one for words, _ in _WAYS for one in words)})\b)",
    re.IGNORECASE,
)
"""Counts and no reason, with a colon before them or without."""
_NUMBER: Final = re.compile(
    r"([0-9]{1,6})(?:[.,]([0-9]{1,2}))?\s*(?:(brood|wet)\s+)?([A-Za-z]+)", re.IGNORECASE
)
"""A number with its word.  Of a thousand with a mark between, three figures stand behind that."""


def read_counts(line: Line, substance: str = "") -> Counts:
    """Read what was counted at a stop, by word; strips there are of ``substance``.

    Raises:
        Refusal: When something else stands there.
    """
    if line.take("nothing", "not done", "not"):
        return NOTHING
    counts: dict[str, int] = {}
    while _goes_on(line, counts):
        if line.take("condense"):  # colonies without honey, as phone texts have it
            counts = {"boxes": 0} | counts
        more = _said(line, substance)
        if more is None:
            more = _numbered(line, first=not counts)
        if more is None:
            break
        _refuse_twice(counts, more)
        counts |= more
        line.take("and", ",")
    if not counts:
        cure = phrase("Write what was counted; what went as planned counts as done without a line.")
        raise Refusal(COUNTS, cure)
    return counts


def _refuse_twice(counts: Counts, more: Counts) -> None:
    """See that nothing is counted twice otherwise: nobody would know which of both is meant.

    Raises:
        Refusal: When something is.
    """
    for word in sorted(more.keys() & counts.keys() - {"way"}):
        if len({counts[word], more[word]} - {ALL_STRIPS}) > 1:
            one, two = (_as_told(word, number) for number in (counts[word], more[word]))
            raise Refusal(
                phrase("each count once, not both {one} and {two}", one=one, two=two),
                phrase("Write what was counted in all."),
            )


def _as_told(word: str, number: int) -> str:
    return f"{number / 1000:g} L" if word == "ml" else f"{number} {word}"


def _goes_on(line: Line, counts: Counts) -> bool:
    """Tell whether counts come next, or what phone texts say beside them; a colon is dropped."""
    if line.rest().startswith("("):
        return True
    if not counts or not line.over():
        return not line.done()
    if not _MORE.match(line.rest()):
        return False
    line.past_colon()
    return True


def _said(line: Line, substance: str) -> Counts | None:
    """Read a count that is no number with its word, or what phone texts say beside counts."""
    if line.rest().startswith("("):
        brood = [one for part in line.bracket().split(",") if (one := _BROOD.fullmatch(part))]
        return {"brood": int(brood[0][1])} if brood else {}
    # "strips 40" are forty, "strips 20 fed" all strips and syrup.
    end = rf"([0-9]{{1,6}})(?= ?(?:$|[,;:(#])| (?:and|{re.escape(substance or 'and')})\b)"
    if found := line.match(re.compile(_FIRST + end, re.IGNORECASE)):
        line.take(substance)
        return {_WORDS[found[1].split()[0].casefold()]: int(found[2])}
    if line.match(_ABOARD):
        return {}
    return next((counts for words, counts in _AS_SAID if line.take(*words)), None)


def _numbered(line: Line, *, first: bool) -> Counts | None:
    """Read a number with its word; nothing where ``first`` none comes next.

    Raises:
        Refusal: When it is none.
    """
    fed = line.take("feed", "fed")
    line.take("off")
    if first and not line.rest()[:1].isdigit():
        return None
    word, number = _one(line)
    return {"fed" if fed and word == "colonies" else word: number}


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
