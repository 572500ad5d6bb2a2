"""Tests of the warnings on a driver's paper."""

from dataclasses import replace

import pytest

from runplanner.daybook.trip import Action, Carried, Shift, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.safety import Safety, safe
from runplanner.outfit.trucks import Axles, Nose, Trailer
from runplanner.outfit.yards import Clearing, Health
from runplanner.paperwork.driver.cautions import cautions, unknown
from runplanner.paperwork.speech.tongue import speaking
from tests.audit.plans import with_trailer
from tests.outfits import a_truck, a_yard, an_outfit
from tests.paperwork.plans import IBC, Round, Stop, a_shift, block, feed, strips, take_off


def said(outfit: Outfit, shift: Shift) -> dict[str, str]:
    """The cautions of the shift's first trip, by their head."""
    return {one.head: one.words for one in cautions(outfit, shift, shift.trips[0])}


def one_stop(
    outfit: Outfit, *actions: Action, carried: tuple[Carried, ...] = (), more: int = 0
) -> Shift:
    """A day with one stop at yard 1, where so many boxes more than planned may be loaded."""
    shift = a_shift(outfit, 0, [Round("t", (Stop(1, 60, actions),), carried)])
    return may_take(shift, more)


def may_take(shift: Shift, more: int) -> Shift:
    """The shift with each stop of its first trip stopping at so many boxes more than planned."""
    trip = shift.trips[0]
    calls = tuple(replace(one, boxes_limit=one.after.boxes + more) for one in trip.calls)
    return replace(shift, trips=(replace(trip, calls=calls),))


def bearing(shift: Shift, load_max_g: int) -> Shift:
    """The shift when its first trip may load so much."""
    trip = shift.trips[0]
    calls = tuple(
        replace(one, after=replace(one.after, load_max_g=load_max_g)) for one in trip.calls
    )
    return replace(shift, trips=(replace(trip, calls=calls),))


def test_duty_with_the_truck_is_not_told_as_the_whole_days() -> None:
    """25 min loading, 10 out, 60 of work, 10 home, 20 unloading: 2 h 05 with the truck.

    Whoever may spin or mix that day as well reads that this counts, not how much: it may move
    while this paper stays.
    """
    outfit = an_outfit()
    shift = one_stop(outfit, feed(10, 90))
    hands = tuple(replace(one, spins=False, mixes=False) for one in outfit.people)

    assert (
        "driving 20 min of 9 h 00 allowed; with the truck 2 h 05, of 11 h 00 of duty in the day, "
        "spinning and mixing counted in; local law goes first."
    ) == said(outfit, shift)["Hours"]
    assert (
        "driving 20 min of 9 h 00 allowed, duty 2 h 05 of 11 h 00; local law goes first."
    ) == said(replace(outfit, people=hands), shift)["Hours"]


@pytest.mark.parametrize(
    ("litres", "warned"), [(200, False), (201, True), (799, True), (800, False)]
)
def test_a_part_filled_tank_is_a_warning(litres: int, warned: bool) -> None:  # noqa: FBT001
    """A tank of 1000 L warns between 20 and 80 per cent, both ends left out."""
    outfit = an_outfit()
    shift = one_stop(outfit, feed(10, litres), carried=(IBC,))

    assert warned == ("Surge" in said(outfit, shift))


@pytest.mark.parametrize(
    ("litres", "words"),
    [
        # 91 % full as it leaves; then 77, 54 and 18 %.
        ((140, 230, 360, 180), "IBC surges most after stop 2, 54 % full (540 L): slow into bends,"),
        # 73 %, then 10 %.
        ((630, 100), "IBC leaves base 73 % full (730 L): slow into bends,"),
        # 66 % as it leaves is as bad as 50 % after the first stop: the first is said.
        ((160, 500), "IBC leaves base 66 % full (660 L): slow into bends,"),
        ((900, 100), ""),
    ],
)
def test_surge_is_told_of_the_worst_stop(litres: tuple[int, ...], words: str) -> None:
    """It is worst half to two-thirds full, whatever the tank leaves base with."""
    outfit = an_outfit([(10, 0)] * len(litres))
    stops = tuple(Stop(n, 30, (feed(10, one),)) for n, one in enumerate(litres, start=1))
    warned = said(outfit, a_shift(outfit, 0, [Round("t", stops, (IBC,))]))

    assert words == warned.get("Surge", "")[: len(words)]
    assert bool(words) == ("Surge" in warned)


