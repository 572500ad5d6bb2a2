from dataclasses import replace
from datetime import date

import pytest

from runplanner.errors import Fault, ScenarioError
from runplanner.paperwork.speech.tongue import said, speaking
from runplanner.phrase import phrase
from runplanner.scenario.faults import FaultBook, did_you_mean, said_text


def a_fault(number: int) -> Fault:
    """A fault that differs by its row."""
    return Fault(
        "yards.csv", f"row {number}", "lat", "x", phrase("a latitude"), phrase("Write digits.")
    )


def test_each_fault_once() -> None:
    """The same fault found twice is said once."""
    book = FaultBook()
    book.add(a_fault(1))
    book.add(a_fault(1))

    assert 1 == len(book)


def test_faults_are_told_as_a_person_goes_through_the_files() -> None:
    """outfit.toml first, then by row; what names no row before, one row's in order of reading."""
    told = [
        ("yards.csv", "row 10, Mill", "lat"),
        ("yards.csv", "row 9, Gate", "lat"),
        ("yards.csv", "row 9, Gate", "boxes"),
        ("yards.csv", "header", "colour"),
        ("weather.csv", "row 2", "what"),
        ("outfit.toml", "line 31, feed", "recipe"),
        ("outfit.toml", "line 4, season", "first_day"),
    ]
    book = FaultBook()
    for file, where, field in told:
        book.add(Fault(file, where, field, "x", phrase("y"), phrase("z")))
    with pytest.raises(ScenarioError) as caught:
        book.close()

    order = [6, 5, 3, 1, 2, 0, 4]
    assert [told[number] for number in order] == [
        (fault.file, fault.where, fault.field) for fault in caught.value.faults
    ]


def test_a_flood_is_cut_short() -> None:
    """Of thousands of faults two hundred are listed and the rest counted."""
    book = FaultBook()
    for number in range(1000):
        book.add(replace(a_fault(number), field=f"column {number}"))
    with pytest.raises(ScenarioError) as caught:
        book.close()

    assert 201 == len(caught.value.faults)
    assert "800 more faults" == caught.value.faults[-1].said


def told(faults: list[Fault]) -> tuple[Fault, ...]:
    """What is told of them."""
    book = FaultBook()
    for fault in faults:
        book.add(fault)
    with pytest.raises(ScenarioError) as caught:
        book.close()
    return caught.value.faults


def test_a_slip_in_many_rows_of_a_column_is_told_once() -> None:
    """The first row stands for the others, which are named; four are told one by one."""
    (fault,) = told([a_fault(number) for number in (9, 2, 3, 4, 6, 12)])

    assert ("row 2", "x") == (fault.where, fault.said)
    assert "Write digits. The same in 5 more rows: 3-4, 6, 9, 12." == fault.cure
    assert 4 == len(told([a_fault(number) for number in range(4)]))
    with speaking("de"):
        assert said(fault.cure).endswith("Dasselbe in 5 weiteren Zeilen: 3-4, 6, 9, 12.")


def test_other_slips_of_the_column_are_told_as_well() -> None:
    """Commas are one slip, with whatever figure; another cure, file or line is another one."""
    commas = [replace(a_fault(number), said=f"48,{number}1", cure=phrase("No: {one}.", one=number))
              for number in range(2, 8)]  # fmt: skip
    lines = [replace(a_fault(number), where=f"line {number}") for number in range(2, 8)]
    found = told([*commas, a_fault(3), *lines])

    assert 8 == len(found)
    assert "No: 2. The same in 5 more rows: 3-7." == found[0].cure


def test_very_many_stretches_of_rows_are_cut_short() -> None:
    """Every second of 40 rows: the first, eight of the others, and how many these are."""
    (fault,) = told([a_fault(number) for number in range(1, 41, 2)])

    assert fault.cure.endswith("The same in 19 more rows: 3, 5, 7, 9, 11, 13, 15, 17 and 11 more.")


def test_nothing_found_nothing_raised() -> None:
    """An empty book closes quietly."""
    FaultBook().close()


def test_said_text_is_short_and_on_one_line() -> None:
    """What was typed is shown without control characters and cut to size."""
    assert "a\\x0ab" == said_text("a\nb")
    assert "12" == said_text(12)
    assert 'false [1, true, "a"]' == f"{said_text(value=False)} {said_text([1, True, 'a'])}"
    assert '{ name = "Jo", away = [2027-03-01] }' == said_text(
        {"name": "Jo", "away": [date(2027, 3, 1)]}
    )
    assert said_text("x" * 10_000).endswith("... (10000 characters)")


def test_a_sentence_spells_out_what_cannot_be_printed_once() -> None:
    """A line break in a name is told spelt out, with one backslash, as a person would say it."""
    fault = Fault(
        "yards.csv",
        "row 2",
        "name",
        said_text("two\nlines"),
        phrase("a name"),
        phrase("Shorten it."),
    )

    assert (
        r"yards.csv, row 2, name: said 'two\x0alines'; allowed: a name. Shorten it."
    ) == fault.sentence()


def test_suggestions() -> None:
    """The nearest word, or else all of them."""
    assert "Did you mean 'feeder'?" == did_you_mean("Feder", ["feeder", "target"])
    assert "Known here: feeder, target." == did_you_mean("xyz", ["feeder", "target"])
    assert "Nothing is expected here." == did_you_mean("xyz", [])
