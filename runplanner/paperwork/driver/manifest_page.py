"""The look of a driver's paper: one A4 page, or a column on a phone.

The eye falls on the left rail: stop number and time.  What is to be done next is the first
large thing on the sheet: leaving home, or loading, with the deck's list beside it.
Everything hangs on one table, so that a long trip flows to a second page with its head
repeated.
"""

from runplanner.paperwork.driver.if_late import then_words
from runplanner.paperwork.driver.manifest import Manifest, RestAt, Step
from runplanner.paperwork.driver.manifest_fit import type_sizes
from runplanner.paperwork.sheet.page import Html, Part, bullets, el, link, page, put
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.speech.trip_state import TripState

_LOAD = mark("Load, first on to last on")
_STATES = {
    TripState.UNDER_WAY: mark("under way"),
    TripState.DRIVEN: mark("already driven"),
}


def manifest_page(sheet: Manifest) -> str:
    """Return the page of one trip's sheet."""
    load, *others = sheet.steps
    steps = [_step(load, _deck(sheet)), *(_step(step) for step in others)]
    body = [*_home(sheet), *steps, _cautions(sheet)]
    whole = el(
        "table",
        el("thead", el("tr", el("th", _head(sheet)))),
        el("tbody", *(el("tr", el("td", part)) for part in body)),
        cls="sheet",
    )
    title = f"{sheet.date} {sheet.vehicles} {sheet.trip}"
    return page(title, whole, cls=f"manifest {type_sizes(sheet)}")


def _head(sheet: Manifest) -> Html:
    state = _STATES.get(sheet.state)
    driven = el("b", tr(state), cls="mark") if state else ""
    who = el("div", el("b", sheet.vehicles), el("span", sheet.crew), cls="who")
    which = el("div", el("span", sheet.part, driven), el("span", sheet.trip), cls="which")
    return el("header", el("b", sheet.date, cls="when"), who, which)


def _home(sheet: Manifest) -> list[Html]:
    """Return the row that says when to leave home, where loading is elsewhere."""
    if not sheet.leave_home:
        return []
    rail = el("div", el("b", cls="dot"), el("b", sheet.leave_home, cls="clock"), cls="rail")
    what = el("div", el("h3", tr("Leave home")), cls="what")
    return [el("article", rail, what, cls="stop base")]


def _deck(sheet: Manifest) -> Html:
    cells = [
        el("li", el("i", cls="tick"), el("small", one.where, ": "), el("b", one.what))
        for one in sheet.goods
    ]
    words = _LOAD if sheet.state is TripState.TO_LOAD else mark("Loaded, first on to last on")
    return el("section", el("p", tr(words)), el("ol", *cells), cls="deck")


def _step(step: Step, deck: Part = "") -> Html:
    return el(
        "article",
        _rail(step),
        _what(step),
        _limits(step),
        deck,
        cls="stop" if step.number else "stop base load" if deck else "stop base",
    )


def _rail(step: Step) -> Html:
    return el(
        "div",
        el("b", step.number, cls="ring") if step.number else el("b", cls="dot"),
        el("b", step.arrive, cls="clock"),
        el("small", _kept(step.way), cls="way"),
        el("b", tr("start {time}", time=step.begin), cls="begin") if step.begin else "",
        link(*step.geo, cls="geo") if step.geo[1] else "",
        cls="rail",
    )


def _kept(way: str) -> str:
    """Return a drive with each figure kept beside its unit: minutes, then kilometres."""
    return ", ".join(part.replace(" ", "\u00a0") for part in way.split(", "))


def _what(step: Step) -> Html:
    tick = "" if step.over else el("i", cls="tick")
    jobs = [put(tick, job) for job in step.jobs]
    return el(
        "div",
        el("h3", step.name, _beside(step)),
        _access(step),
        el("p", step.watch, cls="watch") if step.watch else "",
        _rest(step, RestAt.FIRST),
        bullets(jobs, cls="jobs"),
        _rest(step, RestAt.AMID),
        "" if step.number else _late(step),
        _blanks(step),
        _rest(step, RestAt.LAST),
        cls="what",
    )


def _rest(step: Step, place: RestAt) -> Html:
    """Return the break where it comes in the work, or nothing at any other place."""
    if not step.rest or step.rest_at is not place:
        return Html("")
    return el("p", tr("Break {times}", times=step.rest), cls="rest")


def _beside(step: Step) -> Html:
    if step.home:
        return el("b", tr("home {time}", time=step.home), cls="home")
    return el("small", step.lot, cls="lot") if step.lot else Html("")


def _access(step: Step) -> Html:
    parts: list[Part] = [f"{line} " for line in step.access]
    if step.phone:
        parts.append(put(tr("Ring"), " ", el("b", step.phone, cls="phone")))
    return el("p", *parts, cls="access") if parts else Html("")


def _blanks(step: Step) -> Html:
    if not step.blanks:
        return Html("")
    words = [el("span", tr(word)) for word in step.blanks]
    return el("p", el("b", tr("Done")), *words, cls="blanks")


def _limits(step: Step) -> Html:
    return el(
        "div",
        _stop_at(step),
        el("p", step.sooner) if step.sooner else "",
        _leave(step),
        _late(step) if step.number else "",
        _aboard(step),
        cls="limits",
    )


def _leave(step: Step) -> Html:
    if step.over:
        left = el("span", tr("left"), " ", step.leave)
        return el("p", left, el("b", tr("done"), cls="mark"), cls="leave")
    latest = el("b", tr("latest"), " ", el("b", step.latest))
    return el("p", el("span", tr("leave"), " ", step.leave), latest, cls="leave")


def _late(step: Step) -> Html:
    if not step.late:
        return Html("")
    return el("p", el("b", tr("If later:"), " "), then_words(step.late))


def _aboard(step: Step) -> Html:
    """Return what is aboard, but at the end of a trip, where it is the kit alone."""
    aboard = step.aboard
    if step.ends:
        return Html("")
    return el(
        "p",
        tr(mark("Left with") if step.over else mark("Leaving with")),
        " ",
        el("b", aboard.kg),
        ", ",
        aboard.goods(),
        ".",
        el("b", " ", aboard.limit) if aboard.limit else "",
        cls="tight" if aboard.limit else "",
    )


def _stop_at(step: Step) -> Html:
    if not step.stop_at:
        return Html("")
    words = tr("full boxes aboard")
    return el("p", tr("stop at"), " ", el("b", step.stop_at), " ", words, cls="stopat")


def _cautions(sheet: Manifest) -> Html:
    lines = [put(el("b", one.head), ": ", one.words) for one in sheet.cautions]
    return el("section", bullets(lines), el("p", sheet.unknown), cls="cautions")
