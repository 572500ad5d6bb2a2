"""The command line: reads words, calls the office, prints, and returns an exit code."""

import argparse
import os
import sys
import traceback
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from enum import IntEnum
from pathlib import Path
from typing import TYPE_CHECKING

from runplanner.errors import PlanError, RunplannerError, ScenarioError
from runplanner.office.gathered import note_words
from runplanner.office.options import (
    add_language,
    language_asked,
    language_set,
    read_words,
    speaking_argparse,
)
from runplanner.office.screen import plain, ready_terminal, say, tell, to_copy
from runplanner.office.verbs import add_verbs
from runplanner.paperwork.escape import cut
from runplanner.paperwork.speech.tongue import languages, no_language, said, speaking, tr
from runplanner.version import __version__

if TYPE_CHECKING:
    from runplanner.office.campaign import Outcome
    from runplanner.office.rooms import Rooms
    from runplanner.roads.sketch import Sketch
    from runplanner.season.watch import Listener

__all__ = ["Exit", "main", "parser", "plain"]

DEBUG = "RUNPLANNER_DEBUG"


class Exit(IntEnum):
    """What the exit code says."""

    OK = 0
    UNDONE = 1
    BAD_INPUT = 2
    FINDINGS = 3
    NO_PLAN = 4
    OWN_FAULT = 5
    STOPPED = 130


def main(words: Sequence[str] | None = None, rooms: "Rooms | None" = None) -> int:
    """Do what ``words`` (default: those typed) ask; return the exit code.

    ``rooms`` are called instead of the real ones, where given.
    """
    ready_terminal()
    typed = sys.argv[1:] if words is None else words
    with speaking(language_asked(typed)), speaking_argparse():
        top = parser()
        told = read_words(top, typed)
        if told.language not in languages():
            top.error(said(no_language(told.language)))
        told.rooms = rooms
        return _guarded(told.do, told)


def parser() -> argparse.ArgumentParser:
    """Return the parser of every verb."""
    top = argparse.ArgumentParser(
        prog="runplanner",
        description=tr("Plan a beekeeper's end-of-summer campaign as truck trips over days."),
        epilog=tr(
            "Exit codes: 0 done; 1 planned, but work is left undone (named); 2 something typed "
            "is wrong; 3 the audit found broken rules, nothing was published; 4 no plan could be "
            "made; 5 a fault of runplanner itself; 130 stopped."
        ),
    )
    add_language(top, language_set())
    top.add_argument(
        "--version",
        action="version",
        version=f"runplanner {__version__}",
        help=tr("show program's version number and exit"),
    )
    verbs = top.add_subparsers(title=tr("verbs"), metavar="VERB", required=True)
    add_verbs(verbs, _DOES)
    return top


def _new(told: argparse.Namespace) -> Exit:
    from runplanner.office.facts import start_scenario

    say(tr("wrote {file}", file=path) for path in start_scenario(told.folder, told.title))
    say([tr("Fill it in, then: {command}", command=to_copy("check", told.folder))])
    return Exit.OK


def _gather(told: argparse.Namespace) -> Exit:
    from runplanner.office.gathered import gather_yards, gathered_words

    gathered = gather_yards(
        told.files, told.into, near_m=told.near, far_km=told.far, few_is_right=told.few_boxes
    )
    say(gathered_words(gathered))
    return Exit.OK


def _check(told: argparse.Namespace) -> Exit:
    from runplanner.office.facts import facts_words, read_outfit
    from runplanner.office.forecasts import heard_words
    from runplanner.scenario.forecast.part import Heard

    heard = Heard()
    outfit = read_outfit(told.folder, rooms=told.rooms, heard=heard)
    say(heard_words(outfit, heard))
    say(facts_words(outfit, (*heard.waiting, *heard.doubts)))
    return Exit.OK


def _forecast(told: argparse.Namespace) -> Exit:
    from runplanner.office.forecasts import fetch_forecasts

    say(fetch_forecasts(told.folder))
    say([tr("See what they shut: {command}", command=to_copy("check", told.folder))])
    return Exit.OK


def _plan(told: argparse.Namespace) -> Exit:
    from runplanner.office.campaign import Effort, check_out, plan_campaign, refuse_plan
    from runplanner.office.drawn import scenario_roads
    from runplanner.office.facts import read_outfit, warning_words
    from runplanner.scenario.forecast.part import Heard

    heard = Heard()
    outfit = read_outfit(told.folder, rooms=told.rooms, heard=heard)
    check_out(outfit, told.out)
    tell(warning_words(heard.waiting))
    effort = Effort(seed=told.seed, rounds=told.rounds, seconds=told.time)
    progress = _progress(outfit.prices.currency)
    outcome = plan_campaign(outfit, effort, progress=progress, rooms=told.rooms)
    if outcome.findings:
        tell([_kept_words(refuse_plan(outcome, told.out))])

    def put() -> Path:
        with _not_lost(outcome, told):
            return _put(outcome, told, scenario_roads(told.folder, outcome.plan))

    return _publish(outcome, put)


