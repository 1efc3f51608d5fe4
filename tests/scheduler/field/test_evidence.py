"""Which runs feed the week, and what stands in where there are none."""

import datetime as dt
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from scheduler.field.catch import mouth_area_cm2
from scheduler.field.evidence import zone_catch
from scheduler.field.guess import ZoneCatch
from scheduler.field.wind_during import SiteWind
from scheduler.record import BucketFlow, MeterCard, PressureReading, StatedResult
from scheduler.site import Package, Plant, Zone
from tests.scheduler.field.made import FIRST_VISIT_ML, can_test, run

TODAY = dt.date(2026, 6, 8)
METRIC = SiteWind(system="metric")
PACKAGE = Package(id="p", nozzle_flow_l_per_min=4.6 * 3.785411784, spacing_m=9.144)


def zone(**given: Any) -> Zone:
    plant = Plant(name="holly", kc=0.85, kc_area="bed")
    base: dict[str, Any] = {
        "id": "Z4", "name": "yard", "area_m2": 900.0, "grown_in": "pots",
        "plant": plant, "package": "p",
    }  # fmt: skip
    return Zone(**(base | given))


def found(*tests: Any, package: Package | None = PACKAGE, **given: Any) -> ZoneCatch:
    result, _ = zone_catch(zone(**given), package, tests, TODAY)
    assert result is not None
    return result


def test_shares_average_to_one() -> None:
    assert found(can_test(run())).share.mean() == pytest.approx(1.0)


def test_the_rate_is_that_of_the_cans() -> None:
    rate = found(can_test(run())).net_rate_mm_per_h
    assert rate / 25.4 == pytest.approx(0.48, abs=0.005)


def test_the_newest_condition_feeds_the_week() -> None:
    old = can_test(run(), date=dt.date(2026, 4, 1), condition="as found")
    new = can_test(
        run(np.full((3, 8), 50.0)), date=dt.date(2026, 5, 1), condition="after tune-up"
    )
    result = found(new, old)
    assert result.condition == "after tune-up"
    assert result.du_lq == pytest.approx(1.0)


def test_a_test_of_a_later_day_is_not_known_yet() -> None:
    later = can_test(run(np.full((3, 8), 50.0)), date=dt.date(2026, 7, 1))
    assert found(can_test(run()), later).du_lq == pytest.approx(0.72, abs=0.005)


def test_runs_on_one_grid_are_pooled_by_position() -> None:
    first = np.array(FIRST_VISIT_ML, dtype=float)
    turned = first.max() + first.min() - first
    result = found(can_test(run(first), run(turned, name="run2")))
    assert result.n_runs == 2
    assert result.du_lq == pytest.approx(1.0)


def test_a_longer_run_does_not_weigh_more() -> None:
    first = np.array(FIRST_VISIT_ML, dtype=float)
    twice = run(first * 2, minutes=60.0, name="run2")
    one, two = found(can_test(run(first))), found(can_test(run(first), twice))
    assert two.net_rate_mm_per_h == pytest.approx(one.net_rate_mm_per_h)


def test_runs_on_other_grids_are_not_mixed() -> None:
    other = run(np.full((4, 6), 50.0), name="run2")
    result, findings = zone_catch(zone(), PACKAGE, [can_test(run(), other)], TODAY)
    assert result is not None
    assert result.n_runs == 1
    assert any("different grids" in one.what for one in findings)


def test_a_bad_run_does_not_hide_a_good_one() -> None:
    dry = run(np.zeros((3, 8)), name="run2")
    result, findings = zone_catch(zone(), PACKAGE, [can_test(run(), dry)], TODAY)
    assert result is not None
    assert any(one.level == "stop" for one in findings)


def test_more_caught_than_delivered_blocks_the_zone() -> None:
    wrong = can_test(run(), mouth_area_cm2=mouth_area_cm2(76.2))
    result, findings = zone_catch(zone(), PACKAGE, [wrong], TODAY)
    assert result is None
    assert any("196 %" in one.what for one in findings)


def test_a_zone_without_test_is_assumed_with_a_warning() -> None:
    result, findings = zone_catch(zone(), PACKAGE, [], TODAY)
    assert result is not None
    # Univ. Florida AE194: below 0.60 is low; net is 70 to 100 % of gross
    # (common practice, no source)
    assert (result.basis, result.du_lq) == ("assumed", 0.60)
    assert result.net_rate_mm_per_h == pytest.approx(0.85 * 12.496, abs=0.01)
    assert [one.level for one in findings] == ["warning", "warning"]


