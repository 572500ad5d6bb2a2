"""A stop as one line of a text sent by phone: where, when, what to do, and what is asked there."""

from collections.abc import Iterator

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Call, Job, Shift, Trip
from runplanner.days import DAY_MIN, clock
from runplanner.outfit.yards import Access
from runplanner.paperwork.driver.lifting import heavy_boxes
from runplanner.paperwork.driver.sooner import ban_words, boxes_sooner, unheld_words, withheld_words
from runplanner.paperwork.escape import message_text
from runplanner.paperwork.lists.held import strips_in_since
from runplanner.paperwork.lists.strips_at_stop import out_here
from runplanner.paperwork.speech.say import (
    count,
    kg_down,
    litres,
    stretch,
    tenths,
    yard_named,
)
from runplanner.paperwork.speech.substances import (
    names_substance,
    substance_at,
)
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.speech.trip_state import call_over
from runplanner.paperwork.stop.health import health_in_short
from runplanner.paperwork.stop.one_stop import further_block, parts_together
from runplanner.paperwork.stop.yard_words import (
    blocks_each,
    boards_back,
    cleared_by,
    nos_words,
    nothing_words,
)


def span_text(start: int, end: int) -> str:
    """Return a stretch of a day in plain Latin signs."""
    return stretch(start, end, "-")


def stop_text(plan: Plan, shift: Shift, trip: Trip, call: Call, number: int) -> str:
    """Return a stop on one line, and on a second what its gate, boxes and health ask.

    A stop that is past says what was done, and what its boxes still ask.
    """
    over, many = call_over(plan, call), trip.takes_too_many(call, plan.now_min)
    fewer = 0 if many else boxes_sooner(plan.outfit, trip, call)
    told = parts_together(plan, call)
    jobs = ", ".join(_job(plan, told, action) for action in told.actions)
    jobs = jobs or nothing_words(plan, call)
    yard = message_text(yard_named(plan.outfit, call.yard))
    times = span_text(call.start_min, call.leave_min)
    asked = [*filter(None, (health_in_short(plan, call),)), *_strips_in(plan, call)]
    if over:
        line = tr("{number} {yard} {times} done: {jobs}", number=number, yard=yard, times=times,
                  jobs=jobs)  # fmt: skip
    else:
        latest = tr("latest {time}", time=clock(call.latest_leave_min))
        line = f"{number} {yard} {times} ({latest}): {jobs}{_limit(call, fewer)}"
        access = _access(plan.outfit.yard(call.yard).access)
        ban = filter(None, (ban_words(plan, trip, call),))
        asked = [*_too_much(plan, trip, call), *asked, *ban, *_heavy(plan, shift, call), *access]
    return f"{line}\n! {'; '.join(asked)}" if asked else line


def _limit(call: Call, fewer: int) -> str:
    """Return at how many boxes to stop, and how many fewer where not all come off."""
    if call.takes_boxes():
        limit = tr(", max {boxes} full aboard", boxes=call.boxes_limit)
        return f"{limit} {tr('({number} fewer if not all off)', number=fewer)}" if fewer else limit
    boxes = count(fewer, "box", "boxes")
    return " " + tr("(left out: {boxes} fewer later)", boxes=boxes) if fewer else ""


def _too_much(plan: Plan, trip: Trip, call: Call) -> Iterator[str]:
    """Yield that a stop to come cannot be left as planned."""
    if trip.takes_too_many(call, plan.now_min):
        words = tr("more planned than the truck bears: not all can come off")
        yield ", ".join(filter(None, (words, withheld_words(plan, call))))
    elif words := unheld_words(plan, trip, call):
        yield words


def _strips_in(plan: Plan, call: Call) -> Iterator[str]:
    if since := strips_in_since(plan, call):
        yield tr("strips in since {date}: boxes apart, not for people", date=since)
    yield from (one.in_short() for one in out_here(plan, call))


