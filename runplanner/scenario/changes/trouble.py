"""What has come to stand against the day of a truck that is out, and how its driver is told.

Stops to come may be left out; what is at work or aboard already can only be said.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from runplanner.daybook.trip import Call, CallKind, Job, Trip
from runplanner.days import DAY_MIN, Span, clock
from runplanner.outfit.yards import CLOSED, Yard
from runplanner.phrase import Part, Phrase, counted, joined, phrase
from runplanner.scenario.changes.clock import yard_spans
from runplanner.scenario.changes.draft import Draft
from runplanner.scenario.changes.in_store import short_loads
from runplanner.scenario.changes.out import Out, trucks_leaving, trucks_out

_FEEDING: Final = {Job.FEED, Job.STRIPS, Job.BLOCK}
"""What a yard under suspicion or at a standstill may be given where that is agreed."""


@dataclass(frozen=True, slots=True)
class Trouble:
    """A truck that is out, with the stops to come that cannot be as planned.

    Args:
        out: The truck.
        shut: Stops whose hours are shut; at other hours they may do.
        barred: Stops that no other hour makes good.
        what: What stands against them.
    """

    out: Out
    shut: tuple[Call, ...]
    barred: tuple[Call, ...]
    what: Phrase


def troubles(draft: Draft) -> list[Trouble]:
    """Return what stands against stops to come of trucks that have loaded."""
    return [one for one in (_trouble(draft, out) for out in trucks_out(draft)) if one is not None]


def _trouble(draft: Draft, out: Out) -> Trouble | None:
    stops = (*out.to_come(), *out.later_stops())
    full = [c for trip in (out.trip, *out.later_trips()) for c in _not_taken_in(draft, trip)]
    short = [call for one in short_loads(draft) for call in one.calls]
    barred = {call: why for call in stops if (why := _barred(draft, call, full=full, short=short))}
    shut = [c for c in stops if c not in barred and not _stands(draft, c, c.start_min)]
    whys = [(barred.get(call, "hours"), call) for call in stops if call in {*barred, *shut}]
    return Trouble(out, tuple(shut), tuple(barred), _what(draft, whys)) if whys else None


def _barred(
    draft: Draft, call: Call, *, full: Sequence[Call] = (), short: Sequence[Call] = ()
) -> str:
    """Return what keeps a stop from being made at any hour, or nothing."""
    yard = draft.outfit.yard(call.yard)
    held = yard.health in CLOSED and not _may_be_fed(yard, call)
    if held and call.actions:
        return yard.health.value
    return "full" if call in full else "store" if call in short else ""


def _may_be_fed(yard: Yard, call: Call) -> bool:
    return not yard.left_alone and {one.job for one in call.actions} <= _FEEDING


def _stands(draft: Draft, call: Call, from_min: int) -> bool:
    """Tell whether a stop lies in hours fit for it, from ``from_min`` to its end."""
    spans = yard_spans(draft.outfit, call, call.start_min // DAY_MIN)
    return any(s.start_min <= from_min and call.end_min <= s.end_min for s in spans)


def _what(draft: Draft, whys: Sequence[tuple[str, Call]]) -> Phrase:
    """Return in words what stands against stops, each reason once."""

    def where(reason: str) -> str:
        calls = (call for why, call in whys if why == reason)
        return ", ".join(dict.fromkeys(draft.outfit.yard(call.yard).name for call in calls))

    calls = {call for why, call in whys if why == "store"}
    said: dict[str, Phrase] = {
        "hours": phrase("hours are shut at {where}", where=where("hours")),
        "suspect": phrase("disease is suspected at {where}", where=where("suspect")),
        "standstill": phrase("a standstill holds at {where}", where=where("standstill")),
        "full": phrase(
            "the honey house is full when boxes come in from {where}", where=where("full")
        ),
        "store": joined(", ", *(one.what for one in short_loads(draft) if calls & {*one.calls})),
    }
    return joined(", ", *(said[why] for why in dict.fromkeys(why for why, _ in whys)))


def said_of(draft: Draft, trouble: Trouble) -> Phrase:
    """Return which truck is out, and what stands against its stops to come."""
    return phrase("{name} is out, and {what}", name=_truck(draft, trouble.out), what=trouble.what)


def _truck(draft: Draft, out: Out) -> str:
    return next(one.name for one in draft.outfit.trucks if one.id == out.shift.truck)


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
                lines=quoted(skips(draft, out, (*trouble.shut, *trouble.barred))),
            )
        yield from _away(draft, out)


def _at_work(draft: Draft, out: Out) -> Iterator[Phrase]:
    """Yield what stands against the stop at which a truck is at work, unless it is counted."""
    call = out.under_way(draft.now_min)
    if call is None or (out.trip.id, call.yard) in draft.counted:
        return
    why = _barred(draft, call)
    if not why and not _stands(draft, call, max(draft.now_min, call.start_min)):
        why = "hours"
    if why:
        yield phrase(
            "{name} is at work until {time}, and {what}: ring the driver, and count what was done "
            "({line})",
            name=_truck(draft, out),
            time=clock(call.end_min),
            what=_what(draft, [(why, call)]),
            line=f"'done {out.trip.id} {_names(draft, [call.yard])}: ...'",
        )


def _coming_in(draft: Draft, out: Out) -> Iterator[Phrase]:
    """Yield which boxes still come to a honey house that is full, or spins nothing after."""
    house = draft.outfit.honey_house
    for trip in (out.trip, *out.later_trips()):
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
