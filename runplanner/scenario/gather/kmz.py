"""The KML inside a KMZ file, unpacked in memory and never further than allowed."""

import zlib
from io import BytesIO
from pathlib import Path
from typing import Final
from zipfile import BadZipFile, ZipFile, ZipInfo

from runplanner.phrase import phrase
from runplanner.scenario.faults import said_text
from runplanner.scenario.gather.found import LARGEST_BYTES, Basket, Spot

_ALLOWED: Final = phrase("a KMZ file: a zip with a KML file in it")
_AGAIN: Final = phrase("Save it again from the program it came from, or give the KML itself.")
_MOST_PARTS: Final = 10_000


def inner_kml(raw: bytes, path: Path, basket: Basket) -> bytes | None:
    """Return the bytes of the first KML file in ``raw``, or None once its fault is written down.

    What the zip says of sizes is not believed: no more is unpacked than is read from a plain
    file, and nothing is written anywhere.
    """
    spot = Spot(said_text(path.name), "")
    try:
        with ZipFile(BytesIO(raw)) as archive:
            part = _first(archive.infolist()[:_MOST_PARTS])
            if part is None:
                basket.fault(spot, "", phrase("no KML inside"), _ALLOWED, _AGAIN)
                return None
            with archive.open(part) as inside:
                body = inside.read(LARGEST_BYTES + 1)
    except (BadZipFile, zlib.error, EOFError, OSError, ValueError):
        basket.fault(spot, "", phrase("no zip, or a damaged one"), _ALLOWED, _AGAIN)
        return None
    except (NotImplementedError, RuntimeError):  # another way of packing, or a password
        basket.fault(
            spot, "", phrase("a zip with a password or packed strangely"), _ALLOWED, _AGAIN
        )
        return None
    if len(body) <= LARGEST_BYTES:
        return body
    allowed = phrase("at most {most} MB unpacked", most=LARGEST_BYTES // 1000000)
    basket.fault(
        spot, "", phrase("too large"), allowed, phrase("Save only the places, without pictures.")
    )
    return None


def _first(parts: list[ZipInfo]) -> ZipInfo | None:
    """Return the part that counts: doc.kml at the top, else the first KML there is.

    OGC 12-007r2 (KML 2.3), section on KMZ: one KML file at the root is the document.
    """
    found = [part for part in parts if part.filename.casefold().endswith(".kml")]
    return min(found, key=lambda part: part.filename.count("/"), default=None)
