"""How well a number is known, and where it comes from."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from runplanner.phrase import Phrase, joined, phrase


class Evidence(StrEnum):
    """Class of evidence, best first."""

    OFFICIAL = "A"
    PUBLISHED = "B"
    PRACTICE = "C"
    MEMORY = "M"
    DERIVED = "D"

    def words(self) -> Phrase:
        """Return the class in words for a reader."""
        return _WORDS[self]


_WORDS: Mapping[Evidence, Phrase] = {
    Evidence.OFFICIAL: phrase("official text, standard or handbook table"),
    Evidence.PUBLISHED: phrase("published by an association, school, journal or the trade"),
    Evidence.PRACTICE: phrase("common practice, no source found"),
    Evidence.MEMORY: phrase("from memory, not found in a source"),
    Evidence.DERIVED: phrase("worked out from published values"),
}


@dataclass(frozen=True, slots=True)
class Cited:
    """A class of evidence with its source in words, which are words of the catalogue."""

    evidence: Evidence
    source: str

    def words(self) -> Phrase:
        """Return class and source as one line."""
        source = self.source if isinstance(self.source, Phrase) else Phrase(self.source)
        return joined("", source, f" [{self.evidence.value}: ", self.evidence.words(), "]")
