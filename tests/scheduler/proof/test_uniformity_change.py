"""Uniformity before and after a day: which tests, which runs, what is proven."""

import datetime as dt
from dataclasses import replace

import pytest

from scheduler.field.evaluation import evaluated_site
from scheduler.proof.uniformity_change import UniformityChange, uniformity_changes
from scheduler.record import CanRun, CanTest, History, StatedResult
from tests.scheduler.field.made import can_test
from tests.scheduler.field.made import run as can_run
from tests.scheduler.proof.made import site, zone

CHANGE = dt.date(2026, 5, 18)
TODAY = dt.date(2026, 6, 8)
EVEN = [[50, 51, 49, 50, 52, 48, 50, 50], [49, 51, 50, 50, 51, 49, 50, 50],
        [50, 50, 51, 49, 50, 50, 52, 48]]  # fmt: skip
UNEVEN = [[20, 80, 30, 70, 50, 45, 55, 25], [75, 35, 60, 40, 22, 78, 33, 67],
          [50, 28, 72, 41, 59, 30, 70, 52]]  # fmt: skip


def caught(readings: object, wind: float | None = None, name: str = "run1") -> CanRun:
    return replace(can_run(readings, name=name), wind_m_per_s=wind)


def of_day(
    day: dt.date, condition: str, *runs: CanRun, package: str | None = None
) -> CanTest:
    return can_test(*runs, date=day, condition=condition, package=package)


BEFORE, AFTER = dt.date(2026, 3, 24), dt.date(2026, 5, 19)


def changes(*tests: CanTest, rule: str = "low quarter") -> list[UniformityChange]:
    own = site(zone("Z4", rule=rule, heads=None, package=None))
    worked = evaluated_site(own, History(tests=tests), resamples=400)
    return list(uniformity_changes(own, worked, CHANGE, TODAY))


def change(wind: tuple[float | None, float | None] = (1.0, 1.0)) -> UniformityChange:
    old = of_day(BEFORE, "as found", caught(UNEVEN, wind[0]))
    new = of_day(AFTER, "after tune-up", caught(EVEN, wind[1]))
    return changes(old, new)[0]


def test_ranges_that_lie_apart_in_one_wind_band_prove_it() -> None:
    found = change()
    assert (found.verdict, found.is_same_band) == ("better", True)
    assert found.before.high is not None
    assert found.after.low is not None
    assert found.before.high < found.after.low


def test_another_wind_band_proves_nothing() -> None:
    found = change((1.0, 6.0))
    assert (found.verdict, found.is_same_band) == ("not proven", False)


def test_a_wind_that_nobody_knows_is_said() -> None:
    assert change((1.0, None)).is_same_band is None


def test_of_several_runs_only_those_in_the_shared_band_count() -> None:
    old = of_day(BEFORE, "as found", caught(EVEN, 6.0), caught(UNEVEN, 1.0, "run2"))
    new = of_day(AFTER, "after tune-up", caught(EVEN, 1.0))
    (found,) = changes(old, new)
    assert found.before.bands == ("calm",)
    assert found.before.n_runs == 1
    assert found.before.du_lq < 0.7


def test_the_potential_is_the_change_of_the_run_time_factor() -> None:
    found = change()
    assert found.factor_before == pytest.approx(1 / found.before.du_lq)
    assert found.potential == pytest.approx(1 - found.before.du_lq / found.after.du_lq)


def test_the_range_of_the_potential_holds_it() -> None:
    found = change()
    assert found.potential_low is not None
    assert found.potential_high is not None
    assert found.potential_low < found.potential < found.potential_high


def test_the_average_rule_saves_nothing_by_uniformity() -> None:
    old = of_day(BEFORE, "as found", caught(UNEVEN, 1.0))
    new = of_day(AFTER, "after tune-up", caught(EVEN, 1.0))
    assert changes(old, new, rule="average")[0].potential == 0.0


def test_a_zone_without_a_test_after_is_not_compared() -> None:
    assert changes(of_day(BEFORE, "as found", caught(UNEVEN))) == []


def test_a_test_after_the_end_does_not_count() -> None:
    old = of_day(BEFORE, "as found", caught(UNEVEN))
    new = of_day(dt.date(2026, 7, 1), "later", caught(EVEN))
    assert changes(old, new) == []


def test_a_stated_result_has_no_range_and_proves_nothing() -> None:
    old = replace(
        of_day(BEFORE, "as found"), stated=StatedResult(0.55, 12.0, "a report")
    )
    new = of_day(AFTER, "after tune-up", caught(EVEN, 1.0))
    (found,) = changes(old, new)
    assert (found.before.low, found.verdict) == (None, "not proven")


def test_the_same_test_the_other_way_round_is_worse() -> None:
    old = of_day(BEFORE, "as found", caught(EVEN, 1.0))
    new = of_day(AFTER, "worn", caught(UNEVEN, 1.0))
    assert changes(old, new)[0].verdict == "worse"
