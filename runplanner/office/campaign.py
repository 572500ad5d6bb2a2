"""A campaign from a scenario folder to audited papers, and the way back from a plan file."""

import tempfile
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from numbers import Integral, Real
from pathlib import Path

from runplanner.audit.findings import Finding
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.errors import Fault, ScenarioError, system_said
from runplanner.office.narrowed import audited
from runplanner.office.notebook import plan_html
from runplanner.office.publish import PLAN_FILE, check_place, publish
from runplanner.office.rooms import Rooms
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.calendars.file import CALENDAR_FILES, calendar_files
from runplanner.paperwork.escape import file_name
from runplanner.paperwork.index_page import CHANGES_FILE
from runplanner.paperwork.sheet.look import Look, dressed
from runplanner.paperwork.speech.living import for_people
from runplanner.paperwork.speech.tongue import speaking, spoken
from runplanner.phrase import Phrase, phrase
from runplanner.roads.sketch import ROADS_FILE, Sketch, sketch_text
from runplanner.season.watch import Listener
from runplanner.whole_file import write_whole

MAP_FILE = "map.html"
LARGEST_PLAN_BYTES = 200_000_000
LARGEST_PAPER_BYTES = 20_000_000


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to look for a plan.

    Args:
        seed: Same seed, same facts and same ``rounds``: the same plan.
        rounds: Rounds of improvement; None lets the planner choose.
        seconds: Stop looking after this long; None means no limit.

    Raises:
        ValueError: When seed or rounds are no whole number from 0, or seconds none above 0.
    """

    seed: int = 1
    rounds: int | None = None
    seconds: float | None = None

    def __post_init__(self) -> None:
        """Keep plain numbers, whatever kind was given: they go into the plan's file."""
        object.__setattr__(self, "seed", _whole("seed", self.seed))
        if self.rounds is not None:
            object.__setattr__(self, "rounds", _whole("rounds", self.rounds))
        seconds: object = self.seconds
        if seconds is not None:
            if not isinstance(seconds, Real) or not float(seconds) > 0:
                raise ValueError(f"seconds must be a number above 0, not {seconds!r}")
            object.__setattr__(self, "seconds", float(seconds))


def _whole(called: str, value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, Integral) or value < 0:
        raise ValueError(f"{called} must be a whole number from 0, not {value!r}")
    return int(value)


@dataclass(frozen=True, slots=True)
class Outcome:
    """A plan and what the audit found in it; without findings it may be driven.

    ``narrowed`` are trips whose margins the audit refused: they have none.
    """

    plan: Plan
    findings: tuple[Finding, ...]
    narrowed: tuple[str, ...] = ()

    def _repr_html_(self) -> str:
        """Return the plan as a notebook shows it."""
        return plan_html(self.plan, self.findings)


def plan_campaign(
    scenario: Path | str | Outfit,
    effort: Effort | None = None,
    *,
    progress: Listener | None = None,
    rooms: Rooms | None = None,
) -> Outcome:
    """Read a scenario folder (or take an outfit), plan it and audit the plan.

    Raises:
        ScenarioError: With every fault of the folder.
        PlanError: When no plan could be made.
    """
    rooms, effort = rooms or Rooms(), effort or Effort()
    outfit = scenario if isinstance(scenario, Outfit) else rooms.read(Path(scenario))
    plan = rooms.plan(
        outfit, seed=effort.seed, rounds=effort.rounds, seconds=effort.seconds, progress=progress
    )
    return Outcome(*audited(plan, rooms.audit))


def audit_plan(plan: Plan, *, rooms: Rooms | None = None) -> Outcome:
    """Recompute every rule from the plan and its facts alone."""
    return Outcome(plan, (rooms or Rooms()).audit(plan))


def read_plan(path: Path | str) -> Plan:
    """Return the plan in the file at ``path``, or in ``plan.json`` of the folder there.

    Raises:
        ScenarioError: When it is no plan file; with every fault.
    """
    path = Path(path)
    path = path / PLAN_FILE if path.is_dir() else path
    return plan_from_text(_text(path), path.name)


def read_sound_plan(path: Path | str) -> Plan:
    """Return the plan as ``read_plan`` does, where it makes sense enough to go on from.

    Raises:
        ScenarioError: When it is no plan file, or makes no sense; with every fault.
    """
    plan = read_plan(path)
    see_sense(plan)
    return plan


def see_sense(plan: Plan) -> None:
    """See that a plan makes sense, as far as anything can be worked out from it.

    Which rules it breaks beyond that is for the audit to say.

    Raises:
        ScenarioError: With all that makes none, such as a call at a yard that is not there.
    """
    from runplanner.audit.audit import senseless

    cure = phrase("Use a plan file as written, or plan again.")
    faults = [
        Fault(PLAN_FILE, one.head(), "", one.said, one.allowed, cure) for one in senseless(plan)
    ]
    if faults:
        raise ScenarioError(tuple(faults))


