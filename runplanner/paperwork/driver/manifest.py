"""The driver's paper for one trip, as a plain sheet; see manifest_page for its look.

No money stands on it.
"""

from dataclasses import dataclass, replace
from enum import StrEnum

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, CallKind, Shift, Trip
from runplanner.days import Span, clock
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.driver.cautions import cautions, unknown
from runplanner.paperwork.driver.if_late import if_late
from runplanner.paperwork.driver.load_cautions import over_alone
from runplanner.paperwork.driver.loading import Goods, goods, on_each
from runplanner.paperwork.driver.sooner import sooner_words, unheld_words
from runplanner.paperwork.escape import shown
from runplanner.paperwork.lists.held import strips_in_since
from runplanner.paperwork.lists.strips_at_stop import out_here
from runplanner.paperwork.speech.caution import Caution
from runplanner.paperwork.speech.say import (
    count,
    crew_words,
    date_words,
    duration,
    kg_down,
    kg_up,
    listed,
    litres,
    lot_code,
    place_name,
    sentence,
    stretch,
    tenths,
    vehicle_name,
    yard_name,
)
from runplanner.paperwork.speech.tongue import mark, tr, trn
from runplanner.paperwork.speech.trip_state import TripState, call_over, trip_state
from runplanner.paperwork.stop.health import health_words
from runplanner.paperwork.stop.one_stop import shift_as_driven, trip_as_driven
from runplanner.paperwork.stop.unloading import unload_jobs
from runplanner.paperwork.stop.yard_words import access_words, blanks, geo, stop_words


@dataclass(frozen=True, slots=True)
class Aboard:
    """What a crew checks as it leaves, in words; ``limit`` where one is near or passed.

    ``boxes`` and ``syrup`` are empty where there are none aboard.
    """

    kg: str
    places: str
    boxes: str
    syrup: str
    limit: str

    def goods(self) -> str:
        """Return deck places, boxes and syrup in one line."""
        return ", ".join(part for part in (self.places, self.boxes, self.syrup) if part)


SOON_MIN = 15
"""A break that begins so soon after a truck has come stands before the work, not in it."""


class RestAt(StrEnum):
    """Where a break stands among what is to be done at a stop."""

    FIRST = "first"
    AMID = "amid"
    LAST = "last"


@dataclass(frozen=True, slots=True)
class Step:
    """One thing a truck stands still for.

    ``number`` is the stop's number, empty at base.  ``blanks`` names what to count and fill
    in.  ``sooner`` says how many boxes fewer to stop at where its syrup stays aboard.
    ``rest`` are the breaks, ``rest_at`` where the first of them comes.  ``ends`` is set where
    the trip ends and nothing but the kit is left aboard.  ``over`` is set of what is past by the
    plan's own time: it says what was done, and nothing to watch for.
    """

    number: str
    name: str
    way: str
    arrive: str
    begin: str
    leave: str
    latest: str
    late: tuple[str, ...]
    jobs: tuple[str, ...]
    stop_at: str
    lot: str
    access: tuple[str, ...]
    phone: str
    geo: tuple[str, str]
    watch: str
    blanks: tuple[str, ...]
    aboard: Aboard
    rest: str
    home: str
    rest_at: RestAt = RestAt.LAST
    ends: bool = False
    sooner: str = ""
    over: bool = False


@dataclass(frozen=True, slots=True)
class Manifest:
    """The sheet of one trip.

    ``state`` is how far the trip is by the plan's own time.
    """

    trip: str
    title: str
    date: str
    vehicles: str
    crew: str
    part: str
    leave_home: str
    goods: tuple[Goods, ...]
    steps: tuple[Step, ...]
    cautions: tuple[Caution, ...]
    unknown: str
    state: TripState

    def stops(self) -> int:
        """Return the number of yards called at."""
        return sum(1 for step in self.steps if step.number)


