from pathlib import Path

import pytest

from runplanner.days import DAY_MIN, Span, meet, whole_day
from runplanner.outfit.shut import Cause, Shut, Why, Work
from runplanner.scenario.forecast.part import Heard
from runplanner.scenario.read import read_scenario
from runplanner.scenario.shown.implied import implied
from tests.scenario.folders import a_folder, faults, only, read

YARDS = """\
name,lat,lon,colonies,boxes,district,feeder,clearing
Mill,-38.01,175.06,24,41,hills,8 L,
Gate,-38.12,175.20,12,20,plain,8 L,
"""
HEAD = "area,what,state,from_day,to_day,from_hour,to_hour,min_temp,max_temp,note\n"


def at(day: int, hour: float) -> int:
    """The minute of a clock hour on a day."""
    return day * DAY_MIN + int(hour * 60)


def test_without_a_file_it_is_fair(tmp_path: Path) -> None:
    """No weather file: fit at all hours, nothing unsettled."""
    yard = read(tmp_path).yards[0]

    assert (Span(0, 10 * DAY_MIN),) == yard.open_spans == yard.feed_spans
    assert () == yard.unsettled_spans
    assert () == yard.strips_shut_days


def test_fit_rows_give_the_hours_and_shut_rows_win(tmp_path: Path) -> None:
    """A day with a fit row is fit only in its hours; a shut row cuts into them."""
    weather = HEAD + (
        "all,open,fit,2027-03-01,2027-03-02,09:00,17:00,,,\n"
        "all,open,shut,2027-03-02,2027-03-02,12:00,14:00,,,rain\n"
        "all,open,shut,2027-03-03,2027-03-03,,,,,\n"
    )
    yard = read(tmp_path, weather=weather).yards[0]

    assert (
        Span(at(0, 9), at(0, 17)),
        Span(at(1, 9), at(1, 12)),
        Span(at(1, 14), at(1, 17)),
        Span(at(3, 0), at(10, 0)),  # days without a row are fit
    ) == yard.open_spans
    assert (Span(0, at(10, 0)),) == yard.feed_spans


def test_typed_reasons_are_kept(tmp_path: Path) -> None:
    """A shut row keeps its note, and a cold day its temperature; fit rows shut nothing by name."""
    rows = (
        "all,open,shut,2027-03-02,2027-03-02,14:00,18:00,,,front comes in\n"
        "all,temperature,,2027-03-04,2027-03-04,,,2 degC,9 degC,\n"
    )
    yard = read(tmp_path, weather=HEAD + rows).yards[0]
    day = (at(3, 0), at(4, 0))

    assert Shut(Work.OPEN, at(1, 14), at(1, 18), note="front comes in") in yard.shut
    assert Shut(Work.OPEN, *day, (Why(Cause.COLD, 90),)) in yard.shut
    assert Shut(Work.FEED, *day, (Why(Cause.MEAN, 55, 1440),)) in yard.shut
    assert () == yard.sure_permille


def test_narrower_areas_count_first(tmp_path: Path) -> None:
    """A yard's own fit hours stand before its district's, and those before all."""
    weather = HEAD + (
        "all,open,fit,2027-03-01,2027-03-10,08:00,18:00,,,\n"
        "Hills,open,fit,2027-03-01,2027-03-10,10:00,16:00,,,\n"
        "mill,open,fit,2027-03-02,2027-03-02,11:00,12:00,,,\n"
        "all,open,shut,2027-03-03,2027-03-03,,,,,\n"
    )
    mill, gate = read(tmp_path, yards=YARDS, weather=weather).yards

    assert (Span(at(0, 10), at(0, 16)), Span(at(1, 11), at(1, 12))) == mill.open_spans[:2]
    assert Span(at(3, 10), at(3, 16)) == mill.open_spans[2]
    assert (Span(at(0, 8), at(0, 18)), Span(at(1, 8), at(1, 18))) == gate.open_spans[:2]