def test_a_half_full_can_is_none() -> None:
    """Cans are too small to push a truck."""
    outfit = an_outfit()

    assert "Surge" not in said(outfit, one_stop(outfit, feed(10, 12), carried=(Carried("can", 1),)))


def test_heavier_boxes_could_overload() -> None:
    """62 boxes of 16 kg are 992 of 1000 kg; a tenth heavier is 99.2 kg more: 91.2 over."""
    outfit = an_outfit()
    shift = one_stop(outfit, take_off(10, 62))

    assert "92 kg over from stop 1" in said(outfit, shift)["Overload"]
    assert "Overload" not in said(outfit, one_stop(outfit, take_off(10, 50)))
    assert "aboard" not in said(outfit, shift)["Overload"]
    # 800 L of syrup are over the limit by themselves: that is the audit's to say, not a guess.
    assert "Overload" not in said(outfit, one_stop(outfit, feed(10, 800), block(10)))


def test_heavier_boxes_could_overload_at_the_limit_of_a_stop() -> None:
    """50 boxes of 16 kg, a tenth heavier, are 880 of 1000 kg; 62, as many as may be, 1091.2."""
    outfit = an_outfit()
    words = said(outfit, one_stop(outfit, take_off(10, 50), more=12))["Overload"]

    assert words.startswith(
        "boxes heavier than guessed could put it 92 kg over from stop 1 with 62 boxes aboard:"
    )
    # 60 planned: 1056 kg, 56 over.
    words = said(outfit, one_stop(outfit, take_off(10, 60), more=2))["Overload"]
    assert "56 kg over from stop 1 and 92 kg over from stop 1 with 62 boxes aboard:" in words


def test_heavier_boxes_could_overload_the_trailer_alone() -> None:
    """50 of 100 boxes fill the trailer's 800 kg as they are told; a tenth heavier is 80 more.

    The truck bears 1100 kg: 880 are no fault there, nor 1760 of 1900 on both; with 13 more, as
    many as may be, it has 1108.8.
    """
    cart = Trailer("cart", "Cart", 300_000, 1_100_000, a_truck().deck, 2_000, 900, 10)
    outfit = an_outfit(trailers=(cart,))

    def words(boxes: int, more: int = 0) -> str:
        shift = bearing(one_stop(outfit, take_off(10, boxes), more=more), 2_000_000)
        return said(outfit, replace(shift, trailer="cart")).get("Overload", "")

    start = "boxes heavier than guessed could put it 80 kg over from stop 1 on Cart alone"
    assert words(100).startswith(f"{start}: weigh a few")
    assert f"{start} and 9 kg over from stop 1 with 113 boxes aboard on Truck 1 alone:" in words(
        100, more=13
    )
    assert not words(45)


def test_boxes_that_may_be_loaded_ride_on() -> None:
    """10 boxes at each of two stops, 60 more allowed at the first: 1120 kg, 160 kg at the second.

    80 boxes are 16 stacks of five, four rows, of which 20 planned ones are the first.
    """
    words = _two_stops(70, 80)

    # 1280 kg times 0.8; 1100 kg of them on the truck: 7194 x 1.1 = 7914 N sideways, 2 straps.
    assert "pushes up to 1024 kg forwards" in words
    assert "at least 2 as planned, 4 as full as allowed. A least" in words


