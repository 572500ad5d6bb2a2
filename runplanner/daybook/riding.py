"""What a driven trip has aboard for no stop, and what of it was found brought over to the store.

Of boards its loading call tells what it left with.
"""

from collections import Counter
from collections.abc import Iterable, Mapping
from typing import Final

from runplanner.daybook.trip import Action, CallKind, Job, Shift, Trip
from runplanner.days import NEVER
from runplanner.outfit.outfit import Outfit

BLOCKS: Final = "blocks"
BOARDS: Final = "boards"
FEEDERS: Final = "feeders"
SYRUP: Final = "syrup"


def strips_of(substance: str) -> str:
    """Return what the stock of a substance is called."""
    return f"strips {substance}"


def unused(outfit: Outfit, trip: Trip) -> Mapping[str, int]:
    """Return what a trip that has loaded has aboard for no stop: pieces, syrup in ml, by stock.

    It is what stops did not get that were to, and what it left with for stops left out since.
    """
    found, used = Counter[str](), Counter[str]()
    for call in trip.yards():
        found.update(takes(outfit, call.yard, call.planned or call.actions))
        used.update(takes(outfit, call.yard, call.actions))
    for spare in trip.left_strips:
        found[strips_of(spare.substance)] += spare.pieces
    if (left := trip.left) is not None:
        for what, number in ((BLOCKS, left.blocks), (FEEDERS, left.feeders), (SYRUP, left.ml)):
            found[what] = max(found[what], number)
    return found - used


def takes(outfit: Outfit, yard: str, actions: tuple[Action, ...]) -> Counter[str]:
    """Return what a yard's jobs take out of the load."""
    found = Counter[str]()
    for one in actions:
        found[SYRUP] += one.ml
        found[FEEDERS] += one.feeders
        if one.job is Job.BLOCK:
            found[BLOCKS] += one.pieces
        elif one.job is Job.STRIPS:
            found[strips_of(outfit.strips_at(outfit.yard(yard)).substance)] += one.pieces
    return found


def comes_home(outfit: Outfit, trip: Trip, what: str) -> int:
    """Return how much of a stock a trip that has loaded has aboard at its end."""
    if what == BOARDS:
        return next(
            call.after.boards for call in reversed(trip.calls) if call.kind is not CallKind.UNLOAD
        )
    fetched = sum(one.feeders_off for call in trip.yards() for one in call.actions)
    return unused(outfit, trip).get(what, 0) + (fetched if what == FEEDERS else 0)


def brought_over(outfit: Outfit, trip: Trip, what: str, minute: int) -> int:
    """Return how much of that was found in store by a minute, brought over by hand."""
    found = sum(one.number for one in trip.brought if one.what == what and one.minute <= minute)
    return min(found, max(0, comes_home(outfit, trip, what)))


def aboard(outfit: Outfit, trip: Trip, what: str, minute: int) -> int:
    """Return how much of a stock a trip that is over has aboard at a minute, unless in store."""
    return comes_home(outfit, trip, what) - brought_over(outfit, trip, what, minute)


def not_back(outfit: Outfit, trip: Trip, what: str, minute: int) -> int:
    """Return how much of what its stops did not use is not in store by a minute before it is home.

    Below 0 where what it fetched was brought over as well.
    """
    return unused(outfit, trip).get(what, 0) - brought_over(outfit, trip, what, minute)


def in_store_min(driven: Iterable[Shift], store: int) -> Mapping[str, int]:
    """Return when what each trip of driven shifts has left is in store, by the trip's id.

    At its end if that is the store, at a place by its number, else when its truck next loads, or
    ``NEVER``.
    """
    found, riding = dict[str, int](), dict[str, str]()
    for shift in driven:
        for trip in shift.trips:
            first, last = trip.calls[0], trip.calls[-1]
            if shift.truck in riding:
                found[riding.pop(shift.truck)] = first.start_min
            found[trip.id] = last.end_min
            if last.place != store:
                found[trip.id], riding[shift.truck] = NEVER, trip.id
    return found
