"""A new plan from an old one: what was driven stays, what was promised is dear to move."""

from collections.abc import Iterator, Mapping
from contextlib import nullcontext
from dataclasses import dataclass, replace

from runplanner.daybook.plan import ALL_DONE, Bound, Plan
from runplanner.daybook.same_trip import named_as_before
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import eased
from runplanner.phrase import Phrase, phrase
from runplanner.season.finish import goods_cents, tally
from runplanner.season.plan_season import (
    default_rounds,
    finished,
    proving,
    refuse_hopeless,
    searched,
)
from runplanner.season.proof.bound import ROUNDS
from runplanner.season.search.improve import Improver
from runplanner.season.search.tidy import tidied
from runplanner.season.standing.facts import promised_days, standing_of, written_trips
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.season.watch import Listener, Watch, untroubled
from runplanner.trips.day import Day, Key, thinned
from runplanner.trips.ground import Ground
from runplanner.trips.judged import Judged
from runplanner.visits.stop import Stop

KEEP_CENTS = 1_000_000


@dataclass(frozen=True, slots=True)
class Upset:
    """How dear it is to move a promised visit, in words and in cents a visit.

    ``shift_cents`` is the price of a truck's day that goes out otherwise than promised: another
    order, crew or trailer, other hours, so a paper to print again.
    ``rounds_permille``: how much of the usual effort goes into moving more than
    must be moved; where the first repair leaves work, all of it goes into that.
    """

    name: Phrase
    move_cents: int
    shift_cents: int
    rounds_permille: int


LEAST = Upset(phrase("least change"), KEEP_CENTS, 20_000, 250)
BALANCE = Upset(phrase("balance"), 2_000, 1_000, 500)
CHEAPEST = Upset(phrase("cheapest"), 0, 0, 1000)
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
    proof: bool = True,
) -> Plan:
    """Return a plan for the facts as they now are.

    Shifts that have left home by ``now_min`` are facts and stay as they are written; every
    later visit is a promise.  With least change, where all work is done and nothing stands
    against a promise, the old plan comes back unchanged.

    Args:
        plan: The plan that was being driven.
        outfit: The facts now; yards are known again by their id.
        now_min: Minute of the campaign.
        upset: How dear a moved visit is.
        seed: Starts the search's own dice.
        rounds: Rounds of improvement; None picks by size and upset.  With none, the first
            repair comes at once, its bound lower than it might be.
        seconds: Stop between rounds after this time.
        progress: Told whenever the best plan gets better.
        proof: Work out a bound and the reasons for undone work.
    """
    refuse_hopeless(outfit)
    improver = _improver_as_written(plan, Ground(outfit, now_min), seed, upset)
    ground = improver.ground
    total = default_rounds(outfit) * upset.rounds_permille // 1000 if rounds is None else rounds
    watch = Watch(total, seconds, progress, proof=proof)
    watch.promises = improver.keeper.scoring.promise_cents
    state = _kept(improver.keeper, promised_days(plan, ground))
    all_done = plan.tally == tally(ground, state) == ALL_DONE and not state.score.undone.lacking
    kept = upset == LEAST and all_done and _as_told(plan, outfit) and _promises_hold(state)
    if not kept:
        state = _sheltered(improver, improver.completed(state))
        watch.tell(state, phrase("first repair"))
        if rounds is None and tally(ground, state) != ALL_DONE:
            watch.rounds = default_rounds(outfit)
    with proving(ground, watch) if watch.clocked else nullcontext():
        if not kept:
            state = _sheltered(improver, _searched(improver, state, watch, again=rounds is None))
        new = finished(improver, state, watch, seed, cuts=ROUNDS if total else 1)
    return named_as_before(_with_facts(new, plan, now_min), plan)


def _searched(improver: Improver, first: State, watch: Watch, *, again: bool) -> State:
    """Return the best plan found from a first repair.

    Where it leaves work half as many rounds begin ``again`` at that repair, with other dice.
    """
    found, total = searched(improver, first, watch), watch.rounds
    left = tally(improver.ground, found) != ALL_DONE
    if not left or not again or watch.clocked or watch.broken_off or watch.done < total:
        return found
    watch.rounds += total // 2
    with untroubled():
        return improver.begun_again(first, found, watch.done, watch.rounds, watch)


def _as_told(plan: Plan, outfit: Outfit) -> bool:
    """Tell whether the facts are the plan's own, slack and spare days given back or not."""
    return outfit in (plan.outfit, eased(plan.outfit))


