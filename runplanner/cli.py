"""The command line: reads words, calls the office, prints, and returns an exit code."""

import argparse
import os
import traceback
from collections.abc import Callable, Mapping, Sequence
from enum import IntEnum
from pathlib import Path
from typing import TYPE_CHECKING

from runplanner.errors import PlanError, RunplannerError, ScenarioError
from runplanner.office.options import add_effort, add_language, add_out, add_rehearsal, whole
from runplanner.office.screen import drop_output, plain, ready_terminal, say, tell
from runplanner.paperwork.escape import cut
from runplanner.version import __version__

if TYPE_CHECKING:
    from runplanner.office.campaign import Outcome
    from runplanner.office.rooms import Rooms
    from runplanner.roads.sketch import Sketch

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
    told = parser().parse_args(words)
    told.rooms = rooms
    return _guarded(told.do, told)


def parser() -> argparse.ArgumentParser:
    """Return the parser of every verb."""
    top = argparse.ArgumentParser(
        prog="runplanner",
        description="Plan a beekeeper's end-of-summer campaign as truck trips over days.",
        epilog="Exit codes: 0 done; 1 planned, but work is left undone (named); 2 something typed "
        "is wrong; 3 the audit found broken rules, nothing was published; 4 no plan could be made; "
        "5 a fault of runplanner itself; 130 stopped.",
    )
    top.add_argument("--version", action="version", version=f"runplanner {__version__}")
    verbs = top.add_subparsers(title="verbs", metavar="VERB", required=True)
    _add_new(verbs)
    _add_gather(verbs)
    _add_check(verbs)
    _add_forecast(verbs)
    _add_plan(verbs)
    _add_replan(verbs)
    _add_rehearse(verbs)
    _add_trace(verbs)
    _add_audit(verbs)
    _add_papers(verbs)
    _add_numbers(verbs)
    return top


_Verbs = argparse._SubParsersAction  # noqa: SLF001 - argparse has no public name for it


def _verb(
    verbs: "_Verbs[argparse.ArgumentParser]",
    name: str,
    do: Callable[[argparse.Namespace], Exit],
    help_text: str,
) -> argparse.ArgumentParser:
    verb = verbs.add_parser(name, help=help_text, description=help_text)
    verb.set_defaults(do=do)
    return verb


def _add_new(verbs: "_Verbs[argparse.ArgumentParser]") -> None:
    verb = _verb(verbs, "new", _new, "Write a commented starter scenario to fill in.")
    verb.add_argument("folder", metavar="DIR", type=Path, help="folder to make")
    verb.add_argument("--title", default="", help="what to call the outfit (default: DIR's name)")


def _add_gather(verbs: "_Verbs[argparse.ArgumentParser]") -> None:
    verb = _verb(
        verbs, "gather", _gather, "Merge places from files people have into a scenario's yards."
    )
    verb.add_argument(
        "files", metavar="FILE", type=Path, nargs="+", help="CSV, XLSX, GPX, KML or GeoJSON file"
    )
    verb.add_argument("--into", metavar="DIR", type=Path, required=True, help="scenario folder")
    verb.add_argument(
        "--near", type=whole, metavar="METRES", help="refuse two names nearer than this; 0: never"
    )
    verb.add_argument(
        "--far", type=whole, metavar="KM", help="refuse places further from the rest; 0: never"
    )


def _add_check(verbs: "_Verbs[argparse.ArgumentParser]") -> None:
    verb = _verb(verbs, "check", _check, "List every fault of a scenario, or what its facts imply.")
    verb.add_argument("folder", metavar="DIR", type=Path, help="scenario folder")


def _add_forecast(verbs: "_Verbs[argparse.ArgumentParser]") -> None:
    verb = _verb(
        verbs, "forecast", _forecast, "Fetch the forecasts a scenario names, from their addresses."
    )
    verb.add_argument("folder", metavar="DIR", type=Path, help="scenario folder")


def _add_plan(verbs: "_Verbs[argparse.ArgumentParser]") -> None:
    verb = _verb(
        verbs, "plan", _plan, "Plan a scenario, audit the plan, and write the map and papers."
    )
    verb.add_argument("folder", metavar="DIR", type=Path, help="scenario folder")
    add_out(verb)
    add_effort(verb)


