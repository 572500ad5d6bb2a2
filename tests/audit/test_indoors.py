"""Duty and breaks inside: facts are past judging, breaks on the road count, work adds up."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Mixing, Plan, Spinning
from runplanner.days import Span
from tests.audit.plans import plain
from tests.audit.planted import edited

INSIDE = {"duty inside", "break inside"}
"""In the plain plan Ann and Bob are out from 450 to 616; Bob then spins from 720 to 870."""


def found(plan: Plan) -> list[tuple[str, str]]:
    """What the two rules find, in their words."""
    return [(one.rule, one.said) for one in audit(plan) if one.rule in INSIDE]


def spinning(*spans: tuple[int, int]) -> tuple[Spinning, ...]:
    """Ann, who drives, spins so."""
    return tuple(Spinning(start, end, ("ann",), 1) for start, end in spans)


def test_a_break_between_two_stretches_counts_and_a_shorter_gap_does_not() -> None:
    """On day 2, 6 h from 8:00: after 30 min she may go on, after 29 min it is one piece."""
    whole = replace(plain(), spinning=spinning((3360, 3720), (3750, 3760)))
    short = replace(plain(), spinning=spinning((3360, 3720), (3749, 3760)))
    ((rule, said),) = found(short)

    assert [] == found(whole)
    assert "break inside" == rule
    assert said.startswith("Ann works 400 min without a break from")


@pytest.mark.parametrize(("rest", "breaks"), [(30, 0), (29, 1)])
def test_a_break_on_the_road_counts_when_it_is_long_enough(rest: int, breaks: int) -> None:
    """Out 450 to 616 with a rest from 600 on, inside from 616 on to 976.

    A rest to 630 would end the stretch at 600; what follows is 346 min.  One that is a minute
    too short makes it one stretch from 450 on.
    """
    plan = edited(plain(), {"shifts.0.breaks": (Span(580, 580 + rest),)})
    plan = replace(plan, spinning=spinning((616, 960)))

    assert breaks == len([rule for rule, _ in found(plan) if rule == "break inside"])


def test_mixing_and_spinning_add_up_to_a_day() -> None:
    """Out from 450, mixed, and spun to 1,110: 660 min are allowed, one more is not."""
    plan = replace(plain(), mixing=(Mixing(690, 710, "bob", 1_000),))
    most = replace(plan, spinning=(Spinning(1080, 1110, ("bob",), 1),))
    more = replace(plan, spinning=(Spinning(1080, 1111, ("bob",), 1),))

    assert [] == found(most)
    assert ["duty inside"] == [rule for rule, _ in found(more)]


def test_what_has_begun_is_past_judging_until_something_is_added() -> None:
    """Bob's day of 420 min is over by 419; a fact at 13:20, but not once he is to mix at 15:00."""
    plan = edited(plain(), {"outfit.hours.duty_max_min": 419, "now_min": 800})
    later = replace(plan, mixing=(*plan.mixing, Mixing(900, 910, "bob", 1_000)))

    assert [] == found(plan)
    assert ["duty inside"] == [rule for rule, _ in found(later)]


def test_a_stretch_that_is_fact_does_not_forbid_work_after_a_break() -> None:
    """Spun for 361 min, as it happened; mixing 30 min later is a stretch of its own."""
    day = replace(plain(), spinning=spinning((616, 977)), now_min=900)
    hours = replace(day.outfit.hours, duty_max_min=900)
    day = replace(day, outfit=replace(day.outfit, hours=hours))
    after = replace(day, mixing=(*day.mixing, Mixing(1007, 1017, "ann", 1_000)))
    at_once = replace(day, mixing=(*day.mixing, Mixing(1006, 1017, "ann", 1_000)))

    assert [] == found(day) == found(after)
    assert ["break inside"] == [rule for rule, _ in found(at_once)]
