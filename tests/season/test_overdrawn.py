"""Days put together anew: only those stand for which people, trailers, containers and kit do."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

import pytest

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Container
from runplanner.outfit.trucks import Deck, Trailer
from runplanner.outfit.yards import Clearing
from runplanner.season.search.choose_days import Chosen
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import Standing, State
from runplanner.trips.day import Day, Key
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.outfits import a_truck
from tests.season.tiny import four, tiny

Change = Callable[[Outfit], Outfit]
TRAILER = Trailer("tr", "Trailer", 200_000, 750_000, Deck(2_100, 1_700, 1_200, 3), 1_700, 900, 10)


def two_trucks(drivers: str = "ann bob", **changes: object) -> Outfit:
    """Two yards on either side of the base, and a truck for each."""
    yards = [four(number, 4, clearing=Clearing.BOARDS) for number in (1, 2)]
    trucks = tuple(
        replace(a_truck(number), train_max_g=4_250_000, drivers=tuple(drivers.split()))
        for number in (1, 2)
    )
    outfit = tiny([(25, 0), (-25, 0)], yards, 4, trucks=trucks, trailers=(TRAILER,))
    people = tuple(replace(person, drives=True) for person in outfit.people)
    return replace(outfit, people=people, **changes)  # type: ignore[arg-type]


def boarded(yard: int) -> list[Stop]:
    """A yard's work on two days, all that is circulated or used up with it."""
    return [Stop(yard, boards=4), Stop(yard, off=4, boxes=6, blocks=4)]


def fed(yard: int) -> list[Stop]:
    """The same and its feed, on three."""
    return [*boarded(yard), Stop(yard, round=1, fed=4, strips=True)]


def hauler_of(keeper: Keeper, truck: int, trailer: str = "") -> int:
    """A truck with one person, and the trailer or none."""
    ways = [(h, keeper.ground.haulers[h]) for h in keeper.ground.siblings[truck]]
    (found,) = (h for h, way in ways if way.crew == 1 and bool(way.trailer) == bool(trailer))
    return found


def side_by_side(keeper: Keeper, trailer: str = "", *, alone: bool = False) -> State:
    """Both yards' days made anew, each with a truck and a person of its own."""
    days = {}
    for truck in (0,) if alone else (0, 1):
        for day, stop in enumerate(fed(truck)):
            judged = keeper.judge(Day(day, hauler_of(keeper, truck, trailer), ((stop,),)))
            assert judged is not None
            days[day, truck] = judged
    return keeper.settled(days)


def visited(state: State) -> list[list[Key]]:
    """The trucks' days of each yard's visits."""
    return [[(visit.day, visit.truck) for visit in mine] for mine in state.visits]


def kit(**changes: int) -> Change:
    """Other numbers owned."""
    return lambda outfit: replace(outfit, kit=replace(outfit.kit, **changes))  # type: ignore[arg-type]


def feed(**changes: int) -> Change:
    """Other stocks of feed."""
    return lambda outfit: replace(outfit, feed=replace(outfit.feed, **changes))  # type: ignore[arg-type]


def cans(number: int) -> Change:
    """So many cans, two of which hold a yard's 34 l, and nothing else."""
    can = Container("can", "Can", 25_000, 1_500, 300, 300, number)
    return lambda outfit: replace(outfit, containers=(can,))


def strips(stock: int) -> Change:
    """So many strips, of which a yard takes eight."""
    return lambda outfit: replace(outfit, strips=replace(outfit.strips, stock=stock))


# A litre of syrup is 1,327 g at 667 permille, so 34 l want 30,094 g of sugar.
SHORT: dict[str, tuple[Change, Change]] = {
    "boards": (kit(boards_owned=8), kit(boards_owned=7)),
    "blocks": (kit(blocks_owned=8), kit(blocks_owned=7)),
    "strips": (strips(16), strips(15)),
    "sugar": (feed(ready_ml=0, sugar_g=60_188), feed(ready_ml=0, sugar_g=60_187)),
    "containers": (cans(4), cans(3)),
}


