"""The lines a driver would text, each with what it does to a campaign.

A verb reads the rest of its line and returns the campaign as it then is.  What it does not
understand, or cannot do as things stand, it refuses (`Refusal`): one refusal a line.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Final, NamedTuple

from runplanner.changes import sites
from runplanner.changes.counts import honey_house
from runplanner.changes.counts.boxes import boxes_counted, with_counts, without_counts
from runplanner.changes.counts.colonies import ailing, fewer
from runplanner.changes.counts.counts import as_counted
from runplanner.changes.counts.driven import driven_actions, off_by
from runplanner.changes.counts.possible import refuse_boxes, refuse_slips
from runplanner.changes.draft import Draft
from runplanner.changes.road import under_way
from runplanner.changes.said.count_words import BOXES, COLONIES, read_counts, see_pieces
from runplanner.changes.said.line import Line
from runplanner.changes.said.names import (
    a_yard,
    away_days,
    away_from,
    helper,
    helper_named,
    some_yards,
    trip_named,
    trip_to,
    with_out_days,
)
from runplanner.changes.said.when import (
    date_on,
    days_of,
    moment,
    open_ended,
    part_days,
    when,
    when_or_now,
)
from runplanner.changes.shut import reopened, shut_by_hand
from runplanner.changes.store import stocks
from runplanner.daybook.trip import Job, Shift
from runplanner.days import Span, clock, day_of, join, meet, without
from runplanner.outfit.shut import Work
from runplanner.outfit.yards import Health, Yard
from runplanner.phrase import Phrase, counted, joined, phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values import measures
from runplanner.scenario.values.quantities import Measure
from runplanner.scenario.yards.licence_part import a_licence, ends_before
from runplanner.trade.strips import SUBSTANCES

_MOST: Final = 1_000_000
AWAY: Final = ("out", "off", "away", "sick", "broken", "down")
BACK: Final = ("back", "here")
_LICENCE: Final = re.compile(r"[(:#]?\s?(?:licence|license)\b", re.IGNORECASE)
_QUOTES: Final = " :\"'\u201c\u201d\u201e\u2018\u2019\u201a\u00ab\u00bb"


class Verb(NamedTuple):
    """How a line begins, an example, and what it does; ``rank`` orders lines that lean on others.

    The example leaves open the opening ``{word}``, and names and a time that the line may tell;
    ``everywhere`` where "all" may stand for a yard.
    The time comes first, then who died, for a stop counted beside that found it so, then counts,
    then new yards, before anything else is told of those they are like, then everything else,
    losses too, then what trucks under way are told, then what is left in store and in yards, or
    may be spun.
    """

    begins: tuple[str, ...]
    such_as: str
    does: Callable[[Line, Draft], Draft]
    rank: int = 4
    everywhere: bool = False


def now(line: Line, draft: Draft) -> Draft:
    """Set the time it is; it never goes back before the time of the plan."""
    said = line.rest()
    at = moment(line, draft)
    if at < draft.plan.now_min:
        raise Refusal(
            phrase("a time not before the plan's own"), phrase("The plan was made later than that.")
        )
    return replace(draft.once("now", at, f"now {said}"), now_min=at)


def shut(line: Line, draft: Draft) -> Draft:
    """Shut hours at yards, for opening hives, for syrup, or for both."""
    return _weather(line, draft, without, opens=False)


def opened(line: Line, draft: Draft) -> Draft:
    """Open hours at yards; they count as settled as well."""
    return _weather(line, draft, lambda spans, mine: join((*spans, *mine)), opens=True)


_Edit = Callable[[tuple[Span, ...], tuple[Span, ...]], tuple[Span, ...]]


def _weather(line: Line, draft: Draft, edit: _Edit, *, opens: bool) -> Draft:
    where = some_yards(line, draft)
    kind = _kind(line)
    spans = when(line, draft)
    kind = kind or _kind(line)
    note = line.reason()
    nights: dict[tuple[int, ...], list[str]] = {}
    for yard in where:
        now = _weathered(yard, spans, edit, kind, opens=opens)
        told = reopened(now, spans, kind) if opens else shut_by_hand(now, spans, kind, note)
        draft = draft.with_yard(told)
        if opens and kind != "feed" and (ends := _unsettled_after(now, spans)):
            nights.setdefault(ends, []).append(yard.name)
    for ends, names in nights.items():
        draft = draft.noted(_night_words(draft, ends, names))
    return draft


def _unsettled_after(yard: Yard, spans: tuple[Span, ...]) -> tuple[int, ...]:
    """Return until when bees must settle in the nights after ``spans``, where they must."""
    found = []
    for span in join(spans):
        mornings = (sun.start_min for sun in yard.sun_spans if sun.start_min >= span.end_min)
        night = Span(span.end_min, next(mornings, span.end_min))
        found += [left.end_min for left in meet(yard.unsettled_spans, (night,))[-1:]]
    return tuple(found)


def _night_words(draft: Draft, ends: tuple[int, ...], names: Sequence[str]) -> Phrase:
    moments = (joined(" ", date_on(draft, day_of(end)), clock(end)) for end in ends)
    return phrase(
        "{names}: bees must settle in the night after the hours opened, so no boxes come off "
        "before it ends ({moments}); if that is called off too, open until then",
        names=", ".join(names),
        moments=joined(", ", *moments),
    )


def _kind(line: Line) -> str:
    if line.take("for syrup", "for feeding", "for feed"):
        return "feed"
    return "open" if line.take("for opening", "for take-off", "for boxes") else ""


def _weathered(yard: Yard, spans: tuple[Span, ...], edit: _Edit, kind: str, *, opens: bool) -> Yard:
    if kind != "feed":
        yard = replace(yard, open_spans=edit(yard.open_spans, spans))
    if kind != "open":
        yard = replace(yard, feed_spans=edit(yard.feed_spans, spans))
    settled = opens and kind != "feed"
    return replace(yard, unsettled_spans=without(yard.unsettled_spans, spans)) if settled else yard


def unsettled(line: Line, draft: Draft) -> Draft:
    """Mark hours in which bees hanging outside must not be caught."""
    where = some_yards(line, draft)
    spans = when(line, draft)
    note = line.reason()
    for yard in where:
        now = replace(yard, unsettled_spans=join((*yard.unsettled_spans, *spans)))
        draft = draft.with_yard(shut_by_hand(now, spans, Work.SETTLE, note))
    return draft


def out_or_back(line: Line, draft: Draft) -> Draft:
    """Take a truck, a trailer or a person out for some days, or have it back.

    Back on a day with no last one is back for the rest of that absence. A day of which hours are
    told counts as away, and a note says so; so does one on a day after a truck's night with hives,
    which stays as it is.
    """
    kind, key = helper_named(line, draft)
    line.take("is", "has")
    word = line.take(*AWAY, *BACK)
    if not word:
        raise Refusal(
            phrase("'out' or 'off', or 'back', and days"), phrase("Write, for example, 'off Fri'.")
        )
    back = word in BACK
    # Of "broken down" and "off sick" either word says it.
    while not back and line.take(*AWAY):
        pass
    first = open_ended(line, draft) if back else None
    spans = when_or_now(line, draft, goes_on=back)
    days, parts = days_of(spans), part_days(spans, draft)
    if back:
        days = tuple(day for day in days if day not in parts)
        parts = tuple(day for day in parts if day in away_days(draft, kind, key))
    if first is not None:
        start = day_of(first) + len(parts)
        days = away_from(draft, kind, key, start)
        if days or not parts:
            said = _back_words(draft, kind, key, days or (start,), away=bool(days))
            draft = draft.noted(said)
    for day in parts:
        draft = draft.noted(_whole_day(draft, kind, key, day, back=back))
    if back and kind == "trucks":
        for day, note in _kept_in(draft, key, days):
            draft, days = draft.noted(note), tuple(one for one in days if one != day)
    return with_out_days(draft, kind, key, days, back=back)


def _kept_in(draft: Draft, truck: str, days: Sequence[int]) -> Iterator[tuple[int, Phrase]]:
    """Yield the days on which a truck rests from a night with hives, each with the note on it."""
    name = draft.outfit.truck(truck).name
    for yard in draft.outfit.yards:
        for day in (day for day, carrier in yard.carried_by if carrier == truck and day in days):
            note = phrase(
                "{name} stays out on {day}: in the night before it carries the hives of {yard}",
                name=name,
                day=date_on(draft, day),
                yard=yard.name,
            )
            yield day, note


def _back_words(draft: Draft, kind: str, key: str, days: Sequence[int], *, away: bool) -> Phrase:
    """Return which days of an absence end with a line that gives no last day."""
    name = helper(draft, kind, key).name
    first, last = date_on(draft, days[0]), date_on(draft, days[-1])
    if not away:
        return phrase("{name} was not to be away on {day}; nothing changes", name=name, day=first)
    if first == last:
        return phrase("{name} is there again on {day}", name=name, day=first)
    return phrase("{name} is there again from {first} to {last}", name=name, first=first, last=last)


def _whole_day(draft: Draft, kind: str, key: str, day: int, *, back: bool) -> Phrase:
    """Return that a day of which hours were told counts as away, and what to type instead."""
    said = phrase(
        "hours are not planned with: {name} counts as away all {day}",
        name=helper(draft, kind, key).name,
        day=date_on(draft, day),
    )
    if back:
        return phrase("{said}; without hours it is back for that day", said=said)
    mine = [one for one in draft.plan.shifts if one.day == day and key in _helpers_of(one, kind)]
    if not mine:
        return phrase("{said}; leave the line out where these hours do no harm", said=said)
    return phrase(
        "{said}; its trips of that day, {start}-{end}, stay where the line is left out",
        said=said,
        start=clock(mine[0].start_min),
        end=clock(mine[-1].end_min),
    )


def _helpers_of(shift: Shift, kind: str) -> tuple[str, ...]:
    mine = {"people": shift.crew, "trucks": (shift.truck,), "trailers": (shift.trailer,)}
    return mine[kind]


def done(line: Line, draft: Draft) -> Draft:
    """Enter what was counted at a driven stop; a later count of a stop replaces one before.

    The trip may be left out where it can be one only.
    """
    meant = trip_to(line, draft)
    trip = meant or trip_named(line, draft)
    there = {call.yard for call in trip.yards()}
    yard = a_yard(line, draft, [one for one in draft.outfit.yards if one.id in there])
    line.take(":", "=")
    before = draft = draft.unsaid((trip.id, yard.id))
    if meant is not None:
        note = phrase("{name}: counted for trip {trip}", name=yard.name, trip=trip.id)
        draft = draft.noted(note)
    counts = read_counts(line, draft.outfit.strips_at(yard).substance)
    draft = without_counts(draft, trip, yard)
    trip = draft.driven_trip(trip.id)
    yard = draft.outfit.yard(yard.id)
    told = stocks.counted_anew(as_counted(draft, trip, yard, counts))
    refuse_slips(trip, told, yard, counts)
    told = with_counts(told, yard).noted_by((trip.id, yard.id), before)
    return under_way.over(told, trip.id, yard.id)


def dead(line: Line, draft: Draft) -> Draft:
    """Strike colonies that are dead, or queenless and put to others."""
    count, yard = _so_many_at(line, draft, phrase("a number of colonies"), COLONIES)
    return fewer(draft, yard, count)


def _so_many_at(line: Line, draft: Draft, what: Phrase, things: Sequence[str]) -> tuple[int, Yard]:
    """Read a number of things and the yard they are in, in either order."""
    yard = a_yard(line, draft, draft.outfit.yards) if _names_a_yard(line, draft) else None
    count = line.number(what, _MOST)
    line.take(*things)
    line.take("on")
    yard = yard or a_yard(line, draft, draft.outfit.yards)
    see_pieces(line, what)
    return count, yard


def _health(health: Health) -> Callable[[Line, Draft], Draft]:
    def ail(line: Line, draft: Draft) -> Draft:
        if line.rest()[:1].isdigit() and not _names_a_yard(line, draft):
            line.number(phrase("a number of colonies"), _MOST)
            line.take(*COLONIES)
        yard = a_yard(line, draft, draft.outfit.yards)
        line.take(",")
        agreed = bool(line.take("feed agreed", "feeding agreed"))
        licence = _a_licence(line, yard) if health is Health.STANDSTILL else ""
        words = f"{health} {yard.name}" + (", feed agreed" if agreed else "")
        words += f", licence {licence}" if licence else ""
        draft = draft.once(f"health {yard.id}", words, words)
        if not licence:
            return ailing(draft, yard, health, feed_agreed=agreed)
        draft = draft.noted(_licensed_words(draft, yard, licence))
        return ailing(draft, yard, Health.WATCH, feed_agreed=agreed, licence=licence)

    return ail


def _a_licence(line: Line, yard: Yard) -> str:
    """Read the licence of a yard at a standstill, all that is left; empty where none is told."""
    line.take(",")
    found = line.match(_LICENCE)
    if found is None:
        return ""
    left = line.everything()
    without = phrase(
        "Write {line} alone where there is none, or no longer; then nothing leaves.",
        line=repr(f"standstill {yard.name}"),
    )
    said = (left.removesuffix(")") if "(" in found.group() else left).strip(_QUOTES)
    return a_licence(said, without)


def _licensed_words(draft: Draft, yard: Yard, licence: str) -> Phrase:
    said = phrase(
        "{name}: at a standstill, worked under the licence typed, {licence}, last on its trip "
        "and its boxes apart",
        name=yard.name, licence=repr(licence),
    )  # fmt: skip
    doubt = ends_before(licence, date_on(draft, draft.outfit.season.n_days - 1))
    return said if doubt is None else joined("; ", said, doubt)


def _names_a_yard(line: Line, draft: Draft) -> bool:
    """Tell whether a yard's name comes next; nothing is read."""
    try:
        a_yard(Line(line.rest()), draft, draft.outfit.yards)
    except Refusal:
        return False
    return True


