"""What a stop may do at all: its entries, their order, and what a yard's health allows."""

from runplanner.audit.book import Book, Stop, to_come
from runplanner.audit.findings import Breach, Breaches, field_word, figure, listed, on_day, word
from runplanner.audit.need import closed, fed_without_take_off
from runplanner.audit.whole import ceil_div
from runplanner.daybook.trip import Action, CallKind, Job
from runplanner.days import DAY_MIN
from runplanner.outfit.yards import Health
from runplanner.phrase import phrase

ORDER = (
    Job.WET_DOWN, Job.BOARDS, Job.TAKE_OFF, Job.BLOCK, Job.FEED, Job.STRIPS, Job.FEEDERS,
    Job.WET_UP,
)  # fmt: skip

FIGURES = {
    Job.BOARDS: {"pieces"},
    Job.TAKE_OFF: {"boxes", "brood_boxes", "boards_off", "way"},
    Job.BLOCK: {"pieces"},
    Job.FEED: {"round", "ml", "feeders"},
    Job.STRIPS: {"pieces"},
    Job.WET_UP: {"wet"},
    Job.WET_DOWN: {"wet"},
    Job.FEEDERS: {"feeders_off"},
}
"""The figures each kind of entry may carry besides its colonies."""

ALL_FIGURES = (
    "round", "boxes", "brood_boxes", "ml", "pieces", "boards_off", "feeders", "wet", "feeders_off",
    "way",
)  # fmt: skip


def yard_places(book: Book) -> Breaches:
    """A visit goes to where the hives stand on that day."""
    for yard, stop in book.yard_stops():
        place = yard.place_on(stop.shift.day)
        if stop.call.place != place:
            yield stop.breach(
                phrase("a visit at place {place}", place=stop.call.place),
                phrase("place {place}", place=place),
            )


def load_places(book: Book) -> Breaches:
    """A trip loads at the feed store."""
    store = book.outfit.feed_store.place
    for stops in book.trips():
        if stops[0].call.place != store:
            yield stops[0].breach(
                phrase("loading at place {place}", place=stops[0].call.place),
                phrase("place {place}", place=store),
            )


def unload_places(book: Book) -> Breaches:
    """Honey goes to the honey house, brood boxes or what else is left to the feed store.

    Boards and feeders may go there behind honey, for other trucks.
    """
    store, house = book.outfit.feed_store.place, book.outfit.honey_house.base.place
    for stops in book.trips():
        last_yard = next(s for s in reversed(stops) if s.call.kind is CallKind.YARD)
        honey, other = last_yard.after.box_count(), last_yard.after.brood_count()
        other += last_yard.after.wet_count()
        right = [house] * bool(honey) + [store] * (bool(other) or not honey)
        right = list(dict.fromkeys(right))
        said = [stop.call.place for stop in stops if stop.call.kind is CallKind.UNLOAD]
        kit = any(a.boards_off or a.feeders_off for stop in stops for a in stop.call.actions)
        if said != right and not (kit and said == list(dict.fromkeys([*right, store]))):
            breach = stops[-1].breach(
                phrase("unloading at places {places}", places=str(said[:12])),
                phrase("places {places}", places=str(right)),
            )
            yield breach._replace(ahead=breach.ahead and not stops[-1].unloads_as_counted())


def entries(book: Book) -> Breaches:
    """Each entry has colonies and only the figures of its job, once in a stop."""
    for stop in book.stops():
        actions = stop.call.actions
        if (stop.yard is None) != (not actions):
            breach = stop.breach(
                phrase(
                    "{count} jobs at a {kind} call",
                    count=len(actions),
                    kind=word(stop.call.kind),
                ),
                phrase("jobs at yards only"),
            )
            # Called home, or by other counts, a truck may find nothing to do at a yard.
            yield breach._replace(ahead=breach.ahead and stop.yard is None)
        for action in actions:
            yield from _entry(stop, action)
        kinds = [(action.job, action.round) for action in actions]
        if len(set(kinds)) != len(kinds):
            yield stop.breach(
                phrase("one job entered twice"),
                phrase("each job once, feed once for each round"),
            )


