"""What the facts of an outfit imply, for `check`: masses, litres, loads, hours, warnings."""

from math import ceil

from runplanner.haulage.hauler import Hauler, haulers
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import BoxKind
from runplanner.outfit.yards import Health
from runplanner.scenario import sums
from runplanner.scenario.licence_part import UNDER_LICENCE
from runplanner.scenario.sums import YardSum
from runplanner.scenario.warm_days import last_warm_day
from runplanner.scenario.warnings_given import warnings
from runplanner.trade.honey import honey_kg_per_l
from runplanner.trade.loads import Fit

Line = tuple[str, str]
_BINDS = {"weight": "weight binds", "deck": "the deck binds", "both": "both bind alike"}


def implied(outfit: Outfit) -> list[Line]:
    """Return what follows from the facts, as (label, value) lines; warnings come last."""
    yards = sums.yard_sums(outfit)
    lines = [
        *_totals(outfit, yards),
        *_feed(outfit, yards),
        *_loads(outfit, yards),
        *_work(outfit, yards),
    ]
    return [*lines, *(("warning", text) for text in warnings(outfit, yards))]


def _totals(outfit: Outfit, yards: tuple[YardSum, ...]) -> list[Line]:
    held = [one for one in yards if not one.due.take_off]
    boxes = sums.boxes_home(yards)
    colonies = sum(one.yard.colonies for one in yards)
    lines = [
        ("yards", f"{len(yards)} with {colonies} colonies"),
        ("days", f"{outfit.season.n_days} from {outfit.season.first_date}, {outfit.season.zone}"),
        ("travel", outfit.travel.source),
        (
            "honey boxes to bring home",
            f"{boxes}, {tonnes(sums.guessed_g(outfit, yards))} with boxes",
        ),
        ("honey in them", _honey(outfit, yards)),
    ]
    if sums.boxes_g(yards) != sums.guessed_g(outfit, yards):
        lines.append(("reckoned with in loads, to be safe", tonnes(sums.boxes_g(yards))))
    if held:
        names = ", ".join(f"{one.yard.name} ({one.yard.health.value})" for one in held)
        lines.append(("yards where nothing may leave", names))
    watched = (yard for yard in outfit.yards if yard.health is Health.WATCH)
    moved = [yard.name for yard in watched if yard.access.notes.startswith(UNDER_LICENCE)]
    if moved:
        lines.append(("standstill, worked under a licence as typed", ", ".join(moved)))
    return lines


def _honey(outfit: Outfit, yards: tuple[YardSum, ...]) -> str:
    """Return the honey by mass and by volume: what tanks and drums must hold."""
    grams, water = sums.honey_g(outfit, yards), outfit.honey_house.water_permille
    litres = ceil(grams / honey_kg_per_l(water) / 1000)
    return f"about {tonnes(grams)}, {litres} L at {water / 10:g} % water"


