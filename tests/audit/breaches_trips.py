"""Planted breaches of what concerns trips: sense, clock, people, load and windows."""

from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Carried, Stowed
from runplanner.days import Span
from runplanner.outfit.areas import Area
from runplanner.outfit.shut import Shut, Work
from runplanner.outfit.trucks import Axles, Nose
from runplanner.outfit.yards import Clearing, Health
from tests.audit.plans import (
    PLANS,
    boards,
    far_away,
    left_undone,
    measured_nose,
    plain,
    with_trailer,
)
from tests.audit.planted import Edge, Planted, Table, edited

BEHIND = Stowed((Carried("ibc", 1),), trailer_loads=True, trailer_stops=True)
AHEAD = replace(BEHIND, behind=())


def tank_ahead() -> Plan:
    """The plan with a trailer, whose driver is told that the tank rides on the truck."""
    return edited(with_trailer(), {f"{FEED}.stowed": AHEAD})


def carried() -> Plan:
    """Two yards as before; the first is carried to another site on day 5, by the only truck."""
    yard = {"outfit.yards.0.sites": ((0, 1), (5, 2)), "outfit.yards.0.carried_by": ((5, "truck1"),)}
    return edited(plain(), yard)


def carried_on_the_spot() -> Plan:
    """The first yard's hives are turned round where they stand, in the night before day 1."""
    return edited(plain(), {"outfit.yards.0.sites": ((0, 1), (1, 1))})


def closed_at_noon() -> Plan:
    """Of the plan before, at 12:00 of day 4, with the first yard suspect and no stop to come.

    Its hives are to be carried in the night before day 5.
    """
    return edited(carried(), {"now_min": 4 * 1440 + 720, "outfit.yards.0.health": Health.SUSPECT})


OFF = "shifts.0.trips.0"
FEED = "shifts.1.trips.0"
EVEN = (1000,) * 24

