"""Dates, hours, loads and jobs in words, as the map says them."""

from runplanner.daybook.trip import Aboard, Action, Job
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.escape import cut_name
from runplanner.paperwork.speech.say import count, date_on, kg_up, litres
from runplanner.paperwork.speech.tongue import short_day, tr
from runplanner.paperwork.stop.yard_words import WAYS, clears

_SHORT_NAME = 48
# First strong isolate .. pop directional isolate: a name cannot turn its sentence round.
_ISOLATE, _POP = "\u2068", "\u2069"


def day_short(outfit: Outfit, day: int) -> str:
    """Return day number ``day`` as "Tue 2", enough beside a date that is near."""
    return short_day(date_on(outfit, day))


def named(name: str) -> str:
    """Return ``name``, its middle cut out where it is long, for use inside a sentence."""
    return f"{_ISOLATE}{cut_name(name, _SHORT_NAME)}{_POP}"


def kg(grams: int) -> str:
    """Return ``grams`` in whole kilograms, rounded up as loads are."""
    return f"{kg_up(grams)} kg"


def spell(seconds: int) -> str:
    """Return person-seconds as hours and minutes, rounded up to a minute."""
    hours, minutes = divmod(-(-seconds // 60), 60)
    return f"{hours} h {minutes:02d} min" if hours else f"{minutes} min"


def aboard(load: Aboard) -> str:
    """Return what is aboard in words; "nothing but empty gear" when no goods are."""
    goods = (
        (load.boxes, count(load.boxes, "honey box", "honey boxes")),
        (load.brood_boxes, count(load.brood_boxes, "brood box", "brood boxes")),
        (load.ml, tr("{litres} of syrup", litres=litres(load.ml))),
        (load.blocks, count(load.blocks, "fondant block", "fondant blocks")),
        (load.wet, count(load.wet, "wet box", "wet boxes")),
        (load.boards, count(load.boards, "board", "boards")),
        (load.strips, count(load.strips, "strip", "strips")),
        (load.feeders, count(load.feeders, "feeder", "feeders")),
    )
    return ", ".join(words for number, words in goods if number) or tr("nothing but empty gear")


def job_done(action: Action, substance: str = "") -> str:
    """Return one action in words: "take-off, 10 colonies, 15 boxes".

    ``substance`` is what strips are of, where that differs from yard to yard.
    """
    colonies = count(action.colonies, "colony", "colonies")
    match action.job:
        case Job.BOARDS:
            words = tr("boards on")
        case Job.TAKE_OFF:
            boxes = count(action.boxes, "box", "boxes")
            way = (tr(WAYS[action.way]),) if action.way and clears(action) else ()
            return ", ".join((tr("take-off"), colonies, boxes, *way))
        case Job.BLOCK:
            words = count(action.pieces, "fondant block", "fondant blocks")
        case Job.FEED:
            head = tr("syrup round {number}", number=action.round)
            return f"{head}, {colonies}, {litres(action.ml)}"
        case Job.STRIPS:
            strips = tr("strips")
            words = f"{strips} ({substance})" if substance else strips
        case Job.FEEDERS:
            words = ", ".join((tr("feeders off"), count(action.feeders_off, "feeder", "feeders")))
        case Job.WET_UP:
            words = ", ".join((tr("wet boxes up"), count(action.wet, "box", "boxes")))
        case Job.WET_DOWN:
            words = ", ".join((tr("wet boxes down"), count(action.wet, "box", "boxes")))
    return f"{words}, {colonies}"
