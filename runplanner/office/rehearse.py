"""A plan rehearsed: played many times, and what that came to as tables and a page."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from runplanner.daybook.plan import ALL_DONE, Plan
from runplanner.daybook.played import Played, Rehearsed, finished, troubled
from runplanner.days import DAY_MIN, clock, day_of
from runplanner.errors import Fault, ScenarioError
from runplanner.office.publish import check_folder
from runplanner.outfit.safety import Safety, plain, safe
from runplanner.paperwork.escape import file_name
from runplanner.paperwork.rehearsed.page import (
    hindsight_words,
    mean_money,
    mean_words,
    rehearsal_page,
)
from runplanner.paperwork.rehearsed.sheet import plays_csv, rehearsal_json, risks
from runplanner.paperwork.sheet.look import PLAIN, Look, dressed
from runplanner.paperwork.speech.say import date_on, money
from runplanner.paperwork.speech.tongue import said, speaking, tr
from runplanner.phrase import Phrase, joined, phrase
from runplanner.rehearsal.luck import USUAL, Luck
from runplanner.rehearsal.many import rehearsed
from runplanner.rehearsal.play import Rehearsal
from runplanner.rehearsal.reckon import left_undone
from runplanner.whole_file import write_whole

PLAYS_FILE = "plays.jsonl"
AS_IT_IS = phrase("as it is")
GRID: Final = (
    Safety(), Safety(800), Safety(900), Safety(975), Safety(500, 30), Safety(950, 30),
    Safety(950, 0, 1), Safety(950, 30, 1),
)  # fmt: skip
"""Settings tried beside the plan as it is, where the user names none."""
Told = Callable[[Played, int, int, Phrase], None]


@dataclass(frozen=True, slots=True)
class Stage:
    """How a plan is rehearsed.

    Args:
        plays: How often.
        luck: How far things may be off.
        seed: Starts the dice.
        rounds: Effort of each morning's new plan.
        hindsight: Effort of the plan that knows the future; 0 for none.
        workers: Processes on this machine.
        cluster: Address of a Dask scheduler; empty for this machine.
    """

    plays: int = 100
    luck: Luck = USUAL
    seed: int = 1
    rounds: int = 20
    hindsight: int = 60
    workers: int = 1
    cluster: str = ""


def rehearse_plan(
    plan: Plan,
    stage: Stage,
    settings: Sequence[Safety] = (),
    *,
    file: Path | None = None,
    listener: Told | None = None,
) -> list[Rehearsed]:
    """Play a plan, and plans for the same facts that keep something in hand.

    Args:
        plan: The plan; it comes first.
        stage: How.
        settings: What further plans keep in hand, in place of what the plan keeps; each is
            planned with the plan's own effort.
        file: Keeps plays as they end; those it holds are not played again.
        listener: Told of every play that ends: how many are done, of how many, of what setting.

    Raises:
        ScenarioError: When the campaign is under way.
    """
    from runplanner.season.plan_season import plan_season

    _refuse_under_way(plan)
    found = [_rehearsed(Rehearsal(plan, stage.luck, stage.seed, stage.rounds, stage.hindsight),
                        AS_IT_IS, stage, file, listener)]  # fmt: skip
    typed = plain(plan.outfit)
    for safety in settings:
        careful = plan_season(
            safe(typed, safety), seed=plan.search.seed, rounds=plan.search.rounds,
            searches=plan.search.searches, proof=False,
        )  # fmt: skip
        # Whoever knows the future keeps nothing in hand: the first plan's hindsight serves all.
        told = Rehearsal(careful, stage.luck, stage.seed, stage.rounds, 0)
        found.append(_rehearsed(told, safety.words(), stage, file, listener))
    return found


def _refuse_under_way(plan: Plan) -> None:
    """Refuse a plan of which something was driven, or days are over: a play would redo them."""
    trips = [trip for shift in plan.shifts for trip in shift.trips]
    if plan.now_min < DAY_MIN and not any(trip.driven for trip in trips):
        return
    now = joined(" ", date_on(plan.outfit, day_of(plan.now_min)), clock(plan.now_min))
    fault = Fault(
        "plan.json", "", "now_min", phrase("as of {when}", when=now),
        phrase("a plan of which nothing has been driven, as a play begins on its first day"),
        phrase("Plan the scenario again with --out elsewhere, and rehearse that plan; `replan` "
               "plans the rest of this one."),
    )  # fmt: skip
    raise ScenarioError((fault,))


def _rehearsed(
    told: Rehearsal, name: Phrase, stage: Stage, file: Path | None, listener: Told | None
) -> Rehearsed:
    plays = rehearsed(
        told, stage.plays, file=file, workers=stage.workers, cluster=stage.cluster,
        listener=(lambda one, n, of: listener(one, n, of, name)) if listener else None,
    )  # fmt: skip
    bill = told.plan.bill
    done = told.plan.tally == ALL_DONE and not any(left_undone(told.plan))
    return Rehearsed(name, bill.total() - bill.unsure, done, plays, bill.unsure)


def rehearsal_folder(plan: Plan, out: Path | str) -> Path:
    """Return where a plan's rehearsal goes: beside its papers, not among them.

    Raises:
        PublishError: When nothing could be written there.
    """
    folder = Path(out) / f"{file_name(plan.outfit.name)}-rehearsal"
    check_folder(folder)
    return folder


def write_rehearsal(
    plan: Plan, stage: Stage, found: Sequence[Rehearsed], folder: Path, look: Look = PLAIN
) -> Path:
    """Write the page, the plays as CSV and the sums as JSON; return the page."""
    currency = plan.outfit.prices.currency
    with speaking(look.language):
        page = rehearsal_page(plan, found, terms(stage, plan))
    write_whole(folder / "plays.csv", plays_csv(found, currency))
    write_whole(folder / "rehearsal.json", rehearsal_json(found, currency))
    return write_whole(folder / "rehearsal.html", dressed(page, look))


def terms(stage: Stage, plan: Plan) -> list[str]:
    """Return how it was rehearsed, in sentences."""
    from runplanner.paperwork.rehearsed.terms import in_hand_words, term_words

    luck = stage.luck
    in_hand = in_hand_words() if plan.outfit.in_hand is not None else []
    return in_hand + term_words(
        boxes=luck.boxes_permille, mass=luck.mass_permille, work=luck.work_permille,
        shut=luck.shut_permille, truck=luck.truck_permille, seed=stage.seed,
        rounds=stage.rounds, hindsight=stage.hindsight,
    )  # fmt: skip


def play_line(one: Played, done: int, of: int, name: Phrase, currency: str) -> str:
    """Return a play that ended as a line for the screen."""
    parts = [tr("play {done} of {all}", done=done, all=of), said(name), money(one.cents, currency)]
    parts.append(tr("all done") if one.all_done() else tr("work undone"))
    if one.over_payload:
        parts.append(tr("{number} over payload", number=one.over_payload))
    return "  ".join(parts)


def rehearsal_words(found: Sequence[Rehearsed], currency: str) -> Iterator[str]:
    """Yield risks and costs as a table for the screen."""
    first, n = found[0], len(found[0].plays)
    heads = tr("what"), tr("plays"), tr("mean"), tr("9 in 10"), tr("worst")
    yield "{:<48}{:>12}{:>10}{:>10}{:>12}".format(*heads)
    for risk in risks(first.plays):
        often = f"{risk.plays}/{n}"
        yield f"{tr(risk.words):<48}{often:>12}{risk.mean():>10}{risk.p90:>10}{risk.worst:>12}"
    yield mean_words(first, currency)
    known = hindsight_words(first.plays, currency)
    yield from [known] if known else []
    if len(found) > 1:
        more = tr("setting"), tr("all done"), tr("mean cost then"), tr("trouble"), tr("overload")
        yield "{:<44}{:>14}{:>24}{:>12}{:>14}".format(*more)
    for one in found if len(found) > 1 else ():
        over = sum(play.over_payload > 0 for play in one.plays)
        cost, done = mean_money(one, currency), f"{len(finished(one.plays))}/{n}"
        often, heavy = f"{troubled(one.plays)}/{n}", f"{over}/{n}"
        yield f"{said(one.name):<44}{done:>14}{cost:>24}{often:>12}{heavy:>14}"
