"""Tests of what a late crew may skip."""

from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action
from runplanner.outfit.outfit import Deadline, Outfit
from runplanner.outfit.yards import Clearing
from runplanner.paperwork.driver.if_late import NOTHING, if_late
from tests.outfits import an_outfit, daily
from tests.paperwork.plans import (
    Round,
    Stop,
    a_shift,
    block,
    boards,
    feed,
    small_plan,
    strips,
    take_off,
)


def late(
    outfit: Outfit, stops: tuple[Stop, ...], at: int, day: int = 2, *before: Stop
) -> tuple[str, ...]:
    """What may be skipped at stop ``at`` of ``stops`` on ``day``, after ``before`` on day 0."""
    shift = a_shift(outfit, day, [Round("t", stops)])
    first = (a_shift(outfit, 0, [Round("u", before)]),) if before else ()
    plan = replace(small_plan(), outfit=outfit, shifts=(*first, shift))
    return if_late(plan, shift, shift.trips[0], at)


def test_the_least_harm_comes_first() -> None:
    """At the load call: boards before take-off, take-off before syrup, syrup before strips."""
    outfit = an_outfit([(10, 0), (12, 0)])
    stops = (Stop(1, 30, (strips(10), feed(10, 50, 2))), Stop(2, 30, (boards(10),)))

    assert ("Skip the boards at stop 2.", "Skip syrup round 2 at stop 1.") == late(outfit, stops, 0)


def test_here_comes_before_elsewhere() -> None:
    """At a stop its own jobs are named first, however the harm compares."""
    outfit = an_outfit([(10, 0), (12, 0)])
    stops = (Stop(1, 30, (strips(10),)), Stop(2, 30, (boards(10),)))

    assert ("Skip the strips here.", "Skip the boards at stop 2.") == late(outfit, stops, 1)


def test_the_same_is_not_proposed_twice() -> None:
    """Boards in two lots are one thing to leave; what comes next is another thing or nothing."""
    outfit = an_outfit([(10, 0), (12, 0)])
    lots = Stop(2, 30, (boards(3), boards(7)))

    assert ("Skip the boards at stop 2.",) == late(outfit, (Stop(1, 30, (block(10),)), lots), 0)
    assert ("Skip the boards at stop 2.", "Skip the strips at stop 1.") == late(
        outfit, (Stop(1, 30, (strips(10),)), lots), 0
    )


def test_a_take_off_may_stop_early() -> None:
    """With blocks along, open no more; every opened colony keeps its block, if it wants one."""
    outfit = an_outfit()
    full = replace(outfit, yards=tuple(replace(one, stores_g=8_000) for one in outfit.yards))
    stops = (Stop(1, 60, (take_off(10, 15), block(10))),)

    assert ("Open no more colonies; a block on each one opened.",) == late(outfit, stops, 1)
    twice = (Stop(1, 60, (take_off(10, 15), replace(block(10), pieces=20))),)
    assert ("Open no more colonies; 2 blocks on each one opened.",) == late(outfit, twice, 1)
    assert ("Open no more colonies.",) == late(full, (Stop(1, 60, (take_off(10, 15),)),), 1)
    assert ("Skip stop 1 whole.",) == late(outfit, stops, 0)


def test_a_take_off_with_syrup_is_never_half_done() -> None:
    """No syrup may enter a yard that still carries honey: once begun, it is all or nothing."""
    outfit = an_outfit()
    stops = (Stop(1, 90, (take_off(10, 15), feed(10, 80))),)

    assert (NOTHING,) == late(outfit, stops, 1)
    assert ("Skip stop 1 whole.",) == late(outfit, stops, 0)


def test_hungry_colonies_are_not_skipped() -> None:
    """Off on day 0 with a block that lasts until day 4: syrup may wait on day 2, not day 3."""
    outfit = an_outfit()
    before = Stop(1, 60, (take_off(10, 15), block(10)))
    stops = (Stop(1, 30, (feed(10, 80),)),)

    # Cover ends on day 4 at 11:23 (395 + 6048 = 6443); "soon" is before the end of tomorrow.
    assert ("Skip the syrup here.",) == late(outfit, stops, 1, 2, before)
    assert (NOTHING,) == late(outfit, stops, 1, 3, before)


def test_a_linked_stop_with_hungry_colonies_is_not_skipped() -> None:
    """Four colonies off on day 0 wait for the rest of the yard: the stop stays."""
    outfit = an_outfit()
    before = Stop(1, 60, (take_off(4, 6), block(4)))
    stops = (Stop(2, 20, (boards(10),)), Stop(1, 90, (take_off(6, 9), feed(10, 80))))

    assert ("Skip the boards here.",) == late(outfit, stops, 1, 3, before)


