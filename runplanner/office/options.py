"""Options that several verbs share, and how what is typed after them is read."""

import argparse
import os
import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from runplanner.outfit.safety import Safety
from runplanner.paperwork.speech.tongue import ENGLISH, LANGUAGE, languages, mark, tr

RESULTS = "maps_out"


def read_words(top: argparse.ArgumentParser, words: Sequence[str]) -> argparse.Namespace:
    """Return what ``words`` say; exit with what is wrong where ``top`` does not know them.

    Of what a verb takes any number of, some may stand behind options: argparse itself reads
    only the first row of them.  Such a verb names it, and its type, as ``any_number``.  Behind
    ``--`` no word is an option.
    """
    told, left = top.parse_known_args(words)
    name, kind = getattr(told, "any_number", ("", str))
    end = left.index("--") if "--" in left else len(left)
    more = [*left[:end], *left[end + 1 :]]
    if more and (not name or any(word.startswith("-") for word in left[:end])):
        top.error(tr("unrecognized arguments: %s") % " ".join(left))
    if more:
        setattr(told, name, [*getattr(told, name), *map(kind, more)])
    return told


def add_effort(verb: argparse.ArgumentParser) -> None:
    """Add how hard to look for a plan."""
    verb.add_argument("--seed", type=whole, default=1, help=tr("start of the search (default 1)"))
    verb.add_argument("--rounds", type=whole, help=tr("rounds of improvement (default: by size)"))
    verb.add_argument(
        "--time",
        type=seconds,
        metavar="SECONDS",
        help=tr("be done with plan, proof and reasons after this"),
    )


def add_out(verb: argparse.ArgumentParser) -> None:
    """Add where papers go and how they look."""
    verb.add_argument(
        "--out",
        type=Path,
        default=Path(RESULTS),
        help=tr("where results go (default {folder})", folder=RESULTS),
    )
    verb.add_argument("--pdf", action="store_true", help=tr("also print the manifests to PDF"))
    verb.add_argument(
        "--paper",
        choices=("a4", "letter"),
        default="a4",
        help=tr("size of the sheets (default a4)"),
    )
    verb.add_argument("--large", action="store_true", help=tr("large type, to be read in a cab"))
    verb.add_argument(
        "--tiles", action="store_true", help=tr("let the map fetch tiles when it is opened online")
    )


def add_language(parser: argparse.ArgumentParser, default: str) -> None:
    """Add the language that everything is said in."""
    parser.add_argument(
        "--language", choices=languages(), default=default,
        help=tr("of the papers and the screen (default en, or what {name} says)", name=LANGUAGE),
    )  # fmt: skip


def language_asked(words: Sequence[str]) -> str:
    """Return the language that ``words`` ask for, else what the environment says, else English.

    Looked for before anything else, as help and errors of the options are said in it; an
    unknown one is refused later, where all options are read.
    """
    early = argparse.ArgumentParser(add_help=False, exit_on_error=False)
    early.add_argument("--language", default=os.environ.get(LANGUAGE, ""))
    try:
        asked = str(early.parse_known_args(words)[0].language)
    except argparse.ArgumentError:
        asked = ""
    return asked if asked in languages() else ENGLISH


def language_set() -> str:
    """Return the language that the environment asks for; English where it does not."""
    return os.environ.get(LANGUAGE, "") or ENGLISH


@contextmanager
def speaking_argparse() -> Iterator[None]:
    """Let argparse say its own words in the language spoken, where the catalogue has them.

    It asks gettext for each of them, by names of its module; it offers no other way.
    """
    names = vars(argparse)
    hooks: dict[str, Callable[..., str]] = {"_": tr, "ngettext": plural}
    before: dict[str, object] = {name: names[name] for name in hooks if name in names}
    names.update({name: hooks[name] for name in before})
    try:
        yield
    finally:
        names.update(before)


def plural(one: str, many: str, number: int) -> str:
    """Return ``one`` or ``many`` of argparse's own words; it puts the number in itself."""
    return tr(one if number == 1 else many)


OWN_WORDS = (
    mark("usage: "), mark("options"), mark("positional arguments"),
    mark("show this help message and exit"),
    mark("%(prog)s: error: %(message)s\n"), mark("argument %(argument_name)s: %(message)s"),
    mark("the following arguments are required: %s"), mark("unrecognized arguments: %s"),
    mark("invalid choice: %(value)r (choose from %(choices)s)"),
    mark("invalid %(type)s value: %(value)r"), mark("expected one argument"),
    mark("expected at least one argument"), mark("expected at most one argument"),
    mark("ignored explicit argument %r"),
    mark("ambiguous option: %(option)s could match %(matches)s"),
)  # fmt: skip
"""What argparse says itself (Python 3.11 to 3.13); what it words anew stays English."""


