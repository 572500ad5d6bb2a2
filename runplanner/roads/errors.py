"""What can go wrong with roads, in the three parts of a fault."""

from runplanner.errors import RunplannerError


class RoadsError(RunplannerError):
    """A road file or matrix service cannot be used.

    The gate, which knows the file and the key, makes a fault of it.
    """

    def __init__(self, said: str, allowed: str, cure: str) -> None:
        self.said = said
        self.allowed = allowed
        self.cure = cure
        super().__init__(f"said {said!r}; allowed: {allowed}. {cure}")


def missing(library: str) -> RoadsError:
    """Return the error for an optional library that is not installed."""
    cure = 'Install it with: pip install "runplanner[roads]".'
    return RoadsError(f"{library} is not installed", f"what needs no {library}", cure)
