"""What the plan is asked to keep in hand: heavier boxes, earlier evenings, earlier last days."""

from typing import Final

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import Safety
from runplanner.phrase import phrase
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.values import measures
from runplanner.scenario.values.figures import Whole
from runplanner.scenario.values.quantities import Measure

LEAST_PERMILLE: Final = 500
_LOAD: Final = Measure(phrase("a share"), "permille", "50 %", "99.9 %", "95 %")


def read_safety(file: OutfitFile, outfit: Outfit) -> Safety:
    """Return what ``[safety]`` asks for; silent, it asks for heavy boxes alone."""
    fields = file.section("safety")
    safety = Safety(
        load_permille=fields.read("load", _LOAD, LEAST_PERMILLE),
        slack_min=fields.read("slack", measures.WORK_MIN, 0),
        spare_days=fields.read("spare_days", Whole(0, 30), 0),
    )
    most, n_days = outfit.hours.end_min - outfit.hours.noon_min - 1, outfit.season.n_days
    until_noon = fields.right("slack") and file.section("hours").right("noon", "end")
    if until_noon and safety.slack_min > most:
        cure = phrase("A day that is to end so early ends before noon: keep less.")
        fields.fault(
            "slack", phrase("at most {most} min, from noon to end under [hours]", most=most), cure
        )
    dated = fields.right("spare_days") and file.section("season").right("first_day", "last_day")
    if dated and safety.spare_days >= n_days:
        cure = phrase("No day would be left to work in: keep fewer.")
        fields.fault(
            "spare_days", phrase("fewer than the season's {n_days} days", n_days=n_days), cure
        )
    return safety
