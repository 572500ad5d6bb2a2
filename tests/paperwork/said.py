"""The words that stand in the code to be said in other languages, found by Babel."""

from pathlib import Path

from babel.messages.extract import extract_from_file

from runplanner import paperwork
from runplanner.trade.strips import STRIPS

ROOM = Path(paperwork.__file__).parent
SPEAKING = tuple(sorted(path.stem for path in ROOM.glob("*.py")))
"""Every module of the room: what people read is said in every language."""
KEYWORDS = {"tr": None, "trn": (1, 2), "mark": None, "count": (2, 3)}
Words = str | tuple[str, str]


def words_in_code() -> tuple[Words, ...]:
    """Every sentence and noun of the modules that speak, and cautions of substances, once."""
    found: dict[Words, None] = {}
    for module in SPEAKING:
        for _, words, _, _ in extract_from_file("python", ROOM / f"{module}.py", KEYWORDS):
            found[words if isinstance(words, str) else (words[0], words[1])] = None
    found |= {caution: None for known in STRIPS.values() for caution in known.cautions}
    return tuple(found)
