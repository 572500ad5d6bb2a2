"""Random changes to a plan, typed as a driver would, for hypothesis."""

from hypothesis import strategies as st

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job
from runplanner.days import DAY_MIN, clock


def dates(plan: Plan) -> st.SearchStrategy[str]:
    """Some days of the campaign, all of it or some hours (it begins on 1 March 2027)."""
    last = plan.outfit.season.n_days
    day = st.integers(1, last).map(lambda number: f"{number} Mar")
    two = st.tuples(st.integers(1, last), st.integers(0, 2)).map(
        lambda both: f"{both[0]} Mar - {min(last, both[0] + both[1])} Mar"
    )
    part = st.tuples(day, st.sampled_from(("from 9:00", "before 14:00", "10:00-15:00"))).map(
        " ".join
    )
    return st.one_of(day, two, part)


def nows(plan: Plan) -> st.SearchStrategy[int]:
    """A minute of the campaign, often just before, at or after something happens."""
    marks = {DAY_MIN * day + 600 for day in range(plan.outfit.season.n_days)}
    for shift in plan.shifts:
        marks |= {shift.start_min + late for late in (-1, 0, 1, 200)} | {shift.end_min}
    for spin in plan.spinning:
        marks |= {spin.start_min, spin.start_min + 30, spin.end_min}
    last = plan.outfit.season.n_days * DAY_MIN - 1
    return st.sampled_from(sorted(mark for mark in marks if 0 < mark <= last))


def now_line(now_min: int) -> str:
    """The time as it is typed."""
    return f"now {now_min // DAY_MIN + 1} Mar {clock(now_min)}"


@st.composite
def lines(draw: st.DrawFn, plan: Plan, now_min: int) -> str:
    """One change of any kind."""
    outfit = plan.outfit
    yard = draw(st.sampled_from([one.id for one in outfit.yards]))
    facts = outfit.yard(yard)
    helpers = [truck.id for truck in outfit.trucks] + [one.id for one in outfit.people]
    helper = draw(st.sampled_from(helpers + [trailer.id for trailer in outfit.trailers]))
    when = draw(dates(plan))
    substance = outfit.strips_at(facts).substance
    ahead = now_min // DAY_MIN + 2
    kinds = [
        f"shut {yard} {when}", f"shut all {when}", f"shut {yard} {when} for syrup",
        f"open {yard} {when}", f"unsettled {yard} {when}", f"{helper} out {when}",
        f"{helper} back {when}", f"suspect {yard}", f"standstill {yard}, feed agreed",
        f"watch {yard}", f"sound {yard}", f"standstill {yard}, licence No 17",
        f"honey house stopped {when}", f"spin {yard}",
        f"honey house full {when}", f"blocks left {draw(st.integers(0, 40))}",
        f"strips left {draw(st.integers(0, 60))} {substance}",
        f"sugar left {draw(st.integers(0, 300))} kg",
        f"syrup left {draw(st.integers(0, 300))} L", f"boards lost {draw(st.integers(0, 30))}",
        f"dead {draw(st.integers(0, facts.colonies))} {yard}", f"queenless 1 {yard}",
        f"shut {yard} {now_min // DAY_MIN + 1} Mar from 9:00: rain",
        f"boxes left {draw(st.integers(0, 60))} {yard}",
        f"new yard Found at 0.05 0.05: {draw(st.integers(1, 12))} colonies 9 boxes",
    ]  # fmt: skip
    out = [shift for shift in plan.shifts if shift.start_min <= now_min < shift.end_min]
    if out:
        truck = draw(st.sampled_from(out)).truck
        stops = [c.yard for s in out for trip in s.trips for c in trip.yards()]
        stop = draw(st.sampled_from(stops))
        kinds += 3 * [f"home {truck}", f"skip {stop}", f"next {truck}: {stop}"]
    due = [s for s in plan.shifts if s.start_min <= now_min and s.day == now_min // DAY_MIN]
    if due:
        # Late ones may be out still, though they were to be home by now.
        stop = draw(
            st.sampled_from([c.yard for s in due for trip in s.trips for c in trip.yards()])
        )
        minute = min(now_min + draw(st.integers(-90, 90)), now_min // DAY_MIN * DAY_MIN + 1_439)
        kinds += 3 * [f"left {stop} {clock(max(0, minute) % DAY_MIN)}"]
    if ahead <= outfit.season.n_days and len(facts.sites) == 1:
        kinds.append(f"move {yard} to 0.04 -0.06 on {ahead} Mar")
    if outfit.kit.feeders_owned is not None:
        kinds += [f"feeders {draw(st.sampled_from(('left', 'lost')))} {draw(st.integers(0, 9))}"]
    counts = _counts(draw, plan, now_min)
    return draw(st.sampled_from(kinds + 4 * counts))


def _counts(draw: st.DrawFn, plan: Plan, now_min: int) -> list[str]:
    """True counts of one driven stop, where there is one."""
    gone = [
        (trip.id, call)
        for shift in plan.shifts
        if shift.start_min <= now_min
        for trip in shift.trips
        for call in trip.yards()
    ]
    if not gone:
        return []
    trip, call = draw(st.sampled_from(gone))
    planned = call.planned or call.actions
    words = [
        f"{draw(st.integers(0, 9))} blocks",
        *(w for one in planned for w in _words(draw, one)),
    ]
    said = draw(st.lists(st.sampled_from(words), min_size=1, max_size=3, unique=True))
    return [f"done {trip} {call.yard}: {draw(st.sampled_from(('nothing', ' '.join(said))))}"]


def _words(draw: st.DrawFn, action: Action) -> list[str]:
    """Counts of one job: about what was planned, less or a little more."""
    planned = {
        Job.TAKE_OFF: {
            "colonies": action.colonies, "boxes": action.boxes, "brood boxes": action.brood_boxes,
        },
        Job.BOARDS: {"boards": action.pieces},
        Job.FEED: {"fed": action.colonies, "litres": action.ml // 1000},
        Job.WET_UP: {"wet boxes": action.wet},
        Job.WET_DOWN: {"wet boxes": action.wet},
        Job.FEEDERS: {"feeders": action.feeders_off},
    }  # fmt: skip
    if action.job is Job.STRIPS:
        return [draw(st.sampled_from(("strips", "no strips")))]
    counts = planned.get(action.job, {})
    return [f"{draw(st.integers(0, most + 2))} {word}" for word, most in counts.items()]
