"""Tests of published numbers at the gate: driving rules, axles by lever arm, doses."""

from pathlib import Path

import pytest

from runplanner.outfit.people import Hours
from runplanner.trade.driving import PRESETS
from tests.scenario.folders import TRUCK, faults, only, read

AXLES = """
[trucks.axles]
front_empty = "1.2 t"
rear_empty = "0.9 t"
front_max = "1.8 t"
rear_max = "2.4 t"
"""


def limits(hours: Hours) -> tuple[int, ...]:
    """Duty, driving, and the two breaks with what they come after."""
    return (
        hours.duty_max_min, hours.driving_max_min, hours.drive_break_after_min,
        hours.drive_break_min, hours.duty_break_after_min, hours.duty_break_min,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("rules", "expected"),
    [
        ("eu", (780, 540, 270, 45, 360, 30)),  # Reg. (EC) 561/2006; 13 h from 11 h of rest
        ("gb", (660, 600, 600, 30, 360, 20)),  # gov.uk: no driving break, so it never binds
        ("us", (840, 660, 480, 30, 840, 30)),  # 49 CFR 395.3
        ("cautious", (660, 540, 270, 45, 360, 30)),
    ],
)
def test_named_rules(tmp_path: Path, rules: str, expected: tuple[int, ...]) -> None:
    """A name stands for the published limits of a day, shown with source and local law."""
    outfit = read(tmp_path, f'[hours]\nrules = "{rules}"\n')

    assert expected == limits(outfit.hours)
    shown = [one for one in outfit.assumed if one.field == "hours.duty_most"]
    assert "Local law comes first" in shown[0].source
    (beyond,) = [one for one in outfit.assumed if one.field == "further rules on hours"]
    assert PRESETS[rules].beyond in beyond.source


@pytest.mark.parametrize("rules", sorted(PRESETS))
def test_what_is_shown_may_be_typed(tmp_path: Path, rules: str) -> None:
    """Each limit with its unit, and nothing under the table that is no key of it."""
    outfit = read(tmp_path, f'[hours]\nrules = "{rules}"\n')
    shown = {str(one.field): str(one.value) for one in outfit.assumed}
    hours = {key[6:]: words for key, words in shown.items() if key.startswith("hours.")}
    lines = "".join(f'{key} = "{words}"\n' for key, words in hours.items())
    (tmp_path / "typed").mkdir()

    assert limits(outfit.hours) == limits(read(tmp_path / "typed", f"[hours]\n{lines}").hours)
    assert rules != "eu" or ("13 h", "45 min", "4 h 30 min") == tuple(
        hours[key] for key in ("duty_most", "drive_break", "drive_break_after")
    )


@pytest.mark.parametrize(
    ("rules", "sources"),
    [
        # 13 h of duty is 24 h less the rest that Reg. 561/2006 asks; breaks from work are not its
        ("eu", ("24 h less 11 h", "561/2006", "561/2006", "561/2006", "2002/15", "2002/15")),
        ("gb", ("gov.uk", "gov.uk", "gov.uk", "gov.uk", "Regulations 1998", "Regulations 1998")),
        ("nz", ("24 h less 10 h", "nzta", "nzta", "nzta", "nzta", "nzta")),
        ("us", ("395.3",) * 6),
    ],
)
def test_each_limit_names_its_own_source(
    tmp_path: Path, rules: str, sources: tuple[str, ...]
) -> None:
    """Duty, driving, and the two breaks, as they stand in a scenario file."""
    outfit = read(tmp_path, f'[hours]\nrules = "{rules}"\n')
    shown = {str(one.field): one.source for one in outfit.assumed}
    keys = ("duty_most", "driving_most", "drive_break_after", "drive_break", "duty_break_after",
            "duty_break")  # fmt: skip

    for key, source in zip(keys, sources, strict=True):
        assert source in shown[f"hours.{key}"], key


