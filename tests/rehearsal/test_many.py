"""Tests of many plays: the same numbers wherever they are played, kept and taken up again."""

from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.daybook.played import Played, nine_in_ten
from runplanner.errors import RunplannerError, ScenarioError
from runplanner.rehearsal import many
from runplanner.rehearsal.many import kept, key_of, rehearsed
from runplanner.rehearsal.play import Rehearsal, played
from tests.rehearsal.small import small_plan


def told() -> Rehearsal:
    """A short rehearsal."""
    return Rehearsal(small_plan(), rounds=3, hindsight=0)


def test_two_cores_come_to_the_same_as_one() -> None:
    """Byte for byte: the lines that are kept are equal."""
    one, two = rehearsed(told(), 4), rehearsed(told(), 4, workers=2)

    assert [p.line("k") for p in one] == [p.line("k") for p in two]
    assert [0, 1, 2, 3] == [p.play for p in one]


def test_a_cluster_comes_to_the_same_as_one_core() -> None:
    """A local Dask cluster on loopback: the same lines."""
    distributed = pytest.importorskip("distributed", reason="the extra 'cluster' is missing")
    one = rehearsed(told(), 3)
    with distributed.LocalCluster(
        n_workers=1,
        threads_per_worker=1,
        processes=False,
        protocol="tcp://",
        host="127.0.0.1",
        dashboard_address=None,
    ) as cluster:
        far = rehearsed(told(), 3, cluster=cluster.scheduler_address)

    assert [p.line("k") for p in one] == [p.line("k") for p in far]


def test_nobody_at_the_cluster_s_address_is_said() -> None:
    """An address of no sense is refused in words."""
    pytest.importorskip("distributed", reason="the extra 'cluster' is missing")

    with pytest.raises(RunplannerError, match="No cluster answers"):
        rehearsed(told(), 1, cluster="nonsense://127.0.0.1:1")


def test_what_was_played_is_not_played_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Three plays kept, then five asked for: two are played, the file only grows."""
    file = tmp_path / "sub" / "plays.jsonl"
    first = rehearsed(told(), 3, file=file)
    before = file.read_text("utf-8")
    asked: list[int] = []

    def noted(one: Rehearsal, number: int) -> Played:
        asked.append(number)
        return played(one, number)

    monkeypatch.setattr(many, "played", noted)
    news: list[tuple[int, int]] = []
    again = rehearsed(told(), 5, file=file, listener=lambda _, n, of: news.append((n, of)))

    assert [3, 4] == asked
    assert [(4, 5), (5, 5)] == news
    assert first == again[:3]
    assert file.read_text("utf-8").startswith(before)


def test_a_torn_line_is_played_again(tmp_path: Path) -> None:
    """A line torn off by a power cut is passed over, and the next begins on a fresh one."""
    file = tmp_path / "plays.jsonl"
    whole = rehearsed(told(), 2, file=file)
    text = file.read_bytes()
    file.write_bytes(text[:-40])

    assert whole == rehearsed(told(), 2, file=file)
    assert 2 == len(kept(file, key_of(told())))
    assert 3 == len(file.read_text("utf-8").splitlines())


def test_the_mark_changes_with_all_that_matters() -> None:
    """Another seed, luck, effort or plan is another rehearsal; its plays are passed over."""
    base = told()
    others = [
        replace(base, seed=2), replace(base, rounds=4), replace(base, hindsight=1),
        replace(base, luck=replace(base.luck, work_permille=1)),
        replace(base, plan=replace(base.plan, now_min=1)),
    ]  # fmt: skip

    assert 6 == len({key_of(one) for one in (base, *others)})


def test_lines_of_others_are_passed_over(tmp_path: Path) -> None:
    """Another key, no JSON, no object, a figure that is none."""
    play = rehearsed(told(), 1)[0]
    line = play.line("mine")

    assert play == Played.from_line(line, "mine")
    for other in ("", "[1]", line.replace("mine", "other"), line.replace('"trips": ', '"trip": ')):
        assert Played.from_line(other, "mine") is None
    assert Played.from_line(line.replace('"play": 0', '"play": "0"'), "mine") is None
    assert Played.from_line("[" * 300_000, "mine") is None
    assert "-1" in line
    for wrong in (-5, 10**40):
        assert Played.from_line(replace(play, trips=wrong).line("mine"), "mine") is None
        assert Played.from_line(replace(play, bound_cents=wrong).line("mine"), "mine") is None
    with pytest.raises(ScenarioError):
        kept(tmp_path, "mine")


def test_ranks_are_nearest_ranks() -> None:
    """Of 1 to 10 the 0.9-quantile is the 9th, of 1 to 11 the 10th (ceil 9.9)."""
    assert 9 == nine_in_ten(list(range(10, 0, -1)))
    assert 10 == nine_in_ten(list(range(1, 12)))
    assert 0 == nine_in_ten([])
