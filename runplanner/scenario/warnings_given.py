"""What `check` warns of: facts that are allowed but will surprise in the field."""

from collections.abc import Iterator
from datetime import date
from itertools import combinations
from typing import Final

from runplanner.days import DAY_MIN
from runplanner.haulage.hauler import haulers
from runplanner.haulage.own_way import own_way_min
from runplanner.haulage.reach import out_of_reach
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import typed_box_g
from runplanner.outfit.yards import Clearing, Health
from runplanner.phrase import Number, Phrase, counted, joined, phrase, some_of
from runplanner.scenario import sums
from runplanner.scenario.defaults import DEFAULTS
from runplanner.scenario.lands import country_at
from runplanner.scenario.sums import YardSum
from runplanner.scenario.sun import clock_change
from runplanner.trade.axles import NOSE_HIGH_G, NOSE_LOW_G
from runplanner.trade.boxes import lift_warning
from runplanner.trade.honey import (
    FERMENTS_PERMILLE,
    HEATHER_LIMIT_PERMILLE,
    MOISTURE_LIMIT_PERMILLE,
)
from runplanner.trade.loads import CARRIERS, full_container_g, ml_for_payload
from runplanner.trade.strips import in_words, treatment
from runplanner.trade.syrup import crystals_below_c

_COOL_NIGHT_C: Final = 15.0
_SAME_SPOT_M: Final = 60
_NAMES: Final = 6
_FAR_MORE: Final = 1.5
_ROUND: Final = {
    key: str(DEFAULTS[key].said)
    for key in (
        "prices.hour", "trucks.km_cost", "trailers.km_cost", "prices.block", "prices.syrup",
        "prices.strip", "prices.late", "prices.boards_long", "prices.spin_late",
    )
}  # fmt: skip
"""Sums of money that count where none are typed."""


def warnings(outfit: Outfit, yards: tuple[YardSum, ...]) -> list[Phrase]:
    """Return every warning, most pressing first."""
    return [
        *_idle(outfit),
        *_unreached(outfit, yards),
        *_boards(outfit, yards),
        *_feeders(outfit, yards),
        *_no_day(outfit, yards),
        *_rounds(outfit, yards),
        *_hands(outfit, yards),
        *_own_ways(outfit, yards),
        *_syrup(outfit, yards),
        *_strips(outfit, yards),
        *_warm_boards(outfit),
        *_prices(outfit),
        *_payload(outfit),
        *_noses(outfit),
        *_water(outfit),
        *_at_sea(outfit),
        *_spots(outfit),
        *_off_road(outfit),
        *_boxes(outfit, yards),
        *_clock(outfit),
    ]


def _listed(names: list[str]) -> str:
    return some_of(names, _NAMES)


def _idle(outfit: Outfit) -> Iterator[Phrase]:
    """Warn where no truck has any payload left: nothing can be planned."""
    if not haulers(outfit):
        yield phrase(
            "No truck can carry anything with anyone aboard: give a truck, people who drive "
            "it, and a maximum mass above its own with fuel, kit and people."
        )


