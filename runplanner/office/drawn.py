"""The roads that a plan's map is drawn on: made from a scenario, or kept beside a plan."""

from pathlib import Path
from typing import Final

from runplanner.daybook.plan import Plan
from runplanner.errors import Fault, ScenarioError, system_said
from runplanner.office.publish import PLAN_FILE
from runplanner.phrase import phrase
from runplanner.roads.sketch import ROADS_FILE, Sketch, sketch_from_text

LARGEST_BYTES: Final = 40_000_000


def draw_roads(scenario: Path | str, plan: Plan) -> Sketch | None:
    """Return the roads of a scenario's road file for the drives of ``plan``; None without one.

    Of a folder that the plan was published to they are those kept beside it.

    Raises:
        ScenarioError: When the folder is neither, or what is kept there is none of ours.
    """
    from runplanner.scenario.faults import FaultBook
    from runplanner.scenario.files import folder_is_there

    book = FaultBook()
    if not folder_is_there(Path(scenario), book):
        if (Path(scenario) / PLAN_FILE).is_file():
            return kept_roads(scenario)
        book.close()
    return scenario_roads(scenario, plan)


def scenario_roads(scenario: Path | str, plan: Plan) -> Sketch | None:
    """Return the roads of the scenario that ``plan`` was made from; None where it is gone since."""
    from runplanner.paperwork.map.legs import legs
    from runplanner.scenario.travel.roads_drawn import sketch_roads

    pairs = [(leg.start, leg.end) for leg in legs(plan)]
    return sketch_roads(Path(scenario), plan.outfit, pairs)


def kept_roads(plan_path: Path | str) -> Sketch | None:
    """Return the roads kept in roads.json beside a plan file; None where there are none.

    Raises:
        ScenarioError: When the file there is none of ours.
    """
    path = Path(plan_path)
    path = (path if path.is_dir() else path.parent) / ROADS_FILE
    if not path.is_file():
        return None
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise _unreadable(phrase("larger than 40 MB"))
        return sketch_from_text(path.read_bytes().decode("utf-8-sig"))
    except OSError as error:
        raise _unreadable(system_said(error)) from None
    except UnicodeDecodeError:
        raise _unreadable(phrase("other bytes than UTF-8")) from None


def _unreadable(said: str) -> ScenarioError:
    cure = phrase("Delete it: the plan holds without it.")
    return ScenarioError(
        (Fault(ROADS_FILE, "", "", said, phrase("roads as runplanner wrote them"), cure),)
    )
