"""Whatever a plan says, the audit answers; and hardly a figure of a plan can be off by one."""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from runplanner.audit.audit import RULES, audit
from runplanner.daybook.plan import Mixing, Plan, Spinning
from runplanner.daybook.trip import Shift
from runplanner.days import Span
from runplanner.outfit.outfit import Outfit
from tests.audit.plans import PLANS, far_away, plain, with_trailer
from tests.audit.planted import edited, put
from tests.audit.spoil import spoilt

PARTS = {
    "shifts": tuple[Shift, ...],
    "spinning": tuple[Spinning, ...],
    "mixing": tuple[Mixing, ...],
    "outfit": Outfit,
}


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_never_raises(data: st.DataObject) -> None:
    """A good plan spoilt in up to four spots gives findings of known rules, no exception."""
    plan = data.draw(st.sampled_from([make() for make in PLANS.values()]))

    def pick(choices: Any) -> Any:
        return data.draw(st.sampled_from(choices))

    for _ in range(data.draw(st.integers(1, 4))):
        part = pick(sorted(PARTS))
        plan = replace(plan, **{part: spoilt(getattr(plan, part), PARTS[part], pick)})

    for finding in audit(plan):
        assert finding.rule in RULES
        assert "\n" not in finding.sentence()


def test_empty_plan_of_work_is_all_undone() -> None:
    """A plan that does nothing is judged as well: all is undone, nothing else is said of trips."""
    plan = replace(plain(), shifts=(), spinning=(), mixing=())

    assert {
        "bill",
        "tally",
        "undone",
    } == {finding.rule for finding in audit(plan)}


def test_hostile_names_stay_on_one_short_line() -> None:
    """Names with line ends, markup and ten thousand characters do not swell a sentence."""
    hostile = "=HYPERLINK()\n<img onerror=alert(1)>\u202e{{7*7}}" + "x" * 10_000
    spoilt_plan = edited(
        plain(),
        {
            "shifts.0.trips.0.id": hostile,
            "shifts.0.truck": hostile,
            "shifts.1.crew": (hostile,),
            "shifts.1.trips.0.calls.1.yard": hostile,
        },
    )

    sentences = [finding.sentence() for finding in audit(spoilt_plan)]

    assert 3 == len(sentences)
    assert all(sentence.isprintable() and len(sentence) < 300 for sentence in sentences)


def figures(value: Any, path: str) -> Iterator[str]:
    """Paths of all whole numbers in a part of a plan."""
    if isinstance(value, int) and not isinstance(value, bool):
        yield path
    elif is_dataclass(value):
        for field in fields(value):
            yield from figures(getattr(value, field.name), f"{path}.{field.name}")
    elif isinstance(value, tuple):
        for number, item in enumerate(value):
            yield from figures(item, f"{path}.{number}")


def stepped(plan: Plan, path: str, step: int) -> Plan:
    """The plan with one figure moved."""
    head, _, last = path.rpartition(".")
    if ".breaks." not in path:
        return edited(plan, {path: lambda old: old + step})
    return edited(plan, {head: lambda old: Span(*put(tuple(old), last, old[int(last)] + step))})


def may_move(path: str, step: int) -> bool:
    """Margins may be stated smaller."""
    return step < 0 and path.endswith(("latest_leave_min", "boxes_limit"))


@pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these
@pytest.mark.parametrize("make", [with_trailer, far_away], ids=lambda make: make.__name__)
def test_no_figure_can_be_off_by_one(make: Any) -> None:
    """Any figure of the day's work, the bill or the tally moved by one gives a finding."""
    plan = make()
    unseen = [
        (path, step)
        for part in ("shifts", "spinning", "mixing", "undone", "tally", "bill")
        for path in figures(getattr(plan, part), part)
        for step in (-1, 1)
        if not audit(stepped(plan, path, step)) and not may_move(path, step)
    ]

    assert [] == unseen


def test_same_plan_same_findings() -> None:
    """Two audits of one bad plan say the same in the same order."""
    bad = edited(plain(), {"outfit.yards.0.colonies": 9, "shifts.0.crew": ("bob",)})

    assert audit(bad) == audit(bad)