def whole(typed: str) -> int:
    """Read a whole number of 0 or more."""
    if not (typed.isascii() and typed.isdigit()) or len(typed) > 9:
        raise argparse.ArgumentTypeError(
            tr("{typed} is not a whole number from 0 to 999999999", typed=repr(typed))
        )
    return int(typed)


def seconds(typed: str) -> float:
    """Read a time above 0."""
    try:
        found = float(typed)
    except ValueError:
        found = 0.0
    if not 0 < found < 1e6:
        raise argparse.ArgumentTypeError(
            tr("{typed} is not a number of seconds above 0 and below 1000000", typed=repr(typed))
        )
    return found


def count(typed: str) -> int:
    """Read a whole number of 1 or more."""
    if not whole(typed):
        raise argparse.ArgumentTypeError(tr("'0' is not a whole number of 1 or more"))
    return int(typed)


def percent(typed: str) -> int:
    """Read a percentage from 0 to 100, with a decimal place or none, as per mille."""
    found = permille(typed.strip().removesuffix("%").strip())
    if found is None or found > 1000:
        raise argparse.ArgumentTypeError(
            tr("{typed} is not a percentage from 0 to 100, such as 10 or 2.5", typed=repr(typed))
        )
    return found


def permille(typed: str) -> int | None:
    """Return a number such as ``97`` or ``97.5`` times ten; None for anything else."""
    found = re.fullmatch(r"([0-9]{1,9})(?:\.([0-9]))?", typed)
    return 10 * int(found[1]) + int(found[2] or 0) if found else None


def safety(typed: str) -> Safety:
    """Read what is kept in hand: LOAD:MINUTES:DAYS, such as ``90:30:1``."""
    try:
        share, *rest = typed.split(":")
        load = permille(share) or 0
        slack, spare = (whole(part) for part in rest)
    except (ValueError, argparse.ArgumentTypeError):
        load = slack = spare = -1
    if not (500 <= load <= 999 and 0 <= slack <= 600 and 0 <= spare <= 30):
        raise argparse.ArgumentTypeError(
            tr(
                "{typed} is not LOAD:MINUTES:DAYS with 50 to 99.9 % of boxes no heavier, "
                "0 to 600 minutes and 0 to 30 days, such as 90:30:1",
                typed=repr(typed[:40]),
            )
        )
    return Safety(load, slack, spare)


def add_rehearsal(verb: argparse.ArgumentParser) -> None:
    """Add how a plan is rehearsed."""
    verb.add_argument("--plays", type=count, default=100, help=tr("how often (default 100)"))
    verb.add_argument("--seed", type=whole, default=1, help=tr("start of the dice (default 1)"))
    verb.add_argument(
        "--rounds",
        type=whole,
        default=20,
        help=tr("effort of each morning's new plan (default 20)"),
    )
    verb.add_argument(
        "--hindsight", type=whole, default=60, metavar="ROUNDS",
        help=tr("effort of the plan that knows the future (default 60); 0: none"),
    )  # fmt: skip
    for name, spread, what in (
        ("--boxes", 10, tr("spread of the boxes in a yard")),
        ("--minutes", 15, tr("spread of the minutes at a stop")),
        ("--shut", 10, tr("chance of a fair day shut after all, where no forecast tells")),
        ("--truck", 1, tr("chance of a truck not starting, each day")),
    ):
        verb.add_argument(
            name, type=percent, default=10 * spread, metavar="PERCENT",
            help=tr("{what} (default {number})", what=what, number=spread),
        )  # fmt: skip
    verb.add_argument(
        "--settings", type=safety, nargs="*", metavar="LOAD:MINUTES:DAYS",
        help=tr("also plan and rehearse with something kept in hand (alone: a grid of settings)"),
    )  # fmt: skip
    verb.add_argument("--workers", type=count, default=1, help=tr("processes (default 1)"))
    verb.add_argument("--cluster", default="", metavar="ADDRESS", help=tr("of a Dask scheduler"))
    verb.add_argument(
        "--out",
        type=Path,
        default=Path(RESULTS),
        help=tr("where results go (default {folder})", folder=RESULTS),
    )
