"""How much a count can be at most, so that a slip of one digit does not call a campaign off.

As much as was planned always passes: colonies may have died since, whose boxes were there.
Nothing is refused for its mass: loads heavier than planned do happen.
"""

from typing import Final

from runplanner.changes.counts.driven import boards_under, boxes_off, driven_actions
from runplanner.changes.draft import Draft
from runplanner.changes.said.count_words import Counts
from runplanner.changes.store.stocks import boards_moved
from runplanner.daybook.trip import Action, Job, Trip
from runplanner.outfit.stores import shortage
from runplanner.outfit.yards import Yard
from runplanner.phrase import Phrase, counted, phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.parts.season_part import MOST_BLOCKS_PER_COLONY
from runplanner.scenario.yards.yard_row import MOST_BOXES_PER_COLONY

_AGAIN: Final = phrase("Count again.")
_BOARDS_AGAIN: Final = phrase("Count again, and first where other boards are taken to lie.")
_BLOCKS_AGAIN: Final = phrase(
    "Count again; where more were bought, say 'blocks left N' in a run before."
)


def refuse_boxes(boxes: int, colonies: int, known: int = 0) -> None:
    """See that so many boxes can stand on so many colonies; as many as were known can.

    Raises:
        Refusal: When they cannot.
    """
    most = max(known, MOST_BOXES_PER_COLONY * colonies)
    if boxes > most:
        each = MOST_BOXES_PER_COLONY
        raise Refusal(phrase("at most {each} a colony, {most} here", each=each, most=most), _AGAIN)


def refuse_slips(planned: Trip, after: Draft, yard: Yard, counts: Counts) -> None:
    """See that ``planned`` can have done at ``yard`` what was counted, as ``after`` has it.

    Raises:
        Refusal: When it cannot; with what is possible, was planned, and is owned.
    """
    done = after.driven_trip(planned.id)
    was, now = _at(planned, yard), _at(done, yard)
    _refuse_boxes_off(was, now, counts)
    _refuse_boards(was, now, after, yard, counts)
    _refuse_blocks(was, now, after, yard)
    for job in (Job.WET_DOWN, Job.WET_UP):
        _refuse_wet(_wet(was, job), _wet(now, job), boxes_off(after, yard.id))


def _at(trip: Trip, yard: Yard) -> list[Action]:
    return [one for call in trip.yards() if call.yard == yard.id for one in call.actions]


def _refuse_boxes_off(was: list[Action], now: list[Action], counts: Counts) -> None:
    off = sum(one.colonies for one in now if one.job is Job.TAKE_OFF)
    boxes, brood = sum(one.boxes for one in was), sum(one.brood_boxes for one in was)
    for word, what, due in (
        ("boxes", phrase("boxes"), boxes),
        ("brood", phrase("brood boxes"), brood),
    ):
        most = max(due, MOST_BOXES_PER_COLONY * off) if off else 0
        if counts.get(word, 0) > most:
            allowed = phrase(
                "at most {most} {what} here, {each} for each colony off; {planned} were planned",
                most=most,
                what=what,
                each=MOST_BOXES_PER_COLONY,
                planned=due,
            )
            raise Refusal(allowed, _AGAIN)


def _refuse_boards(
    was: list[Action], now: list[Action], after: Draft, yard: Yard, counts: Counts
) -> None:
    planned, laid = _pieces(was, Job.BOARDS), _pieces(now, Job.BOARDS)
    crowd = boards_under(after, yard) - yard.colonies
    if not planned:
        planned, laid = sum(one.boards_off for one in was), counts.get("boards", 0)
        crowd = laid - yard.colonies
    short = _boards_short(after)
    most = max(planned, laid - max(0, crowd, short))
    if laid > most:
        cure = _BOARDS_AGAIN if short > max(0, crowd) else _AGAIN
        owned = after.outfit.kit.boards_now
        raise Refusal(_most_pieces(phrase("boards"), most, planned, 1, owned), cure)


def _refuse_blocks(was: list[Action], now: list[Action], after: Draft, yard: Yard) -> None:
    planned, given = _pieces(was, Job.BLOCK), _pieces(now, Job.BLOCK)
    each, owned = MOST_BLOCKS_PER_COLONY, after.outfit.kit.blocks_owned
    short = _pieces(driven_actions(after), Job.BLOCK) - owned
    crowd = given - each * yard.colonies
    most = max(planned, given - max(0, crowd, short))
    if given > most:
        cure = _BLOCKS_AGAIN if short > max(0, crowd) else _AGAIN
        raise Refusal(_most_pieces(phrase("blocks"), most, planned, each, owned), cure)


def _refuse_wet(planned: int, told: int, came_off: int) -> None:
    """See that no more wet boxes are told than came off, by what was counted then."""
    most = max(planned, came_off)
    if told > most:
        allowed = counted(
            "at most the {number} wet box of this yard",
            "at most the {number} wet boxes of this yard",
            most,
        )
        raise Refusal(allowed, _AGAIN)


def _wet(actions: list[Action], job: Job) -> int:
    return sum(one.wet for one in actions if one.job is job)


def _pieces(actions: list[Action], job: Job) -> int:
    return sum(one.pieces for one in actions if one.job is job)


def _most_pieces(what: Phrase, most: int, planned: int, each: int, owned: int) -> Phrase:
    return phrase(
        "at most {most} {what} here: {each} for each colony, {owned} owned; {planned} were planned",
        most=most,
        what=what,
        each=each,
        owned=owned,
        planned=planned,
    )


def _boards_short(draft: Draft) -> int:
    """Return by how many boards the store lacks what driven trips took, at the worst."""
    kit = draft.outfit.kit
    owned = kit.boards_owned - draft.outfit.boards_lain
    return shortage(owned, boards_moved(draft), kit.boards_lost)
