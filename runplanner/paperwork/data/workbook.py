"""The drivers' sheets as one XLSX workbook: a list of trips, then a sheet for each.

A trip's sheet has a block for each stop: a row of figures under the head that every printed
page repeats, and below it what is to be said in words.  What stands in a cell is a string, a
number, a date or a time, never a formula, whatever a name begins with.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from copy import copy
from datetime import date, datetime, time
from io import BytesIO
from textwrap import wrap
from typing import TYPE_CHECKING, Any
from zipfile import ZIP_STORED, ZipFile, ZipInfo

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Shift, Trip
from runplanner.days import DAY_MIN
from runplanner.paperwork.driver.if_late import then_words
from runplanner.paperwork.driver.manifest import Manifest, Step, manifest
from runplanner.paperwork.escape import sheet_cell, sheet_name
from runplanner.paperwork.speech.say import date_on, kg_down, kg_up
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.speech.trip_state import TripState
from runplanner.paperwork.stop.one_stop import trip_as_driven
from runplanner.paperwork.stop.way import trip_span

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.cell import Cell, MergedCell
    from openpyxl.styles.cell_style import StyleArray
    from openpyxl.worksheet.worksheet import Worksheet

Value = str | int | float | date | time
_CellLook = tuple[bool, bool, bool, bool]
"""Whether a cell has a line above and something in it, in bold letters, at its left edge."""
LIST_SHEET = mark("All trips")
# ECMA-376 part 1, pageSetup: the numbers of the sizes of paper.
SIZES = {"a4": 9, "letter": 1}
_LIST = (
    mark("Date"), mark("Trip"), mark("Sheet"), mark("Vehicles"), mark("Crew"), mark("Leaves"),
    mark("Back"), mark("Stops"), mark("Boxes"), mark("Syrup L"),
)  # fmt: skip
_LIST_WIDTHS = (12, 22, 22, 28, 28, 9, 9, 8, 8, 9)
_STEPS = (
    mark("Stop"), mark("Place"), mark("Way"), mark("Arrive"), mark("Begin"), mark("Leave"),
    mark("Latest"), mark("Full boxes aboard"), mark("Wet boxes aboard"),
    mark("Brood boxes aboard"), mark("Boards aboard"),
    mark("Syrup L aboard"), mark("Load kg"), mark("Load kg at most"), mark("Deck places"),
    mark("Deck places at most"),
)  # fmt: skip
# Together narrow enough that letters of 11 points are still 8 on A4 and on Letter.
_WIDTHS = (6, 28, 18, 8, 8, 9, 11, 8, 8, 10, 9, 8, 9, 10, 10, 12)
_STATES = {
    TripState.UNDER_WAY: mark("Under way"),
    TripState.DRIVEN: mark("Already driven"),
}
_WORDS, _LAST = 3, len(_WIDTHS)
_WHERE = 9
_FORMATS = {date: "yyyy-mm-dd", time: "hh:mm"}
_LINE_PT, _BLANK_PT = 15, 24
# A margin for fonts wider than the one that columns are measured in: a judgement, no source.
_FULL_PERCENT = 80
_MARGIN_IN = 0.4
_MODIFIED = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*")
_LONG_AGO = (1980, 1, 1, 0, 0, 0)


def manifests_xlsx(plan: Plan, paper: str = "a4") -> bytes:
    """Return the workbook, set for ``paper``; the same plan gives the same bytes."""
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.worksheets[0])
    trips = [(shift, trip) for shift in plan.shifts for trip in shift.trips]
    sheets = [manifest(plan, *pair) for pair in trips]
    _list(book, plan, list(zip(trips, sheets, strict=True)))
    for pair, sheet in zip(trips, sheets, strict=True):
        _trip(book, plan, *pair, sheet)
    for page in book.worksheets:
        page.page_setup.paperSize = SIZES[paper]
    return _packed(book, plan)


def _list(
    book: "Workbook", plan: Plan, trips: Sequence[tuple[tuple[Shift, Trip], Manifest]]
) -> None:
    pen = _Pen(book.create_sheet(tr(LIST_SHEET)), _LIST_WIDTHS)
    pen.write([tr(word) for word in _LIST], bold=True)
    for (shift, trip), sheet in trips:
        out, start = trip_span(shift, trip), trip_as_driven(plan.outfit, trip).calls[0].after
        pen.write(
            (
                date_on(plan.outfit, shift.day), sheet.trip, sheet_name(trip.id), sheet.vehicles,
                sheet.crew, _hour(out.start_min), _hour(out.end_min), sheet.stops(),
                trip.boxes(), _tenths_up(start.ml),
            ),
        )  # fmt: skip
    pen.set_up(head=1)


def _trip(book: "Workbook", plan: Plan, shift: Shift, trip: Trip, sheet: Manifest) -> None:
    pen = _Pen(book.create_sheet(sheet_name(trip.id)), _WIDTHS)
    _facts(pen, sheet, date_on(plan.outfit, shift.day), _hour(shift.start_min))
    _goods(pen, sheet)
    pen.write(())
    pen.write([tr(word) for word in _STEPS], bold=True)
    head = pen.row
    for step, call in zip(sheet.steps, trip_as_driven(plan.outfit, trip).calls, strict=True):
        _block(pen, step, call)
    if any(step.home for step in sheet.steps):
        pen.write(("", tr("Home again"), _hour(shift.end_min)))
    pen.write(())
    for caution in sheet.cautions:
        pen.say(caution.head, caution.words)
    pen.say("", sheet.unknown)
    pen.set_up(head=head)


def _facts(pen: "_Pen", sheet: Manifest, day: date, leaves: time) -> None:
    pen.say(tr("Trip"), sheet.trip)
    if sheet.state in _STATES:
        pen.say("", tr(_STATES[sheet.state]))
    pen.write(("", tr("Date"), day, sheet.date), across=((_WORDS + 1, _LAST),))
    pen.say(tr("Truck"), sheet.vehicles)
    pen.say(tr("Crew"), sheet.crew)
    if sheet.part:
        pen.say(tr("Part"), sheet.part)
    if sheet.leave_home:
        pen.write(("", tr("Leave home"), leaves))


def _goods(pen: "_Pen", sheet: Manifest) -> None:
    """Write what to load, in order, and beside each thing where it goes."""
    lines = [(one.what, one.where) for one in sheet.goods]
    for number, (what, where) in enumerate([(tr("First on to last on"), tr("Where")), *lines]):
        row = ("", "" if number else tr("Load"), what, *[""] * (_WHERE - _WORDS - 1), where)
        pen.write(row, bold=not number, across=((_WORDS, _WHERE - 1), (_WHERE, _LAST)))


def _block(pen: "_Pen", step: Step, call: Call) -> None:
    """Write one stop: its figures, what is said of it, and blanks for what is counted."""
    pen.write(_figures(step, call), bold=True, line=True)
    for label, words in _said(step):
        pen.say(label, words)
    if step.blanks:
        pen.write(("", tr("Done"), *(tr(word) for word in step.blanks)))
        pen.blanks(_WORDS, len(step.blanks))


def _figures(step: Step, call: Call) -> tuple[Value, ...]:
    after = call.after
    return (
        int(step.number) if step.number else "", step.name, step.way, _hour(call.arrive_min),
        _hour(call.start_min) if step.begin else "", _hour(call.leave_min),
        _hour(call.latest_leave_min) if step.latest else "", after.boxes, after.wet,
        after.brood_boxes,
        after.boards, _tenths_up(after.ml), kg_up(after.load_g), kg_down(after.load_max_g),
        after.places, after.places_max,
    )  # fmt: skip


def _said(step: Step) -> Iterator[tuple[str, Value]]:
    """Yield what stands below a stop's figures, each with its label; nothing empty."""
    for number, job in enumerate(step.jobs):
        head = mark("Jobs done") if step.over else mark("Jobs")
        yield "" if number else tr(head), job
    lines: tuple[tuple[str, Value], ...] = (
        (tr("Stop at full boxes aboard"), int(step.stop_at) if step.stop_at else ""),
        (tr("If not all off"), step.sooner),
        (tr("Lot"), step.lot),
        (tr("If later"), then_words(step.late) if step.late else ""),
        (tr("Break"), step.rest),
        (tr("Getting in"), " ".join(step.access)),
        (tr("Ring"), step.phone),
        (tr("Watch"), step.watch),
        (tr("Position"), step.geo[0]),
    )
    yield from ((label, words) for label, words in lines if words != "")


