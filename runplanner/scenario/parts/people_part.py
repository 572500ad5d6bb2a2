"""The crew: a mere number, a list of names, or one table for each person."""

import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from runplanner.errors import Fault
from runplanner.outfit.people import Person
from runplanner.phrase import phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import Days, OutfitFile
from runplanner.scenario.faults import Refusal, did_you_mean, said_text
from runplanner.scenario.values.figures import Whole
from runplanner.scenario.values.words import key_of, keys, name, yes_no

MOST_PEOPLE = 40


def read_people(file: OutfitFile, days: Days) -> tuple[Person, ...]:
    """Return the crew, in the order typed."""
    said = file.top.said("people")
    entries = said if isinstance(said, list) else [said]
    if entries and all(isinstance(entry, dict) for entry in entries):
        people = _from_tables(file, days)
    elif isinstance(said, list):
        people = _named(file, file.top.items("people", name))
    else:
        count = file.top.read("people", _how_many, 1)
        people = _named(file, [f"Person {number + 1}" for number in range(count)])
    if not people:
        file.top.fault(
            "people", phrase("at least one person"), phrase("Type how many, or their names.")
        )
    elif not any(person.drives for person in people):
        file.top.fault(
            "people",
            phrase("at least one who drives"),
            phrase("Set drives = true for somebody."),
            said=", ".join(person.name for person in people),
        )
    return people


def _how_many(said: object) -> int:
    """Return how many people there are.

    Raises:
        Refusal: When it is no such number; names in one text are listed in the cure.
    """
    try:
        return Whole(1, MOST_PEOPLE)(said)
    except Refusal as refusal:
        names = [part.strip() for part in re.split(r"[,;&]|\band\b", str(said))]
        if not all(any(map(str.isalpha, one)) for one in names):
            raise
        listed = json.dumps(names, ensure_ascii=False)
        raise Refusal(
            refusal.allowed, phrase("Write digits, or names as a list: {listed}.", listed=listed)
        ) from None


def _named(file: OutfitFile, names: Iterable[str]) -> tuple[Person, ...]:
    """Return people who do everything; said so among the defaults."""
    defaults = Fields(file.desk, file.file, {}, "people", lambda _: "people")
    people: list[Person] = []
    for called in names:
        person = Person(
            id="",
            name=called,
            drives=defaults.read("drives", yes_no, True),
            spins=defaults.read("spins", yes_no, True),
            mixes=defaults.read("mixes", yes_no, True),
        )
        _keep(file, people, person)
    return _keyed(people)


def _from_tables(file: OutfitFile, days: Days) -> tuple[Person, ...]:
    people: list[Person] = []
    for number, fields in enumerate(file.entries("people")):
        called = fields.read("name", name, f"Person {number + 1}")
        if not fields.right("name"):
            file.top.spoil("people")  # trucks may name whoever this is
        person = Person(
            id="",
            name=called,
            drives=fields.read("drives", yes_no, True),
            spins=fields.read("spins", yes_no, True),
            mixes=fields.read("mixes", yes_no, True),
            off_days=tuple(sorted(set(fields.items("away", days.number)))),
        )
        _keep(file, people, person)
    return _keyed(people)


def _keyed(people: Sequence[Person]) -> tuple[Person, ...]:
    ids = keys([person.name for person in people], "person")
    return tuple(replace(person, id=key) for person, key in zip(people, ids, strict=True))


def _keep(file: OutfitFile, people: list[Person], person: Person) -> None:
    if any(key_of(person.name) == key_of(known.name) for known in people):
        cure = phrase("Tell the two apart, by an initial for example.")
        said = said_text(person.name)
        file.book.add(Fault(file.file, "people", "name", said, phrase("each name once"), cure))
    people.append(person)


def find_person(people: Iterable[Person], said: object) -> str:
    """Return the id of the person called so.

    Raises:
        Refusal: When there is none.
    """
    typed = key_of(said)
    for person in people:
        if typed in {key_of(person.name), person.id}:
            return person.id
    names = list(dict.fromkeys(person.name for person in people))
    raise Refusal(
        phrase("one of {names}", names=", ".join(names)[:190]), did_you_mean(str(said), names)
    )
