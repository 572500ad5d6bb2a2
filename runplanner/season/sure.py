"""What certainly stands in the way of a yard's job, by sums alone.

Each reason here holds for every plan, or for every plan that leaves other yards what they
have; nothing is tried.
"""

from collections.abc import Iterator
from datetime import date

from runplanner.daybook.riding import strips_of
from runplanner.daybook.trip import Job
from runplanner.days import DAY_MIN, date_of, day_of
from runplanner.haulage.reach import out_of_reach
from runplanner.outfit.yards import Yard
from runplanner.phrase import Number, Phrase, counted, phrase
from runplanner.season.job_hours import JobHours
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.season.standing.stores import strips_used
from runplanner.season.stock import sugar_short_g, syrup, syrup_short_ml
from runplanner.trade.feeding import sugar_for_g
from runplanner.trade.strips import in_words

Why = tuple[Phrase, Job | None]
"""A reason, and the job whose shut hours tell more of it; None where none do."""

_WORK = {
    Job.TAKE_OFF: phrase("taking honey off"),
    Job.FEED: phrase("pouring syrup"),
    Job.STRIPS: phrase("strips"),
}


def surely(keeper: Keeper, state: State, yard: int, job: Job) -> tuple[Why, ...]:
    """Return every certain reason why ``job`` of ``yard`` is left; most have none."""
    return _Sure(keeper, state, yard).reasons(job)


def out_of_stock(keeper: Keeper, state: State, yard: int, job: Job) -> bool:
    """Tell whether syrup, sugar or strips are short of what ``job`` of ``yard`` wants.

    Then no more hands, trucks or hours bring it, whatever else stands in its way.
    """
    sure = _Sure(keeper, state, yard)
    return any(sure.stock()) if job is Job.FEED else job is Job.STRIPS and any(sure.strip_stock())


def never_fed_g(keeper: Keeper, state: State, yard: int) -> int | None:
    """Return the stores that certainly cannot be fed in time, where some of what is left still can.

    None where nothing certain stands in the way of feed, or where it holds for all that is left.
    """
    return _Sure(keeper, state, yard).never_fed_g()


