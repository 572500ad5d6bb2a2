"""How many boxes sooner a driver stops where syrup that may not be poured stays aboard."""

from dataclasses import replace

from runplanner.changes.cargo.loads import loaded, overloads
from runplanner.changes.counts.counts import as_counted
from runplanner.changes.draft import Draft
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Against, Call, Job, Shift, Trip
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.driver.manifest import manifest
from runplanner.paperwork.driver.manifest_page import manifest_page
from runplanner.paperwork.driver.sooner import boxes_sooner, sooner_words
from tests.outfits import an_outfit
from tests.paperwork.plans import Round, Stop, a_shift, block, feed, small_plan, strips, take_off
from tests.rehearsal.small import shared_plan


def day() -> tuple[Plan, Shift, Trip]:
    """Two yards of 10 boxes of 50 kg, each with 113 kg of syrup and strips, on one trip."""
    plan = shared_plan()
    shift = plan.shifts[0]
    return plan, shift, shift.trips[0]


def test_by_the_mass_of_what_stays_and_the_lightest_box() -> None:
    """85 L and 20 strips are 112,995 g: three boxes of 50 kg, or five of 25 kg of a later yard."""
    plan, _, trip = day()
    first, second = trip.yards()
    light = tuple(
        replace(yard, box_g=25_000) if yard.id == second.yard else yard
        for yard in plan.outfit.yards
    )

    assert 3 == boxes_sooner(plan.outfit, trip, first)
    assert 5 == boxes_sooner(replace(plan.outfit, yards=light), trip, first)
    assert 0 == boxes_sooner(plan.outfit, *replace_actions(trip, second, ()))


def replace_actions(trip: Trip, call: Call, actions: tuple[Action, ...]) -> tuple[Trip, Call]:
    """A trip on which one call does something else."""
    new = replace(call, actions=actions)
    return replace(trip, calls=tuple(new if one is call else one for one in trip.calls)), new


