"""What is told of the health of yards: closed, licensed, dead, their honey held or freed."""

from dataclasses import replace

import pytest

from runplanner.changes.typed import changed, typed_changes
from runplanner.daybook.trip import Job
from runplanner.errors import ScenarioError
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Health
from runplanner.paperwork.speech.tongue import said, speaking
from runplanner.trips.ground import Ground
from tests.audit.feeder_plan import feeders_fetched
from tests.changes.refused import NOON, faults, under_boards
from tests.running import at, put_in, running_plan, stop_with


def test_health() -> None:
    """Suspect, standstill, watch and sound; a number of colonies may stand before the yard."""
    said = {
        "suspect 2 Fernbank": Health.SUSPECT,
        "standstill Fernbank": Health.STANDSTILL,
        "watch Fernbank": Health.WATCH,
        "sound Fernbank": Health.SOUND,
    }
    for typed, health in said.items():
        assert health is put_in(typed, now=NOON).outfit.yard("fernbank").health


@pytest.mark.parametrize(
    "typed",
    [", licence {}", ' licence: "{}"', " (licence {})", ", License \u201e{}\u201c", ": licence {}"],
)
def test_a_licence_is_told_on_the_way(typed: str) -> None:
    """All that follows the word; worked as a watched yard until a standstill is told without it."""
    licence = "No 17: of (5) #2, until 2027-03-09"
    facts = put_in("standstill Fernbank" + typed.format(licence), now=NOON)
    yard = facts.outfit.yard("fernbank")

    assert (Health.WATCH, licence) == (yard.health, yard.licence)
    assert (False, None) == (yard.left_alone, yard.held_min)
    (note,) = facts.notes
    assert note == (
        f"Fernbank: at a standstill, worked under the licence typed, '{licence}', last on its trip "
        "and its boxes apart"
    )
    plan = replace(facts.plan, outfit=facts.outfit, now_min=facts.now_min)
    again = put_in("watch Fernbank", plan=plan).outfit.yard("fernbank")
    shut = put_in("standstill Fernbank", plan=plan).outfit.yard("fernbank")
    assert (yard.licence, Health.STANDSTILL, "") == (again.licence, shut.health, shut.licence)


def test_a_licence_on_the_way_keeps_what_was_agreed_and_asks_for_its_date() -> None:
    """The campaign goes on until 8 March; in German as well."""
    facts = put_in("standstill Fernbank, feed agreed, licence 17 until 2027-03-02", now=NOON)

    assert facts.outfit.yard("fernbank").feed_agreed
    assert facts.notes[0].endswith(
        "; the last date in it is 2027-03-02, and the campaign goes on until 2027-03-08: does it "
        "still hold?"
    )
    with speaking("de"):
        assert "gesperrt, mit der getippten Genehmigung" in said(facts.notes[0])


@pytest.mark.parametrize(
    ("typed", "allowed"),
    [
        ("standstill Fernbank, licence", "number, issued by, until; or nothing"),
        ("standstill Fernbank, licence: not yet", "number, issued by, until; or nothing"),
        ('standstill Fernbank, licence ""', "number, issued by, until; or nothing"),
        (f"standstill Fernbank, licence {'1' * 121}", "at most 120 characters"),
        ("suspect Fernbank, licence 17", "nothing after the change"),
        ("watch Fernbank, licence 17", "nothing after the change"),
    ],
)
def test_no_licence_frees_no_yard(typed: str, allowed: str) -> None:
    """Words for none, nothing at all, too much; suspicion is lifted by none."""
    with pytest.raises(ScenarioError) as told:
        put_in(typed, now=NOON)

    (fault,) = told.value.faults
    assert allowed in fault.allowed


@pytest.mark.parametrize(
    "typed",
    [": licence withdrawn", ", licence revoked by district office", " (licence refused)",
     ", licence expired 2027-02-20", ": licence No 17 is off, district says", ", licence"],
)  # fmt: skip
def test_a_licence_that_does_not_hold_is_refused_with_the_line_to_type(typed: str) -> None:
    """That line takes a licence away; as a reason it had opened the yard."""
    with pytest.raises(ScenarioError) as told:
        put_in("standstill Fernbank" + typed, now=NOON)

    (fault,) = told.value.faults
    assert fault.cure.startswith("Write 'standstill Fernbank' alone where there is none, or no ")
    assert "No 17" in put_in("standstill Fernbank, licence No 17", now=NOON).notes[0]


