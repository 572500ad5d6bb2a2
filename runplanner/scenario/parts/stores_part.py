"""Containers, kit and feed."""

from dataclasses import replace
from typing import Final

from runplanner.outfit.stores import Container, Feed, Kit
from runplanner.phrase import Number, Phrase, joined, phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.defaults import DEFAULTS
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values import measures
from runplanner.scenario.values.figures import Whole
from runplanner.scenario.values.quantities import Measure
from runplanner.scenario.values.words import key_of, name, one_of, slug, yes_no
from runplanner.trade.evidence import Cited, Evidence
from runplanner.trade.loads import CONTAINERS
from runplanner.trade.recipe import RecipeError, recipe_permille
from runplanner.trade.syrup import density_g_per_l, stores_g_per_kg_sugar

OPEN_END: Final = 10**9
"""More than any campaign takes, until the yards say how much that is."""

_CANS: Final = 20


def read_containers(file: OutfitFile, trucks: int) -> tuple[Container, ...]:
    """Return what syrup rides in; one IBC a truck and some cans when nothing is typed."""
    found: list[Container] = []
    for number, fields in enumerate(file.entries("containers")):
        made = _container(fields, number, [known.id for known in found])
        if key_of(made.name) in {key_of(known.name) for known in found}:
            fields.fault(
                "name",
                phrase("each name once"),
                phrase("Give it a name of its own."),
                said=made.name,
            )
        found.append(made)
    if found:
        return tuple(found)
    if file.top.has("containers"):
        file.top.fault(
            "containers", phrase("at least one"), phrase("Describe one, or leave the line out.")
        )
        return ()
    source = Cited(Evidence.PRACTICE, "type [[containers]] with what you own").words()
    file.desk.assume(
        "containers",
        phrase("{number} IBC of 1000 L and {cans} cans of 25 L", number=trucks, cans=_CANS),
        source,
    )
    return (
        replace(CONTAINERS["ibc"].container, owned=trucks),
        replace(CONTAINERS["can"].container, owned=_CANS),
    )


def _container(fields: Fields, number: int, taken: list[str]) -> Container:
    said = fields.optional("kind", lambda said: one_of(said, tuple(CONTAINERS)))
    known = CONTAINERS[said or "can"]
    like, source = known.container, known.cited
    called = fields.optional("name", name) or (like.name if said else f"Container {number + 1}")

    def size(key: str, measure: Measure, value: int, shown: str) -> int:
        if not fields.has("kind"):
            return fields.read(key, measure, value)
        return fields.derived(key, measure, value, (shown, source.words()))

    return Container(
        id=slug(called, taken, "container"),
        name=called,
        holds_ml=size("holds", measures.TANK_HOLDS, like.holds_ml, f"{like.holds_ml // 1000} L"),
        empty_g=size("empty", measures.TANK_EMPTY, like.empty_g, f"{like.empty_g / 1000:g} kg"),
        length_mm=size("length", measures.FOOTPRINT, like.length_mm, f"{like.length_mm} mm"),
        width_mm=size("width", measures.FOOTPRINT, like.width_mm, f"{like.width_mm} mm"),
        owned=fields.read("owned", Whole(1, 1000), 1),
    )


def read_kit(file: OutfitFile) -> Kit:
    """Return the small goods; blocks are ``OPEN_END`` when no stock was typed."""
    fields = file.section("kit")
    blocks = fields.optional("blocks", Whole(0, 1_000_000))
    return Kit(
        board_g=fields.read("board", measures.GOODS, 1),
        boards_owned=fields.optional("boards", Whole(0, 100_000)) or 0,
        boards_per_place=fields.read("boards_per_place", Whole(1, 1000), 1),
        block_g=fields.read("block", measures.GOODS, 1),
        blocks_per_place=fields.read("blocks_per_place", Whole(1, 5000), 1),
        blocks_owned=OPEN_END if blocks is None else blocks,
        feeder_g=fields.read("feeder", measures.GOODS, 1),
        feeders_owned=fields.optional("feeders", Whole(0, 100_000)),
        feeders_per_place=fields.read("feeders_per_place", Whole(1, 1000), 1),
        strip_g=fields.read("strip", measures.GOODS, 1),
    )


