"""Yards that nothing can reach: the limit, by how much, and the nearest truck."""

from dataclasses import replace

import pytest

from runplanner.haulage.reach import out_of_reach
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.trucks import Deck, Trailer, Truck
from runplanner.outfit.yards import Access
from tests.outfits import a_truck, a_yard, an_outfit


def behind(access: Access, *trucks: Truck, trailers: tuple[Trailer, ...] = ()) -> Outfit:
    """One yard with this gate."""
    yard = replace(a_yard(1), access=access)
    return an_outfit([(5, 0)], [yard], trucks=trucks or (a_truck(),), trailers=trailers)


def why(outfit: Outfit) -> str | None:
    """What keeps everything from the first yard."""
    return out_of_reach(outfit, outfit.yards[0])


def without(outfit: Outfit, *legs: tuple[int, int]) -> Outfit:
    """No road on these legs, one way each."""
    minutes = tuple(
        tuple(None if (i, j) in legs else cell for j, cell in enumerate(row))
        for i, row in enumerate(outfit.travel.minutes)
    )
    return replace(outfit, travel=replace(outfit.travel, minutes=minutes))


@pytest.mark.parametrize(
    ("access", "said"),
    [
        (
            Access(max_width_mm=1_900),
            "Yard 1 lets in 1.9 m of width; the narrowest truck, Truck 1, is 2.1 m, 0.2 m too wide",
        ),
        # empty 2100 + fuel 60 + kit 70 + one person 85 = 2315 kg
        (
            Access(max_vehicle_g=2_000_000),
            (
                "Yard 1 lets in 2 t; the lightest truck, Truck 1, is 2.315 t with fuel, kit and "
                "driver before it loads anything, 0.315 t too heavy"
            ),
        ),
        (
            Access(four_wheel=True),
            "Yard 1 lets in four-wheel drive only, and no truck has it",
        ),
        (Access(max_width_mm=2_100, max_vehicle_g=2_315_000), None),
    ],
)
def test_the_limit_is_named_with_the_nearest_truck(access: Access, said: str | None) -> None:
    """One truck, 2.1 m wide and 2.315 t with its driver; just as much gets in."""
    truck = replace(a_truck(), width_mm=2_100, four_wheel=False)

    assert said == why(behind(access, truck))


def test_the_nearest_of_several_trucks_is_named() -> None:
    """2.5 m and 2.2 m, and a gate of 2 m: the second."""
    wide = replace(a_truck(), width_mm=2_500)
    narrow = replace(a_truck(), id="b", name="Small", width_mm=2_200)

    assert "Small, is 2.2 m, 0.2 m too wide" in str(
        why(behind(Access(max_width_mm=2_000), wide, narrow))
    )


def test_each_truck_kept_out_by_another_limit() -> None:
    """One is too wide, one too heavy, one lacks four-wheel drive: none gets in."""
    base = replace(a_truck(), width_mm=2_000, four_wheel=True)
    wide = replace(base, name="Wide", width_mm=2_200)
    heavy = replace(base, id="b", name="Heavy", empty_g=2_200_000)
    plain = replace(base, id="c", name="Plain", four_wheel=False)
    access = Access(max_width_mm=2_000, max_vehicle_g=2_400_000, four_wheel=True)

    # 2200 + 60 + 70 + 85 = 2415 kg
    assert (
        "Yard 1 lets in none of the trucks: Wide is 2.2 m wide where 2 m may be; Heavy is "
        "2.415 t without load where 2.4 t may be; Plain lacks four-wheel drive"
    ) == why(behind(access, wide, heavy, plain))
    assert why(behind(access, wide, heavy, plain, base)) is None


def test_a_truck_that_carries_nothing_without_its_trailer() -> None:
    """It may come alone for nothing; with the trailer it is not let in."""
    full = replace(a_truck(), max_g=2_315_000, train_max_g=3_500_000)
    gate, trailers = (
        Access(trailer=False),
        (Trailer("t", "Trailer", 200_000, 750_000, Deck(2_500, 1_300, 1_200, 5), 1_700, 950, 0),),
    )
    wide = replace(a_truck(), id="b", width_mm=3_000)

    assert "Yard 1 lets in no trailer, and no truck carries anything without one" == why(
        behind(gate, full, trailers=trailers)
    )
    both = why(behind(replace(gate, max_width_mm=2_900), full, wide, trailers=trailers))
    assert "Truck 1 carries nothing without its trailer" in str(both)


def test_where_no_truck_carries_anything_no_yard_is_blamed() -> None:
    """That is the trucks' own fault, and told as such."""
    assert why(behind(Access(max_width_mm=1), replace(a_truck(), max_g=1))) is None


def test_a_yard_without_any_road() -> None:
    """Neither from the base nor by way of the other yard; by way of it, it can be reached."""
    outfit = an_outfit()
    name = outfit.places[0].name

    assert f"Yard 1 has no road from {name}, straight or by way of other places" == why(
        without(outfit, (0, 1), (2, 1))
    )
    assert f"Yard 1 has no road back to {name}, straight or by way of other places" == why(
        without(outfit, (1, 0), (1, 2))
    )
    assert why(without(outfit, (0, 1), (1, 0))) is None