SENSE: Table = (
    Planted("facts", plain, {"outfit.feed.uptake_ml_per_day": 0}),
    Planted("facts", plain, {"outfit.feed.sugar_permille": 0}),
    Planted("facts", plain, {"outfit.trucks.0.speed_permille": 0}),
    Planted("facts", with_trailer, {"outfit.trailers.0.speed_permille": -5}),
    Planted("facts", measured_nose, {"outfit.trailers.0.nose.drawbar_mm": 0}),
    Planted("facts", plain, {"outfit.yards.1.colonies": -1}),
    Planted("facts", plain, {"outfit.boxes": ()}),
    Edge(
        "facts", plain, "outfit.areas", (Area(((-90.0, 180.0),), 1),), (Area(((-90.1, 180.0),), 1),)
    ),
    Edge("facts", plain, "outfit.areas", (Area(((0.0, 0.0),), 1),), (Area(((0.0, 0.0),)),)),
    Edge("facts", plain, "outfit.honey_house.boxes_per_h", (0, 30), (-1, 30)),
    Planted("facts", plain, {"outfit.honey_house.boxes_per_h": ()}),
    Edge("facts", plain, "outfit.yards.0.sure_permille", (1000, 0), (1001, 0)),
    Edge("facts", plain, "outfit.yards.0.sure_permille", (1000, 0), (1000, -1)),
    Edge("facts", plain, "outfit.prices.unsure_cents", 0, -1),
    Edge("facts", plain, "outfit.prices.feed_early_cents", 0, -1),
    Edge("facts", plain, "outfit.rules.feed_late_from_min", 0, -1),
    *(
        Edge("facts", plain, f"outfit.prices.worth_{job}_cents", 0, -1)
        for job in ("take_off", "feed", "strips")
    ),
    Planted("facts", plain, {"outfit.boxes.0.width_mm": 0}),
    Planted("facts", plain, {"outfit.containers.1.length_mm": 0}),
    Planted("facts", plain, {"outfit.yards": lambda yards: (*yards, yards[0])}),
    Planted("facts", plain, {"outfit.travel.minutes": lambda rows: rows[:-1]}),
    Planted("facts", plain, {"outfit.travel.metres.1": lambda row: row[:-1]}),
    Edge("facts", plain, "outfit.travel.by_hour", EVEN, EVEN[:23]),
    Edge("facts", plain, "outfit.travel.by_hour", EVEN, (*EVEN[:23], 999)),
    Edge("facts", plain, "outfit.travel.by_hour", EVEN, (*EVEN[:23], 10_001)),
    Planted("facts", plain, {"outfit.pace.box_s": ()}, yard="yard1"),
    Planted("facts", plain, {"outfit.yards.0.sites": ()}, yard="yard1"),
    *(
        Planted("facts", plain, {"outfit.season.first_date": day})
        for day in ("22/02/2027", "", "1999-12-31", "2101-01-01")
    ),
    Edge("facts", plain, "outfit.season.first_date", "2100-12-31", "9999-12-31"),
    Edge("facts", plain, "outfit.season.first_date", "2000-01-01", "0001-01-01"),
    Edge("facts", plain, "outfit.season.n_days", 366, 367),
    Planted("facts", plain, {"outfit.season.n_days": 0}),
    *(
        Edge("facts", plain, f"outfit.strips.{days}", edge, beyond)
        for days in ("out_after_days", "out_before_days", "no_feed_days")
        for edge, beyond in ((0, -1), (36_525, 36_526))
    ),
    Edge("facts", plain, "outfit.yards.1.spin_by_min", 0, -1),
    Edge("facts", plain, "outfit.yards.1.spin_by_min", 36_525 * 1440, 36_525 * 1440 + 1),
    # 36,525 days and a bit at 500 g a day, 2,100 g of it fondant
    Edge("facts", plain, "outfit.yards.1.stores_g", 36_526 * 500 - 2_101, 36_526 * 500 - 2_100),
    Edge("facts", plain, "outfit.yards.1.sites.0.0", 0, -1),
    Edge("facts", plain, "outfit.yards.1.sites.0.0", 36_525, 36_526),
    *(
        Edge("facts", plain, "outfit.yards.1.high_only", (edge,), (beyond,))
        for edge, beyond in ((0, -1), (36_525, 36_526))
    ),
    Edge("facts", plain, "outfit.feed.tank_ml", None, 0),
    Edge("facts", plain, "outfit.feed.tank_ml", 1, -5),
    Planted("reference", plain, {"shifts.0.truck": "nobody's"}, "off"),
    Planted("reference", plain, {"shifts.0.trailer": "nobody's"}, "off"),
    Planted("reference", plain, {"shifts.0.crew": ("ann", "nobody")}, "off"),
    Planted("reference", plain, {f"{OFF}.calls.1.yard": "nowhere"}, "off"),
    Planted("reference", plain, {f"{OFF}.calls.1.place": 3}, "off"),
    Planted("reference", plain, {f"{OFF}.calls.1.place": -1}, "off"),
    Planted("reference", plain, {f"{FEED}.containers.0.container": "bath"}, "feed"),
    Planted("reference", plain, {"spinning.0.people": ("nobody",)}),
    Planted("reference", plain, {"mixing.0.person": "nobody"}),
    Planted("reference", left_undone, {"undone.0.yard": "nowhere"}),
    Planted("reference", plain, {"outfit.yards.0.box": "hat box"}, yard="yard1"),
    Planted("reference", plain, {"outfit.yards.1.sites": ((0, 9),)}, yard="yard2"),
    Planted("reference", plain, {"outfit.honey_house.base.place": 7}),
    Edge("reference", carried, "outfit.yards.0.carried_by.0.1", "truck1", "nobody's", "", "yard1"),
    # Carried to where it stands from day 5 on, not to where it stood from the first day on.
    *(
        Edge("reference", carried, "outfit.yards.0.carried_by.0.0", 5, day, "", "yard1")
        for day in (4, 6, 0, -5, 10**9)
    ),
    Planted("hives stay", carried, {"outfit.yards.0.health": Health.SUSPECT}, "", "yard1"),
    Planted("hives stay", carried, {"outfit.yards.0.health": Health.STANDSTILL}, "", "yard1"),
    # Day 5 begins at 7200: until then the hives are still to be carried.
    Edge("hives stay", closed_at_noon, "now_min", 7200, 7199, "", "yard1"),
    Planted("count", plain, {f"{FEED}.containers.0.count": -7}, "feed"),
    Planted("count", plain, {f"{OFF}.calls.1.actions.0.boxes": -15}, "off", "yard1"),
    Planted("count", plain, {"spinning.0.boxes": -30}),
    Planted("count", plain, {"mixing.0.ml": -1}),
    Planted("campaign day", plain, {"shifts.0.day": 6}, "off"),
    Planted("campaign day", plain, {"shifts.1.day": -1}, "feed"),
    # Six days, so the last is day 5; sixty more are for spinning.
    Edge("campaign day", plain, "spinning.0.start_min", 66 * 1440 - 1, 66 * 1440),
    Edge("campaign day", plain, "spinning.0.end_min", 66 * 1440 - 1, 66 * 1440),
    Planted("crew", plain, {"shifts.0.crew": ()}, "off"),
    Planted("crew", plain, {"shifts.0.crew": ("ann", "ann")}, "off"),
    Planted("trip shape", plain, {"shifts.0.trips": ()}),
    Planted("trip shape", plain, {f"{OFF}.calls": ()}, "off"),
    Planted("trip shape", plain, {f"{OFF}.calls": lambda calls: calls[1:]}, "off"),
    Planted("trip shape", plain, {f"{OFF}.calls": lambda calls: calls[:-1]}, "off"),
    Planted("trip shape", plain, {f"{OFF}.calls": lambda c: (c[0], c[-1])}, "off"),
    Planted("trip shape", plain, {f"{OFF}.calls": lambda c: (c[0], c[1], c[3], c[2])}, "off"),
    Planted("trip shape", plain, {f"{OFF}.calls.0.yard": "yard1"}, "off"),
)

