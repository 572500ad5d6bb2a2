"""One row of the yards table: all facts of a yard but its weather and its sun."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil
from typing import Final

from runplanner.outfit.stores import BoxKind
from runplanner.outfit.yards import Access, Health, Place, Yard
from runplanner.phrase import Number, counted, joined, phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import Days
from runplanner.scenario.parts.bases_part import PlaceBook
from runplanner.scenario.parts.boxes_part import Shelf, ShelfBox
from runplanner.scenario.places.points import Point, read_point
from runplanner.scenario.values import measures
from runplanner.scenario.values.figures import Figure, Whole
from runplanner.scenario.values.moments import clock_min
from runplanner.scenario.values.quantities import share
from runplanner.scenario.values.words import name, note, one_of, row_id, slug, yes_no
from runplanner.scenario.yards import yard_clearing
from runplanner.scenario.yards.yard_stores import read_winter
from runplanner.trade.honey import COMB_SOURCE

COLONIES: Final = Whole(1, 2000, ("colony", "colonies", "hive", "hives"))
BOXES: Final = Whole(0, 20_000, ("box", "boxes", "super", "supers"))
MOST_BOXES_PER_COLONY: Final = 12
_LEFT_OVER: Final = Fraction(1, 100)
"""A part of a box that cut decimals leave: 1.667 on three colonies are five boxes."""
_FULL: Final = ("boxes", "boxes_per_colony")
_NO_BOX: Final = ShelfBox(BoxKind("", "", 1, 1, 1, 1), 10_000, phrase("stands in for one at fault"))


@dataclass(frozen=True, slots=True)
class Draft:
    """A yard without weather and sun, and where it stands on the first day.

    ``point`` is None while that is at fault.
    """

    yard: Yard
    point: Point | None
    fields: Fields


def all_named(drafts: Sequence[Draft]) -> bool:
    """Tell whether the table names every yard, and its district as typed.

    Else a name that is not known may be one of those at fault.
    """
    return bool(drafts) and all(draft.fields.right("name", "district") for draft in drafts)


def read_row(
    fields: Fields, days: Days, shelf: Shelf, book: PlaceBook, taken: Collection[str]
) -> Draft:
    """Return the yard of one row, its place put into ``book``; an id made up is not ``taken``."""
    called = fields.read("name", name, "yard")
    typed_id = fields.optional("id", row_id)
    point = read_point(fields)
    yard = _yard(fields, days, shelf)
    yard = replace(yard, id=typed_id or slug(called, taken), name=called)
    _check(fields, yard, shelf)
    place = Place(f"yard-{yard.id}", called, *(point or (0.0, 0.0)))
    return Draft(replace(yard, sites=((0, book.add(place)),)), point, fields)


def _yard(fields: Fields, days: Days, shelf: Shelf) -> Yard:
    colonies = fields.read("colonies", COLONIES, 1)
    box = fields.read("box", shelf.find, _NO_BOX)
    stores_g, target_g = read_winter(fields)
    clearing = yard_clearing.read_usual(fields)
    return Yard(
        id="",
        name="",
        sites=(),
        district=fields.optional("district", name) or "",
        colonies=colonies,
        boxes=_boxes(fields, colonies),
        box="" if box is _NO_BOX else shelf.take(box).id,
        box_g=_box_g(fields, box),
        box_spread_permille=fields.read("box_spread", share, 0),
        brood_boxes_off=fields.read("brood_boxes_off", Whole(0, 10_000), 0),
        clearing=clearing,
        stores_g=stores_g,
        target_g=target_g,
        feeder_ml=fields.read("feeder", measures.FEEDER, 1),
        ready_from_day=_day(fields, "ready_from", days, 0, phrase("the first day")),
        finish_by_day=_day(fields, "finish_by", days, days.n_days - 1, phrase("the last day")),
        spin_by_min=fields.read("spin_by", measures.LAG_MOST, 60),
        spin_by_hard=fields.read("spin_by_hard", yes_no, False),
        health=Health(fields.read("health", _health, "sound")),
        feed_agreed=fields.read("feed_agreed", yes_no, False),
        access=_access(fields),
        open_spans=(),
        feed_spans=(),
        unsettled_spans=(),
        strips_shut_days=(),
        sun_spans=(),
        wet_back=fields.read("wet_boxes", _wet_boxes, "stored wet") == "returned",
        clearing_else=yard_clearing.read_else(fields, clearing),
        boards_on_min=yard_clearing.read_boards_on(fields, days),
    )


def _health(said: object) -> str:
    return one_of(said, [state.value for state in Health])


def _wet_boxes(said: object) -> str:
    return one_of(said, ["stored wet", "returned"])


def _boxes(fields: Fields, colonies: int) -> int:
    """Return the yard's full boxes, from its total or from boxes per colony."""
    if fields.has("boxes") or not fields.has("boxes_per_colony"):
        if fields.has("boxes_per_colony"):
            fields.fault(
                "boxes_per_colony", phrase("boxes or boxes_per_colony"), phrase("Leave one empty.")
            )
        return fields.read("boxes", BOXES, 0)
    each = Figure(phrase("boxes per colony"), 0, MOST_BOXES_PER_COLONY)
    boxes = fields.read("boxes_per_colony", each, Fraction(0)) * colonies
    return ceil(boxes if boxes <= _LEFT_OVER else boxes - _LEFT_OVER)


