"""One play: the campaign driven day by day, planned again each morning that asks for it."""

from dataclasses import dataclass, replace

from runplanner.changes.counts.boxes import with_counts
from runplanner.changes.counts.counts import as_counted
from runplanner.changes.draft import Draft
from runplanner.changes.typed import settled
from runplanner.daybook.plan import ALL_DONE, Plan
from runplanner.daybook.played import Played
from runplanner.daybook.trip import Job, Shift
from runplanner.days import DAY_MIN
from runplanner.errors import PlanError
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import eased, plain
from runplanner.rehearsal.drive import Day, Standing, driven, working_day
from runplanner.rehearsal.luck import USUAL, Fate, Luck, as_it_was, drawn, known_on
from runplanner.rehearsal.reckon import honey_late, left_undone, over_g, past_cover
from runplanner.scenario.faults import Refusal
from runplanner.season.plan_season import plan_season
from runplanner.season.proof.bound import HURRIED, bound_of
from runplanner.season.replan_season import replan_season
from runplanner.season.watch import WHOLE
from runplanner.trips.ground import Ground


@dataclass(frozen=True, slots=True)
class Rehearsal:
    """What is rehearsed, and how.

    Args:
        plan: The plan.
        luck: How far things may be off.
        seed: Starts the dice, of luck and of the search.
        rounds: Rounds of improvement each morning that is planned again.
        hindsight: Rounds of a plan made for each play by somebody who knows its future, which
            is also bounded; 0 for neither.
    """

    plan: Plan
    luck: Luck = USUAL
    seed: int = 1
    rounds: int = 20
    hindsight: int = 60

    def plain(self) -> Outfit:
        """Return the facts as they were guessed, nothing kept in hand."""
        return plain(self.plan.outfit)


class _Diary:
    """A play while it is played."""

    def __init__(self, told: Rehearsal, fate: Fate) -> None:
        self.told = told
        self.fate = fate
        self.plan = told.plan
        self.draft = Draft(told.plan, eased(told.plan.outfit), 0)
        self.days: list[tuple[Shift, Day]] = []
        self.plans = self.refused = 0

    def morning(self, day: int) -> None:
        """Learn the day's weather and which trucks start; plan again where facts changed."""
        outfit = self.draft.outfit
        known = known_on(outfit, self.fate, day) if day < outfit.season.n_days else outfit
        self.draft = replace(self.draft, outfit=known, now_min=day * DAY_MIN)
        if known == self.plan.outfit and self.draft.plan == self.plan:
            return
        self.plan = replan_season(
            self.draft.plan, known, day * DAY_MIN, seed=self.told.seed,
            rounds=self.told.rounds, proof=False,
        )  # fmt: skip
        _whole(self.plan)
        self.draft = Draft(self.plan, known, day * DAY_MIN)
        self.plans += 1

    def drive(self, day: int) -> None:
        """Drive the day's shifts and enter what was counted."""
        shifts = [shift for shift in self.plan.shifts if shift.day == day and shift.trips]
        evening = (day + 1) * DAY_MIN
        draft = replace(self.draft, now_min=evening)
        standing = Standing(_off(self.plan, day * DAY_MIN))
        for shift in sorted(shifts, key=lambda one: (one.start_min, one.truck)):
            turned_out = driven(draft.outfit, self.fate, shift, standing)
            standing = turned_out.standing
            self.days.append((shift, turned_out))
            for one in turned_out.counts:
                trip = draft.driven_trip(one.trip.id)
                try:
                    yard = draft.outfit.yard(one.yard)
                    draft = with_counts(as_counted(draft, trip, yard, one.counts), yard)
                except Refusal:  # a driver's count that nobody can enter: told in the report
                    self.refused += 1
        self.draft = settled(draft)


def _whole(plan: Plan) -> None:
    """Stop the play where its search was stopped: a play that is kept is a whole one."""
    if plan.search.stopped not in WHOLE:
        raise KeyboardInterrupt


