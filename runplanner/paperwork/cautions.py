"""What a driver is warned of on paper; local law and the licensed come first in each."""

from dataclasses import dataclass

from runplanner.daybook.trip import Call, Job, Shift, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.trucks import Trailer, Truck
from runplanner.outfit.yards import Health
from runplanner.paperwork.escape import shown
from runplanner.paperwork.loading import fills
from runplanner.paperwork.say import (
    date_words,
    duration,
    kg_down,
    kg_up,
    listed,
    litres,
    tenths,
    yard_name,
)
from runplanner.trade.axles import NOSE_HIGH_G, NOSE_LOW_G, axle_loads_g
from runplanner.trade.boxes import HAND_LIMIT_G
from runplanner.trade.lashing import FRICTION, PRETENSION_DAN, RESTRAINT_PERMILLE, Way, straps

# USDA Forest Service and commercial driver manuals: surge is worst half to two-thirds full.
PART_FULL_PERMILLE = (200, 800)
# Common practice, no source found: a can below this does not surge enough to matter.
SMALLEST_TANK_ML = 100_000
# Planed hive boxes on a plywood deck; see ``trade.lashing`` for sources.
FRICTION_PERMILLE = FRICTION[0].permille


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning: one word to find it by, and a sentence."""

    head: str
    words: str


def cautions(outfit: Outfit, shift: Shift, trip: Trip) -> tuple[Caution, ...]:
    """Return the trip's warnings in the order in which they may bite."""
    found = (
        _part_full(outfit, trip),
        _overload(outfit, trip),
        _axles(outfit, shift, trip),
        _nose(outfit, shift),
        _lashing(trip),
        _lifting(outfit, trip),
        _health(outfit, trip),
        _medicine(outfit, shift, trip),
        _hours(outfit, shift),
    )
    return tuple(one for one in found if one is not None)


def unknown(outfit: Outfit, trip: Trip) -> str:
    """Return what this paper cannot know, plainly."""
    masses = sorted({outfit.yard(call.yard).box_g for call in trip.yards() if _boxes(call)})
    weights = "true weights"
    if masses:
        guess = "\u2013".join(dict.fromkeys((tenths(masses[0]), tenths(masses[-1]))))
        weights += f" (a full box is taken as {guess} kg)"
    source = shown(outfit.travel.source, 80)
    return (
        f"Not known here: traffic, the state of road and track, today's weather, {weights}. "
        f"Drive times: {source}."
    )


def _boxes(call: Call) -> int:
    return sum(action.boxes for action in call.actions)


def _part_full(outfit: Outfit, trip: Trip) -> Caution | None:
    low, high = PART_FULL_PERMILLE
    for fill in fills(outfit, trip):
        holds = fill.container.holds_ml
        if holds >= SMALLEST_TANK_ML and low * holds < 1000 * fill.ml < high * holds:
            name = shown(fill.container.name, 24)
            share = f"{fill.ml * 100 // holds} % full ({litres(fill.ml)})"
            return Caution("Surge", f"{name} leaves base {share}: slow into bends, brake early.")
    return None


def _overload(outfit: Outfit, trip: Trip) -> Caution | None:
    """Warn at the leg that would be furthest over if every box were one spread heavier."""
    extra, worst, at_stop = 0, 0, 0
    for number, call in enumerate(trip.yards(), start=1):
        yard = outfit.yard(call.yard)
        extra -= -_boxes(call) * yard.box_g * yard.box_spread_permille // 1000
        over = call.after.load_g + extra - call.after.load_max_g
        if extra and over > worst:
            worst, at_stop = over, number
    if not worst:
        return None
    return Caution(
        "Overload",
        f"boxes heavier than guessed could put it {kg_up(worst)} kg over from stop {at_stop}: "
        "weigh a few, load fewer if in doubt.",
    )


