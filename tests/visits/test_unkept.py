"""How many promised visits are not kept, each visit keeping one of them at most."""

import pytest

from runplanner.visits.stop import Stop, unkept

FEW, MANY = Stop(0, off=4, boxes=6), Stop(0, off=5, boxes=8)
FED = Stop(0, round=1, fed=10)


@pytest.mark.parametrize(
    ("promised", "stops", "broken"),
    [
        ((), (), 0),
        ((FEW,), (), 1),
        ((FEW,), (MANY,), 0),
        ((MANY,), (FEW,), 1),
        ((FEW, FEW), (FEW,), 1),
        ((FEW, MANY), (MANY,), 1),
        ((Stop(0, off=5, boxes=10), Stop(0, off=5, boxes=11)), (Stop(0, off=5, boxes=10),), 1),
        # The greater visit alone keeps the greater promise, whichever is asked first.
        ((FEW, MANY), (MANY, FEW), 0),
        ((FEW, MANY), (FEW, MANY), 0),
        ((MANY, FEW), (MANY, FEW), 0),
        ((FEW, MANY, FED), (MANY, FEW), 1),
        ((FEW, FEW, MANY), (MANY, MANY), 1),
    ],
)
def test_each_visit_keeps_one_promise(
    promised: tuple[Stop, ...], stops: tuple[Stop, ...], broken: int
) -> None:
    """As many are kept as any matching of visits to promises keeps."""
    assert broken == unkept(promised, stops)
