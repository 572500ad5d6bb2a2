"""What is at work or aboard already, or somebody away: drivers to ring, for no line mends it."""

from collections.abc import Iterator, Sequence

from runplanner.changes.cargo.loads import loaded, overloads
from runplanner.changes.draft import Draft
from runplanner.changes.road.against import (
    WAITS,
    against,
    any_meets,
    base_shut,
    boxes_of,
    emptied,
    held_by_health,
    in_fit_hours,
    out_of_order,
    sound_first,
    unloads_to_come,
)
from runplanner.changes.road.out import Out, trucks_leaving, trucks_out
from runplanner.changes.road.trouble import (
    Trouble,
    quoted,
    said_of,
    skips,
    trouble_of,
    truck_name,
    truck_said,
    what_stands,
    yard_names,
)
from runplanner.daybook.trip import Against, Call, CallKind, Trip
from runplanner.days import DAY_MIN, clock
from runplanner.outfit.own_bases import base_name
from runplanner.phrase import Part, Phrase, counted, joined, phrase


def remarks(draft: Draft) -> Iterator[Phrase]:
    """Yield what no line mends by itself: what is at work, aboard or away, and who is to know."""
    for out in trucks_out(draft):
        yield from _at_work(draft, out)
        yield from _overloaded(draft, out)
        yield from _waiting_for_load(draft, out)
        yield from _coming_in(draft, out)
        yield from _away(draft, out)
    for out in trucks_leaving(draft):
        trouble = trouble_of(draft, out)
        if trouble is not None:
            loaded = clock(out.trip.calls[0].start_min)
            yield phrase(
                "{trouble}: ring the driver; once it has loaded, at {time}, type {lines}",
                trouble=said_of(draft, trouble),
                time=loaded,
                lines=quoted(_once_loaded(draft, out, trouble)),
            )
        yield from _waiting_for_load(draft, out)
        yield from _away(draft, out)


def _at_work(draft: Draft, out: Out) -> Iterator[Phrase]:
    """Yield what stands against the stop at which a truck is at work, unless it is counted."""
    call = out.under_way(draft.now_min)
    if call is None or draft.known(out.trip.id, call):
        return
    whys = [Against.HEALTH] if held_by_health(draft, call) else []
    if not whys and not in_fit_hours(draft, call, max(draft.now_min, call.start_min)):
        whys = [Against.HOURS]
    if not whys and emptied(call):
        whys = [Against.NOTHING]
    if whys:
        yield phrase(
            "{name} is at work until {time}, and {what}: ring the driver, and count what was done "
            "({line})",
            name=truck_name(draft, out),
            time=clock(call.end_min),
            what=what_stands(draft, out, {call: whys}),
            line=f"'done {out.trip.id} {yard_names(draft, [call.yard])}: ...'",
        )


def _overloaded(draft: Draft, out: Out) -> Iterator[Phrase]:
    """Yield that what is aboard now, by the counts, is too much, and at work when to stop."""
    was = loaded(draft.outfit, out.shift, out.trip)
    at = out.begun - 1
    call = out.trip.calls[at]
    found = overloads(draft.outfit, out.shift, out.trip, at, was, there=True)
    if call not in found or draft.now_min >= out.trip.calls[out.begun].start_min:
        return
    ring = phrase(
        "{name} is out, and its load does not hold ({over}): ring the driver",
        name=truck_name(draft, out),
        over=found[call],
    )
    if out.trip.takes_too_many(call, draft.now_min):
        ring = counted(
            "{ring}; at {where} no more than {number} full box aboard: the rest stays on",
            "{ring}; at {where} no more than {number} full boxes aboard: the rest stays on",
            call.boxes_limit,
            ring=ring,
            where=yard_names(draft, [call.yard]),
        )
    yield ring


def _once_loaded(draft: Draft, out: Out, trouble: Trouble) -> list[str]:
    """Return the lines to type when a truck has loaded: another order if that is all."""
    stops = out.trip.yards()
    waits = all(WAITS.issuperset(whys) for whys in against(draft, out).values())
    if waits and not out_of_order(draft.outfit, sound_first(draft.outfit, stops)):
        return [_next(draft, out, stops)]
    return skips(draft, out, (*trouble.shut, *trouble.barred))


def _next(draft: Draft, out: Out, stops: Sequence[Call]) -> str:
    order = yard_names(draft, [call.yard for call in sound_first(draft.outfit, stops)])
    return f"next {truck_said(draft, out)}: {order}"