PEOPLE: Table = (
    Planted("past", plain, {"shifts.0.trips.0.driven": True}, "off"),
    # Leaving home at 450.
    Edge("past", plain, "now_min", 449, 450, "off"),
    Planted("trip id", plain, {f"{FEED}.id": "off"}, "off"),
    Planted("trip id", plain, {f"{FEED}.id": " "}, " "),
    Planted("truck twice", plain, {"shifts": lambda shifts: (*shifts, shifts[0])}),
    Planted("trailer twice", with_trailer, {"shifts": lambda shifts: (*shifts, shifts[0])}),
    Planted("person twice", plain, {"shifts": lambda shifts: (*shifts, shifts[0])}),
    Planted("driver", plain, {"shifts.0.crew": ("bob", "ann")}, "off"),
    Planted("driver", plain, {"outfit.trucks.0.drivers": ("bob",)}, "off"),
    Planted("driver", plain, {"outfit.people.0.drives": False}, "feed"),
    Edge("seats", plain, "outfit.trucks.0.seats", 2, 1, "off"),
    Edge("day off", plain, "outfit.people.1.off_days", (2, 3), (0,), "off"),
    Edge("day off", plain, "outfit.people.1.off_days", (-2,), (-1,)),
    Edge("day off", far_away, "outfit.people.1.off_days", (2,), (1,)),
    Edge("out of service", plain, "outfit.trucks.0.out_days", (2,), (1,), "feed"),
    Edge("out of service", with_trailer, "outfit.trailers.0.out_days", (2,), (0,), "part"),
    Edge("out of service", carried_on_the_spot, "outfit.yards.0.carried_by", (), ((1, "truck1"),),
         "feed"),
    # Bob is out from 450 to 616 and spins from 720 to 870: 420 min, of them 150 without a break
    # once the 104 min between are one.
    Edge("duty inside", plain, "outfit.hours.duty_max_min", 420, 419),
    Edge("break inside", plain, "outfit.hours.duty_break_after_min", 150, 149),
    Edge("break inside", plain, "outfit.hours.duty_break_min", 104, 105),
    Edge("two places", plain, "spinning.0.start_min", 616, 615, "off"),
    Planted("two places", plain, {"mixing": lambda mixing: mixing * 2}),
    Planted("two places", plain, {"mixing.0.start_min": 1930, "mixing.0.end_min": 1981}, "feed"),
    # On the truck until 616, spinning from 616: one after the other, but one half-day.
    Planted("half-day", plain, {"spinning.0.start_min": 616, "spinning.0.end_min": 766},
            "off"),
    Edge("half-day", plain, "outfit.hours.noon_min", 720, 721, "off"),
    # On the truck until 616 and spinning from 720.
    Edge("half-day", plain, "outfit.hours.noon_min", 616, 615, "off"),
    # Mixing from 480, on the truck from 870.
    Planted("half-day", boards, {"outfit.hours.noon_min": 871}, "first"),
)  # fmt: skip

PLACES: Table = (
    Planted("load place", plain, {f"{OFF}.calls.0.place": 1}, "off"),
    Planted("yard place", plain, {f"{OFF}.calls.1.place": 2}, "off", "yard1"),
    # The hives of yard 1 are moved to place 2 on day 1.
    Planted("yard place", plain, {"outfit.yards.0.sites": ((0, 1), (1, 2))}, "feed", "yard1"),
    Planted("unload place", plain, {f"{OFF}.calls.3.place": 1}, "off"),
    Planted("unload place", plain, {f"{OFF}.calls": lambda c: (*c, c[3])}, "off"),
    Planted("unload place", far_away, {f"{OFF}.calls": lambda c: c[:-1]}, "off"),
    Planted("unload place", far_away,
            {f"{OFF}.calls": lambda c: (*c[:3], c[4], c[3])}, "off"),
    Planted("unload place", far_away, {f"{FEED}.calls.3.place": 4}, "feed"),
    Planted("road", plain, {"outfit.travel.minutes.1.2": None}, "off"),
    Planted("road", plain, {"outfit.travel.metres.2.0": None}, "feed"),
)  # fmt: skip

