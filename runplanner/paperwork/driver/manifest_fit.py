"""The largest type at which a driver's paper still takes one sheet, or as few as it can.

Nothing here lays out a page: lines are counted word by word, in units of the type's own size
(em), on the cautious side, so that what is said to fit fits on A4 and on Letter, in a browser
and as PDF.  Widths follow those in paper.css, which are in em for that reason.
"""

from collections.abc import Iterator
from functools import lru_cache
from math import ceil, fsum

from runplanner.paperwork.driver.if_late import then_words
from runplanner.paperwork.driver.manifest import Manifest, Step
from runplanner.paperwork.escape import units_kept
from runplanner.paperwork.speech.tongue import tr

# What A4 and Letter are wide and high between the margins of paper.css (7 and 9 mm); Letter
# is 6 mm wider, which is not counted on since the body is never wider than A4.
WIDE_MM, A4_MM, LETTER_MM = 192.0, 283.0, 265.0
POINT_MM = 25.4 / 72
# Half points, the largest first.
PLAIN_TYPE = tuple(range(32, 15, -1))
LARGE_TYPE = tuple(range(40, 29, -1))
RAIL, GAP, WHAT = 6.8, 0.8, 5 / 9
# The head with two lines, what each line more takes, and the gaps between its three parts.
HEAD, HEAD_LINE, HEAD_GAPS = 3.3, 1.15, 2.4
WHEN, WHICH = 1.25, 0.9
# By how much heights come out too large: at least 4 % at the smallest plain type, of 124 sheets
# that chromium laid out, and at most 13 % at the smallest large one, of 92.
LEAST_OFF, MOST_OFF = 1.04, 1.13
LINE = 1.25
# Small type in em (paper.css): drives, positions, lots, cautions.  In large type all are as
# large as the smallest body, 15 points (large.css).
WAY, GEO, LOT, FOOT = 0.82, 0.73, 0.8, 0.84
LEAST_LARGE = LARGE_TYPE[-1]
# Widths of letters in thousandths of an em, as in Adobe's metrics of Helvetica, which Arial and
# Liberation Sans share; from memory.  Any other sign counts as a digit.
_WIDTHS = {
    222: "ijl'", 278: " !,./:;ftI\u00a0", 333: "-()r\u2013", 500: "ckJsvxyz", 611: "FTZ",
    667: "ABEKPSVXY&", 722: "CDHNRUw", 778: "GOQ", 833: "mM", 889: "%", 944: "W",
}  # fmt: skip
_WIDTH = {letter: width for width, letters in _WIDTHS.items() for letter in letters}
_OTHER = 556
PLAIN, BOLD = 1.0, 1.07


def type_sizes(sheet: Manifest) -> str:
    """Return the classes of the sheet's type: on A4, on Letter, and large on either.

    What takes several sheets at the smallest type fills those: the last is not left all but empty.
    Whether it does is not quite known.  Of 8 points rather a sheet more is taken; of large type
    none is that the smallest might do without.
    """
    plain = _largest(sheet, PLAIN_TYPE, A4_MM, A4_MM * LEAST_OFF)
    letter = _largest(sheet, PLAIN_TYPE, LETTER_MM, LETTER_MM * LEAST_OFF)
    large = _largest(sheet, LARGE_TYPE, LETTER_MM, A4_MM * MOST_OFF, LEAST_LARGE)
    return f"plain{plain} letter{letter} large{large}"


def _largest(
    sheet: Manifest, sizes: tuple[int, ...], high_mm: float, most_mm: float, small: int = 0
) -> int:
    """Return the largest size that takes no more pages than the smallest on ``most_mm`` each."""
    fewest = pages(sheet, sizes[-1], most_mm, small)
    fits = (size for size in sizes if pages(sheet, size, high_mm, small) <= fewest)
    return next(fits, sizes[-1])


