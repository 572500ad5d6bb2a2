"""What a plan's people are told of counts: how litres were read, and what nobody counted."""

from runplanner.changes.counts.could_be import as_could_be
from runplanner.changes.counts.driven import with_calls
from runplanner.changes.draft import Draft
from runplanner.changes.said.count_words import Counts
from runplanner.changes.said.shared_out import planned_sum
from runplanner.changes.said.stop_done import counted_calls, held_up
from runplanner.daybook.trip import Call, Job, Trip
from runplanner.outfit.yards import Yard
from runplanner.phrase import Number, phrase


def said_if_held_up(
    draft: Draft, yard: Yard, here: list[Call], counts: Counts, shared: list[dict[str, int]]
) -> Draft:
    """Note that syrup or strips which nobody counted are held up by honey still on.

    Args:
        draft: The campaign.
        yard: The yard.
        here: A trip's calls there, in order.
        counts: What was told of them together.
        shared: What of it belongs to each.
    """
    for call, short in zip(here, held_up(yard, here, shared), strict=True):
        planned = {action.job for action in call.actions}
        feed = Job.FEED in planned and not {"ml", "fed"} & counts.keys()
        strips = Job.STRIPS in planned and "strips" not in counts
        if short and (feed or strips):
            words = phrase(
                "{name}: fewer colonies off than planned, so syrup and strips that were not "
                "counted are taken as not given; count litres and strips too where they were",
                name=yard.name,
            )
            return draft.noted(words)
    return draft


def said_how_fed(
    draft: Draft, trip: Trip, yard: Yard, here: list[Call], shared: list[dict[str, int]]
) -> Draft:
    """Note how litres were read that are not those planned, as far as so many could be fed.

    Args:
        draft: The campaign, the trip not counted yet.
        trip: The trip.
        yard: The yard.
        here: The trip's calls there, in order.
        shared: What was counted at each.
    """
    feeds = {
        at: one
        for at, (call, mine) in enumerate(zip(here, shared, strict=True))
        for one in call.actions
        if one.job is Job.FEED and one.ml >= one.colonies > 0
        if mine.get("ml") and "fed" not in mine
    }
    if not feeds:
        return draft
    fed_at = _could_feed(draft, trip, yard, shared)
    all_fed = [
        {**mine, "fed": feeds[at].colonies} if at in feeds else mine
        for at, mine in enumerate(shared)
    ]
    most_at = _could_feed(draft, trip, yard, all_fed)
    for at, planned in feeds.items():
        fed, most, ml = fed_at[at], most_at[at], shared[at]["ml"]
        litres = Number(f"{ml / 1000:g}")
        read = phrase(
            "{name}: {litres} litres are read as {fed} of {all} colonies fed, at {each} "
            "litres each",
            name=yard.name,
            litres=litres,
            fed=fed,
            all=planned.colonies,
            each=Number(f"{planned.ml // planned.colonies / 1000:g}"),
        )
        if most < planned.colonies:
            words = phrase("{read}; no more than {most} could be", read=read, most=most)
            draft = draft.noted(words)
        elif fed != planned.colonies:
            words = phrase(
                "{read}; write '{all} fed' where all were", read=read, all=planned.colonies
            )
            draft = draft.noted(words)
        elif ml < planned.ml:
            words = phrase(
                "{name}: {litres} litres are near enough to the {due} planned: all {all} "
                "colonies count as fed",
                name=yard.name,
                litres=litres,
                due=Number(f"{planned.ml / 1000:g}"),
                all=planned.colonies,
            )
            draft = draft.noted(words)
    return draft


def _could_feed(draft: Draft, trip: Trip, yard: Yard, shared: list[dict[str, int]]) -> list[int]:
    """Return how many colonies each call of a trip at a yard could feed, by such counts."""
    calls = counted_calls(draft.outfit, trip, yard, shared, draft.now_min)
    told = with_calls(draft, trip, calls)
    new = as_could_be(told, yard).driven_trip(trip.id)
    return [
        planned_sum(call, Job.FEED, lambda one: one.colonies) or 0
        for call in new.calls
        if call.yard == yard.id
    ]
