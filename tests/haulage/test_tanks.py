"""Which containers are worth taking for so much syrup."""

from dataclasses import replace
from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from runplanner.haulage.stow import FEW, Change, Train, stow
from runplanner.haulage.tanks import Tanks, choices, parted, sized, taken, weighed
from runplanner.outfit.stores import Container

CAN = Container("can", "Can", 25_000, 1_500, 300, 300, 12)
DRUM = Container("drum", "Drum", 200_000, 10_000, 600, 600, 3)
IBC = Container("ibc", "IBC", 1_000_000, 60_000, 1_200, 1_000, 1)
PLACES = (6, 1, 2)


def counts(ml: int) -> list[tuple[int, ...]]:
    """The sets of IBC, can and drum worth trying for ``ml``, lightest first."""
    return [tanks.counts for tanks in choices((IBC, CAN, DRUM), PLACES)(ml)]


def test_no_syrup_no_containers() -> None:
    """A trip without syrup takes none."""
    assert [(0, 0, 0)] == counts(0)


def test_lightest_first_then_what_saves_places() -> None:
    """100 L: 4 cans of 6 kg in 4 places; a drum of 10 kg needs only 2."""
    # an IBC of 60 kg and 6 places saves nothing over either
    assert [(0, 4, 0), (0, 0, 1)] == counts(100_000)


def test_kinds_mix() -> None:
    """210 L: 9 cans (13.5 kg, 9 places) or drum and can (11.5 kg, 3 places): the mix only."""
    assert [(0, 1, 1)] == counts(210_000)


def test_a_litre_over_takes_one_more() -> None:
    """25 L go into one can, 25.001 L into two."""
    # two cans and one drum cover two places each, and the drum is heavier
    assert [(0, 1, 0)] == counts(25_000)
    assert [(0, 2, 0)] == counts(25_001)


def test_all_there_are() -> None:
    """1,000 + 12 x 25 + 3 x 200 = 1,900 L go with everything; one ml more does not."""
    assert [(1, 12, 3)] == counts(1_900_000)
    assert [] == counts(1_900_001)


def test_many_cans_do_not_hide_a_set_that_saves_places() -> None:
    """900 L: the lightest sets are drums with many cans, but one IBC stands in 6 places."""
    # 3 drums hold 600, 12 cans 300: 48 kg in 18 places; else the IBC, 60 kg in 6 places
    assert [(0, 12, 3), (1, 0, 0)] == counts(900_000)


def test_mass_and_places_of_a_set() -> None:
    """One IBC and two cans: 60 + 3 kg, 6 + 2 places."""
    assert Tanks(63_000, 8, (1, 2, 0)) == weighed((IBC, CAN, DRUM), PLACES, (1, 2, 0))


def test_no_containers_at_all() -> None:
    """An outfit without containers carries no syrup, but may go out without."""
    none = choices((), ())

    assert (Tanks(0, 0, ()),) == none(0)
    assert () == none(1)


def test_thousands_of_containers_take_no_thousand_years() -> None:
    """Six kinds of a thousand each are looked at by no more than a bounded number of sets."""
    kinds = tuple(
        Container(f"k{n}", f"Kind {n}", 20_000 + n, 1_000 + n, 300, 300, 1_000) for n in range(6)
    )
    found = choices(kinds, (1,) * 6)(100_000_000)

    # 100,000 L in cans of 20 L and a little: some 5,000 of the 6,000 cans
    assert found
    assert 4_990 <= sum(found[0].counts) <= 5_010
    # 132.7 t are more than truck and trailer bear, 0.53 t are not
    assert not parted(kinds, (1,) * 6, TRAIN)(100_000_000)
    assert parted(kinds, (1,) * 6, TRAIN)(400_000)


TRAIN = Train(785_000, 30, 750_000, 18, 0, 1_327)
"""A truck that bears 785 kg, 591 L without a tank, and a trailer with 750 kg, 565 L."""


def behind(ml: int) -> list[tuple[int, ...]]:
    """The sets of IBC, can and drum worth trying for ``ml`` on truck and trailer."""
    return [tanks.counts for tanks in parted((IBC, CAN, DRUM), PLACES, TRAIN)(ml)]


