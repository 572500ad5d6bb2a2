"""Loads shared by truck and trailer: by hand, and by property."""

from hypothesis import given
from hypothesis import strategies as st

from runplanner.haulage.stow import FEW, Change, Lot, Order, Stowage, Tank, Train, held, laid, stow

TRAIN = Train(995_000, 24, 1_000_000, 12, 0, 1_327)
"""A truck that bears 995 kg on 24 places, a trailer with 1,000 kg on 12."""
IBC = Tank(60_000, 1_000_000, 6)


def syrup(ml: int) -> list[Change]:
    """A trip that pours all its syrup at one stop."""
    return [Change((), (), ml, 0), Change((), (), 0, 0)]


def boxes(count: int, each_g: int = 16_000) -> list[Change]:
    """A trip that fetches boxes, five to a place."""
    return [Change((), (), 0, 0), Change((), (Lot("full", count, each_g, 5),), 0, 0)]


def test_a_tank_goes_whole_on_one_of_both() -> None:
    """850 L are 1,127.95 kg and the tank 60: 1,995 kg in all, but neither bears it."""
    assert stow(TRAIN, [IBC], syrup(850_000)) is None
    # 708 L: 939,516 + 60,000 g on the trailer; 709 L are 1,000,843
    found = stow(TRAIN, [IBC], syrup(708_000))
    assert found == Stowage((True,), Order(True, True), (708_000, 0), ((0, 999_516), (0, 60_000)))
    assert stow(TRAIN, [IBC], syrup(709_000)) is None


def test_two_tanks_part() -> None:
    """850 L in two tanks: what one vehicle does not bear goes in the other's."""
    found = stow(TRAIN, [IBC, IBC], syrup(850_000))

    assert found is not None
    assert ((True, False), 708_364) == (found.behind, found.ml_behind[0])
    # 1,000,000 - 60,000 = 940,000 g are 708,364 ml; 141,636 ml are 187,951 g
    assert ((247_951, 1_000_000), (60_000, 60_000)) == found.legs


def test_a_load_is_held_in_the_way_told_or_not() -> None:
    """The tank stands where it was told: with 300 L in it 53 boxes ride, 54 do not.

    995 - 60 - 398.1 kg leave 536.9 on the truck, 33 boxes; four places behind hold 20.
    """
    train, order = TRAIN._replace(trailer_places=4), Order(True, True)
    told = laid(train, [IBC], syrup(300_000), (False,), order)

    def loaded(count: int) -> list[Change]:
        return [Change((), (), 300_000, 0), boxes(count)[1]._replace(ml=300_000)]

    assert stow(train, [IBC], syrup(300_000)) == told
    assert [True, False] == [held(train, [IBC], loaded(n), told) for n in (53, 54)]
    # filled behind, where it has no room
    assert not held(train, [IBC], loaded(1), told._replace(behind=(True,)))


def test_what_neither_bears_is_told_where_it_rides() -> None:
    """90 boxes, of which four places behind hold 20 and 995 kg ahead 62: eight too many ahead."""
    train = TRAIN._replace(trailer_places=4)
    found = laid(train, [], boxes(90), (), Order(True, True))

    assert stow(train, [], boxes(90)) is None
    assert (70 * 16_000, 20 * 16_000) == found.legs[1]
    # 709 L are 1,000,843 g with the tank: 636 ml more than the trailer bears
    over = laid(TRAIN, [IBC], syrup(709_000), (True,), Order(True, True))
    assert (709_000, (0, 1_000_843)) == (over.ml_behind[0], over.legs[0])


def test_a_tank_lies_on_one_deck() -> None:
    """Six places under it: not on five and five, though ten are free."""
    small = TRAIN._replace(truck_places=5, trailer_places=5)

    assert stow(small, [IBC], syrup(100_000)) is None
    assert stow(small._replace(trailer_places=6), [IBC], syrup(100_000)) is not None


def test_a_trailer_counts_for_what_its_deck_holds() -> None:
    """Four places by five of 16 kg are 320 kg behind: 20 and 62 boxes, not 124 by mass."""
    narrow = TRAIN._replace(trailer_places=4)

    found = stow(narrow, [], boxes(82))
    assert found is not None
    assert (992_000, 320_000) == found.legs[1]
    assert stow(narrow, [], boxes(83)) is None


