"""Lines on what is left in store, found or lost."""

from collections.abc import Callable

from runplanner.changes.draft import Draft
from runplanner.changes.said.count_words import see_pieces
from runplanner.changes.said.line import Line
from runplanner.changes.store import lost, stocks
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values import measures
from runplanner.scenario.values.quantities import Measure
from runplanner.trade.strips import SUBSTANCES


def _number(line: Line, what: Phrase) -> int:
    allowed = phrase("a number of {what}", what=what)
    count = line.number(allowed)
    see_pieces(line, allowed)
    return count


def _some(change: Callable[[Draft, int], Draft], what: Phrase) -> Callable[[Line, Draft], Draft]:
    return lambda line, draft: change(draft, _number(line, what))


def _left(
    change: Callable[[Draft, int], Draft], what: Phrase, key: str
) -> Callable[[Line, Draft], Draft]:
    def read(line: Line, draft: Draft) -> Draft:
        left = _number(line, what)
        return change(draft.once(key, left, f"{key} {left}"), left)

    return read


def strips_left(line: Line, draft: Draft) -> Draft:
    """Set how many strips are in store; where several substances are used, of which."""
    allowed = phrase("a number of strips")
    left = line.number(allowed)
    see_pieces(line, allowed)
    of = line.take("of")
    kinds = (draft.outfit.strips, *draft.outfit.strips_also)
    known = {kind.substance: kind.substance for kind in kinds}
    called = {one: substance for one, substance in SUBSTANCES.items() if substance in known}
    named = line.maybe_name(called | known)
    see_pieces(line, allowed)
    other = SUBSTANCES.get(line.reason().casefold(), "")
    strange = bool(other) and other not in known
    if strange or (named is None and (of or len(known) > 1)):
        unused = phrase("Of another no visit needs any: leave the line out.")
        words = phrase(
            "Write 'strips left {left} {substance}'.", left=left, substance=kinds[-1].substance
        )
        allowed = phrase("the substance after the number: {names}", names=", ".join(known))
        raise Refusal(allowed, unused if strange else words)
    substance = named or kinds[0].substance
    draft = draft.once(f"strips left {substance}", left, f"strips left {left} {substance}")
    return stocks.strips_left(draft, left, substance)


def _left_in(
    change: Callable[[Draft, int], Draft], measure: Measure, key: str
) -> Callable[[Line, Draft], Draft]:
    def read(line: Line, draft: Draft) -> Draft:
        typed = line.amount()
        left = 0 if typed.casefold() in {"0", "no", "none"} else measure(typed)
        return change(draft.once(key, left, f"{key} {typed}"), left)

    return read


blocks_left = _left(stocks.blocks_left, phrase("blocks"), "blocks left")
boards_left = _left(stocks.boards_left, phrase("boards"), "boards left")
feeders_left = _left(stocks.feeders_left, phrase("feeders"), "feeders left")
boards_lost = _some(lost.boards_lost, phrase("boards"))
boards_found = _some(lost.boards_found, phrase("boards"))
feeders_lost = _some(lost.feeders_lost, phrase("feeders"))
sugar_left = _left_in(stocks.sugar_left, measures.SUGAR, "sugar left")
syrup_left = _left_in(stocks.syrup_left, measures.SYRUP, "syrup left")