def _box_g(fields: Fields, box: ShelfBox) -> int:
    """Return what a full box weighs: typed, by its fill, or by its kind."""
    fill, frames = fields.optional("fill", share), fields.optional("frames", Whole(1, 14))
    if (fill is not None or frames is not None) and not _own_mass(fields):
        return _by_fill_g(fields, box, fill, frames)
    if box.full_g is None:
        return fields.read("box_mass", measures.BOX_FULL, 1)
    shown = (
        f"{box.full_g / 1000:g} kg, {box.kind.name}",
        box.source,
    )
    return fields.derived("box_mass", measures.BOX_FULL, box.full_g, shown)


def _own_mass(fields: Fields) -> bool:
    """Tell whether a mass was typed that goes before a fill: in the same place or a nearer one."""
    row = fields.alone()
    return row.has("box_mass") or (
        fields.has("box_mass") and not (row.has("fill") or row.has("frames"))
    )


def _by_fill_g(fields: Fields, box: ShelfBox, fill: int | None, frames: int | None) -> int:
    """Return empty box and honey by the 350 g per square decimetre rule."""
    if box.facts is None:
        key = "fill" if fill is not None else "frames"
        cure = phrase("Type box_mass instead: the comb of your own box is not known.")
        fields.fault(key, phrase("only with a box of the catalogue"), cure)
        return box.kind.empty_g + 1
    if fill == 0:
        fields.fault(
            "fill",
            phrase("more than 0 %"),
            phrase("A box without honey is not taken home as a full one."),
        )
        return box.kind.empty_g + 1
    grams = box.facts.gross_g(1000 if fill is None else fill, frames)
    count = box.facts.frames if frames is None else frames
    words = counted(
        "{number} frame {share} % full",
        "{number} frames {share} % full",
        count,
        share=Number(f"{(1000 if fill is None else fill) / 10:g}"),
    )
    shown = joined(", ", f"{grams / 1000:g} kg", box.kind.name, words)
    fields.desk.assume("yards.box_mass", shown, COMB_SOURCE.words())
    return grams


def _day(fields: Fields, key: str, days: Days, number: int, shown: str) -> int:
    return fields.derived(key, days.number, number, (shown, phrase("nothing typed [C]")))


def _access(fields: Fields) -> Access:
    return Access(
        opens_min=fields.read("opens", clock_min, 0),
        closes_min=fields.read("closes", clock_min, 1440),
        max_vehicle_g=fields.optional("max_vehicle", measures.VEHICLE_MOST),
        max_width_mm=fields.optional("max_width", measures.GATE_WIDTH),
        four_wheel=fields.read("four_wheel", yes_no, False),
        trailer=fields.read("trailer", yes_no, True),
        notes=fields.optional("notes", note) or "",
        phone=fields.optional("phone", note) or "",
    )


def _check(fields: Fields, yard: Yard, shelf: Shelf) -> None:
    """Look at facts that must fit each other, once each by itself is right."""
    if fields.right("opens", "closes") and yard.access.opens_min >= yard.access.closes_min:
        fields.fault("closes", phrase("later than opens"), phrase("Put the two times in order."))
    if fields.right("ready_from", "finish_by") and yard.ready_from_day > yard.finish_by_day:
        fields.fault(
            "finish_by", phrase("not before ready_from"), phrase("Put the two dates in order.")
        )
    most = MOST_BOXES_PER_COLONY * yard.colonies
    if fields.right("colonies", *_FULL) and yard.boxes > most:
        cure = phrase("boxes is the yard's total; look for swapped columns.")
        fields.fault(
            "boxes",
            phrase(
                "at most {each} a colony, {most} here",
                each=MOST_BOXES_PER_COLONY,
                most=most,
            ),
            cure,
        )
    yard_clearing.check_boards_on(fields, yard)
    weighed = fields.right("box", "box_mass", "fill", "frames")
    empty = shelf.kind(yard.box).empty_g if weighed else 0
    if weighed and yard.boxes and yard.box_g <= empty:
        cure = phrase("box_mass is a full box with its honey.")
        fields.fault(
            "box_mass",
            phrase("more than the empty box, {empty} kg", empty=Number(f"{empty / 1000:g}")),
            cure,
        )
