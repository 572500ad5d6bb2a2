"""What the map says about a yard: the short note beside it and the sentences behind it."""

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call
from runplanner.days import day_of
from runplanner.outfit.yards import Health, Yard
from runplanner.paperwork.lists.undone_list import by_reason, work_words
from runplanner.paperwork.map.cover import soonest
from runplanner.paperwork.map.words import day_short, job_done, named, spell
from runplanner.paperwork.map.work import Work, yard_calls
from runplanner.paperwork.speech.say import count, date_words, moment, sentence, stretch
from runplanner.paperwork.speech.substances import names_substance, substance_at
from runplanner.paperwork.speech.tongue import tr
from runplanner.paperwork.speech.trip_state import call_over
from runplanner.paperwork.speech.weather_words import kept_from
from runplanner.paperwork.stop.cover import Cover
from runplanner.paperwork.stop.health import health_on_map, state_words
from runplanner.paperwork.stop.one_stop import as_driven, parts_together
from runplanner.paperwork.stop.yard_words import nothing_words

MOST_SHUT = 8


def note(plan: Plan, yard: Yard, cover: Cover | None) -> str:
    """Return the few words that stand under a yard's name."""
    words = [] if yard.health is Health.SOUND else [state_words(yard)]
    if cover is not None:
        words.append(_cover_short(plan, cover))
    if any(job.yard == yard.id for job in plan.undone):
        words.append(tr("work undone"))
    return " · ".join(words)


def alarm(plan: Plan, yard: Yard, cover: Cover | None) -> bool:
    """Tell whether work is left undone at ``yard`` or cover ends before syrup comes."""
    short = cover is not None and cover.runs_short()
    return short or any(job.yard == yard.id for job in plan.undone)


def _cover_short(plan: Plan, cover: Cover) -> str:
    """Return when cover ends, date and hour: a day alone could be one gone by."""
    ends = moment(plan.outfit, cover.ends_min)
    if cover.runs_short():
        return tr("RUNS OUT {when}", when=ends)
    return tr("cover ends {when}", when=ends)


def _cover_line(plan: Plan, cover: Cover) -> str:
    ends = moment(plan.outfit, cover.ends_min)
    many = count(cover.colonies, "colony", "colonies")
    if cover.fed_min is None:
        return tr(
            "Cover ends {when} for {colonies}; no syrup is planned after it.",
            when=ends, colonies=many,
        )  # fmt: skip
    return tr(
        "Cover ends {when} for {colonies}; syrup comes {syrup}.",
        when=ends, colonies=many, syrup=moment(plan.outfit, cover.fed_min),
    )  # fmt: skip


def lines(plan: Plan, yard: Yard, work: Work, cover: Cover | None) -> tuple[str, ...]:
    """Return the sentences for whoever taps a yard."""
    colonies = count(yard.colonies, "colony", "colonies")
    boxes = count(yard.boxes, "full honey box", "full honey boxes")
    left = work.total_s()
    return (
        f"{colonies}, {boxes}.",
        *([health_on_map(yard)] if yard.health is not Health.SOUND else []),
        tr("Work left: {time} for one person.", time=spell(left)) if left else tr("No work left."),
        *([_cover_line(plan, cover)] if cover is not None else []),
        *visits(plan, yard),
        *_weather(plan, yard),
        *_undone_lines(plan, yard),
    )


def visits(plan: Plan, yard: Yard, place: int | None = None) -> list[str]:
    """Return one line for each stop at ``yard``, or at one of its places, in order of time."""
    driven = tr(" (driven)")
    substance = substance_at(plan.outfit, yard.id) if names_substance(plan.outfit) else ""
    calls = [
        call for _, _, call in yard_calls(as_driven(plan))
        if call.yard == yard.id and place in {None, call.place}
    ]  # fmt: skip
    return [
        f"{date_words(plan.outfit, day_of(call.start_min))} "
        f"{stretch(call.start_min, call.end_min)}"
        f"{driven if call_over(plan, call) else ''}: {_jobs(plan, call, substance)}."
        for call in sorted(calls, key=lambda call: call.start_min)
    ]


def _jobs(plan: Plan, call: Call, substance: str) -> str:
    jobs = (job_done(one, substance) for one in parts_together(plan, call).actions)
    return "; ".join(jobs) or nothing_words(plan, call)


def _weather(plan: Plan, yard: Yard) -> list[str]:
    """Return what weather keeps from being done at the yard, when and why, from now on."""
    days = range(max(0, day_of(plan.now_min)), plan.outfit.season.n_days)
    told = [(day, line) for day in days for line in kept_from(plan, yard, day)]
    lines = [f"{day_short(plan.outfit, day)} {line}." for day, line in told[:MOST_SHUT]]
    more = len(told) - MOST_SHUT
    return [*lines, tr("And {number} more.", number=more)] if more > 0 else lines


def _undone_lines(plan: Plan, yard: Yard) -> list[str]:
    """Return what the plan leaves at a yard, and each reason once."""
    return [
        " ".join(
            (
                tr("Left undone: {work}.", work="; ".join(work_words(job) for job in jobs)),
                *map(sentence, reasons),
            )
        )
        for where, jobs, reasons in by_reason(plan, priced=False)
        if where == yard.id
    ]


def runs_out(plan: Plan) -> tuple[str, ...]:
    """Return one line for each yard that lives on a stop-gap, the soonest end first."""
    return tuple(
        f"{named(plan.outfit.yard(cover.yard).name)}: {_cover_line(plan, cover)}"
        for cover in soonest(plan)
    )


def undone(plan: Plan) -> tuple[str, ...]:
    """Return one line for each job the plan leaves."""
    return tuple(
        f"{named(yard.name)}: {line}"
        for yard in plan.outfit.yards
        for line in _undone_lines(plan, yard)
    )
