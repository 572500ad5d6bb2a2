"""Tests of what the comments of a file say."""

from runplanner.scenario.starter.remarks import WIDTH, remarks, said_in


def test_remarks_are_told_from_settings() -> None:
    text = "# One.\n# Two.\n\na = 1  # three\n# b = 2\n# c = 3   # four\n# all,open,,   five\n"

    assert list(remarks(text)) == ["One. Two.", "three", "four", "five"]
    shout = said_in(text, str.upper)
    assert shout == text.replace("# One.\n# Two.", "# ONE. TWO.").replace("three", "THREE").replace(
        "four", "FOUR"
    ).replace("five", "FIVE")


def test_what_a_language_says_at_length_is_wrapped() -> None:
    long = "word " * 60

    lines = said_in("# short\na = 1\n", lambda _: long.strip()).splitlines()

    assert all(line.startswith("# ") and len(line) <= WIDTH for line in lines[:-1])
    assert " ".join(line[2:] for line in lines[:-1]) == long.strip()
