"""A small invented campaign that is being driven, for tests of what changes on the way."""

from dataclasses import replace
from functools import cache
from pathlib import Path

from runplanner.changes.typed import Changed, changed, typed_changes
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_from_text
from runplanner.daybook.trip import Action, Call, Job, Shift, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Person
from runplanner.outfit.trucks import Deck, Trailer
from runplanner.outfit.yards import Clearing
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.outfits import a_truck, a_yard, an_outfit

DAYS = 8


def running_outfit() -> Outfit:
    """Three yards, one under boards; two trucks, a trailer, three people; 1 to 8 March 2027."""
    yards = (
        replace(a_yard(1, days=DAYS), id="fernbank", name="Fernbank", district="coast"),
        replace(a_yard(2, days=DAYS), id="creek-mouth", name="Creek Mouth", district="coast"),
        replace(
            a_yard(3, days=DAYS, colonies=24, boxes=40), id="mill", name="Old Mill",
            clearing=Clearing.BOARDS,
        ),
    )  # fmt: skip
    trucks = (
        replace(a_truck(1), name="Blue flatdeck", train_max_g=4_500_000, drivers=("ann", "caro")),
        replace(a_truck(2), name="Red", drivers=("ann", "caro")),
    )
    people = (
        Person("ann", "Ann", drives=True, spins=True, mixes=True),
        Person("bob", "Bob", drives=False, spins=True, mixes=True),
        Person("caro", "Caro", drives=True, spins=True, mixes=True),
    )
    trailer = Trailer(
        "t", "Box trailer", 200_000, 750_000, Deck(2_500, 1_300, 900, 4), 1_700, 950, 10
    )
    return an_outfit(
        [(10, 0), (14, 0), (20, 5)], yards, days=DAYS, trucks=trucks, people=people,
        trailers=(trailer,),
    )  # fmt: skip


@cache
def running_plan() -> Plan:
    """A plan of that campaign, once made and kept, its margins worked out again.

    So tests lean on its hours, not on what the search finds today.
    """
    text = Path(__file__).with_name("running_plan.json").read_text(encoding="utf-8")
    kept = plan_from_text(text)
    return replan_season(kept, running_outfit(), 0, rounds=0)


def feeds_fernbank_on_friday() -> Plan:
    """The plan, its Friday trip going to Fernbank to feed it once more and put strips in."""
    plan = running_plan()
    thursday, friday = plan.shifts
    trip, fernbank = friday.trips[0], thursday.trips[0].calls[3]
    rest = tuple(one for one in fernbank.actions if one.job is not Job.TAKE_OFF)
    calls = tuple(
        replace(call, yard="fernbank", place=fernbank.place, actions=rest) if call.yard else call
        for call in trip.calls
    )
    return replace(plan, shifts=(thursday, replace(friday, trips=(replace(trip, calls=calls),))))


@cache
def wet_plan() -> Plan:
    """A plan of that campaign with emptied boxes back up for a night, and feeders that go round."""
    outfit = running_outfit()
    yards = tuple(replace(yard, wet_back=yard.id != "fernbank") for yard in outfit.yards)
    rules = replace(outfit.rules, wet_least_days=1, wet_best_days=1, wet_from_min=15 * 60)
    kit = replace(outfit.kit, feeders_owned=40)
    return plan_season(replace(outfit, yards=yards, rules=rules, kit=kit), rounds=1)


def put_in(*lines: str, now: str = "", plan: Plan | None = None) -> Changed:
    """The campaign with ``lines`` typed."""
    return changed(plan or running_plan(), typed_changes(lines, now))


def stop_with(job: Job, plan: Plan | None = None) -> tuple[Shift, Trip, Call, Action]:
    """The first stop of the plan that does ``job``."""
    for shift in (plan or running_plan()).shifts:
        for trip in shift.trips:
            for call in trip.yards():
                for action in call.actions:
                    if action.job is job:
                        return shift, trip, call, action
    raise AssertionError(job)


def at(minute: int) -> str:
    """A minute of the campaign as it is typed."""
    return f"2027-03-{minute // 1440 + 1:02d} {minute % 1440 // 60:02d}:{minute % 60:02d}"


def with_fewer(plan: Plan, fewer: int) -> Plan:
    """Return a plan whose last shift does so many colonies fewer at each yard, at the same time."""
    *others, shift = plan.shifts
    trips = tuple(
        replace(
            trip,
            calls=tuple(
                replace(
                    call,
                    actions=tuple(
                        replace(one, colonies=one.colonies - fewer) for one in call.actions
                    ),
                )
                for call in trip.calls
            ),
        )
        for trip in shift.trips
    )
    return replace(plan, shifts=(*others, replace(shift, trips=trips)))
