"""Syrup beside honey in papers."""

import math
from collections.abc import Iterator

from runplanner.daybook.honey_on import HoneyOn, honey_on
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.days import day_of
from runplanner.paperwork.speech.say import count, date_words, yard_named
from runplanner.paperwork.speech.tongue import tr
from runplanner.paperwork.stop.events import actions_at


def is_off(plan: Plan, one: HoneyOn, by_min: float = math.inf) -> bool:
    """Tell whether all of that honey is taken off by visits begun before ``by_min``."""
    taken = (
        action.colonies
        for stop, action in actions_at(plan, one.yard, Job.TAKE_OFF)
        if one.since_min < stop.call.start_min < by_min
    )
    return sum(taken) >= one.colonies


def syrup_told(plan: Plan) -> Iterator[str]:
    """Yield a sentence for each yard whose honey is on still, with syrup in the yard."""
    for one in honey_on(plan, Job.FEED).values():
        if not is_off(plan, one, plan.now_min):
            yield tr(
                "{yard}: syrup went in on {date} with honey on {colonies}. Bees may rob, and may "
                "carry syrup into that honey: take it off soon, and taste it before you spin.",
                yard=yard_named(plan.outfit, one.yard),
                date=date_words(plan.outfit, day_of(one.since_min)),
                colonies=count(one.colonies, "colony", "colonies"),
            )
