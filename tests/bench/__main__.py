"""The bench: campaigns, rivals and published instances, measured and printed.

    python -m tests.bench campaigns --sizes 12,24 --seeds 1-5
    python -m tests.bench published --sets cvrp,solomon
    python -m tests.bench replan --sizes 40 --seeds 1-3
    python -m tests.bench in-hand --demos ironsand_coast --seeds 1-4 --luck 11-12
    python -m tests.bench all
    python -m tests.bench campaigns --smoke

A run that is on file for this commit is not made again (``--fresh`` forgets the file).
"""

import argparse
import math
import sys
from pathlib import Path

from tests.bench import table
from tests.bench.campaigns import SIZES, SMOKE, Size
from tests.bench.results import ROOT, Kept, Row, commit
from tests.bench.rivals import ROUTERS, why_absent
from tests.bench.runs import Runner


def main(words: list[str] | None = None) -> int:
    """Do what the command line says."""
    parser = _parser()
    wish = parser.parse_args(words)
    _refuse_unknown(parser, wish)
    out: Path = wish.out
    out.mkdir(parents=True, exist_ok=True)
    if wish.profile:
        _profile(wish)
        if not wish.plot:
            return 0
    kept = Kept(out / "results.jsonl")
    if wish.fresh:
        kept.path.unlink(missing_ok=True)
        kept.rows.clear()
    runner = Runner(kept, commit(), wish.rounds)
    if wish.what in {"campaigns", "all"}:
        _campaigns(wish, runner)
    if wish.what in {"replan", "all"}:
        _replan(wish)
    if wish.what == "in-hand":
        _in_hand(wish)
    if wish.what in {"published", "all"}:
        _published(wish, runner)
    if wish.plot:
        from tests.bench.growth import plot

        say(plot(kept.rows, out / "growth.png"))
    return 0


def say(text: str) -> None:
    """Print."""
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("what", nargs="?", default="campaigns",
                        choices=("campaigns", "published", "replan", "in-hand", "all"))  # fmt: skip
    parser.add_argument("--sizes", default="12,24,40,80,200", help="yards, with commas")
    parser.add_argument("--seeds", default="1-5", help="such as 1-5 or 1,3")
    parser.add_argument("--seconds", type=float, help="for each planner; the targets' own if left")
    parser.add_argument("--rounds", type=int, help="rounds of our search; its own if left")
    parser.add_argument("--rivals", default=",".join(ROUTERS), help="with commas; none for none")
    parser.add_argument("--sets", default="", help="published sets, with commas; all if left")
    parser.add_argument("--demos", default="ironsand_coast", help="in-hand: demos, with commas")
    parser.add_argument("--loads", default="50,90,95,97", help="in-hand: per cent, 50 is none")
    parser.add_argument("--slacks", default="0,30", help="in-hand: minutes")
    parser.add_argument("--spares", default="0", help="in-hand: days")
    parser.add_argument("--luck", default="11-12", help="in-hand: seeds of luck")
    parser.add_argument("--plays", type=int, default=15, help="in-hand: for each seed of luck")
    parser.add_argument("--smoke", action="store_true", help="one tiny campaign, in seconds")
    parser.add_argument("--fresh", action="store_true", help="forget what is on file")
    parser.add_argument("--profile", action="store_true",
                        help="where one search's time goes; measures only with --plot")  # fmt: skip
    parser.add_argument("--plot", action="store_true", help="draw cost and time by yards")
    parser.add_argument("--out", type=Path, default=ROOT / "maps_out" / "bench")
    return parser


def _refuse_unknown(parser: argparse.ArgumentParser, wish: argparse.Namespace) -> None:
    """Refuse sizes, sets and rivals that there are none of, which would measure nothing."""
    from tests.bench.published import SETS

    for option, said, known in (
        ("--sizes", wish.sizes, [str(size.yards) for size in SIZES]),
        ("--sets", wish.sets, list(SETS)),
        ("--rivals", wish.rivals, [*ROUTERS, "none"]),
    ):
        strange = [word for word in said.split(",") if word and word not in known]
        if strange:
            parser.error(f"{option}: {', '.join(strange)}; there are {', '.join(known)}")


def _sizes(wish: argparse.Namespace) -> list[Size]:
    if wish.smoke:
        return [SMOKE]
    wanted = {int(word) for word in wish.sizes.split(",")}
    return [size for size in SIZES if size.yards in wanted]


