"""The campaign's map: one HTML page that opens with the network off.

The only door for folium.  folium reads what it is given as a template, twice; so text that
is not ours alone enters the page as finished text only, through :class:`_Finished`, and
every foreign word in it has passed the escaping door before.
"""

import json
from dataclasses import replace
from typing import Any

from runplanner.daybook.plan import Plan
from runplanner.outfit.yards import Health
from runplanner.paperwork.escape import cut, cut_name, html_text
from runplanner.paperwork.map.carried import (
    POLICY_MARK,
    TILE_HOST,
    leaflet_script,
    leaflet_style,
    own_text,
    with_policy,
)
from runplanner.paperwork.map.draw import (
    band_px,
    base_svg,
    base_width,
    cell_svg,
    look_of,
    split_of,
)
from runplanner.paperwork.map.legs import Leg
from runplanner.paperwork.map.panels import name_html, note_html, panels_html, roles_words
from runplanner.paperwork.map.roads import road_facts, ways_of
from runplanner.paperwork.map.sheet import BASE_PX, BaseMark, Cell, Sheet, sheet_of
from runplanner.paperwork.map.words import kg
from runplanner.paperwork.speech.living import for_people
from runplanner.paperwork.speech.tongue import spoken, tr
from runplanner.roads.sketch import Sketch

_LABEL_NAME = 26
_OWN_SCRIPTS = ("map_roads.js", "map_bands.js", "map_words.js", "map_frame.js", "map_ink.js")
_PAGE = """<!DOCTYPE html>
<html lang="{{ this.language }}">
<head>
<meta charset="utf-8">
{{ this.policy }}
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="{{ 'origin' if this.online else 'no-referrer' }}">
<link rel="icon" href="data:,">
<title>{{ this.title }}</title>
{% for text in this.styles %}<style>{{ text }}</style>
{% endfor %}{% for text in this.scripts %}<script>{{ text }}</script>
{% endfor %}</head>
<body>
{{ this.html.render(**kwargs) }}
{{ this.panels }}
<script>{{ this.script.render(**kwargs) }}</script>
</body>
</html>
"""
_MAP = """
{% macro html(this, kwargs) %}
<div id={{ this.get_name()|tojson }} class="sheet"></div>
{% endmacro %}
{% macro script(this, kwargs) %}
var {{ this.get_name() }} = L.map({{ this.get_name()|tojson }},
{center: {{ this.location|tojson }}, ...{{ this.options|tojavascript }} });
{% endmacro %}
"""


class _Finished:
    """A child of a folium element that is handed over as it stands, never as a template."""

    _parent: Any = None

    def __init__(self, name: str, text: str) -> None:
        self._name = name
        self._text = text

    def get_name(self) -> str:
        """Return the key under which folium keeps the child."""
        return self._name

    def render(self, **_: object) -> str:
        """Put the text into the page's script, in its turn among folium's own."""
        script = self._parent.get_root().script
        if self._parent is not script:
            script.add_child(_Finished(self._name, self._text), name=self._name)
        return self._text


def map_html(plan: Plan, *, online_tiles: bool = False, roads: Sketch | None = None) -> str:
    """Return the map of ``plan`` as one self-contained page.

    The same plan gives the same text.  With ``online_tiles`` the page asks OpenStreetMap's
    server for pictures, which tells that server where the yards are; without, it asks
    nobody for anything.  With ``roads`` drives follow them, and without tiles the roads
    round about are the ground.
    """
    crowded = roads is not None and not roads.ground and not online_tiles
    if roads is not None and online_tiles:
        roads = replace(roads, ground=())
    sheet = replace(sheet_of(for_people(plan), roads), crowded=crowded)
    page: str = _figure(sheet, online_tiles=online_tiles).render()
    return with_policy(page, online_tiles=online_tiles)


def _figure(sheet: Sheet, *, online_tiles: bool) -> Any:  # noqa: ANN401 - branca is untyped
    from folium.template import Template

    paper = _paper(sheet, online_tiles=online_tiles)
    figure = paper.get_root()
    figure._template = Template(_PAGE)  # noqa: SLF001 - folium's own page loads from the network
    figure.policy = POLICY_MARK
    figure.online = online_tiles
    figure.language = spoken()
    figure.title = html_text(cut(sheet.outfit.title or sheet.outfit.name, 120))
    figure.styles = [leaflet_style(), own_text("map_look.css")]
    figure.scripts = [leaflet_script(), *map(own_text, _OWN_SCRIPTS)]
    figure.panels = panels_html(sheet)
    return figure