CLOCK: Table = (
    Planted("clock", plain, {f"{OFF}.calls.0.arrive_min": 449}, "off"),
    Planted("clock", plain, {f"{OFF}.calls.1.arrive_min": 474}, "off", "yard1"),
    Planted("clock", plain, {"outfit.trucks.0.speed_permille": 999}, "off", "yard1"),
    # The drive from 7:45 takes 10 minutes, and 11 where that hour is a tenth slower.
    Edge("clock", plain, "outfit.travel.by_hour", EVEN, (*EVEN[:7], 1100, *EVEN[8:]), "off",
         "yard1"),
    Planted("clock", plain, {f"{OFF}.calls.1.start_min": 474}, "off", "yard1"),
    Planted("clock", plain, {f"{OFF}.calls.1.end_min": 479}, "off", "yard1"),
    # Waiting before leaving is no break.
    Planted("clock", plain, {f"{OFF}.calls.2.leave_min": 590}, "off", "yard2"),
    Planted("clock", far_away, {"shifts.1.breaks": ()}, "feed", "yard2"),
    # Nobody is called back on a trip that is still to come.
    Planted("clock", plain, {f"{OFF}.calls.1.turned_min": 480}, "off", "yard1"),
    Planted("work minutes", plain, {f"{OFF}.calls.1.start_min": 481}, "off", "yard1"),
    # The break inside the work grows by a minute.
    Planted("work minutes", far_away, {"shifts.0.breaks": (Span(674, 720),)}, "off", "yard2"),
    Edge("work minutes", plain, "outfit.pace.setup_min", 10, 11, "off", "yard2"),
    Edge("work minutes", plain, "outfit.pace.inspect_s", 240, 241, "off", "yard2"),
    Edge("work minutes", plain, "outfit.pace.block_s", 60, 61, "off", "yard2"),
    Edge("work minutes", plain, "outfit.pace.box_s.1", (Clearing.BRUSH, 120), (Clearing.BRUSH, 121),
         "off", "yard1"),
    Edge("work minutes", plain, "outfit.pace.feed_s", 120, 121, "feed", "yard1"),
    Edge("work minutes", plain, "outfit.pace.strips_s", 60, 61, "feed", "yard1"),
    Edge("work minutes", boards, "outfit.pace.board_s", 60, 61, "first", "yard1"),
    # 15 boxes x 66 per mille is one box to brush, 67 are two.
    Edge("work minutes", boards, "outfit.pace.left_in_permille", 66, 67, "second", "yard1"),
    Edge("work minutes", plain, "outfit.pace.load_min", 15, 16, "off"),
    # 170 l at 42,500 ml a minute are four minutes.
    Edge("work minutes", plain, "outfit.pace.pump_ml_per_min", 42_500, 42_499, "feed"),
    Edge("work minutes", plain, "outfit.pace.unload_min", 10, 11, "off"),
    # 30 boxes x 32 s / 2 people = 480 s = 8 min.
    Edge("work minutes", plain, "outfit.pace.unload_box_s", 32, 33, "off"),
    Edge("work minutes", far_away, "outfit.pace.unload_box_s", 30, 31, "off"),
    Edge("work minutes", left_undone, "outfit.pace.wash_min", 20, 21, "suspect", "yard2"),
    Planted("work minutes", left_undone, {"outfit.yards.1.health": Health.STANDSTILL,
            "outfit.pace.wash_min": 21}, "suspect", "yard2"),
    Edge("driving figures", plain, "shifts.0.driving_min", 28, 29, "off"),
    Edge("driving figures", plain, "shifts.1.metres", 28_000, 27_999, "feed"),
    Edge("home again", plain, "shifts.0.end_min", 616, 615, "off"),
    Edge("home again", far_away, "shifts.0.end_min", 985, 984, "off"),
    Edge("working day", plain, "outfit.hours.start_min", 450, 451, "off"),
    Edge("working day", plain, "outfit.hours.end_min", 616, 615, "off"),
    Edge("working day", plain, "outfit.home.opens_min", 450, 451, "off"),
    Edge("working day", plain, "outfit.home.closes_min", 616, 615, "off"),
    Edge("duty", plain, "outfit.hours.duty_max_min", 166, 165, "off"),
    Edge("driving limit", plain, "outfit.hours.driving_max_min", 28, 27, "off"),
    Edge("driving limit", far_away, "outfit.hours.driving_max_min", 300, 299, "off"),
    Edge("base hours", plain, "outfit.feed_store.opens_min", 450, 451, "off"),
    Edge("base hours", plain, "outfit.honey_house.base.closes_min", 616, 615, "off"),
    Edge("base hours", far_away, "outfit.honey_house.base.opens_min", 920, 921, "off"),
    Edge("base hours", far_away, "outfit.feed_store.closes_min", 975, 974, "off"),
    # A call that brings honey alone keeps the honey house's hours, one without the store's:
    # honey is unloaded from 598 to 616, empty cans on day 1 from 577 to 587 of the day.
    Edge("base hours", plain, "outfit.honey_house.base.opens_min", 598, 599, "off"),
    Edge("base hours", plain, "outfit.feed_store.closes_min", 587, 586, "feed"),
    # Honey and brood boxes unloaded together keep the hours of both.
    Edge("base hours", with_trailer, "outfit.feed_store.closes_min", 606, 605, "rest"),
)  # fmt: skip

