"""A plan to text and back: nothing is lost, and whatever is not a plan is named."""

import json
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import reduce
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from runplanner.daybook.plan import SCHEMA, Plan
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.errors import Fault, ScenarioError
from runplanner.phrase import Number, Phrase, counted, joined, phrase, verbatim
from tests.outfits import an_outfit
from tests.paperwork.map_plans import a_plan
from tests.plans import an_empty_plan

Body = dict[str, Any]
BITS = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=2) | st.dictionaries(st.text(max_size=5), inner),
    max_leaves=4,
)


def body_of(plan: Plan) -> Body:
    """The plan as plain JSON values."""
    body: Body = json.loads(plan_text(plan))
    return body


def faults(body: object) -> tuple[Fault, ...]:
    """Every fault found in ``body`` when it is read as a plan."""
    with pytest.raises(ScenarioError) as caught:
        plan_from_text(json.dumps(body))
    return caught.value.faults


def spoilt(change: Callable[[Body], object]) -> tuple[Fault, ...]:
    """Every fault of the small plan after ``change`` to its JSON."""
    body = body_of(a_plan())
    change(body["plan"])
    return faults(body)


@pytest.mark.parametrize("plan", [an_empty_plan(), a_plan()], ids=["empty", "full"])
def test_a_plan_reads_back_as_itself(plan: Plan) -> None:
    """Text and back gives an equal plan, and the same text again."""
    text = plan_text(plan)

    assert plan == plan_from_text(text)
    assert text == plan_text(plan_from_text(text))


DEAR = phrase(
    "costs {cost}, worth {value} (all that is left at this yard)",
    cost=joined(" ", Number("12.05"), "NZD"), value=joined(" ", date(2027, 3, 4), 7),
)  # fmt: skip
COUNTED = counted("{number} yard by {who}", "{number} yards by {who}", 3, who="{who}")


@pytest.mark.parametrize("told", [DEAR, COUNTED, phrase("wind"), verbatim("rain")])
def test_a_reason_keeps_what_it_was_made_of(told: Phrase) -> None:
    """So a plan file can be printed in another language than it was planned in."""
    plan = a_plan()
    left = replace(plan.undone[0], why=(told,))
    back = plan_from_text(plan_text(replace(plan, undone=(left,)))).undone[0].why[0]

    assert told == back
    assert (told.one, told.many) == (back.one, back.many)
    assert repr(dict(told.parts)) == repr(dict(back.parts))
    assert [type(part) for part in told.parts.values()] == [type(p) for p in back.parts.values()]


def test_reasons_of_an_older_plan_file_are_read() -> None:
    """They were text alone; without anything put in they still are."""
    body = body_of(a_plan())
    body["plan"]["undone"][0]["why"] = ["rain", "said by hand {x}"]
    back = plan_from_text(json.dumps(body)).undone[0].why

    assert ("rain", "said by hand {x}") == back
    assert phrase("rain").one == back[0].one
    assert "rain" == body_of(replace_why(phrase("rain")))["plan"]["undone"][0]["why"][0]


def replace_why(told: Phrase) -> Plan:
    """The small plan with one reason."""
    plan = a_plan()
    return replace(plan, undone=(replace(plan.undone[0], why=(told,)),))


def _nested(depth: int) -> object:
    made: object = "x"
    for _ in range(depth):
        made = {"say": "{a}", "parts": {"a": made}}
    return made


@pytest.mark.parametrize(
    "raw",
    [
        3, None, [], {}, {"say": 3, "parts": {}}, {"say": "a", "parts": []},
        {"say": "a", "parts": {}, "more": 1}, {"say": "a", "parts": {"b": None}},
        {"say": "a", "parts": {"b": 1.5}}, {"say": "a", "parts": {"b": True}},
        {"say": "a", "parts": {"b": {"date": "soon"}}}, {"say": "a", "parts": {"b": {"date": 3}}},
        {"say": "a", "parts": {"b": {"number": 3}}}, {"say": "a", "parts": {"b": "\ud800"}},
        {"say": "a", "many": "b", "parts": {}}, {"say": "a", "many": "b", "parts": {"number": "3"}},
        {"say": "{a}{a}", "parts": {"a": "x"}}, _nested(20),
    ],
)  # fmt: skip
def test_a_reason_of_another_shape_is_a_fault_and_no_more(raw: object) -> None:
    """Too deep, said twice over, of other things than text, numbers and days."""
    (fault,) = spoilt(lambda plan: plan["undone"][0].update(why=[raw]))

    assert fault.where.startswith("plan.undone[0].why[0]")


@given(st.text(max_size=30))
def test_any_name_survives(name: str) -> None:
    """Whatever letters a name has (but halves of letters), it comes back as typed."""
    clean = name.encode("utf-8", "replace").decode("utf-8")
    plan = an_empty_plan(an_outfit([(1, 1)], title=clean))

    assert clean == plan_from_text(plan_text(plan)).outfit.title


