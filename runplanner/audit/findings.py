"""What the audit says: one finding for each place where a rule is broken."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from runplanner.days import clock, day_of

SHOWN_CHARS = 60


class Breach(NamedTuple):
    """A broken rule as its check sees it: what the plan says, what is allowed, where."""

    said: str
    allowed: str
    trip: str = ""
    yard: str = ""


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
    """

    rule: str
    trip: str
    yard: str
    said: str
    allowed: str

    def sentence(self) -> str:
        """Return the finding as one line for a person."""
        trip = f"trip {shown(self.trip)}" if self.trip else ""
        yard = f"yard {shown(self.yard)}" if self.yard else ""
        spot = ", ".join(part for part in (trip, yard) if part)
        head = f"{self.rule} ({spot})" if spot else self.rule
        return f"{head}: {self.said}; allowed: {self.allowed}"


def shown(text: str) -> str:
    """Return a user's ``text`` on one line and short enough for a message."""
    line = " ".join("".join(char if char.isprintable() else " " for char in text).split())
    return line if len(line) <= SHOWN_CHARS else line[: SHOWN_CHARS - 3] + "..."


def when(minute: int) -> str:
    """Return ``minute`` of the campaign as words, such as "day 2 at 14:05"."""
    return f"day {day_of(minute)} at {clock(minute)}"
