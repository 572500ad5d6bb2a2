"""Who carries which hives in the night after a day."""

from collections.abc import Iterator

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Health, Yard
from runplanner.paperwork.speech.say import people_names, vehicle_name, yard_name
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.stop.yard_words import why_watched


def carrying_days(outfit: Outfit) -> set[int]:
    """Return the days in whose nights hives go to a new place."""
    return {day - 1 for yard in outfit.yards for day, _ in yard.sites[1:]}


def carried_in(outfit: Outfit, day: int) -> Iterator[str]:
    """Yield who carries which hives in the night after ``day``, or that it is to be settled.

    Who drives is not planned: those who may, and are there that day and the next, are named.  Hives
    of a yard on watch are told with their licence, for whoever is stopped on the road.
    """
    for yard in outfit.yards:
        if day + 1 in (from_day for from_day, _ in yard.sites[1:]):
            carried = _carried(outfit, yard, dict(yard.carried_by).get(day + 1, ""), day)
            yield ". ".join((carried, *_health(yard)))


def _health(yard: Yard) -> Iterator[str]:
    if yard.health is Health.WATCH:
        yield tr("{why}: clean truck and kit afterwards", why=why_watched(yard))


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
