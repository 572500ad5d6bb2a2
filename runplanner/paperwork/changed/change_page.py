"""The change sheet as a page: what moved and why, what it costs, what to reprint."""

from collections.abc import Sequence

from runplanner.daybook.plan import ALL_DONE, Plan
from runplanner.paperwork.changed.change_sheet import ChangeSheet, Move, Turn
from runplanner.paperwork.escape import file_name, shown
from runplanner.paperwork.lists.undone_list import undone_part
from runplanner.paperwork.sheet.frame import kept, office_page, section
from runplanner.paperwork.sheet.page import Html, Part, bullets, el, link, put, table
from runplanner.paperwork.speech.say import count, hundredths, moment, money
from runplanner.paperwork.speech.sums import HEADS, tally_words
from runplanner.paperwork.speech.tongue import mark, tr


def change_page(before: Plan, after: Plan, sheet: ChangeSheet) -> str:
    """Return the change sheet as a page.

    Args:
        before: The plan that was being driven, for its bill and what it left undone.
        after: The plan from now on.
        sheet: What changed between them.
    """
    return office_page(
        after,
        tr("Changes as of {time}", time=moment(after.outfit, after.now_min)),
        visits_words(sheet),
        _marked(tr("Ring now: today is otherwise"), sheet.ring),
        section(tr("Taken from what was typed"), bullets(sheet.notes)) if sheet.notes else "",
        _marked(tr("Strips or syrup went in with honey on"), sheet.honey_on),
        _marked(tr("Honey that spoils"), sheet.spoils),
        _marked(tr("Colonies at risk: cover ends"), sheet.at_risk),
        _marked(tr("Suspect or at a standstill"), sheet.held),
        _marked(tr("What no visit fetches"), sheet.by_hand),
        section(tr("Honey spun late"), bullets(sheet.spun_late)) if sheet.spun_late else "",
        section(tr("Drivers' papers"), *_reprints(sheet)),
        section(
            tr("Visits that moved or fall away"),
            _moves(sheet.moves) if sheet.moves else tr("None."),
        ),
        section(tr("New visits"), _moves(sheet.added)) if sheet.added else "",
        section(tr("Same day, other work"), _moves(sheet.reworked)) if sheet.reworked else "",
        section(tr("Same day, another hour"), _moves(sheet.later)) if sheet.later else "",
        section(tr("Who drives, and when"), _turns(sheet.duties)) if sheet.duties else "",
        section(tr("Honey house and feed store"), _turns(sheet.house)) if sheet.house else "",
        _presumed(sheet),
        section(tr("What it costs"), _cost(before, after), cls="kept"),
        _undone(before, after),
        section(tr("What was typed"), bullets(sheet.typed) or tr("Nothing: only time has passed.")),
    )


def visits_words(sheet: ChangeSheet) -> str:
    """Return how many promised visits moved or are gone, and how many are otherwise, or new."""
    promised = count(sheet.promised, "promised visit", "promised visits")
    others = (
        (sheet.fall_away, mark("{number} of them gone")),
        (len(sheet.reworked), mark("{number} with other work")),
        (len(sheet.later), mark("{number} at another hour")),
        (len(sheet.added), mark("{number} new")),
    )
    return ", ".join((
        tr("{number} of {promised} moved", number=sheet.visits_moved, promised=promised),
        *(tr(words, number=number) for number, words in others if number),
    ))  # fmt: skip


def _marked(head: str, lines: Sequence[str]) -> Part:
    """Return what must not be overread under its head; nothing where there is nothing to tell."""
    return section(head, bullets(lines, cls="marked")) if lines else ""


def _presumed(sheet: ChangeSheet) -> Part:
    if not sheet.presumed:
        return ""
    head = tr("Presumed done as planned, not counted")
    return section(head, bullets(sheet.presumed), el("p", tr("Count them, and plan again.")))


def _moves(moves: Sequence[Move]) -> Html:
    lines: list[tuple[Part, ...]] = [
        (el("b", one.yard), one.what, kept(one.was, 3), el("b", kept(one.now, 3)), one.why)
        for one in moves
    ]
    return table((tr("Yard"), tr("Work"), tr("Was"), tr("Now"), tr("Why")), lines)


def _turns(turns: Sequence[Turn]) -> Html:
    lines: list[tuple[Part, ...]] = [
        (el("b", one.what), _cell(one.was), el("b", _cell(one.now))) for one in turns
    ]
    return table((tr("Day"), tr("Was"), tr("Now")), lines)


def _cell(words: tuple[str, ...]) -> str:
    return "; ".join(words) or "\u2013"


def _reprints(sheet: ChangeSheet) -> list[Part]:
    groups = (
        (tr("Print again"), sheet.reprint, True),
        (tr("New"), sheet.fresh, True),
        (tr("Called off"), sheet.called_off, False),
        (tr("Unchanged, keep the paper"), sheet.untouched, False),
    )
    found: list[Part] = [
        el("p", el("b", f"{head}: "), *_names(trips, linked=linked))
        for head, trips, linked in groups
        if trips
    ]
    return [*found, bullets(sheet.other_start)] if found else [tr("There are none.")]


def _names(trips: Sequence[str], *, linked: bool) -> list[Part]:
    names: list[Part] = []
    for trip in trips:
        words = shown(trip, 80)
        names.append(link(words, f"manifests/{file_name(trip)}.html") if linked else words)
        names.append(" \u00b7 ")
    return names[:-1]


def _cost(before: Plan, after: Plan) -> Html:
    currency = after.outfit.prices.currency
    lines: list[tuple[Part, ...]] = []
    for head, words in HEADS.items():
        was, now = getattr(before.bill, head), getattr(after.bill, head)
        if was != now:
            lines.append((tr(words), money(was, currency), money(now, currency), _more(was, now)))
    was, now = before.bill.total(), after.bill.total()
    total = (
        el("b", tr("in all")),
        money(was, currency),
        money(now, currency),
        el("b", _more(was, now)),
    )
    return table((tr("For"), tr("Was"), tr("Now"), tr("More")), [*lines, total], cls="sums")


def _more(was: int, now: int) -> str:
    return f"{'-' if now < was else '+'}{hundredths(abs(now - was))}"


def _undone(before: Plan, after: Plan) -> Part:
    was, now = tally_words(before.tally), tally_words(after.tally)
    if before.tally == after.tally == ALL_DONE:
        return ""
    return put(
        el(
            "p",
            tr("Left undone before:"),
            " ",
            el("b", was),
            "; ",
            tr("now:"),
            " ",
            el("b", now),
            ".",
        ),
        undone_part(after, now, priced=True),
    )
