"""What has come to stand against the day of a truck that is out, and how its driver is told.

Stops to come may be left out; what is at work or aboard already can only be said.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from runplanner.daybook.trip import Against, Call, CallKind, Job, Trip
from runplanner.days import DAY_MIN, Span, clock
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import CLOSED, Health, Yard
from runplanner.phrase import Part, Phrase, counted, joined, phrase
from runplanner.scenario.changes.clock import (
    call_spans,
    given_min,
    serving,
    settled_min,
    washed_min,
)
from runplanner.scenario.changes.draft import Draft
from runplanner.scenario.changes.in_store import short_loads
from runplanner.scenario.changes.loads import loaded, overloads
from runplanner.scenario.changes.out import Out, trucks_leaving, trucks_out

_FEEDING: Final = {Job.FEED, Job.STRIPS, Job.BLOCK}
"""What a yard under suspicion or at a standstill may be given where that is agreed."""


@dataclass(frozen=True, slots=True)
class Trouble:
    """A truck that is out, with the stops to come that cannot be as planned.

    Args:
        out: The truck.
        shut: Stops that at other hours, or in another order, may do.
        barred: Stops that no other hour or order makes good.
        what: What stands against them.
        washes: Time to wash down lacks at one of them.
        behind: Where their order is all that stands against them, the sound ones of the trip
            under way, which may be left out in their place.
    """

    out: Out
    shut: tuple[Call, ...]
    barred: tuple[Call, ...]
    what: Phrase
    washes: bool
    behind: tuple[Call, ...]


_BARRED: Final = {Against.HEALTH, Against.HOUSE, Against.STORE}
_WAITS: Final = {Against.ORDER, Against.WASH}
"""What can be put right once a trip has loaded."""


def troubles(draft: Draft) -> list[Trouble]:
    """Return what stands against stops to come of trucks that have loaded."""
    return [one for one in (_trouble(draft, out) for out in trucks_out(draft)) if one is not None]


def _trouble(draft: Draft, out: Out) -> Trouble | None:
    found = {
        call: whys for call, whys in against(draft, out).items()
        if call in out.to_come() or not _WAITS.issuperset(whys)
    }  # fmt: skip
    barred = tuple(call for call, whys in found.items() if not _BARRED.isdisjoint(whys))
    shut = tuple(call for call in found if call not in barred)
    washes = any(Against.WASH in whys for whys in found.values())
    waits = all(_WAITS.issuperset(whys) for whys in found.values())
    sound = [call for call in out.to_come() if _sound(draft.outfit, call)]
    behind = tuple(sound) if waits else ()
    return Trouble(out, shut, barred, _what(draft, out, found), washes, behind) if found else None


def against(draft: Draft, out: Out) -> Mapping[Call, tuple[Against, ...]]:
    """Return the stops to come of a truck that cannot be as planned, and what is against each."""
    outfit, found = draft.outfit, {}
    short = [call for one in short_loads(draft) for call in one.calls]
    for trip in (out.trip, *out.later_trips()):
        stops = [call for call in trip.yards() if call.start_min > draft.now_min]
        full, heavy = _not_taken_in(draft, trip), _heavy(draft, out, trip)
        misplaced = out_of_order(outfit, stops)
        for call in stops:
            lacks = given_min(out.shift, call) < washed_min(outfit, out.shift, call)
            stands = {
                Against.HEALTH: _held(draft, call),
                Against.HOUSE: call in full,
                Against.STORE: call in short,
                Against.HOURS: not _stands(draft, call, call.start_min),
                Against.LOAD: call in heavy,
                Against.ORDER: call in misplaced,
                Against.WASH: lacks,
            }
            whys = tuple(why for why, so in stands.items() if so)
            if whys:
                found[call] = whys
    return found


def _heavy(draft: Draft, out: Out, trip: Trip) -> Mapping[Call, Phrase]:
    """Return the stops to come of a trip that are left with a load that does not hold."""
    begun = sum(call.start_min <= draft.now_min for call in trip.calls)
    was_g = loaded(draft.outfit, out.shift, trip).load_g
    return overloads(draft.outfit, out.shift, trip, begun, was_g)


def out_of_order(outfit: Outfit, stops: Sequence[Call]) -> list[Call]:
    """Return the stops at yards that are not sound and come before others."""
    return [one for one in stops[:-1] if not _sound(outfit, one)]


def sound_first(outfit: Outfit, stops: Sequence[Call]) -> list[Call]:
    """Return stops with those at yards that are not sound behind the others."""
    return sorted(stops, key=lambda one: not _sound(outfit, one))


def _sound(outfit: Outfit, call: Call) -> bool:
    return outfit.yard(call.yard).health is Health.SOUND


def base_shut(outfit: Outfit, trip: Trip, at: int) -> bool:
    """Tell whether a call to load or unload lies outside the hours of the base that serves it."""
    call, house = trip.calls[at], outfit.honey_house
    was = trip.calls[at - 1].after if at else call.after
    bases = serving(outfit, call, was.boxes, was.brood_boxes + was.wet)
    honey = was.boxes > 0 and house.base in bases
    midnight = call.start_min // DAY_MIN * DAY_MIN
    return (honey and _meets(house.full, call.start_min, call.end_min)) or not all(
        midnight + base.opens_min <= call.start_min and call.end_min <= midnight + base.closes_min
        for base in bases
    )


def _held(draft: Draft, call: Call) -> bool:
    """Tell whether a yard's health keeps a stop from being made at any hour."""
    yard = draft.outfit.yard(call.yard)
    return bool(call.actions) and yard.health in CLOSED and not _may_be_fed(yard, call)


