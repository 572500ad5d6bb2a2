"""What is to be done at a yard and how to get in, in a crew's words."""

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Call, CallKind, Job
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Access, Clearing, Yard
from runplanner.paperwork.escape import shown
from runplanner.paperwork.speech.say import count, kg_down, litres, stretch
from runplanner.paperwork.speech.substances import names_substance, strips_of, substance_at
from runplanner.paperwork.speech.tongue import mark, tr, trn
from runplanner.paperwork.stop.events import done_before, in_row
from runplanner.paperwork.stop.one_stop import further_block, parts_together

LONGEST_NOTE = 170
WAYS = {
    Clearing.BOARDS: mark("from the boards"),
    Clearing.BRUSH: mark("with a brush"),
    Clearing.BLOWER: mark("with the blower"),
    Clearing.WARM_BOARD: mark("with warm boards"),
}
"""How bees leave the boxes, to be said with ``tr``."""


def stop_words(plan: Plan, call: Call) -> tuple[str, ...]:
    """Return the jobs of one stop, each in words; of one without any, that there is none."""
    call = parts_together(plan, call)
    if call.kind is CallKind.YARD and not call.actions:
        return (nothing_words(plan, call),)
    return tuple(job_words(plan, call, action) for action in call.actions)


def nothing_words(plan: Plan, call: Call) -> str:
    """Return that nothing was done at a stop, or where it is still to come, is to be done."""
    to_come = call.start_min > plan.now_min and call.counted is None
    return tr("nothing to do") if to_come else tr("nothing done")


def job_words(plan: Plan, call: Call, action: Action) -> str:
    """Return one job of one stop: which colonies, how much."""
    yard = plan.outfit.yard(call.yard)
    which = _which(plan, call, action)
    match action.job:
        case Job.BOARDS:
            boards = count(action.pieces, "board", "boards")
            return tr("Boards on {which}: {boards}", which=which, boards=boards)
        case Job.TAKE_OFF:
            way = cleared_by(plan.outfit, yard, action)
            which = f"{which}, {way}" if way else which
            head = mark("Take off {which}: {boxes}")
            if not action.boxes:  # the colonies are looked through and shut down all the same
                head = mark("Condense {which}: {boxes}")
            return tr(head, which=which, boxes=_taken(action))
        case Job.BLOCK:
            return _block(call, action)
        case Job.FEED:
            return _feed(which, action)
        case Job.STRIPS:
            strips = count(action.pieces, "strip", "strips")
            if names_substance(plan.outfit):
                strips = strips_of(action.pieces, substance_at(plan.outfit, call.yard))
            return tr("Strips in {which}: {strips}", which=which, strips=strips)
        case Job.WET_UP | Job.WET_DOWN | Job.FEEDERS:
            return _kit(action)


def _block(call: Call, action: Action) -> str:
    colonies = count(action.colonies, "colony", "colonies")
    blocks = count(action.pieces, "block", "blocks")
    each = blocks_each(action)
    if each > 1:
        blocks = tr("{blocks}, {each} a colony", blocks=blocks, each=each)
    head = mark("Block on {colonies}: {blocks}")
    if further_block(call, action):
        head = mark("A further block on {colonies}: {blocks}")
        if each > 1:
            head = mark("Further blocks on {colonies}: {blocks}")
    return tr(head, colonies=colonies, blocks=blocks)


def blocks_each(action: Action) -> int:
    """Return how many blocks each colony gets."""
    return action.pieces // max(1, action.colonies)


def ways_differ(outfit: Outfit) -> bool:
    """Tell whether boxes are cleared in more than one way, so that a crew must be told."""
    ways = {way for yard in outfit.yards for way in (yard.clearing, yard.clearing_else)}
    return len(ways - {None}) > 1


def clears(action: Action) -> bool:
    """Tell whether a job takes off anything that bees must leave: boxes, or boards under them."""
    lifted = action.boxes or action.brood_boxes or action.boards_off
    return action.job is Job.TAKE_OFF and lifted > 0


def cleared_by(outfit: Outfit, yard: Yard, action: Action) -> str:
    """Return how a take-off clears the boxes, where the outfit has several ways; else nothing.

    Boards that come back say so by themselves, where the yard has no other way.
    """
    words = way_words(yard, action)
    if words or not clears(action) or action.boards_off or not ways_differ(outfit):
        return words
    return tr(WAYS[yard.clearing])


def way_words(yard: Yard, action: Action) -> str:
    """Return how a take-off clears the boxes, where the yard has two ways; else nothing."""
    if not clears(action) or (action.way is None and yard.clearing_else is None):
        return ""
    said = tr(WAYS[action.way or yard.clearing])
    if action.way is not None and yard.clearing is Clearing.BOARDS:
        return tr("{way}, no boards", way=said)
    return said


