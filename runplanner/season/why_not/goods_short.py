"""More of what is short, as reliefs: as much as all that is left wants."""

from collections.abc import Callable, Iterator

from runplanner.daybook.plan import Undone
from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import Phrase, counted, phrase
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.season.stock import (
    blocks_wanted,
    strips_short,
    sugar_short_g,
    syrup,
    syrup_short_ml,
)
from runplanner.season.what_if import (
    Ease,
    more_blocks,
    more_feeders,
    more_strips,
    more_sugar,
    more_syrup,
)
from runplanner.season.why_not.further_blocks import further_blocks
from runplanner.trade.strips import in_words


def more_feeders_for(outfit: Outfit, left: list[Undone]) -> list[tuple[Phrase, Ease]]:
    """Return the relief of a feeder for each colony left unfed, where feeders go round."""
    more = sum(one.colonies for one in left if one.job is Job.FEED)
    if outfit.kit.feeders_owned is None or not more:
        return []
    what = counted("one more feeder", "{number} more feeders", more)
    return [(what, more_feeders(more))]


def more_feed_for(keeper: Keeper, state: State) -> list[tuple[Phrase, Ease]]:
    """Return the relief of the syrup, or the sugar, that is short of all that is left unfed."""
    sums, feed = syrup(keeper, state), keeper.ground.outfit.feed
    litres = -(-syrup_short_ml(feed, sums.due) // 1000)
    if litres:
        return [(phrase("{litres} L more syrup", litres=litres), more_syrup(1000 * litres))]
    kg = -(-sugar_short_g(feed, sums.due) // 1000)
    return [(phrase("{kg} kg more sugar", kg=kg), more_sugar(1000 * kg))] if kg else []


def more_strips_for(
    keeper: Keeper, state: State, left: list[Undone]
) -> Iterator[tuple[Phrase, Ease]]:
    """Yield the relief of the strips, by substance, that what is left lacks."""
    for substance, more in strips_short(keeper, state, left):
        what = counted(
            "one more strip of {substance}", "{number} more strips of {substance}", more,
            substance=in_words(substance),
        )  # fmt: skip
        yield what, more_strips(substance, more)


def more_blocks_for(
    keeper: Keeper, state: State, left: list[Undone], seed: int, in_time: Callable[[], None]
) -> list[tuple[Phrase, Ease]]:
    """Return the relief of the blocks short for colonies that run out and those left on."""
    running_out, _ = further_blocks(keeper, state, range(len(state.visits)), seed, in_time)
    more = running_out + blocks_wanted(keeper, left) - keeper.stores.blocks_left(state.days)
    what = counted("one more fondant block", "{number} more fondant blocks", more)
    return [(what, more_blocks(more))] if more > 0 else []