def _two_stops(*limits: int) -> str:
    """How to lash where two stops have 10 boxes each, and stop at so many aboard."""
    outfit = an_outfit([(10, 0), (20, 0)])
    stops = (Stop(1, 60, (take_off(10, 10),)), Stop(2, 60, (take_off(10, 10),)))
    shift = bearing(a_shift(outfit, 0, [Round("t", stops)]), 1_300_000)
    trip = shift.trips[0]
    calls = [
        replace(one, boxes_limit=limit) for one, limit in zip(trip.yards(), limits, strict=True)
    ]
    full = replace(trip, calls=(trip.calls[0], *calls, *trip.calls[3:]))
    return said(outfit, replace(shift, trips=(full,)))["Lash and cover"]


@pytest.mark.parametrize(("limit", "ahead"), [(30, 384), (20, 256), (19, 256)])
def test_no_more_boxes_than_a_later_stop_allows(limit: int, ahead: int) -> None:
    """A stop that is past keeps its limit of 70: what may ride on is what the next one allows.

    20 boxes of 16 kg are planned, 320 kg times 0.8; 10 more are 480 kg.
    """
    assert f"pushes up to {ahead} kg forwards" in _two_stops(70, limit)


def test_no_more_boxes_than_the_truck_bears() -> None:
    """A stop that is past keeps its limit of 110: 50 boxes of 16 kg and 12 more are 992 kg.

    Of 1000 kg; times 0.8.  Where the truck has too much aboard already, nothing comes on top.
    """
    outfit = an_outfit()
    shift = one_stop(outfit, take_off(10, 50), more=60)

    assert "pushes up to 794 kg forwards" in said(outfit, shift)["Lash and cover"]
    shift = bearing(shift, 700_000)
    assert "pushes up to 640 kg forwards" in said(outfit, shift)["Lash and cover"]


def test_lashing_by_the_heaviest_leg() -> None:
    """15 boxes of 16 kg: 240 kg; 0.8 of it forwards, half sideways and backwards.

    Directive 2014/47/EU, Annex III.
    """
    outfit = an_outfit()
    words = said(outfit, one_stop(outfit, take_off(10, 15)))["Lash and cover"]

    assert "192 kg forwards, 120 kg sideways, 120 kg backwards" in words


def test_lashing_and_axles_reckon_with_all_boxes_that_may_be_loaded() -> None:
    """A load of 240 kg planned, 1040 kg with 50 boxes more, as the stop allows.

    1040 kg push 832 kg forwards and want 20438 x 1.04 = 21256 N, 4 straps, 7194 x 1.04 = 7482 N
    sideways, 2; 13 stacks are 3 rows.  Front 1450 kg and a fifth of 1040, rear 950 kg and four
    fifths.
    """
    axles = Axles(1_300_000, 800_000, 700_000, 1_750_000, 2_400_000, 800)
    outfit = an_outfit(trucks=(replace(a_truck(), axles=axles),))
    shift = one_stop(outfit, take_off(10, 15), more=50)
    told = said(outfit, bearing(shift, 1_050_000))

    assert "832 kg forwards, 520 kg sideways, 520 kg backwards" in told["Lash and cover"]
    assert (
        "at least 2 as planned, 3 as full as allowed; if nothing blocks the load in front, 2 and "
        "4. A least"
    ) in told["Lash and cover"]
    assert (
        "front about 1450\u20131658 kg (allowed 700\u20131750), rear up to 1782 of" in told["Axles"]
    )


def test_straps_are_told_in_german() -> None:
    """The same three sentences: as planned and full, blocked in front or not, with a trailer."""
    outfit, plan = an_outfit(), with_trailer()
    with speaking("de"):
        alone = said(outfit, one_stop(outfit, take_off(10, 15), more=50))
        behind = said(plan.outfit, plan.shifts[0])

    words = alone["Zurren und abdecken"]
    assert "mindestens 2 wie geplant, 3 so voll wie erlaubt; liegt die Ladung vorn nicht" in words
    assert "vorn nicht an: 2 und 4. Mindestzahl" in words
    words = behind["Zurren und abdecken"]
    assert "6 auf dem Wagen und 5 auf dem Anh\u00e4nger, je so voll wie erlaubt; liegt" in words
    assert "vorn nicht an: 6 und 6. Mindestzahl" in words


