"""A forecast from the bytes of a file, whichever of the known shapes it has."""

import json
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from typing import Final

from runplanner.phrase import Number, phrase
from runplanner.weather.columns_shape import is_columns, read_columns
from runplanner.weather.hours import Forecast
from runplanner.weather.ledger import Ledger
from runplanner.weather.plain_shape import read_plain
from runplanner.weather.steps_shape import is_steps, read_steps
from runplanner.weather.wall import Wall

MOST_BYTES: Final = 8_000_000
"""Sixteen days of every figure that is served come to well under one million."""
_LONGEST_NUMBER: Final = 40
_SHAPES: Final = phrase("a CSV of hours, or the JSON of met.no or of Open-Meteo")


def read_forecast(raw: bytes, file: str, wall: Wall, zone: str = "") -> dict[str, Forecast]:
    """Return the forecasts in a file by area; "" for the one that names no area.

    Args:
        raw: The file's bytes.
        file: Its name, for messages.
        wall: The campaign's clock.
        zone: Where times of a CSV without an offset were read off the wall; "" for here.

    Raises:
        ScenarioError: With every fault, when it is no forecast of a known shape.
    """
    ledger = Ledger(file)
    text = _text(raw, ledger)
    if text.lstrip()[:1] in {"{", "["}:
        forecast = _from_json(text, ledger, wall)
        found = {} if forecast is None else {"": forecast}
    elif text:
        found = read_plain(text, ledger, wall, zone or wall.zone)
    else:
        found = {}
    ledger.close()
    return found


def _text(raw: bytes, ledger: Ledger) -> str:
    """Return the bytes as text; "" once a fault is written down."""
    if len(raw) > MOST_BYTES:
        said = phrase("{number} bytes", number=len(raw))
        ledger.add(
            "",
            "",
            said,
            phrase("at most {most} bytes", most=MOST_BYTES),
            phrase("Ask for one place, hourly."),
        )
        return ""
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        said = phrase("byte 0x{raw}", raw=Number(f"{raw[error.start]:02x}"))
        ledger.add("", "", said, phrase("text in UTF-8"), phrase("Save it again as UTF-8."))
        return ""
    if "\x00" in text or not text.strip():
        said = phrase("zero bytes") if "\x00" in text else phrase("an empty file")
        ledger.add("", "", said, _SHAPES, phrase("Save the forecast again."))
        return ""
    return text


def _from_json(text: str, ledger: Ledger, wall: Wall) -> Forecast | None:
    try:
        body: object = json.loads(
            text, parse_constant=_no_constant, parse_float=_decimal, parse_int=_whole
        )
    except (ValueError, RecursionError) as error:
        ledger.add(
            "",
            "",
            str(error) or phrase("too deep"),
            _SHAPES,
            phrase("Save the answer again, whole."),
        )
        return None
    if isinstance(body, list):
        ledger.add(
            "",
            "",
            phrase("a list"),
            phrase("one forecast"),
            phrase("Ask for one place, and use a file for each."),
        )
    elif isinstance(body, Mapping) and body.get("error"):
        cure = phrase("The service refused: look at what was asked.")
        ledger.add("", "reason", body.get("reason", phrase("an error")), phrase("a forecast"), cure)
    elif isinstance(body, Mapping) and is_steps(body):
        return read_steps(body, ledger, wall)
    elif isinstance(body, Mapping) and is_columns(body):
        return read_columns(body, ledger, wall)
    else:
        ledger.add(
            "", "", phrase("another JSON"), _SHAPES, phrase("Save the forecast's own answer.")
        )
    return None


def _no_constant(name: str) -> float:
    message = f"{name} is no number"
    raise ValueError(message)


def _decimal(text: str) -> Decimal:
    try:
        return Decimal(_short(text))
    except InvalidOperation:
        message = f"{text} is no number"
        raise ValueError(message) from None


def _whole(text: str) -> int:
    return int(_short(text))


def _short(text: str) -> str:
    if len(text) > _LONGEST_NUMBER:
        message = f"a number of {len(text)} digits"
        raise ValueError(message)
    return text
