"""Print the oldest release that each range in pyproject.toml allows, as pip constraints.

``python3 tests/oldest.py > oldest.txt`` and then, in an empty environment,
``pip install -c oldest.txt -e ".[dev,pdf,roads,cluster]"`` and ``pytest -m "not slow"``.
"""

import re
import sys
import tomllib
from pathlib import Path

USED = ("pdf", "roads", "cluster")
"""Extras whose packages the program itself uses."""


def oldest(pyproject: str) -> list[str]:
    """Return lines such as ``pint==0.24.4``: of each range of the program its lower end."""
    project = tomllib.loads(pyproject)["project"]
    extras = (project["optional-dependencies"][name] for name in USED)
    ranges = [one for each in (project["dependencies"], *extras) for one in each]
    return [re.sub(r"([\w-]+)>=([\w.]+).*", r"\1==\2", one) for one in ranges]


if __name__ == "__main__":
    text = (Path(__file__).parent.parent / "pyproject.toml").read_text(encoding="utf-8")
    sys.stdout.write("\n".join([*oldest(text), ""]))
