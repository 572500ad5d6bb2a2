"""What a colony has and should have for winter, in the way the user knows it.

Stores are typed, hefted or counted in frames; the target is typed or follows from climate
and boxes.  Honey in the boxes that go to the honey house is never stores: a hive is hefted,
and its frames are counted, without them.
"""

from fractions import Fraction
from typing import Final

from runplanner.phrase import Number, Phrase, phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values import measures
from runplanner.scenario.values.figures import Figure, Whole
from runplanner.scenario.values.words import one_of
from runplanner.trade.boxes import BOXES, box_facts
from runplanner.trade.feeding import (
    BEES_AND_BROOD_G,
    HIVE_PARTS_G,
    TARGETS,
    full_frames,
    gross_from_sides_g,
    stores_from_frames_g,
    stores_from_heft_g,
    target,
    winter_use_g,
)

WAYS: Final = ("stores", "hefted", "frames_of_stores")
COLUMNS: Final = ("hefted", "hive_parts", "frames_of_stores", "frame_stores", "climate",
                  "winter_boxes", "months_brood", "months_still")  # fmt: skip
MONTHS: Final = ("months_brood", "months_still")
_YEAR: Final = 12
FRAMES: Final = Figure(phrase("full frames of stores"), 0, 60)
FRAME_G: Final = 2_200
"""A full ten-frame deep frame, the careful figure (buckfastimker-weser-ems.de)."""
BARE_G: Final = 3_000
"""A hive with less, its honey boxes aside, is close to starving: common practice."""
CLIMATES: Final = tuple(dict.fromkeys(row.climate for row in TARGETS))
_BODY: Final = "deep body with frames, no wax"
_NOT_LIFTED: Final = (_BODY, "stand", "top feeder")


def read_winter(fields: Fields) -> tuple[int | None, int]:
    """Return each colony's usable stores, None where nobody knows, and what it should have."""
    boxes = winter_boxes(fields)
    return _stores(fields, boxes), _target(fields, boxes)


def winter_boxes(fields: Fields) -> int:
    """Return the brood boxes a colony winters in; one where nothing is typed."""
    return fields.optional("winter_boxes", Whole(1, 4)) or 1


def _stores(fields: Fields, boxes: int) -> int | None:
    way = _way(fields)
    if way == "hefted":
        return _from_heft(fields, boxes)
    if way == "frames_of_stores":
        frames = fields.read(way, FRAMES, Fraction(0))
        return stores_from_frames_g(frames, _frame_g(fields))
    return fields.optional("stores", measures.STORES)


def _from_heft(fields: Fields, boxes: int) -> int:
    """Return the stores of a hefted hive; one lighter than its own wood was not hefted whole."""
    gross, parts = fields.read("hefted", _hefted, 0), _parts_g(fields, boxes)
    stores = stores_from_heft_g(gross, parts)
    one_side = "+" not in str(fields.said("hefted"))
    both = repr(f"{gross / 1000:g} kg + {gross / 1000:g} kg")
    if 0 < gross < parts:
        cure = phrase("Check hefted and hive_parts.")
        if one_side:
            cure = phrase("Was one side only pulled? Then type both, such as {both}.", both=both)
        allowed = phrase(
            "at least the empty hive, {mass} kg by hive_parts", mass=Number(f"{parts / 1000:g}")
        )
        fields.fault("hefted", allowed, cure)
    elif gross and one_side and stores < BARE_G:
        told = phrase(
            "{gross} kg leave {stores} kg of stores beside {parts} kg of hive and {bees} kg "
            "of bees and brood; if one side only was pulled, type both, such as {both}",
            gross=Number(f"{gross / 1000:g}"),
            stores=Number(f"{stores / 1000:g}"),
            parts=Number(f"{parts / 1000:g}"),
            bees=Number(f"{BEES_AND_BROOD_G / 1000:g}"),
            both=both,
        )
        fields.doubt("hefted", told)
    return stores


