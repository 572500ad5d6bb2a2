"""People, trucks and trailers that are away and come back."""

import pytest

from tests.changes.refused import NOON, faults
from tests.running import put_in, running_outfit


@pytest.mark.parametrize(
    ("typed", "days"),
    [
        ("truck Blue out 5-6 Mar", (4, 5)),
        ("Blue flatdeck broken until Sat", (2, 3, 4)),
        ("truck1 out Fri-Sun", (4, 5, 6)),
        ("Blue out today until 15:00", (2,)),
        ("Blue out 5 Mar - 6 Mar", (4, 5)),
        ("Blue out Fri until Sun 12:00", (4, 5, 6)),
        ("Blue out before 10:00", (2,)),
    ],
)
def test_a_truck_is_out(typed: str, days: tuple[int, ...]) -> None:
    """Days, ranges, and until: "until Sat" ends as Saturday begins."""
    assert days == put_in(typed, now=NOON).outfit.trucks[0].out_days


def test_people_and_trailers_go_and_come_back() -> None:
    """Off and back by name."""
    facts = put_in("Ann off Fri-Sat", "trailer Box out Fri", now=NOON).outfit
    again = put_in("Ann off Fri-Sat", "Ann back Sat", now=NOON).outfit

    assert ((4, 5), (4,)) == (facts.people[0].off_days, facts.trailers[0].out_days)
    assert (4,) == again.people[0].off_days


@pytest.mark.parametrize(
    ("typed", "days", "said"),
    [
        ("Ann back Sat", (4,), "Ann is there again from Sat 6 Mar to Sun 7 Mar"),
        ("Ann back Fri from 6:00", (), "Ann is there again from Fri 5 Mar to Sun 7 Mar"),
        ("Ann here Sun: better", (4, 5), "Ann is there again on Sun 7 Mar"),
        ("Ann back today", (4, 5, 6), "Ann was not to be away on Wed 3 Mar; nothing changes"),
        ("Ann back from 14:00", (4, 5, 6), "Ann was not to be away on Wed 3 Mar; nothing changes"),
        ("Ann back 5-6 Mar", (6,), ""),
        ("Ann back 5-5 Mar", (5, 6), ""),
        ("Ann back Fri until Sun", (6,), ""),
        ("Ann back until Sat", (5, 6), ""),
    ],
)
def test_back_on_a_day_ends_the_absence_and_a_span_stays_one(
    typed: str, days: tuple[int, ...], said: str
) -> None:
    """Away from Friday to Sunday: "back Sat" is from Saturday on, and what was taken is said."""
    facts = put_in("Ann off 5-7 Mar", typed, now=NOON)

    assert days == facts.outfit.people[0].off_days
    assert ((said,) if said else ()) == facts.notes


@pytest.mark.parametrize(
    ("typed", "days", "more"),
    [
        ("Ann back Fri from 12:00", (4,), ["Ann is there again from Sat 6 Mar to Sun 7 Mar"]),
        ("Ann back Sun from 12:00", (4, 5, 6), []),
        ("Ann back Sat before 12:00", (4, 5, 6), []),
        ("Ann back Sat 8:00-12:00", (4, 5, 6), []),
        ("Ann back Fri until Sun 12:00", (6,), []),
    ],
)
def test_who_is_back_for_hours_counts_as_away_that_day_and_it_is_said(
    typed: str, days: tuple[int, ...], more: list[str]
) -> None:
    """A truck in the workshop until three does not leave at eight."""
    facts = put_in("Ann off 5-7 Mar", typed, now=NOON)
    told, said = facts.notes[:-1], facts.notes[-1]

    assert (days, more) == (facts.outfit.people[0].off_days, list(told))
    assert said.startswith("hours are not planned with: Ann counts as away all ")
    assert said.endswith("; without hours it is back for that day")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("Thu from 15:00", "Thu 4 Mar; its trips of that day, 07:16-13:04, stay where the line "),
        ("Sat 7:00-9:00", "Sat 6 Mar; leave the line out where these hours do no harm"),
        ("today until 15:00", "Wed 3 Mar; leave the line out where these hours do no harm"),
    ],
)
def test_hours_of_an_absence_take_the_whole_day_and_it_is_said(typed: str, said: str) -> None:
    """With the planned hours of that day; who is away from now until a day loses no hour unsaid."""
    (note,) = put_in(f"Red out {typed}", now=NOON).notes

    assert note.startswith(f"hours are not planned with: Red counts as away all {said}")
    assert () == put_in("Red out until Sat", "Red out Sun", now=NOON).notes


