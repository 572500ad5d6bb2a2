"""Varroa treatments by active substance, as far as a published text was seen.

Defaults only.  The label of the product in hand, the vet and local law come first.
"""

from dataclasses import dataclass
from typing import Final

from runplanner.outfit.stores import Strips
from runplanner.phrase import phrase
from runplanner.trade.evidence import Cited, Evidence

DEFER: Final = "The label, your vet and local law come first; these are defaults."
RECORD_YEARS: Final = 5
"""Keep medicine records 5 years (Veterinary Medicines Regulations 2013; in the EU also 5)."""
RECORD_FIELDS: Final = (
    "name of the product", "batch number", "date bought", "quantity bought", "supplier",
    "date given", "quantity given", "withdrawal period", "colonies treated",
)  # fmt: skip
"""What a medicine record must hold (Veterinary Medicines Regulations 2013, via cheshire-bka)."""


@dataclass(frozen=True, slots=True)
class Treatment:
    """What is known of one active substance.

    Args:
        substance: Active substance.
        per_brood_box: Strips for each brood box; None where the label must be typed.
        out_after_days: Soonest day after going in that strips come out; None: see the label.
        out_before_days: Latest day after going in; None: see the label.
        low_c: Coldest air it may be used in, or None.
        high_c: Hottest, or None.
        on_the_mean: The low limit holds for the day's mean, not for its minimum.
        no_feed_days: Days from going in without feed in the yard, no more than the treatment's:
            strips that hang on after it are spent, and come out before feed goes in.
        frames_least: Fewest frames of bees a colony must have, or 0.
        cautions: Sentences for the medicine record and the list of strips to fetch.
        sources: Where it was read.
        corrosive: Burns skin and eyes, and its fumes do; never in a closed cab.
        by_hive: The dose is a hive's, whatever its brood boxes; ``per_brood_box`` tells it.
        twice: A second application, as many strips again, follows when the first come out.
        off_feeder: Bees may take less feed down where it lies beside the feeder.
        strict: It may be used between its limits of air, not at them.
    """

    substance: str
    per_brood_box: int | None
    out_after_days: int | None
    out_before_days: int | None
    low_c: float | None
    high_c: float | None
    on_the_mean: bool
    no_feed_days: int
    frames_least: int
    cautions: tuple[str, ...]
    sources: tuple[Cited, ...]
    corrosive: bool = False
    by_hive: bool = False
    twice: bool = False
    off_feeder: bool = False
    strict: bool = False

    def unfed_days(self, stay_days: int) -> int:
        """Return the days without feed known of it where it is in for at least ``stay_days``.

        No feeding during treatment: that ends with the day from which strips may come out.
        """
        return self.no_feed_days and max(self.no_feed_days, stay_days)

    def fit(self, low_c: float, mean_c: float, high_c: float) -> bool:
        """Return whether a day of these air temperatures suits the substance."""
        cold = mean_c if self.on_the_mean else low_c
        return self._warm_enough(cold) and self.bears(high_c)

    def fit_so_far(self, low_c: float, high_c: float) -> bool:
        """Return whether a day that is at least so cold and so hot may suit the substance."""
        return (self.on_the_mean or self._warm_enough(low_c)) and self.bears(high_c)

    def _warm_enough(self, cold_c: float) -> bool:
        return self.low_c is None or self._within(self.low_c, cold_c)

    def bears(self, high_c: float) -> bool:
        """Return whether the substance may be in a hive at this heat."""
        return self.high_c is None or self._within(high_c, self.high_c)

    def _within(self, colder_c: float, warmer_c: float) -> bool:
        return colder_c < warmer_c or (colder_c == warmer_c and not self.strict)


SHORT_DAYS: Final = 14
"""Treatments over by then must not meet heat or cold on any day; else nobody can tell."""


def days_looked(out_after_days: int | None) -> int:
    """Return by the air of how many days, from the one they go in, strips are judged."""
    stay = out_after_days or 1
    return stay if stay <= SHORT_DAYS else 1


_WHOLE_YARD = "Treat all colonies of the yard at the same time."
_NO_BOXES = "Never with honey boxes on, nor during a flow."
NO_FEED: Final = "No feeding during treatment."
CORROSIVE: Final = "Corrosive: gloves, eyes, no closed cab."
OFF_FEEDER: Final = "In the hive, keep it away from the feeder: bees may take less down."
_TAKE_OUT = "Take every strip out when it is due; never cut or reuse strips."

