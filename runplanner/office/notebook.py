"""What a Python notebook shows: a plan as words and tables, and its map in a frame."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from pathlib import Path

from runplanner.audit.findings import Finding
from runplanner.daybook.plan import Plan
from runplanner.office.words import finding_words, plan_words
from runplanner.paperwork.escape import cut, html_text
from runplanner.paperwork.speech.tongue import tr, trn
from runplanner.roads.sketch import Sketch
from runplanner.whole_file import write_whole

MOST_ROWS = 200
_LONGEST_CELL = 120
_TABLES = ("trips", "stops", "undone", "costs")


def plan_html(plan: Plan, findings: Sequence[Finding]) -> str:
    """Return a plan for a notebook: what the audit found, what the plan comes to, its tables."""
    return "\n".join(_parts(plan, findings))


def _parts(plan: Plan, findings: Sequence[Finding]) -> Iterator[str]:
    from runplanner.audit.audit import senseless
    from runplanner.paperwork.data.tables import table_words

    told = finding_words(findings) if findings else (tr("audit: every rule holds"),)
    if findings and senseless(plan):  # which names what there is not: no table can be made of it
        yield lines_html([*told])
        return
    yield lines_html([*told, *plan_words(plan)])
    for name, (heads, *rows) in table_words(plan).items():
        if name in _TABLES and rows:
            shut = "" if name != "trips" else " open"
            inside = _table(heads, rows)
            yield f"<details{shut}><summary>{name}: {len(rows)}</summary>{inside}</details>"


def lines_html(words: Sequence[str]) -> str:
    """Return lines of words as one block, every word through the door all words pass."""
    return f"<pre>{'<br>'.join(html_text(cut(line, 1_000)) for line in words)}</pre>"


def _table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Return the first rows of a table, every word through the door all words pass."""
    head = "".join(f"<th>{html_text(name)}</th>" for name in heads)
    body = "".join(f"<tr>{_cells(row)}</tr>" for row in rows[:MOST_ROWS])
    more = len(rows) - MOST_ROWS
    told = trn("{number} more row", "{number} more rows", more)
    rest = f"<p>{html_text(told)}</p>" if more > 0 else ""
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>{rest}"


def _cells(row: Sequence[str]) -> str:
    return "".join(f"<td>{html_text(cut(cell, _LONGEST_CELL))}</td>" for cell in row)


@dataclass(frozen=True, slots=True)
class MapView:
    """The map of a plan: a notebook shows it, ``save`` writes it as the page it is."""

    page: str

    def save(self, path: Path | str) -> Path:
        """Write the page whole to ``path``."""
        return write_whole(Path(path), self.page)

    def _repr_html_(self) -> str:
        """Return the page in a frame that may run its own script and reach nothing else."""
        inside, title = escape(self.page, quote=True), html_text(tr("Map of the plan"))
        return (
            f'<iframe srcdoc="{inside}" sandbox="allow-scripts" title="{title}" '
            'style="width:100%;height:640px;border:0"></iframe>'
        )


def plan_map(plan: Plan, *, online_tiles: bool = False, roads: Sketch | None = None) -> MapView:
    """Return the map of a plan, as ``publish_plan`` would draw it."""
    from runplanner.paperwork.map.page import map_html

    return MapView(map_html(plan, online_tiles=online_tiles, roads=roads))
