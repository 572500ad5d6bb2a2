"""What the plan leaves undone: the tally, the list of undone work, and the bound."""

from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from runplanner.audit.book import Book
from runplanner.audit.cover import gaps
from runplanner.audit.findings import Breach, Breaches, field_word, figure, word
from runplanner.audit.lots import colonies_in, lots
from runplanner.audit.need import fed_without_take_off, left_alone, need_of
from runplanner.audit.wet_boxes import left_up, not_back
from runplanner.audit.whole import ceil_div
from runplanner.daybook.plan import TOO_DEAR, Tally, Undone
from runplanner.daybook.trip import Job
from runplanner.outfit.yards import Yard
from runplanner.phrase import Phrase, counted, phrase


class Missing(NamedTuple):
    """How much of a job a yard lacks: colonies, grams of stores, colony-days without cover."""

    colonies: int
    stores_g: int = 0
    colony_days: int = 0

    def words(self) -> Phrase:
        """Return it in words."""
        if self.colony_days:
            return counted("{number} colony-day", "{number} colony-days", self.colony_days)
        return counted(
            "{number} colony, {grams} g",
            "{number} colonies, {grams} g",
            self.colonies,
            grams=self.stores_g,
        )


NOTHING = Missing(0)


def tally(book: Book) -> Breaches:
    """Each figure of the tally is what the chains of the yards leave out."""
    right = tally_of(book)
    for name in Tally.__slots__:
        said, here = getattr(book.plan.tally, name), getattr(right, name)
        if said != here:
            yield Breach(phrase("{here} {name}", here=said, name=field_word(name)), figure(here))


def tally_of(book: Book) -> Tally:
    """Return the undone vector; yards that are suspect or at a standstill do not count.

    They do where they may be fed as they stand.  Jobs with a stated worth never do: what is
    left of them is on the bill.
    """
    prices = book.outfit.prices
    strips, grams, on = _short(book)
    return Tally(
        uncovered=sum(_uncovered(book, yard) for yard in book.yards.values()),
        no_strips=0 if prices.worth_strips_cents else strips,
        unfed_g=0 if prices.worth_feed_cents else grams,
        not_off=0 if prices.worth_take_off_cents else on,
    )


def left_cents(book: Book) -> int:
    """Return the stated worth of all work that is left, part of a cent rounded up."""
    prices = book.outfit.prices
    strips, grams, on = _short(book)
    whole = strips * prices.worth_strips_cents + on * prices.worth_take_off_cents
    return whole + ceil_div(grams * prices.worth_feed_cents, 1000)


def _open_yards(book: Book) -> list[Yard]:
    return [yard for yard in book.yards.values() if not left_alone(yard)]


def _short(book: Book) -> tuple[int, int, int]:
    """Colonies without strips, grams not fed and colonies not taken off, in open yards."""
    open_yards = _open_yards(book)
    return (
        sum(_without_strips(book, yard) for yard in open_yards),
        sum(_unfed(book, yard)[1] for yard in open_yards),
        sum(_not_off(book, yard) for yard in open_yards),
    )


def _uncovered(book: Book, yard: Yard) -> int:
    """Colony-days without cover; none are counted in a yard that is left alone."""
    return 0 if left_alone(yard) else sum(gap.colony_days() for gap in gaps(book, yard.id))


def _not_off(book: Book, yard: Yard) -> int:
    if fed_without_take_off(yard):
        return 0
    return max(0, yard.colonies - colonies_in(lots(book, yard.id, Job.TAKE_OFF)))


def _without_strips(book: Book, yard: Yard) -> int:
    """Colonies without strips, or with strips only after a hard last day."""
    by = book.outfit.season.strips_by
    done = lots(book, yard.id, Job.STRIPS)
    in_time = [lot for lot in done if not by.hard or lot.stop.shift.day <= by.day]
    return max(0, yard.colonies - colonies_in(in_time))


def _unfed(book: Book, yard: Yard) -> tuple[int, int]:
    """Colonies that lack a round, and the grams of stores they are all short of."""
    need = need_of(book.outfit, yard)
    colonies, grams, fed = 0, 0, yard.colonies
    for rounds in range(need.rounds):
        more = min(fed, colonies_in(lots(book, yard.id, Job.FEED, rounds + 1)))
        colonies += fed - more
        grams += (fed - more) * need.unfed_g(rounds)
        fed = more
        if not fed:
            break
    return colonies, grams


