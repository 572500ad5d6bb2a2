"""Axle limits as least and most load."""

from dataclasses import replace

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from runplanner.haulage.axles import HUGE_G, loads_held
from runplanner.outfit.trucks import Axles

# 1,300 kg front and 800 kg rear when empty; nine tenths of the load rest on the rear.
TRUCK = Axles(1_300_000, 800_000, 700_000, 1_750_000, 2_240_000, 900)


def test_the_rear_axle_binds() -> None:
    """People, fuel and kit of 200 kg: 2,240 - 800 - 100 = 1,340 kg rear, 1,488.888 kg load."""
    # 1,340,000 g / 0.9 = 1,488,888.9 g, cut to whole grams; the front then has
    # 1,300 + 100 + 148.9 = 1,548.9 kg of 1,750 kg
    assert (0, 1_488_888) == loads_held(TRUCK, 200_000)


def test_the_front_axle_binds() -> None:
    """With half of the load on the front, its 1,750 kg are reached at 700 kg of load."""
    # 1,750 - 1,300 - 100 = 350 kg front, 350 / 0.5 = 700 kg
    assert (0, 700_000) == loads_held(replace(TRUCK, load_on_rear_permille=500), 200_000)


def test_a_light_steering_axle_needs_a_load() -> None:
    """A front axle that must carry 1,410 kg gets 1,400 empty: a tenth of 100 kg is missing."""
    # 1,300 + 100 = 1,400; (1,410 - 1,400) / 0.1 = 100 kg of load
    axles = replace(TRUCK, front_min_g=1_410_000)
    assert (100_000, 1_488_888) == loads_held(axles, 200_000)


def test_a_load_behind_the_rear_axle_lifts_the_front() -> None:
    """At 1,100 per mille every kg takes 100 g off the front, which must keep 1,300 kg."""
    # 1,400 - 1,300 = 100 kg to spare / 0.1 = 1,000 kg; the rear holds 1,340 / 1.1 = 1,218 kg
    axles = replace(TRUCK, front_min_g=1_300_000, load_on_rear_permille=1_100)
    assert (0, 1_000_000) == loads_held(axles, 200_000)


def test_a_load_right_over_the_rear_axle_leaves_the_front_alone() -> None:
    """At 1,000 per mille only the rear axle counts, or no load will do at all."""
    axles = replace(TRUCK, load_on_rear_permille=1_000)
    assert (0, 1_340_000) == loads_held(axles, 200_000)
    # the front has 1,400 kg whatever is loaded, more than 1,350
    least, most = loads_held(replace(axles, front_max_g=1_350_000), 200_000)
    assert least > most


def test_a_load_over_the_front_axle_leaves_the_rear_alone() -> None:
    """At 0 per mille only the front binds: 1,750 - 1,400 = 350 kg."""
    assert (0, 350_000) == loads_held(replace(TRUCK, load_on_rear_permille=0), 200_000)


def test_an_overloaded_axle_takes_no_load() -> None:
    """A rear axle over its limit when empty leaves less than nothing."""
    # 850 - 800 - 100 = -50 kg
    _, most = loads_held(replace(TRUCK, rear_max_g=850_000), 200_000)
    assert 0 > most


def _holds(axles: Axles, extras_g: int, load_g: int) -> bool:
    """The rule itself, in thousandths and halves of a gram."""
    share = axles.load_on_rear_permille
    front = 2000 * axles.front_empty_g + 1000 * extras_g + 2 * load_g * (1000 - share)
    rear = 2000 * axles.rear_empty_g + 1000 * extras_g + 2 * load_g * share
    front_holds = 2000 * axles.front_min_g <= front <= 2000 * axles.front_max_g
    return front_holds and rear <= 2000 * axles.rear_max_g


GRAMS = st.integers(0, 3_000_000)


@given(
    axles=st.builds(Axles, GRAMS, GRAMS, GRAMS, GRAMS, GRAMS, st.integers(0, 1_200)),
    extras=st.integers(0, 500_000),
    load=st.integers(0, 4_000_000),
)
@example(axles=TRUCK, extras=200_000, load=1_488_888)
@example(axles=TRUCK, extras=200_000, load=1_488_889)
def test_the_limits_are_the_rule(axles: Axles, extras: int, load: int) -> None:
    """A load is between the two limits exactly when the rule holds for it."""
    least, most = loads_held(axles, extras)

    assert (least <= load <= most) == _holds(axles, extras, load)


@given(
    axles=st.builds(Axles, GRAMS, GRAMS, GRAMS, GRAMS, GRAMS, st.integers(0, 1_200)),
    extras=st.integers(0, 500_000),
)
def test_the_limits_are_tight(axles: Axles, extras: int) -> None:
    """At the limits the rule holds, and a gram beyond it does not."""
    least, most = loads_held(axles, extras)
    if most < least or most >= HUGE_G:
        return

    assert _holds(axles, extras, least)
    assert _holds(axles, extras, most)
    assert not _holds(axles, extras, most + 1)
    assert least == 0 or not _holds(axles, extras, least - 1)


@pytest.mark.parametrize("share", [0, 500, 999, 1_000, 1_001, 1_200])
def test_no_limits_no_end(share: int) -> None:
    """An axle that bears anything leaves the most load without a practical end."""
    axles = Axles(1_000_000, 1_000_000, 0, HUGE_G, HUGE_G, share)
    least, most = loads_held(axles, 100_000)

    assert 0 == least
    assert 5_000_000 < most
