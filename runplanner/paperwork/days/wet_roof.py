"""What can be done under a roof on a day whose window shuts: spinning and mixing ahead."""

from runplanner.daybook.plan import Plan
from runplanner.days import DAY_MIN, NEVER, Span, meet, without
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Person
from runplanner.paperwork.speech.say import count, duration, listed, litres, person_name, stretch
from runplanner.paperwork.speech.tongue import tr, trn
from runplanner.paperwork.stop.honey import waiting

Out = dict[str, tuple[Span, ...]]
"""When each person, by id, is out with trucks."""


def from_min(plan: Plan, day: int) -> int:
    """Return from when a day's sheet counts: its midnight, or now where that is later."""
    return max(plan.now_min, day * DAY_MIN)


def under_roof(plan: Plan, day: int, out: Out) -> tuple[str, ...]:
    """Return the lines on work inside, without this day's boxes; none where nothing waits."""
    team = _spinners(plan, day, out)
    return tuple(line for line in (_spin(plan, day, team, out), _mix(plan, day, team, out)) if line)


def _free(plan: Plan, day: int) -> list[Person]:
    return [person for person in plan.outfit.people if day not in person.off_days]


def _spinners(plan: Plan, day: int, out: Out) -> list[Person]:
    """Return who spins what stands in the house: those who stay, where these can alone.

    Else those who ride as well, before or after; nobody where nothing stands there, or the house
    is stopped.
    """
    if not waiting(plan, from_min(plan, day)) or not _hours(plan, day):
        return []
    able = [person for person in _free(plan, day) if person.spins]
    stay = [person for person in able if person.id not in out]
    rates = plan.outfit.honey_house.boxes_per_h
    most = len(rates) - 1
    if rates[min(len(stay), most)]:
        return stay[:most]
    return [*stay, *(person for person in able if person.id in out)][:most]


def _day_hours(plan: Plan, day: int) -> tuple[Span, ...]:
    house, midnight = plan.outfit.honey_house, day * DAY_MIN
    hours = Span(midnight + house.spin_from_min, midnight + house.spin_to_min)
    return meet((hours,), (Span(from_min(plan, day), NEVER),))


def _hours(plan: Plan, day: int) -> tuple[Span, ...]:
    """Return when boxes may be spun on what is left of ``day``; none where the house is stopped."""
    return without(_day_hours(plan, day), plan.outfit.honey_house.stopped)


def _spin(plan: Plan, day: int, team: list[Person], out: Out) -> str:
    """Return what the honey house can spin without this day's boxes, or why it cannot."""
    boxes, rates = waiting(plan, from_min(plan, day)), plan.outfit.honey_house.boxes_per_h
    if not boxes:
        return ""
    hours, rate = _hours(plan, day), rates[len(team)]
    fit = min(boxes, rate * sum(span.end_min - span.start_min for span in hours) // 60)
    if not fit:
        stand = count(boxes, "box", "boxes")
        if hours and not rate:
            return tr("Waiting there: {boxes}; too few people to spin.", boxes=stand)
        if hours == _day_hours(plan, day):
            return ""
        return tr("Waiting there: {boxes}; the honey house is stopped.", boxes=stand)
    line = _so_many(boxes, fit, _names(plan.outfit, team), duration(-(-fit * 60 // rate)))
    if hours != _day_hours(plan, day):
        when = ", ".join(stretch(*span) for span in hours)
        line = f"{line} " + tr("Only {hours}, as the honey house is stopped.", hours=when)
    spare = [] if len(team) == len(rates) - 1 else [one for one in _free(plan, day) if one.spins]
    more = [person for person in spare if person.id in out and person not in team]
    if not more:
        return _riding(plan.outfit, line, team, out)
    note = tr("Not counted, as out with a truck: {people}.", people=_times(plan.outfit, more, out))
    return f"{line} {note}"


def _so_many(boxes: int, fit: int, names: str, time: str) -> str:
    """Return how many of the boxes that stand there to spin: as many as hours have room for."""
    if fit < boxes:
        return tr(
            "Spin {number} of the {boxes} boxes that stand there, as many as there is time for: "
            "{names}, about {time}.",
            number=fit, boxes=boxes, names=names, time=time,
        )  # fmt: skip
    return trn(
        "Spin the one box that stands there: {names}, about {time}.",
        "Spin the {number} boxes that stand there: {names}, about {time}.",
        boxes, names=names, time=time,
    )  # fmt: skip


def _mix(plan: Plan, day: int, team: list[Person], out: Out) -> str:
    """Return how much of the syrup still to be mixed could be mixed on this day.

    Whoever stays goes before whoever rides, and whoever does not spin before who does.
    """
    feed = plan.outfit.feed
    mixers = [person for person in _free(plan, day) if person.mixes]
    mixers.sort(key=lambda person: (person.id in out, person in team))
    done = plan.mixed_ml(from_min(plan, day))
    today = done - plan.mixed_ml(day * DAY_MIN)
    ml = min(sum(one.ml for one in plan.mixing) - done, feed.mix_ml_per_day - today)
    if feed.bought or not mixers or ml <= 0:
        return ""
    rate = feed.mix_ml_per_h
    name, amount = _names(plan.outfit, mixers[:1]), litres(ml)
    if not rate:
        line = tr("Mix up to {litres} ahead: {name}.", litres=amount, name=name)
    else:
        time = duration(-(-ml * 60 // rate))
        line = tr(
            "Mix up to {litres} ahead: {name}, about {time}.", litres=amount, name=name, time=time
        )
    return _riding(plan.outfit, line, mixers[:1], out)


def _riding(outfit: Outfit, line: str, people: list[Person], out: Out) -> str:
    """Return a line on work inside, with when those of its people who ride are out."""
    away = [person for person in people if person.id in out]
    if not away:
        return line
    times = _times(outfit, away, out)
    return f"{line} " + tr("Out with a truck, so before or after: {people}.", people=times)


def _times(outfit: Outfit, people: list[Person], out: Out) -> str:
    return listed(
        tuple(
            f"{person_name(outfit, person.id)} "
            + ", ".join(stretch(*span) for span in out[person.id])
            for person in people
        )
    )


def _names(outfit: Outfit, people: list[Person]) -> str:
    return listed(tuple(person_name(outfit, person.id) for person in people))