def test_hours_over_midnight(tmp_path: Path) -> None:
    """Hours that end before they start run on to the next morning, past the last day too."""
    weather = HEAD + (
        "all,settle,shut,2027-03-02,2027-03-02,16:00,06:00,,,thunder\n"
        "all,settle,shut,2027-03-10,2027-03-10,20:00,05:00,,,gale\n"
    )
    yard = read(tmp_path, weather=weather).yards[0]

    assert (Span(at(1, 16), at(2, 6)), Span(at(9, 20), at(10, 5))) == yard.unsettled_spans


def test_a_night_typed_as_settled_unsettles_no_hour(tmp_path: Path) -> None:
    """Without a forecast there is nothing to lift; the hours outside it are as they were."""
    weather = HEAD + "all,settle,fit,2027-03-03,2027-03-03,16:00,06:00,,,\n"

    assert () == read(tmp_path, weather=weather).yards[0].unsettled_spans


def test_syrup_is_judged_over_the_days_it_is_taken_down(tmp_path: Path) -> None:
    """Not the pouring hour counts but the mean until the feeder is empty: two rounds of 8 L."""
    # 8 L at 2 L a day: days d .. d+3. Means by day: 15 15 15 8 5 5 15 15 15 15.
    # From day 0: (15+15+15+8)/4 = 13.25; 1: 10.75; 2: 8.25; 3: 8.25; 4: 10; 5: 12.5
    weather = HEAD + (
        "all,temperature,,2027-03-01,2027-03-14,,,10 degC,20 degC,\n"
        "all,temperature,,2027-03-04,2027-03-04,,,3 degC,13 degC,\n"
        "all,temperature,,2027-03-05,2027-03-06,,,0 degC,10 degC,\n"
    )
    yard = read(tmp_path, '[yards]\nfeeder = "8 L"\n', weather=weather).yards[0]

    assert (Span(0, at(2, 0)), Span(at(4, 0), at(10, 0))) == yard.feed_spans


@pytest.mark.parametrize(
    ("stores", "shut"),
    [
        # Means by day: 15 15 5 5 5, then untold.  2.2 kg of 0.99 kg/L are 2.5 L at 2 L a day, two
        # days: from day 1 (15 + 5) / 2 = 10.
        ("17.8 kg", (2, 3, 4)),
        # 20 kg are 20.2 L, three rounds of 7 L, four days: from day 0 40 / 4 = 10, from 1 30 / 4.
        ("0 kg", (1, 2, 3, 4)),
        # Nothing lacks: as by a full feeder of 10 L, five days, from day 0 45 / 5 = 9.
        ("20 kg", (0, 1, 2, 3, 4)),
    ],
)
def test_syrup_is_judged_by_the_round_that_is_poured(
    tmp_path: Path, stores: str, shut: tuple[int, ...]
) -> None:
    """By the litres that each colony gets in a round, not by what its feeder could hold."""
    weather = HEAD + (
        "all,temperature,,2027-03-01,2027-03-02,,,10 degC,20 degC,\n"
        "all,temperature,,2027-03-03,2027-03-05,,,0 degC,10 degC,\n"
    )
    text = f'[yards]\ntarget = "20 kg"\nstores = "{stores}"\n'
    yard = read(tmp_path, text, weather=weather).yards[0]

    open_days = {day for day in range(10) if meet(yard.feed_spans, (whole_day(day),))}
    assert set(shut) == set(range(10)) - open_days


def test_days_too_cool_to_open(tmp_path: Path) -> None:
    """A day that never reaches 13 degrees is shut, unless a fit row says otherwise."""
    weather = HEAD + (
        "all,temperature,,2027-03-01,2027-03-02,,,5 degC,12 degC,\n"
        "all,open,fit,2027-03-02,2027-03-02,12:00,15:00,,,\n"
    )
    yard = read(tmp_path, weather=weather).yards[0]

    assert (Span(at(1, 12), at(1, 15)), Span(at(2, 0), at(10, 0))) == yard.open_spans


