"""When a yard may be visited: weather, daylight, gate hours and the settling night."""

from dataclasses import dataclass
from typing import Final

from runplanner.days import DAY_MIN, Span, meet
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard

NIGHT_OVER_MIN: Final = 360
"""When a night without dark is over: the 06:00 to which nights are typed for settling."""
SOONEST_MORNING_MIN: Final = 180
"""A sun that is up sooner ends no night: bees rest by the clock where it hardly sets (guessed)."""
Days = tuple[tuple[Span, ...], ...]
"""Spans for every day of the campaign."""


@dataclass(frozen=True, slots=True)
class Windows:
    """One yard's visiting hours by day.

    Args:
        plain: Gate open and daylight.
        opening: Also fit for opening hives.
        feeding: Also fit for pouring syrup.
        both: Fit for both.
        either: Fit for the one or the other, as strips by themselves want, wet boxes put up
            or collected, and feeders that come off.
        settled_from_min: Earliest minute, by day, at which a take-off visit may end so
            that the bees outside are safe until sunrise.
        strips_shut: Days unfit for the strips.
    """

    plain: Days
    opening: Days
    feeding: Days
    both: Days
    either: Days
    settled_from_min: tuple[int, ...]
    strips_shut: frozenset[int]

    def spans(self, *, opening: bool, feeding: bool, strips: bool, dry: bool = False) -> Days:
        """Return the hours, by day, of a visit that opens hives, pours syrup or hangs strips.

        ``dry`` is one that does none of it, but wants such hours for wet boxes or feeders.
        """
        if opening:
            days = self.both if feeding else self.opening
        elif feeding:
            days = self.feeding
        else:
            days = self.either if strips or dry else self.plain
        if not (strips and self.strips_shut):
            return days
        return tuple(() if day in self.strips_shut else days[day] for day in range(len(days)))


def windows(outfit: Outfit, yard: Yard) -> Windows:
    """Return the visiting hours of ``yard`` for every day of the campaign.

    A visit lies within one typed span; spans that touch are not taken together here.
    """
    days = range(outfit.season.n_days)
    plain = tuple(_daylight_in_gate(yard, day) for day in days)
    opening = tuple(meet(spans, yard.open_spans) for spans in plain)
    feeding = tuple(meet(spans, yard.feed_spans) for spans in plain)
    return Windows(
        plain=plain,
        opening=opening,
        feeding=feeding,
        both=tuple(meet(opening[day], feeding[day]) for day in days),
        either=tuple(_longest((*opening[day], *feeding[day])) for day in days),
        settled_from_min=tuple(_settled_from(yard, day) for day in days),
        strips_shut=frozenset(yard.strips_shut_days),
    )


def _daylight_in_gate(yard: Yard, day: int) -> tuple[Span, ...]:
    return meet((yard.access.open_on(day),), (yard.sun_spans[day],))


def _longest(spans: tuple[Span, ...]) -> tuple[Span, ...]:
    """Return the spans in order, without those that lie within another."""
    kept: list[Span] = []
    for span in sorted(spans, key=lambda one: (one.start_min, -one.end_min)):
        if not kept or span.end_min > kept[-1].end_min:
            kept.append(span)
    return tuple(kept)


def morning_min(yard: Yard, day: int) -> int:
    """Return when the night before ``day`` is over: at sunrise, or by the clock where it is early.

    In the far north the sun does not set, or is up again before 03:00.
    """
    midnight, sunrise = day * DAY_MIN, yard.sun_spans[day].start_min
    early = sunrise < midnight + SOONEST_MORNING_MIN
    return midnight + NIGHT_OVER_MIN if early else sunrise


def _settled_from(yard: Yard, day: int) -> int:
    """Return the end of the last unsettled stretch that reaches into this day or its night."""
    midnight, morning = day * DAY_MIN, morning_min(yard, day + 1)
    return max(
        (
            span.end_min
            for span in yard.unsettled_spans
            if span.start_min < morning and span.end_min > midnight
        ),
        default=0,
    )
