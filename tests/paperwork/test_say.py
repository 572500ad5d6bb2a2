"""Tests of how facts are said."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.speech import say
from runplanner.paperwork.speech.say import (
    count,
    crew_words,
    date_words,
    duration,
    iso,
    kg_down,
    kg_up,
    km_up,
    listed,
    litres,
    litres_down,
    litres_up,
    lot_code,
    moment,
    money,
    nearest_tenth,
    people_names,
    person_name,
    place_name,
    stretch,
    tenths,
    vehicle_name,
    yard_named,
)
from tests.outfits import an_outfit


@pytest.fixture(scope="module")
def outfit() -> Outfit:
    """Two yards; day 0 is Monday 1 March 2027."""
    return an_outfit()


def test_dates_are_said_as_people_say_them(outfit: Outfit) -> None:
    """A day is a weekday, a number and a month; files get the ISO date."""
    assert "Thu 4 Mar" == date_words(outfit, 3)
    assert "Sun 28 Feb" == date_words(outfit, -1)
    assert "2027-03-04" == iso(outfit, 3)
    # 3 days and 14 hours: 3 * 1440 + 14 * 60.
    assert "Thu 4 Mar 14:00" == moment(outfit, 5160)


def test_times_and_lengths() -> None:
    """A stretch that ends with the day ends at 24:00; lengths have hours from 60 minutes."""
    assert "08:00\u201309:30" == stretch(480, 570)
    assert "22:00\u201324:00" == stretch(1320, 1440)
    assert ("45 min", "2 h 05") == (duration(45), duration(125))
    assert ("4 days", "2 days 3 h") == (duration(4 * 1440), duration(2 * 1440 + 190))


def test_loads_round_up_and_limits_down() -> None:
    """1000.001 kg of load is 1001 kg, 1000.999 kg of limit is 1000 kg."""
    assert (1001, 1000) == (kg_up(1_000_001), kg_down(1_000_999))


def test_feed_rounds_up() -> None:
    """Litres are never rounded to less than the plan pours."""
    assert ("4 L", "4.1 L", "110.5 L", "512 L", "401.1 L") == (
        litres(4_000), litres(4_001), litres(110_500), litres(512_000), litres(401_001),
    )  # fmt: skip
    assert ("15.5", "16") == (tenths(15_500), tenths(16_000))


def test_what_is_mixed_rounds_up_and_what_stands_ready_down() -> None:
    """100.001 L are mixed as 101, 100.999 L in stock count as 100; a drive of 1 m is a km."""
    assert ("101 L", "100 L") == (litres_up(100_001), litres_down(100_999))
    assert ("1 km", "2 km") == (km_up(1_000), km_up(1_001))


def test_a_ratio_goes_to_its_nearest_tenth() -> None:
    """12.44 is 12.4, 12.45 is 12.5, 11.96 is 12."""
    assert ["12.4", "12.5", "12"] == [nearest_tenth(each) for each in (12_440, 12_450, 11_960)]


@given(st.integers(0, 10**9))
def test_no_rounding_hides_an_overload_or_a_short_feed(amount: int) -> None:
    """Said loads and feed are never less than they are, said limits and stocks never more."""
    assert kg_down(amount) * 1000 <= amount <= kg_up(amount) * 1000
    assert int(litres_down(amount)[:-2]) * 1000 <= amount <= int(litres_up(amount)[:-2]) * 1000
    assert amount <= float(litres(amount)[:-2]) * 1000 + 1e-6 * amount


def test_masses_and_volumes_are_rounded_at_one_door() -> None:
    """No other paper makes kilograms or litres of its own out of grams and millilitres."""
    papers = Path(say.__file__).parent.parent
    rounded = re.compile(r"\{[^{}]*// 1000[^{}]*\}")

    others = (path for path in sorted(papers.rglob("*.py")) if path.name != "say.py")
    assert [] == [path.name for path in others if rounded.search(path.read_text("utf-8"))]


def test_money_is_whole_cents() -> None:
    """Cents are never lost and a negative sum keeps its sign."""
    assert "1,234.05 NZD" == money(123_405, "NZD")
    assert "-0.05 NZD" == money(-5, "NZD")


def test_nouns_and_lists() -> None:
    """One box, two boxes; a, b and c."""
    assert ("1 box", "2 boxes", "2 blocks") == (
        count(1, "box", "boxes"), count(2, "box", "boxes"), count(2, "block"),
    )  # fmt: skip
    assert ("", "a", "a and b", "a, b and c") == (
        listed(()), listed(("a",)), listed(("a", "b")), listed(("a", "b", "c")),
    )  # fmt: skip


def test_names_fall_back_on_ids(outfit: Outfit) -> None:
    """Whoever or whatever has no name, or is not known, is called by its id."""
    bare = replace(
        outfit,
        yards=(replace(outfit.yards[0], name=" "),),
        people=(replace(outfit.people[0], name=""),),
    )
    assert "yard1" == yard_named(bare, "yard1")
    assert ("ann", "zoe") == (person_name(bare, "ann"), person_name(bare, "zoe"))
    assert ("Truck 1", "lost") == (vehicle_name(bare, "truck1"), vehicle_name(bare, "lost"))
    assert "Base" == place_name(bare, 0)
    assert "Ann and Bob" == people_names(outfit, ("ann", "bob"))
    assert "Ann drives" == crew_words(outfit, ("ann",))
    assert "Ann drives, with Bob" == crew_words(outfit, ("ann", "bob"))


def test_a_lot_is_date_and_yard(outfit: Outfit) -> None:
    """Lots start with L (Directive 2011/91/EU) and do not hang on the trip's number."""
    assert "L20270304-yard2" == lot_code(outfit, 3, "yard2")
