"""The campaign's dates and deadlines, and the habits, hours and prices of the outfit."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Final

from runplanner.days import DAY_MIN, Span, clock
from runplanner.outfit.outfit import Deadline, Prices, Rules, Season
from runplanner.outfit.people import Hours, Pace
from runplanner.outfit.yards import Clearing
from runplanner.phrase import Phrase, joined, phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import Days, OutfitFile
from runplanner.scenario.defaults import DEFAULTS
from runplanner.scenario.faults import Refusal
from runplanner.scenario.places.lands import zone_at
from runplanner.scenario.places.points import Point
from runplanner.scenario.places.sun import noon_is_off, zone_name
from runplanner.scenario.values import measures
from runplanner.scenario.values.figures import Money, Whole
from runplanner.scenario.values.moments import a_date, clock_min
from runplanner.scenario.values.quantities import Measure, share
from runplanner.scenario.values.words import one_of, yes_no
from runplanner.trade.driving import DEFER, PRESETS

MOST_DAYS: Final = 62
"""A campaign is two to five weeks; two months leave room."""
MOST_BLOCKS_PER_COLONY: Final = 3
"""Fondant given to a colony at one visit; guessed."""
_STAND_IN: Final = date(2027, 1, 1)


def read_days(file: OutfitFile) -> Days:
    """Return the first day and the number of days."""
    fields = file.section("season")
    first = fields.read("first_day", a_date, _STAND_IN)
    last = fields.read("last_day", a_date, first)
    n_days = (last - first).days + 1
    if fields.clean and not 1 <= n_days <= MOST_DAYS:
        allowed = phrase(
            "{first} to {number} days later", first=first.isoformat(), number=MOST_DAYS - 1
        )
        fields.fault("last_day", allowed, phrase("Check both dates."))
    return Days(first, n_days if fields.clean else 1, known=fields.clean)


def read_season(file: OutfitFile, days: Days, home: Point | None) -> Season:
    """Return the season; ``home`` is where the zone is guessed from."""
    fields = file.section("season")
    return Season(
        first_date=days.first.isoformat(),
        n_days=days.n_days,
        zone=_zone(fields, days, home),
        take_off_by=_deadline(fields, "take_off_by", days),
        strips_by=_deadline(fields, "strips_by", days),
        feed_by=_deadline(fields, "feed_by", days),
    )


def _zone(fields: Fields, days: Days, home: Point | None) -> str:
    if home is None:
        return fields.read("zone", zone_name, "UTC") if fields.has("zone") else "UTC"
    guess = zone_at(home)
    shown = (guess, phrase("zone the base lies in, by outlines that come with the program [D]"))
    zone = fields.derived("zone", zone_name, guess, shown)
    if fields.right("zone", "first_day") and noon_is_off(home, zone, days.first):
        fields.fault(
            "zone",
            phrase("the zone of the base, perhaps {guess}", guess=guess),
            phrase("Check zone, lat and lon."),
        )
    return zone


def _deadline(fields: Fields, key: str, days: Days) -> Deadline:
    last = days.n_days - 1
    typed = fields.has(key)
    day = fields.derived(
        key, days.number, last, (phrase("the last day"), phrase("no earlier date was typed [C]"))
    )
    why = phrase("a typed date is kept [C]")
    if not typed:
        why = phrase("nothing is planned beyond it [C]")
    hard = fields.derived(f"{key}_hard", yes_no, True, ("yes", why))
    return Deadline(day, hard=hard)


def read_rules(file: OutfitFile) -> Rules:
    """Return lags and habits."""
    fields = file.section("rules")
    rules = Rules(
        board_best_min=fields.read("board_best", measures.LAG_MOST, 2880),
        board_least_min=fields.read("board_least", measures.LAG_LEAST, 720),
        blocks=fields.read("blocks", Whole(0, MOST_BLOCKS_PER_COLONY), 1),
        same_day_second_trip=fields.read("same_day_second_trip", yes_no, False),
        smallest_lot=fields.read("smallest_lot", Whole(1, 1000), 1),
        feed_late_from_min=fields.read("feed_late_from", clock_min, 960),
        wet_from_min=fields.read("wet_from", clock_min, 960),
        wet_least_days=fields.read("wet_least_days", Whole(1, 30), 1),
        wet_best_days=fields.read("wet_best_days", Whole(1, 30), 30),
    )
    boards, wet = ("board_best", "board_least"), ("wet_best_days", "wet_least_days")
    if fields.right(*boards) and rules.board_best_min < rules.board_least_min:
        fields.fault("board_best", phrase("at least board_least"), phrase("Make it longer."))
    if fields.right(*wet) and rules.wet_best_days < rules.wet_least_days:
        fields.fault("wet_best_days", phrase("at least wet_least_days"), phrase("Make it more."))
    return rules


def read_hours(file: OutfitFile, out: Span) -> Hours:
    """Return the working day and the limits on it: typed, by named rules, or the defaults.

    ``out`` are the hours in which home lets trucks be out; the working day keeps to them.
    """
    fields = file.section("hours")
    rules = fields.optional("rules", lambda said: PRESETS[one_of(said, tuple(PRESETS))])

    if rules is not None:
        fields.desk.assume(
            phrase("further rules on hours"),
            phrase("not watched by a plan"),
            joined(" ", Phrase(rules.beyond), DEFER),
        )

    def limit(key: str, measure: Measure, stand_in: int, named: Callable[[Hours], int]) -> int:
        if rules is None:
            return fields.read(key, measure, stand_in)
        value = named(rules.hours(0, 1440))
        cited = joined(": ", Phrase(rules.words), rules.source(key).words())
        source = phrase("{rules}. {caution}", rules=cited, caution=DEFER)
        return fields.derived(key, measure, value, (_length(value), source))

    hours = Hours(
        start_min=_at_home(fields, "start", out.start_min, max),
        end_min=_at_home(fields, "end", out.end_min, min),
        noon_min=fields.read("noon", clock_min, 720),
        normal_min=fields.read("normal", measures.SHIFT, 480),
        duty_max_min=limit("duty_most", measures.SHIFT, 660, lambda it: it.duty_max_min),
        driving_max_min=limit("driving_most", measures.SHIFT, 540, lambda it: it.driving_max_min),
        drive_break_after_min=limit(
            "drive_break_after", measures.SHIFT, 270, lambda it: it.drive_break_after_min
        ),
        drive_break_min=limit("drive_break", measures.WORK_MIN, 45, lambda it: it.drive_break_min),
        duty_break_after_min=limit(
            "duty_break_after", measures.SHIFT, 360, lambda it: it.duty_break_after_min
        ),
        duty_break_min=limit("duty_break", measures.WORK_MIN, 30, lambda it: it.duty_break_min),
        rules=rules.id if rules is not None else "",
    )
    in_order = hours.start_min < hours.noon_min < hours.end_min
    if fields.right("start", "noon", "end") and not in_order:
        home = file.section("home")
        if not home.right("opens", "closes") or _shut_at_noon(home, hours, out):
            return replace(hours, start_min=0, end_min=DAY_MIN)
        fields.fault(
            "noon",
            phrase("a time between start and end"),
            phrase("Put start, noon and end in order."),
        )
    return hours


def _length(minutes: int) -> str:
    """Return a length of time as it may be typed: 13 h, 45 min, 4 h 30 min."""
    parts = ((minutes // 60, "h"), (minutes % 60, "min"))
    return " ".join(f"{number} {unit}" for number, unit in parts if number)


def _at_home(fields: Fields, key: str, own: int, closer: Callable[[int, int], int]) -> int:
    """Return the start or end of the working day: home's ``own`` hour where that is closer."""
    usual = clock_min(DEFAULTS[f"hours.{key}"].said)
    asked = fields.has(key) or closer(usual, own) == usual
    minute = fields.read(key, clock_min, usual) if asked else usual
    kept = closer(minute, own)
    if kept != minute:
        why = phrase("trucks leave home once it opens and are back before it closes [C]")
        fields.desk.assume(f"hours.{key}", clock(kept), why)
    return kept


