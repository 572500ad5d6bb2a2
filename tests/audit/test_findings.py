from dataclasses import replace
from datetime import date

from runplanner.audit.audit import audit
from runplanner.audit.findings import Finding, dated, on_day, shown, when
from runplanner.daybook.plan import Plan, Spinning
from runplanner.phrase import counted, phrase, verbatim
from tests.audit.plans import plain


def test_sentence_says_where_what_and_what_is_allowed() -> None:
    """A finding reads as one line."""
    finding = Finding(
        "deck", "t1", "mill", verbatim("25 deck places taken"), verbatim("at most 24")
    )

    expected = "deck (trip t1, yard mill): 25 deck places taken; allowed: at most 24"

    assert expected == finding.sentence()


def test_a_yard_is_called_by_its_name() -> None:
    """Where the plan knows it; the finding is the same."""
    plain = Finding("deck", "", "mill", verbatim("25"), verbatim("24"))
    named = Finding("deck", "", "mill", verbatim("25"), verbatim("24"), "Old Mill")

    assert "deck (yard Old Mill): 25; allowed: 24" == named.sentence()
    assert plain == named


def test_days_are_told_by_their_dates() -> None:
    """Day 2 of a season from 1 March 2027, a Monday, is a Wednesday; also inside a sentence."""
    first = date(2027, 3, 1)
    words = phrase("boxes spun {start}", start=when(3_725))

    assert "boxes spun Wed 3 Mar at 14:05" == dated(words, first)
    assert "take-off on Sun 28 Feb" == dated(phrase("take-off on {day}", day=on_day(-1)), first)
    assert "1 box" == dated(counted("{number} box", "{number} boxes", 1), first)
    assert "day 99999999" == dated(on_day(99_999_999), first)


def _driven_by(name: str, truck: str) -> Plan:
    """The plain plan with another driver, who may not drive, and names that people typed."""
    plan = plain()
    outfit = replace(
        plan.outfit,
        trucks=tuple(replace(one, name=truck) for one in plan.outfit.trucks),
        people=tuple(replace(one, name=name, drives=False) for one in plan.outfit.people),
    )
    return replace(plan, outfit=outfit)


def test_trucks_and_people_are_called_by_their_names() -> None:
    """As typed; a thing without a name is called by its id."""
    named = [one.said for one in audit(_driven_by("Mere Ahu", "Blue Flat")) if "driver" == one.rule]
    bare = [one.said for one in audit(_driven_by("", "")) if "driver" == one.rule]

    assert named
    assert all(said.startswith("Mere Ahu drives Blue Flat on ") for said in named)
    assert all(said.startswith("ann drives truck1 on ") for said in bare)


def test_one_thing_is_counted_as_one() -> None:
    """One box spun, where many are to be."""
    plan = replace(plain(), spinning=(Spinning(3_360, 3_420, ("bob",), 1),))

    assert "1 box spun" in [one.said for one in audit(plan) if "all spun" == one.rule]


def test_sentence_without_a_place() -> None:
    """A finding on the whole plan names no trip and no yard."""
    assert (
        "bill: 3 cents; allowed: 4"
        == Finding("bill", "", "", verbatim("3 cents"), verbatim("4")).sentence()
    )


def test_shown_is_one_short_line() -> None:
    """Unprintable characters become spaces, spaces shrink, long text ends in dots."""
    assert "a b" == shown("a\n\t\u202e  b")
    assert "x" * 57 + "..." == shown("x" * 61)
    assert "x" * 60 == shown("x" * 60)


def test_when_names_day_and_clock() -> None:
    """Minute 2 x 1,440 + 845 is 14:05 on day 2; a minute before day 0 is on day -1."""
    assert "day 2 at 14:05" == when(3_725)
    assert "day -1 at 23:59" == when(-1)