def _progress(currency: str, which: str = "") -> "Listener":
    """Return a listener that tells each gain in a line, of ``which`` of several plans."""
    from runplanner.office.words import progress_line

    head = f"{which}: " if which else ""
    return lambda news: tell([head + progress_line(news, currency)])


def _kept_words(path: Path) -> str:
    return tr("The plan that broke rules is kept in {file}", file=path)


def _replan(told: argparse.Namespace) -> Exit:
    from runplanner.office import replan
    from runplanner.office.campaign import Effort, check_out, read_sound_plan, refuse_plan
    from runplanner.office.drawn import kept_roads

    plan, effort = read_sound_plan(told.plan), Effort(told.seed, told.rounds, told.time)
    tell(replan.now_words(plan, told.changes, file=told.file, now=told.now))
    given = {"file": told.file, "now": told.now, "forecast": told.forecast, "ring": told.ring,
             "effort": effort, "rooms": told.rooms}  # fmt: skip
    currency = plan.outfit.prices.currency
    if told.choices:
        found = replan.choices(
            plan, told.changes, progress=lambda name: _progress(currency, name), **given
        )
        say(replan.choice_words(list(found)))
        return Exit.OK
    check_out(plan.outfit, told.out)
    made = replan.replan_campaign(
        plan, told.changes, choice=told.choice, progress=_progress(currency), **given
    )
    if made.outcome.findings:
        tell([_kept_words(refuse_plan(made.outcome, told.out))])

    def put() -> Path:
        with _not_lost(made.outcome, told):
            papers = replan.change_papers(made, told.language)
            return _put(made.outcome, told, kept_roads(told.plan), papers, told.plan)

    return _publish(made.outcome, put, lambda: replan.change_words(made.sheet()))


def _rehearse(told: argparse.Namespace) -> Exit:
    from runplanner.office import rehearse
    from runplanner.office.campaign import read_sound_plan
    from runplanner.paperwork.sheet.look import Look
    from runplanner.rehearsal.luck import Luck

    plan = read_sound_plan(told.plan)
    currency = plan.outfit.prices.currency
    luck = Luck(told.boxes, 1000, told.minutes, told.shut, told.truck)
    stage = rehearse.Stage(
        told.plays, luck, told.seed, told.rounds, told.hindsight, told.workers, told.cluster
    )
    settings = () if told.settings is None else told.settings or rehearse.GRID
    folder = rehearse.rehearsal_folder(plan, told.out)
    found = rehearse.rehearse_plan(
        plan, stage, settings, file=folder / rehearse.PLAYS_FILE,
        listener=lambda play, done, of, name: tell(
            [rehearse.play_line(play, done, of, name, currency)]
        ),
    )  # fmt: skip
    say(rehearse.rehearsal_words(found, currency))
    look = Look(language=told.language)
    say([tr("page: {file}", file=rehearse.write_rehearsal(plan, stage, found, folder, look))])
    return Exit.OK


def _trace(told: argparse.Namespace) -> Exit:
    from runplanner.office.campaign import read_sound_plan
    from runplanner.office.traced import trace_words, traced, write_trace

    plan = read_sound_plan(told.plan)
    say(trace_words(traced(plan, told.yard)))
    if told.out is not None:
        say([tr("sheet: {file}", file=write_trace(plan, told.yard, told.out, told.language))])
    return Exit.OK


def _audit(told: argparse.Namespace) -> Exit:
    from runplanner.office.campaign import audit_plan, read_plan
    from runplanner.office.words import finding_words, older_words, plan_words

    outcome = audit_plan(read_plan(told.plan), rooms=told.rooms)
    if outcome.findings:
        say([*finding_words(outcome.findings), *older_words(outcome.plan)])
        return Exit.FINDINGS
    say(plan_words(outcome.plan))
    say([tr("audit: every rule holds")])
    return Exit.OK


def _papers(told: argparse.Namespace) -> Exit:
    from runplanner.office.campaign import audit_plan, read_plan
    from runplanner.office.drawn import kept_roads

    outcome = audit_plan(read_plan(told.plan), rooms=told.rooms)
    return _publish(outcome, lambda: _put(outcome, told, kept_roads(told.plan), None, told.plan))


