"""By which of its words a line is known, wherever these stand: "3 dead at Old Mill" as well.

A line that is refused gets an example of the word it used, with the names found in it.
"""

import re
from collections.abc import Sequence
from contextlib import suppress
from difflib import get_close_matches
from typing import Final, NamedTuple

from runplanner.changes.draft import Draft
from runplanner.changes.road.out import trucks_out
from runplanner.changes.said.called import Called
from runplanner.changes.said.line import Line
from runplanner.changes.said.names import (
    helper,
    helpers_called,
    places_called,
    yards_called,
)
from runplanner.changes.said.when import TIMELY
from runplanner.changes.spotted import (
    IS,
    OPENINGS,
    Spot,
    apart,
    head_of,
    of_helper,
    reason_at,
    says_more,
    spots,
)
from runplanner.changes.verbs.away import AWAY, BACK
from runplanner.changes.verbs.table import TOLD, VERBS, Verb
from runplanner.daybook.trip import Call, CallKind
from runplanner.days import clock
from runplanner.phrase import Phrase, joined, phrase
from runplanner.scenario.faults import Refusal

_AT: Final = ("at", "in")
_NOT: Final = re.compile(
    r"\b(?:not|cannot|never|longer|except|excluding|without|cancelled|canceled|withdrawn|lifted|"
    r"cleared)\b|n['\u2019]t\b",
    re.IGNORECASE,
)
"""Words by which a line may mean the contrary of its opening."""
_LATE: Final = re.compile(r"\b([0-9]{1,3})\s*(?:(min)|h)", re.IGNORECASE)
"""How late somebody is, in minutes or hours."""
_NEAR: Final = 0.8
"""How much of two words must be alike, and after how many words nothing nearly a yard is looked
for (both guessed)."""
_NEAR_WORDS: Final = 12
_BRACKETS: Final = phrase(
    "Where what stands in brackets is a reason, write it at the end of the line; else leave the "
    "brackets out."
)
_NO_VERB: Final = VERBS[-1]
_CAUSES: Final = {
    "shut": "rain raining rainy showers drizzle wind windy gale cold frost snow hail fog hot "
            "heat weather work gate locked closed flooded",
    "honey house stopped": "extractor centrifuge spinner power",
}  # fmt: skip
"""Openings, and what people tell in place of them: the cause of a change, not the change."""


class Reading(NamedTuple):
    """What a line is known as.

    Args:
        verb: What it does; none where no word of it opens a line.
        word: The opening as it was used, "" of who is away.
        line: The line, read up to there.
        typed: The line as it was typed.
        turned: Whether it is read in another order.
    """

    verb: Verb | None
    word: str
    line: Line
    typed: str
    turned: bool = False

    @property
    def rank(self) -> int:
        """Its place among lines that lean on others."""
        return (self.verb or _NO_VERB).rank


def reading(text: str, draft: Draft) -> Reading:
    """Return what a line is known as, by its first words or else by others before a reason."""
    line, yards = Line(text), yards_called(draft)
    words = apart(text, yards)
    found = list(spots(words, yards))
    first = max((one for one in found if one.begins()), key=_weight, default=None)
    if first is None and of_helper(line, draft):
        return Reading(_NO_VERB, "", line, line.typed)
    if first is not None:
        own = first.words.split()
        found = [one for one in found if one is first or {*own} < {*one.words.split()}]
    best = max(found, key=_weight, default=None)
    if best is not None:
        if _slipped(best, words, draft):
            return Reading(None, "", line, line.typed)
        if best.begins() and line.take(best.words):
            return Reading(best.verb, best.words, line, line.typed)
        rest, behind = _moved(words, best.at, best.at)[len(best.at) :], max(best.at) + 1
        # Where nothing but the opening stands before a colon, what follows it may be a reason.
        sign = ":" if rest[:1] == words[behind : behind + 1] == [":"] else ""
        return _turned_to(best.verb, best.words, rest, line.typed, sign)
    for verb, opening in OPENINGS:
        if line.take(opening):
            return Reading(verb, opening, line, line.typed)
    return _absence(line, words, draft)


