"""What stands round the map: title plate, day tabs, key and lists, as HTML text.

Every word that came from a file passes ``html_text`` here.
"""

from runplanner.outfit.yards import Health
from runplanner.paperwork.driver.cautions import guessed_drives
from runplanner.paperwork.escape import cut, cut_name, html_text, words_html
from runplanner.paperwork.map.draw import (
    TIE_SVG,
    band_px,
    band_svg,
    base_svg,
    cell_svg,
    patterns,
    split_of,
    swatch_svg,
)
from runplanner.paperwork.map.roads import GROUND_SVG, credit_html
from runplanner.paperwork.map.sheet import MOST_PX, Cell, DaySheet, Sheet, radius
from runplanner.paperwork.map.words import kg, spell
from runplanner.paperwork.speech.say import count
from runplanner.paperwork.speech.tongue import mark, said, tr

LONGEST_NAME = 200
_LONGEST_LINE = 600


def name_html(name: str) -> str:
    """Return a name as HTML, kept from turning the text round it."""
    return f"<bdi>{html_text(cut(name, LONGEST_NAME))}</bdi>"


def note_html(heading: str, lines: tuple[str, ...]) -> str:
    """Return what opens when something on the map is tapped."""
    told = "".join(f"<p>{words_html(cut(line, _LONGEST_LINE))}</p>" for line in lines)
    return f"<h3>{name_html(heading)}</h3>{told}"


def panels_html(sheet: Sheet) -> str:
    """Return all panels of the page, the hidden pattern definitions first."""
    return "".join((patterns(len(sheet.days)), _plate(sheet), _key(sheet), _day_tabs(sheet.days)))


def _plate(sheet: Sheet) -> str:
    title = sheet.outfit.title or sheet.outfit.name
    names = list(dict.fromkeys(day.name for day in (*sheet.days[:1], *sheet.days[-1:])))
    span = tr("{start} to {end}", start=names[0], end=names[1]) if names[1:] else "".join(names)
    yards = count(len(sheet.outfit.yards), "yard", "yards")
    return (
        f'<header class="plate"><h1>{name_html(title)}</h1>'
        f"<p>{words_html(span)}{', ' if span else ''}{yards}.{_invented(title)}</p>"
        f"{credit_html(sheet.roads)}</header>"
    )


def _invented(title: str) -> str:
    if "invented" not in title.casefold():
        return ""
    words = tr("Invented scenario: no such yards or people.")
    return f" <strong>{words}</strong>"


def _day_tabs(days: tuple[DaySheet, ...]) -> str:
    if not days:
        words = tr("No trips are planned.")
        return f'<nav class="days"><p>{words}</p></nav>'
    tabs = "".join(_tab(day) for day in days)
    shown, every = tr("Days shown"), tr("All")
    before, after = tr("Day before, alone"), tr("Next day, alone")
    return (
        f'<nav class="days" aria-label="{shown}">'
        f'<button type="button" data-step="-1" aria-label="{before}">\u2039</button>'
        f'<div class="tabs"><button type="button" data-all="1">{every}</button>{tabs}</div>'
        f'<button type="button" data-step="1" aria-label="{after}">\u203a</button></nav>'
    )


def _tab(day: DaySheet) -> str:
    pressed = "true" if day.shown else "false"
    return (
        f'<button type="button" class="tab" data-day="{day.day}" aria-pressed="{pressed}">'
        f"{swatch_svg(day.look)}<b>{html_text(day.name)}</b><i>{words_html(day.trips)}</i></button>"
    )


def _key(sheet: Sheet) -> str:
    lists = (
        _list(tr("Left undone"), sheet.undone)
        + _list(tr("Cover ends"), sheet.runs_out)
        + _unknown(sheet)
    )
    # What a phone has room for beside the title.
    short = html_text(tr("Key"))
    return (
        f'<details class="key" id="key"><summary data-short="{short}">'
        + tr("Key and lists")
        + '</summary><div class="roll">'
        f"<dl>{_key_rows(sheet)}</dl>{lists}</div></details>"
    )


def _key_rows(sheet: Sheet) -> str:
    rows = (
        *_health_rows(sheet),
        *_line_rows(sheet),
        *((base_svg(base.roles), html_text(roles_words(base.roles))) for base in sheet.bases),
        *_ground_rows(sheet),
        (
            TIE_SVG,
            tr("A thin line ties words to their place. Words without room wait: zoom in, or tap."),
        ),
    )
    work = _work_rows(sheet)
    return "".join(
        f"<div><dt{' class=to-scale' if n < len(work) else ''}>{picture}</dt><dd>{words}</dd></div>"
        for n, (picture, words) in enumerate((*work, *rows))
    )


