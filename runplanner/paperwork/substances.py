"""Which strips go where, in words; said beside each lot only where yards get different ones."""

from collections.abc import Iterable

from runplanner.daybook.trip import Call, Job, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Strips
from runplanner.paperwork.escape import shown_name
from runplanner.paperwork.say import count, listed
from runplanner.paperwork.tongue import said
from runplanner.trade.strips import in_words, treatment

NAME_MOST = 32


def kind_at(outfit: Outfit, yard_id: str) -> Strips:
    """Return the kind of strips that goes into a yard."""
    return outfit.strips_at(outfit.yard(yard_id))


def called(substance: str, most: int = NAME_MOST) -> str:
    """Return an active substance in the language spoken, fit for a page."""
    return shown_name(said(in_words(substance)), most)


def substance_at(outfit: Outfit, yard_id: str) -> str:
    """Return the active substance for a yard, fit for a page."""
    return called(kind_at(outfit, yard_id).substance)


def corrosive(kind: Strips) -> bool:
    """Tell whether a kind burns skin and eyes, as far as its substance is known."""
    known = treatment(kind.substance)
    return known is not None and known.corrosive


def several(outfit: Outfit) -> bool:
    """Tell whether yards get strips of different substances."""
    return len({outfit.strips_at(yard).substance for yard in outfit.yards}) > 1


def given(call: Call) -> int:
    """Return the strips that go in at a call."""
    return sum(action.pieces for action in call.actions if action.job is Job.STRIPS)


def by_substance(outfit: Outfit, lots: Iterable[tuple[str, int]]) -> dict[str, int]:
    """Return the strips of each substance from ``(yard id, pieces)``, the first met first."""
    found: dict[str, int] = {}
    for yard_id, pieces in lots:
        if pieces:
            substance = substance_at(outfit, yard_id)
            found[substance] = found.get(substance, 0) + pieces
    return found


def strips_words(outfit: Outfit, trip: Trip) -> str:
    """Return the strips a trip carries: "20 strips", or each substance by itself."""
    aboard = by_substance(outfit, ((call.yard, given(call)) for call in trip.yards()))
    if not several(outfit):
        return count(sum(aboard.values()), "strip", "strips") if aboard else ""
    return listed(tuple(strips_of(number, substance) for substance, number in aboard.items()))


def strips_of(number: int, substance: str) -> str:
    """Return so many strips with their substance: "20 strips (thymol)"."""
    strips = count(number, "strip", "strips")
    return f"{strips} ({substance})"
