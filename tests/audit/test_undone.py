"""The undone vector of yards that may not be worked, or only be fed."""

import pytest

from runplanner.audit.audit import audit
from runplanner.audit.book import open_book
from runplanner.audit.undone import tally_of
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
