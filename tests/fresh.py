"""Set up a fresh checkout, then run the demo or every check: needs Python and a network.

    python3 tests/fresh.py demo      plan the small demo; results under maps_out/
    python3 tests/fresh.py test      style, types, floors and tests, as CI does
    python3 tests/fresh.py test -k map    only pytest, with these arguments
    python3 tests/fresh.py cover     the tests once more, every line counted (slow)
    python3 tests/fresh.py sample    plan the small demo anew into maps_out/sample

Everything is installed into .venv beside pyproject.toml; nothing else is touched.
Standard library only, and plain enough for an old Python to say that it is too old.
"""

import hashlib
import io
import os
import shutil
import subprocess
import sys
import tempfile
import venv
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
HOME = ROOT / ".venv"
OLDEST = (3, 11)
DEMO = "scenarios/ironsand_coast"
SAMPLE = "maps_out/sample"
COVERED_PERCENT = 95
MANY = ("-m", "not slow", "--numprocesses=auto", "--maxprocesses=4", "--dist=worksteal")
USAGE = "Say: python3 tests/fresh.py demo   or: python3 tests/fresh.py test [pytest arguments]"


def python() -> Path:
    """Return the interpreter of the checkout's own environment."""
    return HOME / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def run(*words: str) -> int:
    """Run ``words`` with the environment's interpreter at the checkout; return its exit code."""
    return heard(words).returncode


def heard(words: Sequence[str], ear: int | None = None) -> subprocess.CompletedProcess[bytes]:
    """Run ``words`` likewise; all they say goes to ``ear``, to the screen where there is none."""
    told = {**os.environ, "PYTHONUTF8": "1"}
    return subprocess.run(
        [str(python()), *words], cwd=ROOT, env=told, check=False, stdout=ear, stderr=ear
    )


def ready(extra: str) -> None:
    """Make the environment hold the package and ``extra``, unless it does already.

    Raises:
        SystemExit: When it cannot be made; says why and what to do.
    """
    pins = (ROOT / "pyproject.toml").read_bytes() + sys.version.encode()
    stamp = HOME / f"ready-{extra or 'plain'}-{hashlib.sha256(pins).hexdigest()[:12]}"
    if stamp.exists() and python().exists():
        return
    print(f"Setting up {HOME} (once; a few minutes) ...", flush=True)
    make_home()
    target = f".[{extra}]" if extra else "."
    if run("-m", "pip", "install", "--quiet", "--disable-pip-version-check", "-e", target):
        raise SystemExit("The packages could not be installed; pip says why above.")
    stamp.touch()


def make_home() -> None:
    """Make the environment if there is none, or one without pip, as is left where making it fails.

    Raises:
        SystemExit: When it cannot be made; says why and what to do.
    """
    if python().exists() and heard(["-m", "pip", "--version"], subprocess.DEVNULL).returncode == 0:
        return
    try:
        venv.create(HOME, clear=True, with_pip=True, symlinks=os.name != "nt")
    except (OSError, subprocess.CalledProcessError) as error:
        cure = "On Debian and Ubuntu install python3-venv first."
        raise SystemExit(f"No environment could be made in {HOME}: {error}\n{cure}") from None


def demo() -> int:
    """Plan the small demo."""
    ready("")
    return run("-m", "runplanner", "plan", DEMO)


def sample() -> int:
    """Plan the small demo into the committed sample, without its map."""
    ready("")
    with tempfile.TemporaryDirectory() as out:
        code = run("-m", "runplanner", "plan", DEMO, "--out", out)
        if code == 0:
            (made,) = Path(out).iterdir()
            (made / "map.html").unlink()
            shutil.rmtree(ROOT / SAMPLE, ignore_errors=True)
            shutil.copytree(made, ROOT / SAMPLE)
    return code


def test(arguments: list[str]) -> int:
    """Run every check, or pytest alone with ``arguments``; return how many failed."""
    ready("dev,pdf,roads")
    if arguments:
        return run("-m", "pytest", *arguments)
    *short, longest = checks()
    with ThreadPoolExecutor(os.cpu_count()) as side_by_side:
        found = [*side_by_side.map(lambda check: run_beside(*check), short), run_check(*longest)]
    failed = [name for (name, _), bad in zip(checks(), found, strict=True) if bad]
    if failed:
        print("FAILED: " + ", ".join(failed), flush=True)
    return len(failed)


def cover() -> int:
    """Run the tests with every line and branch counted; fail where too few are run through."""
    ready("dev,pdf,roads")
    gate = f"--cov-fail-under={COVERED_PERCENT}"
    return run("-m", "pytest", *MANY, "--cov", "--cov-report=term", gate)


def checks() -> list[tuple[str, list[str]]]:
    """Return every check by name, in order, the longest last."""
    return [
        ("style", ["-m", "ruff", "check", "."]),
        ("layout", ["-m", "ruff", "format", "--check", "."]),
        ("types", ["-m", "mypy"]),
        ("floors", ["-c", "from importlinter.cli import lint_imports_command as go; go()"]),
        ("tests", ["-m", "pytest", *MANY, "--durations=10"]),
    ]


def run_beside(name: str, words: list[str]) -> bool:
    """Run one check beside others, and print its name and all it said; say whether it failed."""
    done = heard(words, subprocess.PIPE)
    said = (done.stdout + done.stderr).decode("utf-8", "replace")
    print(f"== {name}\n{said}", end="", flush=True)
    return done.returncode != 0


def run_check(name: str, words: list[str]) -> bool:
    """Run one check under its name; say whether it failed."""
    print(f"== {name}", flush=True)
    return run(*words) != 0


def main(words: list[str]) -> int:
    """Do what ``words`` ask; return the exit code."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            # Checks draw lines that the code page of a pipe may not have.
            stream.reconfigure(errors="replace")
    if sys.version_info < OLDEST:
        print("runplanner needs Python 3.11 or newer; this is " + sys.version.split()[0])
        return 2
    if words == ["demo"]:
        return demo()
    if words == ["sample"]:
        return sample()
    if words == ["cover"]:
        return cover()
    if words[:1] == ["test"]:
        return test(words[1:])
    print(USAGE)
    return 2


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
