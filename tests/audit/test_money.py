"""Heads of the bill that round or that the good plans leave at nought."""

from runplanner.audit.audit import audit
from runplanner.audit.book import open_book
from runplanner.audit.money import bill_of
from runplanner.daybook.plan import Plan
from runplanner.outfit.outfit import Deadline
from tests.audit.plans import far_away, left_undone, plain, with_trailer
from tests.audit.planted import edited


def bill_with(plan: Plan, **prices: int) -> dict[str, int]:
    """The bill at other prices, by head."""
    edits: dict[str, object] = {f"outfit.prices.{name}": cents for name, cents in prices.items()}
    bill = bill_of(open_book(edited(plan, edits)))
    return {head: getattr(bill, head) for head in bill.__slots__}


def test_each_head_is_rounded_up_once() -> None:
    """At 7 cents an hour: crew 1,059 min 123.55, overtime 145 min half of 16.92, both up.

    Spinning 150 min 17.5, mixing 51 min 5.95; 170 l at 1 cent are 170.
    """
    bill = bill_with(far_away(), hour_cents=7, syrup_l_cents=1)

    assert (124, 9, 18, 6, 170) == (
        bill["crew"], bill["overtime"], bill["spinning"], bill["mixing"], bill["syrup"],
    )  # fmt: skip


def test_overtime_of_large_sums_is_exact() -> None:
    """145 min at 3,000,000 an hour and half as much again: 145 / 60 x 1,500,000."""
    assert 3_625_000 == bill_with(far_away(), hour_cents=3_000_000)["overtime"]


def test_kilometres_of_truck_and_trailer_are_one_sum() -> None:
    """40 km at 61 + 20 cents; part kilometres count: 1 m more is 0.081 cents, rounded up."""
    plan = edited(with_trailer(), {"outfit.trucks.0.km_cents": 61})
    longer = edited(plan, {"outfit.travel.metres.0.1": 10_001})

    assert 3_240 == bill_of(open_book(plan)).km
    assert 3_241 == bill_of(open_book(longer)).km


def test_late_take_off_is_priced_by_the_day() -> None:
    """Twenty colonies come off on day 0, two days past day -2: 40 x 2,000 cents."""
    plan = edited(
        plain(),
        {"outfit.season.take_off_by": Deadline(-2, hard=False), "bill.late": 80_000},
    )

    assert () == audit(plan)


def test_only_the_last_round_is_late() -> None:
    """Feed by day -1, priced: one round, fed on day 1, is two days for twenty colonies."""
    assert (
        80_000
        == bill_of(
            open_book(edited(plain(), {"outfit.season.feed_by": Deadline(-1, hard=False)}))
        ).late
    )


def test_boards_within_the_best_time_cost_nothing() -> None:
    """On for 3,915 min: free up to that, 1,000 cents for the first day begun beyond."""
    free = edited(left_undone(), {"outfit.rules.board_best_min": 3_915})
    over = edited(left_undone(), {"outfit.rules.board_best_min": 3_914})

    assert 0 == bill_of(open_book(free)).boards_long
    assert 1_000 == bill_of(open_book(over)).boards_long
