"""outfit.toml as its tables, every one of them checked for unknown keys in the end."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from runplanner.phrase import phrase
from runplanner.scenario.cells.fields import Desk, Fields, toml_where
from runplanner.scenario.cells.toml_file import read_toml
from runplanner.scenario.faults import OUTFIT_FILE, FaultBook, Refusal
from runplanner.scenario.values.moments import a_date


class OutfitFile:
    """The tables of one outfit.toml."""

    def __init__(self, folder: Path, desk: Desk) -> None:
        self.desk = desk
        self.file = OUTFIT_FILE
        raw, self._lines = read_toml(folder / OUTFIT_FILE, desk.book)
        self.readable = raw is not None
        self._made: list[Fields] = []
        self._sections: dict[str, Fields] = {}
        self._titles: dict[str, str] = {}
        self.top = self._fields(raw or {}, "outfit", "", "")

    @property
    def book(self) -> FaultBook:
        """The faults so far."""
        return self.desk.book

    def section(self, key: str, *, behind: Fields | None = None) -> Fields:
        """Return the fields of ``[key]``, the same each time; none when it is missing."""
        if key not in self._sections:
            raw = self.top.table(key) or {}
            self._sections[key] = self._fields(raw, key, key, key, behind)
        return self._sections[key]

    def entries(self, key: str) -> list[Fields]:
        """Return the fields of each ``[[key]]``."""
        found = []
        for number, raw in enumerate(self.top.tables(key)):
            named = raw.get("name")
            title = f"{key} {number + 1}" + (f" ({str(named)[:40]})" if named else "")
            self._titles[f"{key}.{number}"] = title
            found.append(self._fields(raw, key, f"{key}.{number}", title))
        return found

    def inner(self, outer: Fields, key: str, path: str) -> Fields | None:
        """Return the fields of a table inside another, or None when it is missing.

        Later on ``section`` returns the same by its path.
        """
        raw = outer.table(key)
        if raw is None:
            return None
        entry = self._titles.get(path.rpartition(".")[0])
        title = f"{entry}, {key}" if entry else path
        self._sections[path] = self._fields(raw, f"{outer.kind}.{key}", path, title)
        return self._sections[path]

    def finish(self) -> None:
        """Write down every key that nobody asked for."""
        for fields in self._made:
            fields.done()

    def _fields(
        self, raw: Mapping[str, object], kind: str, path: str, title: str,
        behind: Fields | None = None,
    ) -> Fields:  # fmt: skip
        where = toml_where(self._lines, path, title)
        fields = Fields(self.desk, self.file, raw, kind, where, behind)
        self._made.append(fields)
        return fields


class Days:
    """The days of the campaign, by which dates become day numbers.

    Args:
        first: Day 0.
        n_days: How many.
        known: False while the season itself is at fault: then no date is refused.
    """

    def __init__(self, first: date, n_days: int, *, known: bool) -> None:
        self.first = first
        self.n_days = n_days
        self.known = known

    @property
    def last(self) -> date:
        """The last day."""
        return date.fromordinal(self.first.toordinal() + self.n_days - 1)

    def number(self, said: object) -> int:
        """Return the day number of a date.

        Raises:
            Refusal: When it is no date, or not in the campaign.
        """
        day = (a_date(said) - self.first).days
        if self.known and not 0 <= day < self.n_days:
            raise Refusal(
                phrase("a day from {first} to {last}", first=self.first, last=self.last),
                phrase("Check the date and the season."),
            )
        return day if self.known else 0
