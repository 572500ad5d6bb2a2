"""The planner's own trips on published routing instances whose optima are known."""

from pathlib import Path

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.season.plan_season import plan_season
from tests.season.published import P_N16_K8, Instance, as_outfit, exact, parsed, read, wheel


def best_of(instance: Instance, seeds: int, rounds: int) -> Plan:
    """The cheapest of a few searches; no more are made once the optimum is reached."""
    found: list[Plan] = []
    for seed in range(1, seeds + 1):
        plan = plan_season(as_outfit(instance), seed=seed, rounds=rounds)
        assert () == audit(plan)
        assert (0, 0) == (plan.tally.not_off, plan.tally.no_strips)
        assert plan.bound.cents <= instance.optimum <= plan.bill.total()
        found.append(plan)
        if plan.bill.total() == instance.optimum:
            break
    return min(found, key=lambda plan: plan.bill.total())


def test_the_written_out_instance_has_its_optimum() -> None:
    """Dynamic programming over sets of customers gives 450 for P-n16-k8, as published."""
    instance = parsed(P_N16_K8)

    assert ("P-n16-k8", 450, 35, 16) == (
        instance.name,
        instance.optimum,
        instance.capacity,
        len(instance.points),
    )
    assert 450 == exact(instance)


@pytest.mark.no_cover  # as in test_any_outfit.py
def test_a_published_optimum_is_reached() -> None:
    """Fifteen yards of one colony, boxes for demands, a cent a kilometre: 4.50 in eight trips."""
    plan = best_of(parsed(P_N16_K8), seeds=4, rounds=500)

    assert (450, 450) == (plan.bill.km, plan.bill.total())
    assert 8 == sum(len(shift.trips) for shift in plan.shifts)


@pytest.fixture(scope="module")
def archive(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The pinned wheel with more instances; skips, and says so, without a network."""
    found = wheel(tmp_path_factory.mktemp("published"))
    if found is None:
        pytest.skip("no network: only the written-out instance was tried, NOT those of the wheel")
    return found


@pytest.mark.slow
def test_the_written_out_instance_is_the_published_one(archive: Path) -> None:
    """The text here and the file in the wheel are the same instance."""
    assert read(archive, "P-n16-k8") == parsed(P_N16_K8)


@pytest.mark.slow
@pytest.mark.parametrize(("name", "optimum"), [("P-n19-k2", 212)])
def test_larger_published_optima_are_reached(archive: Path, name: str, optimum: int) -> None:
    """Eighteen customers in two long trips."""
    instance = read(archive, name)

    assert optimum == instance.optimum
    assert optimum == best_of(instance, seeds=8, rounds=700).bill.total()
