"""Which strips go where, in words; said beside each lot where yards get different ones, or burn."""

from collections import Counter
from collections.abc import Iterable

from runplanner.daybook.trip import Action, Call, Job, Trip
from runplanner.outfit.once import once
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Strips
from runplanner.paperwork.escape import shown_name
from runplanner.paperwork.speech.say import count, degrees, listed
from runplanner.paperwork.speech.tongue import mark, said, tr
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


def corrosive(outfit: Outfit, substance: str) -> bool:
    """Tell whether strips of a substance burn skin and eyes, as far as that is known.

    Where the substance itself is not known, "", any that some yard gets may do.
    """
    found = map(treatment, (substance,) if substance else _substances(outfit))
    return any(known is not None and known.corrosive for known in found)


def off_feeder(kind: Strips) -> bool:
    """Tell whether strips of a kind go in away from a feeder, as far as that is known."""
    known = treatment(kind.substance)
    return known is not None and known.off_feeder


@once
def _substances(outfit: Outfit) -> tuple[str, ...]:
    """Return the active substances that yards get, the first yard's first."""
    return tuple(dict.fromkeys(outfit.strips_at(yard).substance for yard in outfit.yards))


def names_substance(outfit: Outfit) -> bool:
    """Tell whether strips are told with their substance: yards get different ones, or one burns."""
    return len(_substances(outfit)) > 1 or corrosive(outfit, "")


def given(call: Call) -> int:
    """Return the strips that go in at a call."""
    return _pieces(call.actions)


def _pieces(actions: Iterable[Action]) -> int:
    return sum(action.pieces for action in actions if action.job is Job.STRIPS)


def kinds_in(outfit: Outfit, trip: Trip) -> list[Strips]:
    """Return the kinds of strips that a trip puts in, in the order of its stops."""
    return list(dict.fromkeys(kind_at(outfit, call.yard) for call in trip.yards() if given(call)))


def strips_spare(trip: Trip) -> int:
    """Return the strips that a trip under way has aboard for no stop."""
    return max(0, trip.calls[0].after.strips - sum(map(given, trip.yards())))


def _spare(outfit: Outfit, trip: Trip) -> dict[str, int]:
    """Return those strips by active substance; "" where yards get several and none is told.

    They were for stops left out, or are what stops leave of those that were for them.
    """
    spare, found = strips_spare(trip), Counter[str]()
    for one in trip.left_strips:
        found[one.substance] += one.pieces
    for call in trip.yards():
        unused = _pieces(call.planned or call.actions) - given(call)
        found[kind_at(outfit, call.yard).substance] += unused
    known, kinds = +found if spare else Counter[str](), _substances(outfit)
    known[kinds[0] if len(kinds) == 1 else ""] += max(0, spare - known.total())
    return +known


def spare_words(outfit: Outfit, trip: Trip) -> dict[str, str]:
    """Return those strips in words, "20 strips (thymol) for no stop", by active substance."""
    return {
        substance: tr("{strips} for no stop", strips=strips_named(outfit, number, substance))
        for substance, number in _spare(outfit, trip).items()
    }


def burns(outfit: Outfit, trip: Trip) -> bool:
    """Tell whether strips aboard may burn."""
    used = [kind.substance for kind in kinds_in(outfit, trip)]
    return any(corrosive(outfit, substance) for substance in (*used, *_spare(outfit, trip)))


def _air(kind: Strips) -> tuple[str, str, bool] | None:
    """Return the coldest and hottest air in degC a kind may be in, and if that is a day's mean.

    What a scenario says counts, and is marked as its own figure; else it is as published.  One
    of both is empty where it is not known; None where neither is.
    """
    known = treatment(kind.substance)
    low = _figure(kind.coldest_dc, known.low_c if known else None)
    high = _figure(kind.hottest_dc, known.high_c if known else None)
    return (low, high, known is not None and known.on_the_mean) if low or high else None


def _figure(typed_dc: int | None, published_c: float | None) -> str:
    if typed_dc is not None:
        return tr("{degrees} (own figure)", degrees=degrees(typed_dc))
    return "" if published_c is None else degrees(round(10 * published_c))


def air_words(kind: Strips) -> str:
    """Return in which air strips of a kind may be in; empty where nothing is known."""
    return _air_words(
        kind,
        mark("Air from {low} to {high} \u00b0C while they are in."),
        mark("Days above {low} \u00b0C in the mean, all below {high} \u00b0C."),
        mark("Air of {low} \u00b0C and more while they are in."),
        mark("No air above {high} \u00b0C while they are in."),
    )


def air_in_short(kind: Strips) -> str:
    """Return the same for a phone, with the substance; empty where nothing is known."""
    words = _air_words(
        kind,
        mark("air {low} to {high} C while in"),
        mark("mean above {low} C, all below {high} C"),
        mark("air {low} C and more while in"),
        mark("no air above {high} C while in"),
    )
    return f"{called(kind.substance)}: {words}" if words else ""


def _air_words(kind: Strips, both: str, mean: str, least: str, most: str) -> str:
    limits = _air(kind)
    if limits is None:
        return ""
    low, high, on_the_mean = limits
    if not low:
        return tr(most, high=high)
    if not high:
        return tr(least, low=low)
    return tr(mean if on_the_mean else both, low=low, high=high)


def by_substance(outfit: Outfit, lots: Iterable[tuple[str, int]]) -> dict[str, int]:
    """Return the strips of each substance from ``(yard id, pieces)``, the first met first."""
    found: dict[str, int] = {}
    for yard_id, pieces in lots:
        if pieces:
            substance = substance_at(outfit, yard_id)
            found[substance] = found.get(substance, 0) + pieces
    return found


def strips_words(outfit: Outfit, trip: Trip) -> str:
    """Return the strips a trip carries: "20 strips", or each substance and those for no stop."""
    if not names_substance(outfit):
        number = trip.calls[0].after.strips
        return count(number, "strip", "strips") if number else ""
    aboard = by_substance(outfit, ((call.yard, given(call)) for call in trip.yards()))
    named = (strips_of(number, substance) for substance, number in aboard.items())
    return listed((*named, *spare_words(outfit, trip).values()))


def strips_named(outfit: Outfit, number: int, substance: str) -> str:
    """Return so many strips, with their substance where that is told and known."""
    if substance and names_substance(outfit):
        return strips_of(number, called(substance))
    return count(number, "strip", "strips")


def strips_of(number: int, substance: str) -> str:
    """Return so many strips with their substance: "20 strips (thymol)"."""
    strips = count(number, "strip", "strips")
    return f"{strips} ({substance})"
