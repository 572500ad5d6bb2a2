"""One call from facts to plan."""

import importlib.metadata
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from typing import NamedTuple, TypeVar

from runplanner.daybook.plan import ALL_DONE, Bound, Plan, Search, Tally
from runplanner.errors import PlanError
from runplanner.haulage.hauler import haulers
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import phrase
from runplanner.season.finish import tally, written
from runplanner.season.proof.bound import KIND, ROUNDS, bound_of
from runplanner.season.prover import Prover
from runplanner.season.search.improve import SCOUTS, Improver
from runplanner.season.search.tidy import tidied
from runplanner.season.standing.state import State
from runplanner.season.twin import Twin
from runplanner.season.watch import NO_BETTER, Listener, Watch, untroubled
from runplanner.season.whole.whole_visits import gone_through
from runplanner.season.why_not.explain import explained
from runplanner.trips.ground import Ground
from runplanner.version import PROGRAM, __version__

QUICK_BOUND_YARDS = 45
"""Up to so many yards the bound is worked out first, so that the gap shows all along.

Where a clock runs it is worked out beside the search, but for so few yards that it takes no
longer than a process takes to begin.
"""
TINY_YARDS = 6
TWIN_YARDS = 100
"""Up to so many yards two searches run side by side; more would take much memory twice.

Beyond them there are no scouts either: a round takes too long for starting over to pay.
"""


class Searches(NamedTuple):
    """Searches side by side: how many came to their end, and how many came to grief."""

    ended: int
    lost: int = 0


ONE = Searches(1)
NO_BOUND_YET = phrase("none: broken off before one was found")
TOO_SOON = phrase("none: time was up before one was found")
Made = TypeVar("Made")


def refuse_hopeless(outfit: Outfit) -> None:
    """Raise PlanError, in words, where there is nothing to plan with."""
    if not outfit.yards:
        raise PlanError(phrase("There is no yard, so there is nothing to plan."))
    if not haulers(outfit):
        raise PlanError(
            phrase(
                "No truck can carry anything with anyone aboard: give a truck, people who drive "
                "it, and a maximum mass above its own with fuel, kit and people."
            )
        )


FOR_SEASONS = 0.8
"""Share of a search's time that going through all seasons may take where a clock runs."""
LONGER = 20
"""Whoever gives time but no rounds gets as many as fit, up to so many times the usual ones."""


