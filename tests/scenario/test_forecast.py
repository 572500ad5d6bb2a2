"""Forecasts in a scenario's folder: hours shut, typed windows over them, silence said."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from runplanner.days import Span, join, without
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.shut import Cause, Shut, Why, Work
from runplanner.scenario import read_scenario
from runplanner.scenario.forecast.part import Heard
from runplanner.scenario.hear import hear, reasons
from tests.scenario.skies import (
    DAYS,
    ENTRIES,
    TYPED,
    YARDS,
    Spots,
    at,
    hours,
    scene,
    steps_text,
    table,
)  # fmt: skip


def said(outfit: Outfit) -> list[str]:
    """What was taken for granted about weather, as one line each."""
    return [f"{one.field} = {one.value} ({one.source})" for one in outfit.assumed
            if " over " in one.field or one.field.startswith("weather")]  # fmt: skip


def test_rain_shuts_hours_for_opening(tmp_path: Path) -> None:
    """0.2 mm/h is borne, 2.1 mm/h is not: Friday from 14:00 to 17:00."""
    wet = hours(4, 14, 17, 2.1) | hours(2, 9, 10, 0.2)
    folder = scene(tmp_path, forecast_csv=table(rain=wet))
    yard = read_scenario(folder).yards[0]

    assert (Span(0, at(4, 14)), Span(at(4, 17), at(DAYS))) == yard.open_spans
    assert (Span(0, at(DAYS)),) == yard.feed_spans  # 2.5 mm/h is borne when pouring
    assert () == yard.unsettled_spans


def test_the_reasons_are_kept(tmp_path: Path) -> None:
    """Each shut hour with its yards and every cause."""
    wet, wind = hours(4, 14, 16, 2.1), hours(4, 15, 16, 9.5)
    found = reasons(scene(tmp_path, forecast_csv=table(rain=wet, wind=wind)))

    assert {("mill", "gate", "ford")} == {one.yards for one in found}
    assert [(at(4, 14), ["rain 2.1 mm/h"]), (at(4, 15), ["rain 2.1 mm/h", "wind 9.5 m/s"])] == [
        (one.start_min, [why.words() for why in one.whys]) for one in found
    ]


def test_reasons_and_doubt_travel_with_the_yard(tmp_path: Path) -> None:
    """Rain from 14:00 to 16:00, then also wind: two stretches; day 5 after the forecast is 90 %."""
    wet, wind = hours(4, 14, 16, 2.1), hours(4, 15, 16, 9.5)
    folder = scene(tmp_path, forecast_csv=table(rain=wet, wind=wind))
    yard = read_scenario(folder).yards[0]
    whys = (Why(Cause.RAIN, 2100), Why(Cause.WIND, 9500))

    assert (
        Shut(Work.OPEN, at(4, 14), at(4, 15), whys[:1]),
        Shut(Work.OPEN, at(4, 15), at(4, 16), whys),
    ) == yard.shut
    heard = Heard()
    read_scenario(folder, heard)
    assert heard.sure[yard.id] == yard.sure_permille
    assert 1000 - heard.sure[yard.id][9] == yard.doubt_permille(9) > 0
    assert 0 == yard.doubt_permille(DAYS) == yard.doubt_permille(-1)


def test_cold_hours_are_shut_for_opening_alone(tmp_path: Path) -> None:
    """12 degrees until ten in the morning."""
    yard = read_scenario(scene(tmp_path, forecast_csv=table(temp=hours(1, 0, 10, 12)))).yards[0]

    assert (Span(0, at(1)), Span(at(1, 10), at(DAYS))) == yard.open_spans
    assert (Span(0, at(DAYS)),) == yard.feed_spans


def test_syrup_is_judged_over_the_days_after_pouring(tmp_path: Path) -> None:
    """8 L at 2 L a day: four days.  Days 3 and 4 at 4 degrees, the others at 16.

    Means from day 0: (16+16+16+4)/4 = 13; 1: 10; 2: 10; 3: 10; so all fit at 10 degrees; with
    three cold days 3 to 5: from 1: 10, from 2: 7, from 3: 7, from 4: 10.
    """
    cold = hours(3, 0, 24, 4) | hours(4, 0, 24, 4)
    more = cold | hours(5, 0, 24, 4)
    two = read_scenario(scene(tmp_path / "two", forecast_csv=table(temp=cold))).yards[0]
    folder = scene(tmp_path / "three", forecast_csv=table(temp=more))

    assert (Span(0, at(DAYS)),) == two.feed_spans
    assert (Span(0, at(2)), Span(at(4), at(DAYS))) == read_scenario(folder).yards[0].feed_spans
    syrup = [one for one in reasons(folder) if one.work is Work.FEED]
    assert [(at(2), at(3)), (at(3), at(4))] == [(one.start_min, one.end_min) for one in syrup]
    assert ["7.0 degC in the mean over the 4 days syrup is taken down"] * 2 == [
        one.whys[0].words() for one in syrup
    ]


@pytest.mark.parametrize("gap", ["temp", "gone"])
def test_an_hour_of_silence_lifts_no_cold(tmp_path: Path, gap: str) -> None:
    """15 degrees by day and 2 by night are 8.5 in the mean; 3:00 is not told, or not there."""
    sky: Spots = {(d, h): 15 if 9 <= h < 19 else 2 for d in range(DAYS + 14) for h in range(24)}
    hole: Spots = {(day, 3): "" for day in range(DAYS + 14)}
    text = table(temp=sky | hole) if gap == "temp" else table(temp=sky, gone=hole)
    yard = read_scenario(scene(tmp_path, forecast_csv=text)).yards[0]

    assert () == yard.feed_spans
    assert (Why(Cause.MEAN, 85, 4 * 1440),) in [one.whys for one in yard.shut]


def test_long_silence_about_the_air_shuts_syrup_and_strips(tmp_path: Path) -> None:
    """Day 5 tells no temperature for ten hours, unless one is typed.

    No syrup on days 2 to 5 (four days down), and formic acid, in for a week, only after it;
    amitraz bears any air.
    """
    text = table(temp=hours(5, 4, 14, ""))
    extra = '[strips]\nsubstance = "formic acid"\n'
    typed = TYPED + "all,temperature,,2027-03-06,2027-03-06,,,11 degC,21 degC,\n"
    outfit = read_scenario(scene(tmp_path / "a", extra, forecast_csv=text))
    mite = read_scenario(scene(tmp_path / "b", forecast_csv=text)).yards[0]
    filled = read_scenario(scene(tmp_path / "c", extra, typed, forecast_csv=text)).yards[0]

    yard = outfit.yards[0]
    assert (Span(0, at(2)), Span(at(6), at(DAYS))) == yard.feed_spans == mite.feed_spans
    assert ((0, 1, 2, 3, 4, 5), ()) == (yard.strips_shut_days, mite.strips_shut_days)
    why = Why(Cause.COLD, None, 4 * 1440)
    assert (why,) in [one.whys for one in yard.shut if one.work is Work.FEED]
    assert ((Span(0, at(DAYS)),), ()) == (filled.feed_spans, filled.strips_shut_days)
    assert (
        "temperature over all = 1 day not told: no syrup is poured that is still taken down then, "
        "and no strips go in that mind it (forecast.csv is silent about it for more than 5 hours, "
        "the first time on Sat 6 Mar [C])"
    ) in said(outfit)


def test_heat_and_cold_of_a_day_told_in_part_keep_strips_out(tmp_path: Path) -> None:
    """A forecast from 6:00 on day 1 to 18:00 on day 5.

    On day 1 it is 8 degrees at six, on day 5 36 from twelve to five.  Formic acid bears 10 to
    29.5 degrees, in for a week or, where its days are typed so, for two days.  Thymol's least is
    for the mean, which nobody knows of such a day; its most, 30, is not.  A typed temperature
    stands before what is forecast.
    """
    gone = hours(0, 0, 24, True) | hours(1, 0, 6, True) | hours(5, 18, 24, True)
    text = table(6, temp=hours(1, 6, 7, 8) | hours(5, 12, 17, 36), gone=gone)
    short = 'out_after = "2 days"\nout_before = "9 days"\n'
    typed = TYPED + "all,temperature,,2027-03-06,2027-03-06,,,11 degC,25 degC,\n"

    def shut(name: str, substance: str, days: str = "", weather: str = "") -> tuple[int, ...]:
        extra = f'[strips]\nsubstance = "{substance}"\n{days}'
        folder = scene(tmp_path / name, extra, weather, forecast_csv=text)
        return read_scenario(folder).yards[0].strips_shut_days

    assert (0, 1, 2, 3, 4, 5) == shut("a", "formic acid")
    assert (0, 1, 4, 5) == shut("b", "formic acid", short)
    assert (0, 1) == shut("c", "formic acid", short, typed)
    assert (4, 5) == shut("d", "thymol", short)
    assert () == shut("e", "amitraz", short)


def test_bees_must_settle_without_thunder_heavy_rain_or_gale(tmp_path: Path) -> None:
    """Through the night after the last day as well; cold and drizzle are allowed."""
    text = table(
        thunder=hours(2, 19, 22, 25),
        rain=hours(3, 1, 2, 8) | hours(3, 2, 5, 0.5),
        wind=hours(4, 20, 21, 18),
        gust=hours(5, 20, 21, 25),
        temp=hours(6, 20, 24, 5),
        gone=hours(10, 2, 3, True),
    )
    yard = read_scenario(scene(tmp_path, forecast_csv=text)).yards[0]

    assert (
        Span(at(2, 19), at(2, 22)), Span(at(3, 1), at(3, 2)), Span(at(4, 20), at(4, 21)),
        Span(at(5, 20), at(5, 21)), Span(at(10, 2), at(10, 3)),
    ) == yard.unsettled_spans  # fmt: skip


def test_temperatures_shut_strips_and_warm_boards(tmp_path: Path) -> None:
    """Daily lows and highs of the forecast serve what typed ones do."""
    extra = '[strips]\nsubstance = "formic acid"\n[yards]\nclearing = "warm board"\n'
    warm = hours(0, 12, 15, 24) | hours(1, 12, 15, 19) | hours(2, 3, 4, 8) | hours(2, 12, 13, 20)
    yard = read_scenario(scene(tmp_path, extra, forecast_csv=table(4, temp=warm))).yards[0]

    assert 2 in yard.strips_shut_days  # 8 degrees: below the 10 of its leaflet
    assert (Span(at(0, 12), at(0, 15)), Span(at(2, 12), at(2, 13))) == yard.open_spans
    assert () == yard.high_only


def test_warm_boards_go_by_the_hour(tmp_path: Path) -> None:
    """Dawn at 16 degrees is shut where they clear, and open elsewhere; each with its reason.

    On day 1 the temperature was typed: its high counts, and no hour is made up; 12 degC are
    too cool to open by any way of clearing.
    """
    warm: Spots = {(day, hour): 24 for day in range(4) for hour in range(11, 17)}
    yards = YARDS.replace("feeder", "feeder,clearing").replace("hills,8 L", "hills,8 L,warm board")
    weather = TYPED + "all,temperature,,2027-03-02,2027-03-02,,,12 degC,23 degC,\n"
    folder = scene(tmp_path, weather=weather, forecast_csv=table(4, temp=warm))
    (folder / "yards.csv").write_text(yards.replace("8 L\n", "8 L,\n"), "utf-8")
    mill, gate, _ = read_scenario(folder).yards

    assert (
        Span(at(0, 11), at(0, 17)), Span(at(1), at(2)), Span(at(2, 11), at(2, 17)),
        Span(at(3, 11), at(3, 17)),
    ) == mill.open_spans  # fmt: skip
    assert (Span(0, at(DAYS)),) == gate.open_spans
    assert ((1,), (1,)) == (mill.high_only, gate.high_only)
    morning = next(one for one in mill.shut if one.work is Work.OPEN)
    assert (Why(Cause.COLD, 160),) == morning.whys


def warm_scene(path: Path, weather: str, text: str) -> Path:
    """Warm boards at Mill alone, under a forecast."""
    folder = scene(path, weather=weather, forecast_csv=text)
    yards = YARDS.replace("feeder", "feeder,clearing").replace("8 L\n", "8 L,\n")
    (folder / "yards.csv").write_text(yards.replace("hills,8 L,", "hills,8 L,warm board"), "utf-8")
    return folder


def test_warm_hours_count_on_days_told_in_part(tmp_path: Path) -> None:
    """A forecast from 6:00 on day 0 to 18:00 on day 3, 26 degrees from 10 to 18.

    All four days are open then, day 2 with its silent morning too; the days after it are shut,
    as nobody tells their temperature, but for one that is typed.
    """
    warm: Spots = {(day, hour): 26 for day in range(4) for hour in range(10, 18)}
    gone = hours(0, 0, 6, True) | hours(2, 0, 7, True) | hours(3, 18, 24, True)
    weather = TYPED + "all,temperature,,2027-03-07,2027-03-07,,,12 degC,21 degC,\n"
    folder = warm_scene(tmp_path, weather, table(4, temp=warm, gone=gone))
    mill, gate, _ = read_scenario(folder).yards

    days = tuple(Span(at(day, 10), at(day, 18)) for day in range(4))
    assert (*days, Span(at(6), at(7))) == mill.open_spans
    assert (Span(0, at(2)), Span(at(2, 7), at(DAYS))) == gate.open_spans
    silent = [one for one in mill.shut if one.whys == (Why(Cause.COLD, None),)]
    assert [3, 4, 5, 7, 8, 9] == [one.start_min // at(1) for one in silent if one.work is Work.OPEN]
    assert (6,) == mill.high_only


def test_a_fit_row_of_the_yard_itself_tells_warm_hours(tmp_path: Path) -> None:
    """Sixteen degrees all along, to day 3; fit is typed for all, and on days 1 and 6 for Mill.

    What it overrules is kept; a row for all lifts the rain of day 2, and no cold.
    """
    weather = TYPED + (
        "all,open,fit,2027-03-01,2027-03-10,10:00,17:00,,,\n"
        "mill,open,fit,2027-03-02,2027-03-02,11:00,16:00,,,\n"
        "mill,open,fit,2027-03-07,2027-03-07,12:00,15:00,,,\n"
    )
    warm = hours(2, 12, 14, 22)
    text = table(4, temp=warm, rain=hours(2, 13, 14, 3))
    folder = warm_scene(tmp_path, weather, text)
    mill = read_scenario(folder).yards[0]

    assert (
        Span(at(1, 11), at(1, 16)), Span(at(2, 12), at(2, 14)), Span(at(6, 12), at(6, 15))
    ) == mill.open_spans  # fmt: skip
    over = {one.start_min // at(1) for one in hear(folder).overruled if "mill" in one.yards}
    assert {1, 2, 6} == over


@pytest.mark.parametrize("beyond", ["", '[weather]\nbeyond = "shut"\n'])
def test_a_row_for_all_opens_no_warm_hours_that_nobody_tells(tmp_path: Path, beyond: str) -> None:
    """Neither those that a forecast leaves out, nor those beyond its end."""
    weather = TYPED + "all,open,fit,2027-03-01,2027-03-10,10:00,17:00,,,\n"
    text = table(4, temp=hours(2, 12, 14, 22), gone=hours(1, 11, 13, True))
    folder = warm_scene(tmp_path, weather, text)
    with (folder / "outfit.toml").open("a", encoding="utf-8") as file:
        file.write(f"\n{beyond}")

    assert (Span(at(2, 12), at(2, 14)),) == read_scenario(folder).yards[0].open_spans


def test_hours_of_warm_boards_need_no_whole_day(tmp_path: Path) -> None:
    """A forecast of less than a day tells temperature enough for them to be allowed."""
    gone = hours(0, 0, 9, True)
    folder = warm_scene(tmp_path, "", table(1, temp=hours(0, 12, 15, 25), gone=gone))

    assert (Span(at(0, 12), at(0, 15)),) == read_scenario(folder).yards[0].open_spans


def test_a_typed_fit_row_overrides_its_day(tmp_path: Path) -> None:
    """Typed hours count on that day, whatever is forecast; what that overrules is kept."""
    weather = TYPED + "Mill,open,fit,2027-03-05,2027-03-05,13:00,16:00,,,we know this hill\n"
    text = table(rain=hours(4, 12, 18, 3) | hours(5, 12, 13, 3))
    folder = scene(tmp_path, weather=weather, forecast_csv=text)
    mill, gate, _ = read_scenario(folder).yards
    heard = hear(folder)

    assert Span(at(4, 13), at(4, 16)) in mill.open_spans
    assert Span(at(4, 18), at(5, 12)) in gate.open_spans
    assert (at(5), at(5, 12)) in mill.open_spans  # the day after is forecast again
    assert {("mill",)} == {one.yards for one in heard.overruled}
    assert list(range(at(4, 12), at(4, 18), 60)) == [one.start_min for one in heard.overruled]
    assert Span(at(4), at(4, 12)) not in mill.feed_spans  # feed was not typed: rain counts
    assert Span(0, at(4, 12)) == mill.feed_spans[0]


def test_a_typed_night_is_settled_past_midnight_and_limits_no_other(tmp_path: Path) -> None:
    """Thunder from 22:00 to 02:00, typed as settled from 16:00 to 06:00: nothing is left of it.

    Nor does the row unsettle the night before.  One that ends at 01:00 leaves the last hour, and
    a typed shut row still shuts.
    """
    text = table(thunder=hours(2, 22, 24, 60) | hours(3, 0, 2, 60))
    night = "{},settle,fit,2027-03-03,2027-03-03,16:00,{},,,under the trees\n"
    shut = "ford,settle,shut,2027-03-04,2027-03-04,03:00,04:00,,,\n"
    rows = TYPED + night.format("mill", "06:00") + night.format("ford", "01:00") + shut
    folder = scene(tmp_path, weather=rows, forecast_csv=text)
    mill, gate, ford = read_scenario(folder).yards

    assert ((), ()) == (mill.unsettled_spans, mill.shut)
    assert (Span(at(2, 22), at(3, 2)),) == gate.unsettled_spans
    assert (Span(at(3, 1), at(3, 2)), Span(at(3, 3), at(3, 4))) == ford.unsettled_spans
    lost = [one for one in hear(folder).overruled if one.yards == ("ford",)]
    assert [at(2, 22), at(2, 23), at(3)] == [one.start_min for one in lost]
    assert at(3, 1) == lost[-1].end_min


def test_a_typed_shut_row_shuts_whatever_is_forecast(tmp_path: Path) -> None:
    """Beside it the forecast counts."""
    weather = TYPED + "all,open,shut,2027-03-05,2027-03-05,08:00,10:00,,,fair in town\n"
    text = table(rain=hours(4, 12, 14, 3))
    yard = read_scenario(scene(tmp_path, weather=weather, forecast_csv=text)).yards[0]

    assert (
        Span(0, at(4, 8)), Span(at(4, 10), at(4, 12)), Span(at(4, 14), at(DAYS))
    ) == yard.open_spans  # fmt: skip


def test_typed_temperatures_stand_before_forecast_ones(tmp_path: Path) -> None:
    """Forecast cold, typed warm: opening goes, and syrup by the typed mean; rain still counts."""
    cold: Spots = {(day, hour): 5 for day in range(DAYS + 14) for hour in range(24)}
    weather = TYPED + "all,temperature,,2027-03-01,2027-03-24,,,11 degC,21 degC,\n"
    text = table(temp=cold, rain=hours(4, 12, 14, 3))
    yard = read_scenario(scene(tmp_path, weather=weather, forecast_csv=text)).yards[0]

    assert (Span(0, at(4, 12)), Span(at(4, 14), at(DAYS))) == yard.open_spans
    assert (Span(0, at(4, 12)), Span(at(4, 14), at(DAYS))) == yard.feed_spans


def test_a_typed_fit_row_for_syrup_overrides_forecast_cold(tmp_path: Path) -> None:
    """Eight degrees all along: syrup goes only on the two days typed as fit, in their hours.

    What that overrules is kept.  Where all the temperatures were typed as well, they shut.
    """
    cold: Spots = {(day, hour): 8 for day in range(DAYS + 14) for hour in range(24)}
    fit = TYPED + "all,feed,fit,2027-03-03,2027-03-04,08:00,20:00,,,warm in the valley\n"
    air = "all,temperature,,2027-03-01,2027-03-24,,,5 degC,9 degC,\n"
    lifted = scene(tmp_path / "a", weather=fit, forecast_csv=table(temp=cold))
    typed = scene(tmp_path / "b", weather=fit + air, forecast_csv=table(temp=cold))

    spans = read_scenario(lifted).yards[0].feed_spans
    assert (Span(at(2, 8), at(2, 20)), Span(at(3, 8), at(3, 20))) == spans
    lost = [one for one in hear(lifted).overruled if one.work is Work.FEED]
    assert [at(2), at(3)] == [one.start_min for one in lost]
    yard = read_scenario(typed).yards[0]
    assert () == yard.feed_spans
    whys = [one.whys for one in yard.shut if one.work is Work.FEED]
    assert [(Why(Cause.MEAN, 70, 4 * 1440),)] * DAYS == whys


def test_typed_cold_keeps_its_reason_beside_a_forecast(tmp_path: Path) -> None:
    """Two days typed too cold to open, under a warm sky: shut, and why; nothing is told twice."""
    weather = TYPED + "all,temperature,,2027-03-04,2027-03-05,,,3 degC,9 degC,\n"
    yard = read_scenario(scene(tmp_path, weather=weather, forecast_csv=table())).yards[0]

    assert (Span(0, at(3)), Span(at(5), at(DAYS))) == yard.open_spans
    assert (
        Shut(Work.OPEN, at(3), at(4), (Why(Cause.COLD, 90),)),
        Shut(Work.OPEN, at(4), at(5), (Why(Cause.COLD, 90),)),
    ) == yard.shut


def test_the_narrowest_forecast_counts(tmp_path: Path) -> None:
    """A yard's own before its district's before the one for all."""
    folder = scene(
        tmp_path, ENTRIES,
        wide_csv=table(rain=hours(1, 9, 10, 5)),
        plain_csv=table(rain=hours(2, 9, 10, 5)),
        ford_csv=table(rain=hours(3, 9, 10, 5)),
    )  # fmt: skip
    shut = [without((Span(0, at(DAYS)),), yard.open_spans) for yard in read_scenario(folder).yards]

    assert [(Span(at(day, 9), at(day, 10)),) for day in (1, 2, 3)] == shut
    assert [("mill",), ("gate",), ("ford",)] == [
        one.yards for one in reasons(folder) if one.work is Work.OPEN
    ]


def test_beyond_a_narrow_forecast_the_wider_one_counts(tmp_path: Path) -> None:
    """One for the hills of days 2 to 4, and one for all of days 0 to 9.

    Rain of the wide one on day 3 is not the hills', that of days 1 and 5 is.  All is cold from
    day 2 on, the hills only from day 5: over four days down, 4 degrees for 16 make 7 from day 4
    on there (10 on day 3), and from day 1 on elsewhere.  Day 4 is two days ahead of the near one,
    four of the other.
    """
    extra = '[[forecasts]]\nfile = "all.csv"\n[[forecasts]]\narea = "hills"\nfile = "hills.csv"\n'
    cold: Spots = {(day, hour): 4 for day in range(2, DAYS) for hour in range(24)}
    wet = hours(1, 9, 10, 5) | hours(3, 9, 10, 5) | hours(5, 9, 10, 5)
    before: Spots = {(day, hour): True for day in (0, 1) for hour in range(24)}
    heard = Heard()
    folder = scene(
        tmp_path, extra,
        all_csv=table(DAYS, temp=cold, rain=wet),
        hills_csv=table(5, gone=before, rain=hours(2, 9, 10, 5)),
    )  # fmt: skip
    outfit = read_scenario(folder, heard)

    def found(yard: str, work: Work, cause: Cause) -> list[int]:
        return [
            one.start_min for one in heard.shut
            if yard in one.yards and one.work is work and cause in [why.cause for why in one.whys]
        ]  # fmt: skip

    assert [at(1, 9), at(2, 9), at(5, 9)] == found("mill", Work.OPEN, Cause.RAIN)
    assert [at(1, 9), at(3, 9), at(5, 9)] == found("gate", Work.OPEN, Cause.RAIN)
    assert [at(day) for day in range(4, DAYS)] == found("mill", Work.FEED, Cause.MEAN)
    assert [at(day) for day in range(1, DAYS)] == found("gate", Work.FEED, Cause.MEAN)
    assert (1000, 1000, 1000, 1000, 1000, 900, 850, 800, 700, 600) == heard.sure["mill"]
    assert (1000, 1000, 1000, 1000, 950, 900, 850, 800, 700, 600) == heard.sure["gate"]
    assert [
        "weather over hills = as over all from Sat 6 Mar 00:00 on (hills.csv ends there [C])",
        "weather over hills = as over all before Wed 3 Mar 00:00 (hills.csv starts there [C])",
    ] == [line for line in said(outfit) if "weather over" in line]


def test_what_a_narrow_forecast_leaves_out_is_asked_of_no_other(tmp_path: Path) -> None:
    """Silent about the air of day 1, though the one for all tells it: four days down from 0, 1."""
    extra = '[[forecasts]]\nfile = "all.csv"\n[[forecasts]]\narea = "hills"\nfile = "hills.csv"\n'
    near = table(3, temp=hours(1, 0, 24, ""))
    folder = scene(tmp_path, extra, all_csv=table(), hills_csv=near)
    mill, gate, _ = read_scenario(folder).yards

    assert ((Span(at(2), at(DAYS)),), (Span(0, at(DAYS)),)) == (mill.feed_spans, gate.feed_spans)


def test_one_table_for_several_areas(tmp_path: Path) -> None:
    """An area column tells them apart; a yard without any is said."""
    hills = table(area="hills", rain=hours(1, 9, 10, 5))
    gate = table(area="Gate").split("\n", 1)[1]
    outfit = read_scenario(scene(tmp_path, forecast_csv=hills + gate))

    assert [2, 1, 1] == [len(yard.open_spans) for yard in outfit.yards]
    assert any(line.startswith("weather over Ford = fair where nothing") for line in said(outfit))
    assert not any("over Gate = fair" in line for line in said(outfit))


def test_silence_is_said(tmp_path: Path) -> None:
    """A hole is shut; beyond the end it is fair; both are said, and so are missing figures."""
    text = (
        table(4, gone=hours(1, 9, 11, True)).replace(",gust_ms", ",note").replace("thunder", "note")
    )
    lines = [line.rsplit(",", 2)[0] for line in text.splitlines()]
    outfit = read_scenario(scene(tmp_path, forecast_csv="\n".join(lines)))

    assert (
        Span(0, at(1, 9)), Span(at(1, 11), at(DAYS))
    ) == outfit.yards[0].open_spans == outfit.yards[0].feed_spans  # fmt: skip
    assert (Span(at(1, 9), at(1, 11)),) == outfit.yards[0].unsettled_spans
    lines = said(outfit)
    assert (
        "weather over all = shut in 2 hours "
        "(missing inside forecast.csv, the first from Tue 2 Mar 09:00 [C])"
    ) in lines
    assert (
        "weather over all = fair from Fri 5 Mar 00:00 on where nothing is typed "
        '(forecast.csv ends there; type windows, or set beyond = "shut" [C])'
    ) in lines
    assert (
        "gusts over all = not judged in 94 hours "
        "(forecast.csv does not tell them, from Mon 1 Mar 00:00 [C])"
    ) in lines
    assert any(line.startswith("thunder over all = not judged in 94 hours") for line in lines)
    assert not any("every day" in line for line in lines)


def test_a_single_missing_hour_in_words(tmp_path: Path) -> None:
    """One hour, not 1 hours; and what lies before the first."""
    text = table(gone=hours(0, 0, 6, True) | hours(1, 9, 10, True))
    lines = said(read_scenario(scene(tmp_path, forecast_csv=text)))

    assert any(line.startswith("weather over all = shut in 1 hour ") for line in lines)
    assert any("fair before Mon 1 Mar 06:00" in line for line in lines)


def test_beyond_can_be_shut(tmp_path: Path) -> None:
    """Then only forecast or typed hours are fit; nothing need be said."""
    text = table(4, gone=hours(0, 0, 6, True))
    weather = TYPED + "all,open,fit,2027-03-08,2027-03-08,10:00,12:00,,,\n"
    folder = scene(tmp_path, '[weather]\nbeyond = "shut"\n', weather, forecast_csv=text)
    outfit = read_scenario(folder)
    yard = outfit.yards[0]

    assert (Span(at(0, 6), at(4)), Span(at(7, 10), at(7, 12))) == yard.open_spans
    assert (Span(at(0, 6), at(4)),) == yard.feed_spans
    assert (Span(0, at(0, 6)), Span(at(4), at(DAYS + 1))) == yard.unsettled_spans
    assert not any("fair" in line for line in said(outfit) if " over " in line)


def test_settings_with_their_sources(tmp_path: Path) -> None:
    """Each default is noted with its source; typed ones count instead."""
    wet = table(rain=hours(1, 9, 10, 2), wind=hours(2, 9, 10, 10), thunder=hours(3, 9, 10, 40))
    extra = '[weather]\nopen_rain = "3 mm/h"\nopen_wind = "36 km/h"\nopen_thunder = "40 %"\n'
    usual = read_scenario(scene(tmp_path / "a", forecast_csv=wet))
    wide = read_scenario(scene(tmp_path / "b", extra, forecast_csv=wet))

    assert 4 == len(usual.yards[0].open_spans)
    assert (Span(0, at(DAYS)),) == wide.yards[0].open_spans
    lines = said(usual)
    assert any(line.startswith("weather.open_rain = 0.2 mm/h (no rain") for line in lines)
    assert any("weather.settle_rain = 7.6 mm/h" in line and "[A:" in line for line in lines)
    assert not any(line.startswith("weather.open_rain") for line in said(wide))


def test_without_a_forecast_settings_do_nothing(tmp_path: Path) -> None:
    """They are read and checked, and no default of theirs is noted."""
    outfit = read_scenario(scene(tmp_path, '[weather]\nopen_rain = "3 mm/h"\n'))

    assert (Span(0, at(DAYS)),) == outfit.yards[0].open_spans
    assert [] == [line for line in said(outfit) if "weather." in line]
    assert any(line.startswith("weather = fair from sunrise") for line in said(outfit))


def test_time_steps_in_utc_fall_on_the_wall(tmp_path: Path) -> None:
    """Steps 32 and 33 are 08:00 and 09:00 UTC on 1 March: 21:00 and 22:00 in Auckland."""
    outfit = read_scenario(scene(tmp_path, forecast_json=steps_text()))

    assert (Span(at(0, 21), at(0, 23)),) == outfit.yards[0].unsettled_spans


def test_how_sure_each_day_is(tmp_path: Path) -> None:
    """Made on day -1: days 3, 4, 6, 9 are 4, 5, 7, 10 ahead; a typed fit day is sure."""
    weather = TYPED + "Mill,open,fit,2027-03-07,2027-03-07,10:00,12:00,,,\n"
    text = steps_text()
    heard = hear(scene(tmp_path, weather=weather, forecast_json=text))

    # The forecast speaks of days 0 to 3 (until 13:00 on Wednesday); then half and half.
    assert (1000, 1000, 1000, 500, 500, 500, 500, 500, 500, 500) == heard.sure["gate"]
    assert 1000 == heard.sure["mill"][6]
    assert ["all: forecast.json, JSON of time steps, Sun 28 Feb 13:00 to Wed 3 Mar 13:00"] == (
        heard.skies
    )


def test_times_read_off_another_wall(tmp_path: Path) -> None:
    """A CSV made in UTC, without offsets: 20:00 there is 09:00 the next day here."""
    extra = '[[forecasts]]\nfile = "sky.csv"\nzone = "Etc/UTC"\n'
    folder = scene(tmp_path, extra, sky_csv=table(rain=hours(0, 20, 21, 5)))

    assert Span(at(1, 10), at(DAYS)) == read_scenario(folder).yards[0].open_spans[-1]


SMALL = settings(max_examples=25, deadline=None,
                 suppress_health_check=[HealthCheck.function_scoped_fixture])  # fmt: skip
SPOTS = st.dictionaries(
    st.tuples(st.integers(0, DAYS + 1), st.integers(0, 23)), st.integers(0, 20), max_size=12
)


@SMALL
@given(SPOTS, SPOTS, SPOTS)
def test_reasons_and_hours_agree(
    tmp_path_factory: pytest.TempPathFactory,
    rain: Spots,
    wind: Spots,
    temp: Spots,
) -> None:
    """Any weather: what is shut has a reason, and what has a reason is shut."""
    folder = scene(
        tmp_path_factory.mktemp("any"), forecast_csv=table(rain=rain, wind=wind, temp=temp)
    )
    heard = Heard()
    yard = read_scenario(folder, heard).yards[0]

    def told(work: Work) -> tuple[Span, ...]:
        mine = [one for one in heard.shut if one.work is work and yard.id in one.yards]
        return join(tuple(Span(one.start_min, one.end_min) for one in mine))

    whole = (Span(0, at(DAYS)),)
    assert without(whole, yard.open_spans) == told(Work.OPEN)
    assert without(whole, yard.feed_spans) == told(Work.FEED)
    assert yard.unsettled_spans == told(Work.SETTLE)
    assert all(one.whys for one in heard.shut)
    assert not any(why.cause is Cause.MISSING for one in heard.shut for why in one.whys)
