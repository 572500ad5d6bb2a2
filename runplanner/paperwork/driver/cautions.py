"""What a driver is warned of on paper; local law and the licensed come first in each."""

from collections.abc import Container, Iterator

from runplanner.daybook.trip import Job, Shift, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import typed_box_g
from runplanner.outfit.stores import Strips
from runplanner.outfit.yards import Clearing, Health
from runplanner.paperwork.driver.lifting import heavy_cans, lifting
from runplanner.paperwork.driver.load_cautions import load_cautions
from runplanner.paperwork.escape import shown, shown_name
from runplanner.paperwork.speech.caution import Caution
from runplanner.paperwork.speech.say import date_words, duration, listed, tenths, yard_name
from runplanner.paperwork.speech.substances import air_words, burns, called, kinds_in, off_feeder
from runplanner.paperwork.speech.tongue import said, tr
from runplanner.paperwork.stop.health import state_words
from runplanner.trade.strips import CORROSIVE, OFF_FEEDER, unfed_days


def cautions(outfit: Outfit, shift: Shift, trip: Trip) -> tuple[Caution, ...]:
    """Return the trip's warnings in the order in which they may bite."""
    found = (
        *load_cautions(outfit, shift, trip),
        _lifting(outfit, shift, trip),
        *_by_the_high(outfit, shift, trip),
        _cans(outfit, shift, trip),
        _health(outfit, trip),
        _medicine(outfit, shift, trip),
        _hours(outfit, shift),
    )
    return tuple(one for one in found if one is not None)


def unknown(outfit: Outfit, trip: Trip) -> str:
    """Return what this paper cannot know, plainly."""
    yards = sorted({call.yard for call in trip.yards() if call.boxes()})
    weights = tr("true weights")
    if yards:
        counts = _range([outfit.yard(yard).box_g for yard in yards])
        guess = _range([typed_box_g(outfit, yard) for yard in yards])
        weights = tr("true weights (a full box is taken as {mass} kg)", mass=guess)
        if counts != guess:
            weights = tr(
                "true weights (a full box counts as {mass} kg to be safe, guessed {guess} kg)",
                mass=counts, guess=guess,
            )  # fmt: skip
    source = shown(said(outfit.travel.source), 80)
    guessed = guessed_drives(outfit, {call.place for call in trip.calls})
    if guessed:
        source = tr("{source}; {guessed}", source=source, guessed=guessed)
    return tr(
        "Not known here: traffic, the state of road and track, today's weather, {weights}. "
        "Drive times: {source}.",
        weights=weights, source=source,
    )  # fmt: skip


def guessed_drives(outfit: Outfit, places: Container[int]) -> str:
    """Return to which of these places drives are guessed; empty where none are."""
    found = [outfit.places[place].name for place in outfit.travel.guessed if place in places]
    names = ", ".join(shown_name(name, 40) for name in dict.fromkeys(found))
    return tr("drives to {names} guessed from straight lines", names=names) if names else ""


def _range(masses: list[int]) -> str:
    return "\u2013".join(dict.fromkeys((tenths(min(masses)), tenths(max(masses)))))


def _lifting(outfit: Outfit, shift: Shift, trip: Trip) -> Caution | None:
    found = lifting(outfit, shift, trip)
    return None if found is None else Caution(*found)


def _by_the_high(outfit: Outfit, shift: Shift, trip: Trip) -> Iterator[Caution]:
    """Warn of take-offs on a day of which only the high is known to be warm enough."""
    yards = [
        outfit.yard(call.yard) for call in trip.yards()
        if any(action.job is Job.TAKE_OFF for action in call.actions)
    ]  # fmt: skip
    mine = dict.fromkeys(yard for yard in yards if shift.day in yard.high_only)
    warm = tuple(yard_name(one) for one in mine if one.clearing is Clearing.WARM_BOARD)
    cool = tuple(yard_name(one) for one in mine if one.clearing is not Clearing.WARM_BOARD)
    if warm:
        words = tr(
            "{yards}: planned by the day's high alone. Begin only once it is warm and the sun is "
            "on the hives.",
            yards=listed(warm),
        )
        yield Caution(tr("Warm boards"), words)
    if cool:
        words = tr(
            "{yards}: planned by the day's high alone. Open hives only once it is warm enough.",
            yards=listed(cool),
        )
        yield Caution(tr("Cool morning"), words)


