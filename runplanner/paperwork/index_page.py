"""The office's page: every paper by day, what is undone, and the only place for money."""

from dataclasses import dataclass, fields

from runplanner.daybook.plan import ALL_DONE, Bill, Bound, Plan
from runplanner.paperwork.data.tables import TABLE_NAMES
from runplanner.paperwork.days.day_sheet import busy_days, shifts_on
from runplanner.paperwork.days.wet_day import wet_days
from runplanner.paperwork.driver.lifting import lifts_alone
from runplanner.paperwork.escape import file_name, shown
from runplanner.paperwork.lists.cover_list import at_risk
from runplanner.paperwork.lists.intake_sheet import intake_days
from runplanner.paperwork.lists.strips_out import due_inside, nobodys, unfetched
from runplanner.paperwork.lists.undone_list import but_words, undone_part
from runplanner.paperwork.sheet.frame import office_page, section
from runplanner.paperwork.sheet.page import Html, Part, bullets, el, link, put, table
from runplanner.paperwork.speech.hours_words import hours_words
from runplanner.paperwork.speech.in_hand_words import in_hand_words
from runplanner.paperwork.speech.say import (
    count,
    date_words,
    iso,
    moment,
    money,
    vehicle_name,
    yard_named,
)
from runplanner.paperwork.speech.sums import HEADS, gap_words, lost_words, tally_words
from runplanner.paperwork.speech.tongue import mark, said, tr
from runplanner.paperwork.speech.trip_state import TripState, trip_state

CHANGES_FILE = "changes.html"
"""What became of a plan that was made again; only such a plan has it."""
WHOLE = (
    ("shopping.html", mark("Shopping list")),
    ("mixing.html", mark("Mixing sheet")),
    ("run_out.html", mark("When the stop-gap runs out")),
    ("take_off.html", mark("Take-off register")),
    ("medicine.html", mark("Medicine record")),
    ("strips_out.html", mark("Strips out, and trips to fetch them")),
)


@dataclass(frozen=True, slots=True)
class TripLink:
    """A trip as the index lists it; ``alone`` where one person still has to lift heavy boxes."""

    trip: str
    words: str
    state: TripState
    alone: bool


@dataclass(frozen=True, slots=True)
class DayLinks:
    """One day's papers; an empty name where there is none."""

    date: str
    name: str
    trips: tuple[TripLink, ...]
    intake: bool
    wet: bool


def day_links(plan: Plan) -> tuple[DayLinks, ...]:
    """Return the papers of every day on which anything happens."""
    intakes, wets = intake_days(plan), wet_days(plan)
    days = sorted({*busy_days(plan), *intakes})
    return tuple(
        DayLinks(
            date=date_words(plan.outfit, day),
            name=iso(plan.outfit, day),
            trips=_trips(plan, day),
            intake=day in intakes,
            wet=day in wets,
        )
        for day in days
    )


def _trips(plan: Plan, day: int) -> tuple[TripLink, ...]:
    found = []
    for shift in shifts_on(plan, day):
        for trip in shift.trips:
            yards = ", ".join(yard_named(plan.outfit, call.yard) for call in trip.yards())
            boxes = trip.boxes()
            words = f"{vehicle_name(plan.outfit, shift.truck)}: {yards}"
            if boxes:
                back = count(boxes, "box", "boxes")
                words = tr("{trip} ({boxes} back)", trip=words, boxes=back)
            state = trip_state(plan, trip)
            alone = state is not TripState.DRIVEN and lifts_alone(plan.outfit, shift, trip)
            found.append(TripLink(trip.id, words, state, alone))
    return tuple(found)


