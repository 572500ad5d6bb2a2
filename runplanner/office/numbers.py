"""The program's figures beside published ones, as lines for the screen."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from runplanner.paperwork.tongue import tr
from runplanner.trade.check_row import CheckRow, Trap


@dataclass(frozen=True, slots=True)
class Numbers:
    """Every figure that is checked, and every printed one that is known to be wrong."""

    rows: Sequence[CheckRow]
    traps: Sequence[Trap]

    def hold(self) -> bool:
        """Say whether every figure is as close to its published one as it must be."""
        return all(row.ok() for row in self.rows)


def numbers() -> Numbers:
    """Return the check table."""
    from runplanner.trade.checks import check_table, trap_table

    return Numbers(check_table(), trap_table())


def number_words(table: Numbers) -> Iterator[str]:
    """Yield the table: seen sources first, then the rest, then what is wrong in print."""
    seen = [row for row in table.rows if row.seen()]
    rest = [row for row in table.rows if not row.seen()]
    yield tr("Published figures, seen in their source")
    yield from _parts(seen)
    yield tr("Figures whose source was not seen: worked out, from memory, or common practice")
    yield from _parts(rest)
    yield tr("Printed and wrong, so not used")
    yield from (_trap_words(trap) for trap in table.traps)
    off = sum(not row.ok() for row in table.rows)
    agree, rows = len(table.rows) - off, len(table.rows)
    yield tr("{some} of {all} figures agree", some=agree, all=rows)


def _parts(rows: Sequence[CheckRow]) -> Iterator[str]:
    for part, some in groupby(rows, key=lambda row: row.part):
        yield f"  {part}"
        yield from (_row_words(row) for row in some)


def _row_words(row: CheckRow) -> str:
    mark = "ok " if row.ok() else "OFF"
    ours = "set to" if row.stated else "ours"
    return (
        f"    {mark} {row.quantity}: {ours} {row.ours:.6g}, published {row.published:.6g} "
        f"{row.unit} (within {row.tolerance:.3g}); {row.source} [{row.evidence.value}]"
    )


def _trap_words(trap: Trap) -> str:
    right = f"{trap.right:.6g} {trap.unit}".rstrip()
    return (
        f"    {trap.quantity}: printed {trap.printed:.6g}, right {right}; {trap.source}: {trap.why}"
    )