def test_colonies_off_the_same_day_with_no_block_are_not_skipped() -> None:
    """Bare of stores and spared a block since syrup comes later that day: they have nothing else.

    Nor is their take-off cut short, for no syrup may enter a yard that still carries honey; left
    out whole it leaves nobody bare. With a block each, four days of cover, all may wait.
    """
    outfit = an_outfit()
    outfit = replace(outfit, rules=replace(outfit.rules, same_day_second_trip=True))
    bare = (Stop(1, 60, (take_off(10, 15),)), Stop(1, 30, (feed(10, 80),), wait=300))
    with_blocks = (Stop(1, 60, (take_off(10, 15), block(10))), bare[1])

    assert ("Skip stop 1 whole.",) == late(outfit, bare, 0)
    assert (NOTHING,) == late(outfit, bare, 1)
    assert (NOTHING,) == late(outfit, bare, 2)
    assert ("Open no more colonies; a block on each one opened.", "Skip the syrup at stop 2.") == (
        late(outfit, with_blocks, 1)
    )


def test_a_second_trip_with_their_syrup_is_not_skipped() -> None:
    """Neither at its load call nor at the stop, whatever the first trip of the day was."""
    outfit = an_outfit()
    outfit = replace(outfit, rules=replace(outfit.rules, same_day_second_trip=True))
    shift = a_shift(
        outfit,
        2,
        [
            Round("t", (Stop(1, 60, (take_off(10, 15),)),)),
            Round("u", (Stop(1, 30, (feed(10, 80),)),)),
        ],
    )
    plan = replace(small_plan(), outfit=outfit, shifts=(shift,))
    second = shift.trips[1]

    assert [(NOTHING,)] * 2 == [if_late(plan, shift, second, at) for at in (0, 1)]


def test_a_take_off_that_syrup_of_hungry_colonies_waits_for_is_not_skipped() -> None:
    """Four are off since day 0, with a block until day 4; on day 3 the rest must come off."""
    outfit = an_outfit()
    before = Stop(1, 60, (take_off(4, 6), block(4)))
    stops = (Stop(1, 60, (take_off(6, 9), block(6))),)

    assert [(NOTHING,)] * 2 == [late(outfit, stops, at, 3, before) for at in (0, 1)]
    assert ("Skip stop 1 whole.",) == late(outfit, stops, 0, 2, before)


def test_the_last_day_leaves_no_choice() -> None:
    """On the last allowed day neither take-off, syrup nor strips may be put off."""
    outfit = an_outfit()
    for job in (take_off(10, 15), feed(10, 80, 2), strips(10)):
        assert (NOTHING,) == late(outfit, (Stop(1, 30, (job,)),), 1, 5)


def test_a_priced_deadline_may_be_missed() -> None:
    """Where being late only costs, the job may be put off, but not past the campaign's end."""
    outfit = an_outfit()
    soft = Deadline(4, hard=False)
    season = replace(outfit.season, take_off_by=soft, feed_by=soft, strips_by=soft)
    loose = replace(outfit, season=season)
    stops = (Stop(1, 30, (strips(10),)),)

    assert ("Skip the strips here.",) == late(loose, stops, 1, 4)
    assert (NOTHING,) == late(loose, stops, 1, 5)
    assert (NOTHING,) == late(outfit_by(4), stops, 1, 4)


def outfit_by(day: int, **changes: object) -> Outfit:
    """The test outfit, ``changes`` in all its yards, with a hard last day for syrup and strips."""
    outfit, by = an_outfit(), Deadline(day, hard=True)
    yards = tuple(replace(one, **changes) for one in outfit.yards)  # type: ignore[arg-type]
    season = replace(outfit.season, feed_by=by, strips_by=by)
    return replace(outfit, yards=yards, season=season)


def test_a_take_off_is_not_put_off_past_what_must_follow_it() -> None:
    """Strips and syrup have their last day on day 3, though honey may come off until day 5.

    So it is where they are to follow at a stop of their own.
    """
    outfit = outfit_by(3)
    whole = (Stop(1, 90, (take_off(10, 15), feed(10, 80), strips(10))),)
    apart = (Stop(1, 60, (take_off(10, 15), block(10))), Stop(1, 30, (strips(10),), wait=200))

    assert ("Skip stop 1 whole.",) == late(outfit, whole, 0, 2)
    assert (NOTHING,) == late(outfit, whole, 0, 3)
    assert "Skip stop 1 whole." in late(outfit, apart, 0, 2)
    assert (NOTHING,) == late(outfit, apart, 0, 3)


def test_boards_leave_a_night_before_the_last_day() -> None:
    """Take-off by day 3: boards may wait on day 1, not on day 2; with a brush they may."""
    stops = (Stop(1, 20, (boards(10),)),)
    skipped = ("Skip the boards here.",)

    def by_day_3(day: int, **changes: object) -> tuple[str, ...]:
        outfit = outfit_by(5, clearing=Clearing.BOARDS, finish_by_day=3, **changes)
        after = a_shift(outfit, 3, [Round("v", (Stop(1, 60, (take_off(10, 15), block(10))),))])
        shift = a_shift(outfit, day, [Round("t", stops)])
        plan = replace(small_plan(), outfit=outfit, shifts=(shift, after))
        return if_late(plan, shift, shift.trips[0], 1)

    assert skipped == by_day_3(1)
    assert (NOTHING,) == by_day_3(2)
    assert skipped == by_day_3(2, clearing_else=Clearing.BRUSH)


