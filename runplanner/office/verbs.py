"""The verbs of the command line and what may follow each, in the language spoken."""

import argparse
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import NamedTuple

from runplanner.office.options import add_effort, add_language, add_out, add_rehearsal, whole
from runplanner.paperwork.speech.tongue import tr

_Parsers = argparse._SubParsersAction  # noqa: SLF001 - argparse has no public name for it
Does = Mapping[str, Callable[[argparse.Namespace], int]]


class Verbs(NamedTuple):
    """The verbs added so far, and what each does, by name."""

    parsers: "_Parsers[argparse.ArgumentParser]"
    does: Does


def add_verbs(parsers: "_Parsers[argparse.ArgumentParser]", does: Does) -> None:
    """Add every verb, in the language spoken."""
    verbs = Verbs(parsers, does)
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


def _verb(verbs: Verbs, name: str, help_text: str) -> argparse.ArgumentParser:
    verb = verbs.parsers.add_parser(name, help=help_text, description=help_text)
    verb.set_defaults(do=verbs.does[name])
    add_language(verb, argparse.SUPPRESS)  # given to the verb or before it: one word for all
    return verb


def _add_new(verbs: Verbs) -> None:
    verb = _verb(verbs, "new", tr("Write a commented starter scenario to fill in."))
    verb.add_argument("folder", metavar="DIR", type=Path, help=tr("folder to make"))
    verb.add_argument(
        "--title", default="", help=tr("what to call the outfit (default: DIR's name)")
    )


def _add_gather(verbs: Verbs) -> None:
    verb = _verb(
        verbs, "gather", tr("Merge places from files people have into a scenario's yards.")
    )
    verb.add_argument(
        "files",
        metavar="FILE",
        type=Path,
        nargs="+",
        help=tr("CSV, XLSX, GPX, KML or GeoJSON file"),
    )
    verb.set_defaults(any_number=("files", Path))
    verb.add_argument("--into", metavar="DIR", type=Path, required=True, help=tr("scenario folder"))
    verb.add_argument(
        "--near",
        type=whole,
        metavar="METRES",
        help=tr("refuse two names nearer than this (default 200; 0: never)"),
    )
    verb.add_argument(
        "--far",
        type=whole,
        metavar="KM",
        help=tr("refuse places further from base and rest, or all at sea (default 300; 0: never)"),
    )
    verb.add_argument(
        "--few-boxes",
        action="store_true",
        help=tr("take boxes as the whole yard's, though few enough to be each hive's"),
    )


def _add_check(verbs: Verbs) -> None:
    verb = _verb(verbs, "check", tr("List every fault of a scenario, or what its facts imply."))
    verb.add_argument("folder", metavar="DIR", type=Path, help=tr("scenario folder"))


def _add_forecast(verbs: Verbs) -> None:
    verb = _verb(
        verbs,
        "forecast",
        tr("Fetch the forecasts a scenario names, from their addresses."),
    )
    verb.add_argument("folder", metavar="DIR", type=Path, help=tr("scenario folder"))


def _add_plan(verbs: Verbs) -> None:
    verb = _verb(
        verbs, "plan", tr("Plan a scenario, audit the plan, and write the map and papers.")
    )
    verb.add_argument("folder", metavar="DIR", type=Path, help=tr("scenario folder"))
    add_out(verb)
    add_effort(verb)


def _add_replan(verbs: Verbs) -> None:
    verb = _verb(verbs, "replan", tr("Plan the rest of a running campaign after changes."))
    verb.add_argument("plan", metavar="PLAN", type=Path, help=tr("plan.json, or its folder"))
    verb.add_argument(
        "changes", metavar="CHANGE", nargs="*", help=tr("such as 'shut Fernbank Fri from 14:00'")
    )
    verb.set_defaults(any_number=("changes", str))
    verb.add_argument(
        "--changes", dest="file", type=Path, help=tr("file with a change on each line")
    )
    verb.add_argument("--now", default="", metavar="WHEN", help=tr("the time it is: 'Fri 12:30'"))
    verb.add_argument(
        "--forecast", metavar="DIR", type=Path, help=tr("scenario whose weather is read again")
    )
    verb.add_argument(
        "--ring",
        action="store_true",
        help=tr(
            "take drivers whose stops to come no longer hold as told what fits; ring them: "
            "the change sheet says whom"
        ),
    )
    verb.add_argument(
        "--choice", choices=("least", "balance", "cheapest"), default="least",
        help=tr("how much may move beyond what must (default least)"),
    )  # fmt: skip
    verb.add_argument("--choices", action="store_true", help=tr("show all three, publish none"))
    add_out(verb)
    add_effort(verb)


def _add_rehearse(verbs: Verbs) -> None:
    verb = _verb(verbs, "rehearse", tr("Play a plan many times with luck; show risks and costs."))
    verb.add_argument("plan", metavar="PLAN", type=Path, help=tr("plan.json, or its folder"))
    add_rehearsal(verb)


def _add_trace(verbs: Verbs) -> None:
    verb = _verb(verbs, "trace", tr("Show what a yard had contact with, both ways in time."))
    verb.add_argument("plan", metavar="PLAN", type=Path, help=tr("plan.json, or its folder"))
    verb.add_argument("yard", metavar="YARD", help=tr("name or id of the yard under suspicion"))
    verb.add_argument("--out", type=Path, metavar="FILE", help=tr("also write the sheet as HTML"))


def _add_audit(verbs: Verbs) -> None:
    verb = _verb(
        verbs,
        "audit",
        tr("Recompute every rule from a plan file alone; list what is broken."),
    )
    verb.add_argument("plan", metavar="PLAN", type=Path, help=tr("plan.json, or its folder"))


def _add_papers(verbs: Verbs) -> None:
    verb = _verb(verbs, "papers", tr("Write the map and papers of a plan file, without planning."))
    verb.add_argument("plan", metavar="PLAN", type=Path, help=tr("plan.json, or its folder"))
    add_out(verb)


def _add_numbers(verbs: Verbs) -> None:
    _verb(
        verbs,
        "numbers",
        tr("Compare this program's figures with published ones, each with its source."),
    )
