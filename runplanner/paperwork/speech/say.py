"""How facts are said to people: dates, times, masses, litres, money, names.

The one door for rounding.  Loads and feed round up, capacity and stocks round down, so that
a rounded figure never hides an overload or a short feed; doses are whole and stay exact.
Only a ratio, which is neither, goes to its nearest tenth.
"""

from datetime import date

from runplanner.days import DAY_MIN, clock, date_of, day_of
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from runplanner.paperwork.escape import shown, shown_name
from runplanner.paperwork.speech.tongue import day_words, decimal_sign, mark, said, tr, trn

_UNITS = mark("units")
"""What money is counted in where nobody said."""
LONGEST_WHY = 2_000
"""Room for every rule there is, named together, in any language, and for hours that are shut."""


def date_on(outfit: Outfit, day: int) -> date:
    """Return the calendar date of campaign day ``day``."""
    return date_of(date.fromisoformat(outfit.season.first_date), day)


def iso(outfit: Outfit, day: int) -> str:
    """Return the date of ``day`` as ``2027-03-04``, for file names and tables."""
    return date_on(outfit, day).isoformat()


def date_words(outfit: Outfit, day: int) -> str:
    """Return the date of ``day`` as ``Thu 4 Mar``."""
    return day_words(date_on(outfit, day))


def moment(outfit: Outfit, minute: int) -> str:
    """Return a moment as ``Thu 4 Mar 14:00``."""
    return f"{date_words(outfit, day_of(minute))} {clock(minute)}"


def stretch(start_min: int, end_min: int, dash: str = "\u2013") -> str:
    """Return a stretch of one day as ``08:00-09:30``; midnight at its end is ``24:00``."""
    end = "24:00" if end_min % DAY_MIN == 0 and end_min > start_min else clock(end_min)
    return f"{clock(start_min)}{dash}{end}"


