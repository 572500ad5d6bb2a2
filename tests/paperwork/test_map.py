"""The map page as text: closed to the network, closed to other people's code."""

import subprocess
import sys
from base64 import b64encode
from dataclasses import replace
from hashlib import sha256
from html.parser import HTMLParser

import pytest

from runplanner.daybook.plan import Plan
from runplanner.paperwork.escape import html_text
from runplanner.paperwork.map.carried import leaflet_script, leaflet_style
from runplanner.paperwork.map.page import map_html
from runplanner.phrase import verbatim
from tests.paperwork.map_plans import (
    GATE,
    HOSTILE,
    PHONE,
    a_big_plan,
    a_crowded_plan,
    a_dateline_plan,
    a_plan,
    an_empty_plan,
)

PLANS = [a_plan(), a_plan(HOSTILE), a_big_plan(), a_crowded_plan(), a_dateline_plan()]


class _Page(HTMLParser):
    """Collects tags, addresses and the text of scripts and styles."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.addresses: list[str] = []
        self.policy = ""
        self.inner: dict[str, list[str]] = {"script": [], "style": []}
        self._inside = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        facts = dict(attrs)
        self.addresses += [value or "" for name, value in attrs if name in {"src", "href"}]
        if facts.get("http-equiv") == "Content-Security-Policy":
            self.policy = facts["content"] or ""
        if tag in self.inner:
            self._inside = tag
            self.inner[tag].append("")

    def handle_endtag(self, tag: str) -> None:
        self._inside = "" if tag == self._inside else self._inside

    def handle_data(self, data: str) -> None:
        if self._inside:
            self.inner[self._inside][-1] += data


def _own_part(page: str) -> str:
    return page.replace(leaflet_script(), "").replace(leaflet_style(), "")


@pytest.mark.parametrize("plan", [*PLANS, an_empty_plan()])
def test_nothing_is_fetched(plan: Plan) -> None:
    """No element names an outside address, and outside Leaflet "http" is a word of no line."""
    page = map_html(plan)

    assert ["data:,"] == _Page(page).addresses
    assert "http" not in _own_part(page).replace("http-equiv", "")
    assert "url(" not in leaflet_style()
    assert "sourceMappingURL" not in page


def test_the_library_is_the_installed_one() -> None:
    """The page holds the installed package's Leaflet, whole and with its licence line."""
    assert "Leaflet 1.9.4" in leaflet_script()[:200]
    assert leaflet_script() in map_html(a_plan())


@pytest.mark.parametrize("plan", PLANS)
@pytest.mark.parametrize("online", [False, True])
def test_policy_names_each_script_and_style(plan: Plan, online: bool) -> None:  # noqa: FBT001
    """The marks in the policy are those of the texts, recomputed here, in their order."""
    page = _Page(map_html(plan, online_tiles=online))
    rules = dict(rule.split(" ", 1) for rule in page.policy.split("; "))

    assert "'none'" == rules["default-src"]
    for kind in ("script", "style"):
        marks = [b64encode(sha256(text.encode()).digest()).decode() for text in page.inner[kind]]
        assert " ".join(f"'sha256-{mark}'" for mark in marks) == rules[f"{kind}-src"]
    assert ("data: https://tile.openstreetmap.org" if online else "data:") == rules["img-src"]


def test_hostile_names_make_no_element_and_no_script() -> None:
    """The page of the hostile names has the same elements as the page of the plain ones."""
    plain, hostile = _Page(map_html(a_plan())), _Page(map_html(a_plan(HOSTILE)))

    assert plain.tags == hostile.tags


def _evil_everywhere(text: str) -> Plan:
    """The plain plan with ``text`` in every field of text that the map shows."""
    plan = a_plan([text] * 12)
    outfit = plan.outfit
    return replace(
        plan,
        outfit=replace(
            outfit,
            title=f"{text} (invented)",
            places=tuple(replace(place, name=text) for place in outfit.places),
            trucks=tuple(replace(truck, name=text) for truck in outfit.trucks),
            travel=replace(outfit.travel, source=verbatim(text)),
        ),
        undone=tuple(
            # A reason for each job: one said of two jobs of a yard is said once.
            replace(job, why=(verbatim(f"{text}{number}"),))
            for number, job in enumerate(plan.undone)
        ),
    )


