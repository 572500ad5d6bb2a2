"""The kinds of quantity a scenario holds, each with its sane limits and rounding direction."""

from typing import Final

from runplanner.phrase import phrase
from runplanner.scenario.values.quantities import Measure

VEHICLE_EMPTY: Final = Measure(phrase("a mass"), "g", "100 kg", "40 t", "2.1 t")
VEHICLE_MOST: Final = Measure(phrase("a mass"), "g", "300 kg", "60 t", "3.5 t", up=False)
AXLE_LEAST: Final = Measure(phrase("a mass"), "g", "0 kg", "20 t", "1.1 t")
NOSE_EMPTY: Final = Measure(phrase("a mass"), "g", "0 kg", "500 kg", "40 kg")
ABOARD: Final = Measure(phrase("a mass"), "g", "0 kg", "3 t", "70 kg")
PERSON: Final = Measure(phrase("a mass"), "g", "40 kg", "200 kg", "85 kg")
BOX_FULL: Final = Measure(phrase("a mass"), "g", "2 kg", "80 kg", "16 kg")
BOX_EMPTY: Final = Measure(phrase("a mass"), "g", "1 kg", "30 kg", "4.5 kg")
GOODS: Final = Measure(phrase("a mass"), "g", "1 g", "50 kg", "1.5 kg")
TANK_EMPTY: Final = Measure(phrase("a mass"), "g", "100 g", "2 t", "60 kg")
STORES: Final = Measure(phrase("a mass"), "g", "0 kg", "60 kg", "15 kg", up=False)
TARGET: Final = Measure(phrase("a mass"), "g", "0 kg", "60 kg", "15 kg")
HEFTED: Final = Measure(phrase("a mass"), "g", "5 kg", "200 kg", "38 kg", up=False)
HIVE_PARTS: Final = Measure(phrase("a mass"), "g", "1 kg", "80 kg", "12.7 kg")
FRAME: Final = Measure(phrase("a mass"), "g", "0.2 kg", "6 kg", "2.2 kg", up=False)
SUGAR: Final = Measure(phrase("a mass"), "g", "0 kg", "1000 t", "3 t", up=False)
DAY_USE: Final = Measure(phrase("a mass a day"), "g/day", "10 g/day", "5 kg/day", "500 g/day")
STORES_MADE: Final = Measure(phrase("a mass"), "g", "0.5 kg", "1.3 kg", "1.1 kg", up=False)
DENSITY: Final = Measure(phrase("a mass a litre"), "g/L", "1 kg/L", "1.45 kg/L", "1.33 kg/L")

FEEDER: Final = Measure(phrase("a volume"), "ml", "0.25 L", "60 L", "10 L", up=False)
TANK_HOLDS: Final = Measure(phrase("a volume"), "ml", "1 L", "30 m3", "1000 L", up=False)
SYRUP: Final = Measure(phrase("a volume"), "ml", "0 L", "1000 m3", "500 L", up=False)
POUR: Final = Measure(phrase("a volume"), "ml", "10 ml", "20 L", "0.5 L")
UPTAKE: Final = Measure(
    phrase("a volume a day"), "ml/day", "50 ml/day", "20 L/day", "2 L/day", up=False
)
MIX_DAY: Final = Measure(
    phrase("a volume a day"), "ml/day", "1 L/day", "200 m3/day", "1000 L/day", up=False
)
MIX_HOUR: Final = Measure(
    phrase("a volume an hour"), "ml/hour", "1 L/h", "50 m3/h", "200 L/h", up=False
)
PUMP: Final = Measure(
    phrase("a volume a minute"), "ml/min", "1 L/min", "5 m3/min", "50 L/min", up=False
)

DECK: Final = Measure(phrase("a length"), "mm", "0.3 m", "20 m", "3.1 m", up=False)
STACK: Final = Measure(phrase("a height"), "mm", "0.1 m", "4 m", "1.2 m", up=False)
DRAWBAR: Final = Measure(phrase("a length"), "mm", "0.5 m", "10 m", "3.2 m")
WHEELBASE: Final = Measure(phrase("a length"), "mm", "1 m", "10 m", "3.4 m")
DECK_STARTS: Final = Measure(phrase("a length"), "mm", "0 m", "10 m", "1.1 m")
VEHICLE_WIDTH: Final = Measure(phrase("a width"), "mm", "0.5 m", "4 m", "2.1 m")
GATE_WIDTH: Final = Measure(phrase("a width"), "mm", "1 m", "20 m", "2.5 m", up=False)
FOOTPRINT: Final = Measure(phrase("a length"), "mm", "50 mm", "3 m", "508 mm")
RADIUS: Final = Measure(phrase("a distance"), "m", "10 m", "200 km", "3 km")
ROAD: Final = Measure(phrase("a distance"), "m", "0 km", "3000 km", "12.4 km")
SPEED: Final = Measure(phrase("a speed"), "m/hour", "5 km/h", "130 km/h", "50 km/h", up=False)

WORK_S: Final = Measure(phrase("a time"), "s", "0 s", "3 h", "2 min")
WORK_MIN: Final = Measure(phrase("a time"), "min", "0 min", "10 h", "10 min")
DRIVE: Final = Measure(phrase("a time"), "min", "0 min", "48 h", "25 min")
SHIFT: Final = Measure(phrase("a time"), "min", "15 min", "24 h", "8 h", up=False)
LAG_LEAST: Final = Measure(phrase("a time"), "min", "0 h", "14 days", "12 h")
LAG_MOST: Final = Measure(phrase("a time"), "min", "1 h", "90 days", "72 h", up=False)
DAYS: Final = Measure(phrase("a time"), "day", "0 days", "365 days", "42 days")
# Densities of honey are known in these limits (see trade.honey).
HONEY_WATER: Final = Measure(phrase("a share of water"), "permille", "13 %", "25 %", "17.5 %")
OVERTIME: Final = Measure(phrase("a share"), "permille", "0 %", "200 %", "50 %")
