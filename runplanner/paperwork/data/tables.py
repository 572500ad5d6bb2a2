"""The plan as tables: pandas frames, and CSV that no spreadsheet takes for formulas.

The only door for pandas among the papers.
"""

from typing import TYPE_CHECKING

from runplanner.daybook.plan import Plan, Undone
from runplanner.daybook.trip import Action, Call, Job, Shift, Trip
from runplanner.days import clock, day_of
from runplanner.paperwork.escape import csv_cell
from runplanner.paperwork.speech.living import for_the_living
from runplanner.paperwork.speech.say import iso
from runplanner.paperwork.speech.sums import HEADS
from runplanner.paperwork.speech.trip_state import TripState, trip_state
from runplanner.paperwork.stop.honey import Lot, lots
from runplanner.paperwork.stop.one_stop import as_driven
from runplanner.paperwork.stop.way import trip_span

if TYPE_CHECKING:
    import pandas as pd

Row = dict[str, object]
TABLE_NAMES = ("trips", "stops", "loads", "honey_house", "undone", "costs")


def plan_tables(plan: Plan) -> "dict[str, pd.DataFrame]":
    """Return the plan's tables by name: trips, stops, loads, honey_house, undone, costs.

    Text stands as it was typed.  Units stand in the columns' names: kg, litres (L), and the
    currency beside each sum; times are local.  Lots arrive when their truck does, and are
    unloaded when that is done.  Stops are counted and numbered as drivers' papers do: two calls
    at one yard with no drive between are one, and those still to come of a truck that is out
    are for the colonies that live.  The plan itself holds whole grams, millilitres, minutes
    and cents.
    """
    import pandas as pd

    driven = as_driven(for_the_living(plan))
    made = {
        "trips": (_TRIPS, [_trip(plan, *one) for one in _trips(driven)]),
        "stops": (_STOPS, _stops(driven)),
        "loads": (_LOADS, _loads(driven)),
        "honey_house": (_LOTS, [_lot(plan, lot) for lot in lots(plan)]),
        "undone": (_UNDONE, _undone(plan)),
        "costs": (("head", "sum", "currency", "words"), _costs(plan)),
    }
    found = {name: pd.DataFrame(rows, columns=list(heads)) for name, (heads, rows) in made.items()}
    # Blank where no box is loaded; without this pandas makes 21 boxes 21.0.
    found["stops"] = found["stops"].astype({"stop_loading_at": "Int64"})
    return found


def tables_csv(plan: Plan) -> dict[str, str]:
    """Return the plan's tables as CSV text by name; each opens with a byte order mark.

    The mark is what lets common spreadsheets read UTF-8.
    """
    found = {}
    for name, frame in plan_tables(plan).items():
        # As objects, or whole numbers beside blanks become 21.0 in pandas before 3.1.
        safe = frame.astype(object).map(
            lambda cell: csv_cell(cell) if isinstance(cell, str) else cell
        )
        found[name] = "\ufeff" + str(safe.to_csv(index=False, lineterminator="\r\n"))
    return found


def table_words(plan: Plan) -> dict[str, list[list[str]]]:
    """Return the plan's tables by name as rows of text, the heads first; blank where empty."""
    return {
        name: [
            [str(head) for head in frame.columns],
            *frame.astype(object).where(frame.notna(), "").astype(str).to_numpy().tolist(),
        ]
        for name, frame in plan_tables(plan).items()
    }


_TRIPS = (
    "trip", "date", "truck", "trailer", "driver", "crew", "starts", "ends", "stops", "boxes",
    "syrup_L", "blocks", "boards", "strips", "driven", "truck_name", "crew_names", "wet_up",
    "wet_down",
)  # fmt: skip
_STOPS = (
    "trip", "date", "stop", "yard", "yard_name", "arrives", "starts", "leaves", "latest", "job",
    "colonies", "round", "boxes", "brood_boxes", "syrup_L", "pieces", "boards_off", "feeders",
    "stop_loading_at", "wet_boxes", "substance", "feeders_off", "clearing",
)  # fmt: skip
_LOADS = (
    "trip", "date", "leaving", "place", "at", "boxes", "brood_boxes", "syrup_L", "blocks",
    "boards", "strips", "feeders", "load_kg", "load_max_kg", "places", "places_max", "wet_boxes",
)  # fmt: skip
_LOTS = (
    "lot", "yard", "yard_name", "trip", "boxes", "arrives_date", "arrives", "spin_by_date",
    "spin_by", "hard", "first_spun_date", "first_spun", "last_spun_date", "last_spun",
    "unloaded_date", "unloaded",
)  # fmt: skip
_UNDONE = (
    "yard", "yard_name", "job", "colonies", "stores_kg", "why", "cost", "worth", "currency",
    "colony_days",
)  # fmt: skip


def _trips(plan: Plan) -> list[tuple[Shift, Trip]]:
    return [(shift, trip) for shift in plan.shifts for trip in shift.trips]


