"""Presets of driving and duty limits."""

import pytest

from runplanner.trade.driving import PRESETS, Preset


@pytest.mark.parametrize("preset", PRESETS.values(), ids=lambda preset: preset.id)
def test_a_preset_makes_hours_that_can_be_kept(preset: Preset) -> None:
    """Driving within duty, breaks of some length, and sources named."""
    hours = preset.hours(360, 1_200)
    assert hours.driving_max_min <= hours.duty_max_min
    assert 0 < hours.drive_break_after_min <= hours.driving_max_min
    assert 0 < hours.duty_break_after_min <= hours.duty_max_min
    assert hours.drive_break_min >= 15
    assert hours.duty_break_min >= 15
    assert preset.cited


def test_the_eu_preset_as_hours() -> None:
    """9 h driving, 45 min after 4.5 h, 13 h duty, work break after 6 h."""
    hours = PRESETS["eu"].hours(300, 1_260, normal_min=500, noon_min=700)
    assert (540, 270, 45) == (
        hours.driving_max_min, hours.drive_break_after_min, hours.drive_break_min,
    )  # fmt: skip
    assert (780, 360, 30) == (hours.duty_max_min, hours.duty_break_after_min, hours.duty_break_min)
    assert (300, 1_260, 500, 700) == (
        hours.start_min, hours.end_min, hours.normal_min, hours.noon_min,
    )  # fmt: skip


def test_where_no_break_is_asked_none_binds() -> None:
    """GB asks no driving break: it falls due only when driving is over anyway."""
    hours = PRESETS["gb"].hours(360, 1_200)
    assert hours.drive_break_after_min == hours.driving_max_min == 600


def test_the_cautious_preset_is_nowhere_looser() -> None:
    """Never above the EU's driving nor Great Britain's duty."""
    cautious, eu, gb = (PRESETS[name] for name in ("cautious", "eu", "gb"))
    assert cautious.driving_max_min <= min(eu.driving_max_min, gb.driving_max_min)
    assert cautious.duty_max_min <= min(eu.duty_max_min, gb.duty_max_min)
