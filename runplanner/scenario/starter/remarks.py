"""What the comments of a file say, apart from the settings that stand in them."""

import re
import textwrap
from collections.abc import Callable, Iterator
from typing import Final

WIDTH: Final = 98
_SETTING = re.compile(r"#? ?(?:\[|[a-z_]+ = |(?:area|all),)")
_SAID_SETTING = re.compile(r" (?=\[|\w+ = )")
_BESIDE = re.compile(r"(?P<setting>.*?\S)(?P<gap> {2,}(?:# )?)(?P<remark>\S.*)")


def remarks(text: str) -> Iterator[str]:
    """Return every remark of ``text``: a paragraph of comment as one, or what a line ends in."""
    found: list[str] = []

    def keep(remark: str) -> str:
        found.append(remark)
        return remark

    said_in(text, keep)
    yield from found


def said_in(text: str, say: Callable[[str], str]) -> str:
    """Return ``text`` with each remark as ``say`` says it; settings and rows stay as they are."""
    lines: list[str] = []
    paragraph: list[str] = []
    for line in [*text.split("\n"), ""]:
        if line.startswith("# ") and not _SETTING.match(line):
            paragraph.append(line[2:])
            continue
        if paragraph:
            lines += _paragraph(paragraph, say)
            paragraph = []
        lines.append(_beside(line, say))
    return "\n".join(lines[:-1])


def _beside(line: str, say: Callable[[str], str]) -> str:
    """Return a line of settings with the remark at its end said."""
    found = _BESIDE.fullmatch(line)
    return f"{found['setting']}{found['gap']}{say(found['remark'])}" if found else line


def _paragraph(lines: list[str], say: Callable[[str], str]) -> list[str]:
    """Return the lines of a paragraph as said, wrapped anew unless nothing changed."""
    plain = " ".join(lines)
    said = say(plain)
    if said != plain:
        # A line of prose must not look like a setting: what might stays with the word before.
        tied = _SAID_SETTING.sub("\N{NO-BREAK SPACE}", said)
        wrapped = textwrap.wrap(tied, WIDTH - 2, break_on_hyphens=False, break_long_words=False)
        lines = [line.replace("\N{NO-BREAK SPACE}", " ") for line in wrapped]
    return [f"# {line}" for line in lines]
