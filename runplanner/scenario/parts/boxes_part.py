"""Hive boxes: those of the catalogue by name, and the user's own by [[boxes]]."""

from dataclasses import dataclass, replace

from runplanner.outfit.stores import BoxKind
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.faults import Refusal, did_you_mean
from runplanner.scenario.values import measures
from runplanner.scenario.values.words import key_of, keys, name
from runplanner.trade.boxes import BOXES, BoxFacts, box_facts


@dataclass(frozen=True, slots=True)
class ShelfBox:
    """A box kind with the mass of a full one, and where that mass comes from.

    ``facts`` are the catalogue's, with frames and their comb; None for a box typed by the user.
    """

    kind: BoxKind
    full_g: int | None
    source: Phrase
    facts: BoxFacts | None = None


class Shelf:
    """The box kinds a yard may name; those that were named are kept in order."""

    def __init__(self, own: list[ShelfBox]) -> None:
        self._own = own
        self._used: list[BoxKind] = [box.kind for box in own]

    def find(self, said: object) -> ShelfBox:
        """Return the box that is called so.

        Raises:
            Refusal: When neither the user nor the catalogue knows it.
        """
        typed = key_of(said)
        for box in self._own:
            if typed in {key_of(box.kind.name), box.kind.id}:
                return box
        facts = box_facts(typed) if len(typed) <= 60 else None
        if facts is None:
            names = [box.kind.name for box in self._own]
            known = [*names, *(key.replace("-", " ") for key in BOXES)]
            allowed = phrase("a box of the catalogue or of [[boxes]]")
            raise Refusal(
                allowed,
                phrase(
                    "{cure} Or describe it in [[boxes]].",
                    cure=did_you_mean(typed, known),
                ),
            )
        return ShelfBox(facts.kind, facts.full_g(), facts.full.words(), facts)

    def take(self, box: ShelfBox) -> BoxKind:
        """Return the kind of ``box``, noted as used."""
        if box.kind not in self._used:
            self._used.append(box.kind)
        return box.kind

    def kind(self, box_id: str) -> BoxKind:
        """Return a kind in use by its id."""
        return next(kind for kind in self._used if kind.id == box_id)

    def used(self) -> tuple[BoxKind, ...]:
        """Return every kind in use."""
        return tuple(self._used)


def read_boxes(file: OutfitFile) -> Shelf:
    """Return the shelf with the user's own boxes on it."""
    own: list[ShelfBox] = []
    for number, fields in enumerate(file.entries("boxes")):
        box = _own_box(fields, number)
        if key_of(box.kind.name) in {key_of(known.kind.name) for known in own}:
            fields.fault("name", phrase("each name once"), phrase("Give it a name of its own."))
        own.append(box)
    ids = keys([box.kind.name for box in own], "box", BOXES)
    return Shelf([
        replace(box, kind=replace(box.kind, id=key)) for box, key in zip(own, ids, strict=True)
    ])  # fmt: skip


def _own_box(fields: Fields, number: int) -> ShelfBox:
    called = fields.read("name", name, f"Box {number + 1}")
    kind = BoxKind(
        id="",
        name=called,
        length_mm=fields.read("length", measures.FOOTPRINT, 1),
        width_mm=fields.read("width", measures.FOOTPRINT, 1),
        height_mm=fields.read("height", measures.FOOTPRINT, 1),
        empty_g=fields.read("empty", measures.BOX_EMPTY, 1),
    )
    full = fields.optional("full", measures.BOX_FULL)
    if fields.right("empty", "full") and full is not None and full <= kind.empty_g:
        fields.fault("full", phrase("more than empty"), phrase("Check both masses."))
        kind, full = replace(kind, empty_g=1), None
    if full is None and fields.has("full"):
        # The slip is told here: the stand-in keeps the yards from being blamed for it.
        full = kind.empty_g + 1
    return ShelfBox(kind, full, phrase("typed with the box"))