def _hefted(said: object) -> int:
    """Return a hive's mass, in one pull or as two sides such as "18 kg + 17.5 kg".

    Raises:
        Refusal: When it is no such mass.
    """
    left, plus, right = str(said).partition("+")
    if not plus:
        return measures.HEFTED(said)
    return gross_from_sides_g(measures.HEFTED(left), measures.HEFTED(right))


def _way(fields: Fields) -> str:
    """Return which column tells the stores; a row's own goes before what holds for all."""
    own = [key for key in WAYS if fields.alone().has(key)]
    typed = own or [key for key in WAYS if fields.has(key)]
    if len(typed) > 1:
        fields.fault(
            typed[1],
            phrase("one of {names}", names=", ".join(WAYS)),
            phrase("Leave the others empty."),
        )
    return typed[0] if typed else "stores"


def _parts_g(fields: Fields, boxes: int) -> int:
    """Return the hefted hive without bees, brood and stores."""
    known = sum(grams for part, grams in HIVE_PARTS_G.items() if part not in _NOT_LIFTED)
    grams = known + boxes * HIVE_PARTS_G[_BODY]
    shown = (
        f"{grams / 1000:g} kg",
        phrase("floor, lids and deep bodies as weighed in pounds [B]"),
    )
    return fields.derived("hive_parts", measures.HIVE_PARTS, grams, shown)


def _frame_g(fields: Fields) -> int:
    shown = (
        "2.2 kg",
        phrase("a full deep frame, the careful figure (buckfastimker-weser-ems.de) [B]"),
    )
    return fields.derived("frame_stores", _frame, FRAME_G, shown)


def _frame(said: object) -> int:
    """Return the stores in one full frame: typed, or by the box whose frames they are.

    Raises:
        Refusal: When it is neither a mass nor a box of the catalogue.
    """
    facts = box_facts(str(said)) if len(str(said)) <= 60 else None
    if facts is not None:
        return facts.frame_g()
    try:
        return measures.FRAME(said)
    except Refusal as refusal:
        known = ", ".join(key.replace("-", " ") for key in BOXES)
        raise Refusal(
            phrase("{allowed}, or a box of the catalogue", allowed=refusal.allowed),
            phrase("Known: {known}.", known=known),
        ) from None


def _target(fields: Fields, boxes: int) -> int:
    """Return the target: typed, by months, by climate, or the default; a row goes before all."""
    climate = fields.optional("climate", lambda said: one_of(said, CLIMATES))
    months = [fields.optional(key, Whole(0, _YEAR)) for key in MONTHS]
    for place in (fields.alone(), fields):
        if place.has("target"):
            break
        if any(place.has(key) for key in MONTHS):
            brood, still = (number or 0 for number in months)
            if brood + still > _YEAR and fields.right(*MONTHS):
                allowed = phrase("at most {most} months in all", most=_YEAR)
                said = f"{brood} + {still}"
                fields.fault(MONTHS[1], allowed, phrase("A year has no more."), said=said)
            words = phrase(
                "{brood} x 3 kg with brood + {still} x 1 kg without (bienenundnatur.de) [B]",
                brood=brood,
                still=still,
            )
            return _shown(fields, winter_use_g(brood, still), words)
        if place.has("climate") and climate is not None:
            known = target(climate, boxes)
            return _shown(fields, known.use_g, known.cited.words())
    return fields.read("target", measures.TARGET, 0)


def _shown(fields: Fields, grams: int, source: Phrase) -> int:
    """Return a target that was worked out, noted; in frames as well where their size is known."""
    words: str = f"{grams / 1000:g} kg"
    if fields.has("frame_stores"):
        frames = full_frames(grams, fields.read("frame_stores", _frame, FRAME_G))
        words = phrase("{mass}, {number} full frames", mass=words, number=frames)
    fields.desk.assume(f"{fields.kind}.target", words, source)
    return grams
