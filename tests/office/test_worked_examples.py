"""Published chains of arithmetic through the whole program: scenario, plan, audit, papers.

Each example is typed as a keeper would type it; what comes out is read off the papers or the
lines that ``check`` shows, and compared with what was published.  Tests of the single
functions are in ``tests/trade``.
"""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from runplanner import Effort, plan_campaign
from runplanner.daybook.plan import Plan
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.lists.mixing_sheet import mixes
from runplanner.paperwork.lists.shopping import poured_ml, shopping
from runplanner.phrase import phrase
from runplanner.scenario import implied, read_scenario
from runplanner.visits.due import due
from tests.scenario.folders import TRUCK, a_folder

POUR = 'round_to = "10 ml"\n'
DEEP_TRUCK = TRUCK.replace('max = "3.5 t"', 'max = "7.5 t"')


def outfit_of(
    folder: Path, table: str, feed: str, *, truck: str = DEEP_TRUCK, more: str = ""
) -> Outfit:
    """The outfit of a scenario with this yards table and these lines under [feed]."""
    return read_scenario(a_folder(folder, f"[feed]\n{feed}{POUR}{more}", yards=table, truck=truck))


def planned(outfit: Outfit) -> Plan:
    """A plan of the outfit that the audit finds nothing wrong with."""
    outcome = plan_campaign(outfit, Effort(seed=1, rounds=1))
    assert not outcome.findings
    return outcome.plan


def figure(words: str) -> float:
    """The first number of some words."""
    found = re.search(r"[0-9.]+", words)
    assert found is not None
    return float(found[0])


def test_austria_six_colonies(tmp_path: Path) -> None:
    """torftrottel.at: 20 kg wanted, 5 kg there: 15 kg in three lots of 5.

    For six colonies of one lot: 30 kg of stores at 1.2 take 25 kg of sugar and 17.5 L of
    water, about 32.5 L of syrup (density gives 33.2).
    """
    feed = 'recipe = "1 kg + 0.7 L"\nstores_per_kg_sugar = "1.2 kg"\nmix_per_hour = "60 L/h"\n'
    table = (
        "name,lat,lon,colonies,boxes,stores,target,feeder\n"
        "Three lots,-38.01,175.06,6,0,5 kg,20 kg,5.6 L\n"
        "One lot,-38.02,175.07,6,0,15 kg,20 kg,5.6 L\n"
    )
    outfit = outfit_of(tmp_path, table, feed)
    three, one = (due(outfit, yard) for yard in outfit.yards)
    assert (15_000, 3, 5_000, 1) == (three.need_g, three.rounds, one.need_g, one.rounds)

    plan = planned(replace(outfit, yards=outfit.yards[1:]))
    (mix,) = mixes(plan)
    # Each colony's pour is rounded up to 10 ml, and the papers to whole kilograms and litres.
    assert 25 <= figure(mix.sugar) <= 26
    assert 17.5 <= figure(mix.water) <= 18
    assert poured_ml(plan) / 1000 == pytest.approx(33.2, abs=0.1)
    assert poured_ml(plan) / 1000 == pytest.approx(32.5, rel=0.03)
    bought = {item.what: item for item in shopping(plan)}
    assert 25 <= figure(bought["Sugar"].need) <= 26


def test_seven_months_of_winter(tmp_path: Path) -> None:
    """bienenundnatur.de: four months with brood x 3 kg and three x 1 kg: 15 kg, our default."""
    table = "name,lat,lon,colonies,boxes\nA,-38.01,175.06,6,0\n"
    (yard,) = outfit_of(tmp_path, table, "").yards
    assert 15_000 == yard.target_g


@pytest.mark.parametrize(
    ("lot_kg", "water_ml", "litres"), [(4, 2_520, 5.03), (3, 1_890, 3.77), (2, 1_260, 2.52)]
)
def test_nine_kilograms_in_three_lots(
    tmp_path: Path, lot_kg: int, water_ml: int, litres: float
) -> None:
    """killowen.com: 630 ml to the kg; lots of 4, 3 and 2 kg of sugar fit a 6 L feeder each.

    A hundred colonies, so that what is rounded on paper weighs little.
    """
    table = (
        "name,lat,lon,colonies,boxes,stores,target,feeder\n"
        f"A,-38.01,175.06,100,0,0 kg,{lot_kg} kg,6 L\n"
    )
    feed = 'recipe = "1 kg + 630 ml"\nstores_per_kg_sugar = "1 kg"\n'
    outfit = outfit_of(tmp_path, table, feed)
    found = due(outfit, outfit.yards[0])
    assert 1 == found.rounds
    assert found.round_ml / 1000 == pytest.approx(litres, abs=0.02)

    plan = planned(outfit)
    made = mixes(plan)
    assert sum(figure(one.water) for one in made) == pytest.approx(water_ml / 10, rel=0.01)
    assert sum(figure(one.sugar) for one in made) == pytest.approx(100 * lot_kg, rel=0.01)


