"""Yards that nothing of an outfit can reach: by which limit, and by how much."""

from collections.abc import Iterator

from runplanner.haulage.hauler import Hauler, haulers
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.own_bases import base_name
from runplanner.outfit.yards import Yard
from runplanner.phrase import Number, Phrase, joined, phrase


def out_of_reach(outfit: Outfit, yard: Yard) -> Phrase | None:
    """Return why nothing gets to ``yard`` and back; None where something may.

    Where no truck can carry anything at all that is no yard's fault: None.
    """
    return _no_road(outfit, yard) or _kept_out(haulers(outfit), yard)


def _no_road(outfit: Outfit, yard: Yard) -> Phrase | None:
    """Return that no road leads there or back, straight or by way of any other place."""
    home, legs = outfit.home.place, outfit.travel.minutes
    here, base = {place for _, place in yard.sites}, base_name(outfit, home)
    if not _leads(home, here, legs):
        return phrase(
            "{yard} has no road from {base}, straight or by way of other places",
            yard=yard.name,
            base=base,
        )
    straight_back = any(legs[place][home] is not None for place in here)
    if not straight_back and not _leads(home, here, tuple(zip(*legs, strict=True))):
        return phrase(
            "{yard} has no road back to {base}, straight or by way of other places",
            yard=yard.name,
            base=base,
        )
    return None


def _leads(start: int, there: set[int], legs: tuple[tuple[int | None, ...], ...]) -> bool:
    """Tell whether legs lead from ``start`` to one of some places, one after the other."""
    found, todo = {start}, [start]
    while todo and not found & there:
        near = {place for place, minutes in enumerate(legs[todo.pop()]) if minutes is not None}
        todo += near - found
        found |= near
    return bool(found & there)


def _kept_out(ways: tuple[Hauler, ...], yard: Yard) -> Phrase | None:
    """Return the limits that keep every way of going out from ``yard``; None where one gets in."""
    if not ways or any(way.load_for(yard.access) >= 0 for way in ways):
        return None
    alone = list(_each_alone(ways, yard))
    if alone:
        return joined("; ", *alone)
    trucks: dict[str, Phrase] = {}
    for way in sorted(ways, key=lambda one: (one.trailer is not None, one.crew)):
        trucks.setdefault(way.truck.id, _barred_by(way, yard))
    return phrase(
        "{yard} lets in none of the trucks: {limits}",
        yard=yard.name,
        limits=joined("; ", *trucks.values()),
    )


def _each_alone(ways: tuple[Hauler, ...], yard: Yard) -> Iterator[Phrase]:
    """Yield each limit that by itself keeps all out, with the nearest of them."""
    access = yard.access
    narrow = min(ways, key=lambda way: way.width_mm)
    if access.max_width_mm is not None and narrow.width_mm > access.max_width_mm:
        yield phrase(
            "{yard} lets in {limit} m of width; the narrowest truck, {truck}, is {width} m, "
            "{over} m too wide",
            yard=yard.name,
            limit=_thousandth(access.max_width_mm),
            truck=narrow.truck.name,
            width=_thousandth(narrow.width_mm),
            over=_thousandth(narrow.width_mm - access.max_width_mm),
        )
    light = min(ways, key=lambda way: way.own_g)
    if access.max_vehicle_g is not None and light.own_g > access.max_vehicle_g:
        yield phrase(
            "{yard} lets in {limit} t; the lightest truck, {truck}, is {mass} t with fuel, kit "
            "and driver before it loads anything, {over} t too heavy",
            yard=yard.name,
            limit=_tonnes(access.max_vehicle_g),
            truck=light.truck.name,
            mass=_tonnes(light.own_g),
            over=_tonnes(light.own_g - access.max_vehicle_g),
        )
    if access.four_wheel and not any(way.truck.four_wheel for way in ways):
        yield phrase("{yard} lets in four-wheel drive only, and no truck has it", yard=yard.name)
    if not access.trailer and all(way.trailer for way in ways):
        yield phrase(
            "{yard} lets in no trailer, and no truck carries anything without one",
            yard=yard.name,
        )


def _barred_by(way: Hauler, yard: Yard) -> Phrase:
    """Return the first limit that keeps one way of going out from ``yard``."""
    access, truck = yard.access, way.truck.name
    if access.max_width_mm is not None and way.width_mm > access.max_width_mm:
        return phrase(
            "{truck} is {width} m wide where {limit} m may be",
            truck=truck,
            width=_thousandth(way.width_mm),
            limit=_thousandth(access.max_width_mm),
        )
    if access.max_vehicle_g is not None and way.own_g > access.max_vehicle_g:
        return phrase(
            "{truck} is {mass} t without load where {limit} t may be",
            truck=truck,
            mass=_tonnes(way.own_g),
            limit=_tonnes(access.max_vehicle_g),
        )
    if access.four_wheel and not way.truck.four_wheel:
        return phrase("{truck} lacks four-wheel drive", truck=truck)
    return phrase("{truck} carries nothing without its trailer", truck=truck)


def _thousandth(number: int) -> Number:
    return Number(f"{number / 1000:g}")


def _tonnes(grams: int) -> Number:
    """Return a mass in tonnes, to the kilogram above: limits are typed to the kilogram."""
    return _thousandth(-(-grams // 1000))