def test_the_eus_longer_break_of_a_long_day_is_said_not_to_be_watched(tmp_path: Path) -> None:
    """Art. 5 of the directive: 30 min from 6 to 9 h of work, 45 min beyond; one length is kept."""
    outfit = read(tmp_path, '[hours]\nrules = "eu"\n')
    (beyond,) = [one.source for one in outfit.assumed if one.field == "further rules on hours"]

    assert "Breaks of 45 min in all where a day's work passes 9 h" in beyond
    assert 'duty_break = "45 min" keeps to it' in beyond


def test_a_typed_limit_goes_before_the_named_rules(tmp_path: Path) -> None:
    """Whoever drives shorter says so; the rest of the rules stay."""
    hours = read(tmp_path, '[hours]\nrules = "eu"\nduty_most = "10 h"\n').hours

    assert (600, 540) == (hours.duty_max_min, hours.driving_max_min)


def test_without_a_name_the_defaults_hold(tmp_path: Path) -> None:
    """The careful day, as before."""
    assert (660, 540, 270, 45, 360, 30) == limits(read(tmp_path).hours)


def test_rules_nobody_knows(tmp_path: Path) -> None:
    """The names there are, and no guess."""
    fault = only(faults(tmp_path, '[hours]\nrules = "mars"\n'))

    assert "rules" == fault.field
    assert "cautious" in fault.allowed


def test_axles_by_lever_arm(tmp_path: Path) -> None:
    """Deck from 1.0 m to 4.1 m behind the front axle: its middle at 2.55 of 3.4 m, 75 %.

    A fifth of 3.5 t is asked of the steered axle: 700 kg.
    """
    truck = TRUCK + AXLES + 'wheelbase = "3.4 m"\ndeck_starts = "1.0 m"\n'
    axles = read(tmp_path, truck=truck).trucks[0].axles

    assert axles is not None
    assert (750, 700_000) == (axles.load_on_rear_permille, axles.front_min_g)
    assert (3_400, 1_000) == (axles.wheelbase_mm, axles.deck_starts_mm)


def test_a_typed_share_stands(tmp_path: Path) -> None:
    """Who had the truck weighed knows better than a lever arm."""
    typed = 'wheelbase = "3.4 m"\ndeck_starts = "1 m"\nload_on_rear = "80 %"\nfront_min = "0.9 t"\n'
    axles = read(tmp_path, truck=TRUCK + AXLES + typed).trucks[0].axles

    assert axles is not None
    assert (800, 900_000) == (axles.load_on_rear_permille, axles.front_min_g)


@pytest.mark.parametrize(
    ("lines", "field"),
    [
        ("", "load_on_rear"),
        ('wheelbase = "3.4 m"\n', "deck_starts"),
        ('deck_starts = "1.1 m"\n', "wheelbase"),
        ('wheelbase = "3,4 m"\ndeck_starts = "1.1 m"\n', "wheelbase"),
        ('wheelbase = "2 m"\ndeck_starts = "1.5 m"\n', "deck_starts"),
    ],
)
def test_axles_that_cannot_be_worked_out(tmp_path: Path, lines: str, field: str) -> None:
    """One length alone is not enough, and a deck behind the rear axle lifts the front."""
    fault = only(faults(tmp_path, truck=TRUCK + AXLES + lines))

    assert (field, "trucks 1 (Blue), axles") == (fault.field, fault.where.split(", ", 1)[1])


def with_axles(line: str) -> str:
    """Axles, this line of theirs put in or exchanged."""
    key = line.split(maxsplit=1)[0]
    kept = [one for one in AXLES.splitlines() if not one.startswith(key)]
    return "\n".join([*kept, 'load_on_rear = "80 %"', line])


