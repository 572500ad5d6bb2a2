"""What a new forecast does not reach stays as the old one told it, until somebody types more."""

from pathlib import Path

import pytest

from runplanner.changes.draft import Draft
from runplanner.changes.forecast import with_forecast
from runplanner.daybook.plan import Plan
from runplanner.days import Span, meet
from runplanner.office.replan import read_again
from runplanner.outfit.shut import Work
from runplanner.outfit.yards import Yard
from runplanner.scenario import read_scenario
from tests.plans import an_empty_plan
from tests.scenario.skies import DAYS, TYPED, at, hours, scene, table

SHUT_BEYOND = '[weather]\nbeyond = "shut"\n'
ACID = '[strips]\nsubstance = "formic acid"\n'


def told(folder: Path, sky: str, *rows: str) -> Path:
    """The folder with another forecast in it, and these rows typed."""
    (folder / "forecast.csv").write_text(sky, "utf-8")
    if rows:
        (folder / "weather.csv").write_text(TYPED + "".join(f"{row}\n" for row in rows), "utf-8")
    return folder


def planned(folder: Path) -> Plan:
    """A plan of what the folder says, without a visit."""
    return an_empty_plan(read_scenario(folder))


def gate_anew(plan: Plan, folder: Path, now: int) -> Yard:
    """The weather at Gate, read again from the folder."""
    return with_forecast(Draft(plan, plan.outfit, now), read_again(folder)).outfit.yard("gate")


def by_light(yard: Yard, spans: tuple[Span, ...]) -> tuple[Span, ...]:
    """What of some hours lies in daylight."""
    return meet(spans, yard.sun_spans[:DAYS])


def reasons(yard: Yard, work: Work, day: int) -> set[str]:
    """Why a day is shut for one work."""
    return {
        one.words() for one in yard.shut
        if one.work is work and at(day) < one.end_min and one.start_min < at(day + 1)
    }  # fmt: skip


def test_fair_days_that_a_shorter_forecast_does_not_reach_stay_fair(tmp_path: Path) -> None:
    """With ``beyond = "shut"``: told before was rain on day 6, and all else fair to day 7.

    The new one ends with day 4 and lacks an hour of day 3; day 8 no forecast has told, and day 7
    is typed as shut now.
    """
    folder = scene(tmp_path, SHUT_BEYOND)
    plan = planned(told(folder, table(8, rain=hours(6, 0, 24, 3))))
    row = "all,feed,shut,2027-03-08,2027-03-08,,,,,rain"
    gate = gate_anew(plan, told(folder, table(5, gone=hours(3, 12, 13, True)), row), at(1, 20))

    shut = (Span(at(3, 12), at(3, 13)), Span(at(6), at(7)))
    light = gate.sun_spans
    assert () == meet(gate.open_spans, (*shut, light[8], light[9]))
    assert (light[4], light[5], light[7]) == meet(gate.open_spans, (light[4], light[5], light[7]))
    assert (light[4], light[5]) == meet(gate.feed_spans, (light[4], light[5], light[6], light[7]))
    assert (Span(at(3, 12), at(3, 13)), Span(at(8), at(DAYS + 1))) == gate.unsettled_spans
    for work in Work:
        missing = [day for day in range(DAYS) if "no forecast for it" in reasons(gate, work, day)]
        assert [3, 8, 9] == missing
    assert {"rain 3.0 mm/h"} == reasons(gate, Work.OPEN, 6)


def cold_and_hot(path: Path) -> tuple[Plan, Path]:
    """Told 4 degrees on days 5 to 7, and 31 on day 8; in the folder then: day 0 to 5, all warm.

    Syrup is down for four days, formic acid is in for a week, so days 2 to 8 are shut for one of
    them or both by days that the folder's forecast does not reach.
    """
    temp = hours(5, 0, 24, 4) | hours(6, 0, 24, 4) | hours(7, 0, 24, 4) | hours(8, 12, 14, 31)
    folder = scene(path, ACID)
    return planned(told(folder, table(temp=temp))), told(folder, table(6))


def test_typed_temperatures_lift_what_was_told_of_their_days(tmp_path: Path) -> None:
    """Typed for every day that is told no more, they lift all; for some, what leans on them."""
    plan, folder = cold_and_hot(tmp_path)
    row = "all,temperature,,2027-03-0{},2027-03-{},,,12 degC,23 degC,"
    all_typed = gate_anew(plan, told(folder, table(6), row.format(7, 11)), at(2, 20))
    some_typed = gate_anew(plan, told(folder, table(6), row.format(9, 11)), at(2, 20))
    was = plan.outfit.yard("gate")

    assert set(range(9)) == set(was.strips_shut_days)
    assert (0, 1) == all_typed.strips_shut_days
    light = all_typed.sun_spans
    assert light[3:DAYS] == meet(all_typed.feed_spans, light[3:DAYS])
    assert not any(reasons(all_typed, Work.FEED, day) for day in range(3, DAYS))
    # The heat of day 8 is typed away, for that day; the cold of days 6 and 7 stands.
    assert tuple(range(8)) == some_typed.strips_shut_days
    assert {4, 5} == {day for day in range(DAYS) if reasons(some_typed, Work.FEED, day)}


def test_a_typed_temperature_lifts_hours_too_cold_but_not_their_rain(tmp_path: Path) -> None:
    """Day 7 was told as 4 degrees, and from noon on as wet: 16 to 20 degrees are typed for it."""
    folder = scene(tmp_path, forecast_csv=table(temp=hours(7, 0, 24, 4), rain=hours(7, 12, 24, 3)))
    plan = planned(folder)
    row = "all,temperature,,2027-03-08,2027-03-08,,,16 degC,20 degC,"
    gate = gate_anew(plan, told(folder, table(6), row), at(2, 20))
    light = gate.sun_spans[7]

    assert (Span(light.start_min, at(7, 12)),) == meet(gate.open_spans, (light,))
    assert {"rain 3.0 mm/h"} == reasons(gate, Work.OPEN, 7)


@pytest.mark.parametrize(("begins", "shut"), [(7, False), (13, True)])
def test_minutes_before_a_new_forecast_begins_keep_no_verdict(
    tmp_path: Path, begins: int, *, shut: bool
) -> None:
    """Told 4 degrees on days 0 to 3; read again at 6:40, all warm: today is fit again.

    Not where it is silent for six hours, of which the old one told the cold.
    """
    temp = hours(0, 0, 24, 4) | hours(1, 0, 24, 4) | hours(2, 0, 24, 4) | hours(3, 0, 24, 4)
    folder = scene(tmp_path, ACID, forecast_csv=table(temp=temp))
    plan = planned(folder)
    gate = gate_anew(plan, told(folder, table(gone=hours(0, 0, begins, True))), at(0, 6) + 40)

    today = Span(at(0, begins), gate.sun_spans[0].end_min)
    assert (() if shut else (today,)) == meet(gate.feed_spans, (today,))
    assert ((0,) if shut else ()) == gate.strips_shut_days