def duration(minutes: int) -> str:
    """Return a length of time as ``45 min``, ``2 h 05`` or, from two days, ``3 days 4 h``."""
    hours, rest = divmod(minutes, 60)
    if minutes >= 2 * DAY_MIN:
        days = count(hours // 24, "day", "days")
        return f"{days} {hours % 24} h" if hours % 24 else days
    return f"{hours} h {rest:02d}" if hours else f"{rest} min"


def kg_up(grams: int) -> int:
    """Return grams as whole kilograms, rounded up; 0 where kit short makes them fewer."""
    return max(0, -(-grams // 1000))


def kg_down(grams: int) -> int:
    """Return grams as whole kilograms, rounded down: for limits."""
    return grams // 1000


def tenths(thousandths: int) -> str:
    """Return thousandths as a figure with one decimal at most, rounded up (15.5, 4)."""
    whole, tenth = divmod(-(-thousandths // 100), 10)
    return f"{whole}{decimal_sign()}{tenth}" if tenth else str(whole)


def degrees(tenths_c: int) -> str:
    """Return tenths of a degree Celsius as a figure with one decimal at most (29.5, 4)."""
    sign = "\N{MINUS SIGN}" if tenths_c < 0 else ""
    return f"{sign}{tenths(abs(tenths_c) * 100)}"


def litres(ml: int) -> str:
    """Return a volume of feed in litres, a tenth only where it is not whole, rounded up."""
    return f"{tenths(ml)} L"


def litres_up(ml: int) -> str:
    """Return a volume to mix or pour as whole litres, rounded up."""
    return f"{-(-ml // 1000)} L"


def litres_down(ml: int) -> str:
    """Return a stock or a capacity as whole litres, rounded down."""
    return f"{ml // 1000} L"


def km_up(metres: int) -> str:
    """Return a distance as whole kilometres, rounded up."""
    return f"{-(-metres // 1000)} km"


def nearest_tenth(thousandths: int) -> str:
    """Return thousandths as a figure with one decimal, to the nearest: for ratios alone."""
    whole, tenth = divmod((thousandths + 50) // 100, 10)
    return f"{whole}{decimal_sign()}{tenth}" if tenth else str(whole)


def money(cents: int, currency: str) -> str:
    """Return a sum as ``1,234.50 NZD``, or ``1.234,50 NZD`` where a comma parts decimals."""
    sign = "-" if cents < 0 else ""
    named = tr(_UNITS) if currency == _UNITS else shown(currency, 12)
    return f"{sign}{hundredths(abs(cents))} {named}".rstrip()


def hundredths(number: int) -> str:
    """Return hundredths, none below nought, as ``1,234.50``, or ``1.234,50``."""
    return f"{thousands(number // 100)}{decimal_sign()}{number % 100:02d}"


def thousands(number: int) -> str:
    """Return a whole number as ``1,234``, or ``1.234`` where a comma parts decimals."""
    return f"{number:,}".replace(",", "," if decimal_sign() == "." else ".")


def count(number: int, one: str, many: str = "") -> str:
    """Return a number with its noun: ``1 box``, ``3 boxes``."""
    return f"{number} {trn(one, many or one + 's', number)}"


def listed(words: tuple[str, ...]) -> str:
    """Return words as ``a, b and c``."""
    if len(words) < 2:
        return "".join(words)
    return tr("{first} and {last}", first=", ".join(words[:-1]), last=words[-1])


def yard_name(yard: Yard) -> str:
    """Return what the user calls a yard, or its id where the name is empty."""
    return shown_name(yard.name, 48) or shown(yard.id, 48)


def whole_name(yard: Yard) -> str:
    """Return what the user calls a yard as ``yard_name`` does, never cut: for records."""
    return shown(yard.name, len(yard.name)) or shown(yard.id, len(yard.id))


def yard_named(outfit: Outfit, yard_id: str) -> str:
    """Return the name of the yard with ``yard_id``."""
    return yard_name(outfit.yard(yard_id))


def place_name(outfit: Outfit, place: int) -> str:
    """Return the name of a place of the travel table."""
    spot = outfit.places[place]
    return shown_name(spot.name, 48) or shown(spot.id, 48)


def vehicle_name(outfit: Outfit, vehicle_id: str) -> str:
    """Return the name of a truck or trailer; empty for none."""
    names = {truck.id: truck.name for truck in outfit.trucks}
    names |= {trailer.id: trailer.name for trailer in outfit.trailers}
    return shown_name(names.get(vehicle_id, ""), 32) or shown(vehicle_id, 32)


def person_name(outfit: Outfit, person_id: str) -> str:
    """Return a person's name."""
    names = {person.id: person.name for person in outfit.people}
    return shown_name(names.get(person_id, ""), 32) or shown(person_id, 32)


def people_names(outfit: Outfit, people: tuple[str, ...]) -> str:
    """Return several people's names as ``Ann and Bob``."""
    return listed(tuple(person_name(outfit, one) for one in people))


def crew_words(outfit: Outfit, crew: tuple[str, ...]) -> str:
    """Return who drives and who rides along."""
    driver, rest = person_name(outfit, crew[0]), people_names(outfit, crew[1:])
    if not rest:
        return tr("{driver} drives", driver=driver)
    return tr("{driver} drives, with {others}", driver=driver, others=rest)


def lot_code(outfit: Outfit, day: int, yard_id: str) -> str:
    """Return the lot of a yard's boxes taken off on one day: ``L`` date ``-`` yard id.

    The letter L before a lot is asked for by Directive 2011/91/EU; the rest is our own.
    """
    return f"L{iso(outfit, day).replace('-', '')}-{shown(yard_id, 40)}"


def sentence(words: str) -> str:
    """Return words with a capital and a full stop, unless they end in a mark; nothing of none."""
    line = shown(said(words), LONGEST_WHY)
    ended = not line or line.endswith((".", "!", "?", "\u2026"))
    return line[:1].upper() + line[1:] + ("" if ended else ".")