def manifest(plan: Plan, shift: Shift, trip: Trip) -> Manifest:
    """Return the driver's sheet for ``trip`` of ``shift``."""
    outfit = plan.outfit
    shift, trip = shift_as_driven(outfit, shift), trip_as_driven(outfit, trip)
    number, state = [one.id for one in shift.trips].index(trip.id) + 1, trip_state(plan, trip)
    trailer = f" + {vehicle_name(outfit, shift.trailer)}" if shift.trailer else ""
    return Manifest(
        trip=trip.id,
        title=shown(outfit.title, 60),
        date=date_words(outfit, shift.day),
        vehicles=vehicle_name(outfit, shift.truck) + trailer,
        crew=crew_words(outfit, shift.crew),
        part=_part(number, len(shift.trips)),
        leave_home=_leave_home(outfit, shift) if number == 1 else "",
        goods=(
            *on_each(outfit, shift, trip),
            *goods(outfit, shift, trip, loaded=state is not TripState.TO_LOAD),
        ),
        steps=_steps(plan, shift, trip),
        cautions=cautions(outfit, shift, trip),
        unknown=unknown(outfit, trip),
        state=state,
    )


def _leave_home(outfit: Outfit, shift: Shift) -> str:
    """Return when to leave home; empty where home is the store, whose own line says it."""
    return "" if outfit.home.place == outfit.feed_store.place else clock(shift.start_min)


def _part(number: int, trips: int) -> str:
    return tr("trip {number} of {all}", number=number, all=trips) if trips > 1 else ""


def _steps(plan: Plan, shift: Shift, trip: Trip) -> tuple[Step, ...]:
    steps, number = [], 0
    alone = over_alone(plan.outfit, shift, trip)
    for index, call in enumerate(trip.calls):
        before = trip.calls[index - 1] if index else None
        number += call.kind is CallKind.YARD
        way = _way(plan, before, call)
        late = if_late(plan, shift, trip, number) if call.kind is not CallKind.UNLOAD else ()
        over = call_over(plan, call)
        rest = _rests(shift, call)
        if call.kind is CallKind.YARD:
            steps.append(_at_yard(plan, shift, trip, call, number, way=way, late=late, rest=rest))
        else:
            steps.append(_at_base(plan, shift, trip, call, way=way, late=late, rest=rest))
        if alone[index] and not _over(call):
            steps[-1] = replace(steps[-1], aboard=replace(steps[-1].aboard, limit=alone[index]))
        if over:
            steps[-1] = _past(steps[-1])
    return tuple(steps)


def _past(step: Step) -> Step:
    return replace(step, over=True, latest="", late=(), stop_at="", sooner="", access=(), phone="")


def _way(plan: Plan, before: Call | None, call: Call) -> str:
    if before is None:
        return ""
    metres = plan.outfit.travel.metres[before.place][call.place]
    minutes = duration(call.arrive_min - before.leave_min)
    return f"{minutes}, {tenths(metres)} km" if metres is not None else minutes


def _rests(shift: Shift, call: Call) -> tuple[Span, ...]:
    """Return the breaks taken from the call's arrival until the next call of the day."""
    calls = [one for trip in shift.trips for one in trip.calls]
    arrivals = [shift.start_min, *(one.arrive_min for one in calls[1:]), shift.end_min]
    place = calls.index(call)
    return tuple(
        span for span in shift.breaks if arrivals[place] <= span.start_min < arrivals[place + 1]
    )


def _rest(rests: tuple[Span, ...]) -> str:
    return listed(tuple(stretch(*span) for span in rests))


def _rest_at(call: Call, rests: tuple[Span, ...]) -> RestAt:
    """Return where the break comes: before the work, in the middle of it, or after it."""
    if not rests or rests[0].start_min >= call.leave_min:
        return RestAt.LAST
    soon = rests[0].start_min < call.arrive_min + SOON_MIN
    return RestAt.FIRST if soon else RestAt.AMID


