"""A honey house that stops or is full, what it has spun by the counts, and what it may not."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from runplanner.changes.counts.boxes import still_there
from runplanner.changes.counts.driven import off_by
from runplanner.changes.draft import Draft
from runplanner.daybook.honey_line import Came, Turn, honey_arrival, honey_line
from runplanner.daybook.honey_on import honey_on
from runplanner.daybook.plan import Spinning
from runplanner.daybook.trip import Job
from runplanner.days import NEVER, Span, join, whole_day, without
from runplanner.outfit.yards import CLOSED, Yard
from runplanner.phrase import counted, phrase
from runplanner.scenario.faults import Refusal


def stopped(draft: Draft, spans: tuple[Span, ...]) -> Draft:
    """Return the draft with nothing spun in ``spans``; spinning under way breaks off.

    A whole day that has begun counts from now on: what has been spun by now stays spun.
    """
    whole = whole_day(draft.today)
    begun = [one for one in spans if one.start_min == whole.start_min < draft.now_min
             and whole.end_min <= one.end_min]  # fmt: skip
    spans = tuple(Span(draft.now_min, one.end_min) if one in begun else one for one in spans)
    if begun and any(whole.start_min <= s.start_min < draft.now_min for s in draft.plan.spinning):
        note = phrase(
            "honey house stopped: taken from now on, so that what was to be spun by now counts as "
            "spun; where it was not, type the hours as well, such as {line}",
            line="'honey house stopped today 9:00-12:00'",
        )
        draft = draft.noted(note)
    house = draft.outfit.honey_house
    house = replace(house, stopped=join((*house.stopped, *spans)))
    spinning = tuple(ran for one in draft.plan.spinning for ran in _ran(draft, one, spans))
    lost = _spun_by_now(draft, draft.plan.spinning) - _spun_by_now(draft, spinning)
    if lost and any(span.start_min < draft.now_min for span in spans):
        note = counted(
            "one box that was to be spun by now counts as not spun",
            "{number} boxes that were to be spun by now count as not spun",
            lost,
        )
        draft = draft.noted(note)
    plan = replace(draft.plan, spinning=spinning) if draft.now_min > 0 else draft.plan
    return replace(draft, plan=plan, outfit=replace(draft.outfit, honey_house=house))


def _ran(draft: Draft, one: Spinning, spans: tuple[Span, ...]) -> Iterator[Spinning]:
    """Yield the stretches of one that has begun in which the plant ran, each with its share.

    What it was to spin once a stop to come is over is planned anew.
    """
    if one.start_min > draft.now_min:
        yield one
        return
    for ran in without((Span(one.start_min, one.end_min),), spans):
        spun = one.boxes * (ran.end_min - ran.start_min) // (one.end_min - one.start_min)
        if spun and ran.start_min <= draft.now_min:
            yield replace(one, start_min=ran.start_min, end_min=ran.end_min, boxes=spun)


def _spun_by_now(draft: Draft, spinning: Iterable[Spinning]) -> int:
    """Return the boxes spun by now, each stretch spinning evenly."""
    to_come = (Span(draft.now_min, NEVER),)
    begun = (one for one in spinning if one.start_min <= draft.now_min)
    return sum(ran.boxes for one in begun for ran in _ran(draft, one, to_come))


def full(draft: Draft, spans: tuple[Span, ...]) -> Draft:
    """Return the draft with no deliveries to the honey house in ``spans``."""
    house = draft.outfit.honey_house
    house = replace(house, full=join((*house.full, *spans)))
    return replace(draft, outfit=replace(draft.outfit, honey_house=house))


def spun_at_most(draft: Draft) -> Draft:
    """Return the draft with no more spun so far than boxes have come in, by the counts.

    Boxes of a yard that has closed may count as spun for stretches that these cut short, so the
    line is reckoned again until no stretch is left for boxes that were not there.
    """
    kept = _cut_short(draft)
    while kept != draft.plan.spinning:
        draft = replace(draft, plan=replace(draft.plan, spinning=kept))
        kept = _cut_short(draft)
    return draft


def _cut_short(draft: Draft) -> tuple[Spinning, ...]:
    """Return all stretches, those begun without the boxes that were not there yet.

    What of them has not begun now is planned anew.
    """
    line = [turn for turn in _line(draft) if turn.from_min < NEVER]
    there = sorted(turn.from_min for turn in line for _ in range(turn.boxes))
    there[:0] = [0] * draft.outfit.honey_house.waiting_boxes
    kept, spun = list[Spinning](), 0
    for one in sorted(draft.plan.spinning, key=lambda each: each.start_min):
        if one.start_min > draft.now_min:
            kept.append(one)
            continue
        ran = [r for r in _ran_with(one, there[spun:]) if r.start_min <= draft.now_min]
        spun += sum(each.boxes for each in ran)
        kept += ran
    return tuple(kept)


def _ran_with(one: Spinning, there: Sequence[int]) -> Iterator[Spinning]:
    """Yield the parts of a stretch for which boxes were there, each box at its own minute.

    Args:
        one: The stretch, which spins evenly.
        there: Since when each box in line is there, the next to be spun first.
    """
    minutes, runs, at = one.end_min - one.start_min, list[tuple[int, int]](), 0
    for since in there:
        while at < one.boxes and one.start_min + at * minutes // one.boxes < since:
            at += 1
        if at == one.boxes:
            break
        if runs and runs[-1][1] == at:
            runs[-1] = (runs[-1][0], at + 1)
        else:
            runs.append((at, at + 1))
        at += 1
    for first, last in runs:
        start, end = (one.start_min - (-minutes * each // one.boxes) for each in (first, last))
        yield replace(one, start_min=start, end_min=end, boxes=last - first)


def treated(draft: Draft) -> Draft:
    """Return the draft with where strips went in beside honey, by what has been driven.

    It counts as told now, or when it was told first.  Boxes that were freed stay so, but where
    all that is known by now went in later.
    """
    driven = replace(draft.plan, outfit=draft.outfit, shifts=draft.driven())
    beside = honey_on(driven, Job.STRIPS)
    for yard in draft.outfit.yards:
        since = beside[yard.id].leave_min if yard.id in beside else None
        if since != yard.treated_min:
            draft = holding(draft, _treated(yard, since, draft.now_min))
    return draft


def _treated(yard: Yard, since: int | None, now_min: int) -> Yard:
    if since is None:
        return replace(yard, treated_min=None, treated_told_min=0, freed_min=None)
    freed_min = NEVER if yard.freed_min is None else yard.freed_min
    if yard.treated_min is not None and since <= freed_min:
        return replace(yard, treated_min=since)
    return replace(yard, treated_min=since, treated_told_min=now_min, freed_min=None)


def freed(draft: Draft, yard: Yard) -> Draft:
    """Return the draft with a yard's boxes that strips were beside to be spun from now on.

    Those to come as well.  They join the line at its end.

    Raises:
        Refusal: When the yard is closed, or none of its boxes is held for strips.
    """
    if yard.health in CLOSED:
        raise Refusal(
            phrase("a yard that is neither suspect nor at a standstill"),
            phrase(
                "Its honey is for the inspector to free. Once that is done, type {sound}, {watch} "
                "or {licensed}.",
                sound=f"'sound {yard.name}'", watch=f"'watch {yard.name}'",
                licensed=f"'standstill {yard.name}, licence ...'",
            ),
        )  # fmt: skip
    draft = treated(draft)
    yard = draft.outfit.yard(yard.id)
    free = draft.with_yard(replace(yard, freed_min=draft.now_min))
    boxes = 0
    if yard.held_for_strips:
        on = still_there(yard, off_by(draft, yard.id, Job.TAKE_OFF))
        boxes = on + _held(draft) - _held(free)
    if not boxes:
        raise Refusal(
            phrase("a yard with boxes held for strips beside honey"),
            phrase("None of its boxes is held: leave this line out."),
        )
    note = counted(
        "{name}: {number} box held for strips beside honey may be spun from now on, by your word. "
        "Label, vet and local law decide whether it is for people; if not, keep its honey for the "
        "bees. It stays on the medicine record as it was.",
        "{name}: {number} boxes held for strips beside honey may be spun from now on, by your "
        "word. Label, vet and local law decide whether they are for people; if not, keep their "
        "honey for the bees. They stay on the medicine record as they were.",
        boxes,
        name=yard.name,
    )
    return free.noted(note)


def holding(draft: Draft, yard: Yard) -> Draft:
    """Return the draft with a yard's facts, and spinning under way broken off for its honey.

    Only where by these more boxes are held that stand there, or are to come.  Those in the
    extractor are spun; whose turn it is then is planned anew.
    """
    closed = draft.with_yard(yard)
    broken = _broken_off(closed)
    return broken if _held(broken) > _held(draft) else closed


def _held(draft: Draft) -> int:
    return sum(turn.boxes for turn in _line(draft) if turn.from_min == NEVER)


def _broken_off(draft: Draft) -> Draft:
    kept: list[Spinning] = []
    for one in draft.plan.spinning:
        if one.start_min <= draft.now_min < one.end_min:
            done = (draft.now_min - one.start_min) * one.boxes
            kept += _first(one, -(-done // (one.end_min - one.start_min)))
        else:
            kept.append(one)
    return replace(draft, plan=replace(draft.plan, spinning=tuple(kept)))


def _first(one: Spinning, boxes: int) -> list[Spinning]:
    """Return the stretch of the first boxes of one, at its pace; none where these are none."""
    took = -(-(one.end_min - one.start_min) * boxes // one.boxes)
    return [replace(one, end_min=one.start_min + took, boxes=boxes)] if boxes else []


def _line(draft: Draft) -> Iterator[Turn]:
    """Yield the boxes of driven trips as they stand in line."""
    came = sorted(_came(draft), key=lambda one: one.at_min)
    spun = ((s.start_min, s.boxes) for s in draft.plan.spinning if s.start_min <= draft.now_min)
    return honey_line(came, spun, draft.outfit.honey_house.waiting_boxes)


def _came(draft: Draft) -> Iterator[Came]:
    for trip in draft.driven_trips():
        arrival = honey_arrival(draft.plan, trip)
        if arrival is not None:
            for call in trip.yards():
                yard = draft.outfit.yard(call.yard)
                held = yard.held_spans(draft.now_min, call.leave_min)
                yield Came(arrival.end_min, call.boxes(), held)
