"""The documents do not go stale: what they name exists, and what exists is named."""

import ast
import re
import shlex
import shutil
import tomllib
from argparse import ArgumentParser, _SubParsersAction
from fnmatch import fnmatch
from pathlib import Path

import pytest

import runplanner
from runplanner.cli import Exit, parser
from runplanner.office.options import read_words
from runplanner.scenario.starter.starter_text import OUTFIT_TOML, YARDS_CSV
from runplanner.scenario.yards.yards_file import COLUMNS
from tests import fresh
from tests.oldest import oldest


@pytest.fixture(scope="module")
def readme() -> str:
    """README, as it stands."""
    return (fresh.ROOT / "README.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def developers() -> str:
    """DEVELOPERS, as it stands."""
    return (fresh.ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def verbs() -> dict[str, ArgumentParser]:
    """Every verb of the command line with its parser."""
    (found,) = (act for act in parser()._actions if isinstance(act, _SubParsersAction))
    return dict(found.choices)


def commands(text: str, program: str) -> list[list[str]]:
    """Every command of ``program`` in ``text``'s shell blocks, as words."""
    blocks = "\n".join(re.findall(r"```sh\n(.*?)```", text, re.DOTALL))
    lines = [line.split("#")[0].strip() for line in blocks.splitlines()]
    return [shlex.split(line) for line in lines if line.startswith(f"{program} ")]


def test_every_verb_is_in_readme_and_has_help(readme: str) -> None:
    """Each verb has a line in README's list of verbs, and a sentence of help."""
    shown = {words[1] for words in commands(readme, "runplanner")}

    assert set(verbs()) <= shown
    assert all((verb.description or "").endswith(".") for verb in verbs().values())


def test_every_command_in_readme_parses(readme: str) -> None:
    """Nothing in README is refused by the command line."""
    for words in commands(readme, "runplanner"):
        read_words(parser(), words[1:])


def test_every_option_is_in_readme(readme: str) -> None:
    """Each option of each verb is at least named."""
    options = {
        word
        for verb in verbs().values()
        for act in verb._actions
        for word in act.option_strings
        if word[:2] == "--"
    }

    assert [] == sorted(word for word in options - {"--help"} if word not in readme)


def test_every_exit_code_is_in_readme(readme: str) -> None:
    """README's table of exit codes has a row for each, and no other."""
    rows = re.findall(r"^\| (\d+) \|", readme, re.MULTILINE)

    assert [str(code.value) for code in Exit] == rows


def test_every_column_of_a_yard_is_told(readme: str) -> None:
    """README or the files that ``new`` writes name each column of a yard's row."""
    told = set(re.findall(r"\w+", readme + OUTFIT_TOML + YARDS_CSV))

    assert [] == sorted(set(COLUMNS) - told)


def test_the_two_commands_are_the_first(readme: str) -> None:
    """README opens with two commands, and the set-up script knows both."""
    first = commands(readme, "python3")[:2]

    assert [["python3", "tests/fresh.py", "demo"], ["python3", "tests/fresh.py", "test"]] == first
    assert (fresh.ROOT / fresh.DEMO).is_dir()


def test_every_linked_or_named_path_exists(readme: str, developers: str) -> None:
    """Links and file names in both documents lead somewhere."""
    links = re.findall(r"\]\(([^)#:]+)\)", readme + developers)
    named = re.findall(r"`((?:tests|scenarios|runplanner)/[\w./]+)`", readme + developers)

    assert [] == [path for path in links + named if not (fresh.ROOT / path).exists()]


SUFFIXES = ("py", "js", "md", "toml", "po", "yml", "json", "jsonl")
"""How names of files end."""

ELSEWHERE = ("maps_out", "RUNPLANNER_BENCH_CACHE")
"""What is written by commands, or set by whoever runs them."""


def spans(text: str) -> set[str]:
    """Every word of code in a text: what stands between backticks and holds no blank."""
    prose = re.sub(r"```.*?```", "", text, flags=re.DOTALL)
    return {span for span in re.findall(r"`([^`\n]+)`", prose) if " " not in span}


def test_every_file_named_among_developers_exists(developers: str) -> None:
    """File names begin at any inner room; those in capitals stand for a name of a user's own."""
    tree = [
        f"/{path.relative_to(fresh.ROOT).as_posix()}"
        for room in ("runplanner", "tests", "scenarios", ".ci", ".github")
        for path in (fresh.ROOT / room).rglob("*")
    ] + [f"/{path.name}" for path in fresh.ROOT.iterdir()]
    code = "\n".join(
        path.read_text(encoding="utf-8") for path in (fresh.ROOT / "runplanner").rglob("*.py")
    )
    named = {
        span
        for span in spans(developers)
        if not span.startswith("maps_out/")
        and re.fullmatch(rf"[\w./*-]+\.({'|'.join(SUFFIXES)})|[\w./-]+/", span)
        and not re.search(r"[A-Z]{4}\.", span)
    }
    lacking = {
        span
        for span in named
        if not any(fnmatch(name, f"*/{span.rstrip('/')}") for name in tree) and span not in code
    }

    assert len(named) > 200
    assert set() == lacking


def _definitions() -> tuple[dict[str, set[str]], dict[str, set[str]]]:
    """What each class holds, and what each module defines, by their names."""
    classes: dict[str, set[str]] = {}
    modules: dict[str, set[str]] = {}
    for path in [*(fresh.ROOT / "runplanner").rglob("*.py"), *(fresh.ROOT / "tests").rglob("*.py")]:
        inside = modules.setdefault(path.stem, set())
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ClassDef):
                held = {
                    each.attr if isinstance(each, ast.Attribute) else each.id
                    for each in ast.walk(node)
                    if isinstance(each, ast.Attribute | ast.Name)
                }
                held |= {each.name for each in node.body if isinstance(each, ast.FunctionDef)}
                classes.setdefault(node.name, set()).update(held)
            if isinstance(node, ast.ClassDef | ast.FunctionDef):
                inside.add(node.name)
            elif isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store):
                inside.add(node.id)
    return classes, modules


