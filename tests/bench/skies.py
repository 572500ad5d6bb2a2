"""Weather of one district over a campaign: fair days, half days, lost days, unsettled nights."""

import random
from dataclasses import dataclass

from runplanner.days import DAY_MIN, Span
from tests.outfits import daily

FAIR, MORNING, AFTERNOON, LOST = range(4)
OPEN = {
    FAIR: ((540, 1080),),
    MORNING: ((540, 780),),
    AFTERNOON: ((780, 1080),),
    LOST: (),
}
FEED = {
    FAIR: ((420, 1140),),
    MORNING: ((420, 840),),
    AFTERNOON: ((420, 600), (720, 1140)),
    LOST: ((900, 1140),),
}


@dataclass(frozen=True, slots=True)
class Sky:
    """The three weather masks and daylight."""

    opening: tuple[Span, ...]
    feeding: tuple[Span, ...]
    unsettled: tuple[Span, ...]
    sun: tuple[Span, ...]


def sky(rng: random.Random, days: int) -> Sky:
    """Return a district's weather: about one day in four is spoilt in part or whole (guessed)."""
    kinds = rng.choices((FAIR, MORNING, AFTERNOON, LOST), (76, 8, 8, 8), k=days)
    nights = [day for day, kind in enumerate(kinds) if kind != FAIR and rng.random() < 0.4]
    return Sky(
        _spans(kinds, OPEN),
        _spans(kinds, FEED),
        tuple(Span(day * DAY_MIN + 1080, day * DAY_MIN + 1740) for day in nights),
        daily(6 * 60, 20 * 60, range(days + 1)),
    )


def _spans(kinds: list[int], hours: dict[int, tuple[tuple[int, int], ...]]) -> tuple[Span, ...]:
    return tuple(
        Span(day * DAY_MIN + a, day * DAY_MIN + b)
        for day, kind in enumerate(kinds)
        for a, b in hours[kind]
    )
