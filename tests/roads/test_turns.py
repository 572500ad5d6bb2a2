import networkx as nx
import pytest

from runplanner.roads.matrix import matrix
from runplanner.roads.network import Network
from runplanner.roads.snap import snapped
from runplanner.roads.turns import Turn, with_turns
from tests.roads.towns import both, largest_part, town

# A cross: 0 in the middle, arms 1 (west), 2 (north), 3 (east), 4 (south), each with a further
# point 5..8 behind it; a by-pass of 1000 from the end of the west arm to that of the north.
ARMS = both(
    (1, 0, 100, 100), (2, 0, 100, 100), (3, 0, 100, 100), (4, 0, 100, 100),
    (5, 1, 10, 10), (6, 2, 10, 10), (7, 3, 10, 10), (8, 4, 10, 10), (5, 6, 1000, 1000),
)  # fmt: skip
SPOTS = [(0.0, 0.0), (0.0, -0.01), (0.01, 0.0), (0.0, 0.01), (-0.01, 0.0),
         (0.0, -0.011), (0.011, 0.0), (0.0, 0.011), (-0.011, 0.0)]  # fmt: skip


def the_cross() -> Network:
    """The cross without any sign."""
    return town(ARMS, SPOTS)


def drive(network: Network, here: int, there: int) -> int:
    """Hundredths of a second from the spot of one node to that of another."""
    on = snapped(network, [SPOTS[here], SPOTS[there]])
    return int(matrix(on.network, on.nodes).cs[0, 1])


def test_without_signs_nothing_changes() -> None:
    """No turn, or one that names no road, leaves the network as it is."""
    cross = the_cross()

    assert cross is with_turns(cross, [])
    assert cross is with_turns(cross, [Turn(5, 0, 2, only=False)])


def test_no_left_turn_from_the_west() -> None:
    """From the west one may not turn north: the way leads over the by-pass."""
    signed = with_turns(the_cross(), [Turn(1, 0, 2, only=False)])

    # Straight: 10 + 100 + 100 + 10 = 220.  Forbidden, so: 5-6 by the by-pass, 1000; going
    # on east and back from the dead end 7 is 10+100+100+10+10+100+100+10 = 440, shorter,
    # and a dead end is where one may turn.
    assert 220 == drive(the_cross(), 5, 6)
    assert 440 == drive(signed, 5, 6)
    assert 220 == drive(signed, 5, 7)
    assert 220 == drive(signed, 8, 6)
    assert 220 == drive(signed, 6, 5)


def test_nobody_turns_round_behind_the_junction() -> None:
    """Turning at node 3, in the open road, would be 210+...: it is not done."""
    signed = with_turns(the_cross(), [Turn(1, 0, 2, only=False)])

    # Turning round at 3 would be 10 + 100 + 100 + 100 + 100 + 10 = 420; 440 is by the dead end.
    assert 420 < drive(signed, 5, 6)


@pytest.mark.parametrize("foot", [0.002, 0.009, 0.0105])
def test_a_yard_behind_the_junction_is_no_place_to_turn(foot: float) -> None:
    """Whoever drives by a place does not turn there; who comes to it may leave either way."""
    signed = with_turns(the_cross(), [Turn(1, 0, 2, only=False)])
    on = snapped(signed, [SPOTS[5], SPOTS[6], (0.0, foot)])
    cs = matrix(on.network, on.nodes).cs

    # As without the place, from west to north by the dead end in the east.
    assert 440 == cs[0, 1]
    # To the place straight on, and from there back to the junction and north.
    along = 100 * foot / 0.01 if foot < 0.01 else 100 + 10 * (foot - 0.01) / 0.001
    assert 110 + along == pytest.approx(cs[0, 2], abs=1)
    assert 110 + along == pytest.approx(cs[2, 1], abs=1)


def test_only_straight_on() -> None:
    """From the west one may only go east; south and north are reached by the dead end."""
    signed = with_turns(the_cross(), [Turn(1, 0, 3, only=True)])

    assert 220 == drive(signed, 5, 7)
    assert 440 == drive(signed, 5, 8)
    assert 440 == drive(signed, 5, 6)


