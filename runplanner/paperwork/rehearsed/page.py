"""The rehearsal as a page people look at: how often what goes wrong, and what it costs."""

from collections.abc import Sequence

from runplanner.daybook.plan import Plan
from runplanner.daybook.played import (
    Played,
    Rehearsed,
    finished,
    mean_cents,
    most_cents,
    nearest_mean,
    troubled,
)
from runplanner.paperwork.driver.manifest_fit import text_em
from runplanner.paperwork.escape import shown
from runplanner.paperwork.rehearsed.sheet import Risk, risks
from runplanner.paperwork.sheet.frame import office_page, section
from runplanner.paperwork.sheet.page import Html, el, put, table
from runplanner.paperwork.speech.say import count, money
from runplanner.paperwork.speech.tongue import mark, said, tr

INK, BLUE, RED = "#000", "#0072B2", "#D55E00"
"""Okabe and Ito's blue and vermilion, told apart with any colour vision; shapes differ too."""
PLANNED = "overtime_min"
"""Overtime is planned as well, so how often there is some says nothing."""
WIDE = 460
LEFT = 4
RIGHT = 4

ROWS = (
    mark("as it turned out"),
    mark("planned knowing the future"),
    mark("bound for that future"),
)


def rehearsal_page(plan: Plan, told: Sequence[Rehearsed], terms: Sequence[str]) -> str:
    """Return the page; ``terms`` say in words how; the first of ``told`` leads."""
    first = told[0]
    currency = plan.outfit.prices.currency
    n = len(first.plays)
    many = [section(tr("Price against risk"), *_settings(told, currency))] if len(told) > 1 else []
    return office_page(
        plan,
        tr("Rehearsal"),
        tr("{plays} of the season with luck", plays=count(n, "play", "plays")),
        section(tr("How often"), _often([r for r in risks(first.plays) if r.key != PLANNED], n)),
        section(tr("What it costs"), *_costs(first, currency)),
        *many,
        section(tr("All figures"), _risk_table(risks(first.plays), n)),
        section(tr("How it was rehearsed"), el("ul", *(el("li", t) for t in terms), cls="marked")),
        home="",
    )


def _svg(height: int, label: str, *parts: Html) -> Html:
    return el(
        "svg", *parts, viewBox=f"0 0 {WIDE} {height}", width="100%", role="img",
        xmlns="http://www.w3.org/2000/svg", **{"aria-label": label, "font-size": "14"},
    )  # fmt: skip


def _text(words: str, x: float, y: float, *, anchor: str = "start", size: int = 14) -> Html:
    return el("text", words, x=f"{x:.1f}", y=f"{y:.1f}",
              **{"text-anchor": anchor, "font-size": str(size)})  # fmt: skip


def _ground(words: str, x: float, y: float) -> Html:
    """Return white ground for words that begin at ``x``, so that no line behind strikes them."""
    wide = 14 * text_em(words) + 4
    return el("rect", x=str(x), y=str(y - 14), width=f"{wide:.1f}", height="20", fill="#fff")


def _line(x1: float, y1: float, x2: float, y2: float, width: str = "1", dash: str = "") -> Html:
    return el("line", x1=f"{x1:.1f}", y1=f"{y1:.1f}", x2=f"{x2:.1f}", y2=f"{y2:.1f}", stroke=INK,
              **{"stroke-width": width, "stroke-dasharray": dash})  # fmt: skip


def _share(part: int, whole: int) -> str:
    """Return a share in percent, to the nearest; nought and all only where it is just that."""
    percent = nearest_mean([100] * part + [0] * (whole - part))
    if 0 < part < whole and percent in {0, 100}:
        return "> 99 %" if percent else "< 1 %"
    return f"{percent} %"


def _often(found: Sequence[Risk], n: int) -> Html:
    """Return a bar for each risk: in how many of the plays it comes about."""
    parts, step = [], 46
    room = WIDE - LEFT - RIGHT - 64
    for row, risk in enumerate(found):
        y = 18 + row * step
        long = room * risk.plays / max(1, n)
        parts += [
            _text(tr(risk.words), LEFT, y),
            _line(LEFT, y + 16, LEFT + room, y + 16, dash="1 4"),
            el("rect", x=str(LEFT), y=str(y + 8), width=f"{long:.1f}", height="16", fill=RED),
            _text(f"{_share(risk.plays, n)}", LEFT + room + 10, y + 22, size=15),
        ]
    words = tr("Share of plays in which it comes about at least once")
    return put(el("p", words), _svg(step * len(found) + 8, words, *parts))


