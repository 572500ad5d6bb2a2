"""What comes off a truck where a trip ends, and what goes back into the store."""

from runplanner.daybook.trip import Aboard, Call, CallKind, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.escape import shown, shown_name
from runplanner.paperwork.speech.say import count, listed, litres, place_name
from runplanner.paperwork.speech.tongue import tr


def unload_jobs(outfit: Outfit, trip: Trip, call: Call) -> tuple[str, ...]:
    """Return what is to be done at an unloading call, in order."""
    before = trip.calls[trip.calls.index(call) - 1].after
    house, store = outfit.honey_house.base.place, outfit.feed_store.place
    jobs = []
    if call.place == house and before.boxes:
        honey = count(before.boxes, "honey box", "honey boxes")
        jobs.append(tr("Unload {boxes}, lot by lot.", boxes=honey))
    if wet := wet_home(outfit, trip, call):
        wet_words = count(wet, "wet box", "wet boxes")
        jobs.append(tr("Unload {boxes}: covered, not in with honey.", boxes=wet_words))
    if call.place == store and before.brood_boxes:
        brood = count(before.brood_boxes, "brood box", "brood boxes")
        jobs.append(tr("Unload {boxes}: not in with honey.", boxes=brood))
    if call.place == store:
        jobs.append(_put_back(coming_back(outfit, trip, before)))
    elif call == trip.calls[-1]:
        jobs += take_back(outfit, trip)
    return tuple(jobs)


def wet_home(outfit: Outfit, trip: Trip, call: Call) -> int:
    """Return the wet boxes that come off at an unloading call: all aboard, at the store."""
    before = trip.calls[trip.calls.index(call) - 1].after
    return before.wet if call.place == outfit.feed_store.place else 0


def unloads_at(trip: Trip, place: int) -> bool:
    """Tell whether ``trip`` calls at ``place`` to unload."""
    return any(call.place == place for call in trip.calls if call.kind is CallKind.UNLOAD)


def _put_back(things: str) -> str:
    if not things:
        return tr("Put back what is left; count boards, feeders and cans.")
    return tr(
        "Put back {things}, and what else is left; count boards, feeders and cans.", things=things
    )


def take_back(outfit: Outfit, trip: Trip) -> tuple[str, ...]:
    """Return what goes back to the store from a trip that ends elsewhere, in no hours planned.

    Nothing where nothing comes back and nothing was loaded that could be left.
    """
    if unloads_at(trip, outfit.feed_store.place):
        return ()
    things = coming_back(outfit, trip, trip.calls[-2].after, comb=True)
    store, loaded = place_name(outfit, outfit.feed_store.place), trip.calls[0].after
    if things:
        words = tr(
            "Back to {store}: {things}, and what else is left; count it.",
            store=store, things=things,
        )  # fmt: skip
        return (words,)
    if loaded.boards or loaded.feeders or loaded.blocks or loaded.strips:
        return (tr("Back to {store}: what is left; count it.", store=store),)
    return ()


def coming_back(outfit: Outfit, trip: Trip, aboard: Aboard, *, comb: bool = False) -> str:
    """Return what is aboard at a trip's end for the store, by count: kit, feed and containers.

    With ``comb`` brood boxes and wet boxes as well.
    """
    boxes = (
        (aboard.brood_boxes, count(aboard.brood_boxes, "brood box", "brood boxes")),
        (aboard.wet, count(aboard.wet, "wet box", "wet boxes")),
    )
    names = {kind.id: shown_name(kind.name, 24) for kind in outfit.containers}
    small = (
        (aboard.ml, litres(aboard.ml)),
        (aboard.boards, count(aboard.boards, "board", "boards")),
        (aboard.feeders, count(aboard.feeders, "feeder", "feeders")),
        (aboard.blocks, count(aboard.blocks, "block", "blocks")),
        (aboard.strips, count(aboard.strips, "strip", "strips")),
    )
    tanks = (
        (one.count, names[one.container] or shown(one.container, 24)) for one in trip.containers
    )
    return listed(
        (
            *(words for number, words in (*(boxes if comb else ()), *small) if number),
            *(f"{number} \u00d7 {name}" if number > 1 else name for number, name in tanks),
        )
    )