_ROWS: Final = (
    Treatment(
        "amitraz", 2, 42, 70, None, None, False, 0, 0,
        (_NO_BOXES, _WHOLE_YARD, _TAKE_OUT),
        (
            Cited(Evidence.OFFICIAL, "2 strips per hive or brood box: Austrian package text"),
            Cited(Evidence.OFFICIAL, "cautions: UK SPC AN 00561/2015 (April 2016) section 4.4"),
            Cited(Evidence.MEMORY, "6 weeks, up to 10 with brood; 6-8 weeks in the trade press"),
        ),
    ),
    Treatment(
        "formic acid", 2, 7, 14, 10.0, 29.5, False, 7, 6,
        (_NO_BOXES, _WHOLE_YARD, NO_FEED,
         "Only colonies of at least 6 frames of bees.", CORROSIVE),
        (
            Cited(Evidence.PUBLISHED, "2 per hive, 7 days, 10-29.5 C, no feeding: leaflet 2472508"),
            Cited(Evidence.MEMORY, "a second week to fetch what is left"),
        ),
        # H314, causes severe skin burns and eye damage: GHS classification, from memory.
        corrosive=True,
        by_hive=True,
    ),
    Treatment(
        "thymol", 1, 21, 28, 15.0, 30.0, True, 0, 0,
        (_NO_BOXES, _WHOLE_YARD,
         "For strips of 15 g; gel and other forms have doses and days of their own.", OFF_FEEDER),
        (
            Cited(Evidence.OFFICIAL,
                  "1 strip of 15 g for each brood box, twice: Austrian package text"),
            Cited(Evidence.OFFICIAL, "mean above 15 C, below 30 C: UK SPC AN 01017/2013"),
            Cited(Evidence.OFFICIAL, "not near a feeder: UK SPC AN 01911/2010 section 4.5"),
            Cited(Evidence.DERIVED, "3 to 4 weeks: half of the 6 to 8 in that package text"),
        ),
        twice=True,
        off_feeder=True,
        strict=True,
    ),
)  # fmt: skip

STRIPS: Final = {row.substance: row for row in _ROWS}
"""Known treatments by active substance."""
SUBSTANCES: Final = {
    **{known: known for known in STRIPS},
    "formic": "formic acid", "ameisensäure": "formic acid", "ameisensaeure": "formic acid",
    "oxalic acid": "oxalic acid", "oxalic": "oxalic acid",
    "oxalsäure": "oxalic acid", "oxalsaeure": "oxalic acid",
    "tau-fluvalinate": "tau-fluvalinate", "tau-fluvalinat": "tau-fluvalinate",
    "flumethrin": "flumethrin", "coumaphos": "coumaphos",
}  # fmt: skip
"""Active substances by what people call them, folded; of some no more is known than the name."""
_SAID: Final[dict[str, str]] = {
    one: one
    for one in (
        phrase("formic acid"), phrase("oxalic acid"), phrase("amitraz"), phrase("thymol"),
        phrase("tau-fluvalinate"), phrase("flumethrin"), phrase("coumaphos"),
    )
}  # fmt: skip
"""Substances that other languages have words of their own for."""


def in_words(substance: str) -> str:
    """Return an active substance as people are told it: a phrase where a language has its own."""
    return _SAID.get(substance, substance)


def treatment(substance: str) -> Treatment | None:
    """Return what is known of an active substance, however it is called, or None."""
    called = substance.casefold()
    return STRIPS.get(SUBSTANCES.get(called, called))


def given_twice(substance: str, *, typed: bool | None) -> bool:
    """Tell whether a second application follows: as typed, or as is published of the substance."""
    known = treatment(substance)
    return typed if typed is not None else known is not None and known.twice


def unfed_days(kind: Strips) -> int:
    """Return how many days from the first strips' going in allow no feed; 0 where feed may be.

    A second application goes in on any day on which the first may come out, so with one no feed
    stands in the yard before its own days are over, had it gone in on the last of these.
    """
    twice = given_twice(kind.substance, typed=kind.twice)
    later = kind.out_before_days if twice and kind.no_feed_days else 0
    return later + kind.no_feed_days


def ban_cut(kind: Strips) -> int:
    """Return the days without feed known of a substance where fewer were typed; 0 elsewhere."""
    known = treatment(kind.substance)
    days = 0 if known is None else known.unfed_days(kind.out_after_days)
    return days if kind.no_feed_days < days else 0


def strips_by_frames(frames_of_bees: int) -> int:
    """Return amitraz strips by frames of bees, one for each started 5 (US label, from memory).

    Raises:
        ValueError: When there are none.
    """
    if frames_of_bees < 1:
        raise ValueError("frames of bees must be at least 1")
    return -(-frames_of_bees // 5)
