"""Where yards stand: those that move, and new ones; their roads are guessed like the known."""

import re
from collections.abc import Callable
from dataclasses import replace
from typing import Final

from runplanner.changes.counts.boxes import bore_boxes
from runplanner.changes.counts.possible import refuse_boxes
from runplanner.changes.draft import Draft
from runplanner.changes.said.a_day import date_on, day
from runplanner.changes.said.count_words import BOXES, COLONIES
from runplanner.changes.said.line import Line
from runplanner.changes.said.names import a_truck, with_out_days
from runplanner.days import NEVER
from runplanner.haulage.travel import drive_min, geodesic_m, nearest_yard, road_m
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import with_yard_like
from runplanner.outfit.yards import CLOSED, Access, Health, Place, Yard
from runplanner.phrase import Number, Phrase, in_english, joined, phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.places.points import FAR_M, Point
from runplanner.scenario.values import words
from runplanner.scenario.values.figures import LATITUDE, LONGITUDE
from runplanner.scenario.yards.moves_part import lies_in

_POINT: Final = re.compile(r"([+-]?[0-9.]{1,16})\s*,?\s+([+-]?[0-9.]{1,16})")


def point(line: Line) -> Point:
    """Read a latitude and a longitude.

    Raises:
        Refusal: When there is none.
    """
    found = line.match(_POINT)
    if found is None:
        raise Refusal(
            phrase("latitude and longitude, such as -36.85 174.76"), phrase("Write both numbers.")
        )
    return LATITUDE(found[1]), LONGITUDE(found[2])


def moved(draft: Draft, yard: Yard, line: Line) -> Draft:
    """Read where, from which day, and carried by which truck a yard stands somewhere else.

    The truck may be left out; one that is named is not to be had that day.

    Raises:
        Refusal: When nothing may leave the yard, or the new place, or the day is past, or the place
            absurdly far, or there is no such truck.
    """
    if yard.health in CLOSED:
        raise _staying(yard, phrase("a yard that is neither suspect nor at a standstill"))
    there = point(line)
    if not yard.licence and lies_in(draft.outfit.areas, there):
        raise _staying(yard, phrase("a place outside restricted areas, which hives do not leave"))
    from_day = day(line, draft, needed=False)
    first = draft.today + 1
    from_day = first if from_day is None else from_day
    if from_day <= max(yard.sites[-1][0], draft.today if draft.now_min > 0 else 0):
        raise Refusal(
            phrase("a day after today and after the last move"), phrase("Check the date.")
        )
    key = f"yard-{yard.id}-moved-{len(draft.outfit.places)}"
    truck = a_truck(line, draft) if line.take("with") else ""
    grown, place = _with_place(draft, Place(key, yard.name, *there))
    told = _as_at_the_old(grown, yard).with_yard(yard.moved_by(from_day, place, truck))
    return with_out_days(told, "trucks", truck, [from_day], back=False) if truck else told


def _staying(yard: Yard, allowed: Phrase) -> Refusal:
    """Return that hives stay where they are, unless a licence allows the move."""
    cure = phrase(
        "Its hives stay. Where a licence allows the move, type that line first: {line}.",
        line=repr(f"standstill {yard.name}, licence No 17, district office"),
    )
    return Refusal(allowed, cure)


def kept_in_place(draft: Draft) -> Draft:
    """Return the draft with moves to come called off where hives are to stay, and so said.

    That is where nothing may leave the yard, or a new place lies in an area and no licence is told.
    A truck that was to carry them stays home that day, for it may be out for other reasons too.
    """
    for yard in draft.outfit.yards:
        last = _last_free(draft, yard)
        for from_day in yard.moves_after(last):
            draft = draft.noted(_stay_words(draft, yard, from_day))
        if yard.moves_after(last):
            draft = draft.with_yard(yard.staying_after(last))
    return draft