def house_stopped(line: Line, draft: Draft) -> Draft:
    """Nothing is spun in these hours."""
    return honey_house.stopped(draft, when_or_now(line, draft))


def house_full(line: Line, draft: Draft) -> Draft:
    """The honey house takes no deliveries in these hours."""
    return honey_house.full(draft, when_or_now(line, draft))


def spin(line: Line, draft: Draft) -> Draft:
    """A yard's boxes that strips were beside may be spun after all."""
    return honey_house.freed(draft, a_yard(line, draft, draft.outfit.yards))


def _number(line: Line, what: Phrase) -> int:
    allowed = phrase("a number of {what}", what=what)
    count = line.number(allowed, _MOST)
    see_pieces(line, allowed)
    return count


def _some(change: Callable[[Draft, int], Draft], what: Phrase) -> Callable[[Line, Draft], Draft]:
    return lambda line, draft: change(draft, _number(line, what))


def _left(
    change: Callable[[Draft, int], Draft], what: Phrase, key: str
) -> Callable[[Line, Draft], Draft]:
    def read(line: Line, draft: Draft) -> Draft:
        left = _number(line, what)
        return change(draft.once(key, left, f"{key} {left}"), left)

    return read


def strips_left(line: Line, draft: Draft) -> Draft:
    """Set how many strips are in store; where several substances are used, of which."""
    allowed = phrase("a number of strips")
    left = line.number(allowed, _MOST)
    see_pieces(line, allowed)
    of = line.take("of")
    kinds = (draft.outfit.strips, *draft.outfit.strips_also)
    known = {kind.substance: kind.substance for kind in kinds}
    called = {one: substance for one, substance in SUBSTANCES.items() if substance in known}
    named = line.maybe_name(called | known)
    see_pieces(line, allowed)
    other = SUBSTANCES.get(line.reason().casefold(), "")
    strange = bool(other) and other not in known
    if strange or (named is None and (of or len(known) > 1)):
        unused = phrase("Of another no visit needs any: leave the line out.")
        words = phrase(
            "Write 'strips left {left} {substance}'.", left=left, substance=kinds[-1].substance
        )
        allowed = phrase("the substance after the number: {names}", names=", ".join(known))
        raise Refusal(allowed, unused if strange else words)
    substance = named or kinds[0].substance
    draft = draft.once(f"strips left {substance}", left, f"strips left {left} {substance}")
    return stocks.strips_left(draft, left, substance)