def _add_replan(verbs: "_Verbs[argparse.ArgumentParser]") -> None:
    verb = _verb(verbs, "replan", _replan, "Plan the rest of a running campaign after changes.")
    verb.add_argument("plan", metavar="PLAN", type=Path, help="plan.json, or its folder")
    verb.add_argument(
        "changes", metavar="CHANGE", nargs="*", help="such as 'shut Fernbank Fri from 14:00'"
    )
    verb.add_argument("--changes", dest="file", type=Path, help="file with a change on each line")
    verb.add_argument("--now", default="", metavar="WHEN", help="the time it is: 'Fri 12:30'")
    verb.add_argument(
        "--choice", choices=("least", "balance", "cheapest"), default="least",
        help="how much may move beyond what must (default least)",
    )  # fmt: skip
    verb.add_argument("--choices", action="store_true", help="show all three, publish none")
    add_out(verb)
    add_effort(verb)


def _add_rehearse(verbs: "_Verbs[argparse.ArgumentParser]") -> None:
    verb = _verb(
        verbs, "rehearse", _rehearse, "Play a plan many times with luck; show risks and costs."
    )
    verb.add_argument("plan", metavar="PLAN", type=Path, help="plan.json, or its folder")
    add_rehearsal(verb)


def _add_trace(verbs: "_Verbs[argparse.ArgumentParser]") -> None:
    verb = _verb(verbs, "trace", _trace, "Show what a yard had contact with, both ways in time.")
    verb.add_argument("plan", metavar="PLAN", type=Path, help="plan.json, or its folder")
    verb.add_argument("yard", metavar="YARD", help="name or id of the yard under suspicion")
    verb.add_argument("--out", type=Path, metavar="FILE", help="also write the sheet as HTML")
    add_language(verb)


def _add_audit(verbs: "_Verbs[argparse.ArgumentParser]") -> None:
    verb = _verb(
        verbs, "audit", _audit, "Recompute every rule from a plan file alone; list what is broken."
    )
    verb.add_argument("plan", metavar="PLAN", type=Path, help="plan.json, or its folder")


def _add_papers(verbs: "_Verbs[argparse.ArgumentParser]") -> None:
    verb = _verb(
        verbs, "papers", _papers, "Write the map and papers of a plan file, without planning."
    )
    verb.add_argument("plan", metavar="PLAN", type=Path, help="plan.json, or its folder")
    add_out(verb)


def _add_numbers(verbs: "_Verbs[argparse.ArgumentParser]") -> None:
    _verb(
        verbs,
        "numbers",
        _numbers,
        "Compare this program's figures with published ones, each with its source.",
    )


def _new(told: argparse.Namespace) -> Exit:
    from runplanner.office.facts import start_scenario

    say(f"wrote {path}" for path in start_scenario(told.folder, told.title))
    say([f"Fill it in, then: runplanner check {told.folder}"])
    return Exit.OK


def _gather(told: argparse.Namespace) -> Exit:
    from runplanner.office.gathered import gather_yards, gathered_words

    say(gathered_words(gather_yards(told.files, told.into, near_m=told.near, far_km=told.far)))
    return Exit.OK


def _check(told: argparse.Namespace) -> Exit:
    from runplanner.office.facts import facts_words, read_outfit
    from runplanner.office.forecasts import heard_words
    from runplanner.scenario.forecast_part import Heard

    heard = Heard()
    outfit = read_outfit(told.folder, rooms=told.rooms, heard=heard)
    say(heard_words(outfit, heard))
    say(facts_words(outfit))
    return Exit.OK


def _forecast(told: argparse.Namespace) -> Exit:
    from runplanner.office.forecasts import fetch_forecasts

    say(fetch_forecasts(told.folder))
    say([f"See what they shut: runplanner check {told.folder}"])
    return Exit.OK


def _plan(told: argparse.Namespace) -> Exit:
    from runplanner.office.campaign import Effort, plan_campaign, refuse_plan
    from runplanner.office.drawn import draw_roads
    from runplanner.office.facts import read_outfit
    from runplanner.office.words import progress_line

    outfit = read_outfit(told.folder, rooms=told.rooms)
    currency = outfit.prices.currency
    effort = Effort(seed=told.seed, rounds=told.rounds, seconds=told.time)
    outcome = plan_campaign(
        outfit,
        effort,
        progress=lambda news: tell([progress_line(news, currency)]),
        rooms=told.rooms,
    )
    if outcome.findings:
        tell([f"The plan that broke rules is kept in {refuse_plan(outcome, told.out)}"])
    roads = None if outcome.findings else draw_roads(told.folder, outcome.plan)
    return _publish(outcome, told, roads)


