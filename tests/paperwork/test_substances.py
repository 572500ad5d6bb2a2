"""Two substances in one campaign: every paper says which strips go where, and when they are out."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job, Spare
from runplanner.outfit.stores import Strips
from runplanner.paperwork.data.tables import plan_tables
from runplanner.paperwork.days.day_sheet import day_page
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.driver.cautions import cautions
from runplanner.paperwork.driver.loading import Goods, goods
from runplanner.paperwork.driver.manifest import manifest
from runplanner.paperwork.lists.collection import collections
from runplanner.paperwork.lists.medicine_record import medicine_page, records
from runplanner.paperwork.lists.shopping import shopping, shopping_page
from runplanner.paperwork.lists.strips_out import strips_out
from runplanner.paperwork.lists.strips_page import strips_page
from runplanner.paperwork.map.notes import lines
from runplanner.paperwork.map.work import work_left
from runplanner.paperwork.speech.living import for_the_living
from runplanner.paperwork.speech.substances import called
from runplanner.paperwork.speech.tongue import speaking
from runplanner.paperwork.stop.one_stop import trip_as_driven
from runplanner.paperwork.write_all import papers
from tests.outfits import a_yard, an_outfit
from tests.paperwork.pages import Page
from tests.paperwork.plans import HOSTILE, Round, Stop, a_shift, small_plan, strips

PADS = Strips("formic acid", 3, 12, 7, 14, 7, "pads")


def treated(kind: Strips = PADS) -> Plan:
    """Monday 1 March: twenty strips into the first yard, thirty pads into the second."""
    outfit = an_outfit(yards=[a_yard(1), replace(a_yard(2), strips=kind.id)], strips_also=(kind,))
    pads = Action(Job.STRIPS, 10, pieces=30)
    stops = (Stop(1, 30, (strips(10),)), Stop(2, 30, (pads,)))
    plan = small_plan()
    return replace(plan, outfit=outfit, shifts=(a_shift(outfit, 0, [Round("t", stops)]),))


def texts(plan: Plan) -> dict[str, str]:
    """The text of every page of the papers, the map left out."""
    return {
        name: Page(text).text
        for name, text in papers(plan)
        if name.endswith(".html") and name != "map.html"
    }


def test_the_cab_holds_each_substance_by_itself() -> None:
    """Two packs, each with its stops; the steps and the phone name them as well."""
    plan = treated()
    shift = plan.shifts[0]
    packs = [one for one in goods(plan.outfit, shift, shift.trips[0]) if "sealed" in one.where]
    steps = manifest(plan, shift, shift.trips[0]).steps
    phone = phone_text(plan, 0)

    assert [
        Goods("cab, sealed", "strips (amitraz): 20 for stop 1"),
        Goods("deck, sealed, off the honey", "strips (formic acid): 30 for stop 2"),
    ] == packs
    assert ("Strips in all 10 colonies: 20 strips (amitraz)",) == steps[1].jobs
    assert ("Strips in all 10 colonies: 30 strips (formic acid)",) == steps[2].jobs
    assert "20 strips (amitraz) and 30 strips (formic acid)" in phone
    assert "strips 20 amitraz" in phone
    assert "strips 30 formic acid" in phone
    assert "20 strips (amitraz) and 30 strips (formic acid)" in texts(plan)["days/2027-03-01.html"]


def under_way(*, left: tuple[Spare, ...] = (), living: int = 10, loaded: int = 50) -> Plan:
    """The same truck out, with so many strips aboard, and so many colonies in either yard."""
    plan = treated()
    (shift,), yards = plan.shifts, plan.outfit.yards
    (trip,) = shift.trips
    first, *rest = trip.calls
    calls = (replace(first, after=replace(first.after, strips=loaded)), *rest)
    trip = replace(trip, calls=calls, left_strips=left, driven=True)
    outfit = replace(plan.outfit, yards=tuple(replace(one, colonies=living) for one in yards))
    return replace(plan, outfit=outfit, shifts=(replace(shift, trips=(trip,)),))


def spare(plan: Plan) -> list[Goods]:
    """What its truck has for no stop."""
    shift = plan.shifts[0]
    found = goods(plan.outfit, shift, trip_as_driven(plan.outfit, shift.trips[0]))
    return [one for one in found if "for no stop" in one.what]


def test_strips_for_no_stop_are_of_the_substance_they_were_meant_for() -> None:
    """Those of stops left out; nothing of the others is said to burn."""
    plan = under_way(left=(Spare("amitraz", 6), Spare("formic acid", 3)), loaded=59)
    packs = (
        "20 strips (amitraz), 30 strips (formic acid), 6 strips (amitraz) for no stop and "
        "3 strips (formic acid) for no stop"
    )

    assert [
        Goods("cab, sealed", "6 strips (amitraz) for no stop"),
        Goods("deck, sealed, off the honey", "3 strips (formic acid) for no stop"),
    ] == spare(plan)
    assert packs in phone_text(plan, 0)


@pytest.mark.parametrize(("substance", "burn"), [("amitraz", False), ("formic acid", True)])
def test_only_what_burns_is_said_to_burn(substance: str, *, burn: bool) -> None:
    """No strips go in any more, and those aboard are of a substance that is known."""
    plan = under_way(left=(Spare(substance, 6),), loaded=6)
    (shift,) = plan.shifts
    (trip,) = shift.trips
    calls = tuple(replace(one, actions=()) for one in trip.calls)
    trip = replace(trip, calls=calls)
    plan = replace(plan, shifts=(replace(shift, trips=(trip,)),))

    assert burn == ("corrosive" in phone_text(plan, 0))
    assert burn == any("Corrosive" in one.words for one in cautions(plan.outfit, shift, trip))


def test_strips_of_the_dead_are_known() -> None:
    """One of ten died in each yard while the truck is out: two strips over, and three pads."""
    assert ["2 strips (amitraz) for no stop", "3 strips (formic acid) for no stop"] == [
        one.what for one in spare(for_the_living(under_way(living=9)))
    ]


def test_strips_that_a_stop_left_are_known() -> None:
    """In two calls, of which the first put in half of what it was to."""
    plan = under_way(loaded=58)
    (shift,) = plan.shifts
    (trip,) = shift.trips
    load, one, two, *rest = trip.calls
    half = replace(one, actions=(strips(5),), planned=one.actions)
    again = replace(one, arrive_min=one.leave_min, actions=(strips(4),))
    trip = replace(trip, calls=(load, half, again, two, *rest))

    assert ["10 strips (amitraz) for no stop"] == [
        line.what for line in spare(replace(plan, shifts=(replace(shift, trips=(trip,)),)))
    ]


def test_strips_that_nothing_tells_of_may_burn() -> None:
    """So many more than any stop was to get: of either kind."""
    assert [Goods("deck, sealed, off the honey", "4 strips for no stop")] == spare(
        under_way(loaded=54)
    )


def test_each_substance_comes_out_in_its_own_time() -> None:
    """In on 1 March: pads out after 7 to 14 days, 8 to 15 March; strips after 42 to 70."""
    plan = treated()
    pads, usual = strips_out(plan)
    (medicine,) = (
        one.words
        for one in cautions(plan.outfit, plan.shifts[0], plan.shifts[0].trips[0])
        if one.head == "Medicine"
    )

    assert ("Yard 2", "Mon 8 Mar 2027", "Mon 15 Mar 2027") == (
        pads.yard, pads.due_from, pads.due_to,
    )  # fmt: skip
    assert ("Yard 1", "Mon 12 Apr 2027", "Mon 10 May 2027") == (
        usual.yard, usual.due_from, usual.due_to,
    )  # fmt: skip
    assert medicine.startswith("different strips aboard, each only where its stop names it.")
    assert "leaflet, your vet and local law go first" in medicine
    # Formic acid burns (H314 in the GHS, from memory) and forbids feed for seven days.
    assert medicine.endswith(
        "amitraz Mon 12 Apr to Mon 10 May and formic acid Mon 8 Mar to Mon 15 Mar. "
        "Corrosive: gloves, eyes, no closed cab. formic acid: Air from 10 to 29.5 \u00b0C while "
        "they are in. No feed beside formic acid before Mon 8 Mar, nor until its strips are out."
    )


def test_two_doses_of_one_substance_are_one_caution() -> None:
    """The same days and the same substance: the usual sentence, one pack."""
    plan = treated(Strips("amitraz", 3, None, 42, 70, 0, "double"))
    trip = plan.shifts[0].trips[0]
    packs = [
        one.what for one in goods(plan.outfit, plan.shifts[0], trip) if one.where == "cab, sealed"
    ]
    words = {one.head: one.words for one in cautions(plan.outfit, plan.shifts[0], trip)}

    assert ["strips (amitraz): 20 for stop 1 and 30 for stop 2"] == packs
    assert "Out again Mon 12 Apr to Mon 10 May." in words["Medicine"]
    assert "strips 30\n" in phone_text(plan, 0).replace(",", "\n")


def test_what_burns_rides_outside_the_cab_where_it_is_the_usual_kind_too() -> None:
    """And the driver reads it, whatever the substance is typed like."""
    plan = small_plan()
    acid = replace(plan.outfit.strips, substance="Formic Acid", no_feed_days=7)
    outfit, shift = replace(plan.outfit, strips=acid), plan.shifts[1]
    packs = [one for one in goods(outfit, shift, shift.trips[0]) if "strips" in one.what]
    words = {one.head: one.words for one in cautions(outfit, shift, shift.trips[0])}

    assert [Goods("deck, sealed, off the honey", "strips (Formic Acid): 20 for stop 1")] == packs
    assert words["Medicine"].endswith(
        "Corrosive: gloves, eyes, no closed cab. Air from 10 to 29.5 \u00b0C while they are in. "
        "No feed beside Formic Acid before Tue 9 Mar, nor until its strips are out."
    )


def test_what_burns_is_said_on_phone_and_day_sheet_where_it_is_the_usual_kind_too() -> None:
    """The substance by name, and what hands and honey ask; of amitraz neither."""
    plan = small_plan()
    acid = replace(plan.outfit.strips, substance="formic acid", no_feed_days=7)
    burns = replace(plan, outfit=replace(plan.outfit, strips=acid))

    assert (
        "Load 06:00: 90 L, 10 boards, 20 strips (formic acid). Fill IBC: 90 L\n"
        "! strips corrosive: gloves, eyes; on deck, sealed, off the honey, no closed cab; "
        "formic acid: air 10 to 29.5 C while in\n"
    ) in phone_text(burns, 1)
    assert "strips 20 formic acid" in phone_text(burns, 1)
    assert "Corrosive: gloves, eyes, no closed cab." in Page(day_page(burns, 1)).text
    assert "orrosive" not in Page(day_page(plan, 1)).text + phone_text(plan, 1)
    limits = "thymol: mean above 15 C, all below 30 C"
    assert f"! {limits}; thymol: in the hive, keep it away from the feeder\n" in phone_text(
        of_thymol(), 1
    )


def of_thymol() -> Plan:
    """The small plan with strips of thymol."""
    plan = small_plan()
    thymol = replace(plan.outfit.strips, substance="thymol")
    return replace(plan, outfit=replace(plan.outfit, strips=thymol))


def test_where_strips_may_not_lie_is_on_the_driver_s_paper() -> None:
    """Thymol away from the feeder, on paper and phone; amitraz anywhere."""
    for plan, told in ((small_plan(), False), (of_thymol(), True)):
        shift = plan.shifts[1]
        words = {one.head: one.words for one in cautions(plan.outfit, shift, shift.trips[0])}
        assert told is (
            "In the hive, keep it away from the feeder: bees may take less down."
            in words["Medicine"]
        )
        assert told is ("away from the feeder" in phone_text(plan, 1))


def test_a_substance_is_told_in_the_language_spoken() -> None:
    """By its own word where there is one; what was typed otherwise stays as it is."""
    with speaking("de"):
        assert ["Ameisens\u00e4ure", "Amitraz", "Formic Acid", "{0}"] == [
            called(one) for one in ("formic acid", "amitraz", "Formic Acid", "{0}")
        ]
    assert "formic acid" == called("formic acid")


def test_pads_and_strips_are_fetched_on_trips_of_their_own() -> None:
    """8 to 15 March and 12 April to 10 May have no day in common."""
    plan = treated()
    text = Page(strips_page(plan)).text

    assert [(7, 14, 30), (42, 70, 20)] == [
        (one.from_day, one.to_day, one.pieces()) for one in collections(plan)
    ]
    assert "30 of formic acid in 10 colonies" in text
    assert "30 formic acid" in text
    assert "20 amitraz" in text
    assert "formic acid: No feeding during treatment." in text
    assert "amitraz: Never with honey boxes on, nor during a flow." in text


def test_each_record_names_its_own_substance() -> None:
    """And the cautions of both stand on the page."""
    plan = treated()
    text = Page(medicine_page(plan)).text

    assert [("Yard 2", "formic acid"), ("Yard 1", "amitraz")] == [
        (one.yard, one.substance) for one in records(plan)
    ]
    assert ["planned 30 strips", "planned 20 strips"] == [
        dict(one.fields)["Quantity given"] for one in records(plan)
    ]
    assert "formic acid: No feeding during treatment." in text


def test_a_shorter_ban_on_feed_is_told_as_the_users_own() -> None:
    """Formic acid forbids feed for the 7 days it is in; the plan feeds after 2, as was typed."""
    plan = treated(replace(PADS, no_feed_days=2))

    for text in (Page(strips_page(plan)).text, Page(medicine_page(plan)).text):
        assert "No feeding during treatment." not in text
        assert (
            "formic acid: No feed for 2 days (own figure), where 7 days are known: the label "
            "decides." in text
        )


def test_each_substance_is_bought_by_itself() -> None:
    """Twelve of thirty pads are in stock, so 18 or more; 20 strips as nothing is told."""
    found = [(one.what, one.need, one.buy) for one in shopping(treated()) if "Strips" in one.what]

    assert [
        ("Strips (amitraz)", "20", "20 or more"),
        ("Strips (formic acid)", "30", "18 or more"),
    ] == found


def test_tables_and_map_name_the_substance() -> None:
    """A column of the stops, blank for other jobs; a line of the yard's panel."""
    plan = treated()
    yard = plan.outfit.yards[1]
    panel = lines(plan, yard, work_left(plan)[yard.id], None)

    assert ["amitraz", "formic acid"] == list(plan_tables(plan)["stops"]["substance"])
    assert {"", "amitraz"} == set(plan_tables(small_plan())["stops"]["substance"])
    assert any("strips (formic acid), 10 colonies" in line for line in panel)


