"""Changes that people type: one line each, as a driver would text it.

Blank lines and what follows a ``#`` at the start of a line are left alone.  Every line is
read before anything is refused, so that all faults come at once.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from runplanner.changes.counts.boards_on import with_boards_aboard
from runplanner.changes.counts.colonies import bared, left_with_the_dead
from runplanner.changes.counts.could_be import as_could_be
from runplanner.changes.counts.honey_house import spun_at_most, treated
from runplanner.changes.counts.late_hands import on_the_truck
from runplanner.changes.draft import Draft
from runplanner.changes.forecast import Fresh, with_forecast
from runplanner.changes.opening import Reading, cure_of, put_in, reading
from runplanner.changes.road.advice import advised, rung
from runplanner.changes.road.leaving import too_long
from runplanner.changes.road.margins import loaded_anew, marked, timed_anew
from runplanner.changes.said.line import Line
from runplanner.changes.sites import held_where_new, kept_in_place
from runplanner.changes.store.stocks import counted_anew
from runplanner.changes.verbs.table import verb_of
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Trip
from runplanner.errors import Fault, ScenarioError, system_said
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import eased, eased_words
from runplanner.phrase import Phrase, counted, phrase
from runplanner.scenario.faults import FaultBook, Refusal, said_text

LONGEST_LINE: Final = 500
MOST_LINES: Final = 2_000
LARGEST_BYTES: Final = 1_000_000


@dataclass(frozen=True, slots=True)
class Typed:
    """One line as typed, with where it stood."""

    file: str
    where: str
    text: str


@dataclass(frozen=True, slots=True)
class Changed:
    """What a plan and its facts have become.

    Args:
        plan: The plan that is being driven, driven trips as they were counted.
        outfit: The facts now.
        now_min: The minute of the campaign it is.
        lines: The changes as they were typed.
        notes: What else follows from them, in words.
        presumed: Trip and yard of driven stops that nobody has counted: presumed done.
        by_hand: What lies in yards that no visit will fetch, in words.
    """

    plan: Plan
    outfit: Outfit
    now_min: int
    lines: tuple[str, ...]
    notes: tuple[Phrase, ...]
    presumed: tuple[tuple[str, str], ...]
    by_hand: tuple[Phrase, ...]


def change_lines(path: Path) -> list[Typed]:
    """Return the lines of a file of changes.

    Raises:
        ScenarioError: When it cannot be read as lines of text.
    """
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise _unreadable(path, phrase("larger than 1 MB"))
        lines = path.read_bytes().decode("utf-8-sig").splitlines()
    except OSError as error:
        raise _unreadable(path, system_said(error)) from None
    except UnicodeDecodeError:
        raise _unreadable(path, phrase("other bytes")) from None
    return [
        Typed(path.name, phrase("line {line}", line=number), text)
        for number, text in enumerate(lines, 1)
    ]


def _unreadable(path: Path, said: str) -> ScenarioError:
    cure = phrase("Write one change on each line, in UTF-8.")
    return ScenarioError((Fault(said_text(path.name), "", "", said, phrase("a text file"), cure),))


def typed_changes(texts: Sequence[str], now: str = "") -> list[Typed]:
    """Return changes typed on the command line; ``now`` is the time given with them.

    A text by itself is taken line by line.
    """
    texts = texts.splitlines() if isinstance(texts, str) else texts
    lines = [
        Typed("", phrase("change {number}", number=number), text)
        for number, text in enumerate(texts, 1)
    ]
    return [*([Typed("", "--now", f"now {now}")] if now else []), *lines]


def changed(
    plan: Plan, typed: Sequence[Typed], fresh: Fresh | None = None, *, ring: bool = False
) -> Changed:
    """Return the plan and its facts with every change put in.

    Where a scenario is given ``fresh``, its weather counts from now on; lines stand before it.
    With ``ring`` drivers whose next stops have come to be shut are taken as told the advice.

    Raises:
        ScenarioError: With every fault of every line.
    """
    book = FaultBook()
    lines = _meant(typed)
    if len(lines) > MOST_LINES:
        said, cure = (
            counted("{number} line", "{number} lines", len(lines)),
            phrase("Plan from a scenario folder instead."),
        )
        book.add(
            Fault(
                lines[0].file,
                "",
                "",
                said,
                phrase("at most {most} changes", most=MOST_LINES),
                cure,
            )
        )
        lines = []
    draft = begun = _as_planned(plan)
    ordered = _ordered(lines, draft)
    for one, read in (row for row in ordered if not row[1].rank):
        draft = _put_in(draft, one, read, book)
    if fresh is not None:
        draft = with_forecast(draft, fresh)
    for one, read in (row for row in ordered if row[1].rank):
        draft = _put_in(draft, one, read, book)
    for words, no in too_long(draft, begun):
        book.add(Fault("", phrase("all lines"), "", said_text(words), no.allowed, no.cure))
    book.close()
    draft = _used_up(settled(draft, ring=ring, begun=begun), begun)
    texts = tuple(" ".join(one.text.split()) for one in lines)
    return Changed(
        draft.plan, draft.outfit, draft.now_min, texts, draft.notes, _presumed(draft),
        draft.by_hand,
    )  # fmt: skip


def tells_now(plan: Plan, typed: Sequence[Typed]) -> bool:
    """Tell whether one of the lines is read as the time it is."""
    return any(not read.rank for _, read in _ordered(_meant(typed)[:MOST_LINES], _as_planned(plan)))


def _meant(typed: Sequence[Typed]) -> list[Typed]:
    """Return the lines that tell something."""
    return [one for one in typed if one.text.strip() and not one.text.lstrip().startswith("#")]


def _as_planned(plan: Plan) -> Draft:
    return Draft(plan, eased(plan.outfit), plan.now_min, printed=plan.shifts)


def _used_up(draft: Draft, begun: Draft) -> Draft:
    """Say that slack and spare days are given back; where nothing has happened they are kept."""
    kept = draft.plan.outfit
    if begun.outfit == kept:
        return draft
    if (draft.plan, draft.outfit, draft.now_min) == (begun.plan, begun.outfit, begun.now_min):
        return replace(draft, outfit=replace(kept, counted=draft.outfit.counted))
    return draft.noted(
        phrase(
            "kept in hand when planned, used from now on where it is needed: {what}",
            what=eased_words(kept.in_hand) or phrase("nothing"),
        )
    )


def settled(draft: Draft, *, ring: bool = False, begun: Draft | None = None) -> Draft:
    """Return the draft with what follows from counts, and from hours shut for trucks that are out.

    These get advice, or with ``ring`` are taken as told it.  ``begun`` is the draft before any
    change: where facts are other than that, latest times are looked at again.
    """
    for yard in dict.fromkeys(yard for _, yard in draft.counted):
        draft = as_could_be(draft, draft.outfit.yard(yard))
    draft = on_the_truck(with_boards_aboard(draft))
    draft = loaded_anew(counted_anew(bared(treated(kept_in_place(held_where_new(draft))))))
    draft = left_with_the_dead(loaded_anew(rung(draft, _told)) if ring else draft)
    if begun is not None:
        draft = timed_anew(draft, begun)
    return advised(marked(spun_at_most(draft)))


def _told(draft: Draft, text: str) -> Draft:
    line = Line(text)
    return verb_of(line).does(line, draft)


def _ordered(lines: Sequence[Typed], draft: Draft) -> list[tuple[Typed, Reading]]:
    """Return the lines so that none comes before one it leans on; else as typed."""
    read = [(one, reading(one.text[: LONGEST_LINE + 1], draft)) for one in lines]
    return sorted(read, key=lambda row: row[1].rank)


def _put_in(draft: Draft, typed: Typed, read: Reading, book: FaultBook) -> Draft:
    try:
        _refuse_long(typed.text)
        return put_in(read, draft)
    except Refusal as no:
        cure, said = cure_of(no, read, draft), said_text(typed.text)
        book.add(Fault(typed.file, typed.where, "", said, no.allowed, cure))
        return draft


def _refuse_long(text: str) -> None:
    if len(text) > LONGEST_LINE:
        raise Refusal(
            phrase("at most {most} characters", most=LONGEST_LINE),
            phrase("Write one change on a line."),
        )


def _presumed(draft: Draft) -> tuple[tuple[str, str], ...]:
    """Return the stops begun or over since the plan was made that have not been counted.

    Of a trip that was under way then, these are the stops that were not over, as its driver had
    it; stops to come are named once they have begun.
    """
    made = draft.plan.now_min
    printed = {
        (trip.id, call.yard, call.start_min): call.turned_min or call.end_min
        for shift in draft.printed
        for trip in shift.trips
        for call in trip.yards()
    }

    def ends(trip: Trip, call: Call) -> int:
        return printed.get((trip.id, call.yard, call.start_min), call.end_min)

    stops = [
        (trip.id, call.yard)
        for trip in draft.driven_trips()
        for call in trip.yards()
        if call.start_min <= draft.now_min
        and (not trip.driven or (ends(trip, call) > made and call.actions))
        and not draft.known(trip.id, call)
    ]
    return tuple(dict.fromkeys(stops))
