"""A running campaign planned again: changes in, an audited plan and a change sheet out."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import astuple, dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from runplanner.daybook.differences import Differences, differences
from runplanner.daybook.plan import Plan
from runplanner.errors import PlanError
from runplanner.office.campaign import Effort, Outcome, see_sense
from runplanner.office.narrowed import audited
from runplanner.office.notebook import lines_html, plan_html
from runplanner.office.rooms import Rooms
from runplanner.office.words import left_words
from runplanner.paperwork.changed.change_page import change_page, visits_words
from runplanner.paperwork.changed.change_sheet import ChangeSheet, change_sheet
from runplanner.paperwork.escape import shown
from runplanner.paperwork.index_page import CHANGES_FILE
from runplanner.paperwork.speech.say import hundredths, moment, money
from runplanner.paperwork.speech.tongue import ENGLISH, said, speaking, spoken, tr, trn
from runplanner.phrase import Phrase
from runplanner.season.replan_season import CHOICES, Upset
from runplanner.season.watch import BROKEN_OFF, Listener

if TYPE_CHECKING:
    from runplanner.changes.forecast import Fresh
    from runplanner.changes.typed import Changed

CHOICE_NAMES = ("least", "balance", "cheapest")


@dataclass(frozen=True, slots=True)
class Replanned:
    """A plan made again.

    Args:
        before: The plan that was being driven, driven trips as they were counted.
        outcome: The plan from now on, and what the audit found in it.
        typed: The changes as they were typed.
        notes: What was taken from them.
        presumed: Trip and yard of driven stops that nobody has counted.
        by_hand: What lies in yards that no visit will fetch.
        printed: The plan that was given, from which papers were printed.
        sheets: The change sheets made so far, by language.
    """

    before: Plan
    outcome: Outcome
    typed: tuple[str, ...]
    notes: tuple[Phrase, ...]
    presumed: tuple[tuple[str, str], ...]
    by_hand: tuple[Phrase, ...] = ()
    printed: Plan | None = None
    sheets: dict[str, ChangeSheet] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    def differences(self) -> Differences:
        """Return what is not where it was."""
        return differences(self.before, self.outcome.plan)

    def sheet(self) -> ChangeSheet:
        """Return the change sheet in the language spoken; each is worked out once."""
        if spoken() not in self.sheets:
            self.sheets[spoken()] = change_sheet(
                self.before, self.outcome.plan, self.typed, self.notes, self.presumed,
                self.by_hand, printed=self.printed,
            )  # fmt: skip
        return self.sheets[spoken()]

    def _repr_html_(self) -> str:
        """Return what changed, and the plan, as a notebook shows them."""
        changed = lines_html([*change_words(self.sheet())])
        return f"{changed}\n{plan_html(self.outcome.plan, self.outcome.findings)}"


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to plan again; without a plan where none could be made.

    ``broken_off``: the user broke off while it was looked for, so that it may yet get better.
    """

    name: str
    replanned: Replanned | None
    why_not: str = ""
    broken_off: bool = False


def replan_campaign(  # noqa: PLR0913 - what was, what changed, and how hard to try
    plan: Plan,
    changes: Sequence[str] = (),
    *,
    file: Path | str | None = None,
    now: str = "",
    choice: str = "least",
    forecast: Path | str | None = None,
    ring: bool = False,
    effort: Effort | None = None,
    progress: Listener | None = None,
    rooms: Rooms | None = None,
) -> Replanned:
    """Plan the rest of a campaign again after ``changes``, one typed line each.

    Args:
        plan: The plan that is being driven.
        changes: Lines such as ``"shut Fernbank Fri from 14:00"``, or one text of such lines.
        file: A file with further lines.
        now: The time it is, such as ``"Fri 12:30"``.
        choice: ``least`` change, ``balance`` or ``cheapest``.
        forecast: A scenario folder whose forecasts and typed weather are read again.
        ring: Drivers whose next stops have come to be shut are rung and told what fits.
        effort: How hard to look.
        progress: Told whenever the best plan gets better.
        rooms: The rooms to call.

    Raises:
        ScenarioError: With every fault of every change, or all that makes no sense in the plan.
        PlanError: When no plan could be made.
    """
    from runplanner.changes.typed import change_lines, changed, typed_changes

    see_sense(plan)
    rooms, effort = rooms or Rooms(), effort or Effort()
    lines = [*typed_changes(changes, now), *(change_lines(Path(file)) if file else ())]
    fresh = None if forecast is None else read_again(Path(forecast))
    facts = changed(plan, lines, fresh, ring=ring)
    if choice == CHOICE_NAMES[0] and _nothing_new(plan, facts):
        same = replace(plan, outfit=facts.outfit)  # which may have been counted anew
        return Replanned(
            plan, Outcome(same, rooms.audit_again(same, plan)), facts.lines, facts.notes,
            facts.presumed, facts.by_hand, plan,
        )  # fmt: skip
    new = rooms.replan(
        facts.plan, facts.outfit, facts.now_min, upset=_upset(choice), seed=effort.seed,
        rounds=effort.rounds, seconds=effort.seconds, progress=progress,
    )  # fmt: skip
    outcome = Outcome(*audited(new, lambda one: rooms.audit_again(one, facts.plan)))
    return Replanned(
        facts.plan, outcome, facts.lines, facts.notes, facts.presumed, facts.by_hand, plan
    )


