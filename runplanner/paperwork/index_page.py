"""The office's page: every paper by day, what is undone, and the only place for money."""

from dataclasses import dataclass, fields

from runplanner.daybook.plan import Bill, Bound, Plan, Tally
from runplanner.haulage.travel import geodesic_m
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.day_sheet import busy_days, shifts_on
from runplanner.paperwork.escape import file_name, shown
from runplanner.paperwork.events import boxes_brought
from runplanner.paperwork.frame import office_page, section
from runplanner.paperwork.intake_sheet import intake_days
from runplanner.paperwork.page import Html, Part, bullets, el, link, put, table
from runplanner.paperwork.say import (
    count,
    date_words,
    iso,
    kg_up,
    moment,
    money,
    tenths,
    vehicle_name,
    yard_named,
)
from runplanner.paperwork.tables import TABLE_NAMES
from runplanner.paperwork.undone_list import but_words, undone_part
from runplanner.paperwork.wet_day import wet_days
from runplanner.trade.driving import radius_fact

HEADS = {
    "km": "kilometres",
    "days": "truck days",
    "crew": "crew hours",
    "overtime": "overtime",
    "spinning": "spinning",
    "mixing": "mixing",
    "blocks": "fondant blocks",
    "syrup": "syrup",
    "strips": "strips",
    "late": "late work",
    "boards_long": "boards on too long",
    "spin_late": "spun late",
}
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


def tally_words(tally: Tally) -> str:
    """Return what is undone in one sentence."""
    parts = (
        (tally.uncovered, count(tally.uncovered, "colony-day") + " without cover"),
        (tally.no_strips, count(tally.no_strips, "colony", "colonies") + " without strips in time"),
        (tally.unfed_g, f"{kg_up(tally.unfed_g)} kg of stores not fed"),
        (tally.not_off, count(tally.not_off, "colony", "colonies") + " not taken off"),
    )
    return ", ".join(words for number, words in parts if number) or "nothing"


def gap_permille(total: int, bound: Bound, *, steerable: bool) -> int | None:
    """Return how far the cost may be from the least, per mille; None without a base."""
    base = total - bound.fixed_cents if steerable else total
    if base <= 0:
        return None
    return -(-max(0, total - bound.cents) * 1000 // base)


def index_page(plan: Plan, findings: tuple[str, ...] = (), notes: tuple[str, ...] = ()) -> str:
    """Return the index; ``findings`` are the audit's sentences, ``notes`` about printing."""
    season = plan.outfit.season
    last = date_words(plan.outfit, season.n_days - 1)
    return office_page(
        plan,
        f"Campaign {date_words(plan.outfit, 0)} to {last}",
        f"times are local, {shown(season.zone, 40)}",
        _findings(findings),
        bullets(notes, cls="marked"),
        section("Day by day", _days(plan)),
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
    lines = [(HEADS[head], money(cents, currency)) for head, cents in _heads(plan.bill) if cents]
    bound = plan.bound
    gaps = [_share(total, bound, steerable=steerable) for steerable in (False, True)]
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
            f"No plan can leave less than {tally_words(bound.tally)}.",
        ),
    )


def _heads(bill: Bill) -> list[tuple[str, int]]:
    return [(field.name, getattr(bill, field.name)) for field in fields(bill)]


def _share(total: int, bound: Bound, *, steerable: bool) -> str:
    share = gap_permille(total, bound, steerable=steerable)
    return "none" if share is None else f"{tenths(share * 100)} %"


def _found(plan: Plan) -> list[Part]:
    search = plan.search
    versions = ", ".join(f"{shown(name, 40)} {shown(one, 40)}" for name, one in search.versions)
    words = f"Seed {search.seed}, {count(search.rounds, 'round')}; stopped: "
    parts: list[Part] = [el("p", words, shown(search.stopped, 120), f". With {versions}.")]
    if plan.now_min > 0:
        parts.append(el("p", f"Planned as of {moment(plan.outfit, plan.now_min)}."))
    return parts
