"""Every paper of a plan, written into one folder."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Protocol

from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_text
from runplanner.paperwork.calendars.file import calendar_files
from runplanner.paperwork.data.geo_file import plan_geojson
from runplanner.paperwork.data.tables import tables_csv
from runplanner.paperwork.data.track import track_gpx
from runplanner.paperwork.data.workbook import manifests_xlsx
from runplanner.paperwork.days.day_sheet import busy_days, day_page
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.days.wet_day import wet_days, wet_page
from runplanner.paperwork.driver.manifest import manifest
from runplanner.paperwork.driver.manifest_page import manifest_page
from runplanner.paperwork.escape import file_name
from runplanner.paperwork.index_page import CHANGES_FILE, index_page
from runplanner.paperwork.lists.cover_list import cover_page
from runplanner.paperwork.lists.intake_sheet import intake_days, intake_page
from runplanner.paperwork.lists.medicine_record import medicine_page
from runplanner.paperwork.lists.mixing_sheet import mixing_page
from runplanner.paperwork.lists.shopping import shopping_page
from runplanner.paperwork.lists.strips_page import strips_page
from runplanner.paperwork.lists.take_off_register import register_page
from runplanner.paperwork.map.page import map_html
from runplanner.paperwork.sheet.look import PLAIN, Look, dressed
from runplanner.paperwork.sheet.pdf import pdf_absence, pdf_of
from runplanner.paperwork.speech.living import for_people
from runplanner.paperwork.speech.say import iso
from runplanner.paperwork.speech.tongue import ENGLISH, speaking
from runplanner.roads.sketch import Sketch
from runplanner.whole_file import write_whole


class Said(Protocol):
    """Something found in a plan that can be said in one line, such as an audit's finding."""

    def sentence(self) -> str:
        """Return it as one line."""
        ...


def write_papers(
    plan: Plan,
    folder: Path,
    findings: Sequence[Said] = (),
    *,
    pdf: bool = False,
    look: Look = PLAIN,
    roads: Sketch | None = None,
) -> list[Path]:
    """Write plan, map and every paper of ``plan`` into ``folder``; return the files written.

    The same plan gives the same files.  With ``pdf`` each driver's paper is printed to PDF
    as well; where the library for that is not installed, the index says so in words.  Pages
    and sheets are for the paper and type of ``look``; tracks and lines follow ``roads``.  A
    change sheet that lies in the folder already is linked to.
    """
    missing = pdf_absence() if pdf else ""
    said = tuple(one.sentence() for one in findings)
    notes = (missing,) if missing else ()
    changed = (folder / CHANGES_FILE).is_file()
    plain = papers(plan, said, notes, look.language, roads, changed=changed)
    texts = {name: dressed(text, look) for name, text in plain}
    written = [write_whole(folder / name, text) for name, text in texts.items()]
    with speaking(look.language):
        book = manifests_xlsx(for_people(plan), look.paper)
    written.append(write_whole(folder / "manifests.xlsx", book))
    if pdf and not missing:
        written += [
            write_whole((folder / name).with_suffix(".pdf"), pdf_of(text))
            for name, text in texts.items()
            if name.startswith("manifests/")
        ]
    return written


def papers(
    plan: Plan,
    findings: tuple[str, ...] = (),
    notes: tuple[str, ...] = (),
    language: str = ENGLISH,
    roads: Sketch | None = None,
    *,
    changed: bool = False,
) -> Iterator[tuple[str, str]]:
    """Yield the name and text of every paper; a name does not hang on the order of trips.

    Everything that people read speaks ``language``; what programs read, the plan and the
    tables, is the same in all.
    """
    made = _said(plan, findings, notes, roads, changed=changed)
    while True:
        # No block stays open while a paper is handed out: the reader speaks as he spoke.
        with speaking(language):
            paper = next(made, None)
        if paper is None:
            return
        yield paper


def _said(
    plan: Plan,
    findings: tuple[str, ...],
    notes: tuple[str, ...],
    roads: Sketch | None,
    *,
    changed: bool,
) -> Iterator[tuple[str, str]]:
    yield "plan.json", plan_text(plan)
    with speaking(ENGLISH):
        tables = tables_csv(plan)
    for name, text in tables.items():
        yield f"tables/{name}.csv", text
    yield "map.html", map_html(plan)
    plan = for_people(plan)
    for shift in plan.shifts:
        for trip in shift.trips:
            page = manifest_page(manifest(plan, shift, trip))
            yield f"manifests/{file_name(trip.id)}.html", page
            yield f"tracks/{file_name(trip.id)}.gpx", track_gpx(plan, shift, trip, roads)
    yield from _by_day(plan)
    yield "shopping.html", shopping_page(plan)
    yield "mixing.html", mixing_page(plan)
    yield "take_off.html", register_page(plan)
    yield "medicine.html", medicine_page(plan)
    yield "run_out.html", cover_page(plan)
    yield "strips_out.html", strips_page(plan)
    yield "plan.geojson", plan_geojson(plan, roads)
    yield from calendar_files(plan).items()
    # The index comes last: what it links to is there.
    yield "index.html", index_page(plan, findings, notes, changed=changed)


def _by_day(plan: Plan) -> Iterator[tuple[str, str]]:
    intakes, wets = intake_days(plan), wet_days(plan)
    for day in sorted({*busy_days(plan), *intakes}):
        name = iso(plan.outfit, day)
        yield f"days/{name}.html", day_page(plan, day)
        yield f"phone/{name}.txt", phone_text(plan, day)
        if day in intakes:
            yield f"intake/{name}.html", intake_page(plan, day)
        if day in wets:
            yield f"wet/{name}.html", wet_page(plan, day)
