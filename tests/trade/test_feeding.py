"""Need, pouring, mixing and cover."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.outfit.stores import Feed
from runplanner.trade.feeding import (
    Pouring,
    batches,
    cover_min,
    emptied_min,
    full_frames,
    gross_from_sides_g,
    need_g,
    pouring,
    stores_from_frames_g,
    stores_from_heft_g,
    stores_g_per_l,
    sugar_for_g,
    sugar_for_stores_g,
    target,
    water_for_ml,
)
from runplanner.trade.syrup import water_kg_m3
from tests.outfits import an_outfit


@pytest.fixture
def feed() -> Feed:
    """2:1: 667 per mille, 1327 g a litre, 1120 g of stores a kg of sugar, poured by 500 ml."""
    return an_outfit().feed


FEED = an_outfit().feed


def test_targets_by_climate_and_boxes() -> None:
    """20 kg for a single box and 25 kg for more in a temperate climate; three count as two."""
    assert target("temperate", 1).use_g == 20_000
    assert target("temperate", 3).use_g == 25_000


def test_an_unknown_climate_is_refused() -> None:
    """The fault lists what there is."""
    with pytest.raises(ValueError, match="mild, temperate, cold"):
        target("{{7*7}}", 1)


def test_unknown_stores_count_as_none() -> None:
    """20 wanted and nothing known is 20; more than enough is no need."""
    assert (20_000, 15_000, 0) == (
        need_g(20_000, None), need_g(20_000, 5_000), need_g(20_000, 21_000),
    )  # fmt: skip


def test_a_hefted_hive() -> None:
    """18 + 17.5 kg at the sides, 14 of wood and 4 of bees: 17.5 kg of stores; never below 0."""
    assert stores_from_heft_g(gross_from_sides_g(18_000, 17_500), 14_000) == 17_500
    assert stores_from_heft_g(10_000, 14_000) == 0


def test_frames_of_stores() -> None:
    """Four and a half BS deep frames are 10.899 kg; 20 kg needs nine."""
    assert stores_from_frames_g(4.5, 2_422) == 10_899
    assert full_frames(20_000, 2_422) == 9


def test_pouring_in_one_round(feed: Feed) -> None:
    """1327 x 667 x 1120 / 10^6 = 991 g a litre; 8000 g is 8073 ml, poured as 8500."""
    assert stores_g_per_l(feed) == 991
    assert pouring(8_000, feed, 10_000) == Pouring(1, 8_500)


def test_pouring_in_rounds(feed: Feed) -> None:
    """20,000 g is 20,182 ml: three rounds of 8 L feeders, 6728 each, poured as 7000."""
    assert pouring(20_000, feed, 8_000) == Pouring(3, 7_000)
    assert pouring(20_000, feed, 8_000).total_ml() == 21_000


def test_nothing_lacking_is_nothing_poured(feed: Feed) -> None:
    """No need, no round."""
    assert pouring(0, feed, 8_000) == Pouring(0, 0)


@given(st.integers(1, 40_000), st.integers(500, 20_000), st.sampled_from((1, 100, 500)))
def test_what_is_poured_meets_the_need_and_the_feeder(wanted: int, feeder: int, by: int) -> None:
    """Never short of the need, never over the feeder, never a round too many."""
    feed = replace(FEED, round_to_ml=by)
    poured = pouring(wanted, feed, feeder)
    assert poured.ml_each <= feeder
    assert (poured.rounds - 1) * feeder * stores_g_per_l(feed) < wanted * 1000
    assert poured.total_ml() * stores_g_per_l(feed) >= wanted * 1000


@given(st.integers(1, 40_000), st.integers(1, 2_000))
def test_more_lack_never_pours_less(wanted: int, more: int) -> None:
    """Litres climb with the need, by rounds of one feeder."""
    less, greater = (pouring(grams, FEED, 8_000) for grams in (wanted, wanted + more))
    assert less.rounds <= greater.rounds


def test_a_feed_is_emptied_at_the_uptake() -> None:
    """8500 ml at 2000 a day: 4.25 days, 6120 minutes."""
    assert emptied_min(8_500, 2_000) == 6_120


@given(st.integers(0, 2_000_000))
def test_sugar_and_water_make_the_syrup(ml: int) -> None:
    """Sugar and water weigh what the syrup weighs, within a gram and a millilitre up."""
    sugar, water = sugar_for_g(ml, FEED), water_for_ml(ml, FEED)
    mass = ml * FEED.density_g_per_l / 1000
    assert -0.01 <= sugar + water * water_kg_m3(20.0) / 1000 - mass <= 2.01


def test_sugar_for_stores_is_rounded_up() -> None:
    """30 kg of stores at 1.12 is 26.786 kg of sugar, up to the gram."""
    assert sugar_for_stores_g(30_000, 1_120) == 26_786


@given(st.integers(1, 5_000_000), st.integers(1_000, 1_000_000))
def test_batches_fill_the_tank_evenly(ml: int, tank: int) -> None:
    """They add up, none is over the tank, none above the first."""
    lots = batches(ml, tank)
    assert sum(lots) == ml
    assert max(lots) <= tank
    assert len(lots) == -(-ml // tank)


def test_no_batch_of_nothing_and_no_tank_of_nothing() -> None:
    """Nothing to mix is no batch; a tank must hold something."""
    assert batches(0, 1_000) == ()
    with pytest.raises(ValueError, match="must hold"):
        batches(1_000, 0)


def test_cover_of_one_block() -> None:
    """2 kg at 0.5 kg a day is four days; 1 kg of stores adds two; rounded down."""
    assert cover_min(2_000, None) == 4 * 1440
    assert cover_min(2_000, 1_000) == 6 * 1440
    assert cover_min(1, None, 1_000) == 1  # 1.44 minutes
