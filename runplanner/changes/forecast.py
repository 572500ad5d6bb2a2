"""A new forecast in a running campaign: the weather of a scenario's folder, read again.

What lies before now stays as it was.  From now on each yard has the hours that its scenario
gives today, typed windows and forecasts together; hours that a line has shut stay shut.  Of what
the old forecast told and the new one does not reach, the old one is kept: silence is not fair
weather.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from itertools import chain
from typing import Final, Self

from runplanner.changes.draft import Draft
from runplanner.days import DAY_MIN, Span, day_of, join, meet, without
from runplanner.errors import Fault, ScenarioError
from runplanner.haulage.travel import nearest_yard
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.shut import UNTOLD, Cause, Shut, Why, Work
from runplanner.outfit.yards import Yard
from runplanner.phrase import Part, Phrase, phrase, verbatim
from runplanner.scenario.faults import said_text
from runplanner.scenario.forecast.typed import Typed
from runplanner.trade.strips import days_looked
from runplanner.weather.doubt import SURE
from runplanner.weather.hours import AIRLESS_MIN
from runplanner.weather.judge import ShutHour
from runplanner.weather.stretches import by_day, drawn_together, pieces

EVER_MIN = 10**9


@dataclass(frozen=True, slots=True)
class Fresh:
    """The facts of a scenario as its folder gives them now.

    Args:
        folder: What the folder is called, for people.
        outfit: Its facts.
        skies: A line for each forecast: area, file and reach.
        waiting: Forecasts that do not count yet, and why.
        typed: What is typed for each yard, as far as it stands before a forecast, by its id.
    """

    folder: str
    outfit: Outfit
    skies: tuple[str, ...] = ()
    waiting: tuple[Phrase, ...] = ()
    typed: Mapping[str, Typed] = field(default_factory=dict)


def with_forecast(draft: Draft, fresh: Fresh) -> Draft:
    """Return the draft with the weather read again from now on, and what was taken from it.

    Raises:
        ScenarioError: When the folder is of another campaign.
    """
    _same_campaign(draft, fresh)
    now, outfit = max(0, draft.now_min), draft.outfit
    said: dict[str, list[str]] = {}
    found = _again(outfit, fresh.outfit)
    for yard in outfit.yards:
        new, kinds = _read_anew(outfit, yard, found, fresh, now)
        for kind in kinds:
            said.setdefault(kind, []).append(yard.name)
        draft = draft.with_yard(new)
    for sky in fresh.skies:
        draft = draft.noted(phrase("forecast read: {sky}", sky=sky))
    for words in fresh.waiting:
        draft = draft.noted(words)
    for kind, words in _NOTES.items():
        names = ", ".join(said.get(kind, ()))
        if names or kind == "changed":
            parts: dict[str, Part] = {"folder": fresh.folder, "names": names or phrase("none")}
            draft = draft.noted(Phrase(words.one, parts))
    return draft


def _again(outfit: Outfit, fresh: Outfit) -> dict[str, Yard]:
    """Return the yards of the folder, each by the id it has in the plan.

    They are known by their names, else by their ids: ids made of names may be others than those
    of a plan made before.
    """
    names = {yard.name.casefold(): yard for yard in fresh.yards}
    found = {
        yard.id: names[yard.name.casefold()]
        for yard in outfit.yards if yard.name.casefold() in names
    }  # fmt: skip
    known = {yard.id for yard in found.values()}
    left = {yard.id: yard for yard in fresh.yards if yard.id not in known}
    return left | found


def _read_anew(
    outfit: Outfit, yard: Yard, found: Mapping[str, Yard], fresh: Fresh, now: int
) -> tuple[Yard, list[str]]:
    """Return the yard with its weather told anew, and the notes it is to be named in.

    One that is not among those ``found`` in the folder, as a yard that came with a line, has the
    weather of the nearest that is and clears boxes the same way: hours hang on that as well.
    """
    kinds = ["by hand"] if any(_by_hand(one, now) for one in yard.shut) else []
    model = yard
    if yard.id not in found:
        known = [one for one in outfit.yards if one.id in found and one.clearing is yard.clearing]
        kinds.append("nearest" if known else "unknown")
        if not known:
            return yard, kinds
        here = outfit.places[yard.sites[-1][1]]
        model = nearest_yard(outfit, (here.lat, here.lon), known)
    told = found[model.id]
    if outfit.strips_at(yard).substance != fresh.outfit.strips_at(told).substance:
        # Days fit for one substance say nothing of another.
        kinds.append("treated")
        told = replace(told, strips_shut_days=yard.strips_shut_days)
    old = _Old.of(outfit, yard, told, now, fresh.typed.get(told.id, Typed()))
    if not meet(told.forecast_spans, _ahead(now)) and (told.forecast_spans or old.silent):
        kinds.append("ended")
    elif old.shut or old.strips:
        kinds.append("kept")
    new = _from_now(old, told)
    if _by_day(new) == _by_day(yard):
        return yard, kinds
    return new, [*kinds, "changed"]


def _by_day(yard: Yard) -> Yard:
    """Return a yard without its hours for work in the dark, when nobody works."""
    return replace(
        yard,
        open_spans=meet(yard.open_spans, yard.sun_spans),
        feed_spans=meet(yard.feed_spans, yard.sun_spans),
    )


_NOTES: Final = {
    "ended": phrase(
        "no forecast in {folder} speaks of the time from now on; what was told of it before "
        "stands: {names}"
    ),
    "kept": phrase(
        "hours that the new forecast does not reach stay shut as was told before: {names}"
    ),
    "changed": phrase("yards with other hours or another doubt from now on: {names}"),
    "by hand": phrase("hours shut by hand stay shut: {names}"),
    "treated": phrase(
        "other strips in {folder} than in the plan, days fit for them as they were: {names}"
    ),
    "nearest": phrase("not in {folder}, weather as at the nearest yard that is: {names}"),
    "unknown": phrase("not in {folder}, weather as it was: {names}"),
}
"""What is said of yards, by why, in this order."""


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
    found = _again(draft.outfit, fresh.outfit)
    if not any(yard.id in found for yard in draft.outfit.yards):
        names = ", ".join(yard.name for yard in fresh.outfit.yards[:3])
        cure = phrase("Give the folder this plan was made from.")
        allowed = phrase("at least one yard of the plan")
        faults.append(Fault(said_text(fresh.folder), "", "yards", said_text(names), allowed, cure))
    if faults:
        raise ScenarioError(tuple(faults))


@dataclass(frozen=True, slots=True)
class _Old:
    """What a yard keeps of its weather.

    Args:
        yard: The yard as it was.
        now: From when on the new weather counts.
        silent: What the old forecast told of the time to come, and the new one does not reach.
        shut: Hours in ``silent`` that the old forecast shut, or judged by hours in it.
        strips: Days shut for strips, likewise.
        typed: What is typed for the yard today.
    """

    yard: Yard
    now: int
    silent: tuple[Span, ...]
    shut: tuple[Shut, ...]
    strips: tuple[int, ...]
    typed: Typed

    @classmethod
    def of(cls, outfit: Outfit, yard: Yard, told: Yard, now: int, typed: Typed) -> Self:
        """Return what ``yard`` keeps where its weather is ``told`` anew."""
        silent = without(meet(yard.forecast_spans, _ahead(now)), told.forecast_spans)
        by_hand = (_days(day, 1) for day, _ in typed.air)
        leant_on = without(silent, (*by_hand, *_short_wait(told.forecast_spans, now)))
        days = days_looked(outfit.strips_at(yard).out_after_days)
        strips = (day for day in yard.strips_shut_days if meet((_days(day, days),), leant_on))
        shut = chain.from_iterable(
            _days_kept(one, leant_on, now, typed) if _days_judged(one)
            else _hours_kept(one, silent, typed)
            for one in yard.shut if one.whys and not one.by_line
        )  # fmt: skip
        return cls(yard, now, silent, tuple(shut), tuple(strips), typed)

    def hands(self) -> tuple[Shut, ...]:
        """Return what a line, and neither forecast nor table, shut and is not over."""
        return tuple(one for one in self.yard.shut if _by_hand(one, self.now))

    def without_shut(self, spans: tuple[Span, ...], work: Work) -> tuple[Span, ...]:
        """Return ``spans`` without what stays shut for ``work``."""
        return without(spans, self.shut_for(work))

    def fair(self, new: Yard, work: Work) -> tuple[Span, ...]:
        """Return hours that ``new`` shuts for want of a forecast alone, and the old one told fair.

        With ``beyond = "shut"`` that is what the new one does not reach; for warm boards always.
        """
        mine = [one for one in new.shut if one.work is work]
        unreached = _spans(one for one in mine if one.whys in _UNREACHED)
        others = _spans(one for one in mine if one.whys not in _UNREACHED)
        return without(meet(unreached, self.told_fit(work)), others)

    def told_fit(self, work: Work) -> tuple[Span, ...]:
        """Return hours of which the old forecast alone tells, and tells as fit for ``work``."""
        return meet(self.silent, _fit(self.yard, work))

    def shut_for(self, work: Work) -> tuple[Span, ...]:
        """Return what stays shut for ``work``."""
        return join(
            tuple(
                Span(max(self.now, one.start_min), one.end_min)
                for one in (*self.hands(), *self.shut) if one.work is work
            )
        )  # fmt: skip


_UNREACHED: Final = (UNTOLD, (Why(Cause.MISSING, None),))
"""Why hours are shut of which no forecast speaks, or none that tells how warm they are."""


def _fit(yard: Yard, work: Work) -> tuple[Span, ...]:
    """Return the hours in which the weather is fit for ``work``."""
    if work is Work.SETTLE:
        return without((Span(0, EVER_MIN),), yard.unsettled_spans)
    return yard.open_spans if work is Work.OPEN else yard.feed_spans


def _spans(hours: Iterable[Shut]) -> tuple[Span, ...]:
    return join(tuple(Span(one.start_min, one.end_min) for one in hours))


def _ahead(now: int) -> tuple[Span, ...]:
    return (Span(now, EVER_MIN),)


def _days(first: int, number: int) -> Span:
    return Span(first * DAY_MIN, (first + number) * DAY_MIN)


def _short_wait(told: tuple[Span, ...], now: int) -> tuple[Span, ...]:
    """Return the time until a new forecast begins where it is too short to tell of a day's air."""
    begins = min((span.start_min for span in meet(told, _ahead(now))), default=now)
    return (Span(now, begins),) if now < begins <= now + AIRLESS_MIN else ()