def test_two_signs_at_one_junction_add_up() -> None:
    """No left and no right from the west leave straight on."""
    signs = [Turn(1, 0, 2, only=False), Turn(1, 0, 4, only=False)]
    signed = with_turns(the_cross(), signs)

    assert (220, 440) == (drive(signed, 5, 7), drive(signed, 5, 8))


def test_a_sign_that_leaves_no_way_is_misread() -> None:
    """Signs that would shut the junction altogether are left out."""
    signs = [Turn(1, 0, arm, only=False) for arm in (1, 2, 3, 4)]

    assert 220 == drive(with_turns(the_cross(), signs), 5, 7)


def test_a_sign_at_the_next_junction_holds_as_well() -> None:
    """After one sign the next is met at its own copy, and both are kept."""
    # From 5 no turn to 2 at 0; coming back from 3 into 0 no turn to 2 either: the by-pass.
    signs = [Turn(1, 0, 2, only=False), Turn(3, 0, 2, only=False)]
    signed = with_turns(the_cross(), signs)

    # South's dead end is still there for turning: 440 by 8, where no sign stands.
    assert 440 == drive(signed, 5, 6)
    third = [*signs, Turn(4, 0, 2, only=False)]
    assert 1000 == drive(with_turns(the_cross(), third), 5, 6)


def test_copies_stand_where_their_first_stands() -> None:
    """Each copy knows which node it is a copy of, also once parts have fallen away."""
    lonely = town([*ARMS, (9, 5, 10, 10)], [*SPOTS, (0.0, -0.02)])
    part = largest_part(with_turns(lonely, [Turn(1, 0, 2, only=False)]))
    first = part.place

    assert part.size > 9
    assert part.lat.tolist() == pytest.approx(part.lat[first].tolist())
    assert part.lon.tolist() == pytest.approx(part.lon[first].tolist())
    assert (first[first] == first).all()


def _expanded(network: Network, turns: list[Turn]) -> "nx.DiGraph[object]":
    """Every arc as a node, an edge where no sign forbids to go on."""
    graph: nx.DiGraph[object] = nx.DiGraph()
    tails, heads, cs = network.tails().tolist(), network.head.tolist(), network.cs.tolist()
    out: dict[int, list[int]] = {}
    for arc, tail in enumerate(tails):
        out.setdefault(tail, []).append(arc)
    for arc, (tail, head) in enumerate(zip(tails, heads, strict=True)):
        graph.add_edge(("at", tail), arc, weight=cs[arc])
        graph.add_edge(arc, ("to", head), weight=0)
        for after in out[head]:
            if not any(
                (turn.before, turn.junction) == (tail, head)
                and (turn.after == heads[after]) is not turn.only
                for turn in turns
            ):
                graph.add_edge(arc, after, weight=cs[after])
    return graph


@pytest.mark.parametrize(
    "turns",
    [
        [Turn(1, 0, 2, only=False)],
        [Turn(1, 0, 3, only=True), Turn(2, 0, 4, only=True)],
        [Turn(3, 0, 3, only=False)],
    ],
)
def test_never_better_than_the_graph_of_arcs(turns: list[Turn]) -> None:
    """No drive is shorter than the networkx oracle's on a graph of arcs with the same signs."""
    signed, oracle = with_turns(the_cross(), turns), _expanded(the_cross(), turns)
    for here in range(5, 9):
        for there in range(5, 9):
            if here != there:
                least = nx.dijkstra_path_length(oracle, ("at", here), ("to", there))
                assert least <= drive(signed, here, there)


def test_signs_at_two_junctions_in_a_row() -> None:
    """Whoever comes from one sign to the next keeps that one as well."""
    # 0 as above without by-pass; 3 in the east is a junction too, with 5 north and 6 east.
    spots = [(0.0, 0.0), (0.0, -0.01), (0.01, 0.0), (0.0, 0.01), (-0.01, 0.0),
             (0.01, 0.01), (0.0, 0.02)]  # fmt: skip
    ways = both(*((0, arm, 100, 100) for arm in (1, 2, 3, 4)), (3, 5, 100, 100), (3, 6, 100, 100))
    signs = [Turn(1, 0, 2, only=False), Turn(0, 3, 5, only=False)]
    on = snapped(with_turns(town(ways, spots), signs), [spots[1], spots[5]])

    # West to 0, to 3, on to the dead end 6 and back, then north: five times 100.
    assert 500 == matrix(on.network, on.nodes).cs[0, 1]


