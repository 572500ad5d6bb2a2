"""What changes in a yard: colonies, boxes, health, place; and yards that are new."""

import re
from collections.abc import Callable
from dataclasses import replace
from typing import Final

from runplanner.daybook.trip import Action, Job, Trip
from runplanner.haulage.travel import drive_min, geodesic_m, road_m
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import with_yard_like
from runplanner.outfit.stores import Counted
from runplanner.outfit.yards import CLOSED, Access, Health, Place, Yard
from runplanner.phrase import Number, Phrase, counted, joined, phrase
from runplanner.scenario import words
from runplanner.scenario.changes.count_words import at_most_all
from runplanner.scenario.changes.counts import uncounted
from runplanner.scenario.changes.draft import Draft
from runplanner.scenario.changes.driven import boards_under, driven_actions, off_by
from runplanner.scenario.changes.line import Line
from runplanner.scenario.changes.names import a_truck, with_out_days
from runplanner.scenario.changes.possible import refuse_boxes
from runplanner.scenario.changes.stocks import with_count
from runplanner.scenario.changes.when import day
from runplanner.scenario.faults import Refusal
from runplanner.scenario.figures import LATITUDE, LONGITUDE
from runplanner.scenario.points import FAR_M, Point

_POINT: Final = re.compile(r"([+-]?[0-9.]{1,16})\s*,?\s+([+-]?[0-9.]{1,16})")
_MOST: Final = 100_000


def without_counts(draft: Draft, trip: Trip, yard: Yard) -> Draft:
    """Return the draft as if a trip's stops at a yard had not been counted yet.

    Where the yard's boxes are still what that count made of them, they are as planned again.
    """
    plain = uncounted(draft, trip, yard)
    if plain is draft:
        return draft
    return plain.with_yard(_as_planned(yard, _taken(draft, yard), _taken(plain, yard)))


