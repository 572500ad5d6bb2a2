"""Strips as a user sets them: the usual kind, further kinds, a kind for a yard; and slips."""

from pathlib import Path

import pytest

from runplanner.outfit.stores import Strips
from runplanner.scenario import implied
from runplanner.scenario.forecast.part import Heard
from runplanner.scenario.read import read_scenario
from runplanner.trade.strips import STRIPS
from tests.outfits import an_outfit
from tests.scenario.folders import a_folder, faults, only, read

ALSO = """\
[strips]
stock = 100
[[strips_also]]
name = "formic pads"
substance = "Formic acid"
stock = 30
mass = "60 g"
price = 4.50
[[strips_also]]
name = "double"
substance = "amitraz"
brood_boxes = 2
"""
ACID = '[[strips_also]]\nsubstance = "formic acid"\n'
AIR = (
    "area,what,from_day,to_day,min_temp,max_temp\n"
    "all,temperature,2027-03-01,2027-03-01,12 degC,31 degC\n"
    "all,temperature,2027-03-02,2027-03-02,12 degC,22 degC\n"
)


def yards(*named: str) -> str:
    """A table of yards of ten colonies that name these kinds of strips."""
    rows = [f"Y{n},-38.0{n},175.1,10,15,{kind}" for n, kind in enumerate(named, start=1)]
    return "\n".join(["name,lat,lon,colonies,boxes,strips", *rows, ""])


def test_each_yard_gets_the_kind_it_names(tmp_path: Path) -> None:
    """None named is the usual kind; names are folded; a second dose draws on the first's stock.

    Formic acid: 2 a hive, 7 days, no feed for 7 (leaflet, see ``trade.strips``); the second week
    to fetch them is from memory.  Amitraz: 2 a brood box, 42 to 70 days.
    """
    outfit = read(tmp_path, ALSO, yards=yards("", "Formic  PADS", "double", "formic-pads"))

    assert Strips("amitraz", 2, 100, 42, 70, 0) == outfit.strips
    assert (
        Strips("formic acid", 2, 30, 7, 14, 7, "formic-pads", 60, 450),
        Strips("amitraz", 4, 100, 42, 70, 0, "double"),
    ) == outfit.strips_also
    assert ["", "formic-pads", "double", "formic-pads"] == [yard.strips for yard in outfit.yards]
    assert [2, 2, 4, 2] == [outfit.strips_at(yard).per_colony for yard in outfit.yards]
    assert [10, 60, 10, 60] == [outfit.strip_g(yard) for yard in outfit.yards]
    assert [250, 450, 250, 450] == [outfit.strip_cents(yard) for yard in outfit.yards]


def test_a_row_goes_before_the_general_setting(tmp_path: Path) -> None:
    """All yards get pads, one gets the usual by its substance; without a name that is theirs."""
    text = '[yards]\nstrips = "formic acid"\n' + ACID
    outfit = read(tmp_path, text, yards=yards("", "Amitraz"))

    assert ["formic-acid", ""] == [yard.strips for yard in outfit.yards]


BOXES = (
    "name,lat,lon,colonies,boxes,winter_boxes,strips\nA,-38.01,175.1,12,24,2,{0}\n"
    "B,-38.02,175.1,10,15,,{0}\nC,-38.03,175.1,3,5,3,{0}\nD,-38.04,175.1,4,5,2,{0}\n"
)


@pytest.mark.parametrize(
    ("kinds", "named", "doses", "strips"),
    [
        # 2 strips of amitraz a brood box (Austrian package text): 12 x 4 + 10 x 2 + 3 x 6 + 4 x 4.
        ("", "", [4, 2, 6, 4], "102 of amitraz"),
        ('[strips]\nsubstance = "thymol"\n', "", [2, 1, 3, 2], "51 of thymol"),
        ('[[strips_also]]\nsubstance = "thymol"\n', "thymol", [2, 1, 3, 2], "51 of thymol"),
        # Formic acid: 2 a hive, whatever its boxes (leaflet doczz 2472508).
        (ACID, "formic acid", [2, 2, 2, 2], "58 of formic acid"),
        ("[strips]\nper_colony = 2\n", "", [2, 2, 2, 2], "58 of amitraz"),
        ("[strips]\nbrood_boxes = 2\n", "", [4, 4, 4, 4], "116 of amitraz"),
        ("[strips]\nframes_of_bees = 11\n", "", [3, 3, 3, 3], "87 of amitraz"),
    ],
)
def test_a_yards_winter_boxes_tell_its_dose(
    tmp_path: Path, kinds: str, named: str, doses: list[int], strips: str
) -> None:
    """Where nobody typed a dose; all of one substance draw on one stock, and none is idle."""
    outfit = read(tmp_path, kinds, yards=BOXES.format(named))

    assert doses == [outfit.strips_at(yard).per_colony for yard in outfit.yards]
    assert ("strips", strips) in implied(outfit)
    assert not [words for _, words in implied(outfit) if "no yard names" in words]


