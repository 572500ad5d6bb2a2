"""What is aboard on each leg, and whether truck, deck, axles and gateways bear it."""

from collections.abc import Iterator

from runplanner.audit.book import Book, Rig, Stop
from runplanner.audit.cargo import Cargo
from runplanner.audit.deck import places, places_max
from runplanner.audit.findings import Breach, Breaches, called, field_word, figure, when
from runplanner.audit.whole import ceil_div
from runplanner.daybook.trip import Aboard, Against, Trip
from runplanner.outfit.trucks import Axles, Trailer
from runplanner.phrase import Phrase, phrase

_STOWED = frozenset({"places", "places_max"})


def aboard_figures(book: Book) -> Breaches:
    """What the plan says is aboard on leaving a call is what the jobs make it.

    So it is of calls that are over, but for deck places: whose boxes stood apart hangs on what
    has been heard of a yard since.  What a call is left with too few of, it is told there: later
    calls, where no more of it is taken, lack just as many.
    """
    for stop, was in _in_turn(book):
        said, right = stop.call.after, _aboard(book, stop)
        over = stop.trip.driven and not stop.ahead
        # Counts may have left too few boards.
        lacking = over or (stop.trip.driven and Against.LOAD in stop.call.against)
        for name in Aboard.__slots__:
            here, there = getattr(said, name), getattr(right, name)
            least = 0 if was is None else _least(was, name)
            told = over and name in _STOWED
            if (here != there and not told) or (here < least and not lacking):
                yield _leaving(
                    stop,
                    phrase("{here} {name}", here=here, name=field_word(name)),
                    figure(max(0, there)),
                )


def _least(was: Aboard, name: str) -> int:
    """Return what a call may be left with at least where the call before was left with ``was``."""
    known: int = getattr(was, name)
    return min(0, known)


def _in_turn(book: Book) -> Iterator[tuple[Stop, Aboard | None]]:
    """Yield every stop with what the call before it on its trip was left with."""
    for stops in book.trips():
        for before, stop in zip((None, *stops), stops, strict=False):
            yield stop, before.call.after if before is not None else None


def _aboard(book: Book, stop: Stop) -> Aboard:
    goods = stop.after
    return Aboard(
        boxes=goods.box_count(),
        brood_boxes=goods.brood_count(),
        ml=goods.ml,
        blocks=goods.blocks,
        boards=goods.boards,
        strips=goods.strips,
        feeders=goods.feeders,
        load_g=load_g(book, stop.trip, goods),
        load_max_g=load_max_g(book, stop.rig),
        places=places(book, stop, goods),
        places_max=places_max(book, stop),
        wet=goods.wet_count(),
    )


def _leaving(stop: Stop, said: Phrase, allowed: Phrase) -> Breach:
    told = phrase("{said} on leaving {leave}", said=said, leave=when(stop.call.leave_min))
    return stop.breach(told, allowed)


def load_g(book: Book, trip: Trip, cargo: Cargo) -> int:
    """Return the mass of goods and containers, the syrup rounded up to a gram."""
    outfit, kit = book.outfit, book.outfit.kit
    honey = sum(count * book.yards[yard].box_g for yard, count in cargo.boxes.items())
    combs = (*cargo.brood.items(), *cargo.wet.items())
    brood = sum(count * comb_box_g(book, yard) for yard, count in combs)
    tanks = sum(
        carried.count * book.containers[carried.container].empty_g for carried in trip.containers
    )
    small = (
        cargo.blocks * kit.block_g
        # Boards that lack take no mass off.
        + max(0, cargo.boards) * kit.board_g
        + cargo.strips_g
        + cargo.feeders * kit.feeder_g
    )
    return honey + brood + tanks + small + ceil_div(cargo.ml * outfit.feed.density_g_per_l, 1000)


def borne_g(book: Book, trip: Trip, cargo: Cargo) -> int:
    """Return the mass that truck and trailer bear: what no call has used is aboard as well."""
    unused = max(0, trip.left_g - trip.calls[0].after.load_g)
    return load_g(book, trip, cargo) + unused


def comb_box_g(book: Book, yard: str) -> int:
    """Return the mass of a brood or wet box with its comb: twice the empty (common practice)."""
    return 2 * book.boxes[book.yards[yard].box].empty_g