def _work_rows(sheet: Sheet) -> list[tuple[str, str]]:
    most = sheet.most_work_s
    if not most:
        return [(_sample(), tr("A yard with no work left."))]
    looks = {day.day: day.look for day in sheet.days}
    first = [day.day for day in sheet.days[:2]]
    fills = tuple((day, 0.75 / len(first)) for day in first)
    full = Cell("", 0, 0, (0, 0), MOST_PX, fills, 0.25, Health.SOUND, "", "", False, ())
    small = Cell("", 0, 0, (0, 0), radius(most // 4, most), (), 0, Health.SOUND, "", "", False, ())
    return [
        (
            cell_svg(full, looks),
            tr(
                "A yard. Its area is the work left there, here {time} for one person. Filled from "
                "below, one layer for each day's share; striped black on white is left undone.",
                time=spell(most),
            ),
        ),
        (cell_svg(small, looks), f"{spell(most // 4)}."),
    ]


def _sample(health: Health = Health.SOUND, site: str = "") -> str:
    return cell_svg(Cell("", 0, 0, (0, 0), 11, (), 0, health, site, "", False, ()), {})


def _health_rows(sheet: Sheet) -> list[tuple[str, str]]:
    """Return a row for each state of health, and for moved hives, that is on the map."""
    said = {
        Health.WATCH: tr("Dashed ring: watch, or a standstill under licence."),
        Health.SUSPECT: tr("Ring and cross: suspect, nothing leaves."),
        Health.STANDSTILL: tr("Ring and two bars: standstill."),
    }
    states = {cell.health for cell in sheet.cells}
    rows = [(_sample(state), words) for state, words in said.items() if state in states]
    if any(cell.alarm for cell in sheet.cells):
        tag = tr("word")
        rows.append(
            (f'<span class="tag">{tag}</span>', tr("Syrup comes too late, or work is undone."))
        )
    if any(cell.site for cell in sheet.cells):
        rows.append((_sample(site="later"), tr("Dotted: the hives move here later.")))
    return rows


def _line_rows(sheet: Sheet) -> list[tuple[str, str]]:
    full = sheet.full_g
    rows = [
        (
            band_svg(band_px(load, full)),
            _load_words(load, whole=load == full),
        )
        for load in (full, full // 2)
        if load
    ]
    if full:
        rows.append((band_svg(7, 3), tr("Beads count the stop the line leads to: the third.")))
    rows += [(band_svg(9, split=split), words) for split, words in _trucks_apart(sheet).items()]
    if any(leg.driven for leg in sheet.legs):
        rows.append((band_svg(9, hollow=True), tr("In outline: already driven.")))
    return rows


def _ground_rows(sheet: Sheet) -> list[tuple[str, str]]:
    if sheet.roads is None or not sheet.roads.ground:
        return []
    return [(GROUND_SVG, tr("Grey: main roads, other roads, and dashed: tracks."))]


def _trucks_apart(sheet: Sheet) -> dict[str, str]:
    """Return whose lines are split, by the dashes of the light line in them, of trucks that go."""
    names: dict[str, list[str]] = {}
    for truck in sorted({leg.truck for leg in sheet.legs if split_of(leg.truck)}):
        name = cut_name(sheet.outfit.trucks[truck].name, 40)
        names.setdefault(split_of(truck), []).append(name)
    texts = (
        mark("Split by a light line: {trucks}."),
        mark("Split by a dashed light line: {trucks}."),
        mark("Split by a dotted light line: {trucks}."),
    )
    words = {split_of(number): words for number, words in enumerate(texts, 1)}
    return {
        split: html_text(tr(words[split], trucks=", ".join(alike)))
        for split, alike in names.items()
    }


def _load_words(load: int, *, whole: bool) -> str:
    if whole:
        return tr("{mass} aboard, drives to the thin end.", mass=kg(load))
    return tr("{mass} aboard.", mass=kg(load))


def roles_words(roles: tuple[str, ...]) -> str:
    """Return what a base is as a sentence."""
    said = ", ".join(tr(role) for role in roles)
    return f"{said[:1].upper()}{said[1:]}."


def _list(heading: str, lines: tuple[str, ...]) -> str:
    if not lines:
        return ""
    items = "".join(f"<li>{words_html(cut(line, _LONGEST_LINE))}</li>" for line in lines)
    return f"<h2>{heading}</h2><ul>{items}</ul>"


def _roads_unknown(sheet: Sheet) -> str:
    if sheet.roads is None or not sheet.roads.drives:
        return tr("Roads. Lines are bowed from place to place so that they can be told apart.")
    return tr(
        "Which road is best on the day. Lines follow the fastest way of the road file, eased and "
        "put side by side."
    )


def _unknown(sheet: Sheet) -> str:
    outfit = sheet.outfit
    drives = cut(said(outfit.travel.source), 160)
    guessed = guessed_drives(outfit, range(len(outfit.places)))
    drives = tr("{source}; {guessed}", source=drives, guessed=guessed) if guessed else drives
    source = words_html(drives)
    told = (
        _roads_unknown(sheet),
        tr("Exact times and loads: they are estimates. Driving from: {source}.", source=source),
        tr("The way in. Gates, keys and phone numbers are on the papers of whoever drives there."),
        tr("Traffic, and whatever has happened since the plan was made."),
        *([tr("The roads round about: they are too many to draw.")] if sheet.crowded else []),
    )
    items = "".join(f"<li>{line}</li>" for line in told)
    head = tr("What this map does not know")
    return f"<h2>{head}</h2><ul>{items}</ul>"