def test_what_was_entered_replaces_the_assumption() -> None:
    result = found(assumed_du_lq=0.7, assumed_net_rate_mm_per_h=11.0)
    assert (result.du_lq, result.net_rate_mm_per_h) == (0.7, 11.0)


def test_a_zone_without_test_and_without_flow_stops() -> None:
    result, findings = zone_catch(zone(package=None), None, [], TODAY)
    assert result is None
    assert findings[0].level == "stop"


def test_a_test_without_mouth_gives_shares_and_asks_for_the_rate() -> None:
    result, findings = zone_catch(
        zone(), PACKAGE, [can_test(run(), mouth_area_cm2=None)], TODAY
    )
    assert result is not None
    assert result.basis == "measured"
    assert any("rate is assumed" in one.what for one in findings)


def test_a_stated_result_uses_the_formula_for_the_low_half_and_says_so() -> None:
    report = StatedResult(0.71, 12.0, "report of 2024")
    result, findings = zone_catch(zone(), PACKAGE, [can_test(stated=report)], TODAY)
    assert result is not None
    assert result.du_lh == pytest.approx(0.4 + 0.6 * 0.71)
    assert any("no cans" in one.what for one in findings)


def test_the_trace_of_the_rate_reaches_volume_mouth_and_minutes() -> None:
    names = [one.name for one in found(can_test(run())).rate_trace.chain()]
    assert {"mean_ml", "mouth_area_cm2", "run_min", "net_over_gross"} <= set(names)


def test_the_condition_named_last_on_a_date_counts() -> None:
    before = can_test(run())
    after = can_test(run(np.full((3, 8), 50.0)), condition="after tune-up")
    assert found(before, after).condition == "after tune-up"


def test_a_test_of_a_later_day_is_named() -> None:
    later = can_test(run(), date=dt.date(2027, 5, 1))
    _, findings = zone_catch(zone(), PACKAGE, [can_test(run()), later], TODAY)
    assert any("1 May 2027" in one.what for one in findings)


def test_a_test_without_any_run_says_why_the_zone_is_blocked() -> None:
    result, findings = zone_catch(zone(), PACKAGE, [can_test()], TODAY)
    assert result is None
    assert [one.level for one in findings] == ["stop"]


def test_runs_that_share_no_place_fall_back_on_the_last() -> None:
    none = np.nan
    left = run([[40, 41, 42, 43, none, none, none, none]])
    right = run([[none, none, none, none, 44, 45, 46, 47]], name="run2")
    result, findings = zone_catch(zone(), PACKAGE, [can_test(left, right)], TODAY)
    assert result is not None
    assert result.n_runs == 1
    assert any("share 0 places" in one.what for one in findings)


def test_the_trace_of_pooled_runs_gives_the_rate_of_the_week() -> None:
    less = run(np.array(FIRST_VISIT_ML) * 0.8, name="run2")
    result = found(can_test(run(), less))
    each = [float(one.value or 0) for one in result.rate_trace.inputs]
    assert np.mean(each) == pytest.approx(result.net_rate_mm_per_h)


def test_the_trace_of_pooled_runs_keeps_every_run_apart() -> None:
    less = run(np.array(FIRST_VISIT_ML) * 0.8, name="run2")
    trace = found(can_test(run(), less)).rate_trace
    assert trace.find("run 1 mean_ml") != trace.find("run 2 mean_ml")


def test_a_trial_of_another_package_does_not_feed_the_week() -> None:
    own = can_test(run(), date=dt.date(2026, 4, 1))
    trial = can_test(
        run(np.full((3, 8), 50.0)), date=dt.date(2026, 5, 1), package="other"
    )
    result, said = zone_catch(zone(), PACKAGE, (own, trial), TODAY)
    assert result is not None
    assert result.date == own.date
    assert any("of package other" in one.what for one in said)


def test_only_runs_of_the_irrigation_wind_feed_the_week() -> None:
    windy = replace(run(np.full((3, 8), 50.0), name="run2"), wind_m_per_s=3.2)
    calm = replace(run(), wind_m_per_s=1.0)
    wind = SiteWind(usual_m_per_s=3.0)
    test = can_test(calm, windy)
    result, said = zone_catch(zone(), PACKAGE, [test], TODAY, site_wind=wind)
    assert result is not None
    assert result.n_runs == 1
    assert result.du_lq == pytest.approx(1.0)
    assert "run1 (calm)" in result.du_trace.note
    assert all(one.level != "warning" for one in said)


