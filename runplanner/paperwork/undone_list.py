"""Work the plan leaves, why, and what would get it done: words shared by several papers."""

from runplanner.daybook.plan import Plan, Relief, Undone
from runplanner.daybook.trip import Job
from runplanner.paperwork.escape import shown
from runplanner.paperwork.page import Html, bullets, el, put
from runplanner.paperwork.say import count, kg_up, money, yard_named

LONGEST_WHY = 240


def undone_words(undone: Undone) -> str:
    """Return one piece of undone work: what, and how much."""
    colonies = count(undone.colonies, "colony", "colonies")
    stores = f", {kg_up(undone.stores_g)} kg of stores short" if undone.stores_g else ""
    return f"{job_name(undone.job)}, {colonies}{stores}"


def job_name(job: Job) -> str:
    """Return a job as people call it."""
    return {
        Job.BOARDS: "boards on",
        Job.TAKE_OFF: "take-off",
        Job.BLOCK: "block",
        Job.FEED: "syrup",
        Job.STRIPS: "strips",
    }[job]


def relief_words(plan: Plan, relief: Relief, *, priced: bool) -> str:
    """Return what was tried and what came of it; the price only where money may stand."""
    what = shown(relief.what, 120)
    if not relief.cured:
        return f"{what}: cures nothing that was found"
    cured = "all of it" if relief.cured >= relief.undone else f"{relief.cured} of {relief.undone}"
    more = relief.extra_cents
    price = f" for {money(more, plan.outfit.prices.currency)} more" if priced and more else ""
    return f"{what}: cures {cured}{price}"


def undone_part(plan: Plan, tally: str = "", *, priced: bool) -> Html:
    """Return the section on undone work, or nothing when all is done.

    ``tally`` is the undone vector in words, said first where it is given.
    """
    if not plan.undone and not tally:
        return Html("")
    return el(
        "section",
        el("h2", "Left undone by this plan"),
        el("p", "In all: ", el("b", tally), ".") if tally else "",
        bullets(_by_reason(plan), cls="marked"),
        el("h3", "What was tried to get it done") if plan.reliefs else "",
        bullets(
            [put(relief_words(plan, one, priced=priced)) for one in plan.reliefs], cls="marked"
        ),
    )


def _by_reason(plan: Plan) -> list[Html]:
    """Return undone work, jobs of one yard with the same reasons on one line."""
    grouped: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for one in plan.undone:
        grouped.setdefault((one.yard, one.why), []).append(undone_words(one))
    return [
        put(
            el("b", f"{yard_named(plan.outfit, yard)}: {'; '.join(jobs)}"),
            ". ",
            " ".join(_sentence(words) for words in why),
        )
        for (yard, why), jobs in grouped.items()
    ]


def _sentence(words: str) -> str:
    """Return words with a capital and a full stop, unless they end in a mark already."""
    line = shown(words, LONGEST_WHY)
    return line[:1].upper() + line[1:] + ("" if line.endswith((".", "!", "?", "\u2026")) else ".")