def _replan(told: argparse.Namespace) -> Exit:
    from runplanner.office import replan
    from runplanner.office.campaign import Effort, read_plan, refuse_plan
    from runplanner.office.drawn import kept_roads

    plan, effort = read_plan(told.plan), Effort(told.seed, told.rounds, told.time)
    tell(replan.now_words(plan, told.changes, file=told.file, now=told.now))
    given = {"file": told.file, "now": told.now, "effort": effort, "rooms": told.rooms}
    if told.choices:
        say(replan.choice_words(list(replan.choices(plan, told.changes, **given))))
        return Exit.OK
    made = replan.replan_campaign(plan, told.changes, choice=told.choice, **given)
    if made.outcome.findings:
        tell([f"The plan that broke rules is kept in {refuse_plan(made.outcome, told.out)}"])
        return _publish(made.outcome, told, None)
    say(replan.change_words(made.sheet()))
    return _publish(
        made.outcome, told, kept_roads(told.plan), replan.change_papers(made, told.language)
    )


def _rehearse(told: argparse.Namespace) -> Exit:
    from runplanner.office import rehearse
    from runplanner.office.campaign import read_plan
    from runplanner.paperwork.look import Look
    from runplanner.rehearsal.luck import Luck

    plan = read_plan(told.plan)
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
    say([f"page: {rehearse.write_rehearsal(plan, stage, found, folder, look)}"])
    return Exit.OK


def _trace(told: argparse.Namespace) -> Exit:
    from runplanner.office.campaign import read_plan
    from runplanner.office.traced import trace_words, traced, write_trace

    plan = read_plan(told.plan)
    say(trace_words(traced(plan, told.yard)))
    if told.out is not None:
        say([f"sheet: {write_trace(plan, told.yard, told.out, told.language)}"])
    return Exit.OK


def _audit(told: argparse.Namespace) -> Exit:
    from runplanner.office.campaign import audit_plan, read_plan
    from runplanner.office.words import finding_words, plan_words

    outcome = audit_plan(read_plan(told.plan), rooms=told.rooms)
    if outcome.findings:
        say(finding_words(outcome.findings))
        return Exit.FINDINGS
    say(plan_words(outcome.plan))
    say(["audit: every rule holds"])
    return Exit.OK


def _papers(told: argparse.Namespace) -> Exit:
    from runplanner.office.campaign import audit_plan, read_plan
    from runplanner.office.drawn import kept_roads

    outcome = audit_plan(read_plan(told.plan), rooms=told.rooms)
    return _publish(outcome, told, kept_roads(told.plan))


def _publish(
    outcome: "Outcome",
    told: argparse.Namespace,
    roads: "Sketch | None",
    extra: "Mapping[str, str] | None" = None,
) -> Exit:
    from runplanner.office.campaign import publish_plan
    from runplanner.office.words import all_done, finding_words, plan_words
    from runplanner.paperwork.look import Look
    from runplanner.paperwork.pdf import pdf_absence

    if outcome.findings:
        tell(finding_words(outcome.findings))
        tell(["Refused: do not drive this plan. Nothing was published."])
        return Exit.FINDINGS
    folder = publish_plan(
        outcome, told.out, pdf=told.pdf, online_tiles=told.tiles, roads=roads, extra=extra,
        look=Look(told.paper, told.large, told.language), rooms=told.rooms,
    )  # fmt: skip
    say(plan_words(outcome.plan))
    if told.pdf and pdf_absence():
        tell([pdf_absence()])
    say(["audit: every rule holds", f"map and papers: {folder}; begin with index.html"])
    return Exit.OK if all_done(outcome.plan.tally) else Exit.UNDONE


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
        tell(["Stopped."])
        return Exit.STOPPED
    except BrokenPipeError:
        drop_output()
        return Exit.OK
    except OSError as error:
        tell([f"The system said: {error}. Nothing was published."])
        return Exit.BAD_INPUT
    except Exception as error:
        if os.environ.get(DEBUG):
            raise
        tell(_report(error))
        return Exit.OWN_FAULT


def _explain(error: RunplannerError) -> Exit:
    tell(str(error).splitlines()[:1] or [type(error).__name__])
    if isinstance(error, ScenarioError):
        tell(f"  - {fault.sentence()}" for fault in error.faults)
    else:
        tell(str(error).splitlines()[1:])
    return Exit.NO_PLAN if isinstance(error, PlanError) else Exit.BAD_INPUT


def _report(error: Exception) -> list[str]:
    last = traceback.extract_tb(error.__traceback__)[-1]
    spot = f"{Path(last.filename).name} line {last.lineno}"
    what = f"{type(error).__name__} at {spot}: {error}"
    cure = (
        f"Please report this line and the folder (README, Reporting a fault); {DEBUG}=1 says more."
    )
    return [f"runplanner itself is at fault: {cut(what, 300)}. {cure}"]
