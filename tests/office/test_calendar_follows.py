"""Results that replace results: the calendar goes on from the one that is replaced."""

from dataclasses import replace
from pathlib import Path

from runplanner.daybook.plan import Plan
from runplanner.office.campaign import Outcome, publish_plan
from tests.office.fakes import rooms
from tests.paperwork.plans import small_plan


def published(plan: Plan, out: Path, source: Path | None = None) -> dict[str, str]:
    """Publish with the real papers; return the calendar files by name."""
    folder = publish_plan(Outcome(plan, ()), out, source=source) / "calendar"
    return {path.name: path.read_bytes().decode("utf-8") for path in folder.iterdir()}


def test_a_trip_that_fell_away_is_called_off(tmp_path: Path) -> None:
    """Published with three trips, then with two: the third stands in the second file, for good."""
    plan = small_plan()
    fewer = replace(plan, shifts=plan.shifts[:2])

    assert {"trips.ics"} == set(published(plan, tmp_path))
    first = published(fewer, tmp_path)
    assert {"trips.ics", "called_off.ics"} == set(first)
    assert 1 == first["called_off.ics"].count("STATUS:CANCELLED")
    assert first == published(fewer, tmp_path)
    assert "SEQUENCE:2" in published(plan, tmp_path)["trips.ics"]


def test_results_elsewhere_go_on_from_the_plan_they_come_from(tmp_path: Path) -> None:
    """Planned again into a new folder, and papers of that into a third: called off in each."""
    plan = small_plan()
    fewer = replace(plan, shifts=plan.shifts[:2])
    published(plan, tmp_path / "a")
    first = published(fewer, tmp_path / "b", tmp_path / "a" / "test")

    assert 1 == first["called_off.ics"].count("STATUS:CANCELLED")
    assert first == published(fewer, tmp_path / "c", tmp_path / "b" / "test" / "plan.json")


def test_the_same_plan_is_published_to_the_same_bytes(tmp_path: Path) -> None:
    """A second time over the first, or elsewhere: the same calendar."""
    first = published(small_plan(), tmp_path / "a")

    assert first == published(small_plan(), tmp_path / "a")
    assert first == published(small_plan(), tmp_path / "b")


def test_a_calendar_that_cannot_be_read_is_no_trouble(tmp_path: Path) -> None:
    """Other bytes in its place: as if there were none."""
    first = published(small_plan(), tmp_path)
    (tmp_path / "test" / "calendar" / "trips.ics").write_bytes(b"\xff\xfe\x00BEGIN:VEVENT")

    assert first == published(small_plan(), tmp_path)


def test_rooms_that_write_no_calendar_get_none(tmp_path: Path) -> None:
    """Where no earlier calendar stands the writer's files are all there is."""
    folder = publish_plan(Outcome(small_plan(), ()), tmp_path, rooms=rooms())

    assert ["plan.json"] == [path.name for path in folder.iterdir()]
