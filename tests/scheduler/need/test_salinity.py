"""Leaching requirement, salt in the long run, salt stress, and what is refused.

Published rows of FAO-29 and FAO-56 are computed in tests/checks.
"""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import SchedulerError
from scheduler.need.salinity import (
    depth_with_leaching_mm,
    leaching_requirement,
    pot_leaching_fraction,
    salt_stress_ks,
    salt_tolerance,
    soil_ec_ds_per_m,
    water_and_salt_ks,
)

BEAN = {"threshold_ds_per_m": 1.0, "loss_per_ec": 0.19, "ky": 1.15}


def test_a_crop_of_the_table_has_both_ends_of_a_printed_range() -> None:
    # FAO-56 Table 23: strawberry 1.0 to 1.5 dS/m, 11 to 33 per cent
    crop = salt_tolerance("strawberry")
    assert (crop.threshold_low, crop.threshold_high) == (1.0, 1.5)
    assert (crop.loss_low, crop.loss_high) == (0.11, 0.33)


def test_salt_below_the_threshold_costs_nothing() -> None:
    assert salt_stress_ks(0.9, **BEAN) == 1.0


# FAO-56 (1998) Example 39: Dr 50 to 100 mm, TAW 110, RAW 44, with salt
@pytest.mark.parametrize(
    ("depletion_mm", "ks"),
    [(50, 0.83), (60, 0.69), (70, 0.56), (80, 0.42), (90, 0.28), (100, 0.14)],
)
def test_dry_and_salty_soil_is_as_in_the_worked_example(
    depletion_mm: float, ks: float
) -> None:
    salt = salt_stress_ks(1.5, **BEAN)
    both = water_and_salt_ks(
        depletion_mm, total_mm=110.0, allowed_mm=44.0, salt_ks=salt
    )
    # the book multiplies factors that it has rounded to two digits
    assert float(both) == pytest.approx(ks, abs=0.011)


def test_moist_soil_is_left_with_the_stress_of_its_salt() -> None:
    ks = water_and_salt_ks(np.array([0.0, 44.0]), total_mm=110.0, allowed_mm=44.0,
                           salt_ks=0.9)  # fmt: skip
    assert ks.tolist() == [0.9, 0.9]


@given(ec=st.floats(0.1, 5.0), lf=st.floats(0.01, 0.9))
def test_the_requirement_of_the_salt_that_a_leaching_leads_to_is_near_it(
    ec: float, lf: float
) -> None:
    # FAO-56 eq. 93 turned round is LR = ECw / (5 ECe - ECw): the same fraction
    back = leaching_requirement(ec, soil_ec_ds_per_m(ec, leaching=lf))
    assert back == pytest.approx(lf)


@given(water=st.floats(0.1, 3.0), more=st.floats(0.01, 2.0))
def test_saltier_water_never_needs_less_leaching(water: float, more: float) -> None:
    assert leaching_requirement(water + more, 6.0) > leaching_requirement(water, 6.0)


@given(leaching=st.floats(0.0, 0.95), et=st.floats(0.0, 500.0))
def test_what_stays_of_the_applied_depth_is_the_use(leaching: float, et: float) -> None:
    depth = depth_with_leaching_mm(et, leaching=leaching)
    assert depth * (1 - leaching) == pytest.approx(et)


@pytest.mark.parametrize("water_ec", [5.0, 6.0])
def test_water_of_five_times_the_allowed_salt_is_refused(water_ec: float) -> None:
    with pytest.raises(SchedulerError, match="no leaching holds that"):
        leaching_requirement(water_ec, 1.0)


def test_beyond_half_of_the_yield_no_stress_is_computed() -> None:
    # FAO-56: ECe below threshold + 50 / b = 1 + 50 / 19 = 3.63
    assert salt_stress_ks(3.6, **BEAN) > 0
    with pytest.raises(SchedulerError, match="half of the yield"):
        salt_stress_ks(3.64, **BEAN)


@pytest.mark.parametrize("wrong", [0.0, -1.0, math.nan, math.inf])
def test_a_conductivity_that_is_none_is_refused(wrong: float) -> None:
    with pytest.raises(SchedulerError, match="EC of the water"):
        leaching_requirement(wrong, 2.0)
    with pytest.raises(SchedulerError, match="EC of the leachate"):
        pot_leaching_fraction(1.0, wrong)


def test_without_leaching_salt_has_no_end() -> None:
    with pytest.raises(SchedulerError, match="the leaching is 0"):
        soil_ec_ds_per_m(1.0, leaching=0.0)


def test_all_of_the_water_cannot_drain() -> None:
    with pytest.raises(SchedulerError, match="below 1"):
        depth_with_leaching_mm(10.0, leaching=1.0)


def test_a_leachate_no_saltier_than_the_water_is_refused() -> None:
    with pytest.raises(SchedulerError, match="no more salt than the water"):
        pot_leaching_fraction(1.0, 1.0)


def test_all_held_water_cannot_be_free_of_stress() -> None:
    with pytest.raises(SchedulerError, match="allow a part"):
        water_and_salt_ks(10.0, total_mm=40.0, allowed_mm=40.0, salt_ks=1.0)