def test_straps_by_the_friction_formula() -> None:
    """A load of 1000 kg of planed wood on ply, friction 0.3; one strap presses 2 x 3000 N.

    EN 12195-1: forwards (0.8 - 0.3) / 0.3 x 1000 x 9.81 x 1.25 = 20438 N: 4 straps; sideways
    (0.5 - 0.3) / 0.3 x 1000 x 9.81 x 1.1 = 7194 N: 2 straps.  20 boxes are 4 stacks: one row.
    """
    outfit = an_outfit([(10, 0)], [replace(a_yard(1, boxes=20), box_g=50_000)])
    words = said(outfit, one_stop(outfit, take_off(10, 20)))["Lash and cover"]

    assert (
        "Straps over the top, 300 daN each, one over each row of stacks: "
        "at least 2; if nothing blocks the load in front, 4. A least count" in words
    )
    assert "block the load in front and at the sides" in words
    assert "EN 12195-1; an estimate" in words
    assert "check straps on the way and after each stop" in words


@pytest.mark.parametrize(
    ("boxes", "least"),
    [
        (50, "at least 2; if nothing blocks the load in front, 3."),
        (51, "at least 3. A least"),
        (120, "at least 5. A least"),
    ],
)
def test_no_row_of_stacks_stays_untied(boxes: int, least: str) -> None:
    """A deck of 3100 x 2100 holds 6 rows of 5 stacks of boxes of 508 x 413 mm, five high here.

    50 boxes are 10 stacks, 2 rows; 51 are 11, 3 rows; 120 are 24, 5 rows.  At 15 kg each they
    weigh 750, 765 and 1800 kg, of which the truck bears 1100 (3500 - 2230 - 170); 750 kg want
    7194 x 0.75 = 5396 N sideways, 1 strap, so 2; 20438 x 0.75 = 15329 N forwards, 3 straps;
    1100 kg 22482 N, 4 straps.
    """
    outfit = an_outfit([(10, 0)], [replace(a_yard(1, boxes=boxes), box_g=15_000)])

    assert least in said(outfit, one_stop(outfit, take_off(10, boxes)))["Lash and cover"]


def test_straps_on_truck_and_trailer() -> None:
    """With 36 boxes and 7 brood boxes, 639 kg on 11 places, either may be as full as that.

    With the 124 boxes that may be aboard, 2047 kg on 33 places, all six rows of the truck and all
    five of the trailer, which with 1600 kg wants 20438 x 1.6 = 32701 N forwards, 6 straps.

    The truck has 5 places in a row, the trailer 3 (3000 x 1500 mm): 3 and 4 rows.  Forwards
    639 kg want 20438 x 0.639 = 13060 N, 3 straps.
    """
    plan = with_trailer()
    assert (
        "at least 6 on the truck and 5 on the trailer, each as full as allowed; if nothing blocks "
        "the load in front, 6 and 6. A least" in said(plan.outfit, plan.shifts[0])["Lash and cover"]
    )
    shift = may_take(plan.shifts[0], 0)
    words = said(plan.outfit, shift)["Lash and cover"]

    assert "at least 3 on the truck and 4 on the trailer, each as full as allowed. A least" in words
    heavy = replace(shift, trips=(_heavier(shift.trips[0], 1_400_000),))
    # 1100 of 1400 kg on the truck: 22482 N, 4 straps; 1400 kg on the trailer 28613 N, 5 straps.
    assert (
        "each as full as allowed; if nothing blocks the load in front, 4 and 5. A least"
        in said(plan.outfit, heavy)["Lash and cover"]
    )


