"""The shape of Open-Meteo's hourly forecast: one list of times, and one list for each figure.

Temperature and wind hold for the instant; rain and gusts are told for the hour *before* their
time, so that an hour takes them from the entry after its own, and the last entry gives no
hour.  Times are local by one fixed offset, ``utc_offset_seconds``, even across a change of
the clocks, or in Unix seconds.  (Forecast API documentation, open-meteo.com/en/docs; the fixed
offset: its repository's issues 261 and 488.)
"""

from collections.abc import Mapping
from datetime import datetime, timedelta, timezone
from decimal import Decimal
from itertools import pairwise, zip_longest
from typing import Final
from zoneinfo import available_timezones

from runplanner.phrase import phrase
from runplanner.weather.amounts import CHANCE, RAIN, TEMPERATURE, WIND, Amount, a_point
from runplanner.weather.hours import Forecast, Hour, in_order
from runplanner.weather.ledger import Ledger, Table
from runplanner.weather.wall import Wall, a_moment, of_epoch, zone_offsets

SHAPE: Final = phrase("JSON of hourly columns")
_HOUR: Final = timedelta(hours=1)
_ASK: Final = "hourly=temperature_2m,precipitation,wind_speed_10m,wind_gusts_10m,weather_code"
_THUNDER_CODES: Final = frozenset({95, 96, 99})
"""WMO weather interpretation codes of thunderstorms, as listed in the documentation."""
_CODE_RANGE: Final = range(100)
"""Whole numbers of two digits, written with or without a point."""
_NAMES: Final[dict[str, tuple[tuple[str, ...], Amount]]] = {
    "temp": (("temperature_2m",), TEMPERATURE),
    "rain": (("precipitation",), RAIN),
    "wind": (("wind_speed_10m", "windspeed_10m"), WIND),
    "gust": (("wind_gusts_10m", "windgusts_10m"), WIND),
    "thunder": (("thunderstorm_probability",), CHANCE),
}
_CODES: Final = ("weather_code", "weathercode")
_NEEDED: Final = ("temp", "rain", "wind")
Column = list[int | None]


def is_columns(body: object) -> bool:
    """Tell whether a JSON document is of this shape."""
    return isinstance(body, Mapping) and ("hourly" in body or "hourly_units" in body)


def read_columns(body: Table, ledger: Ledger, wall: Wall) -> Forecast | None:
    """Return the forecast; None once its faults are written down."""
    hourly = ledger.table(body, "hourly")
    units = ledger.table(body, "hourly_units") if hourly else {}
    times = _times(body, hourly, units, ledger) if units else []
    entries = len(said) if isinstance(said := hourly.get("time"), list) else 0
    columns = {key: _column(hourly, units, key, entries, ledger) for key in _NAMES if times}
    if ledger:
        return None
    columns["thunder"] = _first_told(columns["thunder"], _codes(hourly, entries))
    hours = in_order(_hours(times, columns, wall))
    if not hours:
        cure = phrase("The last entry only closes the hour before it: ask for more hours.")
        ledger.add(
            "hourly",
            "time",
            phrase("{number} entries", number=len(times)),
            phrase("two hours or more"),
            cure,
        )
        return None
    point = a_point(body.get("latitude"), body.get("longitude"))
    return Forecast(SHAPE, hours[0].start_min, point, hours)


def _times(body: Table, hourly: Table, units: Table, ledger: Ledger) -> list[datetime]:
    said = ledger.rows(hourly, "time", "hourly")
    epoch = units.get("time") == "unixtime"
    zone = None if epoch else _offset(body, said, ledger)
    if not said or (zone is None and not epoch):
        return []
    found = []
    for number, raw in enumerate(said):
        at = of_epoch(raw) if epoch else _local(raw, zone)
        if at is None:
            allowed = phrase("Unix seconds") if epoch else phrase("such as 2027-03-01T06:00")
            ledger.add(
                phrase("entry {number}", number=number + 1),
                "time",
                raw,
                allowed,
                phrase("Save the answer again."),
            )
        else:
            found.append(at)
    _check_steps(found, ledger)
    return found


