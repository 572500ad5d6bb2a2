"""What is read out of frozen facts, or of a plan, is read once."""

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

KEPT = 4
"""Facts that a reading is remembered for: a plan, the one before, both as people are told them."""
Facts = TypeVar("Facts")
Read = TypeVar("Read")


def once(read: Callable[[Facts], Read]) -> Callable[[Facts], Read]:
    """Return ``read`` that remembers what it read of the last ``KEPT`` facts.

    They are known by being the very same, which costs no look into them, and are kept, so that
    no others can be taken for them.  For frozen facts, and readings that hang on these alone (on
    no language) and that nobody changes.
    """
    known: tuple[tuple[Facts, Read], ...] = ()

    @wraps(read)
    def told(facts: Facts) -> Read:
        nonlocal known
        for kept, was_read in known:
            if kept is facts:
                return was_read
        new = read(facts)
        known = ((facts, new), *known)[:KEPT]
        return new

    return told