def publish_plan(  # noqa: PLR0913 - what to publish, where, and what may go with it
    outcome: Outcome,
    out: Path | str,
    *,
    pdf: bool = False,
    online_tiles: bool = False,
    roads: Sketch | None = None,
    extra: Mapping[str, str] | None = None,
    source: Path | str | None = None,
    look: Look | None = None,
    rooms: Rooms | None = None,
) -> Path:
    """Write every paper of an audited plan to ``out/NAME`` and return that folder.

    With ``online_tiles`` the map asks a tile server for its ground when it is opened; with
    ``roads`` (see ``draw_roads``) map, tracks and lines follow them, kept beside the plan.
    ``extra`` are further papers by file name.  Pages are for the paper, type and language of
    ``look``; without it they are plain, in the language that is spoken.
    ``source`` is the plan file, or its folder, that the plan was read from or goes on from: the
    calendar there goes on in this one, and a change sheet there stays where it is this plan's
    and ``extra`` has none.

    Raises:
        ValueError: When the plan has findings; such a plan has no papers.
        PublishError: When something else stands at ``out/NAME``.
    """
    if outcome.findings:
        raise ValueError("a plan with findings has no papers; use refuse_plan")
    rooms, look = rooms or Rooms(), look or Look(language=spoken())
    name = file_name(outcome.plan.outfit.name)
    replaced = Path(out) / name
    beside = None if source is None else _folder_of(Path(source))
    folders = dict.fromkeys((replaced, beside or replaced))
    earlier = [text for one in folders for text in _kept(one, CALENDAR_FILES).values()]
    papers = dict(extra or {})
    if beside and CHANGES_FILE not in papers:
        papers |= _change_sheet(beside, outcome.plan)

    def fill(side: Path) -> None:
        for paper, text in papers.items():
            write_whole(side / paper, dressed(text, look))
        rooms.write(outcome.plan, side, outcome.findings, pdf=pdf, look=look, roads=roads)
        if earlier:
            with speaking(look.language):
                calendars = calendar_files(for_people(outcome.plan), earlier)
            for paper, text in calendars.items():
                write_whole(side / paper, text)
        if roads is not None:
            write_whole(side / ROADS_FILE, sketch_text(roads))
        if online_tiles or roads is not None:
            with speaking(look.language):
                page = rooms.draw(outcome.plan, online_tiles=online_tiles, roads=roads)
            write_whole(side / MAP_FILE, page)

    return publish(Path(out), name, fill, papers=(extra or {}).keys())


def _change_sheet(folder: Path, plan: Plan) -> dict[str, str]:
    """Return the change sheet in a folder of results, by file name, where it is of this plan."""
    found = _kept(folder, (CHANGES_FILE,))
    with suppress(ScenarioError):
        return found if found and read_plan(folder) == plan else {}
    return {}


def _folder_of(plan_path: Path) -> Path:
    return plan_path if plan_path.is_dir() else plan_path.parent


def _kept(folder: Path, names: Sequence[str]) -> dict[str, str]:
    """Return what stands in earlier papers of these names, as far as there are any."""
    paths = {name: folder / name for name in names}
    small = {
        name: path
        for name, path in paths.items()
        if path.is_file() and path.stat().st_size < LARGEST_PAPER_BYTES
    }
    return {name: path.read_bytes().decode("utf-8", "replace") for name, path in small.items()}


def check_out(outfit: Outfit, out: Path | str) -> None:
    """Refuse a place for results before a plan is searched for; nothing is left there.

    Raises:
        PublishError: When the papers of such a plan could not be put there.
    """
    check_place(Path(out), file_name(outfit.name))


def refuse_plan(outcome: Outcome, out: Path | str) -> Path:
    """Write a plan that broke rules to a file whose name says so, and return its path.

    Raises:
        OSError: When it cannot be written anywhere (see ``keep_plan``).
    """
    return keep_plan(outcome.plan, out, "refused-plan")


def keep_plan(plan: Plan, out: Path | str, kind: str = "unpublished-plan") -> Path:
    """Write a plan alone, to a file whose name says of what ``kind`` it is; return its path.

    It goes into ``out``, else into the folder worked in, else into one of its own among the
    system's passing files.

    Raises:
        OSError: When it cannot be written anywhere.
    """
    name, text = f"{file_name(plan.outfit.name)}.{kind}.json", plan_text(plan)
    for place in (Path(out), Path.cwd()):
        with suppress(OSError):
            return write_whole(place / name, text)
    return write_whole(Path(tempfile.mkdtemp(prefix="runplanner-")) / name, text)


def _text(path: Path) -> str:
    try:
        if path.stat().st_size > LARGEST_PLAN_BYTES:
            raise _unreadable(
                path, phrase("larger than 200 MB"), phrase("a plan file as runplanner writes it")
            )
        return path.read_bytes().decode("utf-8-sig")
    except OSError as error:
        raise _unreadable(path, system_said(error), phrase("a readable file")) from None
    except UnicodeDecodeError:
        raise _unreadable(path, phrase("other bytes"), phrase("text in UTF-8")) from None


def _unreadable(path: Path, said: str, allowed: Phrase) -> ScenarioError:
    cure = phrase("Give the plan.json that runplanner wrote, or its folder.")
    return ScenarioError((Fault(path.name, "", "", said, allowed, cure),))