def _waiting_for_load(draft: Draft, out: Out) -> Iterator[Phrase]:
    """Yield which later trips are to be driven in another order once they have loaded."""
    found = against(draft, out)
    for trip in out.later_trips():
        whys = {call: found[call] for call in trip.yards() if call in found}
        if whys and all(WAITS.issuperset(mine) for mine in whys.values()):
            yield phrase(
                "{trouble}: once it has loaded, at {time}, type {lines}",
                trouble=phrase(
                    "{name} is out, and {what}",
                    name=truck_name(draft, out),
                    what=what_stands(draft, out, whys),
                ),
                time=clock(trip.calls[0].start_min),
                lines=quoted([_next(draft, out, trip.yards())]),
            )


def _coming_in(draft: Draft, out: Out) -> Iterator[Phrase]:
    """Yield which boxes still come to a honey house that is full, or spins nothing after."""
    house = draft.outfit.honey_house
    for trip in (out.trip, *out.later_trips()):
        yield from _shut_bases(draft, out, trip)
        begun = trip.calls[: out.begun] if trip is out.trip else ()
        for call in unloads_to_come(draft, trip):
            brings = {"name": truck_name(draft, out), "time": clock(call.start_min)}
            aboard = boxes_of(begun)
            if aboard and any_meets(house.full, call.start_min, call.end_min):
                yield phrase(
                    "{name} brings {boxes} at {time}, off already, and the honey house is full "
                    "then: find them a place",
                    boxes=counted("{number} box", "{number} boxes", aboard),
                    **brings,
                )
            midnight = (out.shift.day + 1) * DAY_MIN
            if any_meets(house.stopped, call.end_min, midnight):
                yield _waiting(draft, out, trip, brings)


def _shut_bases(draft: Draft, out: Out, trip: Trip) -> Iterator[Phrase]:
    """Yield when a truck comes to unload where it is shut; a full honey house is told apart."""
    house = draft.outfit.honey_house
    for at, call in enumerate(trip.calls):
        full = any_meets(house.full, call.start_min, call.end_min)
        unloads = call.kind is CallKind.UNLOAD and call.start_min > draft.now_min
        if unloads and not full and base_shut(draft.outfit, trip, at):
            yield phrase(
                "{name} comes to unload at {time}, when {where} is shut: see that it is open",
                name=truck_name(draft, out),
                time=clock(call.start_min),
                where=base_name(draft.outfit, call.place),
            )


def _waiting(draft: Draft, out: Out, trip: Trip, brings: dict[str, str]) -> Phrase:
    """Return that boxes of a trip wait to be spun, and how to leave those on that still are."""
    told = phrase(
        "{name} brings {boxes} at {time}, which wait in the honey house while nothing is spun",
        boxes=counted("{number} box", "{number} boxes", boxes_of(trip.yards())),
        **brings,
    )
    still_on = [
        call for call in trip.yards() if call.start_min > draft.now_min and boxes_of([call])
    ]
    lines = skips(draft, out, still_on)
    if not lines:
        return told
    return phrase("{told}; {lines} leaves them on", told=told, lines=quoted(lines))


def _away(draft: Draft, out: Out) -> Iterator[Phrase]:
    """Yield that somebody or something away today is out, what is presumed done, what to type."""
    whos = list(_whos_away(draft, out))
    call = out.under_way(draft.now_min)
    at_work = [] if call is None or draft.known(out.trip.id, call) else [call]
    ahead = [(trip, c) for trip in out.later_trips() for c in trip.yards()]
    ahead = [*((out.trip, c) for c in (*at_work, *out.to_come()) if c.actions), *ahead]
    if not whos or not ahead:
        return
    trip, first = ahead[0]
    lines = [f"done {trip.id} {yard_names(draft, [first.yard])}: nothing"]
    if out.begun and len(ahead) > len(at_work):
        _, following = ahead[len(at_work)]
        lines = [f"home {truck_said(draft, out)}", *skips(draft, out, [following]), *lines]
    yield phrase(
        "{name} is out, but {who}: presumed done as planned are {stops}, unless you type {lines}",
        name=truck_name(draft, out),
        who=joined(", ", *whos),
        stops=yard_names(draft, [c.yard for _, c in ahead]),
        lines=_either(lines),
    )


def _whos_away(draft: Draft, out: Out) -> Iterator[Phrase]:
    """Yield whoever and whatever is away on a day that it is out."""
    outfit, shift = draft.outfit, out.shift
    for person in outfit.people:
        if person.id in shift.crew and shift.day in person.off_days:
            yield phrase("{name} is away today", name=person.name)
    if shift.day in outfit.truck(shift.truck).out_days:
        yield phrase("it is out of use today")
    trailer = outfit.trailer(shift.trailer)
    if trailer is not None and shift.day in trailer.out_days:
        yield phrase("{name} is out of use today", name=trailer.name)


def _either(lines: Sequence[str]) -> Part:
    told: Part = f"'{lines[0]}'"
    for line in lines[1:]:
        told = phrase("{first} or {last}", first=told, last=f"'{line}'")
    return told
