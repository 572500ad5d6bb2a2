"""A new forecast in a running campaign: the weather of a scenario's folder, read again.

What lies before now stays as it was.  From now on each yard has the hours that its scenario
gives today, typed windows and forecasts together; hours that a line has shut stay shut.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import chain

from runplanner.days import DAY_MIN, Span, join, meet, without
from runplanner.errors import Fault, ScenarioError
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.shut import Shut, Work
from runplanner.outfit.yards import Yard
from runplanner.phrase import phrase, verbatim
from runplanner.scenario.changes.draft import Draft
from runplanner.scenario.faults import said_text

EVER_MIN = 10**9
SURE = 1000


@dataclass(frozen=True, slots=True)
class Fresh:
    """The facts of a scenario as its folder gives them now.

    Args:
        folder: What the folder is called, for people.
        outfit: Its facts.
        skies: A line for each forecast: area, file and reach.
    """

    folder: str
    outfit: Outfit
    skies: tuple[str, ...] = ()


def with_forecast(draft: Draft, fresh: Fresh) -> Draft:
    """Return the draft with the weather read again from now on, and what was taken from it.

    Raises:
        ScenarioError: When the folder is of another campaign.
    """
    _same_campaign(draft, fresh)
    known = {yard.id: yard for yard in fresh.outfit.yards}
    now = max(0, draft.now_min)
    changed, unknown, treated = [], [], []
    for yard in draft.outfit.yards:
        if yard.id not in known:
            unknown.append(yard.name)
            continue
        told = known[yard.id]
        if draft.outfit.strips_at(yard).substance != fresh.outfit.strips_at(told).substance:
            # Days fit for one substance say nothing of another.
            treated.append(yard.name)
            told = replace(told, strips_shut_days=yard.strips_shut_days)
        new = _from_now(yard, told, now, draft.outfit.season.n_days)
        if new != yard:
            changed.append(yard.name)
            draft = draft.with_yard(new)
    for sky in fresh.skies:
        draft = draft.noted(phrase("forecast read: {sky}", sky=sky))
    names = ", ".join(changed) or phrase("none")
    draft = draft.noted(
        phrase("yards with other hours or another doubt from now on: {names}", names=names)
    )
    by_hand = [y.name for y in draft.outfit.yards if any(_by_hand(one, now) for one in y.shut)]
    if by_hand:
        draft = draft.noted(
            phrase("hours shut by hand stay shut: {names}", names=", ".join(by_hand))
        )
    if treated:
        names = ", ".join(treated)
        draft = draft.noted(
            phrase(
                "other strips in {folder} than in the plan, days fit for them as "
                "they were: {names}",
                folder=fresh.folder,
                names=names,
            )
        )
    if unknown:
        draft = draft.noted(
            phrase(
                "not in {folder}, weather as it was: {names}",
                folder=fresh.folder,
                names=", ".join(unknown),
            )
        )
    return draft


def _same_campaign(draft: Draft, fresh: Fresh) -> None:
    """Raise where dates or yards are another campaign's."""
    was, now = draft.outfit.season, fresh.outfit.season
    faults = [
        Fault(
            said_text(fresh.folder), "", key, str(told), verbatim(str(wanted)),
            phrase(
                "Give the folder this plan was made from; other dates want a plan of their own."
            ),
        )
        for key, told, wanted in (
            ("season.first_day", now.first_date, was.first_date),
            ("season's days", now.n_days, was.n_days),
            ("season.zone", now.zone, was.zone),
        )
        if told != wanted
    ]  # fmt: skip
    if not {yard.id for yard in draft.outfit.yards} & {yard.id for yard in fresh.outfit.yards}:
        names = ", ".join(yard.name for yard in fresh.outfit.yards[:3])
        cure = phrase("Give the folder this plan was made from.")
        allowed = phrase("at least one yard of the plan")
        faults.append(Fault(said_text(fresh.folder), "", "yards", said_text(names), allowed, cure))
    if faults:
        raise ScenarioError(tuple(faults))


def _from_now(old: Yard, new: Yard, now: int, n_days: int) -> Yard:
    """Return the yard with its past weather, and the new one from ``now`` on."""
    past, ahead = (Span(-EVER_MIN, now),), (Span(now, EVER_MIN),)

    def spliced(was: tuple[Span, ...], will: tuple[Span, ...]) -> tuple[Span, ...]:
        return join((*meet(was, past), *meet(will, ahead)))

    hands = [one for one in old.shut if _by_hand(one, now)]
    today = now // DAY_MIN
    gone = set(range(today))
    return replace(
        old,
        open_spans=without(spliced(old.open_spans, new.open_spans), _of(hands, Work.OPEN, now)),
        feed_spans=without(spliced(old.feed_spans, new.feed_spans), _of(hands, Work.FEED, now)),
        unsettled_spans=join(
            (
                *spliced(old.unsettled_spans, new.unsettled_spans),
                *_of(hands, Work.SETTLE, now),
            )
        ),
        strips_shut_days=tuple(
            sorted({*old.strips_shut_days} & gone | {*new.strips_shut_days} - gone)
        ),
        shut=_told(old.shut, new.shut, hands, now),
        sure_permille=_sure(old, new, today, n_days),
    )


def _by_hand(one: Shut, now: int) -> bool:
    """Tell whether a line, and neither forecast nor table, shut hours that are not over."""
    return one.by_line and one.end_min > now


def _of(hands: Sequence[Shut], work: Work, now: int) -> tuple[Span, ...]:
    return join(
        tuple(Span(max(now, one.start_min), one.end_min) for one in hands if one.work is work)
    )


def _told(
    was: Sequence[Shut], will: Sequence[Shut], hands: Sequence[Shut], now: int
) -> tuple[Shut, ...]:
    """Return why hours are shut: as it was told up to now, as it is told from now on."""
    gone = (replace(one, end_min=min(one.end_min, now)) for one in was if one not in hands)
    come = (replace(one, start_min=max(one.start_min, now)) for one in will if one not in hands)
    pieces = (one for one in chain(gone, come, hands) if one.start_min < one.end_min)
    return tuple(
        sorted(dict.fromkeys(pieces), key=lambda one: (one.start_min, one.work, one.end_min))
    )


def _sure(old: Yard, new: Yard, today: int, n_days: int) -> tuple[int, ...]:
    """Return how sure each day is; days gone are as they were."""
    if not new.sure_permille:
        return ()
    was = (*old.sure_permille, *([SURE] * n_days))[:today]
    return (*was, *new.sure_permille[today:])
