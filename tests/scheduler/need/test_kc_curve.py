"""A coefficient through the year; the curve itself is FAO-56 Example 28 (p. 133)."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need.crop import Stages
from scheduler.need.kc_curve import PlantKc, Season
from tests.scheduler.need.made import day, days

# FAO-56 Example 28: Kc 0.15, 1.19, 0.35 over 25, 25, 30 and 20 days
LEVELS = (0.15, 1.19, 0.35)
STAGES = Stages(25, 25, 30, 20)


def _kc(*, every_year: bool = True) -> PlantKc:
    return PlantKc(LEVELS, Season(day("2026-05-01"), STAGES, every_year), "example")


def test_one_level_holds_every_day() -> None:
    kc = PlantKc((0.9,), None, "entered")
    assert kc.on(days("2026-06-01", 3)).tolist() == [0.9] * 3


def test_twelve_levels_step_on_the_first_of_the_month() -> None:
    kc = PlantKc(tuple(0.1 * m for m in range(1, 13)), None, "entered")
    assert kc.on(days("2026-06-30", 2)) == pytest.approx([0.6, 0.7])


def test_the_first_day_of_the_curve_is_its_start() -> None:
    # FAO-56 Example 28: day 40 has 0.77, day 95 0.56
    first = np.datetime64("2026-05-01")
    kc = _kc().on(np.array([first + 39, first + 94]))
    assert kc == pytest.approx([0.77, 0.56], abs=0.005)


def test_the_second_year_goes_through_the_same_curve() -> None:
    assert (
        _kc().on(days("2027-05-01", 100)) == _kc().on(days("2026-05-01", 100))
    ).all()


def test_a_season_before_the_first_start_has_the_same_curve() -> None:
    assert (
        _kc().on(days("2025-05-01", 100)) == _kc().on(days("2026-05-01", 100))
    ).all()


def test_half_way_between_seasons_the_coefficient_is_half_way() -> None:
    # day 100 ends the season, day 366 begins the next: day 233 lies half way
    kc = _kc().on(np.array([np.datetime64("2026-05-01") + 232]))
    assert kc == pytest.approx([0.25])


def test_one_planting_holds_its_last_value() -> None:
    assert _kc(every_year=False).on(days("2027-06-01", 1)) == pytest.approx([0.35])


def test_the_mid_stage_of_the_calendar_is_the_curve_s() -> None:
    season = Season(day("2026-05-01"), STAGES, True)
    mid = season.stage_dates(2)
    assert (str(mid[0]), mid.size) == ("2026-06-20", 30)


@given(st.integers(0, 2000))
def test_the_curve_stays_between_its_coefficients(offset: int) -> None:
    kc = float(_kc().on(np.array([np.datetime64("2025-01-01") + offset]))[0])
    assert min(LEVELS) <= kc <= max(LEVELS)


def test_the_curve_makes_no_jump_in_three_years() -> None:
    kc = _kc().on(days("2025-01-01", 3 * 365))
    # its steepest stage, the last one, falls by 0.84 in 20 days
    assert np.abs(np.diff(kc)).max() == pytest.approx(0.84 / 20)
