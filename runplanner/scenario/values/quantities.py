"""Quantities with their units, read once at the gate; the only door for pint.

"1.05 t", "750 L", "1 h 30 min", "5 ft 3 in", "50 km/h" become whole grams, millilitres,
minutes, millimetres and so on.  All arithmetic is in exact fractions; rounding comes last,
and its direction is the measure's: masses up, capacities down.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import ceil, floor
from typing import TYPE_CHECKING, Final

from runplanner.errors import no_commas
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import Refusal, did_you_mean, takes

if TYPE_CHECKING:
    import pint

_PART: Final = re.compile(
    r"\s*([+-]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+))\s*"
    r"((?:m3(?![0-9])|m³|(?:(?:US|UK|us|uk|imperial)\s+)?[A-Za-z°µ%'\"_]+)(?:\s*/\s*[A-Za-z_]+)?)\s*"
)
_NUMBER: Final = re.compile(r"\s*[+-]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?\s*")
_DOTTED: Final = re.compile(r"\+?([1-9][0-9]{0,2})\.([0-9]{3})(?![0-9.]).*")
_GROUPED: Final = re.compile(
    r"([1-9][0-9]{0,2})((?:\.[0-9]{3}){2,}|(?:['\u2019\s][0-9]{3})+)"
    r"((?:\.[0-9]+)?\s*[^\s0-9.'\"\u2019].*)"
)
"""Thousands parted by a mark or blank, before a unit: nothing else is written so."""
_LONGEST: Final = 60
_CALENDAR: Final = ("month", "months", "year", "years")
_WATCHED: Final = {
    "ton": phrase("Write t for 1000 kg, or US_ton / UK_ton."),
    "tons": phrase("Write t for 1000 kg, or US_ton / UK_ton."),
    "gr": phrase("Write g for grams (gr is the grain, 0.065 g)."),
    "grs": phrase("Write g for grams."),
    "cwt": phrase("Write kg or lb: a hundredweight is 100 lb or 112 lb."),
    "hundredweight": phrase("Write kg or lb: a hundredweight is 100 lb or 112 lb."),
    "T": phrase("Write t for tonnes."),
    "KG": phrase("Write kg."),
    "Kg": phrase("Write kg."),
    "kgs": phrase("Write kg."),
    "Kgs": phrase("Write kg."),
    "lts": phrase("Write L."),
    "ltr": phrase("Write L."),
    "kilo": phrase("Write kg."),
    "kilos": phrase("Write kg."),
    "M": phrase("Write m."),
    "kmh": phrase("Write km/h."),
    "H": phrase("Write h."),
    "Min": phrase("Write min."),
    **dict.fromkeys(_CALENDAR, phrase("Write days or weeks.")),
    "'": phrase("Write ft or min."),
    '"': phrase("Write in or s."),
}
"""Units that mean two things, or nothing, and what to write instead."""
_TWO_NATIONS: Final = {
    "gal": "gallon",
    "gals": "gallon",
    "gallon": "gallon",
    "gallons": "gallon",
    "pint": "pint",
    "pints": "pint",
    "quart": "quart",
    "quarts": "quart",
}
"""Units that are a fifth larger in the UK than in the US, as pint spells the US one."""
_TONS: Final = {"us": "short_ton", "uk": "long_ton"}
_COMMON: Final = ("kg", "g", "t", "lb", "L", "ml", "mm", "cm", "m", "km", "in", "ft", "mile",
                  "min", "s", "h", "day", "week")  # fmt: skip
_SETTLED: Final = frozenset([
    *_COMMON,
    "gram", "grams", "kilogram", "kilograms", "tonne", "tonnes", "metric_ton", "metric_tons",
    "lbs", "pound", "pounds", "oz", "ounce", "ounces", "stone", "stones",
    "l", "mL", "cl", "cL", "dl", "dL", "hl", "hL", "litre", "litres", "liter", "liters",
    "millilitre", "millilitres", "milliliter", "milliliters", "centilitre", "centilitres",
    "centiliter", "centiliters", "decilitre", "decilitres", "deciliter", "deciliters",
    "hectolitre", "hectolitres", "hectoliter", "hectoliters",
    "millimetre", "millimetres", "millimeter", "millimeters", "centimetre", "centimetres",
    "centimeter", "centimeters", "dm", "metre", "metres", "meter", "meters",
    "kilometre", "kilometres", "kilometer", "kilometers",
    "inch", "inches", "foot", "feet", "yd", "yard", "yards", "mi", "miles",
    "sec", "secs", "second", "seconds", "mins", "minute", "minutes", "hr", "hrs", "hour", "hours",
    "d", "days", "weeks", "fortnight", "fortnights",
    "kph", "mph", "kn", "kt", "knot", "knots", "%", "percent", "permille",
])  # fmt: skip
"""Units of one size everywhere, as pint spells them.

