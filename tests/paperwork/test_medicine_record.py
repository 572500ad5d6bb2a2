"""Tests of the medicine record."""

from dataclasses import replace

from runplanner.paperwork.lists.medicine_record import medicine_page, records
from runplanner.trade.strips import RECORD_FIELDS
from tests.paperwork.pages import Page
from tests.paperwork.plans import eight_stop_plan, hostile_plan, small_plan

# Veterinary Medicines Regulations 2013 (GB): what a keeper writes down at purchase and at use.
FIELDS = (
    "name", "batch", "date bought", "quantity bought", "supplier",
    "date given", "quantity given", "withdrawal", "colonies",
)  # fmt: skip


def test_each_field_of_the_law_has_a_line_to_write_on() -> None:
    """Nine fields, and three of our own: taken out, how many, signed; a long line for each."""
    page = Page(medicine_page(small_plan()))

    for field in FIELDS:
        assert field in page.text.lower()
    assert len(RECORD_FIELDS) + 3 == page.values("class").count("line long")


def test_only_what_the_plan_knows_is_filled_in() -> None:
    """Planned date, strips and colonies; batch, quantity, supplier and dates bought stay blank."""
    (record,) = records(small_plan())
    known = {field: words for field, words in record.fields if words}

    assert {
        "Name of the product": "active substance amitraz",
        "Date given": "planned Tue 2 Mar 2027",
        "Quantity given": "planned 20 strips",
        "Colonies treated": "all 10 colonies of Yard 1",
    } == known
    assert "due Tue 13 Apr 2027 to Tue 11 May 2027" == record.out


def test_a_second_application_has_lines_of_its_own() -> None:
    """Batch, date, quantity, taken out, how many and signed once more, under a head of their own.

    20 strips of 42 to 70 days went in on 2 March; the second ones are due out 84 to 140 days on.
    """
    plan = small_plan()
    kind = replace(plan.outfit.strips, twice=True)
    plan = replace(plan, outfit=replace(plan.outfit, strips=kind))
    (record,) = records(plan)

    assert (
        ("Second application", "no visit of this plan: say who goes"),
        ("Batch number", ""),
        ("Date given", "due Tue 13 Apr 2027 to Tue 11 May 2027"),
        ("Quantity given", "20 strips"),
        ("Taken out", "due Tue 25 May 2027 to Tue 20 Jul 2027"),
        ("Strips taken out", ""),
        ("Given by, signed", ""),
    ) == record.again
    page = Page(medicine_page(plan))
    assert len(RECORD_FIELDS) + 3 + 7 == page.values("class").count("line long")


def test_it_is_kept_five_years() -> None:
    """Given in March 2027, and kept to the end of 2032: never short of five years."""
    assert [2032] * 4 == [one.keep_until for one in records(eight_stop_plan())]
    assert "Keep for 5 years" in Page(medicine_page(small_plan())).text


def test_it_is_kept_five_years_from_the_last_date_in_it() -> None:
    """In on 2 March 2027, out by 28 February 2028 after 363 days, by 2029 where given twice."""
    plan = small_plan()
    for twice, until in ((False, 2028 + 5), (True, 2029 + 5)):
        kind = replace(plan.outfit.strips, out_before_days=363, twice=twice)
        (record,) = records(replace(plan, outfit=replace(plan.outfit, strips=kind)))
        assert until == record.keep_until


def test_a_record_names_its_yard_whole() -> None:
    """However long the name: two yards must never share a heading in a legal record."""
    plan = small_plan()
    (yard, *others) = plan.outfit.yards
    name = " ".join(["Streuobstwiese hinter der alten Ziegelei"] * 2)
    plan = replace(plan, outfit=replace(plan.outfit, yards=(replace(yard, name=name), *others)))
    (record,) = records(plan)

    assert name == record.yard
    assert f"all 10 colonies of {name}" in dict(record.fields)["Colonies treated"]


def test_one_record_for_each_yard() -> None:
    """Four yards of the long day get strips."""
    page = Page(medicine_page(eight_stop_plan()))

    assert 4 == page.values("class").count("record")
    assert "No strips are planned." in Page(medicine_page(replace(small_plan(), shifts=()))).text


def test_hostile_words_are_words() -> None:
    """No element that plain names do not make; an unknown substance has no cautions."""
    plain, hostile = Page(medicine_page(small_plan())), Page(medicine_page(hostile_plan()))
    assert set(hostile.tags) <= set(plain.tags)