def _heavier(trip: Trip, load_g: int) -> Trip:
    """The trip when each leg weighs so much."""
    calls = tuple(replace(one, after=replace(one.after, load_g=load_g)) for one in trip.calls)
    return replace(trip, calls=calls)


def test_a_box_too_large_for_the_deck_has_no_row() -> None:
    """Two straps all the same."""
    wide = replace(an_outfit().boxes[0], length_mm=4_000, width_mm=2_500)
    outfit = an_outfit(boxes=(wide,))

    assert "at least 2. A" in said(outfit, one_stop(outfit, take_off(10, 15)))["Lash and cover"]


def test_axles_are_told_where_they_are_known() -> None:
    """15 boxes of 16 kg, 240 kg, 80 % on the rear; fuel, kit and two people 300 kg, half each.

    Front: 1300 + 150 = 1450 empty, 48 more with the boxes; rear 800 + 150 + 192 = 1142.
    """
    axles = Axles(1_300_000, 800_000, 700_000, 1_750_000, 2_400_000, 800)
    truck = replace(a_truck(), axles=axles)
    known = an_outfit(trucks=(truck,))
    words = said(known, one_stop(known, take_off(10, 15)))["Axles"]

    assert "front about 1450\u20131498 kg (allowed 700\u20131750), rear up to 1142 of 2400" in words
    assert "an estimate, a weighbridge and the plates count" in words
    assert "Axles" not in said(an_outfit(), one_stop(an_outfit(), take_off(10, 15)))


def test_a_trailer_takes_its_share_off_the_axles() -> None:
    """A trailer with 240 kg of room or more takes all 15 boxes; its nose is told as usual."""
    truck = replace(a_truck(), axles=Axles(1_300_000, 800_000, 700_000, 1_750_000, 2_400_000, 800))
    trailer = Trailer("cart", "Cart", 300_000, 540_000, truck.deck, 2_000, 900, 10)
    outfit = an_outfit(trucks=(truck,), trailers=(trailer,))
    shift = replace(one_stop(outfit, take_off(10, 15)), trailer="cart")

    assert "front about 1450\u20131450 kg" in said(outfit, shift)["Axles"]
    assert "50 to 80 kg is usual, the plates count" in said(outfit, shift)["Trailer nose"]
    assert "Trailer nose" not in said(outfit, replace(shift, trailer=""))


def test_a_measured_nose_is_estimated() -> None:
    """Deck from 1.6 to 4.6 m, axle at 3.2 m: its middle lies 0.1 m ahead of the axle.

    240 kg x 0.1 / 3.2 = 7.5 kg on top of the 40 kg of the empty nose.
    """
    deck = replace(a_truck().deck, length_mm=3_000)
    nose = Nose(empty_g=40_000, drawbar_mm=3_200, deck_starts_mm=1_600)
    trailer = Trailer("cart", "Cart", 300_000, 540_000, deck, 2_000, 900, 10, nose=nose)
    outfit = an_outfit(trailers=(trailer,))
    shift = replace(one_stop(outfit, take_off(10, 15)), trailer="cart")
    words = said(outfit, shift)["Trailer nose"]

    assert "spread evenly about 40 to 48 kg by your measures, an estimate (48 are taken" in words


def test_boxes_over_25_kg_want_two_people() -> None:
    """The guide weight at the waist is 25 kg (HSE leaflet INDG143): 25 passes, 25.1 does not."""
    light = an_outfit([(10, 0)], [replace(a_yard(1), box_g=25_000)])
    heavy = an_outfit([(10, 0)], [replace(a_yard(1), box_g=25_100)])

    assert "Lift with two" not in said(light, one_stop(light, take_off(10, 15)))
    assert (
        "boxes over 25 kg, a guide and no limit: stop 1 about 25.1 kg."
        == said(heavy, one_stop(heavy, take_off(10, 15)))["Lift with two"]
    )
    assert "Lift with two" not in said(heavy, one_stop(heavy, block(10)))


