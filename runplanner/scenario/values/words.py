"""Names, ids and notes as people type them: what is kept, folded or refused.

Names keep every script.  Runs of spaces are folded to one and the text is brought to its
composed form (NFC).  Control characters, line ends, and the marks that turn the reading
direction of what follows are refused in names; in notes line ends are folded to " / ".
"""

import re
import unicodedata
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, Generic, TypeVar
from zlib import crc32

from runplanner.phrase import Phrase, phrase, verbatim
from runplanner.scenario.faults import Moot, Refusal, did_you_mean

NAME_MOST: Final = 120
NOTE_MOST: Final = 500
_ID: Final = re.compile(r"[a-z0-9](?:[a-z0-9_-]{0,38}[a-z0-9])?")
_TURNING: Final = re.compile("[\u202a-\u202e\u2066-\u2069]")
_LINE_ENDS: Final = re.compile("\\s*[\r\n\v\f\x85\u2028\u2029]+\\s*")
_RESERVED: Final = frozenset(
    ["con", "prn", "aux", "nul", *(f"{port}{i}" for port in ("com", "lpt") for i in range(10))]
)
"""Names that some file systems keep for devices."""
_LETTERS: Final = str.maketrans(
    {"ø": "o", "ł": "l", "æ": "ae", "œ": "oe", "đ": "d", "ð": "d", "þ": "th", "ħ": "h", "ı": "i"}
)
"""Letters that Unicode does not take apart, as people write them who lack the key."""


Meant = TypeVar("Meant")


@dataclass(frozen=True, slots=True)
class Known(Generic[Meant]):
    """Words that may be typed, with what each means.

    Args:
        meant: By word, as ``key_of`` has it.
        shown: The words as people write them, without ids; in any letters more than once.
        whole: False where some are at fault: then a word that is not known may be one of them.
    """

    meant: Mapping[str, Meant]
    shown: Sequence[str]
    whole: bool = True

    def refusal(self, allowed: Phrase, typed: str) -> Refusal:
        """Return how a word that is not known is refused."""
        return Refusal(allowed, self.cure(typed)) if self.whole else Moot()

    def cure(self, typed: str) -> Phrase:
        """Return the nearest word to what was typed, else each of the words shown, once."""
        once: dict[str, str] = {}
        for word in self.shown:
            once.setdefault(key_of(word), word)
        return did_you_mean(typed, self.meant, tuple(once.values()))


def name(said: object) -> str:
    """Return a name, tidied.

    Raises:
        Refusal: When it is empty, too long, or holds characters that break a line.
    """
    allowed = phrase("a name of 1 to {most} characters on one line", most=NAME_MOST)
    text = _text(said, allowed)
    if len(text) > NAME_MOST:
        raise Refusal(allowed, phrase("Shorten it: it has {number} characters.", number=len(text)))
    if _LINE_ENDS.search(text.strip()) or _unfit(text):
        raise Refusal(
            allowed, phrase("Take out line breaks, tabs and invisible control characters.")
        )
    tidy = folded(text)
    if not any(char.isprintable() and not char.isspace() for char in tidy):
        raise Refusal(allowed, phrase("Type a name."))
    return tidy


def note(said: object) -> str:
    """Return free text on one line.

    Raises:
        Refusal: When it is too long or holds control characters.
    """
    allowed = phrase("text of at most {most} characters", most=NOTE_MOST)
    text = _text(said, allowed)
    if len(text) > NOTE_MOST:
        raise Refusal(allowed, phrase("Shorten it: it has {number} characters.", number=len(text)))
    text = _LINE_ENDS.sub(" / ", text.strip())
    if _unfit(text):
        raise Refusal(allowed, phrase("Take out invisible control characters."))
    return folded(text)


def row_id(said: object) -> str:
    """Return an id typed by the user.

    Raises:
        Refusal: When it is not safe in a file name.
    """
    allowed = phrase("lower-case letters a-z, digits, - and _, at most 40")
    text = said.strip() if isinstance(said, str) else str(said)
    if not _ID.fullmatch(text) or text in _RESERVED:
        raise Refusal(allowed, phrase("Write one such as 'mill-lane', or leave the column empty."))
    return text


@lru_cache(maxsize=10_000)
def unaccented(word: str) -> str:
    """Return a word in small letters without accents."""
    apart = unicodedata.normalize("NFKD", word).casefold().translate(_LETTERS)
    return "".join(sign for sign in apart if not unicodedata.combining(sign))


def others_names(text: str, names: Iterable[str]) -> set[str]:
    """Return what others of ``names`` than ``text`` are called, without accents.

    As an id of ``text`` such a word would be taken for the other one's name.  What ``text``
    itself is called, accents and all, is not among them.
    """
    own = key_of(text)
    return {unaccented(folded(one)) for one in names if key_of(one) != own} - {own}


def keys(names: Sequence[str], word: str, taken: Collection[str] = ()) -> list[str]:
    """Return a key for each of ``names``: none is twice, in ``taken``, or another one's name."""
    found: list[str] = []
    for one in names:
        found.append(slug(one, {*taken, *found, *others_names(one, names)}, word))
    return found


def slug(text: str, taken: Collection[str] = (), word: str = "yard") -> str:
    """Return a key for ``text``: plain letters, safe in file names, not in ``taken``.

    A name without any letter a-z or digit gets a key worked out from its characters, so
    that the key stays the same when rows are added.
    """
    plain = unaccented(text).encode("ascii", "ignore").decode().lower()
    key = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:32].strip("-")
    if not key:
        key = f"{word}-{crc32(text.encode('utf-8', 'surrogatepass')):08x}"
    if key in _RESERVED:
        key = f"{word}-{key}"
    number, tried = 2, key
    while tried in taken:
        tried, number = f"{key}-{number}", number + 1
    return tried


def yes_no(said: object) -> bool:
    """Return true or false from yes/no, true/false or a TOML boolean.

    Raises:
        Refusal: When it is neither.
    """
    if isinstance(said, bool):
        return said
    word = str(said).strip().casefold()
    if word in {"yes", "y", "true"}:
        return True
    if word in {"no", "n", "false"}:
        return False
    raise Refusal(phrase("yes or no"), phrase("Write yes or no."))


def one_of(said: object, words: Collection[str]) -> str:
    """Return the one of ``words`` that was typed, whatever its case.

    Raises:
        Refusal: When it is none of them.
    """
    typed = " ".join(str(said).casefold().replace("_", " ").split())
    if typed in words:
        return typed
    raise Refusal(verbatim(" | ".join(words)), did_you_mean(typed, words))


def _text(said: object, allowed: Phrase) -> str:
    if not isinstance(said, str):
        raise Refusal(allowed, phrase("Write it in quotes."))
    return said.strip()


def folded(text: str) -> str:
    """Return ``text`` with single spaces and its accents put together."""
    return " ".join(unicodedata.normalize("NFC", text).split())


def key_of(said: object) -> str:
    """Return a word as it counts for being the same: blanks, case, and how accents are stored."""
    return folded(str(said)).casefold()


def _unfit(text: str) -> bool:
    kinds = {unicodedata.category(char) for char in text}
    return bool(kinds & {"Cc", "Cs"}) or _TURNING.search(text) is not None