Pint knows hundreds more, to which people do not mean its size: a bag is one of cement there,
42.6 kg, a barrel 119 L, a month 30.44 days.
"""
_CUBIC: Final = {"m3": "meter**3", "m\N{SUPERSCRIPT THREE}": "meter**3"}
_HOLDERS: Final = frozenset([
    "bag", "barrel", "bottle", "box", "bucket", "bundle", "bushel", "can", "carton", "crate", "cup",
    "drum", "jar", "jug", "keg", "pack", "package", "packet", "pail", "pallet", "pot", "sack",
    "stack", "tank", "tin", "tub",
])  # fmt: skip
"""Containers that people count, each of many sizes; in one or several."""
_SEVERAL: Final = frozenset(["couple", "dozen", "pair"])


@cache
def _registry() -> "pint.UnitRegistry[Fraction]":
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)


@cache
def _factor(unit: str, base: str) -> Fraction | None:
    """Return how many ``base`` one ``unit`` is; None when they measure different things."""
    one = _registry().Quantity(Fraction(1), unit)
    target = _registry().Quantity(Fraction(1), base)
    if one.dimensionality != target.dimensionality:
        return None
    return Fraction(one.to(base).magnitude)


def _spelled(unit: str, allowed: Phrase) -> str:
    """Return the unit as pint spells it, refusing those that mean two things, or no one size."""
    plain = re.sub(r"\s+", " ", unit.strip())
    each, over, per = (part.strip() for part in plain.partition("/"))
    if over:
        return f"{_spelled(each, allowed)}/{_spelled(per, allowed)}"
    nation, _, name = plain.replace("_", " ").rpartition(" ")
    nation = {"imperial": "uk"}.get(nation.lower(), nation.lower())
    if nation in _TONS and name.lower() in {"ton", "tons"}:
        return _TONS[nation]
    if nation in _TONS and name.lower() in _TWO_NATIONS:
        return {"us": "", "uk": "imperial_"}[nation] + _TWO_NATIONS[name.lower()]
    if plain.lower() in _TWO_NATIONS:
        raise Refusal(
            allowed, phrase("Say UK {plain} or US {plain}; they differ by a fifth.", plain=plain)
        )
    if plain in _WATCHED:
        raise Refusal(
            allowed,
            _WATCHED[plain],
        )
    if _ones(plain) & _HOLDERS:
        raise Refusal(
            allowed,
            phrase(
                "Sizes of {unit} differ: write what is in them, such as 500 kg for 20 bags of "
                "25 kg.",
                unit=repr(plain),
            ),
        )
    if plain not in _SETTLED and plain not in _CUBIC:
        raise Refusal(
            allowed,
            phrase(
                "Unit {unit} is not known. {cure}",
                unit=repr(plain),
                cure=did_you_mean(plain, _COMMON),
            ),
        )
    return _CUBIC.get(plain, plain)


def _screened(said: object, allowed: Phrase, such_as: str, parse: Callable[[object], int]) -> str:
    """Return the text of a quantity once the traps common to all are out of the way.

    ``parse`` reads the same quantity: of what a comma may mean only what it takes is told.
    """
    if isinstance(said, bool) or not isinstance(said, str):
        raise Refusal(
            allowed, phrase("Write the unit and quotes, such as {such_as}.", such_as=repr(such_as))
        )
    text = said.strip().replace("\N{MINUS SIGN}", "-").replace("\N{NO-BREAK SPACE}", " ")
    if len(text) > _LONGEST:
        raise Refusal(allowed, phrase("Write it short, such as {such_as}.", such_as=repr(such_as)))
    if meant := no_commas(text, takes(parse), repr):
        raise Refusal(allowed, meant)
    if grouped := _GROUPED.fullmatch(text):
        plain = grouped[1] + re.sub(r"\D", "", grouped[2]) + grouped[3]
        raise Refusal(
            allowed, phrase("Write {thousands} if thousands are meant.", thousands=repr(plain))
        )
    if re.match(r"[+-]?(nan|inf)", text, re.IGNORECASE):
        raise Refusal(allowed, phrase("Write a number, such as {such_as}.", such_as=repr(such_as)))
    if _NUMBER.fullmatch(text):
        raise Refusal(
            allowed,
            phrase("The unit is missing: write, for example, {such_as}.", such_as=repr(such_as)),
        )
    return text


def _parts(text: str, allowed: Phrase, such_as: str) -> list[tuple[Fraction, str]]:
    parts, at = [], 0
    while at < len(text):
        match = _PART.match(text, at)
        if match is None:
            break
        parts.append((Fraction(match[1]), match[2]))
        at = match.end()
    if at < len(text) or not parts or any(number < 0 for number, _ in parts[1:]):
        raise Refusal(
            allowed,
            phrase("Write a number and its unit, such as {such_as}.", such_as=repr(such_as)),
        )
    return parts


def _ones(word: str) -> set[str]:
    """Return what one of ``word`` may be called."""
    plain = word.casefold()
    return {plain, plain.removesuffix("s"), plain.removesuffix("es")}


def is_unit(text: str) -> bool:
    """Tell whether a text is a unit or the scale of a temperature, one that is refused as well."""
    if _TEMPERATURE.fullmatch(f"1 {text}"):
        return True
    try:
        _spelled(text, _AIR)
    except Refusal:
        nations = text.casefold() in _TWO_NATIONS
        return nations or text in _WATCHED or bool(_ones(text) & (_HOLDERS | _SEVERAL))
    return True


def by_size(word: str) -> bool:
    """Tell whether a word counts by mass, by volume or by the pack, and not by the piece."""
    plain = word.casefold()
    if _ones(word) & (_HOLDERS | _SEVERAL) or plain in _TWO_NATIONS:
        return True
    if plain in _WATCHED:
        return plain not in _CALENDAR
    units = [unit for unit in _SETTLED if unit.casefold() == plain]
    return any(_factor(unit, base) for unit in units for base in ("gram", "milliliter"))


@dataclass(frozen=True, slots=True)
class Measure:
    """Reads one kind of quantity into whole ``base`` units.

    Args:
        word: What is measured, such as "a mass".
        base: The unit of the answer, as pint writes it.
        least: Smallest amount allowed, as text.
        most: Largest amount allowed, as text.
        such_as: An example for the message.
        up: Round up (masses, times, feed) or down (capacities).
    """

    word: Phrase
    base: str
    least: str
    most: str
    such_as: str
    up: bool = True

    @property
    def allowed(self) -> Phrase:
        """What may stand there, in words."""
        return phrase(
            "{word} from {least} to {most}, such as {such_as}",
            word=self.word,
            least=self.least,
            most=self.most,
            such_as=self.such_as,
        )

    def __call__(self, said: object) -> int:
        """Return ``said`` in whole base units.

        Raises:
            Refusal: When it is no such quantity or outside the limits.
        """
        amount = self._amount(said)
        if not self._amount(self.least) <= amount <= self._amount(self.most):
            raise Refusal(self.allowed, self._beyond(said, amount))
        return ceil(amount) if self.up else floor(amount)

    def doubt(self, said: object) -> Phrase | None:
        """Return how an amount was read whose dot may part thousands; None where it cannot.

        A scale says "13.600 kg" for a box: 13600 kg is no box, and nobody can mean it.
        """
        if (ways := self._two_ways(said)) is None:
            return None
        return phrase(
            "{said} is read as {read}; write {thousands} if thousands are meant",
            said=repr(str(said).strip()),
            read=repr(ways[0]),
            thousands=repr(ways[1]),
        )

    def _beyond(self, said: object, amount: Fraction) -> Phrase:
        """Return the cure for an amount outside the limits."""
        if amount < 0:
            return phrase("It cannot be negative.")
        if (ways := self._two_ways(said)) is None:
            return phrase("Check number and unit.")
        return phrase(
            "It is read as {read}; write {thousands} if thousands are meant.",
            read=repr(ways[0]),
            thousands=repr(ways[1]),
        )

    def _two_ways(self, said: object) -> tuple[str, str] | None:
        """Return an amount as it is read, and by thousands where its dot may part those."""
        text = str(said).strip()
        found, parts = _DOTTED.fullmatch(text), _PART.fullmatch(text)
        if found is None or parts is None:
            return None
        thousands = f"{found[1]}{found[2]} {parts[2]}"
        if not self._amount(self.least) <= self._amount(thousands) <= self._amount(self.most):
            return None
        return f"{found[1]}.{found[2]}".rstrip("0").rstrip(".") + f" {parts[2]}", thousands

    def _amount(self, said: object) -> Fraction:
        text = _screened(said, self.allowed, self.such_as, self)
        parts = _parts(text, self.allowed, self.such_as)
        return sum((number * self._scale(unit) for number, unit in parts), Fraction(0))

    def _scale(self, unit: str) -> Fraction:
        spelled = _offset_word(unit) or _spelled(unit, self.allowed)
        factor = None if _offset_word(unit) else _factor(spelled, self.base)
        if factor is None:
            raise Refusal(
                self.allowed,
                phrase(
                    "{unit} does not measure {word}: write it such as {such_as}.",
                    unit=repr(unit),
                    word=self.word,
                    such_as=repr(self.such_as),
                ),
            )
        return factor


def _offset_word(unit: str) -> str:
    """Return the temperature scale a unit names, "" when it names none."""
    return {"°c": "degC", "degc": "degC", "°f": "degF", "degf": "degF"}.get(unit.lower(), "")


_TEMPERATURE: Final = re.compile(
    r"([+-]?[0-9]+(?:\.[0-9]+)?)\s*(°C|degC|C|°F|degF|F|deg C|deg F|° C|° F)"
)
_AIR: Final = phrase("an air temperature from -40 degC to 55 degC, such as 13 degC or 55 degF")


def temperature(said: object) -> int:
    """Return an air temperature in tenths of a degree Celsius.

    Here "20 C" can only be Celsius; anywhere else it would be coulombs and is refused.

    Raises:
        Refusal: When it is no temperature, or none that air has.
    """
    text = _screened(said, _AIR, "13 degC", temperature)
    match = _TEMPERATURE.fullmatch(text)
    if match is None:
        raise Refusal(_AIR, phrase("Write the scale, such as '13 degC'."))
    degrees = Fraction(match[1])
    if match[2].endswith("F"):
        degrees = Fraction(_registry().Quantity(degrees, "degF").to("degC").magnitude)
    if not -40 <= degrees <= 55:
        raise Refusal(_AIR, phrase("Check the number and the scale."))
    return floor(degrees * 10 + Fraction(1, 2))


def share(said: object) -> int:
    """Return a share such as "80 %" in per mille.

    Raises:
        Refusal: When it has no per cent sign or lies outside 0 to 100 %.
    """
    return Measure(phrase("a share"), "permille", "0 %", "100 %", "80 %")(said)


def speed_factor(said: object) -> int:
    """Return a factor such as "90 %" (of the usual speed) in per mille.

    Raises:
        Refusal: When it has no per cent sign or lies outside 20 to 200 %.
    """
    return Measure(phrase("a factor"), "permille", "20 %", "200 %", "90 %")(said)
