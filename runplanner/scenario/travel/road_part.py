"""Drives over real roads: from a road file, or asked of a matrix service."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from runplanner.outfit.bases import Travel
from runplanner.outfit.outfit import Season
from runplanner.outfit.people import Hours
from runplanner.outfit.trucks import Trailer, Truck
from runplanner.phrase import Number, Phrase, joined, phrase, some_of
from runplanner.roads.calibrate import Timed, fitted
from runplanner.roads.errors import RoadsError
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.travel.road_choice import RoadChoice, largest
from runplanner.scenario.travel.timed_file import TimedDrive, too_few

if TYPE_CHECKING:
    from runplanner.roads.beyond import Bar
    from runplanner.roads.matrix import Matrix
    from runplanner.roads.open import Roads
    from runplanner.roads.table import Stretch
    from runplanner.roads.vehicle import Vehicle

Point = tuple[float, float]
Vehicles = tuple[tuple[Truck, ...], tuple[Trailer, ...], Hours, Season]
FURTHEST_M: Final = 5_000
"""A place further from any road is not in the extract, or not where it was typed."""
MOST_ASIDE_M: Final = 100
"""So much further off than the nearest road, another may be the one a place is served from:
common practice."""
_OFF_ROAD_M_PER_H: Final = 10_000
"""Common practice: first gear over a paddock."""
_MOST_NAMED: Final = 6
_LEAST_SCALE, _MOST_SCALE = Fraction(3, 10), Fraction(3)
_NO_TRAVEL: Final = Travel((), (), Phrase(""))


@dataclass(frozen=True, slots=True)
class Ends:
    """The places drives start and end at.

    Args:
        points: Latitude and longitude of each.
        called: Its name.
        typed: Minutes of its last stretch, None where nothing was typed.
        owners: The row of its yard, or the entry of its move; None for a base.
        tables: The table in which it was typed: "yards", "moves", or that of a base.
        far_m: How far from a road is worth a warning.
        legged: Those for which a leg is typed in travel.csv.
    """

    points: tuple[Point, ...]
    called: tuple[str, ...]
    typed: tuple[int | None, ...]
    owners: tuple[Fields | None, ...]
    tables: tuple[str, ...]
    far_m: int
    legged: frozenset[int] = frozenset()

    def typed_min(self, drive: TimedDrive) -> int:
        """Return the minutes of a drive that are typed last stretches."""
        return (self.typed[drive.start] or 0) + (self.typed[drive.end] or 0)


def by_road(
    file: OutfitFile, choice: RoadChoice, vehicles: Vehicles, ends: Ends,
    timed: Sequence[TimedDrive],
) -> Travel:  # fmt: skip
    """Return the travel table by road, fitted to what was timed."""
    from runplanner.roads.matrix import cut_off
    from runplanner.roads.table import Stretch, rows

    truck = largest(*vehicles, choice.height_mm)
    try:
        found, off_m, source, bars = _asked(file, choice, truck, ends)
    except RoadsError as error:
        file.section("travel").fault(choice.key, error.allowed, error.cure, said=error.said)
        return _NO_TRAVEL
    for place, bar in bars.items():
        _say_cut_off(file, ends, place, _Cut(bar, off_m[place], truck))
    found = cut_off(found, bars)
    stretches = tuple(
        Stretch(0, 0) if place in bars else _stretch(file, ends, place, off)
        for place, off in enumerate(off_m)
    )
    scale = _scale(file, found, stretches, timed)
    if file.book:
        return _NO_TRAVEL
    _say_bounds(file, choice, truck, found)
    minutes, metres = rows(found, stretches, scale, choice.by_hour)
    return Travel(minutes, metres, with_timed(source) if timed else source)


def with_timed(source: Phrase) -> Phrase:
    """Return the source of drives that were put right by timed ones."""
    return phrase("{source}, fitted to timed drives", source=source)


def _asked(
    file: OutfitFile, choice: RoadChoice, truck: "Vehicle", ends: Ends
) -> "tuple[Matrix, tuple[int, ...], Phrase, dict[int, Bar]]":
    """Return times and lengths, how far each place lies off its road, the source, and bars.

    Bars stand between a place and its road.
    """
    if choice.path is None:
        from runplanner.roads.service import ask, service_name

        answer = ask(choice.address, ends.points, truck)
        told = phrase(
            "matrix service at {service_name}{by}",
            service_name=service_name(choice.address),
            by=_by(choice.credit),
        )
        return answer.matrix, answer.off_m, told, {}
    from runplanner.roads.matrix import matrix
    from runplanner.roads.open import open_roads

    roads = open_roads(choice.path, truck, choice.table(), ends.points)
    _say_unread(file, choice.path.name[:60], roads.network.told())
    _say_cut(file, ends, roads.cut)
    told = phrase(
        "roads of {name}{by}", name=choice.path.name[:60], by=_by(roads.credit or choice.credit)
    )
    on = roads.on
    return matrix(on.network, on.nodes), on.off_m, told, _bars(roads, ends, on.off_m)


def _bars(roads: "Roads", ends: Ends, off_m: Sequence[int]) -> "dict[int, Bar]":
    """Return what keeps the truck from the nearest road of each place that it must not miss.

    Home it comes from, a base may lie in a street with a sign, and where a last stretch is
    typed somebody knows the way.  A place may lie beside a road it is not served from, so a
    little further to the next one is no matter, and a road that is merely shut may be a
    neighbour's.
    """
    asked = [
        place for place, off in enumerate(off_m)
        if place and off > MOST_ASIDE_M and ends.typed[place] is None
    ]  # fmt: skip
    if not asked:
        return {}
    from runplanner.roads.beyond import Beyond

    beyond = Beyond(roads.whole, roads.reached)
    found = {place: beyond.bar(ends.points[place]) for place in asked}
    return {
        place: bar for place, bar in found.items()
        if bar and not (bar.own and ends.owners[place] is None)
        and off_m[place] > bar.off_m + (MOST_ASIDE_M if bar.limit else ends.far_m)
    }  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Cut:
    """A place cut off: by what, how far from a road that may be used, and for which truck."""

    bar: "Bar"
    off_m: int
    truck: "Vehicle"


def _say_cut_off(file: OutfitFile, ends: Ends, place: int, cut: _Cut) -> None:
    """Refuse a place whose road the truck cannot reach, unless its legs are typed."""
    called = ends.called[place][:60]
    if place in ends.legged:
        told = phrase("{called}, behind {sign}", called=called, sign=cut.bar.tag)
        why = phrase("only its legs of travel.csv are driven [D]")
        file.desk.assume("travel.cut_off", told, why)
        return
    owner = ends.owners[place]
    fields = owner or file.section("travel")
    said = phrase(
        "{called}: its road, {near_m} m off, lies behind {sign}; the nearest that the truck can"
        " reach is {off_m} m off",
        called=called, near_m=cut.bar.off_m, sign=cut.bar.tag, off_m=cut.off_m,
    )  # fmt: skip
    allowed = phrase(
        "a place that the largest truck and trailer can drive to ({size})", size=_size(cut.truck)
    )
    cure = phrase(
        "Check the place, and the sign in the road file. Where you get there all the same,"
        " type its last_stretch, or its legs in travel.csv."
    )
    fields.fault("lat" if owner else "roads", allowed, cure, said=said)


def _say_cut(file: OutfitFile, ends: Ends, places: Sequence[int]) -> None:
    """Say to which places a way may lead outside the part of the road file that was read."""
    from runplanner.roads.frame import MOST_KM

    for place in places:
        if place not in ends.legged:
            told = phrase(
                "{called}: within {km} km round your places its road does not come to home's;"
                " further out was not read. Where you know a way, type its legs in travel.csv.",
                called=ends.called[place][:60], km=MOST_KM,
            )  # fmt: skip
            file.desk.doubt(told)


def _say_unread(file: OutfitFile, name: str, limits: Sequence[str]) -> None:
    """Say which limits on roads nobody keeps to, as they cannot be read or judged.

    Likewise which roads do not say what they are.
    """
    from runplanner.roads.lines import NO_CLASS
    from runplanner.roads.vehicle import AXLE_LIMITS

    bare = [one for one in limits if one.startswith(NO_CLASS)]
    if bare:
        why = phrase("lines that say no class count as country roads, both ways [C]")
        file.desk.assume("travel.roads", some_of(bare, _MOST_NAMED), why)
    hinted = [one.removeprefix(NO_CLASS).strip() for one in bare]
    hinted = [one for one in hinted if "'" in one]
    limits = [one for one in limits if one not in bare]
    axles = [one for one in limits if one.startswith(AXLE_LIMITS)]
    strays = [one for one in limits if one.startswith("(")]
    others = [one for one in limits if one not in axles and one not in strays]
    told = (
        (others, phrase(
            "{file}: limits on roads that cannot be read, and are not kept to: {limits}",
            file=name, limits=some_of(others, _MOST_NAMED),
        )),
        (axles, phrase(
            "{file}: limits on axle loads are not looked at; some are below what the largest"
            " truck weighs in all: {limits}",
            file=name, limits=some_of(axles, _MOST_NAMED),
        )),
        (hinted, phrase(
            "{file}: lines without highway are driven as country roads, steps and footways too,"
            " though another property may be their class: {lines}. Call it highway.",
            file=name, lines=some_of(hinted, _MOST_NAMED),
        )),
        (strays, phrase(
            "{file}: points that may stand on one of several roads, and are heeded on none:"
            " {limits}. Make each a point of its road's line.",
            file=name, limits=some_of(strays, _MOST_NAMED),
        )),
    )  # fmt: skip
    for limits_said, words in told:
        if limits_said:
            file.desk.doubt(words)


def _by(credit: str) -> str:
    return f" ({credit})" if credit else ""


def _stretch(file: OutfitFile, ends: Ends, place: int, off_m: int) -> "Stretch":
    """Return the way from the road to a place, warned of or refused where it is long."""
    from runplanner.roads.table import Stretch

    owner, typed = ends.owners[place], ends.typed[place]
    if off_m > FURTHEST_M:
        fields = owner or file.section("travel")
        said = phrase(
            "{off_m} m from the nearest road ({called})",
            off_m=off_m,
            called=ends.called[place][:60],
        )
        allowed = phrase("a place within {most} m of a road a truck may use", most=FURTHEST_M)
        fields.fault(
            "lat" if owner else "roads", allowed, phrase("Is it in the road file?"), said=said
        )
    if typed is not None:
        return Stretch(typed, off_m)
    minutes = -(-off_m * 60 // _OFF_ROAD_M_PER_H)
    if off_m > ends.far_m:
        told = phrase(
            "{minutes} min at {called}, {off_m} m off the road",
            minutes=minutes,
            called=ends.called[place][:60],
            off_m=off_m,
        )
        why = phrase("straight across at 10 km/h [C]; type last_stretch, or check the place")
        file.desk.assume(f"{ends.tables[place]}.last_stretch", told, why)
    return Stretch(minutes, off_m)


def _scale(
    file: OutfitFile, found: "Matrix", stretches: "Sequence[Stretch]", timed: Sequence[TimedDrive]
) -> Fraction:
    """Return what all times are multiplied with, so that they fit the timed drives."""
    drives = []
    for one in timed:
        known = max(0, int(found.cs[one.start, one.end]))
        off_road = stretches[one.start].minutes + stretches[one.end].minutes
        drives.append(Timed(one.name, known, (one.minutes - off_road) * 6000))
    fit = fitted(drives, lambda drive: drive.minutes)
    if fit is None:
        if timed:
            too_few(file, drives)
        return Fraction(1)
    if not _LEAST_SCALE <= fit.ratio <= _MOST_SCALE:
        said = phrase("{ratio} times the time by road", ratio=Number(f"{float(fit.ratio):.2g}"))
        cure = phrase("Look for minutes and km swapped, or places mixed up, in that file.")
        file.section("travel").fault(
            "timed", phrase("drives of 0.3 to 3 times it"), cure, said=said
        )
    file.desk.assume("travel.scale", f"{float(fit.ratio):.3g}", joined(" ", fit.words(), "[D]"))
    return fit.ratio


def _say_bounds(file: OutfitFile, choice: RoadChoice, truck: "Vehicle", found: "Matrix") -> None:
    """Say which limits the roads were chosen for, and where no road leads."""
    if choice.tells_truck():
        _say_size(file, choice, truck)
    else:
        why = phrase(
            "it is asked for drives alone: heed low and weak bridges yourself, or use roads [D]"
        )
        file.desk.assume("travel.vehicle", phrase("the service's own, not your truck"), why)
    shut = int((found.cs < 0).sum())
    if shut:
        file.desk.assume(
            "travel.no_road",
            phrase("{number} drives", number=shut),
            phrase("no road was found for them [D]"),
        )


def _say_size(file: OutfitFile, choice: RoadChoice, truck: "Vehicle") -> None:
    """Say the size of the vehicle the roads were chosen for."""
    if choice.height_mm is None:
        why = phrase("type height in [travel]; until then low bridges are not looked at [C]")
        file.desk.assume("travel.height", phrase("no limit"), why)
    why = phrase("the largest truck and trailer, so that every one of them gets through [D]")
    file.desk.assume("travel.vehicle", _size(truck), why)


def _size(truck: "Vehicle") -> Phrase:
    return phrase(
        "{mass} t, {width} m wide",
        mass=Number(f"{truck.mass_g / 1e6:g}"),
        width=Number(f"{truck.width_mm / 1000:g}"),
    )