def test_earlier_runs_of_the_same_condition_are_pooled_and_named() -> None:
    first = np.array(FIRST_VISIT_ML, dtype=float)
    turned = run(first.max() + first.min() - first)
    result = found(can_test(run(), date=dt.date(2026, 4, 20)), can_test(turned))
    assert result.n_runs == 2
    assert result.du_lq == pytest.approx(1.0)
    assert "2026-04-20-Z4 run1" in result.rate_trace.note


def test_as_found_stands_in_the_trace_as_left_out() -> None:
    old = can_test(run(), date=dt.date(2026, 4, 20))
    new = can_test(run(), condition="after tune-up")
    assert "2026-04-20-Z4: as found, another condition" in found(old, new).du_trace.note


def test_a_slip_in_an_earlier_test_does_not_block_the_newest() -> None:
    wrong = can_test(
        run(), date=dt.date(2026, 4, 20), mouth_area_cm2=mouth_area_cm2(76.2)
    )
    result, findings = zone_catch(zone(), PACKAGE, [wrong, can_test(run())], TODAY)
    assert result is not None
    assert all(one.level != "stop" for one in findings)


def test_the_chain_says_which_gross_rate_was_the_best_known() -> None:
    bucket = BucketFlow("test.toml:9", "head 1", "head", 17.4, 60.0)
    chain = found(can_test(run(), flows=(bucket,))).rate_trace
    gross = chain.find("gross_rate_mm_per_h")
    assert gross is not None
    assert gross.note.startswith("best known: buckets")


def test_runs_at_unlike_pressures_keep_their_own_gross_rate_in_the_chain() -> None:
    package = PACKAGE.model_copy(update={"pressure_kpa": 310.0})
    gauges = tuple(
        PressureReading("test.toml:9", "head 1", "head", kpa, run=name)
        for name, kpa in (("run1", 310.0), ("run2", 280.0))
    )
    test = can_test(run(), run(name="run2"), pressures=gauges)
    chain = found(test, package=package).rate_trace
    first, second = (chain.find(f"run {i} measured_pressure_kpa") for i in (1, 2))
    assert first is not None
    assert second is not None
    assert [first.value, second.value] == pytest.approx([310.0, 280.0])


def test_a_meter_stands_in_the_chain_and_where_it_is_off_that_is_said() -> None:
    dial = MeterCard("test.toml:9", 0.5, 0.5 + 5.6, "m3", minutes=30.0)
    result, said = zone_catch(
        zone(),
        PACKAGE,
        [can_test(run(), meter=dial)],
        TODAY,
        site_wind=SiteWind(system="metric"),
    )
    assert result is not None
    assert result.rate_trace.find("meter_rate_mm_per_h") is not None
    assert result.rate_trace.find("zone_area_m2") is not None
    assert said == ()


def test_a_meter_that_is_off_is_said_in_the_units_of_the_site() -> None:
    dial = MeterCard("test.toml:9", 0.5, 0.5 + 56.0, "m3", minutes=30.0)
    _, said = zone_catch(
        zone(),
        PACKAGE,
        [can_test(run(), meter=dial)],
        TODAY,
        site_wind=SiteWind(system="metric"),
    )
    (one,) = (each for each in said if "the meter must be off" in each.what)
    assert "mm/h" in one.what


def test_the_wind_of_the_runs_goes_with_them() -> None:
    runs = (
        replace(run(name=f"run{i}"), wind_m_per_s=w) for i, w in ((1, 1.0), (2, 2.0))
    )
    result, _ = zone_catch(zone(), PACKAGE, [can_test(*runs)], TODAY, site_wind=METRIC)
    assert result is not None
    assert result.wind_m_per_s == pytest.approx(1.5)


def test_one_run_of_unknown_wind_leaves_the_wind_unknown() -> None:
    runs = (run(), replace(run(name="run2"), wind_m_per_s=2.0))
    result, _ = zone_catch(zone(), PACKAGE, [can_test(*runs)], TODAY, site_wind=METRIC)
    assert result is not None
    assert result.wind_m_per_s is None


def test_the_wind_is_that_of_the_run_that_counts() -> None:
    other = replace(run(np.full((4, 6), 50.0), name="run2"), wind_m_per_s=2.0)
    first = replace(run(), wind_m_per_s=1.0)
    result, _ = zone_catch(
        zone(), PACKAGE, [can_test(first, other)], TODAY, site_wind=METRIC
    )
    assert result is not None
    assert (result.n_runs, result.wind_m_per_s) == (1, 2.0)