def _days_judged(one: Shut) -> int:
    """Return by how many days a day was judged, as for syrup; 0 of what was judged by the hour."""
    return max(why.over_min for why in one.whys) // DAY_MIN


def _days_kept(one: Shut, leant_on: tuple[Span, ...], now: int, typed: Typed) -> Iterator[Shut]:
    """Yield what stays of a day that an old forecast shut, by it and by the days after it."""
    if not meet((_days(day_of(one.start_min), _days_judged(one)),), leant_on):
        return
    stay = without(_ahead(now), typed.lifts(one.work))
    for span in meet((Span(one.start_min, one.end_min),), stay):
        yield replace(one, start_min=span.start_min, end_min=span.end_min)


def _hours_kept(one: Shut, silent: tuple[Span, ...], typed: Typed) -> Iterator[Shut]:
    """Yield what of hours that an old forecast shut lies where the new one is silent."""
    hour = ShutHour((), one.work, one.start_min, one.end_min, one.whys)
    days = (
        day for piece in pieces(hour, meet((Span(one.start_min, one.end_min),), silent))
        for day in by_day(piece)
    )  # fmt: skip
    for left in drawn_together(left for day in days for left in typed.left(day)):
        yield replace(one, start_min=left.start_min, end_min=left.end_min, whys=left.whys)


