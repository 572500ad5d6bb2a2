"""What goes on a truck before it leaves, in the order it goes on: first off, last on."""

from collections.abc import Iterable
from dataclasses import dataclass

from runplanner.daybook.trip import Action, Call, Job, Shift, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Container
from runplanner.outfit.yards import Clearing
from runplanner.paperwork.escape import shown, shown_name
from runplanner.paperwork.speech.say import count, kg_down, listed, litres, vehicle_name
from runplanner.paperwork.speech.substances import (
    called,
    corrosive,
    kind_at,
    names_substance,
    spare_words,
    strips_spare,
)
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.stop.decks import Bears, bears, carried, stowed
from runplanner.paperwork.stop.yard_words import clears, ways_differ

SMALLEST_TANK_ML = 100_000
"""Below this a container is a can, which people carry, and which does not surge enough to matter
(common practice, no source found)."""

_FILL = mark("{container}: fill {litres}")


@dataclass(frozen=True, slots=True)
class Fill:
    """One container as it leaves a call; ``behind`` on the trailer."""

    container: Container
    ml: int
    behind: bool = False

    @property
    def name(self) -> str:
        """What the container is called, fit for a page."""
        return shown_name(self.container.name, 24) or shown(self.container.id, 24)

    def words(self, *, done: bool = False) -> str:
        """Return the container and what to fill it with, or what it is filled with."""
        if not self.ml:
            empty = mark("{container}: empty") if done else mark("{container}: leave empty")
            return tr(empty, container=self.name)
        words = mark("{container}: filled with {litres}") if done else _FILL
        return tr(words, container=self.name, litres=litres(self.ml))


@dataclass(frozen=True, slots=True)
class Goods:
    """One thing to put on: ``where`` it belongs, ``what`` it is."""

    where: str
    what: str


def fills(outfit: Outfit, shift: Shift, trip: Trip, stop: int = 0) -> tuple[Fill, ...]:
    """Return every container of the trip and its syrup as it leaves stop ``stop`` (0: the load).

    Full containers do not surge, so the largest are filled first and one is emptied after the
    other: only one is part-filled, with a trailer one on each.
    """
    taken, way = carried(outfit, trip), stowed(outfit, shift, trip)
    behind = way.behind if way else (False,) * len(taken)
    left = {True: way.ml_behind[stop] if way else 0}
    left[False] = (trip.calls[0], *trip.yards())[stop].after.ml - left[True]
    found = []
    for kind, on_trailer in zip(taken, behind, strict=True):
        ml = min(left[on_trailer], kind.holds_ml)
        found.append(Fill(kind, ml, on_trailer))
        left[on_trailer] -= ml
    return tuple(found)


def goods(outfit: Outfit, shift: Shift, trip: Trip, *, loaded: bool = False) -> tuple[Goods, ...]:
    """Return what to load, in order: headboard first, tail last, then tools and the cab.

    ``loaded`` says that the truck has it aboard.
    """
    aboard = trip.calls[0].after
    clear = count(aboard.places_max - aboard.places, "deck place", "deck places")
    keep = tr("keep {places} clear", places=clear)
    return (
        *_tanks(outfit, shift, trip, loaded=loaded),
        *_by_stop(trip),
        Goods(tr("tail"), keep),
        *_tools(outfit, trip),
        *_cab(outfit, trip),
    )


def on_each(outfit: Outfit, shift: Shift, trip: Trip) -> tuple[Goods, ...]:
    """Return what goes on trailer and truck at most, the one to fill first before the other.

    Nothing where no trailer is pulled.  It is as the load was reckoned (``haulage.stow``).
    """
    truck, trailer = bears(outfit, shift, trip)
    way = stowed(outfit, shift, trip)
    if trailer is None or way is None:
        return ()
    most, order = trip.calls[0].after.load_max_g, way.order
    both = [
        (vehicle_name(outfit, shift.trailer), trailer),
        (vehicle_name(outfit, shift.truck), truck),
    ]
    (first, one), (other, rest) = both if order.loading else reversed(both)
    room = {"mass": kg_down(max(0, min(one.load_g, most))), "places": _places(one)}
    if order.loading == order.stops:
        at_first = tr("fill and use up first, at stops too: up to {mass} kg and {places}", **room)
    else:
        at_first = tr("fill first at base: up to {mass} kg and {places}", **room)
    mass, places = kg_down(max(0, min(rest.load_g, most))), _places(rest)
    swaps, train = order.loading != order.stops, most < truck.load_g + trailer.load_g
    words = {"mass": mass, "places": places, "most": kg_down(most)}
    if swaps and train:
        then = tr(
            "fill and use up first at stops: up to {mass} kg and {places}, {most} kg on both "
            "together; weigh both", **words,
        )  # fmt: skip
    elif swaps:
        then = tr(
            "fill and use up first at stops: up to {mass} kg and {places}; weigh both", **words
        )
    elif train:
        then = tr(
            "then up to {mass} kg and {places}, {most} kg on both together; weigh both", **words
        )
    else:
        then = tr("then up to {mass} kg and {places}; weigh both", **words)
    return Goods(first, at_first), Goods(other, then)


def _places(vehicle: Bears) -> str:
    return count(vehicle.places, "deck place", "deck places")


