"""A second way of clearing and boards that lie already, as a user types them."""

from pathlib import Path

import pytest

from runplanner.outfit.yards import Clearing
from runplanner.scenario import implied
from tests.scenario.folders import faults, only, read

HEAD = "name,lat,lon,colonies,boxes,clearing,clearing_else,boards_on\n"
KIT = "[kit]\nboards = 12\n"


def rows(*cells: str) -> str:
    """A table of yards A, B, ...: clearing, clearing_else, boards_on of each."""
    lines = (f"{chr(65 + n)},-38.0{n},175.1,5,8,{row}\n" for n, row in enumerate(cells))
    return HEAD + "".join(lines)


def test_defaults_are_shown(tmp_path: Path) -> None:
    """One way at each yard, no boards on."""
    outfit = read(tmp_path)
    said = {str(one.field): str(one.value) for one in outfit.assumed}

    assert {(yard.clearing_else, yard.boards_on_min) for yard in outfit.yards} == {(None, None)}
    assert "none (2 times)" == said["yards.clearing_else"]
    assert "none on (2 times)" == said["yards.boards_on"]


def test_both_are_read(tmp_path: Path) -> None:
    """First day 1 March: 17:30 the day before is minute -390; a date alone means 18:00."""
    table = rows(
        "boards,Brush,2027-02-28 17:30", "boards,none,2027-02-27", "blower,brush,", "boards,,"
    )
    yards = read(tmp_path, KIT, yards=table).yards

    assert [Clearing.BRUSH, None, Clearing.BRUSH, None] == [y.clearing_else for y in yards]
    assert [-390, -1800, None, None] == [y.boards_on_min for y in yards]


def test_what_holds_for_all_yards_is_left_where_it_cannot_be(tmp_path: Path) -> None:
    """[yards] says brush: not beside brush itself, and not beside a warm board."""
    table = rows("boards,,", "brush,,", "warm board,,", "boards,blower,")
    weather = (
        "area,what,state,from_day,to_day,from_hour,to_hour,min_temp,max_temp,note\n"
        "all,temperature,,2027-03-01,2027-03-10,,,12 degC,24 degC,\n"
    )
    outfit = read(
        tmp_path, KIT + '[yards]\nclearing_else = "brush"\n', yards=table, weather=weather
    )

    assert [Clearing.BRUSH, None, None, Clearing.BLOWER] == [y.clearing_else for y in outfit.yards]


@pytest.mark.parametrize(
    ("row", "field"),
    [
        ("boards,boards,", "clearing_else"),
        ("boards,warm board,", "clearing_else"),
        ("brush,brush,", "clearing_else"),
        ("brush,,2027-02-28", "boards_on"),
        ("boards,,2027-03-01", "boards_on"),
        ("boards,,2027-02-28 25:00", "boards_on"),
        ("boards,,2027-01-01", "boards_on"),
        ("boards,,yesterday", "boards_on"),
    ],
)
def test_slips_are_told(tmp_path: Path, row: str, field: str) -> None:
    """No such way, the same way twice, boards that cannot lie, days that cannot be."""
    fault = only(faults(tmp_path, KIT, yards=rows(row)))

    assert (field, "yards.csv") == (fault.field, fault.file)
    assert fault.cure


def test_beside_a_warm_board_there_is_no_other_way(tmp_path: Path) -> None:
    """Its days are others."""
    weather = (
        "area,what,state,from_day,to_day,from_hour,to_hour,min_temp,max_temp,note\n"
        "all,temperature,,2027-03-01,2027-03-10,,,12 degC,24 degC,\n"
    )
    fault = only(faults(tmp_path, yards=rows("warm board,brush,"), weather=weather))

    assert ("clearing_else", "nothing beside a warm board") == (fault.field, fault.allowed)


def test_boards_need_boxes_above_them(tmp_path: Path) -> None:
    """A yard without boxes has nothing to clear."""
    table = HEAD + "A,-38.0,175.1,5,0,boards,,2027-02-28\n"

    assert "boards_on" == only(faults(tmp_path, KIT, yards=table)).field


def test_boards_at_yards_are_among_those_owned(tmp_path: Path) -> None:
    """Two yards of five colonies have ten boards on, and eight are owned."""
    table = rows("boards,,2027-02-28", "boards,,2027-02-28")
    fault = only(faults(tmp_path, "[kit]\nboards = 8\n", yards=table))

    assert ("boards", "8", "at least 10") == (fault.field, fault.said, fault.allowed)


@pytest.mark.parametrize(("kit", "said"), [("boards = 0\n", "0"), ("", "nothing")])
def test_no_boards_at_all_are_said_as_typed(tmp_path: Path, kit: str, said: str) -> None:
    """Cleared with boards, and none is owned: typed so, or not typed."""
    fault = only(faults(tmp_path, f"[kit]\n{kit}", yards=rows("boards,,", "boards,,")))

    assert ("boards", said, "at least 1") == (fault.field, fault.said, fault.allowed)


def test_check_tells_both(tmp_path: Path) -> None:
    """Where boards lie since when, how many are at the store; which yards have two ways."""
    table = rows("boards,brush,2027-02-28 17:30", "boards,,")
    lines = {str(label): said for label, said in implied(read(tmp_path, KIT, yards=table))}

    assert "A (5, since 2027-02-28 17:30); 7 at the store" == lines["boards on already"]
    assert "A (boards, or brush)" == lines["cleared by either way, visit by visit"]
