"""Points of a GeoJSON file (RFC 7946: longitude first, WGS 84)."""

import json
from collections.abc import Iterator, Mapping
from pathlib import Path

from runplanner.phrase import phrase
from runplanner.scenario.faults import said_text
from runplanner.scenario.gather.found import Basket, Spot, by_column, raw_bytes

_ALLOWED = phrase("a GeoJSON file")
_WGS_84 = ("CRS84", "4326")


def gather_geojson(path: Path, basket: Basket) -> None:
    """Take every feature that is one point; others are only counted."""
    raw = raw_bytes(path, basket)
    whole = None if raw is None else _whole(raw, path, basket)
    if whole is None:
        return
    file, left = said_text(path.name), 0
    words: dict[str, None] = {}
    for number, feature in enumerate(whole, start=1):
        spot = Spot(file, phrase("feature {number}", number=number))
        spots = _coordinates(feature)
        if basket.full(spot):
            break
        if spots is None:
            left += 1
        else:
            cells, unknown = by_column(_properties(feature))
            words.update(dict.fromkeys(unknown))
            _take(basket, spot, cells, spots)
    if left:
        basket.note(
            phrase(
                "{file}: features left out that are not one point: {left}.", file=file, left=left
            )
        )
    if words:
        basket.note(
            phrase(
                "{file}: left out, as no column means it: {names}.",
                file=file,
                names=", ".join(words),
            )
        )


def _take(basket: Basket, spot: Spot, cells: dict[str, str], spots: list[object]) -> None:
    numbers = [one for one in spots[:2] if isinstance(one, int | float)]
    numbers = [] if any(isinstance(one, bool) for one in spots[:2]) else numbers
    if len(numbers) == 2:
        basket.add(spot, cells | {"lon": _digits(numbers[0]), "lat": _digits(numbers[1])})
        return
    allowed, cure = phrase("[longitude, latitude]"), phrase("Type both as numbers.")
    basket.fault(spot, "coordinates", phrase("no two numbers"), allowed, cure)


def _whole(raw: bytes, path: Path, basket: Basket) -> list[object] | None:
    """Return the features, or None once the file's fault is written down."""
    spot = Spot(said_text(path.name), "")
    try:
        whole = json.loads(raw.decode("utf-8-sig"), parse_constant=_no_number)
    except (ValueError, RecursionError) as error:
        said = phrase("nested without end") if isinstance(error, RecursionError) else str(error)
        basket.fault(spot, "", said, _ALLOWED, phrase("Save it again from where it came."))
        return None
    features = _features(whole) if isinstance(whole, Mapping) else None
    if not isinstance(whole, Mapping) or features is None:
        said = str(whole.get("type")) if isinstance(whole, Mapping) else type(whole).__name__
        basket.fault(
            spot,
            "",
            said,
            phrase("{allowed} with features", allowed=_ALLOWED),
            phrase("Check what the file is."),
        )
        return None
    if "crs" in whole and not _crs_name(whole["crs"]).endswith(_WGS_84):
        cure = phrase("Save it again with WGS 84 degrees.")
        basket.fault(spot, "crs", _crs_name(whole["crs"]), phrase("no crs, or WGS 84"), cure)
        return None
    return features


def _crs_name(crs: object) -> str:
    """Return what an older GeoJSON file calls its coordinates."""
    properties = crs.get("properties") if isinstance(crs, Mapping) else None
    name = properties.get("name") if isinstance(properties, Mapping) else None
    return name if isinstance(name, str) else "another one"


def _no_number(word: str) -> float:
    raise ValueError(f"{word} is no number")


def _features(whole: Mapping[str, object]) -> list[object] | None:
    """Return the features, of a collection or the one there is; None for another object."""
    if whole.get("type") == "Feature":
        return [whole]
    features = whole.get("features") if whole.get("type") == "FeatureCollection" else None
    return features if isinstance(features, list) else None


def _coordinates(feature: object) -> list[object] | None:
    """Return the coordinates of a point feature, whatever they hold; None for no point."""
    geometry = feature.get("geometry") if isinstance(feature, Mapping) else None
    if not isinstance(geometry, Mapping) or geometry.get("type") != "Point":
        return None
    spots = geometry.get("coordinates")
    return spots if isinstance(spots, list) else []


def _digits(number: float) -> str:
    return f"{number:.9f}" if abs(number) < 1e12 else phrase("a number far too large")


def _properties(feature: object) -> dict[str, str]:
    """Return the properties that are words or figures, as text."""
    held = feature.get("properties") if isinstance(feature, Mapping) else None
    return dict(_plain(held)) if isinstance(held, Mapping) else {}


def _plain(held: Mapping[object, object]) -> Iterator[tuple[str, str]]:
    for key, value in held.items():
        if isinstance(value, bool):
            yield str(key), "yes" if value else "no"
        elif isinstance(value, str | int):
            yield str(key), str(value)
        elif isinstance(value, float):
            yield str(key), f"{value:.6f}".rstrip("0").rstrip(".")
