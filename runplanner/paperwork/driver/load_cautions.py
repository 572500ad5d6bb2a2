"""What a driver is warned of because of the load: surge, mass, axles, the nose, straps."""

from collections.abc import Iterator, Sequence

from runplanner.daybook.trip import Shift, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import heavier_g
from runplanner.paperwork.driver.loading import SMALLEST_TANK_ML, fills
from runplanner.paperwork.escape import shown_name
from runplanner.paperwork.speech.caution import Caution
from runplanner.paperwork.speech.say import count, kg_down, kg_up, listed, litres, vehicle_name
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.stop.decks import (
    Bears,
    bears,
    carried,
    filled,
    heavier,
    pulled,
    stowed,
    strained,
)
from runplanner.trade.axles import (
    NOSE_HIGH_G,
    NOSE_LOW_G,
    axle_loads_g,
    nose_most_g,
    tanks_on_front_g,
    trailer_nose_g,
)
from runplanner.trade.lashing import (
    CAUTION,
    FRICTION,
    PRETENSION_DAN,
    RESTRAINT_PERMILLE,
    Way,
    straps_over_rows,
)

# USDA Forest Service and commercial driver manuals: surge is worst half to two-thirds full.
WORST_PERMILLE = (500, 667)
# From where on a tank is called part-filled: guessed.
PART_FULL_PERMILLE = (200, 800)
# Planed hive boxes on a plywood deck; see ``trade.lashing`` for sources.
FRICTION_PERMILLE = FRICTION[0].permille


def load_cautions(outfit: Outfit, shift: Shift, trip: Trip) -> tuple[Caution | None, ...]:
    """Return the warnings of the load, None for each that the trip does not want.

    Masses and what holds them are told for as many boxes as the stops allow.
    """
    loads = filled(outfit, shift, trip)
    return (
        _part_full(outfit, shift, trip),
        _overload(outfit, shift, loads),
        _axles(outfit, shift, loads),
        _nose(outfit, shift, loads),
        _lashing(outfit, shift, loads),
    )


def _part_full(outfit: Outfit, shift: Shift, trip: Trip) -> Caution | None:
    """Warn once, of the stop after which a tank is nearest to where surge is worst."""
    low, high = PART_FULL_PERMILLE
    found = [
        (max(WORST_PERMILLE[0] - full, full - WORST_PERMILLE[1], 0), stop, fill)
        for stop in range(1 + len(trip.yards()))
        for fill in fills(outfit, shift, trip, stop)
        for full in (1000 * fill.ml / fill.container.holds_ml,)
        if fill.container.holds_ml >= SMALLEST_TANK_ML and low < full < high
    ]
    if not found:
        return None
    _, stop, fill = min(found, key=lambda one: one[:2])
    leaving = mark(
        "{container} leaves base {share} % full ({litres}): slow into bends, brake early."
    )
    later = mark(
        "{container} surges most after stop {number}, {share} % full ({litres}): slow into bends, "
        "brake early."
    )
    share = fill.ml * 100 // fill.container.holds_ml
    parts = {"container": shown_name(fill.container.name, 24), "litres": litres(fill.ml)}
    words = tr(later if stop else leaving, share=share, number=stop, **parts)
    return Caution(tr("Surge"), words)


def _overload(outfit: Outfit, shift: Shift, loads: Sequence[Trip]) -> Caution | None:
    """Warn at the leg that would be furthest over if every box were one spread heavier.

    As planned, and with as many boxes as the stops allow; with a trailer each of the two as well.
    """
    (planned_g, first, _), *more = (_over(outfit, trip) for trip in loads)
    full_g, at_stop, boxes = max(more, default=(0, 0, 0))
    said = []
    if planned_g > 0:
        said.append(_over_words(planned_g, first))
    if full_g > max(0, planned_g):
        said.append(_over_words(full_g, at_stop, boxes))
    said += _each_over(outfit, shift, loads)
    if not said:
        return None
    words = tr(
        "boxes heavier than guessed could put it {over}: weigh a few, load fewer if in doubt.",
        over=listed(tuple(said)),
    )
    return Caution(tr("Overload"), words)


def _over_words(grams: int, stop: int, boxes: int = 0) -> str:
    """Return by how much a load is over, with the boxes where more are aboard than planned."""
    mass = kg_up(grams)
    if not boxes:
        return tr("{mass} kg over from stop {number}", mass=mass, number=stop)
    return tr(
        "{mass} kg over from stop {number} with {boxes} aboard",
        mass=mass, number=stop, boxes=count(boxes, "box", "boxes"),
    )  # fmt: skip


