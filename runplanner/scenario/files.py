"""Which files of the folder are read, and which look as if they were meant to be."""

from difflib import get_close_matches
from pathlib import Path
from typing import Final

from runplanner.errors import Fault
from runplanner.phrase import phrase
from runplanner.scenario.faults import OUTFIT_FILE, FaultBook, Refusal, said_text
from runplanner.scenario.fields import Fields
from runplanner.scenario.outfit_file import OutfitFile
from runplanner.scenario.tables import Table, read_table

TABLES: Final = ("yards", "weather", "travel")
_KINDS: Final = (".csv", ".xlsx")


def folder_is_there(folder: Path, book: FaultBook) -> bool:
    """Tell whether ``folder`` holds an outfit.toml; a fault when not."""
    if not folder.is_dir():
        said = phrase("a file") if folder.exists() else phrase("no such folder")
        cure = phrase("Give the folder of a scenario, or write a starter with `runplanner new`.")
        book.add(Fault(said_text(str(folder)), "", "", said, phrase("a scenario folder"), cure))
        return False
    if not (folder / OUTFIT_FILE).is_file():
        near = get_close_matches(OUTFIT_FILE, _names(folder), n=1, cutoff=0.7)
        cure = (
            phrase("Rename {near}.", near=repr(near[0]))
            if near
            else phrase("Write a starter with `runplanner new`.")
        )
        book.add(Fault(OUTFIT_FILE, "", "", phrase("missing"), phrase("an outfit.toml"), cure))
        return False
    return True


def read_tables(folder: Path, file: OutfitFile) -> dict[str, Table | None]:
    """Return the three tables by name; None for one that is missing or at fault."""
    named = file.section("files")
    found: dict[str, Table | None] = {}
    used: list[str] = []
    for stem in TABLES:
        path = table_path(folder, stem, named)
        found[stem] = None if path is None else read_table(path, file.book)
        used.extend([] if path is None else [path.name])
    _check_strays(folder, used, file.book)
    if "yards" not in [Path(name).stem for name in used] and not named.has("yards"):
        cure = phrase("Make it with the columns name, lat, lon, colonies, boxes.")
        file.book.add(
            Fault("yards.csv", "", "", phrase("missing"), phrase("yards.csv or yards.xlsx"), cure)
        )
    return found


def table_path(folder: Path, stem: str, named: Fields) -> Path | None:
    """Return the file for a table: the one named under [files], or STEM.csv or STEM.xlsx."""
    typed = named.optional(stem, _file_name)
    if typed is not None:
        if (folder / typed).is_file():
            return folder / typed
        named.fault(
            stem,
            phrase("a file in the scenario's folder"),
            phrase("It is not there: check the name."),
        )
        return None
    there = [folder / f"{stem}{kind}" for kind in _KINDS if (folder / f"{stem}{kind}").is_file()]
    if len(there) > 1:
        cure = phrase("Delete one, or name the right one under [files] as {stem}.", stem=stem)
        named.desk.book.add(
            Fault(
                f"{stem}.csv",
                "",
                "",
                phrase("{stem}.xlsx too", stem=stem),
                phrase("one of them"),
                cure,
            )
        )
    return there[0] if there else None


def _file_name(said: object) -> str:
    """Return the name of a table beside outfit.toml.

    Raises:
        Refusal: When it is a path, or of another kind.
    """
    text = said.strip() if isinstance(said, str) else ""
    allowed = phrase("a .csv or .xlsx file in the scenario's folder")
    if not text.isprintable() or Path(text).name != text or "\\" in text:
        raise Refusal(allowed, phrase("Write the bare name, without folders."))
    if Path(text).suffix.lower() not in _KINDS:
        raise Refusal(allowed, phrase("Save it as .xlsx or as CSV UTF-8."))
    return text


def _check_strays(folder: Path, used: list[str], book: FaultBook) -> None:
    """Name the files that were surely meant to be read and were not."""
    wanted = [f"{stem}{kind}" for stem in TABLES for kind in (*_KINDS, ".xls", ".ods", ".tsv")]
    for name in _names(folder):
        near = get_close_matches(name.casefold(), wanted, n=1, cutoff=0.85)
        if near and name not in used and not _twin(name, used):
            stem = Path(near[0]).stem
            cure = phrase(
                "Name it {stem}.csv or {stem}.xlsx, name it under [files], or move it away.",
                stem=stem,
            )
            book.add(
                Fault(
                    said_text(name), "", "", phrase("not read"), phrase("a file that is read"), cure
                )
            )


def _twin(name: str, used: list[str]) -> bool:
    """Tell whether the file is the other kind of one that is read; that was said already."""
    return Path(name).stem in {Path(other).stem for other in used}


def _names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir() if path.is_file())
