"""A new forecast in a running campaign: the scenario's weather read again, from now on."""

from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.draft import Draft
from runplanner.changes.forecast import Fresh, with_forecast
from runplanner.cli import Exit, main
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_text
from runplanner.daybook.trip import Job
from runplanner.days import Span, meet, whole_day
from runplanner.errors import ScenarioError
from runplanner.office.campaign import Effort
from runplanner.office.replan import Replanned, replan_campaign
from runplanner.outfit.shut import Work
from runplanner.outfit.yards import Clearing
from runplanner.scenario import read_scenario
from runplanner.season.plan_season import plan_season
from tests.scenario.folders import a_folder
from tests.scenario.skies import DAYS, TYPED, YARDS, Spots, at, hours, scene, table

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

EFFORT = Effort(rounds=2)
FAIR = table()


def wet(*days: int, from_hour: int = 0) -> str:
    """A forecast with 2.1 mm/h all day, or from an hour on, on these days."""
    rain: Spots = {}
    for day in days:
        rain |= hours(day, from_hour, 24, 2.1)
    return table(rain=rain)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A scenario of three yards under a fair sky."""
    return scene(tmp_path, forecast_csv=FAIR)


def told(folder: Path, sky: str) -> Path:
    """The folder with another forecast in it."""
    (folder / "forecast.csv").write_text(sky, "utf-8")
    return folder


def taken_off(plan: Plan) -> dict[str, list[int]]:
    """The days of take-off by yard."""
    found: dict[str, list[int]] = {}
    for shift in plan.shifts:
        for call in (c for trip in shift.trips for c in trip.yards()):
            if any(action.job is Job.TAKE_OFF for action in call.actions):
                found.setdefault(call.yard, []).append(shift.day)
    return found


def again(plan: Plan, folder: Path, *lines: str, now: str = "") -> Replanned:
    """The plan made again with the folder's weather."""
    return replan_campaign(plan, lines, now=now, forecast=folder, effort=EFFORT)


def test_a_wet_day_is_planned_around(folder: Path) -> None:
    """The first day of take-off turns wet: nothing comes off then, and the sheet says why."""
    plan = plan_season(read_scenario(folder), rounds=1)
    first = min(day for days in taken_off(plan).values() for day in days)
    made = again(plan, told(folder, wet(first)), now=f"2027-03-0{first + 1} 00:30")
    new = made.outcome.plan

    assert first not in {day for days in taken_off(new).values() for day in days}
    assert [] == [one.sentence() for one in audit(new, made.before)]
    assert "forecast read: " in made.notes[0]
    assert "yards with other hours or another doubt from now on: Mill, Gate, Ford" in made.notes
    assert any("rain" in move.why for move in made.sheet().moves)


def test_the_past_keeps_its_weather(folder: Path) -> None:
    """At noon rain is told for all of that day: the morning was fair, and stays so."""
    plan = plan_season(read_scenario(folder), rounds=1)
    new = again(plan, told(folder, wet(2, 3)), now="2027-03-03 12:00").outcome.plan

    for yard in new.outfit.yards:
        assert (Span(0, at(2, 12)), Span(at(4), at(10))) == yard.open_spans
        assert all(one.start_min >= at(2, 12) for one in yard.shut)


def test_the_same_sky_changes_nothing(folder: Path) -> None:
    """Read again unchanged, at the plan's own time: the same text; later: the same visits."""
    told(folder, wet(4, 6, from_hour=14))
    plan = plan_season(read_scenario(folder), rounds=1)

    assert plan_text(plan) == plan_text(again(plan, folder).outcome.plan)
    later = again(plan, folder, now="2027-03-02 12:00").outcome.plan
    assert plan.outfit == later.outfit
    assert taken_off(plan) == taken_off(later)


