"""What typed words may mean: by name, by id, by a first word; accents and stops may lack."""

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import Final, Generic, TypeVar

from runplanner.phrase import Phrase, phrase
from runplanner.scenario.values.words import folded, unaccented

T = TypeVar("T")
Pairs = Sequence[tuple[str, T]]
_WRITTEN_OUT: Final = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "å": "aa", "ø": "oe"})
"""Letters as people write them who lack the key (common practice)."""
_DASHES: Final = str.maketrans(dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2015\u2212", "-"))
_MARKS: Final = re.compile(
    "[.!'`\"\u00b4\u02b9-\u02bc\u2018-\u201f\u2032\u2033\u2039\u203a\u00ab\u00bb]"
)
"""Full stops, apostrophes and the like: phones, spreadsheets and keyboards set others."""


def hyphens(words: str) -> str:
    """Return words in which every dash is a hyphen, as on a keyboard."""
    return words.translate(_DASHES)


class Called(Generic[T]):
    """Things by what they are called.

    Args:
        names: Whole names, as spelt.
        keys: Ids, and other words that stand for one thing beside its name.
        short: Shorter names, such as a first word.
    """

    def __init__(self, names: Pairs[T], keys: Pairs[T] = (), short: Pairs[T] = ()) -> None:
        self._names = names
        self._longest = max((len(word.split()) for word, _ in (*names, *keys, *short)), default=0)
        self._shown = (*names, *short)
        self._keys = _by(_spelt, keys)
        self._spelt = _by(_spelt, names)
        self._named = _by(_any_case, names)
        self._whole = _by(_any_case, (*names, *keys))
        self._short = _by(_any_case, short)
        every = (*names, *keys, *short)
        self._plain = _by(_plain, (*every, *((_written_out(word), one) for word, one in every)))

    def meant(self, typed: str) -> list[T]:
        """Return what ``typed`` may mean, mostly one thing.

        A name as spelt comes first, then a name or an id in any case, then a shorter name, then
        all of these with accents left out or written out, and without full stops, apostrophes
        and quotation marks.  Of things of one name, the one whose id is typed is meant.
        """
        said, plain = _spelt(typed), _any_case(typed)
        spelt = self._spelt.get(said, [])
        if len(spelt) == 1:
            return spelt
        alike = self._named.get(plain, [])
        own = [one for one in self._keys.get(said, []) if one in alike]
        if len(alike) > 1 and len(own) == 1:
            return own
        return (
            self._whole.get(plain) or self._short.get(plain) or self._plain.get(_plain(typed))
            or []
        )  # fmt: skip

    def found_in(self, words: Sequence[str]) -> Iterator[tuple[range, list[T]]]:
        """Yield where in ``words`` something is called, and what: longest first, from the left."""
        at = 0
        while at < len(words):
            end = min(len(words), at + self._longest)
            while end > at and not self.meant(" ".join(words[at:end])):
                end -= 1
            if end > at:
                yield range(at, end), self.meant(" ".join(words[at:end]))
            at = max(end, at + 1)

    def words(self) -> list[str]:
        """Return names in small letters, to look for the one that was meant."""
        return [_any_case(word) for word, _ in self._shown]

    def names(self) -> list[str]:
        """Return whole names, as spelt."""
        return [name for name, _ in self._names]

    def which(self, found: Iterable[T]) -> Phrase:
        """Return the cure for words that mean all of ``found``: what each alone is called."""
        names = ", ".join(self._alone(one) for one in found)
        return phrase("Give one of: {names}.", names=names)

    def _alone(self, one: T) -> str:
        keys = (key for key, things in self._keys.items() if one in things)
        names = [name for name, other in self._names if other == one]
        words = (word for word in (*keys, *names) if self.meant(word) == [one])
        return next(words, names[0])


def _by(fold: Callable[[str], str], pairs: Pairs[T]) -> dict[str, list[T]]:
    found: dict[str, list[T]] = {}
    for word, one in pairs:
        there = found.setdefault(fold(word), [])
        if one not in there:
            there.append(one)
    return found


def _spelt(words: str) -> str:
    """Return words with single spaces; an accent is one sign, and a dash a hyphen."""
    return folded(hyphens(words))


def _any_case(words: str) -> str:
    return _spelt(words).casefold()


def _plain(words: str) -> str:
    return unaccented(folded(_MARKS.sub("", _spelt(words))))


def _written_out(words: str) -> str:
    return _any_case(words).translate(_WRITTEN_OUT)
