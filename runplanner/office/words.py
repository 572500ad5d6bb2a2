"""What is said on the screen about a plan, line by line; the screen makes it safe to show."""

from collections.abc import Iterator, Sequence

from runplanner.audit.findings import Finding
from runplanner.daybook.plan import ALL_DONE, Bill, Bound, Plan, Relief, Tally
from runplanner.paperwork.escape import shown, shown_name
from runplanner.paperwork.lists.cover_list import at_risk
from runplanner.paperwork.lists.undone_list import but_words, by_reason, relief_words, undone_words
from runplanner.paperwork.speech.say import listed, money, thousands
from runplanner.paperwork.speech.sums import HEADS, gap_words, lost_words
from runplanner.paperwork.speech.sums import tally_words as undone_tally
from runplanner.paperwork.speech.tongue import said, tr, trn
from runplanner.phrase import Phrase
from runplanner.season.watch import Progress
from runplanner.version import PROGRAM, __version__


def gap(cost_cents: int, bound_cents: int, fixed_cents: int = 0) -> str:
    """Return how far a cost may be above the best, of all cost above ``fixed_cents``."""
    bound = Bound(Phrase(""), bound_cents, fixed_cents, ALL_DONE)
    return gap_words(cost_cents, bound, steerable=True)


def progress_line(news: Progress, currency: str) -> str:
    """Return one line of progress: round, cost, bound, gap and what is still undone."""
    parts = [
        tr("round {done} of {all}", done=news.round, all=news.rounds),
        tr("cost {sum}", sum=money(news.cost_cents, currency)),
    ]
    if news.bound_cents is None:
        parts.append(tr("no bound yet"))
    else:
        parts.append(tr("bound {sum}", sum=money(news.bound_cents, currency)))
        parts.append(tr("gap {part}", part=gap(news.cost_cents, news.bound_cents)))
    parts.append(tally_words(news.undone))
    if news.note:
        parts.append(said(news.note))
    return "  ".join(parts)


def tally_words(tally: Tally) -> str:
    """Return the undone vector in words, every part that is not nought."""
    return (
        tr("nothing undone")
        if tally == ALL_DONE
        else tr("undone: {work}", work=undone_tally(tally))
    )


def left_words(plan: Plan) -> str:
    """Return the undone vector of a plan, and what it leaves out where it is nothing."""
    return tally_words(plan.tally) + but_words(plan)


def plan_words(plan: Plan) -> tuple[str, ...]:
    """Return what a person wants to know of a plan first, one line each, in the language spoken."""
    return tuple(_plan_words(plan))


def _plan_words(plan: Plan) -> Iterator[str]:
    trips = sum(len(shift.trips) for shift in plan.shifts)
    days = len(plan.shifts)
    yield tr(
        "{title}: {trips} on {days}",
        title=shown(plan.outfit.title, 80),
        trips=trn("{all} trip", "{all} trips", trips, all=thousands(trips)),
        days=trn("{all} truck day", "{all} truck days", days, all=thousands(days)),
    )
    yield from _cost_words(plan)
    yield left_words(plan)
    if plan.search.lost:
        yield tr("warning: {what}", what=lost_words(plan.search))
    yield from (tr("at risk: {line}", line=line) for line in at_risk(plan))
    if plan.tally != ALL_DONE:
        yield _least_left(plan)
    yield from _undone_words(plan)
    yield from (_relief_words(plan, relief) for relief in plan.reliefs)


def _least_left(plan: Plan) -> str:
    """Return how little a plan could leave; where nothing was found out, that."""
    least = plan.bound.tally
    if least == ALL_DONE:
        return tr("whether a plan could leave less was not found out")
    return tr("no plan can leave less than this: {work}", work=tally_words(least))


def _cost_words(plan: Plan) -> Iterator[str]:
    bill, bound, currency = plan.bill, plan.bound, plan.outfit.prices.currency
    cost = bill.total()
    heads, total = _bill_words(bill), money(cost, currency)
    yield (
        tr("cost {sum}: {heads}", sum=total, heads=heads) if heads else tr("cost {sum}", sum=total)
    )
    if bound.cents <= 0:
        yield tr("bound: none was proven")
        return
    yield tr("bound {sum}, valid for {which}", sum=money(bound.cents, currency), which=bound.kind)
    if not bound.fixed_cents:
        yield tr("gap {part} of all cost", part=gap(cost, bound.cents))
        return
    yield tr(
        "gap {part} of all cost, {steerable} of what planning can steer",
        part=gap(cost, bound.cents),
        steerable=gap(cost, bound.cents, bound.fixed_cents),
    )


def _bill_words(bill: Bill) -> str:
    heads = [(tr(words), getattr(bill, head)) for head, words in HEADS.items()]
    return ", ".join(f"{words} {money(cents, '')}" for words, cents in heads if cents)


def _undone_words(plan: Plan) -> Iterator[str]:
    """Yield what is left and why, jobs of one yard with the same reasons on one line."""
    for yard, jobs, reasons in by_reason(plan, priced=True):
        name = shown_name(plan.outfit.yard(yard).name, 60)
        work = "; ".join(undone_words(job) for job in jobs)
        why = "; ".join(said(one) for one in reasons)
        yield "  " + tr("left: {yard}, {work}: {why}", yard=name, work=work, why=why)


def _relief_words(plan: Plan, relief: Relief) -> str:
    return "  " + tr("tried: {relief}", relief=relief_words(plan, relief, priced=True))


def narrowed_words(trips: Sequence[str]) -> list[str]:
    """Return that drivers of some trips have nothing to spare, as their margins were refused."""
    if not trips:
        return []
    return [
        tr(
            "Of these trips the audit refused how late stops may be left, or how many boxes may be "
            "aboard, so their papers allow no more than is planned: {trips}. Please report this "
            "fault.",
            trips=listed(tuple(shown(one, 40) for one in trips)),
        )
    ]


def older_words(plan: Plan) -> list[str]:
    """Return that a plan is of another release than this audit, and the cure; else nothing.

    Plans of before releases were written into them say none.
    """
    made_by = dict(plan.search.versions).get(PROGRAM, "")
    if made_by == __version__:
        return []
    known = shown(made_by, 40) or tr("an older release that does not say its number")
    return [
        tr(
            "The plan was made by {release}; this audit is of {own} and knows rules that the plan "
            "may not have been made under. What it finds need be no slip of yours.",
            release=known,
            own=__version__,
        ),
        tr("Plan the scenario again; where trucks are out already, plan again from this plan."),
    ]


def finding_words(findings: Sequence[Finding]) -> Iterator[str]:
    """Yield what the audit found, one line for each broken rule."""
    rules = len(findings)
    yield trn("audit: {all} broken rule", "audit: {all} broken rules", rules, all=thousands(rules))
    yield from (f"  - {said(finding.sentence())}" for finding in findings)
