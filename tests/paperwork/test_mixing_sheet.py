"""Tests of the mixing sheet."""

from dataclasses import replace

from runplanner.daybook.plan import Mixing, Plan, Spinning
from runplanner.outfit.bases import Base
from runplanner.outfit.stores import Feed
from runplanner.paperwork.lists.mixing_sheet import bags_words, mixes, mixing_page, per_bag
from tests.outfits import an_outfit
from tests.paperwork.pages import Page
from tests.paperwork.plans import Round, Stop, a_shift, block, hostile_plan, small_plan

FEED = an_outfit().feed


def plan_with(*mixing: Mixing) -> Plan:
    """The small plan with other mixing."""
    return replace(small_plan(), mixing=mixing)


def thick(permille: int) -> Feed:
    """The test's feed with so much sugar."""
    return replace(FEED, sugar_permille=permille)


def test_sugar_and_water_of_each_stretch() -> None:
    """100 L at 1.327 kg/L are 132.7 kg; 66.7 % of it is 88.51 kg of sugar: 89.

    The rest, 44.19 kg of water at 0.9982 kg/L, is 44.27 L: 45.  89 kg are 3 bags of 25 and 14.
    """
    (one,) = mixes(plan_with(Mixing(480, 540, "ann", 100_000)))

    assert ("Mon 1 Mar", "08:00\u201309:00", "Ann", "100 L", "89 kg", "3 + 14 kg", "45 L") == (
        one.date, one.hours, one.who, one.litres, one.sugar, one.bags, one.water,
    )  # fmt: skip


def test_stretches_come_in_order_of_time() -> None:
    """Also one on the day before the campaign starts."""
    late, early = Mixing(2_000, 2_060, "ann", 50_000), Mixing(-600, -540, "bob", 50_000)

    assert ["Sun 28 Feb", "Tue 2 Mar"] == [one.date for one in mixes(plan_with(late, early))]


def test_a_small_tank_is_filled_several_times() -> None:
    """250 L in a tank of 100: three fillings of 83.4 L, 73.8 kg of sugar and 36.9 L of water."""
    plan = plan_with(Mixing(480, 540, "ann", 250_000))
    small = replace(plan.outfit.feed, tank_ml=100_000)
    fitted = replace(plan, outfit=replace(plan.outfit, feed=small))

    (one,) = mixes(fitted)
    words = "3 fillings, each of 84 L: 37 L of water, 74 kg of sugar"
    assert words == one.fillings
    assert words in Page(mixing_page(fitted)).text
    assert [""] == [one.fillings for one in mixes(plan)]


def test_water_to_a_bag() -> None:
    """25 kg x 333 / 667 = 12.48 kg of water, 12.50 L at 20 C; of 1:1 25 kg, 25.04 L."""
    assert "12.5 L" == per_bag(FEED)
    assert "25 L" == per_bag(thick(500))


def test_the_sheet_warns_of_sugar_that_never_dissolves() -> None:
    """76 % does not dissolve at 60 C."""
    plan = plan_with(Mixing(480, 540, "ann", 100_000))
    never = replace(plan, outfit=replace(plan.outfit, feed=thick(760)))

    assert (
        "76 % sugar does not dissolve even at 60 \u00b0C: thin it" in Page(mixing_page(never)).text
    )


def test_the_sheet_ends_with_all_of_the_order_of_work() -> None:
    """A cold night stands with it, where it does anything: no last page holds only that."""
    plan = plan_with(Mixing(480, 540, "ann", 100_000))
    thin = replace(plan, outfit=replace(plan.outfit, feed=thick(500)))

    for each, told in ((plan, True), (thin, False)):
        page = mixing_page(each)
        last = page[page.rindex("<section") : page.rindex("</section>")]
        assert last.startswith('<section class="kept">')
        assert "Water first" in last
        assert told is ("can throw crystals" in last)
        assert told is ('class="marked"' in last)


def test_the_page_goes_water_first() -> None:
    """The order of work, the check by 100 L, and the sum of all stretches."""
    plan = plan_with(Mixing(480, 540, "ann", 100_000), Mixing(600, 660, "ann", 100_000))
    text = Page(mixing_page(plan)).text

    assert text.index("Water first") < text.index("Then sugar, bag by bag")
    assert "every 100 L of syrup take 89 kg of sugar and 45 L of water" in text
    # 200 L: 177.02 kg of sugar, 88.54 L of water.
    assert "In all 2 stretches: 200 L from 178 kg of sugar and 89 L of water" in text


