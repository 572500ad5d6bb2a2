"""Why a promised visit could not stay: told from the facts before and after."""

from dataclasses import replace

import pytest

from runplanner.daybook.differences import Shifted, Spot, differences
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.shut import Shut, Work
from runplanner.outfit.yards import Health
from runplanner.paperwork.changed.why_moved import (
    ANEW,
    CHEAPER,
    EITHER,
    LESS_LEFT,
    TO_FIT,
    counted_there,
    unforced,
    why_moved,
    why_new,
)
from runplanner.paperwork.speech.tongue import speaking
from tests.audit.planted import edited
from tests.paperwork.plans import Round, Stop, a_shift, feed, small_plan
from tests.running import running_plan

HOUSE = "the honey house does not take it"


@pytest.mark.parametrize(
    ("edits", "words"),
    [
        ({"yards.1.open_spans": ()}, "hours for opening hives are shut"),
        ({"yards.1.feed_spans": ()}, "hours for syrup are shut"),
        (
            {
                "yards.1.open_spans": (),
                "yards.1.shut": (
                    Shut(Work.OPEN, 3 * DAY_MIN, 4 * DAY_MIN, note="gale"),
                    Shut(Work.OPEN, 5 * DAY_MIN, 6 * DAY_MIN, note="later"),
                    Shut(Work.FEED, 3 * DAY_MIN, 4 * DAY_MIN, note="cold"),
                ),
            },
            "hours for opening hives are shut: gale",
        ),
        ({"yards.1.unsettled_spans": (Span(0, 9 * DAY_MIN),)}, "the night after is not settled"),
        ({"yards.1.unsettled_spans": (Span(5_500, 5_600),)}, "the night after is not settled"),
        (
            {
                "yards.1.unsettled_spans": (Span(5_500, 5_600), Span(6_130, 6_200)),
                "yards.1.shut": (
                    Shut(Work.SETTLE, 5_500, 5_600, note="thunder"),
                    Shut(Work.SETTLE, 6_130, 6_200, note="rain"),
                ),
            },
            "the night after is not settled: thunder",
        ),
        # Beyond the next sunrise (6,120), or over before the visit is (4,955).
        ({"yards.1.unsettled_spans": (Span(6_130, 6_200), Span(4_500, 4_900))}, TO_FIT),
        # Other hours of the day are shut.
        ({"yards.1.open_spans": (Span(4_800, 5_000),)}, TO_FIT),
        ({"yards.1.strips_shut_days": (3,)}, "the day is not fit for strips"),
        ({"yards.1.health": Health.WATCH}, "the yard is under watch"),
        (
            {"yards.1.health": Health.WATCH, "yards.1.licence": "No 17"},
            "the yard is under standstill, licence No 17",
        ),
        ({"yards.1.colonies": 8}, "the yard has 8 colonies, not 10"),
        ({"yards.1.boxes": 20}, "the yard's boxes are counted anew"),
        ({"yards.1.sites": ((0, 1),)}, "the yard has moved"),
        ({"trucks.1.out_days": (3,)}, "Red is out"),
        (
            {"trucks.1.out_days": (3,), "yards.2.carried_by": ((3, "truck2"),)},
            "Red carries the hives of Old Mill to the new place",
        ),
        ({"trucks.1.out_days": (3,), "yards.2.carried_by": ((4, "truck2"),)}, "Red is out"),
        ({"people.0.off_days": (3,)}, "Ann is away"),
        ({"honey_house.full": (Span(0, 9 * DAY_MIN),)}, HOUSE),
        ({"honey_house.full": (Span(4 * DAY_MIN, 9 * DAY_MIN),)}, TO_FIT),
        ({"honey_house.stopped": (Span(0, 9 * DAY_MIN),)}, "the honey house spins nothing"),
        ({"honey_house.stopped": (Span(0, 3 * DAY_MIN),)}, TO_FIT),
        (
            {"yards.1.health": Health.SUSPECT, "people.0.off_days": (3,)},
            "the yard is under suspicion",
        ),
        (
            {"yards.1.health": Health.WATCH, "people.0.off_days": (3,)},
            "the yard is under watch; Ann is away",
        ),
        # On the day before, all day long: nothing stands against its boxes.
        ({"honey_house.full": (Span(2 * DAY_MIN, 3 * DAY_MIN),)}, TO_FIT),
        ({"trucks.1.out_days": (4,)}, TO_FIT),
        ({"people.1.off_days": (3,)}, TO_FIT),
        ({"yards.2.open_spans": ()}, TO_FIT),
    ],
)
def test_why_a_visit_moved(edits: dict[str, object], words: str) -> None:
    """What has come to stand against Creek Mouth's visit on day 3 is named; else it made room."""
    plan = running_plan()
    gone = differences(plan, replace(plan, shifts=()))
    one = next(one for one in gone.moved if one.spot.yard == "creek-mouth")
    after = edited(plan, {f"outfit.{path}": value for path, value in edits.items()}).outfit

    assert words == why_moved(plan.outfit, after, one, TO_FIT)


