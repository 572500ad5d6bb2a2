"""One caution of a driver's paper."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning: one word to find it by, and a sentence."""

    head: str
    words: str
