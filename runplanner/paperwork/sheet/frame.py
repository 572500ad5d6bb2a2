"""The frame of every paper but the manifest: a heavy head, then sections."""

from runplanner.daybook.plan import Plan
from runplanner.paperwork.escape import shown
from runplanner.paperwork.sheet.page import Html, Part, el, link, page
from runplanner.paperwork.speech.tongue import mark, tr

PLANNED = mark(
    "Planned figures; true weights, traffic, roads and weather are not known to this paper."
)


def office_page(plan: Plan, head: str, sub: str, *parts: Part, home: str = "index.html") -> str:
    """Return a page with ``head``, the outfit's title and ``parts``; links back to ``home``."""
    title = shown(plan.outfit.title, 60)
    # At the head, not at the foot: read first, and no sheet is printed for its sake alone.
    top = el(
        "header",
        el("h1", head),
        el("p", el("b", title), f" \u00b7 {sub}" if sub else ""),
        el("p", tr(PLANNED), cls="planned"),
        el("p", link(tr("all papers"), home), cls="back") if home else "",
    )
    return page(f"{head} \u00b7 {title}", top, *parts, cls="office")


def section(head: str, *parts: Part, cls: str = "") -> Html:
    """Return a section with its head; of the class ``kept`` it is not torn over two sheets."""
    return el("section", el("h2", head), *parts, cls=cls)


def box() -> Html:
    """Return an empty tick box."""
    return el("i", cls="tick")


def whole(words: str) -> Html:
    """Return words that stay on one line."""
    return el("span", words, cls="whole")


def kept(words: str, blanks: int) -> str:
    """Return words of which the first few stay on one line, such as a day before its hour.

    Args:
        words: Any words.
        blanks: How many blanks, from the first on, no line ends at.
    """
    return words.replace(" ", "\u00a0", blanks)


def blank() -> Html:
    """Return a line to write on."""
    return el("i", cls="line")


def long_blank() -> Html:
    """Return a line to write a name or a number on."""
    return el("i", cls="line long")
