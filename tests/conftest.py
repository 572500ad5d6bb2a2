"""Fixtures that more than one room's tests use."""

import shutil
from pathlib import Path

import pytest
from hypothesis import settings

settings.register_profile("patient", deadline=None)  # a busy machine is no fault
settings.load_profile("patient")

ROOT = Path(__file__).parent.parent


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