def undone(book: Book) -> Breaches:
    """The list of undone work is what is missing, each once, each with its reasons.

    Boards and blocks serve the take-off and are not listed by themselves; days of colonies
    without cover stand there as blocks.
    """
    missing = dict(_missing(book))
    said: Counter[tuple[str, Job]] = Counter()
    for entry in book.plan.undone:
        key = (entry.yard, entry.job)
        said[key] += 1
        here = missing.get(key, NOTHING)
        listed = Missing(entry.colonies, entry.stores_g, entry.colony_days)
        if listed != here or here == NOTHING:
            text = phrase("undone {job} of {much}", job=word(entry.job), much=listed.words())
            yield Breach(text, here.words(), yard=entry.yard)
        if not any(reason.strip() for reason in entry.why):
            yield Breach(
                phrase("undone {job} without a reason", job=word(entry.job)),
                phrase("why"),
                yard=entry.yard,
            )
        yield from _too_dear(book, entry)
    for (yard_id, job), much in missing.items():
        if said[yard_id, job] != 1:
            text = phrase(
                "undone {job} listed {times} times", job=word(job), times=said[yard_id, job]
            )
            yield Breach(text, phrase("once, for {much}", much=much.words()), yard=yard_id)


def _too_dear(book: Book, entry: Undone) -> Breaches:
    """Work left for its cost tells the stated worth of all that is left at its yard.

    Nothing is left for its cost where a job without a stated worth is left as well, nor on
    purpose where it would cost no more than its worth.
    """
    on_purpose = TOO_DEAR in entry.why
    if not (on_purpose or entry.cost_cents or entry.worth_cents):
        return
    yard, prices = book.yards.get(entry.yard), book.outfit.prices
    left = (
        ((0, 0), (0, 0), (0, 0))
        if yard is None or left_alone(yard)
        else (
            (_without_strips(book, yard) * 1000, prices.worth_strips_cents),
            (_unfed(book, yard)[1], prices.worth_feed_cents),
            (_not_off(book, yard) * 1000, prices.worth_take_off_cents),
        )
    )
    free = any(milli and not cents for milli, cents in left)
    worth = 0 if free else ceil_div(sum(milli * cents for milli, cents in left), 1000)
    least = worth if on_purpose else 0
    if not worth or entry.worth_cents != worth or entry.cost_cents <= least:
        text = phrase(
            "undone {job} costs {cost}, worth {worth_cents}",
            job=word(entry.job),
            cost=counted("{number} cent", "{number} cents", entry.cost_cents),
            worth_cents=entry.worth_cents,
        )
        right = phrase("a cost above {least}, and worth {worth}", least=least, worth=worth)
        yield Breach(text, right if worth else phrase("not left for its cost"), yard=entry.yard)


def _missing(book: Book) -> Iterator[tuple[tuple[str, Job], Missing]]:
    for yard in book.yards.values():
        colonies, grams = _unfed(book, yard)
        left = (
            (Job.TAKE_OFF, Missing(_not_off(book, yard))),
            (Job.FEED, Missing(colonies, grams)),
            (Job.STRIPS, Missing(_without_strips(book, yard))),
            (Job.WET_UP, Missing(not_back(book, yard))),
            (Job.WET_DOWN, Missing(left_up(book, yard))),
            (Job.BLOCK, Missing(0, colony_days=_uncovered(book, yard))),
        )
        for job, much in left:
            if much.colonies or much.colony_days:
                yield (yard.id, job), much


def reliefs(book: Book) -> Breaches:
    """A relief cures no more jobs than are listed and open, and has a price where it cures any.

    Where no job fits whole it may tell how much less is left.
    """
    yards = (book.yards.get(entry.yard) for entry in book.plan.undone)
    listed = sum(yard is None or not left_alone(yard) for yard in yards)
    for one in book.plan.reliefs:
        less = _vector(one.less)
        possible = 0 <= one.cured <= one.undone == listed and min(less) >= 0
        one_of_both = not (one.cured and any(less))
        helps = bool(one.cured or any(less))
        if not possible or not one_of_both or helps != (one.extra_cents is not None):
            yield Breach(
                phrase("a relief that cures {cured} of {all}", cured=one.cured, all=one.undone),
                phrase("of the {listed} listed, with a price where it cures any", listed=listed),
            )


def bound(book: Book) -> Breaches:
    """The bound is no higher than the plan itself, in what is undone and in cost.

    Nothing of it is below zero, and what cannot be avoided is part of it.
    """
    claim, plan = book.plan.bound, book.plan
    total = plan.bill.total()
    own = phrase("at most the plan's own {total}", total=total)
    for name, cents, most, allowed in (
        (phrase("bound"), claim.cents, total, own),
        (
            phrase("unavoidable cost"),
            claim.fixed_cents,
            claim.cents,
            phrase("at most the bound, {cents}", cents=claim.cents),
        ),
    ):
        if not 0 <= cents <= most:
            said = counted(
                "a {name} of {number} cent", "a {name} of {number} cents", cents, name=name
            )
            yield Breach(said, allowed if cents > most else phrase("0 or more"))
    vector = _vector(claim.tally)
    said = phrase("a bound on what is undone of {vector}", vector=str(vector))
    if min(vector) < 0:
        yield Breach(said, phrase("0 or more"))
    elif vector > _vector(plan.tally):
        allowed = phrase("at most the plan's own {vector}", vector=str(_vector(plan.tally)))
        yield Breach(said, allowed)


def _vector(tally: Tally) -> tuple[int, int, int, int]:
    return tally.uncovered, tally.no_strips, tally.unfed_g, tally.not_off