def pages(sheet: Manifest, half_points: int, high_mm: float, small: int = 0) -> int:
    """Return how many pages the sheet takes at a type of ``half_points``.

    Each has the head, and whole stops.  ``small`` are the half points of its small type, nought
    where that is in em.
    """
    em_mm = half_points / 2 * POINT_MM
    wide = WIDE_MM / em_mm
    room = left = high_mm / em_mm - _head(sheet, wide, small / half_points)
    taken = 1
    for row in _rows(sheet, wide, small / half_points):
        if row > left and left < room:
            taken, left = taken + 1, room
        # What is higher than a page runs on.
        more = max(0, ceil((row - left) / room))
        taken, left = taken + more, left + more * room - row
    return taken


def height_em(sheet: Manifest, wide: float, small: float = 0.0) -> float:
    """Return how high the sheet is, in em, when it is ``wide`` em wide.

    ``small`` is the size of its small type, in em; nought for each part's own.
    """
    return _head(sheet, wide, small) + fsum(_rows(sheet, wide, small))


def _head(sheet: Manifest, wide: float, small: float) -> float:
    """Return the height of the head: vehicles and crew stand between the day and the trip."""
    when = WHEN * text_em(sheet.date, BOLD)
    which = (small or WHICH) * max(text_em(sheet.trip), text_em(sheet.part))
    room = max(1.0, wide - when - which - HEAD_GAPS)
    lines = _lines(sheet.vehicles, room, BOLD) + _lines(sheet.crew, room)
    return HEAD + HEAD_LINE * max(0, lines - 2)


def _rows(sheet: Manifest, wide: float, small: float) -> Iterator[float]:
    """Yield the height of each part that stays on one page, below the head."""
    if sheet.leave_home:
        yield 2.0
    load, *others = (_step(step, wide - RAIL - 2 * GAP, small) for step in sheet.steps)
    yield load + _deck(sheet, wide - RAIL - GAP)
    yield from others
    yield _cautions(sheet, wide, small or FOOT)


def _lines(text: str, wide: float, weight: float = PLAIN) -> int:
    """Return how many lines a text takes, word by word; a word too long is broken."""
    lines, row, blank = 1, 0.0, weight * 0.278
    for long in _words_em(text, weight):
        if row and row + blank + long > wide:
            lines, row = lines + 1, long
        else:
            row += long + (blank if row else 0.0)
        if row > wide:
            lines, row = lines + int(row / max(wide, 1.0)), row % max(wide, 1.0)
    return lines


@lru_cache(maxsize=4096)  # a sheet's texts are measured at some fifteen sizes of type
def _words_em(text: str, weight: float) -> tuple[float, ...]:
    return tuple(text_em(word, weight) for word in units_kept(text).split(" "))


def text_em(text: str, weight: float = PLAIN) -> float:
    """Return how wide a text is on one line, in em."""
    return weight * sum(_WIDTH.get(letter, _OTHER) for letter in text) / 1000


def _step(step: Step, wide: float, small: float) -> float:
    what = wide * WHAT
    rail = _rail(step, (small or WAY) / WAY, (small or GEO) / GEO)
    return 0.7 + max(rail, _what(step, what, small or LOT), _limits(step, wide - what))


def _rail(step: Step, way_larger: float, geo_larger: float) -> float:
    """Return the height of a stop's times, its drive and position so many times as large."""
    way = way_larger * (0.9 * step.way.count(",") + 1.05) if step.way else 0.0
    start = _lines(tr("start {time}", time=step.begin), 4.2, BOLD) if step.begin else 0
    begin = 1.1 * start + 0.5 if start else 0.0
    return 1.9 + way + begin + (1.9 * geo_larger if step.geo[1] else 0.0)


