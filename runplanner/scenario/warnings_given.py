"""What `check` warns of: facts that are allowed but will surprise in the field."""

from collections.abc import Iterator
from datetime import date
from itertools import combinations
from typing import Final

from runplanner.days import DAY_MIN
from runplanner.haulage.hauler import haulers
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Health
from runplanner.scenario import sums
from runplanner.scenario.sums import YardSum
from runplanner.scenario.sun import clock_change
from runplanner.trade.boxes import lift_warning
from runplanner.trade.honey import (
    FERMENTS_PERMILLE,
    HEATHER_LIMIT_PERMILLE,
    MOISTURE_LIMIT_PERMILLE,
)
from runplanner.trade.loads import CARRIERS, full_container_g, ml_for_payload
from runplanner.trade.syrup import crystals_below_c

_COOL_NIGHT_C: Final = 15.0
_SAME_SPOT_M: Final = 60
_NAMES: Final = 6
_FAR_MORE: Final = 1.5


def warnings(outfit: Outfit, yards: tuple[YardSum, ...]) -> list[str]:
    """Return every warning, most pressing first."""
    return [
        *_boards(outfit, yards),
        *_no_day(outfit, yards),
        *_rounds(outfit, yards),
        *_hands(outfit, yards),
        *_syrup(outfit, yards),
        *_strips(outfit, yards),
        *_payload(outfit),
        *_water(outfit),
        *_spots(outfit),
        *_off_road(outfit),
        *_boxes(yards),
        *_clock(outfit),
    ]


def _listed(names: list[str]) -> str:
    more = f" and {len(names) - _NAMES} more" if len(names) > _NAMES else ""
    return ", ".join(names[:_NAMES]) + more


