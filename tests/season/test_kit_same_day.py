"""Kit that one truck brings home and another one loads on the same day."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import ALL_DONE, Plan
from runplanner.days import Span
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Person
from runplanner.outfit.yards import Clearing
from tests.audit.planted import edited
from tests.outfits import a_truck, a_yard, an_outfit
from tests.season.shapes import planned

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

LOADS_AT = 645


def ten_boards(puts_on: Span) -> Outfit:
    """Ten boards lie at yard 1, due on day 0; yard 2 lets them be put on in ``puts_on``.

    Each yard is an hour from home and a truck's duty ends after five, so each truck sees to one.
    Without waiting the boards are home at 637, and a load for yard 2 takes 15 minutes.
    """
    first, second = (
        replace(
            a_yard(number, boxes=10, days=2), clearing=Clearing.BOARDS, stores_g=9_000
        )
        for number in (1, 2)
    )  # fmt: skip
    first = replace(first, boards_on_min=-600, finish_by_day=0)
    second = replace(second, open_spans=(puts_on, Span(1_920, 2_520)))
    people = (
        Person("ann", "Ann", drives=True, spins=False, mixes=False),
        Person("cy", "Cy", drives=True, spins=False, mixes=False),
        Person("bob", "Bob", drives=False, spins=True, mixes=True),
    )
    outfit = an_outfit(
        [(60, 0), (-60, 0)], [first, second], days=2, people=people,
        trucks=(a_truck(1), replace(a_truck(2), drivers=("cy",))),
    )  # fmt: skip
    return replace(
        outfit,
        hours=replace(outfit.hours, duty_max_min=300),
        kit=replace(outfit.kit, boards_owned=10),
    )


def loads_and_latest(plan: Plan) -> tuple[int, list[int]]:
    """When the second truck loads on day 0, and the latest minutes of the first."""
    first, second = (shift.trips[0] for shift in plan.shifts if shift.day == 0)
    return second.calls[0].start_min, [call.latest_leave_min for call in first.calls]


def test_a_truck_is_back_with_boards_by_the_minute_another_loads_them() -> None:
    """Planned home at 637, eight minutes sooner than they are loaded: no call has more.

    A latest minute told more, the audit refuses, up to where the day itself would bear it.
    """
    plan = planned(ten_boards(Span(720, 745)))
    loads, latest = loads_and_latest(plan)
    calls = plan.shifts[0].trips[0].calls

    assert ((), ALL_DONE, LOADS_AT) == (audit(plan), plan.tally, loads)
    assert [8, 8, 8] == [at - call.leave_min for at, call in zip(latest, calls, strict=True)]
    for number in (0, 1):
        path = f"shifts.0.trips.0.calls.{number}.latest_leave_min"
        found = audit(edited(plan, {path: latest[number] + 1}))
        assert [("latest leaving", "in time for what other trucks load")] == [
            (finding.rule, finding.allowed) for finding in found
        ]


def test_where_boards_are_plenty_a_truck_has_all_the_time_its_day_lets_it() -> None:
    """Ten more in store: nobody waits for those that come home."""
    outfit = ten_boards(Span(720, 745))
    plan = planned(replace(outfit, kit=replace(outfit.kit, boards_owned=20)))
    first = plan.shifts[0].trips[0].calls

    assert [68, 68, 68] == [call.latest_leave_min - call.leave_min for call in first]


def test_a_truck_waits_for_boards_that_another_one_brings_home() -> None:
    """Yard 2 lets boards be put on from eight: at once they are not in store, from 637 they are."""
    plan = planned(ten_boards(Span(480, 1080)), rounds=1)
    loads, _ = loads_and_latest(plan)

    assert plan.tally == ALL_DONE
    assert loads >= plan.shifts[0].trips[0].calls[-1].end_min