def read_feed(file: OutfitFile) -> Feed:
    """Return the feed; ready-made syrup is ``OPEN_END`` when no delivery was typed."""
    fields = file.section("feed")
    permille, said = fields.read("recipe", _recipe, (667, "2:1"))
    bought = fields.read("ready_made", yes_no, False)
    return Feed(
        name=_feed_name(said, permille, bought=bought),
        sugar_permille=permille,
        density_g_per_l=_density(fields, permille),
        stores_g_per_kg_sugar=_stores_made(fields, permille),
        uptake_ml_per_day=fields.read("uptake", measures.UPTAKE, 1),
        mix_ml_per_day=_mixed(fields, "mix_per_day", measures.MIX_DAY, bought=bought),
        mix_ml_per_h=_mixed(fields, "mix_per_hour", measures.MIX_HOUR, bought=bought),
        ready_ml=_ready(fields, bought=bought),
        sugar_g=fields.optional("sugar", measures.SUGAR),
        bought=bought,
        day_use_g=fields.read("day_use", measures.DAY_USE, 500),
        cover_warn_min=fields.optional("warn_after", measures.LAG_MOST),
        round_to_ml=fields.read("round_to", measures.POUR, 500),
        tank_ml=fields.optional("mixing_tank", measures.TANK_HOLDS),
    )


def _ready(fields: Fields, *, bought: bool) -> int:
    """Return the syrup that stands ready; bought without an amount, all that it takes is."""
    if not bought or fields.has("ready"):
        return fields.read("ready", measures.SYRUP, 0)
    source = DEFAULTS["feed.sugar"].source.words()
    fields.desk.assume("feed.ready", phrase("as much as it takes"), source)
    return OPEN_END


def _feed_name(typed: str, permille: int, *, bought: bool) -> Phrase:
    percent = Number(f"{permille / 10:g}")
    words = phrase("{percent} % sugar by mass", percent=percent)
    if typed != f"{percent} %":
        words = joined(", ", typed, words)
    return phrase("{feed}, ready-made", feed=words) if bought else words


def _mixed(fields: Fields, key: str, measure: Measure, *, bought: bool) -> int:
    """Return a rate of mixing; for bought syrup it matters to nobody and is not noted."""
    if bought and not fields.has(key):
        return measure(DEFAULTS[f"feed.{key}"].said)
    return fields.read(key, measure, 1)


def _recipe(said: object) -> tuple[int, str]:
    """Return sugar in per mille and the recipe as typed.

    Raises:
        Refusal: When it cannot be read one way only.
    """
    text = " ".join(str(said).split())
    allowed = phrase('a recipe such as "2:1", "61.4 %" or "1 kg + 630 ml"')
    try:
        permille = recipe_permille(text)
    except RecipeError as error:
        raise Refusal(allowed, phrase("Not readable: {why}.", why=error.told)) from None
    if permille < 500:
        raise Refusal(allowed, phrase("Sugar comes first, and autumn syrup is 1:1 or thicker."))
    return permille, text


def _density(fields: Fields, permille: int) -> int:
    known = density_g_per_l(permille)
    source = phrase("sucrose in water at 20 C, Bubnik and others 1995, rounded up [A]")
    return fields.derived(
        "density",
        measures.DENSITY,
        known,
        (f"{known / 1000:g} kg/L", source),
    )


def _stores_made(fields: Fields, permille: int) -> int:
    known = stores_g_per_kg_sugar(permille)
    shown = (
        f"{known / 1000:g} kg",
        phrase("Curth, Hohenheim 1981; published rules run 0.90-1.25 [B]"),
    )
    return fields.derived("stores_per_kg_sugar", measures.STORES_MADE, known, shown)
