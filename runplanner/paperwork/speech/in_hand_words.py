"""What a plan keeps in hand, in words for people: heavier boxes, earlier evenings and last days."""

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import typed_box_g
from runplanner.paperwork.speech.say import count, duration, tenths
from runplanner.paperwork.speech.tongue import tr


def in_hand_words(outfit: Outfit) -> tuple[str, ...]:
    """Return a sentence for each thing that is kept in hand; none where nothing is."""
    kept = outfit.in_hand
    if kept is None:
        return ()
    said = []
    more = _up_to(outfit)
    if more:
        words = tr(
            "Loads reckon with boxes up to {more} kg heavier than guessed, so that few trucks are "
            "too heavy: a full box may weigh so much. Weigh the truck all the same.",
            more=tenths(more),
        )  # fmt: skip
        said.append(words)
    if kept.end_min:
        early = duration(kept.end_min)
        said.append(tr("Trucks are planned to be home {early} before they must be.", early=early))
    days = max(kept.take_off_days, kept.strips_days, kept.feed_days, *kept.finish_days, 0)
    if days:
        said.append(tr("Work is planned to be done {days} early.", days=count(days, "day", "days")))
    return tuple(said)


def _up_to(outfit: Outfit) -> int:
    """Return how many grams a box counts heavier than guessed, at most, where there are boxes."""
    return max((y.box_g - typed_box_g(outfit, y.id) for y in outfit.yards if y.boxes), default=0)
