"""A small invented plan for tests, built straight from facts (nothing is planned)."""

from dataclasses import replace

from runplanner.daybook.plan import Bill, Bound, Plan, Search, Tally, Undone
from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import phrase
from tests.outfits import an_outfit

DONE = Tally(0, 0, 0, 0)
HEADS = Bill(
    km=10_000, days=4_000, crew=20_000, overtime=0, spinning=3_000, mixing=1_000, blocks=500,
    syrup=1_500, strips=0, late=0, boards_long=0, spin_late=0,
)  # fmt: skip


def an_empty_plan(outfit: Outfit | None = None, **changes: object) -> Plan:
    """A plan without a single trip that claims to leave nothing undone and to cost 400.00."""
    plan = Plan(
        outfit=outfit if outfit is not None else an_outfit([(3, 4)]),
        shifts=(),
        spinning=(),
        mixing=(),
        undone=(),
        reliefs=(),
        tally=DONE,
        bill=HEADS,
        bound=Bound(phrase("every plan"), 36_000, 20_000, DONE),
        search=Search(1, 3, phrase("rounds done"), (("python", "3"),)),
    )
    return replace(plan, **changes)  # type: ignore[arg-type]


def a_short_plan(outfit: Outfit | None = None) -> Plan:
    """The empty plan, owning up that the yard's feed is left: 80 kg of stores."""
    left = Undone(
        "yard1", Job.FEED, 10, 80_000, (phrase("feed done by day 5"), phrase("one truck"))
    )
    return an_empty_plan(outfit, undone=(left,), tally=Tally(0, 0, 80_000, 0))
