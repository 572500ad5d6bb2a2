"""One typed line of a change, read word by word."""

import re
import unicodedata
from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from typing import Final, TypeVar

from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import Refusal, did_you_mean

T = TypeVar("T")
_TAIL: Final = ",:;"


@lru_cache(maxsize=10_000)
def unaccented(word: str) -> str:
    """Return a word in small letters without accents."""
    apart = unicodedata.normalize("NFKD", word.casefold())
    return "".join(sign for sign in apart if not unicodedata.combining(sign))


class Line:
    """The words of one line that are still to be read; case does not matter.

    Nor do accents in names, for want of the key: ``Nuble`` stands for Ñuble.
    """

    def __init__(self, text: str) -> None:
        self._words = text.replace("\u2013", "-").replace("\N{MINUS SIGN}", "-").split()
        self._at = 0

    def rest(self) -> str:
        """Return what has not been read."""
        return " ".join(self._words[self._at :])

    def done(self) -> bool:
        """Tell whether all has been read."""
        return self._at >= len(self._words)

    def take(self, *phrases: str) -> str:
        """Read the first of ``phrases`` that comes next; empty where none does."""
        for words in phrases:
            if self._reads(words.split()):
                return words
        return ""

    def _reads(self, words: Sequence[str]) -> bool:
        count = self._matched(words)
        self._at += count
        return count > 0

    def _matched(self, words: Sequence[str], fold: Callable[[str], str] = str.casefold) -> int:
        here = self._words[self._at : self._at + len(words)]
        if len(here) < len(words) or not words:
            return 0
        same = [fold(one) for one in here[:-1]] == [fold(one) for one in words[:-1]]
        last, wanted = fold(here[-1]), fold(words[-1])
        return len(words) if same and wanted in {last, last.rstrip(_TAIL)} else 0

    def name(self, known: Mapping[str, T], allowed: Phrase) -> T:
        """Read the longest name of ``known`` that comes next.

        Raises:
            Refusal: When none does.
        """
        found = self.maybe_name(known)
        if found is None:
            said = " ".join(self._words[self._at : self._at + 3]) or phrase("nothing")
            raise Refusal(allowed, did_you_mean(said, known))
        return found

    def maybe_name(self, known: Mapping[str, T]) -> T | None:
        """Read the longest name of ``known`` that comes next, or nothing.

        As typed comes before another accent; several that differ in accents alone are none.
        """
        fits = {name: self._fit(name.split()) for name in known}
        best = max(fits.values(), default=(0, False))
        count, exact = best
        found = [known[name] for name, fit in fits.items() if fit == best]
        if not count or (not exact and any(one != found[0] for one in found)):
            return None
        self._at += count
        return found[0]

    def _fit(self, words: Sequence[str]) -> tuple[int, bool]:
        """Return how many words a name reads, and whether accents are as typed."""
        count = self._matched(words)
        return (count, True) if count else (self._matched(words, unaccented), False)

    def comma_before(self) -> bool:
        """Tell whether the last word read ended in a comma, or ``and`` or a comma comes next."""
        return self._words[self._at - 1].endswith(",") or bool(self.take("and", ","))

    def match(self, pattern: "re.Pattern[str]") -> "re.Match[str] | None":
        """Read what ``pattern`` matches at the start of the rest, up to the end of a word."""
        found = pattern.match(self.rest())
        if found is None:
            return None
        used = found.group().rstrip(" ")
        left = self.rest()[len(used) :]
        if left and not left.startswith((" ", *_TAIL)):
            return None
        self._words = [*self._words[: self._at], *used.split(), *left.split()]
        self._at += len(used.split())
        return found

    def amount(self) -> str:
        """Read a quantity with its unit: all that is left but a reason."""
        left = self.rest()
        said = re.split(r"[:(#]", left, maxsplit=1)[0]
        self._words = [*self._words[: self._at], *said.split(), *left[len(said) :].split()]
        self._at += len(said.split())
        return said.strip()

    def rewrite(self, pattern: "re.Pattern[str]", words: str) -> None:
        """Say what is left in other words."""
        self._words = [*self._words[: self._at], *pattern.sub(words, self.rest()).split()]

    def number(self, allowed: Phrase, most: int) -> int:
        """Read a whole number from 0 to ``most``.

        Raises:
            Refusal: When none comes next.
        """
        found = self.match(re.compile(r"[0-9]{1,9}(?![0-9.])"))
        if found is None or int(found.group()) > most:
            raise Refusal(allowed, phrase("Write a whole number from 0 to {most}.", most=most))
        return int(found.group())

    def reason(self) -> str:
        """Return the reason at the end of the line, as typed; empty where there is none."""
        return " ".join(self.rest().strip(":(#) ").split())

    def close(self) -> None:
        """See that nothing is left but a reason after a colon or in brackets.

        Raises:
            Refusal: When something is.
        """
        left = self.rest()
        named = self._at > 0 and self._words[self._at - 1].endswith(":")
        if left and not named and not left.startswith((":", "(", "#")):
            cure = phrase("Leave it out, or put a colon before a reason.")
            raise Refusal(
                phrase("nothing after the change, but it goes on {left}", left=repr(left[:60])),
                cure,
            )