def test_nine_full_frames(tmp_path: Path) -> None:
    """BBKA News 216: nine full BS deep frames are 20 kg, and nothing is to be fed; eight are not.

    The printed frame is 2.2 kg, the rule by area makes 2.42.
    """
    table = (
        "name,lat,lon,colonies,boxes,frames_of_stores,frame_stores,climate\n"
        "Nine,-38.01,175.06,6,0,9,national brood,temperate\n"
        "Eight,-38.02,175.07,6,0,8,national brood,temperate\n"
    )
    outfit = outfit_of(tmp_path, table, "")
    nine, eight = (due(outfit, yard) for yard in outfit.yards)
    assert 20_000 == outfit.yards[0].target_g
    assert (0, 1) == (nine.rounds, eight.rounds)


@pytest.mark.parametrize(("made", "stores_kg"), [("1.12 kg", 14.9), ("1.20 kg", 15.9)])
def test_ontario_fifteen_litres(tmp_path: Path, made: str, stores_kg: float) -> None:
    """farms.com: 15 L of 2:1 are 13.3 kg of sugar and 19.9 kg on the truck; 1.99 t for a hundred.

    They become 14.9 kg of stores at 1.12 and 15.9 at 1.20, so who lacks that is poured 15 L.
    """
    table = (
        "name,lat,lon,colonies,boxes,stores,target,feeder\n"
        f"A,-38.01,175.06,10,0,0 kg,{stores_kg} kg,15.5 L\n"
    )
    more = '[[containers]]\nkind = "ibc"\nowned = 1\n'
    outfit = outfit_of(tmp_path, table, f'stores_per_kg_sugar = "{made}"\n', more=more)
    plan = planned(outfit)
    (loaded,) = (
        trip.calls[0].after
        for shift in plan.shifts
        for trip in shift.trips
        if trip.calls[0].after.ml
    )

    assert loaded.ml / 1000 == pytest.approx(150, abs=1)
    # The empty tank is 60 kg; strips and blocks are what else is aboard.
    kit_g = loaded.strips * outfit.kit.strip_g + loaded.blocks * outfit.kit.block_g
    syrup_g = loaded.load_g - 60_000 - kit_g
    assert 10 * syrup_g / 1e6 == pytest.approx(1.99, abs=0.015)
    assert sum(figure(mix.sugar) for mix in mixes(plan)) == pytest.approx(133, abs=1)


def test_national_boxes_on_a_small_truck(tmp_path: Path) -> None:
    """460 mm square on 3.10 x 2.10 m: 24 columns of 5; 17 kg on 1050 kg: 61 boxes, weight binds.

    With boxes next to empty (4.6 kg) the deck and its height bind first: 120 boxes.
    """
    # 3.5 t - 2.235 t - 60 kg fuel - 70 kg kit - 85 kg driver = 1050 kg.
    truck = TRUCK.replace('empty = "2.1 t"', 'empty = "2.235 t"')
    table = "name,lat,lon,colonies,boxes,box,box_mass\nA,-38.01,175.06,60,200,national,{} kg\n"
    said = {}
    for mass in ("17", "4.6"):
        (tmp_path / mass).mkdir()
        folder = a_folder(
            tmp_path / mass, '[safety]\nload = "50 %"\n', yards=table.format(mass), truck=truck,
            head='title = "T"\npeople = 1\n',
        )  # fmt: skip
        lines = dict(implied(read_scenario(folder)))
        said[mass] = lines[phrase("truckloads of honey, Blue, one person")]
    assert "(61 boxes a load)" in said["17"]
    assert "(120 boxes)" in said["17"]
    assert said["17"].endswith("weight binds")
    assert said["4.6"].endswith("the deck binds")