def _paper(sheet: Sheet, *, online_tiles: bool) -> Any:  # noqa: ANN401
    import folium
    from folium.template import Template

    paper = folium.Map(
        location=list(sheet.spots[0]) if sheet.spots else [0.0, 0.0],
        tiles=None,
        zoom_control=False,
        zoom_snap=0.25,
        min_zoom=3,
        max_zoom=17,
        attribution_control=online_tiles,
    )
    # folium's own names are random and its own page fetches five libraries.
    paper._id, paper.default_js, paper.default_css = "sheet", [], []  # noqa: SLF001
    paper._template = Template(_MAP)  # noqa: SLF001
    if online_tiles:
        ground = folium.TileLayer(
            f"{TILE_HOST}/{{z}}/{{x}}/{{y}}.png",
            attr="\u00a9 OpenStreetMap contributors",
            max_zoom=17,
            max_native_zoom=19,
        )
        ground._id = "ground"  # noqa: SLF001
        ground.add_to(paper)
    _draw(sheet, paper)
    return paper


def _draw(sheet: Sheet, paper: Any) -> None:  # noqa: ANN401
    import folium

    name = paper.get_name()
    _call(paper, "start", name, {})
    driven = {(leg.start, leg.end) for leg in sheet.legs}
    known = ways_of(sheet.roads, sheet.spots)
    ways = {pair: way for pair, way in known.items() if pair in driven}
    if sheet.roads is not None:
        _call(paper, "roads", name, road_facts(sheet.roads, sheet.spots, list(ways.values())))
    numbers = {pair: number for number, pair in enumerate(ways)}
    for day in sheet.days:
        group = folium.FeatureGroup(name=day.name, show=False)
        group._id = f"day{day.day}"  # noqa: SLF001
        group.add_to(paper)
        look = look_of(day.look)
        facts = {
            "day": day.day,
            "colour": look.colour,
            "gaps": look.gaps,
            "shown": day.shown,
            "name": html_text(day.short),
        }
        _call(group, "day", group.get_name(), facts)
        for leg in sheet.legs:
            if leg.day == day.day:
                facts = _leg_facts(sheet, leg)
                if (leg.start, leg.end) in numbers:
                    facts["way"] = numbers[leg.start, leg.end]
                _call(group, "leg", group.get_name(), facts)
    looks = {day.day: day.look for day in sheet.days}
    for base in sheet.bases:
        _call(paper, "base", name, _base_facts(base))
    for cell in sheet.cells:
        _call(paper, "cell", name, _cell_facts(cell, looks))
    _call(paper, "finish", name, {"spots": sheet.spots})


def _call(parent: Any, verb: str, target: str, facts: dict[str, object]) -> None:  # noqa: ANN401
    """Add ``runplanner.verb(target, facts)`` to the page's script, after ``parent``."""
    key = f"{parent.get_name()}_{verb}_{len(parent._children)}"  # noqa: SLF001
    parent.add_child(_Finished(key, f"runplanner.{verb}({target}, {_script_json(facts)});\n"))


def _script_json(facts: dict[str, object]) -> str:
    """Return ``facts`` as JSON that cannot end a script element."""
    text = json.dumps(facts, ensure_ascii=True, separators=(",", ":"), allow_nan=False)
    return text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")


def _leg_facts(sheet: Sheet, leg: Leg) -> dict[str, object]:
    return {
        "from": sheet.spots[leg.start],
        "to": sheet.spots[leg.end],
        "wide": band_px(leg.load_g, sheet.full_g),
        "stop": leg.stop,
        "lane": leg.lane,
        "split": split_of(leg.truck),
        "driven": leg.driven,
        "label": kg(leg.load_g) if leg.load_g else tr("empty"),
        "note": note_html(leg.heading, leg.words),
    }


def _base_facts(base: BaseMark) -> dict[str, object]:
    return {
        "at": (base.lat, base.lon),
        "step": base.step,
        "radius": BASE_PX,
        "wide": base_width(base.roles) / 2,
        "svg": base_svg(base.roles),
        "name": _label_html(base.name),
        "words": html_text(", ".join(tr(role) for role in base.roles)),
        "note": note_html(base.name, (roles_words(base.roles),)),
    }


def _cell_facts(cell: Cell, looks: dict[int, int]) -> dict[str, object]:
    return {
        "at": (cell.lat, cell.lon),
        "step": cell.step,
        "radius": cell.radius,
        "svg": cell_svg(cell, looks),
        "name": _label_html(cell.name),
        "words": html_text(cell.note),
        "alarm": cell.alarm,
        "later": bool(cell.site),
        "flag": cell.alarm or cell.health is not Health.SOUND,
        "days": [day for day, _ in cell.fills],
        "note": note_html(cell.name, cell.lines),
    }


def _label_html(name: str) -> str:
    """Return a name as it stands beside its mark: so short that the style need not cut it."""
    return name_html(cut_name(name, _LABEL_NAME))
