"""Gathering by the command line and from Python: what is printed, exit codes, no traceback."""

from dataclasses import replace
from pathlib import Path

import pytest

import runplanner
from runplanner.cli import Exit, main
from runplanner.office.gathered import gathered_words
from runplanner.scenario.gather.gathered import Gathered

WAYPOINTS = (
    '<gpx><wpt lat="-35.5" lon="173.7"><name>Mill Lane</name></wpt>'
    '<wpt lat="-35.6" lon="173.75"><name>Gate &#x1b;[31m</name></wpt></gpx>'
)

EXAMPLES = "Invented gum paddock, Invented river bend, Invented hill gate"


@pytest.fixture
def bees(tmp_path: Path) -> Path:
    """A starter scenario."""
    runplanner.start_scenario(tmp_path / "bees", "Bees")
    return tmp_path / "bees"


def gpx(tmp_path: Path, text: str) -> str:
    """A GPX file."""
    path = tmp_path / "a.gpx"
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_what_was_gathered_is_told(
    tmp_path: Path, bees: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Added, filled in, known; examples to delete; what lacks; where to go on. Exit 0."""
    path = gpx(tmp_path, WAYPOINTS.replace("&#x1b;[31m", ""))

    assert Exit.OK == main(["gather", path, "--into", str(bees)])
    assert [
        "added: 2 (Mill Lane, Gate)",
        "filled in: 0",
        "known already: 0",
        f"examples of the starter, to be deleted: 3 ({EXAMPLES})",
        "rows without colonies: 2 (Mill Lane, Gate)",
        "rows without boxes: 2 (Mill Lane, Gate)",
        f"wrote {bees / 'yards.csv'}",
        f"Look it over, then: runplanner check {bees}",
    ] == capsys.readouterr().out.splitlines()

    assert Exit.OK == main(["gather", path, "--into", str(bees)])
    assert f"nothing new for {bees / 'yards.csv'}" in capsys.readouterr().out


def test_a_single_file_need_be_in_no_list(tmp_path: Path, bees: Path) -> None:
    """From Python: its name was read letter by letter."""
    path = gpx(tmp_path, WAYPOINTS.replace("&#x1b;[31m", ""))

    assert ("Mill Lane", "Gate") == runplanner.gather_yards(path, bees).added
    assert 2 == runplanner.gather_yards(Path(path), bees).same


def test_faults_are_listed_and_nothing_is_written(
    tmp_path: Path, bees: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """All of them, on stderr, exit 2; the table is as it was."""
    before = (bees / "yards.csv").read_bytes()
    bad = WAYPOINTS.replace("173.7", "1e9").replace("&#x1b;[31m", "&#x202e;")

    assert Exit.BAD_INPUT == main(["gather", gpx(tmp_path, bad), "no.kml", "--into", str(bees)])
    out, err = capsys.readouterr()
    assert "" == out
    assert "4 faults found; nothing was written." == err.splitlines()[0]
    assert all(word in err for word in ("waypoint 1", "waypoint 2", "no.kml"))
    assert "Traceback" not in err
    assert "\u202e" not in err
    assert before == (bees / "yards.csv").read_bytes()


def test_notes_come_after_the_faults_they_may_explain(
    tmp_path: Path, bees: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What no column means is named beside the fault that nothing was found."""
    path = tmp_path / "a.csv"
    path.write_text('name,pos\nA,"-35.5, 173.7"\n', encoding="utf-8")

    assert Exit.BAD_INPUT == main(["gather", str(path), "--into", str(bees)])
    assert (
        "note: a.csv: left out, as no column means it: pos."
        == (capsys.readouterr().err.splitlines()[-1])
    )


def test_limits_reach_the_gathering(tmp_path: Path, bees: Path) -> None:
    """Two places 111 m apart and one 55 km off: --near and --far are handed on, zero included."""
    spots = [(-35.5, "A"), (-35.501, "B"), (-36.0, "C")]
    points = (f'<wpt lat="{lat}" lon="173.7"><name>{name}</name></wpt>' for lat, name in spots)
    words = ["gather", gpx(tmp_path, f"<gpx>{''.join(points)}</gpx>"), "--into", str(bees)]

    assert Exit.BAD_INPUT == main(words)
    assert Exit.BAD_INPUT == main([*words, "--near", "0", "--far", "5"])
    assert Exit.BAD_INPUT == main([*words, "--near", "112", "--far", "0"])
    assert Exit.OK == main([*words, "--near", "0", "--far", "0"])


def test_few_boxes_are_taken_where_that_is_said(tmp_path: Path, bees: Path) -> None:
    """Two boxes for 24 colonies: refused, then taken for those of the whole yard."""
    path = tmp_path / "a.csv"
    path.write_text("name,lat,lon,hives,supers\nA,-35.5,173.7,24,2\n", encoding="utf-8")
    words = ["gather", str(path), "--into", str(bees)]

    assert Exit.BAD_INPUT == main(words)
    assert Exit.OK == main([*words, "--few-boxes"])


@pytest.mark.parametrize("words", [["gather"], ["gather", "a.gpx"], ["gather", "--into", "x"]])
def test_words_that_are_missing_are_asked_for(words: list[str]) -> None:
    """Files and --into are needed."""
    with pytest.raises(SystemExit) as stopped:
        main(words)

    assert 2 == stopped.value.code


def test_gathering_from_python(tmp_path: Path, bees: Path) -> None:
    """Paths as text or as paths; what was done comes back as a value."""
    path = gpx(tmp_path, WAYPOINTS.replace("&#x1b;[31m", ""))

    assert ("Mill Lane", "Gate") == runplanner.gather_yards([path], str(bees)).added
    with pytest.raises(runplanner.ScenarioError):
        runplanner.gather_yards([Path(path)], bees.parent / "nowhere")


def test_long_lists_are_cut_and_notes_come_first() -> None:
    """Eight names and how many more; notes stand before what was done, forty at most."""
    names = tuple(f"Yard {number}" for number in range(11))
    told = Gathered(Path("b/yards.csv"), names, ("x" * 90,), 4, (), (), ("a.gpx: something odd.",))
    lines = list(gathered_words(told))

    assert "note: a.gpx: something odd." == lines[0]
    assert (
        "added: 11 (Yard 0, Yard 1, Yard 2, Yard 3, Yard 4, Yard 5, Yard 6, Yard 7 and 3 more)"
        == (lines[1])
    )
    assert len(lines[2]) < 60
    assert "known already: 4" == lines[3]

    many = replace(told, notes=tuple(f"note {number}" for number in range(43)))
    assert "note: and 3 more like these" == list(gathered_words(many))[40]
