"""Tests of luck: closed forms, pairing, and nothing where there is no spread."""

from dataclasses import replace
from statistics import NormalDist, fmean, pstdev

import pytest

from runplanner.errors import ScenarioError
from runplanner.outfit.outfit import Deadline
from runplanner.outfit.safety import Safety, box_g_at, given_back, plain, safe
from runplanner.rehearsal.luck import NO_LUCK, USUAL, Luck, as_it_was, drawn
from runplanner.rehearsal.play import Rehearsal
from tests.outfits import a_yard, an_outfit
from tests.rehearsal.small import fate, small_outfit, small_plan


def many_yards(count: int) -> list[tuple[int, int]]:
    """Spots for as many yards."""
    return [(number + 1, 0) for number in range(count)]


def test_without_spread_all_is_as_guessed() -> None:
    """No luck: the fate is the facts."""
    outfit = small_outfit()

    assert fate(outfit) == drawn(outfit, NO_LUCK, 1, 0)
    assert outfit == as_it_was(outfit, drawn(outfit, NO_LUCK, 1, 0))


def test_a_play_has_a_stream_of_its_own() -> None:
    """The same seed and number give the same fate; another number another."""
    outfit = small_outfit()

    assert drawn(outfit, USUAL, 1, 3) == drawn(outfit, USUAL, 1, 3)
    assert drawn(outfit, USUAL, 1, 3) != drawn(outfit, USUAL, 1, 4)
    assert drawn(outfit, USUAL, 1, 3) != drawn(outfit, USUAL, 2, 3)


def test_spreads_are_those_asked_for() -> None:
    """Of 2,000 yards: 100 boxes spread by 20 %, 16 kg by 10 %; three standard errors allowed.

    The standard error of a mean is s/sqrt(n) = 20/44.7 = 0.45, of a deviation s/sqrt(2n) = 0.32;
    for masses 1,600/44.7 = 36 and 25.
    """
    yards = [a_yard(n + 1, boxes=100, days=1) for n in range(2_000)]
    outfit = replace(an_outfit(many_yards(1), yards[:1], days=1), yards=tuple(yards))
    one = drawn(outfit, Luck(200, 1000, 0, 0, 0), 1, 0)

    assert pytest.approx(100, abs=1.35) == fmean(one.boxes)
    assert pytest.approx(20, abs=0.96) == pstdev(one.boxes)
    assert pytest.approx(16_000, abs=108) == fmean(one.box_g)
    assert pytest.approx(1_600, abs=75) == pstdev(one.box_g)


def test_minutes_have_mean_one_and_their_spread() -> None:
    """4,000 stops, spread 30 %: mean 1,000 within 3 x 300/63 = 14, deviation within 30."""
    yards = [a_yard(n + 1, days=1) for n in range(4_000)]
    outfit = replace(an_outfit(many_yards(1), yards[:1], days=1), yards=tuple(yards))
    minutes = drawn(outfit, Luck(0, 0, 300, 0, 0), 1, 0).work_permille[0]

    assert pytest.approx(1_000, abs=14) == fmean(minutes)
    assert pytest.approx(300, abs=30) == pstdev(minutes)
    assert 0 < min(minutes)


def test_more_spread_shuts_no_fewer_days() -> None:
    """With one seed a higher chance shuts every day that a lower one shuts."""
    outfit = small_outfit()
    for play in range(20):
        few = drawn(outfit, Luck(0, 0, 0, 100, 100), 1, play)
        more = drawn(outfit, Luck(0, 0, 0, 400, 400), 1, play)
        for mild, hard in ((few.shut, more.shut), (few.out, more.out)):
            assert all(
                b or not a
                for x, y in zip(mild, hard, strict=True)
                for a, b in zip(x, y, strict=True)
            )


def test_a_forecast_s_own_doubt_counts() -> None:
    """Days told as fully sure never shut, days without hope always do; areas go together."""
    outfit = small_outfit()
    yards = tuple(replace(y, sure_permille=(1000, 0, 1000, 0)) for y in outfit.yards)
    told = ((False, False), (True, True), (False, False), (True, True))

    assert told == drawn(replace(outfit, yards=yards), USUAL, 1, 0).shut
    never = replace(USUAL, shut_permille=0)  # where no forecast tells
    assert told == drawn(replace(outfit, yards=yards), never, 1, 0).shut
    assert ((False, False),) * 4 == drawn(outfit, never, 1, 0).shut