def load_max_g(book: Book, rig: Rig) -> int:
    """Return the heaviest load: the truck's own, with the trailer's, within the train's.

    The trailer's nose rests on the truck.
    """
    own = rig.truck.max_g - bare_g(book, rig) - nose_g(rig)
    if rig.trailer is None:
        return own
    both = own + trailer_load_g(rig.trailer)
    if rig.truck.train_max_g is None:
        return both
    return min(both, rig.truck.train_max_g - bare_g(book, rig) - rig.trailer.empty_g)


def bare_g(book: Book, rig: Rig) -> int:
    """Return the truck's mass with fuel, kit and people, before any load."""
    truck = rig.truck
    return truck.empty_g + truck.fuel_g + truck.kit_g + rig.crew * book.outfit.person_g


def trailer_load_g(trailer: Trailer) -> int:
    """Return what a trailer bears by its own plate; what its nose takes off that is not counted."""
    return trailer.max_g - trailer.empty_g


def nose_g(rig: Rig) -> int:
    """Return the most that the trailer's nose puts on the truck, by its measures; else 0.

    Strict reading: whatever it carries, a load spread evenly over its deck counts as full where
    that makes the nose heavier.  By lever about the trailer's axle.
    """
    nose = rig.trailer.nose if rig.trailer is not None else None
    if rig.trailer is None or nose is None:
        return 0
    middle_mm = 2 * nose.deck_starts_mm + rig.trailer.deck.length_mm
    lever = trailer_load_g(rig.trailer) * (2 * nose.drawbar_mm - middle_mm)
    return nose.empty_g + max(0, ceil_div(lever, 2 * nose.drawbar_mm))


def masses(book: Book) -> Breaches:
    """On no leg is the load heavier than truck and trailer may carry."""
    for stop in book.stops():
        yield from over_mass(book, stop, stop.after)


def over_mass(book: Book, stop: Stop, cargo: Cargo) -> Breaches:
    """Find out whether ``cargo`` is too heavy on the leg that leaves ``stop``."""
    load, most = borne_g(book, stop.trip, cargo), load_max_g(book, stop.rig)
    if load > most:
        yield _leaving(
            stop, phrase("a load of {load} g", load=load), phrase("at most {most} g", most=most)
        )


def decks(book: Book) -> Breaches:
    """On no leg are more deck places taken than there are."""
    for stop in book.stops():
        yield from over_deck(book, stop, stop.after)


def over_deck(book: Book, stop: Stop, cargo: Cargo) -> Breaches:
    """Find out whether ``cargo`` takes too many places on the leg that leaves ``stop``."""
    taken, most = places(book, stop, cargo), places_max(book, stop)
    if taken > most:
        yield _leaving(
            stop,
            phrase("{taken} deck places taken", taken=taken),
            phrase("at most {most}", most=most),
        )


def axle_loads(book: Book) -> Breaches:
    """On no leg is an axle over its limit or the steering axle too light."""
    for stop in book.stops():
        yield from over_axles(book, stop, stop.after)


