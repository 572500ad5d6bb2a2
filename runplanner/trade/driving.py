"""Published limits on driving and duty, as named presets a user may change.

A preset is a start, not advice: which rules hold for a truck, its load and its driver is for
the user and the local authority to say.
"""

from dataclasses import dataclass
from typing import Final

from runplanner.outfit.people import Hours
from runplanner.phrase import phrase
from runplanner.trade.evidence import Cited, Evidence

DEFER: Final = phrase("Local law comes first; ask the authority which rules hold for you.")
FARM_RADIUS_M: Final = 100_000
"""Radius of Reg. (EC) 561/2006 art. 13(1)(b): vehicles of farming undertakings carrying goods
of their own, where the country has taken up the option.  A straight line from the base, not
road kilometres (CJEU C-13/21, 2022)."""


@dataclass(frozen=True, slots=True)
class Preset:
    """One published set of limits for a day.

    Args:
        id: Name in a scenario file.
        words: What it is.
        duty_max_min: Longest duty, or from leaving to being back, in a day.
        driving_max_min: Longest driving in a day.
        drive_break_after_min: Driving after which a break is due; None where none is asked.
        drive_break_min: Length of that break.
        duty_break_after_min: Work after which a break is due; None where none is asked.
        duty_break_min: Length of that break.
        beyond: Published limits over days and weeks that a day's plan does not watch.
        cited: Sources; the first is that of all limits but those named next.
        duty_at: Which of them the longest duty rests on.
        break_at: Which of them the break from work rests on.
    """

    id: str
    words: str
    duty_max_min: int
    driving_max_min: int
    drive_break_after_min: int | None
    drive_break_min: int
    duty_break_after_min: int | None
    duty_break_min: int
    beyond: str
    cited: tuple[Cited, ...]
    duty_at: int = 0
    break_at: int = 0

    def source(self, key: str) -> Cited:
        """Return what the limit that a scenario file calls ``key`` rests on."""
        if key == "duty_most":
            return self.cited[self.duty_at]
        return self.cited[self.break_at if key.startswith("duty_break") else 0]

    def hours(
        self, start_min: int, end_min: int, normal_min: int = 480, noon_min: int = 720
    ) -> Hours:
        """Return the outfit's hours under this preset.

        Where no break is asked the limit is set so that it never binds.
        """
        return Hours(
            start_min=start_min,
            end_min=end_min,
            noon_min=noon_min,
            normal_min=normal_min,
            duty_max_min=self.duty_max_min,
            driving_max_min=self.driving_max_min,
            drive_break_after_min=self.drive_break_after_min or self.driving_max_min,
            drive_break_min=self.drive_break_min,
            duty_break_after_min=self.duty_break_after_min or self.duty_max_min,
            duty_break_min=self.duty_break_min,
            rules=self.id,
        )


_ROWS: Final = (
    Preset(
        "eu", "EU and assimilated rules, trucks over 3.5 t", 780, 540, 270, 45, 360, 30,
        "Breaks of 45 min in all where a day's work passes 9 h (from memory: Directive 2002/15/EC "
        'art. 5; duty_break = "45 min" keeps to it); 10 h of driving twice a week; 56 h a week; '
        "90 h in two weeks; 11 h of daily rest.",
        (
            Cited(Evidence.OFFICIAL, "Reg. (EC) 561/2006, transport.ec.europa.eu"),
            Cited(Evidence.MEMORY, "work break 30 min after 6 h: Directive 2002/15/EC art. 5"),
            Cited(Evidence.DERIVED, "13 h of duty: 24 h less 11 h of rest"),
        ),
        duty_at=2,
        break_at=1,
    ),
    Preset(
        "gb", "Great Britain domestic rules, goods vehicles", 660, 600, None, 30, 360, 20,
        "No duty limit on a day without driving, nor in a week of at most 4 h driving each day; "
        "off-road driving for agriculture counts as duty.",
        (
            Cited(Evidence.OFFICIAL, "gov.uk, drivers' hours, Great Britain domestic rules"),
            Cited(Evidence.MEMORY, "rest break 20 min after 6 h: Working Time Regulations 1998"),
        ),
        break_at=1,
    ),
    Preset(
        "nz", "New Zealand work time", 840, 780, None, 30, 330, 30,
        "13 h of work in a day, then 10 h of rest; 70 h, then a day off. Own goods within 50 km "
        "of base on a class 1 or 2 licence may be free of it.",
        (
            Cited(Evidence.OFFICIAL, "nzta.govt.nz, Factsheet 2, Work time and logbooks, 2014"),
            Cited(Evidence.DERIVED, "14 h from start to end: 24 h less 10 h of rest"),
        ),
        duty_at=1,
    ),
    Preset(
        "us", "United States, property-carrying vehicles", 840, 660, 480, 30, None, 30,
        "60 h in 7 or 70 h in 8 days; 10 h off between shifts. Farm goods within 150 air miles "
        "may be free of it in season.",
        (Cited(Evidence.OFFICIAL, "49 CFR 395.3, FMCSA safety planner"),),
    ),
    Preset(
        "cautious", "No rule named: a sensible day", 660, 540, 270, 45, 360, 30,
        "The stricter of the EU's driving and Great Britain's duty limits.",
        (Cited(Evidence.DERIVED, "the least of the presets 'eu' and 'gb'"),),
    ),
)  # fmt: skip

PRESETS: Final = {row.id: row for row in _ROWS}
"""Presets by name, in printing order."""
