from datetime import date

from runplanner.audit.findings import Finding, dated, on_day, shown, when
from runplanner.phrase import counted, phrase, verbatim


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
