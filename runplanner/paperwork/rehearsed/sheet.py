"""What a rehearsal came to: a table of risks, and of costs, built first; pages are made from it."""

import json
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass, replace
from typing import Final

from runplanner.daybook.played import (
    Played,
    Rehearsed,
    finished,
    mean_cents,
    most_cents,
    nearest_mean,
    nine_in_ten,
    troubled,
)
from runplanner.paperwork.escape import csv_cell
from runplanner.paperwork.speech.say import hundredths
from runplanner.paperwork.speech.tongue import mark

RISKS: Final[tuple[tuple[str, str, Callable[[Played], int]], ...]] = (
    ("over_payload", mark("trips over payload"), lambda one: one.over_payload),
    ("boxes_left", mark("boxes left behind for want of room"), lambda one: one.boxes_left),
    ("past_cover", mark("colonies past their cover"), lambda one: one.past_cover),
    ("honey_late", mark("boxes late to be spun"), lambda one: one.honey_late),
    ("stops_missed", mark("stops missed"), lambda one: one.stops_missed),
    ("late_home_min", mark("minutes home after hours"), lambda one: one.late_home_min),
    ("overtime_min", mark("minutes of overtime"), lambda one: one.overtime_min),
    ("no_strips", mark("colonies without strips in time"), lambda one: one.no_strips),
    ("unfed_kg", mark("kg of stores not fed"), lambda one: -(-one.unfed_g // 1000)),
    ("not_off", mark("colonies with honey still on"), lambda one: one.not_off),
    ("no_wet", mark("colonies without wet boxes put up and collected"), lambda one: one.no_wet),
    ("refused", mark("stops counted so that it could not be entered"), lambda one: one.refused),
)
"""Key, words, and the figure of a play."""


@dataclass(frozen=True, slots=True)
class Risk:
    """One thing that may go wrong.

    ``plays`` is in how many plays it does; ``mean_hundredths``, to the nearest, ``p90`` and
    ``worst`` are over all.
    """

    key: str
    words: str
    plays: int
    mean_hundredths: int
    p90: int
    worst: int

    def mean(self) -> str:
        """Return the mean for people: what did come about is never said to be nought."""
        seldom = self.plays and not self.mean_hundredths
        return f"< {hundredths(1)}" if seldom else hundredths(self.mean_hundredths)


def risks(plays: Sequence[Played]) -> tuple[Risk, ...]:
    """Return every risk with its figures."""
    return tuple(_risk(key, words, [of(one) for one in plays]) for key, words, of in RISKS)


def _risk(key: str, words: str, numbers: list[int]) -> Risk:
    mean = nearest_mean([100 * number for number in numbers])
    often = sum(number > 0 for number in numbers)
    return Risk(key, words, often, mean, nine_in_ten(numbers), max(numbers, default=0))


def plays_csv(told: Sequence[Rehearsed], currency: str) -> str:
    """Return every play as a row of CSV, the first as number 1, as on the screen.

    Opens with a byte order mark, as the other tables do.
    """
    heads = [name for name in Played.__slots__ if not name.endswith("cents")]
    sums = [name for name in Played.__slots__ if name.endswith("cents")]
    lines = [["setting", *heads, *(name.replace("_cents", "_cost") for name in sums), "currency"]]
    for one in told:
        for play in one.plays:
            cents = [getattr(play, name) for name in sums]
            money = ["" if c < 0 else f"{c // 100}.{c % 100:02d}" for c in cents]
            counted = replace(play, play=play.play + 1)
            figures = [str(int(getattr(counted, name))) for name in heads]
            lines.append([one.name, *figures, *money, currency])
    lines[0] = ["cost" if head == "cents" else head for head in lines[0]]
    return "\ufeff" + "".join(",".join(_cell(c) for c in line) + "\r\n" for line in lines)


def _cell(text: str) -> str:
    safe = csv_cell(text)
    return '"' + safe.replace('"', '""') + '"' if set(safe) & set(',"\r\n') else safe


def rehearsal_json(told: Sequence[Rehearsed], currency: str) -> str:
    """Return sums and risks of each setting as JSON; costs are of plays that did all the work."""
    body = [
        {
            "setting": one.name,
            "plays": len(one.plays),
            "currency": currency,
            "plan_cents": one.plan_cents,
            "plan_leaves_nothing_undone": one.plan_done,
            "plays_with_all_work_done": len(finished(one.plays)),
            "mean_cents": mean_cents(one.plays),
            "p90_cents": most_cents(one.plays),
            "plays_over_payload_past_cover_or_undone": troubled(one.plays),
            "risks": [asdict(risk) for risk in risks(one.plays)],
        }
        for one in told
    ]
    return json.dumps(body, ensure_ascii=False, indent=1) + "\n"