def _slipped(best: Spot, words: Sequence[str], draft: Draft) -> bool:
    """Tell whether an opening is but the end of another one whose first word is nearly told.

    Of "sugr left 500 kg" that is "left", which no truck is told there.
    """
    first = [one.split()[0] for _, one in OPENINGS if one.split()[1:] == [best.words]]
    head = head_of(words, yards_called(draft))
    for at, _ in helpers_called(draft).found_in(head):
        head[at.start : at.stop] = [""] * len(at)
    return any(get_close_matches(word, first, n=1, cutoff=_NEAR) for word in head)


def _absence(line: Line, words: Sequence[str], draft: Draft) -> Reading:
    """Return a line that no word opens: who is away, or nothing known."""
    yards, known = yards_called(draft), helpers_called(draft)
    head = head_of(words, yards)
    named = [at for at, _ in known.found_in(head)]
    inside = [at for one in named for at in one]
    away = [at for at, word in enumerate(head) if at not in inside and word in {*AWAY, *BACK}]
    begins = Line(line.typed).meant(known)
    if not (away or begins) or _near(words, yards) or (not named and _caused(words, yards)):
        return Reading(None, "", line, line.typed)
    if not away or len(named) != 1:
        return Reading(_NO_VERB, "", line, line.typed)
    return _turned_to(_NO_VERB, "", _moved(words, [*named[0], *away], away), line.typed)


def _moved(words: Sequence[str], first: Sequence[int], opens: Sequence[int]) -> list[str]:
    """Return words with those at ``first`` in front; no "is" or "the" before one that ``opens``."""
    before = (*IS, "the")
    gone = {*first, *(at - 1 for at in opens if at and words[at - 1].casefold() in before)}
    return [*(words[at] for at in first), *(one for at, one in enumerate(words) if at not in gone)]


def _turned_to(verb: Verb, word: str, rest: Sequence[str], typed: str, sign: str = "") -> Reading:
    """Return a line that begins with its opening and perhaps a ``sign``, and says so."""
    text = f"{word}{sign} {' '.join(rest).lstrip(',:; ')}"
    line = Line(re.sub(r" (?=[,:;](?: |$))", "", text))
    line.take(word)
    line.say(phrase("{line} is read as {read}", line=repr(typed), read=repr(line.typed)))
    return Reading(verb, word, line, typed, turned=True)


def _weight(one: Spot) -> tuple[int, int]:
    return len(one.at), -one.at[0]


def put_in(read: Reading, draft: Draft) -> Draft:
    """Return the draft with a line put in.

    Raises:
        Refusal: When it is not understood to its end, or cannot be.
    """
    if read.verb is None:
        raise _unknown(read.line, draft)
    try:
        return _read(read, draft)
    except Refusal:
        for other in (_bracket_last(read, draft), _place_first(read, draft)):
            with suppress(Refusal):
                if other is not None:
                    return _read(other, draft)
        raise


def _read(read: Reading, draft: Draft) -> Draft:
    verb, line = read.verb or _NO_VERB, read.line
    new = verb.does(line, draft)
    _see_over(line, draft)
    if read.turned and verb.rank == TOLD:
        allowed = phrase("what a truck is told to do, beginning with {word}", word=repr(read.word))
        raise Refusal(allowed, phrase("Write {line}.", line=repr(line.typed)))
    for note in line.notes:
        new = new.noted(note)
    return new


def _bracket_last(read: Reading, draft: Draft) -> Reading | None:
    """Return a line that was read up to a reason in brackets with that behind all else it tells."""
    line, brackets = read.line, list[str]()
    told = line.read()
    while said := line.bracket():
        brackets.append(said)
    if not brackets or line.done() or any(says_more(one, draft) for one in brackets):
        return None
    words = [*told.split(), *line.rest().split(), *(f"({one})" for one in brackets)]
    rest = words[len(read.word.split()) :]
    return _turned_to(read.verb or _NO_VERB, read.word, rest, read.typed)._replace(
        turned=read.turned
    )


