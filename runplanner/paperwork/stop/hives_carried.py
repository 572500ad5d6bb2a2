"""Who carries which hives in the night after a day."""

from collections.abc import Iterator

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops_at
from runplanner.daybook.trip import Job, boards_lying
from runplanner.days import DAY_MIN, day_of
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Health, Yard
from runplanner.paperwork.speech.say import count, listed, people_names, vehicle_name, yard_name
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.stop.health import why_watched
from runplanner.paperwork.stop.yard_words import geo_at
from runplanner.visits.due import due


def carrying_days(outfit: Outfit) -> set[int]:
    """Return the days in whose nights hives go to a new place."""
    return {day - 1 for yard in outfit.yards for day, _ in yard.sites[1:]}


def carried_in(plan: Plan, day: int) -> Iterator[str]:
    """Yield who carries which hives in the night after ``day``, or that it is to be settled.

    How many, and where to, is told as well.
    Who drives is not planned: those who may, and are there that day and the next, are named.  Hives
    of a yard on watch are told with their licence, for whoever is stopped on the road.  The plan
    keeps no work away from that night, so what is not ready by then is told too.
    """
    outfit = plan.outfit
    for yard in outfit.yards:
        if day + 1 in (from_day for from_day, _ in yard.sites[1:]):
            carried = _carried(outfit, yard, dict(yard.carried_by).get(day + 1, ""), day)
            load = _load(outfit, yard, day)
            yield ". ".join((carried, load, *_health(yard), *_unready(plan, yard, day)))


def _load(outfit: Outfit, yard: Yard, day: int) -> str:
    """Return how many hives go in the night after ``day``, and where the new place is.

    A later site has its yard's name, so only where it lies tells it from the one before.
    """
    hives = count(yard.colonies, "hive", "hives")
    spot, _ = geo_at(outfit, yard.place_on(day + 1))
    return tr("{hives}, to {spot}", hives=hives, spot=spot)


def _health(yard: Yard) -> Iterator[str]:
    if yard.health is Health.WATCH:
        yield tr("{why}: clean truck and kit afterwards", why=why_watched(yard))


def _unready(plan: Plan, yard: Yard, day: int) -> Iterator[str]:
    """Yield why hives are not ready for the road in the night after ``day``; nothing if they are.

    Full feeders spill and boxes or boards that stand loose shift (common practice); after
    condensing bees sit outside until the morning.
    """
    night = (day + 1) * DAY_MIN
    calls = [stop.call for stop in stops_at(plan, yard.id) if stop.call.start_min < night]
    done = [one for call in calls for one in call.actions]
    fed = [call.start_min for call in calls if any(one.job is Job.FEED for one in call.actions)]
    wet = sum(-one.wet if one.job is Job.WET_DOWN else one.wet for one in done)
    off = any(
        one.job is Job.TAKE_OFF
        for call in calls if day_of(call.start_min) == day for one in call.actions
    )  # fmt: skip
    found = (
        (off, tr("condensed that day")),
        (
            fed and fed[-1] + due(plan.outfit, yard).round_gap_min > night,
            tr("syrup still in feeders"),
        ),
        (wet > 0, tr("wet boxes still up")),
        (boards_lying(yard.boards_lain, done) > 0, tr("boards still on")),
    )
    if why := listed(tuple(words for holds, words in found if holds)):
        yield tr("Not ready for the road by this plan: {why}; better another night", why=why)


def _carried(outfit: Outfit, yard: Yard, truck: str, day: int) -> str:
    if not truck:
        return tr(
            "The hives of {yard} go to the new place; no truck is named, settle who carries them",
            yard=yard_name(yard),
        )
    carried, may = carries(outfit, truck, yard), _may_drive(outfit, truck, day)
    words = mark("{hives}; nobody who may drive it is there")
    if may:
        words = mark("{hives}; who drives is not planned, settle it: {people} may")
    return tr(words, hives=carried, people=people_names(outfit, may))


def _may_drive(outfit: Outfit, truck: str, day: int) -> tuple[str, ...]:
    return tuple(
        person.id for person in outfit.people
        if person.drives and person.id in outfit.truck(truck).drivers
        and not {day, day + 1} & set(person.off_days)
    )  # fmt: skip


def carries(outfit: Outfit, truck: str, yard: Yard) -> str:
    """Return in words that a truck carries the hives of a yard."""
    return tr(
        "{truck} carries the hives of {yard} to the new place",
        truck=vehicle_name(outfit, truck), yard=yard_name(yard),
    )  # fmt: skip
