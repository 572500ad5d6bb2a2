"""What `check` says of an outfit's facts."""

from runplanner.office.facts import facts_words
from runplanner.outfit.outfit import Assumed
from tests.outfits import an_outfit


def test_an_outfit_without_defaults_names_none() -> None:
    """Where everything was typed nothing is taken for granted, and the verdict comes last."""
    said = list(facts_words(an_outfit([(3, 4)], title="All typed")))

    assert "All typed" == said[0]
    assert "  yards: 1 with 10 colonies" in said
    assert not [line for line in said if line.startswith("taken for granted")]
    assert "no fault found" == said[-1]


def test_each_default_has_its_source() -> None:
    """A default is shown with its value and where it comes from."""
    outfit = an_outfit([(3, 4)], assumed=(Assumed("kit.block", "2 kg", "the usual piece"),))

    assert "  kit.block = 2 kg  (the usual piece)" in list(facts_words(outfit))