def _place_first(read: Reading, draft: Draft) -> Reading | None:
    """Return the line with the one place it names before its reason behind its opening."""
    words = apart(read.line.typed, yards_called(draft))
    places = [at for at, _ in places_called(draft).found_in(words[: reason_at(words)])]
    if read.verb is None or not read.word or len(places) != 1:
        return None
    start, stop = places[0].start, places[0].stop
    before = words[:start] if words[start - 1].casefold() not in _AT else words[: start - 1]
    word = len(read.word.split())
    new = [*words[start:stop], *before[word:], *words[stop:]]
    return _turned_to(read.verb, read.word, new, read.typed)


def cure_of(no: Refusal, read: Reading, draft: Draft) -> Phrase:
    """Return the cure of a line that was refused, with another such as it, of what it names."""
    line, yards = read.line, yards_called(draft)
    if read.verb is None:
        return no.cure
    words = apart(line.typed, yards)
    if _NOT.search(" ".join(head_of(words, yards))) and (key := _yard_in(words, draft)):
        return joined(" ", no.cure, _lines_on(key, draft))
    if line.goes_on() and no.cure != _BRACKETS:
        return joined(" ", no.cure, _BRACKETS)
    such_as = _such_as(read.verb, read.word, words, draft)
    # An example would say otherwise than the cure, or again what was typed.
    told = no.cure.startswith(f"Write '{read.word} ")
    if told or (line.over() and such_as.casefold() == line.read().casefold()):
        return no.cure
    cure = phrase("{cure} An example: {such_as}.", cure=no.cure, such_as=repr(such_as))
    if read.verb is _NO_VERB and not of_helper(Line(line.typed), draft):
        return joined(" ", cure, _begins())
    return cure


def _such_as(
    verb: Verb, word: str, words: Sequence[str], draft: Draft, place: str = "Fernbank"
) -> str:
    """Return the example of a verb, with the names that ``words`` tell.

    Where no yard is named it is the one at which a truck is, of those named where some are, or
    else ``place``.
    """
    known = helpers_called(draft)
    helpers = [one for _, found in known.found_in(words) for one in found]
    trucks = [key for kind, key in helpers if kind == "trucks"]
    truck, stop = _last_stop(draft, trucks) or (next(iter(trucks), ""), None)
    key = _yard_in(words, draft) or (stop.yard if stop else "")
    place = draft.outfit.yard(key).name if key else place
    first, ids = next(places_called(draft).found_in(words), (range(0), []))
    if verb.everywhere and len(ids[0] if ids else ()) > 1:
        place = " ".join(words[first.start : first.stop])
    trips = [one.id for one in draft.driven_trips() if key in {call.yard for call in one.yards()}]
    late = _LATE.search(" ".join(words))
    late_min = int(late[1]) * (1 if late[2] else 60) if late else 0
    over = stop.end_min + late_min if stop and stop.yard == key else 15 * 60
    return verb.such_as.format(
        word=word,
        trip=f"{trips[-1]} " if len(trips) > 1 else "",
        yard=place,
        truck=draft.outfit.truck(truck).name if truck else "Blue",
        helper=helper(draft, *helpers[0]).name if helpers else "Ann",
        time=clock(over),
        substance=draft.outfit.strips.substance,
    ).rstrip()


def _lines_on(key: str, draft: Draft) -> Phrase:
    """Return what can be typed of a yard, by its id."""
    name = draft.outfit.yard(key).name
    lines = (
        repr(_such_as(verb, verb.begins[0], name.split(), draft))
        for verb in VERBS
        if "{yard}" in verb.such_as
    )
    return phrase("Lines on {yard} are: {lines}.", yard=name, lines=", ".join(lines))


