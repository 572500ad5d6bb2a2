"""The audit's table of contents: every rule by name, and the one call that runs them.

Two tables, in the order they are run.  ``SENSE`` is what must hold for anything else to
be worked out; when any of it is broken, only that is reported.
"""

from collections.abc import Callable
from contextlib import suppress
from datetime import date
from typing import NamedTuple

from runplanner.audit import (
    bans,
    blocks,
    boards,
    chain,
    cover,
    driven,
    honey_house,
    hours,
    indoors,
    kit,
    load,
    margins,
    mixing,
    money,
    people,
    sense,
    share,
    sound_facts,
    stop_jobs,
    undone,
    wet_boxes,
    windows,
)
from runplanner.audit.book import Book, open_book
from runplanner.audit.findings import Breach, Breaches, Finding, dated
from runplanner.daybook.plan import Plan
from runplanner.phrase import phrase


class SenseRule(NamedTuple):
    """A rule that is checked before the plan can be opened."""

    id: str
    sentence: str
    check: Callable[[Plan], Breaches]


class BookRule(NamedTuple):
    """A rule that is recomputed from the opened plan."""

    id: str
    sentence: str
    check: Callable[[Book], Breaches]


SENSE = (
    SenseRule(
        "facts", "Facts that are divided by are above zero, ids are unique.", sound_facts.facts
    ),
    SenseRule("reference", "Everything a plan names is in its facts.", sense.references),
    SenseRule("count", "No count is below zero.", sense.counts),
    SenseRule(
        "campaign day",
        "Every shift is on a day of the campaign; honey is spun soon after.",
        sense.campaign_days,
    ),
    SenseRule("crew", "Every shift has somebody in it, nobody twice.", sense.crews),
    SenseRule("trip shape", "A trip loads once, calls at yards, unloads.", sense.trip_shapes),
)

HOURS = (
    BookRule("past", "Driven trips have left by now, all others leave later.", driven.past),
    BookRule("trip id", "No two trips share an id.", people.trip_ids),
    BookRule("truck twice", "A truck has one shift a day at most.", people.trucks_once),
    BookRule("trailer twice", "A trailer is in one shift a day at most.", people.trailers_once),
    BookRule("person twice", "A person is in one shift a day at most.", people.people_once),
    BookRule("driver", "The first of the crew may drive this truck.", people.drivers),
    BookRule("seats", "The crew fits into the truck.", people.seats),
    BookRule("day off", "Nobody works on a day away.", people.days_off),
    BookRule(
        "out of service", "No truck or trailer goes out when not to be had.", people.out_of_service
    ),
    BookRule("two places", "Nobody is in two places at once.", people.two_places),
    BookRule("half-day", "In a half-day a person does one kind of work.", people.half_days),
    BookRule(
        "duty inside", "Who spins or mixes keeps to the longest duty, trucks in.", indoors.long_days
    ),
    BookRule(
        "break inside", "Who spins or mixes has a break in time, trucks in.", indoors.long_stretches
    ),
    BookRule("load place", "A trip loads at the feed store.", stop_jobs.load_places),
    BookRule(
        "yard place", "A visit goes to where the hives stand that day.", stop_jobs.yard_places
    ),
    BookRule(
        "unload place",
        "Honey goes to the honey house, the rest to the feed store.",
        stop_jobs.unload_places,
    ),
    BookRule("road", "There is a road for every leg.", hours.roads),
    BookRule("clock", "Each call is reached, worked and left in time order.", hours.clocks),
    BookRule("work minutes", "A call is long enough for its work.", hours.work_times),
    BookRule(
        "driving figures",
        "Driving minutes and metres are the sums of the legs.",
        hours.driving_figures,
    ),
    BookRule("home again", "A shift ends when the truck is home.", hours.home_again),
    BookRule("working day", "A shift lies within the working day.", hours.working_days),
    BookRule("duty", "A shift is not longer than the longest duty.", hours.duties),
    BookRule("driving limit", "Driving in a day is within its limit.", hours.driving_limits),
    BookRule("break place", "Breaks are in the shift and not while driving.", hours.break_places),
    BookRule("duty break", "A break comes after so much duty.", hours.duty_breaks),
    BookRule("driving break", "A break comes after so much driving.", hours.driving_breaks),
    BookRule("base hours", "Loading and unloading keep the hours of the base.", hours.base_hours),
    BookRule(
        "latest leaving", "Leaving at the latest minute lets the day hold.", margins.latest_leaves
    ),
)

LOADS = (
    BookRule("aboard", "What is said to be aboard is what the jobs make it.", load.aboard_figures),
    BookRule("mass", "No load is too heavy for truck and trailer.", load.masses),
    BookRule("trailer", "Only a truck that may pull a trailer pulls one.", load.trailers),
    BookRule("shared", "Truck and trailer each bear a part, every tank whole.", share.shares),
    BookRule("deck", "No leg takes more deck places than there are.", load.decks),
    BookRule("axles", "No axle is over its limit, none that steers too light.", load.axle_loads),
    BookRule("access", "Truck and trailer may enter and leave each yard.", load.access),
    BookRule("tank", "A trip's containers hold its syrup.", load.tanks),
    BookRule("tanks owned", "No more containers are out than are owned.", load.tanks_owned),
    BookRule(
        "boxes limit", "Loading to the boxes limit breaks no limit later.", margins.box_limits
    ),
)

