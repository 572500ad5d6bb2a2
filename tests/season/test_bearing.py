"""Which rules bear on a job: those whose easing gives it more than it has, of what is due."""

from dataclasses import replace

import pytest

from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.trucks import Axles
from runplanner.outfit.yards import Access
from runplanner.season.bearing import Bearing
from runplanner.season.what_if import RULES
from runplanner.trips.ground import Ground
from tests.season.tiny import four, tiny

ALWAYS = {
    "the hours of the working day and of duty",
    "the number of people",
    "the number of trucks and people",
}
"""More people, and more hours of them, are always more."""
WEATHER = "the weather windows and the settling nights"
LOADS = "what the trucks may carry"
GATES = "gates and what yards let in"
STRIPS = "how many strips are in stock"


def bearing(outfit: Outfit, job: Job) -> set[str]:
    """The rules that bear on one job of the first yard, less those that always do."""
    bears = Bearing(Ground(outfit), 0, {job})
    found = {str(rule) for rule, ease in RULES if bears(ease)}
    assert found >= ALWAYS
    return found - ALWAYS


def stocked(stock: int, access: Access | None = None) -> Outfit:
    """Four colonies, eight strips due, so many in stock."""
    outfit = tiny([(10, 0)], [four(1, 2, access=access or Access())], 2)
    return replace(outfit, strips=replace(outfit.strips, stock=stock))


@pytest.mark.parametrize(
    ("outfit", "rules"),
    [
        (stocked(7), {STRIPS}),
        (stocked(8), set()),
        (stocked(8, Access(max_vehicle_g=2_400_000)), set()),
        (stocked(8, Access(max_width_mm=2_000)), {GATES}),
    ],
)
def test_strips_want_their_stock_and_a_truck_that_gets_in(outfit: Outfit, rules: set[str]) -> None:
    """They weigh next to nothing, so no load and no weight limit bears on them."""
    assert rules == bearing(outfit, Job.STRIPS)


def test_a_weight_limit_bears_on_honey() -> None:
    """Hives may be opened for fewer hours than there is daylight.

    2.4 t let 85 kg in with the driver aboard (2.315 t), and the truck carries 1.1 t.
    """
    light = stocked(8, Access(max_vehicle_g=2_400_000))

    assert {WEATHER, LOADS, GATES} == bearing(light, Job.TAKE_OFF)
    assert {WEATHER, LOADS} == bearing(stocked(7), Job.TAKE_OFF)


def test_axles_bear_on_honey_where_they_bear_less_than_the_truck_may_carry() -> None:
    """And on no outfit whose trucks have none."""
    outfit = stocked(8)
    axles = Axles(1_300_000, 800_000, 700_000, 1_750_000, 1_000_000, 900)
    truck = replace(outfit.trucks[0], axles=axles)

    assert {WEATHER, LOADS, "what the axles of the trucks bear"} == bearing(
        replace(outfit, trucks=(truck,)), Job.TAKE_OFF
    )


@pytest.mark.parametrize(
    ("feed", "rule"),
    [
        ({"bought": True, "ready_ml": 33_000}, "how much syrup is delivered"),
        ({"bought": True, "ready_ml": 34_000}, ""),
        # 34 L x 1.327 x 0.667 = 30.1 kg
        ({"sugar_g": 30_000}, "how much sugar is in stock"),
        ({"sugar_g": 31_000}, ""),
        ({"mix_ml_per_day": 33_000}, "how fast syrup is mixed"),
        ({"mix_ml_per_h": 33_000}, "how fast syrup is mixed"),
        ({"mix_ml_per_h": 1, "ready_ml": 34_000}, ""),
    ],
)
def test_stocks_bear_on_feed_where_they_are_less_than_what_is_due(
    feed: dict[str, object], rule: str
) -> None:
    """34 L are due in one round: of syrup, sugar and mixing no more counts."""
    outfit = stocked(8)
    given = replace(outfit, feed=replace(outfit.feed, **feed))  # type: ignore[arg-type]

    assert ({LOADS, rule} if rule else {LOADS}) == bearing(given, Job.FEED)


def test_strips_of_another_kind_do_not_bear() -> None:
    """Seven of them are short of the eight due, at a yard that takes other ones."""
    outfit = stocked(7)
    other = replace(outfit.strips, substance="thymol", id="t", stock=None)
    yards = tuple(replace(yard, strips="t") for yard in outfit.yards)

    assert set() == bearing(replace(outfit, strips_also=(other,), yards=yards), Job.STRIPS)


def test_days_between_rounds_and_feeders_bear_on_feed() -> None:
    """Two rounds, and three feeders for four colonies."""
    outfit = tiny([(10, 0)], [four(1, 2, feeder_ml=5_000)], 2)
    few = replace(outfit, kit=replace(outfit.kit, feeders_owned=3))

    assert {
        LOADS,
        "the days between feed rounds",
        "how many feeders there are to go round",
    } == bearing(few, Job.FEED)
