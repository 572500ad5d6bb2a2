"""What was driven is past judging; it is not rewritten, and nothing new is in the past."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Mixing, Plan, Spinning
from runplanner.daybook.trip import Against, Job, Stowed
from runplanner.days import Span
from runplanner.outfit.people import Person
from runplanner.outfit.trucks import Axles
from runplanner.outfit.yards import Access, Clearing, Health
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.audit.breaches_driven import UNDER_WAY, feed_out
from tests.audit.plans import left_undone, plain, with_trailer
from tests.audit.planted import edited
from tests.audit.writing import STRIPS_10, goods
from tests.outfits import a_yard, an_outfit
from tests.running import put_in

NOON_OF_DAY_0 = 719


def under_way(**more: object) -> Plan:
    """The plain plan at noon of day 0: the take-off trip is driven, spinning is still to come."""
    edits: dict[str, object] = {"now_min": NOON_OF_DAY_0, "shifts.0.trips.0.driven": True}
    return edited(plain(), edits | {name.replace("__", "."): new for name, new in more.items()})


def rules(plan: Plan, before: Plan | None = None) -> set[str]:
    """The rules a plan breaks."""
    return {finding.rule for finding in audit(plan, before)}


def test_a_plan_under_way_is_still_good() -> None:
    """Marking what was driven breaks no rule, and the plan rewrites nothing of itself."""
    assert () == audit(under_way())
    assert () == audit(under_way(), plain())


@pytest.mark.parametrize("plan", UNDER_WAY)
def test_plans_with_goods_on_their_way_are_good(plan: Callable[[], Plan]) -> None:
    """Nothing is wrong with stops to come as they were planned."""
    assert () == audit(plan())


def test_stops_to_come_are_judged_by_what_they_are_to_do_not_by_who_lives() -> None:
    """Two of ten died: 85 l and 20 strips on their way are right for ten.

    So are they where the yard is found to have got its strips the day before.
    """
    died: dict[str, object] = {"outfit.yards.0.colonies": 8}
    done: dict[str, object] = {
        "shifts.0.trips.0.calls.1.actions": lambda actions: (*actions, STRIPS_10)
    }

    assert not {"feed amount", "strip dose", "strips at once"} & rules(edited(feed_out(), died))
    assert "strips at once" in rules(edited(plain(), done))
    assert "strips at once" not in rules(edited(feed_out(), done))


def test_driven_trips_are_not_judged_by_what_is_known_since() -> None:
    """A window that shut over a driven visit is no finding; over one to come it is."""
    shut = {"outfit.yards.0.open_spans": ()}

    assert () == audit(edited(under_way(), shut))
    assert {"open hours"} == rules(edited(plain(), shut)) - {"latest leaving"}


def test_driven_trips_still_happened_on_one_clock() -> None:
    """What was driven can still be told wrongly: the order of its times is judged."""
    assert "clock" in rules(edited(under_way(), {"shifts.0.trips.0.calls.1.arrive_min": 476}))
    assert "driving figures" in rules(edited(under_way(), {"shifts.0.metres": 28_001}))


def test_somebody_away_since_is_past_judging() -> None:
    """Bob away on day 0: his trip and his mixing are over, his spinning is to come."""
    plan = edited(under_way(), {"outfit.people.1.off_days": (-1, 0)})

    found = audit(plan)

    assert ["day off"] == [finding.rule for finding in found]
    assert "spinning" in found[0].said


def test_a_changed_shift_is_rewritten_history() -> None:
    """Another crew on the driven shift is told apart, with the trip it is about."""
    plan = edited(under_way(), {"shifts.0.crew": ("ann",)})

    found = [finding for finding in audit(plan, plain()) if finding.rule == "driven"]

    assert ["off"] == [finding.trip for finding in found]


def test_a_tank_set_over_since_is_rewritten_history() -> None:
    """On a trip that has left nothing is loaded otherwise than it was told."""
    told = Stowed((), trailer_loads=True, trailer_stops=True)

    assert "driven" in rules(edited(under_way(), {"shifts.0.trips.0.stowed": told}), plain())


def test_a_dropped_shift_is_rewritten_history() -> None:
    """The driven shift left out of the new plan is missed."""
    plan = under_way()

    assert "driven" in rules(replace(plan, shifts=plan.shifts[1:]), plain())
    no_trips = replace(plain(), shifts=(replace(plain().shifts[0], trips=()),))
    assert "driven" in rules(replace(plan, shifts=plan.shifts[1:]), no_trips)


def test_a_shift_added_to_the_past_is_found() -> None:
    """The plan before had no shift on day 0."""
    before = replace(plain(), shifts=plain().shifts[1:])

    assert "driven" in rules(under_way(), before)


def test_spinning_and_mixing_begun_are_not_rewritten() -> None:
    """Mixing on the day before is done; spinning at noon is not yet begun at 11:59."""
    mixed = (Mixing(-960, -909, "bob", 169_000),)
    spun = (Spinning(725, 875, ("bob",), 30),)

    assert "driven" in rules(edited(under_way(), {"mixing": mixed}), plain())
    assert "driven" not in rules(edited(under_way(), {"spinning": spun}), plain())
    begun = edited(under_way(), {"spinning": spun, "now_min": 730})
    assert "driven" in rules(begun, plain())


def test_a_first_plan_has_no_past() -> None:
    """With now at nought nothing has begun, whatever the plan before."""
    assert () == audit(plain(), left_undone())


def test_the_rest_of_a_split_yard_is_worth_a_visit() -> None:
    """Fourteen of twenty-four are driven off: the ten left may be fewer than the least lot."""
    late = {"outfit.rules.smallest_lot": 11}
    driven = {"now_min": 500, "shifts.0.trips.0.driven": True}

    assert "smallest lot" in rules(edited(with_trailer(), late))
    assert "smallest lot" not in rules(edited(with_trailer(), late | driven))


def test_work_on_colonies_that_are_no_more_does_not_count() -> None:
    """Two of ten have died since the take-off: eight are left, all off, eight to feed.

    Feed of 8 x 8,500 and 16 strips are 17 l and 4 strips less; the driven take-off of ten
    counts for eight.
    """
    fewer = edited(
        under_way(),
        {
            "outfit.yards.0.colonies": 8,
            "shifts.1.trips.0.calls.1.actions.0.colonies": 8,
            "shifts.1.trips.0.calls.1.actions.0.ml": 68_000,
            "shifts.1.trips.0.calls.1.actions.1.colonies": 8,
            "shifts.1.trips.0.calls.1.actions.1.pieces": 16,
        },
    )

    # The loads and the bill are those of ten colonies still; all that is about colonies holds.
    assert {"aboard", "bill"} == rules(fewer)


def test_hours_the_plant_stands_still() -> None:
    """A breakdown from 13:00 to 13:30 is in the spinning of day 0, unless that has begun."""
    down = {"outfit.honey_house.stopped": (Span(780, 810),)}
    later = {"outfit.honey_house.stopped": (Span(870, 900),)}

    assert {"spinning hours"} == rules(edited(plain(), down))
    assert set() == rules(edited(plain(), later))
    assert set() == rules(edited(under_way(), down | {"now_min": 725}))


def test_days_the_honey_house_takes_nothing() -> None:
    """Full from 616 on the honey is in just in time; full from 615 it is not.

    Syrup for day 1 is loaded and cans are brought back there all the same.
    """
    in_time = {"outfit.honey_house.full": (Span(616, 9_000),)}
    too_late = {"outfit.honey_house.full": (Span(615, 9_000),)}

    assert "base hours" not in rules(edited(plain(), in_time))
    assert "base hours" in rules(edited(plain(), too_late))


def hurried(spin_by_min: int, **more: object) -> Plan:
    """The plan under way, where yard 1's honey spoils so many minutes after 530."""
    hard = {"outfit.yards.0.spin_by_hard": True, "outfit.yards.0.spin_by_min": spin_by_min}
    return edited(under_way(**more), hard)