def test_a_dose_by_winter_boxes_is_shown(tmp_path: Path) -> None:
    """With how many yards it is for, and its source; weather and stock are those of the kind.

    Feed is not forbidden beside thymol, but the strips keep off feeders.
    """
    text = '[strips]\nsubstance = "thymol"\nstock = 9\nhottest = "30 degC"\n'
    outfit = read(tmp_path, text, yards=BOXES.format(""), weather=AIR)
    said = [one.value for one in outfit.assumed if one.field == "strips.per_colony"]

    assert [
        "1",
        "2 of thymol where a colony winters in 2 boxes (2 times)",
        "3 of thymol where a colony winters in 3 boxes",
    ] == said
    bans = [str(one.source) for one in outfit.assumed if one.field == "strips.no_feed"]
    assert ["no ban known, but keep it away from the feeder in the hive: see the label [C]"] == bans
    assert [9, 9, 9, 9] == [outfit.strips_at(yard).stock for yard in outfit.yards]
    assert [(0,)] * 4 == [yard.strips_shut_days for yard in outfit.yards]


def test_a_treatment_given_twice(tmp_path: Path) -> None:
    """Thymol is, by its package text; a typed yes or no goes before, and papers go by it."""
    said = "20 strips of thymol are the first of two applications."
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    text = '[strips]\nsubstance = "thymol"\n'
    known = read(tmp_path / "a", text, yards=yards("", ""))
    typed = read(tmp_path / "b", f'{text}twice = "no"\n', yards=yards("", ""))

    assert (None, False) == (known.strips.twice, typed.strips.twice)
    assert ["yes"] == [one.value for one in known.assumed if one.field == "strips.twice"]
    assert [1, 0] == [
        sum(words.startswith(said) for _, words in implied(outfit)) for outfit in (known, typed)
    ]


def test_check_says_how_long_feed_waits_for_strips_given_twice(tmp_path: Path) -> None:
    """Formic acid for 5 to 7 days, each 5 days without feed: 12 from the first."""
    said = "Strips of formic acid are given twice and forbid feed: no syrup or fondant is planned "
    said += "for 12 days from the first, as the second may go in 7 days after them."
    text = '[strips]\nsubstance = "formic acid"\nout_after = "5 days"\nout_before = "7 days"\n'
    found = []
    for twice in ("yes", "no"):
        (tmp_path / twice).mkdir()
        typed = f'{text}no_feed = "5 days"\ntwice = "{twice}"\n'
        outfit = read(tmp_path / twice, typed, yards=yards("", ""))
        found.append(said in [str(words) for _, words in implied(outfit)])

    assert [True, False] == found


def test_kinds_of_one_substance_given_once_and_twice(tmp_path: Path) -> None:
    """Of 30 strips of thymol the 10 of the kind given once have no second application."""
    text = '[strips]\nsubstance = "thymol"\n[[strips_also]]\nname = "once"\n'
    text += 'substance = "thymol"\ntwice = "no"\n'
    outfit = read(tmp_path, text, yards=yards("once", "", ""))
    said = "20 strips of thymol are the first of two applications."

    assert 1 == sum(words.startswith(said) for _, words in implied(outfit))


def test_defaults_are_shown_by_substance(tmp_path: Path) -> None:
    """What was not typed of a further kind is listed with its source."""
    outfit = read(tmp_path, ACID, yards=yards("", "formic acid"))
    said = {one.field: one.value for one in outfit.assumed if one.field.startswith("strips_also")}

    assert {
        "strips_also.per_colony": "2, formic acid",
        "strips_also.out_after": "7 days, formic acid",
        "strips_also.out_before": "14 days, formic acid",
        "strips_also.no_feed": "7 days, formic acid",
        "strips_also.stock": "as many as it takes, formic acid",
        "strips_also.mass": "as kit.strip, formic acid",
        "strips_also.price": "as prices.strip, formic acid",
    } == said


