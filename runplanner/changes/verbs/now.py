"""The line that tells what time it is."""

from dataclasses import replace

from runplanner.changes.draft import Draft
from runplanner.changes.said.line import Line
from runplanner.changes.said.when import moment
from runplanner.phrase import phrase
from runplanner.scenario.faults import Refusal


def now(line: Line, draft: Draft) -> Draft:
    """Set the time it is; it never goes back before the time of the plan."""
    said = line.rest()
    at = moment(line, draft)
    if at < draft.plan.now_min:
        raise Refusal(
            phrase("a time not before the plan's own"), phrase("The plan was made later than that.")
        )
    return replace(draft.once("now", at, f"now {said}"), now_min=at)
