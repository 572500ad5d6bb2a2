"""What names typed mean where several are nearly alike."""

from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.changes.forecast import Fresh
from runplanner.changes.typed import changed
from runplanner.cli import Exit, main
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_text
from runplanner.errors import ScenarioError
from runplanner.office.traced import traced
from runplanner.outfit.yards import Health
from tests.running import put_in, running_outfit, running_plan
from tests.scenario.folders import HEAD, faults, read

HEADER = "name,lat,lon,colonies,boxes\n"
HOEFEN = HEADER + "H\u00f6fen,-38.01,175.06,8,12\nHofen,-38.02,175.07,6,9\n"


def called(*yards: tuple[str, str], people: tuple[str, ...] = ()) -> Plan:
    """The running plan with these names and ids for its yards, and names for its people.

    Calls keep the yard they had, by its place.
    """
    outfit = running_outfit()
    pairs = list(zip(outfit.yards, yards, strict=False))
    ids = {yard.id: key for yard, (key, _) in pairs}
    new = [replace(yard, id=key, name=name) for yard, (key, name) in pairs]
    shifts = tuple(
        replace(shift, trips=tuple(
            replace(trip, calls=tuple(
                replace(call, yard=ids.get(call.yard, call.yard)) for call in trip.calls
            ))
            for trip in shift.trips
        ))
        for shift in running_plan().shifts
    )  # fmt: skip
    crew = [replace(one, name=name) for one, name in zip(outfit.people, people, strict=False)]
    outfit = replace(
        outfit, yards=(*new, *outfit.yards[len(new):]),
        people=(*crew, *outfit.people[len(crew):]),
    )  # fmt: skip
    return replace(running_plan(), outfit=outfit, shifts=shifts)


OLD = (("hofen", "H\u00f6fen"), ("hofen-2", "Hofen"))
"""Ids as plans had them before an id was no other yard's name."""


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("Hofen", "hofen-2"),
        ("H\u00f6fen", "hofen"),
        ("hofen-2", "hofen-2"),
        ("h\u00f6fen", "hofen"),
    ],
)
def test_a_name_as_spelt_is_that_yard(typed: str, key: str) -> None:
    """Whatever the ids, and in every way of naming a yard."""
    plan = called(*OLD)
    suspect = put_in(f"suspect {typed}", plan=plan).outfit
    shut = put_in(f"shut {typed} Fri", now="Wed 3 Mar 12:00", plan=plan).outfit

    assert [key] == [yard.id for yard in suspect.yards if yard.health is Health.SUSPECT]
    assert [key] == [yard.id for yard in shut.yards if yard.shut]
    assert plan.outfit.yard(key).name == traced(plan, typed).yard


