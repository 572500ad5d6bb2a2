"""What can go wrong, as values a caller can tell apart.

A *fault* is something wrong in a file a person typed; a scenario is refused with all of
its faults at once.  A *finding* (see the audit) is a rule a plan breaks; that is a value,
not an exception.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong in one field of one file.

    Args:
        file: File name as the user knows it.
        where: Row ("row 7, Mill Lane") or table ("trucks.blue"); may be empty.
        field: Column or key.
        said: What stood there, as typed.
        allowed: What may stand there.
        cure: What to do about it.
    """

    file: str
    where: str
    field: str
    said: str
    allowed: str
    cure: str

    def sentence(self) -> str:
        """Return the fault as one line for a person."""
        spot = ", ".join(part for part in (self.file, self.where, self.field) if part)
        said = self.said if len(self.said) <= 60 else self.said[:57] + "..."
        # What cannot be printed stands there spelt out already: one backslash is enough.
        typed = repr(said).replace("\\\\", "\\")
        return f"{spot}: said {typed}; allowed: {self.allowed}. {self.cure}"


class RunplannerError(Exception):
    """Base of every error a user may see; its text is fit to print."""


class ScenarioError(RunplannerError):
    """A scenario or plan file cannot be used; carries every fault found."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        self.faults = faults
        count = len(faults)
        head = f"{count} fault{'s' if count != 1 else ''} found; nothing was written."
        super().__init__("\n".join([head, *(f"  - {fault.sentence()}" for fault in faults)]))


class PlanError(RunplannerError):
    """No plan that passes the audit could be made; says why."""
