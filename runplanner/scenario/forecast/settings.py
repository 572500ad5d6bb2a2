"""What weather each kind of work bears: settings under [weather], with their sources.

They are read only where a forecast is; typed without one they are checked and do nothing.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Final, Self, TypeVar

from runplanner.phrase import phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.defaults import DEFAULTS, Default, habit
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values.measures import DAYS
from runplanner.scenario.values.quantities import Measure, share, temperature
from runplanner.scenario.values.words import note, one_of
from runplanner.trade.evidence import Cited, Evidence
from runplanner.weather.judge import Bounds, Cause, Work

T = TypeVar("T")
RAIN_RATE: Final = Measure(phrase("a rain"), "um/hour", "0 mm/h", "100 mm/h", "0.5 mm/h")
WIND_SPEED: Final = Measure(phrase("a wind"), "mm/s", "0 m/s", "60 m/s", "8 m/s")
_READERS: Final[dict[str, Callable[[object], int]]] = {
    "rain": RAIN_RATE, "wind": WIND_SPEED, "gust": WIND_SPEED, "thunder": share,
}  # fmt: skip


_AMS: Final = "AMS Glossary of Meteorology, rain"
_BEAUFORT: Final = "Beaufort scale, meteothes.gr"
SETTINGS: Final[dict[str, Default]] = {
    "open_rain": habit(
        "0.2 mm/h", phrase("no rain (keepingbackyardbees.com); that much is a forecast's")
    ),
    "open_wind": habit("8 m/s", phrase("a gentle breeze is advised; no figure found")),
    "open_gust": habit("12 m/s", phrase("half as much again as the wind; no figure found")),
    "open_thunder": habit("30 %", phrase("bees are ill-tempered under thunder; no figure found")),
    "feed_rain": habit(
        "2.5 mm/h", phrase("the most that is called light ({ams}); covers go on fast", ams=_AMS)
    ),
    "feed_wind": habit("10 m/s", phrase("loads with covers; no figure found")),
    "feed_gust": habit("15 m/s", phrase("half as much again as the wind; no figure found")),
    "feed_thunder": habit("30 %", phrase("nobody pours under thunder; no figure found")),
    "settle_rain": Default(
        "7.6 mm/h", Cited(Evidence.OFFICIAL, phrase("more is heavy rain ({ams})", ams=_AMS))
    ),
    "settle_wind": Default(
        "17.1 m/s",
        Cited(
            Evidence.PUBLISHED, phrase("a gale starts at 17.2 m/s ({beaufort})", beaufort=_BEAUFORT)
        ),
    ),
    "settle_gust": habit(
        "20.7 m/s", phrase("below a strong gale ({beaufort}); no figure found", beaufort=_BEAUFORT)
    ),
    "settle_thunder": habit("20 %", phrase("bees hang outside until morning; no figure found")),
    "sure_days": habit("3 days", phrase("nearer days are taken as they are forecast")),
    "beyond": habit("fair", phrase("typed windows, or fair, where no forecast reaches")),
}
"""By key, as a user would write it."""


@dataclass(frozen=True, slots=True)
class Settings:
    """All of them, in whole units.

    Args:
        bounds: What each work bears.
        syrup_least: Mean air for syrup, tenths of a degree.
        warm_least: Coldest air in which warm boards clear, likewise.
        sure_days: Days ahead that count as sure.
        beyond: Why hours that no forecast reaches are shut, by work; fair for the others.
        contact: How the keepers of a forecast can reach the user; "" for not at all.
    """

    bounds: dict[Work, Bounds]
    syrup_least: int
    warm_least: int
    sure_days: int
    beyond: Mapping[Work, Cause]
    contact: str

    def for_warm_boards(self) -> Self:
        """Return what work bears where warm boards clear: an hour too cool for them is shut.

        So is one that no forecast reaches, as nobody knows how warm it is.
        """
        usual = self.bounds[Work.OPEN]
        least = max(self.warm_least, usual.least_dc or self.warm_least)
        bounds = {**self.bounds, Work.OPEN: replace(usual, least_dc=least)}
        return replace(self, bounds=bounds, beyond={Work.OPEN: Cause.COLD, **self.beyond})


def read_settings(fields: Fields, *, used: bool) -> Settings:
    """Return the settings; defaults are noted only where they are ``used``."""

    def setting(key: str, parse: Callable[[object], T]) -> T:
        return _setting(fields, key, parse, used=used)

    def bounds(work: Work) -> Bounds:
        most = {kind: setting(f"{work.value}_{kind}", read) for kind, read in _READERS.items()}
        least = _least(fields, "open_least") if work is Work.OPEN else None
        return Bounds(most["rain"], most["wind"], most["gust"], most["thunder"], least)

    sure_days, shut = setting("sure_days", DAYS), setting("beyond", _beyond) == "shut"
    return Settings(
        bounds={work: bounds(work) for work in Work},
        syrup_least=_least(fields, "syrup_least"),
        warm_least=_least(fields, "warm_least"),
        sure_days=sure_days,
        beyond=dict.fromkeys(Work, Cause.MISSING) if shut else {},
        contact=fields.optional("contact", _contact) or "",
    )


def _setting(fields: Fields, key: str, parse: Callable[[object], T], *, used: bool) -> T:
    default = SETTINGS[key]
    value = parse(default.said)
    if not used and not fields.has(key):
        return value
    return fields.derived(key, parse, value, (str(default.said), default.source.words()))


def _least(fields: Fields, key: str) -> int:
    """Return a temperature that the typed windows' thresholds read as well, and note."""
    said = fields.said(key)
    try:
        return temperature(DEFAULTS[f"weather.{key}"].said if said is None else said)
    except Refusal:
        return 0


def _beyond(said: object) -> str:
    return one_of(said, ("fair", "shut"))


def _contact(said: object) -> str:
    text = note(said)
    if not text.isascii() or len(text) > 100:
        raise Refusal(
            phrase("an e-mail or web address"), phrase("Write it in plain letters, at most 100.")
        )
    return text