def _each_over(outfit: Outfit, shift: Shift, loads: Sequence[Trip]) -> Iterator[str]:
    """Yield by how much the trailer, and the truck, would be over by itself."""
    if not shift.trailer:
        return
    for vehicle in (1, 0):
        over, at, stop = max(
            (over, -number, -stop)
            for number, trip in enumerate(loads)
            for stop, over in enumerate(_legs_over(outfit, shift, trip, vehicle))
        )
        if over > 0:
            boxes = loads[-at].yards()[-stop - 1].after.boxes if at else 0
            name = vehicle_name(outfit, (shift.truck, shift.trailer)[vehicle])
            yield tr(
                "{over} on {vehicle} alone", over=_over_words(over, -stop, boxes), vehicle=name
            )


def over_alone(outfit: Outfit, shift: Shift, trip: Trip) -> list[str]:
    """Return for every call which of truck and trailer bears too much by itself; else empty."""
    strains = strained(outfit, shift, trip, trip.calls[0].after)
    names = [vehicle_name(outfit, one) for one in (shift.truck, shift.trailer)]
    said = [
        " ".join(
            tr("Over the limit on {vehicle} alone.", vehicle=name)
            for name, grams, places in zip(names, one.grams, one.places, strict=True)
            if grams or places
        )
        for one in strains
    ]
    return said + [""] * (len(trip.calls) - len(said))


def _legs_over(outfit: Outfit, shift: Shift, trip: Trip, vehicle: int) -> list[int]:
    """Return the grams that truck (0) or trailer (1) is over after each call, boxes heavier."""
    own, trailer = bears(outfit, shift, trip)
    most = (own, trailer or own)[vehicle].load_g
    legs = zip(_each_g(outfit, shift, trip), heavier(outfit, shift, trip), strict=False)
    return [more[vehicle] and leg[vehicle] + more[vehicle] - most for leg, more in legs]


def _over(outfit: Outfit, trip: Trip) -> tuple[int, int, int]:
    """Return the most grams over, at which stop, and the boxes aboard there.

    What boxes count heavier already, kept in hand, is taken off that.
    """
    extra, worst = 0, (0, 0, 0)
    for number, call in enumerate(trip.yards(), start=1):
        extra += call.boxes() * heavier_g(outfit, outfit.yard(call.yard))
        over = call.after.load_g + extra - call.after.load_max_g
        if extra and over > worst[0]:
            worst = over, number, call.after.boxes
    return worst


def _axles(outfit: Outfit, shift: Shift, loads: Sequence[Trip]) -> Caution | None:
    """Return both axles at the fullest leg, and the steered one where it is lightest."""
    truck, trailer = pulled(outfit, shift)
    axles = truck.axles
    if axles is None:
        return None
    riders = truck.fuel_g + truck.kit_g + outfit.person_g * len(shift.crew)
    nose = nose_most_g(trailer) if trailer else 0
    legs = [axle_loads_g(axles, mass, riders) for mass, _ in _legs_g(outfit, shift, loads)]
    front, rear = (max(each) for each in zip(*legs, strict=True))
    rear += nose
    least = min(leg[0] for leg in legs)
    words = tr(
        "spread evenly, front about {front} kg (allowed {limits}), rear up to {rear} of {most} kg: "
        "an estimate, a weighbridge and the plates count.",
        front=f"{kg_down(least)}\u2013{kg_up(front)}",
        limits=f"{kg_up(axles.front_min_g)}\u2013{kg_down(axles.front_max_g)}",
        rear=kg_up(rear), most=kg_down(axles.rear_max_g),
    )  # fmt: skip
    tanks = _tanks_ahead(outfit, shift, loads[0], riders)
    return Caution(tr("Axles"), f"{words} {tanks}".rstrip())


def _legs_g(outfit: Outfit, shift: Shift, loads: Sequence[Trip]) -> list[tuple[int, int]]:
    return [leg for trip in loads for leg in _each_g(outfit, shift, trip)]


def _each_g(outfit: Outfit, shift: Shift, trip: Trip) -> list[tuple[int, int]]:
    """Return the load on truck and trailer after every call, the trailer's 0 without one.

    After the last stop what is left is the containers.
    """
    way = stowed(outfit, shift, trip)
    if way is None:
        return [(call.after.load_g, 0) for call in trip.calls]
    left = [0, 0]
    for kind, behind in zip(carried(outfit, trip), way.behind, strict=True):
        left[behind] += kind.empty_g
    return [*way.legs, (left[0], left[1])]


