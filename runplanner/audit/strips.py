"""Which strips belong into which yard, read from the facts by the audit's own look-up."""

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Strips

_TWICE = frozenset({"thymol"})
"""Substances that are given twice where nothing else is typed (Austrian package text)."""


def kinds(outfit: Outfit) -> dict[str, Strips]:
    """Return every kind of strips by the id that yards name it by; the usual one by none."""
    return {"": outfit.strips, **{kind.id: kind for kind in outfit.strips_also}}


def kind_for(outfit: Outfit, yard_id: str) -> Strips:
    """Return the kind that belongs into a yard; both must exist (see ``sense``)."""
    named = next(yard.strips for yard in outfit.yards if yard.id == yard_id)
    return kinds(outfit)[named]


def unfed_days(kind: Strips) -> int:
    """Return the days without feed from when strips go in, a second application's among them.

    That follows when the first come out, on any day on which they may.
    """
    published = kind.substance.casefold() in _TWICE
    twice = published if kind.twice is None else kind.twice
    later = kind.out_before_days if twice and kind.no_feed_days else 0
    return later + kind.no_feed_days


def each_g(outfit: Outfit, yard_id: str) -> int:
    """Return the mass of one strip for a yard: the kind's own, or the kit's."""
    own = kind_for(outfit, yard_id).each_g
    return outfit.kit.strip_g if own is None else own


def each_cents(outfit: Outfit, yard_id: str) -> int:
    """Return the price of one strip for a yard: the kind's own, or the usual."""
    own = kind_for(outfit, yard_id).each_cents
    return outfit.prices.strip_cents if own is None else own