def test_each_kind_has_its_own_weather(tmp_path: Path) -> None:
    """31 degrees on the first day are too hot for formic acid (29.5), not for amitraz or thymol's.

    Thymol may not be used above 30; typed limits go before the published ones.
    """
    text = ACID + '[[strips_also]]\nsubstance = "thymol"\nhottest = "32 degC"\n'
    outfit = read(tmp_path, text, yards=yards("", "formic acid", "thymol"), weather=AIR)

    assert [(), (0,), ()] == [yard.strips_shut_days for yard in outfit.yards]
    assert [(None, None), (None, 320)] == [
        (kind.coldest_dc, kind.hottest_dc) for kind in outfit.strips_also
    ]


def test_check_names_the_days_that_keep_strips_out(tmp_path: Path) -> None:
    """31 degrees on the third day keep formic acid (7 days) out on three, where yards name it.

    Days on which none may go in at all are told once, as such.
    """

    def said(folder: str, air: str) -> list[str]:
        (tmp_path / folder).mkdir()
        heard = Heard()
        weather = AIR.replace("03-01", "03-03").replace("03-02", "03-04") + air
        where = a_folder(
            tmp_path / folder, ACID, yards=yards("", "formic acid", "formic acid"), weather=weather
        )
        outfit = read_scenario(where, heard)
        lines = (*heard.doubts, *(words for _, words in implied(outfit)))
        return [line for line in lines if "fit for strips" in line]

    assert [
        (
            "weather: 3 days are not fit for strips of formic acid to go in (2027-03-01 to "
            "2027-03-03), by the air of those days or of one on which they would still be in; "
            "at Y2, Y3"
        )
    ] == said("some", "")
    every = said("all", "all,temperature,2027-03-10,2027-03-10,12 degC,31 degC\n")
    assert ["No day is fit for strips of formic acid: Y2, Y3."] == every


def test_check_counts_each_substance(tmp_path: Path) -> None:
    """10 x 2 and 10 x 4 of amitraz, 10 x 2 of formic acid."""
    outfit = read(tmp_path, ALSO, yards=yards("", "formic pads", "double"))

    assert ("strips", "60 of amitraz, 20 of formic acid") in implied(outfit)


def test_a_substance_nobody_gets_is_not_counted(tmp_path: Path) -> None:
    """All yards get formic acid."""
    outfit = read(tmp_path, ACID, yards=yards("formic acid", "formic acid"))

    assert ("strips", "40 of formic acid") in implied(outfit)


def test_kinds_that_go_nowhere_and_days_that_never_come_are_warned_of(tmp_path: Path) -> None:
    """Thymol is named by nobody; 31 degrees all campaign long are too hot for formic acid."""
    text = ACID + '[[strips_also]]\nsubstance = "thymol"\n'
    hot = AIR.replace("2027-03-01,12", "2027-03-10,12").splitlines()[:2]
    outfit = read(tmp_path, text, yards=yards("", "formic acid"), weather="\n".join([*hot, ""]))
    said = [words for label, words in implied(outfit) if label == "warning"]

    assert "Strips described, but no yard names them: thymol." in said
    assert "No day is fit for strips of formic acid: Y2." in said
    (tmp_path / "cool").mkdir()
    cool = read(tmp_path / "cool", ACID, yards=yards("", "formic acid"), weather=AIR)
    assert not [words for _, words in implied(cool) if "trips of" in words or "no yard" in words]


def test_days_that_never_come_are_warned_of_for_the_usual_kind(tmp_path: Path) -> None:
    """31 degrees all campaign long are too hot for formic acid; thymol up to 32 is typed for Y2."""
    text = (
        '[strips]\nsubstance = "formic acid"\n'
        '[[strips_also]]\nsubstance = "thymol"\nhottest = "32 degC"\n'
    )
    hot = AIR.replace("2027-03-01,12", "2027-03-10,12").splitlines()[:2]
    outfit = read(tmp_path, text, yards=yards("", "thymol", ""), weather="\n".join([*hot, ""]))
    said = [words for label, words in implied(outfit) if label == "warning"]

    assert ["No day is fit for strips of formic acid: Y1, Y3."] == [
        words for words in said if "fit for strips" in words
    ]


def test_an_unknown_substance_is_typed_from_its_label(tmp_path: Path) -> None:
    """Dose and days have no default then; all of what lacks is told at once."""
    text = '[[strips_also]]\nsubstance = "oxalic acid"\n'

    assert ["no_feed", "out_after", "out_before", "per_colony"] == sorted(
        fault.field for fault in faults(tmp_path, text, yards=yards("", "oxalic acid"))
    )


