"""The honey house that stands still, and what is left in store."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import Changed
from runplanner.daybook.plan import Plan, Spinning
from runplanner.days import DAY_MIN, Span, clock
from runplanner.errors import ScenarioError
from runplanner.outfit.bases import Base
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.changes.counted import BOTH
from tests.changes.refused import NOON, faults
from tests.changes.thursday import driven
from tests.outfits import a_yard, an_outfit
from tests.running import at, put_in, running_plan


def test_honey_house() -> None:
    """Stopped is no spinning, full is no deliveries; "until Fri" from now on."""
    facts = put_in("honey house stopped until Fri", "honey house full Sat", now=NOON).outfit

    assert (Span(2 * DAY_MIN + 720, 4 * DAY_MIN),) == facts.honey_house.stopped
    assert (Span(5 * DAY_MIN, 6 * DAY_MIN),) == facts.honey_house.full


def test_spinning_under_way_breaks_off() -> None:
    """30 boxes from 5104 to 5254; stopped at 5164, after 60 of 150 min: 12 are spun."""
    now = at(5200)
    facts = put_in(f"honey house stopped {at(5164)[:10]} from {at(5164)[11:]}", now=now)

    first = facts.plan.spinning[0]
    assert (5104, 5164, 12) == (first.start_min, first.end_min, first.boxes)
    assert running_plan().spinning[1:] == facts.plan.spinning[1:]


def spun(facts: Changed) -> list[tuple[int, int, int]]:
    """When and how many boxes of the first 30, planned from 5104 to 5254, by what is known now."""
    return [(s.start_min, s.end_min, s.boxes) for s in facts.plan.spinning if s.start_min < 5254]


@pytest.mark.parametrize("typed", ["broken today", "stopped Thu", "stopped from Thu to Fri"])
def test_a_day_begun_on_which_the_honey_house_stops_counts_from_now_on(typed: str) -> None:
    """After 96 of 150 min 19 boxes are spun, and a line says so; before it began none is said."""
    facts = put_in(f"honey house {typed}", now=at(5200))
    sooner = put_in(f"honey house {typed}", now=at(5100))

    assert [(5104, 5200, 19)] == spun(facts)
    assert "taken from now on" in facts.notes[0]
    assert () == sooner.notes


def test_spinning_goes_on_after_a_stop_that_is_over() -> None:
    """Twenty of 150 min are lost, with what was in hand; told again they are lost once."""
    line = f"honey house stopped {at(5114)[:10]} {at(5114)[11:]}-{at(5134)[11:]}"
    first = put_in(line, now=at(5200))
    plan = replace(first.plan, outfit=first.outfit, now_min=first.now_min)
    new = replan_season(first.plan, first.outfit, first.now_min, rounds=1)

    assert [(5104, 5114, 2), (5134, 5254, 24)] == spun(first)
    assert ("4 boxes that were to be spun by now count as not spun",) == first.notes
    assert spun(first) == spun(put_in(line, plan=plan))
    assert [] == [finding.sentence() for finding in audit(new, first.plan)]


def test_nothing_is_spun_for_boxes_that_a_count_takes_away() -> None:
    """Old Mill closes at 6600, before any of its boxes is spun; none came from the other yards.

    Twelve were to be spun on Thursday, 18 more on Friday at 6700: cut short by the count, the
    first stretch is none in which the mill's boxes could have been spun, and so is the second.
    """
    told = put_in("suspect Old Mill", now=at(6600))
    spun = (Spinning(5104, 5164, ("caro",), 12), Spinning(6700, 6790, ("bob",), 18))
    plan = replace(told.plan, outfit=told.outfit, now_min=6600, spinning=spun)
    lines = [f"done {BOTH} {name}: nothing" for name in ("Creek Mouth", "Fernbank")]
    facts = put_in(*lines, now=at(6900), plan=plan)

    assert () == facts.plan.spinning


def test_stocks_before_anything_is_driven() -> None:
    """What is left is what there is; boards lost come off the boards owned."""
    facts = put_in(
        "blocks left 40", "strips left 200", "sugar left 0.5 t", "syrup left 600 L", "boards lost 5"
    ).outfit

    assert (40, 95, 200) == (facts.kit.blocks_owned, facts.kit.boards_owned, facts.strips.stock)
    assert (500_000, 600_000) == (facts.feed.sugar_g, facts.feed.ready_ml)


def with_pads() -> Plan:
    """The running plan where the mill gets pads, two for each colony as the strips elsewhere."""
    plan = running_plan()
    pads = replace(plan.outfit.strips, substance="formic acid", stock=99, id="pads")
    yards = (*plan.outfit.yards[:2], replace(plan.outfit.yards[2], strips="pads"))
    return replace(plan, outfit=replace(plan.outfit, yards=yards, strips_also=(pads,)))


@pytest.mark.parametrize(
    ("line", "stocks"),
    [
        # 40 strips are in hives of the first two yards by then, and no pads.
        ("strips left 12 amitraz", (52, 99)),
        ("strips left 12 of Formic acid: three packs burst", (None, 12)),
    ],
)
def test_strips_left_of_a_named_substance(line: str, stocks: tuple[int | None, int]) -> None:
    """The other substance keeps its stock."""
    facts = put_in(line, now=at(5050), plan=with_pads()).outfit

    assert stocks == (facts.strips.stock, facts.strips_also[0].stock)


def test_strips_left_tell_every_dose_of_the_substance() -> None:
    """Two kinds of one substance have one stock, and it need not be named."""
    plan = with_pads()
    double = replace(plan.outfit.strips, per_colony=4, id="pads")
    plan = replace(plan, outfit=replace(plan.outfit, strips_also=(double,)))
    facts = put_in("strips left 12", now=at(5050), plan=plan).outfit

    assert (52, 52) == (facts.strips.stock, facts.strips_also[0].stock)


@pytest.mark.parametrize("line", ["strips left 12", "strips left 12 of oxalic acid"])
def test_strips_left_of_which_substance(line: str) -> None:
    """Where two are in use, one of them must be named."""
    with pytest.raises(ScenarioError) as caught:
        put_in(line, now=NOON, plan=with_pads())

    (fault,) = caught.value.faults
    assert "the substance after the number: amitraz, formic acid" == fault.allowed


@pytest.mark.parametrize("sign", [" of ", " of: ", " ", ": ", " ("])
def test_strips_left_of_a_substance_that_the_plan_has_not(sign: str) -> None:
    """The plan has amitraz: 200 strips of thymol are none of these, whatever stands before it."""
    (told,) = faults(f"strips left 200{sign}thymol")

    assert "allowed: the substance after the number: amitraz" in told
    assert told.endswith("leave the line out. An example: 'strips left 200 amitraz'.")
    assert 200 == put_in("strips left 200: thymol for sale", now=NOON).outfit.strips.stock


def test_strips_left_of_a_substance_by_its_other_name() -> None:
    """Formic acid is what a driver calls formic; oxalic acid is not in use."""
    facts = put_in("strips left 12 of formic", now=NOON, plan=with_pads()).outfit

    assert 12 == facts.strips_also[0].stock


def test_stocks_count_what_is_used() -> None:
    """After the first trip 40 strips are in hives; 12 left makes a stock of 52.

    170 L were mixed and loaded; 204 L for the next trip, an hour and two minutes of mixing, began
    at 5040.  By 5050 they make 204 x 10 / 62 = 32.9 L: of 50 L left 17.1 L stood there before.
    At 5102 all 204 should: with 50 L left, 154 L were not mixed after all.
    Sugar: 374,000 ml x 1.327 x 0.667 = 331,030.8 g used, rounded up, and 1 kg left.
    """
    now = at(5050)
    facts = put_in("strips left 12", "syrup left 50 L", now=now)

    assert 52 == facts.outfit.strips.stock
    assert [170_000, 204_000] == [mix.ml for mix in facts.plan.mixing]
    assert 50_000 - 204_000 * 10 // 62 == facts.outfit.feed.ready_ml
    later = put_in("syrup left 50 L", now=at(5102))
    assert [170_000, 50_000] == [mix.ml for mix in later.plan.mixing]
    assert 0 == later.outfit.feed.ready_ml
    sugar = put_in("sugar left 1 kg", now=now).outfit.feed.sugar_g or 0
    assert 332_031 == sugar


def test_boxes_of_a_truck_that_is_late_are_not_spun_before_they_come() -> None:
    """Ten minutes after their spinning was to begin it is still at the yard.

    It has a way home from the honey house, so it is out; its boxes are planned to be spun anew.
    """
    outfit = an_outfit(((10, 0), (-30, 0)), (a_yard(1, days=2),), days=2)
    outfit = replace(outfit, home=Base(2, 0, DAY_MIN))
    plan = plan_season(outfit, rounds=1)
    begins = plan.spinning[0].start_min
    late = clock(begins + 10)
    facts = put_in(f"left Yard 1 {late}", now=f"1 Mar {late}", plan=plan)
    came = facts.plan.shifts[0].trips[0].calls[-1].end_min

    assert begins + 10 < came
    assert () == facts.plan.spinning
    new = driven(facts)
    assert 15 == sum(one.boxes for one in new.spinning)
    assert came <= min(one.start_min for one in new.spinning)


def test_boxes_that_never_came_to_a_house_apart_are_told() -> None:
    """Counted as nothing on the way, the truck went to the store alone; fifteen boxes came off."""
    outfit = an_outfit(((10, 0), (-30, 0)), (a_yard(1, days=2),), days=2)
    apart = replace(outfit.honey_house, base=Base(2, 0, DAY_MIN))
    plan = plan_season(replace(outfit, honey_house=apart), rounds=1)
    (trip,) = plan.shifts[0].trips
    stop = trip.yards()[0]
    on_the_way = f"1 Mar {clock(stop.start_min + 5)}"
    first = put_in(f"done {trip.id} Yard 1: nothing", now=on_the_way, plan=plan)
    facts = put_in(
        f"done {trip.id} Yard 1: 10 colonies 15 boxes", now="1 Mar 20:00", plan=first.plan
    )

    assert (
        f"{trip.id}: 15 full boxes by its counts, and it did not call at the honey house: see "
        "where they are and bring them over; they are in no line for spinning"
    ) in [str(note) for note in facts.notes]
    at_once = put_in(f"done {trip.id} Yard 1: 10 colonies 15 boxes", now="1 Mar 20:00", plan=plan)
    assert not any("honey house" in str(note) for note in at_once.notes)
