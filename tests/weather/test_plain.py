"""Our own CSV of hours."""

from datetime import date

import pytest

from runplanner.weather.plain_shape import MOST_ROWS
from runplanner.weather.wall import Wall
from tests.weather.forecasts import AUCKLAND, PLAIN, UTC_WALL, at, faults, only, read, read_all

HEAD = "time,temp_c,rain_mm,wind_ms\n"
BACK = Wall(date(2027, 4, 4), "Pacific/Auckland")


def rows(*times: str) -> str:
    """A file with an hour at each of ``times``."""
    return HEAD + "".join(f"{time},15,0,3\n" for time in times)


def test_an_hour_a_row() -> None:
    """Every figure of every row, in whole units."""
    forecast = read(PLAIN, AUCKLAND)

    assert [at(0, 6), at(0, 7), at(0, 8)] == [hour.start_min for hour in forecast.hours]
    last = forecast.hours[-1]
    assert (160, 2100, 9000, 14_000, 400) == (
        last.temp_dc, last.rain_um, last.wind_mms, last.gust_mms, last.thunder_permille
    )  # fmt: skip
    assert at(0, 6) == forecast.made_min
    assert forecast.point is None


def test_headers_with_their_unit_in_brackets() -> None:
    """As the other tables of a scenario write units; comments above, semicolons between."""
    text = "# invented\n\nTime;Temp [F];Rain [in];Wind [km/h]\n2027-03-01 06:00;50;0.1;10.8\n"
    text = text.replace("[km/h]", "[kmh]")
    hour = read(text).hours[0]

    assert (100, 2540, 3000) == (hour.temp_dc, hour.rain_um, hour.wind_mms)


def test_times_with_an_offset_and_from_another_wall() -> None:
    """06:00 UTC is 19:00 in Auckland, whether the row or the user says UTC."""
    text = rows("2027-03-01 06:00")

    assert at(0, 6) == read(text, AUCKLAND).hours[0].start_min
    assert at(0, 19) == read(text, AUCKLAND, zone="Etc/UTC").hours[0].start_min
    assert at(0, 19) == read(text.replace("06:00", "06:00Z"), AUCKLAND).hours[0].start_min


def test_one_file_for_several_areas() -> None:
    """Areas are told apart by name, whatever their letters' size."""
    text = (
        "area,time,temp_c,rain_mm,wind_ms,note\n"
        "Hills,2027-03-01 06:00,9,0,3,cold\n"
        "plain,2027-03-01 06:00,15,0,3,\n"
        "hills,2027-03-01 07:00,10,0,3,\n"
    )
    found = read_all(text)

    assert ["Hills", "plain"] == list(found)
    assert [90, 100] == [hour.temp_dc for hour in found["Hills"].hours]


def test_clocks_that_go_back_give_two_rows_of_one_hour() -> None:
    """Two rows at 02:00 on 4 April in Auckland are right; the colder one counts."""
    text = HEAD + "2027-04-04 02:00,9,0,3\n2027-04-04 02:00,8,0,2\n2027-04-04 03:00,8,0,3\n"

    assert [80, 80] == [hour.temp_dc for hour in read(text, BACK).hours]


def test_figures_left_empty_stay_untold() -> None:
    """An empty cell is not zero; an empty row is none."""
    hour = read(HEAD + ",,,\n2027-03-01 06:00,,,\u22120\n").hours[0]

    assert (None, None, 0) == (hour.temp_dc, hour.rain_um, hour.wind_mms)


def test_decimal_commas_between_commas_shift_no_figure() -> None:
    """20,0 and 3,4 and 9,1 in three columns are six cells: no rain of 0 and wind of 3.

    Every such row is told, by its number in the file; the one with dots is not.
    """
    text = HEAD + "2027-03-01 06:00,20,0,3,4,9,1\n2027-03-01 07:00,20.0,3.4,9.1\n"
    found = faults("# typed\n" + text + "2027-03-01 08:00,20,0,3,4\n")

    assert [("row 3", "7 cells"), ("row 5", "5 cells")] == [(one.where, one.said) for one in found]
    assert {"4 columns"} == {one.allowed for one in found}
    assert all("decimals with a dot" in one.cure for one in found)


def test_blank_cells_at_the_end_shift_nothing() -> None:
    """A spreadsheet pads rows; a short row leaves its last figures untold."""
    hours = read(HEAD + "2027-03-01 06:00,15,0,3,, \n2027-03-01 07:00,15,0\n").hours

    assert [(150, 0, 3000), (150, 0, None)] == [
        (hour.temp_dc, hour.rain_um, hour.wind_mms) for hour in hours
    ]


@pytest.mark.parametrize(
    ("text", "field", "cure"),
    [
        ("time,temp,rain_mm,wind_ms\n2027-03-01 06:00,1,1,1\n", "temp", "with its unit"),
        ("time,temp_k,rain_mm,wind_ms\n2027-03-01 06:00,1,1,1\n", "temp_k", "with its unit"),
        (HEAD.replace("time,", ""), "time", "each hour starts"),
        ("time,temp_c,rain_mm\n2027-03-01 06:00,1,1\n", "wind", "Add the column"),
        (HEAD.replace("wind_ms", "wind_ms,clouds"), "clouds", "Known: time, area"),
        (HEAD.replace("wind_ms", "wind_ms,wind_kn"), "wind_kn", "Delete the other"),
        (HEAD, "", "Fill it in"),
        ("# only words\n\n", "", "Fill it in"),
        ("Forecast\n" + rows("2027-03-01 06:00"), "", "Delete what stands above the row"),
        (
            "March 2027, hills\n" + rows("2027-03-01 06:00").replace(",", ";"),
            "",
            "Delete what stands above the row",
        ),
        (rows("1/3/2027 06:00"), "time", "year first"),
        (rows("2027-03-01 06:00", "2027-03-01 06:00"), "time", "keep one"),
        (rows("2027-03-01 06:00", "2027-03-01 06:30"), "time", "keep one"),
        (rows("2027-03-01 06:00Z", "2027-03-01 06:00"), "time", "keep one"),
        (HEAD + '2027-03-01 06:00,"2,1",0,3\n', "temp_c", "write 2.1 if"),
        (HEAD + "2027-03-01 06:00,nan,0,3\n", "temp_c", "number"),
        (HEAD + "2027-03-01 06:00,1e3,0,3\n", "temp_c", "number"),
        (HEAD + "2027-03-01 06:00,15,-1,3\n", "rain_mm", "number and unit"),
        (HEAD + '2027-03-01 06:00,"15"x,-1,3\n', "", "quotation mark"),
    ],
)
def test_one_slip_one_fault(text: str, field: str, cure: str) -> None:
    """A single slip is named by row and column, with a cure."""
    found = only(faults(text))

    assert field == found.field
    assert cure in found.cure


def test_the_same_hour_three_times_is_a_fault_even_as_clocks_go_back() -> None:
    """Two are right that night, three are not."""
    found = only(faults(rows(*["2027-04-04 02:00"] * 3), BACK))

    assert ("row 4", "time") == (found.where, found.field)


def test_two_columns_of_one_name() -> None:
    """Which one would count?"""
    found = faults("time,time,temp_c,rain_mm,wind_ms\n2027-03-01 06:00,,1,1,1\n")

    assert {"time"} == {one.field for one in found}


def test_too_many_rows() -> None:
    """Years of hours are no forecast."""
    found = faults(HEAD + "2027-03-01 06:00,15,0,3\n" * (MOST_ROWS + 1), UTC_WALL)

    assert any("Split it" in one.cure for one in found)
