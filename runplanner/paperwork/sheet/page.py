"""Building pages: elements that escape what is put into them, and the frame of a paper."""

import re
from collections.abc import Iterable

from runplanner.paperwork.escape import html_text, words_html
from runplanner.paperwork.sheet.look import digest, style
from runplanner.paperwork.speech.tongue import spoken

_TAG = re.compile(r"<[^>]*>")
# A column is as wide as its longest word; one such word, and the sheet is wider than the page.
_ONE_LONG_WORD = re.compile(r"[^\s\-]{18}")
# A first cell stays on one line while it is a day with its hours, or the name of a trip.
_FIRST_MOST = 24


class Html(str):
    """Text that is HTML already; every other text is escaped on its way into an element."""

    __slots__ = ()


Part = str | Html


def _html(part: Part) -> str:
    return part if isinstance(part, Html) else words_html(part)


def put(*parts: Part) -> Html:
    """Return ``parts`` one after the other, plain text escaped."""
    return Html("".join(_html(part) for part in parts))


def el(tag: str, *parts: Part, **attributes: str) -> Html:
    """Return an element; ``cls`` stands for class, plain text in ``parts`` is escaped."""
    named = "".join(
        f' {"class" if name == "cls" else name}="{html_text(value)}"'
        for name, value in attributes.items()
        if value
    )
    return Html(f"<{tag}{named}>{put(*parts)}</{tag}>")


def link(words: str, href: str, cls: str = "") -> Html:
    """Return a link within the folder, or to a ``geo:`` or ``tel:`` address."""
    return el("a", words, href=href, cls=cls)


def table(heads: Iterable[str], lines: Iterable[Iterable[Part]], cls: str = "") -> Html:
    """Return a table whose head is repeated on each printed page.

    Each cell but the first carries its head, for phones show cells below one another.
    """
    named = tuple(heads)
    head = el("thead", el("tr", *(el("th", name, scope="col") for name in named)))
    body = (
        el("tr", *(_cell(*pair) for pair in zip(("", *named[1:]), line, strict=True)))
        for line in lines
    )
    return el("table", head, el("tbody", *body), cls=f"list {cls}".strip())


def _cell(head: str, cell: Part) -> Html:
    text = _TAG.sub("", cell)
    cls = "wide" if _ONE_LONG_WORD.search(text) or (not head and len(text) > _FIRST_MOST) else ""
    return el("td", cell, cls=cls, **{"data-head": head if cell else ""})


def bullets(lines: Iterable[Part], cls: str = "") -> Html:
    """Return a list, or nothing where there are no lines."""
    items = [el("li", line) for line in lines]
    return el("ul", *items, cls=cls) if items else Html("")


def page(title: str, *body: Part, cls: str = "") -> str:
    """Return a whole page that asks for nothing outside itself and can run nothing.

    The security policy allows this style sheet and nothing else.
    """
    css = style()
    sheet = f"style-src 'sha256-{digest(css)}'"
    policy = f"default-src 'none'; {sheet}; base-uri 'none'; form-action 'none'"
    return (
        f'<!DOCTYPE html>\n<html lang="{spoken()}">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="referrer" content="no-referrer">\n'
        f"{el('title', title)}\n<style>{css}</style>\n</head>\n"
        f"{el('body', *body, cls=cls)}\n</html>\n"
    )