def _at_base(  # noqa: PLR0913 - as for a yard
    plan: Plan,
    shift: Shift,
    trip: Trip,
    call: Call,
    *,
    way: str,
    late: tuple[str, ...],
    rest: tuple[Span, ...],
) -> Step:
    loading = call.kind is CallKind.LOAD
    last = call == trip.calls[-1] and trip.id == shift.trips[-1].id
    jobs = () if loading else unload_jobs(plan.outfit, trip, call)
    head = mark("Load at {place}") if loading else mark("Unload at {place}")
    return Step(
        number="",
        name=tr(head, place=place_name(plan.outfit, call.place)),
        way=way,
        arrive=clock(call.arrive_min),
        begin=_begin(call),
        leave=clock(call.leave_min),
        latest=clock(call.latest_leave_min),
        late=late,
        jobs=jobs,
        stop_at="",
        lot="",
        access=(),
        phone="",
        geo=("", ""),
        watch="",
        blanks=(),
        aboard=_aboard(call),
        rest=_rest(rest),
        rest_at=_rest_at(call, rest),
        home=clock(shift.end_min) if last else "",
        ends=call == trip.calls[-1],
    )


def _at_yard(  # noqa: PLR0913 - one argument for each thing worked out along the trip
    plan: Plan,
    shift: Shift,
    trip: Trip,
    call: Call,
    number: int,
    *,
    way: str,
    late: tuple[str, ...],
    rest: tuple[Span, ...],
) -> Step:
    outfit = plan.outfit
    yard = outfit.yard(call.yard)
    takes = call.takes_boxes()
    return Step(
        number=str(number),
        name=yard_name(yard),
        way=way,
        arrive=clock(call.arrive_min),
        begin=_begin(call),
        leave=clock(call.leave_min),
        latest=clock(call.latest_leave_min),
        late=late,
        jobs=stop_words(plan, call),
        stop_at=str(call.boxes_limit) if takes else "",
        sooner=sooner_words(plan, trip, call),
        lot=lot_code(outfit, shift.day, yard.id) if takes else "",
        access=access_words(yard.access),
        phone=shown(yard.access.phone, 40),
        geo=geo(plan, call),
        watch=_watch(plan, trip, call),
        blanks=blanks(call),
        aboard=_aboard(call),
        rest=_rest(rest),
        rest_at=_rest_at(call, rest),
        home="",
    )


def _watch(plan: Plan, trip: Trip, call: Call) -> str:
    """Return that the load does not hold, and what health and strips that are in ask of a crew."""
    load = sentence(unheld_words(plan, trip, call))
    words = [load, health_words(plan, plan.outfit.yard(call.yard), call)]
    if since := strips_in_since(plan, call):
        apart = tr(
            "Strips in since {date}: these boxes are not for people. Stack them apart, and tell "
            "the honey house.",
            date=since,
        )
        words.append(apart)
    words += [one.words() for one in out_here(plan, call)]
    return " ".join(filter(None, words))


def _begin(call: Call) -> str:
    return clock(call.start_min) if call.start_min > call.arrive_min else ""


def _aboard(call: Call) -> Aboard:
    after = call.after
    near = after.load_g * 100 >= after.load_max_g * 95 or after.places >= after.places_max
    limit = tr("Tight.") if near else ""
    return Aboard(
        kg=tr("{load} of {most} kg", load=kg_up(after.load_g), most=kg_down(after.load_max_g)),
        places=trn(
            "{taken} of {number} place",
            "{taken} of {number} places",
            after.places_max,
            taken=after.places,
        ),
        boxes=", ".join(
            words
            for number, words in (
                (after.boxes, count(after.boxes, "box", "boxes")),
                (after.wet, count(after.wet, "wet box", "wet boxes")),
            )
            if number
        ),
        syrup=litres(after.ml) if after.ml else "",
        limit=tr("Over the limit.") if _over(call) else limit,
    )


def _over(call: Call) -> bool:
    """Tell whether more is aboard than truck and trailer together may carry."""
    after = call.after
    return after.load_g > after.load_max_g or after.places > after.places_max