BREAKS: Table = (
    Planted("break place", plain, {"shifts.0.breaks": (Span(440, 450),)}, "off"),
    Planted("break place", plain, {"shifts.0.breaks": (Span(610, 617),)}, "off"),
    Planted("break place", plain, {"shifts.0.breaks": (Span(500, 500),)}, "off"),
    Planted("break place", plain, {"shifts.0.breaks": (Span(490, 500), Span(495, 505))}, "off"),
    Edge("break place", plain, "shifts.0.breaks", (Span(490, 500), Span(500, 505)),
         (Span(490, 500), Span(499, 505)), "off"),
    Edge("break place", plain, "shifts.0.breaks", (Span(610, 616),), (Span(610, 617),), "off"),
    # Driving from 465 to 475.
    Edge("break place", plain, "shifts.0.breaks", (Span(450, 465),), (Span(451, 466),), "off"),
    Edge("duty break", far_away, "outfit.hours.duty_break_after_min", 315, 314, "off"),
    Edge("duty break", far_away, "outfit.hours.duty_break_min", 45, 46, "off"),
    Edge("duty break", plain, "outfit.hours.duty_break_after_min", 166, 165, "off"),
    Edge("driving break", plain, "outfit.hours.drive_break_after_min", 28, 27, "off"),
    # 140 min before and 160 after the break of day 0; 140 and 140 on day 2.
    Edge("driving break", far_away, "outfit.hours.drive_break_after_min", 160, 159, "off"),
    Edge("driving break", far_away, "outfit.hours.drive_break_min", 45, 46, "feed"),
)  # fmt: skip


def wet_on_day_1() -> Plan:
    """The plain plan, yard 2 not to be opened once its honey is off."""
    return edited(plain(), {"outfit.yards.1.open_spans": (Span(480, 1080),)})


def no_dark() -> Plan:
    """The plain plan, the sun up at yard 1 from midnight to midnight."""
    return edited(plain(), {
        "outfit.yards.0.sun_spans": lambda spans: tuple(
            Span(day * 1440, (day + 1) * 1440) for day in range(len(spans))
        )
    })  # fmt: skip


def short_night() -> Plan:
    """The plain plan, the sun up at yard 1 from 02:59 to midnight."""
    return edited(plain(), {
        "outfit.yards.0.sun_spans": lambda spans: tuple(
            Span(day * 1440 + 179, (day + 1) * 1440) for day in range(len(spans))
        )
    })  # fmt: skip


def slow_afternoon() -> Plan:
    """The plain plan with drives a tenth slower from 15:00, each call left an hour sooner."""
    plan = plain()
    sooner = {
        f"shifts.{i}.trips.{j}.calls.{k}.latest_leave_min": call.latest_leave_min - 60
        for i, shift in enumerate(plan.shifts)
        for j, trip in enumerate(shift.trips)
        for k, call in enumerate(trip.calls)
    }
    slow = tuple(1_100 if hour >= 15 else 1_000 for hour in range(24))
    return edited(plan, {"outfit.travel.by_hour": slow, **sooner})


LOADED = plain().shifts[0].trips[0].calls[0].latest_leave_min

