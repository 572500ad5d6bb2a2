"""Our own shape: a plain CSV, one row an hour, the unit of each column in its name.

``time`` is when the hour starts: on the wall of the campaign, or with an offset.  Rain is
what falls in that hour.  Needed are ``time`` and temperature, rain and wind, such as
``temp_c``, ``rain_mm``, ``wind_ms``; welcome are gusts, ``thunder_pct``, and ``area`` when one
file is for several.
"""

import csv
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from io import StringIO
from itertools import chain, pairwise
from typing import Final
from zoneinfo import ZoneInfo

from runplanner.phrase import Phrase, counted, phrase, verbatim
from runplanner.weather.amounts import CHANCE, RAIN, TEMPERATURE, WIND, Amount
from runplanner.weather.hours import HOUR_MIN, Forecast, Hour, in_order
from runplanner.weather.ledger import Ledger
from runplanner.weather.wall import Wall, a_moment

SHAPE: Final = phrase("CSV of hours")
MOST_ROWS: Final = 20_000
_FIGURES: Final[dict[str, tuple[Amount, tuple[str, ...]]]] = {
    "temp": (TEMPERATURE, ("c", "f")),
    "rain": (RAIN, ("mm", "in")),
    "wind": (WIND, ("ms", "kmh", "kn", "mph")),
    "gust": (WIND, ("ms", "kmh", "kn", "mph")),
    "thunder": (CHANCE, ("pct",)),
}
_NEEDED: Final = ("temp", "rain", "wind")
_OTHERS: Final = ("time", "area", "note")
_FIGURE: Final = re.compile(r"[+-]?[0-9]{1,12}(?:\.[0-9]{1,12})?")
TITLE_CURE: Final = phrase(
    "Delete what stands above the row of column names, or give each column its name."
)
Columns = Mapping[str, tuple[str, str]]
"""Column and unit by figure."""


@dataclass(frozen=True, slots=True)
class _Line:
    """One row: its area as typed, its number, and its hour."""

    area: str
    number: int
    hour: Hour
    at: datetime


def read_plain(text: str, ledger: Ledger, wall: Wall, zone: str) -> dict[str, Forecast]:
    """Return a forecast for each area named, "" where none is; empty with faults written down.

    ``zone`` is where times without an offset were read off the wall.
    """
    lines = text.splitlines()
    above = next((at for at, line in enumerate(lines) if not is_comment(line)), len(lines))
    rows = _rows("\n".join(lines[above:]), ledger)
    if not rows:
        ledger.add(
            "", "", phrase("no rows"), phrase("a header and a row an hour"), phrase("Fill it in.")
        )
        return {}
    if title := title_in(rows):
        where = phrase("row {number}", number=above + 1)
        ledger.add(where, "", title, phrase("column names"), TITLE_CURE)
        return {}
    heads = [re.sub(r"[\s\[\]()-]+", "_", cell.strip().casefold()).strip("_") for cell in rows[0]]
    columns = _columns(heads, ledger)
    if ledger:
        return {}
    clock = _Clock(wall, zone)
    found = [
        line for number, cells in enumerate(rows[1:], start=above + 2) if any(map(str.strip, cells))
        if not _too_many(number, cells, len(heads), ledger)
        if (line := _line(number, dict(zip(heads, cells, strict=False)), columns, ledger, clock))
    ]  # fmt: skip
    _check_twice(found, ledger, clock)
    if not found and not ledger:
        ledger.add("", "", phrase("no rows"), phrase("a row an hour"), phrase("Fill it in."))
    return {} if ledger else _by_area(found)


def is_comment(line: str) -> bool:
    """Tell whether a line above the header is a comment; a spreadsheet may have quoted it."""
    return line.lstrip('"').startswith("#") or not line.strip(' \t\r\n,;"')


def separator_of(lines: Iterable[str]) -> str:
    """Return what parts the columns: the commonest of comma, semicolon and tab in the header.

    A line above it that has none of them is a title, and so is one whose own is not in the next
    line that has any.
    """
    bare = (re.sub(r'"[^"]*"', "", line) for line in lines)
    parted = (line for line in bare if re.search("[,;\t]", line))
    for line, after in pairwise(chain(parted, [""])):
        separator = max(",;\t", key=line.count)
        if separator in after or not after:
            return separator
    return ","


def title_in(grid: Sequence[Sequence[str]]) -> str:
    """Return the words of a first row that is no header; "" for one that is.

    It names fewer columns than it leaves unnamed.
    """
    named = {column: cell.strip() for column, cell in enumerate(grid[0]) if cell.strip()}
    used = {column for row in grid[1:] for column, cell in enumerate(row) if cell.strip()}
    return ", ".join(named.values()) if len(used - named.keys()) > len(named) else ""


def _rows(text: str, ledger: Ledger) -> list[list[str]]:
    separator = separator_of(text.splitlines())
    rows: list[list[str]] = []
    try:
        for row in csv.reader(StringIO(text), delimiter=separator, strict=True):
            rows.append(row)
            if len(rows) > MOST_ROWS:
                break
    except csv.Error as error:
        cure = phrase("Look for a stray quotation mark, or save it again as CSV UTF-8.")
        ledger.add(
            phrase("after row {number} or so", number=len(rows)),
            "",
            str(error),
            phrase("rows of columns"),
            cure,
        )
    if len(rows) > MOST_ROWS:
        ledger.add(
            "",
            "",
            phrase("too many rows"),
            phrase("at most {most}", most=MOST_ROWS),
            phrase("Split it by area."),
        )
    return rows


