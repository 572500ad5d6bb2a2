"""What is put right at the end of a search: strips as soon as may be, never dearer."""

from contextlib import suppress
from dataclasses import replace

import pytest
from hypothesis import given, settings

from runplanner.errors import PlanError
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing
from runplanner.season.search.improve import Improver
from runplanner.season.search.tidy import blocks_together, boards_together, strips_sooner, tidied
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import Standing, State
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.outfits import an_outfit
from tests.season.any_outfit import outfits
from tests.season.test_any_outfit import ANY
from tests.season.tiny import four, tiny

OFF = Stop(0, off=4, boxes=6, blocks=4)
FED = Stop(0, round=1, fed=4)


def driven_on(days: dict[int, Stop], **yard: object) -> tuple[Keeper, State]:
    """One yard of four colonies with six boxes, one stop on each of some days."""
    keeper = Keeper(Ground(tiny([(10, 0)], [four(1, 9, **yard)], 9)))
    stops = {(day, 0): Day(day, 0, ((stop,),)) for day, stop in days.items()}
    state = keeper.replace_all(keeper.empty(), stops)
    assert state is not None
    return keeper, state


def strips_on(state: State) -> list[int]:
    """Days on which strips go in."""
    return [visit.day for visit in state.visits[0] if visit.stop.strips]


def test_strips_go_in_with_the_last_boxes_off() -> None:
    """Whether they go in on day 0 or 3, their minutes are the same."""
    keeper, state = driven_on({0: OFF, 3: FED._replace(strips=True)})
    sooner = strips_sooner(keeper, state, 0)

    assert [3] == strips_on(state)
    assert [0] == strips_on(sooner)
    assert sooner.score == state.score
    assert sooner == strips_sooner(keeper, sooner, 0)


def test_a_visit_for_strips_alone_is_spared() -> None:
    """The truck stays at home on day 5."""
    keeper, state = driven_on({0: OFF, 3: FED, 5: Stop(0, strips=True)})
    sooner = strips_sooner(keeper, state, 0)

    assert [0] == strips_on(sooner)
    assert [0, 3] == sorted(day for day, _ in sooner.days)
    assert sooner.score < state.score


def test_boards_that_nobody_would_fetch_are_not_put_on() -> None:
    """No take-off follows them; before one they stay."""
    boards = Stop(0, boards=4)
    keeper, state = driven_on({1: boards}, clearing=Clearing.BOARDS)
    both, wanted = driven_on({1: boards, 3: OFF, 5: FED}, clearing=Clearing.BOARDS)

    assert [] == sorted(tidied(keeper, state).days)
    assert [1, 3, 5] == sorted(day for day, _ in tidied(both, wanted).days)


def laid_in_two(first: int, standing: Standing | None = None) -> tuple[Keeper, State]:
    """Boards of two take-offs put on at two stops of one trip, ``first`` of four and the rest."""
    lots = Stop(0, boards=first), Stop(0, boards=4 - first)
    rules = replace(an_outfit().rules, smallest_lot=1)
    outfit = tiny([(10, 0)], [four(1, 9, clearing=Clearing.BOARDS)], 9, rules=rules)
    keeper = Keeper(Ground(outfit), standing)
    days = {0: lots, 1: (Stop(0, off=1, boxes=2, blocks=1),)}
    days |= {2: (Stop(0, off=3, boxes=4, blocks=3),), 4: (FED._replace(strips=True),)}
    news = {(day, 0): Day(day, 0, (stops,)) for day, stops in days.items()}
    state = keeper.replace_all(keeper.empty(), news)
    assert state is not None
    return keeper, state


def laid(state: State) -> list[int]:
    """Boards put on, stop by stop."""
    return [visit.stop.boards for visit in state.visits[0] if visit.stop.boards]


@pytest.mark.parametrize("first", [1, 2])
def test_boards_of_one_trip_go_on_at_one_stop(first: int) -> None:
    """Two calls on end become one, which costs no more: they are set up for once as well."""
    keeper, state = laid_in_two(first)
    new = boards_together(keeper, state, 0)

    assert [first, 4 - first] == laid(state)
    assert [4] == laid(new)
    assert state.score == new.score
    assert [4] == laid(tidied(keeper, state))
    assert new.days.keys() == state.days.keys()


