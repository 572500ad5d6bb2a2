"""The check table on the screen."""

from runplanner.office.numbers import Numbers, number_words, numbers
from runplanner.paperwork.speech.tongue import speaking
from runplanner.phrase import phrase
from runplanner.trade.check_row import CheckRow, Trap
from runplanner.trade.evidence import Evidence

SEEN = CheckRow(
    phrase("syrup"), phrase("density"), 1_286.6, 1_286.4, "kg/m3", 0.5, Evidence.OFFICIAL, "a table"
)
RECALLED = CheckRow(
    phrase("deck"), phrase("length"), 3_100, 3_000, "mm", 50, Evidence.MEMORY, "memory", True
)
TRAP = Trap(phrase("gravity"), 1.423, 1.4371, "", "a page", phrase("contradicts itself"))


def test_the_table_is_said_in_full() -> None:
    """Seen figures, the rest, the traps, and how many agree; each with its source."""
    assert [
        "Published figures, seen in their source",
        "  syrup",
        "    ok  density: ours 1286.6, published 1286.4 kg/m3 (within 0.5); a table [A]",
        "Figures whose source was not seen: worked out, from memory, or common practice",
        "  deck",
        "    OFF length: set to 3100, published 3000 mm (within 50); memory [M]",
        "Printed and wrong, so not used",
        "    gravity: printed 1.423, right 1.4371; a page: contradicts itself",
        "1 of 2 figures agree",
    ] == list(number_words(Numbers([SEEN, RECALLED], [TRAP])))


def test_a_table_holds_when_every_row_does() -> None:
    """One figure that is off is enough."""
    assert Numbers([SEEN], []).hold()
    assert not Numbers([SEEN, RECALLED], []).hold()


def test_the_true_table_holds() -> None:
    """Every figure of this release agrees with what was published."""
    table = numbers()

    assert table.hold()
    assert len(table.rows) > 20
    assert table.traps


def test_the_table_is_said_in_german() -> None:
    """Headings, quantities, words between the figures and decimal commas; sources stay as cited."""
    table = numbers()
    with speaking("de"):
        told = list(number_words(table))
    english = list(number_words(table))

    assert (
        "    ok  Dichte bei 60 % Zucker und 20 °C: hier 1286,61, veröffentlicht 1286,4 kg/m3 "
        in (line[: line.find("(")] for line in told)
    )
    assert "  Füttern und Streifen" in told
    assert not [ours for ours, theirs in zip(english, told, strict=True) if ours == theirs]