def _last_stop(draft: Draft, trucks: Sequence[str]) -> tuple[str, Call] | None:
    """Return a truck that is out, of ``trucks`` where some are told, and its last stop begun."""
    for out in trucks_out(draft):
        begun = [call for call in out.trip.calls[: out.begun] if call.kind is CallKind.YARD]
        if begun and (not trucks or out.shift.truck in trucks):
            return out.shift.truck, begun[-1]
    return None


def _yard_in(words: Sequence[str], draft: Draft) -> str:
    """Return the id of the yard that ``words`` name, or nearly; "" where they name none."""
    for _, found in yards_called(draft).found_in(words):
        return found[0]
    names = {one.name.casefold(): one.id for one in draft.outfit.yards}
    for count in (3, 2, 1):
        for at in range(min(len(words), _NEAR_WORDS) - count + 1):
            said = " ".join(words[at : at + count]).casefold()
            alike = [name for name in names if name[0] == said[0]]
            for near in get_close_matches(said, alike, n=1, cutoff=_NEAR):
                return names[near]
    return ""


def _unknown(line: Line, draft: Draft) -> Refusal:
    """Return how a line is refused of which no word opens a line."""
    allowed = phrase(
        "a change, or the name of a truck, trailer or person followed by out, off or back"
    )
    yards = yards_called(draft)
    words = apart(line.typed, yards)
    for verb, opening, place in (*_caused(words, yards), *_near(words, yards)):
        meant = phrase("Did you mean {word}?", word=repr(opening))
        such_as = repr(_such_as(verb, opening, words, draft, place))
        cure = phrase("{cure} An example: {such_as}.", cure=meant, such_as=such_as)
        return Refusal(allowed, cure)
    if key := _yard_in(words, draft):
        return Refusal(allowed, _lines_on(key, draft))
    return Refusal(allowed, _begins())


def _begins() -> Phrase:
    begins = ", ".join(verb.begins[0] for verb in VERBS if verb.begins)
    return phrase("Lines may begin: {begins}.", begins=begins)


def _caused(words: Sequence[str], yards: Called[str]) -> list[tuple[Verb, str, str]]:
    """Return the opening for which a cause is told, and where it may hold: everywhere."""
    causes = {word: opening for opening, told in _CAUSES.items() for word in told.split()}
    told = next((causes[word] for word in head_of(words, yards) if word in causes), "")
    return [(verb, opening, "all") for verb, opening in OPENINGS if opening == told]


def _near(words: Sequence[str], yards: Called[str]) -> list[tuple[Verb, str, str]]:
    """Return the first opening nearly told, or of which what is in store is told, and a yard.

    A word that opens a line by itself is none of these.
    """
    alone = {opening for _, opening in OPENINGS}
    firsts = {
        opening.split()[0]: (verb, opening, "Fernbank")
        for verb, opening in reversed(OPENINGS)
        if " " not in opening or "{yard}" not in verb.such_as
    }
    head = [word for word in head_of(words, yards) if word not in alone]
    near = (get_close_matches(word, firsts, n=1, cutoff=_NEAR) for word in head)
    return next(([firsts[one[0]]] for one in near if one), [])


def _see_over(line: Line, draft: Draft) -> None:
    """See that nothing is left of a line but a reason after a colon or in brackets.

    Raises:
        Refusal: When something is.
    """
    if line.over():
        return
    left = line.rest()
    allowed = phrase("nothing after the change, but it goes on {left}", left=repr(left[:60]))
    if left.startswith("("):
        cure = _BRACKETS
    elif TIMELY.search(left):
        cure = phrase(
            "Write days and hours as in 'Fri-Sat from 14:00' or 'Fri 8:00-12:00', and what else is "
            "meant on a line of its own."
        )
    elif _NOT.search(left):
        cure = phrase("Where the contrary is meant, leave the line out, or type what holds now.")
    elif says_more(left, draft):
        cure = phrase("Write what else is meant on a line of its own.")
    else:
        meant = f"{line.read()}: {left.strip(' ,;-')}"
        cure = phrase("Where that is a reason, put a colon before it: {line}.", line=repr(meant))
    raise Refusal(allowed, cure)
