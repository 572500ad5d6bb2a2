"""The map's words for dates, loads and jobs."""

import pytest

from runplanner.daybook.plan import Undone
from runplanner.daybook.trip import Aboard, Action, Job
from runplanner.paperwork.lists.undone_list import work_words
from runplanner.paperwork.map.words import (
    aboard,
    day_short,
    job_done,
    kg,
    named,
    spell,
)
from tests.outfits import an_outfit


def test_a_day_near_by_is_short() -> None:
    """Day 0 is Monday, 1 March 2027: weekday and day are enough; months are crossed."""
    assert "Tue 2" == day_short(an_outfit(), 1)
    assert "Thu 1" == day_short(an_outfit(), 31)


def test_weight_rounds_up() -> None:
    """A gram over is a kilogram more; no mark parts thousands, as on the driver's paper."""
    assert ["0 kg", "1 kg", "1001 kg"] == [kg(0), kg(1), kg(1_000_001)]


def test_work_rounds_up_to_minutes() -> None:
    """A second over is a minute more."""
    assert ["0 min", "1 min", "1 h 00 min", "2 h 01 min"] == [
        spell(0), spell(1), spell(3_600), spell(7_201)
    ]  # fmt: skip


def test_goods_aboard_are_listed() -> None:
    """Everything aboard has its words; an empty truck says so."""
    full = Aboard(1, 2, 50_000, 4, 5, 6, 7, 1, 1, 1, 1)
    empty = Aboard(0, 0, 0, 0, 0, 0, 0, 60_000, 1, 1, 1)

    assert (
        "1 honey box, 2 brood boxes, 50 L of syrup, 4 fondant blocks, 5 boards, 6 strips, 7 feeders"
    ) == aboard(full)
    assert "nothing but empty gear" == aboard(empty)


@pytest.mark.parametrize(
    ("action", "words"),
    [
        (Action(Job.BOARDS, 8, pieces=8), "boards on, 8 colonies"),
        (Action(Job.TAKE_OFF, 1, boxes=1), "take-off, 1 colony, 1 box"),
        (Action(Job.BLOCK, 8, pieces=16), "16 fondant blocks, 8 colonies"),
        (Action(Job.FEED, 8, round=2, ml=40_000), "syrup round 2, 8 colonies, 40 L"),
        (Action(Job.STRIPS, 8, pieces=16), "strips, 8 colonies"),
        (Action(Job.FEEDERS, 8, feeders_off=8), "feeders off, 8 feeders, 8 colonies"),
    ],
)
def test_jobs_done(action: Action, words: str) -> None:
    """Each job says what was done to how many."""
    assert words == job_done(action)


def test_undone_jobs_have_names() -> None:
    """The list of undone work speaks the trade's words; blocks that lack are days without cover."""
    words = ["boards on", "take-off", "days", "syrup", "strips", "wet boxes up", "wet boxes down"]
    left = [Undone("yard1", job, 4, 0, ()) for job in Job]
    left[2] = Undone("yard1", Job.BLOCK, 0, 0, (), colony_days=8)
    assert [
        "8 colony-days without cover" if job == "days" else f"{job}, 4 colonies"
        for job in [*words, "feeders off"]
    ] == [work_words(one) for one in left]


def test_names_in_sentences_are_short_and_isolated() -> None:
    """A long or right-to-left name cannot take over the sentence."""
    assert "\u2068Mill Lane\u2069" == named("Mill Lane")
    assert 50 == len(named("x" * 10_000))