@pytest.mark.parametrize("what", SHORT)
def test_the_second_yard_goes_where_stocks_do_for_one(what: str) -> None:
    """One piece less than both want, and the days of the second truck do not stand."""
    enough, short = SHORT[what]
    both = side_by_side(Keeper(Ground(enough(two_trucks()))))
    keeper = Keeper(Ground(short(two_trucks())))
    state = side_by_side(keeper)

    mine, theirs = [[(day, truck) for day in range(3)] for truck in (0, 1)]
    assert [mine, theirs] == visited(both)
    assert [mine, []] == visited(state)
    assert side_by_side(keeper, alone=True) == state


def test_the_second_yard_goes_where_one_person_drives_or_both_take_the_trailer() -> None:
    """Two trucks out on a day want two drivers, and a trailer is behind one of them."""
    mine = [(day, 0) for day in range(3)]
    assert [mine, []] == visited(side_by_side(Keeper(Ground(two_trucks("ann")))))
    assert [mine, []] == visited(side_by_side(Keeper(Ground(two_trucks())), "tr"))


def test_a_trailer_that_breaks_down_on_the_way_keeps_no_other_truck_at_home() -> None:
    """The truck that pulls it has left; another goes out without one, but never with it."""
    before = Keeper(Ground(two_trucks()))
    mine, other = (
        before.judge(Day(0, hauler, ((Stop(yard, boards=4),),)))
        for yard, hauler in ((0, hauler_of(before, 0, "tr")), (1, hauler_of(before, 1)))
    )
    assert mine is not None
    assert other is not None
    out = replace(TRAILER, out_days=(0,))
    ground = Ground(replace(before.ground.outfit, trailers=(out,)))

    gone, holding = Keeper(ground, Standing(driven={(0, 0): mine})).holding, Keeper(ground).holding
    assert gone.holds({(0, 0): mine, (0, 1): other}, [0])
    assert not holding.holds({(0, 0): mine}, [0])
    assert holding.holds({(0, 1): other}, [0])


def test_work_taken_out_that_wants_more_of_something_takes_its_yard_along() -> None:
    """Without its feed that day a take-off wants blocks, and there are none."""
    keeper = Keeper(Ground(kit(blocks_owned=0)(two_trucks())))
    days = {}
    for truck in (0, 1):
        at_once = Stop(truck, off=4, boxes=6, round=1, fed=4, strips=True)
        for day, stop in enumerate([Stop(truck, boards=4), at_once]):
            hauler = keeper.ground.siblings[truck][0]
            judged = keeper.judge(Day(day, hauler, ((stop,),)))
            assert judged is not None
            days[day, truck] = judged
    whole = keeper.settled(days)
    part = keeper.thin(whole, partial(with_blocks, 1), {1})

    assert [[(0, 0), (1, 0)], [(0, 1), (1, 1)]] == visited(whole)
    assert [[(0, 0), (1, 0)], []] == visited(part)


def with_blocks(yard: int, stop: Stop) -> Stop:
    """A yard's take-off with blocks in place of feed."""
    if stop.yard != yard or not stop.off:
        return stop
    return stop._replace(round=0, fed=0, strips=False, blocks=stop.off)


def test_days_chosen_anew_keep_to_the_people_there_are() -> None:
    """Either yard may be done in one stop of day 0, but one person cannot drive both trucks."""
    outfit = two_trucks("ann")
    yards = tuple(replace(yard, clearing=Clearing.BRUSH) for yard in outfit.yards)
    keeper = Keeper(Ground(replace(outfit, yards=yards)))

    def drawn_up(quick: int, slow: int) -> State:
        at_once = Stop(quick, off=4, boxes=6, round=1, fed=4, strips=True)
        stops = {0: at_once, 1: fed(slow)[1], 2: fed(slow)[2]}
        hauler = keeper.ground.siblings[quick][0]
        judged = {(d, quick): keeper.judge(Day(d, hauler, ((s,),))) for d, s in stops.items()}
        return keeper.settled({key: one for key, one in judged.items() if one is not None})

    one, other = drawn_up(0, 1), drawn_up(1, 0)
    chosen = Chosen(keeper)
    chosen.saw(one, one.days)

    assert not any((*one.score.undone, *other.score.undone))
    assert chosen(other) is None