def test_all_that_a_stop_gives_counts() -> None:
    """Feeders, boards, blocks and wet boxes ride home as well where it is left out."""
    plan, _, trip = day()
    kit, empty_g = plan.outfit.kit, plan.outfit.boxes[0].empty_g
    for action, each_g in (
        (Action(Job.BLOCK, 10, pieces=400), kit.block_g),
        (Action(Job.BOARDS, 10, pieces=400), kit.board_g),
        (Action(Job.FEED, 10, round=1, feeders=400), kit.feeder_g),
        (Action(Job.WET_UP, 10, wet=400), 2 * empty_g),
    ):
        told, first = replace_actions(trip, trip.yards()[0], (action,))
        assert -(-400 * each_g // 50_000) == boxes_sooner(plan.outfit, told, first)


def test_the_words() -> None:
    """At a take-off here and later, at a round of feed later, at the last such stop not at all.

    Only what the stop was to get is named.
    """
    plan, _, trip = day()
    first, second = trip.yards()
    assert (
        "Not all off, or left out: no syrup, no strips, and 3 boxes fewer, here and at later stops."
    ) == sooner_words(plan, trip, first)
    for without, kept in ((Job.STRIPS, "no syrup"), (Job.FEED, "no strips")):
        some = tuple(one for one in first.actions if one.job is not without)
        words = sooner_words(plan, *replace_actions(trip, first, some))
        assert words.startswith(f"Not all off, or left out: {kept}, and ")
    block = (first.actions[0], Action(Job.BLOCK, 10, pieces=10))
    assert "Not all off, or left out: 1 box fewer, here and at later stops." == sooner_words(
        plan, *replace_actions(trip, first, block)
    )
    feed = tuple(one for one in first.actions if one.job is not Job.TAKE_OFF)
    assert "Left out: 3 boxes fewer at later stops." == sooner_words(
        plan, *replace_actions(trip, first, feed)
    )
    feed = tuple(one for one in second.actions if one.job is not Job.TAKE_OFF)
    assert "" == sooner_words(plan, *replace_actions(trip, second, feed))


def test_syrup_of_a_later_stop_that_day_waits_for_the_honey_too() -> None:
    """Said at the take-off, and at the stop that pours it; on another day planning again knows.

    Where colonies have no block until then, whoever cannot take all off rings.
    """
    outfit = an_outfit()
    rounds = (
        Stop(1, 60, (take_off(10, 15), block(10), strips(10))),
        Stop(2, 60, (take_off(10, 15),)),
        Stop(1, 30, (feed(10, 80),)),
        Stop(2, 30, (feed(10, 80), strips(10))),
    )
    shift = a_shift(outfit, 2, [Round(f"t{at}", (stop,)) for at, stop in enumerate(rounds)])
    next_day = a_shift(outfit, 3, [Round("v", (Stop(2, 30, (feed(10, 80, 2),)),))])
    plan = replace(small_plan(), outfit=outfit, shifts=(shift, next_day))

    assert [
        (
            "Not all off, or left out: no strips, no syrup later today, and 2 boxes fewer, here "
            "and at later stops."
        ),
        "Not all off, or left out: no syrup later today (ring base), no strips later today.",
        "Not all off earlier today: no syrup.",
        "Not all off earlier today: no syrup, no strips.",
        "",
    ] == [
        sooner_words(plan, trip, call)
        for each in plan.shifts
        for trip in each.trips
        for call in trip.yards()
    ]
    assert [
        "! not all off, or left out: no strips, no syrup later today",
        "! not all off, or left out: no syrup later today (ring base), no strips later today",
        "! not all off earlier today: no syrup",
        "! not all off earlier today: no syrup, no strips",
    ] == [line for line in phone_text(plan, 2).splitlines() if "not all off" in line[:20]]


def test_the_driver_s_papers_say_so() -> None:
    """Below the boxes to stop at, and behind them on the phone, with what is not to go in."""
    plan, shift, trip = day()
    sheet = manifest(plan, shift, trip)

    assert "3 boxes fewer" in sheet.steps[1].sooner
    assert sheet.steps[1].sooner in manifest_page(sheet)
    phone = "max 11 full aboard (3 fewer if not all off)\n! not all off, or left out: no syrup, no "
    assert f"{phone}strips" in phone_text(plan, shift.day)


def test_the_phone_says_so_of_stops_that_only_feed() -> None:
    """As the paper does, while a later stop takes boxes; of the last such stop neither does."""
    plan, shift, trip = day()
    for call, told in zip(trip.yards(), (True, False), strict=True):
        feed = tuple(one for one in call.actions if one.job is not Job.TAKE_OFF)
        fed, _ = replace_actions(trip, call, feed)
        phone = phone_text(replace(plan, shifts=(replace(shift, trips=(fed,)),)), shift.day)
        assert told is ("strips 20 (left out: 3 boxes fewer later)\n" in phone)
        assert told is ("(left out" in phone)


def test_a_load_that_does_not_hold_is_told_on_paper_and_phone() -> None:
    """Whoever is to ring; not where fewer boxes make it hold, nor once the stop is over."""
    plan, shift, trip = day()
    first, second = trip.yards()
    words = "lanned load does not hold: ring the office"

    def told(call: Call, now: int) -> list[bool]:
        calls = tuple(call if one.yard == call.yard else one for one in trip.calls)
        out = replace(trip, calls=calls)
        new = replace(plan, shifts=(replace(shift, trips=(out,)),), now_min=now)
        (sheet,) = (manifest(new, one, out) for one in new.shifts)
        papers = (f"P{words}." in sheet.steps[2].watch, f"! p{words}" in phone_text(new, shift.day))
        return [*papers, any(words in step.watch + step.sooner for step in sheet.steps)]

    heavy = replace(second, against=(Against.LOAD,))
    assert [True] * 3 == told(heavy, first.start_min)
    few = replace(heavy, boxes_limit=first.boxes() + second.boxes() - 1)
    for call, now in ((second, 0), (few, 0), (heavy, second.end_min)):
        assert [False] * 3 == told(call, now)


def test_who_stops_so_much_sooner_is_within_the_load() -> None:
    """By what planning again says of loads: 11 - 3 = 8 boxes at the first stop, 21 - 3 in all.

    With the stops' own numbers, 11 and 21, there is too much aboard after the second.
    """
    plan, shift, trip = day()
    first, second = trip.yards()

    def overloaded(here: int, there: int) -> list[str]:
        draft = Draft(plan, plan.outfit, 0)
        for call, boxes, colonies in ((first, here, 5), (second, there, 10)):
            yard = plan.outfit.yard(call.yard)
            (now,) = draft.plan.shifts[0].trips
            draft = as_counted(draft, now, yard, {"colonies": colonies, "boxes": boxes})
        (now,) = draft.plan.shifts[0].trips
        left = loaded(plan.outfit, shift, now)
        return [call.yard for call in overloads(plan.outfit, shift, now, 0, left)]

    assert [] == overloaded(8, 10)
    assert [second.yard] == overloaded(11, 10)
