"""The set-up script: what it is told, and what it says when it cannot."""

import io
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Sequence
from pathlib import Path

import pytest

from tests import fresh

NOT_SENT = {".gitattributes", ".gitignore", ".pre-commit-config.yaml"}
"""What only a checkout needs."""


@pytest.fixture
def calls(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> list[tuple[str, ...]]:
    """What the script would run, with nothing really run and an environment of its own."""
    asked: list[tuple[str, ...]] = []

    def heard(words: Sequence[str], _: int | None = None) -> subprocess.CompletedProcess[bytes]:
        asked.append(tuple(words))
        bad = "mypy" in words
        return subprocess.CompletedProcess(words, int(bad), b"amiss\n" * bad, b"")

    def make_home() -> None:
        fresh.python().parent.mkdir(parents=True, exist_ok=True)
        fresh.python().touch()

    monkeypatch.setattr(fresh, "HOME", tmp_path / ".venv")
    monkeypatch.setattr(fresh, "make_home", make_home)
    monkeypatch.setattr(fresh, "heard", heard)
    return asked


def test_demo_installs_once_then_plans(calls: list[tuple[str, ...]]) -> None:
    """The first run installs the package without extras; the second only plans."""
    assert 0 == fresh.main(["demo"])
    assert 0 == fresh.main(["demo"])

    assert ["pip", "runplanner", "runplanner"] == [words[1] for words in calls]
    assert calls[0][-2:] == ("-e", ".")
    assert calls[1][2:] == ("plan", fresh.DEMO)


def test_every_check_runs_even_when_one_fails(
    calls: list[tuple[str, ...]], capsys: pytest.CaptureFixture[str]
) -> None:
    """A failed check does not hide the ones after it, and is named at the end."""
    assert 1 == fresh.main(["test"])

    asked = [words[1] for words in calls if words[0] == "-m"]
    assert ["mypy", "ruff", "ruff"] == sorted(asked[1:4])  # side by side, in any order
    assert (asked[0], asked[4]) == ("pip", "pytest")
    said = capsys.readouterr().out
    assert "== types\namiss\n== floors\n" in said
    assert said.endswith("FAILED: types\n")


def test_arguments_go_to_pytest_alone(calls: list[tuple[str, ...]]) -> None:
    """With arguments only pytest runs, and gets them."""
    assert 0 == fresh.main(["test", "-k", "map"])

    assert ("-m", "pytest", "-k", "map") == calls[-1]
    assert 2 == len(calls)


def test_lines_are_counted_where_that_is_asked(calls: list[tuple[str, ...]]) -> None:
    """Counting triples the time of tests, so it is a command of its own."""
    assert 0 == fresh.main(["cover"])
    counted = calls[-1]

    assert {"--cov", "--cov-fail-under=95"} <= set(counted)
    assert not any(word.startswith("--cov") for _, words in fresh.checks() for word in words)


def test_what_a_code_page_has_not_does_not_stop_the_checks(
    calls: list[tuple[str, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The import contract draws boxes, and a pipe on Windows has no such lines."""
    drawn = io.BytesIO()
    pipe = io.TextIOWrapper(drawn, encoding="cp1252", newline="\n")
    banner = subprocess.CompletedProcess([], 0, "╔══╗\n".encode(), b"")
    monkeypatch.setattr(fresh, "heard", lambda words, ear=None: banner)
    monkeypatch.setattr(sys, "stdout", pipe)

    assert 0 == fresh.main(["test"])
    pipe.flush()
    assert b"== floors\n????\n" in drawn.getvalue()


def test_an_environment_without_pip_is_made_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where making it failed half-way, python stands there already."""
    monkeypatch.setattr(fresh, "HOME", tmp_path / ".venv")
    fresh.python().parent.mkdir(parents=True)
    fresh.python().touch()
    made = []
    monkeypatch.setattr("venv.create", lambda home, **how: made.append((home, how["clear"])))
    for code in (1, 0):
        done = subprocess.CompletedProcess([], code, b"", b"")
        monkeypatch.setattr(fresh, "heard", lambda words, ear=None, done=done: done)
        fresh.make_home()

    assert [(tmp_path / ".venv", True)] == made


@pytest.mark.parametrize("words", [[], ["prove"], ["demo", "more"]])
def test_anything_else_gets_the_usage(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    """Words it does not know are answered with the two that it does."""
    assert 2 == fresh.main(words)
    assert fresh.USAGE in capsys.readouterr().out


def test_an_old_python_is_told(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A Python that is too old hears which one is wanted."""
    monkeypatch.setattr(sys, "version_info", (3, 10, 4))

    assert 2 == fresh.main(["demo"])
    assert "needs Python 3.11 or newer" in capsys.readouterr().out


def test_a_failed_install_says_so(
    monkeypatch: pytest.MonkeyPatch, calls: list[tuple[str, ...]]
) -> None:
    """When pip fails the script stops there, and leaves no mark of success."""
    monkeypatch.setattr(fresh, "run", lambda *words: 1)

    with pytest.raises(SystemExit, match="could not be installed"):
        fresh.main(["demo"])
    assert not list(fresh.HOME.glob("ready-*"))


def test_the_ci_script_is_sound_and_runs_the_same_command() -> None:
    """``.ci/run`` parses, and ends in README's second command."""
    script = fresh.ROOT / ".ci" / "run"
    bash = shutil.which("bash")
    if bash is not None:
        assert 0 == subprocess.run([bash, "-n", str(script)], check=False).returncode

    last = script.read_text(encoding="utf-8").splitlines()[-1]
    assert 'exec python3 tests/fresh.py test "$@"' == last


def test_a_source_archive_holds_what_a_checkout_holds() -> None:
    """Whoever unpacks one finds the sample that README shows, and can run every check."""
    git = shutil.which("git")
    words = [git or "", "ls-files"]
    listed = git and subprocess.run(words, cwd=fresh.ROOT, capture_output=True, check=False).stdout
    if not listed:
        pytest.skip("no checkout: what an archive is to hold is not known")
    tools = tomllib.loads((fresh.ROOT / "pyproject.toml").read_text("utf-8"))["tool"]
    sent = tuple(path[1:] for path in tools["hatch"]["build"]["targets"]["sdist"]["include"])
    left = [name for name in listed.decode().splitlines() if not name.startswith(sent)]

    assert NOT_SENT | {"pyproject.toml"} == set(left)
