"""Doubt about the weather: what it costs, that plans shun it, and reasons for undone work."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.days import Span
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.shut import Cause, Shut, Why, Work
from tests.season.shapes import planned, reasons
from tests.season.tiny import ANN, four, tiny


def doubtful(days: int, sure: tuple[int, ...], cents: int) -> Outfit:
    """One yard of four colonies, so sure of its days, at so much a colony that is spoilt."""
    outfit = tiny([(10, 0)], [replace(four(1, days), sure_permille=sure)], days)
    return replace(outfit, prices=replace(outfit.prices, unsure_cents=cents))


def days_out(plan: Plan) -> set[int]:
    """The days on which a truck goes out."""
    return {shift.day for shift in plan.shifts}


@pytest.mark.parametrize(("sure", "day"), [((500, 1000), 1), ((1000, 500), 0)])
def test_the_sure_day_is_taken(sure: tuple[int, int], day: int) -> None:
    """Both days cost the same but for doubt; the plan goes out on the sure one."""
    plan = planned(doubtful(2, sure, 500), rounds=10)

    assert {day} == days_out(plan)
    assert 0 == plan.bill.unsure
    assert () == audit(plan)


def test_doubt_that_cannot_be_shunned_is_billed_once() -> None:
    """Four colonies off and fed in one visit, 20 % unsure, 501 cents: 4 x 0.2 x 501 = 400.8."""
    plan = planned(doubtful(1, (800,), 501), rounds=5)
    free = planned(doubtful(1, (800,), 0), rounds=5)

    assert 401 == plan.bill.unsure
    assert free.bill.total() + 401 == plan.bill.total()
    assert free.bound.cents <= plan.bill.total()
    assert () == audit(plan)


def test_undone_work_names_the_weather_that_stands_against_it() -> None:
    """No hour is fit: the first three stretches are named, the fourth is counted, once each."""
    rain = (Why(Cause.RAIN, 2100),)
    shut = (
        Shut(Work.OPEN, 0, 1440, rain),
        Shut(Work.SETTLE, 0, 1440, rain),
        Shut(Work.OPEN, 1440, 2000, note="front"),
        Shut(Work.OPEN, 2000, 2880, note="gale"),
        Shut(Work.SETTLE, 2880, 4320, note="thunder"),
        Shut(Work.FEED, 0, 4320, note="cold"),
    )
    night = (Span(0, 1440), Span(2880, 4320))
    yard = replace(four(1, 3), open_spans=(), feed_spans=(), unsettled_spans=night, shut=shut)
    found = reasons(planned(tiny([(10, 0)], [yard], 3), rounds=2))

    never = "the weather leaves no hour fit for taking honey off from Mon 1 Mar to Wed 3 Mar: "
    off = "Mon 1 Mar rain 2.1 mm/h; Tue 2 Mar front; Tue 2 Mar gale; and 1 more"
    assert {never + off} == found


def test_weather_that_may_be_eased_names_the_hours_it_shuts() -> None:
    """Twenty minutes are fit, too few for a visit: not none, so easing is tried."""
    shut = (Shut(Work.OPEN, 620, 1440, note="front"), Shut(Work.FEED, 620, 1440, note="cold"))
    span = (Span(600, 620),)
    yard = replace(four(1, 1), open_spans=span, feed_spans=span, shut=shut)
    found = reasons(planned(tiny([(10, 0)], [yard], 1, people=(ANN,)), rounds=1))

    eased = "the weather windows and the settling nights (with this eased alone, it fits)"
    assert {f"{eased}: Mon 1 Mar front", f"{eased}: Mon 1 Mar cold", eased} <= found
