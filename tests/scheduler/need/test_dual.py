"""Published dual coefficients are in tests/checks/test_et_checks.py."""

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need.dual import (
    Skin,
    cover_fraction,
    evaporation_coefficient,
    evaporation_reduction,
    kc_max,
    skin_day,
    skin_days,
    total_evaporable_mm,
)

LOAM = Skin(20.0, 9.0)


# FAO-56 Example 32 (p. 150): cotton under sprinklers, Kcb 0.9, 3 m/s, 20 %, 1 m
def test_cotton_under_sprinklers_uses_all_that_can_be_used() -> None:
    most = kc_max(0.9, wind_2m_m_per_s=3.0, rh_min=0.2, height_m=1.0)
    cover = cover_fraction(0.9, most=most, height_m=1.0)
    ke = evaporation_coefficient(1.0, most=most, kcb=0.9, wet_and_bare=1.0 - cover)
    assert float(cover) == pytest.approx(0.53, abs=0.005)
    assert 0.9 + float(ke) == pytest.approx(1.30, abs=0.005)


# FAO-56 Example 35 (p. 154): 0.23 and 0.10, Ze 0.10 m: TEW 18 mm
def test_total_evaporable_water_of_the_example() -> None:
    assert total_evaporable_mm(0.23, 0.10) == pytest.approx(18.0)


def test_the_upper_limit_lies_above_a_high_basal_coefficient() -> None:
    most = kc_max(1.25, wind_2m_m_per_s=2.0, rh_min=0.45, height_m=1.0)
    assert float(most) == pytest.approx(1.30)


@pytest.mark.parametrize(("gone", "kr"), [(0.0, 1.0), (9.0, 1.0), (20.0, 0.0)])
def test_the_ground_evaporates_freely_until_its_ready_water_is_gone(
    gone: float, kr: float
) -> None:
    reduction = evaporation_reduction(gone, total_mm=20.0, readily_mm=9.0)
    assert float(reduction) == kr


def test_bare_ground_without_leaves_has_no_cover() -> None:
    assert float(cover_fraction(0.1, most=1.2, height_m=0.3)) == 0.0


def test_water_beyond_what_is_gone_drains() -> None:
    _, _, _, drained = skin_day(12.0, 40.0, LOAM, (1.2, 0.3, 0.9), 5.0)
    assert drained == pytest.approx(28.0)


def test_a_day_of_the_loop_is_a_day_of_the_formulas() -> None:
    kr, ke, end, _ = skin_day(14.0, 0.0, LOAM, (1.2, 0.3, 0.8), 5.0)
    reduction = evaporation_reduction(14.0, total_mm=20.0, readily_mm=9.0)
    expected = evaporation_coefficient(reduction, most=1.2, kcb=0.3, wet_and_bare=0.8)
    assert kr == pytest.approx(float(reduction))
    assert ke == pytest.approx(float(expected))
    assert end == pytest.approx(14.0 + ke * 5.0 / 0.8)


def test_no_days_give_nothing() -> None:
    none = np.zeros(0)
    days = skin_days(
        0.0, water_mm=none, skin=LOAM, limits=(none, none, none), eto_mm_per_day=none
    )
    assert days.ke.size == 0


SHARE = st.floats(0.01, 1.0)
KCB = st.floats(0.15, 1.15)


@given(st.floats(0.0, 20.0), SHARE, KCB)
def test_evaporation_stays_below_what_plants_leave(
    gone: float, bare: float, kcb: float
) -> None:
    most = float(kc_max(kcb, wind_2m_m_per_s=2.0, rh_min=0.45, height_m=0.5))
    _, ke, _, _ = skin_day(gone, 0.0, LOAM, (most, kcb, bare), 5.0)
    assert 0.0 <= ke <= most - kcb + 1e-12


@given(st.floats(0.0, 20.0), st.floats(0.0, 60.0), SHARE, st.floats(0.0, 12.0))
def test_the_skin_never_loses_more_than_it_holds(
    gone: float, water: float, bare: float, eto: float
) -> None:
    _, _, end, drained = skin_day(gone, water, LOAM, (1.2, 0.3, bare), eto)
    assert 0.0 <= end <= 20.0
    assert drained >= 0.0


@given(st.floats(0.0, 20.0), st.floats(0.0, 20.0))
def test_wetter_ground_never_evaporates_less(gone: float, water: float) -> None:
    def ke(fell: float) -> float:
        return skin_day(gone, fell, LOAM, (1.2, 0.3, 0.9), 5.0)[1]

    assert ke(water) >= ke(0.0)


@given(st.lists(st.floats(0.0, 30.0), min_size=1, max_size=20), st.floats(0.1, 10.0))
def test_what_evaporates_came_from_the_skin_or_fell_on_it(
    water: list[float], eto: float
) -> None:
    n: Any = len(water)
    one = np.ones(n)
    days = skin_days(
        0.0,
        water_mm=np.array(water),
        skin=LOAM,
        limits=(1.2 * one, 0.3 * one, one),
        eto_mm_per_day=eto * one,
    )
    evaporated = float((days.ke * eto).sum())
    left = sum(water) - float(days.drained_mm.sum()) + float(days.depletion_mm[-1])
    # a day that would pass dry ends dry
    assert evaporated >= left - 1e-9