def test_feed_agreed_where_all_honey_is_off() -> None:
    """A standstill yard already taken off may be fed where that is agreed: no honey is on."""
    _, _, call, _ = stop_with(Job.TAKE_OFF)
    line = f"standstill {running_plan().outfit.yard(call.yard).name}, feed agreed"
    over, before = (
        put_in(line, now=at(minute)).outfit.yard(call.yard)
        for minute in (call.end_min, call.end_min - 1)
    )

    assert (True, True, False) == (over.feed_agreed, over.honey_off, over.left_alone)
    assert (False, True) == (before.honey_off, before.left_alone)
    assert running_plan().outfit.yard(call.yard).boxes == over.boxes


@pytest.mark.parametrize("ring", [False, True])
def test_honey_on_at_a_standstill_stays_known(*, ring: bool) -> None:
    """Red is on its way to Fernbank: the stop left out in one call or two, its honey is on."""
    ill, skip, now = "standstill Fernbank, feed agreed", "skip Fernbank", "Thu 4 Mar 9:00"
    first = put_in(ill, skip, now=now)
    told = changed(running_plan(), typed_changes([ill], now), ring=ring)
    plan = replace(told.plan, outfit=told.outfit, now_min=told.now_min)
    then = put_in("sound Fernbank" if ring else skip, plan=plan)
    first_told = first.outfit.yard("fernbank")
    fernbank = replace(first_told, health=Health.SOUND, feed_agreed=False, held_min=None)

    assert (15, False, True) == (fernbank.boxes, fernbank.honey_off,
                                 first.outfit.yard("fernbank").left_alone)  # fmt: skip
    assert (fernbank if ring else first.outfit.yard("fernbank")) == then.outfit.yard("fernbank")


def test_honey_that_turns_out_to_be_on_is_on_again() -> None:
    """Presumed off, so it may be fed; counted as nothing done, it may not."""
    told = put_in("standstill Fernbank, feed agreed", now="Thu 4 Mar 20:00")
    plan = replace(told.plan, outfit=told.outfit, now_min=told.now_min)
    facts = put_in("done 0304-truck2-0716 Fernbank: nothing", plan=plan).outfit.yard("fernbank")

    assert not told.outfit.yard("fernbank").left_alone
    assert (15, True) == (facts.boxes, facts.left_alone)


def test_dead_colonies_leave_their_boxes() -> None:
    """10 colonies with 15 boxes, 2 dead: 8 colonies, and all 15 boxes still come home."""
    facts = put_in("dead 2 Fernbank", "queenless 1 colony at Old Mill", now=NOON).outfit

    assert (8, 15) == (facts.yard("fernbank").colonies, facts.yard("fernbank").boxes)
    assert 23 == facts.yard("mill").colonies


def test_boxes_on_no_living_colony_are_told() -> None:
    """Where all are dead nobody is sent for boxes and boards, and that is said by itself."""
    facts = put_in("dead 10 Fernbank", now=NOON)
    under = put_in("dead 24 Old Mill", now=at(5200))

    assert 0 == facts.outfit.yard("fernbank").colonies
    assert facts.by_hand[0].startswith("Fernbank: 15 honey boxes; where no living colony")
    assert under.by_hand[0].startswith("Old Mill: 40 honey boxes, 24 boards; where no")
    assert () == facts.notes == put_in("dead 9 Fernbank", now=NOON).by_hand


def in_store(outfit: Outfit) -> int:
    """Boards at the store, those that lie in a yard since before the campaign left out."""
    return outfit.kit.boards_now - Ground(outfit, 0).boards_out


