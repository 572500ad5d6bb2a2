"""Yards that come to be watched, suspect or at a standstill while a truck is out."""

from dataclasses import replace

import pytest

from runplanner.changes.typed import changed, typed_changes
from runplanner.daybook.trip import Against, Job
from runplanner.outfit.yards import Access
from tests.audit.planted import edited
from tests.changes.thursday import driven, red, refusal
from tests.running import put_in, running_plan


def test_a_watched_yard_ahead_is_to_come_last() -> None:
    """Creek Mouth is heard to be watched, Fernbank after it is sound: the other order fits."""
    now, line = "Thu 4 Mar 8:10", "watch Creek Mouth"
    facts = put_in(line, now=now)
    rung = changed(running_plan(), typed_changes([line], now), ring=True)

    assert (
        (
            "Red is out, and yards that are not sound come before others: Creek Mouth: "
            "'next Red: Fernbank, Creek Mouth' fits"
        ),
    ) == facts.notes
    driven(facts)
    driven(rung)
    assert ["mill", "fernbank", "creek-mouth"] == [
        call.yard for call in red(rung)[0].trips[0].yards()
    ]
    assert () == put_in("watch Fernbank", now=now).notes


def test_no_order_puts_a_yard_that_is_not_sound_before_others() -> None:
    """The line is refused as one for a load too heavy is."""
    assert "Creek Mouth last, for it is not sound" in refusal(
        "watch Creek Mouth", "next Red: Creek Mouth, Fernbank", now="Thu 4 Mar 8:10"
    )


def test_sound_yards_behind_are_left_out_where_no_order_fits() -> None:
    """Both are only fed.  Fernbank lets 2.5 t in: 2,315 kg and 123.5, but not Creek Mouth's 113.

    So neither can Creek Mouth come after it, nor be left out.
    """
    calls = "shifts.0.trips.0.calls"
    fed = [(one for one in call.actions if one.job is not Job.TAKE_OFF)
           for call in running_plan().shifts[0].trips[0].calls[2:4]]  # fmt: skip
    plan = edited(running_plan(), {
        f"{calls}.2.actions": tuple(fed[0]), f"{calls}.3.actions": tuple(fed[1]),
        "outfit.yards.0.access": Access(max_vehicle_g=2_500_000),
    })  # fmt: skip

    (note,) = put_in("watch Creek Mouth", now="Thu 4 Mar 8:10", plan=plan).notes
    assert "come before others: Creek Mouth: 'skip Fernbank' fits" in note
    assert "52 kg too much for the way into Fernbank" in refusal(
        "skip Creek Mouth", now="Thu 4 Mar 8:10", plan=plan
    )


@pytest.mark.parametrize("line", ["suspect", "standstill", "watch"])
@pytest.mark.parametrize("now", ["8:50", "10:36"])
def test_a_truck_that_has_been_where_it_is_not_sound_goes_to_no_other_yard(
    line: str, now: str
) -> None:
    """At work at Creek Mouth, or just left: Fernbank is to be left out, and ringing does that."""
    line, now = f"{line} Creek Mouth", f"Thu 4 Mar {now}"
    facts = put_in(line, now=now)
    rung = changed(running_plan(), typed_changes([line], now), ring=True)

    what = "Red is out, and from Creek Mouth (not sound) it goes on to Fernbank"
    assert f"{what}: 'home Red' calls it home" == facts.notes[0]
    assert f"{what}: ring the driver now (home Red)" == rung.notes[0]
    assert [(), (Against.BEHIND,), ()] == [one.against for one in red(facts)[0].trips[0].calls[2:]]
    assert ["mill", "creek-mouth"] == [call.yard for call in red(rung)[0].trips[0].yards()]
    driven(facts)
    driven(rung)
    assert not [one for one in put_in(line, "home Red", now=now).notes if "not sound" in one]


def test_a_watched_yard_in_two_parts_is_no_other_yard() -> None:
    """The second part of the stop may follow; what comes after that may not."""
    calls = "shifts.0.trips.0.calls"
    place = running_plan().shifts[0].trips[0].calls[1].place
    both = edited(running_plan(), {
        f"{calls}.2.yard": "mill", f"{calls}.2.place": place, f"{calls}.2.actions": (),
    })  # fmt: skip
    facts = put_in("watch Old Mill", now="Thu 4 Mar 8:10", plan=both)

    assert [(), (Against.BEHIND,)] == [one.against for one in red(facts)[0].trips[0].calls[2:4]]


def test_a_last_yard_in_two_parts_may_come_to_be_watched() -> None:
    """Creek Mouth is served by two calls on end, and no other yard follows."""
    calls = "shifts.0.trips.0.calls"
    plan = running_plan()
    both = edited(plan, {
        f"{calls}.3.yard": "creek-mouth", f"{calls}.3.actions": (),
        f"{calls}.3.place": plan.shifts[0].trips[0].calls[2].place,
    })  # fmt: skip
    facts = put_in("watch Creek Mouth", now="Thu 4 Mar 8:10", plan=both)

    assert not [one for one in facts.notes if "not sound" in one]
    assert [()] * 3 == [one.against for one in red(facts)[0].trips[0].yards()]


def test_a_stop_in_two_parts_is_said_once_to_be_left_out() -> None:
    """Fernbank's two calls go with one line."""
    calls = running_plan().shifts[0].trips[0].calls
    again = replace(calls[3], actions=(), planned=())
    both = edited(running_plan(), {"shifts.0.trips.0.calls": (*calls[:4], again, *calls[4:])})

    notes = put_in("home Red", now="Thu 4 Mar 9:00", plan=both).notes
    assert ("tell Red: Base 10:49, home 11:07; left out: Fernbank",) == notes
