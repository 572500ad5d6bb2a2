"""When and why the hours for a job are shut."""

from collections.abc import Mapping
from datetime import date

from runplanner.daybook.trip import Job
from runplanner.days import date_of, day_of
from runplanner.outfit.shut import Work
from runplanner.phrase import Part, Phrase, joined, phrase
from runplanner.trips.ground import Ground

MOST_SHUT = 3
WEATHER: Mapping[Job, tuple[Work, ...]] = {
    Job.TAKE_OFF: (Work.OPEN, Work.SETTLE),
    Job.FEED: (Work.FEED,),
    Job.BLOCK: (Work.FEED,),
}
"""What the weather must be fit for, by job."""


def with_shut_hours(ground: Ground, yard: int, job: Job, why: Phrase) -> Phrase:
    """Return a reason with the hours that weather shuts for a job, where it shuts any."""
    shut = _shut_hours(ground, yard, job)
    return joined(": ", why, shut) if shut else why


def _shut_hours(ground: Ground, yard: int, job: Job) -> Phrase | None:
    """Return when and why the hours for a job are shut, from now on."""
    works = WEATHER.get(job, ())
    first = date.fromisoformat(ground.outfit.season.first_date)
    stretches = [
        one for one in ground.outfit.yards[yard].shut
        if one.work in works and one.end_min > ground.now_min and one.words()
    ]  # fmt: skip
    lines: dict[Part, None] = dict.fromkeys(
        joined(" ", date_of(first, day_of(one.start_min)), one.words()) for one in stretches
    )
    more = len(lines) - MOST_SHUT
    shown = joined("; ", *list(lines)[:MOST_SHUT])
    if more > 0:
        return phrase("{reasons}; and {number} more", reasons=shown, number=more)
    return shown if lines else None