def read_again(folder: Path) -> "Fresh":
    """Return a scenario's facts as they are now, and what its forecasts are.

    Raises:
        ScenarioError: With every fault of the folder.
    """
    from runplanner.changes.forecast import Fresh
    from runplanner.office.facts import read_outfit
    from runplanner.scenario.forecast.part import Heard

    heard = Heard()
    outfit = read_outfit(folder, heard=heard)
    name = shown(folder.resolve().name, 60)
    return Fresh(name, outfit, tuple(heard.skies), tuple(heard.waiting), heard.typed)


def _nothing_new(plan: Plan, facts: "Changed") -> bool:
    """Tell whether neither facts nor the time are other than when the plan was made."""
    return (facts.plan, facts.outfit, facts.now_min) == (plan, plan.outfit, plan.now_min)


def now_words(
    plan: Plan, changes: Sequence[str], *, file: Path | str | None, now: str
) -> Iterator[str]:
    """Yield the time that is taken for now, where none of the changes says it.

    Raises:
        ScenarioError: When the file cannot be read.
    """
    from runplanner.changes.typed import change_lines, tells_now, typed_changes

    lines = [*typed_changes(changes), *(change_lines(Path(file)) if file else ())]
    if not now and not tells_now(plan, lines):
        when = moment(plan.outfit, plan.now_min)
        yield tr("now taken as {when}; say --now to change it", when=when)


def _upset(choice: str) -> Upset:
    """Return what a choice asks for.

    Raises:
        ValueError: When there is no such choice.
    """
    known = dict(zip(CHOICE_NAMES, CHOICES, strict=True))
    if choice not in known:
        raise ValueError(f"choice must be one of {', '.join(known)}, not {choice!r}")
    return known[choice]


def choices(  # noqa: PLR0913 - as for one of them
    plan: Plan,
    changes: Sequence[str] = (),
    *,
    file: Path | str | None = None,
    now: str = "",
    forecast: Path | str | None = None,
    ring: bool = False,
    effort: Effort | None = None,
    progress: Callable[[str], Listener] | None = None,
    rooms: Rooms | None = None,
) -> Iterator[Choice]:
    """Plan again in each of the three ways, for a person to choose from.

    ``progress`` gives the listener of each way by its name.  Ctrl-C ends them all: the way under
    way is given as far as it came, those after it are not looked for.

    Raises:
        KeyboardInterrupt: When the user breaks off before there is any plan to choose.
    """
    ended, some = False, False
    for name in CHOICE_NAMES:
        if ended:
            yield Choice(name, None, tr("not looked for, as you broke off"), broken_off=True)
            continue
        try:
            made = replan_campaign(
                plan, changes, file=file, now=now, choice=name, forecast=forecast, ring=ring,
                effort=effort, progress=progress and progress(name), rooms=rooms,
            )  # fmt: skip
        except PlanError as error:
            yield Choice(name, None, said(error.message))
        except KeyboardInterrupt:
            if not some:
                raise
            ended = True
            yield Choice(name, None, tr("not looked for, as you broke off"), broken_off=True)
        else:
            new = made.outcome.plan
            searched = new.search is not plan.search
            some, ended = True, searched and new.search.stopped == BROKEN_OFF
            yield Choice(name, made, broken_off=ended)