# Two carriageways, 0-1-2 eastward and 3-4-5 westward, 100 each, and a link 1-6-4 between them.
LINK = (
    (0, 1, 100, 100), (1, 2, 100, 100), (3, 4, 100, 100), (4, 5, 100, 100), (5, 0, 9, 9),
    (2, 3, 500, 500),
)  # fmt: skip
LINK_SPOTS = [(0.0, 0.0), (0.0, 0.01), (0.0, 0.02), (0.001, 0.02), (0.001, 0.01), (0.001, 0.0),
              (0.0005, 0.01)]  # fmt: skip


def the_link() -> Network:
    """The carriageways one way each, the link both ways."""
    return town([*LINK, *both((1, 6, 10, 10), (6, 4, 10, 10))], LINK_SPOTS)


def over(network: Network, here: int, there: int) -> int:
    """Hundredths of a second from spot to spot of the carriageways."""
    on = snapped(network, [LINK_SPOTS[here], LINK_SPOTS[there]])
    return int(matrix(on.network, on.nodes).cs[0, 1])


def test_no_turning_round_over_a_link() -> None:
    """From 0 by the link to 5 is 220 when free; with the sign by way of it 500 the long way."""
    sign = Turn(0, 1, 5, only=False, between=(6, 4))
    signed = largest_part(with_turns(the_link(), [sign]))

    assert 220 == over(the_link(), 0, 5)
    # 100 + 100 to the end, 500 round, 100 + 100 back.
    assert 900 == over(signed, 0, 5)
    # The other sense of the link, and whoever comes to it from elsewhere, go as before.
    assert 9 + 100 + 100 == over(signed, 5, 2)
    assert over(the_link(), 3, 2) == over(signed, 3, 2)
    assert over(the_link(), 3, 6) == over(signed, 3, 6)
    assert over(the_link(), 0, 6) == over(signed, 0, 6)


def test_only_one_way_on_behind_a_link() -> None:
    """Behind the link only the way back to 1 may be taken: nothing but turning, so no sign."""
    north = [*LINK, *both((1, 6, 10, 10), (6, 4, 10, 10), (4, 7, 50, 50))]
    spots = [*LINK_SPOTS, (0.002, 0.01)]
    sign = Turn(0, 1, 7, only=True, between=(6, 4))
    signed = largest_part(with_turns(town(north, spots), [sign]))
    on = snapped(signed, [spots[0], spots[5], spots[7]])
    cs = matrix(on.network, on.nodes).cs

    # 100 + 10 + 10 + 50 to the dead end 7; there one may turn: 50 back and 100 on to 5.
    assert (170, 320) == (cs[0, 2], cs[0, 1])


def test_two_signs_by_way_of_one_link() -> None:
    """Signs that share a road between are both kept; one whose road is not there is nothing."""
    north = [*LINK, *both((1, 6, 10, 10), (6, 4, 10, 10), (4, 7, 50, 50), (6, 8, 30, 30))]
    spots = [*LINK_SPOTS, (0.002, 0.01), (0.0005, 0.012)]
    signs = [
        Turn(0, 1, 5, only=False, between=(6, 4)), Turn(0, 1, 7, only=False, between=(6, 4)),
        Turn(0, 1, 4, only=False, between=(99,)),
    ]  # fmt: skip
    signed = largest_part(with_turns(town(north, spots), signs))
    on = snapped(signed, [spots[0], spots[5], spots[7], spots[8]])
    cs = matrix(on.network, on.nodes).cs

    # Over the link, back to the junction 1, where one may turn, and over it again: 100 + 3 * 20
    # and 100 or 50; to 8 beside the link as ever: 100 + 10 + 30.
    assert [260, 210, 140] == cs[0, 1:].tolist()