def _costs(one: Rehearsed, currency: str) -> tuple[Html, Html]:
    rows = (
        [(play.cents, play.all_done()) for play in one.plays],
        [(p.hindsight_cents, p.hindsight_done) for p in one.plays if p.hindsight_cents >= 0],
        [(p.bound_cents, True) for p in one.plays if p.bound_cents > 0],
    )
    filled = [(tr(name), row) for name, row in zip(ROWS, rows, strict=True) if row]
    every = [one.plan_cents, *(cents for _, row in filled for cents, _ in row)]
    low, high = min(every), max(every)
    room = WIDE - LEFT - RIGHT - 16

    def at(cents: int) -> float:
        return LEFT + 8 + room * (cents - low) / max(1, high - low)

    step = 84
    height = 44 + step * len(filled) + 34
    parts = [
        _line(at(one.plan_cents), 28, at(one.plan_cents), height - 34, "3"),
        _text(tr("the plan"), at(one.plan_cents), 20, anchor=_side(at(one.plan_cents))),
    ]
    for number, (name, row) in enumerate(filled):
        y = 52 + number * step
        parts += [_ground(name, LEFT, y), _text(name, LEFT, y)]
        parts += [_mark(at(c), y + 14 + 11 * (i % 4), done=d) for i, (c, d) in enumerate(row)]
    foot = height - 30
    parts += [
        _line(LEFT, foot, WIDE - RIGHT, foot, "2"),
        _text(money(low, currency), LEFT, foot + 22),
        _text(money(high, currency), WIDE - RIGHT, foot + 22, anchor="end"),
    ]
    label = tr("Cost of every play")
    return _cost_words(one, currency), _svg(height, label, *parts)


def _side(x: float) -> str:
    return "start" if x < WIDE / 4 else "end" if x > 3 * WIDE / 4 else "middle"


def _mark(x: float, y: float, *, done: bool) -> Html:
    """Return a blue dot for a play with all work done, else an open triangle."""
    if done:
        return el("circle", cx=f"{x:.1f}", cy=f"{y:.1f}", r="5", fill=BLUE,
                  **{"fill-opacity": "0.7"})  # fmt: skip
    points = f"{x:.1f},{y - 6:.1f} {x - 6:.1f},{y + 5:.1f} {x + 6:.1f},{y + 5:.1f}"
    return el("polygon", points=points, fill="none", stroke=RED, **{"stroke-width": "2.2"})


def _cost_words(one: Rehearsed, currency: str) -> Html:
    lines = [
        mean_words(one, currency),
        tr(
            "A dot is a play with all work done; an open triangle leaves work undone, and what is "
            "left costs nothing here."
        ),
    ]
    dear = hindsight_words(one.plays, currency)
    return put(*(el("p", words) for words in (*lines, *([dear] if dear else []))))


def mean_words(one: Rehearsed, currency: str) -> str:
    """Return what the plan says it costs, and what the plays cost that did all the work."""
    plan = money(one.plan_cents, currency)
    if one.unsure_cents:
        plan = tr(
            "{plan} (without {sum} for visits that weather may spoil)",
            plan=plan, sum=money(one.unsure_cents, currency),
        )  # fmt: skip
    mean, most = mean_cents(one.plays), most_cents(one.plays)
    if mean is None or most is None:
        return tr(
            "The plan says {plan}. In none of the plays is all work done, so what that costs is "
            "not known.", plan=plan,
        )  # fmt: skip
    return tr(
        "The plan says {plan}. Plays with all work done: {done} of {all}; they cost {mean} in "
        "the mean, nine in ten of them at most {p90}.",
        plan=plan, done=len(finished(one.plays)), all=len(one.plays),
        mean=money(mean, currency), p90=money(most, currency),
    )  # fmt: skip


