"""The stops of a plan, put in order once."""

from dataclasses import replace

from runplanner.daybook.stops import stops, stops_at
from tests.running import running_plan


def test_papers_that_ask_again_get_the_same_row() -> None:
    """Put in order once for a plan, however many papers ask; another plan has its own."""
    one = running_plan()

    assert stops(one) is stops(one)
    assert stops_at(one, one.outfit.yards[0].id) is stops_at(one, one.outfit.yards[0].id)
    assert () == stops(replace(one, shifts=()))


def test_a_yard_s_stops_are_its_own_in_order() -> None:
    """All stops of all yards are the plan's; a place without any has none."""
    one = running_plan()
    by_yard = [stop for yard in one.outfit.yards for stop in stops_at(one, yard.id)]

    assert by_yard
    assert len(stops(one)) == len(by_yard)
    assert all(
        [stop for stop in stops(one) if stop.call.yard == yard.id] == [*stops_at(one, yard.id)]
        for yard in one.outfit.yards
    )
    assert () == stops_at(one, "nowhere")
