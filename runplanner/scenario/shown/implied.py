"""What the facts of an outfit imply, for `check`: masses, litres, loads, hours, warnings."""

from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta
from math import ceil

from runplanner.days import clock, day_of
from runplanner.haulage.deck import cell_of
from runplanner.haulage.hauler import Hauler, haulers
from runplanner.haulage.reach import out_of_reach
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import BoxKind
from runplanner.outfit.yards import Health, Yard
from runplanner.phrase import Number, Part, Phrase, counted, joined, phrase, verbatim
from runplanner.scenario.places.lands import country_at
from runplanner.scenario.shown import sums
from runplanner.scenario.shown.sums import YardSum
from runplanner.scenario.shown.warm_days import last_warm_day
from runplanner.scenario.shown.warnings_given import warnings
from runplanner.trade.honey import honey_kg_per_l
from runplanner.trade.loads import Fit
from runplanner.trade.strips import in_words

Line = tuple[Phrase, Phrase]
_BINDS = {
    "weight": phrase("weight binds"),
    "deck": phrase("the deck binds"),
    "both": phrase("both bind alike"),
    "axles": phrase("the axles bind"),
}


def implied(outfit: Outfit) -> list[Line]:
    """Return what follows from the facts, as (label, value) lines; warnings come last."""
    yards = sums.yard_sums(outfit)
    lines = [
        *_totals(outfit, yards),
        *_boards(outfit),
        *_feed(outfit, yards),
        *_loads(outfit, yards),
        *_work(outfit, yards),
    ]
    return [*lines, *((phrase("warning"), text) for text in warnings(outfit, yards))]


def _totals(outfit: Outfit, yards: tuple[YardSum, ...]) -> list[Line]:
    held = [one for one in yards if not one.due.take_off]
    boxes = sums.boxes_home(yards)
    colonies = sum(one.yard.colonies for one in yards)
    season = outfit.season
    lines: list[Line] = [
        (phrase("places lie in"), _lands(outfit)),
        (
            phrase("yards"),
            phrase("{number} with {colonies} colonies", number=len(yards), colonies=colonies),
        ),
        (
            phrase("days"),
            phrase(
                "{number} from {first}, {zone}",
                number=season.n_days,
                first=season.first_date,
                zone=season.zone,
            ),
        ),
        (phrase("travel"), outfit.travel.source),
        (
            phrase("honey boxes to bring home"),
            phrase(
                "{boxes}, {mass} with boxes",
                boxes=boxes,
                mass=tonnes(sums.guessed_g(outfit, yards)),
            ),
        ),
        (phrase("honey in them"), _honey(outfit, yards)),
    ]
    if sums.boxes_g(yards) != sums.guessed_g(outfit, yards):
        lines.append((phrase("reckoned with in loads, to be safe"), tonnes(sums.boxes_g(yards))))
    if held:
        names = joined(", ", *(_state(one.yard) for one in held))
        lines.append((phrase("yards where nothing may leave"), names))
    moved = [yard.name for yard in outfit.yards if yard.licence]
    if moved:
        told = phrase("standstill, worked under a licence as typed")
        lines.append((told, verbatim(", ".join(moved))))
    if nights := list(_nights(outfit)):
        lines.append((phrase("hives moved at night"), joined(", ", *nights)))
    return lines


def _nights(outfit: Outfit) -> Iterator[Phrase]:
    """Yield before which day hives are moved, and with which truck."""
    first = date.fromisoformat(outfit.season.first_date)
    for yard in outfit.yards:
        trucks = dict(yard.carried_by)
        for day, _ in yard.sites[1:]:
            night = {"yard": yard.name, "date": (first + timedelta(days=day)).isoformat()}
            if day in trucks:
                name = outfit.truck(trucks[day]).name
                yield phrase("{yard} (before {date}, with {truck})", truck=name, **night)
            else:
                yield phrase("{yard} (before {date}, no truck named)", **night)


def _lands(outfit: Outfit) -> Phrase:
    """Return the countries of base and yards, most places first, with how many where several."""
    lands = Counter(country_at((place.lat, place.lon)) for place in outfit.places)
    told = [
        (joined("", land) if land else phrase("the open sea"), number)
        for land, number in lands.most_common()
    ]
    if len(told) == 1:
        return told[0][0]
    return joined(
        ", ", *(phrase("{land} ({number})", land=land, number=number) for land, number in told)
    )