@pytest.mark.parametrize("now", ["Mon 1 Mar 0:00", at(5200)])
@pytest.mark.parametrize("gone", [5, 24])
def test_deaths_bring_no_boards_back_into_the_store(now: str, gone: int) -> None:
    """Those on the dead lie where they lay, to be lifted; told by two lines it is the same."""
    plan = under_boards()
    dead = put_in(f"dead {gone} Old Mill", now=now, plan=plan).outfit
    twice = put_in("dead 2 Old Mill", f"dead {gone - 2} Old Mill", now=now, plan=plan).outfit

    assert in_store(plan.outfit) == in_store(dead) == in_store(twice)
    assert 24 == Ground(dead, 0).boards_out


def test_boards_already_told_lost_are_not_lost_once_more_with_the_dead() -> None:
    """All are gone, those in the yard as well; the deaths are told all the same."""
    plan, now = under_boards(), at(5200)
    lost = put_in(f"boards lost {plan.outfit.kit.boards_now}", now=now, plan=plan).outfit
    dead = put_in("dead 24 Old Mill", now=now, plan=replace(plan, outfit=lost)).outfit

    assert (0, 0) == (dead.kit.boards_now, dead.yard("mill").colonies)


STRIPS_IN = "done 0304-truck2-0716 Fernbank: 6 colonies 12 boxes 6 fed strips in"
"""Eight boxes of Fernbank are on the four other colonies still."""


@pytest.mark.parametrize(
    "line", ["spin Fernbank", "Fernbank spin", "spin fernbank: vet rang", "Fernbank: spin"]
)
def test_honey_held_for_strips_is_freed_by_a_line(line: str) -> None:
    """Typed with the count that tells of the strips, or later; it says whose word that is."""
    now = "Thu 4 Mar 13:30"
    for facts in (
        put_in(STRIPS_IN, line, now=now),
        put_in(line, now=now, plan=replace((told := put_in(STRIPS_IN, now=now)).plan,
                                           outfit=told.outfit, now_min=told.now_min)),
    ):  # fmt: skip
        yard = next(one for one in facts.outfit.yards if one.id == "fernbank")
        assert (facts.now_min, facts.now_min) == (yard.treated_told_min, yard.freed_min)
        assert () == yard.held_spans(facts.now_min, facts.now_min + 60)
        assert (
            "Fernbank: 8 boxes held for strips beside honey may be spun from now on, by your "
            "word. Label, vet and local law decide whether they are for people; if not, keep "
            "their honey for the bees. They stay on the medicine record as they were."
        ) in facts.notes


@pytest.mark.parametrize(
    ("lines", "cure"),
    [
        (
            ("suspect Fernbank", "spin Fernbank"),
            "type 'sound Fernbank', 'watch Fernbank' or 'standstill Fernbank, licence ...'.",
        ),
        (("spin Old Mill",), "None of its boxes is held: leave this line out."),
        (("spin Fernbank", "spin Fernbank"), "None of its boxes is held: leave this line out."),
    ],
)
def test_what_strips_do_not_hold_is_not_freed(lines: tuple[str, ...], cure: str) -> None:
    """The refusal says what to type, and gives no example of what was refused."""
    found = faults(STRIPS_IN, *lines, now="Thu 4 Mar 13:30")

    assert [True] == [one.endswith(cure) for one in found]


@pytest.mark.parametrize(
    "line",
    [
        "do not spin Fernbank", "Fernbank: do not spin", "cannot spin Fernbank", "Ann spins",
        "spin Fernbank, not Old Mill", "spin no Fernbank", "spin Fernbank Mon", "spin all",
        "honey house cannot spin until Mon",
    ],
)  # fmt: skip
def test_a_line_that_says_more_frees_nothing(line: str) -> None:
    """What is not just a yard's name is refused."""
    assert 1 == len(faults(STRIPS_IN, line, now="Thu 4 Mar 13:30"))


def test_feeders_and_wet_boxes_left_with_the_dead_are_told() -> None:
    """Ten feeders stand in a yard that has died out; so do wet boxes put up and not collected."""
    plan = feeders_fetched()
    facts = put_in("dead 10 Yard 1", now=at(plan.shifts[1].end_min), plan=plan)

    assert facts.by_hand[0].startswith("Yard 1: 10 feeders; where no living colony")
