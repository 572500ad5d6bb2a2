"""The mark of facts that came to be known later than plan files were first written."""

from collections.abc import Mapping
from typing import Final

LATER: Final[Mapping[str, bool]] = {"may_lack": True}
"""Marks a fact that plan files written before it was known do without."""
