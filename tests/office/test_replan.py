"""replan and trace by the command line: changes in, papers out, all in words."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.audit.findings import Finding
from runplanner.changes.typed import changed, typed_changes
from runplanner.cli import Exit, main
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_text
from runplanner.daybook.trip import Job
from runplanner.errors import PlanError, ScenarioError
from runplanner.office.campaign import Effort, publish_plan, read_plan
from runplanner.office.replan import (
    Choice,
    change_papers,
    choice_words,
    choices,
    replan_campaign,
)
from runplanner.office.rooms import Rooms
from runplanner.phrase import phrase, verbatim
from runplanner.scenario import read_scenario
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from runplanner.season.watch import Listener, Progress
from tests.audit.planted import edited
from tests.running import running_plan
from tests.scenario.folders import a_folder

NOW = ("--now", "Thu 4 Mar 13:30")
SECOND = "0305-truck2-0715"


@pytest.fixture
def plan_file(tmp_path: Path) -> Path:
    """The running plan as a file."""
    path = tmp_path / "plan.json"
    path.write_text(plan_text(running_plan()), encoding="utf-8")
    return path


def replan(plan: Path, *words: str, rooms: Rooms | None = None) -> int:
    """Run the verb, results beside the plan."""
    return main(
        ["replan", str(plan), *words, "--rounds", "2", "--out", str(plan.parent / "out")], rooms
    )


def test_bought_syrup_without_an_amount_does_for_yards_told_later(tmp_path: Path) -> None:
    """One yard at a standstill is told as sound, and one is new: both are fed, nothing is short.

    Once 50 L are counted there is no more than that, for whoever counts tells what is there.
    """
    yards = "name,lat,lon,colonies,boxes,health\nMill,-38.01,175.06,12,20,\n"
    yards += "Gate,-38.05,175.10,12,20,standstill\n"
    folder = a_folder(tmp_path, "[feed]\nready_made = true\n", yards=yards)
    plan = plan_season(read_scenario(folder), rounds=1)
    lines = ["sound Gate", "new yard Ford at -38.03 175.08: 10 colonies 12 boxes"]

    made = replan_campaign(plan, lines, now="Mon 05:00", effort=Effort(rounds=2))
    counted = changed(plan, typed_changes(["syrup left 50 L"], "Mon 05:00")).outfit

    assert ["gate"] == [one.yard for one in plan.undone if one.job is Job.FEED]
    assert () == made.outcome.plan.undone
    assert (True, False) == (plan.outfit.open_end("syrup"), counted.open_end("syrup"))
    assert counted.feed.ready_ml == 50_000


def test_a_shut_window_is_planned_around(
    plan_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The summary says what moved; papers, change sheet and an audited plan lie in the folder."""
    assert Exit.OK == replan(plan_file, "shut Old Mill Fri: rain", *NOW)

    out = capsys.readouterr().out
    folder = plan_file.parent / "out" / "test"
    assert "1 of 1 promised visit moved" in out
    assert f"called off: {SECOND}" in out
    assert (
        "presumed done, not counted: Old Mill (0304-truck2-0716): boards on 24 (24 boards)" in out
    )
    assert "audit: every rule holds" in out
    assert "Old Mill" in (folder / "changes.html").read_text(encoding="utf-8")
    assert 'href="changes.html"' in (folder / "index.html").read_text(encoding="utf-8")
    new = read_plan(folder)
    assert 3 * 1440 + 810 == new.now_min
    assert new.shifts[0].trips[0].driven


