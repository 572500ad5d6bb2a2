"""The check table: our numbers beside published ones, and the traps that stand in print.

Ours come from the code the program runs on, published ones are typed from their source.
"""

from runplanner.trade import checks_feed, checks_honey, checks_road, checks_syrup
from runplanner.trade.check_row import CheckRow, Trap


def check_table() -> tuple[CheckRow, ...]:
    """Return every row: first those whose published number was seen (A, B), then the rest."""
    parts = (checks_syrup, checks_honey, checks_feed, checks_road)
    every = tuple(row for part in parts for row in part.rows())
    return (
        *(row for row in every if row.seen()),
        *(row for row in every if not row.seen()),
    )


def trap_table() -> tuple[Trap, ...]:
    """Return published numbers that are wrong, with what holds and why."""
    return (*checks_syrup.traps(), *checks_honey.traps())