def test_hostile_text_in_every_field_is_harmless() -> None:
    """Title, places, trucks, source of times and reasons are escaped as the names are."""
    evil = "</title></script><img src=x onerror=alert(1)>{{7*7}}{% x %}${1}`\\"
    page = map_html(_evil_everywhere(evil))

    assert _Page(map_html(a_plan())).tags == _Page(page).tags
    assert "<img" not in _own_part(page)
    assert "{{7*7}}" not in page


@pytest.mark.parametrize("name", HOSTILE[:-1])
def test_hostile_names_stand_only_in_their_escaped_form(name: str) -> None:
    """A hostile name is in the page as the escaping door writes it, and in no other way."""
    page = _own_part(map_html(a_plan([name] * 12)))
    # In the script's strings & and < are written as JSON escapes once more.
    safe = html_text(name).replace("&", "\\u0026").encode("ascii", "backslashreplace").decode()
    plain_page = _own_part(map_html(a_plan()))

    assert safe in page
    if name != html_text(name):
        assert page.count(name) == plain_page.count(name)


def test_a_template_in_a_name_is_not_worked_out() -> None:
    """Folium would print 49 for this name; the page prints the name."""
    plan = a_plan(["{{7*7}}{{ ''.__class__ }}"] * 12)
    page = _own_part(map_html(plan))

    assert "49{{" not in page
    assert "&lt;class" not in page
    assert "\\u0026#123;\\u0026#123;7*7" in page


def test_the_same_plan_gives_the_same_bytes() -> None:
    """Twice here and once in a process with other hash seeds: one and the same text."""
    code = (
        "import hashlib; from runplanner.paperwork.map.page import map_html;"
        "from tests.paperwork.map_plans import a_plan;"
        "print(hashlib.sha256(map_html(a_plan()).encode()).hexdigest())"
    )
    other = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONHASHSEED": "7", "PYTHONPATH": "."},
    )

    assert map_html(a_plan()) == map_html(a_plan())
    assert map_html(a_plan(), online_tiles=True) == map_html(a_plan(), online_tiles=True)
    assert sha256(map_html(a_plan()).encode()).hexdigest() == other.stdout.strip()


def test_the_way_in_stays_off_the_map() -> None:
    """Gate codes, keys and phone numbers of the yards are nowhere in the page."""
    plan = a_plan()
    page = map_html(plan)

    assert plan.outfit.yards[0].access.notes == GATE
    assert "4711" not in page
    assert PHONE not in page


def test_tiles_come_only_when_asked_for() -> None:
    """With online tiles there is one tile address and its attribution; else neither."""
    tiles = "https://tile.openstreetmap.org/{z}/{x}/{y}.png"

    assert 1 == map_html(a_plan(), online_tiles=True).count(tiles)
    assert "OpenStreetMap contributors" in map_html(a_plan(), online_tiles=True)
    assert "openstreetmap" not in map_html(a_plan()).lower()


def test_title_and_invented_note() -> None:
    """The outfit's title is the page's; an invented outfit is said to be one."""
    page = map_html(a_plan())

    assert "<title>A valley of twelve yards (invented)</title>" in page
    assert "Invented scenario: no such yards or people." in page


def test_what_the_map_does_not_know_is_said() -> None:
    """The key says that lines are no roads and that times are estimates, and from where."""
    page = map_html(a_plan())

    assert "What this map does not know" in page
    assert "Driving from: straight lines with a detour factor, for tests." in page


def test_loads_stand_in_words_on_their_lines() -> None:
    """A line's label says its kilograms and its popup the limit and the goods."""
    # Day 0, first trip, after Long Paddock: 15 boxes of 16 kg, 10 blocks of 2.1 kg left of
    # 20, a 60 kg tank: 240 + 21 + 60 = 321 kg.
    page = map_html(a_plan())

    assert '"label":"321 kg"' in page
    assert r"321\u00a0kg aboard of 1100\u00a0kg allowed: 15 honey boxes, 10 fondant blocks." in page