def test_a_stop_whose_boards_cannot_wait_is_not_left_out_whole() -> None:
    """Two lots of five: the second must be off by day 3, so its boards lie there by day 2.

    The first lot, five colonies on day 2, could wait until day 3; where boards go on beside it,
    they could not.  Less may come off all the same, and a day sooner all may wait.
    """
    outfit = outfit_by(5, clearing=Clearing.BOARDS, finish_by_day=3)
    lot = (take_off(5, 8), block(5))

    def said(day: int, at: int, *jobs: Action) -> tuple[str, ...]:
        after = a_shift(outfit, 3, [Round("v", (Stop(1, 60, lot),))])
        shift = a_shift(outfit, day, [Round("t", (Stop(1, 60, (*lot, *jobs)),))])
        plan = replace(small_plan(), outfit=outfit, shifts=(shift, after))
        return if_late(plan, shift, shift.trips[0], at)

    assert ("Skip stop 1 whole.",) == said(2, 0)
    assert ("Skip stop 1 whole.",) == said(1, 0, boards(5))
    assert (NOTHING,) == said(2, 0, boards(5))
    assert ("Open no more colonies; a block on each one opened.",) == said(2, 1, boards(5))


def test_weather_may_leave_no_later_day() -> None:
    """From day 3 on hives cannot be opened, from day 4 on no syrup poured; strips hang in either.

    A night that is unsettled leaves no take-off before it.
    """
    hours = {"open_spans": daily(480, 1080, range(3)), "feed_spans": daily(360, 1200, range(4))}
    outfit = outfit_by(5, stores_g=7_000, **hours)
    unsettled = daily(1200, 1440, (1, 2))

    assert ("Skip stop 1 whole.",) == late(outfit, (Stop(1, 60, (take_off(10, 15),)),), 0, 1)
    assert (NOTHING,) == late(outfit, (Stop(1, 60, (take_off(10, 15),)),), 0, 2)
    stormy = outfit_by(5, stores_g=7_000, unsettled_spans=unsettled, **hours)
    assert (NOTHING,) == late(stormy, (Stop(1, 60, (take_off(10, 15),)),), 0, 0)
    for job, words in (
        (feed(10, 80), "Skip the syrup here."),
        (strips(10), "Skip the strips here."),
    ):
        assert (words,) == late(outfit, (Stop(1, 30, (job,)),), 1, 2)
        assert (NOTHING,) == late(outfit, (Stop(1, 30, (job,)),), 1, 3)


def test_syrup_leaves_time_for_what_comes_after_it() -> None:
    """8.5 L at 1 L a day are down in 8.5 days, before the next and before strips that forbid feed.

    What begins by 19:30 on day 15 leaves until 7:30 on day 7, when hours have begun. Strips with
    such a ban of 2 days leave that time before syrup that is to follow them.
    """
    outfit = an_outfit(days=16)
    strip = replace(outfit.strips, no_feed_days=2)
    feeding = replace(outfit.feed, uptake_ml_per_day=1_000)
    outfit = replace(outfit, strips=strip, feed=feeding)

    def ahead(job: Action, then: Action, day: int) -> tuple[str, ...]:
        shift = a_shift(outfit, day, [Round("t", (Stop(1, 30, (job,)),))])
        after = a_shift(outfit, 15, [Round("v", (Stop(1, 30, (then,)),))])
        plan = replace(small_plan(), outfit=outfit, shifts=(shift, after))
        return if_late(plan, shift, shift.trips[0], 1)

    for job, then, days in (
        (feed(10, 85, 2), strips(10), 8),
        (feed(10, 85, 2), feed(10, 85, 3), 8),
        (strips(10), feed(10, 85, 2), 2),
    ):
        assert (NOTHING,) == ahead(job, then, 15 - days)
        assert (NOTHING,) != ahead(job, then, 14 - days)


def test_a_block_is_never_skipped() -> None:
    """A block-only stop keeps colonies alive."""
    assert (NOTHING,) == late(an_outfit(), (Stop(1, 30, (block(10),)),), 1)


def test_each_stop_of_a_plan_has_an_answer(  # a guard: an empty line on paper helps nobody
) -> None:
    """Whatever the stop, the crew is told something."""
    plan: Plan = small_plan()
    for shift in plan.shifts:
        for trip in shift.trips:
            for stop in range(len(trip.yards()) + 1):
                assert all(if_late(plan, shift, trip, stop))
