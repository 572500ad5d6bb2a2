import json
import re
from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.outfit.yards import Place
from runplanner.paperwork.map.legs import legs
from runplanner.paperwork.map.page import map_html
from runplanner.paperwork.map.places import unrolled
from runplanner.paperwork.map.roads import credit_html, road_facts, ways_of
from runplanner.roads.sketch import Line, Sketch, packed
from tests.paperwork.map_plans import a_dateline_plan, a_plan

PLAN = a_plan()


def bent(plan: Plan, start: int, end: int) -> Line:
    """A way between two places by a corner."""
    a, b = plan.outfit.places[start], plan.outfit.places[end]
    return ((a.lat, a.lon), (a.lat, b.lon), (b.lat, b.lon))


def a_sketch(plan: Plan = PLAN, credit: str = "Whose roads <these> are") -> Sketch:
    """A way for each drive of a plan, and three roads of three ranks."""
    pairs = sorted({(leg.start, leg.end) for leg in legs(plan)})
    drives = tuple((a, b, bent(plan, a, b)) for a, b in pairs)
    ground = tuple((rank, ((-40.9, 175.5 + rank / 10), (-41.0, 175.5))) for rank in (0, 1, 2))
    return Sketch(credit, drives, ground)


def calls(page: str, verb: str) -> list[dict[str, object]]:
    """What the page's script hands over to a verb."""
    found = re.findall(rf"runplanner\.{verb}\(\w+, (\{{.*\}})\);", page)
    return [json.loads(text) for text in found]


def test_every_drive_knows_its_way() -> None:
    """Each leg points at a way, and that way starts and ends where the leg does."""
    page = map_html(PLAN, roads=a_sketch())
    (roads,) = calls(page, "roads")
    drawn = calls(page, "leg")

    assert len(legs(PLAN)) >= len(drawn) > 10
    for leg in drawn:
        steps = roads["ways"][leg["way"]]  # type: ignore[index]
        lat, lon = steps[0] / 1e5, steps[1] / 1e5
        assert leg["from"] == pytest.approx([lat, lon], abs=1e-5)
        end = sum(steps[::2]) / 1e5, sum(steps[1::2]) / 1e5
        assert leg["to"] == pytest.approx(list(end), abs=1e-5)


def test_ways_that_nobody_drives_are_not_on_the_page() -> None:
    """They are kept for plans made again; the page is the same without them."""
    spare = [
        (a, b) for a in range(len(PLAN.outfit.places)) for b in range(a)
        if (a, b) not in {(leg.start, leg.end) for leg in legs(PLAN)}
    ]  # fmt: skip
    more = tuple((a, b, bent(PLAN, a, b)) for a, b in spare)
    sketch = replace(a_sketch(), drives=(*more, *a_sketch().drives))

    assert spare
    assert map_html(PLAN, roads=a_sketch()) == map_html(PLAN, roads=sketch)


def test_without_roads_nothing_is_said_of_them() -> None:
    """A plan on straight lines has bowed lines, no ground and no credit."""
    page = map_html(PLAN)

    assert [] == calls(page, "roads")
    assert not any("way" in leg for leg in calls(page, "leg"))
    assert "Lines are bowed" in page
    assert "Grey:" not in page
    assert '<p class="credit">' not in page


def test_the_key_and_the_plate_tell_of_the_roads() -> None:
    """Whose data they are stands on the plate, escaped; the key says what lines follow."""
    page = map_html(PLAN, roads=a_sketch())

    assert '<p class="credit">Roads: Whose roads &lt;these&gt; are</p>' in page
    assert "Lines follow the fastest way of the road file" in page
    assert "Grey: main roads, other roads, and dashed: tracks." in page
    assert "Lines are bowed" not in page


def test_tiles_stand_in_for_the_ground() -> None:
    """With online tiles the ways are drawn and the ground is not."""
    page = map_html(PLAN, online_tiles=True, roads=a_sketch())
    (roads,) = calls(page, "roads")

    assert [[], [], []] == roads["ground"]
    assert roads["ways"]
    assert "Grey:" not in page


def test_a_ground_that_is_too_much_to_draw_is_said() -> None:
    """Where no road round about is drawn the page says why, but not under tiles."""
    words = "The roads round about: they are too many to draw."
    full, lost = a_sketch(), replace(a_sketch(), ground=())

    assert words in map_html(PLAN, roads=lost)
    assert words not in map_html(PLAN, roads=full)
    assert words not in map_html(PLAN, online_tiles=True, roads=full)
    assert words not in map_html(PLAN)


def test_the_ground_comes_by_rank() -> None:
    """Main roads, others and tracks, packed as they are kept."""
    facts = road_facts(a_sketch(), unrolled(PLAN.outfit.places), [])

    expected = [[packed(((-40.9, 175.5 + rank / 10), (-41.0, 175.5)))] for rank in (0, 1, 2)]
    assert expected == facts["ground"]


def test_ways_of_another_plan_are_left_out() -> None:
    """A sketch whose ends are elsewhere, or of places that are not there, bows the lines."""
    spots = [(-40.0, 175.0), (-40.1, 175.1)]
    here, there = ((-40.0, 175.0), (-40.1, 175.1)), ((-40.0, 175.0), (-40.1, 175.2))

    assert {(0, 1): packed(here)} == ways_of(Sketch("", ((0, 1, here),), ()), spots)
    for drive in ((0, 1, there), (1, 0, here), (0, 2, here), (0, 1, here[:1]), (0, 1, ())):
        assert {} == ways_of(Sketch("", (drive,), ()), spots)
    assert {} == ways_of(None, spots)


def test_ways_across_the_date_line() -> None:
    """A way from 179.9 east to 179.9 west fits places whose longitudes run on past 180."""
    plan = a_dateline_plan()
    places = [Place("a", "A", 0.0, 179.9), Place("b", "B", 0.0, -179.9)]
    line = ((0.0, 179.9), (0.0, -179.9))

    assert {(0, 1): packed(line)} == ways_of(Sketch("", ((0, 1, line),), ()), unrolled(places))
    facts = road_facts(a_sketch(plan), unrolled(plan.outfit.places), [])
    assert 180 == pytest.approx(float(str(facts["middle"])), abs=0.1)


def test_no_places_at_all() -> None:
    """A sketch without a place to stand on still has a middle."""
    assert 0.0 == road_facts(a_sketch(), [], [])["middle"]


@pytest.mark.parametrize("evil", ["</script><img src=x onerror=alert(1)>", "{{7*7}}", "\u202e$`{"])
def test_a_hostile_credit_is_harmless(evil: str) -> None:
    """What stands in a borrowed roads.json is shown as text."""
    page = map_html(PLAN, roads=replace(a_sketch(), credit=evil * 400))

    assert "<img" not in page
    assert evil not in page
    assert "49" * 2 not in credit_html(replace(a_sketch(), credit=evil))
    assert len(credit_html(replace(a_sketch(), credit="x" * 9999))) < 250
    assert "" == credit_html(replace(a_sketch(), credit=""))


def test_the_same_roads_give_the_same_page() -> None:
    """Bytes do not hang on chance."""
    assert map_html(PLAN, roads=a_sketch()) == map_html(PLAN, roads=a_sketch())
