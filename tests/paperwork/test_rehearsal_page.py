"""Tests of the rehearsal's page and tables."""

import csv
import io
import json
import re
from dataclasses import replace

from runplanner.daybook.played import Played, Rehearsed, mean_cents, most_cents, troubled
from runplanner.paperwork.rehearsed.page import hindsight_words, mean_words, rehearsal_page
from runplanner.paperwork.rehearsed.sheet import plays_csv, rehearsal_json, risks
from runplanner.paperwork.rehearsed.terms import term_words
from runplanner.paperwork.speech.tongue import speaking
from runplanner.phrase import phrase, verbatim
from tests.paperwork.plans import hostile_plan, small_plan

NASTY = '=HYPERLINK("x"),<img src=x onerror=alert(1)>{{7*7}}\n'


def a_play(number: int, **changes: int) -> Played:
    """A play without trouble for 100.00, 90.00 with hindsight, bound 80.00."""
    figures = dict.fromkeys(Played.__slots__, 0)
    told = {"play": number, "cents": 10_000, "hindsight_cents": 9_000, "bound_cents": 8_000}
    return Played(**{**figures, **told, "hindsight_done": True, **changes})  # type: ignore[arg-type]


def two(name: str = "as it is") -> Rehearsed:
    """One good play and one with two trips over payload, 1,001 g not fed, for 101.01."""
    bad = a_play(1, over_payload=2, unfed_g=1_001, cents=10_101, hindsight_cents=-1)
    return Rehearsed(verbatim(name), 9_500, plan_done=True, plays=(a_play(0), bad))


def page_of(told: Rehearsed) -> str:
    """The page of one setting."""
    return rehearsal_page(small_plan(), [told], [])


def bare(page: str) -> str:
    """Return a page with nothing but the names of its cells in their tags."""
    return re.sub(r"<td [^>]*>", "<td>", page)


def test_risks_are_counted_by_hand() -> None:
    """Over payload in 1 of 2 plays, mean 1.0; 1,001 g are 2 kg, mean 1.0; the rest never."""
    found = {risk.key: risk for risk in risks(two().plays)}

    assert (1, 100, 2, 2) == (
        found["over_payload"].plays, found["over_payload"].mean_hundredths,
        found["over_payload"].p90, found["over_payload"].worst,
    )  # fmt: skip
    assert (1, 100, 2) == (
        found["unfed_kg"].plays, found["unfed_kg"].mean_hundredths, found["unfed_kg"].worst,
    )  # fmt: skip
    assert 2 == sum(risk.plays for risk in found.values())
    assert 1 == troubled(two().plays)


def test_doubt_that_the_plan_prices_is_told_beside_its_cost() -> None:
    """Plays have no doubt to pay for, so the plan's own total would not be comparable."""
    told = replace(two(), unsure_cents=1_234)

    assert "The plan says 95.00 NZD (without 12.34 NZD for visits" in page_of(told)
    assert "(without" not in page_of(two())


def test_means_and_shares_go_to_the_nearest() -> None:
    """1 in 3 is 0.33, 2 in 3 0.67, 1 in 300 less than 0.01; 199 plays of 200 are not 100 %."""

    def told(bad: int, plays: int) -> Rehearsed:
        played = tuple(a_play(n, stops_missed=int(n < bad)) for n in range(plays))
        return Rehearsed(verbatim(""), 9_500, plan_done=True, plays=played)

    def said(bad: int, plays: int) -> tuple[str, str]:
        one = told(bad, plays)
        found = {risk.key: risk for risk in risks(one.plays)}["stops_missed"]
        page = rehearsal_page(small_plan(), [one], []).replace("\u00a0", " ")
        assert f"<td>{found.mean().replace('<', '&lt;')}</td>" in bare(page)
        (share,) = set(re.findall(r">([^<>]+ %)</text>", page)) - {"0 %"} or {"0 %"}
        return found.mean(), share.replace("&lt;", "<").replace("&gt;", ">")

    assert [("0.33", "33 %"), ("0.67", "67 %"), ("< 0.01", "< 1 %"), ("0.01", "1 %")] == [
        said(1, 3), said(2, 3), said(1, 300), said(1, 150),
    ]  # fmt: skip
    assert [("1.00", "> 99 %"), ("1.00", "100 %"), ("0.00", "0 %")] == [
        said(299, 300), said(300, 300), said(0, 300),
    ]  # fmt: skip
    with speaking("de"):
        assert "0,33" == risks(told(1, 3).plays)[4].mean()


def test_work_left_undone_is_not_taken_for_cheap() -> None:
    """100.00 and 101.01 with all done, 1.00 with colonies not off: 100.505, halves up, of two."""
    plays = (a_play(0), a_play(1, cents=10_101), a_play(2, cents=100, not_off=3))
    told = Rehearsed(verbatim("as it is"), 9_500, plan_done=True, plays=plays)
    body = json.loads(rehearsal_json([told], "NZD"))[0]

    assert (10_051, 10_101) == (mean_cents(plays), most_cents(plays))
    assert "Plays with all work done: 2 of 3; they cost 100.51 NZD" in mean_words(told, "NZD")
    assert (3, 2, 10_051, 10_101) == tuple(
        body[key] for key in ("plays", "plays_with_all_work_done", "mean_cents", "p90_cents")
    )
    page = bare(rehearsal_page(small_plan(), [told, two("careful")], []))
    assert "<td>2 / 3</td><td>100.51" in page
    assert "<td>1 / 2</td><td>100.00" in page