def test_a_shut_day_has_no_fair_hours() -> None:
    """What is shut is gone from both kinds of hours, and the truck that broke is out."""
    outfit = small_outfit()
    told = fate(
        outfit,
        shut=((False, True), *((False, False),) * 3),
        out=((False,), (True,), (False,), (False,)),
    )
    was = as_it_was(outfit, told)

    assert outfit.yards[0] == was.yards[0]
    assert outfit.yards[1].open_spans[1:] == was.yards[1].open_spans
    assert outfit.yards[1].feed_spans[1:] == was.yards[1].feed_spans
    assert (1,) == was.trucks[0].out_days


def test_the_load_quantile_is_the_normal_one() -> None:
    """16 kg with 10 %: at 97.5 % 16,000 + 1.959964 x 1,600 = 19,135.94, so 19,136 g.

    1.959964 is the tabled quantile of the standard normal (any statistics table).
    """
    assert 19_136 == box_g_at(a_yard(1), 975)
    assert 16_000 == box_g_at(a_yard(1), 500)
    assert 0.9 == pytest.approx(NormalDist(16_000, 1_600).cdf(box_g_at(a_yard(1), 900)), abs=1e-4)


def test_no_day_is_kept_in_hand_that_is_not_there() -> None:
    """Two days to work in leave two to spare, of nine asked for; all come back."""
    outfit = small_outfit()
    early = replace(outfit, season=replace(outfit.season, strips_by=Deadline(1, hard=True)))
    kept = safe(early, Safety(500, 0, 9))

    assert (0, 0) == (kept.season.strips_by.day, kept.yards[0].finish_by_day)
    assert early == plain(kept)


def test_a_priced_deadline_stays_as_it_was_typed() -> None:
    """Late by the typed day is what costs: of four days only the hard ones end a day sooner."""
    outfit = small_outfit()
    priced = replace(outfit, season=replace(outfit.season, take_off_by=Deadline(3, hard=False)))
    kept = safe(priced, Safety(500, 0, 1))

    assert (3, 2, 2) == (
        kept.season.take_off_by.day, kept.season.strips_by.day, kept.season.feed_by.day,
    )  # fmt: skip
    assert {2} == {yard.finish_by_day for yard in kept.yards}
    assert priced == plain(kept)


def test_figures_in_hand_of_other_yards_are_refused() -> None:
    """A plan file in which somebody cut a yard out of them."""
    kept = safe(small_outfit(), Safety(975))
    assert kept.in_hand is not None
    cut = replace(kept, in_hand=replace(kept.in_hand, box_g=(1,)))

    with pytest.raises(ScenarioError, match="in_hand"):
        plain(cut)


def test_true_masses_are_drawn_round_the_typed_one() -> None:
    """A plan that counts boxes heavier meets the same honey as one that does not."""
    plan = small_plan()
    kept = replace(plan, outfit=safe(plan.outfit, Safety(975, 30, 1)))

    assert plan.outfit == Rehearsal(kept).plain()
    assert drawn(plan.outfit, USUAL, 1, 0) == drawn(Rehearsal(kept).plain(), USUAL, 1, 0)


def test_what_is_kept_in_hand_is_in_the_facts() -> None:
    """Heavier boxes, an earlier evening, earlier last days; given back but for the boxes."""
    outfit = small_outfit()
    kept = safe(outfit, Safety(975, 30, 1))

    assert {19_136} == {yard.box_g for yard in kept.yards}
    assert outfit.hours.end_min - 30 == kept.hours.end_min
    assert outfit.season.feed_by.day - 1 == kept.season.feed_by.day
    assert {2} == {yard.finish_by_day for yard in kept.yards}
    back = given_back(outfit, kept)
    assert {19_136} == {yard.box_g for yard in back.yards}
    assert (outfit.hours, outfit.season) == (back.hours, back.season)
    assert safe(outfit, Safety(975)) == given_back(outfit, safe(outfit, Safety(975)))
    assert outfit == safe(outfit, Safety()) == plain(kept) == given_back(outfit, outfit)
    assert "load 97.5 %, slack 30 min, spare 1 d" == Safety(975, 30, 1).words()
