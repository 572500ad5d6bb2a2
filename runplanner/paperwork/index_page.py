"""The office's page: every paper by day, what is undone, and the only place for money."""

from dataclasses import dataclass, fields

from runplanner.daybook.plan import Bill, Plan
from runplanner.haulage.travel import geodesic_m
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.day_sheet import busy_days, shifts_on
from runplanner.paperwork.escape import file_name, shown
from runplanner.paperwork.events import boxes_brought
from runplanner.paperwork.files import CHANGES_FILE
from runplanner.paperwork.frame import office_page, section
from runplanner.paperwork.intake_sheet import intake_days
from runplanner.paperwork.page import Html, Part, bullets, el, link, put, table
from runplanner.paperwork.say import (
    count,
    date_words,
    iso,
    moment,
    money,
    vehicle_name,
    yard_named,
)
from runplanner.paperwork.sums import HEADS, gap_words, tally_words
from runplanner.paperwork.tables import TABLE_NAMES
from runplanner.paperwork.tongue import tr
from runplanner.paperwork.undone_list import but_words, undone_part
from runplanner.paperwork.wet_day import wet_days
from runplanner.trade.driving import radius_fact

WHOLE = (
    ("shopping.html", "Shopping list"),
    ("mixing.html", "Mixing sheet"),
    ("run_out.html", "When the stop-gap runs out"),
    ("take_off.html", "Take-off register"),
    ("medicine.html", "Medicine record"),
    ("strips_out.html", "Strips out, and trips to fetch them"),
)


@dataclass(frozen=True, slots=True)
class TripLink:
    """A trip as the index lists it."""

    trip: str
    words: str
    driven: bool


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
            boxes = boxes_brought(trip)
            back = f" ({count(boxes, 'box', 'boxes')} back)" if boxes else ""
            words = f"{vehicle_name(plan.outfit, shift.truck)}: {yards}{back}"
            found.append(TripLink(trip.id, words, trip.driven))
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
    last = date_words(plan.outfit, season.n_days - 1)
    return office_page(
        plan,
        f"Campaign {date_words(plan.outfit, 0)} to {last}",
        f"times are local, {shown(season.zone, 40)}",
        _findings(findings),
        bullets(notes, cls="marked"),
        _changes(plan) if changed else "",
        section("Day by day", _days(plan)),
        section("What to print, and when", _when(plan)),
        section("Whole campaign", _whole()),
        undone_part(plan, tally_words(plan.tally) + but_words(plan), priced=True),
        section("Cost", _cost(plan)),
        section("Drivers' hours", el("p", radius_fact(farthest_m(plan.outfit)))),
        section("How it was found", *_found(plan)),
        home="",
    )


