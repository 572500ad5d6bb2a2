"""Whom and what a change is about: yards, districts, trips, trucks, trailers, people."""

import itertools
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Final, TypeVar

from runplanner.changes.draft import Draft
from runplanner.changes.said.called import Called
from runplanner.changes.said.line import Line
from runplanner.daybook.trip import Trip
from runplanner.days import day_of
from runplanner.outfit.people import Person
from runplanner.outfit.trucks import Trailer, Truck
from runplanner.outfit.yards import Yard
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import Refusal

T = TypeVar("T")
Helper = Person | Truck | Trailer
_WORDS: Final = {"trucks": "truck", "trailers": "trailer", "people": "person"}
"""What may stand before a name, to tell a truck from a person."""
_ALL: Final = ("all", "everywhere", "everything", "all yards")
_YARD: Final = phrase("the name or id of a yard")


def some_yards(line: Line, draft: Draft) -> list[Yard]:
    """Read yards, districts, or ``all``; several stand with commas or ``and`` between them.

    Raises:
        Refusal: When what comes next is none of these, or stands for several.
    """
    known = places_called(draft)
    found = _one(line, known, phrase("{yard}, a district, or 'all'", yard=_YARD))
    while line.comma_before():
        more = line.meant(known)
        if not more:
            break
        found += _the_one(known, more, _YARD)
    return [draft.outfit.yard(key) for key in dict.fromkeys(found)]


def places_called(draft: Draft) -> Called[tuple[str, ...]]:
    """Return ids of yards by what these, districts and all yards together are called."""
    yards = draft.outfit.yards
    names = {" ".join(one.name.casefold().split()) for one in yards}
    groups: dict[str, tuple[str, ...]] = {}
    for one in yards:
        district = one.district.casefold()
        for called in (district, f"district {district}") if district else ():
            groups[called] = (*groups.get(called, ()), one.id)
    everyone = dict.fromkeys(_ALL, tuple(one.id for one in yards))
    return Called(
        [
            *((name, ids) for name, ids in (everyone | groups).items() if name not in names),
            *((one.name, (one.id,)) for one in yards),
        ],
        [(one.id, (one.id,)) for one in yards],
    )


def a_yard(line: Line, draft: Draft, among: Iterable[Yard]) -> Yard:
    """Read one yard and return its facts.

    The name of another yard, as spelt, stands for none of ``among``.

    Raises:
        Refusal: When what comes next is none of ``among``, or stands for several.
    """
    here = {one.id: one.name for one in among}
    return draft.outfit.yard(_one(line, yards_called(draft), _YARD, here))


def names_a_yard(line: Line, draft: Draft) -> bool:
    """Tell whether a yard's name comes next; nothing is read."""
    try:
        a_yard(Line(line.rest()), draft, draft.outfit.yards)
    except Refusal:
        return False
    return True


def yards_called(draft: Draft) -> Called[str]:
    """Return the ids of all yards by what these are called."""
    yards = draft.outfit.yards
    return Called([(one.name, one.id) for one in yards], [(one.id, one.id) for one in yards])


def _one(line: Line, known: Called[T], allowed: Phrase, here: Mapping[T, str] | None = None) -> T:
    """Read what one thing is called, with or without ``yard`` or ``at`` before it.

    Args:
        line: Where it comes next.
        known: All that it may be called.
        allowed: What is said to be allowed.
        here: Names of those that it may be; None for all of ``known``.

    Raises:
        Refusal: When what comes next is none, or stands for several.
    """

    def among(one: T) -> bool:
        return here is None or one in here

    found = line.meant(known, among)
    while not found and line.take("yard", "yards", "at", "in"):
        found = line.meant(known, among)
    if not found:
        names = known.names() if here is None else list(here.values())
        raise Refusal(allowed, line.nearest([one.casefold() for one in names], names))
    return _the_one(known, found, allowed)


def _the_one(known: Called[T], found: Sequence[T], allowed: Phrase) -> T:
    if len(found) > 1:
        raise Refusal(allowed, known.which(found))
    return found[0]


def trip_named(line: Line, draft: Draft) -> Trip:
    """Read the id of a trip that has left home by now.

    Raises:
        Refusal: When it is no such trip.
    """
    line.take("trip")
    gone = {trip.id: trip for trip in draft.driven_trips()}
    later = {trip.id for shift in draft.plan.shifts for trip in shift.trips} - set(gone)
    if not gone or line.maybe_name(dict.fromkeys(later, "")) is not None:
        raise Refusal(
            phrase("a trip that has left by now"),
            phrase("Give the time it is with 'now Fri 12:30'."),
        )
    return line.name(gone, phrase("the id of a trip that has left by now, as on its manifest"))


