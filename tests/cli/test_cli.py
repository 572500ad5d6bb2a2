"""The command line: exit codes, what goes where, and no traceback for anybody."""

import shlex
import signal
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.cli import Exit, main, parser, plain
from runplanner.errors import Fault, PlanError, ScenarioError
from runplanner.office.campaign import keep_plan
from runplanner.office.options import read_words
from runplanner.office.rooms import Rooms
from runplanner.office.words import older_words
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import phrase
from runplanner.scenario.gather.far import FAR_KM
from runplanner.scenario.gather.merge import NEAR_M
from runplanner.season.plan_season import plan_season
from runplanner.version import __version__
from runplanner.whole_file import write_whole
from tests.office.fakes import FakePlanner, a_finding, rooms
from tests.outfits import an_outfit
from tests.plans import a_short_plan, an_empty_plan


def planned(tmp_path: Path, told: Rooms, *more: str) -> int:
    """Run ``plan`` with ``told`` rooms into tmp_path/out."""
    return main(["plan", "hill", "--out", str(tmp_path / "out"), *more], told)


def test_a_plan_is_published_and_summed_up(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A clean plan: papers in place, summary on stdout, progress on stderr, exit 0."""
    assert Exit.OK == planned(tmp_path, rooms())

    out, err = capsys.readouterr()
    assert "hill: 0 trips on 0 truck days" in out
    assert "audit: every rule holds" in out
    assert f"map and papers: {tmp_path / 'out' / 'test'}" in out
    assert "round 1 of 3  cost 400.00 NZD  bound 360.00 NZD  gap 10.0 %" in err
    assert (tmp_path / "out" / "test" / "plan.json").exists()


def test_work_left_undone_has_its_own_exit_code(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A good plan that leaves work is published, names it, and exits 1."""
    assert Exit.UNDONE == planned(tmp_path, rooms(a_short_plan()))

    assert "left: Yard 1, syrup, 10 colonies" in capsys.readouterr().out
    assert (tmp_path / "out" / "test" / "plan.json").exists()


def test_a_plan_with_findings_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A plan that breaks a rule: findings in words, no papers, exit 3."""
    assert Exit.FINDINGS == planned(tmp_path, rooms(findings=(a_finding(),)))

    out, err = capsys.readouterr()
    assert "" == out
    assert "deck (trip d0-1, yard yard1): 25 places; allowed: 24 places" in err
    assert "do not drive this plan" in err
    assert ["test.refused-plan.json"] == [path.name for path in (tmp_path / "out").iterdir()]


@pytest.mark.parametrize("standing", ["file", "foreign"])
def test_a_place_that_takes_no_results_is_told_before_the_search(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], standing: str
) -> None:
    """Nobody waits an hour to hear that --out is a file, or that something else is in the way."""
    out = tmp_path / "out"
    if standing == "file":
        out.write_text("mine", encoding="utf-8")
    else:
        write_whole(out / "test" / "letter.txt", "mine")
    told = rooms()

    assert Exit.BAD_INPUT == planned(tmp_path, told)
    assert isinstance(told.plan, FakePlanner)
    assert {} == told.plan.asked
    assert "choose another --out" in capsys.readouterr().err.lower()
    assert ["out"] == [path.name for path in tmp_path.iterdir()]


@pytest.mark.parametrize(
    ("trouble", "code"),
    [
        (OSError(28, "No space left on device"), Exit.BAD_INPUT),
        (ValueError("a paper of ours"), Exit.OWN_FAULT),
        (KeyboardInterrupt(), Exit.STOPPED),
    ],
)
def test_a_plan_whose_papers_come_to_nothing_is_kept(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], trouble: BaseException, code: Exit
) -> None:
    """Whatever stops the papers, the search was not for nothing: they can be made later."""

    def fail(*_: object, **__: object) -> list[Path]:
        raise trouble

    assert code == planned(tmp_path, replace(rooms(), write=fail))

    kept = tmp_path / "out" / "test.unpublished-plan.json"
    assert [kept] == list((tmp_path / "out").iterdir())
    assert f"runplanner papers {kept} --out" in capsys.readouterr().err
    assert Exit.OK == main(["papers", str(kept), "--out", str(tmp_path / "later")], rooms())
    assert (tmp_path / "later" / "test" / "plan.json").exists()


def test_what_the_system_refuses_is_named_as_it_was_asked_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Trace and rehearsal of a plan go where nothing can be; the rehearsal says so before it."""
    assert Exit.OK == planned(tmp_path, rooms())
    plan, file = str(tmp_path / "out" / "test"), write_whole(tmp_path / "afile", "x")
    yard = an_outfit().yards[0].name
    capsys.readouterr()

    assert Exit.BAD_INPUT == main(["trace", plan, yard, "--out", str(file / "t.html")])
    said = f"The system refused {file}"
    assert said in capsys.readouterr().err
    assert Exit.BAD_INPUT == main(["rehearse", plan, "--out", str(file)])
    said = f"Results cannot be put into {file / 'test-rehearsal'}: "
    assert capsys.readouterr().err.startswith(said)


def test_a_plan_is_kept_where_there_is_room(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Not in --out, then where people work, then among the system's passing files."""
    (tmp_path / "out").write_text("in the way", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert tmp_path / "test.unpublished-plan.json" == keep_plan(an_empty_plan(), tmp_path / "out")

    (tmp_path / "shut").mkdir()
    monkeypatch.chdir(tmp_path / "shut")
    (tmp_path / "shut" / "test.unpublished-plan.json").mkdir()
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    kept = keep_plan(an_empty_plan(), tmp_path / "out")
    assert (tmp_path, "runplanner-") == (kept.parent.parent, kept.parent.name[:11])


@pytest.mark.skipif(sys.platform == "win32", reason="shells quote otherwise there")
def test_a_command_to_copy_is_quoted(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder with a space, or with signs that mean something to a shell, is one word."""
    folder = tmp_path / "my bees; $HOME"
    assert Exit.OK == main(["new", str(folder)])

    line = capsys.readouterr().out.splitlines()[-1]
    assert ["runplanner", "check", str(folder)] == shlex.split(line.partition(": ")[2])


def test_options_reach_the_planner(tmp_path: Path) -> None:
    """Seed, rounds and seconds arrive as typed."""
    told = rooms()
    planned(tmp_path, told, "--seed", "7", "--rounds", "0", "--time", "1.5", "--pdf", "--tiles")
    planned(tmp_path / "b", rooms(), "--paper", "letter", "--large", "--language", "de")

    assert isinstance(told.plan, FakePlanner)
    assert {"seed": 7, "rounds": 0, "seconds": 1.5} == told.plan.asked
    assert (tmp_path / "out" / "test" / "asked.pdf").exists()
    assert "letter True de" == (tmp_path / "b" / "out" / "test" / "look.txt").read_text("utf-8")
    assert "tiles: True" in (tmp_path / "out" / "test" / "map.html").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "typed",
    [
        ["--seed", "-1"], ["--seed", "x"], ["--seed", "1e3"], ["--rounds", "\u0663"],
        ["--rounds", "9999999999"], ["--time", "0"], ["--time", "nan"], ["--time", "inf"],
        ["--time", "soon"], ["--time", "-3"],
    ],
)  # fmt: skip
def test_numbers_that_make_no_sense_are_refused(
    typed: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    """An option that is no sensible number is refused before anything is read."""
    with pytest.raises(SystemExit) as stopped:
        main(["plan", "hill", *typed], rooms())
    assert Exit.BAD_INPUT == stopped.value.code
    said = capsys.readouterr().err
    assert "is not a" in said
    assert ("0 to 999999999" in said) != ("above 0 and below 1000000" in said)


def test_audit_and_papers_work_from_a_plan_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Both verbs take the plan file or its folder, and plan nothing."""
    planned(tmp_path, rooms())
    made = tmp_path / "out" / "test"
    capsys.readouterr()

    assert Exit.OK == main(["audit", str(made)], rooms())
    assert "audit: every rule holds" in capsys.readouterr().out
    told = rooms()
    assert Exit.OK == main(["papers", str(made), "--out", str(tmp_path / "again")], told)
    assert isinstance(told.plan, FakePlanner)
    assert {} == told.plan.asked
    assert (tmp_path / "again" / "test" / "plan.json").exists()


def test_audit_findings_exit_three(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An audit that finds something lists it and exits 3; papers are refused."""
    planned(tmp_path, rooms())
    made = str(tmp_path / "out" / "test")
    bad = rooms(findings=(a_finding(), a_finding()))
    capsys.readouterr()

    assert Exit.FINDINGS == main(["audit", made], bad)
    assert "audit: 2 broken rules" in capsys.readouterr().out
    assert Exit.FINDINGS == main(["papers", made, "--out", str(tmp_path / "again")], bad)
    assert not (tmp_path / "again").exists()


@pytest.mark.parametrize(
    ("versions", "said"),
    [
        ((("ortools", "9"),), "an older release that does not say its number"),
        ((("runplanner", "0.0.9"),), "made by 0.0.9; this audit is of"),
        ((("runplanner", __version__),), None),
    ],
)
def test_findings_on_a_plan_of_another_release_say_so(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    versions: tuple[tuple[str, str], ...],
    said: str | None,
) -> None:
    """What made the plan and what to do stand behind the findings of audit and papers."""
    plan = an_empty_plan()
    plan = replace(plan, search=replace(plan.search, versions=versions))
    planned(tmp_path, rooms(plan))
    made, bad = str(tmp_path / "out" / "test"), rooms(findings=(a_finding(),))
    capsys.readouterr()

    assert Exit.FINDINGS == main(["audit", made], bad)
    assert Exit.FINDINGS == main(["papers", made, "--out", str(tmp_path / "again")], bad)
    for told in capsys.readouterr():
        assert (said is not None) == ("The plan was made by" in told)
        assert (said or "audit: 1 broken rule") in told
        assert (said is not None) == ("plan again from this plan" in told)


def test_a_plan_says_which_release_made_it() -> None:
    """The release stands in the plan beside the solver's."""
    plan = plan_season(an_outfit([(3, 4)]), rounds=0, proof=False)

    assert __version__ == dict(plan.search.versions)["runplanner"]
    assert [] == older_words(plan)


def test_numbers_are_shown_and_hold(capsys: pytest.CaptureFixture[str]) -> None:
    """The check table is printed with its sources, and its verdict last."""
    assert Exit.OK == main(["numbers"])
    assert "figures agree" in capsys.readouterr().out.splitlines()[-1]


def test_a_figure_that_is_off_is_our_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    """If a release's figure does not agree with its source, the exit code says so."""
    monkeypatch.setattr("runplanner.office.numbers.Numbers.hold", lambda _self: False)

    assert Exit.OWN_FAULT == main(["numbers"])


def test_a_new_scenario_passes_its_check(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The starter is written, has no fault as it stands, and shows its defaults' sources."""
    folder = str(tmp_path / "my-bees")

    assert Exit.OK == main(["new", folder, "--title", "My bees {{7*7}}"])
    assert Exit.OK == main(["check", folder])

    said = capsys.readouterr().out
    assert f"Fill it in, then: runplanner check {folder}" in said
    assert "My bees {{7*7}}" in said
    assert "common practice" in said
    assert said.endswith("no fault found\n")
    assert Exit.BAD_INPUT == main(["new", folder])
    assert "there already" in capsys.readouterr().err


def test_a_missing_folder_is_wrong_input(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A scenario that is not there is a fault in words."""
    assert Exit.BAD_INPUT == main(["check", str(tmp_path / "none")])
    assert "fault" in capsys.readouterr().err


def failing(error: BaseException) -> Rooms:
    """Rooms whose reading fails with ``error``."""

    def read(_folder: Path) -> Outfit:
        raise error

    return Rooms(read=read)


FAULT = Fault(
    "yards.csv", "row 7, Mill Lane", "full_boxes", "-3", phrase("0 or more"), phrase("Count again.")
)


@pytest.mark.parametrize(
    ("error", "code", "words"),
    [
        (ScenarioError((FAULT, FAULT)), Exit.BAD_INPUT, "2 faults found"),
        (PlanError(phrase("No day is left\nAnn is away")), Exit.NO_PLAN, "Ann is away"),
        (KeyboardInterrupt(), Exit.STOPPED, "Stopped."),
        (PermissionError(13, "Permission denied", "x"), Exit.BAD_INPUT, "Permission denied"),
        (KeyError("yard9"), Exit.OWN_FAULT, "KeyError at test_cli.py line"),
        (RecursionError("deep"), Exit.OWN_FAULT, "please report"),
    ],
)
def test_no_error_becomes_a_traceback(
    error: BaseException,
    code: Exit,
    words: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Whatever goes wrong ends in plain words on stderr and its own exit code."""
    monkeypatch.delenv("RUNPLANNER_DEBUG", raising=False)

    assert code == main(["plan", "hill"], failing(error))

    out, err = capsys.readouterr()
    assert "" == out
    assert words.lower() in err.lower()
    assert "Traceback" not in err


def test_every_fault_has_its_line(capsys: pytest.CaptureFixture[str]) -> None:
    """Each fault is one line: file, row, column, what stood there, what may, the cure."""
    main(["plan", "hill"], failing(ScenarioError((FAULT,))))

    assert [
        "1 fault found; nothing was written.",
        "  - yards.csv, row 7, Mill Lane, full_boxes: said '-3'; allowed: 0 or more. Count again.",
    ] == capsys.readouterr().err.splitlines()


def test_debug_lets_the_traceback_through(monkeypatch: pytest.MonkeyPatch) -> None:
    """A developer who asks for it gets the exception itself."""
    monkeypatch.setenv("RUNPLANNER_DEBUG", "1")

    with pytest.raises(KeyError, match="yard9"):
        main(["plan", "hill"], failing(KeyError("yard9")))


def test_a_hostile_title_cannot_steer_the_terminal(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Escape codes, line ends and turned text in a name are not sent to the terminal."""
    evil = "Mill\x1b[2J\x1b]0;x\x07\nLane\u202eevil{{7*7}}" + "y" * 10_000
    planned(tmp_path, rooms(an_empty_plan(an_outfit([(1, 1)], title=evil))))

    out = capsys.readouterr().out
    assert "\x1b" not in out
    assert "\u202e" not in out
    assert "{{7*7}}" in out
    assert max(len(line) for line in out.splitlines()) <= 600


def test_plain_keeps_what_is_harmless() -> None:
    """Accents, macrons, right-to-left letters and emoji are shown as they are."""
    assert "  - Te Kōwhai \u05d3\u05d1\u05e9 \U0001f36f" == plain(
        "  - Te Kōwhai \u05d3\u05d1\u05e9 \U0001f36f"
    )


def test_every_verb_has_help(capsys: pytest.CaptureFixture[str]) -> None:
    """``VERB --help`` says what the verb does and exits 0."""
    for verb in ("new", "check", "plan", "audit", "papers", "numbers"):
        with pytest.raises(SystemExit) as stopped:
            main([verb, "--help"])
        assert stopped.value.code == 0
        assert len(capsys.readouterr().out.splitlines()) > 4


@pytest.mark.parametrize(
    ("verb", "words"),
    [
        ("gather", f"nearer than this (default {NEAR_M}; 0: never)"),
        ("gather", f"or all at sea (default {FAR_KM}; 0: never)"),
        ("plan", "plan, proof and reasons"),
        ("replan", "ring them: the change sheet says whom"),
    ],
)
def test_help_tells_what_is_so(verb: str, words: str, capsys: pytest.CaptureFixture[str]) -> None:
    """What is taken for granted, what time goes to, and that the program rings nobody."""
    with pytest.raises(SystemExit):
        main([verb, "--help"])
    assert words in " ".join(capsys.readouterr().out.split())


def test_no_verb_is_a_usage_error(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a verb the usage is shown and the exit code is that of wrong input."""
    with pytest.raises(SystemExit) as stopped:
        main([])
    assert Exit.BAD_INPUT == stopped.value.code
    assert "VERB" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("typed", "name", "words"),
    [
        ("replan P --now Fri a b", "changes", "a b"),
        ("replan P a --ring b --seed 2 c", "changes", "a b c"),
        ("replan --ring P a b", "changes", "a b"),
        ("replan P --ring", "changes", ""),
        ("replan P --now X -- a", "changes", "a"),
        ("replan P --now X a -- -b c", "changes", "a -b c"),
        ("replan P --now X --", "changes", ""),
        ("gather a.csv --into D b.csv --near 5 c.csv", "files", "a.csv b.csv c.csv"),
    ],
)
def test_words_may_stand_behind_options(typed: str, name: str, words: str) -> None:
    """In the order they were typed, each of its type."""
    told = getattr(read_words(parser(), typed.split()), name)

    assert words.split() == [str(one) for one in told]
    assert all(isinstance(one, Path if name == "files" else str) for one in told)


@pytest.mark.parametrize(
    "typed",
    ["replan P a --nwo Fri", "replan P --nwo Fri -- a", "check D E", "plan D --seed 1 -- E"],
)
def test_what_no_verb_knows_is_a_usage_error(
    typed: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """A slip in an option's name is no change, and a verb of one folder takes no second."""
    with pytest.raises(SystemExit) as caught:
        main(typed.split())

    assert Exit.BAD_INPUT == caught.value.code
    assert "unrecognized arguments: " in capsys.readouterr().err


def test_exit_codes_are_explained() -> None:
    """The help names every exit code."""
    said = parser().format_help()

    for code in Exit:
        if code is not Exit.OK:
            assert f"{code.value} " in said


def test_help_comes_without_heavy_libraries(root: Path) -> None:
    """``--help`` loads neither solver, tables, map nor units."""
    heavy = ("ortools", "pandas", "folium", "pint", "numpy", "geopy", "networkx")
    code = (
        "import sys\nfrom runplanner.cli import main\n"
        "try:\n    main(['--help'])\nexcept SystemExit:\n    pass\n"
        f"print('LOADED', [name for name in {heavy!r} if name in sys.modules])"
    )

    told = subprocess.run(
        [sys.executable, "-c", code], cwd=root, capture_output=True, text=True, check=True
    )
    assert "LOADED []" == told.stdout.splitlines()[-1]


def test_a_closed_pipe_is_no_fault(root: Path) -> None:
    """``runplanner numbers | head`` ends without a complaint when nobody reads on."""
    words = [sys.executable, "-m", "runplanner", "numbers"]
    with subprocess.Popen(words, cwd=root, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as going:
        assert going.stdout is not None
        assert going.stderr is not None
        going.stdout.close()
        assert b"" == going.stderr.read()
        assert Exit.OK == going.wait()


PUBLISHED = (
    "import sys\n"
    "from runplanner.__main__ import run\n"
    "from runplanner import cli\n"
    "from tests.office.fakes import rooms\n"
    "from tests.plans import a_short_plan\n"
    "main = cli.main\n"
    "cli.main = lambda: main(['plan', 'hill', '--out', sys.argv[1]], rooms(a_short_plan()))\n"
    "sys.exit(run())\n"
)


@pytest.mark.skipif(sys.platform == "win32", reason="a shell's ways of naming streams")
@pytest.mark.parametrize(
    ("streams", "code", "said"),
    [
        ("2>&1 | head -1 >&2", Exit.UNDONE, b"round 1 of 3"),
        ("| true", Exit.UNDONE, b"round 1 of 3"),
        ("2>/dev/full", Exit.UNDONE, b""),
        ("2>&-", Exit.UNDONE, b""),
        (">&-", Exit.UNDONE, b"round 1 of 3"),
        (">/dev/full", Exit.BAD_INPUT, b"Files that were written are in place."),
    ],
)
def test_news_that_cannot_be_shown_cost_no_plan(
    root: Path, tmp_path: Path, streams: str, code: Exit, said: bytes
) -> None:
    """A reader that has gone, a full disk, a stream that is shut: the papers come all the same."""
    if "full" in streams and not Path("/dev/full").exists():
        pytest.skip("no /dev/full here")
    words = ["bash", "-c", f'set -o pipefail; "$0" "$@" {streams}', sys.executable]
    told = subprocess.run(
        [*words, "-c", PUBLISHED, str(tmp_path)], cwd=root, capture_output=True, check=False
    )

    assert (tmp_path / "test" / "plan.json").exists()
    assert code == told.returncode
    assert said in told.stderr
    assert b"round 1" not in told.stdout
    assert b"Nothing more was written" not in told.stderr


def test_ctrl_c_while_loading_ends_in_peace(root: Path) -> None:
    """Whoever thinks better of it in the first half second gets 130 and no traceback."""
    code = (
        "import sys\n"
        "class Stop:\n"
        "    def find_spec(self, name, path=None, target=None):\n"
        "        if name == 'runplanner.cli':\n"
        "            raise KeyboardInterrupt\n"
        "sys.meta_path.insert(0, Stop())\n"
        "from runplanner.__main__ import run\n"
        "raise SystemExit(run())\n"
    )

    told = subprocess.run(
        [sys.executable, "-c", code], cwd=root, capture_output=True, text=True, check=False
    )

    assert (Exit.STOPPED, "", "") == (told.returncode, told.stdout, told.stderr)


@pytest.mark.parametrize(
    ("end", "code"), [("raise KeyboardInterrupt", Exit.STOPPED), ("return 1", Exit.UNDONE)]
)
def test_ctrl_c_pressed_once_more_changes_nothing(root: Path, end: str, code: Exit) -> None:
    """Whoever presses it again while Python clears up gets the same exit code, no signal."""
    script = (
        "import signal, sys\n"
        "from runplanner import cli\n"
        "from runplanner.__main__ import run\n"
        "def main():\n"
        f"    {end}\n"
        "cli.main = main\n"
        "code = run()\n"
        "signal.raise_signal(signal.SIGINT)\n"
        "sys.exit(code)\n"
    )

    told = subprocess.run(
        [sys.executable, "-c", script], cwd=root, capture_output=True, check=False
    )

    assert (code, b"") == (told.returncode, told.stderr)


def test_the_python_api_is_loaded_as_it_is_asked_for(root: Path) -> None:
    """Every public name can be had; asking for the package alone loads none of its rooms."""
    code = (
        "import sys, runplanner\n"
        "early = sorted(m for m in sys.modules if m.startswith('runplanner.'))\n"
        "print(early, all(hasattr(runplanner, name) for name in runplanner.__all__))\n"
        "print(hasattr(runplanner, 'plan_campain'), 'plan_campaign' in dir(runplanner))\n"
    )

    told = subprocess.run(
        [sys.executable, "-c", code], cwd=root, capture_output=True, text=True, check=True
    )

    assert ["['runplanner.version'] True", "False True"] == told.stdout.splitlines()


@pytest.mark.parametrize("end", ["SIGTERM", "SIGHUP", "SIGBREAK"])
def test_who_is_told_to_end_clears_up(root: Path, tmp_path: Path, end: str) -> None:
    """A log-off, a lost connection or a time that is up: half-written papers do not lie about."""
    if not hasattr(signal, end):
        pytest.skip(f"no {end} here")
    code = (
        "import signal, sys, time\n"
        "from pathlib import Path\n"
        "from runplanner import cli\n"
        "from runplanner.__main__ import run\n"
        "from runplanner.office.publish import publish\n"
        # As in a terminal, also where the tests run under nohup.
        "signal.signal(signal.Signals[sys.argv[2]], signal.SIG_DFL)\n"
        "def fill(side):\n"
        "    (side / 'half.html').touch()\n"
        "    signal.raise_signal(signal.Signals[sys.argv[2]])\n"
        "    time.sleep(60)\n"
        "cli.main = lambda: publish(Path(sys.argv[1]), 'small', fill)\n"
        "sys.exit(run())\n"
    )

    told = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path), end],
        cwd=root, capture_output=True, check=False,
    )  # fmt: skip

    assert (Exit.STOPPED, b"") == (told.returncode, told.stderr)
    assert [] == list(tmp_path.iterdir())


@pytest.mark.skipif(sys.platform == "win32", reason="no nohup there")
def test_who_is_to_go_on_without_a_terminal_does(root: Path) -> None:
    """``nohup runplanner plan ...`` is not ended by a connection that goes."""
    code = (
        "import signal, sys\n"
        "from runplanner import cli\n"
        "from runplanner.__main__ import run\n"
        "cli.main = lambda: signal.raise_signal(signal.SIGHUP) or 0\n"
        "sys.exit(run())\n"
    )
    words = ["bash", "-c", 'trap \'\' HUP; exec "$0" -c "$1"', sys.executable, code]

    assert Exit.OK == subprocess.run(words, cwd=root, check=False).returncode
