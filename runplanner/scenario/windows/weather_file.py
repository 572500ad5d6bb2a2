"""weather.csv or weather.xlsx: typed windows, fit or shut, and air temperatures.

One row says: in this area, this work, is fit (or shut), on these days, between these hours.
A day with a fit row is fit only in the hours its fit rows give; a day without one is fit all
day; shut rows always win.  Fit rows for settling only lift what a forecast shuts in their hours.
Where areas overlap, the fit rows of the narrowest one count: a yard's own before its district's
before those for all.
"""

from calendar import isleap
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from runplanner.days import DAY_MIN, Span
from runplanner.errors import Fault
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.cells.fields import Fields, at_row
from runplanner.scenario.cells.outfit_file import Days, OutfitFile
from runplanner.scenario.cells.tables import Table, check_columns
from runplanner.scenario.values.moments import a_date, clock_min
from runplanner.scenario.values.quantities import temperature
from runplanner.scenario.values.words import Known, key_of, note, one_of
from runplanner.scenario.yards.yard_row import Draft, all_named

COLUMNS: Final = (
    "area", "what", "state", "from_day", "to_day", "from_hour", "to_hour", "min_temp", "max_temp",
    "note",
)  # fmt: skip
NEEDED: Final = ("area", "what", "from_day", "to_day")
WHATS: Final = ("open", "feed", "settle", "temperature")
WIDEST: Final = 3
"""The rank of forecast rows: any typed row is narrower."""
AIRLESS: Final = "airless"
"""What forecast rows say of days whose temperature is not told: silence is not fair weather."""
PARTLY: Final = "partly"
"""What they say of days that a forecast tells in part: at least so cold, and so hot."""
AFTER_DAYS: Final = 14
"""Weather may be typed for so many days after the last one: syrup is taken down then."""
FAR_DAYS: Final = 183
"""A row may reach half a year beyond the campaign; one wrong year reaches 289 days or more."""
_CHECK_YEAR: Final = phrase("Check the year and the season.")


@dataclass(frozen=True, slots=True)
class Window:
    """One row, for the yards in ``yards`` (indices); ``rank`` 0 is the narrowest area.

    ``low`` and ``high`` are tenths of a degree, in rows of temperature; ``note`` is the
    reason as typed.
    """

    yards: frozenset[int]
    rank: int
    what: str
    fit: bool
    from_day: int
    to_day: int
    from_min: int
    to_min: int
    low: int
    high: int
    note: str = ""

    def spans(self) -> tuple[Span, ...]:
        """Return its hours, day by day; hours that end before they start run over midnight."""
        end = self.to_min if self.to_min > self.from_min else self.to_min + DAY_MIN
        return tuple(
            Span(day * DAY_MIN + self.from_min, day * DAY_MIN + end)
            for day in range(self.from_day, self.to_day + 1)
        )


def read_weather(
    file: OutfitFile, table: Table | None, days: Days, drafts: Sequence[Draft]
) -> list[Window]:
    """Return the typed windows; none when there is no such file."""
    if table is None:
        source = phrase(
            "no weather file: the plan holds only if the weather does; type the forecast [C]"
        )
        file.desk.assume("weather", phrase("fair from sunrise to sunset, every day"), source)
        return []
    muted = frozenset(check_columns(table, COLUMNS, NEEDED, file.book))
    if not table.rows:
        cure = phrase("Delete the file for fair weather all day.")
        file.book.add(
            Fault(table.file, "", "", phrase("no rows"), phrase("at least one row"), cure)
        )
    windows = []
    for row in table.rows:
        fields = Fields(file.desk, table.file, dict(row.cells), "windows", at_row(row))
        fields.mute(muted, row)
        windows.append(_window(fields, days, yard_areas(drafts)))
    return windows


Ranked = tuple[int, frozenset[int]]
Areas = Known[Ranked]
_NOWHERE: Final[Ranked] = (2, frozenset())


def yard_areas(drafts: Sequence[Draft]) -> Areas:
    """Return rank and yards of each name an area can have."""
    areas: dict[str, Ranked] = {"all": (2, frozenset(range(len(drafts))))}
    for index, draft in enumerate(drafts):
        if draft.yard.district:
            key = key_of(draft.yard.district)
            _, before = areas.get(key, _NOWHERE)
            areas[key] = (1, before | {index})
    for index, draft in enumerate(drafts):
        areas.setdefault(key_of(draft.yard.name), (0, frozenset([index])))
        areas.setdefault(draft.yard.id, (0, frozenset([index])))
    yards = [draft.yard for draft in drafts]
    shown = ("all", *(one.district for one in yards if one.district), *(one.name for one in yards))
    return Known(areas, shown, all_named(drafts))


