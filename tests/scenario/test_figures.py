from decimal import Decimal
from fractions import Fraction

import pytest

from runplanner.phrase import phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values.figures import LATITUDE, LONGITUDE, Figure, Money, Whole


@pytest.mark.parametrize("said", [24, " 24 ", "24.0", Decimal(24)])
def test_whole_numbers(said: object) -> None:
    """A count may come as a TOML number or as a spreadsheet's text."""
    assert 24 == Whole(0, 100)(said)


@pytest.mark.parametrize(
    "said",
    ["24.5", "", "x", "1,000", "-1", "101", "nan", "inf", "1e2", True, None, [], Decimal("NaN"),
     Decimal("Infinity"), "9" * 500, "٣"],
)  # fmt: skip
def test_no_whole_number(said: object) -> None:
    """Fractions, NaN, infinities, true and numbers out of range are refused."""
    with pytest.raises(Refusal, match="a whole number from 0 to 100"):
        Whole(0, 100)(said)


def test_a_number_too_long_is_one_to_check() -> None:
    """Twenty nines are digits: nobody is told to write digits, as after a word."""
    with pytest.raises(Refusal, match="Check the number"):
        Whole(0, 100)("9" * 20)
    with pytest.raises(Refusal, match="Write digits alone"):
        Whole(0, 100)("two dozen")


@pytest.mark.parametrize(
    ("said", "cure"),
    [
        ("1.000", "Write 1000 or 1, without a mark."),
        (" +12.000", "Write 12000 or 12, without a mark."),
        (Decimal("2.000"), "Write 2000 or 2, without a mark."),
        ("1,000", "Write 1000 or 1, without a mark."),
        ("1.250", "Write 1250 if thousands are meant."),
        ("1.000.000", "Write 1000000 if thousands are meant."),
        ("1,234,567", "Write 1234567 if thousands are meant."),
    ],
)
def test_counts_in_groups_of_three(said: object, cure: str) -> None:
    """1.000 is a thousand to one and one to another: it is refused, and both are named."""
    with pytest.raises(Refusal, match="a whole number") as caught:
        Whole(0, 2_000_000)(said)

    assert cure == caught.value.cure


@pytest.mark.parametrize("said", ["2.0", "2.00", "2.0000", "002.000", Decimal("2.0"), "2.00000"])
def test_counts_with_a_fraction_of_nothing(said: object) -> None:
    """No group of three after one to three digits: it cannot be thousands."""
    assert 2 == Whole(0, 100)(said)


def test_what_a_spreadsheet_adds_up_is_read() -> None:
    """-71.6 + 0.045 is -71.55499999999999 in a spreadsheet's cell: fourteen decimals."""
    assert -71.55499999999999 == LONGITUDE("-71.55499999999999")


def test_degrees() -> None:
    """Decimal degrees, south and west negative, a typographer's minus included."""
    assert -36.85 == LATITUDE("\N{MINUS SIGN}36.85")
    assert 174.76 == LONGITUDE(Decimal("174.76"))


@pytest.mark.parametrize(
    ("reader", "said", "cure"),
    [
        (LATITUDE, "175.1", "Check for lat and lon swapped"),
        (LATITUDE, "46,25", "No commas: write 46.25"),
        (LATITUDE, "-36,850", "No commas: write -36.85 if that is meant."),
        (LATITUDE, "36 51 S", "Write -36.85."),
        (LATITUDE, "36.85 S", "Write -36.85."),
        (LATITUDE, "-36\u00b051'00\"S", "Write -36.85."),
        (LATITUDE, "-36 51", "South is negative"),
        (LATITUDE, "-36 51 N", "South is negative"),
        (LATITUDE, "36 51 E", "South is negative"),
        (LONGITUDE, "174\u00b0 45' 36\" E", "Write 174.76."),
        (LONGITUDE, "two", "West is negative"),
        (LONGITUDE, "180.1", "Write -179.9."),
        (LONGITUDE, "999", "Check for lat and lon swapped"),
        (LONGITUDE, "nan", "West is negative"),
    ],
)
def test_no_degrees(reader: object, said: str, cure: str) -> None:
    """Angles off the globe are refused, with the likely slip."""
    assert callable(reader)
    with pytest.raises(Refusal) as caught:
        reader(said)

    assert cure in caught.value.cure


@pytest.mark.parametrize(
    ("said", "cents"),
    [(30, 3000), ("30.5", 3050), (Decimal("0.005"), 1)],
)
def test_money(said: object, cents: int) -> None:
    """Sums are plain numbers; cents go up."""
    assert cents == Money(phrase("an hour"))(said)


@pytest.mark.parametrize(
    "said", ["-1", "3,50", "NZD 30", "30 NZD/h", "1 kg", "1e9", "nan", True, "2000000"]
)
def test_no_money(said: object) -> None:
    """Negative, absurd and unreadable sums are refused."""
    with pytest.raises(Refusal, match="a sum for an hour"):
        Money(phrase("an hour"))(said)


def test_a_sum_with_a_comma_may_be_thousands() -> None:
    """1,200 for a truck's day: twelve hundred, or one and a fifth; digits and letters are told."""
    with pytest.raises(Refusal, match=r"write 1200 if thousands are meant, or else 1\.2\."):
        Money(phrase("a day"))("1,200")
    with pytest.raises(Refusal, match="Write the number alone"):
        Money(phrase("a day"))("30, or so")


@pytest.mark.parametrize("said", ["1e999999999999", "-1e-999999999999", "1e401"])
def test_exponents_beyond_all_reason(said: str) -> None:
    """They are refused as typed: written out they would fill the memory."""
    for reader in (Money(phrase("an hour")), Whole(0, 3), LATITUDE):
        with pytest.raises(Refusal, match=r"Write (digits|the number)"):
            reader(Decimal(said))


def test_exponents_within_reason() -> None:
    """30 may be typed as 3e1, and 1e30 is a number to check."""
    assert 3000 == Money(phrase("an hour"))(Decimal("3e1"))
    with pytest.raises(Refusal, match="Check the number"):
        Money(phrase("an hour"))(Decimal("1e30"))


def test_figures_are_exact() -> None:
    """A factor keeps its decimals as a fraction."""
    assert Fraction(27, 20) == Figure(phrase("a factor"), 1, 5)("1.35")
    with pytest.raises(Refusal, match="a factor from 1 to 5"):
        Figure(phrase("a factor"), 1, 5)("0.9")