def test_honey_of_a_driven_trip_spoils_only_where_nobody_could_spin_it_in_time() -> None:
    """Bob alone begins the 15th box at 790.  Ann is free as well, and two spin 20 an hour.

    At nine tenths, 18 an hour, and with a break at 450 + 360 = 810 they begin it at
    720 + 14 x 90 / 27 = 766.  Due at 766 it could be in time, due at 765 not; then five
    boxes, from 770 on, are a day late and cost 50 each.
    """
    assert () == audit(hurried(260))
    assert {"spin by", "bill"} == rules(hurried(236))
    assert {"bill"} == rules(hurried(235))
    assert () == audit(edited(hurried(235), {"bill.spin_late": 250}))
    assert "spin by" in rules(edited(plain(), {
        "outfit.yards.0.spin_by_hard": True, "outfit.yards.0.spin_by_min": 235,
    }))  # fmt: skip


def test_nobody_is_blamed_for_spinning_that_has_begun_or_that_others_could_not_do() -> None:
    """At 12:10 it has begun; without Ann, or where the plant stands still, there is no other."""
    ann_away = {"outfit.people.0.spins": False}
    ann_mixes = {"mixing": lambda mixing: (*mixing, Mixing(720, 770, "ann", 1_000))}
    stands = {"outfit.honey_house.stopped": (Span(740, 840),)}
    later = {"mixing": lambda mixing: (*mixing, Mixing(1_000, 1_005, "bob", 1_000))}

    assert "spin by" not in rules(edited(hurried(236), {"now_min": 730}))
    for edits in (ann_away, ann_mixes, stands, later):
        assert "spin by" not in rules(edited(hurried(236), edits))


