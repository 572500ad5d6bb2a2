"""Cost, gap and undone work in words, the same on the screen and on the office's pages."""

from runplanner.daybook.plan import Bound, Tally
from runplanner.paperwork.say import count, kg_up

HEADS = {
    "km": "kilometres",
    "days": "truck days",
    "crew": "crew hours",
    "overtime": "overtime",
    "spinning": "spinning",
    "mixing": "mixing",
    "blocks": "fondant blocks",
    "syrup": "syrup",
    "strips": "strips",
    "late": "late work",
    "boards_long": "boards on too long",
    "spin_late": "spun late",
    "unsure": "visits that weather may spoil",
}


def tally_words(tally: Tally) -> str:
    """Return what is undone in one sentence."""
    parts = (
        (tally.uncovered, count(tally.uncovered, "colony-day") + " without cover"),
        (tally.no_strips, count(tally.no_strips, "colony", "colonies") + " without strips in time"),
        (tally.unfed_g, f"{kg_up(tally.unfed_g):,} kg of stores not fed"),
        (tally.not_off, count(tally.not_off, "colony", "colonies") + " with honey still on"),
    )
    return ", ".join(words for number, words in parts if number) or "nothing"


def gap_permille(total: int, bound: Bound, *, steerable: bool) -> int | None:
    """Return how far the cost may be from the least, per mille; None without a base."""
    base = total - bound.fixed_cents if steerable else total
    if base <= 0:
        return None
    return -(-max(0, total - bound.cents) * 1000 // base)


def gap_words(total: int, bound: Bound, *, steerable: bool) -> str:
    """Return the gap as a percentage with one place, rounded up; nought without a base."""
    permille = gap_permille(total, bound, steerable=steerable) or 0
    return f"{permille // 10}.{permille % 10} %"