def test_a_tank_rides_part_filled_with_others_beside() -> None:
    """900 L in the IBC are 1,254 kg: neither bears it; part of it, and the rest on the other."""
    assert [(0, 12, 3), (1, 0, 0)] == counts(900_000)
    # IBC ahead: (785 - 60) / 1.327 = 546 L; 354 L behind, in two drums of 20 kg and 4 places.
    # All drums and cans are lighter, but three drums are 826 kg
    assert [(1, 0, 2)] == behind(900_000)


def test_what_both_bear_full_is_tried_as_without_a_trailer() -> None:
    """500 L in the IBC are 723.5 kg, and 13 cans with a drum part as they are."""
    for ml in (0, 25_000, 100_000, 210_000, 500_000):
        assert counts(ml) == behind(ml)


def test_two_tanks_ride_half_full() -> None:
    """One IBC does not bear 892 L, two do: 546 L ahead, 346 L behind."""
    two = replace(IBC, owned=2)

    assert [(1,)] == [tanks.counts for tanks in choices((two,), (6,))(892_000)]
    assert [(2,)] == [tanks.counts for tanks in parted((two,), (6,), TRAIN)(892_000)]


KINDS = st.lists(
    st.builds(
        Container,
        st.just("k"),
        st.just("Kind"),
        st.integers(1, 40),
        st.integers(0, 9),
        st.just(1),
        st.just(1),
        st.integers(1, 3),
    ),
    max_size=3,
)


@given(kinds=KINDS, ml=st.integers(0, 150), data=st.data())
def test_every_set_that_holds_the_syrup_is_matched(
    kinds: list[Container], ml: int, data: st.DataObject
) -> None:
    """Brute force: for each set that would do, one is offered no heavier and no larger."""
    places = tuple(data.draw(st.integers(1, 9)) for _ in kinds)
    offered = choices(tuple(kinds), places)(ml)
    for counted in product(*(range(kind.owned + 1) for kind in kinds)):
        held = sum(n * kind.holds_ml for n, kind in zip(counted, kinds, strict=True))
        if held >= ml:
            other = weighed(kinds, places, counted)
            assert any(
                one.empty_g <= other.empty_g and one.places <= other.places for one in offered
            )


@given(kinds=KINDS, ml=st.integers(0, 150), data=st.data())
def test_every_set_that_truck_and_trailer_share_is_matched(
    kinds: list[Container], ml: int, data: st.DataObject
) -> None:
    """Brute force: each set of few that the two bear has one offered no heavier and no larger."""
    few = range(60)
    truck_g, ahead, trailer_g, back = (data.draw(st.sampled_from(few)) for _ in range(4))
    train = Train(truck_g, ahead, trailer_g, back, 0, data.draw(st.integers(800, 1_400)))
    places = tuple(data.draw(st.integers(1, 9)) for _ in kinds)
    tanks, syrup = sized(kinds, places), [Change((), (), ml, 0)]
    offered = parted(tuple(kinds), places, train)(ml)

    assert all(stow(train, taken(tanks, one.counts), syrup) for one in offered)
    for counted in product(*(range(kind.owned + 1) for kind in kinds)):
        if sum(counted) <= FEW and stow(train, taken(tanks, counted), syrup) is not None:
            other = weighed(kinds, places, counted)
            assert any(
                one.empty_g <= other.empty_g and one.places <= other.places for one in offered
            )


@given(kinds=KINDS, ml=st.integers(0, 150))
def test_what_is_offered_is_owned_and_holds_the_syrup(kinds: list[Container], ml: int) -> None:
    """No set has more than there are, each holds enough, and each saves places over the last."""
    offered = choices(tuple(kinds), (1,) * len(kinds))(ml)
    for one in offered:
        pairs = list(zip(one.counts, kinds, strict=True))
        assert all(n <= kind.owned for n, kind in pairs)
        assert ml <= sum(n * kind.holds_ml for n, kind in pairs)
    masses = [one.empty_g for one in offered]
    places = [one.places for one in offered]
    assert sorted(masses) == masses
    assert sorted(set(places), reverse=True) == places
