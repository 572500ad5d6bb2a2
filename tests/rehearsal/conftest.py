"""What every test of a rehearsal keeps to."""

import pytest

from runplanner.rehearsal import play as room


class _Never(Exception):  # noqa: N818 - stands in for what a play would pass over
    """Nothing raises it."""


@pytest.fixture(autouse=True)
def _counts_are_entered(monkeypatch: pytest.MonkeyPatch) -> None:
    """A count that is refused ends the test; a user's rehearsal goes on, and tells of it."""
    monkeypatch.setattr(room, "Refusal", _Never)
