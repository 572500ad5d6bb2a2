"""The record a keeper must hold of medicine given, one for each yard, to fill in by hand.

What the plan knows stands in it as planned; what only the crew and the packet know is left
blank.  Which fields and how long: see ``trade.strips``.
"""

from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.paperwork.escape import shown
from runplanner.paperwork.frame import long_blank, office_page
from runplanner.paperwork.page import Html, Part, bullets, el, put, table
from runplanner.paperwork.say import count
from runplanner.paperwork.strips_out import StripsOut, strips_out
from runplanner.trade.strips import RECORD_FIELDS, RECORD_YEARS

NOTES = (
    "Planned figures are no record: fill in what was done, on the day.",
    "Withdrawal period: as the packet says; nil is written as nil.",
    f"Keep for {RECORD_YEARS} years, also when the colonies are gone. Local law comes first.",
)


@dataclass(frozen=True, slots=True)
class Record:
    """One yard's record: each field of the law with what the plan knows of it."""

    yard: str
    substance: str
    fields: tuple[tuple[str, str], ...]
    out: str
    keep_until: int


def records(plan: Plan) -> tuple[Record, ...]:
    """Return the record of every yard that gets strips, soonest due out first."""
    return tuple(_record(plan, one) for one in strips_out(plan))


def _record(plan: Plan, one: StripsOut) -> Record:
    known = {
        "name of the product": f"active substance {shown(plan.outfit.strips.substance, 32)}",
        "date given": f"planned {one.went_in} {one.year}",
        "quantity given": f"planned {count(one.pieces, 'strip')}",
        "colonies treated": f"all {count(one.colonies, 'colony', 'colonies')} of {one.yard}",
    }
    return Record(
        yard=one.yard,
        substance=shown(plan.outfit.strips.substance, 32),
        fields=tuple((field, known.get(field, "")) for field in RECORD_FIELDS),
        out=f"due {one.due_from} to {one.due_to}",
        keep_until=one.year + RECORD_YEARS,
    )


def medicine_page(plan: Plan) -> str:
    """Return every yard's record on one page, each kept in one piece."""
    found = records(plan)
    if not found:
        return office_page(plan, "Medicine record", "", el("p", "No strips are planned."))
    parts = [_section(record) for record in found]
    return office_page(
        plan, "Medicine record", "one for each yard", bullets(NOTES, cls="marked"), *parts
    )


def _section(record: Record) -> Html:
    lines: list[tuple[Part, ...]] = [
        (put(field[:1].upper(), field[1:]), known, long_blank()) for field, known in record.fields
    ]
    lines += [
        ("Taken out", record.out, long_blank()),
        ("Strips taken out", "", long_blank()),
        ("Given by, signed", "", long_blank()),
    ]
    return el(
        "section",
        el("h2", record.yard, el("small", f" keep until the end of {record.keep_until}")),
        table(("Field", "From the plan", "As done"), lines, cls="form"),
        cls="record",
    )
