"""The box catalogue: outside sizes, empty mass, frames and what a full one weighs.

Sizes come from standards and trade tables; masses are few and spread wide, so each box has
a whole range and a class of evidence.  A weighed box beats every number here.
"""

from dataclasses import dataclass
from typing import Final

from runplanner.outfit.stores import BoxKind
from runplanner.phrase import Phrase, phrase
from runplanner.trade.evidence import Cited, Evidence
from runplanner.trade.honey import comb_g

HAND_LIMIT_G: Final = 25_000
"""Lifting filter at waist height, close to the body (HSE INDG143 by way of a trade page).
Not a limit in law: 5 kg when reaching at head height."""


@dataclass(frozen=True, slots=True)
class BoxFacts:
    """One box of the catalogue.

    Args:
        kind: The box as the outfit knows it; ``empty_g`` is with frames and drawn comb.
        size: Source of the outside measures.
        frames: Usual number of frames.
        comb_length_mm: Wax area of one frame, length.
        comb_height_mm: Wax area of one frame, height.
        tare: Source of the empty mass.
        full_low_g: Lightest gross mass published for a full box.
        full_high_g: Heaviest.
        full: Source of that range.
    """

    kind: BoxKind
    size: Cited
    frames: int
    comb_length_mm: int
    comb_height_mm: int
    tare: Cited
    full_low_g: int
    full_high_g: int
    full: Cited

    def frame_g(self) -> int:
        """Return the honey in one full frame by the 350 g per square decimetre rule."""
        return comb_g(self.comb_length_mm, self.comb_height_mm)

    def gross_g(self, fill_permille: int = 1000, frames: int | None = None) -> int:
        """Return the mass of a box filled so far, rounded up.

        Raises:
            ValueError: When the fill is not 0 to 1000 per mille.
        """
        if not 0 <= fill_permille <= 1000:
            raise ValueError(f"fill must be 0 to 1000 per mille, not {fill_permille}")
        used = self.frames if frames is None else frames
        return self.kind.empty_g - (-used * self.frame_g() * fill_permille // 1000)

    def full_g(self) -> int:
        """Return the middle of the published range, rounded up: the default full box."""
        return -(-(self.full_low_g + self.full_high_g) // 2)


_FORUM = Cited(Evidence.PUBLISHED, "beekeepingforum.co.uk table of hive dimensions")
_BS1300 = Cited(Evidence.OFFICIAL, "BS 1300:1960 by way of MAFF leaflet 367 (SBA TDS 4)")
_US = Cited(Evidence.PUBLISHED, "honeybeesonline.com; plantertomato.com; beekeepingforum.co.uk")
_EIGHT = Cited(Evidence.PUBLISHED, "reprinted table, brodiehaturned.blogspot.com")
_SMITH = Cited(Evidence.PUBLISHED, "eastdevonbk.co.uk; SBA TDS 6 (depths from memory)")
_DADANT = Cited(Evidence.MEMORY, "not confirmed in a source: measure your own")
_DEEP_TARE = Cited(Evidence.PUBLISHED, "weighed: deep body with frames, no wax, 13.69 lb")
_MEDIUM_TARE = Cited(Evidence.DERIVED, "weighed hive 55.34 lb less its weighed other parts")
_GUESS_TARE = Cited(Evidence.DERIVED, "scaled by box area from the weighed deep body: weigh yours")
_NATIONAL_TARE = Cited(Evidence.MEMORY, "box and frames about 4 to 5 kg: weigh yours")
_US_FULL = Cited(Evidence.PUBLISHED, "several pages: deep 80-90 lb, medium 50-60 lb")
_SHALLOW_FULL = Cited(
    Evidence.PUBLISHED, "several pages: 30-40 lb; ten full frames by the rule make 22.6 kg"
)
_BS_FULL = Cited(Evidence.DERIVED, "light crop to full frames, 350 g per square decimetre")
_GUESS_FULL = Cited(Evidence.DERIVED, "frames at 60 to 100 % fill, 350 g per square decimetre")


def _facts(  # noqa: PLR0913, PLR0917 - a row of a table, read as one
    box_id: str, name: str, size_mm: tuple[int, int, int], size: Cited, frames: int,
    comb_mm: tuple[int, int], empty_g: int, tare: Cited, full_g: tuple[int, int], full: Cited,
) -> BoxFacts:  # fmt: skip
    kind = BoxKind(box_id, name, *size_mm, empty_g)
    return BoxFacts(kind, size, frames, *comb_mm, tare, *full_g, full)


_BS_DEEP_MM: Final = (341, 203)
_BS_SHALLOW_MM: Final = (341, 127)
_US_DEEP_MM: Final = (425, 219)
_US_MEDIUM_MM: Final = (425, 143)
_US_SHALLOW_MM: Final = (425, 124)

_ROWS: Final = (
    _facts("langstroth-deep", "Langstroth deep, 10 frames", (508, 413, 244), _US, 10,
           _US_DEEP_MM, 6_210, _DEEP_TARE, (36_000, 41_000), _US_FULL),
    _facts("langstroth-medium", "Langstroth medium, 10 frames", (508, 413, 168), _US, 10,
           _US_MEDIUM_MM, 4_660, _MEDIUM_TARE, (22_000, 27_000), _US_FULL),
    _facts("langstroth-shallow", "Langstroth shallow, 10 frames", (508, 413, 144), _US, 10,
           _US_SHALLOW_MM, 4_200, _GUESS_TARE, (13_000, 22_700), _SHALLOW_FULL),
    _facts("langstroth-deep-8", "Langstroth deep, 8 frames", (505, 356, 244), _EIGHT, 8,
           _US_DEEP_MM, 5_200, _GUESS_TARE, (20_900, 31_300), _GUESS_FULL),
    _facts("langstroth-medium-8", "Langstroth medium, 8 frames", (505, 356, 168), _EIGHT, 8,
           _US_MEDIUM_MM, 4_000, _GUESS_TARE, (14_200, 21_100), _GUESS_FULL),
    _facts("national-super", "National super (BS shallow)", (460, 460, 150), _BS1300, 10,
           _BS_SHALLOW_MM, 4_500, _NATIONAL_TARE, (12_000, 20_000), _BS_FULL),
    _facts("national-brood", "National brood box (BS deep)", (460, 460, 225), _BS1300, 11,
           _BS_DEEP_MM, 6_000, _GUESS_TARE, (22_000, 32_700), _GUESS_FULL),
    _facts("national-14x12", "National 14 x 12 brood box", (460, 460, 318), _FORUM, 11,
           (341, 292), 7_500, _GUESS_TARE, (30_500, 45_900), _GUESS_FULL),
    _facts("commercial", "Commercial brood box", (465, 465, 267), _FORUM, 11,
           (394, 241), 6_800, _GUESS_TARE, (28_700, 43_400), _GUESS_FULL),
    _facts("smith-super", "Smith super (BS shallow, short lugs)", (464, 416, 150), _SMITH, 10,
           _BS_SHALLOW_MM, 4_300, _NATIONAL_TARE, (12_000, 19_500), _BS_FULL),
    _facts("smith-brood", "Smith brood box (BS deep, short lugs)", (464, 416, 225), _SMITH, 11,
           _BS_DEEP_MM, 5_700, _GUESS_TARE, (21_600, 32_400), _GUESS_FULL),
    _facts("dadant-super", "Dadant honey box, 12 frames", (500, 500, 170), _DADANT, 10,
           (420, 125), 5_500, _DADANT, (16_500, 23_900), _DADANT),
    _facts("dadant-super-10", "Dadant honey box, 10 frames", (500, 430, 170), _DADANT, 9,
           (420, 125), 4_900, _DADANT, (14_800, 21_500), _DADANT),
    _facts("dadant-brood", "Dadant brood box, 12 frames", (500, 500, 310), _DADANT, 12,
           (420, 270), 8_500, _DADANT, (37_000, 56_200), _DADANT),
)  # fmt: skip

BOXES: Final = {row.kind.id: row for row in _ROWS}
"""The catalogue by box id, in printing order."""

ALIASES: Final = {
    "deep": "langstroth-deep", "full depth": "langstroth-deep", "langstroth": "langstroth-medium",
    "medium": "langstroth-medium", "shallow": "langstroth-shallow", "national": "national-super",
    "smith": "smith-super", "14x12": "national-14x12", "dadant": "dadant-super",
}  # fmt: skip
"""Short names people write for a honey box, to the catalogue's ids."""


def box_facts(text: str) -> BoxFacts | None:
    """Return the catalogue's box that ``text`` names (id, short name or full name), or None."""
    plain = " ".join(text.lower().split())
    names = {row.kind.name.lower(): row for row in _ROWS}
    return BOXES.get(ALIASES.get(plain, plain.replace(" ", "-"))) or names.get(plain)


def lift_warning(gross_g: int, guess_g: int | None = None) -> Phrase | None:
    """Return a sentence when one box is heavier than the lifting filter, else None.

    ``guess_g`` is what the box was guessed at, where it counts as heavier to be safe.
    """
    if gross_g <= HAND_LIMIT_G:
        return None
    mass, limit = -(-gross_g // 1000), HAND_LIMIT_G // 1000
    if guess_g is None or guess_g >= gross_g:
        return phrase(
            "A box of {mass} kg is over {limit} kg, the usual filter for one person lifting "
            "close at waist height: lift it in twos or take frames out. A guide, not a limit; "
            "local rules come first.",
            mass=mass,
            limit=limit,
        )
    return phrase(
        "A box guessed at {guess} kg may weigh up to {mass} kg; over {limit} kg, the usual filter "
        "for one person lifting close at waist height, lift it in twos or take frames out. A "
        "guide, not a limit; local rules come first.",
        guess=-(-guess_g // 1000),
        mass=mass,
        limit=limit,
    )