def index_page(
    plan: Plan,
    findings: tuple[str, ...] = (),
    notes: tuple[str, ...] = (),
    *,
    changed: bool = False,
) -> str:
    """Return the index; ``findings`` are the audit's sentences, ``notes`` about printing.

    ``changed`` says that a change sheet lies beside it.
    """
    season = plan.outfit.season
    last, risk = date_words(plan.outfit, season.n_days - 1), at_risk(plan)
    return office_page(
        plan,
        tr("Campaign {first} to {last}", first=date_words(plan.outfit, 0), last=last),
        tr("times are local, {zone}", zone=shown(season.zone, 40)),
        _findings(findings),
        bullets(notes, cls="marked"),
        _changes(plan) if changed else "",
        section(tr("Day by day"), _days(plan)),
        section(tr("What to print, and when"), _when(plan)),
        section(tr("Whole campaign"), _whole()),
        section(tr("Colonies at risk: cover ends"), bullets(risk, cls="marked")) if risk else "",
        undone_part(plan, tally_words(plan.tally) + but_words(plan), priced=True),
        section(tr("Cost"), _cost(plan), cls="kept"),
        section(tr("Drivers' hours"), el("p", hours_words(plan.outfit))),
        section(tr("How it was found"), *_found(plan)),
        home="",
    )


def _changes(plan: Plan) -> Html:
    """Return the way to the change sheet, which whoever planned again reads first."""
    when = el("b", moment(plan.outfit, plan.now_min))
    sheet = link(tr("change sheet"), CHANGES_FILE)
    told = tr("what moved and why, who drives, which papers to print again, what it costs.")
    return el("p", tr("Planned again as of"), " ", when, ". ", sheet, ": ", told, cls="last")


def _findings(findings: tuple[str, ...]) -> Part:
    if not findings:
        return ""
    lines = [shown(said(words), 400) for words in findings]
    broken = count(len(lines), "broken rule", "broken rules")
    head = tr("Do not drive this plan: the audit found {rules}", rules=broken)
    return el("section", el("h2", head), bullets(lines, cls="marked"), cls="alarm")


def _days(plan: Plan) -> Html:
    lines = [_day_cells(day) for day in day_links(plan)]
    return table((tr("Day"), tr("Drivers' papers"), tr("Honey house"), "", tr("By phone")), lines)


def _day_cells(day: DayLinks) -> tuple[Part, ...]:
    trips = [
        put(
            link(one.words, f"manifests/{file_name(one.trip)}.html"),
            "" if one.state is TripState.TO_LOAD else el("b", " " + tr(one.state)),
            el("b", " " + tr("one person alone with heavy boxes")) if one.alone else "",
            " ",
            link(tr("track"), f"tracks/{file_name(one.trip)}.gpx"),
        )
        for one in day.trips
    ]
    return (
        el("b", link(day.date, f"days/{day.name}.html")),
        bullets(trips),
        link(tr("intake sheet"), f"intake/{day.name}.html") if day.intake else "",
        link(tr("if wet"), f"wet/{day.name}.html") if day.wet else "",
        link(tr("text to send"), f"phone/{day.name}.txt"),
    )


def _when(plan: Plan) -> Html:
    """Return what to print before the campaign, each evening, and after it."""
    first = [link(tr("shopping list"), "shopping.html"), _register()]
    if plan.mixing:
        first.append(link(tr("mixing sheet"), "mixing.html"))
    first.append(link(tr("medicine record"), "medicine.html"))
    phones = [link(tr("map"), "map.html"), link(tr("calendar"), "calendar/trips.ics")]
    return bullets(
        [
            put(
                el("b", tr("Before the first day:")), " ", *_apart(first), ". ",
                tr("The record is written in from the day strips go in."), " ",
                tr("On the phones:"), " ", *_apart(phones), ".",
            ),
            put(
                el("b", tr("The evening before each day,")), " ",
                tr(
                    "from its row above: the driver's paper of each trip for its cab, the day "
                    "sheet for the wall, the intake sheet for the honey house; with rain about, "
                    "the sheet \u201cif wet\u201d as well. The text goes to whoever has no paper."
                ),
            ),
            put(
                el("b", tr("When something changes:")), " ",
                tr("runplanner replan; it says which papers to print again."),
            ),
            _strips_out(plan),
        ],
        cls="marked",
    )  # fmt: skip