@pytest.mark.parametrize("said", HOSTILE)
def test_hostile_substances_are_words(said: str) -> None:
    """No element and no line that plain names do not make, on any page."""
    hostile = treated(replace(PADS, substance=said))
    for page in (strips_page, medicine_page, shopping_page):
        assert set(Page(page(hostile)).tags) <= set(Page(page(treated())).tags)
    plain = treated(replace(PADS, substance="another acid"))
    assert len(phone_text(hostile, 0).splitlines()) == len(phone_text(plain, 0).splitlines())


def in_air(substance: str, coldest_dc: int | None, hottest_dc: int | None) -> Plan:
    """The small plan with strips for which the scenario says the air."""
    plan = small_plan()
    kind = replace(
        plan.outfit.strips, substance=substance, coldest_dc=coldest_dc, hottest_dc=hottest_dc
    )
    return replace(plan, outfit=replace(plan.outfit, strips=kind))


@pytest.mark.parametrize(
    ("substance", "coldest_dc", "hottest_dc", "told", "short"),
    [
        ("formic acid", 85, None, "Air from 8.5 (own figure) to 29.5 \u00b0C while they are in.",
         "formic acid: air 8.5 (own figure) to 29.5 C while in"),
        ("formic acid", None, 270, "Air from 10 to 27 (own figure) \u00b0C while they are in.",
         "formic acid: air 10 to 27 (own figure) C while in"),
        ("thymol", None, 320,
         "Days above 15 \u00b0C in the mean, all below 32 (own figure) \u00b0C.",
         "thymol: mean above 15 C, all below 32 (own figure) C"),
        ("amitraz", None, 280, "No air above 28 (own figure) \u00b0C while they are in.",
         "amitraz: no air above 28 (own figure) C while in"),
        ("another acid", -55, None,
         "Air of \N{MINUS SIGN}5.5 (own figure) \u00b0C and more while they are in.",
         "another acid: air -5.5 (own figure) C and more while in"),
    ],
)  # fmt: skip
def test_typed_limits_of_the_air_go_before_the_published_ones(
    substance: str, coldest_dc: int | None, hottest_dc: int | None, told: str, short: str
) -> None:
    """On manifest, medicine record, list of strips and phone, marked as the user's own."""
    plan = in_air(substance, coldest_dc, hottest_dc)
    shift = plan.shifts[1]
    words = {one.head: one.words for one in cautions(plan.outfit, shift, shift.trips[0])}

    assert told in words["Medicine"]
    assert short in phone_text(plan, 1)
    assert told in Page(strips_page(plan)).text
    assert told in Page(medicine_page(plan)).text