@pytest.mark.parametrize("job", [Job.STRIPS, Job.WET_UP, Job.WET_DOWN, Job.FEEDERS])
def test_work_that_wants_the_one_or_the_other_hours_moves_where_both_are_shut(job: Job) -> None:
    """Strips, wet boxes or feeders by themselves: hours for syrup do, or those for hives."""
    plan = running_plan()
    gone = differences(plan, replace(plan, shifts=()))
    spot = next(one.spot for one in gone.moved if one.spot.yard == "creek-mouth")
    one = Shifted(replace(spot, actions=(Action(job, 10),)), None)
    note = Shut(Work.FEED, 3 * DAY_MIN, 4 * DAY_MIN, note="rain")

    def why(edits: dict[str, object]) -> str:
        return why_moved(plan.outfit, edited(plan, edits).outfit, one, TO_FIT)

    shut: dict[str, object] = {"outfit.yards.1.open_spans": (), "outfit.yards.1.shut": (note,)}
    assert TO_FIT == why(shut)
    words = "hours for opening hives and for syrup are shut: rain"
    assert words == why({**shut, "outfit.yards.1.feed_spans": ()})


def test_a_trailer_that_is_out_is_the_reason_where_the_visit_had_it() -> None:
    """As a truck is; who drove without it made room."""
    plan = running_plan()
    gone = differences(plan, replace(plan, shifts=()))
    spot = next(one.spot for one in gone.moved if one.spot.yard == "creek-mouth")
    after = edited(plan, {"outfit.trailers.0.out_days": (3,)}).outfit

    def why(trailer: str, outfit: Outfit = after) -> str:
        return why_moved(outfit, after, Shifted(replace(spot, trailer=trailer), None), TO_FIT)

    assert "Box trailer is out" == why("t", plan.outfit)
    assert TO_FIT == why("", plan.outfit)
    assert TO_FIT == why("t")


def test_honey_that_comes_in_that_day_has_nothing_against_it() -> None:
    """The house spins nothing: no reason for Creek Mouth's stop to be two colonies shorter."""
    plan = running_plan()
    gone = differences(plan, replace(plan, shifts=()))
    one = next(one for one in gone.moved if one.spot.yard == "creek-mouth")
    after = edited(plan, {"outfit.honey_house.stopped": (Span(0, 9 * DAY_MIN),)}).outfit

    assert TO_FIT == why_moved(plan.outfit, after, replace(one, now=one.was), TO_FIT)


def test_wet_boxes_that_were_counted_are_the_reason() -> None:
    """Of 31 colonies 61 come down, not 63; of 30 it may be another part of the yard."""
    plan = running_plan()
    gone = differences(plan, replace(plan, shifts=()))
    spot = gone.moved[0].spot
    was, now, part = (
        replace(spot, actions=(Action(Job.WET_DOWN, colonies, wet=wet),))
        for colonies, wet in ((31, 63), (31, 61), (30, 61))
    )

    def why(then: Spot | None) -> str:
        return why_moved(plan.outfit, plan.outfit, Shifted(was, then), TO_FIT)

    assert "its wet boxes are counted anew" == why(now)
    assert [TO_FIT] * 3 == [why(then) for then in (was, part, None)]