class _Sure:
    """One yard of a season."""

    def __init__(self, keeper: Keeper, state: State, index: int) -> None:
        self._keeper, self._state, self._index = keeper, state, index
        self._ground = keeper.ground
        self._outfit = keeper.ground.outfit
        self._mixed_ml = sum(one.ml for one in keeper.standing.base.mixing)
        self._yard: Yard = self._outfit.yards[index]
        self._due, self._hours = self._ground.dues[index], JobHours(self._ground, index)
        self._facts = [visit for visit in state.visits[index] if visit.fact]
        self._off = sum(visit.stop.off for visit in self._facts) >= self._yard.colonies

    def reasons(self, job: Job) -> tuple[Why, ...]:
        """Return what certainly stands in the way of a job."""
        never = self._never_begun()
        if never is not None:
            return (never,)
        if job is Job.FEED:
            return tuple(self._feed())
        return tuple(self._strips()) if job is Job.STRIPS else ()

    def _never_begun(self) -> Why | None:
        """Return what stands in the way of every job: no way there, or honey that stays on."""
        why = out_of_reach(self._outfit, self._yard)
        if why is not None:
            return why, None
        return self._no_hour(Job.TAKE_OFF) if self._due.take_off and not self._off else None

    # Hours

    def _no_hour(self, job: Job) -> Why | None:
        """Return that no hour is left for a job, and what shuts them all."""
        days, work = self._hours.days(job), _WORK[job]
        if not days:
            last = self._date(days.stop - 1)
            return phrase("no day is left for {work}: {day} is the last", work=work, day=last), None
        if self._hours.spans(job):
            return None
        when = self._dates(days)
        if not self._hours.let_in(job):
            return phrase("the gate is never open in daylight {days}", days=when), None
        if job is Job.STRIPS and set(days) <= set(self._yard.strips_shut_days):
            kind = self._outfit.strips_at(self._yard).substance
            return phrase(
                "no day is fit for strips of {kind} {days}", kind=in_words(kind), days=when
            ), None
        gate = self._yard.access
        if (gate.opens_min, gate.closes_min) != (0, DAY_MIN):
            told = phrase(
                "the weather leaves no hour fit for {work} while the gate is open {days}",
                work=work,
                days=when,
            )
            return told, job
        return phrase("the weather leaves no hour fit for {work} {days}", work=work, days=when), job

    # Feed

    def _feed(self) -> Iterator[Why]:
        never = self._no_hour(Job.FEED)
        if never is not None:
            yield never
            return
        late, slow = self._rounds(), self._slow_mixing()
        if late is not None:
            yield late
        if self.never_fed_g() is not None:
            yield (
                counted(
                    "one of them can still come: what follows is about that one",
                    "{number} of them can still come: what follows is about those",
                    self._coming()[1],
                ),
                None,
            )
        yield from ((why, None) for why in self.stock())
        if slow is not None and late is None:
            yield slow, None

    def never_fed_g(self) -> int | None:
        """Return the grams that no plan can feed, where the plan leaves more and stocks do."""
        if self._never_begun() or self._no_hour(Job.FEED) or not self._rounds():
            return None
        if any(self.stock()):
            return None
        first, coming, _ = self._coming()
        never_g = self._yard.colonies * self._due.lacks_g[first + coming - 1]
        return never_g if self._state.progress[self._index].unfed_g > never_g else None

    def _rounds(self) -> Why | None:
        """Return that the rounds still due cannot all come in time, however soon they begin."""
        first, coming, begun = self._coming()
        still = self._due.rounds - first + 1
        last = day_of(self._hours.spans(Job.FEED)[-1].start_min)
        return self._too_late(still, begun, last) if coming < still else None

    def _coming(self) -> tuple[int, int, int]:
        """Return the first round still due, how many can come in time, and how soon they begin."""
        first, now = self._first_round()
        begun, coming = now, 0
        for _ in range(first, self._due.rounds + 1):
            at = next((span for span in self._hours.spans(Job.FEED) if span.end_min > now), None)
            if at is None:
                break
            start = max(at.start_min, now)
            begun, now = begun if coming else start, start + self._due.round_gap_min
            coming += 1
        return first, coming, begun

    def _too_late(self, number: int, begun: int, last: int) -> Why:
        told = counted(
            "the feed round still due cannot come before {first}, and {last} is the last day fit "
            "for feed",
            "{number} feed rounds are due, {gap} days apart, the first of them not before {first}: "
            "they run past {last}, the last day fit for feed",
            number,
            gap=Number(f"{self._due.round_gap_min / DAY_MIN:.1f}"),
            first=self._date(day_of(begun)),
            last=self._date(last),
        )
        return told, Job.FEED if last < self._hours.days(Job.FEED)[-1] else None

    def _first_round(self) -> tuple[int, int]:
        """Return the first round not wholly driven, and the minute before which it cannot be.

        Colonies are fed in the order of the round before, so somebody waits for its last visit.
        """
        number, begun = 1, self._honey_off()
        while number <= self._due.rounds:
            mine = [visit for visit in self._facts if visit.stop.round == number]
            if sum(visit.stop.fed for visit in mine) < self._yard.colonies:
                break
            begun = max(visit.start_min for visit in mine) + self._due.round_gap_min
            number += 1
        return number, max(begun, self._hours.from_min)

    def _honey_off(self) -> int:
        """Return the minute before which the last honey cannot come off."""
        if not self._due.take_off:
            return 0
        if self._off:
            return max((v.start_min for v in self._facts if v.stop.off), default=0)
        return self._hours.spans(Job.TAKE_OFF)[0].start_min

    def stock(self) -> Iterator[Phrase]:
        """Yield that syrup or sugar does not do for this yard beside what others get."""
        feed, sums = self._outfit.feed, syrup(self._keeper, self._state)
        here = sums.lacking[self._index]
        wanted = sums.loaded + here
        if syrup_short_ml(feed, wanted):
            yield phrase(
                "{ready} L of syrup are delivered and {due} L are due in all: {left} L are left "
                "over, and {here} L are wanted here",
                ready=feed.ready_ml // 1000, due=_up(sums.due),
                left=max(0, feed.ready_ml - sums.loaded) // 1000, here=_up(here),
            )  # fmt: skip
        short = sugar_short_g(feed, wanted)
        if short:
            gone_g = sugar_for_g(self._mixed_ml, feed)
            due_g = sugar_for_g(max(0, sums.due - feed.ready_ml), feed)
            yield phrase(
                "{stock} kg of sugar are in stock and {due} kg are still needed in all: {short} kg "
                "are short for what is left here, even with all that others leave over",
                stock=max(0, (feed.sugar_g or 0) - gone_g) // 1000,
                due=_up(max(0, due_g - gone_g)), short=_up(short),
            )  # fmt: skip

    def _slow_mixing(self) -> Phrase | None:
        """Return that too little can be mixed for this yard beside what others get."""
        feed, sums = self._outfit.feed, syrup(self._keeper, self._state)
        last = day_of(self._hours.spans(Job.FEED)[-1].start_min)
        most, here = feed.ready_ml + self._mixed_before(last), sums.lacking[self._index]
        if feed.bought or sums.loaded + here <= most:
            return None
        return phrase(
            "{most} L of syrup at most stand ready or can be mixed before {last}, the last day "
            "fit for feed, at {a_day} L a day: {used} L are in use, and {here} L more are "
            "wanted here",
            most=most // 1000, last=self._date(last), a_day=feed.mix_ml_per_day // 1000,
            used=_up(sums.loaded), here=_up(here),
        )  # fmt: skip

    def _mixed_before(self, day: int) -> int:
        """Return the most syrup that can be mixed before ``day``, with what was mixed by now.

        Mixing may begin the day before the campaign, and what is loaded on a day was mixed on
        an earlier one.
        """
        days = day - day_of(self._ground.earliest_min)
        return self._mixed_ml + self._outfit.feed.mix_ml_per_day * days

    # Strips

    def _strips(self) -> Iterator[Why]:
        never = self._no_hour(Job.STRIPS)
        if never is not None:
            yield never
        yield from ((why, None) for why in self.strip_stock())

    def strip_stock(self) -> Iterator[Phrase]:
        """Yield that strips do not do for this yard beside what others get."""
        kind = self._outfit.strips_at(self._yard)
        here = self._yard.colonies * kind.per_colony
        stores, driven = self._keeper.stores, self._keeper.standing.driven.values()
        for owned, mine in self._ground.strip_stocks:
            gone = strips_used(driven, mine)
            taken = stores.strips_taken(self._state.days, mine, strips_of(kind.substance))
            stock, given = owned - gone, taken - gone
            if self._index in mine and given + here > stock:
                yield phrase(
                    "strips of {substance} left over: {left} of {stock}; wanted here: {here}",
                    left=max(0, stock - given),
                    stock=stock,
                    substance=in_words(kind.substance),
                    here=here,
                )

    # Words

    def _date(self, day: int) -> date:
        return date_of(date.fromisoformat(self._outfit.season.first_date), day)

    def _dates(self, days: range) -> Phrase:
        first, last = self._date(days[0]), self._date(days[-1])
        if first == last:
            return phrase("on {day}", day=first)
        return phrase("from {first} to {last}", first=first, last=last)


def _up(thousandths: int) -> int:
    return -(-thousandths // 1000)
