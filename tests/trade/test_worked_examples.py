"""Published chains of arithmetic, end to end through the real functions."""

from dataclasses import replace

import pytest

from runplanner.outfit.trucks import Deck
from runplanner.trade.boxes import BOXES
from runplanner.trade.checks_feed import two_to_one
from runplanner.trade.feeding import (
    full_frames,
    need_g,
    pouring,
    stores_g_per_l,
    sugar_for_g,
    sugar_for_stores_g,
    winter_use_g,
)
from runplanner.trade.loads import Fit, columns, layers
from runplanner.trade.recipe import recipe


def test_austria_six_colonies() -> None:
    """torftrottel.at: 20 kg wanted, 5 present, 15 in three lots of 5; six colonies of 5 kg.

    30 kg of stores at 1.20 take 25 kg of sugar and 17.5 L of water, about 32.5 L of syrup.
    """
    lack = need_g(20_000, 5_000)
    assert (15_000, 3) == (lack, lack // 5_000)
    sugar = sugar_for_stores_g(6 * 5_000, 1_200)
    mix = recipe("1 kg + 0.7 L")
    assert sugar == 25_000
    assert mix.water_ml(sugar) == pytest.approx(17_500)
    assert mix.litres(sugar) == pytest.approx(32.5, rel=0.03)


def test_seven_months_of_winter() -> None:
    """bienenundnatur.de: four months with brood at 3 kg, three without at 1 kg: 15 kg."""
    assert winter_use_g(4, 3) == 15_000


def test_nine_kilograms_in_three_lots() -> None:
    """killowen.com: 630 ml to the kg; lots of 4, 3 and 2 kg each fit a 6 L feeder."""
    mix = recipe("1 kg + 630 ml")
    lots = (4_000, 3_000, 2_000)
    assert [2_520, 1_890, 1_260] == [round(mix.water_ml(lot)) for lot in lots]
    assert [5.03, 3.77, 2.52] == [round(mix.litres(lot), 2) for lot in lots]
    assert all(mix.litres(lot) <= 6 for lot in lots)


def test_nine_full_frames() -> None:
    """BBKA News 216: 20 kg at about 2.2 kg a frame are nine full BS deep frames."""
    assert full_frames(20_000, BOXES["national-brood"].frame_g()) == 9


def test_ontario_fifteen_litres() -> None:
    """15 L of 2:1: 13.3 kg sugar, 19.9 kg on the truck, 14.9 kg stores, 15.9 at 1.20."""
    feed = two_to_one()
    assert sugar_for_g(15_000, feed) == pytest.approx(13_300, abs=50)
    assert 15 * feed.density_g_per_l == pytest.approx(19_900, abs=10)
    assert 15 * stores_g_per_l(feed) == pytest.approx(14_900, abs=60)
    assert 15 * stores_g_per_l(replace(feed, stores_g_per_kg_sugar=1_200)) == pytest.approx(
        15_900, abs=60
    )
    assert pouring(15 * stores_g_per_l(feed), feed, 15_000).total_ml() == 15_000


def test_a_hundred_colonies_of_fifteen_litres_are_two_tonnes() -> None:
    """100 x 15 L x 1.327 = 1990.5 kg."""
    assert 100 * 15 * two_to_one().density_g_per_l == 1_990_500


def test_national_boxes_on_a_small_truck() -> None:
    """460 mm square on 3.10 x 2.10 m: 24 columns; 17 kg on 1050 kg: 61 boxes, weight binds."""
    deck, box = Deck(3_100, 2_100, 1_200, 5), BOXES["national-super"].kind
    stand = columns(deck, box.length_mm, box.width_mm)
    rides = Fit(stand * layers(deck, box.height_mm), 1_050_000 // 17_000)
    assert 24 == stand
    assert (61, "weight") == (rides.boxes(), rides.binds())
    assert rides.boxes() < 3 * 24
