"""The drivers' sheets as one XLSX workbook: a list of trips, then a sheet for each.

What stands in a cell is a string or a number, never a formula, whatever a name begins with.
"""

import re
from collections.abc import Iterable, Sequence
from datetime import datetime
from io import BytesIO
from typing import TYPE_CHECKING
from zipfile import ZIP_STORED, ZipFile, ZipInfo

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Shift, Trip
from runplanner.days import clock
from runplanner.paperwork.escape import sheet_cell, sheet_name
from runplanner.paperwork.events import boxes_brought
from runplanner.paperwork.if_late import then_words
from runplanner.paperwork.manifest import Manifest, Step, manifest
from runplanner.paperwork.one_stop import trip_as_driven
from runplanner.paperwork.say import date_on, iso, kg_down, kg_up
from runplanner.paperwork.tongue import mark, tr
from runplanner.paperwork.way import trip_span

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

Value = str | int | float
LIST_SHEET = mark("All trips")
# ECMA-376 part 1, pageSetup: the numbers of the sizes of paper.
SIZES = {"a4": 9, "letter": 1}
COUNTED = ("colonies", "boxes", "wet boxes", "brood", "boards", "blocks", "litres", "strips",
           "feeders")  # fmt: skip
_LIST = (
    mark("Date"), mark("Trip"), mark("Sheet"), mark("Vehicles"), mark("Crew"), mark("Leaves"),
    mark("Back"), mark("Stops"), mark("Boxes"), mark("Syrup L"),
)  # fmt: skip
_STEPS = (
    mark("Stop"), mark("Place"), mark("Way"), mark("Arrive"), mark("Begin"), mark("Leave"),
    mark("Latest"), mark("If later"), mark("Jobs"), mark("Stop at boxes aboard"), mark("Lot"),
    mark("Boxes aboard"), mark("Syrup L aboard"), mark("Load kg"), mark("Load kg at most"),
    mark("Deck places"), mark("Deck places at most"), mark("Break"), mark("Getting in"),
    mark("Ring"), mark("Watch"), mark("Position"),
)  # fmt: skip
_WIDTHS = (7, 30, 14, 8, 8, 8, 8, 34, 44, *(9,) * 8, 14, 34, 18, 30, 20, *(9,) * 9)
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
    for (_, trip), sheet in zip(trips, sheets, strict=True):
        _trip(book, trip, sheet)
    for page in book.worksheets:
        page.page_setup.paperSize = SIZES[paper]
    return _packed(book, plan)


def _list(
    book: "Workbook", plan: Plan, trips: Sequence[tuple[tuple[Shift, Trip], Manifest]]
) -> None:
    pen = _Pen(book.create_sheet(tr(LIST_SHEET)))
    pen.write([tr(word) for word in _LIST], bold=True)
    for (shift, trip), sheet in trips:
        out = trip_span(shift, trip)
        pen.write(
            (
                iso(plan.outfit, shift.day), sheet.trip, sheet_name(trip.id), sheet.vehicles,
                sheet.crew, clock(out.start_min), clock(out.end_min), sheet.stops(),
                boxes_brought(trip), _tenths_up(trip.calls[0].after.ml),
            ),
        )  # fmt: skip
    _laid_out(pen.page, (12, 22, 22, 28, 28, 8, 8, 8, 8, 9), 1, pen.row)


def _trip(book: "Workbook", trip: Trip, sheet: Manifest) -> None:
    pen = _Pen(book.create_sheet(sheet_name(trip.id)))
    for label, words in _facts(sheet):
        if words:
            pen.write((label, words))
    pen.write((tr("Load"), tr("First on to last on"), tr("Where")), bold=True)
    for one in sheet.goods:
        pen.write(("", one.what, one.where))
    pen.write(())
    done = [tr("Done: {what}", what=tr(word)) for word in COUNTED]
    pen.write([*(tr(word) for word in _STEPS), *done], bold=True)
    top = pen.row
    for step, call in zip(sheet.steps, trip_as_driven(trip).calls, strict=True):
        pen.write(_step(step, call))
    pen.write(())
    for caution in sheet.cautions:
        pen.write(("", f"{caution.head}: {caution.words}"))
    pen.write(("", sheet.unknown))
    _laid_out(pen.page, _WIDTHS, top, top + len(sheet.steps))


def _facts(sheet: Manifest) -> tuple[tuple[str, str], ...]:
    return (
        (tr("Trip"), sheet.trip),
        ("", tr("Already driven") if sheet.driven else ""),
        (tr("Date"), sheet.date),
        (tr("Truck"), sheet.vehicles),
        (tr("Crew"), sheet.crew),
        (tr("Part"), sheet.part),
        (tr("Leave"), tr("Home at {time}", time=home) if (home := sheet.leave_home) else ""),
    )


def _step(step: Step, call: Call) -> tuple[Value, ...]:
    after = call.after
    return (
        int(step.number) if step.number else "",
        step.name, step.way, step.arrive, step.begin, step.leave, step.latest,
        then_words(step.late) if step.late else "",
        " ".join(f"{job.rstrip('.')}." for job in step.jobs),
        int(step.stop_at) if step.stop_at else "",
        step.lot, after.boxes, _tenths_up(after.ml), kg_up(after.load_g),
        kg_down(after.load_max_g), after.places, after.places_max, step.rest,
        " ".join(step.access), step.phone, step.watch, step.geo[0],
        *("" if word in step.blanks else "-" for word in COUNTED),
    )  # fmt: skip


def _tenths_up(thousandths: int) -> float:
    return -(-thousandths // 100) / 10


class _Pen:
    """Writes a sheet row by row, text as text, so that nothing in it is ever worked out."""

    def __init__(self, page: "Worksheet") -> None:
        self.page = page
        self.row = 0

    def write(self, values: Iterable[Value], *, bold: bool = False) -> None:
        """Write one row; an empty text leaves its cell empty, no values leave a row empty."""
        from openpyxl.styles import Font

        self.row += 1
        for column, value in enumerate(values, start=1):
            if value != "":
                plain = sheet_cell(value) if isinstance(value, str) else value
                cell = self.page.cell(self.row, column, plain)
                cell.font = Font(bold=bold)
                if isinstance(value, str):
                    cell.data_type = "s"
                    # Else a spreadsheet would work it out once somebody edits the cell.
                    cell.quotePrefix = value.startswith(tuple("=+-@"))


def _laid_out(page: "Worksheet", widths: Sequence[int], top: int, last: int) -> None:
    """Set widths, wrap the table's rows ``top`` to ``last``, and print one page wide, lying."""
    from openpyxl.styles import Alignment
    from openpyxl.utils import get_column_letter
    from openpyxl.worksheet.properties import PageSetupProperties

    for column, width in enumerate(widths, start=1):
        page.column_dimensions[get_column_letter(column)].width = width
    for row in page.iter_rows(min_row=top, max_row=last):
        for cell in row:
            cell.alignment = Alignment(vertical="top", wrap_text=True)
    page.page_setup.orientation = "landscape"
    page.page_setup.fitToWidth, page.page_setup.fitToHeight = 1, 0
    page.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    page.print_title_rows = f"{top}:{top}"


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
