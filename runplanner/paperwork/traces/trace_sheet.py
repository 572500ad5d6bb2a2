"""The look of the trace sheet of a yard under suspicion."""

from collections.abc import Sequence

from runplanner.paperwork.sheet.page import Html, Part, el, page, put, table
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.traces.traced import Contact, Trace

CAUTION = mark(
    "What a plan knows: trucks, people, boards, feeders, boxes. It does not know which tank or can "
    "went where, nor of drift, robbing, swarms, or frames moved by hand."
)
REPORT = mark(
    "Report a suspected notifiable disease before anything else; nothing leaves the yard."
)


def trace_page(sheet: Trace) -> str:
    """Return the sheet as a page that stands alone."""
    as_of = ", " + tr("as of {when}", when=sheet.now) if sheet.now else ""
    name = tr("Trace sheet: {yard}", yard=sheet.yard)
    health = tr("health: {state}", state=sheet.health)
    head = el(
        "header",
        el("h1", name),
        el("p", el("b", sheet.title), f" \u00b7 {health}{as_of}"),
    )
    return page(
        name,
        head,
        el("p", el("b", tr(REPORT)), cls="last"),
        _part(tr("Visits of this yard"), _visits(sheet)),
        _part(tr("Its boxes"), _boxes(sheet)),
        _part(tr("Yards seen after it"), _contacts(sheet.after)),
        _part(tr("Yards seen before it"), _contacts(sheet.before)),
        el("footer", tr(CAUTION)),
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
    heads = (tr("When"), tr("Trip"), tr("Who"), tr("Work"), tr("Kit"), "")
    return table(heads, lines) if lines else tr("None.")


def _boxes(sheet: Trace) -> Part:
    lines: list[tuple[Part, ...]] = [
        (el("b", one.lot), str(one.boxes), one.truck, one.came_in, one.spun,
         ", ".join(one.before) or tr("none"), ", ".join(one.after) or tr("none"))
        for one in sheet.boxes
    ]  # fmt: skip
    heads = (
        tr("Lot"), tr("Boxes"), tr("Truck"), tr("In the honey house"), tr("Spun"),
        tr("Spun before it"), tr("Spun after it"),
    )  # fmt: skip
    return table(heads, lines) if lines else tr("None.")


def _contacts(contacts: Sequence[Contact]) -> Part:
    lines: list[tuple[Part, ...]] = [
        (el("b", one.yard), one.when, ", ".join(one.ways), one.state) for one in contacts
    ]
    heads = (tr("Yard"), tr("Nearest visit"), tr("By"), "")
    return table(heads, lines) if lines else tr("None.")


def _driven(*, driven: bool) -> str:
    return tr("driven") if driven else tr("planned")
