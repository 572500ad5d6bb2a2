"""A clerk of its own: writes a truck's days down as a plan, for the audit to judge.

Nothing of the planner is used.  Goods, deck places, bill and tally are counted straight from
the jobs.  Whatever is wrong here the audit finds, so a plan it passes is a true plan,
whoever wrote it.
"""

from collections.abc import Sequence
from dataclasses import replace

from runplanner.daybook.plan import Bill, Bound, Mixing, Plan, Search, Spinning, Tally
from runplanner.daybook.trip import Call, Carried, Job, Shift, Trip
from runplanner.days import Span
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import phrase
from tests.season.hand_bill import a_bill, done_in, left_at, open_left
from tests.season.hand_clock import Clock, Outing, clocked, stations
from tests.season.hand_goods import aboard


def a_shift(
    outfit: Outfit,
    outing: Outing,
    start: int,
    tanks: Sequence[Sequence[int]],
    breaks: tuple[Span, ...] = (),
) -> Shift:
    """Write one day down, begun at ``start``; it must be a day that can be clocked."""
    route = Clock(outfit).laid_out(outing)
    assert route is not None
    timed = clocked(*route, start)
    assert timed is not None
    times, end = timed
    trips, at, here, metres = [], 0, outfit.home.place, 0
    for number, trip in enumerate(outing.trips):
        calls = []
        for row, (kind, place, visit) in enumerate(stations(outfit, trip, outing.day)):
            after = aboard(outfit, outing, trip, tanks[number], row)
            arrive, begin, done = times[at]
            name, acts = (visit.yard, visit.actions) if visit else ("", ())
            calls.append(
                Call(kind, place, name, arrive, begin, done, done, done, after.boxes, acts, after)
            )
            metres, here, at = metres + (outfit.travel.metres[here][place] or 0), place, at + 1
        carried = tuple(
            Carried(k.id, n) for k, n in zip(outfit.containers, tanks[number], strict=True) if n
        )
        trips.append(
            Trip(f"day {outing.day} {outing.truck.id} trip {number}", tuple(calls), carried)
        )
    metres += outfit.travel.metres[here][outfit.home.place] or 0
    driving = sum(one.drive_min for one in route[0]) + route[1]
    name = outing.trailer.id if outing.trailer else ""
    return Shift(
        outing.day,
        outing.truck.id,
        name,
        outing.crew,
        start,
        end,
        driving,
        metres,
        breaks,
        tuple(trips),
    )


def a_plan(
    outfit: Outfit, shifts: Sequence[Shift], spinning: Sequence[Spinning], mixing: Sequence[Mixing]
) -> Plan:
    """Write the whole plan down, with its tally and bill."""
    none = Tally(0, 0, 0, 0)
    blank = Plan(
        outfit,
        tuple(shifts),
        tuple(spinning),
        tuple(mixing),
        undone=(),
        reliefs=(),
        tally=none,
        bill=Bill(*(0,) * 12),
        bound=Bound(phrase(""), 0, 0, none),
        search=Search(1, 0, phrase(""), ()),
    )
    left = [
        e
        for yard in outfit.yards
        for e in left_at(outfit, yard, [a for _, _, a in done_in(blank, yard.id)])
    ]
    prices, short = outfit.prices, open_left(blank)
    tally = Tally(
        0,
        sum(e.colonies for e in short if e.job is Job.STRIPS and not prices.worth_strips_cents),
        sum(e.stores_g for e in short if not prices.worth_feed_cents),
        sum(e.colonies for e in short if e.job is Job.TAKE_OFF and not prices.worth_take_off_cents),
    )
    return replace(blank, undone=tuple(left), tally=tally, bill=a_bill(blank))
