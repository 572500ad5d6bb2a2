"""One line of the check table: our number beside a published one."""

from dataclasses import dataclass
from typing import Final

from runplanner.phrase import Phrase
from runplanner.trade.evidence import Evidence

SEEN: Final = (Evidence.OFFICIAL, Evidence.PUBLISHED)
"""Classes of evidence whose words or numbers were seen."""


@dataclass(frozen=True, slots=True)
class CheckRow:
    """A quantity as this program has it and as it was published.

    Args:
        part: Heading it stands under.
        quantity: What is compared.
        ours: Our number, from the code the program runs on.
        published: The published number, as typed from the source.
        unit: Unit of both.
        tolerance: Difference that is allowed, in that unit.
        evidence: Class of the published number.
        source: Where it was published.
        stated: Ours is a default set down from the same kind of source, not worked out.
    """

    part: Phrase
    quantity: Phrase
    ours: float
    published: float
    unit: str
    tolerance: float
    evidence: Evidence
    source: str
    stated: bool = False

    def difference(self) -> float:
        """Return ours less published."""
        return self.ours - self.published

    def ok(self) -> bool:
        """Return whether the difference is within the tolerance."""
        return abs(self.difference()) <= self.tolerance + 1e-9

    def seen(self) -> bool:
        """Return whether the published number was seen (class A or B)."""
        return self.evidence in SEEN


@dataclass(frozen=True, slots=True)
class Trap:
    """A number that stands in print and is wrong; kept so that nobody brings it back.

    ``right`` is what holds; ``why`` says how it is known.
    """

    quantity: Phrase
    printed: float
    right: float
    unit: str
    source: str
    why: Phrase