@pytest.mark.parametrize(
    ("said", "known"),
    [
        ("formic", "formic acid"),
        ("FORMIC  acid", "formic acid"),
        ("Ameisens\u00e4ure", "formic acid"),
        ("Thymol", "thymol"),
    ],
)
def test_a_substance_is_known_by_its_other_names(tmp_path: Path, said: str, known: str) -> None:
    """Its ban on feed holds, and its dose and days; a yard may name it so too."""
    text = f'[[strips_also]]\nsubstance = "{said}"\n'
    kind = read(tmp_path, text, yards=yards("", said)).strips_also[0]

    assert (known, STRIPS[known].no_feed_days) == (kind.substance, kind.no_feed_days)


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("amitraze", "amitraz"),
        ("fornic acid", "formic acid"),
        ("formic acid 60 %", "formic acid"),
        ("Ameisensaure", "ameisensaeure"),
    ],
)
def test_a_known_substance_misspelt_is_one_fault(tmp_path: Path, said: str, meant: str) -> None:
    """Else its ban on feed, its limits and its cautions would be lost without a word."""
    fault = only(faults(tmp_path, f'[strips]\nsubstance = "{said}"\n'))

    assert ("substance", said) == (fault.field, fault.said)
    assert f"Did you mean {meant!r}?" == fault.cure


def test_stocks_that_do_not_do_are_warned_of(tmp_path: Path) -> None:
    """10 x 2 and 10 x 4 of amitraz draw on one stock, 10 x 2 of formic acid on another."""
    for number, (amitraz, acid) in enumerate(((59, 20), (60, 19), (60, 20))):
        (tmp_path / str(number)).mkdir()
        text = ALSO.replace("stock = 100", f"stock = {amitraz}").replace("= 30", f"= {acid}")
        rows = yards("", "formic pads", "double")
        outfit = read(tmp_path / str(number), text, yards=rows)

        assert [
            *(["60 strips of amitraz are due and 59 are in stock."] if amitraz < 60 else []),
            *(["20 strips of formic acid are due and 19 are in stock."] if acid < 20 else []),
        ] == [words for _, words in implied(outfit) if "are in stock" in words]


def test_what_nothing_is_known_of_is_warned_of(tmp_path: Path) -> None:
    """By another name of it as well, once all that has no default is typed."""
    days = 'per_colony = 1\nout_after = "1 day"\nout_before = "2 days"\nno_feed = "0 days"\n'
    outfit = read(tmp_path, f'[strips]\nsubstance = "Oxals\u00e4ure"\n{days}')

    assert "oxalic acid" == outfit.strips.substance
    assert [] != [
        words for _, words in implied(outfit) if "Nothing is known here of oxalic acid" in words
    ]
    assert not [words for _, words in implied(an_outfit()) if "Nothing is known" in words]


def test_a_shorter_ban_on_feed_than_the_known_one_is_warned_of(tmp_path: Path) -> None:
    """Formic acid forbids feed while it is in: 7 days, or 10 where it comes out after 10."""

    def said(folder: str, text: str) -> list[str]:
        (tmp_path / folder).mkdir()
        outfit = read(tmp_path / folder, f'[strips]\nsubstance = "formic acid"\n{text}')
        return [words for _, words in implied(outfit) if "days without feed" in words]

    assert [] == said("known", "")
    assert [] == said("longer", 'no_feed = "8 days"\n')
    (words,) = said("none", 'no_feed = "0 days"\n')
    assert words.startswith("Strips of formic acid: 0 days without feed are typed, 7 are known of")
    (words,) = said("longer_stay", 'out_after = "10 days"\nno_feed = "7 days"\n')
    assert "7 days without feed are typed, 10 are known" in words


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('coldest = "30 degC"\nhottest = "20 degC"\n', ("hottest", "at least coldest, 30 degC")),
        # Published of formic acid: 10 to 29.5 degC.
        ('coldest = "35 degC"\n', ("coldest", "at most hottest, 29.5 degC")),
        ('hottest = "9 degC"\n', ("hottest", "at least coldest, 10 degC")),
    ],
)
def test_air_that_no_day_has_is_a_fault(tmp_path: Path, text: str, told: tuple[str, str]) -> None:
    """One typed limit is judged beside the published other."""
    acid = '[strips]\nsubstance = "formic acid"\n'

    fault = only(faults(tmp_path, acid + text))
    assert told == (fault.field, fault.allowed)


