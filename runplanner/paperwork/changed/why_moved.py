"""Why a promised visit could not stay where it was, and why a new one came, told from facts."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import astuple

from runplanner.daybook.differences import Shifted, Spot
from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops_at
from runplanner.daybook.trip import Action, Call, Job
from runplanner.days import DAY_MIN, Span, meet, without
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.shut import Work
from runplanner.outfit.yards import Yard
from runplanner.paperwork.escape import shown_name
from runplanner.paperwork.lists.undone_list import job_name
from runplanner.paperwork.speech.say import count, moment
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.speech.weather_words import reason_words
from runplanner.paperwork.stop.cover import covers_at
from runplanner.paperwork.stop.health import health_as_reason
from runplanner.paperwork.stop.hives_carried import carries
from runplanner.visits.windows import morning_min, windows

TO_FIT = mark("to fit the other changes")
LESS_LEFT = mark("so that less is left undone")
EITHER = mark("to fit the other changes, or so that less is left undone")
CHEAPER = mark("so that it costs less")
ANEW = mark("planned anew with nothing new told, no better than before")
_OWED = frozenset({Job.TAKE_OFF, Job.FEED, Job.STRIPS, Job.WET_UP, Job.WET_DOWN})
"""Jobs that every colony is owed; boards, blocks and feeders only serve them."""
_DRY = frozenset({Job.STRIPS, Job.WET_UP, Job.WET_DOWN, Job.FEEDERS})
"""Jobs that by themselves want hours fit for hives or for syrup."""


def leaves_less(before: Plan, after: Plan) -> bool:
    """Tell whether less is left undone than before, in the order in which that is compared."""
    return astuple(after.tally) < astuple(before.tally)


def unforced(before: Plan, after: Plan, *, news: bool) -> str:
    """Return why visits moved against which nothing has come to stand, in words.

    ``news`` tells whether anything but the time is new: else there is nothing to fit in.
    """
    if leaves_less(before, after):
        return tr(EITHER if news else LESS_LEFT)
    if news:
        return tr(TO_FIT)
    return tr(CHEAPER if after.bill.total() < before.bill.total() else ANEW)


def why_moved(before: Outfit, after: Outfit, one: Shifted, otherwise: str) -> str:
    """Return what has come to stand against a visit, in words; ``otherwise`` where nothing has.

    Where health now keeps all work from the yard, nothing else matters; nor does the honey house
    where honey comes in that day all the same.
    """
    was = one.was or one.spot
    old, new = before.yard(was.yard), after.yard(was.yard)
    if new.left_alone and not old.left_alone:
        return health_as_reason(new)
    found = [
        *_weather(before, after, was),
        *_yard(old, new, was),
        *_wet_boxes(one),
        *_away(before, after, was),
        *(() if one.stays and _honey(one.spot) else _house(before, after, was)),
    ]
    return "; ".join(dict.fromkeys(found)) or otherwise


def why_new(before: Plan, after: Plan, now: Spot, otherwise: str, counts: str = "") -> str:
    """Return why there is a visit that was not, in words; ``otherwise`` where no fact tells.

    Further blocks are brought as cover ends; else it does what ``counts`` tell, or what the plan
    before left undone.
    """
    jobs = {action.job for action in now.actions}
    ends = [
        one.ends_min for one in covers_at(after, after.outfit.yard(now.yard), now.start_min)
        if one.fed_min is None
    ]  # fmt: skip
    if Job.BLOCK in jobs and Job.TAKE_OFF not in jobs and ends:
        return tr("cover ends {when}", when=moment(after.outfit, min(ends)))
    if all(yard.id != now.yard for yard in before.outfit.yards):
        return tr("the yard is new")
    if counts:
        return counts
    was, done = (_done(plan, now.yard) for plan in (before, after))
    if any(done[job] > was[job] for job in jobs & _OWED):
        return tr("left undone until now")
    facts = _yard(before.outfit.yard(now.yard), after.outfit.yard(now.yard), now)
    return "; ".join(facts) or otherwise


def counted_there(printed: Plan, counted: Plan, yard: str) -> str:
    """Return by what counts a yard has other work done than was printed, in words; or nothing.

    Each feed round by itself; stops at which as much was counted as printed are left out.
    """
    was, now = Counter[tuple[Job, int]](), Counter[tuple[Job, int]]()
    before = _by_stop(printed, yard)
    for key, call in _by_stop(counted, yard).items():
        if call.counted is not None and call.planned:
            old = _by_round(before[key].actions if key in before else ())
            new = _by_round(call.actions)
            was += Counter({one: number for one, number in old.items() if new[one] != number})
            now += Counter({one: number for one, number in new.items() if old[one] != number})
    order = list(Job)
    found = [
        tr("{job} {now}, not {before}", job=_called(*one), now=now[one], before=was[one])
        for one in sorted({**was, **now}, key=lambda one: (order.index(one[0]), one[1]))
        if was[one] != now[one]
    ]
    return tr("counted there: {what}", what="; ".join(found)) if found else ""


def _by_round(actions: Iterable[Action]) -> Counter[tuple[Job, int]]:
    found: Counter[tuple[Job, int]] = Counter()
    for one in actions:
        found[one.job, one.round] += one.colonies
    return found


def _called(job: Job, number: int) -> str:
    return tr("syrup (round {number})", number=number) if number > 1 else job_name(job)


def _by_stop(plan: Plan, yard: str) -> dict[tuple[str, int], Call]:
    """Return the calls at a yard by their trip and their number among its calls there."""
    seen: Counter[str] = Counter()
    found = {}
    for stop in stops_at(plan, yard):
        seen[stop.trip.id] += 1
        found[stop.trip.id, seen[stop.trip.id]] = stop.call
    return found


def _done(plan: Plan, yard: str) -> Counter[Job]:
    """Return how many colonies of a yard have each job done, driven or to come, all rounds."""
    return _colonies(one for stop in stops_at(plan, yard) for one in stop.call.actions)


def _colonies(actions: Iterable[Action]) -> Counter[Job]:
    found: Counter[Job] = Counter()
    for one in actions:
        found[one.job] += one.colonies
    return found


def _weather(before: Outfit, after: Outfit, was: Spot) -> list[str]:
    """Return which hours of a visit, or of the night after it, are fit no more."""
    old, new = (windows(outfit, outfit.yard(was.yard)) for outfit in (before, after))
    yard, day, jobs = after.yard(was.yard), was.day, {action.job for action in was.actions}
    visit = Span(was.start_min, was.end_min)
    opening, feeding = jobs & {Job.BOARDS, Job.TAKE_OFF}, Job.FEED in jobs
    found = []
    if opening and _shut(old.opening[day], new.opening[day], visit):
        words = tr("hours for opening hives are shut")
        found.append(_because(words, yard, visit, Work.OPEN))
    if feeding and _shut(old.feeding[day], new.feeding[day], visit):
        found.append(_because(tr("hours for syrup are shut"), yard, visit, Work.FEED))
    alone = not opening and not feeding and jobs & _DRY
    if alone and _shut(old.either[day], new.either[day], visit):
        words = tr("hours for opening hives and for syrup are shut")
        found.append(_because(words, yard, visit, Work.OPEN, Work.FEED))
    settled_min = max(old.settled_from_min[day], was.end_min)
    if Job.TAKE_OFF in jobs and new.settled_from_min[day] > settled_min:
        night = Span(was.end_min, morning_min(yard, day + 1))
        found.append(_because(tr("the night after is not settled"), yard, night, Work.SETTLE))
    if Job.STRIPS in jobs and day in new.strips_shut - old.strips_shut:
        found.append(tr("the day is not fit for strips"))
    return found


def _because(words: str, yard: Yard, span: Span, *works: Work) -> str:
    """Add the reasons that are kept for what is shut to some work in ``span``."""
    whys = [
        reason_words(one) for one in yard.shut
        if one.work in works and one.start_min < span.end_min and span.start_min < one.end_min
    ]  # fmt: skip
    told = ", ".join(dict.fromkeys(why for why in whys if why))
    return f"{words}: {told}" if told else words


def _shut(old: tuple[Span, ...], new: tuple[Span, ...], visit: Span) -> bool:
    """Tell whether minutes of a visit were fit and are no more."""
    return bool(meet(without(old, new), (visit,)))


def _yard(old: Yard, new: Yard, was: Spot) -> list[str]:
    found = []
    if old.health != new.health:
        found.append(health_as_reason(new))
    if old.colonies != new.colonies:
        now = count(new.colonies, "colony", "colonies")
        found.append(tr("the yard has {colonies}, not {before}", colonies=now, before=old.colonies))
    if old.boxes != new.boxes and any(action.job is Job.TAKE_OFF for action in was.actions):
        found.append(tr("the yard's boxes are counted anew"))
    if old.place_on(was.day) != new.place_on(was.day):
        found.append(tr("the yard has moved"))
    return found


def _wet_boxes(one: Shifted) -> list[str]:
    """Return that a count has left other wet boxes of as many colonies."""
    was, now = (_wet(spot) for spot in (one.was, one.now))
    told = any(job in now and now[job] != was[job] and now[job][0] == was[job][0] for job in was)
    return [tr("its wet boxes are counted anew")] if told else []


def _wet(spot: Spot | None) -> dict[Job, tuple[int, int]]:
    """Return of how many colonies how many wet boxes go up and come down at a visit."""
    found: dict[Job, tuple[int, int]] = {}
    for action in spot.actions if spot else ():
        if action.job in {Job.WET_UP, Job.WET_DOWN}:
            colonies, wet = found.get(action.job, (0, 0))
            found[action.job] = colonies + action.colonies, wet + action.wet
    return found


def _away(before: Outfit, after: Outfit, was: Spot) -> list[str]:
    found = []
    for truck, known in zip(after.trucks, before.trucks, strict=True):
        if truck.id == was.truck and was.day in set(truck.out_days) - set(known.out_days):
            night = [one for one in after.yards if (was.day, truck.id) in one.carried_by]
            hives = [carries(after, truck.id, one) for one in night]
            found += hives or [tr("{truck} is out", truck=shown_name(truck.name, 32))]
    for trailer, known_trailer in zip(after.trailers, before.trailers, strict=True):
        out = was.day in set(trailer.out_days) - set(known_trailer.out_days)
        if out and trailer.id == was.trailer:
            found.append(tr("{truck} is out", truck=shown_name(trailer.name, 32)))
    for person, known_person in zip(after.people, before.people, strict=True):
        away = was.day in set(person.off_days) - set(known_person.off_days)
        if person.id in was.crew and away:
            found.append(tr("{person} is away", person=shown_name(person.name, 32)))
    return found


def _house(before: Outfit, after: Outfit, was: Spot) -> list[str]:
    """Return whether honey is not taken in that day, or not spun by when it should be."""
    if not _honey(was):
        return []
    old, new = before.honey_house, after.honey_house
    that_day = Span(was.start_min, (was.day + 1) * DAY_MIN)
    in_time = Span(was.start_min, was.end_min + after.yard(was.yard).spin_by_min)
    found = []
    if _shut_min(new.full, that_day) > _shut_min(old.full, that_day):
        found.append(tr("the honey house does not take it"))
    if _shut_min(new.stopped, in_time) > _shut_min(old.stopped, in_time):
        found.append(tr("the honey house spins nothing"))
    return found


def _honey(spot: Spot) -> bool:
    return any(action.boxes for action in spot.actions)


def _shut_min(shut: tuple[Span, ...], within: Span) -> int:
    return sum(span.end_min - span.start_min for span in meet(shut, (within,)))
