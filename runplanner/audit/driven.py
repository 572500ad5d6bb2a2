"""What has been driven: it is past judging, it is not rewritten, and nothing new is in the past."""

from collections.abc import Iterator

from runplanner.audit.book import Book
from runplanner.audit.findings import Breach, Breaches, called_in, when
from runplanner.daybook.plan import Mixing, Plan, Spinning
from runplanner.daybook.trip import Against, Shift
from runplanner.phrase import phrase

STILL_ASKED = frozenset({
    "trip id", "truck twice", "trailer twice", "person twice", "two places", "clock",
    "driving figures", "home again", "break place", "driven", "past", "aboard",
})  # fmt: skip
"""Rules that hold of driven trips as well: what happened can be told, and only once.

All others judge a plan before it is driven; what has come to be known since (a window that
shut, true counts, somebody away) cannot make a trip wrong that is over or under way.  What has
not begun is judged all the same, whatever trip it belongs to: mixing, spinning and calls to come.
"""

_TOLD = {
    Against.HEALTH: frozenset({"health", "work minutes"}),
    Against.WASH: frozenset({"work minutes"}),
    Against.ORDER: frozenset({"last yard"}),
    Against.BEHIND: frozenset({"last yard"}),
    Against.LOAD: frozenset({"mass", "deck", "axles", "access", "shared"}),
    Against.HOURS: frozenset({
        "gate", "daylight", "open hours", "feed hours", "strips hours", "dry hours",
        "strips weather", "settling", "base hours",
    }),
}  # fmt: skip
"""The rules that a call breaks by what its user has been told to stand against it."""


def driven_ids(plan: Plan) -> frozenset[str]:
    """Return the ids of the trips that have been driven."""
    return frozenset(trip.id for shift in plan.shifts for trip in shift.trips if trip.driven)


def excused(rule: str, breach: Breach, driven: frozenset[str]) -> bool:
    """Tell whether a breach is of a rule that does not ask about trips already driven.

    Of calls to come all rules of their own ask, but for what their user knows.
    """
    if breach.trip not in driven or rule in STILL_ASKED:
        return False
    known = any(rule in _TOLD.get(one, ()) for one in breach.against)
    return known or not breach.ahead


def past(book: Book) -> Breaches:
    """Trips marked as driven have left home by now, and all others leave it later.

    A plan made before the campaign, with *now* at nought, has no past.
    """
    now = book.plan.now_min
    for run in book.runs:
        gone = 0 < now and run.shift.start_min <= now
        for trip in run.shift.trips:
            if trip.driven != gone:
                said = phrase("driven") if trip.driven else phrase("not driven")
                leaves = phrase(
                    "leaving home {start}, now {now}",
                    start=when(run.shift.start_min),
                    now=when(now),
                )
                yield Breach(phrase("marked as {said}", said=said), leaves, trip.id)


def begun(plan: Plan, start_min: int) -> bool:
    """Tell whether mixing or spinning from ``start_min`` has begun by now."""
    return 0 < plan.now_min and start_min <= plan.now_min


def rewritten(plan: Plan, before: Plan) -> Breaches:
    """A plan made again leaves alone what was driven, spun and mixed under the one before."""
    told = {(shift.day, shift.truck): shift for shift in plan.shifts}
    for shift in before.shifts:
        if begun(plan, shift.start_min):
            kept = told.pop((shift.day, shift.truck), None)
            if kept is None or _told(kept) != _told(shift):
                said = phrase(
                    "the shift of {truck} {start} is changed",
                    truck=called_in(plan.outfit.trucks, shift.truck),
                    start=when(shift.start_min),
                )
                yield Breach(
                    said, phrase("as it was driven"), shift.trips[0].id if shift.trips else ""
                )
    for shift in told.values():
        if begun(plan, shift.start_min):
            said = phrase(
                "a shift of {truck} {start}",
                truck=called_in(plan.outfit.trucks, shift.truck),
                start=when(shift.start_min),
            )
            yield Breach(said, phrase("no trips added to the past"), shift.trips[0].id)
    yield from _base_work(plan, before)


def _told(shift: Shift) -> tuple[object, ...]:
    """Return a shift without its marks of having been driven."""
    trips = tuple(
        (
            trip.id,
            trip.calls,
            trip.containers,
            trip.left,
            trip.left_strips,
            trip.brought,
            trip.stowed,
        )
        for trip in shift.trips
    )
    return (
        shift.trailer, shift.crew, shift.start_min, shift.end_min, shift.driving_min,
        shift.metres, shift.breaks, trips,
    )  # fmt: skip


def _base_work(plan: Plan, before: Plan) -> Breaches:
    for what, new, old in (
        (phrase("spinning"), plan.spinning, before.spinning),
        (phrase("mixing"), plan.mixing, before.mixing),
    ):
        if list(_begun_in(plan, new)) != list(_begun_in(plan, old)):
            yield Breach(
                phrase("{what} begun by {now} is changed", what=what, now=when(plan.now_min)),
                phrase("as it was done"),
            )


def _begun_in(
    plan: Plan, work: tuple[Spinning, ...] | tuple[Mixing, ...]
) -> Iterator[Spinning | Mixing]:
    yield from sorted(
        (one for one in work if begun(plan, one.start_min)), key=lambda one: one.start_min
    )
