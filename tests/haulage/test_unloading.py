"""Where a trip unloads."""

import pytest

from runplanner.haulage.unloading import unloadings

HOUSE, STORE, BOTH = (True, False), (False, True), (True, True)


@pytest.mark.parametrize(
    ("honey", "others", "kit", "apart", "one_place"),
    [
        (0, 0, False, [(*STORE, 0)], [(*STORE, 0)]),
        (0, 4, False, [(*STORE, 4)], [(*STORE, 4)]),
        (0, 0, True, [(*STORE, 0)], [(*STORE, 0)]),
        (9, 0, False, [(*HOUSE, 9)], [(*HOUSE, 9)]),
        (9, 4, False, [(*HOUSE, 9), (*STORE, 4)], [(*BOTH, 13)]),
        (9, 0, True, [(*HOUSE, 9), (*STORE, 0)], [(*BOTH, 9)]),
    ],
)
def test_honey_comes_first_and_all_else_goes_to_the_store(
    honey: int,
    others: int,
    kit: bool,  # noqa: FBT001
    apart: list[tuple[bool, bool, int]],
    one_place: list[tuple[bool, bool, int]],
) -> None:
    """A truck without honey comes home by the store; one place is one call for all."""
    assert apart == list(unloadings(honey, others, kit=kit, apart=True))
    assert one_place == list(unloadings(honey, others, kit=kit, apart=False))