@pytest.mark.parametrize(
    ("typed", "as_if"),
    [
        ("shut Fernbank Fri from 2pm", "shut Fernbank Fri from 14:00"),
        ("shut Fernbank Fri 9 am-2:30 PM", "shut Fernbank Fri 9:00-14:30"),
        ("shut Fernbank Fri 9:00-12pm: rain", "shut Fernbank Fri 9:00-12:00: rain"),
        ("shut Fernbank until Fri 12 am", "shut Fernbank until Fri 0:00"),
        ("shut Fernbank from now until Fri", "shut Fernbank until Fri"),
        ("Ann back now", "Ann back today"),
        ("Ann back: better", "Ann back today"),
        ("syrup left 0", "syrup left 0 L"),
        ("sugar left 0 (a mouse)", "sugar left 0 kg"),
        ("boards lost 5.", "boards lost 5"),
        ("open Fernbank Sat 9am-noon", "open Fernbank Sat 9:00-12:00"),
        ("shut Fernbank Fri from 2.30pm", "shut Fernbank Fri from 14:30"),
        ("shut Fernbank Fri 9 a.m. - 3 p.m.", "shut Fernbank Fri 9:00-15:00"),
        ("shut Fernbank until Fri midday", "shut Fernbank until Fri 12:00"),
        ("Ann off: Fri", "Ann off Fri"),
        ("dead Fernbank 3", "dead 3 Fernbank"),
        ("dead Fernbank: 3 hives", "dead 3 Fernbank"),
        ("boxes left Mill 12 supers", "boxes left 12 Mill"),
        ("suspect 2 hives at Fernbank", "suspect Fernbank"),
        ("shut at Fernbank Fri", "shut Fernbank Fri"),
        ("strips left none", "strips left 0"),
        ("sugar left none", "sugar left 0 kg"),
        ("Blue broken down Fri", "Blue out Fri"),
        ("trailer has broken down Fri", "Box out Fri"),
        ("Ann off sick Fri", "Ann off Fri"),
        ("honey house full: Fri", "honey house full Fri"),
        ("shut Mill until 12am", "shut Mill until 24:00"),
        ("shut Mill until midnight: rain", "shut Mill until 24:00: rain"),
        ("shut Mill from now until 0:00", "shut Mill until 24:00"),
        ("shut Mill Fri until 12 a.m.", "shut Mill Fri"),
        ("shut Mill Fri from 2pm to midnight", "shut Mill Fri from 14:00"),
        ("shut Mill Fri 2pm-12am", "shut Mill Fri from 14:00"),
        ("shut Mill Fri 14:00-00:00", "shut Mill Fri from 14:00"),
        ("shut Mill from Fri to Sun", "shut Mill Fri-Sun"),
        ("shut Mill from Fri 5 Mar until Sun", "shut Mill Fri until Sun"),
        ("Ann off from Fri-Sat", "Ann off Fri-Sat"),
        ("Ann back from Fri", "Ann back Fri"),
        ("Ann back: from Fri 5 Mar on", "Ann back Fri"),
        ("Bob sick, back from Fri", "Bob sick until Fri"),
        ("Blue broken, back Fri", "Blue broken until Fri"),
        ("Bob sick (back Fri)", "Bob sick until Fri"),
        ("Bob sick: (back on Fri)", "Bob sick until Fri"),
        ("Bob sick : back from Fri 5 Mar", "Bob sick until Fri"),
        ("honey house broken (back Fri 12:00)", "honey house broken until Fri 12:00"),
        ("Bob sick today (back pain)", "Bob sick today"),
        ("Bob off Thu, back Sat", "Bob off Thu until Sat"),
        ("Bob off Thu 4 Mar and back on Sat 6 Mar", "Bob off Thu until Sat"),
        ("Bob off Thu back Fri: flu", "Bob off Thu"),
        ("honey house stopped Thu, back Sat 12:00", "honey house stopped Thu until Sat 12:00"),
        ("fondant left 40", "blocks left 40"),
    ],
)
def test_as_drivers_text(typed: str, as_if: str) -> None:
    """Hours by halves of the day, from now, nothing left, back without a day."""
    texted, plain = (put_in("Ann off 3-5 Mar", one, now=NOON) for one in (typed, as_if))

    assert (plain.outfit, plain.notes) == (texted.outfit, texted.notes)


