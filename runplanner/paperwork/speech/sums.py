"""Cost, gap and undone work in words, the same on the screen and on the office's pages."""

from typing import Final

from runplanner.daybook.plan import Bound, Search, Tally
from runplanner.paperwork.speech.say import count, kg_up
from runplanner.paperwork.speech.tongue import decimal_sign, mark, tr

HEADS: Final = {
    "km": mark("kilometres"),
    "days": mark("truck days"),
    "crew": mark("crew hours"),
    "overtime": mark("overtime"),
    "spinning": mark("spinning"),
    "mixing": mark("mixing"),
    "blocks": mark("fondant blocks"),
    "syrup": mark("syrup"),
    "strips": mark("strips"),
    "late": mark("late work"),
    "boards_long": mark("boards on too long"),
    "spin_late": mark("spun late"),
    "unsure": mark("visits that weather may spoil"),
    "feed_early": mark("fed early in the day"),
    "left": mark("worth of the work left"),
}


def tally_words(tally: Tally) -> str:
    """Return what is undone in one sentence."""
    days = count(tally.uncovered, "colony-day", "colony-days")
    bare = count(tally.no_strips, "colony", "colonies")
    full = count(tally.not_off, "colony", "colonies")
    kg = kg_up(tally.unfed_g)
    parts = (
        (tally.uncovered, tr("{days} without cover", days=days)),
        (tally.no_strips, tr("{colonies} without strips in time", colonies=bare)),
        (tally.unfed_g, tr("{mass} kg of stores not fed", mass=kg)),
        (tally.not_off, tr("{colonies} with honey still on", colonies=full)),
    )
    return ", ".join(words for number, words in parts if number) or tr("nothing")


def lost_words(search: Search) -> str:
    """Return what it means that a search came to grief; "" where none did."""
    if not search.lost:
        return ""
    return tr(
        "{lost} of {all} searches came to grief, so this plan may be dearer than another run's, "
        "and will hardly come out the same again: plan again, with memory to spare",
        lost=search.lost, all=search.lost + search.searches,
    )  # fmt: skip


def gap_permille(total: int, bound: Bound, *, steerable: bool) -> int | None:
    """Return how far the cost may be from the least, per mille; None without a base."""
    base = total - bound.fixed_cents if steerable else total
    if base <= 0:
        return None
    return -(-max(0, total - bound.cents) * 1000 // base)


def gap_words(total: int, bound: Bound, *, steerable: bool) -> str:
    """Return the gap as a percentage with one place, rounded up; nought without a base."""
    permille = gap_permille(total, bound, steerable=steerable) or 0
    return f"{permille // 10}{decimal_sign()}{permille % 10} %"
