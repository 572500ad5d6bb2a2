"""Why hours are shut, in the words of papers and map."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.shut import Cause, Shut, Why, Work
from runplanner.outfit.yards import Health
from runplanner.paperwork.days.day_sheet import day_page
from runplanner.paperwork.days.wet_day import wet_page
from runplanner.paperwork.map.notes import MOST_SHUT, lines
from runplanner.paperwork.map.work import work_left
from runplanner.paperwork.speech.tongue import speaking
from runplanner.paperwork.speech.weather_words import (
    MOST_NAMES,
    day_weather,
    shut_on,
    why_words,
    yards_words,
)
from tests.outfits import a_yard, an_outfit
from tests.paperwork.pages import Page
from tests.paperwork.plans import HOSTILE, small_plan

WET = (Why(Cause.RAIN, 2100),)


def shut(work: Work, start: int, end: int, why: tuple[Why, ...] = WET, note: str = "") -> Shut:
    """Shut on day 1 from one minute of the day to another."""
    return Shut(work, DAY_MIN + start, DAY_MIN + end, why, note)


def told(*stretches: Shut) -> tuple[str, ...]:
    """What is said of day 1 of a yard in whose days it is light from 6:00 to 20:00."""
    return shut_on(replace(a_yard(1), shut=stretches), 1)


def weathered(*stretches: Shut, sure: tuple[int, ...] = ()) -> Plan:
    """The small plan, its first yard shut so."""
    plan = small_plan()
    first, *rest = plan.outfit.yards
    yards = (replace(first, shut=stretches, sure_permille=sure), *rest)
    return replace(plan, outfit=replace(plan.outfit, yards=yards))


def test_an_hour_is_shut_for_what_the_forecast_shuts() -> None:
    """Opening and syrup together are "shut"; each alone says so; a night is told by the clock."""
    both = (shut(Work.OPEN, 840, 1440), shut(Work.FEED, 840, 1440))

    assert ("shut from 14:00: rain 2.1 mm/h",) == told(*both)
    assert ("shut for opening hives until 09:00: rain 2.1 mm/h",) == told(shut(Work.OPEN, 0, 540))
    assert ("shut for syrup all day: rain 2.1 mm/h",) == told(shut(Work.FEED, 0, 1440))
    assert ("no bees outside from 19:00: thunder 40 %",) == told(
        shut(Work.SETTLE, 1140, 1440, (Why(Cause.THUNDER, 400),))
    )
    assert ("shut for opening hives from 10:00 to 11:00: front, wind",) == told(
        shut(Work.OPEN, 600, 660, note="front, wind")
    )
    assert ("shut for opening hives from 10:00 to 11:00",) == told(shut(Work.OPEN, 600, 660, ()))
    assert () == told(shut(Work.OPEN, 0, 300))  # it is dark until 6:00


@pytest.mark.parametrize(
    ("why", "words", "german"),
    [
        (Why(Cause.RAIN, 2100, 360), "rain 2.1 mm in 6 h", "Regen 2,1 mm in 6 h"),
        (Why(Cause.RAIN, 2110, worst=True), "rain up to 2.2 mm/h", "Regen bis 2,2 mm/h"),
        (Why(Cause.WIND, 9500), "wind 9.5 m/s", "Wind 9,5 m/s"),
        (Why(Cause.GUST, 14000), "gusts 14 m/s", "Böen 14 m/s"),
        (Why(Cause.WIND, None), "wind not told", "Wind nicht angegeben"),
        (
            Why(Cause.COLD, None, 5 * DAY_MIN),
            "temperature not told of a day on which syrup is taken down",
            "Temperatur eines Tages nicht angegeben, an dem Sirup abgenommen wird",
        ),
        (Why(Cause.COLD, -15), "temperature −1.5 °C", "Temperatur −1,5 °C"),
        (
            Why(Cause.COLD, 90, worst=True),
            "temperature down to 9 °C",
            "Temperatur bis hinab zu 9 °C",
        ),
        (
            Why(Cause.MEAN, 84, 5 * DAY_MIN),
            "8.4 °C in the mean over the 5 days syrup is taken down",
            "im Mittel 8,4 °C über die 5 Tage, in denen der Sirup abgenommen wird",
        ),
        (Why(Cause.MISSING, None), "no forecast for it", "keine Vorhersage dafür"),
    ],
)
def test_each_reason_has_its_words(why: Why, words: str, german: str) -> None:
    """Rain and wind round up, as everything that is held against a limit."""
    assert words == why_words(why)
    with speaking("de"):
        assert german == why_words(why)


def test_a_day_names_yards_together_and_doubt() -> None:
    """One yard of several is named; 96.7 % sure is said, fully sure is not."""
    plan = weathered(shut(Work.FEED, 0, 1440), sure=(1000, 967))
    name = plan.outfit.yards[0].name

    assert (
        f"{name}: shut for syrup all day: rain 2.1 mm/h",
        f"{name}: the forecast is 96.7 % sure",
    ) == day_weather(plan, 1)
    assert () == day_weather(plan, 0)
    first, *rest = plan.outfit.yards
    silent = replace(first, forecast_spans=(Span(0, DAY_MIN),))
    untold = replace(plan, outfit=replace(plan.outfit, yards=(silent, *rest)))
    assert f"{name}: no forecast reaches this day" == day_weather(untold, 1)[-1]
    everywhere = replace(
        plan.outfit,
        yards=tuple(replace(y, shut=plan.outfit.yards[0].shut) for y in plan.outfit.yards),
    )
    assert day_weather(replace(plan, outfit=everywhere), 1)[0].startswith("all yards: shut")


def test_driver_planner_and_office_read_the_reason() -> None:
    """Day sheet, wet-day page and the map's yard panel give it, hostile notes as typed."""
    plan = weathered(shut(Work.OPEN, 840, 1440, (), HOSTILE[1] + HOSTILE[3]), sure=(1000, 500))
    yard = plan.outfit.yards[0]
    panel = " ".join(lines(plan, yard, work_left(plan)[yard.id], None))

    assert "shut for opening hives from 14:00" in panel
    for page in (day_page(plan, 1), wet_page(plan, 1)):
        assert "shut for opening hives from 14:00" in Page(page).text
        assert "<img" not in page
        assert "50 % sure" in Page(page).text
    with speaking("de"):
        assert "für das Öffnen gesperrt ab 14:00" in Page(day_page(plan, 1)).text


