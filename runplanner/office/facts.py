"""A scenario's facts before any planning: started, read, checked and summed up."""

import re
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from runplanner.office.rooms import Rooms
from runplanner.outfit.outfit import Assumed, Outfit
from runplanner.paperwork.escape import shown
from runplanner.paperwork.speech.names_alike import names_alike
from runplanner.paperwork.speech.tongue import mark, said, tr
from runplanner.phrase import Phrase

if TYPE_CHECKING:
    from runplanner.scenario.forecast.part import Heard

MOST_DOUBTS = 12
# A source ends in its class of evidence: a letter, and perhaps words (trade/evidence.py).
_CLASS = re.compile(r"(?P<words>.*) \[(?P<kind>[ABCDM])(: [^\]]*)?\]", re.DOTALL)
_PLACES = {"outfit": mark("above all headings")}
_KINDS = {
    "A": mark("official"), "B": mark("published"), "C": mark("common practice"),
    "D": mark("worked out"), "M": mark("from memory"),
}  # fmt: skip


def read_outfit(
    folder: Path | str, *, rooms: Rooms | None = None, heard: "Heard | None" = None
) -> Outfit:
    """Return the outfit described in a scenario folder.

    What it says besides goes to ``heard``, unless small rooms are handed in.

    Raises:
        ScenarioError: With every fault found.
    """
    if rooms is None and heard is not None:
        from runplanner.scenario import read_scenario

        return read_scenario(Path(folder), heard)
    return (rooms or Rooms()).read(Path(folder))


def start_scenario(folder: Path | str, title: str = "") -> list[Path]:
    """Write a starter scenario into a folder, commented in the language spoken; return its files.

    Raises:
        ScenarioError: When a scenario stands there already, or it cannot be written.
    """
    from runplanner.scenario import new_scenario

    path = Path(folder)
    return new_scenario(path, title or path.resolve().name, tr)


def facts_words(outfit: Outfit, doubts: Sequence[Phrase] = ()) -> Iterator[str]:
    """Yield what the facts imply, names alike, values in doubt, and each default's source."""
    from runplanner.scenario import implied

    yield shown(outfit.title, 80)
    yield from (f"  {said(label)}: {said(value)}" for label, value in implied(outfit))
    yield from ("  " + tr("warning: {what}", what=words) for words in names_alike(outfit))
    yield from (f"  {line}" for line in warning_words(doubts[:MOST_DOUBTS]))
    if len(doubts) > MOST_DOUBTS:
        yield "  " + tr("and {number} more", number=len(doubts) - MOST_DOUBTS)
    if outfit.assumed:
        yield tr(
            "taken for granted, as nothing was typed; each with why, and how well it is known."
        )
        yield tr(
            "To change one, type it under its heading in outfit.toml (or, of yards, as a column):"
        )
    yield from _taken(outfit.assumed)
    yield tr("no fault found")


def warning_words(warnings: Iterable[Phrase]) -> Iterator[str]:
    """Yield each as a line of its own."""
    return (tr("warning: {what}", what=words) for words in warnings)


def _taken(assumed: Sequence[Assumed]) -> Iterator[str]:
    """Yield each default under the table it would be typed in, in the order of use."""
    table = ""
    for one in assumed:
        place, dot, key = one.field.partition(".")
        value = _value(one.value)
        if not dot:
            yield f"  {_value(one.field)} = {value}  ({_why(one.source)})"
            table = ""
            continue
        if place != table:
            table = place
            yield "  " + (tr(_PLACES[place]) if place in _PLACES else place)
        yield f"    {key} = {value}  ({_why(one.source)})"


def _value(value: Phrase) -> str:
    """Return a key or default for people; a single word is what one would type, untranslated."""
    return said(value) if value.parts or " " in value else str(value)


def _why(source: Phrase) -> str:
    """Return a source with its class of evidence in words in front, for people."""
    found = _CLASS.fullmatch(said(source))
    if not found:
        return said(source)
    words, kind = found["words"], _KINDS[found["kind"]]
    told = kind in source.partition("[")[0] or "typed" in source.partition("[")[0]
    return words if told else f"{tr(kind)}: {words}"
