"""Asking a server: the answer, or a fault in words; tried against one on this machine."""

import gzip
import time

import pytest

from runplanner.errors import Fault, ScenarioError
from runplanner.version import __version__
from runplanner.weather.fetch import Patience, fetch, is_address
from runplanner.weather.read_forecast import MOST_BYTES
from tests.weather.loopback import (
    babbles,
    breaks_off,
    drips,
    packs,
    sends,
    serving,
    sleeps,
)

SHORT = Patience(read=0.3, whole=0.6)


def refused(url: str, patience: Patience = SHORT) -> Fault:
    """The fault for which an answer is refused."""
    with pytest.raises(ScenarioError) as caught:
        fetch(url, "", patience)
    (fault,) = caught.value.faults
    return fault


def test_an_answer_comes_as_it_was_sent() -> None:
    """Packed or not; and the caller says who it is."""
    with serving(
        plain=sends(b'{"a": 1}'), packed=packs(b'{"a": 2}'), old=packs(b"3", "X-GZIP")
    ) as at:
        assert b'{"a": 1}' == fetch(f"{at.base}/plain", "ann@example.org")
        assert b'{"a": 2}' == fetch(f"{at.base}/packed?lat=-38.05")
        assert b"3" == fetch(f"{at.base}/old")

    path, headers = at.asked[0]
    assert ("/plain", f"runplanner/{__version__} ann@example.org") == (path, headers["User-Agent"])
    assert f"runplanner/{__version__}" == at.asked[1][1]["User-Agent"]
    assert "gzip" == headers["Accept-Encoding"]


def test_nobody_at_the_address_is_told_without_the_systems_number() -> None:
    """A port of our own that nothing listens on."""
    with serving() as at:
        pass
    found = refused(f"{at.base}/x")

    assert "127.0.0.1" == found.file
    assert "refused" in found.said.casefold()
    assert "Errno" not in found.said


def test_being_sent_on_is_followed() -> None:
    """To another path, but never to a file or round in a circle."""
    with serving(
        there=sends(b"here"),
        on=sends(b"", 302, Location="/there"),
        file=sends(b"", 302, Location="file:///etc/hostname"),
        ftp=sends(b"", 302, Location="ftp://127.0.0.1/x"),
        round=sends(b"", 302, Location="/round"),
    ) as at:
        assert b"here" == fetch(f"{at.base}/on")
        assert "302" in refused(f"{at.base}/file").said
        assert "unknown url type" in refused(f"{at.base}/ftp").said
        assert "302" in refused(f"{at.base}/round").said


@pytest.mark.parametrize(
    ("status", "cure"),
    [(404, "Look at the address"), (500, "Look at the address"), (403, "Say who you are"),
     (429, "Say who you are")],
)  # fmt: skip
def test_a_status_other_than_well(status: int, cure: str) -> None:
    """The status is told; who is blocked is told to say who asks."""
    with serving(x=sends(b"no", status)) as at:
        found = refused(f"{at.base}/x")

    assert f"status {status}" == found.said
    assert cure in found.cure


def test_a_silent_server_is_not_waited_for() -> None:
    """No answer within the time for one."""
    with serving(slow=sleeps(5)) as at:
        started = time.monotonic()
        found = refused(f"{at.base}/slow")

    assert "no answer in time" == found.said
    assert time.monotonic() - started < 3


def test_a_dripping_server_is_not_waited_for_either() -> None:
    """A byte now and then, each in time, but all of it never."""
    with serving(drip=drips(200, 0.05)) as at:
        started = time.monotonic()
        found = refused(f"{at.base}/drip")

    assert "no answer in time" == found.said
    assert time.monotonic() - started < 3


def test_too_much_is_refused() -> None:
    """More than eight million bytes, plain or once unpacked."""
    many = b"x" * (MOST_BYTES + 1)
    with serving(plain=sends(many), packed=packs(many)) as at:
        for path in ("plain", "packed"):
            found = refused(f"{at.base}/{path}", Patience())
            assert f"more than {MOST_BYTES} bytes" == found.said


def test_a_broken_answer() -> None:
    """Cut off, no HTTP at all, not packed as it says, half of what was packed."""
    unpacked = sends(b"no", Content_Encoding="gzip")
    torn = sends(gzip.compress(b"x" * 9000)[:-9], Content_Encoding="gzip")
    with serving(half=breaks_off(b"half"), babble=babbles, unpacked=unpacked, torn=torn) as at:
        for path in ("half", "babble", "unpacked", "torn"):
            assert "Ask again later." == refused(f"{at.base}/{path}").cure


def test_nobody_there() -> None:
    """A port where nothing listens."""
    with serving() as at:
        gone = at.base

    assert "Check address and network." == refused(f"{gone}/x").cure


def test_a_key_in_the_address_is_not_repeated() -> None:
    """Faults name the host alone."""
    with serving() as at:
        found = refused(f"{at.base}/x?apikey=secret")

    assert "127.0.0.1" == found.file
    assert "secret" not in found.sentence()


@pytest.mark.parametrize(
    "url",
    [
        "", "file:///etc/passwd", "ftp://x/y", "http://", "https:///x", "javascript:alert(1)",
        "http://a b/", "http://x/\r\nHost: y", "http://x:99999/", "http://[::1", "http://x:0/",
        "http://\u0445/", "x" * 3000,
    ],
)  # fmt: skip
def test_what_is_no_address(url: str) -> None:
    """Nothing but http and https with a host, and no tricks."""
    assert not is_address(url)
    assert "an http or https address" == refused(url).allowed


def test_addresses() -> None:
    """With places for latitude and longitude, ports and queries."""
    assert is_address("https://example.org/f?latitude={lat}&longitude={lon}&hourly=a,b")
    assert is_address("http://127.0.0.1:8080/")
