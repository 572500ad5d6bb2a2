from collections.abc import Callable
from contextlib import suppress
from fractions import Fraction
from math import ceil, floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.phrase import phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values.figures import Whole
from runplanner.scenario.values.measures import (
    BOX_FULL,
    OVERTIME,
    PUMP,
    SUGAR,
    SYRUP,
    TANK_HOLDS,
    VEHICLE_EMPTY,
    VEHICLE_MOST,
)
from runplanner.scenario.values.quantities import (
    _SETTLED,
    Measure,
    share,
    speed_factor,
    temperature,
)

MASS = Measure(phrase("a mass"), "g", "0 kg", "60 t", "2.1 t")
LESS = Measure(phrase("a mass"), "g", "0 kg", "60 t", "2.1 t", up=False)
VOLUME = Measure(phrase("a volume"), "ml", "0 L", "60 m3", "10 L", up=False)
TIME = Measure(phrase("a time"), "min", "0 min", "7 days", "8 min")
LENGTH = Measure(phrase("a length"), "mm", "0 mm", "20 m", "3.1 m")
SPEED = Measure(phrase("a speed"), "m/hour", "1 km/h", "130 km/h", "50 km/h")


@pytest.mark.parametrize(
    ("measure", "said", "whole"),
    [
        (MASS, "1.05 t", 1_050_000),
        (MASS, "2.2 kg", 2_200),
        (MASS, "0.1 g", 1),  # masses go up
        (LESS, "0.9 g", 0),  # capacities go down
        (MASS, "14 lb", 6_351),  # 14 x 453.59237 = 6350.29318 (international pound, 1959)
        (MASS, "5 lb 3 oz", 2_354),  # 83 oz x 28.349523125 = 2353.01
        (MASS, "3.5 US ton", 3_175_147),  # 7000 lb x 453.59237 = 3175146.59
        (VOLUME, "750 L", 750_000),
        (VOLUME, "1 m3", 1_000_000),
        (VOLUME, "1 m³", 1_000_000),
        (VOLUME, "6 US gal", 22_712),  # 6 x 231 cubic inches = 22712.47
        (VOLUME, "6 imperial gallons", 27_276),  # 6 x 4546.09 = 27276.54
        (VOLUME, "5 UK pints", 2_841),  # 5/8 x 4546.09 = 2841.3
        (TIME, "8 min", 8),
        (TIME, "90 s", 2),
        (TIME, "60 s", 1),  # exactly: 1/60 is kept as a fraction
        (TIME, "1 h 30 min", 90),
        (TIME, "2 days", 2_880),
        (LENGTH, "5 ft 3 in", 1_601),  # 63 x 25.4 = 1600.2
        (LENGTH, "20 1/8", None),
        (SPEED, "50 km/h", 50_000),
        (SPEED, "31 mile/h", 49_890),  # 31 x 1609.344 = 49889.66
        (MASS, "\N{NO-BREAK SPACE}2.1\N{NO-BREAK SPACE}t ", 2_100_000),
    ],
)
def test_sensible_units(measure: Measure, said: str, whole: int | None) -> None:
    """Any sensible unit is read, exactly, and rounded the way the measure says."""
    if whole is None:
        with pytest.raises(Refusal):
            measure(said)
        return
    assert whole == measure(said)


@pytest.mark.parametrize(
    ("said", "cure"),
    [
        ("4,2 t", "No commas: write '4.2 t' if that is meant."),
        ("4.2", "The unit is missing"),
        (4, "Write the unit and quotes"),
        (True, "Write the unit and quotes"),
        ("20 C", "Unit 'C' is not known"),
        ("20 °C", "does not measure a mass"),
        ("3 h", "'h' does not measure a mass"),
        ("3 kg/m3", "Write a number and its unit"),
        ("3.5 ton", "Write t for 1000 kg"),
        ("500 gr", "Write g for grams"),
        ("4.2 kgs", "Write kg."),
        ("2.1 T", "Write t for tonnes"),
        ("2 cwt", "a hundredweight is 100 lb or 112 lb"),
        ("20 bags", "Sizes of 'bags' differ: write what is in them, such as 500 kg for 20 bags"),
        ("1 Bag", "Sizes of 'Bag' differ"),
        ("3 bushels", "Sizes of 'bushels' differ"),
        ("2 drums/day", "Sizes of 'drums' differ"),
        ("3 slugs", "Unit 'slugs' is not known"),
        ("4 sticks", "Unit 'sticks' is not known"),
        ("500 kg/month", "Write days or weeks."),
        ("5 kilogrems", "is not known"),
        ("3 hive", "is not known"),
        ("nan kg", "Write a number"),
        ("inf kg", "Write a number"),
        ("-inf kg", "Write a number"),
        ("-3 kg", "It cannot be negative"),
        ("\N{MINUS SIGN}3 kg", "It cannot be negative"),
        ("99 t", "Check number and unit"),
        ("3 kg -1 kg", "Write a number and its unit"),
        ("1e9 kg", "Unit 'e' is not known"),
        ("", "Write a number and its unit"),
        ("kg", "Write a number and its unit"),
        ("3 __import__", "is not known"),
        ("9" * 200 + " kg", "Write it short"),
    ],
)
def test_traps_are_refused_with_a_cure(said: object, cure: str) -> None:
    """What could be misread is refused, and the message says what to write."""
    with pytest.raises(Refusal) as caught:
        MASS(said)

    assert cure in caught.value.cure
    assert "a mass from 0 kg to 60 t, such as 2.1 t" == caught.value.allowed


