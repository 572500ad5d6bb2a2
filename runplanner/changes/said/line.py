"""One typed line of a change, read word by word."""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Final, TypeVar

from runplanner.changes.said.called import Called, hyphens
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import Refusal, did_you_mean

T = TypeVar("T")
_TAIL: Final = ",:;"
_END: Final = " .!"
_MOST: Final = 1_000_000
_REASON: Final = re.compile(r":(?![0-9])|[(#]")
"""Where a reason begins; a colon before a digit is one of a time."""
_WORD_OVER: Final = re.compile(r"\s|[,;]|:(?![0-9])|$")


class Line:
    """The words of one line that are still to be read; case does not matter.

    Nor do accents, apostrophes and full stops in names: ``Nuble`` stands for Ñuble (`called.py`).
    A full stop at the end of the line is none of its words.

    Attributes:
        typed: The line as it was typed, with single spaces.
        loose: Whether its days and hours left something open.
        notes: What its words were taken to mean where they did.
    """

    def __init__(self, text: str) -> None:
        self._words = hyphens(text).rstrip(_END).split()
        self._at = 0
        self.typed = " ".join(text.split())
        self.notes: tuple[Phrase, ...] = ()
        self.loose = False

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

    def _matched(self, words: Sequence[str]) -> int:
        here = [one.casefold() for one in self._words[self._at : self._at + len(words)]]
        if len(here) < len(words) or not words:
            return 0
        same = here[:-1] == [one.casefold() for one in words[:-1]]
        last, wanted = here[-1], words[-1].casefold()
        return len(words) if same and wanted in {last, last.rstrip(_TAIL)} else 0

    def name(self, known: Mapping[str, T], allowed: Phrase) -> T:
        """Read the longest name of ``known`` that comes next.

        Raises:
            Refusal: When none does.
        """
        found = self.maybe_name(known)
        if found is None:
            raise Refusal(allowed, self.nearest(known))
        return found

    def maybe_name(self, known: Mapping[str, T]) -> T | None:
        """Read the longest name of ``known`` that comes next; nothing where none or several do."""
        at, found = self._at, self.meant(Called(list(known.items())))
        if len(found) == 1:
            return found[0]
        self._at = at
        return None

    def meant(self, called: Called[T], among: Callable[[T], bool] = lambda _: True) -> list[T]:
        """Read the longest words that mean something, and return what of ``among`` they may mean.

        Where no words do, nothing is read.
        """
        for end in range(len(self._words), self._at, -1):
            words = self._words[self._at : end]
            last = words[-1].rstrip(_TAIL)
            for said in dict.fromkeys((words[-1], last)) if last else ():
                found = [one for one in called.meant(" ".join((*words[:-1], said))) if among(one)]
                if found:
                    self._at = end
                    return found
        return []

    def nearest(self, known: Iterable[str], listed: Sequence[str] = ()) -> Phrase:
        """Return which of ``known`` may have been meant by what comes next, or what ``listed``."""
        said = " ".join(self._words[self._at : self._at + 3]) or phrase("nothing")
        return did_you_mean(said, known, listed)

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
        if not _WORD_OVER.match(left):
            return None
        self._words = [*self._words[: self._at], *used.split(), *left.split()]
        self._at += len(used.split())
        return found

    def amount(self) -> str:
        """Read a quantity with its unit: all that is left but a reason."""
        left = self.rest()
        said = _REASON.split(left, maxsplit=1)[0]
        self._words = [*self._words[: self._at], *said.split(), *left[len(said) :].split()]
        self._at += len(said.split())
        return said.strip()

    def everything(self) -> str:
        """Read all that is left, brackets and colons as well."""
        left, self._at = self.rest(), len(self._words)
        return left

    def rewrite(
        self, pattern: "re.Pattern[str]", words: "str | Callable[[re.Match[str]], str]"
    ) -> bool:
        """Say what is left, up to a reason, in other words; tell whether they are others."""
        left = self.rest()
        reason = _REASON.search(left)
        said = left[: reason.start()] if reason else left
        new = pattern.sub(words, said)
        self._words = [*self._words[: self._at], *(new + left[len(said) :]).split()]
        return new != said

    def past_colon(self) -> None:
        """Drop a colon or brackets before and round what is left."""
        before, left = self._words[: self._at], self.rest()
        left = left.lstrip(":( ").removesuffix(")" if left.lstrip(": ").startswith("(") else "")
        self._words = [*before[:-1], *(word.rstrip(":") for word in before[-1:]), *left.split()]

    def say(self, note: Phrase) -> None:
        """Keep what the line was taken to mean, for the person who typed it."""
        self.notes = (*self.notes, note)

    def number(self, allowed: Phrase, most: int = _MOST) -> int:
        """Read a whole number from 0 to ``most``, or ``no`` for 0.

        Raises:
            Refusal: When none comes next.
        """
        if self.take("no", "none"):
            return 0
        found = self.match(re.compile(r"[0-9]{1,9}(?![.,:]?[0-9])"))
        if found is None or int(found.group()) > most:
            raise Refusal(allowed, phrase("Write a whole number from 0 to {most}.", most=most))
        return int(found.group())

    def reason(self) -> str:
        """Return the reason at the end of the line, as typed; empty where there is none."""
        return " ".join(self.rest().strip(":(#) ").split())

    def read(self) -> str:
        """Return what has been read."""
        return " ".join(self._words[: self._at]).rstrip(_TAIL)

    def bracket(self) -> str:
        """Read a bracket with all in it, and return what stands in it; empty where none comes."""
        left = self.rest()
        if not left.startswith("("):
            return ""
        behind = _behind_bracket(left)
        self._words = [*self._words[: self._at], left[: len(left) - len(behind)], *behind.split()]
        self._at += 1
        return left[1 : len(left) - len(behind)].removesuffix(")")

    def over(self) -> bool:
        """Tell whether nothing is left but a reason after a colon, or in brackets to the end."""
        named = self._at > 0 and self._words[self._at - 1].endswith(":")
        left = _behind_brackets(self.rest())
        return not left or named or left.startswith((":", "#"))

    def goes_on(self) -> bool:
        """Tell whether more than a reason stands behind a bracket of the line as typed."""
        _, sign, inside = self.typed.rstrip(_END).partition("(")
        left = _behind_brackets(sign + inside)
        return bool(left) and not left.startswith((":", "#"))


def _behind_brackets(text: str) -> str:
    """Return what stands behind the brackets, one after the other, with which a text begins."""
    while text.startswith("("):
        text = _behind_bracket(text).lstrip(" ,;")
    return text


def _behind_bracket(text: str) -> str:
    """Return what stands behind the bracket with which a text begins."""
    depth = 0
    for at, sign in enumerate(text):
        depth += {"(": 1, ")": -1}.get(sign, 0)
        if not depth:
            return text[at + 1 :]
    return ""