IF_ALONE = "Alone at the store: have somebody within call, phone in the pocket."


def mixing_beside(*mixing: Mixing, spinning: tuple[Spinning, ...] = ()) -> Plan:
    """Ann out alone on day 0 with two trips; whoever mixes beside.

    She loads 06:00 to 06:25, drives 10 km, works to 08:05, unloads 08:15 to 08:35, and loads
    again 08:35 to 09:00; home at 10:20 she unloads until 10:40.
    """
    plan = small_plan()
    rounds = [Round(name, (Stop(1, minutes, (block(10),)),)) for name, minutes in TRIPS]
    shift = a_shift(plan.outfit, 0, rounds, crew=("ann",))
    return replace(plan, shifts=(shift,), mixing=mixing, spinning=spinning)


TRIPS = (("one", 90), ("two", 60))


def test_whoever_mixes_alone_is_told_when() -> None:
    """Bob has Ann beside him while her truck stands at the store, 08:15 to 09:00."""
    (one,) = mixes(mixing_beside(Mixing(480, 600, "bob", 100_000)))

    assert "alone 08:00\u201308:15 and 09:00\u201310:00" == one.alone
    page = Page(mixing_page(mixing_beside(Mixing(480, 600, "bob", 100_000))))
    assert one.alone in page.text
    assert IF_ALONE in page.text
    assert "and somebody within call." in page.text
    assert "nobody alone" not in page.text


def test_a_truck_that_waits_between_trips_is_company() -> None:
    """The second trip loads 20 minutes later: Ann waits there all the same."""
    plan = mixing_beside(Mixing(500, 540, "bob", 100_000))
    (shift,) = plan.shifts
    first, second = shift.trips
    load = second.calls[0]
    later = replace(load, arrive_min=load.arrive_min + 20)
    second = replace(second, calls=(later, *second.calls[1:]))
    waits = replace(plan, shifts=(replace(shift, trips=(first, second)),))

    assert [""] == [one.alone for one in mixes(waits)]


def test_who_else_is_there() -> None:
    """Whoever spins in the same place or mixes as well; not the mixer, nor another place."""
    mix = Mixing(660, 720, "bob", 100_000)
    with_ann = mixing_beside(mix, spinning=(Spinning(660, 720, ("ann", "bob"), 5),))
    apart = replace(with_ann.outfit.honey_house, base=Base(1, 0, 1_440))
    elsewhere = replace(with_ann, outfit=replace(with_ann.outfit, honey_house=apart))

    assert [""] == [one.alone for one in mixes(with_ann)]
    assert IF_ALONE not in Page(mixing_page(with_ann)).text
    assert ["alone"] == [one.alone for one in mixes(elsewhere)]
    spins = (Spinning(660, 720, ("bob",), 5),)
    assert ["alone"] == [one.alone for one in mixes(mixing_beside(mix, spinning=spins))]
    both = mixing_beside(mix, Mixing(660, 720, "ann", 100_000))
    assert ["", ""] == [one.alone for one in mixes(both)]


def test_the_mixers_own_truck_is_no_company() -> None:
    """Ann mixes before her own second trip would load, with nobody else about."""
    (one,) = mixes(mixing_beside(Mixing(495, 515, "ann", 100_000)))

    assert "alone" == one.alone


def test_bought_syrup_is_not_mixed() -> None:
    """Without mixing the sheet says so, and why."""
    plan = plan_with()
    bought = replace(plan, outfit=replace(plan.outfit, feed=replace(FEED, bought=True)))

    assert "Nothing is mixed." in Page(mixing_page(plan)).text
    assert "bought ready-made" not in Page(mixing_page(plan)).text
    assert "Syrup is bought ready-made. Nothing is mixed." in Page(mixing_page(bought)).text


def test_hostile_words_are_words() -> None:
    """The same elements as with plain names."""
    assert Page(mixing_page(small_plan())).tags == Page(mixing_page(hostile_plan())).tags


def test_sugar_is_weighed_as_bags_and_a_rest() -> None:
    """Bags of 25 kg: 75 kg are 3, 89.001 kg are 3 and 15; 24.6 kg is a bag, 3 kg is weighed."""
    said = [bags_words(grams) for grams in (75_000, 89_001, 24_600, 3_000)]

    assert ["3", "3 + 15 kg", "1", "3 kg"] == said
