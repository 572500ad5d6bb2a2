"""What nobody has counted yet and is presumed done as planned: at which stops, and what."""

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action
from runplanner.paperwork.changed.work_words import figures
from runplanner.paperwork.speech.say import yard_named
from runplanner.paperwork.speech.tongue import tr


def presumed_words(plan: Plan, trip_id: str, yard: str) -> str:
    """Return a stop with what is presumed done there: "Old Mill (TRIP): take-off 12 (18 boxes)"."""
    stop = f"{yard_named(plan.outfit, yard)} ({trip_id})"
    work = ", ".join(figures(_uncounted(plan, trip_id, yard)))
    return tr("{stop}: {work}", stop=stop, work=work) if work else stop


def _uncounted(plan: Plan, trip_id: str, yard: str) -> tuple[Action, ...]:
    """Return what is done at the calls of a trip at a yard that have begun and nobody counted."""
    return tuple(
        action
        for shift in plan.shifts for trip in shift.trips if trip.id == trip_id
        for call in trip.yards()
        if call.yard == yard and call.counted is None and call.start_min <= plan.now_min
        for action in call.actions
    )  # fmt: skip
