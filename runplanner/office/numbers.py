"""The program's figures beside published ones, as lines for the screen."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from runplanner.paperwork.speech.tongue import mark, said, tr
from runplanner.phrase import Number
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


_UNITS: Final = frozenset({
    mark("strips"), mark("frames"), mark("fields"), mark("years"), mark("columns"), mark("boxes"),
    mark("ratio"), mark("of weight"), mark("d"),
})  # fmt: skip
"""Units that are words; all others are signs."""


def _parts(rows: Sequence[CheckRow]) -> Iterator[str]:
    for part, some in groupby(rows, key=lambda row: row.part):
        yield f"  {said(part)}"
        yield from (_row_words(row) for row in some)


def _row_words(row: CheckRow) -> str:
    parts = {
        "quantity": row.quantity, "ours": _figure(row.ours), "source": row.source,
        "published": _with_unit(row.published, row.unit), "room": _figure(row.tolerance, 3),
    }  # fmt: skip
    told = (
        tr("{quantity}: set to {ours}, published {published} (within {room}); {source}", **parts)
        if row.stated
        else tr("{quantity}: ours {ours}, published {published} (within {room}); {source}", **parts)
    )
    mark_of = tr("ok") if row.ok() else tr("OFF")
    return f"    {mark_of:<3} {told} [{row.evidence.value}]"


def _figure(number: float, digits: int = 6) -> Number:
    return Number(f"{number:.{digits}g}")


def _with_unit(number: float, unit: str) -> str:
    return f"{said(_figure(number))} {tr(unit) if unit in _UNITS else unit}"


def _trap_words(trap: Trap) -> str:
    words = tr(
        "{quantity}: printed {printed}, right {right}; {source}: {why}", quantity=trap.quantity,
        printed=_figure(trap.printed), right=_with_unit(trap.right, trap.unit).rstrip(),
        source=trap.source, why=trap.why,
    )  # fmt: skip
    return f"    {words}"