def default_rounds(outfit: Outfit, *, clocked: bool = False) -> int:
    """Return the rounds tried when the user names none: fewer for larger campaigns.

    Those that a clock ends (``clocked``) are more, so that the time given is used.
    """
    usual = max(300, min(1200, 18_000 // max(1, len(outfit.yards))))
    return LONGER * usual if clocked else usual


def default_searches(outfit: Outfit) -> int:
    """Return how many searches run side by side when the user names no number."""
    return 2 if len(outfit.yards) <= TWIN_YARDS else 1


def plan_season(  # noqa: PLR0913 - what to plan, how hard to try, and who is told
    outfit: Outfit,
    *,
    seed: int = 1,
    rounds: int | None = None,
    seconds: float | None = None,
    progress: Listener | None = None,
    searches: int = 1,
    proof: bool = True,
) -> Plan:
    """Return the best plan found for the whole campaign.

    Args:
        outfit: The facts.
        seed: Starts the search's own dice; the same seed gives the same plan.
        rounds: How many rounds to improve; None picks by size.
        seconds: Be done once this much time has passed, proof and reasons included; the search
            stops between rounds.
        progress: Told whenever the best plan of the first search gets better.
        searches: 1, or 2 for a second search with other dice in a process of its own.
        proof: Work out a bound and the reasons for undone work.
    """
    refuse_hopeless(outfit)
    total = default_rounds(outfit, clocked=seconds is not None) if rounds is None else rounds
    watch = Watch(total, seconds, progress, proof=proof)
    if searches == 1:
        return _planned(outfit, seed, watch, None)
    twin = Twin(outfit, seed, total, seconds)
    try:
        return _planned(outfit, seed, watch, twin)
    finally:
        twin.leave()


def _planned(outfit: Outfit, seed: int, watch: Watch, twin: Twin | None) -> Plan:
    improver = Improver(Ground(outfit), seed)
    state = improver.construct()
    watch.tell(state, phrase("first plan"))
    if twin is not None:
        watch.keeps = improver.takes_s
    with proving(improver.ground, watch):
        if not watch.broken_off:
            scouts = SCOUTS if len(outfit.yards) <= TWIN_YARDS else 0
            state = searched(improver, state, watch, scouts)
        if twin is None or watch.stopped == NO_BETTER:
            return finished(improver, tidied(improver.keeper, state), watch, seed)
        state = tidied(improver.keeper, _better(improver, state, watch, twin))
        if twin.lost:
            came_to_grief = phrase("the second search came to grief; going on without it")
            watch.tell(state, came_to_grief)
        searches = Searches(1 + twin.came, int(twin.lost))
        return finished(improver, state, watch, seed, searches=searches)


def _better(improver: Improver, state: State, watch: Watch, twin: Twin) -> State:
    """Return the better of both searches; Ctrl-C ends the second, once more goes on without it."""
    return _or_else(
        watch,
        lambda: _or_else(
            watch,
            lambda: twin.best(improver, state, hurry=watch.hurried, has_s=watch.has_s),
            lambda: twin.best(improver, state, hurry=True, has_s=watch.has_s),
        ),
        lambda: state,
    )


def _or_else(watch: Watch, make: Callable[[], Made], otherwise: Callable[[], Made]) -> Made:
    """Return what is made or, where the user breaks that off, what is made otherwise."""
    try:
        return make()
    except KeyboardInterrupt:
        watch.interrupted()
        return otherwise()


@contextmanager
def proving(ground: Ground, watch: Watch) -> Iterator[None]:
    """Work out a bound where one is asked for: at once, or beside the search if a clock runs."""
    yards = len(ground.outfit.yards)
    if not watch.proof or (yards > QUICK_BOUND_YARDS and not watch.clocked):
        yield
    elif watch.clocked and yards > TINY_YARDS:
        prover = Prover(ground.outfit, ground.now_min)
        watch.asked = prover.bound
        try:
            yield
        finally:
            prover.leave()
    else:
        try:
            watch.bound = bound_of(ground, ALL_DONE)
        except KeyboardInterrupt:
            watch.interrupted()
        yield


def searched(improver: Improver, state: State, watch: Watch, scouts: int = 0) -> State:
    """Return the best plan found from a first one.

    Where all plans can be gone through they are, and what is then proven is not searched on.
    """
    try:
        outcome = gone_through(improver, state, lambda: watch.on(FOR_SEASONS))
    except KeyboardInterrupt:
        watch.interrupted()
        return state
    if outcome is not None:
        state = outcome.state
        watch.gone_through(outcome.milli_cents // 1000, proven=outcome.proven)
        if outcome.proven:
            watch.tell(state, NO_BETTER)
            return state
    with untroubled():
        return improver.rounds(state, watch.rounds, watch, scouts)


def finished(
    improver: Improver,
    state: State,
    watch: Watch,
    seed: int,
    *,
    cuts: int = ROUNDS,
    searches: Searches = ONE,
) -> Plan:
    """Return the best state as a plan, with its bound and what is said of undone work.

    ``cuts`` is the effort put into the bound; ``searches`` tells what ran side by side.
    Where the watch asks for no proof, the plan claims no bound and gives no reasons: proof
    takes most of the time of a short search.  Ctrl-C ends what is under way, proof or reasons,
    and the plan is written down without it.  Colonies left without syrup are given what blocks
    are left over.
    """
    state = _or_else(watch, lambda: improver.rebuild.tided_over(state), lambda: state)

    def plain(bound: Bound) -> Plan:
        search = Search(seed, watch.done, watch.stopped, _versions(), *searches)
        return written(improver.keeper, state, bound, search)

    def down(bound: Bound) -> Plan:
        return _or_else(watch, lambda: plain(bound), lambda: plain(bound))

    if not watch.proof:
        return down(Bound(phrase("not worked out"), 0, 0, ALL_DONE))
    left = tally(improver.ground, state)
    if watch.bound is None and watch.asked is None and not watch.broken_off:
        watch.tell(state, phrase("proving how good it is"))
    bound = _or_else(
        watch,
        lambda: _proven(improver.ground, watch, left, cuts),
        lambda: _proven(improver.ground, watch, left, cuts),
    )
    if left == ALL_DONE and watch.least_cents > bound.cents:
        bound = replace(bound, kind=KIND, cents=watch.least_cents)
    plan = down(bound)
    watch.tell_plan(plan, phrase("written down"))
    if left != ALL_DONE:
        watch.tell_plan(plan, phrase("finding out why work is left; Ctrl-C leaves that out"))
    effort = max(
        1, (default_rounds(improver.ground.outfit) if watch.clocked else watch.rounds) // 5
    )
    return explained(
        improver.keeper,
        state,
        plan,
        seed=seed,
        rounds=0 if watch.broken_off else effort,
        left_s=watch.left_s if watch.clocked else None,
    )


def _proven(ground: Ground, watch: Watch, left: Tally, cuts: int) -> Bound:
    """Return a bound that holds for what a plan leaves, as good as the time left lets it be."""
    if watch.asked is None:
        if watch.bound is not None and left == ALL_DONE:
            return watch.bound
        if watch.broken_off:
            return Bound(NO_BOUND_YET, 0, 0, ALL_DONE)
        return bound_of(ground, left, cuts=cuts)
    wait_s = 0.0 if watch.broken_off else watch.left_s()
    if left == ALL_DONE:
        none = NO_BOUND_YET if watch.broken_off else TOO_SOON
        return watch.asked(wait_s) or Bound(none, 0, 0, ALL_DONE)
    if watch.broken_off:
        return Bound(NO_BOUND_YET, 0, 0, ALL_DONE)
    prover = Prover(ground.outfit, ground.now_min, left)
    try:
        return prover.bound(wait_s / 2) or Bound(TOO_SOON, 0, 0, ALL_DONE)
    finally:
        prover.leave()


def _versions() -> tuple[tuple[str, str], ...]:
    return ((PROGRAM, __version__), ("ortools", importlib.metadata.version("ortools")))