def test_spinning_put_off_to_another_day_is_seen() -> None:
    """Spun on day 1 from 8:00, though both are free on day 0 from 12:00; due on day 1 at 5:30.

    In the morning of day 1 they are on the truck as well, so where the plant stands still on
    day 0 nobody could.  A spin-by that is not hard is only dear.
    """
    put_off: dict[str, object] = {"spinning": (Spinning(2_160, 2_310, ("bob",), 30),)}
    stands = {"outfit.honey_house.stopped": (Span(600, 1_440),)}

    assert "spin by" in rules(edited(hurried(1_240), put_off))
    assert "spin by" not in rules(edited(hurried(1_240), put_off | stands))
    soft = {"outfit.yards.0.spin_by_hard": False}
    assert "spin by" not in rules(edited(hurried(1_240), put_off | soft))


def test_honey_is_not_spun_before_a_driven_truck_brings_it() -> None:
    """The truck is out at 8:20 and unloads until 616; the first stretch, from 10:00, is early."""
    early: dict[str, object] = {"now_min": 500, "spinning": (Spinning(600, 750, ("bob",), 30),)}

    assert "queue" in rules(under_way(**early))
    assert "queue" not in rules(under_way(**early | {"now_min": 605}))


def test_room_for_what_a_driven_truck_brings() -> None:
    """Thirty come in at 616 where 40 stood: in a room for 60, ten had to be spun before.

    The plan begins at 720.  At 8:20 nobody is at home who could; Cat would be from 8:20, 10 an
    hour at nine tenths: 19 by 616.
    """
    full: dict[str, object] = {
        "outfit.honey_house.waiting_boxes": 40,
        "outfit.honey_house.room_boxes": 60,
        "now_min": 500,
    }
    cat = Person("cat", "Cat", drives=False, spins=True, mixes=False)
    helped: dict[str, object] = {"outfit.people": lambda people: (*people, cat)}

    assert "room" in rules(edited(plain(), full | {"now_min": 0}))
    assert "room" not in rules(edited(under_way(), full))
    assert "room" in rules(edited(under_way(), full | helped))
    assert "room" in rules(
        edited(under_way(), full | helped | {"outfit.honey_house.room_boxes": 51})
    )
    assert "room" not in rules(
        edited(under_way(), full | helped | {"outfit.honey_house.room_boxes": 50})
    )


def test_who_is_out_mixes_nothing_in_that_half_day() -> None:
    """Ann is out until 10:16 and then mixes from 10:30: at 8:20 that can be changed."""
    mixing: dict[str, object] = {
        "mixing": lambda mixing: (*mixing, Mixing(630, 640, "ann", 1_000)),
        "now_min": 500,
    }

    assert "half-day" in rules(edited(under_way(), mixing))
    assert "half-day" not in rules(edited(under_way(), mixing | {"now_min": 635}))


def off_rules(plan: Plan, yard: str = "") -> set[str]:
    """The rules that the driven trip breaks, at one yard or at all."""
    found = (one for one in audit(plan) if one.trip == "off" and yard in {"", one.yard})
    return {one.rule for one in found}


AHEAD = "shifts.0.trips.0.calls.2"
LOADED, AT_WORK = 470, 534
"""Loaded from 450 to 465, the first yard is begun at 480, the second at 534."""


