"""Boxes and cans too heavy for one person to lift, and the trips on which one person has to."""

from runplanner.daybook.trip import Call, Shift, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import typed_box_g
from runplanner.paperwork.driver.loading import SMALLEST_TANK_ML, fills
from runplanner.paperwork.speech.say import kg_down, kg_up, listed, tenths
from runplanner.paperwork.speech.tongue import tr
from runplanner.trade.boxes import HAND_LIMIT_G


def lifting(outfit: Outfit, shift: Shift, trip: Trip) -> tuple[str, str] | None:
    """Return what to do and why, where boxes of a trip are heavy; None where none are."""
    stops = _heavy_stops(outfit, trip)
    if not stops:
        return None
    heavy = listed(tuple(_stop_words(outfit, call, number) for number, call in stops))
    limit = kg_down(HAND_LIMIT_G)
    if len(shift.crew) > 1:
        return tr("Lift with two"), tr(
            "boxes over {limit} kg, a guide and no limit: {stops}.", limit=limit, stops=heavy
        )
    return tr("Do not lift alone"), tr(
        "boxes over {limit} kg, a guide and no limit; local rules come first: {stops}. Use a "
        "hoist, or move such a box frame by frame, which takes longer than planned; or take "
        "somebody along.",
        limit=limit, stops=heavy,
    )  # fmt: skip


def lifts_alone(outfit: Outfit, shift: Shift, trip: Trip) -> bool:
    """Tell whether one person without help takes off heavy boxes on a trip."""
    return len(shift.crew) == 1 and bool(_heavy_stops(outfit, trip))


def heavy_cans(outfit: Outfit, shift: Shift, trip: Trip) -> tuple[str, ...]:
    """Return the cans over the lifting filter as they leave base, each kind with the heaviest.

    Two people bear hardly more than one here: two thirds of what each of them may (HSE L23, from
    memory).
    """
    heavy: dict[str, int] = {}
    for fill in fills(outfit, shift, trip):
        grams = fill.container.empty_g - (-fill.ml * outfit.feed.density_g_per_l // 1000)
        if fill.container.holds_ml < SMALLEST_TANK_ML and grams > HAND_LIMIT_G:
            heavy[fill.name] = max(grams, heavy.get(fill.name, 0))
    return tuple(
        tr("{container} ({mass} kg)", container=name, mass=kg_up(grams))
        for name, grams in heavy.items()
    )


def _heavy_stops(outfit: Outfit, trip: Trip) -> list[tuple[int, Call]]:
    """Return the stops, with their numbers, at which boxes over the lifting filter come off."""
    return [
        (number, call) for number, call in enumerate(trip.yards(), start=1)
        if heavy_boxes(outfit, call)
    ]  # fmt: skip


def heavy_boxes(outfit: Outfit, call: Call) -> bool:
    """Tell whether boxes over the lifting filter come off at a call."""
    return call.takes_boxes() and outfit.yard(call.yard).box_g > HAND_LIMIT_G


def _stop_words(outfit: Outfit, call: Call, number: int) -> str:
    """Return a stop with its boxes' mass: the guess, and what they count for where that is more."""
    counted, guess = outfit.yard(call.yard).box_g, typed_box_g(outfit, call.yard)
    if counted == guess:
        return tr("stop {number} about {mass} kg", number=number, mass=tenths(counted))
    return tr(
        "stop {number} guessed {guess} kg, up to {mass} kg",
        number=number, guess=tenths(guess), mass=tenths(counted),
    )  # fmt: skip
