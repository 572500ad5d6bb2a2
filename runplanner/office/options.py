"""Options that several verbs share, and how what is typed after them is read."""

import argparse
from pathlib import Path

from runplanner.outfit.safety import Safety
from runplanner.paperwork.tongue import ENGLISH, languages

RESULTS = "maps_out"


def add_effort(verb: argparse.ArgumentParser) -> None:
    """Add how hard to look for a plan."""
    verb.add_argument("--seed", type=whole, default=1, help="start of the search (default 1)")
    verb.add_argument("--rounds", type=whole, help="rounds of improvement (default: by size)")
    verb.add_argument("--time", type=seconds, metavar="SECONDS", help="stop looking after this")


def add_out(verb: argparse.ArgumentParser) -> None:
    """Add where papers go and how they look."""
    verb.add_argument(
        "--out", type=Path, default=Path(RESULTS), help=f"where results go (default {RESULTS})"
    )
    verb.add_argument("--pdf", action="store_true", help="also print the manifests to PDF")
    verb.add_argument(
        "--paper", choices=("a4", "letter"), default="a4", help="size of the sheets (default a4)"
    )
    verb.add_argument("--large", action="store_true", help="large type, to be read in a cab")
    add_language(verb)
    verb.add_argument(
        "--tiles", action="store_true", help="let the map fetch tiles when it is opened online"
    )


def add_language(verb: argparse.ArgumentParser) -> None:
    """Add the language of the papers."""
    verb.add_argument(
        "--language", choices=languages(), default=ENGLISH, help="of the papers (default en)"
    )


def whole(typed: str) -> int:
    """Read a whole number of 0 or more."""
    if not (typed.isascii() and typed.isdigit()) or len(typed) > 9:
        raise argparse.ArgumentTypeError(f"{typed!r} is not a whole number of 0 or more")
    return int(typed)


def seconds(typed: str) -> float:
    """Read a time above 0."""
    try:
        found = float(typed)
    except ValueError:
        found = 0.0
    if not 0 < found < 1e6:
        raise argparse.ArgumentTypeError(f"{typed!r} is not a number of seconds above 0")
    return found


def count(typed: str) -> int:
    """Read a whole number of 1 or more."""
    if not whole(typed):
        raise argparse.ArgumentTypeError("'0' is not a whole number of 1 or more")
    return int(typed)


def percent(typed: str) -> int:
    """Read a percentage from 0 to 100 as per mille."""
    number = whole(typed.strip().removesuffix("%").strip())
    if number > 100:
        raise argparse.ArgumentTypeError(f"{typed!r} is not a percentage from 0 to 100")
    return 10 * number


def safety(typed: str) -> Safety:
    """Read what is kept in hand: LOAD:MINUTES:DAYS, such as ``90:30:1``."""
    try:
        load, slack, spare = (whole(part) for part in typed.split(":"))
    except (ValueError, argparse.ArgumentTypeError):
        load = slack = spare = -1
    if not (50 <= load <= 99 and 0 <= slack <= 600 and 0 <= spare <= 30):
        raise argparse.ArgumentTypeError(
            f"{typed[:40]!r} is not LOAD:MINUTES:DAYS with 50 to 99 % of boxes no heavier, "
            "0 to 600 minutes and 0 to 30 days, such as 90:30:1"
        )
    return Safety(10 * load, slack, spare)


def add_rehearsal(verb: argparse.ArgumentParser) -> None:
    """Add how a plan is rehearsed."""
    verb.add_argument("--plays", type=count, default=100, help="how often (default 100)")
    verb.add_argument("--seed", type=whole, default=1, help="start of the dice (default 1)")
    verb.add_argument(
        "--rounds", type=whole, default=20, help="effort of each morning's new plan (default 20)"
    )
    verb.add_argument(
        "--hindsight", type=whole, default=60, metavar="ROUNDS",
        help="effort of the plan that knows the future (default 60); 0: none",
    )  # fmt: skip
    for name, spread, what in (
        ("--boxes", 10, "spread of the boxes in a yard"),
        ("--minutes", 15, "spread of the minutes at a stop"),
        ("--shut", 10, "chance of a fair day shut after all, where no forecast tells"),
        ("--truck", 1, "chance of a truck not starting, each day"),
    ):
        verb.add_argument(
            name, type=percent, default=10 * spread, metavar="PERCENT",
            help=f"{what} (default {spread})",
        )  # fmt: skip
    verb.add_argument(
        "--settings", type=safety, nargs="*", metavar="LOAD:MINUTES:DAYS",
        help="also plan and rehearse with something kept in hand (alone: a grid of settings)",
    )  # fmt: skip
    verb.add_argument("--workers", type=count, default=1, help="processes (default 1)")
    verb.add_argument("--cluster", default="", metavar="ADDRESS", help="of a Dask scheduler")
    verb.add_argument(
        "--out", type=Path, default=Path(RESULTS), help=f"where results go (default {RESULTS})"
    )
    add_language(verb)
