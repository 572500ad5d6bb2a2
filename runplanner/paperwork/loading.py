"""What goes on a truck before it leaves, in the order it goes on: first off, last on."""

from dataclasses import dataclass

from runplanner.daybook.trip import Call, Job, Shift, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Container
from runplanner.outfit.yards import Clearing
from runplanner.paperwork.decks import Bears, bears
from runplanner.paperwork.escape import shown, shown_name
from runplanner.paperwork.say import count, kg_down, listed, litres, vehicle_name
from runplanner.paperwork.substances import corrosive, kind_at, substance_at
from runplanner.paperwork.tongue import tr
from runplanner.paperwork.yard_words import ways_differ


@dataclass(frozen=True, slots=True)
class Fill:
    """One container as it leaves base."""

    container: Container
    ml: int

    def words(self) -> str:
        """Return the container and what to fill it with."""
        name = shown_name(self.container.name, 24) or shown(self.container.id, 24)
        if not self.ml:
            return tr("{container}: leave empty", container=name)
        return tr("{container}: fill {litres}", container=name, litres=litres(self.ml))


@dataclass(frozen=True, slots=True)
class Goods:
    """One thing to put on: ``where`` it belongs, ``what`` it is."""

    where: str
    what: str


def fills(outfit: Outfit, trip: Trip) -> tuple[Fill, ...]:
    """Return every container of the trip and its syrup, the largest filled first.

    Full containers do not surge, so only one is left part-filled.
    """
    kinds = {kind.id: kind for kind in outfit.containers}
    taken = [kinds[one.container] for one in trip.containers for _ in range(one.count)]
    left = trip.calls[0].after.ml
    found = []
    for kind in sorted(taken, key=lambda kind: (-kind.holds_ml, kind.id)):
        ml = min(left, kind.holds_ml)
        found.append(Fill(kind, ml))
        left -= ml
    return tuple(found)


def goods(outfit: Outfit, trip: Trip) -> tuple[Goods, ...]:
    """Return what to load, in order: headboard first, tail last, then tools and the cab."""
    aboard = trip.calls[0].after
    clear = count(aboard.places_max - aboard.places, "deck place", "deck places")
    keep = tr("keep {places} clear", places=clear)
    return (
        *_tanks(outfit, trip),
        *_by_stop(trip),
        Goods(tr("tail"), keep),
        *_tools(outfit, trip),
        *_cab(outfit, trip),
    )


def on_each(outfit: Outfit, shift: Shift, trip: Trip) -> tuple[Goods, ...]:
    """Return what goes on trailer and truck at most, the one to fill first before the other.

    Nothing where no trailer is pulled.  What rides where nobody planned: loads and axles are
    reckoned with as much on the trailer as it bears.
    """
    truck, trailer = bears(outfit, shift, trip)
    if trailer is None:
        return ()
    most = trip.calls[0].after.load_max_g
    first = tr(
        "fill first, at stops too: up to {mass} kg and {places}",
        mass=kg_down(min(trailer.load_g, most)), places=_places(trailer),
    )  # fmt: skip
    mass, places = kg_down(min(truck.load_g, most)), _places(truck)
    then = tr("then up to {mass} kg and {places}; weigh both", mass=mass, places=places)
    if most < truck.load_g + trailer.load_g:
        then = tr(
            "then up to {mass} kg and {places}, {most} kg with the trailer's; weigh both",
            mass=mass, places=places, most=kg_down(most),
        )  # fmt: skip
    return (
        Goods(vehicle_name(outfit, shift.trailer), first),
        Goods(vehicle_name(outfit, shift.truck), then),
    )


def _places(vehicle: Bears) -> str:
    return count(vehicle.places, "deck place", "deck places")


def _tanks(outfit: Outfit, trip: Trip) -> list[Goods]:
    words: dict[str, int] = {}
    for fill in fills(outfit, trip):
        words[fill.words()] = words.get(fill.words(), 0) + 1
    return [
        Goods(tr("headboard"), f"{number} \u00d7 {text}" if number > 1 else text)
        for text, number in words.items()
    ]


def _by_stop(trip: Trip) -> list[Goods]:
    """Return the loose goods for each stop, the last stop's first."""
    from_base = boards_from_base(trip)
    found = []
    for number, call in reversed(list(enumerate(trip.yards(), start=1))):
        what = _loose(call, from_base[number - 1])
        if what:
            found.append(Goods(tr("stop {number}", number=number), what))
    spare = trip.calls[0].after.boards - sum(from_base)
    return [Goods(tr("spare"), count(spare, "board", "boards")), *found] if spare > 0 else found


def _loose(call: Call, boards: int) -> str:
    blocks = sum(action.pieces for action in call.actions if action.job is Job.BLOCK)
    feeders = sum(action.feeders for action in call.actions)
    wet = sum(action.wet for action in call.actions if action.job is Job.WET_UP)
    things = (
        (wet, tr("{boxes}, covered", boxes=count(wet, "wet box", "wet boxes"))),
        (boards, count(boards, "board", "boards")),
        (blocks, count(blocks, "block", "blocks")),
        (feeders, count(feeders, "feeder", "feeders")),
    )
    return listed(tuple(words for number, words in things if number))


def _tools(outfit: Outfit, trip: Trip) -> list[Goods]:
    """Return once what clears the boxes on the trip, where not every yard is cleared alike.

    Clearer boards are counted with the goods; how many warm boards a yard takes nobody told.
    """
    ways = {
        action.way or outfit.yard(call.yard).clearing
        for call in trip.yards()
        for action in call.actions
        if action.job is Job.TAKE_OFF and ways_differ(outfit)
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
    outside = set()
    for number, call in enumerate(trip.yards(), start=1):
        for action in (one for one in call.actions if one.job is Job.STRIPS):
            words = tr("{strips} for stop {number}", strips=action.pieces, number=number)
            substance = substance_at(outfit, call.yard)
            packs.setdefault(substance, []).append(words)
            outside |= {substance} if corrosive(kind_at(outfit, call.yard)) else set()
    return [
        Goods(
            tr("deck, sealed, off the honey") if substance in outside else tr("cab, sealed"),
            tr("strips ({substance}): {packs}", substance=substance, packs=listed(tuple(mine))),
        )
        for substance, mine in packs.items()
    ]
