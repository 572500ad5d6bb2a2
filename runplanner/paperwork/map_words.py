"""Dates, hours, loads and jobs in words, as the map says them."""

from datetime import date

from runplanner.daybook.trip import Aboard, Action, Job
from runplanner.days import clock, date_of, day_of
from runplanner.outfit.outfit import Season
from runplanner.paperwork.escape import cut
from runplanner.paperwork.say import kg_up

_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = (
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
)  # fmt: skip
_SHORT_NAME = 48
# First strong isolate .. pop directional isolate: a name cannot turn its sentence round.
_ISOLATE, _POP = "\u2068", "\u2069"


def day_name(season: Season, day: int) -> str:
    """Return day number ``day`` as "Tue 2 Mar"."""
    when = date_of(date.fromisoformat(season.first_date), day)
    return f"{_WEEKDAYS[when.weekday()]} {when.day} {_MONTHS[when.month - 1]}"


def day_short(season: Season, day: int) -> str:
    """Return day number ``day`` as "Tue 2", enough beside a date that is near."""
    return day_name(season, day).rsplit(" ", 1)[0]


def moment(season: Season, minute: int) -> str:
    """Return ``minute`` as "Tue 2 Mar 14:00"."""
    return f"{day_name(season, day_of(minute))} {clock(minute)}"


def named(name: str) -> str:
    """Return ``name``, cut short, for use inside a sentence."""
    return f"{_ISOLATE}{cut(name, _SHORT_NAME)}{_POP}"


def kg(grams: int) -> str:
    """Return ``grams`` in whole kilograms, rounded up as loads are."""
    return f"{kg_up(grams):,} kg"


def spell(seconds: int) -> str:
    """Return person-seconds as hours and minutes, rounded up to a minute."""
    hours, minutes = divmod(-(-seconds // 60), 60)
    return f"{hours} h {minutes:02d} min" if hours else f"{minutes} min"


def count(number: int, one: str, many: str = "") -> str:
    """Return a number with its noun: "1 box", "12 boxes"."""
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def litres(ml: int) -> str:
    """Return millilitres as litres, tenths only where they are needed."""
    tenths = -(-ml // 100)
    return f"{tenths // 10:,} L" if tenths % 10 == 0 else f"{tenths / 10:,.1f} L"


def aboard(load: Aboard) -> str:
    """Return what is aboard in words; "nothing but empty gear" when no goods are."""
    goods = (
        (load.boxes, count(load.boxes, "honey box", "honey boxes")),
        (load.brood_boxes, count(load.brood_boxes, "brood box", "brood boxes")),
        (load.ml, f"{litres(load.ml)} syrup"),
        (load.blocks, count(load.blocks, "fondant block", "fondant blocks")),
        (load.boards, count(load.boards, "board", "boards")),
        (load.strips, count(load.strips, "strip", "strips")),
        (load.feeders, count(load.feeders, "feeder", "feeders")),
    )
    return ", ".join(words for number, words in goods if number) or "nothing but empty gear"


def job_done(action: Action) -> str:
    """Return one action in words: "take-off, 10 colonies, 15 boxes"."""
    colonies = count(action.colonies, "colony", "colonies")
    match action.job:
        case Job.BOARDS:
            return f"boards on, {colonies}"
        case Job.TAKE_OFF:
            return f"take-off, {colonies}, {count(action.boxes, 'box', 'boxes')}"
        case Job.BLOCK:
            return f"{count(action.pieces, 'fondant block')}, {colonies}"
        case Job.FEED:
            return f"syrup round {action.round}, {colonies}, {litres(action.ml)}"
        case Job.STRIPS:
            return f"strips, {colonies}"


def job_name(job: Job) -> str:
    """Return the name of a job as it stands in a list of undone work."""
    return {Job.BOARDS: "boards on", Job.BLOCK: "fondant", Job.FEED: "syrup"}.get(job, job.value)