@pytest.mark.parametrize("measure", [MASS, VOLUME, TIME, LENGTH, SPEED, OVERTIME])
def test_no_unit_is_taken_that_people_use_in_many_sizes(measure: Measure) -> None:
    """Pint takes a bag for one of cement, 94 lb: 20 bags of sugar were 853 kg in place of 500."""
    for holder in ("bag", "barrels", "cup", "Drum", "sacks", "bushel", "pail", "drop", "jiffy"):
        with pytest.raises(Refusal):
            measure(f"1 {holder}")


def test_every_settled_unit_is_one_that_pint_knows() -> None:
    """Each measures something here, so that the list holds no word in vain."""
    for unit in sorted(_SETTLED):
        assert any(_reads(base, unit) for base in ("g", "ml", "min", "m", "m/h", "permille")), unit


def _reads(base: str, unit: str) -> bool:
    """Tell whether one of a unit is some of a base unit."""
    measure = Measure(phrase("some"), base, f"0 {base}", f"1000000 {base}", f"1 {base}")
    with suppress(Refusal):
        return measure(f"1 {unit}") >= 0
    return False


@pytest.mark.parametrize(
    ("measure", "said", "cure"),
    [
        (TANK_HOLDS, "1,000 L", "write '1000 L' if thousands are meant, or else '1.0 L'."),
        (SUGAR, "1,250 kg", "write '1250 kg' if thousands are meant, or else '1.25 kg'."),
        (VEHICLE_MOST, "7,720 lbs", "write '7720 lbs' if that is meant."),  # no truck of 3.5 kg
        (BOX_FULL, "13,600 kg", "write '13.6 kg' if that is meant."),  # no box of 13.6 t
        (SUGAR, "0,250 kg", "write '0.25 kg' if that is meant."),
        (SUGAR, "1,234,567 g", "write '1234567 g' if that is meant."),
        (SUGAR, "1,234.5 kg", "write '1234.5 kg' if that is meant."),
        (SUGAR, "1.234,5 kg", "write '1234.5 kg' if that is meant."),
        (SUGAR, "1,5 t, 3 kg", "write '1.5 t 3 kg' if that is meant."),
        (MASS, ",5 t", "write '.5 t' if that is meant."),
        (temperature, "12,500 degC", "write '12.5 degC' if that is meant."),
    ],
)
def test_a_comma_before_three_digits_may_part_thousands(
    measure: Callable[[object], int], said: str, cure: str
) -> None:
    """Both readings are told as far as both can be: 1.000 L for 1,000 L was a thousandth."""
    with pytest.raises(Refusal) as caught:
        measure(said)

    assert f"No commas: {cure}" == caught.value.cure


@pytest.mark.parametrize(
    ("reader", "said"),
    [
        (MASS, "99,999 t"),
        (BOX_FULL, "-3,5 kgs"),
        (BOX_FULL, "1,5 kg"),
        (Whole(0, 20_000, ("box", "boxes")), "-3,5x"),
        (Whole(1, 2000), "2,5"),
    ],
)
def test_no_figure_is_offered_that_would_be_refused_again(
    reader: Callable[[object], int], said: str
) -> None:
    """What is allowed stands beside it; the comma is told all the same."""
    with pytest.raises(Refusal) as caught:
        reader(said)

    assert "Write it without commas." == caught.value.cure


@pytest.mark.parametrize("said", ["1,2,3 kg", "5 ft, 3 in", "Sean, Mick"])
def test_other_commas_are_no_figures(said: str) -> None:
    """There is nothing to write in their place."""
    with pytest.raises(Refusal, match="Write a number and its unit"):
        LENGTH(said)


def test_gallons_need_a_nation() -> None:
    """A bare gallon is refused, an hour or a day as well: the imperial one is a fifth larger."""
    with pytest.raises(Refusal, match="Say UK gal or US gal"):
        VOLUME("6 gal")
    with pytest.raises(Refusal, match="Say UK gal or US gal"):
        PUMP("15 gal/min")
    assert (56_781, 68_191) == (PUMP("15 US gal/min"), PUMP("15 UK gal / min"))


@given(kilos=st.integers(0, 59_999), grams=st.integers(0, 999))
def test_kilograms_and_grams_agree(kilos: int, grams: int) -> None:
    """The same mass in kg, g or t is the same number of grams."""
    whole = kilos * 1000 + grams

    assert whole == MASS(f"{kilos}.{grams:03d} kg")
    assert whole == MASS(f"{whole} g")
    assert whole == MASS(f"{whole // 10**6}.{whole % 10**6:06d} t")