def hindsight_words(plays: Sequence[Played], currency: str) -> str:
    """Return what not knowing the future costs, over plays in which all work is done both ways."""
    both = [p for p in plays if p.hindsight_done and p.all_done() and p.hindsight_cents >= 0]
    if not both:
        return ""
    dearer = nearest_mean([p.cents - p.hindsight_cents for p in both])
    over = nearest_mean([p.cents - p.bound_cents for p in both])
    words = tr(
        "In {plays} all work is done here and by somebody who knew boxes, masses, weather and "
        "breakdowns beforehand; not knowing costs {dearer} in the mean, and {over} above the "
        "bound for that future.",
        plays=count(len(both), "play", "plays"), dearer=money(dearer, currency),
        over=money(over, currency),
    )  # fmt: skip
    short = tr(
        "Below nought: the plan that knew the future was searched for too briefly, so what not "
        "knowing costs is not known. Rehearse again with more --hindsight rounds."
    )
    return f"{words} {short}" if dearer < 0 else words


def _risk_table(found: Sequence[Risk], n: int) -> Html:
    heads = (tr("what"), tr("plays"), tr("mean"), tr("nine in ten at most"), tr("worst"))
    lines = (
        (
            tr(r.words), f"{r.plays} / {n}", r.mean(), str(r.p90), str(r.worst),
        )
        for r in found
    )  # fmt: skip
    return table(heads, lines, "people")


def _settings(told: Sequence[Rehearsed], currency: str) -> tuple[Html, ...]:
    """Return price against risk: a numbered ring for each setting, and their table.

    A setting none of whose plays did all the work has no price, and stands in the table alone.
    """
    drawn = [
        (number, price, troubled(one.plays) / len(one.plays))
        for number, one in enumerate(told, 1)
        if (price := mean_cents(one.plays)) is not None
    ]
    if not drawn:
        return (_settings_table(told, currency),)
    low, high = (end(price for _, price, _ in drawn) for end in (min, max))
    left, top, wide, tall = 62, 16, WIDE - 62 - RIGHT - 14, 300
    parts = [_line(left, top, left, top + tall, "2"),
             _line(left, top + tall, WIDE - RIGHT, top + tall, "2")]  # fmt: skip
    for tick in range(0, 101, 25):
        y = top + tall * (1 - tick / 100)
        parts += [_line(left, y, WIDE - RIGHT, y, dash="1 4"),
                  _text(f"{tick} %", left - 8, y + 5, anchor="end")]  # fmt: skip
    for number, price, share in drawn:
        x = left + 14 + (wide - 14) * (price - low) / max(1, high - low)
        y = top + tall * (1 - share)
        parts += [
            el("circle", cx=f"{x:.1f}", cy=f"{y:.1f}", r="12", fill="#fff", stroke=BLUE,
               **{"stroke-width": "3"}),
            _text(str(number), x, y + 5, anchor="middle"),
        ]  # fmt: skip
    foot = top + tall + 22
    parts += [_text(money(low, currency), left, foot),
              _text(money(high, currency), WIDE - RIGHT, foot, anchor="end")]  # fmt: skip
    words = tr(
        "Down is safer: the share of plays with an overload, colonies past their cover or work "
        "undone. Right is dearer: the mean cost of plays with all work done. A setting without "
        "such a play stands in the table alone."
    )
    chart = _svg(top + tall + 34, words, *parts)
    return el("p", words), chart, _settings_table(told, currency)


def _settings_table(told: Sequence[Rehearsed], currency: str) -> Html:
    heads = ("", tr("setting"), tr("the plan"), tr("all done"), tr("mean cost then"),
             tr("plays with trouble"), tr("with overload"))  # fmt: skip
    lines = (
        (
            str(number), shown(said(one.name), 80), money(one.plan_cents, currency),
            f"{len(finished(one.plays))} / {len(one.plays)}", mean_money(one, currency),
            _share(troubled(one.plays), len(one.plays)),
            _share(sum(p.over_payload > 0 for p in one.plays), len(one.plays)),
        )
        for number, one in enumerate(told, 1)
    )  # fmt: skip
    return table(heads, lines, "people")


def mean_money(one: Rehearsed, currency: str) -> str:
    """Return the mean cost of the plays that did all the work; a dash where none did."""
    mean = mean_cents(one.plays)
    return "-" if mean is None else money(mean, currency)
