"""The frame of every paper but the manifest: a heavy head, then sections."""

from runplanner.daybook.plan import Plan
from runplanner.paperwork.escape import shown
from runplanner.paperwork.page import Html, Part, el, link, page
from runplanner.paperwork.tongue import mark, tr

PLANNED = mark(
    "Planned figures; true weights, traffic, roads and weather are not known to this paper."
)


def office_page(plan: Plan, head: str, sub: str, *parts: Part, home: str = "index.html") -> str:
    """Return a page with ``head``, the outfit's title and ``parts``; links back to ``home``."""
    title = shown(plan.outfit.title, 60)
    top = el(
        "header",
        el("h1", head),
        el("p", el("b", title), f" \u00b7 {sub}" if sub else ""),
        el("p", link(tr("all papers"), home), cls="back") if home else "",
    )
    return page(f"{head} \u00b7 {title}", top, *parts, el("footer", tr(PLANNED)), cls="office")


def section(head: str, *parts: Part) -> Html:
    """Return a section with its head."""
    return el("section", el("h2", head), *parts)


def box() -> Html:
    """Return an empty tick box."""
    return el("i", cls="tick")


def whole(words: str) -> Html:
    """Return words that stay on one line."""
    return el("span", words, cls="whole")


def blank() -> Html:
    """Return a line to write on."""
    return el("i", cls="line")


def long_blank() -> Html:
    """Return a line to write a name or a number on."""
    return el("i", cls="line long")