@given(pounds=st.decimals(0, 1000, places=3))
def test_rounding_directions(pounds: object) -> None:
    """Up and down differ by one at most and enclose the exact mass."""
    exact = Fraction(str(pounds)) * Fraction("453.59237")

    assert (ceil(exact), floor(exact)) == (MASS(f"{pounds} lb"), LESS(f"{pounds} lb"))


@given(said=st.text(max_size=80))
def test_any_text_is_read_or_refused(said: str) -> None:
    """No text makes the reader fail in another way than by a refusal."""
    whole = -1
    with suppress(Refusal):
        whole = MASS(said)

    assert -1 <= whole <= 60_000_000


@pytest.mark.parametrize(
    ("said", "tenths"),
    [("13 degC", 130), ("20 C", 200), ("50 degF", 100), ("55 °F", 128), ("-4 °C", -40)],
)
def test_temperatures(said: str, tenths: int) -> None:
    """A temperature needs its scale; 55 F is 12.8 C."""
    # (55 - 32) x 5 / 9 = 12.78
    assert tenths == temperature(said)


@pytest.mark.parametrize("said", ["20", "20 K", "300 degC", "12,5 degC", "warm", 21])
def test_no_temperature(said: object) -> None:
    """A bare number, kelvins and heat that no air has are refused."""
    with pytest.raises(Refusal, match="an air temperature"):
        temperature(said)


def test_shares_need_a_per_cent_sign() -> None:
    """0.8 could be 80 % or 0.8 %: only the sign tells."""
    assert 800 == share("80 %")
    assert 55 == share("5.5%")
    assert 900 == speed_factor("90 %")
    with pytest.raises(Refusal, match="The unit is missing"):
        share("0.8")
    with pytest.raises(Refusal, match="Check number and unit"):
        share("101 %")


@pytest.mark.parametrize(
    ("measure", "said", "words"),
    [
        (SUGAR, "3.000 kg", "'3.000 kg' is read as '3 kg'; write '3000 kg' if thousands are meant"),
        (SYRUP, " 1.250L", "'1.250L' is read as '1.25 L'; write '1250 L' if thousands are meant"),
        (
            SUGAR,
            "900.000 g",
            "'900.000 g' is read as '900 g'; write '900000 g' if thousands are meant",
        ),
    ],
)
def test_a_dot_that_may_part_thousands(measure: Measure, said: str, words: str) -> None:
    """Three kilograms of sugar and three tonnes are both allowed: how it was read is told."""
    assert words == measure.doubt(said)


@pytest.mark.parametrize(
    ("measure", "said", "cure"),
    [
        (VEHICLE_MOST, "3.500 kg", "It is read as '3.5 kg'; write '3500 kg' if thousands are"),
        (VEHICLE_MOST, "3'500 kg", "Write '3500 kg' if thousands are meant."),
        (VEHICLE_MOST, "3\u2019500kg", "Write '3500kg' if thousands are meant."),
        (VEHICLE_MOST, "3 500 kg", "Write '3500 kg' if thousands are meant."),
        (VEHICLE_MOST, "3\u00a0500 kg", "Write '3500 kg' if thousands are meant."),
        (VEHICLE_MOST, "3\u202f500.5 kg", "Write '3500.5 kg' if thousands are meant."),
        (VEHICLE_MOST, "3.500.000 g", "Write '3500000 g' if thousands are meant."),
        (VEHICLE_MOST, "1.250 kg 20 g", "Check number and unit."),
        (BOX_FULL, "130.600 kg", "Check number and unit."),  # no box either way
        (LENGTH, "5'300 mm", "Write '5300 mm' if thousands are meant."),
        (LENGTH, "5'3\"", "Write ft or min."),
        (LENGTH, "5' 10 in", "Write ft or min."),
        (LENGTH, "5'300\"", "Write ft or min."),
    ],
)
def test_thousands_as_papers_print_them(measure: Measure, said: str, cure: str) -> None:
    """Registration papers say 3.500 kg, 3'500 kg or 3 500 kg: what to write is told."""
    with pytest.raises(Refusal) as refused:
        measure(said)

    assert refused.value.cure.startswith(cure)


@pytest.mark.parametrize(
    ("measure", "said"),
    [
        (BOX_FULL, "13.600 kg"),  # a scale reads that out; no box weighs 13.6 t
        (VEHICLE_EMPTY, "1.250 t"),
        (SUGAR, "0.500 kg"),
        (SUGAR, "3.00 kg"),
        (SUGAR, "3.0000 kg"),
        (SUGAR, "1234.500 kg"),
        (SUGAR, "3 t 1.000 kg"),
        (SUGAR, "3000 kg"),
    ],
)
def test_a_dot_that_is_a_point(measure: Measure, said: str) -> None:
    """Where thousands would be absurd, or are not written so, nothing is told."""
    assert 0 < measure(said)
    assert measure.doubt(said) is None
