"""Lines on where yards are: one that moves, and one that nobody knew of."""

from runplanner.changes import sites
from runplanner.changes.draft import Draft
from runplanner.changes.said.line import Line
from runplanner.changes.said.names import a_yard


def move(line: Line, draft: Draft) -> Draft:
    """Move a yard to another place on a day."""
    yard = a_yard(line, draft, draft.outfit.yards)
    line.take("to")
    return sites.moved(draft, yard, line)


def new_yard(line: Line, draft: Draft) -> Draft:
    """Put in a yard that nobody knew of."""
    return sites.new_yard(draft, line, lambda rest: a_yard(rest, draft, draft.outfit.yards))
