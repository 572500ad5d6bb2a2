"""A starter scenario to fill in: what a first plan needs, and all the rest as comments."""

import json
from collections.abc import Callable
from pathlib import Path

from runplanner.errors import Fault, ScenarioError, system_said
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import OUTFIT_FILE, Refusal, said_text
from runplanner.scenario.starter.remarks import said_in
from runplanner.scenario.starter.starter_text import OUTFIT_TOML, YARDS_CSV
from runplanner.scenario.values.words import name
from runplanner.whole_file import write_whole


def new_scenario(folder: Path, title: str, say: Callable[[str], str] = str) -> list[Path]:
    """Write a commented starter into ``folder`` (made when missing) and return its files.

    ``say`` says the comments in another language; names of settings stay.

    Raises:
        ScenarioError: When a file of that name is there already, the title is unfit, or the
            folder cannot be written.
    """
    texts = {
        folder / OUTFIT_FILE: said_in(OUTFIT_TOML, say).replace("@TITLE@", _quoted(title)),
        folder / "yards.csv": said_in(YARDS_CSV, say),
    }
    faults = [_taken(path) for path in texts if path.exists() or path.is_symlink()]
    if folder.exists() and not folder.is_dir():
        faults = [
            _fault(folder, phrase("a file"), phrase("a folder"), phrase("Choose another name."))
        ]
    if faults:
        raise ScenarioError(tuple(faults))
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for path, text in texts.items():
            write_whole(path, text)
    except OSError as error:
        reason = system_said(error)
        fault = _fault(
            folder, reason, phrase("a folder that can be written"), phrase("Choose another folder.")
        )
        raise ScenarioError((fault,)) from None
    return list(texts)


def _quoted(title: str) -> str:
    """Return the title as a TOML string."""
    try:
        return json.dumps(name(title), ensure_ascii=False)
    except Refusal as refusal:
        fault = Fault("title", "", "", said_text(title), refusal.allowed, refusal.cure)
        raise ScenarioError((fault,)) from None


def _taken(path: Path) -> Fault:
    return _fault(
        path,
        phrase("there already"),
        phrase("a new file"),
        phrase("Nothing is overwritten: move it away."),
    )


def _fault(path: Path, said: str, allowed: Phrase, cure: Phrase) -> Fault:
    return Fault(said_text(str(path)), "", "", said, allowed, cure)
