"""What a day's papers say of the way to a honey house or feed store far from home."""

from collections.abc import Iterator

from runplanner.daybook.plan import Plan
from runplanner.days import day_of
from runplanner.haulage.own_way import own_way_min
from runplanner.paperwork.speech.say import duration
from runplanner.paperwork.speech.tongue import tr


def own_ways(plan: Plan, day: int) -> Iterator[str]:
    """Yield, for each base at which people work on ``day``, how far it is where that is far."""
    outfit = plan.outfit
    house = own_way_min(outfit, outfit.honey_house.base)
    if house and any(day_of(spin.start_min) == day for spin in plan.spinning):
        yield tr(
            "The honey house is {way} by road from home: the way is not in these hours.",
            way=duration(house),
        )
    store = own_way_min(outfit, outfit.feed_store)
    if store and any(day_of(mix.start_min) == day for mix in plan.mixing):
        yield tr(
            "The feed store is {way} by road from home: the way is not in these hours.",
            way=duration(store),
        )
