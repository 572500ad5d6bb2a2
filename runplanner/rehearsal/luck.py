"""Luck: how far boxes, masses, minutes, weather and trucks may be off, drawn from a seed.

All of a play's luck is drawn at once and in one order, whatever the plan does: two plans, or
two settings, rehearsed with one seed meet the same weather and the same honey.
"""

from dataclasses import dataclass, replace

from runplanner.changes.shut import shut_hours
from runplanner.days import whole_day
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard


@dataclass(frozen=True, slots=True)
class Luck:
    """How far things may be off.

    Args:
        boxes_permille: Spread of the guessed number of full boxes in a yard (one standard
            deviation).  A guess, common practice; no source.
        mass_permille: Scale of each yard's own ``box_spread_permille``: 1000 takes it as it is.
        work_permille: Spread of the minutes a stop takes.  A guess, no source.
        shut_permille: Chance that a fair day is shut after all, in an area of which no
            forecast was read; where one was, its own doubt of the day counts, whatever this
            is.  A guess, no source.
        truck_permille: Chance of a truck not starting, each day.  A guess, no source.
    """

    boxes_permille: int = 100
    mass_permille: int = 1000
    work_permille: int = 150
    shut_permille: int = 100
    truck_permille: int = 10


USUAL = Luck()
NO_LUCK = Luck(0, 0, 0, 0, 0)


@dataclass(frozen=True, slots=True)
class Fate:
    """What will be.

    Args:
        boxes: Full boxes, by yard.
        box_g: True mass of a box, by yard.
        work_permille: Minutes of a stop against those on paper, by day and yard.
        shut: Whether the fair hours of a day are shut, by day and yard.
        out: Whether a truck does not start, by day and truck.
    """

    boxes: tuple[int, ...]
    box_g: tuple[int, ...]
    work_permille: tuple[tuple[int, ...], ...]
    shut: tuple[tuple[bool, ...], ...]
    out: tuple[tuple[bool, ...], ...]


def drawn(outfit: Outfit, luck: Luck, seed: int, play: int) -> Fate:
    """Return the fate of one play: a stream of its own, from the seed and its number."""
    import numpy as np

    dice = np.random.default_rng(np.random.SeedSequence([seed, play]))
    yards, days = outfit.yards, outfit.season.n_days
    more = [float(z) for z in dice.standard_normal(len(yards))]
    heavier = [float(z) for z in dice.standard_normal(len(yards))]
    slower = dice.standard_normal((days, len(yards)))
    areas = list(dict.fromkeys(yard.district for yard in yards))
    turns = dice.random((days, len(areas)))
    breaks = dice.random((days, len(outfit.trucks)))
    return Fate(
        tuple(
            max(0, round(yard.boxes * (1 + luck.boxes_permille / 1000 * z)))
            for yard, z in zip(yards, more, strict=True)
        ),
        tuple(_mass(outfit, yard, luck, z) for yard, z in zip(yards, heavier, strict=True)),
        tuple(tuple(_factor(luck, float(z)) for z in row) for row in slower),
        tuple(
            tuple(
                float(turns[day][areas.index(yard.district)]) * 1000 < _doubt(yard, day, luck)
                for yard in yards
            )
            for day in range(days)
        ),
        tuple(tuple(float(u) * 1000 < luck.truck_permille for u in row) for row in breaks),
    )


def _mass(outfit: Outfit, yard: Yard, luck: Luck, z: float) -> int:
    """Return the true mass of a box; no less than the empty box."""
    spread = yard.box_spread_permille * luck.mass_permille / 1_000_000
    return max(outfit.box(yard.box).empty_g, round(yard.box_g * (1 + spread * z)))


def _factor(luck: Luck, z: float) -> int:
    """Return minutes against paper, per mille: lognormal with mean 1, so never below nought.

    A lognormal of mean 1 and coefficient of variation c has sigma^2 = ln(1 + c^2)
    (Aitchison and Brown, The Lognormal Distribution, 1957; from memory).
    """
    import math

    sigma2 = math.log1p((luck.work_permille / 1000) ** 2)
    return round(1000 * math.exp(math.sqrt(sigma2) * z - sigma2 / 2))


def _doubt(yard: Yard, day: int, luck: Luck) -> int:
    return yard.doubt_permille(day) if yard.sure_permille else luck.shut_permille


def known_on(outfit: Outfit, fate: Fate, day: int) -> Outfit:
    """Return the facts as the morning of ``day`` makes them: its weather, and which trucks start.

    Only what changes anything changes.
    """
    yards = tuple(
        shut_hours(yard, (whole_day(day),)) if shut else yard
        for yard, shut in zip(outfit.yards, fate.shut[day], strict=True)
    )
    trucks = tuple(
        replace(truck, out_days=tuple(sorted({*truck.out_days, day}))) if out else truck
        for truck, out in zip(outfit.trucks, fate.out[day], strict=True)
    )
    return replace(outfit, yards=yards, trucks=trucks)


def as_it_was(outfit: Outfit, fate: Fate) -> Outfit:
    """Return the facts as somebody who knew the future would have typed them."""
    for day in range(outfit.season.n_days):
        outfit = known_on(outfit, fate, day)
    yards = tuple(
        replace(yard, boxes=boxes, box_g=box_g, sure_permille=())
        for yard, boxes, box_g in zip(outfit.yards, fate.boxes, fate.box_g, strict=True)
    )
    return replace(outfit, yards=yards)
