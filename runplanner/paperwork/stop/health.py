"""What a yard's state of health asks of people, side by side in the words of each paper.

A yard at a standstill that may be worked under licence is planned as a watched one; people are
told that it is at a standstill, and under which licence.
"""

from enum import StrEnum

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Job
from runplanner.outfit.yards import Health, Yard
from runplanner.paperwork.escape import message_text, shown
from runplanner.paperwork.speech.say import duration
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.speech.trip_state import call_over

LONGEST_LICENCE = 120
"""As long as one may be that is typed."""


class State(StrEnum):
    """A yard's state of health as people are told it."""

    SOUND = "sound"
    WATCH = "watch"
    LICENSED = "licensed"
    SUSPECT = "suspect"
    STANDSTILL = "standstill"


NOTHING_LEAVES = frozenset({State.SUSPECT, State.STANDSTILL})
_STATES = {
    State.SOUND: mark("sound"),
    State.WATCH: mark("watch"),
    State.LICENSED: mark("standstill under licence"),
    State.SUSPECT: mark("suspect"),
    State.STANDSTILL: mark("standstill"),
}
_ON_MAP = {
    State.SOUND: "",
    State.WATCH: mark("Watch: last yard of its trip, boxes kept apart."),
    State.LICENSED: mark("{why}: last yard of its trip, boxes kept apart."),
    State.SUSPECT: mark(
        "Suspect: last yard of its trip, no take-off, nothing leaves the yard; "
        "wash down afterwards."
    ),
    State.STANDSTILL: mark(
        "Standstill: last yard of its trip, nothing leaves the yard; wash down afterwards."
    ),
}
_AS_REASON = {
    State.SOUND: mark("the yard is sound"),
    State.WATCH: mark("the yard is under watch"),
    State.LICENSED: mark("the yard is under standstill, licence {licence}"),
    State.SUSPECT: mark("the yard is under suspicion"),
    State.STANDSTILL: mark("the yard is under standstill"),
}
_AT_STOP = {
    State.SUSPECT: mark("Suspect: nothing leaves this yard. Wash down {wash} before leaving."),
    State.STANDSTILL: mark(
        "Standstill: nothing leaves this yard. Wash down {wash} before leaving."
    ),
}
_IN_SHORT = {
    State.SUSPECT: mark("suspect: nothing leaves, own tools, wash down {wash} at the end"),
    State.STANDSTILL: mark("standstill: nothing leaves, own tools, wash down {wash} at the end"),
}


def state_of(yard: Yard) -> State:
    """Return a yard's state of health as people are told it."""
    if yard.health is Health.WATCH and yard.licence:
        return State.LICENSED
    return State(yard.health.value)


def state_words(yard: Yard) -> str:
    """Return a yard's state of health in a word or three."""
    return tr(_STATES[state_of(yard)])


def health_words(plan: Plan, yard: Yard, call: Call | None = None) -> str:
    """Return what a yard's state of health asks of the crew; empty for a sound one.

    ``call`` is the stop; without one, no boxes are taken.
    """
    state = state_of(yard) if call is None else _state_at(plan, call)
    if state is State.SOUND:
        return ""
    if state in _AT_STOP:
        return tr(_AT_STOP[state], wash=duration(plan.outfit.pace.wash_min))
    why = why_watched(yard)
    if call is None or not _brings_boxes(call):
        return tr("{why}: clean kit afterwards.", why=why)
    return tr("{why}: stack these boxes apart; clean kit afterwards.", why=why)


def health_in_short(plan: Plan, call: Call) -> str:
    """Return the same of a stop for a text to send, in plain letters."""
    yard, state = plan.outfit.yard(call.yard), _state_at(plan, call)
    if state is State.SOUND:
        return ""
    if state in _IN_SHORT:
        return tr(_IN_SHORT[state], wash=duration(plan.outfit.pace.wash_min))
    why = tr("watch")
    if state is State.LICENSED:
        why = tr("standstill, licence {licence}", licence=message_text(yard.licence))
    if _brings_boxes(call):
        return tr("{why}: own tools, boxes apart, clean kit afterwards", why=why)
    return tr("{why}: own tools, clean kit afterwards", why=why)


def health_on_map(yard: Yard) -> str:
    """Return the same of a yard for whoever looks at the map."""
    state = state_of(yard)
    words = _ON_MAP[state]
    return tr(words, why=why_watched(yard)) if state is State.LICENSED else tr(words)


def health_at_fetching(plan: Plan, yard: Yard) -> tuple[str, ...]:
    """Return the same for whoever takes strips out, past the campaign too, no boxes among it."""
    state = state_of(yard)
    if state is State.SOUND:
        return ()
    clean = tr("{yards}: own tools, clean hands and kit afterwards.", yards=state_words(yard))
    if state is State.WATCH:
        return (clean,)
    head = health_words(plan, yard)
    if state is State.LICENSED:
        head = tr("{why}: see that it still holds.", why=why_watched(yard))
    return (head, tr("Ask the inspector before strips come out."), clean)


def health_as_reason(yard: Yard) -> str:
    """Return a yard's state of health as the reason why a visit is not what it was."""
    state = state_of(yard)
    words = _AS_REASON[state]
    return tr(words, licence=_licence(yard)) if state is State.LICENSED else tr(words)


def why_watched(yard: Yard) -> str:
    """Return why a yard is on watch: a doubt of one's own, or a standstill with its licence."""
    if not yard.licence:
        return tr("Own doubt")
    return tr("Standstill, moved under licence {licence}", licence=_licence(yard))


def _licence(yard: Yard) -> str:
    return shown(yard.licence, LONGEST_LICENCE)


def _state_at(plan: Plan, call: Call) -> State:
    """Return the state of health a stop has to mind; at a closed yard none once it is over.

    Nothing has left such a yard, while boxes of a yard on watch are kept apart on the way home.
    """
    state = state_of(plan.outfit.yard(call.yard))
    return State.SOUND if state in NOTHING_LEAVES and call_over(plan, call) else state


def _brings_boxes(call: Call) -> bool:
    """Tell whether boxes of any kind come aboard at a stop."""
    return any(
        action.boxes or action.brood_boxes or action.job is Job.WET_DOWN for action in call.actions
    )