LATEST: Table = (
    *(
        Edge("latest leaving", plan, f"shifts.{i}.trips.{j}.calls.{k}.latest_leave_min",
             call.latest_leave_min, call.latest_leave_min + 1, trip.id, call.yard)
        for plan in PLANS.values()
        for i, shift in enumerate(plan().shifts)
        for j, trip in enumerate(shift.trips)
        for k, call in enumerate(trip.calls)
    ),
    Edge("latest leaving", plain, f"{OFF}.calls.1.latest_leave_min", 530, 529, "off", "yard1"),
    # Hives are open, and the store is, until the latest minute of leaving.
    Edge("latest leaving", plain, "outfit.yards.0.open_spans", (Span(480, 1024),),
         (Span(480, 1023),), "off", "yard1"),
    Edge("latest leaving", plain, "outfit.feed_store.closes_min", 1440, LOADED - 1, "off"),
    # Its legs of 10, 4 and 14 minutes take 11, 5 and 16 once they are slow.
    Edge("latest leaving", slow_afternoon, "outfit.hours.driving_max_min", 32, 31, "off"),
)  # fmt: skip

AXLES = Axles(1_200_000, 900_000, 1_350_000, 1_494_000, 1_386_000, 700)
"""Just enough for the plain plan: people, fuel and kit put 150 kg on each axle; of at most
480 kg of load 30 % rest in front: 1,200 + 150 + 144 = 1,494 kg, and 900 + 150 + 336 behind.
Empty, the front has 1,350 kg."""

DECK = plain().outfit.trucks[0].deck