def test_what_a_shorter_forecast_does_not_reach_stays_as_told(folder: Path) -> None:
    """Told before: rain from 14:00 on days 4 and 6, thunder in the night of day 6.

    The new one ends with day 4, and tells that as fair.  Of day 6 it is silent, so its storm
    stays, with its reason and its doubt; the day that a typed row makes fit now is fit.
    """
    rain = hours(4, 14, 24, 3) | hours(6, 14, 24, 3) | hours(7, 0, 24, 3)
    plan = plan_season(
        read_scenario(told(folder, table(rain=rain, thunder=hours(6, 20, 24, 90)))), rounds=1
    )
    (folder / "weather.csv").write_text(
        TYPED + "all,open,fit,2027-03-08,2027-03-08,08:00,20:00,,,\n", "utf-8"
    )
    made = again(plan, told(folder, table(5)), now="2027-03-03 20:00")
    was, gate = plan.outfit.yard("gate"), made.outcome.plan.outfit.yard("gate")
    light = gate.sun_spans[6]

    assert (Span(at(4), at(6)),) == meet(gate.open_spans, (Span(at(4), at(6)),))
    assert (Span(light.start_min, at(6, 14)),) == meet(gate.open_spans, (light,))
    assert (Span(at(7, 8), at(7, 20)),) == meet(gate.open_spans, (Span(at(7), at(8)),))
    assert (Span(light.start_min, at(6, 14)),) == meet(gate.feed_spans, (light,))
    assert (Span(at(6, 20), at(7)),) == gate.unsettled_spans
    assert [one for one in was.shut if at(6) <= one.start_min < at(7)] == [
        one for one in gate.shut if one.start_min < at(7)
    ]
    assert (Span(0, at(DAYS + 1)),) == was.forecast_spans == gate.forecast_spans
    # Days 3 and 4 by the new one, made on day 0 as the old one; day 7 was typed.
    assert (*was.sure_permille[:7], 1000, *was.sure_permille[8:]) == gate.sure_permille
    assert (
        "hours that the new forecast does not reach stay shut as was told before: Mill, Gate, Ford"
    ) in made.notes
    assert () == audit(made.outcome.plan, made.before)


def test_a_storm_no_longer_told_is_lifted_by_a_night_typed_as_settled(folder: Path) -> None:
    """Thunder from 22:00 to 02:00, of which the shorter forecast says nothing.

    The night is typed as settled until one o'clock: the hour after that stays as it was told.
    """
    storm = hours(6, 22, 24, 90) | hours(7, 0, 2, 90)
    outfit = read_scenario(told(folder, table(thunder=storm)))
    (folder / "weather.csv").write_text(
        TYPED + "all,settle,fit,2027-03-07,2027-03-07,16:00,01:00,,,\n", "utf-8"
    )
    plan = plan_season(outfit, rounds=0)
    gate = again(plan, told(folder, table(5)), now="2027-03-03 20:00").outcome.plan.outfit.yard(
        "gate"
    )

    assert (Span(at(7, 1), at(7, 2)),) == gate.unsettled_spans


