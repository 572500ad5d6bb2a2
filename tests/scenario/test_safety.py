"""What a scenario asks to be kept in hand: in the facts, shown, and refused where it is a slip."""

from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.outfit.outfit import InHand
from runplanner.outfit.safety import plain
from runplanner.phrase import phrase
from tests.rehearsal.small import small_plan
from tests.scenario.folders import faults, only, read

YARDS = "name,lat,lon,colonies,boxes,box_mass,finish_by\nA,-38.0,175.1,5,8,16 kg,2027-03-08\n"


def test_loads_alone_are_kept_in_hand_by_default(tmp_path: Path) -> None:
    """Boxes as heavy as 95 in 100 are at most, no minutes, no days; each with its source."""
    # 16 kg x (1 + 1.644854 x 0.1) = 18,631.8 g; 1.644854 is the tabled quantile of the normal.
    outfit = read(tmp_path, yards=YARDS)
    said = {one.field: (one.value, one.source) for one in outfit.assumed}

    assert (18_632, 7) == (outfit.yards[0].box_g, outfit.yards[0].finish_by_day)
    assert InHand((2_632,), (0,), 0, 0, 0, 0) == outfit.in_hand
    assert 16_000 == plain(outfit).yards[0].box_g
    for key, value in (("load", "95 %"), ("slack", "0 min"), ("spare_days", "0")):
        assert value == said[phrase("safety.{key}", key=key)][0]
    assert "own rehearsals, python -m tests.bench in-hand" in said[phrase("safety.load")][1]
    assert "nothing kept in hand; rehearse to choose" in said[phrase("safety.slack")][1]


def test_nothing_is_kept_in_hand_where_that_is_typed(tmp_path: Path) -> None:
    """50 % is the guess itself."""
    outfit = read(tmp_path, '[safety]\nload = "50 %"\n', yards=YARDS)

    assert outfit.in_hand is None
    assert 16_000 == outfit.yards[0].box_g


def test_what_is_asked_for_is_in_the_facts(tmp_path: Path) -> None:
    """Boxes at 97.5 % of a spread of 10 %, half an hour, a day; once, and given back whole."""
    # 16 kg x (1 + 1.959964 x 0.1) = 19,135.9 g; 1.959964 is the tabled quantile of the normal.
    bare = '[hours]\nend = "20:00"\n'
    text = '[safety]\nload = "97.5 %"\nslack = "30 min"\nspare_days = 1\n'
    (tmp_path / "with").mkdir()
    kept = read(tmp_path / "with", bare + text, yards=YARDS)
    outfit = read(tmp_path, bare, yards=YARDS)

    assert (19_136, 6) == (kept.yards[0].box_g, kept.yards[0].finish_by_day)
    assert 20 * 60 - 30 == kept.hours.end_min
    assert {8} == {
        one.day for one in (kept.season.take_off_by, kept.season.strips_by, kept.season.feed_by)
    }
    assert replace(plain(outfit), assumed=()) == replace(plain(kept), assumed=())


@pytest.mark.parametrize(
    ("line", "field", "said"),
    [
        ('load = "49 %"', "load", "49 %"),
        ('load = "100 %"', "load", "100 %"),
        ("load = 97", "load", "97"),
        ('load = "{{7*7}}"', "load", "{{7*7}}"),
        ('slack = "11 h"', "slack", "11 h"),
        ('slack = "-5 min"', "slack", "-5 min"),
        ('slack = "9 h"', "slack", "9 h"),  # from noon to the end at 20:00 there are 8
        ("spare_days = 10", "spare_days", "10"),  # of ten
        ("spare_days = 1.5", "spare_days", "1.5"),
        ("spare = 1", "spare", "spare"),
    ],
)
def test_slips_are_told(tmp_path: Path, line: str, field: str, said: str) -> None:
    """Out of range, no share, more than there is, an unknown key: field, said, cure."""
    hours = '[hours]\nnoon = "12:00"\nend = "20:00"\n'
    fault = only(faults(tmp_path, f"{hours}[safety]\n{line}\n"))

    assert ("outfit.toml", field, said) == (fault.file, fault.field, fault.said)
    assert fault.allowed
    assert fault.cure


@pytest.mark.parametrize("load", ["120 %", "100 %", "40 %", "-1 %"])
def test_a_load_out_of_range_is_told_the_range_that_holds(tmp_path: Path, load: str) -> None:
    """However far off it is, 50 to 99.9 % may stand there."""
    fault = only(faults(tmp_path, f'[safety]\nload = "{load}"\n'))

    assert "a share from 50 % to 99.9 %, such as 95 %" == fault.allowed


def test_slips_are_told_together(tmp_path: Path) -> None:
    """All three at once."""
    text = '[safety]\nload = "5 %"\nslack = "x"\nspare_days = 99\n'

    assert ["load", "slack", "spare_days"] == [one.field for one in faults(tmp_path, text)]


def test_a_plan_file_keeps_what_was_in_hand(tmp_path: Path) -> None:
    """It comes back from the file as it was written."""
    kept = read(tmp_path, '[safety]\nload = "90 %"\n', yards=YARDS)
    plan = replace(small_plan(), outfit=kept)

    assert kept.in_hand == plan_from_text(plan_text(plan)).outfit.in_hand
