"""What a season leaves undone at each yard."""

from collections.abc import Iterable
from dataclasses import replace

from runplanner.daybook.plan import Undone
from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Health, Yard
from runplanner.phrase import Phrase, phrase
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.visits.due import due


def left_undone(keeper: Keeper, state: State) -> tuple[Undone, ...]:
    """Return what each yard lacks, without reasons but for yards held for their health."""
    found = list[Undone]()
    for index, yard in enumerate(keeper.ground.outfit.yards):
        progress = state.progress[index]
        off, strips, unfed = progress.not_off, progress.no_strips, progress.unfed_g
        colonies = _unfed_colonies(keeper, state, index)
        why: tuple[Phrase, ...] = ()
        if yard.left_alone:
            off, strips, unfed, colonies = _held(keeper.ground.outfit, state, index)
            why = (_held_words(yard),)
        for job, count, grams in (
            (Job.TAKE_OFF, off, 0),
            (Job.FEED, colonies, unfed),
            (Job.STRIPS, strips, 0),
            (Job.WET_UP, progress.not_wet, 0),
            (Job.WET_DOWN, _standing(keeper, state, index), 0),
        ):
            if count:
                found.append(Undone(yard.id, job, count, grams, why))
        if progress.uncovered and not yard.left_alone:
            found.append(Undone(yard.id, Job.BLOCK, 0, 0, (), colony_days=progress.uncovered))
    return tuple(found)


def may_be_done(keeper: Keeper, left: Iterable[Undone]) -> list[Undone]:
    """Return what is left of yards that are not held for their health."""
    return [one for one in left if not keeper.ground.outfit.yard(one.yard).left_alone]


def _unfed_colonies(keeper: Keeper, state: State, yard: int) -> int:
    """Return the colonies that lack a round."""
    rounds = keeper.ground.dues[yard].rounds
    if not rounds:
        return 0
    last = sum(v.stop.fed for v in state.visits[yard] if v.stop.round == rounds)
    return max(0, keeper.ground.outfit.yards[yard].colonies - last)


def _standing(keeper: Keeper, state: State, index: int) -> int:
    """Return the colonies of a yard in which wet boxes are left, as a driver may leave them."""
    if not keeper.ground.dues[index].wet:
        return 0
    left = sum(visit.stop.wet_up - visit.stop.wet_down for visit in state.visits[index])
    return keeper.ground.outfit.yards[index].colonies if left > 0 else 0


def _held(outfit: Outfit, state: State, index: int) -> tuple[int, int, int, int]:
    """Return what a held yard that may not be fed lacks: all that has not been driven."""
    yard, visits = outfit.yards[index], state.visits[index]
    sound = due(outfit, replace(yard, health=Health.SOUND))
    off = sum(visit.stop.off for visit in visits)
    strips = 0 if any(visit.stop.strips for visit in visits) else yard.colonies
    grams, reached = 0, yard.colonies
    for number in range(sound.rounds):
        fed = sum(visit.stop.fed for visit in visits if visit.stop.round == number + 1)
        fed = min(fed, reached)
        grams += (reached - fed) * sound.lacks_g[number]
        reached = fed
    unfed = yard.colonies - reached if sound.rounds else 0
    return max(0, yard.colonies - off), strips, grams, unfed


def _held_words(yard: Yard) -> Phrase:
    if yard.health is Health.SUSPECT:
        return phrase(
            "suspected notifiable disease: report it; nothing leaves the yard until it is cleared"
        )
    return phrase(
        "standstill: nothing leaves the yard; it is fed only with the inspector's consent"
    )