LOAD: Table = (
    # Truck with two people 2,400 kg and 480 kg of load.
    Edge("mass", plain, "outfit.trucks.0.max_g", 2_880_000, 2_879_999, "off", "yard2"),
    # 1,270 kg for one person and 660 kg of load.
    Edge("mass", far_away, "outfit.person_g", 610_000, 610_001, "off", "yard2"),
    # Truck with two people 2,400 kg, trailer 500 kg, load 639 kg.
    Edge("mass", with_trailer, "outfit.trucks.0.train_max_g", 3_539_000, 3_538_999,
         "part", "yard1"),
    # The truck's own 1,539 - 2,400 kg and the trailer's 1,500 kg are 639 kg: "shared" tells that
    # no such truck may go out at all.
    Edge("mass", with_trailer, "outfit.trucks.0.max_g", 1_539_000, 1_538_999, "part", "yard1"),
    Edge("trailer", with_trailer, "outfit.trucks.0.train_max_g", 5_000_000, None, "part"),
    # Across, 826 mm are two rows of 413 mm by four of 508: 8 places.  One less: 1 row of 5.
    Edge("deck", plain, "outfit.trucks.0.deck", replace(DECK, length_mm=826),
         replace(DECK, length_mm=825), "off", "yard2"),
    # Thirty boxes in stacks of one, and thirty cans, just fit.
    Edge("deck", plain, "outfit.trucks.0.deck.stack_boxes", 1, 0, "off", "yard2"),
    Edge("deck", plain, "outfit.trucks.0.deck.stack_mm", 168, 167, "off", "yard1"),
    Edge("deck", plain, f"{FEED}.containers.0.count", 30, 31, "feed"),
    Edge("axles", plain, "outfit.trucks.0.axles", AXLES,
         replace(AXLES, front_max_g=1_493_999), "off", "yard2"),
    Edge("axles", plain, "outfit.trucks.0.axles", AXLES,
         replace(AXLES, rear_max_g=1_385_999), "off", "yard2"),
    Edge("axles", plain, "outfit.trucks.0.axles", AXLES,
         replace(AXLES, front_min_g=1_350_001), "off"),
    # The truck as it leaves base, whatever is on it: 1,200 + 150 kg in front, a tenth of 29.4.
    Edge("shared", with_trailer, "outfit.trucks.0.axles.front_min_g", 1_352_940, 1_352_941, "part"),
    # 132 l, 175,164 g, are too heavy for truck or trailer with such a tank, not for both.
    Edge("shared", with_trailer, "outfit.containers.0.empty_g", 1_324_836, 1_324_837, "rest"),
    # 1,050 + 1,049.568 kg on the rear axle, the trailer's load over its own, and 480 g of strips.
    Edge("shared", with_trailer, "outfit.trailers.0.nose", Nose(1_049_568, 3_000, 1_500),
         Nose(1_049_569, 3_000, 1_500), "rest"),
    # Across, 6,195 mm are 15 x 2 places, all of the truck's; one more does not lie on both.
    Edge("shared", with_trailer, "outfit.containers.0.length_mm", 6_195, 6_196, "rest"),
    # Told to ride on the truck: that bears 1,100 kg, 480 g of strips on it.
    Edge("shared", tank_ahead, "outfit.containers.0.empty_g", 924_356, 924_357, "rest"),
    Edge("shared", tank_ahead, f"{FEED}.stowed", AHEAD, replace(AHEAD, trailer_loads=False,
         behind=(Carried("ibc", 2),)), "rest"),
    Edge("shared", tank_ahead, f"{FEED}.stowed", BEHIND, replace(BEHIND,
         behind=(Carried("ibc", 1), Carried("ibc", 0))), "rest"),
    Edge("shared", plain, f"{FEED}.stowed", None, AHEAD, "feed"),
    # 2,600 kg less a nose of 500 kg are the 2,100 that the train allows.
    Edge("aboard", with_trailer, "outfit.trailers.0.nose", Nose(500_000, 3_000, 1_500),
         Nose(500_001, 3_000, 1_500), "part"),
    # The middle 0.75 m ahead of the axle: a quarter of 1,500 kg is 375.
    Edge("aboard", with_trailer, "outfit.trailers.0.nose", Nose(125_000, 3_000, 750),
         Nose(125_001, 3_000, 750), "part"),
    Edge("access", plain, "outfit.yards.1.access.max_vehicle_g", 2_880_000, 2_879_999,
         "off", "yard2"),
    # Heavier on the way in: 2,400 + 118.995 kg.
    Edge("access", left_undone, "outfit.yards.1.access.max_vehicle_g", 2_518_995, 2_518_994,
         "suspect", "yard2"),
    Edge("access", with_trailer, "outfit.yards.0.access.max_vehicle_g", 3_539_000, 3_538_999,
         "part", "yard1"),
    Edge("access", plain, "outfit.yards.0.access.max_width_mm", 2_100, 2_099, "feed", "yard1"),
    Planted("access", with_trailer, {"outfit.yards.0.access.max_width_mm": 2_100,
                                     "outfit.trailers.0.width_mm": 2_101}, "rest", "yard1"),
    Edge("access", plain, "outfit.yards.0.access.four_wheel", False, True, "off", "yard1"),
    Edge("access", with_trailer, "outfit.yards.0.access.trailer", True, False, "part", "yard1"),
    Edge("tank", plain, f"{FEED}.containers.0.count", 7, 6, "feed"),
    Edge("tank", plain, "outfit.containers.1.holds_ml", 24_286, 24_285, "feed"),
    Edge("tanks owned", plain, "outfit.containers.1.owned", 7, 6, "feed"),
    Edge("boxes limit", plain, f"{OFF}.calls.1.boxes_limit", 53, 54, "off", "yard1"),
    Edge("boxes limit", plain, f"{OFF}.calls.2.boxes_limit", 68, 69, "off", "yard2"),
    Edge("boxes limit", plain, f"{OFF}.calls.2.boxes_limit", 30, 29, "off", "yard2"),
    Edge("boxes limit", boards, f"{FEED}.calls.1.boxes_limit", 67, 68, "second", "yard1"),
    Edge("boxes limit", boards, f"{FEED}.calls.2.boxes_limit", 15, 16, "second", "yard2"),
    Edge("boxes limit", plain, f"{OFF}.calls.0.boxes_limit", 0, 1, "off"),
    Edge("boxes limit", plain, f"{OFF}.calls.3.boxes_limit", 0, 9_999, "off"),
    # Of a trip still to come no count has made it another one.
    Edge("boxes limit", plain, f"{OFF}.calls.1.limit_was", None, 54, "off", "yard1"),
    Edge("boxes limit", with_trailer, f"{OFF}.calls.1.boxes_limit", 124, 125, "part", "yard1"),
    # Behind the tank covers 6 of 15 places: 36 boxes there, and 1,100 kg on the truck are 68.
    Edge("boxes limit", with_trailer, f"{FEED}.stowed", AHEAD, BEHIND, "rest", "yard1"),
    # 68 boxes in stacks of three are 23 places, of two 34 of 30.
    Edge("boxes limit", plain, "outfit.trucks.0.deck.stack_boxes", 3, 2, "off", "yard2"),
    # 68 boxes are 1,088 kg: 326.4 kg more in front than 1,350.
    Edge("boxes limit", plain, "outfit.trucks.0.axles",
         replace(AXLES, rear_max_g=2_000_000, front_max_g=1_676_400),
         replace(AXLES, rear_max_g=2_000_000, front_max_g=1_676_399), "off", "yard2"),
    # Leaving yard 2 with 68 boxes, 2,400 + 1,088 kg.
    Edge("boxes limit", plain, "outfit.yards.1.access.max_vehicle_g", 3_488_000, 3_487_999,
         "off", "yard1"),
)  # fmt: skip

