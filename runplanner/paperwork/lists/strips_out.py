"""When strips fall due out, printed even where that lies past the campaign."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from runplanner.daybook.honey_on import honey_on
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.days import clock, day_of
from runplanner.outfit.stores import Strips
from runplanner.outfit.yards import Access, Yard
from runplanner.paperwork.escape import shown
from runplanner.paperwork.lists.before_feed import feeding_stop
from runplanner.paperwork.lists.collection import Collection, collections, too_long
from runplanner.paperwork.lists.kit_left import kit_left_at, kit_part
from runplanner.paperwork.lists.second_application import again_colonies, again_pieces
from runplanner.paperwork.sheet.frame import blank, box, office_page, section, whole
from runplanner.paperwork.sheet.page import Html, Part, bullets, el, put, table
from runplanner.paperwork.speech.say import (
    count,
    date_on,
    date_words,
    duration,
    listed,
    whole_name,
    yard_name,
)
from runplanner.paperwork.speech.substances import (
    air_words,
    by_substance,
    called,
    kind_at,
    names_substance,
    strips_of,
)
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.stop.events import actions
from runplanner.paperwork.stop.health import State, health_at_fetching
from runplanner.paperwork.stop.yard_words import access_words
from runplanner.trade.strips import NO_FEED, ban_cut, given_twice, treatment


# Fields: Veterinary Medicines Regulations 2013 (GB), records of keepers; EU law is alike.
def substance_notes(kind: Strips, plain: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Return the cautions of an active substance, and the air it may be used in.

    ``plain`` is said of a substance of which nothing is known.
    """
    known = treatment(kind.substance)
    notes = plain if known is None else tuple(_as_typed(kind, one) for one in known.cautions)
    again = tr("A second application, as many strips again, when these come out.")
    twice = given_twice(kind.substance, typed=kind.twice)
    return tuple(filter(None, (*notes, again if twice else "", air_words(kind))))


def _as_typed(kind: Strips, caution: str) -> str:
    """Return a caution as the plan keeps to it: a shorter ban on feed is told as the user's own."""
    if caution != NO_FEED or not (known_days := ban_cut(kind)):
        return tr(caution)
    return tr(
        "No feed for {typed} (own figure), where {known} are known: the label decides.",
        typed=count(kind.no_feed_days, "day", "days"),
        known=count(known_days, "day", "days"),
    )


def _notes(kinds: Sequence[Strips]) -> tuple[str, ...]:
    """Return what holds for any strips, and what is known of these, each thing once."""
    plain = (
        tr("Strips come out when they fall due and are not cut or used again."),
        tr("Whole yard on the same day; no honey boxes on while strips are in."),
    )
    return (
        tr("The product's leaflet, your vet and local law go before this list."),
        *all_notes(kinds, plain),
        tr("Write down at purchase: name, batch, quantity, supplier, date."),
        tr(
            "Write down at use: date, quantity, withdrawal period, which colonies; keep as law "
            "asks."
        ),
    )