def over_axles(book: Book, stop: Stop, cargo: Cargo) -> Breaches:
    """Find out whether ``cargo`` is wrong for an axle on the leg that leaves ``stop``.

    Behind a truck with a trailer that hangs on how both share it (``share.shares``).

    In thousandths and halves of a gram, so that nothing is rounded.
    """
    axles = stop.rig.truck.axles
    if axles is None or stop.rig.trailer is not None:
        return
    for axle, load, least, most in _axles(book, stop.rig, axles, borne_g(book, stop.trip, cargo)):
        if _wrong(load, least, most):
            allowed = (
                phrase("at most {most} g", most=most)
                if least is None
                else phrase("{least} .. {most} g", least=least, most=most)
            )
            yield _leaving(
                stop,
                phrase("{load} g on the {axle}", load=load // 2000, axle=axle),
                allowed,
            )


def axles_hold(book: Book, rig: Rig, load: int) -> bool:
    """Tell whether the truck's axles bear ``load`` on it, and its trailer's nose."""
    axles = rig.truck.axles
    if axles is None:
        return True
    rows = _axles(book, rig, axles, load)
    return not any(_wrong(mass, least, most) for _, mass, least, most in rows)


def _wrong(load: int, least: int | None, most: int) -> bool:
    return load > 2000 * most or (least is not None and load < 2000 * least)


def _axles(
    book: Book, rig: Rig, axles: Axles, load: int
) -> tuple[tuple[Phrase, int, int | None, int], ...]:
    """Return each axle's name, its mass in halves of a thousandth, and its limits.

    A nose rests on the rear axle alone: how far behind it the coupling is nobody typed.
    """
    extras = bare_g(book, rig) - rig.truck.empty_g
    on_rear = 2 * load * axles.load_on_rear_permille
    front = 2000 * axles.front_empty_g + 1000 * extras + 2000 * load - on_rear
    rear = 2000 * (axles.rear_empty_g + nose_g(rig)) + 1000 * extras + on_rear
    return (
        (phrase("front axle"), front, axles.front_min_g, axles.front_max_g),
        (phrase("rear axle"), rear, None, axles.rear_max_g),
    )


def access(book: Book) -> Breaches:
    """Truck and trailer may enter each yard and leave it as laden as they are.

    Strict reading: the width is that of the wider of truck and trailer.
    """
    for yard, stop in book.yard_stops():
        rig, way = stop.rig, yard.access
        for cargo in (stop.before, stop.after):
            yield from too_heavy(book, stop, cargo)
        width = max(rig.truck.width_mm, rig.trailer.width_mm if rig.trailer else 0)
        if way.max_width_mm is not None and width > way.max_width_mm:
            yield _leaving(
                stop,
                phrase("{width} mm wide", width=width),
                phrase("at most {most} mm", most=way.max_width_mm),
            )
        if way.four_wheel and not rig.truck.four_wheel:
            yield _leaving(
                stop,
                phrase("{truck} without four-wheel drive", truck=called(rig.truck)),
                phrase("with it"),
            )
        if rig.trailer is not None and not way.trailer:
            yield _leaving(
                stop,
                phrase("trailer {trailer}", trailer=called(rig.trailer)),
                phrase("no trailer in this yard"),
            )


def too_heavy(book: Book, stop: Stop, cargo: Cargo) -> Breaches:
    """Find out whether the whole train with ``cargo`` is too heavy for the yard's way in."""
    most = stop.yard.access.max_vehicle_g if stop.yard else None
    if most is None:
        return
    trailer = stop.rig.trailer.empty_g if stop.rig.trailer else 0
    mass = bare_g(book, stop.rig) + trailer + borne_g(book, stop.trip, cargo)
    if mass > most:
        yield _leaving(
            stop,
            phrase("{mass} g over the yard's way in", mass=mass),
            phrase("at most {most} g", most=most),
        )


def trailers(book: Book) -> Breaches:
    """A trailer is pulled only by a truck that may pull one."""
    for run in book.runs:
        if run.rig.trailer is not None and run.rig.truck.train_max_g is None:
            said = phrase(
                "{truck} pulls {trailer}",
                truck=called(run.rig.truck),
                trailer=called(run.rig.trailer),
            )
            yield Breach(said, phrase("no trailer behind this truck"), run.shift.trips[0].id)


def tanks(book: Book) -> Breaches:
    """The containers of a trip hold its syrup."""
    for stops in book.trips():
        trip = stops[0].trip
        room = sum(book.containers[c.container].holds_ml * c.count for c in trip.containers)
        if stops[0].after.ml > room:
            yield stops[0].breach(
                phrase("{ml} ml to carry", ml=stops[0].after.ml),
                phrase("at most {most} ml", most=room),
            )


def tanks_owned(book: Book) -> Breaches:
    """Containers in use at one time, from loading to the trip's last call, are owned."""
    for name, tank in book.containers.items():
        moves = []
        for stops in book.trips():
            count = _number_of(stops[0].trip, name)
            moves.append((stops[0].call.start_min, 1, count, stops[0].trip.id))
            moves.append((stops[-1].call.end_min, 0, -count, ""))
        out = 0
        for minute, _, count, trip in sorted(moves):
            out += count
            if count > 0 and out > tank.owned:
                said = phrase(
                    "{out} of {name} out {start}", out=out, name=called(tank), start=when(minute)
                )
                yield Breach(said, phrase("at most {most}", most=tank.owned), trip)


def _number_of(trip: Trip, name: str) -> int:
    return sum(carried.count for carried in trip.containers if carried.container == name)