def _honey(outfit: Outfit, yards: tuple[YardSum, ...]) -> Phrase:
    """Return the honey by mass and by volume: what tanks and drums must hold."""
    grams, water = sums.honey_g(outfit, yards), outfit.honey_house.water_permille
    return phrase(
        "about {mass}, {litres} L at {water} % water",
        mass=tonnes(grams),
        litres=ceil(grams / honey_kg_per_l(water) / 1000),
        water=Number(f"{water / 10:g}"),
    )


def _state(yard: Yard) -> Phrase:
    state = phrase("suspect") if yard.health is Health.SUSPECT else phrase("standstill")
    return phrase("{yard} ({state})", yard=yard.name, state=state)


def _boards(outfit: Outfit) -> list[Line]:
    """Return where boards lie already, and which yards may be cleared two ways."""
    lying, first = [], date.fromisoformat(outfit.season.first_date)
    for yard in outfit.yards:
        since = yard.boards_on_min
        if since is not None:
            on = first + timedelta(days=day_of(since))
            lying.append(
                phrase(
                    "{yard} ({boards}, since {date} {time})",
                    yard=yard.name,
                    boards=yard.colonies,
                    date=on.isoformat(),
                    time=clock(since),
                )
            )
    both = [
        phrase(
            "{yard} ({usual}, or {other})",
            yard=yard.name,
            usual=Phrase(yard.clearing.value),
            other=Phrase(yard.clearing_else.value),
        )
        for yard in outfit.yards
        if yard.clearing_else is not None
    ]
    lines: list[Line] = []
    if lying:
        left = outfit.kit.boards_owned - outfit.boards_lain
        told = phrase("{yards}; {left} at the store", yards=joined(", ", *lying), left=left)
        lines.append((phrase("boards on already"), told))
    if both:
        lines.append((phrase("cleared by either way, visit by visit"), joined(", ", *both)))
    return lines