def _trip(plan: Plan, shift: Shift, trip: Trip) -> Row:
    first, out = trip.calls[0], trip_span(shift, trip)
    people = {one.id: one.name for one in plan.outfit.people}
    return {
        "trip": trip.id,
        "date": iso(plan.outfit, shift.day),
        "truck": shift.truck,
        "trailer": shift.trailer,
        "driver": shift.crew[0],
        "crew": " ".join(shift.crew),
        "starts": clock(out.start_min),
        "ends": clock(out.end_min),
        "stops": len(trip.yards()),
        "boxes": trip.boxes(),
        "syrup_L": first.after.ml / 1000,
        "blocks": first.after.blocks,
        "boards": first.after.boards,
        "strips": first.after.strips,
        "driven": trip_state(plan, trip) is TripState.DRIVEN,
        "truck_name": plan.outfit.truck(shift.truck).name,
        "crew_names": ", ".join(people[one] for one in shift.crew),
        "wet_up": _wet(trip, Job.WET_UP),
        "wet_down": _wet(trip, Job.WET_DOWN),
    }


def _wet(trip: Trip, job: Job) -> int:
    return sum(one.wet for call in trip.calls for one in call.actions if one.job is job)


def _stops(plan: Plan) -> list[Row]:
    return [
        _stop(plan, shift, trip, number, call, action)
        for shift, trip in _trips(plan)
        for number, call in enumerate(trip.yards(), start=1)
        for action in call.actions
    ]


def _stop(plan: Plan, shift: Shift, trip: Trip, number: int, call: Call, action: Action) -> Row:
    return {
        "trip": trip.id,
        "date": iso(plan.outfit, shift.day),
        "stop": number,
        "yard": call.yard,
        "yard_name": plan.outfit.yard(call.yard).name,
        "arrives": clock(call.arrive_min),
        "starts": clock(call.start_min),
        "leaves": clock(call.leave_min),
        "latest": clock(call.latest_leave_min),
        "job": action.job.value,
        "colonies": action.colonies,
        "round": action.round,
        "boxes": action.boxes,
        "brood_boxes": action.brood_boxes,
        "syrup_L": action.ml / 1000,
        "pieces": action.pieces,
        "boards_off": action.boards_off,
        "feeders": action.feeders,
        "stop_loading_at": call.boxes_limit if action.boxes else None,
        "wet_boxes": action.wet,
        "substance": _substance(plan, call, action),
        "feeders_off": action.feeders_off,
        "clearing": _way(plan, call, action),
    }


def _substance(plan: Plan, call: Call, action: Action) -> str:
    kind = plan.outfit.strips_at(plan.outfit.yard(call.yard))
    return kind.substance if action.job is Job.STRIPS else ""


def _way(plan: Plan, call: Call, action: Action) -> str:
    """Return how a take-off clears the boxes."""
    return (action.way or plan.outfit.yard(call.yard).clearing).value if action.boxes else ""


def _loads(plan: Plan) -> list[Row]:
    return [
        {
            "trip": trip.id,
            "date": iso(plan.outfit, shift.day),
            "leaving": call.kind.value,
            "place": plan.outfit.places[call.place].name,
            "at": clock(call.leave_min),
            **_aboard(call),
        }
        for shift, trip in _trips(plan)
        for call in trip.calls
    ]


def _aboard(call: Call) -> Row:
    after = call.after
    return {
        "boxes": after.boxes,
        "brood_boxes": after.brood_boxes,
        "syrup_L": after.ml / 1000,
        "blocks": after.blocks,
        "boards": after.boards,
        "strips": after.strips,
        "feeders": after.feeders,
        "load_kg": after.load_g / 1000,
        "load_max_kg": after.load_max_g / 1000,
        "places": after.places,
        "places_max": after.places_max,
        "wet_boxes": after.wet,
    }


def _lot(plan: Plan, lot: Lot) -> Row:
    return {
        "lot": lot.code,
        "yard": lot.yard,
        "yard_name": plan.outfit.yard(lot.yard).name,
        "trip": lot.trip,
        "boxes": lot.boxes,
        "hard": lot.hard,
        **_when(plan, "arrives", lot.here_min),
        **_when(plan, "spin_by", lot.spin_by_min),
        **(_when(plan, "first_spun", lot.starts[0]) if lot.starts else {}),
        **(_when(plan, "last_spun", lot.starts[-1]) if lot.starts else {}),
        **_when(plan, "unloaded", lot.arrive_min),
    }


def _when(plan: Plan, name: str, minute: int) -> Row:
    return {f"{name}_date": iso(plan.outfit, day_of(minute)), name: clock(minute)}


def _undone(plan: Plan) -> list[Row]:
    return [
        {
            "yard": one.yard,
            "yard_name": plan.outfit.yard(one.yard).name,
            "job": one.job.value,
            "colonies": one.colonies,
            "stores_kg": one.stores_g / 1000,
            "colony_days": one.colony_days,
            "why": "; ".join(one.why),
            **(_dear(plan, one) if one.cost_cents else {}),
        }
        for one in plan.undone
    ]


def _dear(plan: Plan, one: Undone) -> Row:
    return {
        "cost": one.cost_cents / 100,
        "worth": one.worth_cents / 100,
        "currency": plan.outfit.prices.currency,
    }


def _costs(plan: Plan) -> list[Row]:
    bill, currency = plan.bill, plan.outfit.prices.currency
    heads = [(name, getattr(bill, name), HEADS[name]) for name in bill.__dataclass_fields__]
    lines = [
        *heads,
        ("total", bill.total(), "in all"),
        ("bound", plan.bound.cents, "no plan can cost less than"),
    ]
    return [
        {"head": head, "sum": cents / 100, "currency": currency, "words": words}
        for head, cents, words in lines
    ]