def test_slips_are_told_at_once(tmp_path: Path) -> None:
    """A name twice, a stock told twice, days in the wrong order, an unknown key."""
    text = ALSO + (
        '[[strips_also]]\nname = "Double"\nsubstance = "thymol"\nout_after = "40 days"\n'
        '[[strips_also]]\nsubstance = "formic acid"\nname = "more"\nstock = 5\nprice = 1\n'
        '[[strips_also]]\nname = "bare"\nsubstanc = "thymol"\n'
    )
    found = {(fault.where.split(", ")[-1], fault.field) for fault in faults(tmp_path, text)}

    assert {
        ("strips_also 3 (Double)", "out_before"),
        ("strips_also 3 (Double)", "name"),
        ("strips_also 4 (more)", "stock"),
        ("strips_also 4 (more)", "price"),
        ("strips_also 5 (bare)", "substance"),
        ("strips_also 5 (bare)", "substanc"),
    } == found


@pytest.mark.parametrize(
    "second", ['name = "Amitraz"\nsubstance = "thymol"', 'substance = "amitraz"']
)
def test_a_kind_called_as_the_usual_one(tmp_path: Path, second: str) -> None:
    """A yard could not say which it means."""
    fault = only(faults(tmp_path, f"[[strips_also]]\n{second}\n"))

    assert ("name", "each name once") == (fault.field, fault.allowed)


def test_a_yard_names_a_kind_that_is_none(tmp_path: Path) -> None:
    """What may be named is listed, and the likely one suggested."""
    fault = only(faults(tmp_path, ALSO, yards=yards("formic pad")))

    assert ("yards.csv", "row 2, Y1", "strips", "formic pad") == (
        fault.file, fault.where, fault.field, fault.said,
    )  # fmt: skip
    assert "amitraz, formic pads, formic-pads, double" in fault.allowed
    assert "formic pads" in fault.cure


def test_a_kind_at_fault_does_not_blame_the_yards(tmp_path: Path) -> None:
    """Its substance was mistyped as a number of nothing: that is the one fault."""
    text = '[[strips_also]]\nname = "pads"\nsubstance = ""\n'

    assert "substance" == only(faults(tmp_path, text, yards=yards("", "pds"))).field


def test_a_yard_names_no_kind_though_another_line_of_one_is_wrong(tmp_path: Path) -> None:
    """The stock says nothing about names: the yard's slip is told with it."""
    text = '[[strips_also]]\nname = "pads"\nsubstance = "thymol"\nstock = "x"\n'

    assert ["stock", "strips"] == [
        fault.field for fault in faults(tmp_path, text, yards=yards("pads", "pds"))
    ]


def test_a_kind_without_a_substance_is_no_second_kind_of_the_usual_one(tmp_path: Path) -> None:
    """Its stock and price are its own, once the substance is there."""
    text = '[[strips_also]]\nname = "pads"\nstock = 30\nprice = 2\n'

    assert "substance" == only(faults(tmp_path, text, yards=yards("", "pads"))).field


def test_a_single_table_does_not_blame_the_yards(tmp_path: Path) -> None:
    """One pair of brackets too few is the one fault."""
    text = '[strips_also]\nname = "pads"\nsubstance = "thymol"\n'

    assert "strips_also" == only(faults(tmp_path, text, yards=yards("", "pads"))).field


def test_not_too_many_kinds(tmp_path: Path) -> None:
    """Twelve beside the usual one."""
    entry = '[[strips_also]]\nname = "k{}"\nsubstance = "thymol"\n'
    kinds = "".join(entry.format(number) for number in range(13))
    fault = only(faults(tmp_path, kinds))

    assert ("strips_also", "13 kinds", "at most 12 kinds") == (
        fault.field, fault.said, fault.allowed,
    )  # fmt: skip


@pytest.mark.parametrize("said", ["<img onerror=x>", "=1+1", "{{7*7}}", "'\"}{", "חומצה"])
def test_hostile_names_are_names(tmp_path: Path, said: str) -> None:
    """Any name on one line may call a kind, and a yard may name it."""
    kind = said.replace("\\", "\\\\").replace('"', '\\"')
    text = f'[[strips_also]]\nname = "{kind}"\nsubstance = "thymol"\n'
    cell = '"' + said.replace('"', '""') + '"'
    outfit = read(tmp_path, text, yards=yards("", cell))

    assert outfit.strips_also[0].id == outfit.yards[1].strips != ""
    assert "thymol" == outfit.strips_at(outfit.yards[1]).substance