def test_cold_judged_by_days_no_longer_told_stays(tmp_path: Path) -> None:
    """Three days of 4 degrees, 5 to 7: over four days down days 4 and 5 are too cold for syrup.

    Formic acid, in for a week, finds that cold, and heat on day 8.  The new forecast ends with
    day 5, all warm, and cannot know what comes while either is in: the old one stands.
    """
    cold = hours(5, 0, 24, 4) | hours(6, 0, 24, 4) | hours(7, 0, 24, 4)
    extra = '[strips]\nsubstance = "formic acid"\n'
    folder = scene(tmp_path, extra, forecast_csv=table(temp=cold | hours(8, 12, 14, 31)))
    plan = plan_season(read_scenario(folder), rounds=1)
    made = again(plan, told(folder, table(6)), now="2027-03-03 20:00")
    was, gate = plan.outfit.yard("gate"), made.outcome.plan.outfit.yard("gate")
    light = gate.sun_spans[:DAYS]

    assert meet(was.feed_spans, light) == meet(gate.feed_spans, light)
    assert {4, 5} == {one.start_min // 1440 for one in gate.shut if one.work is Work.FEED}
    assert was.strips_shut_days == gate.strips_shut_days == tuple(range(9))


@pytest.mark.parametrize("sky", [table(2), ""], ids=["over", "none"])
def test_a_forecast_that_is_over_changes_nothing(folder: Path, sky: str) -> None:
    """It ended a day ago, or there is none: what was told stands, and that is said."""
    told(folder, wet(4, 6, from_hour=14))
    plan = plan_season(read_scenario(folder), rounds=1)
    told(folder, sky) if sky else (folder / "forecast.csv").unlink()
    made = again(plan, folder, now="2027-03-04 06:00")

    assert plan.outfit == made.outcome.plan.outfit
    assert (
        "no forecast in campaign speaks of the time from now on; what was told of it before "
        "stands: Mill, Gate, Ford"
    ) in made.notes
    assert "yards with other hours or another doubt from now on: none" in made.notes


def test_warm_hours_told_before_stay_open(tmp_path: Path) -> None:
    """Warm boards at Mill: 24 degrees from 11:00 to 17:00 each day.

    The forecast read at half past six begins at seven, in a day that has begun, and ends with
    day 4.  Days 0 to 9 are as they were, with the old reason for the cool hours.  One that ends
    before now changes nothing either.
    """
    warm: Spots = {(day, hour): 24 for day in range(DAYS) for hour in range(11, 17)}
    folder = scene(tmp_path, forecast_csv=table(temp=warm))
    yards = YARDS.replace("feeder", "feeder,clearing").replace("8 L\n", "8 L,\n")
    (folder / "yards.csv").write_text(yards.replace("hills,8 L,", "hills,8 L,warm board"), "utf-8")
    plan = plan_season(read_scenario(folder), rounds=0)
    begun = table(5, temp=warm, gone=hours(0, 0, 7, True))
    made = again(plan, told(folder, begun), now="2027-03-01 06:30").outcome.plan
    late = again(plan, told(folder, table(2, temp=warm)), now="2027-03-04 06:30").outcome.plan

    was = plan.outfit.yard("mill")
    for new in (made.outfit.yard("mill"), late.outfit.yard("mill")):
        light = new.sun_spans[:DAYS]
        assert meet(was.open_spans, light) == meet(new.open_spans, light)
        assert {"temperature 16.0 degC"} == {one.words() for one in new.shut}


def test_a_forecast_to_come_is_said(folder: Path) -> None:
    """Named with its address, and not fetched."""
    plan = plan_season(read_scenario(folder), rounds=1)
    (folder / "forecast.csv").unlink()
    toml = folder / "outfit.toml"
    extra = '\n[[forecasts]]\nfile = "sky.csv"\nurl = "http://x/"\n'
    toml.write_text(toml.read_text("utf-8") + extra, "utf-8")
    made = again(plan, folder, now="2027-03-04 06:00")

    assert any("sky.csv is not there yet" in note for note in made.notes)


def test_hours_shut_by_hand_stay_shut_and_lines_stand_before_it(folder: Path) -> None:
    """Saturday was shut by a line and stays so; Friday is opened by one, whatever is told."""
    plan = plan_season(read_scenario(folder), rounds=1)
    by_hand = replan_campaign(plan, ["shut Gate Sat 6 Mar: bull"], effort=EFFORT).outcome.plan
    made = again(by_hand, told(folder, wet(4)), "open Gate Fri 5 Mar", now="2027-03-02 06:00")
    gate = made.outcome.plan.outfit.yard("gate")

    assert () == meet(gate.open_spans, (Span(at(5), at(6)),))
    assert (Span(at(4), at(5)),) == meet(gate.open_spans, (Span(at(4), at(5)),))
    assert {("bull", Work.OPEN), ("bull", Work.FEED)} == {(one.note, one.work) for one in gate.shut}
    assert "hours shut by hand stay shut: Gate" in made.notes


def test_hours_that_the_table_had_shut_follow_the_table(tmp_path: Path) -> None:
    """Saturday was shut by a row, with a storm at night; the row is gone, and so is all of it.

    Nobody typed a line, so nothing is said to be shut by hand.  What a row shut before now stays.
    """
    row = "all,open,shut,2027-03-{0},2027-03-{0},,,,,rain\n"
    typed = TYPED + row.format("02") + row.format("06")
    typed += "all,settle,shut,2027-03-06,2027-03-06,,,,,storm\n"
    folder = scene(tmp_path / "mine", weather=typed)
    plan = plan_season(read_scenario(folder), rounds=1)
    (folder / "weather.csv").write_text(TYPED + row.format("02"), "utf-8")
    made = again(plan, folder, now="2027-03-03 06:00")
    gate = made.outcome.plan.outfit.yard("gate")

    assert {"rain", "storm"} == {one.note for one in plan.outfit.yard("gate").shut}
    assert () == meet(plan.outfit.yard("gate").open_spans, (Span(at(5), at(6)),))
    assert (Span(at(5), at(6)),) == meet(gate.open_spans, (Span(at(5), at(6)),))
    assert () == gate.unsettled_spans
    assert [(at(1), at(2), "rain")] == [(s.start_min, s.end_min, s.note) for s in gate.shut]
    assert not any("shut by hand" in note for note in made.notes)


def test_a_yard_the_folder_does_not_know_has_the_weather_of_the_nearest(folder: Path) -> None:
    """A yard that came with a line is named; rain shuts it as it shuts Ford, the nearest to it."""
    plan = plan_season(read_scenario(folder), rounds=1)
    line = "new yard Found at -38.1 175.18: 6 colonies 9 boxes"
    more = replan_campaign(plan, [line], effort=EFFORT).outcome.plan
    rainy = table(area="hills") + table(area="plain", rain=hours(4, 0, 24, 2.1)).split("\n", 1)[1]
    made = again(more, told(folder, rainy), now="2027-03-02 06:00")
    mill, ford, found = map(made.outcome.plan.outfit.yard, ("mill", "ford", "found"))

    assert (Span(at(4), at(5)),) == meet(more.outfit.yard("found").open_spans, (whole_day(4),))
    assert () == meet(found.open_spans, (whole_day(4),))
    assert found.open_spans == ford.open_spans != mill.open_spans
    assert "not in campaign, weather as at the nearest yard that is: Found" in made.notes


def test_a_yard_like_none_in_the_folder_keeps_its_weather(folder: Path) -> None:
    """Ways of clearing boxes have hours of their own, so only a yard with the same one will do."""
    outfit = read_scenario(folder)
    *others, last = outfit.yards
    found = replace(last, id="found", name="Found", clearing=Clearing.WARM_BOARD)
    plan = plan_season(outfit, rounds=0)
    outfit = replace(outfit, yards=(*outfit.yards, found))
    fresh = Fresh("campaign", read_scenario(told(folder, wet(4))))
    draft = with_forecast(Draft(plan, outfit, at(1)), fresh)

    assert found == draft.outfit.yard("found")
    assert draft.outfit.yard(others[0].id) != others[0]
    assert "not in campaign, weather as it was: Found" in draft.notes


def test_days_fit_for_other_strips_are_not_taken_over(folder: Path) -> None:
    """Six degrees in the night of day 4 shut it for formic acid (10 and more), not for amitraz.

    The plan has amitraz in every yard; the folder now says formic acid for two of them, so their
    days for strips stay as they were, and are said.  With the same strips the cold day is shut,
    and those before it, as the strips stay for a week.
    """
    cold = table(temp=hours(4, 0, 6, 6))
    acid = '[[strips_also]]\nsubstance = "formic acid"\n'
    toml, yards = folder / "outfit.toml", folder / "yards.csv"
    told(folder, FAIR)
    plan = plan_season(read_scenario(folder), rounds=1)
    rows = yards.read_text("utf-8").splitlines()
    toml.write_text(toml.read_text("utf-8") + acid, "utf-8")
    kinds = ["strips", "formic acid", "", "formic acid"]
    yards.write_text("".join(f"{r},{k}\n" for r, k in zip(rows, kinds, strict=True)), "utf-8")
    made = again(plan, told(folder, cold), now="2027-03-02 06:00")
    same = again(plan_season(read_scenario(told(folder, FAIR)), rounds=1), told(folder, cold))

    said = "other strips in campaign than in the plan, days fit for them as they were: Mill, Ford"
    assert said in made.notes
    assert [(), (), ()] == [y.strips_shut_days for y in made.outcome.plan.outfit.yards]
    shut = (0, 1, 2, 3, 4)
    assert [shut, (), shut] == [y.strips_shut_days for y in same.outcome.plan.outfit.yards]
    assert said not in same.notes


def test_another_campaign_is_refused_with_every_fault(folder: Path, tmp_path: Path) -> None:
    """Other dates and other yards: both told at once, and nothing is planned."""
    plan = plan_season(read_scenario(folder), rounds=1)
    (tmp_path / "other").mkdir()
    other = a_folder(
        tmp_path / "other",
        yards=YARDS.replace("Mill", "A").replace("Gate", "B").replace("Ford", "C"),
        season="[season]\nfirst_day = 2027-03-02\nlast_day = 2027-03-10\n",
    )
    with pytest.raises(ScenarioError) as refused:
        again(plan, other)

    faults = refused.value.faults
    assert ["season.first_day", "season's days", "yards"] == [one.field for one in faults]
    assert all(one.said and one.allowed and one.cure for one in faults)


def test_by_the_command_line(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Read from the folder, said on the screen; a folder with faults: exit 2, nothing written."""
    plan = folder.parent / "plan.json"
    plan.write_text(plan_text(plan_season(read_scenario(folder), rounds=1)), "utf-8")
    words = ["replan", str(plan), "--now", "2027-03-02 06:00", "--rounds", "1"]
    words += ["--forecast", str(folder), "--out", str(folder.parent / "out")]
    told(folder, wet(4))
    code = main(words)

    assert code in {Exit.OK, Exit.UNDONE}
    assert "taken from the changes: forecast read: " in capsys.readouterr().out
    told(folder, "nonsense")
    (folder.parent / "out2").mkdir()
    assert Exit.BAD_INPUT == main([*words[:-1], str(folder.parent / "out2")])
    assert "forecast.csv" in capsys.readouterr().err
    assert [] == list((folder.parent / "out2").iterdir())
