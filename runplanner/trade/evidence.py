"""How well a number is known, and where it comes from."""

from dataclasses import dataclass
from enum import StrEnum


class Evidence(StrEnum):
    """Class of evidence, best first."""

    OFFICIAL = "A"
    PUBLISHED = "B"
    PRACTICE = "C"
    MEMORY = "M"
    DERIVED = "D"

    def words(self) -> str:
        """Return the class in words for a reader."""
        return _WORDS[self]


_WORDS = {
    Evidence.OFFICIAL: "official text, standard or handbook table",
    Evidence.PUBLISHED: "published by an association, school, journal or the trade",
    Evidence.PRACTICE: "common practice, no source found",
    Evidence.MEMORY: "from memory, not found in a source",
    Evidence.DERIVED: "worked out from published values",
}


@dataclass(frozen=True, slots=True)
class Cited:
    """A class of evidence with its source in words."""

    evidence: Evidence
    source: str

    def words(self) -> str:
        """Return class and source as one line."""
        return f"{self.source} [{self.evidence.value}: {self.evidence.words()}]"