@pytest.mark.parametrize("typed", ["Bob off Thu, back Wed", "Bob off Thu-Fri, back Sun"])
def test_a_day_back_that_does_not_follow_is_refused(typed: str) -> None:
    """It lies before the absence, or leaves open a day that neither names."""
    assert faults(typed)


def test_a_day_in_brackets_is_no_reason_to_be_left_unread() -> None:
    """Away on Thursday alone it would be, where Friday is meant as well."""
    (told,) = faults("Bob off Thu (back Sat)")

    assert "it goes on 'back Sat'" in told


@pytest.mark.parametrize(
    ("typed", "as_if", "taken"),
    [
        ("shut Mill Fri afternoon", "shut Mill Fri from 12:00", "Fri 5 Mar 12:00-24:00"),
        ("shut Mill this arvo: hail", "shut Mill from 12:00: hail", "Wed 3 Mar 12:00-24:00"),
        ("shut Mill Fri: morning", "shut Mill Fri before 12:00", "Fri 5 Mar 00:00-12:00"),
        ("shut Mill Fri (9am-12)", "shut Mill Fri 9:00-12:00", "Fri 5 Mar 09:00-12:00"),
        ("shut Mill Sat 9am-12", "shut Mill Sat 9:00-12:00", "Sat 6 Mar 09:00-12:00"),
        ("shut Mill Sat from 9am to 5", "shut Mill Sat 9:00-17:00", "Sat 6 Mar 09:00-17:00"),
        ("shut Mill Sat 14:00-16", "shut Mill Sat 14:00-16:00", "Sat 6 Mar 14:00-16:00"),
        ("shut Mill Sat 2-5pm", "shut Mill Sat 14:00-17:00", "Sat 6 Mar 14:00-17:00"),
        ("shut Mill Sat 12-2pm", "shut Mill Sat 12:00-14:00", "Sat 6 Mar 12:00-14:00"),
        ("shut Mill Sat 9-noon", "shut Mill Sat 9:00-12:00", "Sat 6 Mar 09:00-12:00"),
        ("shut all yards Friday and Saturday: rain", "shut all Fri-Sat: rain",
         "Fri 5 Mar, Sat 6 Mar"),
        ("shut all Thu, Fri, and Sun: rain and hail", "shut all 4-5 Mar and Sun: rain and hail",
         "Thu 4 Mar, Fri 5 Mar, Sun 7 Mar"),
        ("shut Mill 5 & 6 Mar from 14:00", "shut Mill 5-6 Mar from 14:00",
         "Fri 5 Mar 14:00-24:00, Sat 6 Mar 14:00-24:00"),
        ("Ann off 5 Mar and 6 Mar", "Ann off 5-6 Mar", "Fri 5 Mar, Sat 6 Mar"),
    ],
)  # fmt: skip
def test_hours_and_days_told_by_half_are_taken_and_said(typed: str, as_if: str, taken: str) -> None:
    """Of hours the other one tells the half of the day; several days are each meant."""
    texted, plain = (put_in(one, now=NOON) for one in (typed, as_if))

    assert plain.outfit == texted.outfit != running_outfit()
    assert f"{typed!r} is taken for {taken}" in texted.notes


