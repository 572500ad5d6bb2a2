"""The bill worked out again, head by head; each head is rounded up once."""

from runplanner.audit.book import Book, Run
from runplanner.audit.findings import Breach, Breaches, field_word
from runplanner.audit.honey_house import late_box_days
from runplanner.audit.lots import boards_lain, cleared_as_usual, lots, pairs
from runplanner.audit.need import need_of
from runplanner.audit.strips import each_cents
from runplanner.audit.undone import left_cents
from runplanner.audit.wet_boxes import long_wet_days
from runplanner.audit.whole import ceil_div
from runplanner.daybook.plan import Bill
from runplanner.daybook.trip import Action, Job
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Deadline
from runplanner.phrase import counted


def bill(book: Book) -> Breaches:
    """Each head of the bill is what the plan costs."""
    right = bill_of(book)
    for head in Bill.__slots__:
        said, cents = getattr(book.plan.bill, head), getattr(right, head)
        if said != cents:
            yield Breach(
                counted(
                    "{number} cent for {head}",
                    "{number} cents for {head}",
                    said,
                    head=field_word(head),
                ),
                counted("{number} cent", "{number} cents", cents),
            )


def bill_of(book: Book) -> Bill:
    """Return what the plan costs."""
    prices, jobs = book.outfit.prices, _jobs(book)
    return Bill(
        km=ceil_div(sum(_metre_cents(run) for run in book.runs), 1000),
        days=sum(run.rig.truck.day_cents for run in book.runs),
        crew=ceil_div(sum(_on_duty(run) for run in book.runs) * prices.hour_cents, 60),
        overtime=_overtime(book),
        spinning=ceil_div(_spinning_min(book) * prices.hour_cents, 60),
        mixing=ceil_div(_mixing_min(book) * prices.hour_cents, 60),
        blocks=_pieces(jobs, Job.BLOCK) * prices.block_cents,
        syrup=ceil_div(sum(action.ml for action in jobs) * prices.syrup_l_cents, 1000),
        strips=_strips_cents(book),
        late=_late_colony_days(book) * prices.late_cents,
        boards_long=(_long_board_days(book) + long_wet_days(book)) * prices.boards_long_cents,
        spin_late=late_box_days(book) * prices.spin_late_cents,
        unsure=ceil_div(_doubt_permille(book) * prices.unsure_cents, 1000),
        feed_early=_fed_early(book) * prices.feed_early_cents,
        left=left_cents(book),
    )


def _jobs(book: Book) -> list[Action]:
    return [action for _, stop in book.yard_stops() for action in stop.call.actions]


def _pieces(jobs: list[Action], job: Job) -> int:
    return sum(action.pieces for action in jobs if action.job is job)


def _strips_cents(book: Book) -> int:
    """Return what all strips cost, each by the price of the kind of its yard."""
    return sum(
        action.pieces * each_cents(book.outfit, yard.id)
        for yard, stop in book.yard_stops()
        for action in stop.did(Job.STRIPS)
    )


def _metre_cents(run: Run) -> int:
    rate = run.rig.truck.km_cents + (run.rig.trailer.km_cents if run.rig.trailer else 0)
    return rate * sum(leg.metres or 0 for leg in run.legs())


def _on_duty(run: Run) -> int:
    return (run.shift.end_min - run.shift.start_min) * run.rig.crew


def _overtime(book: Book) -> int:
    normal, prices = book.outfit.hours.normal_min, book.outfit.prices
    minutes = sum(
        max(0, run.shift.end_min - run.shift.start_min - normal) * run.rig.crew for run in book.runs
    )
    return ceil_div(minutes * prices.hour_cents * prices.overtime_permille, 60_000)


def _spinning_min(book: Book) -> int:
    return sum((s.end_min - s.start_min) * len(s.people) for s in book.plan.spinning)


def _mixing_min(book: Book) -> int:
    return sum(mix.end_min - mix.start_min for mix in book.plan.mixing)


def _late_colony_days(book: Book) -> int:
    """Colony-days past priced deadlines; of feed rounds only the last one counts."""
    season = book.outfit.season
    total = 0
    for yard in book.yards.values():
        last_round = need_of(book.outfit, yard).rounds
        total += _late(book, yard.id, Job.TAKE_OFF, 0, season.take_off_by)
        total += _late(book, yard.id, Job.FEED, last_round, season.feed_by)
        total += _late(book, yard.id, Job.STRIPS, 0, season.strips_by)
    return total


def _late(book: Book, yard_id: str, job: Job, number: int, by: Deadline) -> int:
    if by.hard:
        return 0
    return sum(
        lot.colonies * max(0, lot.stop.shift.day - by.day)
        for lot in lots(book, yard_id, job, number)
    )


def _doubt_permille(book: Book) -> int:
    """Colonies whose honey comes off, or that get syrup, by how unsure their day is.

    A stop that does both at once to the same colonies is one visit that weather can spoil.
    """
    total = 0
    for yard_id, stop in ((one.call.yard, one) for _, one in book.yard_stops()):
        sure = book.yards[yard_id].sure_permille
        jobs = [a for a in stop.call.actions if a.job in {Job.TAKE_OFF, Job.FEED}]
        if jobs and 0 <= stop.shift.day < len(sure):
            total += max(action.colonies for action in jobs) * (1000 - sure[stop.shift.day])
    return total


def _fed_early(book: Book) -> int:
    """Colonies fed, in every round, at stops that begin before feed counts as late that day."""
    late_from = book.outfit.rules.feed_late_from_min
    return sum(
        action.colonies
        for _, stop in book.yard_stops()
        if stop.call.start_min < stop.shift.day * DAY_MIN + late_from
        for action in stop.call.actions
        if action.job is Job.FEED
    )


def _long_board_days(book: Book) -> int:
    """Colony-days that boards were on for longer than is best, each started day counted."""
    best = book.outfit.rules.board_best_min
    total = 0
    for yard_id in book.yards:
        off = cleared_as_usual(lots(book, yard_id, Job.TAKE_OFF))
        for count, board, lot in pairs(boards_lain(book, yard_id), off):
            if board is not None:
                over = lot.stop.call.start_min - board.end_min - best
                total += count * ceil_div(max(0, over), DAY_MIN)
    return total