def _cans(outfit: Outfit, shift: Shift, trip: Trip) -> Caution | None:
    cans = heavy_cans(outfit, shift, trip)
    if not cans:
        return None
    words = tr(
        "{cans}: fill and empty them where they stand on the deck, by pump or jug.",
        cans=listed(cans),
    )
    return Caution(tr("Do not lift full cans"), words)


def _health(outfit: Outfit, trip: Trip) -> Caution | None:
    held = [
        f"{yard_name(yard)} ({state_words(yard)})"
        for call in trip.yards()
        if (yard := outfit.yard(call.yard)).health is not Health.SOUND
    ]
    if not held:
        return None
    names = listed(tuple(held))
    words = tr("{yards}: own tools, clean hands and kit afterwards.", yards=names)
    return Caution(tr("Health"), words)


def _medicine(outfit: Outfit, shift: Shift, trip: Trip) -> Caution | None:
    kinds = kinds_in(outfit, trip)
    if not kinds:
        return Caution(tr("Medicine"), tr(CORROSIVE)) if burns(outfit, trip) else None
    care = _care(outfit, shift, kinds, burn=burns(outfit, trip))
    if len({(kind.substance, _out(outfit, shift, kind)) for kind in kinds}) > 1:
        return Caution(tr("Medicine"), _several(outfit, shift, kinds) + care)
    first, last = _out(outfit, shift, kinds[0])
    words = tr(
        "the product's leaflet, your vet and local law go first. Whole yard the same day, away "
        "from honey; write batch and date down. Out again {first} to {last}.",
        first=first,
        last=last,
    )
    return Caution(tr("Medicine"), words + care)


def _care(outfit: Outfit, shift: Shift, kinds: list[Strips], *, burn: bool) -> str:
    """Return what the hands must know of some substances: what burns, the air, where, what feed."""
    words = [tr(CORROSIVE)] if burn else []
    for kind in kinds:
        told = (air_words(kind), tr(OFF_FEEDER) if off_feeder(kind) else "")
        which = f"{called(kind.substance)}: " if len(kinds) > 1 else ""
        words += [f"{which}{line}" for line in told if line]
        if unfed := unfed_days(kind):
            until = date_words(outfit, shift.day + unfed)
            substance = called(kind.substance)
            words.append(
                tr(
                    "No feed beside {substance} before {date}, nor until its strips are out.",
                    substance=substance,
                    date=until,
                )
            )
    return "".join(f" {one}" for one in dict.fromkeys(words))


def _out(outfit: Outfit, shift: Shift, kind: Strips) -> tuple[str, str]:
    """Return the first and the last date on which strips put in that day come out."""
    return (
        date_words(outfit, shift.day + kind.out_after_days),
        date_words(outfit, shift.day + kind.out_before_days),
    )


def _several(outfit: Outfit, shift: Shift, kinds: list[Strips]) -> str:
    spans = []
    for kind in kinds:
        first, last = _out(outfit, shift, kind)
        substance = called(kind.substance)
        spans.append(
            tr("{substance} {first} to {last}", substance=substance, first=first, last=last)
        )
    return tr(
        "different strips aboard, each only where its stop names it. The product's leaflet, your "
        "vet and local law go first. Whole yard the same day, away from honey; write batch and "
        "date down. Out again: {spans}.",
        spans=listed(tuple(dict.fromkeys(spans))),
    )


def _hours(outfit: Outfit, shift: Shift) -> Caution:
    """Return the truck's day beside what is allowed.

    Work inside is no figure here, as it may move while the truck's day stays as printed.
    """
    limit = outfit.hours
    times = {
        "driving": duration(shift.driving_min),
        "driving_most": duration(limit.driving_max_min),
        "duty": duration(shift.end_min - shift.start_min),
        "duty_most": duration(limit.duty_max_min),
    }
    if any(one.id in shift.crew and (one.spins or one.mixes) for one in outfit.people):
        words = tr(
            "driving {driving} of {driving_most} allowed; with the truck {duty}, of {duty_most} "
            "of duty in the day, spinning and mixing counted in; local law goes first.",
            **times,
        )
    else:
        words = tr(
            "driving {driving} of {driving_most} allowed, duty {duty} of {duty_most}; "
            "local law goes first.",
            **times,
        )
    return Caution(tr("Hours"), words)