def _feed(outfit: Outfit, yards: tuple[YardSum, ...]) -> list[Line]:
    ml, feed = sums.syrup_ml(yards), outfit.feed
    rounds = sorted({one.due.rounds for one in yards if one.due.rounds})
    blocks = sums.blocks(outfit, yards)
    due = phrase(
        "{litres} L of {feed}, rounds: {times}",
        litres=-(-ml // 1000),
        feed=feed.name,
        times=" | ".join(str(number) for number in rounds) or "0",
    )
    lines = [(phrase("syrup"), due)]
    if not feed.bought:
        sugar: Phrase = joined(" ", -(-sums.sugar_g(outfit, ml) // 1000), "kg")
        if feed.ready_ml:
            sugar = phrase(
                "{sugar}, beside {litres} L that stand ready",
                sugar=sugar,
                litres=feed.ready_ml // 1000,
            )
        lines.append((phrase("sugar"), sugar))
    mass = -(-blocks * outfit.kit.block_g // 1000)
    if last := last_warm_day(outfit, yards):
        lines.append((phrase("last day warm enough for syrup"), last))
    return [
        *lines,
        (
            phrase("fondant blocks"),
            phrase("at most {blocks} at take-off, {mass} kg", blocks=blocks, mass=mass),
        ),
        (phrase("strips"), _strips(outfit, yards)),
    ]


def _strips(outfit: Outfit, yards: tuple[YardSum, ...]) -> Phrase:
    """Return the strips that go in, by substance; the usual one comes first."""
    given = sums.strips(outfit, yards)
    some = {substance: number for substance, number in given.items() if number} or given
    told = (
        phrase("{strips} of {substance}", strips=number, substance=in_words(substance))
        for substance, number in some.items()
    )
    return joined(", ", *told)


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
        # A box rides whole on truck or trailer.
        by_limits, by_mass = (
            min(way.load_max_g // each, truck_g // each + way.trailer_g // each)
            for truck_g in (way.truck_g, max(0, way.bears()[1]))
        )
        by_deck = deck_boxes(outfit, way)
        binds = Fit(by_deck, by_mass).binds()
        if binds == "weight" and by_mass < by_limits:
            binds = "axles"
        loads = phrase(
            "{weight} by weight ({by_mass} boxes a load), {deck} by deck ({by_deck} boxes); "
            "{binds}",
            weight=_times(boxes, by_mass), by_mass=by_mass,
            deck=_times(boxes, by_deck), by_deck=by_deck, binds=_BINDS[binds],
        )  # fmt: skip
        lines.append((phrase("truckloads of honey, {name}", name=_name(way)), loads))
    big = [one.yard.name for one in yards if one.due.take_off and _too_big(outfit, ways, one)]
    lines.append(
        (phrase("yards too big for one load"), verbatim(", ".join(big)) if big else phrase("none"))
    )
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


def _name(way: Hauler) -> Phrase:
    crew = counted("one person", "{number} people", way.crew)
    if way.trailer is None:
        return joined(", ", way.truck.name, crew)
    pulled = phrase("{truck} with {trailer}", truck=way.truck.name, trailer=way.trailer.name)
    return joined(", ", pulled, crew)


def deck_boxes(outfit: Outfit, way: Hauler) -> int:
    """Return how many boxes of the commonest kind stand on the deck, nothing else aboard."""
    kind = main_box(outfit)
    return way.places(*cell_of(outfit, [kind])) * way.high(kind)


def _times(boxes: int, each: int) -> Part:
    return phrase("never") if each < 1 else -(-boxes // each)


def _too_big(outfit: Outfit, ways: list[Hauler], one: YardSum) -> bool:
    """Tell whether no way of going out brings all of the yard's boxes at once.

    What nothing can reach is not too big: a warning tells of it.
    """
    if out_of_reach(outfit, one.yard):
        return False
    kind = outfit.box(one.yard.box)
    boxes, each_g = one.yard.boxes, one.yard.box_g
    return not any(
        boxes * each_g <= way.load_for(one.yard.access) and boxes <= way.boxes(kind, each_g)
        for way in ways
    )


def _work(outfit: Outfit, yards: tuple[YardSum, ...]) -> list[Line]:
    off, feed = sum(one.take_off_s for one in yards), sum(one.feed_s for one in yards)
    strips = sum(one.strips_s for one in yards)
    rest = sums.blocks(outfit, yards) * outfit.pace.block_s
    boxes = sums.boxes_home(yards)
    # Fondant goes on at take-off, and boxes are unloaded on its day.
    on_fit = off + rest + boxes * outfit.pace.unload_box_s
    total = on_fit + feed + strips
    off_yards = [one.yard for one in yards if one.due.take_off]
    days = {day for yard in off_yards for day in sums.take_off_days(outfit, yard)}
    spin = spin_people_h(outfit, boxes)
    work = phrase(
        "{off} h take-off, {feed} h feed, {strips} h strips, {rest} h fondant (person-hours, no "
        "driving)",
        off=_hours(off), feed=_hours(feed), strips=_hours(strips), rest=_hours(rest),
    )  # fmt: skip
    lines = [
        (phrase("work on the colonies"), work),
        (phrase("spinning"), phrase("{hours} person-hours at the best rate", hours=spin)),
        (phrase("days fit for take-off"), joined("", len(days))),
    ]
    if days and boxes:
        busiest = phrase(
            "at least {boxes} boxes come off, and at least {hours} person-hours of work at yards "
            "and unloading (as if shared evenly over all days, take-off over those fit for it)",
            boxes=-(-boxes // len(days)),
            hours=-(
                -max(total * len(days), on_fit * outfit.season.n_days)
                // (3600 * len(days) * outfit.season.n_days)
            ),
        )
        lines.append((phrase("busiest day"), busiest))
    return lines


def spin_people_h(outfit: Outfit, boxes: int) -> int:
    """Return the fewest person-hours for spinning so many boxes, by the rates typed."""
    rates = list(enumerate(outfit.honey_house.boxes_per_h))[1:]
    return min((-(-boxes * people // rate) for people, rate in rates if rate), default=0)


def tonnes(grams: int) -> Phrase:
    """Return a mass in tonnes, two places, rounded up."""
    hundredths = -(-grams // 10_000)
    return joined(" ", Number(f"{hundredths // 100}.{hundredths % 100:02d}"), "t")


def _hours(seconds: int) -> int:
    return -(-seconds // 3600)
