"""Tests of the shopping list, the arithmetic in comments."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Mixing, Plan, Undone
from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Assumed
from runplanner.outfit.stores import Counted
from runplanner.outfit.yards import Health
from runplanner.paperwork.lists.shopping import Item, shopping, shopping_page
from runplanner.phrase import phrase, verbatim
from tests.paperwork.pages import Page
from tests.paperwork.plans import (
    Round,
    Stop,
    a_shift,
    eight_stop_plan,
    hostile_plan,
    small_plan,
    strips,
    take_off,
)


def items(plan: Plan) -> dict[str, Item]:
    """The list by what it names."""
    return {item.what: item for item in shopping(plan)}


def test_sugar_and_water_for_the_syrup_mixed() -> None:
    """90 L of 1.327 kg/L are 119.43 kg, 66.7 % sugar: 79.66 -> 80 kg, four bags; 39.77 -> 40 L.

    A kilogram of water is a litre, near enough for a tap.
    """
    found = items(small_plan())

    assert ("80 kg", "4 bags of 25 kg = 100 kg", "Mon 1 Mar") == (
        found["Sugar"].need, found["Sugar"].buy, found["Sugar"].by,
    )  # fmt: skip
    assert "40 L" == found["Water"].need
    assert ("90 L", "mix 90 L") == (found["Syrup 2:1"].need, found["Syrup 2:1"].buy)


def test_one_gram_over_a_bag_is_another_bag() -> None:
    """25 kg of sugar are one bag; 25.001 kg are two: nobody sells a gram."""
    plan = small_plan()
    feed = replace(plan.outfit.feed, density_g_per_l=1_000, sugar_permille=1_000)
    outfit = replace(plan.outfit, feed=feed)

    def bags(ml: int) -> str:
        mixed = replace(plan, outfit=outfit, mixing=(Mixing(0, 60, "bob", ml),))
        return items(mixed)["Sugar"].buy

    assert "1 bag of 25 kg = 25 kg" == bags(25_000)
    assert "2 bags of 25 kg = 50 kg" == bags(25_001)


def test_sugar_in_stock_and_syrup_ready_are_said() -> None:
    """What stands there is named beside what the plan uses."""
    plan = small_plan()
    feed = replace(plan.outfit.feed, sugar_g=500_000, ready_ml=30_000)
    found = items(replace(plan, outfit=replace(plan.outfit, feed=feed)))

    assert "500 kg in stock or on order" == found["Sugar"].note
    assert "nothing more" == found["Sugar"].buy
    assert "30 L stand ready" == found["Syrup 2:1"].note


def test_sugar_is_bought_beyond_what_is_in_stock() -> None:
    """80 kg for 90 L; 30 of them are there, so two bags do for the other 50, 31 kg for three."""
    plan = small_plan()

    def buy(stock_g: int) -> str:
        feed = replace(plan.outfit.feed, sugar_g=stock_g)
        return items(replace(plan, outfit=replace(plan.outfit, feed=feed)))["Sugar"].buy

    # 90 L x 1.327 x 0.667 = 79.66 kg
    assert "2 bags of 25 kg = 50 kg" == buy(30_000)
    assert "3 bags of 25 kg = 75 kg" == buy(29_000)
    assert "nothing more" == buy(80_000)


def test_what_is_used_by_now_is_in_stock_no_more() -> None:
    """500 kg at first; 20 L x 1.327 x 0.667 = 17.7 kg are mixed by now; 20 of 30 strips are in.

    Of 100 L ready and 20 mixed 90 are poured; 10 of 50 blocks are given, 7 go to the yard of
    day 3, for which nothing is loaded yet.
    """
    plan = small_plan()
    feed = replace(plan.outfit.feed, sugar_g=500_000, ready_ml=100_000)
    strips, kit = replace(plan.outfit.strips, stock=30), replace(plan.outfit.kit, blocks_owned=50)
    outfit = replace(plan.outfit, feed=feed, strips=strips, kit=kit)
    shifts = tuple(
        replace(shift, trips=tuple(replace(trip, driven=True) for trip in shift.trips))
        for shift in plan.shifts
    )
    mixing = (Mixing(-60, 0, "bob", 20_000), Mixing(5_000, 5_060, "bob", 20_000))
    later = replace(plan, outfit=outfit, mixing=mixing, now_min=4_000, shifts=shifts)
    found = items(later)

    assert "482 kg in stock or on order, beside 18 kg used by now" == found["Sugar"].note
    assert found["Strips (amitraz)"].note.startswith(
        "10 in stock or on order, beside 20 used by now; "
    )
    assert "30 L stand ready, beside 90 L used by now" == found["Syrup 2:1"].note
    blocks = found["Fondant blocks"]
    assert "40 in stock or on order, beside 10 used by now" == blocks.note
    assert ("17 (36 kg)", "7 blocks") == (blocks.need, blocks.buy)
    bare = items(replace(later, outfit=replace(outfit, feed=replace(feed, ready_ml=0))))
    assert "0 L stand ready, beside 90 L used by now" == bare["Syrup 2:1"].note


def under_way(now_min: int, left_ml: int) -> Plan:
    """The small plan with all shifts out by now, the trip that feeds with more syrup aboard."""
    plan = small_plan()
    shifts = tuple(
        replace(
            shift,
            trips=tuple(
                replace(trip, driven=True, left=replace(trip.calls[0].after, ml=left_ml))
                if any(one.job is Job.FEED for call in trip.calls for one in call.actions)
                else replace(trip, driven=True)
                for trip in shift.trips
            ),
        )
        for shift in plan.shifts
    )
    return replace(plan, shifts=shifts, now_min=now_min)


def test_syrup_aboard_does_not_stand_in_the_store() -> None:
    """160 L left with the trip that pours 90; 70 are in the store again once it is home.

    Once the yard is fed 70 are still aboard, and so they are where the trip ends elsewhere, with
    no other trip of its truck's begun since.
    """
    plan = under_way(0, 160_000)
    ready = replace(plan.outfit.feed, ready_ml=200_000)
    plan = replace(plan, outfit=replace(plan.outfit, feed=ready), mixing=())
    (trip,) = (trip for shift in plan.shifts for trip in shift.trips if trip.left)

    def note(now_min: int) -> str:
        return items(replace(plan, now_min=now_min))["Syrup 2:1"].note

    start, end = trip.calls[0].start_min, trip.calls[-1].end_min
    assert "200 L stand ready" == note(start - 1)
    assert "40 L stand ready, beside 160 L aboard trucks" == note(start)
    fed = "40 L stand ready, beside 70 L aboard trucks and 90 L used by now"
    assert fed == note(trip.calls[1].end_min)
    assert "110 L stand ready, beside 90 L used by now" == note(end)
    elsewhere = replace(plan.outfit.feed_store, place=plan.outfit.feed_store.place + 1)
    plan = replace(plan, outfit=replace(plan.outfit, feed_store=elsewhere))
    assert fed == note(end)
    last = next(one for shift in plan.shifts[2:] for one in shift.trips)
    assert "110 L stand ready, beside 90 L used by now" == note(last.calls[0].start_min)


def test_strips_and_blocks_on_the_road_are_not_in_store() -> None:
    """30 strips owned, 20 for the yard of day 1; 50 blocks, seven of the 17 for that of day 3."""
    plan = under_way(0, 90_000)
    strips = replace(plan.outfit.strips, stock=30)
    kit = replace(plan.outfit.kit, blocks_owned=50)
    plan = replace(plan, outfit=replace(plan.outfit, strips=strips, kit=kit))
    out = {trip.id: trip.calls[0].start_min for shift in plan.shifts for trip in shift.trips}

    def note(what: str, trip: str) -> str:
        return items(replace(plan, now_min=out[trip]))[what].note

    assert note("Strips (amitraz)", "0302-truck1-0001").startswith(
        "10 in stock or on order, beside 20 aboard trucks; "
    )
    assert (
        "33 in stock or on order, beside 7 aboard trucks and 10 used by now"
    ) == note("Fondant blocks", "0304-truck1-0001")  # fmt: skip


def test_what_is_used_by_now_is_not_bought_again() -> None:
    """Nobody typed a stock: of 40 L half is mixed, which leaves one bag; all 20 strips are in.

    20 more of a kind given twice are still to be bought.
    """
    mixing = (Mixing(-60, 0, "bob", 20_000), Mixing(9_000, 9_060, "bob", 20_000))
    plan = replace(under_way(8_000, 0), mixing=mixing)
    found = items(plan)
    thymol = replace(plan.outfit.strips, substance="thymol")
    twice = items(replace(plan, outfit=replace(plan.outfit, strips=thymol)))

    # 20 L x 1.327 x 0.667 = 17.7 kg, of 35.4 in all
    assert ("36 kg", "1 bag of 25 kg = 25 kg") == (found["Sugar"].need, found["Sugar"].buy)
    strips = found["Strips (amitraz)"]
    assert ("20", "nothing more") == (strips.need, strips.buy)
    assert "20 or more" == twice["Strips (thymol)"].buy


def test_bought_syrup_needs_no_sugar() -> None:
    """Ready-made: 90 L used, 30 L there, 60 L more; with 90 L there nothing more."""
    plan = replace(small_plan(), mixing=())

    def buy(ready_ml: int) -> str:
        feed = replace(plan.outfit.feed, bought=True, ready_ml=ready_ml)
        found = items(replace(plan, outfit=replace(plan.outfit, feed=feed)))
        assert "Sugar" not in found
        return found["Syrup 2:1, ready made"].buy

    assert ("60 L more", "nothing more") == (buy(30_000), buy(90_000))
    named = replace(plan.outfit.feed, bought=True, name=verbatim("ready-made, 72 %"))
    assert "Syrup ready-made, 72 %" in items(replace(plan, outfit=replace(plan.outfit, feed=named)))


def unfed(plan: Plan, colonies: int, **feed: object) -> Plan:
    """The plan with one yard of so many colonies more, whose feed is left undone."""
    yard = replace(plan.outfit.yards[0], id="left", name="Left", colonies=colonies)
    left = Undone("left", Job.FEED, colonies, 1, (phrase("a reason"),))
    outfit = replace(
        plan.outfit, yards=(*plan.outfit.yards, yard),
        feed=replace(plan.outfit.feed, **feed),  # type: ignore[arg-type]
    )  # fmt: skip
    return replace(plan, outfit=outfit, undone=(left,))


def test_what_the_feed_left_undone_is_short_of_is_said() -> None:
    """90 L poured of 100 L delivered: ten colonies of 8.5 L more want 85 L, 10 L of them there."""
    plan = replace(small_plan(), mixing=())

    def buy(ready_ml: int) -> str:
        return items(unfed(plan, 10, bought=True, ready_ml=ready_ml))["Syrup 2:1, ready made"].buy

    assert "nothing more; for what is left undone 75 L more" == buy(100_000)
    assert "60 L more; for what is left undone 85 L more" == buy(30_000)
    assert "nothing more" == buy(175_000)


def test_syrup_is_short_though_none_is_poured() -> None:
    """Nothing delivered, nothing poured, 85 L left: the list is not empty."""
    plan = replace(small_plan(), mixing=(), shifts=())
    found = items(unfed(plan, 10, bought=True, ready_ml=0))["Syrup 2:1, ready made"]

    assert ("0 L", "nothing more; for what is left undone 85 L more", "") == (
        found.need, found.buy, found.by,
    )  # fmt: skip


def test_sugar_in_stock_that_is_short_of_the_feed_left_is_said() -> None:
    """90 + 85 L x 1.327 x 0.667 = 154.9 kg, 100 kg in stock: 54.9 -> 55 kg more.

    Without a stock, or with enough, the list says nothing of it.
    """
    plan = small_plan()

    def note(sugar_g: int | None) -> str:
        return items(unfed(plan, 10, sugar_g=sugar_g))["Sugar"].note

    assert (
        "100 kg in stock or on order; for what is left undone 55 kg more, 155 kg needed in all"
        == (note(100_000))
    )
    assert ("155 kg in stock or on order", "") == (note(155_000), note(None))
    bare = items(unfed(replace(plan, mixing=(), shifts=()), 10, sugar_g=0))
    # 85 L x 1.327 x 0.667 = 75.2 kg
    assert ("0 kg", "nothing more") == (bare["Sugar"].need, bare["Sugar"].buy)
    assert bare["Sugar"].note.endswith("for what is left undone 76 kg more, 76 kg needed in all")
    assert {"Sugar"} == set(bare)


def test_feed_that_health_forbids_is_short_of_nothing() -> None:
    """Nothing is bought for a yard in standstill."""
    plan = unfed(replace(small_plan(), mixing=()), 10, bought=True, ready_ml=90_000)
    yards = (*plan.outfit.yards[:-1], replace(plan.outfit.yards[-1], health=Health.STANDSTILL))
    held = replace(plan, outfit=replace(plan.outfit, yards=yards))

    assert "nothing more" == items(held)["Syrup 2:1, ready made"].buy


def test_a_stock_of_blocks_nobody_typed_is_not_named() -> None:
    """With a stock typed the list says how many there are; without, nothing is made up."""
    plan = small_plan()
    unsaid = (
        Assumed(phrase("kit.blocks"), phrase("as many as it takes"), phrase("the list says")),
    )
    outfit = replace(plan.outfit, assumed=unsaid)

    owned = plan.outfit.kit.blocks_owned
    assert f"of {owned} to be had" == items(plan)["Fondant blocks"].note
    assert "" == items(replace(plan, outfit=outfit))["Fondant blocks"].note


def test_bought_syrup_without_an_amount_is_to_be_bought() -> None:
    """All 90 L are to be bought, and none stand ready; for what is left undone nothing is short.

    Once it was counted the list goes by that: 30 L there, and 60 L more.
    """
    plan = replace(small_plan(), mixing=())
    unsaid = (Assumed(phrase("feed.ready"), phrase("as much as it takes"), phrase("the list")),)
    left = unfed(plan, 10, bought=True, ready_ml=30_000)
    outfit = replace(left.outfit, assumed=unsaid)
    counted = replace(outfit, counted=(Counted("syrup", 0, 0),))
    open_end = items(replace(left, outfit=outfit))["Syrup 2:1, ready made"]
    known = items(replace(left, outfit=counted))["Syrup 2:1, ready made"]

    assert ("90 L", "90 L", "") == (open_end.need, open_end.buy, open_end.note)
    assert "60 L more; for what is left undone 85 L more" == known.buy
    assert "30 L stand ready" == known.note


def test_blocks_and_strips_are_counted() -> None:
    """17 blocks of 2.1 kg are 35.7 -> 36 kg; 20 strips less 8 in stock leave 12."""
    plan = small_plan()
    strips = replace(plan.outfit.strips, stock=8)
    found = items(replace(plan, outfit=replace(plan.outfit, strips=strips)))

    assert ("17 (36 kg)", "17 blocks") == (
        found["Fondant blocks"].need,
        found["Fondant blocks"].buy,
    )
    assert "12 or more" == found["Strips (amitraz)"].buy
    assert found["Strips (amitraz)"].note.startswith("8 in stock or on order; in full packs")


def unstripped(plan: Plan, stock: int | None, **changes: object) -> Plan:
    """The plan with a yard of ten colonies more that gets no strips, and a stock of them."""
    yard = replace(plan.outfit.yards[0], id="left", name="Left", colonies=10)
    yard = replace(yard, **changes)  # type: ignore[arg-type]
    left = Undone("left", Job.STRIPS, yard.colonies, 0, (phrase("a reason"),))
    strips = replace(plan.outfit.strips, stock=stock)
    outfit = replace(plan.outfit, yards=(*plan.outfit.yards, yard), strips=strips)
    return replace(plan, outfit=outfit, undone=(left,))


def test_strips_that_what_is_left_undone_is_short_of_are_said() -> None:
    """20 are planned, 10 colonies left out want 2 each; those beyond the stock are short."""
    plan = small_plan()

    def buy(stock: int | None, **changes: object) -> str:
        return items(unstripped(plan, stock, **changes))["Strips (amitraz)"].buy

    assert "nothing more; for what is left undone 15 more" == buy(25)
    assert "12 or more; for what is left undone 20 more" == buy(8)
    assert ("nothing more", "20 or more") == (buy(40), buy(None))
    assert "nothing more" == buy(25, health=Health.STANDSTILL)


def test_a_treatment_given_twice_is_bought_for_both() -> None:
    """20 strips in on 2 March, out 42 to 70 days later, and 20 more then; 10 colonies left: 40."""
    plan = unstripped(small_plan(), None)
    dates = "20 at first, 20 more for the second application, Tue 13 Apr to Tue 11 May, which is no"

    def thymol(stock: int | None, *, twice: bool | None = None) -> Item:
        kind = replace(plan.outfit.strips, substance="thymol", stock=stock, twice=twice)
        outfit = replace(plan.outfit, strips=kind)
        return items(replace(plan, outfit=outfit))["Strips (thymol)"]

    assert ("20", "40 or more") == (thymol(None).need, thymol(None).buy)
    assert thymol(None).note.startswith(f"{dates} visit of this plan; in full packs")
    assert "10 or more; for what is left undone 40 more" == thymol(30).buy
    assert "nothing more; for what is left undone 35 more" == thymol(45).buy
    assert ("20 or more", "nothing more; for what is left undone 10 more") == (
        thymol(None, twice=False).buy,
        thymol(30, twice=False).buy,
    )
    assert "second" not in thymol(None, twice=False).note


@pytest.mark.parametrize(("kinds", "again"), [(("once", ""), 30), (("", "once"), 12)])
def test_kinds_of_one_substance_count_their_second_applications(
    kinds: tuple[str, str], again: int
) -> None:
    """12 strips of thymol for yard 1 and 30 for yard 2, one of them given once; 50 in stock.

    The 10 colonies left out take 20, and 20 again where theirs is the kind given twice.
    """
    plan = unstripped(small_plan(), None)
    usual = replace(plan.outfit.strips, substance="thymol", stock=50)
    *treated, left = plan.outfit.yards
    yards = tuple(
        replace(yard, strips=kind, colonies=15) for yard, kind in zip(treated, kinds, strict=True)
    )
    also = (replace(usual, id="once", twice=False),)
    outfit = replace(plan.outfit, yards=(*yards, left), strips=usual, strips_also=also)
    calls = (Stop(1, 20, (strips(6),)), Stop(2, 20, (strips(15),)))
    plan = replace(plan, shifts=(a_shift(outfit, 1, [Round("both", calls)]),))

    def thymol(kind: str) -> Item:
        told = replace(outfit, yards=(*yards, replace(left, strips=kind)))
        return items(replace(plan, outfit=told))["Strips (thymol)"]

    bought = f"{42 + again - 50} or more; for what is left undone"
    assert (f"{bought} 40 more", f"{bought} 20 more") == (thymol("").buy, thymol("once").buy)
    assert thymol("").note.startswith(f"42 at first, {again} more for the second application")


def test_strips_are_short_though_none_are_planned() -> None:
    """10 in stock, 10 x 2 wanted: the list has a line of them."""
    bare = replace(small_plan(), shifts=())
    short = items(unstripped(bare, 10))["Strips (amitraz)"]

    assert ("0", "nothing more; for what is left undone 10 more", "") == (
        short.need, short.buy, short.by,
    )  # fmt: skip
    assert "Strips (amitraz)" not in items(unstripped(bare, 20))
    assert "Strips (amitraz)" not in items(unstripped(bare, None))


def test_blocks_that_what_is_left_undone_is_short_of_are_said() -> None:
    """17 are planned; ten colonies left on their boxes want one each at most, 3 are over."""
    plan = unfed(small_plan(), 10)
    left = tuple(replace(one, job=Job.TAKE_OFF) for one in plan.undone)

    plan = replace(plan, undone=left)

    def buy(owned: int, plan: Plan = plan) -> str:
        kit = replace(plan.outfit.kit, blocks_owned=owned)
        return items(replace(plan, outfit=replace(plan.outfit, kit=kit)))["Fondant blocks"].buy

    assert "17 blocks; for what is left undone about 7 more" == buy(20)
    assert "17 blocks" == buy(27)
    bare = replace(plan, shifts=())
    assert "nothing more; for what is left undone about 10 more" == buy(0, bare)


def test_colonies_that_run_out_want_a_block_each() -> None:
    """Yard 1's ten have a block on day 0 that lasts 4.2 days of six, and no syrup.

    A closed yard is given none; with 2 kg of stores they last beyond the campaign; where days
    without cover are not left undone nothing is short.
    """
    plan = small_plan()
    runs = Undone("yard1", Job.BLOCK, 0, 0, (), colony_days=12)

    def buy(*undone: Undone, owned: int = 10, **changes: object) -> str:
        first, second = plan.outfit.yards
        yards = replace(first, **changes), second  # type: ignore[arg-type]
        kit = replace(plan.outfit.kit, blocks_owned=owned)
        outfit = replace(plan.outfit, kit=kit, yards=yards)
        left = replace(plan, outfit=outfit, shifts=plan.shifts[:1], undone=undone)
        return items(left)["Fondant blocks"].buy

    assert "10 blocks; for what is left undone about 10 more" == buy(runs)
    assert "10 blocks; for what is left undone about 4 more" == buy(runs, owned=16)
    assert "10 blocks" == buy(runs, owned=20)
    assert "10 blocks" == buy()
    assert "10 blocks" == buy(runs, stores_g=2_000)
    assert "10 blocks" == buy(runs, health=Health.SUSPECT, feed_agreed=True, honey_off=True)


def test_lids_for_the_most_stacks_at_once() -> None:
    """Boxes stand five high: 15 boxes are 3 stacks, 11 are 3; two trucks on a day add up."""
    plan = small_plan()
    assert "3, and as many floors" == items(plan)["Lids or covers for stacks"].buy

    other = a_shift(plan.outfit, 0, [Round("t", (Stop(2, 60, (take_off(10, 16),)),))])
    both = replace(plan, shifts=(*plan.shifts, other))
    # 15 boxes: 3 stacks; 16 boxes: 4 stacks.
    assert "7" == items(both)["Lids or covers for stacks"].need


def test_a_trailer_may_lower_the_stacks() -> None:
    """On the long day stacks stand four high; boxes in doubt stand apart: 26 -> 7, 16 -> 4."""
    assert "11" == items(eight_stop_plan())["Lids or covers for stacks"].need


def test_a_plan_that_uses_nothing_has_an_empty_list() -> None:
    """Nothing is printed as nought."""
    idle = replace(small_plan(), shifts=(), mixing=())

    assert () == shopping(idle)
    assert "uses nothing up" in Page(shopping_page(idle)).text


def test_a_plan_without_feed_buys_no_sugar() -> None:
    """Only what is used is listed: a take-off alone wants lids."""
    plan = small_plan()
    day = a_shift(plan.outfit, 0, [Round("t", (Stop(1, 60, (take_off(10, 15),)),))])

    assert ["Lids or covers for stacks"] == list(items(replace(plan, shifts=(day,), mixing=())))


def test_hostile_words_are_words() -> None:
    """The same elements as with plain names; no money on the list."""
    page = Page(shopping_page(hostile_plan()))

    assert Page(shopping_page(small_plan())).tags == page.tags
    assert "NZD" not in Page(shopping_page(small_plan())).text
