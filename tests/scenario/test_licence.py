"""A yard at a standstill with a licence typed: worked as a watched one, and papers say so."""

import csv
import io
from pathlib import Path

import pytest

from runplanner.outfit.yards import Health
from runplanner.paperwork.speech.tongue import speaking
from runplanner.paperwork.stop.health import health_words
from runplanner.phrase import phrase
from runplanner.scenario import implied, read_scenario
from runplanner.scenario.forecast.part import Heard
from runplanner.visits.due import due
from tests.paperwork.plans import small_plan
from tests.scenario.folders import a_folder, faults, only, read

SAID = "NZ-17, invented office, until 2027-03-31"


def yards(health: str, licence: str, notes: str = "") -> str:
    """A table of one yard."""
    out = io.StringIO()
    csv.writer(out).writerows([
        ["name", "lat", "lon", "colonies", "boxes", "health", "licence", "notes"],
        ["Mill", "-38.0", "175.0", "5", "8", health, licence, notes],
    ])  # fmt: skip
    return out.getvalue()


def test_a_licence_lets_the_yard_be_worked(tmp_path: Path) -> None:
    """Health as a watched yard; the licence beside the notes; check's words name it."""
    outfit = read(tmp_path, yards=yards("standstill", SAID, "Key under stone"))
    yard = outfit.yards[0]

    assert Health.WATCH is yard.health
    assert (SAID, "Key under stone") == (yard.licence, yard.access.notes)
    assert due(outfit, yard).take_off
    assert ("standstill, worked under a licence as typed", "Mill") in implied(outfit)
    assert "yards where nothing may leave" not in dict(implied(outfit))


@pytest.mark.parametrize(
    ("licence", "until"),
    [
        ("No 12, Inspector, until 2027-02-01", "2027-02-01"),
        ("Nr. 12, Amt, gilt bis 1.2.2027", "2027-02-01"),
        ("No 12 of 2026-11-02, until 9. 3. 2027", "2027-03-09"),
        ("No 12 of 2026-11-02, until 2027-03-10", ""),
        ("No 12-2027-02-31, Inspector 1.2", ""),
        ("No 12", ""),
    ],
)
def test_a_licence_that_ends_before_the_campaign_is_asked_about(
    tmp_path: Path, licence: str, until: str
) -> None:
    """The campaign ends on 10 March; the latest date counts.  The yard is worked all the same."""
    heard = Heard()
    folder = a_folder(tmp_path, yards=yards("standstill", licence))
    outfit = read_scenario(folder, heard)

    assert Health.WATCH is outfit.yards[0].health
    told = (
        f"yards.csv, row 2, Mill, licence: the last date in it is {until}, and the campaign goes "
        "on until 2027-03-10: does it still hold?"
    )
    assert [told][: bool(until)] == [str(one) for one in heard.doubts]


def test_without_one_nothing_leaves(tmp_path: Path) -> None:
    """As before."""
    outfit = read(tmp_path, yards=yards("standstill", " "))

    assert Health.STANDSTILL is outfit.yards[0].health
    assert not due(outfit, outfit.yards[0]).take_off
    assert "Mill (standstill)" == dict(implied(outfit))[phrase("yards where nothing may leave")]


def test_it_holds_in_a_restricted_area(tmp_path: Path) -> None:
    """The area makes the standstill; the row has the licence and no notes."""
    area = '[[areas]]\nlat = -38.0\nlon = 175.0\nradius = "1 km"\n'
    yard = read(tmp_path, area, yards=yards("", SAID)).yards[0]

    assert Health.WATCH is yard.health
    assert (SAID, "") == (yard.licence, yard.access.notes)


@pytest.mark.parametrize("health", ["", "sound", "watch", "suspect"])
def test_a_licence_for_no_standstill_is_a_slip(tmp_path: Path, health: str) -> None:
    """Suspicion is not lifted by a licence; a sound yard needs none."""
    fault = only(faults(tmp_path, yards=yards(health, SAID)))

    assert ("licence", SAID) == (fault.field, fault.said)
    assert f"the yard is {health or 'sound'}" in fault.allowed
    assert "yards.csv" == fault.file


