"""How many boxes stand in a yard, by the counts of stops and of what is left."""

from dataclasses import replace
from typing import Final

from runplanner.changes.counts.counts import uncounted
from runplanner.changes.counts.driven import driven_actions, off_by
from runplanner.changes.draft import Draft
from runplanner.changes.store.stocks import with_count
from runplanner.daybook.trip import Action, Job, Trip
from runplanner.outfit.stores import Counted
from runplanner.outfit.yards import Borne, Yard
from runplanner.phrase import Phrase, counted, phrase

_MOST: Final = 100_000


def without_counts(draft: Draft, trip: Trip, yard: Yard) -> Draft:
    """Return the draft as if a trip's stops at a yard had not been counted yet.

    Where the yard's boxes are still what that count made of them, they are as planned again.
    Boxes of the dead are theirs again, as counts were when they bore them.
    """
    yard = as_borne(draft, yard)
    draft = draft.with_yard(yard)
    plain = uncounted(draft, trip, yard)
    if plain is draft:
        return draft
    return plain.with_yard(_as_planned(yard, _taken(draft, yard), _taken(plain, yard)))


def _as_planned(yard: Yard, was: tuple[int, int, int], now: tuple[int, int, int]) -> Yard:
    """Return the yard with boxes by ``now`` in place of ``was``: colonies, boxes, brood boxes.

    Where those are just their share of what was told of the yard, that holds again.
    """
    (off, boxes, brood), (again, planned, shells) = was, now
    bore = bore_boxes(yard)
    if not off or not again or yard.boxes != _expected(boxes, off, bore):
        return yard
    new, told = replace(yard, boxes=_expected(planned, again, bore)), yard.boxes_told
    if told is not None and planned == _share(told, again, bore):
        new = replace(yard, boxes=told, boxes_told=None)
    if off >= bore and yard.brood_boxes_off == brood:
        new = replace(new, brood_boxes_off=_expected(shells, again, bore))
    return new


def as_borne(draft: Draft, yard: Yard) -> Yard:
    """Return a yard with its boxes as all bore them, the dead as well, which are struck off again.

    Trips that left after the deaths were told take the boxes of the dead with the others: once
    one has taken off there, the yard stays as it is.
    """
    if yard.struck or yard.borne is None or _off_since(draft, yard, yard.borne):
        return yard
    return _all_bore(yard, yard.borne)


def _all_bore(yard: Yard, borne: Borne) -> Yard:
    return replace(yard, struck=borne.struck, boxes=borne.boxes, boxes_told=None)


def _off_since(draft: Draft, yard: Yard, borne: Borne) -> list[Action]:
    """Return the take-offs of trips that left after the deaths were told."""
    later = [shift for shift in draft.driven() if shift.start_min > borne.minute]
    calls = [call for shift in later for trip in shift.trips for call in trip.yards()]
    actions = [one for call in calls if call.yard == yard.id for one in call.actions]
    return [one for one in actions if one.job is Job.TAKE_OFF]


def with_the_dead(draft: Draft, yard: Yard, off: int) -> Yard:
    """Return a yard whose living colonies not yet off stand for all boxes that are left."""
    minute = draft.now_min if yard.borne is None else yard.borne.minute
    left = with_boxes_left(yard, off, still_there(yard, off))
    return replace(left, borne=Borne(minute, yard.struck, yard.boxes))


def bore_boxes(yard: Yard) -> int:
    """Return the colonies among which a yard's boxes are shared out, dead ones as well."""
    return yard.colonies + yard.struck


def _expected(boxes: int, off: int, colonies: int) -> int:
    """Return the boxes of a yard of which ``off`` colonies had so many; some may be dead since.

    Rounded down, for then the first ``off`` have just these as their share (`_share`).
    """
    return boxes * max(off, colonies) // off


def with_counts(draft: Draft, yard: Yard) -> Draft:
    """Return the draft with the yard's facts as the counts make them.

    The colonies still on are expected to bear what the counted ones did, unless their boxes were
    counted since; a yard that is done has had just the boxes that were counted.
    """
    off, boxes, brood = _taken(draft, yard)
    told = _as_left(draft, yard) if off < bore_boxes(yard) else None
    if told is not None:
        return draft.with_yard(told)
    yard, boxes = _by_the_living(draft, yard, off, boxes)
    draft, bore = draft.with_yard(yard), bore_boxes(yard)
    if not off or boxes == _share(yard.boxes, off, bore):
        return draft
    before = yard.boxes if yard.boxes_told is None else yard.boxes_told
    new = replace(yard, boxes=_expected(boxes, off, bore), boxes_told=before)
    if off >= bore:
        new = replace(new, brood_boxes_off=brood)
    if off < yard.colonies:
        draft = draft.noted(_expected_words(new, off))
    return draft.with_yard(new)


def _by_the_living(draft: Draft, yard: Yard, off: int, boxes: int) -> tuple[Yard, int]:
    """Return a yard, and boxes off, as its living colonies stand for those of the dead.

    Only where trips since the deaths took off there, so that the dead's came with the others.
    """
    if yard.borne is None or not (since := _off_since(draft, yard, yard.borne)):
        return yard, boxes
    before = off - sum(one.colonies for one in since)
    yard = with_the_dead(draft, _all_bore(yard, yard.borne), before)
    if off >= yard.colonies:
        return yard, boxes
    return yard, _share(yard.boxes, before, yard.colonies) + sum(one.boxes for one in since)


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
    left = still_there(yard, off)
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


def still_there(yard: Yard, off: int) -> int:
    """Return the boxes that stand in a yard of which ``off`` colonies have been taken off."""
    return yard.boxes - _share(yard.boxes, off, bore_boxes(yard))


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

    Where all living colonies are off, nothing is left there any more, nor on the dead.
    """
    came = yard.boxes - still_there(yard, off)
    yard = replace(yard, struck=0, borne=None, boxes_told=None)
    if off >= yard.colonies:
        return replace(yard, boxes=came)
    low, high = 0, _MOST
    while low < high:
        middle = (low + high) // 2
        if middle - _share(middle, off, yard.colonies) < left:
            low = middle + 1
        else:
            high = middle
    return replace(yard, boxes=low)
