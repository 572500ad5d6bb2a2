"""What stands in a line: words that open one, names, and where its reason begins."""

import re
from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from runplanner.changes.draft import Draft
from runplanner.changes.said.called import Called
from runplanner.changes.said.line import Line
from runplanner.changes.said.names import helpers_called, yards_called
from runplanner.changes.said.when import TIMELY
from runplanner.changes.verbs.away import AWAY, BACK
from runplanner.changes.verbs.on_the_road import JOBS
from runplanner.changes.verbs.table import VERBS, Verb
from runplanner.trade.strips import SUBSTANCES

_FIRST: Final = ("new yard",)
"""Openings before which nothing stands, for any words would be part of the name."""
_HOUSE: Final = "honey house"
IS: Final = ("is", "are", "has")
_SIGN: Final = re.compile(r"([,:;])(?=\s|$)")
_REASON: Final = (":", "(", "#")
_LIMITS: Final = re.compile(
    r"\b(?:and|or|not|no|but|only|except|excluding|with|without|for|if|then|to|half|part|partly|"
    r"early|late|again|maybe)\b",
    re.IGNORECASE,
)
"""Words that make more of what follows than a reason."""
OPENINGS: Final = tuple((verb, words) for verb in VERBS for words in verb.begins)


class Spot(NamedTuple):
    """An opening in a line, and where its words stand."""

    verb: Verb
    words: str
    at: tuple[int, ...]

    def begins(self) -> bool:
        """Tell whether the line begins with it."""
        return self.at == tuple(range(len(self.at)))


def apart(text: str, yards: Called[str]) -> list[str]:
    """Return the words of a line, signs behind them apart; none behind a place it begins with."""
    words = _SIGN.sub(r" \1", Line(text).rest()).split()
    first = next((at for at, _ in yards.found_in(words)), range(1, 1))
    if first.start and " ".join(words[:2]).casefold() == _HOUSE:
        first = range(2)
    if first.start == 0 and words[first.stop : first.stop + 1] == [":"]:
        del words[first.stop]
    return words


def reason_at(words: Sequence[str]) -> int:
    """Return the index at which a reason begins, or the end."""
    return next((at for at, word in enumerate(words) if word.startswith(_REASON)), len(words))


def head_of(words: Sequence[str], yards: Called[str]) -> list[str]:
    """Return the words before a reason in small letters, those in names of yards empty."""
    head = [word.casefold() for word in words[: reason_at(words)]]
    for at, _ in yards.found_in(head):
        head[at.start : at.stop] = [""] * len(at)
    return head


def spots(words: Sequence[str], yards: Called[str]) -> Iterator[Spot]:
    """Yield the openings in a line before its reason, outside the names of yards."""
    head = head_of(words, yards)
    for verb, opening in OPENINGS:
        own = opening.split()
        if {*own} <= {*head}:
            one = Spot(verb, opening, tuple(head.index(word) for word in own))
            if one.begins() or opening not in _FIRST:
                yield one


def of_helper(line: Line, draft: Draft) -> bool:
    """Tell whether a line begins with a name of people, trucks or trailers, and who is away."""
    ahead = Line(line.rest())
    named = ahead.meant(helpers_called(draft))
    ahead.take(*IS)
    return bool(named and ahead.take(*AWAY, *BACK))


def says_more(text: str, draft: Draft) -> bool:
    """Tell whether words tell of days, limits, jobs or names: more than a reason does."""
    if TIMELY.search(text) or _LIMITS.search(text):
        return True
    yards = yards_called(draft)
    words = apart(text, yards)
    named = (yards.found_in(words), helpers_called(draft).found_in(words), spots(words, yards))
    jobs = {word.casefold() for word in words} & {*JOBS, *SUBSTANCES}
    return bool(jobs) or any(True for some in named for _ in some)
