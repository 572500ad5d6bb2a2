"""How papers are printed: the size of the sheet, and type large enough for a cab.

A paper is written in its plain dress, A4; ``dressed`` gives it another style sheet and
names that sheet's digest in the page's policy.
"""

from base64 import b64encode
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from importlib.resources import files

from runplanner.paperwork.speech.tongue import ENGLISH, languages

PAPERS = ("a4", "letter")
PLAIN_SHEET = "paper.css"
LETTER_SHEET = "letter.css"
LARGE_SHEET = "large.css"


@dataclass(frozen=True, slots=True)
class Look:
    """Sheet and type.

    Args:
        paper: ``a4`` or ``letter``.
        large: Large type; a long trip takes more sheets.
        language: Of the papers that have words in it; the others stay English.
    """

    paper: str = PAPERS[0]
    large: bool = False
    language: str = ENGLISH

    def __post_init__(self) -> None:
        """Refuse a sheet without a rule, and a language without words."""
        if self.paper not in PAPERS:
            raise ValueError(f"paper must be {' or '.join(PAPERS)}, not {self.paper!r}")
        if self.language not in languages():
            known = ", ".join(languages())
            raise ValueError(f"language must be one of {known}, not {self.language!r}")


PLAIN = Look()


@cache
def style(look: Look = PLAIN) -> str:
    """Return the one style sheet of all papers in this look."""
    folder = files("runplanner.paperwork").joinpath("assets")
    letter, large = look.paper == "letter", look.large
    names = (PLAIN_SHEET, *[LETTER_SHEET] * letter, *[LARGE_SHEET] * large)
    sheets = [folder.joinpath(name).read_text("utf-8") for name in names]
    return "\n".join(sheets).replace("size: A4", f"size: {_SIZES[look.paper]}")


_SIZES = {"a4": "A4", "letter": "letter"}


def digest(css: str) -> str:
    """Return a style sheet's digest as a page's policy names it."""
    return b64encode(sha256(css.encode()).digest()).decode()


def dressed(text: str, look: Look) -> str:
    """Return a paper in another look; any other text comes back as it is."""
    plain = style()
    if look == PLAIN or f"<style>{plain}</style>" not in text:
        return text
    css = style(look)
    named = text.replace(f"sha256-{digest(plain)}", f"sha256-{digest(css)}", 1)
    return named.replace(f"<style>{plain}</style>", f"<style>{css}</style>", 1)
