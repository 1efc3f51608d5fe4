"""Readings to depths and rates: exact units, worked tests, what is left out."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import ReadingsError, TooFewCansError
from scheduler.field.catch import (
    catch,
    caught_depth_mm,
    gross_rate_mm_per_h,
    mouth_area_cm2,
    package_gross_rate_mm_per_h,
)
from scheduler.field.uniformity import uniformity
from scheduler.record import Exclusion
from scheduler.site import Package
from tests.scheduler.field.made import (
    GROSS_MM_PER_H,
    METRIC_MM,
    MISSING_CODES,
    MISSING_ML,
    MOUTH_CM2,
    run,
)


def test_an_inch_of_water_fills_a_can_as_the_memory_aid_says() -> None:
    # 1 inch = 116, 158, 206, 232, 463 mL for mouths of 3, 3.5, 4, 4.25, 6 in (derived)
    for inches, ml in ((3, 116), (3.5, 158), (4, 206), (4.25, 232), (6, 463)):
        area = mouth_area_cm2(inches * 25.4)
        assert float(caught_depth_mm(ml, mouth_area_cm2=area)) == pytest.approx(
            25.4, rel=0.003
        )


def test_the_first_visit_has_its_worked_rates() -> None:
    found = catch(run(), mouth_area_cm2=MOUTH_CM2, gross_rate_mm_per_h=GROSS_MM_PER_H)
    assert found.mean_ml == pytest.approx(55.8, abs=0.05)
    assert found.net_rate_mm_per_h is not None
    assert found.net_rate_mm_per_h / 25.4 == pytest.approx(0.48, abs=0.005)
    assert found.net_over_gross == pytest.approx(0.98, abs=0.005)


def test_metric_cans_have_their_worked_rate() -> None:
    found = catch(run(METRIC_MM, unit="mm", minutes=45.0), mouth_area_cm2=None)
    assert found.net_rate_mm_per_h == pytest.approx(15.8, abs=0.05)
    assert found.mean_depth_mm == pytest.approx(11.84, abs=0.006)


def test_the_base_of_the_can_doubles_the_rate_and_leaves_the_uniformity() -> None:
    right = catch(run(), mouth_area_cm2=MOUTH_CM2)
    wrong = catch(run(), mouth_area_cm2=mouth_area_cm2(76.2))
    assert wrong.net_rate_mm_per_h is not None
    assert right.net_rate_mm_per_h is not None
    ratio = wrong.net_rate_mm_per_h / right.net_rate_mm_per_h
    assert ratio == pytest.approx((4.25 / 3.0) ** 2)
    one, two = uniformity(wrong.depth_mm), uniformity(right.depth_mm)
    assert one.du_lq == pytest.approx(two.du_lq)


def test_a_radius_entered_for_the_diameter_makes_the_rate_four_times() -> None:
    right = catch(run(), mouth_area_cm2=mouth_area_cm2(108.0)).mean_depth_mm
    wrong = catch(run(), mouth_area_cm2=mouth_area_cm2(54.0)).mean_depth_mm
    assert wrong == pytest.approx(4 * (right or 0))


def test_blank_and_knocked_cans_are_not_zero_and_a_zero_is_kept() -> None:
    found = catch(run(MISSING_ML, codes=MISSING_CODES), mouth_area_cm2=MOUTH_CM2)
    assert found.n_cans == 22
    assert found.mean_ml == pytest.approx(41.1, abs=0.05)
    assert uniformity(found.depth_mm).du_lq == pytest.approx(0.692, abs=5e-4)


def test_a_zero_left_out_with_a_reason_gives_the_other_result() -> None:
    out = (Exclusion(0, 5, "arc blocked by a leaf"),)
    one = run(MISSING_ML, codes=MISSING_CODES, excluded=out)
    left_out = catch(one, mouth_area_cm2=MOUTH_CM2)
    kept = catch(one, mouth_area_cm2=MOUTH_CM2, keep_excluded=True)
    assert (left_out.n_cans, kept.n_cans) == (21, 22)
    assert uniformity(left_out.depth_mm).du_lq == pytest.approx(0.815, abs=5e-4)
    assert left_out.mean_ml == pytest.approx(43.1, abs=0.05)


def test_treating_all_three_as_zero_would_give_a_third_result() -> None:
    zeros = np.nan_to_num(np.array(MISSING_ML, dtype=float))
    found = catch(run(zeros), mouth_area_cm2=MOUTH_CM2)
    assert uniformity(found.depth_mm).du_lq == pytest.approx(0.451, abs=5e-4)


def test_without_a_mouth_only_ratios_are_known() -> None:
    found = catch(run(), mouth_area_cm2=None)
    assert found.is_relative
    assert found.net_rate_mm_per_h is None
    assert uniformity(found.depth_mm).du_lq == pytest.approx(0.72, abs=0.005)


def test_without_minutes_the_depth_is_known_and_the_rate_is_not() -> None:
    found = catch(run(minutes=None), mouth_area_cm2=MOUTH_CM2)
    assert found.mean_depth_mm is not None
    assert found.net_rate_mm_per_h is None


def test_fluid_ounces_are_the_us_ones() -> None:
    ml = catch(run([[50.0, 60.0, 40.0, 50.0]]), mouth_area_cm2=MOUTH_CM2)
    oz = np.array([[50.0, 60.0, 40.0, 50.0]]) / 29.5735295625
    other = catch(run(oz, unit="fl_oz"), mouth_area_cm2=MOUTH_CM2)
    assert other.mean_depth_mm == pytest.approx(ml.mean_depth_mm)


@given(st.floats(1.0, 500.0), st.floats(10.0, 200.0), st.floats(1.0, 120.0))
def test_depth_over_time_is_the_rate(
    volume: float, area: float, minutes: float
) -> None:
    one = run([[volume] * 4], minutes=minutes)
    found = catch(one, mouth_area_cm2=area)
    assert found.mean_depth_mm is not None
    assert found.net_rate_mm_per_h == pytest.approx(found.mean_depth_mm * 60 / minutes)


def test_three_readings_are_refused() -> None:
    with pytest.raises(TooFewCansError, match="only 3"):
        catch(run([[40.0, 41.0, 42.0]]), mouth_area_cm2=MOUTH_CM2)


@pytest.mark.parametrize(
    ("readings", "says"),
    [([[40.0, -12.0, 41.0, 42.0]], "negative"), ([[0.0] * 8], "no water")],
)
def test_readings_that_cannot_be_are_refused(
    readings: list[list[float]], says: str
) -> None:
    with pytest.raises(ReadingsError, match=says):
        catch(run(readings), mouth_area_cm2=MOUTH_CM2)


def test_gross_rate_is_flow_over_the_ground_of_a_head() -> None:
    # 96.25 gpm/ft2 (231 x 60 / 144, exact; handbooks print 96.3)
    found = gross_rate_mm_per_h(4.6 * 3.785411784, area_per_head_m2=900 * 0.09290304)
    assert found == pytest.approx(GROSS_MM_PER_H, rel=1e-6)


def test_a_package_without_flow_has_no_gross_rate() -> None:
    assert package_gross_rate_mm_per_h(Package(id="p", spacing_m=9.0)) is None
