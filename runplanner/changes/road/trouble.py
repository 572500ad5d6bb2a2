"""What has come to stand against the day of a truck that is out, in words and as lines to type.

Stops to come may be left out.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from runplanner.changes.draft import Draft
from runplanner.changes.road.against import WAITS, against, comes_from, is_sound, overloaded
from runplanner.changes.road.out import Out, trucks_out
from runplanner.changes.said.line import Line
from runplanner.changes.said.names import helpers_called
from runplanner.changes.store.in_store import short_loads
from runplanner.daybook.trip import Against, Call
from runplanner.phrase import Part, Phrase, joined, phrase

_SIGNS: Final = frozenset(",:;#()")
"""Signs by which a line is parted."""


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


_BARRED: Final = {Against.HEALTH, Against.BEHIND, Against.HOUSE, Against.STORE, Against.NOTHING}


def troubles(draft: Draft) -> list[Trouble]:
    """Return what stands against stops to come of trucks that have loaded."""
    return [one for one in (trouble_of(draft, out) for out in trucks_out(draft)) if one is not None]


def trouble_of(draft: Draft, out: Out) -> Trouble | None:
    """Return what stands against stops to come of one truck; None where nothing does."""
    found = {
        call: whys for call, whys in against(draft, out).items()
        if call in out.to_come() or not WAITS.issuperset(whys)
    }  # fmt: skip
    barred = tuple(call for call, whys in found.items() if not _BARRED.isdisjoint(whys))
    shut = tuple(call for call in found if call not in barred)
    washes = any(Against.WASH in whys for whys in found.values())
    waits = all(WAITS.issuperset(whys) for whys in found.values())
    sound = [call for call in out.to_come() if is_sound(draft.outfit, call)]
    behind = tuple(sound) if waits else ()
    return (
        Trouble(out, shut, barred, what_stands(draft, out, found), washes, behind)
        if found
        else None
    )


def what_stands(draft: Draft, out: Out, found: Mapping[Call, Sequence[Against]]) -> Phrase:
    """Return in words what stands against stops: of each the first reason, each reason once."""
    whys = [(_reason(draft, call, against), call) for call, (against, *_) in found.items()]

    def where(reason: str) -> str:
        calls = (call for why, call in whys if why == reason)
        return ", ".join(dict.fromkeys(draft.outfit.yard(call.yard).name for call in calls))

    lacking = {call for why, call in whys if why == "store"}
    been = [
        one.yard for why, call in whys if why == "behind"
        for one in comes_from(draft, out.trip, call)
    ]  # fmt: skip
    heavy = [
        over for trip in (out.trip, *out.later_trips())
        for call, over in overloaded(draft, out, trip).items() if (Against.LOAD.value, call) in whys
    ]  # fmt: skip
    said: dict[str, Phrase] = {
        "hours": phrase("hours are shut at {where}", where=where("hours")),
        "suspect": phrase("disease is suspected at {where}", where=where("suspect")),
        "standstill": phrase("a standstill holds at {where}", where=where("standstill")),
        "honey house": phrase(
            "the honey house is full when boxes come in from {where}", where=where("honey house")
        ),
        "store": joined(", ", *(one.what for one in short_loads(draft) if lacking & {*one.calls})),
        "nothing to do": phrase(
            "by the counts nothing is to be done at {where}", where=where("nothing to do")
        ),
        "load": phrase("its load does not hold ({over})", over=joined(", ", *heavy)),
        "order": phrase(
            "yards that are not sound come before others: {where}", where=where("order")
        ),
        "behind": phrase(
            "from {yards} (not sound) it goes on to {where}",
            yards=yard_names(draft, been),
            where=where("behind"),
        ),
        "wash": phrase("time lacks to wash down at {where}", where=where("wash")),
    }
    return joined(", ", *(said[why] for why in dict.fromkeys(why for why, _ in whys)))


def _reason(draft: Draft, call: Call, against: Against) -> str:
    return draft.outfit.yard(call.yard).health.value if against is Against.HEALTH else against.value


def said_of(draft: Draft, trouble: Trouble) -> Phrase:
    """Return which truck is out, and what stands against its stops to come."""
    return phrase(
        "{name} is out, and {what}", name=truck_name(draft, trouble.out), what=trouble.what
    )


def truck_name(draft: Draft, out: Out) -> str:
    """Return the name of a truck that is out."""
    return draft.outfit.truck(out.shift.truck).name


def truck_said(draft: Draft, out: Out) -> str:
    """Return a truck as a line may name it: by its id where its name would be read otherwise."""
    name, known = truck_name(draft, out), helpers_called(draft)
    line = Line(name)
    alone = line.meant(known) == [("trucks", out.shift.truck)] and line.done()
    return name if alone and not set(name) & set(_SIGNS) else out.shift.truck


def skips(draft: Draft, out: Out, calls: Sequence[Call]) -> list[str]:
    """Return the lines that leave stops to come out: one for the trip under way and each later.

    The whole of a later trip falls with one stop, so one is named that none before it goes to.
    """
    mine = [call.yard for call in out.to_come() if call in calls]
    lines = [f"skip {yard_names(draft, mine)}"] if mine else []
    passed = {call.yard for call in out.to_come()}
    for trip in out.later_trips():
        hit = [call.yard for call in trip.yards() if call in calls]
        if hit:
            named = next((yard for yard in hit if yard not in passed), hit[0])
            lines.append(f"skip {yard_names(draft, [named])}")
        passed |= {call.yard for call in trip.yards()}
    return lines


def yard_names(draft: Draft, yards: Iterable[str]) -> str:
    """Return the names of yards told by id, each once, with commas."""
    return ", ".join(draft.outfit.yard(yard).name for yard in dict.fromkeys(yards))


def quoted(lines: Sequence[str]) -> Part:
    """Return lines to type, one at least, each in quotes, the last after ``and``."""
    told: Part = f"'{lines[0]}'"
    for line in lines[1:]:
        told = phrase("{first} and {last}", first=told, last=f"'{line}'")
    return told
