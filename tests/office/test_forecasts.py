"""Forecasts fetched when a user asks, and what check says of them."""

import json
from datetime import UTC, datetime
from pathlib import Path

import pytest

from runplanner.cli import Exit, main
from runplanner.errors import PartlyError, ScenarioError
from runplanner.office.forecasts import MOST_LINES, fetch_forecasts, heard_words, reasons
from runplanner.scenario.forecast.part import Heard
from runplanner.weather.fetch import Patience
from runplanner.weather.judge import Cause, ShutHour, Why, Work
from tests.outfits import an_outfit
from tests.scenario.folders import a_folder
from tests.weather.forecasts import PLAIN, columns
from tests.weather.loopback import Answer, sends, serving, sleeps

YARDS = """\
name,lat,lon,colonies,boxes,district
Mill,-38.01,175.06,24,41,hills
Gate,-38.12,175.20,12,20,plain
Ford,-38.10,175.18,12,20,plain
"""


def sky(precipitation: float = 0.0) -> bytes:
    """A forecast of 48 hours from midnight UTC of day 0."""
    body = columns(48, precipitation=[precipitation] * 48)
    start = int(datetime(2027, 3, 1, tzinfo=UTC).timestamp())
    body["hourly"]["time"] = [start + 3600 * hour for hour in range(48)]  # type: ignore[index]
    body["hourly_units"]["time"] = "unixtime"  # type: ignore[index]
    return json.dumps(body).encode()


def entry(base: str, area: str, path: str, file: str) -> str:
    """One [[forecasts]] with an address."""
    return f'[[forecasts]]\narea = "{area}"\nfile = "{file}"\nurl = "{base}/{path}"\n'


def scene(path: Path, extra: str) -> Path:
    """A scenario of three yards in two districts."""
    return a_folder(path, extra, yards=YARDS)


def test_each_forecast_is_fetched_into_its_file(tmp_path: Path) -> None:
    """With the middle of the area's yards in the address, and who asks in the header.

    The plain: (-38.12 - 38.10) / 2 = -38.11, (175.20 + 175.18) / 2 = 175.19.
    """
    with serving(one=sends(sky()), two=sends(PLAIN.encode())) as at:
        extra = (
            entry(at.base, "plain", "one?lat={lat}&lon={lon}", "plain.json")
            + entry(at.base, "Mill", "two", "mill.csv")
            + '[weather]\ncontact = "ann@example.org"\n'
        )
        folder = scene(tmp_path, extra)
        lines = list(fetch_forecasts(folder))

    assert [f"plain: 47 hours into {folder / 'plain.json'}",
            f"Mill: 3 hours into {folder / 'mill.csv'}"] == lines  # fmt: skip
    assert ["/one?lat=-38.11&lon=175.19", "/two"] == [path for path, _ in at.asked]
    assert all(headers["User-Agent"].endswith("ann@example.org") for _, headers in at.asked)
    assert sky() == (folder / "plain.json").read_bytes()
    assert [] == [path.name for path in folder.iterdir() if path.name.startswith(".")]


def test_where_none_is_to_be_had_nothing_was_written(tmp_path: Path) -> None:
    """The only address fails."""
    with serving(bad=sends(b"gone", 404)) as at:
        folder = scene(tmp_path, entry(at.base, "hills", "bad", "hills.json"))
        with pytest.raises(ScenarioError, match="1 fault found; nothing was written") as caught:
            list(fetch_forecasts(folder))

    (fault,) = caught.value.faults
    line = (folder / "outfit.toml").read_text("utf-8").splitlines().index("[[forecasts]]") + 4
    assert ("outfit.toml", f"line {line}, forecasts 1, hills", "127.0.0.1") == (
        fault.file, fault.where, fault.field,
    )  # fmt: skip


def test_a_district_on_both_sides_of_the_date_line(tmp_path: Path) -> None:
    """Its middle is there, not on the other side of the earth."""
    yards = "name,lat,lon,colonies,boxes\nWest,-17.0,179.9,9,9\nEast,-17.0,-179.7,9,9\n"
    base = "[base]\nlat = -17.0\nlon = 179.8\n"
    with serving(x=sends(sky())) as at:
        extra = entry(at.base, "all", "x?{lon}", "sky.json")
        folder = a_folder(tmp_path, extra, yards=yards, base=base)
        list(fetch_forecasts(folder))

    assert ["/x?-179.90"] == [path for path, _ in at.asked]


@pytest.mark.parametrize(
    ("answer", "said"),
    [(sends(b"gone", 404), "status 404"), (sends(b"<html>"), "<html>"), (sleeps(3), "no answer")],
    ids=["status", "no forecast", "silence"],
)  # fmt: skip
def test_what_is_no_forecast_replaces_nothing(tmp_path: Path, answer: Answer, said: str) -> None:
    """The old file stays, the others are fetched, and the fault is told in the end."""
    with serving(bad=answer, good=sends(sky())) as at:
        extra = entry(at.base, "hills", "bad", "hills.json")
        extra += entry(at.base, "plain", "good", "plain.json")
        folder = scene(tmp_path, extra)
        (folder / "hills.json").write_text("old", "utf-8")
        with pytest.raises(PartlyError, match=said) as caught:
            list(fetch_forecasts(folder, patience=Patience(0.2, 0.5)))
    assert caught.value.message.endswith(" found; all else was written.")

    assert "old" == (folder / "hills.json").read_text("utf-8")
    assert sky() == (folder / "plain.json").read_bytes()


