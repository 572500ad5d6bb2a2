"""Roads on their way from a file to a network: points and stretches as they are met."""

from array import array
from collections import Counter
from collections.abc import Hashable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

import numpy as np
import numpy.typing as npt

from runplanner.roads.endings import Tags
from runplanner.roads.network import (
    Floats,
    Ints,
    Network,
    letters,
    metres_apart,
    of_arcs,
)
from runplanner.roads.speeds import FERRY, KINDS, Speeds
from runplanner.roads.tags import SHUT, Road, shut_by, unread, wait_s
from runplanner.roads.turns import Turn, with_turns
from runplanner.roads.vehicle import Vehicle

_MOST_UNREAD: Final = 50
Longs = npt.NDArray[np.int64]


class Drawing:
    """Collects points and stretches; each point is known by the key its file gives it.

    Args:
        board_s: Seconds lost where one leaves a road for a ferry.
    """

    def __init__(self, board_s: int = 0) -> None:
        self._board_cs = board_s * 100
        self._index: dict[Hashable, int] = {}
        self._date_line: dict[float, int] = {}
        self._lat = array("d")
        self._lon = array("d")
        self._ends = (array("i"), array("i"))
        self._pace = (array("i"), array("i"))
        self._kind = array("i")
        self._typed_m = array("d")
        self._barred = array("i")
        self._causes: dict[str, int] = {}
        self.waits: dict[Hashable, int] = {}
        self.shut_by: dict[Hashable, str] = {}
        self.turns: list[Turn] = []
        self.unread: Counter[str] = Counter()
        self.unread_at: dict[Hashable, list[str]] = {}

    def __len__(self) -> int:
        return len(self._kind)

    def point(self, key: Hashable, lat: float, lon: float) -> int:
        """Return the index of a point, the same for the same key.

        Files end their roads at 180 degrees east and begin them at 180 west: one point.
        """
        found = self._index.get(key)
        if found is None:
            new = len(self._lat)
            found = new if abs(lon) < 180 else self._date_line.setdefault(round(lat, 7), new)
            self._index[key] = found
            if found == new:
                self._lat.append(lat)
                self._lon.append(lon)
        return found

    def find(self, key: Hashable) -> int | None:
        """Return the index of a point that a road goes through, or None."""
        return self._index.get(key)

    def stands(self, key: Hashable, tags: Tags, vehicle: Vehicle, speeds: Speeds) -> bool:
        """Note what a gate, barrier or limit at a point costs; tell whether it is any matter.

        Of several at one point the longest wait counts.
        """
        words, wait = unread(tags, vehicle), wait_s(tags, vehicle, speeds)
        if words:
            self.unread_at[key] = [*self.unread_at.get(key, []), *words]
        if wait:
            before = self.waits.get(key, 0)
            self.waits[key] = SHUT if SHUT in {wait, before} else max(wait, before)
        if wait == SHUT:
            self.shut_by[key] = shut_by(tags, vehicle)
        return bool(words or wait)

    def line(self, points: Sequence[int], road: Road, metres: float = 0) -> None:
        """Add a road through ``points``; ``metres`` is its true length where known."""
        stretches = [(a, b) for a, b in pairwise(points) if a != b]
        for a, b in stretches:
            self._ends[0].append(a)
            self._ends[1].append(b)
            self._pace[0].append(road.ahead)
            self._pace[1].append(road.back)
            self._kind.append(road.kind)
            self._typed_m.append(metres / len(stretches))

    def barred(self, points: Sequence[int], cause: str) -> None:
        """Add a road through ``points`` that the truck may not drive."""
        number = self._causes.setdefault(cause, len(self._causes))
        for a, b in pairwise(points):
            self._barred.extend((a, b, number))

    def network(self) -> Network:
        """Return all of it, with the signs against turns kept."""
        lat, lon = np.array(self._lat, dtype=np.float64), np.array(self._lon, dtype=np.float64)
        a, b = (np.array(end, dtype=np.int32) for end in self._ends)
        wait = self._wait_cs(len(lat))
        self._bar_at_points(a, b)
        tail, head = np.concatenate((a, b)), np.concatenate((b, a))
        pace = np.concatenate([np.array(way, dtype=np.int64) for way in self._pace])
        dm = np.tile(self._dm(lat, lon, a, b), 2)
        kind = np.tile(np.array(self._kind, dtype=np.int32), 2)
        sails = kind == KINDS.index(FERRY)
        boards = sails & np.isin(tail, tail[~sails])
        go = (pace > 0) & (wait[tail] >= 0) & (wait[head] >= 0)
        tail, head, pace, dm = tail[go], head[go], pace[go], dm[go]
        cs = np.maximum(1, (dm * 36_000 + pace // 2) // pace) + wait[head]
        cs += boards[go] * self._board_cs
        points = (lat, lon, np.arange(len(lat), dtype=np.int32))
        drawn = of_arcs(points, tail, head, _short(dm), _short(cs), kind[go])
        return replace(
            with_turns(drawn, self.turns),
            unread=letters(self._unread(a, b)),
            barred=np.array(self._barred, dtype=np.int32),
            causes=letters(self._causes),
        )

    def _bar_at_points(self, a: Ints, b: Ints) -> None:
        """Bar the stretches that end at a point nobody drives past."""
        shut = {self._index[key]: why for key, why in self.shut_by.items() if key in self._index}
        for end in np.flatnonzero(np.isin(a, list(shut)) | np.isin(b, list(shut))).tolist():
            here, there = int(a[end]), int(b[end])
            self.barred((here, there), shut.get(here) or shut[there])

    def _unread(self, a: Ints, b: Ints) -> list[str]:
        """Return the limits that could not be read, most frequent first, with how often."""
        counts = self.unread.copy()
        on_road = {*a.tolist(), *b.tolist()} if self.unread_at else set()
        for key, words in self.unread_at.items():
            if self._index.get(key) in on_road:
                counts.update(words)
        told = counts.most_common(_MOST_UNREAD)
        return [word if times == 1 else f"{word} x {times}" for word, times in told]

    def _dm(self, lat: Floats, lon: Floats, a: Ints, b: Ints) -> Longs:
        """Return the length of each stretch, typed or over the earth, at least a decimetre."""
        metres = metres_apart(lat[a], lon[a], lat[b], lon[b])
        typed = np.array(self._typed_m, dtype=np.float64)
        tenths = np.rint(np.where(typed > 0, typed, metres) * 10)
        return np.asarray(np.maximum(1, tenths), dtype=np.int64)

    def _wait_cs(self, size: int) -> Longs:
        """Return the hundredths of a second lost on reaching each point, below 0 where shut."""
        wait = np.zeros(size, dtype=np.int64)
        for key, seconds in self.waits.items():
            at = self._index.get(key)
            if at is not None:
                wait[at] = SHUT if seconds == SHUT else seconds * 100
        return wait


def _short(values: Longs) -> Ints:
    return np.minimum(values, np.iinfo(np.int32).max).astype(np.int32)
