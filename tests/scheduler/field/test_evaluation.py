"""Every test worked up: what is kept visible, what a bad run does to the rest."""

import numpy as np
import pytest

from scheduler.field.catch import mouth_area_cm2
from scheduler.field.evaluation import evaluated_run, evaluated_test, net_range
from scheduler.record import BucketFlow, Exclusion, MeterCard
from scheduler.site import Package
from tests.scheduler.field.made import (
    FIRST_VISIT_ML,
    MISSING_CODES,
    MISSING_ML,
    MOUTH_CM2,
    can_test,
    run,
)

PACKAGE = Package(id="p", nozzle_flow_l_per_min=4.6 * 3.785411784, spacing_m=9.144)


def test_the_map_has_the_cans_where_they_stood() -> None:
    found = evaluated_run(run(), mouth_area_cm2=MOUTH_CM2, with_ranges=False)
    assert found.depth_map_mm.shape == (3, 8)
    assert found.depth_map_mm[2, 4] == pytest.approx(33 / MOUTH_CM2 * 10)


def test_a_hole_in_the_map_stays_a_hole() -> None:
    one = run(MISSING_ML, codes=MISSING_CODES)
    found = evaluated_run(one, mouth_area_cm2=MOUTH_CM2, with_ranges=False)
    assert np.isnan(found.depth_map_mm[0, 4])
    assert found.codes[2][3] == "k"


def test_the_driest_quarter_is_located() -> None:
    found = evaluated_run(run(), mouth_area_cm2=MOUTH_CM2, with_ranges=False)
    assert set(found.driest) == {(2, 4), (1, 5), (0, 7), (0, 0), (2, 1), (1, 4)}


def test_the_wettest_quarter_is_located() -> None:
    found = evaluated_run(run(), mouth_area_cm2=MOUTH_CM2, with_ranges=False)
    # 74, 71, 70, 69, 68 and 66 mL
    assert set(found.wettest) == {(1, 2), (0, 5), (2, 7), (1, 3), (1, 7), (0, 4)}


def test_both_results_stay_visible_when_a_can_is_left_out() -> None:
    out = (Exclusion(0, 5, "arc blocked"),)
    one = run(MISSING_ML, codes=MISSING_CODES, excluded=out)
    found = evaluated_run(one, mouth_area_cm2=MOUTH_CM2, with_ranges=False)
    assert found.as_kept is not None
    assert found.uniformity.du_lq == pytest.approx(0.815, abs=5e-4)
    assert found.as_kept.du_lq == pytest.approx(0.692, abs=5e-4)


def test_the_range_of_the_rate_is_that_of_the_mean() -> None:
    found = evaluated_run(run(), mouth_area_cm2=MOUTH_CM2)
    low, high = net_range(found.catch, found.ranges)
    net = found.catch.net_rate_mm_per_h
    assert low is not None
    assert high is not None
    assert net is not None
    assert low < net < high


def test_a_bad_run_does_not_hide_the_good_one() -> None:
    dry = run(np.zeros((3, 8)), name="run2")
    found = evaluated_test(can_test(run(), dry), None, PACKAGE, with_ranges=False)
    assert [one.run for one in found.runs] == ["run1"]
    assert any(one.level == "stop" for one in found.findings)


def test_runs_of_one_grid_are_also_judged_together() -> None:
    first = np.array(run().reading)
    turned = run(first.max() + first.min() - first, name="run2")
    found = evaluated_test(can_test(run(), turned), None, None, with_ranges=False)
    assert found.pooled is not None
    # several waterings are more even than one
    assert found.pooled.du_lq == pytest.approx(1.0)


def test_gross_rate_comes_from_the_package() -> None:
    found = evaluated_test(can_test(run()), None, PACKAGE, with_ranges=False)
    assert found.runs[0].catch.net_over_gross == pytest.approx(0.98, abs=0.005)


def test_a_quick_look_stops_where_the_plan_stops() -> None:
    base = can_test(run(), mouth_area_cm2=mouth_area_cm2(76.2))
    found = evaluated_test(base, None, PACKAGE, with_ranges=False)
    assert [one.level for one in found.findings] == ["stop"]


def test_a_run_that_cannot_be_is_not_judged_together_with_the_others() -> None:
    package = Package(id="p", nozzle_flow_l_per_min=17.41, spacing_m=9.144)
    soaked = np.array(FIRST_VISIT_ML) * np.linspace(2.0, 9.0, 8)
    test = can_test(run(), run(soaked, name="run2"))
    found = evaluated_test(test, None, package, with_ranges=False)
    assert len(found.runs) == 2
    assert found.pooled is not None
    alone = found.runs[0].uniformity.du_lq
    assert found.pooled.du_lq == pytest.approx(alone)


def test_runs_are_judged_together_by_the_minute_as_the_week_pools_them() -> None:
    mirrored = 3 * np.array(FIRST_VISIT_ML)[:, ::-1]
    test = can_test(run(), run(mirrored, name="run2", minutes=90.0))
    even = can_test(run(), run(mirrored / 3, name="run2"))
    long, short = (
        evaluated_test(one, None, None, with_ranges=False).pooled
        for one in (test, even)
    )
    assert long is not None
    assert short is not None
    assert long.du_lq == pytest.approx(short.du_lq)


def test_two_runs_tell_of_another_night() -> None:
    mirrored = np.array(FIRST_VISIT_ML)[:, ::-1]
    test = can_test(run(), run(mirrored, name="run2"))
    found = evaluated_test(test, None, None, resamples=500).together
    assert found is not None
    assert found.nights is not None
    assert found.nights.one_night is not None
    assert (found.n_runs, found.n_days, found.is_upper_bound) == (2, 1, False)


def test_one_run_is_an_upper_bound_and_no_other_night() -> None:
    found = evaluated_test(can_test(run()), None, None, resamples=500).together
    assert found is not None
    assert found.nights is not None
    assert found.nights.one_night is None
    assert found.is_upper_bound


def test_the_driest_window_is_found_on_the_map() -> None:
    found = evaluated_run(run(), mouth_area_cm2=MOUTH_CM2, with_ranges=False)
    first = found.driest_windows[0]
    # 33 of a mean of 55.83 is the driest can
    assert (first.row, first.column) == (2, 4)
    assert first.scheduling_coefficient == pytest.approx(1340 / 24 / 33)


def test_buckets_count_before_the_package_in_the_net_over_gross() -> None:
    # 5.2 gpm in the buckets where the package says 4.6
    bucket = BucketFlow("test.toml:9", "head 1", "head", 5.2 * 3.785411784, 60.0)
    found = evaluated_test(
        can_test(run(), flows=(bucket,)), None, PACKAGE, with_ranges=False
    )
    caught = found.runs[0].catch
    assert caught.gross_from == "buckets"
    assert caught.net_over_gross == pytest.approx(0.977 * 4.6 / 5.2, abs=2e-3)


def test_pressure_flow_and_meter_are_judged_with_the_test() -> None:
    dial = MeterCard("test.toml:9", 0.0, 10.0, "m3", minutes=30.0)
    found = evaluated_test(
        can_test(run(), meter=dial), None, PACKAGE, with_ranges=False
    )
    assert found.hydraulics is not None
    assert found.hydraulics.meter is not None
    assert found.hydraulics.meter.volume_m3 == 10.0
