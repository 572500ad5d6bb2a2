"""Which rules stand in the way of work that is left: told by sums, or found by trying."""

from collections.abc import Callable, Collection, Iterator
from dataclasses import replace

from runplanner.daybook.plan import TOO_DEAR, Undone
from runplanner.daybook.trip import Job
from runplanner.phrase import Phrase, joined, phrase
from runplanner.season.bearing import Bearing
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import Progress, State
from runplanner.season.sure import never_fed_g, out_of_stock, surely
from runplanner.season.what_if import RULES, Ease, together
from runplanner.season.why_not.eased_search import carried, eased_search
from runplanner.season.why_not.further_blocks import further_blocks
from runplanner.season.why_not.left_undone import left_undone
from runplanner.season.why_not.shut_hours import with_shut_hours

TRIES = 4
NOT_IN_TIME = phrase("reasons were not looked for to the end, as time was up")
NOT_FOUND = phrase("no place was found that is worth it; more rounds may find one")


def _of_weather(rule: Phrase) -> bool:
    return rule.startswith(RULES[0][0])


def _none_found(bearing: list[str]) -> Phrase:
    return phrase(
        "no rule was found that makes room, eased alone or with all others; these bear on it: "
        "{rules}",
        rules=joined("; ", *bearing),
    )


class Reasons:
    """Tries rules one by one, once for each yard; ``in_time`` ends that before any try."""

    def __init__(
        self, keeper: Keeper, state: State, seed: int, in_time: Callable[[], None]
    ) -> None:
        self._state = state
        self._keeper = keeper
        self._seed = seed
        self._in_time = in_time
        self._ids = [yard.id for yard in keeper.ground.outfit.yards]
        self._jobs: dict[int, list[Job]] = {}
        for one in left_undone(keeper, state):
            self._jobs.setdefault(self._ids.index(one.yard), []).append(one.job)
        self._sure: dict[tuple[int, Job], tuple[Phrase, ...]] = {}
        self._known: dict[int, tuple[Phrase, ...]] = {}
        self._never: dict[int, int] = {}
        self._dear: dict[int, tuple[int, int] | None] = {}

    def given(self, undone: Undone) -> Undone:
        """Return one undone job with the rules in its way, or with its cost and worth.

        Or with the word that time was up, beside what was found by then.
        """
        try:
            return self._given(undone)
        except TimeoutError:
            return replace(undone, why=(NOT_IN_TIME,))

    def _given(self, undone: Undone) -> Undone:
        yard = self._ids.index(undone.yard)
        sure = self._surely(yard, undone.job)
        if not self._open(yard, undone.job):
            return replace(undone, why=sure)
        if yard not in self._dear:
            self._dear[yard] = self._priced(yard)
        dear = self._dear[yard] if undone.job is not Job.BLOCK else None
        if dear is not None:
            cost, worth = dear
            why = TOO_DEAR if cost > worth else NOT_FOUND
            return replace(undone, why=(why,), cost_cents=cost, worth_cents=worth)
        if yard not in self._known:
            self._known[yard] = self._find(yard)
        rules = tuple(self._told(yard, undone.job, rule) for rule in self._known[yard])
        return replace(undone, why=(*sure, *rules))

    def _open(self, yard: int, job: Job) -> bool:
        """Tell whether nothing certain stands in the way of a job, or of a part of it alone."""
        return not self._surely(yard, job) or (job is Job.FEED and self._never_fed_g(yard) > 0)

    def _never_fed_g(self, yard: int) -> int:
        """Return the stores that certainly cannot be fed, where some of what is left still can."""
        if yard not in self._never:
            self._never[yard] = never_fed_g(self._keeper, self._state, yard) or 0
        return self._never[yard]

    def out_of_stock(self, undone: Undone) -> bool:
        """Tell whether a stock is short of what an undone job wants."""
        yard = self._ids.index(undone.yard)
        return out_of_stock(self._keeper, self._state, yard, undone.job)

    def _told(self, yard: int, job: Job, rule: Phrase) -> Phrase:
        """Return a rule; the weather's with the hours that it shuts for the job."""
        return self._with_hours(yard, job, rule) if _of_weather(rule) else rule

    def _with_hours(self, yard: int, job: Job, why: Phrase) -> Phrase:
        return with_shut_hours(self._keeper.ground, yard, job, why)

    def _surely(self, yard: int, job: Job) -> tuple[Phrase, ...]:
        """Return what certainly stands in the way of a job, with the hours that are shut."""
        if (yard, job) not in self._sure:
            told = [
                self._with_hours(yard, shut_for, why) if shut_for else why
                for why, shut_for in surely(self._keeper, self._state, yard, job)
            ]
            if job is Job.BLOCK and not told:
                told += self._few_blocks(yard)
            self._sure[yard, job] = tuple(told)
        return self._sure[yard, job]

    def _few_blocks(self, yard: int) -> Iterator[Phrase]:
        """Yield that blocks alone are short for all colonies of a yard that run out."""
        wanted, new = further_blocks(self._keeper, self._state, (yard,), self._seed, self._in_time)
        left = self._keeper.stores.blocks_left(self._state.days)
        if left < wanted and not new.progress[yard].uncovered:
            yield phrase(
                "fondant blocks left over: {left}; wanted here, for all colonies to last until "
                "their syrup or the end: {here}",
                left=left, here=wanted,
            )  # fmt: skip

    def _find(self, yard: int) -> tuple[Phrase, ...]:
        """Return what was found that makes room, and whether time was up before all was tried."""
        found: list[Phrase] = []
        try:
            found.extend(self._making_room(yard))
        except TimeoutError:
            found.append(NOT_IN_TIME)
        return tuple(found)

    def _making_room(self, yard: int) -> Iterator[Phrase]:
        """Yield the rules that make room for what is left of a yard once they are eased.

        What certainly cannot be done is not asked for.  Only what was tried is said.
        """
        jobs = frozenset(job for job in self._jobs[yard] if self._open(yard, job))
        outfit = self._keeper.ground.outfit
        rules = [(rule, ease) for rule, ease in RULES if ease(outfit) != outfit]
        alone = False
        for rule, ease in rules:
            if self._fits(yard, ease, jobs):
                alone = True
                yield phrase("{rule} (with this eased alone, it fits)", rule=rule)
        if alone:
            return
        bears = Bearing(self._keeper.ground, yard, jobs)
        near = [one for one in rules if bears(one[1])]
        rules = [*near, *(one for one in rules if one not in near)]
        if not self._fits(yard, together(ease for _, ease in rules), jobs):
            yield _none_found([rule for rule, _ in near])
            return
        for one in reversed(rules):
            fewer = [other for other in rules if other is not one]
            if self._fits(yard, together(ease for _, ease in fewer), jobs):
                rules = fewer
        yield phrase(
            "no single rule was found that makes room by itself; with these eased together, it "
            "fits: {rules}",
            rules=joined("; ", *(rule for rule, _ in rules)),
        )

    def _priced(self, yard: int) -> tuple[int, int] | None:
        """Return what a yard's left work would cost and is worth, in cents.

        None where it does not fit at any cost, or a part of it has no stated worth.
        """
        prices = self._keeper.ground.outfit.prices
        left = self._state.progress[yard].undone().jobs()
        worth = left.milli_cents(prices)
        if any(left.counted(prices)) or not worth:
            return None
        whole = [
            new.score.milli_cents - self._state.score.milli_cents + worth
            for new in self._with(yard)
            if not new.progress[yard].owing()
        ]
        if not whole:
            return None
        return -(-min(whole) // 1000), -(-worth // 1000)

    def _with(self, yard: int) -> Iterator[State]:
        builder = eased_search(self._keeper, lambda outfit: outfit, self._seed).builder
        for _ in range(TRIES):
            self._in_time()
            yield builder.add(self._state, yard)

    def _fits(self, yard: int, ease: Ease, jobs: Collection[Job]) -> bool:
        """Tell whether these jobs of a yard go into the plan once rules are eased.

        They are put in beside what the yard has, then with its whole chain anew.
        """
        self._in_time()
        improver = eased_search(self._keeper, ease, self._seed)
        state = carried(self._keeper, self._state, improver.keeper)
        build = improver.rebuild.build
        never_g = self._never_fed_g(yard)
        if not _owing(build(state, [yard]).progress[yard], jobs, never_g):
            return True
        bare = improver.keeper.drop(state, {yard})
        for _ in range(TRIES):
            self._in_time()
            if not _owing(build(bare, [yard]).progress[yard], jobs, never_g):
                return True
        return False


def _owing(progress: Progress, jobs: Collection[Job], never_g: int) -> bool:
    """Tell whether any of these jobs is left, or a take-off that is planned waits for boards.

    Of feed ``never_g`` are no one's to bring, and left with no reason to look for.
    """
    left = {
        Job.TAKE_OFF: progress.not_off,
        Job.FEED: max(0, progress.unfed_g - never_g),
        Job.STRIPS: progress.no_strips,
        Job.BLOCK: progress.uncovered,
    }
    return bool(progress.amiss()) or any(left.get(job, progress.not_wet) for job in jobs)