def test_every_name_among_developers_is_defined(developers: str) -> None:
    """``Class.member``, ``module.function``, ``_function`` and ``CONSTANT`` are there."""
    classes, modules = _definitions()
    everywhere = set().union(*modules.values(), *classes.values())
    folders = {path.name for path in (fresh.ROOT / "runplanner").rglob("*") if path.is_dir()}
    lacking = set()
    for span in spans(developers):
        path = span.removesuffix("()").replace("/", ".").split(".")
        words = all(re.fullmatch(r"[A-Za-z]\w*|_\w+", part) for part in path)
        if path[-1] in SUFFIXES or path[0] in ELSEWHERE or not words:
            continue
        holder, name = (["", *path])[-2:]
        if holder in classes:
            found = name in classes[holder]
        elif holder in modules:
            found = name in modules[holder] or (holder in folders and name in modules)
        elif holder in folders:
            found = name in modules
        else:
            found = not re.fullmatch(r"_\w+|[A-Z][A-Z_]{4,}", name) or name in everywhere
        lacking |= set() if found else {span}

    assert set() == lacking


def headings(text: str) -> set[str]:
    """The headings of a document, as links within it name them."""
    titles = re.findall(r"^#+ (.+)$", re.sub(r"```.*?```", "", text, flags=re.DOTALL), re.MULTILINE)
    return {re.sub(r"[^\w -]", "", title.lower()).replace(" ", "-") for title in titles}


def test_every_link_to_a_heading_leads_to_one(readme: str, developers: str) -> None:
    """Links within both documents, and from one to the other, name headings that are there."""
    texts = {"README.md": readme, "DEVELOPERS.md": developers}
    links = [
        (target or name, heading)
        for name, text in texts.items()
        for target, heading in re.findall(r"\]\(([^)#:]*)#([^)]+)\)", text)
    ]

    assert [] == [link for link in links if link[1] not in headings(texts[link[0]])]


def test_every_room_is_in_the_floors(developers: str) -> None:
    """DEVELOPERS' table of floors names every room there is."""
    package = fresh.ROOT / "runplanner"
    rooms = [f"{path.parent.name}/" for path in package.glob("*/__init__.py")]
    single = [path.name for path in package.glob("*.py") if path.name != "__init__.py"]
    (table,) = re.findall(r"## The floors\n(.*?)\n## ", developers, re.DOTALL)

    assert [] == [room for room in rooms + single if f"`{room}`" not in table]


def test_every_public_name_has_words() -> None:
    """What the package offers exists and says what it is."""
    for name in runplanner.__all__:
        if not name.startswith("__"):
            assert (getattr(runplanner, name).__doc__ or "").strip(), name


@pytest.mark.slow
def test_the_python_example_runs(
    readme: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """README's example in Python does what it says, on the small demo."""
    (example,) = re.findall(r"```python\n(.*?)```", readme, re.DOTALL)
    monkeypatch.chdir(tmp_path)
    shutil.copytree(fresh.ROOT / "scenarios", tmp_path / "scenarios")

    said: dict[str, object] = {}
    exec(compile(example, "README.md", "exec"), said)  # noqa: S102 - our own README

    assert {"tables", "outcome"} <= set(said)
    assert list((tmp_path / "maps_out").glob("*/map.html"))


def rooms_named(developers: str, room: str) -> list[str]:
    """What the table of what lies inside a room names, in its first column."""
    table = developers.split(f"Inside `{room}/`", 1)[1].split("\n\n")[1]
    firsts = [line.split("|")[1] for line in table.splitlines()[2:]]
    return [name for first in firsts for name in re.findall(r"`([^`]+)`", first)]


def files_of(room: str) -> list[str]:
    """Files and rooms that lie in a room; rooms end in a stroke."""
    found = (fresh.ROOT / "runplanner" / room).iterdir()
    names = (f"{one.name}/" if one.is_dir() else one.name for one in found)
    return sorted(name for name in names if name not in {"__init__.py", "__pycache__/"})


@pytest.mark.parametrize("room", ["season", "scenario", "paperwork"])
def test_what_lies_in_a_room_is_in_its_table(developers: str, room: str) -> None:
    """Nothing is named that is gone; and only papers are left out, where one file is one paper."""
    named, there = rooms_named(developers, room), files_of(room)

    assert [] == [one for one in named if not any(fnmatch(name, one) for name in there)]
    left = [name for name in there if not any(fnmatch(name, one) for one in named)]
    package = fresh.ROOT / "runplanner"
    users = [package / "paperwork" / "write_all.py", *(package / "office").glob("*.py")]
    used = "\n".join(one.read_text(encoding="utf-8") for one in users)
    assert [] == [name for name in left if f"paperwork.{name.removesuffix('.py')} " not in used]


def test_the_oldest_releases_are_the_lower_ends_of_all_ranges() -> None:
    """One exact release for each package that the program uses, and none from the range's top."""
    text = (fresh.ROOT / "pyproject.toml").read_text(encoding="utf-8")
    project = tomllib.loads(text)["project"]
    names = [re.split(r"[>=]", one)[0] for one in project["dependencies"]]
    lines = oldest(text)

    assert names == [line.split("==")[0] for line in lines[: len(names)]]
    assert all(re.fullmatch(r"[\w-]+==[\d.]+", line) for line in lines)
    assert all(f"{name}>={release}" in text for name, release in (x.split("==") for x in lines))
