"""The last day that dates leave a job."""

from dataclasses import replace

import pytest

from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Deadline
from runplanner.visits.last_day import last_day
from tests.outfits import a_yard, an_outfit

DAYS = 9


@pytest.mark.parametrize(
    ("hard", "last"),
    [
        (True, {Job.BOARDS: 8, Job.TAKE_OFF: 3, Job.STRIPS: 4, Job.FEED: 6}),
        (False, {Job.BOARDS: 8, Job.TAKE_OFF: 5, Job.STRIPS: 8, Job.FEED: 8}),
    ],
)
def test_hard_deadlines_the_yard_s_own_date_and_the_end_bind(
    last: dict[Job, int], *, hard: bool
) -> None:
    """Take-off by day 3, strips by 4, feed by 6; the yard is to be off by 5, the end is day 8."""
    yard = replace(a_yard(1, days=DAYS), finish_by_day=5)
    outfit = an_outfit([(10, 0)], [yard], days=DAYS)
    season = replace(
        outfit.season,
        take_off_by=Deadline(3, hard),
        strips_by=Deadline(4, hard),
        feed_by=Deadline(6, hard),
    )
    outfit = replace(outfit, season=season)

    assert last == {job: last_day(outfit, yard, job) for job in last}
