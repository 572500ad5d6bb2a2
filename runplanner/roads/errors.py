"""What can go wrong with roads, in the three parts of a fault."""

from runplanner.errors import RunplannerError
from runplanner.phrase import Phrase, joined, phrase


class RoadsError(RunplannerError):
    """A road file or matrix service cannot be used.

    The gate, which knows the file and the key, makes a fault of it.
    """

    def __init__(self, said: Phrase, allowed: Phrase, cure: Phrase) -> None:
        self.said = said
        self.allowed = allowed
        self.cure = cure
        super().__init__(
            phrase(
                "said {typed}; allowed: {allowed}. {cure}",
                typed=joined("", "'", said, "'"), allowed=allowed, cure=cure,
            )
        )  # fmt: skip


def missing(library: str) -> RoadsError:
    """Return the error for an optional library that is not installed."""
    return RoadsError(
        phrase("{library} is not installed", library=library),
        phrase("what needs no {library}", library=library),
        phrase("Install it with: {command}.", command='pip install "runplanner[roads]"'),
    )