def test_a_heavy_box_is_told_with_its_guess() -> None:
    """Guessed 30 kg with a spread of 10 %: 95 in 100 weigh at most 30 x 1.1645 = 34.94 kg."""
    typed = an_outfit([(10, 0)], [replace(a_yard(1), box_g=30_000)])
    outfit = safe(typed, Safety(load_permille=950))

    assert (
        "boxes over 25 kg, a guide and no limit: stop 1 guessed 30 kg, up to 35 kg."
        == said(outfit, one_stop(outfit, take_off(10, 15)))["Lift with two"]
    )


def test_one_person_alone_is_not_told_to_lift_with_two() -> None:
    """A hoist, frames one by one, or help; light boxes and trips without boxes say nothing."""
    light = an_outfit([(10, 0)], [replace(a_yard(1), box_g=25_000)])
    heavy = an_outfit([(10, 0)], [replace(a_yard(1), box_g=25_100)])

    def alone(outfit: Outfit, action: Action) -> Shift:
        return replace(one_stop(outfit, action), crew=("ann",))

    told = said(heavy, alone(heavy, take_off(10, 15)))
    assert "Lift with two" not in told
    assert (
        "boxes over 25 kg, a guide and no limit; local rules come first: stop 1 about 25.1 kg. "
        "Use a hoist, or move such a box frame by frame, which takes longer than planned; or take "
        "somebody along."
    ) == told["Do not lift alone"]
    assert "Do not lift alone" not in said(light, alone(light, take_off(10, 15)))
    assert "Do not lift alone" not in said(heavy, alone(heavy, block(10)))


def test_no_full_can_over_25_kg_is_lifted() -> None:
    """A can of 40 L and 7 kg with 40 L of 2:1 at 1.327 kg: 60.08 kg; one of 25 L, 34.7 kg.

    17 L in it weigh 24.1 kg with the can, within the guide of 25 kg; a tank is nobody's to lift.
    """
    can = next(one for one in an_outfit().containers if one.id == "can")
    milk = replace(can, id="milk", name="Milk can", holds_ml=40_000, empty_g=7_000)
    outfit = an_outfit(containers=(*an_outfit().containers, milk))
    shift = one_stop(outfit, feed(10, 82), carried=(Carried("milk", 2), Carried("can", 1)))

    words = said(outfit, shift)["Do not lift full cans"]
    assert words.startswith("Milk can (61 kg): fill and empty them where they stand on the deck")
    for carried in (Carried("can", 1), IBC):
        small = one_stop(outfit, feed(10, 17), carried=(carried,))
        assert "Do not lift full cans" not in said(outfit, small)


def test_yards_in_doubt_are_named() -> None:
    """A yard that is not sound asks for clean hands and kit."""
    outfit = an_outfit([(10, 0)], [replace(a_yard(1), health=Health.WATCH)])

    assert "Yard 1 (watch)" in said(outfit, one_stop(outfit, block(10)))["Health"]
    assert "Health" not in said(an_outfit(), one_stop(an_outfit(), block(10)))


def test_medicine_defers_and_says_when_out() -> None:
    """Strips of day 0 are due out 42 to 70 days later: Mon 12 Apr to Mon 10 May."""
    outfit = an_outfit()
    words = said(outfit, one_stop(outfit, strips(10)))["Medicine"]

    assert "leaflet, your vet and local law go first" in words
    assert "Out again Mon 12 Apr to Mon 10 May" in words


def test_hours_defer_to_local_law() -> None:
    """Ten kilometres there and back: 20 minutes of driving, against the outfit's own limits."""
    outfit = an_outfit()
    words = said(outfit, one_stop(outfit, block(10)))["Hours"]

    assert "driving 20 min of 9 h 00 allowed" in words
    assert words.endswith("local law goes first.")