def _off(plan: Plan, until_min: int) -> dict[str, int]:
    """Return the colonies off in each yard by shifts that left before ``until_min``."""
    found: dict[str, int] = {}
    for shift in plan.shifts:
        for call in (c for t in shift.trips for c in t.yards() if shift.start_min < until_min):
            taken = sum(a.colonies for a in call.actions if a.job is Job.TAKE_OFF)
            found[call.yard] = found.get(call.yard, 0) + taken
    return found


def played(told: Rehearsal, play: int) -> Played:
    """Return what play number ``play`` comes to."""
    outfit = told.plain()
    fate = drawn(outfit, told.luck, told.seed, play)
    diary = _Diary(told, fate)
    for day in range(outfit.season.n_days):
        diary.morning(day)
        diary.drive(day)
    diary.morning(outfit.season.n_days)
    hindsight, done, bound = _hindsight(told, as_it_was(outfit, fate))
    return _reckoned(diary, play, hindsight, bound, done=done)


def _hindsight(told: Rehearsal, truth: Outfit) -> tuple[int, bool, int]:
    """Return cost, whether all is done, and the bound, for somebody who knew the future."""
    if not told.hindsight:
        return -1, False, -1
    try:
        best = plan_season(truth, seed=told.seed, rounds=told.hindsight, proof=False)
    except PlanError:  # pragma: no cover - the same trucks could be planned with before
        return -1, False, -1
    _whole(best)
    bound = bound_of(Ground(truth), ALL_DONE, patience=HURRIED)
    return best.bill.total() - best.bill.unsure, not any(left_undone(best)), bound.cents


def _reckoned(diary: _Diary, play: int, hindsight: int, bound: int, *, done: bool) -> Played:
    plan, fate = diary.plan, diary.fate
    true_g = {y.id: g for y, g in zip(plan.outfit.yards, fate.box_g, strict=True)}
    over = [over_g(plan, shift, trip, true_g) for shift in plan.shifts for trip in shift.trips]
    return Played(
        play=play,
        trips=len(over),
        over_payload=sum(grams > 0 for grams in over),
        over_g=max([0, *over]),
        boxes_left=sum(day.boxes_left for _, day in diary.days),
        past_cover=past_cover(plan),
        honey_late=honey_late(plan),
        overtime_min=_overtime_min(plan.outfit, _minutes(diary.days)),
        late_home_min=sum(
            max(0, day.end_min - working_day(plan.outfit, shift).end_min)
            for shift, day in diary.days
        ),
        stops_missed=sum(day.stops_missed for _, day in diary.days),
        **left_undone(plan)._asdict(),
        cents=_cents(plan, diary.days),
        hindsight_cents=hindsight,
        hindsight_done=done,
        bound_cents=bound,
        refused=diary.refused,
        plans=diary.plans,
        shut_days=sum(any(day) for day in fate.shut),
        truck_days_lost=sum(sum(day) for day in fate.out),
    )


def _minutes(days: list[tuple[Shift, Day]]) -> list[tuple[int, int]]:
    """Return people and minutes of each shift as it turned out."""
    return [(len(shift.crew), day.end_min - shift.start_min) for shift, day in days]


def _overtime_min(outfit: Outfit, minutes: list[tuple[int, int]]) -> int:
    return sum(crew * max(0, length - outfit.hours.normal_min) for crew, length in minutes)


def _cents(plan: Plan, days: list[tuple[Shift, Day]]) -> int:
    """Return the bill with the hours as they turned out; doubt is no cost once all is known."""
    prices, minutes = plan.outfit.prices, _minutes(days)
    crew = -(-sum(crew * length for crew, length in minutes) * prices.hour_cents // 60)
    paid = _overtime_min(plan.outfit, minutes) * prices.hour_cents * prices.overtime_permille
    bill = plan.bill
    rest = bill.total() - bill.unsure - bill.crew - bill.overtime
    return rest + crew - (-paid // 60_000)
