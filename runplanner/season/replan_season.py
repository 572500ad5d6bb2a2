"""A new plan from an old one: what was driven stays, what was promised is dear to move."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from runplanner.daybook.plan import Bill, Bound, Plan
from runplanner.daybook.trip import Job, Shift
from runplanner.outfit.outfit import Outfit, Prices
from runplanner.season.facts import promised_days, standing_of
from runplanner.season.finish import tally
from runplanner.season.improve import Improver
from runplanner.season.plan_season import (
    Listener,
    Watch,
    default_rounds,
    finished,
    refuse_hopeless,
    untroubled,
)
from runplanner.season.state import Keeper, Key, State
from runplanner.trips.ground import Ground
from runplanner.trips.judged import Judged
from runplanner.trips.stop import Day, Stop

KEEP_CENTS = 1_000_000


@dataclass(frozen=True, slots=True)
class Upset:
    """How dear it is to move a promised visit, in words and in cents a visit.

    ``rounds_share`` in per mille: how much of the usual effort goes into moving more than
    must be moved.
    """

    name: str
    move_cents: int
    rounds_permille: int


LEAST = Upset("least change", KEEP_CENTS, 250)
BALANCE = Upset("balance", 2_000, 500)
CHEAPEST = Upset("cheapest", 0, 1000)
CHOICES = (LEAST, BALANCE, CHEAPEST)


def replan_season(  # noqa: PLR0913 - what was, what is, when, and how hard to try
    plan: Plan,
    outfit: Outfit,
    now_min: int,
    *,
    upset: Upset = LEAST,
    seed: int = 1,
    rounds: int | None = None,
    seconds: float | None = None,
    progress: Listener | None = None,
) -> Plan:
    """Return a plan for the facts as they now are.

    Shifts that have left home by ``now_min`` are facts and stay as they are written; every
    later visit is a promise.  Where nothing stands against a promise and nothing is owed
    beyond it, the old plan comes back unchanged.

    Args:
        plan: The plan that was being driven.
        outfit: The facts now; yards are known again by their id.
        now_min: Minute of the campaign.
        upset: How dear a moved visit is.
        seed: Starts the search's own dice.
        rounds: Rounds of improvement; None picks by size and upset.
        seconds: Stop between rounds after this time.
        progress: Told whenever the best plan gets better.
    """
    refuse_hopeless(outfit)
    ground = Ground(outfit, now_min)
    improver = Improver(ground, seed, standing_of(plan, ground, upset.move_cents))
    total = default_rounds(outfit) * upset.rounds_permille // 1000 if rounds is None else rounds
    watch = Watch(total, seconds, progress)
    state = _kept(improver.keeper, promised_days(plan, ground))
    as_told = outfit == plan.outfit and tally(ground, state) == plan.tally
    if not (as_told and _promises_hold(state) and not state.score.lacking):
        state = improver.completed(state)
        watch.tell(state.score, "first repair")
        with untroubled():
            state = improver.rounds(state, total, watch)
    new = finished(improver, state, watch, seed)
    return _with_facts(new, plan, now_min)


def _kept(keeper: Keeper, promised: Mapping[Key, Day]) -> State:
    """Return the state of all promised days that can still be driven, the soonest first."""
    days: dict[Key, Judged] = dict(keeper.standing.driven)
    for key, day in sorted(promised.items(), key=lambda item: item[0]):
        if key in days or not _to_be_had(keeper, key):
            continue
        for likely in (day, _without_strips(day)):
            judged = keeper.judge(likely)
            if judged is not None and keeper.holds({**days, key: judged}, key[0]):
                days[key] = judged
                break
    return keeper.settled(days)


def _without_strips(day: Day) -> Day:
    """Return a day as it can be driven where strips have run out."""
    bare = (tuple(stop._replace(strips=False) for stop in trip) for trip in day.trips)
    trips = (tuple(stop for stop in trip if stop != Stop(stop.yard)) for trip in bare)
    return day._replace(trips=tuple(trip for trip in trips if trip))


def _to_be_had(keeper: Keeper, key: Key) -> bool:
    day, truck = key
    return day not in keeper.ground.outfit.trucks[truck].out_days


def _promises_hold(state: State) -> bool:
    return not any(progress.moved for progress in state.progress)


def _with_facts(new: Plan, old: Plan, now_min: int) -> Plan:
    """Put driven shifts back as they were written, marked as driven."""
    driven = {
        (shift.day, shift.truck): replace(
            shift, trips=tuple(replace(t, driven=True) for t in shift.trips)
        )
        for shift in old.shifts
        if shift.start_min <= now_min
    }
    shifts = tuple(driven.get((shift.day, shift.truck), shift) for shift in new.shifts)
    bill = _with_counts(new.bill, shifts, new.outfit.prices)
    return replace(
        new, shifts=shifts, now_min=now_min, bill=bill, bound=_within(new.bound, bill.total())
    )


def _with_counts(bill: Bill, shifts: tuple[Shift, ...], prices: Prices) -> Bill:
    """Return the bill with the goods that were counted, not those that were planned."""
    done = [a for s in shifts for t in s.trips for call in t.calls for a in call.actions]
    return replace(
        bill,
        blocks=sum(a.pieces for a in done if a.job is Job.BLOCK) * prices.block_cents,
        strips=sum(a.pieces for a in done if a.job is Job.STRIPS) * prices.strip_cents,
        syrup=-(-sum(a.ml for a in done) * prices.syrup_l_cents // 1000),
    )


def _within(bound: Bound, cents: int) -> Bound:
    """Return the bound, or none where what was driven took less than work by these facts must."""
    return bound if bound.cents <= cents else replace(bound, cents=0, fixed_cents=0)
