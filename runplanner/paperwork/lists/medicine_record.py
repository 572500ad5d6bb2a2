"""The record a keeper must hold of medicine given, one for each yard, to fill in by hand.

What the plan knows stands in it as planned; what only the crew and the packet know is left
blank.  Which fields and how long: see ``trade.strips``.
"""

from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.paperwork.lists.strips_out import StripsOut, all_notes, kinds_out, strips_out
from runplanner.paperwork.sheet.frame import long_blank, office_page
from runplanner.paperwork.sheet.page import Html, Part, bullets, el, table
from runplanner.paperwork.speech.say import count
from runplanner.paperwork.speech.substances import called
from runplanner.paperwork.speech.tongue import mark, tr, trn
from runplanner.trade.strips import RECORD_FIELDS, RECORD_YEARS

FIELDS = {
    "name of the product": mark("Name of the product"),
    "batch number": mark("Batch number"),
    "date bought": mark("Date bought"),
    "quantity bought": mark("Quantity bought"),
    "supplier": mark("Supplier"),
    "date given": mark("Date given"),
    "quantity given": mark("Quantity given"),
    "withdrawal period": mark("Withdrawal period"),
    "colonies treated": mark("Colonies treated"),
}
"""Each field of ``trade.strips.RECORD_FIELDS`` as it heads a line."""


@dataclass(frozen=True, slots=True)
class Record:
    """One yard's record: each field of the law with what the plan knows of it.

    ``caution``: what to ask where the honey was on.  ``again``: the lines of a second application,
    which is no visit of the plan; none where it is given once.  ``keep_until`` counts from the year
    of the last date that may stand in it.
    """

    yard: str
    substance: str
    fields: tuple[tuple[str, str], ...]
    out: str
    keep_until: int
    caution: str = ""
    again: tuple[tuple[str, str], ...] = ()


def records(plan: Plan) -> tuple[Record, ...]:
    """Return the record of every yard that gets strips, soonest due out first."""
    return tuple(_record(one) for one in strips_out(plan))


def _record(one: StripsOut) -> Record:
    substance = called(one.kind.substance, 200)
    known = {
        "name of the product": tr("active substance {substance}", substance=substance),
        "date given": tr("planned {what}", what=f"{one.went_in} {one.year}"),
        "quantity given": tr("planned {what}", what=count(one.pieces, "strip", "strips")),
        "colonies treated": trn(
            "the one colony of {yard}",
            "all {number} colonies of {yard}",
            one.colonies,
            yard=one.yard,
        ),
    }
    return Record(
        yard=one.yard,
        substance=substance,
        fields=tuple((tr(FIELDS[field]), known.get(field, "")) for field in RECORD_FIELDS),
        out=tr("due {first} to {last}", first=one.due_from, last=one.due_to),
        keep_until=one.last_year + RECORD_YEARS,
        caution=_caution(one),
        again=_again(one) if one.again else (),
    )


def _again(one: StripsOut) -> tuple[tuple[str, str], ...]:
    """Return the lines of a second application, as far as it is known."""
    return (
        (tr("Second application"), tr("no visit of this plan: say who goes")),
        (tr(FIELDS["batch number"]), ""),
        (
            tr(FIELDS["date given"]),
            tr("due {first} to {last}", first=one.due_from, last=one.due_to),
        ),
        (tr(FIELDS["quantity given"]), count(one.again, "strip", "strips")),
        (tr("Taken out"), tr("due {first} to {last}", first=one.again_from, last=one.again_to)),
        (tr("Strips taken out"), ""),
        (tr("Given by, signed"), ""),
    )


def _caution(one: StripsOut) -> str:
    if not one.honey_on:
        return ""
    return tr(
        "Honey was on {colonies} when they went in: write it down, and ask your vet before "
        "anybody eats it.",
        colonies=count(one.honey_on, "colony", "colonies"),
    )


def medicine_page(plan: Plan) -> str:
    """Return every yard's record on one page, each kept in one piece."""
    found, head = records(plan), tr("Medicine record")
    if not found:
        return office_page(plan, head, "", el("p", tr("No strips are planned.")))
    parts = [_section(record) for record in found]
    notes = bullets((*_notes(), *all_notes(kinds_out(plan))), cls="marked pair")
    return office_page(plan, head, tr("one for each yard"), notes, *parts)


def _notes() -> tuple[str, ...]:
    return (
        tr("Planned figures are no record: fill in what was done, on the day."),
        tr("Withdrawal period: as the packet says; nil is written as nil."),
        tr(
            "Keep for {years} years, also when the colonies are gone. Local law comes first.",
            years=RECORD_YEARS,
        ),
    )


def _section(record: Record) -> Html:
    lines: list[tuple[Part, ...]] = [(field, known, long_blank()) for field, known in record.fields]
    lines += [
        (tr("Taken out"), record.out, long_blank()),
        (tr("Strips taken out"), "", long_blank()),
        (tr("Given by, signed"), "", long_blank()),
        *((field, known, long_blank()) for field, known in record.again),
    ]
    keep = tr("keep until the end of {year}", year=record.keep_until)
    return el(
        "section",
        el("h2", record.yard, el("small", f" {keep}")),
        el("p", el("b", record.caution, cls="mark")) if record.caution else "",
        table((tr("Field"), tr("From the plan"), tr("As done")), lines, cls="form"),
        cls="record",
    )