def test_what_is_not_known_is_said() -> None:
    """Traffic, roads, weather and weights; the guess of a box and the source of times."""
    outfit = an_outfit()
    shift = one_stop(outfit, take_off(10, 15))

    words = unknown(outfit, shift.trips[0])
    for word in ("traffic", "road and track", "weather", "16 kg", "test grid"):
        assert word in words
    assert "full box" not in unknown(outfit, one_stop(outfit, block(10)).trips[0])


def test_guessed_drives_are_said_where_a_trip_goes_there() -> None:
    """Yard 1 stands at place 1; whoever does not go where drives are guessed has the old words."""
    outfit = an_outfit()
    trip = one_stop(outfit, take_off(10, 15)).trips[0]
    there, elsewhere = (
        replace(outfit, travel=replace(outfit.travel, guessed=(place,))) for place in (1, 0)
    )
    name = outfit.places[1].name
    calls = tuple(replace(call, place=call.place or 7) for call in trip.calls)

    assert unknown(there, trip).endswith(
        f"Drive times: test grid; drives to {name} guessed from straight lines."
    )
    assert unknown(elsewhere, replace(trip, calls=calls)) == unknown(outfit, trip)


@pytest.mark.parametrize(("front_max_g", "over"), [(2_300_000, False), (2_100_000, True)])
def test_a_tank_at_the_headboard_presses_the_front_axle(front_max_g: int, *, over: bool) -> None:
    """A tank of 1000 L with 900 L of 2:1: 1194.3 + 60 kg, its middle 1.5 m behind the front axle.

    Wheelbase 3.4 m, deck from 1.0 m, the tank 1.0 m along: 1900 / 3400, 559 per mille, in front,
    701.2 kg; empty truck, fuel, kit and two people 1300 + 150.  In all 2151.2, with the deck's
    even share of what else rides.
    """
    axles = Axles(1_300_000, 800_000, 700_000, front_max_g, 2_400_000, 750, 3_400, 1_000)
    known = an_outfit(trucks=(replace(a_truck(), axles=axles),))
    shift = one_stop(known, feed(10, 900), carried=(IBC,))
    words = said(known, shift)["Axles"]

    assert "With the tanks at the headboard about 2152 kg in front as you leave" in words
    assert ("more than the 2100 allowed: set them further back" in words) is over
    plain = replace(axles, wheelbase_mm=None)
    other = replace(known, trucks=(replace(known.trucks[0], axles=plain),))
    assert "headboard" not in said(other, shift)["Axles"]


def test_warm_boards_by_the_days_high_alone() -> None:
    """Said where boxes come off on such a day, and not on one whose hours are known."""
    yard = replace(a_yard(1), clearing=Clearing.WARM_BOARD, high_only=(0,))
    outfit = an_outfit([(10, 0)], [yard])
    other = an_outfit([(10, 0)], [replace(yard, high_only=(1,))])

    words = said(outfit, one_stop(outfit, take_off(10, 15)))["Warm boards"]
    assert "Yard 1: planned by the day's high alone." in words
    assert "Warm boards" not in said(outfit, one_stop(outfit, feed(10, 80)))
    assert "Warm boards" not in said(other, one_stop(other, take_off(10, 15)))


@pytest.mark.parametrize("clearing", [Clearing.BOARDS, Clearing.BRUSH, Clearing.BLOWER])
def test_a_cool_morning_is_said_whatever_clears(clearing: Clearing) -> None:
    """Where boxes come off on a day whose low is too cool for opening."""
    outfit = an_outfit([(10, 0)], [replace(a_yard(1), clearing=clearing, high_only=(0,))])

    words = said(outfit, one_stop(outfit, take_off(10, 15)))
    assert words["Cool morning"] == (
        "Yard 1: planned by the day's high alone. Open hives only once it is warm enough."
    )
    assert "Warm boards" not in words
    assert "Cool morning" not in said(outfit, one_stop(outfit, feed(10, 80)))