def test_boxes_are_whole() -> None:
    """995 and 1,000 kg bear 62 boxes each: 124 are 1,984 kg, and an eleventh kilogram is none."""
    assert stow(TRAIN._replace(trailer_places=24), [], boxes(124)) is not None
    assert stow(TRAIN._replace(trailer_places=24), [], boxes(125)) is None
    assert stow(TRAIN._replace(trailer_places=24), [], boxes(1, 995_001)) is not None
    assert stow(TRAIN._replace(trailer_places=24), [], boxes(1, 1_000_001)) is None


def test_a_steered_axle_wants_a_load_on_the_truck() -> None:
    """100 kg must be on the truck, which is then filled first."""
    feeders = Lot("feeders", 100, 1_200, 10)
    calls = [Change((), (feeders,), 0, 0)]
    found = stow(TRAIN._replace(least_g=100_000), [], calls)

    assert found is not None
    assert (Order(False, False), ((120_000, 0),)) == (found.order, found.legs)
    assert stow(TRAIN._replace(least_g=120_001), [], calls) is None


def test_strips_ride_in_the_cab() -> None:
    """Their mass is the truck's, whichever is filled first."""
    found = stow(TRAIN, [], [Change((), (), 0, 480), Change((), (), 0, 0)])

    assert found is not None
    assert ((480, 0), (0, 0)) == found.legs


def test_what_is_used_up_makes_room_where_it_was() -> None:
    """12 places of boards behind go out; 60 boxes take their place, all on the trailer."""
    boards = Lot("boards", 120, 1_000, 10)
    calls = [
        Change((), (boards,), 0, 0),
        Change((boards,), (Lot("full", 60, 16_000, 5),), 0, 0),
    ]
    found = stow(TRAIN, [], calls)

    assert found is not None
    assert ((0, 120_000), (0, 960_000)) == found.legs


def test_feeders_out_of_the_way_of_boxes() -> None:
    """The trailer has places for what boxes it bears and no more: feeders load on the truck."""
    feeders, train = Lot("feeders", 240, 1_200, 10), TRAIN._replace(truck_g=600_000)
    calls = [Change((), (feeders,), 0, 0), Change((), (Lot("full", 60, 16_000, 5),), 0, 0)]
    found = stow(train, [], calls)

    assert found is not None
    # 24 places of feeders, 288 kg, and 12 of boxes, 960 kg
    assert (Order(False, False), (288_000, 960_000)) == (found.order, found.legs[1])


def test_many_cans_are_shared_by_quarters() -> None:
    """Forty cans of 25 L on 20 and 20 places: half and half."""
    can, even = Tank(1_500, 25_000, 1), TRAIN._replace(truck_places=20, trailer_places=20)
    found = stow(even, [can] * 40, syrup(1_000_000))

    assert FEW < 40
    assert found is not None
    assert 20 == sum(found.behind)


def test_many_tanks_part_where_one_kind_ends() -> None:
    """An IBC behind and eight cans ahead, which hold the 191 L that it cannot carry."""
    can = Tank(1_500, 25_000, 1)
    found = stow(TRAIN, [IBC] + [can] * 8, syrup(899_000))

    assert FEW < 9
    assert found is not None
    assert ((True, *(False,) * 8), 708_364) == (found.behind, found.ml_behind[0])


@given(
    st.integers(0, 60), st.integers(0, 60), st.integers(5_000, 30_000), st.integers(5_000, 30_000),
    st.integers(1, 12), st.integers(1, 12), st.integers(0, 900), st.integers(0, 2),
)  # fmt: skip
def test_no_more_than_each_bears_and_nothing_lost(
    first: int, then: int, light: int, heavy: int, ahead: int, behind: int, litres: int, tanks: int
) -> None:
    """Whatever is found is within both limits on every leg and adds up to the load."""
    train = TRAIN._replace(truck_places=ahead, trailer_places=behind)
    calls = [
        Change((), (), litres * 1_000, 500),
        Change((), (Lot("a", first, light, 5),), litres * 500, 500),
        Change((), (Lot("b", then, heavy, 4),), 0, 0),
    ]
    found = stow(train, [IBC] * tanks, calls)
    if found is None:
        return
    loads = (500, 500 + first * light, first * light + then * heavy)
    for (on_truck, on_trailer), dry, call in zip(found.legs, loads, calls, strict=True):
        assert on_truck <= train.truck_g
        assert on_trailer <= train.trailer_g
        syrup_g = -(-call.ml * 1_327 // 1_000)
        # The syrup of each rounds up by itself.
        assert 0 <= on_truck + on_trailer - dry - syrup_g - tanks * IBC.empty_g <= 1
    under = -(-first // 5) + -(-then // 4) + tanks * IBC.places
    assert under <= ahead + behind
