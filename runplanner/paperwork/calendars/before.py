"""Events of an earlier calendar file, and how a new one follows on from them."""

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from runplanner.paperwork.speech.tongue import mark, tr

if TYPE_CHECKING:
    from icalendar import Event

LARGEST_CHARS = 20_000_000
CALLED_OFF = mark("Called off: ")
_STAMPS = ("SEQUENCE", "DTSTAMP")


def read_events(texts: Sequence[str], campaign: str) -> "dict[str, Event]":
    """Return the events of one campaign by UID; of two with one UID the later revision.

    Anything in the files that is no such event is passed over: they are only asked what
    they said before.
    """
    found: dict[str, Event] = {}
    for block in (block for text in texts for block in _blocks(text)):
        event = _event(block)
        if event is None or not str(event["UID"]).startswith(f"{campaign}-"):
            continue
        known = found.get(str(event["UID"]))
        if known is None or sequence_of(event) >= sequence_of(known):
            found[str(event["UID"])] = event
    return found


def _blocks(text: str) -> Iterator[str]:
    """Yield each event as text.

    The rest of the file is not parsed: a time zone in it may be written to never end.
    """
    lines: list[str] | None = None
    for line in text[:LARGEST_CHARS].splitlines():
        if line == "BEGIN:VEVENT":
            lines = []
        if lines is not None:
            lines.append(line)
        if line == "END:VEVENT" and lines is not None:
            yield "\r\n".join(lines)
            lines = None


def _event(block: str) -> "Event | None":
    from icalendar import Event

    try:
        event = Event.from_ical(block)
        return event if isinstance(event, Event) and _is_ours(event) else None
    except (ValueError, IndexError, KeyError, TypeError):
        return None


def _is_ours(event: "Event") -> bool:
    """Tell whether an event has what we write: every property once, and none of these missing.

    Raises:
        ValueError: When a time in it is no time, or it could not be written again.
    """
    _body(event)
    whole = not event.errors and not event.subcomponents
    once = whole and not any(isinstance(value, list) for value in event.values())
    return once and None not in {event.DTSTART, event.DTEND, event.get("UID"), event.get("DTSTAMP")}


def sequence_of(event: "Event") -> int:
    """Return which revision of itself an event is, from 0."""
    return int(event.sequence)


def followed(event: "Event", before: "Event | None") -> "Event":
    """Return ``event`` as the revision after ``before``; the very same when nothing changed."""
    if before is None:
        return event
    if _body(event) == _body(before):
        return before
    _renumber(event, before)
    return event


def called_off(
    before: "dict[str, Event]", events: "Iterable[Event]", now: "Event"
) -> "list[Event]":
    """Return the events of ``before`` that are not among ``events`` any more.

    ``now`` gives revision and stamp to those that are called off for the first time.
    """
    live = {str(event["UID"]) for event in events}
    return [_called_off(before[uid], now) for uid in sorted(before) if uid not in live]


def is_off(event: "Event") -> bool:
    """Tell whether an event is called off."""
    return str(event.get("STATUS", "")) == "CANCELLED"


def _called_off(event: "Event", now: "Event") -> "Event":
    if is_off(event):
        return event
    off = event.copy(recursive=True)
    for name, value in (
        ("STATUS", "CANCELLED"),
        ("SUMMARY", tr(CALLED_OFF) + str(event.get("SUMMARY", ""))),
        ("SEQUENCE", sequence_of(now)),
    ):
        off.pop(name, None)
        off.add(name, value)
    off["DTSTAMP"] = now["DTSTAMP"]
    _renumber(off, event)
    return off


def _renumber(event: "Event", before: "Event") -> None:
    number = max(sequence_of(event), sequence_of(before) + 1)
    event.pop("SEQUENCE")
    event.add("sequence", number)


def _body(event: "Event") -> bytes:
    """Return what an event says, without which revision it is."""
    bare = event.copy(recursive=True)
    for name in _STAMPS:
        bare.pop(name, None)
    return bytes(bare.to_ical())
