"""Red's Thursday under way, as several files of tests tell of it.

Loads 7:16 to 7:35, Old Mill 8:00 to 8:34 (boards), Creek Mouth 8:45 to 10:35, Fernbank 10:39 to
12:29, unloads 12:39 to 13:04, no way home.  Legs: base to Old Mill 25 min, to Creek Mouth 14, to
Fernbank 10; Old Mill to Creek Mouth 11, to Fernbank 15; between the last two 4.
"""

from dataclasses import replace
from functools import cache

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import Changed
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Shift
from runplanner.days import Span, clock
from runplanner.errors import ScenarioError
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.outfits import a_yard, an_outfit
from tests.running import put_in, running_plan

THURSDAY = 3 * 1440


def red(facts: Changed) -> tuple[Shift, list[tuple[str, str]]]:
    """Red's Thursday: the shift, and when it is where."""
    (shift,) = (one for one in facts.plan.shifts if one.day == 3)
    calls = [call for trip in shift.trips for call in trip.calls]
    return shift, [(call.yard or call.kind.value, clock(call.arrive_min)) for call in calls]


def clocks(shift: Shift) -> list[tuple[int, ...]]:
    """By the clock, all calls of a shift."""
    calls = [call for trip in shift.trips for call in trip.calls]
    return [(one.arrive_min, one.start_min, one.end_min, one.leave_min) for one in calls]


def driven(facts: Changed) -> Plan:
    """The plan from now on, which the audit must find good beside the past."""
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1, proof=False)
    if audit(new, facts.plan):  # undone work is to be listed with its reasons
        new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)
    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]
    return new


def refusal(*lines: str, now: str, plan: Plan | None = None) -> str:
    """What is said against the last of ``lines``."""
    with pytest.raises(ScenarioError) as caught:
        put_in(*lines, now=now, plan=plan)
    return caught.value.faults[-1].sentence()


def two_trips() -> Plan:
    """Red's Thursday with a second trip: it loads at 13:30, feeds Old Mill, is back at 15:10."""
    plan = running_plan()
    first = plan.shifts[0].trips[0]

    def timed(call: Call, start: int, end: int) -> Call:
        times = {"arrive_min": start, "start_min": start, "end_min": end, "leave_min": end}
        return replace(call, **times, latest_leave_min=THURSDAY + 1_300, actions=())  # type: ignore[arg-type]

    load, mill, unload = (first.calls[n] for n in (0, 1, 4))
    calls = (
        timed(load, THURSDAY + 790, THURSDAY + 800),
        timed(mill, THURSDAY + 825, THURSDAY + 835),
        timed(unload, THURSDAY + 860, THURSDAY + 870),
    )
    second = replace(first, id="second", calls=calls)
    gap = replace(first.calls[-1], end_min=THURSDAY + 790, leave_min=THURSDAY + 790)
    first = replace(first, calls=(*first.calls[:-1], gap))
    shift = replace(plan.shifts[0], trips=(first, second), end_min=THURSDAY + 870,
                    breaks=(Span(THURSDAY + 840, THURSDAY + 850),))  # fmt: skip
    return replace(plan, shifts=(shift, *plan.shifts[1:]))


def to_two_yards() -> Plan:
    """The second trip takes honey off at Fernbank, then at Creek Mouth; the first at neither.

    It loads at 13:10, is at Fernbank from 13:45 to 13:55, at Creek Mouth from 14:00 to 14:10 and
    brings 30 boxes at 14:30.
    """
    plan = two_trips()
    first, second = plan.shifts[0].trips
    load, mill, unload = second.calls
    creek, fern = first.calls[2:4]

    def off(call: Call, start: int, like: Call) -> Call:
        day = THURSDAY + start
        return replace(
            mill, place=like.place, yard=like.yard, actions=like.actions, arrive_min=day,
            start_min=day, end_min=day + 10, leave_min=day + 10,
            after=replace(call.after, boxes=15 if call is fern else 30),
        )  # fmt: skip

    late = replace(unload, arrive_min=THURSDAY + 870, start_min=THURSDAY + 870,
                   end_min=THURSDAY + 880, leave_min=THURSDAY + 880)  # fmt: skip
    calls = (load, off(fern, 825, fern), off(creek, 840, creek), late)
    first = replace(first, calls=(first.calls[0], first.calls[1], first.calls[4]))
    shift = replace(plan.shifts[0], trips=(first, replace(second, calls=calls)),
                    end_min=THURSDAY + 880)  # fmt: skip
    return replace(plan, shifts=(shift, *plan.shifts[1:]))


AFTER_CREEK = "Thu 4 Mar 10:37"
"""Creek Mouth is done at 10:35, Fernbank begins at 10:39."""


def counted(boxes: int) -> str:
    """The line that counts Creek Mouth with so many boxes."""
    return f"done 0304-truck2-0716 Creek Mouth: 10 colonies {boxes} boxes"


AT_FERNBANK = "Thu 4 Mar 11:00"


@cache
def two_loads() -> Plan:
    """Two yards of 40 boxes for a truck of 2.9 t: on Monday two trips, the second at once.

    One is left at 8:37 and Two at 9:36; at home from 9:48, unloaded and loaded again at 10:04.
    The day may end at 18:35, 209 min after it does; so late both stops may be left.
    """
    yards = [
        replace(a_yard(number, colonies=20, boxes=40, days=3), name=name)
        for number, name in ((1, "One"), (2, "Two"))
    ]
    outfit = an_outfit([(10, 0), (-12, 0)], yards, days=3)
    truck = replace(outfit.trucks[0], max_g=2_900_000)
    return plan_season(replace(outfit, trucks=(truck,)), rounds=20, proof=False)


def latest(plan: Plan) -> list[str]:
    """Latest times of a plan's first day."""
    return [clock(call.latest_leave_min) for trip in plan.shifts[0].trips for call in trip.calls]
