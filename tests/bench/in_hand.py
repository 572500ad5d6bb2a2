"""What a plan should keep in hand: settings against each other, paired by luck.

One plan from one seed says little of a setting: the plan's own luck hides in it.  So each
setting is planned with several seeds, and all these plans meet the same luck.
"""

import csv
import itertools
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from math import sqrt
from pathlib import Path
from statistics import mean

from runplanner.daybook.plan import Plan
from runplanner.daybook.played import Played, mean_cents, troubled
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import Safety, plain, safe
from runplanner.rehearsal.many import rehearsed
from runplanner.rehearsal.play import Rehearsal
from runplanner.scenario.read import read_scenario
from runplanner.season.plan_season import plan_season
from runplanner.whole_file import write_whole
from tests.bench.results import ROOT, commit
from tests.bench.table import text_table

NOTHING = Safety()
HEAD = (
    "setting", "plans say", "overload", "more", "s.e.", "trips over", "worst kg", "trouble", "more",
    "s.e.", "undone", "mean cost, done", "both done", "more then", "s.e.",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Trial:
    """What is tried.

    Args:
        demo: Name of a folder under ``scenarios/``.
        settings: What plans keep in hand; :data:`NOTHING` is measured against, and added.
        plan_seeds: Each setting is planned with each of them.
        luck_seeds: Seeds of luck.
        plays: Plays for each seed of luck and each plan.
        rounds: Effort of the plans; None for the planner's own.
        morning: Rounds of each morning's new plan.
    """

    demo: str
    settings: tuple[Safety, ...]
    plan_seeds: tuple[int, ...]
    luck_seeds: tuple[int, ...]
    plays: int
    rounds: int | None = None
    morning: int = 20

    def all_settings(self) -> tuple[Safety, ...]:
        """Return the settings, nothing in hand first."""
        return tuple(dict.fromkeys((NOTHING, *self.settings)))


Grid = Mapping[tuple[int, tuple[int, int]], Played]
"""Plays of one setting by seed of the plan, and by seed of luck and number."""


@dataclass(frozen=True, slots=True)
class Tried:
    """A setting with all its plays, and what its plans say they cost."""

    safety: Safety
    plan_cents: tuple[int, ...]
    plays: Grid


def grid_of(loads: str, slacks: str, spares: str) -> tuple[Safety, ...]:
    """Return all settings of lists such as ``"50,90,97"``, ``"0,30"`` and ``"0"``."""
    lists = [[round(10 * float(word)) for word in loads.split(",")]]
    lists += [[int(word) for word in words.split(",")] for words in (slacks, spares)]
    return tuple(Safety(*one) for one in itertools.product(*lists))


def tried(
    trial: Trial,
    keep: Path,
    say: Callable[[str], None] = lambda _: None,
    outfit: Outfit | None = None,
) -> tuple[Tried, ...]:
    """Return every setting with its plays; plans and plays are kept in the folder ``keep``.

    Luck comes outermost, so that what is on file when it is broken off is of all settings.

    Args:
        trial: What is tried.
        keep: Where plans and plays are kept, to go on from.
        say: Told of each plan with each seed of luck.
        outfit: The facts, instead of the demo's.
    """
    typed = plain(read_scenario(ROOT / "scenarios" / trial.demo) if outfit is None else outfit)
    plans: dict[tuple[Safety, int], Plan] = {}
    plays: dict[Safety, dict[tuple[int, tuple[int, int]], Played]] = {}
    for luck, seed, safety in itertools.product(
        trial.luck_seeds, trial.plan_seeds, trial.all_settings()
    ):
        if (safety, seed) not in plans:
            plans[safety, seed] = _plan(trial, typed, safety, seed, keep)
        told = Rehearsal(plans[safety, seed], seed=luck, rounds=trial.morning, hindsight=0)
        found = rehearsed(told, trial.plays, file=keep / "plays.jsonl")
        plays.setdefault(safety, {}).update({(seed, (luck, one.play)): one for one in found})
        heavy = sum(one.over_payload > 0 for one in found)
        say(f"{trial.demo}, luck {luck}, plan {seed}, {safety.words()}: "
            f"{heavy} of {len(found)} overloaded")  # fmt: skip
    return tuple(
        Tried(safety, tuple(plans[safety, seed].bill.total() for seed in trial.plan_seeds), grid)
        for safety, grid in plays.items()
    )


def _plan(trial: Trial, typed: Outfit, safety: Safety, seed: int, keep: Path) -> Plan:
    """Return a plan, from file where this commit has made it before."""
    words = f"{commit()} {trial.demo} {safety.words()} {seed} {trial.rounds} {typed!r}"
    path = keep / f"{sha256(words.encode()).hexdigest()[:20]}.plan.json"
    if path.exists():
        return plan_from_text(path.read_text("utf-8"), path.name)
    plan = plan_season(safe(typed, safety), seed=seed, rounds=trial.rounds, proof=False)
    write_whole(path, plan_text(plan))
    return plan


def two_way(cells: Mapping[tuple[int, tuple[int, int]], float]) -> tuple[float, float]:
    """Return mean and standard error of figures that share plans along one side, luck on the other.

    Figures of one plan hang together, as do those of one luck: the variance of the mean is
    that by plan, plus that by luck, less that of all figures taken for independent, which the
    two counted twice (Cameron, Gelbach and Miller, Robust Inference with Multiway Clustering,
    2011; for a mean, cells may lack).  Where chance makes it less than either, the larger of
    the two stands.
    """
    middle = mean(cells.values())

    def over(kind: Callable[[tuple[int, tuple[int, int]]], object]) -> float:
        sums: dict[object, float] = {}
        for key, figure in cells.items():
            sums[kind(key)] = sums.get(kind(key), 0.0) + figure - middle
        n = len(sums)
        off = sum(one * one for one in sums.values()) / len(cells) ** 2
        return off * n / (n - 1) if n > 1 else 0.0

    plan, luck, each = over(lambda key: key[0]), over(lambda key: key[1]), over(lambda key: key)
    return middle, sqrt(max(plan + luck - each, plan, luck))


def rows(found: Sequence[Tried]) -> Iterator[tuple[str, ...]]:
    """Yield a line for each setting: risks and cost, and by how much more than nothing in hand.

    A play that leaves work undone is cheaper for it, so costs are those of plays that got all
    done, compared where both settings did.
    """
    none = found[0].plays
    for one in found:
        plays, n = tuple(one.plays.values()), len(one.plays)
        over, over_error = _apart(one.plays, none, lambda play: 100.0 * (play.over_payload > 0))
        bad, bad_error = _apart(one.plays, none, lambda play: 100.0 * troubled((play,)))
        done = {key: float(play.cents - none[key].cents) for key, play in one.plays.items()
                if play.all_done() and none[key].all_done()}  # fmt: skip
        more, error = two_way(done) if done else (0.0, 0.0)
        cost = mean_cents(plays)
        trips = sum(play.trips for play in plays)
        yield (
            one.safety.words(), _money(mean(one.plan_cents)),
            f"{sum(play.over_payload > 0 for play in plays)}/{n}", f"{over:+.1f} %",
            f"{over_error:.1f}",
            f"{100 * sum(play.over_payload for play in plays) / max(1, trips):.2f} %",
            str(-(-max(play.over_g for play in plays) // 1000)),
            f"{troubled(plays)}/{n}", f"{bad:+.1f} %", f"{bad_error:.1f}",
            f"{sum(not play.all_done() for play in plays)}/{n}",
            "-" if cost is None else _money(cost), f"{len(done)}/{n}",
            _signed(more) if done else "-", _money(error) if done else "-",
        )  # fmt: skip


def _apart(one: Grid, none: Grid, figure: Callable[[Played], float]) -> tuple[float, float]:
    """Return by how much a figure is more than with nothing in hand, and its standard error."""
    return two_way({key: figure(play) - figure(none[key]) for key, play in one.items()})


def table(found: Sequence[Tried]) -> str:
    """Return the lines as a table."""
    return text_table(HEAD, list(rows(found)))


def write_csv(path: Path, trials: Mapping[str, Sequence[Tried]]) -> None:
    """Write the lines of several demos."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("w", encoding="utf-8", newline="") as file:
        out = csv.writer(file)
        out.writerow(("demo", *HEAD))
        for demo, found in trials.items():
            out.writerows((demo, *line) for line in rows(found))


def _money(cents: float) -> str:
    return f"{cents / 100:,.2f}"


def _signed(cents: float) -> str:
    return f"{cents / 100:+,.2f}"
