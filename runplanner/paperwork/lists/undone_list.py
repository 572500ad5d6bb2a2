"""Work the plan leaves, why, and what would get it done: words shared by several papers."""

from runplanner.daybook.plan import ALL_DONE, Plan, Relief, Undone
from runplanner.daybook.trip import Job
from runplanner.paperwork.escape import shown
from runplanner.paperwork.sheet.page import Html, bullets, el, put
from runplanner.paperwork.speech.say import count, kg_up, money, sentence, yard_named
from runplanner.paperwork.speech.sums import tally_words
from runplanner.paperwork.speech.tongue import said, tr, trn


def but_words(plan: Plan) -> str:
    """Return what a tally of nothing leaves out, to be said behind "nothing"; else "".

    Work that a yard's state of health forbids is listed, but no plan is blamed for it.
    """
    if not plan.undone or plan.tally != ALL_DONE:
        return ""
    shut = all(plan.outfit.yard(one.yard).left_alone for one in plan.undone)
    return " " + (tr("but what health rules forbid") if shut else tr("but what is listed here"))


def work_words(undone: Undone) -> str:
    """Return one piece of undone work: the job and its colonies, or colony-days."""
    if undone.colony_days:
        days = count(undone.colony_days, "colony-day", "colony-days")
        return tr("{days} without cover", days=days)
    return f"{job_name(undone.job)}, {count(undone.colonies, 'colony', 'colonies')}"


def undone_words(undone: Undone) -> str:
    """Return one piece of undone work: what, how much, and what stores it leaves short."""
    words = work_words(undone)
    if not undone.stores_g:
        return words
    return tr("{work}, {mass} kg of stores short", work=words, mass=kg_up(undone.stores_g))


def job_name(job: Job) -> str:
    """Return a job as people call it."""
    return {
        Job.BOARDS: tr("boards on"),
        Job.TAKE_OFF: tr("take-off"),
        Job.BLOCK: trn("block", "blocks", 1),
        Job.FEED: tr("syrup"),
        Job.STRIPS: tr("strips"),
        Job.WET_UP: tr("wet boxes up"),
        Job.WET_DOWN: tr("wet boxes down"),
        Job.FEEDERS: tr("feeders off"),
    }[job]


def relief_words(plan: Plan, relief: Relief, *, priced: bool) -> str:
    """Return what was tried and what came of it; the price only where money may stand."""
    what = shown(said(relief.what), 120)
    if not relief.cured and relief.less == ALL_DONE:
        return tr("{relief}: cures nothing that was found", relief=what)
    if relief.cured:
        cured = tr("all of it")
        if relief.cured < relief.undone:
            cured = tr("{some} of {all}", some=relief.cured, all=relief.undone)
        words = tr("{relief}: cures {part}", relief=what, part=cured)
    else:
        words = tr(
            "{relief}: cures no job whole, but part of some ({work})",
            relief=what, work=tally_words(relief.less),
        )  # fmt: skip
    more = relief.extra_cents
    if not priced or not more:
        return words
    price = money(abs(more), plan.outfit.prices.currency)
    if more < 0:
        return tr("{relief} for {price} less", relief=words, price=price)
    return tr("{relief} for {price} more", relief=words, price=price)


def undone_part(plan: Plan, tally: str = "", *, priced: bool) -> Html:
    """Return the section on undone work, or nothing when all is done.

    ``tally`` is the undone vector in words, said first where it is given.  Sums stand only
    where it is ``priced``.
    """
    if not plan.undone and not tally:
        return Html("")
    return el(
        "section",
        el("h2", tr("Left undone by this plan")),
        el("p", tr("In all:"), " ", el("b", tally), ".") if tally else "",
        bullets(_by_reason(plan, priced=priced), cls="marked"),
        el("h3", tr("What was tried to get it done")) if plan.reliefs else "",
        bullets(
            [put(relief_words(plan, one, priced=priced)) for one in plan.reliefs], cls="marked"
        ),
    )


def _by_reason(plan: Plan, *, priced: bool) -> list[Html]:
    """Return undone work, jobs of one yard with the same reasons on one line."""
    return [
        put(
            el("b", f"{yard_named(plan.outfit, yard)}: {'; '.join(undone_words(j) for j in jobs)}"),
            ". ",
            " ".join(sentence(words) for words in why),
        )
        for yard, jobs, why in by_reason(plan, priced=priced)
    ]


def by_reason(plan: Plan, *, priced: bool) -> list[tuple[str, tuple[Undone, ...], tuple[str, ...]]]:
    """Return ``(yard, jobs, reasons)`` of undone work: what has the same reasons, once.

    Reasons are phrases, not yet said in any language, but for the last: what the work costs and
    is worth, where it is ``priced``.
    """
    grouped: dict[tuple[str, tuple[str, ...]], list[Undone]] = {}
    for one in plan.undone:
        dear = dear_words(plan, one) if priced else ""
        why = (*one.why, dear) if dear else one.why
        grouped.setdefault((one.yard, why), []).append(one)
    return [(yard, tuple(jobs), why) for (yard, why), jobs in grouped.items()]


def dear_words(plan: Plan, undone: Undone) -> str:
    """Return what work left for its cost would cost and is worth; "" for other work."""
    if not undone.cost_cents:
        return ""
    currency = plan.outfit.prices.currency
    return tr(
        "costs {cost}, worth {worth} (all that is left at this yard)",
        cost=money(undone.cost_cents, currency), worth=money(undone.worth_cents, currency),
    )  # fmt: skip
