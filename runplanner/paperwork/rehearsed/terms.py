"""How a plan was rehearsed, in sentences for people: what is luck, and what is not."""

from runplanner.paperwork.speech.say import tenths
from runplanner.paperwork.speech.tongue import tr


def term_words(  # noqa: PLR0913 - one figure for each kind of luck
    *, boxes: int, mass: int, work: int, shut: int, truck: int, seed: int, rounds: int,
    hindsight: int,
) -> list[str]:  # fmt: skip
    """Return the terms; spreads and chances in per mille."""

    def share(permille: int) -> str:
        return f"{tenths(100 * permille)} %"

    lines = [
        tr("Full boxes of a yard: as guessed, with a spread of {boxes}.", boxes=share(boxes)),
        tr("Mass of a full box: as guessed, with {mass} of each yard's own spread.",
           mass=share(mass)),
        tr("Minutes at a stop: as planned, with a spread of {work}.", work=share(work)),
        tr("Fair hours of a day shut after all: by the forecast's own doubt, else {shut}.",
           shut=share(shut)),
        tr("A truck that does not start: {truck} of its days.", truck=share(truck)),
        tr("These spreads are guesses, but for masses and forecasts; change them to yours."),
        tr("Drivers load no more boxes than their paper allows, fewer where syrup stays aboard, "
           "but do not weigh them."),
        tr("A crew that is early waits for the time on its paper; one that would leave later "
           "than its latest time leaves the stop out."),
        tr("Each morning the rest is planned again with least change where facts changed, "
           "{rounds} rounds.", rounds=rounds),
        tr("Overload is counted from true masses, cover and work left by the audit's rules."),
        tr("Fair hours that were not foreseen never come; what is driven late costs its hours, "
           "but does not delay the honey house."),
        tr("Seed {seed}.", seed=seed),
    ]  # fmt: skip
    if hindsight:
        lines.append(
            tr("Knowing the future: a plan of {rounds} rounds for what came about, minutes at "
               "stops as planned; it may be beaten.", rounds=hindsight)
        )  # fmt: skip
    return lines


def in_hand_words() -> list[str]:
    """Return what is said where the plan keeps something in hand."""
    return [
        tr("The plan keeps something in hand: true masses are drawn round the typed mass of a "
           "box, not the heavier one it was planned with; minutes and days kept in hand are "
           "given back when the campaign runs.")
    ]  # fmt: skip