WINDOWS = (
    BookRule("reasons", "Hours told as shut are shut in the facts.", windows.reasons),
    BookRule("gate", "A visit lies within the gate's hours.", windows.gates),
    BookRule("daylight", "A visit lies between sunrise and sunset.", windows.daylights),
    BookRule("open hours", "Hives are opened only in hours fit for it.", windows.open_hours),
    BookRule("feed hours", "Syrup is poured only in hours fit for it.", windows.feed_hours),
    BookRule(
        "strips hours", "Strips go in only in hours fit for hives or syrup.", windows.strips_hours
    ),
    BookRule(
        "dry hours",
        "Wet boxes and feeders come and go only in hours fit for hives or syrup.",
        windows.dry_hours,
    ),
    BookRule("strips weather", "Strips go in only on days fit for them.", windows.strips_weather),
    BookRule("settling", "After a take-off it stays settled until sunrise.", windows.settlings),
    BookRule("one visit", "No two visits of one yard overlap.", windows.one_visit),
)

CHAIN = (
    BookRule("entry", "Each entry of a stop is of its kind and stands once.", stop_jobs.entries),
    BookRule("job order", "The jobs of a stop come in their order.", stop_jobs.job_order),
    BookRule("health", "Nothing leaves a suspect or standstill yard.", stop_jobs.health),
    BookRule(
        "hives stay", "Hives of a suspect or standstill yard stay in place.", stop_jobs.hives_stay
    ),
    BookRule("honey off", "Honey said to be off has been taken off.", stop_jobs.honey_gone),
    BookRule(
        "last yard", "A yard that is not sound is the last of its trip.", stop_jobs.health_last
    ),
    BookRule("colonies", "No job is done to more colonies than there are.", chain.colony_counts),
    BookRule("box share", "Boxes taken are the colonies' share, rounded up.", chain.box_shares),
    BookRule("ready", "Take-off lies between the yard's first and last day.", chain.ready_days),
    BookRule("take-off deadline", "A hard last day for take-off is kept.", chain.take_off_deadline),
    BookRule("feed deadline", "A hard last day for feed is kept.", chain.feed_deadline),
    BookRule("strips deadline", "A hard last day for strips is kept.", chain.strips_deadline),
    BookRule(
        "boards first",
        "Boards are on a night and long enough before take-off.",
        boards.boards_first,
    ),
    BookRule(
        "board count", "One board for each colony goes on and comes back.", boards.board_counts
    ),
    BookRule("boards left", "No board stays under a colony.", boards.boards_left),
    BookRule("way of clearing", "Boxes are cleared by a way the yard has.", boards.ways_known),
    BookRule(
        "blocks at take-off",
        "Colonies not fed at once get their blocks.",
        blocks.blocks_at_take_off,
    ),
    BookRule(
        "further blocks",
        "Further blocks go to colonies that wait for syrup.",
        blocks.further_blocks,
    ),
    BookRule("cover", "Syrup or a block comes before a colony's cover ends.", cover.covers),
    BookRule(
        "honey off first", "No syrup before the whole yard is taken off.", chain.honey_off_first
    ),
    BookRule("feed amount", "Each round pours what the need makes it.", chain.feed_amounts),
    BookRule(
        "feed spacing", "A round waits until the one before is taken down.", chain.feed_spacing
    ),
    BookRule(
        "strips after honey",
        "No strips before the whole yard is taken off.",
        chain.strips_after_honey,
    ),
    BookRule("strips at once", "A yard gets all its strips in one visit.", chain.strips_at_once),
    BookRule("strip dose", "Every colony gets its number of strips.", chain.strip_doses),
    BookRule("feeding ban", "After strips that forbid it nothing is fed.", bans.feeding_bans),
    BookRule("smallest lot", "A part of a yard is worth its visit.", chain.smallest_lots),
)

WET = (
    BookRule(
        "wet boxes whose", "A yard gets all of its own wet boxes back, once.", wet_boxes.whose
    ),
    BookRule("wet boxes spun", "Wet boxes leave the store when they are spun.", wet_boxes.spun),
    BookRule("wet boxes at dusk", "Wet boxes are put up late in the day.", wet_boxes.at_dusk),
    BookRule("wet boxes down", "Wet boxes stand their days and are collected.", wet_boxes.down),
    BookRule(
        "wet boxes alone", "No strips or syrup before the wet boxes are down.", wet_boxes.alone
    ),
)