def _improver_as_written(plan: Plan, ground: Ground, seed: int, upset: Upset) -> Improver:
    """Return a search that lays promised trips out as they were, unless kit is then short.

    Where no paper is spared by that, they are laid out as the facts have it.
    """
    written = written_trips(plan, ground) if upset.shift_cents else {}
    if written:
        improver = _improver(plan, replace(ground, written=written), seed, upset)
        keeper = improver.keeper
        promised = promised_days(plan, improver.ground).items()
        days = {key: judged for key, day in promised if (judged := keeper.judge(day))}
        if keeper.holding.kit_circulates({**days, **keeper.standing.driven}):
            return improver
    return _improver(plan, ground, seed, upset)


def _improver(plan: Plan, ground: Ground, seed: int, upset: Upset) -> Improver:
    """Return a search that keeps promised crews, unless honey and syrup then want for hands."""
    days = promised_days(plan, ground)
    for same_crews in (True, False):
        standing = standing_of(
            plan, ground, upset.move_cents, upset.shift_cents, same_crews=same_crews
        )
        improver = Improver(ground, seed, standing)
        if not same_crews or _manned(improver.keeper, days):
            break
    return improver


def _manned(keeper: Keeper, promised: Mapping[Key, Day]) -> bool:
    """Tell whether all promised days that can be driven leave people enough at the bases."""
    days = dict(keeper.standing.driven)
    for key, day in sorted(promised.items(), key=lambda item: item[0]):
        if key in days or not _to_be_had(keeper, key):
            continue
        judged = keeper.judge(day)
        if judged is not None and keeper.holding.crewed({**days, key: judged}, key[0]):
            days[key] = judged
    return keeper.base_work(days) is not None


def _kept(keeper: Keeper, promised: Mapping[Key, Day]) -> State:
    """Return the state of all promised days that can still be driven, the soonest first."""
    days: dict[Key, Judged] = dict(keeper.standing.driven)
    for key, day in sorted(promised.items(), key=lambda item: item[0]):
        if key in days or not _to_be_had(keeper, key):
            continue
        for likely in _likely(keeper, day):
            judged = keeper.judge(keeper.chains.spared(likely)) if likely.trips else None
            if judged is not None and keeper.holding.holds({**days, key: judged}, [key[0]]):
                days[key] = judged
                break
    return keeper.settled(days)


def _likely(keeper: Keeper, day: Day) -> Iterator[Day]:
    """Yield a promised day as it was, then with less and less of it left out."""
    yield day
    yield thinned(day, lambda stop: stop._replace(strips=False))
    open_still = thinned(
        day, lambda stop: stop if keeper.ground.stop_spans(stop, day.day) else Stop(stop.yard)
    )
    yield open_still
    yards = dict.fromkeys(stop.yard for trip in open_still.trips for stop in trip)
    for yard in yards if len(yards) > 1 else ():
        yield _without_yard(open_still, yard)


def _without_yard(day: Day, yard: int) -> Day:
    return thinned(day, lambda stop: Stop(yard) if stop.yard == yard else stop)


def _to_be_had(keeper: Keeper, key: Key) -> bool:
    day, truck = key
    return day not in keeper.ground.outfit.trucks[truck].out_days


def _sheltered(improver: Improver, state: State) -> State:
    """Return the state with further blocks for colonies whose cover would end.

    Those that no colony needs any more are left out again, and what else lies about is tidied.
    """
    state = improver.rebuild.sheltered(state, range(len(state.visits)))
    return tidied(improver.keeper, state)


def _promises_hold(state: State) -> bool:
    return not any(progress.moved for progress in state.progress)


def _with_facts(new: Plan, old: Plan, now_min: int) -> Plan:
    """Put driven shifts back as they were written, marked as driven; the bill has their counts."""
    driven = {
        (shift.day, shift.truck): replace(
            shift, trips=tuple(replace(t, driven=True) for t in shift.trips)
        )
        for shift in old.shifts
        if shift.start_min <= now_min
    }
    shifts = tuple(driven.get((shift.day, shift.truck), shift) for shift in new.shifts)
    bill = replace(new.bill, **goods_cents(new.outfit, shifts))
    return replace(
        new, shifts=shifts, now_min=now_min, bill=bill, bound=_within(new.bound, bill.total())
    )


def _within(bound: Bound, cents: int) -> Bound:
    """Return the bound, or none where what was driven took less than work by these facts must."""
    return bound if bound.cents <= cents else replace(bound, cents=0, fixed_cents=0)
