"""Tests of what a notebook shows, read by an HTML reader that knows nothing of us."""

from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest

from runplanner import (
    Effort,
    Look,
    Outcome,
    audit_plan,
    plan_map,
    publish_plan,
    read_plan,
    replan_campaign,
    speaking,
)
from runplanner.daybook.plan import Plan
from runplanner.errors import RunplannerError
from runplanner.office import notebook
from runplanner.paperwork.map.page import map_html
from runplanner.paperwork.speech.tongue import LANGUAGE
from tests.office.fakes import a_finding
from tests.paperwork.plans import eight_stop_plan, hostile_plan, small_plan, take_off
from tests.paperwork.test_living import out
from tests.running import running_plan


class Reader(HTMLParser):
    """Counts elements, and keeps cells, headings and lines as text."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.rows: list[list[str]] = []
        self.lines: list[str] = [""]
        self.summaries: list[str] = []
        self.attributes: dict[str, str | None] = {}
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element."""
        self.tags.append(tag)
        self.attributes |= dict(attrs)
        if tag == "tr":
            self.rows.append([])
        if tag in {"td", "th"}:
            self.rows[-1].append("")
        if tag == "br":
            self.lines.append("")
        if tag == "summary":
            self.summaries.append("")

    def handle_data(self, data: str) -> None:
        """Note words where they stand."""
        last = next(
            (tag for tag in reversed(self.tags) if tag in {"td", "th", "summary", "pre"}), ""
        )
        if last in {"td", "th"}:
            self.rows[-1][-1] += data
        elif last == "summary":
            self.summaries[-1] += data
        else:
            self.lines[-1] += data


def shown(plan: Plan) -> Reader:
    """A plan without findings as a notebook shows it."""
    return Reader(Outcome(plan, ())._repr_html_())


def test_a_plan_shows_as_words_and_tables() -> None:
    """What the audit says, the trips with a row for each, and further tables to open."""
    made = shown(eight_stop_plan())

    assert "audit: every rule holds" == made.lines[0].strip()
    assert any("4 trips" in line for line in made.lines)
    heads = [row for row in made.rows if row and row[0] == "trip"]
    assert ["trip", "date", "truck"] == heads[0][:3]
    assert "trips: 4" == made.summaries[0]
    assert ["stops", "undone", "costs"] == [one.partition(":")[0] for one in made.summaries[1:]]
    first = next(row for row in made.rows if row[0] == "0301-truck1-0001")
    assert "2027-03-01" == first[1]


def test_findings_stand_in_front() -> None:
    """A plan that broke a rule says so first, rule and place."""
    made = Reader(Outcome(small_plan(), (a_finding(),))._repr_html_())

    assert "audit: 1 broken rule" == made.lines[0].strip()
    assert "deck" in made.lines[1]


def test_hostile_names_are_words() -> None:
    """The same elements as with plain names, nothing live, and braces as they were typed."""
    plain, hostile = shown(small_plan()), shown(hostile_plan())

    assert plain.tags == hostile.tags
    assert "script" not in hostile.tags
    assert "img" not in hostile.tags
    raw = Outcome(hostile_plan(), ())._repr_html_()
    assert "{{" not in raw
    assert "<img" not in raw


def test_long_tables_and_long_words_are_cut() -> None:
    """The first rows and how many more; of ten thousand signs the first hundred and twenty."""
    plan = eight_stop_plan()
    long = replace(plan.outfit.yards[0], name="x" * 10_000)
    plan = replace(plan, outfit=replace(plan.outfit, yards=(long, *plan.outfit.yards[1:])))

    assert max(len(cell) for row in shown(plan).rows for cell in row) == 120


def test_more_rows_are_counted(monkeypatch: pytest.MonkeyPatch) -> None:
    """With two rows at most, four trips leave two more."""
    monkeypatch.setattr(notebook, "MOST_ROWS", 2)

    assert "<p>2 more rows</p>" in Outcome(eight_stop_plan(), ())._repr_html_()


