"""The look of the trace sheet of a yard under suspicion."""

from collections.abc import Sequence

from runplanner.paperwork.page import Html, Part, el, page, put, table
from runplanner.paperwork.traced import Contact, Trace

CAUTION = (
    "What a plan knows: trucks, people, boards, boxes, containers. It does not know of drift, "
    "robbing, swarms, or frames moved by hand."
)
REPORT = "Report a suspected notifiable disease before anything else; nothing leaves the yard."


def trace_page(sheet: Trace) -> str:
    """Return the sheet as a page that stands alone."""
    as_of = f", as of {sheet.now}" if sheet.now else ""
    head = el(
        "header",
        el("h1", f"Trace sheet: {sheet.yard}"),
        el("p", el("b", sheet.title), f" \u00b7 health: {sheet.health}{as_of}"),
    )
    return page(
        f"Trace sheet: {sheet.yard}",
        head,
        el("p", el("b", REPORT), cls="last"),
        _part("Visits of this yard", _visits(sheet)),
        _part("Its boxes", _boxes(sheet)),
        _part("Yards seen after it", _contacts(sheet.after)),
        _part("Yards seen before it", _contacts(sheet.before)),
        el("footer", CAUTION),
        cls="office",
    )


def _part(head: str, body: Part) -> Html:
    return el("section", el("h2", head), body)


def _visits(sheet: Trace) -> Part:
    lines: list[tuple[Part, ...]] = [
        (
            el("b", one.when), one.trip, put(one.vehicles, ", ", one.crew), one.work, one.kit,
            _driven(driven=one.driven),
        )
        for one in sheet.visits
    ]  # fmt: skip
    return table(("When", "Trip", "Who", "Work", "Kit", ""), lines) if lines else "None."


def _boxes(sheet: Trace) -> Part:
    lines: list[tuple[Part, ...]] = [
        (el("b", one.lot), str(one.boxes), one.truck, one.came_in, one.spun,
         ", ".join(one.together) or "none")
        for one in sheet.boxes
    ]  # fmt: skip
    heads = ("Lot", "Boxes", "Truck", "In the honey house", "Spun", "Spun in the same stretch")
    return table(heads, lines) if lines else "None."


def _contacts(contacts: Sequence[Contact]) -> Part:
    lines: list[tuple[Part, ...]] = [
        (el("b", one.yard), one.when, ", ".join(one.ways), _driven(driven=one.driven))
        for one in contacts
    ]
    return table(("Yard", "Nearest visit", "By", ""), lines) if lines else "None."


def _driven(*, driven: bool) -> str:
    return "driven" if driven else "planned"
