"""A small clock of its own for a truck's day: calls, drives, work and hours, no breaks.

Nothing of the planner is used; times are the earliest from a given start.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

from runplanner.daybook.trip import Action, CallKind, Job
from runplanner.days import DAY_MIN, Span, join
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.trucks import Trailer, Truck
from runplanner.outfit.yards import Clearing, Health, Yard

Times = tuple[int, int, int]


class Visit(NamedTuple):
    """One stop: a yard and what is done there, jobs in their order."""

    yard: str
    actions: tuple[Action, ...]


@dataclass(frozen=True)
class Outing:
    """A truck's day: who goes, with what, and the trips; not yet timed."""

    day: int
    truck: Truck
    trailer: Trailer | None
    crew: tuple[str, ...]
    trips: tuple[tuple[Visit, ...], ...]


def up(a: int, b: int) -> int:
    """Return a / b rounded up."""
    return -(-a // b)


def stores_per_l(outfit: Outfit) -> int:
    """Grams of stores made of a litre, rounded down once."""
    feed = outfit.feed
    return feed.density_g_per_l * feed.sugar_permille * feed.stores_g_per_kg_sugar // 1_000_000


def feed_plan(outfit: Outfit, yard: Yard) -> tuple[int, int]:
    """Rounds and ml of each round for one colony."""
    need_ml = up(max(0, yard.target_g - (yard.stores_g or 0)) * 1000, stores_per_l(outfit))
    if not need_ml:
        return 0, 0
    rounds = up(need_ml, yard.feeder_ml)
    step = outfit.feed.round_to_ml
    return rounds, min(yard.feeder_ml, up(up(need_ml, rounds), step) * step)


def stations(
    outfit: Outfit, trip: Sequence[Visit], day: int
) -> list[tuple[CallKind, int, Visit | None]]:
    """The calls of a trip: load, yards, then honey house and feed store as needed."""
    store, house = outfit.feed_store.place, outfit.honey_house.base.place
    calls: list[tuple[CallKind, int, Visit | None]] = [(CallKind.LOAD, store, None)]
    calls += [(CallKind.YARD, outfit.yard(v.yard).place_on(day), v) for v in trip]
    honey = total(trip, "boxes") > 0
    ends = [house] * honey + [store] * (total(trip, "brood_boxes") > 0 or not honey)
    return calls + [(CallKind.UNLOAD, place, None) for place in dict.fromkeys(ends)]


def total(trip: Iterable[Visit], field: str, *jobs: Job) -> int:
    """Sum one figure over a trip, of some jobs or of all."""
    return sum(getattr(a, field) for v in trip for a in v.actions if not jobs or a.job in jobs)


def person_seconds(outfit: Outfit, visit: Visit) -> int:
    """The work at one stop."""
    pace, yard, seconds = outfit.pace, outfit.yard(visit.yard), 0
    for act in visit.actions:
        each = {
            Job.BOARDS: pace.board_s,
            Job.FEED: pace.feed_s,
            Job.STRIPS: pace.strips_s,
            Job.TAKE_OFF: pace.inspect_s,
        }
        seconds += (
            act.pieces * pace.block_s if act.job is Job.BLOCK else act.colonies * each[act.job]
        )
        if act.job is Job.TAKE_OFF:
            way = act.way or yard.clearing
            seconds += (act.boxes + act.brood_boxes) * pace.clear_box_s(way)
            if way in {Clearing.BOARDS, Clearing.WARM_BOARD}:
                seconds += up(act.boxes * pace.left_in_permille, 1000) * pace.clear_box_s(
                    Clearing.BRUSH
                )
    return seconds


class Plain(NamedTuple):
    """One call ready to be timed: the drive to it, its work, its hours, its earliest end."""

    drive_min: int
    work_min: int
    hours: list[Span]
    end_from_min: int


class Clock:
    """Times a day: drives, work and hours of its calls, each worked out once."""

    def __init__(self, outfit: Outfit) -> None:
        self.outfit = outfit
        self.seconds = cache(self._seconds)
        self.hours = cache(self._hours)
        self.calls = cache(self._calls)

    def laid_out(self, outing: Outing) -> tuple[list[Plain], int] | None:
        """All calls of a day in order, and the drive home; None where a road is missing."""
        here, plain = self.outfit.home.place, []
        for trip in outing.trips:
            for place, visit, fixed, shared in self.calls(trip, outing.day):
                drive = self.leg(outing, here, place)
                if drive is None:
                    return None
                hours, end_from = self.hours(place, visit, outing.day)
                plain.append(
                    Plain(drive, fixed + up(shared, 60 * len(outing.crew)), hours, end_from)
                )
                here = place
        home = self.leg(outing, here, self.outfit.home.place)
        return None if home is None else (plain, home)

    def leg(self, outing: Outing, a: int, b: int) -> int | None:
        """Minutes of a drive."""
        slowest = min(
            outing.truck.speed_permille, outing.trailer.speed_permille if outing.trailer else 10**6
        )
        minutes = self.outfit.travel.minutes[a][b]
        return None if minutes is None else up(minutes * 1000, slowest)

    def _seconds(self, visit: Visit) -> int:
        return person_seconds(self.outfit, visit)

    def _calls(self, trip: tuple[Visit, ...], day: int) -> list[tuple[int, Visit | None, int, int]]:
        """Place, visit, minutes whoever works, and person-seconds of every call of a trip."""
        outfit, pace = self.outfit, self.outfit.pace
        found: list[tuple[int, Visit | None, int, int]] = []
        here = ""
        for kind, place, visit in stations(outfit, trip, day):
            if visit is not None:
                held = outfit.yard(visit.yard).health in {Health.SUSPECT, Health.STANDSTILL}
                # A further call of the yard it stands at needs no gate, suits and smoker again.
                fixed = pace.setup_min + (pace.wash_min if held else 0)
                found.append(
                    (place, visit, 0 if visit.yard == here else fixed, self.seconds(visit))
                )
                here = visit.yard
            elif kind is CallKind.LOAD:
                found.append(
                    (place, None, pace.load_min + up(total(trip, "ml"), pace.pump_ml_per_min), 0)
                )
            else:
                boxes = total(trip, "boxes") * (place == outfit.honey_house.base.place)
                boxes += total(trip, "brood_boxes") * (place == outfit.feed_store.place)
                found.append((place, None, pace.unload_min, boxes * pace.unload_box_s))
        return found

    def _hours(self, place: int, visit: Visit | None, day: int) -> tuple[list[Span], int]:
        """The hours in which a call may lie, and when it may end at the earliest."""
        outfit, start = self.outfit, day * DAY_MIN
        if visit is None:
            mine = [b for b in (outfit.feed_store, outfit.honey_house.base) if b.place == place]
            return [
                Span(
                    start + max(b.opens_min for b in mine), start + min(b.closes_min for b in mine)
                )
            ], 0
        yard, jobs = outfit.yard(visit.yard), {a.job for a in visit.actions}
        masks: list[tuple[Span, ...]] = [
            (yard.sun_spans[day],),
            (Span(start + yard.access.opens_min, start + yard.access.closes_min),),
        ]
        masks += [yard.open_spans] * bool(jobs & {Job.BOARDS, Job.TAKE_OFF})
        masks += [yard.feed_spans] * (Job.FEED in jobs)
        masks += [join((*yard.open_spans, *yard.feed_spans))] * (Job.STRIPS in jobs)
        fit = [Span(start, start + DAY_MIN)]
        for mask in masks:
            both = [
                Span(max(a.start_min, b.start_min), min(a.end_min, b.end_min))
                for a in fit
                for b in mask
            ]
            fit = sorted(s for s in both if s.start_min < s.end_min)
        sunrise = yard.sun_spans[day + 1].start_min
        storms = [s.end_min for s in yard.unsettled_spans if s.start_min < sunrise]
        return fit, max(storms, default=0) if Job.TAKE_OFF in jobs else 0


def clocked(plain: Sequence[Plain], home: int, start: int) -> tuple[list[Times], int] | None:
    """Arrive, start and end of every call when leaving home at ``start``, and the end."""
    now, times = start, []
    for drive, work, hours, end_from in plain:
        arrive = now + drive
        for span in hours:
            begin = max(arrive, span.start_min, end_from - work)
            if begin + work <= span.end_min:
                break
        else:
            return None
        now = begin + work
        times.append((arrive, begin, now))
    return times, now + home