def _tanks_ahead(outfit: Outfit, shift: Shift, trip: Trip, riders: int) -> str:
    """Return the front axle as the truck leaves its store, large tanks at the headboard.

    Empty without such tanks, or where the truck was not measured.
    """
    axles = pulled(outfit, shift)[0].axles
    tanks = [
        one for one in fills(outfit, shift, trip)
        if one.container.holds_ml >= SMALLEST_TANK_ML and not one.behind
    ]  # fmt: skip
    density = outfit.feed.density_g_per_l
    grams = sum(one.container.empty_g - (-one.ml * density // 1000) for one in tanks)
    # The shorter way along, as far ahead as they can stand: the cautious side for this axle.
    long = min((min(one.container.length_mm, one.container.width_mm) for one in tanks), default=0)
    on_front = tanks_on_front_g(axles, grams, long) if axles else None
    if not tanks or axles is None or on_front is None:
        return ""
    rest = max(0, _each_g(outfit, shift, trip)[0][0] - grams)
    front = on_front + axle_loads_g(axles, rest, riders)[0]
    if front <= axles.front_max_g:
        return tr(
            "With the tanks at the headboard about {front} kg in front as you leave.",
            front=kg_up(front),
        )
    return tr(
        "With the tanks at the headboard about {front} kg in front as you leave, more than the "
        "{most} allowed: set them further back.",
        front=kg_up(front), most=kg_down(axles.front_max_g),
    )  # fmt: skip


def _nose(outfit: Outfit, shift: Shift, loads: Sequence[Trip]) -> Caution | None:
    """Return the weight on the coupling: the usual, and an estimate where it was measured.

    With what is on the trailer as the load was reckoned; the most it may be is off the truck's.
    """
    trailer = pulled(outfit, shift)[1]
    if trailer is None:
        return None
    legs = [trailer_nose_g(trailer, mass) for _, mass in _legs_g(outfit, shift, loads)]
    known = [nose for nose in legs if nose is not None]
    usual = _usual_nose()
    if not known:
        return Caution(
            tr("Trailer nose"),
            tr("{usual} Not measured, so not taken off: leave it free on the truck.", usual=usual),
        )
    low, high = min(known), max(known)
    words = tr(
        "spread evenly about {low} to {high} kg by your measures, an estimate ({most} are taken "
        "off what the truck bears): {usual}",
        low=kg_down(low), high=kg_up(high), most=kg_up(nose_most_g(trailer)), usual=usual,
    )  # fmt: skip
    return Caution(tr("Trailer nose"), words)


def _usual_nose() -> str:
    return tr(
        "{low} to {high} kg is usual, the plates count: load over the axle and a little ahead, "
        "never behind.",
        low=kg_up(NOSE_LOW_G), high=kg_down(NOSE_HIGH_G),
    )  # fmt: skip


def _lashing(outfit: Outfit, shift: Shift, loads: Sequence[Trip]) -> Caution:
    heaviest = max(call.after.load_g for trip in loads for call in trip.calls)
    ahead, side, back = (f"{_push_kg(heaviest, way)} kg" for way in Way)
    blocked, alone = (_straps(outfit, shift, loads, way) for way in (Way.SIDEWAYS, Way.FORWARD))
    least = _least(blocked, alone, trailer=bool(shift.trailer))
    words = tr(
        "as full as allowed, it pushes up to {ahead} forwards, {side} sideways, {back} "
        "backwards. Straps over the top, {pull} daN each, one over each row of stacks: at least "
        "{least}. {caution} No bee may reach honey.",
        ahead=ahead, side=side, back=back, pull=PRETENSION_DAN, least=least, caution=CAUTION,
    )  # fmt: skip
    return Caution(tr("Lash and cover"), words)


def _straps(outfit: Outfit, shift: Shift, loads: Sequence[Trip], way: Way) -> tuple[int, int]:
    """Return how many straps the fullest legs want, as planned and as full as may be.

    With a trailer those on the truck and on the trailer, each as full as may be.
    """
    truck, trailer = bears(outfit, shift, loads[0])
    full = _straps_over(truck, loads, way)
    if trailer is not None:
        return full, _straps_over(trailer, loads, way)
    return _straps_over(truck, loads[:1], way), full


def _least(blocked: tuple[int, int], alone: tuple[int, int], *, trailer: bool) -> str:
    """Return in words what `_straps` says with the load blocked in front, and without."""
    single = not trailer and blocked[0] == blocked[1] and alone[0] == alone[1]
    if trailer:
        pair = mark("{one} on the truck and {two} on the trailer, each as full as allowed")
    else:
        pair = mark("{one} as planned, {two} as full as allowed")
    least = str(blocked[0]) if single else tr(pair, one=blocked[0], two=blocked[1])
    if alone == blocked:
        return least
    more = str(alone[0]) if single else listed((str(alone[0]), str(alone[1])))
    return tr("{least}; if nothing blocks the load in front, {more}", least=least, more=more)


def _straps_over(vehicle: Bears, loads: Sequence[Trip], way: Way) -> int:
    load_g = max(call.after.load_g for trip in loads for call in trip.calls)
    places = max(call.after.places for trip in loads for call in trip.calls)
    mass_g = max(0, min(load_g, vehicle.load_g))
    return straps_over_rows(mass_g, FRICTION_PERMILLE, way, vehicle.rows_of(places))


def _push_kg(mass_g: int, way: Way) -> int:
    return kg_up(-(-mass_g * RESTRAINT_PERMILLE[way] // 1000))