@pytest.mark.parametrize(
    ("rule", "edits"),
    [
        ("aboard", {f"{AHEAD}.after.places": 1}),
        ("boxes limit", {f"{AHEAD}.boxes_limit": 900}),
        ("mass", {"shifts.0.trips.0.left": goods(3_000_000, 0)}),
        ("latest leaving", {f"{AHEAD}.latest_leave_min": 1_200}),
        ("work minutes", {"outfit.pace.inspect_s": 400}),
        ("job order", {f"{AHEAD}.actions": lambda actions: actions[::-1]}),
        ("entry", {f"{AHEAD}.actions.0.pieces": 1}),
        ("unload place", {"shifts.0.trips.0.calls.3.place": 1}),
        ("yard place", {f"{AHEAD}.place": 1}),
        ("working day", {"outfit.hours.end_min": 610}),
        ("duty", {"outfit.hours.duty_max_min": 165}),
        ("driving limit", {"outfit.hours.driving_max_min": 27}),
        ("duty break", {"outfit.hours.duty_break_after_min": 165}),
        ("driving break", {"outfit.hours.drive_break_after_min": 27}),
    ],
)
def test_what_is_ahead_of_a_driven_trip_is_judged(rule: str, edits: dict[str, object]) -> None:
    """At 7:50 the truck has loaded and nothing else has begun; at 10:17 it is home again."""
    assert rule not in off_rules(under_way(now_min=LOADED))
    assert rule in off_rules(edited(under_way(now_min=LOADED), edits))
    assert rule not in off_rules(edited(under_way(now_min=616), edits))


@pytest.mark.parametrize(
    ("rule", "edits"),
    [
        ("boxes limit", {f"{AHEAD}.boxes_limit": 900}),
        ("latest leaving", {f"{AHEAD}.latest_leave_min": 1_200}),
        ("latest leaving", {f"{AHEAD}.latest_leave_min": 10}),
    ],
)
def test_margins_of_a_stop_at_work_are_judged_until_it_is_counted(
    rule: str, edits: dict[str, object]
) -> None:
    """The second yard is at work from 534 to 588; nothing else is asked of what has begun."""
    now = AT_WORK + 1
    counted = {f"{AHEAD}.counted": lambda _: under_way().shifts[0].trips[0].calls[2].actions}

    assert () == audit(under_way(now_min=now))
    assert {rule} == rules(edited(under_way(now_min=now), edits))
    assert set() == rules(edited(under_way(now_min=now), edits | counted))
    # A count told before it has begun does not end them.
    assert rule in off_rules(edited(under_way(now_min=LOADED), edits | counted))
    assert set() == rules(edited(under_way(now_min=588), edits))


@pytest.mark.parametrize(
    ("rule", "against", "at", "edits"),
    [
        ("mass", Against.LOAD, 2, {"outfit.trucks.0.max_g": 2_850_000}),
        ("deck", Against.LOAD, 2, {"outfit.trucks.0.deck.stack_boxes": 1,
                                   "outfit.trucks.0.deck.width_mm": 1_700}),
        ("access", Against.LOAD, 2, {"outfit.yards.1.access": Access(max_vehicle_g=2_870_000)}),
        ("axles", Against.LOAD, 2,
         {"outfit.trucks.0.axles": Axles(1_200_000, 900_000, 100, 1_800_000, 1_300_000, 900)}),
        ("gate", Against.HOURS, 2, {"outfit.yards.1.access": Access(closes_min=583)}),
        ("daylight", Against.HOURS, 2, {"outfit.yards.1.sun_spans.0": Span(360, 583)}),
        ("open hours", Against.HOURS, 2, {"outfit.yards.1.open_spans": ()}),
        ("settling", Against.HOURS, 2, {"outfit.yards.1.unsettled_spans": (Span(900, 960),)}),
        ("base hours", Against.HOURS, 3, {"outfit.honey_house.full": (Span(600, 700),)}),
        ("health", Against.HEALTH, 2, {"outfit.yards.1.health": Health.SUSPECT}),
        ("last yard", Against.ORDER, 1, {"outfit.yards.0.health": Health.WATCH}),
        ("last yard", Against.BEHIND, 2, {"outfit.yards.0.health": Health.WATCH,
                                          "now_min": 480}),
        ("work minutes", Against.WASH, 2, {"outfit.pace.inspect_s": 241}),
    ],
)  # fmt: skip
def test_what_stands_against_a_call_is_known_where_it_is_told(
    rule: str, against: Against, at: int, edits: dict[str, object]
) -> None:
    """Since the truck left it has been counted or heard of; of what is not told it is judged."""
    plan = edited(under_way(now_min=LOADED), edits)
    call = f"shifts.0.trips.0.calls.{at}.against"
    other, yard = Against.HOUSE, plan.shifts[0].trips[0].calls[at].yard

    assert rule in off_rules(plan, yard)
    assert rule in off_rules(edited(plan, {call: (other,)}), yard)
    assert rule not in off_rules(edited(plan, {call: (other, against)}), yard)