def test_why_a_visit_is_new() -> None:
    """Work that was left, a yard that was not there; a part of another visit has no such reason."""
    new = running_plan()
    bare, other = replace(new, shifts=()), edited(new, {"outfit.yards.1.id": "elsewhere"})
    spot = next(one.spot for one in differences(bare, new).moved if one.spot.yard == "creek-mouth")

    assert "left undone until now" == why_new(bare, new, spot, TO_FIT)
    assert "the yard is new" == why_new(other, new, spot, TO_FIT)
    assert TO_FIT == why_new(new, new, spot, TO_FIT)
    fewer = edited(new, {"outfit.yards.1.boxes": 20})
    assert "the yard's boxes are counted anew" == why_new(new, fewer, spot, TO_FIT)


def test_why_is_said_in_german() -> None:
    """The yard came under watch and lost a colony: both are told in the language spoken."""
    plan = running_plan()
    gone = differences(plan, replace(plan, shifts=()))
    one = next(one for one in gone.moved if one.spot.yard == "creek-mouth")
    edits = {"outfit.yards.1.health": Health.WATCH, "outfit.yards.1.colonies": 9}
    after = edited(plan, edits).outfit

    with speaking("de"):
        assert why_moved(plan.outfit, after, one, TO_FIT).startswith(
            "der Stand ist unter Beobachtung; "
        )


@pytest.mark.parametrize(
    ("unfed_g", "cents", "news", "words"),
    [
        (-1, 0, False, LESS_LEFT),
        (-1, -1, True, EITHER),
        (0, -1, False, CHEAPER),
        (0, -1, True, TO_FIT),
        (1, -1, True, TO_FIT),
        (0, 0, False, ANEW),
        (0, 1, False, ANEW),
        (0, 0, True, TO_FIT),
    ],
)
def test_what_else_a_visit_moves_for(unfed_g: int, cents: int, words: str, *, news: bool) -> None:
    """Less left undone, or less cost; with news told, what has to be fitted in; else nothing."""
    plan = running_plan()
    before = replace(plan, tally=replace(plan.tally, unfed_g=1_000))
    tally = replace(before.tally, unfed_g=1_000 + unfed_g)
    after = replace(before, tally=tally, bill=replace(plan.bill, km=plan.bill.km + cents))

    assert words == unforced(before, after, news=news)


def test_counts_are_told_as_they_were_typed() -> None:
    """30 fed in the first round as planned, 28 of 30 in the second: no 58, and not the 60 of both.

    Of two lots of one job only the one told otherwise counts.
    """

    def told(*calls: tuple[Action, ...], counted: bool = True) -> Plan:
        plan = small_plan()
        stops = [Round(f"d{at}", (Stop(1, 30, one),)) for at, one in enumerate(calls)]
        shifts = [a_shift(plan.outfit, at, [one]) for at, one in enumerate(stops)]
        new = replace(plan, shifts=tuple(shifts))
        for at in range(len(calls)) if counted else ():
            call = f"shifts.{at}.trips.0.calls.1"
            new = edited(new, {f"{call}.counted": calls[at], f"{call}.planned": calls[at]})
        return new

    rounds = (feed(30, 150),), (feed(30, 150, 2),)
    printed = told(*rounds, counted=False)
    second = counted_there(printed, told((feed(30, 150),), (feed(28, 140, 2),)), "yard1")
    assert "counted there: syrup (round 2) 28, not 30" == second
    first = counted_there(printed, told((feed(29, 145),), (feed(28, 140, 2),)), "yard1")
    assert "counted there: syrup 29, not 30; syrup (round 2) 28, not 30" == first
    assert "" == counted_there(printed, told(*rounds), "yard1")
    lots = told((feed(10, 50),), (feed(20, 100),), counted=False)
    lot = counted_there(lots, told((feed(10, 50),), (feed(18, 90),)), "yard1")
    assert "counted there: syrup 18, not 20" == lot
