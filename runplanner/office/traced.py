"""A yard's contacts from a plan file: on the screen, and as a sheet."""

from collections.abc import Iterator
from difflib import get_close_matches
from pathlib import Path

from runplanner.changes.said.called import Called
from runplanner.daybook.plan import Plan
from runplanner.errors import Fault, ScenarioError
from runplanner.office.publish import PublishError
from runplanner.outfit.yards import Yard
from runplanner.paperwork.speech.say import count
from runplanner.paperwork.speech.tongue import ENGLISH, speaking, tr, trn
from runplanner.paperwork.traces.trace_sheet import CAUTION, REPORT, trace_page
from runplanner.paperwork.traces.traced import Contact, Trace, trace
from runplanner.phrase import phrase
from runplanner.whole_file import write_whole


def traced(plan: Plan, typed: str) -> Trace:
    """Return the trace of the yard with this name or id, in the language spoken.

    Accents may be left out.

    Raises:
        ScenarioError: When there is no such yard, or several.
    """
    return trace(plan, _named(plan, typed))


def _named(plan: Plan, typed: str) -> Yard:
    yards = plan.outfit.yards
    known = Called([(yard.name, yard) for yard in yards], [(yard.id, yard) for yard in yards])
    found = known.meant(typed)
    if len(found) == 1:
        return found[0]
    if found:
        cure = known.which(found)
    else:
        names = [yard.name for yard in yards]
        near = get_close_matches(typed[:80], names, n=1, cutoff=0.5)
        cure = (
            phrase("Did you mean {near}?", near=repr(near[0]))
            if near
            else phrase("See the names in the plan's index.")
        )
    allowed = phrase("the name or id of one yard")
    raise ScenarioError((Fault("", "", "yard", typed, allowed, cure),))


def trace_words(sheet: Trace) -> Iterator[str]:
    """Yield the trace in lines for the screen."""
    visits = trn("{number} visit", "{number} visits", len(sheet.visits))
    yield f"{sheet.yard}: {visits}. {tr(REPORT)}"
    for one in sheet.visits:
        state = tr("driven") if one.driven else tr("planned")
        who = f"{one.vehicles}; {one.crew}; {state}"
        when = " ".join(filter(None, (one.when, one.trip)))
        yield f"  {when} ({who}): {'; '.join(filter(None, (one.work, one.kit)))}"
    for lot in sheet.boxes:
        boxes = count(lot.boxes, "box", "boxes")
        yield "  " + tr(
            "lot {lot}: {boxes} in {when}; {spun}",
            lot=lot.lot, boxes=boxes, when=lot.came_in, spun=lot.spun,
        )  # fmt: skip
        if lot.after:
            yield "    " + tr("spun after it: {yards}", yards=", ".join(lot.after))
        if lot.before:
            yield "    " + tr("spun before it: {yards}", yards=", ".join(lot.before))
    yield tr("seen after it, nearest first:")
    yield from _contact_words(sheet.after)
    yield tr("seen before it, nearest first:")
    yield from _contact_words(sheet.before)
    yield tr(CAUTION)


def _contact_words(contacts: tuple[Contact, ...]) -> Iterator[str]:
    for one in contacts:
        ways = ", ".join(one.ways)
        yield "  " + tr(
            "{yard}: {when} ({state}), by {ways}",
            yard=one.yard, when=one.when, state=one.state, ways=ways,
        )  # fmt: skip
    if not contacts:
        yield "  " + tr("none")


def write_trace(plan: Plan, typed: str, path: Path | str, language: str = ENGLISH) -> Path:
    """Write the trace of a yard as an HTML page to ``path``, in ``language``.

    Raises:
        ScenarioError: When there is no such yard, or several.
        PublishError: When ``path`` is a folder.
    """
    path = Path(path)
    if path.is_dir():
        raise PublishError(
            phrase(
                "{path} is a folder. Give --out the sheet's own name, such as {file}.",
                path=str(path), file=str(path / "trace.html"),
            )
        )  # fmt: skip
    with speaking(language):
        page = trace_page(traced(plan, typed))
    return write_whole(path, page)