def _kit(action: Action) -> str:
    if action.job is Job.FEEDERS:
        feeders = count(action.feeders_off, "feeder", "feeders")
        return tr("Feeders off: {feeders}, empty; back to the store", feeders=feeders)
    boxes = count(action.wet, "wet box", "wet boxes")
    if action.job is Job.WET_UP:
        return tr(
            "Wet boxes up: {boxes} of this yard above the cover boards, bee-tight", boxes=boxes
        )
    return tr("Wet boxes down: {boxes}, back to the store, not to extraction", boxes=boxes)


def _taken(action: Action) -> str:
    on = tr("{boxes} on", boxes=count(action.boxes, "box", "boxes"))
    parts = [on if action.boxes else tr("no honey boxes")]
    if action.brood_boxes:
        parts.append(count(action.brood_boxes, "brood box", "brood boxes"))
    if action.boards_off:
        parts.append(boards_back(action))
    return ", ".join(parts)


def boards_back(action: Action) -> str:
    """Return the boards that a take-off brings back, and how many lie where colonies died."""
    boards = count(action.boards_off, "board", "boards")
    over = action.boards_off - action.colonies
    if over <= 0:
        return tr("{boards} back", boards=boards)
    return tr("{boards} back, {over} of them from dead colonies", boards=boards, over=over)


def _feed(which: str, action: Action) -> str:
    each = litres(action.ml // max(1, action.colonies))
    head = tr("Syrup round {number}", number=action.round) if action.round > 1 else tr("Syrup")
    poured = tr("{litres} each, {all} off", litres=each, all=litres(action.ml))
    words = f"{head}, {which}: {poured}"
    if not action.feeders:
        return words
    feeders = count(action.feeders, "feeder", "feeders")
    return tr("{syrup}, leave {feeders}", syrup=words, feeders=feeders)


def _which(plan: Plan, call: Call, action: Action) -> str:
    """Return which colonies, by their place in the row where a yard is split."""
    row, nos = in_row(plan, call, action), nos_words(plan, call, action)
    if not nos:
        return trn("its one colony", "all {number} colonies", row)
    return tr("{some} of {all} ({nos})", some=action.colonies, all=row, nos=nos)


def nos_words(plan: Plan, call: Call, action: Action) -> str:
    """Return which colonies by their place in the row; empty where the yard is not split."""
    if action.colonies == in_row(plan, call, action):
        return ""
    before = done_before(plan, call, action)
    if action.colonies == 1:
        return tr("no. {number}", number=before + 1)
    return tr("nos {first}\u2013{last}", first=before + 1, last=before + action.colonies)


def access_words(access: Access) -> tuple[str, ...]:
    """Return what a driver must know to get in."""
    found = []
    if (access.opens_min, access.closes_min) != (0, DAY_MIN):
        found.append(tr("Gate open {times}.", times=stretch(access.opens_min, access.closes_min)))
    if access.max_vehicle_g is not None:
        found.append(tr("At most {mass} kg laden.", mass=kg_down(access.max_vehicle_g)))
    if access.max_width_mm is not None:
        found.append(tr("At most {width} cm wide.", width=access.max_width_mm // 10))
    if not access.trailer:
        found.append(tr("No trailer past the gate."))
    if access.four_wheel:
        found.append(tr("Four-wheel drive."))
    note = shown(access.notes, LONGEST_NOTE)
    return (*found, _ended(note)) if note else tuple(found)


def _ended(note: str) -> str:
    """Return a note with a full stop where it ends in no mark, since more may stand behind."""
    return note if note.endswith((".", "!", "?", "\u2026", ")")) else f"{note}."


def geo(plan: Plan, call: Call) -> tuple[str, str]:
    """Return a call's place in words and as a ``geo:`` address (RFC 5870)."""
    return geo_at(plan.outfit, call.place)


def geo_at(outfit: Outfit, index: int) -> tuple[str, str]:
    """Return where a place of the travel table lies, likewise."""
    place = outfit.places[index]
    spot = f"{place.lat:.5f},{place.lon:.5f}"
    return spot.replace(",", " "), f"geo:{spot}"


def blanks(call: Call) -> tuple[str, ...]:
    """Return what a crew counts at a stop.

    Boards that go on and boards that come back are counted apart where a stop has both.
    """
    jobs = {action.job for action in call.actions}
    back = any(action.boards_off for action in call.actions)
    wanted = (
        (mark("colonies"), bool(jobs)),
        (mark("boxes"), Job.TAKE_OFF in jobs),
        (mark("wet boxes"), bool({Job.WET_UP, Job.WET_DOWN} & jobs)),
        (mark("brood"), any(action.brood_boxes for action in call.actions)),
        (mark("boards"), Job.BOARDS in jobs or back),
        (mark("boards back"), Job.BOARDS in jobs and back),
        (mark("blocks"), Job.BLOCK in jobs),
        (mark("litres"), Job.FEED in jobs),
        (mark("strips"), Job.STRIPS in jobs),
        (mark("feeders"), Job.FEEDERS in jobs),
    )
    return tuple(word for word, needed in wanted if needed)
