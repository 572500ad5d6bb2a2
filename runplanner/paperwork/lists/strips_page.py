"""The list of strips that fall due out, with trips proposed for fetching them."""

from collections.abc import Sequence

from runplanner.daybook.plan import Plan
from runplanner.days import clock
from runplanner.outfit.stores import Strips
from runplanner.outfit.yards import Access
from runplanner.paperwork.escape import shown
from runplanner.paperwork.lists.collection import Collection, Pickup, collections, too_long
from runplanner.paperwork.lists.kit_left import kit_left_at, kit_part
from runplanner.paperwork.lists.strips_out import (
    StripsOut,
    all_notes,
    at_feed_words,
    bring_words,
    dated,
    due_inside,
    due_words,
    kinds_out,
    nobodys,
    strips_out,
    unfetched,
)
from runplanner.paperwork.sheet.frame import blank, box, office_page, section, whole
from runplanner.paperwork.sheet.page import Html, Part, bullets, el, put, table
from runplanner.paperwork.speech.say import count, duration, listed, yard_name
from runplanner.paperwork.speech.substances import (
    by_substance,
    called,
    names_substance,
    strips_named,
    strips_of,
    substance_at,
)
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.stop.health import State, health_at_fetching
from runplanner.paperwork.stop.yard_words import access_words


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
        section(tr("Medicine"), bullets(_notes(kinds), cls="marked")),
    )  # fmt: skip


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
        el("b", dated(plan, trip.from_day)),
        el("b", dated(plan, trip.to_day)),
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
    several = len(trip.pickups) > 1
    return bullets(
        [
            _visited(plan, number, one, several=several)
            for number, one in enumerate(trip.pickups, start=1)
        ]
    )


def _visited(plan: Plan, number: int, one: Pickup, *, several: bool) -> Html:
    """Return a yard in its order, with what its health asks and how to get in.

    Where its trip has several, which strips come out there, and how many go in.
    """
    yard, left = plan.outfit.yard(one.yard), kit_left_at(plan, one.yard)
    strips = (_strips_there(plan, one),) if several else ()
    kit = (tr("{kit} there.", kit=left),) if left else ()
    said = " ".join((*strips, *kit, *health_at_fetching(plan, yard), *access_words(yard.access)))
    name = el("b", f"{number} {yard_name(yard)}")
    return put(name, " ", said, _ring(yard.access)) if said or yard.access.phone else name


def _strips_there(plan: Plan, one: Pickup) -> str:
    substance = substance_at(plan.outfit, one.yard)
    strips = strips_named(plan.outfit, one.pieces, substance)
    if not one.again:
        return tr("{strips} out.", strips=strips)
    return tr("{strips} out, {number} in.", strips=strips, number=one.again)


def _ring(access: Access) -> Part:
    phone = shown(access.phone, 40)
    return put(" ", tr("Ring"), " ", el("b", phone)) if phone else ""