def test_a_latest_minute_is_not_blamed_for_what_leaving_on_time_breaks() -> None:
    """The second yard is shut since: nobody can leave the first in time for it."""
    shut: dict[str, object] = {"outfit.yards.1.open_spans": ()}
    told: dict[str, object] = {f"{AHEAD}.against": (Against.HOURS,)}

    assert "latest leaving" in rules(edited(plain(), shut))
    assert set() == rules(edited(under_way(now_min=LOADED), shut | told))


def test_boards_that_counts_leave_too_few_are_known() -> None:
    """Ten boards put on at the second yard were not aboard: arithmetic holds, boards lack."""
    fewer: dict[str, object] = {
        f"{AHEAD}.actions": lambda actions: (replace(actions[0], job=Job.BOARDS, boxes=0,
                                                     pieces=10), *actions[1:]),
        f"{AHEAD}.after.boards": -10,
    }  # fmt: skip
    plan = edited(under_way(now_min=LOADED), fewer)
    told = edited(plan, {f"{AHEAD}.against": (Against.LOAD,)})
    lacks = ("aboard", "-10 boards")

    def short(plan: Plan) -> int:
        return sum(lacks == (one.rule, one.said[:10]) for one in audit(plan))

    assert (1, 0) == (short(plan), short(told))
    # Honey house and store apart: they lack where honey is unloaded as well, told or not.
    house: dict[str, object] = {
        "shifts.0.trips.0.calls": lambda calls: (
            *calls[:3], replace(calls[3], after=replace(calls[3].after, boards=-10)), *calls[3:]
        )
    }  # fmt: skip
    assert (1, 0) == (short(edited(plan, house)), short(edited(told, house)))


def test_deck_places_and_boards_of_calls_that_are_over_are_past_judging() -> None:
    """A yard heard of since had its boxes stowed with others'; boards laid were not there."""
    watched: dict[str, object] = {
        "outfit.yards.0.health": Health.WATCH,
        "shifts.0.trips.0.calls.2.after.places": 7,
    }
    lent: dict[str, object] = {
        f"shifts.0.trips.0.calls.{at}.after": lambda goods: replace(goods, boards=-1)
        for at in range(3)
    }

    assert {"aboard", "last yard"} <= rules(edited(plain(), watched))
    assert "aboard" not in rules(edited(under_way(), watched))
    assert "aboard" in rules(edited(plain(), lent))
    assert "aboard" not in rules(edited(under_way(), lent))


@pytest.mark.parametrize(
    ("rule", "limits"),
    [
        # From 7:30 to 10:16, of which the drive home is from 9:44 to 9:58, 28 min in all.
        ("driving break", {"outfit.hours.drive_break_after_min": 27}),
        ("duty break", {"outfit.hours.duty_break_after_min": 140,
                        "outfit.hours.duty_break_min": 1, "shifts.0.breaks": (Span(598, 599),),
                        "shifts.0.trips.0.calls.3.start_min": 599}),
    ],
)  # fmt: skip
def test_nobody_can_rest_in_a_drive_under_way(rule: str, limits: dict[str, object]) -> None:
    """What is too long only by the drive in which the truck is by now cannot be helped."""
    assert rule in off_rules(edited(under_way(now_min=583), limits))
    assert rule not in off_rules(edited(under_way(now_min=584), limits))


def test_unloading_is_as_long_as_was_planned_where_counts_bring_more() -> None:
    """Thirty boxes more off the first yard: 30 x 30 s / 2 are 8 min more to unload."""
    more: dict[str, object] = {"shifts.0.trips.0.calls.1.actions.0.boxes": 45, "now_min": 532}
    counted: dict[str, object] = {
        "shifts.0.trips.0.calls.1.planned": plain().shifts[0].trips[0].calls[1].actions
    }

    assert "work minutes" in rules(edited(under_way(), more))
    assert "work minutes" not in rules(edited(under_way(), more | counted))


def test_honey_counted_where_none_was_planned_takes_boards_for_the_rest_alone() -> None:
    """Of 10 colonies planned without honey, so without boards, 6 are off: 4 get boards."""
    yard = replace(a_yard(1, boxes=0, days=8), clearing=Clearing.BOARDS)
    plan = plan_season(an_outfit([(10, 0)], (yard,), days=8), rounds=0)
    done = f"done {plan.shifts[0].trips[0].id} Yard 1: 6 colonies 1 box"
    facts = put_in(done, now="1 Mar 20:00", plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
    boards = [
        action.pieces
        for shift in new.shifts
        for trip in shift.trips
        for call in trip.calls
        for action in call.actions
        if action.job is Job.BOARDS
    ]

    assert [4] == boards
    assert () == audit(new, facts.plan)