def test_a_map_is_shown_and_saved(tmp_path: Path) -> None:
    """The page in a frame that may run script and nothing else, and the same page as a file."""
    view = plan_map(small_plan())
    frame = Reader(view._repr_html_())

    assert ["iframe"] == frame.tags
    assert map_html(small_plan()) == frame.attributes["srcdoc"]
    assert "allow-scripts" == frame.attributes["sandbox"]
    assert map_html(small_plan()) == view.save(tmp_path / "m.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("tiles", [False, True])
def test_a_map_is_the_one_that_is_published(tmp_path: Path, *, tiles: bool) -> None:
    """Also where colonies died while the truck is out: eight of ten are left to take off."""
    plan = out(8, (take_off(10, 15),), now=0)
    folder = publish_plan(Outcome(plan, ()), tmp_path, online_tiles=tiles)
    page = plan_map(plan, online_tiles=tiles).page

    assert (folder / "map.html").read_text(encoding="utf-8") == page
    assert "take-off, 8 colonies, 15 boxes" in page


def test_the_environment_or_a_block_says_the_language(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Words, map and papers; a block stands before the environment, a look before both."""
    plan = small_plan()
    monkeypatch.setenv(LANGUAGE, "de")

    assert "alle Regeln sind eingehalten" in Outcome(plan, ())._repr_html_()
    assert '<html lang="de">' in plan_map(plan).page
    folder = publish_plan(Outcome(plan, ()), tmp_path)
    assert 'lang="de"' in (folder / "index.html").read_text("utf-8")
    with speaking("en"):
        assert "every rule holds" in Outcome(plan, ())._repr_html_()
    folder = publish_plan(Outcome(plan, ()), tmp_path, look=Look(language="en"))
    assert 'lang="en"' in (folder / "index.html").read_text("utf-8")


def test_a_language_of_the_environment_that_is_none_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In one sentence, before anything is written; it was English without a word."""
    plan = small_plan()
    monkeypatch.setenv(LANGUAGE, "german")

    for say in (Outcome(plan, ())._repr_html_, lambda: publish_plan(Outcome(plan, ()), tmp_path)):
        with pytest.raises(RunplannerError, match="RUNPLANNER_LANGUAGE is 'german', not one of"):
            say()
    assert not [*tmp_path.iterdir()]
    with speaking("de"):
        assert "alle Regeln sind eingehalten" in Outcome(plan, ())._repr_html_()


def test_a_plan_made_again_shows_what_changed_and_its_tables() -> None:
    """The change sheet's lines in front, then the plan as any other; hostile words stay words."""
    shut = ["shut Old Mill Fri: <img>"]
    made = replan_campaign(running_plan(), shut, now="Thu 4 Mar 13:30", effort=Effort(rounds=0))
    found = Reader(made._repr_html_())

    assert any("1 of 1 promised visit moved" in line for line in found.lines)
    assert any("audit: " in line for line in found.lines)
    assert found.summaries[0].startswith("trips: ")
    assert "img" not in found.tags


def test_a_plan_read_back_shows_as_it_did(tmp_path: Path) -> None:
    """By its audit, which is made anew."""
    folder = publish_plan(Outcome(small_plan(), ()), tmp_path)

    assert shown(small_plan()).rows == Reader(audit_plan(read_plan(folder))._repr_html_()).rows


def test_a_plan_that_makes_no_sense_shows_what_is_amiss() -> None:
    """Of a call at a yard that is none no table can be made; the finding names it."""
    plan = small_plan()
    shift, *rest = plan.shifts
    trip = shift.trips[0]
    calls = tuple(replace(call, yard="nowhere") if call.yard else call for call in trip.calls)
    bad = replace(plan, shifts=(replace(shift, trips=(replace(trip, calls=calls),)), *rest))
    told = Reader(audit_plan(bad)._repr_html_())

    assert "nowhere" in " ".join(told.lines)
    assert [] == told.rows
