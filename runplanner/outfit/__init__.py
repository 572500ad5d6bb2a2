"""The facts: one beekeeper's whole operation, as plain frozen values in whole units.

Mass is in grams (``_g``), volume in millilitres (``_ml``), time in minutes or seconds
(``_min``, ``_s``), distance in metres (``_m``), size in millimetres (``_mm``), money in
cents (``_cents``) and shares in per mille (``_permille``).  Whole numbers, so that a plan
is the same to the last digit on every machine.
"""