def _local(raw: object, zone: timezone | None) -> datetime | None:
    at = a_moment(raw)
    return at if at is None or at.tzinfo is not None else at.replace(tzinfo=zone)


def _offset(body: Table, times: list[object], ledger: Ledger) -> timezone | None:
    """Return the one offset of all times; None, with a fault, where it cannot be right."""
    said = body.get("utc_offset_seconds")
    if isinstance(said, bool) or not isinstance(said, int) or abs(said) > 14 * 3600:
        cure = phrase("Save the answer with its utc_offset_seconds: the times hang on it.")
        ledger.add(
            "",
            "utc_offset_seconds",
            phrase("nothing") if said is None else said,
            phrase("seconds within 14 hours"),
            cure,
        )
        return None
    zone = body.get("timezone")
    if isinstance(zone, str) and zone in available_timezones() and zone != "GMT":
        moments = [at for raw in times[:1] if (at := a_moment(raw))]
        if any(said not in zone_offsets(zone, at.year) for at in moments):
            cure = phrase("{zone} never has that offset: save the answer again.", zone=zone)
            ledger.add(
                "", "utc_offset_seconds", said, phrase("an offset of {zone}", zone=zone), cure
            )
            return None
    return timezone(timedelta(seconds=said))


def _check_steps(times: list[datetime], ledger: Ledger) -> None:
    for number, (one, other) in enumerate(pairwise(times), start=2):
        if other - one < _HOUR:
            said = other.isoformat()
            cure = phrase(
                "Two answers were joined, or the steps are shorter: ask for hourly figures."
            )
            ledger.add(
                phrase("entry {number}", number=number),
                "time",
                said,
                phrase("at least an hour after the last"),
                cure,
            )


def _column(hourly: Table, units: Table, key: str, entries: int, ledger: Ledger) -> Column:
    """Return one figure for all times; empty where it is not told."""
    names, kind = _NAMES[key]
    name = next((name for name in names if name in hourly), "")
    if not name:
        if key in _NEEDED:
            ledger.add(
                "hourly",
                names[0],
                phrase("nothing"),
                phrase("a list of figures"),
                phrase("Ask for {ask}.", ask=_ASK),
            )
        return []
    said = ledger.rows(hourly, name, "hourly")
    if said and len(said) != entries:
        cure = phrase("The lists must be of one length: save the answer again, whole.")
        ledger.add(
            "hourly",
            name,
            phrase("{number} figures", number=len(said)),
            phrase("{entries}, one a time", entries=entries),
            cure,
        )
        return []
    unit = ledger.unit(units, name, kind)
    return [
        ledger.amount(raw, unit, kind, phrase("entry {number}", number=number), name)
        for number, raw in enumerate(said, start=1)
    ]


def _codes(hourly: Table, entries: int) -> Column:
    """Return certain thunder or none by the weather code; empty where there are no codes."""
    said = next((hourly[name] for name in _CODES if name in hourly), None)
    if not isinstance(said, list) or len(said) != entries:
        return []
    return [_by_code(code) for code in said]


def _by_code(code: object) -> int | None:
    if isinstance(code, bool) or not isinstance(code, int | Decimal) or code not in _CODE_RANGE:
        return None
    return 1000 if code in _THUNDER_CODES else 0


def _first_told(one: Column, other: Column) -> Column:
    """Return each entry of ``one``, or where it tells nothing that of ``other``."""
    return [mine if mine is not None else theirs for mine, theirs in zip_longest(one, other)]


def _hours(times: list[datetime], columns: dict[str, Column], wall: Wall) -> list[Hour]:
    """Return an hour for each entry that another follows an hour later."""

    def figure(key: str, entry: int) -> int | None:
        return columns[key][entry] if columns[key] else None

    return [
        Hour(
            start_min=wall.minute(at),
            temp_dc=figure("temp", entry),
            rain_um=figure("rain", entry + 1),
            wind_mms=figure("wind", entry),
            gust_mms=figure("gust", entry + 1),
            thunder_permille=figure("thunder", entry),
        )
        for entry, at in enumerate(times[:-1])
        if times[entry + 1] - at == _HOUR
    ]