def trip_to(line: Line, draft: Draft) -> Trip | None:
    """Return the one trip that can be meant where a yard is told alone; nothing is read.

    Stops of today that have begun come first; then those that were not over when the plan was
    made, for older ones are counted or presumed, and one of today that has not begun. None where
    no yard comes next.

    Raises:
        Refusal: When it can be several trips, or none has left for that yard.
    """
    stops = [(trip, call) for trip in draft.driven_trips() for call in trip.yards()]
    try:
        yard = a_yard(Line(line.rest()), draft, (draft.outfit.yard(c.yard) for _, c in stops))
    except Refusal as none:
        if not stops or not Line(line.rest()).meant(yards_called(draft)):
            return None
        raise Refusal(phrase("a yard for which a trip has left by now"), none.cure) from none
    found = [stop for stop in stops if stop[1].yard == yard.id]
    today = [stop for stop in found if day_of(stop[1].start_min) == draft.today]
    if begun := [stop for stop in found if draft.begun(stop[1])]:
        since = [stop for stop in begun if stop[1].end_min > draft.plan.now_min] or begun
        found = [stop for stop in since if stop in today] or [*since, *today]
    trips = list({trip.id: trip for trip, _ in found}.values())
    if len(trips) > 1:
        names = ", ".join(trip.id for trip in trips)
        raise Refusal(
            phrase("the id of the trip, for several have left for {yard}", yard=yard.name),
            phrase("Give one of: {names}.", names=names),
        )
    return trips[0]


def helper_named(line: Line, draft: Draft) -> tuple[str, str]:
    """Read a person, truck or trailer; return what it is ("people", ...) and its id.

    Raises:
        Refusal: When what comes next is none, or stands for several.
    """
    allowed = phrase(
        "a change, or the name of a truck, trailer or person followed by out, off or back"
    )
    return _among(line, _helpers(draft), allowed)


def a_truck(line: Line, draft: Draft) -> str:
    """Read a truck and return its id.

    Raises:
        Refusal: When what comes next is none, or stands for several.
    """
    groups = {"trucks": _helpers(draft)["trucks"]}
    return _among(line, groups, phrase("the name of a truck"))[1]


def _among(line: Line, groups: Mapping[str, Sequence[Helper]], allowed: Phrase) -> tuple[str, str]:
    """Read one of some helpers; return what it is and its id.

    Raises:
        Refusal: When what comes next is none, or stands for several.
    """
    known = _called(groups)
    found = line.meant(known)
    if not found:
        raise Refusal(allowed, line.nearest(known.words(), known.names()))
    return _the_one(known, found, phrase("a name that stands for one"))


def helpers_called(draft: Draft) -> Called[tuple[str, str]]:
    """Return people, trucks and trailers by what they are called: what each is, and its id."""
    return _called(_helpers(draft))


def _called(groups: Mapping[str, Sequence[Helper]]) -> Called[tuple[str, str]]:
    names, keys, short = [], [], []
    for kind, things in groups.items():
        for thing in things:
            one, word = (kind, thing.id), _WORDS[kind]
            names.append((thing.name, one))
            keys += [(called, one) for called in (thing.id, f"{word} {thing.name}")]
            keys.append((f"{word} {thing.id}", one))
            short += [(called, one) for first in thing.name.split()[:1]
                      for called in (first, f"{word} {first}", word)]  # fmt: skip
    return Called(names, keys, short)


def helper(draft: Draft, kind: str, key: str) -> Helper:
    """Return a person, truck or trailer by what it is and its id."""
    return next(one for one in _helpers(draft)[kind] if one.id == key)


def _helpers(draft: Draft) -> dict[str, Sequence[Helper]]:
    outfit = draft.outfit
    return {"trucks": outfit.trucks, "trailers": outfit.trailers, "people": outfit.people}


def away_days(draft: Draft, kind: str, key: str) -> tuple[int, ...]:
    """Return the days on which a person, truck or trailer is away."""
    one = helper(draft, kind, key)
    return one.off_days if isinstance(one, Person) else one.out_days


def away_from(draft: Draft, kind: str, key: str, first: int) -> tuple[int, ...]:
    """Return the days of an absence from ``first`` on, up to the first day it is no longer."""
    away = away_days(draft, kind, key)
    return tuple(itertools.takewhile(lambda day: day in away, itertools.count(first)))


def with_out_days(draft: Draft, kind: str, key: str, days: Sequence[int], *, back: bool) -> Draft:
    """Return the draft with a truck, trailer or person away on ``days``, or there again."""
    outfit = draft.outfit
    if kind == "people":
        people = tuple(
            replace(one, off_days=_days(one.off_days, days, back=back)) if one.id == key else one
            for one in outfit.people
        )
        return replace(draft, outfit=replace(outfit, people=people))
    if kind == "trucks":
        trucks = tuple(
            replace(one, out_days=_days(one.out_days, days, back=back)) if one.id == key else one
            for one in outfit.trucks
        )
        return replace(draft, outfit=replace(outfit, trucks=trucks))
    trailers = tuple(
        replace(one, out_days=_days(one.out_days, days, back=back)) if one.id == key else one
        for one in outfit.trailers
    )
    return replace(draft, outfit=replace(outfit, trailers=trailers))


def _days(old: Sequence[int], days: Sequence[int], *, back: bool) -> tuple[int, ...]:
    return tuple(sorted(set(old) - set(days) if back else set(old) | set(days)))