def test_a_word_that_is_a_name_and_another_yards_id_is_asked_back(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """In a plan of before: neither yard is guessed, and what each alone is called is said."""
    plan, path = called(*OLD), tmp_path / "plan.json"
    path.write_text(plan_text(plan), "utf-8")

    for line in ("suspect hofen", "shut hofen Fri", "shut Old Mill and hofen Fri"):
        with pytest.raises(ScenarioError, match="Give one of: hofen-2, H\u00f6fen"):
            put_in(line, now="Wed 3 Mar 12:00", plan=plan)
    assert Exit.BAD_INPUT == main(["trace", str(path), "hofen"])
    assert "Give one of: hofen-2, H\u00f6fen" in capsys.readouterr().err


def test_another_yards_name_is_no_stop_of_the_trip() -> None:
    """Höfen is on the trip, Hofen is not: a count for Hofen is not put down to Höfen."""
    plan = called(("fernbank", "H\u00f6fen"))
    spare = replace(plan.outfit.yards[0], id="spare", name="Hofen")
    plan = replace(plan, outfit=replace(plan.outfit, yards=(*plan.outfit.yards, spare)))
    trip = plan.shifts[0].trips[0].id

    with pytest.raises(ScenarioError, match="Known here: H\u00f6fen"):
        put_in(f"done {trip} Hofen: 3 boxes", now="Fri 5 Mar 20:00", plan=plan)


def test_an_id_made_up_is_no_other_yards_name(tmp_path: Path) -> None:
    """Höfen leaves the word to Hofen; without a Hofen, neither Höfen nor Hôfen has it."""
    alike = HEADER + "H\u00f6fen,-38.01,175.06,8,12\nH\u00f4fen,-38.02,175.07,6,9\n"
    (tmp_path / "two").mkdir()

    assert ["hofen-2", "hofen"] == [yard.id for yard in read(tmp_path, yards=HOEFEN).yards]
    assert ["hofen-2", "hofen-3"] == [yard.id for yard in read(tmp_path / "two", yards=alike).yards]


def test_an_id_typed_is_no_other_yards_name(tmp_path: Path) -> None:
    """Gate is a yard, so no other yard has that word as its id; Mill may have its own."""
    yards = (
        "name,id,lat,lon,colonies,boxes\nG\u00e2te,,-38.0,175.0,3,4\nMill,mill,-38.1,175.0,3,4\n"
        "Lane,gate,-38.2,175.0,3,4\n"
    )
    (fault,) = faults(tmp_path, yards=yards)

    assert ("row 4, Lane", "id", "gate") == (fault.where, fault.field, fault.said)


def test_a_new_yard_has_neither_name_nor_id_of_another() -> None:
    """The lots of Höfen are marked ``hofen``, so that word names no other yard later."""
    plan = called(("hofen", "H\u00f6fen"))
    for name in ("Hofen", "H\u00f4fen", "H\u00f6fen"):
        with pytest.raises(ScenarioError, match="a name that no yard has"):
            put_in(f"new yard {name} at 0.01 0.02: 5 colonies 4 boxes", plan=plan)
    plan = called(("farm", "H\u00f6fen"))
    grown = put_in("new yard Hofen at 0.01 0.02: 5 colonies 4 boxes", plan=plan).outfit
    other = put_in("new yard H\u00f4fen at 0.01 0.02: 5 colonies 4 boxes", plan=plan).outfit

    assert ("hofen", "hofen-2") == (grown.yards[-1].id, other.yards[-1].id)


def test_a_folder_read_again_goes_by_names() -> None:
    """The ids it makes today are not those of the plan: each yard keeps to its own weather."""
    plan = called(*OLD)
    first, second, third = plan.outfit.yards
    here = (
        replace(first, id="hofen-2", sure_permille=(900,) * 10),
        replace(second, id="hofen", sure_permille=(800,) * 10),
        replace(third, name="Mill of before", sure_permille=(700,) * 10),
    )
    outfit = changed(plan, (), Fresh("here", replace(plan.outfit, yards=here))).outfit

    assert [900, 800, 700] == [yard.sure_permille[0] for yard in outfit.yards]


def test_a_yard_whose_name_begins_with_yard() -> None:
    """Its name is read before the word ``yard`` is taken for a mere word."""
    plan = called(("fernbank", "Yard 1"))

    assert put_in("shut Yard 1 Fri", plan=plan).outfit.yard("fernbank").shut
    assert put_in("shut yard Old Mill Fri", plan=plan).outfit.yard("mill").shut


@pytest.mark.parametrize(
    ("typed", "away"),
    [
        ("Moller", "bob"), ("M\u00f6ller", "ann"), ("moller", "bob"), ("mo\u0308ller", "ann"),
        ("Moller Kurz", "caro"), ("person Moller Kurz", "caro"), ("caro", "caro"),
    ],
)  # fmt: skip
def test_a_whole_name_is_that_person(typed: str, away: str) -> None:
    """Before ids, first words, and names with their accents left out."""
    plan = called(people=("M\u00f6ller", "Moller", "Moller Kurz"))
    people = put_in(f"{typed} off Fri", now="Wed 3 Mar 12:00", plan=plan).outfit.people

    assert [away] == [one.id for one in people if one.off_days]


def test_people_called_alike_are_told_apart() -> None:
    """By their ids where the first word is that of two; a truck by what it is as well."""
    plan = called(people=("Ina Berg", "Ina Kurz", "Red"))
    for typed, cure in (("Ina", "Give one of: ann, bob."), ("Red", "Give one of: truck2, caro.")):
        with pytest.raises(ScenarioError, match=cure):
            put_in(f"{typed} off Fri", plan=plan)
    facts = put_in("truck Red out Fri", "person Red off Thu", now="Wed 3 Mar 12:00", plan=plan)

    assert ((), (4,)) == tuple(truck.out_days for truck in facts.outfit.trucks)
    assert ((), (), (3,)) == tuple(one.off_days for one in facts.outfit.people)


def test_ids_of_people_and_trucks_are_no_others_names(tmp_path: Path) -> None:
    """So ``drivers`` means whom it names, whichever row comes first."""
    head = HEAD.replace("people = 2", 'people = ["M\u00f6ller", "Moller"]')
    outfit = read(tmp_path, head=head)

    assert [("moller-2", "M\u00f6ller"), ("moller", "Moller")] == [
        (one.id, one.name) for one in outfit.people
    ]


@pytest.mark.parametrize(
    "typed",
    [
        "Strassenwaerterhaus",
        "Strassenwarterhaus",
        "strassenw\u00e4rterhaus",
        "STRASSENW\u00c4RTERHAUS",
    ],
)
def test_letters_may_be_written_out(typed: str) -> None:
    """As people do who lack the key; with the letter itself in the name."""
    plan = called(("x", "Stra\u00dfenw\u00e4rterhaus"), ("y", "Br\u00f8nd"))

    assert 9 == put_in(f"dead 1 {typed}", plan=plan).outfit.yard("x").colonies
    for well in ("Brond", "Broend"):
        assert 9 == put_in(f"dead 1 {well}", plan=plan).outfit.yard("y").colonies


@pytest.mark.parametrize(
    ("name", "typed"),
    [
        ("O'Brien's back paddock", "O\u2019Brien\u2019s back paddock"),
        ("Kelly\u2019s \u2013 lane", "Kelly's - lane"),
        ("Kelly\u2019s lane", "kellys lane"),
        ("O\u00b4Brien", "O`Brien"),
        ("Mt. Barren", "Mt Barren"),
        ("Mt Barren", "mt. barren"),
        ("Tumbly \u201cTop\u201d", 'Tumbly "top"'),
        ('Tumbly "Top"', "Tumbly top"),
        ("Salt\u2014Lick", "Salt\u2011Lick"),
        ("Fernbank", "Fernbank."),
    ],
)
def test_signs_that_keyboards_set_otherwise(name: str, typed: str) -> None:
    """A phone and a spreadsheet set curly ones; nobody types a sign that his keyboard lacks."""
    plan = called(("x", name))

    assert 9 == put_in(f"dead 1 {typed}", plan=plan).outfit.yard("x").colonies
    assert put_in(f"shut {typed} Fri", plan=plan).outfit.yard("x").shut
    assert name == traced(plan, typed).yard


def test_names_that_differ_in_signs_alone_are_told_apart() -> None:
    """As spelt one is meant; spelt in a third way neither is."""
    plan = called(("x", "St. Ann"), ("y", "St Ann"))

    assert 9 == put_in("dead 1 St. Ann", plan=plan).outfit.yard("x").colonies
    assert 9 == put_in("dead 1 st ann", plan=plan).outfit.yard("y").colonies
    with pytest.raises(ScenarioError, match="Give one of: x, y"):
        put_in("dead 1 St 'Ann'", plan=plan)


def test_a_new_yard_in_a_phones_quotation_marks() -> None:
    """They are none of its name."""
    line = "new yard \u201cMill Lane\u201d at 0.01 0.02: 5 colonies 4 boxes"

    assert "Mill Lane" == put_in(line).outfit.yards[-1].name


@pytest.mark.parametrize("name", ["Truck", "Truck 1", "Trailer truck"])
def test_a_truck_called_as_nobody_named_it_can_be_spoken_to(name: str) -> None:
    """``Truck`` is the starter's, and what stands where no name was typed."""
    plan = running_plan()
    first, *others = plan.outfit.trucks
    trucks = (replace(first, name=name), *others)
    plan = replace(plan, outfit=replace(plan.outfit, trucks=trucks))
    for typed in (name, name.lower(), f"truck {name}"):
        told = put_in(f"{typed} out Sun", plan=plan).outfit.trucks

        assert [first.id] == [one.id for one in told if one.out_days]
