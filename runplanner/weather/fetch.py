"""A forecast asked of a server, when and only when a user says so.

Nothing but http and https is opened, also where a server sends us on.  There is a limit on
how long one read may take, on how long all of it may take, and on how much comes; what comes
packed is unpacked no further than the same limit.
"""

import time
import zlib
from dataclasses import dataclass
from http.client import HTTPException, HTTPMessage
from typing import Final, Protocol
from urllib.error import HTTPError, URLError
from urllib.parse import urlsplit
from urllib.request import (
    HTTPDefaultErrorHandler,
    HTTPErrorProcessor,
    HTTPHandler,
    HTTPRedirectHandler,
    HTTPSHandler,
    OpenerDirector,
    ProxyHandler,
    Request,
    UnknownHandler,
)

from runplanner.errors import Fault, ScenarioError
from runplanner.phrase import Phrase, phrase
from runplanner.version import __version__
from runplanner.weather.read_forecast import MOST_BYTES

_PIECE: Final = 65_536
_GZIP: Final = 16 + zlib.MAX_WBITS
_OPENERS: Final = (
    ProxyHandler, HTTPHandler, HTTPSHandler, HTTPRedirectHandler, HTTPDefaultErrorHandler,
    HTTPErrorProcessor, UnknownHandler,
)  # fmt: skip
_LATER: Final = phrase("Ask again later.")
_BLOCKED: Final = frozenset({401, 403, 429})


@dataclass(frozen=True, slots=True)
class Patience:
    """How long to wait, in seconds: for one answer, and for all of it."""

    read: float = 10.0
    whole: float = 30.0


class _Answer(Protocol):
    headers: HTTPMessage

    def read1(self, most: int, /) -> bytes: ...


def is_address(text: str) -> bool:
    """Tell whether ``text`` is an http or https address with a host, fit to be asked."""
    if not text.isascii() or not text.isprintable() or " " in text or len(text) > 2000:
        return False
    try:
        parts = urlsplit(text)
        port = parts.port
    except ValueError:
        return False
    return parts.scheme in {"http", "https"} and bool(parts.hostname) and port != 0


def fetch(url: str, contact: str = "", patience: Patience | None = None) -> bytes:
    """Return what stands at ``url``.

    Args:
        url: An http or https address.
        contact: How its keepers may reach the user; some refuse callers they cannot reach.
        patience: How long to wait.

    Raises:
        ScenarioError: When it cannot be had, in words.  The address itself is not repeated
            beyond its host: it may hold a key.
    """
    patience = patience or Patience()
    if not is_address(url):
        raise _refused(
            "forecasts",
            "url",
            phrase("an http or https address"),
            phrase("Check the address."),
        )
    host = urlsplit(url).hostname or ""
    called = f"runplanner/{__version__}" + (f" {contact}" if contact else "")
    request = Request(url, headers={"User-Agent": called, "Accept-Encoding": "gzip"})  # noqa: S310 - only http and https, see is_address
    try:
        with _opener().open(request, timeout=patience.read) as answer:
            return _body(answer, host, time.monotonic() + patience.whole)
    except HTTPError as error:
        error.close()
        raise _by_status(host, error.code) from None
    except TimeoutError:
        raise _too_slow(host) from None
    except URLError as error:
        if isinstance(error.reason, TimeoutError):
            raise _too_slow(host) from None
        cure = phrase("Check address and network.")
        raise _refused(host, _said(error.reason), phrase("an answer"), cure) from None
    except (OSError, HTTPException, zlib.error) as error:
        raise _refused(host, _said(error), phrase("an answer"), _LATER) from None


def _said(reason: object) -> str:
    """Return why there was no answer, without the system's number for it."""
    strerror = reason.strerror if isinstance(reason, OSError) else None
    return strerror or str(reason) or type(reason).__name__


def _opener() -> OpenerDirector:
    """Return an opener that knows no files and no other schemes."""
    opener = OpenerDirector()
    for handler in _OPENERS:
        opener.add_handler(handler())
    return opener


def _body(answer: _Answer, host: str, until: float) -> bytes:
    packed = answer.headers.get("Content-Encoding", "").strip().casefold()
    unpack = zlib.decompressobj(_GZIP) if packed in {"gzip", "x-gzip"} else None
    body, came = bytearray(), 0
    while piece := answer.read1(_PIECE):
        came += len(piece)
        body += piece if unpack is None else unpack.decompress(piece, MOST_BYTES + 1)
        if len(body) > MOST_BYTES:
            said, allowed = (
                phrase("more than {most} bytes", most=MOST_BYTES),
                phrase("at most {most} bytes", most=MOST_BYTES),
            )
            raise _refused(host, said, allowed, phrase("Ask for one place, hourly."))
        if time.monotonic() > until:
            raise _too_slow(host)
    promised = answer.headers.get("Content-Length", "")
    if (promised.isdecimal() and came < int(promised)) or (unpack is not None and not unpack.eof):
        raise _refused(
            host, phrase("cut off after {came} bytes", came=came), phrase("a whole answer"), _LATER
        )
    return bytes(body)


def _too_slow(host: str) -> ScenarioError:
    return _refused(
        host,
        phrase("no answer in time"),
        phrase("an answer"),
        phrase("Ask again later, or save it by hand."),
    )


def _by_status(host: str, status: int) -> ScenarioError:
    cure = (
        phrase("Say who you are: contact under [weather]; and do not ask often.")
        if status in _BLOCKED
        else phrase("Look at the address, and what was asked.")
    )
    return _refused(host, phrase("status {status}", status=status), phrase("status 200"), cure)


def _refused(where: str, said: str, allowed: Phrase, cure: Phrase) -> ScenarioError:
    return ScenarioError((Fault(where, "", "", said, allowed, cure),))
