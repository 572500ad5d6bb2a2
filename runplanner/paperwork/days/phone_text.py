"""One day as short plain texts, to send by phone to whoever has no paper.

Plain Latin letters as far as names allow.  A day too long for one text becomes several,
numbered, with a blank line between them; they part between trips or people, and nothing is
left out.  Numbers to ring, notes, keys and dogs stay on the drivers' papers.
"""

from collections.abc import Iterator
from itertools import groupby
from typing import NamedTuple

from runplanner.daybook.honey_line import honey_arrival
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, CallKind, Shift, Trip
from runplanner.days import clock, day_of
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.days.day_sheet import load_words, shifts_on
from runplanner.paperwork.days.phone_stop import span_text, stop_text
from runplanner.paperwork.driver.lifting import heavy_cans
from runplanner.paperwork.driver.loading import fills, for_no_stop, on_each
from runplanner.paperwork.escape import message_text
from runplanner.paperwork.lists.cover_list import lines_on
from runplanner.paperwork.lists.held import held_on, is_closed
from runplanner.paperwork.speech.own_way import own_ways
from runplanner.paperwork.speech.say import (
    count,
    date_words,
    litres,
    people_names,
    place_name,
    tenths,
    vehicle_name,
    yard_named,
)
from runplanner.paperwork.speech.substances import (
    air_in_short,
    burns,
    called,
    kinds_in,
    names_substance,
    off_feeder,
)
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.speech.trip_state import TripState, trip_state
from runplanner.paperwork.stop.base_breaks import base_breaks
from runplanner.paperwork.stop.hives_carried import carried_in
from runplanner.paperwork.stop.unloading import take_back, wet_home

LONGEST = 999
"""Characters of one text at most, its last line end among them."""
MOST_TEXTS = 99


class Entry(NamedTuple):
    """What stays in one text where it can: a trip, or what somebody does inside.

    ``head`` names truck and crew and stands above the first of their trips in each text;
    empty for other lines.
    """

    head: str
    lines: tuple[str, ...]


def phone_text(plan: Plan, day: int) -> str:
    """Return ``day`` in texts of fewer than 1000 characters, each ending in a line end.

    A single line longer than that, of very many names, is a text all the same.
    """
    date, entries = date_words(plan.outfit, day), list(_entries(plan, day))
    texts = _texts(entries, LONGEST - len(date) - 1)
    if len(texts) == 1:
        return _text([date, *texts[0]])
    texts = _texts(entries, LONGEST - len(_numbered(date, MOST_TEXTS, MOST_TEXTS)) - 1)
    return "\n".join(
        _text([_numbered(date, number, len(texts)), *lines])
        for number, lines in enumerate(texts, start=1)
    )


def _numbered(date: str, number: int, texts: int) -> str:
    return tr("{date} ({number} of {all})", date=date, number=number, all=texts)


def _text(lines: list[str]) -> str:
    return "\n".join(lines) + "\n"


def _size(lines: list[str]) -> int:
    """Return the characters of lines with their ends."""
    return sum(len(line) + 1 for line in lines)


def _texts(entries: list[Entry], room: int) -> list[list[str]]:
    """Return the lines of as few texts of ``room`` characters as the order allows."""
    texts: list[list[str]] = [[]]
    above = ""
    for entry in entries:
        for part in _kept(entry, room):
            lines = [*([entry.head] if entry.head not in {"", above} else []), *part]
            if texts[-1] and _size([*texts[-1], *lines]) > room:
                texts.append([])
                lines = [*([entry.head] if entry.head else []), *part]
            texts[-1] += lines
            above = entry.head
    return texts


def _kept(entry: Entry, room: int) -> Iterator[tuple[str, ...]]:
    """Yield what must stay together: the whole entry, or its lines where it fills a text."""
    if _size([entry.head, *entry.lines]) <= room:
        yield entry.lines
    else:
        yield from ((line,) for line in entry.lines)


def _entries(plan: Plan, day: int) -> Iterator[Entry]:
    for shift in shifts_on(plan, day):
        yield from _shift(plan, shift)
    for line in _inside(plan, day):
        yield Entry("", (line,))
    for what in carried_in(plan, day):
        yield Entry("", (tr("Night: {what}", what=message_text(what)),))


def _inside(plan: Plan, day: int) -> Iterator[str]:
    """Yield what is done in honey house and feed store, what is not, breaks, and what runs out."""
    for lot in held_on(plan, day):
        yard = message_text(yard_named(plan.outfit, lot.yard))
        which = {
            "boxes": count(lot.held, "box", "boxes"), "lot": message_text(lot.code), "yard": yard,
        }  # fmt: skip
        if is_closed(plan, lot):
            words = mark("! Do not spin {boxes} of {lot} {yard}: stack apart, ask the inspector")
            yield tr(words, **which)
        if lot.strips_min is not None:
            words = mark("! Do not spin {boxes} of {lot} {yard}: strips were in, not for people")
            yield tr(words, **which)
    for spin in plan.spinning:
        if day_of(spin.start_min) == day:
            who = message_text(people_names(plan.outfit, spin.people))
            when, boxes = span_text(spin.start_min, spin.end_min), count(spin.boxes, "box", "boxes")
            yield tr("Spin {times}: {who}, {boxes}", times=when, who=who, boxes=boxes)
    for mix in plan.mixing:
        if day_of(mix.start_min) == day:
            who = message_text(people_names(plan.outfit, (mix.person,)))
            when, made = span_text(mix.start_min, mix.end_min), litres(mix.ml)
            yield tr("Mix {times}: {who}, {litres}", times=when, who=who, litres=made)
    for span, people in base_breaks(plan, day):
        who = message_text(people_names(plan.outfit, people))
        yield tr("Break {times}: {who}", times=span_text(*span), who=who)
    yield from own_ways(plan, day)
    for line in lines_on(plan, day):
        at, yard, number = line.ends[-5:], message_text(line.yard), line.colonies
        yield tr("Runs out {time}: {yard}, {number} col", time=at, yard=yard, number=number)


