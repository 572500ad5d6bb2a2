"""A stop in several calls is set up for once, also where its day is told anew."""

from dataclasses import replace

from runplanner.changes.road.clock import Rest
from runplanner.daybook.trip import Call
from tests.running import running_plan


def in_two() -> tuple[Call, Call]:
    """Creek Mouth's stop as two calls on end, of 30 and 20 minutes."""
    creek = running_plan().shifts[0].trips[0].calls[2]
    at = creek.start_min + 30
    return (
        replace(creek, end_min=at, leave_min=at),
        replace(creek, arrive_min=at, start_min=at, end_min=at + 20, leave_min=at + 20),
    )


def worked(calls: tuple[Call, ...], rest: tuple[Call, ...]) -> list[int]:
    """Minutes of the rest of a day told before with these calls, which has been at Old Mill."""
    shift, outfit = running_plan().shifts[0], running_plan().outfit
    load, mill, *_ = shift.trips[0].calls
    told = replace(shift.trips[0], calls=(load, mill, *calls))
    clockwork = Rest(outfit, replace(shift, trips=(told,), breaks=()), 0, 2, 0)
    return [minutes for _, minutes in clockwork.worked(mill, rest)]


def test_a_further_call_keeps_the_minutes_of_its_work() -> None:
    """Half an hour with the setting up, then twenty minutes."""
    first, again = in_two()

    assert [30, 20] == worked((first, again), (first, again))


def test_a_further_call_sets_up_where_the_first_has_nothing_left_to_do() -> None:
    """Emptied, left out, or with another yard between."""
    first, again = in_two()
    fernbank = running_plan().shifts[0].trips[0].calls[3]
    idle, alone = replace(first, actions=()), 20 + running_plan().outfit.pace.setup_min

    assert [0, alone] == worked((idle, again), (idle, again))
    assert [alone] == worked((first, again), (again,))
    assert [30, alone] == worked((first, again), (first, fernbank, again))[::2]


def test_what_was_told_to_set_up_by_itself_does_so_once() -> None:
    """Its day is told anew once more: it has those minutes already."""
    first, again = in_two()
    at, alone = first.start_min, 20 + running_plan().outfit.pace.setup_min
    idle = replace(first, actions=(), end_min=at, leave_min=at)
    told = replace(again, arrive_min=at, start_min=at, end_min=at + alone, leave_min=at + alone)

    assert [0, alone] == worked((idle, told), (idle, told))
