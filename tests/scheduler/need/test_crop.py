"""Published curves and climate adjustments are in tests/checks/test_et_checks.py."""

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need.crop import (
    Stages,
    kc_climate_adjusted,
    kc_findings,
    kc_on,
    stage_curve_kc,
)
from scheduler.site import Plant, StageCurve, Zone
from tests.scheduler.need.made import day, days


def _curve() -> StageCurve:
    # FAO-56 Example 28 (p. 133), started on 1 May
    return StageCurve(
        start=day("2026-05-01"),
        initial_days=25,
        development_days=25,
        mid_days=30,
        late_days=20,
        kc_initial=0.15,
        kc_mid=1.19,
        kc_end=0.35,
    )


def _zone(**plant: Any) -> Zone:
    given = {"name": "shrubs", "kc_area": "bed", "kc_from": "measured"} | plant
    return Zone(
        id="Z4", name="block 4", area_m2=100.0, grown_in="soil", plant=Plant(**given)
    )


def test_one_coefficient_holds_every_day() -> None:
    plant = Plant(name="shrubs", kc=0.9, kc_area="bed")
    assert kc_on(plant, days("2026-06-01", 3)).tolist() == [0.9] * 3


def test_monthly_coefficients_step_on_the_first() -> None:
    months = tuple(0.1 * m for m in range(1, 13))
    plant = Plant(name="turf", kc_by_month=months, kc_area="bed")
    assert kc_on(plant, days("2026-06-30", 2)) == pytest.approx([0.6, 0.7])


def test_the_first_day_of_the_curve_is_its_start() -> None:
    # FAO-56 Example 28: day 40 has 0.77, day 95 0.56
    plant = Plant(name="beans", stages=_curve(), kc_area="bed")
    first = np.datetime64("2026-05-01")
    kc = kc_on(plant, np.array([first + 39, first + 94]))
    assert kc == pytest.approx([0.77, 0.56], abs=0.005)


@given(st.integers(-50, 300))
def test_the_curve_stays_between_its_coefficients(on: int) -> None:
    kc = stage_curve_kc(
        on, Stages(25, 25, 30, 20), kc_initial=0.15, kc_mid=1.19, kc_end=0.35
    )
    assert 0.15 <= float(kc) <= 1.19


def test_the_standard_climate_changes_nothing() -> None:
    kc = kc_climate_adjusted(1.15, wind_2m_m_per_s=2.0, rh_min=0.45, height_m=2.0)
    assert float(kc) == pytest.approx(1.15)


@pytest.mark.parametrize(("kc_tab", "height"), [(0.44, 2.0), (1.15, 0.05)])
def test_low_coefficients_and_low_plants_stay_as_tabled(
    kc_tab: float, height: float
) -> None:
    kc = kc_climate_adjusted(kc_tab, wind_2m_m_per_s=5.0, rh_min=0.2, height_m=height)
    assert float(kc) == kc_tab


def test_a_storm_counts_as_the_upper_bound_of_wind() -> None:
    def kc(wind: float) -> float:
        return float(
            kc_climate_adjusted(1.1, wind_2m_m_per_s=wind, rh_min=0.45, height_m=1.0)
        )

    assert kc(12.0) == kc(6.0) > kc(5.0)


# --- findings -------------------------------------------------------------------


def test_a_plain_coefficient_has_no_finding() -> None:
    assert kc_findings(_zone(kc=0.9), days("2026-06-01")) == ()


def test_a_pot_coefficient_on_the_bed_is_found_out() -> None:
    (found,) = kc_findings(_zone(kc=3.1), days("2026-06-01"))
    assert found.level == "warning"
    assert "3.1 on the bed" in found.what
    assert "pot top" in found.fix


def test_a_bed_coefficient_on_the_pot_top_is_found_out() -> None:
    (found,) = kc_findings(_zone(kc=0.2, kc_area="pot top"), days("2026-06-01"))
    assert "0.2 on the pot top" in found.what


def test_a_high_coefficient_on_the_pot_top_is_usual() -> None:
    # Regan 1996, HortScience 31(6): below 1 to above 5 on the container top
    assert kc_findings(_zone(kc=4.5, kc_area="pot top"), days("2026-06-01")) == ()


def test_a_coefficient_of_unknown_origin_is_a_note() -> None:
    (found,) = kc_findings(_zone(kc=0.9, kc_from=""), days("2026-06-01"))
    assert found.level == "note"


@pytest.mark.parametrize(
    ("first", "says"),
    [("2026-08-08", "after it 0.35"), ("2026-04-26", "before it 0.15")],
)
def test_days_outside_the_curve_are_said(first: str, says: str) -> None:
    (found,) = kc_findings(_zone(stages=_curve()), days(first))
    assert says in found.what
    assert "2026-05-01 to 2026-08-08" in found.what


def test_the_last_day_of_the_curve_is_inside() -> None:
    assert kc_findings(_zone(stages=_curve()), days("2026-08-02")) == ()


def test_a_zone_without_plant_has_nothing_to_say() -> None:
    off = Zone(id="Z9", name="empty", area_m2=10.0, grown_in="soil", watered="off")
    assert kc_findings(off, days("2026-06-01")) == ()
