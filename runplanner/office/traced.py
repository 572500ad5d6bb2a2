"""A yard's contacts from a plan file: on the screen, and as a sheet."""

from collections.abc import Callable, Iterator, Sequence
from difflib import get_close_matches
from pathlib import Path
from unicodedata import normalize

from runplanner.daybook.plan import Plan
from runplanner.errors import Fault, ScenarioError
from runplanner.outfit.yards import Yard
from runplanner.paperwork.files import write_whole
from runplanner.paperwork.say import count
from runplanner.paperwork.tongue import ENGLISH, speaking, tr, trn
from runplanner.paperwork.trace_sheet import CAUTION, REPORT, trace_page
from runplanner.paperwork.traced import Contact, Trace, trace
from runplanner.phrase import phrase
from runplanner.scenario.changes.line import unaccented


def traced(plan: Plan, typed: str) -> Trace:
    """Return the trace of the yard with this name or id, in the language spoken.

    Accents may be left out.

    Raises:
        ScenarioError: When there is no such yard, or several.
    """
    return trace(plan, _named(plan, typed))


def _named(plan: Plan, typed: str) -> Yard:
    found = _called(plan.outfit.yards, typed, str.casefold) or _called(
        plan.outfit.yards, typed, unaccented
    )
    if len(found) == 1:
        return found[0]
    if found:
        cure = phrase("Give its id, one of: {names}.", names=", ".join(yard.id for yard in found))
    else:
        names = [yard.name for yard in plan.outfit.yards]
        near = get_close_matches(typed[:80], names, n=1, cutoff=0.5)
        cure = (
            phrase("Did you mean {near}?", near=repr(near[0]))
            if near
            else phrase("See the names in the plan's index.")
        )
    allowed = phrase("the name or id of one yard")
    raise ScenarioError((Fault("", "", "yard", typed, allowed, cure),))


def _called(yards: Sequence[Yard], typed: str, fold: Callable[[str], str]) -> list[Yard]:
    """Return the yards with this id, else those with this name, signs alike under ``fold``.

    An accent may be typed as one sign or as two: both are put together first.
    """

    def plain(words: str) -> str:
        return fold(normalize("NFC", " ".join(words.split())))

    said = plain(typed)
    by_id = [yard for yard in yards if plain(yard.id) == said]
    return by_id or [yard for yard in yards if plain(yard.name) == said]


def trace_words(sheet: Trace) -> Iterator[str]:
    """Yield the trace in lines for the screen."""
    visits = trn("{number} visit", "{number} visits", len(sheet.visits))
    yield f"{sheet.yard}: {visits}. {tr(REPORT)}"
    for one in sheet.visits:
        state = tr("driven") if one.driven else tr("planned")
        who = f"{one.vehicles}; {one.crew}; {state}"
        yield f"  {one.when} {one.trip} ({who}): {'; '.join(filter(None, (one.work, one.kit)))}"
    for lot in sheet.boxes:
        boxes = count(lot.boxes, "box", "boxes")
        yield "  " + tr(
            "lot {lot}: {boxes} in {when}, spun {spun}",
            lot=lot.lot, boxes=boxes, when=lot.came_in, spun=lot.spun,
        )  # fmt: skip
        if lot.together:
            yield "    " + tr("spun in the same stretch: {yards}", yards=", ".join(lot.together))
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
    """
    with speaking(language):
        page = trace_page(traced(plan, typed))
    return write_whole(Path(path), page)
