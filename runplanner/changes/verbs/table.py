"""Every word that opens a line, with an example and what it does to a campaign.

A verb reads the rest of its line and returns the campaign as it then is.  What it does not
understand, or cannot do as things stand, it refuses (`Refusal`): one refusal a line.
"""

from collections.abc import Callable, Sequence
from typing import Final, NamedTuple

from runplanner.changes.draft import Draft
from runplanner.changes.said.line import Line
from runplanner.changes.verbs.away import out_or_back
from runplanner.changes.verbs.counted import boxes_left, dead, done
from runplanner.changes.verbs.health import told_health
from runplanner.changes.verbs.house import house_full, house_stopped, spin
from runplanner.changes.verbs.now import now
from runplanner.changes.verbs.on_the_road import home, left, order, skip
from runplanner.changes.verbs.places import move, new_yard
from runplanner.changes.verbs.stores import (
    blocks_left,
    boards_found,
    boards_left,
    boards_lost,
    feeders_left,
    feeders_lost,
    strips_left,
    sugar_left,
    syrup_left,
)
from runplanner.changes.verbs.weather import opened, shut, unsettled
from runplanner.outfit.yards import Health


class Verb(NamedTuple):
    """How a line begins, an example, and what it does; ``rank`` orders lines that lean on others.

    The example leaves open the opening ``{word}``, and names and a time that the line may tell;
    ``everywhere`` where "all" may stand for a yard.
    The time comes first, then who died, for a stop counted beside that found it so, then counts,
    then new yards, before anything else is told of those they are like, then everything else,
    losses too, then when trucks left stops, which all of that bears on, then what those under way
    are told, then what is left in store and in yards, or may be spun.
    """

    begins: tuple[str, ...]
    such_as: str
    does: Callable[[Line, Draft], Draft]
    rank: int = 4
    everywhere: bool = False


TOLD: Final = 6
"""The rank of what a truck under way is told to do."""
VERBS: Final[Sequence[Verb]] = (
    Verb(("now",), "{word} Fri 12:30", now, 0),
    Verb(("done",), "{word} {trip}{yard}: 20 colonies 37 boxes", done, 2),
    Verb(("shut",), "{word} {yard} Fri from 14:00", shut, everywhere=True),
    Verb(("open",), "{word} {yard} Sat 9:00-12:00", opened, everywhere=True),
    Verb(("unsettled", "storm"), "{word} {yard} Fri from 18:00", unsettled, everywhere=True),
    Verb(
        ("honey house stopped", "honey house broken", "honey house down"),
        "{word} until Mon",
        house_stopped,
    ),
    Verb(("honey house full",), "{word} Fri", house_full),
    Verb(
        ("dead", "queenless", "colonies lost", "colony lost", "hives lost", "hive lost"),
        "{word} 2 {yard}",
        dead,
        1,
    ),
    Verb(("suspect",), "{word} {yard}", told_health(Health.SUSPECT)),
    Verb(("standstill",), "{word} {yard}", told_health(Health.STANDSTILL)),
    Verb(("watch",), "{word} {yard}", told_health(Health.WATCH)),
    Verb(("sound",), "{word} {yard}", told_health(Health.SOUND)),
    Verb(("spin",), "{word} {yard}", spin, 7),
    Verb(
        ("boxes left", "box left", "supers left", "super left"), "{word} 12 {yard}", boxes_left, 7
    ),
    Verb(("move",), "{word} {yard} to -36.85 174.76 on Sat", move),
    Verb(("new yard",), "{word} Mill Lane at -36.85 174.76: 24 colonies 40 boxes", new_yard, 3),
    Verb(("home", "call home"), "{word} {truck}", home, TOLD),
    Verb(("skip", "leave out"), "{word} {yard}", skip, TOLD),
    Verb(("next",), "{word} {truck}: {yard}", order, TOLD),
    Verb(("left", "leaves", "late"), "{word} {yard} {time}", left, 5),
    Verb(("blocks left", "block left", "fondant left"), "{word} 40", blocks_left, 7),
    Verb(("strips left", "strip left"), "{word} 200 {substance}", strips_left, 7),
    Verb(("boards left", "board left"), "{word} 40", boards_left, 7),
    Verb(("boards lost", "board lost"), "{word} 5", boards_lost),
    Verb(
        ("boards found", "boards bought", "board found", "board bought"), "{word} 5", boards_found
    ),
    Verb(("feeders left", "feeder left"), "{word} 30", feeders_left, 7),
    Verb(("feeders lost", "feeder lost"), "{word} 4", feeders_lost),
    Verb(("sugar left",), "{word} 500 kg", sugar_left, 7),
    Verb(("syrup left",), "{word} 600 L", syrup_left, 7),
    Verb((), "{helper} off Fri-Sat", out_or_back),
)


def verb_of(line: Line) -> Verb:
    """Read how a line begins that the program made, and return its verb."""
    return next(verb for verb in VERBS if line.take(*verb.begins))
