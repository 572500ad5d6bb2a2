"""What to type, and to tell a driver, where the day of a truck that is out cannot be as planned."""

from collections.abc import Callable, Iterator, Sequence
from itertools import permutations
from typing import Final

from runplanner.changes.draft import Draft
from runplanner.changes.road.against import sound_first
from runplanner.changes.road.day_anew import told_anew
from runplanner.changes.road.day_limits import see_health_order
from runplanner.changes.road.driven_over import borne_too_much, brought_elsewhere
from runplanner.changes.road.out import Out
from runplanner.changes.road.ring_up import remarks
from runplanner.changes.road.trouble import (
    Trouble,
    quoted,
    said_of,
    skips,
    troubles,
    truck_said,
    yard_names,
)
from runplanner.changes.store.in_store import aboard_at_home, overdrawn
from runplanner.daybook.trip import Against, Call
from runplanner.phrase import Phrase, joined, phrase
from runplanner.scenario.faults import Refusal

_MOST_ORDERED: Final = 5
"""With more stops to come no other order is looked for."""


def advised(draft: Draft) -> Draft:
    """Return the draft with a note for each truck out whose day cannot be as planned any more.

    Stocks of which more was used than there was come first, goods aboard trucks at home, and trips
    that are over and bore too much.

    Where stops to come are in the way, the note gives the line to type: another order that
    fits, or else what to leave out.
    """
    for note in (
        *overdrawn(draft),
        *aboard_at_home(draft),
        *borne_too_much(draft),
        *brought_elsewhere(draft),
    ):
        draft = draft.noted(note)
    for trouble in troubles(draft):
        lines, then = _advice(draft, trouble)
        advice = joined(" ", quoted(lines), then)
        advice = joined("; ", advice, *_fewer(draft, trouble))
        draft = draft.noted(joined(": ", said_of(draft, trouble), advice))
    for remark in remarks(draft):
        draft = draft.noted(remark)
    return draft


def rung(draft: Draft, tell: Callable[[Draft, str], Draft]) -> Draft:
    """Return the draft with each such truck told what the advice is, as if it had been typed.

    Where even that does not fit, the truck's day stays as it was, and the note says so.

    Args:
        draft: The campaign.
        tell: Puts one line in.
    """
    for trouble in troubles(draft):
        lines, _ = _advice(draft, trouble)
        said = said_of(draft, trouble)
        try:
            new = draft.noted(
                phrase(
                    "{trouble}: ring the driver now ({names})",
                    trouble=said,
                    names=", ".join(lines),
                )
            )
            for line in lines:
                new = tell(new, line)
        except Refusal as no:
            new = draft.noted(
                phrase(
                    "{trouble}: nothing fits ({allowed}); ring the driver",
                    trouble=said,
                    allowed=no.allowed,
                )
            )
        draft = new
    return draft


def _advice(draft: Draft, trouble: Trouble) -> tuple[list[str], Phrase]:
    """Return the lines to type that lose least, as far as some fit, and what they do."""
    out, stops = trouble.out, trouble.out.to_come()
    bad = (*trouble.shut, *trouble.barred)
    late = skips(draft, out, [call for call in bad if call not in stops])
    if not any(call in stops for call in bad):
        one = len(late) == 1
        return late, phrase("calls that trip off") if one else phrase("call those trips off")
    other = (
        None
        if any(call in stops for call in trouble.barred)
        else _other_order(draft, out, washes=trouble.washes)
    )
    if other is not None:
        return [other, *late], _fit([other, *late])
    later = bool(out.later_trips())
    for gone in filter(None, (bad, trouble.behind)):
        open_still = tuple(call for call in stops if call not in gone)
        if (open_still or (later and not late)) and _goes(draft, out, open_still):
            lines = skips(draft, out, gone)
            return lines, _fit(lines)
    return [f"home {truck_said(draft, out)}"], phrase("calls it home")


def _fit(lines: Sequence[str]) -> Phrase:
    return phrase("fits") if len(lines) == 1 else phrase("fit")


def _fewer(draft: Draft, trouble: Trouble) -> Iterator[Phrase]:
    """Yield that fewer boxes are as good, where these are all that is in the way."""
    heavy = (*trouble.shut, *trouble.barred)
    trip, now_min = trouble.out.trip, draft.now_min
    few = [call for call in heavy if trip.takes_too_many(call, now_min)]
    some = all(call.boxes_limit > call.after.boxes - call.boxes() for call in few)
    if few and some and all(call.against == (Against.LOAD,) for call in heavy):
        yield phrase(
            "or fewer boxes come off at {where}: its paper, printed again, says when to stop",
            where=yard_names(draft, [call.yard for call in few]),
        )


def _other_order(draft: Draft, out: Out, *, washes: bool) -> str | None:
    """Return the line for another order of the stops to come that fits, if there is one."""
    stops = out.to_come()
    ways = [tuple(sound_first(draft.outfit, stops))]
    ways += permutations(stops) if len(stops) <= _MOST_ORDERED else []
    # The same order again gives time to wash down where that lacks.
    for way in ways:
        if (way != stops or washes) and _goes(draft, out, way):
            order_of = ", ".join(draft.outfit.yard(call.yard).name for call in way)
            return f"next {truck_said(draft, out)}: {order_of}"
    return None


def _goes(draft: Draft, out: Out, rest: Sequence[Call]) -> bool:
    try:
        see_health_order(draft, rest)
        told_anew(draft, out, rest, onward=True)
    except Refusal:
        return False
    return True
