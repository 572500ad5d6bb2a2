"""What is to be done at a yard and how to get in, in a crew's words."""

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Call, Job
from runplanner.days import DAY_MIN
from runplanner.outfit.yards import Access, Health, Yard
from runplanner.paperwork.escape import shown
from runplanner.paperwork.events import done_before
from runplanner.paperwork.say import count, duration, kg_down, litres, stretch

LONGEST_NOTE = 170


def job_words(plan: Plan, call: Call, action: Action) -> str:
    """Return one job of one stop: which colonies, how much."""
    which = _which(plan, plan.outfit.yard(call.yard), call, action)
    match action.job:
        case Job.BOARDS:
            return f"Boards on {which}: {count(action.pieces, 'board')}"
        case Job.TAKE_OFF:
            return f"Take off {which}: {_taken(action)}"
        case Job.BLOCK:
            blocks = count(action.pieces, "block")
            return f"Block on {count(action.colonies, 'colony', 'colonies')}: {blocks}"
        case Job.FEED:
            return _feed(which, action)
        case Job.STRIPS:
            return f"Strips in {which}: {count(action.pieces, 'strip')}"


def _taken(action: Action) -> str:
    parts = [f"{count(action.boxes, 'box', 'boxes')} on"]
    if action.brood_boxes:
        parts.append(f"{action.brood_boxes} brood apart")
    if action.boards_off:
        parts.append(f"{count(action.boards_off, 'board')} back")
    return ", ".join(parts)


def _feed(which: str, action: Action) -> str:
    each = litres(action.ml // max(1, action.colonies))
    feeders = f", leave {count(action.feeders, 'feeder')}" if action.feeders else ""
    head = f"Syrup round {action.round}," if action.round > 1 else "Syrup,"
    return f"{head} {which}: {each} each, {litres(action.ml)} off{feeders}"


def _which(plan: Plan, yard: Yard, call: Call, action: Action) -> str:
    """Return which colonies, by their place in the row where a yard is split."""
    if action.colonies == yard.colonies:
        return f"all {count(yard.colonies, 'colony', 'colonies')}"
    first = done_before(plan, call, action) + 1
    return f"{action.colonies} of {yard.colonies} (nos {first}\u2013{first + action.colonies - 1})"


def access_words(access: Access) -> tuple[str, ...]:
    """Return what a driver must know to get in."""
    found = []
    if (access.opens_min, access.closes_min) != (0, DAY_MIN):
        found.append(f"Gate open {stretch(access.opens_min, access.closes_min)}.")
    if access.max_vehicle_g is not None:
        found.append(f"At most {kg_down(access.max_vehicle_g)} kg laden.")
    if access.max_width_mm is not None:
        found.append(f"At most {access.max_width_mm // 10} cm wide.")
    if not access.trailer:
        found.append("No trailer past the gate.")
    if access.four_wheel:
        found.append("Four-wheel drive.")
    note = shown(access.notes, LONGEST_NOTE)
    return (*found, note) if note else tuple(found)


def geo(plan: Plan, call: Call) -> tuple[str, str]:
    """Return a call's place in words and as a ``geo:`` address (RFC 5870)."""
    place = plan.outfit.places[call.place]
    spot = f"{place.lat:.5f},{place.lon:.5f}"
    return spot.replace(",", " "), f"geo:{spot}"


def health_words(plan: Plan, yard: Yard) -> str:
    """Return what a yard's state of health asks of the crew; empty for a sound one."""
    match yard.health:
        case Health.WATCH:
            return "Own doubt: stack these boxes apart; clean kit afterwards."
        case Health.SUSPECT:
            wash = duration(plan.outfit.pace.wash_min)
            return f"Suspect: nothing leaves this yard. Wash down {wash} before leaving."
        case Health.STANDSTILL:
            return "Standstill: nothing leaves this yard."
        case Health.SOUND:
            return ""


def blanks(call: Call) -> tuple[str, ...]:
    """Return what a crew counts at a stop."""
    jobs = {action.job for action in call.actions}
    wanted = (
        ("colonies", bool(jobs)),
        ("boxes", Job.TAKE_OFF in jobs),
        ("boards", Job.BOARDS in jobs),
        ("blocks", Job.BLOCK in jobs),
        ("litres", Job.FEED in jobs),
        ("strips", Job.STRIPS in jobs),
    )
    return tuple(word for word, needed in wanted if needed)
