"""Where time goes, and how cost and time grow with the number of yards."""

import cProfile
import math
import pstats
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from statistics import median

from runplanner.season.plan_season import plan_season
from tests.bench.campaigns import SIZES, SMOKE, Size, campaign
from tests.bench.results import Row
from tests.bench.table import text_table

TOP = 20


def profiled(size: Size, seed: int, seconds: float, rounds: int | None) -> str:
    """Return where one search spends its time: by module, and the dearest functions."""
    outfit, profile = campaign(size, seed), cProfile.Profile()
    profile.enable()
    plan_season(outfit, seconds=seconds, rounds=rounds)
    profile.disable()
    stats = pstats.Stats(profile).get_stats_profile()
    functions = [
        (one.tottime, one.cumtime, one.ncalls, _module(one.file_name), name)
        for name, one in stats.func_profiles.items()
    ]
    by_module: Counter[str] = Counter()
    for own, _, _, module, _ in functions:
        by_module[module] += int(own * 1_000_000)
    total = max(1, sum(by_module.values()))
    modules = [
        (name, f"{micro / 1e6:.2f}", f"{100 * micro / total:.0f}")
        for name, micro in by_module.most_common(TOP)
    ]
    dearest = sorted(functions, reverse=True)[:TOP]
    lines = [
        (f"{module}:{name}", f"{own:.2f}", f"{whole:.2f}", str(calls))
        for own, whole, calls, module, name in dearest
    ]
    return "\n\n".join(
        (
            text_table(("module", "own s", "%"), modules),
            text_table(("function", "own s", "in all s", "calls"), lines),
        )
    )


def _module(file: str) -> str:
    path = Path(file)
    if "runplanner" in path.parts:
        return ".".join(path.with_suffix("").parts[-2:])
    return "built in" if file.startswith(("~", "<")) else path.stem


def plot(rows: Sequence[Row], path: Path) -> str:
    """Draw medians of cost, bound and time over yards; return what was done in words."""
    try:
        import matplotlib as mpl
    except ImportError:
        return "No plot: matplotlib is not installed; pip install 'runplanner[bench]' brings it."
    mpl.use("Agg")
    from matplotlib import pyplot as plt

    last = {row.instance: row for row in rows if row.planner == "runplanner" and row.cost}
    mine = {
        size.yards: [row for row in last.values() if row.group == size.name]
        for size in (SMOKE, *SIZES)
    }
    yards = [count for count, found in mine.items() if found]
    if not yards:
        return "No plot: nothing has been measured yet."
    figure, (left, right) = plt.subplots(1, 2, figsize=(10, 4), layout="constrained")
    for name, values in (
        ("cost", [median(r.cost for r in mine[n]) / 100 / n for n in yards]),
        ("bound", [median(r.bound for r in mine[n]) / 100 / n for n in yards]),
    ):
        left.plot(yards, values, marker="o", label=name)
    most = max(median(r.cost for r in mine[n]) / 100 / n for n in yards)
    left.set(xlabel="yards", ylabel="cost a yard", ylim=(0, 1.1 * most), title="Cost (medians)")
    right.plot(
        yards,
        [median(r.total_s for r in mine[n]) for n in yards],
        marker="o",
        label="whole command",
    )
    right.plot(
        yards, [median(r.first_s for r in mine[n]) for n in yards], marker="o", label="first plan"
    )
    right.set(xlabel="yards", ylabel="seconds", yscale="log", title="Time (medians)")
    # Whole powers of ten at both ends, so that even one point has a scale to be read from.
    low, high = (math.log10(max(0.01, bound)) for bound in right.get_ylim())
    right.set_ylim(10 ** math.floor(low), 10 ** math.ceil(high))
    right.yaxis.set_major_formatter("{x:g}")
    for axes in (left, right):
        axes.set_xticks(yards)
        axes.legend()
        axes.grid(visible=True, alpha=0.3)
    figure.savefig(path, dpi=120)
    plt.close(figure)
    return f"Drawn: {path}"
