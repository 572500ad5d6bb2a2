"""Which yards run out when: the stop-gap of condensed colonies against the next syrup."""

from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.days import DAY_MIN, day_of
from runplanner.outfit.yards import CLOSED
from runplanner.paperwork.lists.before_feed import feed_again_day
from runplanner.paperwork.sheet.frame import office_page, section, whole
from runplanner.paperwork.sheet.page import Part, el, table
from runplanner.paperwork.speech.say import count, date_words, duration, moment, yard_named
from runplanner.paperwork.speech.tongue import tr
from runplanner.paperwork.stop.cover import Cover, covers


@dataclass(frozen=True, slots=True)
class CoverLine:
    """Colonies that run out together; ``warn`` is empty when syrup comes well in time.

    ``fed_min`` is when syrup comes, None where the plan has none.
    """

    day: int
    ends: str
    yard: str
    colonies: int
    blocks: int
    fed: str
    warn: str
    fed_min: int | None


def cover_lines(plan: Plan) -> tuple[CoverLine, ...]:
    """Return a line for every stop-gap that must last until a later stop, soonest first."""
    return tuple(_line(plan, one) for one in covers(plan) if one.waits())


def lines_on(plan: Plan, *days: int) -> tuple[CoverLine, ...]:
    """Return the lines of what runs out on some days, fed on none before the first of them."""
    from_min = min(days) * DAY_MIN
    return tuple(
        line
        for line in cover_lines(plan)
        if line.day in days and (line.fed_min is None or line.fed_min >= from_min)
    )


def at_risk(plan: Plan) -> tuple[str, ...]:
    """Return a sentence for all colonies whose cover ends before syrup comes, soonest first.

    Those with no syrup planned at all are named even if they last beyond the last day, with what
    is then to be done; no block at a yard that is closed, nothing without consent, and no feed
    beside strips that forbid it.
    """
    return tuple(_risk(plan, one) for one in covers(plan) if one.runs_short())


def _risk(plan: Plan, cover: Cover) -> str:
    line, yard = short_line(_line(plan, cover)), plan.outfit.yard(cover.yard)
    end_day = day_of(cover.ends_min)
    if cover.fed_min is None and yard.left_alone:
        return tr("{line}; the yard is closed: ask the inspector", line=line)
    if cover.fed_min is None and cover.ends_min >= plan.outfit.season.n_days * DAY_MIN:
        if (again_day := feed_again_day(plan, cover.yard, end_day)) > end_day:
            date = date_words(plan.outfit, again_day)
            return tr("{line}; no feed beside its strips before {date}: take them out first, "
                      "ask your vet", line=line, date=date)  # fmt: skip
        if yard.health in CLOSED:
            return tr("{line}; after the last day: feed them by then", line=line)
        return tr("{line}; after the last day: feed them by then, or give a block", line=line)
    return line


def _line(plan: Plan, cover: Cover) -> CoverLine:
    outfit = plan.outfit
    return CoverLine(
        day=day_of(cover.ends_min),
        ends=moment(outfit, cover.ends_min),
        yard=yard_named(outfit, cover.yard),
        colonies=cover.colonies,
        blocks=cover.blocks,
        fed=moment(outfit, cover.fed_min) if cover.fed_min is not None else tr("no syrup planned"),
        warn=_warn(plan, cover),
        fed_min=cover.fed_min,
    )


def _warn(plan: Plan, cover: Cover) -> str:
    if cover.fed_min is None:
        return tr("RUNS OUT")
    if cover.runs_short():
        return tr("RUNS OUT before syrup")
    age, left = cover.fed_min - cover.off_min, cover.ends_min - cover.fed_min
    warn_min = plan.outfit.feed.cover_warn_min
    if warn_min is not None and age >= warn_min:
        return tr("stop-gap {time} old at feeding: look in", time=duration(age))
    if warn_min is None and left < DAY_MIN:
        return tr("cover for {time} left at feeding: look in", time=duration(left))
    return ""


def short_line(line: CoverLine) -> str:
    """Return a line of the list as a sentence."""
    colonies = count(line.colonies, "colony", "colonies")
    return tr(
        "{yard}: {colonies} run out {when}; syrup: {syrup}",
        yard=line.yard, colonies=colonies, when=line.ends, syrup=line.fed,
    )  # fmt: skip


def cover_page(plan: Plan) -> str:
    """Return the list as a page, a section for each day on which something runs out."""
    lines = cover_lines(plan)
    days = sorted({line.day for line in lines})
    parts: list[Part] = [
        section(
            tr("Runs out on {date}", date=date_words(plan.outfit, day)),
            table(
                (
                    tr("At"),
                    tr("Yard"),
                    tr("Colonies"),
                    tr("Blocks each"),
                    tr("First syrup planned"),
                    "",
                ),
                [_cells(line) for line in lines if line.day == day],
            ),
        )
        for day in days
    ]
    if not lines:
        parts.append(el("p", tr("No condensed colony lives on a stop-gap in this plan.")))
    return office_page(plan, tr("When the stop-gap runs out"), tr("soonest first"), *parts)


def _cells(line: CoverLine) -> tuple[Part, ...]:
    return (
        el("b", line.ends[-5:]),
        el("b", line.yard),
        str(line.colonies),
        str(line.blocks),
        whole(line.fed),
        el("b", line.warn, cls="mark") if line.warn else "",
    )