@pytest.mark.parametrize(
    ("extra", "said"),
    [
        ("", "allowed: at least one url"),
        ('[[forecasts]]\nfile = "sky.csv"\n', "allowed: at least one url"),
        ('[[forecasts]]\nfile = "sky.csv"\nurl = "nonsense"\n', "an http or https address"),
        ('[[forecasts]]\narea = "x"\nfile = "a.csv"\nurl = "http://x/"\n', "a district, or a yard"),
        ("[x\n", "TOML"),
    ],
)
def test_an_errand_at_fault(tmp_path: Path, extra: str, said: str) -> None:
    """Nothing to fetch, or a slip: said before anything is asked."""
    with pytest.raises(ScenarioError, match=said):
        list(fetch_forecasts(scene(tmp_path, extra)))


def test_no_folder(tmp_path: Path) -> None:
    """In words."""
    with pytest.raises(ScenarioError, match="no such folder"):
        list(fetch_forecasts(tmp_path / "none"))


def test_the_verb_then_check(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`forecast` fetches; `check` tells what it shuts, why, and how sure it is.

    48 entries of rain from 13:00 on Monday (UTC + 13) to 12:00 on Wednesday.
    """
    with serving(x=sends(sky(2.1))) as at:
        folder = str(scene(tmp_path, entry(at.base, "all", "x", "sky.json")))
        assert Exit.OK == main(["forecast", folder])
        assert f"runplanner check {folder}" in capsys.readouterr().out
        assert Exit.OK == main(["check", folder])

    out = capsys.readouterr().out
    assert "  all: sky.json, JSON of hourly columns, Mon 1 Mar 13:00 to Wed 3 Mar 12:00" in out
    assert "  all yards: Mon 1 Mar shut from 13:00: rain 2.1 mm/h" in out
    assert "  all yards: Tue 2 Mar shut all day: rain 2.1 mm/h" in out
    assert "  all yards: 100 % from Mon 1 Mar, no forecast from Thu 4 Mar" in out
    assert 47 == len(reasons(folder))  # each of its hours, for opening; syrup bears 2.5 mm/h
    assert 1 == len(at.asked)


def test_check_asks_nobody(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A forecast that was not fetched yet is told with its cure, and not asked for."""
    with serving(x=sends(sky())) as at:
        folder = str(scene(tmp_path, entry(at.base, "all", "x", "sky.json")))
        assert Exit.OK == main(["check", folder])
        told = capsys.readouterr().out
        main(["plan", folder, "--rounds", "0", "--out", str(tmp_path / "out")])

    said = "warning: all: sky.json is not there yet and does not count; get it with `runplanner"
    assert f"  {said}" in told
    assert said in capsys.readouterr().err
    assert [] == at.asked


def test_the_verb_at_fault(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing named: exit 2, in words."""
    assert Exit.BAD_INPUT == main(["forecast", str(scene(tmp_path, ""))])
    assert "at least one url" in capsys.readouterr().err


def shut(number: int, yards: tuple[str, ...] = ("yard1",)) -> ShutHour:
    """One hour in two, shut, daylight or not."""
    whys = (Why(Cause.RAIN, 1000 + number),)
    return ShutHour(yards, Work.SETTLE, 120 * number, 120 * number + 60, whys)


def test_without_forecasts_nothing_is_said() -> None:
    """Not even a heading."""
    assert [] == list(heard_words(an_outfit(), Heard()))


def test_nothing_shut_is_said_too() -> None:
    """A fair forecast."""
    heard = Heard(skies=["all: sky.json"], sure={"yard1": (1000,), "yard2": (900,)})

    assert [
        "forecasts:",
        "  all: sky.json",
        "shut by forecast: nothing",
        "how sure:",
        "  Yard 1: 100 % from Mon 1 Mar",
        "  Yard 2: 90 % from Mon 1 Mar",
    ] == list(heard_words(an_outfit(), heard))


def test_hundreds_of_lines_are_cut_and_counted() -> None:
    """The rest is counted; what typed hours overrule comes after."""
    many = [shut(number) for number in range(MOST_LINES + 5)]
    heard = Heard(skies=["x"], shut=many, overruled=[shut(1)])
    lines = list(heard_words(an_outfit(), heard))

    assert "  and 5 more" in lines
    assert "left open, as fit hours were typed for the day:" in lines
    assert "  Yard 1: Mon 1 Mar no bees outside from 02:00 to 03:00: rain 1.1 mm/h" in lines
