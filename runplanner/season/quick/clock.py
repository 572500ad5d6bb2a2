"""A truck's day driven by quick sums: hours, waits, and the breaks that the law wants.

Where breaks fall is what the exact clock (``haulage/day_clock.py``) does with a day begun as early
as can be.  How short the day gets when it is begun later is guessed: where a call has other hours
later in the day, as if nobody ever had to wait.
"""

from collections.abc import Sequence
from itertools import chain, pairwise
from typing import Final, NamedTuple

from runplanner.days import DAY_MIN, NEVER, Span
from runplanner.outfit.people import Hours

Node = tuple[int, int, tuple[Span, ...], int, int]
"""One call of a rough day: its place, its minutes, its hours, the minute it may end, and by when
who rests there is gone."""
Minutes = Sequence[Sequence[int | None]]


class Laws(NamedTuple):
    """How long people may work and drive without a break, and how long breaks are, in minutes."""

    duty_most: int
    duty_pause: int
    drive_most: int
    drive_pause: int
    length_max: int

    def longer(self) -> "Laws | None":
        """Return the laws with breaks from duty as long as those from driving, if longer."""
        if self.duty_pause >= self.drive_pause:
            return None
        return self._replace(duty_pause=self.drive_pause)

    def rests(self, busy: int) -> int:
        """Return the least minutes of breaks in a day with so many minutes of work and driving."""
        return self.duty_pause * max(0, -(-busy // self.duty_most) - 1)

    def busy_max(self) -> int:
        """Return the most minutes of work and driving that a day holds beside its breaks."""
        most = self.length_max
        while most + self.rests(most) > self.length_max:
            most -= 1
        return most


def laws_of(hours: Hours) -> Laws:
    """Return the laws of an outfit; a break of no minutes is no break."""
    return Laws(
        hours.duty_break_after_min,
        hours.duty_pause_min,
        hours.drive_break_after_min,
        hours.drive_pause_min,
        hours.longest_min,
    )


class Driven(NamedTuple):
    """A day begun as early as can be.

    Args:
        leaves: When the drive to every call begins, and the one home.
        busy_min: Driving and work.
        length_min: The day's length once it begins as late as its waits let it.
    """

    leaves: list[int]
    busy_min: int
    length_min: int


SPOILT: Final = Driven([], 0, 0)
"""No day: one that fails, though it might hold with other waits."""


def driven(
    nodes: Sequence[Node], minutes: Minutes, home: int, hours: Span, laws: Laws
) -> Driven | None:
    """Drive the calls of a day from home to home between ``hours``; None where it cannot be.

    Where breaks from duty and from driving both fall due, longer ones from duty may do for both.
    """
    run = _driven(nodes, minutes, home, hours, laws)
    if run is not None and run.length_min - run.busy_min <= laws.drive_pause:
        return run
    longer = laws.longer()
    if longer is None or _at_the_wheel(nodes, minutes, home) <= laws.drive_most:
        return run
    other = _driven(nodes, minutes, home, hours, longer)
    if run is None or other is None:
        return run or other
    return min(run, other, key=lambda one: one.length_min)


def _at_the_wheel(nodes: Sequence[Node], minutes: Minutes, home: int) -> int:
    """Return the minutes of a day's drives; those where there is no road count nothing."""
    ways = pairwise((home, *(place for place, *_ in nodes), home))
    return sum(minutes[a][b] or 0 for a, b in ways)


def _driven(
    nodes: Sequence[Node], minutes: Minutes, home: int, hours: Span, laws: Laws
) -> Driven | None:
    """Drive a day as early as can be, or as if its short waits need not be, where those spoil it.

    Begun later, or with one of them drawn out to a break, it may hold: the exact clock looks.
    """
    run = _in_turn(nodes, minutes, home, hours, laws, eased=False)
    if run is SPOILT:
        run = _in_turn(nodes, minutes, home, hours, laws, eased=True)
    return None if run is SPOILT else run


def _in_turn(  # noqa: C901, PLR0912, PLR0915 - one pass, for speed
    nodes: Sequence[Node], minutes: Minutes, home: int, hours: Span, laws: Laws, *, eased: bool
) -> Driven | None:
    """Drive a day's calls one after another.

    ``SPOILT`` where it fails once a break fell due and a wait was too short for one.  ``eased``
    takes such waits for no duty, and off the breaks that they may be a part of.
    """
    duty_most, duty_pause, drive_most, drive_pause, length_max = laws
    opens = now = hours.start_min
    busy = duty = drove = waited = idle = 0
    pressed, gone_by = False, NEVER
    room = DAY_MIN
    row, later = minutes[home], False
    leaves: list[int] = []
    for place, work, spans, settled, shuts in chain(nodes, ((home, 0, (hours,), 0, NEVER),)):
        leg = row[place]
        if leg is None:
            return None
        leaves.append(now)
        while drove + leg > drive_most or duty + leg > duty_most:
            if leg > drive_most or leg > duty_most:
                return None
            pressed = True
            rest = drive_pause if drove + leg > drive_most else 0
            if duty + rest + leg > duty_most and rest < duty_pause:
                rest = duty_pause
            now += rest
            duty = 0 if rest >= duty_pause else duty + rest
            if rest >= drive_pause:
                drove = 0
            if eased:
                spared = min(idle, rest)
                now, idle = now - spared, idle - spared
            if now > gone_by:
                return SPOILT if idle else None
        now += leg
        duty += leg
        drove += leg
        busy += leg + work
        earliest = settled - work
        earliest = now if now > earliest else earliest  # noqa: FURB136 - calls cost, here and below
        brief = 0
        for opening, closing in spans:
            start = earliest if earliest > opening else opening  # noqa: FURB136
            if start + work > closing:
                continue
            wait = start - now
            short = wait if wait < duty_pause and not eased else 0
            if wait < duty_pause and duty + short + work <= duty_most:
                duty += short + work
                end = start + work
                break
            if short and duty + short > duty_most:
                wait, pressed = duty_pause, True
            before = 0 if wait >= duty_pause else duty + short
            pauses = -(-(before + work - duty_most) // duty_most)
            pauses = max(pauses, 0)
            rest = pauses * duty_pause
            if eased and rest:
                rest -= min(rest, idle + (wait if wait < duty_pause else 0))
            end = now + wait + work + rest
            pressed = pressed or pauses > 0
            if end <= closing:
                if duty_pause <= wait >= drive_pause or (pauses and duty_pause >= drive_pause):
                    drove = 0
                duty = before + work - pauses * duty_most
                break
            brief = max(brief, wait)
        else:
            return SPOILT if pressed and (idle or brief) else None
        later = later or spans[-1][1] > closing
        waited += wait
        if wait:
            idle = 0 if duty_pause <= wait >= drive_pause else idle + wait
        spare = waited + closing - end
        room = spare if spare < room else room  # noqa: FURB136
        now, gone_by = end, shuts
        row = minutes[place]
    length = busy + laws.rests(busy)
    if not (later or eased):
        length = max(length, now - opens - min(waited, room))
    return Driven(leaves, busy, length) if length <= length_max else None