@contextmanager
def _not_lost(outcome: "Outcome", told: argparse.Namespace) -> Iterator[None]:
    """Keep what a search has found where its papers come to nothing, for whatever reason."""
    from runplanner.office.campaign import keep_plan

    try:
        yield
    except BaseException:
        file = keep_plan(outcome.plan, told.out)
        tell([tr("The plan is kept. Its papers: {command}",
                 command=to_copy("papers", file, "--out", "FOLDER"))])  # fmt: skip
        raise


def _put(
    outcome: "Outcome",
    told: argparse.Namespace,
    roads: "Sketch | None",
    extra: "Mapping[str, str] | None" = None,
    source: Path | None = None,
) -> Path:
    """Put a plan's papers in place as ``told``; return their folder."""
    from runplanner.office.campaign import publish_plan
    from runplanner.paperwork.sheet.look import Look
    from runplanner.paperwork.sheet.pdf import pdf_absence

    folder = publish_plan(
        outcome, told.out, pdf=told.pdf, online_tiles=told.tiles, roads=roads, extra=extra,
        source=source, look=Look(told.paper, told.large, told.language), rooms=told.rooms,
    )  # fmt: skip
    if told.pdf and pdf_absence():
        tell([pdf_absence()])
    return folder


def _publish(
    outcome: "Outcome",
    put: Callable[[], Path],
    changes: Callable[[], Iterable[str]] = tuple,
) -> Exit:
    """Refuse a plan with findings, else ``put`` its papers in place and sum it up."""
    from runplanner.daybook.plan import ALL_DONE
    from runplanner.office.words import finding_words, narrowed_words, older_words, plan_words

    if outcome.findings:
        tell([*finding_words(outcome.findings), *older_words(outcome.plan)])
        tell([tr("Refused: do not drive this plan. Nothing was published.")])
        return Exit.FINDINGS
    folder = put()
    say(changes())
    say(plan_words(outcome.plan))
    tell(narrowed_words(outcome.narrowed))
    say(
        [
            tr("audit: every rule holds"),
            tr("map and papers: {folder}; begin with index.html", folder=folder),
        ]
    )
    return Exit.OK if outcome.plan.tally == ALL_DONE else Exit.UNDONE


def _numbers(_told: argparse.Namespace) -> Exit:
    from runplanner.office.numbers import number_words, numbers

    table = numbers()
    say(number_words(table))
    return Exit.OK if table.hold() else Exit.OWN_FAULT


def _guarded(do: Callable[[argparse.Namespace], Exit], told: argparse.Namespace) -> int:
    """Call ``do`` and turn whatever goes wrong into plain words and an exit code."""
    try:
        return do(told)
    except RunplannerError as error:
        return _explain(error)
    except KeyboardInterrupt:
        tell([tr("Stopped.")])
        return Exit.STOPPED
    except OSError as error:
        tell([_refused(error)])
        return Exit.BAD_INPUT
    except Exception as error:
        if os.environ.get(DEBUG):
            raise
        tell(_report(error))
        return Exit.OWN_FAULT


def _refused(error: OSError) -> str:
    why = error.strerror or str(error)
    if not error.filename:
        return tr("The system said: {error}. Nothing more was written.", error=why)
    return tr(
        "The system refused {file}: {error}. Nothing more was written.",
        file=error.filename, error=why,
    )  # fmt: skip


def _explain(error: RunplannerError) -> Exit:
    tell(said(error.message).splitlines() or [type(error).__name__])
    if isinstance(error, ScenarioError):
        tell(f"  - {said(fault.sentence())}" for fault in error.faults)
        tell(note_words(error.notes))
    return Exit.NO_PLAN if isinstance(error, PlanError) else Exit.BAD_INPUT


def _report(error: Exception) -> list[str]:
    last = traceback.extract_tb(error.__traceback__)[-1]
    spot = f"{Path(last.filename).name} line {last.lineno}"
    what = f"{type(error).__name__} at {spot}: {error}"
    return [
        tr(
            "runplanner itself is at fault: {what}. Please report this line and the folder "
            "(README, Reporting a fault); {name}=1 says more.",
            what=cut(what, 300),
            name=DEBUG,
        )
    ]


_DOES: Mapping[str, Callable[[argparse.Namespace], Exit]] = {
    "new": _new, "gather": _gather, "check": _check, "forecast": _forecast, "plan": _plan,
    "replan": _replan, "rehearse": _rehearse, "trace": _trace, "audit": _audit,
    "papers": _papers, "numbers": _numbers,
}  # fmt: skip
"""What each verb does."""
