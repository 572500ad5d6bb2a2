"""What is said on the screen about a plan, line by line; the screen makes it safe to show."""

from collections.abc import Iterator, Sequence

from runplanner.audit.findings import Finding
from runplanner.daybook.plan import Bill, Plan, Relief, Tally, Undone
from runplanner.paperwork.escape import shown
from runplanner.paperwork.undone_list import but_words
from runplanner.season.plan_season import Progress

HEADS = (
    ("km", "kilometres"),
    ("days", "truck days"),
    ("crew", "crew hours"),
    ("overtime", "overtime"),
    ("spinning", "spinning"),
    ("mixing", "mixing"),
    ("blocks", "fondant"),
    ("syrup", "syrup"),
    ("strips", "strips"),
    ("late", "being late"),
    ("boards_long", "boards on too long"),
    ("spin_late", "spun late"),
)


def money(cents: int, currency: str) -> str:
    """Return ``cents`` as a sum with its currency."""
    return f"{cents / 100:,.2f} {currency}".rstrip()


def gap(cost_cents: int, bound_cents: int, fixed_cents: int = 0) -> str:
    """Return how far a cost may be above the best, of all cost above ``fixed_cents``."""
    steerable = cost_cents - fixed_cents
    if steerable <= 0:
        return "0.0 %"
    return f"{100 * max(0, cost_cents - bound_cents) / steerable:.1f} %"


def progress_line(news: Progress, currency: str) -> str:
    """Return one line of progress: round, cost, bound, gap and what is still undone."""
    parts = [f"round {news.round} of {news.rounds}", f"cost {money(news.cost_cents, currency)}"]
    if news.bound_cents is None:
        parts.append("no bound yet")
    else:
        parts.append(f"bound {money(news.bound_cents, currency)}")
        parts.append(f"gap {gap(news.cost_cents, news.bound_cents)}")
    parts.append(tally_words(news.undone))
    if news.note:
        parts.append(news.note)
    return "  ".join(parts)


def tally_words(tally: Tally) -> str:
    """Return the undone vector in words, every part that is not nought."""
    parts = [
        (tally.uncovered, f"{_count(tally.uncovered, 'colony-day')} without cover"),
        (tally.no_strips, f"{_colonies(tally.no_strips)} without strips"),
        (tally.unfed_g, f"{_kilograms(tally.unfed_g)} of stores not fed"),
        (tally.not_off, f"{_colonies(tally.not_off)} with honey still on"),
    ]
    left = [words for amount, words in parts if amount]
    return "undone: " + ", ".join(left) if left else "nothing undone"


def left_words(plan: Plan) -> str:
    """Return the undone vector of a plan, and what it leaves out where it is nothing."""
    return tally_words(plan.tally) + but_words(plan)


def _count(number: int, word: str) -> str:
    return f"{number:,} {word}{'' if number == 1 else 's'}"


def _colonies(number: int) -> str:
    return f"{number:,} {'colony' if number == 1 else 'colonies'}"


def _kilograms(grams: int) -> str:
    return f"{-(-grams // 1000):,} kg"


def all_done(tally: Tally) -> bool:
    """Say whether a plan with ``tally`` leaves no work."""
    return tally == Tally(0, 0, 0, 0)


def plan_words(plan: Plan) -> Iterator[str]:
    """Yield what a person wants to know of a plan first, one line each."""
    trips = sum(len(shift.trips) for shift in plan.shifts)
    title = shown(plan.outfit.title, 80)
    yield f"{title}: {_count(trips, 'trip')} on {_count(len(plan.shifts), 'truck day')}"
    yield from _cost_words(plan)
    yield left_words(plan)
    if not all_done(plan.tally):
        yield f"no plan can leave less than this: {tally_words(plan.bound.tally)}"
    yield from (_undone_words(plan, undone) for undone in plan.undone)
    yield from (_relief_words(plan, relief) for relief in plan.reliefs)


def _cost_words(plan: Plan) -> Iterator[str]:
    bill, bound, currency = plan.bill, plan.bound, plan.outfit.prices.currency
    cost = bill.total()
    yield f"cost {money(cost, currency)}: {_bill_words(bill, currency)}"
    if bound.cents <= 0:
        yield "bound: none was proven"
        return
    yield f"bound {money(bound.cents, currency)}, valid for {bound.kind}"
    yield (
        f"gap {gap(cost, bound.cents)} of all cost, "
        f"{gap(cost, bound.cents, bound.fixed_cents)} of what planning can steer"
    )


def _bill_words(bill: Bill, currency: str) -> str:
    heads = [(words, getattr(bill, head)) for head, words in HEADS]
    return ", ".join(f"{words} {money(cents, '')}" for words, cents in heads if cents) or currency


def _undone_words(plan: Plan, undone: Undone) -> str:
    name = shown(plan.outfit.yard(undone.yard).name, 60)
    stores = f" ({_kilograms(undone.stores_g)} of stores)" if undone.stores_g else ""
    what = f"{undone.job.value}, {_colonies(undone.colonies)}{stores}"
    return f"  left: {name}, {what}: {'; '.join(undone.why)}"


def _relief_words(plan: Plan, relief: Relief) -> str:
    if not relief.cured:
        return f"  tried: {relief.what}: no cure found"
    some = f"cures {relief.cured} of {relief.undone} jobs"
    share = "cures all" if relief.cured == relief.undone else some
    return f"  tried: {relief.what}: {share}{_price_words(plan, relief.extra_cents)}"


def _price_words(plan: Plan, extra_cents: int | None) -> str:
    if extra_cents is None:
        return ""
    more = "more" if extra_cents >= 0 else "less"
    return f", for {money(abs(extra_cents), plan.outfit.prices.currency)} {more}"


def finding_words(findings: Sequence[Finding]) -> Iterator[str]:
    """Yield what the audit found, one line for each broken rule."""
    yield f"audit: {_count(len(findings), 'broken rule')}"
    yield from (f"  - {finding.sentence()}" for finding in findings)