def farthest_m(outfit: Outfit) -> int:
    """Return the straight line from home to the farthest place hives stand at, rounded up."""
    home = outfit.places[outfit.home.place]
    spots = {place for yard in outfit.yards for _, place in yard.sites}
    lines = (
        geodesic_m((home.lat, home.lon), (outfit.places[spot].lat, outfit.places[spot].lon))
        for spot in sorted(spots)
    )
    # Whole millimetres first: the last digits of a float may differ between machines.
    return max((-(-round(line * 1000) // 1000) for line in lines), default=0)


def _changes(plan: Plan) -> Html:
    """Return the way to the change sheet, which whoever planned again reads first."""
    sheet = link("change sheet", CHANGES_FILE)
    words = "what moved and why, who drives, which papers to print again, what it costs."
    return el(
        "p", "Planned again as of ", el("b", moment(plan.outfit, plan.now_min)), ". The ", sheet,
        f" says {words}", cls="last",
    )  # fmt: skip


def _findings(findings: tuple[str, ...]) -> Part:
    if not findings:
        return ""
    lines = [shown(words, 400) for words in findings]
    head = f"Do not drive this plan: the audit found {count(len(lines), 'broken rule')}"
    return el("section", el("h2", head), bullets(lines, cls="marked"), cls="alarm")


def _days(plan: Plan) -> Html:
    lines = [_day_cells(day) for day in day_links(plan)]
    return table(("Day", "Drivers' papers", "Honey house", "", "By phone"), lines)


def _day_cells(day: DayLinks) -> tuple[Part, ...]:
    trips = [
        put(
            link(one.words, f"manifests/{file_name(one.trip)}.html"),
            el("b", " driven") if one.driven else "",
            " ",
            link("track", f"tracks/{file_name(one.trip)}.gpx"),
        )
        for one in day.trips
    ]
    return (
        el("b", link(day.date, f"days/{day.name}.html")),
        bullets(trips),
        link("intake sheet", f"intake/{day.name}.html") if day.intake else "",
        link("if wet", f"wet/{day.name}.html") if day.wet else "",
        link("text to send", f"phone/{day.name}.txt"),
    )


def _when(plan: Plan) -> Html:
    """Return what to print before the campaign, each evening, and after it."""
    before = [link("shopping list", "shopping.html"), link("take-off register", "take_off.html")]
    if plan.mixing:
        before.append(link("mixing sheet", "mixing.html"))
    return bullets(
        [
            put(
                el("b", "Before the first day: "), *_apart(before), ", and the ",
                link("medicine record", "medicine.html"), " to write in from the day strips go "
                "in. Put the ", link("map", "map.html"), " and the ",
                link("calendar", "calendar/trips.ics"), " on the phones.",
            ),
            put(
                el("b", "The evening before each day, "), "from its row above: the driver's paper "
                "of each trip for its cab, the day sheet for the wall, the intake sheet for the "
                "honey house; with rain about, the sheet “if wet” as well. The text goes to "
                "whoever has no paper.",
            ),
            put(
                el("b", "When something changes: "), "runplanner replan; it says which papers to "
                "print again.",
            ),
            put(
                el("b", "After the campaign: "), link("strips out", "strips_out.html"),
                ", with the days they are due.",
            ),
        ],
        cls="marked",
    )  # fmt: skip


def _apart(parts: list[Html]) -> list[Part]:
    """Return ``parts`` with commas between them."""
    return [piece for part in parts for piece in (", ", part)][1:]


def _whole() -> Html:
    sheets = [link(words, href) for href, words in WHOLE]
    tables = [put(link(name, f"tables/{name}.csv"), " ") for name in TABLE_NAMES]
    return bullets(
        [
            put(link("Map", "map.html"), ", opens without a network"),
            *sheets,
            put("Tables for spreadsheets: ", *tables),
            put(
                "For other programs: ",
                link("manifests.xlsx", "manifests.xlsx"),
                ", ",
                link("calendar", "calendar/trips.ics"),
                ", ",
                link("plan.geojson", "plan.geojson"),
            ),
            put(
                link("plan.json", "plan.json"),
                ", the plan itself; map and papers again with: runplanner papers plan.json",
            ),
        ]
    )


def _cost(plan: Plan) -> Html:
    currency, total = plan.outfit.prices.currency, plan.bill.total()
    lines = [
        (tr(HEADS[head]), money(cents, currency)) for head, cents in _heads(plan.bill) if cents
    ]
    bound, least = plan.bound, tally_words(plan.bound.tally)
    gaps = [gap_words(total, bound, steerable=steerable) for steerable in (False, True)]
    return put(
        table(
            ("For", "Sum"),
            [*lines, (el("b", "in all"), el("b", money(total, currency)))],
            cls="sums",
        ),
        el(
            "p",
            "No plan can cost less than ",
            el("b", money(bound.cents, currency)),
            f" (holds for {shown(bound.kind, 120)}). ",
            f"Gap {gaps[0]} of all cost, {gaps[1]} of what planning can steer. ",
            f"No plan can leave less than {least}." if least != "nothing" else "",
        ),
    )


def _heads(bill: Bill) -> list[tuple[str, int]]:
    return [(field.name, getattr(bill, field.name)) for field in fields(bill)]


def _found(plan: Plan) -> list[Part]:
    search = plan.search
    versions = ", ".join(f"{shown(name, 40)} {shown(one, 40)}" for name, one in search.versions)
    words = f"Seed {search.seed}, {count(search.rounds, 'round')}; stopped: "
    parts: list[Part] = [el("p", words, shown(search.stopped, 120), f". With {versions}.")]
    if plan.now_min > 0:
        parts.append(el("p", f"Planned as of {moment(plan.outfit, plan.now_min)}."))
    return parts