def _what(step: Step, wide: float, lot: float) -> float:
    head = 1.45 * _lines(step.name, (wide - _beside(step, lot)) / 1.22, BOLD)
    # A number to ring is torn only where it is longer than a line.
    ring = (tr("Ring"), step.phone.replace(" ", "\u00a0")) if step.phone else ()
    getting_in = " ".join((*step.access, *ring))
    access = LINE * _lines(getting_in, wide) + 0.2 if getting_in else 0.0
    watch = LINE * _lines(step.watch, wide - 1, BOLD) + 0.4 if step.watch else 0.0
    jobs = fsum(LINE * _lines(job, wide - 1.5, BOLD) + 0.2 for job in step.jobs)
    late = 0.0 if step.number else LINE * _lines(_late(step), wide)
    return head + access + watch + jobs + late + _blanks(step, wide) + _rest(step, wide)


def _late(step: Step) -> str:
    head = tr("If later:")
    return f"{head} {then_words(step.late)}" if step.late else ""


def _beside(step: Step, lot: float) -> float:
    """Return what the home time or the lot, ``lot`` em, takes from the line of a stop's name."""
    if step.home:
        return 1.22 * text_em(tr("home {time}", time=step.home), BOLD) + 0.6
    return lot * text_em(step.lot) + 0.6 if step.lot else 0.0


def _blanks(step: Step, wide: float) -> float:
    """Return the height of the blanks to fill in, each a word and 3 em of line."""
    if not step.blanks:
        return 0.0
    row, rows = text_em(tr("Done"), BOLD), 1
    for word in step.blanks:
        blank = text_em(tr(word)) + 3.9
        row += blank
        if row > wide:
            row, rows = blank, rows + 1
    return 1.7 * rows


def _rest(step: Step, wide: float) -> float:
    return (
        LINE * _lines(tr("Break {times}", times=step.rest), wide - 1, BOLD) + 0.6
        if step.rest
        else 0.0
    )


def _limits(step: Step, wide: float) -> float:
    stop_at = _stop_at(step, wide) if step.stop_at else 0.0
    stop_at += LINE * _lines(step.sooner, wide) if step.sooner else 0.0
    late = LINE * _lines(_late(step), wide) if step.number and step.late else 0.0
    return stop_at + _leave(step, wide) + late + (0.0 if step.ends else _aboard(step, wide))


def _stop_at(step: Step, wide: float) -> float:
    """Return the height of the boxes to stop at, a frame round words and a larger number."""
    words = f"{tr('stop at')} {step.stop_at} {tr('full boxes aboard')}"
    larger = (1.35 * BOLD - PLAIN) * text_em(step.stop_at)
    return 0.85 + LINE * _lines(words, wide - 1.0 - larger)


def _leave(step: Step, wide: float) -> float:
    """Return the height of the times to leave, which stand below one another where narrow."""
    leave = tr("left") if step.over else tr("leave")
    beside = tr("done") if step.over else tr("latest")
    plain, bold = text_em(f"{leave} {step.leave}"), text_em(f"{beside} ", BOLD)
    side_by_side = plain + 0.5 + bold + 1.3 * text_em(step.latest, BOLD)
    return 1.65 if side_by_side <= wide else 1.65 + LINE


def _aboard(step: Step, wide: float) -> float:
    aboard = step.aboard
    head = tr("Left with") if step.over else tr("Leaving with")
    text = f"{head} {aboard.kg}, {aboard.goods()}. {aboard.limit}"
    return LINE * _lines(text, wide - 0.8) + 0.4


def _deck(sheet: Manifest, wide: float) -> float:
    """Return the height of the loading list, which stands in two columns."""
    cells = [_lines(f"00 {one.where} {one.what}", wide / 2 - 2.5, BOLD) for one in sheet.goods]
    rows = zip(cells[::2], [*cells[1::2], 0], strict=False)
    return 1.6 + fsum(LINE * max(pair) + 0.35 for pair in rows)


def _cautions(sheet: Manifest, wide: float, type_em: float) -> float:
    texts = [f"{one.head}: {one.words}" for one in sheet.cautions]
    lines = sum(_lines(text, wide / type_em) for text in (*texts, sheet.unknown))
    return 0.8 + type_em * LINE * lines