def _shut_at_noon(home: Fields, hours: Hours, out: Span) -> bool:
    """Write down that home's own hours lie on one side of noon; tell whether they do."""
    noon = clock(hours.noon_min)
    cure = phrase("Or type noon under [hours]: it parts the working day in two.")
    if hours.noon_min <= out.start_min:
        home.fault("opens", phrase("before noon, {noon}", noon=noon), cure)
    elif out.end_min <= hours.noon_min:
        home.fault("closes", phrase("after noon, {noon}", noon=noon), cure)
    else:
        return False
    return True


def read_pace(file: OutfitFile) -> Pace:
    """Return how long each piece of work takes."""
    fields = file.section("pace")

    def seconds(key: str) -> int:
        return fields.read(key, measures.WORK_S, 60)

    def minutes(key: str) -> int:
        return fields.read(key, measures.WORK_MIN, 10)

    return Pace(
        setup_min=minutes("setup"),
        inspect_s=seconds("inspect"),
        box_s=tuple((way, seconds(f"box_{way.value.replace(' ', '_')}")) for way in Clearing),
        left_in_permille=fields.read("left_in", share, 50),
        board_s=seconds("board"),
        block_s=seconds("block"),
        feed_s=seconds("feed"),
        strips_s=seconds("strips"),
        wash_min=minutes("wash"),
        load_min=minutes("load"),
        unload_min=minutes("unload"),
        unload_box_s=seconds("unload_box"),
        pump_ml_per_min=fields.read("pump", measures.PUMP, 50_000),
        wet_box_s=seconds("wet_box"),
        feeder_s=seconds("feeder"),
    )


def read_prices(file: OutfitFile) -> Prices:
    """Return what things cost."""
    fields = file.section("prices")
    return Prices(
        currency=fields.read("currency", _currency, "units"),
        hour_cents=fields.read("hour", Money(phrase("an hour of one person")), 0),
        overtime_permille=fields.read("overtime", measures.OVERTIME, 0),
        block_cents=fields.read("block", Money(phrase("one block")), 0),
        syrup_l_cents=fields.read("syrup", Money(phrase("one litre")), 0),
        strip_cents=fields.read("strip", Money(phrase("one strip")), 0),
        late_cents=fields.read("late", Money(phrase("one colony a day late")), 0),
        boards_long_cents=fields.read("boards_long", Money(phrase("one colony a day")), 0),
        spin_late_cents=fields.read("spin_late", Money(phrase("one box a day late")), 0),
        unsure_cents=fields.read("unsure", Money(phrase("one colony's visit")), 0),
        feed_early_cents=fields.read(
            "feed_early", Money(phrase("one colony fed early in the day")), 0
        ),
        worth_take_off_cents=fields.read(
            "worth_take_off", Money(phrase("one colony taken off")), 0
        ),
        worth_feed_cents=fields.read("worth_feed", Money(phrase("one kilogram of stores fed")), 0),
        worth_strips_cents=fields.read("worth_strips", Money(phrase("one colony's strips")), 0),
    )


def _currency(said: object) -> str:
    text = said.strip() if isinstance(said, str) else ""
    if not (text.isalpha() and 1 <= len(text) <= 8):
        raise Refusal(phrase("a currency code such as NZD"), phrase("Write letters only."))
    return text
