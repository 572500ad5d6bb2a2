"""One day's routing in plain numbers, the same for every rival that routes by machine.

Node 0 is the base: trips leave from the feed store and come back by the honey house (the legs
between the two are in the way back), node ``i + 1`` is job ``i``.  Costs in 1/1000 cent.
"""

from dataclasses import dataclass

from tests.bench.jobs import Job
from tests.bench.today import Today, Truck

FAR = 10**7
OTHER_CREWS_G = 0.97
"""Share of the payload a rival plans with, for containers and small goods it does not see."""


@dataclass(frozen=True, slots=True)
class Fleet:
    """What the router knows of one truck's day."""

    truck: Truck
    minutes: list[list[int]]
    metres: list[list[int]]
    visit_min: list[int]
    base_min: list[int]
    load_g: int
    boxes: int
    trip_min: int
    opens: int
    closes: int
    most_min: int
    normal_min: int
    km_cents: int
    crew_milli_cents: int
    day_milli_cents: int


def fleet(today: Today, truck: Truck) -> Fleet:
    """Return a truck's day in numbers."""
    ground, outfit = today.ground, today.ground.outfit
    hauler = ground.haulers[truck.hauler]
    hours, midnight = outfit.hours, today.day * 1440
    columns = ground.places[truck.hauler][ground.cell(frozenset())]
    return Fleet(
        truck,
        _table(today, truck, minutes=True),
        _table(today, truck, minutes=False),
        [ground.stop_min(job.stop, hauler.crew) for job in today.jobs],
        [_base_min(today, job, hauler.crew) for job in today.jobs],
        int(hauler.load_max_g * OTHER_CREWS_G),
        max(1, columns - 6) * min(ground.high[truck.hauler]),
        outfit.pace.load_min + outfit.pace.unload_min,
        midnight + hours.start_min,
        midnight + hours.end_min,
        min(hours.duty_max_min, hours.end_min - hours.start_min) - hours.duty_break_min,
        hours.normal_min,
        hauler.km_cents,
        hauler.crew * outfit.prices.hour_cents * 1000 // 60,
        hauler.truck.day_cents * 1000,
    )


def _base_min(today: Today, job: Job, crew: int) -> int:
    """Return a job's share of pumping and unloading at the base."""
    pace, task = today.ground.outfit.pace, today.ground.task(job.stop)
    return -(-task.used.ml // pace.pump_ml_per_min) + -(
        -job.boxes * pace.unload_box_s // (60 * crew)
    )


def _table(today: Today, truck: Truck, *, minutes: bool) -> list[list[int]]:
    """Return minutes or metres between nodes; far where a job is not for this truck."""
    ground, outfit = today.ground, today.ground.outfit
    store, house = outfit.feed_store.place, outfit.honey_house.base.place
    legs = ground.legs[truck.hauler] if minutes else outfit.travel.metres

    def leg(a: int, b: int) -> int:
        value = legs[a][b]
        return FAR if value is None else value

    places = [ground.place(job.stop.yard, today.day) for job in today.jobs]
    barred = [not _may(today, truck, job) for job in today.jobs]
    rows = [[0, *(leg(store, p) for p in places)]]
    for job, place in zip(today.jobs, places, strict=True):
        back = leg(place, house) + leg(house, store) if job.boxes else leg(place, store)
        rows.append([back, *(leg(place, other) for other in places)])
    return [
        [
            FAR if i != j and ((i and barred[i - 1]) or (j and barred[j - 1])) else min(cell, FAR)
            for j, cell in enumerate(row)
        ]
        for i, row in enumerate(rows)
    ]


def _may(today: Today, truck: Truck, job: Job) -> bool:
    return max(job.out_g, job.in_g) <= today.ground.load_into[truck.hauler][job.stop.yard]


def prizes(today: Today, fleets: list[Fleet]) -> list[int]:
    """Return what each job is worth today: what it would cost alone, more as time runs out."""
    found = []
    for i, job in enumerate(today.jobs):
        alone = min(_alone(one, i) for one in fleets)
        urgent = 1 + 2 / (1 + job.days_left) if job.days_left else 12
        keen = today.setting.keen * (2 if job.kind == "feed" else 1)
        found.append(int(alone * keen * urgent))
    return found


def _alone(one: Fleet, i: int) -> int:
    metres = one.metres[0][i + 1] + one.metres[i + 1][0]
    minutes = one.minutes[0][i + 1] + one.minutes[i + 1][0] + one.visit_min[i] + one.base_min[i]
    return min(metres, FAR) * one.km_cents + min(minutes, FAR) * one.crew_milli_cents
