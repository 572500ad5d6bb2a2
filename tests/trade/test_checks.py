"""The check table holds row by row, and its traps stay out."""

from ast import Call, ImportFrom, Name, parse, walk
from pathlib import Path
from types import ModuleType

import pytest

from runplanner.phrase import phrase
from runplanner.trade import checks_feed, checks_honey, checks_road, checks_syrup
from runplanner.trade.check_row import CheckRow, Trap
from runplanner.trade.checks import check_table, trap_table
from runplanner.trade.evidence import Cited, Evidence

ROWS = check_table()


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.quantity)
def test_ours_agrees_with_the_published_number(row: CheckRow) -> None:
    """Each row's difference is within its tolerance."""
    assert row.ok(), f"{row.quantity}: ours {row.ours}, published {row.published} ({row.source})"


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.quantity)
def test_a_tolerance_is_tight(row: CheckRow) -> None:
    """No tolerance is wider than a sixth of the published number."""
    assert 0 <= row.tolerance <= abs(row.published) / 6


def test_a_row_out_of_tolerance_is_not_ok() -> None:
    """A row can fail: 1.2 against 1.0 within 0.1 does not hold, 1.1 does."""
    far = CheckRow(phrase("x"), phrase("q"), 1.2, 1.0, "kg", 0.1, Evidence.OFFICIAL, "s")
    near = CheckRow(phrase("x"), phrase("q"), 1.1, 1.0, "kg", 0.1, Evidence.OFFICIAL, "s")
    assert (False, True) == (far.ok(), near.ok())
    assert far.difference() == pytest.approx(0.2)


def test_at_least_forty_rows_worked_out_against_numbers_seen() -> None:
    """Forty rows and fifteen sources of class A or B, defaults set down not counted."""
    worked = [row for row in ROWS if row.seen() and not row.stated]
    assert len(worked) >= 40
    assert len({row.source for row in worked}) >= 15


def test_memory_and_derived_rows_stand_apart() -> None:
    """Rows seen come first; none follows a row from memory or worked out here."""
    seen = [row.seen() for row in ROWS]
    assert seen == sorted(seen, reverse=True)
    assert {Evidence.MEMORY, Evidence.DERIVED} == {row.evidence for row in ROWS if not row.seen()}


@pytest.mark.parametrize("module", [checks_syrup, checks_honey, checks_feed, checks_road])
def test_no_published_number_comes_from_the_code_it_checks(module: ModuleType) -> None:
    """What stands as published is made of typed numbers: no name of ours goes into it."""
    tree = parse(Path(str(module.__file__)).read_text("utf-8"))
    ours = {
        name.asname or name.name
        for node in walk(tree)
        if isinstance(node, ImportFrom) and str(node.module).startswith("runplanner")
        for name in node.names
    }
    place = {"CheckRow": 3, "_stated": 2, "_row": 2}
    calls = [
        (node.args[place[node.func.id]], node.lineno)
        for node in walk(tree)
        if isinstance(node, Call) and isinstance(node.func, Name) and node.func.id in place
    ]
    assert calls
    for published, line in calls:
        used = {node.id for node in walk(published) if isinstance(node, Name)}
        assert not used & ours, (module.__name__, line)


def test_every_row_names_its_source_and_no_quantity_stands_twice() -> None:
    """Source and part are filled in; quantity and source together are unique."""
    assert all(row.source and row.part and row.quantity for row in ROWS)
    keys = [(row.quantity, row.source) for row in ROWS]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize("trap", trap_table(), ids=lambda trap: trap.quantity)
def test_a_number_wrong_in_print_is_not_ours(trap: Trap) -> None:
    """What we hold differs from the wrong print by well over what rounding explains."""
    assert abs(trap.printed - trap.right) > 0.005 * trap.right
    assert trap.why


def test_the_table_is_the_same_twice() -> None:
    """Two calls give equal rows in equal order."""
    assert ROWS == check_table()


def test_evidence_is_put_in_words() -> None:
    """A citation reads as source, class letter and class in words."""
    cited = Cited(Evidence.MEMORY, phrase("a book"))
    assert cited.words() == "a book [M: from memory, not found in a source]"
    assert all(kind.words() for kind in Evidence)
