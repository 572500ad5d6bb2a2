"""When strips fall due out, printed even where that lies past the campaign."""

from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.days import day_of
from runplanner.outfit.stores import Strips
from runplanner.paperwork.collection import Collection, collections
from runplanner.paperwork.escape import shown
from runplanner.paperwork.events import actions
from runplanner.paperwork.frame import blank, box, office_page, section, whole
from runplanner.paperwork.page import Html, Part, bullets, el, table
from runplanner.paperwork.say import count, date_on, date_words, duration, tenths, yard_named
from runplanner.paperwork.tongue import mark, tr
from runplanner.trade.strips import STRIPS


# Fields: Veterinary Medicines Regulations 2013 (GB), records of keepers; EU law is alike.
def substance_notes(kind: Strips) -> tuple[str, ...]:
    """Return what is known of the active substance, its cautions and the air it may be used in.

    The figures are the published ones; what a scenario says instead stands in ``check``.
    """
    known = STRIPS.get(kind.substance.casefold())
    if known is None:
        return ()
    said = tuple(tr(caution) for caution in known.cautions)
    if known.low_c is None or known.high_c is None:
        return said
    words = mark("Air from {low} to {high} \u00b0C while they are in.")
    if known.on_the_mean:
        words = mark("Days of {low} \u00b0C and more in the mean, none above {high} \u00b0C.")
    low, high = (tenths(round(1000 * figure)) for figure in (known.low_c, known.high_c))
    return (*said, tr(words, low=low, high=high))


def _notes(kind: Strips) -> tuple[str, ...]:
    """Return what holds for any strips, and what is known of these, each thing once."""
    plain = (
        tr("Strips come out when they fall due and are not cut or used again."),
        tr("Whole yard on the same day; no honey boxes on while strips are in."),
    )
    return (
        tr("The product's leaflet, your vet and local law go before this list."),
        *(substance_notes(kind) or plain),
        tr("Write down at purchase: name, batch, quantity, supplier, date."),
        tr(
            "Write down at use: date, quantity, withdrawal period, which colonies; keep as law "
            "asks."
        ),
    )


@dataclass(frozen=True, slots=True)
class StripsOut:
    """One yard's strips: how many went in when, and between which dates they come out."""

    yard: str
    colonies: int
    pieces: int
    went_in: str
    due_from: str
    due_to: str
    due_day: int
    year: int


def strips_out(plan: Plan) -> tuple[StripsOut, ...]:
    """Return every yard's strips by the day on which they first fall due out."""
    found = []
    for stop, action in actions(plan, Job.STRIPS):
        day, kind = day_of(stop.call.start_min), plan.outfit.strips
        found.append(
            StripsOut(
                yard=yard_named(plan.outfit, stop.call.yard),
                colonies=action.colonies,
                pieces=action.pieces,
                went_in=date_words(plan.outfit, day),
                due_from=_dated(plan, day + kind.out_after_days),
                due_to=_dated(plan, day + kind.out_before_days),
                due_day=day + kind.out_after_days,
                year=date_on(plan.outfit, day).year,
            )
        )
    return tuple(sorted(found, key=lambda one: (one.due_day, one.yard)))


def _dated(plan: Plan, day: int) -> str:
    return f"{date_words(plan.outfit, day)} {date_on(plan.outfit, day).year}"


def strips_page(plan: Plan) -> str:
    """Return the list as a page with room for batch numbers."""
    lines = strips_out(plan)
    kind = plan.outfit.strips
    if not lines:
        body = el("p", tr("No strips are planned."))
    else:
        body = table(
            (tr("Out"), tr("Due out"), tr("Yard"), tr("Strips"), tr("Went in"), tr("Batch")),
            [
                (
                    box(),
                    el("b", tr("{start} to {end}", start=one.due_from, end=one.due_to)),
                    el("b", one.yard),
                    whole(_strips_in(one)),
                    whole(one.went_in),
                    blank(),
                )
                for one in lines
            ],
        )
    return office_page(
        plan, tr("Strips out"), shown(kind.substance, 40), body, _fetching(plan),
        bullets(_notes(kind), cls="marked"),
    )  # fmt: skip


def _strips_in(one: StripsOut) -> str:
    colonies = count(one.colonies, "colony", "colonies")
    return tr("{pieces} in {colonies}", pieces=one.pieces, colonies=colonies)


def _fetching(plan: Plan) -> Part:
    """Return the proposed trips, or nothing where no strips went in."""
    trips = collections(plan)
    if not trips:
        return ""
    words = tr(
        "A proposal, past the campaign: yards near each other, one person, at the pace at which "
        "the strips went in. The dates bind, the grouping does not."
    )
    heads = (
        tr("Done"), tr("Any day from"), tr("to"), tr("Yards in order"), tr("Strips"), tr("Drive"),
        tr("Work"),
    )  # fmt: skip
    return section(
        tr("Fetch them"), el("p", words), table(heads, [_cells(plan, one) for one in trips])
    )


def _cells(plan: Plan, trip: Collection) -> tuple[Part, ...]:
    drive = tr("no road known") if trip.drive_min is None else _about(trip.drive_min)
    return (
        box(),
        el("b", _dated(plan, trip.from_day)),
        el("b", _dated(plan, trip.to_day)),
        _yards(plan, trip),
        el("b", str(trip.pieces())),
        whole(drive),
        whole(_about(trip.work_min)),
    )


def _about(minutes: int) -> str:
    return tr("about {time}", time=duration(minutes))


def _yards(plan: Plan, trip: Collection) -> Html:
    names = [yard_named(plan.outfit, one.yard) for one in trip.pickups]
    return bullets([f"{number} {name}" for number, name in enumerate(names, start=1)])