STOCKS = (
    BookRule("boards owned", "The store has the boards a trip loads.", kit.boards_owned),
    BookRule("boards aboard", "Boards put on were aboard before.", kit.boards_aboard),
    BookRule("blocks owned", "No more blocks are used than there are.", kit.blocks_owned),
    BookRule("strips in stock", "No more strips are used than there are.", kit.strips_in_stock),
    BookRule("feeders", "First feeds leave feeders where they circulate.", kit.feeders),
    BookRule("feeders owned", "No more feeders are out than there are.", kit.feeders_owned),
    BookRule("feeders off", "Feeders are collected when they are empty.", kit.feeders_off),
    BookRule("mixer", "Syrup is mixed by people who mix.", mixing.mixers),
    BookRule("mixing time", "Mixing lies in one day of the campaign.", mixing.mixing_times),
    BookRule("mixing hours", "Syrup is mixed while its store is open.", mixing.mixing_hours),
    BookRule("mixing pace", "Nobody mixes faster than can be.", mixing.mixing_pace),
    BookRule("mixing day", "No more is mixed in a day than can be.", mixing.mixing_days),
    BookRule("bought syrup", "Bought syrup is not mixed.", mixing.bought_syrup),
    BookRule("sugar", "Mixing takes no more sugar than there is.", mixing.sugar),
    BookRule("syrup wanted", "No more is mixed than trips load.", mixing.syrup_wanted),
    BookRule("syrup in time", "Syrup is ready before it is loaded.", mixing.syrup_in_time),
)

HONEY_HOUSE = (
    BookRule(
        "spinning hours", "Spinning keeps the honey house's hours.", honey_house.spinning_hours
    ),
    BookRule(
        "spinning pace", "Nobody spins faster than so many people can.", honey_house.spinning_pace
    ),
    BookRule("spinner", "Honey is spun by people who spin.", honey_house.spinners),
    BookRule(
        "spinning turns", "One stretch of spinning follows another.", honey_house.spinning_turns
    ),
    BookRule("queue", "No box is spun before it has come in.", honey_house.queue),
    BookRule("room", "The honey house has room for what comes in.", honey_house.room),
    BookRule("all spun", "Every box that may be spun is.", honey_house.all_spun),
    BookRule("spin by", "Honey that spoils is spun in time.", honey_house.spin_by),
)

SUMS = (
    BookRule("bill", "Each head of the bill is what the plan costs.", money.bill),
    BookRule("tally", "The tally is what the chains leave out.", undone.tally),
    BookRule("undone", "Undone work is listed, each once, with its reasons.", undone.undone),
    BookRule("reliefs", "No relief cures more than is listed, or for nothing.", undone.reliefs),
    BookRule("bound", "The bound is not above the plan itself.", undone.bound),
)

BOOK = (*HOURS, *LOADS, *WINDOWS, *CHAIN, *WET, *STOCKS, *HONEY_HOUSE, *SUMS)

REWRITTEN = phrase("driven")

RULES: dict[str, str] = {
    REWRITTEN: "A plan made again leaves alone what was driven, spun and mixed.",
    **{rule.id: rule.sentence for rule in (*SENSE, *BOOK)},
}
"""Every rule the audit knows: its id, and what it asks in one sentence."""


def audit(plan: Plan, before: Plan | None = None) -> tuple[Finding, ...]:
    """Return every finding on ``plan``, in the order of the rules; none for a good plan.

    Works from the plan and the facts in it alone and never raises, whatever the plan says:
    what makes no sense is itself a finding, and then the rest is not looked at.

    Args:
        plan: The plan to judge.
        before: The plan that was being driven, counts entered, when ``plan`` was made; then
            what was driven must stand in ``plan`` unchanged.
    """
    if findings := senseless(plan):
        return findings
    told = _Told(plan)
    book, gone = open_book(plan), driven.driven_ids(plan)
    changed = driven.rewritten(plan, before) if before is not None else iter(())
    return (
        *(told.finding(REWRITTEN, breach) for breach in changed),
        *(
            told.finding(rule.id, breach)
            for rule in BOOK
            for breach in rule.check(book)
            if not driven.excused(rule.id, breach, gone)
        ),
    )


def senseless(plan: Plan) -> tuple[Finding, ...]:
    """Return what of ``plan`` makes no sense, so that nothing can be worked out from it."""
    told = _Told(plan)
    return tuple(told.finding(rule.id, breach) for rule in SENSE for breach in rule.check(plan))


class _Told:
    """Makes findings of breaches, as people say them: days by their dates, yards by their names."""

    def __init__(self, plan: Plan) -> None:
        self._names = {yard.id: yard.name for yard in plan.outfit.yards}
        self._first: date | None = None
        with suppress(ValueError):
            self._first = date.fromisoformat(plan.outfit.season.first_date)

    def finding(self, rule: str, breach: Breach) -> Finding:
        """Return the finding of one breach."""
        said, allowed = breach.said, breach.allowed
        if self._first is not None:
            said, allowed = dated(said, self._first), dated(allowed, self._first)
        name = self._names.get(breach.yard, "")
        return Finding(rule, breach.trip, breach.yard, said, allowed, name)