def _left_in(
    change: Callable[[Draft, int], Draft], measure: Measure, key: str
) -> Callable[[Line, Draft], Draft]:
    def read(line: Line, draft: Draft) -> Draft:
        typed = line.amount()
        left = 0 if typed.casefold() in {"0", "no", "none"} else measure(typed)
        return change(draft.once(key, left, f"{key} {typed}"), left)

    return read


blocks_left = _left(stocks.blocks_left, phrase("blocks"), "blocks left")
boards_left = _left(stocks.boards_left, phrase("boards"), "boards left")
feeders_left = _left(stocks.feeders_left, phrase("feeders"), "feeders left")
boards_lost = _some(stocks.boards_lost, phrase("boards"))
boards_found = _some(stocks.boards_found, phrase("boards"))
feeders_lost = _some(stocks.feeders_lost, phrase("feeders"))
sugar_left = _left_in(stocks.sugar_left, measures.SUGAR, "sugar left")
syrup_left = _left_in(stocks.syrup_left, measures.SYRUP, "syrup left")


def boxes_left(line: Line, draft: Draft) -> Draft:
    """Set how many full boxes still stand in a yard; what is not begun is still to come off."""
    left, yard = _so_many_at(line, draft, phrase("a number of boxes"), BOXES)
    draft = draft.once(f"boxes left {yard.id}", left, f"boxes left {left} {yard.name}")
    off = off_by(draft, yard.id, Job.TAKE_OFF, draft.begun)
    refuse_boxes(left, max(0, yard.colonies - off) or yard.colonies, yard.boxes)
    if left and off >= yard.colonies:
        raise Refusal(
            phrase("boxes left in a yard with colonies still to come off"),
            _off_already(draft, yard, left),
        )
    told = boxes_counted(draft, yard, left)
    to_come = driven_actions(draft, yard.id, lambda call: not draft.begun(call))
    boxes = sum(one.boxes for one in to_come)
    if boxes in {0, left}:
        return told
    note = counted(
        "{name}: a truck that is out is still to take {number} box off there; that counts as "
        "planned until it is counted",
        "{name}: a truck that is out is still to take {number} boxes off there; that counts as "
        "planned until it is counted",
        boxes,
        name=yard.name,
    )
    return told.noted(note)


