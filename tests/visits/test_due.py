"""What a yard is due, against published figures and by hand."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Feed
from runplanner.outfit.yards import Clearing, Health, Yard
from runplanner.trade.feeding import stores_g_per_l
from runplanner.visits.due import Due, due, lasts_min, taken
from tests.outfits import a_yard, an_outfit

OUTFIT = an_outfit()
YARD = a_yard(1)


def feed(**changes: int) -> Feed:
    """The usual 2:1 syrup (66.7 %, 1,327 g/L, 1.12 kg stores per kg of sugar), changed."""
    return replace(OUTFIT.feed, **changes)  # type: ignore[arg-type]


def due_of(yard: Yard, **changes: int) -> Due:
    """What ``yard`` is due when the syrup is changed so."""
    return due(replace(OUTFIT, feed=feed(**changes)), yard)


@pytest.mark.parametrize(
    ("sugar_permille", "density", "per_kg", "published_g"),
    [
        # Curth, Hohenheim 1981 (bienenzuchtverein-merkstein.de): stores from a litre of 1:1,
        # 3:2 and 2:1; per kg of sugar 0.896, 1.075 and 1.124.
        (500, 1_230, 896, 560),
        (600, 1_287, 1_075, 860),
        (667, 1_327, 1_124, 1_000),
    ],
)
def test_stores_of_a_litre(
    sugar_permille: int, density: int, per_kg: int, published_g: int
) -> None:
    """A litre of syrup makes the stores that Curth measured, to 5 %."""
    made = stores_g_per_l(
        feed(sugar_permille=sugar_permille, density_g_per_l=density, stores_g_per_kg_sugar=per_kg)
    )

    assert published_g == pytest.approx(made, rel=0.05)


def test_stores_of_a_litre_are_floored_once() -> None:
    """1,327 x 667 x 1,120 / 1,000,000 = 991.3."""
    assert 991 == stores_g_per_l(OUTFIT.feed)


def test_six_colonies_of_torftrottel() -> None:
    """6 colonies x 5 kg of stores take 25 kg of sugar at 1.2 kg a kg (torftrottel.at)."""
    # 1 kg + 0.7 L is 588 per mille, 1,280 g/L by the CRC table; published volume 32.5 L
    yard = replace(YARD, colonies=6, target_g=5_000)
    found = due_of(
        yard,
        sugar_permille=588,
        density_g_per_l=1_280,
        stores_g_per_kg_sugar=1_200,
        round_to_ml=1,
    )
    ml = 6 * found.rounds * found.round_ml

    assert 25_000 == pytest.approx(ml * 1_280 * 588 / 1_000_000, rel=0.01)
    assert 32_500 == pytest.approx(ml, rel=0.03)


def test_a_full_autumn_feed() -> None:
    """15 L of 2:1 a colony (Ontario tips, farms.com) make 14.9 kg of stores at 1.12."""
    found = due_of(replace(YARD, target_g=14_865, feeder_ml=15_000))

    # 14,865 / 0.991 = 15,000 ml
    assert (1, 15_000) == (found.rounds, found.round_ml)


def test_one_round() -> None:
    """8 kg of stores: 8,073 ml, rounded up to 8.5 L, in one round of a 10 L feeder."""
    # 8,000,000 / 991 = 8,072.7; 8,500 ml at 2,000 ml a day are 4.25 days = 6,120 min
    found = due(OUTFIT, YARD)

    assert (1, 8_500, 6_120) == (found.rounds, found.round_ml, found.round_gap_min)
    assert 8_000 == found.need_g
    # 8,500 ml x 991 / 1,000 = 8,423 g: nothing is lacking after it
    assert (8_000, 0) == found.lacks_g


def test_rounds_are_alike() -> None:
    """8,073 ml from a 5 L feeder: two rounds of 4,037, rounded up to 4.5 L each."""
    # 4,500 x 1,440 / 2,000 = 3,240 min
    found = due(OUTFIT, replace(YARD, feeder_ml=5_000))

    assert (2, 4_500, 3_240) == (found.rounds, found.round_ml, found.round_gap_min)
    # after one round 4,500 x 991 / 1,000 = 4,459 g of 8,000
    assert (8_000, 3_541, 0) == found.lacks_g


def test_stores_of_rounds_are_floored_once() -> None:
    """Three rounds of 2.5 L make 7,432 g, not three times 2,477."""
    # 9,000 g want 9,082 ml, from a feeder of 2,750 ml in 4 rounds of 2,271, rounded up
    found = due(OUTFIT, replace(YARD, target_g=9_000, feeder_ml=2_750))

    assert (4, 2_500) == (found.rounds, found.round_ml)
    # 2,500 x 991 / 1,000 = 2,477.5: 2,477, 4,955, 7,432 after one, two, three rounds
    assert (9_000, 6_523, 4_045, 1_568, 0) == found.lacks_g


def test_a_round_never_overflows_the_feeder() -> None:
    """Rounding 9,586 ml up to the next litre would spill over a feeder of 9.6 L."""
    # 9,500,000 / 991 = 9,586.3
    found = due_of(replace(YARD, target_g=9_500, feeder_ml=9_600), round_to_ml=1_000)

    assert (1, 9_600) == (found.rounds, found.round_ml)


@pytest.mark.parametrize(("stores_g", "need_g"), [(None, 8_000), (3_000, 5_000), (9_000, 0)])
def test_need_is_what_stores_lack(stores_g: int | None, need_g: int) -> None:
    """Unknown stores count as none; more than enough needs nothing."""
    found = due(OUTFIT, replace(YARD, stores_g=stores_g))

    assert need_g == found.need_g
    assert (need_g > 0) == (found.rounds > 0)


def test_a_heavy_yard_needs_no_feed() -> None:
    """No rounds, no syrup, no spacing, nothing lacking."""
    found = due(OUTFIT, replace(YARD, stores_g=8_000))

    assert (0, 0, 0, (0,)) == (found.rounds, found.round_ml, found.round_gap_min, found.lacks_g)


@pytest.mark.parametrize(
    ("clearing", "boxes", "boards"),
    [
        (Clearing.BOARDS, 15, True),
        (Clearing.BOARDS, 0, False),
        (Clearing.BRUSH, 15, False),
        (Clearing.WARM_BOARD, 15, False),
    ],
)
def test_boards_go_under_honey_boxes(clearing: Clearing, boxes: int, *, boards: bool) -> None:
    """Boards are due where a yard is cleared by them and has boxes to clear."""
    assert boards == due(OUTFIT, replace(YARD, clearing=clearing, boxes=boxes)).boards


@pytest.mark.parametrize("health", [Health.SUSPECT, Health.STANDSTILL])
@pytest.mark.parametrize(
    ("boxes", "agreed", "fed"),
    [(15, False, False), (15, True, False), (0, False, False), (0, True, True)],
)
def test_a_held_yard(health: Health, boxes: int, *, agreed: bool, fed: bool) -> None:
    """Nothing leaves; it is fed and treated only by agreement and with no honey on."""
    yard = replace(YARD, health=health, boxes=boxes, feed_agreed=agreed, clearing=Clearing.BOARDS)
    found = due(OUTFIT, yard)

    assert (False, False) == (found.boards, found.take_off)
    assert (fed, fed) == (found.strips, found.rounds == 1)


@pytest.mark.parametrize("health", [Health.SOUND, Health.WATCH])
def test_a_yard_that_is_not_held(health: Health) -> None:
    """Sound and watched yards are due everything."""
    found = due(OUTFIT, replace(YARD, health=health))

    assert (True, True, 1) == (found.take_off, found.strips, found.rounds)


@pytest.mark.parametrize("health", [Health.SOUND, Health.STANDSTILL])
def test_a_yard_without_colonies_is_due_nothing(health: Health) -> None:
    """No colonies, no boards, no take-off, no strips, no syrup."""
    yard = replace(
        YARD, colonies=0, boxes=0, health=health, feed_agreed=True, clearing=Clearing.BOARDS
    )
    found = due(OUTFIT, yard)

    assert (False, False, False, 0) == (found.boards, found.take_off, found.strips, found.rounds)


def test_how_long_fondant_lasts() -> None:
    """2 kg of fondant last a strong colony 4 days at 0.5 kg a day (bienenundnatur.de)."""
    assert 4 * 1_440 == lasts_min(OUTFIT, 2_000)
    # 2,100 x 1,440 / 500 = 6,048; one gram is 2.88 min, cut to 2
    assert 6_048 == lasts_min(OUTFIT, 2_100)
    assert 2 == lasts_min(OUTFIT, 1)


def test_boxes_come_off_in_whole_boxes() -> None:
    """15 boxes on 10 colonies: 3 after 2 colonies, 6 more after 4 more, the last 6 with 4."""
    # ceil(2 x 1.5) = 3, ceil(6 x 1.5) = 9, 15
    assert [3, 6, 6] == [taken(15, 10, 0, 2), taken(15, 10, 2, 6), taken(15, 10, 6, 10)]


@given(
    total=st.integers(0, 200),
    colonies=st.integers(1, 80),
    cuts=st.lists(st.integers(0, 80), max_size=6),
)
def test_differenced_boxes_add_up(total: int, colonies: int, cuts: list[int]) -> None:
    """However a yard is split, all of its boxes come off once, and never fewer than none."""
    stops = sorted({0, colonies, *(min(cut, colonies) for cut in cuts)})
    lots = [taken(total, colonies, a, b) for a, b in pairwise(stops)]

    assert total == sum(lots)
    assert all(boxes >= 0 for boxes in lots)


@given(target=st.integers(0, 40_000), feeder=st.integers(100, 20_000), step=st.integers(1, 2_000))
def test_the_rounds_make_the_need(target: int, feeder: int, step: int) -> None:
    """All rounds together make the stores wanted; each fits the feeder; one less is too few."""
    found = due_of(replace(YARD, target_g=target, feeder_ml=feeder), round_to_ml=step)

    assert found.round_ml <= feeder
    assert 0 == found.lacks_g[-1]
    assert sorted(found.lacks_g, reverse=True) == list(found.lacks_g)
    assert found.rounds == 0 or (found.rounds - 1) * feeder * 991 < found.need_g * 1_000


def test_the_outfit_of_these_tests_is_what_the_comments_say() -> None:
    """The arithmetic above leans on these figures."""
    outfit: Outfit = OUTFIT

    assert (667, 1_327, 1_120) == (
        outfit.feed.sugar_permille,
        outfit.feed.density_g_per_l,
        outfit.feed.stores_g_per_kg_sugar,
    )
    assert (2_000, 500, 500) == (
        outfit.feed.uptake_ml_per_day,
        outfit.feed.day_use_g,
        outfit.feed.round_to_ml,
    )


@pytest.mark.parametrize("boxes", [0, 1, 40])
def test_honey_in_the_boxes_is_no_stores(boxes: int) -> None:
    """What goes to the honey house feeds nobody: the need is the same with none and with forty."""
    assert 8_000 == due_of(replace(YARD, boxes=boxes, target_g=8_000, stores_g=None)).need_g