@pytest.mark.parametrize(
    ("where", "value", "named"),
    [
        (
            "shifts.0.trips.0.calls.1.yard",
            "x",
            "plan.json, reference (trip 0304-truck2-0716): said",
        ),
        ("outfit.season.n_days", -10, "plan.json, facts: said 'days of the campaign is -10'"),
    ],
)
@pytest.mark.parametrize("verb", ["replan", "trace", "rehearse"])
def test_a_plan_that_makes_no_sense_is_refused(
    verb: str,
    where: str,
    value: object,
    named: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """What `audit` says of a plan changed by hand, no other verb goes on from."""
    path = tmp_path / "plan.json"
    path.write_text(plan_text(edited(running_plan(), {where: value})), encoding="utf-8")

    assert Exit.FINDINGS == main(["audit", str(path)])
    assert Exit.BAD_INPUT == main([verb, str(path), *(["Fernbank"] if verb == "trace" else [])])
    assert named in capsys.readouterr().err
    with pytest.raises(ScenarioError, match="Use a plan file as written"):
        replan_campaign(edited(running_plan(), {where: value}))


def test_a_count_that_says_what_was_known_is_kept_in_the_same_plan() -> None:
    """A stop told later moves the stock, so that the 48 that were counted stay 48."""
    now, effort = "Fri 5 Mar 6:00", Effort(rounds=0)
    plan = running_plan()
    strips = replace(plan.outfit.strips, stock=88)
    plan = replace(plan, outfit=replace(plan.outfit, strips=strips))
    plan = replan_campaign(plan, now=now, effort=effort).outcome.plan
    told = replan_campaign(plan, ["strips left 48"], now=now).outcome.plan
    nothing = "done 0304-truck2-0716 Fernbank: nothing"
    later = replan_campaign(told, [nothing], now=now, effort=effort).outcome.plan

    assert ((), 1) == (plan.outfit.counted, len(told.outfit.counted))
    assert plan_text(plan) == plan_text(replace(told, outfit=plan.outfit))
    # 40 of the 88 were gone when 48 were counted; 20 of those were not given after all.
    assert 68 == later.outfit.strips.stock


def test_what_was_taken_from_a_line_is_said_where_it_changes_nothing(
    plan_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The plan is the same to the last sign; why stands on the screen and on the change sheet."""
    assert Exit.OK == replan(plan_file, "Ann back Wed")

    words = "Ann was not to be away on Wed 3 Mar; nothing changes"
    folder = plan_file.parent / "out" / "test"
    assert f"taken from the changes: {words}" in capsys.readouterr().out
    assert words in (folder / "changes.html").read_text(encoding="utf-8")
    assert plan_file.read_bytes() == (folder / "plan.json").read_bytes()


def test_a_yard_that_moves_leaves_papers_of_other_trips_alone(
    plan_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Creek Mouth is done and moves on Saturday: Friday's driver keeps the paper.

    No paper names the place by our own id, and the drives there are said to be guessed.
    """
    replan(plan_file, "shut Old Mill Sat: rain", *NOW)
    folder = plan_file.parent / "out" / "test"
    before = (folder / "manifests" / f"{SECOND}.html").read_bytes()
    capsys.readouterr()
    assert Exit.OK == replan(plan_file, "move Creek Mouth to 0.09 0.09 on Sat", *NOW)

    out = capsys.readouterr().out
    assert f"unchanged, keep the paper: {SECOND}" in out
    assert "print again" not in out
    assert "Creek Mouth: drives there are guessed by straight lines x " in out
    assert before == (folder / "manifests" / f"{SECOND}.html").read_bytes()
    pages = [path.read_text("utf-8") for path in folder.rglob("*.html")]
    assert not any("yard-creek-mouth-moved" in page for page in pages)
    assert "drives to Creek Mouth guessed from straight lines" in (
        (folder / "map.html").read_text("utf-8")
    )


def test_what_the_dead_leave_is_told_first(
    plan_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """All colonies of the mill dead under boards: the screen and the sheet say what to fetch."""
    replan(plan_file, "dead 24 Old Mill", "--now", "Thu 4 Mar 15:00")
    first = capsys.readouterr().out.splitlines()[0]
    page = (plan_file.parent / "out" / "test" / "changes.html").read_text("utf-8")

    assert first.startswith("no visit fetches: Old Mill: 40 honey boxes, 24 boards; where no")
    assert page.index("What no visit fetches") < page.index("Visits that moved")


def test_untouched_papers_stay_byte_for_byte(plan_file: Path) -> None:
    """Planned twice with news that touch nobody: Friday's manifest file is the same."""
    replan(plan_file, "shut Old Mill Sun", *NOW)
    paper = plan_file.parent / "out" / "test" / "manifests" / f"{SECOND}.html"
    first = paper.read_bytes()
    replan(plan_file.parent / "out" / "test", "dead 1 Fernbank", "--now", "Thu 4 Mar 15:00")

    assert first == paper.read_bytes()


def test_papers_in_another_language_keep_the_change_sheet(plan_file: Path) -> None:
    """Written once more, there or elsewhere: the sheet stays as it was, and the index has it."""
    replan(plan_file, "shut Old Mill Fri: rain", *NOW)
    made = plan_file.parent / "out" / "test"
    sheet = (made / "changes.html").read_bytes()
    for out in (plan_file.parent / "out", plan_file.parent / "elsewhere"):
        assert Exit.OK == main(["papers", str(made), "--out", str(out), "--language", "de"])

        assert sheet == (out / "test" / "changes.html").read_bytes()
        assert 'href="changes.html"' in (out / "test" / "index.html").read_text(encoding="utf-8")


def test_a_change_sheet_goes_with_its_own_plan_alone(plan_file: Path) -> None:
    """From Python a second change brings its own sheet, or none; never that of the first."""
    replan(plan_file, "shut Old Mill Fri: rain", *NOW)
    folder = plan_file.parent / "out" / "test"
    made = replan_campaign(
        read_plan(folder), ["truck Blue flatdeck out Sat"], effort=Effort(rounds=1)
    )
    told = publish_plan(
        made.outcome, plan_file.parent / "told", source=folder, extra=change_papers(made)
    )
    alone = publish_plan(made.outcome, plan_file.parent / "alone", source=folder)

    assert "truck Blue flatdeck out Sat" in (told / "changes.html").read_text("utf-8")
    assert not (alone / "changes.html").exists()


def test_a_calendar_goes_on_from_the_plan_planned_again(plan_file: Path) -> None:
    """Results elsewhere move what moved and leave the rest at its revision, as in place."""
    out, other = plan_file.parent / "out", plan_file.parent / "other"
    assert Exit.OK == main(["papers", str(plan_file), "--out", str(out)])
    words = ["replan", str(out / "test"), "shut Old Mill Fri: rain", *NOW, "--rounds", "2"]
    assert Exit.OK == main([*words, "--out", str(other)])
    assert Exit.OK == main([*words, "--out", str(out)])

    first, second = ((folder / "test/calendar/trips.ics").read_bytes() for folder in (other, out))
    assert first == second
    assert b"SEQUENCE:0" in first


def test_changes_from_a_file_and_a_choice(
    plan_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A file of changes does what typed ones do; its notes are told."""
    changes = plan_file.parent / "today.txt"
    changes.write_text(
        "now Thu 4 Mar 15:00\ndone 0304-truck2-0716 Fernbank: 6 colonies 12 boxes\n",
        encoding="utf-8",
    )
    code = replan(plan_file, "--changes", str(changes), "--choice", "cheapest")

    out = capsys.readouterr().out
    assert code in {Exit.OK, Exit.UNDONE}
    assert "taken from the changes: Fernbank: by this count 8 boxes are expected" in out
    assert "print again: 0305-truck2-0715\n" in out


@pytest.mark.parametrize("typed", ["strips left 48", "# counted at the store\nstrips left 48\n"])
def test_a_text_by_itself_is_taken_line_by_line(typed: str) -> None:
    """From Python: it was read letter by letter."""
    now, effort = "Thu 4 Mar 13:30", Effort(rounds=0)

    assert ("strips left 48",) == replan_campaign(
        running_plan(), typed, now=now, effort=effort
    ).typed[1:]


def test_a_choice_that_there_is_not_is_refused(plan_file: Path) -> None:
    """No other choice is taken in its place."""
    with pytest.raises(ValueError, match="least, balance, cheapest, not 'cheap'"):
        replan_campaign(read_plan(plan_file), choice="cheap")


def test_faults_are_listed_and_nothing_is_written(
    plan_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Two wrong lines, exit 2, no folder."""
    assert Exit.BAD_INPUT == replan(plan_file, "shut Nowhere Fri", "gibberish", *NOW)

    assert "2 faults found" in capsys.readouterr().err
    assert not (plan_file.parent / "out").exists()


def test_the_time_taken_is_told_where_nobody_said_it(
    plan_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Without a time it is the plan's own; --now or a line of changes says another."""
    changes = plan_file.parent / "today.txt"
    changes.write_text("# by hand\nNow Thu 4 Mar 15:00\n", encoding="utf-8")
    told = []
    turned = "Thu 15:00 now"
    for words in ((), NOW, ("now Thu 15:00",), (turned,), ("--changes", str(changes))):
        replan(plan_file, "shut Nowhere Fri", *words)
        told.append([line for line in capsys.readouterr().err.splitlines() if "--now" in line])

    assert [["now taken as Mon 1 Mar 00:00; say --now to change it"], [], [], [], []] == told


def test_the_choices_side_by_side(plan_file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Three ways with visits moved and cost; nothing is published."""
    assert Exit.OK == replan(plan_file, "shut Old Mill Fri", *NOW, "--choices")

    lines = capsys.readouterr().out.splitlines()
    assert ["choice", "least", "balance", "cheapest"] == [line.split()[0] for line in lines]
    assert all("1 of 1" in line and "nothing undone" in line for line in lines[1:])
    assert not (plan_file.parent / "out").exists()


def test_each_gain_is_told_while_it_works(
    plan_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """As while planning: on standard error, with the choice's name where there are several."""
    replan(plan_file, "shut Old Mill Fri", *NOW)
    one = capsys.readouterr()
    replan(plan_file, "shut Old Mill Fri", *NOW, "--choices")
    three = capsys.readouterr()

    assert "round 0 of 2  cost" in one.err
    assert "first repair" in one.err
    assert "written down" in one.err
    assert "round" not in one.out + three.out
    heads = dict.fromkeys(line.split(": round")[0] for line in three.err.splitlines())
    assert ["least", "balance", "cheapest"] == list(heads)


def pressed_in(choice: str) -> Callable[[str], Listener]:
    """Return listeners whose user presses Ctrl-C while ``choice`` is searched for."""

    def listener(name: str) -> Listener:
        def hear(news: Progress) -> None:
            if name == choice and news.note == "improving":
                raise KeyboardInterrupt

        return hear

    return listener


def test_one_ctrl_c_ends_all_choices() -> None:
    """What was found by then stands, the one under way as far as it came; the rest is not tried."""
    found = list(
        choices(
            running_plan(), ("shut Old Mill Fri",), now=NOW[1], effort=Effort(rounds=3),
            progress=pressed_in("balance"),
        )
    )  # fmt: skip
    lines = list(choice_words(found))

    assert [False, True, True] == [one.broken_off for one in found]
    assert [True, True, False] == [one.replanned is not None for one in found]
    assert "nothing undone; broken off" in lines[2]
    assert "no plan: not looked for, as you broke off" in lines[3]


def test_ctrl_c_outside_of_a_search_keeps_what_there_is() -> None:
    """With a choice found it is shown; with none the command ends in peace."""

    def press(*_args: object, **_more: object) -> Plan:
        raise KeyboardInterrupt

    turns = iter([replan_season, press])

    def in_turn(*words: object, **named: object) -> Plan:
        return next(turns)(*words, **named)  # type: ignore[arg-type]

    rooms = Rooms(replan=in_turn)
    found = list(choices(running_plan(), now=NOW[1], effort=Effort(rounds=0), rooms=rooms))

    assert [True, False, False] == [one.replanned is not None for one in found]
    with pytest.raises(KeyboardInterrupt):
        list(choices(running_plan(), now=NOW[1], rooms=Rooms(replan=press)))


def test_choices_without_a_plan_or_with_findings_say_so() -> None:
    """A way that finds no plan is a line; one whose plan is refused says so."""

    def no_plan(*_args: object, **_more: object) -> object:
        raise PlanError(phrase("No truck."))

    bad = Finding("deck", "x", "", verbatim("25"), verbatim("24"))
    none = list(
        choices(running_plan(), now=NOW[1], rooms=Rooms(replan=no_plan))  # type: ignore[arg-type]
    )
    refused = list(
        choices(
            running_plan(), effort=Effort(rounds=0), rooms=Rooms(audit_again=lambda _a, _b: (bad,))
        )
    )

    assert "no plan: No truck." in list(choice_words(none))[1]
    assert "refused, 1 broken rule" in list(choice_words(refused))[1]


def dearer(choice: Choice, cents: int, unfed_g: int = 0) -> Choice:
    """The choice with a plan that costs so much more, or leaves so much."""
    assert choice.replanned is not None
    outcome = choice.replanned.outcome
    plan = replace(
        outcome.plan,
        bill=replace(outcome.plan.bill, late=outcome.plan.bill.late + cents),
        tally=replace(outcome.plan.tally, unfed_g=unfed_g),
    )
    return replace(choice, replanned=replace(choice.replanned, outcome=replace(outcome, plan=plan)))


def test_a_choice_that_is_cheapest_by_chance_is_named() -> None:
    """The cheapest may be passed by; what leaves more is not better for costing less."""
    least, balance, cheapest = choices(running_plan(), effort=Effort(rounds=0))
    said = "balance does best here: a search may pass by what another comes by."

    assert 4 == len(list(choice_words([least, balance, cheapest])))
    assert said == list(choice_words([dearer(least, 1), balance, dearer(cheapest, 1)]))[-1]
    assert said == list(choice_words([dearer(least, -1, 1), balance, dearer(cheapest, 1)]))[-1]
    assert 4 == len(list(choice_words([dearer(least, -1, 1), dearer(balance, 1), cheapest])))


def test_a_plan_with_findings_is_refused(
    plan_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """It is kept under a name that says so, and nothing is published."""
    told = Rooms(
        audit_again=lambda _new, _before: (
            Finding("deck", "x", "", verbatim("25"), verbatim("24")),
        )
    )

    assert Exit.FINDINGS == replan(plan_file, *NOW, rooms=told)
    assert "do not drive this plan" in capsys.readouterr().err
    assert ["test.refused-plan.json"] == [p.name for p in (plan_file.parent / "out").iterdir()]


def test_least_moves_no_more_than_cheapest_saves() -> None:
    """With nothing changed, least keeps every visit; cheapest never costs more than least."""
    least = replan_campaign(running_plan(), now="Thu 4 Mar 6:00", effort=Effort(rounds=5))
    cheapest = replan_campaign(
        running_plan(), now="Thu 4 Mar 6:00", choice="cheapest", effort=Effort(rounds=5)
    )

    assert 0 == least.differences().visits_moved()
    assert cheapest.outcome.plan.bill.total() <= least.outcome.plan.bill.total()


def test_trace_by_the_command_line(plan_file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The yard by name in any case; on the screen, and as a page."""
    page = plan_file.parent / "trace.html"
    assert Exit.OK == main(["trace", str(plan_file), "creek  MOUTH", "--out", str(page)])

    out = capsys.readouterr().out
    assert "seen after it, nearest first:\n  Fernbank: Thu 4 Mar" in out
    assert "spun after it: Fernbank (Thu 4 Mar" in out
    assert "Trace sheet: Creek Mouth" in page.read_text(encoding="utf-8")
    asked = ["trace", str(plan_file), "Creek Mouth", "--out", str(page), "--language", "de"]
    assert Exit.OK == main(asked)
    assert "danach besucht, die n\u00e4chsten zuerst:" in capsys.readouterr().out
    assert "Spurenblatt: Creek Mouth" in page.read_text(encoding="utf-8")


def test_a_trace_is_a_file(plan_file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder is told as such, with what to give, and holds nothing more than before."""
    folder = plan_file.parent
    asked = ["trace", str(plan_file), "Creek Mouth", "--out", str(folder)]
    held = sorted(folder.iterdir())

    assert Exit.BAD_INPUT == main(asked)
    assert (
        f"{folder} is a folder. Give --out the sheet's own name, such as {folder / 'trace.html'}.\n"
        == capsys.readouterr().err
    )
    assert held == sorted(folder.iterdir())


@pytest.mark.parametrize(
    "typed", ["Ñuble Río", "nuble rio", "N\u0303uble Ri\u0301o", "NUBLE  RÍO", "fernbank"]
)
def test_trace_takes_accents_as_typed_and_left_out(plan_file: Path, typed: str) -> None:
    """One sign, two signs, or none; the id as well."""
    text = plan_text(running_plan()).replace('"Fernbank"', '"Ñuble Río"')
    plan_file.write_text(text, encoding="utf-8")

    assert Exit.OK == main(["trace", str(plan_file), typed])


def test_trace_tells_accents_apart_where_it_must(
    plan_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Two names that differ in accents: as typed is one of them, left out is neither."""
    text = plan_text(running_plan()).replace('"Fernbank"', '"Río"').replace('"Old Mill"', '"Rió"')
    plan_file.write_text(text, encoding="utf-8")

    assert Exit.OK == main(["trace", str(plan_file), "río"])
    assert Exit.BAD_INPUT == main(["trace", str(plan_file), "rio"])
    assert "one of: fernbank, mill" in capsys.readouterr().err


def test_trace_of_no_yard_or_of_several(
    plan_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A slip is answered with the nearest name; two yards of one name with their ids."""
    assert Exit.BAD_INPUT == main(["trace", str(plan_file), "Fernbnk"])
    assert "Did you mean 'Fernbank'?" in capsys.readouterr().err
    assert Exit.BAD_INPUT == main(["trace", str(plan_file), "zzzz"])
    text = plan_text(running_plan()).replace('"Fernbank"', '"Old Mill"')
    plan_file.write_text(text, encoding="utf-8")
    assert Exit.BAD_INPUT == main(["trace", str(plan_file), "old mill"])
    assert "one of: fernbank, mill" in capsys.readouterr().err
