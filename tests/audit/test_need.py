from dataclasses import replace

import pytest

from runplanner.audit.need import closed, fed_without_take_off, need_of, stores_per_l
from runplanner.outfit.yards import Health
from tests.outfits import a_yard, an_outfit


def test_stores_of_a_litre_near_the_published_figure() -> None:
    """2:1 syrup: 1,327 x 667 x 1,120 / 10^6 = 991.3 g, rounded down.

    Curth, Hohenheim 1981 (by bienenzuchtverein-merkstein.de): 1.000 kg of stores from a
    litre of 2:1; within 5 %.
    """
    per_l = stores_per_l(an_outfit().feed)

    assert 991 == per_l
    assert 1_000 == pytest.approx(per_l, rel=0.05)


def test_need_in_one_round() -> None:
    """8,000 g / 0.991 = 8,072.7 ml, so 8,073, poured as 8,500."""
    assert (8_000, 8_073, 1, 8_500, 991) == need_of(an_outfit(), a_yard(1))


def test_need_in_rounds_is_rounded_up_but_never_over_the_feeder() -> None:
    """8,073 ml by 4,100 ml are 2 rounds of 4,037, which the step makes 4,500, the feeder 4,100."""
    yard = replace(a_yard(1), feeder_ml=4_100)

    assert (2, 4_100) == need_of(an_outfit(), yard)[2:4]


def test_no_need_no_rounds() -> None:
    """A colony at its target gets nothing."""
    yard = replace(a_yard(1), stores_g=9_000)

    assert (0, 0, 0, 0, 991) == need_of(an_outfit(), yard)


def test_unfed_grams_count_down_to_nothing() -> None:
    """Rounds of 4,500 ml make 4,459 g each: 8,000, 3,541, and then none."""
    need = need_of(an_outfit(), replace(a_yard(1), feeder_ml=5_000))

    assert [8_000, 3_541, 0] == [need.unfed_g(rounds) for rounds in range(3)]


def test_only_closed_yards_without_honey_are_fed_as_they_stand() -> None:
    """Suspect or standstill, no boxes on, and the inspector agreed."""
    agreed = replace(a_yard(1, boxes=0), health=Health.STANDSTILL, feed_agreed=True)

    assert fed_without_take_off(agreed)
    assert not fed_without_take_off(replace(agreed, boxes=1))
    assert not fed_without_take_off(replace(agreed, feed_agreed=False))
    assert not fed_without_take_off(replace(agreed, health=Health.WATCH))
    assert closed(agreed)
