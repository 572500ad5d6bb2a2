"""The largest type at which a driver's paper still takes one sheet.

Nothing here lays out a page: lines are estimated, in units of the type's own size (em), on
the cautious side, so that what is said to fit fits on A4 and on Letter, in a browser and as
PDF.  Widths follow those in paper.css, which are in em for that reason.
"""

from math import ceil

from runplanner.paperwork.manifest import Manifest, Step

# What A4 and Letter are wide and high between the margins of paper.css (7 and 9 mm); Letter
# is 6 mm wider, which is not counted on since the body is never wider than A4.
WIDE_MM, A4_MM, LETTER_MM = 192.0, 283.0, 265.0
POINT_MM = 25.4 / 72
# Half points, the largest first.
PLAIN_TYPE = tuple(range(32, 15, -1))
LARGE_TYPE = tuple(range(40, 29, -1))
RAIL, GAP, WHAT = 6.8, 0.8, 5 / 9
LINE = 1.25
# Mean width of a letter of Liberation Sans in texts like these, blanks counted, and bold;
# measured with PIL on the demos' manifests as 0.49 and 0.54, and rounded up for short lines.
PLAIN, BOLD = 0.46, 0.49


def type_sizes(sheet: Manifest) -> str:
    """Return the classes of the sheet's type: on A4, on Letter, and large on either.

    What does not fit one sheet at the smallest type takes two.
    """
    plain = _largest(sheet, PLAIN_TYPE, A4_MM)
    letter = _largest(sheet, PLAIN_TYPE, LETTER_MM)
    return f"plain{plain} letter{letter} large{_largest(sheet, LARGE_TYPE, LETTER_MM)}"


def _largest(sheet: Manifest, sizes: tuple[int, ...], high_mm: float) -> int:
    return next((size for size in sizes if fits(sheet, size, high_mm)), sizes[-1])


def fits(sheet: Manifest, half_points: int, high_mm: float) -> bool:
    """Tell whether the sheet takes one page at a type of ``half_points``."""
    em_mm = half_points / 2 * POINT_MM
    return height_em(sheet, WIDE_MM / em_mm) <= high_mm / em_mm


def height_em(sheet: Manifest, wide: float) -> float:
    """Return how high the sheet is, in em, when it is ``wide`` em wide."""
    deck = _deck(sheet, wide - RAIL - GAP)
    home = 2.0 if sheet.leave_home else 0.0
    steps = sum(_step(step, wide - RAIL - 2 * GAP) for step in sheet.steps)
    return 3.3 + home + deck + steps + _cautions(sheet, wide)


def _lines(text: str, wide: float, letter: float = PLAIN) -> int:
    """Return how many lines a text takes; each but the last loses half a word of it."""
    long = len(text) * letter
    return 1 if long <= wide else ceil(long / max(wide - 2 * letter, 4 * letter))


def _step(step: Step, wide: float) -> float:
    what = wide * WHAT
    return 0.7 + max(_rail(step), _what(step, what), _limits(step, wide - what))


def _rail(step: Step) -> float:
    way = 0.9 * step.way.count(",") + 1.05 if step.way else 0.0
    begin = 1.6 if step.begin else 0.0
    return 1.9 + way + begin + (1.9 if step.geo[1] else 0.0)


def _what(step: Step, wide: float) -> float:
    beside = step.home or step.lot
    head = 1.45 * _lines(step.name, (wide - len(beside) * 0.42) / 1.22, BOLD)
    ring = f" {step.phone}" if step.phone else ""
    getting_in = " ".join(step.access) + ring
    access = LINE * _lines(getting_in, wide) + 0.2 if getting_in else 0.0
    watch = LINE * _lines(step.watch, wide - 1, BOLD) + 0.4 if step.watch else 0.0
    jobs = sum(LINE * _lines(job, wide - 1.5, BOLD) + 0.2 for job in step.jobs)
    late = 0.0 if step.number else LINE * _lines(_late(step), wide)
    return head + access + watch + jobs + late + _blanks(step, wide) + _rest(step, wide)


def _late(step: Step) -> str:
    return "If later: " + " Then: ".join(step.late) if step.late else ""


def _blanks(step: Step, wide: float) -> float:
    """Return the height of the blanks to fill in, each a word and 3 em of line."""
    if not step.blanks:
        return 0.0
    row, rows = 3.5, 1
    for word in step.blanks:
        row += len(word) * PLAIN + 4.2
        if row > wide:
            row, rows = len(word) * PLAIN + 4.2, rows + 1
    return 1.7 * rows


def _rest(step: Step, wide: float) -> float:
    return LINE * _lines(f"Break {step.rest}", wide - 1, BOLD) + 0.6 if step.rest else 0.0


def _limits(step: Step, wide: float) -> float:
    stop_at = 2.1 if step.stop_at else 0.0
    late = LINE * _lines(_late(step), wide) if step.number and step.late else 0.0
    return stop_at + 1.65 + late + (0.0 if step.ends else _aboard(step, wide))


def _aboard(step: Step, wide: float) -> float:
    aboard = step.aboard
    text = f"Leaving with {aboard.kg}, {aboard.goods()}. Tight."
    return LINE * _lines(text, wide - 0.8) + 0.4


def _deck(sheet: Manifest, wide: float) -> float:
    """Return the height of the loading list, which stands in two columns."""
    cells = [_lines(f"00 xx {one.where} {one.what}", wide / 2 - 0.8, BOLD) for one in sheet.goods]
    rows = zip(cells[::2], [*cells[1::2], 0], strict=False)
    return 1.6 + sum(LINE * max(pair) + 0.35 for pair in rows)


def _cautions(sheet: Manifest, wide: float) -> float:
    texts = [f"{one.head}: {one.words}" for one in sheet.cautions]
    return 0.8 + 0.84 * LINE * sum(_lines(text, wide / 0.84) for text in (*texts, sheet.unknown))