def area_named(areas: Areas, said: object) -> Ranked:
    """Return rank and yards of the area called so.

    Raises:
        Refusal: When none is.
    """
    typed = key_of(said)
    if typed in areas.meant:
        return areas.meant[typed]
    raise areas.refusal(phrase("all, a district, or a yard"), typed)


def _window(fields: Fields, days: Days, areas: Areas) -> Window:
    rank, yards = fields.read("area", lambda said: area_named(areas, said), _NOWHERE)
    what = fields.read("what", lambda said: one_of(said, WHATS), "open")
    air = what == "temperature"
    stated = fields.right("what") or fields.has("state")
    window = Window(
        yards=yards,
        rank=rank,
        what=what,
        fit=stated
        and not air
        and fields.read("state", lambda said: one_of(said, ("fit", "shut")), "") == "fit",
        from_day=_day(fields, "from_day", days),
        to_day=_day(fields, "to_day", days),
        from_min=fields.optional("from_hour", clock_min) or 0,
        to_min=_to_min(fields),
        low=fields.read("min_temp", temperature, 0) if air else 0,
        high=fields.read("max_temp", temperature, 0) if air else 0,
        note=fields.optional("note", note) or "",
    )
    _check(fields, window, days)
    return window


def _to_min(fields: Fields) -> int:
    typed = fields.optional("to_hour", clock_min)
    return DAY_MIN if typed is None else typed


def _day(fields: Fields, key: str, days: Days) -> int:
    return (fields.read(key, a_date, days.first) - days.first).days


def _check_reach(fields: Fields, window: Window, days: Days) -> None:
    """Write down an end of the row that lies far outside the campaign.

    A row of whole years, such as 1 January to 31 December, was typed to reach so far.
    """
    first = _date_of(window.from_day, days)
    if _date_of(window.to_day + 1, days) == _in_year(first, _date_of(window.to_day + 1, days).year):
        return
    for key, day in (("from_day", window.from_day), ("to_day", window.to_day)):
        if _far(day, days):
            allowed = phrase("at most {number} days outside the campaign", number=FAR_DAYS)
            fields.fault(key, allowed, _year_meant(key, window, days))


def _year_meant(key: str, window: Window, days: Days) -> Phrase:
    """Return the date in another year that would stand near the campaign, or what to check."""
    typed = _date_of(window.from_day if key == "from_day" else window.to_day, days)
    for year in (days.first.year, days.first.year + 1, days.first.year - 1):
        meant = _in_year(typed, year)
        day = (meant - days.first).days
        in_order = day <= window.to_day if key == "from_day" else day >= window.from_day
        if in_order and not _far(day, days):
            return phrase("Check the year: {date} would be near.", date=meant.isoformat())
    return _CHECK_YEAR


def _far(day: int, days: Days) -> bool:
    return day < -FAR_DAYS or day >= days.n_days + FAR_DAYS


def _date_of(day: int, days: Days) -> date:
    return days.first + timedelta(days=day)


def _in_year(day: date, year: int) -> date:
    """Return the same day of another year, 1 March for a 29 February it does not have."""
    leap = (day.month, day.day) == (2, 29) and not isleap(year)
    return date(year, 3, 1) if leap else day.replace(year=year)


def _check(fields: Fields, window: Window, days: Days) -> None:
    air = window.what == "temperature"
    strays = ("state", "from_hour", "to_hour") if air else ("min_temp", "max_temp")
    for key in strays:
        if fields.right("what") and fields.has(key):
            fields.fault(
                key,
                phrase("nothing in a row of {what}", what=window.what),
                phrase("Empty the cell."),
            )
    if fields.right("from_day", "to_day"):
        _check_days(fields, window, days)
    if air and fields.right("min_temp", "max_temp") and window.low > window.high:
        fields.fault("max_temp", phrase("at least min_temp"), phrase("Swap the two."))


def _check_days(fields: Fields, window: Window, days: Days) -> None:
    if window.to_day < window.from_day:
        fields.fault("to_day", phrase("not before from_day"), phrase("Put the two dates in order."))
    elif days.known and not (window.to_day >= 0 and window.from_day < days.n_days + AFTER_DAYS):
        fields.fault("from_day", phrase("days of the campaign"), _CHECK_YEAR)
    elif days.known:
        _check_reach(fields, window, days)