def choice_words(found: Sequence[Choice]) -> Iterator[str]:
    """Yield the choices as a table: visits moved or changed, cost, what is left undone."""
    heads = tr("choice"), tr("moved"), tr("other work"), tr("cost"), tr("more")
    yield "{:<12}{:>12}{:>14}{:>18}{:>14}  ".format(*heads) + tr("left undone")
    for one in found:
        if one.replanned is None:
            yield f"{one.name:<12}" + tr("no plan: {why}", why=one.why_not)
            continue
        plan, apart = one.replanned.outcome.plan, one.replanned.differences()
        currency = plan.outfit.prices.currency
        moved = tr("{some} of {all}", some=apart.visits_moved(), all=apart.promised)
        more, refused = signed(apart.extra_cents()), ""
        if findings := len(one.replanned.outcome.findings):
            refused = "; " + trn(
                "refused, {number} broken rule", "refused, {number} broken rules", findings
            )
        sum_words = money(plan.bill.total(), currency)
        yield (
            f"{one.name:<12}{moved:>12}{len(apart.reworked):>14}{sum_words:>18}{more:>14}  "
            f"{left_words(plan)}{refused}{tr('; broken off') if one.broken_off else ''}"
        )
    yield from _passed_by(found)


def _passed_by(found: Sequence[Choice]) -> Iterator[str]:
    """Say so where the search that may move anything came by no plan as cheap as another's."""
    plans = {
        one.name: one.replanned.outcome.plan
        for one in found
        if one.replanned and not one.replanned.outcome.findings
    }
    ranks = {name: (*astuple(plan.tally), plan.bill.total()) for name, plan in plans.items()}
    free = CHOICE_NAMES[-1]
    best = min(ranks, key=lambda name: ranks[name], default=free)
    if free in ranks and ranks[best] < ranks[free]:
        yield tr("{name} does best here: a search may pass by what another comes by.", name=best)


def signed(cents: int) -> str:
    """Return a difference of sums as ``+1,234.50`` or ``-0.20``."""
    return ("-" if cents < 0 else "+") + hundredths(abs(cents))


def change_words(sheet: ChangeSheet) -> Iterator[str]:
    """Yield the change sheet in few lines, for the screen."""
    yield from (tr("ring now: {line}", line=line) for line in sheet.ring)
    yield from (*sheet.honey_on, *sheet.held)
    yield from (tr("no visit fetches: {line}", line=line) for line in sheet.by_hand)
    yield from (tr("taken from the changes: {note}", note=note) for note in sheet.notes)
    if sheet.presumed:
        yield tr("presumed done, not counted: {stops}", stops="; ".join(sheet.presumed))
    yield from (tr("honey spoils: {line}", line=line) for line in sheet.spoils)
    yield from (tr("honey spun late: {line}", line=line) for line in sheet.spun_late)
    yield visits_words(sheet)
    if sheet.less_left:
        yield sheet.less_left
    yield from (
        f"  {shown(one.yard, 60)}, {one.what}: {one.was} -> {one.now} ({one.why})"
        for one in (*sheet.moves, *sheet.added, *sheet.reworked)
    )
    for turn in (*sheet.duties, *sheet.house):
        was, now = ("; ".join(words) or tr("nothing") for words in (turn.was, turn.now))
        yield f"  {turn.what}: {was} -> {now}"
    for head, trips in (
        (tr("print again"), sheet.reprint),
        (tr("new"), sheet.fresh),
        (tr("called off"), sheet.called_off),
        (tr("unchanged, keep the paper"), sheet.untouched),
    ):
        if trips:
            yield f"{head}: {', '.join(trips)}"
    yield from sheet.other_start
    yield tr("costs {sum} against the plan before", sum=signed(sheet.extra_cents))


def change_papers(made: Replanned, language: str = ENGLISH) -> Mapping[str, str]:
    """Return the papers that only a plan made again has, by file name."""
    with speaking(language):
        return {CHANGES_FILE: change_page(made.before, made.outcome.plan, made.sheet())}
