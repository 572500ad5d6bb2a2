"""Warnings of the work at yards: boards, feeders, days, rounds, strips, boxes and health."""

from collections.abc import Iterator

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import typed_box_g
from runplanner.outfit.stores import Strips
from runplanner.outfit.yards import Clearing, Health
from runplanner.phrase import Number, Phrase, joined, phrase
from runplanner.scenario.shown import sums
from runplanner.scenario.shown.sums import YardSum
from runplanner.scenario.shown.warned.named import NAMED, listed
from runplanner.trade.boxes import lift_warning
from runplanner.trade.strips import ban_cut, given_twice, in_words, treatment, unfed_days


def boards(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn of boards where brood boxes come off, and of more colonies than boards."""
    boarded = [one.yard for one in yards if one.due.boards]
    tight = [yard.name for yard in boarded if yard.brood_boxes_off]
    if tight:
        yield (
            phrase(
                "Boards with brood boxes to come off: bees leave the honey boxes "
                "only when they have room below, and there they lose a box as "
                "well: {tight}.",
                tight=listed(tight),
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
            short=listed(short),
        )


def feeders(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
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
            short=listed(short),
        )
        return
    yield phrase(
        "More colonies than feeders ({owned}), fed in parts: {short}.",
        owned=owned,
        short=listed(short),
    )


def no_day(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn of gates never open in daylight, and of yards no day is fit for."""
    busy = (one.yard for one in yards if one.busy())
    closed = [yard.name for yard in busy if not sums.let_in(outfit, yard)]
    if closed:
        yield phrase("The gate is never open in daylight: {closed}.", closed=listed(closed))
    off = [one.yard for one in yards if one.due.take_off and one.yard.name not in closed]
    shut = [yard.name for yard in off if not sums.take_off_days(outfit, yard)]
    if shut:
        yield phrase(
            "No day is fit for taking honey off (dates, weather, gate and daylight): {shut}.",
            shut=listed(shut),
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
            early=listed(early),
        )


def moves(yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn of hives that are moved once they may be worked: nothing is kept from that night."""
    busy = (one.yard for one in yards if one.busy())
    names = [
        yard.name for yard in busy if any(day >= yard.ready_from_day for day, _ in yard.sites[1:])
    ]
    if names:
        yield phrase(
            "Hives of {names} are moved while the campaign runs. The plan keeps neither syrup, wet "
            "boxes, boards nor the day of condensing away from that night: the day sheet before it "
            "tells what is not ready. Type a later ready_from, or the days before the move as "
            "shut, where that must not be.",
            names=listed(names),
        )


def feed_rounds(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn where all rounds cannot fit between the first take-off and the last day for feed."""
    late, fuller = [], []
    last = sums.last_feed_day(outfit)
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
                late=listed(late),
            )
        )
    if fuller:
        yield phrase(
            "Rounds are all alike, so one that finds no day leaves the others as small. With these "
            "targets there are fewer and full ones, and more is fed: {targets}.",
            targets=joined(", ", *fuller[:NAMED]),
        )


def by_the_high(outfit: Outfit) -> Iterator[Phrase]:
    """Warn where boxes come off on days of which only the high is known to be warm enough."""
    mine = [yard for yard in outfit.yards if yard.high_only and yard.boxes]
    cool = [yard.name for yard in mine if yard.clearing is not Clearing.WARM_BOARD]
    if cool:
        yield phrase(
            "Nights below {key} at {names}: of days with a typed temperature only the high is "
            "looked at, so boxes may come off in a cool morning. Type a fit row with the warm "
            "hours, or leave the temperature to a forecast by the hour.",
            key="open_least",
            names=listed(cool),
        )
    names = [yard.name for yard in mine if yard.clearing is Clearing.WARM_BOARD]
    if names:
        yield phrase(
            "Warm boards at {names}: of days with a typed temperature only the high is looked at, "
            "so work may begin on a cool morning. Type a fit row for the yard with the warm hours, "
            "or leave the temperature to a forecast by the hour.",
            names=listed(names),
        )