def _columns(heads: list[str], ledger: Ledger) -> Columns:
    """Return where each figure stands; faults for what is missing, unknown or there twice."""
    found: dict[str, tuple[str, str]] = {}
    for head in heads:
        figure, _, unit = head.partition("_")
        if figure in _FIGURES and unit in _FIGURES[figure][1] and figure not in found:
            found[figure] = head, unit
        elif figure in found or heads.count(head) > 1:
            ledger.add(
                phrase("header"),
                head,
                head,
                phrase("one column of {figure}", figure=figure),
                phrase("Delete the other one."),
            )
        elif figure in _FIGURES:
            ledger.add(
                phrase("header"), head, phrase("no unit that is known"), _named(figure), _UNIT_CURE
            )
        elif head not in _OTHERS:
            known = ", ".join([*_OTHERS, *(_named(one) for one in _FIGURES)])
            ledger.add(
                phrase("header"),
                head,
                head,
                phrase("a known column"),
                phrase("Known: {known}.", known=known),
            )
    if "time" not in heads:
        ledger.add(
            phrase("header"),
            "time",
            phrase("missing"),
            phrase("a column time"),
            phrase("When each hour starts."),
        )
    for figure in _NEEDED:
        if not any(head.partition("_")[0] == figure for head in heads):
            ledger.add(
                phrase("header"),
                figure,
                phrase("missing"),
                _named(figure),
                phrase("Add the column."),
            )
    return found


_UNIT_CURE: Final = phrase("Name the column with its unit: figures without one mean nothing.")


def _named(figure: str) -> Phrase:
    return verbatim(" | ".join(f"{figure}_{unit}" for unit in _FIGURES[figure][1]))


def _too_many(number: int, cells: list[str], columns: int, ledger: Ledger) -> bool:
    """Tell whether a row has cells beyond the last column, with a fault where it has.

    Which figure stands where is then not known, as after a comma inside one of them; a row
    that is short only leaves its last figures untold.
    """
    last = max(place for place, cell in enumerate(cells, start=1) if cell.strip())
    if last <= columns:
        return False
    ledger.add(
        phrase("row {number}", number=number),
        "",
        phrase("{number} cells", number=last),
        counted("{number} column", "{number} columns", columns),
        phrase("Write decimals with a dot; put text that holds the separator in double quotes."),
    )
    return True


@dataclass(frozen=True, slots=True)
class _Clock:
    """Turns what is typed under ``time`` into minutes of the campaign."""

    wall: Wall
    zone: str

    def minute(self, at: datetime) -> int:
        """Return the minute of the campaign of a typed moment."""
        if at.tzinfo is not None:
            return self.wall.minute(at)
        if self.zone == self.wall.zone:
            return self.wall.local_minute(at)
        return self.wall.minute(at.replace(tzinfo=ZoneInfo(self.zone)))


def _line(
    number: int, cells: dict[str, str], columns: Columns, ledger: Ledger, clock: _Clock
) -> _Line | None:
    where = phrase("row {number}", number=number)
    at = a_moment(cells.get("time", ""))
    if at is None:
        allowed = phrase("year-month-day and hour, such as 2027-03-01 14:00")
        ledger.add(where, "time", cells.get("time", ""), allowed, phrase("Write the year first."))
        return None

    def figure(key: str) -> int | None:
        head, unit = columns.get(key, ("", ""))
        return ledger.amount(_number(cells.get(head, "")), unit, _FIGURES[key][0], where, head)

    hour = Hour(
        start_min=clock.minute(at),
        temp_dc=figure("temp"),
        rain_um=figure("rain"),
        wind_mms=figure("wind"),
        gust_mms=figure("gust"),
        thunder_permille=figure("thunder"),
    )
    return _Line(" ".join(cells.get("area", "").split()), number, hour, at)


def _number(cell: str) -> Decimal | str | None:
    """Return the figure in a cell, None for an empty one, and as it stands what is no figure."""
    text = cell.strip().replace("\N{MINUS SIGN}", "-")
    if not text:
        return None
    return Decimal(text) if _FIGURE.fullmatch(text) else text


def _check_twice(lines: list[_Line], ledger: Ledger, clock: _Clock) -> None:
    """Write down hours that stand there twice; once clocks go back, the wall shows one twice."""
    for mine in _areas(lines).values():
        mine.sort(key=lambda line: line.hour.start_min)
        for before, one, other in zip([None, *mine], mine, mine[1:], strict=False):
            apart = other.hour.start_min - one.hour.start_min
            third = before is not None and before.hour.start_min == one.hour.start_min
            if apart >= HOUR_MIN or (not apart and not third and _shown_twice(one, clock)):
                continue
            said, cure = (
                other.at.isoformat(" "),
                phrase("Row {number} stands in that hour: keep one.", number=one.number),
            )
            ledger.add(
                phrase("row {number}", number=other.number),
                "time",
                said,
                phrase("one row an hour"),
                cure,
            )


def _shown_twice(line: _Line, clock: _Clock) -> bool:
    return clock.wall.twice(line.hour.start_min)


def _areas(lines: list[_Line]) -> dict[str, list[_Line]]:
    found: dict[str, list[_Line]] = {}
    for line in lines:
        found.setdefault(line.area.casefold(), []).append(line)
    return found


def _by_area(lines: list[_Line]) -> dict[str, Forecast]:
    made = {}
    for mine in _areas(lines).values():
        hours = in_order(line.hour for line in mine)
        made[mine[0].area] = Forecast(SHAPE, hours[0].start_min, None, hours)
    return made