def _axles(outfit: Outfit, shift: Shift, trip: Trip) -> Caution | None:
    """Return both axles at the fullest leg, and the steered one where it is lightest."""
    truck, trailer = _pulled(outfit, shift)
    axles = truck.axles
    if axles is None:
        return None
    riders = truck.fuel_g + truck.kit_g + outfit.person_g * len(shift.crew)
    behind = trailer.max_g - trailer.empty_g if trailer else 0
    legs = [axle_loads_g(axles, max(0, call.after.load_g - behind), riders) for call in trip.calls]
    front, rear = (max(each) for each in zip(*legs, strict=True))
    least = min(leg[0] for leg in legs)
    return Caution(
        "Axles",
        f"spread evenly, front about {kg_down(least)}\u2013{kg_up(front)} kg (allowed "
        f"{kg_up(axles.front_min_g)}\u2013{kg_down(axles.front_max_g)}), rear up to {kg_up(rear)} "
        f"of {kg_down(axles.rear_max_g)} kg: an estimate, a weighbridge and the plates count.",
    )


def _nose(outfit: Outfit, shift: Shift) -> Caution | None:
    trailer = _pulled(outfit, shift)[1]
    if trailer is None:
        return None
    return Caution(
        "Trailer nose",
        f"{kg_up(NOSE_LOW_G)} to {kg_down(NOSE_HIGH_G)} kg is usual, the plates count: load over "
        "the axle and a little ahead, never behind.",
    )


def _pulled(outfit: Outfit, shift: Shift) -> tuple[Truck, Trailer | None]:
    truck = next(one for one in outfit.trucks if one.id == shift.truck)
    return truck, next((one for one in outfit.trailers if one.id == shift.trailer), None)


def _lashing(trip: Trip) -> Caution:
    heaviest = max(call.after.load_g for call in trip.calls)
    ahead, side, back = (f"{_push_kg(heaviest, way)} kg" for way in Way)
    alone = straps(heaviest, FRICTION_PERMILLE, Way.FORWARD)
    blocked = straps(heaviest, FRICTION_PERMILLE, Way.SIDEWAYS)
    return Caution(
        "Lash and cover",
        f"the fullest load pushes up to {ahead} forwards, {side} sideways, {back} backwards. "
        f"Straps over the top, {PRETENSION_DAN} daN each: {blocked} if blocked in front, {alone} "
        "if not (wood on ply, EN 12195-1; an estimate). No bee may reach honey.",
    )


def _push_kg(mass_g: int, way: Way) -> int:
    return kg_up(-(-mass_g * RESTRAINT_PERMILLE[way] // 1000))


def _lifting(outfit: Outfit, trip: Trip) -> Caution | None:
    heavy = [
        f"stop {number} about {tenths(outfit.yard(call.yard).box_g)} kg"
        for number, call in enumerate(trip.yards(), start=1)
        if _boxes(call) and outfit.yard(call.yard).box_g > HAND_LIMIT_G
    ]
    if not heavy:
        return None
    limit = kg_down(HAND_LIMIT_G)
    return Caution(
        "Lift with two", f"boxes over {limit} kg, a guide and no limit: {listed(tuple(heavy))}."
    )


def _health(outfit: Outfit, trip: Trip) -> Caution | None:
    held = [
        f"{yard_name(yard)} ({yard.health.value})"
        for call in trip.yards()
        if (yard := outfit.yard(call.yard)).health is not Health.SOUND
    ]
    if not held:
        return None
    return Caution("Health", f"{listed(tuple(held))}: own tools, clean hands and kit afterwards.")


def _medicine(outfit: Outfit, shift: Shift, trip: Trip) -> Caution | None:
    if not any(action.job is Job.STRIPS for call in trip.yards() for action in call.actions):
        return None
    out = outfit.strips
    due = " to ".join(
        date_words(outfit, shift.day + days) for days in (out.out_after_days, out.out_before_days)
    )
    return Caution(
        "Medicine",
        "the product's leaflet, your vet and local law go first. Whole yard the same day, away "
        f"from honey; write batch and date down. Out again {due}.",
    )


def _hours(outfit: Outfit, shift: Shift) -> Caution:
    limit = outfit.hours
    return Caution(
        "Hours",
        f"driving {duration(shift.driving_min)} of {duration(limit.driving_max_min)} allowed, "
        f"duty {duration(shift.end_min - shift.start_min)} of {duration(limit.duty_max_min)}; "
        "local law goes first.",
    )