@pytest.mark.parametrize(
    ("line", "field", "allowed"),
    [
        # 900 kg, with half of 60 kg of fuel, 70 kg of kit and a driver of 85 kg: 1,007.5 kg
        ('rear_max = "0.8 t"\n', "rear_max", "at least 1008 kg"),
        ('rear_max = "1007 kg"\n', "rear_max", "at least 1008 kg"),
        ('front_max = "1.3 t"\n', "front_max", "at least 1308 kg"),
        # 1,307.5 kg and a fifth of the 1,185 kg that the truck may load: 1,544.5 kg
        ('front_min = "1.6 t"\n', "front_min", "at most 1544 kg"),
    ],
)
def test_axles_that_no_load_suits(tmp_path: Path, line: str, field: str, allowed: str) -> None:
    """Over its limit when empty, or too light to steer however much is loaded."""
    fault = only(faults(tmp_path, truck=TRUCK + with_axles(line)))

    assert (field, allowed) == (fault.field, fault.allowed)
    assert "trucks 1 (Blue), axles" in fault.where


@pytest.mark.parametrize(
    "line", ['rear_max = "1008 kg"\n', 'front_max = "1308 kg"\n', 'front_min = "1544 kg"\n']
)
def test_axles_that_just_bear_something(tmp_path: Path, line: str) -> None:
    """A kilogram further they suit."""
    assert read(tmp_path, truck=TRUCK + with_axles(line)).trucks[0].axles


def test_one_slip_in_an_axle_is_one_fault(tmp_path: Path) -> None:
    """Axles at fault do not have to add up; where they do not, both are said as masses."""
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    slip = AXLES.replace('"1.2 t"', '"1,2 t"') + 'load_on_rear = "80 %"\n'
    apart = AXLES.replace('"1.2 t"', '"1.7 t"') + 'load_on_rear = "80 %"\n'

    assert "front_empty" == only(faults(tmp_path / "a", truck=TRUCK + slip)).field
    assert "1700 kg + 900 kg" == only(faults(tmp_path / "b", truck=TRUCK + apart)).said


def test_one_bad_limit_is_said_once(tmp_path: Path) -> None:
    """The gross limit is used twice with axles, and faulted once."""
    truck = TRUCK.replace('max = "3.5 t"', 'max = "3.5"')
    full = truck + AXLES + 'load_on_rear = "80 %"\n'

    assert "max" == only(faults(tmp_path, truck=full)).field


@pytest.mark.parametrize(
    ("lines", "strips"),
    [
        ("", 2),  # Austrian package text: 2 for a brood box
        ("brood_boxes = 2", 4),
        ("frames_of_bees = 11", 3),  # US label, from memory: one for each started 5 frames
        ('substance = "formic acid"', 2),
        ('substance = "thymol"\nper_colony = 1\nout_after = "20 days"\nout_before = "30 days"', 1),
    ],
)
def test_doses(tmp_path: Path, lines: str, strips: int) -> None:
    """By brood boxes or by frames of bees; what is typed from the label stands."""
    assert strips == read(tmp_path, f"[strips]\n{lines}\n").strips.per_colony


@pytest.mark.parametrize(
    ("lines", "field", "allowed"),
    [
        ("frames_of_bees = 11\nper_colony = 2", "frames_of_bees", "one of per_colony"),
        ("frames_of_bees = 11\nbrood_boxes = 2", "frames_of_bees", "one of per_colony"),
        ("brood_boxes = 2\nper_colony = 2", "brood_boxes", "one of per_colony"),
        # Leaflet doczz 2472508: 2 per hive, not for each of its boxes.
        ('substance = "formic acid"\nbrood_boxes = 2', "brood_boxes", "nothing: formic acid is"),
    ],
)
def test_doses_that_cannot_be(tmp_path: Path, lines: str, field: str, allowed: str) -> None:
    """Two keys that each tell the dose, and boxes where the hive is what counts."""
    fault = only(faults(tmp_path, f"[strips]\n{lines}\n"))

    assert field == fault.field
    assert fault.allowed.startswith(allowed)


def test_only_amitraz_is_dosed_by_frames_of_bees(tmp_path: Path) -> None:
    """For another substance the label says, and nobody guesses."""
    extra = '[strips]\nsubstance = "formic acid"\nframes_of_bees = 10\n'
    fault = only(faults(tmp_path, extra))

    assert ("frames_of_bees", "nothing: only amitraz is dosed so") == (fault.field, fault.allowed)
