"""Tests of the office's page."""

from dataclasses import replace

from runplanner.daybook.plan import Bound, Tally, Undone
from runplanner.daybook.trip import Job, Shift
from runplanner.outfit.yards import Health
from runplanner.paperwork.index_page import index_page
from runplanner.paperwork.lists.undone_list import but_words
from runplanner.paperwork.speech.sums import gap_permille, tally_words
from runplanner.paperwork.speech.tongue import said, speaking
from runplanner.phrase import joined, phrase
from runplanner.season.what_if import RULES
from tests.paperwork.pages import Page
from tests.paperwork.plans import dear_plan, hostile_plan, small_plan


def test_the_gap_is_rounded_up() -> None:
    """Cost 1001, bound 1000: 0.999 per mille of all cost is said as 1; of the steerable 1001.

    Steerable cost is what lies above 1000 of fixed cost: 1 in all, 1 above the bound.
    """
    bound = Bound(phrase(""), 1_000, 1_000, Tally(0, 0, 0, 0))

    assert 1 == gap_permille(1_001, bound, steerable=False)
    assert 1_000 == gap_permille(1_001, bound, steerable=True)
    assert gap_permille(1_000, bound, steerable=True) is None
    assert 0 == gap_permille(900, bound, steerable=False)


def test_undone_work_in_words() -> None:
    """Each part that is not nought, in the order in which plans are compared."""
    assert "nothing" == tally_words(Tally(0, 0, 0, 0))
    assert (
        "1 colony-day without cover, 2 colonies without strips in time, "
        "1 kg of stores not fed, 1 colony with honey still on"
    ) == tally_words(Tally(1, 2, 1, 1))


def test_money_stands_here() -> None:
    """The bill by head, the sum, the bound and both gaps."""
    text = Page(index_page(small_plan())).text

    assert "crew hours 900.00 NZD" in text
    assert "in all 1,605.50 NZD" in text
    assert "No plan can cost less than 1,500.00 NZD" in text
    # (160550 - 150000) / 160550 = 6.58 %; / (160550 - 80000) = 13.1 %, rounded up.
    assert "Gap 6.6 % of all cost, 13.1 % of what planning can steer" in text
    assert "boards on too long" not in text
    assert "one more day: cures all of it for 123.00 NZD more" in text
    assert "a trailer: cures nothing that was found" in text


def test_the_second_gap_is_left_out_where_it_is_not_known() -> None:
    """Where work is left nobody knows what no plan can steer: one gap, not the same twice."""
    plan = small_plan()
    text = Page(index_page(replace(plan, bound=replace(plan.bound, fixed_cents=0)))).text

    assert "Gap 6.6 % of all cost." in text
    assert "planning can steer" not in text


def test_rules_that_make_room_together_are_all_named() -> None:
    """The longest reason there is, every rule eased: the last stands there in either language."""
    together = phrase(
        "no single rule was found that makes room by itself; with these eased together, it "
        "fits: {rules}",
        rules=joined("; ", *(rule for rule, _ in RULES)),
    )
    plan = small_plan()
    plan = replace(plan, undone=tuple(replace(one, why=(together,)) for one in plan.undone))

    assert plan.undone
    for language in ("en", "de"):
        with speaking(language):
            text = Page(index_page(plan)).text
            assert all(said(rule) in text for rule, _ in RULES)


def test_a_plan_without_a_bound_says_so() -> None:
    """Whoever breaks off before the bound is found reads no false zero."""
    plan = small_plan()
    text = Page(index_page(replace(plan, bound=replace(plan.bound, cents=0)))).text

    assert "How little a plan could cost was not found out." in text
    assert "No plan can cost less" not in text


def test_a_relief_may_be_free() -> None:
    """A relief that costs nothing more has no price."""
    plan = small_plan()
    free = replace(plan, reliefs=(replace(plan.reliefs[0], extra_cents=0),))

    assert "one more day: cures all of it Cost" in Page(index_page(free)).text


def test_undone_work_and_reasons_stand_here() -> None:
    """What is left, in all and one by one, with the rules that pull against it."""
    text = Page(index_page(small_plan())).text

    assert "In all: 10 colonies without strips in time, 80 kg of stores not fed, 3" in text
    assert "Yard 2: take-off, 3 colonies" in text
    assert "The window on Thu 4 Mar shuts at 12:00." in text


def test_work_left_for_its_cost_says_what_it_costs_and_is_worth() -> None:
    """The sums stand beside the reason here, and only here among the pages."""
    text = Page(index_page(dear_plan())).text

    assert (
        "Left on purpose. Costs 41.20 shells, worth 30.00 shells (all that is left at this" in text
    )


def test_nothing_undone_owns_up_to_what_health_forbids() -> None:
    """A suspect yard's work is listed but not counted; of a sound yard the list is named."""
    plan = replace(small_plan(), tally=Tally(0, 0, 0, 0), undone=())
    left = replace(plan, undone=(Undone("yard2", Job.TAKE_OFF, 10, 0, (phrase("no way"),)),))
    suspect = replace(plan.outfit.yards[1], health=Health.SUSPECT)
    outfit = replace(plan.outfit, yards=(plan.outfit.yards[0], suspect))

    assert [
        "nothing.",
        "nothing but what is listed here.",
        "nothing but what health rules forbid.",
    ] == ["nothing" + but_words(one) + "." for one in (plan, left, replace(left, outfit=outfit))]
    text = Page(index_page(replace(left, outfit=outfit))).text
    assert "In all: nothing but what health rules forbid" in text


