"""Why work is left undone, and what would get it done.

Both answers come from trying: a rule is named when the yard fits once that rule alone is
eased, and a relief counts only what a fresh search with it really gets done.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date

from runplanner.daybook.plan import ALL_DONE, TOO_DEAR, Bound, Plan, Relief, Search, Tally, Undone
from runplanner.daybook.trip import Job
from runplanner.days import date_of, day_of
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.shut import Work
from runplanner.outfit.yards import Health, Yard
from runplanner.phrase import Part, Phrase, counted, joined, phrase
from runplanner.season.bearing import Bearing
from runplanner.season.finish import tally, written
from runplanner.season.search.improve import Improver
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import Progress, State
from runplanner.season.stock import (
    blocks_wanted,
    strips_short,
    sugar_short_g,
    syrup,
    syrup_short_ml,
)
from runplanner.season.sure import never_fed_g, out_of_stock, surely
from runplanner.season.watch import BROKEN_OFF, Watch
from runplanner.season.what_if import (
    RULES,
    Ease,
    more_blocks,
    more_feeders,
    more_strips,
    more_sugar,
    more_syrup,
    reliefs,
    together,
)
from runplanner.trade.strips import in_words
from runplanner.trips.ground import Ground
from runplanner.visits.due import due

TRIES = 4
MOST_SHUT = 3
WEATHER: Mapping[Job, tuple[Work, ...]] = {
    Job.TAKE_OFF: (Work.OPEN, Work.SETTLE),
    Job.FEED: (Work.FEED,),
    Job.BLOCK: (Work.FEED,),
}
"""What the weather must be fit for, by job."""
NOT_SOUGHT = phrase("reasons were not looked for to the end, as the user broke off")
NOT_IN_TIME = phrase("reasons were not looked for to the end, as time was up")
NOT_FOUND = phrase("no place was found that is worth it; more rounds may find one")


def explained(
    keeper: Keeper,
    state: State,
    plan: Plan,
    *,
    seed: int,
    rounds: int,
    left_s: Callable[[], float] | None = None,
) -> Plan:
    """Return ``plan`` with its undone work, the reasons, and what would relieve it.

    Each relief is tried for so many ``rounds``, or for its share of the seconds left; without
    rounds none is, nor once no second is left.  Where stocks are short of all that is left, more
    of them alone is tried.  Ctrl-C ends the trying, and so does the last of the seconds; reasons
    not found by then are said to be so, and the plan says that it was broken off.
    """
    left = tuple(_left(keeper, state))
    open_jobs = [one for one in left if not keeper.ground.outfit.yard(one.yard).left_alone]
    if not open_jobs:
        return replace(plan, undone=left)
    in_time = _ends(left_s)
    reasons = _Reasons(keeper, state, seed, in_time)
    try:
        undone = tuple(reasons.given(one) if one in open_jobs else one for one in left)
    except KeyboardInterrupt:
        undone = tuple(replace(one, why=(NOT_SOUGHT,)) if one in open_jobs else one for one in left)
        return _broken_off(replace(plan, undone=undone))
    if not rounds or tally(keeper.ground, state) == ALL_DONE:
        return replace(plan, undone=undone)
    every = [*_with_feed(keeper, state), *_with_strips(keeper, state, open_jobs)]
    if not all(reasons.out_of_stock(one) for one in open_jobs):
        outfit = keeper.ground.outfit
        every = [*reliefs(outfit), *_with_feeders(outfit, open_jobs), *every]
    tried: list[Relief] = []
    plan = replace(plan, undone=undone)
    try:
        every = [*_with_blocks(keeper, state, open_jobs, seed, in_time), *every]
        for number, (what, ease) in enumerate(every):
            seconds = None if left_s is None else left_s() / (len(every) - number)
            if seconds is not None and seconds <= 0:
                break
            watch, improver = Watch(rounds, seconds, None), eased(keeper, ease, seed)
            tried.append(_tried((keeper, state, plan), what, improver, watch))
    except KeyboardInterrupt:
        plan = _broken_off(plan)
    except TimeoutError:
        pass
    return replace(plan, reliefs=tuple(tried))


def _ends(left_s: Callable[[], float] | None) -> Callable[[], None]:
    """Return what is called before each try: TimeoutError once no second is left."""

    def in_time() -> None:
        if left_s is not None and left_s() <= 0:
            raise TimeoutError

    return in_time


def _broken_off(plan: Plan) -> Plan:
    return replace(plan, search=replace(plan.search, stopped=BROKEN_OFF))


def _with_feeders(outfit: Outfit, left: list[Undone]) -> list[tuple[Phrase, Ease]]:
    """Return the relief of a feeder for each colony left unfed, where feeders go round."""
    more = sum(one.colonies for one in left if one.job is Job.FEED)
    if outfit.kit.feeders_owned is None or not more:
        return []
    what = counted("one more feeder", "{number} more feeders", more)
    return [(what, more_feeders(more))]


def _with_feed(keeper: Keeper, state: State) -> list[tuple[Phrase, Ease]]:
    """Return the relief of the syrup, or the sugar, that is short of all that is left unfed."""
    sums, feed = syrup(keeper, state), keeper.ground.outfit.feed
    litres = -(-syrup_short_ml(feed, sums.due) // 1000)
    if litres:
        return [(phrase("{litres} L more syrup", litres=litres), more_syrup(1000 * litres))]
    kg = -(-sugar_short_g(feed, sums.due) // 1000)
    return [(phrase("{kg} kg more sugar", kg=kg), more_sugar(1000 * kg))] if kg else []


def _with_strips(keeper: Keeper, state: State, left: list[Undone]) -> Iterator[tuple[Phrase, Ease]]:
    """Yield the relief of the strips, by substance, that what is left lacks."""
    for substance, more in strips_short(keeper, state, left):
        what = counted(
            "one more strip of {substance}", "{number} more strips of {substance}", more,
            substance=in_words(substance),
        )  # fmt: skip
        yield what, more_strips(substance, more)


def _with_blocks(
    keeper: Keeper, state: State, left: list[Undone], seed: int, in_time: Callable[[], None]
) -> list[tuple[Phrase, Ease]]:
    """Return the relief of the blocks short for colonies that run out and those left on."""
    running_out, _ = _further_blocks(keeper, state, range(len(state.visits)), seed, in_time)
    more = running_out + blocks_wanted(keeper, left) - keeper.stores.blocks_left(state.days)
    what = counted("one more fondant block", "{number} more fondant blocks", more)
    return [(what, more_blocks(more))] if more > 0 else []


def _further_blocks(
    keeper: Keeper, state: State, yards: Iterable[int], seed: int, in_time: Callable[[], None]
) -> tuple[int, State]:
    """Return the further blocks that colonies off of some yards would get of any number.

    The state in which they get them goes with it.
    """
    in_time()
    improver = eased(keeper, more_blocks(10**6), seed)
    bare = carried(keeper, state, improver.keeper)
    new, left = improver.rebuild.sheltered(bare, yards, in_time), improver.keeper.stores.blocks_left
    return left(bare.days) - left(new.days), new


def _left(keeper: Keeper, state: State) -> list[Undone]:
    """Return what each yard lacks, without reasons but for yards held for their health."""
    found = []
    for index, yard in enumerate(keeper.ground.outfit.yards):
        progress = state.progress[index]
        off, strips, unfed = progress.not_off, progress.no_strips, progress.unfed_g
        colonies = _unfed_colonies(keeper, state, index)
        why: tuple[Phrase, ...] = ()
        if yard.left_alone:
            off, strips, unfed, colonies = _held(keeper.ground.outfit, state, index)
            why = (_held_words(yard),)
        for job, count, grams in (
            (Job.TAKE_OFF, off, 0),
            (Job.FEED, colonies, unfed),
            (Job.STRIPS, strips, 0),
            (Job.WET_UP, progress.not_wet, 0),
            (Job.WET_DOWN, _standing(keeper, state, index), 0),
        ):
            if count:
                found.append(Undone(yard.id, job, count, grams, why))
        if progress.uncovered and not yard.left_alone:
            found.append(Undone(yard.id, Job.BLOCK, 0, 0, (), colony_days=progress.uncovered))
    return found


def _unfed_colonies(keeper: Keeper, state: State, yard: int) -> int:
    """Return the colonies that lack a round."""
    rounds = keeper.ground.dues[yard].rounds
    if not rounds:
        return 0
    last = sum(v.stop.fed for v in state.visits[yard] if v.stop.round == rounds)
    return max(0, keeper.ground.outfit.yards[yard].colonies - last)


def _standing(keeper: Keeper, state: State, index: int) -> int:
    """Return the colonies of a yard in which wet boxes are left, as a driver may leave them."""
    if not keeper.ground.dues[index].wet:
        return 0
    left = sum(visit.stop.wet_up - visit.stop.wet_down for visit in state.visits[index])
    return keeper.ground.outfit.yards[index].colonies if left > 0 else 0


def _held(outfit: Outfit, state: State, index: int) -> tuple[int, int, int, int]:
    """Return what a held yard that may not be fed lacks: all that has not been driven."""
    yard, visits = outfit.yards[index], state.visits[index]
    sound = due(outfit, replace(yard, health=Health.SOUND))
    off = sum(visit.stop.off for visit in visits)
    strips = 0 if any(visit.stop.strips for visit in visits) else yard.colonies
    grams, reached = 0, yard.colonies
    for number in range(sound.rounds):
        fed = sum(visit.stop.fed for visit in visits if visit.stop.round == number + 1)
        fed = min(fed, reached)
        grams += (reached - fed) * sound.lacks_g[number]
        reached = fed
    unfed = yard.colonies - reached if sound.rounds else 0
    return max(0, yard.colonies - off), strips, grams, unfed


def _held_words(yard: Yard) -> Phrase:
    if yard.health is Health.SUSPECT:
        return phrase(
            "suspected notifiable disease: report it; nothing leaves the yard until it is cleared"
        )
    return phrase(
        "standstill: nothing leaves the yard; it is fed only with the inspector's consent"
    )


def _of_weather(rule: Phrase) -> bool:
    return rule.startswith(RULES[0][0])


def _none_found(bearing: list[str]) -> Phrase:
    return phrase(
        "no rule was found that makes room, eased alone or with all others; these bear on it: "
        "{rules}",
        rules=joined("; ", *bearing),
    )


class _Reasons:
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
        for one in _left(keeper, state):
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
        shut = self._weather(yard, job) if _of_weather(rule) else None
        return joined(": ", rule, shut) if shut else rule

    def _weather(self, yard: int, job: Job) -> Phrase | None:
        """Return when and why the hours for a job are shut, from now on."""
        ground, works = self._keeper.ground, WEATHER.get(job, ())
        first = date.fromisoformat(ground.outfit.season.first_date)
        stretches = [
            one for one in ground.outfit.yards[yard].shut
            if one.work in works and one.end_min > ground.now_min and one.words()
        ]  # fmt: skip
        lines: dict[Part, None] = dict.fromkeys(
            joined(" ", date_of(first, day_of(one.start_min)), one.words()) for one in stretches
        )
        more = len(lines) - MOST_SHUT
        shown = joined("; ", *list(lines)[:MOST_SHUT])
        if more > 0:
            return phrase("{reasons}; and {number} more", reasons=shown, number=more)
        return shown if lines else None

    def _surely(self, yard: int, job: Job) -> tuple[Phrase, ...]:
        """Return what certainly stands in the way of a job, with the hours that are shut."""
        if (yard, job) not in self._sure:
            told = []
            for why, shut_for in surely(self._keeper, self._state, yard, job):
                shut = self._weather(yard, shut_for) if shut_for else None
                told.append(joined(": ", why, shut) if shut else why)
            if job is Job.BLOCK and not told:
                told += self._few_blocks(yard)
            self._sure[yard, job] = tuple(told)
        return self._sure[yard, job]

    def _few_blocks(self, yard: int) -> Iterator[Phrase]:
        """Yield that blocks alone are short for all colonies of a yard that run out."""
        wanted, new = _further_blocks(self._keeper, self._state, (yard,), self._seed, self._in_time)
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
        builder = eased(self._keeper, lambda outfit: outfit, self._seed).builder
        for _ in range(TRIES):
            self._in_time()
            yield builder.add(self._state, yard)

    def _fits(self, yard: int, ease: Ease, jobs: Collection[Job]) -> bool:
        """Tell whether these jobs of a yard go into the plan once rules are eased.

        They are put in beside what the yard has, then with its whole chain anew.
        """
        self._in_time()
        improver = eased(self._keeper, ease, self._seed)
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


def carried(old: Keeper, state: State, new: Keeper) -> State:
    """Return the days of ``state`` judged anew on other facts; what no longer holds is dropped."""
    ways = {_way(new.ground, h): h for h in range(len(new.ground.haulers))}
    days = dict(new.standing.driven)
    for key, judged in state.days.items():
        if key in days:
            continue
        hauler = ways.get(_way(old.ground, judged.day.hauler))
        again = new.judge(judged.day._replace(hauler=hauler)) if hauler is not None else None
        if again is not None:
            days[key] = again
    return new.settled(days)


def _way(ground: Ground, hauler: int) -> tuple[str, str, int]:
    way = ground.haulers[hauler]
    return way.truck.id, way.trailer.id if way.trailer else "", way.crew


def eased(keeper: Keeper, ease: Ease, seed: int) -> Improver:
    """Return a search on eased facts, from the same standing."""
    ground = Ground(ease(keeper.ground.outfit), keeper.ground.now_min)
    ways = {_way(ground, h): h for h in range(len(ground.haulers))}
    driven = {
        key: judged._replace(
            day=judged.day._replace(hauler=ways[_way(keeper.ground, judged.day.hauler)])
        )
        for key, judged in keeper.standing.driven.items()
    }
    return Improver(ground, seed, replace(keeper.standing, driven=driven))


def _tried(
    before_it: tuple[Keeper, State, Plan], what: Phrase, improver: Improver, watch: Watch
) -> Relief:
    """Search again with one relief and tell how many undone jobs it cures, at what price."""
    keeper, state, plan = before_it
    start = improver.completed(carried(keeper, state, improver.keeper))
    best = improver.rebuild.tided_over(improver.rounds(start, watch.rounds, watch))
    if watch.broken_off:
        raise KeyboardInterrupt
    before, after = _open_jobs(keeper, state), _open_jobs(improver.keeper, best)
    cured, less = len(before) - len(after), ALL_DONE
    if cured <= 0:
        cured, less = 0, _less(tally(keeper.ground, state), tally(improver.keeper.ground, best))
        if less == ALL_DONE:
            return Relief(what, 0, len(before), None)
    none = Bound(Phrase(""), 0, 0, ALL_DONE)
    new = written(improver.keeper, best, none, Search(0, watch.done, Phrase(""), ()))
    return Relief(what, cured, len(before), new.bill.total() - plan.bill.total(), less)


def _less(before: Tally, after: Tally) -> Tally:
    """Return what is left less of each kind; nothing where all in all not less is left."""
    pairs = [(getattr(before, name), getattr(after, name)) for name in Tally.__slots__]
    if [new for _, new in pairs] >= [old for old, _ in pairs]:
        return ALL_DONE
    return Tally(*(max(0, old - new) for old, new in pairs))


def _open_jobs(keeper: Keeper, state: State) -> set[tuple[str, Job]]:
    return {
        (one.yard, one.job)
        for one in _left(keeper, state)
        if not keeper.ground.outfit.yard(one.yard).left_alone
    }