def test_warm_boards_need_warm_days(tmp_path: Path) -> None:
    """Only days known to be warm enough are open for warm-day boards."""
    weather = HEAD + (
        "all,temperature,,2027-03-01,2027-03-03,,,12 degC,24 degC,\n"
        "all,temperature,,2027-03-02,2027-03-02,,,12 degC,19 degC,\n"
    )
    yard = read(tmp_path, '[yards]\nclearing = "warm board"\n', weather=weather).yards[0]

    assert (Span(0, at(1, 0)), Span(at(2, 0), at(3, 0))) == yard.open_spans


def test_a_typed_high_tells_no_hours(tmp_path: Path) -> None:
    """Of two warm days the second has warm hours typed for the yard; ``check`` names the first.

    A row for all, as long as the day, tells nothing of where it is warm.
    """
    weather = HEAD + (
        "all,temperature,,2027-03-01,2027-03-02,,,12 degC,24 degC,\n"
        "all,temperature,,2027-03-03,2027-03-03,,,12 degC,19 degC,\n"
        "all,open,fit,2027-03-01,2027-03-10,06:00,19:00,,,\n"
        "gate,open,fit,2027-03-02,2027-03-02,12:00,17:00,,,\n"
    )
    yards = YARDS.replace("plain,8 L,", "plain,8 L,warm board")
    outfit = read(tmp_path, yards=yards, weather=weather)
    mill, gate = outfit.yards
    (said,) = (words for label, words in implied(outfit) if "Warm boards" in words)

    assert (Span(at(0, 6), at(0, 19)), Span(at(1, 12), at(1, 17))) == gate.open_spans
    assert ((), (0,)) == (mill.high_only, gate.high_only)
    assert "Warm boards at Gate: " in said


def test_a_typed_high_beside_a_cool_low_tells_no_hours(tmp_path: Path) -> None:
    """12 degC are too cool to open hives (13), 13 are not; a fit row tells the hours."""
    weather = HEAD + (
        "all,temperature,,2027-03-01,2027-03-02,,,12 degC,24 degC,\n"
        "all,temperature,,2027-03-03,2027-03-03,,,13 degC,24 degC,\n"
        "all,open,fit,2027-03-02,2027-03-02,11:00,19:00,,,\n"
    )
    outfit = read(tmp_path, yards=YARDS, weather=weather)
    (said,) = (words for _, words in implied(outfit) if "only the high" in words)

    assert [(0,), (0,)] == [yard.high_only for yard in outfit.yards]
    assert said.startswith("Nights below open_least at Mill, Gate: ")


