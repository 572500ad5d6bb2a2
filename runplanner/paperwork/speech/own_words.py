"""Names that nobody typed: the program's own words for bases and containers."""

from dataclasses import replace
from typing import Final, Protocol, TypeVar

from runplanner.daybook.plan import Plan
from runplanner.outfit.own_bases import OWN_BASES
from runplanner.paperwork.speech.tongue import mark, tr


class _Named(Protocol):
    @property
    def name(self) -> str: ...


T = TypeVar("T", bound=_Named)
_OWN: Final = {*OWN_BASES, mark("IBC 1000 L"), mark("Drum 205 L"), mark("Can 25 L")}


def in_own_words(plan: Plan) -> Plan:
    """Return a plan for papers: names that the program gave are in the language spoken.

    A base or a kind of container that somebody named by just one of these words is said so
    too, as nothing tells it apart; a yard's name stays as typed, whatever it is.
    """
    outfit = plan.outfit
    bases = {base.place for base in (outfit.home, outfit.feed_store, outfit.honey_house.base)}
    places = tuple(
        _said(place) if number in bases else place for number, place in enumerate(outfit.places)
    )
    containers = tuple(_said(one) for one in outfit.containers)
    if (places, containers) == (outfit.places, outfit.containers):
        return plan
    return replace(plan, outfit=replace(outfit, places=places, containers=containers))


def _said(one: T) -> T:
    return replace(one, name=tr(one.name)) if one.name in _OWN else one  # type: ignore[type-var]