def test_where_no_play_did_all_there_is_no_mean() -> None:
    """Said in words, a dash in the table, and no ring in the chart; without any, no chart."""
    bad = Rehearsed(verbatim("bad"), 9_500, plan_done=True, plays=(a_play(0, no_strips=4),))

    assert (None, None) == (mean_cents(bad.plays), most_cents(bad.plays))
    assert "In none of the plays is all work done" in mean_words(bad, "NZD")
    assert json.loads(rehearsal_json([bad], "NZD"))[0]["mean_cents"] is None
    page = bare(rehearsal_page(small_plan(), [bad, two()], []))
    assert "<td>0 / 1</td><td>-</td>" in page
    assert 1 == page.count('r="12"')
    assert "Right is dearer" not in rehearsal_page(small_plan(), [bad, bad], [])


def test_hindsight_is_told_of_plays_done_both_ways() -> None:
    """One play counts: 100.00 - 90.00 = 10.00 dearer, and 20.00 above the bound of 80.00."""
    words = hindsight_words(two().plays, "NZD")

    assert "In 1 play all work" in words
    assert "costs 10.00 NZD in the mean, and 20.00 NZD above" in words
    assert "too briefly" not in words
    assert "" == hindsight_words((a_play(0, hindsight_done=0),), "NZD")


def test_hindsight_dearer_than_the_play_was_searched_too_briefly() -> None:
    """100.00, 100.01 and 100.01 against 101.00: -0.99 in the mean, to the nearest, and why."""
    plays = tuple(a_play(n, cents=10_000 + (n > 0), hindsight_cents=10_100) for n in range(3))
    words = hindsight_words(plays, "NZD")

    assert "costs -0.99 NZD" in words
    assert "searched for too briefly" in words


def test_the_page_shows_figures_and_asks_for_nothing() -> None:
    """Both pictures, every risk, no address but the drawing's own name space."""
    page = rehearsal_page(small_plan(), [two(), two("careful")], ["a term"])

    assert 3 == page.count("<svg")
    assert 11 + 3 == page.count("<rect")
    assert "boxes late to be spun" in page
    assert "careful" in page
    assert {"http://www.w3.org/2000/svg"} == set(re.findall(r"https?://[^\"' <]+", page))
    assert "<script" not in page
    assert " style=" not in page


def test_the_line_of_the_cheapest_plan_strikes_no_words() -> None:
    """It stands at 12, where the names of the rows stand: each has white ground over the line."""
    cheapest = Rehearsed(phrase(""), 5_000, plan_done=True, plays=two().plays)
    (drawn,) = re.findall(r"<svg[^>]*aria-label=\"Cost of.*?</svg>", bare(page_of(cheapest)))
    line = drawn.index('x1="12.0"')
    ground = r'<rect x="4" y="(\d+)" width="(\S+)" height="20" fill="#fff"></rect>'
    grounds = re.findall(ground + r'<text x="4.0" y="(\d+)', drawn[line:])

    assert 3 == len(grounds)
    for top, wide, foot in grounds:
        assert (14, True) == (int(foot) - int(top), float(wide) > 12)


def test_a_rehearsal_without_spread_or_hindsight_is_drawn() -> None:
    """One cost for all: no division by nought, and no row for a hindsight nobody asked for."""
    plain = a_play(0, hindsight_cents=-1, bound_cents=-1, cents=9_500)
    page = rehearsal_page(
        small_plan(), [Rehearsed(phrase(""), 9_500, plan_done=True, plays=(plain,))], []
    )

    assert "as it turned out" in page
    assert "planned knowing the future" not in page
    assert "Price against risk" not in page


def test_hostile_names_are_escaped() -> None:
    """A setting's name and the outfit's come out as typed, in page, CSV and JSON."""
    told = [two(NASTY), two(NASTY)]
    page = rehearsal_page(hostile_plan(), told, [NASTY])
    rows = list(csv.DictReader(io.StringIO(plays_csv(told, NASTY).removeprefix("\ufeff"))))

    assert "<img" not in page
    assert not rows[0]["setting"].startswith("=")
    assert not rows[0]["currency"].startswith("=")
    assert NASTY == json.loads(rehearsal_json(told, "NZD"))[0]["setting"]


def test_the_table_has_a_row_for_each_play() -> None:
    """Money with two places, blank where nobody asked for hindsight."""
    rows = list(csv.DictReader(io.StringIO(plays_csv([two()], "NZD").removeprefix("\ufeff"))))

    assert ["1", "2"] == [row["play"] for row in rows]
    assert ["100.00", "101.01"] == [row["cost"] for row in rows]
    assert ["90.00", ""] == [row["hindsight_cost"] for row in rows]
    assert ["0", "2"] == [row["over_payload"] for row in rows]
    assert {"NZD"} == {row["currency"] for row in rows}


def test_the_page_speaks_german() -> None:
    """No sentence of the terms is English any more, and the heads are German."""
    told = {"boxes": 100, "mass": 1000, "work": 155, "shut": 100, "truck": 10}
    english = term_words(**told, seed=1, rounds=20, hindsight=60)
    with speaking("de"):
        german = term_words(**told, seed=1, rounds=20, hindsight=60)
        page = rehearsal_page(small_plan(), [two(), two()], german)

    assert 13 == len(english) == len(german)
    assert not set(english) & set(german)
    assert "15,5 %" in german[2]
    assert "Preis gegen Wagnis" in page
    assert 12 == len(term_words(**told, seed=1, rounds=20, hindsight=0))