def _strips_out(plan: Plan) -> Html:
    """Return when to print what strips fall due out: after the campaign, or while it runs."""
    sheet, due = link(tr("strips out"), "strips_out.html"), tr("with the days they are due.")
    inside = due_inside(plan)
    if not inside:
        return put(el("b", tr("After the campaign:")), " ", sheet, ", ", due)
    first = date_words(plan.outfit, inside[0].due_day)
    nobody = put(" ", el("b", unfetched())) if nobodys(inside) else ""
    return put(el("b", tr("By {date}:", date=first)), " ", sheet, ", ", due, nobody)


def _register() -> Html:
    return link(tr("take-off register"), "take_off.html")


def _apart(parts: list[Html]) -> list[Part]:
    """Return ``parts`` with commas between them."""
    return [piece for part in parts for piece in (", ", part)][1:]


def _whole() -> Html:
    sheets = [link(tr(words), href) for href, words in WHOLE]
    tables = [put(link(name, f"tables/{name}.csv"), " ") for name in TABLE_NAMES]
    return bullets(
        [
            put(link(tr("Map"), "map.html"), ", ", tr("opens without a network")),
            *sheets,
            put(tr("Tables for spreadsheets:"), " ", *tables),
            put(
                tr("For other programs:"),
                " ",
                link("manifests.xlsx", "manifests.xlsx"),
                ", ",
                link(tr("calendar"), "calendar/trips.ics"),
                ", ",
                link("plan.geojson", "plan.geojson"),
            ),
            put(
                link("plan.json", "plan.json"),
                ", ",
                tr("the plan itself; map and papers again with: runplanner papers plan.json"),
            ),
        ]
    )


def _cost(plan: Plan) -> Html:
    currency, total = plan.outfit.prices.currency, plan.bill.total()
    lines = [
        (tr(HEADS[head]), money(cents, currency)) for head, cents in _heads(plan.bill) if cents
    ]
    return put(
        table(
            (tr("For"), tr("Sum")),
            [*lines, (el("b", tr("in all")), el("b", money(total, currency)))],
            cls="sums",
        ),
        _bound(plan, total),
    )


def _bound(plan: Plan, total: int) -> Html:
    bound, currency = plan.bound, plan.outfit.prices.currency
    if bound.cents <= 0:
        return el("p", tr("How little a plan could cost was not found out."))
    least = tally_words(bound.tally)
    some = bound.tally != ALL_DONE
    return put(
        el(
            "p",
            tr("No plan can cost less than"),
            " ",
            el("b", money(bound.cents, currency)),
            " ",
            tr("(holds for {which}).", which=shown(said(bound.kind), 120)),
            " ",
            _gap(total, bound),
            " ",
            tr("No plan can leave less than {work}.", work=least) if some else "",
        ),
    )


def _gap(total: int, bound: Bound) -> str:
    """Return the gap, of what planning can steer as well where that is known."""
    part = gap_words(total, bound, steerable=False)
    if not bound.fixed_cents:
        return tr("Gap {all} of all cost.", all=part)
    return tr(
        "Gap {all} of all cost, {steered} of what planning can steer.",
        all=part, steered=gap_words(total, bound, steerable=True),
    )  # fmt: skip


def _heads(bill: Bill) -> list[tuple[str, int]]:
    return [(field.name, getattr(bill, field.name)) for field in fields(bill)]


def _found(plan: Plan) -> list[Part]:
    search = plan.search
    versions = ", ".join(f"{shown(name, 40)} {shown(one, 40)}" for name, one in search.versions)
    words = tr(
        "Seed {seed}, {rounds}; stopped: {why}. With {versions}.",
        seed=search.seed, rounds=count(search.rounds, "round", "rounds"),
        why=shown(said(search.stopped), 120), versions=versions,
    )  # fmt: skip
    parts: list[Part] = [el("p", words)]
    if search.lost:
        parts.append(el("p", el("b", tr("Warning:")), f" {lost_words(search)}."))
    kept = in_hand_words(plan.outfit)
    if kept:
        parts.append(el("p", tr("Kept in hand:"), " ", " ".join(kept)))
    if plan.now_min > 0:
        when = moment(plan.outfit, plan.now_min)
        parts.append(el("p", tr("Planned as of {when}.", when=when)))
    return parts
