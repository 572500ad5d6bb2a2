"""What the audit says: one finding for each place where a rule is broken."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date
from typing import Final, NamedTuple, Protocol

from runplanner.daybook.trip import Against
from runplanner.days import clock, date_of, day_of
from runplanner.phrase import Phrase, counted, joined, phrase, verbatim

SHOWN_CHARS = 60

_WORDS: Final[dict[str, Phrase]] = {
    str(known): known
    for known in (
        phrase("boards"), phrase("take-off"), counted("block", "blocks", 1), phrase("feed"),
        phrase("strips"), phrase("wet boxes up"), phrase("wet boxes down"),
        phrase("feeders off"), phrase("brush"), phrase("blower"), phrase("warm board"),
        phrase("sound"), phrase("watch"), phrase("suspect"), phrase("standstill"),
        phrase("load"), counted("yard", "yards", 1), phrase("unload"), phrase("open"),
        phrase("settle"),
    )
}  # fmt: skip
"""Words of a plan that may stand in a finding, as they can be said in other languages."""

_FIELDS: Final[dict[str, Phrase]] = {
    "boxes": phrase("honey boxes"), "brood_boxes": phrase("brood boxes"),
    "ml": phrase("ml of syrup"), "blocks": phrase("fondant blocks"), "boards": phrase("boards"),
    "strips": phrase("strips"), "feeders": phrase("feeders"), "load_g": phrase("g of load"),
    "load_max_g": phrase("g of load at most"), "places": phrase("deck places"),
    "places_max": phrase("deck places at most"), "wet": phrase("wet boxes"),
    "round": phrase("feed round"), "pieces": phrase("pieces"),
    "boards_off": phrase("boards off"), "feeders_off": phrase("feeders off"),
    "way": phrase("way of clearing"),
    "uncovered": phrase("colony-days without cover"),
    "no_strips": phrase("colonies without strips"), "unfed_g": phrase("g of stores not fed"),
    "not_off": phrase("colonies not taken off"),
    "km": phrase("kilometres"), "days": phrase("truck days"), "crew": phrase("crew hours"),
    "overtime": phrase("overtime"), "spinning": phrase("spinning"), "mixing": phrase("mixing"),
    "syrup": phrase("syrup"), "late": phrase("late work"),
    "boards_long": phrase("boards on too long"), "spin_late": phrase("spun late"),
    "unsure": phrase("visits that weather may spoil"),
    "feed_early": phrase("fed early in the day"), "left": phrase("worth of the work left"),
}  # fmt: skip
"""Figures of a plan, by the name of their field."""


class Breach(NamedTuple):
    """A broken rule as its check sees it: what the plan says, what is allowed, where.

    ``ahead`` when it is about what has not begun and can still be done well, though the trip is
    driven.  ``against`` is what its user knows to stand against the stop that it is about.
    """

    said: Phrase
    allowed: Phrase
    trip: str = ""
    yard: str = ""
    ahead: bool = False
    against: tuple[Against, ...] = ()


Breaches = Iterator[Breach]


@dataclass(frozen=True, slots=True)
class Finding:
    """One rule broken in one place.

    Args:
        rule: The rule's id in plain words, such as "deck" (see ``audit.RULES``).
        trip: Id of the trip, empty where the rule is not about one trip.
        yard: Id of the yard, empty where the rule is not about one yard.
        said: What the plan says.
        allowed: What would be allowed.
        yard_name: What people call the yard, empty where the plan does not know it.
    """

    rule: str
    trip: str
    yard: str
    said: Phrase
    allowed: Phrase
    yard_name: str = field(default="", compare=False)

    def head(self) -> Phrase:
        """Return the rule, and the trip and yard it is broken at."""
        trip = phrase("trip {trip}", trip=shown(self.trip)) if self.trip else None
        yard = phrase("yard {yard}", yard=shown(self.yard_name or self.yard)) if self.yard else None
        spots = [part for part in (trip, yard) if part is not None]
        rule = Phrase(self.rule)
        return phrase("{rule} ({spot})", rule=rule, spot=joined(", ", *spots)) if spots else rule

    def sentence(self) -> Phrase:
        """Return the finding as one line for a person."""
        return phrase(
            "{head}: {said}; allowed: {allowed}",
            head=self.head(), said=self.said, allowed=self.allowed,
        )  # fmt: skip


def shown(text: str) -> str:
    """Return a user's ``text`` on one line and short enough for a message."""
    line = " ".join("".join(char if char.isprintable() else " " for char in text).split())
    return line if len(line) <= SHOWN_CHARS else line[: SHOWN_CHARS - 3] + "..."


class Named(Protocol):
    """A truck, a person or another thing of the facts that people gave a name."""

    @property
    def id(self) -> str:
        """Its id in files."""

    @property
    def name(self) -> str:
        """What people call it."""


def called(thing: Named) -> str:
    """Return what people call a thing; its id where they gave no name."""
    return shown(thing.name) or shown(thing.id)


def called_in(things: Iterable[Named], key: str) -> str:
    """Return what people call the thing with an id; the id where no such thing is known."""
    return next((called(one) for one in things if one.id == key), shown(key))


def quoted(text: str) -> str:
    """Return a user's ``text`` as ``shown`` does, in quotes."""
    return repr(shown(text))


def when(minute: int) -> Phrase:
    """Return ``minute`` of the campaign as words, such as "day 2 at 14:05"."""
    return phrase("{day} at {time}", day=on_day(day_of(minute)), time=clock(minute))


def on_day(number: int) -> Phrase:
    """Return a day of the campaign as words; a finding tells its date (``dated``)."""
    return phrase("day {number}", number=number)


def dated(words: Phrase, first: date) -> Phrase:
    """Return words with the dates of their days; ``first`` is that of day 0.

    A day beyond all calendars, as a plan made by hand may have it, keeps its number.
    """
    if words.one == "day {number}" and isinstance(number := words.parts["number"], int):
        try:
            return joined("", date_of(first, number))
        except OverflowError:
            return words
    parts = {
        name: dated(part, first) if isinstance(part, Phrase) else part
        for name, part in words.parts.items()
    }
    return Phrase(words.one, parts, words.many)


def word(text: str) -> Phrase:
    """Return a word of the plan, such as a job or a state of health."""
    return _WORDS.get(text) or verbatim(text)


def field_word(field: str) -> Phrase:
    """Return the name of a figure of the plan, such as a head of its bill."""
    return _FIELDS[field]


def figure(number: int) -> Phrase:
    """Return a number that stands by itself."""
    return joined("", number)


def listed(words: Iterable[str]) -> Phrase:
    """Return words of the plan one after the other; "none" where there are none."""
    told = [word(one) for one in words]
    return joined(", ", *told) if told else phrase("none")


def any_of(words: Iterable[str]) -> Phrase:
    """Return one or two words of the plan as what may be chosen from."""
    first, *others = (word(one) for one in words)
    return phrase("{first} or {other}", first=first, other=others[0]) if others else first