def _from_now(old: _Old, new: Yard) -> Yard:
    """Return the yard with its past weather and what it keeps, and the new one from now on."""
    yard, now, past, today = old.yard, old.now, (Span(-EVER_MIN, old.now),), day_of(old.now)

    def spliced(was: tuple[Span, ...], will: tuple[Span, ...]) -> tuple[Span, ...]:
        return join((*meet(was, past), *meet(will, _ahead(now))))

    gone = tuple(day for day in yard.strips_shut_days if day < today)
    come = tuple(day for day in new.strips_shut_days if day >= today)
    kept = tuple(day for day in old.strips if day >= today)
    told = spliced(yard.forecast_spans, new.forecast_spans)
    fair = {work: old.fair(new, work) for work in Work}
    opened = join((*new.open_spans, *fair[Work.OPEN]))
    fed = join((*new.feed_spans, *fair[Work.FEED]))
    unsettled = without(new.unsettled_spans, fair[Work.SETTLE])
    return replace(
        yard,
        open_spans=old.without_shut(spliced(yard.open_spans, opened), Work.OPEN),
        feed_spans=old.without_shut(spliced(yard.feed_spans, fed), Work.FEED),
        unsettled_spans=join(
            (*spliced(yard.unsettled_spans, unsettled), *old.shut_for(Work.SETTLE))
        ),
        strips_shut_days=tuple(sorted({*gone, *come, *kept})),
        high_only=(
            *(day for day in yard.high_only if day < today),
            *(day for day in new.high_only if day >= today),
        ),
        shut=_told(old, new),
        sure_permille=_sure(old, new),
        forecast_spans=join((*told, *old.silent)),
    )


def _by_hand(one: Shut, now: int) -> bool:
    """Tell whether a line, and neither forecast nor table, shut hours that are not over."""
    return one.by_line and one.end_min > now


def _told(old: _Old, new: Yard) -> tuple[Shut, ...]:
    """Return why hours are shut: as it was told up to now, as it is told from now on."""
    now, hands = old.now, old.hands()
    known = {work: (*old.told_fit(work), *old.shut_for(work)) for work in Work}
    gone = (replace(one, end_min=min(one.end_min, now))
            for one in old.yard.shut if one not in hands)  # fmt: skip
    come = (
        replace(one, start_min=max(span.start_min, now), end_min=span.end_min)
        for one in new.shut if one not in hands
        for span in without(
            (Span(one.start_min, one.end_min),), known[one.work] if one.whys in _UNREACHED else ()
        )
    )  # fmt: skip
    pieces = (one for one in chain(gone, come, hands, old.shut) if one.start_min < one.end_min)
    return tuple(
        sorted(dict.fromkeys(pieces), key=lambda one: (one.start_min, one.work, one.end_min))
    )


def _sure(old: _Old, new: Yard) -> tuple[int, ...]:
    """Return how sure each day is: as told now, else as told before; days gone as they were."""
    was, will = old.yard.sure_permille, new.sure_permille
    if not will and not old.silent:
        return ()
    n_days = max(len(was), len(will))
    was, will = was or (SURE,) * n_days, will or was

    def of(day: int) -> int:
        if day >= day_of(old.now) and day in old.typed.opened:
            return SURE
        kept = meet((_days(day, 1),), old.silent) and not new.foretold(day)
        return was[day] if day < day_of(old.now) or kept else will[day]

    return tuple(of(day) for day in range(n_days))