def _unreached(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn of every yard with work that nothing gets to: no road, or let in by no gate."""
    busy = (one.yard for one in yards if _busy(one))
    found = [why for yard in busy if (why := out_of_reach(outfit, yard))]
    for why in found[:_NAMES]:
        yield phrase("{why}: nothing can be done there.", why=why)
    if more := max(0, len(found) - _NAMES):
        yield counted(
            "One more yard cannot be reached.", "{number} more yards cannot be reached.", more
        )


def _busy(one: YardSum) -> bool:
    return one.due.take_off or one.due.rounds > 0 or one.due.strips


def _boards(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    boarded = [one.yard for one in yards if one.due.boards]
    tight = [yard.name for yard in boarded if yard.brood_boxes_off]
    if tight:
        yield (
            phrase(
                "Boards with brood boxes to come off: bees leave the honey boxes "
                "only when they have room below, and there they lose a box as "
                "well: {tight}.",
                tight=_listed(tight),
            )
        )
    owned = outfit.kit.boards_owned
    short = [
        yard.name for yard in boarded
        if yard.colonies > owned and yard.clearing_else is None and yard.boards_on_min is None
    ]  # fmt: skip
    if short:
        yield phrase(
            "More colonies than boards ({owned}), cleared in parts: {short}.",
            owned=owned,
            short=_listed(short),
        )


def _feeders(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn where feeders that go from yard to yard are fewer than one yard's colonies."""
    owned = outfit.kit.feeders_owned
    short = [
        one.yard.name for one in yards
        if owned is not None and one.due.take_off and one.due.rounds and one.yard.colonies > owned
    ]  # fmt: skip
    if not short:
        return
    if not owned:
        yield phrase(
            "No feeders at all ({key} = 0), so nothing can be fed: {short}. Leave the line out "
            "where each hive has one.",
            key="feeders",
            short=_listed(short),
        )
        return
    yield phrase(
        "More colonies than feeders ({owned}), fed in parts: {short}.",
        owned=owned,
        short=_listed(short),
    )


def _no_day(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    busy = (one.yard for one in yards if _busy(one))
    closed = [yard.name for yard in busy if not sums.let_in(outfit, yard)]
    if closed:
        yield phrase("The gate is never open in daylight: {closed}.", closed=_listed(closed))
    off = [one.yard for one in yards if one.due.take_off and one.yard.name not in closed]
    shut = [yard.name for yard in off if not sums.take_off_days(outfit, yard)]
    if shut:
        yield phrase(
            "No day is fit for taking honey off (dates, weather, gate and daylight): {shut}.",
            shut=_listed(shut),
        )
    early = [
        yard.name for yard in off
        if yard.clearing is Clearing.BOARDS and yard.boxes and yard.name not in shut
        and yard.clearing_else is None and yard.boards_on_min is None
        and max(sums.take_off_days(outfit, yard)) == 0
    ]  # fmt: skip
    if early:
        yield phrase(
            "Boards need a night before, and only the first day is fit: {early}.",
            early=_listed(early),
        )


def _rounds(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn where all rounds cannot fit between the first take-off and the last day for feed."""
    late, fuller = [], []
    last = outfit.season.feed_by.day if outfit.season.feed_by.hard else outfit.season.n_days - 1
    for one in yards:
        days = sums.take_off_days(outfit, one.yard) if one.due.take_off else [0]
        spacing = (one.due.rounds - 1) * one.due.round_gap_min
        if one.due.rounds and days and days[0] * DAY_MIN + spacing >= (last + 1) * DAY_MIN:
            late.append(one.yard.name)
            if target_g := sums.fuller_target_g(outfit, one.yard, last + 1 - days[0]):
                mass = Number(f"{target_g / 1000:.1f}")
                fuller.append(phrase("{yard} {mass} kg", yard=one.yard.name, mass=mass))
    if late:
        yield (
            phrase(
                "The feed rounds, spaced by what the bees take down, do not fit "
                "before the last day for feed: {late}. A bigger feeder or a longer "
                "season would help.",
                late=_listed(late),
            )
        )
    if fuller:
        yield phrase(
            "Rounds are all alike, so one that finds no day leaves the others as small. With these "
            "targets there are fewer and full ones, and more is fed: {targets}.",
            targets=joined(", ", *fuller[:_NAMES]),
        )


def _hands(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    house, days = outfit.honey_house, outfit.season.n_days
    boxes = sums.boxes_home(yards) + house.waiting_boxes
    spinners = sum(person.spins for person in outfit.people)
    rate = max(house.boxes_per_h[: spinners + 1])
    a_day = rate * (house.spin_to_min - house.spin_from_min) // 60
    if boxes > a_day * days:
        yield (
            phrase(
                "The honey house cannot spin {boxes} boxes in {days} days: with "
                "all hands {a_day} a day. Boxes will wait, and spinning runs on "
                "after the last day.",
                boxes=boxes,
                days=days,
                a_day=a_day,
            )
        )
    off = [one.yard for one in yards if one.due.take_off and one.yard.boxes]
    biggest = max((yard.boxes for yard in off), default=0)
    if biggest > house.room_boxes:
        room = house.room_boxes
        yield phrase(
            "The honey house has room for {room} boxes, fewer than the largest yard has.", room=room
        )
    ml, feed = sums.syrup_ml(yards), outfit.feed
    if not feed.bought and ml > feed.ready_ml + feed.mix_ml_per_day * (days + 1):
        yield (
            phrase(
                "{ml} L of syrup cannot be mixed at {mix_ml_per_day} L a day in {days} days.",
                ml=-(-ml // 1000),
                mix_ml_per_day=feed.mix_ml_per_day // 1000,
                days=days,
            )
        )


def _own_ways(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn where people spin or mix far from home: no plan counts how they get there."""
    house, feed = outfit.honey_house, outfit.feed
    way = own_way_min(outfit, house.base)
    if way and sums.boxes_home(yards) + house.waiting_boxes:
        yield phrase(
            "The honey house is {way} min by road from home: the way of people who spin there "
            "is neither in their hours nor on the bill, nor are they given time for it between "
            "truck and honey house. Leave room for it in {first} and {last}.",
            way=way,
            first="spin_from",
            last="spin_to",
        )
    way = own_way_min(outfit, outfit.feed_store)
    if way and not feed.bought and sums.syrup_ml(yards) > feed.ready_ml:
        yield phrase(
            "The feed store is {way} min by road from home: the way of people who mix there is "
            "neither in their hours nor on the bill, nor are they given time for it between "
            "truck and feed store.",
            way=way,
        )


def _syrup(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    feed, ml = outfit.feed, sums.syrup_ml(yards)
    if not ml:
        return
    need = sums.sugar_g(outfit, ml)
    if feed.bought and ml > feed.ready_ml:
        yield phrase(
            "{ml} L of syrup are due and {ready_ml} L are delivered.",
            ml=ml // 1000,
            ready_ml=feed.ready_ml // 1000,
        )
    elif not feed.bought and feed.sugar_g is not None and need > feed.sugar_g:
        yield phrase(
            "{need} kg of sugar are due and {sugar_g} kg are in stock.",
            need=-(-need // 1000),
            sugar_g=feed.sugar_g // 1000,
        )
    below = None if feed.bought else crystals_below_c(feed.sugar_permille)
    if below is not None and below > _COOL_NIGHT_C:
        yield (
            phrase(
                "Syrup of {sugar_permille} % sugar is saturated at {below} C and "
                "can throw crystals on a cool night: keep it warm, stir and look "
                "for crystals before pumping; thin or rewarm it if it has set.",
                sugar_permille=Number(f"{feed.sugar_permille / 10:g}"),
                below=Number(f"{below:.0f}"),
            )
        )
    most = max(
        (min(way.load_max_g, max(way.bears()[1], way.trailer_g)) for way in haulers(outfit)),
        default=0,
    )
    for tank in outfit.containers:
        full = full_container_g(tank, feed.density_g_per_l)
        if full > most > tank.empty_g:
            fill = ml_for_payload(most, tank, feed.density_g_per_l) // 1000
            yield (
                phrase(
                    "{name} full of syrup is {full} kg, more than any truck may load: "
                    "fill in {fill} L at most. Part-filled, it surges.",
                    name=tank.name,
                    full=-(-full // 1000),
                    fill=fill,
                )
            )


def _noses(outfit: Outfit) -> Iterator[Phrase]:
    """Tell of trailers whose nose nobody measured: what it weighs is the driver's to leave free."""
    pulled = {way.trailer.id for way in haulers(outfit) if way.trailer}
    unmeasured = [one.name for one in outfit.trailers if one.id in pulled and one.nose is None]
    if unmeasured:
        yield phrase(
            "The nose of {names} was not measured, so its weight is not taken off what the truck "
            "bears: {low} to {high} kg is usual. Measure it, or leave that free.",
            names=_listed(unmeasured),
            low=NOSE_LOW_G // 1000,
            high=NOSE_HIGH_G // 1000,
        )


def _prices(outfit: Outfit) -> Iterator[Phrase]:
    """Warn of prices left at their round figures beside a currency or a wage that was typed."""
    left = {str(one.field) for one in outfit.assumed}.intersection(_ROUND)
    if outfit.prices.currency == DEFAULTS["prices.currency"].said and "prices.hour" in left:
        return
    mixed = [joined(" = ", key, said) for key, said in _ROUND.items() if key in left]
    if mixed:
        yield phrase(
            "Money is in {currency}, but these prices were not typed and count as round figures "
            "of it: {prices}. A plan weighs them against what you typed: type your own.",
            currency=outfit.prices.currency,
            prices=joined(", ", *mixed),
        )


def _payload(outfit: Outfit) -> Iterator[Phrase]:
    """Warn of trucks that are to carry far more than others of their size do."""
    for truck in outfit.trucks:
        like = next((row for row in CARRIERS if row.max_g and truck.max_g <= row.max_g), None)
        carries = truck.max_g - truck.empty_g
        if like is not None and carries > like.payload_high_g * _FAR_MORE:
            low, high = like.payload_low_g / 1_000_000, like.payload_high_g / 1_000_000
            yield (
                phrase(
                    "{name}: {carries} t between empty and maximum mass; a {name2} "
                    "usually carries {low} to {high} t ({source}). Was it weighed with "
                    "its body on?",
                    name=truck.name,
                    carries=Number(f"{carries / 1000000:.2f}"),
                    name2=like.name,
                    low=Number(f"{low:g}"),
                    high=Number(f"{high:g}"),
                    source=like.cited.source,
                )
            )


def _water(outfit: Outfit) -> Iterator[Phrase]:
    water = outfit.honey_house.water_permille
    if water > MOISTURE_LIMIT_PERMILLE:
        yield (
            phrase(
                "Honey of {water} % water: at most {most} % may "
                "be sold as honey in the EU, heather {heather} % "
                "(Directive 2001/110/EC); local law comes first.",
                water=Number(f"{water / 10:g}"),
                most=Number(f"{MOISTURE_LIMIT_PERMILLE / 10:g}"),
                heather=Number(f"{HEATHER_LIMIT_PERMILLE / 10:g}"),
            )
        )
    elif water > FERMENTS_PERMILLE:
        yield (
            phrase(
                "Honey of {water} % water is likely to ferment (over "
                "{limit} %): take off capped comb, dry it, or use it "
                "soon.",
                water=Number(f"{water / 10:g}"),
                limit=Number(f"{FERMENTS_PERMILLE / 10:g}"),
            )
        )


def _warm_boards(outfit: Outfit) -> Iterator[Phrase]:
    """Warn where warm boards clear on days of which only the high is known."""
    names = [yard.name for yard in outfit.yards if yard.high_only]
    if names:
        yield phrase(
            "Warm boards at {names}: of days with a typed temperature only the high is looked at, "
            "so work may begin on a cool morning. Type a fit row for the yard with the warm hours, "
            "or leave the temperature to a forecast by the hour.",
            names=_listed(names),
        )


def _strips(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn of kinds that go nowhere, stocks too small, and yards too cold or hot for theirs."""
    named = {one.yard.strips for one in yards}
    idle = [kind.id for kind in outfit.strips_also if kind.id not in named]
    if idle:
        yield phrase("Strips described, but no yard names them: {idle}.", idle=_listed(idle))
    kinds, need = (outfit.strips, *outfit.strips_also), sums.strips(outfit, yards)
    for substance, stock in {kind.substance: kind.stock for kind in reversed(kinds)}.items():
        if stock is not None and need.get(substance, 0) > stock:
            yield phrase(
                "{need} strips of {substance} are due and {stock} are in stock.",
                need=need[substance],
                substance=in_words(substance),
                stock=stock,
            )
    days = set(range(outfit.season.n_days))
    for kind in kinds:
        mine = [one.yard for one in yards if one.due.strips and one.yard.strips == kind.id]
        if mine and treatment(kind.substance) is None:
            yield phrase(
                "Nothing is known here of {substance}: papers carry no cautions of its own, and "
                "heat or cold keeps it out only where you typed limits. Go by its label.",
                substance=in_words(kind.substance),
            )
        never = [yard.name for yard in mine if days <= set(yard.strips_shut_days)]
        if never:
            yield phrase(
                "No day is fit for strips of {substance}: {never}.",
                substance=in_words(kind.substance),
                never=_listed(never),
            )


def _spots(outfit: Outfit) -> Iterator[Phrase]:
    """Warn of places that stand on one another; travel's own metres tell."""
    metres = outfit.travel.metres
    here = [(yard, yard.sites[0][1]) for yard in outfit.yards]
    from_home = metres[outfit.home.place]
    home = [yard.name for yard, place in here if _near(from_home[place])]
    if home:
        yield phrase("Standing at home itself, if that is right: {home}.", home=_listed(home))
    for (one, a), (other, b) in combinations(here, 2):
        if _near(metres[a][b]):
            yield phrase(
                "{name} and {name2} stand at the same spot, if that is right.",
                name=one.name,
                name2=other.name,
            )


def _at_sea(outfit: Outfit) -> Iterator[Phrase]:
    """Warn, once, of places in the open sea: coasts and islands count as their country."""
    places = outfit.places
    sea = [place.name for place in places if not country_at((place.lat, place.lon))]
    if sea:
        yield phrase(
            "In the open sea: {names}. Is a minus missing, or are lat and lon swapped?",
            names=phrase("base and all yards") if len(sea) == len(places) else _listed(sea),
        )


def _off_road(outfit: Outfit) -> Iterator[Phrase]:
    """Warn of places far off any road of the road file."""
    for one in outfit.assumed:
        if one.field == "yards.last_stretch":
            yield phrase("{value}: right place, right road file?", value=one.value)


def _near(metres: int | None) -> bool:
    return metres is not None and metres < _SAME_SPOT_M


def _boxes(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    full = [one.yard for one in yards if one.yard.boxes]
    heaviest = max(full, key=lambda yard: yard.box_g, default=None)
    text = heaviest and lift_warning(heaviest.box_g, typed_box_g(outfit, heaviest.id))
    if text:
        yield text
    watch = [one.yard.name for one in yards if one.yard.health is Health.WATCH]
    if watch:
        names = _listed(watch)
        yield phrase(
            "Watched yards come last on their trip and their boxes stand apart: {names}.",
            names=names,
        )
    suspect = [one.yard.name for one in yards if one.yard.health is Health.SUSPECT]
    if suspect:
        yield phrase(
            "Suspected disease must be reported; nothing leaves: {suspect}.",
            suspect=_listed(suspect),
        )
    still = [one.yard.name for one in yards if one.yard.health is Health.STANDSTILL]
    if still:
        yield phrase(
            "At a standstill nothing leaves without a licence (column {licence}), and feed goes in "
            "only where the inspector agreed (column {agreed}): {names}.",
            licence="licence",
            agreed="feed_agreed",
            names=_listed(still),
        )


def _clock(outfit: Outfit) -> Iterator[Phrase]:
    season = outfit.season
    day = clock_change(season.zone, date.fromisoformat(season.first_date), season.n_days)
    if day is not None:
        yield phrase(
            "The clocks change on {day}: the plan's day is 24 hours long, the real one is not.",
            day=day,
        )
