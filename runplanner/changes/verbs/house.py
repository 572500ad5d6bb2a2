"""Lines on the honey house: when it is stopped or full, and what may be spun after all."""

from runplanner.changes.counts import honey_house
from runplanner.changes.draft import Draft
from runplanner.changes.said.line import Line
from runplanner.changes.said.names import a_yard
from runplanner.changes.said.when import when_or_now


def house_stopped(line: Line, draft: Draft) -> Draft:
    """Nothing is spun in these hours."""
    return honey_house.stopped(draft, when_or_now(line, draft))


def house_full(line: Line, draft: Draft) -> Draft:
    """The honey house takes no deliveries in these hours."""
    return honey_house.full(draft, when_or_now(line, draft))


def spin(line: Line, draft: Draft) -> Draft:
    """A yard's boxes that strips were beside may be spun after all."""
    return honey_house.freed(draft, a_yard(line, draft, draft.outfit.yards))