def _last_free(draft: Draft, yard: Yard) -> int:
    """Return the last day by which hives may have been moved: today, the day before an area."""
    today = max(0, draft.today)
    if yard.health in CLOSED:
        return today
    barred = (day for day, place in yard.sites
              if day > today and not yard.licence and _in_area(draft, place))  # fmt: skip
    return next(barred, NEVER) - 1


def _stay_words(draft: Draft, yard: Yard, from_day: int) -> Phrase:
    date, truck = date_on(draft, from_day), dict(yard.carried_by).get(from_day, "")
    why = (
        phrase("nothing leaves a yard that is suspect or at a standstill")
        if yard.health in CLOSED
        else phrase("without a licence they do not go into a restricted area")
    )
    said = phrase(
        "{name}: the hives stay where they are, for {why}; the move in the night before {day} is "
        "called off: ring whoever was to carry them",
        name=yard.name, why=why, day=date,
    )  # fmt: skip
    if not truck:
        return said
    truck_name = draft.outfit.truck(truck).name
    back = phrase(
        "{truck} still stays home that day; to have it, type {line}",
        truck=truck_name, line=repr(f"{truck_name} back {in_english(date)}"),
    )  # fmt: skip
    return joined("; ", said, back)


def _as_at_the_old(draft: Draft, yard: Yard) -> Draft:
    """Return the draft, with what a yard that moves keeps of its old place."""
    limits = replace(yard.access, notes="", phone="") != Access()
    kept = [
        words
        for words, there in (
            (phrase("limits of the way in"), limits),
            (phrase("notes"), yard.access.notes),
            (phrase("whom to ring"), yard.access.phone),
            (phrase("district"), yard.district),
        )
        if there
    ]
    if not kept:
        return draft
    note = phrase(
        "{name}: kept from the old place until somebody types others: {what}",
        name=yard.name,
        what=joined(", ", *kept),
    )
    return draft.noted(note)