WINDOWS: Table = (
    # Hives are opened from 8:00, minute 480, syrup is poured from 6:00, and nights are settled.
    Edge("reasons", plain, "outfit.yards.0.shut", (Shut(Work.OPEN, 0, 480),),
         (Shut(Work.OPEN, 0, 481),), yard="yard1"),
    Planted("reasons", plain, {"outfit.yards.0.shut": (Shut(Work.FEED, 700, 710),)}, yard="yard1"),
    Planted("reasons", plain, {"outfit.yards.1.shut": (Shut(Work.SETTLE, 0, 60),)}, yard="yard2"),
    Edge("gate", plain, "outfit.yards.0.access.opens_min", 480, 481, "off", "yard1"),
    # Day 1 from 8:29 to 8:54, minutes 509 to 534 of the day.
    Edge("gate", plain, "outfit.yards.0.access.closes_min", 534, 533, "feed", "yard1"),
    # Done at 8:54 as the gate shuts, and still inside a minute later.
    Planted("gate", plain, {"outfit.yards.0.access.closes_min": 534,
                            f"{FEED}.calls.1.leave_min": 1_975}, "feed", "yard1"),
    Edge("daylight", plain, "outfit.yards.1.sun_spans.0", Span(534, 1200), Span(535, 1200),
         "off", "yard2"),
    Edge("daylight", plain, "outfit.yards.1.sun_spans.0", Span(360, 584), Span(360, 583),
         "off", "yard2"),
    Planted("daylight", plain, {"outfit.yards.1.sun_spans": ()}, "feed", "yard2"),
    Edge("open hours", plain, "outfit.yards.1.open_spans", (Span(534, 584),), (Span(534, 583),),
         "off", "yard2"),
    # Fit in the morning and fit later, but not all the way through.
    Planted("open hours", plain, {"outfit.yards.1.open_spans": (Span(500, 550), Span(560, 600))},
            "off", "yard2"),
    Edge("open hours", boards, "outfit.yards.0.open_spans.0", Span(895, 910), Span(896, 910),
         "first", "yard1"),
    Edge("feed hours", plain, "outfit.yards.0.feed_spans", (Span(1949, 1974),),
         (Span(1949, 1973),), "feed", "yard1"),
    # No hive may be opened on day 1; strips go in along with the syrup.
    Edge("strips hours", wet_on_day_1, "outfit.yards.1.feed_spans", (Span(1978, 2003),),
         (Span(1978, 2002),), "feed", "yard2"),
    Edge("strips weather", plain, "outfit.yards.0.strips_shut_days", (0,), (0, 1),
         "feed", "yard1"),
    # Done at 530, sunrise at 1440 + 360.
    Edge("settling", plain, "outfit.yards.0.unsettled_spans", (Span(400, 530), Span(1800, 1900)),
         (Span(1799, 1800),), "off", "yard1"),
    Edge("settling", plain, "outfit.yards.0.unsettled_spans", (), (Span(530, 531),),
         "off", "yard1"),
    # The sun never sets: the night is over at 1440 + 360 as well.
    Edge("settling", no_dark, "outfit.yards.0.unsettled_spans", (Span(1800, 1900),),
         (Span(1799, 1800),), "off", "yard1"),
    # Up at 02:59 it ends no night either; at 03:00 it does.
    Edge("settling", short_night, "outfit.yards.0.unsettled_spans", (Span(1800, 1900),),
         (Span(1799, 1800),), "off", "yard1"),
    Edge("settling", lambda: edited(plain(), {"outfit.yards.0.sun_spans.1": Span(1620, 2640)}),
         "outfit.yards.0.unsettled_spans", (Span(1620, 1800),), (Span(1619, 1620),),
         "off", "yard1"),
    Planted("settling", plain, {"outfit.yards.0.sun_spans": lambda spans: spans[:1]},
            "off", "yard1"),
    Planted("one visit", plain, {"shifts": lambda shifts: (*shifts, shifts[0])}, "off", "yard1"),
    # A visit to yard 2 that is said to be to yard 1 starts while yard 1 is worked.
    Edge("one visit", plain, f"{OFF}.calls.2",
         replace(plain().shifts[0].trips[0].calls[2], yard="yard1", start_min=530),
         replace(plain().shifts[0].trips[0].calls[2], yard="yard1", start_min=529),
         "off", "yard1"),
)  # fmt: skip

ABOARD: Table = tuple(
    Planted("aboard", with_trailer, {f"{FEED}.calls.1.after.{name}": lambda old: old + 1},
            "rest", "yard1")
    for name in (
        "boxes", "brood_boxes", "ml", "blocks", "boards", "strips", "feeders", "load_g",
        "load_max_g", "places", "places_max",
    )
)  # fmt: skip

TRIPS: Table = (
    *SENSE, *PEOPLE, *PLACES, *CLOCK, *BREAKS, *LATEST, *LOAD, *ABOARD, *WINDOWS,
)  # fmt: skip