def _as_planned(yard: Yard, was: tuple[int, int, int], now: tuple[int, int, int]) -> Yard:
    """Return the yard with boxes by ``now`` in place of ``was``: colonies, boxes, brood boxes."""
    (off, boxes, brood), (again, planned, shells) = was, now
    bore = _bore_boxes(yard)
    if not off or not again or yard.boxes != _expected(boxes, off, bore):
        return yard
    whole = max(again, bore)
    new = replace(yard, boxes=planned * whole // again)
    if off >= bore and yard.brood_boxes_off == brood:
        new = replace(new, brood_boxes_off=shells * whole // again)
    return new


def _bore_boxes(yard: Yard) -> int:
    """Return the colonies among which a yard's boxes are shared out, dead ones as well."""
    return yard.colonies + yard.struck


def _expected(boxes: int, off: int, colonies: int) -> int:
    """Return the boxes of a yard of which ``off`` colonies had so many; some may be dead since."""
    return -(-boxes * max(off, colonies) // off)


def with_counts(draft: Draft, yard: Yard) -> Draft:
    """Return the draft with the yard's facts as the counts make them.

    The colonies still on are expected to bear what the counted ones did, unless their boxes were
    counted since; a yard that is done has had just the boxes that were counted.
    """
    off, boxes, brood = _taken(draft, yard)
    bore = _bore_boxes(yard)
    told = _as_left(draft, yard) if off < bore else None
    if told is not None:
        return draft.with_yard(told)
    if not off or boxes == _share(yard.boxes, off, bore):
        return draft
    new = replace(yard, boxes=_expected(boxes, off, bore))
    if off >= bore:
        new = replace(new, brood_boxes_off=brood)
    if off < yard.colonies:
        draft = draft.noted(_expected_words(new, off))
    return draft.with_yard(new)


def _as_left(draft: Draft, yard: Yard) -> Yard | None:
    """Return the yard with as many boxes as were left when those were last counted.

    None where they were not, where a stop that has begun since is counted, or where no colony
    had honey on any more.
    """
    told = next((one for one in draft.outfit.counted if one.what == _boxes_of(yard)), None)
    if told is None or told.left is None:
        return None
    minute = told.minute
    here = [call for trip in draft.driven_trips() for call in trip.yards() if call.yard == yard.id]
    if any(call.counted is not None for call in here if call.start_min > minute):
        return None
    off = off_by(draft, yard.id, Job.TAKE_OFF, lambda call: call.start_min <= minute)
    return with_boxes_left(yard, off, told.left) if off < yard.colonies else None


def _boxes_of(yard: Yard) -> str:
    return f"boxes {yard.id}"


def _expected_words(yard: Yard, off: int) -> Phrase:
    left = _still_there(yard, off)
    return phrase(
        "{name}: by this count {boxes} expected on {colonies} still on",
        name=yard.name,
        boxes=counted("{number} box is", "{number} boxes are", left),
        colonies=counted("the {number} colony", "the {number} colonies", yard.colonies - off),
    )


def _taken(draft: Draft, yard: Yard) -> tuple[int, int, int]:
    """Return colonies, boxes and brood boxes that driven trips took off."""
    actions: list[Action] = [
        one for one in driven_actions(draft, yard.id) if one.job is Job.TAKE_OFF
    ]
    return (
        sum(one.colonies for one in actions),
        sum(one.boxes for one in actions),
        sum(one.brood_boxes for one in actions),
    )


def _share(total: int, done: int, colonies: int) -> int:
    return -(-min(done, colonies) * total // colonies) if colonies else 0


def _still_there(yard: Yard, off: int) -> int:
    """Return the boxes that stand in a yard of which ``off`` colonies have been taken off."""
    return yard.boxes - _share(yard.boxes, off, _bore_boxes(yard))


def boxes_counted(draft: Draft, yard: Yard, left: int) -> Draft:
    """Return the draft with so many boxes on the colonies that no stop begun by now took off.

    That holds when such stops are counted later; what their counts led to expect is unsaid.
    """
    words = _expected_words(yard, off_by(draft, yard.id, Job.TAKE_OFF))
    draft = replace(draft, notes=tuple(one for one in draft.notes if one != words))
    off = off_by(draft, yard.id, Job.TAKE_OFF, draft.begun)
    draft = draft.with_yard(with_boxes_left(yard, off, left))
    return with_count(draft, Counted(_boxes_of(yard), draft.now_min, 0, left))


def with_boxes_left(yard: Yard, off: int, left: int) -> Yard:
    """Return the yard with a total of boxes that leaves ``left`` on those not yet off.

    Where all living colonies are off, nothing is left there any more.
    """
    yard = replace(yard, struck=0)
    if off >= yard.colonies:
        return yard
    low, high = 0, _MOST
    while low < high:
        middle = (low + high) // 2
        if middle - _share(middle, off, yard.colonies) < left:
            low = middle + 1
        else:
            high = middle
    return replace(yard, boxes=low)


def fewer(draft: Draft, yard: Yard, gone: int) -> Draft:
    """Return the draft with ``gone`` colonies fewer; boxes still on stay to be taken off.

    Where no living colony has honey on, now or by what trips that have left are to do, those on
    the dead are known to stand there (`left_with_the_dead`).  Their boards stay where they lie
    until the yard's last take-off lifts them too.

    Raises:
        Refusal: When the yard has not so many.
    """
    if gone > yard.colonies:
        raise Refusal(at_most_all(yard), phrase("Count again."))
    off = off_by(draft, yard.id, Job.TAKE_OFF)
    new = replace(yard, colonies=yard.colonies - gone)
    if yard.boards_on_min is not None:
        new = replace(new, boards_dead=yard.boards_dead + gone)
    if off < new.colonies:
        return draft.with_yard(with_boxes_left(new, off, _still_there(yard, off)))
    return draft.with_yard(replace(new, struck=yard.struck + gone))


def left_with_the_dead(draft: Draft) -> Draft:
    """Return the draft with what lies in yards where no living colony has honey on any more.

    No visit is planned for it: visits go to colonies.  Where it turns out that some have, by a
    count or a stop left out since, they take the boxes of the dead with them.
    """
    for yard in draft.outfit.yards:
        off = off_by(draft, yard.id, Job.TAKE_OFF)
        if yard.struck and off < yard.colonies:
            draft = draft.with_yard(with_boxes_left(yard, off, _still_there(yard, off)))
        elif yard.struck:
            draft = _abandoned(draft, yard, _still_there(yard, off))
    return draft


def _abandoned(draft: Draft, yard: Yard, boxes: int) -> Draft:
    done = [] if yard.colonies else driven_actions(draft, yard.id)
    boards = boards_under(draft, yard)
    feeders = sum(one.feeders - one.feeders_off for one in done)
    wet = sum(one.wet if one.job is Job.WET_UP else -one.wet for one in done)
    lying = [
        (boxes, counted("{number} honey box", "{number} honey boxes", boxes)),
        (boards, counted("{number} board", "{number} boards", boards)),
        (feeders, counted("{number} feeder", "{number} feeders", feeders)),
        (wet, counted("{number} wet box", "{number} wet boxes", wet)),
    ]
    there = [said for number, said in lying if number > 0]
    if not there:
        return draft
    what, line = joined(", ", *there), f"'boxes left 0 {yard.name}'"
    if yard.health in CLOSED:
        stays = phrase(
            "{name}: {what}; nothing leaves a yard that is suspect or at a standstill, nor is it "
            "fed while honey is there: shut all bee-tight where it stands, ask the inspector, and "
            "once it is gone, type {line}",
            name=yard.name, what=what, line=line,
        )  # fmt: skip
        return draft.left_there(stays)
    return draft.left_there(
        phrase(
            "{name}: {what}; where no living colony has honey on, fetch by hand what is left; the "
            "plan does not count on boards that lie there; once all is fetched, type {line}",
            name=yard.name, what=what, line=line,
        )
    )  # fmt: skip


def ailing(draft: Draft, yard: Yard, health: Health, *, feed_agreed: bool) -> Draft:
    """Return the draft with the yard's health, and whether it may be fed without honey on.

    A licence holds for the standstill it was given for: told otherwise, the yard has none.
    """
    new = replace(yard, health=health, feed_agreed=feed_agreed, licence="")
    return draft.with_yard(new if health is not yard.health else replace(new, licence=yard.licence))


def bared(draft: Draft) -> Draft:
    """Return the draft with whether honey is off of closed yards whose feeding is agreed.

    Only stops that are over tell, so a line that is read later, or another day, may change it.
    Honey left on the dead is on as any other.
    """
    for yard in draft.outfit.yards:
        asked = yard.health in CLOSED and yard.feed_agreed
        off = asked and _is_bare(draft, yard)
        draft = draft if off == yard.honey_off else draft.with_yard(replace(yard, honey_off=off))
    return draft


def _is_bare(draft: Draft, yard: Yard) -> bool:
    done = driven_actions(draft, yard.id, lambda call: call.end_min <= draft.now_min)
    off = sum(one.colonies for one in done if one.job is Job.TAKE_OFF)
    up, down = (
        sum(one.wet for one in done if one.job is job) for job in (Job.WET_UP, Job.WET_DOWN)
    )
    return off >= yard.colonies and not _still_there(yard, off) and up <= down


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
        Refusal: When the day is past, or the place absurdly far, or there is no such truck.
    """
    there = point(line)
    from_day = day(line, draft, needed=False)
    first = draft.today + 1
    from_day = first if from_day is None else from_day
    if from_day <= max(yard.sites[-1][0], draft.today if draft.now_min > 0 else 0):
        raise Refusal(
            phrase("a day after today and after the last move"), phrase("Check the date.")
        )
    key = f"yard-{yard.id}-moved-{len(yard.sites)}"
    truck = a_truck(line, draft) if line.take("with") else ""
    grown, place = _with_place(draft, Place(key, yard.name, *there))
    told = _as_at_the_old(grown, yard).with_yard(yard.moved_by(from_day, place, truck))
    return with_out_days(told, "trucks", truck, [from_day], back=False) if truck else told


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
    line.take("colonies", "colony", "hives", "hive")
    boxes = line.number(phrase("a number of boxes"), 5000)
    refuse_boxes(boxes, colonies)
    line.take("boxes", "box")
    model = like(line) if line.take("like") else _nearest(outfit, there)
    note = phrase(
        "{name}: gate and way in unknown; all that was not typed is as at {name2}",
        name=name,
        name2=model.name,
    )
    names = [yard.name for yard in outfit.yards]
    key = words.slug(name, {*(yard.id for yard in outfit.yards), *words.others_names(name, names)})
    grown, place = _with_place(draft.noted(note), Place(f"yard-{key}", name, *there))
    yard = replace(
        model, id=key, name=name, sites=((0, place),), carried_by=(), colonies=colonies,
        boxes=boxes,
        brood_boxes_off=-(-model.brood_boxes_off * colonies // max(1, model.colonies)),
        health=Health.SOUND, licence="", feed_agreed=False, honey_off=False, struck=0,
        access=Access(), boards_on_min=None, boards_dead=0,
        ready_from_day=min(max(draft.today, model.ready_from_day), model.finish_by_day),
    )  # fmt: skip
    return replace(grown, outfit=with_yard_like(grown.outfit, yard, model))


def _new_name(line: Line, outfit: Outfit) -> str:
    found = line.match(re.compile(r"(.{1,200}?)\s+at(?=\s+[+-]?[0-9])"))
    if found is None:
        raise Refusal(
            phrase("a new yard's name and place: 'NAME at LAT LON'"),
            phrase("Write 'at' before them."),
        )
    name = words.name(found[1].strip('"'))
    taken = {yard.name.casefold() for yard in outfit.yards} | {yard.id for yard in outfit.yards}
    if name.casefold() in taken or words.unaccented(name) in taken:
        raise Refusal(phrase("a name that no yard has"), phrase("Choose another name."))
    return name


def _nearest(outfit: Outfit, there: Point) -> Yard:
    def away(yard: Yard) -> tuple[float, str]:
        place = outfit.places[yard.sites[-1][1]]
        return geodesic_m((place.lat, place.lon), there), yard.id

    return min(outfit.yards, key=away)


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
