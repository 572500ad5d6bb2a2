"""The shape of met.no's locationforecast: a list of time steps, each with what follows it.

Figures of an instant stand under ``instant``; rain, thunder and the symbol under
``next_1_hours``, or, further ahead, under ``next_6_hours`` only.  Times are in UTC.  The last
step has no stretch after it.  (Forecast JSON and Locationforecast data model,
docs.api.met.no; ``compact`` has no gusts and no chance of thunder.)

Of a six-hour stretch each hour may be the wet one: its rain is judged whole.  Temperature
runs in a straight line from step to step, wind is the stronger of the two ends.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise
from typing import Final

from runplanner.phrase import phrase
from runplanner.weather.amounts import CHANCE, RAIN, TEMPERATURE, WIND, Amount, a_point
from runplanner.weather.hours import HOUR_MIN, Forecast, Hour, in_order
from runplanner.weather.ledger import Ledger, Table
from runplanner.weather.wall import Wall, a_moment

SHAPE: Final = phrase("JSON of time steps")
_STRETCHES: Final = (("next_1_hours", 1), ("next_6_hours", 6))
_UNITS: Final[dict[str, Amount]] = {
    "air_temperature": TEMPERATURE,
    "precipitation_amount": RAIN,
    "wind_speed": WIND,
}
_IF_THERE: Final[dict[str, Amount]] = {"wind_speed_of_gust": WIND, "probability_of_thunder": CHANCE}
_NO_STEP: Final = phrase("Save the answer again, whole.")


@dataclass(frozen=True, slots=True)
class _Step:
    """One time step; ``hours`` is the stretch its rain and thunder hold for, 0 for none."""

    at: datetime
    temp_dc: int | None
    wind_mms: int | None
    gust_mms: int | None
    hours: int
    rain_um: int | None
    thunder_permille: int | None


def is_steps(body: object) -> bool:
    """Tell whether a JSON document is of this shape."""
    return isinstance(body, Mapping) and "properties" in body


def read_steps(body: Table, ledger: Ledger, wall: Wall) -> Forecast | None:
    """Return the forecast; None once its faults are written down."""
    properties = ledger.table(body, "properties")
    meta = ledger.table(properties, "meta") if properties else {}
    told = ledger.table(meta, "units") if meta else {}
    units = _units(told, ledger) if told else {}
    rows = ledger.rows(properties, "timeseries") if units else []
    steps = [step for number, row in enumerate(rows) if (step := _step(number, row, units, ledger))]
    steps.sort(key=lambda step: step.at)
    _check_order(steps, ledger)
    hours = () if ledger else in_order(_hours(steps, wall))
    if not hours:
        if not ledger:
            said = phrase("no step with an hour after it")
            ledger.add("properties", "timeseries", said, phrase("hours with rain"), _NO_STEP)
        return None
    made = a_moment(meta.get("updated_at"))
    made_min = wall.minute(made) if made and made.tzinfo else hours[0].start_min
    return Forecast(SHAPE, made_min, _point(body), hours)


def _units(told: Table, ledger: Ledger) -> dict[str, str]:
    found = {key: ledger.unit(told, key, kind) for key, kind in _UNITS.items()}
    also = {key: kind for key, kind in _IF_THERE.items() if key in told}
    return found | {key: ledger.unit(told, key, kind) for key, kind in also.items()}


def _point(body: Table) -> tuple[float, float] | None:
    """Return latitude and longitude; they are written the other way round."""
    said = _inner(body, "geometry").get("coordinates")
    return a_point(said[1], said[0]) if isinstance(said, list) and len(said) >= 2 else None


def _step(number: int, row: object, units: dict[str, str], ledger: Ledger) -> _Step | None:
    where = phrase("step {number}", number=number + 1)
    if not isinstance(row, Mapping):
        ledger.add(where, "timeseries", row, phrase("an object"), _NO_STEP)
        return None
    at = a_moment(row.get("time"))
    if at is None or at.tzinfo is None:
        cure = phrase("Times of this shape are in UTC.")
        ledger.add(
            where,
            "time",
            row.get("time", phrase("nothing")),
            phrase("such as 2027-03-01T06:00:00Z"),
            cure,
        )
        return None
    data = ledger.table(row, "data", where)
    instant = _inner(data, "instant", "details")
    hours, details, symbol = _stretch(data)

    def figure(owner: Table, key: str) -> int | None:
        kind = {**_UNITS, **_IF_THERE}[key]
        return ledger.amount(owner.get(key), units.get(key) or "", kind, where, key)

    thunder = figure(details, "probability_of_thunder")
    return _Step(
        at=at,
        temp_dc=figure(instant, "air_temperature"),
        wind_mms=figure(instant, "wind_speed"),
        gust_mms=figure(instant, "wind_speed_of_gust"),
        hours=hours,
        rain_um=figure(details, "precipitation_amount"),
        thunder_permille=_by_symbol(symbol) if thunder is None else thunder,
    )


def _inner(owner: Table, *keys: str) -> Table:
    """Return an object inside objects; an empty one where there is none."""
    for key in keys:
        found = owner.get(key)
        owner = found if isinstance(found, Mapping) else {}
    return owner


def _stretch(data: Table) -> tuple[int, Table, object]:
    """Return the shortest stretch after a step: its hours, its figures and its symbol."""
    for key, hours in _STRETCHES:
        if isinstance(data.get(key), Mapping):
            symbol = _inner(data, key, "summary").get("symbol_code")
            return hours, _inner(data, key, "details"), symbol
    return 0, {}, None


def _by_symbol(symbol: object) -> int | None:
    """Return certain thunder or none by the weather symbol, None where there is no symbol."""
    if not isinstance(symbol, str):
        return None
    return 1000 if "thunder" in symbol else 0


def _check_order(steps: list[_Step], ledger: Ledger) -> None:
    for one, other in pairwise(steps):
        if other.at - one.at < timedelta(hours=1):
            said, cure = other.at.isoformat(), phrase("Two forecasts were joined: keep one.")
            ledger.add("", "time", said, phrase("each step at least an hour after the last"), cure)


def _hours(steps: list[_Step], wall: Wall) -> list[Hour]:
    followers = [*steps[1:], None]
    return [
        hour for step, after in zip(steps, followers, strict=True)
        for hour in _step_hours(step, after, wall)
    ]  # fmt: skip


def _step_hours(step: _Step, after: _Step | None, wall: Wall) -> list[Hour]:
    """Return the hours of a step's stretch, cut off where the next step begins."""
    hour = timedelta(hours=1)
    told = step.hours if after is None else min(step.hours, (after.at - step.at) // hour)
    near = after is not None and after.at - step.at <= step.hours * hour
    last = after if near and after is not None else step
    coarse, apart = step.hours > 1, told if near else step.hours
    return [
        Hour(
            start_min=wall.minute(step.at + number * hour),
            temp_dc=_between(step.temp_dc, last.temp_dc, number, apart),
            rain_um=step.rain_um,
            rain_over_min=step.hours * HOUR_MIN,
            wind_mms=_stronger(step.wind_mms, last.wind_mms) if coarse else step.wind_mms,
            gust_mms=_stronger(step.gust_mms, last.gust_mms) if coarse else step.gust_mms,
            thunder_permille=step.thunder_permille,
        )
        for number in range(told)
    ]


def _between(start: int | None, end: int | None, number: int, of: int) -> int | None:
    if start is None or end is None:
        return start
    return start + (end - start) * number // of


def _stronger(one: int | None, other: int | None) -> int | None:
    return max((value for value in (one, other) if value is not None), default=None)
