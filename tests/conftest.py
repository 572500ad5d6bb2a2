"""Fixtures that more than one room's tests use."""

import importlib
import os
import pkgutil
import shutil
from collections.abc import Generator
from pathlib import Path

import coverage
import pytest
from hypothesis import settings

import runplanner
from runplanner.paperwork.speech.tongue import LANGUAGE

settings.register_profile("patient", deadline=None)  # a busy machine is no fault
settings.load_profile("patient")

ROOT = Path(__file__).parent.parent


def pytest_sessionstart() -> None:
    """Load every module of the program before the first draw.

    hypothesis now and then draws a constant that stands in a loaded module. With all of them
    loaded from the start, what is drawn does not depend on which tests ran before, or on which
    worker; a red test is red alone as well.

    What is said is English, whatever language the desk's environment asks for.
    """
    os.environ.pop(LANGUAGE, None)
    for module in pkgutil.walk_packages(runplanner.__path__, "runplanner."):
        if not module.name.endswith("__main__"):
            importlib.import_module(module.name)


@pytest.hookimpl(wrapper=True, trylast=True)
def pytest_runtest_call(item: pytest.Item) -> Generator[None, object, object]:
    """See to it that a test marked ``no_cover`` is not counted in a worker either.

    pytest-cov stops the counter it started last; in a worker of pytest-xdist others lie below,
    one of them its own, which would go on instead.
    """
    below: list[coverage.Coverage] = []
    if item.get_closest_marker("no_cover"):
        while (counter := coverage.Coverage.current()) is not None:
            counter.stop()
            below.append(counter)
    try:
        return (yield)
    finally:
        for counter in reversed(below):
            counter.start()


@pytest.fixture
def root() -> Path:
    """The checkout, for tests about its own files."""
    return ROOT


@pytest.fixture(scope="session")
def chromium() -> str:
    """The browser's path; skips, and says so, where there is none."""
    found = shutil.which("chromium") or shutil.which("chromium-browser")
    if found is None:
        pytest.skip("no chromium here: the page was NOT tried in a browser")
    return found
