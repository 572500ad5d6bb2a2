"""A whole campaign's plan and what is said about it."""

from dataclasses import dataclass, field

from runplanner.daybook.trip import Job, Shift
from runplanner.outfit.later import LATER
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import Phrase, phrase

SCHEMA = "runplanner-plan/1"


@dataclass(frozen=True, slots=True)
class Spinning:
    """A stretch of spinning at the honey house: who, from when to when, how many boxes."""

    start_min: int
    end_min: int
    people: tuple[str, ...]
    boxes: int


@dataclass(frozen=True, slots=True)
class Mixing:
    """A stretch of mixing syrup at the feed store by one person."""

    start_min: int
    end_min: int
    person: str
    ml: int

    def mixed_ml(self, minute: int) -> int:
        """Return how much of it is mixed by a minute, evenly over the stretch."""
        done = min(max(minute, self.start_min), self.end_min) - self.start_min
        return self.ml * done // max(1, self.end_min - self.start_min)


@dataclass(frozen=True, slots=True)
class Undone:
    """Work the plan leaves, and the rules that pull against it.

    ``stores_g`` is the feed left out, as winter stores.  Where colonies that are off run out of
    cover the job is :attr:`Job.BLOCK`, with ``colony_days`` alone.  ``why`` are plain sentences
    without sums, as crews read them.  Where the work is left for its cost, ``cost_cents`` is
    what all that is left at the yard would cost and ``worth_cents`` its stated worth; else both
    are 0.  ``TOO_DEAR`` is among ``why`` only where it would cost more.
    """

    yard: str
    job: Job
    colonies: int
    stores_g: int
    why: tuple[Phrase, ...]
    cost_cents: int = field(default=0, metadata=LATER)
    worth_cents: int = field(default=0, metadata=LATER)
    colony_days: int = field(default=0, metadata=LATER)


TOO_DEAR = phrase("left on purpose: it takes more than it is stated to be worth")
"""The reason of work left because it costs more than it is worth."""


@dataclass(frozen=True, slots=True)
class Tally:
    """The undone vector, in the order it is compared.

    Colony-days without cover, colonies without strips in time, stores not fed (grams),
    colonies not taken off.  Work with a stated worth is money when left, and not counted here.
    """

    uncovered: int
    no_strips: int
    unfed_g: int
    not_off: int


ALL_DONE = Tally(0, 0, 0, 0)


@dataclass(frozen=True, slots=True)
class Relief:
    """One thing that was tried to get undone work done.

    ``cured`` of ``undone`` jobs fit with it; ``extra_cents`` is what the plan then costs
    more, or None where nothing was cured.  ``less`` is how much less is left where no job fits
    whole, so that what is gained in part is told too.
    """

    what: Phrase
    cured: int
    undone: int
    extra_cents: int | None
    less: Tally = field(default=ALL_DONE, metadata=LATER)


@dataclass(frozen=True, slots=True)
class Bill:
    """Cost by head, in cents.

    ``unsure`` is not spent but likely to be: visits that weather may spoil, by the chance of it.
    Nor is ``feed_early``: colonies fed early in the day, at the price of tempting robbers.
    ``left`` is what work was worth that is left because it costs more than that.
    """

    km: int
    days: int
    crew: int
    overtime: int
    spinning: int
    mixing: int
    blocks: int
    syrup: int
    strips: int
    late: int
    boards_long: int
    spin_late: int
    unsure: int = field(default=0, metadata=LATER)
    feed_early: int = field(default=0, metadata=LATER)
    left: int = field(default=0, metadata=LATER)

    def total(self) -> int:
        """Return the sum of all heads, in cents."""
        return (
            self.km + self.days + self.crew + self.overtime + self.spinning + self.mixing
            + self.blocks + self.syrup + self.strips + self.late + self.boards_long
            + self.spin_late + self.unsure + self.feed_early + self.left
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Bound:
    """What no plan with this undone vector can go below.

    Args:
        kind: In words, what the bound holds for.
        cents: The bound on all cost.
        fixed_cents: Cost that no plan can avoid (work on the colonies, materials); 0 where it
            is not known, as where work may be left.
        tally: No plan can leave less undone than this.
    """

    kind: Phrase
    cents: int
    fixed_cents: int
    tally: Tally


@dataclass(frozen=True, slots=True)
class Search:
    """How the plan was found: enough to find it again.

    ``searches`` side by side, with dice of their own, took ``rounds`` rounds each at most.
    ``lost`` more were begun and came to grief; without them the plan may be dearer, and the
    same facts, seed and rounds give another one.
    """

    seed: int
    rounds: int
    stopped: Phrase
    versions: tuple[tuple[str, str], ...]
    searches: int = field(default=1, metadata=LATER)
    lost: int = field(default=0, metadata=LATER)


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole plan, with the facts it was made from."""

    outfit: Outfit
    shifts: tuple[Shift, ...]
    spinning: tuple[Spinning, ...]
    mixing: tuple[Mixing, ...]
    undone: tuple[Undone, ...]
    reliefs: tuple[Relief, ...]
    tally: Tally
    bill: Bill
    bound: Bound
    search: Search
    now_min: int = 0

    def mixed_ml(self, minute: int) -> int:
        """Return the syrup mixed by a minute, evenly over each stretch."""
        return sum(one.mixed_ml(minute) for one in self.mixing)