def test_days_too_cool_for_warm_boards_say_so(tmp_path: Path) -> None:
    """24, 24 and 18 degC are typed, 9 for the fourth day, and none for the other six.

    The third is shut by its high though fit is typed for all, and so is the fourth, but for the
    hours typed for the yard itself; of the fifth, which has no temperature, those are fit too.
    """
    weather = HEAD + (
        "all,temperature,,2027-03-01,2027-03-02,,,12 degC,24 degC,\n"
        "all,temperature,,2027-03-03,2027-03-03,,,11 degC,18 degC,\n"
        "all,temperature,,2027-03-04,2027-03-04,,,4 degC,9 degC,\n"
        "all,open,fit,2027-03-03,2027-03-03,10:00,17:00,,,\n"
        "gate,open,fit,2027-03-04,2027-03-05,12:00,16:00,,,\n"
    )
    yards = YARDS.replace("8 L,\n", "8 L,warm board\n")
    folder = a_folder(tmp_path, weather=weather, yards=yards)
    mill, gate = read_scenario(folder).yards
    cool = [(one.start_min // DAY_MIN, one.words()) for one in mill.shut if one.work is Work.OPEN]
    silent = "temperature not told"

    assert (Span(0, at(2, 0)),) == mill.open_spans
    assert (Span(0, at(2, 0)), Span(at(3, 12), at(3, 16)), Span(at(4, 12), at(4, 16))) == (
        gate.open_spans
    )
    assert [(2, "temperature 18.0 degC"), (3, "temperature 9.0 degC")] == cool[:2]
    assert [(day, silent) for day in range(4, 10)] == cool[2:]
    said = [line for line in told(folder) if "syrup" not in line and "no row" not in line]
    own = "type fit for the yard itself where its warm boards clear all the same"
    assert said == [
        (
            "weather: 2 days are shut for opening hives by the air typed for them (2027-03-03 to "
            f"2027-03-04), as warm_least is 20 degC; {own}; at Mill"
        ),
        (
            "weather: one day is shut for opening hives by the air typed for it (2027-03-03), as "
            f"warm_least is 20 degC; {own}; at Gate"
        ),
        (
            "weather: 6 days are shut for warm boards, as no temperature is told of them "
            "(2027-03-05 to 2027-03-10); type it, or fit for the yard itself; at Mill"
        ),
        (
            "weather: 5 days are shut for warm boards, as no temperature is told of them "
            "(2027-03-06 to 2027-03-10); type it, or fit for the yard itself; at Gate"
        ),
    ]


def test_warm_boards_without_temperatures(tmp_path: Path) -> None:
    """Without any temperature it cannot be said when warm-day boards work."""
    yards = YARDS.replace("hills,8 L,", "hills,8 L,warm board")
    found = only(faults(tmp_path, yards=yards))

    assert ("clearing", "row 2, Mill") == (found.field, found.where)
    assert "rows of temperature" in found.cure


def test_strips_shut_by_heat_and_cold(tmp_path: Path) -> None:
    """Formic acid works from 10 to 29.5 degrees (leaflet); amitraz at any.

    Day 2 is too cold, day 8 too hot; so no strips go in on the six days before either, for they
    stay seven days.  Day 9 is fit, as far as is known.
    """
    weather = HEAD + (
        "all,temperature,,2027-03-01,2027-03-10,,,12 degC,25 degC,\n"
        "all,temperature,,2027-03-03,2027-03-03,,,9 degC,25 degC,\n"
        "all,temperature,,2027-03-09,2027-03-09,,,15 degC,30 degC,\n"
    )
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    formic = read(tmp_path / "a", '[strips]\nsubstance = "formic acid"\n', weather=weather)
    amitraz = read(tmp_path / "b", weather=weather)

    assert tuple(range(9)) == formic.yards[0].strips_shut_days
    assert () == amitraz.yards[0].strips_shut_days


@pytest.mark.parametrize(
    ("typed", "shut"),
    [
        # Out after 3 days: those put in on days 2, 3 and 4 meet the heat of day 4.
        ('out_after = "3 days"\nout_before = "9 days"\n', (2, 3, 4)),
        ('out_after = "14 days"\nout_before = "20 days"\n', (0, 1, 2, 3, 4)),
        # Over weeks nobody knows the heat: only the day itself is judged.
        ('out_after = "15 days"\nout_before = "20 days"\n', (4,)),
    ],
)
def test_heat_while_strips_are_in(tmp_path: Path, typed: str, shut: tuple[int, ...]) -> None:
    """A hot day that is known shuts the days before it, as long as strips would still be in."""
    weather = HEAD + (
        "all,temperature,,2027-03-01,2027-03-10,,,12 degC,25 degC,\n"
        "all,temperature,,2027-03-05,2027-03-05,,,15 degC,30 degC,\n"
    )
    formic = read(tmp_path, f'[strips]\nsubstance = "formic acid"\n{typed}', weather=weather)

    assert shut == formic.yards[0].strips_shut_days


@pytest.mark.parametrize(
    ("typed", "shut"),
    [
        ("", (0, 1, 2, 3, 4, 5, 6)),  # seven days: only those put in on day 7 or later miss it
        ('out_after = "3 days"\nout_before = "9 days"\n', (4, 5, 6)),
        ('out_after = "15 days"\nout_before = "20 days"\n', (6,)),
        ('coldest = "4 degC"\n', ()),
    ],
)
def test_cold_while_strips_are_in(tmp_path: Path, typed: str, shut: tuple[int, ...]) -> None:
    """A cold day that is known, 5 degrees where 10 are the least, shuts the days before it too."""
    weather = HEAD + (
        "all,temperature,,2027-03-01,2027-03-10,,,12 degC,25 degC,\n"
        "all,temperature,,2027-03-07,2027-03-07,,,5 degC,16 degC,\n"
    )
    formic = read(tmp_path, f'[strips]\nsubstance = "formic acid"\n{typed}', weather=weather)

    assert shut == formic.yards[0].strips_shut_days


def test_own_limits_for_strips(tmp_path: Path) -> None:
    """The label's temperatures may be typed."""
    weather = HEAD + "all,temperature,,2027-03-01,2027-03-02,,,12 degC,25 degC,\n"
    limits = '[strips]\nhottest = "24 degC"\ncoldest = "50 degF"\n'

    assert (0, 1) == read(tmp_path, limits, weather=weather).yards[0].strips_shut_days


def test_thresholds_can_be_typed(tmp_path: Path) -> None:
    """Syrup, opening and warm-board thresholds are settings."""
    weather = HEAD + "all,temperature,,2027-03-01,2027-03-14,,,8 degC,16 degC,\n"
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    usual = read(tmp_path / "a", weather=weather).yards[0]
    strict = read(
        tmp_path / "b",
        '[weather]\nsyrup_least = "13 degC"\nopen_least = "17 degC"\n',
        weather=weather,
    ).yards[0]

    assert (Span(0, at(10, 0)),) == usual.feed_spans == usual.open_spans
    assert () == strict.feed_spans == strict.open_spans


def test_thresholds_without_temperatures_do_nothing(tmp_path: Path) -> None:
    """A threshold typed while no temperature is known is allowed and read."""
    yard = read(tmp_path, '[weather]\nopen_least = "17 degC"\n').yards[0]

    assert (Span(0, at(10, 0)),) == yard.open_spans


@pytest.mark.parametrize(
    ("line", "field", "cure"),
    [
        ("hils,open,fit,2027-03-01,2027-03-02,,,,,", "area", "Did you mean 'hills'?"),
        ("all,opne,fit,2027-03-01,2027-03-02,,,,,", "what", "Did you mean 'open'?"),
        ("all,open,,2027-03-01,2027-03-02,,,,,", "state", "no default"),
        ("all,open,fit,2027-03-02,2027-03-01,,,,,", "to_day", "in order"),
        ("all,open,fit,2026-03-01,2026-03-02,,,,,", "from_day", "Check the year"),
        ("all,open,fit,2027-03-01,1/3/27,,,,,", "to_day", "Write the year first"),
        ("all,open,fit,2027-03-01,2027-03-02,9am,,,,", "from_hour", "with a colon"),
        ("all,open,fit,2027-03-01,2027-03-02,,,5 degC,,", "min_temp", "Empty the cell"),
        ("all,temperature,fit,2027-03-01,2027-03-02,,,5 degC,9 degC,", "state", "Empty the cell"),
        ("all,temperature,,2027-03-01,2027-03-02,,,5 degC,,", "max_temp", "no default"),
        ("all,temperature,,2027-03-01,2027-03-02,,,15 degC,9 degC,", "max_temp", "Swap the two"),
        ("all,temperature,,2027-03-01,2027-03-02,,,20,30 degC,", "min_temp", "unit is missing"),
    ],
)
def test_one_slip_one_fault(tmp_path: Path, line: str, field: str, cure: str) -> None:
    """A single slip in a weather row is named by row and column, with a cure."""
    found = only(faults(tmp_path, yards=YARDS, weather=f"{HEAD}{line}\n"))

    assert ("weather.csv", "row 2", field) == (found.file, found.where, found.field)
    assert cure in found.cure


@pytest.mark.parametrize(
    ("line", "field", "cure"),
    [
        ("all,open,fit,2026-03-02,2027-03-03,10:00,17:00,,,", "from_day", "2027-03-02 would be"),
        ("all,open,shut,2027-03-02,2028-03-03,,,,,", "to_day", "2027-03-03 would be near"),
        ("all,temperature,,2026-03-01,2027-03-10,,,5 degC,9 degC,", "from_day", "2027-03-01"),
        ("all,open,shut,2024-02-29,2027-03-03,,,,,", "from_day", "2027-03-01 would be near"),
        ("all,open,fit,2027-03-02,2027-11-03,,,,,", "to_day", "Check the year and the season"),
    ],
)
def test_a_year_slip_at_one_end(tmp_path: Path, line: str, field: str, cure: str) -> None:
    """A row that reaches more than half a year beyond the campaign has a wrong year."""
    found = only(faults(tmp_path, yards=YARDS, weather=f"{HEAD}{line}\n"))

    assert ("weather.csv", "row 2", field) == (found.file, found.where, found.field)
    assert line.split(",")[3 if field == "from_day" else 4] == found.said
    assert "at most 183 days outside the campaign" == found.allowed
    assert cure in found.cure


def test_a_year_slip_over_new_year(tmp_path: Path) -> None:
    """Of a campaign that runs into January the year of each end is told by its own side."""
    season = "[season]\nfirst_day = 2027-12-20\nlast_day = 2028-01-10\n"
    rows = "all,open,fit,2027-01-02,2028-01-03,,,,,\nall,open,fit,2027-12-22,2028-12-28,,,,,\n"
    found = faults(tmp_path, yards=YARDS, weather=HEAD + rows, season=season)

    assert [
        ("from_day", "Check the year: 2028-01-02 would be near."),
        ("to_day", "Check the year: 2027-12-28 would be near."),
    ] == [(one.field, one.cure) for one in found]


@pytest.mark.parametrize(
    ("first", "last"),
    [
        ("2027-01-01", "2027-12-31"),  # the whole year, and more than one
        ("2026-01-01", "2028-12-31"),
        ("2026-07-01", "2027-06-30"),
        ("2026-10-01", "2027-04-30"),  # a whole summer
        ("2026-08-30", "2027-09-08"),  # 183 days before 1 March and 182 after 10 March
    ],
)
def test_rows_that_reach_beyond_the_campaign(tmp_path: Path, first: str, last: str) -> None:
    """Whole years and seasons stand as they are typed: fit from ten on each of its days."""
    yard = read(tmp_path, yards=YARDS, weather=f"{HEAD}all,open,fit,{first},{last},10:00,,,,\n")

    assert [Span(at(day, 10), at(day, 24)) for day in range(10)] == [*yard.yards[0].open_spans]


@pytest.mark.parametrize(
    ("weather", "cure"),
    [
        (HEAD, "Delete the file for fair weather"),
        ("area,what,state,from_day\nall,open,fit,2027-03-01\n", "Add it: the columns needed are"),
        (HEAD.replace("note", "remark") + "all,open,shut,2027-03-01,2027-03-01,,,,,x\n", "Known"),
    ],
)
def test_tables_at_fault(tmp_path: Path, weather: str, cure: str) -> None:
    """An empty table, a missing column, an unknown one."""
    assert cure in only(faults(tmp_path, weather=weather)).cure


FORECAST = "time,temp_c,rain_mm,wind_ms\n2027-03-01 08:00,20,0,2\n"


def told(folder: Path) -> list[str]:
    """What `check` says is in doubt."""
    heard = Heard()
    read_scenario(folder, heard)
    return list(heard.doubts)


def test_days_without_a_row_are_named_where_others_are_typed_as_fit(tmp_path: Path) -> None:
    """Of ten days two are typed fit and one shut: 4 to 5 and 7 to 10 March count as fit.

    Feed has shut rows alone, which take from fair days: nothing is to be said of it.
    """
    weather = HEAD + (
        "all,open,fit,2027-02-20,2027-03-02,10:00,17:00,,,\n"
        "all,open,shut,2027-03-03,2027-03-03,,,,,\n"
        "all,open,fit,2027-03-06,2027-03-06,10:00,17:00,,,\n"
        "all,feed,shut,2027-03-03,2027-03-03,,,,,\n"
        "all,temperature,,2027-03-01,2027-03-10,,,11 degC,23 degC,\n"
    )
    (words,) = told(a_folder(tmp_path, weather=weather, yards=YARDS))

    assert words == (
        "weather: 6 days have no row of open and count as fit all day (2027-03-04 to 2027-03-05, "
        "2027-03-07 to 2027-03-10); where they are not, type shut for them"
    )


def test_days_too_cold_by_typed_air_are_named(tmp_path: Path) -> None:
    """Highs of 9 degC on all ten days, of which three are typed fit for hives.

    The others are shut, but for the tenth at Gate; means of 6.5 and 8.5 degC bear no syrup.
    """
    weather = HEAD + (
        "all,open,fit,2027-03-01,2027-03-03,10:00,17:00,,,\n"
        "all,temperature,,2027-03-01,2027-03-12,,,4 degC,9 degC,\n"
        "gate,temperature,,2027-03-10,2027-03-10,,,4 degC,13 degC,\n"
    )
    unsaid, *cold = told(a_folder(tmp_path, weather=weather, yards=YARDS))
    shut = (
        "weather: {} days are shut for {} by the air typed for them (2027-03-{} to 2027-03-{}), as"
    ).format
    fit = "; type fit where it is not too cold; at"

    assert unsaid == (
        "weather: one day has no row of open and counts as fit all day (2027-03-10); where it is "
        "not, type shut for it; at Gate"
    )
    assert cold == [
        f"{shut(7, 'opening hives', '04', '10')} open_least is 13 degC{fit} Mill",
        f"{shut(6, 'opening hives', '04', '09')} open_least is 13 degC{fit} Gate",
        (
            f"{shut(10, 'syrup', '01', '10')} syrup_least is 10 degC"
            "; days until it is taken down count with them"
        ),
    ]


def test_days_without_a_row_are_told_by_yard(tmp_path: Path) -> None:
    """Mill has rows of its own for its tenth day; Gate has none of settle at all.

    Without a forecast Mill's nights are settled whether or not rows say so, and nothing is asked.
    """
    weather = HEAD + (
        "all,open,fit,2027-03-01,2027-03-09,,,,,\n"
        "mill,open,shut,2027-03-10,2027-03-10,,,,,\n"
        "mill,settle,fit,2027-03-02,2027-03-10,,,,,\n"
    )
    settled, opened = told(a_folder(tmp_path, weather=weather, yards=YARDS))

    assert opened == (
        "weather: one day has no row of open and counts as fit all day (2027-03-10); where it is "
        "not, type shut for it; at Gate"
    )
    assert settled == (
        "weather: rows of settle that say fit change nothing where there is no forecast: every "
        "night counts as settled, but for hours typed as shut; at Mill"
    )


def test_many_days_without_a_row_are_cut_short(tmp_path: Path) -> None:
    """Every second of 31 days is typed: sixteen are not, from the 1st to the 31st; twelve named."""
    season = "[season]\nfirst_day = 2027-03-01\nlast_day = 2027-03-31\n"
    rows = (f"all,open,fit,2027-03-{day:02d},2027-03-{day:02d},,,,,\n" for day in range(2, 31, 2))
    (words,) = told(a_folder(tmp_path, weather=HEAD + "".join(rows), season=season))

    assert "16 days have no row of open" in words
    assert "2027-03-21, 2027-03-23 and 4 more)" in words


def test_days_that_a_forecast_tells_are_not_without_a_row(tmp_path: Path) -> None:
    """Beyond its end they are said to be fair already."""
    weather = HEAD + "all,open,fit,2027-03-01,2027-03-09,,,,,\n"
    folder = a_folder(tmp_path, weather=weather)
    assert 1 == len(told(folder))
    (folder / "forecast.csv").write_text(FORECAST, "utf-8")

    assert [] == told(folder)


def test_shut_rows_alone_leave_the_other_days_fair_on_purpose(tmp_path: Path) -> None:
    """As the README says, and nothing is in doubt; nor where every day has a row."""
    shut = HEAD + "all,open,shut,2027-03-03,2027-03-03,,,,,\n"
    assert [] == told(a_folder(tmp_path, weather=shut))
    (tmp_path / "all").mkdir()
    fit = HEAD + "all,open,fit,2027-03-01,2027-03-10,,,,,\n"
    assert [] == told(a_folder(tmp_path / "all", weather=fit))
