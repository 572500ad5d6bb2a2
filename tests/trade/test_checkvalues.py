"""Values people look up first, typed here a second time: each has its row in the check table.

They stand apart from the rows, so that a slip of the pen in the one is caught by the other.
"""

import pytest

from runplanner.trade.check_row import CheckRow
from runplanner.trade.checks import check_table

ROWS: dict[str, CheckRow] = {}
for _row in check_table():
    ROWS.setdefault(_row.quantity, _row)

# Quantity, value, tolerance; sources stand in the rows.
LOOKED_UP = (
    ("density of 10 % sugar at 20 C", 1038.1, 0.5),
    ("density of 30 % sugar at 20 C", 1127.0, 0.5),
    ("density of 50 % sugar at 20 C", 1229.5, 0.5),
    ("density of 60 % sugar at 20 C", 1286.4, 0.5),
    ("density of 66 % sugar at 20 C", 1322.4, 0.5),
    ("density of 70 % sugar at 20 C", 1347.2, 0.5),
    ("sugar in a litre of 50 % syrup", 614.8, 0.5),
    ("sugar in a litre of 60 % syrup", 771.9, 0.5),
    # Between the two sources: 66.72 (Bubnik and Kadlec) and 67.09 (CRC).
    ("sugar that dissolves at 20 C", 66.9, 0.4),
    ("1 kg + 630 ml, litres per kg sugar", 1.256, 0.005),
    ("2 lb + 1 UK pint, litres per kg sugar", 1.256, 0.005),
    ("mass of a litre of 2:1", 1.335, 0.03),
    ("1 kg sugar + 0.7 L water", 1.3, 0.03),
    ("50 kg sugar + 30 L water", 60, 1.8),
    ("one US gallon of 1:1", 10, 0.3),
    ("a litre of 72.4 % syrup", 1.365, 0.014),
    ("water in honey of refractive index 1.4940", 17.0, 0.1),
    ("water in honey of refractive index 1.4865", 20.0, 0.1),
    ("full BS deep frame", 2.3, 0.23),
    ("full BS 14 x 12 frame", 3.5, 0.2),
    ("most water in honey", 20, 0),
    ("GB domestic, driving in a day", 10, 0),
    ("GB domestic, duty in a day", 11, 0),
    ("farming radius, straight line", 100, 0),
    ("restraint forward", 0.8, 0),
    ("restraint sideways", 0.5, 0),
    ("restraint rearward", 0.5, 0),
    ("sugar for 6 colonies x 5 kg at 1.2 kg stores per kg", 25, 0.01),
    ("4 months with brood and 3 without", 15, 0),
    ("spin within, where beetle lives", 72, 24),
    ("stores from a kg of sugar as 1:1", 0.896, 0.045),
    ("stores from a kg of sugar as 3:2", 1.075, 0.05),
    ("stores from a kg of sugar as 2:1", 1.124, 0.05),
    ("full BS deep frames for 20 kg", 9, 0),
)


@pytest.mark.parametrize(("quantity", "value", "tolerance"), LOOKED_UP)
def test_a_value_looked_up_has_its_row(quantity: str, value: float, tolerance: float) -> None:
    """Our figure is within the tolerance of the value, and the row is no laxer than that."""
    row: CheckRow = ROWS[quantity]
    assert abs(row.ours - value) <= tolerance + 1e-9
    assert abs(row.published - value) <= tolerance + 1e-9
    assert row.source