def _shift(plan: Plan, shift: Shift) -> Iterator[Entry]:
    """Yield the trips of a truck's day, each with the breaks that begin before the next."""
    truck = message_text(vehicle_name(plan.outfit, shift.truck))
    pulls = f"+{message_text(vehicle_name(plan.outfit, shift.trailer))}" if shift.trailer else ""
    crew = message_text(people_names(plan.outfit, shift.crew))
    head = f"{truck}{pulls} {span_text(shift.start_min, shift.end_min)} {crew}"
    breaks = sorted(shift.breaks)
    nexts = (*(trip.calls[0].start_min for trip in shift.trips[1:]), shift.end_min)
    for trip, until in zip(shift.trips, nexts, strict=True):
        here = [span for span in breaks if span.start_min < until]
        breaks = breaks[len(here) :]
        rests = (tr("Break {times}", times=span_text(*span)) for span in here)
        yield Entry(head, (*_trip(plan, shift, trip), *rests))


def _trip(plan: Plan, shift: Shift, trip: Trip) -> Iterator[str]:
    yield _load(plan, shift, trip)
    for number, call in enumerate(trip.yards(), start=1):
        yield stop_text(plan, shift, trip, call, number)
    for call in trip.calls:
        if call.kind is CallKind.UNLOAD:
            yield _back(plan, trip, call)


def _back(plan: Plan, trip: Trip, call: Call) -> str:
    """Return an unloading call, with its place where honey house and feed store lie apart."""
    outfit, at = plan.outfit, clock(call.arrive_min)
    head = tr("Back {time}", time=at)
    if outfit.honey_house.base.place != outfit.feed_store.place:
        place = message_text(place_name(outfit, call.place))
        head = tr("Back at {place} {time}", place=place, time=at)
    off = []
    if call is honey_arrival(plan, trip):
        off.append(count(trip.boxes(), "box", "boxes"))
    if wet := wet_home(outfit, trip, call):
        off.append(count(wet, "wet box", "wet boxes"))
    if off:
        head = f"{head}: {', '.join(off)}"
    on = map(message_text, take_back(outfit, trip) if call == trip.calls[-1] else ())
    return "\n! ".join((head, *on))


def _load(plan: Plan, shift: Shift, trip: Trip) -> str:
    """Return what is loaded and filled on one line, and on a second what it asks of hands."""
    outfit, to_load = plan.outfit, trip_state(plan, trip) is TripState.TO_LOAD
    at, words = clock(trip.calls[0].start_min), load_words(outfit, trip)
    # Substances are as people typed them.
    goods = message_text(words) if names_substance(outfit) else words
    head = mark("Load {time}: {goods}") if to_load else mark("Loaded {time}: {goods}")
    line = tr(head, time=at, goods=goods)
    filled = ", ".join(_filled(outfit, shift, trip))
    if filled:
        fill = mark("{load}. Fill {containers}")
        words = fill if to_load else mark("{load}. Filled {containers}")
        line = tr(words, load=line, containers=filled)
    stowed = (f"{one.where}: {one.what}" for one in on_each(outfit, shift, trip))
    asked = "; ".join((
        *map(message_text, stowed), *_strips_out(outfit, trip), *_cans(outfit, shift, trip),
        *_for_no_stop(outfit, trip),
    ))  # fmt: skip
    return f"{line}\n! {asked}" if asked else line


def _for_no_stop(outfit: Outfit, trip: Trip) -> Iterator[str]:
    if goods := for_no_stop(outfit, trip):
        yield tr("for no stop: {goods}", goods=goods)


def _filled(outfit: Outfit, shift: Shift, trip: Trip) -> Iterator[str]:
    """Yield each kind of container and what goes into each: "Can: 2x25+20 L"."""
    kinds: dict[str, list[str]] = {}
    for fill in fills(outfit, shift, trip):
        name = fill.name
        if shift.trailer:
            vehicle = vehicle_name(outfit, shift.trailer if fill.behind else shift.truck)
            name = tr("{container} on {vehicle}", container=name, vehicle=vehicle)
        kinds.setdefault(message_text(name), []).append(tenths(fill.ml))
    for name, each in kinds.items():
        lots = ((len(list(same)), amount) for amount, same in groupby(each))
        amounts = "+".join(f"{number}x{one}" if number > 1 else one for number, one in lots)
        yield tr("{container}: {amounts} L", container=name, amounts=amounts)


def _strips_out(outfit: Outfit, trip: Trip) -> Iterator[str]:
    """Yield what burns and where it rides, the air that strips bear, and where none may lie."""
    if burns(outfit, trip):
        yield tr("strips corrosive: gloves, eyes; on deck, sealed, off the honey, no closed cab")
    kinds = kinds_in(outfit, trip)
    limits = dict.fromkeys(map(air_in_short, kinds))
    yield from (message_text(words) for words in limits if words)
    for substance in dict.fromkeys(called(kind.substance) for kind in kinds if off_feeder(kind)):
        yield tr(
            "{substance}: in the hive, keep it away from the feeder",
            substance=message_text(substance),
        )


def _cans(outfit: Outfit, shift: Shift, trip: Trip) -> Iterator[str]:
    cans = heavy_cans(outfit, shift, trip)
    if cans:
        yield tr("full {cans}: do not lift, fill on deck", cans=message_text(", ".join(cans)))
