"""Limits of a truck that is told to go otherwise: how long its day is, and whom it sees last."""

from collections.abc import Sequence
from typing import Final

from runplanner.changes.draft import Draft
from runplanner.changes.road.against import out_of_order
from runplanner.daybook.trip import Call, Shift
from runplanner.days import DAY_MIN, clock
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import phrase
from runplanner.scenario.faults import Refusal

_SHORTER: Final = phrase("Leave out a stop, or call the truck home.")


def see_day(outfit: Outfit, shift: Shift, before: Shift) -> None:
    """See that a truck's day is no longer than may be, or than it was ``before``.

    Raises:
        Refusal: When it ends later, or drives longer.
    """
    hours = outfit.hours
    most = min(shift.day * DAY_MIN + hours.end_min, shift.start_min + hours.duty_max_min)
    if shift.end_min > max(most, before.end_min):
        said = phrase(
            "a day that ends by {most}, not at {end}", most=clock(most), end=clock(shift.end_min)
        )
        raise Refusal(said, _SHORTER)
    if shift.driving_min > max(hours.driving_max_min, before.driving_min):
        said = phrase(
            "a day with at most {most} min of driving, not {driving}",
            most=hours.driving_max_min,
            driving=shift.driving_min,
        )
        raise Refusal(said, _SHORTER)


def see_health_order(draft: Draft, rest: Sequence[Call]) -> None:
    """See that a yard that is not sound comes last.

    Raises:
        Refusal: When others come after it.
    """
    for call in out_of_order(draft.outfit, rest):
        said = phrase("{where} last, for it is not sound", where=draft.outfit.yard(call.yard).name)
        raise Refusal(said, phrase("Another order, or leave it out."))