def _seeds(wish: argparse.Namespace) -> list[int]:
    return [1] if wish.smoke else _numbers(wish.seeds)


def _numbers(said: str) -> list[int]:
    first, _, last = said.partition("-")
    return list(range(int(first), int(last) + 1)) if last else [
        int(word) for word in said.split(",")
    ]  # fmt: skip


def _campaigns(wish: argparse.Namespace, runner: Runner) -> None:
    names = [name for name in wish.rivals.split(",") if name in ROUTERS]
    absent = {name: why for name in names if (why := why_absent(name))}
    for name, why in absent.items():
        say(f"{name} left out: {why}")
    rows: list[Row] = []
    for size in _sizes(wish):
        for seed in _seeds(wish):
            rows += _one_campaign(
                runner, size, seed, wish.seconds or size.seconds,
                [name for name in names if name not in absent],
            )  # fmt: skip
    say("\nOur plans (gap: proven, on all cost; steer: the same on what a plan can steer)")
    say(table.campaigns(rows))
    say("\nRivals, in the same seconds, judged by the same audit")
    say(table.rivals(rows))
    say("\n" + table.verdict(rows))
    table.write_csv(wish.out / "campaigns.csv", rows)


def _one_campaign(
    runner: Runner, size: Size, seed: int, seconds: float, names: list[str]
) -> list[Row]:
    """Return our row and the rivals'; they get the time we took where that was more."""
    rows = [runner.campaign(size, seed, table.OURS, seconds)]
    same = max(seconds, float(math.ceil(rows[0].total_s)))
    rows += [runner.campaign(size, seed, name, same) for name in names]
    for row in rows:
        say(f"{row.instance} {row.planner}: {row.cost / 100:,.0f} {row.note[:80]}")
    return rows


def _replan(wish: argparse.Namespace) -> None:
    from tests.bench.upset import MOST_WINDOWS, Shut, table, upsets, write_csv

    rows: list[Shut] = []
    for size in _sizes(wish):
        for seed in _seeds(wish):
            least = wish.seconds or size.seconds / 6
            best = min(10.0, wish.seconds or 10.0)
            say(f"{size.name}, seed {seed}: planned in {least:.0f} s, then up to "
                f"{MOST_WINDOWS} windows shut one by one")  # fmt: skip
            rows += upsets(size, seed, least, best)
    say("\nOne window shut on the third day, told the evening before")
    say(table(rows))
    write_csv(wish.out / "replan.csv", rows)


def _published(wish: argparse.Namespace, runner: Runner) -> None:
    from tests.bench.published import SETS, instances_of, why_left_out

    rows = []
    for group in SETS:
        if wish.sets and group not in wish.sets.split(","):
            continue
        for instance, seconds in instances_of(group).items():
            why = why_left_out(instance)
            if why:
                say(f"{instance} left out: {why}")
                continue
            rows.append(runner.published(group, instance, wish.seconds or seconds))
            say(f"{instance}: {rows[-1].cost} {rows[-1].note[:80]}")
    say("\nPublished instances through our own core")
    say(table.published(rows))
    say(table.means(rows))
    table.write_csv(wish.out / "published.csv", rows)


def _in_hand(wish: argparse.Namespace) -> None:
    from tests.bench import in_hand

    grid = in_hand.grid_of(wish.loads, wish.slacks, wish.spares)
    found = {}
    for demo in wish.demos.split(","):
        trial = in_hand.Trial(
            demo, grid, tuple(_seeds(wish)), tuple(_numbers(wish.luck)), wish.plays, wish.rounds
        )
        found[demo] = in_hand.tried(trial, wish.out / "in_hand", say)
    for demo, tried in found.items():
        say(f"\n{demo}: every setting meets the same luck; more: than with nothing in hand")
        say(in_hand.table(tried))
    in_hand.write_csv(wish.out / "in_hand.csv", found)


def _profile(wish: argparse.Namespace) -> None:
    from tests.bench.growth import profiled

    for size in _sizes(wish):
        say(f"{size.name}, seed {_seeds(wish)[0]}")
        say(profiled(size, _seeds(wish)[0], wish.seconds or 10, wish.rounds))


if __name__ == "__main__":
    try:
        sys.exit(main())
    except KeyboardInterrupt:
        say("Broken off. What was measured is on file; say the same again to go on.")
        sys.exit(130)