def test_suspect_in_an_area_is_not_lifted(tmp_path: Path) -> None:
    """It stays suspect there, so that the licence is a slip."""
    area = '[[areas]]\nlat = -38.0\nlon = 175.0\nradius = "1 km"\n'

    assert "licence" == only(faults(tmp_path, area, yards=yards("suspect", SAID))).field


@pytest.mark.parametrize(
    "licence",
    ["no", "None", "n/a", "N.A.", "-", "\u2013", "?", "...", "0", "pending", "not yet",
     "no licence", "Licence applied for", "No 17, application submitted 2027-02-20",
     "No 17, in process", "Nr. 17, eingereicht", "nein", "keine", "Noch nicht", "keine Genehmigung",
     "k. A.", "entfällt", "withdrawn 2027-07-30", "revoked by district office", "EXPIRED",
     "No 17, not for brood", "No 17 is off, district says", "No 17 (cancelled)", "17, hasn't come",
     "No 17/withdrawn", "withdrawn17", "NO LONGER 17", "not granted, 17", "No 17, until March?",
     "17?", "entzogen am 1.2.2027", "Nr. 17 abgelaufen", "abgelehnt", "Nein & Son, 12", "Is",
     "yes", "district office", "until 2027-03-31", "2027-03-31", "1.2.2027", "000", "20 Feb",
     "2 weeks ago", "9:30", "No 17 binned"],
)  # fmt: skip
@pytest.mark.parametrize("health", ["standstill", "sound"])
def test_what_is_not_surely_a_licence_frees_no_yard(
    tmp_path: Path, licence: str, health: str
) -> None:
    """Words for none, not yet or no longer, or no number first: the cure is to leave it empty."""
    fault = only(faults(tmp_path, yards=yards(health, licence)))

    assert ("licence", licence) == (fault.field, fault.said)
    assert "Leave it empty" in fault.cure


@pytest.mark.parametrize(
    "licence",
    ["No. 17", "no 17", "0017", "NA-4", "#17", "№ 8, Amt", "MPI 1234, until 31 May", "No-17 (Amt)",
     "Az. 39-12/2027, Veterinäramt", "Genehmigung Nr. 5 vom 1.2.2027", "No 17 2027-03-31",
     "No 17, permit no 5", "No 17: of (5) #2, honey only, ends 2027-03-31"],
)  # fmt: skip
def test_a_licence_begins_with_its_number(tmp_path: Path, licence: str) -> None:
    """However that is written; "no" before a number is short for it."""
    assert licence == read(tmp_path, yards=yards("standstill", licence)).yards[0].licence


@pytest.mark.parametrize("licence", ["1" * 121, "1" * 10_000, "1\x07b", "1\u202eb"])
def test_long_and_turning_text_is_refused(tmp_path: Path, licence: str) -> None:
    """Above 120 characters; control characters; text that turns its direction."""
    fault = only(faults(tmp_path, yards=yards("standstill", licence)))

    assert "licence" == fault.field
    assert fault.cure


@pytest.mark.parametrize(
    "licence", ["1, <img onerror=x>", '=1-HYPERLINK("x")', "{{7*7}}", "1'\"}{", "1\nb", "1" * 120]
)
def test_hostile_text_is_kept_as_text(tmp_path: Path, licence: str) -> None:
    """On one line, whole on the manifest beside the longest note, and never first in a cell.

    Papers escape words themselves; a spreadsheet sees ours in front of a formula.
    """
    yard = read(tmp_path, yards=yards("standstill", licence, "n" * 500)).yards[0]
    line = " / ".join(licence.split("\n"))
    told = health_words(small_plan(), yard)

    assert line == yard.licence
    assert f"Standstill, moved under licence {line}: clean kit afterwards." == told
    with speaking("de"):
        told = health_words(small_plan(), yard)
    assert f"Sperre, Verbringen mit Genehmigung {line}: danach Gerät reinigen." == told