def _may_be_fed(yard: Yard, call: Call) -> bool:
    return not yard.left_alone and {one.job for one in call.actions} <= _FEEDING


def _stands(draft: Draft, call: Call, from_min: int) -> bool:
    """Tell whether a stop lies in hours fit for it, from ``from_min`` to its end."""
    spans = call_spans(draft.outfit, call, call.start_min // DAY_MIN)
    settled = settled_min(draft.outfit, call) <= call.end_min
    return settled and any(
        one.start_min <= from_min and call.end_min <= one.end_min for one in spans
    )


def _what(draft: Draft, out: Out, found: Mapping[Call, Sequence[Against]]) -> Phrase:
    """Return in words what stands against stops: of each the first reason, each reason once."""
    whys = [(_reason(draft, call, against), call) for call, (against, *_) in found.items()]

    def where(reason: str) -> str:
        calls = (call for why, call in whys if why == reason)
        return ", ".join(dict.fromkeys(draft.outfit.yard(call.yard).name for call in calls))

    lacking = {call for why, call in whys if why == "store"}
    heavy = [
        over for trip in (out.trip, *out.later_trips())
        for call, over in _heavy(draft, out, trip).items() if (Against.LOAD.value, call) in whys
    ]  # fmt: skip
    said: dict[str, Phrase] = {
        "hours": phrase("hours are shut at {where}", where=where("hours")),
        "suspect": phrase("disease is suspected at {where}", where=where("suspect")),
        "standstill": phrase("a standstill holds at {where}", where=where("standstill")),
        "honey house": phrase(
            "the honey house is full when boxes come in from {where}", where=where("honey house")
        ),
        "store": joined(", ", *(one.what for one in short_loads(draft) if lacking & {*one.calls})),
        "load": phrase("its load does not hold ({over})", over=joined(", ", *heavy)),
        "order": phrase(
            "yards that are not sound come before others: {where}", where=where("order")
        ),
        "wash": phrase("time lacks to wash down at {where}", where=where("wash")),
    }
    return joined(", ", *(said[why] for why in dict.fromkeys(why for why, _ in whys)))


def _reason(draft: Draft, call: Call, against: Against) -> str:
    return draft.outfit.yard(call.yard).health.value if against is Against.HEALTH else against.value


def said_of(draft: Draft, trouble: Trouble) -> Phrase:
    """Return which truck is out, and what stands against its stops to come."""
    return phrase("{name} is out, and {what}", name=_truck(draft, trouble.out), what=trouble.what)


def _truck(draft: Draft, out: Out) -> str:
    return draft.outfit.truck(out.shift.truck).name


def _unloads(draft: Draft, trip: Trip) -> list[Call]:
    """Return the calls to come of a trip at which the honey house is to take boxes in."""
    house = draft.outfit.honey_house.base.place
    return [
        call for before, call in zip(trip.calls, trip.calls[1:], strict=False)
        if call.kind is CallKind.UNLOAD and call.place == house and before.after.boxes
        and call.start_min > draft.now_min
    ]  # fmt: skip


def _meets(spans: Iterable[Span], start_min: int, end_min: int) -> bool:
    return any(one.start_min < end_min and start_min < one.end_min for one in spans)


def _not_taken_in(draft: Draft, trip: Trip) -> list[Call]:
    """Return the stops of a trip whose boxes come to a honey house that is full by then."""
    full = draft.outfit.honey_house.full
    late = any(_meets(full, one.start_min, one.end_min) for one in _unloads(draft, trip))
    return [call for call in trip.yards() if late and _boxes([call])]


def _boxes(calls: Iterable[Call]) -> int:
    return sum(one.boxes for call in calls for one in call.actions)


def skips(draft: Draft, out: Out, calls: Sequence[Call]) -> list[str]:
    """Return the lines that leave stops to come out: one for the trip under way and each later.

    The whole of a later trip falls with one stop, so one is named that none before it goes to.
    """
    mine = [call.yard for call in out.to_come() if call in calls]
    lines = [f"skip {_names(draft, mine)}"] if mine else []
    passed = {call.yard for call in out.to_come()}
    for trip in out.later_trips():
        hit = [call.yard for call in trip.yards() if call in calls]
        if hit:
            named = next((yard for yard in hit if yard not in passed), hit[0])
            lines.append(f"skip {_names(draft, [named])}")
        passed |= {call.yard for call in trip.yards()}
    return lines


def _names(draft: Draft, yards: Iterable[str]) -> str:
    return ", ".join(draft.outfit.yard(yard).name for yard in dict.fromkeys(yards))


def quoted(lines: Sequence[str]) -> Part:
    """Return lines to type, each in quotes, the last after ``and``."""
    told: Part = f"'{lines[0]}'"
    for line in lines[1:]:
        told = phrase("{first} and {last}", first=told, last=f"'{line}'")
    return told


def remarks(draft: Draft) -> Iterator[Phrase]:
    """Yield what no line mends by itself: what is at work, aboard or away, and who is to know."""
    for out in trucks_out(draft):
        yield from _at_work(draft, out)
        yield from _overloaded(draft, out)
        yield from _waiting_for_load(draft, out)
        yield from _coming_in(draft, out)
        yield from _away(draft, out)
    for out in trucks_leaving(draft):
        trouble = _trouble(draft, out)
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
    if call is None or (out.trip.id, call.yard) in draft.counted:
        return
    whys = [Against.HEALTH] if _held(draft, call) else []
    if not whys and not _stands(draft, call, max(draft.now_min, call.start_min)):
        whys = [Against.HOURS]
    if whys:
        yield phrase(
            "{name} is at work until {time}, and {what}: ring the driver, and count what was done "
            "({line})",
            name=_truck(draft, out),
            time=clock(call.end_min),
            what=_what(draft, out, {call: whys}),
            line=f"'done {out.trip.id} {_names(draft, [call.yard])}: ...'",
        )


def _overloaded(draft: Draft, out: Out) -> Iterator[Phrase]:
    """Yield that what is aboard now, by the counts, is too much."""
    was_g = loaded(draft.outfit, out.shift, out.trip).load_g
    at = out.begun - 1
    over = overloads(draft.outfit, out.shift, out.trip, at, was_g).get(out.trip.calls[at])
    if over is not None and draft.now_min < out.trip.calls[out.begun].start_min:
        yield phrase(
            "{name} is out, and its load does not hold ({over}): ring the driver",
            name=_truck(draft, out),
            over=over,
        )


def _once_loaded(draft: Draft, out: Out, trouble: Trouble) -> list[str]:
    """Return the lines to type when a truck has loaded: another order if that is all."""
    stops = out.trip.yards()
    waits = all(_WAITS.issuperset(whys) for whys in against(draft, out).values())
    if waits and not out_of_order(draft.outfit, sound_first(draft.outfit, stops)):
        return [_next(draft, out, stops)]
    return skips(draft, out, (*trouble.shut, *trouble.barred))


def _next(draft: Draft, out: Out, stops: Sequence[Call]) -> str:
    order = _names(draft, [call.yard for call in sound_first(draft.outfit, stops)])
    return f"next {out.shift.truck}: {order}"


def _waiting_for_load(draft: Draft, out: Out) -> Iterator[Phrase]:
    """Yield which later trips are to be driven in another order once they have loaded."""
    found = against(draft, out)
    for trip in out.later_trips():
        whys = {call: found[call] for call in trip.yards() if call in found}
        if whys and all(_WAITS.issuperset(mine) for mine in whys.values()):
            yield phrase(
                "{trouble}: once it has loaded, at {time}, type {lines}",
                trouble=phrase(
                    "{name} is out, and {what}",
                    name=_truck(draft, out),
                    what=_what(draft, out, whys),
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
        for call in _unloads(draft, trip):
            brings = {"name": _truck(draft, out), "time": clock(call.start_min)}
            aboard = _boxes(begun)
            if aboard and _meets(house.full, call.start_min, call.end_min):
                yield phrase(
                    "{name} brings {boxes} at {time}, off already, and the honey house is full "
                    "then: find them a place",
                    boxes=counted("{number} box", "{number} boxes", aboard),
                    **brings,
                )
            midnight = (out.shift.day + 1) * DAY_MIN
            if _meets(house.stopped, call.end_min, midnight):
                yield _waiting(draft, out, trip, brings)


def _shut_bases(draft: Draft, out: Out, trip: Trip) -> Iterator[Phrase]:
    """Yield when a truck comes to unload where it is shut; a full honey house is told apart."""
    house = draft.outfit.honey_house
    for at, call in enumerate(trip.calls):
        full = _meets(house.full, call.start_min, call.end_min)
        unloads = call.kind is CallKind.UNLOAD and call.start_min > draft.now_min
        if unloads and not full and base_shut(draft.outfit, trip, at):
            yield phrase(
                "{name} comes to unload at {time}, when {where} is shut: see that it is open",
                name=_truck(draft, out),
                time=clock(call.start_min),
                where=draft.outfit.places[call.place].name,
            )


def _waiting(draft: Draft, out: Out, trip: Trip, brings: dict[str, str]) -> Phrase:
    """Return that boxes of a trip wait to be spun, and how to leave those on that still are."""
    told = phrase(
        "{name} brings {boxes} at {time}, which wait in the honey house while nothing is spun",
        boxes=counted("{number} box", "{number} boxes", _boxes(trip.yards())),
        **brings,
    )
    still_on = [call for call in trip.yards() if call.start_min > draft.now_min and _boxes([call])]
    lines = skips(draft, out, still_on)
    if not lines:
        return told
    return phrase("{told}; {lines} leaves them on", told=told, lines=quoted(lines))


def _away(draft: Draft, out: Out) -> Iterator[Phrase]:
    """Yield that somebody or something away today is out, what is presumed done, what to type."""
    whos = list(_whos_away(draft, out))
    call = out.under_way(draft.now_min)
    at_work = [] if call is None or (out.trip.id, call.yard) in draft.counted else [call]
    ahead = [(trip, c) for trip in out.later_trips() for c in trip.yards()]
    ahead = [*((out.trip, c) for c in (*at_work, *out.to_come()) if c.actions), *ahead]
    if not whos or not ahead:
        return
    trip, first = ahead[0]
    lines = [f"done {trip.id} {_names(draft, [first.yard])}: nothing"]
    if out.begun and len(ahead) > len(at_work):
        _, following = ahead[len(at_work)]
        lines = [f"home {out.shift.truck}", *skips(draft, out, [following]), *lines]
    yield phrase(
        "{name} is out, but {who}: presumed done as planned are {stops}, unless you type {lines}",
        name=_truck(draft, out),
        who=joined(", ", *whos),
        stops=_names(draft, [c.yard for _, c in ahead]),
        lines=_either(lines),
    )


def _whos_away(draft: Draft, out: Out) -> Iterator[Phrase]:
    """Yield whoever and whatever is away on a day that it is out."""
    outfit, shift = draft.outfit, out.shift
    for person in outfit.people:
        if person.id in shift.crew and shift.day in person.off_days:
            yield phrase("{name} is away today", name=person.name)
    for truck in outfit.trucks:
        if truck.id == shift.truck and shift.day in truck.out_days:
            yield phrase("it is out of use today")
    for trailer in outfit.trailers:
        if trailer.id == shift.trailer and shift.day in trailer.out_days:
            yield phrase("{name} is out of use today", name=trailer.name)


def _either(lines: Sequence[str]) -> Part:
    told: Part = f"'{lines[0]}'"
    for line in lines[1:]:
        told = phrase("{first} or {last}", first=told, last=f"'{line}'")
    return told