def _boards(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[str]:
    boarded = [one.yard for one in yards if one.due.boards]
    tight = [yard.name for yard in boarded if yard.brood_boxes_off]
    if tight:
        yield (
            f"Boards with brood boxes to come off: bees leave the honey boxes only when they have "
            f"room below, and there they lose a box as well: {_listed(tight)}."
        )
    short = [yard.name for yard in boarded if yard.colonies > outfit.kit.boards_owned]
    if short:
        owned = outfit.kit.boards_owned
        yield f"More colonies than boards ({owned}), cleared in parts: {_listed(short)}."


def _no_day(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[str]:
    off = [one.yard for one in yards if one.due.take_off]
    shut = [yard.name for yard in off if not sums.take_off_days(outfit, yard)]
    if shut:
        yield f"No day is fit for taking honey off (dates and weather): {_listed(shut)}."
    early = [
        yard.name for yard in off
        if yard.clearing is Clearing.BOARDS and yard.boxes and yard.name not in shut
        and max(sums.take_off_days(outfit, yard)) == 0
    ]  # fmt: skip
    if early:
        yield f"Boards need a night before, and only the first day is fit: {_listed(early)}."


def _rounds(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[str]:
    """Warn where all rounds cannot fit between the first take-off and the last day for feed."""
    late = []
    last = outfit.season.feed_by.day if outfit.season.feed_by.hard else outfit.season.n_days - 1
    for one in yards:
        days = sums.take_off_days(outfit, one.yard) if one.due.take_off else [0]
        spacing = (one.due.rounds - 1) * one.due.round_gap_min
        if one.due.rounds and days and days[0] * DAY_MIN + spacing >= (last + 1) * DAY_MIN:
            late.append(one.yard.name)
    if late:
        yield (
            "The feed rounds, spaced by what the bees take down, do not fit before the last day "
            f"for feed: {_listed(late)}. A bigger feeder or a longer season would help."
        )


def _hands(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[str]:
    house, days = outfit.honey_house, outfit.season.n_days
    boxes = sums.boxes_home(yards) + house.waiting_boxes
    spinners = sum(person.spins for person in outfit.people)
    rate = max(house.boxes_per_h[: spinners + 1])
    a_day = rate * (house.spin_to_min - house.spin_from_min) // 60
    if boxes > a_day * days:
        yield (
            f"The honey house cannot spin {boxes} boxes in {days} days: with all hands "
            f"{a_day} a day. Boxes will wait, and spinning runs on after the last day."
        )
    off = [one.yard for one in yards if one.due.take_off and one.yard.boxes]
    biggest = max((yard.boxes for yard in off), default=0)
    if biggest > house.room_boxes:
        room = house.room_boxes
        yield f"The honey house has room for {room} boxes, fewer than the largest yard has."
    ml, feed = sums.syrup_ml(yards), outfit.feed
    if not feed.bought and ml > feed.ready_ml + feed.mix_ml_per_day * (days + 1):
        yield (
            f"{-(-ml // 1000)} L of syrup cannot be mixed at {feed.mix_ml_per_day // 1000} L a day "
            f"in {days} days."
        )


def _syrup(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[str]:
    feed, ml = outfit.feed, sums.syrup_ml(yards)
    if not ml:
        return
    need = sums.sugar_g(outfit, ml - min(ml, feed.ready_ml))
    if feed.bought and ml > feed.ready_ml:
        yield f"{ml // 1000} L of syrup are due and {feed.ready_ml // 1000} L are delivered."
    elif not feed.bought and feed.sugar_g is not None and need > feed.sugar_g:
        yield f"{-(-need // 1000)} kg of sugar are due and {feed.sugar_g // 1000} kg are in stock."
    below = None if feed.bought else crystals_below_c(feed.sugar_permille)
    if below is not None and below > _COOL_NIGHT_C:
        yield (
            f"Syrup of {feed.sugar_permille / 10:g} % sugar is saturated at {below:.0f} C and can "
            "throw crystals on a cool night: keep it warm, stir and look for crystals before "
            "pumping; thin or rewarm it if it has set."
        )
    most = max((way.load_max_g for way in haulers(outfit)), default=0)
    for tank in outfit.containers:
        full = full_container_g(tank, feed.density_g_per_l)
        if full > most > tank.empty_g:
            fill = ml_for_payload(most, tank, feed.density_g_per_l) // 1000
            yield (
                f"{tank.name} full of syrup is {-(-full // 1000)} kg, more than any truck may "
                f"load: fill in {fill} L at most. Part-filled, it surges."
            )


def _payload(outfit: Outfit) -> Iterator[str]:
    """Warn of trucks that are to carry far more than others of their size do."""
    for truck in outfit.trucks:
        like = next((row for row in CARRIERS if row.max_g and truck.max_g <= row.max_g), None)
        carries = truck.max_g - truck.empty_g
        if like is not None and carries > like.payload_high_g * _FAR_MORE:
            low, high = like.payload_low_g / 1_000_000, like.payload_high_g / 1_000_000
            yield (
                f"{truck.name}: {carries / 1_000_000:.2f} t between empty and maximum mass; a "
                f"{like.name} usually carries {low:g} to {high:g} t ({like.cited.source}). Was it "
                "weighed with its body on?"
            )


def _water(outfit: Outfit) -> Iterator[str]:
    water = outfit.honey_house.water_permille
    if water > MOISTURE_LIMIT_PERMILLE:
        yield (
            f"Honey of {water / 10:g} % water: at most {MOISTURE_LIMIT_PERMILLE / 10:g} % may be "
            f"sold as honey in the EU, heather {HEATHER_LIMIT_PERMILLE / 10:g} % (Directive "
            "2001/110/EC); local law comes first."
        )
    elif water > FERMENTS_PERMILLE:
        yield (
            f"Honey of {water / 10:g} % water is likely to ferment (over "
            f"{FERMENTS_PERMILLE / 10:g} %): take off capped comb, dry it, or use it soon."
        )


def _strips(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[str]:
    """Warn of kinds of strips that go nowhere, and of yards too cold or hot for theirs."""
    named = {one.yard.strips for one in yards}
    idle = [kind.id for kind in outfit.strips_also if kind.id not in named]
    if idle:
        yield f"Strips described, but no yard names them: {_listed(idle)}."
    days = set(range(outfit.season.n_days))
    for kind in outfit.strips_also:
        mine = [one.yard for one in yards if one.due.strips and one.yard.strips == kind.id]
        never = [yard.name for yard in mine if days <= set(yard.strips_shut_days)]
        if never:
            yield f"No day is fit for strips of {kind.substance}: {_listed(never)}."


def _spots(outfit: Outfit) -> Iterator[str]:
    """Warn of places that stand on one another; travel's own metres tell."""
    metres = outfit.travel.metres
    here = [(yard, yard.sites[0][1]) for yard in outfit.yards]
    from_home = metres[outfit.home.place]
    home = [yard.name for yard, place in here if _near(from_home[place])]
    if home:
        yield f"Standing at home itself, if that is right: {_listed(home)}."
    for (one, a), (other, b) in combinations(here, 2):
        if _near(metres[a][b]):
            yield f"{one.name} and {other.name} stand at the same spot, if that is right."


def _off_road(outfit: Outfit) -> Iterator[str]:
    """Warn of places far off any road of the road file."""
    for one in outfit.assumed:
        if one.field == "yards.last_stretch":
            yield f"{one.value}: right place, right road file?"


def _near(metres: int | None) -> bool:
    return metres is not None and metres < _SAME_SPOT_M


def _boxes(yards: tuple[YardSum, ...]) -> Iterator[str]:
    heaviest = max((one.yard.box_g for one in yards if one.yard.boxes), default=0)
    if text := lift_warning(heaviest):
        yield text
    watch = [one.yard.name for one in yards if one.yard.health is Health.WATCH]
    if watch:
        names = _listed(watch)
        yield f"Watched yards come last on their trip and their boxes stand apart: {names}."
    suspect = [one.yard.name for one in yards if one.yard.health is Health.SUSPECT]
    if suspect:
        yield f"Suspected disease must be reported; nothing leaves: {_listed(suspect)}."


def _clock(outfit: Outfit) -> Iterator[str]:
    season = outfit.season
    day = clock_change(season.zone, date.fromisoformat(season.first_date), season.n_days)
    if day is not None:
        yield f"The clocks change on {day}: the plan's day is 24 hours long, the real one is not."
