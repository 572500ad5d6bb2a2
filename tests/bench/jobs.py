"""What a rival may do on one day: whole jobs at yards, with loads, hours and worth."""

from dataclasses import dataclass, replace

from runplanner.days import DAY_MIN, Span, day_of
from runplanner.season.standing.state import State
from runplanner.trips.ground import Ground
from runplanner.visits.due import lasts_min, taken
from runplanner.visits.stop import Stop


@dataclass(frozen=True, slots=True)
class Setting:
    """How a rival goes about it; several are tried and the best plan counts.

    Args:
        crew: People on a truck, where it seats so many.
        trailer: Pull the trailer where one is to be had.
        keen: Worth of a job, in times of what doing it by itself would cost.
        together: Feed in the take-off's own visit where hours allow.
        fill: Give trucks with time left, by the hand rule, jobs that the router left and that
            can be done on no more than so many further days.
    """

    crew: int = 2
    trailer: bool = False
    keen: float = 2.0
    together: bool = True
    fill: int = -1


@dataclass(frozen=True, slots=True)
class Job:
    """One stop that may be made today.

    ``out_g`` and ``boxes`` come aboard, ``in_g`` goes in; ``spans`` hold the visit and
    ``days_left`` counts the further days on which it could still be done.
    """

    stop: Stop
    kind: str
    spans: tuple[Span, ...]
    out_g: int
    in_g: int
    boxes: int
    days_left: int


def jobs_on(ground: Ground, state: State, day: int, setting: Setting) -> list[Job]:
    """Return the jobs open on a day, yards in order."""
    found: list[Job] = []
    boards = ground.outfit.kit.boards_owned - _boards_out(state)
    for yard in range(len(ground.dues)):
        for stop in _stops(ground, state, yard, day, setting):
            if stop.boards:
                boards -= stop.boards
                if boards < 0:
                    continue
            job = _job(ground, stop, day)
            if job is not None:
                left = min(job.days_left, _cover_days(ground, state, stop, day))
                found.append(replace(job, days_left=max(0, left)))
    return found


def _boards_out(state: State) -> int:
    boarded = [mine for mine in state.visits if any(v.stop.boards for v in mine)]
    return sum(v.stop.boards - v.stop.off for mine in boarded for v in mine)


def _cover_days(ground: Ground, state: State, stop: Stop, day: int) -> int:
    """Return for how many further whole days colonies taken off can wait for their first feed."""
    offs = [v for v in state.visits[stop.yard] if v.stop.off]
    if not offs or stop.round != 1:
        return ground.outfit.season.n_days
    outfit = ground.outfit
    grams = outfit.rules.blocks * outfit.kit.block_g + (outfit.yards[stop.yard].stores_g or 0)
    return day_of(offs[0].start_min + lasts_min(outfit, grams)) - 1 - day


def _stops(ground: Ground, state: State, yard: int, day: int, setting: Setting) -> list[Stop]:
    due, facts, visits = ground.dues[yard], ground.outfit.yards[yard], state.visits[yard]
    off = sum(v.stop.off for v in visits)
    if due.take_off and off < facts.colonies:
        if day < facts.ready_from_day - 1 or day > facts.finish_by_day:
            return []
        on = [v for v in visits if v.stop.boards]
        if due.boards and not on:
            return [Stop(yard, boards=facts.colonies)] if _open_soon(ground, yard, day) else []
        waits = day < facts.ready_from_day or (on and on[0].day >= day)
        return [] if waits else _lots(ground, yard, off, setting, day)
    return _later(ground, state, yard, day)


def _later(ground: Ground, state: State, yard: int, day: int) -> list[Stop]:
    """Return the next feed round, with the strips if they are due, or the strips alone."""
    due, facts, visits = ground.dues[yard], ground.outfit.yards[yard], state.visits[yard]
    strips = due.strips and not any(v.stop.strips for v in visits)
    for number in range(1, due.rounds + 1):
        fed = sum(v.stop.fed for v in visits if v.stop.round == number)
        if fed < facts.colonies:
            last = [v.start_min for v in visits if v.stop.round == number - 1 and number > 1]
            if last and max(last) + due.round_gap_min > day * DAY_MIN + 900:
                return []
            return [Stop(yard, round=number, fed=facts.colonies - fed, strips=strips)]
    return [Stop(yard, strips=True)] if strips else []