def test_a_whole_number_may_stand_for_a_float() -> None:
    """A latitude of 0 is a latitude."""
    body = body_of(an_empty_plan())
    body["plan"]["outfit"]["places"][0]["lat"] = 0

    assert plan_from_text(json.dumps(body)).outfit.places[0].lat == pytest.approx(0)


@pytest.mark.parametrize(
    ("once", "twice", "named"),
    [
        ('"plan": {', '"plan": 3, "plan": {', "'plan' stands 2 times"),
        ('"now_min": 0', '"now_min": 0, "x": 1, "now_min": 2', "'now_min' stands 2 times"),
    ],
)
def test_a_key_that_stands_twice_is_named(once: str, twice: str, named: str) -> None:
    """The last one counted, unsaid."""
    text = plan_text(an_empty_plan())
    assert once in text
    with pytest.raises(ScenarioError, match=named):
        plan_from_text(text.replace(once, twice, 1))


@pytest.mark.parametrize(
    ("where", "typed", "allowed"),
    [
        ("bill", "[]", "an object"),
        ("bill.km", '"1"', "a whole number"),
        ("bill.km", "1.0", "a whole number"),
        ("bill.km", "true", "a whole number"),
        ("bill.tip", "1", "no such field"),
        ("shifts", "{}", "a list"),
        ("outfit.title", "7", "text"),
        ("outfit.title", r'"\ud800"', "UTF-8"),
        ("outfit.places[0].lat", "1e999", "a finite number"),
        ("outfit.places[0].lat", "1" + "0" * 400, "a finite number"),
        ("outfit.yards[0].clearing", '"smoke"', "boards | brush | blower | warm board"),
        ("outfit.yards[0].sites[0]", "[0]", "a list of 2"),
        ("outfit.yards[0].open_spans[0]", "7", "a list"),
        ("outfit.yards[0].access.four_wheel", '"no"', "true or false"),
    ],
)
def test_a_wrong_value_is_named_by_its_path(where: str, typed: str, allowed: str) -> None:
    """Each fault says where it stands in the file and what may stand there."""
    body = body_of(a_plan())
    *way, last = [int(key) if key.isdigit() else key for key in re.findall(r"\w+", where)]
    reduce(lambda holder, key: holder[key], way, body["plan"])[last] = "@@"

    with pytest.raises(ScenarioError) as caught:
        plan_from_text(json.dumps(body).replace('"@@"', typed))

    (fault,) = caught.value.faults
    assert f"plan.{where}" == fault.where
    assert allowed in fault.allowed


def test_a_lacking_value_is_named() -> None:
    """A field that is not there is a fault with its path."""
    (fault,) = spoilt(lambda plan: plan.pop("bill"))

    assert ("plan.bill", "a value") == (fault.where, fault.allowed)


def test_all_faults_come_at_once() -> None:
    """Three wrong values in three places are three faults, in the order of the file."""

    def change(plan: Body) -> None:
        plan["outfit"]["title"] = None
        plan["bill"]["km"] = "x"
        plan["now_min"] = []

    assert ["plan.outfit.title", "plan.bill.km", "plan.now_min"] == [
        fault.where for fault in spoilt(change)
    ]


@pytest.mark.parametrize("body", [None, 7, "plan", [], {}, {"schema": "other/1"}, {"schema": 1}])
def test_what_has_no_schema_of_ours_is_refused(body: object) -> None:
    """A file of another kind is told by its schema, which is the one fault."""
    (fault,) = faults(body)

    assert SCHEMA == fault.allowed


def test_a_plan_without_a_plan_is_refused() -> None:
    """The right schema around nothing is a fault as well."""
    (fault,) = faults({"schema": SCHEMA})

    assert ("plan", "an object") == (fault.where, fault.allowed)


def paths(value: object, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """Every spot of a JSON value, as the keys that lead to it."""
    inner: list[tuple[str | int, Any]] = []
    if isinstance(value, dict):
        inner = list(value.items())
    elif isinstance(value, list):
        inner = list(enumerate(value))
    return [path, *(spot for key, one in inner for spot in paths(one, (*path, key)))]


SMALL = body_of(a_plan())
SPOTS = [spot for spot in paths(SMALL) if spot]


@settings(suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(st.sampled_from(SPOTS), BITS)
def test_any_spoilt_spot_is_read_or_refused(spot: tuple[str | int, ...], bit: object) -> None:
    """One value anywhere replaced by any other: a plan that can be written, or faults."""
    body = json.loads(json.dumps(SMALL))
    holder = body
    for key in spot[:-1]:
        holder = holder[key]
    holder[spot[-1]] = bit

    try:
        plan = plan_from_text(json.dumps(body))
    except ScenarioError as error:
        said: list[str] = [fault.sentence() for fault in error.faults]
    else:
        said = [plan_text(plan)]
    assert all(said)
