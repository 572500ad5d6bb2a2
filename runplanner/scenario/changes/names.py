"""Whom and what a change is about: yards, districts, trips, trucks, trailers, people."""

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Final

from runplanner.daybook.trip import Trip
from runplanner.outfit.people import Person
from runplanner.outfit.trucks import Trailer, Truck
from runplanner.outfit.yards import Yard
from runplanner.phrase import phrase
from runplanner.scenario.changes.draft import Draft
from runplanner.scenario.changes.line import Line
from runplanner.scenario.faults import Refusal

Helper = Person | Truck | Trailer
_ALL: Final = ("all", "everywhere", "all yards")
_YARD: Final = phrase("the name or id of a yard")


def some_yards(line: Line, draft: Draft) -> list[Yard]:
    """Read yards, districts, or ``all``; several stand with commas or ``and`` between them.

    Raises:
        Refusal: When what comes next is none of these.
    """
    line.take("yard", "yards")
    known = _yards_by_name(draft.outfit.yards)
    districts: dict[str, list[Yard]] = {}
    for one in draft.outfit.yards:
        districts.setdefault(one.district.casefold(), []).append(one)
    districts.pop("", None)
    spelled = {f"district {name}": found for name, found in districts.items()}
    everyone = {key: list(draft.outfit.yards) for key in _ALL}
    known = everyone | districts | spelled | known
    found = list(line.name(known, phrase("{yard}, a district, or 'all'", yard=_YARD)))
    while line.comma_before():
        more = line.maybe_name(known)
        if more is None:
            break
        found += more
    return [draft.outfit.yard(key) for key in dict.fromkeys(one.id for one in found)]


def a_yard(line: Line, draft: Draft, among: Iterable[Yard]) -> Yard:
    """Read one yard and return its facts.

    Raises:
        Refusal: When what comes next is none of ``among``, or stands for several.
    """
    known = _yards_by_name(among)
    found = line.maybe_name(known)
    if found is None:
        line.take("yard")
        found = line.name(known, _YARD)
    if len(found) > 1:
        ids = ", ".join(one.id for one in found)
        raise Refusal(
            phrase("a yard whose name no other has"),
            phrase("Write its id, one of: {ids}.", ids=ids),
        )
    return draft.outfit.yard(found[0].id)


def _yards_by_name(among: Iterable[Yard]) -> dict[str, list[Yard]]:
    """Return yards by name and id; several where they share a name, an id always one."""
    known: dict[str, list[Yard]] = {}
    yards = list(among)
    for yard in yards:
        known.setdefault(" ".join(yard.name.casefold().split()), []).append(yard)
    return known | {yard.id.casefold(): [yard] for yard in yards}


def trip_named(line: Line, draft: Draft) -> Trip:
    """Read the id of a trip that has left home by now.

    Raises:
        Refusal: When it is no such trip.
    """
    line.take("trip")
    gone = {trip.id: trip for trip in draft.driven_trips()}
    later = {trip.id for shift in draft.plan.shifts for trip in shift.trips} - set(gone)
    if line.maybe_name(dict.fromkeys(later, "")) is not None:
        raise Refusal(
            phrase("a trip that has left by now"),
            phrase("Give the time it is with 'now Fri 12:30'."),
        )
    return line.name(gone, phrase("the id of a trip that has left by now, as on its manifest"))


def helper_named(line: Line, draft: Draft) -> tuple[str, str]:
    """Read a person, truck or trailer; return what it is ("people", ...) and its id.

    Raises:
        Refusal: When what comes next is none, or stands for several.
    """
    groups = _helpers(draft)
    word = line.take("truck", "trailer")
    if word:
        groups = {f"{word}s": groups[f"{word}s"]}
    known: dict[str, list[tuple[str, str]]] = {}
    for kind, things in groups.items():
        for thing in things:
            for name in _spoken(thing):
                known.setdefault(name, []).append((kind, thing.id))
    allowed = phrase(
        "a change, or the name of a truck, trailer or person followed by out, off or back"
    )
    found = line.name(known, allowed)
    if len(set(found)) > 1:
        raise Refusal(
            phrase("a name that stands for one"),
            phrase("Put 'truck' or 'trailer' before, or its id."),
        )
    return found[0]


def _spoken(thing: Helper) -> Iterable[str]:
    """Return what somebody or something is called: id, name, and the name's first word."""
    words = thing.name.casefold().split()
    return dict.fromkeys((thing.id, " ".join(words), *words[:1]))


def helper(draft: Draft, kind: str, key: str) -> Helper:
    """Return a person, truck or trailer by what it is and its id."""
    return next(one for one in _helpers(draft)[kind] if one.id == key)


def _helpers(draft: Draft) -> dict[str, Sequence[Helper]]:
    outfit = draft.outfit
    return {"trucks": outfit.trucks, "trailers": outfit.trailers, "people": outfit.people}


def away_from(draft: Draft, kind: str, key: str, first: int) -> tuple[int, ...]:
    """Return the days of an absence from ``first`` on, up to the first day it is no longer."""
    one = helper(draft, kind, key)
    away = one.off_days if isinstance(one, Person) else one.out_days
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
