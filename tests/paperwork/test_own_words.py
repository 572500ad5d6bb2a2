"""Names that nobody typed, in the language of the papers."""

from dataclasses import replace

from runplanner.haulage.reach import out_of_reach
from runplanner.paperwork.speech.own_words import in_own_words
from runplanner.paperwork.speech.say import money
from runplanner.paperwork.speech.tongue import said, speaking
from runplanner.trade.loads import CONTAINERS
from tests.outfits import an_outfit
from tests.paperwork.plans import small_plan


def test_names_of_the_program_are_said_in_german_and_typed_ones_stay() -> None:
    """A driver's paper said "Base" and "Can 25 L" between German words."""
    plan = small_plan()
    base, *others = plan.outfit.places
    places = (replace(base, name="Base"), *others)
    outfit = replace(plan.outfit, places=places, containers=(CONTAINERS["can"].container,))
    plan = replace(plan, outfit=outfit)
    with speaking("de"):
        told = in_own_words(plan).outfit
        assert ("Betrieb", "Kanister 25 L") == (told.places[0].name, told.containers[0].name)
        assert told.places[1:] == plan.outfit.places[1:]
        assert "1,50 Geldeinheiten" == money(150, "units")
    assert in_own_words(plan) == plan
    assert "1.50 units" == money(150, "units")


def test_a_yard_without_a_road_is_told_from_the_base_in_german() -> None:
    """Screen and sheets said "von Base"; a name that was typed stays."""
    outfit = an_outfit([(3, 4)])
    outfit = replace(outfit, travel=replace(outfit.travel, minutes=((0, None), (None, 0))))
    typed = replace(outfit.places[0], name="Shed")
    own = replace(outfit.places[0], name="Base")
    bases = [replace(outfit, places=(base, *outfit.places[1:])) for base in (own, typed)]
    with speaking("de"):
        told = [said(out_of_reach(one, one.yards[0]) or "") for one in bases]

    assert "von Betrieb keine" in told[0]
    assert "von Shed keine" in told[1]


def test_only_bases_are_said_and_no_yard() -> None:
    """A yard called Home or Base became "Betrieb" on German maps and manifests."""
    plan = small_plan()
    outfit = plan.outfit
    bases = {outfit.home.place, outfit.feed_store.place, outfit.honey_house.base.place}
    places = tuple(replace(place, name="Home") for place in outfit.places)
    with speaking("de"):
        told = in_own_words(replace(plan, outfit=replace(outfit, places=places))).outfit.places

    assert bases == {number for number, place in enumerate(told) if place.name != "Home"}
    assert len(told) > len(bases)


def test_the_program_names_what_it_translates() -> None:
    """A container renamed in the catalogue would stay English on German papers."""
    with speaking("de"):
        for known in CONTAINERS.values():
            plan = small_plan()
            outfit = replace(plan.outfit, containers=(known.container,))
            told = in_own_words(replace(plan, outfit=outfit)).outfit.containers[0]
            assert told.name != known.container.name or "IBC" in told.name
