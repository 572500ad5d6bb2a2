"""Forecasts for a scenario's folder, invented and written out hour by hour."""

import json
from pathlib import Path
from typing import Any

from tests.scenario.folders import a_folder

DAYS = 10  # 2027-03-01 to 2027-03-10
YARDS = """\
name,lat,lon,colonies,boxes,district,feeder
Mill,-38.01,175.06,24,41,hills,8 L
Gate,-38.12,175.20,12,20,plain,8 L
Ford,-38.10,175.18,12,20,plain,8 L
"""
TYPED = "area,what,state,from_day,to_day,from_hour,to_hour,min_temp,max_temp,note\n"
Row = dict[str, object]
Spots = dict[tuple[int, int], object]


def at(day: int, hour: float = 0) -> int:
    """The minute of a clock hour on a day."""
    return day * 1440 + int(hour * 60)


def table(days: int = DAYS + 14, area: str = "", **changes: Spots) -> str:
    """A forecast of fair hours: 16 degrees, dry, 3 m/s.

    ``changes`` give other figures by column and (day, hour); a None takes the row out.
    """
    head = "time,temp_c,rain_mm,wind_ms,gust_ms,thunder_pct"
    lines = [head + (",area" if area else "")]
    for day in range(days):
        for hour in range(24):
            row: Row = {"temp": 16, "rain": 0, "wind": 3, "gust": 5, "thunder": 0}
            row |= {key: told[day, hour] for key, told in changes.items() if (day, hour) in told}
            if "gone" not in row:
                moment = f"2027-03-{day + 1:02d} {hour:02d}:00"
                cells = ",".join(str(value) for value in row.values())
                lines.append(f"{moment},{cells}" + (f",{area}" if area else ""))
    return "\n".join(lines) + "\n"


def hours(day: int, start: int, end: int, value: object) -> Spots:
    """The same figure for hours of a day."""
    return {(day, hour): value for hour in range(start, end)}


def scene(path: Path, extra: str = "", weather: str = "", **files: str) -> Path:
    """A scenario with these files beside it: ``hills_csv`` becomes ``hills.csv``."""
    path.mkdir(exist_ok=True)
    folder = a_folder(path, extra, yards=YARDS, weather=weather)
    for name, text in files.items():
        (folder / name.replace("_", ".")).write_text(text, "utf-8")
    return folder


def steps_text(lat: float = -38.05, lon: float = 175.11) -> str:
    """Three days of time steps from midnight UTC of 28 February; thunder on Monday night."""
    rows: list[Any] = []
    for hour in range(73):
        code = "rainandthunder" if hour in {32, 33} else "fair_day"
        data: Row = {"instant": {"details": {"air_temperature": 16.0, "wind_speed": 2.0}}}
        if hour < 72:
            data["next_1_hours"] = {
                "summary": {"symbol_code": code}, "details": {"precipitation_amount": 0.0}
            }  # fmt: skip
        moment = f"2027-{'02-28' if hour < 24 else f'03-0{hour // 24}'}T{hour % 24:02d}:00:00Z"
        rows.append({"time": moment, "data": data})
    units = {"air_temperature": "celsius", "precipitation_amount": "mm", "wind_speed": "m/s"}
    meta = {"updated_at": "2027-02-27T22:00:00Z", "units": units}
    return json.dumps(
        {
            "geometry": {"coordinates": [lon, lat]},
            "properties": {"meta": meta, "timeseries": rows},
        }
    )


ENTRIES = """\
[[forecasts]]
file = "wide.csv"

[[forecasts]]
area = "Plain"
file = "plain.csv"

[[forecasts]]
area = "ford"
file = "ford.csv"
"""
