"""Safety: what a plan keeps in hand, put into the facts so that planner and audit both see it."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from statistics import NormalDist

from runplanner.errors import Fault, ScenarioError
from runplanner.outfit.outfit import Deadline, InHand, Outfit
from runplanner.outfit.yards import Yard
from runplanner.phrase import Number, Phrase, counted, phrase


@dataclass(frozen=True, slots=True)
class Safety:
    """What is kept in hand.

    Args:
        load_permille: A full box counts as heavy as so many of them at most are, by the
            yard's own spread (normal); 500 counts the guess itself.
        slack_min: Minutes by which a truck is planned to be home before it must.
        spare_days: Days by which work is planned to be done before it must.  A deadline that
            is only priced stays as it was typed, as does its price.
    """

    load_permille: int = 500
    slack_min: int = 0
    spare_days: int = 0

    def words(self) -> Phrase:
        """Return the setting in few words, such as "load 90 %, slack 30 min, spare 1 d"."""
        return phrase(
            "load {share} %, slack {minutes} min, spare {days} d",
            share=Number(f"{self.load_permille / 10:g}"),
            minutes=self.slack_min,
            days=self.spare_days,
        )


def box_g_at(yard: Yard, load_permille: int) -> int:
    """Return the mass that a full box of the yard is not above with this chance, rounded up."""
    z = NormalDist().inv_cdf(load_permille / 1000)
    # A thousandth of a gram forgives the last digit, which machines may not share.
    return -(-round(1000 * yard.box_g * (1 + z * yard.box_spread_permille / 1000)) // 1000)


def safe(outfit: Outfit, safety: Safety) -> Outfit:
    """Return facts that keep nothing in hand yet, with ``safety`` kept in hand."""
    if safety == Safety():
        return outfit
    hours, season, spare = outfit.hours, outfit.season, safety.spare_days
    heavy = (box_g_at(yard, safety.load_permille) - yard.box_g for yard in outfit.yards)
    room = (yard.finish_by_day - yard.ready_from_day for yard in outfit.yards)
    kept = InHand(
        box_g=tuple(max(0, grams) for grams in heavy),
        finish_days=tuple(max(0, min(days, spare)) for days in room),
        end_min=max(0, min(hours.end_min - hours.start_min, safety.slack_min)),
        take_off_days=_room(season.take_off_by, spare),
        strips_days=_room(season.strips_by, spare),
        feed_days=_room(season.feed_by, spare),
    )
    return replace(_moved(outfit, kept, 1), in_hand=kept)


def _room(deadline: Deadline, spare: int) -> int:
    return min(deadline.day, spare) if deadline.hard else 0


def plain(outfit: Outfit) -> Outfit:
    """Return the facts as they were typed: what they keep in hand is given back, masses too.

    Raises:
        ScenarioError: When what is kept in hand does not belong to these yards.
    """
    kept, n = outfit.in_hand, len(outfit.yards)
    if kept is not None and (len(kept.box_g), len(kept.finish_days)) != (n, n):
        said = phrase(
            "{box_g} and {finish_days} figures",
            box_g=len(kept.box_g),
            finish_days=len(kept.finish_days),
        )
        cure = phrase("Use a plan file as written, or plan again.")
        raise ScenarioError(
            (Fault("plan.json", "outfit.in_hand", "", said, phrase("{n} each", n=n), cure),)
        )
    return outfit if kept is None else replace(_moved(outfit, kept, -1), in_hand=None)


def _moved(outfit: Outfit, kept: InHand, sign: int) -> Outfit:
    """Return facts tightened by ``kept`` (``sign`` 1), or loosened by it (-1)."""
    hours, season = outfit.hours, outfit.season
    yards = tuple(
        replace(
            yard,
            box_g=yard.box_g + sign * grams,
            finish_by_day=yard.finish_by_day - sign * days,
        )
        for yard, grams, days in zip(outfit.yards, kept.box_g, kept.finish_days, strict=True)
    )
    return replace(
        outfit,
        yards=yards,
        hours=replace(hours, end_min=hours.end_min - sign * kept.end_min),
        season=replace(
            season,
            take_off_by=_sooner(season.take_off_by, sign * kept.take_off_days),
            strips_by=_sooner(season.strips_by, sign * kept.strips_days),
            feed_by=_sooner(season.feed_by, sign * kept.feed_days),
        ),
    )


def _sooner(deadline: Deadline, days: int) -> Deadline:
    return replace(deadline, day=deadline.day - days)


def eased(outfit: Outfit) -> Outfit:
    """Return facts of a campaign that runs: minutes and days kept in hand are there to be used.

    Raises:
        ScenarioError: When what is kept in hand does not belong to these yards.
    """
    kept = outfit.in_hand
    if kept is None or not (kept.end_min or any(_days(kept))):
        return outfit
    return given_back(plain(outfit), outfit)


def eased_as_typed(outfit: Outfit, ease: Callable[[Outfit], Outfit]) -> Outfit:
    """Return facts eased as if they had been typed so, with as much kept in hand as before.

    ``ease`` keeps the yards it is given.

    Raises:
        ScenarioError: When what is kept in hand does not belong to these yards.
    """
    kept = outfit.in_hand
    if kept is None:
        return ease(outfit)
    return replace(_moved(ease(plain(outfit)), kept, 1), in_hand=kept)


def _days(kept: InHand) -> tuple[int, ...]:
    return (kept.take_off_days, kept.strips_days, kept.feed_days, *kept.finish_days)


def eased_words(kept: InHand | None) -> Phrase | None:
    """Return what :func:`eased` gives back, such as "30 min of each evening and 1 day"."""
    if kept is None:
        return None
    days = max(_days(kept))
    evenings = phrase("{minutes} min of each evening", minutes=kept.end_min)
    ends = counted("{number} day of last days", "{number} days of last days", days)
    if kept.end_min and days:
        return phrase("{first} and {last}", first=evenings, last=ends)
    return evenings if kept.end_min else ends if days else None


def typed_box_g(outfit: Outfit, yard_id: str) -> int:
    """Return the mass of a full box as it was guessed, what is kept in hand taken off."""
    index = next(i for i, yard in enumerate(outfit.yards) if yard.id == yard_id)
    kept = outfit.in_hand
    more = kept.box_g[index] if kept is not None and index < len(kept.box_g) else 0
    return outfit.yards[index].box_g - more


def heavier_g(outfit: Outfit, yard: Yard) -> int:
    """Return what a full box one spread heavier than guessed weighs beyond what it counts."""
    heavy = typed_box_g(outfit, yard.id) * (1000 + yard.box_spread_permille)
    return max(0, -(-heavy // 1000) - yard.box_g)


def with_yard_like(outfit: Outfit, yard: Yard, model: Yard) -> Outfit:
    """Return the outfit with one yard more, as much kept in hand there as at ``model``."""
    kept, index = outfit.in_hand, outfit.yards.index(model)
    if kept is not None and index < len(kept.box_g) == len(kept.finish_days):
        kept = replace(
            kept,
            box_g=(*kept.box_g, kept.box_g[index]),
            finish_days=(*kept.finish_days, kept.finish_days[index]),
        )
    return replace(outfit, yards=(*outfit.yards, yard), in_hand=kept)


def given_back(typed: Outfit, kept: Outfit) -> Outfit:
    """Return ``typed`` facts, which keep nothing in hand, with the heavier boxes of ``kept`` ones.

    Slack and spare days are there to be used once the campaign runs; a box's mass is still
    not known.
    """
    if kept.in_hand is None:
        return typed
    heavy = replace(
        kept.in_hand, finish_days=tuple(0 for _ in kept.yards), end_min=0,
        take_off_days=0, strips_days=0, feed_days=0,
    )  # fmt: skip
    return replace(_moved(typed, heavy, 1), in_hand=heavy)