def _open_soon(ground: Ground, yard: int, day: int) -> bool:
    """Tell whether boxes may come off tomorrow or the day after."""
    days = range(day + 1, min(day + 3, ground.outfit.season.n_days))
    stop = Stop(yard, off=ground.outfit.yards[yard].colonies)
    return any(_spans(ground, stop, d) for d in days)


def _lots(ground: Ground, yard: int, off: int, setting: Setting, day: int) -> list[Stop]:
    """Return what is left to take off, in as many lots as loads."""
    facts = ground.outfit.yards[yard]
    most = _most_g(ground, yard, setting) * 92 // 100
    each_g = max(1, (facts.boxes * facts.box_g) // facts.colonies)
    brood = ground.brood_g[yard] * facts.brood_boxes_off // facts.colonies
    least = min(ground.outfit.rules.smallest_lot, facts.colonies - off)
    count = max(least, min(facts.colonies - off, most // (each_g + brood)))
    if 0 < facts.colonies - off - count < ground.outfit.rules.smallest_lot:
        count -= ground.outfit.rules.smallest_lot
    last = off + count >= facts.colonies
    together = last and setting.together and ground.dues[yard].rounds > 0
    alone = _off(ground, yard, off, count, fed=False, strips=last)
    both = _off(ground, yard, off, count, fed=True, strips=True)
    return [both] if together and _spans(ground, both, day) else [alone]


def _most_g(ground: Ground, yard: int, setting: Setting) -> int:
    """Return the most that a truck going out as the setting says may carry from a yard."""
    ways = zip(ground.haulers, ground.load_into, strict=True)
    loads = [
        into[yard]
        for way, into in ways
        if way.crew >= min(setting.crew, way.truck.seats) and (setting.trailer or not way.trailer)
    ]
    return max([0, *loads])


def _off(ground: Ground, yard: int, before: int, count: int, *, fed: bool, strips: bool) -> Stop:
    facts, due = ground.outfit.yards[yard], ground.dues[yard]
    after = before + count
    return Stop(
        yard,
        off=count,
        boxes=taken(facts.boxes, facts.colonies, before, after),
        brood=taken(facts.brood_boxes_off, facts.colonies, before, after),
        blocks=count * ground.outfit.rules.blocks if due.rounds and not fed else 0,
        round=1 if fed else 0,
        fed=facts.colonies if fed else 0,
        strips=strips and due.strips,
    )


def _spans(ground: Ground, stop: Stop, day: int) -> tuple[Span, ...]:
    """Return the hours of a visit, cut so that it ends no sooner than bees may settle."""
    task = ground.task(stop)
    work = ground.stop_min(stop, 2)
    return tuple(
        Span(max(span.start_min, task.settled[day] - work), span.end_min)
        for span in task.spans[day]
        if max(span.start_min + work, task.settled[day]) <= span.end_min
    )


def _job(ground: Ground, stop: Stop, day: int) -> Job | None:
    spans = _spans(ground, stop, day)
    if not spans:
        return None
    facts, task = ground.outfit.yards[stop.yard], ground.task(stop)
    in_g = -(-task.used.ml * ground.outfit.feed.density_g_per_l // 1000)
    in_g += task.used.blocks * ground.outfit.kit.block_g
    in_g += task.used.boards * ground.outfit.kit.board_g
    out_g = stop.boxes * facts.box_g + stop.brood * ground.brood_g[stop.yard]
    kind = "feed" if stop.fed and not stop.off else "off" if stop.off else "boards"
    if not (stop.fed or stop.off or stop.boards):
        kind = "strips"
    left = sum(1 for d in range(day + 1, _last(ground, stop) + 1) if _spans(ground, stop, d))
    return Job(stop, kind, spans, out_g, in_g, stop.boxes + stop.brood, left)


def _last(ground: Ground, stop: Stop) -> int:
    """Return the last day on which a job is of use, with room for what must follow it."""
    season, facts = ground.outfit.season, ground.outfit.yards[stop.yard]
    due, last = ground.dues[stop.yard], season.n_days - 1
    if stop.off or stop.boards:
        last = min(last, facts.finish_by_day, season.take_off_by.day)
    if due.rounds:
        later = (due.rounds - max(1, stop.round)) * due.round_gap_min // DAY_MIN
        last = min(last, season.feed_by.day - later)
    return last - 1 if stop.boards else last
