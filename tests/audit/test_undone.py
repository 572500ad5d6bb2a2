"""The undone vector of yards that may not be worked, or only be fed."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.audit.book import open_book
from runplanner.audit.undone import tally_of
from runplanner.daybook.plan import Undone
from runplanner.daybook.trip import Job
from runplanner.phrase import phrase
from tests.audit.plans import left_undone
from tests.audit.planted import edited
from tests.audit.writing import FEED_10


@pytest.mark.parametrize(("agreed", "without"), [(True, 30), (False, 20)])
def test_a_closed_yard_counts_where_it_may_be_fed(agreed: bool, without: int) -> None:  # noqa: FBT001 - a table
    """Yard 2 is fed by consent and gets no strips: with yards 1 and 4, thirty colonies lack them.

    Without the consent twenty do.
    """
    bare = edited(
        left_undone(),
        {
            "shifts.1.trips.0.calls.1.actions": (FEED_10,),
            "outfit.yards.1.feed_agreed": agreed,
        },
    )

    assert without == tally_of(open_book(bare)).no_strips
    assert ("tally" in {finding.rule for finding in audit(bare)}) == agreed


@pytest.mark.parametrize(
    ("days", "said"),
    [
        ((), ["undone block listed 0 times"]),
        ((10,), []),
        ((9,), ["undone block of 9 colony-days"]),
        ((10, 10), ["undone block listed 2 times"]),
    ],
)
def test_days_without_cover_are_listed_once_at_their_yard(
    days: tuple[int, ...], said: list[str]
) -> None:
    """Two blocks at 2,100 g a day last the ten colonies of yard 1 until 935 min before the end."""
    hungry = edited(left_undone(), {"outfit.feed.day_use_g": 2_100})
    why = (phrase("no more blocks"),)
    listed = [Undone("yard1", Job.BLOCK, 0, 0, why, colony_days=number) for number in days]
    plan = replace(hungry, undone=(*hungry.undone, *listed))

    assert said == [one.said for one in audit(plan) if one.rule == "undone"]
