"""The box catalogue."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.trade.boxes import ALIASES, BOXES, BoxFacts, box_facts, lift_warning

EVERY = tuple(BOXES.values())


@pytest.mark.parametrize("facts", EVERY, ids=lambda facts: facts.kind.id)
def test_a_box_is_plausible(facts: BoxFacts) -> None:
    """Empty below light below heavy; frames fit inside; every number has a source."""
    assert 0 < facts.kind.empty_g < facts.full_low_g < facts.full_high_g
    assert facts.comb_length_mm < facts.kind.length_mm
    assert facts.comb_height_mm < facts.kind.height_mm
    assert facts.frames * 30 < max(facts.kind.width_mm, facts.kind.length_mm)
    assert facts.size.source
    assert facts.tare.source
    assert facts.full.source


@pytest.mark.parametrize("facts", EVERY, ids=lambda facts: facts.kind.id)
def test_ten_full_frames_are_not_heavier_than_the_range_says(facts: BoxFacts) -> None:
    """The range reaches what frames, comb rule and tare give, within 200 g or 1 %."""
    assert facts.gross_g() <= facts.full_high_g * 1.01


@pytest.mark.parametrize("facts", EVERY, ids=lambda facts: facts.kind.id)
def test_the_default_full_box_is_the_middle_of_its_range(facts: BoxFacts) -> None:
    """Rounded up, so that a load is never guessed light."""
    assert 0 <= 2 * facts.full_g() - facts.full_low_g - facts.full_high_g <= 1


def test_a_medium_box_by_its_frames() -> None:
    """4660 + 10 x 2127 = 25,930 g; nine frames 23,803; 60 % of ten 17,422."""
    medium = BOXES["langstroth-medium"]
    assert medium.gross_g() == 25_930
    assert medium.gross_g(frames=9) == 23_803
    assert medium.gross_g(600) == 17_422


@given(st.sampled_from(EVERY), st.integers(1, 1000))
def test_fuller_is_heavier(facts: BoxFacts, fill: int) -> None:
    """Gross mass climbs with fill, from the empty box on."""
    assert facts.gross_g(fill - 1) <= facts.gross_g(fill)
    assert facts.gross_g(0) == facts.kind.empty_g


@pytest.mark.parametrize("fill", [-1, 1001])
def test_a_fill_outside_0_to_1000_is_refused(fill: int) -> None:
    """Fill is per mille."""
    with pytest.raises(ValueError, match="0 to 1000 per mille"):
        BOXES["langstroth-deep"].gross_g(fill)


@pytest.mark.parametrize(
    ("text", "box_id"),
    [
        ("medium", "langstroth-medium"),
        ("  Medium ", "langstroth-medium"),
        ("langstroth deep", "langstroth-deep"),
        ("LANGSTROTH DEEP, 10 FRAMES", "langstroth-deep"),
        ("National", "national-super"),
        ("14x12", "national-14x12"),
    ],
)
def test_a_box_is_found_by_what_people_call_it(text: str, box_id: str) -> None:
    """Ids, short names and full names, in any case."""
    found = box_facts(text)
    assert found is not None
    assert found.kind.id == box_id


@pytest.mark.parametrize("text", ["", "warre", "{{7*7}}", "x" * 10_000])
def test_an_unknown_box_is_none(text: str) -> None:
    """The caller then asks for the user's own measures."""
    assert box_facts(text) is None


def test_every_alias_leads_somewhere() -> None:
    """No alias points at a box that is not in the catalogue."""
    assert set(ALIASES.values()) <= set(BOXES)


def test_lifting_is_warned_about_above_25_kg() -> None:
    """25 kg exactly is silent; a gram more speaks of 26 kg, rounded up."""
    assert not lift_warning(25_000)
    assert str(lift_warning(25_001)).startswith("A box of 26 kg is over 25 kg,")


def test_a_guess_is_told_beside_what_it_counts_for() -> None:
    """A guess of 24 kg is within the filter, the 28 kg it may be are not."""
    words = str(lift_warning(27_900, 24_000))

    assert words.startswith("A box guessed at 24 kg may weigh up to 28 kg; over 25 kg, ")
    assert str(lift_warning(27_900, 27_900)).startswith("A box of 28 kg is over 25 kg,")
    assert not lift_warning(25_000, 24_000)
