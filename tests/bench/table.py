"""The tables: campaigns with their gaps, rivals with their ratios, published instances."""

import csv
from collections.abc import Iterable, Sequence
from pathlib import Path
from statistics import median

from tests.bench.results import Row, columns

OURS = "runplanner"
RIVALS = ("hand", "ortools", "pyvrp")


def text_table(head: Sequence[str], body: Sequence[Sequence[str]]) -> str:
    """Return aligned columns; the first to the left, the rest to the right."""
    widths = [max(len(line[i]) for line in (head, *body)) for i in range(len(head))]
    lines = []
    for line in (head, ["-" * width for width in widths], *body):
        first, *rest = (cell.ljust(w) if i == 0 else cell.rjust(w)
                        for i, (cell, w) in enumerate(zip(line, widths, strict=True)))  # fmt: skip
        lines.append("  ".join((first, *rest)).rstrip())
    return "\n".join(lines)


def campaigns(rows: Sequence[Row]) -> str:
    """Return one line for each campaign of ours, and a line of medians for each size."""
    head = ("campaign", "done", "audit", "cost", "bound", "gap %", "steer %", "first s", "total s",
            "MB", "rounds")  # fmt: skip
    body: list[tuple[str, ...]] = []
    for group in _groups(rows):
        mine = [row for row in rows if row.group == group and row.planner == OURS and row.cost]
        body += [_campaign_line(row) for row in mine]
        if len(mine) > 1:
            body.append(_medians(group, mine))
    return text_table(head, body)


def _campaign_line(row: Row) -> tuple[str, ...]:
    return (
        row.instance, "all" if row.finished else "not all",
        "clean" if not row.findings else f"{row.findings} breaches",
        _money(row.cost), _money(row.bound), _number(row.gap), _number(row.steerable_gap),
        f"{row.first_s:.1f}", f"{row.total_s:.1f}", f"{row.peak_mb:.0f}", str(row.rounds),
    )  # fmt: skip


def _medians(group: str, rows: Sequence[Row]) -> tuple[str, ...]:
    def middle(values: Iterable[float | None]) -> float | None:
        known = [value for value in values if value is not None]
        return median(known) if known else None

    return (
        f"  median {group}", f"{sum(r.finished for r in rows)}/{len(rows)}", "", "", "",
        _number(middle(r.gap for r in rows)), _number(middle(r.steerable_gap for r in rows)),
        _number(middle(r.first_s for r in rows)), _number(middle(r.total_s for r in rows)),
        _number(middle(r.peak_mb for r in rows), 0), "",
    )  # fmt: skip


def rivals(rows: Sequence[Row]) -> str:
    """Return every campaign's rivals against ours: cost, and ours as a share of theirs.

    The second share is on steerable cost: what no plan can avoid is taken off both.
    """
    head = ("campaign", "rival", "done", "audit", "cost", "ours/its", "steerable", "setting")
    body = []
    for ours in (row for row in rows if row.planner == OURS and row.cost):
        for name in RIVALS:
            body += [_rival_line(ours, row) for row in rows
                     if row.instance == ours.instance and row.planner == name]  # fmt: skip
    return text_table(head, body)


def _rival_line(ours: Row, its: Row) -> tuple[str, ...]:
    if not its.cost:
        return (ours.instance, its.planner, "-", "-", "-", "-", "-", its.note[:60])
    all_cost, steerable = ratios(ours, its)
    both = ours.finished and its.finished
    return (
        ours.instance, its.planner, "all" if its.finished else "not all",
        "clean" if not its.findings else f"{its.findings} breaches", _money(its.cost),
        f"{all_cost:.3f}" if both else "-", f"{steerable:.3f}" if both else "-",
        its.note.removeprefix("Setting"),
    )  # fmt: skip


def ratios(ours: Row, its: Row) -> tuple[float, float]:
    """Return our cost as a share of a rival's: all of it, and the steerable part."""
    steered = max(1, its.cost - ours.fixed)
    return ours.cost / its.cost, (ours.cost - ours.fixed) / steered


def verdict(rows: Sequence[Row]) -> str:
    """Say, size by size, how we stand against the best rival, and where we lose."""
    lines = []
    for group in _groups(rows):
        shares, lost, alone = [], [], 0
        for ours in (r for r in rows if r.group == group and r.planner == OURS and r.cost):
            best = _best_rival(rows, ours)
            if best is None:
                alone += int(ours.finished)
                continue
            if not ours.finished:
                lost.append(f"{ours.instance} ({best.planner} finishes, we do not)")
                continue
            shares.append(ratios(ours, best)[1])
            if ours.cost > best.cost:
                lost.append(f"{ours.instance} ({best.planner} is cheaper)")
        if shares or alone or lost:
            said = (
                f"median steerable cost {median(shares):.3f} of it" if shares else "none finishes"
            )
            lines.append(
                f"{group}: against the best rival that finishes, {said}; "
                f"we alone finish {alone}; we lose: {', '.join(lost) or 'nowhere'}."
            )
    return "\n".join(lines)


def _best_rival(rows: Sequence[Row], ours: Row) -> Row | None:
    done = [
        row
        for row in rows
        if row.instance == ours.instance and row.planner != OURS and row.finished
        and not row.findings
    ]  # fmt: skip
    return min(done, key=lambda row: row.cost, default=None)


def published(rows: Sequence[Row]) -> str:
    """Return the published instances: what we reach, and the best known."""
    head = ("instance", "set", "ours", "best known", "above %", "bound", "gap %", "proven",
            "total s", "note")  # fmt: skip
    body = [
        (
            row.instance, row.group, str(row.cost or "-"), str(row.best_known or "-"),
            _number(row.above), str(row.bound or "-"), _number(row.gap),
            "yes" if row.proven else "no", f"{row.total_s:.1f}", row.note[:90],
        )
        for row in rows
    ]  # fmt: skip
    return text_table(head, body)


def means(rows: Sequence[Row]) -> str:
    """Return each set's mean and worst distance to the best known."""
    lines = []
    for group in _groups(rows):
        above = [row.above for row in rows if row.group == group and row.above is not None]
        if above:
            equal = sum(value <= 0 for value in above)
            lines.append(
                f"{group}: {len(above)} instances, mean {sum(above) / len(above):.2f} % above the "
                f"best known, worst {max(above):.2f} %, equal on {equal}, "
                f"proven on {sum(row.proven for row in rows if row.group == group)}."
            )
    return "\n".join(lines)


def write_csv(path: Path, rows: Iterable[Row]) -> None:
    """Write rows as CSV, whole."""
    names = [*columns(), "gap", "steerable_gap", "above"]
    draft = path.with_suffix(".part")
    with draft.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        writer.writerow(names)
        writer.writerows([[getattr(row, name) for name in names] for row in rows])
    draft.replace(path)


def _groups(rows: Iterable[Row]) -> list[str]:
    return list(dict.fromkeys(row.group for row in rows))


def _money(cents: int) -> str:
    return f"{cents / 100:,.0f}" if cents else "-"


def _number(value: float | None, digits: int = 2) -> str:
    return "-" if value is None else f"{value:.{digits}f}"