def all_notes(kinds: Sequence[Strips], plain: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Return what is known of every kind, each thing once, its substance named beside others.

    ``plain`` is said of a substance of which nothing is known.
    """
    several = len({kind.substance for kind in kinds}) > 1
    lines = (
        f"{called(kind.substance)}: {note}" if several else note
        for kind in kinds
        for note in substance_notes(kind, plain)
    )
    return tuple(dict.fromkeys(lines))


@dataclass(frozen=True, slots=True)
class StripsOut:
    """One yard's strips: how many went in when, and between which dates they come out.

    ``honey_on``: so many colonies had their honey on then.  ``again``: so many strips go in when
    they come out, into as many colonies as live (``again_colonies``), and are due from
    ``again_from`` to ``again_to``.  ``year`` is that in which
    they went in, ``last_year`` that of the last of these dates.  ``at_feed``: whoever
    feeds the yard on the last day takes them out first.
    """

    yard: str
    kind: Strips
    colonies: int
    pieces: int
    went_in: str
    due_from: str
    due_to: str
    due_day: int
    last_day: int
    year: int
    last_year: int
    honey_on: int = 0
    again: int = 0
    again_colonies: int = 0
    again_from: str = ""
    again_to: str = ""
    at_feed: bool = False

    def first_out(self, day: int) -> bool:
        """Tell whether they are due out on a day."""
        return self.due_day <= day <= self.last_day

    def second_out(self, day: int) -> bool:
        """Tell whether those of a second application may be due out on a day."""
        first, last = self.kind.out_after_days, self.kind.out_before_days
        return self.again > 0 and self.due_day + first <= day <= self.last_day + last

    def second(self) -> "StripsOut":
        """Return the same with what goes in again in place of what went in."""
        return replace(self, pieces=self.again, colonies=self.again_colonies)


def strips_out(plan: Plan) -> tuple[StripsOut, ...]:
    """Return every yard's strips by the day on which they first fall due out."""
    found, treated = [], honey_on(plan, Job.STRIPS)
    for stop, action in actions(plan, Job.STRIPS):
        day, kind = day_of(stop.call.start_min), kind_at(plan.outfit, stop.call.yard)
        again = again_pieces(plan, stop, action)
        end_day = day + kind.out_before_days * (2 if again else 1)
        first_day, last_day = day + kind.out_after_days, day + kind.out_before_days
        fed = feeding_stop(plan, stop.call.yard, first_day, last_day)
        last_day = day_of(fed.call.start_min) if fed else last_day
        found.append(
            StripsOut(
                yard=whole_name(plan.outfit.yard(stop.call.yard)),
                kind=kind,
                colonies=action.colonies,
                pieces=action.pieces,
                went_in=date_words(plan.outfit, day),
                due_from=_dated(plan, first_day),
                due_to=_dated(plan, last_day),
                due_day=first_day,
                last_day=last_day,
                year=date_on(plan.outfit, day).year,
                last_year=date_on(plan.outfit, end_day).year,
                honey_on=treated[stop.call.yard].colonies if stop.call.yard in treated else 0,
                again=again,
                again_colonies=again_colonies(plan, stop, action),
                again_from=_dated(plan, day + 2 * kind.out_after_days),
                again_to=_dated(plan, day + 2 * kind.out_before_days),
                at_feed=fed is not None,
            )
        )
    return tuple(sorted(found, key=lambda one: (one.due_day, one.yard)))


def due_inside(plan: Plan) -> tuple[StripsOut, ...]:
    """Return those that fall due out while the campaign runs."""
    return tuple(one for one in strips_out(plan) if one.due_day < plan.outfit.season.n_days)


def nobodys(due: Sequence[StripsOut]) -> tuple[StripsOut, ...]:
    """Return those that nobody takes out: not at a stop that feeds, and no trip fetches any."""
    return tuple(one for one in due if not one.at_feed)


def unfetched() -> str:
    """Return that nobody is sent for strips that fall due while the campaign runs."""
    return tr(
        "No trip of this plan fetches them, and neither truck nor person is kept free for it: "
        "say who goes."
    )


def bring_words(strips: str) -> str:
    """Return what to bring when strips are fetched that are given twice."""
    return tr("bring {strips} for the second application", strips=strips)


def due_words(due_from: str, due_to: str) -> str:
    """Return from when to when strips fall due, the year once where it is the same."""
    start = due_from.removesuffix(f" {due_to[-4:]}")
    return tr("{start} to {end}", start=start, end=due_to)


def _dated(plan: Plan, day: int) -> str:
    return f"{date_words(plan.outfit, day)} {date_on(plan.outfit, day).year}"


def kinds_out(plan: Plan) -> tuple[Strips, ...]:
    """Return the kinds that go in, soonest due out first; at least the usual."""
    return tuple(dict.fromkeys(one.kind for one in strips_out(plan))) or (plan.outfit.strips,)


def strips_page(plan: Plan) -> str:
    """Return the list as a page with room for batch numbers."""
    lines = strips_out(plan)
    kinds = kinds_out(plan)
    substances = tuple(dict.fromkeys(called(kind.substance, 40) for kind in kinds))
    if not lines:
        body = el("p", tr("No strips are planned."))
    else:
        body = table(
            (tr("Out"), tr("Due out"), tr("Yard"), tr("Strips"), tr("Went in"), tr("Batch")),
            _rows(lines, each=len(substances) > 1),
        )
    return office_page(
        plan, tr("Strips out"), listed(substances), body, _fetching(plan), kit_part(plan),
        bullets(_notes(kinds), cls="marked"),
    )  # fmt: skip


def _rows(lines: Sequence[StripsOut], *, each: bool) -> list[tuple[Part, ...]]:
    """Return a row for each yard and each second application, the soonest due out first."""
    rows: list[tuple[int, tuple[Part, ...]]] = [
        (
            one.due_day,
            (
                box(),
                _due(one),
                el("b", one.yard),
                whole(_strips_in(one, each=each)),
                whole(one.went_in),
                blank(),
            ),
        )
        for one in lines
    ]
    for one in (one for one in lines if one.again):
        due = el("b", due_words(one.again_from, one.again_to))
        words = tr("{strips}, second application", strips=_strips_in(one.second(), each=each))
        row = (box(), due, el("b", one.yard), words, blank(), blank())
        rows.append((one.due_day + one.kind.out_after_days, row))
    return [row for _, row in sorted(rows, key=lambda one: one[0])]


def _due(one: StripsOut) -> Html:
    due = el("b", due_words(one.due_from, one.due_to))
    return put(due, " ", at_feed_words()) if one.at_feed else due


def at_feed_words() -> str:
    """Return that strips which forbid feed are taken out by whoever feeds the yard."""
    return tr("by whoever feeds the yard on the last day, before any feed")


def _strips_in(one: StripsOut, *, each: bool) -> str:
    colonies = count(one.colonies, "colony", "colonies")
    if each:
        return tr(
            "{pieces} of {substance} in {colonies}", pieces=one.pieces, colonies=colonies,
            substance=called(one.kind.substance),
        )  # fmt: skip
    return tr("{pieces} in {colonies}", pieces=one.pieces, colonies=colonies)


def _fetching(plan: Plan) -> Part:
    """Return the proposed trips, or nothing where no strips went in."""
    trips = collections(plan)
    if not trips:
        return ""
    words = mark(
        "A proposal, past the campaign: yards near each other, one person, at the pace at which "
        "the strips went in. The dates bind, the grouping does not."
    )
    inside = nobodys(due_inside(plan))
    if inside:
        words = mark(
            "A proposal: yards near each other, one person, at the pace at which the strips went "
            "in. The dates bind, the grouping does not."
        )
    yards = listed(tuple(dict.fromkeys(one.yard for one in inside)))
    during = tr("While the campaign runs: {yards}.", yards=yards)
    # Common practice, no source.
    along = tr(
        "On the same visit lift each hive to judge its stores and write that down, bring in "
        "feeders that are empty, and put mouse guards on."
    )
    heads = (
        tr("Done"), tr("Any day from"), tr("to"), tr("Yards in order"), tr("Strips"), tr("Drive"),
        tr("Work"), tr("In all, with breaks"),
    )  # fmt: skip
    return section(
        tr("Fetch them"),
        el("p", tr(words)),
        el("p", el("b", during, " ", unfetched())) if inside else "",
        _order(trips),
        _again(trips),
        el("p", along),
        table(heads, [_cells(plan, one) for one in trips]),
    )


def _again(trips: tuple[Collection, ...]) -> Part:
    """Return that second applications are nobody's visit, nothing where there are none."""
    if not any(one.again for trip in trips for one in trip.pickups):
        return ""
    words = tr(
        "The second application is no visit of this plan. Bring new strips on these trips: they "
        "fall due by the dates above, and no trip is proposed for fetching them."
    )
    return el("p", el("b", words))


def _order(trips: tuple[Collection, ...]) -> Part:
    """Return what health asks of whoever groups yards otherwise; nothing where all are sound."""
    if all(one.state is State.SOUND for trip in trips for one in trip.pickups):
        return ""
    words = tr(
        "A watched yard stays the last of its trip; a suspect one, or one at a standstill, is "
        "visited alone, and its feeders stay there."
    )
    return el("p", words)


def _cells(plan: Plan, trip: Collection) -> tuple[Part, ...]:
    drive = tr("no road known") if trip.drive_min is None else _about(trip.drive_min)
    return (
        box(),
        el("b", _dated(plan, trip.from_day)),
        el("b", _dated(plan, trip.to_day)),
        _yards(plan, trip),
        _fetched(plan, trip),
        whole(drive),
        whole(_about(trip.work_min)),
        _in_all(plan, trip),
    )


def _in_all(plan: Plan, trip: Collection) -> Part:
    """Return how long a trip takes with its breaks, and when it leaves; nothing without a road."""
    duty = trip.duty_min()
    if duty is None:
        return ""
    words = whole(_about(duty))
    if too_long(plan.outfit, trip):
        return put(words, " ", tr("Too long for one person's day."))
    if not trip.gates_hold:
        return put(words, " ", tr("No hour of leaving suits the gates."))
    if trip.leave_min is None:
        return words
    return put(words, " ", whole(tr("Leave home at {time}.", time=clock(trip.leave_min))))


def _fetched(plan: Plan, trip: Collection) -> Html:
    """Return the strips that come home, and those to bring for a second application."""
    again = by_substance(plan.outfit, ((one.yard, one.again) for one in trip.pickups))
    if not names_substance(plan.outfit):
        home = str(trip.pieces())
        new = [count(number, "strip", "strips") for number in again.values()]
    else:
        found = by_substance(plan.outfit, ((one.yard, one.pieces) for one in trip.pickups))
        home = listed(tuple(f"{number} {substance}" for substance, number in found.items()))
        new = [strips_of(number, substance) for substance, number in again.items()]
    return put(el("b", home), "; " if new else "", bring_words(listed(tuple(new))) if new else "")


def _about(minutes: int) -> str:
    return tr("about {time}", time=duration(minutes))


def _yards(plan: Plan, trip: Collection) -> Html:
    yards = [plan.outfit.yard(one.yard) for one in trip.pickups]
    return bullets([_visited(plan, number, yard) for number, yard in enumerate(yards, start=1)])


def _visited(plan: Plan, number: int, yard: Yard) -> Html:
    """Return a yard in its order, with what its health asks and how to get in."""
    left = kit_left_at(plan, yard.id)
    kit = (tr("{kit} there.", kit=left),) if left else ()
    said = " ".join((*kit, *health_at_fetching(plan, yard), *access_words(yard.access)))
    name = el("b", f"{number} {yard_name(yard)}")
    return put(name, " ", said, _ring(yard.access)) if said or yard.access.phone else name


def _ring(access: Access) -> Part:
    phone = shown(access.phone, 40)
    return put(" ", tr("Ring"), " ", el("b", phone)) if phone else ""