def _heavy(plan: Plan, shift: Shift, call: Call) -> Iterator[str]:
    if heavy_boxes(plan.outfit, call):
        mass = tenths(plan.outfit.yard(call.yard).box_g)
        alone = mark("boxes up to {mass} kg: do not lift alone, use a hoist or go frame by frame")
        words = mark("boxes up to {mass} kg: lift with two") if len(shift.crew) > 1 else alone
        yield tr(words, mass=mass)


def _access(access: Access) -> Iterator[str]:
    """Yield how to get in; whom to ring, keys and dogs are not for a text, but that there are."""
    if (access.opens_min, access.closes_min) != (0, DAY_MIN):
        times = span_text(access.opens_min, access.closes_min)
        yield tr("gate {times}", times=times)
    if access.phone:
        yield tr("ring first")
    if access.notes:
        yield tr("note on the driver's paper")
    if access.max_vehicle_g is not None:
        yield tr("max {mass} kg laden", mass=kg_down(access.max_vehicle_g))
    if access.max_width_mm is not None:
        yield tr("max {width} cm wide", width=access.max_width_mm // 10)
    if not access.trailer:
        yield tr("no trailer past the gate")
    if access.four_wheel:
        yield tr("four-wheel drive")


def _nos(plan: Plan, call: Call, action: Action) -> str:
    nos = message_text(nos_words(plan, call, action))
    return f" ({nos})" if nos else ""


def _col(plan: Plan, call: Call, action: Action) -> str:
    return tr("{number} col", number=action.colonies) + _nos(plan, call, action)


def _job(plan: Plan, call: Call, action: Action) -> str:
    match action.job:
        case Job.BOARDS:
            return tr("boards {number}", number=action.pieces) + _nos(plan, call, action)
        case Job.TAKE_OFF:
            return _take_off(plan, call, action)
        case Job.BLOCK:
            more = further_block(call, action)
            head = mark("further block {number}") if more else mark("block {number}")
            words, each = tr(head, number=action.pieces), blocks_each(action)
            return tr("{blocks} ({each} each)", blocks=words, each=each) if each > 1 else words
        case Job.FEED:
            return _feed(plan, call, action)
        case Job.STRIPS:
            words = tr("strips {number}", number=action.pieces) + _nos(plan, call, action)
            substance = message_text(substance_at(plan.outfit, call.yard))
            return f"{words} {substance}" if names_substance(plan.outfit) else words
        case Job.WET_UP | Job.WET_DOWN | Job.FEEDERS:
            return _kit(action)


def _take_off(plan: Plan, call: Call, action: Action) -> str:
    head = mark("off {colonies} {boxes} bx") if action.boxes else mark("condense {colonies}")
    off = tr(head, colonies=_col(plan, call, action), boxes=action.boxes)
    way = message_text(cleared_by(plan.outfit, plan.outfit.yard(call.yard), action))
    besides = []
    if action.brood_boxes:
        besides.append(count(action.brood_boxes, "brood box", "brood boxes"))
    if action.boards_off:
        besides.append(boards_back(action))
    words = f"{off} {way}" if way else off
    return f"{words} ({', '.join(besides)})" if besides else words


def _feed(plan: Plan, call: Call, action: Action) -> str:
    colonies, poured = _col(plan, call, action), litres(action.ml)
    words = tr("feed {colonies} {litres}", colonies=colonies, litres=poured)
    besides = [tr("{litres} each", litres=litres(action.ml // max(1, action.colonies)))]
    if action.round > 1:
        besides.append(tr("round {number}", number=action.round))
    if action.feeders:
        besides.append(tr("leave {feeders}", feeders=count(action.feeders, "feeder", "feeders")))
    return f"{words} ({', '.join(besides)})"


def _kit(action: Action) -> str:
    if action.job is Job.FEEDERS:
        return tr("feeders off {number}", number=action.feeders_off)
    if action.job is Job.WET_UP:
        return tr("wet boxes up {number}", number=action.wet)
    return tr("wet boxes down {number}", number=action.wet)