def test_back_on_two_days_is_back_on_these_alone() -> None:
    """As for a span of days."""
    facts = put_in("Ann off 5-7 Mar", "Ann back Fri and Sat", now=NOON)

    assert (6,) == facts.outfit.people[0].off_days
    assert ("'Ann back Fri and Sat' is taken for Fri 5 Mar, Sat 6 Mar",) == facts.notes


@pytest.mark.parametrize(
    ("typed", "as_if"),
    [
        ("Blue broken: gearbox", "Blue out today"),
        ("Ann sick", "Ann off today"),
        ("Ann off from now on", "Ann off today"),
        ("shut Fernbank from now", "shut Fernbank today from 12:00"),
        ("shut all from now on: rain", "shut all today from 12:00: rain"),
        ("unsettled all: from now", "unsettled all today from 12:00"),
        ("honey house full", "honey house full from now"),
        ("honey house stopped (no power)", "honey house stopped from now"),
        ("honey house down: pump", "honey house stopped from now"),
    ],
)
def test_no_day_is_the_rest_of_today_and_it_is_said(typed: str, as_if: str) -> None:
    """Whoever texts that a truck has broken down means now; how long, nobody knows yet."""
    texted, plain = (put_in(one, now=NOON) for one in (typed, as_if))

    assert plain.outfit == texted.outfit != running_outfit()
    (note,) = texted.notes
    assert note.endswith(
        "it is taken for the rest of today; with 'until' and a day it lasts longer"
    )
    assert ": gearbox" not in note


@pytest.mark.parametrize(
    "typed",
    ["honey house is stopped: pump", "the honey house is down: pump", "honey house: broken (pump)",
     "stopped honey house: pump"],
)  # fmt: skip
def test_why_the_honey_house_stands_still_may_be_told_at_once(typed: str) -> None:
    """With the opening in another order; the colon had been lost, and with it the reason."""
    texted, plain = (put_in(one, now=NOON) for one in (typed, "honey house stopped: pump"))

    assert plain.outfit == texted.outfit
    assert any(one.startswith(f"{typed!r} is read as 'honey house ") for one in texted.notes)


@pytest.mark.parametrize(
    ("typed", "cure"),
    [
        ("honey house: full of bees", "An example: 'honey house full Fri'."),
        ("shut Mill from Fri", "Write the last day as well, as in 'Fri-Sat' or 'until Mon'."),
        ("shut Mill until Fri midnight", "Write days and hours as in 'Fri-Sat from 14:00'"),
        ("shut Mill until midnight Fri", "Write days and hours as in 'Fri-Sat from 14:00'"),
    ],
)
def test_what_may_be_meant_in_two_ways_is_refused(typed: str, cure: str) -> None:
    """With the way to write it."""
    (found,) = faults(typed, now=NOON)

    assert cure in found


@pytest.mark.parametrize("name", ["truck Blue", "trailer Box"])
def test_another_absence_is_kept_and_trucks_and_trailers_come_back_alike(name: str) -> None:
    """Away Thursday and Friday, and on Sunday again: back on Friday leaves Thursday and Sunday."""
    facts = put_in(f"{name} out Thu-Fri", f"{name} out Sun", f"{name} back Fri", now=NOON)
    truck, trailer = facts.outfit.trucks[0], facts.outfit.trailers[0]

    assert (3, 6) == (truck.out_days or trailer.out_days)
    assert facts.notes[0].endswith("is there again on Fri 5 Mar")