def test_jobs_of_a_yard_with_one_reason_share_a_line() -> None:
    """Reasons are said once, as sentences."""
    plan = small_plan()
    why = (phrase("nothing leaves this yard"),)
    left = (
        Undone("yard2", Job.TAKE_OFF, 10, 0, why),
        Undone("yard2", Job.FEED, 10, 80_000, why),
        Undone("yard1", Job.STRIPS, 10, 0, (phrase("no day is warm enough!"),)),
    )
    text = Page(index_page(replace(plan, undone=left))).text

    assert (
        "Yard 2: take-off, 10 colonies; syrup, 10 colonies, 80 kg of stores short . "
        "Nothing leaves this yard. Yard 1: strips, 10 colonies . No day is warm enough!"
    ) in text


def test_every_paper_is_linked() -> None:
    """Trips and tracks, day sheets, intake, wet days, phone texts, lists, tables, map, plan."""
    links = set(Page(index_page(small_plan())).values("href"))

    for href in (
        "manifests/0301-truck1-0001.html",
        "tracks/0301-truck1-0001.gpx",
        "manifests.xlsx",
        "calendar/trips.ics",
        "plan.geojson",
        "days/2027-03-01.html",
        "intake/2027-03-01.html",
        "wet/2027-03-01.html",
        "phone/2027-03-01.txt",
        "shopping.html",
        "run_out.html",
        "strips_out.html",
        "mixing.html",
        "medicine.html",
        "take_off.html",
        "tables/loads.csv",
        "map.html",
        "plan.json",
    ):
        assert href in links


def test_it_says_what_to_print_and_when() -> None:
    """Before the first day, each evening, on a change, after; mixing only where syrup is mixed."""
    plan = small_plan()
    text = Page(index_page(plan)).text
    bought = Page(index_page(replace(plan, mixing=()))).text

    told = [text.index(word) for word in (
        "Before the first day", "The evening before each day", "When something changes",
        "After the campaign",
    )]  # fmt: skip
    assert told == sorted(told)
    assert "shopping list , take-off register , mixing sheet , medicine record ." in text
    assert "take-off register , medicine record ." in bought


def test_nothing_is_not_less_than_nothing() -> None:
    """Where a plan may leave nothing, the page does not say that none can leave less."""
    plan = small_plan()
    bound = Bound(phrase(""), 1, 0, Tally(0, 0, 0, 0))

    assert "No plan can leave less" not in Page(index_page(replace(plan, bound=bound))).text
    left = replace(bound, tally=Tally(0, 0, 1_000_500, 0))
    text = Page(index_page(replace(plan, bound=left))).text
    assert "No plan can leave less than 1001 kg of stores not fed." in text


def test_findings_shout() -> None:
    """A plan in which rules are broken says so before anything else."""
    text = Page(index_page(small_plan(), ("deck: too many boxes",))).text

    assert text.index("Do not drive this plan: the audit found 1 broken rule") < text.index(
        "Day by"
    )
    assert "deck: too many boxes" in text
    assert "Do not drive" not in Page(index_page(small_plan())).text


def test_how_the_plan_was_found() -> None:
    """Seed, rounds, why it stopped, versions; the moment of planning when it is under way."""
    plan = small_plan()
    text = Page(index_page(plan)).text

    assert "Seed 7, 3 rounds; stopped: the gap closed. With runplanner 0.1.0." in text
    assert "Planned as of" not in text
    assert "Planned as of Tue 2 Mar 06:00." in Page(index_page(replace(plan, now_min=1_800))).text


def test_driven_trips_are_marked() -> None:
    """A driven trip is not offered as work to do."""
    plan = small_plan()
    day = plan.shifts[0]
    driven = replace(day, trips=(replace(day.trips[0], driven=True),))

    assert "Truck 1: Yard 1 (15 boxes back) driven" in (
        Page(index_page(replace(plan, shifts=(driven, *plan.shifts[1:]), now_min=day.end_min))).text
    )


def test_hostile_words_are_words() -> None:
    """The same elements as with plain names, also for findings and notes."""
    said = ("<script>alert(1)</script>", "{{7*7}}")
    page = Page(index_page(hostile_plan(), said, said))

    assert Page(index_page(small_plan(), ("a", "b"), ("c", "d"))).tags == page.tags
    assert "{{7*7}}" in page.text


def test_a_change_sheet_is_linked_where_there_is_one() -> None:
    """Only a plan made again has it."""
    plan = replace(small_plan(), now_min=1_800)

    assert "changes.html" in Page(index_page(plan, changed=True)).values("href")
    assert "changes.html" not in Page(index_page(plan)).values("href")


def test_trips_on_which_one_person_lifts_heavy_boxes_are_marked() -> None:
    """Over 25 kg and a crew of one; what is driven already is past help."""
    plan = small_plan()
    yards = tuple(replace(yard, box_g=30_000) for yard in plan.outfit.yards)
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards))
    words = "one person alone with heavy boxes"
    first = plan.shifts[0]
    alone = replace(first, crew=first.crew[:1])
    driven = replace(alone, trips=tuple(replace(trip, driven=True) for trip in alone.trips))

    def marked(*shifts: Shift, now: int = 0) -> int:
        return Page(index_page(replace(plan, shifts=shifts, now_min=now))).text.count(words)

    assert 0 == marked(first)
    assert 1 == marked(alone)
    assert 1 == marked(driven, now=driven.start_min)
    assert 0 == marked(driven, now=driven.end_min)
