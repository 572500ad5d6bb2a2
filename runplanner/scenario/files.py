"""Which files of the folder are read, and which look as if they were meant to be."""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from difflib import get_close_matches
from pathlib import Path
from typing import Final

from runplanner.errors import Fault
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.cells.fields import Desk, Fields
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.cells.tables import Table, read_table
from runplanner.scenario.faults import OUTFIT_FILE, FaultBook, Refusal, said_text
from runplanner.scenario.yards.yards_file import OTHER_WORDS

TABLES: Final = ("yards", "weather", "travel")
FORECASTS: Final = ("forecast.csv", "forecast.json")
"""The forecasts that are read without being named."""
_FORECAST: Final = "forecast"
_KINDS: Final = (".csv", ".xlsx")
_SHEETS: Final = (".xls", ".ods")
"""Workbooks of other programs, which no other name makes one that is read."""
_ENDINGS: Final = (*_KINDS, *_SHEETS, ".tsv", ".txt")
_NEARLY: Final = (
    *(f"{stem}{kind}" for stem in (*TABLES, _FORECAST) for kind in _ENDINGS[:-1]),
    FORECASTS[1],
)


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


def read_folder(folder: Path, desk: Desk) -> tuple[OutfitFile, dict[str, Table | None]]:
    """Return the outfit.toml of a scenario's folder, and its tables by name.

    Raises:
        ScenarioError: With every fault found, where there is no such folder or no readable
            outfit.toml.
    """
    if not folder_is_there(folder, desk.book):
        desk.book.close()
    file = OutfitFile(folder, desk)
    tables = read_tables(folder, file)
    if not file.readable:
        desk.book.close()
    return file, tables


def read_tables(folder: Path, file: OutfitFile) -> dict[str, Table | None]:
    """Return the three tables by name; None for one that is missing or at fault."""
    named = file.section("files")
    found: dict[str, Table | None] = {}
    used: list[str] = []
    for stem in TABLES:
        path = table_path(folder, stem, named)
        words = OTHER_WORDS if stem == TABLES[0] else {}
        found[stem] = None if path is None else _table(path, words, file.book)
        used.extend([] if path is None else [path.name])
        file.desk.unread.extend([stem] if path is not None and found[stem] is None else [])
    strays = _check_strays(folder, used, file)
    there = [*strays, *(Path(name).stem for name in used)]
    if "yards" not in there and not named.has("yards"):
        cure = phrase("Make it with the columns name, lat, lon, colonies, boxes.")
        file.book.add(
            Fault("yards.csv", "", "", phrase("missing"), phrase("yards.csv or yards.xlsx"), cure)
        )
    return found


def _table(path: Path, words: Mapping[str, str], book: FaultBook) -> Table | None:
    """Return a table whose columns may go by other words as well."""
    return read_table(path, book, lambda name: words.get(name, name))


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


def _check_strays(folder: Path, used: Sequence[str], file: OutfitFile) -> list[str]:
    """Name the files that were surely meant to be read and were not; return for which tables."""
    stems = []
    names = _names(folder)
    read = [*used, *(name for name in FORECASTS if (folder / name).is_file())]
    named = frozenset(_texts(file.top.raw))
    for name in names:
        stem = _meant(name)
        if not stem or name in named or _twin(name, read) or _same(folder, name, read):
            continue
        said, allowed = phrase("not read"), phrase("a file that is read")
        file.book.add(Fault(said_text(name), "", "", said, allowed, _made_read(name, stem)))
        stems.append(stem)
    return stems


def _made_read(name: str, stem: str) -> Phrase:
    """Return what makes a file one that is read."""
    if stem == _FORECAST:
        return phrase(
            "Save it as forecast.csv or forecast.json, name it under [[forecasts]], or move it "
            "away."
        )
    if Path(name.casefold()).suffix in _SHEETS:
        return phrase(
            "Open it in a spreadsheet and save it as {stem}.xlsx, or as CSV UTF-8 as {stem}.csv; "
            "or move it away.",
            stem=stem,
        )
    return phrase(
        "Name it {stem}.csv or {stem}.xlsx, name it under [files], or move it away.", stem=stem
    )


def _texts(value: object) -> Iterator[str]:
    """Yield every text in outfit.toml: whatever file is named there has its own reader."""
    if isinstance(value, str):
        yield value.strip()
    inner = value.values() if isinstance(value, Mapping) else value
    if isinstance(inner, Iterable) and not isinstance(inner, str):
        for each in inner:
            yield from _texts(each)


def _meant(name: str) -> str:
    """Return the table, or the forecast, that a file's name is nearly that of, or nothing.

    ``weather.csv.txt`` and ``weather (1).csv`` are what editors and browsers make of one.
    """
    plain = name.casefold()
    if _bare(plain, _ENDINGS) in TABLES:
        return _bare(plain, _ENDINGS)
    if _bare(plain, (*_ENDINGS, ".json")) in {_FORECAST, f"{_FORECAST}s"}:
        return _FORECAST
    near = get_close_matches(plain, _NEARLY, n=1, cutoff=0.85)
    stem = Path(near[0]).stem if near else ""
    others = stem == _FORECAST and not Path(plain).stem.isalpha()
    return "" if others else stem


def _bare(plain: str, endings: Collection[str]) -> str:
    """Return a name without its endings and the number of a copy; nothing where it has none."""
    left = plain
    while Path(left).suffix in endings:
        left = Path(left).stem
    return "" if left == plain else re.sub(r"(?:\s*\([0-9]+\))+$", "", left)


def _same(folder: Path, name: str, read: Sequence[str]) -> bool:
    """Tell whether a file is one that is read, on a disk that does not tell capitals apart."""
    return any((folder / name).samefile(folder / other) for other in read)


def _twin(name: str, used: Sequence[str]) -> bool:
    """Tell whether the file is the other kind of one that is read; that was said already."""
    return Path(name).stem in {Path(other).stem for other in used}


def _names(folder: Path) -> list[str]:
    """Return the files of a folder, without what programs keep beside one that is open."""
    names = (path.name for path in folder.iterdir() if path.is_file())
    return sorted(name for name in names if not (name.startswith((".", "~")) or name[-1] == "~"))