def new_yard(draft: Draft, line: Line, like: Callable[[Line], Yard]) -> Draft:
    """Read a yard that nobody knew of: name, place, colonies and boxes.

    All else is as at the yard nearest to it, or at the one it is said to be like.

    Raises:
        Refusal: When something is lacking, or the name is taken.
    """
    outfit = draft.outfit
    name = _new_name(line, outfit)
    there = point(line)
    line.take(":")
    colonies = line.number(phrase("a number of colonies"), 500)
    line.take(*COLONIES)
    boxes = line.number(phrase("a number of boxes"), 5000)
    refuse_boxes(boxes, colonies)
    line.take(*BOXES)
    model = like(line) if line.take("like") else nearest_yard(outfit, there, outfit.yards)
    note = phrase(
        "{name}: gate and way in unknown; all that was not typed is as at {name2}",
        name=name,
        name2=model.name,
    )
    inside = lies_in(outfit.areas, there)
    names = [yard.name for yard in outfit.yards]
    key = words.slug(name, {*(yard.id for yard in outfit.yards), *words.others_names(name, names)})
    grown, place = _with_place(draft.noted(note), Place(f"yard-{key}", name, *there))
    yard = replace(
        model, id=key, name=name, sites=((0, place),), carried_by=(), colonies=colonies,
        boxes=boxes,
        brood_boxes_off=-(-model.brood_boxes_off * colonies // max(1, bore_boxes(model))),
        health=Health.STANDSTILL if inside else Health.SOUND, licence="",
        feed_agreed=False, honey_off=False, struck=0, borne=None, boxes_told=None,
        access=Access(), boards_on_min=None, boards_dead=0, held_min=None, was_held=(),
        treated_min=None, treated_told_min=0, freed_min=None,
        ready_from_day=min(max(draft.today, model.ready_from_day), model.finish_by_day),
    )  # fmt: skip
    outfit = with_yard_like(grown.outfit, yard, model)
    if outfit.open_end("blocks"):
        blocks = outfit.kit.blocks_owned + outfit.blocks_for(colonies)
        outfit = replace(outfit, kit=replace(outfit.kit, blocks_owned=blocks))
    return replace(grown, outfit=outfit)


def held_where_new(draft: Draft) -> Draft:
    """Return the draft with a note on each new yard that an area holds, by all lines."""
    known = {yard.id for yard in draft.plan.outfit.yards}
    for yard in draft.outfit.yards:
        held = yard.id not in known and yard.health is Health.STANDSTILL
        if held and _in_area(draft, yard.sites[0][1]):
            note = phrase(
                "{name}: in a restricted area, so at a standstill: nothing leaves", name=yard.name
            )
            draft = draft.noted(note)
    return draft


def _in_area(draft: Draft, place: int) -> bool:
    there = draft.outfit.places[place]
    return lies_in(draft.outfit.areas, (there.lat, there.lon))


def _new_name(line: Line, outfit: Outfit) -> str:
    found = line.match(re.compile(r"(.{1,200}?)\s+at(?=\s+[+-]?[0-9])"))
    if found is None:
        raise Refusal(
            phrase("a new yard's name and place: 'NAME at LAT LON'"),
            phrase("Write 'at' before them."),
        )
    name = words.name(found[1].strip('"\u201c\u201d\u201e'))
    taken = {yard.name.casefold() for yard in outfit.yards} | {yard.id for yard in outfit.yards}
    if name.casefold() in taken or words.unaccented(name) in taken:
        raise Refusal(phrase("a name that no yard has"), phrase("Choose another name."))
    return name


def _with_place(draft: Draft, place: Place) -> tuple[Draft, int]:
    """Return the draft with one place more, its roads worked out like the known ones, and said."""
    outfit = draft.outfit
    home = outfit.places[outfit.home.place]
    if geodesic_m((home.lat, home.lon), (place.lat, place.lon)) > FAR_M:
        raise Refusal(
            phrase("within {far} km of the base", far=FAR_M // 1000),
            phrase("Check latitude and longitude."),
        )
    detour, speed = _habit(outfit)
    metres = [
        road_m(geodesic_m((one.lat, one.lon), (place.lat, place.lon)), detour)
        for one in outfit.places
    ]
    minutes = [drive_min(one, speed) for one in metres]
    travel = replace(
        outfit.travel,
        minutes=_grown(outfit.travel.minutes, minutes),
        metres=_grown(outfit.travel.metres, metres),
        guessed=(*outfit.travel.guessed, len(outfit.places)),
    )
    note = phrase(
        "{name}: drives there are guessed by straight lines x {detour} at {speed} km/h, as on the "
        "other roads",
        name=place.name,
        detour=Number(f"{detour / 1000:.2f}"),
        speed=round(speed / 1000),
    )
    grown = replace(outfit, places=(*outfit.places, place), travel=travel)
    return replace(draft, outfit=grown).noted(note), len(outfit.places)


def _grown(
    rows: tuple[tuple[int | None, ...], ...], more: list[int]
) -> tuple[tuple[int | None, ...], ...]:
    longer = tuple((*row, cell) for row, cell in zip(rows, more, strict=True))
    return (*longer, (*more, 0))


def _habit(outfit: Outfit) -> tuple[int, int]:
    """Return detour (per mille) and speed (metres an hour) of the roads that are known."""
    travel, places = outfit.travel, outfit.places
    pairs = [
        (i, j)
        for i in range(len(places))
        for j in range(len(places))
        if i != j and travel.metres[i][j] and travel.minutes[i][j]
    ]
    road = sum(travel.metres[i][j] or 0 for i, j in pairs)
    minutes = sum(travel.minutes[i][j] or 0 for i, j in pairs)
    straight = sum(
        geodesic_m((places[i].lat, places[i].lon), (places[j].lat, places[j].lon)) for i, j in pairs
    )
    if not pairs or straight < 1:
        return 1_300, 50_000
    return max(1_000, round(road * 1000 / straight)), max(5_000, road * 60 // minutes)