def _entry(stop: Stop, action: Action) -> Breaches:
    if not action.colonies:
        yield stop.breach(
            phrase("{job} to no colony", job=word(action.job)), phrase("one colony or more")
        )
    for name in ALL_FIGURES:
        if name not in FIGURES[action.job] and getattr(action, name):
            yield stop.breach(
                phrase(
                    "{job} with {found} {name}",
                    job=word(action.job),
                    found=getattr(action, name),
                    name=field_word(name),
                ),
                figure(0),
            )
    if action.job is Job.FEED and not action.round:
        yield stop.breach(phrase("feed round 0"), phrase("1 or more"))


def job_order(book: Book) -> Breaches:
    """Inside a stop: wet boxes down, boards, take-off, block, feed, strips, wet boxes up.

    Strict reading: boards, which the rule does not place, go on first.
    """
    for stop in book.stops():
        ranks = [ORDER.index(action.job) for action in stop.call.actions]
        if ranks != sorted(ranks):
            said = phrase(
                "jobs in the order {jobs}", jobs=listed(a.job for a in stop.call.actions[:12])
            )
            yield stop.breach(said, listed(ORDER))


def health(book: Book) -> Breaches:
    """Nothing leaves a suspect or standstill yard; it is fed only where that is agreed.

    Strict reading: fondant blocks are never taken to such a yard.
    """
    for yard, stop in book.yard_stops():
        if not closed(yard):
            continue
        allowed = {Job.FEED, Job.STRIPS} if fed_without_take_off(yard) else set()
        for action in stop.call.actions:
            if action.job not in allowed:
                said = phrase(
                    "{job} at a yard that is {health}",
                    job=word(action.job),
                    health=word(yard.health),
                )
                breach = stop.breach(
                    said, listed(sorted(allowed)) if allowed else phrase("no work there")
                )
                # Fondant aboard already may be left where feeding is agreed.
                agreed = bool(allowed) and action.job is Job.BLOCK
                yield breach._replace(ahead=breach.ahead and not agreed)


def hives_stay(book: Book) -> Breaches:
    """Hives of a suspect or standstill yard are not to be carried off.

    What is over by now has happened: a move is in the night before its day.
    """
    for yard in (one for one in book.yards.values() if closed(one)):
        for day, _ in yard.sites[1:]:
            if day * DAY_MIN > max(0, book.plan.now_min):
                said = phrase(
                    "hives that are carried off before {day} from a yard that is {health}",
                    day=on_day(day), health=word(yard.health),
                )  # fmt: skip
                yield Breach(said, phrase("the place where they stand"), yard=yard.id)


def honey_gone(book: Book) -> Breaches:
    """Where a yard is said to be without honey, calls that are over have taken all of it off.

    Wet boxes that stand there count as honey, and so does what is left on the dead: the share of
    those struck off that were not taken off before.
    """
    for yard in (one for one in book.yards.values() if one.honey_off):
        over = [
            action
            for stop in book.visits[yard.id]
            if stop.trip.driven and (stop.call.turned_min or stop.call.end_min) <= book.plan.now_min
            for action in stop.call.actions
        ]
        off = sum(one.colonies for one in over if one.job is Job.TAKE_OFF)
        down = sum(one.wet for one in over if one.job is Job.WET_DOWN)
        bore = max(1, yard.colonies + yard.struck)
        left = yard.boxes - ceil_div(min(off, bore) * yard.boxes, bore)
        if off < yard.colonies or left or sum(one.wet for one in over) > 2 * down:
            yield Breach(
                phrase("honey said to be off"),
                phrase("all taken off by calls that are over, no wet boxes up"),
                yard=yard.id,
            )


def health_last(book: Book) -> Breaches:
    """A yard that is not sound is the last yard of its trip; a standstill is suspicion, too.

    Several calls on end may be made at it.  Once such a stop has begun, the stops at other yards
    still to come are at fault.
    """
    for stops in book.trips():
        yards = [stop for stop in stops if stop.yard is not None]
        for number, stop in enumerate(yards, 1):
            others = [one for one in yards[number:] if one.yard != stop.yard]
            if stop.yard is None or stop.yard.health is Health.SOUND or not others:
                continue
            health = word(stop.yard.health)
            yield stop.breach(
                phrase("a yard that is {health} before others", health=health), phrase("last")
            )
            if to_come(book.plan, stop.call.start_min):
                continue
            for one in others:
                if one.ahead:
                    said = phrase("after a yard that is {health}", health=health)
                    yield one.breach(said, phrase("no other yard after it"))
