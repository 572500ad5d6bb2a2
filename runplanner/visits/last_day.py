"""The last day that dates alone leave a job of a yard."""

from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard


def last_day(outfit: Outfit, yard: Yard, job: Job) -> int:
    """Return the last day of a job by hard deadlines, the yard's own date and the campaign's end.

    Hours, and what comes after the job, are not asked.
    """
    season = outfit.season
    by = {Job.TAKE_OFF: season.take_off_by, Job.FEED: season.feed_by, Job.STRIPS: season.strips_by}
    days = [season.n_days - 1]
    if job in by and by[job].hard:
        days.append(by[job].day)
    if job is Job.TAKE_OFF:
        days.append(yard.finish_by_day)
    return min(days)
