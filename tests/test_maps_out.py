"""The committed sample is what this release would write."""

from pathlib import Path

import pytest

from runplanner.daybook.text import plan_text
from runplanner.office.campaign import Effort, audit_plan, plan_campaign, read_plan
from runplanner.office.facts import read_outfit
from runplanner.paperwork.write_all import papers, write_papers
from tests import fresh

SAMPLE = fresh.ROOT / fresh.SAMPLE


def files(folder: Path) -> dict[str, bytes]:
    """Every paper below ``folder`` by its name, but the map, which carries others' script."""
    found = sorted(path for path in folder.rglob("*") if path.is_file())
    names = {path.relative_to(folder).as_posix(): path for path in found}
    return {name: path.read_bytes() for name, path in names.items() if name != "map.html"}


def test_the_sample_passes_the_audit() -> None:
    """The plan that visitors see breaks no rule, and leaves nothing undone."""
    outcome = audit_plan(read_plan(SAMPLE))

    assert () == outcome.findings
    assert (0, 0, 0, 0) == (
        outcome.plan.tally.uncovered,
        outcome.plan.tally.no_strips,
        outcome.plan.tally.unfed_g,
        outcome.plan.tally.not_off,
    )


def test_the_sample_is_of_the_demo_as_it_stands() -> None:
    """The facts in the sample are those of the small demo today."""
    assert read_outfit(fresh.ROOT / fresh.DEMO) == read_plan(SAMPLE).outfit


def test_the_sample_papers_are_those_of_this_release(tmp_path: Path) -> None:
    """Writing the sample's papers again gives the same files, byte for byte."""
    write_papers(read_plan(SAMPLE), tmp_path)

    made, kept = files(tmp_path), files(SAMPLE)
    assert sorted(made) == sorted(kept)
    assert [] == [name for name in made if made[name] != kept[name]]


def test_the_syrup_of_the_sample_is_told_in_german() -> None:
    """The recipe stands as it was typed; what the gate adds to it is said, with a comma."""
    page = dict(papers(read_plan(SAMPLE), language="de"))["shopping.html"]

    assert "2:1, 66,7\u00a0% Zucker nach Masse" in page
    assert "sugar by mass" not in page


@pytest.mark.slow
def test_the_sample_is_what_the_planner_plans() -> None:
    """Planning the demo again, same seed and rounds, gives the same plan to the last sign."""
    kept = read_plan(SAMPLE)
    effort = Effort(seed=kept.search.seed, rounds=kept.search.rounds)

    made = plan_campaign(fresh.ROOT / fresh.DEMO, effort).plan

    if made.search.versions != kept.search.versions:
        pytest.skip("the sample was planned with other versions of the solver: NOT compared")
    assert plan_text(made) == plan_text(kept)