def _feed(outfit: Outfit, yards: tuple[YardSum, ...]) -> list[Line]:
    ml, feed = sums.syrup_ml(yards), outfit.feed
    rounds = sorted({one.due.rounds for one in yards if one.due.rounds})
    times = " or ".join(str(number) for number in rounds) or "no"
    blocks = sums.blocks(outfit, yards)
    lines = [("syrup", f"{-(-ml // 1000)} L of {feed.name}, {times} rounds")]
    if not feed.bought:
        lines.append(("sugar", f"{-(-sums.sugar_g(outfit, ml) // 1000)} kg"))
    mass = -(-blocks * outfit.kit.block_g // 1000)
    if last := last_warm_day(outfit, yards):
        lines.append(("last day warm enough for syrup", last))
    return [
        *lines,
        ("fondant blocks", f"at most {blocks} at take-off, {mass} kg"),
        ("strips", _strips(outfit, yards)),
    ]


def _strips(outfit: Outfit, yards: tuple[YardSum, ...]) -> str:
    """Return the strips that go in, by substance; the usual one comes first."""
    given = {outfit.strips.substance: 0}
    for one in yards:
        kind = outfit.strips_at(one.yard)
        more = one.yard.colonies * kind.per_colony if one.due.strips else 0
        given[kind.substance] = given.get(kind.substance, 0) + more
    some = {substance: number for substance, number in given.items() if number} or given
    return ", ".join(f"{number} of {substance}" for substance, number in some.items())


def main_box(outfit: Outfit) -> BoxKind:
    """Return the box kind that most honey boxes are of."""
    counts = {kind.id: 0 for kind in outfit.boxes}
    for yard in outfit.yards:
        counts[yard.box] += yard.boxes
    return max(outfit.boxes, key=lambda kind: counts[kind.id])


def _loads(outfit: Outfit, yards: tuple[YardSum, ...]) -> list[Line]:
    boxes, mass = sums.boxes_home(yards), sums.boxes_g(yards)
    lines: list[Line] = []
    if not boxes:
        return lines
    each = -(-mass // boxes)
    ways = _ways(outfit)
    for way in ways:
        by_mass, by_deck = way.load_max_g // each, deck_boxes(outfit, way)
        binds = _BINDS[Fit(by_deck, by_mass).binds()]
        loads = (
            f"{_times(boxes, by_mass)} by weight ({by_mass} boxes a load), "
            f"{_times(boxes, by_deck)} by deck ({by_deck} boxes); {binds}"
        )
        lines.append((f"truckloads of honey, {_name(way)}", loads))
    big = [one.yard.name for one in yards if one.due.take_off and _too_big(outfit, ways, one)]
    lines.append(("yards too big for one load", ", ".join(big) or "none"))
    return lines


def _ways(outfit: Outfit) -> list[Hauler]:
    """Return each truck alone and with each trailer, two people aboard where there are two."""
    found = haulers(outfit)
    crew = min(2, max((way.crew for way in found), default=1))
    fewest = {
        (way.truck.id, way.trailer.id if way.trailer else ""): way
        for way in found
        if way.crew <= crew
    }
    return list(fewest.values())


def _name(way: Hauler) -> str:
    crew = "one person" if way.crew == 1 else f"{way.crew} people"
    pulled = f" with {way.trailer.name}" if way.trailer else ""
    return f"{way.truck.name}{pulled}, {crew}"


def deck_boxes(outfit: Outfit, way: Hauler) -> int:
    """Return how many boxes of the commonest kind stand on the deck, nothing else aboard."""
    kind = main_box(outfit)
    largest = max(outfit.boxes, key=lambda box: box.length_mm * box.width_mm)
    return way.places(largest.length_mm, largest.width_mm) * way.high(kind)


def _times(boxes: int, each: int) -> str:
    return "never" if each < 1 else str(-(-boxes // each))


def _too_big(outfit: Outfit, ways: list[Hauler], one: YardSum) -> bool:
    """Tell whether no way of going out brings all of the yard's boxes at once."""
    kind = outfit.box(one.yard.box)
    boxes, mass = one.yard.boxes, one.yard.boxes * one.yard.box_g
    return not any(
        mass <= way.load_for(one.yard.access)
        and -(-boxes // max(1, way.high(kind))) <= way.places(kind.length_mm, kind.width_mm)
        for way in ways
    )


def _work(outfit: Outfit, yards: tuple[YardSum, ...]) -> list[Line]:
    off, feed = sum(one.take_off_s for one in yards), sum(one.feed_s for one in yards)
    strips = sum(one.strips_s for one in yards)
    rest = sums.blocks(outfit, yards) * outfit.pace.block_s
    boxes = sums.boxes_home(yards)
    total = off + feed + strips + rest + boxes * outfit.pace.unload_box_s
    off_yards = [one.yard for one in yards if one.due.take_off]
    days = {day for yard in off_yards for day in sums.take_off_days(outfit, yard)}
    spin = spin_people_h(outfit, boxes)
    work = (
        f"{_hours(off)} take-off, {_hours(feed)} feed, {_hours(strips)} strips, "
        f"{_hours(rest)} fondant (person-hours, no driving)"
    )
    lines = [
        ("work on the colonies", work),
        ("spinning", f"{spin} person-hours at the best rate"),
        ("days fit for take-off", str(len(days))),
    ]
    if days and boxes:
        least, hours = -(-boxes // len(days)), -(-total // 3600 // outfit.season.n_days)
        busiest = (
            f"at least {least} boxes come off, and at least {hours} person-hours of work at yards "
            "and unloading (as if shared evenly over all days)"
        )
        lines.append(("busiest day", busiest))
    return lines


def spin_people_h(outfit: Outfit, boxes: int) -> int:
    """Return the fewest person-hours for spinning so many boxes, by the rates typed."""
    rates = list(enumerate(outfit.honey_house.boxes_per_h))[1:]
    return min((-(-boxes * people // rate) for people, rate in rates if rate), default=0)


def tonnes(grams: int) -> str:
    """Return a mass in tonnes, two places, rounded up."""
    hundredths = -(-grams // 10_000)
    return f"{hundredths // 100}.{hundredths % 100:02d} t"


def _hours(seconds: int) -> str:
    return f"{-(-seconds // 3600)} h"