def _off_already(draft: Draft, yard: Yard, left: int) -> Phrase:
    """Return what to type where boxes are left though all colonies are off.

    No feed or strips may follow under boxes: the last take-off is counted with fewer colonies,
    at as many boxes each as it had.
    """
    taken = [
        (trip.id, sum(one.colonies for one in off), sum(one.boxes for one in off))
        for trip in draft.driven_trips()
        if (off := [one for call in trip.yards() if call.yard == yard.id and draft.begun(call)
                    for one in call.actions if one.job is Job.TAKE_OFF])
    ]  # fmt: skip
    if not taken:
        return phrase("No living colony has them on: fetch them, and leave this line out.")
    trip, colonies, boxes = taken[-1]
    still_on = min(colonies, -(-left * colonies // boxes) if boxes else colonies)
    counts = f"{colonies - still_on} colonies {max(0, boxes - left)} boxes"
    return phrase(
        "All its colonies are off, so no visit fetches them. Where they are still on, type {line} "
        "as well, with the colonies that came off; where they stand apart, fetch them and leave "
        "this line out.",
        line=f"'done {trip} {yard.name}: {counts}'",
    )


def move(line: Line, draft: Draft) -> Draft:
    """Move a yard to another place on a day."""
    yard = a_yard(line, draft, draft.outfit.yards)
    line.take("to")
    return sites.moved(draft, yard, line)


def new_yard(line: Line, draft: Draft) -> Draft:
    """Put in a yard that nobody knew of."""
    return sites.new_yard(draft, line, lambda rest: a_yard(rest, draft, draft.outfit.yards))


TOLD: Final = 5
"""The rank of what a truck under way is told to do."""
VERBS: Final[Sequence[Verb]] = (
    Verb(("now",), "{word} Fri 12:30", now, 0),
    Verb(("done",), "{word} {trip}{yard}: 20 colonies 37 boxes", done, 2),
    Verb(("shut",), "{word} {yard} Fri from 14:00", shut, everywhere=True),
    Verb(("open",), "{word} {yard} Sat 9:00-12:00", opened, everywhere=True),
    Verb(("unsettled", "storm"), "{word} {yard} Fri from 18:00", unsettled, everywhere=True),
    Verb(
        ("honey house stopped", "honey house broken", "honey house down"),
        "{word} until Mon",
        house_stopped,
    ),
    Verb(("honey house full",), "{word} Fri", house_full),
    Verb(
        ("dead", "queenless", "colonies lost", "colony lost", "hives lost", "hive lost"),
        "{word} 2 {yard}",
        dead,
        1,
    ),
    Verb(("suspect",), "{word} {yard}", _health(Health.SUSPECT)),
    Verb(("standstill",), "{word} {yard}", _health(Health.STANDSTILL)),
    Verb(("watch",), "{word} {yard}", _health(Health.WATCH)),
    Verb(("sound",), "{word} {yard}", _health(Health.SOUND)),
    Verb(("spin",), "{word} {yard}", spin, 6),
    Verb(
        ("boxes left", "box left", "supers left", "super left"), "{word} 12 {yard}", boxes_left, 6
    ),
    Verb(("move",), "{word} {yard} to -36.85 174.76 on Sat", move),
    Verb(("new yard",), "{word} Mill Lane at -36.85 174.76: 24 colonies 40 boxes", new_yard, 3),
    Verb(("home", "call home"), "{word} {truck}", under_way.home, TOLD),
    Verb(("skip", "leave out"), "{word} {yard}", under_way.skip, TOLD),
    Verb(("next",), "{word} {truck}: {yard}", under_way.order, TOLD),
    Verb(("left", "leaves", "late"), "{word} {yard} {time}", under_way.left),
    Verb(("blocks left", "block left", "fondant left"), "{word} 40", blocks_left, 6),
    Verb(("strips left", "strip left"), "{word} 200 {substance}", strips_left, 6),
    Verb(("boards left", "board left"), "{word} 40", boards_left, 6),
    Verb(("boards lost", "board lost"), "{word} 5", boards_lost),
    Verb(
        ("boards found", "boards bought", "board found", "board bought"), "{word} 5", boards_found
    ),
    Verb(("feeders left", "feeder left"), "{word} 30", feeders_left, 6),
    Verb(("feeders lost", "feeder lost"), "{word} 4", feeders_lost),
    Verb(("sugar left",), "{word} 500 kg", sugar_left, 6),
    Verb(("syrup left",), "{word} 600 L", syrup_left, 6),
    Verb((), "{helper} off Fri-Sat", out_or_back),
)


def verb_of(line: Line) -> Verb:
    """Read how a line begins that the program made, and return its verb."""
    return next(verb for verb in VERBS if line.take(*verb.begins))