def strips(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn of kinds that go nowhere, stocks too small, and yards too cold or hot for theirs."""
    named = {one.yard.strips for one in yards}
    idle = [kind.id for kind in outfit.strips_also if kind.id not in named]
    if idle:
        yield phrase("Strips described, but no yard names them: {idle}.", idle=listed(idle))
    kinds, need = (outfit.strips, *outfit.strips_also), sums.strips(outfit, yards)
    for substance, stock in {kind.substance: kind.stock for kind in reversed(kinds)}.items():
        if stock is not None and need.get(substance, 0) > stock:
            yield phrase(
                "{need} strips of {substance} are due and {stock} are in stock.",
                need=need[substance],
                substance=in_words(substance),
                stock=stock,
            )
    for substance, number in sums.strips(outfit, _given_twice(outfit, yards)).items():
        if number:
            yield phrase(
                "{number} strips of {substance} are the first of two applications. As many again "
                "are no visit of the plan: papers say when they are due.",
                number=number,
                substance=in_words(substance),
            )
    yield from _unfed(kinds, {one.yard.strips for one in _given_twice(outfit, yards)})
    days = set(range(outfit.season.n_days))
    for kind in kinds:
        mine = [one.yard for one in yards if one.due.strips and one.yard.strips == kind.id]
        if mine and treatment(kind.substance) is None:
            yield phrase(
                "Nothing is known here of {substance}: papers carry no cautions of its own, and "
                "heat or cold keeps it out only where you typed limits. Go by its label.",
                substance=in_words(kind.substance),
            )
        if mine and (known := ban_cut(kind)):
            yield phrase(
                "Strips of {substance}: {typed} days without feed are typed, {known} are known of "
                "it. The plan goes by what you typed; the label decides.",
                substance=in_words(kind.substance),
                typed=kind.no_feed_days,
                known=known,
            )
        never = [yard.name for yard in mine if days <= set(yard.strips_shut_days)]
        if never:
            yield phrase(
                "No day is fit for strips of {substance}: {never}.",
                substance=in_words(kind.substance),
                never=listed(never),
            )


def _unfed(kinds: tuple[Strips, ...], twice: set[str]) -> Iterator[Phrase]:
    """Yield how long feed waits for kinds that forbid it and are given twice."""
    for kind in kinds:
        if kind.no_feed_days and kind.id in twice:
            yield phrase(
                "Strips of {substance} are given twice and forbid feed: no syrup or fondant is "
                "planned for {days} days from the first, as the second may go in {last} days "
                "after them.",
                substance=in_words(kind.substance),
                days=unfed_days(kind),
                last=kind.out_before_days,
            )


def _given_twice(outfit: Outfit, yards: tuple[YardSum, ...]) -> tuple[YardSum, ...]:
    """Return those of ``yards`` whose kind of strips has a second application."""
    kinds = ((one, outfit.strips_at(one.yard)) for one in yards)
    return tuple(one for one, kind in kinds if given_twice(kind.substance, typed=kind.twice))


def boxes_and_health(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn of boxes heavy to lift, and of yards whose health bids care."""
    full = [one.yard for one in yards if one.yard.boxes]
    heaviest = max(full, key=lambda yard: yard.box_g, default=None)
    text = heaviest and lift_warning(heaviest.box_g, typed_box_g(outfit, heaviest.id))
    if text:
        yield text
        yield phrase(
            "Crews are chosen by cost, so a trip that fetches such boxes may go out with one "
            "person: index.html marks it, and its paper says what one person can do."
        )
    watch = [one.yard.name for one in yards if one.yard.health is Health.WATCH]
    if watch:
        names = listed(watch)
        yield phrase(
            "Watched yards come last on their trip and their boxes stand apart: {names}.",
            names=names,
        )
    suspect = [one.yard.name for one in yards if one.yard.health is Health.SUSPECT]
    if suspect:
        yield phrase(
            "Suspected disease must be reported; nothing leaves: {suspect}.",
            suspect=listed(suspect),
        )
    still = [one.yard.name for one in yards if one.yard.health is Health.STANDSTILL]
    if still:
        yield phrase(
            "At a standstill nothing leaves without a licence (column {licence}), and feed goes in "
            "only where the inspector agreed (column {agreed}): {names}.",
            licence="licence",
            agreed="feed_agreed",
            names=listed(still),
        )
