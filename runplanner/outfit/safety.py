"""Safety: what a plan keeps in hand, put into the facts so that planner and audit both see it."""

from dataclasses import dataclass, replace
from statistics import NormalDist

from runplanner.outfit.outfit import Deadline, Outfit
from runplanner.outfit.yards import Yard


@dataclass(frozen=True, slots=True)
class Safety:
    """What is kept in hand.

    Args:
        load_permille: A full box counts as heavy as so many of them at most are, by the
            yard's own spread (normal); 500 counts the guess itself.
        slack_min: Minutes by which a truck is planned to be home before it must.
        spare_days: Days by which work is planned to be done before it must.
    """

    load_permille: int = 500
    slack_min: int = 0
    spare_days: int = 0

    def words(self) -> str:
        """Return the setting in few words, such as "load 90 %, slack 30 min, 1 day spare"."""
        share = f"{self.load_permille / 10:g} %"
        return f"load {share}, slack {self.slack_min} min, spare {self.spare_days} d"


def box_g_at(yard: Yard, load_permille: int) -> int:
    """Return the mass that a full box of the yard is not above with this chance, rounded up."""
    z = NormalDist().inv_cdf(load_permille / 1000)
    # A thousandth of a gram forgives the last digit, which machines may not share.
    return -(-round(1000 * yard.box_g * (1 + z * yard.box_spread_permille / 1000)) // 1000)


def safe(outfit: Outfit, safety: Safety) -> Outfit:
    """Return the facts with ``safety`` kept in hand."""
    hours, season, spare = outfit.hours, outfit.season, safety.spare_days
    yards = tuple(
        replace(
            yard,
            box_g=max(yard.box_g, box_g_at(yard, safety.load_permille)),
            finish_by_day=max(yard.ready_from_day, yard.finish_by_day - spare),
        )
        for yard in outfit.yards
    )
    return replace(
        outfit,
        yards=yards,
        hours=replace(hours, end_min=max(hours.start_min, hours.end_min - safety.slack_min)),
        season=replace(
            season,
            take_off_by=_sooner(season.take_off_by, spare),
            strips_by=_sooner(season.strips_by, spare),
            feed_by=_sooner(season.feed_by, spare),
        ),
    )


def _sooner(deadline: Deadline, days: int) -> Deadline:
    return replace(deadline, day=max(0, deadline.day - days))


def given_back(plain: Outfit, kept: Outfit) -> Outfit:
    """Return ``plain`` facts with the heavier boxes of ``kept`` ones.

    Slack and spare days are there to be used once the campaign runs; a box's mass is still
    not known.
    """
    heavy = {yard.id: yard.box_g for yard in kept.yards}
    return replace(plain, yards=tuple(replace(y, box_g=heavy[y.id]) for y in plain.yards))
