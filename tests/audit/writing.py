"""Short ways to write a plan down by hand in tests: calls, goods aboard, common jobs."""

from dataclasses import replace

from runplanner.daybook.plan import Bill, Bound, Mixing, Plan, Search, Spinning, Tally, Undone
from runplanner.daybook.trip import Aboard, Action, Call, CallKind, Carried, Job, Shift
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import phrase

NONE_LEFT = Tally(0, 0, 0, 0)
TWO_UP = 1_100_000
ONE_UP = 1_185_000


def plan_of(
    outfit: Outfit,
    shifts: tuple[Shift, ...],
    spinning: tuple[Spinning, ...],
    mixing: tuple[Mixing, ...],
    bill: Bill,
    undone: tuple[Undone, ...] = (),
    tally: Tally = NONE_LEFT,
) -> Plan:
    """A plan with a modest bound and no reliefs."""
    bound = Bound(phrase("all plans"), 1_000, 500, NONE_LEFT)
    search = Search(1, 1, phrase("done"), ())
    return Plan(outfit, shifts, spinning, mixing, undone, (), tally, bill, bound, search)


def goods(load_g: int, places: int, *, most: int = TWO_UP, of: int = 30, **counts: int) -> Aboard:
    """What is aboard: counts by name, the rest nothing."""
    every = dict.fromkeys(
        ("boxes", "brood_boxes", "ml", "blocks", "boards", "strips", "feeders"), 0
    )
    return Aboard(**(every | counts), load_g=load_g, load_max_g=most, places=places, places_max=of)


def load(times: tuple[int, ...], latest: int, after: Aboard, place: int = 0) -> Call:
    """A load call; ``times`` are arrive, end and, after a break, leave."""
    return _call(CallKind.LOAD, place, "", times, latest, 0, after, ())


def visit(
    number: int,
    times: tuple[int, ...],
    latest: int,
    after: Aboard,
    *actions: Action,
    limit: int | None = None,
    start: int | None = None,
) -> Call:
    """A visit to ``yard<number>`` at place ``number``."""
    most = after.boxes if limit is None else limit
    yard = f"yard{number}"
    return _call(CallKind.YARD, number, yard, times, latest, most, after, actions, start)


def unload(times: tuple[int, ...], latest: int, after: Aboard, place: int = 0) -> Call:
    """An unload call."""
    return _call(CallKind.UNLOAD, place, "", times, latest, 0, after, ())


def _call(
    kind: CallKind,
    place: int,
    yard: str,
    times: tuple[int, ...],
    latest: int,
    limit: int,
    after: Aboard,
    actions: tuple[Action, ...],
    start: int | None = None,
) -> Call:
    arrive, end = times[0], times[1]
    begin = arrive if start is None else start
    return Call(kind, place, yard, arrive, begin, end, times[-1], latest, limit, actions, after)


def cans(count: int) -> tuple[Carried, ...]:
    """So many 25 l cans of 1.5 kg, one place each."""
    return (Carried("can", count),)


FEED_10 = Action(Job.FEED, 10, round=1, ml=85_000)
STRIPS_10 = Action(Job.STRIPS, 10, pieces=20)
BLOCK_10 = Action(Job.BLOCK, 10, pieces=10)
BOARDS_10 = Action(Job.BOARDS, 10, pieces=10)
OFF_10 = Action(Job.TAKE_OFF, 10, boxes=15)
OFF_UNDER_BOARDS_10 = replace(OFF_10, boards_off=10)
BOTH = ("ann", "bob")
EMPTY = goods(0, 0)
SEVEN_CANS = goods(10_500, 7)