def _tanks(outfit: Outfit, shift: Shift, trip: Trip, *, loaded: bool) -> list[Goods]:
    """Return the containers: at the headboard, or where there is a trailer, on which vehicle."""
    words: dict[tuple[str, str], int] = {}
    for fill in fills(outfit, shift, trip):
        on = vehicle_name(outfit, shift.trailer if fill.behind else shift.truck)
        key = (on if shift.trailer else tr("headboard"), fill.words(done=loaded))
        words[key] = words.get(key, 0) + 1
    return [
        Goods(where, f"{number} \u00d7 {text}" if number > 1 else text)
        for (where, text), number in words.items()
    ]


def _by_stop(trip: Trip) -> list[Goods]:
    """Return the loose goods for each stop, the last stop's first."""
    from_base = boards_from_base(trip)
    found = []
    for number, call in reversed(list(enumerate(trip.yards(), start=1))):
        what = _loose(call, from_base[number - 1])
        if what:
            found.append(Goods(tr("stop {number}", number=number), what))
    spare = listed(_spare(trip))
    return [Goods(tr("spare"), spare), *found] if spare else found


def for_no_stop(outfit: Outfit, trip: Trip) -> str:
    """Return what is loaded for no stop, in words: syrup, loose goods and strips.

    Strips told by their substance say so in the load itself (``strips_words``), and not again.
    """
    poured = sum(action.ml for call in trip.calls for action in call.actions)
    ml = trip.calls[0].after.ml - poured
    strips = 0 if names_substance(outfit) else strips_spare(trip)
    return listed((
        *([litres(ml)] if ml > 0 else []),
        *_spare(trip),
        *([count(strips, "strip", "strips")] if strips else []),
    ))  # fmt: skip


def _spare(trip: Trip) -> tuple[str, ...]:
    """Return loose goods for no stop: boards, and on a trip under way what is left out."""
    aboard, boards = trip.calls[0].after, sum(boards_from_base(trip))
    actions = [action for call in trip.yards() for action in call.actions]
    wet, blocks, feeders = _loose_of(actions)
    return _things(
        aboard.wet - wet, aboard.boards - boards, aboard.blocks - blocks, aboard.feeders - feeders
    )


def _loose(call: Call, boards: int) -> str:
    wet, blocks, feeders = _loose_of(call.actions)
    return listed(_things(wet, boards, blocks, feeders))


def _loose_of(actions: Iterable[Action]) -> tuple[int, int, int]:
    """Return the wet boxes to put up, the blocks and the feeders of some jobs."""
    done = tuple(actions)
    return (
        sum(action.wet for action in done if action.job is Job.WET_UP),
        sum(action.pieces for action in done if action.job is Job.BLOCK),
        sum(action.feeders for action in done),
    )


def _things(wet: int, boards: int, blocks: int, feeders: int) -> tuple[str, ...]:
    things = (
        (wet, tr("{boxes}, covered", boxes=count(wet, "wet box", "wet boxes"))),
        (boards, count(boards, "board", "boards")),
        (blocks, count(blocks, "block", "blocks")),
        (feeders, count(feeders, "feeder", "feeders")),
    )
    return tuple(words for number, words in things if number > 0)


def _tools(outfit: Outfit, trip: Trip) -> list[Goods]:
    """Return once what clears the boxes on the trip, where not every yard is cleared alike.

    Clearer boards are counted with the goods; how many warm boards a yard takes nobody told.
    """
    ways = {
        action.way or outfit.yard(call.yard).clearing
        for call in trip.yards()
        for action in call.actions
        if clears(action) and ways_differ(outfit)
    }
    tools = (
        (Clearing.BLOWER, tr("the blower with fuel")),
        (Clearing.BRUSH, tr("a brush")),
        (Clearing.WARM_BOARD, tr("warm boards")),
    )
    what = listed(tuple(words for way, words in tools if way in ways))
    return [Goods(tr("tools"), what)] if what else []


def boards_from_base(trip: Trip) -> tuple[int, ...]:
    """Return how many boards loaded at base are for each stop.

    Boards from base go out first, those that came back aboard on the way after them.
    """
    base, found = trip.calls[0].after.boards, []
    for call in trip.yards():
        out = sum(action.pieces for action in call.actions if action.job is Job.BOARDS)
        found.append(min(base, out))
        base -= found[-1]
    return tuple(found)


def _cab(outfit: Outfit, trip: Trip) -> list[Goods]:
    packs: dict[str, list[str]] = {}
    for number, call in enumerate(trip.yards(), start=1):
        for action in (one for one in call.actions if one.job is Job.STRIPS):
            words = tr("{strips} for stop {number}", strips=action.pieces, number=number)
            packs.setdefault(kind_at(outfit, call.yard).substance, []).append(words)
    named = {
        substance: tr(
            "strips ({substance}): {packs}",
            substance=called(substance),
            packs=listed(tuple(mine)),
        )
        for substance, mine in packs.items()
    }
    lines = (*named.items(), *spare_words(outfit, trip).items())
    return [Goods(_sealed(outfit, substance), words) for substance, words in lines]


def _sealed(outfit: Outfit, substance: str) -> str:
    burns = corrosive(outfit, substance)
    return tr("deck, sealed, off the honey") if burns else tr("cab, sealed")
