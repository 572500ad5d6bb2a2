"""The two demos: invented, feasible on paper, and every feature used once."""

from pathlib import Path

import pytest

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import plain
from runplanner.outfit.yards import Clearing, Health
from runplanner.phrase import phrase
from runplanner.scenario import implied, read_scenario
from runplanner.visits.due import due

SMALL, LARGE = "ironsand_coast", "vine_hills"


@pytest.fixture(scope="session")
def demos() -> dict[str, Outfit]:
    """Both demos, read once: reading them is the slowest part."""
    folder = Path(__file__).parents[2] / "scenarios"
    return {name: read_scenario(folder / name) for name in (SMALL, LARGE)}


def test_sizes(demos: dict[str, Outfit]) -> None:
    """About twelve yards with one truck; about forty with two and a trailer."""
    assert (12, 1, 0) == sizes(demos[SMALL])
    assert (40, 2, 1) == sizes(demos[LARGE])
    assert 10 == demos[SMALL].season.n_days
    assert 14 == demos[LARGE].season.n_days


def sizes(outfit: Outfit) -> tuple[int, int, int]:
    """Yards, trucks, trailers."""
    return len(outfit.yards), len(outfit.trucks), len(outfit.trailers)


def test_not_the_same_hives_nor_hemisphere(demos: dict[str, Outfit]) -> None:
    """One is in the south with Langstroth boxes, the other in the north with Dadant."""
    assert "Langstroth" in demos[SMALL].boxes[0].name
    assert "Dadant" in demos[LARGE].boxes[0].name
    assert demos[SMALL].places[0].lat < 0 < demos[LARGE].places[0].lat


def test_not_in_britain(demos: dict[str, Outfit]) -> None:
    """No place lies in or near the British Isles."""
    for outfit in demos.values():
        assert not any(49 < spot.lat < 61 and -11 < spot.lon < 3 for spot in outfit.places)


@pytest.mark.parametrize("name", [SMALL, LARGE])
def test_marked_invented(root: Path, name: str) -> None:
    """Folder, title and tables say that they are invented."""
    folder = root / "scenarios" / name
    assert "**Invented.**" in (folder / "README.md").read_text("utf-8")
    for path in sorted(folder.iterdir()):
        assert "nvented" in path.read_text("utf-8"), path.name


def test_no_note_spills_into_the_phone_column(demos: dict[str, Outfit]) -> None:
    """A separator inside a note, not quoted, would make its end a phone number."""
    yards = [yard for outfit in demos.values() for yard in outfit.yards]

    assert {"", "invented"} == {yard.access.phone for yard in yards}
    assert "Biggest yard; two gates" in {yard.access.notes for yard in yards}


def test_features_are_used(demos: dict[str, Outfit]) -> None:
    """Between them the demos use what a scenario can say."""
    yards = [yard for outfit in demos.values() for yard in outfit.yards]

    assert set(Clearing) == {yard.clearing for yard in yards}
    assert set(Health) == {yard.health for yard in yards}
    assert any(yard.access.opens_min for yard in yards)
    assert any(not yard.access.trailer for yard in yards)
    assert any(yard.access.four_wheel for yard in yards)
    assert any(yard.access.max_vehicle_g for yard in yards)
    assert any(yard.access.max_width_mm for yard in yards)
    assert any(yard.brood_boxes_off for yard in yards)
    assert any(yard.spin_by_hard for yard in yards)
    assert any(yard.unsettled_spans for yard in yards)
    assert any(len(yard.sites) > 1 for yard in yards)
    large = demos[LARGE]
    assert 3 == len({large.home.place, large.feed_store.place, large.honey_house.base.place})
    assert large.trucks[1].axles is not None
    assert large.feed.bought
    assert not demos[SMALL].feed.bought
    assert "travel.csv" in demos[SMALL].travel.source
    assert dict(implied(demos[SMALL]))[phrase("yards too big for one load")] == "Hollow Tree"


@pytest.mark.parametrize("name", [SMALL, LARGE])
def test_realistic(demos: dict[str, Outfit], name: str) -> None:
    """12 to 41 colonies a yard, 1.2 to 2.2 boxes a colony, boxes of 13 to 19 kg."""
    for yard in plain(demos[name]).yards:
        assert 12 <= yard.colonies <= 41
        assert 1.19 <= yard.boxes / yard.colonies <= 2.21
        assert 13_000 <= yard.box_g <= 19_000
        assert 1 <= due(demos[name], yard).rounds <= 2 or yard.health in {
            Health.SUSPECT,
            Health.STANDSTILL,
        }


@pytest.mark.parametrize("name", [SMALL, LARGE])
def test_rough_totals_fit(demos: dict[str, Outfit], name: str) -> None:
    """Hands, loads, spinning and feed rounds fit the days with room to spare."""
    outfit = plain(demos[name])
    warnings = "\n".join(value for label, value in implied(outfit) if label == "warning")
    days = outfit.season.n_days
    for trouble in ("cannot", "do not fit", "No day", "are due and", "only the first day"):
        assert trouble not in warnings
    boxes = sum(yard.boxes for yard in outfit.yards)
    # A third of the days is lost to weather; on the others each truck brings one load home.
    load = sum(truck.max_g - truck.empty_g - 400_000 for truck in outfit.trucks)
    mass = sum(yard.boxes * yard.box_g for yard in outfit.yards)
    assert mass < load * days * 2 // 3
    house = outfit.honey_house
    hours = (house.spin_to_min - house.spin_from_min) // 60
    assert boxes + house.waiting_boxes < house.boxes_per_h[2] * hours * days * 2 // 3
