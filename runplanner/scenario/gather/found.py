"""Places as found in files people already have, before anything is made of them."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from runplanner.errors import Fault, system_said
from runplanner.phrase import Phrase, joined, phrase
from runplanner.scenario.faults import FaultBook, Refusal, said_text
from runplanner.scenario.values.words import name, note
from runplanner.scenario.yards.yards_file import COLUMNS, OTHER_WORDS

LARGEST_BYTES: Final = 20_000_000
MOST_PLACES: Final = 2_000
_MOST_FAULTS: Final = 1_000
WORDS: Final = {
    **OTHER_WORDS,
    **dict.fromkeys(("title", "label", "site", "yard_name", "site_name"), "name"),
    **dict.fromkeys(("y", "wgs84_lat", "n", "northing", "hochwert"), "lat"),
    **dict.fromkeys(("x", "wgs84_lon", "e", "easting", "rechtswert"), "lon"),
    **dict.fromkeys(("coordinates", "coords", "lat_lon", "latlon", "gps"), "position"),
    **dict.fromkeys(("note", "desc", "description", "comment", "remarks"), "notes"),
    **dict.fromkeys(("telephone", "mobile", "tel"), "phone"),
    "colony": "colonies",
}
"""What people call the columns of the yards table; metres of a map grid are then told as such."""
_STARTS_FORMULA: Final = tuple("=+-@\uff1d\uff0b\uff0d\uff20")
_EMPTY: Final = frozenset(("", "-", "\u2013", "\u2014"))
"""What people put into a cell for nothing."""
_FIGURES: Final = re.compile(r"[+-]?[0-9][0-9 ().,/-]*")


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a place was found: the file and the row, waypoint or feature in it."""

    file: str
    where: str

    def words(self) -> Phrase:
        """Return it for a sentence."""
        return joined(" ", *(part for part in (self.file, self.where) if part))


@dataclass(frozen=True, slots=True)
class Found:
    """A place as it was typed; ``lat`` and ``lon`` may be empty, ``cells`` by known column."""

    spot: Spot
    name: str
    lat: str
    lon: str
    cells: Mapping[str, str]


@dataclass(slots=True)
class Basket:
    """What gathering has come to so far: places, faults, and things worth a word, each once."""

    book: FaultBook = field(default_factory=FaultBook)
    found: list[Found] = field(default_factory=list)
    notes: dict[Phrase, None] = field(default_factory=dict)

    def fault(self, spot: Spot, key: str, said: str, allowed: Phrase, cure: Phrase) -> None:
        """Write one fault down; of a file of the wrong kind altogether, not all of them."""
        if len(self.book) < _MOST_FAULTS:
            fault = Fault(spot.file, spot.where, said_text(key), said_text(said), allowed, cure)
            self.book.add(fault)

    def note(self, sentence: Phrase) -> None:
        """Write down something that stops nothing."""
        self.notes[sentence] = None

    def add(self, spot: Spot, typed: Mapping[str, str]) -> None:
        """Take a place from its cells by column; unfit words are faults."""
        wanted = {key: text.strip() for key, text in typed.items() if text.strip() not in _EMPTY}
        called = self._read(spot, "name", wanted.pop("name", ""), name)
        place = {key: wanted.pop(key, "") for key in ("lat", "lon")}
        cells = {key: self._read(spot, key, text, note) for key, text in wanted.items()}
        self.found.append(Found(spot, called, place["lat"], place["lon"], cells))

    def full(self, spot: Spot) -> bool:
        """Tell whether there are as many places as can be looked at; a fault when so."""
        if len(self.found) < MOST_PLACES:
            return False
        said, allowed = (
            phrase("more than {most} places", most=MOST_PLACES),
            phrase("at most {most}", most=MOST_PLACES),
        )
        self.fault(Spot(spot.file, ""), "", said, allowed, phrase("Gather fewer files at once."))
        return True

    def _read(self, spot: Spot, key: str, text: str, parse: Callable[[object], str]) -> str:
        try:
            plain = parse(text)
        except Refusal as refusal:
            self.fault(spot, key, text or phrase("nothing"), refusal.allowed, refusal.cure)
            return ""
        if plain.startswith(_STARTS_FORMULA) and not _FIGURES.fullmatch(plain):
            cure = phrase("A spreadsheet would work it out as a formula: begin with a letter.")
            self.fault(spot, key, plain, phrase("words or figures"), cure)
        return plain


def column_of(word: str) -> str:
    """Return the column that a header or property means, or nothing when none is known."""
    plain = re.sub(r"[\s-]+", "_", word.strip().casefold())
    column = WORDS.get(plain, plain)
    return column if column in (*COLUMNS, "position") else ""


def by_column(typed: Mapping[str, str]) -> tuple[dict[str, str], list[str]]:
    """Return cells by the column they mean, and the words whose cells are left out.

    A column called by its own name comes before one that only means it.
    """
    cells: dict[str, str] = {}
    left: list[str] = []
    for word, text in sorted(typed.items(), key=lambda one: column_of(one[0]) != one[0]):
        column = column_of(word)
        if column and (not cells.get(column, "").strip() or not text.strip()):
            cells[column] = cells.get(column, "").strip() or text
        else:
            left.append(word)
    return cells, left


def raw_bytes(path: Path, basket: Basket) -> bytes | None:
    """Return what stands in a file, or None once its fault is written down."""
    spot = Spot(said_text(path.name), "")
    try:
        if path.stat().st_size <= LARGEST_BYTES:
            return path.read_bytes()
    except OSError as error:
        said = system_said(error)
        basket.fault(spot, "", said, phrase("a readable file"), phrase("Check the file's name."))
        return None
    allowed = phrase("at most {most} MB", most=LARGEST_BYTES // 1000000)
    basket.fault(
        spot, "", phrase("too large"), allowed, phrase("Save only the places, without tracks.")
    )
    return None