def _tenths_up(thousandths: int) -> float:
    return -(-thousandths // 100) / 10


def _hour(minute: int) -> time:
    """Return the time of day of a minute of the campaign."""
    return time(*divmod(minute % DAY_MIN, 60))


class _Pen:
    """Writes a sheet row by row, text as text, so that nothing in it is ever worked out.

    Rows are as high as their words need: no program does that by itself for words that
    stand across several columns.
    """

    def __init__(self, page: "Worksheet", widths: Sequence[int]) -> None:
        self.page = page
        self.widths = widths
        self.row = 0
        self.looks: dict[_CellLook, StyleArray] = {}

    def write(
        self,
        values: Iterable[Value],
        *,
        bold: bool = False,
        line: bool = False,
        across: Sequence[tuple[int, int]] = (),
    ) -> None:
        """Write one row; an empty text leaves its cell empty, no values leave a row empty.

        Args:
            values: What stands in the cells, from the first column on.
            bold: In bold letters.
            line: With a line above.
            across: First and last column of each cell that takes in those beside it.
        """
        from openpyxl.worksheet.cell_range import CellRange

        self.row += 1
        last = dict(across)
        lines = 1
        for column, value in enumerate(values, start=1):
            cell = self.page.cell(self.row, column)
            self._dress(cell, (line, value != "", bold, column == _WORDS))
            if value != "":
                _put(cell, value)
                room = sum(self.widths[column - 1 : last.get(column, column)])
                lines = max(lines, _lines(value, room))
        for first, end in across:
            # Not by ``merge_cells``, which makes and frames every cell that is hidden then.
            self.page.merged_cells.add(CellRange(None, first, self.row, end, self.row))
        self.page.row_dimensions[self.row].height = lines * _LINE_PT

    def _dress(self, cell: Any, look: _CellLook) -> None:  # noqa: ANN401 - no stub has its style
        """Give a cell its line, letters and place; each look is worked out once, then copied."""
        from openpyxl.styles import Alignment, Border, Font, Side

        if look in self.looks:
            cell._style = copy(self.looks[look])  # noqa: SLF001 - each part set is hashed anew
            return
        line, filled, bold, left = look
        if line:
            cell.border = Border(top=Side("medium"))
        if filled:
            side = "left" if left else None
            cell.font = Font(bold=bold)
            cell.alignment = Alignment(vertical="top", wrap_text=True, horizontal=side)
        self.looks[look] = copy(cell._style)  # noqa: SLF001 - to be copied

    def say(self, label: str, words: Value) -> None:
        """Write one row: a label, and words across the columns beside it."""
        self.write(("", label, words), across=((_WORDS, _LAST),))

    def blanks(self, first: int, number: int) -> None:
        """Leave so many frames to write in, from a column on, in a row of their own."""
        from openpyxl.styles import Border, Side

        self.row += 1
        self.page.row_dimensions[self.row].height = _BLANK_PT
        thin = Side("thin")
        for column in range(first, first + number):
            self.page.cell(self.row, column).border = Border(thin, thin, thin, thin)

    def set_up(self, *, head: int) -> None:
        """Set the columns' widths, and print one page wide, lying, with row ``head`` on each."""
        from openpyxl.utils import get_column_letter
        from openpyxl.worksheet.page import PageMargins
        from openpyxl.worksheet.properties import PageSetupProperties

        page = self.page
        for column, width in enumerate(self.widths, start=1):
            page.column_dimensions[get_column_letter(column)].width = width
        page.page_setup.orientation = "landscape"
        page.page_setup.fitToWidth, page.page_setup.fitToHeight = 1, 0
        page.page_margins = PageMargins(_MARGIN_IN, _MARGIN_IN, _MARGIN_IN, _MARGIN_IN)
        page.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
        page.print_title_rows = f"{head}:{head}"


def _put(cell: "Cell | MergedCell", value: Value) -> None:
    """Put a value into a cell: text as a string whatever it begins with, times as times."""
    cell.value = sheet_cell(value) if isinstance(value, str) else value
    if isinstance(value, str):
        cell.data_type = "s"
        # Else a spreadsheet would work it out once somebody edits the cell.
        cell.quotePrefix = value.startswith(tuple("=+-@"))
    elif isinstance(value, date | time):
        cell.number_format = _FORMATS[type(value)]


def _lines(value: Value, room: int) -> int:
    """Return how many lines a value takes in a column, or columns, so many digits wide."""
    return len(wrap(value, room * _FULL_PERCENT // 100)) if isinstance(value, str) else 1


def _packed(book: "Workbook", plan: Plan) -> bytes:
    """Return the workbook as bytes that do not tell when, or on which machine, it was saved."""
    day = datetime.combine(date_on(plan.outfit, 0), datetime.min.time())
    book.properties.creator = "runplanner"
    book.properties.created = day
    saved, packed = BytesIO(), BytesIO()
    book.save(saved)
    with ZipFile(saved) as old, ZipFile(packed, "w", ZIP_STORED) as new:
        for name in old.namelist():
            body = old.read(name)
            if name == "docProps/core.xml":
                body = _MODIFIED.sub(rb"\g<1>" + f"{day:%Y-%m-%dT%H:%M:%SZ}".encode(), body)
            # Stored as it is: two zip libraries do not press the same text the same way.
            new.writestr(ZipInfo(name, _LONG_AGO), body)
    return packed.getvalue()
