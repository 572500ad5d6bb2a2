"""True counts in the words of a phone text, and with a reason behind them."""

import re
from pathlib import Path

import pytest

from runplanner.changes.said.count_words import read_counts
from runplanner.changes.said.line import Line
from runplanner.daybook.text import plan_from_text
from runplanner.errors import ScenarioError
from runplanner.scenario.faults import Refusal
from tests.running import put_in

BOTH = "0304-truck2-0716"
LATE = "Thu 4 Mar 19:00"
SAMPLE = Path(__file__).parents[2] / "maps_out" / "sample"
STOP = re.compile(r"[1-9] (.+) [0-9:]{5}-[0-9:]{5} \(latest [0-9:]{5}\): (.+)")


def test_every_stop_of_the_sample_can_be_told_in_its_own_words() -> None:
    """A phone text typed back as it stands counts just what was planned."""
    plan = plan_from_text((SAMPLE / "plan.json").read_text(encoding="utf-8"))
    trips = [trip for shift in plan.shifts for trip in shift.trips]
    names = {(trip.id, plan.outfit.yard(call.yard).name) for trip in trips for call in trip.yards()}
    days = sorted((SAMPLE / "phone").iterdir())
    told = [
        f"done {trip} {stop[1]}: {stop[2]}"
        for day in days
        for line in day.read_text(encoding="utf-8").splitlines()
        if (stop := STOP.fullmatch(line))
        for trip, name in sorted(names)
        if name == stop[1] and trip.startswith(day.stem[5:].replace("-", ""))
    ]
    facts = put_in(*told, now="Thu 4 Mar 20:00", plan=plan)

    assert len(names) == len(told)
    assert () == facts.presumed
    assert trips == [trip for shift in facts.plan.shifts for trip in shift.trips]


@pytest.mark.parametrize(
    ("said", "counts"),
    [
        ("off 20 col (nos 1-20) 34 bx (18 boards back), feed 15 col 120 L (8 L each), no strips",
         {"colonies": 20, "boxes": 34, "fed": 15, "ml": 120_000, "strips": 0}),
        ("off 12 col 20 bx with a brush (10 brood boxes)",
         {"colonies": 12, "boxes": 20, "way": 0, "brood": 10}),
        ("off 12 col 20 bx with the blower, no boards, block 12 (2 each)",
         {"colonies": 12, "boxes": 20, "way": 1, "blocks": 12}),
        ("off 20 col 30 bx with warm boards, feed 20 col 130 L (6.5 L each)",
         {"colonies": 20, "boxes": 30, "fed": 20, "ml": 130_000}),
        ("condense 10 col (nos 1-10) (4 brood boxes), block 10",
         {"colonies": 10, "boxes": 0, "brood": 4, "blocks": 10}),
        ("boards 12: condense 10 col", {"boards": 12, "boxes": 0, "colonies": 10}),
        ("20 boxes, condense 10 col", {"boxes": 20, "colonies": 10}),
        ("off 9 col 14 bx from the boards, strips 18", {"colonies": 9, "boxes": 14, "strips": 18}),
        ("strips 24 (nos 1-12), boards 12, max 37 full aboard (8 fewer if not all off)",
         {"strips": 24, "boards": 12}),
        ("strips 24 thymol, further block 6", {"strips": 24, "blocks": 6}),
        ("strips, 20 fed", {"strips": -1, "fed": 20}),
        ("strips 20 fed", {"strips": -1, "fed": 20}),
        ("strips: 40", {"strips": 40}),
        ("feeders off 8, wet boxes up 9", {"feeders": 8, "wet": 9}),
        ("20 boards: two broken", {"boards": 20}),
        ("20 colonies 33 boxes : rain, 3 colonies weak", {"colonies": 20, "boxes": 33}),
        ("20 colonies: 33 boxes", {"colonies": 20, "boxes": 33}),
        ("off: 20 col 33 bx, feed: 20 col 160 L",
         {"colonies": 20, "boxes": 33, "fed": 20, "ml": 160_000}),
    ],
)  # fmt: skip
def test_what_is_counted(said: str, counts: dict[str, int]) -> None:
    """Numbers before or behind their words, remarks in brackets, a reason behind a colon."""
    assert counts == read_counts(Line(said), "thymol")


@pytest.mark.parametrize(
    "said", ["20 colonies: 33 boxs", "strips 24 amitraz", "20 boards: 2 boards broken"]
)
def test_what_may_be_a_count_is_never_taken_for_a_reason(said: str) -> None:
    """A slip behind a colon is refused, and so are strips of another substance."""
    with pytest.raises(Refusal):
        read_counts(Line(said), "thymol")


def test_counts_behind_brackets_are_counted() -> None:
    """Six fed and no strips, as typed; behind brackets it was presumed as planned, unsaid."""
    said = f"done {BOTH} Fernbank: off 10 col 15 bx{{}}, feed 6 col, no strips"
    told, plain = (put_in(said.format(by), now=LATE) for by in (" (0 boards back)", ""))

    assert (plain.plan, plain.outfit, plain.notes) == (told.plan, told.outfit, told.notes)
    with pytest.raises(ScenarioError):
        put_in(f"done {BOTH} Fernbank: nothing (rain), 6 colonies", now=LATE)