def test_days_unfit_for_strips_are_told_until_the_strips_are_in() -> None:
    """Hours are fair on both days, and strips go in on one of them, or not at all.

    Day sheet, wet-day page and map tell of each day by substance, in German too; no day is told
    that comes once the strips are in, nor of a yard that is due none.
    """
    plan = weathered()
    first, *rest = plan.outfit.yards
    unfit = replace(first, strips_shut_days=(0, 1))
    hot = replace(plan, outfit=replace(plan.outfit, yards=(unfit, *rest)))
    without = replace(hot, shifts=())
    line = f"{first.name}: not fit for strips of {plan.outfit.strips_at(first).substance}"
    in_on = min(
        shift.day
        for shift in plan.shifts
        for trip in shift.trips
        for call in trip.yards()
        if call.yard == first.id and any(one.job is Job.STRIPS for one in call.actions)
    )

    assert [(line,), (line,)] == [day_weather(without, day) for day in (0, 1)]
    assert [day <= in_on for day in (0, 1)] == [line in day_weather(hot, day) for day in (0, 1)]
    for page in (day_page(without, 1), wet_page(without, 1)):
        assert line in Page(page).text
    panel = lines(without, unfit, work_left(without)[first.id], None)
    assert 2 == sum("not fit for strips" in one for one in panel)
    with speaking("de"):
        assert "taugt nicht für Streifen mit" in day_weather(without, 0)[0]
    held = replace(unfit, health=Health.SUSPECT)
    none = replace(without, outfit=replace(plan.outfit, yards=(held, *rest)))
    assert () == day_weather(none, 0)


def test_the_map_says_how_many_more() -> None:
    """Ten stretches: eight are told, two counted."""
    mine = [shut(Work.FEED, 400 + 20 * n, 410 + 20 * n) for n in range(MOST_SHUT + 2)]
    plan = weathered(*mine)
    yard = plan.outfit.yards[0]
    panel = lines(plan, yard, work_left(plan)[yard.id], None)

    assert "And 2 more." in panel


@pytest.mark.parametrize(
    ("number", "words", "german"),
    [
        (1, "and 1 more yard", "und 1 weiterer Stand"),
        (2, "and 2 more yards", "und 2 weitere Stände"),
    ],
)
def test_yards_left_out_are_counted_as_yards(number: int, words: str, german: str) -> None:
    """One is singular, in German too."""
    yards = [(4, day) for day in range(MOST_NAMES + number + 1)]
    outfit = an_outfit(yards)
    some = outfit.yards[:-1]

    assert yards_words(outfit, some).endswith(words)
    with speaking("de"):
        assert yards_words(outfit, some).endswith(german)