def hungry_long(*counts: int) -> tuple[Keeper, State]:
    """Four off on day 0, no hour for syrup in 17 days; so many further blocks, by stops of day 2.

    A block lasts 4.2 days.
    """
    outfit = tiny([(10, 0)], [four(1, 17, feed_spans=())], 17)
    keeper = Keeper(Ground(outfit))
    again = tuple(Stop(0, blocks=count) for count in counts)
    days = {(0, 0): Day(0, 0, ((OFF,),)), (2, 0): Day(2, 0, (again,))}
    state = keeper.replace_all(keeper.empty(), days)
    assert state is not None
    return keeper, state


@pytest.mark.parametrize(
    ("counts", "joined"),
    [
        ((4, 4, 4), [Stop(0, blocks=12, each=3)]),
        ((2, 2), [Stop(0, blocks=4)]),
        ((4, 2), [Stop(0, blocks=4), Stop(0, blocks=2)]),
    ],
)
def test_further_blocks_of_one_trip_are_given_at_one_stop(
    counts: tuple[int, ...], joined: list[Stop]
) -> None:
    """Three for each colony, or two for either half; four and two are no whole number for each."""
    keeper, state = hungry_long(*counts)
    new = blocks_together(keeper, state, 0)

    assert joined == [one.stop for one in new.visits[0] if one.stop.further]
    assert joined == [one.stop for one in tidied(keeper, state).visits[0] if one.stop.further]
    assert state.progress[0].uncovered == new.progress[0].uncovered
    assert state.score == new.score


def test_no_more_of_several_blocks_are_given_than_are_wanted() -> None:
    """Of four each on day 2 three last to the end, for 16.8 days in all."""
    keeper, state = hungry_long(4, 4, 4, 4)
    new = tidied(keeper, blocks_together(keeper, state, 0))

    assert [(12, 3)] == [(v.stop.blocks, v.stop.each) for v in new.visits[0] if v.stop.further]
    assert 0 == new.progress[0].uncovered


def test_promised_boards_stay_where_a_moved_visit_is_dearer() -> None:
    """Two visits were told to people: one would be broken, at 500.00 or for nothing."""
    promised = ({(0, 0): (Stop(0, boards=1), Stop(0, boards=3))},)
    for cents, stops in ((50_000, [1, 3]), (0, [4])):
        keeper, state = laid_in_two(1, Standing(promised=promised, move_cents=cents))
        assert stops == laid(boards_together(keeper, state, 0))


def test_boards_nobody_would_fetch_go_where_cover_would_end_too_soon_without_them() -> None:
    """The next yard's blocks, given sooner, would not last to its syrup: it waits its minute."""
    places = [four(1, 9, clearing=Clearing.BOARDS), four(2, 9)]
    keeper = Keeper(Ground(tiny([(10, 0), (10, 5)], places, 9)))
    off = OFF._replace(yard=1)
    first = Day(0, 0, ((Stop(0, boards=4), off),))

    def fed_from(minute: int) -> State | None:
        fed = FED._replace(yard=1, from_min=minute)
        news = {(0, 0): first, (minute // 1440, 0): Day(minute // 1440, 0, ((fed,),))}
        return keeper.replace_all(keeper.empty(), news)

    held = [state for state in map(fed_from, range(1440, 8 * 1440, 5)) if state is not None]
    state = held[-1]
    starts = [visit.start_min for visit in state.visits[1]]
    new = tidied(keeper, state)

    assert not new.visits[0]
    assert starts == [visit.start_min for visit in new.visits[1]]
    assert keeper.replace(state, (0, 0), Day(0, 0, ((off,),))) is None


def test_strips_never_go_in_before_the_last_boxes_are_off() -> None:
    """Three colonies stand under honey until day 3."""
    three = Stop(0, off=3, boxes=3, blocks=3)
    last = three._replace(blocks=0, round=1, fed=6, strips=True)
    keeper, state = driven_on({0: three, 3: last}, colonies=6)

    assert [3] == strips_on(strips_sooner(keeper, state, 0))


@settings(ANY, max_examples=25)
@given(outfits())
def test_tidying_never_costs_and_keeps_the_rules(outfit: Outfit) -> None:
    """Scores do not rise, and the state is what its days make it."""
    improver = Improver(Ground(outfit), 1)
    with suppress(PlanError):
        state = improver.construct()
        new = tidied(improver.keeper, state)
        again = improver.keeper.settled(dict(new.days))

        assert new.score <= state.score
        assert (again.score, again.visits) == (new.score, new.visits)
        assert all(_first(new, yard) <= _first(state, yard) for yard in range(len(new.visits)))


def _first(state: State, yard: int) -> int:
    """Minute at which a yard gets its strips; never is late."""
    found = [visit.start_min for visit in state.visits[yard] if visit.stop.strips]
    return min(found, default=10**9)
